//! What goes to other programs and comes from them: class lists and marks as CSV, questions as QTI packages.
//!
//! [`roster`] reads a class list, [`table`] writes tables that a spreadsheet can open without harm. Both stand on
//! [`sheet`], which reads whatever a spreadsheet has saved. [`qti`] packs questions for learning platforms.
//!
//! This crate never computes a value and never marks an answer; it opens no file: bytes come in and bytes go out.

pub mod fault;
pub mod qti;
pub mod roster;
pub mod sheet;
pub mod table;

mod encoding;
mod formula_guard;
mod quoting;
