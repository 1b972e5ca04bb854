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
    let unit = unit_of_the_box(one, units)?;
    match (one.answer, &one.part.ask) {
        (Answer::Value(written), _) => Some(written.number()),
        (Answer::Bare(written), _) => Some(written.number() * unit.in_si()),
        (Answer::Choice(chosen), Ask::Choice(choice)) => {
            choice.alternatives.get(*chosen).map(|chosen| chosen.value)
        }
        _ => None,
    }
}

/// The unit in which a number without one stands; none for a drawing.
pub(super) fn unit_of_the_box<'a>(one: &One<'a>, units: Units) -> Option<&'a AnswerUnit> {
    let (printed, typed) = match &one.part.ask {
        Ask::Value(value) => (&value.unit, &value.typed_unit),
        Ask::Choice(ChoicePart { value, .. }) => (&value.unit, &value.typed_unit),
        Ask::Place(place) => (&place.unit, &place.typed_unit),
        Ask::Sketch { .. } => return None,
    };
    Some(match units {
        Units::Typed => typed,
        Units::Printed | Units::Wanted => printed,
    })
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
            match in_own_figures(&written, &text) {
                Some(own) => line![own],
                None if written.is_empty() => line![read],
                None => line![read, ", read from ", quoted(&written)],
            }
        }
    }
}

/// What is shown with the figures that were written, `81.0 mm` for `81.0`; none where something else was written than is shown.
fn in_own_figures(written: &str, shown: &str) -> Option<String> {
    let of_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '\u{2212}');
    let parts = |text: &str| {
        let bare: String = text.chars().map(|c| if c == '\u{2212}' { '-' } else { c }).collect();
        let bare = bare.trim_start_matches('+').to_owned();
        let end = bare.find(|c: char| !of_number(c)).unwrap_or(bare.len());
        let (number, unit) = bare.split_at(end);
        let unit: String = unit.chars().filter(|c| !c.is_whitespace()).collect();
        (number.to_owned(), unit)
    };
    let ((own, own_unit), (number, unit)) = (parts(written), parts(shown));
    // With another decimal mark it is worth telling how it was read.
    let value = |text: &str| text.replace(',', ".").parse::<f64>().ok();
    let same_mark = !own.contains(['.', ','])
        || !number.contains(['.', ','])
        || own.contains('.') == number.contains('.');
    let same = value(&own)? == value(&number)? && same_mark && (own_unit.is_empty() || own_unit == unit);
    let rest = shown.get(shown.find(|c: char| !of_number(c)).unwrap_or(shown.len())..)?;
    same.then(|| format!("{}{rest}", own.replace('-', "\u{2212}")))
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
                Inline::Quantity(quantity, role) => {
                    line![Inline::Math(Expression::Equal(vec![symbol, Expression::Quantity(quantity, role)]))]
                }
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

#[cfg(test)]
mod tests {
    use super::in_own_figures;

    #[test]
    fn an_answer_is_shown_with_the_figures_that_were_written() {
        for (written, shown, expected) in [
            ("81.0", "81\u{a0}mm", Some("81.0\u{a0}mm")),
            ("81.0 mm", "81\u{a0}mm", Some("81.0\u{a0}mm")),
            ("-3.50", "\u{2212}3.5\u{a0}kN·m", Some("\u{2212}3.50\u{a0}kN·m")),
            ("24.30", "24.3×10³\u{a0}mm³", Some("24.30×10³\u{a0}mm³")),
            ("12,60", "12.6\u{a0}kN", None),
            ("12600 N", "12.6\u{a0}kN", None),
            ("V = 12.6", "12.6\u{a0}kN", None),
            ("", "12.6\u{a0}kN", None),
        ] {
            assert_eq!(in_own_figures(written, shown).as_deref(), expected, "{written}");
        }
    }
}
