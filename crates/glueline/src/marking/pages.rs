//! The pages of marking: what each student is told, and the review of the class.

use super::OfStudent;
use super::class::Class;
use crate::failure::Failure;
use crate::output::{Existing, Refusal, write};
use crate::papers::printed::{file_name, typeset};
use crate::papers::progress::Progress;
use crate::written;
use assessment::cores;
use assessment::mark::{Judged, Units};
use assessment::review::{self, MarkedStudent, MatrixFault, Review};
use document::feedback::{Sheet, feedback};
use document::paper::{Form, Who};
use document::review::ByHand;
use document::tree::Document;
use exchange::answers::{Answer, Answers, Read};
use std::collections::BTreeSet;
use std::io::ErrorKind;
use std::path::Path;
use std::sync::atomic::{AtomicUsize, Ordering};

/// The folder of what students are told.
pub const FEEDBACK: &str = "feedback";
/// The review of the class, without its endings.
pub const REVIEW: &str = "review";

/// Writes what each student is told; gives the characters that are missing in the PDFs of each.
///
/// # Errors
/// Where the typesetter complains, or a file cannot be written.
pub fn put_feedback(
    class: &Class,
    marked: &[OfStudent<'_>],
    units: Units,
    out: &Path,
) -> Result<Vec<Option<BTreeSet<char>>>, Failure> {
    let printing = class.printing();
    let (progress, done) = (Progress::new("students told", marked.len()), AtomicUsize::new(0));
    let missing = cores::each(marked, |one| {
        let holder = one.holder;
        let (who, form) = printing.form_of(&holder.student, &holder.number).unwrap_or_else(|| {
            let who = Who { name: None, id: Some(holder.student.clone()) };
            let sheet = written::paper(&holder.set.lesson);
            (who, Form { number: Some(holder.number.clone()), sheet, ..Form::default() })
        });
        let written: Vec<String> = one.given.answers.iter().map(|answer| answer.raw.clone()).collect();
        let unclear: Vec<String> = one.given.answers.iter().map(Answer::doubt).collect();
        let sheet = Sheet {
            unclear: &unclear,
            paper: &holder.set,
            handed_in: !one.given.rows.is_empty(),
            written: &written,
            answers: &one.answers,
            marked: &one.marked,
            units,
        };
        let stem = format!("{FEEDBACK}/{}", file_name(&holder.student, &holder.number));
        let missing = put(&feedback(&sheet, &who, &form), &out.join(stem))?;
        progress.at(done.fetch_add(1, Ordering::Relaxed) + 1);
        Ok(Some(missing))
    });
    missing.into_iter().collect()
}

/// Says which pages in the folder of feedback an earlier run has left there for papers that nobody has any more. They are not taken away: who
/// keeps other files there keeps them.
///
/// # Errors
/// Where the folder cannot be read.
pub fn tell_of_left_feedback(marked: &[OfStudent<'_>], out: &Path) -> Result<(), Failure> {
    let folder = out.join(FEEDBACK);
    let own: BTreeSet<String> =
        marked.iter().map(|one| file_name(&one.holder.student, &one.holder.number)).collect();
    let unread = |error| Failure::Unread(folder.clone(), error);
    let mut left = BTreeSet::new();
    for entry in std::fs::read_dir(&folder).map_err(unread)? {
        let path = std::path::PathBuf::from(entry.map_err(unread)?.file_name());
        let is_page = path.extension().is_some_and(|ending| ending == "html" || ending == "pdf");
        let stem = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
        if is_page && !own.contains(&stem) {
            left.insert(path.to_string_lossy().into_owned());
        }
    }
    if !left.is_empty() {
        let names: Vec<String> = left.into_iter().collect();
        anstream::println!(
            "left in {} from an earlier run, of no paper of this class: {}; take them away before you hand the folder on",
            folder.display(),
            names.join(", ")
        );
    }
    Ok(())
}

/// Writes the review of the class; gives the characters that are missing in its PDF.
///
/// # Errors
/// As [`put_feedback`].
pub fn put_review(
    marked: &[OfStudent<'_>],
    answers: &Answers,
    units: Units,
    out: &Path,
) -> Result<BTreeSet<char>, Failure> {
    // Who handed in nothing says nothing of the questions.
    let handed_in: Vec<&OfStudent<'_>> = marked.iter().filter(|one| !one.given.rows.is_empty()).collect();
    // Nobody has: there is nothing to review, and what an earlier run wrote is no longer so.
    let Some(paper) = handed_in.first().map(|one| &one.holder.set) else {
        for ending in ["html", "pdf"] {
            remove(&out.join(REVIEW).with_extension(ending))?;
        }
        return Ok(BTreeSet::new());
    };
    let students: Vec<MarkedStudent<'_>> = handed_in.iter().map(|one| one.as_marked()).collect();
    let ours = |fault: MatrixFault| Failure::Ours(fault.to_string());
    let matrix = review::matrix(&students).map_err(ours)?;
    let class = document::review::Class {
        paper,
        papers: marked.len(),
        figures: &Review::of(&matrix),
        mistakes: &review::mistakes(&review::wrong_answers(&students)),
        likenesses: &review::likeness(&review::values(&students, units)),
        by_hand: by_hand(&handed_in, answers),
    };
    put(&document::review::review(&class, written::paper(&paper.lesson)), &out.join(REVIEW))
}

/// Takes a file away that an earlier run wrote, if it is there.
fn remove(path: &Path) -> Result<(), Failure> {
    match std::fs::remove_file(path) {
        Err(error) if error.kind() != ErrorKind::NotFound => {
            Err(Failure::Unwritten(Refusal::System { path: path.to_owned(), error }))
        }
        _ => Ok(()),
    }
}

/// What went through a person's hands.
fn by_hand(handed_in: &[&OfStudent<'_>], answers: &Answers) -> ByHand {
    let all = || handed_in.iter().flat_map(|one| one.marked.parts.iter().zip(&one.given.answers));
    let to_read = |answer: &Answer| matches!(answer.read, Read::ByHand(_)) && !answer.decided;
    let waiting = |judged: &Judged, answer: &Answer| judged.marks().is_none() && !to_read(answer);
    ByHand {
        read: answers.to_read.iter().filter(|entry| !entry.decided.is_empty()).count(),
        to_read: answers.to_read.iter().filter(|entry| entry.decided.is_empty()).count(),
        marked: all().filter(|(judged, _)| judged.decided.is_some()).count(),
        to_mark: all().filter(|(judged, answer)| waiting(judged, answer)).count(),
    }
}

/// Writes a document as HTML and, where there is a typesetter, as PDF; gives the characters that are missing in the PDF.
fn put(document: &Document, stem: &Path) -> Result<BTreeSet<char>, Failure> {
    let html = document::html::html(document);
    write(&stem.with_extension("html"), html.as_bytes(), Existing::Replace)?;
    let Some(made) = typeset(document)? else { return Ok(BTreeSet::new()) };
    write(&stem.with_extension("pdf"), &made.bytes, Existing::Replace)?;
    Ok(made.missing)
}
