//! The lesson file while it is served: read whole, written whole or not at all, and never over a change unseen.

use crate::failure::in_words;
use crate::output::readable_by_all;
use sha2::{Digest as _, Sha256};
use std::fs;
use std::io::{self, ErrorKind, Read as _, Write as _};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

/// The longest lesson that is read or written, in bytes. A lesson has some kilobytes; this keeps a stray file from
/// filling the memory.
pub const LONGEST: u64 = 4 * 1024 * 1024;

/// The one lesson file.
#[derive(Debug)]
pub struct LessonFile {
    /// Where it really stands: a link is followed once, at the start, so that saving does not put a file in its place.
    path: PathBuf,
    /// Held while saving, so that of two boards one sees what the other has saved.
    saving: Mutex<()>,
}

/// What the file holds now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Content {
    /// The text.
    pub text: String,
    /// Its [`tag`].
    pub tag: String,
}

/// Why there is no content.
#[derive(Debug)]
pub enum Unread {
    /// No file is there.
    Gone,
    /// There is one, which cannot be read as a lesson, whatever version of it.
    Unusable {
        /// Its [`tag`], where its bytes could be read.
        tag: Option<String>,
        /// Why, in words.
        why: String,
    },
}

/// What the file must be for a save to take place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Condition {
    /// It has this tag still.
    Still(String),
    /// No file is there.
    Absent,
}

/// Why a text was not saved. The file is as it was.
#[derive(Debug)]
pub enum Unsaved {
    /// The file is not what the condition says; with its tag now, where there is a file.
    Changed(Option<String>),
    /// The system refused.
    Refused(String),
}

/// The mark of a content, as HTTP writes it (RFC 9110, section 8.8.3): the SHA-256 of its bytes in quotes.
pub fn tag(bytes: &[u8]) -> String {
    format!("\"{}\"", super::hexadecimal(&Sha256::digest(bytes)))
}

impl LessonFile {
    /// The lesson file at `path`.
    ///
    /// # Errors
    /// Where there is none, or it cannot be read, or is longer than [`LONGEST`], or no text.
    pub fn at(path: &Path) -> io::Result<Self> {
        let file = Self { path: fs::canonicalize(path)?, saving: Mutex::new(()) };
        String::from_utf8(file.bytes()?).map_err(|_| io::Error::from(ErrorKind::InvalidData))?;
        Ok(file)
    }

    /// What the file holds now.
    ///
    /// # Errors
    /// Where it has gone, or cannot be read as text.
    pub fn read(&self) -> Result<Content, Unread> {
        let bytes = self.bytes().map_err(|error| match error.kind() {
            ErrorKind::NotFound => Unread::Gone,
            _ => Unread::Unusable { tag: None, why: in_words(&error) },
        })?;
        let tag = tag(&bytes);
        match String::from_utf8(bytes) {
            Ok(text) => Ok(Content { text, tag }),
            Err(_) => Err(Unread::Unusable {
                tag: Some(tag),
                why: in_words(&io::Error::from(ErrorKind::InvalidData)),
            }),
        }
    }

    /// The tag of what the file holds now; none where there is no file, or none that can be read.
    pub fn tag_now(&self) -> Option<String> {
        self.bytes().ok().map(|bytes| tag(&bytes))
    }

    /// Puts `text` into the file's place, whole or not at all; gives its tag. The file keeps its permissions; a file
    /// that may only be read is left alone.
    ///
    /// # Errors
    /// Where the condition does not hold (looked at last of all, right before the text takes its place), or the
    /// system refuses.
    pub fn save(&self, text: &str, condition: &Condition) -> Result<String, Unsaved> {
        let refused = |error: io::Error| Unsaved::Refused(in_words(&error));
        // A save that broke off has left the file whole: there is nothing to mend behind a poisoned lock.
        let _saving = self.saving.lock().unwrap_or_else(PoisonError::into_inner);
        self.holds(condition)?;
        let folder = self.path.parent().unwrap_or(Path::new("."));
        let mut new = tempfile::Builder::new().prefix(".glueline-").tempfile_in(folder).map_err(refused)?;
        new.write_all(text.as_bytes()).map_err(refused)?;
        match condition {
            Condition::Still(_) => {
                let permissions = fs::metadata(&self.path).map_err(refused)?.permissions();
                if permissions.readonly() {
                    return Err(refused(ErrorKind::PermissionDenied.into()));
                }
                new.as_file().set_permissions(permissions).map_err(refused)?;
                new.as_file().sync_all().map_err(refused)?;
                self.holds(condition)?;
                new.persist(&self.path).map_err(|error| refused(error.error))?;
            }
            Condition::Absent => {
                readable_by_all(new.as_file()).map_err(refused)?;
                new.as_file().sync_all().map_err(refused)?;
                new.persist_noclobber(&self.path).map_err(|error| match error.error.kind() {
                    ErrorKind::AlreadyExists => Unsaved::Changed(self.tag_now()),
                    _ => refused(error.error),
                })?;
            }
        }
        Ok(tag(text.as_bytes()))
    }

    fn holds(&self, condition: &Condition) -> Result<(), Unsaved> {
        let now = match self.bytes() {
            Ok(bytes) => Some(tag(&bytes)),
            Err(error) if error.kind() == ErrorKind::NotFound => None,
            Err(error) => return Err(Unsaved::Refused(in_words(&error))),
        };
        let holds = match condition {
            Condition::Still(tag) => now.as_ref() == Some(tag),
            Condition::Absent => now.is_none(),
        };
        if holds { Ok(()) } else { Err(Unsaved::Changed(now)) }
    }

    fn bytes(&self) -> io::Result<Vec<u8>> {
        // Looked at before it is opened: opening a pipe would wait for somebody to write to it.
        let kind = fs::metadata(&self.path)?;
        if kind.is_dir() {
            return Err(io::Error::from(ErrorKind::IsADirectory));
        }
        if !kind.is_file() {
            return Err(io::Error::other("it is no file"));
        }
        let mut bytes = Vec::new();
        fs::File::open(&self.path)?.take(LONGEST + 1).read_to_end(&mut bytes)?;
        if bytes.len() as u64 > LONGEST {
            return Err(io::Error::other("it is longer than 4 MB, and no lesson is"));
        }
        Ok(bytes)
    }
}
