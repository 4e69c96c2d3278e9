//! Temperatures inside a box at a power: air, faces, hottest terminal, cable entry and branching.
//! Knows nothing of ratings and of where parts stand.
//!
//! All of it is an estimate with simple assumptions, each of which errs towards too warm; they are
//! listed in [`ASSUMPTIONS`] and come back with the result.

use super::balance::{Balance, BoxFace, ClosedBox, Mounting, Wall};
use super::determined::Determined;
use super::local::terminal_rise_k;
use super::tr_60890;
use crate::catalogue::{Material, SectionRating};
use crate::standards::iec_60079_0::{BRANCHING_TEMPERATURE_LIMIT_C, ENTRY_TEMPERATURE_LIMIT_C};
use crate::standards::iec_tr_60890::Rise;
use crate::standards::provenance::OutOfRange;
use serde::Serialize;

pub use crate::standards::iec_60079_0::ENTRY_TEMPERATURE as ENTRY_SOURCE;

/// What the estimate takes for granted.
pub const ASSUMPTIONS: [&str; 6] = [
    "the box hangs on a wall, its rear face passes no heat",
    "for this estimate the resistances are those at the limit of the temperature class; the power \
     held against the certificate has those at its reference temperature",
    "the ambient temperature is the highest asked for, without sun",
    "a terminal's rise is reached at the rated current of the section in use and goes with the \
     square of the current, simultaneity left out",
    "a cable in its gland is as warm as something between the inner face of its wall and the air \
     inside; the upper end decides",
    "conductors branch between the temperature of the air inside and that of the hottest terminal \
     on which a cable's core ends; the upper end decides",
];

/// What is taken for granted of a box of stainless steel besides.
pub const BARE_STAINLESS: &str =
    "the stainless steel is bare and clean, its emissivity of 0.3 is from memory";

/// A part on which conductors with current end.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadedPart {
    /// Its name, such as `X1:3`.
    pub name: String,
    /// Largest continuous current, A.
    pub current_a: f64,
    /// Its rise above the air at its rated current, K, and that current for the section in use, A; or
    /// which datum is missing.
    pub rise_at_rated: Determined<(f64, f64)>,
    /// Whether a core of a cable ends on it.
    pub takes_core: bool,
}

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// Outer width, height and depth, mm.
    pub outer_mm: [f64; 3],
    /// Material of the walls.
    pub material: Material,
    /// Their thickness, mm.
    pub wall_thickness_mm: f64,
    /// Ambient temperature, °C.
    pub ambient_c: f64,
    /// Power inside, W.
    pub power_w: f64,
    /// Limit of the temperature class less the margin of the type test, °C.
    pub limit_c: f64,
    /// Parts with current.
    pub parts: Vec<LoadedPart>,
    /// Faces through which cables enter.
    pub entry_faces: Vec<BoxFace>,
}

/// The hottest part by the estimate.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HottestPart {
    /// Its name.
    pub name: String,
    /// Its current, A.
    pub current_a: f64,
    /// Its rise at its rated current, K.
    pub rise_at_rated_k: f64,
    /// That current, A.
    pub rated_current_a: f64,
    /// Its rise above the air, K.
    pub local_rise_k: f64,
    /// Its temperature, °C.
    pub temperature_c: f64,
    /// Limit of the class less the margin, °C.
    pub limit_c: f64,
    /// Whether it stays within.
    pub within_limit: bool,
}

/// A part whose rise is not known.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct UnknownRise {
    /// Its name.
    pub name: String,
    /// Which datum is missing.
    pub missing: String,
}

/// A temperature that decides which cable may be used.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct CableTemperature {
    /// Lower and upper end of the estimate, °C.
    pub between_c: [f64; 2],
    /// Above this the box must say so outside, °C.
    pub limit_c: f64,
    /// Whether the upper end passes the limit.
    pub passed: bool,
}

impl CableTemperature {
    fn new(between_c: [f64; 2], limit_c: f64) -> Self {
        CableTemperature {
            between_c,
            limit_c,
            passed: between_c[1] > limit_c,
        }
    }
}

/// The estimate.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct InsideEstimate {
    /// The box as reckoned.
    pub closed_box: ClosedBox,
    /// The heat balance: air and every face.
    pub balance: Balance,
    /// The hottest part whose rise is known.
    pub hottest: Determined<HottestPart>,
    /// Parts with current whose rise is not known.
    pub unknown_rises: Vec<UnknownRise>,
    /// Temperature at the cable entry.
    pub entry: CableTemperature,
    /// Temperature where the conductors branch.
    pub branching: Determined<CableTemperature>,
    /// The technical report's estimate at the same power, or why it gives none.
    pub report: Determined<Rise>,
    /// What is taken for granted.
    pub assumptions: Vec<&'static str>,
}

/// The box that hangs on a wall.
///
/// # Errors
/// A material whose surface is not known to the balance, in words.
pub fn closed_box(
    outer_mm: [f64; 3],
    material: Material,
    wall_thickness_mm: f64,
) -> Result<ClosedBox, String> {
    let wall = match material {
        Material::Grp => Wall::GRP,
        Material::Stainless => Wall::BARE_STAINLESS,
        Material::Steel => Wall::PAINTED_STEEL,
        // Cast boxes are painted or bare, which changes their radiation several times over.
        Material::Aluminium | Material::Brass | Material::Polyamide => {
            return Err(format!(
                "conductivity and emissivity of a wall of {material} are not known"
            ));
        }
    };
    let [width_mm, height_mm, depth_mm] = outer_mm;
    Ok(ClosedBox {
        width_mm,
        height_mm,
        depth_mm,
        wall: wall.with_thickness_mm(wall_thickness_mm),
        mounting: Mounting::Wall,
    })
}

/// The rated current of a part for a section: that of the largest listed section which is not larger.
/// A thicker conductor never lowers it.
pub fn rated_current_a(ratings: &[SectionRating], section_mm2: f64) -> Option<f64> {
    ratings
        .iter()
        .filter(|rating| rating.section_mm2 <= section_mm2 * (1.0 + 1e-6))
        .max_by(|a, b| a.section_mm2.total_cmp(&b.section_mm2))
        .map(|rating| rating.current_a)
}

/// What is taken for granted for a box of a material.
fn assumptions(material: Material) -> Vec<&'static str> {
    let mut found = ASSUMPTIONS.to_vec();
    if material == Material::Stainless {
        found.push(BARE_STAINLESS);
    }
    found
}

/// Estimates the temperatures inside.
///
/// # Errors
/// A size, wall, ambient temperature or power outside the range of the heat balance.
pub fn estimate(closed_box: ClosedBox, question: &Question) -> Result<InsideEstimate, OutOfRange> {
    let balance = closed_box.for_power(question.power_w, question.ambient_c)?;
    let air_c = balance.inside_air_c;
    let mut unknown_rises = Vec::new();
    let mut hottest: Option<HottestPart> = None;
    // Of the parts on which cores end: the greatest rise, and the first one that is unknown.
    let (mut rise_at_cores_k, mut unknown_at_cores): (Option<f64>, Option<String>) = (None, None);
    for part in question.parts.iter().filter(|part| part.current_a != 0.0) {
        let known = part
            .rise_at_rated
            .known()
            .copied()
            .ok_or_else(|| part.rise_at_rated.reason().unwrap_or_default().to_string())
            .and_then(|(rise_k, rated_a)| {
                terminal_rise_k(rise_k, rated_a, part.current_a)
                    .map(|local_k| (rise_k, rated_a, local_k))
                    .map_err(|error| error.to_string())
            });
        match known {
            Ok((rise_at_rated_k, rated_current_a, local_rise_k)) => {
                if part.takes_core {
                    rise_at_cores_k = Some(rise_at_cores_k.unwrap_or(0.0_f64).max(local_rise_k));
                }
                if hottest
                    .as_ref()
                    .is_none_or(|other| local_rise_k > other.local_rise_k)
                {
                    hottest = Some(HottestPart {
                        name: part.name.clone(),
                        current_a: part.current_a,
                        rise_at_rated_k,
                        rated_current_a,
                        local_rise_k,
                        temperature_c: air_c + local_rise_k,
                        limit_c: question.limit_c,
                        within_limit: air_c + local_rise_k <= question.limit_c,
                    });
                }
            }
            Err(missing) => {
                if part.takes_core && unknown_at_cores.is_none() {
                    unknown_at_cores = Some(format!("{}: {missing}", part.name));
                }
                unknown_rises.push(UnknownRise {
                    name: part.name.clone(),
                    missing,
                });
            }
        }
    }
    let wall_c = balance
        .faces
        .iter()
        .filter(|face| question.entry_faces.is_empty() || question.entry_faces.contains(&face.face))
        .map(|face| face.inner_surface_c)
        .fold(balance.ambient_c, f64::max);
    let branching = match (unknown_at_cores, rise_at_cores_k) {
        // Even where the air alone passes the limit, by how much the terminal does is not known: a test settles it.
        (Some(missing), _) => Determined::NotDetermined(missing),
        (None, rise_k) => Determined::Known(CableTemperature::new(
            [air_c, air_c + rise_k.unwrap_or(0.0)],
            BRANCHING_TEMPERATURE_LIMIT_C,
        )),
    };
    Ok(InsideEstimate {
        closed_box,
        hottest: hottest.map_or_else(
            || Determined::NotDetermined("the rise of no part with current is known".into()),
            Determined::Known,
        ),
        unknown_rises,
        entry: CableTemperature::new([wall_c, air_c], ENTRY_TEMPERATURE_LIMIT_C),
        branching,
        report: tr_60890::rise_for_power(&closed_box, question.power_w).into(),
        assumptions: assumptions(question.material),
        balance,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn part(name: &str, current_a: f64, rise: Option<(f64, f64)>) -> LoadedPart {
        LoadedPart {
            name: name.into(),
            current_a,
            rise_at_rated: match rise {
                Some(rise) => Determined::Known(rise),
                None => Determined::NotDetermined("its rise is not in the catalogue".into()),
            },
            takes_core: true,
        }
    }

    fn question(power_w: f64, parts: Vec<LoadedPart>) -> Question {
        Question {
            outer_mm: [271.0, 271.0, 135.0],
            material: Material::Grp,
            wall_thickness_mm: 4.0,
            ambient_c: 40.0,
            power_w,
            limit_c: 80.0,
            parts,
            entry_faces: vec![BoxFace::Bottom],
        }
    }

    fn answer(question: &Question) -> InsideEstimate {
        let closed_box = closed_box(
            question.outer_mm,
            question.material,
            question.wall_thickness_mm,
        )
        .expect("known material");
        estimate(closed_box, question).expect("in range")
    }

    /// The box of the reference values: 21.209 W warm its air by 20 K, its bottom to 51.008 °C.
    #[test]
    fn air_terminal_entry_and_branching_of_the_reference_box() {
        let found = answer(&question(
            21.209,
            vec![
                part("X1:1", 10.0, Some((40.0, 20.0))),
                part("X1:2", 12.0, Some((40.0, 20.0))),
            ],
        ));
        assert!((found.balance.inside_rise_k - 20.0).abs() < 1e-3);
        let hottest = found.hottest.known().expect("known");
        assert_eq!(hottest.name, "X1:2");
        // 40 K × (12/20)²
        assert!((hottest.local_rise_k - 14.4).abs() < 1e-9);
        assert!((hottest.temperature_c - 74.4).abs() < 1e-3 && hottest.within_limit);
        assert!((found.entry.between_c[0] - 51.008).abs() < 2e-3);
        assert!((found.entry.between_c[1] - 60.0).abs() < 1e-3 && !found.entry.passed);
        let branching = found.branching.known().expect("known");
        assert!((branching.between_c[1] - 74.4).abs() < 1e-3 && !branching.passed);
        assert!((found.report.known().expect("large enough").power_w - 21.209).abs() < 1e-9);
    }

    #[test]
    fn limits_are_seen_to_be_passed() {
        let found = answer(&question(
            36.0,
            vec![part("X1:1", 20.0, Some((40.0, 20.0)))],
        ));
        assert!(found.balance.inside_air_c > 70.0 && found.entry.passed);
        assert!(!found.hottest.known().expect("known").within_limit);
        assert!(found.branching.known().expect("known").passed);
    }

    #[test]
    fn what_is_unknown_is_named_and_never_taken_as_cool() {
        let found = answer(&question(
            10.0,
            vec![
                part("X1:1", 5.0, Some((40.0, 20.0))),
                part("X1:2", 5.0, None),
                // Above its rated current the test says nothing.
                part("X1:3", 21.0, Some((40.0, 20.0))),
            ],
        ));
        assert_eq!(found.hottest.known().expect("known").name, "X1:1");
        let names: Vec<&str> = found
            .unknown_rises
            .iter()
            .map(|unknown| unknown.name.as_str())
            .collect();
        assert_eq!(names, ["X1:2", "X1:3"]);
        let reason = found.branching.reason().expect("not determined");
        assert!(reason.starts_with("X1:2: its rise"), "{reason}");
        // With the air itself above 80 °C the entry needs its marking; how much more the terminal needs is unknown.
        let found = answer(&question(60.0, vec![part("X1:2", 5.0, None)]));
        assert!(found.balance.inside_air_c > 80.0 && found.entry.passed);
        assert!(found.branching.reason().is_some() && found.hottest.reason().is_some());
    }

    #[test]
    fn a_part_without_current_is_neither_hot_nor_unknown() {
        let found = answer(&question(10.0, vec![part("X1:1", 0.0, None)]));
        assert!(found.unknown_rises.is_empty() && found.hottest.known().is_none());
        assert!(found.branching.known().is_some());
    }

    #[test]
    fn the_report_refuses_the_small_box_and_says_why() {
        let small = Question {
            outer_mm: [80.0, 80.0, 60.0],
            ..question(1.0, Vec::new())
        };
        let found = answer(&small);
        let reason = found.report.reason().expect("refused");
        assert!(reason.contains("effective cooling surface"), "{reason}");
        assert!(found.balance.inside_rise_k > 0.0);
    }

    #[test]
    fn a_wall_whose_surface_is_unknown_is_not_guessed() {
        let error = closed_box([200.0; 3], Material::Aluminium, 4.0).expect_err("unknown");
        assert!(error.contains("aluminium"), "{error}");
    }

    #[test]
    fn the_rated_current_of_a_section_is_never_that_of_a_thicker_one() {
        let rating = |section_mm2, current_a| SectionRating {
            section_mm2,
            current_a,
        };
        let ratings = [rating(1.5, 15.0), rating(2.5, 21.0)];
        assert_eq!(rated_current_a(&ratings, 2.08), Some(15.0));
        assert_eq!(rated_current_a(&ratings, 2.5), Some(21.0));
        assert_eq!(rated_current_a(&ratings, 4.0), Some(21.0));
        assert_eq!(rated_current_a(&ratings, 1.0), None);
    }
}
