//! A paper that was given: who has it, what it says, what it comes to.

use super::key::{self, Row};
use crate::failure::Failure;
use assessment::cores;
use assessment::fair::Paper;
use assessment::issue::Issue;
use assessment::ledger::{Entry, Ledger};

/// A paper that was given.
#[derive(Debug)]
pub struct Given {
    /// The student's id, or the name of the form.
    pub student: String,
    /// Its line of the ledger.
    pub entry: Entry,
    /// Its lesson file.
    pub text: String,
    /// Its key.
    pub key: Vec<Row>,
    /// The paper, judged, with the number of the paper as its label.
    pub paper: Paper,
}

impl Given {
    /// All papers of a ledger, by student.
    ///
    /// # Errors
    /// [`Failure::Asked`] where the lesson has changed so that a paper is no sound lesson any more.
    pub fn all(issue: &Issue, ledger: &Ledger) -> Result<Vec<Self>, Failure> {
        let entries: Vec<(&str, &Entry)> = ledger.papers().collect();
        cores::each(&entries, |(student, entry)| Self::of(issue, student, entry)).into_iter().collect()
    }

    fn of(issue: &Issue, student: &str, entry: &Entry) -> Result<Self, Failure> {
        let papers = issue.papers();
        let unsound = |why: String| {
            let choices = papers.words(&entry.draw).join(", ");
            Failure::Asked(format!(
                "the paper of {student:?} ({choices}) is no sound lesson any more: {why}\n  to mend it: put the lesson back as it \
                 was when the paper was drawn"
            ))
        };
        let text = papers.text(&entry.draw).map_err(|fault| unsound(fault.to_string()))?;
        let looked = issue.look(&entry.draw);
        let solved = papers.reading(&entry.draw).ok().and_then(|reading| reading.solved);
        let (Some(paper), Some(solved)) = (&looked.paper, solved) else {
            let why: Vec<String> = looked.against.iter().map(ToString::to_string).collect();
            return Err(unsound(why.join("; ")));
        };
        let paper = Paper { label: entry.number.to_string(), ..paper.clone() };
        let key = key::rows(&papers.lesson().questions, &solved, &paper.judgements);
        Ok(Self { student: student.to_owned(), entry: entry.clone(), text, key, paper })
    }

    /// Where its lesson file is in the folder.
    pub fn lesson_file(&self) -> String {
        format!("lessons/{}.toml", self.entry.number)
    }
}
