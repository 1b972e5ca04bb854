//! A lecturer's own mistake, made from what stands in the lesson file.

use super::lesson::Replaced;
use super::{Kind, Makes, Mistake, Source};
use crate::dimension::Dimension;
use crate::evaluate::Replacement;
use crate::expression::Expression;
use crate::reading::{self, Fault, FaultKind, Names, Parsed, nearest, parse_formula};
use crate::solved::Solved;
use crate::working::{Formula, Working};
use std::borrow::Cow;
use std::ops::Range;

/// What a lecturer writes of a mistake.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OwnMistake<'a> {
    /// Its name, which no mistake of the catalogue has.
    pub id: &'a str,
    /// The name of the working that it replaces: `shear stress on the cut`.
    pub replaces: &'a str,
    /// The wrong formula over the names of workings: `shear force at the slice / area beyond the cut`.
    pub formula: &'a str,
    /// What the student does, in one line that follows on "the student"; made from the formula where nothing is said.
    pub does: Option<&'a str>,
    /// What to say to the student.
    pub feedback: &'a str,
    /// What sort of mistake it is, where the lecturer says so.
    pub kind: Option<Kind>,
}

/// In which of the texts a fault is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs, reason = "the fields of `OwnMistake`")]
pub enum OwnField {
    Id,
    Replaces,
    Formula,
    Feedback,
}

/// What is wrong with a lecturer's own mistake.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OwnFault {
    /// The text that is wrong.
    pub field: OwnField,
    /// What is wrong with it, with its place in that text, and what would be right.
    pub fault: Fault,
}

/// A wrong formula as it was read; looked up in each lesson that it is used in.
#[derive(Clone, Debug)]
pub(super) struct OwnFormula {
    replaces: String,
    formula: Parsed,
}

impl Mistake {
    /// A lecturer's own mistake, checked against a lesson. In another lesson it is made where its names are found and
    /// the dimensions agree.
    ///
    /// ```
    /// # fn show(solved: &workings::solved::Solved) -> Result<(), Vec<workings::mistake::OwnFault>> {
    /// use workings::mistake::{Mistake, OwnMistake};
    ///
    /// let written = OwnMistake {
    ///     id: "v-over-the-web",
    ///     replaces: "shear stress on the cut",
    ///     formula: "shear force at the slice / (width at the cut * 120 mm)",
    ///     does: Some("divides by the area of the web"),
    ///     feedback: "That is the mean over the web.",
    ///     kind: None,
    /// };
    /// let mistake = Mistake::own(solved, &written)?;
    /// # let _ = mistake; Ok(())
    /// # }
    /// ```
    ///
    /// # Errors
    /// Everything that is wrong, each with its place; never an empty list.
    pub fn own(solved: &Solved, written: &OwnMistake<'_>) -> Result<Self, Vec<OwnFault>> {
        let mut faults = Vec::new();
        let mut fail = |field: OwnField, fault: Fault| faults.push(OwnFault { field, fault });
        if written.id.trim().is_empty() {
            let mend = "give it a short name of its own, such as web-forgotten";
            fail(OwnField::Id, fault(written.id, FaultKind::Empty, "the mistake has no name", mend));
        } else if super::named(written.id).is_some() {
            let what = format!("{} is a mistake of the catalogue", written.id);
            fail(OwnField::Id, fault(written.id, FaultKind::Ambiguous, what, "give it a name of its own"));
        }
        if written.feedback.trim().is_empty() {
            let mend = "say in one sentence what is wrong, as you would to the student";
            fail(
                OwnField::Feedback,
                fault(written.feedback, FaultKind::Empty, "the student is told nothing", mend),
            );
        }
        let workings = solved.workings();
        let replaced = workings.get(written.replaces);
        if replaced.is_none() {
            let range = 0..written.replaces.len();
            fail(OwnField::Replaces, unknown(solved, written.replaces, range));
        }
        let formula = match read(solved, written.formula, replaced) {
            Ok(formula) => Some(formula),
            Err(all) => {
                all.into_iter().for_each(|fault| fail(OwnField::Formula, fault));
                None
            }
        };
        let (Some(replaced), Some(formula), true) = (replaced, formula, faults.is_empty()) else {
            return Err(faults);
        };
        Ok(Self {
            id: Cow::Owned(written.id.to_owned()),
            chapter: replaced.chapter,
            kind: written.kind,
            does: Cow::Owned(match written.does {
                Some(does) => does.to_owned(),
                None => format!("takes {} for the {}", written.formula.trim(), written.replaces),
            }),
            feedback: Cow::Owned(written.feedback.to_owned()),
            sources: &[Source::Lecturer],
            makes: Makes::Own(OwnFormula { replaces: written.replaces.to_owned(), formula }),
        })
    }
}

impl OwnFormula {
    /// What is replaced in a lesson; nothing where that has no such workings.
    pub(super) fn replaced(&self, solved: &Solved) -> Option<Replaced> {
        let workings = solved.workings();
        let id = workings.id(&self.replaces)?;
        let working = workings.working(id);
        let expression = self.formula.expression(working.symbol.role, &|name| workings.id(name))?;
        // A plain zero is zero of any kind.
        if expression == Expression::Number(0.0) {
            return Some(Replaced::nothing(id));
        }
        let replaced = Replaced::by(id, expression);
        let (_, Replacement::Expression(expression)) = &replaced.first else { return None };
        let found = workings.dimension_of(expression).ok()?;
        (found == working.value.dimension).then_some(replaced)
    }
}

/// Reads a formula and checks names and dimensions.
fn read(solved: &Solved, text: &str, replaced: Option<&Working>) -> Result<Parsed, Vec<Fault>> {
    let workings = solved.workings();
    let names: Vec<&str> = workings.in_order().map(|(_, working)| working.name.as_str()).collect();
    let parsed = parse_formula(text, &names)?;
    let unknown: Vec<Fault> = parsed
        .names()
        .into_iter()
        .filter(|(name, _)| workings.id(name).is_none())
        .map(|(name, range)| unknown(solved, name, range))
        .collect();
    if !unknown.is_empty() {
        return Err(unknown);
    }
    let used: Names = parsed
        .names()
        .into_iter()
        .filter_map(|(name, _)| Some((name.to_owned(), workings.get(name)?.value)))
        .collect();
    let found = parsed.evaluate(&used)?;
    let Some(replaced) = replaced else { return Ok(parsed) };
    let (wanted, name) = (replaced.value.dimension, &replaced.name);
    let zero = found.dimension == Dimension::NONE && found.value == 0.0;
    if found.dimension != wanted && !zero {
        let what = format!(
            "the {name} is {}, but this formula gives {}",
            wanted.in_words(),
            found.dimension.in_words()
        );
        let mend = format!("give {}; each name stands for its value with its unit", wanted.in_words());
        return Err(vec![fault(text, FaultKind::WrongDimension, what, mend)]);
    }
    if let Formula::Expression(own) = &replaced.formula
        && parsed.expression(replaced.symbol.role, &|name| workings.id(name)).as_ref() == Some(own)
    {
        let mend = "write what the student does instead";
        return Err(vec![fault(
            text,
            FaultKind::Ambiguous,
            format!("this is the right formula of the {name}"),
            mend,
        )]);
    }
    Ok(parsed)
}

fn fault(text: &str, kind: FaultKind, what: impl Into<String>, mend: impl Into<String>) -> Fault {
    Fault { range: 0..text.len(), kind, what: what.into(), mend: mend.into() }
}

/// A name that no working of the lesson has, with the names that are nearest.
fn unknown(solved: &Solved, name: &str, range: Range<usize>) -> Fault {
    let near = nearest_names(solved, name);
    let quoted: Vec<String> = near.iter().map(|name| format!("`{name}`")).collect();
    let mend = match quoted.split_last() {
        None => "take a name from the lesson's list of values".to_owned(),
        Some((only, [])) => format!("did you mean {only}?"),
        Some((last, others)) => format!("did you mean {} or {last}?", others.join(", ")),
    };
    let what = match reading::is_unit(name) {
        true => format!("a number is missing before {name}"),
        false => format!("this lesson has no value called {:?}", name.trim()),
    };
    Fault { range, kind: FaultKind::UnknownName, what, mend }
}

/// The name that differs by slips of the pen; else at most three that share most of its words.
fn nearest_names<'a>(solved: &'a Solved, name: &str) -> Vec<&'a str> {
    const TOLD: usize = 3;
    let names = || solved.workings().in_order().map(|(_, working)| working.name.as_str());
    if let Some(near) = nearest(name.trim(), names()) {
        return vec![near];
    }
    // The words that say little count little: they only decide among equals.
    let weight = |word: &str| if matches!(word, "the" | "of" | "at" | "on" | "a") { 1 } else { 10 };
    let lowered = name.to_lowercase();
    let wanted: Vec<&str> = lowered.split_whitespace().collect();
    let score = |candidate: &str| -> i32 {
        let lowered = candidate.to_lowercase();
        let words: Vec<&str> = lowered.split_whitespace().collect();
        let shared: i32 = wanted.iter().filter(|word| words.contains(word)).map(|word| weight(word)).sum();
        if shared < 10 { 0 } else { 100 * shared - words.len() as i32 }
    };
    let mut scored: Vec<(i32, &str)> =
        names().map(|name| (score(name), name)).filter(|(score, _)| *score > 0).collect();
    scored.sort_by_key(|(score, _)| -score);
    scored.into_iter().map(|(_, name)| name).take(TOLD).collect()
}
