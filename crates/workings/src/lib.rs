//! Quantities with units, the notation of a course, expressions, and the graph of workings.
//!
//! Every number that leaves the project is a [`working::Working`] of one graph: it knows its role (and so its
//! symbol), its formula, the workings that it reads, its value with its dimension, and one sentence. The worked
//! solution is the graph printed in order; a key is the graph evaluated; a mistake is the graph with one formula
//! replaced; follow-through is the graph with one value replaced.
//!
//! A formula holds roles, never letters: the notation of the course gives each role its symbol. A formula is an
//! [`expression::Expression`], printed as Typst, MathML, LaTeX and speech from the one tree.
//!
//! This crate never sees a file, a page or a colour.

pub mod algebra;
mod build;
pub mod derivation;
pub mod dimension;
pub mod elastic;
pub mod elsewhere;
pub mod engine;
pub mod evaluate;
pub mod expression;
pub mod further;
pub mod graph;
mod in_a_sentence;
pub mod material;
pub mod middle_lines;
pub mod mistake;
pub mod notation;
pub mod print;
pub mod problem;
pub mod quantity;
pub mod reading;
pub mod reservation;
pub mod role;
pub mod rounding;
pub mod shear_stiffness;
pub mod shown;
pub mod sideways;
pub mod solved;
pub mod style;
mod told_by_size;
pub mod unit;
pub mod unit_system;
pub mod value;
pub mod working;
