//! What a lecturer waits for when a class is marked: sheet after sheet of a paper that was prepared once, and the preparation of a
//! paper, which with numbers for each student comes once a sheet.
//!
//! `cargo bench -p assessment --bench mark`

#[path = "../tests/simulated/mod.rs"]
mod simulated;

use assessment::mark::{Answer, Marker};
use divan::{Bencher, black_box};
use simulated::chance::Chance;
use simulated::student::{Deed, Habit, answers, sheet};
use simulated::{Paper, papers};
use std::time::Instant;

const LESSON: &str = include_str!("../tests/lessons/class.toml");

fn main() {
    divan::main();
    // `cargo test` runs benches too, to see that they run.
    if std::env::args().any(|argument| argument == "--bench") {
        a_hundred_thousand_sheets();
    }
}

/// What a paper costs before its first sheet: the mistakes and the rounding, not the setting of the paper itself.
#[divan::bench]
fn prepare_a_paper(bencher: Bencher<'_, '_>) {
    let papers = papers(LESSON, 1);
    bencher.bench_local(|| Marker::new(black_box(&papers[0].set)).is_ok());
}

/// The first sheet of a paper, all of it of no meaning: nothing is found again from a sheet before.
#[divan::bench]
fn the_first_sheet_of_a_paper(bencher: Bencher<'_, '_>) {
    let papers = papers(LESSON, 1);
    let nonsense = Deed::Nonsense { values: (0..papers[0].values.len()).collect() };
    let written = written(&papers[0], &nonsense, &mut Chance(1));
    let mark = |mut marker: Marker<'_>| marker.mark(black_box(&written)).is_ok();
    bencher.with_inputs(|| Marker::new(&papers[0].set).expect("formulas of ours")).bench_local_values(mark);
}

fn written(paper: &Paper, deed: &Deed, chance: &mut Chance) -> Vec<(String, Answer)> {
    let given = answers(paper, Habit::Nothing, deed, chance);
    given.into_iter().map(|given| (given.label, given.answer)).collect()
}

/// Sheets of five and of six answers on some papers: a class as the simulation makes it, two thirds of it with something wrong.
fn a_hundred_thousand_sheets() {
    let conveyor = lesson::builtin::find("conveyor").map(|lesson| lesson.text);
    for text in [Some(LESSON), conveyor].into_iter().flatten() {
        sheets_of(text);
    }
}

fn sheets_of(text: &str) {
    const SHEETS: usize = 100_000;
    const DIFFERENT: usize = 2000;
    for count in [1, 25] {
        let papers = papers(text, count);
        let mut chance = Chance(1);
        // A sheet belongs to a paper; the same sheets come again, since making one takes longer than marking it.
        let sheets: Vec<Vec<(String, Answer)>> = (0..DIFFERENT)
            .map(|at| {
                let given = sheet(&papers[at % papers.len()], &mut chance);
                given.into_iter().map(|given| (given.label, given.answer)).collect()
            })
            .collect();
        let answers: usize = sheets.iter().map(Vec::len).sum::<usize>() * (SHEETS / DIFFERENT);
        let cores = std::thread::available_parallelism().map_or(1, usize::from).min(2);
        let start = Instant::now();
        let marks: f64 = std::thread::scope(|scope| {
            let one = |core: usize| {
                let (papers, sheets) = (&papers, &sheets);
                scope.spawn(move || {
                    let mut markers: Vec<Marker<'_>> =
                        papers.iter().filter_map(|paper| Marker::new(&paper.set).ok()).collect();
                    let mut marks = 0.0;
                    for at in (core..SHEETS).step_by(cores) {
                        let sheet = &sheets[at % DIFFERENT];
                        let marked = markers[at % DIFFERENT % papers.len()].mark(sheet);
                        marks += marked.map_or(0.0, |marked| marked.marks());
                    }
                    marks
                })
            };
            let threads: Vec<_> = (0..cores).map(one).collect();
            threads.into_iter().filter_map(|thread| thread.join().ok()).sum()
        });
        let taken = start.elapsed();
        println!(
            "{SHEETS} sheets, {answers} values on {} papers, {cores} cores: {taken:.2?}, {:.2} µs a value and core; \
             {marks:.0} marks; most memory of the process {}",
            papers.len(),
            taken.as_secs_f64() * 1e6 * cores as f64 / answers as f64,
            memory()
        );
    }
}

/// The most memory that this process had, where the system tells.
fn memory() -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let most = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    most.map_or_else(|| "unknown".to_owned(), |most| most.trim().to_owned())
}
