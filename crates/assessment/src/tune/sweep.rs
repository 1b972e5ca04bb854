//! Going over the space: every draw evaluated, the roundest kept.

use super::score::{Results, Score};
use crate::candidates::{Candidates, Worker};
use crate::chance::Chance;
use crate::cores;
use crate::space::Space;
use lesson::papers::Draw;
use std::collections::BinaryHeap;
use std::sync::atomic::{AtomicU64, Ordering};

/// How much may be looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Effort {
    /// The most draws that are looked at: some seconds of evaluation.
    most: u64,
    /// The most draws that are read and solved, some ten seconds of it, where draws cannot be evaluated otherwise.
    most_read: u64,
    /// Draws that are evaluated to see how many of a lesson's must be read.
    probe: u64,
    threads: usize,
}

impl Effort {
    /// As much as a lecturer waits for, on all cores.
    pub(super) fn usual() -> Self {
        let threads = cores::count();
        Self { most: 2_000_000, most_read: 30_000, probe: 1_000, threads }
    }
}

/// How many draws a thread takes at once.
const BLOCK: u64 = 1_024;

/// How many draws by chance stand for the whole space.
const SOME: u64 = 24;

/// Which draws are looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Range {
    count: u64,
    /// Whether they are all that there are, in their order; else they are drawn by chance.
    all: bool,
}

impl Range {
    /// The draw of a number below the count; whether there is one.
    fn set(self, space: &Space, at: u64, draw: &mut Draw) -> bool {
        if self.all {
            return space.set(u128::from(at), draw);
        }
        let mut chance = Chance::numbered(at);
        draw.choices.clear();
        draw.choices.extend(space.counts().iter().map(|&count| chance.below(count)));
        true
    }
}

/// What going over the space found.
#[derive(Clone, Debug, Default)]
pub(super) struct Swept {
    /// The roundest draws of those that are sound and meet the requirements, from the roundest.
    pub(super) best: Vec<(Score, Draw)>,
    pub(super) counts: Counts,
}

/// A draw among the best, as it stands to others: the roundest first, equally round ones in no order that favours a choice,
/// so that those which are kept come from all over the space.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Kept {
    score: Score,
    shuffled: u64,
    draw: Draw,
}

impl Kept {
    fn new(score: Score, draw: &Draw) -> Self {
        let mix = |mixed: u64, &choice: &usize| Chance::numbered(mixed ^ choice as u64).bits();
        Self { score, shuffled: draw.choices.iter().fold(0, mix), draw: draw.clone() }
    }
}

/// How many draws there were.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Counts {
    pub(super) looked_at: u64,
    /// Those that are no sound lesson.
    pub(super) unsound: u64,
    /// Those that do not meet the requirements.
    pub(super) unmet: u64,
    /// Of the others, those with a result asked for that is not exact in the course's figures.
    pub(super) long: u64,
    /// The same for each of these results.
    pub(super) long_by_result: Vec<u64>,
}

impl Counts {
    fn add(&mut self, other: &Self) {
        self.looked_at += other.looked_at;
        self.unsound += other.unsound;
        self.unmet += other.unmet;
        self.long += other.long;
        self.long_by_result.resize(self.long_by_result.len().max(other.long_by_result.len()), 0);
        for (sum, count) in self.long_by_result.iter_mut().zip(&other.long_by_result) {
            *sum += count;
        }
    }
}

/// Looks at the draws of a lesson, on all cores, and keeps the roundest. What is found is the same in every run, whatever
/// the number of cores.
pub(super) fn sweep(candidates: &Candidates, results: &Results, keep: usize, effort: Effort) -> Swept {
    let range = range(candidates, effort);
    let next = AtomicU64::new(0);
    let mut best: Vec<Kept> = Vec::new();
    let mut counts = Counts::default();
    std::thread::scope(|scope| {
        let sweeper = || Sweeper::new(candidates, results, keep).over(range, &next);
        let others: Vec<_> = (1..effort.threads).map(|_| scope.spawn(sweeper)).collect();
        let own = sweeper();
        // What a thread that failed was to look at is missing from the counts, which say how many were looked at.
        for swept in others.into_iter().filter_map(|thread| thread.join().ok()).chain([own]) {
            best.extend(swept.0);
            counts.add(&swept.1);
        }
    });
    best.sort();
    best.dedup();
    best.truncate(keep);
    Swept { best: best.into_iter().map(|kept| (kept.score, kept.draw)).collect(), counts }
}

/// Some draws by chance, scored as if nothing was known of them: what holds for them holds for more than the roundest.
pub(super) fn any(candidates: &Candidates) -> Vec<(Score, Draw)> {
    let range = Range { count: SOME, all: false };
    let mut worker = candidates.worker();
    let draw = |at| {
        let mut draw = Draw { choices: Vec::new() };
        range.set(candidates.space(), at, &mut draw);
        draw
    };
    let sound =
        (0..range.count).map(draw).filter(|draw| worker.evaluate(draw).is_some_and(|found| found.meets));
    sound.map(|draw| (Score::default(), draw)).collect()
}

/// Which draws there is time for.
fn range(candidates: &Candidates, effort: Effort) -> Range {
    let size = candidates.space().size().count;
    let mut count = u64::try_from(size).unwrap_or(u64::MAX).min(effort.most);
    if candidates.tables() > u128::from(effort.most_read) {
        count = count.min(effort.most_read);
    }
    if count > effort.probe {
        let mut worker = candidates.worker();
        let mut draw = Draw { choices: Vec::new() };
        let probe = Range { count: effort.probe, all: false };
        let mut read = 0;
        for at in 0..effort.probe {
            if at == effort.probe / 2 {
                // What is read once for all draws that are like it has been read by now.
                read = worker.read_and_solved();
            }
            if probe.set(candidates.space(), at, &mut draw) {
                worker.evaluate(&draw);
            }
        }
        let read = worker.read_and_solved() - read;
        count = count.min(effort.most_read * (effort.probe / 2) / read.max(1));
    }
    Range { count, all: u128::from(count) == size }
}

/// Goes over draws, for one thread.
struct Sweeper<'a> {
    candidates: &'a Candidates,
    results: &'a Results,
    worker: Worker<'a>,
    keep: usize,
    /// The worst of the best on top.
    best: BinaryHeap<Kept>,
    counts: Counts,
}

impl<'a> Sweeper<'a> {
    fn new(candidates: &'a Candidates, results: &'a Results, keep: usize) -> Self {
        Self {
            candidates,
            results,
            worker: candidates.worker(),
            keep,
            best: BinaryHeap::with_capacity(keep + 1),
            counts: Counts { long_by_result: vec![0; results.asked], ..Counts::default() },
        }
    }

    fn over(mut self, range: Range, next: &AtomicU64) -> (Vec<Kept>, Counts) {
        let mut draw = Draw { choices: Vec::new() };
        loop {
            let first = next.fetch_add(BLOCK, Ordering::Relaxed);
            if first >= range.count {
                break;
            }
            for at in first..range.count.min(first + BLOCK) {
                if range.set(self.candidates.space(), at, &mut draw) {
                    self.look(&draw);
                }
            }
        }
        (self.best.into_vec(), self.counts)
    }

    fn look(&mut self, draw: &Draw) {
        let counts = &mut self.counts;
        counts.looked_at += 1;
        let Some(found) = self.worker.evaluate(draw) else {
            counts.unsound += 1;
            return;
        };
        if !found.meets {
            counts.unmet += 1;
            return;
        }
        let full = self.best.len() >= self.keep;
        let worst = if full { self.best.peek().map(|kept| kept.score) } else { None };
        let mut long = false;
        let score = self.results.score(found.values, worst, |at| {
            long = true;
            if let Some(count) = counts.long_by_result.get_mut(at) {
                *count += 1;
            }
        });
        counts.long += u64::from(long);
        let Some(score) = score else { return };
        let kept = Kept::new(score, draw);
        if !full {
            self.best.push(kept);
        } else if let Some(mut worst) = self.best.peek_mut()
            && kept < *worst
        {
            *worst = kept;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use lesson::papers::Papers;
    use std::collections::BTreeSet;
    use workings::rounding::Figures;

    /// 1000 draws of a beam whose load passes the slice.
    const LESSON: &str = r#"
title = "A beam"
units = "metric"
[values]
P = "6 kN"
a = "1 m"
d = "200 mm"
[vary]
P = { from = "3 kN", to = "7.5 kN", step = "0.5 kN" }
a = { from = "0.6 m", to = "2.4 m", step = "0.2 m" }
d = { from = "120 mm", to = "210 mm", step = "10 mm" }
[beam]
length = "4 m"
supports = [{ pin = "0 m", name = "A" }, { roller = "4 m", name = "B" }]
loads = [{ force = "P", at = "a" }]
[material]
E = "12 GPa"
[section]
shape = "rectangle"
width = "100 mm"
height = "d"
[slice]
at = "1.2 m"
length = "40 mm"
[cut]
at = "neutral axis"
"#;

    fn swept(effort: Effort) -> Swept {
        let papers = Papers::read(LESSON, "test.toml").expect("a sound lesson");
        let names = ["reaction at A", "shear stress on the cut"];
        let candidates = Candidates::new(papers, &names).expect("its workings");
        let solved = candidates.solved(&Draw { choices: vec![0; 3] }).expect("sound");
        let results = Results::new(&solved, &names.map(str::to_owned), &[], Figures::ThreeOrFour);
        sweep(&candidates, &results, 40, effort)
    }

    const ALL: Effort = Effort { most: 5_000, most_read: 5_000, probe: 50, threads: 1 };

    #[test]
    fn any_number_of_threads_finds_the_same() {
        let one = swept(ALL);
        assert_eq!((one.counts.looked_at, one.best.len()), (1_000, 40));
        assert!(one.best.windows(2).all(|pair| pair[0].0 <= pair[1].0));
        for threads in [2, 3] {
            let other = swept(Effort { threads, ..ALL });
            assert_eq!((&one.best, &one.counts), (&other.best, &other.counts));
        }
    }

    #[test]
    fn of_equally_round_draws_those_that_are_kept_come_from_all_over() {
        let papers = Papers::read(LESSON, "test.toml").expect("a sound lesson");
        let candidates = Candidates::new(papers, &["length of the beam"]).expect("its workings");
        let solved = candidates.solved(&Draw { choices: vec![0; 3] }).expect("sound");
        // 4 m in every draw: all are equally round.
        let results = Results::new(&solved, &["length of the beam".to_owned()], &[], Figures::ThreeOrFour);
        let found = sweep(&candidates, &results, 40, ALL);
        for axis in 0..3 {
            let choices: BTreeSet<usize> = found.best.iter().map(|(_, draw)| draw.choices[axis]).collect();
            assert!(choices.len() > 5, "{choices:?}");
        }
    }

    /// By hand: the reaction is P (4 - a)/4 kN with P in halves and a in fifths, so it always ends, in three figures after
    /// the first; tau = 1.5 V/(100 d) has d in it.
    #[test]
    fn a_part_of_the_draws_is_drawn_by_chance_and_is_the_same_each_time() {
        let some = Effort { most: 200, ..ALL };
        let found = swept(some);
        assert_eq!(found.counts.looked_at, 200);
        assert_eq!(found.counts, swept(Effort { threads: 2, ..some }).counts);
        // So it is where more would have to be read: the section, the force and its place have ten choices each.
        let few = swept(Effort { most_read: 20, ..ALL });
        assert_eq!(few.counts.looked_at, 20);
        // The roundest of the part are no rounder than those of all.
        assert!(swept(ALL).best[0].0 <= found.best[0].0);
    }
}
