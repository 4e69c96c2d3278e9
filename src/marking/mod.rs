//! What is to be written on a box: marking strings, warnings, earth symbols, labels.
//! Knows the arrangement; nothing of how it was found or is drawn.
//!
//! All of it is a proposal. Who holds the certificate decides what is marked, and adds number, maker,
//! type and year. Where certificate data are missing there is no string, but the datum that is missing.

mod labels;
mod notices;
mod parts;
mod strings;
mod warnings;

pub use labels::{Label, LabelKind};
pub use notices::notices;
pub use strings::{DustString, GasString};
pub(crate) use warnings::has;
pub use warnings::{EARTHING, EarthSymbol, INTRINSIC, Notice, WARNINGS};
#[cfg(test)]
pub(crate) use warnings::{ESTIMATE_RESERVE_K, ESTIMATE_RESERVE_SHARE};

use crate::arrangement::Arrangement;
use crate::heat::{self, Determined};
use crate::standards::Source;
use crate::standards::iec_60079_0::{
    AMBIENT_MARKING, DEFAULT_AMBIENT, ENTRY_TEMPERATURE, MARKING, PLASTIC_SURFACE,
};
use serde::Serialize;

/// What is said wherever the marking is shown.
pub const NOTE: &str = "a proposal for the certificate holder, who decides and adds maker, type, year \
                        and certificate number";

/// What is proposed to be written on a box.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Marking {
    /// [`NOTE`].
    pub note: &'static str,
    /// String for gas; missing where the area asks for none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gas: Option<Determined<GasString>>,
    /// String for dust; missing where the area asks for none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dust: Option<Determined<DustString>>,
    /// Ambient range; empty where it is −20 to +40 °C, which needs none.
    pub ambient: Determined<Option<String>>,
    /// Degree of protection that enclosure, entries and elements keep by their certificates.
    pub ip: Determined<String>,
    /// Certificate numbers of the parts used, each once: what the strings rest on.
    pub certificates: Vec<String>,
    /// Parts whose certificate has no number: what the strings rest on is not known with them.
    pub without_certificate: Vec<String>,
    /// What the estimate of the heat says against the class, though the certificate permits the power.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub reservations: Vec<String>,
    /// Warnings and notes outside.
    pub warnings: Vec<Notice>,
    /// Earth symbols.
    pub earth_symbols: Vec<EarthSymbol>,
    /// Labels, from outside to inside.
    pub labels: Vec<Label>,
    /// Where the marking comes from.
    pub sources: Vec<Source>,
}

/// Proposes the marking of an arrangement.
pub fn marking(arrangement: &Arrangement) -> Marking {
    marking_with(arrangement, &heat::assess(arrangement))
}

/// The same where the heat has been assessed already.
pub fn marking_with(arrangement: &Arrangement, heat: &heat::HeatAssessment) -> Marking {
    let parts = parts::used_parts(arrangement);
    let (for_gas, for_dust) = warnings::asked(&arrangement.area.epl);
    let gas = for_gas.then(|| strings::gas(arrangement, &parts));
    let dust = for_dust.then(|| strings::dust(arrangement, &parts));
    let mut certificates: Vec<String> = parts
        .iter()
        .filter_map(|part| part.certificate.number.clone())
        .collect();
    let without_certificate: Vec<String> = parts
        .iter()
        .filter(|part| {
            let number = part.certificate.number.as_deref().unwrap_or_default();
            number.trim().is_empty()
        })
        .map(|part| part.name.clone())
        .collect();
    certificates.retain(|number| !number.trim().is_empty());
    certificates.sort();
    certificates.dedup();
    let warnings = warnings::warnings(arrangement, gas.as_ref(), heat);
    let earth_symbols = warnings::earth_symbols(arrangement);
    let mut marking = Marking {
        note: NOTE,
        gas,
        dust,
        ambient: strings::ambient(arrangement, &parts),
        ip: strings::ip(arrangement, &parts),
        certificates,
        without_certificate,
        reservations: heat
            .warnings
            .iter()
            .filter(|warning| warning.code == heat::CLASS_PASSED)
            .map(|warning| warning.text.clone())
            .collect(),
        warnings,
        earth_symbols,
        labels: labels::labels(arrangement),
        sources: vec![
            MARKING,
            AMBIENT_MARKING,
            DEFAULT_AMBIENT,
            ENTRY_TEMPERATURE,
            PLASTIC_SURFACE,
            WARNINGS,
            EARTHING,
            INTRINSIC,
        ],
    };
    let outside = outside_labels(&marking);
    // After the tag plate, before what is inside.
    marking.labels.splice(1..1, outside);
    marking
}

/// The labels that repeat marking, warnings and earth symbols. What is not determined has its label too, so that
/// nobody takes the plate for complete.
fn outside_labels(marking: &Marking) -> Vec<Label> {
    let plate = |text: String| Label::new(LabelKind::TypePlate, "outside", text);
    let proposed = marking.lines().into_iter();
    let mut found: Vec<Label> = proposed.map(|text| plate(text).because(NOTE)).collect();
    found.extend(marking.not_determined().into_iter().map(|(what, reason)| {
        let text = format!("no proposal for {what}");
        plate(text).because(format!("not determined: {reason}"))
    }));
    found.extend(marking.warnings.iter().map(|notice| {
        let reason = format!("{}; {}", notice.reason, notice.source);
        Label::new(LabelKind::Warning, "outside", &notice.text).because(reason)
    }));
    found.extend(marking.earth_symbols.iter().map(|symbol| {
        let place = format!("{}: {}", symbol.place, symbol.marks);
        Label::new(LabelKind::EarthSymbol, place, "earth symbol").because(EARTHING.to_string())
    }));
    found
}

impl Marking {
    /// The lines of the type plate that are determined: gas, dust, ambient range, degree of protection.
    pub fn lines(&self) -> Vec<String> {
        let gas = self.gas.as_ref().and_then(Determined::known);
        let dust = self.dust.as_ref().and_then(Determined::known);
        let ambient = self.ambient.known().cloned().flatten();
        [
            gas.map(|gas| gas.text.clone()),
            dust.map(|dust| dust.text.clone()),
            ambient,
            self.ip.known().cloned(),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    /// That the certificates of some parts have no number, few of them named.
    fn unnumbered(&self) -> Option<(&'static str, String)> {
        if self.without_certificate.is_empty() {
            return None;
        }
        let parts = strings::missing(self.without_certificate.clone());
        Some(("certificates", format!("the number is missing of {parts}")))
    }

    /// What could not be determined, each with the datum that is missing.
    pub fn not_determined(&self) -> Vec<(&'static str, String)> {
        let gas = self.gas.as_ref().and_then(Determined::reason);
        let dust = self.dust.as_ref().and_then(Determined::reason);
        [
            ("gas", gas),
            ("dust", dust),
            ("ambient range", self.ambient.reason()),
            ("degree of protection", self.ip.reason()),
        ]
        .into_iter()
        .filter_map(|(what, reason)| Some((what, reason?.to_string())))
        .chain(self.unnumbered())
        .collect()
    }
}
