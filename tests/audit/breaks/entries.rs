//! Breaks of the rules of `entries`: cable entries and what closes them.

use super::{Broken, broken};
use crate::fixture::{retotal, thread};
use glandrail::catalogue::Most;
use glandrail::space::Face;

/// The breaks of this group.
pub static BREAKS: &[Broken] = &[
    broken("entries.cable", "cable names another entry", |a| {
        a.cables[0].entry = "E2".into()
    }),
    broken("entries.closed", "gland without a cable", |a| {
        a.entries[2].part.clamping_mm = Some([7.0, 13.0])
    }),
    broken("entries.clamping", "clamping range missing", |a| {
        a.entries[1].part.clamping_mm = None;
    }),
    broken("entries.clamping", "cable 0.1 mm too thick", |a| {
        a.cables[1].diameter_range_mm = [8.7, 13.1]
    }),
    broken("entries.armour", "no armour clamp", |a| {
        a.entries[0].part.under_armour_mm = None
    }),
    broken("entries.armour", "0.1 mm too thick under the armour", |a| {
        a.cables[0].under_armour_mm = Some([11.0, 15.1]);
    }),
    broken("entries.wall", "cable only from the left", |a| {
        a.cables[0].walls = vec![Face::Left]
    }),
    broken("entries.intrinsic", "blue gland with another cable", |a| {
        a.entries[1].part.for_intrinsically_safe = true;
    }),
    broken("entries.earth_plate", "earth plate left out", |a| {
        a.entries[0].earth_plate = None;
        retotal(a);
    }),
    broken("entries.thread", "wall up to M20", |a| {
        a.enclosure
            .walls
            .get_mut(&Face::Bottom)
            .expect("a wall")
            .largest_thread = thread("M20");
    }),
    broken("entries.most", "certified for two M20", |a| {
        let wall = a.enclosure.walls.get_mut(&Face::Bottom).expect("a wall");
        wall.most_entries = Some(Most::Of(
            [("M20", 2), ("M25", 4)]
                .map(|(size, most)| (thread(size), most))
                .into(),
        ));
    }),
    broken("entries.most", "M20 not named", |a| {
        let wall = a.enclosure.walls.get_mut(&Face::Bottom).expect("a wall");
        wall.most_entries = Some(Most::Of([(thread("M25"), 4)].into()));
    }),
    broken("entries.most", "number of entries not known", |a| {
        let wall = a.enclosure.walls.get_mut(&Face::Bottom).expect("a wall");
        wall.most_entries = None;
    }),
    broken("entries.wall_thickness", "wall of 8.1 mm", |a| {
        a.enclosure.wall_thickness_mm = 8.1;
        a.enclosure.outer_mm = [270.2, 270.2, 132.1];
    }),
    broken("entries.hole", "hole 0.8 mm over the thread", |a| {
        a.entries[1].hole_mm = 20.8
    }),
    broken("entries.hole", "hole 0.1 mm under the thread", |a| {
        a.entries[1].hole_mm = 19.9
    }),
    broken(
        "entries.envelope",
        "less kept free than the part takes",
        |a| a.entries[1].envelope_mm = 27.9,
    ),
];
