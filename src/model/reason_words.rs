//! The words of the reasons against a candidate: what is needed, then what there is. Decides nothing.

use super::reason::{Freely, Reason};
use crate::space::Face;
use itertools::Itertools;
use std::fmt;

impl fmt::Display for Reason {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Reason::NotWanted(why) | Reason::NotSo(why) => formatter.write_str(why),
            Reason::TooLarge {
                outer_mm,
                allowed_mm,
            } => {
                let pairs: Vec<[String; 2]> = (0..3)
                    .map(|axis| apart(outer_mm[axis], allowed_mm[axis], 0))
                    .collect();
                let [outer, allowed] =
                    [0, 1].map(|of| pairs.iter().map(|pair| pair[of].as_str()).join(" × "));
                write!(
                    formatter,
                    "it measures {outer} mm; the list allows {allowed} mm"
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
                rating,
                reserve_percent,
            } => {
                let [power, permitted] = apart(*power_w, *permitted_w, 2);
                let free = if *reserve_percent > 0.0 {
                    format!(", less {reserve_percent} % kept free")
                } else {
                    String::new()
                };
                write!(
                    formatter,
                    "it would dissipate {power} W; at most {permitted} W is permitted (rating for {rating}{free})"
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
                let [needed, available] = apart(needed_mm2 / 100.0, available_mm2 / 100.0, 0);
                let walls_of = words(walls);
                let offer = if walls.len() == 1 { "offers" } else { "offer" };
                if *by_area {
                    write!(
                        formatter,
                        "the entries with their gaps need {needed} cm²; {walls_of} {offer} {available} cm²"
                    )
                } else {
                    write!(
                        formatter,
                        "the entries with their gaps would cover {needed} cm² of the {available} cm² of \
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
            } => {
                let [needed, available] = apart(*needed_mm, *available_mm, 0);
                write!(
                    formatter,
                    "the rows of terminals with their wiring spaces need {needed} mm of height; {available} mm is \
                     available"
                )
            }
            Reason::Depth {
                what,
                needed_mm,
                available_mm,
            } => {
                let [needed, available] = apart(*needed_mm, *available_mm, 0);
                write!(
                    formatter,
                    "{what} need {needed} mm of depth; {available} mm is available"
                )
            }
            Reason::Lid {
                needed_mm,
                available_mm,
            } => {
                let [width, usable_width] = apart(needed_mm[0], available_mm[0], 0);
                let [height, usable_height] = apart(needed_mm[1], available_mm[1], 0);
                write!(
                    formatter,
                    "the operating elements need {width} × {height} mm of the lid; {usable_width} × {usable_height} \
                     mm is usable"
                )
            }
            Reason::ElementsAndTerminals {
                needed_mm,
                available_mm,
                depth_needed_mm,
                depth_mm,
            } => {
                let [height, of_height] = apart(*needed_mm, *available_mm, 0);
                let [depth, of_depth] = apart(*depth_needed_mm, *depth_mm, 0);
                write!(
                    formatter,
                    "operating elements and terminals need either {height} mm of height, the one above the other \
                     ({of_height} mm is available), or {depth} mm of depth, the one before the other ({of_depth} mm \
                     is available)"
                )
            }
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

/// Two figures with so many decimals, or as many more as tell them apart.
fn apart(one: f64, other: f64, decimals: usize) -> [String; 2] {
    const MOST: usize = 6;
    let written = |decimals: usize| [one, other].map(|value| format!("{value:.decimals$}"));
    (decimals..MOST)
        .map(written)
        .find(|[one, other]| one != other)
        .unwrap_or_else(|| {
            // Equal to the last decimal that is written: said shortly.
            written(if one == other { decimals } else { MOST })
        })
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

#[cfg(test)]
mod tests {
    use super::apart;

    #[test]
    fn two_figures_are_written_so_that_they_differ() {
        assert_eq!(apart(92.5, 92.0, 0), ["92.5", "92.0"]);
        assert_eq!(apart(120.4, 92.0, 0), ["120", "92"]);
        assert_eq!(apart(33.004, 33.0, 2), ["33.004", "33.000"]);
        assert_eq!(apart(50.0, 50.0, 0), ["50", "50"]);
    }
}
