//! What holds for every drawing, whatever it is made from.

pub mod strikes;

use figure::drawing::{Drawing, Mark};
use figure::geometry::Rect;
use figure::grip::Subject;
use std::collections::HashSet;

/// No label covers another.
pub fn labels_are_apart(name: &str, drawing: &Drawing) {
    let overlaps = drawing.overlaps();
    assert!(overlaps.is_empty(), "{name} {}: {overlaps:?}", drawing.name);
}

/// The boxes of all arrowheads: filled polygons without an outline, in an ink that draws lines.
fn heads(marks: &[Mark], found: &mut Vec<Rect>) {
    for mark in marks {
        match mark {
            Mark::Polygon { stroke: None, fill: Some(ink), .. } if ink.draws_lines() => {
                found.push(mark.rect())
            }
            Mark::Group { marks, .. } => heads(marks, found),
            _ => {}
        }
    }
}

/// No label covers an arrowhead.
pub fn arrowheads_are_free(name: &str, drawing: &Drawing) {
    let mut found = Vec::new();
    heads(&drawing.marks, &mut found);
    for label in drawing.labels() {
        for head in &found {
            assert!(!label.rect.overlaps(*head), "{name} {}: {label:?} {head:?}", drawing.name);
        }
    }
}

/// Everything lies on the sheet, and the sheet is not much wider than a page's text.
pub fn sheet_holds_all(name: &str, drawing: &Drawing) {
    assert!(drawing.is_whole(), "{name} {}", drawing.name);
    assert!(drawing.width <= 900.0, "{name} {}: {} px wide", drawing.name, drawing.width);
}

/// The numbers of a text as they are written: digits with the spaces and points that stand between digits.
fn numbers(text: &str) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    let mut current = String::new();
    for sign in text.chars().chain([' ']) {
        let joins = matches!(sign, '.' | ',' | '\u{202f}' | '\u{2009}') && !current.is_empty();
        if sign.is_ascii_digit() || joins {
            current.push(sign);
        } else if !current.is_empty() {
            let number = current.trim_end_matches(|sign: char| !sign.is_ascii_digit()).to_owned();
            found.push(number);
            current.clear();
        }
    }
    found
}

/// Every number drawn is in the description.
pub fn numbers_are_told(name: &str, drawing: &Drawing) {
    let words = drawing.long.plain();
    let told: HashSet<String> = numbers(&words).into_iter().collect();
    for label in drawing.labels() {
        for number in numbers(&label.text) {
            let text = &label.text;
            assert!(
                told.contains(&number),
                "{name} {}: {number} of {text:?} is not in\n{words}",
                drawing.name
            );
        }
    }
}

/// The drawing says what it is, in short and in full.
pub fn is_described(name: &str, drawing: &Drawing) {
    assert!(!drawing.title.is_empty());
    let length = drawing.short.chars().count();
    assert!((20..=250).contains(&length), "{name} {}: {}", drawing.name, drawing.short);
    assert!(!drawing.long.passages.is_empty());
}

/// Every grip lies on the sheet, moves something, and has its value and its snaps in its range.
pub fn grips_hold(name: &str, drawing: &Drawing) {
    let sheet = drawing.sheet();
    for grip in drawing.grips() {
        let about = format!("{name} {}: {grip:?}", drawing.name);
        assert!(sheet.holds(Rect::between(grip.at, grip.at)), "{about}");
        assert!(grip.per_px.is_finite() && grip.per_px != 0.0, "{about}");
        assert!(grip.low <= grip.value && grip.value <= grip.high && grip.low < grip.high, "{about}");
        assert!(grip.low.is_finite() && grip.high.is_finite(), "{about}");
        assert!(grip.snaps.iter().all(|snap| (grip.low..=grip.high).contains(&snap.value)), "{about}");
        assert!(grip.snaps.iter().all(|snap| !snap.name.is_empty()), "{about}");
        assert!(grip.snaps.windows(2).all(|pair| pair[0].value < pair[1].value), "{about}");
    }
    let subjects: Vec<Subject> = drawing.grips().iter().map(|grip| grip.subject).collect();
    let different: HashSet<Subject> = subjects.iter().copied().collect();
    assert_eq!(different.len(), subjects.len(), "{name} {}: {subjects:?}", drawing.name);
}
