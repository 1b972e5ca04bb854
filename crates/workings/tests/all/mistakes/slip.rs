//! The slips that change any value by a factor.

use workings::dimension::Dimension;
use workings::mistake::slip::{Slip, slips};
use workings::style::Style;
use workings::unit_system::UnitSystem;

fn slip(dimension: Dimension, units: UnitSystem, factor: f64) -> Option<Slip> {
    slips(dimension, units).into_iter().find(|slip| (slip.factor / factor - 1.0).abs() < 1e-6)
}

fn id(dimension: Dimension, units: UnitSystem, factor: f64) -> Option<&'static str> {
    slip(dimension, units, factor).map(|slip| slip.id)
}

/// Closed form: 1 mm³ = 10⁻⁹ m³, 1 mm⁴ = 10⁻¹² m⁴; who takes 10⁻³ for these is 10⁶ and 10⁹ too large.
#[test]
fn millimetres_to_a_power() {
    let metric = UnitSystem::Metric;
    assert_eq!(id(Dimension::LENGTH_3, metric, 1e6), Some("cubed-millimetres"));
    assert_eq!(id(Dimension::LENGTH_4, metric, 1e9), Some("cubed-millimetres"));
    assert_eq!(id(Dimension::LENGTH_4, metric, 1e6), Some("cubed-millimetres"));
    assert_eq!(id(Dimension::STRESS, metric, 1e6), Some("power-of-ten"));
    assert_eq!(id(Dimension::LENGTH_3, UnitSystem::KipInch, 1e6), Some("power-of-ten"));
}

/// Closed form: 1 ft³ = 12³ in³; 1 in = 25.4 mm; 1 lb = 4.448 N; 1 psi = 6.895 kPa (the usual rounded factors).
#[test]
fn inches_and_pounds() {
    let us = UnitSystem::KipFoot;
    assert_eq!(id(Dimension::LENGTH_3, us, 1728.0), Some("inch-pound"));
    assert_eq!(id(Dimension::LENGTH_4, us, 20_736.0), Some("inch-pound"));
    assert_eq!(id(Dimension::LENGTH_4, us, 1728.0), None, "12³ belongs to what is cubed");
    assert_eq!(id(Dimension::LENGTH_3, UnitSystem::Metric, 1728.0), None);
    assert_eq!(id(Dimension::MOMENT, us, 1.0 / 12.0), Some("inch-pound"));
    assert_eq!(id(Dimension::STRESS, us, 144.0), Some("inch-pound"));
    assert_eq!(id(Dimension::LENGTH, us, 25.4), Some("inch-pound"));
    let near = |dimension, factor: f64| {
        slips(dimension, us)
            .iter()
            .any(|slip| slip.id == "inch-pound" && (slip.factor / factor - 1.0).abs() < 1e-4)
    };
    assert!(near(Dimension::FORCE, 4.448) && near(Dimension::STRESS, 6.895) && !near(Dimension::AREA, 4.448));
}

/// The feedback names the units that the course computes with.
#[test]
fn feedback_names_the_courses_units() {
    let said = |units: UnitSystem| {
        let style = Style { units, ..Style::default() };
        slip(Dimension::STRESS, units, 100.0).map(|slip| slip.feedback(&style).text(&style))
    };
    let asks = |length: &str, force: &str| {
        Some(format!("A power of ten is lost. Is each length in {length}, each force in {force}?"))
    };
    assert_eq!(said(UnitSystem::Metric), asks("mm", "N"));
    assert_eq!(said(UnitSystem::KilonewtonMetre), asks("m", "kN"));
    assert_eq!(said(UnitSystem::KilonewtonCentimetre), asks("cm", "kN"));
    assert_eq!(said(UnitSystem::KipFoot), asks("in", "kip"));
    assert_eq!(said(UnitSystem::PoundInch), asks("in", "lb"));
}

#[test]
fn every_value_may_lose_its_sign_or_a_power_of_ten() {
    for dimension in [Dimension::FORCE, Dimension::LENGTH_3, Dimension::STRESS, Dimension::NONE] {
        for units in UnitSystem::ALL {
            assert_eq!(id(dimension, units, -1.0), Some("sign"));
            for n in 1..=12 {
                assert!(id(dimension, units, 10_f64.powi(n)).is_some());
                assert!(id(dimension, units, 10_f64.powi(-n)).is_some());
            }
            assert!(slip(dimension, units, 0.5).is_some_and(|half| half.last_resort));
            let all = slips(dimension, units);
            assert!(all.iter().filter(|slip| slip.id != "half-or-double").all(|slip| !slip.last_resort));
            assert!(all.iter().all(|slip| slip.factor.is_finite()
                && slip.factor != 1.0
                && !slip.feedback(&Style::default()).pieces.is_empty()));
        }
    }
}
