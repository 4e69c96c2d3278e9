//! Ways out that change how a list is made and not what it asks: entries without rows where rows were
//! asked for, a partition between terminals instead of distance, two boxes instead of one. Each is solved
//! and audited like any other.

use super::apply::Ease;
use super::change_words;
use super::facts::{Eased, Named, Second, TriedTwo, Way};
use super::ground::Ground;
use super::solve::{Holds, proved};
use super::words::shortened;
use crate::demand;
use crate::model::{self, Excluded, Outcome, Placement, SearchOptions};
use crate::propose::{Proposal, ProposeError};
use crate::requirements::RequirementList;
use crate::split::{NotDivided, TwoAnswer, TwoBoxes, propose_up_to_two_of};
use crate::workshop::Workshop;

/// Most boxes that are looked at for a division: enough to find one; `propose --boxes 2` looks longer
/// for a smaller one.
const MOST_BOXES: usize = 60;

/// A way to make a list otherwise, by the name that `fixed` and weights use.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Means {
    Placement,
    Partition,
    Boxes,
}

impl Means {
    const ALL: [Means; 3] = [Means::Placement, Means::Partition, Means::Boxes];

    fn name(self) -> &'static str {
        match self {
            Means::Placement => "placement",
            Means::Partition => "partition",
            Means::Boxes => "boxes",
        }
    }

    fn ease(self) -> Ease {
        match self {
            Means::Placement => Ease::Freely,
            Means::Partition => Ease::Partition,
            Means::Boxes => Ease::TwoBoxes,
        }
    }

    /// Points, as in `ladder`: drilling by coordinates is little; a second box is more than a step of
    /// the class and less than one of the protection level.
    fn points(self) -> f64 {
        match self {
            Means::Placement => 3.0,
            Means::Partition => 4.0,
            Means::Boxes => 30.0,
        }
    }
}

/// Whether a name of `fixed` or of a weight means one of these.
pub(super) fn is_name(name: &str) -> bool {
    Means::ALL.iter().any(|means| means.name() == name)
}

/// What came of it.
#[derive(Default)]
pub(super) struct Otherwise {
    /// What serves.
    pub(super) ways: Vec<Way>,
    /// Faults of the program on the way.
    pub(super) faults: Vec<String>,
    /// What was tried with two boxes in vain.
    pub(super) two_boxes: Option<TriedTwo>,
}

/// Tries each of them.
pub(super) fn otherwise(ground: Ground<'_>, placement: Placement) -> Otherwise {
    let list = ground.list;
    let mut other = Otherwise::default();
    for means in Means::ALL {
        if list.fixed.iter().any(|name| name == means.name()) {
            continue;
        }
        let found = match means {
            Means::Placement => {
                freely(ground, placement).map(|holds| holds.map(|holds| (holds, None)))
            }
            Means::Partition => partition(ground).map(|holds| holds.map(|holds| (holds, None))),
            Means::Boxes => two_boxes(ground, &mut other.two_boxes)
                .map(|two| two.map(|two| (holds_of(ground, &two.boxes[0].proposal), Some(two)))),
        };
        match found {
            Ok(Some((holds, two))) => other.ways.push(Way {
                changes: vec![Eased {
                    requirement: Named {
                        id: means.name().to_string(),
                        words: change_words::usual_means(&means.ease()).to_string(),
                        line: None,
                        quote: None,
                        fixed: false,
                    },
                    ease: means.ease(),
                    words: change_words::other_means(&means.ease()).to_string(),
                    alternatives: Vec::new(),
                }],
                cost: means.points() * weight(list, means),
                holds,
                second: two.map(|two| second(ground, &two)),
            }),
            Ok(None) => {}
            Err(fault) => other.faults.push(fault),
        }
    }
    other
}

/// The factor of the list, of several the last.
fn weight(list: &RequirementList, means: Means) -> f64 {
    let weights = list.weights.iter().rev();
    weights
        .into_iter()
        .find(|weight| weight.of.iter().any(|name| name == means.name()))
        .map_or(1.0, |weight| weight.times)
}

/// Only where rows were asked for: otherwise the list was asked without them already.
fn freely(ground: Ground<'_>, placement: Placement) -> Result<Option<Holds>, String> {
    if placement != Placement::Rows {
        return Ok(None);
    }
    let options = SearchOptions {
        placement: Placement::Best,
        ..ground.options
    };
    holds(ground, ground.workshop, options)
}

/// Only where both kinds of terminals meet and distance alone keeps them apart so far.
fn partition(ground: Ground<'_>) -> Result<Option<Holds>, String> {
    if ground.workshop.distances.intrinsic_partition {
        return Ok(None);
    }
    let mut workshop = ground.workshop.clone();
    workshop.distances.intrinsic_partition = true;
    holds(ground, &workshop, ground.options)
}

/// What takes the list with these rules and options. Where nothing changes for the list, nothing does.
fn holds(
    ground: Ground<'_>,
    workshop: &Workshop,
    options: SearchOptions,
) -> Result<Option<Holds>, String> {
    let (list, catalogue) = (ground.list, ground.catalogue);
    let Ok(demand) = demand::build(list, catalogue, workshop) else {
        return Ok(None);
    };
    if options.placement == ground.options.placement && demand.separator.is_none() {
        return Ok(None);
    }
    match model::search(list, &demand, catalogue, workshop, options)? {
        Outcome::Found(found) => Ok(Some(proved(list, catalogue, workshop, &found)?.0)),
        Outcome::Impossible { .. } => Ok(None),
    }
}

/// Not of a list with less than two cables and elements, where nothing can be divided. What was tried in vain is
/// said in `tried`.
fn two_boxes(
    ground: Ground<'_>,
    tried: &mut Option<TriedTwo>,
) -> Result<Option<Box<TwoBoxes>>, String> {
    let list = ground.list;
    if list.cables.len() + list.elements.len() < 2 {
        return Ok(None);
    }
    let (catalogue, workshop, options) = (ground.catalogue, ground.workshop, ground.options);
    match propose_up_to_two_of(list, catalogue, workshop, options, MOST_BOXES) {
        Ok(TwoAnswer::Two(two)) => Ok(Some(two)),
        Ok(TwoAnswer::NotFound(why)) => {
            *tried = Some(TriedTwo {
                divisions: why.tried,
                fit_nowhere: why.alone.iter().map(|of| of.what.clone()).collect(),
                because: against(&why),
            });
            Ok(None)
        }
        Ok(TwoAnswer::One(_)) | Err(ProposeError::Input(_) | ProposeError::NoPart(_)) => Ok(None),
        Err(ProposeError::Fault(fault)) => Err(fault),
    }
}

/// What stands against two boxes: the nearest candidate for what fits nowhere, or for the half that none takes.
fn against(why: &NotDivided) -> Option<String> {
    if let Some(alone) = why.alone.first() {
        return nearest_of(&alone.excluded);
    }
    let half = why.nearest.iter().find(|half| !half.taken)?;
    let reason = half
        .no_part
        .clone()
        .or_else(|| nearest_of(&half.excluded))?;
    let holds = shortened(half.holds.join(", "));
    Some(format!("of the box with {holds}: {reason}"))
}

fn nearest_of(excluded: &[Excluded]) -> Option<String> {
    let nearest = excluded
        .iter()
        .min_by(|a, b| a.reason.distance().total_cmp(&b.reason.distance()))?;
    Some(format!(
        "{} {}: {}",
        nearest.enclosure,
        nearest.orientation.words(),
        nearest.reason.in_rows()
    ))
}

fn holds_of(ground: Ground<'_>, proposal: &Proposal) -> Holds {
    Holds::made(ground.catalogue, &proposal.arrangement)
}

fn second(ground: Ground<'_>, two: &TwoBoxes) -> Second {
    Second {
        holds: holds_of(ground, &two.boxes[1].proposal),
        connecting: two
            .connecting
            .iter()
            .map(|cable| format!("{}: {}", cable.tag, cable.cores))
            .collect(),
    }
}
