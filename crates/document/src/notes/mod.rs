//! The lecture notes: from the beam to the shear stress on the cut, in the order of the lecture.

mod allowables;
mod author;
mod beam;
mod cut;
mod derivation;
mod drawings;
mod elastic;
mod further_cuts;
mod joint_names;
mod joints;
mod limits;
mod point;
mod questions;
mod section;
mod shear;
mod skew;
mod solution;
mod transformed;
mod walls;
mod zones;

use crate::symbols::Symbols;
use crate::tree::{Block, Document, Inline, Paper, Print};
pub(crate) use author::{Author, alternatives, listed};
pub(crate) use beam::hinges_in_words;
use lesson::Lesson;
use workings::elastic::{ElasticTruth, NoTruth};
use workings::expression::Expression;
use workings::solved::Solved;
use workings::style::Style;
use workings::working::Working;

pub use derivation::derivation_step;
pub use drawings::Drawings;
pub use point::words_before;
pub(crate) use zones::titled;

/// A line of words, values and symbols.
macro_rules! line {
    ($($part:expr),* $(,)?) => { vec![$($crate::tree::Inline::from($part)),*] };
}
pub(crate) use line;

/// The lecture notes of a lesson.
///
/// Every number in them is a working of the lesson or a value of its exact solution; nothing is computed here.
pub fn notes(lesson: &Lesson, solved: &Solved, paper: Paper) -> Document {
    let truth = ElasticTruth::of(solved);
    let drawing = truth.as_ref().ok().and_then(|truth| figure::elastic::elastic(solved, truth));
    let drawings = Drawings::of(solved).and(drawing).and(figure::carrying::carrying(solved));
    let mut author = Author::new(lesson, solved, drawings);
    author.beam();
    author.reactions();
    author.diagrams(truth.as_ref().ok());
    author.section();
    author.transformed();
    author.planks();
    author.slice();
    author.bending();
    author.cut();
    author.derivation();
    author.shear();
    author.further_cuts();
    // The walls of a section that bends askew need what bending askew found.
    author.skew();
    author.walls();
    author.point();
    author.joints();
    author.allowables(truth.as_ref().ok());
    author.questions(lesson);
    author.solution();
    author.limits(Some(&truth));
    document(lesson, solved, paper, "Lecture notes", author.blocks)
}

/// What the joints must carry, as it stands in the notes, without its heading and drawings; nothing where there are none.
pub fn joints(lesson: &Lesson, solved: &Solved) -> Vec<Block> {
    let mut author = Author::new(lesson, solved, Drawings::default());
    author.joints();
    without_headings(author.blocks)
}

/// What the formula leaves out, as it stands in the notes, without its heading and without the elastic solution, for which a
/// board has no time while something is dragged.
pub fn limits(lesson: &Lesson, solved: &Solved) -> Vec<Block> {
    let mut author = Author::new(lesson, solved, Drawings::default());
    author.limits(None);
    without_headings(author.blocks)
}

/// How far the formula is from the truth, as it stands in the notes beside its drawing, without its heading.
pub fn elastic(lesson: &Lesson, solved: &Solved, truth: &Result<ElasticTruth, NoTruth>) -> Vec<Block> {
    let mut author = Author::new(lesson, solved, Drawings::default());
    author.elastic(truth);
    without_headings(author.blocks)
}

/// A working in words, before its equation: its symbol, what it is called, and why it is as it is.
pub fn said_of(working: &Working, style: &Style) -> Block {
    let name = format!(", {}. ", working.name);
    let sentence = style.notation.in_its_words(&working.sentence);
    Block::Paragraph(line![Inline::Math(Expression::Symbol(working.symbol.clone())), name, sentence])
}

fn without_headings(blocks: Vec<Block>) -> Vec<Block> {
    blocks.into_iter().filter(|block| !matches!(block, Block::Heading { .. } | Block::PageBreak)).collect()
}

/// What notes and slides have in common.
pub(crate) fn document(
    lesson: &Lesson,
    solved: &Solved,
    paper: Paper,
    kind: &str,
    mut body: Vec<Block>,
) -> Document {
    let about = &lesson.about;
    Symbols::of(solved).set(&mut body);
    Document {
        title: about.title.clone(),
        kind: kind.to_owned(),
        course: about.course.clone().unwrap_or_default(),
        author: about.lecturer.clone().unwrap_or_default(),
        lead: about.teaches.as_deref().map(crate::markdown::line).unwrap_or_default(),
        language: about.language.clone(),
        paper,
        print: Print::Usual,
        running: Vec::new(),
        identity: format!("{kind}: {} ({paper:?})", about.title),
        style: solved.style().clone(),
        body,
    }
}
