//! What the columns of a file of answers are, by their headers.

use super::asked::PaperAsked;
use super::number::{Beside, UnitFrom};
use super::unit_words;
use crate::fault::{Fault, shortened};
use crate::sheet::Sheet;
use std::collections::HashSet;

/// What stands in a column.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Column {
    Student,
    Paper,
    /// The answers to the part of this label, and the unit that the header says.
    Of(String, Option<Beside>),
    /// The units of the answers to the part of this label.
    UnitOf(String),
    Part,
    Answer,
    Unit,
    Attempt,
    Time,
    Other,
}

/// How a file is laid out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// A row for each student, a column for each part.
    RowAStudent,
    /// A row for each answer.
    RowAnAnswer,
}

/// The columns of a file.
#[derive(Debug)]
pub(super) struct Header {
    pub shape: Shape,
    pub columns: Vec<Column>,
    pub remarks: Vec<Fault>,
}

/// Headers of columns that hold ids, or may.
const STUDENT: &[&str] = &[
    "student id",
    "student number",
    "student no",
    "id number",
    "matriculation number",
    "candidate number",
    "id",
    "number",
    "student",
    "username",
    "user name",
    "user id",
];
/// So many of them say that it is the student's.
const SURELY: usize = 3;

const NAMES: [(Column, &[&str]); 7] = [
    (Column::Student, STUDENT),
    (Column::Paper, &["paper", "paper number", "paper id"]),
    (Column::Part, &["part", "question", "question part", "part label", "item"]),
    (Column::Answer, &["answer", "response", "raw text", "value"]),
    (Column::Unit, &["unit", "units"]),
    (Column::Attempt, &["attempt", "attempt number"]),
    (Column::Time, &["time", "submitted", "submitted at", "finished", "completed", "timestamp"]),
];

/// Words behind a label that make the column something else than answers.
const NOT_ANSWERS: [&str; 10] =
    ["mark", "marks", "points", "score", "grade", "time", "feedback", "comment", "attempt", "verdict"];

impl Header {
    /// Reads a header; `labels` are those of all parts of all papers.
    pub fn of(sheet: &Sheet, asked: &[PaperAsked], labels: &[String]) -> Result<Self, Vec<Fault>> {
        let header = sheet.header.as_slice();
        let mut remarks = Vec::new();
        let mut columns: Vec<Column> = header.iter().map(|name| column(name, labels, &mut remarks)).collect();
        prefer_answers(header, &mut columns, &mut remarks);
        prefer_ids(sheet, asked, &mut columns, &mut remarks);
        let mut faults = Vec::new();
        for (place, column) in columns.iter().enumerate() {
            let same = |other: &Column| match (column, other) {
                (Column::Other, _) => false,
                (Column::Of(label, _), Column::Of(other, _)) => label == other,
                (column, other) => column == other,
            };
            let earlier = columns.iter().take(place).position(same);
            if let (Some(name), Some(earlier)) = (header.get(place), earlier.and_then(|at| header.get(at))) {
                let what = format!("this column is for the same as {:?}", shortened(earlier));
                faults.push(Fault::of_cell(1, name, what, "keep one of them, or rename the other"));
            }
        }
        let has = |column: &Column| columns.contains(column);
        if !has(&Column::Student) && !has(&Column::Paper) {
            let what = format!("no column says whose answers these are; the header has {}", listed(header));
            faults.push(of_header(
                what,
                "call the column of the student ids \"student id\", or that of the paper numbers \"paper\"",
            ));
        }
        let wide = columns.iter().any(|column| matches!(column, Column::Of(..)));
        let shape = match (has(&Column::Part), has(&Column::Answer), wide) {
            (true, true, false) => Some(Shape::RowAnAnswer),
            (_, _, true) if !has(&Column::Part) => Some(Shape::RowAStudent),
            (true, true, true) => {
                let what = "the header has columns for a row an answer (part and answer) and for a row a student (one for each part)";
                faults.push(of_header(
                    what,
                    "keep to one of the two, or rename the columns that are no answers",
                ));
                None
            }
            (true, false, _) => {
                let mend = "call the column of the answers \"answer\", or give each part a column of its own";
                faults.push(of_header(
                    "a column says which part is answered, but no column is called \"answer\"",
                    mend,
                ));
                None
            }
            (false, true, _) => {
                let mend = "call the column of the parts \"part\"";
                faults.push(of_header("a column is called \"answer\", but none says to which part", mend));
                None
            }
            _ => {
                let what = format!("no column holds answers; the header has {}", listed(header));
                let mend = format!(
                    "give each part a column: {}; or use the columns part and answer",
                    labels_told(labels)
                );
                faults.push(of_header(what, mend));
                None
            }
        };
        match shape {
            Some(shape) if faults.is_empty() => Ok(Self { shape, columns, remarks }),
            _ => Err(faults),
        }
    }

    /// The place of a column.
    pub fn place(&self, wanted: &Column) -> Option<usize> {
        self.columns.iter().position(|column| column == wanted)
    }
}

/// Where one of several columns for a part is called its answer, the others hold something else: the question's own text, say.
fn prefer_answers(header: &[String], columns: &mut [Column], remarks: &mut Vec<Fault>) {
    let says_answer = |name: &String| {
        let name = name.trim().to_lowercase();
        name.starts_with("answer") || name.starts_with("response")
    };
    let of = |column: &Column| match column {
        Column::Of(label, _) => Some(label.clone()),
        _ => None,
    };
    let answers: Vec<String> = header
        .iter()
        .zip(&*columns)
        .filter(|(name, _)| says_answer(name))
        .filter_map(|(_, column)| of(column))
        .collect();
    for (name, column) in header.iter().zip(columns) {
        if let Some(label) = of(column).filter(|label| answers.contains(label) && !says_answer(name)) {
            let what = format!(
                "another column is called the answer to part {label}; this one is kept, but not read"
            );
            remarks.push(Fault::of_cell(
                1,
                name,
                what,
                "rename the other column if this one holds the answers",
            ));
            *column = Column::Other;
        }
    }
}

/// Of several columns that may hold the students' ids, the one that is called so, else the one that holds most of them.
fn prefer_ids(sheet: &Sheet, asked: &[PaperAsked], columns: &mut [Column], remarks: &mut Vec<Fault>) {
    let places: Vec<usize> =
        (0..columns.len()).filter(|&place| columns.get(place) == Some(&Column::Student)).collect();
    let surely = |place: &&usize| {
        let name = sheet.header.get(**place).map(|name| spaced(name)).unwrap_or_default();
        STUDENT.iter().take(SURELY).any(|known| *known == name)
    };
    // Two that are called so stay two: that is a fault.
    if places.len() < 2 || places.iter().filter(surely).count() > 1 {
        return;
    }
    let ids: HashSet<&str> = asked.iter().map(|paper| paper.student.as_str()).collect();
    let held = |place: &&usize| {
        let cells = sheet.rows.iter().filter_map(|row| row.cells.get(**place));
        cells.filter(|cell| ids.contains(cell.trim())).count()
    };
    // Of equal ones the first.
    let most = places.iter().rev().max_by_key(|place| held(place)).copied();
    let chosen = places.iter().find(surely).copied().or(most);
    for place in places.into_iter().filter(|place| Some(*place) != chosen) {
        let name = |place: usize| sheet.header.get(place).map_or("", String::as_str);
        let what =
            format!("the ids are taken from the column {:?}, not from this one", chosen.map_or("", name));
        remarks.push(Fault::of_cell(1, name(place), what, "call the column of the ids \"student id\""));
        if let Some(column) = columns.get_mut(place) {
            *column = Column::Other;
        }
    }
}

/// A header in small letters, with single spaces between its words.
fn spaced(name: &str) -> String {
    let lower = name.to_lowercase().replace(['-', '_'], " ");
    lower.split_whitespace().map(|word| word.trim_end_matches('.')).collect::<Vec<_>>().join(" ")
}

fn of_header(what: impl Into<String>, mend: impl Into<String>) -> Fault {
    Fault { row: Some(1), ..Fault::of_file(what, mend) }
}

fn listed(header: &[String]) -> String {
    let names: Vec<String> = header.iter().take(8).map(|name| format!("{:?}", shortened(name))).collect();
    names.join(", ")
}

/// Labels as a message tells them.
pub(super) fn labels_told(labels: &[String]) -> String {
    const MOST: usize = 12; // a line
    let told: Vec<&str> = labels.iter().take(MOST).map(String::as_str).collect();
    let more = if labels.len() > MOST { ", …" } else { "" };
    format!("{}{more}", told.join(", "))
}

fn column(name: &str, labels: &[String], remarks: &mut Vec<Fault>) -> Column {
    let lower = spaced(name);
    if let Some((column, _)) = NAMES.iter().find(|(_, names)| names.contains(&lower.as_str())) {
        return column.clone();
    }
    let (label, rest) = match label(name, labels) {
        Found::Label(label, rest) => (label, rest),
        Found::Unknown(label) => {
            let what = format!("no paper has a part {label:?}; this column is kept, but not read");
            let mend = format!("name the part as the papers do: {}", labels_told(labels));
            remarks.push(Fault::of_cell(1, name, what, mend));
            return Column::Other;
        }
        Found::None => return Column::Other,
    };
    if matches!(rest.trim().to_lowercase().as_str(), "unit" | "units") {
        return Column::UnitOf(label);
    }
    // What the answer was worth: `Q. 1 /2.00`.
    let of_marks = rest.trim_start().strip_prefix('/').map(str::trim_start);
    if of_marks.is_some_and(|marks| marks.starts_with(|c: char| c.is_ascii_digit())) {
        return Column::Other;
    }
    let (unit, odd) = unit_in(rest);
    if unit.is_none() && holds_no_answers(rest) {
        return Column::Other;
    }
    if let Some(odd) = odd.filter(|_| unit.is_none()) {
        let what = format!(
            "{:?} is no unit; answers without one are taken in the unit that was asked for",
            shortened(&odd)
        );
        remarks.push(Fault::of_cell(1, name, what, "write the unit of the column in brackets: (MPa)"));
    }
    Column::Of(label, unit.map(|unit| Beside { unit, from: UnitFrom::Header }))
}

/// Whether the words behind a label say that the column holds something else. `(2 marks)` is what an answer is worth, and belongs to
/// the question's name.
fn holds_no_answers(rest: &str) -> bool {
    let worth = |piece: &&str| piece.starts_with(|c: char| c.is_ascii_digit());
    let pieces = rest.split(['(', ')', '[', ']']).map(str::trim).filter(|piece| !worth(piece));
    let mut words = pieces.flat_map(|piece| piece.split(|c: char| !c.is_alphanumeric()));
    words.any(|word| NOT_ANSWERS.contains(&word.to_lowercase().as_str()))
}

/// The unit that a header says in brackets or behind a slash; else what stands where a unit may.
fn unit_in(rest: &str) -> (Option<assessment::set::AnswerUnit>, Option<String>) {
    let mut odd = None;
    for (open, close) in [('[', ']'), ('(', ')')] {
        // `(×10⁶ mm⁴ (about x))` has brackets in brackets; units have them only behind a slash: N/(m mm).
        let inside = rest.find(open).zip(rest.rfind(close)).and_then(|(from, to)| rest.get(from + 1..to));
        let Some(inside) = inside else { continue };
        match unit_words::answer_unit(inside) {
            Some(unit) => return (Some(unit), None),
            None if unit_words::meant(inside.trim()).is_some() || inside.contains('^') => {
                odd = Some(inside.to_owned())
            }
            None => {}
        }
    }
    // A quantity divided by its unit, as ISO 80000-1 heads columns: `tau / MPa`.
    let behind = rest.rsplit_once(" / ").and_then(|(_, behind)| unit_words::answer_unit(behind));
    (behind, odd)
}

/// A label at the start of a text.
#[derive(Debug, PartialEq)]
pub(super) enum Found<'a> {
    /// One of the labels, and what follows on it.
    Label(String, &'a str),
    /// What looks like a label that no paper has.
    Unknown(String),
    /// No label.
    None,
}

const BEFORE_A_LABEL: [&str; 9] =
    ["question", "part", "answer", "response", "item", "number", "no", "nr", "q"];

/// Finds a label: `2a`, `Question 2 (a)`, `Q2a [MPa]`, `2.a`.
pub(super) fn label<'a>(text: &'a str, labels: &[String]) -> Found<'a> {
    let separators = |c: char| c.is_whitespace() || matches!(c, '.' | ':' | '#' | '_' | '-' | '(' | '[');
    let mut rest = text.trim_start_matches(separators);
    loop {
        let end = rest.find(|c: char| !c.is_ascii_alphabetic()).unwrap_or(rest.len());
        let Some((word, after)) = rest.split_at_checked(end) else { return Found::None };
        if word.is_empty() {
            break;
        }
        if !BEFORE_A_LABEL.contains(&word.to_lowercase().as_str()) {
            return Found::None;
        }
        rest = after.trim_start_matches(separators);
    }
    let digits = rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len());
    let Some((number, after)) = rest.split_at_checked(digits) else { return Found::None };
    if number.is_empty() {
        return Found::None;
    }
    let known = |label: &str| labels.iter().find(|known| known.eq_ignore_ascii_case(label)).cloned();
    let letters_at = after.trim_start_matches(separators);
    let end = letters_at.find(|c: char| !c.is_ascii_alphabetic()).unwrap_or(letters_at.len());
    let (letters, behind) = letters_at.split_at_checked(end).unwrap_or_default();
    let ends = |text: &str| !text.starts_with(char::is_alphanumeric);
    if !letters.is_empty()
        && ends(behind)
        && let Some(label) = known(&format!("{number}{letters}"))
    {
        return Found::Label(label, behind.trim_start_matches([')', ']', '.', ':', ' ']));
    }
    if ends(after)
        && let Some(label) = known(number)
    {
        return Found::Label(label, after.trim_start_matches([')', ']', '.', ':', ' ']));
    }
    let short = letters.len() <= 2 && letters_at.len() == after.len();
    let label = if short { format!("{number}{letters}") } else { number.to_owned() };
    // `3rd try` and `2026-11-29` are no labels.
    if ends(after) || short && ends(behind) && !matches!(letters, "st" | "nd" | "rd" | "th") {
        Found::Unknown(label)
    } else {
        Found::None
    }
}
