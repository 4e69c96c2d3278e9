//! What the reader is told of meters and potentiometers that the list does not name: it has no field for what they show
//! or set, so that they were taken for their ratings alone.

use crate::arrangement::PlacedElement;
use crate::catalogue::ElementKind;
use crate::requirements::RequirementList;

/// A remark for each such element.
pub(super) fn remarks(list: &RequirementList, elements: &[PlacedElement]) -> Vec<String> {
    let is_named = |tag: &str| {
        let mut asked = list.elements.iter();
        asked.any(|element| element.tag == tag && element.part.is_some())
    };
    let words = elements
        .iter()
        .filter(|element| !is_named(&element.tag))
        .filter_map(|element| {
            let what = match element.kind {
                ElementKind::Ammeter | ElementKind::Voltmeter => "range and scale",
                ElementKind::Potentiometer => "resistance and scale",
                _ => return None,
            };
            let (tag, part, description) = (&element.tag, &element.part, &element.description);
            Some(format!(
                "{tag}: {part} ({description}) was taken for its ratings alone; have {what} settled, and name the `part` \
                 where another is meant"
            ))
        });
    words.collect()
}
