//! Sections drawn as one outline whose walls slope: the middle lines are those of the same section in parts, or written down.

use super::{near, near_on};
use core::f64::consts::PI;
use mechanics::section::{Edge, Figure, Loop, Part, Point};
use mechanics::thin_wall::{NoMiddleLines, ThinWalls, Wall};
use proptest::prelude::*;

type Place = (f64, f64);

fn of_mm(corners: &[Place]) -> Vec<Place> {
    corners.iter().map(|&(x, y)| (1e-3 * x, 1e-3 * y)).collect()
}

fn ring(corners: &[Place]) -> Loop {
    let corners: Vec<Point> = corners.iter().map(|&(x, y)| Point::new(x, y)).collect();
    Loop::polygon(&corners)
}

fn part(outline: &[Place], holes: &[&[Place]]) -> Part {
    let holes = holes.iter().map(|hole| ring(hole)).collect();
    Part { outline: ring(outline), holes, modular_ratio: 1.0, figure: Figure::Outline }
}

fn walls(part: Part) -> ThinWalls {
    ThinWalls::of_parts(&[part], &["outline"]).expect("it is thin-walled")
}

fn refused(part: Part) -> NoMiddleLines {
    ThinWalls::of_parts(&[part], &["outline"]).expect_err("it has no thin walls")
}

fn names(walls: &ThinWalls) -> Vec<&str> {
    walls.walls().iter().map(|wall| wall.name.as_str()).collect()
}

/// The corners of what lies within half a thickness of a line from corner to corner, mitred, its ends square.
fn folded(line: &[Place], t: f64) -> Vec<Place> {
    let way = |k: usize| {
        let ((x, y), (u, v)) = (line[k], line[k + 1]);
        let length = libm::hypot(u - x, v - y);
        ((u - x) / length, (v - y) / length)
    };
    let last = line.len() - 1;
    // At a corner the mitre runs along the mean of both normals, and is as much longer as it is off each of them.
    let beside = |k: usize, off: f64| {
        let (a, b) = (way(k.saturating_sub(1)), way(k.min(last - 1)));
        let times = off / (1.0 + a.0 * b.0 + a.1 * b.1);
        (line[k].0 - times * (a.1 + b.1), line[k].1 + times * (a.0 + b.0))
    };
    let out = (0..=last).map(|k| beside(k, -0.5 * t));
    out.chain((0..=last).rev().map(|k| beside(k, 0.5 * t))).collect()
}

/// Walls along a line from corner to corner.
fn along(line: &[Place], t: f64) -> ThinWalls {
    let joints = line.iter().map(|&(x, y)| Point::new(x, y)).collect();
    let walls = (1..line.len()).map(|k| Wall::straight("wall", k - 1, k, t)).collect();
    ThinWalls::new(joints, walls).expect("the walls are sound")
}

fn turned(corners: &[Place], angle: f64) -> Vec<Place> {
    let (c, s) = (libm::cos(angle), libm::sin(angle));
    corners.iter().map(|&(x, y)| (c * x - s * y, s * x + c * y)).collect()
}

/// A regular hexagonal tube of side a, slit in the middle of one side, turned any way: open, so that its torsion constant is that of its
/// strips, 6 a t³ / 3 less the slit's part (any textbook), thousands of times less than closed.
#[test]
fn a_slit_stays_open_whichever_way_the_tube_is_turned() {
    let (a, t, slit) = (0.060, 0.003, 0.002);
    let corner = |k: usize| (a * libm::cos(PI * k as f64 / 3.0), a * libm::sin(PI * k as f64 / 3.0));
    let ((x, y), (u, v)) = (corner(5), corner(6));
    let on_side = |off: f64| {
        let share = 0.5 + off / a;
        (x + share * (u - x), y + share * (v - y))
    };
    let mut line = vec![on_side(0.5 * slit)];
    line.extend((0..6).map(corner));
    line.push(on_side(-0.5 * slit));
    for step in 0..60 {
        let outline = turned(&folded(&line, t), 0.1 * f64::from(step));
        let open = walls(part(&outline, &[]));
        assert!(open.cells().is_empty(), "turned by {step} tenths");
        near_on(open.torsion_constant(), (6.0 * a - slit) * t * t * t / 3.0, 6.0 * a * t * t * t);
    }
}

/// The same area, moments, torsion constant, cells, shear centre, and largest shear stress under two forces.
#[track_caller]
fn are_the_same(found: &ThinWalls, wanted: &ThinWalls) {
    near(found.area(), wanted.area());
    near(found.torsion_constant(), wanted.torsion_constant());
    assert_eq!(found.cells().len(), wanted.cells().len());
    let size = wanted.second_moment() + wanted.second_moment_upright();
    near_on(found.second_moment(), wanted.second_moment(), size);
    near_on(found.second_moment_upright(), wanted.second_moment_upright(), size);
    near_on(found.product_moment(), wanted.product_moment(), size);
    let (one, other) = (found.shear_centre(), wanted.shear_centre());
    near_on(one.x, other.x, 10.0);
    near_on(one.y, other.y, 10.0);
    for (right, up) in [(0.0, 1.0), (1.0, 0.5)] {
        let (one, other) = (found.shear_flow(right, up), wanted.shear_flow(right, up));
        let flow =
            |of: &mechanics::thin_wall::ShearFlow<'_>| of.largest().map_or(0.0, |most| most.flow.abs());
        near_on(flow(&one), flow(&other), 10.0 * flow(&other));
        assert!(one.balance().closes());
    }
}

/// A regular hexagon of side a: by Bredt J = 4 A² t / (6 a) = 9/2 a³ t with A = 3/2 √3 a²; I = 5/2 a³ t about every axis through its
/// centre, half the polar moment 6 a t (h² + a²/12) with h = √3/2 a. Worked out anew; Bredt's formula as in any textbook of the
/// strength of materials.
#[test]
fn a_hexagonal_tube() {
    let (a, t) = (0.05, 0.004);
    let corners = |side: f64, angle: f64| -> Vec<Place> {
        let at = |k: u32| angle + f64::from(k) * PI / 3.0;
        (0..6).map(|k| (side * libm::cos(at(k)), side * libm::sin(at(k)))).collect()
    };
    // A side's distance from the centre is half a thickness more, or less, than h.
    let off = 0.5 * t * 2.0 / libm::sqrt(3.0);
    for angle in [0.0, 0.1, PI / 6.0, 1.0] {
        let walls = walls(part(&corners(a + off, angle), &[&corners(a - off, angle)]));
        near(walls.torsion_constant(), 4.5 * a * a * a * t);
        near(walls.second_moment(), 2.5 * a * a * a * t);
        near(walls.second_moment_upright(), 2.5 * a * a * a * t);
        near_on(walls.shear_centre().x, 0.0, a);
        near_on(walls.shear_centre().y, 0.0, a);
        assert_eq!((walls.walls().len(), walls.cells().len()), (6, 1));
        let flow = walls.shear_flow(0.0, 1.0).largest().expect("it has walls").flow.abs();
        if angle == 0.0 {
            // Above the level axis: the top flange, a t at h, and two webs whose middles stand at h/2; half to each side.
            let h = 0.5 * libm::sqrt(3.0) * a;
            near(flow, 0.5 * (a * t * h + 2.0 * a * t * 0.5 * h) / (2.5 * a * a * a * t));
            let webs = ["lower left web", "upper left web", "lower right web", "upper right web"];
            assert_eq!(names(&walls), [&["bottom flange", "top flange"], &webs[..]].concat());
        }
    }
}

/// The flows of both legs pass through the corner, so the shear centre is there: Timoshenko & Gere, Mechanics of Materials, on
/// shear centres of angles and sections of two narrow rectangles (from memory).
#[test]
fn a_v_bends_about_its_corner() {
    for (left, right) in [(0.7, 0.7), (0.3, 1.2), (1.0, 0.2)] {
        let legs = [(-0.1 * libm::sin(left), 0.1 * libm::cos(left)), (0.0, 0.0)];
        let line = [legs[0], legs[1], (0.08 * libm::sin(right), 0.08 * libm::cos(right))];
        let walls = walls(part(&folded(&line, 0.006), &[]));
        near_on(walls.shear_centre().x, 0.0, 0.1);
        near_on(walls.shear_centre().y, 0.0, 0.1);
        are_the_same(&walls, &along(&line, 0.006));
        assert_eq!(names(&walls), ["left leg", "right leg"], "{left} {right}");
    }
}

/// Legs whose tips are cut level, so that one side is longer than the other.
#[test]
fn a_v_with_level_tips() {
    let t = 8.0;
    // Each leg runs 3 up for 4 across, its sides 5/4 t apart upright.
    let up = 1.25 * t;
    let outline = of_mm(&[
        (0.0, 0.0),
        (120.0, 90.0),
        (120.0 - up * 4.0 / 3.0, 90.0),
        (0.0, up),
        (-120.0 + up * 4.0 / 3.0, 90.0),
        (-120.0, 90.0),
    ]);
    let tip = 120.0 - 0.5 * up * 4.0 / 3.0;
    let line = of_mm(&[(-tip, 90.0), (0.0, 0.5 * up), (tip, 90.0)]);
    are_the_same(&walls(part(&outline, &[])), &along(&line, 1e-3 * t));
}

/// A hat of one thickness t: top 2 a wide at the height h, webs down to 2 b, brims c wide outwards. The hand integrals, per unit of
/// V upward, with the centroid's height e over the brims, web length w = √(h² + (b - a)²):
///
/// e = (2 a h + w h) / (2 a + 2 w + 2 c); I / t = 2 c e² + 2 a (h - e)² + 2 w (h²/12 + (h/2 - e)²).
/// From each brim's tip: first moment at the foot of the web S₁ = -c e t, and up the web S(s) = S₁ + t (-e s + h s²/(2 w)).
/// The force in the left web points up along its slope; its part upward is half of V. About the middle of the brims' level: the
/// brims' forces pass through it, the top's force pairs to zero by symmetry, and so the shear centre stands on x = 0; its height is
/// that of a level force H through it, by the same integral about the other axis:
/// I_y / t = 2 a³/3 + 2 w (a² + a b + b²)/3 + 2 ((b + c)³ - b³)/3. From the right tip, x = b + c - s along the brim:
/// F₁ = ∫ S ds in the web times its arm about the point (0, 0), and in the top times h.
#[test]
fn a_hat_with_sloping_webs_by_hand() {
    let (a, b, c, h, t) = (0.04, 0.07, 0.05, 0.12, 0.004);
    let line = [(-b - c, 0.0), (-b, 0.0), (-a, h), (a, h), (b, 0.0), (b + c, 0.0)];
    let walls = walls(part(&folded(&line, t), &[]));
    assert_eq!(
        names(&walls),
        ["bottom left flange", "bottom right flange", "top flange", "left web", "right web"]
    );
    let w = libm::hypot(h, b - a);
    let e = (2.0 * a * h + w * h) / (2.0 * a + 2.0 * w + 2.0 * c);
    let i = t
        * (2.0 * c * e * e
            + 2.0 * a * (h - e) * (h - e)
            + 2.0 * w * (h * h / 12.0 + (0.5 * h - e) * (0.5 * h - e)));
    near(walls.centroid().y, e);
    near(walls.second_moment(), i);
    let flow = walls.shear_flow(0.0, 1.0);
    let web = walls.walls().iter().position(|wall| wall.name == "left web").expect("it has one");
    for part in [0.0, 0.3, 0.8, 1.0] {
        let s = part * w;
        let first_moment = -c * e * t + t * (-e * s + h * s * s / (2.0 * w));
        near_on(flow.at(web, part), -first_moment / i, 1.0 / h);
    }
    // Under a force H = 1 to the right: the first moment of what lies beyond, from the right tip inwards.
    let i_upright = t
        * (2.0 * a * a * a / 3.0
            + 2.0 * w * (a * a + a * b + b * b) / 3.0
            + 2.0 * ((b + c).powi(3) - b * b * b) / 3.0);
    near(walls.second_moment_upright(), i_upright);
    let at_foot = t * c * (b + 0.5 * c);
    // ∫ over the web of at_foot + t (b s - (b - a) s²/(2 w)) ds.
    let in_web = at_foot * w + t * (b * w * w / 2.0 - (b - a) * w * w / 6.0);
    let at_head = at_foot + t * w * 0.5 * (a + b);
    // Over half of the top, of at_head + t (a s - s²/2) ds.
    let in_half_top = at_head * a + t * (a * a * a / 2.0 - a * a * a / 6.0);
    // The flow runs to the left tip's way: the arm of a web's line about (0, 0) is b h / w, of the top h; both webs and both halves
    // turn the same way. All of it is H times the height of the shear centre.
    let moment = 2.0 * (in_web * b * h / w + in_half_top * h) / i_upright;
    near_on(walls.shear_centre().x, 0.0, h);
    near(walls.shear_centre().y, moment);
    are_the_same(&walls, &along(&line, t));
}

/// The same as four parts, and drawn in one with its hollow; without its top, too.
#[test]
fn a_box_with_sloping_webs_in_parts_and_in_one() {
    let bottom = part(&of_mm(&[(-60.0, 0.0), (60.0, 0.0), (60.0, 8.0), (-60.0, 8.0)]), &[]);
    let left = part(&of_mm(&[(-60.0, 8.0), (-52.0, 8.0), (-92.0, 128.0), (-100.0, 128.0)]), &[]);
    let right = part(&of_mm(&[(52.0, 8.0), (60.0, 8.0), (100.0, 128.0), (92.0, 128.0)]), &[]);
    let top = part(&of_mm(&[(-120.0, 128.0), (120.0, 128.0), (120.0, 136.0), (-120.0, 136.0)]), &[]);
    let parts = [bottom, left, right, top];
    let in_parts = |count: usize| {
        ThinWalls::of_parts(&parts[..count], &["bottom", "left", "right", "top"]).expect("it is thin-walled")
    };
    let (foot, head) = ([(60.0, 8.0), (60.0, 0.0), (-60.0, 0.0), (-60.0, 8.0)], [(-92.0, 128.0)]);
    let within = [(-92.0, 128.0), (-52.0, 8.0), (52.0, 8.0), (92.0, 128.0)];
    let tray = [&[(100.0, 128.0)], &foot[..], &[(-100.0, 128.0)], &head[..], &within[1..]].concat();
    are_the_same(&walls(part(&of_mm(&tray), &[])), &in_parts(3));
    let over = [(-120.0, 136.0), (120.0, 136.0), (120.0, 128.0), (100.0, 128.0)];
    let closed = [&over[..], &foot[..], &[(-100.0, 128.0), (-120.0, 128.0)]].concat();
    let closed = walls(part(&of_mm(&closed), &[&of_mm(&within)]));
    are_the_same(&closed, &in_parts(4));
    let top = ["top flange, 1", "top flange, 2", "top flange, 3"];
    assert_eq!(names(&closed), [&["bottom flange"], &top[..], &["left web", "right web"]].concat());
}

/// An I, a T and a cross, each as plates with level and upright sides, and turned: the shear centre turns with the section.
#[test]
fn a_wall_goes_on_where_another_one_branches() {
    let i = of_mm(&[
        (-60.0, 0.0),
        (60.0, 0.0),
        (60.0, 10.0),
        (4.0, 10.0),
        (4.0, 190.0),
        (50.0, 190.0),
        (50.0, 200.0),
        (-50.0, 200.0),
        (-50.0, 190.0),
        (-4.0, 190.0),
        (-4.0, 10.0),
        (-60.0, 10.0),
    ]);
    let tee = of_mm(&[
        (-4.0, 0.0),
        (4.0, 0.0),
        (4.0, 140.0),
        (60.0, 140.0),
        (60.0, 148.0),
        (-60.0, 148.0),
        (-60.0, 140.0),
        (-4.0, 140.0),
    ]);
    let cross = of_mm(&[
        (-4.0, -100.0),
        (4.0, -100.0),
        (4.0, -3.0),
        (70.0, -3.0),
        (70.0, 3.0),
        (4.0, 3.0),
        (4.0, 120.0),
        (-4.0, 120.0),
        (-4.0, 3.0),
        (-80.0, 3.0),
        (-80.0, -3.0),
        (-4.0, -3.0),
    ]);
    for corners in [i, tee, cross] {
        let level = walls(part(&corners, &[]));
        for angle in [0.02, 0.6, 1.2, 2.5, -0.9] {
            let aslant = walls(part(&turned(&corners, angle), &[]));
            assert_eq!(aslant.walls().len(), level.walls().len());
            near(aslant.area(), level.area());
            near(aslant.torsion_constant(), level.torsion_constant());
            let centre = level.shear_centre();
            let moved = turned(&[(centre.x, centre.y)], angle)[0];
            near_on(aslant.shear_centre().x, moved.0, 1.0);
            near_on(aslant.shear_centre().y, moved.1, 1.0);
        }
    }
}

/// Two cells with sloping webs and a bracket on either side, from above one outline with two hollows.
#[test]
fn two_cells_side_by_side() {
    let t = 8.0;
    let outline = of_mm(&[
        (-200.0, 108.0),
        (-200.0, 100.0),
        (-140.0, 100.0),
        (-100.0, 0.0),
        (100.0, 0.0),
        (140.0, 100.0),
        (200.0, 100.0),
        (200.0, 108.0),
    ]);
    // The webs' sides stand so far apart across, 2 across for 5 up.
    let across = t * libm::sqrt(29.0) / 5.0;
    let foot = -100.0 - 0.4 * 8.0 + across;
    let hole = |sense: f64| {
        of_mm(&[
            (sense * foot, 8.0),
            (sense * (-140.0 + across), 100.0),
            (sense * -4.0, 100.0),
            (sense * -4.0, 8.0),
        ])
    };
    let found = walls(part(&outline, &[&hole(1.0), &hole(-1.0)]));
    let web = |y: f64| 1e-3 * (-100.0 - 0.4 * y + 0.5 * across);
    let (low, high) = (web(4.0), web(104.0));
    let joints = [(low, 4.0), (0.0, 4.0), (-low, 4.0), (-0.2, 104.0), (high, 104.0), (0.0, 104.0)];
    let mut joints: Vec<Point> = joints.iter().map(|&(x, y)| Point::new(x, 1e-3 * y)).collect();
    joints.extend([Point::new(-high, 0.104), Point::new(0.2, 0.104)]);
    let ends = [(0, 1), (1, 2), (3, 4), (4, 5), (5, 6), (6, 7), (0, 4), (1, 5), (2, 6)];
    let wanted = ends.iter().map(|&(a, b)| Wall::straight("wall", a, b, 1e-3 * t)).collect();
    are_the_same(&found, &ThinWalls::new(joints, wanted).expect("the walls are sound"));
    assert_eq!(names(&found)[6..], ["left web", "middle web", "right web"]);
}

/// A Z with a sloping web; mirrored it is mirrored.
#[test]
fn a_z_with_a_sloping_web() {
    let line = [(-0.1, 0.0), (-0.02, 0.0), (0.03, 0.15), (0.09, 0.15)];
    let outline = folded(&line, 0.005);
    let found = walls(part(&outline, &[]));
    are_the_same(&found, &along(&line, 0.005));
    assert_eq!(names(&found), ["bottom flange", "top flange", "web"]);
    let mirrored: Vec<Place> = outline.iter().map(|&(x, y)| (-x, y)).collect();
    let mirrored = walls(part(&mirrored, &[]));
    near_on(mirrored.shear_centre().x, -found.shear_centre().x, 1.0);
    near_on(mirrored.shear_centre().y, found.shear_centre().y, 1.0);
    near(mirrored.product_moment(), -found.product_moment());
}

/// Sheet bent along a line, with a radius inside its corners; both arcs of a bend are about one centre, and the tips are square.
fn bent(line: &[Place], t: f64, inside: f64) -> Part {
    let corners = folded(line, t);
    let count = corners.len();
    let at = |k: usize| Point::new(corners[k % count].0, corners[k % count].1);
    let way = |from: Point, to: Point| {
        let length = libm::hypot(to.x - from.x, to.y - from.y);
        ((to.x - from.x) / length, (to.y - from.y) / length)
    };
    let mut path = Vec::new();
    for k in 0..count {
        let (a, b) = (way(at(k + count - 1), at(k)), way(at(k), at(k + 1)));
        let (turn, on) = (a.0 * b.1 - a.1 * b.0, a.0 * b.0 + a.1 * b.1);
        let here = at(k);
        if on.abs() < 1e-9 {
            path.push(Edge::Line { to: here });
            continue;
        }
        let radius = if turn > 0.0 { inside + t } else { inside };
        let off = radius * libm::tan(0.5 * libm::atan2(turn.abs(), on));
        let first = Point::new(here.x - off * a.0, here.y - off * a.1);
        let last = Point::new(here.x + off * b.0, here.y + off * b.1);
        let sense = turn.signum();
        let centre = Point::new(first.x - sense * radius * a.1, first.y + sense * radius * a.0);
        path.extend([
            Edge::Line { to: first },
            Edge::Arc { to: last, centre, counter_clockwise: turn > 0.0 },
        ]);
    }
    // The first corner is a tip.
    let outline = Loop { start: at(0), path: path.split_off(1) };
    Part { outline, holes: Vec::new(), modular_ratio: 1.0, figure: Figure::Outline }
}

/// The walls are those of sharp corners; a bend whose middle line has a radius of five thicknesses would be a round wall.
#[test]
fn roundings_are_the_corners_that_they_round() {
    let line = [(-0.12, 0.0), (-0.07, 0.0), (-0.04, 0.12), (0.04, 0.12), (0.07, 0.0), (0.12, 0.0)];
    for inside in [0.002, 0.006, 0.017] {
        are_the_same(&walls(bent(&line, 0.004, inside)), &along(&line, 0.004));
    }
    assert_eq!(refused(bent(&line, 0.004, 0.019)), NoMiddleLines::Unpaired);
}

/// Corners written to a tenth of a millimetre: each side is off by 0.05 mm at most, so the thickness of 4 mm by 2.5 %, and what follows
/// from it by no more: the second moment, and the shear centre by that part of the height.
#[test]
fn corners_written_with_few_figures() {
    let line = [(-0.12, 0.0), (-0.07, 0.0), (-0.04, 0.12), (0.04, 0.12), (0.083, 0.0), (0.12, 0.0)];
    let written: Vec<Place> = folded(&line, 0.004)
        .iter()
        .map(|&(x, y)| (1e-4 * (1e4 * x).round(), 1e-4 * (1e4 * y).round()))
        .collect();
    let (found, wanted) = (walls(part(&written, &[])), along(&line, 0.004));
    assert_eq!(found.walls().len(), 5);
    assert!((found.second_moment() / wanted.second_moment() - 1.0).abs() < 0.025);
    assert!((found.shear_centre().x - wanted.shear_centre().x).abs() < 0.025 * 0.12);
    assert!((found.shear_centre().y - wanted.shear_centre().y).abs() < 0.025 * 0.12);
}

#[test]
fn what_has_no_such_walls_says_why() {
    // An arrow head: no side runs against another.
    let arrow = part(&of_mm(&[(0.0, 0.0), (100.0, 80.0), (0.0, 200.0), (30.0, 80.0)]), &[]);
    assert_eq!(refused(arrow), NoMiddleLines::Unpaired);
    // A stout V.
    let line = [(-0.06, 0.06), (0.0, 0.0), (0.06, 0.06)];
    let stout = refused(part(&folded(&line, 0.02), &[]));
    assert!(matches!(&stout, NoMiddleLines::Thick { part, .. } if part == "left leg"), "{stout:?}");
    // A keel that tapers from 40 mm to 4 on a plate.
    let keel = of_mm(&[
        (-100.0, 0.0),
        (100.0, 0.0),
        (100.0, 6.0),
        (40.0, 6.0),
        (12.0, 106.0),
        (8.0, 106.0),
        (0.0, 6.0),
        (-100.0, 6.0),
    ]);
    assert_eq!(refused(part(&keel, &[])), NoMiddleLines::Unpaired);
    // A fin on a block.
    let block = of_mm(&[
        (0.0, 0.0),
        (60.0, 0.0),
        (60.0, 55.0),
        (160.0, 95.0),
        (158.0, 100.0),
        (55.0, 60.0),
        (0.0, 60.0),
    ]);
    let block = refused(part(&block, &[]));
    assert!(matches!(block, NoMiddleLines::Unpaired | NoMiddleLines::Thick { .. }), "{block:?}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    /// Trays with two webs and two lips, each at an angle of its own, in any place and turned as it may be.
    #[test]
    fn any_tray(
        angles in prop::collection::vec(0.3..1.5_f64, 4),
        lengths in prop::collection::vec(0.05..0.2_f64, 5),
        t in 0.002..0.006,
        turn in -3.2..3.2,
        lips in (any::<bool>(), any::<bool>()),
    ) {
        // The left half from the bottom outwards, and the right half. Lips turn outwards, so that nothing meets itself.
        let half = |sense: f64, web: f64, lip: Option<f64>, from: f64, of: (f64, f64)| {
            let foot = (sense * from, 0.0);
            let head = (foot.0 + sense * of.0 * libm::cos(web), of.0 * libm::sin(web));
            let mut line = vec![foot, head];
            line.extend(lip.map(|bend| {
                let angle = web - bend;
                (head.0 + sense * of.1 * libm::cos(angle), head.1 + of.1 * libm::sin(angle))
            }));
            line
        };
        let breadth = 0.5 * lengths[0] + 0.1;
        let lip = |has: bool, angle: f64| has.then_some(0.6 * angle);
        let left = half(-1.0, angles[0], lip(lips.0, angles[2]), breadth, (lengths[1], lengths[2]));
        let right = half(1.0, angles[1], lip(lips.1, angles[3]), breadth, (lengths[3], lengths[4]));
        let line: Vec<Place> = left.into_iter().rev().chain(right).collect();
        let line = turned(&line, turn);
        let wanted = along(&line, t);
        let found = walls(part(&folded(&line, t), &[]));
        are_the_same(&found, &wanted);
        let all = names(&found);
        prop_assert!((1..all.len()).all(|k| !all[..k].contains(&all[k])), "{:?}", all);
    }

    /// Whatever ring of corners: walls, or a reason.
    #[test]
    fn nothing_makes_it_panic(corners in prop::collection::vec((-1.0..1.0_f64, -1.0..1.0_f64), 0..12), near in any::<bool>()) {
        let places: Vec<Place> = match near {
            true => corners.iter().map(|&(x, y)| ((4.0 * x).round(), (4.0 * y).round())).collect(),
            false => corners,
        };
        if let Ok(walls) = ThinWalls::of_parts(&[part(&places, &[])], &["outline"]) {
            prop_assert!(walls.area() > 0.0);
        }
    }
}
