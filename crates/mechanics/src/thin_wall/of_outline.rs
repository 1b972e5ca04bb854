//! The plates of a part that is one outline: a rolled profile, a rectangular tube; and the wall of a round tube.

use super::plate::{Plate, THIN};
use super::{ThinWalls, Wall};
use crate::real;
use crate::section::{Edge, Loop, Part, Point};

/// Sides whose ends differ by less than this part of the outline's size are level or upright.
const STRAIGHT: f64 = 1e-9;

/// A round tube's two halves, from its lowest point to its highest.
pub(super) fn round_tube(part: &Part) -> Option<ThinWalls> {
    let [hole] = part.holes.as_slice() else { return None };
    let ((centre, outer), (within, inner)) = (circle(&part.outline)?, circle(hole)?);
    let (radius, thickness) = (0.5 * (outer + inner), outer - inner);
    let apart = real::hypot(centre.x - within.x, centre.y - within.y);
    if apart > STRAIGHT * outer || radius < THIN * thickness {
        return None;
    }
    let (half, across) = (core::f64::consts::PI, |y: f64| Point::new(centre.x, centre.y + y));
    let wall = |name: &str, sweep: f64| Wall::round(name, (0, 1), centre, sweep, thickness);
    let walls = vec![wall("left half", -half), wall("right half", half)];
    ThinWalls::new(vec![across(-radius), across(radius)], walls).ok()
}

/// Centre and radius of a loop of arcs about one centre.
fn circle(of: &Loop) -> Option<(Point, f64)> {
    let mut found: Option<Point> = None;
    for edge in &of.path {
        let Edge::Arc { centre, .. } = *edge else { return None };
        if *found.get_or_insert(centre) != centre {
            return None;
        }
    }
    found.map(|centre| (centre, real::hypot(of.start.x - centre.x, of.start.y - centre.y)))
}

/// The corners of a loop whose sides are level and upright; a fillet counts as the corner that it rounds.
pub(super) fn corners(of: &Loop) -> Option<Vec<Point>> {
    let mut corners = vec![of.start];
    let mut at = of.start;
    for edge in &of.path {
        match *edge {
            Edge::Line { to } => {
                corners.push(to);
                at = to;
            }
            Edge::Arc { to, centre, .. } => {
                // A quarter of a circle stands square on both its sides: the corner is level with one end and above the
                // other, on the far side from the centre.
                let on = |corner: Point| {
                    (corner.x - centre.x).abs().min((corner.y - centre.y).abs()) > 0.5 * (to.x - at.x).abs()
                };
                let of_two = [Point::new(to.x, at.y), Point::new(at.x, to.y)];
                corners.push(of_two.into_iter().find(|&corner| on(corner))?);
                corners.push(to);
                at = to;
            }
        }
    }
    let size =
        corners.iter().map(|p| (p.x - of.start.x).abs().max((p.y - of.start.y).abs())).fold(0.0, f64::max);
    let near = STRAIGHT * size;
    let closed = corners.iter().zip(corners.iter().cycle().skip(1));
    let square = |(a, b): (&Point, &Point)| (a.x - b.x).abs() <= near || (a.y - b.y).abs() <= near;
    closed.into_iter().all(square).then_some(corners)
}

/// The plates of a part, from below: between two heights of corners each stretch of material is one, and it goes on above
/// where it is as broad there.
pub(super) fn plates(part: &Part) -> Option<Vec<Plate>> {
    let rings = std::iter::once(&part.outline).chain(&part.holes).map(corners).collect::<Option<Vec<_>>>()?;
    let mut heights: Vec<f64> = rings.iter().flatten().map(|p| p.y).collect();
    heights.sort_by(f64::total_cmp);
    let size = heights.last()? - heights.first()?;
    heights.dedup_by(|a, b| (*a - *b).abs() <= STRAIGHT * size);
    // Left, right, bottom, top.
    let mut boxes: Vec<[f64; 4]> = Vec::new();
    for pair in heights.windows(2) {
        let (bottom, top) = (pair[0], pair[1]);
        let middle = 0.5 * (bottom + top);
        let sides = rings.iter().flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)));
        let mut crossed: Vec<f64> =
            sides.filter(|(a, b)| (a.y < middle) != (b.y < middle)).map(|(a, _)| a.x).collect();
        crossed.sort_by(f64::total_cmp);
        for stretch in crossed.chunks_exact(2) {
            let (left, right) = (stretch[0], stretch[1]);
            let near = STRAIGHT * size;
            let same = |of: &&mut [f64; 4]| {
                (of[0] - left).abs() <= near
                    && (of[1] - right).abs() <= near
                    && (of[3] - bottom).abs() <= near
            };
            match boxes.iter_mut().find(same) {
                Some(below) => below[3] = top,
                None => boxes.push([left, right, bottom, top]),
            }
        }
    }
    let is_level = |of: &[f64; 4]| of[1] - of[0] >= of[3] - of[2];
    let (level, upright): (Vec<_>, Vec<_>) = boxes.into_iter().partition(is_level);
    let named = |boxes: Vec<[f64; 4]>, names: &dyn Fn(usize, usize) -> String| -> Option<Vec<Plate>> {
        let count = boxes.len();
        let plate = |(k, of): (usize, [f64; 4])| {
            Plate::of_rectangle(names(k, count), Point::new(of[0], of[2]), of[1] - of[0], of[3] - of[2])
        };
        boxes.into_iter().enumerate().map(plate).collect()
    };
    let mut plates = named(level, &level_name)?;
    plates.extend(named(upright, &upright_name)?);
    Some(plates)
}

/// Level plates are counted from below.
fn level_name(k: usize, of: usize) -> String {
    match (k, of) {
        (_, 1) => "flange".to_owned(),
        (0, 2) => "bottom flange".to_owned(),
        (1, 2) => "top flange".to_owned(),
        _ => format!("flange {}", k + 1),
    }
}

/// Upright plates are counted from below and from the left.
fn upright_name(k: usize, of: usize) -> String {
    match (k, of) {
        (_, 1) => "web".to_owned(),
        (0, 2) => "left web".to_owned(),
        (1, 2) => "right web".to_owned(),
        _ => format!("web {}", k + 1),
    }
}
