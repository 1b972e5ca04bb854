//! Fasteners along the beam: from key station to key station how close they stand, and how many of them.

use super::builder::{Builder, Entry, zero};
use super::diagrams::{DiagramWorkings, Stop};
use super::fasteners::{one_of, short_of};
use super::joints::{FastenerWorkings, JointWorkings};
use super::section::SectionWorkings;
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, Id};

const CHAPTER: Chapter = Chapter::Joints;

/// The workings of one zone of a joint: between two stations where V has one sign and no force acts in between.
#[derive(Clone, Copy, Debug)]
pub struct ZoneWorkings {
    /// Where it begins.
    pub from: Id,
    /// Where it ends.
    pub to: Id,
    /// V just inside both ends; none where it passes through zero there.
    pub(crate) shears: [Option<Id>; 2],
    /// M just inside both ends.
    pub(crate) moments: [Id; 2],
    /// The larger V of both ends, by its size; the same for all joints.
    pub(crate) shear: Id,
    /// The shear flow at the end where V is larger.
    pub flow: Id,
    /// The largest spacing there.
    pub largest_spacing: Id,
    /// The same, rounded down to the step; none where no step is given or none is left.
    pub spacing_to_use: Option<Id>,
    /// How many fasteners the balance of the piece beyond asks for, over all rows.
    pub number: Id,
    /// The same, rounded up.
    pub whole_number: Id,
    /// How many stand there at the spacing to use, in whole rows: what is put in.
    pub standing: Id,
}

/// Under an even load V falls off along a stretch: it is parted in so many zones of one length where V falls to nearly
/// nothing, and in two where it falls below [`FALLS`] of its size, so that the spacing grows in steps as V falls. Common practice, no source.
const STEPS: u32 = 4;

/// See [`STEPS`].
const FALLS: f64 = 0.75;

/// Below this part of its size V has fallen to nearly nothing.
const NEARLY_NOTHING: f64 = 0.3;

/// An end of a zone: V and M on the side of the zone; V none where it is zero.
#[derive(Clone)]
struct End {
    station: Id,
    words: String,
    shear: Option<Id>,
    moment: Id,
}

impl Builder<'_> {
    /// The zones of a joint whose fasteners have a capacity; a stretch without shear force is none.
    pub(super) fn zones(
        &mut self,
        section: &SectionWorkings,
        diagrams: &DiagramWorkings,
        joint: &JointWorkings,
        number: &str,
    ) -> Result<Vec<ZoneWorkings>, EvaluationError> {
        let fasteners = joint.along.last().and_then(|along| along.fasteners);
        let Some((fasteners, capacity)) = fasteners.and_then(|f| Some((f, f.capacity?))) else {
            return Ok(Vec::new());
        };
        let most = self.value(diagrams.largest_shear).abs();
        let mut zones = Vec::new();
        let mut all = Vec::new();
        for (stretch, even) in stretches(diagrams) {
            all.extend(self.in_steps(stretch, even)?);
        }
        for [from, to] in all {
            let shears: Vec<Id> = [&from, &to].into_iter().filter_map(|end| end.shear).collect();
            // What is left of a V that is zero by the balance must not become a zone.
            if shears.iter().all(|&shear| self.value(shear).abs() <= 1e-9 * most) {
                continue;
            }
            let shear = self.zone_shear((&from, &to), shears)?;
            let of_zone = Zone { section, joint, fasteners, capacity, number, place: zones.len() + 1 };
            zones.push(self.zone(&of_zone, (&from, &to), shear)?);
        }
        if !zones.is_empty() {
            let one = self.one_of(joint);
            let full = format!("number of {one}s of {} in all", joint.name);
            let entry = Entry::new(CHAPTER, Role::Count, number, full)
                .says("All zones together, each with the spacing to use in it: so many are put in.");
            let all = zones.iter().map(|zone| Expression::from(zone.standing)).collect();
            self.formula(entry, Expression::sum(all))?;
        }
        Ok(zones)
    }

    /// A stretch parted in steps, where an even load makes V fall off along it; else as it is.
    fn in_steps(&mut self, [from, to]: [End; 2], even: bool) -> Result<Vec<[End; 2]>, EvaluationError> {
        let size = |end: &End| end.shear.map_or(0.0, |id| self.value(id).abs());
        let (first, last) = (size(&from), size(&to));
        let steps = match first.min(last) / first.max(last) {
            _ if !even => 1,
            ratio if ratio < NEARLY_NOTHING => STEPS,
            ratio if ratio < FALLS => 2,
            _ => 1,
        };
        let mut ends = vec![from.clone()];
        for step in 1..steps {
            ends.push(self.between(&from, &to, (step, steps))?);
        }
        ends.push(to);
        Ok(ends.windows(2).map(|pair| [pair[0].clone(), pair[1].clone()]).collect())
    }

    /// A point so many steps along a stretch under an even load: there V changes in a straight line, and M by the area under it.
    fn between(&mut self, from: &End, to: &End, (step, steps): (u32, u32)) -> Result<End, EvaluationError> {
        let words = format!("step {step} of {steps} from {} to {}", from.words, to.words);
        let part = || Expression::Number(f64::from(step)) / f64::from(steps).into();
        let length = || self.zone_length(from.station, to.station) * part();
        let along = match self.value(from.station) == 0.0 {
            true => length(),
            false => Expression::from(from.station) + length(),
        };
        let shear = match (from.shear, to.shear) {
            (Some(first), Some(last)) => {
                Expression::from(first) + (Expression::from(last) - first.into()) * part()
            }
            (Some(first), None) => Expression::from(first) * (Expression::Number(1.0) - part()),
            (None, Some(last)) => Expression::from(last) * part(),
            (None, None) => zero(Dimension::FORCE, Role::ShearForce),
        };
        let length = length();
        let (station, name) = (self.workings.evaluate(&along)?.value, format!("station of {words}"));
        if let (Some(station), Some(shear), Some(moment)) = (
            self.workings.id(&name),
            self.workings.id(&format!("shear force at {words}")),
            self.workings.id(&format!("bending moment at {words}")),
        ) {
            return Ok(End { station, words, shear: Some(shear), moment });
        }
        let index = self.free_index(Role::Station, "step");
        let entry = Entry::new(CHAPTER, Role::Station, &index, name)
            .at(station, None)
            .says("Under an even load the stretch is fastened in steps: fewer where V has fallen off.");
        let along = self.formula(entry, along)?;
        let entry = Entry::new(CHAPTER, Role::ShearForce, &index, format!("shear force at {words}"))
            .at(station, None)
            .says("Under an even load V changes in a straight line along the stretch.");
        let shear = self.formula(entry, shear)?;
        let sides: Vec<Expression> = from.shear.into_iter().chain([shear]).map(Expression::from).collect();
        let area = Expression::sum(sides) / 2.0.into() * length;
        let moment = match self.is_nothing(from.moment) {
            true => area,
            false => Expression::from(from.moment) + area,
        };
        let entry = Entry::new(CHAPTER, Role::BendingMoment, &index, format!("bending moment at {words}"))
            .at(station, None)
            .says("M where the stretch begins, and the area under V from there.");
        let moment = self.formula(entry, moment)?;
        Ok(End { station: along, words, shear: Some(shear), moment })
    }

    fn one_of(&self, joint: &JointWorkings) -> &'static str {
        let own = self.problem.joints.iter().find(|own| own.name == joint.name);
        own.map_or("fastener", |own| one_of(own.kind))
    }

    /// The larger of V at both ends; the same for all joints.
    fn zone_shear(&mut self, (from, to): (&End, &End), reads: Vec<Id>) -> Result<Id, EvaluationError> {
        let name = format!("largest size of the shear force between {} and {}", from.words, to.words);
        if let Some(id) = self.workings.id(&name) {
            return Ok(id);
        }
        let how =
            "Of V at both ends of the stretch the larger, by its size: in between V changes one way only.";
        let entry = Entry::new(CHAPTER, Role::ShearForce, "zone", name)
            .says("The fasteners of one zone stand equally close, so they are set by the largest V in it.");
        let value = Call::LargestSize.evaluate(&reads, self.workings.values());
        self.engine(entry, how, (reads, Call::LargestSize), value, Dimension::FORCE)
    }

    fn zone(
        &mut self,
        zone: &Zone<'_>,
        (from, to): (&End, &End),
        shear: Id,
    ) -> Result<ZoneWorkings, EvaluationError> {
        let name = &zone.joint.name;
        let one = self.one_of(zone.joint);
        let between = format!("between {} and {}", from.words, to.words);
        let mark = format!("{}, {}", zone.number, zone.place);
        let entry = |role, index: &str, what: &str| {
            Entry::new(CHAPTER, role, index, format!("{what} {name} {between}"))
        };
        let (first_moment, second_moment) = (zone.joint.first_moment, zone.section.second_moment);
        let flow = entry(Role::ShearFlow, &mark, "shear flow at")
            .says("What the joint passes on per unit length, at the end of the zone where V is larger.");
        let flow =
            self.formula(flow, Expression::from(shear) * first_moment.into() / second_moment.into())?;
        let largest = entry(Role::Spacing, &format!("{mark}, allow"), "largest spacing at").says(format!(
            "The spacing at which each {one} carries just what it may where V is largest in this zone{}. An exercise: a \
             real joint is designed to the local code by a licensed engineer.",
            short_of(
                self.value(zone.fasteners.rows) * self.value(zone.capacity) / self.value(flow).abs(),
                zone.fasteners.least_spacing
            )
        ));
        let spacing =
            Expression::from(zone.fasteners.rows) * zone.capacity.into() / Expression::from(flow).size();
        let largest_spacing = self.formula(largest, spacing)?;
        let to_use = entry(Role::Spacing, &format!("{mark}, use"), "spacing to use at");
        let spacing_to_use = match zone.fasteners.step {
            Some(step) => {
                self.spacing_to_use(to_use, (largest_spacing, zone.fasteners.least_spacing), step)?
            }
            None => None,
        };
        let count = entry(Role::Count, &mark, &format!("number of {one}s of")).says(format!(
            "The part beyond the joint is pulled by the difference of its stress resultants at both ends of the zone, and \
             all {one}s of the zone hold it: so many times the capacity is Q (M2 - M1) / I, which is the shear flow added \
             up over the zone."
        ));
        let moments =
            [(to.moment, false), (from.moment, true)].into_iter().filter(|(id, _)| !self.is_nothing(*id));
        let terms: Vec<Expression> = moments
            .map(|(id, minus)| if minus { -Expression::from(id) } else { Expression::from(id) })
            .collect();
        let change = match terms.is_empty() {
            true => zero(Dimension::MOMENT, Role::BendingMoment),
            false => Expression::sum(terms).size(),
        };
        let pulled = Expression::from(first_moment) * change;
        let count_formula = pulled / (Expression::from(second_moment) * zone.capacity.into());
        let number = self.formula(count, count_formula)?;
        let whole = entry(Role::Count, &format!("{mark}, whole"), &format!("whole number of {one}s of"))
            .says(format!("Rounded up: half a {one} holds nothing."));
        let value = Call::RoundedUp.evaluate(&[number], self.workings.values());
        let how = "The number that the balance asks for, rounded up.";
        let whole_number =
            self.engine(whole, how, (vec![number], Call::RoundedUp), value, Dimension::NONE)?;
        let length = self.zone_length(from.station, to.station);
        let spacing = spacing_to_use.unwrap_or(largest_spacing);
        let spacings = entry(Role::Count, &format!("{mark}, s"), &format!("spacings of {one}s of")).says(
            "The length of the zone over the spacing: so many spacings there are, and as many in each row.",
        );
        let spacings = self.formula(spacings, length / spacing.into())?;
        let a_row = entry(Role::Count, &format!("{mark}, row"), &format!("{one}s in a row of"))
            .says(format!("Rounded up: half a {one} holds nothing. They stand evenly, no two farther apart than the spacing."));
        let value = Call::RoundedUp.evaluate(&[spacings], self.workings.values());
        let how = "The number of spacings, rounded up.";
        let a_row = self.engine(a_row, how, (vec![spacings], Call::RoundedUp), value, Dimension::NONE)?;
        let standing = entry(Role::Count, &format!("{mark}, all"), &format!("{one}s to put in at")).says(
            "All rows together. It is never less than what the balance asks for, since the spacing is set by the largest V of \
             the zone and the balance by the mean one.",
        );
        let standing =
            self.formula(standing, Expression::from(zone.fasteners.rows) * Expression::from(a_row))?;
        let (shears, moments) = ([from.shear, to.shear], [from.moment, to.moment]);
        let (from, to) = (from.station, to.station);
        Ok(ZoneWorkings {
            shears,
            moments,
            shear,
            from,
            to,
            flow,
            largest_spacing,
            spacing_to_use,
            number,
            whole_number,
            standing,
        })
    }

    fn zone_length(&self, from: Id, to: Id) -> Expression {
        match self.value(from) == 0.0 {
            true => to.into(),
            false => Expression::from(to) - from.into(),
        }
    }
}

/// What all zones of a joint have in common, and which of them it is.
struct Zone<'a> {
    section: &'a SectionWorkings,
    joint: &'a JointWorkings,
    fasteners: FastenerWorkings,
    capacity: Id,
    number: &'a str,
    place: usize,
}

/// The stretches between the key stations, parted where V passes through zero, each with whether an even load lies on it.
fn stretches(diagrams: &DiagramWorkings) -> Vec<([End; 2], bool)> {
    let end = |stop: &Stop, words: &String, side: usize| End {
        station: stop.station,
        words: words.clone(),
        shear: Some(stop.shear[side]),
        moment: stop.moment[side],
    };
    let stops: Vec<(&Stop, &String)> = diagrams.stops.iter().zip(&diagrams.words).collect();
    let mut all = Vec::with_capacity(2 * stops.len());
    for ((pair, zero), intensity) in stops.windows(2).zip(&diagrams.zeros).zip(&diagrams.intensities) {
        let even = intensity.is_some_and(|(first, last)| first == last);
        let (from, to) = (end(pair[0].0, pair[0].1, 1), end(pair[1].0, pair[1].1, 0));
        match zero {
            None => all.push(([from, to], even)),
            Some(zero) => {
                let words = format!("the zero of V between {} and {}", from.words, to.words);
                let middle = End { station: zero.station, words, shear: None, moment: zero.moment };
                all.push(([from, middle.clone()], even));
                all.push(([middle, to], even));
            }
        }
    }
    all
}
