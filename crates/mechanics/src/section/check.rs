//! What has to hold before a section is integrated: every fault is found in one pass.

use super::contact::{self, Contact};
use super::fault::{Fault, Ring};
use super::flank::Flank;
use super::level::{intervals_of, shared};
use super::meeting::meetings;
use super::ring::{Bounds, Curve, LocalRing, SAME_PLACE, Stretch, read_parts};
use super::{Edge, HeightSide, Loop, Part, Point};

/// A loop of less than this part of the square of its own size encloses no area.
const NO_AREA: f64 = 1e-12;

/// Next to a corner where a side runs on in the tangent of an arc, rounding moves the point of contact by the
/// root of the tolerance; a meeting nearer to the corner than this part of the size is the corner itself.
const NEAR_TANGENT: f64 = 1e-4;

/// The loops of a section that passed.
pub(crate) struct Checked {
    pub origin: Point,
    pub tolerance: f64,
    pub rings: Vec<LocalRing>,
    pub contacts: Vec<Contact>,
}

pub(crate) fn check(parts: &[Part]) -> Result<Checked, Vec<Fault>> {
    let mut faults = Vec::new();
    if parts.is_empty() {
        return Err(vec![Fault::NoParts]);
    }
    let mut bounds = Bounds::NONE;
    for (index, part) in parts.iter().enumerate() {
        if !(part.modular_ratio > 0.0 && part.modular_ratio.is_finite()) {
            faults.push(Fault::ModularRatio { part: index, ratio: part.modular_ratio });
        }
        check_finite(index, Ring::Outline, &part.outline, &mut bounds, &mut faults);
        for (hole, outline) in part.holes.iter().enumerate() {
            check_finite(index, Ring::Hole(hole), outline, &mut bounds, &mut faults);
        }
    }
    if faults.iter().any(|fault| matches!(fault, Fault::NotFinite { .. })) {
        return Err(faults);
    }
    let origin = Point::new(0.5 * (bounds.left + bounds.right), 0.5 * (bounds.bottom + bounds.top));
    let tolerance = SAME_PLACE * bounds.size();
    let mut rings = read_parts(parts, origin, tolerance, &mut faults);
    let mut sound = vec![true; parts.len()];
    for fault in &faults {
        if let Fault::ArcOffCentre { part, .. } | Fault::ArcEndsMeet { part, .. } = fault {
            sound[*part] = false;
        }
    }
    for ring in &mut rings {
        // A loop with a wrong arc has been told of: what its other sides do may follow from that.
        let arc_told = faults.iter().any(|fault| {
            matches!(fault, Fault::ArcOffCentre { part, ring: of, .. } | Fault::ArcEndsMeet { part, ring: of, .. }
                if *part == ring.part && *of == ring.ring)
        });
        if !arc_told && let Some(fault) = check_ring(ring, tolerance) {
            faults.push(fault);
            sound[ring.part] = false;
        }
        ring.put_material_left();
    }
    check_holes(&rings, &mut sound, tolerance, &mut faults);
    let contacts =
        if parts.len() > 1 { check_parts(&rings, &sound, tolerance, &mut faults) } else { Vec::new() };
    if faults.is_empty() {
        return Ok(Checked { origin, tolerance, rings, contacts });
    }
    for fault in &mut faults {
        put_back(fault, origin);
    }
    Err(faults)
}

/// From local coordinates into those of the outlines.
fn put_back(fault: &mut Fault, origin: Point) {
    match fault {
        Fault::SidesCross { at, .. } | Fault::HoleCrossesOutline { at, .. } => *at = at.plus(origin),
        Fault::PartsApart { touching_at: Some(at), .. } => *at = at.plus(origin),
        Fault::PartsOverlap { from, to, .. } => {
            *from += origin.y;
            *to += origin.y;
        }
        _ => {}
    }
}

fn check_finite(part: usize, ring: Ring, outline: &Loop, bounds: &mut Bounds, faults: &mut Vec<Fault>) {
    let mut side_with_fault = (!outline.start.is_finite()).then_some(0);
    bounds.hold(outline.start);
    for (side, edge) in outline.path.iter().enumerate() {
        let (to, centre) = match *edge {
            Edge::Line { to } => (to, to),
            Edge::Arc { to, centre, .. } => (to, centre),
        };
        bounds.hold(to);
        if !(to.is_finite() && centre.is_finite()) {
            side_with_fault = side_with_fault.or(Some(side));
        }
    }
    if let Some(side) = side_with_fault {
        faults.push(Fault::NotFinite { part, ring, side });
    }
}

/// The first crossing of a loop's sides, or that it encloses nothing.
fn check_ring(ring: &LocalRing, tolerance: f64) -> Option<Fault> {
    let (part, name) = (ring.part, ring.ring);
    if let Some((first, second, at)) = crossing_within(ring, tolerance) {
        return Some(Fault::SidesCross { part, ring: name, first, second, at });
    }
    let size = ring.bounds.size();
    // `size` is negative infinity for a loop without a side.
    let encloses = size > 0.0 && ring.signed_area().abs() > NO_AREA * size * size;
    (!encloses).then_some(Fault::NoArea { part, ring: name })
}

/// Two sides of one loop that meet elsewhere than at a corner that they share. The boxes round the sides are sorted
/// by their lower ends, so that only sides at about the same height are compared.
fn crossing_within(ring: &LocalRing, tolerance: f64) -> Option<(usize, usize, Point)> {
    let count = ring.stretches.len();
    let boxes: Vec<Bounds> = ring.stretches.iter().map(Stretch::bounds).collect();
    let mut order: Vec<(f64, usize)> = boxes.iter().map(|bounds| bounds.bottom).zip(0..count).collect();
    order.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
    let mut earliest: Option<(usize, usize, Point)> = None;
    for (place, &(_, index)) in order.iter().enumerate() {
        let bounds = &boxes[index];
        for &(bottom, other) in &order[place + 1..] {
            if bottom > bounds.top + tolerance {
                break;
            }
            let beside = &boxes[other];
            if beside.left > bounds.right + tolerance || bounds.left > beside.right + tolerance {
                continue;
            }
            let (first, second) = (index.min(other), index.max(other));
            let at = apart_from_corners(ring, first, second, count, tolerance);
            if let Some(at) = at
                && earliest.is_none_or(|(a, b, _)| (first, second) < (a, b))
            {
                earliest = Some((first, second, at));
            }
        }
    }
    earliest.map(|(first, second, at)| (ring.stretches[first].side, ring.stretches[second].side, at))
}

fn apart_from_corners(
    ring: &LocalRing,
    first: usize,
    second: usize,
    count: usize,
    tolerance: f64,
) -> Option<Point> {
    let (a, b) = (&ring.stretches[first], &ring.stretches[second]);
    let follows = second == first + 1;
    let closes = first == 0 && second + 1 == count;
    if !follows && !closes {
        return meetings(a, b, tolerance).iter().next();
    }
    let straight = matches!((a.curve, b.curve), (Curve::Straight, Curve::Straight));
    // Two straight sides at a corner meet again only where one runs back over the other.
    if straight && count > 2 {
        let (before, after) = if follows { (a, b) } else { (b, a) };
        let (along, on) = (before.to.minus(before.from), after.to.minus(after.from));
        let longer = along.dot(along).max(on.dot(on));
        let turn = along.cross(on);
        // How far the end of the shorter side lies off the longer one is their cross product over the longer length.
        let back = along.dot(on) < 0.0 && turn * turn <= tolerance * tolerance * longer;
        return back.then_some(before.to);
    }
    let shared = |point: Point, corner: Point, near: f64| point.distance(corner) <= near;
    let near = if straight { 2.0 * tolerance } else { NEAR_TANGENT / SAME_PLACE * tolerance };
    meetings(a, b, tolerance)
        .iter()
        .find(|&point| !((follows && shared(point, a.to, near)) || (closes && shared(point, a.from, near))))
}

fn crossing_between(first: &LocalRing, second: &LocalRing, tolerance: f64) -> Option<Point> {
    if !first.bounds.meets(&second.bounds, tolerance) {
        return None;
    }
    first.stretches.iter().find_map(|a| {
        let bounds = a.bounds();
        if !bounds.meets(&second.bounds, tolerance) {
            return None;
        }
        let mut near = second.stretches.iter().filter(|b| bounds.meets(&b.bounds(), tolerance));
        near.find_map(|b| meetings(a, b, tolerance).iter().next())
    })
}

fn check_holes(rings: &[LocalRing], sound: &mut [bool], tolerance: f64, faults: &mut Vec<Fault>) {
    for (index, outline) in rings.iter().enumerate() {
        let part = outline.part;
        if outline.ring != Ring::Outline || !sound[part] {
            continue;
        }
        let holes: Vec<&LocalRing> = rings[index + 1..].iter().take_while(|ring| ring.part == part).collect();
        for (hole, ring) in holes.iter().enumerate() {
            if let Some(at) = crossing_between(ring, outline, tolerance) {
                faults.push(Fault::HoleCrossesOutline { part, hole, at });
                sound[part] = false;
            } else if !outline.encloses(ring.stretches[0].from) {
                faults.push(Fault::HoleOutside { part, hole });
                sound[part] = false;
            }
            for (earlier, other) in holes[..hole].iter().enumerate() {
                if crossing_between(ring, other, tolerance).is_some()
                    || other.encloses(ring.stretches[0].from)
                    || ring.encloses(other.stretches[0].from)
                {
                    faults.push(Fault::HolesOverlap { part, first: earlier, second: hole });
                    sound[part] = false;
                }
            }
        }
    }
}

fn check_parts(rings: &[LocalRing], sound: &[bool], tolerance: f64, faults: &mut Vec<Fault>) -> Vec<Contact> {
    let of_part =
        |part: usize| -> Vec<&LocalRing> { rings.iter().filter(|ring| ring.part == part).collect() };
    let grouped: Vec<Vec<&LocalRing>> = (0..sound.len()).map(of_part).collect();
    let mut overlapping = false;
    for second in 1..sound.len() {
        for first in 0..second {
            if sound[first]
                && sound[second]
                && let Some((from, to)) = shared_ground(&grouped[first], &grouped[second], tolerance)
            {
                faults.push(Fault::PartsOverlap { first, second, from, to });
                overlapping = true;
            }
        }
    }
    if overlapping || sound.contains(&false) {
        return Vec::new();
    }
    let contacts = contact::between_all(&grouped, tolerance);
    for group in contact::groups_apart(sound.len(), &contacts) {
        let touching_at = group.iter().find_map(|&part| {
            let others = (0..sound.len()).filter(|other| !group.contains(other));
            others.flat_map(|other| &grouped[other]).find_map(|theirs| {
                grouped[part].iter().find_map(|ours| crossing_between(ours, theirs, tolerance))
            })
        });
        faults.push(Fault::PartsApart { parts: group, touching_at });
    }
    contacts
}

/// The range of heights over which two parts lie on the same ground. Between two neighbouring heights of corners and
/// crossings the order of the flanks stays the same, so that one look between them tells.
fn shared_ground(first: &[&LocalRing], second: &[&LocalRing], tolerance: f64) -> Option<(f64, f64)> {
    let outer = |rings: &[&LocalRing]| rings[0].bounds;
    if !outer(first).meets(&outer(second), -tolerance) {
        return None;
    }
    let sides = |rings: &[&LocalRing]| -> Vec<Stretch> {
        let mut pieces = Vec::new();
        for stretch in rings.iter().flat_map(|ring| &ring.stretches) {
            stretch.for_each_monotone(|piece| pieces.push(piece));
        }
        pieces
    };
    let (ours, theirs) = (sides(first), sides(second));
    let mut heights: Vec<f64> =
        ours.iter().chain(&theirs).flat_map(|side| [side.from.y, side.to.y]).collect();
    for a in &ours {
        let bounds = a.bounds();
        for b in theirs.iter().filter(|b| bounds.meets(&b.bounds(), tolerance)) {
            heights.extend(meetings(a, b, tolerance).iter().map(|point| point.y));
        }
    }
    heights.sort_unstable_by(f64::total_cmp);
    let flanks = |pieces: &[Stretch]| -> Vec<Flank> {
        pieces.iter().filter_map(|piece| Flank::of(0, piece, piece.from.y, piece.to.y)).collect()
    };
    let (our_flanks, their_flanks) = (flanks(&ours), flanks(&theirs));
    let mut found: Option<(f64, f64)> = None;
    for pair in heights.windows(2) {
        let [low, high] = [pair[0], pair[1]];
        if high - low <= tolerance {
            continue;
        }
        let middle = 0.5 * (low + high);
        let ours = intervals_of(&our_flanks, middle, HeightSide::Above);
        let theirs = intervals_of(&their_flanks, middle, HeightSide::Above);
        if shared(&ours, &theirs).iter().any(|(left, right)| right - left > tolerance) {
            found = Some(found.map_or((low, high), |(from, to)| (low.min(from), high.max(to))));
        }
    }
    found
}
