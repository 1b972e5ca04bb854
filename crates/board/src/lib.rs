//! The live board: a lesson as one long sheet that answers when something in it is moved.
//!
//! The state of a board is the text of its lesson file and nothing else. To move the cut is to give one value of that
//! text another wording ([`board`]); the text is read, solved and drawn anew by the same crates as everywhere, and what
//! differs from before goes to the page ([`difference`], [`blocks`]). So undo is an older text, saving is the text, and a board can
//! show nothing that the command would not.
//!
//! [`sheet`] says what stands on the sheet and in which order, [`page`] makes the file that a browser opens, [`door`] is
//! what the browser calls. The page's own script, under `ui`, moves elements and listens to the hand; it computes nothing
//! of the lesson.
//!
//! This crate never computes a stress and never opens a file.

pub mod blocks;
pub mod board;
pub mod difference;
mod door;
pub mod fields;
pub mod handle;
mod letters;
pub mod page;
pub mod practice;
pub mod prospect;
pub mod results;
mod section_keys;
pub mod seen;
pub mod sheet;
mod stop_words;
mod truth;
