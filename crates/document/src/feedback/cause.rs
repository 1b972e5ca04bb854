//! Why an answer is wrong: what was done, with the student's numbers, and why that is wrong.

use super::answer::{reckoned, unit_of_the_box, value};
use super::verdict::own_values;
use super::{Context, One};
use crate::notes::line;
use crate::paper::recognised::spelt;
use crate::tree::{Block, Equation, Inline};
use assessment::mark::{Answer, Cause, Explanation, Made, Slipped};
use workings::dimension::Dimension;
use workings::evaluate::Replacement;
use workings::expression::Expression;
use workings::mistake::slip::slips;
use workings::mistake::{self, Applied, Mistake};
use workings::quantity::Quantity;
use workings::unit_system::neighbours;
use workings::working::Id;

/// A value that was reckoned twice is the same to this part of its size: once by the marker, once here.
const SAME: f64 = 1e-9;

/// What was done and why it is wrong.
pub(super) fn cause(context: &Context<'_>, one: &One<'_>, explanation: &Explanation) -> Vec<Block> {
    let paragraph = |strong: &str, rest: Vec<Inline>| {
        let mut words = line![Inline::Strong(line![format!("{strong} ")])];
        words.extend(rest);
        Block::Paragraph(words)
    };
    if matches!(explanation.cause, Cause::RoundedEarly) {
        let own = own_values(context, &explanation.from);
        let mut words = Vec::new();
        if !own.is_empty() {
            words.push("With your own ".into());
            words.extend(own);
            words.push(" the right way leads to ".into());
            words.push(reckoned(context, one, explanation.expected));
            words.push(". ".into());
        }
        words.extend(line![
            "Your value is off by no more than may come of rounding too early: keep one figure more in every step between, and round \
             at the end."
        ]);
        return vec![Block::Paragraph(words)];
    }
    if let Cause::Slip { slip } = &explanation.cause {
        let own = own_values(context, &explanation.from);
        // Of half or double the value it is not known that all else is right.
        let mut words = match (own.is_empty(), is_last_resort(slip)) {
            (true, true) => Vec::new(),
            (true, false) => line!["The way is right, and one thing slipped. "],
            (false, last_resort) => {
                let mut words = line!["With your own "];
                words.extend(own);
                let and = if last_resort { ": " } else { " the way is right, and one thing slipped. " };
                words.push(and.into());
                words
            }
        };
        words.extend(feedback_of(context, one, explanation));
        return vec![Block::Paragraph(words)];
    }
    let mut words = line![reckoned(context, one, explanation.expected), " is what comes out for someone "];
    words.extend(someone_who(context, one, explanation));
    let own = own_values(context, &explanation.from);
    if !own.is_empty() {
        words.push(", going on from your own ".into());
        words.extend(own);
    }
    words.push(".".into());
    let mut blocks = vec![paragraph("What was done.", words)];
    blocks.extend(in_numbers(context, one, explanation));
    blocks.push(paragraph("Why that is wrong.", feedback_of(context, one, explanation)));
    blocks
}

/// `who takes Q as ..., at the first moment`; of two mistakes both.
pub(super) fn someone_who(context: &Context<'_>, one: &One<'_>, explanation: &Explanation) -> Vec<Inline> {
    let style = context.style();
    let mut words = Vec::new();
    for (place, made) in explanation.cause.mistakes().iter().enumerate() {
        words.push(if place > 0 { ", and who " } else { "who " }.into());
        match mistake_of(context, &made.mistake) {
            Some(mistake) => words.extend(spelt(mistake.does(style))),
            None => words.push("went another way".into()),
        }
        // Where the mistake is made at what is asked for, that need not be said.
        if one.about() != Some(&made.made_at) {
            words.push(format!(" (at the {})", style.notation.in_its_words(&made.made_at)).into());
        }
    }
    match &explanation.cause {
        Cause::MistakeAndSlip { slip, .. } => words.push(slipped_then(slip).into()),
        Cause::Slip { slip } => words.push(slipped_alone(slip).into()),
        Cause::RoundedEarly => words.push("who rounds too early on the way".into()),
        Cause::Mistake { .. } | Cause::TwoMistakes { .. } => {}
    }
    words
}

fn slipped_then(slip: &Slipped) -> &'static str {
    match slip.slip {
        "sign" => ", and then loses the sign",
        "half-or-double" => ", and then leaves a 2 out or puts it in twice",
        _ => ", and then loses a power of ten or takes another unit",
    }
}

fn slipped_alone(slip: &Slipped) -> &'static str {
    match slip.slip {
        "sign" => "who loses the sign",
        "half-or-double" => "who leaves a 2 out or puts it in twice",
        _ => "who loses a power of ten or takes another unit",
    }
}

/// Whether a slip is told only because nothing else fits: it has many causes.
pub(super) fn is_last_resort(slip: &Slipped) -> bool {
    slip.slip == "half-or-double"
}

/// What is to be said of it.
pub(super) fn feedback_of(context: &Context<'_>, one: &One<'_>, explanation: &Explanation) -> Vec<Inline> {
    let style = context.style();
    let mut words: Vec<Inline> = Vec::new();
    let mut say = |more: Vec<Inline>| {
        if !words.is_empty() {
            words.push(" ".into());
        }
        words.extend(more);
    };
    for made in explanation.cause.mistakes() {
        if let Some(mistake) = mistake_of(context, &made.mistake) {
            say(spelt(mistake.feedback(style)));
        }
    }
    match &explanation.cause {
        Cause::Slip { slip } if in_another_unit(context, one, slip).is_some() => {
            say(in_another_unit(context, one, slip).into_iter().collect());
        }
        Cause::Slip { slip } | Cause::MistakeAndSlip { slip, .. } => {
            let working = one.working().and_then(|working| context.solved().workings().get(working));
            let dimension = working.map_or(Dimension::LENGTH, |working| working.value.dimension);
            let known = slips(dimension, style.units).into_iter().find(|known| known.id == slip.slip);
            if let Some(known) = known {
                say(spelt(known.feedback(style)));
            }
        }
        Cause::RoundedEarly => say(line!["Keep one figure more in every step between."]),
        Cause::Mistake { .. } | Cause::TwoMistakes { .. } => {}
    }
    words
}

/// `The number is right in N, but kN is asked for.` Where a number stands without a unit, or with that of its box, and a unit of its
/// kind makes it right.
fn in_another_unit(context: &Context<'_>, one: &One<'_>, slip: &Slipped) -> Option<Inline> {
    let asked = unit_of_the_box(one, context.sheet.units)?;
    let text = asked.text();
    let stands_so = match one.answer {
        Answer::Bare(_) => true,
        Answer::Value(_) => {
            let bare = one.written.trim().trim_start_matches(|c: char| !c.is_alphabetic());
            asked.power == 0 && bare == asked.unit.text()
        }
        _ => false,
    };
    let wanted = asked.in_si() / slip.factor;
    let other = neighbours(&asked.unit).into_iter().find(|unit| {
        let one = unit.to_si(1.0);
        *unit != asked.unit && (one - wanted).abs() <= SAME * one.abs()
    })?;
    stands_so.then(|| format!("The number is right in {}, but {text} is asked for.", other.text()).into())
}

/// The mistake of an id: one of the catalogue, or the lecturer's own.
pub(super) fn mistake_of<'a>(context: &Context<'a>, id: &str) -> Option<&'a Mistake> {
    mistake::named(id).or_else(|| context.sheet.paper.lesson.mistakes.iter().find(|own| own.id() == id))
}

/// What was done as a line of numbers, the student's own among them; only where it leads to the very value that was found.
fn in_numbers(context: &Context<'_>, one: &One<'_>, explanation: &Explanation) -> Option<Block> {
    let Cause::Mistake { mistake: Made { mistake, made_at } } = &explanation.cause else { return None };
    let solved = context.solved();
    let workings = solved.workings();
    let made_at = workings.id(made_at)?;
    let asked = workings.id(one.working()?)?;
    let applied = mistake_of(context, mistake)?.applied(solved).into_iter();
    let pins: Option<Vec<(Id, Replacement)>> = explanation
        .from
        .iter()
        .map(|label| {
            let own = context.one(label)?;
            let value = value(own, context.sheet.units)?;
            Some((workings.id(own.working()?)?, Replacement::Value(value)))
        })
        .collect();
    let pins = pins?;
    let of_mistake = |applied: &Applied| applied.working() == made_at;
    applied.filter(of_mistake).find_map(|applied| {
        let mut replaced = pins.clone();
        replaced.extend(applied.replacements());
        let values = workings.evaluate_with(&replaced).ok()?;
        let led = *values.get(asked.0 as usize)?;
        let same = (led - explanation.expected).abs() <= SAME * explanation.expected.abs();
        let replaced = applied.replacements();
        let [(at, Replacement::Expression(wrong))] = replaced.as_slice() else { return None };
        let here = *values.get(at.0 as usize)?;
        if !same || !here.is_finite() {
            return None;
        }
        let working = workings.working(*at);
        let result = Quantity::new(here, working.value.dimension);
        let mut chain = vec![Expression::Symbol(working.symbol.clone())];
        // What is found only later, the other reaction say, was taken as it was before it followed from what went wrong.
        let before = workings.evaluate_with(&pins).ok()?;
        let found = at.0 as usize;
        let seen: Vec<f64> =
            values.iter().take(found + 1).chain(before.iter().skip(found + 1)).copied().collect();
        let numbers = workings.in_numbers_of(&seen, wrong);
        // Where one value stands for another there is nothing to work out.
        let alone = matches!(numbers, Expression::Quantity(..) | Expression::Given(..));
        let result = (!alone).then_some(Expression::Quantity(result, working.symbol.role));
        for link in [workings.in_symbols(wrong), numbers].into_iter().chain(result) {
            if chain.last() != Some(&link) {
                chain.push(link);
            }
        }
        // A value alone says nothing of how it came about.
        (chain.len() > 2).then(|| Block::Equation(Equation::of(&Expression::Equal(chain), solved.style())))
    })
}
