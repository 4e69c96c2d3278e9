//! Two boxes where one cannot take a list: cables, elements and circuits divided over both, with the
//! connecting cables that they then need. Knows nothing of how a box is laid out: each of the two is
//! an ordinary list and takes the ordinary way, audit included.
//!
//! Which division is best is not proved: the search is stated in `search.rs`. Each box for its part is proved
//! the smallest for its list, as always.

mod bound;
mod divide;
mod search;
mod single;
mod toml_text;
mod units;
mod write;

pub use divide::{ConnectingCable, READY_CORES};

use crate::catalogue::Catalogue;
use crate::model::{self, Excluded, SearchOptions};
use crate::propose::{Answer, Proposal, ProposeError, propose};
use crate::requirements::{CircuitGroup, CoreName, RequirementList};
use crate::source::SourceFile;
use crate::workshop::Workshop;
use search::{Judged, Looked};
use serde::Serialize;
use single::singles;

/// What came of the question for at most two boxes.
#[derive(Debug, Clone)]
pub enum TwoAnswer {
    /// One enclosure takes the whole list.
    One(Box<Proposal>),
    /// Two do.
    Two(Box<TwoBoxes>),
    /// No division was found.
    NotFound(Box<NotDivided>),
}

/// A list divided over two boxes.
#[derive(Debug, Clone)]
pub struct TwoBoxes {
    /// The boxes.
    pub boxes: [BoxOfTwo; 2],
    /// The cables from one to the other, in the same order in both lists.
    pub connecting: Vec<ConnectingCable>,
    /// Number of divisions that were looked at.
    pub tried: usize,
    /// What the two measure together by the first measure of the objective (mm³, mm², kg or the catalogue's
    /// currency), and what any two enclosures that could take the list measure at least.
    pub together: f64,
    /// See `together`; `None` where nothing is known or was not asked.
    pub together_at_least: Option<f64>,
    /// Whether it is proved that no single enclosure takes the list.
    pub one_disproved: bool,
    /// What the reader must see to, one sentence each.
    pub cautions: Vec<String>,
}

/// One of the two boxes.
#[derive(Debug, Clone)]
pub struct BoxOfTwo {
    /// Its list, checked.
    pub list: RequirementList,
    /// Its list as TOML text.
    pub text: String,
    /// Tags of its cables, connecting ones not among them.
    pub cables: Vec<String>,
    /// Tags of its elements.
    pub elements: Vec<String>,
    /// Tags of the circuits that lie in this box alone.
    pub circuits: Vec<String>,
    /// The smallest enclosure for it, audited.
    pub proposal: Proposal,
}

/// Why there is no answer in two boxes.
#[derive(Debug, Clone)]
pub struct NotDivided {
    /// Whether it is proved that no single enclosure takes the list.
    pub one_disproved: bool,
    /// Why each candidate cannot take the whole list.
    pub excluded: Vec<Excluded>,
    /// Cables and elements that no enclosure takes even alone.
    pub alone: Vec<Alone>,
    /// The nearest division: what each box holds and what stands against it; empty where there is
    /// nothing to divide.
    pub nearest: Vec<HalfAgainst>,
    /// Number of divisions that were looked at.
    pub tried: usize,
}

/// A cable or element that fits nowhere alone.
#[derive(Debug, Clone, Serialize)]
pub struct Alone {
    /// Such as `cable W1`.
    pub what: String,
    /// Why each candidate cannot take it.
    pub excluded: Vec<Excluded>,
}

/// One box of a division that does not hold.
#[derive(Debug, Clone, Serialize)]
pub struct HalfAgainst {
    /// Tags of its cables and elements.
    pub holds: Vec<String>,
    /// Whether an enclosure takes it.
    pub taken: bool,
    /// Why each candidate cannot take it.
    pub excluded: Vec<Excluded>,
    /// Why no part serves it, where that is the reason.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub no_part: Option<String>,
}

/// Answers a list in one box, or else in two.
///
/// # Errors
/// As [`propose`]; a list that cannot be made is no error.
pub fn propose_up_to_two(
    list: &RequirementList,
    catalogue: &Catalogue,
    workshop: &Workshop,
    options: SearchOptions,
) -> Result<TwoAnswer, ProposeError> {
    let most_boxes = search::MOST_BOXES;
    let mut answer = propose_up_to_two_of(list, catalogue, workshop, options, most_boxes)?;
    if let TwoAnswer::Two(two) = &mut answer {
        two.together_at_least = bound::least_together(list, catalogue, workshop, options);
    }
    Ok(answer)
}

/// As [`propose_up_to_two`], with at most so many different boxes looked at, and without a bound.
///
/// # Errors
/// As [`propose`].
pub fn propose_up_to_two_of(
    list: &RequirementList,
    catalogue: &Catalogue,
    workshop: &Workshop,
    options: SearchOptions,
    most_boxes: usize,
) -> Result<TwoAnswer, ProposeError> {
    let (excluded, one_disproved) = match propose(list, catalogue, workshop, options)? {
        Answer::Found(proposal) => return Ok(TwoAnswer::One(proposal)),
        Answer::Impossible { excluded, proven } => {
            let closed = is_closed(&excluded);
            (excluded, proven && closed)
        }
    };
    let alone = alone(list, catalogue, workshop, options)?;
    let not_divided = |nearest, tried| {
        Ok(TwoAnswer::NotFound(Box::new(NotDivided {
            one_disproved,
            excluded: excluded.clone(),
            alone: alone.clone(),
            nearest,
            tried,
        })))
    };
    if !alone.is_empty() {
        return not_divided(Vec::new(), 0);
    }
    let searched = search::search(list, catalogue, workshop, options, most_boxes)?;
    for judged in searched.ranked.iter().take_while(|judged| judged.holds()) {
        let Some(boxes) = boxes(list, judged, catalogue, workshop, options)? else {
            continue;
        };
        let together = together(list, catalogue, &boxes);
        return Ok(TwoAnswer::Two(Box::new(TwoBoxes {
            together,
            together_at_least: None,
            cautions: cautions(&boxes, judged),
            boxes,
            connecting: judged.division.connecting.clone(),
            tried: searched.tried,
            one_disproved,
        })));
    }
    let nearest = searched
        .ranked
        .first()
        .map_or(Vec::new(), |judged| against(list, judged));
    not_divided(nearest, searched.tried)
}

/// Both boxes of a division that is given: what the second box holds, by the tags of cables and elements.
/// `None` where one box would be empty, no enclosure takes one of them, or what must share a box is parted.
///
/// # Errors
/// As [`propose`].
pub fn propose_divided(
    list: &RequirementList,
    second: &[&str],
    catalogue: &Catalogue,
    workshop: &Workshop,
    options: SearchOptions,
) -> Result<Option<Box<TwoBoxes>>, ProposeError> {
    let Some(judged) = search::judge(list, second, catalogue, workshop, options)? else {
        return Ok(None);
    };
    let Some(boxes) = boxes(list, &judged, catalogue, workshop, options)? else {
        return Ok(None);
    };
    Ok(Some(Box::new(TwoBoxes {
        together: together(list, catalogue, &boxes),
        together_at_least: None,
        cautions: cautions(&boxes, &judged),
        boxes,
        connecting: judged.division.connecting.clone(),
        tried: 1,
        one_disproved: false,
    })))
}

/// Both enclosures by the first measure of the objective.
fn together(list: &RequirementList, catalogue: &Catalogue, boxes: &[BoxOfTwo; 2]) -> f64 {
    let by = bound::first_measure(list);
    let ids = boxes.iter().map(|of| &of.proposal.arrangement.enclosure.id);
    let parts = ids.filter_map(|id| catalogue.enclosure.iter().find(|part| part.id == *id));
    parts.map(|part| model::measure(part, by)).sum()
}

/// Whether no candidate is left open for entries placed without rows.
fn is_closed(excluded: &[Excluded]) -> bool {
    !excluded.iter().any(|of| of.reason.is_open_freely())
}

/// Both boxes the ordinary way, or `None` where one is not found after all.
fn boxes(
    list: &RequirementList,
    judged: &Judged,
    catalogue: &Catalogue,
    workshop: &Workshop,
    options: SearchOptions,
) -> Result<Option<[BoxOfTwo; 2]>, ProposeError> {
    let mut made = Vec::new();
    for (half, text) in judged.division.halves.iter().zip(&judged.texts) {
        let name = format!("box-{}.toml", made.len() + 1);
        let derived = RequirementList::from_source(SourceFile::from_text(name, text), workshop)?;
        let Answer::Found(proposal) = propose(&derived, catalogue, workshop, options)? else {
            return Ok(None);
        };
        let both = |circuit: usize| {
            let held = |half: &divide::Half| half.circuits.iter().any(|of| of.circuit == circuit);
            judged.division.halves.iter().all(held)
        };
        made.push(BoxOfTwo {
            list: derived,
            text: text.clone(),
            cables: tags(half.cables.iter().map(|at| &list.cables[*at].tag)),
            elements: tags(half.elements.iter().map(|at| &list.elements[*at].tag)),
            circuits: tags(
                half.circuits
                    .iter()
                    .filter(|of| !both(of.circuit))
                    .map(|of| &list.circuits[of.circuit].tag),
            ),
            proposal: *proposal,
        });
    }
    Ok(<[BoxOfTwo; 2]>::try_from(made).ok())
}

fn tags<'t>(of: impl Iterator<Item = &'t String>) -> Vec<String> {
    of.cloned().collect()
}

/// What the division changes that no rule about one box can tell.
fn cautions(boxes: &[BoxOfTwo; 2], judged: &Judged) -> Vec<String> {
    let connecting = &judged.division.connecting;
    let mut cautions = Vec::new();
    let earthed = |of: &BoxOfTwo| {
        let own = |tag: &String| of.cables.contains(tag);
        let mut cables = of.list.cables.iter().filter(|cable| own(&cable.tag));
        cables.any(|cable| cable.cores.iter().any(|core| core.name == CoreName::Earth))
    };
    if boxes.iter().all(earthed) && !connecting.iter().any(|cable| cable.protective) {
        cautions.push(
            "Both boxes hold protective conductors that one box would have joined; no connecting cable joins them. \
             See that those of each box are earthed."
                .to_string(),
        );
    }
    if connecting.is_empty() {
        return cautions;
    }
    cautions.push(
        "Sections, numbers of cores and diameters of the connecting cables are proposals: the diameters are estimated, \
         and voltage drop, overcurrent protection and laying are not looked at."
            .to_string(),
    );
    if connecting.iter().any(|cable| cable.screened) {
        cautions.push(
            "Screens of connecting cables go to earth in both boxes; see that earthing at both ends is wanted."
                .to_string(),
        );
    }
    if connecting
        .iter()
        .any(|cable| cable.group == CircuitGroup::IntrinsicallySafe)
    {
        cautions.push(
            "A connecting cable of intrinsically safe circuits adds to their cable capacitance and inductance, and \
             several circuits in it must be permitted in one cable: the proof of intrinsic safety must be made anew."
                .to_string(),
        );
    }
    cautions
}

/// What stands against each box of a division.
fn against(list: &RequirementList, judged: &Judged) -> Vec<HalfAgainst> {
    judged
        .division
        .halves
        .iter()
        .zip(&judged.looked)
        .map(|(half, looked)| {
            let cables = half.cables.iter().map(|at| &list.cables[*at].tag);
            let elements = half.elements.iter().map(|at| &list.elements[*at].tag);
            let connecting = judged.division.connecting.iter().map(|cable| &cable.tag);
            let (taken, excluded, no_part) = match looked {
                Looked::Taken(_) => (true, Vec::new(), None),
                Looked::NotTaken(_, excluded) => (false, excluded.clone(), None),
                Looked::NoPart(why) => (false, Vec::new(), Some(why.clone())),
            };
            HalfAgainst {
                holds: tags(cables.chain(connecting).chain(elements)),
                taken,
                excluded,
                no_part,
            }
        })
        .collect()
}

/// Cables and elements that no enclosure takes even when nothing else is in it.
fn alone(
    list: &RequirementList,
    catalogue: &Catalogue,
    workshop: &Workshop,
    options: SearchOptions,
) -> Result<Vec<Alone>, ProposeError> {
    let mut found: Vec<Alone> = Vec::new();
    let mut asked: Vec<(String, Option<Vec<Excluded>>)> = Vec::new();
    for single in singles(list) {
        let known = asked.iter().find(|(of, _)| *of == single.kind);
        let against = match known {
            Some((_, against)) => against.clone(),
            None => {
                let against = match propose(&single.list, catalogue, workshop, options) {
                    Ok(Answer::Impossible {
                        excluded,
                        proven: true,
                    }) if is_closed(&excluded) => Some(excluded),
                    Ok(_) | Err(ProposeError::Input(_) | ProposeError::NoPart(_)) => None,
                    Err(fault) => return Err(fault),
                };
                asked.push((single.kind, against.clone()));
                against
            }
        };
        found.extend(against.map(|excluded| Alone {
            what: single.what,
            excluded,
        }));
    }
    Ok(found)
}
