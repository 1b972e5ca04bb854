//! The pages of each paper: what its student gets, and its key.

use super::given::Written;
use crate::failure::Failure;
use crate::written;
use assessment::set::SetPaper;
use document::paper::{Form, Who};
use document::tree::{Document, Print};
use exchange::roster::{self, Roster, Student};
use std::collections::HashMap;

/// How the papers of a class are printed.
#[derive(Debug)]
pub struct Printing<'a> {
    sheet: document::tree::Paper,
    /// By id; none where forms are made and not papers of students.
    students: Option<HashMap<&'a str, &'a Student>>,
}

/// The pages of one paper.
pub struct Pages {
    /// What the student gets.
    pub paper: Document,
    /// What is right.
    pub key: Document,
    /// What its files are called, without their endings.
    pub name: String,
}

impl<'a> Printing<'a> {
    /// For a class list, or for forms; on this sheet, where the list says nothing.
    pub fn new(sheet: document::tree::Paper, roster: Option<&'a Roster>) -> Self {
        let by_id =
            |roster: &'a Roster| roster.students().iter().map(|student| (&*student.id, student)).collect();
        Self { sheet, students: roster.map(by_id) }
    }

    /// The pages of a paper; none where its student is not on the list: nobody knows then how to print it.
    pub fn pages(&self, written: &Written<'_>, set: &SetPaper) -> Option<Pages> {
        let (who, form) = match &self.students {
            None => (Who::default(), self.form_of_the_class(written)),
            Some(students) => {
                let student = students.get(written.student)?;
                let who = Who { name: Some(student.name.clone()), id: Some(student.id.clone()) };
                (who, self.form_of_a_student(written, student))
            }
        };
        Some(Pages {
            paper: document::paper::paper(set, &who, &form),
            key: document::paper::key(set, &who, &form),
            name: format!("{}-{}", in_a_file_name(written.student), written.entry.number),
        })
    }

    fn form_of_the_class(&self, written: &Written<'_>) -> Form {
        let letter = written.student.rsplit(' ').next().map(str::to_owned);
        Form {
            number: Some(written.entry.number.to_string()),
            letter,
            sheet: self.sheet,
            print: Print::Usual,
        }
    }

    fn form_of_a_student(&self, written: &Written<'_>, student: &Student) -> Form {
        let sheet = match student.sheet {
            Some(roster::Sheet::A4) => document::tree::Paper::A4,
            Some(roster::Sheet::Letter) => document::tree::Paper::UsLetter,
            None => self.sheet,
        };
        let print = if student.large_print { Print::Large } else { Print::Usual };
        Form { number: Some(written.entry.number.to_string()), letter: None, sheet, print }
    }
}

/// An id as a part of a file's name that every system takes: letters and figures of ASCII, everything else a hyphen. The number of
/// the paper, which follows it, tells those apart that become alike.
fn in_a_file_name(id: &str) -> String {
    /// Characters: many times an id, and short of what a file's name may have.
    const LONGEST: usize = 40;
    let plain = |c: char| if c.is_ascii_alphanumeric() { c } else { '-' };
    let name: String = id.chars().take(LONGEST).map(plain).collect();
    let name = name.trim_matches('-');
    if name.is_empty() { "paper".to_owned() } else { name.to_owned() }
}

/// Writes the pages of a paper.
///
/// # Errors
/// Where a file is in the way, or the typesetter complains.
pub fn put(pages: &Pages, folder: &super::folder::Folder) -> Result<(), Failure> {
    let Pages { paper, key, name } = pages;
    folder.put(&format!("papers/{name}.html"), document::html::html(paper).as_bytes())?;
    folder.put(&format!("keys/{name}-key.html"), document::html::html(key).as_bytes())?;
    if cfg!(feature = "pdf") {
        folder.put(&format!("papers/{name}.pdf"), &written::pdf(paper)?)?;
        folder.put(&format!("keys/{name}-key.pdf"), &written::pdf(key)?)?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_id_is_safe_in_a_file_name() {
        for (id, name) in [
            ("0042", "0042"),
            ("../../etc/passwd", "etc-passwd"),
            ("a b\tc", "a-b-c"),
            ("Müller", "M-ller"),
            ("طالب", "paper"),
            ("con:aux|\"<>", "con-aux"),
        ] {
            assert_eq!(in_a_file_name(id), name);
        }
        assert_eq!(in_a_file_name(&"7".repeat(500)).len(), 40);
    }
}
