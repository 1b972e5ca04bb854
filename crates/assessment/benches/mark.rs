//! What a lecturer waits for when a class is marked: sheet after sheet of a paper that was prepared once, and the preparation of a
//! paper, which with numbers for each student comes once a sheet.
//!
//! `cargo bench -p assessment --bench mark`

#[allow(dead_code, reason = "the tests take the rest")]
#[path = "../tests/all/simulated/mod.rs"]
mod simulated;

use assessment::mark::{Answer, Marker, Written};
use assessment::set::{Ask, Part, SetPaper};
use assessment::space::Space;
use divan::{Bencher, black_box};
use lesson::papers::Papers;
use simulated::chance::Chance;
use simulated::student::{Deed, Habit, answers, sheet};
use simulated::{Paper, papers};
use std::time::Instant;

const LESSON: &str = include_str!("../tests/lessons/class.toml");

fn main() {
    divan::main();
    a_hundred_thousand_sheets();
    numbers_of_their_own();
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

/// Every student with a paper of their own: each sheet is the first and the only one of its paper, whose marker is prepared for it and
/// dropped after it. What a paper costs before (it is read, solved and set) is told beside it, since `glueline mark` does that too.
fn numbers_of_their_own() {
    const PAPERS: u32 = 1000;
    let conveyor = lesson::builtin::find("conveyor").map(|lesson| lesson.text);
    for text in [Some(LESSON), conveyor].into_iter().flatten() {
        let cores = std::thread::available_parallelism().map_or(1, usize::from).min(2);
        let texts = draws(text, PAPERS);
        let (setting, sets) = on_cores(cores, &texts, |text| {
            let reading = lesson::read(text, "class.toml");
            let (lesson, solved) = reading.lesson.zip(reading.solved)?;
            SetPaper::new(lesson, solved).ok()
        });
        let mut chance = Chance(2);
        let sheets: Vec<(SetPaper, Vec<(String, Answer)>)> = sets
            .into_iter()
            .map(|set| {
                let given = right_or_wrong(&set, &mut chance);
                (set, given)
            })
            .collect();
        let (marking, marks) =
            on_cores(cores, &sheets, |(set, sheet)| Some(Marker::new(set).ok()?.mark(sheet).ok()?.marks()));
        println!(
            "{} sheets, each on a paper of its own, {cores} cores: marked in {marking:.2?}, {:.0} µs a sheet and core; read, solved and \
             set before in {setting:.2?}, {:.1} ms a paper and core; {:.0} marks; most memory of the process {}",
            sheets.len(),
            marking.as_secs_f64() * 1e6 * cores as f64 / sheets.len() as f64,
            setting.as_secs_f64() * 1e3 * cores as f64 / sheets.len() as f64,
            marks.iter().sum::<f64>(),
            memory()
        );
    }
}

/// The texts of different papers of a lesson.
fn draws(text: &str, count: u32) -> Vec<String> {
    let papers = Papers::read(text, "class.toml").unwrap_or_else(|_| panic!("a sound lesson"));
    let space = Space::of(papers.lesson());
    let all: u128 = space.counts().iter().map(|&count| count as u128).product();
    (0..u128::from(count)).filter_map(|at| papers.text(&space.draw((at * 0x9e37_79b9) % all)?).ok()).collect()
}

/// The right values, and for one in three what a known mistake leads to or a number of no meaning.
fn right_or_wrong(set: &SetPaper, chance: &mut Chance) -> Vec<(String, Answer)> {
    let answer = |part: &Part| {
        let Ask::Value(value) = &part.ask else { return None };
        let number = match (chance.below(6), value.mistakes.as_slice()) {
            (0, [known, ..]) => known.value,
            (1, _) => 1.37 * value.right,
            _ => value.right,
        };
        let written = Written::new(number, Some(5e-4 * number.abs()).filter(|half| *half > 0.0))?;
        Some((part.label.clone(), Answer::Value(written)))
    };
    set.parts().filter_map(answer).collect()
}

/// What becomes of all of these on some cores, in their order, and how long it took.
fn on_cores<T: Sync, R: Send>(
    cores: usize,
    all: &[T],
    of: impl Fn(&T) -> Option<R> + Sync,
) -> (std::time::Duration, Vec<R>) {
    let start = Instant::now();
    let found = std::thread::scope(|scope| {
        let of = &of;
        let one = |part| scope.spawn(move || <[T]>::iter(part).filter_map(of).collect::<Vec<R>>());
        let threads: Vec<_> = all.chunks(all.len().div_ceil(cores).max(1)).map(one).collect();
        threads.into_iter().filter_map(|thread| thread.join().ok()).flatten().collect()
    });
    (start.elapsed(), found)
}

/// The most memory that this process had, where the system tells.
fn memory() -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let most = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    most.map_or_else(|| "unknown".to_owned(), |most| most.trim().to_owned())
}
