//! The finite slice: its balances, and how it tends to `V Q / (I t)`.

use mechanics::beam::{Beam, Load, Support};
use mechanics::section::{CutFault, HeightSide, Section, shapes};
use mechanics::slice::{Slice, SliceFault, SliceGivens};
use proptest::prelude::*;

fn beam() -> mechanics::beam::Solution {
    Beam {
        length: 4.0,
        flexural_rigidity: 2.0e6,
        supports: vec![Support::pin(0.5), Support::pin(3.5)],
        hinges: Vec::new(),
        loads: vec![
            Load::Spread { from: 0.0, to: 3.0, down_from: 2.0e3, down_to: 6.0e3 },
            Load::Force { station: 1.7, down: 5.0e3 },
            Load::Couple { station: 2.6, ccw: 1.5e3 },
        ],
    }
    .solve()
    .unwrap_or_else(|faults| panic!("{faults:?}"))
}

fn tee() -> Section {
    let shape = shapes::tee(0.12, 0.02, 0.02, 0.12, true).expect("the T fits together");
    Section::new(shape.parts).expect("the T is sound")
}

#[test]
fn the_mean_stress_tends_to_the_formula_in_proportion_to_the_length() {
    // With dV/dx = -w the mean over dx is V Q / (I t) less w dx / 2 over V of it: the error halves with dx.
    let (solution, section) = (beam(), tee());
    let error = |length: f64| {
        let givens = SliceGivens::from_beam(&solution, 0.8, length).expect("it lies on the beam");
        let slice = Slice::new(&section, givens, 0.1, HeightSide::Above).expect("the cut meets");
        slice.mean_shear_stress(HeightSide::Below) - slice.formula_shear_stress_left(HeightSide::Below)
    };
    let mut length = 0.1;
    let mut before = error(length);
    for _ in 0..8 {
        length *= 0.5;
        let now = error(length);
        assert!((before / now - 2.0).abs() < 0.05, "{before} then {now}");
        before = now;
    }
}

#[test]
fn the_force_on_the_cut_is_the_stress_times_the_cut() {
    let givens = SliceGivens::from_moments(3000.0, 2400.0, 0.04);
    for beyond in [HeightSide::Below, HeightSide::Above] {
        let slice = Slice::new(&tee(), givens, 0.1, beyond).expect("the cut meets");
        for side in [HeightSide::Below, HeightSide::Above] {
            let force = slice.mean_shear_stress(side) * slice.cut.width(side) * 0.04;
            assert!((force.abs() - slice.force_on_cut.abs()).abs() < 1e-9 * force.abs());
            assert!(force < 0.0, "the moment falls, so the stress has the sign of a negative shear force");
        }
    }
}

#[test]
fn slices_that_cannot_be_are_refused() {
    let (solution, section) = (beam(), tee());
    assert_eq!(
        SliceGivens::from_beam(&solution, 3.9, 0.2).err(),
        Some(SliceFault::OffTheBeam { from: 3.9, to: 3.9 + 0.2, beam: 4.0 })
    );
    assert!(matches!(SliceGivens::from_beam(&solution, -0.1, 0.2), Err(SliceFault::OffTheBeam { .. })));
    assert_eq!(SliceGivens::from_beam(&solution, 1.0, 0.0).err(), Some(SliceFault::Value { length: 0.0 }));
    let no_length = Slice::new(&section, SliceGivens::from_moments(1.0, 2.0, 0.0), 0.1, HeightSide::Above);
    assert_eq!(no_length.err(), Some(SliceFault::Value { length: 0.0 }));
    let off = Slice::new(&section, SliceGivens::from_moments(1.0, 2.0, 0.1), 0.5, HeightSide::Above);
    assert!(matches!(off.err(), Some(SliceFault::Cut(CutFault::MissesSection { .. }))));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_slice_of_the_beam_is_in_balance(
        station in 0.0..3.9f64, part in 0.001..1.0f64, height in 0.0..0.12f64, above in prop::bool::ANY,
    ) {
        let solution = beam();
        let length = part * (4.0 - station);
        let givens = SliceGivens::from_beam(&solution, station, length).expect("it lies on the beam");
        let beyond = if above { HeightSide::Above } else { HeightSide::Below };
        let slice = Slice::new(&tee(), givens, height, beyond).expect("the cut meets");
        for (balance, residual) in slice.balances() {
            // A face at which the moment is nothing but rounding has no scale of its own.
            let scale = residual.scale.max(1e-3);
            prop_assert!(residual.value.abs() <= 1e-9 * scale, "{balance:?} {residual:?}");
        }
        let outer = slice.cut.first_moment.abs() < 1e-15;
        let lever = slice.left.beyond.height - slice.left.rest.height;
        prop_assert!(outer || (lever > 0.0) == above);
    }
}
