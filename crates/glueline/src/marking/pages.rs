//! The pages of marking: what each student is told, and the review of the class.

use super::OfStudent;
use super::class::Class;
use crate::failure::Failure;
use crate::output::{Existing, write};
use crate::papers::printed::{file_name, typeset};
use crate::papers::progress::Progress;
use assessment::cores;
use assessment::mark::Units;
use document::feedback::{Sheet, feedback};
use document::paper::{Form, Who};
use document::tree::Document;
use std::collections::BTreeSet;
use std::path::Path;
use std::sync::atomic::{AtomicUsize, Ordering};

/// The folder of what students are told.
pub const FEEDBACK: &str = "feedback";

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
            (who, Form { number: Some(holder.number.clone()), ..Form::default() })
        });
        let written: Vec<String> = one.given.answers.iter().map(|answer| answer.raw.clone()).collect();
        let sheet = Sheet {
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

/// Writes a document as HTML and, where there is a typesetter, as PDF; gives the characters that are missing in the PDF.
fn put(document: &Document, stem: &Path) -> Result<BTreeSet<char>, Failure> {
    let html = document::html::html(document);
    write(&stem.with_extension("html"), html.as_bytes(), Existing::Replace)?;
    let Some(made) = typeset(document)? else { return Ok(BTreeSet::new()) };
    write(&stem.with_extension("pdf"), &made.bytes, Existing::Replace)?;
    Ok(made.missing)
}
