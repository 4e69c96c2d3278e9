//! Output files written whole or not at all. Knows no format.
//!
//! Everything is first written to temporary files in the folder of their target, and renamed only
//! when all is on disk. A reader therefore never sees half a file, and a full disk or a power cut
//! leaves what was there before.

use std::collections::BTreeSet;
use std::io::Write;
use std::path::{Component, Path, PathBuf};

use tempfile::{NamedTempFile, TempPath};

/// Why nothing was written.
#[derive(Debug, thiserror::Error)]
pub enum WriteError {
    /// The operating system refused.
    #[error("`{}` cannot be written: {source}", .path.display())]
    Refused {
        /// The file or folder as asked for.
        path: PathBuf,
        /// What the operating system said.
        source: std::io::Error,
    },
    /// There is a folder where the file should go.
    #[error("`{}` is a folder, not a file", .path.display())]
    Folder {
        /// The path as asked for.
        path: PathBuf,
    },
    /// A name in a set of files leads out of the folder, or names no file.
    #[error("`{}` does not name a file inside the folder", .name.display())]
    Outside {
        /// The name as asked for.
        name: PathBuf,
    },
    /// A name stands twice in a set of files.
    #[error("`{}` would be written twice", .name.display())]
    Twice {
        /// The name as asked for.
        name: PathBuf,
    },
}

impl WriteError {
    /// The path or name that was asked for.
    pub fn path(&self) -> &Path {
        match self {
            Self::Refused { path, .. } | Self::Folder { path } => path,
            Self::Outside { name } | Self::Twice { name } => name,
        }
    }
}

fn refused(path: &Path) -> impl FnOnce(std::io::Error) -> WriteError {
    let path = path.to_path_buf();
    |source| WriteError::Refused { path, source }
}

/// Writes one file whole, or leaves what was there. Its folder must exist.
///
/// A path that leads to a device or a pipe (`/dev/stdout`) is written straight away: there is
/// nothing to replace. A link is followed, and what it leads to is replaced.
///
/// # Errors
/// If the path is a folder or the operating system refuses.
pub fn write_whole(path: impl AsRef<Path>, content: impl AsRef<[u8]>) -> Result<(), WriteError> {
    let path = path.as_ref();
    match std::fs::metadata(path) {
        Ok(there) if there.is_dir() => {
            return Err(WriteError::Folder {
                path: path.to_path_buf(),
            });
        }
        Ok(there) if !there.is_file() => {
            let mut device = std::fs::OpenOptions::new()
                .write(true)
                .open(path)
                .map_err(refused(path))?;
            return device.write_all(content.as_ref()).map_err(refused(path));
        }
        _ => {}
    }
    let staged = Staged::new(path, content.as_ref())?;
    staged
        .file
        .persist(&staged.target)
        .map_err(|error| refused(path)(error.error))
}

/// Writes a set of files into a folder: either all of them are in place afterwards, or none, and
/// what was there before is as it was. Folders are made as needed. Names are relative to the
/// folder and may hold folders themselves, but not lead out of it.
///
/// Should the process itself be killed between the renames, some files are new and some old, each
/// of them whole.
///
/// # Errors
/// If a name leads out of the folder or stands there twice, or the operating system refuses.
pub fn write_folder<N: AsRef<Path>, C: AsRef<[u8]>>(
    folder: impl AsRef<Path>,
    files: impl IntoIterator<Item = (N, C)>,
) -> Result<(), WriteError> {
    let folder = folder.as_ref();
    let mut made = MadeFolders::default();
    let mut staged = Vec::new();
    let mut names = BTreeSet::new();
    made.make(folder)?;
    for (name, content) in files {
        let name = name.as_ref();
        let is_inside = name
            .components()
            .all(|part| matches!(part, Component::Normal(_)));
        if !is_inside || name.file_name().is_none() {
            return Err(WriteError::Outside {
                name: name.to_path_buf(),
            });
        }
        if !names.insert(name.components().collect::<PathBuf>()) {
            return Err(WriteError::Twice {
                name: name.to_path_buf(),
            });
        }
        let target = folder.join(name);
        if let Some(parent) = target.parent() {
            made.make(parent)?;
        }
        if target.is_dir() {
            return Err(WriteError::Folder { path: target });
        }
        staged.push(Staged::new(&target, content.as_ref())?);
    }
    let mut replaced = Replaced::default();
    for file in staged {
        replaced.put(file)?;
    }
    replaced.keep();
    made.keep();
    Ok(())
}

/// A file that is written and only needs its name. Dropped, it vanishes.
struct Staged {
    file: TempPath,
    target: PathBuf,
}

impl Staged {
    fn new(path: &Path, content: &[u8]) -> Result<Self, WriteError> {
        // A link stays a link: what it leads to is replaced.
        let target = std::fs::canonicalize(path).unwrap_or_else(|_| path.to_path_buf());
        let mut file = temporary_beside(&target).map_err(refused(path))?;
        file.write_all(content).map_err(refused(path))?;
        if let Ok(there) = std::fs::metadata(&target) {
            // A file that may not be written to is not replaced behind its owner's back.
            std::fs::OpenOptions::new()
                .append(true)
                .open(&target)
                .map_err(refused(path))?;
            file.as_file()
                .set_permissions(there.permissions())
                .map_err(refused(path))?;
        }
        file.as_file().sync_all().map_err(refused(path))?;
        Ok(Self {
            file: file.into_temp_path(),
            target,
        })
    }
}

/// A temporary file in the folder of `target`, as only there it can be renamed into place.
fn temporary_beside(target: &Path) -> std::io::Result<NamedTempFile> {
    let folder = match target.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let mut builder = tempfile::Builder::new();
    builder.prefix(".unfinished-");
    #[cfg(unix)]
    {
        // The mode any new file gets, less what the user's umask takes away, rather than one that
        // only the owner can read.
        use std::os::unix::fs::PermissionsExt;
        builder.permissions(std::fs::Permissions::from_mode(0o666));
    }
    builder.tempfile_in(folder)
}

/// Files already renamed into place, undone when dropped unless kept.
#[derive(Default)]
struct Replaced {
    /// Each target with its former content under another name, if there was any.
    done: Vec<(PathBuf, Option<TempPath>)>,
}

impl Replaced {
    fn put(&mut self, staged: Staged) -> Result<(), WriteError> {
        let Staged { file, target } = staged;
        // Copied rather than renamed away, so that there is never a moment without the file.
        let mut former = None;
        if target.exists() {
            let aside = temporary_beside(&target)
                .map_err(refused(&target))?
                .into_temp_path();
            std::fs::copy(&target, &aside).map_err(refused(&target))?;
            former = Some(aside);
        }
        file.persist(&target)
            .map_err(|error| refused(&target)(error.error))?;
        self.done.push((target, former));
        Ok(())
    }

    fn keep(mut self) {
        self.done.clear();
    }
}

impl Drop for Replaced {
    fn drop(&mut self) {
        for (target, former) in self.done.drain(..).rev() {
            match former {
                Some(former) => give_back(former, &target),
                // Nothing more can be done about a failure while undoing.
                None => drop(std::fs::remove_file(&target)),
            }
        }
    }
}

/// Puts a former file back; if even that fails it stays under its other name rather than be lost.
fn give_back(former: TempPath, target: &Path) {
    if let Err(error) = former.persist(target) {
        drop(error.path.keep());
    }
}

/// Folders made for a set of files, removed when dropped unless kept.
#[derive(Default)]
struct MadeFolders {
    made: Vec<PathBuf>,
}

impl MadeFolders {
    fn make(&mut self, folder: &Path) -> Result<(), WriteError> {
        let missing: Vec<_> = folder
            .ancestors()
            .take_while(|above| !above.as_os_str().is_empty() && !above.exists())
            .collect();
        for above in missing.into_iter().rev() {
            std::fs::create_dir(above).map_err(refused(above))?;
            self.made.push(above.to_path_buf());
        }
        Ok(())
    }

    fn keep(mut self) {
        self.made.clear();
    }
}

impl Drop for MadeFolders {
    fn drop(&mut self) {
        for folder in self.made.drain(..).rev() {
            // Only empty folders go; one that someone has used meanwhile stays.
            drop(std::fs::remove_dir(folder));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every file below a folder with its text, sorted; folders end in `/`.
    fn listing(folder: &Path) -> Vec<(String, String)> {
        let mut found = Vec::new();
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            if path.is_dir() {
                let inner = listing(&path);
                found.push((format!("{name}/"), String::new()));
                found.extend(
                    inner
                        .into_iter()
                        .map(|(n, text)| (format!("{name}/{n}"), text)),
                );
            } else {
                found.push((name, std::fs::read_to_string(&path).unwrap()));
            }
        }
        found.sort();
        found
    }

    fn pairs(list: &[(&str, &str)]) -> Vec<(String, String)> {
        list.iter()
            .map(|(name, text)| ((*name).to_owned(), (*text).to_owned()))
            .collect()
    }

    #[test]
    fn a_file_is_written_and_replaced_without_remains() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.txt");
        write_whole(&path, "one").unwrap();
        write_whole(&path, "two").unwrap();
        assert_eq!(listing(folder.path()), pairs(&[("a.txt", "two")]));
    }

    #[test]
    fn refusals_name_the_path_and_leave_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let error = write_whole(folder.path(), "x").unwrap_err();
        assert!(matches!(error, WriteError::Folder { .. }));
        let path = folder.path().join("no/such/a.txt");
        let error = write_whole(&path, "x").unwrap_err();
        assert_eq!(error.path(), path);
        assert!(error.to_string().contains("cannot be written"), "{error}");
        assert!(listing(folder.path()).is_empty());
    }

    #[test]
    fn a_set_of_files_is_put_in_place() {
        let folder = tempfile::tempdir().unwrap();
        let out = folder.path().join("new/out");
        write_folder(&out, [("a.txt", "1"), ("views/b.txt", "2")]).unwrap();
        write_folder(&out, [("a.txt", "3"), ("c.txt", "4")]).unwrap();
        assert_eq!(
            listing(&out),
            pairs(&[
                ("a.txt", "3"),
                ("c.txt", "4"),
                ("views/", ""),
                ("views/b.txt", "2")
            ])
        );
    }

    #[test]
    fn names_that_lead_out_or_stand_twice_are_refused() {
        let folder = tempfile::tempdir().unwrap();
        let out = folder.path().join("out");
        for name in ["../a.txt", "/a.txt", "", ".", "b/../../a.txt"] {
            let error = write_folder(&out, [("first.txt", "1"), (name, "2")]).unwrap_err();
            assert!(
                matches!(error, WriteError::Outside { .. }),
                "{name}: {error}"
            );
        }
        let error = write_folder(&out, [("v/a.txt", "1"), ("v//a.txt", "2")]).unwrap_err();
        assert!(matches!(error, WriteError::Twice { .. }), "{error}");
        assert!(
            listing(folder.path()).is_empty(),
            "{:?}",
            listing(folder.path())
        );
    }

    #[test]
    fn a_failure_while_staging_leaves_all_as_it_was() {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join("a.txt"), "old").unwrap();
        std::fs::create_dir(folder.path().join("taken.txt")).unwrap();
        let files = [
            ("a.txt", "new"),
            ("deep/b.txt", "new"),
            ("taken.txt", "new"),
        ];
        let error = write_folder(folder.path(), files).unwrap_err();
        assert!(error.path().ends_with("taken.txt"));
        assert_eq!(
            listing(folder.path()),
            pairs(&[("a.txt", "old"), ("taken.txt/", "")])
        );
    }

    /// The last rename fails because a folder has come up in its place after staging.
    #[test]
    fn a_failure_while_renaming_is_undone() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        std::fs::write(at("a.txt"), "old").unwrap();
        let staged =
            ["a.txt", "b.txt", "c.txt"].map(|name| Staged::new(&at(name), b"new").unwrap());
        std::fs::create_dir_all(at("c.txt/full")).unwrap();
        std::fs::write(at("c.txt/full/x"), "x").unwrap();
        let mut replaced = Replaced::default();
        let [a, b, mut c] = staged;
        replaced.put(a).unwrap();
        replaced.put(b).unwrap();
        assert_eq!(std::fs::read_to_string(at("a.txt")).unwrap(), "new");
        // A target in a folder that is gone cannot be put in place.
        c.target = at("gone/c.txt");
        let error = replaced.put(c).unwrap_err();
        assert!(matches!(error, WriteError::Refused { .. }));
        drop(replaced);
        assert_eq!(
            listing(folder.path()),
            pairs(&[
                ("a.txt", "old"),
                ("c.txt/", ""),
                ("c.txt/full/", ""),
                ("c.txt/full/x", "x")
            ])
        );
    }

    #[cfg(unix)]
    #[test]
    fn links_are_followed_and_modes_kept() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let (real, link) = (
            folder.path().join("real.txt"),
            folder.path().join("link.txt"),
        );
        std::fs::write(&real, "old").unwrap();
        std::fs::set_permissions(&real, std::fs::Permissions::from_mode(0o640)).unwrap();
        std::os::unix::fs::symlink(&real, &link).unwrap();
        write_whole(&link, "new").unwrap();
        assert!(std::fs::symlink_metadata(&link).unwrap().is_symlink());
        assert_eq!(std::fs::read_to_string(&real).unwrap(), "new");
        assert_eq!(
            std::fs::metadata(&real).unwrap().permissions().mode() & 0o777,
            0o640
        );
        write_whole("/dev/null", "gone").unwrap();
    }
}
