//! What a value would be, were the student's earlier answers right: found where the value is a product of powers of them.
//!
//! tau = V Q / (I t) becomes C V Q / (I t) with each answer in the unit that it is typed in. C holds the factors of the units
//! and of all that is not asked for, and is found from the right values, so that no unit is reckoned here.

use super::formula::Formula;
use super::identifier::Identifier;
use assessment::set::{Ask, Part, SetPaper, ValuePart};
use std::collections::BTreeMap;
use workings::expression::Expression;
use workings::graph::Workings;
use workings::working::{self, Formula as Stated};

/// A product with a factor outside of these is left to the marker: a player was seen to round products to three decimals.
const SOUND: std::ops::RangeInclusive<f64> = 1.0..=1e6;

/// The value of a part from the answers to the parts before it; `None` where it does not follow from them alone, or not as
/// a product of powers.
pub(super) fn expected(
    set: &SetPaper,
    part: &ValuePart,
    before: &[Part],
    name: &impl Fn(&Part) -> Option<Identifier>,
) -> Option<Formula> {
    let workings = set.solved.workings();
    let asked: BTreeMap<working::Id, (&Part, &ValuePart)> = before
        .iter()
        .filter_map(|part| match &part.ask {
            Ask::Value(value) => Some((workings.id(&value.working)?, (part, value))),
            _ => None,
        })
        .collect();
    let own = workings.id(&part.working)?;
    let Stated::Expression(expression) = &workings.working(own).formula else { return None };
    let mut powers = BTreeMap::new();
    gather(expression, 1, workings, &|id| asked.contains_key(&id), &mut powers)?;
    powers.retain(|_, power| *power != 0);
    if powers.is_empty() {
        return None;
    }
    let (mut above, mut below) = (Vec::new(), Vec::new());
    let mut product = 1.0;
    let (mut over, mut under) = (1.0_f64, 1.0_f64);
    for (id, power) in powers {
        let (earlier, value) = asked.get(&id)?;
        let right = value.typed_unit.from_si(value.right);
        product *= right.powi(power);
        let side = if power > 0 { (&mut above, &mut over) } else { (&mut below, &mut under) };
        for _ in 0..power.unsigned_abs() {
            side.0.push(Formula::Answer(name(earlier)?));
            *side.1 *= right.abs();
        }
    }
    let factor = part.typed_unit.from_si(part.right) / product;
    if !factor.is_finite() || factor == 0.0 {
        return None;
    }
    // The factor stands where it is not below 1.
    if factor.abs() >= 1.0 {
        above.insert(0, Formula::Number(factor));
        over *= factor.abs();
    } else {
        below.insert(0, Formula::Number(1.0 / factor));
        under /= factor.abs();
    }
    let sound = |factors: &[Formula], size: f64| factors.len() < 2 || SOUND.contains(&size);
    if !sound(&above, over) || !sound(&below, under) {
        return None;
    }
    let of = |mut factors: Vec<Formula>| match factors.len() {
        0 => Formula::Number(1.0),
        1 => factors.remove(0),
        _ => Formula::Product(factors),
    };
    Some(match below.is_empty() {
        true => of(above),
        false => Formula::Quotient(Box::new(of(above)), Box::new(of(below))),
    })
}

/// The powers of the answers in a product; `None` for what is none, and for what hangs on an answer without being one.
fn gather(
    expression: &Expression,
    power: i32,
    workings: &Workings,
    asked: &impl Fn(working::Id) -> bool,
    powers: &mut BTreeMap<working::Id, i32>,
) -> Option<()> {
    match expression {
        Expression::Number(_) => Some(()),
        Expression::Working(id) if asked(*id) => {
            *powers.entry(*id).or_default() += power;
            Some(())
        }
        Expression::Working(id) => (!hangs_on(*id, workings, asked)).then_some(()),
        Expression::Negative(inner) => gather(inner, power, workings, asked, powers),
        Expression::Product(factors) => {
            factors.iter().try_for_each(|factor| gather(factor, power, workings, asked, powers))
        }
        Expression::Quotient(above, below) => {
            gather(above, power, workings, asked, powers)?;
            gather(below, -power, workings, asked, powers)
        }
        Expression::Power(base, exponent) => {
            gather(base, power * i32::from(*exponent), workings, asked, powers)
        }
        _ => None,
    }
}

/// Whether a working is reckoned, in whatever way, from one that is asked for.
fn hangs_on(id: working::Id, workings: &Workings, asked: &impl Fn(working::Id) -> bool) -> bool {
    workings.reads(id).into_iter().any(|read| asked(read) || hangs_on(read, workings, asked))
}
