//! The key: one row for each paper and each answer.

use super::given::Given;
use crate::failure::Failure;
use assessment::issue::Issue;
use assessment::set::{
    Along, Alternative, AnswerUnit, Ask, Band, ChoicePart, Part, PlacePart, SetPaper, ValuePart, letter,
};
use exchange::table::{Cell, Habit, Marks, Number, Table};
use serde::Serialize;
use workings::dimension::Dimension;
use workings::quantity::Quantity;
use workings::role::Role;
use workings::shown::Shown;
use workings::solved::Solved;
use workings::style::DecimalMark;

/// What is right for one answer.
#[derive(Clone, Debug, Serialize)]
pub struct Row {
    /// Its place on the paper: `3`, or `3a`, `3b`.
    pub question: String,
    /// What is asked for: the name of the working, or what is drawn.
    pub asks: String,
    /// What it earns.
    pub marks: f64,
    /// What is right; none for a sketch.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub right: Option<Right>,
    /// What else is to be known.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub remark: String,
}

/// A right value.
#[derive(Clone, Debug, Serialize)]
pub struct Right {
    /// With the course's figures, in the unit; where a place is right all along a stretch, `1 to 2.5`.
    pub value: String,
    /// The unit of the value and of the bounds, with a power of ten where it has one.
    pub unit: String,
    /// The bounds of all answers that are right, in the unit; the first are those of the value.
    pub accepted: Vec<[f64; 2]>,
    /// The value, SI, all figures; of a stretch its beginning.
    pub si: f64,
}

/// The rows of a paper.
pub fn rows(paper: &SetPaper) -> Vec<Row> {
    paper.parts().map(|part| row(part, &paper.solved)).collect()
}

fn row(part: &Part, solved: &Solved) -> Row {
    let (asks, right, remark) = match &part.ask {
        Ask::Value(value) => {
            let remark = if value.either_sign { "either sign is right" } else { "" };
            (value.working.clone(), Some(of_value(value, solved)), remark.to_owned())
        }
        Ask::Choice(ChoicePart { value, alternatives }) => {
            let quantity = |si| Quantity::new(si, dimension(value, solved));
            let shown = |si| solved.style().show_beside(quantity(si), value.symbol.role, value.right).text();
            let told = |(place, one): (usize, &Alternative)| {
                format!("{}) {}", letter(place), shown(one.value).replace(NO_BREAK, " "))
            };
            let all: Vec<String> = alternatives.iter().enumerate().map(told).collect();
            (value.working.clone(), Some(of_value(value, solved)), format!("chosen from {}", all.join("; ")))
        }
        Ask::Place(place) => {
            let (right, where_it_is) = of_place(place, solved);
            (format!("{where_it_is} of the {}", place.working), right, String::new())
        }
        Ask::Sketch { sketch } => (format!("sketch: {}", sketch.written()), None, String::new()),
    };
    Row { question: part.label.clone(), asks, marks: part.marks, right, remark }
}

/// What stands between a number and its unit in print.
const NO_BREAK: char = '\u{a0}';

fn dimension(value: &ValuePart, solved: &Solved) -> Dimension {
    solved.workings().get(&value.working).map_or(Dimension::NONE, |working| working.value.dimension)
}

fn of_value(value: &ValuePart, solved: &Solved) -> Right {
    let shown = solved.style().show(Quantity::new(value.right, dimension(value, solved)), value.symbol.role);
    right(value.right, &shown, &value.unit, value.accepted())
}

/// What is right of a place; and what it is called.
fn of_place(place: &PlacePart, solved: &Solved) -> (Option<Right>, &'static str) {
    let (role, called) = match place.along {
        Along::Beam => (Role::Station, "station"),
        Along::Depth => (Role::CutHeight, "height above the lowest fibre"),
    };
    let right = place.right.first().map(|band| {
        let shown = |si| solved.style().show(Quantity::new(si, Dimension::LENGTH), role);
        let from = right(band.lower, &shown(band.lower), &place.unit, place.accepted());
        if band.lower == band.upper {
            return from;
        }
        // Where it is reached over a stretch no one place stands for it.
        let to = right(band.upper, &shown(band.upper), &place.unit, place.accepted());
        Right { value: format!("{} to {}", from.value, to.value), ..from }
    });
    (right, called)
}

fn right(si: f64, shown: &Shown, unit: &AnswerUnit, accepted: impl Iterator<Item = Band>) -> Right {
    let sign = if shown.negative { "-" } else { "" };
    let power = match shown.power - unit.power {
        0 => String::new(),
        power => format!("e{power}"),
    };
    let in_unit = |si: f64| neat(unit.from_si(si));
    Right {
        value: format!("{sign}{}{power}", shown.digits),
        unit: unit.text().replace(NO_BREAK, " "),
        accepted: accepted.map(|band| [in_unit(band.lower), in_unit(band.upper)]).collect(),
        si,
    }
}

/// A bound without the noise of converting it: twelve figures, far more than anybody answers with.
fn neat(bound: f64) -> f64 {
    format!("{bound:.11e}").parse().unwrap_or(bound)
}

/// The key as a sheet. Where several stretches are right, each has a row, the marks on the first.
///
/// # Errors
/// None that is known.
pub fn csv(given: &[Given], issue: &Issue) -> Result<Vec<u8>, Failure> {
    let header =
        ["student id", "paper", "question", "asks for", "right", "unit", "lower", "upper", "marks", "remark"];
    let mut table = Table::new(header.map(str::to_owned).to_vec());
    let decimal_mark = issue.papers().lesson().style.decimal_mark;
    let ours = |fault: exchange::fault::Fault| Failure::Ours(fault.to_string());
    let number =
        |value: Option<f64>| value.and_then(Number::new).map_or_else(|| Cell::text(""), Cell::Number);
    for given in given {
        for row in &given.key {
            let (value, unit, bounds) = match &row.right {
                Some(right) => (right.value.as_str(), right.unit.as_str(), right.accepted.as_slice()),
                None => ("", "", [].as_slice()),
            };
            for at in 0..bounds.len().max(1) {
                let bounds = bounds.get(at);
                let first = |text: &str| if at == 0 { text.to_owned() } else { String::new() };
                let remark = if at == 0 { row.remark.as_str() } else { "also right" };
                table
                    .push(vec![
                        Cell::text(&*given.student),
                        Cell::text(given.entry.number.to_string()),
                        Cell::text(&*row.question),
                        Cell::text(&*row.asks),
                        Cell::text(first(value).replace('.', &decimal_mark.character().to_string())),
                        Cell::text(unit),
                        number(bounds.map(|bounds| bounds[0])),
                        number(bounds.map(|bounds| bounds[1])),
                        number((at == 0).then_some(row.marks)),
                        Cell::text(remark),
                    ])
                    .map_err(ours)?;
            }
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
