//! What somebody waits for in a section: reading it, cutting it, drawing its stresses.

use core::f64::consts::PI;
use mechanics::real;
use mechanics::section::catalogue::profile;
use mechanics::section::{HeightSide, Loop, Part, Point, Section, shapes};
use mechanics::stress::StressOverDepth;

fn main() {
    divan::main();
}

/// A polygon of so many corners, none at the height of another.
fn polygon(corners: u32) -> Vec<Part> {
    let corner = |index: u32| {
        let angle = 2.0 * PI * (f64::from(index) + 0.3) / f64::from(corners);
        let radius = if index.is_multiple_of(2) { 0.1 } else { 0.07 };
        Point::new(radius * real::cos(angle), radius * real::sin(angle))
    };
    let corners: Vec<Point> = (0..corners).map(corner).collect();
    vec![Part::of_outline(Loop::polygon(&corners), Vec::new())]
}

fn ipe_300() -> Vec<Part> {
    let shape = profile("IPE 300").and_then(|profile| profile.shape().ok());
    shape.expect("the catalogue holds it").parts
}

/// Checked, integrated, and cut at a height: all that a value of tau needs.
fn properties_and_cut(parts: Vec<Part>) -> f64 {
    let section = Section::new(parts).expect("the section is sound");
    let cut = section.level_cut(0.031, HeightSide::Above).expect("the cut meets");
    cut.first_moment / (section.properties().second_moment * cut.width_above)
}

#[divan::bench(args = [50, 500, 5000])]
fn properties_and_cut_of_a_polygon(bencher: divan::Bencher<'_, '_>, corners: u32) {
    bencher.with_inputs(|| polygon(corners)).bench_values(properties_and_cut);
}

#[divan::bench]
fn properties_and_cut_of_an_ipe_300(bencher: divan::Bencher<'_, '_>) {
    bencher.with_inputs(ipe_300).bench_values(properties_and_cut);
}

/// One frame of the board: the section stands, the cut moves.
#[divan::bench]
fn drag_the_cut_of_an_ipe_300(bencher: divan::Bencher<'_, '_>) {
    let section = Section::new(ipe_300()).expect("the section is sound");
    bencher.bench_local(|| {
        let cut = section.level_cut(divan::black_box(0.0311), HeightSide::Above).expect("the cut meets");
        cut.first_moment / cut.width_above
    });
}

#[divan::bench]
fn largest_shear_stress_of_an_ipe_300(bencher: divan::Bencher<'_, '_>) {
    let section = Section::new(ipe_300()).expect("the section is sound");
    bencher.bench_local(|| StressOverDepth::new(&section, 0.0, divan::black_box(1.0)).largest_shear_stress());
}

#[divan::bench]
fn self_checks_of_a_box(bencher: divan::Bencher<'_, '_>) {
    let shape = shapes::box_girder(0.16, 0.2, 0.02, 0.03, 0.03).expect("the box fits together");
    let section = Section::new(shape.parts).expect("the section is sound");
    bencher.bench_local(|| StressOverDepth::new(&section, 1.0, divan::black_box(1.0)).checks());
}
