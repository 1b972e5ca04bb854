//! What the beam may carry, against closed formulas of the textbooks for one beam and against superposition for others.

mod common;

use common::{Maker, rectangle, tee};
use mechanics::beam::Load;
use workings::problem::{Allowable, Joint, JointKind, Problem};
use workings::solved::Solved;
use workings::style::Style;

fn solved(problem: Problem) -> Solved {
    Solved::new(problem, Style::default()).expect("a sound lesson")
}

fn value(solved: &Solved, name: &str) -> f64 {
    let working = solved.workings().get(name).unwrap_or_else(|| panic!("no working {name}"));
    working.value.value
}

fn close(found: f64, exact: f64) {
    assert!((found - exact).abs() <= 1e-9 * exact.abs(), "{found} where {exact} is exact");
}

const TIMBER: Allowable =
    Allowable { bending: Some(10e6), tension: None, compression: None, shear: Some(1e6) };

/// A rectangle b h on two supports L apart, a force in the middle: by bending P = 4 sigma S / L with S = b h^2 / 6, by shear
/// P = 4 tau b h / 3, since V = P / 2 and the largest tau is 3 V / (2 b h) (any textbook of mechanics of materials; from memory).
/// The two meet where L / h = sigma / (2 tau): here at L = 5 h.
#[test]
fn a_force_in_the_middle_of_a_rectangle() {
    let (b, h) = (0.1, 0.2);
    for (length, governs) in [(0.8, "shear stress"), (2.0, "tension")] {
        let mut problem = Maker::new(length, vec![("plank", rectangle(0.0, 0.0, b, h))])
            .pin("A", 0.0)
            .pin("B", length)
            .force("P", length / 2.0, 3e3)
            .problem;
        problem.allowable = TIMBER;
        let solved = solved(problem);
        let by_bending = 4.0 * 10e6 * b * h * h / 6.0 / length;
        let by_shear = 4.0 * 1e6 * b * h / 3.0;
        close(value(&solved, "largest force P"), by_bending.min(by_shear));
        close(value(&solved, "load factor for tension"), by_bending / 3e3);
        close(value(&solved, "load factor for compression"), by_bending / 3e3);
        close(value(&solved, "load factor for shear stress"), by_shear / 3e3);
        let sentence = &solved.workings().get("largest load factor").expect("it is there").sentence;
        assert!(sentence.contains(&format!("the {governs} governs")), "{sentence}");
        assert!(sentence.contains("licensed engineer"), "{sentence}");
    }
}

/// The same under a uniform load: w = 8 sigma S / L^2 by bending, w = 4 tau b h / (3 L) by shear.
#[test]
fn a_uniform_load_on_a_rectangle() {
    let (b, h) = (0.1, 0.2);
    for length in [1.0, 4.0] {
        let load = Load::Spread { from: 0.0, to: length, down_from: 2e3, down_to: 2e3 };
        let mut problem = Maker::new(length, vec![("plank", rectangle(0.0, 0.0, b, h))])
            .pin("A", 0.0)
            .pin("B", length)
            .load("w", load)
            .problem;
        problem.allowable = TIMBER;
        let by_bending = 8.0 * 10e6 * b * h * h / 6.0 / (length * length);
        let by_shear = 4.0 * 1e6 * b * h / (3.0 * length);
        close(value(&solved(problem), "largest spread load w"), by_bending.min(by_shear));
    }
}

/// A T under several loads, with other limits for tension and compression and nails in its joint: grown by the factor, it
/// reaches one of its limits and exceeds none (superposition).
#[test]
fn loads_grown_by_the_factor_reach_one_limit_and_exceed_none() {
    for nails in [200.0, 20e3] {
        let mut problem = Maker::new(4.0, tee((0.12, 0.03), (0.02, 0.12)))
            .pin("A", 0.0)
            .pin("B", 3.0)
            .force("P", 1.0, 4e3)
            .force("F", 4.0, 1e3)
            .couple("C", 2.0, 500.0)
            .load("w", Load::Spread { from: 0.0, to: 3.0, down_from: 1e3, down_to: 2e3 })
            .problem;
        problem.allowable =
            Allowable { bending: None, tension: Some(4e6), compression: Some(20e6), shear: Some(3e6) };
        problem.joints = vec![Joint {
            name: "nails".into(),
            kind: JointKind::Fasteners,
            beyond: vec![0],
            rows: 2,
            spacing: Some(0.05),
            fastener_capacity: Some(nails),
        }];
        let before = solved(problem.clone());
        let factor = value(&before, "largest load factor");
        for load in &mut problem.beam.loads {
            match load {
                Load::Force { down, .. } => *down *= factor,
                Load::Couple { ccw, .. } => *ccw *= factor,
                Load::Spread { down_from, down_to, .. } => {
                    *down_from *= factor;
                    *down_to *= factor;
                }
            }
        }
        let grown = solved(problem.clone());
        let reached = [
            value(&grown, "largest tension along the beam") / 4e6,
            value(&grown, "largest compression along the beam").abs() / 20e6,
            value(&grown, "largest shear stress along the beam").abs() / 3e6,
            value(&grown, "force on one fastener of nails, where V is largest").abs() / nails,
        ];
        close(reached.into_iter().fold(0.0, f64::max), 1.0);
        close(value(&grown, "largest load factor"), 1.0);
        // Each load, as large as it may be.
        close(value(&before, "largest force F"), value(&grown, "force F"));
        close(value(&before, "largest couple C"), value(&grown, "couple C"));
        close(
            value(&before, "largest spread load w at its end"),
            value(&grown, "intensity of spread load w at its end"),
        );
    }
}

#[test]
fn what_does_not_grow_with_the_loads_has_no_load_factor() {
    let mut problem = Maker::new(2.0, vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))])
        .pin("A", 0.0)
        .pin("M", 1.0)
        .settled("B", 2.0, 0.001)
        .force("P", 0.5, 3e3)
        .problem;
    problem.allowable = TIMBER;
    assert!(solved(problem).workings().get("largest load factor").is_none());
}
