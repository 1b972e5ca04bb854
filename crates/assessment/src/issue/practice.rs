//! Papers to practise with: drawn by a number that anybody may choose, on a page that anybody may read.
//!
//! Their secret is none and need not be: it is of another type than that of an exam and draws other papers, so who has it
//! knows nothing of any exam.

use super::look::{Read, read};
use crate::fair::mistakes::same;
use crate::fair::verdict;
use crate::secret::{PracticeSecret, draw};
use crate::set::SetPaper;
use crate::space::Space;
use lesson::papers::{Draw, Papers};
use std::fmt;
use workings::solved::Solved;

/// What draws every practice paper; it lies open on every page.
const OPEN: &[u8] = b"practice papers are drawn for everybody";

/// So many draws are looked at for one paper, and of those that could be set so many.
const DRAWS: u64 = 60;
const SET: usize = 4;

/// Why there is no paper to practise with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoPractice {
    /// The lesson asks nothing.
    NoQuestions,
    /// None of the draws that were looked at can be set; what spoke against the last of them.
    NothingFits(String),
}

impl fmt::Display for NoPractice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoQuestions => f.write_str("this lesson asks no questions"),
            Self::NothingFits(why) => write!(f, "no paper of this number can be made: {why}"),
        }
    }
}

impl std::error::Error for NoPractice {}

/// The practice paper of a number: the same whenever it is asked for. Of its draws the first is taken that meets what the
/// lesson requires and keeps mistakes apart; where none keeps them apart, the first that meets what is required. The numbers
/// of the lesson itself stand worked in the notes and on the sheet: they are given only where there are no others.
///
/// # Errors
/// See [`NoPractice`].
pub fn practice_paper(papers: &Papers, number: u32) -> Result<SetPaper, NoPractice> {
    let lesson = papers.lesson();
    if lesson.questions.is_empty() {
        return Err(NoPractice::NoQuestions);
    }
    let asked = super::asked(lesson);
    let space = Space::of(lesson);
    let attempts = if space.size().count == 1 { 1 } else { DRAWS };
    let worked = Solved::new(lesson.problem.clone(), lesson.style.clone()).ok();
    let is_worked = |solved: &Solved| worked.as_ref().is_some_and(|worked| is_same(worked, solved));
    let (mut second_best, mut own) = (Vec::new(), None);
    let mut against = "nothing is left to choose from".to_owned();
    for attempt in 0..attempts {
        let Some(drawn) = practice_draw(papers, number, attempt, &space) else { break };
        let Read { looked, sound } = read(papers, &asked, &drawn);
        let (Some(paper), Some((lesson, solved))) = (looked.paper, sound) else {
            against = looked.against.first().map(ToString::to_string).unwrap_or_default();
            continue;
        };
        let own_numbers = is_worked(&solved);
        let is_fair = verdict(&paper.judgements, &paper.path, None).reasons.is_empty();
        match SetPaper::judged(lesson, solved, &paper.judgements) {
            Ok(set) if own_numbers => own = Some(set),
            Ok(set) if is_fair => return Ok(set),
            Ok(set) => second_best.push(set),
            Err(faults) => against = faults.first().map(ToString::to_string).unwrap_or_default(),
        }
        if second_best.len() == SET {
            break;
        }
    }
    second_best.into_iter().next().or(own).ok_or(NoPractice::NothingFits(against))
}

/// Whether two lessons say and lead to the same numbers.
fn is_same(one: &Solved, other: &Solved) -> bool {
    let (one, other) = (one.workings().values(), other.workings().values());
    one.len() == other.len() && one.iter().zip(other).all(|(one, other)| same(*one, *other))
}

/// A draw of the practice paper of a number; the first attempt is 0. `None` where the space is empty.
pub(super) fn practice_draw(papers: &Papers, number: u32, attempt: u64, space: &Space) -> Option<Draw> {
    let secret = PracticeSecret::new(OPEN).ok()?;
    draw(&secret, &papers.lesson().about.title, &number.to_string(), attempt, space)
}
