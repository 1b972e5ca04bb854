//! What the beam may carry where the material may bear so much: how many times the loads may grow, and what governs.

use super::beam_givens::{BeamGivens, HoldGiven, LoadKind};
use super::bending::BendingWorkings;
use super::builder::{Builder, Entry};
use super::joints::JointWorkings;
use super::names::with_below;
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, Id};

const CHAPTER: Chapter = Chapter::Allowables;

/// Said wherever a load is found from what something may bear.
const CAUTION: &str = "An exercise: a real beam is designed to the local code by a licensed engineer.";

/// The workings of the chapter.
#[derive(Clone, Debug)]
pub(crate) struct AllowableWorkings {
    /// The load factor of each limit; at least one.
    pub(crate) factors: Vec<Id>,
    /// The least of them.
    pub(crate) largest_factor: Id,
}

/// A limit, and what reaches it first.
struct Limit {
    /// `shear stress`, `nails`.
    words: String,
    index: String,
    allowed: Id,
    reached: Id,
}

impl Builder<'_> {
    /// The load factors and the largest loads; none where nothing is said of what may be borne, or where not everything grows
    /// with the loads: a settlement stays what it is, and so does the beam's own weight.
    pub(crate) fn allowables(
        &mut self,
        beam: &BeamGivens,
        bending: &BendingWorkings,
        shear_along: Id,
        joints: &[JointWorkings],
    ) -> Result<Option<AllowableWorkings>, EvaluationError> {
        let mut limits = self.limits(bending, shear_along)?;
        limits.extend(fasteners(joints));
        limits.retain(|limit| self.value(limit.reached) != 0.0);
        let moved = |hold: &HoldGiven| matches!(hold, HoldGiven::Moved(_));
        let stays = self.problem.loads.iter().any(|label| label.self_weight)
            || beam.supports.iter().any(|support| moved(&support.transverse) || moved(&support.rotation));
        if limits.is_empty() || stays {
            return Ok(None);
        }
        let mut factors = Vec::with_capacity(limits.len());
        for limit in &limits {
            let says = format!(
                "So many times may all loads grow together until the {} is the allowable one.",
                limit.words
            );
            let entry = Entry::new(
                CHAPTER,
                Role::LoadFactor,
                &limit.index,
                format!("load factor for {}", limit.words),
            );
            let place = self.workings.working(limit.reached).place;
            let entry = match place.station {
                Some(station) => entry.at(station, place.side),
                None => entry,
            };
            let factor = Expression::from(limit.allowed) / Expression::from(limit.reached).size();
            factors.push(self.formula(entry.says(says), factor)?);
        }
        let largest_factor = self.largest_factor(&limits, &factors)?;
        self.largest_loads(beam, largest_factor)?;
        Ok(Some(AllowableWorkings { factors, largest_factor }))
    }

    /// What the lesson gives of what may be borne.
    fn limits(&mut self, largest: &BendingWorkings, shear_along: Id) -> Result<Vec<Limit>, EvaluationError> {
        let allowable = self.problem.allowable;
        let mut limits = Vec::new();
        let bending = match allowable.bending {
            Some(stress) if allowable.tension.is_none() || allowable.compression.is_none() => {
                Some(self.allowed("allowable bending stress", (Role::BendingStress, "allow"), stress)?)
            }
            _ => None,
        };
        let of = |own: Option<Id>| own.or(bending);
        let sides = [
            ("tension", "t", allowable.tension, largest.tension),
            ("compression", "c", allowable.compression, largest.compression),
        ];
        for (words, index, own, reached) in sides {
            let name = format!("allowable {words}");
            let symbol = format!("allow, {index}");
            let own =
                own.map(|stress| self.allowed(&name, (Role::BendingStress, &symbol), stress)).transpose()?;
            if let (Some(allowed), Some(reached)) = (of(own), reached) {
                limits.push(Limit { words: words.to_owned(), index: index.to_owned(), allowed, reached });
            }
        }
        if let Some(stress) = allowable.shear {
            let allowed = self.allowed("allowable shear stress", (Role::ShearStress, "allow"), stress)?;
            let (words, index) = ("shear stress".to_owned(), "s".to_owned());
            limits.push(Limit { words, index, allowed, reached: shear_along });
        }
        Ok(limits)
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
        let governs = limits
            .iter()
            .zip(factors)
            .min_by(|(_, one), (_, other)| self.value(**one).total_cmp(&self.value(**other)))
            .map_or("", |(limit, _)| limit.words.as_str());
        let says = format!("Every limit must be kept: the {governs} governs. {CAUTION}");
        let entry = Entry::new(CHAPTER, Role::LoadFactor, "", "largest load factor").says(says);
        let least = factors.iter().map(|&id| self.value(id)).fold(f64::INFINITY, f64::min);
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
                    Role::PointForce => &self.letters.force,
                    Role::SpreadLoad => &self.letters.spread,
                    _ => "M",
                };
                let index = match given.symbol.index.as_str() {
                    below if below.contains('_') => format!("{below}, allow"),
                    name => with_below(letter, name, "allow"),
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
}

/// The fasteners whose spacing and capacity are given, where V is largest.
fn fasteners(joints: &[JointWorkings]) -> impl Iterator<Item = Limit> + '_ {
    joints.iter().zip(1..).filter_map(|(joint, number)| {
        let fasteners = joint.along.last()?.fasteners?;
        let (reached, allowed) = (fasteners.force?, fasteners.capacity?);
        Some(Limit {
            words: format!("force on {}", joint.name),
            index: format!("j{number}"),
            allowed,
            reached,
        })
    })
}
