//! `glueline values`: every value of a lesson, as a table or as JSON.

use crate::arguments::Values;
use crate::failure::Failure;
use crate::{places, source};
use lesson::Lesson;
use mechanics::beam::Side;
use serde::Serialize;
use std::fmt::Write as _;
use unicode_width::UnicodeWidthStr as _;
use workings::elastic::ElasticTruth;
use workings::solved::Solved;
use workings::value::{Value, values};

#[derive(Serialize)]
struct Report<'a> {
    lesson: &'a str,
    rows: &'a [Value],
    /// What is not worked out, and why.
    remarks: Vec<String>,
    elastic: &'a Elastic,
}

/// What elastic theory says beside the formula. It stands apart from the rows, which a board answers at every step of a drag: this
/// takes longer, and is told there when somebody asks.
#[derive(Serialize)]
pub struct Elastic {
    rows: Vec<Value>,
    /// What was assumed, and what has no limit; or why there are no rows.
    cautions: Vec<String>,
}

impl Elastic {
    /// Solves the section.
    pub fn of(solved: &Solved) -> Self {
        match ElasticTruth::of(solved) {
            Ok(truth) => {
                let hint = ElasticTruth::hint(solved).map(str::to_owned);
                let cautions = truth.cautions(solved).into_iter().chain(hint).collect();
                Self { rows: truth.values(solved), cautions }
            }
            Err(none) => Self { rows: Vec::new(), cautions: vec![none.to_string()] },
        }
    }
}

/// Prints the values.
///
/// # Errors
/// Where the lesson has mistakes, or a place asked for lies off the beam or off the section.
pub fn run(job: &Values) -> Result<(), Failure> {
    let text = source::text(&job.lesson)?;
    let lesson = source::checked(&text, &job.lesson.display().to_string())?;
    let solved = source::solve(&lesson)?;
    let mut rows = all(&solved);
    rows.extend(elsewhere(&text, &lesson, &solved, job)?);
    let elastic = Elastic::of(&solved);
    if job.json {
        anstream::print!("{}", json(&lesson, &solved, (&rows, &elastic))?);
    } else {
        anstream::print!("{}", readable(&solved, &rows, &elastic));
    }
    Ok(())
}

/// The workings in the order of the worked solution, then what else the engine knows.
pub fn all(solved: &Solved) -> Vec<Value> {
    let mut rows = values(solved);
    rows.extend(solved.further_values());
    rows
}

/// The values at the places asked for on the command line.
fn elsewhere(text: &str, lesson: &Lesson, solved: &Solved, job: &Values) -> Result<Vec<Value>, Failure> {
    let asked =
        |option: &str, words: &str, what: String| Failure::Asked(format!("{option} {words:?}: {what}"));
    let read = |words: &String| places::station(lesson, words).map_err(|what| asked("--at", words, what));
    let mut stations = job.at.iter().map(read).collect::<Result<Vec<f64>, Failure>>()?;
    let read = |words: &String| places::cut_height(text, words).map_err(|what| asked("--cut", words, what));
    let cuts = job.cut.iter().map(read).collect::<Result<Vec<f64>, Failure>>()?;
    let mut rows = Vec::new();
    for &station in &stations {
        rows.extend(solved.values_at_station(station).unwrap_or_default());
    }
    if stations.is_empty() {
        stations.push(lesson.problem.slice.at);
    }
    for &height in &cuts {
        for &station in &stations {
            let side = if station < solved.beam().length() { Side::Right } else { Side::Left };
            let values = solved
                .values_at_cut(station, side, height)
                .map_err(|_| Failure::Asked(format!("a cut at a height of {height} m misses the section")))?;
            rows.extend(values);
        }
    }
    Ok(rows)
}

/// What is not worked out, and why.
fn remarks(solved: &Solved) -> Vec<String> {
    solved.why_no_walls().into_iter().collect()
}

/// The rows as JSON.
///
/// # Errors
/// [`Failure::Ours`] where a value is not finite, which no checked lesson gives.
pub fn json(
    lesson: &Lesson,
    solved: &Solved,
    (rows, elastic): (&[Value], &Elastic),
) -> Result<String, Failure> {
    if let Some(row) = rows.iter().chain(&elastic.rows).find(|row| !row.value.is_finite()) {
        return Err(Failure::Ours(format!("{} is no finite number", row.name)));
    }
    let report = Report { lesson: &lesson.about.title, rows, remarks: remarks(solved), elastic };
    let text = serde_json::to_string_pretty(&report).map_err(|error| Failure::Ours(error.to_string()))?;
    Ok(text + "\n")
}

/// All of it as text to read: the rows, then what elastic theory says.
pub fn readable(solved: &Solved, rows: &[Value], elastic: &Elastic) -> String {
    let mut out = table(rows);
    for remark in remarks(solved) {
        let _ = writeln!(out, "  {remark}");
    }
    out.push('\n');
    if elastic.rows.is_empty() {
        let _ = writeln!(out, "{}", heading("elastic"));
    }
    out.push_str(&table(&elastic.rows));
    for caution in &elastic.cautions {
        let _ = writeln!(out, "  {caution}");
    }
    out
}

/// What stands above the rows of a chapter.
fn heading(chapter: &str) -> String {
    // What stands there has no formula of its own, so no student can be asked for its steps.
    let remark = if matches!(chapter, "further" | "elastic") { ", NOT TO BE ASKED FOR" } else { "" };
    let name = if chapter == "elastic" { "elastic theory" } else { chapter };
    format!("{}{remark}", name.to_uppercase())
}

/// The rows as a table to read: the chapters of the worked solution, then name, symbol, value, place and formula.
fn table(rows: &[Value]) -> String {
    let cells: Vec<[&str; 4]> =
        rows.iter().map(|row| [&*row.name, &*row.symbol, &*row.shown, &*row.place]).collect();
    let width = |column: usize| cells.iter().map(|cell| cell[column].width()).max().unwrap_or(0);
    let widths = [width(0), width(1), width(2), width(3)];
    let mut out = String::new();
    let mut chapter = "";
    for (row, cell) in rows.iter().zip(&cells) {
        if row.chapter != chapter {
            chapter = row.chapter;
            let gap = if out.is_empty() { "" } else { "\n" };
            let _ = writeln!(out, "{gap}{}", heading(chapter));
        }
        let mut line = String::from("  ");
        for (column, text) in cell.iter().enumerate() {
            let pad = " ".repeat(widths[column].saturating_sub(text.width()));
            // Numbers stand to the right, words to the left.
            let padded = if column == 2 { format!("{pad}{text}  ") } else { format!("{text}{pad}  ") };
            line.push_str(&padded);
        }
        if let Some(formula) = &row.formula {
            line.push_str(formula);
        }
        let _ = writeln!(out, "{}", line.trim_end());
    }
    out
}
