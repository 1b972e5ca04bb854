//! `glueline values`: every value of a lesson, as a table or as JSON.

use crate::arguments::Values;
use crate::failure::Failure;
use crate::{places, source};
use lesson::Lesson;
use mechanics::beam::Side;
use serde::Serialize;
use std::fmt::Write as _;
use unicode_width::UnicodeWidthStr as _;
use workings::dimension::Dimension;
use workings::elsewhere::PlacedValue;
use workings::print;
use workings::quantity::Quantity;
use workings::role::{Role, Symbol};
use workings::solved::Solved;
use workings::working::{Formula, HeightSide, Place};

/// One value as it leaves the command.
#[derive(Clone, Debug, Serialize)]
pub struct Row {
    /// Its stable name in words.
    name: String,
    /// Its symbol in the notation of the course, plain text.
    symbol: String,
    /// In SI, full precision.
    value: f64,
    /// The SI unit of `value`.
    unit: String,
    /// As the notes show it: rounded, in the course's unit.
    shown: String,
    /// Where along the beam, m.
    #[serde(skip_serializing_if = "Option::is_none")]
    station: Option<f64>,
    /// Which side of the station, where the value may jump.
    #[serde(skip_serializing_if = "Option::is_none")]
    side: Option<&'static str>,
    /// At what height of the section, m.
    #[serde(skip_serializing_if = "Option::is_none")]
    height: Option<f64>,
    /// Which side of the height, where the value jumps.
    #[serde(skip_serializing_if = "Option::is_none")]
    height_side: Option<&'static str>,
    /// Its formula in plain text; how it was found where it has none.
    #[serde(skip_serializing_if = "Option::is_none")]
    formula: Option<String>,
    /// The chapter of the worked solution, for the table.
    #[serde(skip)]
    heading: &'static str,
    /// The place in the course's units, for the table.
    #[serde(skip)]
    place: String,
}

#[derive(Serialize)]
struct Report<'a> {
    lesson: &'a str,
    rows: &'a [Row],
}

/// Prints the values.
///
/// # Errors
/// Where the lesson has mistakes, or a place asked for lies off the beam or off the section.
pub fn run(job: &Values) -> Result<(), Failure> {
    let text = source::text(&job.lesson)?;
    let lesson = source::checked(&text, &job.lesson.display().to_string())?;
    let solved = source::solve(&lesson)?;
    let mut rows = rows(&solved);
    rows.extend(elsewhere(&text, &lesson, &solved, job)?);
    if job.json {
        anstream::print!("{}", json(&lesson, &rows)?);
    } else {
        anstream::print!("{}", table(&rows));
    }
    Ok(())
}

/// All workings of a lesson, in the order of the worked solution.
pub fn rows(solved: &Solved) -> Vec<Row> {
    let workings = solved.workings();
    let style = solved.style();
    let rows = workings.iter().map(|(id, working)| {
        let shown = if working.formula == Formula::Given {
            style.given_text(working.value, working.symbol.role)
        } else {
            style.text(working.value, working.symbol.role)
        };
        let formula = match &working.formula {
            Formula::Given => None,
            Formula::Expression(_) => workings.formula(id).map(|formula| print::plain(&formula, style)),
            Formula::Engine { how, .. } => Some(how.clone()),
        };
        Row {
            formula,
            heading: working.chapter.heading(),
            ..row(solved, &working.name, &working.symbol, working.place, working.value, shown)
        }
    });
    rows.collect()
}

fn row(solved: &Solved, name: &str, symbol: &Symbol, place: Place, value: Quantity, shown: String) -> Row {
    Row {
        name: name.to_owned(),
        symbol: solved.style().symbol(symbol).plain(),
        value: value.value,
        unit: value.dimension.si_unit(),
        shown,
        station: place.station,
        side: place.side.map(|side| match side {
            Side::Left => "left",
            Side::Right => "right",
        }),
        height: place.height,
        height_side: place.height_side.map(|side| match side {
            HeightSide::Below => "below",
            HeightSide::Above => "above",
        }),
        formula: None,
        heading: "",
        place: place_words(solved, place),
    }
}

fn place_words(solved: &Solved, place: Place) -> String {
    let words = |value: f64, role| solved.style().given_text(Quantity::new(value, Dimension::LENGTH), role);
    let mut parts = Vec::new();
    if let Some(station) = place.station {
        let side = match place.side {
            None => "",
            Some(Side::Left) => " (left)",
            Some(Side::Right) => " (right)",
        };
        parts.push(format!("at {}{side}", words(station, Role::Station)));
    }
    if let Some(height) = place.height {
        let side = match place.height_side {
            None => "",
            Some(HeightSide::Below) => " (below)",
            Some(HeightSide::Above) => " (above)",
        };
        parts.push(format!("{} up{side}", words(height, Role::CutHeight)));
    }
    parts.join(", ")
}

/// The values at the places asked for on the command line.
fn elsewhere(text: &str, lesson: &Lesson, solved: &Solved, job: &Values) -> Result<Vec<Row>, Failure> {
    let asked =
        |option: &str, words: &str, what: String| Failure::Asked(format!("{option} {words:?}: {what}"));
    let read = |words: &String| places::station(lesson, words).map_err(|what| asked("--at", words, what));
    let mut stations = job.at.iter().map(read).collect::<Result<Vec<f64>, Failure>>()?;
    let read = |words: &String| places::cut_height(text, words).map_err(|what| asked("--cut", words, what));
    let cuts = job.cut.iter().map(read).collect::<Result<Vec<f64>, Failure>>()?;
    let mut rows = Vec::new();
    for &station in &stations {
        let values = solved
            .values_at_station(station)
            .ok_or_else(|| Failure::Asked(format!("the station {station} m lies off the beam")))?;
        rows.extend(values.iter().map(|value| placed(solved, value, "At the station asked for")));
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
            rows.extend(values.iter().map(|value| placed(solved, value, "At the cut asked for")));
        }
    }
    Ok(rows)
}

fn placed(solved: &Solved, value: &PlacedValue, heading: &'static str) -> Row {
    let shown = solved.style().text(value.value, value.symbol.role);
    Row { heading, ..row(solved, value.name, &value.symbol, value.place, value.value, shown) }
}

/// The rows as JSON.
///
/// # Errors
/// [`Failure::Ours`] where a value is not finite, which no checked lesson gives.
pub fn json(lesson: &Lesson, rows: &[Row]) -> Result<String, Failure> {
    if let Some(row) = rows.iter().find(|row| !row.value.is_finite()) {
        return Err(Failure::Ours(format!("{} is no finite number", row.name)));
    }
    let report = Report { lesson: &lesson.about.title, rows };
    let text = serde_json::to_string_pretty(&report).map_err(|error| Failure::Ours(error.to_string()))?;
    Ok(text + "\n")
}

/// The rows as a table to read: a heading for each chapter, then name, symbol, value, place and formula.
pub fn table(rows: &[Row]) -> String {
    let cells: Vec<[&str; 4]> =
        rows.iter().map(|row| [&*row.name, &*row.symbol, &*row.shown, &*row.place]).collect();
    let width = |column: usize| cells.iter().map(|cell| cell[column].width()).max().unwrap_or(0);
    let widths = [width(0), width(1), width(2), width(3)];
    let mut out = String::new();
    let mut heading = "";
    for (row, cell) in rows.iter().zip(&cells) {
        if row.heading != heading {
            heading = row.heading;
            let gap = if out.is_empty() { "" } else { "\n" };
            let _ = writeln!(out, "{gap}{heading}");
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
