//! Mistakes that cannot be told from the right value, or from one another.

use super::world::World;
use serde::Serialize;
use std::collections::BTreeMap;
use workings::evaluate::{EvaluationError, Evaluator, Prepared, Replacement};
use workings::mistake::Applied;
use workings::solved::Solved;
use workings::working::Id;

/// A mistake made at one working, and the value of the asked working to which it leads.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Wrong {
    /// The mistake's id: `q-to-the-cut`.
    pub mistake: String,
    /// The name of the working at which it is made.
    pub made_at: String,
    /// Where it leads, SI.
    pub value: f64,
}

/// A mistake that leads to the right value, as far as the tolerance can tell.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Hidden {
    /// The mistake.
    #[serde(flatten)]
    pub wrong: Wrong,
    /// Whether it does so with any numbers; otherwise other numbers would show it.
    pub by_structure: bool,
}

/// Two mistakes that lead to the same value, as far as the tolerance can tell.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Alike {
    /// The one that leads to the smaller value.
    pub one: Wrong,
    /// The other.
    pub other: Wrong,
    /// Whether they do so with any numbers; otherwise other numbers would tell them apart.
    pub by_structure: bool,
}

/// Values nearer than this part of their size are one and the same: sums of a few dozen terms differ by far less.
const SAME: f64 = 1e-9;

/// A mistake with the value that it leads to in the lesson, and in each of the other worlds.
pub(super) struct Led {
    pub(super) wrong: Wrong,
    pub(super) elsewhere: Vec<f64>,
}

/// By what factors the value of a working is changed to see whether another depends on it: up and down, little and far, and with
/// the other sign; what only the least of several values decides, or its size, answers to one of them.
const TRIED: [f64; 5] = [1.375, 0.625, 1e3, 1e-3, -1.125];

/// Whether a value depends on what a mistake replaces. A working may be read on the way to another and cancel there, as I does in the
/// reactions of a beam on three supports: no mistake made at it is on the way to them.
fn depends(
    evaluator: &mut Evaluator<'_>,
    solved: &Solved,
    replaced: &[Id],
    asked: Id,
) -> Result<bool, EvaluationError> {
    let right = solved.value(asked);
    for &id in replaced {
        let here = solved.value(id);
        for factor in TRIED {
            let other = if here == 0.0 { factor } else { factor * here };
            let prepared =
                with_given(solved, vec![(id, Replacement::Value(other))])?.only(solved.workings(), [asked]);
            // A second moment below zero, say, bends no beam: such a change tells nothing.
            let led_to = value(evaluator, &prepared, asked);
            if led_to.is_finite() && !same(led_to, right) {
                return Ok(true);
            }
        }
    }
    Ok(false)
}

/// Where every mistake leads that can show in a working; those that lead nowhere (a division by zero) are left out.
pub(super) fn led(
    solved: &Solved,
    mistakes: &[Applied],
    worlds: &[World],
    asked: Id,
) -> Result<Vec<Led>, EvaluationError> {
    let workings = solved.workings();
    let mut evaluator = Evaluator::new(workings);
    let mut all = Vec::new();
    // Whether the asked value depends on these workings.
    let mut known: BTreeMap<Vec<Id>, bool> = BTreeMap::new();
    let upstream = workings.upstream(asked);
    for made in mistakes.iter().filter(|made| made.shows_in(&upstream)) {
        let replaced = made.replacements();
        let own: Vec<Id> = replaced.iter().map(|(id, _)| *id).collect();
        let mut prepared = with_given(solved, replaced)?.only(workings, [asked]);
        let value = value(&mut evaluator, &prepared, asked);
        if !value.is_finite() {
            continue;
        }
        if same(value, solved.value(asked)) {
            let depends = match known.get(&own) {
                Some(known) => *known,
                None => depends(&mut evaluator, solved, &own, asked)?,
            };
            known.insert(own.clone(), depends);
            if !depends {
                continue;
            }
        }
        let mut elsewhere = Vec::with_capacity(worlds.len());
        for world in worlds {
            // What the mistake itself puts in the place of a given value stays there.
            for (id, changed) in world.given.iter().filter(|(id, _)| !own.contains(id)) {
                prepared.set(*id, *changed);
            }
            elsewhere.push(self::value(&mut evaluator, &prepared, asked));
        }
        let made_at = workings.working(made.working()).name.clone();
        all.push(Led { wrong: Wrong { mistake: made.id().to_owned(), made_at, value }, elsewhere });
    }
    Ok(all)
}

/// The right value in each of the worlds, SI.
pub(super) fn right_elsewhere(solved: &Solved, prepared: &Prepared, worlds: &[World], asked: Id) -> Vec<f64> {
    let mut evaluator = Evaluator::new(solved.workings());
    let mut prepared = prepared.clone();
    let in_world = |world: &World| {
        for (id, changed) in &world.given {
            prepared.set(*id, *changed);
        }
        value(&mut evaluator, &prepared, asked)
    };
    worlds.iter().map(in_world).collect()
}

/// Replacements, and all that the lesson gives replaced by its own value, so that it can be set to another.
pub(crate) fn with_given(
    solved: &Solved,
    replaced: Vec<(Id, Replacement)>,
) -> Result<Prepared, EvaluationError> {
    let given = super::judge::given(solved).map(|id| (id, Replacement::Value(solved.value(id))));
    // Of two replacements of one working the last one stands.
    solved.workings().prepare(&given.chain(replaced).collect::<Vec<_>>())
}

fn value(evaluator: &mut Evaluator<'_>, prepared: &Prepared, asked: Id) -> f64 {
    evaluator.run(prepared).get(asked.0 as usize).copied().unwrap_or(f64::NAN)
}

/// The mistakes within `half_width` of the right value; those are taken out of the list.
pub(super) fn hidden(led: &mut Vec<Led>, right: f64, elsewhere: &[f64], half_width: f64) -> Vec<Hidden> {
    let (hidden, shown): (Vec<Led>, Vec<Led>) =
        std::mem::take(led).into_iter().partition(|led| (led.wrong.value - right).abs() <= half_width);
    *led = shown;
    let told = |led: Led| Hidden {
        by_structure: same(led.wrong.value, right) && all_same(&led.elsewhere, elsewhere),
        wrong: led.wrong,
    };
    hidden.into_iter().map(told).collect()
}

/// The pairs of different mistakes that lead to values nearer than the tolerance, of which `band` gives the half-width at a
/// value (SI, growing with its size).
pub(super) fn alike(led: &mut [Led], band: impl Fn(f64) -> f64) -> Vec<Alike> {
    led.sort_by(|one, other| one.wrong.value.total_cmp(&other.wrong.value));
    let mut pairs = Vec::new();
    for (at, one) in led.iter().enumerate() {
        // The band of the larger of two sizes counts; on the way up that may be either of the two.
        let near = led[at + 1..].iter().take_while(|other| {
            let apart = other.wrong.value - one.wrong.value;
            apart <= band(one.wrong.value).max(band(other.wrong.value))
        });
        for other in near.filter(|other| other.wrong.mistake != one.wrong.mistake) {
            pairs.push(Alike {
                by_structure: same(one.wrong.value, other.wrong.value)
                    && all_same(&one.elsewhere, &other.elsewhere),
                one: one.wrong.clone(),
                other: other.wrong.clone(),
            });
        }
    }
    pairs
}

/// Whether two values are the same in every world in which both can be found, and there is one.
pub(super) fn all_same(one: &[f64], other: &[f64]) -> bool {
    let mut found =
        one.iter().zip(other).filter(|(one, other)| one.is_finite() && other.is_finite()).peekable();
    found.peek().is_some() && found.all(|(one, other)| same(*one, *other))
}

/// Whether two values are one but for the last bits of a sum.
pub(crate) fn same(one: f64, other: f64) -> bool {
    (one - other).abs() <= SAME * one.abs().max(other.abs())
}
