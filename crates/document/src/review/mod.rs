//! The review of a class: what to teach again, and what the marks say of the test.
//!
//! All figures are those of `assessment::review`; here they get their words. The first page is for who has five minutes; what the figures are,
//! how far they can be trusted and where they come from stands behind it. Nobody is named but in the list of answers that are like
//! those of another paper, by the student's id.

mod alike;
mod figures;
mod flagged;
mod items;
mod numbers;
mod summary;
mod teach;

use crate::notes::{document, line};
use crate::tree::{Block, Document, Inline, Paper};
use assessment::review::{Likenesses, Mistakes, Review};
use assessment::set::SetPaper;
use workings::style::Style;

/// A class that was marked.
#[derive(Clone, Copy, Debug)]
pub struct Class<'a> {
    /// One of its papers: for the words of the questions and the habits of the course. None of its numbers is shown.
    pub paper: &'a SetPaper,
    /// How many papers were given out.
    pub papers: usize,
    /// The figures of those who handed in something.
    pub figures: &'a Review,
    /// Their mistakes.
    pub mistakes: &'a Mistakes,
    /// Their answers beside the other papers.
    pub likenesses: &'a Likenesses,
    /// What persons had to do with it.
    pub by_hand: ByHand,
}

/// How many answers went through a person's hands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct ByHand {
    /// Answers that a person has read.
    pub read: usize,
    /// Answers that a person still has to read.
    pub to_read: usize,
    /// Answers that a person has marked.
    pub marked: usize,
    /// Answers that a person still has to mark, those to be read not counted.
    pub to_mark: usize,
}

/// What the document is called above its title.
const KIND: &str = "Review of the class";

impl Class<'_> {
    fn style(&self) -> &Style {
        self.paper.solved.style()
    }

    /// A part by its label: `3b shear stress on the cut`.
    fn item(&self, label: &str) -> String {
        let part = self.paper.parts().find(|part| part.label == label);
        let name = part.map(|part| crate::paper::value_words::part_name(part, &self.paper.solved));
        name.map_or_else(|| label.to_owned(), |name| format!("{label}\u{2002}{name}"))
    }
}

/// The review of a class on a sheet.
pub fn review(class: &Class<'_>, sheet: Paper) -> Document {
    let mut body = vec![summary::facts(class), summary::in_short(class)];
    body.extend(teach::again(class));
    body.extend(summary::how_the_marks_lie(class));
    body.extend(items::question_by_question(class));
    body.extend(items::that_do_not_work(class));
    body.extend(summary::reliability(class));
    body.extend(alike::alike(class));
    body.extend(by_hand(class));
    body.extend(figures::explained());
    let (lesson, solved) = (&class.paper.lesson, &class.paper.solved);
    Document {
        lead: Vec::new(),
        running: vec![KIND.to_owned(), lesson.about.title.clone()],
        ..document(lesson, solved, sheet, KIND, body)
    }
}

fn heading(words: &str) -> Block {
    Block::Heading { level: 1, text: line![words] }
}

fn by_hand(class: &Class<'_>) -> Vec<Block> {
    let ByHand { read, to_read, marked, to_mark } = class.by_hand;
    let answers = |count: usize| format!("{count} answer{}", if count == 1 { "" } else { "s" });
    let mut words: Vec<Inline> = line![format!(
        "A person has read {} that could not be read for certain, and marked {}. ",
        answers(read),
        answers(marked)
    )];
    words.push(
        if to_read + to_mark == 0 {
            "Nothing waits any more.".to_owned()
        } else {
            format!(
                "{} still to be read and {} still to be marked; the students of these are left out of every figure that needs the \
                 total.",
                answers(to_read),
                answers(to_mark)
            )
        }
        .into(),
    );
    vec![heading("What went through a person's hands"), Block::Paragraph(words)]
}
