//! The secret of the term: a file beside the lesson that draws every paper, and that no paper shows.

use crate::failure::{Failure, in_words};
use crate::output::Refusal;
use assessment::secret::ExamSecret;
use std::fmt::Write as _;
use std::fs;
use std::io::{ErrorKind, Write as _};
use std::path::{Path, PathBuf};

/// What it is called beside the lesson: one for all lessons of a folder.
const NAME: &str = "term.secret";

/// Random bytes of a new secret: as many as the function that it keys gives.
const BYTES: usize = 32;

/// Where the secret is: named, or else beside the lesson.
pub fn place(named: Option<&Path>, lesson: &Path) -> PathBuf {
    match named {
        Some(path) => path.to_owned(),
        None => lesson.with_file_name(NAME),
    }
}

/// Reads the secret; none where there is no such file.
///
/// # Errors
/// [`Failure::Unread`], or [`Failure::Asked`] where the file is too short to be a secret.
pub fn read(path: &Path) -> Result<Option<ExamSecret>, Failure> {
    let bytes = match fs::read(path) {
        Ok(bytes) => bytes,
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(None),
        Err(error) => return Err(Failure::Unread(path.to_owned(), error)),
    };
    warn_of_readers(path);
    // An editor may have added a mark before it and a line end after it.
    let bytes = bytes.strip_prefix("\u{feff}".as_bytes()).unwrap_or(&bytes);
    let secret = ExamSecret::new(bytes.trim_ascii()).map_err(|short| {
        Failure::Asked(format!(
            "{}: {short}\n  to mend it: take the last good copy of it; where no paper was drawn with it yet, delete it",
            path.display()
        ))
    })?;
    Ok(Some(secret))
}

/// Makes a secret of the system's own random numbers, to be read by its owner alone, and says so.
///
/// # Errors
/// Where the system has no random numbers, or the file cannot be written.
pub fn make(path: &Path) -> Result<ExamSecret, Failure> {
    let mut bytes = [0; BYTES];
    getrandom::fill(&mut bytes)
        .map_err(|error| Failure::Ours(format!("the system has no random numbers: {error}")))?;
    let mut text = bytes.iter().fold(String::new(), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    });
    text.push('\n');
    let system = |error| Refusal::System { path: path.to_owned(), error };
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    // Private to its owner from the first moment, and never over another secret.
    let mut file = tempfile::Builder::new().prefix(".glueline-").tempfile_in(folder).map_err(system)?;
    file.write_all(text.as_bytes()).map_err(system)?;
    file.as_file().sync_all().map_err(system)?;
    match file.persist_noclobber(path) {
        Ok(_) => anstream::eprintln!(
            "wrote {}: the secret that draws the papers of this term. Keep it, and a copy of it: with it and the lessons \
             every paper can be drawn again. Show it to no student.",
            path.display()
        ),
        // Another run has made it in the meantime.
        Err(refused) if refused.error.kind() == ErrorKind::AlreadyExists => {}
        Err(refused) => return Err(system(refused.error).into()),
    }
    read(path)?.ok_or_else(|| Failure::Unread(path.to_owned(), ErrorKind::NotFound.into()))
}

/// Says so where others of the machine may read the secret.
#[cfg(unix)]
fn warn_of_readers(path: &Path) {
    use std::os::unix::fs::PermissionsExt as _;
    match fs::metadata(path) {
        Ok(about) if about.permissions().mode() & 0o077 != 0 => anstream::eprintln!(
            "warning: others on this machine may read {path}; to mend it: chmod 600 {path}",
            path = path.display()
        ),
        Ok(_) => {}
        Err(error) => anstream::eprintln!("warning: {}: {}", path.display(), in_words(&error)),
    }
}

#[cfg(not(unix))]
fn warn_of_readers(_: &Path) {}
