//! What holds a joint: fasteners, runs of weld, a weld all along, a glue line.

use super::builder::{Builder, Entry};
use super::joints::{FastenerWorkings, at};
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::problem::{Joint, JointKind};
use crate::role::Role;
use crate::working::{Chapter, Id, Place};
use mechanics::section::Section;

const CHAPTER: Chapter = Chapter::Joints;

/// Said of a spacing that is rounded down.
pub(super) const ROUNDED_DOWN: &str = "What can be marked out on the timber or the plate. Rounded down, never up: closer together each carries less.";

/// A joint at one station, with what it must pass on there.
pub(super) struct Held<'a> {
    pub(super) joint: &'a Joint,
    /// `j1`
    pub(super) number: &'a str,
    pub(super) flow: Id,
    /// What tells the station in a name: nothing, or `, where V is largest`.
    pub(super) words: &'a str,
    /// The same in an index.
    pub(super) mark: &'a str,
    pub(super) place: Place,
}

impl Held<'_> {
    /// What one of those that stand in a row is called.
    fn one(&self) -> &'static str {
        one_of(self.joint.kind)
    }
}

/// What one of those that stand in a row is called.
pub(super) fn one_of(kind: JointKind) -> &'static str {
    match kind {
        JointKind::Weld => "run",
        JointKind::Glue | JointKind::Fasteners => "fastener",
    }
}

impl Builder<'_> {
    /// What the lesson gives of a joint, once for all its stations.
    fn given_of_joint(
        &mut self,
        held: &Held<'_>,
        (role, what): (Role, &str),
        (value, dimension): (f64, Dimension),
        says: &str,
    ) -> Result<Id, EvaluationError> {
        let full = format!("{what} of {}", held.joint.name);
        if let Some(id) = self.workings.id(&full) {
            return Ok(id);
        }
        let entry = Entry::new(Chapter::Given, role, held.number, full).says(says);
        self.given(entry, value, dimension)
    }

    fn rows(&mut self, held: &Held<'_>) -> Result<Id, EvaluationError> {
        let says = match held.joint.kind {
            JointKind::Weld => "So many lines of weld run side by side and share the shear flow.",
            _ => "So many rows of fasteners cross the cut side by side and share the shear flow.",
        };
        let rows = f64::from(held.joint.rows.max(1));
        self.given_of_joint(held, (Role::Rows, "rows"), (rows, Dimension::NONE), says)
    }

    fn strength(&mut self, held: &Held<'_>) -> Result<Option<Id>, EvaluationError> {
        let Some(strength) = held.joint.strength else { return Ok(None) };
        let says = "What one line of the weld may carry per unit length, as given.";
        let of = (Role::WeldStrength, "strength");
        self.given_of_joint(held, of, (strength, Dimension::FORCE_PER_LENGTH), says).map(Some)
    }

    /// What one fastener or one run of a weld may carry.
    fn capacity(&mut self, held: &Held<'_>) -> Result<Option<Id>, EvaluationError> {
        if held.joint.kind != JointKind::Weld {
            let Some(capacity) = held.joint.fastener_capacity else { return Ok(None) };
            let of = (Role::FastenerCapacity, "fastener capacity");
            let says = "What one fastener may carry at one face, in one shear plane, as given.";
            return self.given_of_joint(held, of, (capacity, Dimension::FORCE), says).map(Some);
        }
        let (Some(strength), Some(run)) = (self.strength(held)?, held.joint.run) else { return Ok(None) };
        let says = "The length of one run of the weld, as given.";
        let run = self.given_of_joint(held, (Role::Length, "run"), (run, Dimension::LENGTH), says)?;
        let full = format!("capacity of one run of {}", held.joint.name);
        if let Some(id) = self.workings.id(&full) {
            return Ok(Some(id));
        }
        let entry = Entry::new(CHAPTER, Role::FastenerCapacity, held.number, full)
            .says("One run of the weld carries its strength per unit length, times its length.");
        self.formula(entry, Expression::from(strength) * run.into()).map(Some)
    }

    /// The force on one fastener at the spacing that is given, and the largest spacing for what one may carry.
    pub(super) fn fasteners(&mut self, held: &Held<'_>) -> Result<FastenerWorkings, EvaluationError> {
        let Held { joint, flow, words, mark, place, .. } = *held;
        let (name, one) = (&joint.name, held.one());
        let rows = self.rows(held)?;
        let spacing = joint
            .spacing
            .map(|spacing| {
                let says = match joint.kind {
                    JointKind::Weld => "From the beginning of one run of the weld to that of the next.",
                    _ => "The distance between the fasteners of one row, along the beam.",
                };
                self.given_of_joint(held, (Role::Spacing, "spacing"), (spacing, Dimension::LENGTH), says)
            })
            .transpose()?;
        let capacity = self.capacity(held)?;
        let mut force = None;
        if let Some(spacing) = spacing {
            let full = format!("force on one {one} of {name}{words}");
            let says = format!("Each {one} takes the shear flow of one spacing; the rows share it.");
            let entry = Entry::new(CHAPTER, Role::FastenerForce, mark, full).says(says);
            let each = Expression::from(flow) * spacing.into() / rows.into();
            force = Some(self.formula(at(entry, place), each)?);
        }
        let least_spacing = joint.run.unwrap_or(0.0);
        let mut found =
            FastenerWorkings { rows, capacity, force, largest_spacing: None, step: None, least_spacing };
        let Some(capacity) = capacity else { return Ok(found) };
        if let Some(step) = joint.step {
            let says =
                "Spacings are rounded down to a multiple of this: a closer spacing is on the safe side.";
            let of = (Role::Spacing, "step");
            let entry = Entry::new(
                Chapter::Given,
                of.0,
                &format!("{}, step", held.number),
                format!("step of {name}"),
            );
            found.step = match self.workings.id(&format!("step of {name}")) {
                Some(id) => Some(id),
                None => Some(self.given(entry.says(says), step, Dimension::LENGTH)?),
            };
        }
        // Where nothing is passed on no spacing is asked for.
        if self.value(flow) == 0.0 {
            return Ok(found);
        }
        let says = format!(
            "The spacing at which each {one} carries just what it may{}. An exercise: a real joint is designed to the local \
             code by a licensed engineer.",
            self.short_of(self.value(rows) * self.value(capacity) / self.value(flow).abs(), &found)
        );
        let (index, full) = (format!("{mark}, allow"), format!("largest spacing at {name}{words}"));
        let entry = at(Entry::new(CHAPTER, Role::Spacing, &index, full).says(says), place);
        let largest = Expression::from(rows) * capacity.into() / Expression::from(flow).size();
        let largest = self.formula(entry, largest)?;
        found.largest_spacing = Some((largest, capacity));
        if !words.is_empty()
            && let Some(step) = found.step
        {
            let (index, full) = (format!("{}, use", held.number), format!("spacing to use at {name}"));
            let entry = at(Entry::new(CHAPTER, Role::Spacing, &index, full), place);
            self.spacing_to_use(entry, (largest, least_spacing), step)?;
        }
        Ok(found)
    }

    /// The largest spacing, rounded down to the step; none where not even one step is left, nor where the runs of a weld would
    /// overlap: then even a weld all along carries too little.
    pub(super) fn spacing_to_use(
        &mut self,
        entry: Entry,
        (largest, least): (Id, f64),
        step: Id,
    ) -> Result<Option<Id>, EvaluationError> {
        let reads = vec![largest, step];
        let used = Call::RoundedDown.evaluate(&reads, self.workings.values());
        if used.is_nan() || used <= 0.0 || used < least {
            return Ok(None);
        }
        let how = "The largest spacing, rounded down to a multiple of the step.";
        self.engine(entry.says(ROUNDED_DOWN), how, (reads, Call::RoundedDown), used, Dimension::LENGTH)
            .map(Some)
    }

    /// What is to be said of a largest spacing, m, that is shorter than a run of the weld, or than the step to which it would be
    /// rounded.
    pub(super) fn short_of(&self, spacing: f64, fasteners: &FastenerWorkings) -> &'static str {
        let is_no_step = |step: Id| spacing * (1.0 + 1e-9) < self.value(step);
        if spacing < fasteners.least_spacing {
            "; it is shorter than one run, so even a weld all along carries too little"
        } else if fasteners.step.is_some_and(is_no_step) {
            "; it is shorter than the step to which spacings are rounded, so it is taken as it is"
        } else {
            ""
        }
    }

    /// The force on each length of a line of weld that runs on, with what it may be.
    pub(super) fn weld(&mut self, held: &Held<'_>) -> Result<Option<(Id, Option<Id>)>, EvaluationError> {
        let Some(strength) = self.strength(held)? else { return Ok(None) };
        let rows = self.rows(held)?;
        let full = format!("shear flow in one line of {}{}", held.joint.name, held.words);
        let entry = Entry::new(CHAPTER, Role::ShearFlow, &format!("{}, line", held.mark), full)
            .says("The lines of weld share the shear flow.");
        let line = Expression::from(held.flow) / rows.into();
        let line = self.formula(at(entry, held.place), line)?;
        Ok(Some((line, Some(strength))))
    }

    /// The mean stress on a glue line that runs all along the contact, with what it may be.
    pub(super) fn bond(
        &mut self,
        engine: &Section,
        held: &Held<'_>,
    ) -> Result<Option<(Id, Option<Id>)>, EvaluationError> {
        let Held { joint, number, flow, words, mark, place } = *held;
        let name = &joint.name;
        let Ok(cut) = engine.joint_cut(&joint.beyond) else { return Ok(None) };
        if cut.width <= 0.0 {
            return Ok(None);
        }
        let full = format!("width of {name}");
        let width = match self.workings.id(&full) {
            Some(id) => id,
            None => {
                let how = "The length of the lines along which the parts touch.";
                let entry = Entry::new(CHAPTER, Role::WidthAtCut, number, full).says(how);
                self.engine(entry, how, (Vec::new(), Call::Fixed), cut.width, Dimension::LENGTH)?
            }
        };
        let allowed = joint
            .allowable_stress
            .map(|stress| {
                let full = format!("allowable shear stress of {name}");
                if let Some(id) = self.workings.id(&full) {
                    return Ok(id);
                }
                let index = format!("{number}, allow");
                let entry = Entry::new(Chapter::Given, Role::ShearStress, &index, full)
                    .says("What the glue may bear, as given.");
                self.given(entry, stress, Dimension::STRESS)
            })
            .transpose()?;
        let entry = Entry::new(CHAPTER, Role::ShearStress, mark, format!("shear stress at {name}{words}"))
            .says("The shear flow, spread over the width of the glue line.");
        let stress = self.formula(at(entry, place), Expression::from(flow) / width.into())?;
        Ok(Some((stress, allowed)))
    }
}
