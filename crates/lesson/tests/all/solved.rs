//! The built-in lessons, solved: what their remarks promise comes out, and what they ask for exists.

use workings::solved::Solved;

fn read(name: &str) -> lesson::Lesson {
    let builtin = lesson::builtin::find(name).expect("a lesson of ours");
    lesson::read(builtin.text, name).lesson.expect("our lessons are sound")
}

fn solved(name: &str) -> Solved {
    let lesson = read(name);
    Solved::new(lesson.problem, lesson.style).unwrap_or_else(|faults| panic!("{name}: {faults:?}"))
}

fn assert_values(name: &str, expected: &[(&str, f64)]) {
    let solved = solved(name);
    for (working, value) in expected {
        let got =
            solved.workings().get(working).unwrap_or_else(|| panic!("{name} has no {working}")).value.value;
        // Every value of a lesson is exact in decimals; what differs is rounding of the arithmetic alone.
        assert!(
            (got - value).abs() <= 1e-9 * value.abs().max(1.0),
            "{name}: {working} is {got}, not {value}"
        );
    }
}

/// Closed form: statics, and the sums of `b h³ / 12 + A d²` by hand: 200·300³/12 − 150·200³/12 = 350e6 mm⁴,
/// Q = 200·50·125 mm³, tau = V Q / (I · 50 mm), nails at 50 mm in two rows.
#[test]
fn the_box_girder_comes_out_as_it_says() {
    assert_values(
        "box-girder",
        &[
            ("reaction at A", 7.0e3),
            ("reaction at B", 5.0e3),
            ("shear force at the slice", 7.0e3),
            ("bending moment at the slice", 3.5e3),
            ("second moment", 350.0e-6),
            ("first moment at the cut", 1.25e-3),
            ("width at the cut", 0.050),
            ("shear stress on the cut", 0.5e6),
            ("bending stress at the top", -1.5e6),
            ("force on the cut", 1.0e3),
            ("force on one fastener of nails", 625.0),
            ("largest spacing at nails", 0.060),
        ],
    );
}

/// Closed form: moments about A give 8 R_B = 152 kN m of twelve loads; I = (240·300³ − 210·200³)/12 = 400e6 mm⁴.
#[test]
fn the_lighting_bridge_comes_out_as_it_says() {
    assert_values(
        "lighting-bridge",
        &[
            ("reaction at A", 16.0e3),
            ("reaction at B", 19.0e3),
            ("shear force at the slice", 10.0e3),
            ("bending moment at the slice", 10.0e3),
            ("second moment", 400.0e-6),
            ("first moment at the cut", 1.5e-3),
            ("shear stress on the cut", 1.25e6),
            ("bending stress at the top", -3.75e6),
        ],
    );
    assert_eq!(read("lighting-bridge").problem.beam.loads.len(), 12);
}

/// Closed form: R_A = 12.5/2 − 5/4 = 5 kN; centroid (3600·180 + 2400·80)/6000 = 140 mm,
/// I = 90·40³/12 + 3600·40² + 15·160³/12 + 2400·60² = 20e6 mm⁴, Q = 3600·40 mm³.
#[test]
fn the_overhang_comes_out_as_it_says() {
    assert_values(
        "overhang",
        &[
            ("reaction at A", 5.0e3),
            ("centroid height", 0.140),
            ("second moment", 20.0e-6),
            ("first moment at the cut", 144.0e-6),
            ("shear stress on the cut", 2.4e6),
            ("bending stress at the bottom", 35.0e6),
            ("bending stress at the top", -15.0e6),
            ("bending stress at the cut", -5.0e6),
        ],
    );
    // In the overhang V is the same and M has the other sign: the point of the lesson.
    let over_the_bay = solved("overhang").at(4.5, 0.160, workings::working::HeightSide::Below);
    let over_the_bay = over_the_bay.expect("4.5 m is on the beam");
    let value = |name: &str| over_the_bay.workings().get(name).expect("the same workings").value.value;
    assert!((value("bending moment at the slice") + 2.5e3).abs() < 1e-6);
    assert!((value("shear stress on the cut") - 2.4e6).abs() < 1e-2);
}

/// Source: theorem of three moments for two equal spans under a uniform load (Roark's Formulas for Stress and
/// Strain, beams over three supports, from memory): R = 3/8, 10/8, 3/8 of w L, M over the middle −w L²/8.
#[test]
fn the_conveyor_comes_out_as_it_says() {
    assert_values(
        "conveyor",
        &[
            ("reaction at A", 12.0e3),
            ("reaction at B", 40.0e3),
            ("reaction at C", 12.0e3),
            ("second moment", 6.25e-6),
            ("width at the cut", 0.040),
            ("shear stress on the cut", 2.4e6),
            ("bending stress at the bottom", 40.0e6),
        ],
    );
}

/// Closed form, in lb and in: R_A = 0.6·2000 + 1000 lb; I = (4·15³ − 1.5·10³)/12 = 1000 in⁴; Q = 4·2.5·6.25 in³;
/// tau = 1800·62.5/(1000·2.5) = 45 psi. 1 lb = 4.448 221 615 260 5 N and 1 in = 25.4 mm are exact.
#[test]
fn the_porch_beam_comes_out_as_it_says() {
    let (lb, inch) = (4.448_221_615_260_5, 0.0254);
    let psi = lb / (inch * inch);
    assert_values(
        "porch-beam",
        &[
            ("reaction at A", 2200.0 * lb),
            ("reaction at B", 1800.0 * lb),
            ("shear force at the slice", 1800.0 * lb),
            ("bending moment at the slice", 60_000.0 * lb * inch),
            ("second moment", 1000.0 * inch.powi(4)),
            ("shear stress on the cut", 45.0 * psi),
            ("bending stress at the top", -450.0 * psi),
            ("force on one fastener of screws", 675.0 * lb),
        ],
    );
}

/// Closed form: A = 120·100 + π 60²/2 − π 30² mm²; the cut at the middle of the duct leaves 30 mm on either side;
/// its own weight is A · 2400 kg/m³ · 9.806 65 m/s².
#[test]
fn the_lintel_comes_out_as_it_says() {
    let area = 0.120 * 0.100 + std::f64::consts::PI * (0.060 * 0.060 / 2.0 - 0.030 * 0.030);
    let load = 6.0e3 + area * 2400.0 * 9.806_65;
    assert_values(
        "lintel",
        &[
            ("width at the cut", 0.060),
            ("reaction at A", load * 1.2),
            ("shear force at the slice", load * 0.7),
        ],
    );
}

#[test]
fn every_lesson_asks_for_what_there_is() {
    for builtin in lesson::builtin::ALL {
        let solved = solved(builtin.name);
        for question in read(builtin.name).questions {
            for name in question.workings() {
                assert!(solved.workings().get(name).is_some(), "{}: {name}", builtin.name);
            }
        }
    }
}

/// Closed form: n = 20, so that the plates count as 2 · 100 · 150 mm² beside 120 · 250 mm²: ȳ = (125 + 75)/2 = 100 mm,
/// I = (120·250³ + 200·150³)/12 + 60 000·25² = 250e6 mm⁴; M = 12·1 − 4/2 kN m; Q of the plates 30 000·25 mm³.
#[test]
fn the_library_joist_comes_out_as_it_says() {
    assert_values(
        "library-joist",
        &[
            ("modular ratio of steel", 20.0),
            ("centroid height", 0.100),
            ("second moment", 250e-6),
            ("shear force at the slice", 8.0e3),
            ("bending moment at the slice", 10.0e3),
            ("bending stress in oak at the top", -6.0e6),
            ("bending stress in oak at the bottom", 4.0e6),
            ("bending stress in steel at the top of the left plate", -40.0e6),
            ("bending stress in oak at the top of the left plate", -2.0e6),
            ("bending stress in steel at the bottom", 80.0e6),
            ("share of the bending moment in steel", 0.3),
            ("shear flow at bolts", 24.0e3),
            ("force on one fastener of bolts", 1.8e3),
        ],
    );
}

/// Closed form: 9·2, 0.01·80 and 10 mm of plywood, centroids 1, 42 and 87 mm up: ȳ = 921.6/28.8 = 32 mm; I = 250 · (9·8/12 +
/// 18·31² + 0.01·512 000/12 + 0.8·10² + 1000/12 + 10·55²) = 250 · 48 144 mm⁴; Q of the deck 250·10·55 mm³.
#[test]
fn the_gangplank_comes_out_as_it_says() {
    assert_values(
        "gangplank",
        &[
            ("modular ratio of aluminium", 9.0),
            ("modular ratio of foam", 0.01),
            ("centroid height", 0.032),
            ("second moment", 12.036e-6),
            ("shear force at the slice", 1.0e3),
            ("bending moment at the slice", 440.0),
            ("bending stress in aluminium at the bottom", 9.0 * 440.0 * 0.032 / 12.036e-6),
            ("bending stress in foam at the top of the core", -0.01 * 440.0 * 0.050 / 12.036e-6),
            ("first moment at the cut", 137.5e-6),
            ("shear stress on the cut", 1e3 * 137.5e-6 / (12.036e-6 * 0.250)),
        ],
    );
}

/// Closed form: tau = 3 V / (2 b h) = 1 MPa, sigma = 6 M / (b h²) = 10 MPa, v = P L³ / (48 E I) = 5/6 mm; both limits alike
/// at L / h = sigma / (2 tau) = 6.4, and the least depths are 200 mm · 0.8 and 200 mm · √0.625.
#[test]
fn the_short_joist_comes_out_as_it_says() {
    assert_values(
        "short-joist",
        &[
            ("reaction at A", 8.0e3),
            ("bending moment at the slice", 2.0e3),
            ("second moment", 40.0e-6),
            ("first moment at the cut", 300.0e-6),
            ("shear stress on the cut", 1.0e6),
            ("largest tension along the beam", 10.0e6),
            ("largest deflection along the beam", 1e-3 / 1.2),
            ("utilisation for shear stress", 0.8),
            ("utilisation for tension", 0.625),
            ("largest force P", 20.0e3),
            ("span-to-depth ratio of the beam", 5.0),
            ("span-to-depth ratio at which bending and shear govern alike", 6.4),
            ("least depth of the section", 0.160),
        ],
    );
    let solved = solved("short-joist");
    let largest = solved.workings().get("largest load factor").expect("it has limits");
    assert!(largest.sentence.contains("the shear stress governs"), "{}", largest.sentence);
}

/// Closed form: R_A = (4·3 + 2·2)/4 kN; I = 60·120³/12 + 2·(80·30³/12 + 2400·75²) = 36e6 mm⁴, Q = 2400·75 mm³; q = V/200 mm;
/// n F = (4 kN m)/200 mm = 20 kN on either side.
#[test]
fn the_boat_shed_comes_out_as_it_says() {
    assert_values(
        "boat-shed",
        &[
            ("reaction at A", 4.0e3),
            ("reaction at B", 2.0e3),
            ("second moment", 36.0e-6),
            ("first moment at screws", 180.0e-6),
            ("shear flow at screws", 20.0e3),
            ("largest spacing at screws between A and force P_1", 0.050),
            ("spacing to use at screws between A and force P_1", 0.050),
            ("spacing to use at screws between force P_2 and B", 0.100),
            ("number of fasteners of screws between A and force P_1", 40.0),
            ("number of fasteners of screws between force P_2 and B", 40.0),
            ("fasteners to put in at screws between force P_2 and B", 40.0),
            ("number of fasteners of screws in all", 80.0),
        ],
    );
    let solved = solved("boat-shed");
    assert_eq!(solved.zones().map(|(_, zones)| zones.len()).collect::<Vec<_>>(), [2]);
}

/// Closed form: three strips by hand: I = 10·80³/12 + 2·(50·10³/12 + 500·45²), I_y = 80·10³/12 + 2·(10·50³/12 +
/// 500·20²), I_yz = 2·500·45·20 mm⁴; M = 0.9 kN m at the far corner of the upper flange.
#[test]
fn the_purlin_comes_out_as_it_says() {
    assert_values(
        "purlin",
        &[
            ("second moment", 2.46e-6),
            ("second moment of area about the upright axis", 0.615e-6),
            ("product moment of area", 0.9e-6),
            ("bending moment at the slice", 0.9e3),
            ("largest skew tension at the slice", 0.9e3 * 35.25e-9 / 0.7029e-12),
            ("share that the simple formula finds", (0.05 / 2.46e-6) / (35.25e-9 / 0.7029e-12)),
        ],
    );
}

/// Closed form: by middle lines I = 12·200³/12 + 2·600·100² mm⁴, q at the web V·60·10·100/I, half-way up V (60 000 + 100·12·50)/I,
/// e = 60²·200²·10/(4 I).
#[test]
fn the_walkway_comes_out_as_it_says() {
    assert_values(
        "walkway",
        &[
            ("shear force at the slice", 4.0e3),
            ("distance of the shear centre from the web", 0.018),
            ("largest shear flow in the walls", 24.0e3),
        ],
    );
}

/// Closed form, by hand for V = 4 kN: closed by no twist round the cell, and Bredt's formulas.
#[test]
fn the_covered_channel_comes_out_as_it_says() {
    assert_values(
        "covered-channel",
        &[
            // 2 · 8 · 150 · 100² + (8 + 4) · 200³ / 12
            ("second moment by middle lines", 32e-6),
            // 4000 · 8 · 150 · 100 / 32e6, and 4000 · 4 · 100 · 50 / 32e6 more
            ("shear flow in cover half-way, cut open", 17.5e3),
            // (2 · 1125 / 8 + 3333.3 / 4 - 666.7 / 8) / (2 · 150 / 8 + 200 / 4 + 200 / 8)
            ("closing flow round the cell", -1031.25 / 112.5 * 1e3),
            ("shear force in cover", 1.5e3),
            ("distance of the shear centre from the web", 0.04375),
            ("torsion constant", 32e-6),
        ],
    );
}

/// Closed form: the hung piece gives C and the hinge 2 kN each; moments about A: 4 R_B = 6·2 + 2·6 kN m.
#[test]
fn the_gangway_comes_out_as_it_says() {
    assert_values(
        "gangway",
        &[
            ("reaction at A", 2.0e3),
            ("reaction at B", 6.0e3),
            ("reaction at C", 2.0e3),
            ("bending moment at B", -4.0e3),
            ("bending moment at the hinge", 0.0),
            ("largest sagging moment", 4.0e3),
            ("largest hogging moment", -4.0e3),
            ("shear force just right of B", 2.0e3),
            ("bending stress at the top", -5.0e6),
            ("shear stress on the cut", 0.25e6),
        ],
    );
}

/// A joist with a flat of bronze, ten times as stiff, on one side of its foot: each material with what it may bear.
const JOIST_AND_FLAT: &str = r#"
title = "A joist with a flat on one side of its foot"
units = "metric"

[beam]
length = "4 m"
supports = [{ pin = "0 m", name = "A" }, { roller = "4 m", name = "B" }]
loads = [{ spread = "0.6 kN/m", from = "0 m", to = "4 m", name = "w" }]

[material]
name = "spruce"
E = "11 GPa"

[section]
name = "joist and flat"
parts = [
  { name = "joist", width = "60 mm", height = "200 mm", left = "0 mm" },
  { name = "flat", width = "10 mm", height = "100 mm", left = "60 mm", bottom = "0 mm", E = "110 GPa", material = "bronze", allowable = { bending-stress = "60 MPa", shear-stress = "40 MPa" } },
]

[slice]
at = "1 m"
length = "50 mm"

[cut]
at = "150 mm"

[allowable]
bending-stress = "9 MPa"
shear-stress = "1 MPa"
deflection = "15 mm"
"#;

/// Closed form, by hand, in mm: areas 12 000 and 10 · 1000, so the centroid lies 505/11 from the left and 850/11 above the foot;
/// I = 40e6 + 10 · 10 · 100³ / 12 + 1650e6 / 121, I_y = 3.6e6 + 10 · 100 · 10³ / 12 + 808.5e6 / 121, I_yz = -1155e6 / 121. M is at most
/// 1.2 kN m; spruce is pulled most at its lower left corner and pressed at its upper right, bronze pulled at the foot against the joist.
#[test]
fn a_joist_with_a_flat_on_one_side_may_carry_what_each_material_may() {
    let reading = lesson::read(JOIST_AND_FLAT, "joist.toml");
    assert!(reading.findings.is_empty(), "{:?}", reading.findings);
    let lesson = reading.lesson.expect("it is sound");
    let solved = Solved::new(lesson.problem, lesson.style).expect("it can be solved");
    let level = 40e-6 + 100e-6 / 12.0 + 1650e-6 / 121.0;
    let upright = 3.6e-6 + 1e-6 / 12.0 + 808.5e-6 / 121.0;
    let product = -1155e-6 / 121.0;
    let both = level * upright - product * product;
    let stress = |ratio: f64, x: f64, y: f64| {
        let (x, y) = (x - 0.505 / 11.0, y - 0.85 / 11.0);
        (-ratio * 1.2e3 * (upright * y - product * x) / both).abs()
    };
    let sag = 5.0 * 0.6e3 * 256.0 / (384.0 * 11e9 * both / upright);
    let expected = [
        ("tension in spruce", stress(1.0, 0.0, 0.0), 9e6),
        ("compression in spruce", stress(1.0, 0.06, 0.2), 9e6),
        ("tension in bronze", stress(10.0, 0.06, 0.0), 60e6),
        ("compression in bronze", stress(10.0, 0.07, 0.1), 60e6),
        ("deflection", sag, 0.015),
    ];
    let limits = &solved.allowables().expect("there are limits").limits;
    let factors = &solved.allowables().and_then(|of| of.growth.as_ref()).expect("the loads may grow").factors;
    for (words, reached, allowed) in expected {
        let place = limits.iter().position(|limit| limit.words == words).expect(words);
        let found = solved.value(limits[place].reached).abs();
        assert!((found - reached).abs() <= 1e-9 * reached, "{words}: {found}, not {reached}");
        let factor = solved.value(factors[place]);
        assert!((factor - allowed / reached).abs() <= 1e-9 * factor, "{words}: {factor}");
    }
    assert_eq!(limits.len(), expected.len() + 2, "the shear stress in each as well");
}
