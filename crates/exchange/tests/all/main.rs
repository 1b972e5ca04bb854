//! What other programs give and take: class lists, answers and marks as CSV, packages of questions.

mod answers;
mod common;
mod package;
mod passage;
mod questions;
mod roster;
mod schemas;
mod table;
