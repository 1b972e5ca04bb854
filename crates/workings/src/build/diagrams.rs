//! V and M along the beam, from station to station: the area under the load changes V, the area under V changes M.

use super::balance::Reactions;
use super::beam_givens::{BeamGivens, LoadKind};
use super::builder::{Builder, Entry, zero};
use super::names::with_below;
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, Id};
use mechanics::beam::Side;

const CHAPTER: Chapter = Chapter::Diagrams;

/// What the diagrams leave for the chapters after them.
#[derive(Clone, Debug)]
pub(crate) struct DiagramWorkings {
    /// The shear force of largest size.
    pub(crate) largest_shear: Id,
    /// The largest sagging moment, where there is one.
    pub(crate) sagging: Option<Id>,
    /// The largest hogging moment, where there is one.
    pub(crate) hogging: Option<Id>,
    /// The key stations from left to right.
    pub(crate) stops: Vec<Stop>,
    /// What each key station is called: `A`, `force P`.
    pub(crate) words: Vec<String>,
    /// Where V passes through zero between one key station and the next, and M there.
    pub(crate) zeros: Vec<Option<ZeroOfShear>>,
    /// The intensities just inside the ends of each stretch between them; none where no spread load acts.
    pub(crate) intensities: Vec<Option<(Id, Id)>>,
}

/// A key station with V and M just left and just right of it; the same twice where nothing jumps.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stop {
    pub(crate) station: Id,
    pub(crate) shear: [Id; 2],
    pub(crate) moment: [Id; 2],
}

/// A station where something acts, or the slice's.
pub(super) struct Key {
    pub(super) station: Id,
    /// `A`, `force P`, `the left end`.
    pub(super) words: String,
    pub(super) index: String,
    rank: u8,
    /// Forces up and couples that act there.
    up: Vec<Expression>,
    turning: Vec<Expression>,
}

/// V and M on both sides of a key station; the same twice where nothing jumps.
#[derive(Clone, Copy)]
struct Values {
    shear: [Id; 2],
    moment: [Id; 2],
}

/// The stretch between two key stations.
struct Reach<'a> {
    from: &'a Key,
    to: &'a Key,
    shear: Id,
    moment: Id,
    /// Intensities just inside its ends; none where no spread load acts.
    intensity: Option<(Id, Id)>,
}

/// Where V passes through zero inside a stretch, and M there.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ZeroOfShear {
    pub(crate) station: Id,
    pub(crate) moment: Id,
}

impl Builder<'_> {
    /// V and M at every key station, where V and M are zero, and the largest of both.
    pub(crate) fn diagrams(
        &mut self,
        beam: &BeamGivens,
        reactions: &Reactions,
    ) -> Result<DiagramWorkings, EvaluationError> {
        let keys = self.keys(beam, reactions)?;
        let keys = self.with_zeros_of_load(beam, keys)?;
        let mut values: Vec<Values> = Vec::with_capacity(keys.len());
        let mut intensities = Vec::with_capacity(keys.len());
        let mut zeros: Vec<Option<ZeroOfShear>> = Vec::new();
        let last_place = keys.len() - 1;
        for (place, key) in keys.iter().enumerate() {
            let before = place.checked_sub(1).zip(values.last().copied());
            let (shear, moment) = match before {
                Some((before, last)) => {
                    let (from, to) = (&keys[before], key);
                    let intensity = self.intensity_between(beam, from, to)?;
                    let (shear, moment) = (last.shear[1], last.moment[1]);
                    intensities.push(intensity);
                    let reach = Reach { from, to, shear, moment, intensity };
                    let (shear, moment) = self.along(&reach);
                    let zero = self.zero_of_shear(&reach, &shear)?;
                    zeros.push(zero);
                    self.contraflexures(&reach, &moment, zero)?;
                    (shear, moment)
                }
                None => {
                    (zero(Dimension::FORCE, Role::ShearForce), zero(Dimension::MOMENT, Role::BendingMoment))
                }
            };
            // Nothing of the beam lies left of its first station or right of its last.
            let ends = (place > 0, place < last_place);
            let loaded = place > 0 && intensities.last().is_some_and(|intensity| intensity.is_some());
            values.push(self.at_key(key, ends, loaded, shear, moment)?);
        }
        let stops = keys.iter().zip(&values);
        let stops =
            stops.map(|(key, &Values { shear, moment })| Stop { station: key.station, shear, moment });
        let stops = stops.collect();
        let extra: Vec<Id> = zeros.iter().flatten().map(|zero| zero.moment).collect();
        let (largest_shear, sagging, hogging) = self.largest(&values, &extra)?;
        let words = keys.into_iter().map(|key| key.words).collect();
        Ok(DiagramWorkings { largest_shear, sagging, hogging, stops, words, zeros, intensities })
    }

    /// The key stations from left to right, with what acts at each.
    pub(super) fn keys(
        &mut self,
        beam: &BeamGivens,
        reactions: &Reactions,
    ) -> Result<Vec<Key>, EvaluationError> {
        let key = |station: Id, words: String, index: String, rank: u8| Key {
            station,
            words,
            index,
            rank,
            up: Vec::new(),
            turning: Vec::new(),
        };
        let mut all = vec![key(beam.length, "the right end".into(), "L".into(), 5)];
        for (of, support) in beam.supports.iter().enumerate() {
            let mut at = key(support.station, support.name.clone(), support.name.clone(), 0);
            at.up.extend(reactions.forces[of].map(Expression::from));
            at.turning.extend(reactions.couples[of].map(Expression::from));
            all.push(at);
        }
        for &hinge in &beam.hinges {
            let working = self.workings.working(hinge);
            let words = working.name.replacen("station of ", "", 1);
            all.push(key(hinge, words, working.symbol.index.clone(), 1));
        }
        for load in &beam.loads {
            match load.kind {
                LoadKind::Force { station, down } => {
                    let index = self.workings.working(station).symbol.index.clone();
                    let mut at = key(station, load.words.clone(), index, 2);
                    at.up.push(-Expression::from(down));
                    all.push(at);
                }
                LoadKind::Couple { station, ccw } => {
                    let index = self.workings.working(station).symbol.index.clone();
                    let mut at = key(station, load.words.clone(), index, 3);
                    at.turning.push(ccw.into());
                    all.push(at);
                }
                LoadKind::Spread { from, to, .. } => {
                    for (station, end) in [(from, "start"), (to, "end")] {
                        let index = self.workings.working(station).symbol.index.clone();
                        all.push(key(station, format!("the {end} of {}", load.words), index, 4));
                    }
                }
            }
        }
        if !all.iter().any(|key| self.same_station(self.value(key.station), 0.0)) {
            let name = "station of the left end";
            let origin = match self.workings.id(name) {
                Some(known) => known,
                None => {
                    let entry = Entry::new(Chapter::Given, Role::Station, "0", name)
                        .at(0.0, None)
                        .says("Stations are measured from the left end.");
                    self.given(entry, 0.0, Dimension::LENGTH)?
                }
            };
            all.push(key(origin, "the left end".into(), "0".into(), 5));
        }
        all.sort_by(|a, b| self.value(a.station).total_cmp(&self.value(b.station)).then(a.rank.cmp(&b.rank)));
        let mut keys: Vec<Key> = Vec::with_capacity(all.len());
        for next in all {
            match keys.last_mut() {
                Some(last) if self.same_station(self.value(last.station), self.value(next.station)) => {
                    last.up.extend(next.up);
                    last.turning.extend(next.turning);
                    if next.rank < last.rank {
                        (last.station, last.words, last.index, last.rank) =
                            (next.station, next.words, next.index, next.rank);
                    }
                }
                _ => keys.push(next),
            }
        }
        Ok(keys)
    }

    /// Adds the stations where the load changes from down to up: V has a largest or smallest value there.
    fn with_zeros_of_load(&mut self, beam: &BeamGivens, keys: Vec<Key>) -> Result<Vec<Key>, EvaluationError> {
        let mut all: Vec<Key> = Vec::with_capacity(keys.len());
        for key in keys {
            if let Some(before) = all.last()
                && let Some((first, last)) = self.intensity_between(beam, before, &key)?
                && self.value(first) * self.value(last) < 0.0
            {
                let index = self.free_index(Role::Station, "load=0");
                let name = format!("zero of the load between {} and {}", before.words, key.words);
                let length = self.difference(key.station, before.station);
                let share = Expression::from(first) / (Expression::from(first) - last.into());
                let offset = length * share;
                let station = match self.value(before.station) {
                    0.0 => offset,
                    _ => Expression::from(before.station) + offset,
                };
                let x = self.workings.evaluate(&station)?.value;
                let entry = Entry::new(CHAPTER, Role::Station, &index, format!("station of the {name}"))
                    .at(x, None)
                    .says("Here the load changes from down to up, so V has a largest or a smallest value.");
                let station = self.formula(entry, station)?;
                let (up, turning) = (Vec::new(), Vec::new());
                all.push(Key { station, words: format!("the {name}"), index, rank: 6, up, turning });
            }
            all.push(key);
        }
        Ok(all)
    }

    /// The intensity of all spread loads just inside the ends of a stretch.
    fn intensity_between(
        &mut self,
        beam: &BeamGivens,
        from: &Key,
        to: &Key,
    ) -> Result<Option<(Id, Id)>, EvaluationError> {
        let (start, end) = (self.value(from.station), self.value(to.station));
        let middle = 0.5 * (start + end);
        let mut terms: Vec<[Expression; 2]> = Vec::new();
        let mut uniform = true;
        for load in &beam.loads {
            let LoadKind::Spread { from: begin, to: finish, down_from, down_to } = load.kind else {
                continue;
            };
            if self.value(begin) >= middle || self.value(finish) <= middle {
                continue;
            }
            uniform &= down_from == down_to;
            let at = |key: &Key| {
                let x = self.value(key.station);
                if self.same_station(x, self.value(begin)) {
                    down_from.into()
                } else if self.same_station(x, self.value(finish)) {
                    down_to.into()
                } else {
                    self.intensity_at(key.station, (begin, finish), (down_from, down_to))
                }
            };
            terms.push([at(from), at(to)]);
        }
        if terms.is_empty() {
            return Ok(None);
        }
        let (first, last): (Vec<Expression>, Vec<Expression>) =
            terms.into_iter().map(|[first, last]| (first, last)).unzip();
        let made = |builder: &mut Self, terms: Vec<Expression>, key: &Key, side: Side| {
            if let [Expression::Working(id)] = terms.as_slice() {
                return Ok(*id);
            }
            let words = side_of(side);
            let name = format!("load intensity just {words} of {}", key.words);
            if let Some(known) = builder.workings.id(&name) {
                return Ok(known);
            }
            let index = with_below(&builder.letters.spread, "", &format!("{}, {words}", key.index));
            let entry = Entry::new(CHAPTER, Role::SpreadLoad, &index, name)
                .at(builder.value(key.station), Some(side))
                .says("All the spread loads that act here, together.");
            builder.formula(entry, Expression::sum(terms))
        };
        let first = made(self, first, from, Side::Right)?;
        let last = if uniform { first } else { made(self, last, to, Side::Left)? };
        Ok(Some((first, last)))
    }

    /// V and M at the right end of a stretch, as formulas. What is zero by its nature is left out.
    fn along(&self, reach: &Reach<'_>) -> (Expression, Expression) {
        let length = self.difference(reach.to.station, reach.from.station);
        self.under_load(length, (reach.shear, reach.moment), reach.intensity)
    }

    /// V and M a length further along, from V and M before it and the intensities at both ends of that length.
    pub(super) fn under_load(
        &self,
        length: Expression,
        (shear_before, moment_before): (Id, Id),
        intensity: Option<(Id, Id)>,
    ) -> (Expression, Expression) {
        let (mut shear, mut moment) = (Vec::new(), Vec::new());
        if !self.is_nothing(moment_before) {
            moment.push(moment_before.into());
        }
        if !self.is_nothing(shear_before) {
            shear.push(shear_before.into());
            moment.push(Expression::from(shear_before) * length.clone());
        }
        let squared = length.clone().power(2);
        match intensity {
            None => {}
            Some((first, last)) if first == last => {
                shear.push(-(Expression::from(first) * length));
                moment.push(-(Expression::from(first) * squared / 2.0.into()));
            }
            Some((first, last)) => {
                let ends = [first, last].into_iter().filter(|&end| self.value(end) != 0.0);
                let ends: Vec<Expression> = ends.map(Expression::from).collect();
                // Loads that cancel each other change nothing.
                if !ends.is_empty() {
                    shear.push(-(Expression::sum(ends) * length / 2.0.into()));
                }
                // Two triangles: w1 l² / 3 of the falling one, w2 l² / 6 of the rising one.
                if self.value(first) != 0.0 {
                    moment.push(-(Expression::from(first) * squared.clone() / 3.0.into()));
                }
                if self.value(last) != 0.0 {
                    moment.push(-(Expression::from(last) * squared / 6.0.into()));
                }
            }
        }
        let or_nothing = |terms: Vec<Expression>, dimension, role| match terms.is_empty() {
            true => zero(dimension, role),
            false => Expression::sum(terms),
        };
        (
            or_nothing(shear, Dimension::FORCE, Role::ShearForce),
            or_nothing(moment, Dimension::MOMENT, Role::BendingMoment),
        )
    }

    /// V and M on both sides of a key station, from what they are just left of it; `loaded` where a spread load acts
    /// between it and the station before.
    fn at_key(
        &mut self,
        key: &Key,
        ends: (bool, bool),
        loaded: bool,
        shear: Expression,
        moment: Expression,
    ) -> Result<Values, EvaluationError> {
        let turning: Vec<Expression> = key.turning.iter().map(|couple| -couple.clone()).collect();
        let shear = self.one_at_key(key, ends, loaded, Role::ShearForce, shear, &key.up)?;
        let moment = self.one_at_key(key, ends, loaded, Role::BendingMoment, moment, &turning)?;
        Ok(Values { shear, moment })
    }

    fn one_at_key(
        &mut self,
        key: &Key,
        (has_left, has_right): (bool, bool),
        loaded: bool,
        role: Role,
        before: Expression,
        jump: &[Expression],
    ) -> Result<[Id; 2], EvaluationError> {
        let x = self.value(key.station);
        let (what, along, across) = match role {
            Role::ShearForce => (
                "shear force",
                match (has_left, loaded) {
                    (false, _) => "Here the beam begins, and no force acts: V is zero.",
                    (true, true) => "From the station before: the load in between lowers V by its area.",
                    (true, false) => "From the station before: no load acts in between, so V stays as it is.",
                },
                "What acts up at the station makes V jump up, what acts down makes it jump down.",
            ),
            _ => (
                "bending moment",
                match has_left {
                    false => "Here the beam begins, and no couple acts: M is zero.",
                    true => "From the station before: M changes by the area under V in between.",
                },
                "A couple makes M jump: a counter-clockwise one down, a clockwise one up; V does not notice it.",
            ),
        };
        let jumps = !jump.is_empty();
        let entry = |side: Option<Side>| {
            let (index, words) = match side {
                Some(side) => {
                    (format!("{}, {}", key.index, side_of(side)), format!("just {} of", side_of(side)))
                }
                None => (key.index.clone(), "at".to_owned()),
            };
            Entry::new(CHAPTER, role, &index, format!("{what} {words} {}", key.words)).at(x, side)
        };
        if !jumps {
            let id = self.formula(entry(None).says(along), before)?;
            return Ok([id, id]);
        }
        let left = match has_left {
            true => Some(self.formula(entry(Some(Side::Left)).says(along), before)?),
            false => None,
        };
        let right = match has_right {
            true => {
                let before = left.filter(|&left| !self.is_nothing(left)).map(Expression::from);
                let terms = before.into_iter().chain(jump.iter().cloned()).collect();
                Some(self.formula(entry(Some(Side::Right)).says(across), Expression::sum(terms))?)
            }
            false => None,
        };
        match (left, right) {
            (Some(left), Some(right)) => Ok([left, right]),
            (Some(one), None) | (None, Some(one)) => Ok([one, one]),
            // A beam has two ends, so a station has the beam on one side at least.
            (None, None) => Err(EvaluationError::NotComputable { working: what.to_owned() }),
        }
    }

    /// Where V passes through zero inside a stretch, and M there.
    fn zero_of_shear(
        &mut self,
        reach: &Reach<'_>,
        end: &Expression,
    ) -> Result<Option<ZeroOfShear>, EvaluationError> {
        let Some((first, last)) = reach.intensity else { return Ok(None) };
        let start = self.value(reach.shear);
        let end = self.workings.evaluate(end)?.value;
        let noise = 1e-9 * start.abs().max(end.abs());
        if start * end >= 0.0 || start.abs() <= noise || end.abs() <= noise {
            return Ok(None);
        }
        let length = self.difference(reach.to.station, reach.from.station);
        let from = reach.from.station;
        let shear = Expression::from(reach.shear);
        let offset = if first == last {
            shear / first.into()
        } else {
            // V - w1 s - k s²/2 = 0 with k = (w2 - w1) / l. Written as 2 V / (w1 + root) the root inside the stretch
            // loses no figures: the load does not change its direction in a stretch.
            let twice = Expression::from(2.0) * shear.clone();
            if self.value(first) == 0.0 {
                (twice * length / last.into()).root()
            } else {
                let growth = Expression::from(2.0) * (Expression::from(last) - first.into()) * shear / length;
                let root = (Expression::from(first).power(2) + growth).root();
                let root = if start > 0.0 { root } else { -root };
                twice / (Expression::from(first) + root)
            }
        };
        let station = if self.value(from) == 0.0 { offset } else { Expression::from(from) + offset };
        let x = self.workings.evaluate(&station)?.value;
        let index = self.free_index(Role::Station, "V=0");
        let name = format!("station of zero shear force between {} and {}", reach.from.words, reach.to.words);
        let entry = Entry::new(CHAPTER, Role::Station, &index, name)
            .at(x, None)
            .says("Here V passes through zero, so M has a largest or a smallest value.");
        let station = self.formula(entry, station)?;
        let s = self.difference(station, from);
        let before = match self.is_nothing(reach.moment) {
            true => Expression::from(reach.shear) * s.clone(),
            false => Expression::from(reach.moment) + Expression::from(reach.shear) * s.clone(),
        };
        let starts_at_nothing = first != last && self.value(first) == 0.0;
        let mut moment = match starts_at_nothing {
            true => before,
            false => before - Expression::from(first) * s.clone().power(2) / 2.0.into(),
        };
        if first != last {
            let whole = self.difference(reach.to.station, from);
            let growth = match starts_at_nothing {
                true => last.into(),
                false => Expression::from(last) - first.into(),
            };
            moment = moment - growth * s.power(3) / (Expression::from(6.0) * whole);
        }
        let name =
            format!("bending moment at zero shear force between {} and {}", reach.from.words, reach.to.words);
        let entry = Entry::new(CHAPTER, Role::BendingMoment, &index, name)
            .at(x, None)
            .says("M where V is zero: the area under V up to there has been added.");
        let moment = self.formula(entry, moment)?;
        Ok(Some(ZeroOfShear { station, moment }))
    }

    /// Where M passes through zero inside a stretch: between its ends and the place where V is zero, M only grows or
    /// only falls.
    fn contraflexures(
        &mut self,
        reach: &Reach<'_>,
        end: &Expression,
        zero: Option<ZeroOfShear>,
    ) -> Result<(), EvaluationError> {
        let ends = [
            (reach.from.station, self.value(reach.moment)),
            (reach.to.station, self.workings.evaluate(end)?.value),
        ];
        match zero {
            None => self.contraflexure(reach, ends),
            Some(zero) => {
                let middle = (zero.station, self.value(zero.moment));
                self.contraflexure(reach, [ends[0], middle])?;
                self.contraflexure(reach, [middle, ends[1]])
            }
        }
    }

    fn contraflexure(
        &mut self,
        reach: &Reach<'_>,
        [(left, start), (right, end)]: [(Id, f64); 2],
    ) -> Result<(), EvaluationError> {
        let from = reach.from.station;
        let (low, high) = (self.value(left) - self.value(from), self.value(right) - self.value(from));
        // What is left of a moment that ought to be zero must not count as a change of sign.
        let noise = 1e-9 * start.abs().max(end.abs()).max(self.value(reach.shear).abs() * high);
        if start * end >= 0.0 || start.abs() <= noise || end.abs() <= noise {
            return Ok(());
        }
        let name = format!("point of contraflexure between {} and {}", reach.from.words, reach.to.words);
        let index = self.free_index(Role::Station, "M=0");
        let entry = |x: f64| {
            Entry::new(CHAPTER, Role::Station, &index, name.clone())
                .at(x, None)
                .says("Here M passes through zero: the beam bends neither way.")
        };
        let (moment, shear) = (Expression::from(reach.moment), Expression::from(reach.shear));
        let offset = match reach.intensity {
            None => -(moment / shear),
            Some((first, last)) if first == last && self.value(first) == 0.0 => -(moment / shear),
            Some((first, last)) if first == last => {
                // M + V s - w s²/2 = 0. With the root taken in the sense of V, one solution is (V + root) / w and the
                // other -2 M / (V + root): so neither loses figures.
                let root =
                    (shear.clone().power(2) + Expression::from(2.0) * first.into() * moment.clone()).root();
                let sum = if self.value(reach.shear) < 0.0 { shear - root } else { shear + root };
                let far = match self.is_nothing(reach.moment) {
                    true => Expression::from(2.0) * reach.shear.into() / first.into(),
                    false => sum.clone() / first.into(),
                };
                let near = -(Expression::from(2.0) * moment / sum);
                let outside = |offset: &Expression| {
                    let s = self.workings.evaluate(offset).map_or(f64::NAN, |s| s.value);
                    (low - s).max(s - high).max(0.0)
                };
                // The one that lies there; on the very edge rounding may have pushed it out.
                if outside(&far) <= outside(&near) { far } else { near }
            }
            Some((first, last)) => {
                let reads = vec![reach.moment, reach.shear, first, last, from, reach.to.station, left, right];
                let call = Call::ZeroOfMoment;
                let x = call.evaluate(&reads, self.workings.values());
                let how = "The root of the cubic that M is in this stretch.";
                self.engine(entry(x), how, (reads, call), x, Dimension::LENGTH)?;
                return Ok(());
            }
        };
        let station = if self.value(from) == 0.0 { offset } else { Expression::from(from) + offset };
        let x = self.workings.evaluate(&station)?.value;
        self.formula(entry(x), station)?;
        Ok(())
    }

    /// The largest shear force by size, the largest sagging and the largest hogging moment.
    fn largest(
        &mut self,
        values: &[Values],
        extra: &[Id],
    ) -> Result<(Id, Option<Id>, Option<Id>), EvaluationError> {
        let shears: Vec<Id> = values.iter().flat_map(|values| values.shear).collect();
        let mut moments: Vec<Id> = values.iter().flat_map(|values| values.moment).collect();
        moments.extend(extra);
        let first_best = |among: &[Id], size: &dyn Fn(f64) -> f64| {
            let most = among.iter().map(|&id| size(self.value(id))).fold(f64::NEG_INFINITY, f64::max);
            // Values that differ by rounding only count as equal: the leftmost stands.
            among.iter().copied().find(|&id| size(self.value(id)) >= most - 1e-12 * most.abs())
        };
        let largest_shear = first_best(&shears, &f64::abs);
        let sagging = first_best(&moments, &|moment| moment);
        let hogging = first_best(&moments, &|moment| -moment);
        let scale = moments.iter().fold(0.0, |most: f64, &id| most.max(self.value(id).abs()));
        let sagging = sagging.filter(|&id| self.value(id) > 1e-12 * scale);
        let hogging = hogging.filter(|&id| self.value(id) < -1e-12 * scale);
        let mut made = |id: Id, role: Role, index: &str, name: &str, says: &str| {
            let place = self.workings.working(id).place;
            let mut entry = Entry::new(CHAPTER, role, index, name).says(says);
            if let Some(station) = place.station {
                entry = entry.at(station, place.side);
            }
            self.formula(entry, id.into())
        };
        let says = "The shear force of largest size along the beam; both sides of every jump looked at.";
        // A beam has its two ends at least, so there is one.
        let largest_shear = largest_shear.unwrap_or(shears[0]);
        let largest_shear = made(largest_shear, Role::ShearForce, "max", "largest shear force", says)?;
        let says = "The largest sagging moment: M is largest where V passes through zero or jumps across it, or at a \
                    couple.";
        let sagging = sagging
            .map(|id| made(id, Role::BendingMoment, "max", "largest sagging moment", says))
            .transpose()?;
        let says = "The largest hogging moment, over a support or at a fixed end as a rule.";
        let hogging = hogging
            .map(|id| made(id, Role::BendingMoment, "min", "largest hogging moment", says))
            .transpose()?;
        Ok((largest_shear, sagging, hogging))
    }
}

fn side_of(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
    }
}
