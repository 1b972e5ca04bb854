//! What the drawings of the beam are made from: the lesson's problem, its solution, and the course's writing.

use crate::scale::{Along, Sheet};
use crate::scribe::Scribe;
use crate::support::BeamPlace;
use mechanics::beam::{Load, Solution};
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
    /// The sheet that it is drawn on.
    pub sheet: Sheet,
    /// Whether the drawings are told at length as well.
    pub told: bool,
    /// The lesson's problem, where `problem` is a piece of it: its loads keep their symbols.
    whole: &'a Problem,
    /// The places in the whole of the loads of the piece.
    kept: Option<&'a [usize]>,
}

impl<'a> BeamView<'a> {
    /// The view of a solved lesson.
    pub fn of(solved: &'a Solved) -> Self {
        Self::new(solved.problem(), solved.beam(), Scribe::new(solved.style()))
    }

    /// The view of a problem with its solution.
    pub fn new(problem: &'a Problem, solution: &'a Solution, scribe: Scribe<'a>) -> Self {
        Self { problem, solution, scribe, sheet: Sheet::USUAL, told: true, whole: problem, kept: None }
    }

    /// The same on another sheet.
    pub fn on(self, sheet: Sheet) -> Self {
        Self { sheet, ..self }
    }

    /// The view of a piece of this beam; `kept` are the places in this beam's loads of those of the piece.
    pub fn piece(&self, piece: &'a Problem, kept: &'a [usize]) -> Self {
        Self { problem: piece, kept: Some(kept), ..*self }
    }

    /// The index of the symbol of a load, by its place in the list: the lecturer's name for it, a number where
    /// there are several of its kind, nothing where it is the only one; as in the workings.
    pub fn load_index(&self, load: usize) -> &'a str {
        let place = self.kept.and_then(|kept| kept.get(load)).copied().unwrap_or(load);
        let Some(label) = self.whole.loads.get(place) else { return "" };
        let kind = |load: &Load| core::mem::discriminant(load);
        let loads = &self.whole.beam.loads;
        let alike = loads.iter().filter(|other| loads.get(place).is_some_and(|own| kind(own) == kind(other)));
        let is_number = !label.name.is_empty() && label.name.bytes().all(|sign| sign.is_ascii_digit());
        if label.self_weight {
            "self"
        } else if is_number && alike.take(2).count() == 1 {
            ""
        } else {
            &label.name
        }
    }

    /// The way along the beam.
    pub fn along(&self) -> Along {
        let Sheet { left, right, .. } = self.sheet;
        Along { length: self.problem.beam.length, left, right }
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
