//! What a person has decided of answers that could not be read: a list that is written, filled in, and read again.

use crate::fault::{Fault, shortened};
use crate::sheet;
use crate::table::{Cell, Table};
use sha2::{Digest, Sha256};

/// An answer that a person has to read, or has read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ToRead {
    /// What a decision is found by: letters that follow from the student, the part and the answer. A spreadsheet takes zeros from ids
    /// and makes dates and numbers of answers when the list is filled in; it leaves a word alone.
    pub reference: String,
    /// The student's id.
    pub student: String,
    /// The number of the paper.
    pub paper: String,
    /// The label of the part.
    pub part: String,
    /// The answer as it stands in the file.
    pub raw: String,
    /// Why it could not be read.
    pub why: String,
    /// What it could mean.
    pub could_mean: String,
    /// What was decided: a number with its unit perhaps, the letter of a choice, `blank`, `unreadable`; empty for nothing yet.
    pub decided: String,
}

/// The columns of the list, in the order in which they are written.
const COLUMNS: [&str; 8] =
    ["reference", "student id", "paper", "part", "answer", "why", "could mean", "decided"];

impl ToRead {
    fn cells(&self) -> [&str; 8] {
        [
            &self.reference,
            &self.student,
            &self.paper,
            &self.part,
            &self.raw,
            &self.why,
            &self.could_mean,
            &self.decided,
        ]
    }
}

/// Letters of which references are made: consonants, so that no word comes of them.
const LETTERS: &[u8; 20] = b"bcdfghjklmnpqrstvwxz";
/// Letters of a reference: 43 bits, so that two answers of a class hardly ever have the same.
const LENGTH: usize = 10;

/// The reference of a student's answer to a part: another answer has another.
pub fn reference(student: &str, part: &str, raw: &str) -> String {
    let mut digest = Sha256::new();
    for text in [student, part, raw] {
        // With its length, so that no two answers make the same bytes.
        digest.update((text.len() as u64).to_le_bytes());
        digest.update(text);
    }
    let letter = |byte: &u8| char::from(LETTERS[usize::from(*byte) % LETTERS.len()]);
    digest.finalize().iter().take(LENGTH).map(letter).collect()
}

/// The list as a table. What is decided stays in it, so that the file can be written anew over the old one.
///
/// # Errors
/// None that is known: every row has as many cells as the header.
pub fn table(list: &[ToRead]) -> Result<Table, Fault> {
    let mut table = Table::new(COLUMNS.map(str::to_owned).into());
    for entry in list {
        table.push(entry.cells().into_iter().map(Cell::text).collect())?;
    }
    Ok(table)
}

/// Decisions that were made.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Decisions {
    /// Those of the file, in its order; each with its row.
    pub made: Vec<(usize, ToRead)>,
}

impl Decisions {
    /// Reads a list that was written by [`table`] and filled in.
    ///
    /// # Errors
    /// Every fault: what [`sheet::read`] refuses, a column that is missing, a reference that is missing or there twice.
    pub fn read(bytes: &[u8]) -> Result<Self, Vec<Fault>> {
        let sheet = sheet::read(bytes)?;
        let place =
            |wanted: &str| sheet.header.iter().position(|name| name.trim().eq_ignore_ascii_case(wanted));
        let mut faults = Vec::new();
        for wanted in ["reference", "decided"] {
            if place(wanted).is_none() {
                let what = format!("no column is called {wanted:?}");
                let mend = "keep the columns of the list that was written; fill in the last one only";
                faults.push(Fault { row: Some(1), ..Fault::of_file(what, mend) });
            }
        }
        let mut made: Vec<(usize, ToRead)> = Vec::new();
        let mut seen = std::collections::HashMap::new();
        for row in &sheet.rows {
            let cell =
                |wanted| place(wanted).and_then(|place| row.cells.get(place)).cloned().unwrap_or_default();
            let [reference, student, paper, part, raw, why, could_mean, decided] = COLUMNS.map(cell);
            let reference = reference.trim().to_lowercase();
            let (student, part) = (student.trim().to_owned(), part.trim().to_owned());
            let decided = decided.trim().to_owned();
            let earlier = seen.insert(reference.clone(), row.number);
            if reference.is_empty() {
                let what = "this row has no reference, so nobody knows which answer it decides";
                faults.push(Fault::of_row(row.number, what, "take the row from the list that was written"));
            } else if let Some(earlier) = earlier {
                let what = format!(
                    "the answer of {:?} to part {part} also stands in row {earlier}",
                    shortened(&student)
                );
                faults.push(Fault::of_row(row.number, what, "keep one of the two rows"));
            }
            made.push((
                row.number,
                ToRead { reference, student, paper, part, raw, why, could_mean, decided },
            ));
        }
        if faults.is_empty() { Ok(Self { made }) } else { Err(faults) }
    }
}
