//! From text to a tree of operations, with the place of each in the text.

use super::numbers::{Number, NumberFault, begins_number, is_numeric_sign, number};
use super::{Fault, faults};
use crate::dimension::Dimension;
use crate::unit::{Unit, is_blank, lowered, scan};
use std::ops::Range;

/// An operation and where it stands.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Node {
    pub range: Range<usize>,
    pub kind: Kind,
}

#[derive(Clone, Debug, PartialEq)]
pub(super) enum Kind {
    /// A number, with its unit or without: its value in SI.
    Measure {
        value: f64,
        dimension: Dimension,
        /// Whether no unit is written.
        plain: bool,
        /// Words of the unit that could also be names.
        joined: Vec<Range<usize>>,
    },
    Name(String),
    Negative(Box<Node>),
    Binary(Operator, Box<Node>, Box<Node>),
    Power(Box<Node>, i8),
    Root(Box<Node>),
    Absolute(Box<Node>),
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Operator {
    Plus,
    Minus,
    Times,
    Over,
}

/// Brackets within brackets beyond this no lecturer writes, and each costs stack.
const DEEPEST: usize = 40;
/// Bytes of a text; a chain of operators is as deep a tree as it is long.
const LONGEST: usize = 1000;
/// Whole powers of a value.
const LARGEST_POWER: i32 = 12;

/// Reads a whole text, in which these names of several words may stand.
pub(super) fn parse(text: &str, phrases: &[&str]) -> Result<Node, Vec<Fault>> {
    if text.len() > LONGEST {
        return Err(vec![faults::too_long(text, LONGEST)]);
    }
    if text.chars().all(is_blank) {
        return Err(vec![faults::empty(text)]);
    }
    let mut parser = Parser { text, phrases, at: 0, depth: 0, faults: Vec::new() };
    let root = parser.sum().and_then(|root| {
        parser.skip_blanks();
        if parser.at < text.len() { Err(parser.unexpected()) } else { Ok(root) }
    });
    match root {
        Ok(root) if parser.faults.is_empty() => Ok(root),
        Ok(_) => Err(parser.faults),
        Err(fault) => {
            parser.faults.push(fault);
            Err(parser.faults)
        }
    }
}

struct Parser<'a> {
    text: &'a str,
    phrases: &'a [&'a str],
    at: usize,
    depth: usize,
    /// Faults after which reading could go on.
    faults: Vec<Fault>,
}

impl<'a> Parser<'a> {
    fn rest(&self) -> &'a str {
        &self.text[self.at..]
    }

    fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    fn skip_blanks(&mut self) {
        self.at = self.text.len() - self.rest().trim_start_matches(is_blank).len();
    }

    fn step(&mut self) {
        self.at += self.peek().map_or(0, char::len_utf8);
    }

    fn unexpected(&self) -> Fault {
        faults::unexpected(self.text, self.at)
    }

    fn binary(operator: Operator, left: Node, right: Node) -> Node {
        let range = left.range.start..right.range.end;
        Node { range, kind: Kind::Binary(operator, Box::new(left), Box::new(right)) }
    }

    fn sum(&mut self) -> Result<Node, Fault> {
        let mut left = self.product()?;
        loop {
            self.skip_blanks();
            let operator = match self.peek() {
                Some('+') => Operator::Plus,
                Some('-' | '\u{2212}' | '\u{2013}' | '\u{2010}' | '\u{2011}') => Operator::Minus,
                _ => return Ok(left),
            };
            self.step();
            let right = self.product()?;
            left = Self::binary(operator, left, right);
        }
    }

    fn product(&mut self) -> Result<Node, Fault> {
        let mut left = self.signed(false)?;
        loop {
            self.skip_blanks();
            let operator = match self.peek() {
                Some('*' | '·' | '\u{22c5}' | '×') => Operator::Times,
                Some('/' | '÷' | '\u{2215}') => Operator::Over,
                _ => return Ok(left),
            };
            self.step();
            let right = self.signed(operator == Operator::Over)?;
            left = Self::binary(operator, left, right);
        }
    }

    /// A factor with the signs before it. `over` tells that it stands after a division sign.
    fn signed(&mut self, over: bool) -> Result<Node, Fault> {
        let mut negative = None;
        loop {
            self.skip_blanks();
            match self.peek() {
                Some('-' | '\u{2212}' | '\u{2013}' | '\u{2010}' | '\u{2011}') => {
                    negative = match negative {
                        None => Some(self.at),
                        Some(_) => None,
                    };
                }
                Some('+') => {}
                _ => break,
            }
            self.step();
        }
        let inner = self.powered(over)?;
        Ok(match negative {
            Some(start) => Node { range: start..inner.range.end, kind: Kind::Negative(Box::new(inner)) },
            None => inner,
        })
    }

    fn powered(&mut self, over: bool) -> Result<Node, Fault> {
        let base = self.atom(over)?;
        let before = self.at;
        self.skip_blanks();
        let start = self.at;
        let power = if self.rest().starts_with("**") || self.peek() == Some('^') {
            self.at += if self.peek() == Some('^') { 1 } else { 2 };
            self.skip_blanks();
            let minus = matches!(self.peek(), Some('-' | '\u{2212}'));
            if minus {
                self.step();
            }
            let digits = self.take(|c| c.is_ascii_digit());
            let point = self.rest().starts_with('.');
            digits.parse::<i32>().ok().filter(|_| !point).map(|power| if minus { -power } else { power })
        } else if self.peek().is_some_and(|c| lowered(c).is_some()) {
            let raised = self.take(|c| lowered(c).is_some());
            raised.chars().filter_map(lowered).collect::<String>().parse::<i32>().ok()
        } else {
            self.at = before;
            return Ok(base);
        };
        match power.filter(|power| power.abs() <= LARGEST_POWER).and_then(|power| i8::try_from(power).ok()) {
            Some(power) => {
                Ok(Node { range: base.range.start..self.at, kind: Kind::Power(Box::new(base), power) })
            }
            None => Err(faults::bad_power(start..self.at.max(start), LARGEST_POWER)),
        }
    }

    fn take(&mut self, belongs: impl Fn(char) -> bool) -> &'a str {
        let rest = self.rest();
        let end = rest.find(|c| !belongs(c)).unwrap_or(rest.len());
        self.at += end;
        &rest[..end]
    }

    fn atom(&mut self, over: bool) -> Result<Node, Fault> {
        self.skip_blanks();
        let start = self.at;
        if begins_number(self.rest()) {
            return self.measure(over);
        }
        match self.peek() {
            Some('(') => {
                let inner = self.bracket()?;
                Ok(match inner.kind {
                    // The place of a name is its own, without the brackets round it.
                    Kind::Name(_) => inner,
                    _ => Node { range: start..self.at, ..inner },
                })
            }
            Some('√') => {
                self.step();
                self.deeper(|parser| parser.atom(false)).map(|inner| self.function(start, Kind::Root, inner))
            }
            Some(first) if first.is_alphabetic() || first == '_' => {
                if let Some(phrase) = self.phrase() {
                    self.at += phrase.len();
                    return Ok(Node { range: start..self.at, kind: Kind::Name(phrase.to_owned()) });
                }
                let name = self.take(|c| (c.is_alphanumeric() || c == '_') && !is_numeric_sign(c));
                let after_name = self.at;
                self.skip_blanks();
                if self.peek() == Some('(') {
                    let function: fn(Box<Node>) -> Kind = match name {
                        "sqrt" => Kind::Root,
                        "abs" => Kind::Absolute,
                        _ => return Err(faults::not_a_function(start..after_name, name)),
                    };
                    let inner = self.bracket()?;
                    return Ok(self.function(start, function, inner));
                }
                self.at = after_name;
                if ["nan", "inf", "infinity"].contains(&name.to_lowercase().as_str()) {
                    return Err(faults::not_a_number(start..after_name, name));
                }
                Ok(Node { range: start..after_name, kind: Kind::Name(name.to_owned()) })
            }
            Some('∞') => Err(faults::not_a_number(start..start + '∞'.len_utf8(), "∞")),
            _ => Err(self.unexpected()),
        }
    }

    /// The longest of the names of several words that stands here; words that are none of them up to the next sign, so
    /// that they are told as one unknown name.
    fn phrase(&self) -> Option<&'a str> {
        let rest = self.rest();
        let word = |c: char| c.is_alphanumeric() || c == '_';
        let stands = |phrase: &&str| {
            // With another word after it, it is not the name that was meant: "area beyond" is not "area".
            rest.strip_prefix(phrase)
                .is_some_and(|after| !after.trim_start_matches(is_blank).chars().next().is_some_and(word))
        };
        if let Some(known) =
            self.phrases.iter().filter(|phrase| stands(phrase)).max_by_key(|known| known.len())
        {
            return Some(&rest[..known.len()]);
        }
        let first = &rest[..rest.find(|c| !word(c)).unwrap_or(rest.len())];
        if self.phrases.is_empty() || matches!(first, "sqrt" | "abs" | "pi" | "π") {
            return None;
        }
        let end = rest.find(|c: char| "+-*/^()·×÷\u{2212}\u{22c5}\u{2215}".contains(c)).unwrap_or(rest.len());
        Some(rest[..end].trim_end_matches(is_blank))
    }

    fn function(&self, start: usize, function: fn(Box<Node>) -> Kind, inner: Node) -> Node {
        Node { range: start..self.at, kind: function(Box::new(inner)) }
    }

    fn deeper(&mut self, read: impl FnOnce(&mut Self) -> Result<Node, Fault>) -> Result<Node, Fault> {
        if self.depth >= DEEPEST {
            return Err(faults::too_deep(self.at..self.text.len()));
        }
        self.depth += 1;
        let node = read(self);
        self.depth -= 1;
        node
    }

    fn bracket(&mut self) -> Result<Node, Fault> {
        let open = self.at;
        self.step();
        let inner = self.deeper(Self::sum)?;
        self.skip_blanks();
        match self.peek() {
            Some(')') => {
                self.step();
                Ok(inner)
            }
            None => Err(faults::open_bracket(open..open + 1)),
            Some(_) => Err(self.unexpected()),
        }
    }

    fn number(&mut self, over: bool) -> Result<Number, Fault> {
        let start = self.at;
        match number(self.rest(), over) {
            Ok(number) => {
                self.at += number.length;
                if number.value.is_finite() {
                    Ok(number)
                } else {
                    Err(faults::too_large(start..self.at, &self.text[start..self.at]))
                }
            }
            Err(NumberFault::Comma(place)) => Err(faults::comma(self.text, start, start + place)),
            Err(NumberFault::OverZero(length)) => {
                Err(faults::over_zero(start..start + length, "the lower number"))
            }
        }
    }

    /// A number with its unit, and inches after feet.
    fn measure(&mut self, over: bool) -> Result<Node, Fault> {
        let start = self.at;
        let number = self.number(over)?;
        let after_number = self.at;
        self.skip_blanks();
        let (unit, joined) = if let Some(unit) = self.mark() {
            (Some(unit), Vec::new())
        } else if self
            .peek()
            .is_some_and(|c| (c.is_alphabetic() || matches!(c, '°' | '%')) && !is_numeric_sign(c))
        {
            match scan(self.text, self.at) {
                Ok(scanned) => {
                    self.at = scanned.end;
                    (Some(scanned.unit), scanned.joined)
                }
                Err(fault) => {
                    self.faults.push(faults::unit(self.text, start, &fault));
                    self.recover();
                    (None, Vec::new())
                }
            }
        } else {
            self.at = after_number;
            (None, Vec::new())
        };
        let Some(unit) = unit else {
            let kind = Kind::Measure { value: number.value, dimension: Dimension::NONE, plain: true, joined };
            return Ok(Node { range: start..self.at, kind });
        };
        let mut value = unit.decimal_to_si(&number.decimal, number.value);
        if unit.text() == "ft"
            && let Some(inches) = self.inches()
        {
            value += inches;
        }
        if !value.is_finite() {
            return Err(faults::too_large(start..self.at, &self.text[start..self.at]));
        }
        let kind = Kind::Measure { value, dimension: unit.dimension(), plain: false, joined };
        Ok(Node { range: start..self.at, kind })
    }

    /// The marks for feet and inches.
    fn mark(&mut self) -> Option<Unit> {
        let unit = match self.peek()? {
            '\'' if self.rest().starts_with("''") => {
                self.step();
                "in"
            }
            '\'' | '′' | '’' => "ft",
            '"' | '″' | '”' => "in",
            _ => return None,
        };
        self.step();
        Unit::read(unit).ok()
    }

    /// Inches after feet, in SI: `12 ft 6 in`, `12' 6"`, `12'-6"`. Nothing is read where it is not that.
    fn inches(&mut self) -> Option<f64> {
        let before = self.at;
        let found = self.try_inches();
        if found.is_none() {
            self.at = before;
        }
        found
    }

    fn try_inches(&mut self) -> Option<f64> {
        let after_mark = !self.text[..self.at].ends_with(char::is_alphabetic);
        if after_mark && self.peek() == Some('-') {
            self.step();
        }
        self.skip_blanks();
        if !begins_number(self.rest()) {
            return None;
        }
        let number = self.number(false).ok()?;
        self.skip_blanks();
        let unit = match self.mark() {
            Some(unit) => unit,
            None => {
                let scanned = scan(self.text, self.at).ok()?;
                self.at = scanned.end;
                scanned.unit
            }
        };
        (unit.text() == "in").then(|| unit.to_si(number.value))
    }

    /// Passes over what belongs to an unknown unit, so that the faults after it are found too.
    fn recover(&mut self) {
        self.take(|c| !matches!(c, '+' | '-' | '*' | '(' | ')' | '\u{2212}'));
    }
}
