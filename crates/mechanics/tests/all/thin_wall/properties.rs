//! What holds for any walls: balances, and how the result follows when the section is moved, turned, mirrored, enlarged, or
//! written in another way.

use super::near_on;
use core::f64::consts::PI;
use mechanics::real;
use mechanics::section::Point;
use mechanics::thin_wall::{Path, ThinWalls, Wall};
use proptest::prelude::*;

/// A crooked box of two cells with a fin, a round end and no axis of symmetry; or the same with some walls left out.
fn any_walls() -> impl Strategy<Value = (Vec<Point>, Vec<Wall>)> {
    let shifts = prop::collection::vec(-0.3..0.3, 16);
    let thicknesses = prop::collection::vec(0.005..0.05, 9);
    (shifts, thicknesses, 0.001..1000.0, prop::sample::subsequence(vec![0, 3, 5], 0..=2)).prop_map(
        |(shifts, t, size, without)| {
            let corners = [
                (0.0, 1.0),
                (1.0, 1.0),
                (2.2, 1.0),
                (0.0, 0.0),
                (1.0, 0.0),
                (2.2, 0.0),
                (3.1, 0.0),
                (-0.8, 1.4),
            ];
            let joint = |(k, (x, y)): (usize, (f64, f64))| Point {
                x: size * (x + shifts[2 * k]),
                y: size * (y + shifts[2 * k + 1]),
            };
            let joints: Vec<Point> = corners.into_iter().enumerate().map(joint).collect();
            let ends = [(0, 1), (1, 2), (3, 4), (4, 5), (3, 0), (4, 1), (5, 2), (5, 6), (0, 7)];
            let mut walls: Vec<Wall> =
                ends.iter().zip(t).map(|(&(a, b), t)| Wall::straight("wall", a, b, size * t)).collect();
            // One of them bulges: half a circle over the two joints.
            let (a, b) = (joints[5], joints[2]);
            let centre = Point { x: 0.5 * (a.x + b.x), y: 0.5 * (a.y + b.y) };
            walls[6].path = Path::Round { centre, sweep: PI };
            for &index in without.iter().rev() {
                walls.remove(index);
            }
            (joints, walls)
        },
    )
}

fn made(joints: Vec<Point>, walls: Vec<Wall>) -> ThinWalls {
    ThinWalls::new(joints, walls).expect("the walls are sound")
}

fn size_of(section: &ThinWalls) -> f64 {
    (0..section.walls().len()).map(|wall| section.length(wall)).fold(0.0, f64::max)
}

/// Another section under another force has the same stresses, wall by wall.
#[track_caller]
fn same_stresses(section: &ThinWalls, force: (f64, f64), other: &ThinWalls, turned: (f64, f64), times: f64) {
    let (one, another) = (section.shear_flow(force.0, force.1), other.shear_flow(turned.0, turned.1));
    let scale = one.largest().expect("it has walls").flow.abs();
    for wall in 0..section.walls().len() {
        for part in [0.0, 0.3, 1.0] {
            near_on(another.at(wall, part) * times, one.at(wall, part), 100.0 * scale);
        }
    }
}

fn mapped(section: &ThinWalls, to: impl Fn(Point) -> Point, sense: f64, times: f64) -> ThinWalls {
    let joints = section.joints().iter().map(|&joint| to(joint)).collect();
    let wall = |wall: &Wall| {
        let path = match wall.path {
            Path::Straight => Path::Straight,
            Path::Round { centre, sweep } => Path::Round { centre: to(centre), sweep: sense * sweep },
        };
        Wall { path, thickness: times * wall.thickness, ..wall.clone() }
    };
    made(joints, section.walls().iter().map(wall).collect())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// The flows add up to the force, their moment is that of the force through the shear centre, joints and cells close.
    #[test]
    fn balances_close((joints, walls) in any_walls(), right in -5.0..5.0, up in -5.0..5.0) {
        let section = made(joints, walls);
        let balance = section.shear_flow(right, up).balance();
        prop_assert!(balance.closes(), "{:?}", balance);
        let joints = section.joints().len();
        prop_assert_eq!(section.cells().len(), section.walls().len() + 1 - joints);
    }

    #[test]
    fn turned_and_moved_axes_change_nothing((joints, walls) in any_walls(), angle in -3.0..3.0) {
        let section = made(joints, walls);
        let (c, s) = (real::cos(angle), real::sin(angle));
        let far = size_of(&section);
        let to = |p: Point| Point { x: c * p.x - s * p.y + far, y: s * p.x + c * p.y - 2.0 * far };
        let other = mapped(&section, to, 1.0, 1.0);
        same_stresses(&section, (1.0, 2.0), &other, (c - 2.0 * s, s + 2.0 * c), 1.0);
        let (centre, moved) = (to(section.shear_centre()), other.shear_centre());
        near_on(moved.x, centre.x, 100.0 * far);
        near_on(moved.y, centre.y, 100.0 * far);
        near_on(other.torsion_constant(), section.torsion_constant(), 100.0 * section.torsion_constant());
    }

    #[test]
    fn a_mirror_mirrors_the_shear_centre((joints, walls) in any_walls()) {
        let section = made(joints, walls);
        let other = mapped(&section, |p| Point { x: -p.x, y: p.y }, -1.0, 1.0);
        same_stresses(&section, (1.0, 2.0), &other, (-1.0, 2.0), 1.0);
        near_on(other.shear_centre().x, -section.shear_centre().x, 100.0 * size_of(&section));
        near_on(other.shear_centre().y, section.shear_centre().y, 100.0 * size_of(&section));
    }

    /// Lengths and thicknesses times k: the flow by 1/k, J by k⁴.
    #[test]
    fn a_larger_section_is_a_larger_section((joints, walls) in any_walls(), k in 0.1..10.0) {
        let section = made(joints, walls);
        let other = mapped(&section, |p| Point { x: k * p.x, y: k * p.y }, 1.0, k);
        same_stresses(&section, (1.0, 2.0), &other, (1.0, 2.0), k);
        near_on(other.shear_centre().x, k * section.shear_centre().x, 100.0 * size_of(&other));
        let j = section.torsion_constant() * f64::powi(k, 4);
        near_on(other.torsion_constant(), j, 100.0 * j);
    }

    /// A wall cut in two, and walls that run the other way, are the same section.
    #[test]
    fn another_way_of_writing_changes_nothing((joints, walls) in any_walls(), part in 0.1..0.9) {
        let section = made(joints.clone(), walls.clone());
        let flow = section.shear_flow(1.0, 2.0);
        let scale = 100.0 * flow.largest().expect("it has walls").flow.abs();
        let (mut joints, mut more) = (joints, walls);
        for wall in 0..more.len() {
            let (middle, last) = (joints.len(), more[wall].to);
            joints.push(section.point(wall, part).expect("there is such a wall").0);
            more[wall].to = middle;
            let mut rest = Wall { from: last, to: middle, ..more[wall].clone() };
            if let Path::Round { centre, sweep } = more[wall].path {
                more[wall].path = Path::Round { centre, sweep: part * sweep };
                rest.path = Path::Round { centre, sweep: (part - 1.0) * sweep };
            }
            more.push(rest);
        }
        let other = made(joints, more);
        let written = other.shear_flow(1.0, 2.0);
        let count = section.walls().len();
        for wall in 0..count {
            near_on(written.at(wall, 0.0), flow.at(wall, 0.0), scale);
            near_on(written.at(wall, 1.0), flow.at(wall, part), scale);
            near_on(written.at(count + wall, 0.0), -flow.at(wall, 1.0), scale);
        }
        near_on(other.shear_centre().x, section.shear_centre().x, 100.0 * size_of(&section));
        near_on(other.shear_centre().y, section.shear_centre().y, 100.0 * size_of(&section));
    }

    /// A box slit along a corner, the slit of no width: open walls, whose flow is by balance alone; and the flow round the cell
    /// that closes the slit again makes the box.
    #[test]
    fn a_slit_box_and_a_flow_round_it_are_the_box(
        b in 0.5..3.0, t in prop::collection::vec(0.01..0.1, 4), right in -2.0..2.0,
    ) {
        let corners = [(0.0, 0.0), (b, 0.0), (b, 1.0), (0.0, 1.0), (0.0, 0.0)];
        let joints: Vec<Point> = corners.iter().map(|&(x, y)| Point { x, y }).collect();
        let walls = |last: usize| -> Vec<Wall> {
            (0..4).map(|k| Wall::straight("wall", k, if k == 3 { last } else { k + 1 }, t[k])).collect()
        };
        let open = made(joints.clone(), walls(4));
        let closed = made(joints[..4].to_vec(), walls(0));
        prop_assert_eq!((open.cells().len(), closed.cells().len()), (0, 1));
        let (slit, whole) = (open.shear_flow(right, 1.0), closed.shear_flow(right, 1.0));
        near_on(slit.at(0, 0.0), 0.0, 10.0);
        let round = whole.at(0, 0.0);
        for wall in 0..4 {
            near_on(whole.at(wall, 0.7), slit.at(wall, 0.7) + round, 10.0);
        }
        // The moment of that flow is what parts the two shear centres.
        let (apart, moved) = (open.shear_centre(), closed.shear_centre());
        let lever = (moved.x - apart.x) - right * (moved.y - apart.y);
        near_on(lever, 2.0 * round * closed.enclosed_area(0), 100.0);
        prop_assert!(open.torsion_constant() < closed.torsion_constant());
    }
}
