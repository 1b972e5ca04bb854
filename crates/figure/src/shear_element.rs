//! A small element at the cut: the shear stress on the cut never comes alone.

use crate::arrow::{self, Barb};
use crate::cut_words::at_most;
use crate::drawing::{Description, Drawing, Mark, bounds};
use crate::geometry::{Point, Rect};
use crate::label::{Escape, Placer, Seat, Wish};
use crate::legend::{Sample, legend};
use crate::palette::{Ink, Stroke};
use crate::scene::Scene;
use crate::text::Label;
use workings::dimension::Dimension;
use workings::role::Role;

/// Side of the element, px.
const SIDE: f64 = 110.0;
/// Distance of an arrow from its face, px.
pub(crate) const OFF: f64 = 11.0;
/// Room between an arrow's ends and the corners, px.
const SHORT_OF: f64 = 12.0;

/// The half-arrows on the four faces of a square with its upper left corner at `corner`, as they act under a positive
/// shear force: down on the right face, up on the left one, and, so that it does not turn, to the left above and to the
/// right below.
pub(crate) fn half_arrows(corner: Point, side: f64, positive: bool) -> Vec<Mark> {
    let (near, far) = (SHORT_OF, side - SHORT_OF);
    let arrows = [
        ((side + OFF, near), (side + OFF, far)),
        ((-OFF, far), (-OFF, near)),
        ((far, -OFF), (near, -OFF)),
        ((near, side + OFF), (far, side + OFF)),
    ];
    let stroke = Stroke::solid(Ink::Cut, 2.0);
    let mut marks = Vec::new();
    for (from, to) in arrows {
        let (from, to) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
        let (from, to) = if positive { (from, to) } else { (to, from) };
        // The barb stands away from the element.
        let middle = from.towards(to, 0.5);
        let left = Point::new(to.y - from.y, from.x - to.x);
        let outer = left.x * (middle.x - 0.5 * side) + left.y * (middle.y - 0.5 * side) > 0.0;
        let barb = if outer { Barb::Left } else { Barb::Right };
        marks.extend(arrow::half(from.moved(corner.x, corner.y), to.moved(corner.x, corner.y), barb, stroke));
    }
    marks
}

/// The shear stress on the four faces of an element at the cut.
pub(crate) fn shear_element(scene: &Scene) -> Drawing {
    let w = &scene.writer;
    let stress = scene.values.stress_on_cut;
    let corners =
        vec![Point::new(0.0, 0.0), Point::new(SIDE, 0.0), Point::new(SIDE, SIDE), Point::new(0.0, SIDE)];
    let mut marks = vec![Mark::Polygon {
        points: corners.clone(),
        stroke: Some(Stroke::OUTLINE),
        fill: Some(Ink::Material),
    }];
    let mut placer = Placer::new();
    placer.avoid_rect(Rect::around(&corners));
    let mut wishes = Vec::new();
    let mut arrows = Vec::new();
    if stress != 0.0 {
        arrows.extend(half_arrows(Point::default(), SIDE, stress > 0.0));
        let value = w.value(stress.abs(), Dimension::STRESS, Role::ShearStress);
        let named = w.symbol(Role::ShearStress).equals(value);
        let middle = 0.5 * SIDE;
        for (at, seat, label) in [
            (Point::new(SIDE + OFF, middle), Seat::Right, named),
            (Point::new(middle, -OFF), Seat::Above, w.symbol(Role::ShearStress)),
            (Point::new(-OFF, middle), Seat::Left, w.symbol(Role::ShearStress)),
            (Point::new(middle, SIDE + OFF), Seat::Below, w.symbol(Role::ShearStress)),
        ] {
            wishes.push(Wish::new(label, at).seats(&[seat], Escape::Any).gap(8.0).ink(Ink::Cut));
        }
    }
    placer.avoid_marks(&arrows);
    for wish in &wishes {
        placer.put(wish);
    }
    marks.push(Mark::group("shear-stress", "Shear stress on the four faces", arrows));
    marks.push(Mark::group("labels", "Labels", placer.into_marks()));
    let along = w.symbol(Role::Along);
    let entries = if stress == 0.0 {
        vec![(Sample::None, Label::words("no shear stress here"))]
    } else {
        vec![
            (Sample::ForceOnCut, Label::words("shear stress on a face of the element")),
            (
                Sample::None,
                Label::words("seen from the side, ").followed_by(along).and_words(" to the right"),
            ),
            (Sample::None, Label::words("bending stress left out")),
        ]
    };
    let under = bounds(&marks);
    marks.push(legend(&entries, under, scene.sheet));
    let (short, long) = describe(scene);
    Drawing::fitted(
        "shear-element",
        "The shear stress on the cut and its companions",
        12.0,
        scene.sheet.width,
        marks,
    )
    .described(short, long)
}

fn describe(scene: &Scene) -> (String, Description) {
    let stress = scene.values.stress_on_cut;
    let size = scene.writer.text(stress.abs(), Dimension::STRESS, Role::ShearStress);
    let mut long = Description::new();
    if stress == 0.0 {
        long.sentence(
            "A square element of the beam at the cut, seen from the side. No shear stress acts on it.",
        );
        return ("Element of the beam at the cut: no shear stress acts on it here.".to_owned(), long);
    }
    let short = at_most(&format!(
        "Element at the cut with the shear stress {size} on all four faces: that on the level faces asks for an equal \
         one on the upright faces."
    ));
    let (right, left, above, below) =
        if stress > 0.0 { ("down", "up", "left", "right") } else { ("up", "down", "right", "left") };
    long.sentence(
        "A square element of the beam at the cut, seen from the side, with half-arrows of shear stress.",
    );
    long.list(vec![
        format!("right face: {size} {right}"),
        format!("left face: {size} {left}"),
        format!("upper face: {size} to the {above}"),
        format!("lower face: {size} to the {below}"),
    ]);
    long.sentence(
        "The two pairs turn the element opposite ways and balance; two arrowheads meet at each of two opposite corners.",
    );
    (short, long)
}
