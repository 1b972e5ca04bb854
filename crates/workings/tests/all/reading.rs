//! Reading values: no text may crash it, and what is shown reads back.

use proptest::prelude::*;
use workings::dimension::Dimension;
use workings::quantity::Quantity;
use workings::reading::{Fault, Names, is_unit, nearest, parse, read};
use workings::role::Role;
use workings::rounding::{Figures, RoundingRule};
use workings::style::Style;
use workings::unit::Unit;
use workings::unit_system::UnitSystem;

fn names() -> Names {
    Names::from([
        ("P".to_owned(), Quantity::new(3e3, Dimension::FORCE)),
        ("L".to_owned(), Quantity::new(4.0, Dimension::LENGTH)),
        ("t".to_owned(), Quantity::new(0.0, Dimension::LENGTH)),
        ("huge".to_owned(), Quantity::new(f64::MAX, Dimension::STRESS)),
        ("none".to_owned(), Quantity::new(f64::NAN, Dimension::NONE)),
    ])
}

fn assert_told(text: &str, faults: &[Fault]) {
    assert!(!faults.is_empty(), "{text:?}");
    for fault in faults {
        assert!(fault.range.start <= fault.range.end && fault.range.end <= text.len(), "{text:?} {fault:?}");
        assert!(
            text.is_char_boundary(fault.range.start) && text.is_char_boundary(fault.range.end),
            "{text:?} {fault:?}"
        );
        assert!(!fault.what.is_empty() && !fault.mend.is_empty(), "{text:?} {fault:?}");
        assert!(fault.what.chars().count() < 300 && fault.mend.chars().count() < 1200, "{text:?} {fault:?}");
    }
}

fn try_everything(text: &str) {
    match parse(text) {
        Err(faults) => assert_told(text, &faults),
        Ok(parsed) => {
            for (name, range) in parsed.names() {
                assert_eq!(&text[range], name);
            }
            match parsed.evaluate(&names()) {
                Ok(quantity) => assert!(quantity.value.is_finite(), "{text:?}"),
                Err(faults) => assert_told(text, &faults),
            }
        }
    }
    for wanted in [Dimension::FORCE, Dimension::NONE, Dimension::DENSITY] {
        match read(text, wanted, "3 kN", &names()) {
            Ok(quantity) => assert!(quantity.dimension == wanted && quantity.value.is_finite()),
            Err(faults) => assert_told(text, &faults),
        }
    }
    let _ = Unit::read(text).map(|unit| unit.text());
    let _ = is_unit(text);
    let _ = nearest(text, ["kN", "length", text]);
}

/// Pieces of which texts are made that come near to being values.
const PIECES: [&str; 74] = [
    "1", "12", "0", "000", "250", ".5", "1.", "1e3", "1e999", "e", "E-", "½", "¾", "1/2", "1 1/2", "×10^3",
    "·10⁶", "*10^", " ", "  ", "\u{a0}", "\u{202f}", "\u{200b}", "\t", "+", "-", "\u{2212}", "–", "*", "·",
    "×", "/", "÷", "\u{2044}", "^", "**", "²", "⁻¹", "⁻", "(", ")", "((", "))", "√", "sqrt(", "abs(", "pi",
    "π", "P", "L", "t", "huge", "none", "kN", "kn", "kNm", "m", "mm", "mm4", "mm^2", "mm^0", "N/mm",
    "kip-in", "ft", "in", "'", "\"", "′", "″", "°", "%", "NaN", ",", "#",
];

proptest! {
    #![proptest_config(ProptestConfig { cases: 4000, ..ProptestConfig::default() })]

    #[test]
    fn no_text_crashes_the_reader(text in any::<String>()) {
        try_everything(&text);
    }

    #[test]
    fn no_text_that_comes_near_crashes_the_reader(pieces in prop::collection::vec(0..PIECES.len(), 0..12)) {
        let text: String = pieces.into_iter().map(|piece| PIECES[piece]).collect();
        try_everything(&text);
    }

    /// What is shown is within half a unit of its last figure, and reads back as what is shown.
    #[test]
    fn what_is_shown_reads_back(
        mantissa in -9.999..9.999_f64,
        exponent in -8..9_i32,
        system in 0..UnitSystem::ALL.len(),
        kind in 0..8_usize,
        figures in 1..8_u8,
        away in any::<bool>(),
    ) {
        let kinds = [
            (Dimension::FORCE, Role::ShearForce),
            (Dimension::LENGTH, Role::Station),
            (Dimension::LENGTH, Role::Breadth),
            (Dimension::LENGTH_4, Role::SecondMoment),
            (Dimension::STRESS, Role::ShearStress),
            (Dimension::MOMENT, Role::BendingMoment),
            (Dimension::FORCE_PER_LENGTH, Role::ShearFlow),
            (Dimension::LENGTH_3, Role::FirstMoment),
        ];
        let (dimension, role) = kinds[kind];
        let value = Quantity::new(mantissa * 10_f64.powi(exponent), dimension);
        let style = Style {
            units: UnitSystem::ALL[system],
            figures: Figures::Significant(figures),
            rounding: if away { RoundingRule::HalfAwayFromZero } else { RoundingRule::HalfToEven },
            ..Style::default()
        };
        let shown = style.show(value, role);
        // Half a unit of the last of so many figures, and 1e-9 of it for values within rounding noise of a tie.
        let half = 0.5 * 10_f64.powi(1 - i32::from(figures)) * (1.0 + 1e-9);
        prop_assert!((shown.in_si() - value.value).abs() <= half * value.value.abs() + 1e-300, "{value:?} {}", shown.text());
        let text = shown.text();
        let back = read(&text, dimension, "1 m", &Names::new());
        let back = back.map_err(|faults| TestCaseError::fail(format!("{text}: {faults:?}")))?;
        prop_assert!((back.value - shown.in_si()).abs() <= 1e-14 * value.value.abs(), "{text}");
    }

    /// Six figures are enough for what a lecturer writes, and the text says it again.
    #[test]
    fn given_values_are_said_again(digits in 1..999_999_u32, decimals in 0..6_u32, system in 0..UnitSystem::ALL.len()) {
        let style = Style { units: UnitSystem::ALL[system], ..Style::default() };
        let unit = style.unit(Role::PointForce, Dimension::FORCE);
        let number = f64::from(digits) / f64::from(10_u32.pow(decimals));
        let value = read(&format!("{number} {unit}"), Dimension::FORCE, "1 kN", &Names::new()).expect("reads");
        let back = style.show_given(value, Role::PointForce).in_si();
        prop_assert!((back - value.value).abs() <= 1e-14 * value.value, "{number} {unit}: {back}");
    }
}
