//! Solves the crowded beam of the reference cases and prints, as JSON, its reactions, the polynomials of its segments, its
//! extremes, and the seconds that one complete solution takes. `benches/against_sympy.py` compares it with sympy.
//!
//! `cargo bench -p mechanics --bench timed_beam`

#[path = "../tests/all/given.rs"]
mod given;

use mechanics::beam::{Beam, Curve, Extremes, Segment, Solution};
use serde_json::{Value, json};
use std::time::Instant;

const EXTREMES: [Curve; 3] = [Curve::Shear, Curve::BendingMoment, Curve::Deflection];

fn complete(beam: &Beam) -> Option<(Solution, [Extremes; 3])> {
    let solution = beam.solve().ok()?;
    let extremes = EXTREMES.map(|curve| solution.extremes(curve));
    Some((solution, extremes))
}

/// Median over batches, s.
fn seconds(beam: &Beam) -> f64 {
    const BATCH: u32 = 1000;
    let mut batches: Vec<f64> = (0..50)
        .map(|_| {
            let start = Instant::now();
            for _ in 0..BATCH {
                std::hint::black_box(complete(std::hint::black_box(beam)));
            }
            start.elapsed().as_secs_f64() / f64::from(BATCH)
        })
        .collect();
    batches.sort_by(f64::total_cmp);
    batches[batches.len() / 2]
}

fn printed(segment: &Segment) -> Value {
    json!({
        "from": segment.from,
        "to": segment.to,
        "shear": segment.shear(),
        "bending_moment": segment.bending_moment(),
        "slope": segment.slope(),
        "deflection": segment.deflection(),
    })
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let file: Value = serde_json::from_str(include_str!("../tests/reference/beams.json"))?;
    let cases = file["cases"].as_array().ok_or("a list of cases")?;
    let case = cases.iter().find(|case| case["id"] == "crowded-overhangs").ok_or("no such case")?;
    let beam = given::beam_of(&case["beam"]);
    let (solution, extremes) = complete(&beam).ok_or("the beam cannot be solved")?;
    let largest: Vec<f64> = extremes.iter().map(|extremes| extremes.largest_size.value).collect();
    let report = json!({
        "beam": case["beam"],
        "seconds": seconds(&beam),
        "reactions": solution.reactions().iter().map(|r| [r.force, r.couple]).collect::<Vec<_>>(),
        "segments": solution.segments().iter().map(printed).collect::<Vec<_>>(),
        "largest": { "shear": largest[0], "bending_moment": largest[1], "deflection": largest[2] },
    });
    println!("{report}");
    Ok(())
}
