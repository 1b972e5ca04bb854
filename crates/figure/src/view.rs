//! What the drawings of the beam are made from: the lesson's problem, its solution, and the course's writing.

use crate::scale::Along;
use crate::scribe::Scribe;
use crate::support::BeamPlace;
use mechanics::beam::Solution;
use workings::problem::{Problem, SupportKind};
use workings::solved::Solved;

/// A solved beam with its names and the writing of the course.
#[derive(Clone, Copy)]
pub struct BeamView<'a> {
    /// What the lesson states.
    pub problem: &'a Problem,
    /// Its exact solution.
    pub solution: &'a Solution,
    /// The writing of the course.
    pub scribe: Scribe<'a>,
}

impl<'a> BeamView<'a> {
    /// The view of a solved lesson.
    pub fn of(solved: &'a Solved) -> Self {
        Self { problem: solved.problem(), solution: solved.beam(), scribe: Scribe::new(solved.style()) }
    }

    /// The way along the beam.
    pub fn along(&self) -> Along {
        Along { length: self.problem.beam.length }
    }

    /// The name of a support, by its place in the list.
    pub fn support_name(&self, support: usize) -> &str {
        self.problem.supports.get(support).map_or("", |label| label.name.as_str())
    }

    /// The kind of a support, by its place in the list.
    pub fn support_kind(&self, support: usize) -> SupportKind {
        self.problem.supports.get(support).map_or(SupportKind::Pin, |label| label.kind)
    }

    /// Where along the beam a station lies.
    pub fn place(&self, station: f64) -> BeamPlace {
        let length = self.problem.beam.length;
        let near = 1e-9 * length;
        if station <= near {
            BeamPlace::LeftEnd
        } else if station >= length - near {
            BeamPlace::RightEnd
        } else {
            BeamPlace::Inside
        }
    }
}
