//! What a search for round numbers and a class of papers wait for: the graph built, and evaluated again and again.

#[allow(dead_code, reason = "the tests take the rest")]
#[path = "../tests/all/common/mod.rs"]
mod common;

use common::{Maker, reference};
use divan::{Bencher, black_box};
use mechanics::section::{HeightSide, shapes};
use workings::evaluate::{Evaluator, Replacement};
use workings::solved::Solved;
use workings::style::Style;

fn main() {
    divan::main();
}

/// A dozen loads of all kinds on an I over two spans and an overhang.
fn crowded() -> Maker {
    let shape = shapes::i_section(0.3, (0.15, 0.012), (0.15, 0.012), 0.008).expect("a sound I");
    let mut maker = Maker::new(12.0, shape.part_names.iter().copied().zip(shape.parts).collect())
        .pin("A", 0.0)
        .pin("B", 5.0)
        .pin("C", 10.0)
        .slice(3.0, 0.05)
        .cut(0.288, HeightSide::Below, HeightSide::Above);
    for place in 0..4 {
        let x = f64::from(place) * 2.5;
        maker = maker
            .force(&format!("P{place}"), x + 1.0, 4e3)
            .spread(&format!("w{place}"), x, x + 2.0, 2e3)
            .couple(&format!("M{place}"), x + 1.5, 1e3);
    }
    maker
}

#[divan::bench]
fn solve_the_reference_lesson(bencher: Bencher) {
    let problem = reference().problem;
    bencher.bench(|| Solved::new(black_box(problem.clone()), Style::default()));
}

#[divan::bench]
fn solve_the_crowded_beam(bencher: Bencher) {
    let problem = crowded().problem;
    bencher.bench(|| Solved::new(black_box(problem.clone()), Style::default()));
}

/// One evaluation of a search: other loads, other dimensions, all that follows.
#[divan::bench]
fn evaluate_with_other_numbers(bencher: Bencher) {
    let solved = reference().solved();
    let workings = solved.workings();
    let names = ["force P", "intensity of spread load w", "breadth of flange", "height of web"];
    let ids = names.map(|name| workings.id(name).expect("given"));
    let given = ids.map(|id| (id, Replacement::Value(solved.value(id))));
    let mut prepared = workings.prepare(&given).expect("values can be put in");
    let mut evaluator = Evaluator::new(workings);
    let mut factor = 1.0;
    bencher.bench_local(|| {
        factor = if factor > 2.0 { 1.0 } else { factor + 1e-6 };
        for id in ids {
            prepared.set(id, factor * solved.value(id));
        }
        evaluator.run(black_box(&prepared))[workings.len() - 1]
    });
}

/// A mistake in the last step: only what follows is evaluated.
#[divan::bench]
fn evaluate_a_mistake_in_q(bencher: Bencher) {
    let solved = reference().solved();
    let workings = solved.workings();
    let q = workings.id("first moment at the cut").expect("Q");
    let axis = workings.id("first moment at the neutral axis").expect("Q at the axis");
    let prepared = workings.prepare(&[(q, Replacement::Expression(axis.into()))]).expect("of one dimension");
    let mut evaluator = Evaluator::new(workings);
    bencher.bench_local(|| evaluator.run(black_box(&prepared))[q.0 as usize]);
}
