//! What the board shows and the command would refuse is told at rest, and what is dragged to a place that the lesson has words
//! for stays a lesson of which papers can be made.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on stops")]

use board::board::Board;
use board::handle::Handle;
use board::prospect::LookAhead;
use board::seen::Seen;
use std::collections::BTreeSet;

/// A board with everything that can be dragged.
fn opened(text: &str) -> (Board, Vec<(String, Handle)>) {
    let mut board = Board::new(text, "lesson.toml").unwrap();
    board.sheet();
    let answer = board.take(text, None).unwrap();
    let each = answer.grips.into_iter();
    let all = each.flat_map(|(piece, all)| all.into_iter().map(move |handle| (piece.clone(), handle)));
    (board, all.collect())
}

fn builtin(name: &str) -> &'static str {
    lesson::builtin::find(name).unwrap().text
}

/// The text after something was dragged to a value, where that was taken.
fn dragged(board: &mut Board, (piece, handle): &(String, Handle), to: f64, snap: bool) -> Option<String> {
    board.drag(piece, &handle.id, to, snap, Some(&Seen::default())).ok().map(|answer| answer.text)
}

/// What is said of the papers of a text, and how many draws were looked at.
fn said(text: &str) -> (String, usize) {
    let mut ahead = match LookAhead::new(text) {
        Ok(ahead) => ahead,
        Err(why) => return (why, 0),
    };
    for looked in 1.. {
        let prospect = ahead.further();
        if !prospect.more {
            return (prospect.why, looked);
        }
    }
    unreachable!("a space of draws ends");
}

/// A beam on two supports whose length changes from paper to paper; the breadth is for the test to set.
fn of_breadth(breadth: &str) -> String {
    format!(
        "title = \"A plank\"\n\n[values]\nP = \"4 kN\"\nL = \"4 m\"\n\n\
         [vary]\nP = {{ from = \"2 kN\", to = \"6 kN\", step = \"1 kN\" }}\nL = [\"3 m\", \"4 m\"]\n\n\
         [papers]\nrequire = [\"size of shear stress on the cut < 1 MPa\"]\n\n\
         [beam]\nlength = \"L\"\nsupports = [{{ pin = \"0 m\" }}, {{ roller = \"L\" }}]\nloads = [{{ force = \"P\", at = \"L/2\" }}]\n\n\
         [material]\nE = \"11 GPa\"\n\n[section]\nshape = \"rectangle\"\nwidth = \"{breadth}\"\nheight = \"100 mm\"\n\n\
         [slice]\nat = \"0.5 m\"\nlength = \"20 mm\"\n\n[cut]\nat = \"neutral axis\"\n\n\
         [[question]]\nask = \"shear stress on the cut\"\n"
    )
}

/// Each lesson of which papers vary, with each of its values that can be dragged; those where nothing varies say all that
/// there is as they are shown.
fn varied() -> impl Iterator<Item = (&'static str, Board, Vec<(String, Handle)>)> {
    let varies = |text| Board::new(text, "").is_ok_and(|board| !board.lesson().vary.is_empty());
    lesson::builtin::ALL.iter().filter(move |lesson| varies(lesson.text)).map(|lesson| {
        let (board, mut all) = opened(lesson.text);
        // The slice and the cut can be dragged in several drawings.
        let mut paths = BTreeSet::new();
        all.retain(|(_, handle)| paths.insert(handle.path.clone()));
        (lesson.name, board, all)
    })
}

/// What can be dragged to an end of its range where a paper cannot follow.
const REFUSED: [&str; 9] = [
    "conveyor: beam.loads[0].from",
    "conveyor: slice.at",
    "conveyor: cut.at",
    "short-joist: slice.at",
    "short-joist: slice.length",
    "purlin: beam.loads[0].from",
    "purlin: slice.at",
    "purlin: slice.length",
    "walkway: cut.at",
];

#[test]
fn whatever_the_command_refuses_is_told_with_what_would_be_right() {
    let mut told = Vec::new();
    for (name, mut board, all) in varied() {
        let before = board.text().to_owned();
        for grip in &all {
            for end in [grip.1.low, grip.1.high] {
                let Some(text) = dragged(&mut board, grip, end, false) else { continue };
                board.take(&before, Some(&Seen::default())).unwrap();
                let ahead = LookAhead::new(&text).err();
                let refused = lesson::read(&text, "lesson.toml").findings;
                assert_eq!(ahead.is_some(), !refused.is_empty(), "{name}: {text}");
                if let (Some(why), Some(first)) = (ahead, refused.first()) {
                    let place = || format!("{name}, {}: {why}", grip.1.path);
                    assert!(why.contains(&first.headline), "{}", place());
                    assert!(first.mend.as_ref().is_some_and(|mend| why.contains(mend)), "{}", place());
                    told.push((name, grip.1.path.clone()));
                }
            }
        }
    }
    // Where the beam of some paper is shorter than the one that is shown, or its section lower.
    told.dedup();
    let told: Vec<String> = told.into_iter().map(|(name, path)| format!("{name}: {path}")).collect();
    assert_eq!(told, REFUSED);
}

/// A stop has a name: who drags something there means that place, and not its distance on the one beam that is shown.
#[test]
fn a_stop_that_the_lesson_has_words_for_leaves_a_lesson_that_the_command_takes() {
    for (name, mut board, all) in varied() {
        let before = board.text().to_owned();
        for grip in &all {
            for stop in &grip.1.snaps {
                let Some(text) = dragged(&mut board, grip, stop.value, true) else { continue };
                board.take(&before, Some(&Seen::default())).unwrap();
                let findings = lesson::read(&text, "lesson.toml").findings;
                let why: Vec<&str> = findings.iter().map(|finding| finding.headline.as_str()).collect();
                let none: &[&str] = &[];
                let wanted = match (name, grip.1.path.as_str(), stop.name.as_str()) {
                    // Where V = 0 depends on the numbers: there are no words for it.
                    ("conveyor", "slice.at", "V = 0") if stop.value > 6.0 => {
                        &["the slice begins at 6.5 m, off the beam, which ends at 6 m"]
                    }
                    // With the second load on the hinge a light first load leaves nothing to sag.
                    ("gangway", "beam.loads[1].at", "hinge") => {
                        &["the lesson has no working called \"largest sagging moment\""]
                    }
                    _ => none,
                };
                assert_eq!(why, wanted, "{name}: {} at {}", grip.1.path, stop.name);
            }
        }
    }
}

#[test]
fn what_is_dragged_away_and_back_is_stated_as_before() {
    for (name, drawing, id) in [
        ("conveyor", "beam-given", "support-2"),    // { roller = "2*L" }
        ("conveyor", "beam-given", "load-0-to"),    // to = "2*L"
        ("short-joist", "beam-given", "support-1"), // { roller = "L" }
        ("walkway", "section", "cut"),              // at = "bottom of top flange"
    ] {
        let text = builtin(name);
        let (mut board, all) = opened(text);
        let of_it =
            |(piece, handle): &&(String, Handle)| *piece == format!("drawing-{drawing}") && handle.id == id;
        let grip = all.iter().find(of_it).unwrap();
        let away = grip.1.value - 7.3 * grip.1.step;
        assert_ne!(dragged(&mut board, grip, away, false).unwrap(), text, "{name}: {id}");
        assert_eq!(dragged(&mut board, grip, grip.1.value, true).unwrap(), text, "{name}: {id}");
    }
}

#[test]
fn a_slice_that_was_taken_at_a_named_place_is_moved_alone() {
    let text = of_breadth("60 mm").replace("at = \"L/2\"", "at = \"a\"");
    let text = text.replace("L = \"4 m\"", "L = \"4 m\"\na = \"1 m\"");
    let text = text.replace("at = \"0.5 m\"", "at = \"a\"");
    let (mut board, all) = opened(&text);
    let slice = all.iter().find(|(piece, handle)| piece == "drawing-beam-given" && handle.id == "station");
    let moved = dragged(&mut board, slice.unwrap(), 1.5, false).unwrap();
    assert_eq!(moved, text.replace("[slice]\nat = \"a\"", "[slice]\nat = \"1.5 m\""));
    // The load, at whose place the slice was taken, takes the slice along.
    board.take(&text, Some(&Seen::default())).unwrap();
    let load = all.iter().find(|(_, handle)| handle.id == "load-0-place").unwrap();
    assert_eq!(dragged(&mut board, load, 1.5, false).unwrap(), text.replace("a = \"1 m\"", "a = \"1.5 m\""));
}

/// Closed form: V = P/2, and in a rectangle the largest shear stress is 3 V / (2 A). With 60 mm it is 0.25 MPa for 2 kN and
/// 0.75 MPa for 6 kN; with 10 mm 1.5 MPa for 2 kN, and more for all others.
#[test]
fn a_requirement_that_no_draw_meets_is_told() {
    assert_eq!(said(&of_breadth("60 mm")), (String::new(), 1));
    assert_eq!(
        said(&of_breadth("10 mm")).0,
        "No paper was found for this lesson as it stands now. Against all 10 draws: the lesson requires: size of shear stress \
         on the cut < 1 MPa. To mend it: require less, or let other values vary."
    );
    // With 20 mm the lightest load still has 0.75 MPa.
    assert_eq!(said(&of_breadth("20 mm")).0, "");
    // Nothing varies: the one draw there is.
    let text = of_breadth("10 mm");
    let (before, after) = (text.find("[vary]").unwrap(), text.find("[papers]").unwrap());
    let fixed = format!("{}{}", &text[..before], &text[after..]);
    assert!(said(&fixed).0.contains("Against the only draw: "), "{}", said(&fixed).0);
    // A lesson that asks nothing has no papers.
    let silent = text.split("[[question]]").next().unwrap();
    assert_eq!(said(silent).0, "");
}

#[test]
fn a_refusal_reads_as_sentences() {
    let text = of_breadth("60 mm").replace("at = \"0.5 m\"", "at = \"3.5 m\"");
    assert_eq!(
        said(&text).0,
        "Neither papers nor notes can be made from this lesson as it stands now: the slice begins at 3.5 m, off the beam, which \
         ends at 3 m (with L = 3 m). To mend it: give a position from 0 to 3 m."
    );
}
