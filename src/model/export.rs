//! The exact models of a search as text, for a solver of the user's own, with our answers beside them.
//!
//! Many decisions are taken without a program: by bounds, by tables, constructively. Here the program is
//! stated for all of them, so that every answer can be confirmed by somebody else's solver. What is
//! plain arithmetic (certificate, heat, depth) has no program: its reason stands in the index.

use super::candidate::Prepared;
use super::decide::{Problem, wall_sets};
use super::free::Placement;
use super::inside::{above_rails, behind_lid_mm, decide_inside, lowest, terminal_depth};
use super::lid::{LidOutcome, lid_program, place_elements};
use super::mount::mount;
use super::rails::{RailKind, RailRoom, rail_programs};
use super::reason::Reason;
use super::room::{bounds, lid_rect};
use super::search::{SearchOptions, candidates};
use super::walls::{EntryRefusal, entries_program, place_entries};
use crate::arrangement::{CAUTION, EnclosureRecord, Orientation};
use crate::catalogue::Catalogue;
use crate::demand::Demand;
use crate::requirements::RequirementList;
use crate::space::Face;
use crate::workshop::Workshop;
use itertools::Itertools;
use serde::Serialize;
use std::collections::BTreeMap;

/// What the index says of the files beside it.
const ABOUT: &str = "Each .lp file is one exact model in LP format. A set of walls holds where `entries` has a solution, \
     the least cost over the files of `rails` is at most their height_mm, the least cost of `lid` is at most its height_mm, and, \
     where `beside` stands, the least cost of `lid` is also at most elements_height_mm. `holds`, `placed`, \
     `least_height_mm` and `fits` are the program's own answers. Costs of rails hold 0.0001 for each part and strip on a \
     rail besides the height in mm. A `refused` set is refused by arithmetic alone. Entries are in rows throughout.";

/// The models of a search: the index, and each file's name and text.
#[derive(Debug, Clone)]
pub struct Exported {
    /// What is what.
    pub index: ModelIndex,
    /// LP files by name; models that are the same share a file.
    pub files: BTreeMap<String, String>,
}

/// What is what in a folder of models.
#[derive(Debug, Clone, Serialize)]
pub struct ModelIndex {
    /// The caution that stands in every result.
    pub caution: &'static str,
    /// How to read the index.
    pub about: &'static str,
    /// Tag of the list.
    pub list: String,
    /// Candidates in the order of the objective, up to the one that is taken.
    pub candidates: Vec<CandidateModels>,
}

/// The models of one candidate.
#[derive(Debug, Clone, Serialize)]
pub struct CandidateModels {
    /// Enclosure.
    pub enclosure: String,
    /// Orientation.
    pub orientation: Orientation,
    /// Whether it takes the demand.
    pub holds: bool,
    /// Why it was discarded, where it was.
    pub reason: Option<String>,
    /// Sets of walls with entries, in order of preference; empty where a screen refuses the candidate.
    pub wall_sets: Vec<WallSetModels>,
}

/// The models for one set of walls that may carry entries.
#[derive(Debug, Clone, Serialize)]
pub struct WallSetModels {
    /// Walls.
    pub walls: Vec<Face>,
    /// Whether everything finds its place.
    pub holds: bool,
    /// The reason where arithmetic alone refuses the set, or no answer was found in time.
    pub refused: Option<String>,
    /// Entries in rows.
    pub entries: EntriesModel,
    /// Terminals on rails, where there are terminals.
    pub rails: Option<RailsModels>,
    /// Elements on the lid, where there are elements.
    pub lid: Option<LidModel>,
    /// Elements above the terminals, where they may not lie before them.
    pub beside: Option<BesideModel>,
}

/// Entries in rows on walls: a question of feasibility.
#[derive(Debug, Clone, Serialize)]
pub struct EntriesModel {
    /// File.
    pub file: String,
    /// Whether rows were found; `None` where that is undecided.
    pub placed: Option<bool>,
}

/// Terminals on rails: least height.
#[derive(Debug, Clone, Serialize)]
pub struct RailsModels {
    /// One file for each division into rails of certain kinds.
    pub files: Vec<String>,
    /// Divisions that have no file: sums of lengths or heights refuse them.
    pub refused_by_sums: usize,
    /// Height that there is.
    pub height_mm: f64,
    /// Least height of all divisions that fit; `None` where none does.
    pub least_height_mm: Option<f64>,
}

/// Elements in rows on the lid: least height.
#[derive(Debug, Clone, Serialize)]
pub struct LidModel {
    /// File.
    pub file: String,
    /// Height that there is.
    pub height_mm: f64,
    /// Whether the rows fit; `None` where that is undecided.
    pub fits: Option<bool>,
}

/// Elements above terminals.
#[derive(Debug, Clone, Serialize)]
pub struct BesideModel {
    /// Height that the lowest division of the terminals leaves to the elements.
    pub elements_height_mm: f64,
    /// Whether the rows of elements fit there; `None` where that is undecided.
    pub fits: Option<bool>,
}

/// States the models of every candidate up to the one that is taken.
///
/// # Errors
/// A conductor for which no resistance is known.
pub fn export(
    list: &RequirementList,
    demand: &Demand<'_>,
    catalogue: &Catalogue,
    workshop: &Workshop,
    options: SearchOptions,
) -> Result<Exported, String> {
    // The models are those of rows; placing without rows is no exact decision.
    let options = SearchOptions {
        placement: Placement::Rows,
        ..options
    };
    let prepared = Prepared::new(list, demand, workshop, options)?;
    let problem = prepared.problem();
    let mut files = Files::default();
    let mut all = Vec::new();
    for (enclosure, orientation) in candidates(list, catalogue) {
        let mounted = mount(enclosure, orientation);
        let decided = prepared.decide_candidate(enclosure, orientation);
        let wall_sets = match prepared.screen(enclosure, &mounted) {
            Err(_) => Vec::new(),
            Ok(()) => candidate_models(&problem, &mounted, &mut files),
        };
        let holds = decided.is_ok();
        all.push(CandidateModels {
            enclosure: enclosure.id.clone(),
            orientation,
            holds,
            reason: decided.err().map(|reason| reason.to_string()),
            wall_sets,
        });
        if holds {
            break;
        }
    }
    Ok(Exported {
        index: ModelIndex {
            caution: CAUTION,
            about: ABOUT,
            list: list.job.tag.clone(),
            candidates: all,
        },
        files: files.by_name,
    })
}

fn candidate_models(
    problem: &Problem<'_, '_>,
    mounted: &EnclosureRecord,
    files: &mut Files,
) -> Vec<WallSetModels> {
    let drilled = problem
        .walls
        .iter()
        .copied()
        .filter(|wall| mounted.walls.contains_key(wall))
        .collect_vec();
    let (top_mm, too_deep) = terminal_depth(problem, mounted);
    wall_sets(&drilled, problem.demand)
        .into_iter()
        .map(|walls| {
            let mut set = wall_set_models(problem, mounted, walls, top_mm, files);
            if let Some(reason) = &too_deep {
                set.holds = false;
                set.refused = Some(reason.to_string());
            }
            set
        })
        .collect()
}

fn wall_set_models(
    problem: &Problem<'_, '_>,
    mounted: &EnclosureRecord,
    walls: Vec<Face>,
    terminal_top_mm: f64,
    files: &mut Files,
) -> WallSetModels {
    let (needs, limits) = (&problem.demand.entries, problem.limits);
    let entries = EntriesModel {
        file: files.put(
            "entries",
            &format!("Entries in rows on {}", words(&walls)),
            entries_program(needs, mounted, limits, &walls),
        ),
        placed: match place_entries(needs, mounted, limits, &walls, problem.effort()) {
            Ok(_) => Some(true),
            Err(EntryRefusal::Impossible { .. } | EntryRefusal::TooLarge { .. }) => Some(false),
            Err(EntryRefusal::Undecided(_)) => None,
        },
    };
    let inside = decide_inside(problem, mounted, &walls, terminal_top_mm);
    let bounds = bounds(problem, mounted, &walls);
    let lid_rect = lid_rect(problem, mounted, &walls);
    let room = RailRoom {
        length_mm: bounds.right_mm - bounds.left_mm,
        height_mm: bounds.top_mm - bounds.bottom_mm,
    };
    let lowest = lowest(problem, room).ok();
    let fits = |height_mm: f64| match place_elements(
        problem.lid,
        lid_rect.width_mm,
        height_mm,
        problem.effort(),
    ) {
        LidOutcome::Placed { .. } => Some(true),
        LidOutcome::Impossible { .. } => Some(false),
        LidOutcome::Undecided(_) => None,
    };
    let has_terminals = !problem.rails.types.is_empty();
    let has_elements = !problem.lid.items.is_empty();
    let before = terminal_top_mm + behind_lid_mm(problem) <= mounted.interior.depth_mm + 1e-9;
    let beside = lowest
        .as_ref()
        .filter(|_| has_terminals && has_elements && !before)
        .map(|(rails, rails_mm)| above_rails(problem, bounds, rails, *rails_mm, lid_rect).1)
        .map(|rect| BesideModel {
            elements_height_mm: rect.height_mm,
            fits: fits(rect.height_mm),
        });
    let rails = has_terminals.then(|| {
        let (programs, refused_by_sums) = rail_programs(problem.rails, room);
        RailsModels {
            files: programs
                .into_iter()
                .map(|(kinds, program)| {
                    let about = format!("Terminals on rails: {}", rail_words(&kinds));
                    files.put("rails", &about, program)
                })
                .collect(),
            refused_by_sums,
            height_mm: room.height_mm,
            least_height_mm: lowest.map(|(_, height_mm)| height_mm),
        }
    });
    let lid = has_elements.then(|| LidModel {
        file: files.put(
            "lid",
            "Elements in rows on the lid",
            lid_program(problem.lid, lid_rect.width_mm),
        ),
        height_mm: lid_rect.height_mm,
        fits: fits(lid_rect.height_mm),
    });
    let refused = match &inside {
        Err(reason @ (Reason::Depth { .. } | Reason::Undecided(_))) => Some(reason.to_string()),
        _ => None,
    };
    WallSetModels {
        holds: entries.placed == Some(true) && inside.is_ok(),
        walls,
        refused,
        entries,
        rails,
        lid,
        beside,
    }
}

fn words(walls: &[Face]) -> String {
    match walls {
        [] => "no wall".to_string(),
        walls => walls.iter().map(Face::to_string).join(", "),
    }
}

fn rail_words(kinds: &[RailKind]) -> String {
    kinds
        .iter()
        .map(|kind| match kind {
            RailKind::Other => "not intrinsically safe",
            RailKind::Earth => "earth",
            RailKind::Mixed => "both kinds apart",
            RailKind::IntrinsicallySafe => "intrinsically safe",
        })
        .join(", ")
}

/// Files by name; a model that is there already is not written twice.
#[derive(Default)]
struct Files {
    by_name: BTreeMap<String, String>,
    by_text: BTreeMap<String, String>,
    counts: BTreeMap<&'static str, usize>,
}

impl Files {
    fn put(&mut self, part: &'static str, about: &str, program: super::milp::Program) -> String {
        let text = program.lp(&format!("{about}. All lengths in mm.\n{CAUTION}"));
        if let Some(name) = self.by_text.get(&text) {
            return name.clone();
        }
        let count = self.counts.entry(part).or_default();
        *count += 1;
        let name = format!("{part}-{count:04}.lp");
        self.by_text.insert(text.clone(), name.clone());
        self.by_name.insert(name.clone(), text);
        name
    }
}
