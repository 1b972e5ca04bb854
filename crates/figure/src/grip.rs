//! What of a drawing can be dragged: the given value that a grip stands for, and how far a px carries it.
//!
//! A grip is a mark that is not drawn: it moves with the marks around it when a drawing is fitted to its sheet, takes
//! no room, and nothing of it stands in the SVG. [`Drawing::grips`](crate::drawing::Drawing::grips) lists them.
//!
//! A grip knows the value as it counts, in SI, not how the lesson writes it: where one given value serves several
//! places (a load stated from another value, a part of a rolled profile), only the lesson can tell that it cannot be
//! set there alone.

use crate::drawing::Mark;
use crate::geometry::Point;

/// Which side of a rectangular part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PartSide {
    /// Its level side.
    Width,
    /// Its upright side.
    Height,
}

/// The given value that a grip stands for; indices count in the problem's loads, supports and parts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Subject {
    /// The station of the slice's left face, m: `slice.at`.
    Station,
    /// The length of the slice, m: `slice.length`.
    SliceLength,
    /// The height of the cut, m: `cut.height`, in the section's own coordinates, those of its parts' outlines.
    Cut,
    /// The station of a point force or a couple, m.
    LoadPlace(usize),
    /// The size of a point force (N, positive down) or of a couple (N m, positive counter-clockwise), or the
    /// intensity of a spread load where it begins (N/m, positive down).
    LoadSize(usize),
    /// The intensity of a spread load where it ends, N/m, positive down. A load that is the same all over has its
    /// grip here too.
    LoadEndSize(usize),
    /// The station where a spread load begins, m.
    LoadFrom(usize),
    /// The station where a spread load ends, m.
    LoadTo(usize),
    /// The station of a support, m.
    SupportPlace(usize),
    /// A side of a part that is a rectangle, m.
    PartSize {
        /// The part.
        part: usize,
        /// Which of its sides.
        which: PartSide,
    },
}

/// The way in which a grip moves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Axis {
    /// To the right and left: a motion counts in px to the right.
    Along,
    /// Up and down: a motion counts in px upwards.
    Up,
}

/// A value at which a dragged grip comes to rest.
#[derive(Clone, Debug, PartialEq)]
pub struct Snap {
    /// The value, SI.
    pub value: f64,
    /// What is there, in words: `support A`, `glue line 1`.
    pub name: String,
}

/// A place of a drawing that can be dragged.
#[derive(Clone, Debug, PartialEq)]
pub struct Grip {
    /// What it changes.
    pub subject: Subject,
    /// Where it is, px.
    pub at: Point,
    /// Which way it moves.
    pub axis: Axis,
    /// The value now, SI, with the sign of its subject.
    pub value: f64,
    /// How much the value changes with each px of motion along the axis, SI, with its sign; never zero. It holds for
    /// the scale of the drawing as it is: a drawing made anew may have another.
    pub per_px: f64,
    /// The lowest value that makes sense, SI; at most `value`.
    pub low: f64,
    /// The highest value that makes sense, SI; at least `value`.
    pub high: f64,
    /// Where it comes to rest, all within `low ..= high`, rising.
    pub snaps: Vec<Snap>,
}

impl Grip {
    /// A grip without snaps; the range is widened where the value lies off it.
    pub(crate) fn new(
        subject: Subject,
        at: Point,
        axis: Axis,
        value: f64,
        per_px: f64,
        range: (f64, f64),
    ) -> Self {
        let (low, high) = (range.0.min(value), range.1.max(value));
        Self { subject, at, axis, value, per_px, low, high, snaps: Vec::new() }
    }

    /// The grip with those of these snaps that lie in its range. Of several at one value, nearer than `same`, the
    /// first counts.
    pub(crate) fn snapping(mut self, snaps: Vec<Snap>, same: f64) -> Self {
        for snap in snaps {
            let in_range = (self.low..=self.high).contains(&snap.value);
            if in_range && !self.snaps.iter().any(|other| (other.value - snap.value).abs() <= same) {
                self.snaps.push(snap);
            }
        }
        self.snaps.sort_by(|a, b| a.value.total_cmp(&b.value));
        self
    }

    /// The value after a motion of so many px along the axis, kept between `low` and `high`; SI.
    pub fn moved_by(&self, px: f64) -> f64 {
        (self.value + self.per_px * px).clamp(self.low, self.high)
    }
}

/// Grips as marks.
pub(crate) fn marks(grips: Vec<Grip>) -> impl Iterator<Item = Mark> {
    grips.into_iter().map(Mark::Grip)
}
