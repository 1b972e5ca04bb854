//! The workings as rows of a table: what the command prints and other programs read.

use crate::dimension::Dimension;
use crate::print;
use crate::solved::Solved;
use crate::working::{Chapter, Formula, HeightSide, Id};
use mechanics::beam::Side;
use serde::Serialize;

/// One working as plain data.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Value {
    /// Its stable name.
    pub name: String,
    /// Its symbol in the course's notation, as plain text.
    pub symbol: String,
    /// Its chapter: `given`, `reactions`, ...
    pub chapter: &'static str,
    /// Its value in SI.
    pub value: f64,
    /// The SI unit: `m`, `N`, `N m`, `Pa`, ...
    pub unit: String,
    /// As the course shows it, with its unit.
    pub shown: String,
    /// Station where it holds, m.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub station: Option<f64>,
    /// `left` or `right` of the station, where it jumps there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<&'static str>,
    /// Height where it holds, m, in the section's own coordinates.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub height: Option<f64>,
    /// `below` or `above` the height, where it jumps there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub height_side: Option<&'static str>,
    /// Its formula as plain text; for what the engine finds, how; nothing for what is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub formula: Option<String>,
    /// One sentence that says what is done and why.
    pub sentence: String,
}

/// All workings of a lesson as rows, in the order of the worked solution.
pub fn values(solved: &Solved) -> Vec<Value> {
    solved.workings().iter().map(|(id, _)| value(solved, id)).collect()
}

/// One working as a row.
pub fn value(solved: &Solved, id: Id) -> Value {
    let (workings, style) = (solved.workings(), solved.style());
    let working = workings.working(id);
    let place = working.place;
    let (quantity, role) = (working.value, working.symbol.role);
    Value {
        name: working.name.clone(),
        symbol: style.symbol(&working.symbol).plain(),
        chapter: chapter_name(working.chapter),
        value: quantity.value,
        unit: si_unit(quantity.dimension),
        shown: match working.formula {
            Formula::Given => style.given_text(quantity, role),
            Formula::Expression(_) | Formula::Engine { .. } => style.text(quantity, role),
        },
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
        formula: match &working.formula {
            Formula::Given => None,
            Formula::Engine { how, .. } => Some(how.clone()),
            Formula::Expression(_) => workings.formula(id).map(|formula| print::plain(&formula, style)),
        },
        sentence: working.sentence.clone(),
    }
}

fn chapter_name(chapter: Chapter) -> &'static str {
    match chapter {
        Chapter::Given => "given",
        Chapter::Reactions => "reactions",
        Chapter::Diagrams => "diagrams",
        Chapter::Section => "section",
        Chapter::Bending => "bending",
        Chapter::Shear => "shear",
        Chapter::Slice => "slice",
        Chapter::Joints => "joints",
    }
}

/// The coherent SI unit of a dimension, by its usual name.
pub fn si_unit(dimension: Dimension) -> String {
    const NAMED: [(Dimension, &str); 12] = [
        (Dimension::NONE, "1"),
        (Dimension::LENGTH, "m"),
        (Dimension::AREA, "m2"),
        (Dimension::LENGTH_3, "m3"),
        (Dimension::LENGTH_4, "m4"),
        (Dimension::FORCE, "N"),
        (Dimension::MOMENT, "N m"),
        (Dimension::FORCE_PER_LENGTH, "N/m"),
        (Dimension::STRESS, "Pa"),
        (Dimension::RIGIDITY, "N m2"),
        (Dimension::DENSITY, "kg/m3"),
        (Dimension::ACCELERATION, "m/s2"),
    ];
    let named = NAMED.iter().find(|(named, _)| *named == dimension);
    named.map_or_else(|| dimension.to_string(), |(_, unit)| (*unit).to_owned())
}
