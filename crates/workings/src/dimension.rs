//! The dimension of a quantity: whole powers of mass, length and time. An angle has none.

use std::fmt;

/// Powers of mass, length and time.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Dimension {
    /// Power of mass.
    pub mass: i8,
    /// Power of length.
    pub length: i8,
    /// Power of time.
    pub time: i8,
}

impl Dimension {
    /// A plain number, or an angle.
    pub const NONE: Self = Self::of(0, 0, 0);
    /// kg
    pub const MASS: Self = Self::of(1, 0, 0);
    /// s
    pub const TIME: Self = Self::of(0, 0, 1);
    /// m
    pub const LENGTH: Self = Self::of(0, 1, 0);
    /// m²
    pub const AREA: Self = Self::of(0, 2, 0);
    /// m³: a volume, a first moment of area, a section modulus.
    pub const LENGTH_3: Self = Self::of(0, 3, 0);
    /// m⁴: a second moment of area.
    pub const LENGTH_4: Self = Self::of(0, 4, 0);
    /// N
    pub const FORCE: Self = Self::of(1, 1, -2);
    /// N m; also the stiffness of a rotational spring, N m per rad.
    pub const MOMENT: Self = Self::of(1, 2, -2);
    /// N/m: a spread load, a shear flow, the stiffness of a spring.
    pub const FORCE_PER_LENGTH: Self = Self::of(1, 0, -2);
    /// Pa
    pub const STRESS: Self = Self::of(1, -1, -2);
    /// N m²: a flexural rigidity.
    pub const RIGIDITY: Self = Self::of(1, 3, -2);
    /// N m³: what a flexural rigidity times a deflection comes to.
    pub const RIGIDITY_LENGTH: Self = Self::of(1, 4, -2);
    /// kg/m³
    pub const DENSITY: Self = Self::of(1, -3, 0);
    /// N/m³: a weight per volume.
    pub const WEIGHT_PER_VOLUME: Self = Self::of(1, -2, -2);
    /// m/s²
    pub const ACCELERATION: Self = Self::of(0, 1, -2);
    /// 1/m: a curvature.
    pub const CURVATURE: Self = Self::of(0, -1, 0);

    /// The dimension with these powers of mass, length and time.
    pub const fn of(mass: i8, length: i8, time: i8) -> Self {
        Self { mass, length, time }
    }

    /// The dimension of a product; `None` where a power leaves the range of `i8`.
    pub fn times(self, other: Self) -> Option<Self> {
        Some(Self::of(
            self.mass.checked_add(other.mass)?,
            self.length.checked_add(other.length)?,
            self.time.checked_add(other.time)?,
        ))
    }

    /// The dimension of a quotient; `None` where a power leaves the range of `i8`.
    pub fn over(self, other: Self) -> Option<Self> {
        Some(Self::of(
            self.mass.checked_sub(other.mass)?,
            self.length.checked_sub(other.length)?,
            self.time.checked_sub(other.time)?,
        ))
    }

    /// The dimension of a whole power; `None` where a power leaves the range of `i8`.
    pub fn power(self, exponent: i8) -> Option<Self> {
        Some(Self::of(
            self.mass.checked_mul(exponent)?,
            self.length.checked_mul(exponent)?,
            self.time.checked_mul(exponent)?,
        ))
    }

    /// The dimension of a square root; `None` where a power is odd.
    pub fn root(self) -> Option<Self> {
        let even = |power: i8| power % 2 == 0;
        (even(self.mass) && even(self.length) && even(self.time))
            .then(|| Self::of(self.mass / 2, self.length / 2, self.time / 2))
    }

    /// What a quantity of this dimension is, in words with its article: "a force per length".
    ///
    /// Where the trade has no word, the powers are told: "a quantity in kg·m^5".
    pub fn in_words(self) -> String {
        match NAMED.iter().find(|(dimension, _)| *dimension == self) {
            Some((_, words)) => (*words).to_owned(),
            None => format!("a quantity in {self}"),
        }
    }
}

/// The dimensions that the trade has words for.
const NAMED: [(Dimension, &str); 17] = [
    (Dimension::NONE, "a plain number"),
    (Dimension::MASS, "a mass"),
    (Dimension::TIME, "a time"),
    (Dimension::LENGTH, "a length"),
    (Dimension::AREA, "an area"),
    (Dimension::LENGTH_3, "a length to the third"),
    (Dimension::LENGTH_4, "a length to the fourth"),
    (Dimension::FORCE, "a force"),
    (Dimension::MOMENT, "a moment"),
    (Dimension::FORCE_PER_LENGTH, "a force per length"),
    (Dimension::STRESS, "a stress"),
    (Dimension::RIGIDITY, "a flexural rigidity"),
    (Dimension::RIGIDITY_LENGTH, "a flexural rigidity times a length"),
    (Dimension::DENSITY, "a density"),
    (Dimension::WEIGHT_PER_VOLUME, "a weight per volume"),
    (Dimension::ACCELERATION, "an acceleration"),
    (Dimension::CURVATURE, "a curvature"),
];

/// The product of base units: `kg·m·s^-2`; `1` for a plain number.
impl fmt::Display for Dimension {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut first = true;
        for (unit, power) in [("kg", self.mass), ("m", self.length), ("s", self.time)] {
            if power == 0 {
                continue;
            }
            if !first {
                f.write_str("·")?;
            }
            first = false;
            if power == 1 { f.write_str(unit)? } else { write!(f, "{unit}^{power}")? }
        }
        if first { f.write_str("1") } else { Ok(()) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Closed form: the defining products of the trade.
    #[test]
    fn products_and_quotients_of_dimensions() {
        assert_eq!(Dimension::FORCE.times(Dimension::LENGTH), Some(Dimension::MOMENT));
        assert_eq!(Dimension::FORCE.over(Dimension::AREA), Some(Dimension::STRESS));
        assert_eq!(Dimension::FORCE.over(Dimension::LENGTH), Some(Dimension::FORCE_PER_LENGTH));
        assert_eq!(Dimension::LENGTH.power(4), Some(Dimension::LENGTH_4));
        assert_eq!(Dimension::LENGTH_4.root(), Some(Dimension::AREA));
        assert_eq!(Dimension::LENGTH.root(), None);
        assert_eq!(Dimension::DENSITY.times(Dimension::ACCELERATION), Some(Dimension::WEIGHT_PER_VOLUME));
    }

    #[test]
    fn a_power_out_of_range_is_refused_not_wrapped() {
        assert_eq!(Dimension::LENGTH_4.power(100), None);
        assert_eq!(Dimension::of(0, 127, 0).times(Dimension::LENGTH), None);
        assert_eq!(Dimension::of(0, -128, 0).over(Dimension::LENGTH), None);
    }

    #[test]
    fn words_for_dimensions() {
        assert_eq!(Dimension::FORCE_PER_LENGTH.in_words(), "a force per length");
        assert_eq!(Dimension::of(1, 5, 0).in_words(), "a quantity in kg·m^5");
        assert_eq!(Dimension::NONE.to_string(), "1");
    }
}
