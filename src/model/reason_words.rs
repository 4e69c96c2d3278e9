//! The words of the reasons against a candidate: what is needed, then what there is. Decides nothing.

use super::reason::{Freely, Reason};
use crate::space::Face;
use std::fmt;

impl fmt::Display for Reason {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Reason::NotWanted(why) | Reason::NotSo(why) => formatter.write_str(why),
            Reason::TooLarge {
                outer_mm,
                allowed_mm,
            } => {
                let size = |[w, h, d]: &[f64; 3]| format!("{w:.0} × {h:.0} × {d:.0} mm");
                write!(
                    formatter,
                    "it measures {}; the list allows {}",
                    size(outer_mm),
                    size(allowed_mm)
                )
            }
            Reason::Certificate(why) => formatter.write_str(why),
            Reason::NoRating { needed, has } => {
                write!(
                    formatter,
                    "it has no rated power for {needed}; its ratings are {has}"
                )
            }
            Reason::Heat {
                power_w,
                permitted_w,
            } => {
                // As many decimals as tell the two apart.
                let decimals = (2..6)
                    .find(|decimals| {
                        format!("{power_w:.decimals$}") != format!("{permitted_w:.decimals$}")
                    })
                    .unwrap_or(6);
                write!(
                    formatter,
                    "it would dissipate {power_w:.decimals$} W; at most {permitted_w:.decimals$} W is permitted"
                )
            }
            Reason::TerminalCount { needed, allowed } => {
                write!(
                    formatter,
                    "{needed} terminals are needed; its certificate allows {allowed}"
                )
            }
            Reason::BareParts {
                part,
                has_mm,
                needed_mm,
            } => write!(
                formatter,
                "bare parts of `{part}` would be {has_mm} mm from the metal lid; {needed_mm} mm is needed"
            ),
            Reason::NoWall { walls } => {
                let may = if walls.len() == 1 { "must" } else { "may" };
                write!(
                    formatter,
                    "{} {may} not be drilled, and an entry is tied there",
                    words(walls)
                )
            }
            Reason::Thread { needed, walls } => {
                write!(
                    formatter,
                    "an entry needs thread {needed}, which is too large for {}",
                    words(walls)
                )
            }
            Reason::WallThickness {
                part,
                takes_mm,
                wall_mm,
            } => write!(
                formatter,
                "its wall of {wall_mm} mm is outside the {} to {} mm that `{part}` takes",
                takes_mm[0], takes_mm[1]
            ),
            Reason::Entries {
                walls,
                needed_mm2,
                available_mm2,
                by_area,
            } => {
                let [needed, available] = [needed_mm2, available_mm2].map(|area| area / 100.0);
                let walls_of = words(walls);
                let offer = if walls.len() == 1 { "offers" } else { "offer" };
                if *by_area {
                    write!(
                        formatter,
                        "the entries with their gaps need {needed:.0} cm²; {walls_of} {offer} {available:.0} cm²"
                    )
                } else {
                    write!(
                        formatter,
                        "the entries with their gaps would cover {needed:.0} cm² of the {available:.0} cm² of \
                         {walls_of}, but no division into rows takes them all"
                    )
                }
            }
            Reason::EntrySize {
                walls,
                envelope_mm,
                room_mm,
            } => write!(
                formatter,
                "an entry needs {envelope_mm:.1} mm each way; {} at most {:.1} × {:.1} mm",
                if walls.len() == 1 {
                    format!("{} has", words(walls))
                } else {
                    format!("{} have", words(walls))
                },
                room_mm[0],
                room_mm[1]
            ),
            Reason::Rails {
                needed_mm,
                rail_mm,
                most_rails,
            } => {
                write!(
                    formatter,
                    "terminals and accessories need {needed_mm:.0} mm of rail; "
                )?;
                match most_rails {
                    0 => formatter.write_str("there is room for no rail")?,
                    1 => write!(formatter, "there is room for one rail of {rail_mm:.0} mm")?,
                    more => write!(
                        formatter,
                        "there is room for {more} rails of {rail_mm:.0} mm"
                    )?,
                }
                // Length in sum would do: what cannot be divided, or must be apart, decides.
                if *needed_mm <= *rail_mm * f64::from(*most_rails) {
                    formatter.write_str(", but no order of the terminals keeps all distances")?;
                }
                Ok(())
            }
            Reason::Height {
                needed_mm,
                available_mm,
            } => write!(
                formatter,
                "the rows of terminals with their wiring spaces need {needed_mm:.0} mm of height; {available_mm:.0} mm is available"
            ),
            Reason::Depth {
                what,
                needed_mm,
                available_mm,
            } => {
                write!(
                    formatter,
                    "{what} need {needed_mm:.0} mm of depth; {available_mm:.0} mm is available"
                )
            }
            Reason::Lid {
                needed_mm,
                available_mm,
            } => write!(
                formatter,
                "the operating elements need {:.0} × {:.0} mm of the lid; {:.0} × {:.0} mm is usable",
                needed_mm[0], needed_mm[1], available_mm[0], available_mm[1]
            ),
            Reason::ElementsAndTerminals {
                needed_mm,
                available_mm,
                depth_needed_mm,
                depth_mm,
            } => write!(
                formatter,
                "operating elements above the terminals need {needed_mm:.0} mm of height ({available_mm:.0} mm is available), in \
                 front of them {depth_needed_mm:.0} mm of depth ({depth_mm:.0} mm is available)"
            ),
            Reason::Together(inner) => {
                write!(
                    formatter,
                    "once the entries have the walls that they need, {inner}"
                )
            }
            Reason::Undecided(why) => write!(formatter, "neither placed nor disproved: {why}"),
            Reason::Freely(Freely::Disproved) => formatter.write_str(
                "the entries find no room on any walls that leave room for the rest (proved)",
            ),
            Reason::Freely(Freely::Open) => formatter.write_str(
                "no free placement of the entries was found; that there is none is not proved",
            ),
            Reason::InRows {
                rows,
                freely: Freely::Disproved,
            } => write!(
                formatter,
                "{rows}; placing them freely cannot help (proved)"
            ),
            Reason::InRows {
                rows,
                freely: Freely::Open,
            } => write!(
                formatter,
                "{rows}; no free placement was found either; that there is none is not proved"
            ),
        }
    }
}

/// Walls in words: `the bottom wall`, `the bottom and left walls`.
fn words(walls: &[Face]) -> String {
    match walls {
        [] => "no wall".to_string(),
        [one] => format!("the {one} wall"),
        [first @ .., last] => {
            let first = first
                .iter()
                .map(|wall| wall.name())
                .collect::<Vec<_>>()
                .join(", ");
            format!("the {first} and {last} walls")
        }
    }
}
