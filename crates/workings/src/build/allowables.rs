//! What the beam may carry where the material may bear so much: how many times the loads may grow, and what governs.

use super::beam_givens::{BeamGivens, HoldGiven, LoadKind};
use super::bending::BendingWorkings;
use super::builder::{Builder, Entry};
use super::diagrams::DiagramWorkings;
use super::joints::{JointFlow, JointWorkings};
use super::names::with_below;
use super::section::SectionWorkings;
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::problem::{Allowable, JointKind};
use crate::role::Role;
use crate::working::{Chapter, Id};
use mechanics::beam::Solution;
use mechanics::section::Section;
use mechanics::stress::LargestCut;

const CHAPTER: Chapter = Chapter::Allowables;

/// Said wherever a load or a size is found from what something may bear.
pub(super) const CAUTION: &str =
    "An exercise: a real beam is designed to the local code by a licensed engineer.";

// Two load factors nearer than this (relative) are one: they come about in different ways and differ by rounding.
const ALIKE: f64 = 1e-9;

/// Whether a limit with this load factor governs where `least` is the least of all.
pub(crate) fn governs(factor: f64, least: f64) -> bool {
    factor <= least * (1.0 + ALIKE)
}

/// The places of the largest of some utilisations.
fn governing(used: &[f64]) -> Vec<usize> {
    let most = used.iter().copied().fold(0.0, f64::max);
    (0..used.len()).filter(|&place| used[place] * (1.0 + ALIKE) >= most).collect()
}

/// `the tension and the compression govern`.
fn told_to_govern(limits: &[&str]) -> String {
    match limits {
        [] => String::new(),
        [only] => format!("the {only} governs"),
        [first @ .., last] => format!("the {} and the {last} govern", first.join(", the ")),
    }
}

/// What the chapter is built from.
pub(super) struct AllowableParts<'a> {
    pub(super) beam: &'a BeamGivens,
    pub(super) section: &'a SectionWorkings,
    pub(super) engine: &'a Section,
    pub(super) solution: &'a Solution,
    pub(super) bending: &'a BendingWorkings,
    pub(super) diagrams: &'a DiagramWorkings,
    pub(super) shear_along: Id,
    pub(super) joints: &'a [JointWorkings],
}

/// The workings of the chapter.
#[derive(Clone, Debug)]
pub struct AllowableWorkings {
    /// Each limit; at least one.
    pub limits: Vec<LimitWorkings>,
    /// The working whose sentence says which of them govern: the largest load factor, or else the largest utilisation.
    pub verdict: Id,
    /// How far the loads may grow; none where not everything grows with them: a settlement stays what it is, and so does the beam's own
    /// weight.
    pub growth: Option<GrowthWorkings>,
}

/// How many times all loads may grow together, and what would be the least depth for them as they are.
#[derive(Clone, Debug)]
pub struct GrowthWorkings {
    /// The load factor of each limit, in their order.
    pub factors: Vec<Id>,
    /// The least of them.
    pub largest_factor: Id,
    /// The least depth for each limit, in the same order; empty where the section cannot be stretched.
    pub depths: Vec<Id>,
    /// The depth of the section as it is, where it can be stretched.
    pub(crate) depth: Option<Id>,
    /// The span-to-depth ratios where bending and shear govern alike: the beam's own, and that ratio.
    pub ratios: Option<RatioWorkings>,
}

impl AllowableWorkings {
    /// The places in [`Self::limits`] of all that govern: several where they are used up alike; `value` gives the value of a
    /// working.
    pub fn governing(&self, value: impl Fn(Id) -> f64) -> Vec<usize> {
        let used: Vec<f64> = self.limits.iter().map(|limit| value(limit.utilisation)).collect();
        governing(&used)
    }

    /// In words which limits govern, without a full stop: `the tension and the compression govern`; `value` as before.
    pub fn told_to_govern(&self, value: impl Fn(Id) -> f64) -> String {
        let words = self.governing(value).into_iter().map(|place| self.limits[place].words.as_str());
        told_to_govern(&words.collect::<Vec<_>>())
    }
}

/// The workings of one limit.
#[derive(Clone, Debug)]
pub struct LimitWorkings {
    /// `shear stress`, `force on nails`.
    pub words: String,
    /// What is allowed.
    pub allowed: Id,
    /// What is reached under the loads that are given.
    pub reached: Id,
    /// What is reached over what is allowed.
    pub utilisation: Id,
    /// Whether it is that of a joint.
    pub is_of_joint: bool,
    pub(crate) kind: LimitKind,
}

impl LimitWorkings {
    /// Whether it is that of a deflection, and what shear adds to it is not counted.
    pub fn is_of_bending_deflection(&self) -> bool {
        self.kind == LimitKind::Deflection
    }
}

/// A beam that is one rectangle: its span over its depth.
#[derive(Clone, Copy, Debug)]
pub struct RatioWorkings {
    /// Of this beam.
    pub own: Id,
    /// The largest moment over the largest shear force and the span: what tells the kind of load.
    pub kind: Id,
    /// Where bending and shear govern alike.
    pub alike: Id,
}

/// What one material may bear, and what it bears along the beam.
struct Borne {
    /// ` in steel`; nothing where there is one material.
    of: String,
    /// What its indices begin with: `s, `.
    letter: String,
    allowable: Allowable,
    tension: Option<Id>,
    compression: Option<Id>,
    shear: Option<Id>,
}

/// A limit, and what reaches it first.
pub(super) struct Limit {
    /// `shear stress`, `nails`.
    pub(super) words: String,
    pub(super) index: String,
    pub(super) allowed: Id,
    pub(super) reached: Id,
    /// Whether it is that of a joint.
    pub(super) is_of_joint: bool,
    pub(super) kind: LimitKind,
}

/// How what reaches a limit changes with the depth of the section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum LimitKind {
    /// As one over its square: a bending stress.
    Bending,
    /// As one over it: a shear stress, a shear flow.
    Shear,
    /// As one over its cube: a deflection of bending.
    Deflection,
    /// Part of it as one over the cube of the depth, part as one over the depth: a deflection with what shear adds.
    DeflectionWithShear {
        /// The form factor of shear.
        form_factor: Id,
        /// The shear modulus.
        shear_modulus: Id,
    },
    /// Part of it as one over the depth, part as one over its square: bending and shear stress at one place.
    BendingWithShear {
        /// The bending stress there.
        bending: Id,
        /// The shear stress there.
        shear: Id,
    },
    /// In no simple way: the stress on a joint with contacts that grow with the depth.
    Other,
}

impl Builder<'_> {
    /// What of each limit is used up, the load factors and the largest loads; none where nothing is said of what may be borne.
    pub(super) fn allowables(
        &mut self,
        parts: &AllowableParts<'_>,
    ) -> Result<Option<AllowableWorkings>, EvaluationError> {
        let beam = parts.beam;
        let mut limits = Vec::new();
        for borne in self.borne(parts)? {
            limits.extend(self.limits(&borne)?);
        }
        limits.extend(self.limit_of_equivalent_stress(&limits));
        limits.extend(
            parts.joints.iter().zip(1..).filter_map(|joint| self.limit_of_joint(parts.engine, joint)),
        );
        limits.extend(self.limit_of_deflection(parts)?);
        limits.retain(|limit| self.value(limit.reached) != 0.0);
        let moved = |hold: &HoldGiven| matches!(hold, HoldGiven::Moved(_));
        let stays = self.problem.loads.iter().any(|label| label.self_weight)
            || beam.supports.iter().any(|support| moved(&support.transverse) || moved(&support.rotation));
        if limits.is_empty() {
            return Ok(None);
        }
        let (mut found, mut factors) = (Vec::with_capacity(limits.len()), Vec::new());
        for limit in &limits {
            found.push(self.limit(limit)?);
            if !stays {
                factors.push(self.factor(limit)?);
            }
        }
        if stays {
            let verdict = self.largest_utilisation(&found)?;
            return Ok(Some(AllowableWorkings { limits: found, verdict, growth: None }));
        }
        let largest_factor = self.largest_factor(&limits, &factors)?;
        self.largest_loads(beam, largest_factor)?;
        let (depth, depths) = self.least_depths(parts, &limits, &factors)?.unzip();
        let depths = depths.unwrap_or_default();
        let ratios = self.span_ratios(parts, &limits)?;
        let growth = GrowthWorkings { factors, largest_factor, depths, depth, ratios };
        Ok(Some(AllowableWorkings { limits: found, verdict: largest_factor, growth: Some(growth) }))
    }

    /// How far a limit is used.
    fn limit(&mut self, limit: &Limit) -> Result<LimitWorkings, EvaluationError> {
        let (allowed, reached) = (Expression::from(limit.allowed), Expression::from(limit.reached).size());
        let says = format!("What part of the allowable {} the given loads take up.", limit.words);
        let used = self.entry_of(limit, Role::Utilisation, "utilisation").says(says);
        let utilisation = self.formula(used, reached / allowed)?;
        let Limit { allowed, reached, is_of_joint, kind, .. } = *limit;
        Ok(LimitWorkings { words: limit.words.clone(), allowed, reached, utilisation, is_of_joint, kind })
    }

    /// How many times the loads may grow.
    fn factor(&mut self, limit: &Limit) -> Result<Id, EvaluationError> {
        let (allowed, reached) = (Expression::from(limit.allowed), Expression::from(limit.reached).size());
        let says = format!(
            "So many times may all loads grow together until the {} is the allowable one.",
            limit.words
        );
        let entry = self.entry_of(limit, Role::LoadFactor, "load factor").says(says);
        self.formula(entry, allowed / reached)
    }

    fn entry_of(&self, limit: &Limit, role: Role, what: &str) -> Entry {
        let place = self.workings.working(limit.reached).place;
        let entry = Entry::new(CHAPTER, role, &limit.index, format!("{what} for {}", limit.words));
        match place.station {
            Some(station) => entry.at(station, place.side),
            None => entry,
        }
    }

    /// Which limits govern where the loads may not be thought to grow alone.
    fn largest_utilisation(&mut self, limits: &[LimitWorkings]) -> Result<Id, EvaluationError> {
        let used: Vec<Id> = limits.iter().map(|limit| limit.utilisation).collect();
        let values: Vec<f64> = used.iter().map(|&id| self.value(id)).collect();
        let words: Vec<&str> =
            governing(&values).into_iter().map(|place| limits[place].words.as_str()).collect();
        let kept = match values.iter().all(|used| *used <= 1.0 + ALIKE) {
            true => "all are kept",
            false => "not all are kept",
        };
        let says =
            format!("Every limit must be kept, and here {kept}: {}. {CAUTION}", told_to_govern(&words));
        let entry = Entry::new(CHAPTER, Role::Utilisation, "", "largest utilisation").says(says);
        let value = Call::LargestSize.evaluate(&used, self.workings.values());
        let how = "The largest of the utilisations.";
        self.engine(entry, how, (used, Call::LargestSize), value, Dimension::NONE)
    }

    /// What each material may bear, and what it bears.
    fn borne(&mut self, parts: &AllowableParts<'_>) -> Result<Vec<Borne>, EvaluationError> {
        let allowable = self.problem.allowable;
        if parts.section.materials.is_empty() {
            let askew = parts.engine.properties().bends_askew();
            let [tension, compression] = match askew {
                true => self.skew_extremes(""),
                false => [parts.bending.tension, parts.bending.compression],
            };
            let shear = match askew {
                false => Some(parts.shear_along),
                true if allowable.shear.is_some() => {
                    let all: Vec<usize> = (0..self.problem.parts.len()).collect();
                    let words = (" by the full formula", "askew");
                    self.largest_shear_in(parts, (&all, &[]), words)?
                }
                true => None,
            };
            let (of, letter) = (String::new(), String::new());
            return Ok(vec![Borne { of, letter, allowable, tension, compression, shear }]);
        }
        let ratios = self.problem.elasticity().shear_ratios;
        let mut borne = Vec::new();
        let askew = parts.engine.properties().bends_askew();
        for material in &parts.section.materials {
            let of = format!(" in {}", material.name);
            let [tension, compression] = match askew {
                true => self.skew_extremes(&of),
                false => material.extremes,
            };
            let shear = match material.allowable.shear {
                Some(_) => {
                    self.largest_shear_in(parts, (&material.parts, &ratios), (&of, &material.letter))?
                }
                None => None,
            };
            let allowable = material.allowable;
            let letter = format!("{}, ", material.letter);
            borne.push(Borne { of, letter, allowable, tension, compression, shear });
        }
        Ok(borne)
    }

    /// The largest tension and compression along the beam by the full formula, of several materials in one of them: ` in steel`.
    fn skew_extremes(&self, within: &str) -> [Option<Id>; 2] {
        ["tension", "compression"]
            .map(|words| self.workings.id(&format!("largest skew {words}{within} along the beam")))
    }

    /// The largest shear stress in some parts along the beam: in one of several materials, or askew. None where there is none.
    fn largest_shear_in(
        &mut self,
        parts: &AllowableParts<'_>,
        (of, ratios): (&[usize], &[f64]),
        (words, index): (&str, &str),
    ) -> Result<Option<Id>, EvaluationError> {
        let Some(cut) = LargestCut::of(parts.engine, of, ratios) else { return Ok(None) };
        let askew = self.workings.id("second moment that counts askew");
        let how = "The level cut on which this first moment over this width is largest, looked for over the whole height.";
        let index = format!("{index}, max");
        let entry =
            |role, name: String| Entry::new(CHAPTER, role, &index, name).height(cut.height, Some(cut.side));
        let says = match askew {
            Some(_) if !ratios.is_empty() => {
                "Of the part above the level cut on which this material is sheared most, transformed, what counts askew: less what the product \
                 moment makes of the one about the upright axis."
            }
            Some(_) => {
                "What counts of the first moment of the part above that cut: askew the one about the upright axis as well."
            }
            None => "Of the part above the level cut on which this material is sheared most, transformed.",
        };
        let first =
            entry(Role::FirstMoment, format!("first moment where shear is largest{words}")).says(says);
        let value = cut.first_moment.abs();
        let first = self.engine(first, how, (Vec::new(), Call::Fixed), value, Dimension::LENGTH_3)?;
        let says = match ratios.is_empty() {
            true => "The width of that cut.",
            false => {
                "The width of that cut, with each other material beside it as many times as its shear modulus is this one's: side by \
                 side all are taken to be sheared alike, an approximation."
            }
        };
        let width = entry(Role::WidthAtCut, format!("width where shear is largest{words}")).says(says);
        let width = self.engine(width, how, (Vec::new(), Call::Fixed), cut.width, Dimension::LENGTH)?;
        let force = parts.diagrams.largest_shear;
        let place = self.workings.working(force).place;
        let mut stress =
            entry(Role::ShearStress, format!("largest shear stress{words} along the beam")).says(
                "Where V is largest, on the cut where this is largest: a mean over the width, as V Q / (I t) is.",
            );
        if let Some(station) = place.station {
            stress = stress.at(station, place.side);
        }
        let second = askew.unwrap_or(parts.section.second_moment);
        let flow = Expression::from(force).size() * first.into();
        self.formula(stress, flow / (Expression::from(second) * width.into())).map(Some)
    }

    /// What the lesson gives of what one material may bear.
    fn limits(&mut self, borne: &Borne) -> Result<Vec<Limit>, EvaluationError> {
        let Borne { of: material, letter, allowable, .. } = borne;
        let mut limits = Vec::new();
        let bending = match allowable.bending {
            Some(stress) if allowable.tension.is_none() || allowable.compression.is_none() => {
                let name = format!("allowable bending stress{material}");
                Some(self.allowed(&name, (Role::BendingStress, &format!("{letter}allow")), stress)?)
            }
            _ => None,
        };
        let of = |own: Option<Id>| own.or(bending);
        let sides = [
            ("tension", "t", allowable.tension, borne.tension),
            ("compression", "c", allowable.compression, borne.compression),
        ];
        for (words, index, own, reached) in sides {
            let name = format!("allowable {words}{material}");
            let symbol = format!("{letter}allow, {index}");
            let own =
                own.map(|stress| self.allowed(&name, (Role::BendingStress, &symbol), stress)).transpose()?;
            if let (Some(allowed), Some(reached)) = (of(own), reached) {
                let (words, index) = (format!("{words}{material}"), format!("{letter}{index}"));
                limits.push(Limit {
                    words,
                    index,
                    allowed,
                    reached,
                    is_of_joint: false,
                    kind: LimitKind::Bending,
                });
            }
        }
        if let (Some(stress), Some(reached)) = (allowable.shear, borne.shear) {
            let name = format!("allowable shear stress{material}");
            let allowed = self.allowed(&name, (Role::ShearStress, &format!("{letter}allow")), stress)?;
            let (words, index) = (format!("shear stress{material}"), format!("{letter}s"));
            limits.push(Limit { words, index, allowed, reached, is_of_joint: false, kind: LimitKind::Shear });
        }
        Ok(limits)
    }

    /// The equivalent stress of a ductile metal at the junction or in pure shear, where it asks for more than bending alone does.
    /// At the outer fibre it is the bending stress, which is a limit already. Held to the lesser of what bending may reach.
    fn limit_of_equivalent_stress(&self, limits: &[Limit]) -> Option<Limit> {
        let given = self.problem.allowable;
        if given.bending.is_none() && (given.tension.is_none() || given.compression.is_none()) {
            return None;
        }
        let size = |id: Id| self.value(id).abs();
        let bending = || limits.iter().filter(|limit| limit.kind == LimitKind::Bending);
        let allowed =
            bending().map(|limit| limit.allowed).min_by(|&one, &other| size(one).total_cmp(&size(other)))?;
        let used = bending().map(|limit| size(limit.reached) / size(limit.allowed)).fold(0.0, f64::max);
        let at_junction = self.workings.id("equivalent stress at the junction");
        let reached = [at_junction, self.workings.id("equivalent stress in shear")]
            .into_iter()
            .flatten()
            .max_by(|&one, &other| size(one).total_cmp(&size(other)))?;
        // What is above bending by rounding alone is no limit of its own. Nor is what stays below it in the section that is just deep
        // enough for bending: there bending is all used up, and this, which loses less by depth, at most as much as stands here.
        let above = size(reached) / size(allowed) > used.min(used.sqrt()) * (1.0 + ALIKE);
        let (words, index) = ("equivalent stress".to_owned(), "e".to_owned());
        let junction = ["bending stress at the junction", "shear stress at the junction"];
        let kind = match junction.map(|name| self.workings.id(name)) {
            [Some(bending), Some(shear)] if Some(reached) == at_junction => {
                LimitKind::BendingWithShear { bending, shear }
            }
            _ => LimitKind::Shear,
        };
        above.then_some(Limit { words, index, allowed, reached, is_of_joint: false, kind })
    }

    fn allowed(
        &mut self,
        name: &str,
        (role, index): (Role, &str),
        stress: f64,
    ) -> Result<Id, EvaluationError> {
        let entry =
            Entry::new(Chapter::Given, role, index, name).says("What the material may bear, as given.");
        self.given(entry, stress, Dimension::STRESS)
    }

    fn largest_factor(&mut self, limits: &[Limit], factors: &[Id]) -> Result<Id, EvaluationError> {
        let least = factors.iter().map(|&id| self.value(id)).fold(f64::INFINITY, f64::min);
        let govern = limits.iter().zip(factors).filter(|(_, factor)| governs(self.value(**factor), least));
        let govern: Vec<&str> = govern.map(|(limit, _)| limit.words.as_str()).collect();
        let says = format!("Every limit must be kept: {}. {CAUTION}", told_to_govern(&govern));
        let entry = Entry::new(CHAPTER, Role::LoadFactor, "", "largest load factor").says(says);
        let how = "The least of the load factors.";
        self.engine(entry, how, (factors.to_vec(), Call::Least), least, Dimension::NONE)
    }

    /// Each load, as large as it may be where all of them grow together.
    fn largest_loads(&mut self, beam: &BeamGivens, factor: Id) -> Result<(), EvaluationError> {
        for load in &beam.loads {
            let sizes = match load.kind {
                LoadKind::Force { down, .. } => [Some(down), None],
                LoadKind::Couple { ccw, .. } => [Some(ccw), None],
                LoadKind::Spread { down_from, down_to, .. } => {
                    [Some(down_from), (down_to != down_from).then_some(down_to)]
                }
            };
            for size in sizes.into_iter().flatten() {
                let given = self.workings.working(size);
                let plain = given.name.trim_start_matches("intensity of ").trim_start_matches("the ");
                let name = format!("largest {plain}");
                let letter = match given.symbol.role {
                    Role::PointForce => Some(&self.letters.force),
                    Role::SpreadLoad => Some(&self.letters.spread),
                    // A couple keeps its own letter.
                    _ => None,
                };
                let index = match (given.symbol.index.as_str(), letter) {
                    ("", None) => "allow".to_owned(),
                    (name, None) => format!("{name}, allow"),
                    (below, Some(_)) if below.contains('_') => format!("{below}, allow"),
                    (name, Some(letter)) => with_below(letter, name, "allow"),
                };
                let says = if beam.loads.len() == 1 {
                    "The load at which the first of the limits is reached: the given load times the load factor."
                } else {
                    "This load when all loads have grown together until the first of the limits is reached."
                };
                let entry = Entry::new(CHAPTER, given.symbol.role, &index, name).says(says);
                self.formula(entry, Expression::from(factor) * size.into())?;
            }
        }
        Ok(())
    }

    /// What a joint may carry, where V is largest: the force on a fastener whose spacing is given, the stress on a glue line,
    /// the flow in a line of weld.
    fn limit_of_joint(&self, engine: &Section, (joint, number): (&JointWorkings, i32)) -> Option<Limit> {
        let JointFlow { fasteners, stress, .. } = joint.along.last()?;
        let index = format!("j{number}");
        let name = &joint.name;
        if let Some((reached, allowed)) = fasteners.and_then(|f| Some((f.force?, f.capacity?))) {
            let words = format!("force on {name}");
            return Some(Limit { words, index, allowed, reached, is_of_joint: true, kind: LimitKind::Shear });
        }
        let (reached, allowed) = (*stress)?;
        let words = match self.workings.working(reached).symbol.role {
            Role::ShearFlow => format!("force on {name}"),
            _ => format!("shear stress at {name}"),
        };
        let own = self.problem.joints.iter().find(|own| own.name == *name)?;
        let all_level = || {
            let cut = engine.joint_cut(&own.beyond);
            cut.is_ok_and(|cut| cut.contacts.iter().all(|contact| contact.is_level()))
        };
        let kind =
            if own.kind == JointKind::Weld || all_level() { LimitKind::Shear } else { LimitKind::Other };
        Some(Limit { words, index, allowed: allowed?, reached, is_of_joint: true, kind })
    }
}
