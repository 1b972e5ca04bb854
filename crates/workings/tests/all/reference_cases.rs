//! The reference cases of beams, slices and built-up sections through the whole graph. Published, closed form or
//! computed by general libraries: each case names its source in its file.

use crate::cases::{cases, check, number, piece, rectangles, section, sides};
use crate::common::{Maker, rectangle, value};
use crate::given::beam_of;
use mechanics::beam::{Hold, Load};
use mechanics::section::HeightSide;
use serde_json::Value;
use workings::problem::{LoadLabel, Problem, SupportKind, SupportLabel};
use workings::solved::Solved;
use workings::style::Style;

/// A lesson on the beam of a case; what it is made of does not matter to its reactions beyond E I.
fn lesson_on(given: &Value, parts: Vec<(&str, mechanics::section::Part)>) -> Problem {
    let beam = beam_of(given);
    let mut problem = Maker::new(beam.length, parts).problem;
    for (place, support) in beam.supports.iter().enumerate() {
        let kind = match (support.transverse, support.rotation) {
            (Hold::Spring { .. }, _) => SupportKind::Spring,
            (Hold::Free, _) => SupportKind::Guided,
            (_, Hold::Free) => SupportKind::Pin,
            _ => SupportKind::Fixed,
        };
        problem.supports.push(SupportLabel { name: place.to_string(), kind });
    }
    for place in 0..beam.loads.len() {
        problem.loads.push(LoadLabel { name: (place + 1).to_string(), self_weight: false });
    }
    problem.elastic_modulus = number(&given["E_Pa"]);
    problem.beam = beam;
    problem
}

fn solved(problem: Problem, id: &Value) -> Solved {
    match Solved::new(problem, Style::default()) {
        Ok(solved) => solved,
        Err(faults) => panic!("{id}: {}", faults.iter().map(|f| format!("{f}\n")).collect::<String>()),
    }
}

#[test]
fn beams() {
    for case in cases(include_str!("../../../mechanics/tests/reference/beams.json")) {
        let problem = lesson_on(&case["beam"], vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))]);
        let whole = solved(problem, &case["id"]);
        let axis = whole.section().neutral_axis();
        let or_nothing = |name: &str| whole.workings().get(name).map_or(0.0, |working| working.value.value);
        for expected in case["expect"].as_array().expect("values") {
            let place = &expected["where"];
            let support = || place["support"].as_u64().expect("the support is told");
            let at = || {
                let x = number(&place["x_m"]);
                whole.at(x, axis, HeightSide::Below).unwrap_or_else(|faults| panic!("{x}: {faults:?}"))
            };
            let on_side = |what: &str| {
                let here = at();
                let left = here.workings().get(&format!("{what} just left of the slice"));
                match (place["side"].as_str(), left) {
                    (Some("left"), Some(left)) => left.value.value,
                    _ => value(&here, &format!("{what} at the slice")),
                }
            };
            let found = match expected["name"].as_str() {
                Some("reaction_force") => or_nothing(&format!("reaction at {}", support())),
                Some("reaction_couple") => or_nothing(&format!("couple at {}", support())),
                Some("shear") => on_side("shear force"),
                Some("moment") => on_side("bending moment"),
                Some("max_abs_shear") => value(&whole, "largest shear force").abs(),
                Some("max_moment") => value(&whole, "largest sagging moment"),
                Some("min_moment") => value(&whole, "largest hogging moment"),
                // Slope and deflection are curves of the engine, not workings.
                _ => continue,
            };
            check(&case, expected, found);
        }
    }
}

#[test]
fn slices() {
    for case in cases(include_str!("../../../mechanics/tests/reference/slices.json")) {
        let Value::Array(slices) = &case["slices"] else { panic!("slices") };
        if case["beam"].is_null() {
            // Only the moments on the faces are given: the engine's own tests hold it.
            continue;
        }
        let section = section(&case["section"]);
        let parts = || section.parts().iter().map(|part| ("part", part.clone())).collect();
        for expected in case["expect"].as_array().expect("values") {
            let place = &expected["where"];
            let slice =
                &slices[usize::try_from(place["slice"].as_u64().expect("which slice")).expect("small")];
            let mut problem = lesson_on(&case["beam"], parts());
            problem.slice.at = number(&slice["x_m"]);
            problem.slice.length = number(&slice["dx_m"]);
            if place["cut_y_m"].is_number() {
                problem.cut.height = number(&place["cut_y_m"]);
                problem.cut.beyond = piece(place);
            }
            for side in sides(place) {
                problem.cut.side = side;
                let solved = solved(problem.clone(), &case["id"]);
                let ids = solved.slice();
                let found = match expected["name"].as_str() {
                    Some("moment_left_face") => solved.value(ids.moment_left),
                    Some("moment_right_face") => solved.value(ids.moment_right),
                    Some("shear_left_face") => solved.value(ids.shear_left),
                    Some("shear_right_face") => solved.value(ids.shear_right),
                    Some("resultant_left_face_beyond") => solved.value(ids.resultant_left),
                    Some("resultant_right_face_beyond") => solved.value(ids.resultant_right),
                    Some("force_on_cut") => solved.value(ids.force_on_cut),
                    Some("mean_shear_stress_on_cut") => solved.value(ids.mean_stress).abs(),
                    Some("formula_shear_stress_left_face") => solved.value(solved.key().stress_on_cut).abs(),
                    // The balances of the derivation hold the load on the slice.
                    _ => continue,
                };
                check(&case, expected, found);
            }
        }
    }
}

#[test]
fn built_up_sections() {
    for case in cases(include_str!("../../../mechanics/tests/reference/built_up.json")) {
        let Value::Array(joints) = &case["joints"] else { continue };
        if case["parts"].as_array().is_some_and(|parts| parts.iter().any(|part| part["E_Pa"].is_number())) {
            // The reference modulus is told by each value; the composite sections are tested in the textbook examples.
            continue;
        }
        let (parts, names) = rectangles(&case["parts"], None);
        let parts = names.iter().map(String::as_str).zip(parts).collect();
        let shear = case["shear_N"].as_f64().unwrap_or(1000.0);
        let mut maker = Maker::new(4.0, parts)
            .pin("A", 0.0)
            .pin("B", 4.0)
            .load("P", Load::Force { station: 2.0, down: 2.0 * shear })
            .slice(1.0, 0.01);
        for joint in joints {
            let beyond: Vec<usize> = joint["beyond"]
                .as_array()
                .expect("parts beyond")
                .iter()
                .filter_map(|name| names.iter().position(|known| Some(known.as_str()) == name.as_str()))
                .collect();
            let rows = joint["rows_of_fasteners"].as_u64().unwrap_or(1);
            maker = maker.nails(
                joint["name"].as_str().expect("a joint has a name"),
                &beyond,
                u32::try_from(rows).expect("few"),
                joint["spacing_m"].as_f64(),
                joint["fastener_capacity_N"].as_f64(),
            );
        }
        let solved = solved(maker.problem, &case["id"]);
        for expected in case["expect"].as_array().expect("values") {
            let joint = expected["where"]["joint"].as_str().unwrap_or_default();
            let name = match expected["name"].as_str() {
                Some("centroid_y") => "centroid height".to_owned(),
                Some("second_moment_x") => "second moment".to_owned(),
                Some("first_moment") => format!("first moment at {joint}"),
                Some("shear_flow") if case["shear_N"].is_number() => format!("shear flow at {joint}"),
                Some("force_per_fastener") if case["shear_N"].is_number() => {
                    format!("force on one fastener of {joint}")
                }
                Some("largest_spacing") if case["shear_N"].is_number() => {
                    format!("largest spacing at {joint}")
                }
                _ => continue,
            };
            check(&case, expected, value(&solved, &name));
        }
    }
}
