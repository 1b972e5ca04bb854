//! What holds between the solutions of beams that are alike.

use super::beams::{agree, in_units, load, mirrored, scale, solved, sound_beam, stations};
use mechanics::beam::{Beam, Curve, Hold, Load, Side, Support};
use proptest::prelude::*;

/// Without imposed movements.
fn at_rest(support: &Support) -> Support {
    let still = |hold| match hold {
        Hold::Rigid { .. } => Hold::STILL,
        other => other,
    };
    Support { transverse: still(support.transverse), rotation: still(support.rotation), ..*support }
}

/// The load, given for a beam of length 1, on this beam; `None` where it may not act there.
fn placed(load: &Load, beam: &Beam) -> Option<Load> {
    let unit = Beam { length: 1.0, loads: vec![*load], ..beam.clone() };
    let placed = in_units(&unit, beam.length, 1.0).loads[0];
    let on_beam = Beam { loads: vec![placed], ..beam.clone() };
    on_beam.faults().is_empty().then_some(placed)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn loads_and_movements_add(beam in sound_beam(), split in 0..9_usize) {
        let split = split.min(beam.loads.len());
        let some = Beam { loads: beam.loads[..split].to_vec(), ..beam.clone() };
        let others = Beam {
            loads: beam.loads[split..].to_vec(),
            supports: beam.supports.iter().map(at_rest).collect(),
            ..beam.clone()
        };
        let (all, some, others) = (solved(&beam), solved(&some), solved(&others));
        for curve in Curve::ALL {
            let size = scale(&some, curve) + scale(&others, curve);
            for (x, side) in stations(&all) {
                let sum = some.value(curve, x, side) + others.value(curve, x, side);
                prop_assert!(agree(all.value(curve, x, side), sum, size), "{curve:?} at {x}");
            }
        }
    }

    #[test]
    fn the_mirror_image_bends_alike(beam in sound_beam()) {
        let (here, there) = (solved(&beam), solved(&mirrored(&beam)));
        for curve in Curve::ALL {
            let sign = if matches!(curve, Curve::Shear | Curve::Slope) { -1.0 } else { 1.0 };
            for (x, side) in stations(&here) {
                let opposite = if side == Side::Left { Side::Right } else { Side::Left };
                let mirror = sign * there.value(curve, beam.length - x, opposite);
                prop_assert!(
                    agree(here.value(curve, x, side), mirror, scale(&here, curve)),
                    "{curve:?} at {x} {side:?}: {} {mirror}", here.value(curve, x, side)
                );
            }
        }
        for (a, b) in here.reactions().iter().zip(there.reactions()) {
            prop_assert!(agree(a.force, b.force, scale(&here, Curve::Shear)));
            prop_assert!(agree(a.couple, -b.couple, scale(&here, Curve::BendingMoment)));
        }
    }

    #[test]
    fn other_units_of_length_and_force_change_nothing(
        beam in sound_beam(),
        length in prop_oneof![Just(1e-3), Just(1e3), Just(0.3048), Just(25.4)],
        force in prop_oneof![Just(1e-6), Just(4448.2216152605)],
    ) {
        let (here, there) = (solved(&beam), solved(&in_units(&beam, length, force)));
        for (curve, unit) in Curve::ALL.into_iter().zip([force, force * length, 1.0, length]) {
            for (x, side) in stations(&here) {
                let other = there.value(curve, x * length, side) / unit;
                prop_assert!(agree(here.value(curve, x, side), other, scale(&here, curve)), "{curve:?} at {x}");
            }
            let [one, other] = [&here, &there].map(|solution| solution.extremes(curve).largest_size.value);
            prop_assert!(agree(one, other / unit, scale(&here, curve)));
        }
    }

    #[test]
    fn curves_grow_with_the_loads(beam in sound_beam(), factor in -20.0..20.0_f64) {
        // Movements are loads too.
        let grown = in_units(&beam, 1.0, factor.abs());
        let moved = |hold| match hold {
            Hold::Rigid { moved } => Hold::Rigid { moved: moved * factor },
            other => other,
        };
        let supports = beam.supports.iter().map(|support| Support {
            transverse: moved(support.transverse),
            rotation: moved(support.rotation),
            ..*support
        });
        let sign = |load: &Load| match *load {
            Load::Force { station, down } => Load::Force { station, down: down * factor.signum() },
            Load::Couple { station, ccw } => Load::Couple { station, ccw: ccw * factor.signum() },
            Load::Spread { from, to, down_from, down_to } => Load::Spread {
                from, to, down_from: down_from * factor.signum(), down_to: down_to * factor.signum(),
            },
        };
        let grown = Beam {
            supports: supports.collect(),
            loads: grown.loads.iter().map(sign).collect(),
            ..beam.clone()
        };
        let (here, there) = (solved(&beam), solved(&grown));
        for curve in Curve::ALL {
            for (x, side) in stations(&here) {
                let value = here.value(curve, x, side) * factor;
                let size = scale(&here, curve) * factor.abs();
                prop_assert!(agree(there.value(curve, x, side), value, size), "{curve:?} at {x}");
            }
        }
    }

    /// The theorem of Betti and Maxwell: the work of one load in the movement under another is the work of the other in
    /// the movement under the first. It holds wherever the two are moved to.
    #[test]
    fn the_work_of_two_loads_in_each_others_movements_is_the_same(
        beam in sound_beam(), loads in (load(), load()),
    ) {
        let supports = beam.supports.iter().map(at_rest).collect();
        let beam = Beam { supports, loads: Vec::new(), ..beam };
        let (Some(one), Some(other)) = (placed(&loads.0, &beam), placed(&loads.1, &beam)) else {
            return Ok(());
        };
        let under = |load: Load| solved(&Beam { loads: vec![load], ..beam.clone() });
        let work = |load: Load, movement: &mechanics::beam::Solution| match load {
            Load::Force { station, down } => (-down * movement.deflection(station), down.abs()),
            Load::Couple { station, ccw } => {
                (ccw * movement.slope(station, Side::Left), ccw.abs() / beam.length)
            }
            Load::Spread { from, to, down_from, down_to } => {
                // Both the load and the deflection are polynomials between the breakpoints: 6 points of
                // Gauss-Legendre are exact to the eleventh degree, of which the sixth is wanted.
                let mut sum = 0.0;
                let mut ends: Vec<f64> = movement.stations().filter(|x| *x > from && *x < to).collect();
                ends.insert(0, from);
                ends.push(to);
                for pair in ends.windows(2) {
                    let (half, middle) = ((pair[1] - pair[0]) / 2.0, (pair[0] + pair[1]) / 2.0);
                    for (at, weight) in POINTS {
                        for x in [middle - half * at, middle + half * at] {
                            let w = down_from + (down_to - down_from) * (x - from) / (to - from);
                            sum -= weight * half * w * movement.deflection(x);
                        }
                    }
                }
                (sum, (down_from.abs() + down_to.abs()) * (to - from))
            }
        };
        let (under_one, under_other) = (under(one), under(other));
        let ((a, force_a), (b, force_b)) = (work(other, &under_one), work(one, &under_other));
        let movement = |solution| scale(solution, Curve::Deflection) + scale(solution, Curve::Slope) * beam.length;
        let size = force_a * movement(&under_one) + force_b * movement(&under_other);
        prop_assert!(agree(a, b, size), "{a} {b}");
    }

    #[test]
    fn a_load_in_two_parts_is_the_same_load(beam in sound_beam(), at in 0.01..0.99) {
        let mut parted = Vec::new();
        for load in &beam.loads {
            match *load {
                Load::Force { station, down } => parted.extend([0.25, 0.75].map(|share| {
                    Load::Force { station, down: down * share }
                })),
                Load::Couple { station, ccw } => parted.extend([0.25, 0.75].map(|share| {
                    Load::Couple { station, ccw: ccw * share }
                })),
                Load::Spread { from, to, down_from, down_to } => {
                    let (middle, down) = (from + at * (to - from), down_from + at * (down_to - down_from));
                    parted.push(Load::Spread { from: middle, to, down_from: down, down_to });
                    parted.push(Load::Spread { from, to: middle, down_from, down_to: down });
                }
            }
        }
        let (here, there) = (solved(&beam), solved(&Beam { loads: parted, ..beam.clone() }));
        for curve in Curve::ALL {
            for (x, side) in stations(&there) {
                let (a, b) = (here.value(curve, x, side), there.value(curve, x, side));
                prop_assert!(agree(a, b, scale(&here, curve)), "{curve:?} at {x}: {a} {b}");
            }
        }
    }
}

/// The three positive points of Gauss-Legendre integration with six, and their weights. Source: Abramowitz and
/// Stegun, Handbook of Mathematical Functions, table 25.4 (from memory).
const POINTS: [(f64, f64); 3] = [
    (0.238_619_186_083_196_9, 0.467_913_934_572_691),
    (0.661_209_386_466_264_5, 0.360_761_573_048_138_6),
    (0.932_469_514_203_152, 0.171_324_492_379_170_35),
];
