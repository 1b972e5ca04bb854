//! Marks as tables: a row for each student for the list of marks, a row for each answer for studying the class.
//!
//! Plain data comes in: what an answer earns is decided elsewhere.

use crate::fault::Fault;
use crate::table::{Cell, Number, Table};

/// A student's marks.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StudentMarks {
    /// The student's id.
    pub student: String,
    /// The name.
    pub name: String,
    /// The number of the paper; empty for none.
    pub paper: String,
    /// Whether anything came from this student: who was not there has no marks, and is no one who earned nothing.
    pub handed_in: bool,
    /// One for each part, in the order of the paper.
    pub parts: Vec<PartMarks>,
}

/// What one answer earned.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PartMarks {
    /// The label of the part.
    pub part: String,
    /// What it earned; none where it is not marked yet.
    pub marks: Option<f64>,
    /// What a right answer earns.
    pub out_of: f64,
}

/// Sums of decimal marks are rounded to so many parts of one: 0.1 + 0.2 is to be written 0.3.
const PARTS: f64 = 1e6;

fn sum(marks: impl Iterator<Item = f64>) -> f64 {
    (marks.sum::<f64>() * PARTS).round() / PARTS
}

/// A number; nothing for none and for what is not finite.
fn number(value: Option<f64>) -> Cell {
    value.and_then(Number::new).map_or_else(|| Cell::text(""), Cell::Number)
}

/// A row for each student: id, name, paper, the marks of each part, their total, what could be had, whether anything was handed in. While a part is not marked, the
/// total stays empty, and a column names what is missing: a total that still grows is taken for one that does not.
///
/// # Errors
/// None that is known: every row has as many cells as the header.
pub fn by_student(students: &[StudentMarks]) -> Result<Table, Fault> {
    let mut parts: Vec<&str> = Vec::new();
    for part in students.iter().flat_map(|student| &student.parts) {
        if !parts.contains(&part.part.as_str()) {
            parts.push(&part.part);
        }
    }
    let before = ["student id", "name", "paper"];
    let behind = ["total", "out of", "not marked", "handed in"];
    let header = before.iter().chain(&parts).chain(&behind).map(|name| (*name).to_owned()).collect();
    let mut table = Table::new(header);
    for student in students {
        let of = |label: &&str| student.parts.iter().find(|part| part.part == *label);
        let missing: Vec<&str> =
            student.parts.iter().filter(|part| part.marks.is_none()).map(|part| part.part.as_str()).collect();
        let total = sum(student.parts.iter().filter_map(|part| part.marks));
        let mut row =
            vec![Cell::text(&student.student), Cell::text(&student.name), Cell::text(&student.paper)];
        row.extend(parts.iter().map(|label| number(of(label).and_then(|part| part.marks))));
        row.push(number(missing.is_empty().then_some(total)));
        row.push(number(Some(sum(student.parts.iter().map(|part| part.out_of)))));
        row.push(Cell::text(missing.join(" ")));
        row.push(Cell::text(if student.handed_in { "yes" } else { "nothing" }));
        table.push(row)?;
    }
    Ok(table)
}

/// All that is kept of an answer, so that the class can be studied. Empty text for what is not known.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Record {
    /// Who answered: an id or a pseudonym, never a name.
    pub student: String,
    /// The lesson.
    pub lesson: String,
    /// The digest of the lesson's text, which tells one state of it from another.
    pub digest: String,
    /// The number of the paper.
    pub paper: String,
    /// The form of the exam.
    pub form: String,
    /// The label of the part.
    pub part: String,
    /// The name of the working that was asked for.
    pub working: String,
    /// The answer as it was given.
    pub raw: String,
    /// The number that was read, in `unit`; none where none was.
    pub value: Option<f64>,
    /// Its unit.
    pub unit: String,
    /// What the answer earned; none where it is not marked yet.
    pub marks: Option<f64>,
    /// What a right answer earns.
    pub out_of: f64,
    /// What became of it: right, blank, rounded too early.
    pub verdict: String,
    /// The mistake that it was recognised as.
    pub mistake: String,
    /// What may have led to a value of which nothing is known, and may as well not: nothing follows from it.
    pub perhaps: String,
    /// The part whose own value of the student was followed through.
    pub follow_through: String,
    /// Which attempt it was.
    pub attempt: String,
    /// When it was given.
    pub time: String,
    /// How sure the student was.
    pub confidence: String,
    /// How long it took, s.
    pub time_spent: Option<f64>,
}

/// A row for each answer.
///
/// # Errors
/// None that is known: every row has as many cells as the header.
pub fn by_answer(records: &[Record]) -> Result<Table, Fault> {
    let header = [
        "student id",
        "lesson",
        "digest",
        "paper",
        "form",
        "part",
        "working",
        "answer",
        "value",
        "unit",
        "marks",
        "out of",
        "verdict",
        "mistake",
        "perhaps",
        "follow-through",
        "attempt",
        "time",
        "confidence",
        "time spent (s)",
    ];
    let mut table = Table::new(header.map(str::to_owned).into());
    for record in records {
        let text = |words: &String| Cell::text(words);
        table.push(vec![
            text(&record.student),
            text(&record.lesson),
            text(&record.digest),
            text(&record.paper),
            text(&record.form),
            text(&record.part),
            text(&record.working),
            text(&record.raw),
            number(record.value),
            text(&record.unit),
            number(record.marks),
            number(Some(record.out_of)),
            text(&record.verdict),
            text(&record.mistake),
            text(&record.perhaps),
            text(&record.follow_through),
            text(&record.attempt),
            text(&record.time),
            text(&record.confidence),
            number(record.time_spent),
        ])?;
    }
    Ok(table)
}
