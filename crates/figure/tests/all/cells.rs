//! The shear flow in sections of several cells: its drawing is full of values, and each is read without a doubt.

use crate::checks;
use figure::drawing::{Drawing, Mark};
use figure::palette::Stroke;
use figure::scale::Sheet;
use workings::solved::Solved;

/// A part: name, width, height, left side, mm; and on what it stands.
type Plate = (&'static str, f64, f64, f64, Option<&'static str>);

/// Three cells side by side, each like the next.
const THREE: [Plate; 6] = [
    ("bottom", 308.0, 8.0, 0.0, None),
    ("w1", 8.0, 140.0, 0.0, Some("bottom")),
    ("w2", 8.0, 140.0, 100.0, Some("bottom")),
    ("w3", 8.0, 140.0, 200.0, Some("bottom")),
    ("w4", 8.0, 140.0, 300.0, Some("bottom")),
    ("top", 308.0, 8.0, 0.0, Some("w1")),
];

/// Two cells, one above the other, the upper one taller: hardly anything flows in the wall between them.
const STACKED: [Plate; 7] = [
    ("bottom", 120.0, 8.0, 0.0, None),
    ("lower left web", 8.0, 90.0, 0.0, Some("bottom")),
    ("lower right web", 8.0, 90.0, 112.0, Some("bottom")),
    ("middle", 120.0, 8.0, 0.0, Some("lower left web")),
    ("upper left web", 8.0, 110.0, 0.0, Some("middle")),
    ("upper right web", 8.0, 110.0, 112.0, Some("middle")),
    ("top", 120.0, 8.0, 0.0, Some("upper left web")),
];

/// Two cells of unlike walls.
const UNLIKE: [Plate; 5] = [
    ("bottom", 240.0, 10.0, 0.0, None),
    ("back", 12.0, 150.0, 0.0, Some("bottom")),
    ("inner web", 6.0, 150.0, 90.0, Some("bottom")),
    ("front", 5.0, 150.0, 235.0, Some("bottom")),
    ("top", 240.0, 8.0, 0.0, Some("back")),
];

fn wall_flow(plates: &[Plate], sheet: Sheet) -> Drawing {
    let part = |(name, width, height, left, on): &Plate| {
        let on = on.map_or(String::new(), |on| format!(", on = \"{on}\""));
        format!(
            "{{ name = \"{name}\", width = \"{width} mm\", height = \"{height} mm\", left = \"{left} mm\"{on} }}"
        )
    };
    let parts: Vec<String> = plates.iter().map(part).collect();
    let text = format!(
        "title = \"cells\"\nteaches = \"Flow.\"\nunits = \"metric\"\n[beam]\nlength = \"3 m\"\n\
         supports = [{{ pin = \"0 m\" }}, {{ roller = \"3 m\" }}]\nloads = [{{ force = \"6 kN\", at = \"2 m\" }}]\n\
         [material]\nname = \"steel\"\nE = \"210 GPa\"\n[section]\nname = \"cells\"\nparts = [{}]\n\
         [slice]\nat = \"1 m\"\nlength = \"50 mm\"\n[cut]\nat = \"neutral axis\"\n",
        parts.join(", ")
    );
    let lesson = lesson::read(&text, "cells.toml").lesson.expect("the lesson is sound");
    let solved = Solved::new(lesson.problem, lesson.style).expect("the lesson can be solved");
    figure::some_on(&solved, sheet, |name| name == "wall-flow").remove(0)
}

#[test]
fn every_value_stands_free() {
    for (name, plates) in [("three", &THREE[..]), ("stacked", &STACKED), ("unlike", &UNLIKE)] {
        for (on, sheet) in [("usual", Sheet::USUAL), ("hand", Sheet::HAND), ("large", Sheet::LARGE_PRINT)] {
            let drawing = wall_flow(plates, sheet);
            let name = format!("{name}, {on}");
            checks::labels_are_apart(&name, &drawing);
            checks::sheet_holds_all(&name, &drawing);
            checks::numbers_are_told(&name, &drawing);
            if on == "usual" {
                checks::arrowheads_are_free(&name, &drawing);
                checks::strikes::labels_are_free_of_lines(&name, &drawing);
                let mut leaders = 0;
                checks::strikes::each_group(&drawing.marks, &mut |_, marks| {
                    let is_leader =
                        |mark: &&Mark| matches!(mark, Mark::Line { stroke, .. } if *stroke == Stroke::LEADER);
                    leaders += marks.iter().filter(is_leader).count();
                });
                assert!(leaders <= 4, "{name}: {leaders}");
            }
        }
    }
}
