//! `glandrail compare`: all candidates for a list side by side.

use super::input::Sources;
use super::outcome::tell_findings;
use super::propose::seconds;
use super::{ExitStatus, Failure};
use crate::arrangement::CAUTION;
use crate::catalogue::Material;
use crate::compare::{Filter, Measured, chart, compare, mark_front, table, without_part};
use crate::model::SearchOptions;
use crate::propose::ProposeError;
use crate::sheets;
use crate::source::write_whole;
use itertools::Itertools;
use std::io::{IsTerminal, Write};
use std::path::PathBuf;

/// Compare all candidates for a requirement list.
#[derive(Debug, Clone, clap::Args)]
pub struct CompareArgs {
    /// The requirement list, a TOML file.
    pub list: PathBuf,
    #[command(flatten)]
    pub sources: Sources,
    /// Only some of the candidates.
    #[arg(long, value_enum)]
    pub only: Option<Only>,
    #[command(flatten)]
    pub filters: Filters,
    /// Sort by this measure, the best first; without it by the list's objective.
    #[arg(long, value_enum)]
    pub sort: Option<Measured>,
    /// Mark the candidates that no other beats in all of these measures.
    #[arg(long, value_enum, value_delimiter = ',', default_value = "heat,volume")]
    pub front: Vec<Measured>,
    /// How the comparison is printed.
    #[arg(long, value_enum, default_value_t = CompareFormat::Text)]
    pub format: CompareFormat,
    /// Draw the heat margin over the volume into this SVG file.
    #[arg(long, value_name = "FILE.svg")]
    pub chart: Option<PathBuf>,
    /// Most seconds that one exact decision about a candidate may take.
    #[arg(long, value_name = "SECONDS", default_value_t = 10.0, value_parser = seconds)]
    pub decision_limit: f64,
}

impl CompareArgs {
    /// Whether nothing is asked for but the text.
    fn is_for_reading(&self) -> bool {
        self.format == CompareFormat::Text && self.chart.is_none()
    }
}

/// Candidates that are left out. The front is that of all candidates that fit.
#[derive(Debug, Clone, clap::Args)]
pub struct Filters {
    /// Only enclosures of these materials, in the words of the catalogue.
    #[arg(long, value_name = "MATERIAL", value_delimiter = ',', value_parser = material)]
    pub material: Vec<Material>,
    /// Only enclosures of at most this outer size as mounted, mm.
    #[arg(long, value_name = "WxHxD", value_parser = outer_size)]
    pub max_outer: Option<[f64; 3]>,
    /// Only enclosures of at most this outer volume, litres.
    #[arg(long, value_name = "L", value_parser = amount)]
    pub max_volume: Option<f64>,
    /// Only enclosures of at most this mass when empty, kg.
    #[arg(long, value_name = "KG", value_parser = amount)]
    pub max_mass: Option<f64>,
    /// Only enclosures of at most this price when empty, in the catalogue's currency.
    #[arg(long, value_name = "PRICE", value_parser = amount)]
    pub max_price: Option<f64>,
    /// Only candidates on the front.
    #[arg(long)]
    pub only_front: bool,
}

impl Filters {
    fn filter(&self) -> Filter {
        Filter {
            materials: self.material.clone(),
            max_outer_mm: self.max_outer,
            max_volume_l: self.max_volume,
            max_mass_kg: self.max_mass,
            max_price: self.max_price,
            front: self.only_front,
        }
    }
}

fn material(word: &str) -> Result<Material, String> {
    let known = serde_json::from_value(serde_json::Value::String(word.to_ascii_lowercase()));
    known.map_err(|_| {
        "expected a material of enclosures: grp, stainless, steel or aluminium".to_string()
    })
}

fn amount(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(amount) if amount > 0.0 && amount.is_finite() => Ok(amount),
        _ => Err("expected a number above 0".to_string()),
    }
}

fn outer_size(text: &str) -> Result<[f64; 3], String> {
    let sides: Result<Vec<f64>, String> = text.split(['x', '×']).map(amount).collect();
    sides
        .ok()
        .and_then(|sides| sides.try_into().ok())
        .ok_or_else(|| "expected three lengths in mm, such as 400x300x200".to_string())
}

/// Which candidates are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum Only {
    /// Those that take the list.
    Fits,
    /// Those that do not.
    Fails,
}

/// How a comparison is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum CompareFormat {
    /// For reading.
    Text,
    /// For spreadsheets.
    Csv,
    /// For programs.
    Json,
}

/// How far the work is: a bar of thirty marks and the count.
fn bar(done: usize, all: usize) -> String {
    const MARKS: usize = 30;
    let filled = (MARKS * done).checked_div(all).unwrap_or(MARKS);
    let (full, empty) = ("#".repeat(filled), ".".repeat(MARKS - filled));
    format!("[{full}{empty}] {done} of {all} candidates")
}

/// Runs the command.
pub fn run(
    args: &CompareArgs,
    out: &mut dyn Write,
    talk: &mut dyn Write,
) -> Result<ExitStatus, Failure> {
    let inputs = args.sources.read(&args.list)?;
    let options = SearchOptions {
        decision_limit_s: args.decision_limit,
        ..SearchOptions::default()
    };
    let on_terminal = std::io::stderr().is_terminal();
    let mut progress = |done: usize, all: usize| {
        if on_terminal {
            // Nothing is lost where the talk cannot be written.
            let bar = bar(done, all);
            let _ = write!(talk, "\r{bar}");
            if done == all {
                let _ = write!(talk, "\r{}\r", " ".repeat(bar.chars().count()));
            }
            let _ = talk.flush();
        }
    };
    let (list, catalogue) = (&inputs.list, &inputs.catalogue);
    let compared = compare(list, catalogue, &inputs.workshop, options, &mut progress);
    let mut rows = match compared {
        // For reading the entries are shown in their lines; for a spreadsheet or a program every candidate is a row.
        Err(ProposeError::NoPart(findings)) if args.is_for_reading() => {
            return Err(Failure::NoPart(findings));
        }
        Err(ProposeError::NoPart(findings)) => {
            tell_findings(&findings, talk, false)?;
            without_part(list, catalogue, &findings)
        }
        rows => rows?,
    };
    mark_front(&mut rows, &args.front);
    let holds = rows.iter().any(|row| row.fits);
    if let Some(path) = &args.chart {
        let title = [inputs.list.job.tag.as_str(), inputs.list.job.title.as_str()].join("  ");
        write_whole(path, sheets::svg(&chart(title.trim(), &rows)))?;
    }
    if let Some(by) = args.sort {
        rows.sort_by(|a, b| by.loss(a).total_cmp(&by.loss(b)));
    }
    match args.only {
        Some(Only::Fits) => rows.retain(|row| row.fits),
        Some(Only::Fails) => rows.retain(|row| !row.fits),
        None => {}
    }
    let filter = args.filters.filter();
    rows.retain(|row| filter.passes(row));
    match args.format {
        CompareFormat::Text => {
            let title = [inputs.list.job.tag.as_str(), inputs.list.job.title.as_str()].join("  ");
            let front = args
                .front
                .iter()
                .map(|by| format!("{by:?}").to_lowercase())
                .join(", ");
            writeln!(out, "{}", title.trim())?;
            write!(out, "{}", table::text(&rows, &front))?;
            writeln!(out, "\n{CAUTION}")?;
        }
        CompareFormat::Csv => write!(out, "{}", table::csv(&rows))?,
        CompareFormat::Json => {
            let value = serde_json::json!({
                "tag": inputs.list.job.tag,
                "candidates": rows,
                "caution": CAUTION,
            });
            writeln!(out, "{value:#}")?;
        }
    }
    Ok(if holds {
        ExitStatus::Holds
    } else {
        ExitStatus::DoesNotHold
    })
}

#[cfg(test)]
mod tests {
    use super::{bar, material, outer_size};
    use crate::catalogue::Material;

    #[test]
    fn filters_are_read_or_refused_with_what_was_expected() {
        assert_eq!(outer_size("400x300x200"), Ok([400.0, 300.0, 200.0]));
        for bad in ["400x300", "400x300x0", "400,300,200", "1x2x3x4", ""] {
            let error = outer_size(bad).expect_err(bad);
            assert!(error.contains("three lengths"), "{error}");
        }
        assert_eq!(material("GRP"), Ok(Material::Grp));
        assert!(material("plastic").is_err());
    }

    #[test]
    fn the_bar_fills_with_the_work() {
        let marks = |done| bar(done, 120).matches('#').count();
        assert_eq!([0, 4, 60, 119, 120].map(marks), [0, 1, 15, 29, 30]);
        assert!(bar(60, 120).ends_with("] 60 of 120 candidates"));
        // Every state covers the one before.
        assert!((1..=120).all(|done| bar(done, 120).len() >= bar(done - 1, 120).len()));
    }
}
