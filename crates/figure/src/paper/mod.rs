//! Drawings of a paper: the section as the lesson gives it, and axes on which a student draws.
//!
//! None of them shows or tells what follows from the given: no reaction, no curve, no neutral axis, no part beyond the cut.
//! The beam as it is given is [`crate::beam::given`].

mod axes;
mod section;
mod section_words;

pub use axes::{along_the_beam, over_the_depth};
pub use section::{outline, section};

/// How far a student's drawing may reach from its axis, px: enough for a hand, and the same whatever the values.
const REACH: f64 = 80.0;
