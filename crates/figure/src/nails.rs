//! Nails, screws and bolts across a contact of two parts: each enters at the outer face of the thinner part, where its head
//! is, and ends within the other.

use crate::drawing::Mark;
use crate::geometry::Point;
use crate::palette::{Ink, Stroke};

/// How far a fastener reaches into the second part: as deep as the first is thick, between these, px.
const REACH: (f64, f64) = (10.0, 12.0);
/// It ends within this share of the second part, or it would look like one that goes right through.
const WITHIN: f64 = 0.8;
/// Half the breadth of a head, px.
const HEAD: f64 = 4.0;
/// A ray leaves the contact itself within this, px.
const AT_CONTACT: f64 = 0.3;

/// So many fasteners across the contact from `from` to `to`, between two parts with these outlines.
pub(crate) fn nails(parts: [&[Vec<Point>]; 2], from: Point, to: Point, count: usize) -> Vec<Mark> {
    let length = from.distance(to);
    if length < 1.0 {
        return Vec::new();
    }
    let along = Point::new((to.x - from.x) / length, (to.y - from.y) / length);
    let mut marks = Vec::new();
    for k in 0..count {
        let at = from.towards(to, (k as f64 + 0.5) / count as f64);
        // On one side of the contact lies the one part, on the other side the other.
        for way in [Point::new(-along.y, along.x), Point::new(along.y, -along.x)] {
            let back = Point::new(-way.x, -way.y);
            let thickness = |way: Point| parts.iter().find_map(|part| thickness(part, at, way));
            let (Some(here), Some(there)) = (thickness(way), thickness(back)) else { continue };
            if here <= there {
                let reach = here.clamp(REACH.0, REACH.1).min(WITHIN * there);
                marks.extend(nail(
                    at.moved(here * way.x, here * way.y),
                    at.moved(reach * back.x, reach * back.y),
                ));
                break;
            }
        }
    }
    marks
}

/// One fastener, its head on the face at `head`.
pub(crate) fn nail(head: Point, tip: Point) -> [Mark; 2] {
    let length = head.distance(tip).max(1e-9);
    let out = Point::new((head.x - tip.x) / length, (head.y - tip.y) / length);
    // The head stands on the face, or the outline would hide it.
    let top = head.moved(1.5 * out.x, 1.5 * out.y);
    [
        Mark::Line { from: tip, to: top, stroke: Stroke::solid(Ink::Line, 1.5) },
        Mark::Line {
            from: top.moved(-HEAD * out.y, HEAD * out.x),
            to: top.moved(HEAD * out.y, -HEAD * out.x),
            stroke: Stroke::solid(Ink::Line, 2.5),
        },
    ]
}

/// How thick a part is from a point of its outline along a way, px; none where the part does not lie that way.
fn thickness(part: &[Vec<Point>], at: Point, way: Point) -> Option<f64> {
    let mut met: Vec<f64> = Vec::new();
    for ring in part {
        for (k, &a) in ring.iter().enumerate() {
            let b = ring[(k + 1) % ring.len()];
            // How far the ends of the side lie to the left of the ray.
            let off = |p: Point| way.x * (p.y - at.y) - way.y * (p.x - at.x);
            let (one, other) = (off(a), off(b));
            if (one > 0.0) != (other > 0.0) {
                let cross = a.towards(b, one / (one - other));
                met.push(way.x * (cross.x - at.x) + way.y * (cross.y - at.y));
            }
        }
    }
    met.retain(|&distance| distance > AT_CONTACT);
    // A ray that begins within the part leaves it once more than it enters.
    (met.len() % 2 == 1).then(|| met.into_iter().fold(f64::INFINITY, f64::min))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plank(left: f64, top: f64, right: f64, bottom: f64) -> Vec<Vec<Point>> {
        vec![vec![
            Point::new(left, top),
            Point::new(right, top),
            Point::new(right, bottom),
            Point::new(left, bottom),
        ]]
    }

    /// Closed form: a plank 20 px thick on a web 100 px deep is nailed from above, whichever of the two is named first and whichever
    /// way the contact runs.
    #[test]
    fn a_nail_enters_at_the_outer_face_of_the_thinner_part() {
        let (upper, web) = (plank(0.0, -20.0, 100.0, 0.0), plank(40.0, 0.0, 60.0, 100.0));
        let (left, right) = (Point::new(40.0, 0.0), Point::new(60.0, 0.0));
        for parts in [[upper.as_slice(), &web], [&web, &upper]] {
            for (from, to) in [(left, right), (right, left)] {
                let marks = nails(parts, from, to, 1);
                let [Mark::Line { from: tip, .. }, head] = marks.as_slice() else { panic!("{marks:?}") };
                assert_eq!(*tip, Point::new(50.0, REACH.1));
                assert!(head.rect().bottom <= -20.0 && head.rect().top >= -24.0, "{head:?}");
            }
        }
    }
}
