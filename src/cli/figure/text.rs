//! A figure as aligned lines. Holds no calculation.

use std::io::{self, Write};

use crate::figure::{Figure, Quantities, Quantity, Value};

/// Writes an answer: the result first, then how it follows, what was asked, the steps and the sources.
pub(super) fn write(answer: &Figure, out: &mut dyn Write) -> io::Result<()> {
    let result = Quantity {
        key: answer.result_key,
        value: Value::Number(answer.result),
        unit: answer.unit,
    };
    writeln!(
        out,
        "{}: {} {} ({})",
        words(&result),
        shown(&result),
        answer.unit,
        answer.status
    )?;
    if let Some(verdict) = answer.verdict {
        let proved = if verdict.proved {
            "proved"
        } else {
            "not proved"
        };
        let holds = if verdict.holds {
            "placed"
        } else {
            "not placed"
        };
        writeln!(out, "  {holds}, {proved}")?;
    }
    writeln!(out, "  {}", answer.formula)?;
    section("asked", &answer.inputs, out)?;
    section("steps", &answer.intermediate, out)?;
    writeln!(out, "sources")?;
    for source in &answer.source {
        writeln!(out, "  {source}")?;
    }
    if !answer.notes.is_empty() {
        writeln!(out, "notes")?;
        for note in &answer.notes {
            writeln!(out, "  {note}")?;
        }
    }
    Ok(())
}

fn section(title: &str, quantities: &Quantities, out: &mut dyn Write) -> io::Result<()> {
    if quantities.0.is_empty() {
        return Ok(());
    }
    writeln!(out, "{title}")?;
    let width = quantities
        .0
        .iter()
        .map(|quantity| words(quantity).chars().count())
        .max()
        .unwrap_or(0);
    for quantity in &quantities.0 {
        match &quantity.value {
            Value::Lines(lines) => {
                writeln!(out, "  {}", words(quantity))?;
                for part in lines.chunks(ACROSS) {
                    table(part, out)?;
                }
            }
            _ => {
                let line = format!(
                    "  {:<width$}  {} {}",
                    words(quantity),
                    shown(quantity),
                    quantity.unit
                );
                writeln!(out, "{}", line.trim_end())?;
            }
        }
    }
    Ok(())
}

/// Most lines of equal kind side by side.
const ACROSS: usize = 6;

/// Lines of equal kind side by side: one column each, one quantity a row, the unit at the end.
fn table(lines: &[Quantities], out: &mut dyn Write) -> io::Result<()> {
    let Some(first) = lines.first() else {
        return Ok(());
    };
    let name_width = first
        .0
        .iter()
        .map(|quantity| words(quantity).chars().count())
        .max()
        .unwrap_or(0);
    for (index, named) in first.0.iter().enumerate() {
        write!(out, "    {:<name_width$}", words(named))?;
        for line in lines {
            let cell = line.0.get(index).map(shown).unwrap_or_default();
            write!(out, "  {cell:>8}")?;
        }
        let unit = if named.unit.is_empty() {
            String::new()
        } else {
            format!("  {}", named.unit)
        };
        writeln!(out, "{unit}")?;
    }
    Ok(())
}

/// The key as words, without the unit it ends with.
fn words(quantity: &Quantity) -> String {
    let bare = match suffix(quantity.unit) {
        "" => quantity.key,
        suffix => quantity.key.strip_suffix(suffix).unwrap_or(quantity.key),
    };
    bare.replace('_', " ")
}

/// How a key ends for a unit.
pub(super) fn suffix(unit: &str) -> &'static str {
    match unit {
        "V" => "_v",
        "A" => "_a",
        "W" => "_w",
        "K" => "_k",
        "°C" => "_c",
        "mm" => "_mm",
        "mm²" => "_mm2",
        "m²" => "_m2",
        "mohm" => "_mohm",
        "ohm/km" => "_ohm_per_km",
        "W/m²" => "_w_m2",
        "W/(m K)" => "_w_mk",
        "W/(m² K)" => "_w_m2k",
        _ => "",
    }
}

/// A value as printed: numbers with five significant digits and no idle zeros.
fn shown(quantity: &Quantity) -> String {
    match &quantity.value {
        Value::Number(number) => five_digits(*number),
        Value::Text(text) => text.clone(),
        Value::Flag(true) => "yes".into(),
        Value::Flag(false) => "no".into(),
        Value::Lines(lines) => format!("{} lines", lines.len()),
    }
}

pub(super) fn five_digits(number: f64) -> String {
    // Rounded as a decimal first; the shortest text of that value has no idle zeros.
    let rounded: f64 = format!("{number:.4e}").parse().unwrap_or(number);
    rounded.to_string()
}
