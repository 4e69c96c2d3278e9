//! The inputs that several commands share: catalogue, workshop rules, list.

use super::Failure;
use crate::catalogue::Catalogue;
use crate::requirements::RequirementList;
use crate::source::Findings;
use crate::workshop::Workshop;
use std::borrow::Cow;
use std::path::{Path, PathBuf};

/// Catalogue and workshop rules.
#[derive(Debug, Clone, clap::Args)]
pub struct Sources {
    /// The catalogue: a TOML file or a folder of them; without it the invented demo catalogue.
    #[arg(long, value_name = "FILE_OR_DIR")]
    pub catalogue: Option<PathBuf>,
    /// Workshop rules that replace single defaults.
    #[arg(long, value_name = "FILE")]
    pub workshop: Option<PathBuf>,
}

/// Everything a command works on.
pub struct Inputs {
    /// The checked list.
    pub list: RequirementList,
    /// The catalogue.
    pub catalogue: Cow<'static, Catalogue>,
    /// The workshop rules.
    pub workshop: Workshop,
}

impl Sources {
    /// Reads catalogue, rules and list; findings of all three are told together.
    pub fn read(&self, list: &Path) -> Result<Inputs, Failure> {
        let mut findings = Findings::new();
        let mut take = |found: Findings| findings.extend(found);
        let workshop = match &self.workshop {
            Some(path) => Workshop::read(path).map_err(&mut take).ok(),
            None => Some(Workshop::default()),
        };
        let catalogue = self.read_catalogue().map_err(&mut take).ok();
        let usual = Workshop::default();
        let rules = workshop.as_ref().unwrap_or(&usual);
        let list = RequirementList::read(list, rules).map_err(&mut take).ok();
        match (list, catalogue, workshop) {
            (Some(list), Some(catalogue), Some(workshop)) => Ok(Inputs {
                list,
                catalogue,
                workshop,
            }),
            _ => Err(findings.into()),
        }
    }

    /// Reads the catalogue alone.
    pub fn read_catalogue(&self) -> Result<Cow<'static, Catalogue>, Findings> {
        match &self.catalogue {
            Some(path) => Catalogue::read(path).map(Cow::Owned),
            None => Ok(Cow::Borrowed(Catalogue::demo())),
        }
    }
}
