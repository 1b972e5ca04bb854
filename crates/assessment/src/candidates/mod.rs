//! Chosen results of draw after draw, many times faster than reading and solving each of them.
//!
//! Most draws of a lesson are computed alike: the same formulas in the same order, with other numbers. So the lesson is
//! read with a few draws to see which given quantities depend on which of the things that vary (`frame`); what a thing's
//! choices make of them is tabulated; and a graph that was built for one draw is evaluated for another where it can be
//! shown that the other's own graph would be the same (`guard`). Where it cannot, the draw is read and solved, and its
//! graph kept for those that are like it.

mod frame;
mod guard;
mod inputs;
mod structure;
mod worker;

use crate::space::Space;
use frame::Frame;
use lesson::Choices;
use lesson::papers::{Draw, Papers};
use std::fmt;
use std::sync::OnceLock;
use workings::solved::Solved;

pub use worker::{Found, Worker};

/// A lesson whose draws are to be evaluated.
///
/// It may be shared between threads; each takes a [`Worker`] of its own.
///
/// ```
/// use assessment::candidates::Candidates;
/// use lesson::papers::{Draw, Papers};
///
/// let conveyor = lesson::builtin::find("conveyor").expect("a lesson of ours").text;
/// let papers = Papers::read(conveyor, "conveyor.toml").expect("a sound lesson");
/// let candidates = Candidates::new(papers, &["reaction at A"])?;
/// let mut worker = candidates.worker();
/// let draw = Draw { choices: vec![4, 10, 0] }; // the fifth load, the eleventh length, upright
/// let found = worker.evaluate(&draw).expect("a sound draw");
/// // Two equal spans of 4 m under 8 kN/m: 3/8 of the load of one span.
/// assert!((found.values[0] - 12e3).abs() < 1e-6);
/// # Ok::<(), assessment::candidates::UnknownResult>(())
/// ```
#[derive(Debug)]
pub struct Candidates {
    papers: Papers,
    space: Space,
    wanted: Vec<String>,
    /// Which of the things that vary are variants.
    variants: Vec<usize>,
    /// What is alike in all draws with the same variants, by the number of the variants' own draw.
    frames: Vec<OnceLock<Option<Frame>>>,
}

/// A result that the lesson does not have.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnknownResult(pub String);

impl fmt::Display for UnknownResult {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the lesson has no working called {:?}; `glueline values` lists what there is", self.0)
    }
}

impl std::error::Error for UnknownResult {}

/// The most combinations of variants whose graphs are kept; the draws of others are read one by one.
const MOST_FRAMES: usize = 256;

impl Candidates {
    /// The results of these names, for every draw of a lesson.
    ///
    /// # Errors
    /// If the lesson, as its file shows it, has no working of a name.
    pub fn new(papers: Papers, wanted: &[&str]) -> Result<Self, UnknownResult> {
        let lesson = papers.lesson();
        let solved = Solved::new(lesson.problem.clone(), lesson.style.clone()).ok();
        for name in wanted {
            if solved.as_ref().is_none_or(|solved| solved.workings().get(name).is_none()) {
                return Err(UnknownResult((*name).to_owned()));
            }
        }
        let varies = lesson.vary.iter().enumerate();
        let variants: Vec<usize> = varies
            .filter(|(_, variation)| matches!(variation.choices, Choices::Variants(_)))
            .map(|(axis, _)| axis)
            .collect();
        let space = Space::of(lesson);
        let kinds = Space::new(variants.iter().map(|&axis| space.counts()[axis]).collect()).size();
        let frames = usize::try_from(kinds.count).unwrap_or(usize::MAX).min(MOST_FRAMES);
        Ok(Self {
            wanted: wanted.iter().map(|name| (*name).to_owned()).collect(),
            frames: (0..frames).map(|_| OnceLock::new()).collect(),
            papers,
            space,
            variants,
        })
    }

    /// The lesson.
    pub fn papers(&self) -> &Papers {
        &self.papers
    }

    /// The space of all draws.
    pub fn space(&self) -> &Space {
        &self.space
    }

    /// The names of the results, in the order of [`Found::values`].
    pub fn wanted(&self) -> &[String] {
        &self.wanted
    }

    /// Evaluates draws, for one thread.
    pub fn worker(&self) -> Worker<'_> {
        Worker::new(self)
    }

    /// How many draws must be read at most before all that are computed alike can be evaluated without it; of a lesson whose
    /// draws must each be read, the number of them all. A first look, taken on the lesson as its file shows it.
    pub fn tables(&self) -> u128 {
        let Some(draw) = self.space.draw(0) else { return 0 };
        match self.frame(&draw) {
            Some((_, frame)) => frame.cells_in_all() as u128 * self.frames.len() as u128,
            None => self.space.size().count,
        }
    }

    /// A draw read and solved: the long way. `None` where it is no sound lesson.
    pub fn solved(&self, draw: &Draw) -> Option<Solved> {
        self.papers.reading(draw).ok()?.solved
    }

    /// The frame of a draw of the space; `None` where there is none, and its draws must be read.
    fn frame(&self, draw: &Draw) -> Option<(usize, &Frame)> {
        let mut number = 0_usize;
        for &axis in &self.variants {
            let count = *self.space.counts().get(axis)?;
            number = number.checked_mul(count)?.checked_add(*draw.choices.get(axis)?)?;
        }
        let frame = self.frames.get(number)?.get_or_init(|| Frame::new(self, draw));
        Some((number, frame.as_ref()?))
    }
}
