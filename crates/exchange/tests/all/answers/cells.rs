//! What a single answer reads as.

use super::class::{class, close, doubt, one, si, stress, unit, value};
use exchange::answers::{AskedOn, Chosen, DoubtKind, Kind, PartAsked, Read, Signs};

/// Each way of writing a number; value in kN, figures, power of ten of the last place. By hand.
#[test]
fn numbers_as_students_write_them() {
    for (written, kilonewtons, figures, last_place) in [
        ("1250.5", 1250.5, Some(5), Some(-1)),
        ("1,250.5", 1250.5, Some(5), Some(-1)),
        ("1250,5", 1250.5, Some(5), Some(-1)),
        ("1.250,5", 1250.5, Some(5), Some(-1)),
        ("1 250.5", 1250.5, Some(5), Some(-1)),
        ("1 250,5", 1250.5, Some(5), Some(-1)),
        ("1'250.5", 1250.5, Some(5), Some(-1)),
        ("1\u{a0}250.5", 1250.5, Some(5), Some(-1)),
        ("1\u{202f}250.5", 1250.5, Some(5), Some(-1)),
        ("1\u{2009}250", 1250.0, Some(4), Some(0)),
        ("1,250,000", 1_250_000.0, Some(7), Some(0)),
        ("1.250.000", 1_250_000.0, Some(7), Some(0)),
        ("0.012\u{202f}345", 0.012345, Some(5), Some(-6)),
        ("1.25e3", 1250.0, Some(3), Some(1)),
        ("1.25E+3", 1250.0, Some(3), Some(1)),
        ("1,25e-3", 0.00125, Some(3), Some(-5)),
        ("1.25 e3", 1250.0, Some(3), Some(1)),
        ("1.2·10^3", 1200.0, Some(2), Some(2)),
        ("1.2 x 10³", 1200.0, Some(2), Some(2)),
        ("1.2×10⁻³", 0.0012, Some(2), Some(-4)),
        ("1.2*10**3", 1200.0, Some(2), Some(2)),
        ("1.2 * 10^{3}", 1200.0, Some(2), Some(2)),
        ("1.2X10^(−3)", 0.0012, Some(2), Some(-4)),
        ("10^3", 1000.0, None, Some(3)),
        ("10³ kN", 1000.0, None, Some(3)),
        ("12½", 12.5, None, None),
        ("12 ½", 12.5, None, None),
        ("½", 0.5, None, None),
        ("3/4", 0.75, None, None),
        ("1 1/2", 1.5, None, None),
        ("25/2 kN", 12.5, None, None),
        ("\u{2212}12.5", -12.5, Some(3), Some(-1)),
        ("–12.5", -12.5, Some(3), Some(-1)),
        ("- 12.5", -12.5, Some(3), Some(-1)),
        ("+5", 5.0, Some(1), Some(0)),
        ("=12.50", 12.5, Some(4), Some(-2)),
        ("≈ 12.5", 12.5, Some(3), Some(-1)),
        ("~12.5", 12.5, Some(3), Some(-1)),
        ("about 12.5", 12.5, Some(3), Some(-1)),
        ("R = ca. 12.5 kN", 12.5, Some(3), Some(-1)),
        ("tau = 1.2 kN", 1.2, Some(2), Some(-1)),
        ("R_A ≈ -1.2 kN", -1.2, Some(2), Some(-1)),
        ("V_{max} = 12", 12.0, Some(2), Some(0)),
        ("reaction at A: 12", 12.0, Some(2), Some(0)),
        ("0.5", 0.5, Some(1), Some(-1)),
        (".5", 0.5, Some(1), Some(-1)),
        (",5", 0.5, Some(1), Some(-1)),
        ("0,480", 0.48, Some(3), Some(-3)),
        ("007", 7.0, Some(1), Some(0)),
        ("0", 0.0, None, Some(0)),
        ("0.00", 0.0, None, Some(-2)),
        ("12.", 12.0, Some(2), Some(0)),
        ("１２.５", 12.5, Some(3), Some(-1)),
        (" 12.5\u{200b} ", 12.5, Some(3), Some(-1)),
        ("12345.678", 12345.678, Some(8), Some(-3)),
    ] {
        let part = value("1", "kN", 0, Signs::None);
        let Read::Number(number) = one(part, written) else {
            panic!("{written:?}: {:?}", one(value("1", "kN", 0, Signs::None), written))
        };
        assert!(close(number.value, 1e3 * kilonewtons), "{written:?}: {number:?}");
        assert_eq!(number.figures, figures, "{written:?}");
        let place = last_place.map(|place: i32| format!("1e{place}").parse::<f64>().expect("a number"));
        assert!(number.last_place.zip(place).is_none_or(|(found, place)| close(found, place)), "{written:?}");
        assert_eq!(number.last_place.is_some(), place.is_some(), "{written:?}");
    }
}

/// Source of the factors: NIST Special Publication 811 (2008), appendix B.8; the rest are powers of ten.
#[test]
fn another_unit_is_converted() {
    for (asked, written, expected) in [
        ("kN", "12.5 kN", 12.5e3),
        ("kN", "12.5kN", 12.5e3),
        ("kN", "12500 N", 12.5e3),
        ("kN", "12.5 KN", 12.5e3),
        ("kN", "12.5 [kN]", 12.5e3),
        ("kN", "12.5 (kN)", 12.5e3),
        ("kN", "2.5 kip", 2.5 * 4_448.221_615_260_5),
        ("kN", "100 lbf", 444.822_161_526_05),
        ("MPa", "0.48 N/mm²", 0.48e6),
        ("MPa", "0.48 N/mm2", 0.48e6),
        ("MPa", "0.48 N/mm^2", 0.48e6),
        ("MPa", "0.48 N/mm**2", 0.48e6),
        ("MPa", "480 kPa", 480e3),
        ("MPa", "0.48 Mpa", 0.48e6),
        ("MPa", "0.48 mpa", 0.48e6),
        ("mm", "105 MM", 0.105),
        ("mm⁴", "11.25e6 MM^4", 11.25e-6),
        ("N/mm", "250 n/MM", 250e3),
        ("MPa", "0.48 MPa.", 0.48e6),
        ("ksi", "1.5 ksi", 1.5 * 4_448.221_615_260_5 / (0.0254 * 0.0254)),
        ("mm⁴", "11.25×10⁶ mm⁴", 11.25e-6),
        ("mm⁴", "11.25e6 mm^4", 11.25e-6),
        ("mm⁴", "11.25e6 mm^{4}", 11.25e-6),
        ("mm⁴", "1125 cm4", 11.25e-6),
        ("mm", "4 in", 0.1016),
        ("mm", "3/4 in", 0.01905),
        ("kN·m", "12 kNm", 12e3),
        ("kN·m", "12 kN.m", 12e3),
        ("kN·m", "12 kN-m", 12e3),
        ("kN·m", "12000 N*m", 12e3),
        ("kN·m", "12 KNm", 12e3),
        ("mm", "12 ft 6 in", 150.0 * 0.0254),
        ("mm", "12' 6½\"", 150.5 * 0.0254),
        ("ft", "12'-6 1/2\"", 150.5 * 0.0254),
        ("ft", "6\"", 6.0 * 0.0254),
    ] {
        let found = si(value("1", asked, 0, Signs::None), written);
        assert!(close(found, expected), "{written:?}: {found} is not {expected}");
    }
}

/// A share is a share of one, as a percentage or not; written twice it is the same twice.
#[test]
fn a_share_may_be_a_percentage() {
    let share = || value("1", "", 0, Signs::None);
    for written in
        ["0.30", "30 %", "30%", "30 percent", "0.30 (30 %)", "0,30 (30%)", "30 % (0.30)", "eta = 30 %"]
    {
        assert!(close(si(share(), written), 0.3), "{written:?}");
    }
    // 0.304 to a tenth of a per cent is 30.4 %, to one per cent 30 %.
    assert!(close(si(share(), "0.304 (30 %)"), 0.304));
    for written in ["0.30 (35 %)", "0.30 (30)", "30 % (30)", "0.30 (30 kN)"] {
        assert!(matches!(one(share(), written), Read::ByHand(_)), "{written:?}");
    }
}

/// Who writes a power of ten has no thousands before it: 1.212·10², 5.075·10⁻⁵ and −0.9573 with either mark.
#[test]
fn a_power_of_ten_says_which_mark_is_decimal() {
    for (unit, written, expected) in [
        ("mm", "1.212e2", 0.1212),
        ("mm", "1,212e2", 0.1212),
        ("m⁴", "5.075e-5 m4", 5.075e-5),
        ("m⁴", "5,075·10^-5 m4", 5.075e-5),
        ("MPa", "-9.573e-1", -0.9573e6),
        ("MPa", "\u{2212}9,573×10⁻¹", -0.9573e6),
    ] {
        assert!(close(si(value("1", unit, 0, Signs::None), written), expected), "{written:?}");
    }
}

#[test]
fn a_unit_of_another_kind_is_named() {
    let Read::OtherDimension(number) = one(stress("1"), "12 kN") else { panic!("another dimension") };
    assert_eq!((number.value, number.dimension.in_words().as_str()), (12e3, "a force"));
}

/// The answer's unit is printed with a power of ten, ×10⁶ mm⁴: a number alone is of that unit, and what may contain the power
/// already is left to a person.
#[test]
fn a_printed_power_of_ten() {
    let part = || value("1", "mm⁴", 6, Signs::None);
    for (written, expected) in [
        ("11.25", 11.25e-6),
        ("11.25 ×10⁶ mm⁴", 11.25e-6),
        ("11.25e6 mm4", 11.25e-6),
        ("11250000 mm4", 11.25e-6),
        ("1125 cm4", 11.25e-6),
    ] {
        assert!(close(si(part(), written), expected), "{written:?}");
    }
    for written in ["11.25 mm4", "11.25e6", "11250000", "11.25×10⁶"] {
        let Read::ByHand(doubt) = one(part(), written) else { panic!("{written:?} is in doubt") };
        assert_eq!((doubt.kind, doubt.readings.len()), (DoubtKind::PowerOfTen, 2), "{written:?}");
    }
    assert_eq!(si(part(), "0"), 0.0);
}

/// Where a second moment is about 350·10⁶ mm⁴, 350 000 000·10⁶ mm⁴ is none, nor are 350 mm⁴; 2·10⁹ mm⁴ may be one.
#[test]
fn an_absurd_reading_is_none() {
    let part = || PartAsked { about: Some(350e-6), ..value("1", "mm⁴", 6, Signs::None) };
    for written in ["350000000", "350e6", "350 mm4", "350", "350000000 mm4"] {
        let Read::Number(read) = one(part(), written) else { panic!("{written:?} can mean one thing only") };
        assert!(close(read.value, 350e-6), "{written:?}: {read:?}");
    }
    let Read::Number(read) = one(part(), "350000000") else { panic!("a number") };
    assert_eq!((read.number, read.last_place), (350.0, Some(1e-6)));
    // Of two absurd readings neither is taken.
    let part = PartAsked { about: Some(1e-12), ..part() };
    let Read::ByHand(doubt) = one(part, "1000000") else { panic!("a million times too large at least") };
    assert_eq!(doubt.kind, DoubtKind::PowerOfTen);
}

/// A first moment of 720·10³ mm³: twice as much, about the base, is what such a number says beside ×10³ mm³, and 1440 mm³ would be
/// five hundred times too little. 720 000 may be the right one with its power or a thousand times too much.
#[test]
fn what_is_written_counts_where_only_that_is_near() {
    let part = || PartAsked { about: Some(720e-6), ..value("1", "mm³", 3, Signs::None) };
    for (written, expected) in [("1440", 1440e-6), ("1296", 1296e-6), ("21000", 21_000e-6)] {
        let Read::Number(read) = one(part(), written) else { panic!("{written:?} says what it says") };
        assert!(close(read.value, expected), "{written:?}: {read:?}");
    }
    for written in ["720000", "24000"] {
        let Read::ByHand(doubt) = one(part(), written) else { panic!("{written:?} is in doubt") };
        assert_eq!(doubt.kind, DoubtKind::PowerOfTen);
    }
}

#[test]
fn what_is_not_one_number_is_left_to_a_person() {
    for (written, kind) in [
        ("12 %", DoubtKind::Percent),
        ("3-4", DoubtKind::Range),
        ("3 – 4 kN", DoubtKind::Range),
        ("3 to 4", DoubtKind::Range),
        ("3..4", DoubtKind::Range),
        ("12; 13", DoubtKind::SeveralNumbers),
        ("12 13", DoubtKind::SeveralNumbers),
        ("1.2.3", DoubtKind::SeveralNumbers),
        ("1,25,3", DoubtKind::SeveralNumbers),
        ("don't know", DoubtKind::Words),
        ("?", DoubtKind::Words),
        ("n/a", DoubtKind::Words),
        ("#DIV/0!", DoubtKind::Words),
        ("roof 12", DoubtKind::Words),
        ("NaN", DoubtKind::Words),
        ("inf", DoubtKind::Words),
        ("±12", DoubtKind::Sign),
        ("12 furlong", DoubtKind::Unit),
        ("12 mpa", DoubtKind::Unit),
        ("12 MM", DoubtKind::Unit),
        ("12 mN", DoubtKind::Unit),
        ("1.2x103", DoubtKind::PowerOfTen),
        ("1.2·10-3", DoubtKind::PowerOfTen),
        ("2*3", DoubtKind::Computation),
        ("25*108/(11.25*20) = 12", DoubtKind::Computation),
        ("12 kN = 12000 N", DoubtKind::Computation),
        ("1e999", DoubtKind::TooLarge),
        ("12 kN left", DoubtKind::Sign),
        ("(12)", DoubtKind::Words),
        ("12 ft 14 in", DoubtKind::SeveralNumbers),
        ("1.5 ft 6 in", DoubtKind::SeveralNumbers),
    ] {
        assert_eq!(doubt(value("1", "kN", 0, Signs::None), written), kind, "{written:?}");
    }
    for written in ["", " "] {
        assert_eq!(one(stress("1"), written), Read::Blank, "{written:?}");
    }
}

/// Numbers that no beam has are nobody's answer, and nothing is judged of them.
#[test]
fn absurd_numbers_are_left_to_a_person() {
    let forty = "1234567890123456789012345678901234567890";
    for (written, kind, why) in [
        ("1e400", DoubtKind::TooLarge, "too large"),
        ("-1e400 MPa", DoubtKind::TooLarge, "too large"),
        ("1e300", DoubtKind::TooLarge, "too large"),
        ("1e-400", DoubtKind::TooLarge, "too small"),
        ("0.00001e-200", DoubtKind::TooLarge, "too small"),
        (forty, DoubtKind::TooManyFigures, "40 figures"),
        ("0.1234567890123456789012345", DoubtKind::TooManyFigures, "25 figures"),
        ("3..5", DoubtKind::Range, "a range"),
        ("NaN", DoubtKind::Words, "no number"),
        ("-", DoubtKind::Sign, "a dash alone"),
        ("– ", DoubtKind::Sign, "a dash alone"),
    ] {
        let Read::ByHand(doubt) = one(stress("1"), written) else { panic!("{written:?} is in doubt") };
        assert_eq!(doubt.kind, kind, "{written:?}");
        assert!(doubt.what.contains(why), "{written:?}: {}", doubt.what);
    }
    // What spreadsheets and calculators hold is read as ever, and zero has no size.
    for (written, expected) in
        [("12.000000000000002", 12e6), ("0.30000000000000004", 0.3e6), ("0", 0.0), ("0.000", 0.0)]
    {
        assert!((si(stress("1"), written) - expected).abs() <= 1e-9 * expected, "{written:?}");
    }
}

/// A platform exports a dash where nothing was answered.
#[test]
fn a_dash_of_a_platform_is_nothing() {
    for written in ["-", "–", "— "] {
        let part = PartAsked { on: AskedOn::Platform, ..stress("1") };
        assert_eq!(one(part, written), Read::Blank, "{written:?}");
    }
}

/// 720.934 MPa is printed as 721 MPa, and so it stands in the list that a person reads.
#[test]
fn what_there_is_to_choose_from_is_told_as_the_paper_prints_it() {
    let chosen = |value, printed: &str| Chosen { value, printed: printed.into() };
    let values = vec![chosen(720.934e6, "721 MPa"), chosen(912.1e6, "912 MPa")];
    let kind = Kind::Choice { unit: unit("MPa", 0), values };
    let part = PartAsked { label: "1".into(), kind, about: None, on: AskedOn::Paper };
    let Read::ByHand(doubt) = one(part.clone(), "e") else { panic!("e is none of two") };
    assert_eq!(doubt.readings, ["a) 721 MPa", "b) 912 MPa"]);
    assert_eq!(one(part, "721"), Read::Choice(0));
}

/// The signs are those of `assessment::set`: reactions positive upwards, sagging and tension positive.
#[test]
fn words_that_say_a_sign() {
    for (signs, unit, written, expected) in [
        (Signs::Upward, "kN", "12 kN up", 12e3),
        (Signs::Upward, "kN", "12 kN ↓", -12e3),
        (Signs::Upward, "kN", "12 downward", -12e3),
        (Signs::Upward, "kN", "12 kN (upwards)", 12e3),
        (Signs::Upward, "kN", "up 12 kN", 12e3),
        (Signs::Upward, "kN", "12, down", -12e3),
        (Signs::CounterClockwise, "kN·m", "12 kNm cw", -12e3),
        (Signs::CounterClockwise, "kN·m", "12 kNm anti-clockwise", 12e3),
        (Signs::Sagging, "kN·m", "12 kNm hogging", -12e3),
        (Signs::Tension, "MPa", "12 MPa C", -12e6),
        (Signs::Tension, "MPa", "12 (T)", 12e6),
        (Signs::Tension, "MPa", "12 MPa in compression", -12e6),
        (Signs::Tension, "MPa", "-12 MPa, compression", -12e6),
        (Signs::FromTheLeft, "m", "1.5 m from the left", 1.5),
        (Signs::FromTheBottom, "mm", "105 mm from the base", 0.105),
        (Signs::FromTheBottom, "mm", "from bottom: 105", 0.105),
        (Signs::FromTheBottom, "mm", "height above the base = 105 mm", 0.105),
        (Signs::Upward, "kN", "R down = 12", -12e3),
        (Signs::Upward, "kN", "reaction at the left support: 12", 12e3),
        (Signs::Sagging, "kN·m", "moment, hogging: 12", -12e3),
    ] {
        let found = si(value("1", unit, 0, signs), written);
        assert!(close(found, expected), "{written:?}: {found}");
    }
    for (signs, unit, written) in [
        (Signs::Upward, "kN", "-12 kN down"),
        (Signs::Upward, "kN", "-12 kN up"),
        (Signs::Tension, "MPa", "-12 MPa tension"),
        (Signs::None, "kN", "12 kN up"),
        (Signs::FromTheLeft, "m", "1.5 m from the right"),
        (Signs::FromTheLeft, "m", "x from the right = 1.5 m"),
        (Signs::FromTheBottom, "mm", "121.2 mm from the top"),
        (Signs::FromTheBottom, "mm", "from top: 78.8"),
        (Signs::FromTheBottom, "mm", "Distance from the top: 78.8 mm"),
        (Signs::FromTheBottom, "mm", "from top = 78.8"),
        (Signs::FromTheBottom, "mm", "below top ≈ 78.8"),
        (Signs::None, "mm", "from top: 78.8"),
        (Signs::Upward, "kN", "up = -12"),
        (Signs::Upward, "kN", "12 T"),
    ] {
        assert_eq!(doubt(value("1", unit, 0, signs), written), DoubtKind::Sign, "{written:?}");
    }
}

#[test]
fn a_value_is_chosen_by_its_letter_or_by_itself() {
    let part = || class()[0].parts[3].clone();
    for (written, index) in [
        ("b", 1),
        ("B", 1),
        ("b)", 1),
        ("(c)", 2),
        ("a.", 0),
        ("12 MPa", 1),
        ("12", 1),
        ("b) 12 MPa", 1),
        ("18,0", 2),
        ("6000 kPa", 0),
        ("choice-3", 2),
    ] {
        assert_eq!(one(part(), written), Read::Choice(index), "{written:?}");
    }
    for written in ["d", "7", "a, b", "all", "a) 12", "12 kN"] {
        assert_eq!(doubt(part(), written), DoubtKind::Choice, "{written:?}");
    }
}
