//! The pieces of a paper that is answered on a page instead of on paper, each by itself.

use super::answers::answered;
use super::value_words::part_name;
use super::{marks, part_letter, question_label};
use crate::tree::Block;
use crate::wording::worded;
use assessment::set::{Part, SetPaper};
use figure::paper::Letters;

/// What a question is called, with its marks, and its wording; none where there is no question of that place, counted from 0.
pub fn question(set: &SetPaper, place: usize) -> Option<(String, Vec<Block>)> {
    let (asked, question) = (set.lesson.questions.get(place)?, set.questions.get(place)?);
    let title = format!("{}: {}", question_label(place + 1), marks(question.marks, set.solved.style()));
    Some((title, worded(asked, &set.lesson, &set.solved)))
}

/// What a part of several is called: `(b) shear force at the slice`; the name of what is asked for where it is the only one.
pub fn part_title(set: &SetPaper, part: &Part) -> String {
    let name = part_name(part, &set.solved);
    match part_letter(&part.label) {
        letter if letter.is_empty() => name,
        letter => format!("{letter} {name}"),
    }
}

/// Where a part is answered; without room to work in, which is not needed beside a screen.
pub fn place_to_answer(set: &SetPaper, part: &Part) -> Vec<Block> {
    let mut blocks = answered(part, &set.solved, Letters::Usual);
    blocks.retain(|block| !matches!(block, Block::Room(_)));
    blocks
}
