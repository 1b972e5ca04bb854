//! What varies from paper to paper: the space of all choices, draws from it by a secret, the ledger of who got which
//! paper, and the evaluation of a million candidates.
//!
//! - [`space::Space`] counts the choices of a lesson and numbers its draws.
//! - [`secret`] draws for a student, the same again whenever and in whatever order it is asked; practice and exam have
//!   secrets of two types, so that neither can stand for the other.
//! - [`ledger::Ledger`] keeps who got what: a student who comes later changes no paper of those before, and no two
//!   students share all their numbers while the space allows it.
//! - [`number::PaperNumber`] is what stands on a paper in the place of the student's name.
//! - [`candidates::Candidates`] evaluates chosen results of draw after draw, many times faster than reading and solving
//!   each of them.
//! - [`fair`] judges the numbers of a paper and holds the papers of a class side by side.
//! - [`set`] is what a paper asks and what is right, with the mistakes that are known by their values.
//! - [`issue`] gives the papers of a class, each looked at before it is given.
//! - [`mark`] judges answers against the student's own paper: right, by follow-through, which mistake, or unknown.
//! - [`review`] reckons what a class's marks say: item figures, mistakes, forms side by side, likeness.
//! - [`tune`] searches among all draws for numbers that come out round and are fair.
//!
//! This crate never opens a file, never draws a figure, and never sets a paragraph: the command does.

pub mod candidates;
mod chance;
pub mod cores;
pub mod fair;
pub mod issue;
pub mod ledger;
pub mod mark;
pub mod number;
pub mod review;
pub mod secret;
pub mod set;
pub mod space;
pub mod tune;
