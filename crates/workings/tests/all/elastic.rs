//! The elastic truth of a lesson, against books and closed forms.

use crate::common::{Maker, assert_within, rectangle, reference, value};
use mechanics::section::{Figure, HeightSide, Part, shapes};
use workings::elastic::{ElasticTruth, NoTruth};
use workings::material::PartMaterial;
use workings::shear_stiffness::ShearGiven;
use workings::solved::Solved;

fn simple(parts: Vec<(&str, Part)>) -> Solved {
    Maker::new(4.0, parts).pin("A", 0.0).pin("B", 4.0).force("P", 2.0, 20e3).solved()
}

fn round(diameter: f64) -> Part {
    let mut parts = shapes::circle(diameter).expect("a circle").parts;
    parts.remove(0)
}

/// Source: Timoshenko and Goodier, Theory of Elasticity, bending of a rectangular bar, table of the largest stress at the
/// sides over 3 V / (2 A) for Poisson's ratio 1/4: 1.033 at h/b = 2, 1.126 at 1, 1.396 at 1/2, 1.988 at 1/4. From memory.
#[test]
fn a_rectangle_narrow_and_wide() {
    for (breadth, published) in [(0.060, 1.033), (0.120, 1.126), (0.240, 1.396), (0.480, 1.988)] {
        let solved = simple(vec![("plank", rectangle(0.0, 0.0, breadth, 0.120))]);
        let truth = ElasticTruth::with(&solved, 0.25).expect("a rectangle is solved");
        let cut = truth.cut.expect("the cut is compared");
        // Closed form: 3 V / (2 A), and the mean is the formula's.
        assert_within("formula", cut.across.formula, 1.5 * 10e3 / (breadth * 0.120), 1e-6);
        assert_within("mean", cut.across.mean / cut.across.formula, 1.0, 1e-3);
        // To half a unit of the last printed digit, and the wanted error of the solution, 4 in 1000.
        let ratio = cut.across.ratio().expect("a stress");
        assert_within("ratio", ratio, published, 0.0005 + 0.004 * published);
        assert_within("largest of the section", truth.ratio_of_largest(), ratio, 0.004 * published);
        // Closed form: 6/5.
        assert_within("form factor", truth.form_factor_of_formula, 1.2, 1e-9);
        assert!(truth.form_factor > 1.2, "uneven over the width, it stores more");
        let nearer_side = cut.across.largest_up.x.min(breadth - cut.across.largest_up.x);
        assert_within("at a side", nearer_side, 0.0, 1e-3 * breadth);
    }
}

/// Closed form (Saint-Venant; Timoshenko and Goodier, bending of a circular bar, from memory): at the middle
/// (3 + 2 nu) / (8 (1 + nu)) V r² / I = 1.3846 V / A for nu = 0.3, at the ends of that diameter
/// (1 + 2 nu) / (4 (1 + nu)) V r² / I = 1.2308 V / A; the formula gives 4/3. Cowper: k = 6 (1 + nu) / (7 + 6 nu).
#[test]
fn a_circle() {
    let nu = 0.3;
    let solved = simple(vec![("bar", round(0.100))]);
    let truth = ElasticTruth::of(&solved).expect("a circle is solved");
    let mean = 10e3 / (0.25 * std::f64::consts::PI * 0.01);
    assert_within("formula", truth.largest_by_formula.value / mean, 4.0 / 3.0, 1e-6);
    let middle = (3.0 + 2.0 * nu) / (2.0 * (1.0 + nu));
    assert_within("largest", truth.largest.value / mean, middle, 0.004 * middle);
    let coefficient = truth.shear_coefficient.expect("a force");
    assert_within("coefficient", coefficient, 6.0 * (1.0 + nu) / (7.0 + 6.0 * nu), 1e-3);
    // Closed form: the mean over a chord of a circle has the form factor 10/9.
    assert_within("form factor of the formula", truth.form_factor_of_formula, 10.0 / 9.0, 1e-6);
    assert!(truth.sharp_corners().is_empty());
}

/// Source: Timoshenko and Goodier, torsion of a square bar, J = 0.1406 a⁴; its shear centre is its middle. A channel of thin walls, any
/// textbook: the shear centre lies e = 3 b² / (6 b + h) outside the middle line of its web, b and h along middle lines. From
/// memory; walls of a fiftieth of the depth leave some hundredths between both theories.
#[test]
fn the_shear_centre_and_the_torsion_constant() {
    let row = |solved: &Solved, name: &str| {
        let rows = ElasticTruth::of(solved).expect("it is solved").values(solved);
        rows.iter().find(|row| row.name == name).expect("a row").value
    };
    let side: f64 = 0.100;
    let square = simple(vec![("bar", rectangle(0.020, 0.030, side, side))]);
    let constant = row(&square, "true torsion constant") / side.powi(4);
    assert_within("torsion constant", constant, 0.1406, 0.0001);
    assert_within("right", row(&square, "place of the true shear centre to the right"), 0.050, 1e-6);
    assert_within("height", row(&square, "height of the true shear centre"), 0.080, 1e-6);

    let (breadth, depth, wall) = (0.100, 0.200, 0.004);
    let channel = simple(vec![
        ("lower flange", rectangle(0.0, 0.0, breadth, wall)),
        ("web", rectangle(0.0, wall, wall, depth - 2.0 * wall)),
        ("upper flange", rectangle(0.0, depth - wall, breadth, wall)),
    ]);
    let (b, h) = (breadth - 0.5 * wall, depth - wall);
    let outside = 3.0 * b * b / (6.0 * b + h);
    let place = row(&channel, "place of the true shear centre to the right");
    assert_within("channel", 0.5 * wall - place, outside, 0.02 * outside);
    assert_within("its height", row(&channel, "height of the true shear centre"), 0.5 * depth, 1e-5);
}

#[test]
fn the_cut_of_the_lesson_is_what_is_compared() {
    let solved = reference().solved();
    let truth = ElasticTruth::of(&solved).expect("a T is solved");
    let cut = truth.cut.expect("the cut is compared");
    let tau = value(&solved, "shear stress on the cut");
    assert_within("formula", cut.across.formula, tau, 1e-9 * tau.abs());
    assert_eq!(cut.side, HeightSide::Below);
    assert!(!cut.has_largest, "the cut runs through the corners below the flange");
    let axis = truth.axis.expect("the web");
    assert!(
        axis.has_largest && axis.across.ratio().is_some_and(|ratio| (1.0..1.1).contains(&ratio)),
        "{axis:?}"
    );
    assert_eq!(truth.sharp_corners().len(), 2, "where web and flange meet");
    let said = truth.cautions(&solved).join(" ");
    assert!(said.contains("assumed: 0.3") && said.contains("no largest stress"), "{said}");
    let rows = truth.values(&solved);
    let names: Vec<&str> = rows.iter().map(|row| row.name.as_str()).collect();
    let mut different = names.clone();
    different.sort_unstable();
    different.dedup();
    assert_eq!(different.len(), names.len(), "{names:?}");
    assert!(rows.iter().all(|row| row.value.is_finite() && row.chapter == "elastic"));
    // Closed form of balance: over the depth the mean is the formula's at every level.
    for level in truth.over_depth() {
        let off = (level.across.mean - level.across.formula).abs();
        assert!(off <= 0.03 * truth.largest.value, "{level:?}");
    }
}

/// What cannot be told is said in words, and nothing panics.
#[test]
fn what_cannot_be_told_is_said() {
    let quiet = Maker::new(4.0, vec![("plank", rectangle(0.0, 0.0, 0.1, 0.2))])
        .pin("A", 0.0)
        .pin("B", 4.0)
        .couple("C", 2.0, 3e3)
        .couple("D", 3.0, -3e3)
        .solved();
    let none = ElasticTruth::of(&quiet).expect_err("no shear force");
    assert_eq!(none, NoTruth::NoShearForce);
    assert!(none.to_string().ends_with("no shear force acts at the slice"), "{none}");
    let solved = reference().solved();
    for ratio in [-1.0, 0.6, f64::NAN, f64::INFINITY] {
        let none = ElasticTruth::with(&solved, ratio).expect_err("no such material");
        assert!(none.to_string().contains("Poisson's ratio"), "{none}");
    }
    // A wall of a hundred-thousandth of the height.
    let mut thin = rectangle(0.0, 0.0, 1e-6, 0.2);
    thin.figure = Figure::Rectangle { breadth: 1e-6, height: 0.2 };
    let solved = simple(vec![("foil", thin), ("plank", rectangle(-0.1, 0.2, 0.2, 0.1))]);
    match ElasticTruth::of(&solved) {
        Err(none) => assert!(none.to_string().contains("cannot be told: "), "{none}"),
        Ok(truth) => assert!(truth.largest.value.is_finite() && truth.largest.value > 0.0),
    }
}

/// Two stiff faces on a soft core: breadth, thickness of the core, of a face, m, and the core's modular ratio.
const SANDWICH: [f64; 4] = [0.2, 0.08, 0.002, 0.002];

fn sandwich() -> Vec<(&'static str, Part)> {
    let [b, c, face, ratio] = SANDWICH;
    let mut core = rectangle(0.0, face, b, c);
    core.modular_ratio = ratio;
    vec![
        ("lower face", rectangle(0.0, 0.0, b, face)),
        ("core", core),
        ("upper face", rectangle(0.0, face + c, b, face)),
    ]
}

/// The sag of shear of the sandwich under 20 kN in the middle of 4 m by the published formula below, from the core's shear modulus.
fn sag_of_the_core(shear_modulus: f64) -> f64 {
    let [b, c, face, _] = SANDWICH;
    let d = c + face;
    20e3 * 4.0 * c / (4.0 * shear_modulus * b * d * d)
}

/// Published: H. G. Allen, *Analysis and Design of Structural Sandwich Panels* (from memory): thin stiff faces d apart on a soft core of
/// thickness c and breadth b shear as b d² / c of the core alone, so a force P in the middle of a span l sags it by
/// P l c / (4 G b d²). The core's own part in bending and the faces' in shear are as small as the ratio of moduli.
#[test]
fn the_sag_of_shear_of_a_sandwich_is_that_of_its_core() {
    let [b, c, face, ratio] = SANDWICH;
    let solved = simple(sandwich());
    let truth = ElasticTruth::of(&solved).expect("it is solved");
    let d = c + face;
    let wanted = sag_of_the_core(ratio * 200e9 / (2.0 * (1.0 + truth.poisson_ratio())));
    let found = truth.sag_of_shear(&solved).expect("it bends");
    assert_within("sag of shear", found.added, wanted, 0.02 * wanted);
    // Of bending: P l³ / (48 E I) with I = b t d² / 2 of the faces, t³ and the core left out, a hundredth in all.
    let bending = 20e3 * 64.0 / (48.0 * 200e9 * b * face * d * d / 2.0);
    let share = found.share();
    assert_within("share", share, wanted / bending, 0.03 * share);
}

/// Closed form, unsymmetric bending of any textbook: over the web of a Z the mean is V (I_y Q_x - I_xy Q_y) / ((I_x I_y - I_xy²) t),
/// with the sums of the rectangles worked out here; V Q_x / (I_x t) misses it by an eighth. The truth is that of the upright force alone.
#[test]
fn the_truth_of_a_z_is_that_of_the_upright_force_alone() {
    let (flange, web, wall) = (0.060, 0.138, 0.006);
    let solved = simple(vec![
        ("bottom flange", rectangle(-0.5 * wall, 0.0, flange, wall)),
        ("web", rectangle(-0.5 * wall, wall, wall, web)),
        ("top flange", rectangle(0.5 * wall - flange, wall + web, flange, wall)),
    ]);
    let truth = ElasticTruth::of(&solved).expect("a Z is solved");
    assert!(truth.bends_askew());
    let (up, out, area) = (0.5 * (web + wall), 0.5 * (flange - wall), flange * wall);
    let level = wall * web.powi(3) / 12.0 + 2.0 * (flange * wall.powi(3) / 12.0 + area * up * up);
    let upright = web * wall.powi(3) / 12.0 + 2.0 * (wall * flange.powi(3) / 12.0 + area * out * out);
    let product = -2.0 * area * up * out;
    // Of the upper half.
    let (above, beside) = (area * up + wall * web * web / 8.0, -area * out);
    let force = 10e3;
    let full = force * (upright * above - product * beside) / ((level * upright - product * product) * wall);
    let simple = force * above / (level * wall);
    let axis = truth.axis.expect("the web");
    assert_within("simple formula", axis.across.formula, simple, 1e-9 * simple);
    assert_within("full formula", axis.across.balanced, full, 1e-9 * full);
    assert_within("true mean", axis.across.mean, full, 5e-3 * full);
    assert_within("over", axis.across.balanced_over_formula().expect("a stress"), full / simple, 1e-9);
    assert!(full / simple > 1.1, "the simple formula is off by more than a tenth: {}", full / simple);
    assert!(axis.across.ratio().is_some_and(|ratio| (1.0..1.1).contains(&ratio)), "{axis:?}");
    let (force_found, _) = truth.field().resultant();
    assert_within("force to the right", force_found.right, 0.0, 1e-6 * force);
    assert_within("force up", force_found.up, force, 1e-6 * force);
    let rows = truth.values(&solved);
    let over = rows.iter().find(|row| row.name == "full formula over simple formula, at the neutral axis");
    assert_within("row", over.expect("it is a value").value, full / simple, 1e-9);
    let said = truth.cautions(&solved).join(" ");
    assert!(said.contains("does not hold for this section") && !said.contains("held"), "{said}");
}

/// Closed form: between two stiff faces the core alone is sheared, with the modulus that is stated for it, whatever its E: as in the sandwich
/// above. State a third of the modulus, and it sags three times as much.
#[test]
fn a_stated_shear_modulus_is_the_one_that_counts() {
    let sag = |times: f64| {
        let ratio = SANDWICH[3];
        let mut maker = Maker::new(4.0, sandwich()).pin("A", 0.0).pin("B", 4.0).force("P", 2.0, 20e3);
        let stated = times * ratio * 200e9 / 2.6;
        let shear = ShearGiven { shear_modulus: Some(stated), ..ShearGiven::default() };
        let own = PartMaterial { shear, ..PartMaterial::default() };
        maker.problem.part_materials = vec![PartMaterial::default(), own, PartMaterial::default()];
        let solved = maker.solved();
        let truth = ElasticTruth::of(&solved).expect("it is solved");
        let core = &truth.materials[1];
        assert_within("shear modulus", core.shear_modulus, stated, 1e-9 * stated);
        assert!(!core.is_assumed && truth.materials[0].is_assumed);
        let wanted = sag_of_the_core(stated);
        let found = truth.sag_of_shear(&solved).expect("it bends").added;
        assert_within("sag of shear", found, wanted, 0.02 * wanted);
        found
    };
    assert!((sag(1.0 / 3.0) / sag(1.0) - 3.0).abs() < 0.01);
}

/// Closed form, the unit-load theorem of any textbook, `∫ f V v / (G A) dx`: a force at the end of an overhang a behind a span l sinks it by
/// f F (a + a²/l) / (G A), more than the largest moment F a would say; a couple on a simple beam sinks nothing by shear.
#[test]
fn what_shear_adds_hangs_on_how_the_beam_is_held() {
    let plank = || vec![("plank", rectangle(0.0, 0.0, 0.02, 0.24))];
    let (l, a, force) = (3.0, 1.0, 5e3);
    let solved = Maker::new(l + a, plank()).pin("A", 0.0).pin("B", l).force("P", l + a, force).solved();
    let truth = ElasticTruth::of(&solved).expect("a rectangle is solved");
    let wanted = 1.2 * force * (a + a * a / l) / (200e9 / 2.6 * 0.02 * 0.24);
    let sag = truth.sag_of_shear(&solved).expect("it bends");
    assert_within("added", sag.added, wanted, 0.003 * wanted);
    assert_within("with", sag.with, sag.without + sag.added, 1e-9 * sag.with);

    let solved = Maker::new(l, plank()).pin("A", 0.0).pin("B", l).couple("M", 1.2, 4e3).solved();
    let truth = ElasticTruth::of(&solved).expect("a rectangle is solved");
    let sag = truth.sag_of_shear(&solved).expect("it bends");
    assert_within("of a couple", sag.added, 0.0, 1e-9 * sag.without);
}

/// Closed form: f V / (G A) with f = 6/5 in a narrow rectangle; of timber G is a sixteenth of E (common practice, no source), so shear adds
/// 16 (6/5) (h / l)² · (4 · 12 / 48) = 1.2 · 16 (h / l)² of P l³ / (48 E I) under a force in the middle.
#[test]
fn timber_is_sheared_by_its_own_modulus() {
    let (h, l) = (0.24, 4.0);
    let mut maker = Maker::new(l, vec![("plank", rectangle(0.0, 0.0, 0.02, h))]);
    maker.problem.shear.shear_modulus = Some(200e9 / 16.0);
    let solved = maker.pin("A", 0.0).pin("B", l).force("P", 2.0, 20e3).solved();
    let truth = ElasticTruth::of(&solved).expect("a rectangle is solved");
    let wanted = 1.2 * 16.0 * (h / l) * (h / l);
    let share = truth.sag_of_shear(&solved).expect("it bends").share();
    assert_within("share", share, wanted, 0.005 * wanted);
    let rows = truth.values(&solved);
    let modulus = rows.iter().find(|row| row.name == "shear modulus").expect("it is a value");
    assert_within("shear modulus", modulus.value, 200e9 / 16.0, 1.0);
    // No material that is alike in all directions has it, so Poisson's ratio is assumed all the same, and that is said.
    let said = truth.cautions(&solved).join(" ");
    assert!(said.contains("Poisson's ratio is assumed: 0.3"), "{said}");
}

/// What follows from what is stated. Closed form: E = 2 G (1 + nu).
#[test]
fn poissons_ratio_and_shear_modulus_follow_from_one_another() {
    let stated = |poisson_ratio, shear_modulus| ShearGiven { poisson_ratio, shear_modulus };
    let modulus = 210e9;
    for (given, ratio, shear, assumed) in [
        (stated(None, None), 0.3, modulus / 2.6, true),
        (stated(Some(0.2), None), 0.2, modulus / 2.4, false),
        (stated(None, Some(modulus / 2.5)), 0.25, modulus / 2.5, false),
        (stated(None, Some(modulus / 16.0)), 0.3, modulus / 16.0, true),
        (stated(Some(0.4), Some(modulus / 16.0)), 0.4, modulus / 16.0, false),
    ] {
        assert_within("ratio", given.poisson_ratio(modulus), ratio, 1e-12);
        assert_within("shear modulus", given.shear_modulus(modulus), shear, 1e-12 * shear);
        assert_eq!(given.assumes_poisson_ratio(modulus), assumed, "{given:?}");
    }
}

/// Closed form of equal shear strain: tau = q G / Σ(G b), so timber and steel stand as their shear moduli, and over their widths they make
/// up the flow. In truth the means over each come near to it, and the mean over both is V Q / (I t) of neither.
#[test]
fn materials_side_by_side_share_the_flow_by_their_shear_moduli() {
    let (joist, plate, height, ratio) = (0.050, 0.012, 0.2, 20.0);
    let mut steel = rectangle(0.0, 0.0, plate, height);
    steel.modular_ratio = ratio;
    let parts = vec![
        ("left joist", rectangle(-joist, 0.0, joist, height)),
        ("plate", steel),
        ("right joist", rectangle(plate, 0.0, joist, height)),
    ];
    let solved = simple(parts);
    let truth = ElasticTruth::of(&solved).expect("it is solved");
    assert!(truth.has_materials_side_by_side());
    let [timber, steel] = truth.materials.as_slice() else { panic!("{:?}", truth.materials) };
    let [in_timber, in_steel] = [timber, steel].map(|one| one.axis.expect("both lie at the axis").across);
    // 3 V / (2 h) is the flow of any depth of one height.
    let flow = 1.5 * 10e3 / height;
    let of_reference = flow / (2.0 * joist + ratio * plate);
    assert_within("timber", in_timber.balanced, of_reference, 1e-6 * of_reference);
    assert_within("steel", in_steel.balanced, ratio * of_reference, 1e-6 * ratio * of_reference);
    let true_flow = 2.0 * joist * in_timber.mean + plate * in_steel.mean;
    assert_within("true flow", true_flow, flow, 5e-3 * flow);
    assert_within("true mean in steel", in_steel.mean / in_steel.balanced, 1.0, 0.15);
    let formula = truth.axis.expect("the axis").across.formula;
    assert!(formula < 0.5 * in_steel.mean && formula > 1.5 * in_timber.mean, "{formula}");
    let (own, names) = truth.side_by_side_at_largest().expect("steel bears most, beside timber");
    assert!(own.material == steel.material && names.len() == 2);
    let said = truth.cautions(&solved).join(" ");
    assert!(said.contains("the stress of none"), "{said}");
}
