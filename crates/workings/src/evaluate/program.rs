//! Formulas compiled to short programs on a stack.

use super::{CoherentUnits, EvaluationError, known, whole_power};
use crate::engine::Call;
use crate::expression::Expression;
use crate::graph::Workings;
use crate::working::Id;
use mechanics::real;

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
    /// Takes the cube root of the top.
    CubeRoot,
    /// The angle of the last two values, the second along.
    Arctangent,
    /// Takes the size of the top.
    Absolute,
}

impl Step {
    /// The working whose value it puts on the stack.
    pub(super) fn read(&self) -> Option<u32> {
        match *self {
            Step::Load(id) | Step::LoadTimes(id, _) => Some(id),
            _ => None,
        }
    }
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

    pub(crate) fn each_read(&self, visit: &mut dyn FnMut(u32)) {
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

pub(super) fn compile(
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
        Expression::Arctangent(above, below) => {
            inner(above)?;
            inner(below)?;
            steps.push(Step::Arctangent);
        }
        Expression::Power(base, power) => {
            inner(base)?;
            steps.push(Step::Power(*power));
        }
        Expression::Root(of) => {
            inner(of)?;
            steps.push(Step::Root);
        }
        Expression::CubeRoot(of) => {
            inner(of)?;
            steps.push(Step::CubeRoot);
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

pub(super) fn run(steps: &[Step], values: &[f64], stack: &mut Vec<f64>) -> f64 {
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
            Step::Arctangent => {
                let below = stack.pop().unwrap_or(f64::NAN);
                if let Some(above) = stack.last_mut() {
                    // A zero with a minus would turn the angle half round.
                    *above = real::atan2(*above + 0.0, below);
                }
            }
            Step::Negate | Step::Power(_) | Step::Root | Step::CubeRoot | Step::Absolute => {
                if let Some(top) = stack.last_mut() {
                    *top = match *step {
                        Step::Negate => -*top,
                        Step::Power(power) => whole_power(*top, power),
                        Step::Root => top.sqrt(),
                        Step::CubeRoot => real::cbrt(*top),
                        _ => top.abs(),
                    };
                }
            }
        }
    }
    stack.pop().unwrap_or(f64::NAN)
}
