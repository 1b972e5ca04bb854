//! The largest deflection where it has a limit: of bending, and of shear as well where a shear modulus is stated.

use super::allowables::{AllowableParts, Limit, LimitKind};
use super::builder::{Builder, Entry};
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, Id};
use mechanics::beam::{Curve, Reached};
use mechanics::stress::StressOverDepth;

const CHAPTER: Chapter = Chapter::Allowables;

impl Builder<'_> {
    /// The largest deflection of the beam, where it has a limit.
    pub(super) fn limit_of_deflection(
        &mut self,
        parts: &AllowableParts<'_>,
    ) -> Result<Option<Limit>, EvaluationError> {
        let Some(allowed) = self.problem.allowable.deflection else { return Ok(None) };
        let entry = Entry::new(Chapter::Given, Role::Deflection, "allow", "allowable deflection")
            .says("How far the beam may bend, as given: a length, or a part of the span.");
        let allowed = self.given(entry, allowed, Dimension::LENGTH)?;
        let bending = self.largest_deflection(parts)?;
        let sheared = self.largest_deflection_with_shear(parts)?;
        let (reached, kind) = match sheared {
            Some((reached, kind)) => (reached, kind),
            None => (bending, LimitKind::Deflection),
        };
        let reached = match self.workings.id("times that it sinks more") {
            Some(times) => {
                let name = "largest deflection along the beam, free to go sideways";
                let entry = Entry::new(CHAPTER, Role::Deflection, "askew, max", name).says(
                    "Free to bend askew the beam sinks so many times more than its flexural rigidity about the level axis would let it.",
                );
                let bent = Expression::from(times) * bending.into();
                let free = match sheared {
                    Some((reached, _)) => bent + (Expression::from(reached) - bending.into()),
                    None => bent,
                };
                self.formula(entry, free)?
            }
            None => reached,
        };
        let (words, index) = ("deflection".to_owned(), "d".to_owned());
        Ok(Some(Limit { words, index, allowed, reached, is_of_joint: false, kind }))
    }

    /// Of bending alone.
    fn largest_deflection(&mut self, parts: &AllowableParts<'_>) -> Result<Id, EvaluationError> {
        let (reads, question) = self.beam_question(parts.beam, &[]);
        let call = Call::LargestDeflection(question);
        let value = call.evaluate(&reads, self.workings.values());
        let how =
            "The largest deflection by its size, up or down, from the exact deflected shape of the beam.";
        let mut entry = Entry::new(CHAPTER, Role::Deflection, "max", "largest deflection along the beam").says(
            "Where the slope is zero, or at a free end. It follows from E I v'' = M and, like the stresses, grows with the loads. Bending alone: what shear adds is not counted.",
        );
        let reached = parts.solution.extremes(Curve::Deflection).largest_size.reached;
        if let Some(Reached::At(place)) = reached.first() {
            entry = entry.at(place.station, None);
        }
        self.engine(entry, how, (reads, call), value, Dimension::LENGTH)
    }

    /// With what shear adds; none where no shear modulus is stated, for then a limit is one to bending, as in most courses.
    ///
    /// # Source
    /// Timoshenko's beam with the form factor of `V Q / (I t)`, any textbook of structural mechanics.
    fn largest_deflection_with_shear(
        &mut self,
        parts: &AllowableParts<'_>,
    ) -> Result<Option<(Id, LimitKind)>, EvaluationError> {
        let stated = |shear: &crate::shear_stiffness::ShearGiven| shear.shear_modulus.is_some();
        if !stated(&self.problem.shear) && !self.problem.part_materials.iter().any(|of| stated(&of.shear)) {
            return Ok(None);
        }
        let says = match self.problem.shear.shear_modulus {
            Some(_) => "As given.",
            None => "E / (2 (1 + ν)), as of a material that is alike in all directions.",
        };
        let entry = Entry::new(Chapter::Given, Role::ShearModulus, "", "shear modulus").says(says);
        let shear_modulus = self.given(entry, self.problem.shear_modulus(), Dimension::STRESS)?;
        let ratios = self.problem.elasticity().shear_ratios;
        let value = StressOverDepth::new(parts.engine, 0.0, 1.0).form_factor_with(&ratios);
        let says = "By so many times the energy of the shear stress V Q / (I t) is more than that of an even stress; 6/5 for a rectangle. \
                    By so many times shear tilts the axis more, too: by f V / (G A).";
        let entry = Entry::new(CHAPTER, Role::FormFactor, "", "form factor of shear").says(says);
        let how = "A / I² times the integral of Q² / t over the depth.";
        let form_factor = self.engine(entry, how, (Vec::new(), Call::Fixed), value, Dimension::NONE)?;
        let (mut reads, question) = self.beam_question(parts.beam, &[]);
        reads.extend([form_factor, shear_modulus, parts.section.area]);
        let call = Call::LargestDeflectionWithShear(question);
        let value = call.evaluate(&reads, self.workings.values());
        let how = "The largest by its size, from the shape of the beam whose axis slopes by f V / (G A) more than E I v'' = M says.";
        let name = "largest deflection along the beam with that of shear";
        let entry = Entry::new(CHAPTER, Role::Deflection, "max, V", name)
            .says("The lesson states a shear modulus, so what shear adds is counted.");
        let reached = self.engine(entry, how, (reads, call), value, Dimension::LENGTH)?;
        Ok(Some((reached, LimitKind::DeflectionWithShear { form_factor, shear_modulus })))
    }

    /// The depth at which a deflection with that of shear is what is allowed, every height stretched alike: I grows with its cube, A with itself.
    pub(super) fn depth_for_deflection_with_shear(
        &mut self,
        parts: &AllowableParts<'_>,
        entry: Entry,
        (limit, depth): (&Limit, Id),
        [form_factor, shear_modulus]: [Id; 2],
    ) -> Result<Id, EvaluationError> {
        let (mut reads, question) = self.beam_question(parts.beam, &[]);
        reads.extend([form_factor, shear_modulus, parts.section.area, limit.allowed, depth]);
        reads.extend(self.workings.id("times that it sinks more"));
        let call = Call::DepthForDeflection(question);
        let value = call.evaluate(&reads, self.workings.values());
        let how = "Found by trial: the deflection at a depth is reckoned, and the depth changed until it is the allowable one.";
        self.engine(entry, how, (reads, call), value, Dimension::LENGTH)
    }
}
