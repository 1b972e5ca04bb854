//! The drawings of papers: whole and legible on many sections, and silent about what follows from the given.

#[allow(dead_code, reason = "other tests use the rest")]
mod checks;
#[allow(dead_code, reason = "other tests use the rest")]
mod sections;

use figure::drawing::{Drawing, Mark};
use figure::paper;
use lesson::builtin;
use mechanics::beam::Curve;
use sections::{Bending, cases, solved};
use workings::role::Role;
use workings::solved::Solved;
use workings::working::Chapter;

fn of_section(solved: &Solved) -> Vec<Drawing> {
    let drawings = [
        paper::section(solved, true),
        paper::section(solved, false),
        paper::outline(solved),
        paper::over_the_depth(solved, Role::BendingStress),
        paper::over_the_depth(solved, Role::ShearStress),
    ];
    drawings.into_iter().map(|drawing| drawing.expect("a section that can be drawn")).collect()
}

fn of_beam(solved: &Solved) -> Vec<Drawing> {
    let along = |curve| paper::along_the_beam(solved, curve).expect("V and M are drawn by hand");
    vec![along(Curve::Shear), along(Curve::BendingMoment)]
}

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
            for drawing in of_section(&solved(&case, cut, Bending::SagRising)) {
                checks::labels_are_apart(&case.name, &drawing);
                checks::sheet_holds_all(&case.name, &drawing);
            }
        }
    }
}

#[test]
fn drawings_hold_together_on_the_lessons() {
    for (name, solved) in builtins() {
        for drawing in of_section(&solved).iter().chain(&of_beam(&solved)) {
            checks::labels_are_apart(name, drawing);
            checks::sheet_holds_all(name, drawing);
            let short = drawing.short.chars().count();
            assert!((20..=250).contains(&short), "{name}: {}", drawing.short);
            assert!(!drawing.long.passages.is_empty(), "{name}: {}", drawing.name);
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
        let drawings: Vec<Drawing> = of_section(&solved).into_iter().chain(of_beam(&solved)).collect();
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
