//! A student's values laid over the graph: what follows from them, as written, unrounded, and rounded on the way.

use crate::fair::figures::Grid;
use crate::fair::mistakes::with_given;
use std::collections::HashMap;
use std::collections::hash_map::Entry;
use std::sync::Arc;
use workings::evaluate::{EvaluationError, Evaluator, Prepared, Replacement};
use workings::mistake::Applied;
use workings::solved::Solved;
use workings::working::Id;

/// An own value of a student that is held fast, and what is known of it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pin {
    pub(super) id: Id,
    /// As it was written, SI.
    pub(super) written: f64,
    /// Whether it was written with fewer figures than the course asks for.
    pub(super) coarse: bool,
    pub(super) behind: Behind,
}

/// What stands behind a student's own value: what it was before it was rounded and written down.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum Behind {
    /// The right value.
    Right,
    /// What follows from the values before it.
    Follows,
    /// What this mistake leads to, by its place in the list of all.
    Mistake(usize),
    /// Not known: the value as it was written.
    Itself,
}

/// The values of all workings by id, SI, in three ways of going on from a student's own values, which are held fast.
#[derive(Clone, Debug)]
pub(super) struct Ground {
    /// From the values as they were written, all else unrounded.
    pub(super) written: Vec<f64>,
    /// From what stands behind them, unrounded throughout.
    pub(super) behind: Vec<f64>,
    /// From the values as they were written, all else rounded on the way.
    pub(super) rounded: Vec<f64>,
    /// Which workings are held fast.
    pub(super) pinned: Vec<bool>,
    /// By how much what was written differs from what stands behind it: the sum over the own values, as shares. A student may go on
    /// with one of them as it was written and with another unrounded; what is in proportion to them, or to one over them, is off
    /// by no more than this.
    pub(super) spread: f64,
}

/// Where a value is led in those three ways: all between is taken for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Led {
    /// Unrounded, SI.
    pub(super) value: f64,
    pub(super) lower: f64,
    pub(super) upper: f64,
}

/// What was compiled, by what is held fast.
type Compiled = HashMap<Vec<(Id, Behind)>, Prepared>;

/// The evaluations of one paper.
#[derive(Clone, Debug)]
pub(super) struct Desk<'a> {
    solved: &'a Solved,
    evaluator: Evaluator<'a>,
    mistakes: Vec<Applied>,
    grid: Grid,
    /// By id the unit in which a working is written down, SI.
    units: Arc<[f64]>,
    /// By id the values of the lesson, rounded on the way.
    rounded: Arc<[f64]>,
    /// By what is wanted and what is held fast, what was compiled before; forgotten when it grows large.
    compiled: HashMap<(Id, bool), Compiled>,
}

/// Own values are off by a few parts in a hundred at most where they are rounded.
const WIDEST: f64 = 0.05;

/// How many sets of own values are kept compiled: students of one paper leave out few different parts.
const KEPT: usize = 256;

impl<'a> Desk<'a> {
    pub(super) fn new(
        solved: &'a Solved,
        mistakes: Vec<Applied>,
        grid: Grid,
    ) -> Result<Self, EvaluationError> {
        let workings = solved.workings();
        let unit = |working: &workings::working::Working| {
            solved.style().show(working.value, working.symbol.role).unit.in_si()
        };
        let units: Arc<[f64]> = workings.in_order().map(|(_, working)| unit(working)).collect();
        let mut evaluator = Evaluator::new(workings);
        let everything = with_given(solved, Vec::new())?;
        let rounded =
            evaluator.run_settling(&everything, |id, value| rounded(grid, &units, id, value)).into();
        Ok(Self { solved, evaluator, mistakes, grid, units, rounded, compiled: HashMap::new() })
    }

    pub(super) fn solved(&self) -> &'a Solved {
        self.solved
    }

    pub(super) fn mistakes(&self) -> &[Applied] {
        &self.mistakes
    }

    /// Nothing held fast.
    pub(super) fn bare(&self) -> Ground {
        let values = self.solved.workings().values();
        Ground {
            written: values.to_vec(),
            behind: values.to_vec(),
            rounded: self.rounded.to_vec(),
            pinned: vec![false; values.len()],
            spread: 0.0,
        }
    }

    /// A student's own values laid over the graph, in the order of the graph, as far as an asked value needs it and `wanted`, what the
    /// mistakes on the way to it read.
    ///
    /// # Errors
    /// A mistake of ours: a formula that cannot be evaluated.
    pub(super) fn ground(
        &mut self,
        pins: &[Pin],
        asked: Id,
        wanted: &[Id],
    ) -> Result<Ground, EvaluationError> {
        let mut ground = self.bare();
        for pin in pins {
            if let Some(pinned) = ground.pinned.get_mut(pin.id.0 as usize) {
                *pinned = true;
            }
        }
        let (grid, unrounded, units) = (self.grid, Arc::clone(&self.rounded), Arc::clone(&self.units));
        let settle = |id, value| rounded(grid, &units, id, value);
        let laid = self.with_compiled(
            pins,
            |_| Behind::Itself,
            (asked, true),
            wanted,
            |evaluator, prepared| {
                let written = evaluator.run(prepared).to_vec();
                (written, evaluator.run_from(&unrounded, prepared, settle).to_vec())
            },
        );
        (ground.written, ground.rounded) = laid?;
        if pins.iter().any(|pin| pin.behind != Behind::Right) {
            let run = |evaluator: &mut Evaluator<'_>, prepared: &Prepared| evaluator.run(prepared).to_vec();
            ground.behind = self.with_compiled(pins, |pin| pin.behind, (asked, true), wanted, run)?;
        }
        let off = |pin: &Pin| {
            let (written, behind) = (pin.written, at(&ground.behind, pin.id));
            if behind == 0.0 { 0.0 } else { ((written - behind) / behind).abs() }
        };
        let spread: f64 = pins.iter().map(off).sum();
        // Own values that differ by more are not the same rounded.
        ground.spread = if spread <= WIDEST { spread } else { 0.0 };
        Ok(ground)
    }

    /// What follows for one working from some values as they were written, SI.
    ///
    /// # Errors
    /// As [`Desk::ground`].
    pub(super) fn follows(&mut self, pins: &[Pin], asked: Id) -> Result<f64, EvaluationError> {
        let run = |evaluator: &mut Evaluator<'_>, prepared: &Prepared| at(evaluator.run(prepared), asked);
        self.with_compiled(pins, |_| Behind::Itself, (asked, false), &[], run)
    }

    /// Runs what is compiled for some own values, and compiles it when it is first needed; `of` is an asked value and whether what the
    /// mistakes on the way to it read is wanted too.
    fn with_compiled<R>(
        &mut self,
        pins: &[Pin],
        behind: impl Fn(&Pin) -> Behind,
        of: (Id, bool),
        wanted: &[Id],
        run: impl FnOnce(&mut Evaluator<'a>, &Prepared) -> R,
    ) -> Result<R, EvaluationError> {
        let key: Vec<(Id, Behind)> = pins.iter().map(|pin| (pin.id, behind(pin))).collect();
        let workings = self.solved.workings();
        let replacements = match self.compiled.get(&of).is_some_and(|known| known.contains_key(&key)) {
            true => Vec::new(),
            false => self.replacements(&key),
        };
        let known = self.compiled.entry(of).or_default();
        if known.len() > KEPT {
            known.clear();
        }
        let prepared = match known.entry(key) {
            Entry::Occupied(known) => known.into_mut(),
            Entry::Vacant(place) => {
                let wanted = wanted.iter().copied().chain([of.0]).chain(pins.iter().map(|pin| pin.id));
                place.insert(workings.prepare(&replacements)?.only(workings, wanted))
            }
        };
        for pin in pins.iter().filter(|pin| behind(pin) == Behind::Itself) {
            prepared.set(pin.id, pin.written);
        }
        Ok(run(&mut self.evaluator, prepared))
    }

    fn replacements(&self, key: &[(Id, Behind)]) -> Vec<(Id, Replacement)> {
        let mut all = Vec::new();
        for (_, behind) in key {
            if let Behind::Mistake(mistake) = behind
                && let Some(made) = self.mistakes.get(*mistake)
            {
                all.extend(made.replacements());
            }
        }
        // Of two replacements of one working the last stands: an answer is what it is, whatever was done before it.
        for (id, behind) in key {
            match behind {
                Behind::Right => all.push((*id, Replacement::Value(self.solved.value(*id)))),
                Behind::Itself => all.push((*id, Replacement::Value(f64::NAN))),
                Behind::Follows | Behind::Mistake(_) => {}
            }
        }
        all
    }

    /// Compiles a mistake, to be led to one working.
    ///
    /// # Errors
    /// As [`Desk::ground`].
    pub(super) fn prepare(
        &self,
        mistake: usize,
        asked: Option<Id>,
    ) -> Result<Option<Prepared>, EvaluationError> {
        let Some(made) = self.mistakes.get(mistake) else { return Ok(None) };
        let prepared = made.prepare(self.solved)?;
        Ok(Some(match asked {
            Some(asked) => prepared.only(self.solved.workings(), [asked]),
            None => prepared,
        }))
    }

    /// Where a mistake leads an asked value on a ground; nothing where that is nowhere (a division by zero).
    pub(super) fn led(&mut self, ground: &Ground, prepared: &Prepared, asked: Id) -> Option<Led> {
        let Ground { written, behind, rounded: on_the_way, pinned, spread } = ground;
        let evaluator = &mut self.evaluator;
        let one = at(evaluator.run_from(written, prepared, held(written, pinned)), asked);
        let unrounded = at(evaluator.run_from(behind, prepared, held(behind, pinned)), asked);
        let (grid, units) = (self.grid, &self.units);
        let settle = |id: Id, value| match pinned.get(id.0 as usize) {
            Some(true) => at(on_the_way, id),
            _ => rounded(grid, units, id, value),
        };
        let other = at(evaluator.run_from(on_the_way, prepared, settle), asked);
        Led::of(unrounded, [one, other], *spread)
    }

    /// The ground as it is after a mistake; pins stay.
    pub(super) fn after(&mut self, ground: &Ground, prepared: &Prepared) -> Ground {
        let Ground { written, behind, rounded: on_the_way, pinned, spread } = ground;
        let evaluator = &mut self.evaluator;
        let (grid, units) = (self.grid, &self.units);
        let settle = |id: Id, value| match pinned.get(id.0 as usize) {
            Some(true) => at(on_the_way, id),
            _ => rounded(grid, units, id, value),
        };
        Ground {
            written: evaluator.run_from(written, prepared, held(written, pinned)).to_vec(),
            behind: evaluator.run_from(behind, prepared, held(behind, pinned)).to_vec(),
            rounded: evaluator.run_from(on_the_way, prepared, settle).to_vec(),
            pinned: pinned.clone(),
            spread: *spread,
        }
    }
}

impl Ground {
    /// Where the ground itself leads an asked value.
    pub(super) fn led(&self, asked: Id) -> Option<Led> {
        let others = [at(&self.written, asked), at(&self.rounded, asked)];
        Led::of(at(&self.behind, asked), others, self.spread)
    }
}

impl Led {
    fn of(value: f64, others: [f64; 2], spread: f64) -> Option<Self> {
        let all = [value * (1.0 - spread), value * (1.0 + spread)]
            .into_iter()
            .chain(others)
            .filter(|other| other.is_finite());
        let (lower, upper) =
            all.fold((value, value), |(lower, upper), other| (lower.min(other), upper.max(other)));
        value.is_finite().then_some(Self { value, lower, upper })
    }

    /// The same after a slip.
    pub(super) fn times(self, factor: f64) -> Self {
        let (one, other) = (self.lower * factor, self.upper * factor);
        Self { value: self.value * factor, lower: one.min(other), upper: one.max(other) }
    }
}

fn held<'v>(values: &'v [f64], pinned: &'v [bool]) -> impl Fn(Id, f64) -> f64 + 'v {
    move |id, value| match pinned.get(id.0 as usize) {
        Some(true) => at(values, id),
        _ => value,
    }
}

fn at(values: &[f64], id: Id) -> f64 {
    values.get(id.0 as usize).copied().unwrap_or(f64::NAN)
}

/// As a student rounds who writes every step down.
fn rounded(grid: Grid, units: &[f64], id: Id, value: f64) -> f64 {
    match units.get(id.0 as usize) {
        Some(&unit) => grid.round(value / unit, true) * unit,
        None => value,
    }
}
