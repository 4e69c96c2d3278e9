//! IEC 60079-11: distances between intrinsically safe terminals and everything else.
//! Knows nothing of where terminals stand.

use serde::{Deserialize, Serialize};

use super::provenance::{Source, Status};

/// 50 mm, or a partition, between intrinsically safe and other terminals.
pub const OTHER_CIRCUITS: Source = Source::new(
    "IEC 60079-11",
    "",
    "separation of terminals (with IEC 60079-14)",
    Status::Published,
);
/// 6 mm between separate intrinsically safe circuits.
pub const SEPARATE_CIRCUITS: Source = Source::new(
    "IEC 60079-11",
    "",
    "separation of terminals",
    Status::Published,
);
/// 3 mm from bare external conductors to earthed metal.
pub const EARTHED_METAL: Source =
    Source::new("IEC 60079-11", "2011", "cl. 6.2.1", Status::FromMemory);
/// How far a partition must reach.
pub const PARTITION_REACH: Source =
    Source::new("IEC 60079-11", "2011", "cl. 6.2.1", Status::FromMemory);
/// How thick a partition must be.
pub const PARTITION_THICKNESS: Source =
    Source::new("IEC 60079-11", "2011", "cl. 6.3.2", Status::FromMemory);
/// Light blue, where a colour is used.
pub const COLOUR: Source =
    Source::new("IEC 60079-11", "2011", "cl. 6.2 and 12", Status::FromMemory);

/// Least distance between bare parts of intrinsically safe and other terminals, mm.
pub const OTHER_CIRCUITS_MM: f64 = 50.0;
/// Least distance between bare parts of separate intrinsically safe circuits, mm.
pub const SEPARATE_CIRCUITS_MM: f64 = 6.0;
/// Least distance from bare parts of external intrinsically safe conductors to earthed metal or
/// other conductive parts, mm.
pub const EARTHED_METAL_MM: f64 = 3.0;
/// Largest gap that a partition may leave to the walls of the enclosure, mm.
pub const PARTITION_GAP_MM: f64 = 1.5;
/// Colour of intrinsically safe terminals and entries, where one is used.
pub const COLOUR_NAME: &str = "light blue";

/// What a partition is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PartitionMaterial {
    /// Metal, connected to earth.
    EarthedMetal,
    /// Metal without a connection to earth: never accepted.
    UnearthedMetal,
    /// Insulating material.
    Insulating,
}

/// Least thickness of a partition, mm; `None` where the material is never accepted.
///
/// ```
/// use glandrail::standards::iec_60079_11::{partition_thickness_mm, PartitionMaterial};
/// assert_eq!(partition_thickness_mm(PartitionMaterial::EarthedMetal), Some(0.45));
/// assert_eq!(partition_thickness_mm(PartitionMaterial::UnearthedMetal), None);
/// ```
pub const fn partition_thickness_mm(material: PartitionMaterial) -> Option<f64> {
    match material {
        PartitionMaterial::EarthedMetal => Some(0.45),
        PartitionMaterial::UnearthedMetal => None,
        PartitionMaterial::Insulating => Some(0.9),
    }
}

/// What lies between two groups of terminals.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Partition {
    /// What it is made of.
    pub material: PartitionMaterial,
    /// Its thickness, mm.
    pub thickness_mm: f64,
    /// The widest gap it leaves to a wall or the lid, mm.
    pub gap_mm: f64,
}

/// Whether intrinsically safe terminals are kept apart from others: 50 mm in the air, or around
/// the edge of the partition, or a partition that is thick enough and reaches the walls.
///
/// ```
/// use glandrail::standards::iec_60079_11::{separated, Partition, PartitionMaterial};
/// assert!(separated(50.0, None));
/// assert!(!separated(49.9, None));
/// let plate = Partition { material: PartitionMaterial::EarthedMetal, thickness_mm: 1.0, gap_mm: 1.5 };
/// assert!(separated(12.0, Some(plate)));
/// assert!(!separated(12.0, Some(Partition { gap_mm: 2.0, ..plate })));
/// ```
pub fn separated(distance_around_mm: f64, partition: Option<Partition>) -> bool {
    if distance_around_mm >= OTHER_CIRCUITS_MM {
        return true;
    }
    partition.is_some_and(|partition| {
        partition.gap_mm <= PARTITION_GAP_MM
            && partition_thickness_mm(partition.material)
                .is_some_and(|least_mm| partition.thickness_mm >= least_mm)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thin_and_unearthed_partitions_do_not_separate() {
        let with = |material, thickness_mm| {
            separated(
                10.0,
                Some(Partition {
                    material,
                    thickness_mm,
                    gap_mm: 0.0,
                }),
            )
        };
        assert!(with(PartitionMaterial::Insulating, 0.9));
        assert!(!with(PartitionMaterial::Insulating, 0.8));
        assert!(with(PartitionMaterial::EarthedMetal, 0.45));
        assert!(!with(PartitionMaterial::UnearthedMetal, 5.0));
        assert!(!separated(f64::NAN, None));
    }
}
