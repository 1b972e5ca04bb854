//! What stands in an answer: a number with its sign, its unit and a word or two.

use super::doubt::{Doubt, DoubtKind};
use super::numeral::{self, Mark, Numeral, Start};
use super::unit_words;
use super::way::Way;
use crate::fault::shortened;
use assessment::set::AnswerUnit;
use workings::unit::{Unit, is_blank};

/// An answer taken apart.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Written {
    pub numeral: Numeral,
    /// The sign that stands before the number.
    pub sign: Option<Sign>,
    /// The unit behind it.
    pub unit: Option<Unit>,
    /// What the words beside it say, and the words.
    pub way: Option<(Way, String)>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Sign {
    Plus,
    Minus,
}

/// The text with one sort of blank, one sort of minus and one sort of digits; thin spaces between digits stay.
pub(super) fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut characters = text.chars().peekable();
    while let Some(character) = characters.next() {
        let thin = matches!(character, '\u{202f}' | '\u{2009}')
            && out.ends_with(|c: char| c.is_ascii_digit())
            && characters.peek().is_some_and(char::is_ascii_digit);
        match character {
            _ if thin => out.push(character),
            // Of no width: where it stands between digits, nothing stands there.
            '\u{200b}' | '\u{2060}' | '\u{feff}' | '\u{200e}' | '\u{200f}' => {}
            c if is_blank(c) && (out.is_empty() || out.ends_with(' ')) => {}
            c if is_blank(c) => out.push(' '),
            '\u{2010}'..='\u{2015}' | '\u{2212}' | '\u{fe63}' | '\u{ff0d}' => out.push('-'),
            '\u{ff10}'..='\u{ff19}' => {
                out.extend(char::from_digit(u32::from(character) - 0xff10, 10));
            }
            c => out.push(c),
        }
    }
    out.truncate(out.trim_end().len());
    out
}

/// Takes an answer apart; `text` is [`plain`] and not empty, `asked` the unit that was asked for.
pub(super) fn written(text: &str, mark: Mark, asked: &Unit) -> Result<Written, Doubt> {
    let (of_label, text) = after_label(text)?;
    let (before, text) = way_before(without_about(text));
    let before = match (of_label, before) {
        (Some(_), Some(_)) => return Err(why_not(text, None)),
        (one, other) => one.or(other),
    };
    let (sign, number) = match text.chars().next() {
        Some('-') => (Some(Sign::Minus), text.get(1..).unwrap_or_default().trim_start()),
        Some('+') => (Some(Sign::Plus), text.get(1..).unwrap_or_default().trim_start()),
        _ => (None, text),
    };
    if let Some(numeral) = feet_and_inches(number, mark) {
        return Ok(Written { numeral, sign, unit: unit_words::unit("in"), way: before });
    }
    match numeral::start(number, mark) {
        Some(Start::Number(numeral, length)) => {
            let rest = number.get(length..).unwrap_or_default();
            let rest = without_share_again(rest, numeral, mark, asked).unwrap_or(rest);
            let (unit, after) = behind(rest, asked).ok_or_else(|| why_not(text, Some(rest)))?;
            let way = match (before, after) {
                (Some(_), Some(_)) => return Err(why_not(text, None)),
                (before, after) => before.or(after),
            };
            Ok(Written { numeral, sign, unit, way })
        }
        Some(Start::LostPower(numeral, _)) => {
            let what = "the exponent of a power of ten stands on the line, if it is one";
            let minus = if sign == Some(Sign::Minus) { "-" } else { "" };
            let reading = format!("{minus}{}", super::number::shown(numeral.value));
            Err(Doubt::between(DoubtKind::PowerOfTen, what, vec![reading]))
        }
        None => Err(why_not(text, None)),
    }
}

/// `12 ft 6 in`, `12' 6 1/2"`: a length in inches.
fn feet_and_inches(text: &str, mark: Mark) -> Option<Numeral> {
    let Start::Number(feet, length) = numeral::start(text, mark)? else { return None };
    let rest = text.get(length..)?.trim_start();
    let rest = ["feet", "foot", "ft", "'", "′"].iter().find_map(|unit| rest.strip_prefix(unit))?;
    let rest = rest.trim_start_matches([' ', '-', '.', ',']);
    let Start::Number(inches, length) = numeral::start(rest, mark)? else { return None };
    let unit = rest.get(length..)?.trim().trim_end_matches('.');
    let whole = feet.last_place == Some(0) && !feet.power && !inches.power && inches.value < 12.0;
    let numeral = Numeral { value: 12.0 * feet.value + inches.value, figures: None, ..inches };
    (whole && matches!(unit, "in" | "inch" | "inches" | "\"" | "″" | "''")).then_some(numeral)
}

/// What the words before a number say, and the number with all behind it.
type Labelled<'a> = (Option<(Way, String)>, &'a str);

/// What stands behind the sign of equality and the like, where before it stands a symbol or nothing; with the way that a few words
/// before it tell: `from top: 78.8`.
fn after_label(text: &str) -> Result<Labelled<'_>, Doubt> {
    const EQUALS: [char; 7] = ['=', '≈', '~', '≃', '≅', '≐', ':'];
    let Some((before, after)) = text.rsplit_once(EQUALS) else { return Ok((None, text)) };
    let before = before.trim_end_matches(EQUALS).trim();
    if before.is_empty() || is_label(before) {
        return Ok((Way::within(before).map(|way| (way, before.to_owned())), after.trim_start()));
    }
    let what = "more stands before the sign of equality than a symbol";
    Err(Doubt::new(DoubtKind::Computation, what))
}

/// Of a share that is written twice, `0.30 (30 %)` or `30 % (0.30)`, what stands behind the first number without the second.
fn without_share_again<'a>(rest: &'a str, first: Numeral, mark: Mark, asked: &Unit) -> Option<&'a str> {
    let (unit, again) =
        rest.trim_end().strip_suffix(')')?.split_once('(').filter(|_| *asked == Unit::NONE)?;
    let Start::Number(second, length) = numeral::start(again, mark)? else { return None };
    // The value and half a unit of its last place.
    let share = |numeral: Numeral, behind_it: &str| {
        let unit = match behind(behind_it, asked)? {
            (unit, None) => unit.unwrap_or(Unit::NONE),
            (_, Some(_)) => return None,
        };
        let unit = AnswerUnit { unit, power: numeral.last_place? };
        Some((AnswerUnit { power: 0, ..unit.clone() }.to_si(numeral.value), unit.to_si(0.5)))
    };
    let (one, half) = share(first, unit)?;
    let (other, other_half) = share(second, again.get(length..)?)?;
    // So much is lost in the change of units.
    let slack = half.max(other_half) + 1e-9 * one.abs();
    ((one - other).abs() <= slack).then_some(unit)
}

/// A word that says that the number is rounded, which every number may be.
fn without_about(text: &str) -> &str {
    let rest = text.split_once(' ').filter(|(word, _)| {
        let word = word.to_lowercase();
        matches!(
            word.trim_end_matches('.'),
            "about" | "approx" | "approximately" | "around" | "ca" | "circa" | "roughly"
        )
    });
    rest.map_or(text, |(_, rest)| rest)
}

/// A symbol or a few words: nothing that is a number or computes.
fn is_label(text: &str) -> bool {
    const LONGEST: usize = 40; // characters: a name of a working and its symbol
    text.chars().count() <= LONGEST
        && text.split(' ').all(|word| word.starts_with(|c: char| c.is_alphabetic() || "('\\|_".contains(c)))
        && !text.contains(['+', '*', '/', '^', '=', '×', '·', '÷', '±', '≈', '~'])
        && text
            .split(|c: char| !c.is_alphanumeric())
            .all(|word| !word.starts_with(|c: char| c.is_ascii_digit()))
}

/// A word or two before the number that say a way, and the rest.
fn way_before(text: &str) -> (Option<(Way, String)>, &str) {
    let at = text.find(|c: char| c.is_ascii_digit() || matches!(c, '-' | '+' | '.' | ',')).unwrap_or(0);
    let words = text.get(..at).unwrap_or_default();
    match Way::of(words) {
        Some(way) => (Some((way, words.trim().to_owned())), text.get(at..).unwrap_or_default()),
        None => (None, text),
    }
}

/// The longest text behind a number that is looked at for a unit and words, in bytes.
const LONGEST: usize = 80;

/// What may stand behind a number.
type Behind = (Option<Unit>, Option<(Way, String)>);

/// The unit and the words behind a number; none where something else stands there.
fn behind(rest: &str, asked: &Unit) -> Option<Behind> {
    let rest = rest.trim().trim_end_matches(['.', ',', ';']).trim();
    if rest.is_empty() {
        return Some((None, None));
    }
    // Digits go on, or more stands here than a unit and a few words.
    let digits = rest.trim_start_matches(['.', ',']).starts_with(|c: char| c.is_ascii_digit());
    if digits || rest.len() > LONGEST {
        return None;
    }
    // The shortest unit first: in `MPa in compression` the `in` is no inch.
    let ends = rest.char_indices().filter(|(_, c)| matches!(c, ' ' | ',' | '(' | '[')).map(|(at, _)| at);
    for end in [0].into_iter().chain(ends).chain([rest.len()]) {
        let (unit, words) = rest.split_at_checked(end)?;
        let way = Way::of(words).map(|way| (way, words.trim().to_owned()));
        if way.is_none() && !words.is_empty() {
            continue;
        }
        if unit.trim().is_empty() {
            return Some((None, way));
        }
        if let Some(unit) = unit_words::unit_near(unit, asked) {
            return Some((Some(unit), way));
        }
    }
    None
}

/// Why a text is no number with a unit; `rest` is what follows on a number at its start.
fn why_not(text: &str, rest: Option<&str>) -> Doubt {
    let runs = number_runs(text);
    let lower = text.to_lowercase();
    let (kind, what) = if runs.is_empty() {
        (DoubtKind::Words, "this is no number".to_owned())
    } else if text.contains('%') || lower.contains("percent") || lower.contains("per cent") {
        (DoubtKind::Percent, "a percentage".to_owned())
    } else if text.contains('±') || text.contains("+-") || text.contains("+/-") {
        (DoubtKind::Sign, "both signs".to_owned())
    } else if runs.len() > 1 {
        let between = text.get(runs[0].1..runs[1].0).unwrap_or_default().trim().to_lowercase();
        match between.as_str() {
            "-" | "to" | ".." | "..." | "…" | "and" | "till" => {
                (DoubtKind::Range, "a range, not a number".to_owned())
            }
            "/" | "*" | "+" | "x" | "×" | "·" | "^" | "÷" => {
                (DoubtKind::Computation, "a computation, not its result".to_owned())
            }
            _ => (DoubtKind::SeveralNumbers, "more than one number".to_owned()),
        }
    } else if rest.is_some_and(|rest| rest.starts_with(['.', ','])) {
        (DoubtKind::SeveralNumbers, "points and commas that belong to no one number".to_owned())
    } else if let Some(word) = rest.map(str::trim).filter(|rest| !rest.is_empty()) {
        let told = shortened(word);
        match unit_words::meant(word) {
            Some(meant) => (DoubtKind::Unit, format!("{told:?} is no unit; perhaps {meant} is meant")),
            None => (DoubtKind::Unit, format!("{told:?} is no unit that is known")),
        }
    } else {
        (DoubtKind::Words, "something stands before the number".to_owned())
    };
    Doubt::new(kind, what)
}

/// Where numbers stand: runs of digits with single points and commas in them.
fn number_runs(text: &str) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for (at, character) in text.char_indices() {
        if !character.is_ascii_digit() {
            continue;
        }
        match runs.last_mut() {
            Some((_, end)) if *end == at => *end = at + 1,
            Some((_, end)) if *end + 1 == at && text.get(*end..at).is_some_and(|c| c == "." || c == ",") => {
                *end = at + 1;
            }
            // Digits that belong to a word: mm2, R1.
            _ if text
                .get(..at)
                .is_some_and(|before| before.ends_with(|c: char| c.is_alphabetic() || c == '^')) => {}
            _ => runs.push((at, at + 1)),
        }
    }
    runs
}
