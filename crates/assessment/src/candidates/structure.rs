//! A graph that is kept to be evaluated for other draws.

use super::Candidates;
use super::frame::Frame;
use super::guard::Guards;
use super::inputs::{SectionPrint, inputs};
use lesson::requirement::Test;
use std::sync::{Mutex, OnceLock};
use workings::evaluate::{Evaluator, Prepared, Replacement};
use workings::solved::Solved;
use workings::working::Id;

/// The most graphs that are kept for one frame; with more, looking for the right one would take as long as making it.
const MOST: usize = 48;

/// The graphs that are kept; more may come while others are used.
#[derive(Debug)]
pub(super) struct Structures {
    kept: Vec<OnceLock<Structure>>,
    next: Mutex<usize>,
}

impl Default for Structures {
    fn default() -> Self {
        Self { kept: (0..MOST).map(|_| OnceLock::new()).collect(), next: Mutex::new(0) }
    }
}

impl Structures {
    pub(super) fn get(&self, at: usize) -> Option<&Structure> {
        self.kept.get(at)?.get()
    }

    /// Keeps a graph, where there is room.
    pub(super) fn keep(&self, structure: Structure) {
        // A thread that failed while it counted leaves the count as it was.
        let mut next = self.next.lock().unwrap_or_else(|poisoned| poisoned.into_inner());
        if let Some(place) = self.kept.get(*next)
            && place.set(structure).is_ok()
        {
            *next += 1;
        }
    }
}

/// A graph, and when it stands for a draw.
#[derive(Debug)]
pub(super) struct Structure {
    solved: Solved,
    print: SectionPrint,
    /// Its inputs that vary, with group and place.
    varying: Vec<(Id, usize, usize)>,
    /// By group, which of the group's inputs it has.
    present: Vec<u64>,
    guards: Guards,
    /// The results; none where it has no such working.
    wanted: Vec<Option<Id>>,
    /// The requirements; none where it has not all their workings.
    tests: Vec<Option<Test>>,
}

impl Structure {
    /// Makes a solved draw ready; `None` where it has an input of which nothing is known.
    pub(super) fn new(candidates: &Candidates, frame: &Frame, solved: Solved) -> Option<Self> {
        let workings = solved.workings();
        let mut varying = Vec::new();
        for (id, working) in inputs(workings) {
            match frame.places.get(&working.name) {
                Some(&(group, place)) => varying.push((id, group, place)),
                None if frame.constants.contains_key(&working.name) => {}
                None => return None,
            }
        }
        let present = frame
            .groups
            .iter()
            .map(|group| {
                group.present(|name| {
                    workings
                        .id(name)
                        .is_some_and(|id| varying.binary_search_by_key(&id, |(id, ..)| *id).is_ok())
                })
            })
            .collect();
        let wanted: Vec<Option<Id>> = candidates.wanted().iter().map(|name| workings.id(name)).collect();
        let requirements = &candidates.papers().lesson().requirements;
        let tests: Vec<Option<Test>> =
            requirements.iter().map(|requirement| requirement.over(workings).ok()).collect();
        let guards = Guards::new(workings, &varying, &wanted, &tests);
        Some(Self { print: SectionPrint::of(&solved), solved, varying, present, guards, wanted, tests })
    }

    /// Ready to be evaluated again and again.
    pub(super) fn runner(&self) -> Option<Runner<'_>> {
        let workings = self.solved.workings();
        // All of them, those that do not vary too: what the engine finds from an outline would else be found anew from
        // the outline of this draw, where the height of the cut has become that of another.
        let given: Vec<(Id, Replacement)> =
            inputs(workings).map(|(id, working)| (id, Replacement::Value(working.value.value))).collect();
        let tests = self.tests.iter().flatten().flat_map(Test::reads);
        let wanted = self.wanted.iter().flatten().copied().chain(tests).chain(self.guards.reads());
        let prepared = workings.prepare(&given).ok()?.only(workings, wanted);
        Some(Runner { structure: self, prepared, evaluator: Evaluator::new(workings) })
    }

    /// The results and whether the requirements are met, of values of this graph.
    fn answer(&self, values: &[f64], results: &mut Vec<f64>) -> bool {
        results.clear();
        results.extend(self.wanted.iter().map(|id| id.map_or(f64::NAN, |id| values[id.0 as usize])));
        self.tests.iter().all(|test| test.as_ref().is_some_and(|test| test.holds(values)))
    }
}

/// A graph in the hands of one thread.
#[derive(Debug)]
pub(super) struct Runner<'a> {
    structure: &'a Structure,
    prepared: Prepared,
    evaluator: Evaluator<'a>,
}

impl Runner<'_> {
    /// Evaluates the graph for the cells of a draw; whether the requirements are met, or `None` where the draw's own
    /// graph may be another.
    pub(super) fn run(
        &mut self,
        frame: &Frame,
        cells: &[&super::frame::Cell],
        results: &mut Vec<f64>,
    ) -> Option<bool> {
        let structure = self.structure;
        let print = frame.section.map_or(frame.print, |at| cells[at].print);
        let alike = print.formulas == structure.print.formulas
            && cells.iter().zip(&structure.present).all(|(cell, present)| cell.present == *present);
        if !alike {
            return None;
        }
        for &(id, group, place) in &structure.varying {
            self.prepared.set(id, cells[group].values[place]);
        }
        let values = self.evaluator.run(&self.prepared);
        structure.guards.hold(values).then(|| structure.answer(values, results))
    }
}
