//! What the reader is told of elements that the list asks above others and that do not stand on their line.

use crate::arrangement::PlacedElement;
use crate::demand::Demand;
use crate::model::decide::Decided;
use crate::model::lid::{BesideLine, Pair, across, lid_problem};
use crate::number::number;
use crate::requirements::RequirementList;
use crate::workshop::Workshop;

/// One remark for each pair that does not stand straight.
pub(super) fn remarks(
    list: &RequirementList,
    demand: &Demand<'_>,
    workshop: &Workshop,
    decided: &Decided,
    elements: &[PlacedElement],
) -> Vec<String> {
    let problem = lid_problem(list, demand, &workshop.limits());
    let width_mm = decided.lid_rect.width_mm;
    let tag = |item: usize| list.elements[problem.items[item].element].tag.as_str();
    let x_mm = |tag: &str| {
        let mut placed = elements.iter();
        placed
            .find(|element| element.tag == tag)
            .map(|element| element.x_mm)
    };
    let across = across(&problem, &decided.lid, width_mm);
    let words = across.beside_line.iter().filter_map(|beside| {
        let (upper, lower) = (tag(beside.pair.0), tag(beside.pair.1));
        let off_mm = (x_mm(upper)? - x_mm(lower)?).abs();
        Some(format!(
            "{upper} is asked above {lower}: it stands {} mm beside its line, because {}",
            number(off_mm, 2),
            reason(beside, width_mm, tag)
        ))
    });
    words.collect()
}

/// Why a pair does not stand straight.
fn reason<'t>(beside: &BesideLine, width_mm: f64, tag: impl Fn(usize) -> &'t str) -> String {
    let straight =
        |(upper, lower): &Pair| format!("{} straight above {}", tag(*upper), tag(*lower));
    let others: Vec<String> = beside.because_of.iter().map(straight).collect();
    let others = others.join(" and ");
    let width = number(width_mm, 1);
    match (others.is_empty(), beside.is_too_narrow) {
        (true, _) => format!(
            "within the {width} mm of the lid that elements may take, their two rows with the gaps asked for leave no \
             line to both"
        ),
        (false, true) => format!(
            "with {others}, the {width} mm of the lid that elements may take are not wide enough for it too"
        ),
        (false, false) => format!(
            "with {others}, the order from left to right in the rows leaves no line to both"
        ),
    }
}

#[cfg(test)]
mod tests {
    use super::super::elements;
    use super::super::prepared::with_found;
    use super::*;

    const STATION: &str = include_str!("../../../examples/mixer-control-station.toml");

    /// Where lamp and start button of a station stand, and what is remarked of them.
    fn lamp_and_button(text: &str) -> (f64, f64, Vec<String>) {
        let mut seen = None;
        with_found(text, |list, demand, workshop, found| {
            let placed = elements::place(list, demand, &found.mounted, workshop, &found.decided);
            let x_mm = |tag: &str| {
                let mut placed = placed.iter();
                placed
                    .find(|element| element.tag == tag)
                    .map(|element| element.x_mm)
            };
            let told = remarks(list, demand, workshop, &found.decided, &placed);
            seen = x_mm("H1")
                .zip(x_mm("S1"))
                .map(|(lamp, button)| (lamp, button, told));
        });
        seen.expect("both are placed")
    }

    #[test]
    fn the_lamp_of_the_example_stands_over_its_button() {
        let (lamp_mm, button_mm, told) = lamp_and_button(STATION);
        assert_eq!(lamp_mm, button_mm);
        assert!(told.is_empty(), "{told:?}");
    }

    #[test]
    fn a_lamp_whose_place_in_the_row_is_named_stands_beside_and_the_reason_is_told() {
        let meter = "tag = \"A1\"\nkind = \"ammeter\"";
        assert!(STATION.contains(meter));
        let (lamp_mm, button_mm, told) =
            lamp_and_button(&STATION.replace(meter, &format!("{meter}\norder = 1")));
        let off_mm = number((lamp_mm - button_mm).abs(), 2);
        assert!(lamp_mm > button_mm);
        let [told] = told.as_slice() else {
            panic!("one remark: {told:?}");
        };
        let start =
            format!("H1 is asked above S1: it stands {off_mm} mm beside its line, because within");
        assert!(told.starts_with(&start), "{told}");
    }
}
