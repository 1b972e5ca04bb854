//! The shear centre on the drawing of the shear flow: its mark, its name, the shear force through it, and how far it stands off.

use crate::arrow;
use crate::cross_section::{Frame, centroid};
use crate::dimension;
use crate::drawing::Mark;
use crate::geometry::Point as Spot;
use crate::label::{Escape, Seat, Wish};
use crate::palette::{Ink, Stroke};
use crate::scene::Scene;
use crate::text::{Align, Label};
use crate::wall_flow::{Flowing, NOTHING};
use mechanics::section::Point;
use workings::dimension::Dimension;
use workings::role::Role;

/// Distance of the dimension line of the shear centre below all else, px: labels stand between.
const BELOW: f64 = 26.0;
/// What stands free between the name of the shear centre and walls beside it, px.
const BESIDE_NAME: f64 = 4.0;
/// What stands nearer than this over or under the shear centre, px, leaves no room for its name.
const OVER_NAME: f64 = 28.0;
/// How far from the shear centre its name stands over or under it, px.
const OFF_NAME: f64 = 10.0;
/// The radius of the mark of the centroid, px.
const MARK: f64 = 4.0;
/// Length of the arrow of the shear force, px.
const FORCE: f64 = 46.0;

/// The shear centre, its distance from the nearest web or from the centroid, and the shear force through it.
pub(crate) fn centre(
    scene: &Scene,
    frame: &Frame,
    flowing: &Flowing,
    ordinates: &crate::geometry::Rect,
    wishes: &mut Vec<Wish>,
) -> Vec<Mark> {
    let w = &scene.writer;
    let place = flowing.walls.shear_centre();
    let at = frame.at(place);
    let mut marks = centroid(frame.at(flowing.walls.centroid()), MARK, Ink::Line);
    let force = scene.values.shear[0];
    let (low, high) = (ordinates.top.min(at.y) - 12.0, ordinates.top.min(at.y) - 12.0 - FORCE);
    let (tail, tip) = if force > 0.0 { (low, high) } else { (high, low) };
    let below = ordinates.bottom.max(at.y) + BELOW + 4.0;
    let name = Label::words("shear centre");
    let on_its_line = name_on_its_line(scene, frame, flowing, &name);
    let mut stretches = vec![(low, below)];
    if let Some(under) = on_its_line {
        let under = Spot::new(at.x, under);
        let rect = name.rect(under, Align::Middle, scene.sheet.small).grown(2.0);
        stretches = vec![(low, rect.top), (rect.bottom, below)];
        let (label, size) = (name.clone(), scene.sheet.small);
        marks.push(Mark::Text { at: under, label, align: Align::Middle, size, ink: Ink::Shear });
    }
    for (from, to) in stretches {
        marks.push(Mark::Line { from: Spot::new(at.x, from), to: Spot::new(at.x, to), stroke: Stroke::AXIS });
    }
    marks.extend(arrow::straight(
        Spot::new(at.x, tail),
        Spot::new(at.x, tip),
        Stroke::solid(Ink::Shear, 2.5),
    ));
    marks.push(Mark::Circle {
        centre: at,
        radius: 4.5,
        stroke: Some(Stroke::solid(Ink::Shear, 1.5)),
        fill: Some(Ink::Paper),
    });
    marks.push(Mark::Circle { centre: at, radius: 1.6, stroke: None, fill: Some(Ink::Shear) });
    let label = w.symbol(Role::ShearForce).equals(w.value(force.abs(), Dimension::FORCE, Role::ShearForce));
    let beside = [Seat::Right, Seat::Left, Seat::Above];
    wishes.push(
        Wish::new(label, Spot::new(at.x, 0.5 * (low + high)))
            .seats(&beside, Escape::Any)
            .gap(8.0)
            .ink(Ink::Shear),
    );
    let seats =
        [Seat::Left, Seat::Right, Seat::BelowLeft, Seat::BelowRight, Seat::AboveLeft, Seat::AboveRight];
    // Off the wall that it may stand in.
    let wall = flowing.walls.upright_wall_near(place.x).filter(|&(wall, x)| {
        flowing.walls.walls().get(wall).is_some_and(|wall| (x - place.x).abs() < 0.5 * wall.thickness)
    });
    let half =
        wall.and_then(|(wall, _)| flowing.walls.walls().get(wall)).map_or(0.0, |wall| 0.5 * wall.thickness);
    let off = 8.0_f64.max(half * frame.scale + 6.0);
    if on_its_line.is_none() {
        wishes.push(
            Wish::new(name, at).seats(&seats, Escape::Any).gap(off).size(scene.sheet.small).ink(Ink::Shear),
        );
    }
    let (from, distance) = offset(flowing);
    if let Some(distance) = distance {
        let (one, other) = (at.x.min(frame.x(from)), at.x.max(frame.x(from)));
        let y = ordinates.bottom.max(at.y) + BELOW;
        marks.extend(dimension::level(one, other, y));
        let of = Spot::new(frame.x(from), ordinates.bottom);
        marks.extend(dimension::extension(of, Spot::new(of.x, y)));
        let label = w.value(distance.abs(), Dimension::LENGTH, Role::CutDistance);
        let middle = Spot::new(0.5 * (one + other), y);
        let seats = [Seat::Below, Seat::Above, Seat::BelowLeft, Seat::BelowRight];
        wishes.push(Wish::new(label, middle).seats(&seats, Escape::Down).size(scene.sheet.small));
    }
    marks
}

/// Where the name of the shear centre stands on the line of the shear force, which is broken there: its height on the sheet, px.
/// None where it has room beside the line, or the walls on both sides are too near to each other for it.
fn name_on_its_line(scene: &Scene, frame: &Frame, flowing: &Flowing, name: &Label) -> Option<f64> {
    let place = flowing.walls.shear_centre();
    let width = name.width(scene.sheet.small);
    // How far the walls' faces stand to the left, to the right, above and below, px; and the mark of the centroid.
    let (mut left, mut right) = (f64::INFINITY, f64::INFINITY);
    let centroid = flowing.walls.centroid();
    let off = (centroid.y - place.y) * frame.scale;
    let is_on_it = (centroid.x - place.x).abs() * frame.scale < 0.5 * width + BESIDE_NAME;
    let mut above = if is_on_it && off > MARK { off - MARK } else { f64::INFINITY };
    let mut below = if is_on_it && off < -MARK { -off - MARK } else { f64::INFINITY };
    for (k, wall) in flowing.walls.walls().iter().enumerate() {
        let (Some((from, _)), Some((to, _))) = (flowing.walls.point(k, 0.0), flowing.walls.point(k, 1.0))
        else {
            continue;
        };
        // Of a round wall its chord stands for it.
        let chord = from.distance(to);
        let along = Point::new((to.x - from.x) / chord, (to.y - from.y) / chord);
        let half = 0.5 * wall.thickness * frame.scale;
        if (from.y - place.y) * (to.y - place.y) < 0.0 {
            let x = from.x + (place.y - from.y) * along.x / along.y;
            let off = (x - place.x).abs() * frame.scale - half / along.y.abs();
            if x < place.x { left = left.min(off) } else { right = right.min(off) }
        }
        if (from.x - place.x) * (to.x - place.x) < 0.0 {
            let y = from.y + (place.x - from.x) * along.y / along.x;
            let off = (y - place.y).abs() * frame.scale - half / along.x.abs();
            if y > place.y { above = above.min(off) } else { below = below.min(off) }
        }
    }
    let beside = left.max(right) < width + 8.0 + BESIDE_NAME;
    let fits = left.min(right) > 0.5 * width + BESIDE_NAME;
    let at = frame.at(place).y;
    match above > OVER_NAME {
        _ if !(beside && fits) => None,
        true => Some(at - OFF_NAME),
        false => (below > OVER_NAME).then_some(at + OFF_NAME + 0.7 * scene.sheet.small),
    }
}

/// From where across the shear centre is measured, m, and how far it stands to the right of it; no distance where it stands
/// there.
pub(crate) fn offset(flowing: &Flowing) -> (f64, Option<f64>) {
    let centre = flowing.walls.shear_centre().x;
    let from = flowing.walls.upright_wall_near(centre).map_or(flowing.walls.centroid().x, |(_, place)| place);
    let walls = &flowing.walls;
    let size = (0..walls.walls().len()).map(|k| walls.length(k)).fold(0.0, f64::max);
    (from, Some(centre - from).filter(|distance| distance.abs() > NOTHING * size))
}
