//! One asked value of one paper.

use super::carried::{Carried, Rounder};
use super::condition::condition;
use super::course::Course;
use super::figures::Grid;
use super::kind;
use super::mistakes::{self, Alike, Hidden, Wrong};
use super::slips::{Right, Slips};
use super::world::World;
use crate::chance::Chance;
use crate::set::either_sign;
use serde::Serialize;
use std::collections::BTreeSet;
use std::fmt;
use workings::engine::Call;
use workings::evaluate::{EvaluationError, Prepared};
use workings::mistake::{self, Applied, Mistake, slip};
use workings::rounding::Figures;
use workings::solved::Solved;
use workings::working::{Formula, Id};

/// What an asked value of a paper is judged by. All lengths of bands are half-widths, SI, not negative.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Judgement {
    /// The name of the asked working.
    pub working: String,
    /// Its right value, SI.
    pub right: f64,
    /// How far an answer may be off and still be right: the largest of `tolerance` and the band of `carried`.
    pub half_width: f64,
    /// What the course allows by itself: its share of the right value, near zero of a part of the largest of the kind; never
    /// below half a unit of the last figure asked.
    pub tolerance: f64,
    /// What rounding to the course's figures makes of the value.
    pub carried: Carried,
    /// What rounding to one figure fewer makes of it: an answer beyond `half_width` and within this band was rounded too
    /// early.
    pub carried_early: Carried,
    /// How strongly the value answers to its inputs: the sum over them of its relative change per relative change of the
    /// input.
    pub condition: f64,
    /// How many mistakes can show in it at all, each counted once for every working at which it can be made.
    pub mistakes: usize,
    /// Those that cannot be told from the right value.
    pub hidden: Vec<Hidden>,
    /// Those of the others that cannot be told from one another.
    pub alike: Vec<Alike>,
    /// What slips make of the value and of the mistakes that it does not hide.
    pub slips: Slips,
}

impl Judgement {
    /// The hidden mistakes that other numbers would show.
    pub fn hidden_by_numbers(&self) -> impl Iterator<Item = &Hidden> {
        self.hidden.iter().filter(|hidden| !hidden.by_structure)
    }

    /// The pairs of mistakes that other numbers would tell apart.
    pub fn alike_by_numbers(&self) -> impl Iterator<Item = &Alike> {
        self.alike.iter().filter(|alike| !alike.by_structure)
    }

    /// Whether an answer is right, SI.
    pub fn accepts(&self, answer: f64) -> bool {
        // A bound that is met exactly is met: the last bits of a converted answer must not decide.
        (answer - self.right).abs() <= self.half_width * (1.0 + 1e-12)
    }
}

/// Why a value cannot be judged.
#[derive(Clone, Debug, PartialEq)]
pub enum NotAsked {
    /// The lesson has no working of this name.
    Unknown(String),
    /// A mistake of ours: a formula that cannot be evaluated.
    Formula(EvaluationError),
}

impl fmt::Display for NotAsked {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unknown(name) => {
                write!(f, "the lesson has no working called {name:?}; `glueline values` lists what there is")
            }
            Self::Formula(error) => write!(f, "a mistake of this program, not of the lesson: {error}"),
        }
    }
}

impl std::error::Error for NotAsked {}

/// Judges one asked value; for several of one paper make a [`Judge`].
///
/// # Errors
/// See [`NotAsked`].
pub fn judge(solved: &Solved, asked: &str, course: &Course) -> Result<Judgement, NotAsked> {
    Judge::new(solved, *course).judge(asked)
}

/// Judges the asked values of one paper.
#[derive(Clone, Debug)]
pub struct Judge<'a> {
    solved: &'a Solved,
    course: Course,
    mistakes: Vec<Applied>,
    own: &'a [Mistake],
    known: &'a [Judgement],
}

/// In how many other worlds two values are compared before they are called equal with any numbers.
const WORLDS: usize = 3;

impl<'a> Judge<'a> {
    /// For a paper, with every mistake of the catalogue.
    pub fn new(solved: &'a Solved, course: Course) -> Self {
        Self { solved, course, mistakes: mistake::all(solved), own: &[], known: &[] }
    }

    /// The same, with a lecturer's own mistakes beside those of the catalogue.
    pub fn beside(mut self, own: &'a [Mistake]) -> Self {
        self.mistakes.extend(own.iter().flat_map(|mistake| mistake.applied(self.solved)));
        Self { own, ..self }
    }

    /// The mistake of an id: of the catalogue, or the lecturer's own.
    pub fn mistake(&self, id: &str) -> Option<&'a Mistake> {
        mistake::named(id).or_else(|| self.own.iter().find(|own| own.id() == id))
    }

    /// The same, with judgements of this very paper that are known already: they are not made again.
    pub fn knowing(self, known: &'a [Judgement]) -> Self {
        Self { known, ..self }
    }

    /// The paper, solved.
    pub fn solved(&self) -> &'a Solved {
        self.solved
    }

    /// How exact its course wants answers.
    pub fn course(&self) -> Course {
        self.course
    }

    /// What values of an asked working's kind are not small beside, SI: a part of the largest of them. The tolerance of smaller ones
    /// no longer shrinks with them.
    ///
    /// # Errors
    /// See [`NotAsked`].
    pub fn least_size(&self, asked: &str) -> Result<f64, NotAsked> {
        Ok(kind::least_size(self.solved, self.id(asked)?))
    }

    /// Where every mistake leads that can show in an asked value and leads anywhere, in the order of the catalogue; once for each
    /// working at which it can be made.
    ///
    /// # Errors
    /// See [`NotAsked`].
    pub fn wrongs(&self, asked: &str) -> Result<Vec<Wrong>, NotAsked> {
        let led =
            mistakes::led(self.solved, &self.mistakes, &[], self.id(asked)?).map_err(NotAsked::Formula)?;
        Ok(led.into_iter().map(|led| led.wrong).collect())
    }

    fn id(&self, asked: &str) -> Result<Id, NotAsked> {
        self.solved.workings().id(asked).ok_or_else(|| NotAsked::Unknown(asked.to_owned()))
    }

    /// Judges an asked value.
    ///
    /// # Errors
    /// See [`NotAsked`].
    pub fn judge(&self, asked: &str) -> Result<Judgement, NotAsked> {
        if let Some(known) = self.known.iter().find(|known| known.working == asked) {
            return Ok(known.clone());
        }
        let solved = self.solved;
        let Way { id, prepared, inputs, found } = Way::to(solved, asked)?;
        let right = solved.value(id);
        let least = kind::least_size(solved, id);
        let size = right.abs().max(least);

        let grid = Grid::of(self.course.figures);
        let mut rounder = Rounder::new(solved, &prepared, id, found);
        let unit = rounder.unit();
        let carried = rounder.carried(grid);
        let carried_early = rounder.carried(grid.coarser());
        let share = self.course.tolerance;
        let tolerance = (share * size).max(0.5 * grid.last_place(right / unit) * unit);
        let half_width = tolerance.max(carried.band);

        let worlds = self.worlds();
        let mut led = mistakes::led(solved, &self.mistakes, &worlds, id).map_err(NotAsked::Formula)?;
        let count = led.len();
        let elsewhere = mistakes::right_elsewhere(solved, &prepared, &worlds, id);
        let hidden = mistakes::hidden(&mut led, right, &elsewhere, half_width);
        // A wrong value is known again within the course's tolerance of it.
        let band = |value: f64| share * value.abs().max(least);
        let alike = mistakes::alike(&mut led, band);
        let dimension = solved.workings().working(id).value.dimension;
        let slips = Slips::of(
            &Right {
                value: right,
                elsewhere: &elsewhere,
                half_width,
                either_sign: either_sign(solved, asked),
            },
            &led,
            &slip::slips(dimension, solved.style().units),
            |value| share * value.abs(),
        );
        Ok(Judgement {
            working: asked.to_owned(),
            right,
            half_width,
            tolerance,
            carried,
            carried_early,
            condition: condition(solved, &prepared, &inputs, id, size),
            mistakes: count,
            hidden,
            alike,
            slips,
        })
    }

    /// The lesson with other numbers, the same in every run.
    fn worlds(&self) -> Vec<World> {
        let mut chance = Chance::new();
        (0..WORLDS).map(|_| World::of(self.solved, &mut chance)).collect()
    }
}

/// What the lesson gives: exact, and never rounded.
pub(super) fn given(solved: &Solved) -> impl Iterator<Item = Id> + use<'_> {
    let is_given = |formula: &Formula| match formula {
        Formula::Given => true,
        Formula::Engine { call, .. } => matches!(call, Call::Fixed),
        Formula::Expression(_) => false,
    };
    solved.workings().in_order().filter(move |(_, working)| is_given(&working.formula)).map(|(id, _)| id)
}

/// The way to a result: ready to be evaluated again with other numbers.
struct Way {
    id: Id,
    /// With all that the lesson gives replaced by its own value.
    prepared: Prepared,
    /// The given workings that the result rests on.
    inputs: Vec<Id>,
    /// Those that are found on the way, the result the last.
    found: Vec<Id>,
}

impl Way {
    fn to(solved: &Solved, asked: &str) -> Result<Self, NotAsked> {
        let workings = solved.workings();
        let id = workings.id(asked).ok_or_else(|| NotAsked::Unknown(asked.to_owned()))?;
        let prepared =
            mistakes::with_given(solved, Vec::new()).map_err(NotAsked::Formula)?.only(workings, [id]);
        let mut needed = vec![false; workings.len()];
        let mut open = vec![id];
        while let Some(id) = open.pop() {
            let Some(known) = needed.get_mut(id.0 as usize) else { continue };
            if !std::mem::replace(known, true) {
                open.extend(workings.reads(id));
            }
        }
        let given: BTreeSet<Id> = given(solved).collect();
        let needed = workings.in_order().zip(needed).filter_map(|((id, _), needed)| needed.then_some(id));
        let (inputs, found) = needed.partition(|id| given.contains(id));
        Ok(Self { id, prepared, inputs, found })
    }
}

/// The value of an asked working to which a student comes who rounds every working on the way and the result itself to these
/// figures, SI.
///
/// # Errors
/// See [`NotAsked`].
pub fn rounded(solved: &Solved, asked: &str, figures: Figures) -> Result<f64, NotAsked> {
    let Way { id, prepared, found, .. } = Way::to(solved, asked)?;
    Ok(Rounder::new(solved, &prepared, id, found).rounded(Grid::of(figures)))
}
