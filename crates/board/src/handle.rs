//! What can be dragged: a grip of a drawing, tied to the value of the lesson file that it changes.
//!
//! A grip counts in SI and in the sense of its drawing; the file may state the same thing the other way round (a force
//! that acts up), under another key (the width of an I-section for that of its flanges) or in a unit of its own. A handle
//! counts as the file does, in SI, and knows the words for it.

use crate::fields::label;
use crate::section_keys::SectionKeys;
use crate::stop_words::StopWords;
use figure::drawing::Drawing;
use figure::grip::{Axis, Grip, PartSide, Subject};
use lesson::edit::Input;
use lesson::{Lesson, NamedValue};
use mechanics::beam::Load;
use serde::Serialize;
use workings::dimension::Dimension;
use workings::problem::SupportKind;
use workings::quantity::Quantity;
use workings::reading;
use workings::role::Role;
use workings::unit::Unit;

/// How near, in px of the drawing, a handle must come to a stop to rest there.
const REACH: f64 = 7.0;

/// A value this near to a stop, in steps of the handle, is at it: both come from the same decimals.
const AT_REST: f64 = 1e-6;

/// A value at which a handle comes to rest.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Stop {
    /// The value, SI.
    pub value: f64,
    /// What is there, in words.
    pub name: String,
    /// How the file can state it by name, where it can.
    #[serde(skip)]
    words: Option<String>,
}

/// A place of a drawing that can be dragged.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Handle {
    /// Its name in its drawing, the same while the lesson has the same loads, supports and parts.
    pub id: String,
    /// The value of the lesson file that it changes, as [`lesson::edit::Manuscript::set`] wants it.
    pub path: String,
    /// What it is, in words.
    pub label: String,
    /// Where it is in its drawing, px.
    pub at: [f64; 2],
    /// Which way it moves: `along` or `up`.
    pub axis: &'static str,
    /// The value now, SI, in the sense of the file.
    pub value: f64,
    /// How much it changes with each px to the right or upwards, SI.
    pub per_px: f64,
    /// The lowest value that makes sense, SI.
    pub low: f64,
    /// The highest, SI.
    pub high: f64,
    /// The step of a drag and of an arrow key, SI: round in the course's unit, and at least a px.
    pub step: f64,
    /// The value as the course writes it.
    pub shown: String,
    /// What the file says.
    pub written: String,
    /// Where it comes to rest, rising.
    pub snaps: Vec<Stop>,
    /// The name of the stop at which it is; empty where it is at none.
    pub snapped: String,
    /// Where the file gives the number, where `path` holds a name for it.
    #[serde(skip)]
    pub(crate) given_at: String,
    #[serde(skip)]
    unit: Unit,
}

impl Handle {
    /// How the file may state a value of this handle, the best wording first. With `snap` a stop within reach is
    /// taken, without it one that is the very value; otherwise the value is rounded to the step, or to a tenth of it without
    /// `snap`.
    pub fn wordings(&self, value: f64, snap: bool) -> Vec<String> {
        let value = value.clamp(self.low, self.high);
        let reach = if snap { REACH * self.per_px.abs() } else { AT_REST * self.step };
        let distance = |stop: &&Stop| (stop.value - value).abs();
        let near = self.snaps.iter().filter(|stop| distance(stop) <= reach);
        match near.min_by(|a, b| distance(a).total_cmp(&distance(b))) {
            Some(stop) => {
                stop.words.iter().cloned().chain([written(stop.value, STOP_DIGITS, &self.unit)]).collect()
            }
            None => {
                let step = if snap { self.step } else { self.step / 10.0 };
                vec![rounded(value, step, (self.low, self.high), &self.unit)]
            }
        }
    }
}

/// The key that a grip changes: the value of the file is `(value - base) / slope`, where `value` is that of the grip.
struct Meant {
    path: String,
    base: f64,
    slope: f64,
    role: Role,
    dimension: Dimension,
}

/// What the handles of a lesson are made with.
pub(crate) struct Handles<'a> {
    pub(crate) lesson: &'a Lesson,
    pub(crate) inputs: &'a [Input],
    pub(crate) section: &'a SectionKeys,
    pub(crate) words: StopWords<'a>,
}

impl Handles<'_> {
    /// The handles of a drawing: those of its grips that the lesson file can follow.
    pub(crate) fn of(&self, drawing: &Drawing) -> Vec<Handle> {
        drawing.grips().into_iter().filter_map(|grip| self.handle(grip)).collect()
    }

    fn input(&self, path: &str) -> Option<&Input> {
        self.inputs.iter().find(|input| input.path == path)
    }

    fn handle(&self, grip: &Grip) -> Option<Handle> {
        let meant = self.meant(grip.subject)?;
        let style = &self.lesson.style;
        let named = named_at(self.lesson, self.inputs, &meant.path);
        let written =
            named.map(|named| &named.written).or_else(|| written_at(self.inputs, &meant.path)).cloned();
        let unit = written.as_deref().and_then(|text| unit_of(text, meant.dimension));
        let unit = unit.unwrap_or_else(|| style.unit(meant.role, meant.dimension));
        let stated = |value: f64| (value - meant.base) / meant.slope;
        let (a, b) = (stated(grip.low), stated(grip.high));
        let value = stated(grip.value);
        let per_px = grip.per_px / meant.slope;
        let step = unit.to_si(round_step(unit.from_si(per_px.abs())));
        let mut snaps: Vec<Stop> = grip
            .snaps
            .iter()
            .map(|snap| Stop {
                value: stated(snap.value),
                name: snap.name.clone(),
                words: self.words.of(grip.subject, &meant.path, snap),
            })
            .collect();
        snaps.sort_by(|a, b| a.value.total_cmp(&b.value));
        let near = |stop: &&Stop| (stop.value - value).abs() <= AT_REST * step;
        let snapped = snaps.iter().find(near).map_or_else(String::new, |stop| stop.name.clone());
        let shown = style.given_text(Quantity::new(value, meant.dimension), meant.role);
        let owner = self.input(&meant.path).map(|input| input.owner.as_str());
        let mut label = label(&meant.path, owner.unwrap_or_default());
        if let Some(named) = named {
            label = format!("{label} = {}", named.name);
        }
        Some(Handle {
            id: id(grip.subject),
            given_at: given_at(&meant.path, named),
            path: meant.path,
            label,
            at: [grip.at.x, grip.at.y],
            axis: match grip.axis {
                Axis::Along => "along",
                Axis::Up => "up",
            },
            value,
            per_px,
            low: a.min(b),
            high: a.max(b),
            step,
            written: written.unwrap_or_else(|| shown.clone()),
            shown,
            snaps,
            snapped,
            unit,
        })
    }

    fn meant(&self, subject: Subject) -> Option<Meant> {
        let length =
            |path: String, role| Meant { path, base: 0.0, slope: 1.0, role, dimension: Dimension::LENGTH };
        Some(match subject {
            Subject::Station => length("slice.at".to_owned(), Role::Station),
            Subject::SliceLength => length("slice.length".to_owned(), Role::SliceLength),
            Subject::Cut => length("cut.at".to_owned(), Role::CutHeight),
            Subject::LoadPlace(load) => length(self.load(load, "at")?, Role::Station),
            Subject::LoadFrom(load) => length(self.load(load, "from")?, Role::Station),
            Subject::LoadTo(load) => length(self.load(load, "to")?, Role::Station),
            Subject::LoadSize(load) => self.size(load, false)?,
            Subject::LoadEndSize(load) => self.size(load, true)?,
            Subject::SupportPlace(support) => {
                let kind = match self.lesson.problem.supports.get(support)?.kind {
                    SupportKind::Pin => "pin",
                    SupportKind::Roller => "roller",
                    SupportKind::Fixed => "fixed",
                    SupportKind::Guided => "guided",
                    SupportKind::Spring => "spring",
                };
                length(format!("beam.supports[{support}].{kind}"), Role::Station)
            }
            Subject::PartSize { part, which } => {
                let key = self.section.of(part, which)?;
                let role = if which == PartSide::Width { Role::Breadth } else { Role::Height };
                Meant { base: key.base, slope: key.slope, ..length(key.path.clone(), role) }
            }
        })
    }

    /// The path of a key of a load that the file states; the beam's own weight is stated by its density.
    fn load(&self, load: usize, key: &str) -> Option<String> {
        let label = self.lesson.problem.loads.get(load)?;
        (!label.self_weight).then(|| format!("beam.loads[{load}].{key}"))
    }

    fn size(&self, load: usize, end: bool) -> Option<Meant> {
        let stated = |key: &str| self.load(load, key).filter(|path| self.input(path).is_some());
        let (path, role, dimension) = match self.lesson.problem.beam.loads.get(load)? {
            Load::Force { .. } => (stated("force")?, Role::PointForce, Dimension::FORCE),
            Load::Couple { .. } => (stated("couple")?, Role::Couple, Dimension::MOMENT),
            Load::Spread { .. } => {
                // A load that is the same all along stays so.
                let path = stated("becoming").filter(|_| end).or_else(|| stated("spread"))?;
                (path, Role::SpreadLoad, Dimension::FORCE_PER_LENGTH)
            }
        };
        let slope = if self.input(&path)?.reversed { -1.0 } else { 1.0 };
        Some(Meant { path, base: 0.0, slope, role, dimension })
    }
}

/// The named value that a path of the file means as a whole (`force = "P"`): what changes there changes under
/// `[values]`, so that all that uses it follows. A place along the beam is the exception where its name serves elsewhere
/// too: a support at `L` is moved, and the beam of that length stays. A slice goes with what it was taken at.
pub(crate) fn named_at<'a>(lesson: &'a Lesson, inputs: &[Input], path: &str) -> Option<&'a NamedValue> {
    let word = written_at(inputs, path).filter(|_| !path.starts_with("values."))?;
    let named = lesson.values.iter().find(|named| named.name == word.trim())?;
    let along = path == "slice.at" || (path.starts_with("beam.") && path != "beam.length");
    let is_place = along && named.quantity.dimension == Dimension::LENGTH;
    let uses = |input: &Input| {
        let parsed = reading::parse(&input.written);
        parsed.is_ok_and(|parsed| parsed.names().iter().any(|(name, _)| *name == named.name))
    };
    let mut others = inputs.iter().filter(|input| input.path != path && input.path != "slice.at");
    (!is_place || !others.any(uses)).then_some(named)
}

/// What the file says at a path.
fn written_at<'a>(inputs: &'a [Input], path: &str) -> Option<&'a String> {
    inputs.iter().find(|input| input.path == path).map(|input| &input.written)
}

/// The place where the number of a path is given: under `[values]` where the path only names it.
pub(crate) fn given_at(path: &str, named: Option<&NamedValue>) -> String {
    named.map_or_else(|| path.to_owned(), |named| format!("values.{}", named.name))
}

/// The unit in which the file states a value, where it is one number in one unit.
fn unit_of(text: &str, dimension: Dimension) -> Option<Unit> {
    let unit = text.trim_start_matches(|sign: char| sign.is_ascii_digit() || "+-. ".contains(sign));
    Unit::read(unit).ok().filter(|unit| unit.dimension() == dimension)
}

fn id(subject: Subject) -> String {
    match subject {
        Subject::Station => "station".to_owned(),
        Subject::SliceLength => "slice-length".to_owned(),
        Subject::Cut => "cut".to_owned(),
        Subject::LoadPlace(load) => format!("load-{load}-place"),
        Subject::LoadSize(load) => format!("load-{load}-size"),
        Subject::LoadEndSize(load) => format!("load-{load}-end-size"),
        Subject::LoadFrom(load) => format!("load-{load}-from"),
        Subject::LoadTo(load) => format!("load-{load}-to"),
        Subject::SupportPlace(support) => format!("support-{support}"),
        Subject::PartSize { part, which: PartSide::Width } => format!("part-{part}-width"),
        Subject::PartSize { part, which: PartSide::Height } => format!("part-{part}-height"),
    }
}

/// The smallest of 1, 2, 5, 10, 20, ... that is not less; 1 for what is no size at all.
fn round_step(least: f64) -> f64 {
    if !least.is_normal() {
        return 1.0;
    }
    let mut step = format!("1e{}", exponent(least)).parse().unwrap_or(1.0);
    for factor in [2.0, 2.5, 2.0] {
        if step >= least * (1.0 - 1e-9) {
            break;
        }
        step *= factor;
    }
    step
}

/// The power of ten of the first digit, as printed: no logarithm, which differs from machine to machine.
fn exponent(value: f64) -> i32 {
    format!("{value:e}").split_once('e').and_then(|(_, power)| power.parse().ok()).unwrap_or(0)
}

/// The digits of a stop that the file states by a number.
const STOP_DIGITS: i32 = 7;

/// A value in the unit, to so many digits.
fn written(value: f64, digits: i32, unit: &Unit) -> String {
    let number = unit.from_si(value);
    let places = usize::try_from(digits - 1 - exponent(number)).unwrap_or(0);
    quantity(&format!("{number:.places$}"), unit)
}

/// A value in the unit, rounded to a multiple of the step, SI, that lies within the range where there is one.
fn rounded(value: f64, step: f64, (low, high): (f64, f64), unit: &Unit) -> String {
    let step = unit.from_si(step);
    let (least, most) = ((unit.from_si(low) / step).ceil(), (unit.from_si(high) / step).floor());
    let number = (unit.from_si(value) / step).round().max(least).min(most) * step;
    let places = usize::try_from(-exponent(step * (1.0 + 1e-9))).unwrap_or(0);
    quantity(&format!("{number:.places$}"), unit)
}

/// `2.50` and `kN` as `2.5 kN`.
fn quantity(number: &str, unit: &Unit) -> String {
    let number =
        if number.contains('.') { number.trim_end_matches('0').trim_end_matches('.') } else { number };
    let number = if number == "-0" { "0" } else { number };
    format!("{number} {}", unit.text())
}

#[cfg(test)]
mod tests {
    use super::{round_step, rounded, unit_of, written};
    use workings::dimension::Dimension;
    use workings::unit::Unit;

    #[test]
    fn a_step_is_round_and_at_least_as_asked() {
        for (least, wanted) in
            [(0.018, 0.02), (0.02, 0.02), (0.0201, 0.05), (0.43, 0.5), (0.51, 1.0), (7.0, 10.0), (1.0, 1.0)]
        {
            assert!((round_step(least) - wanted).abs() < 1e-12, "{least}: {}", round_step(least));
        }
    }

    #[test]
    fn a_value_is_written_in_its_unit_with_no_more_digits_than_its_step() {
        let unit = |text| Unit::read(text).expect("a unit");
        assert_eq!(unit_of("2.5 kip", Dimension::FORCE), Some(unit("kip")));
        assert_eq!(unit_of("2 ft 6 in", Dimension::LENGTH), None);
        assert_eq!(unit_of("glue line 1", Dimension::LENGTH), None);
        let all = (-1e9, 1e9);
        assert_eq!(rounded(2.513, 0.02, all, &unit("m")), "2.52 m");
        assert_eq!(rounded(0.2749, 0.001, all, &unit("mm")), "275 mm");
        assert_eq!(rounded(0.2749, 0.001, (0.0003, 0.2747), &unit("mm")), "274 mm");
        assert_eq!(rounded(0.0001, 0.001, (0.0003, 0.2747), &unit("mm")), "1 mm");
        assert_eq!(rounded(-0.0001, 0.001, all, &unit("mm")), "0 mm");
        assert_eq!(rounded(1234.0, 50.0, all, &unit("kN")), "1.25 kN");
        assert_eq!(written(1.0 / 3.0, 7, &unit("m")), "0.3333333 m");
        assert_eq!(written(2.25, 7, &unit("m")), "2.25 m");
    }
}
