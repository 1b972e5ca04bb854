//! The true shear stress of the section beside what the formula says, on one height axis.

use crate::cross_section::Frame;
use crate::drawing::{Drawing, Mark, Step, bounds};
use crate::elastic_field;
use crate::elastic_words;
use crate::geometry::Point;
use crate::hatch;
use crate::label::{Escape, Placer, Seat, Wish};
use crate::legend::{Sample, legend};
use crate::levels::{self, Tag, column, head, height_axis};
use crate::palette::{Ink, MEDIUM, Stroke, THIN};
use crate::scale::Sheet;
use crate::scene::Scene;
use crate::text::{Label, SIZE};
use workings::dimension::Dimension;
use workings::elastic::{AtLevel, ElasticTruth};
use workings::role::Role;
use workings::solved::Solved;

/// Room that the section takes, px across and down.
const ROOM: (f64, f64) = (220.0, 250.0);
/// Width of the panel of tau, px.
const PANEL: f64 = 130.0;
/// Room between the section and the panel, beside what is written there of the largest stress, px.
const BETWEEN: f64 = 44.0;

/// How often the drawing is made narrower, at most.
const TRIES: usize = 3;

/// What the formula says.
pub(crate) const FORMULA: Stroke = Stroke::solid(Ink::Shear, 1.75);
/// The formula where it does not hold.
const NOT_VALID: Stroke = Stroke::dotted(Ink::Quiet, 1.75);
/// What is true where it is largest across the width.
pub(crate) const TRUE: Stroke = Stroke::dashed(Ink::Cut, 1.75);

/// The section with its true shear stress, and the stress over the depth by the formula and in truth. Nothing where the
/// section cannot be drawn, which solving the lesson has ruled out.
///
/// It is none of [`crate::all`]: its solution takes longer than a drag allows.
pub fn elastic(solved: &Solved, truth: &ElasticTruth) -> Option<Drawing> {
    elastic_on(solved, truth, Sheet::USUAL)
}

/// The same on another sheet.
pub fn elastic_on(solved: &Solved, truth: &ElasticTruth, sheet: Sheet) -> Option<Drawing> {
    let scene = Scene { sheet, ..Scene::of(solved)? };
    let mut drawing = drawn(&scene, solved, truth, 0.0);
    // What is written beside the panel may be long: then section and panel are drawn narrower, so that all stays on the sheet. What is
    // written stands where it finds room, so it may take a few tries.
    let mut less = 0.0;
    for _ in 0..TRIES {
        let excess = drawing.width - sheet.width;
        if excess <= 0.0 {
            break;
        }
        less += excess;
        drawing = drawn(&scene, solved, truth, less);
    }
    Some(drawing)
}

/// The drawing, narrower by `less`, px, than its section and its panel would have it.
fn drawn(scene: &Scene, solved: &Solved, truth: &ElasticTruth, less: f64) -> Drawing {
    let w = &scene.writer;
    let whole = scene.across(PANEL);
    let panel = (whole - less / 3.0).max(0.6 * whole);
    let across = Frame::fitting(scene.extent, (scene.across(ROOM.0), ROOM.1), Point::new(0.0, 0.0)).right();
    let across = (across - (less - (whole - panel))).max(0.5 * across);
    let frame = Frame::fitting(scene.extent, (across, ROOM.1), Point::new(0.0, 0.0));
    let largest = truth.largest.value;
    let zones = elastic_field::zones(scene, truth);
    let mut marks = vec![Mark::group(
        "section",
        "The section with its true shear stress",
        elastic_field::marks(scene, &frame, truth, &zones),
    )];
    let value = w.value_beside(largest, Dimension::STRESS, Role::ShearStress, largest);
    let label = match truth.largest.beside_corner {
        Some(_) => w.symbol(Role::ShearStress).equals(value).and_words(" beside the corner"),
        None => w.symbol_indexed(Role::ShearStress, "max").equals(value),
    };
    let over_depth = truth.over_depth();
    let spread = Spread::of(truth, &over_depth, panel);
    // Where the flow turns back in a flange, its stress stands to the left of the axis.
    let axis = frame.right() + label.width(SIZE) + BETWEEN - spread.least * spread.per_stress;
    let end = axis + panel + 16.0;
    let lines = level_lines(scene, &frame, axis + spread.least * spread.per_stress, end);
    let tau = tau(scene, &frame, (axis, &spread), truth, &over_depth);
    let mut placer = Placer::new();
    placer.avoid_marks(&lines);
    placer.avoid_marks(&tau);
    for (label, height, ink) in [("NA", scene.values.neutral_axis, Ink::Line), ("cut", scene.cut, Ink::Cut)] {
        let at = Point::new(levels::LEFT, frame.y(height));
        placer.put(&Wish::new(Label::words(label), at).seats(&[Seat::Left], Escape::Any).gap(4.0).ink(ink));
    }
    let tag = Tag { at: frame.at(truth.largest.at), label, ink: Ink::Cut };
    marks.push(Mark::group(
        "largest-value",
        "The largest true shear stress",
        column(vec![tag], frame.right() + 20.0),
    ));
    let mut heads = vec![head(
        scene,
        &frame,
        (axis + 0.5 * panel, scene.sheet.small),
        "shear stress",
        w.symbol(Role::ShearStress),
    )];
    heads.extend(lines);
    marks.push(Mark::group("levels", "Neutral axis and cut, level with the section", heads));
    marks.push(Mark::group("shear-stress", "Shear stress over the depth, by the formula and in truth", tau));
    marks.push(Mark::group("labels", "Labels", placer.into_marks()));
    let (scales, end_of_scales) = elastic_field::scales(scene, &zones, (0.0, frame.corner.y + 22.0));
    marks.push(scales);
    marks.extend(elastic_field::details(scene, &frame, truth, &zones, end_of_scales + 8.0));
    let formula = Label::words(if truth.bends_askew() { "simple formula\u{a0}" } else { "formula\u{a0}" })
        .followed_by(w.symbol(Role::ShearForce))
        .and_words("\u{a0}")
        .followed_by(w.symbol(Role::FirstMoment))
        .and_words("/(")
        .followed_by(w.symbol(Role::SecondMoment))
        .and_words("\u{a0}")
        .followed_by(w.symbol(Role::WidthAtCut))
        .and_words(match truth.bends_askew() {
            true => "), which does not apply here",
            false if truth.has_materials_side_by_side() => "), a mean over all materials side by side",
            false => "), and true mean over the width",
        });
    let mut entries = match truth.bends_askew() {
        true => vec![
            (Sample::Line(FORMULA), Label::words("full formula, and true mean over the width")),
            (Sample::Line(NOT_VALID), formula),
        ],
        false => vec![(Sample::Line(FORMULA), formula)],
    };
    entries.extend([
        (Sample::Line(TRUE), Label::words("true, where it is largest across the width")),
        (Sample::Line(Stroke::solid(Ink::Quiet, 0.6)), Label::words("contour of the true shear stress")),
    ]);
    if !truth.sharp_corners().is_empty() {
        let label = Label::words("left out: a sharp corner, where it has no limit");
        entries.push((Sample::Line(Stroke::dotted(Ink::Line, MEDIUM)), label));
    }
    entries.push((
        Sample::None,
        Label::words("arrows: the stress from the left piece on the right one, longer where it is larger"),
    ));
    let under = bounds(&marks);
    marks.push(legend(&entries, under, scene.sheet));
    let (short, long) = elastic_words::describe(scene, solved, truth, &zones);
    let title = "The true shear stress and the formula";
    Drawing::fitted("elastic", title, 12.0, scene.sheet.width, marks).described(short, long)
}

/// Neutral axis and cut beside the section and over the panel, top and bottom over the panel.
fn level_lines(scene: &Scene, frame: &Frame, axis: f64, end: f64) -> Vec<Mark> {
    let line = |(from, to): (f64, f64), height: f64, stroke: Stroke| Mark::Line {
        from: Point::new(from, frame.y(height)),
        to: Point::new(to, frame.y(height)),
        stroke,
    };
    let faint = Stroke::solid(Ink::Faint, THIN);
    let panel = (axis - 8.0, end);
    let mut marks = vec![line(panel, scene.extent.bottom, faint), line(panel, scene.extent.top, faint)];
    for (height, stroke) in [
        (scene.values.neutral_axis, Stroke::dash_dot(Ink::Line, THIN)),
        (scene.cut, Stroke::dash_dot(Ink::Cut, MEDIUM)),
    ] {
        marks.push(line((levels::LEFT, -2.0), height, stroke));
        marks.push(line(panel, height, stroke));
    }
    marks
}

/// How far the stresses over the depth reach, positive with the shear force.
struct Spread {
    /// The least, no more than zero, Pa.
    least: f64,
    /// px for each Pa.
    per_stress: f64,
}

impl Spread {
    fn of(truth: &ElasticTruth, levels: &[AtLevel], room: f64) -> Self {
        let sign = truth.shear_force.signum();
        let means = levels.iter().flat_map(|level| [level.across.formula, level.across.balanced]);
        let told = levels.iter().filter(|level| level.has_largest);
        let all: Vec<f64> =
            means.chain(told.map(|level| level.across.largest_up.value)).map(|value| sign * value).collect();
        let most = all.iter().copied().fold(0.0, f64::max);
        let least = all.iter().copied().fold(0.0, f64::min);
        // What the elements leave of nothing is no way back.
        let least = if -least > 0.02 * most { least } else { 0.0 };
        Self { least, per_stress: if most > 0.0 { room / most } else { 0.0 } }
    }
}

/// The shear stress over the depth: by the formula, and where it is largest across the width.
fn tau(
    scene: &Scene,
    frame: &Frame,
    (axis, spread): (f64, &Spread),
    truth: &ElasticTruth,
    levels: &[AtLevel],
) -> Vec<Mark> {
    let w = &scene.writer;
    let sign = truth.shear_force.signum();
    let askew = truth.bends_askew();
    let simple = |level: &AtLevel| sign * level.across.formula;
    let formula = |level: &AtLevel| sign * level.across.balanced;
    let largest = |level: &AtLevel| sign * level.across.largest_up.value;
    let per_stress = spread.per_stress;
    let at = |value: f64, height: f64| Point::new(axis + value * per_stress, frame.y(height));
    let (low, high) = (at(0.0, scene.extent.bottom), at(0.0, scene.extent.top));
    let mut by_formula = vec![low];
    by_formula.extend(levels.iter().map(|level| at(formula(level), level.height)));
    by_formula.push(high);
    let mut fill = by_formula.clone();
    fill.push(low);
    // Near a sharp corner there is no largest, and so no line.
    let stretches = levels.split(|level| !level.has_largest).filter(|stretch| stretch.len() > 1);
    let in_truth =
        stretches.map(|stretch| stretch.iter().map(|level| at(largest(level), level.height)).collect());
    let mut marks = vec![Mark::Polygon { points: fill.clone(), stroke: None, fill: Some(Ink::ShearTint) }];
    marks.extend(hatch::marks(&[fill], 0.0, 7.0, Stroke::solid(Ink::Shear, 0.4)));
    let mut draw = |points: Vec<Point>, stroke: Stroke| {
        let step =
            |(place, point): (usize, Point)| if place == 0 { Step::Move(point) } else { Step::Line(point) };
        let steps = points.into_iter().enumerate().map(step).collect();
        marks.push(Mark::Path { steps, stroke: Some(stroke), fill: None });
    };
    draw(by_formula, FORMULA);
    if askew {
        draw(levels.iter().map(|level| at(simple(level), level.height)).collect(), NOT_VALID);
    }
    in_truth.for_each(|points: Vec<Point>| draw(points, TRUE));
    let value = |value: f64| w.value_beside(value, Dimension::STRESS, Role::ShearStress, truth.largest.value);
    let mut tags = Vec::new();
    let mut tag = |at: Point, label: Label, ink: Ink| {
        marks.push(Mark::Circle { centre: at, radius: 3.0, stroke: None, fill: Some(ink) });
        tags.push(Tag { at, label, ink });
    };
    if let Some(cut) = &truth.cut {
        let words = if askew { " full formula, cut" } else { " formula, cut" };
        tag(at(formula(cut), cut.height), value(formula(cut)).and_words(words), Ink::Shear);
        if askew {
            tag(
                at(simple(cut), cut.height),
                value(simple(cut)).and_words(" simple formula, cut"),
                Ink::Quiet,
            );
        }
        if cut.has_largest {
            tag(at(largest(cut), cut.height), value(largest(cut)).and_words(" true, cut"), Ink::Cut);
        }
    }
    // Where the two are one to the eye, the formula's value below says it.
    if let Some(axis) = truth.axis.filter(|axis| axis.has_largest)
        && (largest(&axis) - formula(&axis)) * per_stress > 2.0
        && !truth.cut.is_some_and(|cut| (cut.height - axis.height).abs() * frame.scale < 1.0)
    {
        tag(at(largest(&axis), axis.height), value(largest(&axis)).and_words(" true, NA"), Ink::Cut);
    }
    let by_formula = &truth.largest_by_formula;
    for place in by_formula.places.iter().filter(|_| !askew) {
        let at_cut = truth.cut.is_some_and(|cut| {
            (cut.height - place.height).abs() * frame.scale < 1.0
                && (formula(&cut) - by_formula.value).abs() * per_stress < 1.0
        });
        if !at_cut {
            let label = value(by_formula.value).and_words(" formula, largest");
            tag(at(by_formula.value, place.height), label, Ink::Shear);
        }
    }
    marks.push(height_axis(scene, frame, axis));
    marks.extend(column(tags, axis + scene.across(PANEL) + 24.0));
    marks
}
