//! Evaluates draws, for one thread.

use super::Candidates;
use super::frame::{Cell, Frame};
use super::structure::{Runner, Structure};
use lesson::papers::Draw;
use std::collections::HashMap;

/// Evaluates draws, for one thread.
#[derive(Debug)]
pub struct Worker<'a> {
    candidates: &'a Candidates,
    /// By the number of the frame.
    frames: HashMap<usize, Runners<'a>>,
    results: Vec<f64>,
    read: u64,
}

/// The graphs of one frame.
#[derive(Debug, Default)]
struct Runners<'a> {
    runners: Vec<Runner<'a>>,
    /// The one that was right last: the next draw is often like it.
    last: usize,
}

/// What was found for a draw.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Found<'a> {
    /// The results in the order of [`Candidates::wanted`], SI; not a number where the draw has no such working.
    pub values: &'a [f64],
    /// Whether the draw meets all that the lesson requires.
    pub meets: bool,
}

impl<'a> Worker<'a> {
    pub(super) fn new(candidates: &'a Candidates) -> Self {
        Self { candidates, frames: HashMap::new(), results: Vec::new(), read: 0 }
    }

    /// The results of a draw; `None` where it is not of the space.
    ///
    /// A draw that is no sound lesson (a load off the beam, parts of the section that overlap) is refused with `None` too, in
    /// so far as its beam or its section shows it.
    pub fn evaluate(&mut self, draw: &Draw) -> Option<Found<'_>> {
        if !self.candidates.space().holds(draw) {
            return None;
        }
        let Some((number, frame)) = self.candidates.frame(draw) else { return self.by_reading(draw, None) };
        let cells: Option<Vec<&Cell>> = frame.cells(self.candidates, draw);
        let Some(cells) = cells else { return self.by_reading(draw, None) };
        let runners = self.frames.entry(number).or_default();
        match runners.run(frame, &cells, &mut self.results) {
            Some(meets) => Some(Found { values: &self.results, meets }),
            None => self.by_reading(draw, Some(frame)),
        }
    }

    /// How many draws had to be read and solved so far: the rest was evaluated.
    pub fn read_and_solved(&self) -> u64 {
        self.read
    }

    fn by_reading(&mut self, draw: &Draw, frame: Option<&Frame>) -> Option<Found<'_>> {
        self.read += 1;
        let solved = self.candidates.solved(draw)?;
        let workings = solved.workings();
        let value = |name: &String| workings.get(name).map_or(f64::NAN, |working| working.value.value);
        self.results.clear();
        self.results.extend(self.candidates.wanted().iter().map(value));
        let requirements = &self.candidates.papers().lesson().requirements;
        let meets = requirements.iter().all(|requirement| requirement.is_met(workings) == Ok(true));
        if let Some(frame) = frame
            && let Some(structure) = Structure::new(self.candidates, frame, solved)
        {
            frame.structures.keep(structure);
        }
        Some(Found { values: &self.results, meets })
    }
}

impl<'a> Runners<'a> {
    fn run(&mut self, frame: &'a Frame, cells: &[&Cell], results: &mut Vec<f64>) -> Option<bool> {
        if let Some(last) = self.runners.get_mut(self.last)
            && let Some(meets) = last.run(frame, cells, results)
        {
            return Some(meets);
        }
        let mut at = 0;
        loop {
            // Other threads may have kept graphs in the meantime.
            if at == self.runners.len() {
                self.runners.push(frame.structures.get(at)?.runner()?);
            }
            if at != self.last
                && let Some(meets) = self.runners.get_mut(at)?.run(frame, cells, results)
            {
                self.last = at;
                return Some(meets);
            }
            at += 1;
        }
    }
}
