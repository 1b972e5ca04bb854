//! What a person marks: a list that is written, filled in, and read again, and whose marks stand over every verdict.

use super::class::{Class, Holder};
use super::{OfStudent, contents};
use crate::failure::Failure;
use assessment::mark::Decision;
use exchange::sheet;
use exchange::table::{Cell, Habit, Number, Table};
use std::path::Path;

/// The columns, as they are written.
const COLUMNS: [&str; 8] = ["student id", "name", "paper", "part", "answer", "out of", "marks", "note"];

/// What a person decided.
#[derive(Debug, Default)]
pub struct ByHand {
    decisions: Vec<Decision>,
}

impl ByHand {
    /// Reads the list, if there is one.
    ///
    /// # Errors
    /// Every row that cannot stand, with what would be right.
    pub fn read(path: &Path, class: &Class) -> Result<Self, Failure> {
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
        let mut decisions = Vec::new();
        for row in &sheet.rows {
            let cell =
                |wanted| place(wanted).and_then(|place| row.cells.get(place)).map_or("", |cell| cell.trim());
            let [student, paper, part, marks, note] =
                ["student id", "paper", "part", "marks", "note"].map(cell);
            if marks.is_empty() {
                continue;
            }
            let decision = |marks| Decision {
                paper: paper.to_owned(),
                part: part.to_owned(),
                marks,
                note: note.to_owned(),
            };
            match decided(class, (student, paper, part), marks) {
                Ok(marks) => decisions.push(decision(marks)),
                Err(what) => wrong.push(format!("row {}: {what}", row.number)),
            }
        }
        if wrong.is_empty() {
            return Ok(Self { decisions });
        }
        let told: Vec<String> = wrong.iter().map(|what| format!("{}, {what}", path.display())).collect();
        Err(Failure::List(told.join("\n")))
    }

    /// What was decided.
    pub fn decisions(&self) -> &[Decision] {
        &self.decisions
    }

    /// The list anew: every answer that waits for a person, and every one that a person has marked.
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
            for (judged, answer) in one.to_mark() {
                let decided = judged.decided.as_ref();
                table
                    .push(vec![
                        Cell::text(&*holder.student),
                        Cell::text(&*holder.name),
                        Cell::text(&*holder.number),
                        Cell::text(&*judged.part),
                        Cell::text(&*answer.raw),
                        number(Some(judged.most)),
                        number(decided.map(|decided| decided.marks)),
                        Cell::text(decided.map_or("", |decided| decided.note.as_str())),
                    ])
                    .map_err(ours)?;
            }
        }
        table.csv(habit).map_err(ours)
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
