//! The section taken apart into the figures that stand in every handbook; holes count as negative areas.

use super::builder::Builder;
use crate::engine::Alone;
use mechanics::section::{Edge, Figure, HeightSide, Loop, Part, Point, Section};
use std::sync::Arc;

/// One figure of the section, or an outline that is none.
#[derive(Clone, Debug)]
pub(crate) struct Piece {
    /// The part that it belongs to, or that it is a hole of.
    pub(crate) part: usize,
    /// `flange`, `hole in web`.
    pub(crate) name: String,
    /// Whether it is a hole.
    pub(crate) hole: bool,
    pub(crate) figure: Figure,
    /// The piece alone, for what no handbook gives.
    pub(crate) alone: Alone,
    pub(crate) bottom: f64,
    pub(crate) top: f64,
    pub(crate) left: f64,
    pub(crate) right: f64,
}

impl Piece {
    fn of(part: usize, name: String, hole: bool, outline: Loop, figure: Figure) -> Option<Self> {
        let only = Part { outline, holes: Vec::new(), modular_ratio: 1.0, figure };
        let alone = Section::new(vec![only]).ok()?;
        let properties = *alone.properties();
        Some(Self {
            part,
            name,
            hole,
            figure,
            alone: Alone(Arc::new(alone)),
            bottom: properties.bottom,
            top: properties.top,
            left: properties.left,
            right: properties.right,
        })
    }

    /// Whether it has material just on one side of a height.
    pub(crate) fn reaches(&self, height: f64, side: HeightSide, near: f64) -> bool {
        match side {
            HeightSide::Above => self.bottom <= height + near && self.top > height + near,
            HeightSide::Below => self.top >= height - near && self.bottom < height - near,
        }
    }
}

impl Builder<'_> {
    /// The pieces, in the order of the parts.
    pub(crate) fn pieces_of_section(&self) -> Vec<Piece> {
        let mut pieces = Vec::new();
        for (part, given) in self.problem.parts.iter().enumerate() {
            let name = self.problem.part_names.get(part).filter(|name| !name.is_empty());
            let name = name.cloned().unwrap_or_else(|| format!("part {}", part + 1));
            let figure = match given.figure {
                Figure::Outline => figure_of(&given.outline),
                known => known,
            };
            take_apart(&mut pieces, part, &name, false, &given.outline, figure);
            for (count, hole) in given.holes.iter().enumerate() {
                let name = match given.holes.len() {
                    1 => format!("hole in {name}"),
                    _ => format!("hole {} in {name}", count + 1),
                };
                take_apart(&mut pieces, part, &name, true, hole, figure_of(hole));
            }
        }
        pieces
    }
}

fn take_apart(pieces: &mut Vec<Piece>, part: usize, name: &str, hole: bool, outline: &Loop, figure: Figure) {
    if figure == Figure::Outline {
        let rectangles = rectangles_of(outline);
        let count = rectangles.len();
        let taken: Option<Vec<Piece>> = rectangles
            .into_iter()
            .enumerate()
            .map(|(place, rectangle)| {
                let name = if count == 1 { name.to_owned() } else { format!("{name} {}", place + 1) };
                let (outline, figure) = rectangle.as_loop();
                Piece::of(part, name, hole, outline, figure)
            })
            .collect();
        if let Some(taken) = taken
            && !taken.is_empty()
        {
            pieces.extend(taken);
            return;
        }
    }
    pieces.extend(Piece::of(part, name.to_owned(), hole, outline.clone(), figure));
}

/// The corners of a loop of straight sides, the closing one not repeated; `None` where it has arcs.
fn corners(outline: &Loop) -> Option<Vec<Point>> {
    let mut corners = vec![outline.start];
    for edge in &outline.path {
        match edge {
            Edge::Line { to } => corners.push(*to),
            Edge::Arc { .. } => return None,
        }
    }
    if corners.len() > 1 && corners.first() == corners.last() {
        corners.pop();
    }
    Some(corners)
}

/// The figure that a loop is: a level rectangle or a circle.
fn figure_of(outline: &Loop) -> Figure {
    if let [rectangle] = rectangles_of(outline).as_slice() {
        return rectangle.as_loop().1;
    }
    circle_of(outline).map_or(Figure::Outline, |diameter| Figure::Circle { diameter })
}

/// The diameter of a loop that is a full circle of arcs about one centre.
fn circle_of(outline: &Loop) -> Option<f64> {
    let mut about: Option<(Point, bool)> = None;
    let mut turned = 0.0;
    let mut from = outline.start;
    for edge in &outline.path {
        let Edge::Arc { to, centre, counter_clockwise } = *edge else { return None };
        if *about.get_or_insert((centre, counter_clockwise)) != (centre, counter_clockwise) {
            return None;
        }
        let angle = |point: Point| mechanics::real::atan2(point.y - centre.y, point.x - centre.x);
        let mut step = angle(to) - angle(from);
        if !counter_clockwise {
            step = -step;
        }
        turned += if step <= 0.0 { step + 2.0 * std::f64::consts::PI } else { step };
        from = to;
    }
    let (centre, _) = about?;
    let radius = mechanics::real::hypot(outline.start.x - centre.x, outline.start.y - centre.y);
    let closed = mechanics::real::hypot(from.x - outline.start.x, from.y - outline.start.y) <= 1e-9 * radius;
    (closed && (turned - 2.0 * std::f64::consts::PI).abs() < 1e-6).then_some(2.0 * radius)
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct Rectangle {
    left: f64,
    right: f64,
    bottom: f64,
    top: f64,
}

impl Rectangle {
    fn as_loop(self) -> (Loop, Figure) {
        let line = |x: f64, y: f64| Edge::Line { to: Point { x, y } };
        let outline = Loop {
            start: Point { x: self.left, y: self.bottom },
            path: vec![line(self.right, self.bottom), line(self.right, self.top), line(self.left, self.top)],
        };
        (outline, Figure::Rectangle { breadth: self.right - self.left, height: self.top - self.bottom })
    }
}

/// A loop whose sides are all level or upright, cut into rectangles from its lowest to its highest; empty for any
/// other loop.
fn rectangles_of(outline: &Loop) -> Vec<Rectangle> {
    let Some(corners) = corners(outline) else { return Vec::new() };
    let sides: Vec<(Point, Point)> =
        (0..corners.len()).map(|k| (corners[k], corners[(k + 1) % corners.len()])).collect();
    if corners.len() < 4 || sides.iter().any(|(a, b)| a.x != b.x && a.y != b.y) {
        return Vec::new();
    }
    let mut levels: Vec<f64> = corners.iter().map(|corner| corner.y).collect();
    levels.sort_by(f64::total_cmp);
    levels.dedup();
    let mut done: Vec<Rectangle> = Vec::new();
    for strip in levels.windows(2) {
        let (bottom, top) = (strip[0], strip[1]);
        let middle = 0.5 * (bottom + top);
        let mut crossings: Vec<f64> = sides
            .iter()
            .filter(|(a, b)| a.y.min(b.y) < middle && middle < a.y.max(b.y))
            .map(|(a, _)| a.x)
            .collect();
        crossings.sort_by(f64::total_cmp);
        for pair in crossings.chunks_exact(2) {
            let (left, right) = (pair[0], pair[1]);
            let below = done.iter_mut().find(|r| r.top == bottom && r.left == left && r.right == right);
            match below {
                Some(below) => below.top = top,
                None if right > left => done.push(Rectangle { left, right, bottom, top }),
                None => {}
            }
        }
    }
    done
}

#[cfg(test)]
mod tests {
    use super::*;

    fn polygon(corners: &[(f64, f64)]) -> Loop {
        let to = |&(x, y): &(f64, f64)| Edge::Line { to: Point { x, y } };
        Loop {
            start: Point { x: corners[0].0, y: corners[0].1 },
            path: corners[1..].iter().map(to).collect(),
        }
    }

    /// Closed form: an I is two flanges and a web.
    #[test]
    fn an_i_comes_apart_into_three_rectangles() {
        let i = polygon(&[
            (0.0, 0.0),
            (6.0, 0.0),
            (6.0, 1.0),
            (4.0, 1.0),
            (4.0, 9.0),
            (6.0, 9.0),
            (6.0, 10.0),
            (0.0, 10.0),
            (0.0, 9.0),
            (2.0, 9.0),
            (2.0, 1.0),
            (0.0, 1.0),
        ]);
        let expected = [
            Rectangle { left: 0.0, right: 6.0, bottom: 0.0, top: 1.0 },
            Rectangle { left: 2.0, right: 4.0, bottom: 1.0, top: 9.0 },
            Rectangle { left: 0.0, right: 6.0, bottom: 9.0, top: 10.0 },
        ];
        assert_eq!(rectangles_of(&i), expected);
    }

    #[test]
    fn a_channel_on_its_back_keeps_its_two_walls_apart() {
        let u = polygon(&[
            (0.0, 0.0),
            (10.0, 0.0),
            (10.0, 5.0),
            (9.0, 5.0),
            (9.0, 1.0),
            (1.0, 1.0),
            (1.0, 5.0),
            (0.0, 5.0),
        ]);
        assert_eq!(rectangles_of(&u).len(), 3);
    }

    #[test]
    fn a_sloping_side_makes_it_an_outline() {
        let loop_ = polygon(&[(0.0, 0.0), (4.0, 0.0), (3.0, 2.0), (0.0, 2.0)]);
        assert_eq!(figure_of(&loop_), Figure::Outline);
    }

    #[test]
    fn two_half_turns_about_one_centre_are_a_circle() {
        let centre = Point { x: 0.0, y: 2.0 };
        let arc = |x: f64| Edge::Arc { to: Point { x, y: 2.0 }, centre, counter_clockwise: true };
        let circle = Loop { start: Point { x: 2.0, y: 2.0 }, path: vec![arc(-2.0), arc(2.0)] };
        assert_eq!(figure_of(&circle), Figure::Circle { diameter: 4.0 });
    }
}
