//! Bodies: parts of one material that are one piece, drawn with one outline.
//!
//! A T is stated as a flange and a web, so that its workings can be summed over them; drawn, it is one body. Where a
//! named joint lies between parts, or their material differs, they stay bodies of their own.

use crate::outline::{Region, Ring};
use mechanics::real;
use mechanics::section::{Contact, Edge, Point, Section};
use workings::problem::Joint;

/// Parts that are one piece.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Body {
    /// Indices of its parts.
    pub parts: Vec<usize>,
    /// Their modulus over the reference modulus.
    pub modular_ratio: f64,
    /// Its outline.
    pub region: Region,
}

/// The bodies of a section, arcs true to within `sagitta`, m, and for each contact whether it lies within a body.
pub(crate) fn bodies(section: &Section, joints: &[Joint], sagitta: f64) -> (Vec<Body>, Vec<bool>) {
    let parts = section.parts();
    let mut group: Vec<usize> = (0..parts.len()).collect();
    let within: Vec<bool> = section
        .contacts()
        .iter()
        .map(|contact| {
            let (i, j) = (contact.first, contact.second);
            let jointed = joints.iter().any(|joint| joint.beyond.contains(&i) != joint.beyond.contains(&j));
            let like = parts[i].modular_ratio == parts[j].modular_ratio;
            let straight = matches!(contact.edge, Edge::Line { .. });
            like && straight && !jointed
        })
        .collect();
    for (contact, _) in section.contacts().iter().zip(&within).filter(|(_, within)| **within) {
        let (keep, drop) = (group[contact.first], group[contact.second]);
        group.iter_mut().filter(|g| **g == drop).for_each(|g| *g = keep);
    }
    let mut bodies = Vec::new();
    for (first, part) in parts.iter().enumerate() {
        let members: Vec<usize> = (0..parts.len()).filter(|&k| group[k] == group[first]).collect();
        if members.first() != Some(&first) {
            continue;
        }
        let regions: Vec<Region> = members.iter().map(|&k| Region::of(&parts[k], sagitta)).collect();
        let shared: Vec<&Contact> = section
            .contacts()
            .iter()
            .zip(&within)
            .filter(|(contact, within)| **within && members.contains(&contact.first))
            .map(|(contact, _)| contact)
            .collect();
        let region = if shared.is_empty() {
            Region { rings: regions.into_iter().flat_map(|r| r.rings).collect() }
        } else {
            merged(&regions, &shared)
        };
        bodies.push(Body { parts: members, modular_ratio: part.modular_ratio, region });
    }
    (bodies, within)
}

/// A stretch of outline, material on its left.
struct Stretch {
    from: Point,
    to: Point,
    /// Whether the outline runs smoothly on at its end.
    smooth: bool,
}

/// The union of regions that touch along straight contacts.
fn merged(regions: &[Region], contacts: &[&Contact]) -> Region {
    let mut stretches = Vec::new();
    let mut size = 0.0_f64;
    for ring in regions.iter().flat_map(|r| &r.rings) {
        let n = ring.points.len();
        for i in 0..n {
            let j = (i + 1) % n;
            let (a, b) = (ring.points[i], ring.points[j]);
            size = size.max(a.x.abs()).max(a.y.abs());
            free_of(a, b, contacts, ring.smooth[j], &mut stretches);
        }
    }
    let tolerance = 1e-9 * size.max(f64::MIN_POSITIVE);
    let mut rings = Vec::new();
    while let Some(first) = stretches.pop() {
        let mut ring = Ring { points: vec![first.to], smooth: vec![first.smooth] };
        let (start, mut end) = (first.from, first.to);
        while real::hypot(end.x - start.x, end.y - start.y) > tolerance {
            let gap = |s: &Stretch| real::hypot(s.from.x - end.x, s.from.y - end.y);
            let next =
                (0..stretches.len()).min_by(|&a, &b| gap(&stretches[a]).total_cmp(&gap(&stretches[b])));
            let Some(next) = next.filter(|&k| gap(&stretches[k]) <= 1e3 * tolerance) else { break };
            let stretch = stretches.swap_remove(next);
            end = stretch.to;
            ring.points.push(stretch.to);
            ring.smooth.push(stretch.smooth);
        }
        ring.straighten();
        if ring.points.len() > 2 {
            rings.push(ring);
        }
    }
    Region { rings }
}

/// What of the side from `a` to `b` lies on no contact.
fn free_of(a: Point, b: Point, contacts: &[&Contact], smooth: bool, into: &mut Vec<Stretch>) {
    let length = real::hypot(b.x - a.x, b.y - a.y);
    if length == 0.0 {
        return;
    }
    let (ux, uy) = ((b.x - a.x) / length, (b.y - a.y) / length);
    let tolerance = 1e-7 * length;
    let mut taken: Vec<(f64, f64)> = contacts
        .iter()
        .filter_map(|contact| {
            let (s, e) = (contact.start, contact.end());
            let along = |p: Point| (p.x - a.x) * ux + (p.y - a.y) * uy;
            let off = |p: Point| ((p.y - a.y) * ux - (p.x - a.x) * uy).abs();
            let (low, high) = (along(s).min(along(e)).max(0.0), along(s).max(along(e)).min(length));
            (off(s) <= tolerance && off(e) <= tolerance && high - low > tolerance).then_some((low, high))
        })
        .collect();
    taken.sort_by(|p, q| p.0.total_cmp(&q.0));
    let at = |t: f64| Point { x: a.x + t * ux, y: a.y + t * uy };
    let mut from = 0.0;
    for (low, high) in taken {
        if low - from > tolerance {
            into.push(Stretch { from: at(from), to: at(low), smooth: false });
        }
        from = high.max(from);
    }
    if length - from > tolerance {
        into.push(Stretch { from: at(from), to: b, smooth: smooth && from < length });
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test fails where it panics")]
mod tests {
    use super::*;
    use crate::outline::extent;
    use mechanics::section::shapes;

    fn area(region: &Region) -> f64 {
        region.rings.iter().map(|r| 0.5 * r.doubled_area()).sum()
    }

    /// Closed form: the union has the area of its parts and, for a T, eight corners.
    #[test]
    fn a_tee_of_flange_and_web_is_one_body() {
        let shape = shapes::tee(0.08, 0.04, 0.02, 0.12, true).unwrap();
        let section = Section::new(shape.parts).unwrap();
        let (bodies, within) = bodies(&section, &[], 1e-5);
        assert_eq!(bodies.len(), 1);
        assert_eq!(within, [true]);
        assert_eq!(bodies[0].region.rings.len(), 1);
        assert_eq!(bodies[0].region.rings[0].points.len(), 8);
        assert!((area(&bodies[0].region) - 0.0048).abs() < 1e-12);
    }

    /// Closed form: a box of four plates without joints has an outer ring and a hole.
    #[test]
    fn a_box_of_plates_is_a_ring() {
        let shape = shapes::box_girder(0.2, 0.3, 0.025, 0.05, 0.05).unwrap();
        let section = Section::new(shape.parts).unwrap();
        let (bodies, _) = bodies(&section, &[], 1e-5);
        assert_eq!(bodies.len(), 1);
        assert_eq!(bodies[0].region.rings.len(), 2);
        assert!((area(&bodies[0].region) - (0.2 * 0.3 - 0.15 * 0.2)).abs() < 1e-12);
        assert_eq!(extent(&[bodies[0].region.clone()]).map(|e| e.right - e.left), Some(0.2));
    }
}
