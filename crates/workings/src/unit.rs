//! Units: one table with exact factors, and products of its units such as `kN·m` or `N/mm²`.
//!
//! Sources of the factors, all exact by definition: BIPM, *The International System of Units* (SI), 9th edition 2019,
//! tables 4, 7 and 8 (N, Pa, prefixes, t, degree); the international yard and pound agreement of 1959 as printed in
//! NIST Special Publication 811 (2008), appendix B (1 ft = 0.3048 m, 1 in = 25.4 mm, 1 lb = 0.453 592 37 kg,
//! g_n = 9.806 65 m/s², so 1 lbf = 4.448 221 615 260 5 N).

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

impl NamedUnit {
    const fn new(
        symbol: &'static str,
        spellings: &'static [&'static str],
        words: (&'static str, &'static str),
        dimension: Dimension,
        (factor, power_of_ten): (f64, i8),
    ) -> Self {
        Self { symbol, spellings, one: words.0, many: words.1, dimension, factor, power_of_ten }
    }
}

use Dimension as D;
/// Every unit that is read or written.
///
/// `lb` is the pound-force, as mechanics courses write it; the pound of mass is `lbm`. `t` is the tonne, `kip` a
/// thousand pounds-force. A `pcf` is a weight per volume: see [`Dimension::WEIGHT_PER_VOLUME`].
pub static UNITS: [NamedUnit; 35] = [
    NamedUnit::new("km", &[], ("kilometre", "kilometres"), D::LENGTH, (1.0, 3)),
    NamedUnit::new("m", &["metre", "metres", "meter", "meters"], ("metre", "metres"), D::LENGTH, (1.0, 0)),
    NamedUnit::new("cm", &[], ("centimetre", "centimetres"), D::LENGTH, (1.0, -2)),
    NamedUnit::new("mm", &[], ("millimetre", "millimetres"), D::LENGTH, (1.0, -3)),
    NamedUnit::new("µm", &["μm", "um"], ("micrometre", "micrometres"), D::LENGTH, (1.0, -6)),
    NamedUnit::new("N", &["newton", "newtons"], ("newton", "newtons"), D::FORCE, (1.0, 0)),
    NamedUnit::new("daN", &[], ("decanewton", "decanewtons"), D::FORCE, (1.0, 1)),
    NamedUnit::new("kN", &[], ("kilonewton", "kilonewtons"), D::FORCE, (1.0, 3)),
    NamedUnit::new("MN", &[], ("meganewton", "meganewtons"), D::FORCE, (1.0, 6)),
    NamedUnit::new("Pa", &["pascal", "pascals"], ("pascal", "pascals"), D::STRESS, (1.0, 0)),
    NamedUnit::new("hPa", &[], ("hectopascal", "hectopascals"), D::STRESS, (1.0, 2)),
    NamedUnit::new("kPa", &[], ("kilopascal", "kilopascals"), D::STRESS, (1.0, 3)),
    NamedUnit::new("MPa", &[], ("megapascal", "megapascals"), D::STRESS, (1.0, 6)),
    NamedUnit::new("GPa", &[], ("gigapascal", "gigapascals"), D::STRESS, (1.0, 9)),
    NamedUnit::new("kg", &[], ("kilogram", "kilograms"), D::MASS, (1.0, 0)),
    NamedUnit::new("g", &[], ("gram", "grams"), D::MASS, (1.0, -3)),
    NamedUnit::new("t", &["tonne", "tonnes"], ("tonne", "tonnes"), D::MASS, (1.0, 3)),
    NamedUnit::new("s", &[], ("second", "seconds"), D::TIME, (1.0, 0)),
    NamedUnit::new("rad", &[], ("radian", "radians"), D::NONE, (1.0, 0)),
    NamedUnit::new("mrad", &[], ("milliradian", "milliradians"), D::NONE, (1.0, -3)),
    NamedUnit::new("°", &["deg", "degree", "degrees"], ("degree", "degrees"), D::NONE, (DEGREE, 0)),
    NamedUnit::new("%", &["percent"], ("percent", "percent"), D::NONE, (1.0, -2)),
    NamedUnit::new("in", &["inch", "inches", "in."], ("inch", "inches"), D::LENGTH, (254.0, -4)),
    NamedUnit::new("ft", &["foot", "feet"], ("foot", "feet"), D::LENGTH, (3048.0, -4)),
    NamedUnit::new("yd", &["yard", "yards"], ("yard", "yards"), D::LENGTH, (9144.0, -4)),
    NamedUnit::new(
        "lb",
        &["lbf", "lbs", "pound", "pounds"],
        ("pound", "pounds"),
        D::FORCE,
        (POUND_FORCE, -13),
    ),
    NamedUnit::new("kip", &["kips", "klb"], ("kip", "kips"), D::FORCE, (POUND_FORCE, -10)),
    NamedUnit::new("lbm", &[], ("pound of mass", "pounds of mass"), D::MASS, (45_359_237.0, -8)),
    NamedUnit::new("psi", &[], ("pound per square inch", "pounds per square inch"), D::STRESS, PSI),
    NamedUnit::new("ksi", &[], ("kip per square inch", "kips per square inch"), D::STRESS, KSI),
    NamedUnit::new("psf", &[], ("pound per square foot", "pounds per square foot"), D::STRESS, PSF),
    NamedUnit::new("ksf", &[], ("kip per square foot", "kips per square foot"), D::STRESS, KSF),
    NamedUnit::new("plf", &[], ("pound per foot", "pounds per foot"), D::FORCE_PER_LENGTH, PLF),
    NamedUnit::new("klf", &[], ("kip per foot", "kips per foot"), D::FORCE_PER_LENGTH, KLF),
    NamedUnit::new("pcf", &[], ("pound per cubic foot", "pounds per cubic foot"), D::WEIGHT_PER_VOLUME, PCF),
];

/// One degree in rad: π/180, the one factor of the table that has no exact decimal.
const DEGREE: f64 = std::f64::consts::PI / 180.0;
/// The pound-force in 1e-13 N: 0.453 592 37 kg times 9.806 65 m/s², exact.
const POUND_FORCE: f64 = 44_482_216_152_605.0;
// Quotients of the exact values above; their decimals do not end, so they are computed, correctly to the last bit or two.
const PSI: (f64, i8) = (POUND_FORCE / (254.0 * 254.0), -5);
const KSI: (f64, i8) = (PSI.0, -2);
const PSF: (f64, i8) = (POUND_FORCE / (3048.0 * 3048.0), -5);
const KSF: (f64, i8) = (PSF.0, -2);
const PLF: (f64, i8) = (POUND_FORCE / 3048.0, -9);
const KLF: (f64, i8) = (PLF.0, -6);
const PCF: (f64, i8) = (POUND_FORCE / (3048.0 * 3048.0 * 3048.0), -1);

impl Unit {
    /// A plain number.
    pub const NONE: Self = Self { factors: Vec::new() };

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

    /// As written: `kN·m`, `N/mm²`, `kg/m³`; empty for a plain number.
    pub fn text(&self) -> String {
        let part = |of: &UnitFactor| {
            let power = of.power.unsigned_abs();
            if power == 1 {
                of.unit.symbol.to_owned()
            } else {
                format!("{}{}", of.unit.symbol, raised(power))
            }
        };
        let above: Vec<String> = self.factors.iter().filter(|f| f.power > 0).map(part).collect();
        let below: Vec<String> = self.factors.iter().filter(|f| f.power < 0).map(part).collect();
        match (above.as_slice(), below.as_slice()) {
            (above, []) => above.join("·"),
            ([], below) => format!("1/{}", bracketed(below)),
            (above, below) => format!("{}/{}", above.join("·"), bracketed(below)),
        }
    }
}

fn bracketed(parts: &[String]) -> String {
    if parts.len() == 1 { parts[0].clone() } else { format!("({})", parts.join("·")) }
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

/// Digits of a power above the line.
pub(crate) fn raised(power: u8) -> String {
    power.to_string().chars().map(raised_digit).collect()
}

pub(crate) fn raised_digit(digit: char) -> char {
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
        '-' | '\u{2212}' => '⁻',
        other => other,
    }
}
