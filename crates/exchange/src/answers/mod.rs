//! Reading a class's answers from CSV: a row for each student with a column for each part, or a row for each answer.
//!
//! What a student wrote is kept as it stands, beside what was read of it. Nothing is guessed: what can be read in two
//! ways, and what is no number, goes to a list that a person fills in and that the next run reads again ([`Decisions`]).
//!
//! Numbers are read with any decimal mark and any grouping, as powers of ten and as fractions, with a unit behind, in the
//! header or in a column of its own; another unit than the one asked for is converted, one of another dimension is told as
//! such ([`Read::OtherDimension`]). Without a unit the one that the question asks for is meant. Where a comma or a point may part
//! decimals or thousands (`1,234`), it is decided by a declared habit, by the other numbers of the same student, of the same column,
//! of the file, in this order, or not at all; where no number of the file speaks, the decimal mark of the papers does, so that
//! `1.234` is a little more than one where the papers are printed with points.
//!
//! Words that tell a direction are read where [`assessment::set`] says which sign they mean: up for reactions, counter-clockwise
//! for couples at supports, sagging for moments, tension (`T`) and compression (`C`) for normal stresses, from the left end for stations
//! and from the bottom for heights. Of all other quantities such words say no sign, and a person decides.

mod asked;
mod attempt;
mod choice;
mod decision;
mod doubt;
mod gather;
mod habit;
mod header;
mod number;
mod numeral;
mod reading;
mod time;
mod unit_words;
mod way;
mod written;

pub use asked::{AskedOn, Kind, PaperAsked, PartAsked, Signs};
pub use decision::{Decisions, ToRead, table as table_to_read};
pub use doubt::{Doubt, DoubtKind};
pub use habit::{Habit, MarkBy};
pub use header::Shape;
pub use number::{Number, UnitFrom};
pub use numeral::Mark;
pub use reading::Read;

use crate::fault::{Fault, shortened};
use crate::sheet;
use assessment::mark;
use decision::reference;
use gather::{Gathered, Given, gather};
use habit::Evidence;
use header::{Column, Header};
use reading::{Cell, cell};
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// The answers of a class.
#[derive(Clone, Debug, PartialEq)]
pub struct Answers {
    /// How the file is laid out.
    pub shape: Shape,
    /// One for each paper that was given out, in the order of the papers.
    pub papers: Vec<PaperAnswers>,
    /// The answers that a person has to read, and those that a person has read; to be written back with [`table_to_read`].
    pub to_read: Vec<ToRead>,
    /// What was read, but not without doubt, and what was not read; by row.
    pub remarks: Vec<Fault>,
    /// The headers of columns that mean nothing here.
    pub other_columns: Vec<String>,
    /// What stands in these columns, by row.
    pub other: BTreeMap<usize, Vec<String>>,
    /// The rows that belong to no paper.
    pub unplaced: Vec<usize>,
}

/// One student's answers.
#[derive(Clone, Debug, PartialEq)]
pub struct PaperAnswers {
    /// The student's id.
    pub student: String,
    /// The number of the paper.
    pub paper: String,
    /// The rows of the file that are this student's; none where there is nothing from this student.
    pub rows: Vec<usize>,
    /// One for each part, in the order of the paper.
    pub answers: Vec<Answer>,
}

/// One answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The label of the part.
    pub part: String,
    /// As it stands in the file; empty where nothing does.
    pub raw: String,
    /// Its row; none where the file has no place for it.
    pub row: Option<usize>,
    /// What was read.
    pub read: Read,
    /// Whether a person has read it.
    pub decided: bool,
    /// What decided whether its comma or point parts decimals or thousands; none where the text alone says it.
    pub mark_by: Option<MarkBy>,
}

impl Answer {
    /// The same for marking. What no person has read yet waits there for a person too.
    pub fn for_marking(&self) -> mark::Answer {
        let unreadable = || mark::Answer::Unreadable(self.raw.clone());
        let written = |number: f64, half: Option<f64>| {
            mark::Written::new(number, half.filter(|half| half.is_finite() && *half > 0.0))
        };
        let of_number = |number: &Number| match number.unit_from {
            UnitFrom::Question => {
                written(number.number, number.last_place.map(|place| 0.5 * place)).map(mark::Answer::Bare)
            }
            _ => written(number.value, number.half_place()).map(mark::Answer::Value),
        };
        match &self.read {
            Read::Blank => mark::Answer::Blank,
            Read::Number(number) => of_number(number).unwrap_or_else(unreadable),
            Read::OtherDimension(number) => {
                let half = number.last_place.map(|place| 0.5 * place);
                written(number.number, half).map_or_else(unreadable, mark::Answer::OtherKind)
            }
            Read::Choice(chosen) => mark::Answer::Choice(*chosen),
            Read::BesideADrawing | Read::Unreadable | Read::ByHand(_) => unreadable(),
        }
    }
}

/// Reads a file of answers to these papers. `decisions` are those of an earlier run, if there are any.
///
/// ```
/// use assessment::set::AnswerUnit;
/// use exchange::answers::{self, Kind, PaperAsked, PartAsked, Read, Signs};
/// use workings::unit::Unit;
///
/// let unit = AnswerUnit { unit: Unit::read("MPa").expect("a unit"), power: 0 };
/// let part = PartAsked { label: "1".into(), kind: Kind::Value { unit, signs: Signs::None } };
/// let paper = PaperAsked { student: "007".into(), paper: String::new(), parts: vec![part] };
/// let file = "student id,Question 1\r\n007,tau = 480 kPa\r\n";
/// let answers = answers::read(file.as_bytes(), &[paper], Default::default(), &Default::default()).expect("answers");
/// let Read::Number(number) = &answers.papers[0].answers[0].read else { panic!("a number") };
/// assert_eq!((number.value, number.figures), (480e3, Some(3)));
/// ```
///
/// # Errors
/// Every fault that leaves no way to read the file: what [`sheet::read`] refuses, a header that does not say whose answers these are
/// or to which parts, two columns for the same.
pub fn read(
    bytes: &[u8],
    asked: &[PaperAsked],
    habit: Habit,
    decisions: &Decisions,
) -> Result<Answers, Vec<Fault>> {
    let sheet = sheet::read(bytes)?;
    let mut labels: Vec<String> = Vec::new();
    let mut known = BTreeSet::new();
    for part in asked.iter().flat_map(|paper| &paper.parts) {
        if known.insert(&part.label) {
            labels.push(part.label.clone());
        }
    }
    let header = Header::of(&sheet, asked, &labels)?;
    let Gathered { given, rows, unplaced, remarks } = gather(&sheet, &header, asked, &labels);
    let mut remarks: Vec<Fault> =
        sheet.warnings.iter().cloned().chain(header.remarks).chain(remarks).collect();

    let cells: BTreeMap<(usize, usize), Cell> = given
        .iter()
        .filter_map(|(&(paper, part), given)| {
            let asked = asked.get(paper)?.parts.get(part)?;
            Some(((paper, part), of_given(given, asked)))
        })
        .collect();
    let label = |&(paper, part): &(usize, usize)| {
        asked.get(paper).and_then(|paper| paper.parts.get(part)).map_or("", |part| part.label.as_str())
    };
    let mut evidence = Evidence::default();
    for (place, cell) in &cells {
        if let Cell::With(mark, _) = cell {
            evidence.add(place.0, label(place), *mark);
        }
    }
    let mut decided_by: BTreeMap<MarkBy, Vec<usize>> = BTreeMap::new();
    let mut marks: BTreeMap<(usize, usize), MarkBy> = BTreeMap::new();
    let mut reads: BTreeMap<(usize, usize), Read> = BTreeMap::new();
    for (place, cell) in cells {
        let Some(kind) = asked.get(place.0).and_then(|paper| paper.parts.get(place.1)).map(|part| &part.kind)
        else {
            continue;
        };
        let read = match cell {
            Cell::Sure(read) => read,
            Cell::With(_, number) => Read::of(number, kind),
            Cell::Either { point, comma } => {
                match evidence.decide(habit, (place.0, label(&place)), (point, comma)) {
                    Ok((number, by)) => {
                        marks.insert(place, by);
                        decided_by.entry(by).or_default().extend(given.get(&place).map(|given| given.row));
                        Read::of(number, kind)
                    }
                    Err(doubt) => Read::ByHand(doubt),
                }
            }
        };
        reads.insert(place, read);
    }
    remarks.extend(decided_by.into_iter().filter(|(by, _)| *by != MarkBy::Declared).map(told));

    let others: Vec<usize> =
        (0..sheet.header.len()).filter(|&at| header.columns.get(at) == Some(&Column::Other)).collect();
    let cells_of = |row: &sheet::Row| others.iter().filter_map(|&at| row.cells.get(at).cloned()).collect();
    let mut answers = Answers {
        shape: header.shape,
        papers: Vec::with_capacity(asked.len()),
        to_read: Vec::new(),
        remarks,
        other_columns: others.iter().filter_map(|&at| sheet.header.get(at).cloned()).collect(),
        other: sheet.rows.iter().map(|row| (row.number, cells_of(row))).collect(),
        unplaced,
    };
    for (at, paper) in asked.iter().enumerate() {
        let answer = |(place, part): (usize, &PartAsked)| {
            let given = given.get(&(at, place));
            Answer {
                part: part.label.clone(),
                raw: given.map_or_else(String::new, |given| given.raw.clone()),
                row: given.map(|given| given.row),
                read: reads.remove(&(at, place)).unwrap_or(Read::Blank),
                decided: false,
                mark_by: marks.get(&(at, place)).copied(),
            }
        };
        answers.papers.push(PaperAnswers {
            student: paper.student.clone(),
            paper: paper.paper.clone(),
            rows: rows.get(&at).cloned().unwrap_or_default(),
            answers: paper.parts.iter().enumerate().map(answer).collect(),
        });
    }
    let absent: Vec<String> = answers
        .papers
        .iter()
        .filter(|paper| paper.rows.is_empty())
        .map(|paper| shortened(&paper.student))
        .collect();
    if !absent.is_empty() {
        let more = if absent.len() > 12 { ", …" } else { "" };
        let what = format!(
            "nothing in the file is from {} of {} students: {}{more}",
            absent.len(),
            answers.papers.len(),
            absent.iter().take(12).cloned().collect::<Vec<_>>().join(", ")
        );
        answers.remarks.push(Fault::of_file(what, "nothing if they did not take part"));
    }
    answers.decide(asked, habit, decisions);
    if !answers.other_columns.is_empty() {
        let names: Vec<String> =
            answers.other_columns.iter().take(8).map(|name| format!("{:?}", shortened(name))).collect();
        let what = format!("columns that are no answers: {}; they are kept", names.join(", "));
        let mend = "name a column by the label of its part if it holds answers";
        answers.remarks.push(Fault { row: Some(1), ..Fault::of_file(what, mend) });
    }
    answers.remarks.sort_by_key(|remark| remark.row);
    Ok(answers)
}

/// What a cell says, with the unit beside it.
fn of_given(given: &Given, part: &PartAsked) -> Cell {
    match &given.beside {
        None => cell(&given.raw, part, None),
        Some(Ok(beside)) => cell(&given.raw, part, Some(beside)),
        // No unit at all stands where one should: a number with its own unit is still what it is.
        Some(Err(text)) => match cell(&given.raw, part, None) {
            Cell::Sure(Read::Blank) => Cell::Sure(Read::Blank),
            _ => {
                let what = format!("{:?} beside it is no unit that is known", shortened(text));
                Cell::Sure(Read::ByHand(Doubt::new(DoubtKind::Unit, what)))
            }
        },
    }
}

/// A remark on numbers whose comma or point could be read in two ways.
fn told((by, mut rows): (MarkBy, Vec<usize>)) -> Fault {
    rows.sort_unstable();
    rows.dedup();
    let shown: Vec<String> = rows.iter().take(8).map(usize::to_string).collect();
    let more = if rows.len() > shown.len() { ", …" } else { "" };
    let what = format!(
        "a comma or point that may part decimals or thousands was read by {}, in rows {}{more}",
        by.in_words(),
        shown.join(", ")
    );
    Fault::of_file(what, "declare the decimal mark of the file if this is wrong")
}

impl Answers {
    /// Puts in what a person has decided, and lists what is still to be read.
    fn decide(&mut self, asked: &[PaperAsked], habit: Habit, decisions: &Decisions) {
        let mut made: HashMap<&str, (usize, &ToRead)> =
            decisions.made.iter().map(|(row, made)| (made.reference.as_str(), (*row, made))).collect();
        for (paper, asked) in self.papers.iter_mut().zip(asked) {
            for (answer, part) in paper.answers.iter_mut().zip(&asked.parts) {
                let Read::ByHand(doubt) = answer.read.clone() else { continue };
                let reference = reference(&paper.student, &answer.part, &answer.raw);
                let decision = made.remove(reference.as_str());
                let decided = decision.map_or_else(String::new, |(_, decision)| decision.decided.clone());
                if let Some((row, _)) = decision.filter(|_| !decided.is_empty()) {
                    match decided_read(&decided, part, habit) {
                        Ok(read) => {
                            answer.read = read;
                            answer.decided = true;
                        }
                        Err(why) => {
                            let what = format!(
                                "row {row} of the decisions: {:?} cannot be taken as decided: {why}",
                                shortened(&decided)
                            );
                            let mend =
                                "write a number with its unit, the letter of a choice, blank, or unreadable";
                            self.remarks.push(Fault::of_file(what, mend));
                        }
                    }
                }
                self.to_read.push(ToRead {
                    reference,
                    student: paper.student.clone(),
                    paper: paper.paper.clone(),
                    part: answer.part.clone(),
                    raw: answer.raw.clone(),
                    why: doubt.what,
                    could_mean: doubt.readings.join(" or "),
                    decided,
                });
            }
        }
        // Kept, so that no work of a person is lost.
        for (row, decision) in &decisions.made {
            if !decision.decided.is_empty() && made.contains_key(decision.reference.as_str()) {
                let what = format!(
                    "row {row} of the decisions: the answer {:?} of {:?} to part {} is not to be read by hand any more",
                    shortened(&decision.raw),
                    shortened(&decision.student),
                    shortened(&decision.part)
                );
                self.remarks.push(Fault::of_file(
                    what,
                    "nothing, or take the row away; it is kept and has no effect",
                ));
                self.to_read.push(decision.clone());
            }
        }
    }
}

/// What a person has decided.
fn decided_read(decided: &str, part: &PartAsked, habit: Habit) -> Result<Read, String> {
    match decided.to_lowercase().as_str() {
        "blank" => return Ok(Read::Blank),
        "unreadable" => return Ok(Read::Unreadable),
        _ => {}
    }
    match cell(decided, part, None) {
        Cell::Sure(Read::ByHand(doubt)) => Err(doubt.what),
        Cell::Sure(read) => Ok(read),
        Cell::With(_, number) => Ok(Read::of(number, &part.kind)),
        Cell::Either { point, comma } => match habit.declared {
            Some(Mark::Point) => Ok(Read::of(point, &part.kind)),
            Some(Mark::Comma) => Ok(Read::of(comma, &part.kind)),
            None => Err(format!("it may be {} or {}", point.text(), comma.text())),
        },
    }
}
