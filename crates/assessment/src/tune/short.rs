//! Short numbers: few digits, and then only zeros.
//!
//! A value is short where it is `p/q` with `q` made of twos and fives, and `p` has few digits. A float shows it by its digits:
//! all but the first few are zeros, or nines, as far as arithmetic in floats can tell.

use crate::fair::figures::{decade, power_of_ten};

/// The most digits of a short number. With more a value is no better than one that never ends.
pub const MOST_DIGITS: u32 = 6;

/// How far a float may be from a short number and still be it, as a part of its size: arithmetic leaves a thousand times
/// less, and of the values that are no short number one in a thousand is taken for one.
const SLACK: f64 = 1e-9;

/// A short number: so many digits, of which the last stands at a power of ten.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Short {
    /// From the first that is not zero to the last that is not; one for zero.
    pub digits: u32,
    /// The power of ten of the last: 0 or more for a whole number.
    pub last: i32,
}

impl Short {
    /// A value in the unit in which it is written; `None` where it is no short number.
    ///
    /// ```
    /// use assessment::tune::Short;
    ///
    /// assert_eq!(Short::of(11.25e6), Some(Short { digits: 4, last: 4 }));
    /// assert_eq!(Short::of(0.48), Some(Short { digits: 2, last: -2 }));
    /// assert_eq!(Short::of(0.1 + 0.2), Some(Short { digits: 1, last: -1 }));
    /// assert_eq!(Short::of(1.0 / 3.0), None);
    /// ```
    pub fn of(value: f64) -> Option<Self> {
        if value == 0.0 {
            return Some(Self { digits: 1, last: 0 });
        }
        if !value.is_finite() {
            return None;
        }
        let mut last = decade(value) + 1 - MOST_DIGITS as i32;
        let scale = power_of_ten(last.abs());
        let scaled = if last >= 0 { value.abs() / scale } else { value.abs() * scale };
        let whole = scaled.round();
        // Written so that what is not a number, past the table of powers, is no short number either.
        let near = (scaled - whole).abs() <= SLACK * scaled;
        if !near || whole < 1.0 {
            return None;
        }
        let mut whole = whole as u64;
        while whole.is_multiple_of(10) {
            whole /= 10;
            last += 1;
        }
        Some(Self { digits: whole.ilog10() + 1, last })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Closed form: an integer without a zero at its end, times a power of ten.
        #[test]
        fn digits_are_those_of_the_integer(whole in 1..1_000_000_u64, power in -12..12_i32) {
            let mut plain = whole;
            let mut last = power;
            while plain.is_multiple_of(10) {
                plain /= 10;
                last += 1;
            }
            let value = whole as f64 * power_of_ten(power);
            let found = Short::of(-value).expect("a short number");
            prop_assert_eq!(found, Short { digits: plain.to_string().len() as u32, last });
            // The noise of sums does not matter, a digit does.
            prop_assert_eq!(Short::of(value * (1.0 + 1e-13)), Some(found));
            prop_assert_eq!(Short::of(value * (1.0 + 1e-7)), None);
        }

        /// Closed form: a fraction ends where its denominator, in lowest terms, has no factor but 2 and 5.
        #[test]
        fn a_fraction_with_another_factor_below_never_ends(above in 1..400_u64, below in 1..40_u64) {
            let mut rest = below / gcd(above, below);
            for factor in [2, 5] {
                while rest.is_multiple_of(factor) {
                    rest /= factor;
                }
            }
            let short = Short::of(above as f64 / below as f64);
            if rest > 1 {
                prop_assert_eq!(short, None);
            }
        }
    }

    fn gcd(a: u64, b: u64) -> u64 {
        if b == 0 { a } else { gcd(b, a % b) }
    }

    #[test]
    fn what_is_no_number_is_not_short() {
        for value in [f64::NAN, f64::INFINITY, 1e300, 1e-300, std::f64::consts::PI] {
            assert_eq!(Short::of(value), None, "{value}");
        }
        assert_eq!(Short::of(999_999.999_999_999), Some(Short { digits: 1, last: 6 }));
    }
}
