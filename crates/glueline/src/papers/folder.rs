//! The folder that papers are made in: one run at a time, what is finished kept, nothing of anybody else's touched.

use crate::failure::Failure;
use crate::output::{Existing, Outcome, Refusal, write};
use std::fs::{self, File, TryLockError};
use std::io::ErrorKind;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};

/// Who got which paper; the first file that is written, so that its presence makes the folder one of ours.
pub const LEDGER: &str = "ledger.json";

/// What is being written, and the mark of a run at work, begin so.
const PASSING: &str = ".glueline-";
const LOCK: &str = ".glueline-lock";

/// The folders inside.
pub const FOLDERS: [&str; 4] = ["keys", "lessons", "papers", "to-print"];

/// The folder, while a run works in it.
#[derive(Debug)]
pub struct Folder {
    path: PathBuf,
    /// Held until the run is over.
    lock: File,
    existing: Existing,
    fresh: AtomicUsize,
    unchanged: AtomicUsize,
}

impl Folder {
    /// Opens the folder, or makes it. What an earlier run left half-written is swept away.
    ///
    /// # Errors
    /// Where another run is at work in it, where it holds other things, or the system refuses.
    pub fn open(path: &Path, existing: Existing) -> Result<Self, Failure> {
        let system = |error| Refusal::System { path: path.to_owned(), error };
        fs::create_dir_all(path).map_err(system)?;
        if !path.join(LEDGER).exists() {
            refuse_others(path)?;
        }
        let lock = File::create(path.join(LOCK)).map_err(system)?;
        match lock.try_lock() {
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => {
                let what =
                    format!("another run is making papers in {}; wait until it is done", path.display());
                return Err(Failure::Asked(what));
            }
            // A file system without locks: then nobody can tell.
            Err(TryLockError::Error(_)) => {}
        }
        for inside in [""].into_iter().chain(FOLDERS) {
            sweep(&path.join(inside)).map_err(system)?;
        }
        let (fresh, unchanged) = (AtomicUsize::new(0), AtomicUsize::new(0));
        Ok(Self { path: path.to_owned(), lock, existing, fresh, unchanged })
    }

    /// Whether files that differ are replaced, as asked.
    pub fn replaces(&self) -> bool {
        self.existing == Existing::Replace
    }

    /// Where a file of the folder is.
    pub fn path(&self, name: &str) -> PathBuf {
        self.path.join(name)
    }

    /// The text of a file of the folder; none where it is not there.
    ///
    /// # Errors
    /// [`Failure::Unread`].
    pub fn text(&self, name: &str) -> Result<Option<String>, Failure> {
        let path = self.path(name);
        match fs::read_to_string(&path) {
            Ok(text) => Ok(Some(text)),
            Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
            Err(error) => Err(Failure::Unread(path, error)),
        }
    }

    /// Puts a file that was handed out, or may have been: never over another content unasked.
    ///
    /// # Errors
    /// As [`write`].
    pub fn put(&self, name: &str, content: &[u8]) -> Result<(), Failure> {
        self.count(write(&self.path(name), content, self.existing)?);
        Ok(())
    }

    /// Puts a file that is made anew by each run from what the others say.
    ///
    /// # Errors
    /// As [`write`].
    pub fn renew(&self, name: &str, content: &[u8]) -> Result<(), Failure> {
        self.count(write(&self.path(name), content, Existing::Replace)?);
        Ok(())
    }

    /// Takes files of earlier runs out of a folder inside that is made anew by each run: those that this run did not make.
    ///
    /// # Errors
    /// Where the system refuses.
    pub fn leave_only(&self, inside: &str, names: &[String]) -> Result<(), Failure> {
        let path = self.path(inside);
        let system = |error| Refusal::System { path: path.clone(), error };
        if !path.is_dir() {
            return Ok(());
        }
        for entry in fs::read_dir(&path).map_err(system)? {
            let entry = entry.map_err(system)?;
            let name = format!("{inside}/{}", entry.file_name().to_string_lossy());
            if entry.file_type().map_err(system)?.is_file() && !names.contains(&name) {
                fs::remove_file(entry.path()).map_err(system)?;
            }
        }
        Ok(())
    }

    fn count(&self, outcome: Outcome) {
        let counter = match outcome {
            Outcome::Unchanged => &self.unchanged,
            Outcome::New | Outcome::Replaced => &self.fresh,
        };
        counter.fetch_add(1, Ordering::Relaxed);
    }

    /// How many files this run wrote, and how many were there already.
    pub fn counts(&self) -> (usize, usize) {
        (self.fresh.load(Ordering::Relaxed), self.unchanged.load(Ordering::Relaxed))
    }
}

/// The mark of a run at work goes when the run ends, well or not. One that a killed run left keeps nobody out.
impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_file(self.path(LOCK));
        let _ = self.lock.unlock();
    }
}

/// Refuses a folder with anything in it: without a ledger it is none of ours. What is hidden, as systems leave it, does not
/// count.
fn refuse_others(path: &Path) -> Result<(), Failure> {
    let unread = |error| Failure::Unread(path.to_owned(), error);
    for entry in fs::read_dir(path).map_err(unread)? {
        let name = entry.map_err(unread)?.file_name();
        if !name.to_string_lossy().starts_with('.') {
            return Err(Failure::Asked(format!(
                "{} holds other things ({}) and no {LEDGER}, so papers are not put there\n  to mend it: name a folder that is \
                 empty or not there yet: -o FOLDER",
                path.display(),
                name.to_string_lossy()
            )));
        }
    }
    Ok(())
}

/// Takes away what a run that was cut short was just writing.
fn sweep(folder: &Path) -> std::io::Result<()> {
    let entries = match fs::read_dir(folder) {
        Ok(entries) => entries,
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(()),
        Err(error) => return Err(error),
    };
    for entry in entries {
        let entry = entry?;
        let name = entry.file_name();
        let name = name.to_string_lossy();
        if name.starts_with(PASSING) && name != LOCK && entry.file_type()?.is_file() {
            fs::remove_file(entry.path())?;
        }
    }
    Ok(())
}
