//! Standard scales.

/// A scale of reduction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::sheets) struct Scale {
    /// As written, such as `1:2`.
    pub name: &'static str,
    /// Millimetres of paper for one of the box.
    pub ratio: f64,
    /// Whether the paper may be measured: not so in pictures, which have whatever size fills it.
    pub measures: bool,
}

/// A scale by which the paper may be measured.
const fn scale(name: &'static str, ratio: f64) -> Scale {
    Scale {
        name,
        ratio,
        measures: true,
    }
}

/// A size of a picture.
const fn size(ratio: f64) -> Scale {
    Scale {
        name: "–",
        ratio,
        measures: false,
    }
}

/// The scales in use, largest first: those of ISO 5455 (from memory) and 1:2.5, which is common
/// practice where 1:2 is just too large.
pub(in crate::sheets) const SCALES: [Scale; 6] = [
    scale("1:1", 1.0),
    scale("1:2", 0.5),
    scale("1:2.5", 0.4),
    scale("1:5", 0.2),
    scale("1:10", 0.1),
    scale("1:20", 0.05),
];

/// The sizes of pictures, largest first.
pub(in crate::sheets) const SIZES: [Scale; 12] = [
    size(1.0),
    size(0.8),
    size(0.63),
    size(0.5),
    size(0.4),
    size(0.315),
    size(0.25),
    size(0.2),
    size(0.16),
    size(0.125),
    size(0.1),
    size(0.05),
];
