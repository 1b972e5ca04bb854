//! The slice of finite length: the resultants on the part beyond the cut, the force that holds it, and how the
//! mean stress on the cut tends to the formula.

use super::balance::Reactions;
use super::beam_givens::BeamGivens;
use super::builder::{Builder, Entry};
use super::free_body::{Inner, Station};
use super::section::SectionWorkings;
use super::shear::ShearWorkings;
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, HeightSide, Id};
use mechanics::beam::Side;

const CHAPTER: Chapter = Chapter::Slice;

/// How often the slice is halved in the table of how it tends to the formula.
const HALVINGS: u32 = 5;

/// The workings of the slice.
#[derive(Clone, Debug)]
pub struct SliceWorkings {
    /// Station of the left face.
    pub left_station: Id,
    /// Station of the right face.
    pub right_station: Id,
    /// Length of the slice.
    pub length: Id,
    /// V on the left face.
    pub shear_left: Id,
    /// V on the right face.
    pub shear_right: Id,
    /// M on the left face.
    pub moment_left: Id,
    /// M on the right face.
    pub moment_right: Id,
    /// Difference of the two.
    pub moment_change: Id,
    /// Resultant on A' of the left face, tension positive.
    pub resultant_left: Id,
    /// Resultant on A' of the right face, tension positive.
    pub resultant_right: Id,
    /// Force on the cut, to the right on the part beyond.
    pub force_on_cut: Id,
    /// Its mean stress, with the sign of the mean shear force.
    pub mean_stress: Id,
    /// How the slice tends to the formula.
    pub approach: Vec<Approach>,
}

/// One line of the table of how the finite slice tends to the formula.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Approach {
    /// Length of the slice.
    pub length: Id,
    /// Mean stress on its cut.
    pub mean_stress: Id,
    /// Its difference from the formula.
    pub difference: Id,
    /// The difference of the line before over this one; none in the first line, and where the difference is zero.
    pub ratio: Option<Id>,
}

/// What the slice is made of.
pub(crate) struct SliceParts<'a> {
    pub(crate) beam: &'a BeamGivens,
    pub(crate) reactions: &'a Reactions,
    pub(crate) section: &'a SectionWorkings,
    pub(crate) shear: &'a ShearWorkings,
    pub(crate) station: Id,
    pub(crate) length: Id,
    pub(crate) left: Inner,
    /// The slice ends at the beam's right end, where its stress is asked for.
    pub(crate) at_end: bool,
}

impl Builder<'_> {
    /// The workings of the slice.
    pub(crate) fn slice(&mut self, parts: &SliceParts<'_>) -> Result<SliceWorkings, EvaluationError> {
        let SliceParts { beam, reactions, section, shear, station, length, left, at_end } = *parts;
        let (x, dx) = (self.value(station), self.value(length));
        let entry = Entry::new(CHAPTER, Role::Station, "right", "station of the right face")
            .at(x + dx, None)
            .says("The slice reaches from its left face to here.");
        let right_station = if at_end {
            self.formula(entry, beam.length.into())?
        } else if self.value(station) == 0.0 {
            self.formula(entry, length.into())?
        } else {
            self.formula(entry, Expression::from(station) + length.into())?
        };
        let right = self.free_body(
            beam,
            reactions,
            &Station {
                chapter: CHAPTER,
                station: right_station,
                side: Side::Left,
                words: "on the right face",
                left_of: "left of the right face",
                index: "right",
            },
        )?;
        let entry = Entry::new(CHAPTER, Role::BendingMoment, "Δ", "change of the bending moment")
            .says("The moments on the two faces differ: that is what makes the longitudinal shear.");
        let moment_change = self.formula(entry, Expression::from(right.moment) - left.moment.into())?;
        let resultant_left = self.resultant_on_face(section, shear, left.moment, x, "left")?;
        let resultant_right = self.resultant_on_face(section, shear, right.moment, x + dx, "right")?;
        let entry = Entry::new(CHAPTER, Role::ForceOnCut, "", "force on the cut").says(
            "The resultants on the two faces of the part beyond do not balance each other; the cut must supply the \
             difference (positive to the right, on the part beyond).",
        );
        let force_on_cut = self.formula(entry, Expression::from(resultant_left) - resultant_right.into())?;
        let entry = Entry::new(CHAPTER, Role::ShearStress, "mean", "mean shear stress on the cut")
            .says("The force on the cut, spread over its area t dx: the mean over the length of the slice.");
        let mean = if self.value(shear.cut.width) == 0.0 {
            super::builder::zero(Dimension::STRESS, Role::ShearStress)
        } else {
            let area = Expression::from(shear.cut.width) * length.into();
            self.toward(Expression::from(force_on_cut) / area)
        };
        let mean_stress = self.formula(entry, mean)?;
        let mut slice = SliceWorkings {
            left_station: station,
            right_station,
            length,
            shear_left: left.shear,
            shear_right: right.shear,
            moment_left: left.moment,
            moment_right: right.moment,
            moment_change,
            resultant_left,
            resultant_right,
            force_on_cut,
            mean_stress,
            approach: Vec::new(),
        };
        if self.value(shear.cut.width) > 0.0 && !at_end {
            slice.approach = self.approach(parts, mean_stress)?;
        }
        Ok(slice)
    }

    /// A force on the part beyond, turned into one with the sign of the shear force.
    fn toward(&self, force: Expression) -> Expression {
        match self.problem.cut.beyond {
            HeightSide::Above => force,
            HeightSide::Below => -force,
        }
    }

    fn resultant_on_face(
        &mut self,
        section: &SectionWorkings,
        shear: &ShearWorkings,
        moment: Id,
        x: f64,
        face: &str,
    ) -> Result<Id, EvaluationError> {
        let entry = Entry::new(CHAPTER, Role::StressResultant, face, format!("resultant on the {face} face"))
            .at(x, None)
            .says(format!(
                "All the bending stress on the {face} face of the part beyond the cut, added up (tension positive)."
            ));
        let size = Expression::from(moment) * shear.cut.first_moment.into() / section.second_moment.into();
        let resultant = match self.problem.cut.beyond {
            HeightSide::Above => -size,
            HeightSide::Below => size,
        };
        self.formula(entry, resultant)
    }

    /// The slice, halved again and again.
    fn approach(
        &mut self,
        parts: &SliceParts<'_>,
        mean_stress: Id,
    ) -> Result<Vec<Approach>, EvaluationError> {
        let tau = parts.shear.stress_on_cut;
        let (reads, question) = self.beam_question(parts.beam, &[]);
        let difference = |builder: &mut Self, mean: Id, words: &str, index: &str| {
            let entry = Entry::new(
                CHAPTER,
                Role::ShearStress,
                &format!("{index}, difference"),
                format!("difference from the formula{words}"),
            )
            .says("By how much the mean over the slice differs from V Q / (I t) at its left face.");
            builder.formula(entry, Expression::from(mean) - tau.into())
        };
        let first = difference(self, mean_stress, "", "0")?;
        let mut table = vec![Approach { length: parts.length, mean_stress, difference: first, ratio: None }];
        let scale = self.value(tau).abs().max(self.value(mean_stress).abs());
        if self.value(first).abs() <= 1e-9 * scale {
            // Under no spread load the mean is the formula's stress at any length: nothing tends to anything.
            return Ok(table);
        }
        for halved in 1..=HALVINGS {
            let words = match halved {
                1 => ", slice halved once".to_owned(),
                2 => ", slice halved twice".to_owned(),
                _ => format!(", slice halved {halved} times"),
            };
            let index = halved.to_string();
            let entry = Entry::new(CHAPTER, Role::SliceLength, &index, format!("length of the slice{words}"))
                .says("A shorter slice at the same station.");
            let length =
                self.formula(entry, Expression::from(parts.length) / f64::from(1_u32 << halved).into())?;
            let entry =
                Entry::new(CHAPTER, Role::Station, &format!("right, {index}"), format!("right face{words}"))
                    .says("Where the shorter slice ends.");
            let station = self.formula(entry, Expression::from(parts.station) + length.into())?;
            let mut reads = reads.clone();
            reads.push(station);
            let call = Call::BendingMoment(question.clone(), Side::Left);
            let value = call.evaluate(&reads, self.workings.values());
            let entry = Entry::new(
                CHAPTER,
                Role::BendingMoment,
                &format!("right, {index}"),
                format!("bending moment on the right face{words}"),
            )
            .says("The moment on the right face of the shorter slice.");
            let how = "From the exact solution of the beam.";
            let moment = self.engine(entry, how, (reads, call), value, Dimension::MOMENT)?;
            let change = Expression::from(moment) - parts.left.moment.into();
            let above = change * parts.shear.cut.first_moment.into();
            let below =
                Expression::from(parts.section.second_moment) * parts.shear.cut.width.into() * length.into();
            let entry = Entry::new(
                CHAPTER,
                Role::ShearStress,
                &format!("mean, {index}"),
                format!("mean shear stress on the cut{words}"),
            )
            .says("The mean on the cut of the shorter slice.");
            let mean = self.formula(entry, above / below)?;
            let difference = difference(self, mean, &words, &index)?;
            let before = table[table.len() - 1].difference;
            let tells = self.value(difference).abs() > 1e-9 * scale && self.value(before) != 0.0;
            let ratio = match tells {
                true => {
                    let entry =
                        Entry::new(CHAPTER, Role::Ratio, &index, format!("ratio of differences{words}"))
                            .says(
                                "Half the length leaves half the difference: the mean tends to the formula.",
                            );
                    Some(self.formula(entry, Expression::from(before) / difference.into())?)
                }
                false => None,
            };
            table.push(Approach { length, mean_stress: mean, difference, ratio });
        }
        Ok(table)
    }
}
