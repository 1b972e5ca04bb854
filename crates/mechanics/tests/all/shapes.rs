//! The shapes against the closed formulas of the handbooks (Roark's Formulas for Stress and Strain, properties of plane
//! areas; from memory, each is an elementary integral).

use core::f64::consts::PI;
use mechanics::section::shapes::{self, Shape};
use mechanics::section::{Fault, Point, Section};

fn section(shape: Result<Shape, Vec<Fault>>) -> Section {
    let shape = shape.unwrap_or_else(|faults| panic!("{faults:?}"));
    assert_eq!(shape.parts.len(), shape.part_names.len(), "{}", shape.name);
    Section::new(shape.parts).unwrap_or_else(|faults| panic!("{faults:?}"))
}

#[track_caller]
fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() <= 1e-12 * wanted.abs().max(1e-9), "found {found}, wanted {wanted}");
}

#[test]
fn rectangle() {
    let (b, h) = (0.12, 0.25);
    let section = section(shapes::rectangle(b, h));
    let own = section.properties();
    near(own.area, b * h);
    near(own.second_moment, b * h.powi(3) / 12.0);
    near(own.second_moment_upright, h * b.powi(3) / 12.0);
    near(own.section_modulus_top, b * h * h / 6.0);
    near(own.radius_of_gyration, h / 12.0_f64.sqrt());
}

#[test]
fn circle_and_round_tube() {
    let (d, wall) = (0.08, 0.006);
    let solid = section(shapes::circle(d));
    near(solid.properties().area, PI * d * d / 4.0);
    near(solid.properties().second_moment, PI * d.powi(4) / 64.0);
    near(solid.properties().centroid.y, d / 2.0);
    near(solid.properties().principal.largest, solid.properties().principal.smallest);
    let inner = d - 2.0 * wall;
    let tube = section(shapes::round_tube(d, wall));
    near(tube.properties().area, PI * (d * d - inner * inner) / 4.0);
    near(tube.properties().second_moment, PI * (d.powi(4) - inner.powi(4)) / 64.0);
}

#[test]
fn half_circle_with_its_round_side_above_and_below() {
    let r = 0.05_f64;
    for above in [true, false] {
        let section = section(shapes::half_circle(2.0 * r, above));
        let own = section.properties();
        near(own.area, PI * r * r / 2.0);
        let off = 4.0 * r / (3.0 * PI);
        near(own.centroid.y, if above { off } else { r - off });
        near(own.second_moment, r.powi(4) * (PI / 8.0 - 8.0 / (9.0 * PI)));
        near(own.second_moment_upright, PI * r.powi(4) / 8.0);
    }
}

#[test]
fn triangle_whatever_its_apex() {
    let (b, h) = (0.09, 0.15);
    for apex in [-0.05, 0.0, 0.045, 0.09, 0.2] {
        for above in [true, false] {
            let section = section(shapes::triangle(b, h, apex, above));
            let own = section.properties();
            near(own.area, b * h / 2.0);
            near(own.centroid.y, if above { h / 3.0 } else { 2.0 * h / 3.0 });
            near(own.centroid.x, (b + apex) / 3.0);
            near(own.second_moment, b * h.powi(3) / 36.0);
            near(own.second_moment_upright, b * h * (b * b - b * apex + apex * apex) / 36.0);
        }
    }
}

#[test]
fn trapezoid() {
    let (a, b, h) = (0.2, 0.12, 0.1); // below, above
    let section = section(shapes::trapezoid(a, b, h, 0.5 * (a - b)));
    let own = section.properties();
    near(own.area, h * (a + b) / 2.0);
    near(own.centroid.y, h * (a + 2.0 * b) / (3.0 * (a + b)));
    near(own.second_moment, h.powi(3) * (a * a + 4.0 * a * b + b * b) / (36.0 * (a + b)));
}

/// `∑ (b h³ / 12 + A d²)` over the rectangles (b, h, height of the centroid).
fn of_rectangles(rectangles: &[(f64, f64, f64)]) -> (f64, f64, f64) {
    let area: f64 = rectangles.iter().map(|(b, h, _)| b * h).sum();
    let centroid = rectangles.iter().map(|(b, h, y)| b * h * y).sum::<f64>() / area;
    let second =
        rectangles.iter().map(|(b, h, y)| b * h.powi(3) / 12.0 + b * h * (y - centroid).powi(2)).sum();
    (area, centroid, second)
}

#[track_caller]
fn has(shape: Result<Shape, Vec<Fault>>, rectangles: &[(f64, f64, f64)]) {
    let section = section(shape);
    let (area, centroid, second) = of_rectangles(rectangles);
    near(section.properties().area, area);
    near(section.properties().centroid.y, centroid);
    near(section.properties().second_moment, second);
}

#[test]
fn shapes_of_rectangles_are_the_sum_of_their_table() {
    has(shapes::tee(0.12, 0.02, 0.02, 0.12, true), &[(0.12, 0.02, 0.11), (0.02, 0.1, 0.05)]);
    has(shapes::tee(0.12, 0.02, 0.02, 0.12, false), &[(0.12, 0.02, 0.01), (0.02, 0.1, 0.07)]);
    has(
        shapes::i_section(0.12, (0.1, 0.02), (0.06, 0.02), 0.02),
        &[(0.1, 0.02, 0.11), (0.02, 0.08, 0.06), (0.06, 0.02, 0.01)],
    );
    has(
        shapes::channel(0.2, 0.08, 0.008, 0.012),
        &[(0.08, 0.012, 0.006), (0.08, 0.012, 0.194), (0.008, 0.176, 0.1)],
    );
    has(shapes::trough(0.2, 0.12, 0.012, 0.015), &[(0.2, 0.015, 0.0075), (0.024, 0.105, 0.0675)]);
    has(shapes::angle(0.1, 0.075, 0.008, 0.01), &[(0.075, 0.01, 0.005), (0.008, 0.09, 0.055)]);
    has(
        shapes::box_girder(0.16, 0.2, 0.02, 0.03, 0.025),
        &[(0.16, 0.03, 0.185), (0.16, 0.025, 0.0125), (0.04, 0.145, 0.0975)],
    );
    has(shapes::rectangular_tube(0.1, 0.2, 0.008), &[(0.1, 0.2, 0.1), (-0.084, 0.184, 0.1)]);
}

#[test]
fn a_rolled_profile_without_radii_is_the_sharp_one() {
    let sharp = section(shapes::i_section(0.25, (0.14, 0.014), (0.14, 0.014), 0.009));
    let rolled = section(shapes::rolled_i(0.25, 0.14, 0.009, 0.014, 0.0));
    near(rolled.properties().second_moment, sharp.properties().second_moment);
    let channel = section(shapes::channel(0.2, 0.08, 0.008, 0.012));
    let parallel = section(shapes::rolled_channel(0.2, 0.08, 0.008, 0.012, 0.0));
    let without_slope =
        section(shapes::rolled_channel_sloping(0.2, 0.08, 0.008, (0.012, 0.04), 0.0, 0.0, 0.0));
    for other in [parallel, without_slope] {
        near(other.properties().second_moment, channel.properties().second_moment);
        near(other.properties().centroid.x, channel.properties().centroid.x);
    }
}

#[test]
fn dimensions_that_cannot_be_are_refused_with_what_they_do_not_fit_in() {
    for shape in [
        shapes::rectangle(0.0, 0.1),
        shapes::rectangle(0.1, f64::NAN),
        shapes::circle(-0.1),
        shapes::half_circle(f64::INFINITY, true),
        shapes::triangle(0.1, 0.1, f64::NAN, true),
        shapes::trapezoid(0.1, 0.0, 0.1, 0.0),
        shapes::polygon(&[Point::new(0.0, 0.0), Point::new(1.0, 0.0)]),
        shapes::rolled_i(0.2, 0.1, 0.006, 0.01, -0.001),
    ] {
        assert!(matches!(
            shape.err().as_deref(),
            Some([Fault::DimensionSize { .. } | Fault::TooFewCorners { .. }])
        ));
    }
    for shape in [
        shapes::tee(0.1, 0.2, 0.01, 0.2, true),
        shapes::tee(0.1, 0.02, 0.11, 0.2, true),
        shapes::channel(0.2, 0.08, 0.08, 0.012),
        shapes::trough(0.2, 0.1, 0.1, 0.01),
        shapes::angle(0.1, 0.07, 0.01, 0.1),
        shapes::box_girder(0.1, 0.2, 0.05, 0.01, 0.01),
        shapes::rectangular_tube(0.1, 0.3, 0.05),
        shapes::round_tube(0.1, 0.05),
        shapes::rolled_i(0.2, 0.1, 0.006, 0.01, 0.09),
        shapes::rolled_channel(0.2, 0.05, 0.006, 0.01, 0.045),
        shapes::rolled_channel_sloping(0.2, 0.4, 0.006, (0.01, 0.2), 0.08, 0.01, 0.005),
    ] {
        assert!(matches!(shape.err().as_deref(), Some([Fault::DoesNotFit { .. }])));
    }
    let two = shapes::box_girder(0.1, 0.2, 0.05, 0.1, 0.1).err().unwrap_or_default();
    assert_eq!(two.len(), 2, "webs and plates at once: {two:?}");
}
