use super::*;

fn names() -> Names {
    Names::from([
        ("P".to_owned(), Quantity::new(3e3, Dimension::FORCE)),
        ("span".to_owned(), Quantity::new(4.0, Dimension::LENGTH)),
        ("L".to_owned(), Quantity::new(4.0, Dimension::LENGTH)),
        ("t".to_owned(), Quantity::new(0.02, Dimension::LENGTH)),
    ])
}

fn value(text: &str) -> Quantity {
    parse(text)
        .and_then(|parsed| parsed.evaluate(&names()))
        .unwrap_or_else(|faults| panic!("{text}: {faults:?}"))
}

fn faults(text: &str) -> Vec<Fault> {
    parse(text).and_then(|parsed| parsed.evaluate(&names())).expect_err(text)
}

/// The one fault: what is underlined, its kind, what is wrong, what would be right.
fn fault(text: &str) -> (String, FaultKind, String, String) {
    told(text, faults(text))
}

fn fault_as(text: &str, wanted: Dimension, example: &str) -> (String, FaultKind, String, String) {
    told(text, read(text, wanted, example, &names()).expect_err(text))
}

fn told(text: &str, faults: Vec<Fault>) -> (String, FaultKind, String, String) {
    assert_eq!(faults.len(), 1, "{text}: {faults:?}");
    let Fault { range, kind, what, mend } = faults[0].clone();
    (text[range].to_owned(), kind, what, mend)
}

fn is(text: &str, si: f64, dimension: Dimension) {
    assert_eq!(value(text), Quantity::new(si, dimension), "{text}");
}

/// Closed form: exact factors.
#[test]
fn values_with_units() {
    is("12.5 kN", 12.5e3, Dimension::FORCE);
    is("12.5kN", 12.5e3, Dimension::FORCE);
    is("-3.5 kN m", -3.5e3, Dimension::MOMENT);
    is("\u{2212}3.5\u{a0}kN·m", -3.5e3, Dimension::MOMENT);
    is("1e3 N", 1e3, Dimension::FORCE);
    is("1.2×10^3 N", 1.2e3, Dimension::FORCE);
    is("11.25·10⁶ mm⁴", 11.25e-6, Dimension::LENGTH_4);
    is("11.25*10^6 mm4", 11.25e-6, Dimension::LENGTH_4);
    is("0.1 mm", 0.0001, Dimension::LENGTH);
    is("12 000 N", 12e3, Dimension::FORCE);
    is("12\u{202f}345.678\u{202f}9 N", 12_345.678_9, Dimension::FORCE);
    is(".5 m", 0.5, Dimension::LENGTH);
    is("30 N/mm^2", 30e6, Dimension::STRESS);
    is("7850 kg/m³", 7850.0, Dimension::DENSITY);
    is("0", 0.0, Dimension::NONE);
    is("50 %", 0.5, Dimension::NONE);
}

/// Closed form: 12 ft 6 in = 150 in = 3.81 m.
#[test]
fn customary_values() {
    for text in [
        "12 ft 6 in",
        "12ft 6in",
        "12ft6in",
        "12' 6\"",
        "12′ 6″",
        "12'-6\"",
        "12'6''",
        "12.5 ft",
        "150 in",
        "12½ ft",
    ] {
        let found = value(text);
        assert_eq!(found.dimension, Dimension::LENGTH);
        assert!((found.value - 3.81).abs() < 1e-15, "{text} {}", found.value);
    }
    for text in ["1 1/2 in", "1½ in", "1 ½ in", "3/2 in", "1.5 in", "1 1/2\"", "1 1\u{2044}2 in"] {
        assert!((value(text).value - 0.0381).abs() < 1e-17, "{text}");
    }
    assert!((value("-12 ft 6 in").value + 3.81).abs() < 1e-15);
    assert!((value("12 ft 6 1/2 in").value - 150.5 * 0.0254).abs() < 1e-15);
    assert!((value("3.5 kip/ft").value - 3.5 * 4_448.221_615_260_5 / 0.3048).abs() < 1e-9);
    assert_eq!(value("2 kip-ft").dimension, Dimension::MOMENT);
    assert_eq!(value("2 ksi").dimension, Dimension::STRESS);
}

#[test]
fn expressions_of_named_values() {
    is("2*P + 1 kN", 7e3, Dimension::FORCE);
    is("L/2 - 10 mm", 1.99, Dimension::LENGTH);
    is("(L + 2 m)/3", 2.0, Dimension::LENGTH);
    is("P*L/4", 3e3, Dimension::MOMENT);
    is("sqrt(L*L)", 4.0, Dimension::LENGTH);
    is("√(16 m^2)", 4.0, Dimension::LENGTH);
    is("abs(-L)", 4.0, Dimension::LENGTH);
    is("L^2", 16.0, Dimension::AREA);
    is("L²", 16.0, Dimension::AREA);
    is("L**2", 16.0, Dimension::AREA);
    is("-L^2", -16.0, Dimension::AREA);
    is("(20 mm)^2", 0.02 * 0.02, Dimension::AREA);
    is("10 kN / 2 m", 5e3, Dimension::FORCE_PER_LENGTH);
    is("10 kN/2 m", 5e3, Dimension::FORCE_PER_LENGTH);
    is("P/2/2", 750.0, Dimension::FORCE);
    is("3 kN*L", 12e3, Dimension::MOMENT);
    is("P/t", 3e3 / 0.02, Dimension::FORCE_PER_LENGTH);
    is("(3 kN)/t", 3e3 / 0.02, Dimension::FORCE_PER_LENGTH);
    is("1/2*L", 2.0, Dimension::LENGTH);
    is("L/1/2", 2.0, Dimension::LENGTH);
    is("--2 m", 2.0, Dimension::LENGTH);
    assert!((value("pi*L").value - 4.0 * std::f64::consts::PI).abs() < 1e-15);
}

#[test]
fn names_in_the_order_of_the_text() {
    let parsed = parse("2*P + L/pi - P").expect("reads");
    assert_eq!(parsed.names(), vec![("P", 2..3), ("L", 6..7), ("P", 13..14)]);
}

#[test]
fn a_unit_that_is_none() {
    let (at, kind, what, mend) = fault("12 kn");
    assert_eq!((at.as_str(), kind), ("kn", FaultKind::UnknownUnit));
    assert_eq!((what.as_str(), mend.as_str()), ("kn is not a unit", "did you mean kN?"));
    assert_eq!(fault("3 Mpa").3, "did you mean MPa?");
    assert_eq!(fault("3 k").3, "did you mean 3 kip?");
    assert!(fault("3 P").3.contains("to multiply write 3*P") || fault("3 P").3.contains("did you mean"));
}

#[test]
fn both_faults_of_a_text_are_told() {
    let found = faults("2*spam + 3 kn");
    assert_eq!(found.len(), 1, "the unit is seen when the text is read, the name when it is evaluated");
    let found = faults("spam + Q");
    assert_eq!(found.iter().map(|fault| fault.kind).collect::<Vec<_>>(), [FaultKind::UnknownName; 2]);
    assert_eq!(found[0].mend, "did you mean span?");
    assert_eq!(found[1].mend, "the names of this lesson are L, P, span, t");
    let found = faults("3 kn + 4 nm");
    assert_eq!(found.len(), 2);
}

#[test]
fn a_unit_that_is_missing() {
    let (at, kind, what, mend) = fault_as(" 12 ", Dimension::FORCE, "3 kN");
    assert_eq!((at.as_str(), kind), ("12", FaultKind::MissingUnit));
    assert_eq!((what.as_str(), mend.as_str()), ("12 needs a unit", "did you mean 12 kN?"));
    assert_eq!(fault_as("-12", Dimension::FORCE, "3 kN").3, "did you mean -12 kN?");
    assert_eq!(fault("kN").2, "a number is missing before kN");
    assert_eq!(read("0", Dimension::LENGTH, "1 m", &names()), Ok(Quantity::new(0.0, Dimension::LENGTH)));
}

/// Published: the bad inputs of the reference cases, "couple given in kN" and "a value that is no number".
#[test]
fn a_value_of_another_kind() {
    let (_, kind, what, mend) = fault_as("3 kN", Dimension::MOMENT, "3 kN m");
    assert_eq!(kind, FaultKind::WrongDimension);
    assert_eq!(what, "a moment is wanted here; 3 kN is a force");
    assert_eq!(mend, "give a moment, such as 3 kN m");
    let (_, _, what, _) = fault_as("5 kN/m", Dimension::FORCE, "5 kN");
    assert_eq!(what, "a force is wanted here; 5 kN/m is a force per length");
    let (at, kind, what, _) = fault("NaN kN");
    assert_eq!((at.as_str(), kind), ("NaN", FaultKind::NotFinite));
    assert_eq!(what, "a number is wanted; NaN is not one");
    assert_eq!(fault("inf kN").1, FaultKind::NotFinite);
    assert_eq!(fault("∞").1, FaultKind::NotFinite);
    let (at, _, what, _) = fault("L + 3 kN");
    assert_eq!(at, "3 kN");
    assert_eq!(what, "3 kN is a force, but L is a length: they do not add");
}

#[test]
fn a_weight_per_volume_is_taken_as_a_density() {
    let found = read("150 pcf", Dimension::DENSITY, "7850 kg/m3", &names()).expect("reads");
    assert_eq!(found.dimension, Dimension::DENSITY);
    // Published: NIST SP 811, 1 lb/ft³ (mass) = 16.018 46 kg/m³.
    assert!((found.value / 150.0 - 16.018_46).abs() < 5e-6);
}

#[test]
fn a_name_that_is_a_unit_too() {
    let (at, kind, what, mend) = fault("3 kN/t");
    assert_eq!((at.as_str(), kind), ("t", FaultKind::Ambiguous));
    assert_eq!(what, "t is a unit, and this lesson also calls a value t");
    assert_eq!(mend, "for the value write (3 kN)/t; better give it another name");
    assert!(is_unit("t") && is_unit("kN m") && !is_unit("span"));
}

#[test]
fn what_cannot_be_computed() {
    assert_eq!(fault("1/(L - span)").1, FaultKind::DivisionByZero);
    assert_eq!(fault("1/0").1, FaultKind::DivisionByZero);
    assert_eq!(fault("1/0 in").1, FaultKind::DivisionByZero);
    assert_eq!(fault("1e999 N").1, FaultKind::NotFinite);
    assert_eq!(fault("1e300 kN * 1e300").1, FaultKind::NotFinite);
    assert_eq!(fault("sqrt(-4)").1, FaultKind::NoRoot);
    assert_eq!(fault("sqrt(L)").2, "L is a length, which has no square root");
    assert_eq!(fault("(1 m^12)^12").1, FaultKind::NotFinite);
}

#[test]
fn what_does_not_read() {
    for text in [
        "",
        "  ",
        "+",
        "(",
        ")",
        "1,5 kN",
        "3 kN 4",
        "L L",
        "2(L)",
        "foo(2)",
        "3 = 3",
        "L^2.5",
        "L^99",
        "#",
        "1..2",
        "3 kN/m mm",
        "1 m 50 cm",
    ] {
        let (_, kind, what, mend) = fault(text);
        assert!(!what.is_empty() && !mend.is_empty(), "{text}");
        assert!(
            matches!(kind, FaultKind::Unreadable | FaultKind::Empty | FaultKind::Ambiguous),
            "{text}: {kind:?} {what}"
        );
    }
    assert_eq!(fault("1,5 kN").3, "write 1.5");
    assert_eq!(fault("1,250 kN").3, "write 1.250 or 1250");
    assert_eq!(fault("2(L)").3, "to multiply, put * before it");
}

#[test]
fn depth_and_length_are_bounded() {
    assert_eq!(fault(&"(".repeat(900)).1, FaultKind::TooDeep);
    assert_eq!(fault(&"√".repeat(300)).1, FaultKind::TooDeep);
    assert_eq!(fault(&"1+".repeat(900)).1, FaultKind::TooDeep);
    let long = format!("{}1", "1+".repeat(450));
    is(&long, 451.0, Dimension::NONE);
    is(&format!("{}1", "-".repeat(900)), 1.0, Dimension::NONE);
}

#[test]
fn a_name_in_brackets_is_found_without_them() {
    let parsed = parse("2*((L)) + 1 m").expect("a value");
    assert_eq!(parsed.names(), [("L", 4..5)]);
}
