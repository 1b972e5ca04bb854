//! What the class of a lesson is, from a sample of its draws: one for each of its variants, since another shape of section or another
//! arrangement of supports goes another way to its answers.

use crate::chance::Chance;
use crate::fair::{Class, Paper, hidden_on_all, verdict};
use crate::space::Space;
use lesson::papers::Draw;
use std::collections::{BTreeMap, HashSet};

/// How many draws are looked at: the share of them that goes a way is then that of all draws to one part in ten.
const SAMPLE: usize = 120;

/// So many for each variant of the lesson, where that is more,
const FOR_EACH_VARIANT: usize = 60;

/// and never more than this.
const LARGEST_SAMPLE: usize = 600;

/// Draws of a space, each once: all of a small one; the same in every run. `variants` is the number of variants of the lesson.
pub(super) fn sample(space: &Space, variants: usize) -> Vec<Draw> {
    let size = space.size();
    let wanted = variants.saturating_mul(FOR_EACH_VARIANT).clamp(SAMPLE, LARGEST_SAMPLE);
    if size.count <= wanted as u128 {
        return (0..size.count).filter_map(|index| space.draw(index)).collect();
    }
    let mut chance = Chance::new();
    let mut seen = HashSet::new();
    let any = || {
        if space.is_restricted() {
            let count = usize::try_from(size.count).unwrap_or(usize::MAX);
            space.draw(chance.below(count) as u128)
        } else {
            Some(Draw { choices: space.counts().iter().map(|&count| chance.below(count)).collect() })
        }
    };
    std::iter::repeat_with(any).flatten().filter(|draw| seen.insert(draw.clone())).take(wanted).collect()
}

/// The class of each variant.
pub(super) fn of_variants<'a>(papers: impl Iterator<Item = &'a Paper>) -> BTreeMap<String, Class> {
    let mut by_variant: BTreeMap<&str, Vec<&Paper>> = BTreeMap::new();
    for paper in papers {
        by_variant.entry(&paper.variant).or_default().push(paper);
    }
    let found = by_variant.into_iter();
    found.filter_map(|(variant, papers)| Some((variant.to_owned(), of(papers.into_iter())?))).collect()
}

/// The class that the most of these papers can make, of those that nothing else speaks against. Where something speaks against
/// all of them it is that of all.
fn of<'a>(papers: impl Iterator<Item = &'a Paper>) -> Option<Class> {
    let all: Vec<Paper> = papers.cloned().collect();
    let always = hidden_on_all(&all);
    let by_itself = |paper: &Paper| {
        let own =
            Class { path: paper.path.clone(), conditions: BTreeMap::new(), hidden_on_all: always.clone() };
        verdict(&paper.judgements, &paper.path, Some(&own)).may_be_given()
    };
    let sound: Vec<Paper> = all.iter().filter(|paper| by_itself(paper)).cloned().collect();
    let sound = if sound.is_empty() { all } else { sound };
    let path = Class::of(&sound)?.path;
    let same: Vec<Paper> = sound.into_iter().filter(|paper| paper.path == path).collect();
    Class::of(&same).map(|class| Class { hidden_on_all: always, ..class })
}
