//! What a person marks: a list that is written, filled in, and read again, and whose marks stand over every verdict as long as the answer
//! is the one that was marked.

use super::class::{Class, Holder};
use super::{OfStudent, contents, is_to_mark};
use crate::failure::Failure;
use assessment::mark::{Decision, Judged};
use exchange::answers::{self, Answers, reference};
use exchange::sheet;
use exchange::table::{Cell, Habit, Number, Table};
use std::collections::BTreeMap;
use std::path::Path;

/// The columns, as they are written.
const COLUMNS: [&str; 10] = [
    "reference",
    "student id",
    "name",
    "paper",
    "part",
    "answer",
    "out of",
    "marks",
    "note",
    "marked before",
];

/// What a person decided.
#[derive(Debug, Default)]
pub struct ByHand {
    decisions: Vec<Decision>,
    /// What was decided of an answer that is another by now, in words, by the paper and the part.
    before: BTreeMap<(String, String), String>,
}

impl ByHand {
    /// Reads the list, if there is one.
    ///
    /// # Errors
    /// Every row that cannot stand, with what would be right.
    pub fn read(path: &Path, class: &Class, answers: &Answers) -> Result<Self, Failure> {
        let Some(bytes) = contents(path)? else { return Ok(Self::default()) };
        let sheet = sheet::read(&bytes).map_err(|faults| crate::papers::list_of(path, &faults))?;
        let place =
            |wanted: &str| sheet.header.iter().position(|name| name.trim().eq_ignore_ascii_case(wanted));
        let mut wrong = Vec::new();
        for wanted in ["paper", "part", "marks"] {
            if place(wanted).is_none() {
                wrong.push(format!(
                    "no column is called {wanted:?}\n  to mend it: keep the columns of the list that was written; fill in the marks only"
                ));
            }
        }
        let mut read = Self::default();
        for row in &sheet.rows {
            let cell =
                |wanted| place(wanted).and_then(|place| row.cells.get(place)).map_or("", |cell| cell.trim());
            let [reference, student, paper, part, answer, marks, note, before] =
                ["reference", "student id", "paper", "part", "answer", "marks", "note", "marked before"]
                    .map(cell);
            let place = (paper.to_owned(), part.to_owned());
            if marks.is_empty() {
                read.before.extend(Some((place, before.to_owned())).filter(|_| !before.is_empty()));
                continue;
            }
            match decided(class, (student, paper, part), marks) {
                Ok(_) if !is_of(answers, (paper, part), (reference, answer)) => {
                    let note = if note.is_empty() { String::new() } else { format!(" ({note})") };
                    read.before.insert(place, format!("{marks} for {answer:?}{note}"));
                }
                Ok(marks) => {
                    let (paper, part) = place;
                    read.decisions.push(Decision { paper, part, marks, note: note.to_owned() });
                }
                Err(what) => wrong.push(format!("row {}: {what}", row.number)),
            }
        }
        if wrong.is_empty() {
            return Ok(read);
        }
        let told: Vec<String> = wrong.iter().map(|what| format!("{}, {what}", path.display())).collect();
        Err(Failure::List(told.join("\n")))
    }

    /// What was decided.
    pub fn decisions(&self) -> &[Decision] {
        &self.decisions
    }

    /// How many answers are others than those that a person has marked.
    pub fn changed(&self) -> usize {
        self.before.len()
    }

    fn marked_before(&self, one: &OfStudent<'_>, judged: &Judged) -> &str {
        let place = (one.holder.number.clone(), judged.part.clone());
        self.before.get(&place).map_or("", String::as_str)
    }

    /// The list anew: every answer that waits for a person, every one that a person has marked, and every one that has changed since.
    ///
    /// # Errors
    /// None that is known.
    pub fn written(&self, marked: &[OfStudent<'_>], habit: Habit) -> Result<Vec<u8>, Failure> {
        let ours = |fault: exchange::fault::Fault| Failure::Ours(fault.to_string());
        let number =
            |value: Option<f64>| value.and_then(Number::new).map_or_else(|| Cell::text(""), Cell::Number);
        let mut table = Table::new(COLUMNS.map(str::to_owned).into());
        for one in marked {
            let holder = one.holder;
            for (judged, answer) in one.all() {
                let before = self.marked_before(one, judged);
                if before.is_empty() && !is_to_mark(judged, answer) {
                    continue;
                }
                let decided = judged.decided.as_ref();
                table
                    .push(vec![
                        Cell::text(reference(&holder.student, &judged.part, &answer.raw)),
                        Cell::text(&*holder.student),
                        Cell::text(&*holder.name),
                        Cell::text(&*holder.number),
                        Cell::text(&*judged.part),
                        Cell::text(&*answer.raw),
                        number(Some(judged.most)),
                        number(decided.map(|decided| decided.marks)),
                        Cell::text(decided.map_or("", |decided| decided.note.as_str())),
                        Cell::text(before),
                    ])
                    .map_err(ours)?;
            }
        }
        table.csv(habit).map_err(ours)
    }
}

/// Whether marks are those of the answer that stands in the file now: by their reference, else by the answer beside them. A row that
/// somebody has added tells neither, and is about whatever stands there.
fn is_of(answers: &Answers, (paper, part): (&str, &str), (reference, answer): (&str, &str)) -> bool {
    let own = answers.papers.iter().find(|own| own.paper == paper);
    let found = own.and_then(|own| Some((own, own.answers.iter().find(|answer| answer.part == part)?)));
    let Some((own, now)) = found else { return true };
    match reference {
        "" => answer.is_empty() || answer == now.raw.trim(),
        told => told.eq_ignore_ascii_case(&answers::reference(&own.student, part, &now.raw)),
    }
}

/// The marks of a row, if there is such a part of such a student's and they are from nothing to what it earns.
fn decided(class: &Class, (student, paper, part): (&str, &str, &str), marks: &str) -> Result<f64, String> {
    let holder = class.paper(paper);
    let Some(holder) = holder.filter(|holder| student.is_empty() || is_same_id(&holder.student, student))
    else {
        return Err(no_paper(class, student, (paper, holder)));
    };
    let Some(found) = holder.set.parts().find(|one| one.label == part) else {
        let all: Vec<&str> = holder.set.parts().map(|one| one.label.as_str()).collect();
        return Err(format!("paper {paper} has no part {part:?}\n  to mend it: it has {}", all.join(", ")));
    };
    let most = found.marks;
    let number = marks.replace(',', ".").parse::<f64>().ok().filter(|number| (0.0..=most).contains(number));
    number.ok_or_else(|| {
        format!("{marks:?} is no mark from 0 to {most}\n  to mend it: write such a number, or nothing")
    })
}

/// Why a row is about nobody's paper, and what would be right as far as the row tells.
fn no_paper(class: &Class, student: &str, (paper, holder): (&str, Option<&Holder>)) -> String {
    let of_student = class.holders.iter().find(|holder| is_same_id(&holder.student, student));
    match (holder, of_student) {
        (Some(holder), Some(own)) => format!(
            "paper {paper} is that of student {}, not of {student}\n  to mend it: write {}, the paper of {student}, or the other student",
            holder.student, own.number
        ),
        (Some(holder), None) => format!(
            "nobody with a paper has the student id {student:?}\n  to mend it: paper {paper} is that of student {}",
            holder.student
        ),
        (None, Some(own)) => {
            format!(
                "no paper has the number {paper:?}\n  to mend it: student {student} has paper {}",
                own.number
            )
        }
        (None, None) => {
            format!(
                "no paper has the number {paper:?}\n  to mend it: take the student and the paper from marks.csv"
            )
        }
    }
}

/// A spreadsheet takes the noughts off that an id begins with.
fn is_same_id(one: &str, other: &str) -> bool {
    one == other || one.trim_start_matches('0') == other.trim_start_matches('0')
}
