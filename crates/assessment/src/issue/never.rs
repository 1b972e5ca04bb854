//! Variants of a lesson that no paper can have.

use super::Issue;
use super::thrown_out::{Why, count, sorted};
use lesson::Choices;
use serde::Serialize;
use std::collections::BTreeMap;

/// A variant that no draw of the sample may have.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Never {
    /// The variant in words: `the section: box`.
    pub variant: String,
    /// So many draws with it were looked at.
    pub draws: usize,
    /// What stands against them, the most frequent first.
    pub why: Vec<Why>,
}

impl Issue {
    /// The variants of which no draw of the sample may be given out, in the order of the lesson.
    pub fn never_drawn(&self) -> Vec<Never> {
        let varies = self.papers.lesson().vary.iter().enumerate();
        let variants = varies.filter(|(_, variation)| matches!(variation.choices, Choices::Variants(_)));
        let each = variants.flat_map(|(axis, variation)| {
            (0..variation.count())
                .filter_map(move |choice| Some((axis, choice, variation.words(choice)?, variation)))
        });
        each.filter_map(|(axis, choice, words, variation)| {
            let with = self.sample.iter().filter(|draw| draw.choices.get(axis) == Some(&choice));
            let mut never =
                Never { variant: format!("{}: {words}", variation.name), draws: 0, why: Vec::new() };
            let mut why = BTreeMap::new();
            for looked in with.map(|draw| self.look(draw)) {
                if looked.fits() {
                    return None;
                }
                never.draws += 1;
                count(&looked.against, &mut why);
            }
            never.why = sorted(why);
            Some(never)
        })
        .collect()
    }
}
