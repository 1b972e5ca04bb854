//! Chains of dimensions along the corners of a section, its overall sizes and the radii of its arcs.

use crate::cross_section::Frame;
use crate::dimension;
use crate::drawing::Mark;
use crate::geometry::Point as Spot;
use crate::label::{Escape, Seat, Wish};
use crate::outline::Region;
use crate::scene::Scene;
use crate::text::{Label, SIZE};
use crate::writer::Writer;
use mechanics::real;
use mechanics::section::{Edge, Loop, Point};
use workings::dimension::Dimension;
use workings::role::Role;

/// Distance of the first dimension line from the section, and of the next from it, px.
pub(crate) const FIRST: f64 = 28.0;
const NEXT: f64 = 26.0;
/// A chain of more pieces than this is not drawn: nobody would read it.
const LONGEST_CHAIN: usize = 7;
/// Free room on a dimension line beside its number: two ticks and a little, px.
const BESIDE_NUMBER: f64 = 8.0;

/// Heights or places of corners nearer than this (of the section's size) are one in a chain of dimensions.
const SAME: f64 = 1e-4;

/// Chains of dimensions along the corners, and the overall sizes; the upright ones from `first` px left of the section outwards.
pub(crate) fn sizes(scene: &Scene, frame: &Frame, first: f64, wishes: &mut Vec<Wish>) -> Vec<Mark> {
    let unit = &unit_of_sizes(scene);
    let mut marks = Vec::new();
    let w = &scene.writer;
    let e = scene.extent;
    let (left, bottom) = (frame.corner.x, frame.corner.y);
    let regions = scene.regions();
    let label = |value: f64, role: Role, at: Spot, seats: &[Seat], escape: Escape| {
        Wish::new(size_label(w, unit, value, role), at).seats(seats, escape).gap(3.0)
    };
    let mut offset = first;
    let levels = corners(&regions, true, e.height());
    if (2..=LONGEST_CHAIN).contains(&(levels.len().saturating_sub(1))) {
        let x = left - offset;
        let heights: Vec<f64> = levels.iter().map(|&h| frame.y(h)).collect();
        marks.extend(dimension::upright_chain(&heights, x));
        for (pair, h) in levels.windows(2).zip(heights.windows(2)) {
            let at = Spot::new(x, 0.5 * (h[0] + h[1]));
            let seats = &[Seat::Left, Seat::Right];
            wishes.push(label(pair[1] - pair[0], Role::Height, at, seats, Escape::Any));
        }
        for &h in &levels[1..levels.len() - 1] {
            let y = frame.y(h);
            let thing = leftmost_at(&regions, h, e.height()).map_or(left, |x| frame.x(x));
            marks.extend(dimension::extension(Spot::new(thing, y), Spot::new(x, y)));
        }
        let widest = levels
            .windows(2)
            .map(|pair| size_label(w, unit, pair[1] - pair[0], Role::Height).width(SIZE))
            .fold(0.0, f64::max);
        offset += widest + 14.0;
    }
    let x = left - offset;
    marks.extend(dimension::upright(x, frame.y(e.bottom), frame.y(e.top)));
    for h in [e.bottom, e.top] {
        let thing = leftmost_at(&regions, h, e.height()).map_or(left, |x| frame.x(x));
        marks.extend(dimension::extension(Spot::new(thing, frame.y(h)), Spot::new(x, frame.y(h))));
    }
    let middle = Spot::new(x, 0.5 * (frame.y(e.bottom) + frame.y(e.top)));
    wishes.push(label(e.height(), Role::Height, middle, &[Seat::Left], Escape::Any));

    let mut offset = FIRST - 4.0;
    let places = corners(&regions, false, e.breadth());
    if (2..=LONGEST_CHAIN).contains(&(places.len().saturating_sub(1))) {
        let y = bottom + offset;
        let xs: Vec<f64> = places.iter().map(|&x| frame.x(x)).collect();
        marks.extend(dimension::chain(&xs, y));
        wishes.extend(breadths(&places, &xs, y, &|value| size_label(w, unit, value, Role::Breadth)));
        for &p in &places[1..places.len() - 1] {
            let thing = lowest_at(&regions, p, e.breadth()).map_or(bottom, |h| frame.y(h));
            marks.extend(dimension::extension(Spot::new(frame.x(p), thing), Spot::new(frame.x(p), y)));
        }
        offset += NEXT + 4.0;
    }
    let y = bottom + offset;
    marks.extend(dimension::level(frame.x(e.left), frame.x(e.right), y));
    for p in [e.left, e.right] {
        let thing = lowest_at(&regions, p, e.breadth()).map_or(bottom, |h| frame.y(h));
        marks.extend(dimension::extension(Spot::new(frame.x(p), thing), Spot::new(frame.x(p), y)));
    }
    let middle = Spot::new(0.5 * (frame.x(e.left) + frame.x(e.right)), y);
    wishes.push(label(e.breadth(), Role::Breadth, middle, &[Seat::Below, Seat::Above], Escape::Down));
    marks
}

/// The numbers of a level chain at `y` px with its ticks at `xs`. One that is wider than its piece stands beside the chain, where
/// its piece is the first or the last, and else below the line; it comes after those that have room, so as not to take it.
fn breadths(places: &[f64], xs: &[f64], y: f64, label: &dyn Fn(f64) -> Label) -> Vec<Wish> {
    let (mut roomy, mut narrow) = (Vec::new(), Vec::new());
    let last = places.len().saturating_sub(2);
    for (piece, (place, x)) in places.windows(2).zip(xs.windows(2)).enumerate() {
        let label = label(place[1] - place[0]);
        let has_room = label.width(SIZE) + BESIDE_NUMBER <= x[1] - x[0];
        let wish = Wish::new(label, Spot::new(0.5 * (x[0] + x[1]), y));
        if has_room {
            roomy.push(wish.seats(&[Seat::Above, Seat::Below], Escape::Down).gap(3.0));
        } else {
            let below = wish.clone().seats(&[Seat::Below, Seat::Above], Escape::Down).gap(3.0);
            narrow.push(match piece {
                0 => Wish { spots: vec![(Spot::new(x[0], y), Seat::Left)], gap: 6.0, ..wish },
                _ if piece == last => {
                    Wish { spots: vec![(Spot::new(x[1], y), Seat::Right)], gap: 6.0, ..wish }
                }
                _ => below,
            });
        }
    }
    roomy.extend(narrow);
    roomy
}

/// The unit that the overall sizes are shown in: the others are written without it where it is theirs.
pub(crate) fn unit_of_sizes(scene: &Scene) -> String {
    scene.writer.given_number(scene.extent.height(), Dimension::LENGTH, Role::Height).1
}

/// A size: the number alone where it is in the unit of the drawing.
fn size_label(w: &Writer, unit: &str, value: f64, role: Role) -> Label {
    let (number, own) = w.given_number(value, Dimension::LENGTH, role);
    if own == unit { Label::words(number) } else { w.given(value, Dimension::LENGTH, role) }
}

/// The heights (or places across) of the corners and extreme points of the outlines, rising.
pub(crate) fn corners(regions: &[Region], heights: bool, size: f64) -> Vec<f64> {
    let pick = |p: Point| if heights { p.y } else { p.x };
    let mut all = Vec::new();
    for ring in regions.iter().flat_map(|r| &r.rings) {
        let n = ring.points.len();
        for i in 0..n {
            let (before, here, after) =
                (pick(ring.points[(i + n - 1) % n]), pick(ring.points[i]), pick(ring.points[(i + 1) % n]));
            // A round outline counts where it turns back.
            let turns_back = (here - before) * (here - after) > 0.0;
            if !ring.smooth[i] || turns_back {
                all.push(here);
            }
        }
    }
    all.sort_by(f64::total_cmp);
    all.dedup_by(|a, b| (*a - *b).abs() <= SAME * size);
    all
}

/// The leftmost corner at a height.
fn leftmost_at(regions: &[Region], height: f64, size: f64) -> Option<f64> {
    let points = regions.iter().flat_map(|r| &r.rings).flat_map(|r| &r.points);
    points.filter(|p| (p.y - height).abs() <= SAME * size).map(|p| p.x).min_by(f64::total_cmp)
}

/// The lowest corner at a place across.
fn lowest_at(regions: &[Region], place: f64, size: f64) -> Option<f64> {
    let points = regions.iter().flat_map(|r| &r.rings).flat_map(|r| &r.points);
    points.filter(|p| (p.x - place).abs() <= SAME * size).map(|p| p.y).min_by(f64::total_cmp)
}

/// The radii of arcs, each radius once.
pub(crate) fn radii(scene: &Scene, frame: &Frame, wishes: &mut Vec<Wish>) {
    let mut known: Vec<f64> = Vec::new();
    for part in scene.section.parts() {
        for (outline, hole) in
            std::iter::once((&part.outline, false)).chain(part.holes.iter().map(|hole| (hole, true)))
        {
            let mut at = outline.start;
            for edge in &outline.path {
                if let Edge::Arc { to, centre, .. } = *edge {
                    let radius = real::hypot(to.x - centre.x, to.y - centre.y);
                    let whole = is_circle(outline);
                    let new = !known.iter().any(|r| (r - radius).abs() <= SAME * radius);
                    if new && (hole || !whole) {
                        known.push(radius);
                        let middle = middle_of_arc(at, edge);
                        let (sign, value) =
                            if whole { ("⌀\u{a0}", 2.0 * radius) } else { ("R\u{a0}", radius) };
                        let size = size_label(&scene.writer, &unit_of_sizes(scene), value, Role::Diameter);
                        let label = Label::words(sign).followed_by(size);
                        wishes.push(
                            Wish::new(label, frame.at(middle))
                                .seats(
                                    &[Seat::BelowRight, Seat::AboveRight, Seat::Right, Seat::Left],
                                    Escape::Any,
                                )
                                .gap(6.0),
                        );
                    }
                }
                at = match *edge {
                    Edge::Line { to } | Edge::Arc { to, .. } => to,
                };
            }
        }
    }
}

/// Whether a loop is a full circle.
fn is_circle(outline: &Loop) -> bool {
    let mut centre = None;
    outline.path.iter().all(|edge| match *edge {
        Edge::Line { .. } => false,
        Edge::Arc { centre: c, .. } => *centre.get_or_insert(c) == c,
    })
}

/// The middle of an arc that begins at `from`.
fn middle_of_arc(from: Point, edge: &Edge) -> Point {
    match *edge {
        Edge::Line { to } => to,
        Edge::Arc { to, centre, counter_clockwise } => {
            let radius = real::hypot(to.x - centre.x, to.y - centre.y);
            let start = real::atan2(from.y - centre.y, from.x - centre.x);
            let end = real::atan2(to.y - centre.y, to.x - centre.x);
            let full = core::f64::consts::TAU;
            let turn = if counter_clockwise {
                (end - start).rem_euclid(full)
            } else {
                -(start - end).rem_euclid(full)
            };
            let angle = start + 0.5 * turn;
            Point { x: centre.x + radius * real::cos(angle), y: centre.y + radius * real::sin(angle) }
        }
    }
}
