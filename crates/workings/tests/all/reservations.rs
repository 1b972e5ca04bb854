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
