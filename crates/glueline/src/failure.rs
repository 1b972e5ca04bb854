//! What can go wrong in a run, and the exit code that says so.

use crate::output::Refusal;
use std::path::PathBuf;
use std::process::ExitCode;

/// Why a run did not end well.
#[derive(Debug)]
pub enum Failure {
    /// The lesson has mistakes; they have been told. Exit code 1.
    Lesson,
    /// The class list has mistakes: all of them, each with its row and column. Exit code 1.
    List(String),
    /// A file could not be read. Exit code 3.
    Unread(PathBuf, std::io::Error),
    /// A file could not be written. Exit code 3.
    Unwritten(Refusal),
    /// What was asked for on the command line does not fit the lesson. Exit code 2, as for any wrong use.
    Asked(String),
    /// A balance did not close or the typesetter complained: a mistake of ours. Exit code 70.
    Ours(String),
}

impl Failure {
    /// Says on standard error what went wrong.
    pub fn tell(&self) {
        match self {
            Self::Lesson => {}
            Self::Unread(path, error) if error.kind() == std::io::ErrorKind::NotFound => {
                let with_ending = path.with_extension("toml");
                let mend = if with_ending != *path && with_ending.is_file() {
                    format!("did you mean {}?", with_ending.display())
                } else {
                    "look at the name, or make a lesson with: glueline start NAME".to_owned()
                };
                say(&format!("there is no file {}\n  to mend it: {mend}", path.display()));
            }
            Self::Unread(path, error) => {
                say(&format!("{} could not be read: {}", path.display(), in_words(error)));
            }
            Self::Unwritten(refusal) => say(&refusal.to_string()),
            Self::List(what) | Self::Asked(what) => say(what),
            Self::Ours(what) => say(&format!(
                "{what}\n  this is a mistake of Glueline's, not of the lesson; please report it with the lesson file"
            )),
        }
    }

    /// 1 the lesson or the class list, 2 the command line, 3 a file, 70 ourselves.
    pub fn exit_code(&self) -> ExitCode {
        ExitCode::from(match self {
            Self::Lesson | Self::List(_) => 1,
            Self::Asked(_) => 2,
            Self::Unread(..) | Self::Unwritten(_) => 3,
            Self::Ours(_) => 70,
        })
    }
}

/// What the system said of a file, for a reader who knows no system.
pub fn in_words(error: &std::io::Error) -> String {
    use std::io::ErrorKind;
    match error.kind() {
        ErrorKind::NotFound => "its folder does not exist and cannot be made".to_owned(),
        ErrorKind::PermissionDenied => "your account has no right to it here".to_owned(),
        ErrorKind::ReadOnlyFilesystem => "what it stands on can only be read".to_owned(),
        ErrorKind::IsADirectory => "it is a folder, and a file is wanted".to_owned(),
        ErrorKind::NotADirectory => "what should be its folder is a file".to_owned(),
        ErrorKind::StorageFull => "there is no room left".to_owned(),
        ErrorKind::InvalidData => "it is no plain text in UTF-8".to_owned(),
        _ => error.to_string(),
    }
}

impl From<Refusal> for Failure {
    fn from(refusal: Refusal) -> Self {
        Self::Unwritten(refusal)
    }
}

/// One message on standard error, in colour on a terminal only.
fn say(message: &str) {
    let red = anstyle::Style::new().bold().fg_color(Some(anstyle::AnsiColor::Red.into()));
    anstream::eprintln!("{red}error{red:#}: {message}");
}
