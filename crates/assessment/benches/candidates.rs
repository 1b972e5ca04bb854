//! What a search for good numbers waits for: a million candidates of a lesson in which six things vary, beside reading and
//! solving each of them.

#[allow(dead_code, reason = "the tests take the rest")]
#[path = "../tests/all/common.rs"]
mod common;

use assessment::candidates::Candidates;
use common::{JETTY, papers};
use divan::{Bencher, black_box};
use lesson::papers::Draw;
use std::time::Instant;

const RESULTS: [&str; 6] = [
    "reaction at A",
    "shear force at the slice",
    "centroid height",
    "second moment",
    "first moment at the cut",
    "shear stress on the cut",
];

fn main() {
    divan::main();
    a_million();
}

fn candidates() -> Candidates {
    Candidates::new(papers(JETTY), &RESULTS).expect("its workings")
}

/// A draw far from the one before.
fn far(candidates: &Candidates, at: u128, draw: &mut Draw) {
    candidates.space().set(at * 618_033_989 % candidates.space().size().count, draw);
}

#[divan::bench]
fn evaluate_a_candidate(bencher: Bencher<'_, '_>) {
    let candidates = candidates();
    let mut worker = candidates.worker();
    let mut draw = Draw { choices: Vec::new() };
    let mut at = 0;
    // Tables filled and graphs kept, as they are after the first thousands.
    for at in 0..20_000 {
        far(&candidates, at, &mut draw);
        worker.evaluate(&draw);
    }
    bencher.bench_local(|| {
        at += 1;
        far(&candidates, at, &mut draw);
        worker.evaluate(black_box(&draw)).map(|found| found.values[5])
    });
}

#[divan::bench]
fn read_and_solve_a_candidate(bencher: Bencher<'_, '_>) {
    let candidates = candidates();
    let mut draw = Draw { choices: Vec::new() };
    let mut at = 0;
    bencher.bench_local(|| {
        at += 1;
        far(&candidates, at, &mut draw);
        candidates.solved(black_box(&draw)).map(|solved| solved.value(solved.key().stress_on_cut))
    });
}

/// All the work of a search, from the text on: tables and graphs included.
fn a_million() {
    const COUNT: u128 = 1_000_000;
    const THREADS: u128 = 2;
    const READ: u128 = 500;
    let start = Instant::now();
    let candidates = candidates();
    let work = |thread: u128| {
        let mut worker = candidates.worker();
        let mut draw = Draw { choices: Vec::new() };
        let mut meet = 0;
        for at in (0..COUNT).filter(|at| at % THREADS == thread) {
            far(&candidates, at, &mut draw);
            meet += u64::from(worker.evaluate(&draw).is_some_and(|found| found.meets));
        }
        (meet, worker.read_and_solved())
    };
    let (meet, read) = std::thread::scope(|scope| {
        let threads: Vec<_> = (0..THREADS).map(|thread| scope.spawn(move || work(thread))).collect();
        threads
            .into_iter()
            .filter_map(|thread| thread.join().ok())
            .fold((0, 0), |a, b| (a.0 + b.0, a.1 + b.1))
    });
    let evaluated = start.elapsed();
    let start = Instant::now();
    let mut draw = Draw { choices: Vec::new() };
    for at in 0..READ {
        far(&candidates, at, &mut draw);
        black_box(candidates.solved(&draw));
    }
    let each = start.elapsed().as_secs_f64() / READ as f64;
    // Of one thread's time, so that the threads do not flatter the ratio.
    let own = evaluated.as_secs_f64() * THREADS as f64 / COUNT as f64;
    println!(
        "{COUNT} candidates on {THREADS} threads: {evaluated:.2?}, {meet} meet the requirements, {read} had to be read; \
         {:.2} us each and thread, reading and solving {:.0} us each: {:.0} times as long",
        own * 1e6,
        each * 1e6,
        each / own
    );
}
