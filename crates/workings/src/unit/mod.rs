//! Units: one table with exact factors, and products of its units such as `kN·m` or `N/mm²`.

mod reading;
mod table;

pub(crate) use reading::scan;
pub use reading::{UnitFault, UnitFaultKind, is_blank, lowered};
pub use table::UNITS;

use crate::dimension::Dimension;
use std::fmt;

/// One unit with a symbol of its own.
#[derive(Debug, PartialEq)]
pub struct NamedUnit {
    /// The symbol that is written: `kN`.
    pub symbol: &'static str,
    /// Other spellings that are read: `lb` for `lbf`.
    pub spellings: &'static [&'static str],
    /// One of it in words: `kilonewton`.
    pub one: &'static str,
    /// Several of it in words: `kilonewtons`.
    pub many: &'static str,
    /// What it measures.
    pub dimension: Dimension,
    /// The unit in SI is `factor` times ten to the power [`NamedUnit::power_of_ten`]; `factor` is exact as decimal text.
    pub factor: f64,
    /// See [`NamedUnit::factor`].
    pub power_of_ten: i8,
}

/// A unit of the table to a whole power.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UnitFactor {
    /// The unit.
    pub unit: &'static NamedUnit,
    /// Its power; never 0.
    pub power: i8,
}

/// A product of powers of named units; empty for a plain number.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Unit {
    /// In the order in which they are written.
    pub factors: Vec<UnitFactor>,
}

impl Unit {
    /// A plain number.
    pub const NONE: Self = Self { factors: Vec::new() };

    /// Reads a whole text as a unit: `kN m`, `kN·m`, `N/mm^2`, `mm4`, `kg/m³`, `kip-in`.
    ///
    /// # Errors
    /// Where the text is no unit: the place and the kind of the fault.
    pub fn read(text: &str) -> Result<Self, UnitFault> {
        reading::whole(text)
    }

    /// The product of base units of a dimension: `kg·m/s`.
    pub fn of_base_units(dimension: Dimension) -> Self {
        let powers = [("kg", dimension.mass), ("m", dimension.length), ("s", dimension.time)];
        let factor = |(symbol, power): (&str, i8)| table::unit(symbol).map(|unit| UnitFactor { unit, power });
        Self { factors: powers.into_iter().filter(|(_, power)| *power != 0).filter_map(factor).collect() }
    }

    /// What the unit measures.
    pub fn dimension(&self) -> Dimension {
        let power = |of: fn(Dimension) -> i8| {
            let sum: i32 =
                self.factors.iter().map(|f| i32::from(of(f.unit.dimension)) * i32::from(f.power)).sum();
            // The readers refuse powers out of range; a unit built by hand is held to it.
            sum.clamp(i8::MIN.into(), i8::MAX.into()) as i8
        };
        Dimension::of(power(|d| d.mass), power(|d| d.length), power(|d| d.time))
    }

    /// How many SI units one of it is.
    pub fn in_si(&self) -> f64 {
        self.to_si(1.0)
    }

    /// A value in this unit, in SI. Correctly rounded for units that are a power of ten of SI.
    pub fn to_si(&self, value: f64) -> f64 {
        let (factor, power_of_ten) = self.scale();
        shifted(value * factor, power_of_ten)
    }

    /// As [`Unit::to_si`], of a number that stands in a text as `decimal`.
    ///
    /// For units that are a power of ten of SI the text is read with its point moved, so that `0.1 mm` is the float
    /// nearest to 0.0001 m: 0.1 alone is already rounded once.
    pub(crate) fn decimal_to_si(&self, decimal: &Option<String>, value: f64) -> f64 {
        match (self.scale(), decimal) {
            ((1.0, power), Some(decimal)) => {
                let (digits, exponent) = decimal.split_once('e').unwrap_or((decimal, "0"));
                let exponent = exponent.parse::<i32>().unwrap_or(0).saturating_add(power);
                format!("{digits}e{exponent}").parse().unwrap_or_else(|_| self.to_si(value))
            }
            _ => self.to_si(value),
        }
    }

    /// A value in SI, in this unit.
    pub fn from_si(&self, value: f64) -> f64 {
        let (factor, power_of_ten) = self.scale();
        shifted(value, -power_of_ten) / factor
    }

    /// The unit in SI as a factor and a power of ten.
    fn scale(&self) -> (f64, i32) {
        self.factors.iter().fold((1.0, 0), |(factor, ten), f| {
            let power = f.power.unsigned_abs();
            let of_one = (0..power).fold(1.0, |product, _| product * f.unit.factor);
            let factor = if f.power > 0 { factor * of_one } else { factor / of_one };
            (factor, ten + i32::from(f.unit.power_of_ten) * i32::from(f.power))
        })
    }

    /// In words, for one of it or for several: `kilonewton metres`, `newtons per square millimetre`, `millimetres
    /// to the fourth`; empty for a plain number.
    pub fn in_words(&self, one: bool) -> String {
        let above: Vec<&UnitFactor> = self.factors.iter().filter(|f| f.power > 0).collect();
        let mut words: Vec<String> = Vec::new();
        for (place, factor) in above.iter().enumerate() {
            // "kilonewton metres": only the last is told in the plural.
            words.push(spoken(factor, one || place + 1 < above.len()));
        }
        let below: Vec<String> =
            self.factors.iter().filter(|f| f.power < 0).map(|f| spoken(f, true)).collect();
        if !below.is_empty() {
            words.push(format!("per {}", below.join(" ")));
        }
        words.join(" ")
    }

    /// The pieces as written, each with the power above its end: `N/mm²` is `N`, then `/mm` with 2.
    pub(crate) fn pieces(&self) -> Vec<(String, Option<u8>)> {
        let above: Vec<&UnitFactor> = self.factors.iter().filter(|f| f.power > 0).collect();
        let below: Vec<&UnitFactor> = self.factors.iter().filter(|f| f.power < 0).collect();
        let mut pieces = Vec::new();
        for (place, factor) in above.iter().chain(&below).enumerate() {
            let first_below = place == above.len();
            let mut text = String::new();
            if first_below {
                text.push_str(if above.is_empty() { "1/" } else { "/" });
                text.push_str(if below.len() > 1 { "(" } else { "" });
            } else if place > 0 {
                text.push('·');
            }
            text.push_str(factor.unit.symbol);
            let power = factor.power.unsigned_abs();
            pieces.push((text, (power != 1).then_some(power)));
        }
        if below.len() > 1 {
            pieces.push((")".to_owned(), None));
        }
        pieces
    }

    /// As written: `kN·m`, `N/mm²`, `kg/m³`; empty for a plain number.
    pub fn text(&self) -> String {
        let piece = |(text, power): (String, Option<u8>)| match power {
            Some(power) => format!("{text}{}", raised_number(power.into())),
            None => text,
        };
        self.pieces().into_iter().map(piece).collect()
    }
}

/// A unit with its power in words: `square millimetre`, `metres to the fourth`.
fn spoken(factor: &UnitFactor, one: bool) -> String {
    let word = if one { factor.unit.one } else { factor.unit.many };
    match factor.power.unsigned_abs() {
        1 => word.to_owned(),
        2 => format!("square {word}"),
        3 => format!("cubic {word}"),
        power => format!("{word} to the {}", ordinal(power)),
    }
}

/// `fourth`, `fifth`, ...
pub(crate) fn ordinal(power: u8) -> String {
    const WORDS: [&str; 11] = [
        "power of zero",
        "first",
        "second",
        "third",
        "fourth",
        "fifth",
        "sixth",
        "seventh",
        "eighth",
        "ninth",
        "tenth",
    ];
    WORDS.get(usize::from(power)).map_or_else(|| format!("power of {power}"), |word| (*word).to_owned())
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text())
    }
}

/// `value` times ten to `power`: one rounding for |power| <= 22, where the power of ten is exact.
fn shifted(value: f64, power: i32) -> f64 {
    let mut value = value;
    let mut left = power;
    while left != 0 && value.is_finite() && value != 0.0 {
        let step = left.clamp(-22, 22);
        let ten = (0..step.abs()).fold(1.0, |product, _| product * 10.0);
        if step > 0 {
            value *= ten
        } else {
            value /= ten
        }
        left -= step;
    }
    value
}

/// A whole number above the line: `²`, `⁻³`.
pub fn raised_number(number: i32) -> String {
    number.to_string().chars().map(raised_digit).collect()
}

fn raised_digit(digit: char) -> char {
    match digit {
        '0' => '⁰',
        '1' => '¹',
        '2' => '²',
        '3' => '³',
        '4' => '⁴',
        '5' => '⁵',
        '6' => '⁶',
        '7' => '⁷',
        '8' => '⁸',
        '9' => '⁹',
        '-' => '⁻',
        other => other,
    }
}

#[cfg(test)]
mod tests;
