//! The reference page of the lesson file, in Markdown: made from the table of keys.

use crate::key::{self, Form, Key, Need, SHAPES};
use std::fmt::Write;
use workings::notation::Notation;
use workings::unit::UNITS;

/// What stands before the tables of keys.
const OPENING: &str = "\
# The lesson file

A lesson is one text file in TOML. It is meant to be read aloud: *beam, length 4 m; a pin at 0 m, a roller at 4 m; a
force of 4 kN at 1.5 m*. This page is made from the program itself, and so is the JSON Schema that helps an editor
(`glueline schema`).

- **Headings** stand in brackets: `[beam]`. Everything below a heading belongs to it, up to the next one.
- **Quantities** stand in quotes with their unit: `\"4 m\"`, `\"12 ft 6 in\"`, `\"3.5 kip/ft\"`, `\"1.2 kN m\"`. Metric and US
  customary units may be mixed freely.
- **Names of your own**: what stands under `[values]` may be used in every quantity of the file, also in expressions:
  `\"L/2 - 10 mm\"`, `\"2*P\"`.
- **Places** along the beam run from 0 at its left end; heights in the section run up. Forces and spread loads act down,
  couples turn counter-clockwise, unless `direction` says otherwise.
- **Signs** are the same in every lesson: V is positive where it turns the slice clockwise, M where it sags, so that
  dM/dx = V; tension is positive. What a course may choose is the way of the depth axis, the side on which a diagram is
  drawn, the symbols and the words: see `[notation]`.
- **Papers**: a lesson is shown with the numbers that stand in it. Where students get numbers of their own, `[vary]` says what a
  named value may become, `[[variant]]` what else may stand in the place of the supports, the loads or the section, and
  `[papers]` what the numbers of every paper must meet. What follows from a varied value is an expression under `[values]`.
- **Remarks** begin with `#` and end with the line.
";

/// The reference page.
pub fn reference_page() -> String {
    let mut page = OPENING.to_owned();
    let mut told: Vec<&str> = Vec::new();
    for parent in parents() {
        let keys = key::within(parent);
        if told.contains(&parent) || keys.is_empty() {
            continue;
        }
        // Tables with the same keys are told once, under all their names.
        let alike: Vec<&str> = parents().into_iter().filter(|other| same(key::within(other), keys)).collect();
        let _ = write!(page, "\n## {}\n\n", heading(&alike));
        if let Some(says) = key::at(parent).map(|key| &key.says) {
            let _ = write!(page, "{says}\n\n");
        }
        rows(&mut page, keys);
        match parent {
            "section" => shapes(&mut page),
            "notation.symbols" => quantities(&mut page),
            _ => {}
        }
        told.extend(alike);
    }
    units(&mut page);
    page
}

/// The paths of all tables, in the order of the keys; the top of the file first.
fn parents() -> Vec<&'static str> {
    let mut parents = vec![""];
    for key in key::all() {
        if !parents.contains(&key.parent()) {
            parents.push(key.parent());
        }
    }
    parents
}

/// Whether two tables have the same keys, save that one may have more.
fn same(one: &[&Key], other: &[&Key]) -> bool {
    let words = |keys: &[&Key]| -> Vec<String> {
        keys.iter().map(|key| format!("{} {}", key.word(), key.says)).collect()
    };
    words(one) == words(other)
}

fn heading(paths: &[&str]) -> String {
    let names: Vec<String> = paths
        .iter()
        .map(|path| match *path {
            "" => "The top of the file".to_owned(),
            "question[]" => "`[[question]]`".to_owned(),
            "mistake[]" => "`[[mistake]]`".to_owned(),
            "variant[]" => "`[[variant]]`".to_owned(),
            path if path.contains("[]") => format!("`{path}`"),
            path => format!("`[{path}]`"),
        })
        .collect();
    names.join(", ")
}

fn rows(page: &mut String, keys: &[&Key]) {
    page.push_str("| key | what it takes | needed | what it means | example |\n|---|---|---|---|---|\n");
    for key in keys {
        let word = match key.word() {
            "*" if key.parent().ends_with("mistakes") => "the name of a mistake",
            "*" => "a name of your own",
            word => word,
        };
        let needed = match key.need {
            Need::Required => "yes".to_owned(),
            Need::Optional("") => "no".to_owned(),
            Need::Optional(without) => format!("no; without it: {without}"),
            Need::Depends(on) => on.to_owned(),
        };
        let example = if key.example.is_empty() { String::new() } else { format!("`{}`", key.example) };
        let _ = writeln!(page, "| `{word}` | {} | {needed} | {} | {example} |", takes(key), key.says);
    }
}

/// What a key takes, in a few words.
fn takes(key: &Key) -> String {
    match key.form {
        Form::Table => format!("keys of its own, below `[{}]`", key.path.replace("[]", "")),
        Form::List => "a list of tables".to_owned(),
        form => form.in_words(),
    }
}

fn shapes(page: &mut String) {
    page.push_str("\nThe shapes and their dimensions:\n\n| shape | needs | may take |\n|---|---|---|\n");
    let words = |words: &[&str]| words.iter().map(|word| format!("`{word}`")).collect::<Vec<_>>().join(", ");
    for shape in SHAPES {
        let _ =
            writeln!(page, "| `\"{}\"` | {} | {} |", shape.name, words(shape.needs), words(shape.may_take));
    }
}

fn quantities(page: &mut String) {
    let names: Vec<String> =
        Notation::role_names().map(|(_, words)| format!("`{}`", words.replace(' ', "-"))).collect();
    let _ = write!(page, "\nThe quantities: {}.\n", names.join(", "));
}

fn units(page: &mut String) {
    page.push_str("\n## Units\n\nThese, and products, quotients and powers of them such as `kN m`, `N/mm^2`, `kg/m3`:\n\n");
    let symbols: Vec<String> = UNITS.iter().map(|unit| format!("`{}` ({})", unit.symbol, unit.one)).collect();
    let _ = writeln!(page, "{}.", symbols.join(", "));
}
