//! What is wrong in a file from outside, where, and how to mend it.

use std::fmt;

/// One thing that is wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The row as a spreadsheet counts it, from 1, the header included; `None` where the whole file is meant.
    pub row: Option<usize>,
    /// The header of the column, as it stands in the file; `None` where no one column is meant.
    pub column: Option<String>,
    /// What is wrong; no full stop.
    pub what: String,
    /// What to do about it; no full stop.
    pub mend: String,
}

impl Fault {
    pub(crate) fn of_file(what: impl Into<String>, mend: impl Into<String>) -> Self {
        Self { row: None, column: None, what: what.into(), mend: mend.into() }
    }

    pub(crate) fn of_row(row: usize, what: impl Into<String>, mend: impl Into<String>) -> Self {
        Self { row: Some(row), ..Self::of_file(what, mend) }
    }

    pub(crate) fn of_cell(
        row: usize,
        column: &str,
        what: impl Into<String>,
        mend: impl Into<String>,
    ) -> Self {
        Self { column: Some(shortened(column)), ..Self::of_row(row, what, mend) }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.row, &self.column) {
            (Some(row), Some(column)) => write!(f, "row {row}, column {column:?}: ")?,
            (Some(row), None) => write!(f, "row {row}: ")?,
            (None, Some(column)) => write!(f, "column {column:?}: ")?,
            (None, None) => {}
        }
        write!(f, "{}\nto mend it: {}", self.what, self.mend)
    }
}

impl std::error::Error for Fault {}

/// Words of the file inside a message: so many that they are known again.
pub(crate) fn shortened(words: &str) -> String {
    const LONGEST: usize = 40; // characters: half a line of a terminal
    match words.char_indices().nth(LONGEST) {
        Some((end, _)) => format!("{}…", &words[..end]),
        None => words.to_owned(),
    }
}
