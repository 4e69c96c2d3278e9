//! Measures of a candidate and the trade-off front: those that no other is at least as good as in all
//! measures and better in one.

use super::Row;

/// A measure by which candidates are sorted or weighed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, clap::ValueEnum)]
pub enum Measured {
    /// Outer volume; less is better.
    Volume,
    /// Mass; less is better.
    Mass,
    /// Price; less is better.
    Price,
    /// Heat margin; more is better.
    Heat,
    /// Free rail; more is better.
    Rail,
    /// Margin between entries; more is better.
    Walls,
    /// Margin on the lid; more is better.
    Lid,
    /// Margin of depth; more is better.
    Depth,
    /// Fill of the fullest wall; less is better.
    Fill,
}

impl Measured {
    /// The figure so that less is better; infinite where there is none.
    pub fn loss(self, row: &Row) -> f64 {
        let margins = row.margins.as_ref();
        let more = |figure: Option<f64>| figure.map_or(f64::INFINITY, |figure| -figure);
        match self {
            Measured::Volume => row.volume_l,
            Measured::Mass => row.mass_kg,
            Measured::Price => row.price,
            Measured::Heat => more(row.heat_w),
            Measured::Rail => more(margins.and_then(|margins| margins.rail_mm)),
            Measured::Walls => more(margins.and_then(|margins| margins.walls_mm)),
            Measured::Lid => more(margins.and_then(|margins| margins.lid_mm)),
            Measured::Depth => more(margins.and_then(|margins| margins.depth_mm)),
            Measured::Fill => margins.map_or(f64::INFINITY, |margins| margins.fullest_percent()),
        }
    }
}

/// Marks the candidates that fit and lie on the front.
pub fn mark_front(rows: &mut [Row], by: &[Measured]) {
    let losses: Vec<Option<Vec<f64>>> = rows
        .iter()
        .map(|row| {
            row.fits
                .then(|| by.iter().map(|measure| measure.loss(row)).collect())
        })
        .collect();
    let beats = |a: &[f64], b: &[f64]| {
        a.iter().zip(b).all(|(a, b)| a <= b) && a.iter().zip(b).any(|(a, b)| a < b)
    };
    for (row, own) in rows.iter_mut().zip(&losses) {
        row.front = own
            .as_ref()
            .is_some_and(|own| !losses.iter().flatten().any(|other| beats(other, own)));
    }
}
