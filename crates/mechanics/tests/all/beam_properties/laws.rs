//! What holds of every single solution: balance, the differential equations, supports and hinges.

use super::beams::{SIDES, agree, scale, solved, sound_beam};
use mechanics::beam::{Beam, Curve, Hold, Load, Side};
use proptest::prelude::*;

/// Intensity of all spread loads at a station strictly between breakpoints, from the loads as given.
fn intensity(beam: &Beam, x: f64) -> f64 {
    let at = |load: &Load| match *load {
        Load::Spread { from, to, down_from, down_to } if from < x && x < to => {
            down_from + (down_to - down_from) * (x - from) / (to - from)
        }
        _ => 0.0,
    };
    beam.loads.iter().map(at).sum()
}

/// Force up and moment about the left end, counter-clockwise, of all that acts from `a` to `b`, and the sum of their
/// sizes. Point loads exactly at the two faces are outside the piece at `a` and inside it at `b`.
fn resultant(beam: &Beam, reactions: &[(f64, f64, f64)], a: f64, b: f64) -> [f64; 4] {
    let mut sums = [0.0; 4];
    let mut add = |up: f64, x: f64, ccw: f64| {
        sums[0] += up;
        sums[1] += up * x + ccw;
        sums[2] += up.abs();
        sums[3] += (up * x).abs() + ccw.abs();
    };
    let inside = |x: f64| x > a && x <= b;
    for load in &beam.loads {
        match *load {
            Load::Force { station, down } if inside(station) => add(-down, station, 0.0),
            Load::Couple { station, ccw } if inside(station) => add(0.0, 0.0, ccw),
            Load::Spread { from, to, down_from, down_to } => {
                let (l, r) = (from.max(a), to.min(b));
                if l < r {
                    let at = |x: f64| down_from + (down_to - down_from) * (x - from) / (to - from);
                    let third = (r - l) / 3.0;
                    add(-at(l) * (r - l) / 2.0, l + third, 0.0);
                    add(-at(r) * (r - l) / 2.0, r - third, 0.0);
                }
            }
            _ => {}
        }
    }
    for &(station, force, couple) in reactions {
        if inside(station) {
            add(force, station, couple);
        }
    }
    sums
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4000))]

    #[test]
    fn all_own_balances_close(beam in sound_beam()) {
        let solution = solved(&beam);
        for balance in solution.balances(&beam) {
            prop_assert!(balance.closes(), "{balance:?}");
        }
    }

    /// With shear as without: `E I / L²` and less stands for sections as stiff in shear as slender beams are, and for far softer ones.
    #[test]
    fn all_own_balances_close_with_shear_too(beam in sound_beam(), softness in -6.0..1.0_f64) {
        let flexibility = mechanics::real::pow(10.0, softness) * beam.length * beam.length / beam.flexural_rigidity;
        let Ok(solution) = beam.solve_with_shear(flexibility) else { return Ok(()) };
        for balance in solution.balances(&beam) {
            prop_assert!(balance.closes(), "{balance:?}");
        }
    }

    #[test]
    fn the_whole_beam_and_any_piece_are_in_balance(beam in sound_beam(), cuts in (0.0..1.0_f64, 0.0..1.0_f64)) {
        let solution = solved(&beam);
        let reactions: Vec<_> =
            solution.reactions().iter().map(|r| (r.station, r.force, r.couple)).collect();
        let [force, moment, forces, moments] = resultant(&beam, &reactions, -1.0, beam.length);
        let forces = forces + scale(&solution, Curve::Shear);
        prop_assert!(force.abs() <= 1e-9 * forces, "{force} of {forces}");
        let moments = moments + scale(&solution, Curve::BendingMoment) + forces * beam.length;
        prop_assert!(moment.abs() <= 1e-9 * moments, "{moment} of {moments}");

        let (a, b) = (beam.length * cuts.0.min(cuts.1), beam.length * cuts.0.max(cuts.1));
        let [force, moment, ..] = resultant(&beam, &reactions, a, b);
        let at = |curve, x| solution.value(curve, x, Side::Right);
        let (v, m) = (|x| at(Curve::Shear, x), |x| at(Curve::BendingMoment, x));
        // The left face pushes the piece up by V, the right one down; M turns its left face clockwise, its right one
        // counter-clockwise.
        let forces = scale(&solution, Curve::Shear);
        prop_assert!(agree(v(a) + force, v(b), forces));
        let moments = scale(&solution, Curve::BendingMoment) + forces * b;
        prop_assert!(agree(v(a) * a - m(a) + moment, v(b) * b - m(b), moments));
    }

    #[test]
    fn each_curve_is_the_integral_of_the_one_before(beam in sound_beam()) {
        let solution = solved(&beam);
        for segment in solution.segments() {
            let middle = segment.from + 0.37 * segment.length();
            let given = intensity(&beam, middle);
            let largest: f64 = beam.loads.iter().map(|load| match load {
                Load::Spread { down_from, down_to, .. } => down_from.abs() + down_to.abs(),
                _ => 0.0,
            }).sum();
            prop_assert!(agree(solution.load_intensity(middle, Side::Left), given, largest));
            let derivative = |curve: &[f64], of: &[f64], factor: f64| {
                // Each coefficient, in the size it has at the end of the segment.
                let mut power = 1.0;
                for (k, &coefficient) in of.iter().enumerate() {
                    let size = (curve[k + 1] * (k + 1) as f64 - factor * coefficient) * power;
                    let allowed = 1e-14 * (factor * coefficient).abs() * power;
                    if size.abs() > allowed {
                        return false;
                    }
                    power *= segment.length();
                }
                true
            };
            prop_assert!(derivative(&segment.shear(), &segment.load_intensity(), -1.0));
            prop_assert!(derivative(&segment.bending_moment(), &segment.shear(), 1.0));
            let flexibility = 1.0 / segment.flexural_rigidity;
            prop_assert!(derivative(&segment.slope(), &segment.bending_moment(), flexibility));
            prop_assert!(derivative(&segment.deflection(), &segment.slope(), 1.0));
        }
        // Between segments only what acts there makes a jump.
        for (pair, jump) in solution.segments().windows(2).zip(&solution.jumps()[1..]) {
            for curve in Curve::ALL {
                let expected = match curve {
                    Curve::Shear => jump.force_up,
                    Curve::BendingMoment => -jump.couple_ccw,
                    Curve::Slope if beam.hinges.contains(&jump.station) => continue,
                    Curve::Slope | Curve::Deflection => 0.0,
                };
                let step = pair[1].value(curve, 0.0) - pair[0].value(curve, pair[0].length());
                prop_assert!(agree(step, expected, scale(&solution, curve)), "{curve:?} at {}", jump.station);
            }
        }
    }

    #[test]
    fn supports_hold_as_told_and_hinges_carry_no_moment(beam in sound_beam()) {
        let solution = solved(&beam);
        let sizes = Curve::ALL.map(|curve| scale(&solution, curve));
        for (support, reaction) in beam.supports.iter().zip(solution.reactions()) {
            let moved = solution.deflection(support.station);
            match support.transverse {
                Hold::Free => prop_assert_eq!(reaction.force, 0.0),
                Hold::Rigid { moved: told } => prop_assert!(agree(moved, told, sizes[3] + told.abs())),
                Hold::Spring { stiffness } => prop_assert!(
                    agree(reaction.force, -stiffness * moved, sizes[0] + stiffness * sizes[3])
                ),
            }
            for side in SIDES {
                let turned = solution.slope(support.station, side);
                match support.rotation {
                    Hold::Free => prop_assert_eq!(reaction.couple, 0.0),
                    Hold::Rigid { moved: told } => prop_assert!(agree(turned, told, sizes[2] + told.abs())),
                    Hold::Spring { stiffness } => prop_assert!(
                        agree(reaction.couple, -stiffness * turned, sizes[1] + stiffness * sizes[2])
                    ),
                }
            }
        }
        for &hinge in &beam.hinges {
            for side in SIDES {
                prop_assert_eq!(solution.bending_moment(hinge, side), 0.0);
            }
        }
    }
}
