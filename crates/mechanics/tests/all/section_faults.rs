//! What a section refuses: the sections of the reference cases of bad input, and others, each with its place.

use crate::cases::{cases, number, part, rectangles};
use mechanics::section::{
    CutFault, Dimension, Edge, Fault, HeightSide, Loop, Part, Point, Ring, Section, shapes,
};
use serde_json::Value;

fn reference(id: &str) -> Value {
    let all = cases(include_str!("../reference/errors.json"));
    all.into_iter().find(|case| case["id"] == id).expect("the case exists")["input"].clone()
}

fn faults(parts: Vec<Part>) -> Vec<Fault> {
    Section::new(parts).err().unwrap_or_default()
}

fn near(found: f64, wanted: f64) -> bool {
    (found - wanted).abs() < 1e-9
}

fn rectangle(x: f64, y: f64, breadth: f64, height: f64) -> Part {
    Part::rectangle(Point::new(x, y), breadth, height)
}

#[test]
fn an_arc_with_two_radii_is_told_with_both() {
    let input = reference("arc-that-misses");
    let found = faults(vec![part(&input["section"]["outline"])]);
    assert!(
        matches!(found[..], [Fault::ArcOffCentre { part: 0, ring: Ring::Outline, side: 0, start_distance, end_distance }]
            if near(start_distance, 0.05) && near(end_distance, 0.06)),
        "{found:?}"
    );
}

#[test]
fn a_bow_tie_is_told_with_its_sides_and_their_crossing() {
    let input = reference("bow-tie");
    let found = faults(vec![part(&input["section"]["outline"])]);
    assert!(
        matches!(found[..], [Fault::SidesCross { part: 0, ring: Ring::Outline, first: 0, second: 2, at }]
            if near(at.x, 0.05) && near(at.y, 0.05)),
        "{found:?}"
    );
}

#[test]
fn a_cut_off_the_section_is_told_with_the_reach_of_the_section() {
    let input = reference("cut-off-the-section");
    let section = Section::new(vec![part(&input["section"]["outline"])]).expect("the rectangle is sound");
    let cut = section.level_cut(number(&input["cut"]["y_m"]), HeightSide::Above);
    assert_eq!(cut, Err(CutFault::MissesSection { height: 0.25, bottom: 0.0, top: 0.2 }));
}

#[test]
fn flanges_that_do_not_fit_are_told_with_the_height() {
    let shape = &reference("flanges-thicker-than-height")["section"]["shape"];
    let flange = (number(&shape["width_m"]), number(&shape["flange_thickness_m"]));
    let found =
        shapes::i_section(number(&shape["height_m"]), flange, flange, number(&shape["web_thickness_m"]));
    assert_eq!(
        found.err(),
        Some(vec![Fault::DoesNotFit {
            pieces: vec![(Dimension::TopFlangeThickness, 0.025), (Dimension::BottomFlangeThickness, 0.025)],
            room: (Dimension::Height, 0.04),
        }])
    );
}

#[test]
fn a_hole_that_crosses_the_outline_is_told() {
    let input = reference("hole-crosses-edge");
    let found = faults(vec![part(&input["section"]["outline"])]);
    assert!(
        matches!(found[..], [Fault::HoleCrossesOutline { part: 0, hole: 0, at }] if near(at.x, 0.1)),
        "{found:?}"
    );
}

#[test]
fn parts_that_overlap_are_told_with_the_range_of_height() {
    let (parts, _) = rectangles(&reference("parts-overlap")["parts"], None);
    let found = faults(parts);
    assert!(
        matches!(found[..], [Fault::PartsOverlap { first: 0, second: 1, from, to }]
            if near(from, 0.1) && near(to, 0.12)),
        "{found:?}"
    );
}

#[test]
fn a_wall_thicker_than_the_radius_is_told_with_the_radius() {
    let shape = &reference("wall-too-thick")["section"]["shape"];
    let found = shapes::round_tube(number(&shape["outer_diameter_m"]), number(&shape["wall_m"]));
    assert_eq!(
        found.err(),
        Some(vec![Fault::DoesNotFit {
            pieces: vec![(Dimension::Wall, 0.06)],
            room: (Dimension::Radius, 0.05),
        }])
    );
}

#[test]
fn all_faults_are_told_at_once() {
    let bow_tie = Part::of_outline(
        Loop::polygon(&[
            Point::new(0.0, 0.0),
            Point::new(1.0, 1.0),
            Point::new(1.0, 0.0),
            Point::new(0.0, 1.0),
        ]),
        Vec::new(),
    );
    let no_ratio = rectangle(2.0, 0.0, 1.0, 1.0).with_modular_ratio(-1.0);
    let mut holed = rectangle(4.0, 0.0, 1.0, 1.0);
    holed.holes.push(rectangle(5.5, 0.2, 0.2, 0.2).outline);
    holed.holes.push(rectangle(4.2, 0.2, 0.4, 0.4).outline);
    holed.holes.push(rectangle(4.3, 0.3, 0.1, 0.1).outline);
    let found = faults(vec![bow_tie, no_ratio, holed]);
    assert!(
        matches!(
            found[..],
            [
                Fault::ModularRatio { part: 1, .. },
                Fault::SidesCross { part: 0, .. },
                Fault::HoleOutside { part: 2, hole: 0 },
                Fault::HolesOverlap { part: 2, first: 1, second: 2 },
            ]
        ),
        "{found:?}"
    );
}

#[test]
fn no_parts_no_numbers_no_area_are_told() {
    assert_eq!(faults(Vec::new()), vec![Fault::NoParts]);
    let found = faults(vec![rectangle(0.0, 0.0, f64::NAN, 1.0), rectangle(0.0, f64::INFINITY, 1.0, 1.0)]);
    assert!(
        matches!(
            found[..],
            [Fault::NotFinite { part: 0, side: 0, .. }, Fault::NotFinite { part: 1, side: 0, .. }]
        ),
        "{found:?}"
    );
    let line = Loop::polygon(&[Point::new(0.0, 0.0), Point::new(1.0, 0.0)]);
    assert!(matches!(
        faults(vec![Part::of_outline(line, Vec::new())])[..],
        [Fault::SidesCross { .. } | Fault::NoArea { .. }]
    ));
    let nothing = Loop { start: Point::new(0.0, 0.0), path: Vec::new() };
    assert!(matches!(faults(vec![Part::of_outline(nothing, Vec::new())])[..], [Fault::NoArea { .. }]));
}

#[test]
fn a_side_that_runs_back_and_a_corner_that_touches_a_side_are_told() {
    let corners = |list: &[(f64, f64)]| {
        let points: Vec<Point> = list.iter().map(|&(x, y)| Point::new(x, y)).collect();
        faults(vec![Part::of_outline(Loop::polygon(&points), Vec::new())])
    };
    let back = corners(&[(0.0, 0.0), (2.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]);
    assert!(matches!(back[..], [Fault::SidesCross { first: 0, second: 1, .. }]), "{back:?}");
    let touching = corners(&[(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (1.0, 0.0), (0.0, 2.0)]);
    assert!(matches!(touching[..], [Fault::SidesCross { first: 0, .. }]), "{touching:?}");
}

#[test]
fn parts_that_do_not_touch_along_a_line_are_told() {
    let apart = faults(vec![rectangle(0.0, 0.0, 1.0, 1.0), rectangle(0.0, 1.5, 1.0, 1.0)]);
    assert_eq!(apart, vec![Fault::PartsApart { parts: vec![1], touching_at: None }]);
    let corner = faults(vec![
        rectangle(0.0, 0.0, 1.0, 1.0),
        rectangle(1.0, 1.0, 1.0, 1.0),
        rectangle(1.0, 2.0, 1.0, 1.0),
    ]);
    assert!(
        matches!(&corner[..], [Fault::PartsApart { parts, touching_at: Some(at) }]
            if *parts == [1, 2] && near(at.x, 1.0) && near(at.y, 1.0)),
        "{corner:?}"
    );
    assert!(faults(vec![rectangle(0.0, 0.0, 1.0, 1.0), rectangle(0.5, 1.0, 1.0, 1.0)]).is_empty());
}

#[test]
fn one_part_within_another_overlaps_it_but_a_core_in_a_hole_does_not() {
    let inside = faults(vec![rectangle(0.0, 0.0, 4.0, 4.0), rectangle(1.0, 1.0, 1.0, 1.0)]);
    assert!(
        matches!(inside[..], [Fault::PartsOverlap { from, to, .. }] if near(from, 1.0) && near(to, 2.0)),
        "{inside:?}"
    );
    let centre = Point::new(0.0, 0.0);
    let tube = Part::of_outline(Loop::circle(centre, 2.0), vec![Loop::circle(centre, 1.0)]);
    let core = Part::of_outline(Loop::circle(centre, 1.0), Vec::new()).with_modular_ratio(0.5);
    let section = Section::new(vec![tube, core]).expect("a core fills its tube");
    let touching: f64 = section.contacts().iter().map(|contact| contact.length).sum();
    assert!(near(touching, 2.0 * core::f64::consts::PI), "{touching}");
}

#[test]
fn an_arc_that_ends_where_it_starts_is_told() {
    let start = Point::new(1.0, 0.0);
    let arc = Edge::Arc { to: start, centre: Point::new(0.0, 0.0), counter_clockwise: true };
    let found = faults(vec![Part::of_outline(Loop { start, path: vec![arc] }, Vec::new())]);
    assert!(matches!(found[0], Fault::ArcEndsMeet { part: 0, ring: Ring::Outline, side: 0 }), "{found:?}");
}
