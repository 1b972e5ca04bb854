//! The workings as rows of a table: what the command prints and other programs read.

use crate::dimension::Dimension;
use crate::print;
use crate::quantity::Quantity;
use crate::role::{Role, Symbol};
use crate::solved::Solved;
use crate::style::Style;
use crate::working::{Chapter, Formula, HeightSide, Id, Place};
use mechanics::beam::Side;
use serde::Serialize;

/// One working as plain data.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Value {
    /// Its stable name.
    pub name: String,
    /// Its symbol in the course's notation, as plain text.
    pub symbol: String,
    /// What the symbol stands for, for those who print it otherwise.
    #[serde(skip)]
    pub stands_for: Symbol,
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
    #[serde(skip_serializing_if = "String::is_empty")]
    pub sentence: String,
    /// Where it holds, in the course's units; for people.
    #[serde(skip)]
    pub place: String,
}

/// All workings of a lesson as rows, in the order of the worked solution.
pub fn values(solved: &Solved) -> Vec<Value> {
    solved.workings().iter().map(|(id, _)| value(solved, id)).collect()
}

/// One working as a row.
pub fn value(solved: &Solved, id: Id) -> Value {
    let (workings, style) = (solved.workings(), solved.style());
    let working = workings.working(id);
    let (quantity, role) = (working.value, working.symbol.role);
    Value {
        symbol: style.symbol(&working.symbol).plain(),
        stands_for: working.symbol.clone(),
        chapter: chapter_name(working.chapter),
        shown: match working.formula {
            Formula::Given => style.given_text(quantity, role),
            Formula::Expression(_) | Formula::Engine { .. } => style.text(quantity, role),
        },
        formula: match &working.formula {
            Formula::Given => None,
            Formula::Engine { how, .. } => Some(how.clone()),
            Formula::Expression(_) => workings.formula(id).map(|formula| print::plain(&formula, style)),
        },
        sentence: working.sentence.clone(),
        ..Value::placed(solved, &working.name, role, working.place, quantity)
    }
}

impl Value {
    /// A value of a role at a place, with no formula of its own.
    pub(crate) fn placed(solved: &Solved, name: &str, role: Role, place: Place, quantity: Quantity) -> Self {
        let style = solved.style();
        Self {
            name: name.to_owned(),
            symbol: style.symbol(&Symbol::plain(role)).plain(),
            stands_for: Symbol::plain(role),
            chapter: "elsewhere",
            value: quantity.value,
            unit: si_unit(quantity.dimension),
            shown: style.text(quantity, role),
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
            sentence: String::new(),
            place: place_words(style, place),
        }
    }
}

fn place_words(style: &Style, place: Place) -> String {
    let length = |value: f64, role| style.given_text(Quantity::new(value, Dimension::LENGTH), role);
    let mut words = Vec::new();
    if let Some(station) = place.station {
        let side = match place.side {
            None => "",
            Some(Side::Left) => " (left)",
            Some(Side::Right) => " (right)",
        };
        words.push(format!("at {}{side}", length(station, Role::Station)));
    }
    if let Some(height) = place.height {
        let side = match place.height_side {
            None => "",
            Some(HeightSide::Below) => " (below)",
            Some(HeightSide::Above) => " (above)",
        };
        words.push(format!("{} up{side}", length(height, Role::CutHeight)));
    }
    words.join(", ")
}

fn chapter_name(chapter: Chapter) -> &'static str {
    match chapter {
        Chapter::Given => "given",
        Chapter::Reactions => "reactions",
        Chapter::Diagrams => "diagrams",
        Chapter::Section => "section",
        Chapter::Bending => "bending",
        Chapter::Materials => "materials",
        Chapter::Shear => "shear",
        Chapter::Walls => "walls",
        Chapter::Point => "point",
        Chapter::Skew => "skew",
        Chapter::Slice => "slice",
        Chapter::Joints => "joints",
        Chapter::Allowables => "allowables",
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
