//! Mistakes with the formula of the longitudinal shear stress and with its largest value.

use super::lesson::{Lesson, Replaced};
use super::source::Source::{
    CommonErrors, ConcreteCode, Memory, RectangleExercise, ShearInContext, SteelPractice,
};
use super::{Kind, Mistake};
use crate::build::{CutWorkings, PieceWorkings, Size, zero};
use crate::dimension::Dimension;
use crate::expression::Expression;
use crate::quantity::Quantity;
use crate::role::Role;
use crate::working::{Chapter::Shear, Formula, HeightSide, Id};
use Kind::{Concept, Execution, Procedure};
use mechanics::stress::StressOverDepth;

pub(super) static MISTAKES: [Mistake; 12] = [
    Mistake::usual(
        ("mean-over-the-section", Shear, Concept),
        "gives {V}/{A}",
        "That is the mean. The stress varies over the depth, and is zero at the outer faces.",
        &[RectangleExercise, Memory],
        |lesson| each(lesson, |tau| Some(tau.shear / tau.area)),
    ),
    Mistake::usual(
        ("rectangle-factor", Shear, Concept),
        "gives 1.5 {V}/{A} for any section",
        "3/2 belongs to the rectangle.",
        &[Memory],
        |lesson| each(lesson, |tau| Some(Expression::from(1.5) * tau.shear / tau.area)),
    ),
    Mistake::usual(
        ("mean-over-the-web", Shear, Procedure),
        "gives {V} over the area of the web where the formula was asked for",
        "A fair estimate for thin webs; here the formula was asked for.",
        &[SteelPractice],
        over_the_web,
    ),
    Mistake::usual(
        ("v-over-the-part", Shear, Concept),
        "gives {V}/{A'}",
        "{V} does not act on {A'} alone.",
        &[Memory],
        |lesson| each(lesson, |tau| Some(tau.shear / tau.cut.centroid.map(|_| tau.cut.area)?.into())),
    ),
    Mistake::usual(
        ("t-forgotten", Shear, Execution),
        "gives {V} {Q}/{I}, the shear flow, for the stress",
        "That is the shear flow, {unit of q}. Divide by the width.",
        &[Memory],
        |lesson| each_in_numbers(lesson, |tau| tau.shear * tau.first_moment / tau.second_moment),
    ),
    Mistake::usual(
        ("bracket-slip", Shear, Execution),
        "types {V} {Q} / {I} · {t} without brackets",
        "Divide by {t} as well.",
        &[CommonErrors],
        |lesson| each_in_numbers(lesson, |tau| tau.shear * tau.first_moment / tau.second_moment * tau.width),
    ),
    Mistake::usual(
        ("m-for-v", Shear, Concept),
        "uses {M} in the shear formula",
        "Shear stress follows the change of {M}, that is {V}.",
        &[Memory],
        |lesson| {
            each_in_numbers(lesson, |tau| tau.moment * tau.first_moment / (tau.second_moment * tau.width))
        },
    ),
    Mistake::usual(
        ("i-of-the-part", Shear, Concept),
        "takes {I} of {A'} only",
        "{I} is of the whole section.",
        &[Memory],
        second_moment_of_the_part,
    ),
    Mistake::usual(
        ("zero-where-bending-is-zero", Shear, Concept),
        "says that {tau} is zero at the neutral axis",
        "{sigma} is zero there. The difference of {sigma} between the faces, summed over {A'}, is largest there.",
        &[ShearInContext],
        zero_at_the_axis,
    ),
    Mistake::usual(
        ("largest-at-the-edge", Shear, Concept),
        "takes {tau} at the edge of the web for the largest",
        "The largest {tau} is where {Q}/{t} is largest: here look towards the neutral axis as well.",
        &[ConcreteCode, Memory],
        largest_at_the_edge,
    ),
    Mistake::usual(
        ("largest-at-the-axis", Shear, Concept),
        "takes {tau} at the neutral axis for the largest",
        "The largest {tau} is where {Q}/{t} is largest, which need not be the neutral axis.",
        &[ConcreteCode, Memory],
        |lesson| {
            let shear = &lesson.chapters().shear;
            vec![Replaced::by(shear.largest_over_depth, shear.at_axis.stress.into())]
        },
    ),
    Mistake::usual(
        ("v-at-the-wrong-station", Shear, Concept),
        "uses {V} at midspan, or where {M} is largest, for the largest {tau}",
        "The largest {tau} needs the largest {V}.",
        &[Memory],
        wrong_station,
    ),
];

/// A shear stress that is computed by the formula: what goes into it.
struct Tau<'a> {
    stress: Id,
    shear: Expression,
    moment: Expression,
    first_moment: Expression,
    second_moment: Expression,
    width: Expression,
    /// The area of the section as drawn.
    area: Expression,
    cut: &'a CutWorkings,
}

/// The stresses on the cut, on its other side, at the neutral axis, at the place of the largest, and the largest along
/// the beam; those that are computed by the formula and not taken over from another one.
fn stresses<'a>(lesson: &Lesson<'a>) -> Vec<Tau<'a>> {
    let key = lesson.solved.key();
    let chapters = lesson.chapters();
    let (shear, diagrams) = (&chapters.shear, &chapters.diagrams);
    let here = (Expression::from(key.shear), Expression::from(key.moment));
    let most = diagrams.sagging.or(diagrams.hogging).unwrap_or(key.moment);
    let most = (Expression::from(diagrams.largest_shear).size(), Expression::from(most));
    let along = [shear.at_largest.as_ref().map(|at| &at.cut), Some(&shear.at_axis.cut), Some(&shear.cut)];
    let along = along.into_iter().flatten().find(|cut| {
        lesson.reads(shear.largest_along_beam, cut.first_moment)
            && lesson.reads(shear.largest_along_beam, cut.width)
    });
    let others = [shear.other_side.as_ref(), Some(&shear.at_axis), shear.at_largest.as_ref()];
    let mut all = vec![(shear.stress_on_cut, here.clone(), &shear.cut)];
    all.extend(others.into_iter().flatten().map(|at| (at.stress, here.clone(), &at.cut)));
    all.extend(along.map(|cut| (shear.largest_along_beam, most, cut)));
    all.retain(|(stress, ..)| {
        matches!(lesson.working(*stress).formula, Formula::Expression(Expression::Quotient(..)))
    });
    let tau = |(stress, (force, moment), cut): (Id, (Expression, Expression), &'a CutWorkings)| Tau {
        stress,
        shear: force,
        moment,
        first_moment: cut.first_moment.into(),
        second_moment: key.second_moment.into(),
        width: cut.width.into(),
        area: shear.plain_area.into(),
        cut,
    };
    all.into_iter().map(tau).collect()
}

fn each(lesson: &Lesson<'_>, wrong: fn(Tau<'_>) -> Option<Expression>) -> Vec<Replaced> {
    let made = |tau: Tau<'_>| {
        let stress = tau.stress;
        wrong(tau).map(|formula| Replaced::by(stress, formula))
    };
    stresses(lesson).into_iter().filter_map(made).collect()
}

fn each_in_numbers(lesson: &Lesson<'_>, wrong: fn(Tau<'_>) -> Expression) -> Vec<Replaced> {
    let units = lesson.section_units();
    let made = |tau: Tau<'_>| Replaced::numbers(tau.stress, wrong(tau), units);
    stresses(lesson).into_iter().map(made).collect()
}

/// The web is as wide as the section at its neutral axis, where that is less than its breadth.
fn over_the_web(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let web = lesson.chapters().shear.at_axis.cut.width;
    let breadth = lesson.solved.section().properties().breadth();
    if lesson.value(web) <= 0.0 || lesson.value(web) >= breadth * (1.0 - 1e-9) {
        return Vec::new();
    }
    let mean = |tau: Tau<'_>| Replaced::by(tau.stress, tau.shear / (Expression::from(web) * lesson.depth()));
    stresses(lesson).into_iter().map(mean).collect()
}

/// About the part's own axis, and about the neutral axis.
fn second_moment_of_the_part(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let mut made = Vec::new();
    for tau in stresses(lesson) {
        let Some(centroid) = tau.cut.centroid else { continue };
        for axis in [centroid, lesson.solved.key().centroid] {
            let Some(of_part) = about(lesson, tau.cut, axis) else { continue };
            let formula = tau.shear.clone() * tau.first_moment.clone() / (of_part * tau.width.clone());
            made.push(Replaced::by(tau.stress, formula));
        }
    }
    made
}

/// The second moment of the part beyond a cut about the level axis at a height; none where it holds an outline that is
/// cut through.
fn about(lesson: &Lesson<'_>, cut: &CutWorkings, axis: Id) -> Option<Expression> {
    let mut terms = Vec::new();
    let alone = cut.pieces.len() == 1 && Some(axis) == cut.centroid;
    for beyond in &cut.pieces {
        let piece = lesson.chapters().section.pieces.get(beyond.piece)?;
        let own =
            if beyond.whole { piece.shifted?.own.into() } else { own_of_rectangle(piece, beyond.depth?)? };
        if alone {
            return Some(own);
        }
        let distance = beyond.centroid.clone() - axis.into();
        terms.push(own + beyond.area.clone() * distance.power(2));
    }
    (!terms.is_empty()).then(|| Expression::sum_over(terms))
}

fn own_of_rectangle(piece: &PieceWorkings, depth: Id) -> Option<Expression> {
    match piece.placed.size {
        Size::Rectangle { breadth, .. } => {
            let plain = Expression::from(breadth) * Expression::from(depth).power(3) / 12.0.into();
            Some(piece.placed.counted(plain))
        }
        Size::Round { .. } | Size::Triangle { .. } | Size::Outline => None,
    }
}

/// Where the lesson cuts at the neutral axis, the stress there is that on the cut.
fn zero_at_the_axis(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let stress = lesson.chapters().shear.at_axis.stress;
    let stress = match lesson.working(stress).formula {
        Formula::Expression(Expression::Working(taken_over)) => taken_over,
        _ => stress,
    };
    vec![Replaced::nothing(stress)]
}

/// Where the width jumps, on the narrower side: at the cut, or else where the stress is largest of all jumps, as V times
/// the stress under a unit of it.
fn largest_at_the_edge(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let shear = &lesson.chapters().shear;
    let over_depth = shear.largest_over_depth;
    if let Some(other) = &shear.other_side {
        let narrower = match lesson.value(other.cut.width) < lesson.value(shear.cut.width) {
            true => other.stress,
            false => shear.stress_on_cut,
        };
        return vec![Replaced::by(over_depth, narrower.into())];
    }
    let section = lesson.solved.section();
    let under_unit = StressOverDepth::new(section, 0.0, 1.0);
    let near = 1e-9 * section.properties().height();
    let at_jump = |height: f64| {
        let sides = [HeightSide::Below, HeightSide::Above];
        let [below, above] = sides.map(|side| section.width(height, side));
        let inside = below > near && above > near && (below - above).abs() > near;
        let narrower = if below < above { HeightSide::Below } else { HeightSide::Above };
        inside.then(|| under_unit.shear_stress(height, narrower))
    };
    let largest = section.levels().filter_map(at_jump).max_by(|a, b| a.abs().total_cmp(&b.abs()));
    let times_shear = |per_shear: f64| {
        let per_area = Quantity::new(per_shear, Dimension::of(0, -2, 0));
        Expression::from(lesson.solved.key().shear) * Expression::Quantity(per_area, Role::Ratio)
    };
    largest.map(|tau| Replaced::by(over_depth, times_shear(tau))).into_iter().collect()
}

fn wrong_station(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let diagrams = &lesson.chapters().diagrams;
    let size = |id: &Id| lesson.value(*id).abs();
    let most = match (diagrams.sagging, diagrams.hogging) {
        // Of two that are alike the sagging one: rounding must not decide.
        (Some(sagging), Some(hogging)) if size(&hogging) <= size(&sagging) + lesson.no_moment() => sagging,
        (sagging, hogging) => match hogging.or(sagging) {
            Some(most) => most,
            None => return Vec::new(),
        },
    };
    let mut shears = Vec::new();
    if let Some(x) = lesson.working(most).place.station {
        let stop = diagrams.stops.iter().find(|stop| lesson.same_station(lesson.value(stop.station), x));
        match stop {
            Some(stop) => {
                shears.push(stop.shear[0].into());
                if stop.shear[1] != stop.shear[0] {
                    shears.push(stop.shear[1].into());
                }
            }
            // Between the key stations M is largest only where V is zero.
            None => shears.push(zero(Dimension::FORCE, Role::ShearForce)),
        }
    }
    let middle = lesson.midspan_of(most).and_then(|middle| lesson.inner_at(&middle));
    shears.extend(middle.map(|inner| inner.shear));
    let along = lesson.chapters().shear.largest_along_beam;
    let with = |shear: Expression| lesson.with(along, diagrams.largest_shear, &shear);
    shears.into_iter().filter_map(with).map(|formula| Replaced::by(along, formula)).collect()
}
