//! Built-up beams of the reference cases: textbook examples and statics by hand. Each case names its source.

use crate::cases::{cases, check, number, rectangles};
use mechanics::section::{Fasteners, Section};
use mechanics::stress::StressOverDepth;
use serde_json::Value;

/// The section with its moduli over the one that the values are transformed to; any of them serves for what does not
/// depend on it.
fn transformed(case: &Value, expected: &Value) -> (Section, Vec<String>, f64) {
    let named = expected["where"]["transformed_to_E_Pa"].as_f64();
    let reference = named.or_else(|| case["parts"][0]["E_Pa"].as_f64());
    let (parts, names) = rectangles(&case["parts"], reference);
    let section = Section::new(parts).unwrap_or_else(|faults| panic!("{}: {faults:?}", case["id"]));
    (section, names, reference.unwrap_or(1.0))
}

#[test]
fn every_joint_carries_what_its_source_says() {
    let mut checked = 0;
    for case in cases(include_str!("../reference/built_up.json")) {
        for expected in case["expect"].as_array().expect("values") {
            let (section, names, reference) = transformed(&case, expected);
            let index = |name: &Value| {
                names.iter().position(|other| Some(other.as_str()) == name.as_str()).expect("the part exists")
            };
            let where_ = &expected["where"];
            let properties = section.properties();
            let shear_force = case["shear_N"].as_f64().unwrap_or(0.0);
            let joint = || {
                let joints = case["joints"].as_array().expect("joints");
                let joint =
                    joints.iter().find(|joint| joint["name"] == where_["joint"]).expect("the joint exists");
                let beyond: Vec<usize> =
                    joint["beyond"].as_array().expect("parts beyond").iter().map(index).collect();
                let cut = section.joint_cut(&beyond).expect("the joint parts the section");
                let rows = joint["rows_of_fasteners"].as_u64().unwrap_or(1);
                (cut, Fasteners { rows: u32::try_from(rows).expect("a small number") }, joint.clone())
            };
            let found = match expected["name"].as_str().expect("a name") {
                "centroid_y" => properties.centroid.y,
                "second_moment_x" => properties.second_moment,
                "bending_stiffness" => properties.second_moment * reference,
                "first_moment" => joint().0.first_moment.abs(),
                "shear_flow" => joint().0.shear_flow(shear_force),
                "shear_stress" => {
                    let (cut, _, joint) = joint();
                    let glued = number(&joint["glue_width_m"]);
                    assert!((cut.width - glued).abs() < 1e-12, "the parts touch over the glued width");
                    cut.shear_stress(shear_force)
                }
                "shear_flow_per_row" => {
                    let (cut, fasteners, _) = joint();
                    fasteners.flow_per_row(cut.shear_flow(shear_force))
                }
                "force_per_fastener" => {
                    let (cut, fasteners, joint) = joint();
                    fasteners.force(cut.shear_flow(shear_force), number(&joint["spacing_m"]))
                }
                "largest_spacing" => {
                    let (cut, fasteners, joint) = joint();
                    fasteners
                        .largest_spacing(cut.shear_flow(shear_force), number(&joint["fastener_capacity_N"]))
                }
                "largest_shear_force" => {
                    let (cut, fasteners, joint) = joint();
                    let capacity = number(&joint["fastener_capacity_N"]);
                    fasteners.largest_shear_force(&cut, number(&joint["spacing_m"]), capacity)
                }
                "bending_stress" => {
                    let stress = StressOverDepth::new(&section, number(&case["moment_N_m"]), 0.0);
                    stress.bending_stress_in(index(&where_["part"]), number(&where_["y_m"]))
                }
                other => panic!("{other} is asked for and not known"),
            };
            check(&case, expected, found);
            checked += 1;
        }
    }
    assert_eq!(checked, 84);
}
