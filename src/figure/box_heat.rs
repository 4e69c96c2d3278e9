//! The heat balance of a closed box, as an answer: power to inside rise, or rise to power.

use super::answer::{Figure, Quantities, Value};
use crate::heat::balance::{self, Balance, FaceBalance};
use crate::heat::{ClosedBox, Mounting, Wall, tr_60890};
use crate::standards::provenance::{OutOfRange, Status, words};

/// Wall materials with a preset.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum BoxMaterial {
    /// Glass-fibre reinforced polyester.
    Grp,
    /// Bare stainless sheet.
    Stainless,
    /// Painted sheet steel.
    PaintedSteel,
}

impl BoxMaterial {
    /// The wall of the preset.
    pub const fn wall(self) -> Wall {
        match self {
            BoxMaterial::Grp => Wall::GRP,
            BoxMaterial::Stainless => Wall::BARE_STAINLESS,
            BoxMaterial::PaintedSteel => Wall::PAINTED_STEEL,
        }
    }
}

words!(BoxMaterial, "material of the box", "grp, stainless or painted-steel", {
    Grp => "grp", Stainless => "stainless", PaintedSteel => "painted-steel",
});

/// What is known of the heat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Given {
    /// Power inside, W; the rise is asked for.
    PowerW(f64),
    /// Rise of the inside air above ambient, K; the power is asked for.
    InsideRiseK(f64),
}

/// A box and what is known of its heat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoxHeatQuestion {
    /// Outer width, height and depth, mm.
    pub size_mm: [f64; 3],
    /// Material of the wall.
    pub material: BoxMaterial,
    /// Thickness of the wall, mm, where it is not that of the preset.
    pub wall_thickness_mm: Option<f64>,
    /// Emissivity of the surfaces, where it is not that of the preset.
    pub emissivity: Option<f64>,
    /// How the box stands.
    pub mounting: Mounting,
    /// Ambient temperature, °C.
    pub ambient_c: f64,
    /// What is known.
    pub given: Given,
}

/// Heat balance of a closed box, with every face and the technical report's estimate beside it.
///
/// # Errors
/// A size, wall, ambient temperature, power or rise outside the model's range.
///
/// ```
/// use glandrail::figure::{box_heat, BoxHeatQuestion, BoxMaterial, Given};
/// use glandrail::heat::Mounting;
/// let answer = box_heat(BoxHeatQuestion {
///     size_mm: [271.0, 271.0, 135.0],
///     material: BoxMaterial::Grp,
///     wall_thickness_mm: None,
///     emissivity: None,
///     mounting: Mounting::Wall,
///     ambient_c: 40.0,
///     given: Given::InsideRiseK(20.0),
/// })
/// .unwrap();
/// assert_eq!(answer.result_key, "power_w");
/// assert!((answer.result - 21.209).abs() < 1e-3);
/// ```
pub fn box_heat(question: BoxHeatQuestion) -> Result<Figure, OutOfRange> {
    let [width_mm, height_mm, depth_mm] = question.size_mm;
    let preset = question.material.wall();
    let wall = Wall {
        thickness_mm: question.wall_thickness_mm.unwrap_or(preset.thickness_mm),
        emissivity: question.emissivity.unwrap_or(preset.emissivity),
        ..preset
    };
    let closed_box = ClosedBox {
        width_mm,
        height_mm,
        depth_mm,
        wall,
        mounting: question.mounting,
    };
    let inputs = Quantities::new()
        .with("width_mm", width_mm, "mm")
        .with("height_mm", height_mm, "mm")
        .with("depth_mm", depth_mm, "mm")
        .with("material", question.material.word(), "")
        .with("wall_thickness_mm", wall.thickness_mm, "mm")
        .with("conductivity_w_mk", wall.conductivity_w_mk, "W/(m K)")
        .with("emissivity", wall.emissivity, "")
        .with("mounting", question.mounting.word(), "")
        .with("ambient_c", question.ambient_c, "°C");
    let (inputs, balance, result, report) = match question.given {
        Given::PowerW(power_w) => {
            let balance = closed_box.for_power(power_w, question.ambient_c)?;
            let result = ("inside_rise_k", balance.inside_rise_k, "K");
            let report = tr_60890::rise_for_power(&closed_box, power_w).map(|rise| {
                (
                    "iec_tr_60890_rise_at_half_height_k",
                    rise.rise_at_half_height_k,
                    "K",
                )
            });
            (
                inputs.with("power_w", power_w, "W"),
                balance,
                result,
                report,
            )
        }
        Given::InsideRiseK(rise_k) => {
            let balance = closed_box.for_rise(rise_k, question.ambient_c)?;
            let result = ("power_w", balance.power_w, "W");
            let report = tr_60890::power_for_rise(&closed_box, rise_k)
                .map(|rise| ("iec_tr_60890_power_w", rise.power_w, "W"));
            (
                inputs.with("inside_rise_k", rise_k, "K"),
                balance,
                result,
                report,
            )
        }
    };
    let mut intermediate = totals(&balance);
    if let Ok((key, value, unit)) = report {
        intermediate = intermediate.with(key, value, unit);
    }
    let faces = Value::Lines(balance.faces.iter().map(face).collect());
    let intermediate = intermediate.with("faces", faces, "");
    let mut figure = Figure::new(
        "box-heat",
        inputs,
        result,
        "per face (h_co + h_ro)(T_out − T_ambient) = (λ/t)(T_in − T_out) = (h_ci + h_ri)(T_air − T_in), \
         summed over the exposed faces",
        vec![balance::SOURCE],
        intermediate,
    )
    .note("an estimate: it stands beside the certificate's rating and never replaces it");
    if question.material == BoxMaterial::Stainless && question.emissivity.is_none() {
        figure.status = figure.status.weaker(Status::FromMemory);
        figure = figure.note(
            "emissivity 0.3 of bare stainless is from memory; dirt and weather raise it and cool the box",
        );
    }
    if balance.below_published_range {
        figure = figure.note(
            "some film lies below the published range of its correlation, which errs towards a warmer box",
        );
    }
    if let Err(error) = report {
        figure = figure.note(format!("IEC TR 60890 gives no estimate: {error}"));
    }
    Ok(figure)
}

fn totals(balance: &Balance) -> Quantities {
    Quantities::new()
        .with("power_w", balance.power_w, "W")
        .with("inside_rise_k", balance.inside_rise_k, "K")
        .with("inside_air_c", balance.inside_air_c, "°C")
        .with(
            "hottest_outer_surface_c",
            balance.hottest_outer_surface_c,
            "°C",
        )
        .with("exposed_area_m2", balance.exposed_area_m2, "m²")
        .with("overall_w_m2k", balance.overall_w_m2k, "W/(m² K)")
}

fn face(face: &FaceBalance) -> Quantities {
    let word = match face.face {
        balance::BoxFace::Front => "front",
        balance::BoxFace::Rear => "rear",
        balance::BoxFace::Left => "left",
        balance::BoxFace::Right => "right",
        balance::BoxFace::Top => "top",
        balance::BoxFace::Bottom => "bottom",
    };
    Quantities::new()
        .with("face", word, "")
        .with("area_m2", face.area_m2, "m²")
        .with("power_w", face.power_w, "W")
        .with("flux_w_m2", face.flux_w_m2, "W/m²")
        .with("outer_surface_c", face.outer_surface_c, "°C")
        .with("inner_surface_c", face.inner_surface_c, "°C")
        .with(
            "outside_convection_w_m2k",
            face.outside.coefficient_w_m2k,
            "W/(m² K)",
        )
        .with(
            "outside_radiation_w_m2k",
            face.outside_radiation_w_m2k,
            "W/(m² K)",
        )
        .with(
            "inside_convection_w_m2k",
            face.inside.coefficient_w_m2k,
            "W/(m² K)",
        )
        .with(
            "inside_radiation_w_m2k",
            face.inside_radiation_w_m2k,
            "W/(m² K)",
        )
}

#[cfg(test)]
mod tests {
    use super::*;

    const QUESTION: BoxHeatQuestion = BoxHeatQuestion {
        size_mm: [300.0, 200.0, 150.0],
        material: BoxMaterial::Stainless,
        wall_thickness_mm: None,
        emissivity: None,
        mounting: Mounting::Wall,
        ambient_c: 40.0,
        given: Given::PowerW(12.0),
    };

    #[test]
    fn forward_and_reverse_meet() {
        let forward = box_heat(QUESTION).expect("in range");
        assert_eq!((forward.result_key, forward.unit), ("inside_rise_k", "K"));
        let reverse = box_heat(BoxHeatQuestion {
            given: Given::InsideRiseK(forward.result),
            ..QUESTION
        })
        .expect("in range");
        assert_eq!((reverse.result_key, reverse.unit), ("power_w", "W"));
        assert!((reverse.result - 12.0).abs() < 1e-9);
    }

    #[test]
    fn the_recalled_emissivity_is_said_and_can_be_replaced() {
        let recalled = box_heat(QUESTION).expect("in range");
        assert_eq!(recalled.status, Status::FromMemory);
        let given = box_heat(BoxHeatQuestion {
            emissivity: Some(0.9),
            ..QUESTION
        })
        .expect("in range");
        assert_eq!(given.status, Status::CommonPractice);
        assert!(given.result < recalled.result);
    }

    #[test]
    fn a_box_too_small_for_the_report_is_answered_without_it() {
        let small = box_heat(BoxHeatQuestion {
            size_mm: [80.0, 80.0, 60.0],
            given: Given::PowerW(1.0),
            ..QUESTION
        })
        .expect("in range");
        assert!(
            small
                .intermediate
                .number("iec_tr_60890_rise_at_half_height_k")
                .is_none()
        );
        assert!(
            small
                .notes
                .iter()
                .any(|note| note.contains("effective cooling surface")),
            "{:?}",
            small.notes
        );
        let larger = box_heat(QUESTION).expect("in range");
        assert!(
            larger
                .intermediate
                .number("iec_tr_60890_rise_at_half_height_k")
                .is_some()
        );
    }
}
