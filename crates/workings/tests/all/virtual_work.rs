//! Movements of the released beam by virtual work, against handbooks and against the engine.
//!
//! The handbook values are from memory, each recomputed by the double integration of M/(E I): Gere & Goodno, Mechanics of
//! Materials, tables of deflections of cantilevers and simple beams (appendix) and the chapter on statically indeterminate
//! beams; Timoshenko, Strength of Materials, part I. Up and counter-clockwise are positive.

use crate::common::{Maker, assert_close, assert_within, rectangle, value};
use mechanics::beam::{Curve, Freedom, Hold, Load, Side, Support};
use proptest::prelude::*;
use workings::problem::SupportKind;
use workings::role::Role;
use workings::solved::Solved;
use workings::style::Style;
use workings::working::Formula;

/// A plank 0.1 m wide and 0.2 m deep of E = 200 GPa; E I in N m².
const RIGIDITY: f64 = 200e9 * 0.1 * 0.2 * 0.2 * 0.2 / 12.0;

fn beam(length: f64) -> Maker {
    Maker::new(length, vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))])
}

/// To 1e-10: the second moment of the section comes by another way than here.
fn assert_near(solved: &Solved, name: &str, expected: f64) {
    assert_within(name, value(solved, name), expected, 1e-10 * expected.abs());
    let formula = &solved.workings().get(name).expect("just read").formula;
    assert!(matches!(formula, Formula::Expression(_)), "{name} is by the engine");
}

/// Source: as above, simple beam under a uniform load and under a force in the middle: 5 w l⁴ / (384 E I) and l³ / (48 E I).
/// Two equal spans L: 10 w L / 8 in the middle, 3 w L / 8 at the ends.
#[test]
fn two_equal_spans_under_a_uniform_load() {
    let (w, span) = (6e3, 4.0_f64);
    let solved = beam(2.0 * span)
        .pin("A", 0.0)
        .pin("B", span)
        .pin("C", 2.0 * span)
        .spread("w", 0.0, 2.0 * span, w)
        .solved();
    let whole = 2.0 * span;
    assert_near(&solved, "deflection at B under the loads", -5.0 * w * whole.powi(4) / (384.0 * RIGIDITY));
    assert_near(&solved, "deflection at B under a unit at B", whole.powi(3) / (48.0 * RIGIDITY));
    assert_near(&solved, "reaction of the released beam at A", w * whole / 2.0);
    assert_near(&solved, "reaction of the released beam at A under a unit at B", -0.5);
    assert_near(&solved, "moment of the released beam at B", w * whole * whole / 8.0);
    assert_near(&solved, "moment of the released beam halfway from A to B", 3.0 * w * whole * whole / 32.0);
    assert_near(&solved, "moment of the released beam at B under a unit at B", -whole / 4.0);
    assert_near(&solved, "reaction at B", 10.0 * w * span / 8.0);
    assert_near(&solved, "reaction at A", 3.0 * w * span / 8.0);
    assert_near(&solved, "reaction at C", 3.0 * w * span / 8.0);
}

/// Source: as above, cantilever: w l⁴ / (8 E I) and l³ / (3 E I); propped: 3 w l / 8 and 5 w l / 8.
#[test]
fn a_propped_cantilever_under_a_uniform_load() {
    let (w, l) = (6e3, 4.0_f64);
    for fixed_left in [true, false] {
        let maker = beam(l).spread("w", 0.0, l, w);
        let solved = match fixed_left {
            true => maker.fixed("A", 0.0).pin("B", l).solved(),
            false => maker.pin("B", 0.0).fixed("A", l).solved(),
        };
        assert_near(&solved, "deflection at B under the loads", -w * l.powi(4) / (8.0 * RIGIDITY));
        assert_near(&solved, "deflection at B under a unit at B", l.powi(3) / (3.0 * RIGIDITY));
        assert_near(&solved, "reaction at B", 3.0 * w * l / 8.0);
        assert_near(&solved, "reaction at A", 5.0 * w * l / 8.0);
        let hand = solved.workings().in_order().filter(|(_, w)| w.name.contains("released beam")).count();
        // M at the fixed end and halfway, and under the unit at the fixed end: the free part needs no reaction.
        assert_eq!(hand, 3);
    }
}

/// Source: as above, force in the middle of a propped cantilever: 5 P / 16 at the prop; the cantilever sinks there by
/// 5 P l³ / (48 E I).
#[test]
fn a_propped_cantilever_under_a_force_at_midspan() {
    let (p, l) = (12e3, 4.0_f64);
    let solved = beam(l).fixed("A", 0.0).pin("B", l).force("P", l / 2.0, p).solved();
    assert_near(&solved, "deflection at B under the loads", -5.0 * p * l.powi(3) / (48.0 * RIGIDITY));
    assert_near(&solved, "reaction at B", 5.0 * p / 16.0);
    assert_near(&solved, "couple at A", 3.0 * p * l / 16.0);
}

/// Source: as above, cantilever under a load that falls to zero at its free end: w l⁴ / (30 E I), propped there w l / 10;
/// that rises from zero at the fixed end: 11 w l⁴ / (120 E I), propped 11 w l / 40.
#[test]
fn a_propped_cantilever_under_triangular_loads() {
    let (w, l) = (9e3, 4.0_f64);
    for (ends, sinks, share) in [((w, 0.0), 1.0 / 30.0, 1.0 / 10.0), ((0.0, w), 11.0 / 120.0, 11.0 / 40.0)] {
        let solved = beam(l).fixed("A", 0.0).pin("B", l).linear("w", (0.0, l), ends).solved();
        assert_near(&solved, "deflection at B under the loads", -sinks * w * l.powi(4) / RIGIDITY);
        assert_near(&solved, "reaction at B", share * w * l);
    }
}

/// Source: as above, cantilever under a couple at its end: C l² / (2 E I); propped: 3 C / (2 l).
#[test]
fn a_propped_cantilever_under_a_couple_at_its_end() {
    let (c, l) = (5e3, 4.0_f64);
    let solved = beam(l).fixed("A", 0.0).pin("B", l).couple("C", l, c).slice(1.0, 0.1).solved();
    assert_near(&solved, "deflection at B under the loads", c * l * l / (2.0 * RIGIDITY));
    assert_near(&solved, "reaction at B", -3.0 * c / (2.0 * l));
}

/// Source: as above, cantilever: deflection and slope at the end w l⁴ / (8 E I), w l³ / (6 E I); under a unit force
/// l³ / (3 E I), l² / (2 E I); under a unit couple l² / (2 E I), l / (E I). Fixed at both ends: w l / 2 and w l² / 12.
#[test]
fn a_beam_fixed_at_both_ends_under_a_uniform_load() {
    let (w, l) = (2e3, 6.0_f64);
    let solved = beam(l).fixed("A", 0.0).fixed("B", l).spread("w", 0.0, l, w).solved();
    assert_near(&solved, "deflection at B under the loads", -w * l.powi(4) / (8.0 * RIGIDITY));
    assert_near(&solved, "slope at B under the loads", -w * l.powi(3) / (6.0 * RIGIDITY));
    assert_near(&solved, "deflection at B under a unit at B", l.powi(3) / (3.0 * RIGIDITY));
    assert_near(&solved, "deflection at B under a unit couple at B", l * l / (2.0 * RIGIDITY));
    assert_near(&solved, "slope at B under a unit at B", l * l / (2.0 * RIGIDITY));
    assert_near(&solved, "slope at B under a unit couple at B", l / RIGIDITY);
    assert_near(&solved, "reaction at B", w * l / 2.0);
    assert_near(&solved, "couple at B", -w * l * l / 12.0);
    assert_near(&solved, "couple at A", w * l * l / 12.0);
}

/// Source: as above, three equal spans: 0.4, 1.1, 1.1, 0.4 w L. Closed form of the released simple beam of 3 L under w:
/// v = -w x (l³ - 2 l x² + x³) / (24 E I).
#[test]
fn three_equal_spans_take_two_redundants() {
    let (w, span) = (5e3, 3.0_f64);
    let l = 3.0 * span;
    let solved =
        beam(l).pin("A", 0.0).pin("B", span).pin("C", 2.0 * span).pin("D", l).spread("w", 0.0, l, w).solved();
    let sinks = w * span * (l.powi(3) - 2.0 * l * span * span + span.powi(3)) / (24.0 * RIGIDITY);
    assert_near(&solved, "deflection at B under the loads", -sinks);
    assert_near(&solved, "deflection at C under the loads", -sinks);
    let mirrored = ["deflection at B under a unit at C", "deflection at C under a unit at B"]
        .map(|name| value(&solved, name));
    assert_close("Maxwell", mirrored[0], mirrored[1]);
    assert_near(&solved, "reaction at B", 1.1 * w * span);
    assert_near(&solved, "reaction at A", 0.4 * w * span);
}

/// Closed form: with an outer support d lower the released simple beam goes down by d / 2 in its middle.
#[test]
fn a_support_that_is_left_and_moves() {
    let (w, span, d) = (6e3, 4.0_f64, 0.01);
    let whole = 2.0 * span;
    let solved =
        beam(whole).pin("A", 0.0).pin("B", span).settled("C", whole, d).spread("w", 0.0, whole, w).solved();
    let sinks = 5.0 * w * whole.powi(4) / (384.0 * RIGIDITY) + d / 2.0;
    assert_near(&solved, "deflection at B under the loads", -sinks);
}

/// Closed form: on a spring k at one end the released simple beam goes down in its middle by
/// w l / (4 k), and by 1 / (4 k) under a unit there.
#[test]
fn a_support_that_is_left_and_springs() {
    let (w, span, k) = (6e3, 4.0_f64, 2e6);
    let whole = 2.0 * span;
    let spring = |x: f64| Support::spring(x, k);
    let solved = beam(whole)
        .support("A", SupportKind::Spring, spring(0.0))
        .support("B", SupportKind::Spring, spring(span))
        .pin("C", whole)
        .spread("w", 0.0, whole, w)
        .solved();
    let sinks = 5.0 * w * whole.powi(4) / (384.0 * RIGIDITY) + w * whole / (4.0 * k);
    assert_near(&solved, "deflection at B under the loads", -sinks);
    let unit = whole.powi(3) / (48.0 * RIGIDITY) + 1.0 / (4.0 * k);
    assert_near(&solved, "deflection at B under a unit at B", unit);
}

/// A beam of two unequal spans under nine loads takes more pieces than a reader would follow: the engine's exact solution
/// stands.
#[test]
fn what_is_too_long_for_the_hand_is_left_to_the_engine() {
    let mut maker = beam(10.0).pin("A", 0.0).pin("B", 6.0).pin("C", 10.0);
    for place in 1..=9 {
        maker = maker.force(&format!("P{place}"), f64::from(place) + 0.5, 1e3);
    }
    let solved = maker.solved();
    let working = solved.workings().get("deflection at B under the loads").expect("it is there");
    assert!(matches!(working.formula, Formula::Engine { .. }));
    assert!(working.sentence.contains("exact solution"), "{}", working.sentence);
}

/// How a beam of 10 m stands that is indeterminate once or twice, and what each support is called.
fn indeterminate() -> impl Strategy<Value = Vec<(SupportKind, Support)>> {
    let at = |n: u32| f64::from(n) * 0.25;
    (0_u8..10, 1_u32..16, 20_u32..39, 1_u32..20).prop_map(move |(kind, a, b, c)| {
        let (a, b, small) = (at(a), at(b), f64::from(c) * 1e-3);
        let pin = |x: f64| (SupportKind::Pin, Support::pin(x));
        let fixed = |x: f64| (SupportKind::Fixed, Support::fixed(x));
        let moved = |x: f64| {
            let transverse = Hold::Rigid { moved: -small };
            (SupportKind::Roller, Support { station: x, transverse, rotation: Hold::Free })
        };
        let spring = |x: f64| (SupportKind::Spring, Support::spring(x, 1e4 / small));
        let guided = |x: f64| {
            let rotation = Hold::Rigid { moved: 0.0 };
            (SupportKind::Guided, Support { station: x, transverse: Hold::Free, rotation })
        };
        let tight = |x: f64| {
            let rotation = Hold::Spring { stiffness: 1e5 / small };
            (SupportKind::Fixed, Support { station: x, transverse: Hold::Rigid { moved: 0.0 }, rotation })
        };
        match kind {
            0 => vec![fixed(0.0), pin(b)],
            1 => vec![pin(a), fixed(10.0)],
            2 => vec![pin(0.0), moved(a), pin(b)],
            3 => vec![moved(a), pin(5.0), spring(b)],
            4 => vec![spring(0.0), spring(a), spring(b)],
            5 => vec![fixed(0.0), fixed(10.0)],
            6 => vec![pin(0.0), pin(a), moved(b), pin(10.0)],
            7 => vec![pin(a), guided(b), pin(10.0)],
            8 => vec![fixed(a), pin(b), moved(10.0)],
            _ => vec![tight(a), tight(b)],
        }
    })
}

fn load() -> impl Strategy<Value = Load> {
    let at = |n: u32| f64::from(n) * 0.5;
    (0_u8..5, 0_u32..20, 1_u32..20, -20_i32..40, -20_i32..40).prop_map(move |(kind, from, long, one, two)| {
        let (start, end) = (at(from), at((from + long).min(20)));
        let (one, two) = (f64::from(one) * 500.0, f64::from(two) * 500.0);
        match kind {
            0 => Load::Force { station: start, down: one },
            1 => Load::Couple { station: start, ccw: one },
            2 => Load::Spread { from: start, to: end, down_from: one, down_to: one },
            3 => Load::Spread { from: start, to: end, down_from: one, down_to: 0.0 },
            _ => Load::Spread { from: start, to: end, down_from: one, down_to: two },
        }
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    /// Every movement of the released beam as the engine has it, which solves that beam for itself.
    #[test]
    fn a_movement_by_formula_is_the_exact_one(
        supports in indeterminate(),
        loads in prop::collection::vec(load(), 1..4),
    ) {
        let mut maker = beam(10.0);
        let names = ["A", "B", "C", "D"];
        for (name, (kind, support)) in names.into_iter().zip(supports) {
            maker = maker.support(name, kind, support);
        }
        for (place, load) in loads.into_iter().enumerate() {
            maker = maker.load(&(place + 1).to_string(), load);
        }
        let problem = maker.problem;
        prop_assume!(problem.beam.faults().is_empty());
        let of_beam = problem.beam.clone();
        let redundants = of_beam.redundants().expect("it is sound");
        let solved = Solved::new(problem, Style::default()).map_err(|faults| {
            TestCaseError::fail(faults.iter().map(|fault| format!("{fault}\n")).collect::<String>())
        })?;
        let mut by_hand = false;
        let unit_words = |against: Freedom, name: &str| match against {
            Freedom::Transverse => format!("a unit at {name}"),
            Freedom::Rotation => format!("a unit couple at {name}"),
        };
        let under_units = redundants.iter().map(|unit| {
            let words = format!("under {}", unit_words(unit.against, names[unit.support]));
            (words, of_beam.released_under_unit(&redundants, unit))
        });
        for (under, released) in under_units.chain([("under the loads".to_owned(), of_beam.released(&redundants))]) {
            let exact = released.solve().expect("it is determinate");
            let scale = exact.extremes(Curve::Deflection).largest_size.value;
            for at in &redundants {
                let name = names[at.support];
                let (name, exact) = match at.against {
                    Freedom::Transverse => (format!("deflection at {name} {under}"), exact.deflection(at.station)),
                    Freedom::Rotation => (format!("slope at {name} {under}"), exact.slope(at.station, Side::Right)),
                };
                let working = solved.workings().get(&name).expect("each movement has its working");
                by_hand |= matches!(working.formula, Formula::Expression(_));
                let found = working.value.value;
                prop_assert!((found - exact).abs() <= 1e-9 * scale, "{name}: {found}, exactly {exact}");
            }
        }
        // One or two redundants, and never so many pieces with one load.
        if of_beam.loads.len() == 1 && redundants.len() == 1 {
            prop_assert!(by_hand);
        }
    }
}

/// The redundant is what makes the two movements of the released beam cancel: of opposite signs, so neither is told by its size.
#[test]
fn movements_of_the_released_beam_keep_their_signs() {
    let solved = beam(4.0).fixed("A", 0.0).pin("B", 4.0).force("P", 2.0, 10e3).solved();
    let workings = solved.workings();
    let movements: Vec<_> =
        workings.in_order().filter(|(_, of)| of.symbol.role == Role::Deflection).collect();
    assert!(movements.len() >= 2, "{movements:?}");
    assert!(movements.iter().all(|(id, _)| !solved.is_told_by_size(*id)));
}
