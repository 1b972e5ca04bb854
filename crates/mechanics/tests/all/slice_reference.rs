//! Slices of the reference cases: the balance of the cut piece. Each case names its source.

use crate::cases::{beam, cases, check, number, piece, section, sides};
use mechanics::section::HeightSide;
use mechanics::slice::{Slice, SliceGivens};

#[test]
fn every_slice_carries_what_its_source_says() {
    let mut checked = 0;
    for case in cases(include_str!("../reference/slices.json")) {
        let section = section(&case["section"]);
        let solution = (!case["beam"].is_null()).then(|| beam(&case["beam"]));
        let slices = case["slices"].as_array().expect("slices");
        let givens: Vec<SliceGivens> = slices
            .iter()
            .map(|slice| match &solution {
                Some(solution) => {
                    SliceGivens::from_beam(solution, number(&slice["x_m"]), number(&slice["dx_m"]))
                        .expect("the slice lies on the beam")
                }
                None => SliceGivens::from_moments(
                    number(&slice["moment_left_face_N_m"]),
                    number(&slice["moment_right_face_N_m"]),
                    number(&slice["dx_m"]),
                ),
            })
            .collect();
        for expected in case["expect"].as_array().expect("values") {
            let where_ = &expected["where"];
            let index = where_["slice"].as_u64().expect("an index");
            let givens = givens[usize::try_from(index).expect("a small number")];
            let slice = || {
                Slice::new(&section, givens, number(&where_["cut_y_m"]), piece(where_))
                    .expect("the cut meets")
            };
            let on_each_side = |of: &dyn Fn(&Slice, HeightSide) -> f64| {
                let slice = slice();
                for side in sides(where_) {
                    check(&case, expected, of(&slice, side).abs());
                }
                for (balance, residual) in slice.balances() {
                    assert!(residual.closes(), "{}: {balance:?} {residual:?}", case["id"]);
                }
            };
            checked += 1;
            let found = match expected["name"].as_str().expect("a name") {
                "moment_left_face" => givens.moment_left,
                "moment_right_face" => givens.moment_right,
                "shear_left_face" => givens.shear_left,
                "shear_right_face" => givens.shear_right,
                "load_on_slice_down" => givens.load,
                "resultant_left_face_beyond" => slice().left.beyond.force,
                "resultant_right_face_beyond" => slice().right.beyond.force,
                "force_on_cut" => slice().force_on_cut,
                "mean_shear_stress_on_cut" => {
                    on_each_side(&Slice::mean_shear_stress);
                    continue;
                }
                "formula_shear_stress_left_face" => {
                    on_each_side(&Slice::formula_shear_stress_left);
                    continue;
                }
                other => panic!("{other} is asked for and not known"),
            };
            check(&case, expected, found);
        }
    }
    assert_eq!(checked, 144);
}
