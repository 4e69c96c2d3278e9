//! A list from its text to an answer, with everything that can be found on the way.

use glandrail::catalogue::Catalogue;
use glandrail::model::SearchOptions;
use glandrail::propose::{Answer, ProposeError, propose};
use glandrail::requirements::RequirementList;
use glandrail::source::{Findings, SourceFile};
use glandrail::workshop::Workshop;

/// What every list needs, for those that are not about it.
pub const HEAD: &[(&str, &str)] = &[
    ("[job]", "[job]\ntag = \"JB-1\"\n"),
    (
        "[area]",
        "[area]\nzone = 1\ngas_group = \"IIB\"\ntemperature_class = \"T6\"\nip = \"IP66\"\n",
    ),
];

/// The text with the tables that every list needs, put after it so that its lines keep their numbers.
pub fn completed(text: &str) -> String {
    let mut whole = text.to_string();
    for (header, table) in HEAD {
        if !text.lines().any(|line| line.trim() == *header) {
            whole.push('\n');
            whole.push_str(table);
        }
    }
    whole
}

/// Reads a text as the list `list.toml`.
pub fn read(text: &str) -> Result<RequirementList, Findings> {
    RequirementList::from_source(
        SourceFile::from_text("list.toml", text),
        &Workshop::default(),
    )
}

/// Answers a list with short decisions.
pub fn answer(list: &RequirementList, catalogue: &Catalogue) -> Result<Answer, ProposeError> {
    let options = SearchOptions {
        decision_limit_s: 0.5,
        ..SearchOptions::default()
    };
    propose(list, catalogue, &Workshop::default(), options)
}

/// Everything that is found on the way from the text to an answer.
pub fn findings(text: &str, catalogue: &Catalogue) -> Findings {
    match read(text) {
        Err(findings) => findings,
        Ok(list) => match answer(&list, catalogue) {
            Ok(_) => Findings::new(),
            Err(ProposeError::Input(findings) | ProposeError::NoPart(findings)) => findings,
            Err(fault) => panic!("{fault}"),
        },
    }
}
