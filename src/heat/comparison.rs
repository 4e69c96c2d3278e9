//! The estimate's power at the rise of a temperature class against a certificate's rated power.
//! Knows nothing of what is in the box.
//!
//! A rating lets the hottest part reach the limit of the class. Part of that rise is the air's, part
//! the part's own above the air. Half for each is taken for the comparison; beside it stands the
//! power at which the air alone would take the whole rise, which no rating can pass.

use super::balance::ClosedBox;
use super::determined::Determined;
use super::tr_60890;
use crate::standards::provenance::OutOfRange;
use serde::Serialize;

/// Share of the class's rise that the air takes in the comparison. An assumption of ours: catalogued
/// terminals rise by 30 to 45 K at their rated current, about half of what T6 leaves and less of the
/// other classes.
pub const AIR_SHARE_OF_RISE: f64 = 0.5;
/// Factor by which estimate and rating may differ before a warning is given. The share above alone
/// makes up to a factor of about 2, so that anything beyond has another cause.
pub const WARNING_FACTOR: f64 = 2.0;

/// How estimate and rating stand to each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Agreement {
    /// Within the factor.
    Agrees,
    /// The certificate permits more than the factor times the estimate.
    CertificateHigher,
    /// The certificate permits less than the estimate by more than the factor.
    CertificateLower,
}

/// The comparison.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Comparison {
    /// Rated power of the certificate, W.
    pub rated_power_w: f64,
    /// Ambient temperature of the certificate's row, °C.
    pub ambient_c: f64,
    /// Limit of the class less the margin of the type test, °C.
    pub limit_c: f64,
    /// Rise that the class leaves at that ambient temperature, K.
    pub class_rise_k: f64,
    /// Rise of the air in the comparison, K.
    pub inside_rise_k: f64,
    /// Power of the heat balance at that rise, W.
    pub balance_power_w: f64,
    /// Power of the balance if the air alone took the whole rise, W.
    pub whole_rise_power_w: Determined<f64>,
    /// Power of the technical report at the same rise of the air at half height, W.
    pub report_power_w: Determined<f64>,
    /// Rated power by the power of the balance.
    pub ratio: f64,
    /// Factor that is allowed either way.
    pub factor: f64,
    /// How they stand to each other.
    pub agreement: Agreement,
}

/// Compares a rating with the heat balance.
///
/// # Errors
/// A size, wall or temperature outside the model's range, or an ambient temperature that leaves the
/// class no rise.
pub fn compare(
    closed_box: ClosedBox,
    rated_power_w: f64,
    limit_c: f64,
    ambient_c: f64,
) -> Result<Comparison, OutOfRange> {
    let class_rise_k = crate::standards::provenance::within(
        "rise that the class leaves",
        limit_c - ambient_c,
        "K",
        f64::MIN_POSITIVE,
        f64::MAX,
    )?;
    let inside_rise_k = AIR_SHARE_OF_RISE * class_rise_k;
    let balance_power_w = closed_box.for_rise(inside_rise_k, ambient_c)?.power_w;
    let whole = closed_box.for_rise(class_rise_k, ambient_c);
    let report = tr_60890::power_for_rise(&closed_box, inside_rise_k);
    let ratio = rated_power_w / balance_power_w;
    Ok(Comparison {
        rated_power_w,
        ambient_c,
        limit_c,
        class_rise_k,
        inside_rise_k,
        balance_power_w,
        whole_rise_power_w: whole.map(|balance| balance.power_w).into(),
        report_power_w: report.map(|rise| rise.power_w).into(),
        ratio,
        factor: WARNING_FACTOR,
        agreement: if ratio < 1.0 / WARNING_FACTOR {
            Agreement::CertificateLower
        } else if ratio <= WARNING_FACTOR {
            Agreement::Agrees
        } else {
            // Also a ratio that is not a number: never silently in agreement.
            Agreement::CertificateHigher
        },
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::heat::{Mounting, Wall};

    const BOX: ClosedBox = ClosedBox {
        width_mm: 271.0,
        height_mm: 271.0,
        depth_mm: 135.0,
        wall: Wall::GRP,
        mounting: Mounting::Wall,
    };

    /// The reference value of the model: 21.209 W at 20 K.
    #[test]
    fn warns_either_way_and_not_in_between() {
        let at = |rated_w: f64| compare(BOX, rated_w, 80.0, 40.0).expect("in range");
        assert_eq!(at(21.209).inside_rise_k, 20.0);
        assert!((at(21.209).ratio - 1.0).abs() < 1e-4);
        for (rated_w, agreement) in [
            (10.5, Agreement::CertificateLower),
            (10.7, Agreement::Agrees),
            (42.3, Agreement::Agrees),
            (42.5, Agreement::CertificateHigher),
            (f64::NAN, Agreement::CertificateHigher),
        ] {
            assert_eq!(at(rated_w).agreement, agreement, "{rated_w}");
        }
    }

    #[test]
    fn the_whole_rise_passes_more_than_twice_what_the_half_does() {
        let comparison = compare(BOX, 20.0, 80.0, 40.0).expect("in range");
        let whole_w = comparison.whole_rise_power_w.known().expect("in range");
        assert!(*whole_w > 2.0 * comparison.balance_power_w);
        let report_w = comparison.report_power_w.known().expect("in range");
        assert!((report_w - 18.55).abs() < 0.01, "{report_w}");
    }

    #[test]
    fn a_small_box_is_compared_without_the_report() {
        let small = ClosedBox {
            width_mm: 80.0,
            height_mm: 80.0,
            depth_mm: 60.0,
            ..BOX
        };
        let comparison = compare(small, 2.7, 80.0, 40.0).expect("in range");
        assert!((comparison.balance_power_w - 2.676).abs() < 1e-3);
        let reason = comparison.report_power_w.reason().expect("refused");
        assert!(reason.contains("effective cooling surface"), "{reason}");
    }

    #[test]
    fn no_rise_no_comparison() {
        assert!(compare(BOX, 20.0, 80.0, 80.0).is_err());
    }
}
