//! The middle lines of the usual shapes are the sections that one would write down by their middle lines.

use super::{near, near_on};
use mechanics::section::shapes::{self, Shape};
use mechanics::section::{Edge, Fault, Figure, Loop, Part, Point, Section, catalogue};
use mechanics::thin_wall::{BoxWalls, NoMiddleLines, ThinWallFault, ThinWalls, Wall};

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

fn outline(outline: Loop) -> Part {
    Part { outline, holes: Vec::new(), modular_ratio: 1.0, figure: Figure::Outline }
}

fn polygon(corners: &[(f64, f64)]) -> Part {
    let corners: Vec<Point> = corners.iter().map(|&(x, y)| Point::new(x, y)).collect();
    outline(Loop::polygon(&corners))
}

/// The sector of a ring between two radii, from an angle up to a full turn less that angle, of `pieces` arcs on each side.
fn sector(outer: f64, inner: f64, from: f64, pieces: u32) -> Part {
    let turn = core::f64::consts::TAU;
    let at = |r: f64, angle: f64| Point::new(r * libm::cos(angle), r * libm::sin(angle));
    let angle = |k: u32| from + (turn - 2.0 * from) * f64::from(k) / f64::from(pieces);
    let centre = Point::new(0.0, 0.0);
    let out = (1..=pieces).map(|k| Edge::Arc { to: at(outer, angle(k)), centre, counter_clockwise: true });
    let back =
        (0..pieces).rev().map(|k| Edge::Arc { to: at(inner, angle(k)), centre, counter_clockwise: false });
    let turn_in = Edge::Line { to: at(inner, angle(pieces)) };
    outline(Loop { start: at(outer, angle(0)), path: out.chain([turn_in]).chain(back).collect() })
}

/// A tube slit lengthwise, drawn as a sector of a ring: the shear centre of an arc of half-angle α stands
/// `2 R (sin α - α cos α) / (α - sin α cos α)` from the centre, which is `2 R` for a full turn (Timoshenko & Gere, Mechanics
/// of Materials, on shear centres; from memory, and from the moment of `q = V Q / I`). The flow from the slit round is
/// `V R² t ∫ sin φ dφ / I`, worked out anew.
#[test]
fn a_split_tube_drawn_as_a_sector_of_a_ring() {
    let (r, t) = (0.048, 0.004);
    for (half_slit, pieces) in [(0.3, 1), (0.01, 2), (1e-6, 3)] {
        let walls = ThinWalls::of_parts(&[sector(0.05, 0.046, half_slit, pieces)], &["wall"]);
        let walls = walls.expect("it is thin-walled");
        let alpha = core::f64::consts::PI - half_slit;
        let (s, c) = (libm::sin(alpha), libm::cos(alpha));
        let distance = 2.0 * r * (s - alpha * c) / (alpha - s * c);
        near_on(walls.shear_centre().x, -distance, r);
        near_on(walls.shear_centre().y, 0.0, r);
        if half_slit < 1e-5 {
            // The slit's own breadth takes (2/3) α³ of the ring's π off: 1e-18.
            near(distance, 2.0 * r);
        }
        near(walls.torsion_constant(), 2.0 * alpha * r * t * t * t / 3.0);
        // I = R³ t (α - sin α cos α) about the level axis, for an arc that opens to the right.
        let i = r * r * r * t * (alpha - s * c);
        near(walls.second_moment(), i);
        let flow = walls.shear_flow(0.0, 1.0);
        for part in [0.1, 0.35, 0.5, 0.8] {
            let angle = half_slit + 2.0 * alpha * part;
            let wanted = r * r * t * (libm::cos(half_slit) - libm::cos(angle)) / i;
            near_on(-flow.at(0, part), wanted, wanted);
        }
        assert!(flow.balance().closes());
    }
}

/// A box with sloping webs, and the same by its corners, where middle lines meet: half-way up each plate, on the line of each web.
#[test]
fn a_box_with_sloping_webs() {
    let mm = |corners: &[(f64, f64)]| {
        polygon(&corners.iter().map(|&(x, y)| (1e-3 * x, 1e-3 * y)).collect::<Vec<_>>())
    };
    let bottom = mm(&[(-60.0, 0.0), (60.0, 0.0), (60.0, 8.0), (-60.0, 8.0)]);
    let left = mm(&[(-60.0, 8.0), (-52.0, 8.0), (-92.0, 128.0), (-100.0, 128.0)]);
    let right = mm(&[(52.0, 8.0), (60.0, 8.0), (100.0, 128.0), (92.0, 128.0)]);
    let top = mm(&[(-100.0, 128.0), (100.0, 128.0), (100.0, 136.0), (-100.0, 136.0)]);
    // The webs run 1 mm out for 3 mm up, their middles 56 mm from the middle where they begin.
    let (low, high) = (0.056 - 0.004 / 3.0, 0.096 + 0.004 / 3.0);
    let web = 0.008 * 3.0 / libm::sqrt(10.0);
    let joints = [(-low, 0.004), (low, 0.004), (high, 0.132), (-high, 0.132)];
    let joints = joints.map(|(x, y)| Point::new(x, y)).to_vec();
    let closed = ThinWalls::of_parts(
        &[bottom.clone(), left.clone(), right.clone(), top],
        &["bottom", "left web", "right web", "top"],
    );
    let wanted = ThinWalls::new(
        joints.clone(),
        vec![
            Wall::straight("bottom", 0, 1, 0.008),
            Wall::straight("left web", 0, 3, web),
            Wall::straight("right web", 1, 2, web),
            Wall::straight("top", 3, 2, 0.008),
        ],
    );
    let (closed, wanted) = (closed.expect("it is thin-walled"), wanted.expect("it is sound"));
    assert_eq!(closed.cells().len(), 1);
    near(closed.second_moment(), wanted.second_moment());
    near(closed.second_moment_upright(), wanted.second_moment_upright());
    near(closed.torsion_constant(), wanted.torsion_constant());
    near(closed.shear_centre().y, wanted.shear_centre().y);
    near_on(closed.shear_centre().x, 0.0, 0.1);
    assert!(closed.shear_flow(0.0, 1.0).balance().closes());
    // Without its top it is open; the webs end on their own narrow sides.
    let open = ThinWalls::of_parts(&[bottom, left, right], &["bottom", "left web", "right web"]);
    let open = open.expect("it is thin-walled");
    assert_eq!((open.cells().len(), open.walls().len()), (0, 3));
    let length = libm::hypot(0.096 - low, 0.124);
    near(open.length(1), length);
    near(open.torsion_constant(), (0.008_f64.powi(3) * 2.0 * low + 2.0 * web.powi(3) * length) / 3.0);
}

/// A rolled channel with tapered flanges, by the usual mean thickness: of UPN 200, h = 200, b = 75, s = 8.5 and t = 11.5 mm half-way
/// along the flange, I = 1910 cm⁴ (DIN 1026-1, from memory); the fillets and corners are left out.
#[test]
fn a_channel_with_tapered_flanges() {
    let shape = catalogue::profile("UPN 200").expect("it is in the catalogue");
    let walls = shape.shape().expect("it is sound").thin_walls().expect("it is thin-walled");
    assert_eq!(walls.walls().len(), 3);
    near(walls.walls()[2].thickness, 0.0085);
    // 8 % over half the web's thickness: from half-way along the whole flange to half-way along what stands out.
    near(walls.walls()[0].thickness, 0.0115 - 0.08 * 0.00425);
    let i = walls.second_moment() / 1e-8;
    assert!((i / 1910.0 - 1.0).abs() < 0.03, "{i}");
}

#[test]
fn what_is_not_thin_walled_has_no_walls_and_says_why() {
    let why = |shape: Result<Shape, Vec<Fault>>| {
        shape.expect("the dimensions are sound").thin_walls().expect_err("it has no thin walls")
    };
    for solid in [
        shapes::rectangle(0.1, 0.2),
        shapes::rectangle(0.1, 0.6),
        shapes::circle(0.1),
        shapes::half_circle(0.1, true),
        shapes::triangle(0.1, 0.2, 0.05, true),
    ] {
        assert_eq!(why(solid), NoMiddleLines::Solid);
    }
    let thick = |part: &str, length: f64, thickness: f64, is_radius: bool| NoMiddleLines::Thick {
        part: part.to_owned(),
        length,
        thickness,
        is_radius,
    };
    assert!(matches!(why(shapes::round_tube(0.1, 0.02)), NoMiddleLines::Thick { is_radius: true, .. }));
    assert_eq!(why(shapes::tee(0.1, 0.05, 0.05, 0.15, true)), thick("flange", 0.1, 0.05, false));
    let plank = |y: f64| Part::rectangle(Point::new(0.0, y), 0.2, 0.02);
    let two = |other: Part| ThinWalls::of_parts(&[plank(0.0), other], &["low", "high"]);
    assert_eq!(two(plank(0.02)), Err(NoMiddleLines::Apart));
    assert_eq!(two(plank(0.3).with_modular_ratio(2.0)), Err(NoMiddleLines::Materials));
    // A keel that tapers to a point is no strip.
    let keel = polygon(&[(0.0, 0.0), (0.01, -0.2), (0.02, 0.0)]);
    assert_eq!(two(keel), Err(NoMiddleLines::NoStrip { part: "high".to_owned() }));
}

/// The second moment by middle lines is near that of the profile, fillets and all: of IPE 200, EN 10365 prints 1943 cm⁴.
#[test]
fn a_profile_of_the_catalogue_by_its_middle_lines() {
    let shape = catalogue::profile("IPE 200").expect("it is in the catalogue");
    let walls = shape.shape().expect("it is sound").thin_walls().expect("it is thin-walled");
    let i = walls.second_moment() / 1e-8;
    assert!((i / 1943.0 - 1.0).abs() < 0.03, "{i}");
}

/// The shear centre is measured from a web, not from a fin that hangs in a cell beside it; a lip is no web either. In an angle the
/// one upright leg is, though it ends free.
#[test]
fn a_web_is_held_at_both_ends() {
    let plate = |x: f64, y: f64, b: f64, h: f64| Part::rectangle(Point::new(x, y), b, h);
    let t = 0.008;
    let cell = [
        plate(0.0, 0.0, 0.16, t),
        plate(0.0, t, t, 0.14),
        plate(0.152, t, t, 0.14),
        plate(0.0, 0.148, 0.16, t),
        plate(0.047, 0.078, 0.006, 0.07),
    ];
    let walls = ThinWalls::of_parts(&cell, &["bottom", "left web", "right web", "top", "fin"]);
    let walls = walls.expect("it is thin-walled");
    let nearest = |x: f64| walls.upright_wall_near(x).map(|(wall, _)| walls.walls()[wall].name.as_str());
    assert_eq!(nearest(0.05), Some("left web"));
    let angle = ThinWalls::angle(0.1, 0.08, 0.01, 0.008).expect("the dimensions are sound");
    assert_eq!(angle.upright_wall_near(0.0).map(|(wall, _)| wall), Some(1));
}
