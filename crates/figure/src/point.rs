//! Stress at the point where the slice is cut: the element as it lies, the same turned to the principal directions, and
//! Mohr's circle.

use crate::arrow;
use crate::circle;
use crate::drawing::{Drawing, Mark, bounds};
use crate::geometry::Point;
use crate::label::{Escape, Placer, Seat, Wish};
use crate::legend::{Sample, legend};
use crate::palette::{Ink, MEDIUM, Stroke, THIN};
use crate::point_words;
use crate::scene::Scene;
use crate::shear_element;
use crate::text::{Align, Label};
use core::f64::consts::FRAC_PI_2;
use mechanics::real;
use mechanics::stress::{PlaneStress, PrincipalStresses};
use workings::dimension::Dimension;
use workings::role::Role;

/// Side of an element, px.
const SIDE: f64 = 76.0;
/// Room between a face and the arrow of the normal stress on it, px: the shear arrow stands between.
const GAP: f64 = 17.0;
/// The longest and the shortest arrow of a normal stress, px.
const ARROWS: (f64, f64) = (30.0, 12.0);
/// A direction whose sine is less runs almost level.
const LEVEL: f64 = 0.3;
/// Distance between the middles of the two elements, px, and between the rows.
const APART: (f64, f64) = (290.0, 204.0);

/// What the drawing shows.
pub(crate) struct AtPoint {
    pub stress: PlaneStress,
    pub principal: PrincipalStresses,
}

impl AtPoint {
    /// The greatest size of a normal stress, Pa.
    fn greatest(&self) -> f64 {
        let principal = &self.principal;
        principal.largest.abs().max(principal.smallest.abs())
    }
}

/// The element at the cut, turned, and Mohr's circle; none where the bending stress there has no one value.
pub(crate) fn point(scene: &Scene) -> Option<Drawing> {
    let stress = PlaneStress { normal: scene.values.bending_on_cut?, shear: scene.values.stress_on_cut };
    let at = AtPoint { stress, principal: stress.principal() };
    let w = &scene.writer;
    let narrow = scene.sheet.is_narrow();
    let mut marks = Vec::new();
    let lying = Point::new(0.0, 0.0);
    let mut low = element(scene, &at, lying, &mut marks);
    let mut entries = Vec::new();
    if at.principal.largest_shear > 0.0 {
        let turned = if narrow { Point::new(0.0, APART.1) } else { Point::new(APART.0, 0.0) };
        low = low.max(turned_element(scene, &at, turned, &mut marks));
        let middle = Point::new(if narrow { 0.0 } else { 0.5 * APART.0 }, low + 30.0 + circle::UPPER);
        marks.extend(circle::circle(scene, &at, middle));
        if at.principal.largest > 0.0 {
            entries.push((Sample::Tension, Label::words("tension, T")));
        }
        if at.principal.smallest < 0.0 {
            entries.push((Sample::Compression, Label::words("compression, C")));
        }
        if stress.shear != 0.0 {
            entries.push((Sample::ForceOnCut, Label::words("shear stress")));
        }
        for words in point_words::CONVENTION {
            entries.push((Sample::None, Label::words(words)));
        }
        let symbols = w
            .symbol_indexed(Role::PrincipalStress, "avg")
            .equals(value(scene, at.stress.normal / 2.0, &at))
            .and_words(",\u{2002}")
            .followed_by(w.symbol(Role::CircleRadius).equals(value(scene, at.principal.largest_shear, &at)));
        entries.push((Sample::None, symbols));
    } else {
        entries.push((Sample::None, Label::words("no stress acts here")));
    }
    let under = bounds(&marks);
    marks.push(legend(&entries, under, scene.sheet));
    let (short, long) = point_words::describe(scene, &at);
    let title = "Stress at the cut: element, principal directions and Mohr's circle";
    Some(Drawing::fitted("point", title, 12.0, scene.sheet.width, marks).described(short, long))
}

/// A stress with its unit, that of the greatest of the drawing.
pub(crate) fn value(scene: &Scene, stress: f64, at: &AtPoint) -> Label {
    scene.writer.value_beside(stress, Dimension::STRESS, Role::PrincipalStress, at.greatest())
}

/// `σ = 3.2 MPa T`
fn sized(scene: &Scene, symbol: Label, stress: f64, at: &AtPoint) -> Label {
    let letter = if stress > 0.0 { "\u{a0}T" } else { "\u{a0}C" };
    symbol.equals(value(scene, stress.abs(), at)).and_words(letter)
}

fn square(middle: Point, angle: f64) -> Mark {
    let corner = |quarter: f64| {
        middle.around(0.5 * SIDE * core::f64::consts::SQRT_2, angle + (quarter + 0.5) * FRAC_PI_2)
    };
    let points = vec![corner(0.0), corner(1.0), corner(2.0), corner(3.0)];
    Mark::Polygon { points, stroke: Some(Stroke::OUTLINE), fill: Some(Ink::Material) }
}

/// The two arrows of a normal stress on the faces whose outward normals lie at `angle` and opposite; and the far end of
/// the first.
fn normal_arrows(at: &AtPoint, stress: f64, middle: Point, angle: f64, marks: &mut Vec<Mark>) -> Point {
    let length = (ARROWS.0 * stress.abs() / at.greatest()).max(ARROWS.1);
    let (near, far) = (0.5 * SIDE + GAP, 0.5 * SIDE + GAP + length);
    for turn in [angle, angle + core::f64::consts::PI] {
        let (foot, tip) = (middle.around(near, turn), middle.around(far, turn));
        marks.extend(if stress > 0.0 {
            arrow::straight(foot, tip, Stroke::solid(Ink::Tension, 2.0))
        } else {
            arrow::straight(tip, foot, Stroke::dashed(Ink::Compression, 2.0))
        });
    }
    middle.around(far, angle)
}

fn ink(stress: f64) -> Ink {
    if stress > 0.0 { Ink::Tension } else { Ink::Compression }
}

/// Words over a group, in small letters, above all that it holds.
fn headed(scene: &Scene, id: &str, words: &str, middle: f64, marks: Vec<Mark>) -> Mark {
    let top = bounds(&marks).top;
    let mut all = marks;
    all.push(Mark::Text {
        at: Point::new(middle, top - 10.0),
        label: Label::words(words),
        align: Align::Middle,
        size: scene.sheet.small,
        ink: Ink::Quiet,
    });
    Mark::group(id, words, all)
}

/// The element as it lies in the beam, about `middle`; gives back its lower edge.
fn element(scene: &Scene, at: &AtPoint, middle: Point, marks: &mut Vec<Mark>) -> f64 {
    let w = &scene.writer;
    let (sigma, tau) = (at.stress.normal, at.stress.shear);
    let corner = middle.moved(-0.5 * SIDE, -0.5 * SIDE);
    let mut all = vec![square(middle, 0.0)];
    let mut wishes = Vec::new();
    if tau != 0.0 {
        all.extend(shear_element::half_arrows(corner, SIDE, tau > 0.0));
        let label = w.symbol(Role::ShearStress).equals(value(scene, tau.abs(), at));
        let place = middle.moved(0.0, -0.5 * SIDE - shear_element::OFF);
        wishes.push(Wish::new(label, place).seats(&[Seat::Above], Escape::Up).gap(7.0).ink(Ink::Cut));
    }
    if sigma != 0.0 {
        let end = normal_arrows(at, sigma, middle, 0.0, &mut all);
        let label = sized(scene, w.symbol(Role::BendingStress), sigma, at);
        let seats = [Seat::Right, Seat::AboveRight, Seat::BelowRight];
        wishes.push(Wish::new(label, end).seats(&seats, Escape::Any).gap(6.0).ink(ink(sigma)));
    }
    let mut placer = Placer::new();
    placer.avoid_marks(&all);
    placer.avoid_rect(square(middle, 0.0).rect());
    wishes.iter().for_each(|wish| {
        placer.put(wish);
    });
    all.extend(placer.into_marks());
    let words = if at.principal.largest_shear > 0.0 { "as it lies in the beam" } else { "the element" };
    marks.push(headed(scene, "lying", words, middle.x, all));
    bounds(marks).bottom
}

/// The element turned to the principal directions; gives back its lower edge.
fn turned_element(scene: &Scene, at: &AtPoint, middle: Point, marks: &mut Vec<Mark>) -> f64 {
    let w = &scene.writer;
    let PrincipalStresses { largest, smallest, angle, .. } = at.principal;
    let mut all = vec![square(middle, angle)];
    // How much a direction that runs almost level rises to the right.
    let rise = |angle: f64| real::sin(angle) * real::cos(angle).signum();
    let level = [angle, angle + FRAC_PI_2].into_iter().map(rise).find(|rise| rise.abs() < LEVEL);
    let reach = 0.5 * SIDE + GAP + if level.is_some() { -4.0 } else { 10.0 };
    let axis = Stroke::dash_dot(Ink::Quiet, THIN);
    all.push(Mark::Line { from: middle, to: middle.moved(reach, 0.0), stroke: axis });
    let mut wishes = Vec::new();
    // An angle too small to be seen as one is told in words.
    if angle.abs() > 0.03 {
        all.push(Mark::Line { from: middle, to: middle.around(0.5 * SIDE, angle), stroke: axis });
        let radius = 25.0;
        all.extend(arrow::turning(middle, radius, 0.0, angle, Stroke::solid(Ink::Line, MEDIUM)));
    }
    let label = w.symbol(Role::PrincipalAngle).equals(Label::words(point_words::angle(scene, angle)));
    // A stress that acts almost level has its arrow where the angle's value would stand: that goes to the other side of the axis.
    let (place, seats) = match level {
        None => (middle.moved(reach, 0.0), [Seat::Right, Seat::AboveRight, Seat::BelowRight]),
        Some(rise) if rise >= 0.0 => (middle.moved(0.5 * SIDE + 4.0, 3.0), [Seat::BelowRight; 3]),
        Some(_) => (middle.moved(0.5 * SIDE + 4.0, -3.0), [Seat::AboveRight; 3]),
    };
    wishes.push(Wish::new(label, place).seats(&seats, Escape::Any));
    for (index, stress, angle) in [("1", largest, angle), ("2", smallest, angle + FRAC_PI_2)] {
        if stress.abs() <= point_words::NOUGHT * at.greatest() {
            continue;
        }
        // Of the two faces that on the right is lettered: on the left stands the other element.
        let angle = if real::cos(angle) < -1e-9 { angle - core::f64::consts::PI } else { angle };
        let end = normal_arrows(at, stress, middle, angle, &mut all);
        let label = sized(scene, w.symbol_indexed(Role::PrincipalStress, index), stress, at);
        let up = real::sin(angle) >= 0.0;
        let seats = if up {
            [Seat::Above, Seat::AboveRight, Seat::Right, Seat::AboveLeft]
        } else {
            [Seat::Below, Seat::BelowRight, Seat::Right, Seat::BelowLeft]
        };
        let escape = if up { Escape::Up } else { Escape::Down };
        let mut wish = Wish::new(label, end).seats(&seats, escape).gap(6.0).ink(ink(stress));
        if rise(angle).abs() < LEVEL {
            // Off the corner of the element.
            wish.spots.insert(0, (end.moved(12.0, 0.0), seats[0]));
        }
        wishes.push(wish);
    }
    let mut placer = Placer::new();
    placer.avoid_marks(&all);
    placer.avoid_rect(Mark::Circle { centre: middle, radius: 0.5 * SIDE, stroke: None, fill: None }.rect());
    wishes.iter().for_each(|wish| {
        placer.put(wish);
    });
    all.extend(placer.into_marks());
    marks.push(headed(scene, "turned", "turned to the principal directions", middle.x, all));
    bounds(marks).bottom
}
