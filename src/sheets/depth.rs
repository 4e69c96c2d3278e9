//! The depth stack: what lies at which depth between back wall and lid. Shared by the section and its
//! table, so that both say the same.

use super::tenth;
use crate::arrangement::Arrangement;
use crate::catalogue::AccessoryKind;
use crate::space::{Block, Face};

/// A layer of the stack.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Level {
    /// What it is, such as `rail R1`.
    pub words: String,
    /// Depth of its rear, from the inside of the back wall.
    pub from_mm: f64,
    /// Depth of its front.
    pub to_mm: f64,
    /// Whether it hangs from the lid, so that its rear is what counts.
    pub hangs: bool,
    /// Least and greatest height at which it is found, for leaders.
    pub reach_mm: (f64, f64),
}

/// The layers from the back wall to the lid: plate, rails, terminals and what else stands on the rails,
/// bodies of elements behind the lid (equal depths together).
pub(super) fn levels(arrangement: &Arrangement) -> Vec<Level> {
    let enclosure = &arrangement.enclosure;
    let plate = &enclosure.plate;
    let mut levels = vec![Level {
        words: "mounting plate, face".into(),
        from_mm: 0.0,
        to_mm: plate.standoff_mm,
        hangs: false,
        reach_mm: (plate.y_mm, plate.y_mm + plate.height_mm),
    }];
    let mut rails = Grouped::default();
    for rail in &arrangement.rails {
        rails.add(&rail.id, &rail.body);
    }
    let mut terminals = Grouped::default();
    for terminal in &arrangement.terminals {
        terminals.add(&terminal.strip, &terminal.body);
    }
    let mut bodies = Grouped::default();
    for element in &arrangement.elements {
        bodies.add(&element.tag, &element.body);
    }
    levels.extend(rails.levels("rail"));
    levels.extend(terminals.levels("terminals"));
    for (kind, words) in [
        (AccessoryKind::EndStop, "end stops on"),
        (AccessoryKind::EndPlate, "end plates on"),
        (AccessoryKind::Partition, "partitions on"),
    ] {
        let mut of_kind = Grouped::default();
        for part in arrangement
            .accessories
            .iter()
            .filter(|part| part.kind == kind)
        {
            of_kind.add(&part.rail, &part.body);
        }
        levels.extend(of_kind.levels(words));
    }
    levels.extend(bodies.levels("behind").into_iter().map(|level| Level {
        hangs: true,
        ..level
    }));
    levels
}

/// What reaches in through a wall: bodies of glands and plugs, those of equal depth and reach together.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Reaching {
    /// The wall.
    pub wall: Face,
    /// Ids of the entries.
    pub ids: Vec<String>,
    /// The body of the first of them, behind the wall.
    pub inside: Block,
    /// How far it reaches into the box.
    pub reach_mm: f64,
}

impl Reaching {
    /// The depth of the axis.
    pub(super) fn axis_mm(&self) -> f64 {
        self.inside.centre().z_mm
    }

    /// Their ids in words, such as `E1 to E4, E7`: only ids that follow one another are drawn together.
    pub(super) fn names(&self) -> String {
        let mut runs: Vec<Vec<&str>> = Vec::new();
        for id in &self.ids {
            match runs.last_mut() {
                Some(run) if run.last().is_some_and(|last| follows(last, id)) => run.push(id),
                _ => runs.push(vec![id]),
            }
        }
        let words = runs.into_iter().map(|run| match run.as_slice() {
            [first, _, .., last] => format!("{first} to {last}"),
            ids => ids.join(", "),
        });
        words.collect::<Vec<_>>().join(", ")
    }
}

/// Whether an id is the next after another: the same letters and the next number.
fn follows(id: &str, next: &str) -> bool {
    let number = |id: &str| {
        let digits = id.len()
            - id.trim_end_matches(|letter: char| letter.is_ascii_digit())
                .len();
        let (letters, number) = id.split_at(id.len() - digits);
        Some((letters.to_string(), number.parse::<u32>().ok()?))
    };
    match (number(id), number(next)) {
        (Some((letters, one)), Some((others, other))) => {
            letters == others && other.checked_sub(1) == Some(one)
        }
        _ => false,
    }
}

/// What reaches in through the walls, wall by wall. Entries of one row that have another between them are
/// named with it: the drawings of the walls tell each.
pub(super) fn reaching(arrangement: &Arrangement) -> Vec<Reaching> {
    let mut found: Vec<Reaching> = Vec::new();
    for wall in Face::WALLS {
        for entry in arrangement
            .entries
            .iter()
            .filter(|entry| entry.wall == wall)
        {
            let inside = entry.inside;
            let reach_mm = match wall {
                Face::Left | Face::Right => inside.max.x_mm - inside.min.x_mm,
                _ => inside.max.y_mm - inside.min.y_mm,
            };
            let depths = |block: &Block| [block.min.z_mm, block.max.z_mm].map(tenth);
            let known = found.iter_mut().find(|known| {
                known.wall == wall
                    && depths(&known.inside) == depths(&inside)
                    && tenth(known.reach_mm) == tenth(reach_mm)
            });
            match known {
                Some(known) => known.ids.push(entry.id.clone()),
                None => found.push(Reaching {
                    wall,
                    ids: vec![entry.id.clone()],
                    inside,
                    reach_mm,
                }),
            }
        }
    }
    found
}

/// The least clearance in depth between what stands on the rails and what is before it: bodies of
/// elements that overlap it in the front view, else the lid. `None` without anything on a rail.
pub(super) fn least_clearance_mm(arrangement: &Arrangement) -> Option<f64> {
    let overlaps = |a: &Block, b: &Block| {
        a.min.x_mm < b.max.x_mm
            && b.min.x_mm < a.max.x_mm
            && a.min.y_mm < b.max.y_mm
            && b.min.y_mm < a.max.y_mm
    };
    let lid_mm = arrangement.enclosure.interior.depth_mm;
    arrangement
        .terminals
        .iter()
        .map(|terminal| &terminal.body)
        .chain(arrangement.accessories.iter().map(|part| &part.body))
        .map(|block| {
            let nearest_mm = arrangement
                .elements
                .iter()
                .filter(|element| overlaps(&element.body, block))
                .map(|element| element.body.min.z_mm)
                .fold(lid_mm, f64::min);
            nearest_mm - block.max.z_mm
        })
        .reduce(f64::min)
}

/// Names gathered by equal depths.
#[derive(Default)]
struct Grouped {
    groups: Vec<(Vec<String>, Level)>,
}

impl Grouped {
    fn add(&mut self, name: &str, body: &Block) {
        let (from_mm, to_mm) = (body.min.z_mm, body.max.z_mm);
        let equal = |level: &Level| {
            tenth(level.from_mm) == tenth(from_mm) && tenth(level.to_mm) == tenth(to_mm)
        };
        match self.groups.iter_mut().find(|(_, level)| equal(level)) {
            Some((names, level)) => {
                if names.iter().all(|known| known != name) {
                    names.push(name.to_string());
                }
                level.reach_mm.0 = level.reach_mm.0.min(body.min.y_mm);
                level.reach_mm.1 = level.reach_mm.1.max(body.max.y_mm);
            }
            None => self.groups.push((
                vec![name.to_string()],
                Level {
                    words: String::new(),
                    from_mm,
                    to_mm,
                    hangs: false,
                    reach_mm: (body.min.y_mm, body.max.y_mm),
                },
            )),
        }
    }

    fn levels(self, kind: &str) -> Vec<Level> {
        self.groups
            .into_iter()
            .map(|(names, level)| Level {
                words: format!("{kind} {}", names.join(", ")),
                ..level
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::follows;

    #[test]
    fn only_the_next_number_follows() {
        assert!(follows("E9", "E10") && follows("E1", "E2"));
        assert!(!follows("E4", "E12") && !follows("E2", "E1") && !follows("E1", "F2"));
        assert!(!follows("E", "E1") && !follows("E1", "E1"));
    }
}
