//! How much heat the conductors alone give, and where the limit of a bundle has weight.
//! Knows nothing of where the conductors run.

use super::determined::Determined;
use crate::standards::iec_60079_7::BUNDLE_LIMIT;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

pub use crate::standards::common_practice::{NEGLIGIBLE_SHARE, NEGLIGIBLE_W};
pub use crate::standards::iec_60079_7::BUNDLE as SOURCE;

/// A conductor of a group with its heat.
#[derive(Debug, Clone, PartialEq)]
pub struct GroupedConductor {
    /// Group of its circuit.
    pub group: String,
    /// Largest continuous current, A.
    pub current_a: f64,
    /// Its heat, W, or why it is unknown.
    pub power_w: Determined<f64>,
}

/// Heat of all conductors against the rating.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ConductorHeatShare {
    /// Heat of all conductors, W.
    pub power_w: f64,
    /// Up to this power it is negligible, W.
    pub limit_w: f64,
    /// Share of the rated power.
    pub share_of_rated: f64,
    /// Whether it is negligible.
    pub negligible: bool,
}

/// Why the limit of a bundle has weight for a group, or not.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BundleWeight {
    /// Its heat, with that of all groups that give less, is negligible.
    NegligibleHeat,
    /// It has no more conductors than one bundle may have.
    FewConductors,
    /// The limit has to be kept.
    Weight,
}

/// One group of circuits.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BundleGroup {
    /// Group.
    pub group: String,
    /// Conductors of its circuits.
    pub conductors: u32,
    /// Largest current of one of them, A.
    pub largest_current_a: f64,
    /// Heat of all of them, W, or why it is unknown.
    pub power_w: Determined<f64>,
    /// Whether the limit has weight.
    pub weight: BundleWeight,
}

/// The power up to which the heat of conductors is negligible, W.
///
/// ```
/// use glandrail::heat::bundles::negligible_w;
/// assert_eq!(negligible_w(30.0), 0.3);
/// assert_eq!(negligible_w(2.0), 0.1);
/// ```
pub fn negligible_w(rated_power_w: f64) -> f64 {
    (rated_power_w * NEGLIGIBLE_SHARE).max(NEGLIGIBLE_W)
}

/// The conductors' heat against the rating.
pub fn conductor_share(power_w: f64, rated_power_w: f64) -> ConductorHeatShare {
    let limit_w = negligible_w(rated_power_w);
    ConductorHeatShare {
        power_w,
        limit_w,
        share_of_rated: power_w / rated_power_w,
        negligible: power_w <= limit_w,
    }
}

/// Where the limit of six conductors has weight, group by group in alphabetical order.
///
/// The coolest groups are without weight as long as their heat together is negligible: a bundle may
/// mix conductors of several groups. An unknown heat always has weight.
pub fn groups(conductors: &[GroupedConductor], rated_power_w: f64) -> Vec<BundleGroup> {
    let mut by_name: BTreeMap<&str, BundleGroup> = BTreeMap::new();
    for conductor in conductors {
        let group = by_name
            .entry(&conductor.group)
            .or_insert_with(|| BundleGroup {
                group: conductor.group.clone(),
                conductors: 0,
                largest_current_a: 0.0,
                power_w: Determined::Known(0.0),
                weight: BundleWeight::Weight,
            });
        group.conductors += 1;
        group.largest_current_a = group.largest_current_a.max(conductor.current_a);
        group.power_w = match (&group.power_w, &conductor.power_w) {
            (Determined::Known(sum), Determined::Known(power)) => Determined::Known(sum + power),
            (unknown @ Determined::NotDetermined(_), _) | (_, unknown) => unknown.clone(),
        };
    }
    let mut groups: Vec<BundleGroup> = by_name.into_values().collect();
    let heat_w = |group: &BundleGroup| group.power_w.known().copied().unwrap_or(f64::INFINITY);
    groups.sort_by(|a, b| heat_w(a).total_cmp(&heat_w(b)).then(a.group.cmp(&b.group)));
    let limit_w = negligible_w(rated_power_w);
    let mut together_w = 0.0;
    for group in &mut groups {
        together_w += heat_w(group);
        group.weight = if together_w <= limit_w {
            BundleWeight::NegligibleHeat
        } else if group.conductors <= BUNDLE_LIMIT {
            BundleWeight::FewConductors
        } else {
            BundleWeight::Weight
        };
    }
    groups.sort_by(|a, b| a.group.cmp(&b.group));
    groups
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::heat::{ClosedBox, Mounting, Wall};

    fn some(group: &str, count: usize, power_w: f64) -> Vec<GroupedConductor> {
        let conductor = GroupedConductor {
            group: group.into(),
            current_a: 1.0,
            power_w: Determined::Known(power_w),
        };
        vec![conductor; count]
    }

    #[test]
    fn the_negligible_power_warms_the_smallest_box_by_less_than_a_kelvin() {
        let smallest = ClosedBox {
            width_mm: 80.0,
            height_mm: 80.0,
            depth_mm: 60.0,
            wall: Wall::GRP,
            mounting: Mounting::Wall,
        };
        let balance = smallest.for_power(NEGLIGIBLE_W, 40.0).expect("in range");
        assert!(balance.inside_rise_k < 1.0, "{}", balance.inside_rise_k);
    }

    #[test]
    fn cool_groups_have_no_weight_only_while_their_sum_is_small() {
        // 0.3 W are negligible beside 30 W: two groups of 0.12 W are, the third one is not any more.
        let conductors = [
            some("a", 12, 0.01),
            some("b", 12, 0.0101),
            some("c", 12, 0.0102),
            some("d", 4, 1.0),
        ]
        .concat();
        let weights: Vec<BundleWeight> = groups(&conductors, 30.0)
            .iter()
            .map(|group| group.weight)
            .collect();
        use BundleWeight::{FewConductors, NegligibleHeat, Weight};
        assert_eq!(
            weights,
            [NegligibleHeat, NegligibleHeat, Weight, FewConductors]
        );
    }

    #[test]
    fn unknown_heat_has_weight() {
        let mut conductors = some("a", 7, 0.0);
        conductors[3].power_w = Determined::NotDetermined("no resistance".into());
        let groups = groups(&conductors, 30.0);
        assert_eq!(groups[0].weight, BundleWeight::Weight);
        assert_eq!(groups[0].power_w.reason(), Some("no resistance"));
        assert_eq!(groups[0].conductors, 7);
    }

    #[test]
    fn the_share_is_judged_by_the_larger_limit() {
        assert!(conductor_share(0.1, 2.0).negligible);
        assert!(!conductor_share(0.11, 2.0).negligible);
        assert!(conductor_share(0.3, 30.0).negligible);
        assert!(!conductor_share(f64::NAN, 30.0).negligible);
        let share = conductor_share(0.6, 30.0);
        assert_eq!((share.power_w, share.limit_w), (0.6, 0.3));
        assert!((share.share_of_rated - 0.02).abs() < 1e-12);
    }
}
