//! Rounding a million times over: the same numbers as [`workings::rounding::Decimal`] gives, without its digits.

use std::sync::LazyLock;
use workings::rounding::Figures;

/// Powers of ten from 10^-LARGEST to 10^LARGEST, each the float nearest to it.
static POWERS: LazyLock<Vec<f64>> = LazyLock::new(|| {
    (-LARGEST..=LARGEST).map(|power| format!("1e{power}").parse().unwrap_or(f64::NAN)).collect()
});

const LARGEST: i32 = 60;

/// What lies this near to the middle between two neighbours, in units of the last place, may go to either: arithmetic in
/// floats leaves that much of 2.345.
const MIDDLE: f64 = 1e-9;

pub(crate) fn power_of_ten(power: i32) -> f64 {
    usize::try_from(power + LARGEST).ok().and_then(|at| POWERS.get(at)).copied().unwrap_or(f64::NAN)
}

/// How finely values are rounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Grid {
    /// To so many figures, and to one more where the first is 1.
    Figures { count: i32, one_more_after_1: bool },
    /// To so many decimals.
    Decimals(i32),
}

impl Grid {
    /// As the course rounds.
    pub(crate) fn of(figures: Figures) -> Self {
        match figures {
            Figures::Significant(count) => {
                Self::Figures { count: i32::from(count.clamp(1, 12)), one_more_after_1: false }
            }
            Figures::ThreeOrFour => Self::Figures { count: 3, one_more_after_1: true },
            Figures::Decimals(count) => Self::Decimals(i32::from(count.min(12))),
        }
    }

    /// With one figure fewer.
    pub(super) fn coarser(self) -> Self {
        match self {
            // One figure is the least that a number has.
            Self::Figures { count: 1, .. } => Self::Figures { count: 1, one_more_after_1: false },
            Self::Figures { count, one_more_after_1 } => Self::Figures { count: count - 1, one_more_after_1 },
            Self::Decimals(count) => Self::Decimals(count - 1),
        }
    }

    /// Without the further figure where the first is 1.
    pub(crate) fn plain(self) -> Self {
        match self {
            Self::Figures { count, .. } => Self::Figures { count, one_more_after_1: false },
            decimals => decimals,
        }
    }

    /// One unit of the last place of a value, in the value's own unit; none of zero where figures are counted.
    pub(crate) fn last_place(self, value: f64) -> f64 {
        match self {
            Self::Figures { .. } if value == 0.0 || !value.is_finite() => 0.0,
            _ => power_of_ten(-self.decimals(value)),
        }
    }

    /// How many decimals a value is rounded to.
    fn decimals(self, value: f64) -> i32 {
        match self {
            Self::Decimals(count) => count,
            Self::Figures { count, one_more_after_1 } => {
                let decade = decade(value);
                let first_is_1 = value.abs() * (1.0 + 1e-13) < 2.0 * power_of_ten(decade);
                count + i32::from(one_more_after_1 && first_is_1) - 1 - decade
            }
        }
    }

    /// A value rounded; where it lies in the middle between two neighbours, to the one farther from zero or not.
    pub(crate) fn round(self, value: f64, middle_goes_out: bool) -> f64 {
        if value == 0.0 || !value.is_finite() {
            return value;
        }
        let decimals = self.decimals(value);
        let scale = power_of_ten(decimals.abs());
        let scaled = if decimals >= 0 { value.abs() * scale } else { value.abs() / scale };
        let below = scaled.floor();
        let beyond = scaled - below;
        let out = if (beyond - 0.5).abs() <= MIDDLE { middle_goes_out } else { beyond > 0.5 };
        let rounded = below + f64::from(u8::from(out));
        let size = if decimals >= 0 { rounded / scale } else { rounded * scale };
        if value < 0.0 { -size } else { size }
    }
}

/// The power of ten of the first figure of a value.
pub(crate) fn decade(value: f64) -> i32 {
    // 9.999 999 999 999 9 is meant to be 10.
    let size = value.abs() * (1.0 + 1e-13);
    if size == 0.0 {
        return 0;
    }
    // The power of two is read off the float, and that of ten follows to within one: no logarithm for each of millions.
    let twos = ((size.to_bits() >> 52) & 0x7ff) as i32 - 1023;
    let guess = (f64::from(twos) * std::f64::consts::LOG10_2).floor() as i32;
    if size >= power_of_ten(guess + 1) { guess + 1 } else { guess }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use workings::rounding::{Decimal, RoundingRule};

    const ALL: [Figures; 5] = [
        Figures::Significant(2),
        Figures::Significant(3),
        Figures::Significant(4),
        Figures::ThreeOrFour,
        Figures::Decimals(2),
    ];

    fn by_digits(value: f64, figures: Figures, rule: RoundingRule) -> f64 {
        Decimal::of(value).rounded(figures, rule).to_string().parse().expect("a decimal number")
    }

    proptest! {
        /// Beside the rounding by digits, which every printed value goes through.
        #[test]
        fn rounds_as_it_is_printed(mantissa in 1.0..10.0_f64, decade in -6..9_i32) {
            let value = mantissa * power_of_ten(decade);
            for figures in ALL {
                let expected = by_digits(value, figures, RoundingRule::HalfAwayFromZero);
                let found = Grid::of(figures).round(value, true);
                prop_assert!((found - expected).abs() <= 1e-14 * expected.abs(), "{value} {figures:?}");
                prop_assert_eq!(Grid::of(figures).round(-value, true), -found);
            }
        }

        /// Numbers of few figures, so that ties come often: a tie goes to one of its neighbours, and the other is one unit away.
        #[test]
        fn a_middle_goes_either_way(whole in 1..20_000_u32, decade in -4..4_i32) {
            let value = f64::from(whole) * power_of_ten(decade);
            for figures in ALL {
                let grid = Grid::of(figures);
                let (one, other) = (grid.round(value, false), grid.round(value, true));
                let even = by_digits(value, figures, RoundingRule::HalfToEven);
                let near = |a: f64| (a - even).abs() <= 1e-13 * even;
                prop_assert!(near(one) || near(other), "{value} {figures:?}: {one} {other} {even}");
                let unit = grid.last_place(value);
                prop_assert!(other - one <= unit * (1.0 + 1e-9), "{value} {figures:?}");
            }
        }
    }

    /// By hand.
    #[test]
    fn the_last_place_and_one_figure_fewer() {
        let three_or_four = Grid::of(Figures::ThreeOrFour);
        for (value, expected) in
            [(12.25, 0.01), (108_000.0, 100.0), (2.5, 0.01), (-0.75, 0.001), (9.999_999_999_999_99, 0.01)]
        {
            let found = three_or_four.last_place(value);
            assert!((found - expected).abs() <= 1e-15 * expected.abs(), "{value}: {found}");
        }
        assert_eq!(three_or_four.last_place(0.0), 0.0);
        assert_eq!(three_or_four.coarser().round(1234.0, true), 1230.0);
        assert_eq!(three_or_four.coarser().round(6543.0, true), 6500.0);
        assert_eq!(Grid::of(Figures::Decimals(2)).coarser().round(0.16, true), 0.2);
        assert_eq!(Grid::of(Figures::Decimals(0)).coarser().round(16.0, true), 20.0);
        assert_eq!(Grid::of(Figures::Significant(1)).coarser().round(16.0, true), 20.0);
    }
}
