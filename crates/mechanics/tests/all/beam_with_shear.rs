//! What shear adds to the deflections, against the unit-load theorem and the force method worked out by hand.
//!
//! Source: Timoshenko's beam; `∫ M m / (E I) dx + ∫ f V v / (G A) dx` of any textbook of structural mechanics, from memory.

use mechanics::beam::{Beam, Fault, Load, Side, Support};

const RIGIDITY: f64 = 3.0e6;
/// `f / (G A)`, 1/N.
const FLEXIBILITY: f64 = 4.0e-8;

fn beam(length: f64, supports: Vec<Support>, loads: Vec<Load>) -> Beam {
    Beam { length, flexural_rigidity: RIGIDITY, supports, hinges: Vec::new(), loads }
}

fn even(from: f64, to: f64, down: f64) -> Load {
    Load::Spread { from, to, down_from: down, down_to: down }
}

#[track_caller]
fn assert_near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() <= 1e-11 * wanted.abs(), "{found} {wanted}");
}

/// What shear alone adds at a station.
fn added(beam: &Beam, station: f64) -> f64 {
    let sheared = beam.solve_with_shear(FLEXIBILITY).expect("a sound beam");
    sheared.deflection(station) - beam.solve().expect("a sound beam").deflection(station)
}

#[test]
fn a_simple_beam_sags_by_what_its_moment_is() {
    let (l, w) = (4.0, 5.0e3);
    let simple = beam(l, vec![Support::pin(0.0), Support::pin(l)], vec![even(0.0, l, w)]);
    for x in [0.7, 2.0, 3.1] {
        let moment = w * x * (l - x) / 2.0;
        assert!((added(&simple, x) + FLEXIBILITY * moment).abs() <= 1e-12 * FLEXIBILITY * moment);
    }
    let sagging = simple.solve_with_shear(FLEXIBILITY).expect("a sound beam");
    let most = sagging.extremes(mechanics::beam::Curve::Deflection).largest_size.value;
    assert_near(most, 5.0 * w * l.powi(4) / (384.0 * RIGIDITY) + FLEXIBILITY * w * l * l / 8.0);
}

/// A couple makes one V all along a simple beam: every section is sheared alike, and the beam only leans back on its supports.
#[test]
fn a_couple_on_a_simple_beam_adds_nothing() {
    let simple = beam(
        3.0,
        vec![Support::pin(0.0), Support::pin(3.0)],
        vec![Load::Couple { station: 1.1, ccw: 7.0e3 }],
    );
    let scale = simple.solve().expect("a sound beam").deflection(0.5).abs();
    for x in [0.5, 1.1, 2.6] {
        assert!(added(&simple, x).abs() <= 1e-13 * scale, "{}", added(&simple, x));
    }
}

/// `V = -F a / l` between the supports and `F` beyond; a unit force at the end has the same shape.
#[test]
fn the_end_of_an_overhang() {
    let (l, a, force) = (3.0, 1.2, 6.0e3);
    let supports = vec![Support::pin(0.0), Support::pin(l)];
    let overhang = beam(l + a, supports, vec![Load::Force { station: l + a, down: force }]);
    assert_near(added(&overhang, l + a), -FLEXIBILITY * force * (a * a / l + a));
}

/// The hung piece, 2 m long under an even load, leans on the tip of an overhang of 1 m behind a span of 4 m: the hinge sinks as a tip
/// under w, and within the hung piece shear adds its simple beam's moment.
#[test]
fn a_hinge_sinks_by_shear() {
    let (l, a, hung, w) = (4.0, 1.0, 2.0, 2.0e3);
    let mut gerber = beam(
        l + a + hung,
        vec![Support::pin(0.0), Support::pin(l), Support::pin(l + a + hung)],
        vec![even(l + a, l + a + hung, w)],
    );
    gerber.hinges = vec![l + a];
    let tip = -FLEXIBILITY * (w * hung / 2.0) * (a * a / l + a);
    assert_near(added(&gerber, l + a), tip);
    let middle = 0.5 * tip - FLEXIBILITY * w * hung * hung / 8.0;
    assert_near(added(&gerber, l + a + hung / 2.0), middle);
}

/// Redundant beams by the force method with both integrals.
#[test]
fn redundant_reactions_follow_suit() {
    let (l, w) = (2.0, 9.0e3);
    let propped = beam(l, vec![Support::fixed(0.0), Support::pin(l)], vec![even(0.0, l, w)]);
    let released = w * l.powi(4) / (8.0 * RIGIDITY) + FLEXIBILITY * w * l * l / 2.0;
    let unit = l.powi(3) / (3.0 * RIGIDITY) + FLEXIBILITY * l;
    let solved = propped.solve_with_shear(FLEXIBILITY).expect("a sound beam");
    assert_near(solved.reactions()[1].force, released / unit);

    let continuous = beam(
        2.0 * l,
        vec![Support::pin(0.0), Support::pin(l), Support::pin(2.0 * l)],
        vec![even(0.0, 2.0 * l, w)],
    );
    let span: f64 = 2.0 * l;
    let released = 5.0 * w * span.powi(4) / (384.0 * RIGIDITY) + FLEXIBILITY * w * span * span / 8.0;
    let unit = span.powi(3) / (48.0 * RIGIDITY) + FLEXIBILITY * span / 4.0;
    let solved = continuous.solve_with_shear(FLEXIBILITY).expect("a sound beam");
    assert_near(solved.reactions()[1].force, released / unit);

    let force = 8.0e3;
    let built_in = beam(
        l,
        vec![Support::fixed(0.0), Support::fixed(l)],
        vec![Load::Force { station: 0.5 * l, down: force }],
    );
    let solved = built_in.solve_with_shear(FLEXIBILITY).expect("a sound beam");
    let middle = force * l.powi(3) / (192.0 * RIGIDITY) + FLEXIBILITY * force * l / 4.0;
    assert_near(solved.deflection(0.5 * l), -middle);
    // The axis slopes at the wall, the section does not turn.
    assert_eq!(solved.slope(0.0, Side::Right), 0.0);
    assert_near(solved.segments()[0].axis_slope()[0], -FLEXIBILITY * 0.5 * force);
}

/// On springs the beam sinks as before, and what shear adds is that between still supports.
#[test]
fn a_beam_on_springs() {
    let (l, force, stiffness) = (2.0, 3.0e3, 5.0e5);
    let load = vec![Load::Force { station: 0.5 * l, down: force }];
    let sprung = beam(l, vec![Support::spring(0.0, stiffness), Support::spring(l, stiffness)], load);
    assert_near(added(&sprung, 0.5 * l), -FLEXIBILITY * force * l / 4.0);
}

#[test]
fn a_flexibility_that_is_none_is_refused() {
    let simple = beam(2.0, vec![Support::pin(0.0), Support::pin(2.0)], Vec::new());
    for shear_flexibility in [-1.0e-9, f64::NAN, f64::INFINITY] {
        let faults = simple.solve_with_shear(shear_flexibility).expect_err("no flexibility");
        assert!(matches!(faults.as_slice(), [Fault::ShearFlexibility { .. }]), "{faults:?}");
    }
}
