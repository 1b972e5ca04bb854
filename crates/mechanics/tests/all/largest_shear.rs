//! Where the shear stress is largest, and why there.
//!
//! Closed forms: the parabola of the rectangle and the two extremes of the square on its corner (any textbook); the rest
//! follows from `V Q / (I t)` by hand.

use mechanics::section::{HeightSide, Part, Point, Section, shapes};
use mechanics::stress::{PlaceSide, PrincipalStresses, Reason, StressOverDepth};

fn stress(parts: Vec<Part>, shear_force: f64) -> StressOverDepth {
    let section = Section::new(parts).unwrap_or_else(|faults| panic!("{faults:?}"));
    StressOverDepth::new(&section, 0.0, shear_force)
}

fn rectangle(x: f64, y: f64, breadth: f64, height: f64) -> Part {
    Part::rectangle(Point::new(x, y), breadth, height)
}

#[track_caller]
fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() <= 1e-9 * wanted.abs(), "found {found}, wanted {wanted}");
}

#[test]
fn in_a_rectangle_it_is_at_the_neutral_axis() {
    let largest = stress(vec![rectangle(0.0, 0.0, 0.1, 0.2)], -30.0e3).largest_shear_stress();
    near(largest.value, 1.5 * 30.0e3 / 0.02);
    near(largest.mean, 30.0e3 / 0.02);
    assert!(largest.at_neutral_axis);
    assert_eq!(largest.reason, Reason::NeutralAxis);
    assert_eq!(largest.places.len(), 1);
    assert_eq!(largest.places[0].side, PlaceSide::Both);
}

#[test]
fn in_a_cross_it_is_beside_the_arms() {
    let parts = vec![
        rectangle(0.06, 0.0, 0.03, 0.07),
        rectangle(0.0, 0.07, 0.15, 0.04),
        rectangle(0.06, 0.11, 0.03, 0.07),
    ];
    let largest = stress(parts, 42.0e3).largest_shear_stress();
    assert!(!largest.at_neutral_axis);
    let places: Vec<(f64, PlaceSide)> =
        largest.places.iter().map(|place| (place.height, place.side)).collect();
    assert_eq!(places, [(0.07, PlaceSide::Below), (0.11, PlaceSide::Above)], "the heights as given");
    assert!(matches!(largest.reason, Reason::WidthJumps { narrow, broad, .. }
            if (narrow - 0.03).abs() < 1e-12 && (broad - 0.15).abs() < 1e-12));
}

#[test]
fn in_a_square_on_its_corner_it_is_an_eighth_of_the_diagonal_off_the_axis() {
    let d = 0.12;
    let corners = [(0.0, -0.06), (0.06, 0.0), (0.0, 0.06), (-0.06, 0.0)];
    let corners: Vec<Point> = corners.iter().map(|&(x, y)| Point::new(x, y)).collect();
    let parts = shapes::polygon(&corners).expect("four corners").parts;
    let largest = stress(parts, 42.0e3).largest_shear_stress();
    near(largest.value, 9.0 / 8.0 * 42.0e3 / (d * d / 2.0));
    near(largest.places[0].height, -d / 8.0);
    near(largest.places[1].height, d / 8.0);
    assert!(matches!(largest.reason, Reason::WidthGrows { here, at_axis } if here < at_axis));
}

#[test]
fn in_planks_that_stand_off_each_other_it_is_on_the_narrow_contact() {
    // Two planks 100 x 50 mm that overlap over 40 mm of their breadth: Q = b h²/2 at the joint, t = 40 mm.
    let parts = vec![rectangle(0.0, 0.0, 0.1, 0.05), rectangle(0.06, 0.05, 0.1, 0.05)];
    let over_depth = stress(parts, 8.0e3);
    let largest = over_depth.largest_shear_stress();
    let (q, i) = (0.1 * 0.05 * 0.025, 0.1 * 0.1_f64.powi(3) / 12.0);
    near(largest.value, 8.0e3 * q / (i * 0.04));
    assert_eq!(largest.places[0].side, PlaceSide::Contact);
    assert!(matches!(largest.reason, Reason::NarrowContact { contact } if (contact - 0.04).abs() < 1e-12));
    near(over_depth.shear_stress_on_contact(0.05), largest.value);
    near(over_depth.shear_stress(0.05, HeightSide::Below), 8.0e3 * q / (i * 0.1));
}

#[test]
fn without_shear_force_there_is_none() {
    let largest = stress(vec![rectangle(0.0, 0.0, 0.1, 0.2)], 0.0).largest_shear_stress();
    assert_eq!(largest.value, 0.0);
    assert_eq!(largest.reason, Reason::NoShearForce);
}

#[test]
fn it_vanishes_at_the_top_of_a_circle_and_of_a_triangle_and_off_the_section() {
    let shapes = [shapes::circle(0.1), shapes::triangle(0.1, 0.1, 0.03, true)];
    for shape in shapes {
        let stress = stress(shape.expect("sound").parts, 1.0e3);
        for height in [0.1, 0.0] {
            assert_eq!(stress.shear_stress(height, HeightSide::Below), 0.0);
            assert_eq!(stress.shear_stress(height, HeightSide::Above), 0.0);
        }
        assert_eq!(stress.shear_stress(0.2, HeightSide::Above), 0.0);
        // Near the top it falls with the distance from it.
        let near_top = |distance: f64| stress.shear_stress(0.1 - distance, HeightSide::Above);
        let ratio = near_top(1e-7) / near_top(1e-6);
        assert!((ratio - 0.1).abs() < 1e-3, "{ratio}");
    }
}

#[test]
fn principal_stresses_of_pure_shear_and_of_pure_tension() {
    let shear = PrincipalStresses::of(0.0, 5.0e6);
    near(shear.largest, 5.0e6);
    near(shear.smallest, -5.0e6);
    near(shear.angle, core::f64::consts::FRAC_PI_4);
    let tension = PrincipalStresses::of(3.0e6, 0.0);
    near(tension.largest, 3.0e6);
    assert_eq!(tension.smallest, 0.0);
    near(tension.largest_shear, 1.5e6);
    assert_eq!(tension.angle, 0.0);
}
