//! What goes with the elastic truth in words: what was assumed, what has no limit, and what the lesson might still state.

use super::ElasticTruth;
use crate::dimension::Dimension;
use crate::material::Behaviour;
use crate::problem::JointKind;
use crate::quantity::Quantity;
use crate::role::Role;
use crate::solved::Solved;

impl ElasticTruth {
    /// What the lecturer may still state so that the elastic solution tells more: no matter for students.
    pub fn hint(solved: &Solved) -> Option<&'static str> {
        has_timber_without_shear_modulus(solved).then_some(
            "State the `shear-modulus` of the timber, about a sixteenth of its `E`, so that the deflection of shear is counted with it.",
        )
    }

    /// What goes with the values, in words: what was assumed, and what has no limit.
    pub fn cautions(&self, solved: &Solved) -> Vec<String> {
        let style = solved.style();
        let nu = style.text(Quantity::new(self.poisson_ratio(), Dimension::NONE), Role::PoissonRatio);
        let problem = solved.problem();
        let known = match problem.shear.poisson_ratio {
            Some(_) => "Poisson's ratio is given",
            None if problem.shear.assumes_poisson_ratio(problem.elastic_modulus) => {
                "Poisson's ratio is assumed"
            }
            None => "Poisson's ratio follows from the shear modulus",
        };
        let mut cautions = vec![format!(
            "{known}: {nu}. The stresses are those of elastic theory at a distance of about one depth from forces and supports."
        )];
        if has_timber_without_shear_modulus(solved) {
            cautions.push(
                "The shear modulus is reckoned from this ratio, as of a material that is alike in all directions. Timber is not: \
                 along its grain its shear modulus is about a sixteenth of E, and shear adds several times as much to the \
                 deflection."
                    .into(),
            );
        }
        if !self.materials.is_empty() {
            cautions.push(
                "One Poisson's ratio stands for the sideways contraction of all materials: that they press on one another across \
                 the section is left out."
                    .into(),
            );
        }
        if self.has_materials_side_by_side() {
            cautions.push(
                "Where materials lie side by side V Q / (I t) is a mean over all of them, and the stress of none. Sheared alike, \
                 each bears the shear flow times its shear modulus over the sum of all shear moduli times widths: an \
                 approximation. The true stress in each is the value to trust."
                    .into(),
            );
        }
        let held = problem.joints.iter().filter(|joint| joint.kind != JointKind::Glue);
        let held: Vec<&str> = held.map(|joint| joint.name.as_str()).collect();
        if !held.is_empty() {
            cautions.push(format!(
                "The section is taken as if it were one piece. At {} the parts are held by fasteners or welds, which pass the shear flow \
                 on in places: the true stress on the faces between is not the one that stands here.",
                held.join(" and ")
            ));
        }
        if !self.sharp_corners().is_empty() {
            cautions.push(
                "At a sharp re-entrant corner elastic theory gives no largest stress: it grows without limit towards the \
                 corner. Real corners are rounded, or yield; what lies within a quarter of the wall of a corner is left out \
                 here."
                    .into(),
            );
        }
        if self.bends_askew() {
            cautions.push(
                "V Q / (I t) does not hold for this section: no axis of symmetry stands upright or level, and under an \
                 upright shear force alone it bends askew. The true stresses are those of this force through the shear centre, \
                 with nothing that holds the beam sideways."
                    .into(),
            );
        }
        if self.cut.is_some_and(|cut| !cut.has_largest) {
            cautions.push(
                "The cut runs through such a corner: on it there is a mean, but no largest stress.".into(),
            );
        }
        if self.cut.is_none() {
            cautions.push(
                "At the cut the parts touch over less than their width, so the stress there is no matter of the section \
                 alone, and is not compared."
                    .into(),
            );
        }
        cautions
    }
}

/// Whether some part is of timber of which no shear modulus is stated.
fn has_timber_without_shear_modulus(solved: &Solved) -> bool {
    let problem = solved.problem();
    (0..problem.parts.len()).any(|part| {
        let name = problem.part_materials.get(part).and_then(|of| of.name.as_deref());
        let grained = name.is_some_and(|name| Behaviour::of(name) == Behaviour::Grained);
        grained && problem.shear_given(part).shear_modulus.is_none()
    })
}
