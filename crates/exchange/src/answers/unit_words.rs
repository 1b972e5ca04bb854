//! Units as students write them: `N/mm2`, `KN`, `mm^{4}`, `[MPa]`, `×10⁶ mm⁴`.

use super::numeral::{self, Mark, Start};
use assessment::set::AnswerUnit;
use workings::reading::nearest;
use workings::unit::{UNITS, Unit, lowered};

/// A unit, where the text is one. Capitals and small letters may be mixed up, but never m and M: the one is a
/// thousandth and the other a million.
pub(super) fn unit(text: &str) -> Option<Unit> {
    match text.trim() {
        "\"" | "″" | "''" => return Unit::read("in").ok(),
        "'" | "′" => return Unit::read("ft").ok(),
        _ => {}
    }
    let plain = bare(text).replace("**", "^").replace(['{', '}'], "");
    // A metre times a newton as lessons have it, or a thousandth of a newton.
    if plain.split(|c: char| !c.is_alphabetic()).any(|word| word == "mN") {
        return None;
    }
    Unit::read(&plain).or_else(|_| Unit::read(&respelled(&plain))).ok()
}

/// As [`unit`]; a text that differs from the unit that was asked for only in the size of its letters is that unit, m and M included:
/// of two that could be meant, one is on the paper.
pub(super) fn unit_near(text: &str, asked: &Unit) -> Option<Unit> {
    let letters = |text: &str| -> String {
        let kept = text.chars().map(|c| lowered(c).unwrap_or(c));
        kept.filter(|c| c.is_alphanumeric() || *c == '/').flat_map(char::to_lowercase).collect()
    };
    unit(text).or_else(|| (letters(bare(text)) == letters(&asked.text())).then(|| asked.clone()))
}

/// A unit with a power of ten before it perhaps, as [`AnswerUnit::text`] writes it.
pub(super) fn answer_unit(text: &str) -> Option<AnswerUnit> {
    let plain = bare(text);
    if let Some(unit) = unit(plain) {
        return Some(AnswerUnit { unit, power: 0 });
    }
    // What stands before a unit is read as what stands behind a 1.
    let times = if plain.starts_with("10") { "×" } else { "" };
    let one = format!("1{times}{plain}");
    let Some(Start::Number(numeral, length)) = numeral::start(&one, Mark::Point) else { return None };
    let power = numeral.last_place.filter(|_| numeral.power)?;
    let rest = one.get(length..)?.trim();
    let unit = if rest.is_empty() { Unit::NONE } else { unit(rest)? };
    Some(AnswerUnit { unit, power })
}

/// The unit that was meant, perhaps.
pub(super) fn meant(word: &str) -> Option<&'static str> {
    let symbols = UNITS.iter().flat_map(|unit| unit.spellings.iter().chain([&unit.symbol]).copied());
    nearest(word, symbols)
}

/// Without brackets round it and a full stop behind.
fn bare(text: &str) -> &str {
    let text = text.trim().trim_end_matches(['.', ',', ';']).trim();
    for (open, close) in [('(', ')'), ('[', ']'), ('{', '}')] {
        if let Some(inside) = text.strip_prefix(open).and_then(|text| text.strip_suffix(close)) {
            return inside.trim();
        }
    }
    text
}

/// Each word of the text that is no unit put for the one unit that differs from it only in the size of its letters.
fn respelled(text: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let of_word = first.is_alphabetic();
        let end = rest.find(|c: char| c.is_alphabetic() != of_word).unwrap_or(rest.len());
        let (piece, after) = rest.split_at(end);
        match of_word && Unit::read(piece).is_err() {
            true => out.push_str(&respelled_word(piece).unwrap_or_else(|| piece.to_owned())),
            false => out.push_str(piece),
        }
        rest = after;
    }
    out
}

fn respelled_word(word: &str) -> Option<String> {
    if let Some(symbol) = symbol_like(word) {
        return Some(symbol.to_owned());
    }
    // A force and a length written together: `KNm`. A small n alone may be a billionth: `nm`.
    let word = Some(word).filter(|word| !word.starts_with('n'))?;
    word.char_indices().skip(1).find_map(|(split, _)| {
        let (force, length) = word.split_at(split);
        let pair = format!("{}{}", symbol_like(force)?, symbol_like(length)?);
        Unit::read(&pair).is_ok().then_some(pair)
    })
}

/// The one spelling that differs from a word only in the size of letters other than m.
fn symbol_like(word: &str) -> Option<&'static str> {
    // Of one letter only N is safe: S, G, T are other things.
    if word.chars().count() == 1 && !matches!(word, "n" | "N" | "m") {
        return None;
    }
    let like = |symbol: &str| {
        symbol.chars().count() == word.chars().count()
            && symbol.chars().zip(word.chars()).all(|(one, other)| {
                one == other || (!matches!(one, 'm' | 'M') && one.eq_ignore_ascii_case(&other))
            })
    };
    let mut found = UNITS
        .iter()
        .flat_map(|unit| unit.spellings.iter().chain([&unit.symbol]))
        .filter(|symbol| like(symbol));
    let first = found.next()?;
    found.next().is_none().then_some(first)
}
