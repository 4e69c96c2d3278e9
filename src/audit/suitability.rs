//! Whether every part may stand in the area: level, group, class, ambient, protection. Knows nothing
//! of places and currents.

use super::case::{Cases, Rule, figure_text};
use super::certified::{Role, parts};
use super::context::Context;
use crate::catalogue::{CircuitKind, IpCode};
use crate::standards::iec_60079_0::{
    COVERING, EquipmentProtectionLevel, LevelOfProtection, TEMPERATURE_CLASSES, ZONES,
};
use crate::standards::{Source, Status};

const CERTIFICATES: Source = Source::new(
    "IEC 60079-14",
    "2013",
    "cl. 4, certificates of equipment",
    Status::FromMemory,
);
const PROTECTION: Source = Source::new(
    "IEC 60079-14",
    "2013",
    "cl. 5, selection by type of protection",
    Status::FromMemory,
);
const AMBIENT: Source = Source::new(
    "IEC 60079-0",
    "2017",
    "cl. 5.1.1 and 5.2, ambient and service temperature",
    Status::FromMemory,
);
const DEGREE: Source = Source::new(
    "IEC 60079-7",
    "2015+A1:2017",
    "cl. 4.10, IP54 at least (with IEC 60529)",
    Status::FromMemory,
);
const IMPACT: Source = Source::new(
    "IEC 60079-0",
    "2017",
    "cl. 26.4.2, impact test",
    Status::FromMemory,
);

/// Least degree of protection of an increased-safety enclosure.
const LEAST_IP: IpCode = IpCode {
    solids: 5,
    water: 4,
};
/// Energy of the impact test without a special condition, J.
const IMPACT_J: f64 = 7.0;

/// The rules of this group.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "suitability.area",
        title: "area stated completely",
        requires: "the area names at least one equipment protection level; one for gas comes with a gas group and a temperature class, one for dust with a dust group and a surface temperature; the lowest ambient temperature is not above the highest",
        source: ZONES,
        unit: "",
        check: area,
    },
    Rule {
        id: "suitability.certificate",
        title: "certificate of every part",
        requires: "every part but rails names the number of its certificate, on which all that is said of it rests",
        source: CERTIFICATES,
        unit: "",
        check: certificates,
    },
    Rule {
        id: "suitability.epl",
        title: "equipment protection level",
        requires: "the certificate of every part names a level that covers each level of the area; for dust this is asked of the enclosure and of what stands in its walls and lid, which protect what is inside",
        source: ZONES,
        unit: "",
        check: levels,
    },
    Rule {
        id: "suitability.gas_group",
        title: "gas group",
        requires: "the certified gas group of every part covers that of the area",
        source: COVERING,
        unit: "",
        check: gas_group,
    },
    Rule {
        id: "suitability.dust_group",
        title: "dust group",
        requires: "the certified dust group of the enclosure and of what stands in its walls and lid covers that of the area",
        source: COVERING,
        unit: "",
        check: dust_group,
    },
    Rule {
        id: "suitability.temperature_class",
        title: "temperature class",
        requires: "the temperature class of the power rating used covers the class of the area, and its limit does not exceed the surface temperature allowed for dust",
        source: TEMPERATURE_CLASSES,
        unit: "°C",
        check: temperature_class,
    },
    Rule {
        id: "suitability.ambient",
        title: "ambient temperature within the service range",
        requires: "the service range of every part contains the ambient range of the area; the margin is the distance to the nearer end",
        source: AMBIENT,
        unit: "K",
        check: ambient,
    },
    Rule {
        id: "suitability.ip",
        title: "degree of protection",
        requires: "enclosure, entries and elements reach the degree asked for and at least IP54; a water numeral of 7 or more does not include the jets of 5 and 6",
        source: DEGREE,
        unit: "",
        check: degree,
    },
    Rule {
        id: "suitability.protection",
        title: "type of protection",
        requires: "every part has a type of protection that fits where it is used: eb (ec for Gc) for enclosure, entries, elements and Ex e terminals and contacts; ia, ib or eb (ic, ec for Gc) for intrinsically safe ones; for dust ta or tb (tc for Dc) for enclosure, entries and elements",
        source: PROTECTION,
        unit: "",
        check: protection,
    },
    Rule {
        id: "suitability.impact",
        title: "impact test",
        requires: "the enclosure has passed the impact test with 7 J; a test with less needs a special condition that the list does not grant",
        source: IMPACT,
        unit: "J",
        check: impact,
    },
];

/// Whether a level is one for dust.
fn for_dust(level: EquipmentProtectionLevel) -> bool {
    use EquipmentProtectionLevel::{Da, Db, Dc};
    matches!(level, Da | Db | Dc)
}

/// How demanding a level is: 3 for very high, 1 for enhanced.
fn rank(level: EquipmentProtectionLevel) -> u8 {
    use EquipmentProtectionLevel::{Da, Db, Dc, Ga, Gb, Gc};
    match level {
        Ga | Da => 3,
        Gb | Db => 2,
        Gc | Dc => 1,
    }
}

fn serves(level: EquipmentProtectionLevel, required: EquipmentProtectionLevel) -> bool {
    for_dust(level) == for_dust(required) && rank(level) >= rank(required)
}

fn needed(context: &Context<'_>, dust: bool) -> bool {
    context
        .arrangement
        .area
        .epl
        .iter()
        .any(|level| for_dust(*level) == dust)
}

fn area(context: &Context<'_>, cases: &mut Cases) {
    let area = &context.arrangement.area;
    cases.is_so(!area.epl.is_empty(), &["area"], || {
        let levels: Vec<String> = area.epl.iter().map(|level| format!("{level:?}")).collect();
        format!(
            "equipment protection levels asked for: {}",
            or_none(&levels.join(", "))
        )
    });
    let mut stated = |needed: bool, known: bool, datum: &str| {
        if needed && !known {
            cases.unknown(&["area"], || format!("the {datum} of the area is missing"));
        }
    };
    stated(
        needed(context, false),
        area.gas_group.is_some(),
        "gas group",
    );
    stated(
        needed(context, false),
        area.temperature_class.is_some(),
        "temperature class",
    );
    stated(
        needed(context, true),
        area.dust_group.is_some(),
        "dust group",
    );
    stated(
        needed(context, true),
        area.max_surface_c.is_some(),
        "maximum surface temperature",
    );
    let [least, most] = area.ambient_c;
    cases.is_so(least <= most, &["area"], || {
        format!(
            "ambient temperature {} to {} °C",
            figure_text(least),
            figure_text(most)
        )
    });
}

fn or_none(text: &str) -> &str {
    if text.is_empty() { "none" } else { text }
}

fn certificates(context: &Context<'_>, cases: &mut Cases) {
    for (name, _, certificate) in parts(context) {
        match certificate.number.as_deref().map(str::trim) {
            None | Some("") => cases.unknown(&[&name], || {
                format!("the number of the certificate of {name} is missing")
            }),
            Some(number) => {
                cases.is_so(true, &[&name], || {
                    format!("{name} has certificate {number}")
                });
            }
        }
    }
}

fn levels(context: &Context<'_>, cases: &mut Cases) {
    for (name, role, certificate) in parts(context) {
        for required in &context.arrangement.area.epl {
            if for_dust(*required) && role != Role::Boundary {
                continue;
            }
            if certificate.epl.is_empty() {
                cases.unknown(&[&name], || {
                    format!("the certificate of {name} names no equipment protection level")
                });
                continue;
            }
            let holds = certificate
                .epl
                .iter()
                .any(|level| serves(*level, *required));
            cases.is_so(holds, &[&name], || {
                let given: Vec<String> = certificate
                    .epl
                    .iter()
                    .map(|level| format!("{level:?}"))
                    .collect();
                format!(
                    "{name} is certified for {}, {required:?} is asked for",
                    given.join(", ")
                )
            });
        }
    }
}

fn gas_group(context: &Context<'_>, cases: &mut Cases) {
    let Some(required) = context.arrangement.area.gas_group else {
        return cases.nothing("the area has no gas group");
    };
    for (name, _, certificate) in parts(context) {
        match certificate.gas_group {
            None => cases.unknown(&[&name], || {
                format!("the certificate of {name} names no gas group")
            }),
            // The groups are ordered: IIC is the most severe.
            Some(group) => cases.is_so(group >= required, &[&name], || {
                format!("{name} is certified for {group:?}, {required:?} is asked for")
            }),
        }
    }
}

fn dust_group(context: &Context<'_>, cases: &mut Cases) {
    let Some(required) = context.arrangement.area.dust_group else {
        return cases.nothing("the area has no dust group");
    };
    for (name, role, certificate) in parts(context) {
        if role != Role::Boundary {
            continue;
        }
        match certificate.dust_group {
            None => cases.unknown(&[&name], || {
                format!("the certificate of {name} names no dust group")
            }),
            Some(group) => cases.is_so(group >= required, &[&name], || {
                format!("{name} is certified for {group:?}, {required:?} is asked for")
            }),
        }
    }
}

fn temperature_class(context: &Context<'_>, cases: &mut Cases) {
    let arrangement = context.arrangement;
    let class = arrangement.heat.row_class;
    let enclosure = arrangement.enclosure.id.as_str();
    if let Some(required) = arrangement.area.temperature_class {
        cases.at_most(&[enclosure], class.limit_c(), required.limit_c(), || {
            format!("surface temperature of {class:?}, {required:?} is asked for")
        });
    }
    if let Some(limit_c) = arrangement.area.max_surface_c {
        cases.at_most(&[enclosure], class.limit_c(), limit_c, || {
            format!("surface temperature of {class:?}")
        });
    }
    if arrangement.area.temperature_class.is_none() && arrangement.area.max_surface_c.is_none() {
        cases.unknown(&[enclosure], || {
            "the area names neither a temperature class nor a surface temperature".to_string()
        });
    }
}

fn ambient(context: &Context<'_>, cases: &mut Cases) {
    let [least_c, most_c] = context.arrangement.area.ambient_c;
    for (name, _, certificate) in parts(context) {
        let Some([from_c, to_c]) = certificate.service_c else {
            cases.unknown(&[&name], || {
                format!("the service temperature of {name} is unknown")
            });
            continue;
        };
        cases.at_least(&[&name], least_c - from_c, 0.0, || {
            format!(
                "lowest ambient temperature {} °C above the least of {name}, {} °C",
                figure_text(least_c),
                figure_text(from_c)
            )
        });
        cases.at_least(&[&name], to_c - most_c, 0.0, || {
            format!(
                "highest ambient temperature {} °C below the most of {name}, {} °C",
                figure_text(most_c),
                figure_text(to_c)
            )
        });
    }
}

/// Whether a degree of protection may stand for another. Immersion (7, 8) and high-pressure cleaning
/// (9) are tests of their own and include only the numerals up to 4; 8 includes 7.
fn keeps_out(given: IpCode, required: IpCode) -> bool {
    let water = match (given.water, required.water) {
        (given, required) if given == required => true,
        (8, 7) => true,
        (7.., required) => required <= 4,
        (given, required) => given > required,
    };
    given.solids >= required.solids && water
}

fn degree(context: &Context<'_>, cases: &mut Cases) {
    let asked = context.arrangement.area.ip;
    for (name, role, certificate) in parts(context) {
        if role != Role::Boundary {
            continue;
        }
        let Some(given) = certificate.ip else {
            cases.unknown(&[&name], || {
                format!("the degree of protection of {name} is unknown")
            });
            continue;
        };
        for required in [asked, LEAST_IP] {
            cases.is_so(keeps_out(given, required), &[&name], || {
                format!("{name} has {given}, {required} is required")
            });
        }
    }
}

fn protection(context: &Context<'_>, cases: &mut Cases) {
    use LevelOfProtection::{Eb, Ec, Ia, Ib, Ic, Ta, Tb, Tc};
    for (name, role, certificate) in parts(context) {
        for required in &context.arrangement.area.epl {
            let fitting: &[LevelOfProtection] = match (role, for_dust(*required)) {
                (Role::Boundary, true) => &[Ta, Tb, Tc],
                (_, true) => continue,
                (Role::Inner(CircuitKind::IntrinsicallySafe), false) => &[Ia, Ib, Ic, Eb, Ec],
                (Role::Auxiliary, false) => &[Eb, Ec, Ia, Ib],
                (_, false) => &[Eb, Ec],
            };
            if certificate.protection.is_empty() {
                cases.unknown(&[&name], || {
                    format!("the certificate of {name} names no type of protection")
                });
                continue;
            }
            let holds = certificate.protection.iter().any(|word| {
                let level = fitting.iter().find(|level| level.word() == word);
                let gives = level.and_then(|level| {
                    if for_dust(*required) {
                        level.dust_level()
                    } else {
                        level.gas_level()
                    }
                });
                gives.is_some_and(|gives| serves(gives, *required))
            });
            cases.is_so(holds, &[&name], || {
                let words: Vec<&str> = fitting.iter().map(|level| level.word()).collect();
                format!(
                    "{name} has the types of protection {}; for {required:?} one of {} of that level is required",
                    certificate.protection.join(", "),
                    words.join(", ")
                )
            });
        }
    }
}

fn impact(context: &Context<'_>, cases: &mut Cases) {
    let enclosure = &context.arrangement.enclosure;
    match enclosure.impact_j {
        None => cases.unknown(&[&enclosure.id], || {
            format!("no impact test of the enclosure {} is known", enclosure.id)
        }),
        Some(energy_j) => cases.at_least(&[&enclosure.id], energy_j, IMPACT_J, || {
            format!("impact energy that {} has passed", enclosure.id)
        }),
    }
}
