//! What stays together in one box: cables and elements that no division may part, and those that
//! circuits join. Knows nothing of enclosures.

use crate::catalogue::{CircuitKind, TerminalFunction};
use crate::requirements::{End, RequirementList};
use std::collections::BTreeMap;

/// A cable or an element of the list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Item {
    /// Index of a cable.
    Cable(usize),
    /// Index of an element.
    Element(usize),
}

impl Item {
    /// What an end belongs to.
    pub(super) fn of(end: &End) -> Item {
        match end {
            End::Core { cable, .. } => Item::Cable(*cable),
            End::Contact { element, .. } => Item::Element(*element),
        }
    }
}

/// Items that must share a box.
#[derive(Debug, Clone)]
pub(super) struct Unit {
    /// The items, cables first, in the order of the list.
    pub(super) items: Vec<Item>,
    /// A rough size for balancing: one for each core, four for each item.
    pub(super) weight: u32,
    /// Number of the component: units that circuits join have the same one.
    pub(super) component: usize,
    /// Whether all its cables are intrinsically safe; an element alone takes no side.
    pub(super) intrinsically_safe: bool,
}

/// Sets that grow together.
struct Joined(Vec<usize>);

impl Joined {
    fn root(&self, mut index: usize) -> usize {
        while self.0[index] != index {
            index = self.0[index];
        }
        index
    }

    /// Joins two sets; the smaller index stays the root, so that the order of the list is kept.
    fn join(&mut self, a: usize, b: usize) {
        let (a, b) = (self.root(a), self.root(b));
        self.0[a.max(b)] = a.min(b);
    }
}

/// The units of a list, in its order. Parted are never: the ends of a direct circuit and of one on
/// double-level terminals, and all that feeds one link (its jumper can stand in one box only).
pub(super) fn units(list: &RequirementList) -> Vec<Unit> {
    let cables = list.cables.len();
    let index = |item: Item| match item {
        Item::Cable(cable) => cable,
        Item::Element(element) => cables + element,
    };
    let all = cables + list.elements.len();
    let mut glued = Joined((0..all).collect());
    let mut wired = Joined((0..all).collect());
    for circuit in &list.circuits {
        let whole = circuit.direct || circuit.terminal == TerminalFunction::DoubleLevel;
        let ends: Vec<usize> = circuit
            .poles
            .iter()
            .flat_map(|pole| pole.from.iter().chain(&pole.to))
            .map(|end| index(Item::of(end)))
            .collect();
        for pair in ends.windows(2) {
            wired.join(pair[0], pair[1]);
            if whole {
                glued.join(pair[0], pair[1]);
            }
        }
    }
    for link in &list.links {
        let poles = || {
            link.iter()
                .map(|(circuit, pole)| &list.circuits[*circuit].poles[*pole])
        };
        let feeds: Vec<usize> = poles()
            .filter_map(|pole| pole.from.as_ref())
            .map(|end| index(Item::of(end)))
            .collect();
        for pair in feeds.windows(2) {
            glued.join(pair[0], pair[1]);
        }
        let ends: Vec<usize> = poles()
            .flat_map(|pole| pole.from.iter().chain(&pole.to))
            .map(|end| index(Item::of(end)))
            .collect();
        for pair in ends.windows(2) {
            wired.join(pair[0], pair[1]);
        }
    }
    let mut by_root: BTreeMap<usize, Vec<Item>> = BTreeMap::new();
    for at in 0..all {
        let item = if at < cables {
            Item::Cable(at)
        } else {
            Item::Element(at - cables)
        };
        by_root.entry(glued.root(at)).or_default().push(item);
    }
    by_root
        .into_iter()
        .map(|(root, items)| Unit {
            weight: items.iter().map(|item| weight(list, *item)).sum(),
            component: wired.root(root),
            intrinsically_safe: items.iter().any(|item| is_safe(list, *item)),
            items,
        })
        .collect()
}

fn weight(list: &RequirementList, item: Item) -> u32 {
    match item {
        Item::Cable(cable) => 4 + list.cables[cable].cores.len() as u32,
        Item::Element(element) => 4 + 2 * list.elements[element].contacts.len() as u32,
    }
}

fn is_safe(list: &RequirementList, item: Item) -> bool {
    matches!(item, Item::Cable(cable) if list.cables[cable].kind == CircuitKind::IntrinsicallySafe)
}
