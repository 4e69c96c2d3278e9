//! What files a set has: words for each, and `contents.csv`, by which a later set in the same folder knows which files
//! are of this one. Knows names of files, not how they are read or written.

use super::csv;
use super::set::SetFile;
use super::views::ViewName;
use crate::arrangement::JobRecord;
use crate::catalogue::import::rows_of;
use crate::source::SourceFile;
use itertools::Itertools;
use std::sync::Arc;

/// Name of the list of a set's files.
pub const CONTENTS: &str = "contents.csv";

const HEAD: [&str; 4] = ["file", "what", "tag", "revision"];

/// Files whose names never differ, with what they are.
const FIXED: [(&str, &str); 23] = [
    ("arrangement.json", "the arrangement as data"),
    ("drawings.pdf", "all drawing sheets"),
    ("parts-list.csv", "parts list"),
    ("rail-order.csv", "what stands on each rail"),
    ("terminal-schedule.csv", "terminal schedule"),
    ("cable-schedule.csv", "cable and gland schedule"),
    ("contact-table.csv", "contacts of the elements"),
    ("internal-wires.csv", "wires inside the box"),
    ("drilling-list.csv", "drilling list"),
    ("workshop-notes.csv", "notes for the workshop"),
    ("label-list.csv", "label list"),
    ("spare-capacity.csv", "spare capacity"),
    (
        "heat-calculation.csv",
        "calculation of the dissipated power",
    ),
    ("audit-record.csv", "record of the audit"),
    ("schedules.xlsx", "all lists as one workbook"),
    ("summary.txt", "the answer in words"),
    ("heat.txt", "the estimated heat in words"),
    ("heat.json", "the estimated heat as data"),
    ("marking.txt", "the proposed marking in words"),
    ("marking.json", "the proposed marking as data"),
    ("job.html", "the whole job as one page"),
    (
        "box-1.toml",
        "requirement list of box 1, whose set is in the folder box-1",
    ),
    (
        "box-2.toml",
        "requirement list of box 2, whose set is in the folder box-2",
    ),
];

/// What a file of a set is, by its name; `None` for a name that no file of a set has.
fn what(name: &str) -> Option<String> {
    if let Some((_, words)) = FIXED.iter().find(|(fixed, _)| *fixed == name) {
        return Some((*words).to_string());
    }
    let (stem, end) = name.split_once('.')?;
    let is_plain = |part: &str| {
        let is_of_name = |byte: u8| byte.is_ascii_alphanumeric() || byte == b'-';
        !part.is_empty() && part.bytes().all(is_of_name)
    };
    if let Some(part) = stem.strip_prefix("sheet-").filter(|part| is_plain(part)) {
        return (end == "svg").then(|| format!("drawing sheet: {}", part.replace('-', " ")));
    }
    let part = stem.strip_prefix("view-").filter(|part| is_plain(part))?;
    let view = ViewName::ALL.into_iter().find(|view| view.name() == part);
    let words = view.map_or(part.to_string(), |view| view.words().to_string());
    match end {
        "dxf" => Some(format!("{words}, full scale in mm")),
        "svg" if view.is_some_and(ViewName::is_picture) => Some(format!("{words}, a picture")),
        "svg" => Some(format!("{words}, to scale")),
        _ => None,
    }
}

/// The list of the files of a folder, each with the job that it is of.
pub fn contents<'a>(files: impl IntoIterator<Item = (&'a str, &'a JobRecord)>) -> SetFile {
    let rows: Vec<Vec<String>> = files
        .into_iter()
        .map(|(name, job)| {
            vec![
                name.to_string(),
                what(name).unwrap_or_default(),
                job.tag.clone(),
                job.revision.clone(),
            ]
        })
        .collect();
    (CONTENTS.into(), csv::write(&HEAD, &rows).into_bytes())
}

/// A list of contents as read again.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Contents {
    /// Names of files that a set has; any other name in the list is passed over.
    pub files: Vec<String>,
    /// Tags and revisions of the boxes, in words.
    pub of: String,
}

impl Contents {
    /// Reads a list of contents; `None` where the file is another one.
    pub fn read(file: &Arc<SourceFile>) -> Option<Self> {
        let rows = rows_of(file)?;
        let (head, rows) = rows.split_first()?;
        if *head != HEAD || rows.iter().any(|row| row.len() != HEAD.len()) {
            return None;
        }
        let names = rows.iter().map(|row| &row[0]);
        let files = names.filter(|name| what(name).is_some()).cloned().collect();
        let of = rows.iter().map(|row| box_words(&row[2], &row[3]));
        let of = of.filter(|words| !words.is_empty()).unique().join("; ");
        Some(Self { files, of })
    }
}

/// Tag and revision of a box in words; empty where it has neither.
pub(super) fn box_words(tag: &str, revision: &str) -> String {
    let revision = match revision {
        "" => String::new(),
        revision => format!("revision {revision}"),
    };
    let parts = [tag.to_string(), revision];
    parts.iter().filter(|part| !part.is_empty()).join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Option<Contents> {
        Contents::read(&SourceFile::from_text(CONTENTS, text))
    }

    #[test]
    fn a_list_is_read_as_it_was_written() {
        let job = JobRecord {
            tag: "JB, \"one\"".into(),
            revision: "B".into(),
            ..JobRecord::default()
        };
        let files = ["view-lid.dxf", "sheet-walls-2.svg", "parts-list.csv"];
        let (name, bytes) = contents(files.map(|file| (file, &job)));
        assert_eq!(name, CONTENTS);
        let text = String::from_utf8(bytes).unwrap();
        assert!(text.contains("sheet-walls-2.svg,drawing sheet: walls 2,"));
        let found = read(&text).unwrap();
        assert_eq!(found.files, files);
        assert_eq!(found.of, "JB, \"one\", revision B");
    }

    #[test]
    fn names_that_no_set_has_are_passed_over() {
        let names = [
            "../view-lid.svg",
            "/etc/view-lid.svg",
            "sub/view-lid.svg",
            "sub\\view-lid.svg",
            "view-..svg",
            "view-.svg",
            "view-a b.svg",
            "view-lid.svg.exe",
            "sheet-lid.dxf",
            "notes.txt",
            "contents.csv",
            "..",
        ];
        let mut text = "file,what,tag,revision\n".to_string();
        for name in names {
            text += &format!("{name},x,T,A\n");
        }
        assert_eq!(read(&text).unwrap().files, Vec::<String>::new());
    }

    #[test]
    fn another_list_is_not_taken_for_one() {
        for text in [
            "",
            "file,what,tag\nview-lid.svg,x,y\n",
            "name,what,tag,revision\nview-lid.svg,x,y,z\n",
            "file,what,tag,revision\nview-lid.svg\n",
            "file,what,tag,revision\n\"view-lid.svg,x,y,z\n",
        ] {
            assert_eq!(read(text), None, "{text}");
        }
    }
}
