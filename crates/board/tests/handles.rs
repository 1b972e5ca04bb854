//! Every handle of every built-in lesson does what it says: the value goes where the hand goes, the file says so, and
//! the way back leads to the text one came from.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on stops")]

use board::board::{Answer, Board};
use board::handle::Handle;
use board::seen::Seen;

fn handles(answer: &Answer) -> Vec<(String, Handle)> {
    let each = answer
        .grips
        .iter()
        .flat_map(|(piece, handles)| handles.iter().map(move |handle| (piece.clone(), handle.clone())));
    each.collect()
}

/// The built-in lesson of this name, opened, with everything that can be dragged.
fn builtin(name: &str) -> (Board, Vec<(String, Handle)>) {
    let lesson = lesson::builtin::ALL.iter().find(|lesson| lesson.name == name).unwrap();
    let (board, answer) = opened(lesson.text, lesson.name);
    (board, handles(&answer))
}

fn opened(text: &str, name: &str) -> (Board, Answer) {
    let mut board = Board::new(text, name).unwrap();
    board.sheet();
    let answer = board.take(text, None).unwrap();
    (board, answer)
}

/// The handle of that name in that drawing, as the answer has it.
fn again<'a>(all: &'a [(String, Handle)], piece: &str, id: &str) -> Option<&'a Handle> {
    all.iter().find(|(other, handle)| other == piece && handle.id == id).map(|(_, handle)| handle)
}

#[test]
fn a_rehearsal_answers_like_a_drag_and_changes_nothing() {
    let (mut board, all) = builtin("conveyor");
    let before = board.text().to_owned();
    let mut texts = std::collections::BTreeSet::new();
    for turn in 0..200 {
        let answer = board.rehearse(turn, Some(Seen::default()));
        texts.extend(answer.map(|answer| answer.text));
        assert_eq!(board.text(), before);
    }
    assert!(texts.len() > all.len(), "{} texts of {} handles", texts.len(), all.len());
    let rest = board.take(&before, None).unwrap();
    assert!(rest.drawings.is_empty() && rest.pieces.is_empty() && rest.blocks.is_empty());
}

#[test]
fn each_handle_goes_to_its_neighbours_and_its_stops_and_back() {
    for lesson in lesson::builtin::ALL {
        let (mut board, answer) = opened(lesson.text, lesson.name);
        let all = handles(&answer);
        assert!(all.len() > 8, "{}: {}", lesson.name, all.len());
        let mut moved = 0;
        for (piece, handle) in &all {
            let beside = [handle.value + handle.step, handle.value - handle.step];
            let stops = handle.snaps.iter().map(|stop| stop.value);
            let targets: Vec<(f64, bool)> = beside
                .into_iter()
                .map(|value| (value, false))
                .chain(stops.map(|value| (value, true)))
                .collect();
            let only = Seen::from_iter([piece.trim_start_matches("drawing-")]);
            for (target, snap) in targets {
                let seen = Some(&only);
                let Ok(answer) = board.drag(piece, &handle.id, target, snap, seen) else { continue };
                let place = || format!("{}: {} of {piece} to {target}", lesson.name, handle.id);
                // A value that the file says already is told nothing of: everything stays where it is.
                let there = if board.text() == lesson.text { all.clone() } else { handles(&answer) };
                let there = again(&there, piece, &handle.id);
                let there = there.unwrap_or_else(|| panic!("{}: gone", place()));
                let target = target.clamp(handle.low, handle.high);
                // Another side of the section may set another length of the depth, and so move the cut's own place.
                let off = if snap { 1e-6 } else { 0.0501 } * handle.step;
                assert!(
                    (there.value - target).abs() <= off,
                    "{}: {} ({})",
                    place(),
                    there.value,
                    there.written
                );
                moved += 1;
                board.take(lesson.text, Some(&Seen::default())).unwrap();
                assert_eq!(board.text(), lesson.text);
            }
        }
        assert!(moved > all.len(), "{}: {moved} of {}", lesson.name, all.len());
    }
}

#[test]
fn a_cut_at_a_joint_is_written_by_its_name() {
    let (mut board, all) = builtin("porch-beam");
    let cut = again(&all, "drawing-section", "cut").unwrap();
    let screws = cut.snaps.iter().find(|stop| stop.name == "screws").unwrap();
    board.drag("drawing-section", "cut", screws.value + 0.5 * cut.step, true, None).unwrap();
    assert!(board.text().contains("at = \"screws\""), "{}", board.text());
    board.drag("drawing-section", "cut", screws.value + 0.1, true, None).unwrap();
    assert!(!board.text().contains("at = \"screws\""));
}

#[test]
fn a_load_that_acts_up_grows_with_the_hand_and_stays_upward() {
    let (mut board, all) = builtin("lighting-bridge");
    let up = again(&all, "drawing-beam-given", "load-5-size").unwrap();
    assert!((up.value - 3000.0).abs() < 1e-9, "{}", up.value);
    board.drag("drawing-beam-given", "load-5-size", 4000.0, true, None).unwrap();
    assert!(
        board.text().contains("{ force = \"4 kN\", at = \"5 m\", direction = \"up\""),
        "{}",
        board.text()
    );
}

#[test]
fn a_load_that_has_a_name_of_its_own_changes_where_the_name_is_given() {
    let (mut board, all) = builtin("porch-beam");
    let post = again(&all, "drawing-beam-given", "load-0-size").unwrap();
    assert_eq!((post.label.as_str(), post.written.as_str()), ("load 1: force = P", "2 kip"));
    board.drag("drawing-beam-given", "load-0-size", post.value * 1.5, true, None).unwrap();
    assert!(board.text().contains("P = \"3 kip\" "), "{}", board.text());
}

#[test]
fn sides_of_a_shape_go_to_its_keys() {
    let (_, all) = builtin("lighting-bridge");
    let mut keys: Vec<(&str, &str)> = all
        .iter()
        .filter(|(piece, handle)| piece == "drawing-section" && handle.id.starts_with("part-"))
        .map(|(_, handle)| (handle.path.as_str(), handle.shown.as_str()))
        .collect();
    keys.sort_unstable();
    keys.dedup();
    let wanted = [
        ("section.flange-thickness", "50\u{a0}mm"),
        ("section.height", "300\u{a0}mm"),
        ("section.web-thickness", "30\u{a0}mm"),
        ("section.width", "240\u{a0}mm"),
    ];
    assert_eq!(keys, wanted);
}
