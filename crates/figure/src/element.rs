//! The sign figure (two small elements with V and M as they are taken positive) and the element dx.

use crate::arrow;
use crate::beam::MARGIN;
use crate::dimension;
use crate::drawing::{Description, Drawing, Mark};
use crate::geometry::{Point, Rect};
use crate::palette::{Ink, MEDIUM, Stroke, THIN};
use crate::text::{Align, Label, SIZE};
use crate::view::BeamView;
use core::f64::consts::PI;
use workings::notation::DepthAxis;
use workings::role::Role;

/// Half the height of an element, px.
const HALF: f64 = 27.0;
/// The stroke of V and M on the faces.
const INTERNAL: Stroke = Stroke::solid(Ink::Cut, 1.7);
/// Distance of a shear arrow from its face, px.
const BESIDE: f64 = 9.0;

fn body(rect: Rect, fill: Ink) -> Mark {
    Mark::Polygon {
        points: vec![
            Point::new(rect.left, rect.top),
            Point::new(rect.right, rect.top),
            Point::new(rect.right, rect.bottom),
            Point::new(rect.left, rect.bottom),
        ],
        stroke: Some(Stroke::OUTLINE),
        fill: Some(fill),
    }
}

/// The arrows of a positive shear force: up on the left face, down on the right one.
fn shear_arrows(rect: Rect) -> Vec<Mark> {
    let (left, right) = (rect.left - BESIDE, rect.right + BESIDE);
    let reach = rect.height() * 0.34;
    let mut marks = arrow::straight(Point::new(left, reach), Point::new(left, -reach), INTERNAL);
    marks.extend(arrow::straight(Point::new(right, -reach), Point::new(right, reach), INTERNAL));
    marks
}

/// The arrows of a positive bending moment: clockwise on the left face, counter-clockwise on the right one.
fn moment_arrows(rect: Rect, radius: f64) -> Vec<Mark> {
    let half = 60.0_f64.to_radians();
    let mut marks =
        arrow::turning(Point::new(rect.left - 2.0, 0.0), radius, PI + half, -2.0 * half, INTERNAL);
    marks.extend(arrow::turning(Point::new(rect.right + 2.0, 0.0), radius, -half, 2.0 * half, INTERNAL));
    marks
}

fn written(x: f64, y: f64, label: Label, align: Align, ink: Ink) -> Mark {
    Mark::Text { at: Point::new(x, y), label, align, size: SIZE, ink }
}

/// Two small elements: positive V, positive M; and the axes.
pub fn sign_figure(view: &BeamView<'_>) -> Drawing {
    let scribe = view.scribe;
    let [v, m] = [Role::ShearForce, Role::BendingMoment].map(|role| scribe.symbol(role, ""));
    let level = SIZE * 0.33;

    // the axes
    let depth_up = scribe.style().notation.habits.depth_axis == DepthAxis::Up;
    let origin = Point::new(40.0, if depth_up { 16.0 } else { -16.0 });
    let end = origin.moved(0.0, if depth_up { -36.0 } else { 36.0 });
    let axis = Stroke::solid(Ink::Quiet, 1.0);
    let mut axes = arrow::straight_with_head(origin, origin.moved(42.0, 0.0), axis, 7.0);
    axes.extend(arrow::straight_with_head(origin, end, axis, 7.0));
    axes.push(written(
        origin.x + 47.0,
        origin.y + level,
        scribe.symbol(Role::Along, ""),
        Align::Start,
        Ink::Quiet,
    ));
    let beyond = if depth_up { end.y - 5.0 } else { end.y + 14.0 };
    axes.push(written(end.x, beyond, scribe.symbol(Role::Depth, ""), Align::Middle, Ink::Quiet));

    // V
    let sheared = Rect { left: 178.0, top: -HALF, right: 232.0, bottom: HALF };
    let mut shear = vec![body(sheared, Ink::SliceTint)];
    shear.extend(shear_arrows(sheared));
    shear.push(written(sheared.left - BESIDE - 7.0, level, v.clone(), Align::End, Ink::Cut));
    shear.push(written(sheared.right + BESIDE + 7.0, level, v.clone(), Align::Start, Ink::Cut));
    shear.push(written(
        sheared.middle().x,
        HALF + 37.0,
        Label::words("positive ").followed_by(v),
        Align::Middle,
        Ink::Line,
    ));

    // M, on a slice that sags
    let bent = Rect { left: 380.0, top: -HALF, right: 434.0, bottom: HALF };
    let mut moment = vec![body(bent, Ink::SliceTint)];
    moment.push(Mark::Line {
        from: Point::new(bent.left, bent.bottom),
        to: Point::new(bent.right, bent.bottom),
        stroke: Stroke::solid(Ink::Tension, 2.5),
    });
    moment.push(Mark::Line {
        from: Point::new(bent.left, bent.top),
        to: Point::new(bent.right, bent.top),
        stroke: Stroke::dashed(Ink::Compression, 2.5),
    });
    moment.extend(moment_arrows(bent, HALF + 3.0));
    moment.push(written(bent.left - HALF - 12.0, level, m.clone(), Align::End, Ink::Cut));
    moment.push(written(bent.right + HALF + 12.0, level, m.clone(), Align::Start, Ink::Cut));
    moment.push(written(
        bent.middle().x,
        HALF + 37.0,
        Label::words("positive ").followed_by(m),
        Align::Middle,
        Ink::Line,
    ));
    moment.push(written(
        bent.middle().x,
        -HALF - 9.0,
        Label::words("compression"),
        Align::Middle,
        Ink::Compression,
    ));
    moment.push(written(bent.middle().x, HALF + 15.0, Label::words("tension"), Align::Middle, Ink::Tension));

    let marks = vec![
        Mark::group("axes", "Axes", axes),
        Mark::group("positive-shear-force", "Positive shear force", shear),
        Mark::group("positive-bending-moment", "Positive bending moment", moment),
    ];
    let [v, m, x, y] = [Role::ShearForce, Role::BendingMoment, Role::Along, Role::Depth]
        .map(|role| scribe.symbol_text(role, ""));
    let direction = if depth_up { "up" } else { "down" };
    let mut long = Description::new();
    long.sentence(format!("The axes: {x} along the beam to the right, {y} {direction}."));
    long.sentence(format!("A positive {v} acts up on the left face of a slice and down on its right face."));
    long.sentence(format!(
        "A positive {m} turns clockwise on the left face and counter-clockwise on the right face: the slice sags, with \
         tension at the bottom and compression at the top."
    ));
    let short = format!(
        "Sign rules on two small slices: positive {v} acts up on the left face and down on the right; positive {m} \
         makes the beam sag."
    );
    Drawing::fitted("signs", "Signs of the shear force and the bending moment", MARGIN, 0.0, marks)
        .described(short, long)
}

/// The element dx with V, V + dV, M, M + dM and the load w.
pub fn element(view: &BeamView<'_>) -> Drawing {
    let scribe = view.scribe;
    let [v, m, w, x] = [Role::ShearForce, Role::BendingMoment, Role::SpreadLoad, Role::Station]
        .map(|role| scribe.symbol(role, ""));
    let rect = Rect { left: 0.0, top: -HALF - 6.0, right: 108.0, bottom: HALF + 6.0 };
    let level = SIZE * 0.33;

    let mut load = Vec::new();
    let (foot, head) = (rect.top - 2.0, rect.top - 30.0);
    let fine = Stroke::solid(Ink::Line, THIN);
    load.push(Mark::Line {
        from: Point::new(rect.left, head),
        to: Point::new(rect.right, head),
        stroke: Stroke::solid(Ink::Line, MEDIUM),
    });
    for number in 0..=8 {
        let at = rect.left + rect.width() * f64::from(number) / 8.0;
        load.extend(arrow::straight_with_head(Point::new(at, head), Point::new(at, foot), fine, 6.5));
    }
    load.push(written(rect.middle().x, head - 7.0, w, Align::Middle, Ink::Line));

    let mut forces = shear_arrows(rect);
    forces.push(written(rect.left - BESIDE - 2.0, rect.bottom + 15.0, v.clone(), Align::Middle, Ink::Cut));
    forces.push(written(
        rect.right + BESIDE - 4.0,
        // below the moment's arc
        rect.bottom + 15.0,
        scribe.grown(v),
        Align::Start,
        Ink::Cut,
    ));
    let radius = HALF + 10.0;
    forces.extend(moment_arrows(rect, radius));
    forces.push(written(rect.left - radius - 9.0, level, m.clone(), Align::End, Ink::Cut));
    forces.push(written(rect.right + radius + 9.0, level, scribe.grown(m), Align::Start, Ink::Cut));

    let row = rect.bottom + 43.0;
    let mut dimensions = dimension::level(rect.left, rect.right, row);
    for x in [rect.left, rect.right] {
        let foot = Point::new(x, if x == rect.left { rect.bottom } else { rect.bottom + 10.0 });
        dimensions.extend(dimension::extension(foot, Point::new(x, row)));
    }
    dimensions.push(written(rect.middle().x, row - 5.0, scribe.differential(x), Align::Middle, Ink::Quiet));

    let marks = vec![
        Mark::group("element", "Element of the beam", vec![body(rect, Ink::SliceTint)]),
        Mark::group("load", "Spread load", load),
        Mark::group("faces", "Shear force and bending moment on the faces", forces),
        Mark::group("dimensions", "Length", dimensions),
    ];
    let [v, m, w, x] = [Role::ShearForce, Role::BendingMoment, Role::SpreadLoad, Role::Station]
        .map(|role| scribe.symbol_text(role, ""));
    let mut long = Description::new();
    long.sentence(format!("An element of the beam, d{x} long, under the spread load {w} acting down."));
    long.list(vec![
        format!("On its left face {v} acts up and {m} turns clockwise."),
        format!("On its right face {v} + d{v} acts down and {m} + d{m} turns counter-clockwise."),
    ]);
    let short = format!(
        "Free body of an element d{x} under the load {w}: {v} and {m} on its left face, {v} + d{v} and {m} + d{m} on \
         its right face."
    );
    Drawing::fitted("element", "Element of the beam", MARGIN, 0.0, marks).described(short, long)
}
