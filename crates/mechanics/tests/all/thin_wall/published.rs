//! Open sections against the textbooks (from memory; each closed formula is an elementary integral on the middle line).

use super::{near, near_on};
use core::f64::consts::{FRAC_1_SQRT_2, PI};
use mechanics::real::{cos, sin};
use mechanics::section::Point;
use mechanics::thin_wall::{ThinWalls, Wall};

/// `e = 3 b² t_f / (h t_w + 6 b t_f)` from the web, away from the flanges: Gere & Timoshenko, Hibbeler.
#[test]
fn shear_centre_of_a_channel() {
    let (b, h, flange, web) = (0.08, 0.2, 0.012, 0.008);
    let channel = ThinWalls::channel(b, h, flange, web).expect("the dimensions are sound");
    near(channel.second_moment(), web * h.powi(3) / 12.0 + 2.0 * b * flange * h * h / 4.0);
    near(channel.shear_centre().x, -3.0 * b * b * flange / (h * web + 6.0 * b * flange));
    near_on(channel.shear_centre().y, 0.0, h);
    // The web takes all of V, the flanges a couple.
    let flow = channel.shear_flow(0.0, 10.0e3);
    near(flow.wall_force(1).abs(), 10.0e3);
    near(flow.wall_force(0).abs(), flow.wall_force(2).abs());
    let largest = flow.largest().expect("it has walls");
    near(
        largest.stress,
        10.0e3 * (b * flange * h / 2.0 + web * h * h / 8.0) / (channel.second_moment() * web),
    );
    near_on(largest.at.x, 0.0, b);
    near_on(largest.at.y, 0.0, h);
    near_on(flow.at(2, 1.0), 0.0, largest.flow);
}

/// Beer & Johnston, *Mechanics of Materials*, examples on the shear centre (from memory): a channel with b = 4 in, h = 6 in,
/// t = 0.15 in has e = 1.600 in; under V = 2.5 kip the stress is 2.22 ksi in the flange at the web, at most 3.06 ksi.
#[test]
fn the_channel_of_a_textbook() {
    let channel = ThinWalls::channel(4.0, 6.0, 0.15, 0.15).expect("the dimensions are sound");
    near(-channel.shear_centre().x, 1.6);
    let flow = channel.shear_flow(0.0, 2.5);
    assert!((flow.at(0, 1.0).abs() / 0.15 - 2.22).abs() < 0.005);
    assert!((flow.largest().expect("it has walls").stress - 3.06).abs() < 0.005);
}

/// `e = 2 R` from the centre of a slit tube (Hibbeler); `2 R (sin a - a cos a) / (a - sin a cos a)` for an arc through `2 a`
/// (Timoshenko), `4 R / pi` for half a tube.
#[test]
fn shear_centres_of_round_walls() {
    let (r, t) = (0.05, 0.003);
    let tube = ThinWalls::slit_tube(r, t).expect("the dimensions are sound");
    near(tube.second_moment(), PI * r.powi(3) * t);
    near(tube.shear_centre().x, -2.0 * r);
    near(tube.torsion_constant(), 2.0 * PI * r * t.powi(3) / 3.0);
    // Opposite the slit: 4 V / A, twice that of a closed tube.
    near(tube.shear_flow(0.0, 8.0e3).largest().expect("it has walls").stress, 4.0 * 8.0e3 / tube.area());
    for a in [0.4, 0.5 * PI, 2.0] {
        let end = |angle: f64| Point { x: -r * cos(angle), y: r * sin(angle) };
        let wall = Wall::round("arc", (0, 1), Point { x: 0.0, y: 0.0 }, -2.0 * a, t);
        let arc = ThinWalls::new(vec![end(-a), end(a)], vec![wall]).expect("the dimensions are sound");
        near(arc.area(), 2.0 * a * r * t);
        near(arc.centroid().x, -r * sin(a) / a);
        near(arc.shear_centre().x, -2.0 * r * (sin(a) - a * cos(a)) / (a - sin(a) * cos(a)));
    }
}

/// The walls of an angle meet in its shear centre, whatever its legs: every textbook.
#[test]
fn shear_centre_of_an_unequal_angle() {
    let angle = ThinWalls::angle(0.1, 0.075, 0.008, 0.01).expect("the dimensions are sound");
    near_on(angle.shear_centre().x, 0.0, 0.1);
    near_on(angle.shear_centre().y, 0.0, 0.1);
    // The upright leg takes V, the level one nothing; and the other way round.
    let flow = angle.shear_flow(0.0, -5.0e3);
    near(flow.wall_force(1), -5.0e3);
    near_on(flow.wall_force(0), 0.0, 5.0e3);
    near(angle.shear_flow(3.0e3, 0.0).wall_force(0).abs(), 3.0e3);
}

/// An equal angle under a force square to its axis of symmetry: `3 V / (2 √2 b t)` at the corner, from `I = t b³ / 3`; Gere &
/// Timoshenko, on sections of angles.
#[test]
fn an_equal_angle_bent_about_its_axis_of_symmetry() {
    let (b, t, v) = (0.09, 0.007, 4.0e3);
    let angle = ThinWalls::angle(b, b, t, t).expect("the dimensions are sound");
    let largest = angle.shear_flow(-v * FRAC_1_SQRT_2, v * FRAC_1_SQRT_2).largest().expect("it has walls");
    near(largest.stress, 3.0 * v / (2.0 * 2.0_f64.sqrt() * b * t));
    near_on(largest.at.x, 0.0, b);
    near_on(largest.at.y, 0.0, b);
}

/// Megson, *Aircraft Structures*, the example of a Z of height h and flanges h/2 (from memory, printed to three figures):
/// `I_x = h³ t / 3`, `I_y = h³ t / 12`, `I_xy = h³ t / 8`; the flow is 0.42 V/h where flange and web meet and
/// `(0.42 + 3.42 / 4) V/h` half-way. By fractions 3/7 and 9/7.
#[test]
fn a_zed_of_a_textbook() {
    let (h, t, v) = (0.16, 0.004, 7.0e3);
    let zed = ThinWalls::zed(0.5 * h, h, t, t).expect("the dimensions are sound");
    near(zed.second_moment(), h.powi(3) * t / 3.0);
    near(zed.second_moment_upright(), h.powi(3) * t / 12.0);
    near(zed.product_moment(), h.powi(3) * t / 8.0);
    let flow = zed.shear_flow(0.0, v);
    near(flow.at(1, 0.0), 3.0 / 7.0 * v / h);
    near(flow.at(1, 0.5), 9.0 / 7.0 * v / h);
    assert!((flow.at(1, 0.0) * h / v - 0.42).abs() < 0.01);
    assert!((flow.at(1, 0.5) * h / v - 1.275).abs() < 0.015);
    // Point symmetry: the shear centre is the centroid.
    near_on(zed.shear_centre().x, 0.0, h);
    near_on(zed.shear_centre().y, 0.0, h);
}

/// Boresi & Schmidt, *Advanced Mechanics of Materials*, table of shear centres (from memory): the hat, lips outwards, and the
/// lipped channel, lips inwards; both of one thickness, with web h, flanges b and lips b1, e from the web:
/// `e = b (3 h² b + 6 h² b1 - 8 b1³) / (h³ + 6 h² b + 6 h² b1 + 8 b1³ ± 12 h b1²)`.
#[test]
fn a_hat_and_a_lipped_channel() {
    let (h, b, lip, t): (f64, f64, f64, f64) = (0.1, 0.06, 0.02, 0.002);
    let top = b * (3.0 * h * h * b + 6.0 * h * h * lip - 8.0 * lip.powi(3));
    let below = h.powi(3) + 6.0 * h * h * (b + lip) + 8.0 * lip.powi(3);
    let off = 12.0 * h * lip * lip;
    let hat = ThinWalls::hat(h, b, lip, t).expect("the dimensions are sound");
    near(hat.shear_centre().y - b, top / (below + off));
    near_on(hat.shear_centre().x, 0.0, h);
    let inwards = ThinWalls::hat(h, b, -lip, t).expect("the dimensions are sound");
    near(inwards.shear_centre().y - b, top / (below - off));
}

/// An I with unlike flanges, pushed level: the flanges share as their `t b³`, so the shear centre stands
/// `h I_top / (I_top + I_bottom)` above the lower one. Timoshenko & Gere; and upright, the flange forces balance.
#[test]
fn an_i_with_unlike_flanges() {
    let (h, top, bottom): (f64, (f64, f64), (f64, f64)) = (0.3, (0.16, 0.012), (0.1, 0.01));
    let beam = ThinWalls::i_section(h, top, bottom, 0.008).expect("the dimensions are sound");
    let stiffness = |(b, t): (f64, f64)| t * b.powi(3) / 12.0;
    let centre = beam.shear_centre();
    near(centre.y + 0.5 * h, h * stiffness(top) / (stiffness(top) + stiffness(bottom)));
    near_on(centre.x, 0.0, h);
    let flow = beam.shear_flow(0.0, 40.0e3);
    near(flow.wall_force(2), 40.0e3);
    near_on(flow.wall_force(0) - flow.wall_force(1), 0.0, 40.0e3);
    near(flow.wall_force(3), flow.wall_force(4));
    // q at the foot of the web is V Q / I, Q of the whole lower flange.
    let arm = beam.centroid().y + 0.5 * h;
    near(flow.at(2, 0.0), 40.0e3 * bottom.0 * bottom.1 * arm / beam.second_moment());
    near(
        beam.torsion_constant(),
        (top.0 * top.1.powi(3) + bottom.0 * bottom.1.powi(3) + h * 0.008_f64.powi(3)) / 3.0,
    );
}

/// The walls of a T meet in its shear centre.
#[test]
fn shear_centre_of_a_tee() {
    let tee = ThinWalls::tee(0.12, 0.15, 0.01, 0.007).expect("the dimensions are sound");
    near_on(tee.shear_centre().x, 0.0, 0.15);
    near_on(tee.shear_centre().y, 0.0, 0.15);
}
