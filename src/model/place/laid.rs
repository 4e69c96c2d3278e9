//! Terminals and entries in the order in which the conductors between them are shortest.

use super::exchange::{Exchange, Measured};
use super::{orders, rails};
use crate::arrangement::{Limits, PlacedElement};
use crate::demand::Demand;
use crate::model::FreeEntry;
use crate::model::rails::RailPlan;
use crate::model::search::Found;
use crate::model::walls::EntryRow;
use crate::requirements::RequirementList;

/// What share of the length another order of strips must save to be taken: the list's order is the one that is
/// expected, and not given up for a trifle.
const LEAST_GAIN: f64 = 0.01;

/// One way to lay everything out.
pub(super) struct Laid {
    pub on_rails: rails::Placed,
    pub rows: Vec<EntryRow>,
    pub free: Vec<FreeEntry>,
    pub measured: Measured,
}

/// The shortest of all orders of strips along their rails. Where there are too many orders, neighbours change places
/// as long as that is shorter; then the least length is not known.
pub(super) fn shortest(
    list: &RequirementList,
    demand: &Demand<'_>,
    found: &Found,
    limits: &Limits,
    elements: &[PlacedElement],
) -> Result<Laid, String> {
    let planned = &found.decided.rails;
    let lay = |plans: &[RailPlan]| lay(list, demand, found, limits, elements, plans);
    let mut best = lay(planned)?;
    let Some(all) = orders::all(demand, planned) else {
        best = by_neighbours(demand, planned, best, lay)?;
        best.measured.least_mm = None;
        return Ok(best);
    };
    let most_mm = best.measured.length_mm * (1.0 - LEAST_GAIN);
    let mut least_mm = best.measured.least_mm;
    for plans in all.iter().skip(1) {
        let laid = lay(plans)?;
        least_mm = least_mm.zip(laid.measured.least_mm).map(|(a, b)| a.min(b));
        if laid.measured.length_mm < best.measured.length_mm.min(most_mm) {
            best = laid;
        }
    }
    best.measured.least_mm = least_mm;
    Ok(best)
}

/// Exchanges neighbouring strips as long as each exchange is shorter, and not more often than orders are tried.
fn by_neighbours(
    demand: &Demand<'_>,
    planned: &[RailPlan],
    mut best: Laid,
    lay: impl Fn(&[RailPlan]) -> Result<Laid, String>,
) -> Result<Laid, String> {
    let mut plans = planned.to_vec();
    let mut tried = 0;
    loop {
        let mut is_shorter = false;
        for swapped in orders::neighbours(demand, &plans) {
            if tried == orders::MOST_ORDERS {
                return Ok(best);
            }
            tried += 1;
            let laid = lay(&swapped)?;
            if laid.measured.length_mm < best.measured.length_mm * (1.0 - LEAST_GAIN) {
                (best, plans, is_shorter) = (laid, swapped, true);
                break;
            }
        }
        if !is_shorter {
            return Ok(best);
        }
    }
}

fn lay(
    list: &RequirementList,
    demand: &Demand<'_>,
    found: &Found,
    limits: &Limits,
    elements: &[PlacedElement],
    plans: &[RailPlan],
) -> Result<Laid, String> {
    let on_rails = rails::place(demand, &found.mounted, &found.decided, plans)?;
    let terminals = (on_rails.terminals.as_slice(), &on_rails.terminal_index);
    let exchange = Exchange::new(list, demand, &found.mounted, limits, terminals, elements);
    let rows = exchange.shortest(&found.decided.entries);
    let free = exchange.shortest_free(&found.decided.free);
    let measured = exchange.measured(&rows, &free);
    Ok(Laid {
        on_rails,
        rows,
        free,
        measured,
    })
}
