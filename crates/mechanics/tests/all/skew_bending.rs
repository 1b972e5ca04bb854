//! Bending of sections without an upright or level axis of symmetry: textbooks, an independent integration, balances.

use mechanics::real;
use mechanics::section::{Edge, Figure, Loop, Part, Point, Section, shapes};
use mechanics::stress::{SkewBending, StressOverDepth};
use proptest::prelude::*;

fn polygon(corners: &[Point]) -> Part {
    Part {
        outline: Loop { start: corners[0], path: corners[1..].iter().map(|&to| Edge::Line { to }).collect() },
        holes: Vec::new(),
        modular_ratio: 1.0,
        figure: Figure::Outline,
    }
}

fn points(corners: &[(f64, f64)], unit: f64) -> Vec<Point> {
    corners.iter().map(|&(x, y)| Point { x: unit * x, y: unit * y }).collect()
}

#[track_caller]
fn within(found: f64, wanted: f64, half_a_place: f64) {
    assert!((found - wanted).abs() <= half_a_place, "found {found}, wanted {wanted}");
}

/// A web 8 mm wide and 80 mm deep under a flange of 120 mm by 8 mm that reaches 36 mm beyond it on the left.
fn flange_aside_of_its_web() -> Section {
    let corners = [
        (-36.0, 88.0),
        (-36.0, 80.0),
        (0.0, 80.0),
        (0.0, 0.0),
        (8.0, 0.0),
        (8.0, 80.0),
        (84.0, 80.0),
        (84.0, 88.0),
    ];
    Section::new(vec![polygon(&points(&corners, 1e-3))]).expect("a sound outline")
}

/// Published: T. H. G. Megson, *Aircraft Structures for Engineering Students*, example 16.2 (from memory): I_xx = 1.09e6,
/// I_yy = 1.31e6, I_xy = 0.34e6 mm⁴; under 1500 N m that pulls above, sigma = 1.5 y - 0.39 x, most -96 N/mm² at the foot of
/// the web, and the neutral axis inclined by 14.6°.
#[test]
fn a_flange_aside_of_its_web_bends_as_published() {
    let section = flange_aside_of_its_web();
    let properties = section.properties();
    within(1e12 * properties.second_moment, 1.09e6, 0.005e6);
    within(1e12 * properties.second_moment_upright, 1.31e6, 0.005e6);
    within(1e12 * properties.product_moment, 0.34e6, 0.005e6);
    let bending = SkewBending::under(&section, -1500.0);
    within(1e-9 * bending.per_y, 1.5, 0.05);
    within(1e-9 * bending.per_x, -0.39, 0.005);
    // The book divides its rounded 0.39 ± 0.005 by 1.5 ± 0.05: 14.6° to 0.7° at worst; 14.47° exactly.
    within(bending.neutral_axis_angle().to_degrees(), 14.6, 0.7);
    let [_, (at, stress)] = bending.extremes(&section).expect("it is bent");
    within(1e-6 * stress, -96.0, 0.6);
    within(1e3 * (at.x - properties.centroid.x), -8.0, 1e-9);
    within(1e3 * (at.y - properties.centroid.y), -66.4, 1e-9);
}

fn zed() -> Section {
    let corners = [
        (0.0, 12.0),
        (0.0, 0.0),
        (80.0, 0.0),
        (80.0, 88.0),
        (148.0, 88.0),
        (148.0, 100.0),
        (68.0, 100.0),
        (68.0, 12.0),
    ];
    Section::new(vec![polygon(&points(&corners, 1e-3))]).expect("a sound outline")
}

/// Published: F. P. Beer and E. R. Johnston, *Mechanics of Materials*, the sample problem of a Z of 100 mm, flanges of 80 mm
/// and 12 mm throughout (from memory): 4.18e-6, 3.25e-6 and 2.87e-6 m⁴, principal moments 6.63e-6 and 0.810e-6 m⁴ about
/// axes turned by 40.4°.
#[test]
fn the_principal_axes_of_a_zed_are_the_published_ones() {
    let section = zed();
    let of = section.properties();
    within(1e6 * of.second_moment, 4.18, 0.005);
    within(1e6 * of.second_moment_upright, 3.25, 0.005);
    within(1e6 * of.product_moment, 2.87, 0.005);
    within(1e6 * of.principal.largest, 6.63, 0.005);
    // From rounded moments there; 0.808 exactly.
    within(1e6 * of.principal.smallest, 0.810, 0.005);
    within(of.principal.angle.to_degrees().abs(), 40.4, 0.05);
}

/// Closed form: by the principal axes, sigma = -M cos θ v / I_1 + M sin θ u / I_2, and so the same stress.
#[test]
fn both_ways_to_the_stress_of_a_zed_agree() {
    let section = zed();
    let of = section.properties();
    let moment = 1500.0;
    let bending = SkewBending::under(&section, moment);
    let (sin, cos) = (real::sin(of.principal.angle), real::cos(of.principal.angle));
    for corner in section.hull() {
        let (x, y) = (corner.x - of.centroid.x, corner.y - of.centroid.y);
        let (u, v) = (x * cos + y * sin, y * cos - x * sin);
        let wanted = -moment * cos * v / of.principal.largest - moment * sin * u / of.principal.smallest;
        within(bending.stress(corner), wanted, 1e-9 * wanted.abs().max(1e6));
    }
}

#[test]
fn with_an_axis_of_symmetry_it_is_the_simple_formula() {
    let section =
        Section::new(shapes::channel(0.2, 0.08, 0.008, 0.01).expect("it fits").parts).expect("sound");
    let (bending, simple) = (SkewBending::under(&section, 4e3), StressOverDepth::new(&section, 4e3, 9e3));
    within(bending.neutral_axis_angle(), 0.0, 1e-12);
    for y in [0.0, 0.05, 0.19] {
        within(bending.stress(Point { x: 0.03, y }), simple.bending_stress(y), 1e-6);
        let flow = SkewBending::flow_on_cut(&section, [9e3, 0.0], y).expect("it meets");
        within(flow, simple.shear_flow(y), 1e-9 * simple.shear_flow(0.1).abs());
    }
}

/// The hull of a Z leaves out the corners inside, and begins with the lowest on the left.
#[test]
fn a_zed_has_six_corners_outside() {
    let hull = zed().hull();
    let wanted =
        points(&[(0.0, 0.0), (80.0, 0.0), (148.0, 88.0), (148.0, 100.0), (68.0, 100.0), (0.0, 12.0)], 1e-3);
    assert_eq!(hull.len(), wanted.len());
    for (found, wanted) in hull.iter().zip(&wanted) {
        within(found.x, wanted.x, 1e-12);
        within(found.y, wanted.y, 1e-12);
    }
}

/// Closed form: a round bar is stretched most where its tangent runs along the neutral axis.
#[test]
fn on_an_arc_the_farthest_point_is_that_of_the_tangent() {
    let section = Section::new(shapes::circle(0.1).expect("it fits").parts).expect("sound");
    let bending = SkewBending::new(&section, 3e3, 4e3);
    let [(at, _), _] = bending.extremes(&section).expect("it is bent");
    within(at.x - section.properties().centroid.x, 0.05 * 0.8, 1e-12);
    within(at.y - section.properties().centroid.y, 0.05 * 0.6, 1e-12);
}

/// What a polygon's fan of triangles gives: weights and points that integrate quadratics exactly (the mid-points of the
/// sides; any text on finite elements). Knows nothing of the engine's integrals round the outline.
fn for_each_node(corners: &[Point], mut hand_on: impl FnMut(Point, f64)) {
    let middle = |a: Point, b: Point| Point { x: 0.5 * (a.x + b.x), y: 0.5 * (a.y + b.y) };
    for pair in corners[1..].windows(2) {
        let (a, b, c) = (corners[0], pair[0], pair[1]);
        let area = 0.5 * ((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x));
        for point in [middle(a, b), middle(b, c), middle(c, a)] {
            hand_on(point, area / 3.0);
        }
    }
}

prop_compose! {
    /// A polygon that can be seen whole from its middle, far from any symmetry.
    fn any_polygon()(radii in prop::collection::vec(0.02..0.2_f64, 5..9), turn in 0.0..1.0_f64) -> Vec<Point> {
        let step = std::f64::consts::TAU / radii.len() as f64;
        let corner = |(k, r): (usize, &f64)| {
            let angle = turn + step * k as f64;
            Point { x: 0.4 + r * real::cos(angle), y: 0.1 + r * real::sin(angle) }
        };
        radii.iter().enumerate().map(corner).collect()
    }
}

prop_compose! {
    /// A post and a wedge of another material against its right side, far from any symmetry.
    fn post_and_wedge()(
        post in (0.02..0.2_f64, 0.1..0.4_f64),
        wedge in (0.1..0.9_f64, 0.1..0.9_f64),
        tip in (0.01..0.3_f64, -0.1..0.5_f64),
    ) -> [Vec<Point>; 2] {
        let at = |x: f64, y: f64| Point { x: 0.4 + x, y: 0.1 + y };
        let ((b, h), low) = (post, post.1 * 0.5 * wedge.0);
        let high = low + 0.1 * h + wedge.1 * (0.9 * h - low);
        [
            vec![at(0.0, 0.0), at(b, 0.0), at(b, h), at(0.0, h)],
            vec![at(b, low), at(b + tip.0, tip.1), at(b, high)],
        ]
    }
}

fn of_two_materials(parts: &[Vec<Point>; 2], ratios: [f64; 2]) -> Section {
    let part = |(corners, ratio): (&Vec<Point>, f64)| Part { modular_ratio: ratio, ..polygon(corners) };
    Section::new(parts.iter().zip(ratios).map(part).collect()).expect("a sound section")
}

fn turned(corners: &[Point], by: f64) -> Vec<Point> {
    let (sin, cos) = (real::sin(by), real::cos(by));
    corners.iter().map(|p| Point { x: p.x * cos - p.y * sin, y: p.x * sin + p.y * cos }).collect()
}

/// `∫ q dy` over all level cuts.
fn flow_over_all_cuts(section: &Section, force: f64) -> f64 {
    let mut levels: Vec<f64> = section.levels().collect();
    levels.sort_by(f64::total_cmp);
    // Between two levels the flow is a polynomial of the third degree: three points of Gauss are exact.
    let gauss = [(-0.6_f64.sqrt(), 5.0 / 9.0), (0.0, 8.0 / 9.0), (0.6_f64.sqrt(), 5.0 / 9.0)];
    let mut sum = 0.0;
    for pair in levels.windows(2) {
        let half = 0.5 * (pair[1] - pair[0]);
        for (at, weight) in gauss {
            let y = 0.5 * (pair[0] + pair[1]) + half * at;
            sum += weight * half * SkewBending::flow_on_cut(section, [force, 0.0], y).expect("it meets");
        }
    }
    sum
}

proptest! {
    #[test]
    fn the_stress_adds_up_to_the_moment_alone(corners in any_polygon(), moment in -9e3..9e3_f64) {
        let section = Section::new(vec![polygon(&corners)]).expect("a sound outline");
        let bending = SkewBending::under(&section, moment);
        let centre = section.properties().centroid;
        let (mut force, mut pulls_above, mut pulls_right, mut scale) = (0.0, 0.0, 0.0, 0.0_f64);
        for_each_node(&corners, |at, area| {
            let part = bending.stress(at) * area;
            force += part;
            pulls_above += part * (at.y - centre.y);
            pulls_right += part * (at.x - centre.x);
            scale += (bending.stress(at) * area).abs();
        });
        let size = section.properties().height().max(section.properties().breadth());
        prop_assert!(force.abs() <= 1e-9 * scale);
        prop_assert!((pulls_above + moment).abs() <= 1e-9 * scale * size);
        prop_assert!(pulls_right.abs() <= 1e-9 * scale * size);
    }

    /// Each material bears its modular ratio times the plane of stress: all of it adds up to no force, to the moment, and to nothing about
    /// the upright axis; whichever material is that of reference.
    #[test]
    fn in_several_materials_it_adds_up_to_the_moment_alone(
        parts in post_and_wedge(),
        ratio in prop_oneof![0.02..0.9_f64, 1.1..30.0_f64],
        moment in -9e3..9e3_f64,
    ) {
        let sections = [of_two_materials(&parts, [1.0, ratio]), of_two_materials(&parts, [1.0 / ratio, 1.0])];
        let [section, other] = &sections;
        let (bending, turned) = (SkewBending::under(section, moment), SkewBending::under(other, moment));
        let centre = section.properties().centroid;
        let (mut force, mut pulls_above, mut pulls_right, mut scale, mut most) = (0.0, 0.0, 0.0, 0.0_f64, 0.0_f64);
        for (place, corners) in parts.iter().enumerate() {
            let (own, of_other) = (section.parts()[place].modular_ratio, other.parts()[place].modular_ratio);
            for_each_node(corners, |at, area| {
                let stress = own * bending.stress(at);
                force += stress * area;
                pulls_above += stress * area * (at.y - centre.y);
                pulls_right += stress * area * (at.x - centre.x);
                scale += (stress * area).abs();
            });
            for &at in corners {
                most = most.max((own * bending.stress(at)).abs());
            }
            for &at in corners {
                let off = own * bending.stress(at) - of_other * turned.stress(at);
                prop_assert!(off.abs() <= 1e-9 * most, "{off} of {most}");
            }
        }
        let size = section.properties().height().max(section.properties().breadth());
        prop_assert!(force.abs() <= 1e-9 * scale);
        prop_assert!((pulls_above + moment).abs() <= 1e-9 * scale * size);
        prop_assert!(pulls_right.abs() <= 1e-9 * scale * size);
    }

    /// A plane is largest and least at a corner of each part.
    #[test]
    fn the_extremes_in_a_material_are_at_its_own_corners(
        parts in post_and_wedge(),
        ratio in 0.05..30.0_f64,
        moment in 1.0..9e3_f64,
    ) {
        let section = of_two_materials(&parts, [1.0, ratio]);
        let bending = SkewBending::under(&section, moment);
        for (place, corners) in parts.iter().enumerate() {
            let own = section.parts()[place].modular_ratio;
            let [(highest, most), (lowest, least)] = bending.extremes_in(&section, &[place]).expect("it is bent");
            let stresses: Vec<f64> = corners.iter().map(|&at| own * bending.stress(at)).collect();
            let [largest, smallest] = [f64::max, f64::min].map(|of| stresses.iter().copied().reduce(of).expect("corners"));
            let scale = 1e-7 * largest.abs().max(smallest.abs());
            within(most, largest, scale);
            within(least, smallest, scale);
            for (at, stress) in [(highest, most), (lowest, least)] {
                within(own * bending.stress(at), stress, scale);
                let near = |corner: &Point| real::hypot(corner.x - at.x, corner.y - at.y) <= 1e-9;
                prop_assert!(corners.iter().any(near));
                prop_assert!(section.hull_of(&[place]).iter().any(near));
            }
        }
        prop_assert!(bending.extremes_in(&section, &[]).is_none() && bending.extremes_in(&section, &[2]).is_none());
    }

    #[test]
    fn half_a_turn_changes_the_sign_alone(corners in any_polygon(), moment in 1.0..9e3_f64) {
        let section = Section::new(vec![polygon(&corners)]).expect("a sound outline");
        let half = turned(&corners, std::f64::consts::PI);
        let other = Section::new(vec![polygon(&half)]).expect("a sound outline");
        let (one, two) = (SkewBending::under(&section, moment), SkewBending::under(&other, moment));
        let [(_, most), (_, least)] = one.extremes(&section).expect("it is bent");
        let scale = most - least;
        for (a, b) in corners.iter().zip(&half) {
            prop_assert!((one.stress(*a) + two.stress(*b)).abs() <= 1e-9 * scale);
        }
        let off = real::sin(one.neutral_axis_angle() - two.neutral_axis_angle());
        prop_assert!(off.abs() <= 1e-9);
    }

    #[test]
    fn turned_to_its_principal_axes_it_has_no_product_moment(corners in any_polygon()) {
        let principal = Section::new(vec![polygon(&corners)]).expect("a sound outline").properties().principal;
        let straight = Section::new(vec![polygon(&turned(&corners, -principal.angle))]).expect("a sound outline");
        let of = straight.properties();
        prop_assert!(of.product_moment.abs() <= 1e-9 * principal.largest);
        prop_assert!((of.second_moment - principal.largest).abs() <= 1e-9 * principal.largest);
        prop_assert!((of.second_moment_upright - principal.smallest).abs() <= 1e-9 * principal.largest);
    }

    #[test]
    fn no_corner_is_pulled_or_pressed_more_than_the_extremes(corners in any_polygon(), moment in 1.0..9e3_f64) {
        let section = Section::new(vec![polygon(&corners)]).expect("a sound outline");
        let bending = SkewBending::under(&section, moment);
        let [(_, most), (_, least)] = bending.extremes(&section).expect("it is bent");
        let hull: Vec<f64> = section.hull().into_iter().map(|at| bending.stress(at)).collect();
        let slack = 1e-7 * (most - least);
        prop_assert!(corners.iter().all(|&at| bending.stress(at) <= most + slack && bending.stress(at) >= least - slack));
        prop_assert!(hull.iter().any(|stress| (stress - most).abs() <= slack));
        prop_assert!(hull.iter().any(|stress| (stress - least).abs() <= slack));
    }

    /// The same of several materials: `∫ q dy` over all level cuts is the shear force.
    #[test]
    fn in_several_materials_too_the_flow_adds_up_to_the_shear_force(parts in post_and_wedge(), ratio in 0.05..30.0_f64) {
        let section = of_two_materials(&parts, [1.0, ratio]);
        let sum = flow_over_all_cuts(&section, 5e3);
        prop_assert!((sum - 5e3).abs() <= 1e-8 * 5e3, "{sum}");
    }

    /// A joint that is level from side to side is a level cut: its flow is that of the cut, and of the part below it the same.
    #[test]
    fn the_flow_in_a_level_joint_is_that_on_the_cut(
        (breadth, height) in (0.02..0.4_f64, 0.05..0.4_f64),
        (over, thickness) in (0.01..0.3_f64, 0.01..0.1_f64),
        (lean, force, sideways) in (0.0..1.0_f64, 1.0..9e3_f64, -9e3..9e3_f64),
    ) {
        let at = |x: f64, y: f64| Point { x, y };
        let web = polygon(&[at(0.0, 0.0), at(breadth, 0.0), at(breadth, height), at(0.0, height)]);
        let left = -lean * over;
        let (right, top) = (left + breadth + over, height + thickness);
        let flange = polygon(&[at(left, height), at(right, height), at(right, top), at(left, top)]);
        let section = Section::new(vec![web, flange]).expect("they touch");
        let wanted = SkewBending::flow_on_cut(&section, [force, sideways], height).expect("it meets");
        for (held, sign) in [(1, 1.0), (0, -1.0)] {
            let joint = section.joint_cut(&[held]).expect("one of two");
            let flow = sign * SkewBending::flow_in_joint(&section, [force, sideways], &joint);
            let scale = (force.abs() + sideways.abs()) / height.min(breadth);
            within(flow, wanted, 1e-9 * scale);
        }
    }

    /// `∫ q dy` over all level cuts is the shear force, and the flow is what two sections a little apart differ by.
    #[test]
    fn the_flow_on_level_cuts_adds_up_to_the_shear_force(corners in any_polygon(), force in 1.0..9e3_f64) {
        let section = Section::new(vec![polygon(&corners)]).expect("a sound outline");
        let sum = flow_over_all_cuts(&section, force);
        prop_assert!((sum - force).abs() <= 1e-8 * force, "{sum} of {force}");
    }
}
