//! What somebody waits for in the elastic solution: meshing, solving, and the largest stress with its place.

use mechanics::elastic::{Effort, ElasticShear};
use mechanics::section::catalogue::profile;
use mechanics::section::{HeightSide, Part, Point, Section, shapes};

fn main() {
    divan::main();
}

fn sound(parts: Vec<Part>) -> Section {
    Section::new(parts).expect("the section is sound")
}

/// From the outline to the largest stress.
fn largest(section: &Section) -> f64 {
    let elastic = ElasticShear::new(section, 0.3, Effort::usual()).expect("it is solvable");
    elastic.under_level_bending(1.0).largest().map_or(0.0, |largest| largest.value)
}

/// With root fillets, so that it has a largest stress.
#[divan::bench]
fn largest_stress_of_an_ipe_300(bencher: divan::Bencher<'_, '_>) {
    let shape = profile("IPE 300").and_then(|profile| profile.shape().ok()).expect("the catalogue holds it");
    let section = sound(shape.parts);
    bencher.bench_local(|| largest(&section));
}

/// With sharp corners, round which a quarter of the web's thickness is left out.
#[divan::bench]
fn largest_stress_of_a_sharp_i(bencher: divan::Bencher<'_, '_>) {
    let shape = shapes::i_section(0.2, (0.12, 0.016), (0.12, 0.016), 0.012).expect("it fits together");
    let section = sound(shape.parts);
    bencher.bench_local(|| largest(&section));
}

#[divan::bench]
fn largest_stress_of_three_planks_of_two_materials(bencher: divan::Bencher<'_, '_>) {
    let plank = |y: f64, ratio: f64| Part::rectangle(Point::new(0.0, y), 0.1, 0.04).with_modular_ratio(ratio);
    let section = sound(vec![plank(0.0, 2.0), plank(0.04, 1.0), plank(0.08, 2.0)]);
    bencher.bench_local(|| largest(&section));
}

/// One frame: the section is solved, the cut moves.
#[divan::bench]
fn drag_the_cut_of_a_solved_ipe_300(bencher: divan::Bencher<'_, '_>) {
    let shape = profile("IPE 300").and_then(|profile| profile.shape().ok()).expect("the catalogue holds it");
    let elastic = ElasticShear::new(&sound(shape.parts), 0.3, Effort::usual()).expect("it is solvable");
    let field = elastic.under_level_bending(1.0);
    bencher.bench_local(|| field.across(divan::black_box(0.0311), HeightSide::Above));
}

/// The worst that is solved: a tube whose wall is a five-hundredth of its diameter.
#[divan::bench(sample_count = 3)]
fn largest_stress_of_a_very_thin_tube(bencher: divan::Bencher<'_, '_>) {
    let section = sound(shapes::round_tube(0.5, 0.001).expect("it fits together").parts);
    bencher.bench_local(|| largest(&section));
}
