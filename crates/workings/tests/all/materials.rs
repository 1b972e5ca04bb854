//! Beams of two and more materials: the transformed section and the stress in each material.

use crate::cases::{cases, check, number, rectangles};
use crate::common::{Maker, assert_close, assert_within, rectangle, value};
use mechanics::section::HeightSide::{Above, Below};
use mechanics::section::Part;
use proptest::prelude::*;
use workings::material::PartMaterial;
use workings::notation::{Notation, Profile};
use workings::solved::Solved;
use workings::style::Style;

/// psi and inch in SI; exact by definition of the inch and the pound.
const PSI: f64 = 4.448_221_615_260_5 / (0.0254 * 0.0254);
const INCH: f64 = 0.0254;

/// Parts with a modulus and the name of their material each; the first material given is that of reference.
fn beam(reference: f64, parts: Vec<(&str, Part, &str, f64)>) -> Maker {
    let materials = parts
        .iter()
        .map(|(_, _, name, modulus)| PartMaterial {
            name: Some((*name).to_owned()),
            elastic_modulus: (*modulus != reference).then_some(*modulus),
            ..PartMaterial::default()
        })
        .collect();
    let placed = parts
        .into_iter()
        .map(|(name, part, _, modulus)| (name, part.with_modular_ratio(modulus / reference)))
        .collect();
    let mut maker = Maker::new(4.0, placed).pin("A", 0.0).pin("B", 4.0);
    maker.problem.elastic_modulus = reference;
    maker.problem.part_materials = materials;
    maker
}

/// Under a force in the middle that makes this moment at the slice, a quarter of the way; V there is M over 1 m.
fn bent(maker: Maker, moment: f64) -> Maker {
    maker.force("P", 2.0, 2.0 * moment).slice(1.0, 0.01)
}

/// Gere and Timoshenko, Mechanics of Materials, worked example of a wood beam 4 in by 6 in with a steel plate 4 in by ½ in
/// below, E 1500 and 30 000 ksi, M = 60 kip in: n = 20, h1 = 5.031 in, I_T = 231.3 in⁴, stresses -1310, 251, 5030, 7620 psi.
/// From memory. The print carries h1 with four figures, so -1305 psi unrounded is printed as -1310.
#[test]
fn wood_with_a_steel_plate() {
    let wood = rectangle(0.0, 0.5 * INCH, 4.0 * INCH, 6.0 * INCH);
    let plate = rectangle(0.0, 0.0, 4.0 * INCH, 0.5 * INCH);
    let parts = vec![("wood", wood, "wood", 1500e3 * PSI), ("plate", plate, "steel", 30_000e3 * PSI)];
    let solved = bent(beam(1500e3 * PSI, parts), 60e3 * INCH * 4.448_221_615_260_5).solved();
    let of = |name: &str| value(&solved, name);
    assert_close("n", of("modular ratio of steel"), 20.0);
    assert_close("width", of("transformed breadth of plate"), 80.0 * INCH);
    let top = (of("height of the top fibre") - of("centroid height")) / INCH;
    assert_within("h1", top, 5.031, 0.0005);
    assert_within("I", of("second moment") / INCH.powi(4), 231.3, 0.05);
    for (name, psi, figures) in [
        ("bending stress in wood at the top", -1310.0, 5.1),
        ("bending stress in wood at the top of the plate", 251.0, 0.5),
        ("bending stress in steel at the top of the plate", 5030.0, 5.0),
        ("bending stress in steel at the bottom", 7620.0, 5.0),
    ] {
        assert_within(name, of(name) / PSI, psi, figures);
    }
}

/// Gere and Timoshenko, worked example of a sandwich 200 mm wide and 160 mm deep, aluminium faces of 5 mm (72 GPa) on a
/// plastic core of 150 mm (800 MPa), M = 3 kN m: I_faces = 12.017e6 mm⁴, I_core = 56.25e6 mm⁴, largest stress in the faces
/// 19.0 MPa. From memory; the stress in the core is M y E_core / (E I) of both, by hand.
#[test]
fn sandwich_with_a_soft_core() {
    let plank = |y: f64, height: f64| rectangle(0.0, y, 0.2, height);
    let parts = vec![
        ("lower face", plank(0.0, 0.005), "aluminium", 72e9),
        ("core", plank(0.005, 0.150), "plastic", 800e6),
        ("upper face", plank(0.155, 0.005), "aluminium", 72e9),
    ];
    let solved = bent(beam(72e9, parts), 3e3).solved();
    let faces = 0.2 * (0.16f64.powi(3) - 0.15f64.powi(3)) / 12.0;
    assert_within("the example's I", faces, 12.017e-6, 0.0005e-6);
    let i = faces + 56.25e-6 / 90.0;
    assert_close("I", value(&solved, "second moment"), i);
    let names = [
        "largest bending stress in aluminium along the beam",
        "largest bending stress in plastic along the beam",
    ];
    // At the middle of the beam M is twice that at the slice.
    assert_within("faces", value(&solved, names[0]).abs() / 2.0, 19.0e6, 0.05e6);
    let core = 3e3 * 0.075 * 800e6 / (72e9 * faces + 800e6 * 56.25e-6);
    assert_close("core", value(&solved, names[1]).abs() / 2.0, core);
    assert_close("share", value(&solved, "share of the bending moment in aluminium"), faces / i);
}

/// Beer and Johnston, Mechanics of Materials, worked example of a bar of steel ¾ in wide between two of brass of 0.4 in, all
/// 3 in high, E 29 and 15 million psi, M = 40 kip in: n = 1.933, transformed breadth 1.45 in, I = 5.063 in⁴, 11.85 ksi in the
/// brass, 22.9 ksi in the steel. From memory.
#[test]
fn steel_between_brass() {
    let bar = |x: f64, breadth: f64| rectangle(x * INCH, 0.0, breadth * INCH, 3.0 * INCH);
    let parts = vec![
        ("left bar", bar(0.0, 0.4), "brass", 15e6 * PSI),
        ("core", bar(0.4, 0.75), "steel", 29e6 * PSI),
        ("right bar", bar(1.15, 0.4), "brass", 15e6 * PSI),
    ];
    let solved = bent(beam(15e6 * PSI, parts), 40e3 * INCH * 4.448_221_615_260_5).solved();
    let of = |name: &str| value(&solved, name);
    assert_within("n", of("modular ratio of steel"), 1.933, 0.0005);
    assert_within("breadth", of("transformed breadth of core") / INCH, 1.45, 0.005);
    // 2.25 in · 27 in³ / 12 = 5.0625 in⁴ lies half a digit below what is printed.
    assert_within("I", of("second moment") / INCH.powi(4), 5.063, 0.000_501);
    assert_within("brass", of("bending stress in brass at the bottom") / PSI, 11_850.0, 5.0);
    assert_within("steel", of("bending stress in steel at the bottom") / PSI, 22_900.0, 50.0);
    // The steel lies within and is stressed most: it is what the beam's largest tension is.
    let twice = 2.0 * of("bending stress in steel at the bottom");
    assert_close("largest", of("largest tension along the beam"), twice);
}

/// Hibbeler, Mechanics of Materials, worked example of wood 150 mm by 150 mm on a steel strap 150 mm by 20 mm, 12 and
/// 200 GPa, M = 2 kN m, transformed to steel: n = 0.06, 9 mm, ȳ = 36.38 mm, I = 9.358e-6 m⁴, 28.6 MPa · 0.06 = 1.71 MPa at
/// the top of the wood, 7.78 MPa at the bottom. From memory.
#[test]
fn wood_on_a_steel_strap() {
    let wood = rectangle(0.0, 0.020, 0.150, 0.150);
    let strap = rectangle(0.0, 0.0, 0.150, 0.020);
    let parts = vec![("beam", wood, "wood", 12e9), ("strap", strap, "steel", 200e9)];
    let solved = bent(beam(200e9, parts), 2e3).solved();
    let of = |name: &str| value(&solved, name);
    assert_close("n", of("modular ratio of wood"), 0.06);
    assert_close("breadth", of("transformed breadth of beam"), 0.009);
    assert_within("centroid", of("centroid height"), 0.036_38, 0.000_005);
    assert_within("I", of("second moment"), 9.358e-6, 0.0005e-6);
    assert_within("top", of("bending stress in wood at the top"), -1.71e6, 0.005e6);
    assert_within("bottom", of("bending stress in steel at the bottom"), 7.78e6, 0.005e6);
}

/// Every stress of the reference cases of several materials, in the material that the case tells of.
#[test]
fn the_reference_cases_of_several_materials() {
    let mut met = 0;
    for case in cases(include_str!("../../../mechanics/tests/reference/built_up.json")) {
        let given = case["parts"].as_array().expect("parts");
        let Some(modulus) = given[0]["E_Pa"].as_f64() else { continue };
        let (shapes, names) = rectangles(&case["parts"], None);
        let parts = names.iter().zip(shapes).zip(given);
        let parts = parts
            .map(|((name, part), given)| {
                let own = number(&given["E_Pa"]);
                (name.as_str(), part, if own == modulus { "first" } else { "other" }, own)
            })
            .collect();
        let moment = case["moment_N_m"].as_f64().unwrap_or(1e3);
        let solved = bent(beam(modulus, parts), moment).solved();
        for expected in case["expect"].as_array().expect("values") {
            if expected["name"].as_str() != Some("bending_stress") {
                continue;
            }
            let of = &expected["where"];
            let part =
                names.iter().position(|name| Some(name.as_str()) == of["part"].as_str()).expect("the part");
            let height = number(&of["y_m"]);
            let material = if number(&given[part]["E_Pa"]) == modulus { "first" } else { "other" };
            let found = solved.workings().in_order().find(|(_, working)| {
                working.name.starts_with(&format!("bending stress in {material} "))
                    && working.place.height.is_some_and(|at| (at - height).abs() < 1e-12)
            });
            let (_, working) = found.unwrap_or_else(|| panic!("no stress at {of}"));
            check(&case, expected, working.value.value);
            met += 1;
        }
    }
    assert!(met >= 14, "{met} stresses of reference cases");
}

/// By hand: timber 100 x 200 mm under 2 kN m per metre of shear, with a plate of 20 times its modulus, 100 x 10 mm, nailed on
/// below: Q = 20·1000·52.5 mm³, q = V Q / I, and the timber's own width carries it.
#[test]
fn flow_and_nails_between_two_materials() {
    let parts = vec![
        ("timber", rectangle(0.0, 0.010, 0.100, 0.200), "timber", 10e9),
        ("plate", rectangle(0.0, 0.0, 0.100, 0.010), "steel", 200e9),
    ];
    let maker = bent(beam(10e9, parts), 5e3).cut(0.010, Above, Below);
    let solved = maker.nails("screws", &[1], 2, Some(0.05), None).solved();
    let i = 100.0 * 200.0_f64.powi(3) / 12.0 + 2e4 * 52.5 * 52.5 + 2000.0 * 1000.0 / 12.0 + 2e4 * 52.5 * 52.5;
    let flow = 5e3 * (2e4 * 52.5) / i; // N/mm
    assert_close("q", value(&solved, "shear flow at screws"), flow * 1e3);
    assert_close("F", value(&solved, "force on one fastener of screws"), flow * 50.0 / 2.0);
    assert_close("tau", value(&solved, "shear stress on the cut"), flow / 100.0 * 1e6);
}

/// The names and letters of the materials are the lecturer's, or those of the parts.
#[test]
fn materials_are_named() {
    let mut plate = rectangle(0.0, 0.0, 0.1, 0.01);
    plate.modular_ratio = 20.0;
    let timber = rectangle(0.0, 0.01, 0.1, 0.2);
    let maker = Maker::new(4.0, vec![("timber", timber), ("plate", plate)]).pin("A", 0.0).pin("B", 4.0);
    let materials = maker.problem.materials();
    let told: Vec<_> =
        materials.iter().map(|m| (m.name.as_str(), m.letter.as_str(), m.is_reference())).collect();
    assert_eq!(told, [("timber", "a", true), ("plate", "b", false)]);
    let one = Maker::new(4.0, vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))]);
    assert!(one.problem.materials().is_empty());
}

/// Breadth, height and material of planks, the moduli, whether they stand in a row, and the bending moment.
type Planks = (Vec<(f64, f64, usize)>, [f64; 3], bool, f64);

/// A random stack or row of planks of three materials.
fn planks() -> impl Strategy<Value = Planks> {
    let plank = (0.02..0.3f64, 0.01..0.2f64, 0..3usize);
    (prop::collection::vec(plank, 2..5), [5e9..300e9, 5e9..300e9, 5e9..300e9], any::<bool>(), 1e2..1e5f64)
}

const NAMES: [&str; 4] = ["part 1", "part 2", "part 3", "part 4"];
const MATERIALS: [&str; 3] = ["timber", "steel", "brass"];

fn of_planks(
    planks: &[(f64, f64, usize)],
    moduli: [f64; 3],
    row: bool,
    moment: f64,
) -> Result<Solved, String> {
    let (mut x, mut y) = (0.0, 0.0);
    let mut parts = Vec::new();
    for (&(breadth, height, material), name) in planks.iter().zip(NAMES) {
        parts.push((name, rectangle(x, y, breadth, height), MATERIALS[material], moduli[material]));
        if row { x += breadth } else { y += height }
    }
    let reference = parts[0].3;
    let maker = bent(beam(reference, parts), moment);
    let style = Style { notation: Notation::of(Profile::ALL[0]), ..Style::default() };
    Solved::new(maker.problem, style).map_err(|faults| format!("{faults:?}"))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 120, failure_persistence: None, ..ProptestConfig::default() })]

    /// The stresses in the materials, integrated over the true areas, give no force, the moment, and the shares of it; the
    /// shares make one. Closed form: a stress in a straight line over a plank of breadth b, height h: N = b h (s1 + s2)/2.
    #[test]
    fn the_stresses_of_all_materials_balance((planks, moduli, row, moment) in planks()) {
        let solved = of_planks(&planks, moduli, row, moment).map_err(TestCaseError::fail)?;
        let axis = value(&solved, "centroid height");
        let (mut y, mut force, mut size, mut couple, mut shares) = (0.0, 0.0, 0.0, 0.0, 0.0);
        let several = !solved.problem().materials().is_empty();
        for &(breadth, height, material) in &planks {
            if several {
                let at = |level: f64| {
                    let name = format!("bending stress in {} ", MATERIALS[material]);
                    let found = solved.workings().in_order().find(|(_, working)| {
                        working.name.starts_with(&name)
                            && working.place.height.is_some_and(|h| (h - level).abs() < 1e-9)
                    });
                    found.map(|(_, working)| working.value.value).expect("a stress at each end of a plank")
                };
                let (low, high) = (at(y), at(y + height));
                let mean = (low + high) / 2.0;
                force += breadth * height * mean;
                size += breadth * height * (low.abs() + high.abs());
                let middle = y + height / 2.0 - axis;
                couple -= breadth * height * (mean * middle + (high - low) * height / 12.0);
            }
            if !row { y += height }
        }
        if several {
            for material in solved.problem().materials() {
                shares += value(&solved, &format!("share of the bending moment in {}", material.name));
            }
            prop_assert!(force.abs() <= 1e-9 * size, "{force} of {size}");
            prop_assert!((couple - moment).abs() <= 1e-9 * moment, "{couple} instead of {moment}");
            prop_assert!((shares - 1.0).abs() <= 1e-12, "{shares}");
        }
    }

    /// All moduli times one number change no stress; all equal, the beam is one of one material.
    #[test]
    fn only_the_ratios_of_the_moduli_matter((planks, moduli, row, moment) in planks(), times in 0.1..10.0f64) {
        let solved = of_planks(&planks, moduli, row, moment).map_err(TestCaseError::fail)?;
        let scaled = of_planks(&planks, moduli.map(|e| e * times), row, moment).map_err(TestCaseError::fail)?;
        for (_, working) in solved.workings().in_order().filter(|(_, w)| w.name.contains("stress")) {
            let other = value(&scaled, &working.name);
            let scale = 1e-9 * working.value.value.abs() + 1e-6;
            prop_assert!((other - working.value.value).abs() <= scale, "{}", working.name);
        }
        let alike = of_planks(&planks, [moduli[0]; 3], row, moment).map_err(TestCaseError::fail)?;
        prop_assert!(alike.problem().materials().is_empty());
        let plain: Vec<_> = planks.iter().map(|&(b, h, _)| (b, h, 0)).collect();
        let one = of_planks(&plain, moduli, row, moment).map_err(TestCaseError::fail)?;
        // Whether they are planks that could lie loose hangs on the word for their material, not on its modulus.
        for (_, working) in one.workings().in_order().filter(|(_, w)| !w.name.contains("loose planks")) {
            prop_assert_eq!(value(&alike, &working.name), working.value.value, "{}", &working.name);
        }
    }

    /// The engine's shear stress over the true width, added up over the depth, is the shear force.
    #[test]
    fn the_shear_stresses_add_up_to_the_shear_force((planks, moduli, row, moment) in planks()) {
        let solved = of_planks(&planks, moduli, row, moment).map_err(TestCaseError::fail)?;
        let stress = solved.stress();
        let mut sum = 0.0;
        for (from, to) in stress.strips() {
            // Simpson's rule is exact: Q is a parabola in a strip, and the width cancels.
            let flow = |y: f64, side| stress.shear_stress(y, side) * solved.section().width(y, side);
            let middle = (from + to) / 2.0;
            sum += (to - from) / 6.0 * (flow(from, Above) + 4.0 * flow(middle, Above) + flow(to, Below));
        }
        let shear = value(&solved, "shear force at the slice");
        prop_assert!((sum - shear).abs() <= 1e-9 * shear.abs(), "{sum} instead of {shear}");
    }
}
