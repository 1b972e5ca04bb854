//! How deep a section must at least be for its limits, and at which span bending and shear govern a rectangle alike.

use super::allowables::{AllowableParts, CAUTION, Limit, LimitKind, RatioWorkings};
use super::beam_givens::BeamGivens;
use super::builder::{Builder, Entry};
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, Id};
use mechanics::beam::Hold;
use mechanics::section::{Edge, Figure, Section};

const CHAPTER: Chapter = Chapter::Allowables;

/// A support nearer to an end than this part of the length stands at it.
const SAME_STATION: f64 = 1e-9;

impl Builder<'_> {
    /// The depth, and the least one for each limit, with the largest of these: every height of the section is stretched alike, every breadth
    /// stays. So I grows with the cube of the depth, the distances with the depth itself, Q with its square, t not at all.
    ///
    /// None where that has no meaning: a round or rolled section is no longer one when it is stretched, on springs the
    /// bending moment would change with it, and a joint with upright contacts has no such simple law.
    pub(super) fn least_depths(
        &mut self,
        parts: &AllowableParts<'_>,
        limits: &[Limit],
        factors: &[Id],
    ) -> Result<Option<(Id, Vec<Id>)>, EvaluationError> {
        let spring = |hold: &Hold| matches!(hold, Hold::Spring { .. });
        let sprung = self.problem.beam.supports.iter().any(|s| spring(&s.transverse) || spring(&s.rotation));
        let other = limits.iter().any(|limit| limit.kind == LimitKind::Other);
        if sprung || other || !is_straight(parts.engine) {
            return Ok(None);
        }
        let depth = self.depth(parts)?;
        let mut depths = Vec::with_capacity(limits.len());
        for (limit, &factor) in limits.iter().zip(factors) {
            let law = match limit.kind {
                LimitKind::Bending => "with the square of the depth",
                LimitKind::Deflection => "with the cube of the depth",
                LimitKind::DeflectionWithShear { .. } => {
                    "by its part of bending with the cube of the depth, by that of shear with the depth"
                }
                LimitKind::BendingWithShear { .. } => {
                    "by its bending stress with the square of the depth, by its shear stress with the depth"
                }
                LimitKind::Shear | LimitKind::Other => "with the depth",
            };
            let says = format!(
                "With every height of the section stretched alike and every breadth as it is, what the {} allows grows {law}: \
                 at this depth it is just used up by the given loads.",
                limit.words
            );
            let index = format!("{}, least", limit.index);
            let entry = Entry::new(CHAPTER, Role::Height, &index, format!("least depth for {}", limit.words))
                .says(says);
            let factor = Expression::from(factor);
            depths.push(match limit.kind {
                LimitKind::Bending => self.formula(entry, depth_over(depth, factor.root()))?,
                LimitKind::Deflection => self.formula(entry, depth_over(depth, factor.cube_root()))?,
                LimitKind::DeflectionWithShear { form_factor, shear_modulus } => {
                    let of_shear = [form_factor, shear_modulus];
                    self.depth_for_deflection_with_shear(parts, entry, (limit, depth), of_shear)?
                }
                LimitKind::BendingWithShear { bending, shear } => {
                    let stretched = Expression::from(depth) * stretch(bending, shear, limit.allowed);
                    self.formula(entry, stretched)?
                }
                LimitKind::Shear | LimitKind::Other => self.formula(entry, depth_over(depth, factor))?,
            });
        }
        let says = format!("Every limit must be kept, so the largest of these depths is needed. {CAUTION}");
        let entry = Entry::new(CHAPTER, Role::Height, "least", "least depth of the section").says(says);
        let value = Call::LargestSize.evaluate(&depths, self.workings.values());
        let how = "The largest of the depths that the limits ask for.";
        self.engine(entry, how, (depths.clone(), Call::LargestSize), value, Dimension::LENGTH)?;
        Ok(Some((depth, depths)))
    }

    /// The depth of the section, from the heights of its outer fibres.
    fn depth(&mut self, parts: &AllowableParts<'_>) -> Result<Id, EvaluationError> {
        let name = "depth of the section";
        if let Some(id) = self.workings.id(name) {
            return Ok(id);
        }
        let (top, bottom) = (parts.section.top, parts.section.bottom);
        let depth = match self.value(bottom) == 0.0 {
            true => top.into(),
            false => Expression::from(top) - bottom.into(),
        };
        let entry =
            Entry::new(CHAPTER, Role::Height, "whole", name).says("From the lowest to the highest fibre.");
        self.formula(entry, depth)
    }

    /// For a beam that is one rectangle and one span, with limits to both bending and shear: the span over the depth, and at which value of
    /// it both govern alike under loads like these.
    ///
    /// # Source
    /// `sigma = 6 M / (b h²)` and `tau = 3 V / (2 b h)`, any textbook; with `M = m V L` their quotient is `4 m L / h`.
    pub(super) fn span_ratios(
        &mut self,
        parts: &AllowableParts<'_>,
        limits: &[Limit],
    ) -> Result<Option<RatioWorkings>, EvaluationError> {
        let rectangle = matches!(parts.engine.parts(), [only] if only.holes.is_empty()
            && matches!(only.figure, Figure::Rectangle { .. }));
        let bending: Vec<Id> = limits
            .iter()
            .filter(|limit| limit.kind == LimitKind::Bending)
            .map(|limit| limit.allowed)
            .collect();
        let shear = limits.iter().find(|limit| limit.index == "s").map(|limit| limit.allowed);
        let (Some(shear), false, true) = (shear, bending.is_empty(), rectangle) else { return Ok(None) };
        let Some(span) = self.span(parts.beam) else { return Ok(None) };
        let moments: Vec<Id> =
            [parts.diagrams.sagging, parts.diagrams.hogging].into_iter().flatten().collect();
        let most = match moments.as_slice() {
            [only] => *only,
            _ => {
                let value = Call::LargestSize.evaluate(&moments, self.workings.values());
                let entry = Entry::new(
                    CHAPTER,
                    Role::BendingMoment,
                    "size",
                    "largest size of the bending moment",
                )
                .says(
                    "A rectangle bends as well one way as the other, so the larger of both moments counts.",
                );
                let how = "The larger of the largest sagging and the largest hogging moment, by its size.";
                self.engine(entry, how, (moments, Call::LargestSize), value, Dimension::MOMENT)?
            }
        };
        let allowed = match bending.as_slice() {
            [only] => *only,
            [first, second] if first == second => *first,
            _ => {
                let value = Call::Least.evaluate(&bending, self.workings.values());
                let entry = Entry::new(
                    CHAPTER,
                    Role::BendingStress,
                    "least",
                    "lesser allowable bending stress",
                )
                .says("In a rectangle tension and compression are alike, so the lesser of both decides.");
                let how = "The lesser of the allowable tension and the allowable compression.";
                self.engine(entry, how, (bending, Call::Least), value, Dimension::STRESS)?
            }
        };
        let depth = self.depth(parts)?;
        let entry = Entry::new(CHAPTER, Role::Ratio, "L/h", "span-to-depth ratio of the beam").says(
            match span == parts.beam.length.into() {
                true => "The length of the beam over its depth.",
                false => "From one support to the other, over the depth of the beam.",
            },
        );
        let own = self.formula(entry, span.clone() / depth.into())?;
        let entry = Entry::new(CHAPTER, Role::Ratio, "M/VL", "largest moment over largest shear force and span").says(
            "A number that tells the kind of load: 1/2 for a force in the middle of two supports, 1/4 for a uniform load, and \
             the same however long the beam is, if its loads keep their places in proportion.",
        );
        let shear_force = parts.diagrams.largest_shear;
        let kind = Expression::from(most).size() / (Expression::from(shear_force).size() * span);
        let kind = self.formula(entry, kind)?;
        let entry = Entry::new(
            CHAPTER,
            Role::Ratio,
            "L/h, alike",
            "span-to-depth ratio at which bending and shear govern alike",
        )
        .says(
            "The quotient of the largest bending stress 6 M / (b h²) and the largest shear stress 3 V / (2 b h) grows with the \
             span over the depth. Where it is the quotient of the allowable stresses both are used up at once: shorter beams \
             than this are governed by shear, longer ones by bending.",
        );
        let alike = Expression::from(allowed)
            / (Expression::Number(4.0) * Expression::from(kind) * Expression::from(shear));
        let alike = self.formula(entry, alike)?;
        Ok(Some(RatioWorkings { own, kind, alike }))
    }
}

impl Builder<'_> {
    /// The span: the length of a beam that is held at both ends or at one alone, else from one of two supports to the other. None of
    /// several spans, and none where a hinge parts the beam.
    fn span(&self, beam: &BeamGivens) -> Option<Expression> {
        let whole = self.value(beam.length);
        let nothing = SAME_STATION * whole;
        let held = &beam.supports;
        let mut stations: Vec<Id> = held.iter().map(|support| support.station).collect();
        stations.sort_by(|&a, &b| self.value(a).total_cmp(&self.value(b)));
        let [first, last] = match *stations.as_slice() {
            [_] => return beam.hinges.is_empty().then(|| beam.length.into()),
            [first, last] if beam.hinges.is_empty() => [first, last],
            _ => return None,
        };
        let [from, to] = [first, last].map(|id| self.value(id));
        Some(match (from <= nothing, to >= whole - nothing) {
            (true, true) => beam.length.into(),
            (true, false) => last.into(),
            _ => Expression::from(last) - first.into(),
        })
    }
}

/// By how much the heights must grow for the equivalent stress: of `σ² / s⁴ + 3 τ² / s² = σ_allow²` the root for `s`.
fn stretch(bending: Id, shear: Id, allowed: Id) -> Expression {
    let square = |id: Id| Expression::from(id).power(2);
    let three = Expression::Number(3.0) * square(shear);
    let inner = three.clone().power(2) + Expression::Number(4.0) * square(allowed) * square(bending);
    ((three + inner.root()) / (Expression::Number(2.0) * square(allowed))).root()
}

fn depth_over(depth: Id, by: Expression) -> Expression {
    Expression::from(depth) / by
}

/// Whether every outline of the section has straight edges only.
fn is_straight(section: &Section) -> bool {
    let loops = section.parts().iter().flat_map(|part| std::iter::once(&part.outline).chain(&part.holes));
    loops.flat_map(|ring| &ring.path).all(|edge| matches!(edge, Edge::Line { .. }))
}
