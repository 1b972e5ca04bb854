//! The load that shear and bending allow a rectangle, over the ratio of span to depth: level as long as shear governs, a
//! hyperbola from there on.

use crate::arrow;
use crate::drawing::{Description, Drawing, Mark, Step};
use crate::geometry::Point;
use crate::label::{Escape, Placer, Seat, Wish};
use crate::palette::{Ink, MEDIUM, Stroke, THIN};
use crate::scale::Sheet;
use crate::scribe::Scribe;
use crate::text::Label;
use crate::words;
use workings::dimension::Dimension;
use workings::role::Role;
use workings::solved::Solved;

/// Width of the plot, and height of the load that shear allows, px.
const WIDTH: f64 = 420.0;
const SHEAR: f64 = 110.0;
/// How far the plot runs to the right, in the larger of both ratios, and up, in the load that shear allows.
const RIGHT: f64 = 1.7;
const UP: f64 = 1.5;
/// Points of a curve.
const POINTS: u32 = 60;
/// Free space around the drawing, px.
const MARGIN: f64 = 12.0;

/// The drawing; none where the beam is no rectangle with limits to both bending and shear.
pub(crate) fn span_and_depth(solved: &Solved) -> Option<Drawing> {
    let ratios = solved.allowables()?.growth.as_ref()?.ratios?;
    let [own, alike] = [ratios.own, ratios.alike].map(|id| solved.value(id));
    let end = RIGHT * own.max(alike);
    // Beside a ratio a hundred times as large the other one is no place of its own on the sheet.
    if !(end.is_finite() && own.min(alike) > 0.01 * end) {
        return None;
    }
    let at = |ratio: f64, load: f64| Point::new(WIDTH * ratio / end, -SHEAR * load);
    let bending = |from: f64, to: f64| -> Vec<Point> {
        let ratio = |number: u32| from + (to - from) * f64::from(number) / f64::from(POINTS);
        (0..=POINTS).map(ratio).map(|ratio| at(ratio, alike / ratio)).collect()
    };
    let curve = |points: &[Point], stroke| Mark::Path {
        steps: points
            .iter()
            .enumerate()
            .map(|(place, &point)| if place == 0 { Step::Move(point) } else { Step::Line(point) })
            .collect(),
        stroke: Some(stroke),
        fill: None,
    };
    let (shear, moment) = (Stroke::solid(Ink::Shear, 2.5), Stroke::solid(Ink::Moment, 2.5));
    let beyond = |ink| Stroke::dashed(ink, MEDIUM);
    let level = [at(0.0, 1.0), at(alike, 1.0), at(end, 1.0)];
    let [steep, governing] = [bending(alike / UP, alike), bending(alike, end)];
    let dot = at(own, (alike / own).min(1.0));
    let mut marks = vec![
        Mark::group(
            "shear",
            "What shear allows",
            vec![curve(&level[1..], beyond(Ink::Shear)), curve(&level[..2], shear)],
        ),
        Mark::group(
            "bending",
            "What bending allows",
            vec![curve(&steep, beyond(Ink::Moment)), curve(&governing, moment)],
        ),
        Mark::Line { from: at(alike, 0.0), to: at(alike, 1.0), stroke: Stroke::dotted(Ink::Quiet, MEDIUM) },
        Mark::Line { from: Point::new(dot.x, 0.0), to: dot, stroke: Stroke::dotted(Ink::Cut, MEDIUM) },
    ];
    let axis = Stroke::solid(Ink::Line, THIN);
    let (right, top) = (Point::new(WIDTH + 16.0, 0.0), at(0.0, UP + 0.1));
    marks.extend(arrow::straight(at(0.0, 0.0), right, axis));
    marks.extend(arrow::straight(at(0.0, 0.0), top, axis));
    marks.push(Mark::Circle {
        centre: dot,
        radius: 4.5,
        stroke: Some(Stroke::OUTLINE),
        fill: Some(Ink::Cut),
    });

    let scribe = Scribe::new(solved.style());
    let ratio = |value| {
        let letters =
            scribe.symbol(Role::Length, "").and_words("/").followed_by(scribe.symbol(Role::Height, ""));
        letters.equals(scribe.value(value, Dimension::NONE, Role::Ratio))
    };
    let mut placer = Placer::new();
    placer.avoid_marks(&marks);
    let mut put = |label: Label, at: Point, seats: &[Seat], escape, ink| {
        placer.put(&Wish::new(label, at).seats(seats, escape).gap(7.0).ink(ink));
    };
    put(Label::words("load allowed"), top, &[Seat::Right], Escape::Up, Ink::Line);
    let axis_name =
        scribe.symbol(Role::Length, "").and_words("/").followed_by(scribe.symbol(Role::Height, ""));
    put(axis_name, right, &[Seat::Right, Seat::Above], Escape::Any, Ink::Line);
    put(
        Label::words("this beam: ").followed_by(ratio(own)),
        dot,
        &[Seat::AboveRight, Seat::BelowLeft, Seat::AboveLeft, Seat::BelowRight],
        Escape::Any,
        Ink::Cut,
    );
    put(ratio(alike), at(alike, 0.0), &[Seat::Below], Escape::Down, Ink::Line);
    put(
        Label::words("shear governs"),
        at(0.5 * alike, 1.0),
        &[Seat::Above, Seat::Below],
        Escape::Any,
        Ink::Shear,
    );
    let far = 0.5 * (alike + end);
    put(
        Label::words("bending governs"),
        at(far, alike / far),
        &[Seat::BelowLeft, Seat::Below, Seat::AboveRight],
        Escape::Any,
        Ink::Moment,
    );
    marks.push(Mark::group("labels", "", placer.into_marks()));

    let number = |value| scribe.text(value, Dimension::NONE, Role::Ratio);
    let verdict = if own < alike { "of the two, shear governs" } else { "of the two, bending governs" };
    let short = words::shortened(format!(
        "The load allowed over the ratio of span to depth: level as far as {}, where shear governs, then falling, where bending \
         does. This beam has {}: {verdict}.",
        number(alike),
        number(own),
    ));
    let mut long = Description::new();
    long.sentence(format!(
        "Across stands the ratio of span to depth, up the load that is allowed. What shear allows is a level line: it does not \
         depend on the span. What bending allows falls as one over the ratio. They meet at {}.",
        number(alike)
    ));
    long.sentence(
        "The lesser of both is drawn heavy: the level line to the left of that ratio, the falling curve to the right of it; what \
         does not govern is dashed.",
    );
    long.sentence(format!("A dot marks this beam, at a ratio of {}: {verdict}.", number(own)));
    let title = "Short beams and long ones: what shear and bending allow";
    Some(Drawing::fitted("span-and-depth", title, MARGIN, Sheet::USUAL.width, marks).described(short, long))
}
