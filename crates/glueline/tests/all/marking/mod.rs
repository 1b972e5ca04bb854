//! `glueline mark` as a lecturer meets it: answers made from the key that `glueline papers` wrote, changed as students change them.

mod pages;

use crate::run::{Desk, assert_same, class};
use std::collections::BTreeMap;

/// The cells of a table that was written, by row, the header first.
fn table(desk: &Desk, name: &str) -> Vec<Vec<String>> {
    let text = desk.text(name);
    let cells = |line: &str| line.split(',').map(|cell| cell.trim_matches('"').to_owned()).collect();
    text.trim_start_matches('\u{feff}').lines().map(cells).collect()
}

/// The right values of each student by part: 1 (V), 2a (centroid), 2b (I), 3a (Q), 3b (tau); they earn 1, 1, 2, 0.5 and 2.
fn key(desk: &Desk) -> BTreeMap<String, BTreeMap<String, f64>> {
    let mut right: BTreeMap<String, BTreeMap<String, f64>> = BTreeMap::new();
    for row in desk.key("lesson-papers") {
        // A drawing has no value.
        if !row[4].is_empty() {
            let value = row[4].parse().expect("a number");
            right.entry(row[0].clone()).or_default().insert(row[2].clone(), value);
        }
    }
    right
}

/// The total of a student in the table of marks; nothing where it is not known yet.
fn total(desk: &Desk, student: &str) -> Option<f64> {
    let table = table(desk, "lesson-marks/marks.csv");
    let column = table[0].iter().position(|name| name == "total").expect("a total");
    let row = table.iter().find(|row| row[0] == student).expect("a row of the student");
    row[column].parse().ok()
}

const MARK: [&str; 5] = ["mark", "lesson-papers", "answers.csv", "--class", "class.csv"];

/// Five students: all right; a wrong shear force gone on with; a sign lost, and a second moment that nobody can read; all right with
/// a stress in another unit; nobody there.
fn answered() -> Desk {
    let desk = Desk::new();
    desk.put("class.csv", &class(1, 5));
    desk.done(&["papers", "lesson.toml", "class.csv"]);
    let mut sheet = "student id,Question 1,Question 2a,Question 2b,Question 3a,Question 3b\n".to_owned();
    for (place, (student, right)) in key(&desk).into_iter().enumerate() {
        let [v, y, i, q, tau] = ["1", "2a", "2b", "3a", "3b"].map(|part| right[part]);
        sheet += &match place {
            0 => format!("{student},{v},{y},{i},{q},{tau}\n"),
            1 => format!("{student},{:.3},{y},{i},{q},{:.3}\n", 1.07 * v, 1.07 * tau),
            2 => format!("{student},{v} kN,{y} mm,as in class,{q},{}\n", -tau),
            3 => format!("{student},{} N,{y},{i},{q},{:.0} kPa\n", 1e3 * v, 1e3 * tau),
            _ => String::new(),
        };
    }
    desk.put("answers.csv", &sheet);
    desk
}

#[test]
fn a_class_is_marked_and_what_a_person_decides_stays() {
    let desk = answered();
    let told = desk.done(&MARK);
    assert!(told.contains("4 of 5 papers answered"), "{told}");
    assert!(told.contains("1 answer a person has to read"), "{told}");
    // It is in one list, and told once.
    assert!(!told.contains("a person has to mark"), "{told}");
    let ids: Vec<String> = key(&desk).into_keys().collect();
    let totals = || ids.iter().map(|id| total(&desk, id)).collect::<Vec<_>>();
    assert_eq!(totals(), [Some(6.5), Some(5.5), None, Some(6.5), Some(0.0)]);

    let answers = table(&desk, "lesson-marks/answers.csv");
    let of = |student: &str, part: &str| {
        let row =
            answers.iter().find(|row| row[0] == student && row[5] == part).expect("a row of the answer");
        ["verdict", "follow-through"].map(|name| {
            let column = answers[0].iter().position(|other| other == name).expect("the column");
            row[column].clone()
        })
    };
    assert_eq!(of(&ids[1], "3b"), ["follow-through", "1"], "right from the student's own shear force");
    assert_eq!(of(&ids[2], "3b")[0], "slip");
    assert_eq!(of(&ids[3], "3b")[0], "right");
    assert_eq!(of(&ids[4], "1")[0], "blank");

    // A person reads what nobody could, and gives half a mark for a method.
    let to_read = desk.text("lesson-marks/to-read.csv");
    let right = key(&desk)[&ids[2]]["2b"];
    let open = to_read.trim_end().strip_suffix("\"\"").expect("the last cell is empty");
    desk.put("lesson-marks/to-read.csv", &format!("{open}{right}\r\n"));
    let paper =
        table(&desk, "lesson-papers/keys/key.csv").into_iter().find(|row| row[0] == ids[1]).expect("a row")
            [1]
        .clone();
    let to_mark = desk.text("lesson-marks/to-mark.csv");
    desk.put(
        "lesson-marks/to-mark.csv",
        &format!("{to_mark},{},,{paper},1,,1,\"0,5\",sound method,\n", ids[1]),
    );
    desk.done(&MARK);
    // A lost sign keeps half of the two marks.
    assert_eq!(totals(), [Some(6.5), Some(6.0), Some(5.5), Some(6.5), Some(0.0)]);
    let before = desk.files("lesson-marks");
    desk.done(&MARK);
    assert_same(&before, &desk.files("lesson-marks"));
    assert!(desk.text("lesson-marks/to-mark.csv").contains("sound method"));
}

/// Marks of a person are for the answer that was marked: another one waits for a person again, with the old marks beside it.
#[test]
fn marks_hold_for_the_answer_that_was_marked() {
    let desk = answered();
    desk.done(&MARK);
    let ids: Vec<String> = key(&desk).into_keys().collect();
    // A person finds the shear force of the second student sound but for one thing.
    let key_rows = table(&desk, "lesson-papers/keys/key.csv");
    let paper = key_rows.into_iter().find(|row| row[0] == ids[1]).expect("a row")[1].clone();
    let to_mark = desk.text("lesson-marks/to-mark.csv");
    desk.put(
        "lesson-marks/to-mark.csv",
        &format!("{to_mark},{},,{paper},1,,1,\"0,5\",sound method,\n", ids[1]),
    );
    desk.done(&MARK);
    assert_eq!(total(&desk, &ids[1]), Some(6.0));
    let row = |desk: &Desk| {
        let table = table(desk, "lesson-marks/to-mark.csv");
        table.into_iter().find(|row| row[1] == ids[1]).expect("the row of the answer")
    };
    assert!(!row(&desk)[0].is_empty(), "the marks are tied to the answer");

    let answers = desk.text("answers.csv");
    let given = row(&desk)[5].clone();
    assert!(!given.is_empty());
    let changed = answers.replace(&format!("{},{given},", ids[1]), &format!("{},2{given},", ids[1]));
    assert_ne!(changed, answers);
    desk.put("answers.csv", &changed);
    let told = desk.done(&MARK);
    assert!(told.contains("1 answer has changed since a person marked it"), "{told}");
    let now = row(&desk);
    assert_eq!((now[5].as_str(), now[7].as_str()), (format!("2{given}").as_str(), ""));
    assert!(now[9].contains("0.5 for") || now[9].contains("0,5 for"), "{now:?}");
    assert!(now[9].contains("sound method") && now[9].contains(&given), "{now:?}");
    // The old marks stay in sight until a person marks the answer, run after run.
    let before = desk.files("lesson-marks");
    desk.done(&MARK);
    assert_same(&before, &desk.files("lesson-marks"));
}

/// What belongs to nobody is in a list with the id that may be meant; who handed in nothing is told apart from who earned nothing; and
/// pages of an earlier run that are nobody's any more are named.
#[test]
fn nothing_is_lost_and_nobody_is_taken_for_another() {
    let desk = answered();
    let ids: Vec<String> = key(&desk).into_keys().collect();
    let answers = desk.text("answers.csv");
    // As a spreadsheet leaves the id.
    let bare = ids[0].trim_start_matches('0');
    assert_ne!(bare, ids[0]);
    desk.put("answers.csv", &format!("{}nobody,1,2,3,4,5\n", answers.replace(&ids[0], bare)));
    desk.done(&MARK);
    desk.put("lesson-marks/feedback/s9999-AAAA-BBBB.html", "of another class");
    let told = desk.done(&MARK);
    assert!(
        told.contains("2 rows of the answers belong to no paper") && told.contains("not-placed.csv"),
        "{told}"
    );
    assert!(told.contains("s9999-AAAA-BBBB.html"), "{told}");
    let list = table(&desk, "lesson-marks/not-placed.csv");
    let of = |row: &Vec<String>| [row[0].clone(), row[1].clone(), row[row.len() - 1].clone()];
    assert_eq!(of(&list[1]), ["2", bare, &ids[0]]);
    assert_eq!(of(&list[2]), ["6", "nobody", ""]);
    let marks = table(&desk, "lesson-marks/marks.csv");
    let handed_in: Vec<&str> = marks.iter().map(|row| row[row.len() - 1].as_str()).collect();
    assert_eq!(handed_in, ["handed in", "nothing", "yes", "yes", "yes", "nothing"]);
}

/// A drawing is on paper: an empty cell says nothing of it, and its marks wait for a person.
#[test]
fn a_drawing_waits_for_a_person_though_its_cell_is_empty() {
    let desk = Desk::new();
    let lesson = desk.text("lesson.toml");
    desk.put("lesson.toml", &format!("{lesson}\n[[question]]\nsketch = \"shear force\"\nmarks = 2\n"));
    desk.put("class.csv", &class(1, 2));
    desk.done(&["papers", "lesson.toml", "class.csv"]);
    let mut sheet = "student id,Question 1,Question 4\n".to_owned();
    for (student, right) in key(&desk) {
        sheet += &format!("{student},{},\n", right["1"]);
    }
    desk.put("answers.csv", &sheet);
    let told = desk.done(&MARK);
    assert!(told.contains("2 answers a person has to mark"), "{told}");
    let ids: Vec<String> = key(&desk).into_keys().collect();
    assert_eq!(ids.iter().map(|id| total(&desk, id)).collect::<Vec<_>>(), [None, None]);
    assert_eq!(table(&desk, "lesson-marks/to-mark.csv").len(), 1 + 2);
}

#[test]
fn a_mark_that_cannot_be_is_told_and_nothing_is_touched() {
    let desk = answered();
    desk.done(&MARK);
    let paper = table(&desk, "lesson-papers/keys/key.csv")[1][1].clone();
    let other = table(&desk, "lesson-papers/keys/key.csv")
        .into_iter()
        .find(|row| row[1] != paper && row[1] != "paper");
    let [own, other] =
        [table(&desk, "lesson-papers/keys/key.csv")[1].clone(), other.expect("a second paper")];
    let to_mark = desk.text("lesson-marks/to-mark.csv");
    let one = &own[0];
    for (row, why) in [
        (format!("{one},,{paper},1,,1,9,"), "\"9\" is no mark from 0 to 1".to_owned()),
        (
            format!("{one},,{paper},7,,1,1,"),
            "has no part \"7\"\n  to mend it: it has 1, 2a, 2b, 3a, 3b".to_owned(),
        ),
        (
            format!("{one},,nobody,1,,1,1,"),
            format!("no paper has the number \"nobody\"\n  to mend it: student {one} has paper {paper}"),
        ),
        (
            format!("x,,{paper},1,,1,1,"),
            format!(
                "nobody with a paper has the student id \"x\"\n  to mend it: paper {paper} is that of student {one}"
            ),
        ),
        (format!("{one},,{},1,,1,1,", other[1]), format!("is that of student {}, not of {one}", other[0])),
        ("x,,nobody,1,,1,1,".to_owned(), "no paper has the number \"nobody\"".to_owned()),
    ] {
        desk.put("lesson-marks/to-mark.csv", &format!("{to_mark},{row},\n"));
        let before = desk.files("lesson-marks");
        let said = desk.refused(&MARK, 1);
        assert!(said.contains("to-mark.csv, row 2: ") && said.contains(&why), "{said}");
        assert_same(&before, &desk.files("lesson-marks"));
    }
}

#[test]
fn what_is_no_folder_of_papers_and_no_list_of_answers_is_told() {
    let desk = answered();
    let said = desk.refused(&["mark", ".", "answers.csv"], 2);
    assert!(said.contains("it is no folder of papers"), "{said}");
    desk.put("answers.csv", "a,b\n1,2\n");
    let said = desk.refused(&MARK, 1);
    assert!(said.contains("answers.csv, ") && said.contains("to mend it"), "{said}");
    assert!(!desk.path().join("lesson-marks").exists());
}

#[test]
fn the_review_of_an_earlier_run_goes_where_nobody_handed_in() {
    let desk = answered();
    desk.done(&MARK);
    let review = |files: &[&str]| files.iter().any(|name| desk.path().join(name).exists());
    let pages = ["lesson-marks/review.html", "lesson-marks/review.pdf"];
    assert!(review(&pages));
    desk.put("answers.csv", "student id,Question 1,Question 2a,Question 2b,Question 3a,Question 3b\n");
    let told = desk.done(&MARK);
    assert!(told.contains("0 of 5 papers answered"), "{told}");
    assert!(!review(&pages));
}
