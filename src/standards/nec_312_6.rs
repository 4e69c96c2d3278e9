//! NEC 312.6: wire-bending space at terminals. Knows nothing of terminals or boxes.

use super::awg::WireSize;
use super::provenance::{OutOfRange, Source, Status, within};

/// Space where the wire does not leave through the wall opposite its terminal.
pub const TABLE_A: Source = Source::new("NEC", "", "Table 312.6(A)", Status::Published);
/// The figure of three wires of 1/0 to 2/0 AWG, which was recalled.
pub const TABLE_A_THREE_WIRES_2_0: Source = Source::new(
    "NEC",
    "",
    "Table 312.6(A), three wires, 1/0 to 2/0",
    Status::FromMemory,
);
/// Space where the wire leaves through the wall opposite its terminal, one wire.
pub const TABLE_B: Source = Source::new("NEC", "", "Table 312.6(B)", Status::Published);

/// A size as its area, comparable: gauge numbers negated (14 AWG is −14, 4/0 is 3), kcmil as such.
const fn gauge(number: i32) -> i32 {
    -number
}

fn rank(size: WireSize) -> i32 {
    match size {
        WireSize::Gauge(awg) => gauge(i32::from(awg.number())),
        WireSize::Kcmil(kcmil) => i32::from(kcmil),
    }
}

/// Largest size of the row and mm for one, two and three wires per terminal.
const A_ROWS: [(i32, [Option<f64>; 3]); 14] = [
    (gauge(10), [None, None, None]),
    (gauge(6), [Some(38.1), None, None]),
    (gauge(3), [Some(50.8), None, None]),
    (gauge(2), [Some(63.5), None, None]),
    (gauge(1), [Some(76.2), None, None]),
    (gauge(-1), [Some(88.9), Some(127.0), Some(178.0)]),
    (gauge(-3), [Some(102.0), Some(152.0), Some(203.0)]),
    (250, [Some(114.0), Some(152.0), Some(203.0)]),
    (350, [Some(127.0), Some(203.0), Some(254.0)]),
    (500, [Some(152.0), Some(203.0), Some(254.0)]),
    (700, [Some(203.0), Some(254.0), Some(305.0)]),
    (900, [Some(203.0), Some(305.0), Some(356.0)]),
    (1250, [Some(254.0), None, None]),
    (2000, [Some(305.0), None, None]),
];

/// Largest size of the row and mm for one wire.
const B_ROWS: [(i32, Option<f64>); 18] = [
    (gauge(10), None),
    (gauge(8), Some(38.1)),
    (gauge(6), Some(50.8)),
    (gauge(3), Some(76.2)),
    (gauge(2), Some(88.9)),
    (gauge(1), Some(114.0)),
    (gauge(0), Some(140.0)),
    (gauge(-1), Some(152.0)),
    (gauge(-2), Some(165.0)),
    (gauge(-3), Some(178.0)),
    (250, Some(216.0)),
    (300, Some(254.0)),
    (350, Some(305.0)),
    (400, Some(330.0)),
    (500, Some(356.0)),
    (600, Some(381.0)),
    (700, Some(406.0)),
    (750, Some(432.0)),
];

/// The sizes of the series between 14 AWG and 2000 kcmil, ascending.
pub fn sizes() -> Vec<WireSize> {
    let names = [
        "14",
        "12",
        "10",
        "8",
        "6",
        "4",
        "3",
        "2",
        "1",
        "1/0",
        "2/0",
        "3/0",
        "4/0",
        "250 kcmil",
        "300 kcmil",
        "350 kcmil",
        "400 kcmil",
        "500 kcmil",
        "600 kcmil",
        "700 kcmil",
        "750 kcmil",
        "800 kcmil",
        "900 kcmil",
        "1000 kcmil",
        "1250 kcmil",
        "1500 kcmil",
        "1750 kcmil",
        "2000 kcmil",
    ];
    names.iter().filter_map(|name| name.parse().ok()).collect()
}

/// The smallest size whose copper is not less than a section: the row to compare a metric
/// conductor with, on the safe side.
///
/// # Errors
/// A section that is not above 0 or above 2000 kcmil (1013.4 mm²).
///
/// ```
/// use glandrail::standards::nec_312_6::size_covering;
/// assert_eq!(size_covering(2.5).unwrap().to_string(), "12 AWG");
/// assert_eq!(size_covering(120.0).unwrap().to_string(), "250 kcmil");
/// ```
pub fn size_covering(section_mm2: f64) -> Result<WireSize, OutOfRange> {
    let largest = WireSize::Kcmil(2000);
    let section = within(
        "conductor section",
        section_mm2,
        "mm²",
        f64::MIN_POSITIVE,
        largest.area_mm2(),
    )?;
    Ok(sizes()
        .into_iter()
        .find(|size| size.area_mm2() >= section)
        .unwrap_or(largest))
}

fn within_rows(size: WireSize, largest_kcmil: i32) -> Result<i32, OutOfRange> {
    let rank = rank(size);
    if rank < gauge(14) || rank > largest_kcmil {
        return Err(OutOfRange::Unknown {
            quantity: "wire size of NEC 312.6",
            value: size.to_string(),
            valid: format!("14 AWG to {largest_kcmil} kcmil"),
        });
    }
    Ok(rank)
}

/// Table 312.6(A): least space from the terminal to the wall, straight in the direction in which
/// the wire leaves, mm. `None` where the table does not specify one.
///
/// # Errors
/// A size outside 14 AWG to 2000 kcmil, or other than one to three wires per terminal.
///
/// ```
/// use glandrail::standards::nec_312_6::bending_space_a_mm;
/// assert_eq!(bending_space_a_mm("14".parse().unwrap(), 1), Ok(None));
/// assert_eq!(bending_space_a_mm("8".parse().unwrap(), 1), Ok(Some(38.1)));
/// assert_eq!(bending_space_a_mm("4/0".parse().unwrap(), 2), Ok(Some(152.0)));
/// ```
pub fn bending_space_a_mm(size: WireSize, wires: u8) -> Result<Option<f64>, OutOfRange> {
    within("wires per terminal", f64::from(wires), "1", 1.0, 3.0)?;
    let rank = within_rows(size, 2000)?;
    let row = A_ROWS.iter().find(|(largest, _)| rank <= *largest);
    Ok(row.and_then(|(_, spaces)| spaces[usize::from(wires) - 1]))
}

/// Table 312.6(B), one wire: least space where the wire leaves through the wall opposite its
/// terminal, mm. `None` where the table does not specify one.
///
/// # Errors
/// A size outside 14 AWG to 750 kcmil.
///
/// ```
/// use glandrail::standards::nec_312_6::bending_space_b_mm;
/// assert_eq!(bending_space_b_mm("1/0".parse().unwrap()), Ok(Some(140.0)));
/// ```
pub fn bending_space_b_mm(size: WireSize) -> Result<Option<f64>, OutOfRange> {
    let rank = within_rows(size, 750)?;
    let row = B_ROWS.iter().find(|(largest, _)| rank <= *largest);
    Ok(row.and_then(|(_, space)| *space))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn space_never_falls_with_size_and_b_is_never_below_a() {
        let mut last = 0.0;
        for size in sizes() {
            let space = bending_space_a_mm(size, 1).expect("listed").unwrap_or(0.0);
            assert!(space >= last, "{size}");
            last = space;
            if let Ok(Some(through)) = bending_space_b_mm(size) {
                assert!(through >= space, "{size}");
            }
        }
    }

    #[test]
    fn rows_begin_where_the_table_begins_them() {
        let a = |name: &str, wires| bending_space_a_mm(name.parse().expect("size"), wires);
        assert_eq!(a("10", 1), Ok(None));
        assert_eq!(a("6", 1), Ok(Some(38.1)));
        assert_eq!(a("4", 1), Ok(Some(50.8)));
        assert_eq!(a("2/0", 1), Ok(Some(88.9)));
        assert_eq!(a("3/0", 1), Ok(Some(102.0)));
        assert_eq!(a("300 kcmil", 3), Ok(Some(254.0)));
        assert_eq!(a("2000 kcmil", 1), Ok(Some(305.0)));
        assert!(a("16", 1).is_err());
        assert!(a("14", 4).is_err());
        assert!(bending_space_b_mm("800 kcmil".parse().expect("size")).is_err());
        assert_eq!(sizes().len(), 28);
    }
}
