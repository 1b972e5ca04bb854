//! Bending askew of several materials: integrals written out for rectangles, superposition along the principal axes, and what must not
//! change a stress.

use crate::common::{Maker, rectangle};
use mechanics::real;
use mechanics::section::HeightSide;
use proptest::prelude::*;
use workings::dimension::Dimension;
use workings::material::PartMaterial;
use workings::notation::{Notation, Profile};
use workings::problem::Allowable;
use workings::role::Role;
use workings::solved::Solved;
use workings::style::Style;
use workings::working::Chapter;

fn value(solved: &Solved, name: &str) -> f64 {
    solved.workings().get(name).unwrap_or_else(|| panic!("no working {name:?}")).value.value
}

fn has(solved: &Solved, name: &str) -> bool {
    solved.workings().get(name).is_some()
}

fn assert_within(what: &str, found: f64, exact: f64, within: f64) {
    assert!((found - exact).abs() <= within, "{what}: {found} where {exact} is exact");
}

/// A level rectangle of one material: left, bottom, breadth and height, m, and its modulus over that of reference.
#[derive(Clone, Copy, Debug)]
struct Bar {
    left: f64,
    bottom: f64,
    breadth: f64,
    height: f64,
    ratio: f64,
}

impl Bar {
    fn of((left, bottom): (f64, f64), (breadth, height): (f64, f64), ratio: f64) -> Self {
        Self { left, bottom, breadth, height, ratio }
    }

    fn corners(self) -> [(f64, f64); 4] {
        let (right, top) = (self.left + self.breadth, self.bottom + self.height);
        [(self.left, self.bottom), (right, self.bottom), (right, top), (self.left, top)]
    }

    /// What of it lies above a height.
    fn above(self, height: f64) -> Self {
        let bottom = self.bottom.max(height).min(self.bottom + self.height);
        Self { bottom, height: self.bottom + self.height - bottom, ..self }
    }
}

/// The integrals of a section of bars, each counted as often as its modulus over that of reference says, written out here.
#[derive(Clone, Debug)]
struct Own {
    bars: Vec<Bar>,
    x: f64,
    y: f64,
    level: f64,
    upright: f64,
    product: f64,
}

impl Own {
    fn of(bars: &[Bar]) -> Self {
        let sum = |of: &dyn Fn(&Bar) -> f64| bars.iter().map(of).sum::<f64>();
        let area = |bar: &Bar| bar.ratio * bar.breadth * bar.height;
        let total = sum(&area);
        let x = sum(&|bar| area(bar) * (bar.left + 0.5 * bar.breadth)) / total;
        let y = sum(&|bar| area(bar) * (bar.bottom + 0.5 * bar.height)) / total;
        // ∫ y² dA over a bar is b (y₂³ - y₁³) / 3, ∫ x y dA the product of the integrals of x and of y.
        let cubes = |from: f64, size: f64| ((from + size).powi(3) - from.powi(3)) / 3.0;
        let squares = |from: f64, size: f64| ((from + size).powi(2) - from.powi(2)) / 2.0;
        let level = sum(&|bar| bar.ratio * bar.breadth * cubes(bar.bottom - y, bar.height));
        let upright = sum(&|bar| bar.ratio * bar.height * cubes(bar.left - x, bar.breadth));
        let product =
            sum(&|bar| bar.ratio * squares(bar.left - x, bar.breadth) * squares(bar.bottom - y, bar.height));
        Self { bars: bars.to_vec(), x, y, level, upright, product }
    }

    /// `-n M (I_y y - I_xy x) / (I I_y - I_xy²)`: unsymmetric bending of any textbook, times the modular ratio.
    fn stress(&self, moment: f64, ratio: f64, (x, y): (f64, f64)) -> f64 {
        let (x, y) = (x - self.x, y - self.y);
        let both = self.level * self.upright - self.product * self.product;
        -ratio * moment * (self.upright * y - self.product * x) / both
    }

    /// The same by superposition: the moment's two parts along the principal axes, each by `M c / I` of its own.
    fn by_principal_axes(&self, moment: f64, ratio: f64, (x, y): (f64, f64)) -> f64 {
        let (x, y) = (x - self.x, y - self.y);
        let (mean, half) = (0.5 * (self.level + self.upright), 0.5 * (self.level - self.upright));
        let radius = real::hypot(half, self.product);
        let angle = 0.5 * real::atan2(-self.product, half);
        let (sin, cos) = (real::sin(angle), real::cos(angle));
        let (u, v) = (x * cos + y * sin, y * cos - x * sin);
        -ratio * (moment * cos * v / (mean + radius) + moment * sin * u / (mean - radius))
    }

    /// The largest and the least stress in a material under a moment: a plane is largest at a corner.
    fn extremes(&self, moment: f64, ratio: f64) -> [f64; 2] {
        let corners = self.bars.iter().filter(|bar| bar.ratio == ratio).flat_map(|bar| bar.corners());
        let stresses: Vec<f64> = corners.map(|corner| self.stress(moment, ratio, corner)).collect();
        [
            stresses.iter().copied().fold(f64::NEG_INFINITY, f64::max),
            stresses.iter().copied().fold(f64::INFINITY, f64::min),
        ]
    }

    /// The shear flow on a level cut: what the piece above needs while the stress of [`Own::stress`] grows by `dM/dx = V`.
    fn flow(&self, force: f64, height: f64) -> f64 {
        let bars = self.bars.iter().map(|bar| bar.above(height));
        let both = self.level * self.upright - self.product * self.product;
        let first = bars.map(|bar| {
            let area = bar.ratio * bar.breadth * bar.height;
            let (x, y) = (bar.left + 0.5 * bar.breadth - self.x, bar.bottom + 0.5 * bar.height - self.y);
            area * (self.upright * y - self.product * x)
        });
        force * first.sum::<f64>() / both
    }

    fn top(&self) -> f64 {
        self.bars.iter().map(|bar| bar.bottom + bar.height).fold(f64::NEG_INFINITY, f64::max)
    }
}

fn lesson(bars: &[Bar], names: &[&str], reference: f64) -> Maker {
    let parts = bars.iter().zip(["first", "second", "third", "fourth"]).map(|(bar, name)| {
        let mut part = rectangle(bar.left, bar.bottom, bar.breadth, bar.height);
        part.modular_ratio = bar.ratio / reference;
        (name, part)
    });
    let mut maker = Maker::new(4.0, parts.collect())
        .pin("A", 0.0)
        .pin("B", 4.0)
        .spread("w", 0.0, 4.0, 600.0)
        .slice(1.0, 0.05)
        .cut(0.12, HeightSide::Below, HeightSide::Above);
    maker.problem.elastic_modulus = 11e9 * reference;
    maker.problem.beam.flexural_rigidity *= 11e9 * reference / 200e9;
    let named = |name: &&str| PartMaterial { name: Some((*name).into()), ..PartMaterial::default() };
    maker.problem.part_materials = names.iter().map(named).collect();
    maker
}

const SPRUCE_AND_STEEL: [&str; 2] = ["spruce", "steel"];
const RATIO: f64 = 210.0 / 11.0;

/// A joist of 60 x 200 mm with a flat of steel, 8 x 100 mm, on the right side of its foot.
fn flat() -> [Bar; 2] {
    [Bar::of((0.0, 0.0), (0.06, 0.2), 1.0), Bar::of((0.06, 0.0), (0.008, 0.1), RATIO)]
}

/// The corners by their letters: E to H of the joist, counter-clockwise from the lowest on the left, J to N of the flat, whose lowest on the
/// left is F.
fn lettered() -> [(&'static str, usize, (f64, f64)); 8] {
    let [joist, flat] = flat().map(Bar::corners);
    [
        ("E", 0, joist[0]),
        ("F", 0, joist[1]),
        ("G", 0, joist[2]),
        ("H", 0, joist[3]),
        ("F", 1, flat[0]),
        ("J", 1, flat[1]),
        ("K", 1, flat[2]),
        ("N", 1, flat[3]),
    ]
}

/// Closed form: the integrals of the two rectangles, written out; M = 0.9 kN m and V = 0.6 kN at 1 m under 0.6 kN/m on 4 m.
#[test]
fn a_joist_with_a_flat_on_one_side_of_its_foot() {
    let (own, solved) = (Own::of(&flat()), lesson(&flat(), &SPRUCE_AND_STEEL, 1.0).solved());
    for (name, exact) in [
        ("second moment", own.level),
        ("second moment of area about the upright axis", own.upright),
        ("product moment of area", own.product),
        ("second moment that counts askew", own.level - own.product * own.product / own.upright),
    ] {
        assert_within(name, value(&solved, name), exact, 1e-12 * own.level);
    }
    let scale = own.extremes(0.9e3, RATIO)[0];
    for (letter, material, at) in lettered() {
        let name = format!("skew bending stress in {} at {letter}", SPRUCE_AND_STEEL[material]);
        let exact = own.stress(0.9e3, flat()[material].ratio, at);
        assert_within(&name, value(&solved, &name), exact, 1e-12 * scale);
    }
    for (material, ratio) in SPRUCE_AND_STEEL.into_iter().zip([1.0, RATIO]) {
        for (moment, place) in [(0.9e3, "at the slice"), (1.2e3, "along the beam")] {
            let [most, least] = own.extremes(moment, ratio);
            let name = |words: &str| format!("largest skew {words} in {material} {place}");
            assert_within(material, value(&solved, &name("tension")), most, 1e-12 * scale);
            assert_within(material, value(&solved, &name("compression")), least, 1e-12 * scale);
        }
        // M y / I of the transformed section, at the top and at the bottom of the material.
        let heights = if ratio == 1.0 { [0.0, 0.2] } else { [0.0, 0.1] };
        let simple = heights.map(|y| (ratio * 0.9e3 * (y - own.y) / own.level).abs());
        let [most, least] = own.extremes(0.9e3, ratio);
        let share = simple[0].max(simple[1]) / most.max(-least);
        let name = format!("share that the simple formula finds in {material}");
        assert_within(&name, value(&solved, &name), share, 1e-12 * share);
    }
    // The cut at 120 mm runs through the joist alone; the one at 60 mm through both, and the mean over 68 mm is the stress of neither.
    let on_cut = value(&solved, "skew shear stress on the cut");
    assert_within("on the joist", on_cut, own.flow(600.0, 0.12) / 0.06, 1e-12 * on_cut);
    let maker = lesson(&flat(), &SPRUCE_AND_STEEL, 1.0).cut(0.06, HeightSide::Below, HeightSide::Below);
    let both = maker.solved();
    let stress = both.workings().get("skew shear stress on the cut").expect("a stress");
    assert_within("on both", stress.value.value, own.flow(600.0, 0.06) / 0.068, 1e-12 * on_cut);
    assert!(stress.sentence.contains("a mean over them"), "{}", stress.sentence);
    let alone = solved.workings().get("skew shear stress on the cut").expect("a stress");
    assert!(!alone.sentence.contains("mean over"), "{}", alone.sentence);
}

/// Superposition: along each principal axis M c / I alone holds, and a beam is bent by the sum of both.
#[test]
fn the_parts_of_the_moment_along_the_principal_axes_give_the_same() {
    let (own, solved) = (Own::of(&flat()), lesson(&flat(), &SPRUCE_AND_STEEL, 1.0).solved());
    let scale = own.extremes(0.9e3, RATIO)[0];
    for (letter, material, at) in lettered() {
        let name = format!("skew bending stress in {} at {letter}", SPRUCE_AND_STEEL[material]);
        let exact = own.by_principal_axes(0.9e3, flat()[material].ratio, at);
        assert_within(&name, value(&solved, &name), exact, 1e-11 * scale);
    }
}

/// To which material the others are transformed is a matter of writing: no stress, share or inclination hangs on it.
#[test]
fn no_stress_hangs_on_the_material_of_reference() {
    let limited = |reference: f64| {
        let mut maker = lesson(&flat(), &SPRUCE_AND_STEEL, reference);
        let steel = Allowable { bending: Some(160e6), shear: Some(90e6), ..Allowable::default() };
        let spruce = Allowable { bending: Some(9e6), shear: Some(1e6), ..Allowable::default() };
        let (of_reference, other, place) =
            if reference == 1.0 { (spruce, steel, 1) } else { (steel, spruce, 0) };
        maker.problem.allowable = Allowable { deflection: Some(0.02), ..of_reference };
        maker.problem.part_materials[place].allowable = other;
        maker.solved()
    };
    let (one, other) = (limited(1.0), limited(RATIO));
    let mut compared = 0;
    for (_, working) in one.workings().in_order() {
        let of_skew = working.chapter == Chapter::Skew || working.chapter == Chapter::Allowables;
        let same = [Dimension::STRESS, Dimension::NONE].contains(&working.value.dimension);
        if of_skew && same && working.symbol.role != Role::ModularRatio {
            let found = value(&other, &working.name);
            assert_within(&working.name, found, working.value.value, 1e-9 * working.value.value.abs());
            compared += 1;
        }
    }
    assert!(compared > 30, "{compared}");
    let words = |solved: &Solved| -> Vec<String> {
        let limits = &solved.allowables().expect("limits").limits;
        limits.iter().map(|limit| limit.words.clone()).collect()
    };
    let wanted = [
        "tension in spruce",
        "compression in spruce",
        "shear stress in spruce",
        "tension in steel",
        "compression in steel",
        "shear stress in steel",
        "deflection",
    ];
    assert_eq!(words(&one), wanted);
    assert_eq!(words(&other), wanted);
}

/// The same section seen in a mirror: the neutral axis leans the other way, and nothing else changes.
#[test]
fn in_a_mirror_the_neutral_axis_leans_the_other_way() {
    let mirrored = flat().map(|bar| Bar { left: -bar.left - bar.breadth, ..bar });
    let (one, other) = (
        lesson(&flat(), &SPRUCE_AND_STEEL, 1.0).solved(),
        lesson(&mirrored, &SPRUCE_AND_STEEL, 1.0).solved(),
    );
    for name in ["product moment of area", "inclination of the neutral axis", "angle of the principal axis"] {
        let (here, there) = (value(&one, name), value(&other, name));
        assert!(here != 0.0);
        assert_within(name, there, -here, 1e-12 * here.abs());
    }
    for working in one.workings().chapter(Chapter::Skew).map(|(_, working)| working) {
        let largest = working.name.starts_with("largest skew") || working.name.starts_with("share");
        if largest || working.name == "skew shear stress on the cut" {
            let exact = working.value.value;
            assert_within(&working.name, value(&other, &working.name), exact, 1e-12 * exact.abs());
        }
    }
}

/// A material that is hardly stiffer than that of reference: as one material, to as much.
#[test]
fn with_a_ratio_of_one_it_is_the_plain_section() {
    let plain = flat().map(|bar| Bar { ratio: 1.0, ..bar });
    let nearly = [plain[0], Bar { ratio: 1.0 + 1e-10, ..plain[1] }];
    let (plain, nearly) =
        (lesson(&plain, &[], 1.0).solved(), lesson(&nearly, &SPRUCE_AND_STEEL, 1.0).solved());
    let most = value(&plain, "largest skew tension along the beam");
    let stresses =
        ["spruce", "steel"].map(|of| value(&nearly, &format!("largest skew tension in {of} along the beam")));
    assert_within("largest", stresses[0].max(stresses[1]), most, 1e-9 * most);
    let name = "skew shear stress on the cut";
    assert_within(name, value(&nearly, name), value(&plain, name), 1e-9 * value(&plain, name));
    // Of one material the names are those without a material.
    assert!(
        has(&plain, "share that the simple formula finds")
            && !has(&nearly, "share that the simple formula finds")
    );
}

/// A flat on the foot alone lies below the neutral axis with all its corners: it is stretched and nowhere pressed.
#[test]
fn a_material_below_the_neutral_axis_is_nowhere_pressed() {
    let bars = [Bar::of((0.0, 0.0), (0.06, 0.2), 1.0), Bar::of((0.06, 0.0), (0.008, 0.03), RATIO)];
    let (own, solved) = (Own::of(&bars), lesson(&bars, &SPRUCE_AND_STEEL, 1.0).solved());
    let [most, least] = own.extremes(0.9e3, RATIO);
    assert!(least > 0.0);
    assert_within("tension", value(&solved, "largest skew tension in steel at the slice"), most, 1e-9 * most);
    for place in ["at the slice", "along the beam"] {
        assert!(!has(&solved, &format!("largest skew compression in steel {place}")));
        assert!(has(&solved, &format!("largest skew compression in spruce {place}")));
    }
}

/// A course's depth axis may point down: the product moment changes its sign, and no stress.
#[test]
fn no_stress_hangs_on_the_courses_axes() {
    let up = lesson(&flat(), &SPRUCE_AND_STEEL, 1.0).solved();
    for profile in Profile::ALL {
        let style = Style { notation: Notation::of(profile), ..Style::default() };
        let solved =
            Solved::new(lesson(&flat(), &SPRUCE_AND_STEEL, 1.0).problem, style).expect("a sound lesson");
        for (_, working) in up.workings().chapter(Chapter::Skew) {
            if ["stress", "inclination", "principal", "share", "largest"]
                .iter()
                .any(|name| working.name.contains(name))
            {
                let exact = working.value.value;
                assert_within(&working.name, value(&solved, &working.name), exact, 1e-9 * exact.abs());
            }
        }
    }
}

/// Closed form: each material is held to its own limit by its own extremes; in shear by the cut where `q n_i / Σ n b` is largest, looked for
/// here height by height; the deflection by 5 w L⁴ / (384 E I) with what counts of I.
#[test]
fn each_material_is_held_to_its_limits_by_the_full_formulas() {
    let own = Own::of(&flat());
    let mut maker = lesson(&flat(), &SPRUCE_AND_STEEL, 1.0);
    maker.problem.allowable = Allowable {
        tension: Some(8e6),
        compression: Some(9e6),
        shear: Some(1e6),
        deflection: Some(0.016),
        ..Allowable::default()
    };
    maker.problem.part_materials[1].allowable =
        Allowable { bending: Some(160e6), shear: Some(90e6), ..Allowable::default() };
    let solved = maker.solved();
    // Every micrometre, 100 mm among them, where the flat ends: from below and from above.
    let shear = |ratio: f64| {
        let steps = 200_000;
        let mut most = 0.0_f64;
        for (height, above) in (0..=steps).flat_map(|step| {
            [false, true].map(|above| (own.top() * f64::from(step) / f64::from(steps), above))
        }) {
            let through = |bar: &&Bar| match above {
                true => bar.bottom <= height && height < bar.bottom + bar.height,
                false => bar.bottom < height && height <= bar.bottom + bar.height,
            };
            let through = || own.bars.iter().filter(through);
            if through().any(|bar| bar.ratio == ratio) {
                let width: f64 = through().map(|bar| bar.ratio * bar.breadth).sum();
                most = most.max(own.flow(1.2e3, height).abs() * ratio / width);
            }
        }
        most
    };
    let ([most, least], [pulled, pressed]) = (own.extremes(1.2e3, 1.0), own.extremes(1.2e3, RATIO));
    let counts = own.level - own.product * own.product / own.upright;
    let sag = 5.0 * 600.0 * 256.0 / (384.0 * 11e9 * counts);
    let expected = [
        ("tension in spruce", most, 8e6),
        ("compression in spruce", -least, 9e6),
        ("shear stress in spruce", shear(1.0), 1e6),
        ("tension in steel", pulled, 160e6),
        ("compression in steel", -pressed, 160e6),
        ("shear stress in steel", shear(RATIO), 90e6),
        ("deflection", sag, 0.016),
    ];
    let allowables = solved.allowables().expect("there are limits");
    let words: Vec<&str> = allowables.limits.iter().map(|limit| limit.words.as_str()).collect();
    assert_eq!(words, expected.map(|(words, ..)| words));
    let factors = &allowables.growth.as_ref().expect("the loads may grow").factors;
    for ((limit, &factor), (words, reached, allowed)) in allowables.limits.iter().zip(factors).zip(expected) {
        assert_within(words, solved.value(limit.reached).abs(), reached, 1e-9 * reached);
        assert_within(words, solved.value(factor), allowed / reached, 1e-9 * allowed / reached);
    }
    let least = expected.iter().map(|(_, reached, allowed)| allowed / reached).fold(f64::INFINITY, f64::min);
    assert_within(
        "largest load",
        value(&solved, "largest spread load w"),
        least * 600.0,
        1e-6 * least * 600.0,
    );
}

prop_compose! {
    /// A joist with a plate of another material against its right side, and one of either on top.
    fn any_bars()(
        joist in (20_u32..100, 60_u32..300),
        plate in (3_u32..60, 10_u32..300, 0_u32..200),
        cover in (5_u32..200, 3_u32..60, 0_u32..90),
        ratio in prop_oneof![0.02..0.9_f64, 1.1..30.0_f64],
        stiff_cover in any::<bool>(),
    ) -> Vec<Bar> {
        let mm = |n: u32| f64::from(n) * 1e-3;
        let (breadth, height) = (mm(joist.0), mm(joist.1));
        let bottom = mm(plate.2).min(height - 0.01);
        vec![
            Bar::of((0.0, 0.0), (breadth, height), 1.0),
            Bar::of((breadth, bottom), (mm(plate.0), mm(plate.1).min(height - bottom)), ratio),
            Bar::of((breadth * f64::from(cover.2) / 100.0, height), (mm(cover.0), mm(cover.1)), if stiff_cover { ratio } else { 1.0 }),
        ]
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Against the integrals of the bars: the largest stresses in each material, at the slice and along the beam, and the flow on a cut.
    #[test]
    fn any_bars_of_two_materials_are_bent_as_their_integrals_say(bars in any_bars(), share in 0.05..0.95_f64) {
        let own = Own::of(&bars);
        let height = share * own.top();
        let names = if bars[2].ratio == 1.0 { ["spruce", "steel", "spruce"] } else { ["spruce", "steel", "steel"] };
        let solved = lesson(&bars, &names, 1.0).cut(height, HeightSide::Above, HeightSide::Below).solved();
        for (material, ratio) in [("spruce", 1.0), ("steel", bars[1].ratio)] {
            for (moment, place) in [(0.9e3, "at the slice"), (1.2e3, "along the beam")] {
                let [most, least] = own.extremes(moment, ratio);
                let scale = ratio * own.extremes(moment, 1.0).map(f64::abs).into_iter().fold(most.abs().max(least.abs()) / ratio, f64::max);
                for (words, exact) in [("tension", most), ("compression", -least)] {
                    let name = format!("largest skew {words} in {material} {place}");
                    let found = solved.workings().get(&name).map_or(0.0, |working| working.value.value.abs());
                    prop_assert!((found - exact.max(0.0)).abs() <= 1e-9 * scale, "{name}: {found} where {exact} is exact");
                }
            }
        }
        let through = bars.iter().filter(|bar| bar.bottom <= height && height < bar.bottom + bar.height);
        let width: f64 = through.map(|bar| bar.breadth).sum();
        let exact = own.flow(600.0, height) / width;
        let found = value(&solved, "skew shear stress on the cut");
        prop_assert!((found.abs() - exact.abs()).abs() <= 1e-9 * 600.0 / (width * own.top()), "{found} where {exact} is exact");
    }
}
