//! The same papers for the same class, whatever the order and whoever comes later; and what they come to.

use crate::run::{Desk, Files, LESSON, assert_same, class};
use std::collections::{BTreeMap, BTreeSet};

#[test]
fn two_runs_make_the_same_bytes() {
    let desk = Desk::new();
    desk.put("class.csv", &class(1, 5));
    desk.done(&["papers", "lesson.toml", "class.csv", "-o", "one"]);
    desk.done(&["papers", "lesson.toml", "class.csv", "-o", "two"]);
    assert_same(&desk.files("one"), &desk.files("two"));
    // A second run in the same folder finds all of it there.
    let told = desk.done(&["papers", "lesson.toml", "class.csv", "-o", "one"]);
    assert!(told.contains(": 0 files written, "), "{told}");
}

#[test]
fn the_order_of_the_list_does_not_matter() {
    let desk = Desk::new();
    let list = class(1, 7);
    let (header, rows) = list.split_once('\n').expect("a header");
    let mut rows: Vec<&str> = rows.lines().collect();
    rows.reverse();
    rows.swap(1, 4);
    // A list of another form too: semicolons, a mark before it, the columns in another order, more of them.
    let other =
        rows.iter().filter_map(|row| row.split_once(',')).map(|(id, name)| format!("{name};3;{id}\r\n"));
    desk.put("class.csv", &list);
    desk.put("turned.csv", &format!("{header}\n{}", rows.join("\n")));
    desk.put("other.csv", &format!("\u{feff}Name;semester;Student number\r\n{}", other.collect::<String>()));
    for (list, folder) in [("class.csv", "one"), ("turned.csv", "two"), ("other.csv", "three")] {
        desk.done(&["papers", "lesson.toml", list, "-o", folder]);
    }
    assert_same(&desk.files("one"), &desk.files("two"));
    assert_same(&desk.files("one"), &desk.files("three"));
}

#[test]
fn a_student_who_comes_later_changes_no_other_paper() {
    let desk = Desk::new();
    desk.put("class.csv", &class(2, 5));
    // Before all others, between them, and after.
    desk.put("later.csv", &(class(2, 5) + "00001,First\n00100,Between\n99999,Last\n"));
    desk.done(&["papers", "lesson.toml", "class.csv"]);
    let before = desk.files("lesson-papers");
    desk.done(&["papers", "lesson.toml", "later.csv"]);
    let after = desk.kept("lesson-papers");
    let of_one_paper = |name: &&std::path::PathBuf| {
        name.starts_with("lessons") || name.starts_with("papers") || name.ends_with("-key.html")
    };
    for (name, content) in before.iter().filter(|(name, _)| of_one_paper(name)) {
        assert!(Some(content) == after.get(name), "{}", name.display());
    }
    let lessons = |files: &Files| files.keys().filter(|name| name.starts_with("lessons")).count();
    assert_eq!((lessons(&before), lessons(&after)), (5, 8));
    let key = desk.key("lesson-papers");
    let ids: BTreeSet<&str> = key.iter().map(|row| row[0].as_str()).collect();
    assert_eq!(ids.len(), 8);
    // Who leaves the list keeps the paper: it may have been handed out.
    desk.done(&["papers", "lesson.toml", "class.csv"]);
    assert_same(&desk.kept("lesson-papers"), &after);
}

/// A paper with another name on it is another paper; whoever else is new on the list gets none before that is settled.
#[test]
fn a_list_that_changes_a_paper_is_refused_before_anything_is_written() {
    let desk = Desk::new();
    desk.put("class.csv", "id,name\n1,Ann Ax\n2,Bo Bell\n");
    desk.done(&["papers", "lesson.toml", "class.csv", "-o", "out"]);
    let before = desk.files("out");
    desk.put("class.csv", "id,name\n1,Ann Axe\n2,Bo Bell\n3,Cy Carr\n");
    let said = desk.refused(&["papers", "lesson.toml", "class.csv", "-o", "out"], 2);
    assert!(said.contains("1 paper would now read otherwise, and nothing was touched"), "{said}");
    assert_same(&desk.files("out"), &before);
}

/// No two have all the same numbers, each paper is a lesson by itself, and the key is what that lesson comes to.
#[test]
fn every_paper_is_a_lesson_of_its_own_with_its_own_key() {
    let desk = Desk::new();
    desk.put("class.csv", &class(1, 8));
    let told = desk.done(&["papers", "lesson.toml", "class.csv", "-o", "out"]);
    assert!(told.contains("567 combinations of what varies") && told.contains("8 papers in out"), "{told}");
    assert!(told.contains("no two papers have all the same numbers"), "{told}");
    assert!(told.contains("all papers take one way to the answers"), "{told}");
    assert_eq!(told.lines().next(), Some("The T of the reference lesson"));

    let lessons: BTreeMap<_, _> =
        desk.files("out").into_iter().filter(|(name, _)| name.starts_with("lessons")).collect();
    let texts: BTreeSet<&Vec<u8>> = lessons.values().collect();
    assert_eq!((lessons.len(), texts.len()), (8, 8));
    let key = desk.key("out");
    assert_eq!(key.len(), 8 * 5, "three questions, two of them with a step");
    for rows in key.chunks(5).take(5) {
        let number = &rows[0][1];
        let values = desk.done(&["values", &format!("out/lessons/{number}.toml"), "--json"]);
        let values: serde_json::Value = serde_json::from_str(&values).expect("JSON");
        let of = |working: &str| {
            let all = values["rows"].as_array().expect("rows");
            all.iter().find(|row| row["name"] == working).expect("a value of the lesson")["value"].as_f64()
        };
        let places: Vec<&str> = rows.iter().map(|row| row[2].as_str()).collect();
        assert_eq!(places, ["1", "2a", "2b", "3a", "3b"]);
        for row in rows {
            let [right, lower, upper]: [f64; 3] = [4, 6, 7].map(|cell| row[cell].parse().expect("a number"));
            // kN, mm, mm4, mm3, MPa in SI: exact powers of ten.
            let unit = match row[5].as_str() {
                "kN" => 1e3,
                "mm" => 1e-3,
                "×10⁶ mm⁴" => 1e-6,
                "×10³ mm³" => 1e-6,
                "MPa" => 1e6,
                other => panic!("{other}"),
            };
            let value = of(&row[3]).expect("a number");
            // Three figures, four where the first is 1: half a unit of the last is at most 0.5 %.
            assert!((right * unit - value).abs() <= 0.005 * value.abs(), "{row:?} {value}");
            assert!(lower < right && right < upper);
            // The tolerance of the course is 1 % where nothing is said, and no answer within it is refused.
            assert!(
                lower * unit <= 0.990_001 * value && 1.009_999 * value <= upper * unit,
                "{row:?} {value}"
            );
        }
        let marks: Vec<f64> = rows.iter().map(|row| row[8].parse().expect("a number")).collect();
        assert_eq!(marks, [1.0, 1.0, 2.0, 0.5, 2.0]);
    }
}

/// The same text in the place of what varies, and every other byte as the lecturer wrote it.
#[test]
fn a_paper_of_the_lecturers_text_differs_in_what_was_drawn_alone() {
    let desk = Desk::new();
    desk.put("class.csv", &class(1, 3));
    desk.done(&["papers", "lesson.toml", "class.csv", "-o", "out"]);
    for (name, text) in desk.files("out").iter().filter(|(name, _)| name.starts_with("lessons")) {
        let text = std::str::from_utf8(text).expect("text");
        let mut theirs = LESSON.lines().filter(|line| !line.is_empty());
        for line in text.lines().filter(|line| !line.is_empty()) {
            let drawn = ["P = ", "a = ", "b = ", "h = "].iter().any(|name| line.starts_with(name));
            assert!(drawn || theirs.any(|known| known == line), "{}: {line}", name.display());
        }
    }
}

#[test]
fn forms_for_a_whole_class_take_one_way_and_share_no_answer() {
    let desk = Desk::new();
    let told = desk.done(&["papers", "lesson.toml", "--forms", "3", "-o", "forms"]);
    assert!(told.contains("3 papers in forms") && told.contains("all papers take one way"), "{told}");
    assert!(!told.contains("one right answer is right on another"), "{told}");
    let key = desk.key("forms");
    let names: Vec<&str> = key.iter().step_by(5).map(|row| row[0].as_str()).collect();
    assert_eq!(names, ["form A", "form B", "form C"]);
    // A fourth changes none of the three.
    desk.done(&["papers", "lesson.toml", "--forms", "4", "-o", "forms"]);
    assert_eq!(desk.key("forms")[..15], key[..]);
}

#[test]
fn where_there_are_no_more_numbers_they_are_shared_and_told() {
    let desk = Desk::new();
    let few = LESSON.replace("step = \"1 kN\"", "step = \"20 kN\"");
    let few = few.replace("h = [\"90 mm\", \"100 mm\", \"120 mm\"]", "h = [\"100 mm\", \"120 mm\"]");
    let few = few.replace("b = [\"80 mm\", \"90 mm\", \"120 mm\"]", "b = [\"80 mm\", \"90 mm\"]");
    desk.put("lesson.toml", &few.replace("a = [\"1 m\", \"1.2 m\", \"1.4 m\"]", "a = [\"1 m\", \"1.2 m\"]"));
    // One more than there are combinations.
    desk.put("class.csv", &class(1, 17));
    let told = desk.done(&["papers", "lesson.toml", "class.csv", "-o", "out"]);
    assert!(
        told.starts_with("warning: 13 papers have all the same numbers as another. Of 16 combinations 16"),
        "{told}"
    );
}
