//! Standard scales.

/// A scale of reduction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::sheets) struct Scale {
    /// As written, such as `1:2`.
    pub name: &'static str,
    /// Millimetres of paper for one of the box.
    pub ratio: f64,
}

/// The scales in use, largest first: those of ISO 5455 (from memory) and 1:2.5, which is common
/// practice where 1:2 is just too large.
pub(in crate::sheets) const SCALES: [Scale; 6] = [
    Scale {
        name: "1:1",
        ratio: 1.0,
    },
    Scale {
        name: "1:2",
        ratio: 0.5,
    },
    Scale {
        name: "1:2.5",
        ratio: 0.4,
    },
    Scale {
        name: "1:5",
        ratio: 0.2,
    },
    Scale {
        name: "1:10",
        ratio: 0.1,
    },
    Scale {
        name: "1:20",
        ratio: 0.05,
    },
];
