//! Conductors against the words of their cable, and internal ones against the cores that they continue.
//! Reads the words with code of its own.

use crate::arrangement::{CableRecord, Wire, WireEnd};
use crate::audit::case::{Cases, Rule, figure_text};
use crate::audit::context::Context;
use crate::standards::awg::WireSize;
use crate::standards::{Source, Status};

const CORES: Source = Source::new(
    "requirement list",
    "",
    "cores of a cable",
    Status::CommonPractice,
);
const INTERNAL: Source = Source::new(
    "common practice",
    "",
    "section of the wires between terminals and contacts",
    Status::CommonPractice,
);

/// The rules of this file.
pub(super) static RULES: &[Rule] = &[
    Rule {
        id: "electrical.core_section",
        title: "sections as the cable has them",
        requires: "a cable has as many cores as its words name; the section of every conductor is the one that its own words name, and of a core one that the words of its cable name (a screen is its drain wire, which they do not name)",
        source: CORES,
        unit: "",
        check: core_section,
    },
    Rule {
        id: "electrical.internal_section",
        title: "internal conductors as thick as the cores before them",
        requires: "a conductor between a terminal and a contact is not thinner than the thickest core of its circuit, or than 2.5 mm² where that core is thicker, which contacts do not take",
        source: INTERNAL,
        unit: "mm²",
        check: internal_section,
    },
];

/// By what share two sections of one name may differ: that of a gauge is rounded.
const SAME_SHARE: f64 = 0.01;
/// The thickest conductor that goes on to a contact, mm².
const THICKEST_INTERNAL_MM2: f64 = 2.5;

fn same(one_mm2: f64, other_mm2: f64) -> bool {
    (one_mm2 - other_mm2).abs() <= SAME_SHARE * other_mm2.abs()
}

/// A section in words, such as `1.5 mm²`, `AWG 14` or `250 kcmil`, as mm².
fn section_mm2(words: &str) -> Option<f64> {
    let words = words.trim();
    let metric = words
        .strip_suffix("mm²")
        .or_else(|| words.strip_suffix("mm2"));
    match metric {
        Some(number) => number.trim().parse().ok().filter(|mm2| *mm2 > 0.0),
        None => words.parse::<WireSize>().ok().map(WireSize::area_mm2),
    }
}

/// One part of the words of a cable's cores, such as `24 x 1.5 mm2`, `5 G 2.5 mm2` or `PE 16 mm2`: how many cores
/// of which section.
fn part(words: &str) -> Option<(u32, f64)> {
    let words = words.trim();
    if let Some(section) = words.strip_prefix("PE") {
        return Some((1, section_mm2(section)?));
    }
    let (count, section) = words.split_once(['x', 'X', '×', 'G'])?;
    Some((count.trim().parse().ok()?, section_mm2(section)?))
}

/// The parts of the words of a cable; nothing where one of them cannot be read.
fn parts(cable: &CableRecord) -> Option<Vec<(u32, f64)>> {
    cable.cores.split('+').map(part).collect()
}

fn core_section(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("there are no conductors");
    for cable in &context.arrangement.cables {
        match parts(cable) {
            None => cases.unknown(&[&cable.tag], || {
                format!(
                    "the cores of {}, `{}`, cannot be read",
                    cable.tag, cable.cores
                )
            }),
            Some(parts) => {
                let named: u32 = parts.iter().map(|(count, _)| count).sum();
                cases.is_so(named == cable.core_count, &[&cable.tag], || {
                    format!(
                        "{} of `{}` is recorded with {} cores",
                        cable.tag, cable.cores, cable.core_count
                    )
                });
            }
        }
    }
    for wire in &context.arrangement.wires {
        let by_words = section_mm2(&wire.section);
        let agrees = by_words.is_some_and(|mm2| same(wire.section_mm2, mm2));
        cases.is_so(agrees, &[&wire.id], || {
            format!(
                "{} is `{}` in words and {} mm² in figures",
                wire.id,
                wire.section,
                figure_text(wire.section_mm2)
            )
        });
        for end in [&wire.from, &wire.to] {
            if let WireEnd::Core { cable, core } = end
                && core != "screen"
            {
                of_cable(context, wire, cable, cases);
            }
        }
    }
}

/// A core's section among those that the words of its cable name.
fn of_cable(context: &Context<'_>, wire: &Wire, cable: &str, cases: &mut Cases) {
    let named = context.cables.get(cable).and_then(|cable| parts(cable));
    // A cable that does not exist or cannot be read is told elsewhere.
    let Some(named) = named else { return };
    let among = named.iter().any(|(_, mm2)| same(wire.section_mm2, *mm2));
    cases.is_so(among, &[&wire.id, cable], || {
        format!(
            "{} has {} mm², its cable {cable} is `{}`",
            wire.id,
            figure_text(wire.section_mm2),
            context.cables[cable].cores
        )
    });
}

fn internal_section(context: &Context<'_>, cases: &mut Cases) {
    cases.nothing("no conductor leads from a terminal to a contact");
    for wire in &context.arrangement.wires {
        let ends = [&wire.from, &wire.to];
        let of_core = |end: &&WireEnd| matches!(end, WireEnd::Core { .. });
        let on_contact = |end: &&WireEnd| matches!(end, WireEnd::Contact { .. });
        if ends.iter().any(of_core) || !ends.iter().any(on_contact) {
            continue;
        }
        let cores = context.arrangement.wires.iter().filter(|other| {
            other.circuit == wire.circuit && [&other.from, &other.to].iter().any(of_core)
        });
        let thickest_mm2 = cores.map(|core| core.section_mm2).fold(0.0, f64::max);
        let required_mm2 = thickest_mm2.min(THICKEST_INTERNAL_MM2);
        cases.at_least(&[&wire.id], wire.section_mm2, required_mm2, || {
            format!(
                "section of {} of circuit {} to a contact",
                wire.id, wire.circuit
            )
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_of_cables_are_read() {
        let read = |words: &str| words.split('+').map(part).collect::<Option<Vec<_>>>();
        assert_eq!(read("24 x 1.5 mm2"), Some(vec![(24, 1.5)]));
        assert_eq!(read("5 G 2.5 mm²"), Some(vec![(5, 2.5)]));
        let mixed = read("3 x 35 mm2 + PE 16 mm2");
        assert_eq!(mixed, Some(vec![(3, 35.0), (1, 16.0)]));
        for words in ["", "1.5 mm2", "x 1.5 mm2", "3 x 1.5", "3 x -1 mm2"] {
            assert_eq!(read(words), None, "{words}");
        }
        let gauge = read("3 x AWG 14").expect("a gauge");
        assert!(same(gauge[0].1, 2.081), "{gauge:?}");
        assert!(same(section_mm2("250 kcmil").expect("a size"), 126.68));
    }
}
