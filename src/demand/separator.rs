//! The partition that may stand between intrinsically safe and other terminals on one rail, in place of
//! part of the distance between them (IEC 60079-11).

use super::{Demand, TerminalNeed};
use crate::catalogue::{Accessory, AccessoryKind, Catalogue};
use crate::standards::iec_60079_11::{PartitionMaterial, partition_thickness_mm};

/// A partition with the distance that is left to keep.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Separator<'c> {
    /// The partition.
    pub part: &'c Accessory,
    /// Between the bodies of the terminals on either side with the partition midway, mm: then the way
    /// round each of its edges is as long as the separation asks.
    pub gap_mm: f64,
}

/// The lowest partition that shortens the distance between the terminals of a demand, of equal ones the
/// shortest across the rail; `None` where none does. A higher one shortens it little more, for the way beneath
/// it stays, and costs far more depth and height.
pub(super) fn separator<'c>(
    demand: &Demand<'c>,
    catalogue: &'c Catalogue,
    separation_mm: f64,
) -> Option<Separator<'c>> {
    let least_mm = partition_thickness_mm(PartitionMaterial::Insulating)?;
    catalogue
        .accessory
        .iter()
        .filter(|part| part.kind == AccessoryKind::Partition && part.fits.is_empty())
        .filter(|part| !part.material.is_metal() && part.width_mm >= least_mm)
        .filter_map(|part| {
            let climb_mm = climb_mm(part, &demand.terminals)?;
            Some(Separator {
                part,
                gap_mm: gap_mm(part.width_mm, climb_mm, separation_mm),
            })
        })
        .filter(|separator| separator.gap_mm < separation_mm)
        .min_by(|a, b| {
            a.part
                .height_mm
                .total_cmp(&b.part.height_mm)
                .then(a.part.length_mm.total_cmp(&b.part.length_mm))
                .then(a.part.id.cmp(&b.part.id))
        })
}

/// How far the nearest edge of a partition reaches beyond the bare parts of any terminal: over the top, past
/// the ends, or down to the rail, where the way leads beneath it. `None` where it does not cover them.
fn climb_mm(part: &Accessory, terminals: &[TerminalNeed<'_>]) -> Option<f64> {
    let of = |need: &TerminalNeed<'_>| {
        let (terminal, live) = (need.part, need.part.live);
        let top_mm = part.height_mm - (terminal.height_mm - live.top_mm);
        let end_mm = (part.length_mm - terminal.length_mm) / 2.0 + live.ends_mm;
        top_mm.min(end_mm).min(live.foot_mm)
    };
    let climb_mm = terminals.iter().map(of).fold(f64::INFINITY, f64::min);
    (climb_mm.is_finite() && climb_mm > 0.0).then_some(climb_mm)
}

/// The way leads slantwise to the edge, over the thickness, and slantwise down again.
fn gap_mm(width_mm: f64, climb_mm: f64, separation_mm: f64) -> f64 {
    let slant_mm = (separation_mm - width_mm) / 2.0;
    let run_mm = (slant_mm * slant_mm - climb_mm * climb_mm).max(0.0).sqrt();
    // Up to the next tenth, so that rounding of positions never undercuts the way.
    width_mm + 2.0 * (run_mm * 10.0).ceil() / 10.0
}

#[cfg(test)]
mod tests {
    use super::gap_mm;

    #[test]
    fn the_way_round_is_as_long_as_the_separation() {
        for (width_mm, climb_mm) in [(2.0, 13.0), (1.0, 20.0), (3.0, 5.0)] {
            let gap = gap_mm(width_mm, climb_mm, 50.0);
            let way = 2.0 * ((gap - width_mm) / 2.0).hypot(climb_mm) + width_mm;
            assert!((50.0..50.2).contains(&way), "{way}");
            assert!(gap < 50.0);
        }
        // Where the edge alone is far enough, the partition itself is all.
        assert_eq!(gap_mm(2.0, 24.0, 50.0), 2.0);
    }
}
