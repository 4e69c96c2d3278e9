//! Spare terminals: a share of those used, of the part that its strip uses most.

use super::build::Builder;
use super::{Cluster, LevelNeed, TerminalNeed};
use itertools::Itertools;

/// Adds spare terminals at the end of each strip of circuits, rounded up.
pub(super) fn add_spare_terminals(builder: &mut Builder<'_, '_>) {
    let percent = builder.list.spare.terminals_percent;
    if percent <= 0.0 {
        return;
    }
    for strip in 0..builder.demand.strips.len() {
        let terminals = builder.demand.strips[strip]
            .clusters
            .iter()
            .flat_map(|cluster| &cluster.terminals)
            .map(|terminal| builder.demand.terminals[*terminal].part)
            .collect_vec();
        // The part used most; of equally frequent ones the first by id.
        let counts = terminals.iter().counts_by(|part| part.id.as_str());
        let Some((most_used, _)) = counts
            .iter()
            .sorted_by(|a, b| b.1.cmp(a.1).then(a.0.cmp(b.0)))
            .next()
        else {
            continue;
        };
        let Some(part) = terminals.iter().find(|part| part.id == **most_used) else {
            continue;
        };
        let spares = spare_count(terminals.len(), percent);
        for _ in 0..spares {
            let terminal = builder.demand.terminals.len();
            let level = LevelNeed {
                potential: String::new(),
                voltage_v: 0.0,
                current_a: 0.0,
                heat_current_a: 0.0,
            };
            builder.demand.terminals.push(TerminalNeed {
                part,
                strip,
                marking: String::new(),
                spare: true,
                levels: vec![level; part.levels() as usize],
            });
            builder.demand.strips[strip].clusters.push(Cluster {
                terminals: vec![terminal],
                jumper: None,
            });
        }
    }
}

/// Number of spare terminals for a number of used ones, rounded up.
fn spare_count(used: usize, percent: f64) -> usize {
    // A share such as 20 % of 15 must not become 4 through a binary fraction.
    ((used as f64 * percent / 100.0) - 1e-9).ceil() as usize
}

#[cfg(test)]
mod tests {
    use super::spare_count;

    #[test]
    fn shares_are_rounded_up_but_not_beyond() {
        assert_eq!(spare_count(15, 20.0), 3);
        assert_eq!(spare_count(16, 20.0), 4);
        assert_eq!(spare_count(1, 1.0), 1);
        assert_eq!(spare_count(24, 10.0), 3);
        assert_eq!(spare_count(10, 30.0), 3);
    }
}
