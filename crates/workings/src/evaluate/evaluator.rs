//! The graph evaluated again with some workings replaced, and all that depends on them.

use super::program::{Program, Step, compile, run};
use super::{EvaluationError, Replacement, dimension_of, known};
use crate::graph::Workings;
use crate::working::Id;

/// Replacements, checked and compiled.
#[derive(Clone, Debug)]
pub struct Prepared {
    /// In the order of the graph.
    replaced: Vec<(u32, Prepare)>,
    /// What is found again, in the order of the graph: what is replaced and all that depends on it.
    changed: Vec<u32>,
}

#[derive(Clone, Debug)]
enum Prepare {
    Value(f64),
    /// Steps, and the factor that turns their result into SI; whether a step reads a later working that another
    /// replacement changes.
    Steps {
        steps: Vec<Step>,
        unit: f64,
        ahead: bool,
    },
}

impl Prepared {
    pub(crate) fn new(
        workings: &Workings,
        replacements: &[(Id, Replacement)],
    ) -> Result<Self, EvaluationError> {
        let mut replaced = Vec::with_capacity(replacements.len());
        for (id, replacement) in replacements {
            let working = known(workings, "a replacement", *id)?;
            let (name, expected) = (working.name.as_str(), working.value.dimension);
            let mut steps = Vec::new();
            let unit = match replacement {
                Replacement::Value(value) => {
                    replaced.push((id.0, Prepare::Value(*value)));
                    continue;
                }
                Replacement::Expression(expression) => {
                    let found = dimension_of(workings, name, expression)?;
                    if found != expected {
                        return Err(EvaluationError::WrongKind { working: name.to_owned(), expected, found });
                    }
                    compile(workings, name, expression, None, &mut steps)?;
                    1.0
                }
                Replacement::Numbers(expression, units) => {
                    compile(workings, name, expression, Some(*units), &mut steps)?;
                    units.of(expected)
                }
            };
            replaced.push((id.0, Prepare::Steps { steps, unit, ahead: false }));
        }
        replaced.sort_by_key(|(id, _)| *id);
        // Of two replacements of one working the last one given stands.
        replaced.reverse();
        replaced.dedup_by_key(|(id, _)| *id);
        replaced.reverse();
        look_ahead(workings, &mut replaced);
        let ids: Vec<Id> = replaced.iter().map(|(id, _)| Id(*id)).collect();
        let changed = workings.downstream(&ids).into_iter().zip(0..);
        let changed = changed.filter_map(|(changed, place)| changed.then_some(place)).collect();
        Ok(Self { replaced, changed })
    }

    /// Gives a working that is replaced by a value another value, SI: nothing is allocated.
    ///
    /// Does nothing where the working is not replaced by a value.
    pub fn set(&mut self, id: Id, to: f64) {
        if let Ok(at) = self.replaced.binary_search_by_key(&id.0, |(replaced, _)| *replaced)
            && let Some((_, Prepare::Value(value))) = self.replaced.get_mut(at)
        {
            *value = to;
        }
    }

    /// Leaves all aside that these workings do not depend on: where few are wanted of a large graph, most of the time is
    /// saved. The values of others are then of no meaning.
    #[must_use]
    pub fn only(mut self, workings: &Workings, wanted: impl IntoIterator<Item = Id>) -> Self {
        let mut needed = vec![false; workings.len()];
        let mut open: Vec<u32> = wanted.into_iter().map(|id| id.0).collect();
        while let Some(id) = open.pop() {
            let Some(known) = needed.get_mut(id as usize) else { continue };
            if std::mem::replace(known, true) {
                continue;
            }
            let replaced = self.replaced.binary_search_by_key(&id, |(replaced, _)| *replaced).ok();
            if let Some((_, Prepare::Value(_))) = replaced.and_then(|at| self.replaced.get(at)) {
                continue;
            }
            if let Some((_, Prepare::Steps { steps, .. })) = replaced.and_then(|at| self.replaced.get(at)) {
                open.extend(steps.iter().filter_map(Step::read));
            }
            // A formula that replaces one may read what it replaces.
            workings.programs()[id as usize].each_read(&mut |read| open.push(read));
        }
        self.changed.retain(|&place| needed[place as usize]);
        self
    }
}

/// Marks the formulas that read a later working which another replacement changes. All other later workings still
/// have their right values when the formula is evaluated.
fn look_ahead(workings: &Workings, replaced: &mut [(u32, Prepare)]) {
    let ids: Vec<Id> = replaced.iter().map(|(id, _)| Id(*id)).collect();
    for (id, by) in replaced {
        let Prepare::Steps { steps, ahead, .. } = by else { continue };
        let later = |step: &Step| match step {
            Step::Load(read) | Step::LoadTimes(read, _) if read > id => Some(*read as usize),
            _ => None,
        };
        if ids.len() > 1 && steps.iter().any(|step| later(step).is_some()) {
            let others: Vec<Id> = ids.iter().copied().filter(|other| other.0 != *id).collect();
            let changed = workings.downstream(&others);
            *ahead = steps.iter().filter_map(later).any(|read| changed[read]);
        }
    }
}

/// Evaluates a graph again and again without allocating.
#[derive(Clone, Debug)]
pub struct Evaluator<'a> {
    workings: &'a Workings,
    values: Vec<f64>,
    stack: Vec<f64>,
}

impl<'a> Evaluator<'a> {
    /// For this graph.
    pub fn new(workings: &'a Workings) -> Self {
        Self { workings, values: workings.values().to_vec(), stack: Vec::with_capacity(64) }
    }

    /// The value of every working by id, as the last run left it; before the first, those of the lesson.
    pub fn values(&self) -> &[f64] {
        &self.values
    }

    /// The value of every working by id, with these replaced and everything downstream evaluated again.
    ///
    /// A replacing formula may read workings that stand after the replaced one (the first moment at the neutral
    /// axis in the place of that at the cut). They are evaluated first, the other replacements included; where one
    /// depends on the replaced working itself, that one counts with its own unreplaced value, so a formula may
    /// also read the right value of the very working that it replaces.
    pub fn run(&mut self, prepared: &Prepared) -> &[f64] {
        self.run_settling(prepared, |_, value| value)
    }

    /// As [`Evaluator::run`], but each value that is found anew goes through `settle` before anything reads it, as it does
    /// where a student rounds what was found before going on with it. A value that was put in the place of a working stays
    /// as it is.
    pub fn run_settling(&mut self, prepared: &Prepared, settle: impl FnMut(Id, f64) -> f64) -> &[f64] {
        self.run_from(self.workings.values(), prepared, settle)
    }

    /// As [`Evaluator::run_settling`], but what is not found anew has the values of `base`, one for each working by id, instead of
    /// the lesson's own: what follows where other things had been replaced before, such as by what a student wrote.
    ///
    /// # Panics
    /// If `base` has not one value for each working.
    pub fn run_from(
        &mut self,
        base: &[f64],
        prepared: &Prepared,
        settle: impl FnMut(Id, f64) -> f64,
    ) -> &[f64] {
        self.values.copy_from_slice(base);
        self.run_on(Id(0), prepared, settle)
    }

    /// As the run before, but only from a working on, in the order of the graph: all that stand before it keep the values of that run.
    /// For the same replacements, where nothing else than the settling of this working and of later ones is another now.
    pub fn run_on(
        &mut self,
        from: Id,
        prepared: &Prepared,
        mut settle: impl FnMut(Id, f64) -> f64,
    ) -> &[f64] {
        let mut next = 0;
        let first = prepared.changed.partition_point(|place| *place < from.0);
        for &place in prepared.changed.get(first..).unwrap_or_default() {
            let place = place as usize;
            while prepared.replaced.get(next).is_some_and(|(id, _)| (*id as usize) < place) {
                next += 1;
            }
            let found = match prepared.replaced.get(next) {
                Some((id, by)) if *id as usize == place => {
                    next += 1;
                    match by {
                        Prepare::Value(value) => {
                            self.values[place] = *value;
                            continue;
                        }
                        Prepare::Steps { steps, unit, ahead } => {
                            if *ahead {
                                self.with_later_ones(place, steps, prepared) * unit
                            } else {
                                run(steps, &self.values, &mut self.stack) * unit
                            }
                        }
                    }
                }
                _ => self.found(place),
            };
            self.values[place] = settle(Id(place as u32), found);
        }
        &self.values
    }

    /// What a working becomes with the values as they are now. The engine is asked only where something that it reads has changed:
    /// to solve the beam costs as much as a hundred formulas.
    fn found(&mut self, place: usize) -> f64 {
        let program = &self.workings.programs()[place];
        let own = self.workings.values();
        if let Program::Engine(_, reads) = program
            && reads.iter().all(|id| self.values[id.0 as usize].to_bits() == own[id.0 as usize].to_bits())
        {
            return own[place];
        }
        program.run(&self.values, &mut self.stack)
    }

    /// A replacing formula that reads workings after its own: those are evaluated on a copy, in order, with the
    /// replaced working at its unreplaced value. Rare, so the copy does not matter.
    fn with_later_ones(&mut self, place: usize, steps: &[Step], prepared: &Prepared) -> f64 {
        let mut needed = vec![false; self.values.len()];
        let mut open: Vec<u32> = steps
            .iter()
            .filter_map(|step| match step {
                Step::Load(id) | Step::LoadTimes(id, _) if *id as usize > place => Some(*id),
                _ => None,
            })
            .collect();
        while let Some(id) = open.pop() {
            if !std::mem::replace(&mut needed[id as usize], true) {
                self.workings.programs()[id as usize].each_read(&mut |read| {
                    if read as usize > place {
                        open.push(read);
                    }
                });
            }
        }
        let mut values = self.values.clone();
        for later in place + 1..values.len() {
            if !needed[later] {
                continue;
            }
            let replaced = prepared.replaced.iter().find(|(id, _)| *id as usize == later);
            values[later] = match replaced {
                Some((_, Prepare::Value(value))) => *value,
                Some((_, Prepare::Steps { steps, unit, ahead: false })) => {
                    run(steps, &values, &mut self.stack) * unit
                }
                // Two formulas that each read ahead: the later one counts with its own formula.
                Some((_, Prepare::Steps { ahead: true, .. })) | None => {
                    match &self.workings.programs()[later] {
                        Program::Given => values[later],
                        program => program.run(&values, &mut self.stack),
                    }
                }
            };
        }
        run(steps, &values, &mut self.stack)
    }
}
