//! A class's answers as spreadsheets and platforms save them.

use assessment::set::AnswerUnit;
use exchange::answers::{
    self, Answers, Decisions, DoubtKind, Habit, Kind, Mark, MarkBy, Number, PaperAsked, PartAsked, Read,
    Shape, Signs, UnitFrom, table_to_read,
};
use exchange::fault::Fault;
use exchange::table::{Habit as Writing, Marks};
use workings::unit::Unit;

fn unit(text: &str, power: i32) -> AnswerUnit {
    let unit = if text.is_empty() { Unit::NONE } else { Unit::read(text).expect("a unit") };
    AnswerUnit { unit, power }
}

fn value(label: &str, text: &str, power: i32, signs: Signs) -> PartAsked {
    PartAsked { label: label.into(), kind: Kind::Value { unit: unit(text, power), signs } }
}

fn stress(label: &str) -> PartAsked {
    value(label, "MPa", 0, Signs::None)
}

fn paper(student: &str, number: &str, parts: Vec<PartAsked>) -> PaperAsked {
    PaperAsked { student: student.into(), paper: number.into(), parts }
}

/// Two students, a chain of two steps and a choice.
fn class() -> Vec<PaperAsked> {
    let parts = || {
        vec![
            value("1", "kN", 0, Signs::Upward),
            stress("2a"),
            value("2b", "mm⁴", 6, Signs::None),
            PartAsked {
                label: "3".into(),
                kind: Kind::Choice { unit: unit("MPa", 0), values: vec![6e6, 12e6, 18e6] },
            },
            PartAsked { label: "4".into(), kind: Kind::Drawing },
        ]
    };
    vec![paper("007", "7K3Q-9MXD", parts()), paper("12", "", parts())]
}

fn read_with(text: &str, asked: &[PaperAsked], habit: Habit) -> Answers {
    answers::read(text.as_bytes(), asked, habit, &Decisions::default())
        .unwrap_or_else(|faults| panic!("{faults:#?}"))
}

fn read(text: &str, asked: &[PaperAsked]) -> Answers {
    read_with(text, asked, Habit::default())
}

fn answer<'a>(answers: &'a Answers, student: &str, part: &str) -> &'a answers::Answer {
    let paper = answers.papers.iter().find(|paper| paper.student == student).expect("the student");
    paper.answers.iter().find(|answer| answer.part == part).expect("the part")
}

fn number<'a>(answers: &'a Answers, student: &str, part: &str) -> &'a Number {
    match &answer(answers, student, part).read {
        Read::Number(number) => number,
        other => panic!("no number: {other:?}"),
    }
}

/// What a single answer to a single part reads as.
fn one(part: PartAsked, written: &str) -> Read {
    let asked = [paper("1", "", vec![PartAsked { label: "1".into(), ..part }])];
    let text = format!("id\t1\n1\t\"{}\"\n", written.replace('"', "\"\""));
    read(&text, &asked).papers[0].answers[0].read.clone()
}

fn si(part: PartAsked, written: &str) -> f64 {
    match one(part, written) {
        Read::Number(number) => number.value,
        other => panic!("{written:?} is no number: {other:?}"),
    }
}

fn doubt(part: PartAsked, written: &str) -> DoubtKind {
    match one(part, written) {
        Read::ByHand(doubt) => doubt.kind,
        other => panic!("{written:?} is not left to a person: {other:?}"),
    }
}

fn close(found: f64, expected: f64) -> bool {
    (found - expected).abs() <= 1e-12 * expected.abs()
}

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
    for written in ["", " ", "-", "–", "— "] {
        assert_eq!(one(stress("1"), written), Read::Blank, "{written:?}");
    }
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

#[test]
fn a_row_for_each_student() {
    let answers = read(
        "Student ID;Name;Question 1 (kN);Q2a [kPa];2b I;Question 3;4\r\n\
         007;Ann;12,5;480;11,25;b;see sheet\r\n12;Bo;-1,25;0,5 MPa;;12;\r\n",
        &class(),
    );
    assert_eq!(answers.shape, Shape::RowAStudent);
    let first = number(&answers, "007", "1");
    assert_eq!((first.value, first.figures, first.unit_from), (12.5e3, Some(3), UnitFrom::Header));
    assert!(close(number(&answers, "007", "2a").value, 480e3));
    assert!(close(number(&answers, "007", "2b").value, 11.25e-6));
    assert_eq!(number(&answers, "007", "2b").unit_from, UnitFrom::Question);
    assert_eq!(answer(&answers, "007", "3").read, Read::Choice(1));
    assert_eq!(answer(&answers, "007", "4").read, Read::BesideADrawing);
    assert!(close(number(&answers, "12", "2a").value, 0.5e6));
    assert_eq!(answer(&answers, "12", "2b").read, Read::Blank);
    assert_eq!(
        (answers.other_columns.as_slice(), &answers.other[&2]),
        (&["Name".to_owned()][..], &vec!["Ann".to_owned()])
    );
    assert!(answers.remarks.iter().any(|remark| remark.what.contains("\"Name\"")));
    assert!(answers.to_read.is_empty());
}

#[test]
fn a_row_for_each_answer() {
    let answers = read(
        "paper,part,answer,unit,time,browser\n\
         7K3Q-9MXD,1,12.5,kN,2026-11-29 10:00,x\n7k3q9mxd,2 a,480,kPa,2026-11-29 10:01,x\n\
         7K3Q-9MXD,1,13.5,,2026-11-29 09:59,x\n7K3Q-9MXD,Question 3,c,,2026-11-29 10:02,y\n",
        &class(),
    );
    assert_eq!(answers.shape, Shape::RowAnAnswer);
    assert_eq!(number(&answers, "007", "1").value, 12.5e3, "the later by time, though the earlier by row");
    assert!(close(number(&answers, "007", "2a").value, 480e3));
    assert_eq!(answer(&answers, "007", "3").read, Read::Choice(2));
    assert_eq!(answers.papers[0].rows, [2, 3, 4, 5]);
    assert!(answers.papers[1].rows.is_empty() && answers.papers[1].answers.iter().all(|a| a.row.is_none()));
    let told = answers.remarks.iter().find(|remark| remark.what.contains("more than once")).expect("told");
    assert!(
        told.what.contains("to 1 more than once, in 2 rows; the last by the time counts: row 2"),
        "{told}"
    );
}

/// A platform may hand out the question and its marks beside the answer.
#[test]
fn of_several_columns_for_a_part_the_one_that_is_called_the_answer_counts() {
    let asked = [paper("1", "", vec![stress("1"), stress("2")])];
    let answers = read(
        "id,Question 1,Response 1,Right answer 1,Q. 1 /2.00,Q. 2 /2.00,Answer 2 (kPa)\n1,What is tau?,12,13,1.5,2,500\n",
        &asked,
    );
    assert_eq!(number(&answers, "1", "1").number, 12.0);
    assert_eq!(number(&answers, "1", "2").value, 500e3);
    assert_eq!(answers.other_columns, ["Question 1", "Right answer 1", "Q. 1 /2.00", "Q. 2 /2.00"]);
    assert!(answers.remarks.iter().any(|remark| remark.what.contains("called the answer to part 1")));
}

#[test]
fn of_several_columns_that_may_hold_ids_the_one_that_does_counts() {
    let asked = [paper("ann", "", vec![stress("1")]), paper("bo", "", vec![stress("1")])];
    let answers = read("ID,Username,1\n1,ann,5\n2,bo,6\n", &asked);
    assert_eq!((number(&answers, "ann", "1").number, number(&answers, "bo", "1").number), (5.0, 6.0));
    assert!(answers.remarks.iter().any(|remark| remark.what.contains("taken from the column \"Username\"")));
    let answers = read("Username,Student ID,1\nx,ann,5\ny,bo,6\n", &asked);
    assert_eq!(number(&answers, "bo", "1").number, 6.0);
    let faults = answers::read(
        b"student id,student number,1\na,b,1\n",
        &asked,
        Habit::default(),
        &Decisions::default(),
    );
    assert_eq!(faults.expect_err("a fault").len(), 1);
}

/// Source of the bytes: the WHATWG Encoding Standard's index of windows-1252: 0x96 is the en dash, 0xB2 ², 0xB3 ³, 0xB7 the middle
/// dot, 0xBD ½, 0xD7 ×.
#[test]
fn encodings_make_no_difference() {
    let asked = [paper("1", "", ["1", "2", "3", "4"].map(stress).into())];
    let old = b"id;1;2;3;4\r\n1;\x9612,5 N/mm\xb2;1,2\xd710\xb3;1,2\xb710^3;12\xbd\r\n";
    let text = "id;1;2;3;4\r\n1;–12,5 N/mm²;1,2×10³;1,2·10^3;12½\r\n";
    let utf_16: Vec<u8> =
        [0xff, 0xfe].into_iter().chain(text.encode_utf16().flat_map(u16::to_le_bytes)).collect();
    let marked = format!("\u{feff}{text}");
    for (bytes, warnings) in [(&old[..], 1), (text.as_bytes(), 0), (marked.as_bytes(), 0), (&utf_16, 0)] {
        let answers = answers::read(bytes, &asked, Habit::default(), &Decisions::default()).expect("answers");
        let found: Vec<f64> = ["1", "2", "3", "4"].map(|part| number(&answers, "1", part).number).into();
        assert_eq!(found, [-12.5, 1200.0, 1200.0, 12.5]);
        assert_eq!(answers.remarks.len(), warnings, "{:#?}", answers.remarks);
    }
}

#[test]
fn of_several_attempts_the_last_counts() {
    let asked = [paper("1", "", vec![stress("1")])];
    let found = |text: &str| number(&read(text, &asked), "1", "1").number;
    assert_eq!(found("id,1\n1,5\n1,6\n"), 6.0);
    assert_eq!(found("id,1,attempt\n1,5,2\n1,6,1\n"), 5.0);
    // The first is the later: 10:00 one hour west of Greenwich is 11:00 there.
    assert_eq!(found("id,1,time\n1,5,2026-11-29T10:00-01:00\n1,6,2026-11-29T10:30Z\n"), 5.0);
    assert_eq!(found("id,1,time\n1,5,2024-03-01 00:00\n1,6,2024-02-29 23:59:59\n"), 5.0);
    // Times of which one says its zone and one does not cannot be compared, nor can words.
    assert_eq!(found("id,1,time\n1,5,2026-11-29T10:00Z\n1,6,2026-11-29T09:00\n"), 6.0);
    assert_eq!(found("id,1,time\n1,5,yesterday\n1,6,noon\n"), 6.0);
}

#[test]
fn a_comma_before_three_digits_is_decided_by_what_stands_beside_it() {
    let asked: Vec<PaperAsked> =
        ["1", "2", "3"].map(|id| paper(id, "", vec![value("1", "kN", 0, Signs::None), stress("2")])).into();
    let found = |text: &str, student: &str| match &answer(&read(text, &asked), student, "1").read {
        Read::Number(number) => Some(number.number),
        Read::ByHand(doubt) => {
            assert_eq!(
                (doubt.kind, doubt.readings.as_slice()),
                (DoubtKind::DecimalMark, &["1234 kN".to_owned(), "1.234 kN".to_owned()][..])
            );
            None
        }
        other => panic!("{other:?}"),
    };
    // The same student's other answer.
    assert_eq!(found("id;1;2\n1;1,234;0,5\n2;12.5;12.5\n", "1"), Some(1.234));
    assert_eq!(found("id;1;2\n1;1,234;0.5\n2;12,5;12,5\n", "1"), Some(1234.0));
    // The column, where the student says nothing.
    assert_eq!(found("id;1;2\n1;1,234;5\n2;12,5;12.5\n", "1"), Some(1.234));
    // The file.
    assert_eq!(found("id;1;2\n1;1,234;5\n2;12;12,5\n", "1"), Some(1.234));
    // Nothing, or both.
    assert_eq!(found("id;1;2\n1;1,234;5\n", "1"), None);
    assert_eq!(found("id;1;2\n1;1,234;5\n2;12,5;\n3;12.5;\n", "1"), None);
    // A declared mark decides, and nothing else is asked.
    let habit = |mark| Habit { declared: Some(mark), ..Habit::default() };
    let text = "id;1;2\n1;1,234;0,5\n";
    assert_eq!(number(&read_with(text, &asked, habit(Mark::Point)), "1", "1").number, 1234.0);
    assert_eq!(number(&read_with(text, &asked, habit(Mark::Comma)), "1", "1").number, 1.234);
    let by = |text: &str| answer(&read(text, &asked), "1", "1").mark_by;
    assert_eq!(by("id;1;2\n1;1,234;0,5\n"), Some(MarkBy::Student));
    assert_eq!(by("id;1;2\n1;1,23;0,5\n"), None);
    // The mark of the papers, where no number says otherwise.
    let answers = read("id;1;2\n1;1.234;5\n", &asked);
    assert_eq!(number(&answers, "1", "1").number, 1.234);
    assert!(answers.remarks.iter().any(|remark| remark.what.contains("the decimal mark of the papers")));
    let german = Habit { declared: None, printed: Mark::Comma };
    assert_eq!(number(&read_with("id;1;2\n1;1,234;5\n", &asked, german), "1", "1").number, 1.234);
}

#[test]
fn whatever_is_not_read_is_told() {
    let answers = read(
        "id,paper,1,7,2a,2a unit,2b marks\n7,,1,,,,\n,7K3Q-9MXE,1,,,,\n12,7K3Q-9MXD,1,,,,\n,,1,,,,\n12,,12,5,5,parsec,2\n",
        &class(),
    );
    let told: Vec<(Option<usize>, Option<&str>)> =
        answers.remarks.iter().map(|remark| (remark.row, remark.column.as_deref())).collect();
    assert_eq!(
        told,
        [
            (None, None),
            (Some(1), Some("7")),
            (Some(1), None),
            (Some(2), Some("id")),
            (Some(3), Some("paper")),
            (Some(4), Some("paper")),
            (Some(5), None),
        ],
        "{:#?}",
        answers.remarks
    );
    assert!(answers.remarks.iter().any(|remark| remark.mend.contains("is \"007\" meant?")));
    assert_eq!(answers.unplaced, [2, 3, 4, 5]);
    assert_eq!(answers.other_columns, ["7", "2b marks"]);
    assert!(
        matches!(&answer(&answers, "12", "2a").read, Read::ByHand(doubt) if doubt.kind == DoubtKind::Unit)
    );
}

fn refused(text: &str) -> Vec<Fault> {
    answers::read(text.as_bytes(), &class(), Habit::default(), &Decisions::default()).expect_err("a fault")
}

#[test]
fn what_is_no_file_of_answers_is_refused_and_says_why() {
    for (text, words) in [
        ("", "no header"),
        ("name,1\nA,2\n", "no column says whose answers these are"),
        ("id,colour\n1,2\n", "no column holds answers"),
        ("id,part\n1,2\n", "no column is called \"answer\""),
        ("id,answer\n1,2\n", "none says to which part"),
        ("id,1,Question 1\n1,2,3\n", "this column is for the same as \"1\""),
        ("id,part,answer,1\n1,1,3,3\n", "a row an answer"),
        ("id,1\n1\n", "this row has 1 cells"),
    ] {
        let faults = refused(text);
        assert!(faults.iter().any(|fault| fault.what.contains(words)), "{words:?} is not told: {faults:#?}");
        assert!(faults.iter().all(|fault| !fault.what.is_empty() && !fault.mend.is_empty()));
    }
    let told = refused("id,colour\n1,2\n")[0].to_string();
    assert!(told.contains("1, 2a, 2b, 3, 4"), "{told}");
}

/// Without a unit of its own a decision is in the unit that the answer would be in.
#[test]
fn a_decision_is_in_the_unit_beside_the_answer() {
    let asked = [paper("1", "", vec![stress("1"), stress("2")])];
    let text = "id;1 (kPa);2;2 unit\n1;1,234;some;kPa\n";
    let mut list = Decisions::default();
    for (place, decided) in ["1234", "5 MPa"].into_iter().enumerate() {
        let mut entry = read(text, &asked).to_read[place].clone();
        entry.decided = decided.into();
        list.made.push((place + 2, entry));
    }
    let found = answers::read(text.as_bytes(), &asked, Habit::default(), &list).expect("answers");
    assert_eq!((number(&found, "1", "1").value, number(&found, "1", "2").value), (1234e3, 5e6));
}

/// The list is written, filled in by a person, read again, and survives further runs.
#[test]
fn decisions_survive_a_rerun() {
    let text = "id,1,2a,3\n007,\"1,234\",=some 12,b\n12,12 %,don't know,e\n";
    let first = read(text, &class());
    assert_eq!(first.to_read.len(), 5);
    let written = |answers: &Answers| {
        let table = table_to_read(&answers.to_read).expect("a table");
        table.csv(Writing { marks: Marks::Point, for_spreadsheets: true }).expect("a file")
    };
    let mut list = Decisions::read(&written(&first)).expect("a list");
    assert_eq!(list.made.iter().map(|(_, entry)| entry.clone()).collect::<Vec<_>>(), first.to_read);
    for ((_, entry), decided) in list.made.iter_mut().zip(["1234", "12 MPa", "", "unreadable", "blank"]) {
        entry.decided = decided.into();
    }
    let again = |text: &str, list: &Decisions| {
        answers::read(text.as_bytes(), &class(), Habit::default(), list).expect("answers")
    };
    let second = again(text, &list);
    assert_eq!(number(&second, "007", "1").value, 1234e3);
    assert_eq!(number(&second, "007", "2a").value, 12e6);
    assert!(answer(&second, "007", "1").decided);
    assert!(matches!(answer(&second, "12", "1").read, Read::ByHand(_)));
    assert_eq!(answer(&second, "12", "2a").read, Read::Unreadable);
    assert_eq!(answer(&second, "12", "3").read, Read::Blank);
    // Written again, the list is the same; and the run after it too.
    let kept = Decisions::read(&written(&second)).expect("a list");
    assert_eq!(again(text, &kept), second);
    // A spreadsheet has made numbers and dates of ids and answers: what was decided holds all the same.
    let mut spoilt = kept.clone();
    for (_, entry) in &mut spoilt.made {
        entry.student = entry.student.trim_start_matches('0').into();
        entry.raw = "01.04.2026".into();
    }
    assert_eq!(again(text, &spoilt), second);
    // An answer that has changed is not decided by the old decision, which is kept and told.
    let changed = again(&text.replace("=some 12", "=some 13"), &kept);
    assert!(matches!(answer(&changed, "007", "2a").read, Read::ByHand(_)));
    assert!(changed.to_read.iter().any(|entry| entry.raw == "=some 12" && entry.decided == "12 MPa"));
    assert!(changed.remarks.iter().any(|remark| remark.what.contains("does not stand in the file any more")));
    // What a person has decided stands, also where a declared mark would read the answer without doubt.
    let point = Habit { declared: Some(Mark::Comma), ..Habit::default() };
    let declared = answers::read(text.as_bytes(), &class(), point, &kept).expect("answers");
    assert_eq!(number(&declared, "007", "1").value, 1234e3);
    assert!(
        declared.to_read.iter().any(|entry| entry.why.contains("without doubt") && entry.decided == "1234")
    );
    // A decision that is in doubt itself decides nothing.
    let mut unclear = kept.clone();
    unclear.made[0].1.decided = "1,234".into();
    let third = again(text, &unclear);
    assert!(matches!(answer(&third, "007", "1").read, Read::ByHand(_)));
    assert!(
        third.remarks.iter().any(|remark| remark.what.contains("1234 kN or 1.234 kN")),
        "{:#?}",
        third.remarks
    );
}
