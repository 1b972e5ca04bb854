//! What is evaluated is what comes of reading and solving.

use crate::common::{JETTY, papers};
use assessment::candidates::{Candidates, UnknownResult, Worker};
use assessment::ledger::Ledger;
use assessment::secret::ExamSecret;
use lesson::papers::Draw;
use std::collections::BTreeSet;
use workings::solved::Solved;

/// Loads that move past the slice, lengths that change, other supports, other sections.
const SHED: &str = include_str!("../lessons/shed.toml");

const JETTY_RESULTS: [&str; 8] = [
    "reaction at A",
    "shear force at the slice",
    "centroid height",
    "second moment",
    "first moment at the cut",
    "width at the cut",
    "shear stress on the cut",
    "force on the cut",
];

const SHED_RESULTS: [&str; 10] = [
    "reaction at B",
    "bending moment at the slice",
    "largest shear force",
    "largest sagging moment",
    "largest tension along the beam",
    "second moment",
    "shear stress on the cut",
    "largest shear stress over the depth",
    "largest shear stress along the beam",
    "bending stress at the bottom",
];

/// Compares one draw; whether it was a sound lesson. The expected values are those of reading the paper's text and
/// solving it, each working of which is checked against the engine.
fn compare(candidates: &Candidates, worker: &mut Worker<'_>, draw: &Draw) -> bool {
    let solved = candidates.solved(draw);
    let found = worker.evaluate(draw);
    let (Some(solved), Some(found)) = (&solved, found) else {
        assert_eq!(solved.is_some(), found.is_some(), "{draw:?}");
        return false;
    };
    let workings = solved.workings();
    // What is the difference of large values is exact to the scale of these.
    let scale = |of: &str| {
        let like = workings.get(of).map(|working| working.symbol.role);
        let sizes = workings.in_order().filter(|(_, other)| Some(other.symbol.role) == like);
        sizes.map(|(_, other)| other.value.value.abs()).fold(0.0, f64::max)
    };
    for (name, &value) in candidates.wanted().iter().zip(found.values) {
        match workings.get(name) {
            Some(working) => {
                let expected = working.value.value;
                let bound = 1e-12 * expected.abs().max(1e-3 * scale(name));
                assert!((value - expected).abs() <= bound, "{name} {value} {expected} {draw:?}");
            }
            None => assert!(value.is_nan(), "{name} {draw:?}"),
        }
    }
    let requirements = &candidates.papers().lesson().requirements;
    let meets = requirements.iter().all(|requirement| requirement.is_met(workings) == Ok(true));
    assert_eq!(found.meets, meets, "{draw:?}");
    true
}

/// Draws from all over the space: steps by a number without a common factor with its size.
fn all_over(candidates: &Candidates, count: u128) -> impl Iterator<Item = Draw> {
    let size = candidates.space().size().count;
    (0..count).filter_map(move |at| candidates.space().draw(at * 618_033_989 % size))
}

#[test]
fn a_jetty_s_draws_are_evaluated_as_they_are_solved() {
    let candidates = Candidates::new(papers(JETTY), &JETTY_RESULTS).expect("its workings");
    assert_eq!(candidates.space().size().count, 1_000_000);
    let mut worker = candidates.worker();
    let sound = all_over(&candidates, 400).filter(|draw| compare(&candidates, &mut worker, draw)).count();
    assert_eq!(sound, 400);
    // The bollard left of the slice, right of it, or at it; and where the deck begins.
    assert!(worker.read_and_solved() <= 8, "{}", worker.read_and_solved());
}

/// Loads that jump over one another and turn about: nearly every draw has a graph of its own.
#[test]
fn a_shed_s_draws_are_evaluated_as_they_are_solved() {
    let candidates = Candidates::new(papers(SHED), &SHED_RESULTS).expect("its workings");
    let mut worker = candidates.worker();
    let sound = all_over(&candidates, 400).filter(|draw| compare(&candidates, &mut worker, draw)).count();
    assert!(sound > 300, "{sound}");
}

/// Every kind of support and of section, with numbers that change less: most draws share their graph with others, and
/// with it all that a graph may be made of.
#[test]
fn a_calmer_shed_s_draws_are_evaluated_and_hardly_ever_read() {
    let mut text = SHED.to_owned();
    for (wild, calm) in [
        ("M = [\"-3 kN m\", \"0 kN m\", \"2 kN m\"]", "M = [\"1 kN m\", \"1.4 kN m\", \"2 kN m\"]"),
        ("P = [\"2 kN\", \"4 kN\", \"5 kN\"]", "P = [\"2 kN\", \"3 kN\", \"4 kN\"]"),
        (
            "q = [\"0 kN/m\", \"-2 kN/m\", \"2 kN/m\", \"3 kN/m\"]",
            "q = [\"2.5 kN/m\", \"2.8 kN/m\", \"3.1 kN/m\", \"3.5 kN/m\"]",
        ),
        (
            "x = { from = \"0.5 m\", to = \"4.5 m\", step = \"0.5 m\" }",
            "x = { from = \"2.55 m\", to = \"3.15 m\", step = \"0.05 m\" }",
        ),
    ] {
        assert!(text.contains(wild));
        text = text.replace(wild, calm);
    }
    let candidates = Candidates::new(papers(&text), &SHED_RESULTS).expect("its workings");
    let mut worker = candidates.worker();
    let sound = all_over(&candidates, 1500).filter(|draw| compare(&candidates, &mut worker, draw)).count();
    assert!(sound > 1000, "{sound}");
    assert!(worker.read_and_solved() < 500, "{}", worker.read_and_solved());
}

/// Draws that are no sound lesson are refused, whichever way they are evaluated.
#[test]
fn what_cannot_be_is_refused() {
    // The bollard may stand off a beam that is not too short for the lesson as its file shows it.
    let text = JETTY
        .replace("length = \"4 m\"", "length = \"l\"")
        .replace("[values]\n", "[values]\nl = \"4 m\"\n")
        .replace("[vary]\n", "[vary]\nl = [\"4 m\", \"3.5 m\"]\n")
        .replace("to = \"4 m\"", "to = \"l\"")
        .replace("at = \"a\"", "at = \"2*a - 1 m\"");
    let candidates = Candidates::new(papers(&text), &["reaction at A"]).expect("its workings");
    let mut worker = candidates.worker();
    let mut refused = 0;
    for draw in all_over(&candidates, 300) {
        let off = draw.choices[0] == 1 && 2.0 * (0.6 + 0.2 * draw.choices[3] as f64) - 1.0 > 3.5 + 1e-9;
        assert_eq!(worker.evaluate(&draw).is_none(), off, "{draw:?}");
        refused += usize::from(off);
    }
    assert!(refused > 5, "{refused}");
    assert!(worker.evaluate(&Draw { choices: vec![0] }).is_none(), "a draw of another lesson");
}

#[test]
fn threads_share_what_they_found_and_find_the_same() {
    let candidates = Candidates::new(papers(SHED), &SHED_RESULTS).expect("its workings");
    let found = |order: &dyn Fn(u128) -> u128| -> Vec<Option<Vec<u64>>> {
        let mut worker = candidates.worker();
        let mut found: Vec<(u128, Option<Vec<u64>>)> = (0..200)
            .map(order)
            .map(|at| {
                let size = candidates.space().size().count;
                let draw = candidates.space().draw(at * 9_973 % size).expect("a draw");
                (
                    at,
                    worker
                        .evaluate(&draw)
                        .map(|found| found.values.iter().map(|value| value.to_bits()).collect()),
                )
            })
            .collect();
        found.sort();
        found.into_iter().map(|(_, found)| found).collect()
    };
    let (one, other) = std::thread::scope(|scope| {
        let one = scope.spawn(|| found(&|at| at));
        let other = scope.spawn(|| found(&|at| 199 - at));
        (one.join().expect("no panic"), other.join().expect("no panic"))
    });
    for (one, other) in one.iter().zip(&other) {
        let (Some(one), Some(other)) = (one, other) else {
            assert_eq!(one.is_some(), other.is_some());
            continue;
        };
        for (one, other) in one.iter().zip(other) {
            let (one, other) = (f64::from_bits(*one), f64::from_bits(*other));
            let alike = one.is_nan() && other.is_nan() || (one - other).abs() <= 1e-12 * one.abs().max(1e-9);
            assert!(alike, "{one} {other}");
        }
    }
}

#[test]
fn a_result_that_is_not_there_is_refused_by_name() {
    let fault = Candidates::new(papers(JETTY), &["reaction at Z"]).expect_err("no such support");
    assert_eq!(fault, UnknownResult("reaction at Z".into()));
    assert_eq!(
        fault.to_string(),
        "the lesson has no working called \"reaction at Z\"; `glueline values` lists what there is"
    );
}

/// A class: everyone's own numbers, each paper a lesson that meets what the lecturer requires.
#[test]
fn every_paper_of_a_class_meets_the_requirements() {
    // Fewer than one draw in three: the web must be stout and the stress small.
    let text = JETTY.replace("< 1 MPa", "< 0.4 MPa");
    let candidates = Candidates::new(papers(&text), &["shear stress on the cut"]).expect("its workings");
    let mut worker = candidates.worker();
    let met =
        all_over(&candidates, 200).filter(|draw| worker.evaluate(draw).is_some_and(|found| found.meets));
    let share = met.count();
    assert!((10..150).contains(&share), "{share} of 200 meet the requirements");
    let secret = ExamSecret::new(b"sixteen bytes or more").expect("long enough");
    let mut ledger = Ledger::new::<ExamSecret>("jetty", candidates.space().clone());
    for student in 0..60 {
        let fits = |draw: &Draw| worker.evaluate(draw).is_some_and(|found| found.meets);
        ledger.give(&secret, &format!("{student:05}"), fits).expect("enough fit");
    }
    let mut seen = BTreeSet::new();
    for (student, entry) in ledger.papers() {
        let reading = candidates.papers().reading(&entry.draw).expect("a draw of the lesson");
        let lesson = reading.lesson.expect("a sound paper");
        let solved = Solved::new(lesson.problem, lesson.style).expect("solvable");
        for requirement in &lesson.requirements {
            assert_eq!(requirement.is_met(solved.workings()), Ok(true), "{student} {}", requirement.written);
        }
        assert!(!entry.shared && seen.insert(entry.draw.clone()), "{student}");
    }
}

/// A lesson in which nothing varies has one draw.
#[test]
fn a_lesson_in_which_nothing_varies_has_one_draw() {
    let text = lesson::builtin::find("box-girder").expect("a lesson of ours").text;
    let candidates = Candidates::new(papers(text), &["shear stress on the cut"]).expect("its workings");
    let mut worker = candidates.worker();
    let draws: BTreeSet<Draw> = (0..3).filter_map(|at| candidates.space().draw(at)).collect();
    assert_eq!(draws.len(), 1);
    let found = worker.evaluate(&Draw { choices: Vec::new() }).expect("sound");
    // The box girder's own remark: tau = 0.5 MPa, by hand in its file.
    assert!((found.values[0] - 0.5e6).abs() < 1.0);
}

#[test]
fn a_restricted_lesson_has_no_other_candidates() {
    let rows = r#"only = [
  { P = "3 kN", w = "1 kN/m", a = "1 m", b = "120 mm", h = "160 mm", t = "40 mm" },
  { P = "6 kN", w = "2 kN/m", a = "2.4 m", b = "80 mm", h = "120 mm", t = "20 mm" },
]"#;
    let text = JETTY.replacen("[papers]", &format!("[papers]\n{rows}"), 1);
    let candidates = Candidates::new(papers(&text), &JETTY_RESULTS).expect("its workings");
    assert_eq!(candidates.space().size().count, 2);
    let mut worker = candidates.worker();
    for at in 0..2 {
        let draw = candidates.space().draw(at).expect("one of two");
        assert!(compare(&candidates, &mut worker, &draw));
    }
    let other = Draw { choices: vec![0; 6] };
    assert!(worker.evaluate(&other).is_none());
    // The board and the papers themselves read it as before.
    assert!(candidates.solved(&other).is_some());
}
