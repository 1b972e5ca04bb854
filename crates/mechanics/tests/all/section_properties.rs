//! What holds for every section: checked on random polygons, shapes and stacks of planks, from millimetres to kilometres.

use core::f64::consts::PI;
use mechanics::elastic::{Effort, ElasticShear};
use mechanics::real;
use mechanics::section::{Edge, HeightSide, Loop, Part, Point, Section, shapes};
use mechanics::stress::StressOverDepth;
use proptest::prelude::*;

/// A polygon seen whole from its middle, so that its sides cannot cross; some corners on common heights.
fn star() -> impl Strategy<Value = Vec<Part>> {
    (prop::collection::vec(0.2..1.0f64, 3..40), 0.0..PI, prop::bool::ANY).prop_map(
        |(radii, turn, stepped)| {
            let count = radii.len() as f64;
            let corners: Vec<Point> = radii
                .iter()
                .enumerate()
                .map(|(index, radius)| {
                    let angle = turn + 2.0 * PI * (index as f64 + 0.3 * radius) / count;
                    let radius = if stepped { (radius * 4.0).ceil() / 4.0 } else { *radius };
                    Point::new(radius * real::cos(angle), radius * real::sin(angle))
                })
                .collect();
            vec![Part::of_outline(Loop::polygon(&corners), Vec::new())]
        },
    )
}

/// Planks one on the other, each of its own breadth, thickness, place and material.
fn planks() -> impl Strategy<Value = Vec<Part>> {
    prop::collection::vec((0.2..1.0f64, 0.02..0.3f64, -0.05..0.05f64, 0.05..20.0f64), 1..6).prop_map(
        |planks| {
            let mut y = 0.0;
            let mut parts = Vec::new();
            for (breadth, thickness, off, ratio) in planks {
                let corner = Point::new(off - 0.5 * breadth, y);
                parts.push(Part::rectangle(corner, breadth, thickness).with_modular_ratio(ratio));
                y += thickness;
            }
            parts
        },
    )
}

fn shape() -> impl Strategy<Value = Vec<Part>> {
    let sizes = (0.3..1.0f64, 0.3..1.0f64, 0.02..0.14f64, 0.02..0.14f64, 0.0..0.1f64);
    (0..13u8, sizes).prop_map(|(kind, (h, b, s, t, r))| {
        let shape = match kind {
            0 => shapes::rectangle(b, h),
            1 => shapes::circle(h),
            2 => shapes::round_tube(h, t),
            3 => shapes::half_circle(h, s > t),
            4 => shapes::triangle(b, h, 3.0 * s - 0.2, s > t),
            5 => shapes::trapezoid(b, h, h, s - t),
            6 => shapes::tee(b, t, s, h, s > t),
            7 => shapes::i_section(h, (b, t), (0.5 * (b + s), s), 0.5 * s),
            8 => shapes::channel(h, b, s, t),
            9 => shapes::angle(h, b, s, t),
            10 => shapes::box_girder(b, h, s, t, 0.5 * t),
            11 => shapes::rolled_i(h, b, s, t, (0.45 * (b - s)).min(0.45 * (h - 2.0 * t)).min(r)),
            _ => shapes::rolled_channel_sloping(
                h,
                b,
                s,
                (t, 0.5 * b),
                0.02,
                (0.3 * (0.5 * h - t)).min(r),
                0.2 * t,
            ),
        };
        shape.unwrap_or_else(|faults| panic!("{faults:?}")).parts
    })
}

fn any_section() -> impl Strategy<Value = Vec<Part>> {
    prop_oneof![star(), planks(), shape()]
}

/// Every point of the parts moved by a rule; a rule that mirrors turns the arcs round.
fn moved(parts: &[Part], rule: impl Fn(Point) -> Point, mirrors: bool) -> Vec<Part> {
    let of_loop = |outline: &Loop| Loop {
        start: rule(outline.start),
        path: outline
            .path
            .iter()
            .map(|edge| match *edge {
                Edge::Line { to } => Edge::Line { to: rule(to) },
                Edge::Arc { to, centre, counter_clockwise } => Edge::Arc {
                    to: rule(to),
                    centre: rule(centre),
                    counter_clockwise: counter_clockwise != mirrors,
                },
            })
            .collect(),
    };
    let of_part = |part: &Part| Part {
        outline: of_loop(&part.outline),
        holes: part.holes.iter().map(of_loop).collect(),
        modular_ratio: part.modular_ratio,
        figure: part.figure,
    };
    parts.iter().map(of_part).collect()
}

fn section(parts: Vec<Part>) -> Section {
    Section::new(parts).unwrap_or_else(|faults| panic!("{faults:?}"))
}

fn near(found: f64, wanted: f64, scale: f64) -> Result<(), TestCaseError> {
    prop_assert!((found - wanted).abs() <= 1e-9 * scale, "found {found}, wanted {wanted}, scale {scale}");
    Ok(())
}

/// The height a part of the way up.
fn height_at(section: &Section, part: f64) -> f64 {
    let properties = section.properties();
    properties.bottom + part * properties.height()
}

/// Size that a first moment of the section may have.
fn moment_scale(section: &Section) -> f64 {
    section.properties().area * section.properties().height()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_first_moment_of_the_whole_vanishes_and_of_two_pieces_is_opposite(
        parts in any_section(), part in 0.0..1.0f64,
    ) {
        let section = section(parts);
        let scale = moment_scale(&section);
        let cut = |height, side| section.level_cut(height, side).expect("the cut meets").first_moment;
        near(cut(section.properties().bottom, HeightSide::Above), 0.0, scale)?;
        near(cut(section.properties().top, HeightSide::Below), 0.0, scale)?;
        let height = height_at(&section, part);
        near(cut(height, HeightSide::Above), -cut(height, HeightSide::Below), scale)?;
        prop_assert!(cut(height, HeightSide::Above) >= -1e-12 * scale);
    }

    #[test]
    fn the_stresses_add_up_to_their_resultants(parts in any_section()) {
        let section = section(parts);
        for (check, residual) in StressOverDepth::new(&section, 12.0e3, -7.0e3).checks() {
            prop_assert!(residual.closes(), "{check:?} {residual:?}");
        }
    }

    #[test]
    fn the_shear_force_carried_is_the_integral_of_the_stress(
        parts in any_section(), one in 0.0..1.0f64, other in 0.0..1.0f64,
    ) {
        let section = section(parts);
        let stress = StressOverDepth::new(&section, 0.0, 5.0e3);
        let (from, to) = (height_at(&section, one.min(other)), height_at(&section, one.max(other)));
        let properties = section.properties();
        let whole = stress.shear_force_carried(properties.bottom, properties.top);
        near(whole, 5.0e3, 5.0e3)?;
        let pieces = stress.shear_force_carried(properties.bottom, from)
            + stress.shear_force_carried(from, to)
            + stress.shear_force_carried(to, properties.top);
        near(pieces, 5.0e3, 5.0e3)?;
    }

    #[test]
    fn the_profile_over_the_depth_agrees_with_the_level_cut(parts in any_section(), part in 0.0..1.0f64) {
        let section = section(parts);
        let stress = StressOverDepth::new(&section, 0.0, 1.0);
        let height = height_at(&section, part);
        let cut = section.level_cut(height, HeightSide::Above).expect("the cut meets");
        near(stress.first_moment(height), cut.first_moment, moment_scale(&section))?;
        for side in [HeightSide::Below, HeightSide::Above] {
            let flow = stress.shear_stress(height, side) * section.width(height, side);
            let wanted = if section.width(height, side) > 0.0 { cut.first_moment } else { 0.0 };
            near(flow * section.properties().second_moment, wanted, moment_scale(&section))?;
        }
    }

    #[test]
    fn moved_axes_leave_the_stresses(
        parts in any_section(), part in 0.0..1.0f64, (dx, dy) in (-30.0..30.0f64, -30.0..30.0f64),
    ) {
        let far = section(moved(&parts, |p| Point::new(p.x + dx, p.y + dy), false));
        let section = section(parts);
        let (old, new) = (section.properties(), far.properties());
        // The coordinates themselves lose digits when they are moved: 1e-16 of 30 m against sizes of 0.02 m.
        let close = |found: f64, wanted: f64, scale: f64| (found - wanted).abs() <= 1e-8 * scale;
        prop_assert!(close(new.area, old.area, old.area));
        prop_assert!(close(new.second_moment, old.second_moment, old.second_moment));
        prop_assert!(close(new.second_moment_upright, old.second_moment_upright, old.second_moment_upright));
        let both = (old.second_moment * old.second_moment_upright).sqrt();
        prop_assert!(close(new.product_moment, old.product_moment, both));
        let height = height_at(&section, part);
        let cut = |section: &Section, height| section.level_cut(height, HeightSide::Above).expect("meets");
        let (here, there) = (cut(&section, height), cut(&far, height + dy));
        prop_assert!(close(there.first_moment, here.first_moment, moment_scale(&section)));
    }

    #[test]
    fn lengths_times_k_give_powers_of_k(parts in any_section(), part in 0.0..1.0f64, power in -3..4i32) {
        let k = 10.0_f64.powi(power) * 1.37;
        let large = section(moved(&parts, |p| Point::new(k * p.x, k * p.y), false));
        let section = section(parts);
        let (old, new) = (section.properties(), large.properties());
        near(new.area, k.powi(2) * old.area, new.area)?;
        near(new.second_moment, k.powi(4) * old.second_moment, new.second_moment)?;
        near(new.section_modulus_top, k.powi(3) * old.section_modulus_top, new.section_modulus_top)?;
        near(new.radius_of_gyration, k * old.radius_of_gyration, new.radius_of_gyration)?;
        let height = height_at(&section, part);
        let cut = |section: &Section, height| {
            section.level_cut(height, HeightSide::Above).expect("the cut meets").first_moment
        };
        near(cut(&large, k * height), k.powi(3) * cut(&section, height), moment_scale(&large))?;
        let largest = |section: &Section, force| StressOverDepth::new(section, 0.0, force).largest_shear_stress();
        let (small_most, large_most) = (largest(&section, 1.0), largest(&large, k * k));
        near(large_most.value, small_most.value, small_most.value)?;
        prop_assert_eq!(large_most.places.len(), small_most.places.len());
    }

    #[test]
    fn the_mirror_image_has_the_mirrored_stresses(parts in any_section(), part in 0.0..1.0f64) {
        let sideways = section(moved(&parts, |p| Point::new(-p.x, p.y), true));
        let upside_down = section(moved(&parts, |p| Point::new(p.x, -p.y), true));
        let section = section(parts);
        let (old, side, down) = (section.properties(), sideways.properties(), upside_down.properties());
        near(side.second_moment, old.second_moment, old.second_moment)?;
        near(down.second_moment, old.second_moment, old.second_moment)?;
        let both = (old.second_moment * old.second_moment_upright).sqrt();
        near(side.product_moment, -old.product_moment, both)?;
        near(down.section_modulus_top, old.section_modulus_bottom, old.section_modulus_bottom)?;
        let height = height_at(&section, part);
        let cut = |section: &Section, height, side| {
            section.level_cut(height, side).expect("the cut meets").first_moment
        };
        let here = cut(&section, height, HeightSide::Above);
        near(cut(&sideways, height, HeightSide::Above), here, moment_scale(&section))?;
        near(cut(&upside_down, -height, HeightSide::Below), -here, moment_scale(&section))?;
    }

    #[test]
    fn the_first_moment_runs_on_where_the_width_jumps(parts in any_section()) {
        let section = section(parts);
        let step = 1e-7 * section.properties().height();
        for jump in section.width_jumps() {
            let at = |height: f64| {
                section.level_cut(height, HeightSide::Above).map_or(0.0, |cut| cut.first_moment)
            };
            let (below, here, above) = (at(jump.height - step), at(jump.height), at(jump.height + step));
            let most = 1e-6 * moment_scale(&section)
                * section.parts().iter().fold(1.0, |most: f64, part| most.max(part.modular_ratio))
                / section.parts().iter().fold(f64::MAX, |least: f64, part| least.min(part.modular_ratio));
            prop_assert!((below - here).abs() <= most && (above - here).abs() <= most);
        }
    }

    #[test]
    fn no_sampled_stress_is_above_the_largest_found(parts in any_section()) {
        let section = section(parts);
        let stress = StressOverDepth::new(&section, 0.0, 1.0e3);
        let largest = stress.largest_shear_stress();
        for sample in 0..=400 {
            let height = height_at(&section, f64::from(sample) / 400.0);
            for side in [HeightSide::Below, HeightSide::Above] {
                prop_assert!(stress.shear_stress(height, side) <= largest.value * (1.0 + 1e-9));
            }
        }
        for place in &largest.places {
            let reached = stress.shear_stress_on_contact(place.height);
            near(reached, largest.value, largest.value)?;
        }
    }

    #[test]
    fn the_outlines_of_the_part_beyond_have_its_area_and_first_moment(
        parts in any_section(), part in 0.02..0.98f64,
    ) {
        let section = section(parts);
        let height = height_at(&section, part);
        for side in [HeightSide::Below, HeightSide::Above] {
            let cut = section.level_cut(height, side).expect("the cut meets");
            let pieces = section.outlines_beyond(height, side).expect("the cut meets");
            let (mut area, mut first) = (0.0, 0.0);
            for (_, piece) in pieces {
                let piece = Section::new(vec![piece]).unwrap_or_else(|faults| panic!("{faults:?}"));
                let own = piece.properties();
                area += own.area;
                first += own.area * (own.centroid.y - section.neutral_axis());
            }
            prop_assert!((area - cut.area).abs() <= 1e-8 * section.properties().area);
            prop_assert!((first - cut.first_moment).abs() <= 1e-8 * moment_scale(&section));
        }
    }

    #[test]
    fn a_polygon_clipped_by_hand_gives_the_same_part_beyond(parts in star(), part in 0.0..1.0f64) {
        // The clipping of Sutherland and Hodgman and the shoelace formula, apart from the code under test.
        let outline = &parts[0].outline;
        let mut corners = vec![outline.start];
        corners.extend(outline.path.iter().map(|edge| match *edge {
            Edge::Line { to } | Edge::Arc { to, .. } => to,
        }));
        let section = section(parts.clone());
        let height = height_at(&section, part);
        let mut kept: Vec<Point> = Vec::new();
        for (index, &from) in corners.iter().enumerate() {
            let to = corners[(index + 1) % corners.len()];
            if from.y >= height {
                kept.push(from);
            }
            if (from.y >= height) != (to.y >= height) {
                let part = (height - from.y) / (to.y - from.y);
                kept.push(Point::new(from.x + part * (to.x - from.x), height));
            }
        }
        let (mut area, mut first) = (0.0, 0.0);
        for (index, from) in kept.iter().enumerate() {
            let to = kept[(index + 1) % kept.len()];
            let cross = from.x * to.y - to.x * from.y;
            area += 0.5 * cross;
            first += cross * (from.y + to.y) / 6.0;
        }
        let cut = section.level_cut(height, HeightSide::Above).expect("the cut meets");
        near(cut.area, area, section.properties().area)?;
        near(cut.first_moment, first - area * section.neutral_axis(), moment_scale(&section))?;
    }

    #[test]
    fn no_outline_makes_it_panic(
        corners in prop::collection::vec((-3..4i32, -3..4i32, prop::option::of((-2..3i32, -2..3i32))), 0..9),
    ) {
        let point = |x: i32, y: i32| Point::new(f64::from(x), f64::from(y));
        let start = corners.first().map_or(point(0, 0), |&(x, y, _)| point(x, y));
        let path = corners.iter().skip(1).map(|&(x, y, centre)| match centre {
            None => Edge::Line { to: point(x, y) },
            Some((cx, cy)) => Edge::Arc { to: point(x, y), centre: point(cx, cy), counter_clockwise: x > y },
        });
        let part = Part::of_outline(Loop { start, path: path.collect() }, Vec::new());
        if let Ok(section) = Section::new(vec![part]) {
            for (check, residual) in StressOverDepth::new(&section, 1.0, 1.0).checks() {
                prop_assert!(residual.closes(), "{check:?} {residual:?}");
            }
        }
    }
}

/// Closed form of symmetry: a ring of arcs given about its own middle has its centroid there, and its largest shear stress at the axis, with
/// nothing left of rounding; the elastic one lies on the upright axis or at a side.
#[test]
fn what_rounding_leaves_of_zero_is_zero() {
    let (outer, inner) = (0.05, 0.046);
    let at = |radius: f64, angle: f64| Point::new(radius * real::cos(angle), radius * real::sin(angle));
    let middle = Point::new(0.0, 0.0);
    let (slit, whole) = (0.02, 2.0 * PI);
    let arc = |to, counter_clockwise| Edge::Arc { to, centre: middle, counter_clockwise };
    let outline = Loop {
        start: at(outer, slit),
        path: vec![
            arc(at(outer, whole - slit), true),
            Edge::Line { to: at(inner, whole - slit) },
            arc(at(inner, slit), false),
        ],
    };
    let section = Section::new(vec![Part::of_outline(outline, Vec::new())]).expect("it is sound");
    assert_eq!(section.properties().centroid.y, 0.0);
    assert_eq!(section.part_properties(0).map(|of| of.centroid.y), Some(0.0));
    let largest = StressOverDepth::new(&section, 0.0, 1e3).largest_shear_stress();
    assert!(largest.at_neutral_axis && largest.places.iter().all(|place| place.height == 0.0), "{largest:?}");
    let bar = Section::new(shapes::circle(0.07).expect("a circle").parts).expect("it is sound");
    let elastic = ElasticShear::new(&bar, 0.3, Effort::usual()).expect("it is solved");
    let most = elastic.under_level_bending(1e3).largest().expect("a stress");
    assert_eq!((most.at.x, most.at.y), (bar.properties().centroid.x, bar.properties().centroid.y));
}
