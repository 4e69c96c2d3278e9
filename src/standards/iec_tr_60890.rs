//! IEC TR 60890: temperature rise of the air inside an enclosure by its effective cooling surface.
//! Knows nothing of what dissipates the power.
//!
//! The equations were read in public code that implements the 2022 edition, not in the report.
//! Only enclosures without ventilation openings are answered for: a box of IP5x and above has none.

use serde::Serialize;

use super::provenance::{OutOfRange, Source, Status, within, words};

/// Surface factors and effective cooling surface.
pub const SURFACE: Source = Source::new(
    "IEC TR 60890",
    "2022",
    "surface factors b",
    Status::Published,
);
/// Factors of an enclosure in the middle of a row.
pub const SURFACE_IN_ROW: Source = Source::new(
    "IEC TR 60890",
    "2022",
    "surface factors b, row",
    Status::FromMemory,
);
/// Enclosure constant k.
pub const CONSTANT_K: Source =
    Source::new("IEC TR 60890", "2022", "Figures 3 and 7", Status::Published);
/// Distribution factor c.
pub const FACTOR_C: Source =
    Source::new("IEC TR 60890", "2022", "Figures 4 and 8", Status::Published);
/// Factor d of horizontal partitions.
pub const PARTITIONS: Source = Source::new(
    "IEC TR 60890",
    "2022",
    "Tables IV and V",
    Status::FromMemory,
);

/// Exponent of the power without ventilation openings, at any size.
pub const EXPONENT: f64 = 0.804;
/// Effective surface from which the equations of the large enclosure hold, m² (above this).
pub const LARGE_ABOVE_M2: f64 = 1.25;
/// Effective surface below which the constant k stays at 4.0 whatever the size, m².
///
/// The result there is unsafe: a box of 80 × 80 × 60 mm would be allowed 7.4 W for 20 K where a
/// balance of films and walls finds less than 3 W. [`temperature_rise`] refuses it.
pub const SMALLEST_M2: f64 = 0.08;
/// Effective surface up to which the equations of the large enclosure hold, m².
pub const LARGEST_M2: f64 = 12.0;

/// How the enclosure stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Installation {
    /// Alone, free on all sides.
    Free,
    /// First or last of a row, free at the back.
    FreeRowEnd,
    /// In the middle of a row, free at the back.
    FreeRowMiddle,
    /// Alone, on a wall.
    Wall,
    /// First or last of a row on a wall.
    WallRowEnd,
    /// In the middle of a row on a wall.
    WallRowMiddle,
}

words!(Installation, "installation",
    "free, free-row-end, free-row-middle, wall, wall-row-end or wall-row-middle", {
    Free => "free", FreeRowEnd => "free-row-end", FreeRowMiddle => "free-row-middle",
    Wall => "wall", WallRowEnd => "wall-row-end", WallRowMiddle => "wall-row-middle",
});

impl Installation {
    fn on_wall(self) -> bool {
        matches!(self, Self::Wall | Self::WallRowEnd | Self::WallRowMiddle)
    }

    /// Sides that another enclosure covers.
    fn covered_sides(self) -> f64 {
        match self {
            Self::Free | Self::Wall => 0.0,
            Self::FreeRowEnd | Self::WallRowEnd => 1.0,
            Self::FreeRowMiddle | Self::WallRowMiddle => 2.0,
        }
    }

    /// Number of the curve that gives the distribution factor of a large enclosure.
    pub const fn curve(self) -> u8 {
        match self {
            Self::Free => 1,
            Self::FreeRowEnd => 2,
            Self::FreeRowMiddle | Self::Wall => 3,
            Self::WallRowEnd => 4,
            Self::WallRowMiddle => 5,
        }
    }
}

/// Outer size of an enclosure, m.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct OuterSize {
    /// Width, m.
    pub width_m: f64,
    /// Height, m.
    pub height_m: f64,
    /// Depth, m.
    pub depth_m: f64,
}

impl OuterSize {
    fn checked(self) -> Result<OuterSize, OutOfRange> {
        let check = |quantity, value| within(quantity, value, "m", 0.01, 10.0);
        Ok(OuterSize {
            width_m: check("outer width", self.width_m)?,
            height_m: check("outer height", self.height_m)?,
            depth_m: check("outer depth", self.depth_m)?,
        })
    }
}

/// Effective cooling surface A_e = Σ A b, m²: exposed top 1.4, covered top 0.7, exposed front,
/// rear and sides 0.9, covered ones 0.5, floor not counted.
///
/// # Errors
/// A dimension outside 0.01 to 10 m.
///
/// ```
/// use glandrail::standards::iec_tr_60890::{effective_surface_m2, Installation, OuterSize};
/// let size = OuterSize { width_m: 0.8, height_m: 2.0, depth_m: 0.6 };
/// let surface = effective_surface_m2(size, Installation::Free, false).unwrap();
/// assert!((surface - 5.712).abs() < 1e-12);
/// ```
pub fn effective_surface_m2(
    size: OuterSize,
    installation: Installation,
    top_covered: bool,
) -> Result<f64, OutOfRange> {
    let OuterSize {
        width_m,
        height_m,
        depth_m,
    } = size.checked()?;
    let top = if top_covered { 0.7 } else { 1.4 };
    let rear = if installation.on_wall() { 0.5 } else { 0.9 };
    let covered = installation.covered_sides();
    let sides = 0.5 * covered + 0.9 * (2.0 - covered);
    Ok(top * width_m * depth_m + (0.9 + rear) * width_m * height_m + sides * height_m * depth_m)
}

/// Enclosure constant k without openings.
///
/// Below 0.08 m² this is the flat 4.0 of the curve, which is unsafe (see [`SMALLEST_M2`]). At
/// 1.25 m² the two equations do not meet: 0.5311 below, 0.4857 above.
///
/// # Errors
/// A surface that is not above 0 or above 12 m².
///
/// ```
/// use glandrail::standards::iec_tr_60890::constant_k;
/// assert!((constant_k(0.2).unwrap() - 2.0498).abs() < 5e-5);
/// assert!((constant_k(2.0).unwrap() - 0.3343).abs() < 5e-5);
/// assert!(constant_k(12.1).is_err());
/// ```
pub fn constant_k(effective_surface_m2: f64) -> Result<f64, OutOfRange> {
    let surface = within(
        "effective cooling surface",
        effective_surface_m2,
        "m²",
        f64::MIN_POSITIVE,
        LARGEST_M2,
    )?;
    Ok(if surface > LARGE_ABOVE_M2 {
        0.58 * surface.powf(-0.795)
    } else if surface >= SMALLEST_M2 {
        0.626 * surface.powf(-0.737)
    } else {
        4.0
    })
}

/// Distribution factor c of a small enclosure (A_e ≤ 1.25 m²) by g = height / width, clamped to
/// 0 … 3 as the curve is drawn.
///
/// # Errors
/// A ratio that is negative or no number.
///
/// ```
/// use glandrail::standards::iec_tr_60890::factor_c_small;
/// assert!((factor_c_small(1.0).unwrap() - 1.1880).abs() < 5e-5);
/// ```
pub fn factor_c_small(height_by_width: f64) -> Result<f64, OutOfRange> {
    let g = within("height by width", height_by_width, "1", 0.0, f64::MAX)?.min(3.0);
    Ok(if g <= 0.8147 {
        1.0 + 0.19354 * g
    } else {
        0.324055 * (1.0 - (-1.8827 * g + 0.38579).exp()) + 0.93643
    })
}

/// Distribution factor c of a large enclosure (A_e > 1.25 m²) by f = height^1.35 / base area,
/// clamped to 0.3 … 16 as the curve is drawn.
///
/// # Errors
/// An f that is negative or no number.
pub fn factor_c_large(f: f64, installation: Installation) -> Result<f64, OutOfRange> {
    let f = within("factor f", f, "1", 0.0, f64::MAX)?.clamp(0.3, 16.0);
    let c0 = [1.182, 1.164, 1.146, 1.125, 1.087][usize::from(installation.curve()) - 1];
    Ok(-0.0017 * f * f + 0.055 * f + c0)
}

/// Factor d of horizontal partitions, without openings.
///
/// # Errors
/// More than three partitions.
pub fn factor_d(partitions: u8) -> Result<f64, OutOfRange> {
    within(
        "horizontal partitions",
        f64::from(partitions),
        "1",
        0.0,
        3.0,
    )?;
    Ok([1.00, 1.05, 1.15, 1.30][usize::from(partitions)])
}

/// The estimate with all it rests on.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Rise {
    /// Effective cooling surface A_e, m².
    pub effective_surface_m2: f64,
    /// Enclosure constant k.
    pub constant_k: f64,
    /// Factor d of horizontal partitions.
    pub factor_d: f64,
    /// Exponent x of the power.
    pub exponent: f64,
    /// Power inside, W.
    pub power_w: f64,
    /// Rise of the air at half the height, K.
    pub rise_at_half_height_k: f64,
    /// Distribution factor c.
    pub factor_c: f64,
    /// Rise of the air at the top, K.
    pub rise_at_top_k: f64,
}

/// Rise of the air inside a closed enclosure without partitions at a power.
///
/// # Errors
/// A dimension outside 0.01 to 10 m, an effective surface outside 0.08 to 12 m², or a negative
/// power.
pub fn temperature_rise(
    size: OuterSize,
    installation: Installation,
    power_w: f64,
) -> Result<Rise, OutOfRange> {
    let power_w = within("power inside", power_w, "W", 0.0, 1e6)?;
    let (surface, k, c) = constants(size, installation)?;
    let d = factor_d(0)?;
    let half = k * d * power_w.powf(EXPONENT);
    Ok(Rise {
        effective_surface_m2: surface,
        constant_k: k,
        factor_d: d,
        exponent: EXPONENT,
        power_w,
        rise_at_half_height_k: half,
        factor_c: c,
        rise_at_top_k: c * half,
    })
}

/// Power that gives a rise at half the height, with all it rests on.
///
/// # Errors
/// As [`temperature_rise`], and a rise that is negative or above 1000 K.
pub fn power_for_rise(
    size: OuterSize,
    installation: Installation,
    rise_at_half_height_k: f64,
) -> Result<Rise, OutOfRange> {
    let rise = within(
        "rise at half height",
        rise_at_half_height_k,
        "K",
        0.0,
        1000.0,
    )?;
    let (_, k, _) = constants(size, installation)?;
    temperature_rise(
        size,
        installation,
        (rise / (k * factor_d(0)?)).powf(1.0 / EXPONENT),
    )
}

/// Effective surface, k and c, refused where the equations are unsafe.
fn constants(size: OuterSize, installation: Installation) -> Result<(f64, f64, f64), OutOfRange> {
    let surface = effective_surface_m2(size, installation, false)?;
    let surface = within(
        "effective cooling surface",
        surface,
        "m²",
        SMALLEST_M2,
        LARGEST_M2,
    )?;
    let c = if surface > LARGE_ABOVE_M2 {
        let f = size.height_m.powf(1.35) / (size.width_m * size.depth_m);
        factor_c_large(f, installation)?
    } else {
        factor_c_small(size.height_m / size.width_m)?
    };
    Ok((surface, constant_k(surface)?, c))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_box_too_small_for_the_equations_is_refused() {
        let size = OuterSize {
            width_m: 0.08,
            height_m: 0.08,
            depth_m: 0.06,
        };
        assert_eq!(constant_k(0.02432), Ok(4.0));
        let error = temperature_rise(size, Installation::Wall, 5.0).expect_err("too small");
        assert!(
            error.to_string().contains("effective cooling surface"),
            "{error}"
        );
    }

    #[test]
    fn the_jump_at_1_25_m2_is_in_the_equations() {
        let below = constant_k(1.25).expect("in range");
        let above = constant_k(1.25 + 1e-9).expect("in range");
        assert!((below - 0.5311).abs() < 5e-5 && (above - 0.4857).abs() < 5e-5);
    }

    #[test]
    fn both_branches_of_c_meet() {
        let below = factor_c_small(0.8147).expect("in range");
        let above = factor_c_small(0.8147 + 1e-9).expect("in range");
        assert!((below - above).abs() < 1e-4 && (below - 1.15768).abs() < 5e-5);
    }
}
