//! Which rows of a comparison are shown: by what the enclosure is, not by what it leaves over.

use super::Row;
use crate::catalogue::Material;

/// Filters; without a figure or a material everything passes.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Filter {
    /// Materials of the enclosure.
    pub materials: Vec<Material>,
    /// Greatest outer width, height and depth as mounted, mm.
    pub max_outer_mm: Option<[f64; 3]>,
    /// Greatest outer volume, litres.
    pub max_volume_l: Option<f64>,
    /// Greatest mass of the empty enclosure, kg.
    pub max_mass_kg: Option<f64>,
    /// Greatest price of the empty enclosure, in the catalogue's currency.
    pub max_price: Option<f64>,
    /// Only rows on the front.
    pub front: bool,
}

impl Filter {
    /// Whether a row is shown.
    pub fn passes(&self, row: &Row) -> bool {
        let at_most =
            |figure: f64, most: Option<f64>| most.is_none_or(|most| figure <= most + 1e-9);
        let inside = self.max_outer_mm.is_none_or(|most| {
            let mut sides = row.outer_mm.iter().zip(most);
            sides.all(|(side, most)| *side <= most + 1e-9)
        });
        let of_material = self.materials.is_empty() || self.materials.contains(&row.material);
        of_material
            && inside
            && at_most(row.volume_l, self.max_volume_l)
            && at_most(row.mass_kg, self.max_mass_kg)
            && at_most(row.price, self.max_price)
            && (row.front || !self.front)
    }
}
