//! The papers of a class side by side.

use super::judge::Judgement;
use super::mistakes::Wrong;
use super::path::{Feature, Path};
use super::slips::Taken;
use super::verdict::Class;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// A paper, judged.
#[derive(Clone, Debug, PartialEq)]
pub struct Paper {
    /// What it is called in the table: the number of a paper, the letter of a form.
    pub label: String,
    /// What of the variants of the lesson it has: `the section: a T`; empty where it has none.
    pub variant: String,
    /// The way to its answers.
    pub path: Path,
    /// One for each asked working, in the order of the questions.
    pub judgements: Vec<Judgement>,
}

/// A mistake, or a slip alone, that gives the right value of a result.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Hides {
    /// The name of the asked working.
    pub working: String,
    /// The id of the mistake or the slip.
    pub mistake: String,
    /// The name of the working at which it is made.
    pub made_at: String,
}

impl Hides {
    pub(super) fn new(working: &str, wrong: &Wrong) -> Self {
        Self { working: working.to_owned(), mistake: wrong.mistake.clone(), made_at: wrong.made_at.clone() }
    }

    /// A slip that is taken as right: it befalls the asked value itself.
    pub(super) fn slip(working: &str, taken: &Taken) -> Self {
        Self { working: working.to_owned(), mistake: taken.slip.clone(), made_at: working.to_owned() }
    }
}

/// The mistakes that are hidden on every one of several papers: what varies does not show them. Of a single paper nothing is
/// known of what could vary.
pub fn hidden_on_all(papers: &[Paper]) -> BTreeSet<Hides> {
    let hidden = |paper: &Paper| -> BTreeSet<Hides> {
        let of = |judgement: &Judgement| -> Vec<Hides> {
            let working = &judgement.working;
            let mistakes = judgement.hidden.iter().map(|hidden| Hides::new(working, &hidden.wrong));
            mistakes.chain(judgement.slips.taken.iter().map(|taken| Hides::slip(working, taken))).collect()
        };
        paper.judgements.iter().flat_map(of).collect()
    };
    match papers {
        [first, others @ ..] if !others.is_empty() => {
            others.iter().fold(hidden(first), |all, paper| &all & &hidden(paper))
        }
        _ => BTreeSet::new(),
    }
}

/// Two mistakes that give one value of a result, as far as the tolerance can tell.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct SamePair {
    /// The name of the asked working.
    pub working: String,
    /// The ids of both, in their order.
    pub mistakes: [String; 2],
}

/// The pairs of mistakes of a paper that give one value and that other numbers would tell apart.
pub fn pairs_alike(paper: &Paper) -> BTreeSet<SamePair> {
    let of = |judgement: &Judgement| -> Vec<SamePair> {
        let pairs = judgement.alike_by_numbers().map(|alike| {
            let mut mistakes = [alike.one.mistake.clone(), alike.other.mistake.clone()];
            mistakes.sort();
            SamePair { working: judgement.working.clone(), mistakes }
        });
        pairs.collect()
    };
    paper.judgements.iter().flat_map(of).collect()
}

/// A pair of mistakes that give one value, and on how many papers.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PairAlike {
    /// The pair.
    #[serde(flatten)]
    pub pair: SamePair,
    /// On so many papers.
    pub papers: usize,
}

/// The papers of one variant of the lesson.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct VariantRow {
    /// The variant in words: `the section: a T`.
    pub variant: String,
    /// How many papers there are.
    pub papers: usize,
    /// The median of the condition numbers of each asked working, in the order of the questions.
    pub conditions: Vec<f64>,
}

/// The least, the median and the most of a measure over the papers.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Extent {
    /// The least.
    pub min: f64,
    /// The middle one; of an even number the mean of the two in the middle.
    pub median: f64,
    /// The most.
    pub max: f64,
}

impl Extent {
    fn of(mut all: Vec<f64>) -> Option<Self> {
        let median = median(&mut all)?;
        Some(Self { min: *all.first()?, median, max: *all.last()? })
    }
}

/// The median; the values are sorted. None of none.
pub(super) fn median(all: &mut [f64]) -> Option<f64> {
    all.sort_by(f64::total_cmp);
    let upper = *all.get(all.len() / 2)?;
    if all.len() % 2 == 1 { Some(upper) } else { Some(0.5 * (all.get(all.len() / 2 - 1)? + upper)) }
}

/// The measures of one asked working over the papers.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Row {
    /// The name of the working.
    pub working: String,
    /// The right value, SI.
    pub right: Extent,
    /// How far an answer may be off, SI.
    pub half_width: Extent,
    /// The band that rounding on the way carries the value through, over the tolerance of the course: fair up to 1.
    pub carried: Extent,
    /// The condition number.
    pub condition: Extent,
    /// How many mistakes are hidden behind the right value, those hidden by structure among them.
    pub hidden: Extent,
    /// How many pairs of mistakes cannot be told apart, those alike by structure among them.
    pub alike: Extent,
    /// How many mistakes there are after which a slip leads back to the right value.
    pub slipped_back: Extent,
    /// How many mistakes there are that lead to where a slip of the right value, or of another mistake, leads.
    pub slip_or_mistake: Extent,
}

/// Papers of which one has the right answer of another: whoever copies it is not found out.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SharedAnswer {
    /// The name of the working.
    pub working: String,
    /// The papers, from the smallest value to the largest: each is tied to a neighbour.
    pub papers: Vec<String>,
}

/// A paper that goes another way than the class.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct OtherWay {
    /// The paper.
    pub paper: String,
    /// In what its way differs.
    pub features: Vec<Feature>,
}

/// The papers of a class side by side: what a review prints.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ClassTable {
    /// How many papers there are.
    pub papers: usize,
    /// The digest of the path that most papers take; nothing where there is no paper.
    pub path: String,
    /// One for each asked working, in the order of the questions.
    pub rows: Vec<Row>,
    /// Papers that share an answer, in the order of the questions.
    pub shared: Vec<SharedAnswer>,
    /// Papers that go another way than most of their variant, in the order in which they were given.
    pub other_ways: Vec<OtherWay>,
    /// The papers of each variant, where the lesson has any.
    pub variants: Vec<VariantRow>,
    /// Pairs of mistakes that give one value on some papers, though other numbers would tell them apart; in the order of the questions,
    /// those on the most papers first.
    pub alike: Vec<PairAlike>,
    /// Mistakes that no paper shows: the lesson would have to be another one.
    pub hidden_on_all: Vec<Hides>,
}

impl ClassTable {
    /// Of these papers.
    pub fn of(papers: &[Paper]) -> Self {
        let Some(class) = Class::of(papers) else { return Self::default() };
        let mut by_variant: BTreeMap<&str, Vec<Paper>> = BTreeMap::new();
        for paper in papers {
            by_variant.entry(&paper.variant).or_default().push(paper.clone());
        }
        let classes: BTreeMap<&str, Class> =
            by_variant.iter().filter_map(|(variant, papers)| Some((*variant, Class::of(papers)?))).collect();
        let mut names: Vec<&str> = Vec::new();
        let mut by_name: BTreeMap<&str, Vec<(&Paper, &Judgement)>> = BTreeMap::new();
        for paper in papers {
            for judgement in &paper.judgements {
                let all = by_name.entry(&judgement.working).or_default();
                if all.is_empty() {
                    names.push(&judgement.working);
                }
                all.push((paper, judgement));
            }
        }
        let judged = || names.iter().filter_map(|name| Some((*name, by_name.get(name)?)));
        let other_ways = papers.iter().filter_map(|paper| {
            let features = paper.path.differs(&classes.get(paper.variant.as_str())?.path);
            (!features.is_empty()).then(|| OtherWay { paper: paper.label.clone(), features })
        });
        Self {
            papers: papers.len(),
            path: class.path.digest().to_owned(),
            rows: judged().filter_map(|(name, all)| row(name, all)).collect(),
            shared: judged().flat_map(|(name, all)| shared(name, all)).collect(),
            other_ways: other_ways.collect(),
            variants: by_variant
                .iter()
                .filter(|(variant, _)| !variant.is_empty())
                .map(|(variant, papers)| variant_row(variant, papers, &names))
                .collect(),
            alike: alike(papers, &names),
            hidden_on_all: class.hidden_on_all.into_iter().collect(),
        }
    }
}

fn variant_row(variant: &str, papers: &[Paper], names: &[&str]) -> VariantRow {
    let condition = |name: &&str| {
        let own = papers.iter().flat_map(|paper| &paper.judgements);
        let own = own.filter(|judgement| judgement.working == **name).map(|judgement| judgement.condition);
        median(&mut own.collect::<Vec<f64>>()).unwrap_or(f64::NAN)
    };
    VariantRow {
        variant: variant.to_owned(),
        papers: papers.len(),
        conditions: names.iter().map(condition).collect(),
    }
}

fn alike(papers: &[Paper], names: &[&str]) -> Vec<PairAlike> {
    let mut counts: BTreeMap<SamePair, usize> = BTreeMap::new();
    for pair in papers.iter().flat_map(pairs_alike) {
        *counts.entry(pair).or_default() += 1;
    }
    let mut all: Vec<PairAlike> =
        counts.into_iter().map(|(pair, papers)| PairAlike { pair, papers }).collect();
    let place = |of: &PairAlike| names.iter().position(|name| *name == of.pair.working);
    // Stable: equally frequent ones stay in the order of their names.
    all.sort_by_key(|of| (place(of), std::cmp::Reverse(of.papers)));
    all
}

fn row(working: &str, all: &[(&Paper, &Judgement)]) -> Option<Row> {
    let extent =
        |of: &dyn Fn(&Judgement) -> f64| Extent::of(all.iter().map(|(_, judgement)| of(judgement)).collect());
    Some(Row {
        working: working.to_owned(),
        right: extent(&|judgement| judgement.right)?,
        half_width: extent(&|judgement| judgement.half_width)?,
        carried: extent(&|judgement| match judgement.carried.band {
            0.0 => 0.0,
            band => band / judgement.tolerance,
        })?,
        condition: extent(&|judgement| judgement.condition)?,
        hidden: extent(&|judgement| judgement.hidden.len() as f64)?,
        alike: extent(&|judgement| judgement.alike.len() as f64)?,
        slipped_back: extent(&|judgement| judgement.slips.back.len() as f64)?,
        slip_or_mistake: extent(&|judgement| {
            (judgement.slips.as_mistake.len() + judgement.slips.between_mistakes) as f64
        })?,
    })
}

/// Groups of papers that share an answer: the right value of one lies within the half-width of another.
fn shared(working: &str, all: &[(&Paper, &Judgement)]) -> Vec<SharedAnswer> {
    let mut sorted: Vec<&(&Paper, &Judgement)> = all.iter().collect();
    sorted.sort_by(|(_, one), (_, other)| one.right.total_cmp(&other.right));
    // Each group with its last value and how far up its bands reach.
    let mut groups: Vec<(Vec<&Paper>, f64, f64)> = Vec::new();
    for (paper, judgement) in sorted {
        let (right, band) = (judgement.right, judgement.half_width);
        let mut group = (vec![*paper], right, right + band);
        // The band of a later paper may reach back over several groups, that of an earlier one forward over several papers.
        while let Some((papers, _, reach)) =
            groups.pop_if(|(_, last, reach)| right <= *reach || right - band <= *last)
        {
            group.0.splice(0..0, papers);
            group.2 = group.2.max(reach);
        }
        groups.push(group);
    }
    let several = groups.into_iter().filter(|(papers, ..)| papers.len() > 1);
    several
        .map(|(papers, ..)| SharedAnswer {
            working: working.to_owned(),
            papers: papers.into_iter().map(|paper| paper.label.clone()).collect(),
        })
        .collect()
}
