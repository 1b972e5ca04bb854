//! Bending moments of the released beam, from the balance of the part beside the station.

use super::balance::signed;
use super::beam_givens::LoadKind;
use super::builder::{Builder, Entry, zero};
use super::released::{Act, CHAPTER, Case, LOADS, Released, is_letter, place_and_cause};
use crate::dimension::Dimension;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::quantity::Quantity;
use crate::role::Role;
use crate::working::Id;
use mechanics::beam::{Freedom, Side};

/// Where a moment is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Place {
    /// Just right of a key station.
    RightOf(usize),
    /// Just left of a key station.
    LeftOf(usize),
    /// Halfway from a key station to the next one.
    AfterKey(usize),
}

/// A point of the beam, as the arms of forces are measured from it.
#[derive(Clone, Copy)]
pub(super) enum Point {
    Station(Id),
    Halfway(Id, Id),
}

/// The part of the beam on one side of a station.
struct Part {
    side: Side,
    acts: Vec<Act>,
}

impl Builder<'_> {
    /// The bending moment somewhere; none where nothing acts on the part to one side, so that it is zero by its nature.
    pub(super) fn released_moment(
        &mut self,
        released: &mut Released<'_>,
        case: Case,
        place: Place,
    ) -> Result<Option<Id>, EvaluationError> {
        let place = self.one_place(released, case, place);
        let Some(part) = self.part_beside(released, case, place) else { return Ok(None) };
        if let Some(known) = released.moments.get(&(case, place)) {
            return Ok(Some(*known));
        }
        let (point, x) = self.point_of(released, place);
        let mut terms: Vec<(f64, Expression)> = Vec::new();
        for act in part.acts {
            self.turned_by(released, case, (act, part.side), (point, x), &mut terms)?;
        }
        terms.sort_by(|a, b| a.0.total_cmp(&b.0));
        let terms: Vec<Expression> = terms.into_iter().map(|(_, term)| term).collect();
        let role = if case == Case::Loads { Role::ReleasedMoment } else { Role::UnitMoment };
        let formula = match terms.is_empty() {
            true => zero(released.dimension(case, Dimension::MOMENT), role),
            false => constant(Expression::sum(terms), role),
        };
        let (words, index) = self.place_words(released, case, place);
        let (name, index, what) = match case {
            Case::Loads => (
                format!("moment of the released beam {words}"),
                place_and_cause(&index, LOADS),
                format!("The bending moment of the released beam under its loads, {words}"),
            ),
            Case::Unit(unit) => {
                let under = released.unit_words(unit);
                (
                    format!("moment of the released beam {words} under {under}"),
                    place_and_cause(&index, &released.unit_index(unit)),
                    format!("The bending moment of the released beam under {under} alone, {words}"),
                )
            }
        };
        let side = match part.side {
            Side::Left => "left",
            Side::Right => "right",
        };
        let says = released.opened(format!("{what}: balance of moments of the part to its {side}."));
        let entry = Entry::new(CHAPTER, role, &index, name).at(x, None).says(says);
        let id = self.formula(entry, formula)?;
        released.moments.insert((case, place), id);
        Ok(Some(id))
    }

    /// Whether the bending moment is zero by its nature.
    pub(super) fn no_moment(&self, released: &Released<'_>, case: Case, place: Place) -> bool {
        self.part_beside(released, case, place).is_none()
    }

    /// Left and right of a key station where the moment does not jump are one place.
    fn one_place(&self, released: &Released<'_>, case: Case, place: Place) -> Place {
        let Place::LeftOf(key) = place else { return place };
        let x = self.value(released.keys[key].station);
        let jumps = self.acts(released, case).into_iter().any(|act| match act {
            Act::Held(of) => {
                let held = released.held[of];
                held.against == Freedom::Rotation && self.same_station(self.value(held.station), x)
            }
            Act::Couple { station, .. } | Act::Unit { station, against: Freedom::Rotation } => {
                self.same_station(self.value(station), x)
            }
            _ => false,
        });
        if jumps { place } else { Place::RightOf(key) }
    }

    /// The part of the beam from whose balance the moment at a place follows with the fewest reactions, the left one where
    /// both have as many; none where nothing acts on one of them.
    fn part_beside(&self, released: &Released<'_>, case: Case, place: Place) -> Option<Part> {
        let place = self.one_place(released, case, place);
        let (_, x) = self.point_of(released, place);
        let part = |side: Side| {
            let acts = self.acts(released, case);
            let acts = acts.into_iter().filter(|&act| self.is_on_part(released, act, (place, x), side));
            Part { side, acts: acts.collect() }
        };
        let (left, right) = (part(Side::Left), part(Side::Right));
        if left.acts.is_empty() || right.acts.is_empty() {
            return None;
        }
        let held = |part: &Part| part.acts.iter().filter(|act| matches!(act, Act::Held(_))).count();
        Some(if held(&right) < held(&left) { right } else { left })
    }

    /// Whether something turns the part of the beam on one side of a place about that place.
    fn is_on_part(&self, released: &Released<'_>, act: Act, (place, x): (Place, f64), side: Side) -> bool {
        let beyond = |station: Id| {
            let station = self.value(station);
            !self.same_station(station, x) && (station < x) == (side == Side::Left)
        };
        let here = |station: Id| {
            let is_on = match place {
                Place::LeftOf(_) => side == Side::Right,
                Place::RightOf(_) | Place::AfterKey(_) => side == Side::Left,
            };
            is_on && self.same_station(self.value(station), x)
        };
        let by = |station: Id, against: Freedom| {
            beyond(station) || (against == Freedom::Rotation && here(station))
        };
        match act {
            Act::Held(of) => by(released.held[of].station, released.held[of].against),
            Act::Unit { station, against } => by(station, against),
            Act::Force { station, .. } => beyond(station),
            Act::Couple { station, .. } => by(station, Freedom::Rotation),
            Act::Spread(load) => match (released.beam.loads[load].kind, side) {
                (LoadKind::Spread { from, .. }, Side::Left) => beyond(from),
                (LoadKind::Spread { to, .. }, Side::Right) => beyond(to),
                _ => false,
            },
        }
    }

    /// Adds what something on the part beside a point does to the moment there, with the station to sort it by.
    fn turned_by(
        &mut self,
        released: &mut Released<'_>,
        case: Case,
        (act, side): (Act, Side),
        (point, x): (Point, f64),
        terms: &mut Vec<(f64, Expression)>,
    ) -> Result<(), EvaluationError> {
        let couples = if side == Side::Left { -1.0 } else { 1.0 };
        let force = |builder: &Self, station: Id, up: Expression, sign: f64| {
            let (arm, parts) = builder.arm_to(station, point, side);
            (builder.value(station), signed(sign, over(up * arm, parts)))
        };
        match act {
            Act::Held(of) => {
                let held = released.held[of];
                let Some(reaction) = self.released_reaction(released, case, of)? else { return Ok(()) };
                terms.push(match held.against {
                    Freedom::Transverse => force(self, held.station, reaction.into(), 1.0),
                    Freedom::Rotation => (self.value(held.station), signed(couples, reaction.into())),
                });
            }
            Act::Force { station, down } => terms.push(force(self, station, down.into(), -1.0)),
            Act::Couple { station, ccw } => terms.push((self.value(station), signed(couples, ccw.into()))),
            Act::Unit { station, against: Freedom::Transverse } => {
                let (arm, parts) = self.arm_to(station, point, side);
                terms.push((self.value(station), over(arm, parts)));
            }
            Act::Unit { station, .. } => terms.push((self.value(station), signed(couples, 1.0.into()))),
            Act::Spread(load) => {
                let LoadKind::Spread { from, to, down_from, down_to } = released.beam.loads[load].kind else {
                    return Ok(());
                };
                // The end that stands away from the point, and the one that the point may cut off.
                let (outer, inner, outermost, innermost) = match side {
                    Side::Left => (from, to, down_from, down_to),
                    Side::Right => (to, from, down_to, down_from),
                };
                let inner_at = self.value(inner);
                let is_whole = (inner_at < x) == (side == Side::Left) || self.same_station(inner_at, x);
                let ends_here = self.same_station(inner_at, x);
                if is_whole && !ends_here && down_from == down_to {
                    let moment = self.uniform_moment((from, to, down_from), point, side == Side::Left);
                    terms.push((self.value(from), -moment));
                    return Ok(());
                }
                if is_whole && down_from != down_to {
                    for whole in self.whole_resultants(released.beam, load, CHAPTER)? {
                        terms.push(force(self, whole.place, whole.down.into(), -1.0));
                    }
                    return Ok(());
                }
                // A rectangle and the triangle that the load grows by towards the point.
                let (reach, parts) = self.arm_to(outer, point, side);
                let station = self.value(outer);
                if down_from == down_to || self.value(outermost) != 0.0 {
                    let rectangle =
                        Expression::from(outermost) * reach.clone().power(2) / (2.0 * parts * parts).into();
                    terms.push((station, -rectangle));
                }
                if down_from != down_to {
                    let sixth = Expression::from(6.0 * parts * parts * parts);
                    let long = sixth * self.difference(to, from);
                    let (growth, sign) = match self.growth(outermost, innermost) {
                        Expression::Negative(growth) => (*growth, 1.0),
                        growth => (growth, -1.0),
                    };
                    terms.push((station, signed(sign, growth * reach.power(3) / long)));
                }
            }
        }
        Ok(())
    }

    /// What a uniform load down does about a point to its right or to its left; from its intensity, as the resultant of the whole
    /// load belongs to the balance of the whole beam.
    pub(super) fn uniform_moment(
        &self,
        (from, to, down): (Id, Id, Id),
        about: Point,
        is_left: bool,
    ) -> Expression {
        let (inner, outer) = if is_left { (to, from) } else { (from, to) };
        if let Point::Station(at) = about
            && self.same_station(self.value(at), self.value(inner))
        {
            let (reach, _) = self.arm_to(outer, about, if is_left { Side::Left } else { Side::Right });
            return Expression::from(down) * reach.power(2) / 2.0.into();
        }
        let (centre, point) = (
            self.halfway(from, to),
            match about {
                Point::Station(at) => at.into(),
                Point::Halfway(one, other) => self.halfway(one, other),
            },
        );
        let arm = match (is_left, about) {
            (true, _) => point - centre,
            (false, Point::Station(at)) if self.value(at) == 0.0 => centre,
            (false, _) => centre - point,
        };
        Expression::from(down) * self.difference(to, from) * arm
    }

    /// The station halfway between two, from left to right.
    fn halfway(&self, from: Id, to: Id) -> Expression {
        match self.value(from) == 0.0 {
            true => Expression::from(to) / 2.0.into(),
            false => (Expression::from(from) + to.into()) / 2.0.into(),
        }
    }

    /// The distance from a station to the inner end of the part on which it lies, and by what that is still to be divided.
    fn arm_to(&self, station: Id, point: Point, side: Side) -> (Expression, f64) {
        let same = |one: Id, other: Id| self.same_station(self.value(one), self.value(other));
        match (point, side) {
            (Point::Station(at), Side::Left) => (self.difference(at, station), 1.0),
            (Point::Station(at), Side::Right) => (self.difference(station, at), 1.0),
            (Point::Halfway(from, to), Side::Left) if same(station, from) => (self.difference(to, from), 2.0),
            (Point::Halfway(from, to), Side::Right) if same(station, to) => (self.difference(to, from), 2.0),
            (Point::Halfway(from, to), Side::Left) if self.value(station) == 0.0 => {
                (Expression::from(from) + to.into(), 2.0)
            }
            (Point::Halfway(from, to), Side::Left) => (self.halfway(from, to) - station.into(), 1.0),
            (Point::Halfway(from, to), Side::Right) => {
                (Expression::from(station) - self.halfway(from, to), 1.0)
            }
        }
    }

    fn point_of(&self, released: &Released<'_>, place: Place) -> (Point, f64) {
        let station = |key: usize| released.keys[key].station;
        match place {
            Place::LeftOf(key) | Place::RightOf(key) => {
                (Point::Station(station(key)), self.value(station(key)))
            }
            Place::AfterKey(key) => {
                let (from, to) = (station(key), station(key + 1));
                (Point::Halfway(from, to), 0.5 * (self.value(from) + self.value(to)))
            }
        }
    }

    /// A place in words, and as the index of a moment there.
    fn place_words(&self, released: &Released<'_>, case: Case, place: Place) -> (String, String) {
        let key = |key: usize| &released.keys[key];
        // Of a moment that jumps both values may be wanted, inside the beam.
        let inside = |at: usize| at > 0 && at + 1 < released.keys.len();
        match place {
            Place::LeftOf(at) if inside(at) => {
                (format!("just left of {}", key(at).words), format!("{}, left", key(at).index))
            }
            Place::RightOf(at)
                if inside(at) && self.one_place(released, case, Place::LeftOf(at)) == Place::LeftOf(at) =>
            {
                (format!("just right of {}", key(at).words), format!("{}, right", key(at).index))
            }
            Place::LeftOf(at) | Place::RightOf(at) => {
                (format!("at {}", key(at).words), key(at).index.clone())
            }
            Place::AfterKey(at) => {
                let (from, to) = (key(at), key(at + 1));
                let ends = match is_letter(&from.index) && is_letter(&to.index) {
                    true => format!("{}{}", from.index, to.index),
                    false => format!("{} to {}", from.index, to.index),
                };
                (format!("halfway from {} to {}", from.words, to.words), format!("mid {ends}"))
            }
        }
    }
}

fn over(expression: Expression, parts: f64) -> Expression {
    if parts == 1.0 { expression } else { expression / parts.into() }
}

/// What is only a number as a value, which is printed once.
fn constant(expression: Expression, role: Role) -> Expression {
    let value = |number: f64| Expression::Quantity(Quantity::new(number, Dimension::NONE), role);
    match &expression {
        Expression::Number(number) => value(*number),
        Expression::Negative(of) => match of.as_ref() {
            Expression::Number(number) => value(-number),
            _ => expression,
        },
        _ => expression,
    }
}
