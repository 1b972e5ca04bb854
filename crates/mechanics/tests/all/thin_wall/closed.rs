//! Boxes of one cell and of two, and the tube, against the theory worked by hand in letters: balance at the corners, no twist
//! of a cell (the way of Megson, *Aircraft Structures*), and Bredt's formulas.

use super::{near, near_on};
use core::f64::consts::PI;
use mechanics::section::Point;
use mechanics::thin_wall::{BoxWalls, ThinWalls, Wall};

/// A closed tube: `V / (π R)` at mid-height, twice V over the area; `J = 2 π R³ t`. Every textbook.
#[test]
fn a_round_tube() {
    let (r, t, v) = (0.06, 0.002, 9.0e3);
    for tube in [ThinWalls::tube(r, t), one_wall(r, t)] {
        let tube = tube.expect("the dimensions are sound");
        assert_eq!(tube.cells().len(), 1);
        let largest = tube.shear_flow(0.0, v).largest().expect("it has walls");
        near(largest.flow.abs(), v / (PI * r));
        near(largest.stress, 2.0 * v / tube.area());
        near_on(largest.at.y, 0.0, r);
        near_on(tube.shear_centre().x, 0.0, r);
        near_on(tube.shear_centre().y, 0.0, r);
        near(tube.torsion_constant(), 2.0 * PI * r.powi(3) * t);
    }
}

/// The tube as one wall that begins and ends at one joint.
fn one_wall(r: f64, t: f64) -> Result<ThinWalls, mechanics::thin_wall::ThinWallFault> {
    let turn = 2.0 * PI;
    let wall = Wall::round("wall", (0, 0), Point { x: 0.0, y: 0.0 }, turn, t);
    ThinWalls::new(vec![Point { x: r * 0.6, y: r * 0.8 }], vec![wall])
}

/// A box with webs of different thickness. With `k = V / I`, the flow up the left web is `q + k t₁ (h²/8 - y²/2)`, so that over
/// the top it runs on as `q - k t h s / 2`, and up the right web begins with `k t h b / 2 - q`. No twist:
///
/// ```text
/// q (h/t₁ + 2 b/t + h/t₂) = k h b² / 2 + k t h² b / (2 t₂)
/// ```
#[test]
fn a_box_with_unlike_webs() {
    let (b, h, t1, t2, t, v): (f64, f64, f64, f64, f64, f64) = (0.3, 0.2, 0.004, 0.009, 0.003, 50.0e3);
    let walls = BoxWalls { bottom: t, right: t2, top: t, left: t1 };
    let section = ThinWalls::box_section(b, h, walls).expect("the dimensions are sound");
    let i = (t1 + t2) * h.powi(3) / 12.0 + 2.0 * b * t * h * h / 4.0;
    near(section.second_moment(), i);
    let k = v / i;
    let q = (0.5 * k * h * b * b + 0.5 * k * t * h * h * b / t2) / (h / t1 + 2.0 * b / t + h / t2);
    let right = 0.5 * k * t * h * b - q;
    let flow = section.shear_flow(0.0, v);
    let scale = flow.largest().expect("it has walls").flow;
    near_on(flow.at(3, 0.0), q, scale);
    near_on(flow.at(3, 1.0), q, scale);
    near_on(flow.at(1, 0.0), right, scale);
    near_on(flow.at(2, 1.0), -right, scale);
    let in_right = right * h + k * t2 * h.powi(3) / 12.0;
    near(flow.wall_force(1), in_right);
    near(flow.wall_force(3), v - in_right);
    let over_top = q * b - k * t * h * b * b / 4.0;
    near(flow.wall_force(2), over_top);
    near(section.shear_centre().x + 0.5 * b, (in_right * b - h * over_top) / v);
    near(section.torsion_constant(), 4.0 * (b * h).powi(2) / (h / t1 + h / t2 + 2.0 * b / t));
}

/// Two like cells under an upright force: both covers shed into the middle web alike,
/// `q (h/t₁ + 2 b/t + 2 h/t₂) = k h b² / 2 + k t h² b / t₂` with q where an outer web meets a cover. In torsion the middle web
/// is idle.
#[test]
fn a_box_of_two_like_cells() {
    let (b, h, outer, middle, t, v): (f64, f64, f64, f64, f64, f64) =
        (0.25, 0.18, 0.003, 0.006, 0.002, 30.0e3);
    let section = ThinWalls::two_cell_box([b, b], h, [t, t], [outer, middle, outer]);
    let section = section.expect("the dimensions are sound");
    assert_eq!(section.cells().len(), 2);
    let i = (2.0 * outer + middle) * h.powi(3) / 12.0 + 4.0 * b * t * h * h / 4.0;
    let k = v / i;
    let q = (0.5 * k * h * b * b + k * t * h * h * b / middle) / (h / outer + 2.0 * b / t + 2.0 * h / middle);
    let flow = section.shear_flow(0.0, v);
    let scale = flow.largest().expect("it has walls").flow;
    near_on(flow.at(4, 0.0), q, scale);
    near_on(flow.at(6, 0.0), q, scale);
    near_on(flow.at(5, 0.0), 2.0 * (0.5 * k * t * h * b - q), scale);
    near(section.shear_centre().x, b);
    near_on(section.shear_centre().y, 0.0, h);
    near(section.torsion_constant(), 4.0 * (2.0 * b * h).powi(2) / (2.0 * h / outer + 4.0 * b / t));
}

/// Two unlike cells in torsion: the pair of equations `∮ q ds/t = 2 A` solved in letters.
#[test]
fn torsion_of_two_unlike_cells() {
    let (breadths, h, covers, webs) = ([0.2, 0.35], 0.15, [0.002, 0.003], [0.004, 0.005, 0.0025]);
    let section = ThinWalls::two_cell_box(breadths, h, covers, webs).expect("the dimensions are sound");
    let outer = |k: usize, web: f64| 2.0 * breadths[k] / covers[k] + h / web;
    let (one, other, shared) = (outer(0, webs[0]), outer(1, webs[2]), h / webs[1]);
    let (a, b) = (breadths[0] * h, breadths[1] * h);
    let over = one * other + shared * (one + other);
    let j = 4.0 * (a * a * (other + shared) + 2.0 * a * b * shared + b * b * (one + shared)) / over;
    near(section.torsion_constant(), j);
    let mut areas: Vec<f64> = (0..2).map(|cell| section.enclosed_area(cell).abs()).collect();
    areas.sort_by(f64::total_cmp);
    near(areas[0], a);
    near(areas[1], b);
}

/// A fin outside a cell counts by its own `t³ L / 3`.
#[test]
fn a_fin_on_a_box() {
    let at = |x: f64, y: f64| Point { x, y };
    let corners = vec![at(0.0, 0.0), at(0.2, 0.0), at(0.2, 0.1), at(0.0, 0.1), at(0.3, 0.0)];
    let wall = |from: usize, to: usize| Wall::straight("wall", from, to, 0.004);
    let walls = vec![wall(0, 1), wall(1, 2), wall(2, 3), wall(3, 0), wall(1, 4)];
    let section = ThinWalls::new(corners, walls).expect("the dimensions are sound");
    let fin = 0.004_f64.powi(3) * 0.1 / 3.0;
    near(section.torsion_constant(), 4.0 * 0.02_f64.powi(2) / (0.6 / 0.004) + fin);
    assert!(section.is_in_cell(0) && !section.is_in_cell(4));
}
