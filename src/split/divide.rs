//! From an assignment of cables and elements to the circuits of each box and the connecting cables.
//!
//! A pole whose ends lie in different boxes gets terminals in both and one core of a connecting cable
//! between them. It stays where it comes from; what it goes to in the other box is reached through
//! that core. The jumper of a link stays where the link is fed.

use super::units::Item;
use crate::catalogue::{CircuitKind, ConductorBuild};
use crate::requirements::{Cable, Circuit, CircuitGroup, CoreName, End, RequirementList, Section};
use crate::source::Findings;
use serde::Serialize;
use std::collections::BTreeMap;

/// Numbers of cores, protective conductor included, in which connecting cables are taken
/// (`common practice`: those that are usually ready made; no published source).
pub const READY_CORES: [u32; 9] = [2, 3, 4, 5, 7, 12, 19, 24, 37];

/// A cable from one box to the other.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ConnectingCable {
    /// Tag, the same in both lists.
    pub tag: String,
    /// Cores as a list words them.
    pub cores: String,
    /// Number of cores that circuits use.
    pub used: u32,
    /// Cores that no circuit uses, the protective one not counted.
    pub unused: u32,
    /// Whether it carries a protective conductor.
    pub protective: bool,
    /// Whether it is screened.
    pub screened: bool,
    /// Whether it is armoured.
    pub armoured: bool,
    /// Group of its circuits.
    pub group: CircuitGroup,
    /// What each core carries, in order: circuit and number of the pole from 1.
    pub carries: Vec<(String, usize)>,
    #[serde(skip)]
    pub(super) build: ConductorBuild,
}

/// An end in one box.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum HalfEnd {
    /// As in the list.
    Own(End),
    /// A core of a connecting cable, by its index and number.
    Connecting(usize, u32),
}

/// One pole in one box.
#[derive(Debug, Clone)]
pub(super) struct HalfPole {
    pub(super) pole: usize,
    pub(super) from: Option<HalfEnd>,
    pub(super) to: Vec<HalfEnd>,
}

/// What of a circuit lies in one box.
#[derive(Debug, Clone)]
pub(super) struct HalfCircuit {
    pub(super) circuit: usize,
    pub(super) current_a: f64,
    pub(super) branch_current_a: f64,
    pub(super) poles: Vec<HalfPole>,
}

/// One box.
#[derive(Debug, Clone, Default)]
pub(super) struct Half {
    pub(super) cables: Vec<usize>,
    pub(super) elements: Vec<usize>,
    pub(super) circuits: Vec<HalfCircuit>,
    /// Links by circuit and pole of the list.
    pub(super) links: Vec<Vec<(usize, usize)>>,
    /// Connecting cables by index: all of them enter both boxes.
    pub(super) connecting: usize,
}

/// Both boxes.
#[derive(Debug, Clone)]
pub(super) struct Division {
    pub(super) halves: [Half; 2],
    pub(super) connecting: Vec<ConnectingCable>,
}

/// In which box each item lies.
pub(super) struct Assignment {
    pub(super) cables: Vec<usize>,
    pub(super) elements: Vec<usize>,
}

impl Assignment {
    fn of(&self, end: &End) -> usize {
        match Item::of(end) {
            Item::Cable(cable) => self.cables[cable],
            Item::Element(element) => self.elements[element],
        }
    }
}

/// Divides a list.
pub(super) fn divide(list: &RequirementList, boxes: &Assignment) -> Division {
    let homes = homes_of_links(list, boxes);
    let mut connecting = Connecting::default();
    let mut halves = [Half::default(), Half::default()];
    for (at, half) in halves.iter_mut().enumerate() {
        half.cables = positions(&boxes.cables, at);
        half.elements = positions(&boxes.elements, at);
    }
    for (index, circuit) in list.circuits.iter().enumerate() {
        let mut parts = [part(index, circuit), part(index, circuit)];
        let home_of = |pole: usize| -> usize {
            let ends = &circuit.poles[pole];
            match (&ends.from, homes.get(&(index, pole))) {
                (Some(from), _) => boxes.of(from),
                (None, Some(home)) => *home,
                (None, None) => ends.to.first().map_or(0, |end| boxes.of(end)),
            }
        };
        let crossing = (0..circuit.poles.len())
            .filter(|pole| {
                let home = home_of(*pole);
                circuit.poles[*pole]
                    .to
                    .iter()
                    .any(|end| boxes.of(end) != home)
            })
            .count();
        connecting.begin(list, index, crossing);
        for (number, pole) in circuit.poles.iter().enumerate() {
            let home = home_of(number);
            let (near, far): (Vec<&End>, Vec<&End>) =
                pole.to.iter().partition(|end| boxes.of(end) == home);
            let own = |ends: Vec<&End>| -> Vec<HalfEnd> {
                ends.into_iter().cloned().map(HalfEnd::Own).collect()
            };
            let mut to = own(near);
            if !far.is_empty() {
                let core = connecting.core(list, index, number);
                to.push(core.clone());
                let through_a = if pole.to.len() > 1 {
                    (circuit.branch_current_a * far.len() as f64).min(circuit.current_a)
                } else {
                    circuit.current_a
                };
                if to.len() > 1 {
                    let branch_a = &mut parts[home].branch_current_a;
                    *branch_a = branch_a.max(through_a);
                }
                let away = &mut parts[1 - home];
                if away.poles.is_empty() {
                    away.current_a = through_a;
                }
                away.current_a = away.current_a.max(through_a);
                away.poles.push(HalfPole {
                    pole: number,
                    from: Some(core),
                    to: own(far),
                });
            }
            parts[home].current_a = circuit.current_a;
            parts[home].poles.push(HalfPole {
                pole: number,
                from: pole.from.clone().map(HalfEnd::Own),
                to,
            });
        }
        for (half, mut part) in halves.iter_mut().zip(parts) {
            if !part.poles.is_empty() {
                part.branch_current_a = part.branch_current_a.min(part.current_a);
                half.circuits.push(part);
            }
        }
    }
    for link in &list.links {
        let home = link.first().and_then(|pole| homes.get(pole));
        if let Some(home) = home {
            halves[*home].links.push(link.clone());
        }
    }
    let connecting = connecting.finish(list);
    for half in &mut halves {
        half.connecting = connecting.len();
    }
    Division { halves, connecting }
}

fn positions(boxes: &[usize], wanted: usize) -> Vec<usize> {
    (0..boxes.len())
        .filter(|index| boxes[*index] == wanted)
        .collect()
}

fn part(index: usize, circuit: &Circuit) -> HalfCircuit {
    HalfCircuit {
        circuit: index,
        current_a: circuit.current_a,
        branch_current_a: circuit.branch_current_a,
        poles: Vec::new(),
    }
}

/// The box in which each link is fed, for each of its poles.
fn homes_of_links(list: &RequirementList, boxes: &Assignment) -> BTreeMap<(usize, usize), usize> {
    let mut homes = BTreeMap::new();
    for link in &list.links {
        let poles = || {
            link.iter()
                .map(|(circuit, pole)| &list.circuits[*circuit].poles[*pole])
        };
        let feed = poles().find_map(|pole| pole.from.as_ref());
        let end = feed.or_else(|| poles().find_map(|pole| pole.to.first()));
        let home = end.map_or(0, |end| boxes.of(end));
        homes.extend(link.iter().map(|pole| (*pole, home)));
    }
    homes
}

/// Most cores of circuits in one connecting cable, so that a protective one always finds room.
const MOST_USED: usize = 36;

/// What the cores of a cable carry, in order: circuit and pole.
type Carried = Vec<(usize, usize)>;

/// Connecting cables while they are filled.
#[derive(Default)]
struct Connecting {
    /// Group, the circuit alone in it (power), and what each core carries.
    cables: Vec<(CircuitGroup, Option<usize>, Carried)>,
}

impl Connecting {
    /// The group a connecting cable is for. Each power circuit has its own cable, the other groups one.
    fn key(list: &RequirementList, circuit: usize) -> (CircuitGroup, Option<usize>) {
        let of = &list.circuits[circuit];
        if of.kind == CircuitKind::IntrinsicallySafe {
            return (CircuitGroup::IntrinsicallySafe, None);
        }
        let alone = (of.group == CircuitGroup::Power).then_some(circuit);
        (of.group, alone)
    }

    /// Makes room for a circuit, in one cable where it can be.
    fn begin(&mut self, list: &RequirementList, circuit: usize, poles: usize) {
        if poles == 0 {
            return;
        }
        let (group, alone) = Self::key(list, circuit);
        let last = self
            .cables
            .iter()
            .rev()
            .find(|cable| (cable.0, cable.1) == (group, alone));
        if last.is_none_or(|cable| cable.2.len() + poles > MOST_USED) {
            self.cables.push((group, alone, Vec::new()));
        }
    }

    /// The next core for a pole of a circuit.
    fn core(&mut self, list: &RequirementList, circuit: usize, pole: usize) -> HalfEnd {
        let (group, alone) = Self::key(list, circuit);
        let last = self
            .cables
            .iter()
            .rposition(|cable| (cable.0, cable.1) == (group, alone))
            .filter(|index| self.cables[*index].2.len() < MOST_USED);
        let index = last.unwrap_or_else(|| {
            self.cables.push((group, alone, Vec::new()));
            self.cables.len() - 1
        });
        let carries = &mut self.cables[index].2;
        carries.push((circuit, pole));
        HalfEnd::Connecting(index, carries.len() as u32)
    }

    fn finish(self, list: &RequirementList) -> Vec<ConnectingCable> {
        let several = self.cables.len() > 1;
        let mut done: Vec<ConnectingCable> = Vec::new();
        for (group, alone, carries) in self.cables {
            let name = match (several, alone) {
                (false, _) => String::new(),
                (true, Some(circuit)) => format!("-{}", list.circuits[circuit].tag),
                (true, None) if group == CircuitGroup::IntrinsicallySafe => "-IS".to_string(),
                (true, None) => format!("-{}", group.name().to_uppercase()),
            };
            let tag = free_tag(list, &done, &format!("W-{}-1-2{name}", list.job.tag));
            done.push(connecting_cable(list, tag, group, &carries));
        }
        done
    }
}

/// A tag that no cable or element has, without what references need.
fn free_tag(list: &RequirementList, done: &[ConnectingCable], wanted: &str) -> String {
    let mut plain = wanted.replace(['/', ',', ' '], "-");
    while plain.contains("..") {
        plain = plain.replace("..", ".");
    }
    let taken = |tag: &str| {
        list.cables.iter().any(|cable| cable.tag == tag)
            || list.elements.iter().any(|element| element.tag == tag)
            || done.iter().any(|cable| cable.tag == tag)
    };
    let mut tag = plain.clone();
    let mut number = 2;
    while taken(&tag) {
        tag = format!("{plain}-{number}");
        number += 1;
    }
    tag
}

/// Section: the largest of its circuits. Screen, armour and protective conductor: as soon as a cable of
/// its circuits has them.
fn connecting_cable(
    list: &RequirementList,
    tag: String,
    group: CircuitGroup,
    carries: &[(usize, usize)],
) -> ConnectingCable {
    let mut cables: Vec<(&Cable, CoreName)> = Vec::new();
    for (circuit, pole) in carries {
        let pole = &list.circuits[*circuit].poles[*pole];
        for end in pole.from.iter().chain(&pole.to) {
            if let End::Core { cable, core } = end {
                cables.push((&list.cables[*cable], *core));
            }
        }
    }
    let section_of = |cable: &Cable, name: CoreName| -> Option<Section> {
        let core = cable.cores.iter().find(|core| core.name == name)?;
        Some(core.section.clone())
    };
    let larger = |a: &Section, b: &Section| a.mm2.total_cmp(&b.mm2);
    let section = cables
        .iter()
        .filter_map(|(cable, core)| section_of(cable, *core))
        .max_by(larger)
        // Elements wired to each other: the largest conductor of the list serves.
        .or_else(|| {
            let cores = list.cables.iter().flat_map(|cable| &cable.cores);
            cores.map(|core| core.section.clone()).max_by(larger)
        })
        .unwrap_or(Section {
            mm2: 1.5,
            awg: None,
        });
    let protective = cables
        .iter()
        .filter_map(|(cable, _)| section_of(cable, CoreName::Earth))
        .max_by(larger);
    let used = carries.len() as u32;
    let text = |section: &Section| section.to_string().replace('²', "2");
    let (cores, ready) = match &protective {
        Some(earth) if *earth == section => {
            let all = ready(used + 1);
            (format!("{all} G {}", text(&section)), all - 1)
        }
        Some(earth) => {
            let live = ready(used);
            let cores = format!("{live} x {} + PE {}", text(&section), text(earth));
            (cores, live)
        }
        None => {
            let live = ready(used);
            (format!("{live} x {}", text(&section)), live)
        }
    };
    ConnectingCable {
        tag,
        cores,
        used,
        unused: ready - used,
        protective: protective.is_some(),
        screened: cables.iter().any(|(cable, _)| cable.screened),
        armoured: cables.iter().any(|(cable, _)| cable.armoured),
        group,
        carries: carries
            .iter()
            .map(|(circuit, pole)| (list.circuits[*circuit].tag.clone(), pole + 1))
            .collect(),
        build: cables
            .first()
            .map_or(ConductorBuild::Stranded, |(cable, _)| cable.build),
    }
}

/// The next number of cores that is ready made.
fn ready(needed: u32) -> u32 {
    READY_CORES
        .into_iter()
        .find(|cores| *cores >= needed)
        .unwrap_or(needed)
}

/// What stands against a half in words, where its list cannot even be read.
pub(super) fn in_words(findings: &Findings) -> String {
    findings
        .iter()
        .next()
        .map_or_else(|| findings.summary(), |first| first.message.clone())
}
