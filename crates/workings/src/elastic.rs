//! The elastic truth of a lesson beside `V Q / (I t)`: how the shear stress is spread over the width, where it is largest,
//! and by how much the formula falls short.
//!
//! It is solved when it is asked for, never with the lesson: it takes some ten milliseconds.

use crate::dimension::Dimension;
use crate::material::{Behaviour, Material};
use crate::problem::JointKind;
use crate::quantity::Quantity;
use crate::role::{Role, Symbol};
use crate::solved::Solved;
use crate::value::Value;
use crate::working::{HeightSide, Place};
use mechanics::beam::{Curve, Reached};
use mechanics::elastic::{
    Across, Effort, ElasticField, ElasticShear, Elasticity, Fault, LargestElastic, SharpCorner, ShearForce,
};
use mechanics::section::Point;
use mechanics::stress::{LargestShearStress, StressOverDepth};
use std::fmt;
use std::sync::Arc;

/// The stress on the cut is that of the level on one side of it where the two agree to this part of the largest stress; else
/// the cut runs through a joint that is narrower than both sides.
const SAME_STRESS: f64 = 1e-6;

/// No smaller error than this part of the stress is claimed.
const LEAST_ERROR: f64 = 1e-6;

/// A place nearer to the base line or the leftmost fibre than this part of the section's size lies on it: the solution tells no more.
const NOWHERE: f64 = 1e-6;

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

/// Whether some part is of timber of which no shear modulus is stated.
fn has_timber_without_shear_modulus(solved: &Solved) -> bool {
    let problem = solved.problem();
    (0..problem.parts.len()).any(|part| {
        let name = problem.part_materials.get(part).and_then(|of| of.name.as_deref());
        let grained = name.is_some_and(|name| Behaviour::of(name) == Behaviour::Grained);
        grained && problem.shear_given(part).shear_modulus.is_none()
    })
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

    /// The values as rows. They stand apart from the rows of the lesson: only they need the solution.
    pub fn values(&self, solved: &Solved) -> Vec<Value> {
        let mut rows = self.values_at_levels(solved);
        rows.extend(self.largest_values(solved));
        rows.extend(self.values_of_section(solved));
        rows
    }

    fn values_at_levels(&self, solved: &Solved) -> Vec<Value> {
        let mut rows = Vec::new();
        for (level, whose) in [(self.cut, "on the cut"), (self.axis, "at the neutral axis")] {
            let Some(level) = level else { continue };
            let row = Rows { solved, place: at(solved, Some((level.height, Some(level.side)))) };
            let across = level.across;
            let askew = self.bends_askew();
            let says = match askew {
                true => {
                    "V Q / (I t), which does not hold for this section: under an upright load alone it bends askew."
                }
                false => "V Q / (I t): a mean over the width.",
            };
            rows.push(
                row.stress(&format!("shear stress by the formula, {whose}"), "", across.formula)
                    .that_says(says),
            );
            let says = match askew {
                true => "By balance it is what the full formula gives, with the product moment.",
                false => "By balance it is what the formula gives.",
            };
            rows.push(
                row.stress(&format!("mean of the true shear stress, {whose}"), "mean", across.mean)
                    .that_says(says),
            );
            rows.extend(across.balanced_over_formula().filter(|_| askew).map(|ratio| {
                row.number(&format!("full formula over simple formula, {whose}"), Role::Ratio, ratio)
                    .that_says("By so many times the mean is larger than V Q / (I t) says.")
            }));
            if !level.has_largest {
                continue;
            }
            rows.push(
                row.stress(&format!("largest true shear stress, {whose}"), "max", across.largest_up.value)
                    .that_says("The upright part, where it is largest across the width."),
            );
            rows.push(row.length(
                &format!("its place to the right of the leftmost fibre, {whose}"),
                Role::Across,
                settled(solved, across.largest_up.x - solved.section().properties().left),
            ));
            rows.extend(across.ratio().map(|ratio| {
                let over = if askew { "its mean" } else { "formula" };
                row.number(&format!("largest true over {over}, {whose}"), Role::Ratio, ratio)
                    .that_says("One where the stress is the same all over the width.")
            }));
        }
        rows
    }

    fn largest_values(&self, solved: &Solved) -> Vec<Value> {
        let formula = &self.largest_by_formula;
        let place = formula.places.first().map(|place| (place.height, None));
        let by_formula = Rows { solved, place: at(solved, place) };
        let most = self.largest;
        let likely = most.error.max(LEAST_ERROR * most.value);
        let row = Rows { solved, place: at(solved, Some((most.at.y, None))) };
        let Point { x, .. } = most.at;
        let whole = if most.beside_corner.is_some() {
            "The whole shear stress, upright and level parts together; it lies beside a sharp corner, where it has no limit."
        } else {
            "The whole shear stress, upright and level parts together."
        };
        vec![
            by_formula.stress("largest shear stress of the section by the formula", "max", formula.value),
            row.stress("largest true shear stress of the section", "max", most.value).that_says(whole),
            row.length(
                "its place to the right of the leftmost fibre, of the section",
                Role::Across,
                settled(solved, x - solved.section().properties().left),
            ),
            row.value("likely error of it", Symbol::plain(Role::Residual), likely, Dimension::STRESS).that_says(
                "By how much two solutions of different fineness differ there; less than a millionth of the stress is not claimed.",
            ),
            row.number("largest true over formula, of the section", Role::Ratio, self.ratio_of_largest()),
        ]
    }

    /// Shear modulus and largest stress of each material, and its stress where it lies beside another.
    fn values_of_materials(&self, solved: &Solved) -> Vec<Value> {
        let whole = Rows { solved, place: Place::default() };
        let problem = solved.problem();
        let mut rows = Vec::new();
        if self.materials.is_empty() {
            rows.push(whole.shear_modulus("", "", problem.shear_modulus(), problem.shear.is_empty()));
        }
        for InMaterial { material, shear_modulus, is_assumed, largest, cut, axis } in &self.materials {
            let (name, letter) = (&material.name, &material.letter);
            rows.push(whole.shear_modulus(&format!(" of {name}"), letter, *shear_modulus, *is_assumed));
            for (level, whose) in [(cut, "on the cut"), (axis, "at the neutral axis")] {
                let Some(level) = level else { continue };
                let row = Rows { solved, place: at(solved, Some((level.height, Some(level.side)))) };
                let (alike, mean) = (level.across.balanced, level.across.mean);
                rows.push(
                    row.stress(&format!("shear stress in {name}, all sheared alike, {whose}"), letter, alike)
                        .that_says(
                            "q G_i / Σ(G b): what lies side by side is taken to be sheared alike. An approximation.",
                        ),
                );
                let index = format!("{letter}, mean");
                rows.push(
                    row.stress(&format!("mean of the true shear stress in {name}, {whose}"), &index, mean)
                        .that_says("Over the width of this material alone."),
                );
                if level.has_largest {
                    let index = format!("{letter}, max");
                    let most = level.across.largest_up.value;
                    rows.push(row.stress(
                        &format!("largest true shear stress in {name}, {whose}"),
                        &index,
                        most,
                    ));
                }
            }
            rows.extend(largest.iter().map(|largest| {
                let row = Rows { solved, place: at(solved, Some((largest.at.y, None))) };
                let index = format!("{letter}, max");
                row.stress(&format!("largest true shear stress in {name}"), &index, largest.value)
                    .that_says("The whole shear stress in this material, upright and level parts together.")
            }));
        }
        rows
    }

    fn values_of_section(&self, solved: &Solved) -> Vec<Value> {
        let row = Rows { solved, place: Place::default() };
        let here = Rows { solved, place: at(solved, None) };
        let mut rows = self.values_of_materials(solved);
        rows.extend([
            row.number("Poisson's ratio", Role::PoissonRatio, self.poisson_ratio()).that_says(
                match solved.problem().shear.assumes_poisson_ratio(solved.problem().elastic_modulus) {
                    true => "Assumed: the lesson does not state it.",
                    false => "As the lesson states it, or its shear modulus.",
                },
            ),
            row.number("form factor of the formula", Role::FormFactor, self.form_factor_of_formula)
                .that_says("The energy of shear in a unit of length is f V² / (2 G A); 6/5 for a rectangle."),
            row.number("form factor of the true stress", Role::FormFactor, self.form_factor)
                .that_says("The deflection of shear is reckoned with this one."),
        ]);
        rows.extend(self.shear_coefficient.map(|coefficient| {
            row.number("shear coefficient", Role::ShearCoefficient, coefficient).that_says(
                "After Cowper: the mean line of the beam slopes by V / (k G A) more than its sections turn. Where Poisson's \
                 ratio is zero, 1/k is the form factor of the true stress; else they differ a little, for k makes the mean \
                 movement right and f the energy.",
            )
        }));
        let symbol = Symbol::indexed(Role::Slope, "V");
        rows.push(
            here.value("angle by which shear tilts the axis", symbol, self.tilt, Dimension::NONE).that_says(
                "f V / (G A) with the form factor of the true stress and the shear modulus of the material of reference.",
            ),
        );
        rows.extend(self.centre_and_torsion(solved));
        rows.extend(self.sag_of_shear(solved).map(|sag| {
            let row = |name, index, value| {
                row.value(name, Symbol::indexed(Role::Deflection, index), value, Dimension::LENGTH)
            };
            [
                row("deflection that shear adds to the largest", "V", sag.added).that_says(
                    "The axis slopes by f V / (G A) against the sections, and the beam is held as it is; less than zero where this takes \
                     something off the largest deflection.",
                ),
                row("largest deflection with that of shear", "max, V", sag.with)
                    .that_says("By its size; what supports that give or have moved add is counted."),
            ]
        }).into_iter().flatten());
        rows
    }

    /// Where the shear force must act lest it twist the beam, and how stiff the section is against twisting.
    fn centre_and_torsion(&self, solved: &Solved) -> [Value; 3] {
        let row = Rows { solved, place: Place::default() };
        let Point { x, y } = self.elastic.shear_centre();
        let [right, y] = [x - solved.section().properties().left, y].map(|value| settled(solved, value));
        [
            row.length("place of the true shear centre to the right", Role::Across, right).that_says(
                "From the leftmost fibre; negative to its left. A shear force through the centre does not twist the beam.",
            ),
            row.length("height of the true shear centre", Role::CutHeight, y)
                .that_says("Above the base line."),
            row.value(
                "true torsion constant",
                Symbol::plain(Role::TorsionConstant),
                self.elastic.torsion_constant(),
                Dimension::LENGTH_4,
            )
            .that_says("A torque T twists a beam that is free to warp by T / (G J) in a unit of length."),
        ]
    }
}

/// A distance in the section, m; nothing where it is less than the solution tells.
fn settled(solved: &Solved, distance: f64) -> f64 {
    let properties = solved.section().properties();
    let size = properties.breadth().max(properties.height());
    if distance.abs() <= NOWHERE * size { 0.0 } else { distance }
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

/// The largest size along the beam, SI.
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

fn at(solved: &Solved, height: Option<(f64, Option<HeightSide>)>) -> Place {
    Place {
        station: Some(solved.problem().slice.at),
        height: height.map(|height| height.0),
        height_side: height.and_then(|height| height.1),
        ..Place::default()
    }
}

/// Makes rows of one place.
struct Rows<'a> {
    solved: &'a Solved,
    place: Place,
}

impl Rows<'_> {
    fn value(&self, name: &str, symbol: Symbol, value: f64, dimension: Dimension) -> Value {
        Value {
            chapter: "elastic",
            symbol: self.solved.style().symbol(&symbol).plain(),
            stands_for: symbol.clone(),
            ..Value::placed(self.solved, name, symbol.role, self.place, Quantity::new(value, dimension))
        }
    }

    fn stress(&self, name: &str, index: &str, value: f64) -> Value {
        self.value(name, Symbol::indexed(Role::ShearStress, index), value, Dimension::STRESS)
    }

    fn length(&self, name: &str, role: Role, value: f64) -> Value {
        self.value(name, Symbol::plain(role), value, Dimension::LENGTH)
    }

    fn shear_modulus(&self, of: &str, index: &str, modulus: f64, is_assumed: bool) -> Value {
        let symbol = Symbol::indexed(Role::ShearModulus, index);
        self.value(&format!("shear modulus{of}"), symbol, modulus, Dimension::STRESS).that_says(
            match is_assumed {
                true => {
                    "E / (2 (1 + ν)), as of a material that is alike in all directions, with an assumed Poisson's ratio."
                }
                false => "As the lesson states it, or its Poisson's ratio.",
            },
        )
    }

    fn number(&self, name: &str, role: Role, value: f64) -> Value {
        self.value(name, Symbol::plain(role), value, Dimension::NONE)
    }
}

impl Value {
    fn that_says(self, sentence: &str) -> Self {
        Self { sentence: sentence.to_owned(), ..self }
    }
}
