//! Entry threads: the metric list of IEC 60423 and the taper pipe threads of ASME B1.20.1.
//! Knows nothing of glands or walls.

use std::fmt;
use std::str::FromStr;

use super::provenance::{OutOfRange, Source, Status, serde_as_text};

/// The list of metric entry threads.
pub const METRIC: Source = Source::new("IEC 60423", "", "Table 1", Status::FromMemory);
/// Basic profile of metric threads.
pub const METRIC_PROFILE: Source =
    Source::new("ISO 724", "", "basic dimensions", Status::Published);
/// Clearance holes of metric threads.
pub const METRIC_HOLE: Source = Source::new("IEC 62444", "", "mounting holes", Status::FromMemory);
/// Taper pipe threads.
pub const NPT: Source = Source::new("ASME B1.20.1", "", "Table 2", Status::Published);
/// Clearance holes of taper pipe threads: no chart was found, the metric allowance is carried over.
pub const NPT_HOLE: Source = Source::new(
    "ASME B1.20.1",
    "",
    "outside diameter with the allowance of metric entries",
    Status::FromMemory,
);
/// Across-flats sizes of glands.
pub const ACROSS_FLATS: Source = Source::new(
    "trade practice",
    "",
    "hexagons of cable glands",
    Status::FromMemory,
);

/// What a clearance hole adds to the major diameter, mm.
pub const CLEARANCE_HOLE_ALLOWANCE_MM: f64 = 0.2;
/// Millimetres in an inch.
pub const MM_PER_INCH: f64 = 25.4;
/// Taper of a pipe thread on its diameter.
pub const NPT_TAPER: f64 = 1.0 / 16.0;

/// Metric sizes: nominal diameter and pitch, mm.
/// In the order of [`Thread`].
const METRIC_SIZES: [(u8, f64); 12] = [
    (6, 0.75),
    (8, 1.0),
    (10, 1.0),
    (12, 1.5),
    (16, 1.5),
    (20, 1.5),
    (25, 1.5),
    (32, 1.5),
    (40, 1.5),
    (50, 1.5),
    (63, 1.5),
    (75, 1.5),
];

/// One pipe size as the table prints it, inches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NptRow {
    /// Nominal size as written.
    pub name: &'static str,
    /// Outside diameter of the pipe, in.
    pub outside_diameter_in: f64,
    /// Threads per inch.
    pub threads_per_inch: f64,
    /// Pitch diameter at the hand-tight plane (E1), in.
    pub pitch_diameter_e1_in: f64,
    /// Hand-tight engagement (L1), in.
    pub hand_tight_l1_in: f64,
    /// Effective thread length (L2), in.
    pub effective_l2_in: f64,
}

const fn npt(name: &'static str, od: f64, tpi: f64, e1: f64, l1: f64, l2: f64) -> NptRow {
    NptRow {
        name,
        outside_diameter_in: od,
        threads_per_inch: tpi,
        pitch_diameter_e1_in: e1,
        hand_tight_l1_in: l1,
        effective_l2_in: l2,
    }
}

/// The pipe sizes, ascending, in the order of [`Thread`].
pub const NPT_ROWS: [NptRow; 10] = [
    npt("1/4", 0.540, 18.0, 0.49163, 0.2278, 0.4018),
    npt("3/8", 0.675, 18.0, 0.62701, 0.240, 0.4078),
    npt("1/2", 0.840, 14.0, 0.77843, 0.320, 0.5337),
    npt("3/4", 1.050, 14.0, 0.98887, 0.339, 0.5457),
    npt("1", 1.315, 11.5, 1.23863, 0.400, 0.6828),
    npt("1 1/4", 1.660, 11.5, 1.58338, 0.420, 0.7068),
    npt("1 1/2", 1.900, 11.5, 1.82234, 0.420, 0.7235),
    npt("2", 2.375, 11.5, 2.29627, 0.436, 0.7565),
    npt("2 1/2", 2.875, 8.0, 2.76216, 0.682, 1.1375),
    npt("3", 3.500, 8.0, 3.38850, 0.766, 1.2000),
];

/// An entry thread, written `M20` or `NPT 1/2`. Metric ones come first, each kind by size.
///
/// ```
/// use glandrail::standards::Thread;
/// let metric: Thread = "M20x1.5".parse().unwrap();
/// assert_eq!(metric, Thread::M20);
/// assert_eq!(metric.clearance_hole_mm(), 20.2);
/// let pipe: Thread = "NPT 1/2".parse().unwrap();
/// assert!((pipe.major_diameter_mm() - 21.336).abs() < 1e-9);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs)] // the names say it all
pub enum Thread {
    M6,
    M8,
    M10,
    M12,
    M16,
    M20,
    M25,
    M32,
    M40,
    M50,
    M63,
    M75,
    Npt1_4,
    Npt3_8,
    Npt1_2,
    Npt3_4,
    Npt1,
    Npt1_1_4,
    Npt1_1_2,
    Npt2,
    Npt2_1_2,
    Npt3,
}

impl Thread {
    /// Every thread of both kinds, ascending.
    pub const ALL: &'static [Thread] = &[
        Thread::M6,
        Thread::M8,
        Thread::M10,
        Thread::M12,
        Thread::M16,
        Thread::M20,
        Thread::M25,
        Thread::M32,
        Thread::M40,
        Thread::M50,
        Thread::M63,
        Thread::M75,
        Thread::Npt1_4,
        Thread::Npt3_8,
        Thread::Npt1_2,
        Thread::Npt3_4,
        Thread::Npt1,
        Thread::Npt1_1_4,
        Thread::Npt1_1_2,
        Thread::Npt2,
        Thread::Npt2_1_2,
        Thread::Npt3,
    ];

    /// Position in the metric table, or in that of pipe threads.
    fn place(self) -> Result<usize, usize> {
        let index = self as usize;
        if index < METRIC_SIZES.len() {
            Ok(index)
        } else {
            Err(index - METRIC_SIZES.len())
        }
    }

    /// Whether it is a metric thread.
    pub fn is_metric(self) -> bool {
        self.place().is_ok()
    }

    /// The row of the pipe-thread table; `None` for a metric thread.
    pub fn npt_row(self) -> Option<&'static NptRow> {
        self.place().err().map(|index| &NPT_ROWS[index])
    }

    /// Major diameter, mm; for a pipe thread the outside diameter of the pipe.
    pub fn major_diameter_mm(self) -> f64 {
        match self.place() {
            Ok(index) => f64::from(METRIC_SIZES[index].0),
            Err(index) => NPT_ROWS[index].outside_diameter_in * MM_PER_INCH,
        }
    }

    /// Pitch, mm.
    pub fn pitch_mm(self) -> f64 {
        match self.place() {
            Ok(index) => METRIC_SIZES[index].1,
            Err(index) => MM_PER_INCH / NPT_ROWS[index].threads_per_inch,
        }
    }

    /// Pitch diameter, mm: d − 0.6495 P for a metric thread, at the hand-tight plane for a pipe
    /// thread.
    pub fn pitch_diameter_mm(self) -> f64 {
        match self.npt_row() {
            // 3/8 of the height √3/2 P on either side.
            None => self.major_diameter_mm() - 0.75 * 0.75f64.sqrt() * self.pitch_mm(),
            Some(row) => row.pitch_diameter_e1_in * MM_PER_INCH,
        }
    }

    /// Minor diameter of the internal metric thread, mm: d − 1.0825 P. `None` for a pipe thread,
    /// whose diameter changes along its length.
    pub fn minor_diameter_mm(self) -> Option<f64> {
        // 5/8 of the height √3/2 P on either side.
        self.is_metric()
            .then(|| self.major_diameter_mm() - 1.25 * 0.75f64.sqrt() * self.pitch_mm())
    }

    /// Diameter of the clearance hole, mm: major diameter + 0.2 mm, in tenths and never rounded
    /// down.
    pub fn clearance_hole_mm(self) -> f64 {
        let tenths = (self.major_diameter_mm() + CLEARANCE_HOLE_ALLOWANCE_MM) * 10.0;
        // A hair above a tenth is rounding, not size.
        (tenths - 1e-6).ceil() / 10.0
    }

    /// Source of the clearance hole.
    pub fn clearance_hole_source(self) -> Source {
        if self.is_metric() {
            METRIC_HOLE
        } else {
            NPT_HOLE
        }
    }

    /// Source of the thread's own dimensions.
    pub fn source(self) -> Source {
        if self.is_metric() { METRIC } else { NPT }
    }

    /// Commonly seen across-flats sizes of a metric gland, smallest and largest, mm; `None` where
    /// none are known. Not standardised.
    pub fn across_flats_mm(self) -> Option<(f64, f64)> {
        match self {
            Thread::M12 => Some((15.0, 16.0)),
            Thread::M16 => Some((19.0, 20.0)),
            Thread::M20 => Some((22.0, 24.0)),
            Thread::M25 => Some((27.0, 30.0)),
            Thread::M32 => Some((34.0, 36.0)),
            Thread::M40 => Some((43.0, 46.0)),
            Thread::M50 => Some((54.0, 55.0)),
            Thread::M63 => Some((65.0, 68.0)),
            Thread::M75 => Some((80.0, 84.0)),
            _ => None,
        }
    }
}

/// Width across the corners of a hexagon, mm: across flats × 2/√3.
///
/// ```
/// use glandrail::standards::threads::across_corners_mm;
/// assert!((across_corners_mm(24.0) - 27.713).abs() < 1e-3);
/// ```
pub fn across_corners_mm(across_flats_mm: f64) -> f64 {
    across_flats_mm * 2.0 / 3f64.sqrt()
}

impl fmt::Display for Thread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.place() {
            Ok(index) => f.pad(&format!("M{}", METRIC_SIZES[index].0)),
            Err(index) => f.pad(&format!("NPT {}", NPT_ROWS[index].name)),
        }
    }
}

impl FromStr for Thread {
    type Err = OutOfRange;

    /// Reads `M20`, `M20x1.5`, `NPT 1/2`, `1/2 NPT`, `NPT 1-1/4`.
    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let upper = text.trim().to_ascii_uppercase();
        let found = if let Some(size) = upper
            .strip_prefix("NPT")
            .or_else(|| upper.strip_suffix("NPT"))
        {
            let name = size
                .replace(['-', '"'], " ")
                .split_whitespace()
                .collect::<Vec<_>>()
                .join(" ");
            Thread::ALL
                .iter()
                .find(|thread| thread.npt_row().is_some_and(|row| row.name == name))
        } else if let Some(size) = upper.strip_prefix('M') {
            let (nominal, pitch) = match size.split_once(['X', '×']) {
                Some((nominal, pitch)) => (nominal.trim(), Some(pitch.trim())),
                None => (size.trim(), None),
            };
            Thread::ALL
                .iter()
                .filter(|thread| thread.is_metric())
                .find(|thread| {
                    nominal == thread.major_diameter_mm().to_string()
                        && pitch.is_none_or(|pitch| pitch.parse() == Ok(thread.pitch_mm()))
                })
        } else {
            None
        };
        found.copied().ok_or_else(|| OutOfRange::Unknown {
            quantity: "entry thread",
            value: text.to_string(),
            valid:
                "M6, M8, M10, M12, M16, M20, M25, M32, M40, M50, M63 or M75, or NPT 1/4 to NPT 3"
                    .into(),
        })
    }
}

serde_as_text!(Thread, "an entry thread such as \"M20\" or \"NPT 1/2\"");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_thread_reads_back_as_written() {
        assert_eq!(Thread::ALL.len(), METRIC_SIZES.len() + NPT_ROWS.len());
        assert!(Thread::ALL.is_sorted());
        for &thread in Thread::ALL {
            assert_eq!(thread.to_string().parse::<Thread>(), Ok(thread));
            let json = serde_json::to_string(&thread).expect("text");
            assert_eq!(serde_json::from_str::<Thread>(&json).expect("text"), thread);
        }
    }

    #[test]
    fn other_spellings_and_other_pitches() {
        assert_eq!("NPT 1 1/4".parse(), Ok(Thread::Npt1_1_4));
        assert_eq!("NPT 1-1/4".parse(), Ok(Thread::Npt1_1_4));
        assert_eq!("1 1/4\" NPT".parse(), Ok(Thread::Npt1_1_4));
        assert_eq!("M20 x 1.5".parse(), Ok(Thread::M20));
        for text in ["M20x2", "M21", "M", "PG 11", "NPT", "NPT 1/3", ""] {
            assert!(text.parse::<Thread>().is_err(), "{text}");
        }
    }

    #[test]
    fn metric_profile_follows_its_pitch() {
        let thread = Thread::M20;
        assert!((thread.minor_diameter_mm().expect("metric") - (20.0 - 1.6238)).abs() < 1e-4);
        assert!((thread.pitch_diameter_mm() - (20.0 - 0.9743)).abs() < 1e-4);
    }
}
