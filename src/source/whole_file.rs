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
    replace_folder(folder, files, &[]).map(drop)
}

/// Writes a set of files as [`write_folder`] does, and takes away those `stale` files of the folder that are there and
/// that the set has not written; they go when all of the set stand. Gives the names that were taken away. Should
/// anything fail, they are there again.
///
/// A stale name that is a folder stays, and of a link only the link goes.
///
/// # Errors
/// As [`write_folder`]; a stale name that leads out of the folder is refused too.
pub fn replace_folder<N: AsRef<Path>, C: AsRef<[u8]>>(
    folder: impl AsRef<Path>,
    files: impl IntoIterator<Item = (N, C)>,
    stale: &[PathBuf],
) -> Result<Vec<PathBuf>, WriteError> {
    let folder = folder.as_ref();
    let mut made = MadeFolders::default();
    let mut staged = Vec::new();
    let mut names = BTreeSet::new();
    made.make(folder)?;
    for (name, content) in files {
        let name = name.as_ref();
        check_inside(name)?;
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
    for name in stale {
        check_inside(name)?;
    }
    let targets: BTreeSet<PathBuf> = staged.iter().map(|file| file.target.clone()).collect();
    let mut replaced = Replaced::default();
    for file in staged {
        replaced.put(file)?;
    }
    let mut taken = Vec::new();
    for name in stale {
        let path = folder.join(name);
        // A file of the set may be a link that leads to a stale name.
        let is_written = std::fs::canonicalize(&path).is_ok_and(|real| targets.contains(&real));
        let is_file = std::fs::symlink_metadata(&path).is_ok_and(|there| !there.is_dir());
        if is_file && !is_written {
            replaced.take_away(path)?;
            taken.push(name.clone());
        }
    }
    replaced.keep();
    made.keep();
    Ok(taken)
}

fn check_inside(name: &Path) -> Result<(), WriteError> {
    let is_inside = name
        .components()
        .all(|part| matches!(part, Component::Normal(_)));
    if is_inside && name.file_name().is_some() {
        return Ok(());
    }
    Err(WriteError::Outside {
        name: name.to_path_buf(),
    })
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

/// Files already renamed into place or away, undone when dropped unless kept.
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

    /// Takes a file away under another name, which goes for good when this is kept.
    fn take_away(&mut self, target: PathBuf) -> Result<(), WriteError> {
        let aside = temporary_beside(&target)
            .map_err(refused(&target))?
            .into_temp_path();
        std::fs::rename(&target, &aside).map_err(refused(&target))?;
        self.done.push((target, Some(aside)));
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
mod tests;
