//! The depth stack: what lies at which depth between back wall and lid. Shared by the section and its
//! table, so that both say the same.

use super::tenth;
use crate::arrangement::Arrangement;
use crate::space::Block;

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

/// The layers from the back wall to the lid: plate, rails, what stands on each rail, bodies of
/// elements behind the lid (equal depths together).
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
    let mut parts = Grouped::default();
    for rail in &arrangement.rails {
        rails.add(&rail.id, &rail.body);
        if let Some(body) = standing_on(arrangement, &rail.id) {
            parts.add(&rail.id, &body);
        }
    }
    let mut bodies = Grouped::default();
    for element in &arrangement.elements {
        bodies.add(&element.tag, &element.body);
    }
    levels.extend(rails.levels("rail"));
    levels.extend(parts.levels("on rail"));
    levels.extend(bodies.levels("behind").into_iter().map(|level| Level {
        hangs: true,
        ..level
    }));
    levels
}

/// The block around everything that stands on a rail; `None` for an empty rail.
fn standing_on(arrangement: &Arrangement, rail: &str) -> Option<Block> {
    let terminals = arrangement
        .terminals
        .iter()
        .filter(|terminal| terminal.rail == rail)
        .map(|terminal| terminal.body);
    let accessories = arrangement
        .accessories
        .iter()
        .filter(|part| part.rail == rail)
        .map(|part| part.body);
    terminals
        .chain(accessories)
        .reduce(|all, next| all.joined(&next))
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
                names.push(name.to_string());
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
