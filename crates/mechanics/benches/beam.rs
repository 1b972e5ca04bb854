//! What somebody waits for when a beam is solved: `cargo bench -p mechanics --bench beam`.

use divan::{Bencher, black_box};
use mechanics::beam::{Beam, Curve, Load, Support};

fn main() {
    divan::main();
}

/// Twelve loads of every kind on a beam with two overhangs: the case `crowded-overhangs` of the reference beams.
fn crowded() -> Beam {
    let force = |station, down| Load::Force { station, down };
    let couple = |station, ccw| Load::Couple { station, ccw };
    let spread = |from, to, down_from, down_to| Load::Spread { from, to, down_from, down_to };
    Beam {
        length: 10.0,
        flexural_rigidity: 16.8e6,
        supports: vec![Support::pin(1.5), Support::pin(7.5)],
        hinges: vec![],
        loads: vec![
            force(0.0, 4.0e3),
            couple(0.5, 1.5e3),
            spread(0.0, 2.25, 2.0e3, 5.0e3),
            force(3.0, 12.5e3),
            spread(2.0, 6.0, 3.0e3, 3.0e3),
            couple(4.2, -7.8e3),
            force(5.1, -3.3e3),
            spread(5.0, 9.0, 0.0, 6.4e3),
            spread(6.5, 10.0, 2.4e3, 0.0),
            force(8.75, 5.2e3),
            couple(10.0, 2.1e3),
            force(10.0, 1.75e3),
        ],
    }
}

/// Reactions, V, M, slope and deflection.
#[divan::bench]
fn crowded_beam_solved(bencher: Bencher) {
    let beam = crowded();
    bencher.bench_local(|| black_box(&beam).solve().expect("a sound beam"));
}

/// The same with the extremes of V, M and deflection and everywhere they are reached.
#[divan::bench]
fn crowded_beam_with_extremes(bencher: Bencher) {
    let beam = crowded();
    bencher.bench_local(|| {
        let solution = black_box(&beam).solve().expect("a sound beam");
        let extremes =
            [Curve::Shear, Curve::BendingMoment, Curve::Deflection].map(|curve| solution.extremes(curve));
        (solution, extremes)
    });
}

/// With everything else that a sheet asks: zeros, contraflexures, balances.
#[divan::bench]
fn crowded_beam_with_zeros_and_balances(bencher: Bencher) {
    let beam = crowded();
    bencher.bench_local(|| {
        let solution = black_box(&beam).solve().expect("a sound beam");
        let zeros = [Curve::Shear, Curve::BendingMoment].map(|curve| solution.zeros(curve));
        let balances = solution.balances(&beam);
        (solution, zeros, balances)
    });
}

/// Time for one load must not grow with their number.
#[divan::bench(args = [10, 100, 1_000, 10_000])]
fn solved_with_extremes_under_loads(bencher: Bencher, loads: usize) {
    let beam = loaded(loads);
    bencher.counter(divan::counter::ItemsCount::new(loads)).bench_local(|| {
        let solution = black_box(&beam).solve().expect("a sound beam");
        let extremes =
            [Curve::Shear, Curve::BendingMoment, Curve::Deflection].map(|curve| solution.extremes(curve));
        (solution, extremes)
    });
}

/// Three spans under loads of every kind in no order.
fn loaded(loads: usize) -> Beam {
    // Multiples of the golden ratio, less their whole part, are spread evenly and out of order.
    let share = |k: usize| (k as f64 * 0.618_033_988_749_895).fract();
    let load = |k: usize| {
        let at = 18.0 * share(k);
        match k % 3 {
            0 => Load::Force { station: at, down: 1.0e3 * share(k + 7) },
            1 => Load::Couple { station: at, ccw: 1.0e3 * (share(k + 3) - 0.5) },
            _ => Load::Spread {
                from: at.min(17.0),
                to: at.min(17.0) + share(k + 5),
                down_from: 1.0e3 * share(k + 1),
                down_to: 1.0e3 * share(k + 2),
            },
        }
    };
    Beam {
        length: 18.0,
        flexural_rigidity: 16.8e6,
        supports: [0.0, 6.0, 12.0, 18.0].map(Support::pin).to_vec(),
        hinges: vec![],
        loads: (1..=loads).map(load).collect(),
    }
}

/// Forty spans with a hinge in every other one: the equations stay a band.
#[divan::bench]
fn forty_spans(bencher: Bencher) {
    let beam = Beam {
        length: 240.0,
        flexural_rigidity: 16.8e6,
        supports: (0..=40).map(|k| Support::pin(6.0 * f64::from(k))).collect(),
        hinges: (0..20).map(|k| 12.0 * f64::from(k) + 5.0).collect(),
        loads: vec![Load::Spread { from: 0.0, to: 240.0, down_from: 5.0e3, down_to: 5.0e3 }],
    };
    bencher.bench_local(|| black_box(&beam).solve().expect("a sound beam"));
}
