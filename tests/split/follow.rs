//! Follows conductors through two arrangements: cores, terminals, jumpers and points of elements are
//! nodes; what a wire, a terminal's level or a jumper joins is one potential. A cable that enters both boxes
//! is the same cable, so its cores join the boxes.

use glandrail::arrangement::{Arrangement, WireEnd};
use glandrail::requirements::{End, RequirementList};
use std::collections::{BTreeMap, BTreeSet};

/// Ends that must be one potential: those of a pole, or of all poles that a link joins.
pub struct Wanted {
    pub name: String,
    pub ends: Vec<String>,
}

impl Wanted {
    /// Everything that a list wants joined.
    pub fn of(list: &RequirementList) -> Vec<Wanted> {
        let name = |end: &End| match end {
            End::Core { cable, core } => format!("core {}/{core}", list.cables[*cable].tag),
            End::Contact { element, point } => {
                format!("point {}/{point}", list.elements[*element].tag)
            }
        };
        let mut by_pole: BTreeMap<(usize, usize), Vec<String>> = BTreeMap::new();
        for (index, circuit) in list.circuits.iter().enumerate() {
            for (number, pole) in circuit.poles.iter().enumerate() {
                let ends = pole.from.iter().chain(&pole.to).map(name).collect();
                by_pole.insert((index, number), ends);
            }
        }
        for link in &list.links {
            let mut all = Vec::new();
            for pole in link {
                all.extend(by_pole.remove(pole).expect("a pole is in one link"));
            }
            by_pole.insert(link[0], all);
        }
        by_pole
            .into_iter()
            .map(|((circuit, pole), ends)| Wanted {
                name: format!("{}/{}", list.circuits[circuit].tag, pole + 1),
                ends,
            })
            .collect()
    }
}

/// Everything conductive in both boxes.
pub struct Net {
    parent: BTreeMap<String, String>,
    /// How often each core or point of a box is connected.
    uses: BTreeMap<(usize, String), usize>,
    /// Who was asked for at each potential, so that no two share one.
    taken: std::cell::RefCell<BTreeMap<String, String>>,
}

impl Net {
    pub fn of(boxes: [&Arrangement; 2]) -> Self {
        let mut net = Net {
            parent: BTreeMap::new(),
            uses: BTreeMap::new(),
            taken: std::cell::RefCell::default(),
        };
        for (at, arrangement) in boxes.into_iter().enumerate() {
            let mut levels: BTreeMap<&str, BTreeSet<u32>> = BTreeMap::new();
            for wire in &arrangement.wires {
                for end in [&wire.from, &wire.to] {
                    if let WireEnd::Terminal {
                        terminal, level, ..
                    } = end
                    {
                        levels.entry(terminal).or_default().insert(*level);
                    }
                }
                let [a, b] = [&wire.from, &wire.to].map(|end| node(at, end));
                for end in [&a, &b].into_iter().filter(|end| !end.starts_with("box")) {
                    *net.uses.entry((at, end.clone())).or_default() += 1;
                }
                net.join(&a, &b);
            }
            for jumper in &arrangement.jumpers {
                let nodes: Vec<String> = jumper
                    .terminals
                    .iter()
                    .flat_map(|terminal| {
                        let levels = levels.get(terminal.as_str()).into_iter().flatten();
                        levels.map(move |level| format!("box {at} {terminal} {level}"))
                    })
                    .collect();
                for pair in nodes.windows(2) {
                    net.join(&pair[0], &pair[1]);
                }
            }
        }
        net
    }

    fn root(&self, node: &str) -> String {
        let mut node = node.to_string();
        while let Some(parent) = self.parent.get(&node) {
            node = parent.clone();
        }
        node
    }

    fn join(&mut self, a: &str, b: &str) {
        let (a, b) = (self.root(a), self.root(b));
        if a != b {
            self.parent.insert(a, b);
        }
    }

    /// Every core and point is under one clamp in its box.
    pub fn each_end_once(&self) {
        assert!(!self.uses.is_empty());
        for ((at, end), count) in &self.uses {
            assert_eq!(*count, 1, "{end} in box {}", at + 1);
        }
    }

    /// The ends are one potential, which none asked for before has.
    pub fn joins(&self, wanted: &Wanted) {
        let roots: BTreeSet<String> = wanted.ends.iter().map(|end| self.root(end)).collect();
        for end in &wanted.ends {
            assert!(
                self.uses.keys().any(|(_, used)| used == end),
                "{}: {end} is connected nowhere",
                wanted.name
            );
        }
        assert_eq!(
            roots.len(),
            1,
            "{} is interrupted: {:?}",
            wanted.name,
            wanted.ends
        );
        let root = roots.into_iter().next().expect("one");
        let before = self.taken.borrow_mut().insert(root, wanted.name.clone());
        assert_eq!(before, None, "{} is joined with another pole", wanted.name);
    }
}

fn node(at: usize, end: &WireEnd) -> String {
    match end {
        WireEnd::Core { cable, core } => format!("core {cable}/{core}"),
        WireEnd::Contact { element, point } => format!("point {element}/{point}"),
        WireEnd::Terminal {
            terminal, level, ..
        } => format!("box {at} {terminal} {level}"),
    }
}
