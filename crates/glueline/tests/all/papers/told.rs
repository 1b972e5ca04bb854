//! What is said of the papers of a class.

use crate::run::{Desk, LESSON, class};

/// Two forces and nothing else: the third student has the paper of another, and that is the first thing told.
#[test]
fn papers_of_the_same_numbers_are_warned_of_first() {
    let desk = Desk::new();
    let start = LESSON.find("[vary]").expect("something varies");
    let end = start + LESSON[start + 1..].find("\n[").expect("a further heading") + 1;
    let mut text = LESSON.to_owned();
    text.replace_range(start..end, "[vary]\nP = [\"20 kN\", \"24 kN\"]\n");
    desk.put("few.toml", &text);
    desk.put("class.csv", &class(1, 4));
    let told = desk.done(&["papers", "few.toml", "class.csv", "-o", "out"]);
    let first = told.lines().next().expect("a line");
    assert!(
        first.starts_with("warning: 2 papers have all the same numbers as another. Of 2 combinations 2 were looked at, and 2 may be given out"),
        "{told}"
    );
    assert_eq!(desk.text("out/fairness.txt").lines().next(), Some(first));
}

/// A uniform V: the largest is reached all along a stretch, and the key has no one place for it.
#[test]
fn a_place_that_is_a_stretch_stands_in_the_key_as_one() {
    let desk = Desk::new();
    let (before, after) = LESSON.split_once("[vary]").expect("something varies");
    let after = &after[after.find("\n[").expect("a further heading")..];
    let plain = format!("{before}{after}").replace("20 kN/m", "0.1 kN/m");
    let text = format!("{plain}\n[[question]]\nask = \"largest shear force\"\nplace = true\n");
    desk.put("place.toml", &text);
    desk.put("class.csv", &class(1, 1));
    desk.done(&["papers", "place.toml", "class.csv", "-o", "out"]);
    let key = desk.key("out");
    let place =
        key.iter().find(|row| row[3] == "station of the largest shear force").expect("a row of the place");
    assert!(place[4].contains(" to "), "{place:?}");
}
