//! The roundest draws, read, solved and judged.

use super::census::{Census, HiddenBy};
use super::score::{Results, Score};
use crate::candidates::Candidates;
use crate::cores;
use crate::fair::{Class, Course, Hides, Judge, Paper, Path, Reason, hidden_on_all, verdict};
use lesson::papers::Draw;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::atomic::{AtomicUsize, Ordering};

/// A draw, judged.
#[derive(Clone, Debug)]
pub(super) struct Judged {
    pub(super) score: Score,
    pub(super) draw: Draw,
    pub(super) paper: Paper,
    /// The values of all results, SI, with the way in which the course shows them.
    pub(super) values: Vec<(f64, String)>,
    /// What stands against it.
    pub(super) reasons: Vec<Reason>,
}

impl Judged {
    /// How many pairs of mistakes other numbers would tell apart.
    pub(super) fn alike(&self) -> usize {
        self.paper.judgements.iter().map(|judgement| judgement.alike_by_numbers().count()).sum()
    }

    /// The right values of what is asked for, SI.
    pub(super) fn asked_values(&self) -> Vec<f64> {
        self.paper.judgements.iter().map(|judgement| judgement.right).collect()
    }

    /// The band of rounding on the way over the tolerance, of the worst of its results.
    fn carried(&self) -> f64 {
        let over = |judgement: &crate::fair::Judgement| judgement.carried.band / judgement.tolerance;
        self.paper.judgements.iter().map(over).fold(0.0, f64::max)
    }
}

/// The judged draws, those that fit and those that do not, each from the best.
#[derive(Debug, Default)]
pub(super) struct Ranked {
    pub(super) fits: Vec<Judged>,
    pub(super) misses: Vec<Judged>,
}

/// Reads, solves and judges draws, on all cores.
pub(super) fn judge(
    candidates: &Candidates,
    results: &Results,
    asked: &[&str],
    draws: &[(Score, Draw)],
) -> Vec<Judged> {
    let next = AtomicUsize::new(0);
    let threads = cores::count();
    let mut all: Vec<Judged> = Vec::with_capacity(draws.len());
    std::thread::scope(|scope| {
        let work = || {
            let mut own = Vec::new();
            while let Some((score, draw)) = draws.get(next.fetch_add(1, Ordering::Relaxed)) {
                own.extend(one(candidates, results, asked, (*score, draw)));
            }
            own
        };
        let others: Vec<_> = (1..threads).map(|_| scope.spawn(work)).collect();
        let own = work();
        all.extend(others.into_iter().filter_map(|thread| thread.join().ok()).flatten().chain(own));
    });
    all.sort_by(|one, other| (one.score, &one.draw).cmp(&(other.score, &other.draw)));
    all
}

/// `None` where it is no sound lesson after all, or lacks what is asked for.
fn one(
    candidates: &Candidates,
    results: &Results,
    asked: &[&str],
    (score, draw): (Score, &Draw),
) -> Option<Judged> {
    let reading = candidates.papers().reading(draw).ok()?;
    let (lesson, solved) = reading.lesson.zip(reading.solved)?;
    let judge = Judge::new(&solved, Course::of(&lesson)).beside(&lesson.mistakes);
    let judgements = asked.iter().map(|name| judge.judge(name).ok()).collect::<Option<Vec<_>>>()?;
    let path = Path::of(&solved, asked);
    let shown = |name: &String| match solved.workings().get(name) {
        Some(working) => (working.value.value, solved.style().text(working.value, working.symbol.role)),
        None => (f64::NAN, String::new()),
    };
    Some(Judged {
        score,
        draw: draw.clone(),
        values: results.names.iter().map(shown).collect(),
        reasons: verdict(&judgements, &path, None).reasons,
        paper: Paper {
            label: candidates.papers().words(draw).join(", "),
            variant: candidates.papers().variant(draw),
            path,
            judgements,
        },
    })
}

/// Parts those that fit from the others, counts what stands against these, and puts the best first: the roundest, of equally
/// round ones those with the fewest mistakes that cannot be told apart, then those that rounding changes least.
///
/// `any` are draws that were not chosen: a mistake that hides there as well hides whatever is drawn, and does not count.
/// Those that fit and are of one variant all go one way to the answers: the one that the most of the `count` best can go.
pub(super) fn rank(mut judged: Vec<Judged>, any: Vec<Judged>, count: usize, census: &mut Census) -> Ranked {
    census.judged = judged.len() as u64;
    let papers: Vec<Paper> = judged.iter().chain(&any).map(|judged| judged.paper.clone()).collect();
    let always = hidden_on_all(&papers);
    for judged in &mut judged {
        judged.reasons.retain(|reason| match reason {
            Reason::HiddenMistake { working, mistake, made_at } => {
                let hides =
                    |one: &Hides| (&one.working, &one.mistake, &one.made_at) == (working, mistake, made_at);
                !always.iter().any(hides)
            }
            Reason::HiddenSlip { working, slip } => {
                !always.iter().any(|one| (&one.working, &one.mistake) == (working, slip))
            }
            _ => true,
        });
    }
    count_reasons(&judged, census);
    census.hidden_on_all = always.iter().cloned().collect();
    let (mut sound, mut misses): (Vec<Judged>, Vec<Judged>) =
        judged.into_iter().partition(|judged| judged.reasons.is_empty() && judged.score.asked_long == 0);
    let rank = |judged: &Judged| (judged.score, judged.alike());
    sound.sort_by(|one, other| {
        let rounding = || one.carried().total_cmp(&other.carried());
        rank(one).cmp(&rank(other)).then_with(rounding).then_with(|| one.draw.cmp(&other.draw))
    });
    let classes = classes(&sound, count, &always);
    let mut fits = Vec::with_capacity(sound.len());
    for mut judged in sound {
        let class = classes.get(&judged.paper.variant);
        judged.reasons = verdict(&judged.paper.judgements, &judged.paper.path, class).reasons;
        if judged.reasons.is_empty() {
            fits.push(judged);
        } else {
            census.unlike += 1;
            misses.push(judged);
        }
    }
    census.fit = fits.len() as u64;
    let distance = |judged: &Judged| (judged.reasons.len() + judged.score.asked_long as usize, judged.score);
    misses.sort_by(|one, other| distance(one).cmp(&distance(other)).then_with(|| one.draw.cmp(&other.draw)));
    Ranked { fits, misses }
}

/// Of those that fit, from the best, so many that differ as far as they can: the best, and then of those with as few values on the way that are
/// not exact always the one whose choices are the least frequent among those taken; of equally frequent ones the better. They come from the best.
pub(super) fn spread(fits: Vec<Judged>, count: usize) -> Vec<Judged> {
    let mut left: Vec<(usize, Judged)> = fits.into_iter().enumerate().collect();
    let mut taken: Vec<(usize, Judged)> = Vec::new();
    let mut frequent: BTreeMap<(usize, usize), usize> = BTreeMap::new();
    while taken.len() < count {
        let repeats = |judged: &Judged| -> usize {
            let choices = judged.draw.choices.iter().copied().enumerate();
            choices.map(|choice| frequent.get(&choice).copied().unwrap_or(0)).sum()
        };
        let best = left.iter().enumerate();
        let best = best.min_by_key(|(_, (rank, judged))| (judged.score.way_long, repeats(judged), *rank));
        let Some((place, _)) = best else { break };
        let next = left.remove(place);
        for choice in next.1.draw.choices.iter().copied().enumerate() {
            *frequent.entry(choice).or_default() += 1;
        }
        taken.push(next);
    }
    taken.sort_by_key(|(rank, _)| *rank);
    taken.into_iter().map(|(_, judged)| judged).collect()
}

/// What stands against the round ones.
fn count_reasons(judged: &[Judged], census: &mut Census) {
    let mut hidden: BTreeMap<(&str, &str), u64> = BTreeMap::new();
    for judged in judged.iter().filter(|judged| judged.score.asked_long == 0) {
        let any = |is: fn(&Reason) -> bool| u64::from(judged.reasons.iter().any(is));
        census.round += 1;
        census.hidden +=
            any(|reason| matches!(reason, Reason::HiddenMistake { .. } | Reason::HiddenSlip { .. }));
        census.carried += any(|reason| matches!(reason, Reason::CarriedTooFar { .. }));
        census.ill_conditioned += any(|reason| matches!(reason, Reason::IllConditioned { .. }));
        let hides = judged.reasons.iter().filter_map(|reason| match reason {
            Reason::HiddenMistake { working, mistake, .. } => Some((mistake.as_str(), working.as_str())),
            Reason::HiddenSlip { working, slip } => Some((slip.as_str(), working.as_str())),
            _ => None,
        });
        // Made at two workings it is still one mistake.
        for pair in hides.collect::<BTreeSet<_>>() {
            *hidden.entry(pair).or_default() += 1;
        }
    }
    let told = hidden.into_iter().map(|((mistake, result), count)| HiddenBy {
        mistake: mistake.to_owned(),
        result: result.to_owned(),
        count,
    });
    census.hidden_by = told.collect();
    census.hidden_by.sort_by_key(|hidden| std::cmp::Reverse(hidden.count));
}

/// The class of each variant.
fn classes(ranked: &[Judged], count: usize, always: &BTreeSet<Hides>) -> BTreeMap<String, Class> {
    let mut by_variant: BTreeMap<&str, Vec<&Judged>> = BTreeMap::new();
    for judged in ranked {
        by_variant.entry(&judged.paper.variant).or_default().push(judged);
    }
    let found = by_variant.into_iter();
    found.filter_map(|(variant, all)| Some((variant.to_owned(), class(&all, count, always)?))).collect()
}

/// The class that the best can make: of the ways to the answers the one that most of them go, as far as so many are wanted;
/// of equally good ones that of the better.
fn class(ranked: &[&Judged], count: usize, always: &BTreeSet<Hides>) -> Option<Class> {
    let mut ways: BTreeMap<&Path, usize> = BTreeMap::new();
    for judged in ranked {
        let goes = ways.entry(&judged.paper.path).or_default();
        *goes = count.min(*goes + 1);
    }
    let most = *ways.values().max()?;
    let best = ranked.iter().find(|judged| ways.get(&judged.paper.path) == Some(&most))?;
    let same = ranked.iter().filter(|judged| judged.paper.path == best.paper.path);
    let papers: Vec<Paper> = same.map(|judged| judged.paper.clone()).collect();
    Class::of(&papers).map(|class| Class { hidden_on_all: always.clone(), ..class })
}
