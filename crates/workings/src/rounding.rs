//! Rounding to figures or to places, in decimal, by a named published rule.

use std::fmt;

/// How many figures a computed value shows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Figures {
    /// So many significant figures; held to 1 to 12.
    Significant(u8),
    /// Three, and four when the first is 1: the habit of engineering textbooks (common practice, no source).
    #[default]
    ThreeOrFour,
    /// So many decimals; held to 0 to 12.
    Decimals(u8),
}

/// What becomes of a value that lies halfway between two neighbours.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum RoundingRule {
    /// To the even neighbour: the rounding method of ASTM E29; ISO 80000-1, annex B, rule A.
    #[default]
    HalfToEven,
    /// To the neighbour away from zero: ISO 80000-1, annex B, rule B, taken alike for both signs.
    HalfAwayFromZero,
}

/// The most figures that are kept of a float before it is rounded.
///
/// A float of 2.345 is a little more than 2.345, and 2345 N turned into kN may be off in the last bit. Both mean
/// a tie. Fourteen figures are past anything that a lesson states and short of the noise of the arithmetic (1e-15).
const FIGURES_OF_A_FLOAT: usize = 14;

/// An unsigned decimal number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Decimal {
    /// From the first that is not zero; a single zero for zero.
    digits: Vec<u8>,
    /// Power of ten of the first digit.
    exponent: i32,
}

impl Decimal {
    /// The size of a float, to fourteen figures. What is not finite becomes zero.
    pub fn of(value: f64) -> Self {
        if !value.is_finite() || value == 0.0 {
            return Self { digits: vec![0], exponent: 0 };
        }
        let text = format!("{:.*e}", FIGURES_OF_A_FLOAT - 1, value.abs());
        let (mantissa, exponent) = text.split_once('e').unwrap_or((&text, "0"));
        Self {
            digits: mantissa.bytes().filter(u8::is_ascii_digit).map(|digit| digit - b'0').collect(),
            exponent: exponent.parse().unwrap_or(0),
        }
    }

    /// Whether it is zero.
    pub fn is_zero(&self) -> bool {
        self.digits.iter().all(|digit| *digit == 0)
    }

    /// Power of ten of the first digit that is not zero.
    pub fn exponent(&self) -> i32 {
        self.exponent
    }

    /// How many figures it has, zeros at the end included.
    pub fn figures(&self) -> i32 {
        i32::try_from(self.digits.len()).unwrap_or(i32::MAX)
    }

    /// Rounded as `figures` says.
    pub fn rounded(&self, figures: Figures, rule: RoundingRule) -> Self {
        match figures {
            Figures::Significant(count) => self.to_figures(usize::from(count.clamp(1, 12)), rule),
            Figures::ThreeOrFour if self.digits[0] == 1 => {
                let four = self.to_figures(4, rule);
                // 1.9996 becomes 2.000 in four figures, and no longer begins with 1.
                if four.digits[0] == 1 { four } else { self.to_figures(3, rule) }
            }
            Figures::ThreeOrFour => self.to_figures(3, rule),
            Figures::Decimals(count) => self.to_decimals(i32::from(count.min(12)), rule),
        }
    }

    /// Rounded to so many significant figures, with zeros added where it has fewer.
    fn to_figures(&self, count: usize, rule: RoundingRule) -> Self {
        if self.is_zero() {
            return Self { digits: vec![0], exponent: 0 };
        }
        let mut rounded = self.to_length(count, rule);
        // 9.996 became 10.00: in three figures it is 10.0.
        rounded.digits.truncate(count);
        rounded
    }

    /// Rounded to so many digits after the point.
    fn to_decimals(&self, count: i32, rule: RoundingRule) -> Self {
        let zero = Self { digits: vec![0; usize::try_from(count).unwrap_or(0) + 1], exponent: 0 };
        // A negative length: even the place before the first figure lies beyond the last place shown.
        match usize::try_from(self.exponent + 1 + count) {
            Ok(length) if !self.is_zero() => {
                let rounded = self.to_length(length, rule);
                if rounded.digits.is_empty() { zero } else { rounded }
            }
            _ => zero,
        }
    }

    /// Its first `length` digits, rounded; one more where the rounding carries past the first.
    fn to_length(&self, length: usize, rule: RoundingRule) -> Self {
        let mut digits: Vec<u8> = self.digits.iter().copied().take(length).collect();
        digits.resize(length, 0);
        let mut exponent = self.exponent;
        let up = match self.digits.get(length..).unwrap_or(&[]) {
            [] => false,
            [5, after @ ..] if after.iter().all(|digit| *digit == 0) => {
                rule == RoundingRule::HalfAwayFromZero || digits.last().is_some_and(|last| last % 2 == 1)
            }
            [first, ..] => *first >= 5,
        };
        if up {
            match digits.iter().rposition(|digit| *digit < 9) {
                Some(place) => {
                    digits[place] += 1;
                    digits[place + 1..].fill(0);
                }
                None => {
                    digits.fill(0);
                    digits.insert(0, 1);
                    exponent += 1;
                }
            }
        }
        Self { digits, exponent }
    }

    /// Without the zeros at its end that say nothing.
    pub fn trimmed(mut self) -> Self {
        while self.digits.len() > 1 && self.digits.last() == Some(&0) {
            self.digits.pop();
        }
        self
    }

    /// Times ten to `power`.
    pub fn shifted(mut self, power: i32) -> Self {
        if !self.is_zero() {
            self.exponent += power;
        }
        self
    }
}

/// With a point and no grouping: `12.0`, `108000`, `0.0125`.
impl fmt::Display for Decimal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let digits: String = self.digits.iter().map(|digit| char::from(b'0' + digit)).collect();
        match usize::try_from(self.exponent) {
            Ok(exponent) if exponent + 1 >= digits.len() => {
                write!(f, "{digits:0<width$}", width = exponent + 1)
            }
            Ok(exponent) => write!(f, "{}.{}", &digits[..=exponent], &digits[exponent + 1..]),
            Err(_) => {
                let zeros = usize::try_from(-self.exponent - 1).unwrap_or(0);
                write!(f, "0.{}{digits}", "0".repeat(zeros))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use Figures::{Decimals, Significant, ThreeOrFour};
    use RoundingRule::{HalfAwayFromZero, HalfToEven};

    fn shown(value: f64, figures: Figures, rule: RoundingRule) -> String {
        Decimal::of(value).rounded(figures, rule).to_string()
    }

    /// Published: NIST Special Publication 811 (2008), B.7.1 (values from memory), which is the method of ASTM E29.
    #[test]
    fn the_examples_of_nist_sp_811() {
        for (figures, expected) in [(3, "6.97"), (4, "6.975"), (5, "6.9750"), (7, "6.974952")] {
            assert_eq!(shown(6.974_951_5, Significant(figures), HalfToEven), expected);
        }
        assert_eq!(shown(6.974_950_5, Significant(7), HalfToEven), "6.974950");
    }

    /// Published: ISO 80000-1:2009, annex B (values from memory).
    #[test]
    fn the_examples_of_iso_80000_1() {
        for (value, expected) in [(12.223, "12.2"), (12.251, "12.3"), (12.275, "12.3")] {
            assert_eq!(shown(value, Decimals(1), HalfToEven), expected);
        }
        for (value, rule_a, rule_b) in [(12.25, "12.2", "12.3"), (12.35, "12.4", "12.4")] {
            assert_eq!(shown(value, Decimals(1), HalfToEven), rule_a);
            assert_eq!(shown(value, Decimals(1), HalfAwayFromZero), rule_b);
        }
        for (value, rule_a, rule_b) in [(1225.0, "1220", "1230"), (1235.0, "1240", "1240")] {
            assert_eq!(shown(value, Significant(3), HalfToEven), rule_a);
            assert_eq!(shown(value, Significant(3), HalfAwayFromZero), rule_b);
        }
    }

    /// Closed form. The float nearest to 2.345 lies above it, the one nearest to 1.005 below: both mean the tie.
    #[test]
    fn a_tie_in_decimal_is_a_tie() {
        assert_eq!(shown(2.345, Significant(3), HalfToEven), "2.34");
        assert_eq!(shown(1.005, Significant(3), HalfAwayFromZero), "1.01");
        assert_eq!(shown(2.345 * (1.0 + 4e-16), Significant(3), HalfToEven), "2.34");
        assert_eq!(shown(2.345_000_001, Significant(3), HalfToEven), "2.35");
    }

    #[test]
    fn a_carry_keeps_the_figures() {
        assert_eq!(shown(9.996, Significant(3), HalfToEven), "10.0");
        assert_eq!(shown(999.96, Significant(3), HalfToEven), "1000");
        assert_eq!(shown(9.996, Decimals(2), HalfToEven), "10.00");
        assert_eq!(shown(0.09996, Significant(3), HalfToEven), "0.100");
    }

    #[test]
    fn three_figures_and_four_when_the_first_is_one() {
        assert_eq!(shown(12.345, ThreeOrFour, HalfToEven), "12.34");
        assert_eq!(shown(23.456, ThreeOrFour, HalfToEven), "23.5");
        assert_eq!(shown(1.9996, ThreeOrFour, HalfToEven), "2.00");
        assert_eq!(shown(9.996, ThreeOrFour, HalfToEven), "10.0");
        assert_eq!(shown(0.010_006, ThreeOrFour, HalfToEven), "0.01001");
    }

    #[test]
    fn decimals_of_small_values() {
        assert_eq!(shown(0.004, Decimals(2), HalfToEven), "0.00");
        assert_eq!(shown(0.005, Decimals(2), HalfToEven), "0.00");
        assert_eq!(shown(0.005, Decimals(2), HalfAwayFromZero), "0.01");
        assert_eq!(shown(0.006, Decimals(2), HalfToEven), "0.01");
        assert_eq!(shown(0.000_1, Decimals(2), HalfToEven), "0.00");
        assert_eq!(shown(0.6, Decimals(0), HalfToEven), "1");
        assert_eq!(shown(0.0, Decimals(1), HalfToEven), "0.0");
        assert_eq!(shown(0.0, Significant(3), HalfToEven), "0");
    }

    #[test]
    fn what_is_not_finite_is_not_a_crash() {
        assert_eq!(shown(f64::NAN, Significant(3), HalfToEven), "0");
        assert_eq!(shown(f64::MAX, Significant(3), HalfToEven).len(), 309);
        assert_eq!(shown(5e-324, Decimals(12), HalfToEven), "0.000000000000");
    }

    #[test]
    fn trimmed_says_no_more_than_is_known() {
        assert_eq!(Decimal::of(12.5).trimmed().to_string(), "12.5");
        assert_eq!(Decimal::of(120.0).trimmed().to_string(), "120");
        assert_eq!(Decimal::of(0.05).trimmed().to_string(), "0.05");
    }
}
