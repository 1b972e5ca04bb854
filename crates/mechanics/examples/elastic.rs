//! Solves Saint-Venant's flexure of the sections read as JSON from the standard input and prints what was found as JSON:
//! `tests/comparison/flexure.py` and `benches/against_fem.py` compare it with a general finite-element library.
//!
//! The input is a list of `{"section": ..., "poisson_ratio": ..., "points_m": [[x, y], ...], "effort": "usual"}`, with
//! sections in the form of the reference cases.

#[allow(dead_code, reason = "the tests take the rest")]
#[path = "../tests/all/cases.rs"]
mod cases;

use cases::{number, point, section};
use mechanics::elastic::{Effort, ElasticField, ElasticShear, ShearForce};
use mimalloc::MiMalloc;
use serde_json::{Value, json};
use std::io::Read;
use std::time::Instant;

/// As in the command, whose times these are to be.
#[global_allocator]
static MEMORY: MiMalloc = MiMalloc;

fn stresses(field: &ElasticField<'_>, points: &[Value]) -> Vec<Option<[f64; 2]>> {
    points.iter().map(|at| field.at(point(at)).map(|stress| [stress.right, stress.up])).collect()
}

fn answer(case: &Value) -> Result<Value, Box<dyn std::error::Error>> {
    let section = section(&case["section"]);
    let nu = number(&case["poisson_ratio"]);
    let effort = if case["effort"] == "thorough" { Effort::thorough() } else { Effort::usual() };
    let runs = case["runs"].as_u64().unwrap_or(1);
    let mut seconds = f64::INFINITY;
    for _ in 0..runs {
        let start = Instant::now();
        let elastic = ElasticShear::new(&section, nu, effort).map_err(|fault| format!("{fault:?}"))?;
        std::hint::black_box(elastic.under_level_bending(1.0).largest());
        seconds = seconds.min(start.elapsed().as_secs_f64());
    }
    let elastic = ElasticShear::new(&section, nu, effort).map_err(|fault| format!("{fault:?}"))?;
    let (up, right) = (ShearForce { right: 0.0, up: 1.0 }, ShearForce { right: 1.0, up: 0.0 });
    let points = case["points_m"].as_array().cloned().unwrap_or_default();
    let field = elastic.under(up);
    let largest = elastic.under_level_bending(1.0).largest();
    let (order, triangles, unknowns) = elastic.mesh_size();
    let [trefftz, flexure] = [elastic.shear_centre(), elastic.centre_of_flexure()].map(|at| [at.x, at.y]);
    Ok(json!({
        "seconds": seconds,
        "order": order,
        "triangles": triangles,
        "unknowns": unknowns,
        "error": elastic.error(),
        "torsion_constant": elastic.torsion_constant(),
        "shear_centre": trefftz,
        "centre_of_flexure": flexure,
        "form_factor_up": elastic.form_factor(up),
        "form_factor_right": elastic.form_factor(right),
        "shear_coefficient_up": elastic.shear_coefficient(up),
        "stress_up": stresses(&field, &points),
        "stress_right": stresses(&elastic.under(right), &points),
        "sharp_corners": elastic.sharp_corners().iter().map(|c| [c.at.x, c.at.y, c.left_out]).collect::<Vec<_>>(),
        "largest": largest.map(|l| json!({ "value": l.value, "at": [l.at.x, l.at.y], "error": l.error,
            "beside_corner": l.beside_corner })),
    }))
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut text = String::new();
    std::io::stdin().read_to_string(&mut text)?;
    let cases: Vec<Value> = serde_json::from_str(&text)?;
    let answers = cases.iter().map(answer).collect::<Result<Vec<_>, _>>()?;
    println!("{}", Value::Array(answers));
    Ok(())
}
