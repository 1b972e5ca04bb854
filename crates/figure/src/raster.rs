//! A raster over the sheet that finds what stands near a box without looking at everything on the sheet.

use crate::geometry::{Point, Rect};
use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};

/// Size of a cell, px.
const CELL: f64 = 24.0;
/// Cells beyond this, to each side of the origin, count as one.
const FURTHEST: f64 = 400.0;

/// The cell in which a coordinate lies; the order of coordinates is kept.
fn cell(coordinate: f64) -> i16 {
    (coordinate / CELL).floor().clamp(-FURTHEST, FURTHEST) as i16
}

/// Spreads the two numbers of a cell: nobody picks the cells to make them meet, so no strong hash is needed, and a drawing that
/// follows the hand looks up thousands.
#[derive(Clone, Copy, Debug, Default)]
struct Spread(u64);

impl Hasher for Spread {
    fn write(&mut self, bytes: &[u8]) {
        bytes.iter().for_each(|&byte| self.write_u64(u64::from(byte)));
    }

    fn write_i16(&mut self, number: i16) {
        self.write_u64(u64::from(number.cast_unsigned()));
    }

    fn write_u64(&mut self, number: u64) {
        // Fibonacci hashing: the golden ratio as a fraction of 2⁶⁴ (Knuth, The Art of Computer Programming, vol. 3, 6.4).
        self.0 = (self.0.rotate_left(16) ^ number).wrapping_mul(0x9E37_79B9_7F4A_7C15);
    }

    fn finish(&self) -> u64 {
        // The table takes the lowest bits, and multiplying spreads upwards.
        self.0.rotate_left(26)
    }
}

/// Things with a box, found by place.
#[derive(Clone, Debug)]
pub struct Raster<T> {
    cells: HashMap<(i16, i16), Vec<T>, BuildHasherDefault<Spread>>,
    /// First and last row in use.
    rows: (i16, i16),
}

impl<T> Default for Raster<T> {
    fn default() -> Self {
        Self { cells: HashMap::default(), rows: (i16::MAX, i16::MIN) }
    }
}

impl<T: Copy> Raster<T> {
    /// Adds a thing that stands within this box.
    pub fn add(&mut self, thing: T, rect: Rect) {
        let (top, bottom) = (cell(rect.top), cell(rect.bottom));
        self.rows = (self.rows.0.min(top), self.rows.1.max(bottom));
        for row in top..=bottom {
            for column in cell(rect.left)..=cell(rect.right) {
                self.cells.entry((row, column)).or_default().push(thing);
            }
        }
    }

    /// The things that may stand in a box, some more than once.
    pub fn near(&self, rect: Rect) -> impl Iterator<Item = T> + '_ {
        let rows = cell(rect.top).max(self.rows.0)..=cell(rect.bottom).min(self.rows.1);
        let columns = cell(rect.left)..=cell(rect.right);
        rows.flat_map(move |row| columns.clone().map(move |column| (row, column)))
            .filter_map(|place| self.cells.get(&place))
            .flatten()
            .copied()
    }
}

impl Raster<(Point, Point)> {
    /// Adds a line; a long slanting one stands only in the cells along it.
    pub fn add_line(&mut self, from: Point, to: Point) {
        let steps = (from.distance(to) / (4.0 * CELL)).ceil().clamp(1.0, 64.0);
        let mut before = from;
        let mut step = 1.0;
        while step <= steps {
            let after = from.towards(to, step / steps);
            self.add((from, to), Rect::between(before, after).grown(0.01));
            before = after;
            step += 1.0;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_stands_in_a_box_is_found_however_far_out() {
        let mut raster = Raster::default();
        for place in [-1.0e9, -50.0, 0.0, 23.9, 24.0, 700.0, 1.0e9] {
            let at = Point::new(place, -place);
            raster.add(place, Rect::between(at, at));
            assert!(raster.near(Rect::between(at, at).grown(1.0)).any(|found| found == place));
        }
        let (from, to) = (Point::new(-300.0, 10.0), Point::new(900.0, 470.0));
        let mut lines = Raster::default();
        lines.add_line(from, to);
        for part in [0.0, 0.1, 0.37, 0.5, 0.99, 1.0] {
            let at = from.towards(to, part);
            assert!(lines.near(Rect::between(at, at).grown(1.0)).next().is_some(), "{part}");
        }
    }
}
