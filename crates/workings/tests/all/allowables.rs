//! What the beam may carry, against closed formulas of the textbooks for one beam and against superposition for others.

use crate::common::{Maker, rectangle, tee};
use mechanics::beam::Load;
use workings::material::PartMaterial;
use workings::problem::{Allowable, Joint, JointKind, Problem};
use workings::solved::Solved;
use workings::style::Style;

fn solved(problem: Problem) -> Solved {
    Solved::new(problem, Style::default()).expect("a sound lesson")
}

fn value(solved: &Solved, name: &str) -> f64 {
    let working = solved.workings().get(name).unwrap_or_else(|| panic!("no working {name}"));
    working.value.value
}

fn assert_within(what: &str, found: f64, exact: f64, within: f64) {
    assert!((found - exact).abs() <= within, "{what}: {found} where {exact} is exact");
}

fn close(found: f64, exact: f64) {
    assert!((found - exact).abs() <= 1e-9 * exact.abs(), "{found} where {exact} is exact");
}

const TIMBER: Allowable =
    Allowable { bending: Some(10e6), tension: None, compression: None, shear: Some(1e6), deflection: None };

/// A rectangle b h on two supports L apart, a force in the middle: by bending P = 4 sigma S / L with S = b h^2 / 6, by shear
/// P = 4 tau b h / 3, since V = P / 2 and the largest tau is 3 V / (2 b h) (any textbook of mechanics of materials; from memory).
/// The two meet where L / h = sigma / (2 tau): here at L = 5 h.
#[test]
fn a_force_in_the_middle_of_a_rectangle() {
    let (b, h) = (0.1, 0.2);
    for (length, governs) in
        [(0.8, "the shear stress governs"), (2.0, "the tension and the compression govern")]
    {
        let mut problem = Maker::new(length, vec![("plank", rectangle(0.0, 0.0, b, h))])
            .pin("A", 0.0)
            .pin("B", length)
            .force("P", length / 2.0, 3e3)
            .problem;
        problem.allowable = TIMBER;
        let solved = solved(problem);
        let by_bending = 4.0 * 10e6 * b * h * h / 6.0 / length;
        let by_shear = 4.0 * 1e6 * b * h / 3.0;
        close(value(&solved, "largest force P"), by_bending.min(by_shear));
        close(value(&solved, "load factor for tension"), by_bending / 3e3);
        close(value(&solved, "load factor for compression"), by_bending / 3e3);
        close(value(&solved, "load factor for shear stress"), by_shear / 3e3);
        let sentence = &solved.workings().get("largest load factor").expect("it is there").sentence;
        assert!(sentence.contains(&format!("kept: {governs}.")), "{sentence}");
        assert!(sentence.contains("licensed engineer"), "{sentence}");
    }
}

/// The same under a uniform load: w = 8 sigma S / L^2 by bending, w = 4 tau b h / (3 L) by shear.
#[test]
fn a_uniform_load_on_a_rectangle() {
    let (b, h) = (0.1, 0.2);
    for length in [1.0, 4.0] {
        let load = Load::Spread { from: 0.0, to: length, down_from: 2e3, down_to: 2e3 };
        let mut problem = Maker::new(length, vec![("plank", rectangle(0.0, 0.0, b, h))])
            .pin("A", 0.0)
            .pin("B", length)
            .load("w", load)
            .problem;
        problem.allowable = TIMBER;
        let by_bending = 8.0 * 10e6 * b * h * h / 6.0 / (length * length);
        let by_shear = 4.0 * 1e6 * b * h / (3.0 * length);
        close(value(&solved(problem), "largest spread load w"), by_bending.min(by_shear));
    }
}

/// A T under several loads, with other limits for tension and compression and nails in its joint: grown by the factor, it
/// reaches one of its limits and exceeds none (superposition).
#[test]
fn loads_grown_by_the_factor_reach_one_limit_and_exceed_none() {
    for nails in [200.0, 20e3] {
        let mut problem = Maker::new(4.0, tee((0.12, 0.03), (0.02, 0.12)))
            .pin("A", 0.0)
            .pin("B", 3.0)
            .force("P", 1.0, 4e3)
            .force("F", 4.0, 1e3)
            .couple("C", 2.0, 500.0)
            .load("w", Load::Spread { from: 0.0, to: 3.0, down_from: 1e3, down_to: 2e3 })
            .problem;
        problem.allowable = Allowable {
            bending: None,
            tension: Some(4e6),
            compression: Some(20e6),
            shear: Some(3e6),
            deflection: None,
        };
        problem.joints = vec![Joint {
            name: "nails".into(),
            kind: JointKind::Fasteners,
            beyond: vec![0],
            rows: 2,
            spacing: Some(0.05),
            fastener_capacity: Some(nails),
            ..Joint::default()
        }];
        let before = solved(problem.clone());
        let factor = value(&before, "largest load factor");
        for load in &mut problem.beam.loads {
            match load {
                Load::Force { down, .. } => *down *= factor,
                Load::Couple { ccw, .. } => *ccw *= factor,
                Load::Spread { down_from, down_to, .. } => {
                    *down_from *= factor;
                    *down_to *= factor;
                }
            }
        }
        let grown = solved(problem.clone());
        let reached = [
            value(&grown, "largest tension along the beam") / 4e6,
            value(&grown, "largest compression along the beam").abs() / 20e6,
            value(&grown, "largest shear stress along the beam").abs() / 3e6,
            value(&grown, "force on one fastener of nails, where V is largest").abs() / nails,
        ];
        close(reached.into_iter().fold(0.0, f64::max), 1.0);
        close(value(&grown, "largest load factor"), 1.0);
        // Each load, as large as it may be.
        close(value(&before, "largest force F"), value(&grown, "force F"));
        close(value(&before, "largest couple C"), value(&grown, "couple C"));
        close(
            value(&before, "largest spread load w at its end"),
            value(&grown, "intensity of spread load w at its end"),
        );
    }
}

/// Closed form, for three plates as a short cantilever with a force P on its end: under the flange `sigma = M y / I` and
/// `tau = V Q / (I t)` act together, and `sigma_e = √(sigma² + 3 tau²)` (von Mises, in every textbook) is more than the stress of the
/// outer fibre. So it is what the loads may grow to, and the outer fibre alone would let them grow too far.
#[test]
fn the_equivalent_stress_at_the_junction_of_a_girder_is_a_limit() {
    let made = |load: f64| {
        let plates = vec![
            ("flange", rectangle(0.0, 0.0, 0.2, 0.02)),
            ("web", rectangle(0.095, 0.02, 0.01, 0.16)),
            ("upper flange", rectangle(0.0, 0.18, 0.2, 0.02)),
        ];
        let mut problem = Maker::new(0.5, plates).fixed("A", 0.0).force("P", 0.5, load).problem;
        problem.allowable = Allowable { bending: Some(160e6), ..Allowable::default() };
        solved(problem)
    };
    let load = 100e3;
    let before = made(load);
    let second = (0.2 * 0.2_f64.powi(3) - 0.19 * 0.16_f64.powi(3)) / 12.0;
    let (sigma, outer) = (load * 0.5 * 0.08 / second, load * 0.5 * 0.1 / second);
    let tau = load * (0.2 * 0.02 * 0.09) / (second * 0.01);
    let equivalent = (sigma * sigma + 3.0 * tau * tau).sqrt();
    assert!(equivalent > 1.1 * outer, "the junction is worse than the outer fibre");
    close(value(&before, "utilisation for equivalent stress"), equivalent / 160e6);
    close(value(&before, "load factor for equivalent stress"), 160e6 / equivalent);
    let factor = value(&before, "largest load factor");
    close(factor, 160e6 / equivalent);
    let sentence = &before.workings().get("largest load factor").expect("it is there").sentence;
    assert!(sentence.contains("kept: the equivalent stress governs."), "{sentence}");
    close(value(&made(factor * load), "largest equivalent stress at the checked places"), 160e6);
    // Stretched to its least depth the section keeps the limit: sigma goes with 1/h², tau with 1/h.
    let less = value(&before, "least depth for equivalent stress") / 0.2;
    let (sigma, tau) = (sigma / (less * less), tau / less);
    close((sigma * sigma + 3.0 * tau * tau).sqrt(), 160e6);
}

/// Where bending is worse than the junction, nothing more is held to a limit; wood has no equivalent stress.
#[test]
fn the_equivalent_stress_is_no_limit_where_bending_is_worse_or_in_wood() {
    for (length, name) in [(10.0, "steel"), (0.1, "spruce")] {
        let mut problem = Maker::new(length, vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))])
            .pin("A", 0.0)
            .pin("B", length)
            .force("P", length / 2.0, 3e3)
            .problem;
        problem.allowable = Allowable { bending: Some(10e6), ..Allowable::default() };
        problem.part_materials = vec![PartMaterial { name: Some(name.into()), ..PartMaterial::default() }];
        assert!(solved(problem).workings().id("load factor for equivalent stress").is_none(), "{name}");
    }
}

#[test]
fn what_does_not_grow_with_the_loads_has_no_load_factor() {
    let mut problem = Maker::new(2.0, vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))])
        .pin("A", 0.0)
        .pin("M", 1.0)
        .settled("B", 2.0, 0.001)
        .force("P", 0.5, 3e3)
        .problem;
    problem.allowable = TIMBER;
    assert!(solved(problem).workings().get("largest load factor").is_none());
}

/// The least depth of a rectangle by bending, `√(6 M / (b sigma))`, and by shear, `3 V / (2 b tau)`: solved from `sigma = 6 M / (b h²)`
/// and `tau = 3 V / (2 b h)` (any textbook of mechanics of materials; from memory). The engine's own least depth is asked too.
#[test]
fn the_least_depth_of_a_rectangle() {
    for length in [0.8, 3.0] {
        let mut problem = Maker::new(length, vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))])
            .pin("A", 0.0)
            .pin("B", length)
            .force("P", length / 2.0, 12e3)
            .problem;
        problem.allowable = TIMBER;
        let solved = solved(problem);
        let (moment, shear) = (12e3 * length / 4.0, 6e3);
        close(value(&solved, "least depth for tension"), (6.0 * moment / (0.1 * 10e6)).sqrt());
        close(value(&solved, "least depth for shear stress"), 3.0 * shear / (2.0 * 0.1 * 1e6));
        let depth = mechanics::least_depth::least_depth(0.1, moment, shear, 10e6, 1e6).expect("sound");
        close(value(&solved, "least depth of the section"), depth.depth);
    }
}

/// Where all heights of a T are stretched until the section has the least depth, its worst limit is reached and no other passed.
#[test]
fn a_section_stretched_to_the_least_depth_reaches_one_limit() {
    let lesson = |stretch: f64, deflection: f64| {
        let parts = vec![
            ("flange", rectangle(0.0, 0.12 * stretch, 0.12, 0.03 * stretch)),
            ("web", rectangle(0.05, 0.0, 0.02, 0.12 * stretch)),
        ];
        let mut problem = Maker::new(4.0, parts)
            .pin("A", 0.0)
            .pin("B", 3.0)
            .force("P", 1.0, 4e3)
            .load("w", Load::Spread { from: 0.0, to: 4.0, down_from: 1e3, down_to: 2e3 })
            .problem;
        problem.allowable = Allowable {
            bending: Some(30e6),
            tension: None,
            compression: None,
            shear: Some(1.5e6),
            deflection: Some(deflection),
        };
        problem.joints = vec![Joint {
            name: "glue".into(),
            kind: JointKind::Glue,
            beyond: vec![0],
            allowable_stress: Some(1.0e6),
            ..Joint::default()
        }];
        solved(problem)
    };
    for deflection in [0.01e-3, 1.0] {
        let before = lesson(1.0, deflection);
        let stretch = value(&before, "least depth of the section") / value(&before, "depth of the section");
        let after = lesson(stretch, deflection);
        close(value(&after, "largest load factor"), 1.0);
        close(value(&after, "least depth of the section"), value(&after, "depth of the section"));
    }
}

/// A force at the end of a cantilever: v = P L³ / (3 E I) + (6/5) P L / (G A), any textbook with shear in it; the least depth h k solves
/// v_b / k³ + v_s / k = allowed. Where no shear modulus is stated, bending alone counts.
#[test]
fn a_stated_shear_modulus_counts_in_the_limit_to_the_deflection() {
    let (b, h, length, force, allowed) = (0.05_f64, 0.2_f64, 1.0_f64, 4e3, 1.5e-3);
    let lesson = |modulus: Option<f64>| {
        let mut problem = Maker::new(length, vec![("plank", rectangle(0.0, 0.0, b, h))])
            .fixed("A", 0.0)
            .force("P", length, force)
            .problem;
        problem.elastic_modulus = 10e9;
        problem.beam.flexural_rigidity = 10e9 * b * h.powi(3) / 12.0;
        problem.shear.shear_modulus = modulus;
        problem.allowable = Allowable { deflection: Some(allowed), ..Allowable::default() };
        solved(problem)
    };
    let modulus = 10e9 / 16.0;
    let bending = force * length.powi(3) / (3.0 * 10e9 * b * h.powi(3) / 12.0);
    let shear = 1.2 * force * length / (modulus * b * h);
    let both = lesson(Some(modulus));
    close(value(&both, "form factor of shear"), 1.2);
    close(value(&both, "largest deflection along the beam"), bending);
    close(value(&both, "largest deflection along the beam with that of shear"), bending + shear);
    close(value(&both, "load factor for deflection"), allowed / (bending + shear));
    let k = value(&both, "least depth for deflection") / h;
    close(bending / k.powi(3) + shear / k, allowed);
    let one = lesson(None);
    close(value(&one, "load factor for deflection"), allowed / bending);
    assert!(one.workings().get("form factor of shear").is_none());
}

/// The deflection of a force in the middle is P L³ / (48 E I) and that of a uniform load 5 w L⁴ / (384 E I) (Roark's Formulas for
/// Stress and Strain; from memory).
#[test]
fn a_limit_to_the_deflection() {
    let length = 3.0;
    let limited = |mut problem: Problem| {
        problem.allowable = Allowable { deflection: Some(length / 300.0), ..Allowable::default() };
        solved(problem)
    };
    let maker =
        || Maker::new(length, vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))]).pin("A", 0.0).pin("B", length);
    let rigidity = maker().problem.beam.flexural_rigidity;
    let force = limited(maker().force("P", length / 2.0, 5e3).problem);
    let exact = 5e3 * length.powi(3) / (48.0 * rigidity);
    close(value(&force, "largest deflection along the beam"), exact);
    close(value(&force, "load factor for deflection"), length / 300.0 / exact);
    close(value(&force, "utilisation for deflection"), exact / (length / 300.0));
    // The rest grows with the cube of the depth.
    close(value(&force, "least depth for deflection"), 0.2 * mechanics::real::cbrt(exact / (length / 300.0)));
    let load = Load::Spread { from: 0.0, to: length, down_from: 2e3, down_to: 2e3 };
    let uniform = limited(maker().load("w", load).problem);
    close(
        value(&uniform, "largest deflection along the beam"),
        5.0 * 2e3 * length.powi(4) / (384.0 * rigidity),
    );
}

/// Bending and shear govern a rectangle alike at L / h = sigma / (2 tau) under a force in the middle and at sigma / tau under a
/// uniform load (Gere and Timoshenko, Mechanics of Materials, on rectangular beams; from memory, and by hand from both formulas);
/// at the end of a cantilever at sigma / (4 tau). A beam of that ratio has both factors alike.
#[test]
fn where_bending_and_shear_govern_alike() {
    type Loads = fn(f64) -> Maker;
    let cases: [(Loads, f64); 3] = [
        (|l| beam(l).pin("A", 0.0).pin("B", l).force("P", l / 2.0, 3e3), 5.0),
        (|l| beam(l).pin("A", 0.0).pin("B", l).spread("w", 0.0, l, 3e3), 10.0),
        (|l| beam(l).fixed("A", 0.0).force("P", l, 3e3), 2.5),
    ];
    for (make, exact) in cases {
        for length in [1.0, 0.2 * exact, 4.0] {
            let mut problem = make(length).problem;
            problem.allowable = TIMBER;
            let solved = solved(problem);
            close(value(&solved, "span-to-depth ratio at which bending and shear govern alike"), exact);
            close(value(&solved, "span-to-depth ratio of the beam"), length / 0.2);
            let (bending, shear) =
                (value(&solved, "load factor for tension"), value(&solved, "load factor for shear stress"));
            let shorter = length / 0.2 < exact * (1.0 - 1e-9);
            let longer = length / 0.2 > exact * (1.0 + 1e-9);
            assert_eq!((shorter, longer), (shear < bending * (1.0 - 1e-9), bending < shear * (1.0 - 1e-9)));
        }
    }
}

fn beam(length: f64) -> Maker {
    Maker::new(length, vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))])
}

/// Two planks of 100 x 100 mm, glued: where the glue may bear less than the wood it governs. tau = 3 V / (2 A) at half the depth.
#[test]
fn a_glue_line_that_is_weaker_than_the_wood() {
    let planks = vec![("lower", rectangle(0.0, 0.0, 0.1, 0.1)), ("upper", rectangle(0.0, 0.1, 0.1, 0.1))];
    let mut problem = Maker::new(1.0, planks).pin("A", 0.0).pin("B", 1.0).force("P", 0.5, 3e3).problem;
    problem.allowable = TIMBER;
    problem.joints = vec![Joint {
        name: "glue".into(),
        beyond: vec![1],
        allowable_stress: Some(0.3e6),
        ..Joint::default()
    }];
    let solved = solved(problem);
    close(value(&solved, "load factor for shear stress at glue"), 0.3e6 / (1.5 * 1.5e3 / 0.02));
    close(value(&solved, "largest force P"), 4.0 * 0.3e6 * 0.02 / 3.0);
    let sentence = &solved.workings().get("largest load factor").expect("it is there").sentence;
    assert!(sentence.contains("shear stress at glue governs"), "{sentence}");
}

/// A plank let into a groove touches the rest on three faces, and the glue of all of them shares the flow.
#[test]
fn a_joint_shares_the_flow_over_all_its_faces() {
    let parts = vec![
        ("left cheek", rectangle(0.0, 0.0, 0.04, 0.10)),
        ("bed", rectangle(0.04, 0.0, 0.04, 0.06)),
        ("right cheek", rectangle(0.08, 0.0, 0.04, 0.10)),
        ("tongue", rectangle(0.04, 0.06, 0.04, 0.10)),
    ];
    let mut problem = Maker::new(2.0, parts).pin("A", 0.0).pin("B", 2.0).force("P", 1.0, 3e3).problem;
    problem.joints = vec![Joint { name: "groove".into(), beyond: vec![3], ..Joint::default() }];
    let solved = solved(problem);
    // The bed 40 mm, and twice 40 mm of the cheeks.
    close(value(&solved, "width of groove"), 0.12);
    // By hand, from the four rectangles.
    let areas = [(0.04 * 0.10, 0.05), (0.04 * 0.06, 0.03), (0.04 * 0.10, 0.05), (0.04 * 0.10, 0.11)];
    let heights = [0.10, 0.06, 0.10, 0.10_f64];
    let area: f64 = areas.iter().map(|(area, _)| area).sum();
    let axis = areas.iter().map(|(area, y)| area * y).sum::<f64>() / area;
    let second: f64 = areas
        .iter()
        .zip(heights)
        .map(|((area, y), height)| area * height * height / 12.0 + area * (y - axis) * (y - axis))
        .sum();
    let flow = 1.5e3 * 0.004 * (0.11 - axis) / second;
    close(value(&solved, "shear flow at groove, where V is largest").abs(), flow);
    close(value(&solved, "shear stress at groove, where V is largest").abs(), flow / 0.12);
}

/// Closed form: the transformed section of a joist on a plate twenty times as stiff, worked out here. In each material the stress is
/// that of its own modulus, held to its own limit; tau is V Q / (I b) on the cut that is sheared most.
#[test]
fn each_material_is_held_to_limits_of_its_own() {
    let (b, h, t, ratio) = (0.08, 0.2, 0.01, 20.0);
    let mut plate = rectangle(0.0, 0.0, b, t);
    plate.modular_ratio = ratio;
    let parts = vec![("plate", plate), ("joist", rectangle(0.0, t, b, h))];
    let mut maker = Maker::new(4.0, parts).pin("A", 0.0).pin("B", 4.0).force("P", 2.0, 10e3);
    let steel = Allowable { bending: Some(160e6), shear: Some(90e6), ..Allowable::default() };
    let named = |name: &str, allowable| PartMaterial {
        name: Some(name.into()),
        allowable,
        ..PartMaterial::default()
    };
    maker.problem.part_materials = vec![named("steel", steel), named("spruce", Allowable::default())];
    maker.problem.allowable =
        Allowable { tension: Some(8e6), compression: Some(10e6), shear: Some(1e6), ..Allowable::default() };
    let solved = maker.solved();
    let (moment, force) = (10e3, 5e3);
    let (plate_area, joist_area) = (ratio * b * t, b * h);
    let centre = (plate_area * 0.5 * t + joist_area * (t + 0.5 * h)) / (plate_area + joist_area);
    let own = b * (ratio * t.powi(3) + h.powi(3)) / 12.0;
    let second = own + plate_area * (centre - 0.5 * t).powi(2) + joist_area * (t + 0.5 * h - centre).powi(2);
    let top = t + h - centre;
    let expected = [
        ("tension in steel", ratio * moment * centre / second, 160e6),
        ("shear stress in steel", force * plate_area * (centre - 0.5 * t) / (second * b), 90e6),
        ("tension in spruce", moment * (centre - t) / second, 8e6),
        ("compression in spruce", moment * top / second, 10e6),
        ("shear stress in spruce", force * 0.5 * top * top / second, 1e6),
    ];
    let allowables = solved.allowables().expect("there are limits");
    let words: Vec<&str> = allowables.limits.iter().map(|limit| limit.words.as_str()).collect();
    assert_eq!(words, expected.map(|(words, _, _)| words));
    let factors = &allowables.growth.as_ref().expect("the loads may grow").factors;
    for ((limit, &factor), (words, reached, allowed)) in allowables.limits.iter().zip(factors).zip(expected) {
        assert_within(words, solved.value(limit.reached).abs(), reached, 1e-9 * reached);
        assert_within(words, solved.value(factor), allowed / reached, 1e-9 * allowed / reached);
    }
    let least = expected.iter().map(|(_, reached, allowed)| allowed / reached).fold(f64::INFINITY, f64::min);
    assert_within("largest load", value(&solved, "largest force P"), least * 10e3, 1e-9 * least * 10e3);
}

/// Closed form: a support in the middle of three that settles by d takes 3 E I d (2 / l³) from it, so the end reactions of two equal spans l
/// under w are 3 w l / 8 + 3 E I d / l³ (any textbook). Not all of that grows with the loads: utilisations, and no load factors.
#[test]
fn what_does_not_grow_with_the_loads_is_held_to_its_limits_all_the_same() {
    let (b, h, l, w, settles) = (0.1_f64, 0.2_f64, 3.0_f64, 4e3, 0.004);
    let mut maker = Maker::new(2.0 * l, vec![("plank", rectangle(0.0, 0.0, b, h))])
        .pin("A", 0.0)
        .pin("B", l)
        .pin("C", 2.0 * l)
        .spread("w", 0.0, 2.0 * l, w);
    let rigidity = 10e9 * b * h.powi(3) / 12.0;
    maker.problem.elastic_modulus = 10e9;
    maker.problem.beam.flexural_rigidity = rigidity;
    maker.problem.beam.supports[1].transverse = mechanics::beam::Hold::Rigid { moved: -settles };
    maker.problem.allowable = Allowable { bending: Some(12e6), ..TIMBER };
    let solved = maker.solved();
    let end = 3.0 * w * l / 8.0 + 3.0 * rigidity * settles / l.powi(3);
    let sagging = end * end / (2.0 * w);
    let hogging = (end * l - w * l * l / 2.0).abs();
    let most = sagging.max(hogging) / (b * h * h / 6.0);
    close(value(&solved, "utilisation for tension"), most / 12e6);
    let shear = 1.5 * end.max(w * l - end) / (b * h);
    close(value(&solved, "utilisation for shear stress"), shear / 1e6);
    close(value(&solved, "largest utilisation"), (most / 12e6).max(shear / 1e6));
    let allowables = solved.allowables().expect("there are limits");
    assert!(allowables.growth.is_none());
    let verdict = &solved.workings().working(allowables.verdict).sentence;
    assert!(verdict.contains("govern") && verdict.contains("licensed engineer"), "{verdict}");
}

/// Closed form: of joists with a plate between them each bears its shear modulus over the sum of all times their widths. V is largest, and
/// negative, on the right: 7.5 kN; what is held to a limit is its size.
#[test]
fn what_lies_side_by_side_is_sheared_alike() {
    let (joist, plate, height, ratio) = (0.050, 0.012, 0.2, 20.0);
    let mut steel = rectangle(0.0, 0.0, plate, height);
    steel.modular_ratio = ratio;
    let parts = vec![
        ("plate", steel),
        ("left joist", rectangle(-joist, 0.0, joist, height)),
        ("right joist", rectangle(plate, 0.0, joist, height)),
    ];
    let mut maker = Maker::new(4.0, parts).pin("A", 0.0).pin("B", 4.0).force("P", 3.0, 10e3);
    let own = Allowable { shear: Some(90e6), ..Allowable::default() };
    maker.problem.part_materials = vec![PartMaterial { allowable: own, ..PartMaterial::default() }];
    maker.problem.part_materials.resize(3, PartMaterial::default());
    maker.problem.allowable.shear = Some(1e6);
    let solved = maker.solved();
    let of_reference = 1.5 * 7.5e3 / height / (2.0 * joist + ratio * plate);
    let allowables = solved.allowables().expect("there are limits");
    let reached: Vec<f64> = allowables.limits.iter().map(|limit| solved.value(limit.reached)).collect();
    assert_eq!(reached.len(), 2);
    for (found, wanted) in reached.into_iter().zip([ratio * of_reference, of_reference]) {
        assert_within("shear stress", found, wanted, 1e-9 * wanted);
    }
}

/// Closed form, unsymmetric bending of any textbook: M (I_y y - I_xy x) / (I_x I_y - I_xy²) at the corner that bears most,
/// V Q / (I t) with what counts of Q and I, P l³ / (48 E I) with what counts of I.
#[test]
fn a_z_is_held_to_its_limits_by_the_full_formulas() {
    let (flange, web, wall) = (0.060, 0.138, 0.006);
    let parts = vec![
        ("bottom flange", rectangle(-0.5 * wall, 0.0, flange, wall)),
        ("web", rectangle(-0.5 * wall, wall, wall, web)),
        ("top flange", rectangle(0.5 * wall - flange, wall + web, flange, wall)),
    ];
    let mut maker = Maker::new(3.0, parts).pin("A", 0.0).pin("B", 3.0).force("P", 1.5, 2e3);
    maker.problem.allowable =
        Allowable { bending: Some(80e6), shear: Some(40e6), deflection: Some(0.01), ..Allowable::default() };
    let solved = maker.solved();
    let (up, out, area) = (0.5 * (web + wall), 0.5 * (flange - wall), flange * wall);
    let level = wall * web.powi(3) / 12.0 + 2.0 * (flange * wall.powi(3) / 12.0 + area * up * up);
    let upright = web * wall.powi(3) / 12.0 + 2.0 * (wall * flange.powi(3) / 12.0 + area * out * out);
    let product = -2.0 * area * up * out;
    let both = level * upright - product * product;
    let (half, reach) = (0.5 * web + wall, flange - 0.5 * wall);
    let corners = [(-0.5 * wall, -half), (reach, -half), (reach, wall - half), (0.5 * wall, wall - half)];
    let moment = 1.5e3;
    let stress = |(x, y): (f64, f64)| (moment * (upright * y - product * x) / both).abs();
    let most = corners.map(stress).into_iter().fold(0.0, f64::max);
    let (above, beside) = (area * up + wall * web * web / 8.0, -area * out);
    let shear = 1e3 * (upright * above - product * beside) / (both * wall);
    let sag = 2e3 * 27.0 / (48.0 * 200e9 * both / upright);
    let allowables = solved.allowables().expect("there are limits");
    let expected = [("tension", most), ("compression", most), ("shear stress", shear), ("deflection", sag)];
    for (limit, (words, reached)) in allowables.limits.iter().zip(expected) {
        assert_eq!(limit.words, words);
        assert_within(words, solved.value(limit.reached).abs(), reached, 1e-9 * reached);
    }
    assert_eq!(allowables.limits.len(), expected.len());
    let load = value(&solved, "largest force P");
    let wanted = 2e3 * (80e6 / most).min(40e6 / shear).min(0.01 / sag);
    assert_within("largest load", load, wanted, 1e-9 * wanted);
    // Stretched to the least depth all of it follows the same laws: both formulas lose by the depth alike.
    let least = value(&solved, "least depth of the section");
    let depth = 2.0 * half;
    let asked = depth * (most / 80e6).sqrt().max(shear / 40e6).max(mechanics::real::cbrt(sag / 0.01));
    assert_within("least depth", least, asked, 1e-9 * asked);
}

/// Closed form: free to go sideways and with shear, a cantilever of a Z sinks by P L³ / (3 E I) times I I_y / (I I_y - I_yz²) and by
/// f P L / (G A); the least depth h k solves v_b / k³ + v_s / k = allowed.
#[test]
fn a_z_is_stretched_for_what_it_sinks_free_to_go_sideways_and_by_shear() {
    let (length, force, allowed, modulus) = (0.6_f64, 2e3, 0.4e-3, 80e9);
    let parts = vec![
        ("bottom flange", rectangle(-0.003, 0.0, 0.060, 0.006)),
        ("web", rectangle(-0.003, 0.006, 0.006, 0.138)),
        ("top flange", rectangle(-0.057, 0.144, 0.060, 0.006)),
    ];
    let mut maker = Maker::new(length, parts).fixed("A", 0.0).force("P", length, force);
    maker.problem.shear.shear_modulus = Some(modulus);
    maker.problem.allowable.deflection = Some(allowed);
    let solved = maker.solved();
    let (up, out, area) = (0.072, 0.027, 0.060 * 0.006);
    let level = 0.006 * 0.138_f64.powi(3) / 12.0 + 2.0 * (0.060 * 0.006_f64.powi(3) / 12.0 + area * up * up);
    let upright =
        0.138 * 0.006_f64.powi(3) / 12.0 + 2.0 * (0.006 * 0.060_f64.powi(3) / 12.0 + area * out * out);
    let product = -2.0 * area * up * out;
    let bending = force * length.powi(3) / (3.0 * 200e9 * (level - product * product / upright));
    let whole = 2.0 * area + 0.006 * 0.138;
    let shear = value(&solved, "form factor of shear") * force * length / (modulus * whole);
    close(value(&solved, "largest deflection along the beam, free to go sideways"), bending + shear);
    let k = value(&solved, "least depth for deflection") / 0.150;
    close(bending / k.powi(3) + shear / k, allowed);
}
