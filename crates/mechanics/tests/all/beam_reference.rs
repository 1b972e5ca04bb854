//! Every case of `reference/beams.json` to its own tolerance. Each case there names its source (handbook, library or
//! plain computation), whether it was written from memory, and how it was confirmed; each value says whether it is
//! published, a closed form or computed.

use crate::given::{beam_of, number};
use mechanics::beam::{Curve, Extreme, Reached, Side, Solution};
use serde_json::Value;

/// The values asked for: one, or both limits where there must be no jump.
fn found(solution: &Solution, name: &str, place: &Value) -> Vec<f64> {
    let reaction = |place: &Value| {
        let index = place["support"].as_u64().expect("index of a support");
        solution.reactions()[usize::try_from(index).expect("small")]
    };
    let along = |curve: Curve| {
        let sides: &[Side] = match place["side"].as_str() {
            Some("left") => &[Side::Left],
            Some("right") => &[Side::Right],
            Some("both") | None => &[Side::Left, Side::Right],
            Some(other) => panic!("side {other}"),
        };
        sides.iter().map(|&side| solution.value(curve, number(place, "x_m"), side)).collect()
    };
    match name {
        "reaction_force" => vec![reaction(place).force],
        "reaction_couple" => vec![reaction(place).couple],
        "shear" => along(Curve::Shear),
        "moment" => along(Curve::BendingMoment),
        "slope" => along(Curve::Slope),
        "deflection" => along(Curve::Deflection),
        _ => vec![extreme(solution, name).value],
    }
}

fn extreme(solution: &Solution, name: &str) -> Extreme {
    let moments = solution.extremes(Curve::BendingMoment);
    match name {
        "max_abs_shear" => solution.extremes(Curve::Shear).largest_size,
        "max_moment" => moments.highest.expect("a sagging moment"),
        "min_moment" => moments.lowest.expect("a hogging moment"),
        "max_abs_deflection" => solution.extremes(Curve::Deflection).largest_size,
        other => panic!("value {other}"),
    }
}

fn check(case: &Value) -> Vec<String> {
    let beam = beam_of(&case["beam"]);
    let solution = beam.solve().unwrap_or_else(|faults| panic!("{}: {faults:?}", case["id"]));
    let mut wrong = Vec::new();
    for balance in solution.balances(&beam) {
        if !balance.closes() {
            wrong.push(format!("{}: {balance:?}", case["id"]));
        }
    }
    for expected in case["expect"].as_array().expect("a list") {
        let name = expected["name"].as_str().expect("a name");
        let value = number(expected, "value");
        let tolerance =
            (number(expected, "rel_tol") * value.abs()).max(expected["abs_tol"].as_f64().unwrap_or(0.0));
        for got in found(&solution, name, &expected["where"]) {
            if got.is_nan() || (got - value).abs() > tolerance {
                wrong.push(format!("{}: {name} {}: {got}, not {value}", case["id"], expected["where"]));
            }
        }
        if let Some(stations) = expected["found_at_x_m"].as_array() {
            let got = extreme(&solution, name).reached;
            let near = number(expected, "position_tol_m");
            let fits = got.len() == stations.len()
                && got.iter().zip(stations).all(|(got, station)| match got {
                    Reached::At(place) => {
                        (place.station - station.as_f64().expect("a station")).abs() <= near
                    }
                    Reached::Over { .. } => false,
                });
            if !fits {
                wrong.push(format!("{}: {name} at {got:?}, not {stations:?}", case["id"]));
            }
        }
    }
    wrong
}

#[test]
fn reference_beams_hold_to_their_tolerance() {
    let file: Value = serde_json::from_str(include_str!("../reference/beams.json")).expect("valid JSON");
    let cases = file["cases"].as_array().expect("a list");
    assert_eq!(cases.len(), 29);
    let wrong: Vec<String> = cases.iter().flat_map(check).collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
