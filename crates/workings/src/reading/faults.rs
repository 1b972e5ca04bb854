//! The words of the faults: what is wrong, and what would be right.

use super::parser::{Kind, Node};
use super::{Fault, FaultKind, Names, nearest};
use crate::dimension::Dimension;
use crate::quantity::Quantity;
use crate::unit::{UNITS, UnitFault, UnitFaultKind, is_blank};
use std::ops::Range;

fn fault(range: Range<usize>, kind: FaultKind, what: impl Into<String>, mend: impl Into<String>) -> Fault {
    Fault { range, kind, what: what.into(), mend: mend.into() }
}

/// A text quoted in a message; a long one is cut.
fn quoted(text: &str) -> String {
    const LONGEST: usize = 60;
    let text = text.trim_matches(is_blank);
    if text.chars().count() <= LONGEST {
        return text.to_owned();
    }
    let start: String = text.chars().take(LONGEST).collect();
    format!("{start}…")
}

pub(super) fn empty(text: &str) -> Fault {
    fault(
        0..text.len(),
        FaultKind::Empty,
        "nothing is written here",
        "give a value with its unit, such as 3 kN",
    )
}

pub(super) fn too_long(text: &str, longest: usize) -> Fault {
    let what = format!("this is longer than {longest} characters");
    fault(0..text.len(), FaultKind::TooDeep, what, "give parts of it names of their own")
}

pub(super) fn too_deep(range: Range<usize>) -> Fault {
    fault(
        range,
        FaultKind::TooDeep,
        "there are too many brackets within brackets",
        "give parts of it names of their own",
    )
}

/// Something that does not belong where it stands.
pub(super) fn unexpected(text: &str, at: usize) -> Fault {
    let Some(character) = text[at..].chars().next() else {
        let mend = "go on with a value, or leave the last sign out";
        return fault(at..at, FaultKind::Unreadable, "something is missing at the end", mend);
    };
    let word = |c: char| c.is_alphanumeric() || c == '_' || c == '.';
    let length = if word(character) {
        text[at..].find(|c| !word(c)).unwrap_or(text.len() - at)
    } else {
        character.len_utf8()
    };
    let range = at..at + length;
    let written = quoted(&text[range.clone()]);
    let before = text[..at].trim_end_matches(is_blank).chars().next_back();
    let after_value = before.is_some_and(|c| c.is_alphanumeric() || matches!(c, ')' | '°' | '\'' | '"'));
    let (what, mend) = match character {
        ')' => ("this bracket closes nothing".to_owned(), "leave it out, or open it before".to_owned()),
        '=' => ("an equals sign does not belong in a value".to_owned(), "give the value alone".to_owned()),
        ',' => (
            "a comma does not belong here".to_owned(),
            "write a decimal point; give one value only".to_owned(),
        ),
        '(' => {
            ("a sign is missing before this bracket".to_owned(), "to multiply, put * before it".to_owned())
        }
        c if after_value && c.is_alphanumeric() => (
            format!("{written} does not belong here"),
            "put + - * or / before it; a unit stands straight after a number".to_owned(),
        ),
        _ => {
            (format!("{written} does not belong here"), "give a value with its unit, such as 3 kN".to_owned())
        }
    };
    fault(range, FaultKind::Unreadable, what, mend)
}

pub(super) fn open_bracket(range: Range<usize>) -> Fault {
    fault(range, FaultKind::Unreadable, "this bracket is not closed", "put ) where it ends")
}

pub(super) fn bad_power(range: Range<usize>, largest: i32) -> Fault {
    let what = format!("a power must be a whole number from -{largest} to {largest}");
    fault(range, FaultKind::Unreadable, what, "for a root write sqrt(...)")
}

pub(super) fn not_a_function(range: Range<usize>, name: &str) -> Fault {
    let mend = format!("use sqrt(...) or abs(...); to multiply write {name}*(...)");
    fault(range, FaultKind::Unreadable, format!("{} is no function", quoted(name)), mend)
}

pub(super) fn not_a_number(range: Range<usize>, word: &str) -> Fault {
    let what = format!("a number is wanted; {} is not one", quoted(word));
    fault(range, FaultKind::NotFinite, what, "give a finite number with its unit, such as 5 kN")
}

pub(super) fn too_large(range: Range<usize>, written: &str) -> Fault {
    let what = format!("{} is too large to compute with", quoted(written));
    fault(range, FaultKind::NotFinite, what, "look at the powers of ten")
}

/// A comma between digits at `comma`, in the number that starts at `start`.
pub(super) fn comma(text: &str, start: usize, comma: usize) -> Fault {
    let end = text[comma + 1..].find(|c: char| !c.is_ascii_digit() && c != ',' && c != '.');
    let range = start..end.map_or(text.len(), |end| comma + 1 + end);
    let number = &text[range.clone()];
    let point = number.replacen(',', ".", 1);
    let three = number[comma + 1 - start..].bytes().take_while(u8::is_ascii_digit).count() == 3;
    let mend = match (number.matches([',', '.']).count(), three) {
        (1, true) => format!("write {point} or {}", number.replace(',', "")),
        (1, false) => format!("write {point}"),
        _ => "write digits with one point, such as 1234.5".to_owned(),
    };
    fault(range, FaultKind::Unreadable, "the decimal mark in a lesson is a point, not a comma", mend)
}

pub(super) fn over_zero(range: Range<usize>, written: &str) -> Fault {
    let what = format!("{} is zero, and nothing can be divided by zero", quoted(written));
    fault(range, FaultKind::DivisionByZero, what, "divide by something that is not zero")
}

pub(super) fn root_of_negative(range: Range<usize>, written: &str) -> Fault {
    let what = format!("{} is negative and has no square root", quoted(written));
    fault(range, FaultKind::NoRoot, what, "take the root of something that is not negative")
}

pub(super) fn root_of_dimension(range: Range<usize>, written: &str, dimension: Dimension) -> Fault {
    let what = format!("{} is {}, which has no square root", quoted(written), dimension.in_words());
    fault(range, FaultKind::NoRoot, what, "take the root of a plain number, an area or another square")
}

pub(super) fn unlike(range: Range<usize>, left: &str, a: Dimension, right: &str, b: Dimension) -> Fault {
    let (left, right) = (quoted(left), quoted(right));
    let what = format!("{right} is {}, but {left} is {}: they do not add", b.in_words(), a.in_words());
    fault(
        range,
        FaultKind::WrongDimension,
        what,
        "add and subtract only values of one kind; does a unit lack?",
    )
}

/// A unit that could not be read, after the number that starts at `start`.
pub(super) fn unit(text: &str, start: usize, unit: &UnitFault) -> Fault {
    let range = unit.range.clone();
    let word = &text[range.clone()];
    match unit.kind {
        UnitFaultKind::Unknown => {
            let number = quoted(text[start..range.start].trim_end_matches(is_blank));
            let known = UNITS
                .iter()
                .flat_map(|unit| std::iter::once(unit.symbol).chain(unit.spellings.iter().copied()));
            let mend = match (word, nearest(word, known)) {
                ("k" | "K", _) => format!("did you mean {number} kip?"),
                (_, Some(near)) => format!("did you mean {near}?"),
                (_, None) => format!(
                    "use units such as kN, m, mm, MPa, kip, ft, in; to multiply write {number}*{word}"
                ),
            };
            fault(range, FaultKind::UnknownUnit, format!("{} is not a unit", quoted(word)), mend)
        }
        UnitFaultKind::BadPower => fault(
            range,
            FaultKind::Unreadable,
            "this power of a unit is zero or too large",
            "write powers such as mm^2 or mm4",
        ),
        UnitFaultKind::AmbiguousSlash => fault(
            range.clone(),
            FaultKind::Ambiguous,
            format!("it is not clear whether {} stands below the slash", quoted(word)),
            "put brackets, as in kN/(m mm), or write the upper units first, as in kN m/mm",
        ),
        UnitFaultKind::Missing | UnitFaultKind::Unreadable => fault(
            range,
            FaultKind::Unreadable,
            "a unit is wanted here",
            "use units such as kN, m, mm, MPa, kip, ft, in",
        ),
    }
}

/// A word of a unit that is also a name of the lesson.
pub(super) fn ambiguous(text: &str, measure: &Range<usize>, word: Range<usize>) -> Fault {
    let name = &text[word.clone()];
    let number =
        text[measure.start..word.start].trim_end_matches(|c: char| is_blank(c) || "*/·-×÷".contains(c));
    let sign = &text[measure.start + number.len()..word.start];
    let what = format!("{name} is a unit, and this lesson also calls a value {name}");
    let mend = format!("for the value write ({number}){sign}{name}; better give it another name");
    fault(word, FaultKind::Ambiguous, what, mend)
}

pub(super) fn unknown_name(range: Range<usize>, name: &str, names: &Names) -> Fault {
    if super::is_unit(name) {
        let what = format!("a number is missing before {name}");
        return fault(
            range,
            FaultKind::MissingUnit,
            what,
            format!("write a number before it, such as 3 {name}"),
        );
    }
    const TOLD: usize = 8;
    let mend = match nearest(name, names.keys().map(String::as_str)) {
        Some(near) => format!("did you mean {near}?"),
        None if names.is_empty() => "give a value with its unit, such as 3 kN".to_owned(),
        None => {
            let known: Vec<&str> = names.keys().map(String::as_str).take(TOLD).collect();
            let more = if names.len() > TOLD { ", …" } else { "" };
            format!("the names of this lesson are {}{more}", known.join(", "))
        }
    };
    fault(range, FaultKind::UnknownName, format!("{} is not a name of this lesson", quoted(name)), mend)
}

/// A value of another kind than wanted.
pub(super) fn wrong_dimension(
    text: &str,
    root: &Node,
    found: Quantity,
    wanted: Dimension,
    example: &str,
) -> Fault {
    let trimmed = text.trim_matches(is_blank);
    let start = text.len() - text.trim_start_matches(is_blank).len();
    let range = start..start + trimmed.len();
    let written = quoted(trimmed);
    let wanted_words = wanted.in_words();
    let such_as = if example.is_empty() { String::new() } else { format!(", such as {example}") };
    let unsigned = match &root.kind {
        Kind::Negative(inner) => inner,
        _ => root,
    };
    if found.dimension == Dimension::NONE && matches!(unsigned.kind, Kind::Measure { plain: true, .. }) {
        let unit = example.find(|c: char| c.is_alphabetic() || c == '°').map(|place| &example[place..]);
        let mend = match unit {
            Some(unit) => format!("did you mean {written} {unit}?"),
            None => format!("give {wanted_words} with its unit"),
        };
        return fault(range, FaultKind::MissingUnit, format!("{written} needs a unit"), mend);
    }
    let mend = match (wanted, found.dimension) {
        (Dimension::NONE, _) => "give a number without a unit".to_owned(),
        (Dimension::FORCE, Dimension::MASS) => format!("give its weight{such_as}"),
        _ => format!("give {wanted_words}{such_as}"),
    };
    let what = format!("{wanted_words} is wanted here; {written} is {}", found.dimension.in_words());
    fault(range, FaultKind::WrongDimension, what, mend)
}
