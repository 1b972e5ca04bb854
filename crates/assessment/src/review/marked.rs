//! What a review is made of, from a class that was marked.

use super::likeness::{Belonging, GivenValue, StudentValues};
use super::matrix::{Entry, Item, Matrix, MatrixFault};
use super::mistakes::WrongAnswer;
use crate::mark::{Answer, Cause, Explanation, Judged, Made, Marked, Units, Verdict};
use crate::set::{AnswerUnit, Ask, Part, SetPaper};
use lesson::Scene;
use std::collections::BTreeSet;
use workings::mistake::{self, Mistake};
use workings::role::Role;
use workings::solved::Solved;
use workings::working::{Chapter, Id, Working};

/// A student whose paper was marked.
#[derive(Clone, Copy, Debug)]
pub struct MarkedStudent<'a> {
    /// Who it is: an id or a pseudonym.
    pub student: &'a str,
    /// The paper.
    pub paper: &'a SetPaper,
    /// What was answered, by the labels of the parts.
    pub answers: &'a [(String, Answer)],
    /// The same, marked.
    pub marked: &'a Marked,
}

/// The marks of a class. A part that is not on a student's paper counts as not marked.
///
/// # Errors
/// See [`MatrixFault`].
pub fn matrix(class: &[MarkedStudent<'_>]) -> Result<Matrix, MatrixFault> {
    let mut items: Vec<Item> = Vec::new();
    for judged in class.iter().flat_map(|student| &student.marked.parts) {
        if !items.iter().any(|item| item.label == judged.part) {
            items.push(Item { label: judged.part.clone(), out_of: judged.most });
        }
    }
    let entry = |student: &MarkedStudent<'_>, item: &Item| match student.marked.part(&item.label) {
        Some(judged) => match (judged.marks(), &judged.verdict) {
            (Some(0.0), Verdict::Blank) => Entry::Blank,
            (Some(marks), _) => Entry::Earned(marks),
            (None, _) => Entry::NotMarked,
        },
        None => Entry::NotMarked,
    };
    let rows = class.iter().map(|student| items.iter().map(|item| entry(student, item)).collect()).collect();
    Matrix::new(items, rows)
}

/// The wrong answers of a class, in the order of the students and of their papers. What follows rightly from an earlier answer is not
/// wrong, nor is what a person gave all marks.
pub fn wrong_answers(class: &[MarkedStudent<'_>]) -> Vec<WrongAnswer> {
    let of = |student: &MarkedStudent<'_>| -> Vec<WrongAnswer> {
        let parts = student.paper.parts().zip(&student.marked.parts);
        parts.filter_map(|(part, judged)| wrong(student, part, judged)).collect()
    };
    class.iter().flat_map(of).collect()
}

fn wrong(student: &MarkedStudent<'_>, part: &Part, judged: &Judged) -> Option<WrongAnswer> {
    let candidates = match &judged.verdict {
        Verdict::Explained(explanation) => std::slice::from_ref(explanation),
        Verdict::Ambiguous { candidates } => candidates,
        Verdict::Unknown { .. } => &[],
        Verdict::Right | Verdict::FollowThrough(_) | Verdict::Blank | Verdict::ByHand => return None,
    };
    if judged.decided.is_some() && judged.marks().is_some_and(|marks| marks >= judged.most) {
        return None;
    }
    let asked = match &part.ask {
        Ask::Value(value) => &value.working,
        Ask::Choice(choice) => &choice.value.working,
        Ask::Place(place) => &place.working,
        Ask::Sketch { .. } => return None,
    };
    // Of several explanations the one mistake that all of them tell; else none is claimed.
    let told: BTreeSet<String> = candidates.iter().map(name).collect();
    let mistake = told.first().filter(|_| told.len() == 1).cloned();
    let made_at =
        candidates.first().filter(|_| mistake.is_some()).and_then(|one| one.cause.mistakes().first());
    let working = made_at.map_or(asked, |made| &made.made_at);
    let workings = student.paper.solved.workings();
    let of_sign = |made: &Made| mistake::named(&made.mistake).is_some_and(Mistake::is_of_sign);
    let is_slip = mistake.is_some() && made_at.is_none_or(of_sign);
    // No scene teaches how a unit or a power of ten is kept; which way is positive one does.
    let no_scene = is_slip && made_at.is_none() && mistake.as_deref() != Some(SIGN);
    let found = workings.get(working).filter(|_| !no_scene);
    Some(WrongAnswer {
        student: student.student.to_owned(),
        item: judged.part.clone(),
        working: working.clone(),
        scene: found.map_or_else(String::new, |found| scene_of(found).word().to_owned()),
        // Of two answers that went wrong through one and the same value the one that was found first comes first.
        order: workings.id(asked).map_or(usize::MAX, |id| place_in_solution(&student.paper.solved, id)),
        is_ambiguous: mistake.is_none() && !candidates.is_empty(),
        mistake,
        is_slip,
    })
}

/// What a lost sign is called among the slips.
const SIGN: &str = "sign";

/// The scene in which a working is found: that of its chapter, where one scene shows all of it; else that of its role.
fn scene_of(working: &Working) -> Scene {
    match working.chapter {
        Chapter::Reactions => Scene::Reactions,
        Chapter::Diagrams => Scene::Diagrams,
        Chapter::Skew => Scene::Skew,
        Chapter::Walls => Scene::Walls,
        Chapter::Point => Scene::Point,
        Chapter::Joints => Scene::Joints,
        Chapter::Allowables => Scene::Allowables,
        Chapter::Given
        | Chapter::Section
        | Chapter::Bending
        | Chapter::Materials
        | Chapter::Shear
        | Chapter::Slice => scene(working.symbol.role),
    }
}

/// Where a working stands in the solution, counted up: chapter by chapter, but never before what it needs. The reactions come before the section,
/// unless the weight of the beam follows from its area.
fn place_in_solution(solved: &Solved, id: Id) -> usize {
    let workings = solved.workings();
    let without = solved.rigidity_that_falls_out(id);
    let (mut seen, mut open) = (BTreeSet::new(), vec![id]);
    let mut chapter = 0;
    while let Some(next) = open.pop() {
        if Some(next) == without || !seen.insert(next) {
            continue;
        }
        let own = workings.working(next).chapter;
        chapter = chapter.max(Chapter::ALL.iter().position(|other| *other == own).unwrap_or(0));
        open.extend(workings.reads(next));
    }
    chapter * workings.values().len() + id.0 as usize
}

/// What a wrong answer is counted as: the id of its mistake, of two the one that comes first; the name of a slip.
fn name(explanation: &Explanation) -> String {
    match (&explanation.cause, explanation.cause.mistakes()) {
        (_, [first, ..]) => first.mistake.clone(),
        (Cause::Slip { slip }, _) => slip.slip.to_owned(),
        (cause, _) => cause.word().to_owned(),
    }
}

/// The scene of the lecture that shows what has a role.
pub fn scene(role: Role) -> Scene {
    match role {
        Role::Length | Role::PointForce | Role::Couple | Role::SpreadLoad => Scene::Beam,
        Role::LoadResultant | Role::Reaction | Role::ReactionCouple => Scene::Reactions,
        Role::ShearForce | Role::BendingMoment | Role::Station | Role::Deflection | Role::Slope => {
            Scene::Diagrams
        }
        Role::Area
        | Role::CentroidHeight
        | Role::CentroidAcross
        | Role::SecondMoment
        | Role::SecondMomentUpright
        | Role::RadiusOfGyration
        | Role::SectionModulus
        | Role::ExtremeDistance
        | Role::Breadth
        | Role::Height
        | Role::Thickness
        | Role::Diameter => Scene::Section,
        Role::ElasticModulus | Role::FlexuralRigidity | Role::ModularRatio => Scene::Transformed,
        Role::SliceLength => Scene::Slice,
        Role::BendingStress | Role::StressResultant => Scene::Bending,
        Role::CutDistance
        | Role::CutHeight
        | Role::AreaBeyond
        | Role::CentroidBeyond
        | Role::FirstMoment
        | Role::WidthAtCut => Scene::Cut,
        Role::ForceOnCut => Scene::Derivation,
        Role::ShearStress | Role::ShearFlow | Role::MeanShearStress => Scene::Shear,
        Role::PrincipalStress
        | Role::CircleRadius
        | Role::PrincipalAngle
        | Role::PrincipalShear
        | Role::EquivalentStress => Scene::Point,
        Role::WallForce | Role::WallLength | Role::ShearCentre | Role::Torque | Role::TorsionConstant => {
            Scene::Walls
        }
        Role::ProductMoment
        | Role::PrincipalSecondMoment
        | Role::PrincipalAxisAngle
        | Role::NeutralAxisAngle
        | Role::FirstMomentUpright => Scene::Skew,
        Role::FastenerForce
        | Role::FastenerCapacity
        | Role::Spacing
        | Role::Rows
        | Role::Count
        | Role::WeldStrength => Scene::Joints,
        Role::LoadFactor | Role::Utilisation => Scene::Allowables,
        _ => Scene::Solution,
    }
}

/// The numbers of a class, to look for likeness: items by the labels of all papers. `units` are those in which a number without one
/// stands. Values to choose from are left out: whoever chooses writes no number.
pub fn values(class: &[MarkedStudent<'_>], units: Units) -> Vec<StudentValues> {
    let mut labels: Vec<&str> = Vec::new();
    for part in class.iter().flat_map(|student| student.paper.parts()) {
        if !labels.contains(&part.label.as_str()) {
            labels.push(&part.label);
        }
    }
    let of = |student: &MarkedStudent<'_>| {
        let part = |label: &&str| student.paper.parts().find(|part| part.label == *label);
        StudentValues {
            student: student.student.to_owned(),
            given: labels.iter().map(|label| given(student, part(label)?, units)).collect(),
            belonging: labels.iter().map(|label| belonging(part(label)?)).collect(),
        }
    };
    class.iter().map(of).collect()
}

/// Figures of a number of which nothing is known how it was written: half a unit of its fourth.
const FOURTH_FIGURE: f64 = 5e-4;

fn given(student: &MarkedStudent<'_>, part: &Part, units: Units) -> Option<GivenValue> {
    let (_, answer) = student.answers.iter().find(|(label, _)| *label == part.label)?;
    let (printed, typed): (&AnswerUnit, &AnswerUnit) = match &part.ask {
        Ask::Value(value) => (&value.unit, &value.typed_unit),
        Ask::Place(place) => (&place.unit, &place.typed_unit),
        Ask::Choice(_) | Ask::Sketch { .. } => return None,
    };
    let factor = match (answer, units) {
        (Answer::Value(_), _) => 1.0,
        (Answer::Bare(_), Units::Typed) => typed.in_si(),
        (Answer::Bare(_), Units::Printed | Units::Wanted) => printed.in_si(),
        _ => return None,
    };
    let (Answer::Value(written) | Answer::Bare(written)) = answer else { return None };
    let judged = student.marked.part(&part.label)?;
    let value = factor * written.number();
    Some(GivenValue {
        value,
        half_place: written.half_place().map_or(FOURTH_FIGURE * value.abs(), |half| half * factor),
        wrong: matches!(
            judged.verdict,
            Verdict::Explained(_) | Verdict::Ambiguous { .. } | Verdict::Unknown { .. }
        ),
    })
}

fn belonging(part: &Part) -> Option<Belonging> {
    match &part.ask {
        Ask::Value(value) => Some(Belonging {
            right: value.right,
            wrong: value.mistakes.iter().map(|mistake| mistake.value).collect(),
        }),
        Ask::Place(place) => match place.right.as_slice() {
            [one] if one.lower == one.upper => Some(Belonging { right: one.lower, wrong: Vec::new() }),
            _ => None,
        },
        Ask::Choice(_) | Ask::Sketch { .. } => None,
    }
}
