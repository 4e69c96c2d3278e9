//! Terminals and entries in the order in which the conductors between them are shortest.

use super::exchange::{Exchange, Measured};
use super::{orders, rails};
use crate::arrangement::{Limits, PlacedElement};
use crate::demand::Demand;
use crate::model::FreeEntry;
use crate::model::rails::RailPlan;
use crate::model::search::Found;
use crate::model::walls::EntryRow;
use crate::parallel::on_all_cores;
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
    let Some(all) = orders::all(demand, planned) else {
        let mut best = lay(planned)?;
        best = by_neighbours(demand, planned, best, lay)?;
        best.measured.least_mm = None;
        return Ok(best);
    };
    let mut each = on_all_cores(&all, |plans| lay(plans)).into_iter();
    let mut best = each.next().unwrap_or_else(|| lay(planned))?;
    let most_mm = best.measured.length_mm * (1.0 - LEAST_GAIN);
    let mut least_mm = best.measured.least_mm;
    for laid in each {
        let laid = laid?;
        least_mm = least_mm.zip(laid.measured.least_mm).map(|(a, b)| a.min(b));
        if laid.measured.length_mm < best.measured.length_mm.min(most_mm) {
            best = laid;
        }
    }
    best.measured.least_mm = least_mm;
    Ok(best)
}

/// Exchanges neighbouring strips as long as each exchange saves that share, and tries no more than so many orders.
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::audit;
    use crate::catalogue::Catalogue;
    use crate::model::place::prepared::with_found;
    use crate::model::place::{connected, elements};
    use std::collections::BTreeSet;

    const STATION: &str = include_str!("../../../examples/mixer-control-station.toml");
    const SIGNALS: &str = include_str!("../../../examples/level-mixed-signals.toml");

    /// Every order of the strips passes the audit, which knows nothing of orders, and none is shorter by more
    /// than the share for which another one is taken. Lengths are those of the conductors as they are drawn.
    #[test]
    fn every_order_passes_and_none_is_much_shorter() {
        // Strips of a station on one rail; of mixed signals on two, of which one holds two.
        for (text, orders) in [(STATION, 6), (SIGNALS, 2)] {
            with_found(text, |list, demand, workshop, found| {
                let (limits, catalogue) = (workshop.limits(), Catalogue::demo());
                let on_lid =
                    || elements::place(list, demand, &found.mounted, workshop, &found.decided);
                let drawn_mm = |laid: Laid| {
                    let arrangement =
                        connected(list, demand, catalogue, workshop, found, on_lid(), laid)
                            .expect("places for all");
                    let report = audit::audit(&arrangement, Some(catalogue));
                    let failing: Vec<&str> = report.failing().map(|rule| rule.id).collect();
                    assert!(failing.is_empty(), "{failing:?}");
                    let lengths = arrangement.wires.iter().map(|wire| wire.route_mm);
                    lengths.sum::<f64>()
                };
                let taken = shortest(list, demand, found, &limits, &on_lid()).expect("laid");
                let least_mm = taken.measured.least_mm.expect("few strips");
                let taken_mm = drawn_mm(taken);
                let all = orders::all(demand, &found.decided.rails).expect("few orders");
                let clusters = |rails: &Vec<RailPlan>| -> Vec<Vec<(usize, usize)>> {
                    rails.iter().map(|rail| rail.clusters.clone()).collect()
                };
                let different: BTreeSet<_> = all.iter().map(clusters).collect();
                assert_eq!(different.len(), orders);
                for plans in &all {
                    let laid = lay(list, demand, found, &limits, &on_lid(), plans).expect("laid");
                    let length_mm = drawn_mm(laid);
                    assert!(least_mm <= length_mm);
                    assert!(
                        taken_mm * (1.0 - LEAST_GAIN) <= length_mm,
                        "{length_mm} of {taken_mm}"
                    );
                }
            });
        }
    }

    /// Step by step from the planned order of the station to one as short as the shortest, but for a trifle. The lamp
    /// stands right of the meter here: where it stands over its button, no other order of the strips is much shorter.
    #[test]
    fn exchanging_neighbours_leads_to_the_shortest_order() {
        let meter = "kind = \"ammeter\"\n";
        assert!(STATION.contains(meter));
        let station = STATION.replace(meter, &format!("{meter}order = 1\n"));
        with_found(&station, |list, demand, workshop, found| {
            let limits = workshop.limits();
            let on_lid = elements::place(list, demand, &found.mounted, workshop, &found.decided);
            let lay = |plans: &[RailPlan]| lay(list, demand, found, &limits, &on_lid, plans);
            let planned = &found.decided.rails;
            let first = lay(planned).expect("laid");
            let first_mm = first.measured.length_mm;
            let stepwise = by_neighbours(demand, planned, first, lay).expect("laid");
            let all = shortest(list, demand, found, &limits, &on_lid).expect("laid");
            assert!(stepwise.measured.length_mm < first_mm * (1.0 - LEAST_GAIN));
            let apart_mm = stepwise.measured.length_mm - all.measured.length_mm;
            assert!(apart_mm.abs() <= first_mm * LEAST_GAIN, "{apart_mm} mm");
        });
    }
}
