//! One of several values: by its letter, or by the value itself.

use super::asked::{Chosen, Signs};
use super::doubt::{Doubt, DoubtKind};
use super::number::{self, Beside};
use super::numeral::Mark;
use super::written::{plain, written};
use assessment::set::{self, AnswerUnit};

/// The index of the value that is chosen.
pub(super) fn choice(
    raw: &str,
    unit: &AnswerUnit,
    values: &[Chosen],
    beside: Option<&Beside>,
) -> Result<usize, Doubt> {
    let text = plain(raw);
    if let Some(index) = letter(&text).or_else(|| name(&text)) {
        if index < values.len() {
            return Ok(index);
        }
        let what = format!("there are {} values to choose from, this is none of them", values.len());
        return Err(Doubt::between(DoubtKind::Choice, what, told(values)));
    }
    // A letter with its value behind it: `b) 12 MPa`.
    let lettered = text.split_once([')', ':', '.', ' ']).and_then(|(before, after)| {
        Some((letter(before).filter(|&index| index < values.len())?, after.trim()))
    });
    let by_value = |text: &str| -> Vec<usize> {
        let numbers = Mark::BOTH.into_iter().filter_map(|mark| {
            number::number(&written(text, mark, &unit.unit).ok()?, unit, Signs::None, (beside, None)).ok()
        });
        let mut found: Vec<usize> = numbers
            .filter(|number| number.dimension == unit.unit.dimension())
            .flat_map(|number| {
                // The student copies what is printed, which is rounded to some figures.
                let slack = number.half_place().unwrap_or(0.0) + 1e-9 * number.value.abs();
                let near = move |(_, one): &(usize, &Chosen)| (one.value - number.value).abs() <= slack;
                values.iter().enumerate().filter(near).map(|(index, _)| index)
            })
            .collect();
        found.sort_unstable();
        found.dedup();
        found
    };
    let found = match lettered {
        Some((index, rest)) => {
            let by_value = by_value(rest);
            if by_value == [index] { by_value } else { Vec::new() }
        }
        None => by_value(&text),
    };
    match found.as_slice() {
        [one] => Ok(*one),
        _ => {
            let what = "this is not exactly one of the values to choose from";
            Err(Doubt::between(DoubtKind::Choice, what, told(values)))
        }
    }
}

/// `b`, `B`, `b)`, `(b)`, `[b]`, `b.`: the letter's place in the alphabet.
fn letter(text: &str) -> Option<usize> {
    let text = text.trim_matches(['(', ')', '[', ']', '.', ':', ' ']);
    let mut characters = text.chars();
    let letter = characters.next().filter(char::is_ascii_alphabetic)?;
    characters.next().is_none().then(|| usize::from(letter.to_ascii_lowercase() as u8 - b'a'))
}

/// `choice-2`: the name that the second has in our packages of questions.
fn name(text: &str) -> Option<usize> {
    text.strip_prefix("choice-")?.parse::<usize>().ok()?.checked_sub(1)
}

/// All of them as the paper prints them, with their letters.
fn told(values: &[Chosen]) -> Vec<String> {
    let one = |(index, one): (usize, &Chosen)| format!("{}) {}", set::letter(index), one.printed);
    values.iter().enumerate().map(one).collect()
}
