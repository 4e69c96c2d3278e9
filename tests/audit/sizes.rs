//! Parts that the catalogue says are larger than the arrangement records them.

use crate::catalogue::{Cut, tells, twin};
use glandrail::audit;
use glandrail::catalogue::{Accessory, AccessoryKind, Catalogue};
use glandrail::space::Face;

fn partition(catalogue: &mut Catalogue) -> &mut Accessory {
    let mut parts = catalogue.accessory.iter_mut();
    parts
        .find(|part| part.kind == AccessoryKind::Partition)
        .expect("a partition")
}

#[test]
fn a_part_recorded_smaller_than_it_is() {
    // Where a bare part is drawn in from the body by the same amount, the body alone differs.
    let cuts: [(&str, Cut); 16] = [
        ("width of R1", |c| c.rail[0].width_mm += 0.1),
        ("height of R1", |c| c.rail[0].height_mm += 0.1),
        ("width of X1:1", |c| {
            c.terminal[0].width_mm += 0.1;
            c.terminal[0].live.sides_mm += 0.05;
        }),
        ("length of X1:1", |c| {
            c.terminal[0].length_mm += 0.1;
            c.terminal[0].live.ends_mm += 0.05;
        }),
        ("height of X1:1", |c| {
            c.terminal[0].height_mm += 0.1;
            c.terminal[0].live.top_mm += 0.1;
        }),
        ("bare width of X1:1", |c| {
            c.terminal[0].live.sides_mm -= 0.05
        }),
        ("bare length of X1:1", |c| {
            c.terminal[0].live.ends_mm -= 0.05
        }),
        ("bare height of X1:1", |c| c.terminal[0].live.top_mm -= 0.1),
        ("width of A3", |c| partition(c).width_mm += 0.1),
        ("length of A3", |c| partition(c).length_mm += 0.1),
        ("height of A3", |c| partition(c).height_mm += 0.1),
        ("footprint width of S0", |c| {
            c.element[0].footprint_mm[0] += 0.1
        }),
        ("footprint height of S0", |c| {
            c.element[0].footprint_mm[1] += 0.1
        }),
        ("body width of S0", |c| c.element[0].body_mm[0] += 0.1),
        ("body height of S0", |c| c.element[0].body_mm[1] += 0.1),
        ("depth of S0", |c| c.element[0].depth_mm[1] += 0.1),
    ];
    for (words, cut) in cuts {
        tells(words, cut);
    }
}

#[test]
fn a_partition_may_be_recorded_a_tenth_thicker_than_it_is() {
    let (arrangement, mut catalogue) = twin();
    partition(&mut catalogue).width_mm -= 0.1;
    assert!(audit::audit(&arrangement, Some(&catalogue)).holds());
    tells("thicker than it is", |c| partition(c).width_mm -= 0.101);
}

#[test]
fn the_wall_that_the_catalogue_does_not_open_is_named() {
    tells("the left wall of DEMO-G-2626 may be drilled", |c| {
        c.enclosure[0].walls.remove(&Face::Left);
    });
}
