//! A plate of a section: a rectangle that is long and thin, level or upright.

use crate::section::Point;

/// A plate whose axis runs from `low` to `high` at the height or place `at`, m.
#[derive(Clone, Debug)]
pub(super) struct Plate {
    pub name: String,
    /// Whether its axis is level: then `low` and `high` are places across, and `at` is a height.
    pub level: bool,
    pub low: f64,
    pub high: f64,
    pub at: f64,
    pub thickness: f64,
}

/// A plate is thin whose length is at least five thicknesses. Common practice, no source: the flanges of rolled profiles
/// pass, a stout timber does not.
pub(super) const THIN: f64 = 5.0;

impl Plate {
    /// The plate that fills a rectangle, from its lower left corner; none where the rectangle is not thin.
    pub fn of_rectangle(name: String, corner: Point, breadth: f64, height: f64) -> Option<Self> {
        let level = breadth >= height;
        let (low, length, side, thickness) =
            if level { (corner.x, breadth, corner.y, height) } else { (corner.y, height, corner.x, breadth) };
        let at = side + 0.5 * thickness;
        (length >= THIN * thickness).then_some(Self { name, level, low, high: low + length, at, thickness })
    }

    /// The point of its axis at a place along it.
    pub fn point(&self, along: f64) -> Point {
        if self.level { Point::new(along, self.at) } else { Point::new(self.at, along) }
    }

    /// Where along the other plate this one's end at `end` stands square on the other's flank; `near` is what counts as
    /// touching, m.
    pub fn stands_on(&self, end: f64, other: &Self, near: f64) -> bool {
        let on_flank = ((end - other.at).abs() - 0.5 * other.thickness).abs() <= near;
        self.level != other.level && on_flank && self.at >= other.low - near && self.at <= other.high + near
    }

    /// What a stretch of it is called, of several in order along it.
    pub fn name_of(&self, stretch: usize, of: usize) -> String {
        let name = &self.name;
        match (of, stretch, self.level) {
            (1, _, _) => name.clone(),
            (2, 0, true) => format!("{name}, left"),
            (2, _, true) => format!("{name}, right"),
            (2, 0, false) => format!("{name}, lower"),
            (2, _, false) => format!("{name}, upper"),
            _ => format!("{name}, {}", stretch + 1),
        }
    }
}
