//! `glueline tune` as a lecturer meets it.

use crate::run::{err, glueline, out};
use std::fs;

/// The reference lesson of the unit's notes on mistakes (tau = 12 MPa, every number exact), among 48 sections.
const LESSON: &str = r#"# Kept for years.
title = "The T of the reference lesson"
units = "metric"

[values]
P = "20 kN"
b = "120 mm"   # the flange
f = "30 mm"
t = "20 mm"
h = "120 mm"

[vary]
b = ["80 mm", "90 mm", "120 mm"]
f = ["30 mm", "40 mm"]
t = ["10 mm", "20 mm"]
h = ["80 mm", "90 mm", "100 mm", "120 mm"]

[beam]
length = "4 m"
supports = [{ pin = "0 m", name = "A" }, { roller = "4 m", name = "B" }]
loads = [{ force = "P", at = "1 m" }, { spread = "20 kN/m", from = "2 m", to = "4 m" }]

[material]
E = "12 GPa"

[section]
parts = [
  { name = "web", width = "t", height = "h" },
  { name = "flange", width = "b", height = "f", on = "web" },
]

[slice]
at = "0.75 m"
length = "50 mm"

[cut]
at = "h"
side = "below"

[[question]]
ask = "shear stress on the cut"
"#;

fn folder_with(text: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder for the test");
    fs::write(folder.path().join("a.toml"), text).expect("written");
    folder
}

fn lesson(folder: &tempfile::TempDir) -> String {
    fs::read_to_string(folder.path().join("a.toml")).expect("the lesson")
}

#[test]
fn the_best_numbers_stand_in_a_table_with_their_reasons() {
    let folder = folder_with(LESSON);
    let run = glueline(folder.path(), &["tune", "a.toml"]);
    assert!(run.status.success(), "{}", err(&run));
    let told = out(&run);
    let mut lines = told.lines();
    let head: Vec<&str> = lines.next().expect("a head").split_whitespace().collect();
    assert_eq!(head, ["b", "f", "t", "h", "shear", "stress", "on", "the", "cut"]);
    assert_eq!(lines.next().expect("a row"), "   1  120 mm  30 mm  20 mm  120 mm  12.00\u{a0}MPa");
    for words in [
        "   1  round: the result is exact in the course's figures; so is every value on the way",
        "      well conditioned: rounding on the way changes nothing",
        "      not all separate: no mistake gives a right value",
        "48 combinations, all looked at",
        "to find more: ",
    ] {
        assert!(told.contains(words), "{words}: {told}");
    }
    assert_eq!(lesson(&folder), LESSON, "nothing is written unasked");
}

#[test]
fn what_was_found_is_written_into_the_lesson_and_nothing_else_is_touched() {
    let folder = folder_with(LESSON);
    let run = glueline(folder.path(), &["tune", "a.toml", "--count", "1", "--write"]);
    assert!(run.status.success(), "{}", err(&run));
    assert!(
        out(&run).ends_with("replaced a.toml: its papers have this combination and no others\n"),
        "{}",
        out(&run)
    );
    let row = r#"
[papers]
only = [
  { b = "120 mm", f = "30 mm", t = "20 mm", h = "120 mm" },
]
"#;
    let end_of_vary = "\"100 mm\", \"120 mm\"]\n";
    assert_eq!(lesson(&folder), LESSON.replacen(end_of_vary, &format!("{end_of_vary}{row}"), 1));
    assert!(glueline(folder.path(), &["check", "a.toml"]).status.success());
    let files = fs::read_dir(folder.path()).expect("the folder").count();
    assert_eq!(files, 1, "no temporary file stays behind");
    // Again: all combinations are searched, not only those that the papers are restricted to by now.
    let again = glueline(folder.path(), &["tune", "a.toml", "--results", "area,second moment", "--json"]);
    let report: serde_json::Value = serde_json::from_slice(&again.stdout).expect("JSON");
    assert_eq!(report["census"]["draws"], 48);
    assert_eq!(report["results"], serde_json::json!(["area", "second moment"]));
}

#[test]
fn json_has_what_another_program_needs() {
    let folder = folder_with(LESSON);
    let run = glueline(folder.path(), &["tune", "a.toml", "--json"]);
    assert!(run.status.success(), "{}", err(&run));
    let report: serde_json::Value = serde_json::from_slice(&run.stdout).expect("JSON");
    assert_eq!(report["lesson"], "The T of the reference lesson");
    let row = &report["rows"][0];
    assert_eq!(row["choices"][0], serde_json::json!({ "name": "b", "is": "120 mm" }));
    assert_eq!(row["results"][0]["digits"], 2);
    assert_eq!(row["results"][0]["exact"], true);
    let judgement = &row["judgements"][0];
    for key in ["right", "half_width", "tolerance", "condition"] {
        assert!(judgement[key].is_f64(), "{key}: {judgement}");
    }
    assert_eq!(judgement["hidden"], serde_json::json!([]));
    assert_eq!(report["class"]["rows"][0]["working"], "shear stress on the cut");
}

#[test]
fn where_nothing_fits_it_is_said_and_nothing_is_written() {
    // Seven in every area: no tau comes out short.
    let text = LESSON.replace("b = [\"80 mm\", \"90 mm\", \"120 mm\"]", "b = [\"77 mm\", \"91 mm\"]");
    let text = text.replace("b = \"120 mm\"", "b = \"77 mm\"");
    let folder = folder_with(&text);
    let run = glueline(folder.path(), &["tune", "a.toml", "--write"]);
    assert_eq!(run.status.code(), Some(2), "{}", out(&run));
    let told = out(&run);
    assert!(told.starts_with("nothing fits\n") && told.contains("\nnearly: b = "), "{told}");
    assert!(
        told.contains("to find more: the result is exact in the course's figures in none of 32"),
        "{told}"
    );
    assert!(err(&run).contains("nothing fits, so a.toml was left as it is"), "{}", err(&run));
    assert_eq!(lesson(&folder), text);
}

#[test]
fn what_cannot_be_searched_is_refused_in_words() {
    let folder = folder_with(LESSON);
    let run = glueline(folder.path(), &["tune", "a.toml", "--results", "area, second momnt"]);
    assert_eq!(run.status.code(), Some(2));
    assert!(err(&run).contains("no working called \"second momnt\""), "{}", err(&run));
    for wrong in ["0", "501", "many"] {
        let run = glueline(folder.path(), &["tune", "a.toml", "--count", wrong]);
        assert_eq!(run.status.code(), Some(2), "{wrong}");
    }
    let gone = glueline(folder.path(), &["tune", "gone.toml"]);
    assert_eq!(gone.status.code(), Some(3));
    assert!(err(&gone).contains("there is no file gone.toml"), "{}", err(&gone));
    let (before, rest) = LESSON.split_once("[vary]").expect("it varies");
    let (_, after) = rest.split_once("[beam]").expect("a beam");
    let folder = folder_with(&format!("{before}[beam]{after}"));
    let run = glueline(folder.path(), &["tune", "a.toml"]);
    assert_eq!(run.status.code(), Some(2), "{}", err(&run));
    assert!(err(&run).contains("nothing varies in this lesson"), "{}", err(&run));
}
