//! Mistakes in random lessons.

use crate::common::Maker;
use crate::common::random::lesson;
use mechanics::beam::Load;
use proptest::prelude::*;
use workings::evaluate::{Evaluator, Replacement};
use workings::mistake::{self, Applied};
use workings::notation::{Notation, Profile};
use workings::solved::Solved;
use workings::style::Style;
use workings::unit_system::UnitSystem;

/// A random lesson of another course, with its parts nailed to each other and perhaps of two materials.
fn nailed() -> impl Strategy<Value = Solved> {
    let styles = (0..Profile::ALL.len(), 0..UnitSystem::ALL.len());
    (lesson(), styles, any::<bool>()).prop_filter_map(
        "the lesson is sound",
        |(mut maker, (profile, units), mixed)| {
            let parts = maker.problem.parts.len();
            for held in 0..parts.saturating_sub(1) {
                maker =
                    maker.nails(&format!("nails {held}"), &[held], 1 + held as u32, Some(0.1), Some(500.0));
            }
            if mixed {
                maker.problem.parts[0].modular_ratio = 2.5;
            }
            let notation = Notation::of(Profile::ALL[profile]);
            let style = Style { notation, units: UnitSystem::ALL[units], ..Style::default() };
            Solved::new(maker.problem, style).ok()
        },
    )
}

fn solved(maker: Maker) -> Result<Solved, TestCaseError> {
    Solved::new(maker.problem, Style::default()).map_err(|faults| TestCaseError::fail(format!("{faults:?}")))
}

fn told(solved: &Solved, made: &Applied) -> String {
    format!("{} at {}", made.id(), solved.workings().working(made.working()).name)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, failure_persistence: None, ..ProptestConfig::default() })]

    /// Every mistake gives a number where it is made, changes what it says it changes and nothing else.
    #[test]
    fn every_mistake_can_be_evaluated(solved in nailed()) {
        let workings = solved.workings();
        let mut evaluator = Evaluator::new(workings);
        for made in mistake::all(&solved) {
            let prepared = made.prepare(&solved);
            prop_assert!(prepared.is_ok(), "{}: {:?}", told(&solved, &made), prepared.err());
            let values = evaluator.run(&prepared.expect("just looked at")).to_vec();
            prop_assert!(values[made.working().0 as usize].is_finite(), "{}", told(&solved, &made));
            for (id, working) in workings.in_order() {
                let same = values[id.0 as usize] == working.value.value;
                prop_assert!(same || made.changes(&solved, id), "{} changes {}", told(&solved, &made), working.name);
            }
        }
    }

    /// Follow-through: a student's own I, twice the right one, halves every wrong stress that is made from the right I.
    #[test]
    fn a_students_own_value_is_followed_through(maker in lesson()) {
        let solved = solved(maker)?;
        let key = solved.key();
        // Where the reactions depend on I, another V goes with it.
        let reached = solved.workings().downstream(&[key.second_moment]);
        prop_assume!(!reached[key.shear.0 as usize]);
        let own = [(key.second_moment, Replacement::Value(2.0 * solved.value(key.second_moment)))];
        let stress = key.stress_on_cut;
        let kept = ["m-for-v", "t-forgotten", "bracket-slip", "q-to-the-cut", "q-of-the-whole-area", "v-sign"];
        for made in mistake::all(&solved) {
            if !kept.contains(&made.id()) || !made.changes(&solved, stress) {
                continue;
            }
            let alone = made.value(&solved, stress).expect("it can be evaluated");
            let both = made.value_with(&solved, &own, stress).expect("it can be evaluated");
            prop_assert!((both - alone / 2.0).abs() <= 1e-12 * alone.abs(), "{}", told(&solved, &made));
        }
    }

    /// A beam under twice the loads: every wrong force is twice as large, and the same mistakes can be made.
    #[test]
    fn twice_the_loads_is_twice_the_wrong_force(maker in lesson()) {
        let unmoved = maker.problem.beam.supports.iter().all(|support| {
            !matches!(support.transverse, mechanics::beam::Hold::Rigid { moved } if moved != 0.0)
        });
        prop_assume!(unmoved);
        let mut twice = maker.problem.clone();
        for load in &mut twice.beam.loads {
            match load {
                Load::Force { down: size, .. } | Load::Couple { ccw: size, .. } => *size *= 2.0,
                Load::Spread { down_from, down_to, .. } => {
                    *down_from *= 2.0;
                    *down_to *= 2.0;
                }
            }
        }
        let (one, two) = (solved(maker)?, Solved::new(twice, Style::default()).expect("as sound as the first"));
        let (mistakes, same) = (mistake::all(&one), mistake::all(&two));
        prop_assert_eq!(mistakes.len(), same.len());
        let scale = one.beam().reactions().iter().fold(1e3, |most: f64, r| most.max(r.force.abs()).max(r.couple.abs()));
        for (made, again) in mistakes.iter().zip(&same) {
            prop_assert_eq!(made.id(), again.id());
            let shear = made.value(&one, one.key().shear).expect("it can be evaluated");
            let doubled = again.value(&two, two.key().shear).expect("it can be evaluated");
            prop_assert!((doubled - 2.0 * shear).abs() <= 1e-8 * scale, "{}: {shear} {doubled}", told(&one, made));
        }
    }
}
