//! The wording of a cable's cores: `24 x 1.5 mm2`, `5 G 2.5 mm2`, `3 x AWG 14`, `3 x 35 mm2 + 1 x 16 mm2`.
//!
//! `x` counts plain cores, `G` (after the harmonised designation, HD 361) cores of which one is the
//! green-yellow protective conductor. Parts are joined with `+`; `+ PE 16 mm2` adds a protective
//! conductor of its own section.

use super::{Core, CoreName, Section};
use crate::standards::awg::Awg;
use crate::standards::iec_60228;

/// Most cores of one cable.
const MOST_CORES: u32 = 400;

/// Reads the wording.
///
/// # Errors
/// Says which part is wrong and what was expected.
pub fn read_cores(text: &str) -> Result<Vec<Core>, String> {
    if text.trim().is_empty() {
        return Err("no cores are named".to_string());
    }
    let mut numbered: Vec<Section> = Vec::new();
    let mut earth: Option<Section> = None;
    for part in text.split('+') {
        let part = part.trim();
        let (count, with_earth, section) = read_part(part)?;
        let plain = if with_earth { count - 1 } else { count };
        if with_earth {
            if earth.is_some() {
                return Err(format!("`{part}` names a second protective conductor"));
            }
            earth = Some(section.clone());
        }
        numbered.extend(std::iter::repeat_n(section, plain as usize));
        if numbered.len() > MOST_CORES as usize {
            return Err(format!("more than {MOST_CORES} cores in one cable"));
        }
    }
    let mut cores: Vec<Core> = numbered
        .into_iter()
        .zip(1..)
        .map(|(section, number)| Core {
            name: CoreName::Number(number),
            section,
        })
        .collect();
    cores.extend(earth.map(|section| Core {
        name: CoreName::Earth,
        section,
    }));
    Ok(cores)
}

/// Reads one part into count, whether one core is the protective conductor, and section.
fn read_part(part: &str) -> Result<(u32, bool, Section), String> {
    if let Some(section) = part.strip_prefix("PE") {
        return Ok((1, true, read_section(section.trim())?));
    }
    let digits = part.len()
        - part
            .trim_start_matches(|letter: char| letter.is_ascii_digit())
            .len();
    let count: u32 = part[..digits]
        .parse()
        .ok()
        .filter(|count| (1..=MOST_CORES).contains(count))
        .ok_or_else(|| {
            format!("`{part}` does not begin with a number of cores from 1 to {MOST_CORES}")
        })?;
    let rest = part[digits..].trim_start();
    let (with_earth, section) = if let Some(section) = rest.strip_prefix(['x', '×', 'X']) {
        (false, section)
    } else if let Some(section) = rest.strip_prefix('G') {
        (true, section)
    } else {
        return Err(format!(
            "`{part}` has neither `x` nor `G` between number and section"
        ));
    };
    Ok((count, with_earth, read_section(section.trim())?))
}

/// Reads a section: `1.5 mm2`, `1.5 mm²`, `AWG 14`, `1/0 AWG`.
fn read_section(text: &str) -> Result<Section, String> {
    if text.to_ascii_uppercase().contains("AWG") {
        let gauge: Awg = text
            .parse()
            .map_err(|_| format!("`{text}` is not a gauge such as `AWG 14`"))?;
        let name = text
            .to_ascii_uppercase()
            .replace("AWG", "")
            .trim()
            .to_string();
        return Ok(Section {
            mm2: gauge.area_mm2(),
            awg: Some(name),
        });
    }
    let number = text
        .strip_suffix("mm2")
        .or_else(|| text.strip_suffix("mm²"))
        .ok_or_else(|| format!("`{text}` has no unit; write `1.5 mm2` or `AWG 14`"))?
        .trim();
    let mm2: f64 = number
        .parse()
        .map_err(|_| format!("`{number}` is not a section in mm²"))?;
    let known: Vec<f64> = iec_60228::sections_mm2().collect();
    if !known.contains(&mm2) {
        let nearest = known
            .iter()
            .min_by(|a, b| (*a - mm2).abs().total_cmp(&(*b - mm2).abs()))
            .copied()
            .unwrap_or(1.5);
        return Err(format!(
            "`{number} mm²` is not a section of IEC 60228; the nearest is {nearest} mm²"
        ));
    }
    Ok(Section { mm2, awg: None })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wordings_of_the_trade_are_read() {
        let cores = read_cores("24 x 1.5 mm2").unwrap();
        assert_eq!(cores.len(), 24);
        assert_eq!(cores[23].name, CoreName::Number(24));
        let cores = read_cores("5 G 2.5 mm²").unwrap();
        assert_eq!(cores.len(), 5);
        assert_eq!(
            cores[4],
            Core {
                name: CoreName::Earth,
                section: Section {
                    mm2: 2.5,
                    awg: None
                }
            }
        );
        let cores = read_cores("3x35 mm2 + PE 16 mm2").unwrap();
        assert_eq!((cores.len(), cores[3].section.mm2), (4, 16.0));
        let cores = read_cores("3 x AWG 14").unwrap();
        assert_eq!(cores[0].section.to_string(), "AWG 14");
        assert!((cores[0].section.mm2 - 2.0809).abs() < 1e-3);
        assert_eq!(
            read_cores("2 x 1/0 AWG").unwrap()[0].section.awg.as_deref(),
            Some("1/0")
        );
    }

    #[test]
    fn broken_wordings_say_what_is_wrong() {
        for (text, word) in [
            ("", "no cores"),
            ("+", "number of cores"),
            ("x 1.5 mm2", "number of cores"),
            ("0 x 1.5 mm2", "number of cores"),
            ("3 x 1.5", "no unit"),
            ("3 x 1.4 mm2", "nearest is 1.5"),
            ("3 y 1.5 mm2", "neither"),
            ("3 x AWG 99", "gauge"),
            ("3 G 1.5 mm2 + PE 1.5 mm2", "second protective"),
            ("3 x two mm2", "not a section"),
            ("9999999999 x 1.5 mm2", "number of cores"),
        ] {
            let error = read_cores(text).unwrap_err();
            assert!(error.contains(word), "{text}: {error}");
        }
    }
}
