use super::*;
use crate::dimension::Dimension;

fn si(value: f64, unit: &str) -> f64 {
    Unit::read(unit).expect("a unit").to_si(value)
}

/// Published: the definitions in NIST Special Publication 811 (2008), appendix B.8.
#[test]
fn exact_factors_by_definition() {
    assert_eq!(si(1.0, "in"), 0.0254);
    assert_eq!(si(1.0, "ft"), 0.3048);
    assert_eq!(si(1.0, "yd"), 0.9144);
    assert_eq!(si(1.0, "lbm"), 0.453_592_37);
    assert_eq!(si(1.0, "lbf"), 4.448_221_615_260_5);
    assert_eq!(si(1.0, "kip"), 4_448.221_615_260_5);
    assert_eq!(si(1.0, "t"), 1000.0);
    assert_eq!(si(1.0, "MPa"), si(1.0, "N/mm²"));
    assert_eq!(si(180.0, "°"), std::f64::consts::PI);
}

/// Published: NIST Special Publication 811 (2008), appendix B.8, factors printed to seven figures.
#[test]
fn derived_factors_as_printed() {
    let printed = [
        ("psi", 6.894_757e3),
        ("ksi", 6.894_757e6),
        ("psf", 47.880_26),
        ("lb/ft", 14.593_90),
        ("lb/in", 175.126_8),
        ("lb ft", 1.355_818),
        ("lb in", 0.112_984_8),
        ("lbm/ft³", 16.018_46),
        ("in²", 6.4516e-4),
        ("in³", 1.638_706e-5),
        ("in⁴", 4.162_314e-7),
        ("ft⁴", 8.630_975e-3),
    ];
    for (unit, factor) in printed {
        let found = si(1.0, unit);
        // Half a unit of the seventh figure of a number that begins with 1.
        assert!((found / factor - 1.0).abs() < 5e-7, "{unit}: {found} against {factor}");
    }
}

/// Closed form: decimal prefixes are exact, so the value is the float nearest to the decimal.
#[test]
fn decimal_prefixes_round_once() {
    for tenths in 0..2000_u32 {
        let millimetres: f64 = format!("{tenths}e-1").parse().expect("a number");
        let exact: f64 = format!("{tenths}").parse::<f64>().expect("a number") / 1e4;
        assert!((si(millimetres, "mm") - exact).abs() <= exact * f64::EPSILON);
    }
    assert_eq!(si(120.0, "mm"), 0.12);
    assert_eq!(si(35.0, "mm²"), 35e-6);
    assert_eq!(si(7.0, "kN/m"), 7e3);
}

#[test]
fn there_and_back() {
    for unit in UNITS.iter() {
        for value in [1.0, 0.3, 12.5, 1e-9, 7e12] {
            let once = Unit { factors: vec![UnitFactor { unit, power: 1 }] };
            let back = once.from_si(once.to_si(value));
            assert!((back - value).abs() <= 4.0 * f64::EPSILON * value, "{} {value} {back}", unit.symbol);
        }
    }
}

#[test]
fn every_spelling_is_read_and_none_twice() {
    let mut seen = std::collections::BTreeSet::new();
    for unit in UNITS.iter() {
        for word in unit.spellings.iter().chain([&unit.symbol]) {
            assert!(seen.insert(*word), "{word} stands twice");
            let read = Unit::read(word).expect("a unit");
            assert_eq!(read.factors[0].unit.symbol, unit.symbol);
        }
        assert!(unit.factor.is_finite() && unit.factor > 0.0);
    }
}

#[test]
fn units_in_words() {
    let words = |unit: &str| Unit::read(unit).expect("a unit").in_words(false);
    assert_eq!(words("kN m"), "kilonewton metres");
    assert_eq!(words("N/mm²"), "newtons per square millimetre");
    assert_eq!(words("mm⁴"), "millimetres to the fourth");
    assert_eq!(words("in³"), "cubic inches");
    assert_eq!(words("kg/m³"), "kilograms per cubic metre");
    assert_eq!(words("kip in"), "kip inches");
    assert_eq!(Unit::read("1/m").ok(), None);
    assert_eq!(words("m^-1"), "per metre");
}

#[test]
fn base_units() {
    assert_eq!(Unit::of_base_units(Dimension::of(1, 2, -2)).text(), "kg·m²/s²");
    assert_eq!(Unit::of_base_units(Dimension::NONE).text(), "");
}
