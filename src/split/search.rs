//! The search for a good division: stated, bounded, the same every time, and no proof.
//!
//! Starts are: components of circuits dealt out evenly; intrinsically safe ones apart from the rest; and the
//! list cut in two at eight places by size, so that a trunk stays with its first branches. The best
//! starts are then improved by moving one unit at a time to the other box, as long as the measure gets
//! better and the number of boxes that may be looked at is not used up.

use super::divide::{Assignment, Division, divide, in_words};
use super::units::{Item, Unit, units};
use super::write::list_text;
use crate::catalogue::Catalogue;
use crate::demand;
use crate::model::{self, Excluded, Outcome, Reason, SearchOptions};
use crate::propose::ProposeError;
use crate::requirements::{Measure, RequirementList, check_parts};
use crate::source::SourceFile;
use crate::workshop::Workshop;
use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::atomic::Ordering::Relaxed;
use std::time::Instant;

/// Most boxes that are looked at; one that comes again is not counted.
pub(super) const MOST_BOXES: usize = 240;
/// Most starts that are improved.
const MOST_STARTS: usize = 3;
/// Most seconds of one exact decision while divisions are compared; the answer itself has the whole limit.
const DECISION_LIMIT_S: f64 = 1.0;
/// How far a box counts as away where no figure tells.
const NO_FIGURE: f64 = 1e3;

/// One box as far as the search knows it.
#[derive(Debug, Clone)]
pub(super) enum Looked {
    /// An enclosure takes it: its measures in the order of the objective.
    Taken(Vec<f64>),
    /// None takes it: how far the nearest is away, and the reasons.
    NotTaken(f64, Vec<Excluded>),
    /// No part serves an entry of it.
    NoPart(String),
}

/// A division with what came of both boxes.
#[derive(Debug, Clone)]
pub(super) struct Judged {
    pub(super) division: Division,
    pub(super) texts: [String; 2],
    pub(super) looked: [Looked; 2],
    /// What is compared, the most important first.
    score: Vec<f64>,
}

impl Judged {
    /// Whether enclosures take both boxes.
    pub(super) fn holds(&self) -> bool {
        self.looked
            .iter()
            .all(|looked| matches!(looked, Looked::Taken(_)))
    }
}

/// What came of the search.
#[derive(Debug)]
pub(super) struct Searched {
    /// Divisions from the best to the worst; empty where there is nothing to divide.
    pub(super) ranked: Vec<Judged>,
    /// Number of divisions looked at.
    pub(super) tried: usize,
}

/// Searches.
///
/// # Errors
/// A fault of the program, such as a derived list that cannot be read.
pub(super) fn search(
    list: &RequirementList,
    catalogue: &Catalogue,
    workshop: &Workshop,
    options: SearchOptions,
    most_boxes: usize,
) -> Result<Searched, ProposeError> {
    let units = units(list);
    let mut judge = Judge {
        list,
        catalogue,
        workshop,
        options: SearchOptions {
            decision_limit_s: options.decision_limit_s.min(DECISION_LIMIT_S),
            ..options
        },
        units: &units,
        most_boxes,
        known: BTreeMap::new(),
        seen: BTreeMap::new(),
    };
    for start in starts(&units) {
        judge.look(start)?;
    }
    let mut best: Vec<(Vec<bool>, Vec<f64>)> = judge.ranked();
    best.truncate(MOST_STARTS);
    for (start, score) in best {
        judge.improve(start, score)?;
    }
    let tried = judge.seen.len();
    let order = judge.ranked();
    let mut seen = judge.seen;
    let ranked = order
        .into_iter()
        .filter_map(|(sides, _)| seen.remove(&sides))
        .collect();
    Ok(Searched { ranked, tried })
}

/// Judges a division by the tags of what the second box holds; `None` where it parts what must share a box, or
/// leaves one box empty.
///
/// # Errors
/// As [`search`].
pub(super) fn judge(
    list: &RequirementList,
    second: &[&str],
    catalogue: &Catalogue,
    workshop: &Workshop,
    options: SearchOptions,
) -> Result<Option<Judged>, ProposeError> {
    let units = units(list);
    let tag = |item: &Item| match item {
        Item::Cable(at) => list.cables[*at].tag.as_str(),
        Item::Element(at) => list.elements[*at].tag.as_str(),
    };
    let mut sides = Vec::new();
    for unit in &units {
        let held = unit.items.iter().filter(|item| second.contains(&tag(item)));
        match held.count() {
            0 => sides.push(false),
            all if all == unit.items.len() => sides.push(true),
            _ => return Ok(None),
        }
    }
    let mut judge = Judge {
        list,
        catalogue,
        workshop,
        options,
        units: &units,
        most_boxes: 2,
        known: BTreeMap::new(),
        seen: BTreeMap::new(),
    };
    judge.look(sides)?;
    Ok(judge.seen.into_values().next())
}

struct Judge<'a> {
    list: &'a RequirementList,
    catalogue: &'a Catalogue,
    workshop: &'a Workshop,
    options: SearchOptions,
    units: &'a [Unit],
    most_boxes: usize,
    /// Boxes by the text of their list.
    known: BTreeMap<String, Looked>,
    /// Divisions by the box of each unit.
    seen: BTreeMap<Vec<bool>, Judged>,
}

impl Judge<'_> {
    /// Judges a division: the box of each unit, `true` for the second. The first unit is always in the first
    /// box. `None` where one box is empty or no more boxes may be looked at.
    fn look(&mut self, mut sides: Vec<bool>) -> Result<Option<Vec<f64>>, ProposeError> {
        if sides.first() == Some(&true) {
            sides.iter_mut().for_each(|side| *side = !*side);
        }
        if !sides.contains(&true) {
            return Ok(None);
        }
        if let Some(judged) = self.seen.get(&sides) {
            return Ok(Some(judged.score.clone()));
        }
        if self.known.len() + 2 > self.most_boxes || time_is_over(&self.options) {
            return Ok(None);
        }
        let division = divide(self.list, &assignment(self.list, self.units, &sides));
        let texts = [0, 1].map(|at| list_text(self.list, self.workshop, &division, at));
        let looked = [self.look_at(&texts[0])?, self.look_at(&texts[1])?];
        let score = score(&division, &looked);
        self.seen.insert(
            sides,
            Judged {
                division,
                texts,
                looked,
                score: score.clone(),
            },
        );
        Ok(Some(score))
    }

    fn look_at(&mut self, text: &str) -> Result<Looked, ProposeError> {
        if let Some(known) = self.known.get(text) {
            return Ok(known.clone());
        }
        let looked = look_at(
            text,
            self.catalogue,
            self.workshop,
            self.options,
            &self.list.wishes.smallest,
        )?;
        self.known.insert(text.to_string(), looked.clone());
        Ok(looked)
    }

    /// Moves one unit after the other while that makes the division better.
    fn improve(&mut self, mut sides: Vec<bool>, mut score: Vec<f64>) -> Result<(), ProposeError> {
        let mut moved = true;
        while moved {
            moved = false;
            for unit in 0..sides.len() {
                let mut other = sides.clone();
                other[unit] = !other[unit];
                if let Some(found) = self.look(other.clone())?
                    && compare(&found, &score) == Ordering::Less
                {
                    (sides, score, moved) = (other, found, true);
                }
            }
        }
        Ok(())
    }

    fn ranked(&self) -> Vec<(Vec<bool>, Vec<f64>)> {
        let mut all: Vec<(Vec<bool>, Vec<f64>)> = self
            .seen
            .iter()
            .map(|(sides, judged)| (sides.clone(), judged.score.clone()))
            .collect();
        // Stable: equal scores keep the order of the map.
        all.sort_by(|a, b| compare(&a.1, &b.1));
        all
    }
}

/// Whether the whole time is over, or somebody wishes to stop.
fn time_is_over(options: &SearchOptions) -> bool {
    let stopped = options.stop.is_some_and(|stop| stop.load(Relaxed));
    stopped || options.deadline.is_some_and(|end| Instant::now() >= end)
}

fn compare(a: &[f64], b: &[f64]) -> Ordering {
    a.iter()
        .zip(b)
        .map(|(a, b)| a.total_cmp(b))
        .find(|order| *order != Ordering::Equal)
        .unwrap_or(Ordering::Equal)
}

/// Fewest boxes that fail, then how far they are away, then the objective summed over both boxes, then the
/// fewest connecting cables and used cores in them.
fn score(division: &Division, looked: &[Looked; 2]) -> Vec<f64> {
    let mut failing = 0.0;
    let mut away = 0.0;
    let mut measures = vec![0.0; 8];
    for box_of in looked {
        match box_of {
            Looked::Taken(of) => {
                for (sum, measure) in measures.iter_mut().zip(of) {
                    *sum += measure;
                }
            }
            Looked::NotTaken(distance, _) => {
                failing += 1.0;
                away += distance;
            }
            Looked::NoPart(_) => {
                failing += 1.0;
                away += NO_FIGURE;
            }
        }
    }
    let used: u32 = division.connecting.iter().map(|cable| cable.used).sum();
    let mut score = vec![failing, away];
    score.extend(measures);
    score.push(f64::from(used));
    score.push(division.connecting.len() as f64);
    score
}

/// Reads and searches the list of one box.
fn look_at(
    text: &str,
    catalogue: &Catalogue,
    workshop: &Workshop,
    options: SearchOptions,
    smallest: &[Measure],
) -> Result<Looked, ProposeError> {
    let file = SourceFile::from_text("box.toml", text);
    let list = RequirementList::from_source(file, workshop).map_err(|findings| {
        ProposeError::Fault(format!(
            "a derived list cannot be read: {}",
            findings.render_plain()
        ))
    })?;
    let findings = check_parts(&list, catalogue);
    if findings.has_errors() {
        return Ok(Looked::NoPart(in_words(&findings)));
    }
    let demand = match demand::build(&list, catalogue, workshop) {
        Ok(demand) => demand,
        Err(findings) => return Ok(Looked::NoPart(in_words(&findings))),
    };
    let outcome =
        model::search(&list, &demand, catalogue, workshop, options).map_err(ProposeError::Fault)?;
    Ok(match outcome {
        Outcome::Found(found) => {
            let enclosure = catalogue
                .enclosure
                .iter()
                .find(|of| of.id == found.mounted.id);
            let measures = smallest
                .iter()
                .filter_map(|by| enclosure.map(|of| model::measure(of, *by)))
                .collect();
            Looked::Taken(measures)
        }
        Outcome::Impossible { excluded, .. } => {
            let nearest = excluded
                .iter()
                .filter(|of| !matches!(of.reason, Reason::NotWanted(_) | Reason::NotSo(_)))
                .map(|of| of.reason.distance())
                .fold(NO_FIGURE, f64::min);
            Looked::NotTaken(nearest, excluded)
        }
    })
}

fn assignment(list: &RequirementList, units: &[Unit], sides: &[bool]) -> Assignment {
    let mut boxes = Assignment {
        cables: vec![0; list.cables.len()],
        elements: vec![0; list.elements.len()],
    };
    for (unit, side) in units.iter().zip(sides) {
        for item in &unit.items {
            match item {
                Item::Cable(cable) => boxes.cables[*cable] = usize::from(*side),
                Item::Element(element) => boxes.elements[*element] = usize::from(*side),
            }
        }
    }
    boxes
}

/// The divisions that the search starts from.
fn starts(units: &[Unit]) -> Vec<Vec<bool>> {
    let mut starts = Vec::new();
    let components: BTreeSet<usize> = units.iter().map(|unit| unit.component).collect();
    let weight_of = |component: usize| -> u32 {
        units
            .iter()
            .filter(|unit| unit.component == component)
            .map(|unit| unit.weight)
            .sum()
    };
    // The heaviest first, each into the lighter box.
    let mut by_weight: Vec<usize> = components.iter().copied().collect();
    by_weight.sort_by_key(|component| std::cmp::Reverse(weight_of(*component)));
    let mut filled = [0, 0];
    let mut second: BTreeSet<usize> = BTreeSet::new();
    for component in by_weight {
        let side = usize::from(filled[1] < filled[0]);
        filled[side] += weight_of(component);
        if side == 1 {
            second.insert(component);
        }
    }
    let dealt = |unit: &Unit| second.contains(&unit.component);
    starts.push(units.iter().map(dealt).collect());
    // Intrinsically safe components apart.
    let safe: BTreeSet<usize> = units
        .iter()
        .filter(|unit| unit.intrinsically_safe)
        .map(|unit| unit.component)
        .collect();
    let apart = |unit: &Unit| safe.contains(&unit.component);
    starts.push(units.iter().map(apart).collect());
    // Cut at eighths of the size: in the order of the list, component by component; each component by itself.
    let mut order: Vec<usize> = (0..units.len()).collect();
    order.sort_by_key(|unit| units[*unit].component);
    let all: u32 = units.iter().map(|unit| unit.weight).sum();
    for eighth in 1..8 {
        let mut sides = vec![false; units.len()];
        let mut before = 0;
        for unit in &order {
            sides[*unit] = before * 8 >= all * eighth;
            before += units[*unit].weight;
        }
        starts.push(sides);
    }
    for eighth in [4, 6, 2] {
        let mut sides = vec![false; units.len()];
        let mut before: BTreeMap<usize, u32> = BTreeMap::new();
        for unit in &order {
            let of = &units[*unit];
            let gone = before.entry(of.component).or_default();
            sides[*unit] = *gone * 8 >= weight_of(of.component) * eighth;
            *gone += of.weight;
        }
        starts.push(sides);
    }
    starts
}
