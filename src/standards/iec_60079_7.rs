//! IEC 60079-7, level of protection "eb": clearance, creepage, and the rating of terminal boxes.
//! Knows nothing of where parts are placed.

use super::provenance::{OutOfRange, Source, Status, within, words};

/// Clearance and creepage by working voltage. The table itself has not been read: every figure is
/// recalled, the creepage from 2000 V up also agrees with IEC 60664-1, pollution degree 3.
pub const DISTANCES: Source =
    Source::new("IEC 60079-7", "2015+A1:2017", "Table 2", Status::FromMemory);
/// The 10 % rule of the table's note.
pub const TEN_PERCENT_RULE: Source = Source::new(
    "IEC 60079-7",
    "2015+A1:2017",
    "note to Table 2",
    Status::FromMemory,
);
/// Minimum for terminals to which external conductors are connected.
pub const EXTERNAL_TERMINALS: Source =
    Source::new("IEC 60079-7", "2015+A1:2017", "cl. 4.3", Status::FromMemory);
/// Material groups by comparative tracking index.
pub const MATERIAL_GROUPS: Source =
    Source::new("IEC 60079-7", "2015+A1:2017", "Table 1", Status::FromMemory);
/// Ribs and grooves that lengthen a creepage path.
pub const RIBS_AND_GROOVES: Source =
    Source::new("IEC 60079-7", "2015+A1:2017", "cl. 4.4", Status::FromMemory);
/// Length of each connected conductor in the heat sum.
pub const CONDUCTOR_LENGTH: Source =
    Source::new("IEC 60079-7", "2015+A1:2017", "cl. 6.8", Status::Published);
/// Rating by a defined arrangement: Σ n/N ≤ 1.
pub const DEFINED_ARRANGEMENT: Source = Source::new(
    "IEC 60079-7",
    "2015+A1:2017",
    "Annex E, E.3",
    Status::FromMemory,
);
/// Rating by the largest dissipated power.
pub const DISSIPATED_POWER: Source =
    Source::new("IEC 60079-7", "2015+A1:2017", "Annex E", Status::FromMemory);
/// No more than six conductors in a bundle; the number was read in a training text, the clause is recalled.
pub const BUNDLE: Source = Source::new(
    "IEC 60079-7",
    "2015+A1:2017",
    "Annex E, bundles of conductors",
    Status::FromMemory,
);
/// Greatest voltage of the level of protection "eb".
pub const VOLTAGE_LIMIT: Source =
    Source::new("IEC 60079-7", "2015+A1:2017", "scope", Status::Published);

/// Greatest working voltage of "eb", V: the last row of the table with the 10 % rule.
pub const GREATEST_VOLTAGE_V: f64 = 11_000.0;
/// Least clearance and creepage between terminals for external conductors, mm.
pub const EXTERNAL_TERMINAL_MINIMUM_MM: f64 = 3.0;
/// Up to this voltage the comparative tracking index does not matter, V.
pub const TRACKING_MATTERS_ABOVE_V: f64 = 10.0;
/// A rib counts from this height, mm.
pub const RIB_HEIGHT_MM: f64 = 2.5;
/// A rib counts from this thickness, mm.
pub const RIB_THICKNESS_MM: f64 = 1.0;
/// A groove counts from this depth, mm.
pub const GROOVE_DEPTH_MM: f64 = 2.5;
/// A groove counts from this width, mm.
pub const GROOVE_WIDTH_MM: f64 = 2.5;
/// Most conductors in one bundle where they carry noticeable heat.
pub const BUNDLE_LIMIT: u32 = 6;

/// Insulating material by its comparative tracking index (CTI). I is the best and the least.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MaterialGroup {
    /// CTI 600 and above; also glazed ceramic and glass.
    I,
    /// CTI 400 up to 600.
    II,
    /// CTI 175 up to 400.
    IIIa,
}

words!(MaterialGroup, "material group", "I, II or IIIa", { I => "I", II => "II", IIIa => "IIIa" });

impl MaterialGroup {
    /// The group of a comparative tracking index.
    ///
    /// # Errors
    /// Below 175: group IIIb is not admitted here. Above 1000: no such test result exists.
    ///
    /// ```
    /// use glandrail::standards::MaterialGroup;
    /// assert_eq!(MaterialGroup::from_cti(600.0), Ok(MaterialGroup::I));
    /// assert_eq!(MaterialGroup::from_cti(399.0), Ok(MaterialGroup::IIIa));
    /// assert!(MaterialGroup::from_cti(174.0).is_err());
    /// ```
    pub fn from_cti(cti: f64) -> Result<MaterialGroup, OutOfRange> {
        let cti = within("comparative tracking index", cti, "1", 175.0, 1000.0)?;
        Ok(if cti >= 600.0 {
            MaterialGroup::I
        } else if cti >= 400.0 {
            MaterialGroup::II
        } else {
            MaterialGroup::IIIa
        })
    }
}

/// One row of the table, mm.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct DistanceRow {
    /// Working voltage of the row, V r.m.s. or d.c.
    pub voltage_v: f64,
    /// Creepage for material group I, mm.
    pub creepage_i_mm: f64,
    /// Creepage for material group II, mm.
    pub creepage_ii_mm: f64,
    /// Creepage for material group IIIa, mm.
    pub creepage_iiia_mm: f64,
    /// Clearance, mm.
    pub clearance_mm: f64,
}

const fn row(voltage_v: f64, i: f64, ii: f64, iiia: f64, clearance_mm: f64) -> DistanceRow {
    DistanceRow {
        voltage_v,
        creepage_i_mm: i,
        creepage_ii_mm: ii,
        creepage_iiia_mm: iiia,
        clearance_mm,
    }
}

/// The table, ascending. The 50 V and 630 V rows and the clearances above 1000 V are the least sure.
pub const ROWS: [DistanceRow; 31] = [
    row(10.0, 1.6, 1.6, 1.6, 1.6),
    row(12.5, 1.6, 1.6, 1.6, 1.6),
    row(16.0, 1.6, 1.6, 1.6, 1.6),
    row(20.0, 1.6, 1.6, 1.6, 1.6),
    row(25.0, 1.7, 1.7, 1.7, 1.7),
    row(32.0, 1.8, 1.8, 1.8, 1.8),
    row(40.0, 1.9, 2.4, 3.0, 1.9),
    row(50.0, 2.1, 2.6, 3.4, 2.1),
    row(63.0, 2.1, 2.6, 3.4, 2.1),
    row(80.0, 2.2, 2.8, 3.6, 2.2),
    row(100.0, 2.4, 3.0, 3.8, 2.4),
    row(125.0, 2.5, 3.2, 4.0, 2.5),
    row(160.0, 3.2, 4.0, 5.0, 3.2),
    row(200.0, 4.0, 5.0, 6.3, 4.0),
    row(250.0, 5.0, 6.3, 8.0, 5.0),
    row(320.0, 6.3, 8.0, 10.0, 6.0),
    row(400.0, 8.0, 10.0, 12.5, 6.0),
    row(500.0, 10.0, 12.5, 16.0, 8.0),
    row(630.0, 12.0, 16.0, 20.0, 10.0),
    row(800.0, 16.0, 20.0, 25.0, 12.0),
    row(1000.0, 20.0, 25.0, 32.0, 14.0),
    row(1250.0, 22.0, 26.0, 32.0, 18.0),
    row(1600.0, 23.0, 27.0, 32.0, 20.0),
    row(2000.0, 25.0, 28.0, 32.0, 23.0),
    row(2500.0, 32.0, 36.0, 40.0, 29.0),
    row(3200.0, 40.0, 45.0, 50.0, 36.0),
    row(4000.0, 50.0, 56.0, 63.0, 44.0),
    row(5000.0, 63.0, 71.0, 80.0, 50.0),
    row(6300.0, 80.0, 90.0, 100.0, 60.0),
    row(8000.0, 100.0, 110.0, 125.0, 80.0),
    row(10_000.0, 125.0, 140.0, 160.0, 100.0),
];

/// The row that serves a working voltage: the first whose voltage is exceeded by no more than 10 %.
///
/// # Errors
/// A voltage below 0 or above 11 000 V.
///
/// ```
/// use glandrail::standards::iec_60079_7::row_for;
/// assert_eq!(row_for(275.0).unwrap().voltage_v, 250.0);
/// assert_eq!(row_for(276.0).unwrap().voltage_v, 320.0);
/// ```
pub fn row_for(voltage_v: f64) -> Result<&'static DistanceRow, OutOfRange> {
    let voltage = within("working voltage", voltage_v, "V", 0.0, GREATEST_VOLTAGE_V)?;
    // Ten times against eleven times, so that 275 V meets 250 V exactly in floating point.
    let row = ROWS
        .iter()
        .find(|row| voltage * 10.0 <= row.voltage_v * 11.0);
    Ok(row.unwrap_or(&ROWS[ROWS.len() - 1]))
}

/// Least clearance at a working voltage, mm.
///
/// # Errors
/// A voltage below 0 or above 11 000 V.
///
/// ```
/// use glandrail::standards::iec_60079_7::clearance_mm;
/// assert_eq!(clearance_mm(400.0), Ok(6.0));
/// ```
pub fn clearance_mm(voltage_v: f64) -> Result<f64, OutOfRange> {
    Ok(row_for(voltage_v)?.clearance_mm)
}

/// Least creepage at a working voltage along a material of a group, mm.
///
/// # Errors
/// A voltage below 0 or above 11 000 V.
///
/// ```
/// use glandrail::standards::{iec_60079_7::creepage_mm, MaterialGroup};
/// assert_eq!(creepage_mm(690.0, MaterialGroup::I), Ok(12.0));
/// assert_eq!(creepage_mm(694.0, MaterialGroup::I), Ok(16.0));
/// ```
pub fn creepage_mm(voltage_v: f64, group: MaterialGroup) -> Result<f64, OutOfRange> {
    let row = row_for(voltage_v)?;
    Ok(match group {
        MaterialGroup::I => row.creepage_i_mm,
        MaterialGroup::II => row.creepage_ii_mm,
        MaterialGroup::IIIa => row.creepage_iiia_mm,
    })
}

/// Least clearance at a terminal for external conductors, mm: the table, but at least 3 mm.
///
/// # Errors
/// A voltage below 0 or above 11 000 V.
///
/// ```
/// use glandrail::standards::iec_60079_7::external_terminal_clearance_mm;
/// assert_eq!(external_terminal_clearance_mm(24.0), Ok(3.0));
/// assert_eq!(external_terminal_clearance_mm(400.0), Ok(6.0));
/// ```
pub fn external_terminal_clearance_mm(voltage_v: f64) -> Result<f64, OutOfRange> {
    Ok(clearance_mm(voltage_v)?.max(EXTERNAL_TERMINAL_MINIMUM_MM))
}

/// Least creepage at a terminal for external conductors, mm: the table, but at least 3 mm.
///
/// # Errors
/// A voltage below 0 or above 11 000 V.
pub fn external_terminal_creepage_mm(
    voltage_v: f64,
    group: MaterialGroup,
) -> Result<f64, OutOfRange> {
    Ok(creepage_mm(voltage_v, group)?.max(EXTERNAL_TERMINAL_MINIMUM_MM))
}

/// Whether a rib lengthens the creepage path.
pub fn rib_counts(height_mm: f64, thickness_mm: f64) -> bool {
    height_mm >= RIB_HEIGHT_MM && thickness_mm >= RIB_THICKNESS_MM
}

/// Whether a groove lengthens the creepage path.
pub fn groove_counts(depth_mm: f64, width_mm: f64) -> bool {
    depth_mm >= GROOVE_DEPTH_MM && width_mm >= GROOVE_WIDTH_MM
}

/// Length of each connected conductor in the heat sum, mm: the space diagonal of the inside.
///
/// # Errors
/// An inner dimension that is not above 0 or above 10 m.
///
/// ```
/// use glandrail::standards::iec_60079_7::conductor_length_mm;
/// let length = conductor_length_mm(270.0, 270.0, 134.0).unwrap();
/// assert!((length - 404.67).abs() < 0.01);
/// ```
pub fn conductor_length_mm(
    inner_width_mm: f64,
    inner_height_mm: f64,
    inner_depth_mm: f64,
) -> Result<f64, OutOfRange> {
    let checked = |quantity, value| within(quantity, value, "mm", f64::MIN_POSITIVE, 10_000.0);
    let width = checked("inner width", inner_width_mm)?;
    let height = checked("inner height", inner_height_mm)?;
    let depth = checked("inner depth", inner_depth_mm)?;
    // Products, not powers: the same bits on every machine.
    Ok((width * width + height * height + depth * depth).sqrt())
}

/// One (section, current) pair of a defined arrangement: conductors used and most permitted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, serde::Serialize)]
pub struct ArrangementShare {
    /// Conductors used: every incoming conductor and internal link, not the protective ones.
    pub used: u32,
    /// Most conductors that the certificate's table permits if they were alone.
    pub permitted: u32,
}

/// Utilisation of a defined arrangement, Σ used / permitted. It holds up to and including 1.
///
/// # Errors
/// A pair that is used although the table permits none.
///
/// ```
/// use glandrail::standards::iec_60079_7::{arrangement_utilisation, ArrangementShare};
/// let share = |used, permitted| ArrangementShare { used, permitted };
/// let refused = arrangement_utilisation(&[share(6, 20), share(5, 16), share(4, 10)]).unwrap();
/// assert!((refused - 1.0125).abs() < 1e-12);
/// let accepted = arrangement_utilisation(&[share(6, 20), share(5, 16), share(3, 10)]).unwrap();
/// assert!((accepted - 0.9125).abs() < 1e-12);
/// ```
pub fn arrangement_utilisation(shares: &[ArrangementShare]) -> Result<f64, OutOfRange> {
    let mut sum = 0.0;
    for share in shares {
        if share.used == 0 {
            continue;
        }
        let permitted = within(
            "conductors permitted",
            f64::from(share.permitted),
            "1",
            1.0,
            f64::MAX,
        )?;
        sum += f64::from(share.used) / permitted;
    }
    Ok(sum)
}

/// What rounding in floating point may add to a sum of shares that is exactly 1, such as ten
/// tenths. Far below one conductor: a single one of 10 000 would add 1e-4.
const SUM_ROUNDING: f64 = 1e-10;

/// Whether a defined arrangement holds: Σ used / permitted ≤ 1.
///
/// # Errors
/// A pair that is used although the table permits none.
///
/// ```
/// use glandrail::standards::iec_60079_7::{arrangement_holds, ArrangementShare};
/// let tenth = ArrangementShare { used: 1, permitted: 10 };
/// assert_eq!(arrangement_holds(&[tenth; 10]), Ok(true));
/// assert_eq!(arrangement_holds(&[tenth; 11]), Ok(false));
/// ```
pub fn arrangement_holds(shares: &[ArrangementShare]) -> Result<bool, OutOfRange> {
    Ok(arrangement_utilisation(shares)? <= 1.0 + SUM_ROUNDING)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn distances_never_fall_and_groups_are_in_order() {
        for pair in ROWS.windows(2) {
            assert!(pair[0].voltage_v < pair[1].voltage_v);
            assert!(pair[0].creepage_i_mm <= pair[1].creepage_i_mm);
            assert!(pair[0].creepage_ii_mm <= pair[1].creepage_ii_mm);
            assert!(pair[0].creepage_iiia_mm <= pair[1].creepage_iiia_mm);
            assert!(pair[0].clearance_mm <= pair[1].clearance_mm);
        }
        for row in ROWS {
            assert!(row.clearance_mm <= row.creepage_i_mm);
            assert!(row.creepage_i_mm <= row.creepage_ii_mm);
            assert!(row.creepage_ii_mm <= row.creepage_iiia_mm);
        }
    }

    #[test]
    fn the_table_ends_at_eleven_kilovolt() {
        assert_eq!(clearance_mm(11_000.0), Ok(100.0));
        assert!(clearance_mm(11_001.0).is_err());
        assert!(clearance_mm(-1.0).is_err());
        assert!(clearance_mm(f64::NAN).is_err());
        assert_eq!(clearance_mm(0.0), Ok(1.6));
    }

    #[test]
    fn nothing_permitted_is_an_error_not_infinity() {
        let none = ArrangementShare {
            used: 1,
            permitted: 0,
        };
        assert!(arrangement_utilisation(&[none]).is_err());
        let unused = ArrangementShare {
            used: 0,
            permitted: 0,
        };
        assert_eq!(arrangement_utilisation(&[unused]), Ok(0.0));
    }
}
