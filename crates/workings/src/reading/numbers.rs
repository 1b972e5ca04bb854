//! The numbers in a text: decimals, powers of ten, digits in groups, fractions of whole numbers.

use crate::unit::{is_blank, lowered};

/// A number at the start of a text.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Number {
    /// As a decimal that the standard library reads, where it is one; `None` for fractions.
    pub decimal: Option<String>,
    /// Its value; not finite where the text is too large.
    pub value: f64,
    /// Its length in bytes.
    pub length: usize,
}

/// Why a text that begins like a number is none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NumberFault {
    /// A comma between digits, so many bytes in.
    Comma(usize),
    /// A fraction over zero, of so many bytes.
    OverZero(usize),
}

const FRACTIONS: [(char, f64, f64); 15] = [
    ('½', 1.0, 2.0),
    ('⅓', 1.0, 3.0),
    ('⅔', 2.0, 3.0),
    ('¼', 1.0, 4.0),
    ('¾', 3.0, 4.0),
    ('⅕', 1.0, 5.0),
    ('⅖', 2.0, 5.0),
    ('⅗', 3.0, 5.0),
    ('⅘', 4.0, 5.0),
    ('⅙', 1.0, 6.0),
    ('⅚', 5.0, 6.0),
    ('⅛', 1.0, 8.0),
    ('⅜', 3.0, 8.0),
    ('⅝', 5.0, 8.0),
    ('⅞', 7.0, 8.0),
];

/// What a character stands for that is a fraction by itself: 0.5 for `½`.
pub fn fraction(character: char) -> Option<f64> {
    FRACTIONS.iter().find(|(sign, ..)| *sign == character).map(|(_, above, below)| above / below)
}

/// Whether a number begins with this character, and the one after it.
pub(super) fn begins_number(text: &str) -> bool {
    let mut characters = text.chars();
    match characters.next() {
        Some('.') => characters.next().is_some_and(|c| c.is_ascii_digit()),
        Some(first) => first.is_ascii_digit() || fraction(first).is_some(),
        None => false,
    }
}

/// Whether a character belongs to numbers, though it counts as alphanumeric.
pub(super) fn is_numeric_sign(character: char) -> bool {
    fraction(character).is_some() || lowered(character).is_some()
}

fn digits(text: &str) -> usize {
    text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len())
}

fn blanks(text: &str) -> usize {
    text.len() - text.trim_start_matches(is_blank).len()
}

/// Reads the number at the start of a text that [`begins_number`]. `over` tells that a division sign stands before
/// it: then `1/2 in` is not taken as one number.
pub(super) fn number(text: &str, over: bool) -> Result<Number, NumberFault> {
    if let Some((value, length)) = leading_fraction(text) {
        return Ok(Number { decimal: None, value, length });
    }
    let (mut plain, mut length) = whole(text);
    let whole_end = length;
    if let Some(part) = text[length..].strip_prefix('.') {
        let (decimals, count) = part_digits(part);
        plain = format!("{plain}.{decimals}");
        length += 1 + count;
    } else if text[length..].starts_with(',') && text[length + 1..].starts_with(|c: char| c.is_ascii_digit())
    {
        return Err(NumberFault::Comma(length));
    }
    let exponent = exponent(&text[length..]).or_else(|| times_power_of_ten(&text[length..]));
    if let Some((power, count)) = &exponent {
        plain = format!("{plain}e{power}");
        length += count;
    }
    let value: f64 = plain.parse().unwrap_or(f64::NAN);
    if length == whole_end
        && let Some(found) = added_fraction(text, value, length, over)
    {
        return found.map(|(value, length)| Number { decimal: None, value, length });
    }
    Ok(Number { decimal: Some(plain), value, length })
}

fn leading_fraction(text: &str) -> Option<(f64, usize)> {
    let first = text.chars().next()?;
    fraction(first).map(|value| (value, first.len_utf8()))
}

/// Whole digits, in groups of three or not: the digits alone, and the bytes read.
fn whole(text: &str) -> (String, usize) {
    let mut length = digits(text);
    let mut plain = text[..length].to_owned();
    if !(1..=3).contains(&length) {
        return (plain, length);
    }
    loop {
        let rest = &text[length..];
        let Some(space) = rest.chars().next().filter(|c| is_blank(*c) && *c != '\n') else { break };
        let group = &rest[space.len_utf8()..];
        let after = group.get(3..).and_then(|after| after.chars().next());
        // Of `1 125/200` the 125 is the upper part of a fraction.
        let ends = !after.is_some_and(|c| c.is_ascii_digit() || matches!(c, '/' | '\u{2044}' | '\u{2215}'));
        if digits(group) < 3 || !ends {
            break;
        }
        plain.push_str(&group[..3]);
        length += space.len_utf8() + 3;
    }
    (plain, length)
}

/// Digits after the point; thin spaces between them are passed over.
fn part_digits(text: &str) -> (String, usize) {
    let mut plain = String::new();
    let mut length = 0;
    for (place, character) in text.char_indices() {
        let group = matches!(character, '\u{202f}' | '\u{2009}');
        let goes_on = group && text[place + character.len_utf8()..].starts_with(|c: char| c.is_ascii_digit());
        if character.is_ascii_digit() {
            plain.push(character);
        } else if !goes_on || plain.is_empty() {
            break;
        }
        length = place + character.len_utf8();
    }
    (plain, length)
}

/// A power of ten written `e3` or `E-3`: its digits with their sign, and its bytes.
fn exponent(text: &str) -> Option<(String, usize)> {
    let after = text.strip_prefix(['e', 'E'])?;
    signed_digits(after).map(|(power, count)| (power, 1 + count))
}

/// A power of ten written `×10^3`, `·10³` or `*10^-3`.
fn times_power_of_ten(text: &str) -> Option<(String, usize)> {
    let mut at = blanks(text);
    let sign = text[at..].chars().next().filter(|c| matches!(c, '×' | '·' | '\u{22c5}' | '*'))?;
    at += sign.len_utf8();
    at += blanks(&text[at..]);
    let after = text[at..].strip_prefix("10")?;
    at += 2;
    if let Some(raised) = after.strip_prefix('^') {
        return signed_digits(raised).map(|(power, count)| (power, at + 1 + count));
    }
    let end = after.find(|c| lowered(c).is_none()).unwrap_or(after.len());
    let power: String = after[..end].chars().filter_map(lowered).collect();
    power.parse::<i32>().ok().map(|_| (power, at + end))
}

/// Digits, perhaps with a sign before them.
fn signed_digits(text: &str) -> Option<(String, usize)> {
    let sign = text.chars().next().filter(|c| matches!(c, '-' | '+' | '\u{2212}'));
    let start = sign.map_or(0, char::len_utf8);
    let count = digits(&text[start..]);
    let minus = if matches!(sign, Some('-' | '\u{2212}')) { "-" } else { "" };
    // More digits are no power that any value has; the library would refuse them too.
    (1..=6).contains(&count).then(|| (format!("{minus}{}", &text[start..start + count]), start + count))
}

/// What makes a whole number a fraction or a mixed number: `½` or `1/2` after it, or `/2` before a unit.
fn added_fraction(
    text: &str,
    value: f64,
    length: usize,
    over: bool,
) -> Option<Result<(f64, usize), NumberFault>> {
    let rest = &text[length..];
    let gap = blanks(rest);
    if let Some((part, count)) = leading_fraction(&rest[gap..]) {
        return Some(Ok((value + part, length + gap + count)));
    }
    let quotient = |text: &str| -> Option<(f64, f64, usize)> {
        let above = digits(text);
        let after = &text[above..];
        let slash = after.chars().next().filter(|c| matches!(c, '/' | '\u{2044}' | '\u{2215}'))?;
        let below = &after[slash.len_utf8()..];
        let count = digits(below);
        let next = below[count..].chars().next();
        if above == 0
            || count == 0
            || next.is_some_and(|c| matches!(c, '.' | ',' | '^') || is_numeric_sign(c))
        {
            return None;
        }
        let end = above + slash.len_utf8() + count;
        Some((text[..above].parse().ok()?, below[..count].parse().ok()?, end))
    };
    let checked = |value: f64, below: f64, length: usize| {
        Some(if below == 0.0 { Err(NumberFault::OverZero(length)) } else { Ok((value, length)) })
    };
    if gap > 0
        && let Some((above, below, count)) = quotient(&rest[gap..])
    {
        return checked(value + above / below, below, length + gap + count);
    }
    let (above, below, count) = quotient(text).filter(|_| !over)?;
    let after = text[count..].trim_start_matches(is_blank);
    let unit_follows = after.starts_with(|c: char| c.is_alphabetic() || matches!(c, '°' | '"' | '″' | '”'));
    if unit_follows { checked(above / below, below, count) } else { None }
}
