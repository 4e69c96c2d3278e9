//! `glandrail figure`: one figure of the trade, with source and steps. Holds no calculation.

mod text;

use std::io::{self, Write};

use clap::{Args, Subcommand, ValueEnum};
use thiserror::Error;

use super::placement::PlacementName;
use crate::figure::{
    self, BoxHeatQuestion, BoxMaterial, ConductorSize, EntriesQuestion, FIGURES, Figure, Given,
    Neighbour, PowerQuestion,
};
use crate::heat::{Conductor, Mounting};
use crate::standards::awg::Stranding;
use crate::standards::{
    Awg, ConductorClass, MaterialGroup, OutOfRange, TemperatureClass, Thread, WireSize,
};

/// One figure of the trade, with its source, status and every step.
#[derive(Debug, Clone, Args)]
pub struct FigureArgs {
    /// Name every figure.
    #[arg(long)]
    pub list: bool,

    /// How the answer is written.
    #[arg(long, value_enum, default_value_t = FigureFormat::Text, global = true)]
    pub format: FigureFormat,

    /// Which figure.
    #[command(subcommand)]
    pub figure: Option<FigureName>,
}

/// How an answer is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum FigureFormat {
    /// Aligned lines.
    Text,
    /// One JSON object.
    Json,
}

/// The figures and what each is told.
#[derive(Debug, Clone, Subcommand)]
pub enum FigureName {
    /// Least clearance through air at a working voltage.
    Clearance {
        /// Working voltage, V r.m.s. or d.c.
        #[arg(long, value_name = "V")]
        voltage: f64,
        /// At a terminal for external conductors: at least 3 mm.
        #[arg(long)]
        external: bool,
    },
    /// Least creepage at a working voltage along a material group.
    Creepage {
        /// Working voltage, V r.m.s. or d.c.
        #[arg(long, value_name = "V")]
        voltage: f64,
        /// Material group: I, II or IIIa.
        #[arg(
            long,
            alias = "material-group",
            required_unless_present = "cti",
            conflicts_with = "cti"
        )]
        group: Option<MaterialGroup>,
        /// Comparative tracking index of the material, in place of its group.
        #[arg(long)]
        cti: Option<f64>,
        /// At a terminal for external conductors: at least 3 mm.
        #[arg(long)]
        external: bool,
    },
    /// Least distance of intrinsically safe terminals from others.
    Separation {
        /// From what: other-terminals, separate-circuit or earthed-metal.
        #[arg(long, value_name = "NEIGHBOUR", default_value = "other-terminals")]
        from: Neighbour,
    },
    /// Resistance of a conductor.
    Resistance {
        /// The conductor.
        #[command(flatten)]
        conductor: ConductorArgs,
        /// Temperature of the conductor, °C.
        #[arg(
            long,
            value_name = "C",
            default_value_t = 20.0,
            allow_negative_numbers = true
        )]
        temperature: f64,
    },
    /// Heat of a terminal with its conductors at a current.
    Power {
        /// The conductor.
        #[command(flatten)]
        conductor: ConductorArgs,
        /// Current, A.
        #[arg(long, value_name = "A")]
        current: f64,
        /// Length of each conductor, mm.
        #[arg(long, value_name = "MM")]
        length: f64,
        /// Conductors on the terminal; 2 for a feed-through terminal wired on both sides.
        #[arg(long, value_name = "N", default_value_t = 1)]
        conductors: u32,
        /// Resistance of the terminal, mohm; without it the answer is that of the conductors alone.
        #[arg(long, value_name = "MOHM")]
        terminal_resistance: Option<f64>,
        /// Temperature of the conductors, °C.
        #[arg(
            long,
            value_name = "C",
            default_value_t = 20.0,
            allow_negative_numbers = true
        )]
        temperature: f64,
    },
    /// Heat balance of a closed box: power to inside rise, or rise to power.
    BoxHeat {
        /// Outer size, mm.
        #[arg(long, value_name = "WxHxD", value_parser = size_mm)]
        size: [f64; 3],
        /// Material: grp, stainless or painted-steel.
        #[arg(long)]
        material: BoxMaterial,
        /// Mounting: free or wall.
        #[arg(long, default_value = "wall")]
        mounting: Mounting,
        /// Ambient temperature, °C.
        #[arg(
            long,
            value_name = "C",
            default_value_t = 40.0,
            allow_negative_numbers = true
        )]
        ambient: f64,
        /// Power inside, W.
        #[arg(
            long,
            value_name = "W",
            required_unless_present = "inside_rise",
            conflicts_with = "inside_rise"
        )]
        power: Option<f64>,
        /// Rise of the inside air above ambient, K; the power is asked for.
        #[arg(long, value_name = "K")]
        inside_rise: Option<f64>,
        /// Thickness of the wall, mm, where it is not that of the preset.
        #[arg(long, value_name = "MM")]
        wall_thickness: Option<f64>,
        /// Emissivity of the surfaces, where it is not that of the preset.
        #[arg(long, value_name = "SHARE")]
        emissivity: Option<f64>,
    },
    /// Wiring space between terminal and wall.
    WiringSpace {
        /// Section of the conductor, mm².
        #[arg(
            long,
            value_name = "MM2",
            required_unless_present = "awg",
            conflicts_with = "awg"
        )]
        section: Option<f64>,
        /// American size, such as 14, 1/0 or `250 kcmil`.
        #[arg(long, value_name = "SIZE")]
        awg: Option<WireSize>,
    },
    /// Dimensions and clearance hole of an entry thread.
    Thread {
        /// Thread, such as M20 or `NPT 1/2`.
        thread: Thread,
    },
    /// Positions of entries on one wall, in rows or freely; exit status 1 where none were found.
    Entries {
        /// Width and height of the rectangle in which envelopes may lie, mm.
        #[arg(long, value_name = "WxH", value_parser = wall_mm)]
        wall: [f64; 2],
        /// Diameter of an envelope, mm, and how many: 36x4,27x8.
        #[arg(long, value_name = "DxN", value_delimiter = ',', required = true, value_parser = envelope)]
        envelope: Vec<(f64, u32)>,
        /// Least gap between envelopes side by side, mm.
        #[arg(long, value_name = "MM", default_value_t = 5.0)]
        gap: f64,
        /// Least gap between envelopes one above the other, mm, where it is not the same.
        #[arg(long, value_name = "MM")]
        row_gap: Option<f64>,
        /// A part of the rectangle that no envelope may reach into, such as a rib: its lower left corner, width
        /// and height, mm. May be given several times.
        #[arg(long, value_name = "X,Y,W,H", value_parser = blocked_mm, allow_hyphen_values = true)]
        blocked: Vec<[f64; 4]>,
        /// How they are placed.
        #[arg(long, value_enum, default_value_t = PlacementName::Best)]
        placement: PlacementName,
    },
    /// Limit, margin and self-heating of a temperature class.
    TemperatureClass {
        /// Class: T1 to T6.
        class: TemperatureClass,
        /// Ambient temperature, °C.
        #[arg(
            long,
            value_name = "C",
            default_value_t = 40.0,
            allow_negative_numbers = true
        )]
        ambient: f64,
    },
}

/// A conductor in either system of sizes.
#[derive(Debug, Clone, Args)]
pub struct ConductorArgs {
    /// Section, mm².
    #[arg(
        long,
        value_name = "MM2",
        required_unless_present = "awg",
        conflicts_with = "awg",
        requires = "class"
    )]
    pub section: Option<f64>,
    /// Conductor class: 1, 2, 5 or `5 metal-coated`.
    #[arg(long, conflicts_with = "awg")]
    pub class: Option<ConductorClass>,
    /// American gauge, such as 14 or 1/0.
    #[arg(long, value_name = "GAUGE")]
    pub awg: Option<Awg>,
    /// Solid instead of stranded American wire.
    #[arg(long, requires = "awg")]
    pub solid: bool,
}

impl ConductorArgs {
    fn conductor(&self) -> Result<Conductor, FigureError> {
        match (self.section, self.class, self.awg) {
            (Some(section_mm2), Some(class), None) => Ok(Conductor::Metric { section_mm2, class }),
            (None, None, Some(gauge)) => {
                let stranding = if self.solid {
                    Stranding::Solid
                } else {
                    Stranding::Stranded
                };
                Ok(Conductor::American { gauge, stranding })
            }
            _ => Err(FigureError::Missing(
                "`--section` with `--class`, or `--awg`",
            )),
        }
    }
}

/// Why no figure was given.
#[derive(Debug, Error)]
pub enum FigureError {
    /// The question lies outside what its source gives.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// Something must be said that was not.
    #[error("missing: {0}")]
    Missing(&'static str),
    /// The answer could not be written.
    #[error("the answer cannot be written: {0}")]
    Output(#[from] io::Error),
}

/// Answers one question, or lists the figures, on `out`; false where the answer is that it does not
/// hold.
///
/// # Errors
/// A question outside its source's range or without a needed input (both the user's, exit status
/// 2), or output that cannot be written.
pub fn run(args: FigureArgs, out: &mut dyn Write) -> Result<bool, FigureError> {
    if args.list {
        return list(args.format, out).map(|()| true);
    }
    let name = args.figure.ok_or(FigureError::Missing(
        "the name of a figure; `--list` names them",
    ))?;
    let answer = answer(name)?;
    match args.format {
        FigureFormat::Json => json(&answer, out),
        FigureFormat::Text => text::write(&answer, out).map_err(FigureError::from),
    }?;
    Ok(answer.verdict.is_none_or(|verdict| verdict.holds))
}

fn answer(name: FigureName) -> Result<Figure, FigureError> {
    Ok(match name {
        FigureName::Clearance { voltage, external } => figure::clearance(voltage, external)?,
        FigureName::Creepage {
            voltage,
            group,
            cti,
            external,
        } => {
            let group = match (group, cti) {
                (Some(group), _) => group,
                (None, Some(cti)) => MaterialGroup::from_cti(cti)?,
                (None, None) => return Err(FigureError::Missing("`--group` or `--cti`")),
            };
            figure::creepage(voltage, group, external)?
        }
        FigureName::Separation { from } => figure::separation(from),
        FigureName::Resistance {
            conductor,
            temperature,
        } => figure::resistance(conductor.conductor()?, temperature)?,
        FigureName::Power {
            conductor,
            current,
            length,
            conductors,
            terminal_resistance,
            temperature,
        } => figure::power(PowerQuestion {
            conductor: conductor.conductor()?,
            conductors,
            length_mm: length,
            terminal_mohm: terminal_resistance,
            current_a: current,
            temperature_c: temperature,
        })?,
        FigureName::BoxHeat {
            size,
            material,
            mounting,
            ambient,
            power,
            inside_rise,
            wall_thickness,
            emissivity,
        } => figure::box_heat(BoxHeatQuestion {
            size_mm: size,
            material,
            wall_thickness_mm: wall_thickness,
            emissivity,
            mounting,
            ambient_c: ambient,
            given: match (power, inside_rise) {
                (Some(power_w), _) => Given::PowerW(power_w),
                (None, Some(rise_k)) => Given::InsideRiseK(rise_k),
                (None, None) => return Err(FigureError::Missing("`--power` or `--inside-rise`")),
            },
        })?,
        FigureName::WiringSpace { section, awg } => figure::wiring_space(match (section, awg) {
            (Some(section_mm2), _) => ConductorSize::Section(section_mm2),
            (None, Some(size)) => ConductorSize::Wire(size),
            (None, None) => return Err(FigureError::Missing("`--section` or `--awg`")),
        })?,
        FigureName::Thread { thread } => figure::thread(thread)?,
        FigureName::Entries {
            wall,
            envelope,
            gap,
            row_gap,
            blocked,
            placement,
        } => figure::entries(&EntriesQuestion {
            wall_mm: wall,
            envelopes: envelope,
            gap_mm: gap,
            row_gap_mm: row_gap.unwrap_or(gap),
            blocked_mm: blocked,
            placement: placement.into(),
            limit_s: ROWS_LIMIT_S,
        })?,
        FigureName::TemperatureClass { class, ambient } => {
            figure::temperature_class(class, ambient)?
        }
    })
}

/// Time limit of the exact decision about rows, s: that of `propose`.
const ROWS_LIMIT_S: f64 = 10.0;

/// Reads `300x120`.
fn wall_mm(text: &str) -> Result<[f64; 2], String> {
    text.split_once(['x', 'X', '×'])
        .and_then(|(width, height)| Some([width.trim().parse().ok()?, height.trim().parse().ok()?]))
        .ok_or_else(|| "expected width x height in mm, such as 300x120".to_string())
}

/// Reads `36x4`.
fn envelope(text: &str) -> Result<(f64, u32), String> {
    text.split_once(['x', 'X', '×'])
        .and_then(|(diameter, count)| {
            Some((diameter.trim().parse().ok()?, count.trim().parse().ok()?))
        })
        .ok_or_else(|| "expected diameter in mm x number, such as 36x4".to_string())
}

/// Reads `120,0,4,110`.
fn blocked_mm(text: &str) -> Result<[f64; 4], String> {
    let parts: Result<Vec<f64>, _> = text.split(',').map(|part| part.trim().parse()).collect();
    parts
        .ok()
        .and_then(|parts| <[f64; 4]>::try_from(parts).ok())
        .ok_or_else(|| "expected x,y,width,height in mm, such as 120,0,4,110".to_string())
}

/// Reads `271x271x135`.
fn size_mm(text: &str) -> Result<[f64; 3], String> {
    let parts: Result<Vec<f64>, _> = text
        .split(['x', 'X', '×'])
        .map(|part| part.trim().parse())
        .collect();
    parts
        .ok()
        .and_then(|parts| <[f64; 3]>::try_from(parts).ok())
        .ok_or_else(|| "expected width x height x depth in mm, such as 271x271x135".to_string())
}

fn list(format: FigureFormat, out: &mut dyn Write) -> Result<(), FigureError> {
    match format {
        FigureFormat::Text => {
            for (name, about) in FIGURES {
                writeln!(out, "{name:<17}  {about}")?;
            }
        }
        FigureFormat::Json => {
            let names: Vec<_> = FIGURES
                .iter()
                .map(|(name, about)| serde_json::json!({ "name": name, "about": about }))
                .collect();
            json(&names, out)?;
        }
    }
    Ok(())
}

fn json<T: serde::Serialize + ?Sized>(value: &T, out: &mut dyn Write) -> Result<(), FigureError> {
    serde_json::to_writer_pretty(&mut *out, value).map_err(io::Error::from)?;
    writeln!(out)?;
    Ok(())
}

#[cfg(test)]
mod tests;
