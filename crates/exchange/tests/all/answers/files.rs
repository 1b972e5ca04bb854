//! Files of answers as spreadsheets and platforms save them.

use super::class::{answer, class, close, number, paper, read, read_with, stress, value};
use exchange::answers::{
    self, Decisions, DoubtKind, Habit, Mark, MarkBy, PaperAsked, PartAsked, Read, Shape, Signs, UnitFrom,
};
use exchange::fault::Fault;

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

/// Each way of naming a column; the unit that its numbers are in.
#[test]
fn headers_that_name_a_part() {
    let asked = [paper("1", "", vec![stress("2a"), stress("2b"), stress("3")])];
    for (header, part, pascals) in [
        ("2a", "2a", 1e6),
        ("2A", "2a", 1e6),
        (" 2a ", "2a", 1e6),
        ("Q2a", "2a", 1e6),
        ("Q 2a", "2a", 1e6),
        ("Q.2a", "2a", 1e6),
        ("Question 2a", "2a", 1e6),
        ("question_2a", "2a", 1e6),
        ("Question 2 (a)", "2a", 1e6),
        ("2 a", "2a", 1e6),
        ("2.a)", "2a", 1e6),
        ("part-2a", "2a", 1e6),
        ("Part 2a:", "2a", 1e6),
        ("Question no. 2a", "2a", 1e6),
        ("Response 3", "3", 1e6),
        ("Answer to nothing", "", 0.0),
        ("3 shear stress on the cut", "3", 1e6),
        ("3: tau", "3", 1e6),
        ("2a tau (kPa)", "2a", 1e3),
        ("2a tau (max) [kPa]", "2a", 1e3),
        ("2a [N/mm2]", "2a", 1e6),
        ("2a tau / kPa", "2a", 1e3),
        ("2b (×10³ Pa)", "2b", 1e3),
        ("2b (10^3 Pa)", "2b", 1e3),
        ("2b (2 marks)", "2b", 1e6),
        ("2b (marks)", "", 0.0),
        ("2a marks", "", 0.0),
        ("2a score", "", 0.0),
        ("3 /2.00", "", 0.0),
        ("2c", "", 0.0),
        ("12a", "", 0.0),
        ("2ab", "", 0.0),
        ("3rd try", "", 0.0),
        ("2026-11-29", "", 0.0),
        ("Right answer 3", "", 0.0),
        ("Grade/10.00", "", 0.0),
    ] {
        // The other column keeps the file one of answers.
        let other = if part == "2b" { "2a" } else { "2b" };
        let answers = read(&format!("id;{header};{other} other\n1;12;5\n"), &asked);
        let found = answers.papers[0].answers.iter().find(|answer| answer.raw == "12");
        match found {
            Some(answer) => {
                assert_eq!(answer.part, part, "{header:?}");
                assert_eq!(number(&answers, "1", part).value, 12.0 * pascals, "{header:?}");
            }
            None => assert_eq!(part, "", "{header:?} names no part"),
        }
    }
}

/// A slip in the header is not the students': their numbers are left to a person, not called forces.
#[test]
fn a_header_with_a_unit_of_another_kind() {
    let asked = [paper("1", "", vec![stress("1")])];
    let answers = read("id;1 (kN)\n1;12\n", &asked);
    let Read::ByHand(doubt) = &answer(&answers, "1", "1").read else { panic!("in doubt") };
    assert_eq!(doubt.what, "the header says kN, a force, where a stress is asked for");
    assert_eq!(number(&read("id;1 (kN)\n1;12 kPa\n", &asked), "1", "1").value, 12e3);
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
fn a_comma_before_three_digits_is_decided_by_the_same_student_or_not_at_all() {
    let part = |label: &str| value(label, "kN", 0, Signs::None);
    let asked: Vec<PaperAsked> =
        ["1", "2", "3"].map(|id| paper(id, "", vec![part("1"), part("2"), part("3")])).into();
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
    // The same student's other answers; thousands need a habit, not one number.
    assert_eq!(found("id;1;2;3\n1;1,234;0,5;7\n2;12.5;12.5;\n", "1"), Some(1.234));
    assert_eq!(found("id;1;2;3\n1;1,234;0.5;1.5\n2;12,5;12,5;\n", "1"), Some(1234.0));
    assert_eq!(found("id;1;2;3\n1;1,234;0.5;7\n2;12.5;12.5;\n", "1"), None);
    assert_eq!(found("id;1;2;3\n1;1,234;0,5;0.5\n", "1"), None);
    // A power of ten has decimals before it, and shows the habit of the student.
    assert_eq!(found("id;1;2;3\n1;1,234;5,075e-1;7\n", "1"), Some(1.234));
    // What the others write says nothing of this one, whatever they write.
    assert_eq!(found("id;1;2;3\n1;1,234;5;7\n2;12.5;12.5;\n3;12.5;12.5;\n", "1"), None);
    assert_eq!(found("id;1;2;3\n1;1,234;5;7\n2;12,5;12,5;\n3;12,5;12,5;\n", "1"), None);
    assert_eq!(found("id;1;2;3\n1;1,234;5;7\n", "1"), None);
    // A declared mark decides, and nothing else is asked.
    let habit = |mark| Habit { declared: Some(mark), ..Habit::default() };
    let text = "id;1;2;3\n1;1,234;0,5;7\n";
    assert_eq!(number(&read_with(text, &asked, habit(Mark::Point)), "1", "1").number, 1234.0);
    assert_eq!(number(&read_with(text, &asked, habit(Mark::Comma)), "1", "1").number, 1.234);
    let by = |text: &str| answer(&read(text, &asked), "1", "1").mark_by;
    assert_eq!(by(text), Some(MarkBy::Student));
    assert_eq!(by("id;1;2;3\n1;1,23;0,5;7\n"), None);
    assert_eq!(by("id;1;2;3\n1;1.234e2;5;7\n"), Some(MarkBy::Exponent));
    // The mark of the papers, where no number of the file says otherwise: and nothing is told of it.
    let answers = read("id;1;2;3\n1;1.234;5;7\n2;12.5;;\n", &asked);
    assert_eq!(number(&answers, "1", "1").number, 1.234);
    assert_eq!(answer(&answers, "1", "1").mark_by, Some(MarkBy::Printed));
    assert!(!answers.remarks.iter().any(|remark| remark.what.contains("comma or point")), "{answers:#?}");
    let mixed = read("id;1;2;3\n1;1.234;5;7\n2;12,5;;\n", &asked);
    assert!(matches!(answer(&mixed, "1", "1").read, Read::ByHand(_)), "some of the class write commas");
    let german = Habit { declared: None, printed: Mark::Comma };
    assert_eq!(number(&read_with("id;1;2;3\n1;1,234;5;7\n", &asked, german), "1", "1").number, 1.234);
    // Thousands are told, with what the command takes; decimals of a student who writes such elsewhere are not.
    let told = |text: &str| {
        let remarks = read(text, &asked).remarks;
        remarks
            .into_iter()
            .find(|remark| remark.what.contains("comma or point"))
            .map(|fault| fault.to_string())
    };
    let thousands = told("id;1;2;3\n1;1,234;0.5;1.5\n").expect("told");
    assert!(thousands.contains("the same student, in row 2"), "{thousands}");
    assert!(thousands.contains("--decimal comma"), "{thousands}");
    assert_eq!((told(text), told("id;1;2;3\n1;1.234;0.5;1.5\n")), (None, None));
}

/// Nineteen write points and one student commas: 2,625 is not read as two thousand, nor is 1.234 of somebody whose other numbers are
/// like it.
#[test]
fn nineteen_with_a_point_do_not_decide_for_the_one_with_a_comma() {
    let force = |about| PartAsked { about: Some(about), ..value("1", "kN", 0, Signs::None) };
    let parts = || vec![force(2.625e3), PartAsked { label: "2".into(), ..force(7.375e3) }];
    let asked: Vec<PaperAsked> = (1..=20).map(|id| paper(&id.to_string(), "", parts())).collect();
    let mut text = "id;1;2\n20;2,625;\u{2212}7,375\n".to_owned();
    text.extend((1..20).map(|id| format!("{id};2.62;-7.38\n")));
    let answers = read(&text, &asked);
    for part in ["1", "2"] {
        let Read::ByHand(doubt) = &answer(&answers, "20", part).read else { panic!("{part} is in doubt") };
        assert_eq!(doubt.kind, DoubtKind::DecimalMark);
    }
    assert_eq!(answers.to_read.len(), 2);
}

/// Who slips once into the other mark is not marked wrong for it: where only the other reading comes near, a person decides.
#[test]
fn a_slip_into_the_other_mark_is_left_to_a_person() {
    let force = |label: &str| PartAsked { about: Some(2.6e3), ..value(label, "kN", 0, Signs::None) };
    let asked = [paper("1", "", vec![force("1"), force("2"), force("3")])];
    let answers = read("id;1;2;3\n1;2,625;2.5;2.6\n", &asked);
    assert!(matches!(answer(&answers, "1", "1").read, Read::ByHand(_)));
    let answers = read("id;1;2;3\n1;12,625;2.5;2.6\n", &asked);
    assert!(matches!(answer(&answers, "1", "1").read, Read::ByHand(_)), "12.6 is near 2.6, 12 625 is not");
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
    let unplaced: Vec<(usize, &str, &str)> = answers
        .unplaced
        .iter()
        .map(|entry| (entry.row, entry.student.as_str(), entry.meant.as_str()))
        .collect();
    assert_eq!(unplaced, [(2, "7", "007"), (3, "", ""), (4, "12", ""), (5, "", "")]);
    let list = answers::table_unplaced(&answers.unplaced).and_then(|table| table.csv(Default::default()));
    let list = String::from_utf8(list.expect("a table")).expect("text");
    assert!(list.contains("\r\n2,7,"), "{list}");
    assert!(list.lines().nth(1).is_some_and(|row| row.ends_with("007")), "{list}");
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
