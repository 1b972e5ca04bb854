//! The papers as they are handed out, and their keys: a page of HTML each, and a PDF where this build makes any.

use super::folder::Folder;
use super::given::Written;
use crate::arguments::Sheet;
use crate::failure::Failure;
use crate::written;
use assessment::set::SetPaper;
use document::html::html;
use document::paper::{self, Form, Who};
use document::tree::{Document, Print};
use exchange::roster::Student;

/// Whom a paper is for, and on which sheet.
#[derive(Clone, Copy, Debug)]
pub struct For<'a> {
    /// Whether it is a form that many get.
    pub many: bool,
    /// The student, where the class list still has them.
    pub student: Option<&'a Student>,
    /// The sheet, where one is asked for.
    pub sheet: Option<Sheet>,
}

/// A paper and its key as documents.
pub fn documents(set: &SetPaper, written: &Written<'_>, whom: For<'_>) -> [Document; 2] {
    let (who, letter) = if whom.many {
        (Who::default(), Some(written.student.to_owned()))
    } else {
        let name = whom.student.map(|student| student.name.clone());
        (Who { name, id: Some(written.student.to_owned()) }, None)
    };
    let large = whom.student.is_some_and(|student| student.large_print);
    let form = Form {
        number: Some(written.entry.number.to_string()),
        letter,
        sheet: written::sheet(whom.sheet, &set.lesson),
        print: if large { Print::Large } else { Print::Usual },
    };
    [paper::paper(set, &who, &form), paper::key(set, &who, &form)]
}

/// Puts a paper and its key into the folder. Their files are called by the number of the paper, never by a name.
///
/// # Errors
/// Where a file cannot be written, or would be another than the one that is there.
pub fn put(folder: &Folder, documents: &[Document; 2], written: &Written<'_>) -> Result<(), Failure> {
    let number = &written.entry.number;
    for (document, place) in documents.iter().zip(["papers", "keys"]) {
        folder.put(&format!("{place}/{number}.html"), html(document).as_bytes())?;
        if cfg!(feature = "pdf") {
            folder.put(&format!("{place}/{number}.pdf"), &written::pdf(document)?)?;
        }
    }
    Ok(())
}
