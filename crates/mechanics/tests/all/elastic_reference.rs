//! The elastic solution against the reference cases: closed forms, series, general finite elements. Each case names its source.

use crate::cases::{cases, check, number, section};
use mechanics::elastic::{Effort, ElasticShear};
use mechanics::section::{HeightSide, Point};
use mechanics::stress::StressOverDepth;
use serde_json::Value;

fn holds(case: &Value) -> usize {
    // An ellipse is no outline of lines and arcs: its five values are held in `src/elastic/ellipse.rs`.
    if case["section"]["outline"].is_null() {
        return 0;
    }
    let section = section(&case["section"]);
    let nu = case["poisson_ratio"].as_f64().unwrap_or(0.0);
    let elastic =
        ElasticShear::new(&section, nu, Effort::thorough()).unwrap_or_else(|fault| panic!("{fault:?}"));
    let shear = case["shear_N"].as_f64().unwrap_or(0.0);
    let field = elastic.under_level_bending(shear);
    let formula = StressOverDepth::new(&section, 0.0, shear);
    let list = case["expect"].as_array().expect("a list");
    for expected in list {
        let where_ = &expected["where"];
        let point = || {
            // The book's figures name the place and leave the coordinates to another entry of the same name.
            let named = list
                .iter()
                .find(|other| other["where"]["point"] == where_["point"] && !other["where"]["x_m"].is_null());
            let at = &named.expect("the place is known")["where"];
            Point { x: number(&at["x_m"]), y: number(&at["y_m"]) }
        };
        let up = || field.at(point()).unwrap_or_else(|| panic!("{} on the section", expected["where"])).up;
        let found = match expected["name"].as_str().expect("a name") {
            "second_moment_x" => section.properties().second_moment,
            "shear_stress_y" => up(),
            "formula_shear_stress" => formula.shear_stress(number(&where_["y_m"]), HeightSide::Above),
            "ratio_true_to_formula" => up() / formula.shear_stress(point().y, HeightSide::Above),
            "max_over_average" => field.largest().expect("there is one").value / formula.mean_shear_stress(),
            "torsion_constant" => elastic.torsion_constant(),
            other => panic!("{other} is asked for and not known"),
        };
        if std::env::var("SHOW").is_ok() {
            let value = number(&expected["value"]);
            println!(
                "{} {} {} off {:.1e} allowed {}",
                case["id"],
                expected["name"],
                expected["where"],
                found / value - 1.0,
                expected["rel_tol"]
            );
        } else {
            check(case, expected, found);
        }
    }
    list.len()
}

#[test]
fn every_value_of_the_reference_cases_holds() {
    let cases = cases(include_str!("../reference/true_shear.json"));
    let held: usize = cases.iter().map(holds).sum();
    assert_eq!((cases.len(), held), (9, 77));
}
