//! Places of labels that were found before.
//!
//! To look for free places is a third of what it takes to draw a crowded beam, and from one step of a drag to the next most of a
//! drawing stays as it is: a label before which nothing has changed is back where it was. What is kept changes no drawing, for a
//! place follows from what stands on the sheet and from the wish alone.

use crate::geometry::{Point, Rect};
use crate::label::Wish;
use crate::text::Align;
use std::cell::RefCell;
use std::collections::HashMap;
use std::hash::{DefaultHasher, Hasher};

/// So many places are kept: those of all drawings of a board, for a few steps.
const MOST: usize = 4096;

/// Where a label goes: baseline point, alignment, leader.
pub type Place = (Point, Align, Option<(Point, Point)>);

thread_local! {
    static FOUND: RefCell<HashMap<u64, Place>> = RefCell::default();
}

/// What was put on a sheet, in its order, as a hash of 64 bits.
#[derive(Clone, Debug, Default)]
pub struct Trail(DefaultHasher);

impl Trail {
    /// A box that is to be avoided.
    pub fn rect(&mut self, rect: Rect) {
        self.0.write_u8(0);
        self.numbers(&[rect.left, rect.top, rect.right, rect.bottom]);
    }

    /// A label in its place.
    pub fn label(&mut self, rect: Rect) {
        self.0.write_u8(1);
        self.numbers(&[rect.left, rect.top, rect.right, rect.bottom]);
    }

    /// A line that is to be avoided.
    pub fn line(&mut self, from: Point, to: Point) {
        self.0.write_u8(2);
        self.numbers(&[from.x, from.y, to.x, to.y]);
    }

    fn numbers(&mut self, numbers: &[f64]) {
        numbers.iter().for_each(|number| self.0.write_u64(number.to_bits()));
    }

    /// The place for a wish on the sheet as it is: as it was found before, or now.
    pub fn place(&self, wish: &Wish, find: impl FnOnce() -> Place) -> Place {
        let mut all = self.clone();
        let size = wish.label.rect(Point::new(0.0, 0.0), Align::Start, wish.size);
        all.rect(size);
        all.numbers(&[wish.at.x, wish.at.y, wish.gap, wish.size]);
        all.0.write_u8(wish.escape as u8);
        all.0.write_u8(wish.side.map_or(0, |side| 1 + side as u8));
        for &(point, seat) in &wish.spots {
            all.numbers(&[point.x, point.y]);
            all.0.write_u8(seat as u8);
        }
        let key = all.0.finish();
        if let Some(place) = FOUND.with_borrow(|found| found.get(&key).copied()) {
            return place;
        }
        let place = find();
        FOUND.with_borrow_mut(|found| {
            if found.len() >= MOST {
                found.clear();
            }
            found.insert(key, place);
        });
        place
    }
}
