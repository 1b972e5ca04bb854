//! Finding whose each answer is and to which part, and which of several attempts counts.

use super::asked::PaperAsked;
use super::attempt::{Attempt, Several, When, last};
use super::header::{Column, Found, Header, Shape, label, labels_told};
use super::number::{Beside, UnitFrom};
use super::unit_words;
use super::unplaced::Unplaced;
use crate::fault::{Fault, shortened};
use crate::sheet::{Row, Sheet};
use assessment::number::PaperNumber;
use std::collections::{BTreeMap, HashMap};

/// An answer as it stands in the file.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Given {
    pub raw: String,
    pub row: usize,
    /// The place of its column.
    pub column: usize,
    /// The unit beside it; an error for what stands there and is none.
    pub beside: Option<Result<Beside, String>>,
}

/// What was found.
#[derive(Debug, Default)]
pub(super) struct Gathered {
    /// By the place of the paper and of the part.
    pub given: BTreeMap<(usize, usize), Given>,
    /// The rows of each paper.
    pub rows: BTreeMap<usize, Vec<usize>>,
    /// Rows that belong to no paper, and rows whose part is on no paper.
    pub unplaced: Vec<Unplaced>,
    pub remarks: Vec<Fault>,
}

/// Whose paper it is, by id and by number.
struct Owners<'a> {
    by_student: HashMap<&'a str, usize>,
    by_paper: HashMap<String, usize>,
    asked: &'a [PaperAsked],
}

/// Why a row is nobody's.
struct Nobody {
    /// The column that says so; none where the row says nothing.
    by: Option<Column>,
    what: String,
    mend: String,
    /// The id that may be meant; empty for none.
    meant: String,
}

/// A paper's number without what does not count in it.
fn bare(number: &str) -> String {
    let kept = number.chars().filter(|c| !c.is_whitespace() && !matches!(c, '-' | '\u{2010}'..='\u{2015}'));
    kept.flat_map(char::to_uppercase).collect()
}

impl<'a> Owners<'a> {
    fn of(asked: &'a [PaperAsked]) -> Self {
        let by_student = asked.iter().enumerate().map(|(at, paper)| (paper.student.as_str(), at)).collect();
        let numbered = asked.iter().enumerate().filter(|(_, paper)| !paper.paper.is_empty());
        let by_paper = numbered.map(|(at, paper)| (bare(&paper.paper), at)).collect();
        Self { by_student, by_paper, asked }
    }

    fn find(&self, student: Option<&str>, paper: Option<&str>) -> Result<usize, Box<Nobody>> {
        let by_student = match student {
            Some(id) => Some(self.by_student.get(id).copied().ok_or_else(|| self.no_student(id))?),
            None => None,
        };
        let by_paper = match paper {
            Some(number) => Some(self.by_paper.get(&bare(number)).copied().ok_or_else(|| no_paper(number))?),
            None => None,
        };
        match (by_student, by_paper) {
            (Some(one), Some(other)) if one != other => {
                let own = self.asked.get(one).map_or("", |paper| paper.paper.as_str());
                let what = format!(
                    "the paper {:?} is not that of the student {:?}, which is {own:?}",
                    shortened(paper.unwrap_or_default()),
                    shortened(student.unwrap_or_default())
                );
                let mend = "find out whose answers these are, and correct the id or the number";
                Err(Nobody { by: Some(Column::Paper), what, mend: mend.into(), meant: String::new() }.into())
            }
            (Some(at), _) | (None, Some(at)) => Ok(at),
            (None, None) => {
                let what = "this row does not say whose answers these are".to_owned();
                let mend = "write the student id or the number of the paper";
                Err(Nobody { by: None, what, mend: mend.into(), meant: String::new() }.into())
            }
        }
    }

    fn no_student(&self, id: &str) -> Nobody {
        let what = format!("nobody with the student id {:?} has a paper", shortened(id));
        // Spreadsheets take leading zeros away.
        let bare = id.trim_start_matches('0');
        let mut like = self.asked.iter().map(|paper| paper.student.as_str());
        let like = like.find(|known| known.eq_ignore_ascii_case(id) || known.trim_start_matches('0') == bare);
        let mend = match like {
            Some(like) => format!("write the id as the class list has it; is {:?} meant?", shortened(like)),
            None => "write the id as the class list has it; these answers are not read".to_owned(),
        };
        Nobody { by: Some(Column::Student), what, mend, meant: like.unwrap_or_default().to_owned() }
    }
}

fn no_paper(number: &str) -> Nobody {
    let what = match PaperNumber::read(number) {
        Ok(number) => format!("no paper with the number {number} was given out"),
        Err(fault) => shortened_fault(&fault.to_string()),
    };
    let mend = "write the number as it stands on the paper; these answers are not read";
    Nobody { by: Some(Column::Paper), what, mend: mend.to_owned(), meant: String::new() }
}

/// A message that may hold a long text of the file.
fn shortened_fault(message: &str) -> String {
    const LONGEST: usize = 160; // characters: two lines
    message.chars().take(LONGEST).collect()
}

/// Finds all answers.
pub(super) fn gather(sheet: &Sheet, header: &Header, asked: &[PaperAsked], labels: &[String]) -> Gathered {
    let owners = Owners::of(asked);
    let mut found = Gathered::default();
    let mut attempts: BTreeMap<(usize, usize), Vec<Attempt>> = BTreeMap::new();
    for row in &sheet.rows {
        let cell = |column: &Column| {
            let cell = header.place(column).and_then(|place| row.cells.get(place));
            cell.map(|cell| cell.trim()).filter(|cell| !cell.is_empty())
        };
        let called = |column: &Column| {
            header.place(column).and_then(|place| sheet.header.get(place)).map_or("", String::as_str)
        };
        let unplaced = |why: String, meant: String| {
            let [student, paper, part] = [Column::Student, Column::Paper, Column::Part]
                .map(|column| cell(&column).unwrap_or_default().to_owned());
            Unplaced { row: row.number, student, paper, part, why, meant }
        };
        let owner = match owners.find(cell(&Column::Student), cell(&Column::Paper)) {
            Ok(owner) => owner,
            Err(nobody) => {
                let Nobody { by, what, mend, meant } = *nobody;
                found.unplaced.push(unplaced(what.clone(), meant));
                found.remarks.push(match by {
                    Some(column) => Fault::of_cell(row.number, called(&column), what, mend),
                    None => Fault::of_row(row.number, what, mend),
                });
                continue;
            }
        };
        found.rows.entry(owner).or_default().push(row.number);
        let Some(paper) = asked.get(owner) else { continue };
        let when = When::of(row.number, cell(&Column::Attempt), cell(&Column::Time));
        match header.shape {
            Shape::RowAStudent => {
                let answers = of_row(row, header, sheet, paper, &mut found.remarks);
                attempts.entry((owner, 0)).or_default().push((when, answers));
            }
            Shape::RowAnAnswer => {
                let name = cell(&Column::Part).unwrap_or_default();
                let at = match label(name, labels) {
                    Found::Label(label, _) => paper.parts.iter().position(|part| part.label == label),
                    _ => None,
                };
                let Some(at) = at else {
                    let what = format!(
                        "the paper of {:?} has no part {:?}",
                        shortened(&paper.student),
                        shortened(name)
                    );
                    let own: Vec<String> = paper.parts.iter().map(|part| part.label.clone()).collect();
                    let mend = format!("write one of {}; this answer is not read", labels_told(&own));
                    found.unplaced.push(unplaced(what.clone(), String::new()));
                    found.remarks.push(Fault::of_cell(row.number, called(&Column::Part), what, mend));
                    continue;
                };
                let column = header.place(&Column::Answer).unwrap_or_default();
                let beside = cell(&Column::Unit).map(unit_cell);
                let raw = row.cells.get(column).cloned().unwrap_or_default();
                let given = Given { raw, row: row.number, column, beside };
                attempts.entry((owner, at)).or_default().push((when, vec![(at, given)]));
            }
        }
    }
    let mut several: BTreeMap<usize, Several> = BTreeMap::new();
    for ((owner, at), all) in attempts {
        let part = match header.shape {
            Shape::RowAStudent => None,
            Shape::RowAnAnswer => asked.get(owner).and_then(|paper| paper.parts.get(at)),
        };
        if all.len() > 1 {
            several.entry(owner).or_default().add(&all, part.map(|part| part.label.as_str()));
        }
        let answers = last(all).unwrap_or_default();
        found.given.extend(answers.into_iter().map(|(part, given)| ((owner, part), given)));
    }
    for (owner, several) in several {
        let student = asked.get(owner).map_or("", |paper| paper.student.as_str());
        found.remarks.push(several.remark(student));
    }
    found
}

fn unit_cell(text: &str) -> Result<Beside, String> {
    let unit = unit_words::answer_unit(&super::written::plain(text));
    unit.map(|unit| Beside { unit, from: UnitFrom::Answer }).ok_or_else(|| text.to_owned())
}

/// The answers of a student's row.
fn of_row(
    row: &Row,
    header: &Header,
    sheet: &Sheet,
    paper: &PaperAsked,
    remarks: &mut Vec<Fault>,
) -> Vec<(usize, Given)> {
    let mut answers = Vec::new();
    for (place, column) in header.columns.iter().enumerate() {
        let Column::Of(label, unit) = column else { continue };
        let raw = row.cells.get(place).cloned().unwrap_or_default();
        let Some(at) = paper.parts.iter().position(|part| part.label == *label) else {
            if !raw.trim().is_empty() {
                let what = format!("the paper of {:?} has no part {label:?}", shortened(&paper.student));
                let name = sheet.header.get(place).map_or("", String::as_str);
                remarks.push(Fault::of_cell(
                    row.number,
                    name,
                    what,
                    "look whose answer this is; it is not read",
                ));
            }
            continue;
        };
        let own = header.place(&Column::UnitOf(label.clone())).and_then(|place| row.cells.get(place));
        let own = own.map(|cell| cell.trim()).filter(|cell| !cell.is_empty()).map(unit_cell);
        let beside = own.or_else(|| unit.clone().map(Ok));
        answers.push((at, Given { raw, row: row.number, column: place, beside }));
    }
    answers
}
