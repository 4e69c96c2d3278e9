//! One text file as read: its name, its text and where its lines begin. Knows no file format.

use std::fmt;
use std::io::Read;
use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};

use super::finding::Finding;

/// A stretch of a file's text, as byte offsets into [`SourceFile::text`].
pub type Span = std::ops::Range<usize>;

/// Larger files are refused: no list written by people comes near, and a wrongly named file (a
/// drawing, a disk image) should give a message rather than fill the memory.
pub const LARGEST_FILE_BYTES: u64 = 64 * 1024 * 1024;

/// Why a file could not be read.
#[derive(Debug, thiserror::Error)]
pub enum SourceError {
    /// There is nothing at this path.
    #[error("`{}` does not exist", .path.display())]
    Missing {
        /// The path as given.
        path: PathBuf,
    },
    /// The path leads to a folder.
    #[error("`{}` is a folder, not a file", .path.display())]
    Folder {
        /// The path as given.
        path: PathBuf,
    },
    /// The file is larger than [`LARGEST_FILE_BYTES`].
    #[error("`{}` is larger than {} MiB", .path.display(), .limit_bytes / (1024 * 1024))]
    TooLarge {
        /// The path as given.
        path: PathBuf,
        /// The largest size that is read, in bytes.
        limit_bytes: u64,
    },
    /// The file is not UTF-8 text.
    #[error("`{}` is not UTF-8 text (line {line}, byte {byte} of that line)", .path.display())]
    NotUtf8 {
        /// The path as given.
        path: PathBuf,
        /// Line of the first byte that is not UTF-8, from 1.
        line: usize,
        /// Which byte of that line it is, from 1.
        byte: usize,
    },
    /// The operating system refused.
    #[error("`{}` cannot be read", .path.display())]
    Unreadable {
        /// The path as given.
        path: PathBuf,
        /// What the operating system said.
        source: std::io::Error,
    },
}

impl SourceError {
    /// The path that was asked for.
    pub fn path(&self) -> &Path {
        match self {
            Self::Missing { path }
            | Self::Folder { path }
            | Self::TooLarge { path, .. }
            | Self::NotUtf8 { path, .. }
            | Self::Unreadable { path, .. } => path,
        }
    }

    /// The same as a finding, so that it can stand in one list with those of other files.
    pub fn finding(&self) -> Finding {
        let file = SourceFile::from_text(self.path().display().to_string(), "");
        let message = match self {
            Self::Unreadable { source, .. } => format!("{self}: {source}"),
            _ => self.to_string(),
        };
        let finding = Finding::error("source-file", &file, None, message);
        match self {
            Self::Missing { .. } => finding.hint("check the path, or the folder you are in"),
            Self::NotUtf8 { .. } => finding.hint("save the file with the encoding UTF-8"),
            _ => finding,
        }
    }
}

/// One text file as read.
pub struct SourceFile {
    /// The path as the user gave it, or another name to show in messages.
    pub name: String,
    /// The text, without a byte order mark.
    pub text: Arc<str>,
    /// Byte offset at which each line begins; found when first asked for.
    line_starts: OnceLock<Vec<usize>>,
}

impl SourceFile {
    /// Reads the file at `path`.
    ///
    /// # Errors
    /// If it is missing, a folder, larger than [`LARGEST_FILE_BYTES`], not UTF-8, or refused by
    /// the operating system.
    pub fn read(path: impl AsRef<Path>) -> Result<Arc<Self>, SourceError> {
        Self::read_up_to(path.as_ref(), LARGEST_FILE_BYTES)
    }

    fn read_up_to(path: &Path, limit_bytes: u64) -> Result<Arc<Self>, SourceError> {
        let owned = || path.to_path_buf();
        let refused = |source: std::io::Error| match source.kind() {
            std::io::ErrorKind::NotFound => SourceError::Missing { path: owned() },
            std::io::ErrorKind::IsADirectory => SourceError::Folder { path: owned() },
            _ => SourceError::Unreadable {
                path: owned(),
                source,
            },
        };
        // Asked before opening: on some systems opening a folder fails as "permission denied".
        if std::fs::metadata(path).map_err(refused)?.is_dir() {
            return Err(SourceError::Folder { path: owned() });
        }
        let file = std::fs::File::open(path).map_err(refused)?;
        // Counted while reading: a pipe has no size to ask for.
        let mut bytes = Vec::new();
        file.take(limit_bytes + 1)
            .read_to_end(&mut bytes)
            .map_err(refused)?;
        if bytes.len() as u64 > limit_bytes {
            return Err(SourceError::TooLarge {
                path: owned(),
                limit_bytes,
            });
        }
        match String::from_utf8(bytes) {
            Ok(text) => Ok(Self::from_text(path.display().to_string(), text)),
            Err(error) => {
                let good = &error.as_bytes()[..error.utf8_error().valid_up_to()];
                let line_start = good
                    .iter()
                    .rposition(|b| *b == b'\n')
                    .map_or(0, |at| at + 1);
                Err(SourceError::NotUtf8 {
                    path: owned(),
                    line: good.iter().filter(|b| **b == b'\n').count() + 1,
                    byte: good.len() - line_start + 1,
                })
            }
        }
    }

    /// A file that is already in memory. A leading byte order mark is dropped, so that column 1
    /// of line 1 is the first character that can be seen.
    pub fn from_text(name: impl Into<String>, text: impl Into<String>) -> Arc<Self> {
        let text = text.into();
        let text = text.strip_prefix('\u{feff}').unwrap_or(&text);
        Arc::new(Self {
            name: name.into(),
            text: Arc::from(text),
            line_starts: OnceLock::new(),
        })
    }

    fn line_starts(&self) -> &[usize] {
        self.line_starts.get_or_init(|| {
            let after_breaks = self
                .text
                .bytes()
                .enumerate()
                .filter(|(_, byte)| *byte == b'\n');
            std::iter::once(0)
                .chain(after_breaks.map(|(at, _)| at + 1))
                .collect()
        })
    }

    /// Number of lines; an empty file has one.
    pub fn line_count(&self) -> usize {
        self.line_starts().len()
    }

    /// Line and column of a byte offset, both from 1; the column counts characters. Offsets past
    /// the end, or inside a character, count as the next place before them.
    pub fn line_column(&self, offset: usize) -> (usize, usize) {
        let mut offset = offset.min(self.text.len());
        while !self.text.is_char_boundary(offset) {
            offset -= 1;
        }
        let starts = self.line_starts();
        let line = starts.partition_point(|start| *start <= offset);
        let column = self.text[starts[line - 1]..offset].chars().count() + 1;
        (line, column)
    }

    /// Where a line (from 1) stands, without its line break. Lines past the end are empty.
    pub fn line_span(&self, line: usize) -> Span {
        let starts = self.line_starts();
        let Some(start) = line
            .checked_sub(1)
            .and_then(|index| starts.get(index))
            .copied()
        else {
            return self.text.len()..self.text.len();
        };
        let end = starts.get(line).copied().unwrap_or(self.text.len());
        start..start + self.text[start..end].trim_end_matches(['\n', '\r']).len()
    }

    /// The text of a line (from 1), without its line break.
    pub fn line(&self, line: usize) -> &str {
        &self.text[self.line_span(line)]
    }

    /// The text at a span; empty if the span does not fit the text.
    pub fn at(&self, span: &Span) -> &str {
        self.text.get(span.clone()).unwrap_or("")
    }
}

/// Shows the name and the size only: findings hold files, and their debug output should be short.
impl fmt::Debug for SourceFile {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "SourceFile({:?}, {} bytes)", self.name, self.text.len())
    }
}

/// Two files are the same if name and text are.
impl PartialEq for SourceFile {
    fn eq(&self, other: &Self) -> bool {
        self.name == other.name && self.text == other.text
    }
}

impl Eq for SourceFile {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_and_columns_count_characters_and_survive_crlf() {
        let file = SourceFile::from_text("list.toml", "a = 1\r\nµ = \"°C\"\r\n\r\nend");
        assert_eq!(file.line_count(), 4);
        assert_eq!(file.line(2), "µ = \"°C\"");
        assert_eq!(file.line(3), "");
        assert_eq!(file.line(4), "end");
        assert_eq!(file.line(9), "");
        assert_eq!(file.line(0), "");
        let quote = file.text.find('"').unwrap();
        assert_eq!(file.line_column(quote), (2, 5));
        assert_eq!(file.line_column(usize::MAX), (4, 4));
        // Inside the two bytes of `µ`: its own column.
        assert_eq!(file.line_column(8), (2, 1));
    }

    #[test]
    fn a_byte_order_mark_is_dropped() {
        let file = SourceFile::from_text("list.toml", "\u{feff}a = 1");
        assert_eq!(&*file.text, "a = 1");
    }

    #[test]
    fn an_empty_file_is_read_as_one_empty_line() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("empty.toml");
        std::fs::write(&path, "").unwrap();
        let file = SourceFile::read(&path).unwrap();
        assert_eq!((file.line_count(), file.line_column(0)), (1, (1, 1)));
    }

    #[test]
    fn what_cannot_be_read_says_why() {
        let folder = tempfile::tempdir().unwrap();
        let missing = SourceFile::read(folder.path().join("no.toml")).unwrap_err();
        assert!(matches!(missing, SourceError::Missing { .. }));
        assert!(missing.to_string().ends_with("no.toml` does not exist"));

        let is_folder = SourceFile::read(folder.path()).unwrap_err();
        assert!(matches!(is_folder, SourceError::Folder { .. }));
        assert!(
            is_folder
                .finding()
                .message
                .ends_with("is a folder, not a file")
        );

        let latin = folder.path().join("latin1.toml");
        std::fs::write(&latin, b"a = 1\nb = \"20 \xb0C\"\n").unwrap();
        let error = SourceFile::read(&latin).unwrap_err();
        assert!(
            matches!(
                error,
                SourceError::NotUtf8 {
                    line: 2,
                    byte: 9,
                    ..
                }
            ),
            "{error:?}"
        );
        assert_eq!(
            error.finding().hint.as_deref(),
            Some("save the file with the encoding UTF-8")
        );

        let large = folder.path().join("large.toml");
        std::fs::write(&large, "0123456789").unwrap();
        assert!(SourceFile::read_up_to(&large, 10).is_ok());
        let error = SourceFile::read_up_to(&large, 9).unwrap_err();
        assert!(matches!(
            error,
            SourceError::TooLarge { limit_bytes: 9, .. }
        ));
    }
}
