//! The drawings of the slice and of the section: what holds for all of them, on many sections, cuts and loads.
#![allow(clippy::unwrap_used, reason = "a test fails where it panics")]

use crate::sections;
use crate::sections::{Bending, cases, solved};
use figure::drawing::{Drawing, Mark};
use figure::geometry::Point;
use figure::scale::Sheet;
use mechanics::section::HeightSide;
use workings::notation::{Notation, Profile};
use workings::solved::Solved;
use workings::style::Style;
use workings::unit_system::UnitSystem;

/// What any drawing must satisfy: labels apart and on the sheet, words, well-formed SVG no wider than a page.
fn check(drawing: &Drawing, about: &str) {
    let name = format!("{about}, {}", drawing.name);
    let overlaps = drawing.overlaps();
    assert!(overlaps.is_empty(), "{name}: {overlaps:?}");
    assert!(drawing.is_whole(), "{name}: something lies off the sheet");
    // 170 mm of paper at 96 px to the inch is 642.5 px; a label that needs a little more is scaled with the rest.
    assert!(drawing.width <= 660.0, "{name}: {} px wide", drawing.width);
    assert!(!drawing.title.is_empty(), "{name}: no title");
    let short = drawing.short.chars().count();
    assert!((20..=250).contains(&short), "{name}: short description of {short} characters");
    assert!(drawing.long.plain().chars().count() > short / 2, "{name}: no long description");
    for grip in drawing.grips() {
        assert!(drawing.sheet().nearest(grip.at) == grip.at, "{name}: {grip:?}");
        assert!((grip.low..=grip.high).contains(&grip.value) && grip.low < grip.high, "{name}: {grip:?}");
    }
    let svg = drawing.svg();
    let document = roxmltree::Document::parse(&svg).unwrap_or_else(|error| panic!("{name}: {error}"));
    assert_eq!(document.root_element().tag_name().name(), "svg", "{name}");
    for number in ["NaN", "inf"] {
        assert!(!svg.contains(number), "{name}: {number} in the SVG");
    }
}

#[test]
fn drawings_hold_together_on_many_sections_cuts_and_loads() {
    for case in cases() {
        for (place, &cut) in case.cuts.iter().enumerate() {
            // All ways of bending on one cut of each section; on the others the two that differ in sign.
            let ways: &[Bending] =
                if place == 0 { &Bending::ALL } else { &[Bending::SagRising, Bending::Hog] };
            for &bending in ways {
                let about = format!("{} {cut:?} {bending:?}", case.name);
                let solved = solved(&case, cut, bending);
                let drawings = figure::section_drawings(&solved);
                // The walls have a drawing where there are thin walls and a shear force, the transformed section has one
                // where there are several materials, bending askew where the section asks, and a point where it has one state of
                // stress; over the side of the beam nothing is drawn where bending is askew.
                let names: Vec<&str> = drawings
                    .iter()
                    .map(|d| d.name.as_str())
                    .filter(|name| !["wall-flow", "skew", "transformed", "point"].contains(name))
                    .collect();
                let mixed = case.parts.iter().any(|part| part.modular_ratio != 1.0);
                assert_eq!(drawings.iter().any(|d| d.name == "transformed"), mixed, "{about}");
                let all = [
                    "slice",
                    "faces",
                    "section",
                    "piece",
                    "pictorial",
                    "shear-element",
                    "first-moment",
                    "depth",
                    "planks",
                    "fields",
                    "trajectories",
                ];
                let askew = solved.section().properties().bends_askew();
                assert_eq!(names, all[..if askew { 9 } else { 11 }], "{about}");
                drawings.iter().for_each(|drawing| check(drawing, &about));
            }
        }
    }
}

#[test]
fn drawings_hold_together_in_every_lesson_of_ours() {
    for lesson in lesson::builtin::ALL {
        let read = lesson::read(lesson.text, lesson.name).lesson.unwrap();
        let solved = Solved::new(read.problem, read.style).unwrap();
        figure::section_drawings(&solved).iter().for_each(|drawing| check(drawing, lesson.name));
    }
}

#[test]
fn drawings_hold_together_in_every_notation_and_every_system_of_units() {
    for (place, lesson) in lesson::builtin::ALL.iter().enumerate() {
        let read = lesson::read(lesson.text, lesson.name).lesson.unwrap();
        for (rank, profile) in Profile::ALL.into_iter().enumerate() {
            for (turn, units) in UnitSystem::ALL.into_iter().enumerate() {
                // Each lesson with a third of the pairs, so that every pair comes up.
                if (place + rank + turn) % 3 != 0 {
                    continue;
                }
                let style = Style { notation: Notation::of(profile), units, ..read.style.clone() };
                let solved = Solved::new(read.problem.clone(), style).unwrap();
                let about = format!("{} {profile:?} {units:?}", lesson.name);
                figure::section_drawings(&solved).iter().for_each(|drawing| check(drawing, &about));
            }
        }
    }
}

fn drawing(solved: &Solved, name: &str) -> Drawing {
    figure::some(solved, |wanted| wanted == name).swap_remove(0)
}

/// The marks of a group.
fn group<'d>(drawing: &'d Drawing, wanted: &str) -> &'d [Mark] {
    drawing
        .marks
        .iter()
        .find_map(|mark| match mark {
            Mark::Group { id, marks, .. } if id == wanted => Some(marks.as_slice()),
            _ => None,
        })
        .unwrap_or(&[])
}

/// From the tail to the tip of the first half-arrow of a group.
fn first_arrow(marks: &[Mark]) -> Option<(Point, Point)> {
    marks.iter().find_map(|mark| match mark {
        Mark::Line { from, to, .. } => Some((*from, *to)),
        _ => None,
    })
}

/// Balance of the part beyond, any textbook: the cut holds it against the difference of what its two faces pull.
/// Under a moment that grows to the right the part above is pressed more on its right face, so the cut must push
/// it to the right, whatever the section; below, or under a moment that falls, the other way.
#[test]
fn the_force_on_the_cut_opposes_the_difference_of_the_faces() {
    for case in cases() {
        for &cut in case.cuts.iter().filter(|cut| cut.0 > 1.5 && cut.0 < 119.0) {
            for (bending, grows) in
                [(Bending::SagRising, true), (Bending::SagFalling, false), (Bending::Hog, false)]
            {
                // dM/dx: positive where V is.
                let expected_right = grows == (cut.1 == HeightSide::Above);
                let solved = solved(&case, cut, bending);
                let about = format!("{} {cut:?} {bending:?}", case.name);
                // Looked at in the free body of the part beyond ...
                let piece = drawing(&solved, "piece");
                let (tail, tip) = first_arrow(group(&piece, "force-on-cut")).unwrap();
                assert_eq!(tip.x > tail.x, expected_right, "{about}");
                // ... and in the view in space, where the part beyond has the first arrow and the rest the second.
                let pictorial = drawing(&solved, "pictorial");
                let arrows: Vec<(Point, Point)> = group(&pictorial, "force-on-cut")
                    .iter()
                    .filter_map(|mark| first_arrow(std::slice::from_ref(mark)))
                    .collect();
                assert_eq!(arrows[0].1.x > arrows[0].0.x, expected_right, "{about}");
                assert_eq!(arrows[1].1.x > arrows[1].0.x, !expected_right, "{about}");
            }
        }
    }
}

#[test]
fn without_shear_force_no_force_is_drawn_on_the_cut() {
    for case in cases() {
        let solved = solved(&case, case.cuts[0], Bending::Pure);
        assert!(group(&drawing(&solved, "pictorial"), "force-on-cut").is_empty(), "{}", case.name);
        assert!(group(&drawing(&solved, "piece"), "force-on-cut").is_empty(), "{}", case.name);
    }
}

/// The part beyond stands on its own side of what stays.
#[test]
fn the_part_beyond_is_lifted_to_its_own_side() {
    for case in cases() {
        for &cut in case.cuts.iter().filter(|cut| cut.0 > 1.5 && cut.0 < 119.0) {
            let pictorial = drawing(&solved(&case, cut, Bending::SagRising), "pictorial");
            let middle = |id: &str| figure::drawing::bounds(group(&pictorial, id)).middle().y;
            let above = middle("beyond") < middle("rest");
            assert_eq!(above, cut.1 == HeightSide::Above, "{} {cut:?}", case.name);
        }
    }
}

/// Every value written in a drawing is said in its description, so that a reader who hears it misses none. The sizes
/// of the section's chains of dimensions are those of its parts, which the description gives as a table.
#[test]
fn every_value_drawn_is_said_in_words() {
    for case in cases() {
        for &cut in &case.cuts {
            for bending in [Bending::SagRising, Bending::Hog] {
                for drawing in figure::section_drawings(&solved(&case, cut, bending)) {
                    let words = format!("{} {}", drawing.short, drawing.long.plain()).replace('\u{a0}', " ");
                    for label in drawing.labels() {
                        let text = label.text.replace('\u{a0}', " ");
                        let value = text.rsplit(" = ").next().unwrap_or_default();
                        let value =
                            value.trim_end_matches(" T").trim_end_matches(" C").trim_end_matches(" in all");
                        let value =
                            value.trim_end_matches(" →").trim_end_matches(" ←").trim_end_matches(", largest");
                        let value = value.trim_start_matches("in all ");
                        let is_value = value.starts_with(|c: char| c.is_ascii_digit()) && value.contains(' ');
                        assert!(
                            !is_value || words.contains(value),
                            "{} {cut:?} {bending:?}, {}: {value} is not in: {words}",
                            case.name,
                            drawing.name
                        );
                    }
                }
            }
        }
    }
}

/// Pinned, looked at: the central figures on a plank cut a quarter below its top.
#[test]
fn the_plank_is_drawn_as_it_was() {
    let plank = sections::Case {
        name: "plank".into(),
        parts: mechanics::section::shapes::rectangle(0.1, 0.2).unwrap().parts,
        joints: Vec::new(),
        cuts: vec![(150.0, HeightSide::Above)],
    };
    let solved = solved(&plank, plank.cuts[0], Bending::SagRising);
    for name in ["piece", "pictorial", "section", "point", "fields", "trajectories"] {
        insta::assert_snapshot!(format!("plank_{name}"), drawing(&solved, name).svg());
    }
}

/// Bending askew is drawn where the level axis is no principal one, and there always.
#[test]
fn a_section_that_bends_askew_is_drawn_so() {
    let askew = |case: &sections::Case| {
        let solved = solved(case, case.cuts[0], Bending::Pure);
        let drawn = figure::section_drawings(&solved).iter().any(|drawing| drawing.name == "skew");
        assert_eq!(drawn, solved.section().properties().bends_askew(), "{}", case.name);
        drawn
    };
    let drawn: Vec<String> = cases().into_iter().filter(|case| askew(case)).map(|case| case.name).collect();
    for name in ["angle", "zed", "joist-and-angle", "joist-of-three"] {
        assert!(drawn.iter().any(|drawn| drawn == name), "{drawn:?}");
    }
    assert!(!drawn.iter().any(|drawn| drawn == "channel"), "{drawn:?}");
}

/// Of several materials the stress in each is drawn and told, on every sheet; where two meet at a corner the words give both.
#[test]
fn askew_each_material_has_its_own_stress_in_the_drawing() {
    for case in cases().into_iter().filter(|case| case.name.starts_with("joist-")) {
        for bending in [Bending::SagRising, Bending::Hog] {
            let solved = solved(&case, case.cuts[0], bending);
            for sheet in [Sheet::USUAL, Sheet::LARGE_PRINT, Sheet::HAND] {
                let about = format!("{} {bending:?} {sheet:?}", case.name);
                let drawn = figure::some_on(&solved, sheet, |name| name == "skew").remove(0);
                assert!(drawn.overlaps().is_empty() && drawn.is_whole(), "{about}: {:?}", drawn.overlaps());
                assert!(drawn.width <= 1.3 * sheet.width, "{about}: {} px wide", drawn.width);
                let told = drawn.long.plain();
                for material in solved.problem().materials() {
                    assert!(told.contains(&format!("in {}:", material.name)), "{about}: {told}");
                }
                // F, the lower right corner of the joist, is one of the angle and of the flat too where they stand on the right.
                let at_the_foot = told.matches("F in ").count();
                assert_eq!(at_the_foot, if case.name == "joist-and-flat" { 1 } else { 2 }, "{about}: {told}");
            }
        }
    }
}

/// Walls are drawn where they are thin and a shear force acts; the web's arrows run as the force does.
#[test]
fn the_flow_in_thin_walls_runs_as_the_shear_force() {
    let mut drawn = Vec::new();
    for case in cases() {
        let of = |bending| {
            let drawings = figure::section_drawings(&solved(&case, case.cuts[0], bending));
            drawings.into_iter().find(|drawing| drawing.name == "wall-flow")
        };
        assert!(of(Bending::Pure).is_none(), "{}: no shear force, no flow", case.name);
        let (Some(up), Some(down)) = (of(Bending::SagRising), of(Bending::Hog)) else { continue };
        for (drawing, rises) in [(up, true), (down, false)] {
            // The shafts of upright arrows: y runs down the sheet.
            let upright = group(&drawing, "sense").iter().filter_map(|mark| match mark {
                Mark::Line { from, to, .. } if (from.x - to.x).abs() < 1e-6 => Some(to.y < from.y),
                _ => None,
            });
            let all: Vec<bool> = upright.collect();
            assert!(all.iter().all(|up| *up == rises), "{}", case.name);
            assert!(!all.is_empty() || case.name == "thin-tube", "{}", case.name);
        }
        drawn.push(case.name);
    }
    assert_eq!(drawn, ["channel", "angle", "rolled", "zed", "shifted-flanges", "thin-tube", "two-cells"]);
}

/// Where three walls meet, each flow stands over its own wall. By hand: the free ends of the flanges carry the flow that grows from
/// nothing over their length, so the longer side of each flange has the larger one.
#[test]
fn each_flow_stands_at_its_own_peak() {
    let case = cases().into_iter().find(|case| case.name == "shifted-flanges").unwrap();
    let solved = solved(&case, case.cuts[0], Bending::SagRising);
    let drawing = drawing(&solved, "wall-flow");
    let outline = group(&drawing, "section");
    let around = figure::drawing::bounds(outline);
    // The web stands 40 mm to the right of the leftmost fibre, in a section 120 mm broad.
    let web = around.left + around.width() * 40.0 / 120.0;
    let of_row = |above: bool| -> Vec<(f64, f64)> {
        let labels = drawing.labels();
        let values = labels.iter().filter_map(|label| {
            let text = label.text.replace('\u{a0}', " ");
            let value: f64 = text.strip_suffix(" N/mm")?.parse().ok()?;
            let row = if above { label.rect.bottom < around.top } else { label.rect.top > around.bottom };
            row.then(|| (label.rect.middle().x - web, value))
        });
        values.collect()
    };
    for above in [true, false] {
        let row = of_row(above);
        let on = |left: bool| {
            let mine: Vec<f64> = row.iter().filter(|(x, _)| (*x < 0.0) == left).map(|(_, v)| *v).collect();
            assert_eq!(mine.len(), 1, "{above}: {row:?}");
            mine[0]
        };
        assert!(on(true) < on(false), "{above}: {row:?}");
    }
}

/// Each of several cells has its number within it, on no line; a section with one cell has none.
#[test]
fn the_cells_of_a_box_have_their_numbers() {
    for case in cases() {
        let drawings = figure::section_drawings(&solved(&case, case.cuts[0], Bending::SagRising));
        let Some(drawing) = drawings.into_iter().find(|drawing| drawing.name == "wall-flow") else {
            continue;
        };
        let labels = drawing.labels();
        let names: Vec<&str> =
            labels.iter().map(|label| label.text.as_str()).filter(|text| text.starts_with("cell ")).collect();
        let wanted: &[&str] = if case.name == "two-cells" { &["cell I", "cell II"] } else { &[] };
        assert_eq!(names, wanted, "{}", case.name);
    }
}
