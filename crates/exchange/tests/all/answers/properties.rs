//! Whatever the bytes, answers are read or refused; whatever is written is read again.

use assessment::set::AnswerUnit;
use exchange::answers::{
    self, AskedOn, Chosen, Decisions, Habit, Kind, Mark, PaperAsked, PartAsked, Read, Signs, table_to_read,
};
use exchange::table::{Habit as Writing, Marks};
use proptest::prelude::*;
use workings::unit::Unit;

fn megapascals(number: u32) -> Chosen {
    Chosen { value: 1e6 * f64::from(number), printed: format!("{number} MPa") }
}

fn asked() -> Vec<PaperAsked> {
    let unit = |text: &str, power| AnswerUnit { unit: Unit::read(text).expect("a unit"), power };
    let parts = vec![
        PartAsked {
            label: "1".into(),
            kind: Kind::Value { unit: unit("kN", 0), signs: Signs::Upward },
            about: None,
            on: AskedOn::Paper,
        },
        PartAsked {
            label: "2a".into(),
            kind: Kind::Value { unit: unit("mm⁴", 6), signs: Signs::None },
            about: None,
            on: AskedOn::Paper,
        },
        PartAsked {
            label: "2b".into(),
            kind: Kind::Choice { unit: unit("MPa", 0), values: [6, 12].map(megapascals).into() },
            about: None,
            on: AskedOn::Paper,
        },
        PartAsked { label: "3".into(), kind: Kind::Drawing, about: None, on: AskedOn::Paper },
    ];
    ["7", "8"].map(|id| PaperAsked { student: id.into(), paper: String::new(), parts: parts.clone() }).into()
}

/// Pieces of which students' answers are made, and of which they are not.
fn pieces() -> impl Strategy<Value = String> {
    let known = [
        "1", "12", "1,234", "1.234", "0.5", "e3", "×10", "³", "^", "{", "}", "(", ")", " ", "\u{a0}",
        "\u{202f}", "-", "–", "\u{2212}", "+", "=", "≈", "tau", "kN", "kN.m", "mm", "mm⁴", "MPa", "N/mm",
        "in", "up", "C", "½", "/", "%", "±", ",", ".", "'", "\"", ";", "b)", "é", "µ", "°", "⁻", "10", "**",
        "E", "·", "x", "\t", "\u{200b}", "７",
    ];
    let piece =
        prop_oneof![4 => prop::sample::select(known.to_vec()).prop_map(str::to_owned), 1 => "\\PC{0,3}"];
    prop::collection::vec(piece, 0..8).prop_map(|pieces| pieces.concat())
}

fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('"', "\"\""))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    /// Whatever the bytes, there are answers or faults, each with something to do about it; no part is lost.
    #[test]
    fn any_bytes_are_read_or_refused(
        start in prop::sample::select(vec![
            &b""[..], b"\xef\xbb\xbf", b"\xff\xfe", b"id,1,2a\n", b"id;part;answer;unit;time\n7;1;", b"paper,Q1 (MPa)\n",
        ]),
        rest in prop::collection::vec(prop_oneof![any::<u8>(), prop::sample::select(b"\",;\t\r\n\0'=127ab-.".to_vec())], 0..200),
    ) {
        match answers::read(&[start, &rest].concat(), &asked(), Habit::default(), &Decisions::default()) {
            Ok(answers) => {
                prop_assert_eq!(answers.papers.len(), 2);
                prop_assert!(answers.papers.iter().all(|paper| paper.answers.len() == 4));
                prop_assert!(answers.remarks.iter().all(|fault| !fault.what.is_empty() && !fault.mend.is_empty()));
            }
            Err(faults) => {
                prop_assert!(!faults.is_empty());
                prop_assert!(faults.iter().all(|fault| !fault.what.is_empty() && !fault.mend.is_empty()));
            }
        }
    }

    /// Whatever stands in a cell is kept as it stands, has a finite value or is left to a person, and comes back from the list with
    /// what was decided of it.
    #[test]
    fn any_cell_is_kept_and_a_list_written_is_the_list_read(
        cells in prop::collection::vec(pieces(), 8), decided in "[ -~]{0,12}", comma in any::<bool>(), for_spreadsheets in any::<bool>(),
    ) {
        let mut text = "id,1,2a,2b,3\n".to_owned();
        for (id, cells) in ["7", "8"].iter().zip(cells.chunks(4)) {
            let cells: Vec<String> = cells.iter().map(|cell| quoted(&format!("'{cell}"))).collect();
            text.push_str(&format!("{id},{}\n", cells.join(",")));
        }
        let file = answers::read(text.as_bytes(), &asked(), Habit::default(), &Decisions::default());
        let Ok(answers) = file else { return Err(TestCaseError::fail(format!("{file:?}"))) };
        for (paper, cells) in answers.papers.iter().zip(cells.chunks(4)) {
            for (answer, cell) in paper.answers.iter().zip(cells) {
                let guarded = format!("'{cell}");
                prop_assert!(answer.raw == *cell || answer.raw == guarded);
                if let Read::Number(number) | Read::OtherDimension(number) = &answer.read {
                    prop_assert!(number.value.is_finite() && number.last_place.is_none_or(|place| place > 0.0));
                }
            }
        }
        let mut list = answers.to_read.clone();
        for entry in &mut list {
            entry.decided = decided.trim().to_owned();
        }
        let marks = if comma { Marks::Comma } else { Marks::Point };
        let written = table_to_read(&list).and_then(|table| table.csv(Writing { marks, for_spreadsheets })).expect("a list");
        if list.is_empty() {
            return Ok(());
        }
        let back = Decisions::read(&written).expect("a list");
        prop_assert_eq!(back.made.iter().map(|(_, entry)| entry).collect::<Vec<_>>(), list.iter().collect::<Vec<_>>());
        let again = answers::read(text.as_bytes(), &asked(), Habit::default(), &back).expect("answers");
        prop_assert_eq!(again.to_read, list);
    }

    /// A number that is written with a mark, groups and a unit is read as the number it is. Source: the value itself.
    #[test]
    fn a_number_written_is_the_number_read(
        whole in 0_u32..10_000_000, decimals in "[0-9]{0,6}", negative in any::<bool>(), comma in any::<bool>(),
        group in prop::sample::select(vec!["", "mark", " ", "\u{a0}", "\u{202f}", "'"]),
        minus in prop::sample::select(vec!["-", "\u{2212}", "–", "− "]), label in prop::sample::select(vec!["", "= ", "R_A = ", "≈"]),
        unit in prop::sample::select(vec![("", 1e3), ("kN", 1e3), (" N", 1.0), (" MN", 1e6)]), power in -3..=3_i32, with_power in any::<bool>(),
    ) {
        let (mark, other) = if comma { (",", ".") } else { (".", ",") };
        let group = if group == "mark" { other } else { group };
        let digits = whole.to_string();
        let mut grouped = String::new();
        for (place, digit) in digits.chars().enumerate() {
            if place > 0 && (digits.len() - place) % 3 == 0 {
                grouped.push_str(group);
            }
            grouped.push(digit);
        }
        let mut text = format!("{label}{}{grouped}", if negative { minus } else { "" });
        if !decimals.is_empty() {
            text = format!("{text}{mark}{decimals}");
        }
        if with_power {
            text = format!("{text}×10^{power}");
        }
        text.push_str(unit.0);
        let exponent = if with_power { power } else { 0 };
        let expected: f64 = format!("{}{digits}.{decimals}0e{exponent}", if negative { "-" } else { "" }).parse().expect("a number");
        let habit = Habit { declared: Some(if comma { Mark::Comma } else { Mark::Point }), ..Habit::default() };
        let file = format!("id\t1\n7\t{}\n", quoted(&text));
        let answers = answers::read(file.as_bytes(), &asked(), habit, &Decisions::default()).expect("answers");
        let Read::Number(number) = &answers.papers[0].answers[0].read else {
            return Err(TestCaseError::fail(format!("{text:?}: {:?}", answers.papers[0].answers[0].read)));
        };
        let expected = expected * unit.1;
        prop_assert!((number.value - expected).abs() <= 1e-14 * expected.abs(), "{:?}: {:?}", text, number);
        let written: String = format!("{digits}{decimals}");
        let figures = written.trim_start_matches('0').len() as u32;
        prop_assert_eq!(number.figures, (figures > 0).then_some(figures));
    }

    /// In a class in which everybody has the papers' decimal mark, or declares another, no number is ever read as another number: it is
    /// right, or it is left to a person. Source: the values themselves.
    #[test]
    fn a_class_of_one_habit_is_never_misread(
        values in prop::collection::vec((1_u32..10_000_000, 0_usize..4, any::<bool>()), 8), comma in any::<bool>(), declared in any::<bool>(),
    ) {
        let mark = if comma { Mark::Comma } else { Mark::Point };
        let habit = Habit { declared: declared.then_some(mark), printed: mark };
        let unit = AnswerUnit { unit: Unit::read("kN").expect("a unit"), power: 0 };
        let part = |label: &str| PartAsked { label: label.into(), kind: Kind::Value { unit: unit.clone(), signs: Signs::None }, about: None, on: AskedOn::Paper };
        let asked: Vec<PaperAsked> = (0..4).map(|id| PaperAsked {
            student: id.to_string(), paper: String::new(), parts: vec![part("1"), part("2")],
        }).collect();
        // Digits with so many decimals, in groups of three or not.
        let written = |&(digits, decimals, groups): &(u32, usize, bool)| {
            let text = format!("{digits:0width$}", width = decimals + 1);
            let (whole, part) = text.split_at(text.len() - decimals);
            let mut grouped = String::new();
            for (place, digit) in whole.chars().enumerate() {
                if groups && place > 0 && (whole.len() - place) % 3 == 0 {
                    grouped.push(if comma { '.' } else { ',' });
                }
                grouped.push(digit);
            }
            if decimals > 0 { format!("{grouped}{}{part}", mark.character()) } else { grouped }
        };
        let mut file = "id\t1\t2\n".to_owned();
        for (id, pair) in values.chunks(2).enumerate() {
            file.push_str(&format!("{id}\t{}\t{}\n", written(&pair[0]), written(&pair[1])));
        }
        let answers = answers::read(file.as_bytes(), &asked, habit, &Decisions::default()).expect("answers");
        let read = answers.papers.iter().flat_map(|paper| &paper.answers);
        for (answer, (digits, decimals, _)) in read.zip(&values) {
            let expected: f64 = format!("{digits}e-{decimals}").parse().expect("a number");
            match &answer.read {
                Read::Number(number) => prop_assert_eq!(number.number, expected, "{} in {}", answer.raw, file),
                other => prop_assert!(!declared && matches!(other, Read::ByHand(_)), "{:?}", other),
            }
        }
    }
}
