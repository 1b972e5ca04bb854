//! A student's answer as it was read, and what is right.

use super::{Context, One};
use crate::notes::line;
use crate::paper::value_words::{beside, exact, place, rounded};
use crate::paper::worked::right_places;
use crate::tree::{Inline, plain};
use assessment::mark::{Answer, Units};
use assessment::set::{AnswerUnit, Ask, ChoicePart};
use workings::expression::Expression;

/// Of what a student wrote, so many characters are shown.
const SHOWN: usize = 60;

/// The value of an answer, SI; none where there is no number of the kind that was asked for.
pub(super) fn value(one: &One<'_>, units: Units) -> Option<f64> {
    let (printed, typed): (&AnswerUnit, &AnswerUnit) = match &one.part.ask {
        Ask::Value(value) => (&value.unit, &value.typed_unit),
        Ask::Choice(ChoicePart { value, .. }) => (&value.unit, &value.typed_unit),
        Ask::Place(place) => (&place.unit, &place.typed_unit),
        Ask::Sketch { .. } => return None,
    };
    match (one.answer, &one.part.ask) {
        (Answer::Value(written), _) => Some(written.number()),
        (Answer::Bare(written), _) => Some(
            written.number()
                * match units {
                    Units::Typed => typed.in_si(),
                    Units::Printed | Units::Wanted => printed.in_si(),
                },
        ),
        (Answer::Choice(chosen), Ask::Choice(choice)) => {
            choice.alternatives.get(*chosen).map(|chosen| chosen.value)
        }
        _ => None,
    }
}

/// The answer as it was read; as it was written too, where that is not the same.
pub(super) fn as_read(context: &Context<'_>, one: &One<'_>) -> Vec<Inline> {
    let written = shortened(one.written);
    match one.answer {
        Answer::Blank => line!["nothing"],
        Answer::Unreadable(_) if matches!(one.part.ask, Ask::Sketch { .. }) => line!["your drawing"],
        Answer::Unreadable(_) | Answer::OtherKind(_) => line![quoted(&written)],
        Answer::Value(_) | Answer::Bare(_) | Answer::Choice(_) => {
            let Some(value) = value(one, context.sheet.units) else { return line![quoted(&written)] };
            let read = shown(context, one, value);
            let text = plain(std::slice::from_ref(&read), context.style());
            if written.is_empty() || says(&written, &text) {
                line![read]
            } else {
                line![read, ", read from ", quoted(&written)]
            }
        }
    }
}

/// Whether what was written is, but for blanks and the kind of minus, what is shown, with its unit or without.
fn says(written: &str, shown: &str) -> bool {
    let bare = |text: &str| -> String {
        let kept = text.chars().filter(|c| !c.is_whitespace() && *c != '\u{a0}' && *c != '\u{202f}');
        kept.map(|c| if c == '\u{2212}' { '-' } else { c }).collect()
    };
    let (written, shown) = (bare(written), bare(shown));
    let number = shown.trim_end_matches(|c: char| !c.is_ascii_digit());
    let is_number = shown.strip_prefix(&written).is_some_and(|unit| {
        !written.is_empty() && !unit.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '.' | ','))
    });
    written == shown || written == number || is_number
}

/// In quotation marks, so that it is seen where it begins and ends.
fn quoted(written: &str) -> Inline {
    format!("\u{201c}{written}\u{201d}").into()
}

fn shortened(written: &str) -> String {
    let written = written.trim();
    if written.chars().count() <= SHOWN {
        return written.to_owned();
    }
    let start: String = written.chars().take(SHOWN).collect();
    format!("{start}\u{2026}")
}

/// A value in the unit of its part, all of its figures.
pub(super) fn shown(context: &Context<'_>, one: &One<'_>, value: f64) -> Inline {
    match &one.part.ask {
        Ask::Value(asked) => exact(value, &asked.working, context.solved()),
        Ask::Choice(choice) => beside(value, &choice.value, context.solved()),
        Ask::Place(asked) => place(value, asked.along),
        Ask::Sketch { .. } => "".into(),
    }
}

/// A value that was reckoned, rounded as the course rounds.
pub(super) fn reckoned(context: &Context<'_>, one: &One<'_>, value: f64) -> Inline {
    match &one.part.ask {
        Ask::Value(asked) => rounded(value, &asked.working, context.solved()),
        _ => shown(context, one, value),
    }
}

/// What is right.
pub(super) fn right(context: &Context<'_>, one: &One<'_>) -> Vec<Inline> {
    match &one.part.ask {
        Ask::Value(value) => {
            let symbol = Expression::Symbol(value.symbol.clone());
            let mut words = match rounded(value.right, &value.working, context.solved()) {
                Inline::Quantity(quantity, role) => line![Inline::Math(Expression::Equal(vec![
                    symbol,
                    Expression::Quantity(quantity, role)
                ]))],
                other => line![other],
            };
            if value.either_sign {
                words.push(", with either sign".into());
            }
            words
        }
        Ask::Choice(choice) => line![beside(choice.value.right, &choice.value, context.solved())],
        Ask::Place(place) => right_places(place),
        Ask::Sketch { .. } => line!["the drawing below"],
    }
}
