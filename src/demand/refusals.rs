//! What the catalogue cannot serve, gathered so that one entry of the list is told of once, however
//! many cables or poles it stands for.

use crate::requirements::Section;
use crate::source::{Finding, Findings};

/// One refusal and how many more of the same entry there are for the same reason.
struct Refusal {
    finding: Finding,
    more: usize,
    last_message: String,
}

/// All refusals in the order in which they were met.
#[derive(Default)]
pub(super) struct Refusals {
    met: Vec<Refusal>,
}

impl Refusals {
    /// Notes a finding. One at the same place with the same code, remedy and reason is counted only:
    /// entries that follow each other are looked at, since poles and cables of one entry do.
    pub(super) fn push(&mut self, finding: Finding) {
        let same = |known: &&mut Refusal| {
            let known = &known.finding;
            known.span == finding.span
                && known.code == finding.code
                && known.hint == finding.hint
                && known.file == finding.file
        };
        const LOOKED_AT: usize = 8;
        match self.met.iter_mut().rev().take(LOOKED_AT).find(same) {
            // Two poles of one circuit say the same.
            Some(known) if known.last_message == finding.message => {}
            Some(known) => {
                known.more += 1;
                known.last_message = finding.message;
            }
            None => self.met.push(Refusal {
                last_message: finding.message.clone(),
                finding,
                more: 0,
            }),
        }
    }

    /// How many there are, those alike counted once.
    pub(super) fn len(&self) -> usize {
        self.met.len()
    }

    /// The findings; those that stand for more say so.
    pub(super) fn findings(self) -> Findings {
        self.met
            .into_iter()
            .map(|refusal| {
                let mut finding = refusal.finding;
                if refusal.more > 0 {
                    let more = format!(" (and {} more like it)", refusal.more);
                    finding.message.push_str(&more);
                }
                finding
            })
            .collect()
    }
}

/// A section as the reader knows it: `35 mm²`, `AWG 14 (2.08 mm²)`.
pub(super) fn section_in_words(section: &Section) -> String {
    match &section.awg {
        Some(_) => format!("{section} ({:.2} mm²)", section.mm2),
        None => section.to_string(),
    }
}
