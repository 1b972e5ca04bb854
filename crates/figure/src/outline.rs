//! The section's outlines as rings of points fine enough to draw, and what of them lies beyond a level cut.
//!
//! Only for drawing: areas, first moments and widths that are written come from the workings.

use mechanics::real;
use mechanics::section::{Edge, HeightSide, Loop, Part, Point};
use std::f64::consts::{PI, TAU};

/// Two lines nearer than this in direction (rad) meet smoothly: no edge is drawn where they meet. A fillet given
/// in rounded millimetres misses its tangent by a few thousandths.
const SMOOTH: f64 = 0.05;

/// Heights nearer than this (of the section's height) are one: parts stacked from rounded sizes may miss each
/// other in the last bits, and a cut through the seam would find slivers.
const SAME_HEIGHT: f64 = 1e-9;

/// A closed ring of points with the material on its left.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Ring {
    /// The points in order; the last joins the first.
    pub points: Vec<Point>,
    /// For each point, whether the outline runs through it without a corner.
    pub smooth: Vec<bool>,
}

/// The rings of one part, outer ring and holes.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Region {
    /// Outer rings counter-clockwise, holes clockwise.
    pub rings: Vec<Ring>,
}

/// A level stretch of material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Chord {
    /// Left end, m.
    pub left: f64,
    /// Right end, m.
    pub right: f64,
}

impl Chord {
    /// Its middle, m.
    pub fn middle(self) -> f64 {
        0.5 * (self.left + self.right)
    }

    /// Its length, m.
    pub fn length(self) -> f64 {
        self.right - self.left
    }
}

/// The smallest upright box round something in the section's plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Extent {
    /// Left, m.
    pub left: f64,
    /// Right, m.
    pub right: f64,
    /// Bottom, m.
    pub bottom: f64,
    /// Top, m.
    pub top: f64,
}

impl Extent {
    /// The box round some regions; without a size where there are none.
    pub fn round<'a>(regions: impl IntoIterator<Item = &'a Region>) -> Self {
        let points = regions.into_iter().flat_map(|region| &region.rings).flat_map(|ring| &ring.points);
        let none = Extent {
            left: f64::INFINITY,
            right: f64::NEG_INFINITY,
            bottom: f64::INFINITY,
            top: f64::NEG_INFINITY,
        };
        points.fold(none, |all, point| Extent {
            left: all.left.min(point.x),
            right: all.right.max(point.x),
            bottom: all.bottom.min(point.y),
            top: all.top.max(point.y),
        })
    }

    /// Level size, m.
    pub fn breadth(self) -> f64 {
        self.right - self.left
    }

    /// Upright size, m.
    pub fn height(self) -> f64 {
        self.top - self.bottom
    }

    /// Whether a height lies inside, not on the lower or upper face.
    pub fn holds(self, height: f64) -> bool {
        let hair = 1e-9 * self.height();
        height > self.bottom + hair && height < self.top - hair
    }
}

impl Ring {
    /// The ring of a loop, its arcs divided so finely that no chord stands off its arc by more than `sagitta`, m.
    fn of(outline: &Loop, sagitta: f64, outer: bool) -> Self {
        let mut points = vec![outline.start];
        let mut directions = Vec::new(); // (leaving the start, arriving at the end) of each edge, rad
        let mut corners = vec![0]; // which points are the ends of edges
        let mut at = outline.start;
        for edge in &outline.path {
            let to = match *edge {
                Edge::Line { to } => {
                    if same(at, to) {
                        continue;
                    }
                    let direction = real::atan2(to.y - at.y, to.x - at.x);
                    directions.push((direction, direction));
                    to
                }
                Edge::Arc { to, centre, counter_clockwise } => {
                    let (inner, ends) = divide(at, to, centre, counter_clockwise, sagitta);
                    points.extend(inner);
                    directions.push(ends);
                    to
                }
            };
            corners.push(points.len());
            points.push(to);
            at = to;
        }
        if same(at, outline.start) {
            points.pop();
            corners.pop();
        } else {
            let direction = real::atan2(outline.start.y - at.y, outline.start.x - at.x);
            directions.push((direction, direction));
        }
        let mut smooth = vec![true; points.len()];
        for (k, &corner) in corners.iter().enumerate() {
            let arriving = directions[(k + directions.len() - 1) % directions.len()].1;
            let turn = wrap(directions[k % directions.len()].0 - arriving);
            smooth[corner] = turn.abs() < SMOOTH;
        }
        let mut ring = Self { points, smooth };
        if (ring.doubled_area() > 0.0) != outer {
            ring.points.reverse();
            ring.smooth.reverse();
        }
        ring
    }

    /// Twice the area inside, m², positive where it runs counter-clockwise.
    pub fn doubled_area(&self) -> f64 {
        self.sides().map(|(a, b)| a.x * b.y - b.x * a.y).sum()
    }

    /// Its sides.
    pub fn sides(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        let n = self.points.len();
        (0..n).map(move |i| (self.points[i], self.points[(i + 1) % n]))
    }
}

impl Region {
    /// The region of a part, its arcs true to within `sagitta`, m.
    pub fn of(part: &Part, sagitta: f64) -> Self {
        let mut rings = vec![Ring::of(&part.outline, sagitta, true)];
        rings.extend(part.holes.iter().map(|hole| Ring::of(hole, sagitta, false)));
        rings.retain(|ring| ring.points.len() > 2);
        Self { rings }
    }

    /// Whether nothing is left of it.
    pub fn is_empty(&self) -> bool {
        self.rings.is_empty()
    }

    /// What of it lies beyond a level cut.
    pub fn beyond(&self, height: f64, side: HeightSide, tolerance: f64) -> Self {
        let sign = match side {
            HeightSide::Above => 1.0,
            HeightSide::Below => -1.0,
        };
        let inside = |p: Point| sign * (p.y - height) > tolerance;
        let mut rings = Vec::new();
        let mut chains: Vec<Ring> = Vec::new();
        for ring in &self.rings {
            let n = ring.points.len();
            let Some(first) = (0..n).find(|&i| !inside(ring.points[i])) else {
                rings.push(ring.clone());
                continue;
            };
            let mut chain: Option<Ring> = None;
            for step in 0..n {
                let (i, j) = ((first + step) % n, (first + step + 1) % n);
                let (a, b) = (ring.points[i], ring.points[j]);
                match (inside(a), inside(b)) {
                    (false, true) => {
                        let mut started = Ring { points: vec![crossing(a, b, height)], smooth: vec![false] };
                        started.push(b, ring.smooth[j]);
                        chain = Some(started);
                    }
                    (true, true) => {
                        if let Some(chain) = chain.as_mut() {
                            chain.push(b, ring.smooth[j]);
                        }
                    }
                    (true, false) => {
                        if let Some(mut ended) = chain.take() {
                            ended.push(crossing(a, b, height), false);
                            chains.push(ended);
                        }
                    }
                    (false, false) => {}
                }
            }
        }
        rings.extend(join(chains));
        Self { rings }
    }
}

impl Ring {
    fn push(&mut self, point: Point, smooth: bool) {
        self.points.push(point);
        self.smooth.push(smooth);
    }
}

/// The box round some regions; `None` where there is nothing.
pub(crate) fn extent(regions: &[Region]) -> Option<Extent> {
    let mut points = regions.iter().flat_map(|r| &r.rings).flat_map(|r| &r.points);
    let first = points.next()?;
    let mut e = Extent { left: first.x, right: first.x, bottom: first.y, top: first.y };
    for p in points {
        e.left = e.left.min(p.x);
        e.right = e.right.max(p.x);
        e.bottom = e.bottom.min(p.y);
        e.top = e.top.max(p.y);
    }
    Some(e)
}

/// What of each region lies beyond a cut; the empty ones stay, so that indices still name the parts.
pub(crate) fn beyond(regions: &[Region], height: f64, side: HeightSide, whole: Extent) -> Vec<Region> {
    let tolerance = SAME_HEIGHT * whole.height();
    regions.iter().map(|r| r.beyond(height, side, tolerance)).collect()
}

/// The other side.
pub(crate) fn opposite(side: HeightSide) -> HeightSide {
    match side {
        HeightSide::Above => HeightSide::Below,
        HeightSide::Below => HeightSide::Above,
    }
}

/// Where the line through `a` and `b` meets a height; held between them, since `a` or `b` may lie on it.
fn crossing(a: Point, b: Point, height: f64) -> Point {
    let share = if a.y == b.y { 0.5 } else { ((height - a.y) / (b.y - a.y)).clamp(0.0, 1.0) };
    Point { x: a.x + share * (b.x - a.x), y: height }
}

/// Closes chains that begin and end on the cut: along the cut, material lies between the first and the second
/// end, the third and the fourth, and so on.
fn join(chains: Vec<Ring>) -> Vec<Ring> {
    // Every chain has two ends: (x, chain, whether it is where the chain begins).
    let mut ends: Vec<(f64, usize, bool)> = Vec::new();
    for (k, chain) in chains.iter().enumerate() {
        if let (Some(first), Some(last)) = (chain.points.first(), chain.points.last()) {
            ends.push((first.x, k, true));
            ends.push((last.x, k, false));
        }
    }
    ends.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let mut next = vec![None; chains.len()];
    let mut waiting: Vec<(usize, bool)> = Vec::new();
    // The ends alternate between leaving and arriving; two that fall together may be sorted the wrong way about,
    // so that an end takes the nearest open end of the other kind.
    for &(_, chain, begins) in &ends {
        match waiting.iter().rposition(|&(_, open_begins)| open_begins != begins) {
            Some(k) => {
                let (other, _) = waiting.remove(k);
                let (from, to) = if begins { (other, chain) } else { (chain, other) };
                next[from] = Some(to);
            }
            None => waiting.push((chain, begins)),
        }
    }
    let mut used = vec![false; chains.len()];
    let mut rings = Vec::new();
    for start in 0..chains.len() {
        let mut ring = Ring { points: Vec::new(), smooth: Vec::new() };
        let mut at = start;
        while !used[at] {
            used[at] = true;
            ring.points.extend(&chains[at].points);
            ring.smooth.extend(&chains[at].smooth);
            match next[at] {
                Some(following) => at = following,
                None => break,
            }
        }
        ring.drop_repeats();
        if ring.points.len() > 2 {
            rings.push(ring);
        }
    }
    rings
}

impl Ring {
    /// Drops points in the middle of a straight stretch.
    pub fn straighten(&mut self) {
        self.drop_repeats();
        let mut k = 0;
        while k < self.points.len() && self.points.len() > 3 {
            let n = self.points.len();
            let (a, p, b) = (self.points[(k + n - 1) % n], self.points[k], self.points[(k + 1) % n]);
            let turn = (p.x - a.x) * (b.y - p.y) - (p.y - a.y) * (b.x - p.x);
            let size = real::hypot(p.x - a.x, p.y - a.y) * real::hypot(b.x - p.x, b.y - p.y);
            if turn.abs() <= 1e-9 * size {
                self.points.remove(k);
                self.smooth.remove(k);
            } else {
                k += 1;
            }
        }
    }

    fn drop_repeats(&mut self) {
        let mut k = 0;
        while k < self.points.len() && self.points.len() > 1 {
            let next = (k + 1) % self.points.len();
            if same(self.points[k], self.points[next]) {
                self.smooth[k] = false;
                self.points.remove(next);
                self.smooth.remove(next);
            } else {
                k += 1;
            }
        }
    }
}

fn same(a: Point, b: Point) -> bool {
    let scale = a.x.abs().max(a.y.abs()).max(b.x.abs()).max(b.y.abs());
    (a.x - b.x).abs() <= 1e-12 * scale && (a.y - b.y).abs() <= 1e-12 * scale
}

fn wrap(angle: f64) -> f64 {
    angle - TAU * ((angle + PI) / TAU).floor()
}

/// Points within an arc, and its directions at both ends.
fn divide(
    from: Point,
    to: Point,
    centre: Point,
    counter_clockwise: bool,
    sagitta: f64,
) -> (Vec<Point>, (f64, f64)) {
    let radius = real::hypot(from.x - centre.x, from.y - centre.y);
    let start = real::atan2(from.y - centre.y, from.x - centre.x);
    let end = real::atan2(to.y - centre.y, to.x - centre.x);
    let turn = if counter_clockwise { (end - start).rem_euclid(TAU) } else { -(start - end).rem_euclid(TAU) };
    // A chord over an angle a stands off its arc by r (1 - cos(a/2)).
    let step = 2.0 * real::acos(1.0 - (sagitta / radius).clamp(1e-6, 0.3));
    let count = (turn.abs() / step).ceil().clamp(1.0, 360.0) as usize;
    let inner = (1..count)
        .map(|k| {
            let angle = start + turn * k as f64 / count as f64;
            Point { x: centre.x + radius * real::cos(angle), y: centre.y + radius * real::sin(angle) }
        })
        .collect();
    let quarter = if counter_clockwise { 0.5 * PI } else { -0.5 * PI };
    (inner, (start + quarter, end + quarter))
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test fails where it panics")]
mod tests {
    use super::*;
    use mechanics::section::{Section, shapes};

    fn area(regions: &[Region]) -> f64 {
        regions.iter().flat_map(|r| &r.rings).map(|r| 0.5 * r.doubled_area()).sum()
    }

    /// The outlines drawn of the two pieces have the areas that the engine finds for them, arcs to their fineness.
    #[test]
    fn the_pieces_drawn_are_those_of_the_cut() {
        let shapes = [
            shapes::tee(0.08, 0.04, 0.02, 0.12, true),
            shapes::round_tube(0.1, 0.012),
            shapes::circle(0.1),
            shapes::half_circle(0.1, true),
            shapes::rolled_i(0.2, 0.1, 0.0056, 0.0085, 0.012),
            shapes::box_girder(0.2, 0.3, 0.025, 0.05, 0.05),
            shapes::channel(0.2, 0.08, 0.008, 0.012),
            shapes::triangle(0.12, 0.15, 0.06, true),
        ];
        for shape in shapes {
            let section = Section::new(shape.unwrap().parts).unwrap();
            let p = *section.properties();
            let whole = Extent { left: p.left, right: p.right, bottom: p.bottom, top: p.top };
            let regions: Vec<Region> = section.parts().iter().map(|q| Region::of(q, 1e-7)).collect();
            let levels: Vec<f64> = section.levels().collect();
            let between = (0..=20).map(|k| p.bottom + p.height() * f64::from(k) / 20.0);
            for height in levels.into_iter().chain(between) {
                for side in [HeightSide::Above, HeightSide::Below] {
                    let drawn = area(&beyond(&regions, height, side, whole));
                    let exact = section.level_cut(height, side).unwrap().area;
                    assert!((drawn - exact).abs() <= 1e-4 * p.area, "{height} {side:?}: {drawn} {exact}");
                }
            }
        }
    }

    /// Closed form: a wall cut through three times falls into as many pieces.
    #[test]
    fn a_comb_cut_through_its_teeth_falls_into_teeth() {
        let comb =
            [(0, 0), (5, 0), (5, 3), (4, 3), (4, 1), (3, 1), (3, 3), (2, 3), (2, 1), (1, 1), (1, 3), (0, 3)];
        let corners: Vec<Point> = comb.iter().map(|&(x, y)| Point::new(f64::from(x), f64::from(y))).collect();
        let region = Region::of(&Part::of_outline(Loop::polygon(&corners), Vec::new()), 1e-3);
        let whole = Extent { left: 0.0, right: 5.0, bottom: 0.0, top: 3.0 };
        let teeth = beyond(std::slice::from_ref(&region), 2.0, HeightSide::Above, whole);
        assert_eq!(teeth[0].rings.len(), 3);
        assert!((area(&teeth) - 3.0).abs() < 1e-12);
        let rest = beyond(&[region], 2.0, HeightSide::Below, whole);
        assert_eq!(rest[0].rings.len(), 1);
        assert!((area(&rest) - 8.0).abs() < 1e-12);
    }
}
