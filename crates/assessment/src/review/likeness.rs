//! Wrong answers that belong to somebody else's numbers.
//!
//! Where each student has numbers of their own, a wrong answer that is right on another student's paper, or that a known mistake
//! gives on that paper, tells that the two may have come together. One such answer is nothing: in a class of a hundred there are
//! ten thousand pairs to meet by chance in. So all are counted, and beside each count stands how many pairs as alike chance alone
//! is expected to make.

use super::chance::at_least;
use serde::{Deserialize, Serialize};
use std::collections::HashMap;

/// A student's answers, and what belongs to the student's paper.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StudentValues {
    /// The student.
    pub student: String,
    /// One for each item; none where no number was given.
    pub given: Vec<Option<GivenValue>>,
    /// One for each item; none where the paper does not ask it for a number.
    pub belonging: Vec<Option<Belonging>>,
}

/// A number that a student gave.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct GivenValue {
    /// The value, SI.
    pub value: f64,
    /// Half a unit of the last figure that was written, SI.
    pub half_place: f64,
    /// Whether it was found to be wrong.
    pub wrong: bool,
}

/// The values that belong to an item of a paper.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Belonging {
    /// The right one, SI.
    pub right: f64,
    /// Those that known mistakes give, SI.
    pub wrong: Vec<f64>,
}

/// What was found.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Likenesses {
    /// How many wrong answers were looked at: those that nothing of the student's own paper explains.
    pub answers: usize,
    /// How many papers with different values there are.
    pub papers: usize,
    /// How many pairs of a student who gave such answers and another paper there are.
    pub pairs: usize,
    /// How many of these pairs have exactly one answer in common: of these nothing can be said.
    pub single: usize,
    /// The pairs that have two or more in common; those that chance makes least often first.
    pub found: Vec<Likeness>,
    /// What it is worth, to be shown wherever any of it is.
    pub caution: &'static str,
}

/// A student's wrong answers that belong to another paper.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Likeness {
    /// Whose answers these are.
    pub student: String,
    /// Who has the paper to which they belong.
    pub others: Vec<String>,
    /// How many of the student's wrong answers were looked at.
    pub looked_at: usize,
    /// The places of the items whose answers are right on the other paper.
    pub right: Vec<usize>,
    /// The places of those that a known mistake gives on the other paper.
    pub wrong: Vec<usize>,
    /// In a class like this one, how many pairs chance alone is expected to make that have as many answers in common.
    pub by_chance: f64,
}

impl Likeness {
    /// The same in words; no full stop. [`CAUTION`] belongs beside it.
    pub fn words(&self) -> String {
        const MOST: usize = 4;
        let more = if self.others.len() > MOST { " and others" } else { "" };
        let others: Vec<&str> = self.others.iter().take(MOST).map(String::as_str).collect();
        format!(
            "of {} wrong answers of {} that nothing on the own paper explains, {} are right and {} are known mistakes on the paper of \
             {}{more}; chance alone makes about {} such pairs in a class like this one",
            self.looked_at,
            self.student,
            self.right.len(),
            self.wrong.len(),
            others.join(", "),
            if self.by_chance >= 0.095 {
                format!("{:.1}", self.by_chance)
            } else {
                format!("{:.0e}", self.by_chance)
            }
        )
    }
}

/// What likeness is worth.
pub const CAUTION: &str = "Equal numbers are no proof. They come of working together where that is allowed, of a paper that was \
    taken by mistake, and of chance; who had them from whom cannot be seen here. The chance is estimated from this class as if \
    answers did not depend on each other, while those of a chain do: take it for a rough measure, and speak with the students \
    before anything else.";

impl GivenValue {
    /// Whether a value rounds to what was written.
    fn is(self, value: f64) -> bool {
        (self.value - value).abs() <= self.half_place * (1.0 + 1e-9)
    }
}

/// Looks for wrong answers that belong to another paper. All students have the same items in the same order.
///
/// An answer counts only where neither the right value of the student's own paper nor that of a known mistake on it is what was
/// written. How likely a paper gives it by chance is taken from the other papers of the class: (k + 1) / (n + 2) where k of n do,
/// so that a number that many papers have is worth little. Students who have the same values have one paper.
pub fn likeness(class: &[StudentValues]) -> Likenesses {
    let papers = Papers::of(class);
    let looked_at: Vec<Vec<(usize, GivenValue)>> = class.iter().map(strange).collect();
    let askers = looked_at.iter().filter(|answers| !answers.is_empty()).count();
    let pairs = askers * papers.holders.len().saturating_sub(1);
    let (mut found, mut single) = (Vec::new(), 0);
    for ((student, answers), own) in class.iter().zip(&looked_at).zip(&papers.own) {
        // How each answer belongs to each paper, the student's own left out.
        let belongs = |&(item, given): &(usize, GivenValue)| -> Vec<Option<Whose>> {
            let to = |(place, holders): (usize, &Vec<usize>)| {
                holders
                    .first()
                    .filter(|_| place != *own)
                    .and_then(|&holder| whose(given, &class[holder], item))
            };
            papers.holders.iter().enumerate().map(to).collect()
        };
        let belongs: Vec<Vec<Option<Whose>>> = answers.iter().map(belongs).collect();
        let shared: Vec<usize> =
            belongs.iter().map(|papers| papers.iter().filter(|whose| whose.is_some()).count()).collect();
        for (place, holders) in papers.holders.iter().enumerate() {
            let items = |wanted: Whose| -> Vec<usize> {
                let own = answers.iter().zip(&belongs).filter(|(_, papers)| papers[place] == Some(wanted));
                own.map(|((item, _), _)| *item).collect()
            };
            let (right, wrong) = (items(Whose::Right), items(Whose::Mistaken));
            let common = right.len() + wrong.len();
            single += usize::from(common == 1);
            if common < 2 {
                continue;
            }
            // Besides the student's own paper and this one.
            let others = papers.holders.len().saturating_sub(2) as f64;
            let chances = shared.iter().zip(&belongs).map(|(shared, papers)| {
                let without = shared - usize::from(papers[place].is_some());
                (without as f64 + 1.0) / (others + 2.0)
            });
            let chances: Vec<f64> = chances.collect();
            found.push(Likeness {
                student: student.student.clone(),
                others: holders.iter().map(|&holder| class[holder].student.clone()).collect(),
                looked_at: answers.len(),
                right,
                wrong,
                by_chance: pairs as f64 * at_least(common, &chances),
            });
        }
    }
    // Stable: of equally rare ones in the order of the class.
    found.sort_by(|one, other| one.by_chance.total_cmp(&other.by_chance));
    let answers = looked_at.iter().map(Vec::len).sum();
    Likenesses { answers, papers: papers.holders.len(), pairs, single, found, caution: CAUTION }
}

/// The papers of a class that differ in their values.
struct Papers {
    /// Who has each of them, by places in the class.
    holders: Vec<Vec<usize>>,
    /// Which of them each student has.
    own: Vec<usize>,
}

impl Papers {
    fn of(class: &[StudentValues]) -> Self {
        let mut papers = Self { holders: Vec::new(), own: Vec::with_capacity(class.len()) };
        // By the bits of all values: papers with the same numbers have the same values to the last bit.
        let mut known: HashMap<Vec<Option<u64>>, usize> = HashMap::new();
        for (place, student) in class.iter().enumerate() {
            let bits = student.belonging.iter().flat_map(|belonging| {
                let values =
                    belonging.iter().flat_map(|one| [one.right].into_iter().chain(one.wrong.iter().copied()));
                values.map(|value| Some(value.to_bits())).chain([None]).collect::<Vec<_>>()
            });
            let paper = *known.entry(bits.collect()).or_insert(papers.holders.len());
            if paper == papers.holders.len() {
                papers.holders.push(Vec::new());
            }
            papers.holders[paper].push(place);
            papers.own.push(paper);
        }
        papers
    }
}

/// How a number belongs to a paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Whose {
    Right,
    Mistaken,
}

fn whose(given: GivenValue, paper: &StudentValues, item: usize) -> Option<Whose> {
    let belonging = paper.belonging.get(item)?.as_ref()?;
    if given.is(belonging.right) {
        return Some(Whose::Right);
    }
    belonging.wrong.iter().any(|&value| given.is(value)).then_some(Whose::Mistaken)
}

/// The wrong answers that nothing of the student's own paper explains.
fn strange(student: &StudentValues) -> Vec<(usize, GivenValue)> {
    let given = student.given.iter().enumerate().filter_map(|(item, given)| given.map(|given| (item, given)));
    given
        .filter(|&(item, given)| {
            given.wrong && given.value.is_finite() && whose(given, student, item).is_none()
        })
        .collect()
}
