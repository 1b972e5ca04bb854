//! Of the draws of a student that fit, one that goes well with the papers before it and keeps the mistakes apart.
//!
//! Both are wished for, not required: of some dozens of mistakes a pair meets by chance on most papers, and a small space has few answers.
//! So a student's next draw is taken instead while there are others, and what could not be kept apart is told.

use super::Issue;
use super::look::Looked;
use crate::fair::{Paper, SamePair, pairs_alike};
use crate::ledger::{Drawn, Ledger};
use crate::secret::Secret;
use lesson::papers::Draw;
use std::collections::{BTreeMap, BTreeSet, HashSet};
use std::sync::Arc;

/// Of so many draws that fit the best is taken; the first that leaves nothing to be wished for ends the search. Common practice, no source:
/// where a quarter of the draws are good, nine students in ten get one of these.
const LOOKED_AT: usize = 8;

/// No further than so many draws beyond the first that fits.
const BEYOND: usize = 200;

/// What counts as well apart in the class of a variant: as well as in the better quarter of the draws that fit.
#[derive(Clone, Debug, Default)]
pub(super) struct Apart {
    /// The pairs that no draw of the sample tells apart.
    always: BTreeSet<SamePair>,
    /// So many others at most.
    most: usize,
}

impl Apart {
    /// Of the papers of each variant that fit.
    pub(super) fn of_variants<'a>(fitting: impl Iterator<Item = &'a Paper>) -> BTreeMap<String, Self> {
        let mut by_variant: BTreeMap<&str, Vec<BTreeSet<SamePair>>> = BTreeMap::new();
        for paper in fitting {
            by_variant.entry(&paper.variant).or_default().push(pairs_alike(paper));
        }
        by_variant.into_iter().map(|(variant, all)| (variant.to_owned(), Self::of(&all))).collect()
    }

    fn of(all: &[BTreeSet<SamePair>]) -> Self {
        let always = match all {
            [first, others @ ..] if !others.is_empty() => {
                others.iter().fold(first.clone(), |always, pairs| &always & pairs)
            }
            _ => BTreeSet::new(),
        };
        let mut counts: Vec<usize> = all.iter().map(|pairs| pairs.difference(&always).count()).collect();
        counts.sort_unstable();
        Self { always, most: counts.get(counts.len() / 4).copied().unwrap_or(0) }
    }

    fn holds(&self, paper: &Paper) -> bool {
        pairs_alike(paper).difference(&self.always).count() <= self.most
    }
}

/// A draw that fits.
pub(super) struct Better {
    draw: Draw,
    /// As in [`crate::ledger::Entry::attempt`].
    attempt: u64,
    looked: Arc<Looked>,
}

impl Better {
    /// What is entered, and what is known of it.
    pub(super) fn parted(self) -> (Drawn, Arc<Looked>) {
        let Self { draw, attempt, looked } = self;
        (Drawn { draw, attempt, form: None }, looked)
    }
}

impl Issue {
    /// Whether the mistakes are kept as well apart on this paper as can be wished for in its class.
    pub(super) fn is_well_apart(&self, looked: &Looked) -> bool {
        let Some(paper) = &looked.paper else { return false };
        self.apart.get(&paper.variant).is_none_or(|apart| apart.holds(paper))
    }

    /// The best of the first free draws of a student that fit: of those whose right answers are not all right on one of `others`, one whose
    /// mistakes are well apart. None where no free draw fits.
    pub(super) fn better<S: Secret>(
        &self,
        secret: &S,
        ledger: &Ledger,
        student: &str,
        others: &[Arc<Looked>],
    ) -> Option<Better> {
        let mut best: Option<((bool, bool), Better)> = None;
        let (mut seen, mut fitting, mut beyond) = (HashSet::new(), 0, 0);
        for (attempt, draw) in (0..).zip(ledger.draws(secret, student)) {
            beyond += usize::from(best.is_some());
            if beyond > BEYOND {
                break;
            }
            if ledger.is_taken(&draw) || !seen.insert(draw.clone()) {
                continue;
            }
            let looked = self.look(&draw);
            if !looked.fits() {
                continue;
            }
            fitting += 1;
            let lacks =
                (others.iter().any(|other| answers_alike(&looked, other)), !self.is_well_apart(&looked));
            if best.as_ref().is_none_or(|(least, _)| lacks < *least) {
                best = Some((lacks, Better { draw, attempt, looked }));
            }
            if lacks == (false, false) || fitting == LOOKED_AT {
                break;
            }
        }
        best.map(|(_, best)| best)
    }
}

/// Whether every right answer of one paper is right on another: who copies it is not found out.
fn answers_alike(one: &Looked, other: &Looked) -> bool {
    let (Some(one), Some(other)) = (&one.paper, &other.paper) else { return false };
    let mut both = one.judgements.iter().zip(&other.judgements);
    both.all(|(one, other)| one.accepts(other.right) && other.accepts(one.right))
}
