//! What a class waits for before its papers are given out: each paper judged, beside solving its lesson anew for every way in
//! which students round.

#[allow(dead_code, reason = "the tests take the rest")]
#[path = "../tests/all/common.rs"]
mod common;

use assessment::fair::{Course, Judge, Path};
use common::{reference_with, solved};
use divan::{Bencher, black_box};
use std::collections::BTreeSet;
use std::time::Instant;
use workings::solved::Solved;
use workings::working::Formula;

/// The chain that a paper asks for.
const CHAIN: [&str; 6] = [
    "shear force at the slice",
    "centroid height",
    "second moment",
    "first moment at the cut",
    "width at the cut",
    "shear stress on the cut",
];

fn main() {
    divan::main();
    beside_solving_anew();
}

#[divan::bench]
fn judge_one_paper(bencher: Bencher<'_, '_>) {
    let papers = reference_with(&[]);
    let (solved, course) = (solved(&papers), Course::of(papers.lesson()));
    bencher.bench_local(|| judge(black_box(&solved), course));
}

#[divan::bench]
fn the_path_of_one_paper(bencher: Bencher<'_, '_>) {
    let solved = solved(&reference_with(&[]));
    bencher.bench_local(|| Path::of(black_box(&solved), &CHAIN));
}

fn judge(solved: &Solved, course: Course) -> f64 {
    let judge = Judge::new(solved, course);
    CHAIN.iter().filter_map(|asked| judge.judge(asked).ok()).map(|judgement| judgement.carried.band).sum()
}

/// The plain alternative: the lesson solved anew for each way of rounding that the two bands look at, and for each mistake
/// in four sets of numbers. That leaves out what it would take to round within the solution.
fn beside_solving_anew() {
    const TIMES: u32 = 50;
    let papers = reference_with(&[]);
    let (paper, course) = (solved(&papers), Course::of(papers.lesson()));
    let start = Instant::now();
    for _ in 0..TIMES {
        black_box(judge(&paper, course));
    }
    let judged = start.elapsed() / TIMES;

    let all = Judge::new(&paper, course);
    let mut solutions = 0;
    for asked in CHAIN {
        let mistakes = all.judge(asked).map_or(0, |judgement| judgement.mistakes);
        // For each step three ways alone, and two more from each of the two farthest patterns; 64 students and four more.
        solutions += 2 * (7 * found_on_the_way(&paper, asked) + 68) + 4 * mistakes;
    }
    let start = Instant::now();
    for _ in 0..TIMES {
        black_box(Solved::new(paper.problem().clone(), paper.style().clone()).is_ok());
    }
    let once = start.elapsed() / TIMES;
    let plain = once * u32::try_from(solutions).unwrap_or(u32::MAX);
    println!(
        "six asked values of a paper judged in {judged:.2?}; {solutions} solutions of {once:.2?} each would take {plain:.2?}: \
         {:.0} times as long",
        plain.as_secs_f64() / judged.as_secs_f64()
    );
}

fn found_on_the_way(solved: &Solved, asked: &str) -> usize {
    let workings = solved.workings();
    let mut way = BTreeSet::new();
    let mut open: Vec<_> = workings.id(asked).into_iter().collect();
    while let Some(id) = open.pop() {
        if workings.working(id).formula != Formula::Given && way.insert(id) {
            open.extend(workings.reads(id));
        }
    }
    way.len()
}
