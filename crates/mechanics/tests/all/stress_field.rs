//! Stress over the side of the beam: principal stresses, their lines, and lines of equal value.
//!
//! Published: examples of textbooks, told at each (from memory). Closed form: what any textbook says of the principal
//! stresses of a beam. The integrator is held against many short steps made here.
#![allow(clippy::unwrap_used, reason = "a test fails where it panics")]

use core::f64::consts::{FRAC_PI_2, FRAC_PI_4};
use mechanics::beam::{Beam, Load, Side, Solution, Support};
use mechanics::real;
use mechanics::section::{HeightSide, Part, Point, Section, shapes};
use mechanics::stress::{
    Family, Grid, PrincipalStresses, StressField, StressOverDepth, TrajectoryEnd, TrajectoryPoint,
};

fn beam(length: f64, loads: Vec<Load>) -> Solution {
    let supports = vec![Support::pin(0.0), Support::pin(length)];
    let beam = Beam { length, flexural_rigidity: 1.0e6, supports, hinges: Vec::new(), loads };
    beam.solve().unwrap()
}

fn evenly_loaded() -> Solution {
    beam(4.0, vec![Load::Spread { from: 0.0, to: 4.0, down_from: 6.0e3, down_to: 6.0e3 }])
}

fn rectangle(breadth: f64, height: f64) -> Section {
    Section::new(shapes::rectangle(breadth, height).unwrap().parts).unwrap()
}

/// A T: a web 60 x 180 mm under a flange 200 x 50 mm.
fn tee() -> Section {
    let parts = vec![
        Part::rectangle(Point::new(0.07, 0.0), 0.06, 0.18),
        Part::rectangle(Point::new(0.0, 0.18), 0.2, 0.05),
    ];
    Section::new(parts).unwrap()
}

#[track_caller]
fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "found {found}, wanted {wanted} within {within}");
}

fn followed(
    field: &StressField<'_>,
    from: (f64, f64),
    family: Family,
    back: bool,
) -> (Vec<TrajectoryPoint>, TrajectoryEnd) {
    let mut points = Vec::new();
    let end = field.follow(from, family, back, field.scale(), |point| {
        points.push(point);
        true
    });
    (points, end)
}

/// Published: Beer and Johnston, Mechanics of Materials, the example of plane stress 50, -10 and 40 MPa: principal
/// stresses 70 and -30 MPa at 26.6°, largest shear 50 MPa (from memory). An equal pull of -10 MPa from all sides is
/// taken off: it moves the circle and turns nothing.
#[test]
fn the_circle_of_a_textbook_example() {
    let found = PrincipalStresses::of(60.0e6, 40.0e6);
    near(found.largest - 10.0e6, 70.0e6, 1.0);
    near(found.smallest - 10.0e6, -30.0e6, 1.0);
    near(found.largest_shear, 50.0e6, 1.0);
    near(found.angle.to_degrees(), 26.6, 0.05);
}

/// Published: Gere and Timoshenko, Mechanics of Materials, the example of principal stresses in a simple beam, 2 x 6 in,
/// at a section with M = 32 400 lb in and V = 3600 lb: at 2, 1 and 0 in above the axis -1800, -900, 0 and 250, 400,
/// 450 psi, principal stresses 34 and -1834, 152 and -1052, 450 and -450 psi (from memory, printed to 1 psi).
#[test]
fn the_principal_stresses_of_a_textbook_beam() {
    const INCH: f64 = 0.0254;
    const POUND: f64 = 4.448_221_615_260_5;
    let psi = POUND / (INCH * INCH);
    let solution = beam(72.0 * INCH, vec![Load::Force { station: 48.0 * INCH, down: 10_800.0 * POUND }]);
    let section = rectangle(2.0 * INCH, 6.0 * INCH);
    let field = StressField::new(&solution, &section);
    for (above, sigma, tau, largest, smallest) in [
        (2.0, -1800.0, 250.0, 34.0, -1834.0),
        (1.0, -900.0, 400.0, 152.0, -1052.0),
        (0.0, 0.0, 450.0, 450.0, -450.0),
    ] {
        let (x, y) = (9.0 * INCH, (3.0 + above) * INCH);
        let stress = field.stress(&field.panel_at(x, y).unwrap(), x, y);
        near(stress.normal / psi, sigma, 1e-6);
        near(stress.shear / psi, tau, 1e-6);
        let principal = stress.principal();
        near(principal.largest / psi, largest, 0.5);
        near(principal.smallest / psi, smallest, 0.5);
        // Closed form: sigma² + 3 tau² by the principal stresses, s1² - s1 s2 + s2².
        let (one, two) = (principal.largest, principal.smallest);
        near(stress.equivalent(), (one * one - one * two + two * two).sqrt(), 1e-6 * psi);
    }
}

/// Closed form: invariants of the stress, and the directions at the axis and at the outer fibres.
#[test]
fn invariants_and_the_directions_that_everyone_knows() {
    for section in [rectangle(0.1, 0.2), tee()] {
        let solution = beam(
            5.0,
            vec![
                Load::Force { station: 1.7, down: 9.0e3 },
                Load::Spread { from: 2.0, to: 5.0, down_from: 1.0e3, down_to: 7.0e3 },
            ],
        );
        let field = StressField::new(&solution, &section);
        let properties = section.properties();
        for panel in field.panels() {
            for (k, j) in (0..=6).flat_map(|k| (0..=6).map(move |j| (k, j))) {
                let x = panel.from + (panel.to - panel.from) * f64::from(k) / 6.0;
                let y = panel.bottom + (panel.top - panel.bottom) * f64::from(j) / 6.0;
                let stress = field.stress(&panel, x, y);
                let found = stress.principal();
                near(found.largest + found.smallest, stress.normal, 1e-9 * field.scale());
                near(
                    found.largest * found.smallest,
                    -stress.shear * stress.shear,
                    1e-9 * field.scale().powi(2),
                );
                near(2.0 * found.largest_shear, found.largest - found.smallest, 1e-9 * field.scale());
            }
        }
        let x = 1.1;
        let at = |y: f64| field.stress(&field.panel_at(x, y).unwrap(), x, y).principal();
        near(at(section.neutral_axis()).angle.abs(), FRAC_PI_4, 1e-9);
        near(at(properties.bottom).angle, 0.0, 1e-12);
        near(at(properties.top).angle.abs(), FRAC_PI_2, 1e-12);
    }
}

/// The same stresses come from the section under V and M of the beam, both sides of every jump.
#[test]
fn the_field_is_what_the_section_has_under_v_and_m() {
    let solution =
        beam(5.0, vec![Load::Force { station: 2.0, down: 9.0e3 }, Load::Couple { station: 3.5, ccw: 2.0e3 }]);
    let section = tee();
    let field = StressField::new(&solution, &section);
    for panel in field.panels() {
        for (x, side) in [(panel.from, Side::Right), (panel.to, Side::Left)] {
            let over =
                StressOverDepth::new(&section, solution.bending_moment(x, side), solution.shear(x, side));
            for (y, side) in [(panel.bottom, HeightSide::Above), (panel.top, HeightSide::Below)] {
                let found = field.stress(&panel, x, y);
                near(found.normal, over.bending_stress(y), 1e-9 * field.scale());
                near(found.shear, over.shear_stress(y, side), 1e-9 * field.scale());
            }
        }
    }
}

#[test]
fn trajectories_cross_the_axis_at_45_degrees_and_meet_the_edges_upright() {
    let solution = evenly_loaded();
    let section = rectangle(0.1, 0.3);
    let field = StressField::new(&solution, &section);
    for family in [Family::Tension, Family::Compression] {
        for x in [0.3, 0.9, 1.4] {
            let (right, right_end) = followed(&field, (x, 0.15), family, false);
            let (left, left_end) = followed(&field, (x, 0.15), family, true);
            assert_eq!(
                (right_end, left_end),
                (TrajectoryEnd::Outline, TrajectoryEnd::Outline),
                "{family:?} {x}"
            );
            let [along, up] = right[0].direction;
            near(real::atan2(up, along).abs(), FRAC_PI_4, 1e-9);
            // A tension line comes from the upper edge, where the beam is pressed, and goes back to it.
            let edge = if family == Family::Tension { 0.3 } else { 0.0 };
            for end in [right.last().unwrap(), left.last().unwrap()] {
                if end.station > 1e-9 && end.station < 4.0 - 1e-9 {
                    near(end.height, edge, 1e-12);
                    near(end.direction[0], 0.0, 1e-6);
                }
            }
            // At midspan V is zero: it runs level there.
            let [before, after] = [2.0 - 0.02, 2.0 + 0.02];
            let middle: Vec<_> = right.iter().filter(|p| (before..=after).contains(&p.station)).collect();
            assert!(middle.iter().all(|point| point.direction[1].abs() < 0.01), "{middle:?}");
        }
    }
}

#[test]
fn the_two_families_are_at_right_angles() {
    let solution = evenly_loaded();
    let section = tee();
    let field = StressField::new(&solution, &section);
    for (x, y) in [(0.4, 0.1), (1.3, 0.2), (3.1, 0.05), (3.9, 0.17)] {
        let [tension, compression] = [Family::Tension, Family::Compression]
            .map(|family| followed(&field, (x, y), family, false).0[0].direction);
        near(tension[0] * compression[0] + tension[1] * compression[1], 0.0, 1e-12);
    }
}

/// A beam and its load that are their own mirror images have lines that are.
#[test]
fn mirrored_beams_have_mirrored_lines() {
    let solution = evenly_loaded();
    let section = tee();
    let field = StressField::new(&solution, &section);
    for (x, y) in [(0.5, 0.11), (1.2, 0.19)] {
        for family in [Family::Tension, Family::Compression] {
            let (one, _) = followed(&field, (x, y), family, false);
            let (other, _) = followed(&field, (4.0 - x, y), family, true);
            assert_eq!(one.len(), other.len());
            for (a, b) in one.iter().zip(&other) {
                near(a.station, 4.0 - b.station, 1e-6);
                near(a.height, b.height, 1e-6);
            }
        }
    }
}

/// The same line by twenty thousand short steps, each along the direction at its middle, from the section's own stresses.
#[test]
fn the_line_is_that_of_many_short_steps() {
    let solution = evenly_loaded();
    let section = rectangle(0.1, 0.3);
    let field = StressField::new(&solution, &section);
    let (points, _) = followed(&field, (0.6, 0.15), Family::Tension, false);
    let direction = |x: f64, y: f64| {
        let over = StressOverDepth::new(
            &section,
            solution.bending_moment(x, Side::Right),
            solution.shear(x, Side::Right),
        );
        let angle = over.principal_stresses(y, HeightSide::Above).angle;
        (real::cos(angle), real::sin(angle))
    };
    let (mut x, mut y, step) = (0.6, 0.15, 1e-4);
    let mut compared = 0;
    for wanted in points.iter().filter(|point| point.station <= 1.9) {
        while x < wanted.station {
            let (cos, sin) = direction(x, y);
            let (cos, sin) = direction(x + 0.5 * step * cos, y + 0.5 * step * sin);
            let last = ((wanted.station - x) / cos).min(step);
            (x, y) = (x + last * cos, y + last * sin);
        }
        near(wanted.height, y, 1e-4 * 0.3);
        compared += 1;
    }
    assert!(compared > 5, "{compared}");
}

/// At a point force V jumps, at the joint of web and flange the width does: the line gets a corner and goes on.
#[test]
fn lines_turn_where_the_stress_jumps() {
    let solution = beam(4.0, vec![Load::Force { station: 2.0, down: 9.0e3 }]);
    let section = rectangle(0.1, 0.3);
    let field = StressField::new(&solution, &section);
    let (points, end) = followed(&field, (1.7, 0.1), Family::Tension, false);
    assert_eq!(end, TrajectoryEnd::Outline);
    let corner = points.windows(2).find(|pair| pair[0].station == 2.0 && pair[1].station == 2.0).unwrap();
    near(corner[0].direction[1], -corner[1].direction[1], 1e-9);
    let section = tee();
    let field = StressField::new(&solution, &section);
    let (points, _) = followed(&field, (0.5, 0.1), Family::Tension, true);
    assert!(points.windows(2).any(|pair| pair[0].height == 0.18 && pair[1].height == 0.18), "{points:?}");
}

#[test]
fn where_nothing_acts_no_line_begins() {
    let beam = Beam {
        length: 4.0,
        flexural_rigidity: 1.0e6,
        supports: vec![Support::pin(0.0), Support::pin(2.0)],
        hinges: Vec::new(),
        loads: vec![Load::Force { station: 1.0, down: 1.0e3 }],
    };
    let solution = beam.solve().unwrap();
    let section = rectangle(0.1, 0.3);
    let field = StressField::new(&solution, &section);
    assert_eq!(followed(&field, (3.0, 0.1), Family::Tension, false).1, TrajectoryEnd::NoDirection);
    assert_eq!(followed(&field, (9.0, 0.1), Family::Tension, false).1, TrajectoryEnd::Outline);
}

/// Closed form: a circle, and the two branches of x y = 1/8 in the box from -1 to 1.
#[test]
fn lines_of_equal_value_lie_where_the_value_is() {
    let places: Vec<f64> = (0..=80).map(|k| -1.0 + f64::from(k) / 40.0).collect();
    let grid = |value: fn(f64, f64) -> f64| Grid {
        across: places.clone(),
        up: places.clone(),
        values: places.iter().map(|&y| places.iter().map(|&x| value(x, y)).collect()).collect(),
    };
    let lines = grid(|x, y| x * x + y * y).lines(0.5);
    assert_eq!(lines.len(), 1);
    assert_eq!(lines[0].first(), lines[0].last(), "closed");
    let length: f64 =
        lines[0].windows(2).map(|pair| real::hypot(pair[1][0] - pair[0][0], pair[1][1] - pair[0][1])).sum();
    near(length, core::f64::consts::TAU * 0.5_f64.sqrt(), 0.01);
    let branches = grid(|x, y| x * y).lines(0.125);
    assert_eq!(branches.len(), 2);
    for [x, y] in branches.iter().flatten() {
        near(x * y, 0.125, 1e-3);
    }
    assert!(grid(|x, y| x + y).lines(3.0).is_empty());
}

/// Closed form: under a uniform load a rectangle has the stresses 3 w L / (4 b h) over the supports and 3 w L² / (4 b h²) at
/// midspan; a T has the largest of its parabola, V (top - axis)² / (2 I) over the web's part, at the axis, on no line of a grid; and
/// between two forces, where V is zero at a point of the stretch only, M is largest at that point.
#[test]
fn the_range_of_a_stress_is_exact() {
    let (solution, section) = (evenly_loaded(), rectangle(0.1, 0.2));
    let field = StressField::new(&solution, &section);
    let (least, most) = field.range(|stress| stress.shear);
    let shear = 0.75 * 6.0e3 * 4.0 / 0.02;
    near(least, -shear, 1e-9 * shear);
    near(most, shear, 1e-9 * shear);
    let bending = 0.75 * 6.0e3 * 16.0 / (0.1 * 0.04);
    let (least, most) = field.range(|stress| stress.normal);
    near(least, -bending, 1e-9 * bending);
    near(most, bending, 1e-9 * bending);
    near(field.range(|stress| stress.principal().largest).1, bending, 1e-9 * bending);

    let section = tee();
    let field = StressField::new(&solution, &section);
    let axis = section.neutral_axis();
    // Below the axis the web alone: Q / t = axis² / 2, whatever stands above.
    let shear = 12.0e3 * 0.5 * axis * axis / section.properties().second_moment;
    near(field.range(|stress| stress.shear).1, shear, 1e-9 * shear);

    // V is R_A over the first metre, then R_A - 2 kN falling by 1 kN/m: M is largest where that is zero.
    let loads = vec![
        Load::Force { station: 1.0, down: 2.0e3 },
        Load::Spread { from: 1.0, to: 4.0, down_from: 1.0e3, down_to: 1.0e3 },
    ];
    let solution = beam(4.0, loads);
    let section = rectangle(0.1, 0.2);
    let right = (2.0 * 1.0 + 3.0 * 2.5) / 4.0;
    let left = 5.0 - right;
    let moment = 1.0e3 * (left + (left - 2.0) * (left - 2.0) / 2.0);
    let bending = moment / (0.1 * 0.04 / 6.0);
    near(StressField::new(&solution, &section).range(|stress| stress.normal).1, bending, 1e-9 * bending);
}
