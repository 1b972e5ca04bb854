//! Marks as tables that a spreadsheet opens safely.

use exchange::marks::{PartMarks, Record, StudentMarks, by_answer, by_student};
use exchange::sheet;
use exchange::table::{Habit, Marks};

fn part(label: &str, marks: Option<f64>) -> PartMarks {
    PartMarks { part: label.into(), marks, out_of: 0.3 }
}

#[test]
fn a_row_for_each_student_and_no_total_while_a_part_is_not_marked() {
    let students = [
        StudentMarks {
            student: "007".into(),
            name: "=Ann".into(),
            paper: "7K3Q-9MXD".into(),
            handed_in: true,
            parts: vec![part("1", Some(0.1)), part("2a", Some(0.2)), part("2b", Some(0.3))],
        },
        StudentMarks {
            student: "08".into(),
            name: "Bo".into(),
            paper: String::new(),
            handed_in: false,
            parts: vec![part("2a", None), part("1", Some(-0.5))],
        },
    ];
    let csv = by_student(&students).and_then(|table| table.csv(Habit::default())).expect("a table");
    assert_eq!(
        String::from_utf8(csv).expect("text"),
        "\"student id\",\"name\",\"paper\",1,\"2a\",\"2b\",\"total\",\"out of\",\"not marked\",\"handed in\"\r\n\
         007,\"'=Ann\",\"7K3Q-9MXD\",0.1,0.2,0.3,0.6,0.9,\"\",\"yes\"\r\n\
         08,\"Bo\",\"\",-0.5,\"\",\"\",\"\",0.6,\"2a\",\"nothing\"\r\n"
    );
}

/// An answer comes back as the student gave it, and starts no formula on the way.
#[test]
fn a_row_for_each_answer() {
    for raw in ["-12.0", "=12", "+5 kN", "@x", "1,5", "two\r\nlines", "\"", ""] {
        for marks in [Marks::Point, Marks::Comma] {
            let record = Record {
                student: "p17".into(),
                raw: raw.into(),
                value: Some(-12.5),
                unit: "kN".into(),
                marks: None,
                out_of: 2.0,
                verdict: "wrong sign".into(),
                ..Record::default()
            };
            let csv =
                by_answer(&[record]).and_then(|table| table.csv(Habit { marks, for_spreadsheets: false }));
            let sheet = sheet::read(&csv.expect("a table")).expect("a sheet");
            let cell = |name: &str| {
                let place = sheet.header.iter().position(|header| header == name).expect("a column");
                sheet.rows[0].cells[place].as_str()
            };
            let value = if marks == Marks::Point { "-12.5" } else { "-12,5" };
            assert_eq!((cell("answer"), cell("value"), cell("marks"), cell("out of")), (raw, value, "", "2"));
        }
    }
}
