//! Reading units: words of the table, their powers, products and quotients.
//!
//! A product is written with a space, a dot, a star, a hyphen (`kip-in`) or a point on the line (`kN.m`); a force and a
//! length may also stand together (`kNm`). After a slash one unit stands, or several in brackets.

use super::table::unit;
use super::{NamedUnit, Unit, UnitFactor};
use crate::dimension::Dimension;
use std::ops::Range;

/// What is wrong with a unit's text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnitFault {
    /// Bytes of the text.
    pub range: Range<usize>,
    /// What is wrong.
    pub kind: UnitFaultKind,
}

/// What can be wrong with a unit's text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum UnitFaultKind {
    /// No unit stands where one should.
    Missing,
    /// The word is not a unit.
    Unknown,
    /// A power that is zero or too large.
    BadPower,
    /// After a slash several units stand without brackets, and either could be meant.
    AmbiguousSlash,
    /// Something that does not belong to a unit.
    Unreadable,
}

/// A unit at the start of a longer text.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Scanned {
    /// The unit.
    pub unit: Unit,
    /// Where the text goes on.
    pub end: usize,
    /// The words that came after a star, a slash, a dot or a hyphen: where a lesson has a value of that name, it
    /// could have been meant.
    pub joined: Vec<Range<usize>>,
}

/// Powers beyond this have no use, and keep the dimension in range.
const LARGEST_POWER: i32 = 12;

/// Reads a whole text as a unit.
pub(super) fn whole(text: &str) -> Result<Unit, UnitFault> {
    let start = text.len() - text.trim_start_matches(is_blank).len();
    let scanned = scan(text, start)?;
    let rest = text[scanned.end..].trim_start_matches(is_blank);
    if rest.is_empty() {
        return Ok(scanned.unit);
    }
    Err(UnitFault { range: text.len() - rest.len()..text.len(), kind: UnitFaultKind::Unreadable })
}

/// Reads as much of `text` from `start` on as is a unit.
pub(crate) fn scan(text: &str, start: usize) -> Result<Scanned, UnitFault> {
    let mut scanner = Scanner { text, at: start, factors: Vec::new(), joined: Vec::new() };
    scanner.factor(1)?;
    let mut after_slash = false;
    loop {
        let before = scanner.at;
        scanner.skip_blanks();
        let spaced = scanner.at != before;
        let next = scanner.peek();
        let ambiguous = after_slash && next != Some('*');
        match next {
            Some('/' | '÷' | '\u{2215}') => {
                scanner.at += next.map_or(0, char::len_utf8);
                scanner.skip_blanks();
                let inside = if scanner.peek() == Some('(') {
                    scanner.bracket()?
                } else {
                    scanner.joined_factor(-1)?
                };
                if !inside {
                    scanner.at = before;
                    break;
                }
                after_slash = true;
                continue;
            }
            Some('*' | '·' | '\u{22c5}' | '×') => {
                scanner.at += next.map_or(0, char::len_utf8);
                scanner.skip_blanks();
            }
            Some('-') if !spaced => scanner.at += 1,
            // `kN.m`: the point of a product, set on the line.
            Some('.') if !spaced && scanner.rest()[1..].starts_with(begins_unit) => scanner.at += 1,
            Some(letter) if begins_unit(letter) => {
                if ambiguous {
                    return Err(scanner.fault(scanner.word_range(), UnitFaultKind::AmbiguousSlash));
                }
                scanner.factor(1)?;
                continue;
            }
            _ => {
                scanner.at = before;
                break;
            }
        }
        let word = scanner.word_range();
        if !scanner.joined_factor(1)? {
            scanner.at = before;
            break;
        }
        if ambiguous {
            return Err(scanner.fault(word, UnitFaultKind::AmbiguousSlash));
        }
    }
    scanner.finish(start)
}

/// Spaces of every kind, also those of no width that are pasted from pages.
pub fn is_blank(character: char) -> bool {
    character.is_whitespace() || matches!(character, '\u{200b}' | '\u{2060}' | '\u{feff}')
}

fn begins_unit(character: char) -> bool {
    character.is_alphabetic() || matches!(character, '°' | '%' | 'µ')
}

struct Scanner<'a> {
    text: &'a str,
    at: usize,
    factors: Vec<UnitFactor>,
    joined: Vec<Range<usize>>,
}

impl Scanner<'_> {
    fn rest(&self) -> &str {
        &self.text[self.at..]
    }

    fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    fn skip_blanks(&mut self) {
        self.at = self.text.len() - self.rest().trim_start_matches(is_blank).len();
    }

    fn fault(&self, range: Range<usize>, kind: UnitFaultKind) -> UnitFault {
        UnitFault { range, kind }
    }

    /// The word that begins here; empty where none does.
    fn word_range(&self) -> Range<usize> {
        let word = self.rest().find(|c: char| !begins_unit(c)).unwrap_or(self.rest().len());
        self.at..self.at + word
    }

    /// The units that a word stands for: one, or a force and a length written together (`kNm`).
    fn units_of(word: &str) -> Option<Vec<&'static NamedUnit>> {
        if let Some(unit) = unit(word) {
            return Some(vec![unit]);
        }
        word.char_indices().skip(1).find_map(|(split, _)| {
            let pair = [unit(&word[..split])?, unit(&word[split..])?];
            let kinds = pair.map(|unit| unit.dimension);
            let force_and_length = kinds == [Dimension::FORCE, Dimension::LENGTH]
                || kinds == [Dimension::LENGTH, Dimension::FORCE];
            force_and_length.then(|| pair.to_vec())
        })
    }

    /// One unit with its power, above (`sign` 1) or below (-1) the line.
    fn factor(&mut self, sign: i32) -> Result<(), UnitFault> {
        let range = self.word_range();
        if range.is_empty() {
            return Err(self.fault(range, UnitFaultKind::Missing));
        }
        let Some(units) = Self::units_of(&self.text[range.clone()]) else {
            return Err(self.fault(range, UnitFaultKind::Unknown));
        };
        self.at = range.end;
        let power = self.power()?;
        let last = units.len() - 1;
        for (place, unit) in units.into_iter().enumerate() {
            let power = if place == last { sign * power } else { sign };
            let power = i8::try_from(power).unwrap_or(i8::MAX);
            self.factors.push(UnitFactor { unit, power });
        }
        Ok(())
    }

    /// As [`Scanner::factor`] after an operator; false, and nothing read, where no unit stands here.
    fn joined_factor(&mut self, sign: i32) -> Result<bool, UnitFault> {
        let range = self.word_range();
        let end = self.text[range.end..].chars().next();
        // `P_1` or `m2b`: a name, not a unit.
        let goes_on = end == Some('_');
        if range.is_empty() || goes_on || Self::units_of(&self.text[range.clone()]).is_none() {
            return Ok(false);
        }
        self.joined.push(range);
        self.factor(sign)?;
        Ok(true)
    }

    /// Several units in brackets after a slash; false, and nothing read, where it is not that.
    fn bracket(&mut self) -> Result<bool, UnitFault> {
        let (at, factors, joined) = (self.at, self.factors.len(), self.joined.len());
        self.at += 1;
        loop {
            self.skip_blanks();
            if matches!(self.peek(), Some('*' | '·' | '\u{22c5}' | '×')) {
                self.at += self.peek().map_or(0, char::len_utf8);
                continue;
            }
            if self.peek() == Some(')') && self.factors.len() > factors {
                self.at += 1;
                return Ok(true);
            }
            if !self.joined_factor(-1)? {
                self.at = at;
                self.factors.truncate(factors);
                self.joined.truncate(joined);
                return Ok(false);
            }
        }
    }

    /// A power after a unit: `^2`, `^-1`, `²`, or digits that end the word (`mm4`); 1 where none is written.
    fn power(&mut self) -> Result<i32, UnitFault> {
        let start = self.at;
        let digits = |text: &str| text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
        let rest = self.rest();
        let (length, value) = if let Some(after) = rest.strip_prefix('^') {
            let sign = after.chars().next().filter(|c| matches!(c, '-' | '\u{2212}'));
            let number = &after[sign.map_or(0, char::len_utf8)..];
            let count = digits(number);
            let value = number[..count].parse::<i32>().ok();
            (1 + after.len() - number.len() + count, value.map(|v| if sign.is_some() { -v } else { v }))
        } else if rest.starts_with(|c| lowered(c).is_some()) {
            let end = rest.find(|c| lowered(c).is_none()).unwrap_or(rest.len());
            let plain: String = rest[..end].chars().filter_map(lowered).collect();
            (end, plain.parse::<i32>().ok())
        } else {
            let count = digits(rest);
            let after = rest[count..].chars().next();
            // `12 ft6in`: the 6 begins the next number.
            if count == 0 || after.is_some_and(|c| c.is_alphanumeric() || matches!(c, '.' | '_')) {
                return Ok(1);
            }
            (count, rest[..count].parse::<i32>().ok())
        };
        self.at += length;
        match value {
            Some(power) if power != 0 && power.abs() <= LARGEST_POWER => Ok(power),
            _ => Err(self.fault(start..self.at, UnitFaultKind::BadPower)),
        }
    }

    /// The whole unit, where its dimension is in range.
    fn finish(self, start: usize) -> Result<Scanned, UnitFault> {
        let in_range = self.factors.iter().try_fold(Dimension::NONE, |product, factor| {
            product.times(factor.unit.dimension.power(factor.power)?)
        });
        if in_range.is_none() {
            return Err(self.fault(start..self.at, UnitFaultKind::BadPower));
        }
        Ok(Scanned { unit: Unit { factors: self.factors }, end: self.at, joined: self.joined })
    }
}

/// The digit or minus that a raised character stands for.
pub fn lowered(character: char) -> Option<char> {
    Some(match character {
        '⁰' => '0',
        '¹' => '1',
        '²' => '2',
        '³' => '3',
        '⁴' => '4',
        '⁵' => '5',
        '⁶' => '6',
        '⁷' => '7',
        '⁸' => '8',
        '⁹' => '9',
        '⁻' => '-',
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(unit: &str) -> String {
        Unit::read(unit).expect("a unit").text()
    }

    #[test]
    fn the_ways_of_writing_a_product() {
        for written in ["kN m", "kN·m", "kN*m", "kN-m", "kN.m", "kNm", "kN\u{a0}m", " kN \u{22c5} m "] {
            assert_eq!(text(written), "kN·m");
        }
        for written in ["kip in", "kip-in", "kips·in", "kip inches"] {
            assert_eq!(text(written), "kip·in");
        }
        assert_eq!(text("ft-lb"), "ft·lb");
    }

    #[test]
    fn the_ways_of_writing_powers_and_quotients() {
        for written in ["mm4", "mm^4", "mm⁴"] {
            assert_eq!(text(written), "mm⁴");
        }
        for written in ["N/mm2", "N/mm^2", "N/mm²", "N / mm²", "N mm^-2", "N·mm⁻²"] {
            assert_eq!(text(written), "N/mm²");
        }
        assert_eq!(text("kN/(m mm)"), "kN/(m·mm)");
        assert_eq!(text("kN/m/s"), "kN/(m·s)");
        assert_eq!(text("s^-1"), "1/s");
        assert_eq!(text("°"), "°");
    }

    #[test]
    fn what_is_not_a_unit() {
        let fault = |text| Unit::read(text).expect_err("not a unit");
        assert_eq!(fault("kn"), UnitFault { range: 0..2, kind: UnitFaultKind::Unknown });
        assert_eq!(fault("kN mn"), UnitFault { range: 3..5, kind: UnitFaultKind::Unknown });
        assert_eq!(fault(""), UnitFault { range: 0..0, kind: UnitFaultKind::Missing });
        assert_eq!(fault("kN/m mm"), UnitFault { range: 5..7, kind: UnitFaultKind::AmbiguousSlash });
        assert_eq!(fault("mm^0"), UnitFault { range: 2..4, kind: UnitFaultKind::BadPower });
        assert_eq!(fault("mm^99"), UnitFault { range: 2..5, kind: UnitFaultKind::BadPower });
        assert_eq!(fault("kN + m").kind, UnitFaultKind::Unreadable);
        assert_eq!(fault(&"mm12 ".repeat(20)).kind, UnitFaultKind::BadPower);
    }

    #[test]
    fn a_unit_ends_where_an_expression_goes_on() {
        let scanned = scan("kN/m*L", 0).expect("a unit");
        assert_eq!((scanned.unit.text().as_str(), scanned.end), ("kN/m", 4));
        let scanned = scan("kN - 3 kN", 0).expect("a unit");
        assert_eq!(scanned.end, 2);
        let scanned = scan("ft6in", 0).expect("a unit");
        assert_eq!(scanned.end, 2);
        assert_eq!(scan("kN/t", 0).expect("a unit").joined, vec![3..4]);
    }
}
