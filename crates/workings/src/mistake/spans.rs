//! Mistakes with beams that run on over a support: overhangs, and several spans.

use super::lesson::{Leaf, Lesson, Replaced};
use super::reactions::two_reactions;
use super::source::Source::{CommonErrors, ExamList, Memory};
use super::{Kind, Mistake};
use crate::build::{HoldGiven, LoadKind, Shape, SupportGiven};
use crate::evaluate::Replacement;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{
    Chapter::{Diagrams, Reactions},
    Id,
};
use Kind::{Concept, Execution, Procedure};

pub(super) static MISTAKES: [Mistake; 7] = [
    Mistake::usual(
        ("overhang-left-out", Reactions, Execution),
        "leaves out the load beyond a support, as if the beam ended there",
        "The load beyond the support turns about it too. It enters every balance, and over the support the beam hogs.",
        &[CommonErrors],
        overhang_left_out,
    ),
    Mistake::usual(
        ("overhang-turns-the-same-way", Reactions, Procedure),
        "lets the load beyond a support turn about it the same way as the load before it",
        "A load beyond the support turns about it the other way: its arm has the opposite sign.",
        &[CommonErrors],
        turns_the_same_way,
    ),
    Mistake::usual(
        ("each-span-alone", Reactions, Concept),
        "takes each span for a simple beam of its own",
        "The beam runs on over its inner support and carries {M} across it, so one span presses on the next. Take the beam whole; where balance has too many unknowns, it must fit its supports too.",
        &[ExamList, Memory],
        |lesson| if hinges_make_it_determinate(lesson) { Vec::new() } else { each_span_alone(lesson) },
    ),
    Mistake::usual(
        ("hinge-not-used", Reactions, Concept),
        "takes each span for a simple beam of its own, as if the hinge stood over the support",
        "The hinge stands beside the support, not over it, so {M} over the support is not zero. Cut at the hinge: only a force crosses there. \
         Begin with the piece that hangs on it, and hand its force on to the other piece.",
        &[Memory],
        |lesson| if hinges_make_it_determinate(lesson) { each_span_alone(lesson) } else { Vec::new() },
    ),
    Mistake::usual(
        ("fixed-end-as-a-pin", Reactions, Concept),
        "takes a fixed end for a pin, and the beam for a simple one",
        "A fixed end holds the beam against turning: a couple acts there, and the reactions change with it.",
        &[Memory],
        fixed_end_as_pin,
    ),
    Mistake::usual(
        ("support-without-its-reaction", Diagrams, Procedure),
        "goes on past a support without its reaction",
        "Everything on the piece acts: past a support its reaction pushes on the piece as well, and {V} jumps up there.",
        &[CommonErrors],
        past_a_support,
    ),
    Mistake::usual(
        ("hogging-as-sagging", Diagrams, Concept),
        "tells {M} as sagging where the beam hogs",
        "Sketch how the beam bends: here it bends the other way than in the middle of the span, the top is stretched, and {M} hogs.",
        &[ExamList, Memory],
        hogging_as_sagging,
    ),
];

/// A support, as far as it holds the beam up.
struct Held<'a> {
    station: f64,
    of: usize,
    given: &'a SupportGiven,
}

/// The supports that hold the beam up, from left to right.
fn held<'a>(lesson: &Lesson<'a>) -> Vec<Held<'a>> {
    let supports = lesson.chapters().beam.supports.iter().enumerate();
    let mut held: Vec<Held<'a>> = supports
        .filter(|(_, given)| given.transverse.holds())
        .map(|(of, given)| Held { station: lesson.value(given.station), of, given })
        .collect();
    held.sort_by(|a, b| a.station.total_cmp(&b.station));
    held
}

/// Whether a station is right of another, and not the same.
fn is_beyond(lesson: &Lesson<'_>, station: f64, other: f64) -> bool {
    station > other && !lesson.same_station(station, other)
}

fn force(lesson: &Lesson<'_>, of: usize) -> Option<Id> {
    lesson.chapters().reactions.forces.get(of).copied().flatten()
}

/// Past an outermost support nothing is counted: in the reactions, or in the moment over that support.
fn overhang_left_out(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let held = held(lesson);
    let [first, .., last] = held.as_slice() else { return Vec::new() };
    let mut made = Vec::new();
    for (support, to_the_right) in [(first, false), (last, true)] {
        if support.given.rotation.holds() {
            continue;
        }
        let made_here = left_out_beyond(lesson, support, to_the_right);
        if !made_here.is_empty() {
            made.extend(made_here);
            made.extend(no_moment_over(lesson, support.station));
        }
    }
    made
}

fn left_out_beyond(lesson: &Lesson<'_>, support: &Held<'_>, to_the_right: bool) -> Vec<Replaced> {
    let beyond = |station: f64| match to_the_right {
        true => is_beyond(lesson, station, support.station),
        false => is_beyond(lesson, support.station, station),
    };
    let mut forces: Vec<Id> = Vec::new();
    for load in &lesson.chapters().beam.loads {
        if let LoadKind::Force { station, down } = load.kind
            && beyond(lesson.value(station))
        {
            forces.push(down);
        }
    }
    let mut spread: Vec<(Id, Replacement)> = Vec::new();
    for stretch in lesson.whole_stretches() {
        let (from, to) = (beyond(lesson.value(stretch.from)), beyond(lesson.value(stretch.to)));
        match (from, to, stretch.resultants.as_slice()) {
            (true, true, _) | (true, false, []) | (false, true, []) => {
                spread.extend(stretch.resultants.iter().map(|one| (one.down, Replacement::Value(0.0))));
            }
            // Of a uniform load that runs on over the support the part before it is left.
            (one, other, [alone]) if one != other && alone.shape == Shape::Rectangle => {
                let over = Expression::from(support.given.station);
                let (start, end) = match to_the_right {
                    true => (Expression::from(stretch.from), over),
                    false => (over, Expression::from(stretch.to)),
                };
                let length = end.clone() - start.clone();
                let part = Expression::from(stretch.down_from) * length;
                spread.push((alone.down, Replacement::Expression(part)));
                spread.push((alone.place, Replacement::Expression((start + end) / 2.0.into())));
            }
            _ => {}
        }
    }
    let without = |id: Id| {
        let change = |read: Id| if forces.contains(&read) { Leaf::Goes } else { Leaf::Stays };
        let formula = lesson.changed(id, &change)?;
        Some((id, Replacement::Expression(formula)))
    };
    let reactions = lesson.chapters().reactions.forces.iter().flatten().copied().filter_map(without);
    match spread.is_empty() {
        true => reactions.filter_map(|one| Replaced::together([one])).collect(),
        false => Replaced::together(spread.into_iter().chain(reactions)).into_iter().collect(),
    }
}

/// M over a support as at the end of a beam.
fn no_moment_over(lesson: &Lesson<'_>, station: f64) -> Option<Replaced> {
    let [left, right] = moment_over(lesson, station)?;
    let zero = || Replacement::Value(0.0);
    match left == right {
        true => Some(Replaced::nothing(left)),
        false => Replaced::together([(left, zero()), (right, zero())]),
    }
}

/// M on both sides of a support inside the beam, where it is not zero.
fn moment_over(lesson: &Lesson<'_>, station: f64) -> Option<[Id; 2]> {
    let stops = &lesson.chapters().diagrams.stops;
    let stop = stops.iter().find(|stop| lesson.same_station(lesson.value(stop.station), station))?;
    let least = lesson.no_moment();
    stop.moment.iter().all(|&moment| lesson.value(moment).abs() > least).then_some(stop.moment)
}

/// In every balance of moments that finds a reaction.
fn turns_the_same_way(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let chapters = lesson.chapters();
    let mut loads: Vec<(f64, Id)> = Vec::new();
    for load in &chapters.beam.loads {
        if let LoadKind::Force { station, down } = load.kind {
            loads.push((lesson.value(station), down));
        }
    }
    for resultant in lesson.whole_stretches().flat_map(|stretch| &stretch.resultants) {
        loads.push((lesson.value(resultant.place), resultant.down));
    }
    let turned = |unknown: Id, about: f64| {
        let of = lesson.working(unknown).place.station?;
        let other_side = |station: f64| match of < about {
            true => is_beyond(lesson, station, about),
            false => is_beyond(lesson, about, station),
        };
        let change = |read: Id| match loads.iter().any(|&(at, down)| down == read && other_side(at)) {
            true => Leaf::Becomes(-Expression::from(read)),
            false => Leaf::Stays,
        };
        lesson.changed(unknown, &change).map(|formula| Replaced::by(unknown, formula))
    };
    let of_forces = chapters
        .moment_balances
        .iter()
        .filter(|balance| lesson.working(balance.unknown).symbol.role == Role::Reaction);
    let mut made: Vec<Replaced> =
        of_forces.filter_map(|balance| turned(balance.unknown, lesson.value(balance.about))).collect();
    made.extend(about_the_left_support(lesson));
    made
}

/// The right reaction from moments about the left support, beyond which a load hangs; only of a beam on two supports. The solution finds
/// that reaction from the balance of forces, but who begins there meets the load beyond.
fn about_the_left_support(lesson: &Lesson<'_>) -> Option<Replaced> {
    let (_, right_reaction) = two_reactions(lesson)?;
    let held = held(lesson);
    let [left, right] = held.as_slice() else { return None };
    let a = Expression::from(left.given.station);
    let beyond = |station: f64| is_beyond(lesson, left.station, station);
    let mut any_beyond = false;
    let mut terms = Vec::new();
    let mut turn = |station: Id, down: Id| {
        let arm = match beyond(lesson.value(station)) {
            true => a.clone() - station.into(),
            false => Expression::from(station) - a.clone(),
        };
        any_beyond |= beyond(lesson.value(station));
        terms.push(Expression::from(down) * arm);
    };
    for load in &lesson.chapters().beam.loads {
        if let LoadKind::Force { station, down } = load.kind {
            turn(station, down);
        }
    }
    for resultant in lesson.whole_stretches().flat_map(|stretch| &stretch.resultants) {
        turn(resultant.place, resultant.down);
    }
    terms.extend(lesson.couples().into_iter().map(|(couple, _)| -Expression::from(couple)));
    let by = Expression::sum(terms) / (Expression::from(right.given.station) - a);
    any_beyond.then(|| Replaced::by(right_reaction, by))
}

/// Whether balance alone finds the reactions of a beam with hinges on supports that let it turn: each hinge gives one more equation than
/// the two of the whole beam.
fn hinges_make_it_determinate(lesson: &Lesson<'_>) -> bool {
    let hinges = lesson.chapters().beam.hinges.len();
    hinges > 0 && held(lesson).len() == 2 + hinges
}

/// Of a beam on three supports or more that let it turn; its hinges are not looked at.
fn each_span_alone(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let held = held(lesson);
    let [_, inner @ .., _] = held.as_slice() else { return Vec::new() };
    let turns = lesson.chapters().beam.supports.iter().all(|support| !support.rotation.holds());
    if inner.is_empty() || !turns {
        return Vec::new();
    }
    let Some(reactions) = parted_over_supports(lesson, &held) else { return Vec::new() };
    let mut made: Vec<Replaced> = Replaced::together(reactions).into_iter().collect();
    made.extend(inner.iter().filter_map(|support| no_moment_over(lesson, support.station)));
    made
}

/// Of a beam on two supports or more of which only the outermost are fixed.
fn fixed_end_as_pin(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let held = held(lesson);
    let [first, inner @ .., last] = held.as_slice() else { return Vec::new() };
    let fixed = |support: &Held<'_>| matches!(support.given.rotation, HoldGiven::Still);
    let others_turn = inner.iter().all(|support| !support.given.rotation.holds());
    let as_many = lesson.chapters().beam.supports.len() == held.len();
    if !(others_turn && as_many && (fixed(first) || fixed(last))) {
        return Vec::new();
    }
    let Some(mut all) = parted_over_supports(lesson, &held) else { return Vec::new() };
    let couples = lesson.chapters().reactions.couples.iter().flatten();
    all.extend(couples.map(|&couple| (couple, Replacement::Value(0.0))));
    all.sort_by_key(|(id, _)| *id);
    Replaced::together(all).into_iter().collect()
}

/// What acts on one span.
struct OnSpan {
    /// The force down.
    down: Expression,
    /// Its moment about the right end of the span, counter-clockwise.
    turning: Expression,
}

/// The reactions of the beam with a hinge over every inner support: each load goes to the supports of its span by the lever. None
/// where a couple stands right over an inner support, on either of two spans.
fn parted_over_supports(lesson: &Lesson<'_>, held: &[Held<'_>]) -> Option<Vec<(Id, Replacement)>> {
    let spans = held.len().checked_sub(1).filter(|&spans| spans > 0)?;
    let mut shares: Vec<Vec<Expression>> = held.iter().map(|_| Vec::new()).collect();
    for span in 0..spans {
        let [left, right] = held.get(span..span + 2)? else { return None };
        let (a, b) = (Expression::from(left.given.station), Expression::from(right.given.station));
        let on_span = on_span(lesson, held, span)?;
        for OnSpan { down, turning } in on_span {
            let to_left = turning / (b.clone() - a.clone());
            shares.get_mut(span)?.push(to_left.clone());
            shares.get_mut(span + 1)?.push(down - to_left);
        }
    }
    let of = |(support, terms): (&Held<'_>, Vec<Expression>)| {
        let id = force(lesson, support.of)?;
        let by = match terms.is_empty() {
            true => Replacement::Value(0.0),
            false => Replacement::Expression(Expression::sum(terms)),
        };
        Some((id, by))
    };
    let mut reactions = held.iter().zip(shares).map(of).collect::<Option<Vec<_>>>()?;
    // Made where the first of them is found: with more supports than balance needs at the redundant, from which the others follow.
    reactions.sort_by_key(|(id, _)| *id);
    Some(reactions)
}

/// What acts on one of the spans; on the outer ones what lies beyond their supports too.
fn on_span(lesson: &Lesson<'_>, held: &[Held<'_>], span: usize) -> Option<Vec<OnSpan>> {
    let (left, right) = (held.get(span)?, held.get(span + 1)?);
    let (is_first, is_last) = (span == 0, span + 2 == held.len());
    let b = Expression::from(right.given.station);
    let near = |station: f64, other: f64| lesson.same_station(station, other);
    // A force right over an inner support belongs to the span on its right: the lever gives all of it to the support.
    let within = |x: f64| {
        let from = is_first || x > left.station || near(x, left.station);
        let to = is_last || (x < right.station && !near(x, right.station));
        from && to
    };
    let mut found = Vec::new();
    for load in &lesson.chapters().beam.loads {
        match load.kind {
            LoadKind::Force { station, down } if within(lesson.value(station)) => {
                let arm = b.clone() - station.into();
                found.push(OnSpan { down: down.into(), turning: Expression::from(down) * arm });
            }
            LoadKind::Couple { station, ccw } if within(lesson.value(station)) => {
                let x = lesson.value(station);
                if !is_first && near(x, left.station) {
                    return None;
                }
                let nothing = crate::build::zero(crate::dimension::Dimension::FORCE, Role::Reaction);
                found.push(OnSpan { down: nothing, turning: ccw.into() });
            }
            LoadKind::Spread { from, to, down_from, down_to } => {
                let (start, end) = (lesson.value(from), lesson.value(to));
                let starts_here = is_first || start >= left.station || near(start, left.station);
                let ends_here = is_last || end <= right.station || near(end, right.station);
                let outside = (!is_first && (end <= left.station || near(end, left.station)))
                    || (!is_last && (start >= right.station || near(start, right.station)));
                if outside {
                    continue;
                }
                let lower = if starts_here { from } else { left.given.station };
                let upper = if ends_here { to } else { right.given.station };
                let at = |station: Id| {
                    let slope =
                        (Expression::from(down_to) - down_from.into()) / (Expression::from(to) - from.into());
                    Expression::from(down_from) + slope * (Expression::from(station) - from.into())
                };
                let (lower, upper) = (Expression::from(lower), Expression::from(upper));
                let length = upper.clone() - lower.clone();
                if down_from == down_to {
                    let down = Expression::from(down_from) * length;
                    let arm = b.clone() - (lower + upper) / 2.0.into();
                    found.push(OnSpan { down: down.clone(), turning: down * arm });
                } else {
                    // Two triangles, whose centroids lie at the thirds.
                    let p = if starts_here { down_from.into() } else { at(left.given.station) };
                    let q = if ends_here { down_to.into() } else { at(right.given.station) };
                    for (intensity, third) in [(p, 1.0), (q, 2.0)] {
                        let down = intensity * length.clone() / 2.0.into();
                        let arm = b.clone() - (lower.clone() + length.clone() * third.into() / 3.0.into());
                        found.push(OnSpan { down: down.clone(), turning: down * arm });
                    }
                }
            }
            LoadKind::Force { .. } | LoadKind::Couple { .. } => {}
        }
    }
    Some(found)
}

/// Of the reactions on the piece to the left the last one is missing, where there are several.
fn past_a_support(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let key = lesson.solved.key();
    let passed = held(lesson);
    let without = |id: Id| {
        let read: Vec<Id> = passed
            .iter()
            .filter_map(|support| force(lesson, support.of))
            .filter(|&force| lesson.reads(id, force))
            .collect();
        let [_, .., last] = read.as_slice() else { return None };
        lesson.without(id, *last).map(|formula| Replaced::by(id, formula))
    };
    [key.shear, key.moment].into_iter().filter_map(without).collect()
}

/// Where a beam that sags elsewhere hogs: over its supports, at the slice, and where it hogs most.
fn hogging_as_sagging(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let mut hogs = lesson.hogging_beside_sagging();
    if hogs.is_empty() {
        return Vec::new();
    }
    let over = held(lesson).into_iter().filter_map(|support| moment_over(lesson, support.station));
    hogs.extend(over.flatten().filter(|&moment| lesson.value(moment) < -lesson.no_moment()));
    hogs.sort();
    hogs.dedup();
    hogs.into_iter().map(|id| Replaced::by(id, -lesson.own(id))).collect()
}

impl Lesson<'_> {
    /// M at the slice where it hogs there, and the largest hogging moment; only in a beam that sags elsewhere.
    pub(super) fn hogging_beside_sagging(&self) -> Vec<Id> {
        let diagrams = &self.chapters().diagrams;
        let (Some(_), Some(hogging)) = (diagrams.sagging, diagrams.hogging) else { return Vec::new() };
        let at_slice = self.solved.key().moment;
        let hogs = self.value(at_slice) < -self.no_moment();
        hogs.then_some(at_slice).into_iter().chain([hogging]).collect()
    }
}
