//! One diagram over the beam: the curve filled, hatched upright, signed, its values that matter labelled.

use crate::drawing::{Mark, Step};
use crate::geometry::Point;
use crate::hatch;
use crate::keyvalues::{KeyValue, KeyValues};
use crate::label::{Escape, Placer, Seat, Wish};
use crate::palette::{Ink, MEDIUM, Stroke, THIN};
use crate::text::Label;
use crate::view::BeamView;
use crate::words;
use core::f64::consts::{FRAC_PI_2, PI};
use mechanics::beam::{Curve, Side};
use workings::dimension::Dimension;
use workings::notation::{MomentSide, ShearSide, SignMarks};
use workings::role::Role;
use workings::unit::Unit;

/// Height of the curve of a panel between its highest and lowest value, px: on a wall the height of the whole drawing says
/// how large its letters can be.
const HEIGHT: f64 = 78.0;
/// Distance between the hatch lines, px.
const HATCH: f64 = 6.0;

/// What a panel shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shown {
    /// The shear force.
    Shear,
    /// The bending moment.
    Moment,
}

impl Shown {
    /// The curve of the solution.
    pub fn curve(self) -> Curve {
        match self {
            Shown::Shear => Curve::Shear,
            Shown::Moment => Curve::BendingMoment,
        }
    }

    /// Its role.
    pub fn role(self) -> Role {
        match self {
            Shown::Shear => Role::ShearForce,
            Shown::Moment => Role::BendingMoment,
        }
    }

    /// Its dimension.
    pub fn dimension(self) -> Dimension {
        match self {
            Shown::Shear => Dimension::FORCE,
            Shown::Moment => Dimension::MOMENT,
        }
    }

    fn inks(self) -> (Ink, Ink) {
        match self {
            Shown::Shear => (Ink::Shear, Ink::ShearTint),
            Shown::Moment => (Ink::Moment, Ink::MomentTint),
        }
    }

    /// Whether a positive value is drawn above the axis.
    pub fn positive_up(self, view: &BeamView<'_>) -> bool {
        let habits = view.scribe.style().notation.habits;
        match self {
            Shown::Shear => habits.shear_side == ShearSide::PositiveUp,
            Shown::Moment => habits.moment_side == MomentSide::PositiveUp,
        }
    }
}

/// The vertical scale of a panel.
#[derive(Clone, Copy)]
struct Scale {
    /// Where the value zero is drawn, px.
    axis: f64,
    /// px up for one SI unit; negative where positive values are drawn downwards.
    up: f64,
}

impl Scale {
    fn y(self, value: f64) -> f64 {
        self.axis - value * self.up
    }
}

/// A panel drawn.
pub struct Panel {
    /// Its marks, without labels.
    pub marks: Vec<Mark>,
    /// The signs of its areas, drawn over everything else.
    pub signs: Vec<Mark>,
    /// The labels that it wants, those that matter most first.
    pub wishes: Vec<Wish>,
    /// Where its axis lies, px.
    pub axis: f64,
    scale: Scale,
}

impl Panel {
    /// The height at which a value is drawn, px.
    pub fn y(&self, value: f64) -> f64 {
        self.scale.y(value)
    }
}

/// Draws the panel with its highest value at `top` px.
pub fn panel(view: &BeamView<'_>, shown: Shown, values: &KeyValues, top: f64) -> Panel {
    let (ink, tint) = shown.inks();
    let scale = scale(view, shown, values, top);
    let mut marks = Vec::new();
    let solution = view.solution;
    let along = view.along();
    let mut outline = vec![Point::new(along.left, scale.axis)];
    let mut fill = vec![Step::Move(Point::new(along.left, scale.axis))];
    let mut line = Vec::new();
    let mut pen: Option<Point> = None;
    for segment in solution.segments() {
        let coefficients = match shown {
            Shown::Shear => {
                let [a, b, c] = segment.shear();
                [a, b, c, 0.0]
            }
            Shown::Moment => segment.bending_moment(),
        };
        let (from, to) = (along.px(segment.from), along.px(segment.to));
        let [first, second, third, last] = bezier(coefficients, segment.length(), from, to, scale);
        fill.push(Step::Line(first));
        if pen.is_none_or(|pen| (pen.y - first.y).abs() > 1e-6) {
            line.push(if pen.is_none() {
                Step::Move(Point::new(first.x, scale.axis))
            } else {
                Step::Line(first)
            });
            line.push(Step::Line(first));
        }
        if coefficients[2] == 0.0 && coefficients[3] == 0.0 {
            fill.push(Step::Line(last));
            line.push(Step::Line(last));
            outline.extend([first, last]);
        } else {
            let curve = Step::Curve { first: second, second: third, to: last };
            fill.push(curve);
            line.push(curve);
            for number in 0..=24 {
                let s = segment.length() * f64::from(number) / 24.0;
                let x = from + (to - from) * f64::from(number) / 24.0;
                outline.push(Point::new(x, scale.y(segment.value(shown.curve(), s))));
            }
        }
        pen = Some(last);
    }
    outline.push(Point::new(along.right, scale.axis));
    fill.extend([Step::Line(Point::new(along.right, scale.axis)), Step::Close]);
    line.push(Step::Line(Point::new(along.right, scale.axis)));
    marks.push(Mark::Path { steps: fill, stroke: None, fill: Some(tint) });
    marks.extend(hatch::marks(&[outline.clone()], FRAC_PI_2, HATCH, Stroke::solid(ink, 0.5)));
    marks.push(Mark::Line {
        from: Point::new(along.left - 6.0, scale.axis),
        to: Point::new(along.right + 10.0, scale.axis),
        stroke: Stroke::solid(Ink::Line, THIN),
    });
    marks.push(Mark::Path { steps: line, stroke: Some(Stroke::solid(ink, 1.5)), fill: None });
    let signs = signs(view, shown, scale);
    let mut wishes = vec![axis_label(view, shown, scale)];
    let (dots, labels) = value_labels(view, shown, values, scale);
    marks.extend(dots);
    wishes.extend(labels);
    Panel { marks, signs, wishes, axis: scale.axis, scale }
}

fn scale(view: &BeamView<'_>, shown: Shown, values: &KeyValues, top: f64) -> Scale {
    let all = values.values.iter().map(|value| value.value);
    let (low, high) = all.fold((0.0_f64, 0.0_f64), |(low, high), value| (low.min(value), high.max(value)));
    let size = if high > low { HEIGHT / (high - low) } else { 0.0 };
    if shown.positive_up(view) {
        Scale { axis: top + high * size, up: size }
    } else {
        Scale { axis: top - low * size, up: -size }
    }
}

/// The control points of the curve over a segment: a cubic in s is a cubic curve of the sheet exactly.
fn bezier([a, b, c, d]: [f64; 4], length: f64, from: f64, to: f64, scale: Scale) -> [Point; 4] {
    let value = |s: f64| a + s * (b + s * (c + s * d));
    let slope = |s: f64| b + s * (2.0 * c + s * 3.0 * d);
    let third = (to - from) / 3.0;
    [
        Point::new(from, scale.y(value(0.0))),
        Point::new(from + third, scale.y(value(0.0) + slope(0.0) * length / 3.0)),
        Point::new(to - third, scale.y(value(length) - slope(length) * length / 3.0)),
        Point::new(to, scale.y(value(length))),
    ]
}

/// A sign in each wide enough area of one sign.
fn signs(view: &BeamView<'_>, shown: Shown, scale: Scale) -> Vec<Mark> {
    const SAMPLES: u32 = 400;
    let mut marks = Vec::new();
    let length = view.problem.beam.length;
    // areas of one sign, their extent and the place where they are tallest; only the place of a sign hangs on it
    let mut areas: Vec<(f64, Vec<Point>)> = Vec::new();
    for number in 0..SAMPLES {
        let station = length * (f64::from(number) + 0.5) / f64::from(SAMPLES);
        let value = view.solution.value(shown.curve(), station, Side::Left);
        let point = Point::new(view.along().px(station), scale.y(value));
        if value == 0.0 {
            areas.push((0.0, Vec::new()));
            continue;
        }
        match areas.last_mut() {
            Some((sign, points)) if *sign == value.signum() => points.push(point),
            _ => areas.push((value.signum(), vec![point])),
        }
    }
    let habits = view.scribe.style().notation.habits;
    for (sign, points) in areas {
        // the middle of the area, weighed by its height, unless the curve is too near there
        let weight: f64 = points.iter().map(|point| (point.y - scale.axis).abs()).sum();
        if weight == 0.0 {
            continue;
        }
        let x = points.iter().map(|point| point.x * (point.y - scale.axis).abs()).sum::<f64>() / weight;
        let Some(nearest) = points.iter().min_by(|a, b| (a.x - x).abs().total_cmp(&(b.x - x).abs())) else {
            continue;
        };
        let radius = 7.0;
        let room = points
            .iter()
            .filter(|point| (point.x - x).abs() <= radius + 1.0)
            .map(|point| (point.y - scale.axis).abs())
            .fold(f64::INFINITY, f64::min);
        let width = points.len() as f64 / f64::from(SAMPLES) * view.along().span();
        if room < 2.0 * radius + 5.0 || width < 2.0 * radius + 8.0 {
            continue;
        }
        let centre = Point::new(x, scale.axis + (nearest.y - scale.axis) * 0.5);
        let with_signs = habits.sign_marks != SignMarks::BowMarks;
        let with_bows = habits.sign_marks != SignMarks::Signs;
        let both = with_signs && with_bows && width > 5.0 * radius;
        if with_signs {
            marks.extend(plus_or_minus(
                centre.moved(if both { -radius - 2.0 } else { 0.0 }, 0.0),
                radius,
                sign,
            ));
        }
        if with_bows && (both || !with_signs) {
            marks.extend(bow(shown, centre.moved(if both { radius + 2.0 } else { 0.0 }, 0.0), radius, sign));
        }
    }
    marks
}

fn disc(centre: Point, radius: f64) -> Mark {
    Mark::Circle { centre, radius, stroke: Some(Stroke::solid(Ink::Line, THIN)), fill: Some(Ink::Paper) }
}

fn stroke_between(from: Point, to: Point) -> Mark {
    Mark::Line { from, to, stroke: Stroke::solid(Ink::Line, MEDIUM) }
}

/// A plus or a minus in a circle, drawn, so that it is no label.
fn plus_or_minus(centre: Point, radius: f64, sign: f64) -> Vec<Mark> {
    let arm = radius * 0.55;
    let mut marks =
        vec![disc(centre, radius), stroke_between(centre.moved(-arm, 0.0), centre.moved(arm, 0.0))];
    if sign > 0.0 {
        marks.push(stroke_between(centre.moved(0.0, -arm), centre.moved(0.0, arm)));
    }
    marks
}

/// A bow mark: how a slice is deformed. For M the bow of the bent axis, for V the step of its two faces.
fn bow(shown: Shown, centre: Point, radius: f64, sign: f64) -> Vec<Mark> {
    let mut marks = vec![disc(centre, radius)];
    let arm = radius * 0.55;
    match shown {
        Shown::Moment => {
            let bend = radius * 1.0;
            // sagging: the bow is open above, its circle's centre lies above it
            let middle = centre.moved(0.0, -sign * bend * 0.75);
            let from = if sign > 0.0 { 1.25 * PI } else { 0.25 * PI };
            marks.push(Mark::Arc {
                centre: middle,
                radius: bend,
                from,
                turn: 0.5 * PI,
                stroke: Stroke::solid(Ink::Line, MEDIUM),
            });
        }
        Shown::Shear => {
            // positive: the left side moves up, the right side down
            let rise = sign * arm * 0.8;
            let (left, right) = (centre.moved(-arm, -rise), centre.moved(arm, rise));
            marks.push(stroke_between(left, centre.moved(0.0, -rise)));
            marks.push(stroke_between(centre.moved(0.0, -rise), centre.moved(0.0, rise)));
            marks.push(stroke_between(centre.moved(0.0, rise), right));
        }
    }
    marks
}

fn axis_unit(view: &BeamView<'_>, shown: Shown) -> Unit {
    let largest = view.solution.extremes(shown.curve()).largest_size.value;
    view.scribe.axis_unit(largest, shown.dimension(), shown.role())
}

fn axis_label(view: &BeamView<'_>, shown: Shown, scale: Scale) -> Wish {
    let label =
        view.scribe.symbol(shown.role(), "").and_words(format!(", {}", axis_unit(view, shown).text()));
    Wish::new(label, Point::new(view.along().left - 8.0, scale.axis))
        .seats(&[Seat::Left], Escape::Any)
        .gap(2.0)
}

/// The dots on the curve and the labels of the values and stations that matter.
fn value_labels(
    view: &BeamView<'_>,
    shown: Shown,
    values: &KeyValues,
    scale: Scale,
) -> (Vec<Mark>, Vec<Wish>) {
    let along = view.along();
    let mut marks = Vec::new();
    let mut wishes = Vec::new();
    let largest = view.solution.extremes(shown.curve()).largest_size.value;
    for key in values.values.iter().filter(|key| key.labelled) {
        let point = Point::new(along.px(key.station), scale.y(key.value));
        let text = view.scribe.number_text(key.value, shown.dimension(), shown.role(), largest);
        wishes.push(value_wish(key, Label::words(text), point, scale));
        if key.peak {
            // the tangent is level where the curve turns
            marks.push(Mark::Line {
                from: point.moved(-15.0, 0.0),
                to: point.moved(15.0, 0.0),
                stroke: Stroke::solid(Ink::Line, THIN),
            });
        }
        if key.dot {
            marks.push(Mark::Circle { centre: point, radius: 2.2, stroke: None, fill: Some(shown.inks().0) });
        }
    }
    for &station in &values.crossings {
        let point = Point::new(along.px(station), scale.axis);
        marks.push(Mark::Circle {
            centre: point,
            radius: 2.2,
            stroke: Some(Stroke::solid(shown.inks().0, 1.0)),
            fill: Some(Ink::Paper),
        });
        let text = words::place(view, station);
        wishes.push(
            Wish::new(Label::words(text), point)
                .seats(
                    &[
                        Seat::AboveRight,
                        Seat::BelowLeft,
                        Seat::AboveLeft,
                        Seat::BelowRight,
                        Seat::Above,
                        Seat::Below,
                    ],
                    Escape::Any,
                )
                .gap(4.5)
                .size(view.sheet.small)
                .ink(Ink::Quiet),
        );
    }
    (marks, wishes)
}

fn value_wish(key: &KeyValue, label: Label, point: Point, scale: Scale) -> Wish {
    // away from the axis, and on the side of the station on which the value holds
    let above = point.y < scale.axis || (point.y == scale.axis && scale.up > 0.0);
    let (plain, left, right) = if above {
        (Seat::Above, Seat::AboveLeft, Seat::AboveRight)
    } else {
        (Seat::Below, Seat::BelowLeft, Seat::BelowRight)
    };
    let escape = if above { Escape::Up } else { Escape::Down };
    let seats = match key.side {
        // the value right of a jump stands right of it
        Some(Side::Right) => [right, plain, Seat::Right, left, Seat::Left],
        Some(Side::Left) => [left, plain, Seat::Left, right, Seat::Right],
        None => [plain, right, left, Seat::Right, Seat::Left],
    };
    // clear of the dot that marks a peak
    Wish::new(label, point).seats(&seats, escape).gap(if key.dot { 4.5 } else { 3.0 })
}

/// The mark of the slice's station through the panels.
pub fn slice_line(view: &BeamView<'_>, top: f64, bottom: f64) -> Vec<Mark> {
    let x = view.along().px(view.problem.slice.at);
    vec![Mark::Line {
        from: Point::new(x, top),
        to: Point::new(x, bottom),
        stroke: Stroke::dashed(Ink::Cut, THIN),
    }]
}

/// The label of the slice's station, below the lowest panel.
pub fn slice_label(view: &BeamView<'_>, bottom: f64) -> Wish {
    let x = view.along().px(view.problem.slice.at);
    let station = view.scribe.station_text(view.problem.slice.at);
    let label = view.scribe.symbol(Role::Station, "").equals(Label::words(station));
    Wish::new(label, Point::new(x, bottom)).seats(&[Seat::Below], Escape::Down).ink(Ink::Cut)
}

/// Keeps labels off the panel's marks.
pub fn avoid(placer: &mut Placer, panel: &Panel) {
    placer.avoid_marks(&panel.marks);
    placer.avoid_marks(&panel.signs);
}
