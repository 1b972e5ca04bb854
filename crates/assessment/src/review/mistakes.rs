//! What the class has not understood: its mistakes by how often they were made.

use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};

/// A wrong answer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct WrongAnswer {
    /// Who gave it.
    pub student: String,
    /// The label of the item.
    pub item: String,
    /// The working that was asked for, or at which the mistake was made where it is known.
    pub working: String,
    /// The scene of the lecture that shows it; empty for none.
    pub scene: String,
    /// The place of what was asked for in the solution, counted up.
    pub order: usize,
    /// The mistake that explains it, or the name of the slip; none where nothing does.
    pub mistake: Option<String>,
    /// Whether several mistakes explain it, and it is not known which of them was made.
    #[serde(default)]
    pub is_ambiguous: bool,
    /// Whether a slip explains it: a sign, a power of ten or a unit lost, or rounding. Nothing of the lecture is misunderstood then, unless many
    /// lose the same sign.
    #[serde(default)]
    pub is_slip: bool,
}

/// The mistakes of a class.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Mistakes {
    /// How many answers are wrong.
    pub wrong: usize,
    /// How many of them a known mistake or a slip explains.
    pub explained: usize,
    /// The mistakes; those that most students made first.
    pub made: Vec<MistakeFigures>,
    /// The slips, in the same way.
    pub slips: Vec<MistakeFigures>,
    /// Of how many of them several mistakes fit, so that none is claimed.
    pub ambiguous: usize,
    /// Where wrong answers stand that nothing explains; most first.
    pub unexplained: Vec<PlaceFigures>,
    /// The first wrong answer of each student, in the order of the solution: what led to it may have led to the others.
    pub first: Vec<FirstMistake>,
}

/// A mistake.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MistakeFigures {
    /// Its id: `q-to-the-cut`.
    pub mistake: String,
    /// How many students made it.
    pub students: usize,
    /// How many wrong answers it explains.
    pub answers: usize,
    /// The same as a share of all wrong answers.
    pub share: f64,
    /// How many students made it first.
    pub first: usize,
    /// Where it was made; most first.
    pub places: Vec<PlaceFigures>,
}

/// A working, with the scene that shows it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PlaceFigures {
    /// The working.
    pub working: String,
    /// The scene; empty for none.
    pub scene: String,
    /// How many wrong answers stand there.
    pub answers: usize,
}

/// The first wrong answer of a student.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct FirstMistake {
    /// The student.
    pub student: String,
    /// The label of the item.
    pub item: String,
    /// The working.
    pub working: String,
    /// The mistake; none where nothing explains it.
    pub mistake: Option<String>,
}

/// Counts the mistakes of a class.
pub fn mistakes(wrong: &[WrongAnswer]) -> Mistakes {
    let mut first: BTreeMap<&str, &WrongAnswer> = BTreeMap::new();
    for answer in wrong {
        let earliest = first.entry(&answer.student).or_insert(answer);
        if answer.order < earliest.order {
            *earliest = answer;
        }
    }
    let figures = |is_slip: bool| {
        let mut by_mistake: BTreeMap<&str, Vec<&WrongAnswer>> = BTreeMap::new();
        for answer in wrong.iter().filter(|answer| answer.is_slip == is_slip) {
            if let Some(mistake) = &answer.mistake {
                by_mistake.entry(mistake).or_default().push(answer);
            }
        }
        let figures = |(mistake, answers): (&&str, &Vec<&WrongAnswer>)| MistakeFigures {
            mistake: (*mistake).to_owned(),
            students: answers.iter().map(|answer| &answer.student).collect::<BTreeSet<_>>().len(),
            answers: answers.len(),
            share: answers.len() as f64 / wrong.len() as f64,
            first: first.values().filter(|answer| answer.mistake.as_deref() == Some(mistake)).count(),
            places: places(answers.iter().copied()),
        };
        let mut made: Vec<MistakeFigures> = by_mistake.iter().map(figures).collect();
        // Stable: of equally frequent ones in the order of their ids.
        made.sort_by_key(|figures| std::cmp::Reverse((figures.students, figures.answers)));
        made
    };
    let of_student = |answer: &&WrongAnswer| FirstMistake {
        student: answer.student.clone(),
        item: answer.item.clone(),
        working: answer.working.clone(),
        mistake: answer.mistake.clone(),
    };
    Mistakes {
        wrong: wrong.len(),
        explained: wrong.iter().filter(|answer| answer.mistake.is_some()).count(),
        made: figures(false),
        slips: figures(true),
        ambiguous: wrong.iter().filter(|answer| answer.is_ambiguous).count(),
        unexplained: places(wrong.iter().filter(|answer| answer.mistake.is_none() && !answer.is_ambiguous)),
        first: first.values().map(of_student).collect(),
    }
}

fn places<'a>(answers: impl Iterator<Item = &'a WrongAnswer>) -> Vec<PlaceFigures> {
    let mut counts: BTreeMap<(&str, &str), usize> = BTreeMap::new();
    for answer in answers {
        *counts.entry((&answer.working, &answer.scene)).or_default() += 1;
    }
    let place = |((working, scene), answers): ((&str, &str), usize)| PlaceFigures {
        working: working.to_owned(),
        scene: scene.to_owned(),
        answers,
    };
    let mut places: Vec<PlaceFigures> = counts.into_iter().map(place).collect();
    places.sort_by_key(|place| std::cmp::Reverse(place.answers));
    places
}
