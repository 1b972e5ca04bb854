//! A paper that was given: who has it, what is right on it, how it was judged.

use super::key::{self, Row};
use crate::failure::Failure;
use assessment::fair::Paper;
use assessment::issue::Issue;
use assessment::ledger::{Entry, Ledger};
use assessment::set::SetPaper;

/// A paper that was given.
#[derive(Debug)]
pub struct Given {
    /// The student's id, or the name of the form.
    pub student: String,
    /// Its line of the ledger.
    pub entry: Entry,
    /// What is right on it.
    pub key: Vec<Row>,
    /// The paper, judged, with its number as its label.
    pub paper: Paper,
}

/// A paper of the ledger, with the text of its own lesson file.
#[derive(Debug)]
pub struct Written<'a> {
    /// The student's id, or the name of the form.
    pub student: &'a str,
    /// Its line of the ledger.
    pub entry: &'a Entry,
    /// The lesson file.
    pub text: String,
}

impl<'a> Written<'a> {
    /// All papers of a ledger, by student.
    ///
    /// # Errors
    /// [`Failure::Asked`] where the lesson has changed so that a paper cannot be written any more.
    pub fn all(issue: &Issue, ledger: &'a Ledger) -> Result<Vec<Self>, Failure> {
        let written = |(student, entry): (&'a str, &'a Entry)| {
            let text = issue.papers().text(&entry.draw);
            let text = text.map_err(|fault| unsound(issue, student, entry, &fault.to_string()))?;
            Ok(Self { student, entry, text })
        };
        ledger.papers().map(written).collect()
    }

    /// Where its lesson file is in the folder.
    pub fn lesson_file(&self) -> String {
        format!("lessons/{}.toml", self.entry.number)
    }

    /// Reads the paper and sets its questions.
    ///
    /// # Errors
    /// [`Failure::Asked`] where the lesson has changed so that the paper is no sound lesson any more.
    pub fn set(&self, issue: &Issue) -> Result<(SetPaper, Given), Failure> {
        let looked = issue.look(&self.entry.draw);
        let unsound = |why: &str| unsound(issue, self.student, self.entry, why);
        let reading =
            issue.papers().reading(&self.entry.draw).map_err(|fault| unsound(&fault.to_string()))?;
        let (Some(paper), Some((lesson, solved))) = (&looked.paper, reading.lesson.zip(reading.solved))
        else {
            let why: Vec<String> = looked.against.iter().map(ToString::to_string).collect();
            return Err(unsound(&why.join("; ")));
        };
        let set = SetPaper::judged(lesson, solved, &paper.judgements).map_err(|faults| {
            let why: Vec<String> = faults.iter().map(ToString::to_string).collect();
            unsound(&why.join("; "))
        })?;
        let given = Given {
            student: self.student.to_owned(),
            entry: self.entry.clone(),
            key: key::rows(&set),
            paper: Paper { label: self.entry.number.to_string(), ..paper.clone() },
        };
        Ok((set, given))
    }
}

fn unsound(issue: &Issue, student: &str, entry: &Entry, why: &str) -> Failure {
    let choices = issue.papers().words(&entry.draw).join(", ");
    Failure::Asked(format!(
        "the paper of {student:?} ({choices}) cannot be made from the lesson as it is now: {why}\n  to mend it: put the lesson back \
         as it was when the paper was drawn"
    ))
}
