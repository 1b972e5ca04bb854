//! Lessons that are refused, each with the exact message beside it.
//!
//! `refused/*.toml` with `refused/*.txt`: what is shown without colour. Those named as in `reference/errors.json` are the
//! reference cases, given as a lesson file. `REWRITE_MESSAGES=1 cargo test -p lesson --test all refused` writes the messages anew, to be
//! looked at.

use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/refused")
}

fn lessons() -> Vec<PathBuf> {
    let entries = fs::read_dir(folder()).expect("the folder is part of the repository");
    let mut paths: Vec<PathBuf> =
        entries.map(|entry| entry.expect("an entry of the folder").path()).collect();
    paths.retain(|path| path.extension().is_some_and(|extension| extension == "toml"));
    paths.sort();
    paths
}

fn messages(path: &Path) -> String {
    let text = fs::read_to_string(path).expect("a lesson of the folder");
    let name = path.file_name().and_then(|name| name.to_str()).expect("a plain file name");
    let reading = lesson::read(&text, name);
    assert!(reading.lesson.is_none(), "{name} is not refused");
    assert!(!reading.findings.is_empty(), "{name} is refused without a word");
    let shown: Vec<String> = reading.findings.iter().map(|finding| finding.render(false)).collect();
    shown.join("\n\n") + "\n"
}

#[test]
fn every_refused_lesson_gets_its_message() {
    let rewrite = std::env::var_os("REWRITE_MESSAGES").is_some();
    let mut differ = Vec::new();
    for path in lessons() {
        let got = messages(&path);
        let expected_at = path.with_extension("txt");
        if rewrite {
            fs::write(&expected_at, &got).expect("the folder can be written to");
        }
        let expected = fs::read_to_string(&expected_at).unwrap_or_default();
        if got != expected {
            differ.push(format!("== {}\n-- expected\n{expected}-- got\n{got}", path.display()));
        }
    }
    assert!(differ.is_empty(), "{}", differ.join("\n"));
}

/// Source: the reference cases, whose own sources stand in the file.
#[test]
fn every_reference_case_has_its_lesson() {
    let reference = include_str!("../reference/errors.json");
    let reference: Value = serde_json::from_str(reference).expect("the reference is JSON");
    let cases = reference["cases"].as_array().expect("a list of cases");
    assert_eq!(cases.len(), 23);
    for case in cases {
        let id = case["id"].as_str().expect("every case has an id");
        for extension in ["toml", "txt"] {
            let path = folder().join(id).with_extension(extension);
            assert!(path.exists(), "{} is missing", path.display());
        }
    }
}

#[test]
fn a_finding_names_its_line_and_column_and_can_be_written_as_json() {
    let text = "title = \"x\"\n\n[beam]\nlength = \"4 kN\"\n";
    let reading = lesson::read(text, "beam.toml");
    let finding =
        reading.findings.iter().find(|finding| finding.text() == "\"4 kN\"").expect("the length is refused");
    assert_eq!((finding.start.line, finding.start.column), (4, 10));
    let json = serde_json::to_value(finding).expect("a finding is plain data");
    assert_eq!(json["start"]["line"], 4);
    assert_eq!(json["headline"], finding.headline.as_str());
    assert!(finding.render(true).contains("\u{1b}["), "with colour there are colours");
    assert!(!finding.render(false).contains('\u{1b}'), "without colour there are none");
}
