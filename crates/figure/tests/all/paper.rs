//! The drawings of papers: whole and legible on many sections, and silent about what follows from the given.

use crate::checks;
use crate::sections::{Bending, cases, solved};
use figure::drawing::{Drawing, Mark};
use figure::geometry::{Point, Rect};
use figure::paper::{self, Letters};
use figure::scale::Sheet;
use lesson::builtin;
use mechanics::beam::Curve;
use workings::role::Role;
use workings::solved::Solved;
use workings::working::Chapter;

fn of_section(solved: &Solved, letters: Letters) -> Vec<Drawing> {
    let drawings = [
        paper::section(solved, true, letters),
        paper::section(solved, false, letters),
        paper::outline(solved, letters),
        paper::over_the_depth(solved, Role::BendingStress, letters),
        paper::over_the_depth(solved, Role::ShearStress, letters),
    ];
    drawings.into_iter().map(|drawing| drawing.expect("a section that can be drawn")).collect()
}

fn of_beam(solved: &Solved, letters: Letters) -> Vec<Drawing> {
    let along = |curve| paper::along_the_beam(solved, curve, letters).expect("V and M are drawn by hand");
    let (beam, signs) = (paper::beam(solved, true, letters), paper::signs(solved, letters));
    vec![beam, signs, along(Curve::Shear), along(Curve::BendingMoment)]
}

fn all(solved: &Solved, letters: Letters) -> Vec<Drawing> {
    of_section(solved, letters).into_iter().chain(of_beam(solved, letters)).collect()
}

const BOTH: [Letters; 2] = [Letters::Usual, Letters::Large];

fn builtins() -> impl Iterator<Item = (&'static str, Solved)> {
    builtin::ALL.iter().map(|builtin| {
        let solved = lesson::read(builtin.text, builtin.name).solved;
        (builtin.name, solved.expect("a built-in lesson is sound"))
    })
}

#[test]
fn drawings_hold_together_on_many_sections() {
    for case in cases() {
        for &cut in &case.cuts {
            let solved = solved(&case, cut, Bending::SagRising);
            for drawing in BOTH.into_iter().flat_map(|letters| of_section(&solved, letters)) {
                checks::labels_are_apart(&case.name, &drawing);
                checks::sheet_holds_all(&case.name, &drawing);
            }
        }
    }
}

#[test]
fn drawings_hold_together_on_the_lessons() {
    for (name, solved) in builtins() {
        for drawing in BOTH.into_iter().flat_map(|letters| all(&solved, letters)) {
            let drawing = &drawing;
            checks::labels_are_apart(name, drawing);
            checks::sheet_holds_all(name, drawing);
            let short = drawing.short.chars().count();
            assert!((20..=250).contains(&short), "{name}: {}", drawing.short);
            assert!(!drawing.long.passages.is_empty(), "{name}: {}", drawing.name);
        }
    }
}

/// Source: WCAG 2.2 names 18 point as large; 13 px of a drawing 364 px wide are 18 pt where it is enlarged to 178 mm.
#[test]
fn large_letters_are_none_of_them_small() {
    fn smallest(marks: &[Mark]) -> f64 {
        let sizes = marks.iter().map(|mark| match mark {
            Mark::Text { size, .. } => *size,
            Mark::Group { marks, .. } => smallest(marks),
            _ => f64::INFINITY,
        });
        sizes.fold(f64::INFINITY, f64::min)
    }
    for (name, solved) in builtins() {
        for drawing in all(&solved, Letters::Large) {
            let enlarged = (178.0 / 25.4 * 96.0 / drawing.width).min(18.0 / 9.75);
            let points = smallest(&drawing.marks) * 0.75 * enlarged;
            // A beam whose labels need more room than there is has smaller ones: it is told in words beside.
            let crowded = name == "lighting-bridge" && drawing.width > Sheet::LARGE_PRINT.width;
            assert!(
                points > if crowded { 14.0 } else { 17.9 },
                "{name}: {} has {points:.1} pt",
                drawing.name
            );
        }
    }
}

/// The lines in the groups of these names, with their ends.
fn lines(marks: &[Mark], groups: &[&str], within: bool, found: &mut Vec<(Point, Point)>) {
    for mark in marks {
        match mark {
            Mark::Line { from, to, .. } if within => found.push((*from, *to)),
            Mark::Group { id, marks, .. } => {
                lines(marks, groups, within || groups.contains(&id.as_str()), found);
            }
            _ => {}
        }
    }
}

/// A tick is a short slope; a label that touches one reads as a part of it.
#[test]
fn no_label_touches_a_tick_or_stands_on_a_dimension() {
    for (name, solved) in builtins() {
        for drawing in BOTH.into_iter().flat_map(|letters| all(&solved, letters)) {
            let mut found = Vec::new();
            lines(&drawing.marks, &["dimensions", "sizes"], false, &mut found);
            // The name of a part stands within it on a patch, under which lines may run.
            let names = &solved.problem().part_names;
            for label in drawing.labels().into_iter().filter(|label| !names.contains(&label.text)) {
                // Without the room below letters that do not reach down.
                let ink = Rect { bottom: label.rect.bottom - 3.0, ..label.rect };
                for &(from, to) in &found {
                    assert!(!ink.is_crossed(from, to), "{name}, {}: {label:?} {from:?} {to:?}", drawing.name);
                }
            }
        }
    }
}

/// Two leaders that cross lead the eye to the wrong label: the two couples of the lighting bridge had that in large print.
#[test]
fn leaders_do_not_cross() {
    let side = |(from, to): (Point, Point), p: Point| {
        (to.x - from.x) * (p.y - from.y) - (to.y - from.y) * (p.x - from.x)
    };
    let part = |one: (Point, Point), other: (Point, Point)| side(one, other.0) * side(one, other.1) < 0.0;
    let mut all_leaders = 0;
    for (name, solved) in builtins() {
        for drawing in BOTH.into_iter().flat_map(|letters| all(&solved, letters)) {
            let mut leaders = Vec::new();
            lines(&drawing.marks, &["labels"], false, &mut leaders);
            all_leaders += leaders.len();
            for (place, &one) in leaders.iter().enumerate() {
                for &other in &leaders[place + 1..] {
                    assert!(
                        !(part(one, other) && part(other, one)),
                        "{name}, {}: {one:?} {other:?}",
                        drawing.name
                    );
                }
            }
        }
    }
    assert!(all_leaders > 6, "{all_leaders}");
}

/// A name in the hollow of a box could be taken for the hollow's: it stands within its part or outside the section.
#[test]
fn no_name_of_a_part_stands_in_a_hollow() {
    for (name, solved) in builtins() {
        if !["box-girder", "conveyor"].contains(&name) {
            continue;
        }
        for letters in BOTH {
            let drawing = paper::section(&solved, true, letters).expect("a section");
            let mut webs = 0;
            let mut outline = Vec::new();
            fn polygons(marks: &[Mark], all: &mut Vec<Rect>) {
                for mark in marks {
                    match mark {
                        Mark::Group { id, marks, .. } if id == "section" || id == "outline" => {
                            polygons(marks, all)
                        }
                        Mark::Group { .. } => {}
                        other => all.push(other.rect()),
                    }
                }
            }
            polygons(&drawing.marks, &mut outline);
            let section = outline.into_iter().reduce(Rect::joined).expect("an outline");
            for label in drawing.labels().iter().filter(|label| label.text.ends_with("web")) {
                assert!(!section.overlaps(label.rect), "{name}: {label:?} {section:?}");
                // Beside its own web, not beside the other.
                assert_eq!(
                    label.text == "left web",
                    label.rect.middle().x < section.middle().x,
                    "{name}: {label:?}"
                );
                webs += 1;
            }
            assert_eq!(webs, 2, "{name}");
            assert!(drawing.width <= Sheet::USUAL.width, "{name}");
        }
    }
}

/// All words and groups of a drawing as one text.
fn told(drawing: &Drawing) -> String {
    fn titles(marks: &[Mark], all: &mut Vec<String>) {
        for mark in marks {
            if let Mark::Group { title, marks, .. } = mark {
                all.push(title.clone());
                titles(marks, all);
            }
        }
    }
    let mut all = vec![drawing.title.clone(), drawing.short.clone(), drawing.long.plain(), drawing.svg()];
    all.extend(drawing.labels().into_iter().map(|label| label.text));
    titles(&drawing.marks, &mut all);
    all.join("\n")
}

/// A value that a drawing tells may be equal to a given one by the lesson's numbers (the width of the cut is the breadth of the
/// web); all others must not be there. Own weight is a load, though it follows from the area.
#[test]
fn nothing_that_follows_from_the_given_is_told() {
    for (name, solved) in builtins() {
        let (workings, style) = (solved.workings(), solved.style());
        let near = |one: f64, other: f64| (one - other).abs() <= 1e-6 * one.abs().max(other.abs());
        let given: Vec<f64> = workings
            .in_order()
            .filter(|(_, working)| working.chapter == Chapter::Given)
            .map(|(_, working)| working.value.value)
            .collect();
        let drawings: Vec<Drawing> = BOTH.into_iter().flat_map(|letters| all(&solved, letters)).collect();
        let texts: Vec<(String, String)> =
            drawings.iter().map(|drawing| (drawing.name.clone(), told(drawing))).collect();
        for (_, working) in workings.in_order() {
            let value = working.value.value;
            let telling = matches!(
                working.symbol.role,
                Role::Reaction
                    | Role::ShearForce
                    | Role::BendingMoment
                    | Role::Area
                    | Role::CentroidHeight
                    | Role::SecondMoment
                    | Role::CutDistance
                    | Role::AreaBeyond
                    | Role::CentroidBeyond
                    | Role::FirstMoment
                    | Role::BendingStress
                    | Role::ShearStress
                    | Role::ShearFlow
                    | Role::ForceOnCut
                    | Role::MeanShearStress
            );
            // Of a value of one or two digits any other number may be made.
            let text = style.text(working.value, working.symbol.role);
            let digits = text.chars().filter(char::is_ascii_digit).count();
            if !telling || working.chapter == Chapter::Given || digits < 3 {
                continue;
            }
            if given.iter().any(|&other| near(other, value)) {
                continue;
            }
            for (drawing, told) in &texts {
                assert!(!told.contains(&text), "{name}: {drawing} tells the {}, {text}", working.name);
            }
        }
        for (drawing, told) in &texts {
            for word in ["neutral", "NA", "beyond", "reaction", "centroid"] {
                assert!(!told.contains(word), "{name}: {drawing} tells of {word}");
            }
        }
    }
}
