//! One tree of headings, text, equations, drawings and tables, printed as tagged PDF and as one HTML file.
//!
//! [`tree`] says what a document is. `pdf::pdf` prints it through the typesetter, [`html()`](html::html)
//! in our own way, with MathML and inline SVG. What stands in lecture notes and on projected pages is put together
//! from a solved lesson by [`notes`] and [`slides`], what stands on papers and their keys from a set paper by [`paper`],
//! what a student is told of a marked one by [`feedback`], and what its marks say of a class by [`review`](mod@review).
//!
//! Nothing that a lecturer writes is ever markup or code in either print: [`markdown`] reads it into the tree, and
//! each printer carries the words of the tree over as words.
//!
//! This crate never computes: numbers come from the workings, drawings from `figure`.

mod characters;
mod equation;
pub mod feedback;
pub mod html;
pub mod index;
mod levels;
pub mod markdown;
mod meant;
pub mod notes;
pub mod paper;
pub mod review;
pub mod slides;
mod symbols;
pub mod tree;
pub mod wording;
mod words;

#[cfg(feature = "pdf")]
pub mod pdf;

pub use equation::Room;

pub use words::described;
