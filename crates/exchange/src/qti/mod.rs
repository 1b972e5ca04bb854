//! Questions as content packages of QTI, the open standard of questions and tests: version 2.1, or 3.0 on request.
//!
//! An [`Item`] is one question of one paper, put together by the caller from a solved lesson; a [`Package`] holds items and
//! becomes one zip file. The key is in it, as the standard wants it, and its name says so.
//!
//! What a package never does: compare with a relative tolerance, mask what a student types, or ask for a value in a unit
//! in which it is very small or very large. Players were seen to get each of these wrong.

mod body;
mod check;
mod element;
mod formula;
mod identifier;
mod item;
mod package;
mod passage;
mod processing;
mod questions;
mod through;
mod variables;

pub use element::Version;
pub use formula::Formula;
pub use identifier::Identifier;
pub use item::{Alternative, Answer, Bounds, Choice, FollowThrough, Item, Marks, Mistake, Picture, Value};
pub use package::{Archive, Package};
pub use passage::{Line, Passage};
pub use questions::{Given, Questions, left_out};
