//! What the lesson asks, for practice: the answers stand in the worked solution.

use super::author::Author;
use super::line;
use crate::tree::{Block, Inline};
use lesson::Lesson;

impl Author<'_> {
    pub(crate) fn questions(&mut self, lesson: &Lesson) {
        if lesson.questions.is_empty() {
            return;
        }
        self.chapter("Questions for practice");
        self.say(line!["Work them out before you turn to the worked solution, which answers them all."]);
        let items = lesson.questions.iter().map(|question| {
            let mut blocks = match &question.text {
                Some(words) => crate::markdown::blocks(words),
                None => {
                    let name = self.style.notation.in_its_words(&question.ask);
                    vec![Block::Paragraph(line![format!("Find the {name}.")])]
                }
            };
            let noun = if question.marks == 1.0 { "mark" } else { "marks" };
            blocks
                .push(Block::Paragraph(vec![Inline::Emphasis(line![format!("{} {noun}", question.marks)])]));
            blocks
        });
        let items = items.collect();
        self.blocks.push(Block::List { ordered: true, items });
    }
}
