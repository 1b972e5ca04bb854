//! What holds for every drawing of the lessons that come with the project.

use crate::checks;
use figure::drawing::{Drawing, Mark, Passage, Step};
use figure::geometry::{Point, Rect, is_inside};
use figure::palette::Ink;
use figure::scale::Sheet;
use lesson::builtin;
use std::sync::LazyLock;
use workings::solved::Solved;

/// Every built-in lesson with its drawings.
static DRAWN: LazyLock<Vec<(&str, Vec<Drawing>)>> = LazyLock::new(|| {
    let drawn = builtin::ALL.iter().map(|builtin| {
        let reading = lesson::read(builtin.text, builtin.name);
        let lesson = reading.lesson.expect("a built-in lesson is sound");
        let solved = Solved::new(lesson.problem, lesson.style).expect("a built-in lesson can be solved");
        let mut all = figure::all(&solved);
        all.extend(figure::carrying::carrying(&solved));
        (builtin.name, all)
    });
    drawn.collect()
});

/// The same for the window of a phone.
static IN_THE_HAND: LazyLock<Vec<(&str, Vec<Drawing>)>> = LazyLock::new(|| {
    let drawn = builtin::ALL.iter().map(|builtin| {
        let lesson = lesson::read(builtin.text, builtin.name).lesson.expect("a built-in lesson is sound");
        let solved = Solved::new(lesson.problem, lesson.style).expect("a built-in lesson can be solved");
        (builtin.name, figure::some_on(&solved, Sheet::HAND, |name| !NOT_ON_A_BOARD.contains(&name)))
    });
    drawn.collect()
});

/// Drawings of the notes alone.
const NOT_ON_A_BOARD: [&str; 6] = ["beam", "signs", "left-piece", "element", "deflected", "planks"];

fn for_every_drawing(check: fn(&str, &Drawing)) {
    for (name, drawings) in DRAWN.iter() {
        drawings.iter().for_each(|drawing| check(name, drawing));
    }
}

#[test]
fn every_lesson_has_all_its_drawings() {
    for (name, drawings) in DRAWN.iter() {
        let names: Vec<&str> = drawings.iter().map(|drawing| drawing.name.as_str()).collect();
        for wanted in ["beam", "free-body", "signs", "left-piece", "element", "diagrams", "deflected"] {
            assert!(names.contains(&wanted), "{name}: {wanted}");
        }
        // Where bending is askew, a height has no one state of stress.
        for of_points in ["point", "fields", "trajectories"] {
            assert_eq!(names.contains(&of_points), !names.contains(&"skew"), "{name}: {of_points}");
        }
        let mut different = names.clone();
        different.sort_unstable();
        different.dedup();
        assert_eq!(different.len(), names.len(), "{name}: {names:?}");
    }
}

/// Closed form: the table of principal stresses beside the trajectories has at the cut the very direction of Mohr's circle there,
/// from the same two stresses, whichever side of a jump of the width the cut lies on.
#[test]
fn the_table_of_principal_stresses_takes_the_cut_as_it_is() {
    for builtin in builtin::ALL {
        let lesson = lesson::read(builtin.text, builtin.name).lesson.expect("a built-in lesson is sound");
        let solved = Solved::new(lesson.problem, lesson.style).expect("a built-in lesson can be solved");
        let Some(direction) = solved.workings().id("direction of the largest principal stress at the cut")
        else {
            continue;
        };
        let drawn = figure::some_on(&solved, Sheet::USUAL, |name| name == "trajectories");
        let Some(Passage::Table(table)) = drawn.first().and_then(|drawing| {
            drawing.long.passages.iter().find(|passage| matches!(passage, Passage::Table(_)))
        }) else {
            panic!("{}: no table", builtin.name);
        };
        let row = table.rows.iter().find(|row| row[0].ends_with("the cut")).expect("a row of the cut");
        // The table writes whole degrees without their nought.
        let shown = workings::value::value(&solved, direction).shown.replace(".0°", "°");
        assert_eq!(row[3], shown, "{}: {row:?}", builtin.name);
    }
}

/// A phone's window has about 360 px for a drawing. A little more is drawn smaller or pushed sideways (board.css).
#[test]
fn drawings_for_the_hand_are_narrow_and_as_sound_as_the_usual_ones() {
    for (name, drawings) in IN_THE_HAND.iter() {
        let only_some =
            |drawing: &&Drawing| ["wall-flow", "skew", "transformed"].contains(&drawing.name.as_str());
        let askew = drawings.iter().any(|drawing| drawing.name == "skew");
        assert_eq!(
            drawings.len(),
            if askew { 11 } else { 14 } + drawings.iter().filter(only_some).count(),
            "{name}"
        );
        for drawing in drawings {
            checks::labels_are_apart(name, drawing);
            checks::grips_hold(name, drawing);
            checks::sheet_holds_all(name, drawing);
            checks::numbers_are_told(name, drawing);
            assert!(
                drawing.width <= 1.3 * Sheet::HAND.width,
                "{name} {}: {} px",
                drawing.name,
                drawing.width
            );
        }
    }
}

#[test]
fn no_label_covers_another() {
    for_every_drawing(checks::labels_are_apart);
}

#[test]
fn no_label_covers_an_arrowhead() {
    for_every_drawing(checks::arrowheads_are_free);
}

#[test]
fn grips_lie_on_the_sheet_with_values_in_range() {
    for_every_drawing(checks::grips_hold);
}

#[test]
fn everything_lies_on_the_sheet() {
    for_every_drawing(checks::sheet_holds_all);
}

#[test]
fn every_number_drawn_is_in_the_description() {
    for_every_drawing(checks::numbers_are_told);
}

#[test]
fn every_drawing_says_what_it_is() {
    for_every_drawing(checks::is_described);
}

/// A drawing saved as a file of its own opens anywhere: sized, namespaced, faces with fallbacks, no style sheet.
#[test]
fn every_drawing_stands_alone() {
    for_every_drawing(|name, drawing| {
        let svg = drawing.svg();
        let document = roxmltree::Document::parse(&svg).expect("well-formed");
        let root = document.root_element();
        assert_eq!(
            root.tag_name().namespace(),
            Some("http://www.w3.org/2000/svg"),
            "{name} {}",
            drawing.name
        );
        for attribute in ["width", "height", "viewBox"] {
            assert!(root.has_attribute(attribute), "{name} {}: {attribute}", drawing.name);
        }
        for node in document.descendants() {
            assert!(node.attribute("class").is_none() && node.attribute("style").is_none());
            assert!(!node.has_tag_name("style"), "{name} {}", drawing.name);
            if let Some(faces) = node.attribute("font-family") {
                assert!(faces.ends_with("serif") && faces.contains(','), "{faces}");
            }
        }
    });
}

#[test]
fn no_line_strikes_through_a_label() {
    for_every_drawing(checks::strikes::labels_are_free_of_lines);
}

#[test]
fn leaders_are_seen_as_leaders() {
    for_every_drawing(checks::strikes::leaders_are_seen);
}

/// Bending acts on both pieces of the slice: neither is without arrows, however thin it is and however small its stress beside that of
/// another material.
#[test]
fn both_pieces_of_the_slice_have_arrows() {
    for_every_drawing(|name, drawing| {
        if drawing.name != "pictorial" {
            return;
        }
        let mut pieces = 0;
        checks::strikes::each_group(&drawing.marks, &mut |id, marks| {
            if ["rest", "beyond"].contains(&id) {
                let heads = marks.iter().filter(|mark| {
                    matches!(
                        mark,
                        Mark::Polygon { stroke: None, fill: Some(Ink::Tension | Ink::Compression), .. }
                    )
                });
                assert!(heads.count() >= 2, "{name}: {id}");
                pieces += 1;
            }
        });
        assert_eq!(pieces, 2, "{name}");
    });
}

/// The flow runs in every wall: arrows stand in the upper and the lower flange too, and values outside the section.
#[test]
fn the_shear_flow_has_arrows_in_flanges_and_values_outside() {
    for_every_drawing(|name, drawing| {
        if drawing.name != "wall-flow" {
            return;
        }
        let (mut section, mut rings, mut heads) = (Rect::NOTHING, Vec::new(), Vec::new());
        checks::strikes::each_group(&drawing.marks, &mut |id, marks| match id {
            "outline" => {
                section = figure::drawing::bounds(marks);
                rings.extend(marks.iter().filter_map(ring));
            }
            "sense" => heads.extend(marks.iter().map(Mark::rect).filter(|rect| rect.width() > 2.0)),
            _ => {}
        });
        let flange = 0.15 * section.height();
        assert!(heads.iter().any(|rect| rect.bottom < section.top + flange), "{name}");
        assert!(heads.iter().any(|rect| rect.top > section.bottom - flange), "{name}");
        for label in drawing.labels().iter().filter(|label| label.text.contains("N/mm")) {
            assert!(!is_inside(&rings, label.rect.middle()), "{name}: {label:?}");
        }
    });
}

/// The corners of a path of straight lines.
fn ring(mark: &Mark) -> Option<Vec<Point>> {
    let Mark::Path { steps, .. } = mark else { return None };
    let corners = steps.iter().filter_map(|step| match *step {
        Step::Move(at) | Step::Line(at) => Some(at),
        Step::Curve { .. } | Step::Close => None,
    });
    Some(corners.collect())
}
