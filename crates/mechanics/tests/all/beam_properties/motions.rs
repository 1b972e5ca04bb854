//! Mechanisms against the rank of the kinematic conditions, found by plain elimination.

use super::beams::{any_beam, mended_beam, solved};
use mechanics::beam::{Beam, Curve, Fault, Freedom, Hold, Motion, Side};
use proptest::prelude::*;

/// How many independent rigid motions the holds and hinges leave: each piece moves by `a + b x`; every hold and every
/// hinge is one condition.
fn free_motions(beam: &Beam) -> usize {
    let mut hinges = beam.hinges.clone();
    hinges.sort_by(f64::total_cmp);
    let columns = 2 * (hinges.len() + 1);
    let mut rows: Vec<Vec<f64>> = Vec::new();
    for (piece, &x) in hinges.iter().enumerate() {
        let mut row = vec![0.0; columns];
        row[2 * piece..2 * piece + 4].copy_from_slice(&[1.0, x, -1.0, -x]);
        rows.push(row);
    }
    for support in &beam.supports {
        let x = support.station;
        let piece = hinges.iter().filter(|&&hinge| hinge < x).count();
        for (hold, terms) in [(support.transverse, [1.0, x]), (support.rotation, [0.0, 1.0])] {
            if hold != Hold::Free {
                let mut row = vec![0.0; columns];
                row[2 * piece..2 * piece + 2].copy_from_slice(&terms);
                rows.push(row);
            }
        }
    }
    // Elimination with the largest pivot of all.
    let mut rank = 0;
    while rank < rows.len().min(columns) {
        let (mut best, mut at) = (0.0, (rank, 0));
        for (r, row) in rows.iter().enumerate().skip(rank) {
            for (c, value) in row.iter().enumerate() {
                if value.abs() > best {
                    (best, at) = (value.abs(), (r, c));
                }
            }
        }
        if best < 1e-9 {
            break;
        }
        rows.swap(rank, at.0);
        let pivot = rows[rank].clone();
        for row in rows.iter_mut().skip(rank + 1) {
            let factor = row[at.1] / pivot[at.1];
            for (value, p) in row.iter_mut().zip(&pivot) {
                *value -= factor * p;
            }
            row[at.1] = 0.0;
        }
        rank += 1;
    }
    columns - rank
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(6000))]

    #[test]
    fn as_many_motions_are_named_as_nothing_prevents(beam in mended_beam()) {
        let motions: Vec<Motion> = beam.faults().into_iter().map(|fault| match fault {
            Fault::Mechanism(motion) => motion,
            other => panic!("{other:?}"),
        }).collect();
        let expected = free_motions(&beam);
        match motions[..] {
            // Told in one.
            [Motion::Loose] => prop_assert_eq!(expected, 2 + beam.hinges.len()),
            _ => prop_assert_eq!(motions.len(), expected, "{:?}", motions),
        }
        for motion in motions {
            if let Motion::Folds { folding, pieces, .. } = &motion {
                prop_assert!(!folding.is_empty() && !pieces.is_empty());
                for pair in pieces.windows(2) {
                    prop_assert!((pair[0].up_to - pair[1].up_from).abs() < 1e-12, "torn at a hinge");
                }
                // No support that holds the beam up moves.
                for support in beam.supports.iter().filter(|support| support.transverse != Hold::Free) {
                    for piece in pieces {
                        let (a, b) = (piece.from, piece.to);
                        if support.station >= a && support.station <= b {
                            let share = (support.station - a) / (b - a);
                            let up = piece.up_from + share * (piece.up_to - piece.up_from);
                            prop_assert!(up.abs() < 1e-9, "{support:?} {motion:?}");
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn no_beam_whatever_makes_a_panic(beam in any_beam(), spoil in 0..12_u8, value in prop_oneof![
        Just(f64::NAN), Just(f64::INFINITY), Just(-1.0), Just(0.0), Just(1e308), Just(1e-308), Just(5e-324),
    ]) {
        let mut beam = beam;
        match spoil {
            0 => beam.length = value,
            1 => beam.flexural_rigidity = value,
            2 => beam.supports[0].station = value,
            3 => beam.supports[0].transverse = Hold::Rigid { moved: value },
            4 => beam.supports[0].rotation = Hold::Spring { stiffness: value },
            5 => beam.hinges.push(value),
            6 => beam.supports[0].transverse = Hold::Spring { stiffness: value },
            _ => {}
        }
        let scaled = super::beams::in_units(&beam, 1.0, if spoil == 7 { value } else { 1.0 });
        for beam in [beam, scaled] {
            match beam.solve() {
                Ok(solution) => {
                    for curve in Curve::ALL {
                        prop_assert!(solution.extremes(curve).largest_size.value.is_finite());
                        solution.zeros(curve);
                    }
                    solution.balances(&beam);
                }
                Err(faults) => {
                    prop_assert!(!faults.is_empty());
                    for fault in faults {
                        prop_assert!(!fault.to_string().is_empty());
                    }
                }
            }
        }
    }

    /// The force method by hand: released, the beam is determinate; the redundants undo its movements.
    #[test]
    fn the_force_method_gives_the_same_reactions(beam in super::beams::sound_beam()) {
        let redundants = beam.redundants().expect("a sound beam");
        prop_assert_eq!(redundants.len(), beam.redundancy().expect("a sound beam"));
        let primary = beam.released(&redundants);
        prop_assert_eq!(primary.redundancy().expect("a stable beam"), 0);
        if redundants.len() != 1 {
            return Ok(());
        }
        let x = redundants[0];
        let curve = match x.against {
            Freedom::Transverse => Curve::Deflection,
            Freedom::Rotation => Curve::Slope,
        };
        let under_loads = solved(&primary);
        let own = under_loads.value(curve, x.station, Side::Left);
        let unit = solved(&beam.released_under_unit(&redundants, &x)).value(curve, x.station, Side::Left);
        // own + X (unit + flexibility) = moved
        let by_hand = (x.moved - own) / (unit + x.flexibility);
        let rounding = under_loads.nothing(curve) / (unit + x.flexibility);
        let solution = solved(&beam);
        let reaction = solution.reactions()[x.support];
        let (got, curve) = match x.against {
            Freedom::Transverse => (reaction.force, Curve::Shear),
            Freedom::Rotation => (reaction.couple, Curve::BendingMoment),
        };
        // By hand the movements may cancel, which the solution does not suffer from.
        let size = super::beams::scale(&solution, curve);
        prop_assert!((got - by_hand).abs() <= 1e-6 * size + 4.0 * rounding.abs(), "{got} {by_hand} {size}");
    }
}
