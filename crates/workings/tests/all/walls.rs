//! Thin walls in the workings: a channel by hand and from textbooks, an unequal angle of plates, other courses' axes.

use crate::common::{Maker, assert_close, lopsided_box, rectangle};
use mechanics::section::{HeightSide, Loop, Part, Point};
use workings::notation::{Notation, Profile};
use workings::solved::Solved;
use workings::style::Style;
use workings::working::Chapter;

fn value(solved: &Solved, name: &str) -> f64 {
    solved.workings().get(name).unwrap_or_else(|| panic!("no working {name:?}")).value.value
}

/// V = 4 kN at the slice.
fn beam(parts: Vec<(&str, Part)>) -> Maker {
    Maker::new(3.0, parts).pin("A", 0.0).pin("B", 3.0).force("P", 2.0, 12e3).slice(1.0, 0.05).cut(
        0.1,
        HeightSide::Below,
        HeightSide::Above,
    )
}

fn channel() -> Vec<(&'static str, Part)> {
    vec![
        ("top flange", rectangle(0.0, 0.2, 0.066, 0.01)),
        ("web", rectangle(0.0, 0.01, 0.012, 0.19)),
        ("bottom flange", rectangle(0.0, 0.0, 0.066, 0.01)),
    ]
}

/// Closed form, by hand: see the numbers beside each.
#[test]
fn a_channel_by_hand() {
    let solved = beam(channel()).solved();
    for (name, wanted) in [
        ("second moment by middle lines", 20e-6),
        // 4000 · 10 · 60 · 100 / 20e6 N/mm
        ("shear flow in top flange at the upper end of web", -12e3),
        ("shear flow in bottom flange at the lower end of web", 12e3),
        ("largest shear flow in the walls", 24e3),
        ("largest shear stress in the walls", 2e6),
        ("shear force in web", 4e3),
        ("upward sum of the forces in the walls", 4e3),
        ("distance of the shear centre from the web", 0.018),
        // 3 · 10 · 60² / (6 · 10 · 60 + 12 · 200)
        ("distance of the shear centre by the closed formula", 0.018),
        ("place of the shear centre to the right", -0.012),
        // 4 kN · (15.9 + 12) mm
        ("torque if the load stands over the centroid", 111.6),
        // (2 · 10³ · 60 + 12³ · 200) / 3
        ("torsion constant", 155_200e-12),
    ] {
        assert_close(name, value(&solved, name), wanted);
    }
    assert_close("torsion", value(&solved, "shear stress of that torque"), 111.6 * 0.012 / 155_200e-12);
}

/// Published: J. M. Gere and B. J. Goodno, *Mechanics of Materials*, the shear centre of a channel `e = 3 b² t_f / (h t_w + 6 b t_f)`
/// (from memory), for channels of every make.
#[test]
fn the_shear_centre_of_channels_is_the_published_one() {
    for (flange, height, thick, thin) in
        [(0.1, 0.2, 0.008, 0.008), (0.09, 0.26, 0.012, 0.006), (0.15, 0.15, 0.01, 0.02)]
    {
        let parts = vec![
            ("top flange", rectangle(0.0, height - thick, flange, thick)),
            ("web", rectangle(0.0, thick, thin, height - 2.0 * thick)),
            ("bottom flange", rectangle(0.0, 0.0, flange, thick)),
        ];
        let solved = beam(parts).solved();
        let (b, h) = (flange - thin / 2.0, height - thick);
        let wanted = 3.0 * b * b * thick / (h * thin + 6.0 * b * thick);
        assert_close("e", value(&solved, "distance of the shear centre from the web"), wanted);
    }
}

/// The engine compares every flow and force when a lesson is solved; here sections without any axis of symmetry, flanges that
/// point both ways, and a wall with a free end below.
#[test]
fn open_sections_of_plates_are_solved_and_checked() {
    let zed = vec![
        ("bottom flange", rectangle(0.0, 0.0, 0.05, 0.01)),
        ("web", rectangle(0.04, 0.01, 0.01, 0.18)),
        ("top flange", rectangle(0.04, 0.19, 0.08, 0.01)),
    ];
    let angle = vec![
        ("upright leg", rectangle(0.0, 0.01, 0.01, 0.19)),
        ("level leg", rectangle(0.0, 0.0, 0.08, 0.01)),
    ];
    let unequal = vec![
        ("top flange", rectangle(-0.05, 0.19, 0.16, 0.01)),
        ("web", rectangle(0.0, 0.01, 0.01, 0.18)),
        ("bottom flange", rectangle(0.0, 0.0, 0.09, 0.01)),
    ];
    for (parts, walls) in [(zed, 3), (angle, 2), (unequal, 4)] {
        let solved = beam(parts).solved();
        let forces = solved.workings().chapter(Chapter::Walls);
        let forces = forces.filter(|(_, working)| working.name.starts_with("shear force in")).count();
        assert_eq!(forces, walls);
        assert_close("sum", value(&solved, "upward sum of the forces in the walls"), 4e3);
    }
}

#[test]
fn no_flow_hangs_on_the_courses_axes() {
    let up = beam(channel()).solved();
    for profile in Profile::ALL {
        let style = Style { notation: Notation::of(profile), ..Style::default() };
        let solved = Solved::new(beam(channel()).problem, style).expect("a sound lesson");
        for (_, working) in up.workings().chapter(Chapter::Walls) {
            if !working.name.starts_with("distance of the middle") {
                assert_close(&working.name, value(&solved, &working.name), working.value.value);
            }
        }
    }
}

/// A stout section has no thin walls, a box closes a cell, and without a shear force nothing flows.
#[test]
fn elsewhere_there_is_no_such_chapter() {
    let stout = vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))];
    assert_eq!(beam(stout).solved().workings().chapter(Chapter::Walls).count(), 0);
    let still =
        Maker::new(3.0, channel()).pin("A", 0.0).pin("B", 3.0).couple("C", 3.0, 1e3).couple("D", 0.0, -1e3);
    let still = still.slice(1.0, 0.05).cut(0.1, HeightSide::Below, HeightSide::Above).solved();
    assert_eq!(still.workings().chapter(Chapter::Walls).count(), 0);
}

/// Closed form, by hand for V = 4 kN, N and mm: cut open at the lower left corner, closed by ∮ q ds / t = 0, Bredt's formulas.
#[test]
fn a_closed_box_by_hand() {
    let solved = beam(lopsided_box()).solved();
    for (name, wanted) in [
        // 2 · 6 · 150 · 120² + (12 + 3) · 240³ / 12
        ("second moment by middle lines", 43.2e-6),
        // 4000 · 6 · 150 · 120 / 43.2e6, then half the cover's 3 · 120 · 60 more, and back
        ("shear flow in lower strip at the lower end of cover, cut open", 10e3),
        ("shear flow in cover half-way, cut open", 12e3),
        ("shear flow in cover at the upper end of cover, cut open", 10e3),
        ("sum of the shear flow along lower strip, cut open", 750.0),
        ("sum of the shear flow along cover, cut open", 2720.0),
        ("sum of the shear flow along upper strip, cut open", 750.0),
        // down the back: 12 · 120 · 60 of it, and a parabola
        ("shear flow in back half-way, cut open", -8e3),
        ("sum of the shear flow along back, cut open", -1280.0),
        // - (125 + 906.67 + 125 - 106.67) / (25 + 80 + 25 + 20)
        ("closing flow round the cell", -7e3),
        ("shear flow in cover half-way", 5e3),
        ("shear flow in back half-way", -15e3),
        ("shear force in cover", 1040.0),
        ("shear force in back", -2960.0),
        // 5 N/mm over 3 mm; the back has the larger flow, 15 N/mm, over 12 mm
        ("shear flow in cover where it is largest", 5e3),
        ("largest shear stress in the walls", 5e6 / 3.0),
        ("upward sum of the forces in the walls", 4e3),
        // the strips take -300 N each, 120 from the axis: (1040 · 150 - 2 · 300 · 120) / 4000
        ("distance of the shear centre from the web", 0.021),
        ("place of the shear centre to the right", 0.027),
        ("area inside the middle lines of the cell", 0.036),
        ("torsion constant", 34.56e-6),
        ("torsion constant, were the cell slit open", 162e-9),
    ] {
        assert_close(name, value(&solved, name), wanted);
    }
    // The centroid of the true areas, not of the middle lines, lies where the load stands.
    let torque = value(&solved, "torque if the load stands over the centroid");
    let arm = value(&solved, "place of the centroid to the right") - 0.027;
    assert_close("torque", torque, 4e3 * arm);
    assert_close("torsion", value(&solved, "shear stress of that torque"), torque / (2.0 * 0.036 * 0.003));
}

/// The engine compares every flow and force when a lesson is solved: a box with brims and a fin, for every course; a box without
/// any axis of symmetry; and one whose walls are all alike, where nothing is left to be closed but the cut.
#[test]
fn closed_boxes_of_every_kind_agree_with_the_engine() {
    let brims = vec![
        ("lower strip", rectangle(-0.04, 0.0, 0.24, 0.006)),
        ("back", rectangle(0.0, 0.006, 0.010, 0.200)),
        ("front", rectangle(0.150, 0.006, 0.006, 0.200)),
        ("upper strip", rectangle(-0.06, 0.206, 0.29, 0.008)),
        ("fin", rectangle(0.07, 0.214, 0.006, 0.05)),
    ];
    let alike = vec![
        ("lower strip", rectangle(0.0, 0.0, 0.1, 0.005)),
        ("left", rectangle(0.0, 0.005, 0.005, 0.190)),
        ("right", rectangle(0.095, 0.005, 0.005, 0.190)),
        ("upper strip", rectangle(0.0, 0.195, 0.1, 0.005)),
    ];
    for profile in Profile::ALL {
        let style = || Style { notation: Notation::of(profile), ..Style::default() };
        for parts in [brims.clone(), alike.clone(), lopsided_box()] {
            let solved = Solved::new(beam(parts).problem, style()).expect("a sound lesson");
            assert!(solved.cells().is_some());
            assert_close("sum", value(&solved, "upward sum of the forces in the walls"), 4e3);
        }
        // The shear centre of one with an upright axis of symmetry is no question.
        let solved = Solved::new(beam(alike.clone()).problem, style()).expect("a sound lesson");
        assert!(solved.workings().id("distance of the shear centre from the web").is_none());
        assert_close("half", value(&solved, "shear force in right"), 2e3);
    }
}

fn further(solved: &Solved, name: &str) -> Option<f64> {
    let rows = solved.further_values();
    rows.into_iter().find(|row| row.name == name).map(|row| row.value)
}

fn polygon(corners: &[(f64, f64)]) -> Part {
    let corners: Vec<Point> = corners.iter().map(|&(x, y)| Point::new(x, y)).collect();
    Part::of_outline(Loop::polygon(&corners), Vec::new())
}

/// A V of two plates, 4 mm thick, each 30 mm across and 40 mm up, mitred in the middle. Worked out by hand: `I = 2 t L H²/12` with H
/// = 40 mm, and `J = 2 L t³/3`; both plates' flows run through the corner, so the shear centre stands there.
#[test]
fn walls_that_slope_have_values() {
    // Both narrow sides are upright, 4 mm · 50/30 high.
    let plate = |sense: f64| {
        polygon(&[
            (0.0, -0.010 / 3.0),
            (0.0, 0.010 / 3.0),
            (sense * 0.030, 0.040 + 0.010 / 3.0),
            (sense * 0.030, 0.040 - 0.010 / 3.0),
        ])
    };
    let solved = beam(vec![("left", plate(-1.0)), ("right", plate(1.0))])
        .cut(0.02, HeightSide::Below, HeightSide::Above)
        .solved();
    let of = |name: &str| further(&solved, name).unwrap_or_else(|| panic!("no value {name:?}"));
    let (t, l, h): (f64, f64, f64) = (0.004, 0.05, 0.04);
    assert_close("I", of("second moment by middle lines"), 2.0 * t * l * h * h / 12.0);
    assert_close("J", of("torsion constant"), 2.0 * l * t.powi(3) / 3.0);
    assert_close("across", of("place of the shear centre to the right"), 0.030);
    assert_close("up", of("height of the shear centre"), 0.0);
    // Each plate's flow is a parabola, and its upward part is half the force: 3/2 of V/2 over the rise, over the thickness.
    let largest = 1.5 * 4e3 / (2.0 * h * t);
    assert_close("stress", of("largest shear stress in the walls"), largest);
    assert!(solved.workings().get("largest shear stress in the walls").is_none());
}

/// Where there are no middle lines, it is said why; a solid plank needs no such words.
#[test]
fn without_middle_lines_it_is_said_why() {
    let stocky = vec![
        ("web", rectangle(0.0, 0.0, 0.016, 0.1)),
        ("top flange", rectangle(0.016, 0.08, 0.064, 0.02)),
        ("bottom flange", rectangle(0.016, 0.0, 0.064, 0.02)),
    ];
    let solved = beam(stocky).solved();
    let why = solved.why_no_walls().expect("it is too stout");
    assert!(why.replace('\u{a0}', " ").contains("the top flange is 64 mm long and 20 mm thick"), "{why}");
    let said = workings::reservation::reservations(&solved);
    assert!(said.iter().any(|one| one.sentence == why));
    assert!(said.iter().any(|one| one.sentence.contains("is not worked out by hand here")));
    assert_eq!(further(&solved, "torsion constant"), None);
    // An arrow head: no side runs against another.
    let corners = [(0.0, 0.0), (0.1, 0.08), (0.0, 0.2), (0.03, 0.08)].map(|(x, y)| Point::new(x, y));
    let arrow = beam(vec![("arrow", Part::of_outline(Loop::polygon(&corners), Vec::new()))]);
    let why = arrow.cut(0.1, HeightSide::Below, HeightSide::Above).solved().why_no_walls();
    let why = why.expect("it has no walls");
    assert!(why.contains("straight sides of the outline run in pairs"), "{why}");
    let plank = beam(vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))]).solved();
    assert_eq!(plank.why_no_walls(), None);
    let said = workings::reservation::reservations(&plank);
    assert!(!said.iter().any(|one| one.sentence.contains("is not worked out by hand here")));
    let thin = beam(channel()).solved();
    assert_eq!(thin.why_no_walls(), None);
    let said = workings::reservation::reservations(&thin);
    assert!(said.iter().any(|one| one.sentence.contains("to the left of the centroid, by middle lines")));
}
