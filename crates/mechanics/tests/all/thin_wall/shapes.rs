//! The middle lines of the usual shapes are the sections that one would write down by their middle lines.

use super::{near, near_on};
use mechanics::section::shapes::{self, Shape};
use mechanics::section::{Fault, Part, Point, Section, catalogue};
use mechanics::thin_wall::{BoxWalls, ThinWallFault, ThinWalls};

/// The same area, moments, torsion constant, cells, and shear centre as seen from the centroid.
#[track_caller]
fn are_the_same(shape: Result<Shape, Vec<Fault>>, wanted: Result<ThinWalls, ThinWallFault>) {
    let shape = shape.expect("the dimensions are sound");
    let found = shape.thin_walls().expect("it is thin-walled");
    let wanted = wanted.expect("the dimensions are sound");
    near(found.area(), wanted.area());
    near(found.second_moment(), wanted.second_moment());
    near(found.second_moment_upright(), wanted.second_moment_upright());
    near_on(found.product_moment(), wanted.product_moment(), wanted.second_moment());
    near(found.torsion_constant(), wanted.torsion_constant());
    assert_eq!(found.cells().len(), wanted.cells().len());
    let of = |walls: &ThinWalls| {
        let (centre, centroid) = (walls.shear_centre(), walls.centroid());
        (centre.x - centroid.x, centre.y - centroid.y)
    };
    let (one, other) = (of(&found), of(&wanted));
    near_on(one.0, other.0, 1.0);
    near_on(one.1, other.1, 1.0);
    // In its own coordinates: off the centroid of the outline by no more than what corners and fillets come to.
    let section = Section::new(shape.parts).expect("the shape is sound");
    let outline = section.properties().centroid;
    let off = (found.centroid().x - outline.x, found.centroid().y - outline.y);
    assert!(off.0.abs() < 0.004 && off.1.abs() < 0.004, "{off:?}");
}

#[test]
fn plates_meet_in_the_middle() {
    are_the_same(shapes::tee(0.12, 0.01, 0.008, 0.15, true), ThinWalls::tee(0.12, 0.145, 0.01, 0.008));
    are_the_same(
        shapes::i_section(0.2, (0.1, 0.01), (0.14, 0.012), 0.006),
        ThinWalls::i_section(0.189, (0.1, 0.01), (0.14, 0.012), 0.006),
    );
    are_the_same(shapes::channel(0.2, 0.08, 0.006, 0.01), ThinWalls::channel(0.077, 0.19, 0.01, 0.006));
    are_the_same(shapes::angle(0.1, 0.08, 0.008, 0.01), ThinWalls::angle(0.095, 0.076, 0.008, 0.01));
    let walls = BoxWalls { bottom: 0.012, right: 0.006, top: 0.008, left: 0.006 };
    are_the_same(
        shapes::box_girder(0.15, 0.2, 0.006, 0.008, 0.012),
        ThinWalls::box_section(0.144, 0.19, walls),
    );
    let walls = BoxWalls { bottom: 0.005, right: 0.005, top: 0.005, left: 0.005 };
    are_the_same(shapes::rectangular_tube(0.1, 0.2, 0.005), ThinWalls::box_section(0.095, 0.195, walls));
    are_the_same(shapes::round_tube(0.11, 0.004), ThinWalls::tube(0.053, 0.004));
}

/// Fillets are left out: the profile of plates.
#[test]
fn rolled_profiles_are_plates() {
    are_the_same(
        shapes::rolled_i(0.2, 0.1, 0.0056, 0.0085, 0.012),
        ThinWalls::i_section(0.1915, (0.1, 0.0085), (0.1, 0.0085), 0.0056),
    );
    are_the_same(
        shapes::rolled_channel(0.2, 0.075, 0.0085, 0.011, 0.0),
        ThinWalls::channel(0.07075, 0.189, 0.011, 0.0085),
    );
    are_the_same(
        shapes::rolled_channel(0.2, 0.075, 0.0085, 0.011, 0.012),
        ThinWalls::channel(0.07075, 0.189, 0.011, 0.0085),
    );
}

/// A Z and a hat of free rectangles, and a box of two cells.
#[test]
fn plates_placed_freely() {
    let plate = |x: f64, y: f64, b: f64, h: f64| Part::rectangle(Point::new(x, y), b, h);
    let walls =
        |parts: &[Part]| ThinWalls::of_parts(parts, &["a", "b", "c", "d", "e"]).expect("it is thin-walled");
    let t = 0.004;
    let zed = walls(&[plate(0.0, 0.0, t, 0.2), plate(t, 0.2 - t, 0.08, t), plate(-0.08, 0.0, 0.08, t)]);
    let wanted = ThinWalls::zed(0.08 + 0.5 * t, 0.2 - t, t, t).expect("the dimensions are sound");
    near(zed.product_moment(), wanted.product_moment());
    near(zed.second_moment(), wanted.second_moment());
    near_on(zed.shear_centre().x, 0.5 * t, 0.1);
    let names: Vec<&str> = zed.walls().iter().map(|wall| wall.name.as_str()).collect();
    assert_eq!(names, ["a", "b", "c"]);
    let cells = walls(&[
        plate(0.0, 0.0, 0.3, t),
        plate(0.0, 0.1 - t, 0.3, t),
        plate(0.0, t, t, 0.1 - 2.0 * t),
        plate(0.1, t, t, 0.1 - 2.0 * t),
        plate(0.3 - t, t, t, 0.1 - 2.0 * t),
    ]);
    assert_eq!((cells.cells().len(), cells.walls().len(), cells.joints().len()), (2, 7, 6));
    assert_eq!(cells.walls()[1].name, "a, right");
}

#[test]
fn what_is_not_thin_walled_has_no_walls() {
    let none = |shape: Result<Shape, Vec<Fault>>| {
        assert_eq!(shape.expect("the dimensions are sound").thin_walls(), None);
    };
    none(shapes::rectangle(0.1, 0.2));
    none(shapes::circle(0.1));
    none(shapes::triangle(0.1, 0.2, 0.05, true));
    none(shapes::round_tube(0.1, 0.02));
    none(shapes::tee(0.1, 0.05, 0.05, 0.15, true));
    let plank = |y: f64| Part::rectangle(Point::new(0.0, y), 0.2, 0.02);
    assert_eq!(ThinWalls::of_parts(&[plank(0.0), plank(0.02)], &["low", "high"]), None);
    let other = plank(0.3).with_modular_ratio(2.0);
    assert_eq!(ThinWalls::of_parts(&[plank(0.0), other], &["low", "high"]), None);
}

/// The second moment by middle lines is near that of the profile, fillets and all: of IPE 200, EN 10365 prints 1943 cm⁴.
#[test]
fn a_profile_of_the_catalogue_by_its_middle_lines() {
    let shape = catalogue::profile("IPE 200").expect("it is in the catalogue");
    let walls = shape.shape().expect("it is sound").thin_walls().expect("it is thin-walled");
    let i = walls.second_moment() / 1e-8;
    assert!((i / 1943.0 - 1.0).abs() < 0.03, "{i}");
}
