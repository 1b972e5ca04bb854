//! Spaces and draws, the search for fair papers, setting, marking and review, against numbers by hand and plain counting.

mod candidates;
mod class;
mod common;
mod draws;
mod fair;
mod mark;
mod mark_simulation;
mod practice;
mod review;
mod review_likeness;
mod review_marked;
mod rounding;
mod sections;
mod set;
mod simulated;
mod tune;
mod variants;
