//! Awkward sizes: arcs that are nearly straight, walls that are nearly nothing, millimetres and kilometres, outlines far
//! from the origin.

use core::f64::consts::PI;
use mechanics::section::{Edge, HeightSide, Loop, Part, Point, Section, shapes};
use mechanics::stress::StressOverDepth;

fn section(parts: Vec<Part>) -> Section {
    Section::new(parts).unwrap_or_else(|faults| panic!("{faults:?}"))
}

#[track_caller]
fn within(found: f64, wanted: f64, part: f64) {
    assert!((found - wanted).abs() <= part * wanted.abs(), "found {found}, wanted {wanted}");
}

/// A segment of a circle on a chord of 1 m. Closed form: area `R² (a - sin a cos a)` and its moments about the chord,
/// evaluated to 50 digits (mpmath), for radii of ten and a thousand times the chord.
#[test]
fn a_flat_arc_keeps_its_digits() {
    for (radius, area, centroid, second_moment) in [
        (10.0, 0.008_339_591_717_456_737, 0.005_003_397_201_798_194, 8.946_712_088_670_439e-8),
        (1000.0, 0.000_083_333_339_583_334_17, 0.000_050_000_003_392_857_58, 8.928_573_239_088_656e-14),
    ] {
        let depth: f64 = (radius - 0.5) * (radius + 0.5);
        let centre = Point::new(0.0, -depth.sqrt());
        let arc = Edge::Arc { to: Point::new(-0.5, 0.0), centre, counter_clockwise: true };
        let outline = Loop { start: Point::new(0.5, 0.0), path: vec![arc] };
        let section = section(vec![Part::of_outline(outline, Vec::new())]);
        let own = section.properties();
        // The centre is given to 1e-16 of the radius: of the height of a segment 1e4 times less that is 1e-9.
        let part = 1e-13 * (radius / own.height());
        within(own.area, area, part);
        within(own.centroid.y, centroid, part);
        within(own.second_moment, second_moment, part);
        for (check, residual) in StressOverDepth::new(&section, 1.0, 1.0).checks() {
            assert!(residual.value.abs() <= 1e-8 * residual.scale, "{radius}: {check:?} {residual:?}");
        }
    }
}

#[test]
fn a_wall_of_a_millionth_of_the_diameter_keeps_its_digits() {
    let (diameter, wall) = (2.0_f64, 2e-6);
    let section = section(shapes::round_tube(diameter, wall).expect("it fits").parts);
    // (D⁴ - d⁴) / 64 without the cancellation: pi (D² + d²) (D + d) (D - d) / 64.
    let inner = diameter - 2.0 * wall;
    let wanted = PI / 64.0 * (diameter * diameter + inner * inner) * (diameter + inner) * (2.0 * wall);
    within(section.properties().second_moment, wanted, 1e-8);
    let largest = StressOverDepth::new(&section, 0.0, 1.0).largest_shear_stress();
    // The thin tube: twice the mean.
    within(largest.value, 2.0 * largest.mean, 1e-5);
    assert!(largest.at_neutral_axis);
}

#[test]
fn millimetres_and_kilometres_give_the_same_figures() {
    let of_size = |k: f64| {
        let shape = shapes::rolled_i(300.0 * k, 150.0 * k, 7.1 * k, 10.7 * k, 15.0 * k).expect("it fits");
        let section = section(shape.parts);
        let cut = section.level_cut(200.0 * k, HeightSide::Above).expect("it meets");
        (section.properties().second_moment / k.powi(4), cut.first_moment / k.powi(3), cut.width_above / k)
    };
    let (i, q, t) = of_size(1e-3);
    for k in [1e-9, 1e-6, 1.0, 1e3, 1e6] {
        let (other_i, other_q, other_t) = of_size(k);
        within(other_i, i, 1e-12);
        within(other_q, q, 1e-12);
        within(other_t, t, 1e-12);
    }
}

#[test]
fn an_outline_far_from_the_origin_loses_only_what_its_coordinates_lose() {
    // 100 x 200 mm drawn 1 km away, in binary fractions that the shift does not round.
    let (breadth, height) = (0.125, 0.25);
    let part = Part::rectangle(Point::new(1024.0, -4096.0), breadth, height);
    let section = section(vec![part]);
    let own = section.properties();
    within(own.second_moment, breadth * height.powi(3) / 12.0, 1e-14);
    within(own.centroid.y, -4096.0 + 0.125, 1e-15);
    let cut = section.level_cut(-4096.0 + 0.1875, HeightSide::Above).expect("it meets");
    within(cut.first_moment, breadth * 0.0625 * 0.09375, 1e-13);
}
