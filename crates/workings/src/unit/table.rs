//! Every unit that is read or written, with its exact factor.
//!
//! Sources of the factors, all exact by definition: BIPM, *The International System of Units* (SI), 9th edition 2019,
//! tables 4, 7 and 8 (N, Pa, prefixes, t, degree); the international yard and pound agreement of 1959 as printed in
//! NIST Special Publication 811 (2008), appendix B (1 ft = 0.3048 m, 1 in = 25.4 mm, 1 lb = 0.453 592 37 kg,
//! g_n = 9.806 65 m/s², so 1 lbf = 4.448 221 615 260 5 N).

use super::NamedUnit;
use crate::dimension::Dimension;
use crate::dimension::Dimension as D;

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
    NamedUnit::new("in", &["inch", "inches"], ("inch", "inches"), D::LENGTH, (254.0, -4)),
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

/// The unit of this symbol or spelling.
pub(super) fn unit(word: &str) -> Option<&'static NamedUnit> {
    UNITS.iter().find(|unit| unit.symbol == word || unit.spellings.contains(&word))
}
