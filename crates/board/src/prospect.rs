//! Whether papers can still be made from a lesson that was changed on the board.
//!
//! While a hand moves something only the lesson as it is shown is read. Its papers have other numbers, and what fits on the
//! beam that is shown may stand off a shorter one: at rest this is looked at, and told before anybody saves the lesson and is
//! then refused by the command.

use assessment::issue::{Outlook, Prospect as Draws, Why};
use lesson::Finding;
use lesson::papers::Papers;
use serde::Serialize;

/// What is known so far.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Prospect {
    /// Why no papers can be made, in sentences; empty where nothing is known to stand against them.
    pub why: String,
    /// Whether there is more to be looked at.
    pub more: bool,
}

/// A look ahead at the papers of one text, a little at a time.
#[derive(Clone, Debug)]
pub struct LookAhead(Draws);

impl LookAhead {
    /// Begins with what every command asks: whether the lesson is sound with what else its papers may say.
    ///
    /// # Errors
    /// Why it is not, in sentences.
    pub fn new(text: &str) -> Result<Self, String> {
        Ok(Self(Draws::new(papers_of(text)?)))
    }

    /// Looks at one draw more.
    pub fn further(&mut self) -> Prospect {
        match self.0.further() {
            Outlook::Open => Prospect { why: String::new(), more: true },
            Outlook::Good => Prospect { why: String::new(), more: false },
            Outlook::Hopeless { draws, why } => Prospect { why: hopeless(draws, &why), more: false },
        }
    }
}

/// The papers of a lesson, as the command reads them.
///
/// # Errors
/// Why there are none, in sentences.
pub(crate) fn papers_of(text: &str) -> Result<Papers, String> {
    Papers::read(text, "the lesson").map_err(|findings| findings.first().map(refused).unwrap_or_default())
}

fn refused(finding: &Finding) -> String {
    let mut said = format!(
        "Neither papers nor notes can be made from this lesson as it stands now: {}",
        finding.headline
    );
    if let Some(detail) = &finding.detail {
        said += &format!(" ({detail})");
    }
    said.push('.');
    if let Some(mend) = &finding.mend {
        let end = if mend.ends_with('?') { "" } else { "." };
        said += &format!(" To mend it: {mend}{end}");
    }
    said
}

fn hopeless(draws: usize, Why { reason, draws: against }: &Why) -> String {
    let which = match (*against == draws, draws) {
        (true, 1) => "the only draw".to_owned(),
        (true, _) => format!("all {draws} draws"),
        (false, _) => format!("{against} of {draws} draws"),
    };
    format!(
        "No paper was found for this lesson as it stands now. Against {which}: {reason}. To mend it: require less, or let other \
         values vary."
    )
}
