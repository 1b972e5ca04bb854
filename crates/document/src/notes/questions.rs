//! What the lesson asks, for practice: the answers stand in the worked solution.

use super::author::Author;
use super::line;
use crate::paper::alternatives_in_words;
use crate::tree::{Block, Inline};
use crate::wording::worded;
use assessment::set::{self, SetPaper};
use lesson::question::Ask;
use lesson::{Lesson, Question};

impl Author<'_> {
    pub(crate) fn questions(&mut self, lesson: &Lesson) {
        if lesson.questions.is_empty() {
            return;
        }
        self.chapter("Questions for practice");
        self.say(line!["Work them out before you turn to the worked solution, which answers them all."]);
        // To set a paper takes a while, and only choices need it.
        let chooses = lesson.questions.iter().any(has_choice);
        let set = chooses.then(|| SetPaper::new(lesson.clone(), self.solved.clone())).and_then(Result::ok);
        let items = lesson.questions.iter().enumerate().map(|(place, question)| {
            let choices = set.as_ref().and_then(|set| self.choices(set, place));
            let mut blocks = match choices {
                // Where there is nothing to choose from, the value is to be found.
                None if has_choice(question) => worded(&without_choice(question), lesson, self.solved),
                _ => worded(question, lesson, self.solved),
            };
            blocks.extend(choices);
            let marks = question.all_marks();
            let noun = if marks == 1.0 { "mark" } else { "marks" };
            blocks.push(Block::Paragraph(vec![Inline::Emphasis(line![format!("{marks} {noun}")])]));
            blocks
        });
        let items = items.collect();
        self.blocks.push(Block::List { ordered: true, items });
    }

    /// What there is to choose from in the question at a place, in one line; none where the value is to be found.
    fn choices(&self, set: &SetPaper, place: usize) -> Option<Block> {
        let parts = &set.questions.get(place)?.parts;
        let choice = parts.iter().find_map(|part| match &part.ask {
            set::Ask::Choice(choice) => Some(choice),
            _ => None,
        })?;
        let mut words = Vec::new();
        for alternative in alternatives_in_words(choice, self.solved) {
            if !words.is_empty() {
                words.push("\u{2003} ".into());
            }
            words.extend(alternative);
        }
        Some(Block::Paragraph(words))
    }
}

fn has_choice(question: &Question) -> bool {
    matches!(&question.ask, Ask::Value(value) if value.choose.is_some())
}

/// The same question, with nothing to choose from.
fn without_choice(question: &Question) -> Question {
    let mut question = question.clone();
    if let Ask::Value(value) = &mut question.ask {
        value.choose = None;
    }
    question
}
