//! Straight cuts in any direction: what they free, and what they refuse.

use mechanics::section::{CutFault, HeightSide, Part, Point, Section, StraightCut, shapes};
use proptest::prelude::*;

fn point(x: f64, y: f64) -> Point {
    Point { x, y }
}

fn box_of_plates() -> Section {
    let shape = shapes::box_girder(0.16, 0.2, 0.02, 0.03, 0.03).expect("the box fits together");
    Section::new(shape.parts).expect("the box is sound")
}

fn tube() -> Section {
    Section::new(shapes::round_tube(0.2, 0.01).expect("the tube fits together").parts).expect("sound")
}

#[track_caller]
fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() <= 1e-12 + 1e-9 * wanted.abs(), "found {found}, wanted {wanted}");
}

#[test]
fn an_upright_cut_along_a_joint_frees_the_plates_beyond() {
    let shape = shapes::box_girder(0.16, 0.2, 0.02, 0.03, 0.03).expect("the box fits together");
    assert_eq!(shape.part_names[1], "left web");
    // Along both ends of the left web the plates go on: cut above and below it.
    let section = box_of_plates();
    let cut =
        section.straight_cut(point(-0.01, 0.17), point(0.17, 0.17), point(0.08, 0.18)).expect("it parts");
    near(cut.area, 0.16 * 0.03);
    near(cut.width, 0.04);
    near(cut.first_moment, 0.16 * 0.03 * 0.085);
    assert_eq!(cut.beyond.len(), 1);
    assert_eq!(cut.chords.len(), 2);
    let level = section.level_cut(0.17, HeightSide::Above).expect("it meets");
    near(cut.first_moment, level.first_moment);
    near(cut.width, level.width_of_contact);
}

#[test]
fn a_sloping_cut_through_both_webs_keeps_the_pieces_above_together() {
    let section = box_of_plates();
    let (from, to) = (point(-0.01, 0.08), point(0.17, 0.12));
    let above = section.straight_cut(from, to, point(0.08, 0.19)).expect("it parts");
    let below = section.straight_cut(from, to, point(0.08, 0.01)).expect("it parts");
    near(above.area + below.area, section.properties().area);
    near(above.first_moment, -below.first_moment);
    let slope: f64 = 0.04 / 0.18;
    near(above.width, 0.04 * (1.0 + slope * slope).sqrt());
    assert_eq!(above.beyond.len(), 3, "the top and the upper pieces of both webs");
    near(above.shear_stress(1.0e3) * above.width, above.shear_flow(1.0e3));
}

#[test]
fn an_upright_cut_through_a_tube_frees_half_of_it() {
    let section = tube();
    let cut = section.straight_cut(point(0.0, -0.1), point(0.0, 0.3), point(0.095, 0.1)).expect("it parts");
    near(cut.area, 0.5 * section.properties().area);
    near(cut.width, 0.02);
    assert!(cut.first_moment.abs() < 1e-15);
}

#[test]
fn one_wall_of_a_tube_frees_nothing() {
    let section = tube();
    let cut = section.straight_cut(point(0.0, 0.15), point(0.0, 0.3), point(0.095, 0.1));
    assert_eq!(cut, Err(CutFault::DoesNotPart));
}

/// The hole was lost from the piece that is kept: the ends of the cut stood one bit off the corners of the piece.
#[test]
fn a_cut_through_the_rim_of_a_tube_keeps_its_hole() {
    let section = Section::new(shapes::round_tube(10.0, 2.0).expect("fits").parts).expect("sound");
    let cut = section.straight_cut(point(4.0, 2.0), point(5.0, 4.0), point(-3.53, 1.53)).expect("it parts");
    let chord: f64 = 0.8 * 5.0_f64.sqrt();
    near(cut.width, chord);
    // Closed form of the segment cut off: R² (a - sin a cos a) with sin a = c / (2 R).
    let half = mechanics::real::asin(chord / 10.0);
    let segment = 25.0 * (half - mechanics::real::sin(half) * mechanics::real::cos(half));
    near(cut.area, section.properties().area - segment);
    assert_eq!(cut.beyond[0].1.holes.len(), 1);
}

#[test]
fn cuts_that_miss_end_inside_or_keep_nothing_are_refused() {
    let section = tube();
    let keep = point(0.095, 0.1);
    assert_eq!(section.straight_cut(point(0.2, 0.0), point(0.2, 0.2), keep), Err(CutFault::MeetsNothing));
    assert_eq!(section.straight_cut(point(0.0, 0.0), point(0.0, 0.0), keep), Err(CutFault::MeetsNothing));
    let inside = section.straight_cut(point(0.0, -0.1), point(0.0, 0.195), keep);
    assert!(matches!(inside, Err(CutFault::EndsInside { at }) if (at.y - 0.195).abs() < 1e-12), "{inside:?}");
    let nowhere = section.straight_cut(point(0.0, -0.1), point(0.0, 0.3), point(0.0, 0.1));
    assert_eq!(nowhere, Err(CutFault::KeepsNothing { at: point(0.0, 0.1) }));
    let no_number = section.straight_cut(point(f64::NAN, 0.0), point(0.0, 0.3), keep);
    assert_eq!(no_number, Err(CutFault::NotFinite));
}

#[test]
fn a_cut_along_the_flange_of_a_rolled_profile_starts_where_the_root_begins() {
    // The chord runs from one root to the other in the tangent of both arcs.
    let (w, r, t) = (0.0071, 0.015, 0.0107);
    let section = Section::new(shapes::rolled_i(0.3, 0.15, w, t, r).expect("fits").parts).expect("sound");
    let cut = section.straight_cut(point(-0.1, t), point(0.1, t), point(0.0, 0.001)).expect("it parts");
    near(cut.width, w + 2.0 * r);
    near(cut.area, 0.15 * t);
}

/// A rectangle in planks and in columns: every straight cut through its middle leaves two pieces.
fn laid() -> impl Strategy<Value = Vec<Part>> {
    (1..5u8, 1..4u8).prop_map(|(rows, columns)| {
        let (breadth, height) = (0.2 / f64::from(columns), 0.3 / f64::from(rows));
        let place = |row: u8, column: u8| point(f64::from(column) * breadth, f64::from(row) * height);
        (0..rows)
            .flat_map(|row| (0..columns).map(move |column| (row, column)))
            .map(|(row, column)| Part::rectangle(place(row, column), breadth, height))
            .collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn two_pieces_of_a_cut_make_the_whole(
        parts in laid(), quarter in 0..16i32, turn in -0.19..0.19f64, exact in prop::bool::ANY,
    ) {
        let section = Section::new(parts).unwrap_or_else(|faults| panic!("{faults:?}"));
        // Also level, upright, and along joints.
        let angle = core::f64::consts::PI * f64::from(quarter) / 8.0 + if exact { 0.0 } else { turn };
        let (c, s) = (mechanics::real::cos(angle), mechanics::real::sin(angle));
        let middle = point(0.1, 0.15);
        let at = |along: f64, left: f64| point(middle.x + along * c - left * s, middle.y + along * s + left * c);
        let cut = |left: f64| section.straight_cut(at(-1.0, 0.0), at(1.0, 0.0), at(0.0137, left));
        let (one, other) = (cut(0.03), cut(-0.03));
        let (one, other): (StraightCut, StraightCut) = (one.expect("it parts"), other.expect("it parts"));
        prop_assert!((one.area - 0.03).abs() < 1e-12 && (other.area - 0.03).abs() < 1e-12);
        prop_assert!((one.first_moment + other.first_moment).abs() < 1e-12);
        prop_assert!((one.width - other.width).abs() < 1e-9);
        // How long the line through the middle of the rectangle is.
        let reach = (0.1 / c.abs()).min(0.15 / s.abs());
        prop_assert!((one.width - 2.0 * reach).abs() < 1e-8, "{} against {}", one.width, 2.0 * reach);
    }
    #[test]
    fn cuts_between_grid_points_part_the_section_or_say_why_not(
        kind in 0..5u8,
        from in (-1..11i32, -1..13i32), to in (-1..11i32, -1..13i32), keep in (0..10i32, 0..12i32),
    ) {
        // Corners of the shapes stand on the grid too, so that cuts run through corners and along sides.
        let shape = match kind {
            0 => shapes::i_section(12.0, (10.0, 2.0), (6.0, 3.0), 2.0),
            1 => shapes::box_girder(10.0, 12.0, 2.0, 3.0, 1.0),
            2 => shapes::rolled_i(12.0, 10.0, 2.0, 2.0, 2.0),
            3 => shapes::round_tube(10.0, 2.0),
            _ => shapes::tee(10.0, 3.0, 2.0, 12.0, true),
        };
        let section = Section::new(shape.expect("it fits").parts).expect("it is sound");
        let shift = if matches!(kind, 2 | 3) { 5.0 } else { 0.0 };
        let at = |(x, y): (i32, i32)| point(f64::from(x) - shift, f64::from(y));
        let keep = point(f64::from(keep.0) + 0.47 - shift, f64::from(keep.1) + 0.53);
        if let Ok(cut) = section.straight_cut(at(from), at(to), keep) {
            prop_assert!(cut.area > 0.0 && cut.area < section.properties().area);
            prop_assert!(cut.width > 0.0 && !cut.chords.is_empty());
            // A cut in the tangent of a hole leaves a piece that touches itself in a point: no section of its own.
            let pieces: Result<Vec<Section>, _> =
                cut.beyond.iter().map(|(_, part)| Section::new(vec![part.clone()])).collect();
            prop_assume!(pieces.is_ok());
            let (mut area, mut first) = (0.0, 0.0);
            for piece in pieces.iter().flatten() {
                area += piece.properties().area;
                first += piece.properties().area * (piece.neutral_axis() - section.neutral_axis());
            }
            prop_assert!((area - cut.area).abs() < 1e-9 * area);
            prop_assert!((first - cut.first_moment).abs() < 1e-8 * area);
        }
    }
}
