//! Writing files: whole or not at all, and never over another file in silence.

use crate::failure::in_words;
use std::fs;
use std::io::Write as _;
use std::path::{Path, PathBuf};

/// What may happen to a file that is already there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Existing {
    /// Refuse to touch it.
    Keep,
    /// Replace it, and say so.
    Replace,
}

/// Why a file was not written.
#[derive(Debug)]
pub enum Refusal {
    /// There is another file of that name, and replacing was not asked for.
    Exists(PathBuf),
    /// There is a lesson of that name, which only the lecturer may take away.
    Lesson(PathBuf),
    /// The lesson was changed by somebody else since it was read.
    Changed(PathBuf),
    /// The system refused.
    System {
        /// Which file.
        path: PathBuf,
        /// What the system said.
        error: std::io::Error,
    },
}

impl std::fmt::Display for Refusal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Exists(path) => write!(
                f,
                "{} is already there, with other content, and was left as it is\n  to mend it: add --replace to write it anew, or name another place to write to",
                path.display()
            ),
            Self::Lesson(path) => write!(
                f,
                "{} is already there and was left as it is\n  to mend it: give your new lesson another name",
                path.display()
            ),
            Self::Changed(path) => write!(
                f,
                "{} was changed in the meantime and was left as it is\n  to mend it: run the same again",
                path.display()
            ),
            Self::System { path, error } => {
                write!(f, "{} could not be written: {}", path.display(), in_words(error))
            }
        }
    }
}

/// What became of a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// It was not there before.
    New,
    /// It took the place of another, as asked.
    Replaced,
    /// The file was there with the very same content.
    Unchanged,
}

impl Outcome {
    /// The word before the file's name in what the command prints.
    pub fn word(self) -> &'static str {
        match self {
            Self::New => "wrote",
            Self::Replaced => "replaced",
            Self::Unchanged => "unchanged",
        }
    }
}

/// Writes `content` to `path` through a temporary file beside it and a rename, so that a run that is cut short
/// leaves the old file or the new one, never a half.
///
/// # Errors
/// [`Refusal::Exists`] where another content is there and `existing` says to keep it; [`Refusal::System`] otherwise.
pub fn write(path: &Path, content: &[u8], existing: Existing) -> Result<Outcome, Refusal> {
    let system = |error| Refusal::System { path: path.to_owned(), error };
    let was_there = match fs::read(path) {
        Ok(old) if old == content => return Ok(Outcome::Unchanged),
        Ok(_) => true,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => false,
        Err(error) => return Err(system(error)),
    };
    if was_there && existing == Existing::Keep {
        return Err(Refusal::Exists(path.to_owned()));
    }
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    fs::create_dir_all(folder).map_err(system)?;
    let mut file = tempfile::Builder::new().prefix(".glueline-").tempfile_in(folder).map_err(system)?;
    file.write_all(content).map_err(system)?;
    file.as_file().sync_all().map_err(system)?;
    readable_by_all(file.as_file()).map_err(system)?;
    if existing == Existing::Replace {
        file.persist(path).map_err(|e| system(e.error))?;
    } else {
        // Another program may have written it since we looked.
        file.persist_noclobber(path).map_err(|e| match e.error.kind() {
            std::io::ErrorKind::AlreadyExists => Refusal::Exists(path.to_owned()),
            _ => system(e.error),
        })?;
    }
    Ok(if was_there { Outcome::Replaced } else { Outcome::New })
}

/// A temporary file is private to its owner; a handout is not.
///
/// # Errors
/// Where the system refuses.
#[cfg(unix)]
pub fn readable_by_all(file: &fs::File) -> std::io::Result<()> {
    use std::os::unix::fs::PermissionsExt as _;
    file.set_permissions(fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
pub fn readable_by_all(_: &fs::File) -> std::io::Result<()> {
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn another_file_is_never_replaced_unasked() {
        let folder = tempfile::tempdir().expect("a folder for the test");
        let path = folder.path().join("notes.pdf");
        assert_eq!(write(&path, b"one", Existing::Keep).expect("new"), Outcome::New);
        assert_eq!(write(&path, b"one", Existing::Keep).expect("same"), Outcome::Unchanged);
        assert!(matches!(write(&path, b"two", Existing::Keep), Err(Refusal::Exists(_))));
        assert_eq!(fs::read(&path).expect("still there"), b"one");
        assert_eq!(write(&path, b"two", Existing::Replace).expect("asked"), Outcome::Replaced);
        assert_eq!(fs::read(&path).expect("there"), b"two");
        let left = fs::read_dir(folder.path()).expect("folder").count();
        assert_eq!(left, 1, "no temporary file stays behind");
    }

    #[test]
    fn a_folder_in_the_way_is_told() {
        let folder = tempfile::tempdir().expect("a folder for the test");
        assert!(matches!(write(folder.path(), b"x", Existing::Replace), Err(Refusal::System { .. })));
    }
}
