//! Fasteners along the beam: from key station to key station how close they stand, and how many of them.

use super::builder::{Builder, Entry, zero};
use super::diagrams::{DiagramWorkings, Stop};
use super::fasteners::{ROUNDED_DOWN, one_of};
use super::joints::{Counting, FastenerWorkings, JointWorkings};
use super::names::with_below;
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
    pub shears: [Option<Id>; 2],
    /// M just inside both ends.
    pub moments: [Id; 2],
    /// The larger V of both ends, by its size; for zones between key stations the same for all joints.
    pub shear: Id,
    /// The shear flow at the end where V is larger.
    pub flow: Id,
    /// The largest spacing there.
    pub largest_spacing: Id,
    /// The same, rounded down to the step and no longer than the zone; none where no step is given or none is left.
    pub spacing_to_use: Option<Id>,
    /// How many fasteners the balance of the piece beyond asks for, over all rows.
    pub number: Id,
    /// The same, rounded up.
    pub whole_number: Id,
    /// How many spacings there are in it.
    pub spacings: Id,
    /// How many stand in one row.
    pub in_a_row: Id,
    /// How many stand there at the spacing to use, in whole rows: what is put in.
    pub standing: Id,
    /// Its end, where it ends at a step.
    pub step: Option<StepWorkings>,
    /// Whether its largest spacing is as long as the zone or longer: one fastener stands in each row.
    pub is_one_a_row: bool,
}

impl ZoneWorkings {
    /// All workings that are its own and no other zone's, in their order; those of the step at its end before them.
    pub fn own(&self) -> Vec<Id> {
        let step = self.step.iter().flat_map(|step| step.own());
        let own = [Some(self.shear), Some(self.flow), Some(self.largest_spacing), self.spacing_to_use];
        let counts = [self.number, self.whole_number, self.spacings, self.in_a_row, self.standing];
        step.chain(own.into_iter().flatten()).chain(counts).collect()
    }
}

/// The workings of an end of a zone at a step.
#[derive(Clone, Copy, Debug)]
pub struct StepWorkings {
    /// Where it is.
    pub station: Id,
    /// The intensity of the load there; none where it is even.
    pub intensity: Option<Id>,
    /// V there.
    pub shear: Id,
    /// M there.
    pub moment: Id,
}

impl StepWorkings {
    /// All of them, in their order.
    pub fn own(&self) -> Vec<Id> {
        [Some(self.station), self.intensity, Some(self.shear), Some(self.moment)]
            .into_iter()
            .flatten()
            .collect()
    }
}

/// The zones of a joint from left to right, and the stretches between them on which V is zero.
#[derive(Clone, Debug, Default)]
pub(crate) struct AllZones {
    pub(crate) zones: Vec<ZoneWorkings>,
    /// From station to station.
    pub(crate) idle: Vec<[Id; 2]>,
}

/// Under a spread load V falls off along a stretch: it is parted in so many zones of one length where V falls to nearly
/// nothing, and in two where it falls below [`FALLS`] of its size, so that the spacing grows in steps as V falls; but only
/// where that saves fasteners. Common practice, no source.
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
    step: Option<StepWorkings>,
}

/// A stretch along which V keeps its sign and grows or falls one way only.
struct Stretch {
    from: End,
    to: End,
    load: Option<Load>,
}

/// The spread load on a stretch, and V and M where it begins: at the key station before.
#[derive(Clone, Copy)]
struct Load {
    from: Id,
    to: Id,
    shear: Id,
    moment: Id,
    /// Just inside both ends.
    intensity: (Id, Id),
}

impl Builder<'_> {
    /// The zones of a joint whose fasteners have a capacity; a stretch without shear force is none.
    pub(super) fn zones(
        &mut self,
        diagrams: &DiagramWorkings,
        joint: &JointWorkings,
        number: &str,
    ) -> Result<AllZones, EvaluationError> {
        let mut all = AllZones::default();
        let fasteners = joint.along.last().and_then(|along| along.fasteners);
        let Some((fasteners, capacity)) = fasteners.and_then(|f| Some((f, f.capacity?))) else {
            return Ok(all);
        };
        // A joint that passes nothing on asks for no spacing anywhere.
        if self.value(joint.counting.first_moment) == 0.0 {
            return Ok(all);
        }
        let most = self.value(diagrams.largest_shear).abs();
        for stretch in stretches(diagrams) {
            // What is left of a V that is zero by the balance must not become a zone.
            let is_nothing = |end: &End| end.shear.is_none_or(|shear| self.value(shear).abs() <= 1e-9 * most);
            if is_nothing(&stretch.from) && is_nothing(&stretch.to) {
                all.idle.push([stretch.from.station, stretch.to.station]);
                continue;
            }
            let mut of_zone = Zone { joint, fasteners, capacity, number, place: all.zones.len() + 1 };
            let steps = self.steps(&of_zone, &stretch);
            for [from, to] in self.in_steps(&of_zone, stretch, steps)? {
                of_zone.place = all.zones.len() + 1;
                all.zones.push(self.zone(&of_zone, (&from, &to), steps > 1)?);
            }
        }
        if !all.zones.is_empty() {
            let one = self.one_of(joint);
            let full = format!("number of {one}s of {} in all", joint.name);
            let entry = Entry::new(CHAPTER, Role::Count, number, full)
                .says("All zones together, each with the spacing to use in it: so many are put in.");
            let sum = all.zones.iter().map(|zone| Expression::from(zone.standing)).collect();
            self.formula(entry, Expression::sum(sum))?;
        }
        Ok(all)
    }

    /// In how many steps a stretch is fastened: in one where V does not fall off, and where steps would save nothing.
    fn steps(&self, zone: &Zone<'_>, stretch: &Stretch) -> u32 {
        let Some(load) = &stretch.load else { return 1 };
        let size = |end: &End| end.shear.map_or(0.0, |id| self.value(id).abs());
        let (first, last) = (size(&stretch.from), size(&stretch.to));
        let steps = match first.min(last) / first.max(last) {
            ratio if ratio < NEARLY_NOTHING => STEPS,
            ratio if ratio < FALLS => 2,
            _ => return 1,
        };
        let (from, to) = (self.value(stretch.from.station), self.value(stretch.to.station));
        let at = |step: u32, steps: u32| match step {
            0 => first,
            _ if step == steps => last,
            _ => self.shear_at(load, from + (to - from) * f64::from(step) / f64::from(steps)).abs(),
        };
        let count = |steps: u32| -> f64 {
            let length = (to - from) / f64::from(steps);
            let in_a_row = |step| {
                let spacing = self.spacing_for(zone, at(step, steps).max(at(step + 1, steps)));
                (length / spacing * (1.0 - 1e-9)).ceil()
            };
            (0..steps).map(in_a_row).sum()
        };
        if count(steps) < count(1) { steps } else { 1 }
    }

    /// V under a spread load at a station, N.
    fn shear_at(&self, load: &Load, station: f64) -> f64 {
        let (along, length) = (station - self.value(load.from), self.value(load.to) - self.value(load.from));
        let (first, last) = (self.value(load.intensity.0), self.value(load.intensity.1));
        self.value(load.shear) - along * (first + 0.5 * (last - first) * along / length)
    }

    /// The spacing for a shear force, N, rounded down where a step is given and left, m.
    fn spacing_for(&self, zone: &Zone<'_>, shear: f64) -> f64 {
        let Counting { first_moment, second_moment } = zone.joint.counting;
        let flow = shear * self.value(first_moment) / self.value(second_moment);
        let largest = self.value(zone.fasteners.rows) * self.value(zone.capacity) / flow.abs();
        let step = zone.fasteners.step.map_or(0.0, |step| self.value(step));
        let rounded = (largest / step * (1.0 + 1e-9)).floor() * step;
        if rounded > 0.0 { rounded } else { largest }
    }

    /// A stretch parted in so many steps of one length.
    fn in_steps(
        &mut self,
        zone: &Zone<'_>,
        stretch: Stretch,
        steps: u32,
    ) -> Result<Vec<[End; 2]>, EvaluationError> {
        let Stretch { from, to, load } = stretch;
        let mut ends = vec![from.clone()];
        if let Some(load) = load {
            for step in 1..steps {
                ends.push(self.between((&from, &to), load, (step, steps), zone)?);
            }
        }
        ends.push(to);
        Ok(ends.windows(2).map(|pair| [pair[0].clone(), pair[1].clone()]).collect())
    }

    /// A point so many steps along a stretch under a spread load.
    fn between(
        &mut self,
        (from, to): (&End, &End),
        load: Load,
        (step, steps): (u32, u32),
        zone: &Zone<'_>,
    ) -> Result<End, EvaluationError> {
        let place = zone.place + step as usize - 1;
        let words = format!("the end of zone {place} of {}", zone.joint.name);
        let mark = format!("{}, {place}", zone.number);
        let part = || Expression::Number(f64::from(step)) / f64::from(steps).into();
        let length = || self.zone_length(from.station, to.station) * part();
        let station = match self.value(from.station) == 0.0 {
            true => length(),
            false => Expression::from(from.station) + length(),
        };
        let length = length();
        let x = self.workings.evaluate(&station)?.value;
        let entry =
            |role, what: &str| Entry::new(CHAPTER, role, &mark, format!("{what} {words}")).at(x, None);
        let along = entry(Role::Station, "station of")
            .says("Where V falls off along a stretch it is fastened in steps of one length: fewer where V is smaller.");
        let along = self.formula(along, station)?;
        let (first, last) = load.intensity;
        let even = first == last;
        let (intensity, shear, moment) = if even {
            // V changes in a straight line, and M by the area of a trapezium.
            let shear = match (from.shear, to.shear) {
                (Some(first), Some(last)) => {
                    Expression::from(first) + (Expression::from(last) - first.into()) * part()
                }
                (Some(first), None) => Expression::from(first) * (Expression::Number(1.0) - part()),
                (None, Some(last)) => Expression::from(last) * part(),
                (None, None) => zero(Dimension::FORCE, Role::ShearForce),
            };
            let entry = entry(Role::ShearForce, "shear force at")
                .says("Under an even load V changes in a straight line along the stretch.");
            let shear = self.formula(entry, shear)?;
            let sides: Vec<Expression> =
                from.shear.into_iter().chain([shear]).map(Expression::from).collect();
            let area = Expression::sum(sides) / 2.0.into() * length;
            let moment = match self.is_nothing(from.moment) {
                true => area,
                false => Expression::from(from.moment) + area,
            };
            (None, shear, moment)
        } else {
            let (along, whole) = (self.zone_length(load.from, along), self.zone_length(load.from, load.to));
            let index = with_below(&self.letters.spread, "", &mark);
            let intensity =
                Entry::new(CHAPTER, Role::SpreadLoad, &index, format!("load intensity at {words}"))
                    .at(x, None)
                    .says("The load changes in a straight line.");
            let grown = match (self.value(first) == 0.0, self.value(last) == 0.0) {
                (true, _) => Expression::from(last) * along.clone() / whole,
                (_, true) => Expression::from(first) * (Expression::Number(1.0) - along.clone() / whole),
                _ => {
                    Expression::from(first) + (Expression::from(last) - first.into()) * along.clone() / whole
                }
            };
            let intensity = self.formula(intensity, grown)?;
            let (shear, moment) = self.under_load(along, (load.shear, load.moment), Some((first, intensity)));
            let entry = entry(Role::ShearForce, "shear force at")
                .says("V where the load begins, less the area of the load from there.");
            (Some(intensity), self.formula(entry, shear)?, moment)
        };
        let entry = entry(Role::BendingMoment, "bending moment at").says(match even {
            true => "M where the stretch begins, and the area under V from there.",
            false => "M where the load begins, and the area under V from there.",
        });
        let moment = self.formula(entry, moment)?;
        let step = StepWorkings { station: along, intensity, shear, moment };
        Ok(End { station: along, words, shear: Some(shear), moment, step: Some(step) })
    }

    fn one_of(&self, joint: &JointWorkings) -> &'static str {
        let own = self.problem.joints.iter().find(|own| own.name == joint.name);
        own.map_or("fastener", |own| one_of(own.kind))
    }

    /// The larger of V at both ends; between key stations the same for all joints.
    fn zone_shear(&mut self, where_: &str, (from, to): (&End, &End)) -> Result<Id, EvaluationError> {
        let name = format!("largest size of the shear force {where_}");
        if let Some(id) = self.workings.id(&name) {
            return Ok(id);
        }
        let reads: Vec<Id> = [from, to].into_iter().filter_map(|end| end.shear).collect();
        let how =
            "Of V at both ends of the stretch the larger, by its size: in between V changes one way only.";
        let entry = Entry::new(CHAPTER, Role::ShearForce, "zone", name)
            .says("The fasteners of one zone stand equally close, so they are set by the largest V in it.");
        let value = Call::LargestSize.evaluate(&reads, self.workings.values());
        self.engine(entry, how, (reads, Call::LargestSize), value, Dimension::FORCE)
    }

    /// One zone; it is told by its number where a stretch has several, else by the key stations at its ends.
    fn zone(
        &mut self,
        zone: &Zone<'_>,
        (from, to): (&End, &End),
        is_numbered: bool,
    ) -> Result<ZoneWorkings, EvaluationError> {
        let name = &zone.joint.name;
        let one = self.one_of(zone.joint);
        let (of_joint, of_shear) = match is_numbered {
            true => (format!("in zone {}", zone.place), format!("in zone {} of {name}", zone.place)),
            false => {
                let between = format!("between {} and {}", from.words, to.words);
                (between.clone(), between)
            }
        };
        let shear = self.zone_shear(&of_shear, (from, to))?;
        let mark = format!("{}, {}", zone.number, zone.place);
        let entry = |role, index: &str, what: &str| {
            Entry::new(CHAPTER, role, index, format!("{what} {name} {of_joint}"))
        };
        let Counting { first_moment, second_moment } = zone.joint.counting;
        let flow = entry(Role::ShearFlow, &mark, "shear flow at")
            .says("What the joint passes on per unit length, at the end of the zone where V is larger.");
        let flow =
            self.formula(flow, Expression::from(shear) * first_moment.into() / second_moment.into())?;
        let most = self.value(zone.fasteners.rows) * self.value(zone.capacity) / self.value(flow).abs();
        let largest = entry(Role::Spacing, &format!("{mark}, allow"), "largest spacing at").says(format!(
            "The spacing at which each {one} carries just what it may where V is largest in this zone{}. An exercise: a \
             real joint is designed to the local code by a licensed engineer.",
            self.short_of(most, &zone.fasteners)
        ));
        let spacing =
            Expression::from(zone.fasteners.rows) * zone.capacity.into() / Expression::from(flow).size();
        let largest_spacing = self.formula(largest, spacing)?;
        let to_use = entry(Role::Spacing, &format!("{mark}, use"), "spacing to use at");
        let spacing_to_use = self.spacing_in_zone(to_use, largest_spacing, &zone.fasteners, (from, to))?;
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
        let in_a_row = self.engine(a_row, how, (vec![spacings], Call::RoundedUp), value, Dimension::NONE)?;
        let standing = entry(Role::Count, &format!("{mark}, all"), &format!("{one}s to put in at")).says(
            "All rows together. It is never less than what the balance asks for, since the spacing is set by the largest V of \
             the zone and the balance by the mean one.",
        );
        let standing =
            self.formula(standing, Expression::from(zone.fasteners.rows) * Expression::from(in_a_row))?;
        Ok(ZoneWorkings {
            from: from.station,
            to: to.station,
            shears: [from.shear, to.shear],
            moments: [from.moment, to.moment],
            shear,
            flow,
            largest_spacing,
            spacing_to_use,
            number,
            whole_number,
            spacings,
            in_a_row,
            standing,
            step: to.step,
            is_one_a_row: self.value(in_a_row) <= 1.0,
        })
    }

    /// The largest spacing of a zone, rounded down to the step and no longer than the zone; none as for
    /// [`Builder::spacing_to_use`].
    fn spacing_in_zone(
        &mut self,
        entry: Entry,
        largest: Id,
        fasteners: &FastenerWorkings,
        (from, to): (&End, &End),
    ) -> Result<Option<Id>, EvaluationError> {
        let Some(step) = fasteners.step else { return Ok(None) };
        let reads = vec![largest, step, from.station, to.station];
        let used = Call::RoundedDownWithin.evaluate(&reads, self.workings.values());
        let rounded = Call::RoundedDown.evaluate(&reads, self.workings.values());
        if rounded.is_nan() || rounded <= 0.0 || rounded < fasteners.least_spacing {
            return Ok(None);
        }
        let (how, says) = match used < rounded {
            true => (
                "The length of the zone, for the largest spacing is longer than that.",
                "One in each row is enough here, and one there must be.",
            ),
            false => ("The largest spacing, rounded down to a multiple of the step.", ROUNDED_DOWN),
        };
        self.engine(entry.says(says), how, (reads, Call::RoundedDownWithin), used, Dimension::LENGTH)
            .map(Some)
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
    joint: &'a JointWorkings,
    fasteners: FastenerWorkings,
    capacity: Id,
    number: &'a str,
    place: usize,
}

/// The stretches between the key stations, parted where V passes through zero, each with the spread load on it.
fn stretches(diagrams: &DiagramWorkings) -> Vec<Stretch> {
    let end = |stop: &Stop, words: &String, side: usize| End {
        station: stop.station,
        words: words.clone(),
        shear: Some(stop.shear[side]),
        moment: stop.moment[side],
        step: None,
    };
    let stops: Vec<(&Stop, &String)> = diagrams.stops.iter().zip(&diagrams.words).collect();
    let mut all = Vec::with_capacity(2 * stops.len());
    for ((pair, zero), intensity) in stops.windows(2).zip(&diagrams.zeros).zip(&diagrams.intensities) {
        let (from, to) = (end(pair[0].0, pair[0].1, 1), end(pair[1].0, pair[1].1, 0));
        let load = intensity.map(|intensity| Load {
            from: from.station,
            to: to.station,
            shear: pair[0].0.shear[1],
            moment: from.moment,
            intensity,
        });
        match zero {
            None => all.push(Stretch { from, to, load }),
            Some(zero) => {
                let words = format!("the zero of V between {} and {}", from.words, to.words);
                let middle =
                    End { station: zero.station, words, shear: None, moment: zero.moment, step: None };
                all.push(Stretch { from, to: middle.clone(), load });
                all.push(Stretch { from: middle, to, load });
            }
        }
    }
    all
}
