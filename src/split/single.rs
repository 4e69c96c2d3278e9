//! The list with one cable or element and nothing else.

use super::units::{Item, units};
use crate::catalogue::TerminalFunction;
use crate::requirements::{End, RequirementList};

/// A cable or element by itself.
pub(super) struct Single {
    /// Such as `cable W1`.
    pub(super) what: String,
    /// Equal for those that are alike but for their tags.
    pub(super) kind: String,
    /// The list with nothing else.
    pub(super) list: RequirementList,
}

/// Each cable and element by itself. Cores then end on terminals of their own, which is no more than any
/// circuit asks for; where circuits are direct or on double-level terminals that does not hold, and they are
/// left out, like what only goes together.
pub(super) fn singles(list: &RequirementList) -> Vec<Single> {
    let mut bare = list.clone();
    bare.circuits.clear();
    bare.links.clear();
    bare.cables.clear();
    bare.elements.clear();
    let dense = |item: Item| {
        let circuits = list.circuits.iter();
        let mut dense = circuits
            .filter(|circuit| circuit.direct || circuit.terminal == TerminalFunction::DoubleLevel);
        let is_it = |end: &End| Item::of(end) == item;
        dense.any(|circuit| {
            let poles = circuit.poles.iter();
            let mut ends = poles.flat_map(|pole| pole.from.iter().chain(&pole.to));
            ends.any(is_it)
        })
    };
    units(list)
        .iter()
        .filter(|unit| unit.items.len() == 1 && !dense(unit.items[0]))
        .map(|unit| {
            let mut one = bare.clone();
            let (what, kind) = match unit.items[0] {
                Item::Cable(at) => {
                    let cable = &list.cables[at];
                    one.cables.push(cable.clone());
                    let mut alike = cable.clone();
                    alike.tag = String::new();
                    alike.place = list.place.clone();
                    (format!("cable {}", cable.tag), format!("{alike:?}"))
                }
                Item::Element(at) => {
                    let mut element = list.elements[at].clone();
                    (element.placing.above, element.placing.beside) = (None, None);
                    let what = format!("element {}", element.tag);
                    one.elements.push(element);
                    (what.clone(), what)
                }
            };
            Single {
                what,
                kind,
                list: one,
            }
        })
        .collect()
}
