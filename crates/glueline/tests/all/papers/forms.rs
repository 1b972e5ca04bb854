//! Forms for a class whose students are known.

use crate::run::Desk;
use std::collections::BTreeMap;

/// The rows of the key of each student, without student and paper.
fn keys(desk: &Desk, folder: &str) -> BTreeMap<String, Vec<Vec<String>>> {
    let mut keys: BTreeMap<String, Vec<Vec<String>>> = BTreeMap::new();
    for row in desk.key(folder) {
        keys.entry(row[0].clone()).or_default().push(row[2..].to_vec());
    }
    keys
}

#[test]
fn students_of_one_form_get_one_paper_with_their_names_on_it() {
    let desk = Desk::new();
    desk.put("class.csv", "student id,name,form\n1,Ann Ax,B\n2,Bo Bell,a\n3,Cy Carr,Form B\n4,Dee Dunn,\n");
    let told = desk.done(&["papers", "lesson.toml", "class.csv", "-o", "out"]);
    assert!(told.contains("form A: 2 students\nform B: 2 students"), "{told}");
    assert!(!told.contains("warning"), "{told}");
    let of = keys(&desk, "out");
    assert_eq!(of["1"], of["3"]);
    // Who has none gets the form that the fewest have.
    assert_eq!(of["2"], of["4"]);
    assert_ne!(of["1"], of["2"]);
    let number = desk.key("out").into_iter().find(|row| row[0] == "1").expect("a row of the key")[1].clone();
    let page = desk.text(&format!("out/papers/1-{number}.html"));
    assert!(page.contains("Ann Ax") && page.contains("form B"));
    // As without a list.
    desk.done(&["papers", "lesson.toml", "--forms", "2", "-o", "alone"]);
    let alone = keys(&desk, "alone");
    assert_eq!((&alone["form A"], &alone["form B"]), (&of["2"], &of["1"]));
    // Who comes later gets the same two.
    desk.put(
        "class.csv",
        "student id,name,form\n5,Eve Elm,B\n1,Ann Ax,B\n2,Bo Bell,a\n3,Cy Carr,Form B\n4,Dee Dunn,\n",
    );
    desk.done(&["papers", "lesson.toml", "class.csv", "-o", "out"]);
    let later = keys(&desk, "out");
    assert_eq!((&later["5"], &later["4"]), (&of["1"], &of["4"]));
    // Who has which is kept: a list that no longer says it changes nothing, and one that says otherwise is refused.
    desk.put("class.csv", "student id,name\n5,Eve Elm\n1,Ann Ax\n2,Bo Bell\n3,Cy Carr\n4,Dee Dunn\n");
    let told = desk.done(&["papers", "lesson.toml", "class.csv", "-o", "out"]);
    assert!(told.contains(": 0 files written, "), "{told}");
    desk.put("class.csv", "student id,name,form\n1,Ann Ax,A\n");
    let said = desk.refused(&["papers", "lesson.toml", "class.csv", "-o", "out"], 2);
    assert!(said.contains("has a paper in this folder already, and it is not form A"), "{said}");
}

#[test]
fn a_class_without_the_column_gets_forms_in_turn() {
    let desk = Desk::new();
    desk.put("class.csv", "student id,name\n1,Ann Ax\n2,Bo Bell\n3,Cy Carr\n");
    desk.done(&["papers", "lesson.toml", "class.csv", "--forms", "2", "-o", "out"]);
    let of = keys(&desk, "out");
    assert_eq!(of["1"], of["3"]);
    assert_ne!(of["1"], of["2"]);
    desk.put("class.csv", "student id,name,form\n1,Ann Ax,C\n");
    let said = desk.refused(&["papers", "lesson.toml", "class.csv", "--forms", "2", "-o", "other"], 2);
    assert!(said.contains("gives the student \"1\" form C, but there are 2 forms"), "{said}");
}
