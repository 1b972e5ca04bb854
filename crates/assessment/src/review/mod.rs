//! What a class's marks say of the class and of the test: item figures, mistakes, forms, likeness.
//!
//! - [`Review::of`] reckons the totals, the reliability and the figures of each item from a [`Matrix`] of marks.
//! - [`mistakes`] counts what led to wrong answers.
//! - [`variants`] holds the forms of an exam side by side.
//! - [`against`] holds the items against what differs from paper to paper.
//! - [`likeness`] finds wrong answers that belong to somebody else's numbers.
//! - [`matrix`], [`wrong_answers`] and [`values`] make what these need of a class that was marked.
//!
//! Plain data comes in and plain data goes out; nobody's name is needed. All variances are over N. In a class of fewer than
//! [`SMALL_CLASS`] students there are counts and intervals, and no figure that needs many. Source of the figures: the unit's notes on
//! assessment, section 6, which name the literature.
//!
//! ```
//! use assessment::review::{Entry, Item, Matrix, Review};
//!
//! let items = ["1a", "1b"].map(|label| Item { label: label.into(), out_of: 2.0 });
//! let rows = vec![vec![Entry::Earned(2.0), Entry::Earned(1.0)], vec![Entry::Earned(1.0), Entry::Blank]];
//! let review = Review::of(&Matrix::new(items.into(), rows).expect("a matrix"));
//! assert_eq!(review.items[0].facility, Some(0.75));
//! assert_eq!(review.items[1].blank, 1);
//! assert_eq!(review.reliability, None, "two students are no class");
//! ```

pub mod chance;
mod feature;
mod flag;
mod groups;
mod item;
mod likeness;
mod marked;
mod matrix;
mod mistakes;
mod reliability;
mod sums;
mod totals;
mod variant;

pub use feature::{FeatureFigures, against};
pub use flag::Flag;
pub use item::{Correlation, Discrimination, ItemFigures, SMALL_CLASS};
pub use likeness::{Belonging, CAUTION, GivenValue, Likeness, Likenesses, StudentValues, likeness};
pub use marked::{MarkedStudent, matrix, scene, values, wrong_answers};
pub use matrix::{Entry, Item, Matrix, MatrixFault};
pub use mistakes::{FirstMistake, MistakeFigures, Mistakes, PlaceFigures, WrongAnswer, mistakes};
pub use reliability::Reliability;
pub use sums::{Interval, fisher, wilson};
pub use totals::{Stretch, Totals};
pub use variant::{FormFigures, Variant, variants};

use serde::Serialize;

/// What a class's marks say.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Review {
    /// How many students there are.
    pub students: usize,
    /// Of how many all answers are marked: from these everything is reckoned that needs the total.
    pub complete: usize,
    /// Their totals; none where nobody's answers are all marked.
    pub totals: Option<Totals>,
    /// How far the totals can be relied on; none below [`SMALL_CLASS`].
    pub reliability: Option<Reliability>,
    /// The figures of each item, in their order.
    pub items: Vec<ItemFigures>,
}

impl Review {
    /// The review of a class.
    pub fn of(matrix: &Matrix) -> Self {
        let rows = matrix.complete();
        let large = rows.len() >= SMALL_CLASS;
        Self {
            students: matrix.students(),
            complete: rows.len(),
            totals: totals::totals(&rows, matrix.out_of()),
            reliability: if large { reliability::reliability(&rows) } else { None },
            items: item::figures(matrix),
        }
    }
}
