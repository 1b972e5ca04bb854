//! Mohr's circle of a point of the beam.
//!
//! Normal stress to the right, tension positive; a shear stress is drawn up where it turns the element clockwise. Then one
//! turns on the circle in the same sense as on the element, by twice the angle.

use crate::arrow;
use crate::drawing::Mark;
use crate::geometry::Point;
use crate::label::{Escape, Placer, Seat, Wish};
use crate::palette::{Ink, MEDIUM, Stroke, THIN};
use crate::point::AtPoint;
use crate::scene::Scene;
use crate::text::Label;
use mechanics::real;
use workings::role::Role;

/// Radius on the sheet, px.
const RADIUS: f64 = 82.0;
/// How far the drawing reaches above the centre, px.
pub(crate) const UPPER: f64 = RADIUS + 44.0;
/// How far the axes reach beyond the circle, px.
const BEYOND: f64 = 34.0;

/// The circle about `centre`; there is some stress.
pub(crate) fn circle(scene: &Scene, at: &AtPoint, centre: Point) -> Vec<Mark> {
    let w = &scene.writer;
    let per_stress = RADIUS / at.principal.largest_shear;
    let mean = 0.5 * at.stress.normal;
    let place = |normal: f64, clockwise: f64| {
        Point::new(centre.x + (normal - mean) * per_stress, centre.y - clockwise * per_stress)
    };
    let (upright, level) = (place(at.stress.normal, at.stress.shear), place(0.0, -at.stress.shear));
    let axis = Stroke::solid(Ink::Quiet, 1.0);
    let (left, right) = (centre.moved(-RADIUS - BEYOND, 0.0), centre.moved(RADIUS + BEYOND, 0.0));
    let origin = place(0.0, 0.0);
    let top = Point::new(origin.x, centre.y - RADIUS - 26.0);
    let mut axes = arrow::straight_with_head(left, right, axis, 7.0);
    axes.extend(arrow::straight_with_head(origin.moved(0.0, RADIUS + 20.0), top, axis, 7.0));
    let mut round = vec![Mark::Circle {
        centre,
        radius: RADIUS,
        stroke: Some(Stroke::solid(Ink::Line, MEDIUM)),
        fill: None,
    }];
    let mut placer = Placer::new();
    let mut wishes = vec![
        Wish::new(w.symbol(Role::BendingStress), right).seats(&[Seat::Right, Seat::BelowRight], Escape::Any),
        Wish::new(w.symbol(Role::ShearStress), top).seats(&[Seat::Above, Seat::AboveRight], Escape::Up),
    ];
    let dot = |at: Point, ink: Ink| Mark::Circle { centre: at, radius: 3.0, stroke: None, fill: Some(ink) };
    if at.stress.shear != 0.0 {
        round.push(Mark::Line { from: upright, to: level, stroke: Stroke::solid(Ink::Cut, MEDIUM) });
        let begin = real::atan2(at.stress.shear, mean);
        round.extend(arrow::turning(centre, 27.0, begin, -begin, Stroke::solid(Ink::Line, MEDIUM)));
        let halfway = centre.around(27.0, 0.5 * begin);
        let twice = Label::words("2\u{a0}").followed_by(w.symbol(Role::PrincipalAngle));
        let seats: &[Seat] = if begin > 0.0 {
            &[Seat::AboveRight, Seat::Above, Seat::Right]
        } else {
            &[Seat::BelowRight, Seat::Below, Seat::Right]
        };
        wishes.push(Wish::new(twice, halfway).seats(seats, Escape::Any).gap(4.0));
        let crest = centre.moved(0.0, -RADIUS);
        round.push(Mark::Line { from: centre, to: crest, stroke: Stroke::dotted(Ink::Quiet, THIN) });
        round.push(dot(crest, Ink::Shear));
        let most = w.symbol_indexed(Role::PrincipalShear, "plane");
        let seats = [Seat::AboveRight, Seat::AboveLeft, Seat::Above];
        wishes.push(Wish::new(most, crest).seats(&seats, Escape::Up).gap(5.0).ink(Ink::Shear));
    }
    for (letter, at) in [("X", upright), ("Y", level)] {
        round.push(dot(at, Ink::Cut));
        let (out, down) = (at.x >= centre.x, at.y >= centre.y);
        let seats = match (down, out) {
            (false, true) => [Seat::AboveRight, Seat::Right, Seat::Above],
            (false, false) => [Seat::AboveLeft, Seat::Left, Seat::Above],
            (true, true) => [Seat::BelowRight, Seat::Right, Seat::Below],
            (true, false) => [Seat::BelowLeft, Seat::Left, Seat::Below],
        };
        wishes.push(Wish::new(Label::words(letter), at).seats(&seats, Escape::Any).gap(4.0).ink(Ink::Cut));
    }
    for (index, stress, seats) in [
        ("1", at.principal.largest, [Seat::BelowRight, Seat::AboveRight]),
        ("2", at.principal.smallest, [Seat::BelowLeft, Seat::AboveLeft]),
    ] {
        let spot = place(stress, 0.0);
        let ink = if index == "1" { Ink::Tension } else { Ink::Compression };
        round.push(dot(spot, ink));
        let label = w.symbol_indexed(Role::PrincipalStress, index);
        wishes.push(Wish::new(label, spot).seats(&seats, Escape::Any).gap(5.0).ink(ink));
    }
    round.push(dot(centre, Ink::Line));
    let mean = w.symbol_indexed(Role::PrincipalStress, "avg");
    let seats = [Seat::Below, Seat::BelowLeft, Seat::BelowRight, Seat::AboveLeft];
    wishes.push(Wish::new(mean, centre).seats(&seats, Escape::Down).gap(5.0));
    placer.avoid_marks(&axes);
    // The circle itself as a line, so that labels may stand within.
    let turn = core::f64::consts::TAU;
    placer.avoid_polyline(&crate::drawing::arc_points(centre, RADIUS, 0.0, turn));
    placer.avoid_marks(&round[1..]);
    wishes.iter().for_each(|wish| {
        placer.put(wish);
    });
    vec![
        Mark::group("axes", "Axes of the circle", axes),
        Mark::group("circle", "Mohr's circle", round),
        Mark::group("circle-labels", "Labels of the circle", placer.into_marks()),
    ]
}
