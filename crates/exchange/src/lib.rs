//! What goes to other programs and comes from them: class lists and marks as CSV, questions as QTI packages.
//!
//! [`roster`] reads a class list, [`answers`] reads what students answered, [`marks`] puts marks into tables, [`table`] writes
//! tables that a spreadsheet can open without harm. Reading stands on [`sheet`], which takes whatever a spreadsheet has saved.
//! [`qti`] packs questions for learning platforms.
//!
//! This crate never computes a value and never marks an answer; it opens no file: bytes come in and bytes go out.

pub mod answers;
pub mod fault;
pub mod marks;
#[cfg(feature = "packages")]
pub mod qti;
pub mod roster;
pub mod sheet;
pub mod table;

mod encoding;
mod formula_guard;
mod quoting;
