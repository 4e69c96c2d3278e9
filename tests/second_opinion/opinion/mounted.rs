//! A candidate as it hangs on the wall, and the order of candidates. Written from docs/model.md alone.

use glandrail::arrangement::Orientation;
use glandrail::catalogue::{Catalogue, Enclosure, EntryWall, RailDirection};
use glandrail::requirements::{Measure, RequirementList};
use glandrail::space::{Face, Rect};
use std::cmp::Ordering;
use std::collections::BTreeMap;

/// What binary fractions may add up to, mm: lengths that differ by less are equal.
pub const SAME_MM: f64 = 1e-6;

/// An enclosure in an orientation, its figures turned into the mounted position.
pub struct Mounted<'c> {
    pub enclosure: &'c Enclosure,
    pub orientation: Orientation,
    pub outer_mm: [f64; 3],
    pub inner_mm: [f64; 3],
    pub plate: Rect,
    pub lid: Rect,
    pub hinge: Option<Face>,
    pub walls: BTreeMap<Face, &'c EntryWall>,
    pub takes_rails: bool,
}

impl<'c> Mounted<'c> {
    pub fn new(enclosure: &'c Enclosure, orientation: Orientation) -> Self {
        let turned = orientation == Orientation::Turned;
        let [width_mm, _, _] = enclosure.inner_mm;
        let size = |[width, height, depth]: [f64; 3]| {
            if turned {
                [height, width, depth]
            } else {
                [width, height, depth]
            }
        };
        // A quarter clockwise takes (x, y) to (y, width - x): what was on the right comes to lie below.
        let rect = |x: f64, y: f64, width: f64, height: f64| {
            if turned {
                Rect::new(y, width_mm - x - width, height, width)
            } else {
                Rect::new(x, y, width, height)
            }
        };
        let wall = |wall: Face| match (turned, wall) {
            (true, Face::Top) => Face::Right,
            (true, Face::Right) => Face::Bottom,
            (true, Face::Bottom) => Face::Left,
            (true, Face::Left) => Face::Top,
            _ => wall,
        };
        let (plate, lid) = (&enclosure.plate, &enclosure.lid);
        let horizontal_as_mounted = if turned {
            RailDirection::Vertical
        } else {
            RailDirection::Horizontal
        };
        Mounted {
            enclosure,
            orientation,
            outer_mm: size(enclosure.outer_mm),
            inner_mm: size(enclosure.inner_mm),
            plate: rect(plate.x_mm, plate.y_mm, plate.width_mm, plate.height_mm),
            lid: rect(lid.x_mm, lid.y_mm, lid.width_mm, lid.height_mm),
            hinge: lid.hinge.map(wall),
            walls: enclosure
                .walls
                .iter()
                .map(|(face, data)| (wall(*face), data))
                .collect(),
            takes_rails: enclosure.rail_directions.contains(&horizontal_as_mounted),
        }
    }

    pub fn id(&self) -> &'c str {
        &self.enclosure.id
    }

    pub fn depth_mm(&self) -> f64 {
        self.inner_mm[2]
    }

    /// The space diagonal of the inside.
    pub fn diagonal_mm(&self) -> f64 {
        self.inner_mm
            .iter()
            .map(|side| side * side)
            .sum::<f64>()
            .sqrt()
    }
}

/// All candidates, the smallest first.
pub fn candidates<'c>(catalogue: &'c Catalogue, list: &RequirementList) -> Vec<Mounted<'c>> {
    let mut enclosures: Vec<&Enclosure> = catalogue.enclosure.iter().collect();
    enclosures.sort_by(|a, b| order(a, b, &list.wishes.smallest));
    let mut all = Vec::new();
    for enclosure in enclosures {
        for orientation in &list.wishes.orientations {
            all.push(Mounted::new(enclosure, *orientation));
        }
    }
    all
}

fn order(a: &Enclosure, b: &Enclosure, smallest: &[Measure]) -> Ordering {
    let ties = [
        Measure::Volume,
        Measure::Footprint,
        Measure::Mass,
        Measure::Price,
    ];
    smallest
        .iter()
        .chain(&ties)
        .map(|measure| value(a, *measure).total_cmp(&value(b, *measure)))
        .find(|ordering| ordering.is_ne())
        .unwrap_or_else(|| a.id.cmp(&b.id))
}

fn value(enclosure: &Enclosure, measure: Measure) -> f64 {
    let [width, height, depth] = enclosure.outer_mm;
    match measure {
        Measure::Volume => width * height * depth,
        Measure::Footprint => width * height,
        Measure::Mass => enclosure.mass_kg,
        Measure::Price => enclosure.price,
    }
}
