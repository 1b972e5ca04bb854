//! A strip of a section: long, of one thickness, straight or round. Its middle line is a wall.

use super::line::Line;
use super::no_middle_lines::NoMiddleLines;
use crate::real;
use crate::section::{Edge, Figure, Loop, Part, Point, turn};

/// A strip is thin whose length is at least five thicknesses, and a round one whose radius is so, too. Common practice, no
/// source: the flanges of rolled profiles pass, a stout timber does not.
pub(super) const THIN: f64 = 5.0;

/// Long sides whose directions differ by less than this, rad, are parallel, and the ends of a ring's sector radial: corners of
/// sloping sides are often written with few figures.
const PARALLEL: f64 = 1e-3;

/// Centres and radii that differ by less than this part of the radius are one.
const SAME_CIRCLE: f64 = 1e-5;

/// A strip.
#[derive(Clone, Debug)]
pub(super) struct Strip {
    pub name: String,
    /// Its middle line, level ones to the right, all others upward.
    pub line: Line,
    /// m.
    pub thickness: f64,
    /// The two corners where it begins, and those where it ends, m.
    pub ends: [[Point; 2]; 2],
}

/// A side of an outline.
#[derive(Clone, Copy)]
pub(super) enum SideOf {
    Straight { from: Point },
    Round { from: Point, to: Point, centre: Point, sweep: f64 },
}

impl SideOf {
    /// Where it begins, m.
    pub fn from(&self) -> Point {
        let (Self::Straight { from } | Self::Round { from, .. }) = *self;
        from
    }
}

impl Strip {
    /// The strip that fills a rectangle, from its lower left corner.
    pub fn of_rectangle(
        name: String,
        corner: Point,
        breadth: f64,
        height: f64,
    ) -> Result<Self, NoMiddleLines> {
        let (Point { x, y }, level) = (corner, breadth >= height);
        let (right, top) = (x + breadth, y + height);
        let [low_left, low_right] = [Point::new(x, y), Point::new(right, y)];
        let [high_left, high_right] = [Point::new(x, top), Point::new(right, top)];
        let (middle_x, middle_y) = (x + 0.5 * breadth, y + 0.5 * height);
        let (line, ends, thickness) = if level {
            let line = Line::Straight { from: Point::new(x, middle_y), to: Point::new(right, middle_y) };
            (line, [[low_left, high_left], [low_right, high_right]], height)
        } else {
            let line = Line::Straight { from: Point::new(middle_x, y), to: Point::new(middle_x, top) };
            (line, [[low_left, low_right], [high_left, high_right]], breadth)
        };
        Self { name, line, thickness, ends }.if_thin()
    }

    /// The strip that a part of the section is.
    pub fn of_part(name: String, part: &Part) -> Result<Self, NoMiddleLines> {
        if let (Figure::Rectangle { breadth, height }, true) = (part.figure, part.holes.is_empty()) {
            let ends = part.outline.path.iter().map(|edge| match *edge {
                Edge::Line { to } | Edge::Arc { to, .. } => to,
            });
            let corner = ends.fold(part.outline.start, |a, b| Point::new(a.x.min(b.x), a.y.min(b.y)));
            return Self::of_rectangle(name, corner, breadth, height);
        }
        let no_strip = || NoMiddleLines::NoStrip { part: name.clone() };
        if !part.holes.is_empty() {
            return Err(no_strip());
        }
        match sides(&part.outline).as_slice() {
            [
                SideOf::Straight { from: a },
                SideOf::Straight { from: b },
                SideOf::Straight { from: c },
                SideOf::Straight { from: d },
            ] => Self::of_four(&name, [*a, *b, *c, *d]).ok_or_else(no_strip)?.if_thin(),
            [round @ SideOf::Round { .. }, _, other @ SideOf::Round { .. }, _]
            | [_, round @ SideOf::Round { .. }, _, other @ SideOf::Round { .. }] => {
                Self::of_sector(&name, *round, *other).ok_or_else(no_strip)?.if_thin()
            }
            _ => Err(no_strip()),
        }
    }

    /// Between the two longer sides of four, which must be parallel; the ends may be cut askew.
    fn of_four(name: &str, [a, b, c, d]: [Point; 4]) -> Option<Self> {
        // Ends first: from the side a b to the side c d.
        let [a, b, c, d] = if a.distance(b) + c.distance(d) <= b.distance(c) + d.distance(a) {
            [a, b, c, d]
        } else {
            [b, c, d, a]
        };
        let (one, other) = (c.minus(b), d.minus(a));
        let lengths = one.length() * other.length();
        if !(one.cross(other).abs() <= PARALLEL * lengths && one.dot(other) > 0.0) {
            return None;
        }
        let (mut from, mut to) = (mean(a, b), mean(c, d));
        let mut ends = [[a, b], [c, d]];
        let (dx, dy) = (to.x - from.x, to.y - from.y);
        let backwards = if dx.abs() > dy.abs() { dx < 0.0 } else { dy < 0.0 };
        if backwards {
            (from, to) = (to, from);
            ends.reverse();
        }
        let along = to.minus(from);
        // Twice the area between the sides over twice the length.
        let thickness = (c.minus(a).cross(d.minus(b)) / along.length()).abs() * 0.5;
        Some(Self { name: name.to_owned(), line: Line::Straight { from, to }, thickness, ends })
    }

    /// Between two arcs about one centre, the ends radial.
    fn of_sector(name: &str, one: SideOf, other: SideOf) -> Option<Self> {
        let (
            SideOf::Round { from: a, to: b, centre, sweep },
            SideOf::Round { from: c, to: d, centre: beside, sweep: back },
        ) = (one, other)
        else {
            return None;
        };
        let (radius, within) = (a.distance(centre), c.distance(beside));
        let larger = radius.max(within);
        let same = centre.distance(beside) <= SAME_CIRCLE * larger && (sweep + back).abs() <= PARALLEL;
        let radial = |p: Point, q: Point| {
            let (p, q) = (p.minus(centre), q.minus(centre));
            p.cross(q).abs() <= PARALLEL * p.length() * q.length() && p.dot(q) > 0.0
        };
        if !(same && radial(a, d) && radial(b, c)) {
            return None;
        }
        let middle = 0.5 * (radius + within);
        let start = mean(a, d).minus(centre);
        let start = real::atan2(start.y, start.x);
        Some(Self {
            name: name.to_owned(),
            line: Line::Round { centre, radius: middle, start, sweep },
            thickness: (radius - within).abs(),
            ends: [[a, d], [b, c]],
        })
    }

    /// Itself where it is thin.
    pub fn if_thin(self) -> Result<Self, NoMiddleLines> {
        let length = self.line.length();
        let shortest = match self.line {
            Line::Straight { .. } => length,
            Line::Round { radius, .. } => length.min(radius),
        };
        if shortest >= THIN * self.thickness {
            Ok(self)
        } else {
            let round = matches!(self.line, Line::Round { radius, .. } if radius < length);
            Err(NoMiddleLines::Thick {
                part: self.name,
                length: shortest,
                thickness: self.thickness,
                is_radius: round,
            })
        }
    }

    /// Whether it runs more across than up.
    pub fn is_level(&self) -> bool {
        match self.line {
            Line::Straight { from, to } => (to.x - from.x).abs() > (to.y - from.y).abs(),
            Line::Round { .. } => false,
        }
    }

    /// Where its middle line begins (0) or ends (1).
    pub fn end(&self, which: usize) -> Point {
        self.line.at(which as f64).0
    }

    /// What a stretch of it is called, of several in order along it.
    pub fn name_of(&self, stretch: usize, of: usize) -> String {
        let name = &self.name;
        match (of, stretch, self.is_level()) {
            (1, _, _) => name.clone(),
            (2, 0, true) => format!("{name}, left"),
            (2, _, true) => format!("{name}, right"),
            (2, 0, false) => format!("{name}, lower"),
            (2, _, false) => format!("{name}, upper"),
            _ => format!("{name}, {}", stretch + 1),
        }
    }
}

pub(super) fn mean(a: Point, b: Point) -> Point {
    Point::new(0.5 * (a.x + b.x), 0.5 * (a.y + b.y))
}

/// Where two straight lines meet, each by a point and its direction. On a level or upright one the height or place is that of
/// the line to the last bit.
pub(super) fn meeting((at, way): (Point, Point), (foot, flank): (Point, Point)) -> Point {
    let part = foot.minus(at).cross(flank) / way.cross(flank);
    let mut meets = Point::new(at.x + part * way.x, at.y + part * way.y);
    for (point, way) in [(at, way), (foot, flank)] {
        if way.x == 0.0 {
            meets.x = point.x;
        }
        if way.y == 0.0 {
            meets.y = point.y;
        }
    }
    meets
}

/// The sides of a loop, the closing one with them; arcs that go on along one circle are one side.
pub(super) fn sides(of: &Loop) -> Vec<SideOf> {
    let mut all: Vec<SideOf> = Vec::new();
    let mut at = of.start;
    for edge in &of.path {
        match *edge {
            Edge::Line { to } => {
                all.push(SideOf::Straight { from: at });
                at = to;
            }
            Edge::Arc { to, centre, counter_clockwise } => {
                let (_, sweep) = turn(at, to, centre, counter_clockwise);
                all.push(SideOf::Round { from: at, to, centre, sweep });
                at = to;
            }
        }
    }
    if at != of.start {
        all.push(SideOf::Straight { from: at });
    }
    let mut merged: Vec<SideOf> = Vec::new();
    for side in all {
        match merged.last_mut().and_then(|last| gone_on(*last, side)) {
            Some(both) => {
                merged.pop();
                merged.push(both);
            }
            None => merged.push(side),
        }
    }
    // Where the loop was begun within an arc, its last side and its first are one.
    if let (true, Some(&first), Some(&last)) = (merged.len() > 2, merged.first(), merged.last())
        && let Some(both) = gone_on(last, first)
    {
        merged.pop();
        if let Some(first) = merged.first_mut() {
            *first = both;
        }
    }
    merged
}

/// Two arcs as one, where the second goes on along the circle of the first.
fn gone_on(one: SideOf, next: SideOf) -> Option<SideOf> {
    match (one, next) {
        (
            SideOf::Round { from, centre, sweep, .. },
            SideOf::Round { from: again, to, centre: beside, sweep: on },
        ) if centre.distance(beside) <= SAME_CIRCLE * from.distance(centre)
            && (from.distance(centre) - again.distance(beside)).abs()
                <= SAME_CIRCLE * from.distance(centre)
            && sweep * on > 0.0 =>
        {
            Some(SideOf::Round { from, to, centre, sweep: sweep + on })
        }
        _ => None,
    }
}
