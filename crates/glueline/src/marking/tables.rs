//! The marks as tables.

use super::OfStudent;
use crate::failure::Failure;
use assessment::mark::{Cause, Explanation, Judged, Verdict};
use assessment::set::{Ask, Part};
use exchange::answers::{Answer, Read, ToRead, Unplaced, table_to_read, table_unplaced};
use exchange::marks::{PartMarks, Record, StudentMarks, by_answer, by_student};
use exchange::table::Habit;

fn ours(fault: exchange::fault::Fault) -> Failure {
    Failure::Ours(fault.to_string())
}

/// A row for each student.
///
/// # Errors
/// None that is known.
pub fn marks(marked: &[OfStudent<'_>], habit: Habit) -> Result<Vec<u8>, Failure> {
    let part =
        |judged: &Judged| PartMarks { part: judged.part.clone(), marks: judged.marks(), out_of: judged.most };
    let students: Vec<StudentMarks> = marked
        .iter()
        .map(|OfStudent { holder, given, marked, .. }| StudentMarks {
            student: holder.student.clone(),
            name: holder.name.clone(),
            paper: holder.number.clone(),
            handed_in: !given.rows.is_empty(),
            parts: marked.parts.iter().map(part).collect(),
        })
        .collect();
    by_student(&students).and_then(|table| table.csv(habit)).map_err(ours)
}

/// A row for each answer.
///
/// # Errors
/// None that is known.
pub fn answers(marked: &[OfStudent<'_>], habit: Habit) -> Result<Vec<u8>, Failure> {
    let mut records = Vec::new();
    for of_student in marked {
        let parts = of_student.holder.set.parts();
        let judged = of_student.marked.parts.iter().zip(&of_student.given.answers);
        records.extend(
            parts.zip(judged).map(|(part, (judged, answer))| record(of_student, part, judged, answer)),
        );
    }
    by_answer(&records).and_then(|table| table.csv(habit)).map_err(ours)
}

fn record(of_student: &OfStudent<'_>, part: &Part, judged: &Judged, answer: &Answer) -> Record {
    let holder = of_student.holder;
    let (value, unit) = match &answer.read {
        Read::Number(number) | Read::OtherDimension(number) => (Some(number.number), number.unit.text()),
        _ => (None, String::new()),
    };
    Record {
        student: holder.student.clone(),
        lesson: holder.set.lesson.about.title.clone(),
        digest: holder.digest.clone(),
        paper: holder.number.clone(),
        part: judged.part.clone(),
        working: asked(part),
        raw: answer.raw.clone(),
        value,
        unit,
        marks: judged.marks(),
        out_of: judged.most,
        verdict: verdict(judged),
        mistake: mistakes(judged.verdict.explanations()),
        perhaps: mistakes(judged.verdict.guesses()),
        follow_through: through(&judged.verdict),
        ..Record::default()
    }
}

/// What a part asks for, by name.
fn asked(part: &Part) -> String {
    match &part.ask {
        Ask::Value(value) => value.working.clone(),
        Ask::Choice(choice) => choice.value.working.clone(),
        Ask::Place(place) => format!("place of the {}", place.working),
        Ask::Sketch { sketch } => format!("sketch: {}", sketch.written()),
    }
}

/// What it was found to be, with what is wrong with its unit, and whether a person decided.
fn verdict(judged: &Judged) -> String {
    let mut words = vec![judged.verdict.word()];
    if judged.unit.is_some() {
        words.push("unit");
    }
    if judged.decided.is_some() {
        words.push("decided by hand");
    }
    words.join(", ")
}

/// What was done by the ids of mistakes and slips: two of one explanation with a plus between, explanations with an "or".
fn mistakes(explanations: &[Explanation]) -> String {
    let explained = explanations.iter().map(|one| {
        let mut ids: Vec<&str> = one.cause.mistakes().iter().map(|made| made.mistake.as_str()).collect();
        if let Cause::MistakeAndSlip { slip, .. } = &one.cause {
            ids.push(slip.slip);
        }
        if ids.is_empty() { one.cause.word().to_owned() } else { ids.join(" + ") }
    });
    explained.collect::<Vec<_>>().join(" or ")
}

/// The parts whose own values an answer follows from: `1 3a`; where it may be one or another, `3a or 1`.
fn through(verdict: &Verdict) -> String {
    match verdict {
        Verdict::FollowThrough(through) => {
            let all = [through.answers.join(" ")].into_iter().chain(through.or.iter().cloned());
            all.collect::<Vec<_>>().join(" or ")
        }
        other => other.explanations().first().map_or_else(String::new, |one| one.from.join(" ")),
    }
}

/// The list of what a person has to read.
///
/// # Errors
/// None that is known.
pub fn to_read(list: &[ToRead], habit: Habit) -> Result<Vec<u8>, Failure> {
    table_to_read(list).and_then(|table| table.csv(habit)).map_err(ours)
}

/// The list of rows that belong to no paper.
///
/// # Errors
/// None that is known.
pub fn not_placed(list: &[Unplaced], habit: Habit) -> Result<Vec<u8>, Failure> {
    table_unplaced(list).and_then(|table| table.csv(habit)).map_err(ours)
}
