//! Beams against closed formulas, beyond those of the reference cases.
//!
//! Sources, all from memory, each formula confirmed by integrating `E I v'''' = -w` by hand: R. J. Roark, W. C. Young,
//! Formulas for Stress and Strain, table of shear, moment, slope and deflection formulas for elastic straight beams
//! (cases named there by the ends: left end - right end); S. Timoshenko, Strength of Materials, part I (springs,
//! settlements, theorem of three moments).

use mechanics::beam::{Beam, Curve, Hold, Load, Place, Reached, Side, Solution, Support, Zero};

const EI: f64 = 16.8e6;

fn solved(length: f64, supports: Vec<Support>, loads: Vec<Load>) -> Solution {
    let beam = Beam { length, flexural_rigidity: EI, supports, hinges: vec![], loads };
    let solution = beam.solve().unwrap_or_else(|faults| panic!("{faults:?}"));
    for balance in solution.balances(&beam) {
        assert!(balance.closes(), "{balance:?}");
    }
    solution
}

#[track_caller]
fn assert_near(got: f64, expected: f64) {
    assert!((got - expected).abs() <= 1e-12 * expected.abs(), "{got}, not {expected}");
}

fn uniform(length: f64, down: f64) -> Load {
    Load::Spread { from: 0.0, to: length, down_from: down, down_to: down }
}

/// Roark, left end guided, right end simply supported, intermediate load W at a:
/// `M_A = W (l - a)`, `y_A = -W (l - a) (2 l² + 2 a l - a²) / (6 E I)`, `R_B = W`.
#[test]
fn guided_and_simply_supported_under_a_force() {
    let (l, a, w) = (5.0, 1.8, 7.0e3);
    let supports = vec![Support::guided(0.0), Support::pin(l)];
    let solution = solved(l, supports, vec![Load::Force { station: a, down: w }]);
    assert_near(solution.reactions()[0].couple, -w * (l - a));
    assert_near(solution.bending_moment(0.0, Side::Right), w * (l - a));
    assert_near(solution.reactions()[1].force, w);
    assert_near(solution.deflection(0.0), -w * (l - a) * (2.0 * l * l + 2.0 * a * l - a * a) / (6.0 * EI));
    assert_near(solution.slope(l, Side::Left), w * (l * l - a * a) / (2.0 * EI));
}

/// Roark, left end guided, right end fixed, uniform load over all: `M_A = w l² / 6`, `M_B = -w l² / 3`,
/// `y_A = -w l⁴ / (24 E I)`.
#[test]
fn guided_and_fixed_under_a_uniform_load() {
    let (l, w) = (3.5, 4.0e3);
    let solution = solved(l, vec![Support::guided(0.0), Support::fixed(l)], vec![uniform(l, w)]);
    assert_near(solution.bending_moment(0.0, Side::Right), w * l * l / 6.0);
    assert_near(solution.bending_moment(l, Side::Left), -w * l * l / 3.0);
    assert_near(solution.deflection(0.0), -w * l * l * l * l / (24.0 * EI));
    assert_near(solution.reactions()[1].force, w * l);
}

/// Roark, both ends fixed, load growing from 0 to w: `R_A = 3 w l / 20`, `M_A = -w l² / 30`, `M_B = -w l² / 20`.
#[test]
fn fixed_at_both_ends_under_a_growing_load() {
    let (l, w) = (4.2, 9.0e3);
    let load = Load::Spread { from: 0.0, to: l, down_from: 0.0, down_to: w };
    let solution = solved(l, vec![Support::fixed(0.0), Support::fixed(l)], vec![load]);
    assert_near(solution.reactions()[0].force, 3.0 * w * l / 20.0);
    assert_near(solution.bending_moment(0.0, Side::Right), -w * l * l / 30.0);
    assert_near(solution.bending_moment(l, Side::Left), -w * l * l / 20.0);
}

/// Roark, left end fixed, right end simply supported, couple at a: from the slope of the cantilever at its end,
/// `R_B = -3 M0 (2 a l - a²) / (2 l³)` for a counter-clockwise couple.
#[test]
fn propped_cantilever_under_a_couple() {
    let (l, a, c) = (6.0, 2.5, 8.0e3);
    let load = Load::Couple { station: a, ccw: c };
    let solution = solved(l, vec![Support::fixed(0.0), Support::pin(l)], vec![load]);
    // The cantilever alone lifts its end by M0 a (l - a / 2) / (E I); the prop takes it back.
    assert_near(solution.reactions()[1].force, -3.0 * c * a * (l - a / 2.0) / (l * l * l));
}

/// Cantilever on a spring at its end: the prop of stiffness k takes `R = 3 w l / 8 / (1 + 3 E I / (k l³))`.
#[test]
fn cantilever_on_a_spring() {
    let (l, w) = (4.0, 6.0e3);
    for k in [1.0, 1.0e3, 0.8e6, 1.0e12] {
        let supports = vec![Support::fixed(0.0), Support::spring(l, k)];
        let solution = solved(l, supports, vec![uniform(l, w)]);
        let force = 3.0 * w * l / 8.0 / (1.0 + 3.0 * EI / (k * l * l * l));
        let got = solution.reactions()[1].force;
        // A soft spring's force is what is left of forces of the size w l.
        assert!((got - force).abs() <= 1e-13 * w * l + 1e-12 * force, "{k}: {got}, not {force}");
        let sag = -force / k;
        assert!((solution.deflection(l) - sag).abs() <= 1e-12 * w * l * l * l * l / EI);
    }
}

/// Beam whose left end turns against a spring, right end pinned, uniform load:
/// the couple is `(w l² / 8) / (1 + 3 E I / (k l))`, between a simple beam and a fixed end.
#[test]
fn end_held_by_a_rotational_spring() {
    let (l, w) = (5.0, 3.0e3);
    for k in [10.0, 4.0e6, 1.0e13] {
        let rotation = Hold::Spring { stiffness: k };
        let supports = vec![Support { station: 0.0, transverse: Hold::STILL, rotation }, Support::pin(l)];
        let solution = solved(l, supports, vec![uniform(l, w)]);
        let couple = w * l * l / 8.0 / (1.0 + 3.0 * EI / (k * l));
        let got = solution.reactions()[0].couple;
        assert!((got - couple).abs() <= 1e-13 * w * l * l, "{k}: {got}, not {couple}");
        assert!((solution.slope(0.0, Side::Right) + couple / k).abs() <= 1e-13 * w * l * l * l / EI);
    }
}

/// Inner support with a rotational spring: by symmetry of stiffness each span of l takes `3 E I / l` of a couple.
#[test]
fn couple_at_an_inner_support_with_a_rotational_spring() {
    let (l, k, c) = (3.0, 5.0e6, 9.0e3);
    let rotation = Hold::Spring { stiffness: k };
    let supports = vec![
        Support::pin(0.0),
        Support { station: l, transverse: Hold::STILL, rotation },
        Support::pin(2.0 * l),
    ];
    let solution = solved(2.0 * l, supports, vec![Load::Couple { station: l, ccw: c }]);
    let turn = c / (k + 6.0 * EI / l);
    for side in [Side::Left, Side::Right] {
        assert_near(solution.slope(l, side), turn);
    }
    assert_near(solution.reactions()[1].couple, -k * turn);
    assert_near(solution.bending_moment(l, Side::Left), 3.0 * EI / l * turn);
    assert_near(solution.bending_moment(l, Side::Right), -3.0 * EI / l * turn);
}

/// Both ends fixed, the right one sinks by d: `M_A = -6 E I d / l²`, `M_B = 6 E I d / l²`, `V = 12 E I d / l³`.
#[test]
fn fixed_end_sinks() {
    let (l, d) = (4.0, 0.008);
    let mut right = Support::fixed(l);
    right.transverse = Hold::Rigid { moved: -d };
    let solution = solved(l, vec![Support::fixed(0.0), right], vec![]);
    assert_near(solution.bending_moment(0.0, Side::Right), -6.0 * EI * d / (l * l));
    assert_near(solution.bending_moment(l, Side::Left), 6.0 * EI * d / (l * l));
    assert_near(solution.reactions()[0].force, 12.0 * EI * d / (l * l * l));
    let zeros = solution.zeros(Curve::BendingMoment);
    assert!(
        matches!(zeros[..], [Zero::At { place: Place { station, side: None }, changes_sign: true }]
            if (station - l / 2.0).abs() < 1e-12),
        "{zeros:?}"
    );
}

/// Both ends fixed, the left one turned by t counter-clockwise: `4 E I t / l` there, `2 E I t / l` at the other end.
#[test]
fn fixed_end_turns() {
    let (l, t) = (4.0, 0.002);
    let mut left = Support::fixed(0.0);
    left.rotation = Hold::Rigid { moved: t };
    let solution = solved(l, vec![left, Support::fixed(l)], vec![]);
    assert_near(solution.reactions()[0].couple, 4.0 * EI * t / l);
    assert_near(solution.reactions()[1].couple, 2.0 * EI * t / l);
    assert_near(solution.slope(0.0, Side::Right), t);
}

/// Two equal spans, the middle support sinks by d: by the theorem of three moments `M_B = 3 E I d / l²`.
#[test]
fn middle_support_sinks() {
    let (l, d) = (5.0, 0.01);
    let mut middle = Support::pin(l);
    middle.transverse = Hold::Rigid { moved: -d };
    let solution = solved(2.0 * l, vec![Support::pin(0.0), middle, Support::pin(2.0 * l)], vec![]);
    assert_near(solution.bending_moment(l, Side::Left), 3.0 * EI * d / (l * l));
    assert_near(solution.deflection(l), -d);
}

/// A determinate beam does not bend when a support moves.
#[test]
fn settlement_of_a_simple_beam_makes_no_force() {
    let mut right = Support::pin(6.0);
    right.transverse = Hold::Rigid { moved: -0.02 };
    let solution = solved(6.0, vec![Support::pin(0.0), right], vec![]);
    assert!(solution.reactions().iter().all(|reaction| reaction.force == 0.0));
    for (x, side) in [(0.0, Side::Right), (2.0, Side::Left), (6.0, Side::Left)] {
        assert_eq!((solution.shear(x, side), solution.bending_moment(x, side)), (0.0, 0.0));
    }
    assert_near(solution.deflection(3.0), -0.01);
    assert_eq!(solution.extremes(Curve::BendingMoment).highest, None);
    let whole = Reached::Over { from: 0.0, to: 6.0 };
    assert_eq!(solution.extremes(Curve::BendingMoment).largest_size.reached, [whole]);
}

/// Statics by hand, to the last digits, whatever stands and acts: hinged beam of 20 m on 4 supports.
#[test]
fn reactions_of_a_determinate_beam_are_those_of_statics() {
    // The case `hinge-beam-suspended-middle` of the reference beams, each piece taken apart.
    let (w, p) = (3.0e3, 15.0e3);
    let beam = |rigidity| Beam {
        length: 20.0,
        flexural_rigidity: rigidity,
        supports: [0.0, 6.0, 14.0, 20.0].map(Support::pin).to_vec(),
        hinges: vec![8.0, 12.0],
        loads: vec![uniform(20.0, w), Load::Force { station: 10.0, down: p }],
    };
    let hinge = w * 4.0 / 2.0 + p / 2.0;
    let inner = (w * 8.0 * 4.0 + hinge * 8.0) / 6.0;
    let outer = w * 8.0 + hinge - inner;
    for rigidity in [1e-6, 1.0, EI, 1e30] {
        let solution = beam(rigidity).solve().unwrap_or_else(|faults| panic!("{faults:?}"));
        for (reaction, expected) in solution.reactions().iter().zip([outer, inner, inner, outer]) {
            let got = reaction.force;
            assert!((got - expected).abs() <= 1e-14 * inner, "{rigidity}: {got}, not {expected}");
        }
    }
}

/// Between two equal forces M is largest over a stretch, V is zero over it.
#[test]
fn four_point_bending_is_largest_over_a_stretch() {
    let force = |station| Load::Force { station, down: 11.0e3 };
    let solution = solved(7.5, vec![Support::pin(0.0), Support::pin(7.5)], vec![force(2.5), force(5.0)]);
    let highest = solution.extremes(Curve::BendingMoment).highest.expect("it sags");
    assert_near(highest.value, 27.5e3);
    assert_eq!(highest.reached, [Reached::Over { from: 2.5, to: 5.0 }]);
    assert_eq!(solution.zeros(Curve::Shear), [Zero::Over { from: 2.5, to: 5.0 }]);
    let largest = solution.extremes(Curve::Shear).largest_size.reached;
    assert_eq!(largest, [Reached::Over { from: 0.0, to: 2.5 }, Reached::Over { from: 5.0, to: 7.5 }]);
    let sag = solution.extremes(Curve::Deflection).lowest.expect("it sags");
    assert!(
        matches!(sag.reached[..], [Reached::At(Place { station, side: None })] if (station - 3.75).abs() < 1e-9)
    );
}

/// Overhang under a uniform load: M changes its sign once inside, V where its parts do and across the support.
#[test]
fn zeros_of_an_overhanging_beam() {
    let (l, c, w) = (6.0, 2.0, 3.0e3);
    let solution = solved(l + c, vec![Support::pin(0.0), Support::pin(l)], vec![uniform(l + c, w)]);
    // R_A = w (l² - c²) / (2 l); M = R_A x - w x² / 2 is zero at 2 R_A / w.
    let left = w * (l * l - c * c) / (2.0 * l);
    let stations = solution.contraflexures();
    assert_eq!(stations.len(), 1);
    assert_near(stations[0], 2.0 * left / w);
    let zeros = solution.zeros(Curve::Shear);
    assert!(
        matches!(zeros[..], [
            Zero::At { place: Place { station, side: None }, changes_sign: true },
            Zero::Across { station: support },
        ] if (station - left / w).abs() < 1e-12 && support == l),
        "{zeros:?}"
    );
    assert_eq!(solution.turning_points(Curve::BendingMoment).len(), 1);
}

/// A load over next to no length acts as its resultant: statics tells both reactions to the last digits.
#[test]
fn a_load_over_next_to_no_length_acts_as_its_resultant() {
    let (l, at, down) = (10.0, 4.0, 6.0e3);
    for share in [1e-3, 1e-6, 1e-9, 1e-10, 1e-12, 1e-14] {
        let to = at + share * l;
        let length = to - at;
        let load = Load::Spread { from: at, to, down_from: 2.0 * down / length, down_to: 0.0 };
        let solution = solved(l, vec![Support::pin(0.0), Support::pin(l)], vec![load, uniform(l, 1.0e3)]);
        let [left, right] = [0, 1].map(|index| solution.reactions()[index].force);
        let station = at + length / 3.0;
        // Stations nearer to each other than 1e-12 of the length are one, so that far a load may be moved.
        let near = 1e-11 + if share < 1e-12 { down * share } else { 0.0 };
        assert!((right - 5.0e3 - down * station / l).abs() < near, "{share}: {right}");
        assert!((left - 5.0e3 - down * (1.0 - station / l)).abs() < near, "{share}: {left}");
        // M = R x - w x² / 2 up to the load.
        let moment = left * at - 1.0e3 * at * at / 2.0;
        assert!((solution.bending_moment(at, Side::Left) - moment).abs() < 1e-10, "{share}");
        // The uniform load is not disturbed by the steep one that came and went.
        let intensity = solution.load_intensity(9.0, Side::Left);
        assert!((intensity - 1.0e3).abs() < 1e-12, "{share}: {intensity}");
    }
}

/// Off the beam there is nothing to tell.
#[test]
fn off_the_beam_no_value_is_made_up() {
    let solution = solved(6.0, vec![Support::pin(0.0), Support::pin(6.0)], vec![uniform(6.0, 1.0e3)]);
    assert!(solution.shear(-0.1, Side::Left).is_nan());
    assert!(solution.deflection(6.1).is_nan());
    assert!(solution.bending_moment(f64::NAN, Side::Left).is_nan());
    // An end of the beam has its inner limit for either side.
    assert_near(solution.shear(0.0, Side::Left), 3.0e3);
    assert_near(solution.shear(6.0 + 1e-13, Side::Right), -3.0e3);
}
