//! Reads a beam of `reference/beams.json` or `reference/errors.json`.

use mechanics::beam::{Beam, Hold, Load, Support};
use serde_json::Value;

/// The number that stands under a key.
pub fn number(value: &Value, key: &str) -> f64 {
    value[key].as_f64().unwrap_or_else(|| panic!("{key} in {value}"))
}

/// The beam that a case states.
pub fn beam_of(given: &Value) -> Beam {
    let list = |key: &str| given[key].as_array().cloned().unwrap_or_default();
    let support = |given: &Value| {
        let station = number(given, "x_m");
        let mut support = match given["kind"].as_str() {
            Some("pin" | "roller") => Support::pin(station),
            Some("fixed") => Support::fixed(station),
            Some("guided") => Support::guided(station),
            Some("spring") => Support::spring(station, number(given, "stiffness_N_per_m")),
            other => panic!("support {other:?}"),
        };
        if let Some(down) = given["settles_down_m"].as_f64() {
            support.transverse = Hold::Rigid { moved: -down };
        }
        support
    };
    let load = |given: &Value| match given["kind"].as_str() {
        Some("point") => Load::Force { station: number(given, "x_m"), down: number(given, "down_N") },
        Some("couple") => Load::Couple { station: number(given, "x_m"), ccw: number(given, "ccw_N_m") },
        Some("spread") => Load::Spread {
            from: number(given, "from_m"),
            to: number(given, "to_m"),
            down_from: number(given, "down_start_N_per_m"),
            down_to: number(given, "down_end_N_per_m"),
        },
        other => panic!("load {other:?}"),
    };
    Beam {
        length: number(given, "length_m"),
        flexural_rigidity: number(given, "E_Pa") * number(given, "I_m4"),
        supports: list("supports").iter().map(support).collect(),
        hinges: list("hinges_x_m").iter().filter_map(Value::as_f64).collect(),
        loads: list("loads").iter().map(load).collect(),
    }
}
