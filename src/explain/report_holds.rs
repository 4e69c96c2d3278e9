//! The words for what takes a list: enclosures with their measures, one or two of them. Decides nothing.

use super::facts::Way;
use super::solve::Holds;
use crate::requirements::{Measure, RequirementList};
use crate::sheets::number;
use itertools::Itertools;

/// What takes the list after a way out.
pub(super) fn takes(list: &RequirementList, way: &Way) -> String {
    let second = way.second.as_ref().map(|second| &second.holds);
    let both = [&way.holds].into_iter().chain(second);
    let cautions = both.flat_map(|of| &of.cautions).unique();
    let mut said = taken_by(list, way);
    for caution in cautions {
        said.push_str(&format!(
            "; its certificate permits the power, but {caution}"
        ));
    }
    said
}

fn taken_by(list: &RequirementList, way: &Way) -> String {
    let first = named(list, &way.holds);
    let Some(second) = &way.second else {
        return format!("{first} takes the list");
    };
    let joined = match second.connecting.as_slice() {
        [] => "no connecting cable is needed".to_string(),
        [one] => format!("joined by cable {one}"),
        cables => format!("joined by cables {}", cables.join(" and ")),
    };
    let both = [&way.holds, &second.holds];
    let sum = Holds {
        volume_l: both.iter().map(|of| of.volume_l).sum(),
        mass_kg: both.iter().map(|of| of.mass_kg).sum(),
        footprint_cm2: both.iter().map(|of| of.footprint_cm2).sum(),
        price: both.iter().map(|of| of.price).sum(),
        ..way.holds.clone()
    };
    if way.holds == second.holds {
        return format!(
            "two {} {} (each {}, together {}, empty) take the list; {joined}",
            second.holds.enclosure,
            second.holds.orientation.words(),
            measures(list, &second.holds),
            measures(list, &sum)
        );
    }
    format!(
        "{first} and {} take the list, together {}; {joined}",
        named(list, &second.holds),
        measures(list, &sum)
    )
}

/// An enclosure with its measures.
pub(super) fn named(list: &RequirementList, holds: &Holds) -> String {
    format!(
        "{} {} ({}, empty)",
        holds.enclosure,
        holds.orientation.words(),
        measures(list, holds)
    )
}

/// Volume, mass and price, those of the list's objective before the others.
fn measures(list: &RequirementList, holds: &Holds) -> String {
    let mut order = list.wishes.smallest.clone();
    for usual in [Measure::Volume, Measure::Mass, Measure::Price] {
        if !order.contains(&usual) {
            order.push(usual);
        }
    }
    let words = order.iter().map(|by| match by {
        Measure::Volume => format!("{} l", number(holds.volume_l, 2)),
        Measure::Footprint => format!("{} cm² of wall", number(holds.footprint_cm2, 0)),
        Measure::Mass => format!("{} kg", number(holds.mass_kg, 2)),
        Measure::Price if holds.currency.is_empty() => format!("price {:.2}", holds.price),
        Measure::Price => format!("{:.2} {}", holds.price, holds.currency),
    });
    words.collect::<Vec<_>>().join(", ")
}
