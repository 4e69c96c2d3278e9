//! Generated cases: a list and a catalogue for each number, the same on every run.

mod boxes;
mod lists;
mod random;

use glandrail::catalogue::Catalogue;
use glandrail::requirements::RequirementList;
use glandrail::source::SourceFile;
use glandrail::workshop::Workshop;
pub use lists::Family;
use random::Random;

/// A case.
pub struct Case {
    pub number: u64,
    pub family: Family,
    pub text: String,
    pub catalogue: Catalogue,
}

impl Case {
    /// The case with a number.
    pub fn new(number: u64) -> Self {
        let mut random = Random::new(number);
        let family = Family::ALL[(number % 4) as usize];
        let text = lists::list(&mut random, family);
        let catalogue = boxes::catalogue(&mut random);
        Case {
            number,
            family,
            text,
            catalogue,
        }
    }

    /// The list, read.
    pub fn list(&self) -> RequirementList {
        read(&self.text)
    }
}

/// Reads a list that must be right.
pub fn read(text: &str) -> RequirementList {
    RequirementList::from_source(
        SourceFile::from_text("list.toml", text),
        &Workshop::default(),
    )
    .unwrap_or_else(|findings| panic!("{}\n{text}", findings.summary()))
}
