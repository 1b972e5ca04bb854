//! What may vary: a list of choices, or steps from one value to another.

use super::form::Reader;
use super::node::{Node, Table, What};
use super::quantity::{Known, Written, any};
use super::words::{in_quotes, quoted};
use crate::finding::Report;
use crate::key::Key;
use crate::lesson::{Choices, NamedValue, ValueChoice, Variation};
use std::collections::BTreeSet;
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};
use workings::quantity::Quantity;

/// The most choices that one value may have; more would be no choice that a lecturer could look over.
const MOST_CHOICES: f64 = 10_000.0;

/// A step is counted in when it ends within this part of a step of the last value: both were read from decimals.
const STEP_SLACK: f64 = 1e-9;

/// Choices nearer than this part of their size are one, in whatever units they are written.
const SAME_CHOICE: f64 = 1e-9;

pub(super) fn read(reader: &mut Reader<'_>, key: &Key, value: &Spanned<DeValue<'_>>) -> What {
    match value.get_ref() {
        DeValue::Array(list) => {
            let mut choices = Vec::new();
            let mut bad = false;
            for entry in list.iter() {
                match quantity(reader, key, entry) {
                    Some(choice) => choices.push(choice),
                    None => bad = true,
                }
            }
            if bad { What::Bad } else { alike(reader, choices, value.span()) }
        }
        DeValue::Table(table) => steps(reader, key, table, value.span()),
        other => reader.wrong_form(key, other, value.span()),
    }
}

fn quantity(reader: &mut Reader<'_>, key: &Key, value: &Spanned<DeValue<'_>>) -> Option<ValueChoice> {
    let DeValue::String(text) = value.get_ref() else {
        let written = reader.file.get(value.span()).unwrap_or("");
        reader
            .report
            .add(value.span(), format!("a choice is a quantity in quotes; {} is none", quoted(written)))
            .mend(format!("{} = [\"4 kN\", \"5 kN\"]", key.word()))
            .by_itself();
        return None;
    };
    let place = value.span();
    any(&Written::new(text, place.clone(), reader.file), "4 kN", reader.known, reader.report)
        .map(|quantity| ValueChoice { written: text.trim().to_owned(), quantity, place })
}

/// The choices, where there are at least two and all are of one kind.
fn alike(reader: &mut Reader<'_>, choices: Vec<ValueChoice>, span: Range<usize>) -> What {
    if choices.len() < 2 {
        reader
            .report
            .add(span, "nothing varies here: fewer than two choices")
            .mend("give at least two, or take it out");
        return What::Bad;
    }
    let first = choices[0].quantity.dimension;
    for choice in &choices {
        let found = choice.quantity.dimension;
        if found != first {
            let headline = format!("this choice is {}, the first is {}", found.in_words(), first.in_words());
            reader.report.add(choice.place.clone(), headline).mend("give choices of one kind");
            return What::Bad;
        }
    }
    let mut twice = false;
    for (place, choice) in choices.iter().enumerate() {
        let value = choice.quantity.value;
        let one = |other: &&ValueChoice| (other.quantity.value - value).abs() <= SAME_CHOICE * value.abs();
        if let Some(earlier) = choices[..place].iter().find(one) {
            twice = true;
            let headline = match earlier.written == choice.written {
                true => format!("{} is among the choices already", in_quotes(&choice.written)),
                false => {
                    format!("{} is the same as {}", in_quotes(&choice.written), in_quotes(&earlier.written))
                }
            };
            reader
                .report
                .add(choice.place.clone(), headline)
                .mend("take it out: else two papers with the same numbers would count as different")
                .by_itself();
        }
    }
    if twice { What::Bad } else { What::Choices(choices) }
}

fn steps(reader: &mut Reader<'_>, key: &Key, table: &DeTable<'_>, span: Range<usize>) -> What {
    let mut given: [Option<ValueChoice>; 3] = [None, None, None];
    let mut bad = false;
    const WORDS: [&str; 3] = ["from", "to", "step"];
    for (word, value) in table.iter() {
        match WORDS.iter().position(|known| *known == word.get_ref().as_ref()) {
            Some(at) => {
                given[at] = quantity(reader, key, value);
                bad |= given[at].is_none();
            }
            None => {
                bad = true;
                reader
                    .report
                    .add(word.span(), format!("what varies has no key `{}`", quoted(word.get_ref())))
                    .mend("it takes from, to and step")
                    .by_itself();
            }
        }
    }
    if bad {
        return What::Bad;
    }
    let [Some(from), Some(to), Some(step)] = &given else {
        let missing: Vec<&str> =
            WORDS.iter().zip(&given).filter(|(_, given)| given.is_none()).map(|(word, _)| *word).collect();
        reader
            .report
            .add(span, format!("what varies has no `{}`", missing.join("` and no `")))
            .mend(format!("{} = {{ from = \"3 kN\", to = \"6 kN\", step = \"0.5 kN\" }}", key.word()));
        return What::Bad;
    };
    let (written, end) = ([from.written.as_str(), step.written.as_str()], to.written.clone());
    let [from, to, step] = [from, to, step].map(|given| given.quantity);
    if from.dimension != to.dimension || from.dimension != step.dimension {
        reader
            .report
            .add(
                span,
                format!(
                    "from is {}, to is {}, step is {}",
                    from.dimension.in_words(),
                    to.dimension.in_words(),
                    step.dimension.in_words()
                ),
            )
            .mend("give all three in units of one kind");
        return What::Bad;
    }
    let count = ((to.value - from.value) / step.value + STEP_SLACK).floor();
    if !(step.value > 0.0 && count >= 1.0) {
        reader
            .report
            .add(span, "no step leads from the first value to the last")
            .mend("let `to` be greater than `from`, and `step` greater than zero and no greater than their difference");
        return What::Bad;
    }
    if count >= MOST_CHOICES {
        reader
            .report
            .add(span, "these are more than 10 000 steps")
            .mend(format!("take a longer step than {}", in_quotes("step")));
        return What::Bad;
    }
    let missed = to.value - from.value - count * step.value;
    let last_of = |at: f64| nth(written, at as u32);
    if missed > STEP_SLACK * step.value {
        let headline = format!(
            "these steps never reach {}: the last is {}",
            in_quotes(&end),
            in_quotes(&last_of(count))
        );
        reader
            .report
            .remark(span.clone(), headline)
            .mend(format!("to = {}, or another step", in_quotes(&last_of(count))));
    }
    let mut choices = Vec::new();
    for at in 0..=count as u32 {
        let text = nth(written, at);
        // The text is what a paper says, so its value is what comes of reading it.
        let value = workings::reading::parse(&text).and_then(|parsed| parsed.evaluate(&reader.known.names));
        let quantity =
            value.unwrap_or(Quantity::new(from.value + f64::from(at) * step.value, from.dimension));
        choices.push(ValueChoice { written: text, quantity, place: span.clone() });
    }
    What::Choices(choices)
}

/// What is written for a value so many steps from the first: `4.5 kN` where both are plain numbers with one unit, else
/// the sum of the two.
fn nth([from, step]: [&str; 2], at: u32) -> String {
    if at == 0 {
        return from.to_owned();
    }
    in_one_unit(from, step, at).unwrap_or_else(|| format!("({from}) + {at}*({step})"))
}

fn in_one_unit(from: &str, step: &str, at: u32) -> Option<String> {
    let ((first, unit), (by, of_step)) = (Decimal::before_unit(from)?, Decimal::before_unit(step)?);
    if unit != of_step {
        return None;
    }
    let places = first.places.max(by.places);
    let sum = by.in_units(places)?.checked_mul(i64::from(at))?.checked_add(first.in_units(places)?)?;
    let number = Decimal { digits: sum, places }.written();
    Some(format!("{number} {unit}").trim_end().to_owned())
}

/// A number as it is written, exactly: digits with so many of them after the point.
struct Decimal {
    digits: i64,
    places: u32,
}

impl Decimal {
    /// The plain number that a text begins with, and what follows it, where that is but a unit.
    fn before_unit(text: &str) -> Option<(Self, &str)> {
        let end = text.find(|c: char| !c.is_ascii_digit() && c != '.' && c != '-').unwrap_or(text.len());
        let (number, unit) = (&text[..end], text[end..].trim());
        if unit.chars().any(|c| c.is_ascii_digit() || matches!(c, '+' | '-' | '\u{2212}' | '(' | '*')) {
            return None;
        }
        let (whole, part) = number.split_once('.').unwrap_or((number, ""));
        let digits = format!("{whole}{part}").parse().ok()?;
        Some((Self { digits, places: u32::try_from(part.len()).ok()? }, unit))
    }

    /// Its digits with more places after the point.
    fn in_units(&self, places: u32) -> Option<i64> {
        self.digits.checked_mul(10_i64.checked_pow(places.checked_sub(self.places)?)?)
    }

    fn written(&self) -> String {
        let sign = if self.digits < 0 { "-" } else { "" };
        let places = self.places as usize;
        let digits = format!("{:0>1$}", self.digits.unsigned_abs(), places + 1);
        let (whole, part) = digits.split_at(digits.len() - places);
        let part = part.trim_end_matches('0');
        if part.is_empty() { format!("{sign}{whole}") } else { format!("{sign}{whole}.{part}") }
    }
}

/// The names that stand under `[vary]`.
pub(super) fn varied(lesson: &Table) -> impl Iterator<Item = &str> {
    lesson.table("vary").into_iter().flat_map(Table::iter).map(|(name, _)| name)
}

/// These names, and those of the values that are made from them.
pub(crate) fn moving<'a>(varied: impl Iterator<Item = &'a str>, values: &[NamedValue]) -> BTreeSet<String> {
    let mut moving: BTreeSet<String> = varied.map(str::to_owned).collect();
    loop {
        let before = moving.len();
        for value in values {
            if uses(&value.written, &moving).is_some() {
                moving.insert(value.name.clone());
            }
        }
        if moving.len() == before {
            return moving;
        }
    }
}

/// The first name of these that a text uses.
pub(crate) fn uses(text: &str, names: &BTreeSet<String>) -> Option<String> {
    let parsed = workings::reading::parse(text).ok()?;
    parsed.names().into_iter().map(|(name, _)| name).find(|name| names.contains(*name)).map(str::to_owned)
}

/// The named values that vary, with their choices; what does not fit the values is reported.
pub(super) fn of_values(
    lesson: &Table,
    values: &[NamedValue],
    moving: &BTreeSet<String>,
    known: &Known,
    report: &mut Report,
) -> Vec<Variation> {
    let Some(table) = lesson.table("vary") else { return Vec::new() };
    let mut variations = Vec::new();
    for (name, node) in table.iter() {
        let Some(value) = values.iter().find(|value| value.name == name) else {
            if !known.refused.contains(name) {
                tell_unnamed(name, node, values, report);
            }
            continue;
        };
        let choices = table.choices(name).to_vec();
        let Some(first) = choices.first() else { continue };
        let (own, found) = (value.quantity.dimension, first.quantity.dimension);
        if own != found {
            let headline =
                format!("`{}` is {}, but varies as {}", quoted(name), own.in_words(), found.in_words());
            report.add(node.span.clone(), headline).mend("give choices of the same kind as the value");
            continue;
        }
        // Each choice stands by itself, or two things that vary would hang together.
        let made = choices.iter().find_map(|choice| Some((choice, uses(&choice.written, moving)?)));
        if let Some((choice, other)) = made {
            let headline = format!("this choice is made from `{}`, which varies itself", quoted(&other));
            report
                .add(choice.place.clone(), headline)
                .mend("give it a number of its own; or make a value from both under [values]");
            continue;
        }
        variations.push(Variation { name: name.to_owned(), choices: Choices::Values(choices) });
    }
    variations
}

fn tell_unnamed(name: &str, node: &Node, values: &[NamedValue], report: &mut Report) {
    let near = workings::reading::nearest(name, values.iter().map(|value| value.name.as_str()));
    let mend = match near {
        Some(near) => format!("did you mean `{}`?", quoted(near)),
        None => {
            format!("under [values] give {} = ..., the value that the lesson is shown with", quoted(name))
        }
    };
    report
        .add(node.key.clone(), format!("`{}` varies, but it is not under [values]", quoted(name)))
        .mend(mend);
}
