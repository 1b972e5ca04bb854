//! Evaluation of the graph: dimensions checked once, formulas compiled to short programs, replacements carried
//! through everything downstream.

use crate::dimension::Dimension;
use crate::engine::Call;
use crate::expression::Expression;
use crate::graph::Workings;
use crate::working::{Id, Working};
use std::fmt;

/// Why an expression cannot be evaluated. Each names the formula by its working.
#[derive(Clone, Debug, PartialEq)]
pub enum EvaluationError {
    /// Terms of a sum differ in dimension.
    TermsDiffer {
        /// The working whose formula it is.
        working: String,
        /// Dimension of the first term.
        first: Dimension,
        /// Dimension of the term that differs.
        other: Dimension,
    },
    /// A root of a quantity whose powers are not even.
    OddRoot {
        /// The working whose formula it is.
        working: String,
        /// Dimension under the root.
        under: Dimension,
    },
    /// A power of a dimension beyond what can be held.
    PowerTooHigh {
        /// The working whose formula it is.
        working: String,
    },
    /// The formula replaces a working of another dimension.
    WrongKind {
        /// The working whose formula it is.
        working: String,
        /// The dimension that it should have.
        expected: Dimension,
        /// The dimension that it has.
        found: Dimension,
    },
    /// It holds a symbol, words, an integral or a limit.
    NotComputable {
        /// The working whose formula it is.
        working: String,
    },
    /// It reads a working that the graph does not have.
    UnknownWorking {
        /// The working whose formula it is.
        working: String,
    },
    /// The value is infinite or not a number.
    NotFinite {
        /// The working whose value it is.
        working: String,
    },
    /// Two workings have one name.
    NameTwice {
        /// The name.
        working: String,
    },
}

impl fmt::Display for EvaluationError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TermsDiffer { working, .. } => {
                write!(f, "{working}: the terms of a sum differ in dimension")
            }
            Self::OddRoot { working, .. } => write!(f, "{working}: a root of a dimension with odd powers"),
            Self::PowerTooHigh { working } => write!(f, "{working}: a power too high to hold"),
            Self::WrongKind { working, .. } => write!(f, "{working}: the formula has another dimension"),
            Self::NotComputable { working } => write!(f, "{working}: the formula holds what has no value"),
            Self::UnknownWorking { working } => write!(f, "{working}: the formula reads an unknown working"),
            Self::NotFinite { working } => write!(f, "{working}: the value is not finite"),
            Self::NameTwice { working } => write!(f, "{working}: two workings have this name"),
        }
    }
}

impl std::error::Error for EvaluationError {}

/// What is put in the place of a working's formula.
#[derive(Clone, Debug, PartialEq)]
pub enum Replacement {
    /// A value, SI: what a student found, or another given.
    Value(f64),
    /// Another formula of the same dimension, over the workings of the graph.
    Expression(Expression),
    /// Another formula, computed with plain numbers in coherent units, as on a calculator: its dimension need
    /// not agree, and the number is read in the same units. `V Q / I` in N and mm gives 240, read as 240 MPa.
    Numbers(Expression, CoherentUnits),
}

/// Units that need no factors among each other: a force and a length, and what is made of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoherentUnits {
    /// The unit of force, N.
    pub force: f64,
    /// The unit of length, m.
    pub length: f64,
}

impl CoherentUnits {
    /// N, mm, and so MPa.
    pub const NEWTON_MILLIMETRE: Self = Self { force: 1.0, length: 1e-3 };
    /// kN, m, and so kPa.
    pub const KILONEWTON_METRE: Self = Self { force: 1e3, length: 1.0 };
    /// lbf, in, and so psi. Exact: 1 lb = 0.453 592 37 kg, g = 9.806 65 m/s², 1 in = 25.4 mm.
    pub const POUND_INCH: Self = Self { force: 4.448_221_615_260_5, length: 0.0254 };
    /// kip, in, and so ksi.
    pub const KIP_INCH: Self = Self { force: 4_448.221_615_260_5, length: 0.0254 };

    /// One such unit of a dimension, in SI.
    pub fn of(self, dimension: Dimension) -> f64 {
        // The unit of time stays the second, so the unit of mass is force / length.
        whole_power(self.force / self.length, dimension.mass) * whole_power(self.length, dimension.length)
    }
}

/// `base` to a whole power, by multiplication alone: the same bits everywhere.
pub(crate) fn whole_power(base: f64, power: i8) -> f64 {
    let mut product = 1.0;
    for _ in 0..power.unsigned_abs() {
        product *= base;
    }
    if power < 0 { 1.0 / product } else { product }
}

/// A sum smaller than this part of its largest term is nothing but rounding: the bending moment at a hinge comes
/// out as zero and not as 4e-13 N m.
const NOTHING: f64 = 1e-12;

/// One step of a compiled formula, on a stack.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    /// Puts a number on the stack.
    Number(f64),
    /// Puts the value of a working on the stack.
    Load(u32),
    /// Puts the value of a working on the stack, times a factor.
    LoadTimes(u32, f64),
    /// Changes the sign of the top.
    Negate,
    /// Adds this many from the top.
    Add(u32),
    /// Multiplies this many from the top.
    Multiply(u32),
    /// Divides the second from the top by the top.
    Divide,
    /// Raises the top to a whole power.
    Power(i8),
    /// Takes the square root of the top.
    Root,
    /// Takes the size of the top.
    Absolute,
}

/// A compiled formula.
#[derive(Clone, Debug)]
pub(crate) enum Program {
    /// The value stands.
    Given,
    /// The engine is asked again.
    Engine(Call, Vec<Id>),
    /// The steps of an expression.
    Steps(Vec<Step>),
}

impl Program {
    /// Compiles an expression over the graph.
    pub(crate) fn compile(
        workings: &Workings,
        name: &str,
        expression: &Expression,
    ) -> Result<Self, EvaluationError> {
        let mut steps = Vec::new();
        compile(workings, name, expression, None, &mut steps)?;
        Ok(Self::Steps(steps))
    }

    pub(crate) fn run(&self, values: &[f64], stack: &mut Vec<f64>) -> f64 {
        match self {
            Self::Given => f64::NAN,
            Self::Engine(call, reads) => call.evaluate(reads, values),
            Self::Steps(steps) => run(steps, values, stack),
        }
    }

    pub(crate) fn reads_any(&self, dirty: &[bool]) -> bool {
        match self {
            Self::Given => false,
            Self::Engine(_, reads) => reads.iter().any(|id| dirty[id.0 as usize]),
            Self::Steps(steps) => steps.iter().any(|step| match step {
                Step::Load(id) | Step::LoadTimes(id, _) => dirty[*id as usize],
                _ => false,
            }),
        }
    }

    fn each_read(&self, visit: &mut dyn FnMut(u32)) {
        match self {
            Self::Given => {}
            Self::Engine(_, reads) => reads.iter().for_each(|id| visit(id.0)),
            Self::Steps(steps) => steps.iter().for_each(|step| {
                if let Step::Load(id) | Step::LoadTimes(id, _) = step {
                    visit(*id);
                }
            }),
        }
    }
}

fn compile(
    workings: &Workings,
    name: &str,
    expression: &Expression,
    units: Option<CoherentUnits>,
    steps: &mut Vec<Step>,
) -> Result<(), EvaluationError> {
    let mut inner = |expression: &Expression| compile(workings, name, expression, units, steps);
    match expression {
        Expression::Number(number) => steps.push(Step::Number(*number)),
        Expression::Quantity(quantity, _) | Expression::Given(quantity, _) => {
            let unit = units.map_or(1.0, |units| units.of(quantity.dimension));
            steps.push(Step::Number(quantity.value / unit));
        }
        Expression::Working(id) => {
            let working = known(workings, name, *id)?;
            steps.push(match units {
                None => Step::Load(id.0),
                Some(units) => Step::LoadTimes(id.0, 1.0 / units.of(working.value.dimension)),
            });
        }
        Expression::Negative(of) => {
            inner(of)?;
            steps.push(Step::Negate);
        }
        Expression::Sum(terms) => {
            terms.iter().try_for_each(&mut inner)?;
            steps.push(Step::Add(terms.len() as u32));
        }
        Expression::Product(factors) => {
            factors.iter().try_for_each(&mut inner)?;
            steps.push(Step::Multiply(factors.len() as u32));
        }
        Expression::Quotient(above, below) => {
            inner(above)?;
            inner(below)?;
            steps.push(Step::Divide);
        }
        Expression::Power(base, power) => {
            inner(base)?;
            steps.push(Step::Power(*power));
        }
        Expression::Root(of) => {
            inner(of)?;
            steps.push(Step::Root);
        }
        Expression::Absolute(of) => {
            inner(of)?;
            steps.push(Step::Absolute);
        }
        Expression::SumOver(terms) => inner(terms)?,
        Expression::Symbol(_)
        | Expression::Words(_)
        | Expression::Differential(_)
        | Expression::Of(..)
        | Expression::Integral { .. }
        | Expression::LimitToZero { .. }
        | Expression::Equal(_)
        | Expression::About(_) => return Err(EvaluationError::NotComputable { working: name.to_owned() }),
    }
    Ok(())
}

fn known<'a>(workings: &'a Workings, name: &str, id: Id) -> Result<&'a Working, EvaluationError> {
    if (id.0 as usize) < workings.len() {
        Ok(workings.working(id))
    } else {
        Err(EvaluationError::UnknownWorking { working: name.to_owned() })
    }
}

fn run(steps: &[Step], values: &[f64], stack: &mut Vec<f64>) -> f64 {
    stack.clear();
    for step in steps {
        match *step {
            Step::Number(number) => stack.push(number),
            Step::Load(id) => stack.push(values[id as usize]),
            Step::LoadTimes(id, factor) => stack.push(values[id as usize] * factor),
            Step::Add(count) => {
                let start = stack.len() - count as usize;
                let (sum, largest) = stack
                    .drain(start..)
                    .fold((0.0, 0.0_f64), |(sum, most), term| (sum + term, most.max(term.abs())));
                stack.push(if sum.abs() <= NOTHING * largest { 0.0 } else { sum });
            }
            Step::Multiply(count) => {
                let start = stack.len() - count as usize;
                let product = stack.drain(start..).fold(1.0, |product, factor| product * factor);
                stack.push(product);
            }
            Step::Divide => {
                let below = stack.pop().unwrap_or(f64::NAN);
                if let Some(above) = stack.last_mut() {
                    *above /= below;
                }
            }
            Step::Negate | Step::Power(_) | Step::Root | Step::Absolute => {
                if let Some(top) = stack.last_mut() {
                    *top = match *step {
                        Step::Negate => -*top,
                        Step::Power(power) => whole_power(*top, power),
                        Step::Root => top.sqrt(),
                        _ => top.abs(),
                    };
                }
            }
        }
    }
    stack.pop().unwrap_or(f64::NAN)
}

/// The dimension of an expression, each operation checked.
pub(crate) fn dimension_of(
    workings: &Workings,
    name: &str,
    expression: &Expression,
) -> Result<Dimension, EvaluationError> {
    let inner = |expression: &Expression| dimension_of(workings, name, expression);
    let held = |dimension: Option<Dimension>| {
        dimension.ok_or_else(|| EvaluationError::PowerTooHigh { working: name.to_owned() })
    };
    match expression {
        Expression::Number(_) => Ok(Dimension::NONE),
        Expression::Quantity(quantity, _) | Expression::Given(quantity, _) => Ok(quantity.dimension),
        Expression::Working(id) => Ok(known(workings, name, *id)?.value.dimension),
        Expression::Negative(of) | Expression::Absolute(of) | Expression::SumOver(of) => inner(of),
        Expression::Sum(terms) => {
            let mut dimensions = terms.iter().map(inner);
            let first = dimensions.next().unwrap_or(Ok(Dimension::NONE))?;
            for other in dimensions {
                let other = other?;
                if other != first {
                    return Err(EvaluationError::TermsDiffer { working: name.to_owned(), first, other });
                }
            }
            Ok(first)
        }
        Expression::Product(factors) => factors
            .iter()
            .try_fold(Dimension::NONE, |product, factor| held(combine(product, inner(factor)?, 1))),
        Expression::Quotient(above, below) => held(combine(inner(above)?, inner(below)?, -1)),
        Expression::Power(base, power) => held(combine(Dimension::NONE, inner(base)?, *power)),
        Expression::Root(of) => {
            let under = inner(of)?;
            let powers = [under.mass, under.length, under.time];
            if powers.iter().any(|power| power % 2 != 0) {
                return Err(EvaluationError::OddRoot { working: name.to_owned(), under });
            }
            Ok(Dimension::of(under.mass / 2, under.length / 2, under.time / 2))
        }
        Expression::Symbol(_)
        | Expression::Words(_)
        | Expression::Differential(_)
        | Expression::Of(..)
        | Expression::Integral { .. }
        | Expression::LimitToZero { .. }
        | Expression::Equal(_)
        | Expression::About(_) => Err(EvaluationError::NotComputable { working: name.to_owned() }),
    }
}

/// `a` times `b` to a power; `None` where a power does not fit.
fn combine(a: Dimension, b: Dimension, power: i8) -> Option<Dimension> {
    let one = |a: i8, b: i8| b.checked_mul(power)?.checked_add(a);
    Some(Dimension::of(one(a.mass, b.mass)?, one(a.length, b.length)?, one(a.time, b.time)?))
}

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
        for (replaced, by) in &mut self.replaced {
            if *replaced == id.0
                && let Prepare::Value(value) = by
            {
                *value = to;
            }
        }
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

    /// The value of every working by id, with these replaced and everything downstream evaluated again.
    ///
    /// A replacing formula may read workings that stand after the replaced one (the first moment at the neutral
    /// axis in the place of that at the cut). They are evaluated first, the other replacements included; where one
    /// depends on the replaced working itself, that one counts with its own unreplaced value, so a formula may
    /// also read the right value of the very working that it replaces.
    pub fn run(&mut self, prepared: &Prepared) -> &[f64] {
        self.values.copy_from_slice(self.workings.values());
        let mut next = 0;
        for &place in &prepared.changed {
            let place = place as usize;
            let value = match prepared.replaced.get(next) {
                Some((id, by)) if *id as usize == place => {
                    next += 1;
                    match by {
                        Prepare::Value(value) => *value,
                        Prepare::Steps { steps, unit, ahead } => {
                            if *ahead {
                                self.with_later_ones(place, steps, prepared) * unit
                            } else {
                                run(steps, &self.values, &mut self.stack) * unit
                            }
                        }
                    }
                }
                _ => self.workings.programs()[place].run(&self.values, &mut self.stack),
            };
            self.values[place] = value;
        }
        &self.values
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
