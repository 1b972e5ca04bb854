//! The usual shapes from their dimensions: their parts, each with its name.
//!
//! The lower left corner of the box round the shape stands at the origin, save for rolled I profiles and round shapes,
//! whose upright axis of symmetry stands at x = 0. A shape made of rectangles comes as the rectangles that one
//! would write in a table, so that workings can sum `A y` and `b h³ / 12` over them.

mod flanged;
mod rolled;
mod simple;

pub use flanged::{angle, box_girder, channel, i_section, rectangular_tube, tee, trough};
pub use rolled::{rolled_channel, rolled_channel_sloping, rolled_i};
pub use simple::{circle, half_circle, polygon, rectangle, round_tube, trapezoid, triangle};

use crate::thin_wall::{NoMiddleLines, ThinWalls};

use super::{Dimension, Edge, Fault, Figure, Loop, Part, Point};

/// A shape: its parts and their names, in the same order.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// What the whole is called: `T-section`, `box`.
    pub name: &'static str,
    /// The parts.
    pub parts: Vec<Part>,
    /// The name of each part: `flange`, `web`.
    pub part_names: Vec<&'static str>,
}

impl Shape {
    fn of(name: &'static str, pieces: Vec<(&'static str, Part)>) -> Self {
        let (part_names, parts) = pieces.into_iter().unzip();
        Self { name, parts, part_names }
    }

    /// Its walls by their middle lines, where it is thin-walled: see [`ThinWalls::of_parts`].
    ///
    /// # Errors
    /// [`NoMiddleLines`] says why it has none.
    pub fn thin_walls(&self) -> Result<ThinWalls, NoMiddleLines> {
        ThinWalls::of_parts(&self.parts, &self.part_names)
    }

    fn single(name: &'static str, part: Part) -> Self {
        Self { name, parts: vec![part], part_names: vec![name] }
    }
}

impl Loop {
    /// A loop of straight sides through the corners.
    pub fn polygon(corners: &[Point]) -> Self {
        let start = corners.first().copied().unwrap_or(Point::new(0.0, 0.0));
        let rest = corners.get(1..).unwrap_or(&[]);
        Self { start, path: rest.iter().map(|&to| Edge::Line { to }).collect() }
    }

    /// A full circle, of two arcs.
    pub fn circle(centre: Point, radius: f64) -> Self {
        let (right, left) =
            (Point::new(centre.x + radius, centre.y), Point::new(centre.x - radius, centre.y));
        let arc = |to| Edge::Arc { to, centre, counter_clockwise: true };
        Self { start: right, path: vec![arc(left), arc(right)] }
    }
}

impl Part {
    /// A rectangle with its lower left corner at `corner`; breadth and height in m, not checked.
    pub fn rectangle(corner: Point, breadth: f64, height: f64) -> Self {
        let (right, top) = (corner.x + breadth, corner.y + height);
        let outline = Loop::polygon(&[
            corner,
            Point::new(right, corner.y),
            Point::new(right, top),
            Point::new(corner.x, top),
        ]);
        Self { outline, holes: Vec::new(), modular_ratio: 1.0, figure: Figure::Rectangle { breadth, height } }
    }

    /// Any outline, of the reference material.
    pub fn of_outline(outline: Loop, holes: Vec<Loop>) -> Self {
        Self { outline, holes, modular_ratio: 1.0, figure: Figure::Outline }
    }

    /// The same part with another modulus of elasticity over the reference modulus.
    pub fn with_modular_ratio(mut self, modular_ratio: f64) -> Self {
        self.modular_ratio = modular_ratio;
        self
    }
}

/// Gathers what is wrong with the dimensions of a shape.
#[derive(Default)]
struct Demands(Vec<Fault>);

impl Demands {
    /// Each dimension must be greater than zero.
    fn positive(mut self, dimensions: &[(Dimension, f64)]) -> Self {
        for &(dimension, value) in dimensions {
            if !(value > 0.0 && value.is_finite()) {
                self.0.push(Fault::DimensionSize { dimension, value });
            }
        }
        self
    }

    /// Each dimension must be zero or greater.
    fn not_negative(mut self, dimensions: &[(Dimension, f64)]) -> Self {
        for &(dimension, value) in dimensions {
            if !(value >= 0.0 && value.is_finite()) {
                self.0.push(Fault::DimensionSize { dimension, value });
            }
        }
        self
    }

    /// A dimension that may have either sign must still be a number.
    fn finite(mut self, dimension: Dimension, value: f64) -> Self {
        if !value.is_finite() {
            self.0.push(Fault::DimensionSize { dimension, value });
        }
        self
    }

    /// The pieces together must leave some of the room.
    fn fit(mut self, pieces: &[(Dimension, f64)], room: (Dimension, f64)) -> Self {
        let total: f64 = pieces.iter().map(|(_, size)| size).sum();
        if total >= room.1 && pieces.iter().all(|(_, size)| *size > 0.0) && room.1 > 0.0 {
            self.0.push(Fault::DoesNotFit { pieces: pieces.to_vec(), room });
        }
        self
    }

    /// The pieces together may fill the room, but not more.
    fn fill(mut self, pieces: &[(Dimension, f64)], room: (Dimension, f64)) -> Self {
        let total: f64 = pieces.iter().map(|(_, size)| size).sum();
        if total > room.1 * (1.0 + 1e-12) && pieces.iter().all(|(_, size)| *size > 0.0) && room.1 > 0.0 {
            self.0.push(Fault::DoesNotFit { pieces: pieces.to_vec(), room });
        }
        self
    }

    fn then(self, shape: impl FnOnce() -> Shape) -> Result<Shape, Vec<Fault>> {
        if self.0.is_empty() { Ok(shape()) } else { Err(self.0) }
    }
}
