//! Reads the reference cases: sections from their outlines, and each expected value against what was found.

use mechanics::beam::{Beam, Load, Side, Solution, Support};
use mechanics::section::{Edge, HeightSide, Loop, Part, Point, Section};
use serde_json::Value;

/// The cases of one file.
pub fn cases(text: &str) -> Vec<Value> {
    let file: Value = serde_json::from_str(text).expect("the reference file is JSON");
    file["cases"].as_array().expect("it holds cases").clone()
}

pub fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is a number"))
}

pub fn point(value: &Value) -> Point {
    Point { x: number(&value[0]), y: number(&value[1]) }
}

pub fn outline(value: &Value) -> Loop {
    let path = value["path"].as_array().expect("a loop has a path");
    let edge = |side: &Value| {
        if side["line_to_m"].is_null() {
            Edge::Arc {
                to: point(&side["arc_to_m"]),
                centre: point(&side["centre_m"]),
                counter_clockwise: side["turn"] == "ccw",
            }
        } else {
            Edge::Line { to: point(&side["line_to_m"]) }
        }
    };
    Loop { start: point(&value["start_m"]), path: path.iter().map(edge).collect() }
}

/// An outline with its holes as one part.
pub fn part(value: &Value) -> Part {
    let loops = value["loops"].as_array().expect("an outline has loops");
    let of_kind =
        |kind: &str| loops.iter().filter(|ring| ring["kind"] == kind).map(outline).collect::<Vec<_>>();
    let solid = of_kind("solid");
    assert_eq!(solid.len(), 1, "one solid loop");
    Part::of_outline(solid[0].clone(), of_kind("hole"))
}

pub fn section(value: &Value) -> Section {
    let parts = if value["parts"].is_array() {
        let parts = value["parts"].as_array().expect("parts");
        parts.iter().map(|one| part(&one["outline"]).with_modular_ratio(number(&one["weight"]))).collect()
    } else {
        vec![part(&value["outline"])]
    };
    Section::new(parts).unwrap_or_else(|faults| panic!("{faults:?}"))
}

/// The parts that are rectangles, with their names and moduli of elasticity over the reference one.
pub fn rectangles(parts: &Value, reference: Option<f64>) -> (Vec<Part>, Vec<String>) {
    let parts = parts.as_array().expect("parts");
    let one = |part: &Value| {
        let rectangle = &part["rectangle"];
        let corner = Point { x: number(&rectangle["x_m"]), y: number(&rectangle["y_m"]) };
        let modulus = part["E_Pa"].as_f64();
        let ratio = modulus.zip(reference).map_or(1.0, |(modulus, reference)| modulus / reference);
        Part::rectangle(corner, number(&rectangle["width_m"]), number(&rectangle["height_m"]))
            .with_modular_ratio(ratio)
    };
    let name = |part: &Value| part["name"].as_str().expect("a part has a name").to_owned();
    (parts.iter().map(one).collect(), parts.iter().map(name).collect())
}

pub fn piece(where_: &Value) -> HeightSide {
    if where_["keep"] == "above" { HeightSide::Above } else { HeightSide::Below }
}

/// The sides asked for: both limits where there is no jump.
pub fn sides(where_: &Value) -> Vec<HeightSide> {
    match where_["side"].as_str() {
        Some("above") => vec![HeightSide::Above],
        Some("below") => vec![HeightSide::Below],
        _ => vec![HeightSide::Below, HeightSide::Above],
    }
}

/// Whether a found value passes: within the greater of the two tolerances.
pub fn check(case: &Value, expected: &Value, found: f64) {
    let value = number(&expected["value"]);
    let relative = number(&expected["rel_tol"]) * value.abs();
    let tolerance = relative.max(expected["abs_tol"].as_f64().unwrap_or(0.0));
    assert!(
        (found - value).abs() <= tolerance,
        "{}: {} at {}: found {found}, expected {value} within {tolerance}",
        case["id"],
        expected["name"],
        expected["where"],
    );
}

/// Whether a largest value is found in exactly the places listed.
pub fn check_places(case: &Value, expected: &Value, found: &[f64]) {
    let Some(wanted) = expected["found_at_y_m"].as_array() else { return };
    let tolerance = number(&expected["position_tol_m"]);
    let mut places: Vec<f64> = Vec::new();
    for &place in found {
        if places.last().is_none_or(|last| place - last > tolerance) {
            places.push(place);
        }
    }
    assert_eq!(places.len(), wanted.len(), "{}: {places:?} against {wanted:?}", case["id"]);
    for (place, wanted) in places.iter().zip(wanted) {
        assert!((place - number(wanted)).abs() <= tolerance, "{}: {place} against {wanted}", case["id"]);
    }
}

pub fn beam(value: &Value) -> Solution {
    let list = |name: &str| value[name].as_array().cloned().unwrap_or_default();
    let support = |support: &Value| {
        let station = number(&support["x_m"]);
        match support["kind"].as_str() {
            Some("pin" | "roller") => Support::pin(station),
            Some("fixed") => Support::fixed(station),
            other => panic!("{other:?}"),
        }
    };
    let load = |load: &Value| match load["kind"].as_str() {
        Some("point") => Load::Force { station: number(&load["x_m"]), down: number(&load["down_N"]) },
        Some("couple") => Load::Couple { station: number(&load["x_m"]), ccw: number(&load["ccw_N_m"]) },
        Some("spread") => Load::Spread {
            from: number(&load["from_m"]),
            to: number(&load["to_m"]),
            down_from: number(&load["down_start_N_per_m"]),
            down_to: number(&load["down_end_N_per_m"]),
        },
        other => panic!("{other:?}"),
    };
    let beam = Beam {
        length: number(&value["length_m"]),
        flexural_rigidity: number(&value["E_Pa"]) * number(&value["I_m4"]),
        supports: list("supports").iter().map(support).collect(),
        hinges: list("hinges_x_m").iter().map(number).collect(),
        loads: list("loads").iter().map(load).collect(),
    };
    beam.solve().unwrap_or_else(|faults| panic!("{faults:?}"))
}

pub fn side_along(where_: &Value) -> Side {
    if where_["side"] == "left" { Side::Left } else { Side::Right }
}
