//! What a lesson is told that the formula leaves out, and what hangs on the lesson in it.

use crate::common::{Maker, assert_close, rectangle, reference, value};
use workings::reservation::{Reservation, Topic, reservations};
use workings::solved::Solved;

fn about(solved: &Solved, topic: Topic) -> Reservation {
    reservations(solved).into_iter().find(|one| one.topic == topic).expect("every lesson is told of it")
}

/// Closed form: every cut bears a mean, every beam has supports. The slice of the reference lesson stands 0.25 m from P, 5/3 of
/// its depth of 0.15 m; from 0.1 m on it stands less than a depth from A.
#[test]
fn a_mean_over_the_width_and_supports_are_met_by_every_lesson() {
    let solved = reference().solved();
    assert!(about(&solved, Topic::AverageOverWidth).here);
    let near = about(&solved, Topic::NearForces);
    assert!(near.here && near.sentence.contains("1.7 depths from the nearest, out of its reach"), "{near:?}");
    let near = about(&reference().slice(0.1, 0.05).solved(), Topic::NearForces);
    assert!(near.here && near.sentence.contains("only 0.7 depths from one"), "{near:?}");
    assert!(!about(&solved, Topic::ShortBeam).here);
}

/// Closed form: a cantilever of length L slopes by F L² / (2 E I) at its end. Of 4 m, 100 mm wide and 200 mm deep, of 10 GPa, it slopes by
/// 0.012 under 1 kN, and by a hundred times as much where the modulus lacks two noughts.
#[test]
fn a_beam_that_bends_too_far_for_the_theory_is_told_of() {
    let of = |modulus: f64| {
        let parts = vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))];
        let mut maker = Maker::new(4.0, parts).fixed("A", 0.0).force("P", 4.0, 1e3);
        maker.problem.elastic_modulus = modulus;
        maker.problem.beam.flexural_rigidity = modulus * 0.1 * 0.2_f64.powi(3) / 12.0;
        maker.solved()
    };
    let usual = reservations(&of(10e9));
    assert!(usual.iter().all(|one| one.topic != Topic::LargeSlope));
    let steep = about(&of(100e6), Topic::LargeSlope);
    assert!(steep.here && steep.sentence.contains("comes to 1.200\u{a0}rad"), "{steep:?}");
}

/// Closed form: with S = I/c of the transformed section the stress at a fibre is n M/S. A plate of five times the modulus under a
/// plank.
#[test]
fn the_section_modulus_of_a_transformed_section_wants_the_modular_ratio() {
    let mut plate = rectangle(0.0, 0.0, 0.1, 0.01);
    plate.modular_ratio = 5.0;
    let of = |parts| Maker::new(4.0, parts).pin("A", 0.0).pin("B", 4.0).force("P", 2.0, 4e3).solved();
    let two = of(vec![("plate", plate), ("plank", rectangle(0.0, 0.01, 0.1, 0.2))]);
    let stress = 5.0 * 4e3 / value(&two, "section modulus of the bottom fibre");
    assert_close("n M/S", value(&two, "largest tension along the beam"), stress);
    let says = |solved: &Solved| {
        let id = solved.workings().id("section modulus of the bottom fibre").expect("a working");
        solved.workings().working(id).sentence.clone()
    };
    assert!(says(&two).contains("times the modular ratio"), "{}", says(&two));
    assert!(!says(&of(vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))])).contains("modular ratio"));
}
