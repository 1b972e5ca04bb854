//! The key: one row for each paper and asked value.

use super::given::Given;
use crate::failure::Failure;
use assessment::fair::Judgement;
use assessment::issue::Issue;
use exchange::table::{Cell, Habit, Marks, Number, Table};
use lesson::Question;
use serde::Serialize;
use workings::shown::Shown;
use workings::solved::Solved;
use workings::style::DecimalMark;

/// One asked value of a paper.
#[derive(Clone, Debug, Serialize)]
pub struct Row {
    /// Its place on the paper: `3`, and for the steps before it `3a`, `3b`.
    pub question: String,
    /// The name of the working.
    pub working: String,
    /// The right value in the unit, with the course's figures.
    pub right: String,
    /// The unit of the right value and the bounds.
    pub unit: String,
    /// The least answer that is right, in the unit.
    pub lower: f64,
    /// The greatest.
    pub upper: f64,
    /// The right value, SI, all figures.
    pub right_si: f64,
    /// What it earns.
    pub marks: f64,
}

/// The rows of a paper; sketches have none.
pub fn rows(questions: &[Question], solved: &Solved, judgements: &[Judgement]) -> Vec<Row> {
    let mut rows = Vec::new();
    for (place, question) in questions.iter().enumerate() {
        let Some(asked) = question.value() else { continue };
        let steps = asked
            .steps
            .iter()
            .zip('a'..)
            .map(|(step, letter)| (format!("{}{letter}", place + 1), step, asked.step_marks));
        for (number, working, marks) in
            steps.chain([((place + 1).to_string(), &asked.working, question.marks)])
        {
            let judged = judgements.iter().find(|judgement| judgement.working == *working);
            rows.extend(judged.and_then(|judgement| row(number, marks, solved, judgement)));
        }
    }
    rows
}

fn row(question: String, marks: f64, solved: &Solved, judgement: &Judgement) -> Option<Row> {
    let working = solved.workings().get(&judgement.working)?;
    let shown = solved.style().show(working.value, working.symbol.role);
    let power = if shown.power == 0 { String::new() } else { format!("e{}", shown.power) };
    let bound = |offset: f64| shown.unit.from_si(judgement.right + offset);
    Some(Row {
        question,
        working: judgement.working.clone(),
        right: format!("{}{}{power}", if shown.negative { "-" } else { "" }, shown.digits),
        unit: unit(&shown),
        lower: neat(bound(-judgement.half_width)),
        upper: neat(bound(judgement.half_width)),
        right_si: judgement.right,
        marks,
    })
}

/// The unit as it is written, its space an ordinary one.
fn unit(shown: &Shown) -> String {
    shown.unit.text().replace('\u{a0}', " ")
}

/// A bound without the noise of converting it: twelve figures, far more than anybody answers with.
fn neat(bound: f64) -> f64 {
    format!("{bound:.11e}").parse().unwrap_or(bound)
}

/// The key as a sheet.
///
/// # Errors
/// None that is known.
pub fn csv(given: &[Given], issue: &Issue) -> Result<Vec<u8>, Failure> {
    let header = ["student id", "paper", "question", "working", "right", "unit", "lower", "upper", "marks"];
    let mut table = Table::new(header.map(str::to_owned).to_vec());
    let decimal_mark = issue.papers().lesson().style.decimal_mark;
    let ours = |fault: exchange::fault::Fault| Failure::Ours(fault.to_string());
    for given in given {
        for row in &given.key {
            let number = |value| Number::new(value).map_or_else(|| Cell::text(""), Cell::Number);
            table
                .push(vec![
                    Cell::text(&*given.student),
                    Cell::text(given.entry.number.to_string()),
                    Cell::text(&*row.question),
                    Cell::text(&*row.working),
                    Cell::text(row.right.replace('.', &decimal_mark.character().to_string())),
                    Cell::text(&*row.unit),
                    number(row.lower),
                    number(row.upper),
                    number(row.marks),
                ])
                .map_err(ours)?;
        }
    }
    let marks = match decimal_mark {
        DecimalMark::Point => Marks::Point,
        DecimalMark::Comma => Marks::Comma,
    };
    table.csv(Habit { marks, for_spreadsheets: true }).map_err(ours)
}

#[derive(Serialize)]
struct File<'a> {
    lesson: &'a str,
    papers: Vec<Entry<'a>>,
}

#[derive(Serialize)]
struct Entry<'a> {
    student: &'a str,
    paper: String,
    drawn: Vec<String>,
    shared: bool,
    key: &'a [Row],
}

/// The key for another program.
///
/// # Errors
/// [`Failure::Ours`] where it cannot be written.
pub fn json(given: &[Given], issue: &Issue) -> Result<String, Failure> {
    let papers = given.iter().map(|given| Entry {
        student: &given.student,
        paper: given.entry.number.to_string(),
        drawn: issue.papers().words(&given.entry.draw),
        shared: given.entry.shared,
        key: &given.key,
    });
    let file = File { lesson: &issue.papers().lesson().about.title, papers: papers.collect() };
    let text = serde_json::to_string_pretty(&file).map_err(|error| Failure::Ours(error.to_string()))?;
    Ok(text + "\n")
}
