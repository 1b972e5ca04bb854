//! Stresses of the reference cases: textbook examples, exact geometry, thin-wall theory. Each case names its source.

use crate::cases::{beam, cases, check, check_places, number, point, section, side_along, sides};
use mechanics::beam::Solution;
use mechanics::least_depth::least_depth;
use mechanics::section::{HeightSide, Section};
use mechanics::stress::{SkewBending, StressOverDepth};
use mechanics::thin_wall::ThinWalls;
use serde_json::Value;

fn along(case: &Value, solution: &Solution, expected: &Value) -> bool {
    let where_ = &expected["where"];
    let found = match expected["name"].as_str().expect("a name") {
        "shear" => solution.shear(number(&where_["x_m"]), side_along(where_)),
        "moment" => solution.bending_moment(number(&where_["x_m"]), side_along(where_)),
        _ => return false,
    };
    check(case, expected, found);
    true
}

fn stress(case: &Value, section: &Section, stress: &StressOverDepth, expected: &Value) {
    let where_ = &expected["where"];
    let properties = section.properties();
    let on_each_side = |of: &dyn Fn(HeightSide) -> f64| {
        for side in sides(where_) {
            check(case, expected, of(side));
        }
    };
    let height = || number(&where_["y_m"]);
    let cut = || {
        section
            .straight_cut(
                point(&where_["cut_from_m"]),
                point(&where_["cut_to_m"]),
                point(&where_["keep_side_of_point_m"]),
            )
            .expect("the cut parts the section")
    };
    let found = match expected["name"].as_str().expect("a name") {
        "second_moment_x" => properties.second_moment,
        "centroid_y" => properties.centroid.y,
        "area_beyond" => cut().area,
        "first_moment" => cut().first_moment.abs(),
        "width" => cut().width,
        "shear_flow" => cut().shear_flow(stress.shear_force),
        "shear_stress" if where_["y_m"].is_null() => cut().shear_stress(stress.shear_force),
        "shear_stress" => return on_each_side(&|side| stress.shear_stress(height(), side).abs()),
        "max_shear_stress" => {
            let largest = stress.largest_shear_stress();
            let places: Vec<f64> = largest.places.iter().map(|place| place.height).collect();
            check_places(case, expected, &places);
            largest.value
        }
        "average_shear_stress" => stress.mean_shear_stress().abs(),
        "ratio_max_to_average" => stress.largest_shear_stress().value / stress.mean_shear_stress().abs(),
        "shear_force_carried" => {
            stress.shear_force_carried(number(&where_["from_y_m"]), number(&where_["to_y_m"]))
        }
        "bending_stress" => stress.bending_stress(height()),
        "principal_stress_max" => {
            return on_each_side(&|side| stress.principal_stresses(height(), side).largest);
        }
        "principal_stress_min" => {
            return on_each_side(&|side| stress.principal_stresses(height(), side).smallest);
        }
        "max_in_plane_shear" => {
            return on_each_side(&|side| stress.principal_stresses(height(), side).largest_shear);
        }
        other => panic!("{other} is asked for and not known"),
    };
    check(case, expected, found);
}

fn skew(case: &Value, expected: &Value) {
    let section = section(&case["section"]);
    let bending = SkewBending::new(
        &section,
        number(&case["moment_tension_at_plus_y_N_m"]),
        number(&case["moment_tension_at_plus_x_N_m"]),
    );
    let where_ = &expected["where"];
    let found = match expected["name"].as_str().expect("a name") {
        "bending_stress" => {
            bending.stress(mechanics::section::Point { x: number(&where_["x_m"]), y: number(&where_["y_m"]) })
        }
        "neutral_axis_angle" => bending.neutral_axis_angle(),
        other => panic!("{other} is asked for and not known"),
    };
    check(case, expected, found);
}

fn thin(case: &Value, expected: &Value) {
    let wall = &case["thin_wall"];
    let thickness = number(&wall["thickness_m"]);
    let is_channel = wall["shape"] == "channel";
    let section = if is_channel {
        ThinWalls::channel(number(&wall["flange_width_m"]), number(&wall["height_m"]), thickness, thickness)
    } else {
        ThinWalls::slit_tube(number(&wall["radius_m"]), thickness)
    };
    let section = section.expect("the dimensions are sound");
    let flow = section.shear_flow(0.0, number(&case["shear_N"]));
    let found = match expected["name"].as_str().expect("a name") {
        "second_moment_x" => section.second_moment(),
        // Both lie to the left of the origin: off the web, and away from the slit.
        "shear_centre_offset" => -section.shear_centre().x,
        "shear_force_in_flange" => flow.wall_force(0).abs(),
        "shear_stress" => flow.at(0, 1.0).abs() / thickness,
        "max_shear_stress" => flow.largest().expect("it has walls").stress,
        other => panic!("{other} is asked for and not known"),
    };
    check(case, expected, found);
}

fn depth(case: &Value, expected: &Value) {
    let solution = beam(&case["beam"]);
    let extreme = |of: &dyn Fn(&mechanics::beam::Segment, f64) -> f64| {
        // Loads of these cases are points or uniform: M turns where V passes through zero within a segment.
        let mut most = 0.0_f64;
        for segment in solution.segments() {
            let [v0, v1, _] = segment.shear();
            let mut places = vec![0.0, segment.length()];
            if v1 != 0.0 && (0.0..=segment.length()).contains(&(-v0 / v1)) {
                places.push(-v0 / v1);
            }
            most = places.iter().fold(most, |most, &s| most.max(of(segment, s).abs()));
        }
        most
    };
    let shear = extreme(&|segment, s| segment.value(mechanics::beam::Curve::Shear, s));
    let moment = extreme(&|segment, s| segment.value(mechanics::beam::Curve::BendingMoment, s));
    let design = &case["design"];
    let least = least_depth(
        number(&design["width_m"]),
        moment,
        shear,
        number(&design["allowable_bending_stress_Pa"]),
        number(&design["allowable_shear_stress_Pa"]),
    )
    .expect("the stresses are sound");
    let found = match (expected["name"].as_str(), expected["where"]["by"].as_str()) {
        (Some("max_abs_shear"), _) => shear,
        (Some("max_moment"), _) => moment,
        (Some("least_depth"), Some("bending")) => least.by_bending,
        (Some("least_depth"), Some("shear")) => least.by_shear,
        (Some("least_depth"), _) => least.depth,
        other => panic!("{other:?} is asked for and not known"),
    };
    check(case, expected, found);
}

#[test]
fn every_stress_is_that_of_its_source() {
    let mut checked = 0;
    for case in cases(include_str!("../reference/shear.json")) {
        let expected = case["expect"].as_array().expect("values");
        checked += expected.len();
        if !case["moment_tension_at_plus_y_N_m"].is_null() {
            expected.iter().for_each(|expected| skew(&case, expected));
        } else if !case["thin_wall"].is_null() {
            expected.iter().for_each(|expected| thin(&case, expected));
        } else if !case["design"].is_null() {
            expected.iter().for_each(|expected| depth(&case, expected));
        } else if !case["beam"].is_null() {
            let solution = beam(&case["beam"]);
            let (station, side) = (number(&case["station"]["x_m"]), side_along(&case["station"]));
            let section = section(&case["section"]);
            let over_depth = StressOverDepth::new(
                &section,
                solution.bending_moment(station, side),
                solution.shear(station, side),
            );
            for expected in expected {
                if !along(&case, &solution, expected) {
                    stress(&case, &section, &over_depth, expected);
                }
            }
        } else {
            let section = section(&case["section"]);
            let over_depth = StressOverDepth::new(&section, 0.0, number(&case["shear_N"]));
            expected.iter().for_each(|expected| stress(&case, &section, &over_depth, expected));
        }
    }
    assert_eq!(checked, 179);
}
