//! The folder that a set is written into, and the earlier set that it may hold. Holds no calculation.

use super::Failure;
use crate::letters::plural;
use crate::sheets::{CONTENTS, Contents};
use crate::source::{SourceFile, replace_folder};
use itertools::Itertools;
use std::collections::BTreeSet;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Writes a set into a folder in place of the earlier one that its list of contents tells of, all or nothing. Says that
/// it wrote `words`, and what of the earlier set it removed.
pub(super) fn replace(
    folder: &Path,
    files: Vec<(PathBuf, Vec<u8>)>,
    words: &str,
    talk: &mut dyn Write,
) -> Result<(), Failure> {
    let names: BTreeSet<&Path> = files.iter().map(|(name, _)| name.as_path()).collect();
    let places: BTreeSet<&Path> = names.iter().filter_map(|name| name.parent()).collect();
    let mut earlier = Vec::new();
    for place in places {
        if let Some(contents) = read(&folder.join(place))? {
            earlier.push((place.to_path_buf(), contents));
        }
    }
    let stale: Vec<PathBuf> = earlier
        .iter()
        .flat_map(|(place, contents)| contents.files.iter().map(move |file| place.join(file)))
        .filter(|name| !names.contains(name.as_path()) && !is_list(name))
        .unique()
        .collect();
    let has_two = names.contains(Path::new(BOXES[0].1));
    let removed = replace_folder(folder, files, &stale)?;
    writeln!(talk, "written to {}: {words}", folder.display())?;
    if !removed.is_empty() {
        let count = removed.len();
        let files = plural(count, "file", "files");
        let of = earlier.iter().map(|(_, contents)| &contents.of);
        let of = in_brackets(&of.filter(|of| !of.is_empty()).unique().join("; "));
        let names = removed.iter().map(|name| name.display()).join(", ");
        writeln!(
            talk,
            "removed from {}: {count} {files} of an earlier set{of} that the new one does not have: {names}",
            folder.display()
        )?;
    }
    if !has_two {
        tell_of_two(folder, &earlier, talk)?;
    }
    Ok(())
}

/// Folders of the two boxes of a divided list, and their lists.
const BOXES: [(&str, &str); 2] = [("box-1", "box-1.toml"), ("box-2", "box-2.toml")];

/// A list may have been changed by its user, so it is never removed.
fn is_list(name: &Path) -> bool {
    name.extension().is_some_and(|end| end == "toml")
}

/// Tells of sets in the folders of an earlier answer in two boxes, which the new one does not go into.
fn tell_of_two(
    folder: &Path,
    earlier: &[(PathBuf, Contents)],
    talk: &mut dyn Write,
) -> io::Result<()> {
    let files = earlier.iter().flat_map(|(_, contents)| &contents.files);
    let files: BTreeSet<&str> = files.map(String::as_str).collect();
    for (place, list) in BOXES {
        if files.contains(list) {
            tell_if_there(&folder.join(place), "this answer", talk)?;
        }
    }
    Ok(())
}

/// Says of a folder for an answer, where none was found, that it still holds the set of an earlier one.
pub(super) fn tell_of_earlier(folder: Option<&Path>, talk: &mut dyn Write) -> io::Result<()> {
    match folder {
        Some(folder) => tell_if_there(folder, "the answer to this list", talk),
        None => Ok(()),
    }
}

fn tell_if_there(folder: &Path, not_of: &str, talk: &mut dyn Write) -> io::Result<()> {
    // What is not a set of ours is nothing to be told of, as nothing is written over it.
    let Ok(Some(contents)) = read(folder) else {
        return Ok(());
    };
    writeln!(
        talk,
        "{} still holds the set of an earlier answer{}, which is not {not_of}",
        folder.display(),
        in_brackets(&contents.of)
    )
}

fn in_brackets(words: &str) -> String {
    match words {
        "" => String::new(),
        words => format!(" ({words})"),
    }
}

/// The list of contents of a folder, if there is one; another file of that name is not written over.
fn read(folder: &Path) -> Result<Option<Contents>, Failure> {
    let path = folder.join(CONTENTS);
    if !path.is_file() {
        return Ok(None);
    }
    let contents = SourceFile::read(&path)
        .ok()
        .and_then(|file| Contents::read(&file));
    match contents {
        Some(contents) => Ok(Some(contents)),
        None => Err(Failure::Input(format!(
            "`{}` is not the list of contents of a set written by glandrail, and would be written over; nothing was \
             written: move it or choose another folder",
            path.display()
        ))),
    }
}
