//! Whether the numbers of a paper are fair: what one asked value of it is judged by, what must be equal on every paper of a
//! class, and why a paper may not be given out.
//!
//! Three conditions make numbers that teach: they come out round ([`crate::tune`] searches for that), a student who rounds
//! on the way is not marked wrong for it, and no usual mistake hides behind the right answer. This module measures the
//! last two and holds papers side by side.
//!
//! - [`Judge`] gives a [`Judgement`] of an asked value: how far an answer may be off, the band that rounding on the way
//!   carries it through ([`Judgement::carried`]), how strongly it answers to its inputs, and the mistakes that cannot be told
//!   from it or from one another.
//! - [`Path`] is what must be equal on every paper of a class, and tells in which feature two papers differ.
//! - [`verdict`] says whether a paper may be given out, with every [`Reason`] against it.
//! - [`ClassTable`] sets the papers side by side, and finds those of which one has the right answer of another.
//!
//! Source of the rules: the unit's notes on assessment, sections 3 and 4: bands instead of rules of rounding, the absolute
//! method of ASTM E29 (values are compared unrounded; from memory of the standard).

mod carried;
mod class;
mod condition;
mod course;
pub(crate) mod figures;
mod judge;
pub(crate) mod kind;
pub(crate) mod mistakes;
mod path;
mod slips;
mod verdict;
mod world;

pub use carried::Carried;
pub use class::{
    ClassTable, Extent, Hides, OtherWay, PairAlike, Paper, Row, SamePair, SharedAnswer, VariantRow,
    hidden_on_all, pairs_alike,
};
pub use course::Course;
pub use judge::{Judge, Judgement, NotAsked, judge, rounded};
pub use mistakes::{Alike, Hidden, Wrong};
pub use path::{Feature, Path};
pub use slips::{Meets, Slips, Taken};
pub use verdict::{Class, Conditions, MOST_CONDITION, Reason, Verdict, verdict};
