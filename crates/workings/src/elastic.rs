//! The elastic truth of a lesson beside `V Q / (I t)`: how the shear stress is spread over the width, where it is largest,
//! and by how much the formula falls short.
//!
//! It is solved when it is asked for, never with the lesson: it takes some ten milliseconds.

mod values;
mod words;

use crate::material::Material;
use crate::solved::Solved;
use crate::working::HeightSide;
use mechanics::beam::{Curve, Reached};
use mechanics::elastic::{
    Across, Effort, ElasticField, ElasticShear, Elasticity, Fault, LargestElastic, SharpCorner, ShearForce,
};
use mechanics::stress::{LargestShearStress, StressOverDepth};
use std::fmt;
use std::sync::Arc;

/// The stress on the cut is that of the level on one side of it where the two agree to this part of the largest stress; else
/// the cut runs through a joint that is narrower than both sides.
const SAME_STRESS: f64 = 1e-6;

/// Levels over the whole depth at which the stress is looked at, and the least number within a strip.
const LEVELS: (f64, usize) = (48.0, 4);

/// Why there is nothing to be said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoTruth {
    /// No shear force acts at the slice.
    NoShearForce,
    /// The section could not be solved.
    NotSolved(Fault),
    /// All of the section lies beside sharp corners.
    AllBesideCorners,
}

impl fmt::Display for NoTruth {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let why = match *self {
            Self::NoShearForce => "no shear force acts at the slice",
            Self::AllBesideCorners => "every point of the section lies beside a sharp corner",
            Self::NotSolved(fault) => match fault {
                Fault::PoissonRatio { .. } => "no material has this Poisson's ratio",
                Fault::ShearModulus => "no material has this shear modulus",
                Fault::Size { .. } => "the section is too large or too small to be reckoned with",
                Fault::TooFine { .. } => "walls or gaps of the section are too thin beside the whole",
                Fault::NoMesh { .. } => "two sides of a part come too near to each other",
                Fault::FoldedTriangle { .. } => "an arc of the outline runs into a corner of no angle",
                Fault::NotSolvable => {
                    "the parts hang together by too little, or their materials differ too much"
                }
                Fault::DoesNotClose { .. } => "the stresses found do not add up to the shear force",
            },
        };
        write!(f, "the elastic stresses of this section cannot be told: {why}")
    }
}

impl std::error::Error for NoTruth {}

/// The stresses at one level, seen from one side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AtLevel {
    /// Height in the coordinates of the outlines, m.
    pub height: f64,
    /// The side from which it is seen.
    pub side: HeightSide,
    /// By the formula and by elasticity.
    pub across: Across,
    /// Whether there is a largest stress at this level: none where it runs through a sharp corner, or so near that part of it
    /// is left out. The largest of `across` is then no more than that of the rest.
    pub has_largest: bool,
}

/// The stresses in one of several materials.
#[derive(Clone, Debug)]
pub struct InMaterial {
    /// The material.
    pub material: Material,
    /// Its shear modulus, Pa.
    pub shear_modulus: f64,
    /// Whether this hangs on a Poisson's ratio that is assumed.
    pub is_assumed: bool,
    /// The largest stress in it, Pa; none where all of it lies beside sharp corners.
    pub largest: Option<LargestElastic>,
    /// The stresses in it on the cut of the lesson, where another material lies beside it there; `formula` and `balanced` are those
    /// in which both are sheared alike.
    pub cut: Option<AtLevel>,
    /// The same at the neutral axis.
    pub axis: Option<AtLevel>,
}

/// What shear adds to the deflection of the beam, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SagOfShear {
    /// The largest deflection without it, its size: of bending, settlements and springs; greater than zero.
    pub without: f64,
    /// What it adds there; less than zero where it takes off.
    pub added: f64,
    /// The largest deflection with it, its size.
    pub with: f64,
}

impl SagOfShear {
    /// What it adds as a part of the deflection without it.
    pub fn share(&self) -> f64 {
        self.added / self.without
    }
}

/// What elasticity says of the section of a lesson at its slice, beside the formula.
///
/// Signs are those of the shear force: what the left piece does to the right one, up positive.
#[derive(Clone, Debug)]
pub struct ElasticTruth {
    elastic: Arc<ElasticShear>,
    formula: StressOverDepth,
    /// Shear force at the slice, N.
    pub shear_force: f64,
    /// The stresses along the cut; none where it is a joint narrower than both sides, or misses all that counts.
    pub cut: Option<AtLevel>,
    /// The stresses along the neutral axis; none where it misses the section.
    pub axis: Option<AtLevel>,
    /// The largest stress of the section, Pa.
    pub largest: LargestElastic,
    /// The stresses in each material, in the order of [`crate::problem::Problem::materials`]; empty where there is one.
    pub materials: Vec<InMaterial>,
    /// The largest that the formula gives at any height.
    pub largest_by_formula: LargestShearStress,
    /// The energy of shear in a unit of length is `f V² / (2 G A)`: this is `f`.
    pub form_factor: f64,
    /// The same, were `V Q / (I t)` the stress all over the width.
    pub form_factor_of_formula: f64,
    /// The shear coefficient after Cowper.
    pub shear_coefficient: Option<f64>,
    /// Angle by which shear tilts the mean line against the sections, `f V / (G A)`, rad; its size.
    pub tilt: f64,
}

impl ElasticTruth {
    /// Solves the section of a lesson under the shear force at its slice, with what it states of its materials.
    ///
    /// # Errors
    /// [`NoTruth`], which prints as the reason in words.
    pub fn of(solved: &Solved) -> Result<Self, NoTruth> {
        Self::of_elasticity(solved, solved.problem().elasticity())
    }

    /// The same with another Poisson's ratio, of materials that are alike in all directions.
    ///
    /// # Errors
    /// As [`ElasticTruth::of`].
    pub fn with(solved: &Solved, poisson_ratio: f64) -> Result<Self, NoTruth> {
        Self::of_elasticity(solved, Elasticity::alike_in_all_directions(solved.section(), poisson_ratio))
    }

    fn of_elasticity(solved: &Solved, elasticity: Elasticity) -> Result<Self, NoTruth> {
        Self::by(solved, || {
            let elastic = ElasticShear::of(solved.section(), elasticity, Effort::usual());
            elastic.map(Arc::new).map_err(NoTruth::NotSolved)
        })
    }

    /// The same of a lesson that has changed since: where its section is the same, that is not solved again.
    ///
    /// # Errors
    /// As [`ElasticTruth::of`].
    pub fn again(&self, solved: &Solved) -> Result<Self, NoTruth> {
        let same = self.elastic.section().parts() == solved.section().parts()
            && *self.elastic.elasticity() == solved.problem().elasticity();
        if same { Self::by(solved, || Ok(self.elastic.clone())) } else { Self::of(solved) }
    }

    fn by(
        solved: &Solved,
        elastic: impl FnOnce() -> Result<Arc<ElasticShear>, NoTruth>,
    ) -> Result<Self, NoTruth> {
        let formula = solved.stress();
        let shear_force = formula.shear_force;
        let largest_by_formula = formula.largest_shear_stress();
        // Less than this is what rounding leaves of a balance.
        let beam = &solved.problem().beam;
        let sizes = beam.loads.iter().map(|load| size_of_load(load, beam.length));
        let noise = 1e-9 * sizes.fold(0.0, f64::max);
        if shear_force.abs() <= noise || largest_by_formula.value <= 0.0 {
            return Err(NoTruth::NoShearForce);
        }
        let section = solved.section();
        let elastic = elastic()?;
        let field = elastic.under(ShearForce { right: 0.0, up: shear_force });
        let largest = field.largest().ok_or(NoTruth::AllBesideCorners)?;
        let cut = &solved.problem().cut;
        let on_cut = solved.value(solved.key().stress_on_cut);
        let other = match cut.side {
            HeightSide::Below => HeightSide::Above,
            HeightSide::Above => HeightSide::Below,
        };
        let at_cut = [cut.side, other].into_iter().find_map(|side| {
            let level = level(&field, cut.height, side)?;
            let same = (level.across.formula - on_cut).abs() <= SAME_STRESS * largest_by_formula.value;
            same.then_some(level)
        });
        let axis = level(&field, section.neutral_axis(), HeightSide::Above);
        let force = ShearForce { right: 0.0, up: shear_force };
        let form_factor = elastic.form_factor(force);
        let modulus_of_shear = solved.problem().elastic_modulus * elastic.elasticity().shear_share;
        let materials = in_materials(solved, &field, [at_cut, axis]);
        let tilt = form_factor * shear_force.abs() / (modulus_of_shear * section.properties().area);
        Ok(Self {
            cut: at_cut,
            axis,
            largest,
            materials,
            form_factor,
            form_factor_of_formula: formula.form_factor_with(&elastic.elasticity().shear_ratios),
            shear_coefficient: elastic.shear_coefficient(force),
            largest_by_formula,
            tilt,
            shear_force,
            formula,
            elastic,
        })
    }

    /// The stresses all over the section: of the upright shear force alone, on a beam that is free to go sideways.
    pub fn field(&self) -> ElasticField<'_> {
        self.elastic.under(ShearForce { right: 0.0, up: self.shear_force })
    }

    /// Poisson's ratio that was reckoned with.
    pub fn poisson_ratio(&self) -> f64 {
        self.elastic.elasticity().poisson_ratio
    }

    /// Slope of the axis against the section under a unit of shear force, `f / (G A)`, 1/N.
    pub fn flexibility(&self) -> f64 {
        self.tilt / self.shear_force.abs()
    }

    /// What shear adds to the deflection of the whole beam, held as it is; none where nothing bends. A beam that bends askew is free to go
    /// sideways, where that can be told.
    ///
    /// # Source
    /// Timoshenko's beam with the form factor of the true stress: [`mechanics::beam::Beam::solve_with_shear`].
    pub fn sag_of_shear(&self, solved: &Solved) -> Option<SagOfShear> {
        let plain = solved.beam();
        let station = match *plain.extremes(Curve::Deflection).largest_size.reached.first()? {
            Reached::At(place) => place.station,
            Reached::Over { from, .. } => from,
        };
        let held = plain.deflection(station);
        let free = solved.free_sideways().map_or(held, |free| free.up);
        let sheared = solved.problem().beam.solve_with_shear(self.flexibility()).ok()?;
        let added = (sheared.deflection(station) - held) * free.signum();
        let with = if free == held {
            sheared.extremes(Curve::Deflection).largest_size.value
        } else {
            free.abs() + added
        };
        (free != 0.0 && with.is_finite()).then_some(SagOfShear { without: free.abs(), added, with })
    }

    /// The material, of several, in which the stress is largest, with the names of all that lie side by side there; none where it
    /// lies in a material that is alone at its height.
    pub fn side_by_side_at_largest(&self) -> Option<(&InMaterial, Vec<&str>)> {
        let own = self.materials.iter().find(|one| one.material.parts.contains(&self.largest.part))?;
        let chords = self.elastic.section().chords(self.largest.at.y, HeightSide::Above);
        let is_there =
            |one: &&InMaterial| chords.iter().any(|chord| one.material.parts.contains(&chord.part));
        let names: Vec<&str> =
            self.materials.iter().filter(is_there).map(|one| one.material.name.as_str()).collect();
        (names.len() > 1).then_some((own, names))
    }

    /// Whether materials lie side by side on the cut, at the neutral axis or where the stress is largest.
    pub fn has_materials_side_by_side(&self) -> bool {
        let on_levels = self.materials.iter().any(|one| one.cut.is_some() || one.axis.is_some());
        on_levels || self.side_by_side_at_largest().is_some()
    }

    /// Whether the section bends askew under an upright load, so that `V Q / (I t)` does not hold.
    pub fn bends_askew(&self) -> bool {
        self.elastic.section().properties().bends_askew()
    }

    /// The corners at which the stress has no limit.
    pub fn sharp_corners(&self) -> &[SharpCorner] {
        self.elastic.sharp_corners()
    }

    /// The largest stress over the largest that the formula gives.
    pub fn ratio_of_largest(&self) -> f64 {
        self.largest.value / self.largest_by_formula.value
    }

    /// The stress at levels over the depth, rising; at a jump of the width from both sides.
    pub fn over_depth(&self) -> Vec<AtLevel> {
        let field = self.field();
        let strips: Vec<(f64, f64)> = self.formula.strips().collect();
        let depth: f64 = strips.iter().map(|(from, to)| to - from).sum();
        let mut levels = Vec::new();
        for (from, to) in strips {
            let steps = ((LEVELS.0 * (to - from) / depth).ceil() as usize).max(LEVELS.1);
            for step in 0..=steps {
                let (height, side) = match step {
                    0 => (from, HeightSide::Above),
                    step if step == steps => (to, HeightSide::Below),
                    step => (from + (to - from) * step as f64 / steps as f64, HeightSide::Above),
                };
                levels.extend(level(&field, height, side));
            }
        }
        levels
    }
}

/// The stresses at a level; none where it misses the section.
fn level(field: &ElasticField<'_>, height: f64, side: HeightSide) -> Option<AtLevel> {
    let across = field.across(height, side)?;
    let near = |corner: &SharpCorner| (corner.at.y - height).abs() < corner.left_out;
    let has_largest = !field.elastic().sharp_corners().iter().any(near);
    Some(AtLevel { height, side, across, has_largest })
}

/// The stresses in each of several materials; at the two levels only where another lies beside it.
fn in_materials(solved: &Solved, field: &ElasticField<'_>, levels: [Option<AtLevel>; 2]) -> Vec<InMaterial> {
    let problem = solved.problem();
    let own = |level: AtLevel, parts: &[usize]| {
        let chords = solved.section().chords(level.height, level.side);
        let beside = chords.iter().any(|chord| !parts.contains(&chord.part));
        let across = field.across_in(level.height, level.side, parts).filter(|_| beside)?;
        Some(AtLevel { across, ..level })
    };
    let in_one = |material: Material| {
        let given = problem.shear_given(material.parts.first().copied().unwrap_or_default());
        let [cut, axis] = levels.map(|level| own(level?, &material.parts));
        InMaterial {
            shear_modulus: given.shear_modulus(material.modular_ratio * problem.elastic_modulus),
            is_assumed: given.is_empty(),
            largest: field.largest_in(&material.parts),
            cut,
            axis,
            material,
        }
    };
    problem.materials().into_iter().map(in_one).collect()
}

/// The size of a load, N; of a couple the shear force that it makes over a length, m.
fn size_of_load(load: &mechanics::beam::Load, length: f64) -> f64 {
    use mechanics::beam::Load;
    match *load {
        Load::Force { down, .. } => down.abs(),
        Load::Spread { from, to, down_from, down_to } => {
            (to - from).abs() * down_from.abs().max(down_to.abs())
        }
        Load::Couple { ccw, .. } => ccw.abs() / length,
    }
}
