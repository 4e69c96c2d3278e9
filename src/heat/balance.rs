//! Steady heat balance of a closed box, every face on its own. Knows nothing of what is inside.
//!
//! Heat passes each exposed face through three resistances in a row: the inside film (natural
//! convection and radiation from the air and the contents), the wall, and the outside film
//! (natural convection and radiation to the surroundings). The same flux crosses all three:
//!
//! q = (h_co + h_ro)(T_out − T_ambient) = (λ/t)(T_in − T_out) = (h_ci + h_ri)(T_air − T_in)
//!
//! For a face the outer surface temperature is the one unknown, and the flux out of it rises with
//! that temperature while the flux into it falls, so bisection between ambient and inside air
//! always finds the one crossing. The sum over the faces rises with the inside air, so bisection
//! again finds the air temperature for a power. No step can run away, and each result carries the
//! residual that is left.
//!
//! What it leaves out errs both ways and is why it stays an estimate: the inside air is one
//! temperature, films use the outer size, glands and rails carry no heat away.

use serde::{Deserialize, Serialize};

use super::convection::{Convection, Orientation, film, radiation_w_m2k};
use crate::standards::provenance::{OutOfRange, Source, Status, within, words};

/// The model: films by Churchill–Chu and McAdams, radiation, conduction through the wall.
pub const SOURCE: Source = Source::new(
    "heat balance of the closed box",
    "",
    "natural convection by Churchill-Chu and McAdams, radiation, wall conduction; an estimate",
    Status::CommonPractice,
);

/// How the box stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Mounting {
    /// Air on all sides.
    Free,
    /// On a wall: the rear face passes no heat.
    Wall,
}

words!(Mounting, "mounting", "free or wall", { Free => "free", Wall => "wall" });

/// The wall of a box.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Wall {
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Thermal conductivity, W/(m K).
    pub conductivity_w_mk: f64,
    /// Emissivity of both surfaces.
    pub emissivity: f64,
}

impl Wall {
    /// Glass-fibre reinforced polyester, 4 mm.
    pub const GRP: Wall = Wall {
        thickness_mm: 4.0,
        conductivity_w_mk: 0.25,
        emissivity: 0.9,
    };
    /// Painted sheet steel, 1.5 mm. The paint decides the emissivity.
    pub const PAINTED_STEEL: Wall = Wall {
        thickness_mm: 1.5,
        conductivity_w_mk: 50.0,
        emissivity: 0.9,
    };
    /// Bare stainless sheet, 1.5 mm. Radiates a third of what paint does (recalled: 0.2 … 0.35 for a
    /// clean brushed surface), so the box runs warmer than a painted one of its size.
    pub const BARE_STAINLESS: Wall = Wall {
        thickness_mm: 1.5,
        conductivity_w_mk: 15.0,
        emissivity: 0.3,
    };

    /// The same wall with another thickness, mm.
    pub const fn with_thickness_mm(self, thickness_mm: f64) -> Wall {
        Wall {
            thickness_mm,
            ..self
        }
    }
}

/// A closed box by its outer size.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct ClosedBox {
    /// Outer width, mm.
    pub width_mm: f64,
    /// Outer height, mm.
    pub height_mm: f64,
    /// Outer depth, mm.
    pub depth_mm: f64,
    /// Its wall.
    pub wall: Wall,
    /// How it stands.
    pub mounting: Mounting,
}

/// A face of the box, as it hangs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum BoxFace {
    /// The lid.
    Front,
    /// Towards the wall.
    Rear,
    /// Left side.
    Left,
    /// Right side.
    Right,
    /// Top.
    Top,
    /// Bottom.
    Bottom,
}

/// The balance of one face.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FaceBalance {
    /// Which face.
    pub face: BoxFace,
    /// Its area, m².
    pub area_m2: f64,
    /// Flux through it, W/m².
    pub flux_w_m2: f64,
    /// Heat through it, W.
    pub power_w: f64,
    /// Outer surface, °C.
    pub outer_surface_c: f64,
    /// Inner surface, °C.
    pub inner_surface_c: f64,
    /// Natural convection outside.
    pub outside: Convection,
    /// Radiation outside, W/(m² K).
    pub outside_radiation_w_m2k: f64,
    /// Natural convection inside.
    pub inside: Convection,
    /// Radiation inside, W/(m² K).
    pub inside_radiation_w_m2k: f64,
    /// Flux out less flux in that the solution leaves, W/m².
    pub residual_w_m2: f64,
}

impl FaceBalance {
    /// The same for another face that stands alike.
    fn of(self, face: BoxFace, area_m2: f64) -> Self {
        Self {
            face,
            area_m2,
            power_w: self.flux_w_m2 * area_m2,
            ..self
        }
    }
}

/// The balance of the box.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Balance {
    /// Ambient temperature, °C.
    pub ambient_c: f64,
    /// Temperature of the air inside, °C.
    pub inside_air_c: f64,
    /// Its rise above ambient, K.
    pub inside_rise_k: f64,
    /// Heat that leaves the box, W.
    pub power_w: f64,
    /// Area that passes heat, m².
    pub exposed_area_m2: f64,
    /// Heat per area and kelvin of the inside rise, W/(m² K); 0 where nothing rises.
    pub overall_w_m2k: f64,
    /// Warmest outer surface, °C.
    pub hottest_outer_surface_c: f64,
    /// Every exposed face.
    pub faces: Vec<FaceBalance>,
    /// Some film lies below the published range of its correlation, which errs towards too warm.
    pub below_published_range: bool,
}

/// Lowest ambient temperature answered for, °C.
pub const LOWEST_AMBIENT_C: f64 = -60.0;
/// Highest ambient temperature answered for, °C.
pub const HIGHEST_AMBIENT_C: f64 = 100.0;
/// Largest rise of the inside air answered for, K. No increased-safety box comes near.
pub const LARGEST_RISE_K: f64 = 150.0;

/// Halvings of an interval of at most 150 K: what is left is below 1e-15 K, the last bit.
const HALVINGS: u32 = 60;

/// Relative difference of two fluxes that is rounding and no change of law: the laws step by 6 %.
const NO_STEP: f64 = 1e-6;

impl ClosedBox {
    /// The box with every figure in a range the model speaks for.
    fn checked(self) -> Result<ClosedBox, OutOfRange> {
        within("outer width", self.width_mm, "mm", 20.0, 3000.0)?;
        within("outer height", self.height_mm, "mm", 20.0, 3000.0)?;
        within("outer depth", self.depth_mm, "mm", 20.0, 3000.0)?;
        within("wall thickness", self.wall.thickness_mm, "mm", 0.1, 50.0)?;
        within(
            "conductivity of the wall",
            self.wall.conductivity_w_mk,
            "W/(m K)",
            0.01,
            500.0,
        )?;
        within(
            "emissivity of the wall",
            self.wall.emissivity,
            "1",
            0.0,
            1.0,
        )?;
        Ok(self)
    }

    /// The exposed faces with area, m², orientation and characteristic length, m.
    ///
    /// Upright faces take the height as length; level ones area over perimeter, W D / (2 (W + D)).
    /// The top is unstable on both sides (warm air under a cooler plate, a warm plate under cooler
    /// air), the bottom stable on both.
    fn faces(&self) -> Vec<(BoxFace, f64, Orientation, f64)> {
        let (width, height, depth) = (
            self.width_mm / 1000.0,
            self.height_mm / 1000.0,
            self.depth_mm / 1000.0,
        );
        let level = width * depth / (2.0 * (width + depth));
        let mut faces = vec![(
            BoxFace::Front,
            width * height,
            Orientation::Vertical,
            height,
        )];
        if self.mounting == Mounting::Free {
            faces.push((BoxFace::Rear, width * height, Orientation::Vertical, height));
        }
        faces.push((BoxFace::Left, height * depth, Orientation::Vertical, height));
        faces.push((
            BoxFace::Right,
            height * depth,
            Orientation::Vertical,
            height,
        ));
        faces.push((BoxFace::Top, width * depth, Orientation::Unstable, level));
        faces.push((BoxFace::Bottom, width * depth, Orientation::Stable, level));
        faces
    }

    /// Area that passes heat, m².
    pub fn exposed_area_m2(&self) -> f64 {
        self.faces().iter().map(|(_, area, _, _)| area).sum()
    }

    /// The heat that leaves the box when the air inside is warmer than ambient by a rise.
    ///
    /// # Errors
    /// A size, wall, ambient temperature or rise outside the model's range.
    ///
    /// ```
    /// use glandrail::heat::{ClosedBox, Mounting, Wall};
    /// let closed_box = ClosedBox {
    ///     width_mm: 271.0, height_mm: 271.0, depth_mm: 135.0,
    ///     wall: Wall::GRP, mounting: Mounting::Wall,
    /// };
    /// let balance = closed_box.for_rise(20.0, 40.0).unwrap();
    /// assert!((balance.power_w - 21.209).abs() < 1e-3);
    /// ```
    pub fn for_rise(self, inside_rise_k: f64, ambient_c: f64) -> Result<Balance, OutOfRange> {
        let closed_box = self.checked()?;
        let ambient_c = within(
            "ambient temperature",
            ambient_c,
            "°C",
            LOWEST_AMBIENT_C,
            HIGHEST_AMBIENT_C,
        )?;
        let inside_rise_k = within("inside rise", inside_rise_k, "K", 0.0, LARGEST_RISE_K)?;
        let inside_air_c = ambient_c + inside_rise_k;
        // The flux does not depend on the area, so faces that stand alike are solved once.
        let mut solved: Vec<(Orientation, f64, FaceBalance)> = Vec::new();
        let mut faces = Vec::new();
        for (face, area_m2, orientation, length_m) in closed_box.faces() {
            let known = solved
                .iter()
                .find(|known| (known.0, known.1) == (orientation, length_m));
            let balance = match known {
                Some((_, _, balance)) => balance.of(face, area_m2),
                None => {
                    let balance = closed_box.face_balance(
                        face,
                        area_m2,
                        orientation,
                        length_m,
                        inside_air_c,
                        ambient_c,
                    )?;
                    solved.push((orientation, length_m, balance));
                    balance
                }
            };
            faces.push(balance);
        }
        let power_w = faces.iter().map(|face| face.power_w).sum();
        let exposed_area_m2 = closed_box.exposed_area_m2();
        let driving = exposed_area_m2 * inside_rise_k;
        Ok(Balance {
            ambient_c,
            inside_air_c,
            inside_rise_k,
            power_w,
            exposed_area_m2,
            overall_w_m2k: if driving > 0.0 {
                power_w / driving
            } else {
                0.0
            },
            hottest_outer_surface_c: faces
                .iter()
                .map(|face| face.outer_surface_c)
                .fold(f64::NEG_INFINITY, f64::max),
            below_published_range: faces.iter().any(|face| {
                face.outside.below_published_range || face.inside.below_published_range
            }),
            faces,
        })
    }

    /// How warm the air inside becomes at a power.
    ///
    /// # Errors
    /// A size, wall or ambient temperature outside the model's range, a negative power, or one
    /// that would drive the inside more than 150 K above ambient.
    ///
    /// ```
    /// use glandrail::heat::{ClosedBox, Mounting, Wall};
    /// let closed_box = ClosedBox {
    ///     width_mm: 271.0, height_mm: 271.0, depth_mm: 135.0,
    ///     wall: Wall::GRP, mounting: Mounting::Wall,
    /// };
    /// let balance = closed_box.for_power(21.209, 40.0).unwrap();
    /// assert!((balance.inside_rise_k - 20.0).abs() < 1e-3);
    /// ```
    pub fn for_power(self, power_w: f64, ambient_c: f64) -> Result<Balance, OutOfRange> {
        let most = self.for_rise(LARGEST_RISE_K, ambient_c)?;
        within("power inside", power_w, "W", 0.0, most.power_w)?;
        let (mut low, mut high) = (0.0, LARGEST_RISE_K);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            if self.for_rise(middle, ambient_c)?.power_w < power_w {
                low = middle;
            } else {
                high = middle;
            }
        }
        // The upper end: the warmer answer where the two still differ.
        self.for_rise(if power_w == 0.0 { 0.0 } else { high }, ambient_c)
    }

    /// The balance of one face for known air temperatures on both sides.
    fn face_balance(
        &self,
        face: BoxFace,
        area_m2: f64,
        orientation: Orientation,
        length_m: f64,
        inside_air_c: f64,
        ambient_c: f64,
    ) -> Result<FaceBalance, OutOfRange> {
        let wall = self.wall;
        let wall_m2k_w = wall.thickness_mm / 1000.0 / wall.conductivity_w_mk;
        // What the outside film carries from the outer surface, W/m².
        let flux_out = |outer_surface_c: f64| -> Result<f64, OutOfRange> {
            let convection = film(orientation, length_m, outer_surface_c, ambient_c)?;
            let radiation = radiation_w_m2k(wall.emissivity, outer_surface_c, ambient_c)?;
            Ok((convection.coefficient_w_m2k + radiation) * (outer_surface_c - ambient_c))
        };
        let at = |outer_surface_c: f64, flux_w_m2: f64| -> Result<FaceBalance, OutOfRange> {
            let outside = film(orientation, length_m, outer_surface_c, ambient_c)?;
            let outside_radiation_w_m2k =
                radiation_w_m2k(wall.emissivity, outer_surface_c, ambient_c)?;
            // Never above the inside air: the flux in is then nil, and bisection turns back.
            let inner_surface_c = (outer_surface_c + flux_w_m2 * wall_m2k_w).min(inside_air_c);
            let inside = film(orientation, length_m, inner_surface_c, inside_air_c)?;
            let inside_radiation_w_m2k =
                radiation_w_m2k(wall.emissivity, inner_surface_c, inside_air_c)?;
            let flux_in = (inside.coefficient_w_m2k + inside_radiation_w_m2k)
                * (inside_air_c - inner_surface_c);
            Ok(FaceBalance {
                face,
                area_m2,
                flux_w_m2,
                power_w: flux_w_m2 * area_m2,
                outer_surface_c,
                inner_surface_c,
                outside,
                outside_radiation_w_m2k,
                inside,
                inside_radiation_w_m2k,
                residual_w_m2: flux_w_m2 - flux_in,
            })
        };
        let (mut low, mut high) = (ambient_c, inside_air_c);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            if at(middle, flux_out(middle)?)?.residual_w_m2 < 0.0 {
                low = middle;
            } else {
                high = middle;
            }
        }
        // Where the outside film changes from one law to the next, its flux steps up at one surface
        // temperature. The balance may come to rest on that step; the flux is then between the two
        // laws, and what the inside delivers decides it. Elsewhere both ends are the same.
        let (mut least, mut most) = (flux_out(low)?, flux_out(high)?);
        let steps = if most - least > NO_STEP * most {
            HALVINGS
        } else {
            0
        };
        for _ in 0..steps {
            let middle = 0.5 * (least + most);
            if at(low, middle)?.residual_w_m2 < 0.0 {
                least = middle;
            } else {
                most = middle;
            }
        }
        at(low, least)
    }
}

#[cfg(test)]
mod tests;
