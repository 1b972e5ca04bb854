//! Drawings of further cuts, of fasteners along the beam and of what it may carry, on awkward lessons.

use crate::checks;
use figure::drawing::{Drawing, Mark};

/// Six limits, of which several are passed, and two joints in many narrow zones; a slanting cut and an upright one.
const CROWDED: &str = r#"
title = "t"
[values]
L = "3 m"
[beam]
length = "L"
supports = [{ pin = "0 m" }, { roller = "2.4 m" }]
loads = [
  { force = "18 kN", at = "0.2 m", name = "P" },
  { force = "4 kN", at = "0.5 m", direction = "up", name = "F" },
  { couple = "3 kN m", at = "1 m" },
  { spread = "1 kN/m", becoming = "9 kN/m", from = "1.1 m", to = "3 m", name = "w" },
]
[material]
E = "11 GPa"
[allowable]
tension = "2 MPa"
compression = "40 MPa"
shear-stress = "1 MPa"
deflection = "L/300"
[section]
parts = [
  { name = "lower", width = "80 mm", height = "40 mm" },
  { name = "middle", width = "40 mm", height = "100 mm", on = "lower" },
  { name = "upper", width = "80 mm", height = "40 mm", on = "middle" },
]
joints = [
  { name = "screws", kind = "screws", beyond = ["upper"], spacing = "50 mm", capacity = "1.2 kN", zones = true, rows = 2 },
  { name = "fillets", kind = "weld", beyond = ["lower"], strength = "4 N/mm", run = "20 mm", spacing = "40 mm", zones = true },
]
cuts = [
  { name = "upright cut through the flange", from = ["-30 mm", "130 mm"], to = ["-30 mm", "190 mm"], keep = ["-35 mm", "160 mm"] },
  { name = "sloping cut across the web", from = ["-30 mm", "80 mm"], to = ["30 mm", "110 mm"], keep = ["0 mm", "120 mm"] },
]
[slice]
at = "0.8 m"
length = "20 mm"
[cut]
at = "neutral axis"
"#;

/// One limit alone, far from being reached, and no joint.
const BARE: &str = r#"
title = "t"
units = "US"
[beam]
length = "10 ft"
supports = [{ fixed = "0 ft" }]
loads = [{ spread = "20 lb/ft" }]
[material]
E = "1600 ksi"
[allowable]
shear-stress = "90 psi"
bending-stress = "900 psi"
[section]
shape = "rectangle"
width = "4 in"
height = "20 in"
[slice]
at = "1 ft"
length = "1 in"
[cut]
at = "neutral axis"
"#;

fn drawn(text: &str) -> Vec<Drawing> {
    let reading = lesson::read(text, "a lesson");
    let told: Vec<String> = reading.findings.iter().map(|finding| finding.render(false)).collect();
    let solved = reading.solved.unwrap_or_else(|| panic!("{}", told.join("\n")));
    figure::carrying::carrying(&solved)
}

#[test]
fn what_applies_is_drawn_and_sound() {
    let cases: [(&str, &[&str]); 2] = [
        (
            CROWDED,
            &[
                "straight-cut",
                "straight-cut-2",
                "joint-part",
                "joint-part-2",
                "fasteners",
                "fasteners-2",
                "utilisation",
            ],
        ),
        (BARE, &["utilisation", "span-and-depth"]),
    ];
    for (text, expected) in cases {
        let drawings = drawn(text);
        let names: Vec<&str> = drawings.iter().map(|drawing| drawing.name.as_str()).collect();
        assert_eq!(names, expected);
        for drawing in &drawings {
            let mut ids = Vec::new();
            checks::strikes::each_group(&drawing.marks, &mut |id, _| ids.push(id.to_owned()));
            let all = ids.len();
            ids.sort();
            ids.dedup();
            assert_eq!(ids.len(), all, "{}: an id twice", drawing.name);
            checks::labels_are_apart("crowded", drawing);
            checks::sheet_holds_all("crowded", drawing);
            checks::numbers_are_told("crowded", drawing);
            checks::is_described("crowded", drawing);
            checks::arrowheads_are_free("crowded", drawing);
            checks::grips_hold("crowded", drawing);
        }
    }
}

#[test]
fn a_lesson_without_limits_or_zones_has_none_of_them() {
    let text = BARE.split("[allowable]").next().unwrap_or_default().to_owned()
        + "[section]"
        + BARE.split("[section]").nth(1).unwrap_or_default();
    assert!(drawn(&text).is_empty());
}

/// A lid nailed on a box under an even load and a force: V falls to -0.25 kN at the force, where a zone ends.
const NAILED: &str = r#"
title = "t"
[beam]
length = "3 m"
supports = [{ pin = "0 m", name = "A" }, { roller = "3 m", name = "B" }]
loads = [{ force = "3 kN", at = "1 m" }, { spread = "1.5 kN/m" }]
[material]
name = "timber"
E = "10 GPa"
[section]
parts = [
  { name = "web", width = "40 mm", height = "160 mm" },
  { name = "lid", width = "160 mm", height = "40 mm", on = "web" },
]
joints = [{ name = "nails", kind = "nails", beyond = ["lid"], capacity = "900 N", rows = 2, step = "10 mm", zones = true }]
[slice]
at = "1.5 m"
length = "50 mm"
[cut]
at = "nails"
"#;

/// One count: as many strokes as the table has fasteners put in, a row for each second one. And no end of a zone runs through a value.
#[test]
fn as_many_fasteners_are_drawn_as_are_told() {
    let solved = lesson::read(NAILED, "a lesson").solved.expect("it can be solved");
    let told: f64 = solved.zones().flat_map(|(_, zones)| zones).map(|zone| solved.value(zone.standing)).sum();
    let drawings = drawn(NAILED);
    let drawing = drawings.iter().find(|drawing| drawing.name == "fasteners").expect("it has zones");
    let group = |wanted: &str| {
        drawing.marks.iter().find_map(|mark| match mark {
            Mark::Group { id, marks, .. } if id == wanted => Some(marks.as_slice()),
            _ => None,
        })
    };
    let strokes = group("fasteners").expect("fasteners").len();
    assert_eq!(strokes as f64, told / 2.0);
    let zone_ends = group("zones").expect("their ends").iter().filter_map(|mark| match mark {
        Mark::Line { from, to, .. } => Some((*from, *to)),
        _ => None,
    });
    let labels = drawing.labels();
    for (from, to) in zone_ends {
        let struck = labels.iter().find(|label| label.rect.is_crossed(from, to));
        assert!(struck.is_none(), "{struck:?}");
    }
}
