//! Several closed cells of thin walls in the workings: a box of two cells by hand, closed forms, limits, and random boxes of up to
//! six cells against the engine.

use crate::common::{Maker, assert_close, assert_within, rectangle, two_cells, value};
use mechanics::section::{HeightSide, Part};
use proptest::prelude::*;
use workings::evaluate::Replacement;
use workings::notation::{Notation, Profile};
use workings::print::plain;
use workings::solved::Solved;
use workings::style::Style;
use workings::working::{Chapter, Formula};

/// V = 4 kN at the slice.
fn beam(parts: Vec<(&str, Part)>) -> Maker {
    Maker::new(3.0, parts).pin("A", 0.0).pin("B", 3.0).force("P", 2.0, 12e3).slice(1.0, 0.05).cut(
        0.1,
        HeightSide::Below,
        HeightSide::Above,
    )
}

/// A box of two cells side by side by its middle lines: height, breadths, thickness of the covers, of the three webs.
fn side_by_side(height: f64, [a, b]: [f64; 2], cover: f64, webs: [f64; 3]) -> Vec<(&'static str, Part)> {
    let web = |at: f64, thick: f64| rectangle(at - 0.5 * thick, 0.5 * cover, thick, height - cover);
    let [left, middle, right] = webs;
    let (start, whole) = (-0.5 * left, a + b + 0.5 * (left + right));
    vec![
        ("bottom", rectangle(start, -0.5 * cover, whole, cover)),
        ("left web", web(0.0, left)),
        ("middle web", web(a, middle)),
        ("right web", web(a + b, right)),
        ("top", rectangle(start, height - 0.5 * cover, whole, cover)),
    ]
}

/// Closed form, by hand for V = 4 kN, N and mm: both cells cut open at their lower left corners, closed by two conditions of no
/// twist.
#[test]
fn a_box_of_two_cells_by_hand() {
    let solved = beam(two_cells()).solved();
    for (name, wanted) in [
        // 2 · 3 · 300 · 150² + (5 + 5 + 12) · 300³ / 12
        ("second moment by middle lines", 90e-6),
        // 4000 · 3 · 180 · 150 / 90e6; up the middle web 4000 · 5 · 150 · 75 / 90e6 = 2.5 more, and back; the same on the right
        ("shear flow in bottom, left at the lower end of middle web, cut open", 3.6e3),
        ("shear flow in middle web half-way, cut open", 6.1e3),
        ("shear flow in middle web at the upper end of middle web, cut open", 3.6e3),
        ("shear flow in bottom, right at the lower end of right web, cut open", 2.4e3),
        ("shear flow in right web half-way, cut open", 8.4e3),
        ("shear flow in right web at the upper end of right web, cut open", 2.4e3),
        ("shear flow in top, left at the upper end of middle web, cut open", 3.6e3),
        ("shear flow in left web half-way, cut open", -2.5e3),
        ("sum of the shear flow along bottom, left, cut open", 324.0),
        // 300 · (3.6 + 2/3 · 2.5)
        ("sum of the shear flow along middle web, cut open", 1580.0),
        ("sum of the shear flow along bottom, right, cut open", 144.0),
        ("sum of the shear flow along right web, cut open", 1920.0),
        ("sum of the shear flow along left web, cut open", -500.0),
        // 180/3 + 300/5 + 180/3 + 300/5; 120/3 + 300/12 + 120/3 + 300/5; 300/5
        ("length over thickness round cell I", 240.0),
        ("length over thickness round cell II", 165.0),
        ("length over thickness between cells I and II", -60.0),
        // 108 + 316 + 108 - 100; 48 + 160 + 48 - 316
        ("sum of flow over thickness round cell I, cut open", 432e3),
        ("sum of flow over thickness round cell II, cut open", -60e3),
        // (-60 · -60 - 165 · 432) / (240 · 165 - 60²); (-60 · 432 + 240 · 60) / 36 000
        ("closing flow round cell I", -1.88e3),
        ("closing flow round cell II", -0.32e3),
        ("shear flow in middle web at the lower end of middle web", 2.04e3),
        ("shear flow in middle web half-way", 4.54e3),
        ("shear flow in top, right at the upper end of middle web", -0.32e3),
        ("shear flow in top, left at the upper end of middle web", 1.72e3),
        ("shear flow in top, left at the upper end of left web", -1.88e3),
        // the way of the left web runs down
        ("shear force in left web", -1064.0),
        ("shear force in middle web", 1112.0),
        ("shear force in right web", 1824.0),
        ("shear force in bottom, left", -14.4),
        ("shear force in bottom, right", 105.6),
        ("upward sum of the forces in the walls", 4e3),
        // (-14.4 + 105.6) · 300 - 1064 · 180 + 1824 · 120, over 4000: 13.68 mm to the right
        ("moment of the shear flow", 54.72),
        ("distance of the shear centre from the web", 0.01368),
        // the middle web stands 182.5 mm from the outer face
        ("place of the shear centre to the right", 0.19618),
        ("area inside the middle lines of cell I", 0.054),
        ("area inside the middle lines of cell II", 0.036),
        // (165 · 108 000 + 60 · 72 000) / 36 000; (240 · 72 000 + 60 · 108 000) / 36 000
        ("flow of a torque round cell I, for each unit of shear modulus times twist", 615e-6),
        ("flow of a torque round cell II, for each unit of shear modulus times twist", 660e-6),
        // 2 · (54 000 · 615 + 36 000 · 660)
        ("torsion constant", 113.94e-6),
        // (2 · 3³ · 300 + (2 · 5³ + 12³) · 300) / 3
        ("torsion constant, were every cell slit open", 203_200e-12),
    ] {
        assert_within(name, value(&solved, name), wanted, 1e-12 * wanted.abs().max(1e-3));
    }
    // The covers of the right cell: 660 / 3 is more than 615 / 3, 615 / 5, 45 / 5 and 660 / 12.
    let torque = value(&solved, "torque if the load stands over the centroid");
    let wanted = torque.abs() * 660e-6 / (113.94e-6 * 0.003);
    assert_close("torsion", value(&solved, "shear stress of that torque"), wanted);
}

/// In a section with a level axis of symmetry many flows are nothing: no sum is written with one, nor the same value twice. By hand as
/// above: the middle web's distance is zero, so what flows in at its foot, 3.6 N/mm, leaves at its head; cut open nothing flows at
/// the left end of the top.
#[test]
fn what_is_nothing_is_left_out_of_sums() {
    let solved = beam(two_cells()).solved();
    let (graph, style) = (solved.workings(), solved.style());
    let said = |id| plain(&graph.equation(id), style).replace(['\u{a0}', '\u{202f}'], " ");
    let mut sums = 0;
    for (id, working) in graph.chapter(Chapter::Walls) {
        let text = said(id);
        sums += usize::from(text.contains(" + "));
        assert!(!text.contains("+ 0 N") && !text.contains("= 0 N/mm +"), "{}: {text}", working.name);
    }
    assert!(sums > 10, "{sums}");
    let head = graph.id("shear flow in middle web at the upper end of middle web, cut open");
    let head = said(head.expect("it is worked out"));
    assert!(head.ends_with("= 3.60 N/mm") && head.matches('=').count() == 2, "{head}");
}

/// Closed form, worked anew: a box of two like cells, breadth b each, height h, covers t, outer webs t_o, middle web t_m, under an
/// upright force. Both halves flow alike, so with g = V t b h / (2 I), what the covers gather over b, the flow at an outer corner is
/// f = g (b/t + 2 h/t_m) / (h/t_o + 2 b/t + 2 h/t_m), from no twist of one cell; an outer web takes f h + V t_o h³ / (12 I).
#[test]
fn two_like_cells_share_the_force_by_the_closed_form() {
    let (b, h, v) = (0.2, 0.3, 4e3);
    for (t, outer, middle) in [(0.004, 0.005, 0.008), (0.006, 0.003, 0.003), (0.003, 0.008, 0.004)] {
        let solved = beam(side_by_side(h, [b, b], t, [outer, middle, outer])).solved();
        let i = 2.0 * t * 2.0 * b * h * h / 4.0 + (2.0 * outer + middle) * h.powi(3) / 12.0;
        let g = v * t * b * h / (2.0 * i);
        let f = g * (b / t + 2.0 * h / middle) / (h / outer + 2.0 * b / t + 2.0 * h / middle);
        let of_outer = f * h + v * outer * h.powi(3) / (12.0 * i);
        assert_close("left", value(&solved, "shear force in left web"), -of_outer);
        assert_close("right", value(&solved, "shear force in right web"), of_outer);
        assert_close("middle", value(&solved, "shear force in middle web"), v - 2.0 * of_outer);
        // Its shear centre stands on the middle web and is no question.
        assert!(solved.workings().id("distance of the shear centre from the web").is_none());
    }
}

/// A limit: a wall between the cells that is thinner and thinner carries less and less, and what is left is the box of one cell.
/// What is missing falls as its thickness does.
#[test]
fn without_the_wall_between_them_two_cells_are_one() {
    let box_of = |middle: Option<f64>| {
        let mut parts = side_by_side(0.3, [0.18, 0.12], 0.003, [0.005, middle.unwrap_or(1.0), 0.012]);
        if middle.is_none() {
            parts.remove(2);
        }
        beam(parts).solved()
    };
    let one = box_of(None);
    assert!(one.workings().id("closing flow round the cell").is_some());
    for name in ["shear force in right web", "place of the shear centre to the right", "torsion constant"] {
        let off = |middle: f64| {
            let two = box_of(Some(middle));
            assert!(two.workings().id("closing flow round cell II").is_some());
            value(&two, name) / value(&one, name) - 1.0
        };
        let (thin, thinner) = (off(2e-6), off(1e-6));
        assert!(thin.abs() < 2e-3, "{name}: {thin}");
        assert!((thin / thinner - 2.0).abs() < 0.01, "{name}: {thin} and {thinner}");
    }
}

/// Published, from memory: S. P. Timoshenko and J. N. Goodier, *Theory of Elasticity*, on the torsion of thin tubes with one wall
/// across: with a_1, a_2 the lengths over thickness of the outer walls of both cells and a_3 that of the wall between, and A the
/// whole area, J = 4 (a_3 A² + a_2 A_1² + a_1 A_2²) / (a_1 a_2 + a_2 a_3 + a_3 a_1).
#[test]
fn torsion_of_two_cells_is_the_published_one() {
    let (h, t) = (0.25, 0.004);
    for ([a, b], [left, middle, right]) in
        [([0.3, 0.1], [0.006, 0.004, 0.01]), ([0.15, 0.4], [0.003, 0.012, 0.005])]
    {
        let solved = beam(side_by_side(h, [a, b], t, [left, middle, right])).solved();
        let (one, other, across) = (2.0 * a / t + h / left, 2.0 * b / t + h / right, h / middle);
        let above = across * ((a + b) * h).powi(2) + other * (a * h).powi(2) + one * (b * h).powi(2);
        let below = one * other + other * across + across * one;
        assert_close("J", value(&solved, "torsion constant"), 4.0 * above / below);
    }
}

/// Three cells: the flows round them are found together by the engine, from sums that are formulas; each condition is met, and they
/// follow when the shear force is another.
#[test]
fn three_cells_are_closed_together() {
    let mut parts = side_by_side(0.3, [0.18, 0.27], 0.003, [0.005, 0.004, 0.012]);
    parts.push(("fourth web", rectangle(0.30, 0.0015, 0.006, 0.297)));
    let solved = beam(parts).solved();
    let cells = solved.cells().expect("it has closed cells");
    let closing = |cell: usize| solved.value(cells.cells[cell].closing);
    assert_eq!(cells.cells.iter().map(|cell| cell.number.as_str()).collect::<Vec<_>>(), ["I", "II", "III"]);
    // The outer two share no wall.
    assert_eq!(
        cells.shared.iter().map(|(one, other, _)| (*one, *other)).collect::<Vec<_>>(),
        [(0, 1), (1, 2)]
    );
    for (cell, of) in cells.cells.iter().enumerate() {
        let condition = of.condition.expect("there are several");
        let mut sum = solved.value(condition.open) + solved.value(condition.round) * closing(cell);
        for &(one, other, between) in &cells.shared {
            if one == cell || other == cell {
                sum += solved.value(between) * closing(one + other - cell);
            }
        }
        assert_within("no twist", sum, 0.0, 1e-9 * solved.value(condition.open).abs());
        assert!(matches!(solved.workings().working(of.closing).formula, Formula::Engine { .. }));
    }
    let twice = [(solved.key().shear, Replacement::Value(2.0 * solved.value(solved.key().shear)))];
    let doubled = solved.workings().evaluate_with(&twice).expect("it can be evaluated");
    let id = solved.workings().id("closing flow round cell II").expect("there are three");
    assert_close("twice the force", doubled[id.0 as usize], 2.0 * closing(1));
}

/// A wall that hangs between two cells belongs to neither: there the workings say nothing, and the engine's flow stands.
#[test]
fn a_wall_between_two_boxes_is_left_to_the_engine() {
    let tube = |x: f64| {
        [
            rectangle(x, 0.0, 0.1, 0.004),
            rectangle(x, 0.004, 0.004, 0.192),
            rectangle(x + 0.096, 0.004, 0.004, 0.192),
            rectangle(x, 0.196, 0.1, 0.004),
        ]
    };
    let names = ["a", "b", "c", "d", "e", "f", "g", "h"];
    let mut parts: Vec<(&str, Part)> =
        names.into_iter().zip(tube(0.0).into_iter().chain(tube(0.3))).collect();
    parts.push(("bar", rectangle(0.1, 0.1, 0.2, 0.004)));
    let solved = beam(parts).solved();
    assert_eq!(solved.problem().thin_walls().map(|walls| walls.cells().len()), Ok(2));
    assert_eq!(solved.workings().chapter(Chapter::Walls).count(), 0);
}

/// Webs of two rows that nearly meet leave a short wall between them with hardly any force: its moment counts all the same.
#[test]
fn a_short_wall_between_webs_counts_for_the_shear_centre() {
    let upright = |middle: f64, thick: f64, base: f64| rectangle(middle - 0.5 * thick, base, thick, 0.36);
    let solved = beam(vec![
        ("low", rectangle(-0.006, 0.0, 0.712, 0.0065)),
        ("w1", upright(0.0, 0.012, 0.0065)),
        ("w2", upright(0.7, 0.012, 0.0065)),
        ("w3", upright(0.212, 0.012, 0.0065)),
        ("middle", rectangle(-0.0387, 0.3665, 0.761, 0.0035)),
        ("w4", upright(0.0, 0.012, 0.37)),
        ("w5", upright(0.7, 0.012, 0.37)),
        ("w6", upright(0.2121, 0.0107, 0.37)),
        ("w7", upright(0.364, 0.005, 0.37)),
        ("high", rectangle(-0.006, 0.73, 0.712, 0.0058)),
    ])
    .solved();
    let centre = solved.problem().thin_walls().map(|walls| walls.shear_centre().x + 0.0387);
    assert_within(
        "place",
        value(&solved, "place of the shear centre to the right"),
        centre.unwrap_or(f64::NAN),
        1e-12,
    );
}

/// Rows of cells on one another between plates that go through, webs in other places in each row; at both ends brims.
fn any_box() -> impl Strategy<Value = (usize, Vec<(&'static str, Part)>)> {
    const WEBS: [&str; 8] = ["w1", "w2", "w3", "w4", "w5", "w6", "w7", "w8"];
    const PLATES: [&str; 3] = ["low", "middle", "high"];
    let row = (
        0.15..0.4_f64,
        prop::collection::vec(0.08..0.25_f64, 0..=2),
        prop::array::uniform4(0.003..0.012_f64),
    );
    let plates = prop::array::uniform3((0.003..0.012_f64, -0.06..0.06_f64));
    (prop::collection::vec(row, 1..=2), plates).prop_map(|(rows, plates)| {
        let whole = 0.7;
        let (mut parts, mut cells, mut base, mut name) = (Vec::new(), 0, 0.0, 0);
        for (place, (thick, brim)) in plates.iter().take(rows.len() + 1).enumerate() {
            // A plate ends flush with the outer webs, or stands out beyond them.
            let out = if *brim > 0.02 { *brim } else { 0.0 };
            let (left, right) = (0.006 + out, 0.006 + 0.5 * out);
            parts.push((PLATES[place], rectangle(-left, base, whole + left + right, *thick)));
            base += thick;
            let Some((height, steps, webs)) = rows.get(place) else { break };
            let mut at = vec![0.0, whole];
            at.extend(steps.iter().scan(0.0, |reach, step| {
                *reach += step;
                Some(*reach)
            }));
            cells += at.len() - 1;
            for (x, thick) in at.into_iter().zip(webs) {
                let thick = if x == 0.0 || x == whole { 0.012 } else { *thick };
                parts.push((WEBS[name], rectangle(x - 0.5 * thick, base, thick, *height)));
                name += 1;
            }
            base += height;
        }
        (cells, parts)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Every flow, sum, force, the shear centre and the torsion constant are compared with the engine's when the lesson is solved.
    #[test]
    fn random_boxes_agree_with_the_engine((cells, parts) in any_box(), profile in 0..Profile::ALL.len()) {
        let style = Style { notation: Notation::of(Profile::ALL[profile]), ..Style::default() };
        let solved = Solved::new(beam(parts).problem, style);
        let solved = solved.map_err(|faults| TestCaseError::fail(format!("{faults:?}")))?;
        let found = solved.cells().map_or(0, |of| of.cells.len());
        prop_assert_eq!(found, cells);
        let sum = value(&solved, "upward sum of the forces in the walls");
        prop_assert!((sum - 4e3).abs() < 1e-6, "{}", sum);
    }
}
