use super::cases::{Case, case, check};
use crate::common::{Maker, lopsided_box, rectangle, two_cells};
use mechanics::section::HeightSide;

const WEB: &str = "shear flow in web half-way";
const MOST: &str = "largest shear stress in the walls";
const FLANGE: &str = "shear force in bottom flange";
const MOMENT: &str = "moment of the shear flow";
const DISTANCE: &str = "distance of the shear centre from the web";
const PLACE: &str = "place of the shear centre to the right";
const TORQUE: &str = "torque if the load stands over the centroid";

/// A channel of 210 mm by 66 mm, flanges 10 mm, web 12 mm, so that its middle lines are 60 mm and 200 mm; V = 4 kN.
///
/// By hand: I = 12 · 200³ / 12 + 2 · 10 · 60 · 100² = 20e6 mm⁴; q at the web 4000 · 10 · 60 · 100 / 20e6 = 12 N/mm, half-way up the
/// web 12 + 4000 · 12 · 100 · 50 / 20e6 = 24 N/mm, so 2 MPa; each flange ½ · 12 · 60 = 360 N, their couple 360 · 200 = 72 N m,
/// e = 72 / 4 = 18 mm. The centroid of the outline lies 15.9 mm from the back: (1320 · 33 + 2280 · 6) / 3600.
pub fn channel() -> Maker {
    let parts = vec![
        ("top flange", rectangle(0.0, 0.2, 0.066, 0.01)),
        ("web", rectangle(0.0, 0.01, 0.012, 0.19)),
        ("bottom flange", rectangle(0.0, 0.0, 0.066, 0.01)),
    ];
    Maker::new(3.0, parts).pin("A", 0.0).pin("B", 3.0).force("P", 2.0, 12e3).slice(1.0, 0.05).cut(
        0.2,
        HeightSide::Below,
        HeightSide::Above,
    )
}

/// A box of middle lines 150 mm by 240 mm, strips 6 mm, back 12 mm, cover 3 mm; V = 4 kN.
///
/// By hand: I = 43.2e6 mm⁴; cut open at the lower left corner the flows sum up to 750, 2720, 750 and -1280 N along the lower strip,
/// the cover, the upper strip and the back; closed by -(125 + 906.67 + 125 - 106.67) / (25 + 80 + 25 + 20) = -7 N/mm, so the cover
/// takes 2720 - 7 · 240 = 1040 N.
pub fn covered() -> Maker {
    Maker::new(3.0, lopsided_box()).pin("A", 0.0).pin("B", 3.0).force("P", 2.0, 12e3).slice(1.0, 0.05).cut(
        0.1,
        HeightSide::Below,
        HeightSide::Above,
    )
}

/// A box of two cells of middle lines 180 mm and 120 mm by 300 mm, covers 3 mm, webs 5 mm, 5 mm and 12 mm; V = 4 kN.
///
/// By hand: I = 90e6 mm⁴; cut open at the lower left corners the middle web gets 1580 N upward; round the cells that adds up to
/// 432 and -60 N/mm; lengths over thickness 240 and 165, 60 between; closed by -1.88 and -0.32 N/mm, so the middle web takes
/// 1580 + 300 · (-1.88 + 0.32) = 1112 N.
pub fn with_two_cells() -> Maker {
    Maker::new(3.0, two_cells()).pin("A", 0.0).pin("B", 3.0).force("P", 2.0, 12e3).slice(1.0, 0.05).cut(
        0.1,
        HeightSide::Below,
        HeightSide::Above,
    )
}

const FIRST: &str = "closing flow round cell I";
const SECOND: &str = "closing flow round cell II";
const ROUND: &str = "length over thickness round cell I";
const SHARED: &str = "length over thickness between cells I and II";
const INTO: &str = "shear flow in middle web at the lower end of middle web";
const BETWEEN: &str = "shear force in middle web";
const CLOSING: &str = "closing flow round the cell";
const TORSION: &str = "torsion constant";

/// Right: 24 N/mm, 2 MPa, 360 N, 18 mm, -12 mm, 111.6 N m.
pub const CASES: &[Case] = &[
    // Without what the flange brings.
    case("flow-starts-anew", channel, (WEB, WEB), &[12e3]),
    case("flow-starts-anew", channel, ("largest shear flow in the walls", MOST), &[1e6]),
    case("flange-force-without-half", channel, (FLANGE, FLANGE), &[720.0]),
    // In both flanges: the shear centre stands twice as far off.
    case("flange-force-without-half", channel, (FLANGE, DISTANCE), &[0.036]),
    case("one-flange-only", channel, (MOMENT, DISTANCE), &[0.009]),
    case("shear-centre-at-the-centroid", channel, (PLACE, PLACE), &[0.0159]),
    // 6 mm + 18 mm; 4 kN · (15.9 - 24) mm
    case("wrong-side-of-the-web", channel, (PLACE, PLACE), &[0.024]),
    case("wrong-side-of-the-web", channel, (PLACE, TORQUE), &[-32.4]),
    // 4 kN · (15.9 - 6) mm
    case("arm-from-the-web", channel, (TORQUE, TORQUE), &[39.6]),
    // The box; right: 1040 N, -7 N/mm, 4 · 36 000² / 150 mm⁴.
    case("cell-left-open", covered, (CLOSING, "shear force in cover"), &[2720.0]),
    // -(750 + 2720 + 750 - 1280) / (150 + 240 + 150 + 240) N/mm
    case("closing-flow-without-thickness", covered, (CLOSING, CLOSING), &[-2940e3 / 780.0]),
    // The box of two cells; right: -1.88 N/mm, -0.32 N/mm, 1112 N, 113.94e6 mm⁴.
    case("cell-left-open", with_two_cells, (FIRST, BETWEEN), &[1580.0]),
    // 1580 - 300 · 432 / 240; 1580 - 300 · 60 / 165
    case("one-cell-closed-only", with_two_cells, (FIRST, BETWEEN), &[1040.0]),
    case("one-cell-closed-only", with_two_cells, (SECOND, BETWEEN), &[1580.0 - 18_000.0 / 165.0]),
    case("each-cell-closed-by-itself", with_two_cells, (FIRST, BETWEEN), &[1040.0 - 18_000.0 / 165.0]),
    // (60 · -60 - 165 · 432) / 36 000; (60 · 432 + 240 · 60) / 36 000
    case("shared-wall-with-the-wrong-sign", with_two_cells, (SHARED, FIRST), &[-2.08e3]),
    case("shared-wall-with-the-wrong-sign", with_two_cells, (SHARED, SECOND), &[1.12e3]),
    // 1580 + 300 · (-1.88 - 0.32)
    case("flows-added-in-the-shared-wall", with_two_cells, (INTO, BETWEEN), &[920.0]),
    // Lengths 960, 840 and 300; sums 324 + 1580 + 324 - 500 = 1728 and 144 + 1920 + 144 - 1580 = 628 N:
    // (-300 · 628 - 840 · 1728) / (960 · 840 - 300²)
    case("closing-flow-without-thickness", with_two_cells, (ROUND, FIRST), &[-1_639_920e3 / 716_400.0]),
    // 4 · 90 000² / (600/3 + 300/5 + 300/12)
    case("inner-wall-left-out-of-torsion", with_two_cells, (TORSION, TORSION), &[32.4e-3 / 285.0]),
    case("closed-cell-twisted-as-open", with_two_cells, (TORSION, TORSION), &[203_200e-12]),
    // (2 · 6³ · 150 + 12³ · 240 + 3³ · 240) / 3
    case("closed-cell-twisted-as-open", covered, (TORSION, TORSION), &[162e-9]),
];

#[test]
fn mistakes_of_thin_walls() {
    check(CASES);
}

/// An I has its shear centre on its web, and no one can miss it.
#[test]
fn nobody_can_miss_the_shear_centre_of_an_i() {
    let parts = vec![
        ("top flange", rectangle(0.0, 0.2, 0.12, 0.01)),
        ("web", rectangle(0.054, 0.01, 0.012, 0.19)),
        ("bottom flange", rectangle(0.0, 0.0, 0.12, 0.01)),
    ];
    let lesson = Maker::new(3.0, parts).pin("A", 0.0).pin("B", 3.0).force("P", 2.0, 12e3).slice(1.0, 0.05);
    let solved = lesson.cut(0.2, HeightSide::Below, HeightSide::Above).solved();
    for id in ["one-flange-only", "shear-centre-at-the-centroid", "wrong-side-of-the-web", "arm-from-the-web"]
    {
        assert_eq!(super::cases::count(&solved, id), 0, "{id}");
    }
    assert!(super::cases::count(&solved, "flow-starts-anew") > 0);
}
