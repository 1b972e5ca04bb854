//! Judging a student's answers against that student's own paper.
//!
//! - [`Marker`] is made once for a paper and judges sheet after sheet of it: right within the bands of the paper, else right by
//!   follow-through from the student's own values, else explained by a mistake, a slip, or early rounding, else unknown.
//! - [`Answer`] is what it is given, [`Marked`] what comes out: for each part a [`Verdict`] and the marks that it earns by the
//!   [`Shares`] of its question.
//! - [`Decision`] is what a person decides over a verdict.
//!
//! Follow-through is the graph with the student's own values put in, evaluated again; a mistake made on top of them is the same
//! with one formula replaced. Source of the rules: the unit's notes on assessment, section 5. An error costs once: what follows
//! from it later is right, unless the value is impossible or makes the rest trivial.
//!
//! ```
//! use assessment::mark::{Answer, Marker, Verdict, Written};
//! use assessment::set::SetPaper;
//!
//! let text = lesson::builtin::find("conveyor").expect("a lesson of ours").text;
//! let reading = lesson::read(text, "conveyor.toml");
//! let (lesson, solved) = reading.lesson.zip(reading.solved).expect("a sound lesson");
//! let paper = SetPaper::new(lesson, solved).expect("all of its questions can be set");
//! let mut marker = Marker::new(&paper).expect("its formulas can be evaluated");
//! let kilonewtons = |number: f64| Answer::Value(Written::new(number * 1e3, Some(50.0)).expect("a number"));
//! let marked = marker.mark(&[("1", kilonewtons(-12.0))]).expect("there is a part 1");
//! assert_eq!(marked.parts[0].verdict.word(), "slip"); // 12 kN upwards is right
//! assert_eq!(marked.parts[1].verdict, Verdict::Blank);
//! ```

mod answer;
mod asked;
mod between;
mod decision;
mod desk;
mod explain;
mod judge;
mod marked;
mod marker;
mod shares;
mod sheet;
mod verdict;

pub use answer::{Answer, Written};
pub use decision::{Decision, DecisionFault};
pub use lesson::marking::Shares;
pub use marked::{Judged, MarkFault, Marked};
pub use marker::{Marker, Units};
pub use verdict::{Cause, Explanation, Made, Slipped, Through, UnitFault, Verdict};
