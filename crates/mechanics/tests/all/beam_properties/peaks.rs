//! Extremes and zeros against plain looking along the beam.

use super::beams::{scale, solved, sound_beam, stations};
use mechanics::beam::{Curve, Extreme, Reached, Side, Solution, Zero};
use proptest::prelude::*;

/// Whether an extreme has its value wherever it says that it is reached.
fn reached(
    solution: &Solution,
    curve: Curve,
    extreme: &Extreme,
    size_only: bool,
) -> Result<(), TestCaseError> {
    prop_assert!(!extreme.reached.is_empty());
    let mut last = -1.0;
    for reached in &extreme.reached {
        let (from, to, sides): (_, _, &[Side]) = match reached {
            Reached::At(place) => (
                place.station,
                place.station,
                &match place.side {
                    Some(side) => [side, side],
                    None => [Side::Left, Side::Right],
                },
            ),
            Reached::Over { from, to } => (*from, *to, &[]),
        };
        prop_assert!(from > last && to >= from, "not in order");
        last = to;
        let at: Vec<(f64, Side)> = if from == to {
            sides.iter().map(|&side| (from, side)).collect()
        } else {
            vec![(from, Side::Right), ((from + to) / 2.0, Side::Left), (to, Side::Left)]
        };
        for (x, side) in at {
            let value = solution.value(curve, x, side);
            let value = if size_only { value.abs() } else { value };
            prop_assert!(
                (value - extreme.value).abs() <= 4.0 * solution.nothing(curve),
                "{value} at {x}: {extreme:?}"
            );
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3000))]

    #[test]
    fn nothing_exceeds_the_extremes_and_they_are_reached(beam in sound_beam()) {
        let solution = solved(&beam);
        for curve in Curve::ALL {
            let extremes = solution.extremes(curve);
            let high = extremes.highest.as_ref().map_or(0.0, |extreme| extreme.value);
            let low = extremes.lowest.as_ref().map_or(0.0, |extreme| extreme.value);
            prop_assert!(high >= 0.0 && low <= 0.0);
            prop_assert_eq!(extremes.largest_size.value, high.max(-low));
            let near = 4.0 * solution.nothing(curve);
            for (x, side) in stations(&solution) {
                let value = solution.value(curve, x, side);
                prop_assert!(value <= high + near && value >= low - near, "{curve:?} {value} at {x}");
            }
            for (extreme, size_only) in [(extremes.highest, false), (extremes.lowest, false),
                (Some(extremes.largest_size), true)]
            {
                if let Some(extreme) = extreme {
                    reached(&solution, curve, &extreme, size_only)?;
                }
            }
        }
    }

    #[test]
    fn every_change_of_sign_has_its_zero(beam in sound_beam()) {
        let solution = solved(&beam);
        for curve in Curve::ALL {
            let zeros = solution.zeros(curve);
            // Each zero is one.
            let mut last = 0.0;
            for zero in &zeros {
                let (from, to) = match *zero {
                    Zero::At { place, .. } => {
                        let sides = match place.side {
                            Some(side) => [side, side],
                            None => [Side::Left, Side::Right],
                        };
                        // A zero nearer to a breakpoint than a rounding takes the value of the breakpoint.
                        let beside = [-2e-12, 2e-12].map(|by| {
                            solution.value(curve, place.station + by * beam.length, Side::Left)
                        });
                        for side in sides {
                            let value = solution.value(curve, place.station, side);
                            let zero = value.abs() <= 1e-9 * scale(&solution, curve);
                            prop_assert!(zero || beside[0] * beside[1] <= 0.0, "{value} {zero:?}");
                        }
                        (place.station, place.station)
                    }
                    Zero::Across { station } => {
                        let [a, b] = [Side::Left, Side::Right].map(|side| solution.value(curve, station, side));
                        prop_assert!(a * b < 0.0);
                        (station, station)
                    }
                    Zero::Over { from, to } => {
                        prop_assert!(solution.value(curve, (from + to) / 2.0, Side::Left).abs()
                            <= 4.0 * solution.nothing(curve));
                        (from, to)
                    }
                };
                prop_assert!(from >= last && to <= beam.length, "order: {zeros:?}");
                last = to;
            }
            // No change of sign without one: plain looking, well clear of rounding.
            let clear = 1e-8 * scale(&solution, curve);
            let mut before: Option<(f64, f64)> = None;
            let mut along: Vec<(f64, Side)> = stations(&solution);
            along.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
            for (x, side) in along {
                let value = solution.value(curve, x, side);
                if value.abs() <= clear {
                    continue;
                }
                if let Some((other, at)) = before.filter(|(other, _)| other * value < 0.0) {
                    let between = zeros.iter().any(|zero| match *zero {
                        Zero::At { place, .. } => place.station >= at && place.station <= x,
                        Zero::Across { station } => station >= at && station <= x,
                        Zero::Over { from, to } => from >= at && to <= x,
                    });
                    prop_assert!(between, "{curve:?}: {other} at {at}, {value} at {x}: {zeros:?}");
                }
                before = Some((value, x));
            }
        }
    }
}
