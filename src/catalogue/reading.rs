//! A catalogue from TOML: one file, or a folder of files whose parts are put together. Reports all
//! that is wrong in one run. Knows the tables; what makes a part sound is known by `check`.

use super::check;
use super::{
    About, Accessory, Adapter, Catalogue, ContactBlock, Enclosure, Gland, OperatingElement,
    PartKind, Plug, Rail, Terminal,
};
use crate::source::{Document, Finding, Findings, Located, SourceFile};
use std::collections::BTreeSet;
use std::path::Path;
use std::sync::Arc;

/// Everything that was read, with its places, before it is checked.
#[derive(Debug, Default)]
pub(super) struct Parts {
    pub(super) about: Vec<Located<About>>,
    pub(super) enclosure: Vec<Located<Enclosure>>,
    pub(super) terminal: Vec<Located<Terminal>>,
    pub(super) accessory: Vec<Located<Accessory>>,
    pub(super) rail: Vec<Located<Rail>>,
    pub(super) gland: Vec<Located<Gland>>,
    pub(super) plug: Vec<Located<Plug>>,
    pub(super) adapter: Vec<Located<Adapter>>,
    pub(super) element: Vec<Located<OperatingElement>>,
    pub(super) contact_block: Vec<Located<ContactBlock>>,
    /// Every id that is written in a file, also those of parts that could not be read: a part that
    /// names one of these is not to blame.
    pub(super) written_ids: BTreeSet<String>,
}

impl Catalogue {
    /// Reads and checks a catalogue: one TOML file, or all `*.toml` files of a folder, in the order
    /// of their names.
    ///
    /// # Errors
    /// Everything that is wrong with it, with file, line and column. Warnings alone are no error.
    pub fn read(path: &Path) -> Result<Catalogue, Findings> {
        match Self::read_with_findings(path) {
            (Some(catalogue), _) => Ok(catalogue),
            (None, findings) => Err(findings),
        }
    }

    /// As [`Catalogue::read`], with warnings as well. There is a catalogue if no finding is an error.
    pub fn read_with_findings(path: &Path) -> (Option<Catalogue>, Findings) {
        let mut findings = Findings::new();
        let mut files = Vec::new();
        let name = path.display().to_string();
        if path.is_dir() {
            match toml_files(path) {
                Ok(paths) if paths.is_empty() => findings.push(
                    Finding::error(
                        "catalogue-empty",
                        &SourceFile::from_text(&*name, ""),
                        None,
                        "the folder holds no TOML file",
                    )
                    .expected("files whose names end in `.toml`")
                    .hint("check the path, or put the catalogue's files there"),
                ),
                Ok(paths) => {
                    for path in paths {
                        match SourceFile::read(&path) {
                            Ok(file) => files.push(file),
                            Err(error) => findings.push(error.finding()),
                        }
                    }
                }
                Err(error) => findings.push(
                    Finding::error(
                        "source-file",
                        &SourceFile::from_text(&*name, ""),
                        None,
                        format!("the folder cannot be read: {error}"),
                    )
                    .hint("check the path and its permissions"),
                ),
            }
        } else {
            match SourceFile::read(path) {
                Ok(file) => files.push(file),
                Err(error) => findings.push(error.finding()),
            }
        }
        if files.is_empty() {
            return (None, findings);
        }
        let (catalogue, found) = from_files(&name, &files);
        findings.extend(found);
        (catalogue.filter(|_| !findings.has_errors()), findings)
    }
}

/// The TOML files of a folder, sorted by name; hidden ones are left out.
fn toml_files(folder: &Path) -> std::io::Result<Vec<std::path::PathBuf>> {
    let mut paths = Vec::new();
    for entry in std::fs::read_dir(folder)? {
        let path = entry?.path();
        let hidden = path
            .file_name()
            .is_some_and(|name| name.to_string_lossy().starts_with('.'));
        if !hidden
            && path.is_file()
            && path
                .extension()
                .is_some_and(|extension| extension == "toml")
        {
            paths.push(path);
        }
    }
    paths.sort();
    Ok(paths)
}

/// A catalogue from files that have been read. `name` stands for all of them in findings about the
/// whole.
pub(super) fn from_files(name: &str, files: &[Arc<SourceFile>]) -> (Option<Catalogue>, Findings) {
    let mut findings = Findings::new();
    let mut parts = Parts::default();
    for file in files {
        if let Some(document) = Document::parse(Arc::clone(file), &mut findings) {
            take(&document, &mut parts, &mut findings);
        }
    }
    // Where a part of the text could not be read, what is missing may be there.
    let is_whole = !findings.has_errors();
    let whole = match files {
        [file] => Arc::clone(file),
        _ => SourceFile::from_text(name, ""),
    };
    check::all(&parts, &whole, is_whole, &mut findings);
    if findings.has_errors() {
        return (None, findings);
    }
    (Some(parts.into_catalogue()), findings)
}

/// What is wrong with the parts of one file that is not a whole catalogue.
pub(super) fn check_parts(file: &Arc<SourceFile>) -> Findings {
    let mut findings = Findings::new();
    let mut parts = Parts::default();
    if let Some(document) = Document::parse(Arc::clone(file), &mut findings) {
        take(&document, &mut parts, &mut findings);
    }
    check::all(&parts, file, false, &mut findings);
    findings
}

/// Takes the tables of one file.
fn take(document: &Document, parts: &mut Parts, findings: &mut Findings) {
    let mut known = vec!["about"];
    known.extend(PartKind::ALL.map(PartKind::table));
    document.only_keys(&known, findings);
    parts.about.extend(document.table("about", findings));
    parts
        .enclosure
        .extend(document.tables("enclosure", findings));
    parts.terminal.extend(document.tables("terminal", findings));
    parts
        .accessory
        .extend(document.tables("accessory", findings));
    parts.rail.extend(document.tables("rail", findings));
    parts.gland.extend(document.tables("gland", findings));
    parts.plug.extend(document.tables("plug", findings));
    parts.adapter.extend(document.tables("adapter", findings));
    parts.element.extend(document.tables("element", findings));
    parts
        .contact_block
        .extend(document.tables("contact_block", findings));
    for kind in PartKind::ALL {
        let ids = document.texts(kind.table(), "id");
        parts.written_ids.extend(ids.into_iter().map(str::to_owned));
    }
}

impl Parts {
    /// Whether a part with this id was read: one that is only written was found faulty.
    pub(super) fn is_sound(&self, id: &str) -> bool {
        fn any<T>(located: &[Located<T>], is: impl Fn(&T) -> bool) -> bool {
            located.iter().any(|part| is(&part.value))
        }
        any(&self.enclosure, |part| part.id == id)
            || any(&self.terminal, |part| part.id == id)
            || any(&self.accessory, |part| part.id == id)
            || any(&self.rail, |part| part.id == id)
            || any(&self.gland, |part| part.id == id)
            || any(&self.plug, |part| part.id == id)
            || any(&self.adapter, |part| part.id == id)
            || any(&self.element, |part| part.id == id)
            || any(&self.contact_block, |part| part.id == id)
    }

    fn into_catalogue(self) -> Catalogue {
        fn values<T>(located: Vec<Located<T>>) -> Vec<T> {
            located.into_iter().map(|part| part.value).collect()
        }
        Catalogue {
            about: values(self.about).into_iter().next().unwrap_or_default(),
            enclosure: values(self.enclosure),
            terminal: values(self.terminal),
            accessory: values(self.accessory),
            rail: values(self.rail),
            gland: values(self.gland),
            plug: values(self.plug),
            adapter: values(self.adapter),
            element: values(self.element),
            contact_block: values(self.contact_block),
        }
    }
}
