//! What the lesson asks, for practice: the answers stand in the worked solution.

use super::author::Author;
use super::line;
use crate::tree::{Block, Inline};
use crate::wording::worded;
use lesson::Lesson;

impl Author<'_> {
    pub(crate) fn questions(&mut self, lesson: &Lesson) {
        if lesson.questions.is_empty() {
            return;
        }
        self.chapter("Questions for practice");
        self.say(line!["Work them out before you turn to the worked solution, which answers them all."]);
        let items = lesson.questions.iter().map(|question| {
            let mut blocks = worded(question, lesson, self.solved);
            let marks = question.all_marks();
            let noun = if marks == 1.0 { "mark" } else { "marks" };
            blocks.push(Block::Paragraph(vec![Inline::Emphasis(line![format!("{marks} {noun}")])]));
            blocks
        });
        let items = items.collect();
        self.blocks.push(Block::List { ordered: true, items });
    }
}
