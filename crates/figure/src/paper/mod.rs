//! Drawings of a paper: the beam and the section as the lesson gives them, and axes on which a student draws.
//!
//! None of them shows or tells what follows from the given: no reaction, no curve, no neutral axis, no part beyond the cut.

mod axes;
mod beam;
mod section;
mod section_words;

pub use axes::{along_the_beam, over_the_depth};
pub use beam::{beam, signs};
pub use section::{outline, section};

use crate::scale::Sheet;

/// How large the letters of a drawing are beside the drawing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Letters {
    /// As in books.
    #[default]
    Usual,
    /// For large print: of 18 points, none smaller, where the drawing is enlarged to the width of the text.
    Large,
}

impl Letters {
    /// The sheet on which drawings with such letters are made.
    pub fn sheet(self) -> Sheet {
        match self {
            Letters::Usual => Sheet::USUAL,
            Letters::Large => Sheet::LARGE_PRINT,
        }
    }

    /// One of two measures.
    fn either(self, usual: f64, large: f64) -> f64 {
        match self {
            Letters::Usual => usual,
            Letters::Large => large,
        }
    }

    /// How far a student's drawing may reach from its axis, px: enough for a hand, and the same whatever the values.
    fn reach(self) -> f64 {
        self.either(80.0, 62.0)
    }

    /// The room of a section that stands alone, px across and down.
    fn room(self) -> (f64, f64) {
        (self.either(200.0, 130.0), self.either(220.0, 190.0))
    }
}
