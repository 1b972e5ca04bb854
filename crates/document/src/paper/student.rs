//! The student's paper: the given, then each question with room to work and a place for its answer.

use super::answers::answered;
use super::value_words::part_name;
use super::{Form, PAPER, Who, facts, framed, given, marks, part_letter, question_label};
use crate::notes::line;
use crate::tree::{Block, Document, Question};
use crate::wording::worded;
use assessment::set::{SetPaper, SetQuestion};
use figure::paper::Letters;

/// The student's paper. It holds nothing of the key.
pub fn paper(set: &SetPaper, who: &Who, form: &Form) -> Document {
    let letters = form.letters();
    let mut body = vec![facts(set, who, form)];
    body.extend(given::given(set, letters));
    let questions = set.lesson.questions.iter().zip(&set.questions).enumerate();
    body.extend(questions.map(|(place, (asked, question))| {
        let wording = worded(asked, &set.lesson, &set.solved);
        asks(place + 1, wording, question, (set, letters))
    }));
    framed(set, who, form, PAPER, body)
}

fn asks(
    number: usize,
    wording: Vec<Block>,
    question: &SetQuestion,
    (set, letters): (&SetPaper, Letters),
) -> Block {
    let style = set.solved.style();
    let mut body = wording;
    match question.parts.as_slice() {
        [only] => body.extend(answered(only, &set.solved, letters)),
        several => body.extend(several.iter().map(|part| {
            Block::Question(Question {
                label: line![part_letter(&part.label), " ", part_name(part, &set.solved)],
                marks: marks(part.marks, style),
                is_part: true,
                body: answered(part, &set.solved, letters),
            })
        })),
    }
    let marks = marks(question.marks, style);
    Block::Question(Question { label: line![question_label(number)], marks, is_part: false, body })
}
