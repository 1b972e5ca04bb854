//! The pages of each paper: what its student gets, and its key.

use super::folder::Folder;
use super::forms::Letters;
use super::given::Written;
use crate::failure::Failure;
use assessment::issue::LETTERS;
use assessment::ledger::form_name;
use assessment::set::SetPaper;
use document::paper::{Form, Who};
use document::tree::{Document, Print};
use exchange::roster::{self, Roster, Student};
use std::collections::{BTreeSet, HashMap};

/// How the papers of a class are printed.
#[derive(Debug)]
pub struct Printing<'a> {
    sheet: document::tree::Paper,
    /// By id; none where forms are made and not papers of students.
    students: Option<HashMap<&'a str, &'a Student>>,
    /// Where the students of a list get forms.
    letters: Letters,
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
    pub fn new(sheet: document::tree::Paper, roster: Option<&'a Roster>, letters: Letters) -> Self {
        let by_id =
            |roster: &'a Roster| roster.students().iter().map(|student| (&*student.id, student)).collect();
        Self { sheet, students: roster.map(by_id), letters }
    }

    /// Whose paper it is and how it is printed; none where its student is not on the list: nobody knows then.
    pub fn form(&self, written: &Written<'_>) -> Option<(Who, Form)> {
        self.form_of(written.student, &written.entry.number.to_string())
    }

    /// The same of a student's id, or the name of a form, and the number of the paper.
    pub fn form_of(&self, student: &str, number: &str) -> Option<(Who, Form)> {
        match &self.students {
            None => Some((Who::default(), self.form_of_the_class(student, number)?)),
            Some(students) => {
                let student = students.get(student)?;
                let who = Who { name: Some(student.name.clone()), id: Some(student.id.clone()) };
                Some((who, self.form_of_a_student(number, student)))
            }
        }
    }

    /// The pages of a paper; none where nobody knows how to print it.
    pub fn pages(&self, written: &Written<'_>, set: &SetPaper) -> Option<Pages> {
        let (who, form) = self.form(written)?;
        Some(Pages {
            paper: document::paper::paper(set, &who, &form),
            key: document::paper::key(set, &who, &form),
            name: file_name(written.student, &written.entry.number.to_string()),
        })
    }

    /// None where it is the paper of a student: nobody is on a list here.
    fn form_of_the_class(&self, student: &str, number: &str) -> Option<Form> {
        let letter = LETTERS.into_iter().find(|&letter| form_name(letter) == student)?;
        let number = Some(number.to_owned());
        Some(Form { number, letter: Some(letter.to_string()), sheet: self.sheet, print: Print::Usual })
    }

    fn form_of_a_student(&self, number: &str, student: &Student) -> Form {
        let sheet = match student.sheet {
            Some(roster::Sheet::A4) => document::tree::Paper::A4,
            Some(roster::Sheet::Letter) => document::tree::Paper::UsLetter,
            None => self.sheet,
        };
        let print = if student.large_print { Print::Large } else { Print::Usual };
        let letter = self.letters.get(&student.id).map(char::to_string);
        Form { number: Some(number.to_owned()), letter, sheet, print }
    }
}

/// What the files of a student's paper are called, without their endings.
pub fn file_name(student: &str, number: &str) -> String {
    format!("{}-{number}", in_a_file_name(student))
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

/// The characters that a reader of a PDF will miss, since no typeface of ours has them.
pub type Missing = BTreeSet<char>;

/// Where the page of a paper is that its student gets.
pub fn page(name: &str) -> String {
    format!("papers/{name}.html")
}

/// Writes the pages of a paper as HTML, and of its key as PDF too; gives what a reader of that will miss. The key is made anew: it may
/// know more mistakes than before.
///
/// # Errors
/// Where a file is in the way, or the typesetter complains.
pub fn put(pages: &Pages, folder: &Folder) -> Result<Missing, Failure> {
    let name = &pages.name;
    folder.put(&page(name), document::html::html(&pages.paper).as_bytes())?;
    folder.renew(&format!("keys/{name}-key.html"), document::html::html(&pages.key).as_bytes())?;
    let Some(made) = typeset(&pages.key)? else { return Ok(Missing::new()) };
    folder.renew(&format!("keys/{name}-key.pdf"), &made.bytes)?;
    Ok(made.missing)
}

/// What is to be known of the pages: for each paper the characters that are missing in it, or none where it was not printed.
pub fn remarks(papers: &[Option<Missing>]) -> Vec<String> {
    let mut lines = Vec::new();
    match papers.iter().filter(|paper| paper.is_none()).count() {
        0 => {}
        1 => lines
            .push("1 paper of the ledger belongs to nobody on this list and was left as it is".to_owned()),
        others => lines.push(format!(
            "{others} papers of the ledger belong to nobody on this list and were left as they are"
        )),
    }
    let with_missing = papers.iter().flatten().filter(|missing| !missing.is_empty());
    let characters: BTreeSet<char> = with_missing.clone().flatten().copied().collect();
    if !characters.is_empty() {
        let all: String = characters.into_iter().collect();
        lines.push(format!(
            "in the PDFs of {}, names have characters that no typeface of ours has, and a replacement character stands for each: \
             {all}; the pages of HTML have them",
            super::counted(with_missing.count(), "paper")
        ));
    }
    lines
}

/// A document as PDF.
#[derive(Debug)]
pub struct Typeset {
    /// The file.
    pub bytes: Vec<u8>,
    /// What a reader of it will miss.
    pub missing: Missing,
}

/// Documents as PDF: each by itself, and all in one file.
#[derive(Debug)]
pub struct Together {
    /// Each.
    pub each: Vec<Typeset>,
    /// All of them, to be printed at once.
    pub all: Vec<u8>,
}

/// The document as PDF; none in a build without typesetter, where the pages of HTML are all there is.
///
/// # Errors
/// Where the typesetter complains.
#[cfg(feature = "pdf")]
pub fn typeset(document: &Document) -> Result<Option<Typeset>, Failure> {
    document::pdf::pdf(document)
        .map(|made| Some(made.into()))
        .map_err(|error| Failure::Ours(error.to_string()))
}

/// As [`typeset`], of several documents and of one file with all of them: its title and its name.
///
/// # Errors
/// As [`typeset`].
#[cfg(feature = "pdf")]
pub fn typeset_together(
    documents: &[&Document],
    title: &str,
    name: &str,
) -> Result<Option<Together>, Failure> {
    let made = document::pdf::pdf_of_all(documents, title, name);
    let made = made.map_err(|error| Failure::Ours(error.to_string()))?;
    Ok(Some(Together { each: made.each.into_iter().map(Typeset::from).collect(), all: made.all }))
}

#[cfg(feature = "pdf")]
impl From<document::pdf::Pdf> for Typeset {
    fn from(made: document::pdf::Pdf) -> Self {
        Self { bytes: made.bytes, missing: made.replaced.into_iter().collect() }
    }
}

#[cfg(not(feature = "pdf"))]
#[allow(clippy::unnecessary_wraps, reason = "the typesetter may complain, where there is one")]
pub fn typeset(_: &Document) -> Result<Option<Typeset>, Failure> {
    Ok(None)
}

#[cfg(not(feature = "pdf"))]
#[allow(clippy::unnecessary_wraps, reason = "the typesetter may complain, where there is one")]
pub fn typeset_together(_: &[&Document], _: &str, _: &str) -> Result<Option<Together>, Failure> {
    Ok(None)
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
