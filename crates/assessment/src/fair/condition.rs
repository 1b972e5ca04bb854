//! How strongly a result answers to its inputs.

use workings::evaluate::{Evaluator, Prepared};
use workings::solved::Solved;
use workings::working::Id;

/// By what part an input is changed: small enough for the change to be in proportion, large enough to stand far above the
/// rounding of floats.
const CHANGE: f64 = 1e-6;

/// The condition number of a result: the sum over the inputs of its relative change per relative change of the input,
/// `sum |x_i / f · df/dx_i|`; near zero relative to `size` instead of the result (SI, not negative).
///
/// tau of a beam with a rectangular section of `b` by `h` under a load `P` at its middle is in proportion to P, 1/b and 1/h:
/// its condition number is 3. Inputs that are zero count for nothing. An input may stand where the result jumps or bends
/// with it (the height of a cut at the edge of a flange); the smaller of the changes to both sides counts, since the larger
/// one is that of another lesson.
///
/// Source: the relative condition number of a function of several variables in the sum norm (numerical analysis, memory).
pub(super) fn condition(solved: &Solved, prepared: &Prepared, inputs: &[Id], asked: Id, size: f64) -> f64 {
    let mut evaluator = Evaluator::new(solved.workings());
    let mut prepared = prepared.clone();
    let right = solved.value(asked);
    let mut sum = 0.0;
    for &input in inputs {
        let value = solved.value(input);
        let mut change = |by: f64| {
            prepared.set(input, value * (1.0 + by));
            let found = evaluator.run(&prepared).get(asked.0 as usize).copied().unwrap_or(f64::NAN);
            ((found - right) / by).abs()
        };
        // A side on which nothing can be computed says nothing.
        let change = change(CHANGE).min(change(-CHANGE));
        prepared.set(input, value);
        if change > 0.0 {
            sum += change / size;
        }
    }
    sum
}
