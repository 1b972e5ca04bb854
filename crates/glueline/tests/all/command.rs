//! The command as a lecturer meets it: what it prints, what it writes, what it refuses, and its exit codes.

use crate::run::{err, glueline, out};
use std::fs;

fn folder() -> tempfile::TempDir {
    tempfile::tempdir().expect("a folder for the test")
}

#[test]
fn a_new_lesson_is_good_and_is_never_overwritten() {
    let folder = folder();
    let made = glueline(folder.path(), &["start", "my beam"]);
    assert!(made.status.success(), "{}", err(&made));
    let checked = glueline(folder.path(), &["check", "my beam.toml"]);
    assert!(checked.status.success(), "{}", err(&checked));
    assert!(out(&checked).contains("good"));
    let before = fs::read(folder.path().join("my beam.toml")).expect("the lesson");
    let again = glueline(folder.path(), &["start", "my beam"]);
    assert_eq!(again.status.code(), Some(3));
    assert!(err(&again).contains("already there"));
    assert_eq!(fs::read(folder.path().join("my beam.toml")).expect("the lesson"), before);
}

#[test]
fn all_mistakes_are_told_in_one_run_with_their_places() {
    let folder = folder();
    assert!(glueline(folder.path(), &["start", "a"]).status.success());
    let path = folder.path().join("a.toml");
    let good = fs::read_to_string(&path).expect("the lesson");
    fs::write(&path, good.replacen("[beam]", "[baem]", 1)).expect("written");
    let checked = glueline(folder.path(), &["check", "a.toml"]);
    assert_eq!(checked.status.code(), Some(1));
    let told = err(&checked);
    assert!(told.contains("a.toml:"), "{told}");
    assert!(told.contains("beam"), "{told}");
    assert!(!told.contains('\u{1b}'), "no colour where it is no terminal");
}

#[test]
fn a_lesson_that_is_not_there_is_told_in_words() {
    let folder = folder();
    let run = glueline(folder.path(), &["notes", "nowhere.toml"]);
    assert_eq!(run.status.code(), Some(3));
    assert!(err(&run).contains("there is no file nowhere.toml"));
}

#[test]
fn values_as_json_have_what_another_program_needs() {
    let folder = folder();
    assert!(glueline(folder.path(), &["start", "a"]).status.success());
    let run =
        glueline(folder.path(), &["values", "a.toml", "--json", "--at", "1 m", "--cut", "neutral axis"]);
    assert!(run.status.success(), "{}", err(&run));
    let report: serde_json::Value = serde_json::from_slice(&run.stdout).expect("JSON");
    let rows = report["rows"].as_array().expect("rows");
    for row in rows {
        for key in ["name", "symbol", "unit", "shown"] {
            assert!(row[key].is_string(), "{row}");
        }
        assert!(row["value"].is_f64(), "{row}");
    }
    let has = |name: &str| rows.iter().any(|row| row["name"] == name);
    assert!(has("shear stress on the cut") && has("second moment") && has("deflection"));
    // What elastic theory says stands apart: the rows are those of the live board.
    let elastic = report["elastic"]["rows"].as_array().expect("rows");
    let named =
        |name: &str| elastic.iter().find(|row| row["name"] == name).and_then(|row| row["value"].as_f64());
    let by_formula = rows.iter().find(|row| row["name"] == "shear stress on the cut");
    let by_formula = by_formula.and_then(|row| row["value"].as_f64()).expect("tau");
    let beside = named("shear stress by the formula, on the cut").expect("tau beside the truth");
    assert!((by_formula - beside).abs() <= 1e-9 * by_formula.abs(), "{by_formula} {beside}");
    assert!(named("largest true shear stress of the section").is_some_and(|value| value > 0.0));
    assert!(report["elastic"]["cautions"][0].as_str().is_some_and(|words| words.contains("assumed")));
}

#[test]
fn a_place_off_the_beam_is_refused_in_words() {
    let folder = folder();
    assert!(glueline(folder.path(), &["start", "a"]).status.success());
    for wrong in [["--at", "900 m"], ["--at", "1 kN"], ["--cut", "77 m"], ["--at", "soon"]] {
        let run = glueline(folder.path(), &["values", "a.toml", wrong[0], wrong[1]]);
        assert_eq!(run.status.code(), Some(2), "{wrong:?}: {}", err(&run));
        assert!(err(&run).contains("error"), "{}", err(&run));
    }
}

#[test]
fn figures_are_written_once_and_kept() {
    let folder = folder();
    assert!(glueline(folder.path(), &["start", "a"]).status.success());
    let first = glueline(folder.path(), &["figures", "a.toml"]);
    assert!(first.status.success(), "{}", err(&first));
    let files = fs::read_dir(folder.path().join("a-figures")).expect("the folder").count();
    assert!(files >= 10, "{files} drawings");
    let second = glueline(folder.path(), &["figures", "a.toml"]);
    assert!(second.status.success(), "the same again is no fault: {}", err(&second));
    assert!(out(&second).lines().all(|line| line.starts_with("unchanged")));
    let wrong = glueline(folder.path(), &["figures", "a.toml", "--only", "poem"]);
    assert_eq!(wrong.status.code(), Some(2));
}

#[test]
fn the_schema_and_the_reference_page_are_printed() {
    let folder = folder();
    let schema = glueline(folder.path(), &["schema"]);
    let value: serde_json::Value = serde_json::from_slice(&schema.stdout).expect("JSON");
    assert!(value["properties"]["beam"].is_object());
    let page = glueline(folder.path(), &["schema", "--reference"]);
    assert!(out(&page).contains("## `[beam]`"));
}

#[test]
fn a_sheet_that_there_is_not_or_that_a_page_has_not_is_wrong_use() {
    let folder = folder();
    assert!(glueline(folder.path(), &["start", "a"]).status.success());
    for wrong in [&["notes", "a.toml", "--paper", "a5"][..], &["notes", "a.toml", "--html", "--paper", "a4"]]
    {
        let run = glueline(folder.path(), wrong);
        assert_eq!(run.status.code(), Some(2), "{wrong:?}: {}", err(&run));
        assert!(err(&run).contains("--paper"), "{}", err(&run));
    }
}

#[test]
fn the_lesson_is_never_written_over() {
    let folder = folder();
    assert!(glueline(folder.path(), &["start", "a"]).status.success());
    let before = fs::read(folder.path().join("a.toml")).expect("the lesson");
    let run = glueline(folder.path(), &["notes", "a.toml", "--html", "--out", "./a.toml", "--replace"]);
    assert_eq!(run.status.code(), Some(2), "{}", err(&run));
    assert!(err(&run).contains("is the lesson itself"), "{}", err(&run));
    assert_eq!(fs::read(folder.path().join("a.toml")).expect("the lesson"), before);
}

#[test]
fn a_file_that_cannot_be_read_does_not_hide_the_others() {
    let folder = folder();
    assert!(glueline(folder.path(), &["start", "a"]).status.success());
    let run = glueline(folder.path(), &["check", "gone.toml", "a", ".", "a.toml"]);
    assert_eq!(run.status.code(), Some(3));
    let told = err(&run);
    for words in ["there is no file gone.toml", "did you mean a.toml?", "it is a folder"] {
        assert!(told.contains(words), "{told}");
    }
    assert!(out(&run).contains("a.toml: good"), "{}", out(&run));
}

#[test]
fn a_lesson_with_mistakes_ends_every_command_with_its_exit_code() {
    let folder = folder();
    fs::write(folder.path().join("bad.toml"), "title = \"bad\"\n").expect("written");
    for command in ["check", "values", "tune", "figures", "notes", "slides"] {
        let run = glueline(folder.path(), &[command, "bad.toml"]);
        assert_eq!(run.status.code(), Some(1), "{command}: {}", err(&run));
        assert!(err(&run).contains("the lesson has no [beam]"), "{command}: {}", err(&run));
    }
    let left = fs::read_dir(folder.path()).expect("the folder").count();
    assert_eq!(left, 1, "nothing is written of a lesson with mistakes");
}

#[test]
fn every_command_says_what_it_is_for() {
    let folder = folder();
    let help = glueline(folder.path(), &["--help"]);
    assert!(out(&help).contains("Exit codes: 0 done; 1 the lesson or the class list has mistakes; 2"));
    for command in [
        "start", "check", "values", "tune", "papers", "figures", "notes", "slides", "board", "page",
        "schema", "demo",
    ] {
        assert!(out(&help).contains(command), "{command}");
        let own = glueline(folder.path(), &[command, "--help"]);
        assert!(own.status.success() && out(&own).contains("Usage: glueline"), "{command}");
    }
}

#[test]
fn a_page_holds_all_that_it_needs_and_may_ask_nobody() {
    let folder = folder();
    assert!(glueline(folder.path(), &["start", "a"]).status.success());
    let made = glueline(folder.path(), &["page", "a.toml"]);
    assert!(made.status.success(), "{}", err(&made));
    let page = fs::read_to_string(folder.path().join("a-board.html")).expect("the page");
    assert!(page.contains("content=\"default-src 'none'; script-src 'sha256-"));
    assert!(!page.contains("connect-src"), "a page from a disk asks nobody");
    let shown = folder.path().display().to_string();
    assert!(!page.contains(&shown), "no folder of this machine is told");
    for asks in ["src=\"http", "href=\"http", "url(http", "@import"] {
        assert!(!page.contains(asks), "{asks}");
    }
}

/// A page goes by mail and onto phones: less than two megabytes, whichever the lesson.
#[test]
fn the_page_of_every_lesson_is_small() {
    let folder = folder();
    for builtin in lesson::builtin::ALL {
        fs::write(folder.path().join("lesson.toml"), builtin.text).expect("written");
        let made = glueline(folder.path(), &["page", "lesson.toml", "-o", "page.html", "--replace"]);
        assert!(made.status.success(), "{}: {}", builtin.name, err(&made));
        let size = fs::metadata(folder.path().join("page.html")).expect("the page").len();
        assert!(size < 2_000_000, "{}: {size} bytes", builtin.name);
    }
}

#[test]
fn another_content_is_replaced_only_when_asked() {
    let folder = folder();
    assert!(glueline(folder.path(), &["start", "a"]).status.success());
    fs::write(folder.path().join("a-notes.html"), "mine").expect("written");
    let kept = glueline(folder.path(), &["notes", "a.toml", "--html"]);
    assert_eq!(kept.status.code(), Some(3));
    assert!(err(&kept).contains("--replace"), "{}", err(&kept));
    let replaced = glueline(folder.path(), &["notes", "a.toml", "--html", "--replace"]);
    assert!(replaced.status.success() && out(&replaced).starts_with("replaced"), "{}", err(&replaced));
}

#[cfg(feature = "pdf")]
#[test]
fn notes_are_printed_on_the_sheet_asked_for() {
    let folder = folder();
    assert!(glueline(folder.path(), &["start", "a"]).status.success());
    let mut sizes = Vec::new();
    for sheet in ["a4", "Letter"] {
        let run =
            glueline(folder.path(), &["notes", "a.toml", "--paper", sheet, "-o", "notes.pdf", "--replace"]);
        assert!(run.status.success(), "{}", err(&run));
        sizes.push(fs::read(folder.path().join("notes.pdf")).expect("the notes"));
    }
    // Points of 1/72 in: US letter is 612 by 792, A4 of ISO 216 is 210 mm by 297 mm.
    let says = |pdf: &[u8], size: &[u8]| pdf.windows(size.len()).any(|window| window == size);
    assert!(says(&sizes[1], b"[0 0 612 792]") && !says(&sizes[0], b"[0 0 612 792]"));
    assert!(says(&sizes[0], b"[0 0 595."));
}
