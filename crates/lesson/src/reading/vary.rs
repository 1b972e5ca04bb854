//! What may vary: a list of choices, or steps from one value to another.

use super::form::Reader;
use super::node::What;
use super::quantity::{Written, any};
use super::words::{in_quotes, quoted};
use crate::key::Key;
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};
use workings::quantity::Quantity;

/// The most choices that one value may have; more would be no choice that a lecturer could look over.
const MOST_CHOICES: f64 = 10_000.0;

/// A step is counted in when it ends within this part of a step of the last value: both were read from decimals.
const STEP_SLACK: f64 = 1e-9;

pub(super) fn read(reader: &mut Reader<'_>, key: &Key, value: &Spanned<DeValue<'_>>) -> What {
    match value.get_ref() {
        DeValue::Array(list) => {
            let mut choices = Vec::new();
            let mut bad = false;
            for entry in list.iter() {
                match quantity(reader, key, entry) {
                    Some(choice) => choices.push((choice, entry.span())),
                    None => bad = true,
                }
            }
            if bad { What::Bad } else { alike(reader, choices, value.span()) }
        }
        DeValue::Table(table) => steps(reader, key, table, value.span()),
        other => reader.wrong_form(key, other, value.span()),
    }
}

fn quantity(reader: &mut Reader<'_>, key: &Key, value: &Spanned<DeValue<'_>>) -> Option<Quantity> {
    let DeValue::String(text) = value.get_ref() else {
        let written = reader.file.get(value.span()).unwrap_or("");
        reader
            .report
            .add(value.span(), format!("a choice is a quantity in quotes; {} is none", quoted(written)))
            .mend(format!("{} = [\"4 kN\", \"5 kN\"]", key.word()))
            .by_itself();
        return None;
    };
    any(&Written::new(text, value.span(), reader.file), "4 kN", reader.known, reader.report)
}

/// The choices, where there are at least two and all are of one kind.
fn alike(reader: &mut Reader<'_>, choices: Vec<(Quantity, Range<usize>)>, span: Range<usize>) -> What {
    if choices.len() < 2 {
        reader
            .report
            .add(span, "nothing varies here: fewer than two choices")
            .mend("give at least two, or take it out");
        return What::Bad;
    }
    let first = choices[0].0.dimension;
    for (choice, place) in &choices {
        if choice.dimension != first {
            let headline =
                format!("this choice is {}, the first is {}", choice.dimension.in_words(), first.in_words());
            reader.report.add(place.clone(), headline).mend("give choices of one kind");
            return What::Bad;
        }
    }
    What::Choices(choices.into_iter().map(|(choice, _)| choice).collect())
}

fn steps(reader: &mut Reader<'_>, key: &Key, table: &DeTable<'_>, span: Range<usize>) -> What {
    let mut given: [Option<Quantity>; 3] = [None; 3];
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
    let [Some(from), Some(to), Some(step)] = given else {
        let missing: Vec<&str> =
            WORDS.iter().zip(given).filter(|(_, given)| given.is_none()).map(|(word, _)| *word).collect();
        reader
            .report
            .add(span, format!("what varies has no `{}`", missing.join("` and no `")))
            .mend(format!("{} = {{ from = \"3 kN\", to = \"6 kN\", step = \"0.5 kN\" }}", key.word()));
        return What::Bad;
    };
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
    let choices =
        (0..=count as u32).map(|i| Quantity::new(from.value + f64::from(i) * step.value, from.dimension));
    What::Choices(choices.collect())
}
