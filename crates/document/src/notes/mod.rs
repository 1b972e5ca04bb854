//! The lecture notes: from the beam to the shear stress on the cut, in the order of the lecture.

mod author;
mod beam;
mod cut;
mod derivation;
mod drawings;
mod joints;
mod limits;
mod questions;
mod section;
mod shear;
mod solution;

use crate::tree::{Document, Paper};
use author::Author;
use lesson::Lesson;
use workings::solved::Solved;

pub use drawings::Drawings;

/// A line of words, values and symbols.
macro_rules! line {
    ($($part:expr),* $(,)?) => { vec![$($crate::tree::Inline::from($part)),*] };
}
pub(crate) use line;

/// The lecture notes of a lesson.
///
/// Every number in them is a working of the lesson or a value of its exact solution; nothing is computed here.
pub fn notes(lesson: &Lesson, solved: &Solved, paper: Paper) -> Document {
    let drawings = Drawings::of(solved);
    let mut author = Author::new(lesson, solved, drawings);
    author.beam();
    author.reactions();
    author.diagrams();
    author.section();
    author.planks();
    author.slice();
    author.bending();
    author.cut();
    author.derivation();
    author.shear();
    author.joints();
    author.questions(lesson);
    author.solution();
    author.limits();
    document(lesson, solved, paper, "Lecture notes", author.blocks)
}

/// What notes and slides have in common.
pub(crate) fn document(
    lesson: &Lesson,
    solved: &Solved,
    paper: Paper,
    kind: &str,
    body: Vec<crate::tree::Block>,
) -> Document {
    let about = &lesson.about;
    Document {
        title: about.title.clone(),
        kind: kind.to_owned(),
        course: about.course.clone().unwrap_or_default(),
        author: about.lecturer.clone().unwrap_or_default(),
        lead: about.teaches.as_deref().map(crate::markdown::line).unwrap_or_default(),
        language: about.language.clone(),
        paper,
        identity: format!("{kind}: {} ({paper:?})", about.title),
        style: solved.style().clone(),
        body,
    }
}
