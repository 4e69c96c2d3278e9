//! The exact division into rows for problems with too many states for tables: prices disprove most, a search
//! over rows decides the rest.
//!
//! Data flow: problem → kinds and areas in whole units → capacities at telling prices (disproved?) → short
//! search, cut by the capacities → sought prices (disproved?) → plans of rows (disproved?) → long search → rows. Certified numbers of entries are asked nowhere
//! here; such problems are left to the program.

mod capacity;
mod kinds;
mod plan;
mod prices;
mod search;
mod table;
#[cfg(test)]
mod tests;

use super::{EntryProblem, EntryRow, Undivided};
use capacity::Capacity;
use kinds::Kinds;
use search::{Found, Row, Search};

/// Most kinds of entries.
const MOST_KINDS: usize = 24;
/// Most capacities that a search asks.
const MOST_CAPACITIES: usize = 8;
/// Rows that are tried before prices are sought, and after.
const FEW_ROWS: usize = 200;
const MOST_ROWS: usize = 30_000;

/// Places all entries; `None` where this way does not decide.
pub(super) fn place(problem: &EntryProblem) -> Option<Result<Vec<EntryRow>, Undivided>> {
    if !problem.certified.is_empty() || problem.classes.len() > MOST_KINDS {
        return None;
    }
    let kinds = Kinds::new(problem);
    let counts: Vec<u32> = kinds.kinds.iter().map(|kind| kind.count).collect();
    let impossible = Some(Err(Undivided::Impossible));
    let Some(capacities) = prices::telling(&kinds, &counts) else {
        return impossible;
    };
    let mut capacities = tightest(capacities, &counts);
    let search = |capacities: &[Capacity<'_>], most: usize| {
        Search::new(&kinds, &counts, capacities, most).run()
    };
    let found = match search(&capacities, FEW_ROWS) {
        Found::Open => {
            match prices::sought(&kinds, &counts) {
                Some(nearest) => capacities.insert(0, nearest),
                None => return impossible,
            }
            match plan::run(&kinds, &counts, &capacities) {
                Found::Open => search(&capacities, MOST_ROWS),
                found => found,
            }
        }
        found => found,
    };
    match found {
        Found::Rows(rows) => Some(Ok(read_rows(problem, &kinds, &rows))),
        Found::Nothing => impossible,
        Found::Open => None,
    }
}

/// The capacities that leave the least of what they hold.
fn tightest<'k>(mut capacities: Vec<Capacity<'k>>, counts: &[u32]) -> Vec<Capacity<'k>> {
    capacities.sort_by_cached_key(|capacity| {
        let (worth, room) = (capacity.price(counts), capacity.of_all());
        // Ten-thousandths of what is asked for.
        (room - worth).saturating_mul(10_000) / worth.max(1)
    });
    capacities.truncate(MOST_CAPACITIES);
    capacities
}

/// Deals the members of each class out to the rows, in the order of the list.
fn read_rows(problem: &EntryProblem, kinds: &Kinds, rows: &[Row]) -> Vec<EntryRow> {
    let mut members: Vec<std::slice::Iter<'_, usize>> = kinds
        .kinds
        .iter()
        .map(|kind| problem.classes[kind.class].members.iter())
        .collect();
    let mut placed = Vec::new();
    for (index, area) in problem.areas.iter().enumerate() {
        for (_, counts) in rows.iter().filter(|(at, _)| *at == index) {
            let entries = counts
                .iter()
                .zip(&mut members)
                .flat_map(|(count, members)| members.by_ref().take(*count as usize).copied())
                .collect();
            placed.push(area.row(entries));
        }
    }
    placed
}
