//! Reading a class's answers from CSV: a row for each student with a column for each part, or a row for each answer.
//!
//! What a student wrote is kept as it stands, beside what was read of it. Nothing is guessed: what can be read in two
//! ways, and what is no number, goes to a list that a person fills in and that the next run reads again ([`Decisions`]). Only where
//! one of two readings is ten thousand times too large or too small for any answer to the question, the other is taken.
//!
//! Numbers are read with any decimal mark and any grouping, as powers of ten and as fractions, with a unit behind, in the
//! header or in a column of its own; another unit than the one asked for is converted, one of another dimension is told as
//! such ([`Read::OtherDimension`]). Without a unit the one that the question asks for is meant. Where a comma or a point may part
//! decimals or thousands (`1,234`), it is decided by a declared habit, by a power of ten behind the number, by the other numbers of the
//! same student, in this order, or not at all; where no number of the file speaks against it, the decimal mark of the papers does, so
//! that `1.234` is a little more than one where the papers are printed with points. What other students write decides nothing.
//!
//! Words that tell a direction are read where [`assessment::set`] says which sign they mean: up for reactions, counter-clockwise
//! for couples at supports, sagging for moments, tension (`T`) and compression (`C`) for normal stresses, from the left end for stations
//! and from the bottom for heights. Of all other quantities such words say no sign, and a person decides.

mod asked;
mod attempt;
mod choice;
mod decide;
mod decision;
mod doubt;
mod gather;
mod habit;
mod header;
mod number;
mod numeral;
mod reading;
mod resolve;
mod time;
mod typed;
mod unit_words;
mod unplaced;
mod way;
mod written;

pub use asked::{AskedOn, Chosen, Kind, PaperAsked, PartAsked, Signs};
pub use decision::{Decisions, ToRead, reference, table as table_to_read};
pub use doubt::{Doubt, DoubtKind};
pub use habit::{Habit, MarkBy};
pub use header::Shape;
pub use number::{Number, UnitFrom};
pub use numeral::Mark;
pub use reading::Read;
pub use typed::typed;
pub use unplaced::{Unplaced, table as table_unplaced};

use crate::fault::{Fault, shortened};
use crate::sheet;
use assessment::mark;
use gather::{Gathered, gather};
use header::{Column, Header};
use resolve::{Resolved, resolve};
use std::collections::{BTreeMap, BTreeSet};

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
    /// What is odd in the list of decisions, by its own rows.
    pub of_decisions: Vec<Fault>,
    /// The headers of columns that mean nothing here.
    pub other_columns: Vec<String>,
    /// What stands in these columns, by row.
    pub other: BTreeMap<usize, Vec<String>>,
    /// The rows that belong to no paper, or to no part of one.
    pub unplaced: Vec<Unplaced>,
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
    /// What is in doubt about it, in words that end a sentence; empty where nothing is.
    pub fn doubt(&self) -> String {
        match &self.read {
            Read::ByHand(doubt) if doubt.readings.is_empty() => doubt.what.clone(),
            Read::ByHand(doubt) => format!("{} ({})", doubt.what, doubt.readings.join(" or ")),
            _ => String::new(),
        }
    }

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
/// use exchange::answers::{self, AskedOn, Kind, PaperAsked, PartAsked, Read, Signs};
/// use workings::unit::Unit;
///
/// let unit = AnswerUnit { unit: Unit::read("MPa").expect("a unit"), power: 0 };
/// let part = PartAsked { label: "1".into(), kind: Kind::Value { unit, signs: Signs::None }, about: None, on: AskedOn::Paper };
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
    let labels = labels(asked);
    let header = Header::of(&sheet, asked, &labels)?;
    let Gathered { given, rows, unplaced, remarks } = gather(&sheet, &header, asked, &labels);
    let Resolved { mut reads, remarks: of_marks } = resolve(&given, asked, habit);
    let all_remarks = sheet.warnings.iter().cloned().chain(header.remarks).chain(remarks).chain(of_marks);

    let others: Vec<usize> =
        (0..sheet.header.len()).filter(|&at| header.columns.get(at) == Some(&Column::Other)).collect();
    let cells_of = |row: &sheet::Row| others.iter().filter_map(|&at| row.cells.get(at).cloned()).collect();
    let mut answers = Answers {
        shape: header.shape,
        papers: Vec::with_capacity(asked.len()),
        to_read: Vec::new(),
        remarks: all_remarks.collect(),
        of_decisions: Vec::new(),
        other_columns: others.iter().filter_map(|&at| sheet.header.get(at).cloned()).collect(),
        other: sheet.rows.iter().map(|row| (row.number, cells_of(row))).collect(),
        unplaced,
    };
    for (at, paper) in asked.iter().enumerate() {
        let answer = |(place, part): (usize, &PartAsked)| {
            let given = given.get(&(at, place));
            let (read, mark_by) = reads.remove(&(at, place)).unwrap_or((Read::Blank, None));
            Answer {
                part: part.label.clone(),
                raw: given.map_or_else(String::new, |given| given.raw.clone()),
                row: given.map(|given| given.row),
                read,
                decided: false,
                mark_by,
            }
        };
        answers.papers.push(PaperAnswers {
            student: paper.student.clone(),
            paper: paper.paper.clone(),
            rows: rows.get(&at).cloned().unwrap_or_default(),
            answers: paper.parts.iter().enumerate().map(answer).collect(),
        });
    }
    answers.decide(asked, &given, habit, decisions);
    answers.remarks.extend(answers.absent());
    answers.remarks.extend(answers.other_remark());
    answers.remarks.sort_by_key(|remark| remark.row);
    Ok(answers)
}

/// The labels of all parts of all papers, in the order in which they come.
fn labels(asked: &[PaperAsked]) -> Vec<String> {
    let mut known = BTreeSet::new();
    let labels = asked.iter().flat_map(|paper| &paper.parts).map(|part| &part.label);
    labels.filter(|label| known.insert(*label)).cloned().collect()
}

impl Answers {
    /// A remark on students of whom the file has nothing.
    fn absent(&self) -> Option<Fault> {
        const MOST: usize = 12; // a line
        let absent: Vec<String> = self
            .papers
            .iter()
            .filter(|paper| paper.rows.is_empty())
            .map(|paper| shortened(&paper.student))
            .collect();
        let told = absent.iter().take(MOST).cloned().collect::<Vec<_>>().join(", ");
        let more = if absent.len() > MOST { ", …" } else { "" };
        let (count, all) = (absent.len(), self.papers.len());
        let what = format!("nothing in the file is from {count} of {all} students: {told}{more}");
        (count > 0).then(|| Fault::of_file(what, "nothing if they did not take part"))
    }

    /// A remark on columns that mean nothing here.
    fn other_remark(&self) -> Option<Fault> {
        let names: Vec<String> =
            self.other_columns.iter().take(8).map(|name| format!("{:?}", shortened(name))).collect();
        let what = format!("columns that are no answers: {}; they are kept", names.join(", "));
        let mend = "name a column by the label of its part if it holds answers";
        (!names.is_empty()).then(|| Fault { row: Some(1), ..Fault::of_file(what, mend) })
    }
}
