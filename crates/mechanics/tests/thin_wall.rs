//! Thin-walled open sections against the closed formulas of the textbooks (thin-wall theory on the middle line, from
//! memory; each is an elementary integral).

use core::f64::consts::PI;
use mechanics::section::Point;
use mechanics::thin_wall::{ThinWall, Wall};

#[track_caller]
fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() <= 1e-11 * wanted.abs().max(1e-6), "found {found}, wanted {wanted}");
}

/// `e = 3 b² t_f / (h t_w + 6 b t_f)` from the web, away from the flanges.
#[test]
fn shear_centre_of_a_channel() {
    let (b, h, flange, web) = (0.08, 0.2, 0.012, 0.008);
    let channel = ThinWall::channel(b, h, flange, web).expect("the dimensions are sound");
    near(channel.second_moment(), web * h.powi(3) / 12.0 + 2.0 * b * flange * h * h / 4.0);
    near(channel.shear_centre_x(), -3.0 * b * b * flange / (h * web + 6.0 * b * flange));
    // The web takes all of V, the flanges a couple.
    let shear = channel.shear(10.0e3);
    near(shear.wall_forces[1].abs(), 10.0e3);
    near(shear.wall_forces[0].abs(), shear.wall_forces[2].abs());
    let i = channel.second_moment();
    near(shear.largest, 10.0e3 * (b * flange * h / 2.0 + web * h * h / 8.0) / (i * web));
    near(shear.at.x, 0.0);
    assert!(shear.at.y.abs() < 1e-12);
    assert!(shear.end_stresses[2].abs() < 1e-6 * shear.largest, "the last tip is free");
}

/// `e = 2 R` from the centre of a slit tube, `4 R / pi` from that of half a tube.
#[test]
fn shear_centres_of_a_slit_tube_and_of_half_a_tube() {
    let (r, t) = (0.05, 0.003);
    let tube = ThinWall::slit_tube(r, t).expect("the dimensions are sound");
    near(tube.second_moment(), PI * r.powi(3) * t);
    near(tube.shear_centre_x(), -2.0 * r);
    let arc = Wall::Round { centre: Point { x: 0.0, y: 0.0 }, sweep: PI, thickness: t };
    let half = ThinWall::new(Point { x: 0.0, y: r }, vec![arc]).expect("the dimensions are sound");
    near(half.area(), PI * r * t);
    near(half.centroid().x, -2.0 * r / PI);
    near(half.shear_centre_x(), -4.0 * r / PI);
}

/// The walls of an angle meet in its shear centre, whatever its legs.
#[test]
fn shear_centre_of_an_unequal_angle() {
    let leg = |x: f64, y: f64, thickness: f64| Wall::Straight { to: Point { x, y }, thickness };
    let angle = ThinWall::new(Point { x: 0.0, y: 0.1 }, vec![leg(0.0, 0.0, 0.008), leg(0.075, 0.0, 0.01)]);
    let angle = angle.expect("the dimensions are sound");
    assert!(angle.shear_centre_x().abs() < 1e-12);
    // The upright leg takes V, the level one nothing.
    let shear = angle.shear(-5.0e3);
    near(shear.wall_forces[0].abs(), 5.0e3);
    assert!(shear.wall_forces[1].abs() < 1e-9);
}

#[test]
fn walls_without_length_or_thickness_are_refused() {
    assert!(ThinWall::channel(0.06, 0.18, 0.0, 0.005).is_err());
    assert!(ThinWall::channel(0.06, f64::NAN, 0.005, 0.005).is_err());
    assert!(ThinWall::slit_tube(0.0, 0.003).is_err());
    assert!(ThinWall::new(Point { x: 0.0, y: 0.0 }, Vec::new()).is_err());
}
