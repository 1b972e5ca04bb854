//! Planks laid loose, against the same planks made one. All by hand.

use crate::common::{Maker, assert_close, rectangle, value};
use workings::material::PartMaterial;
use workings::solved::Solved;

const LOOSE: &str = "second moment of the loose planks";
const TIMES: &str = "stiffness over that of the loose planks";

/// Planks from the bottom up, breadth and height, m, of a material.
fn pile(material: &str, planks: &[(f64, f64)]) -> Solved {
    let mut parts = Vec::new();
    let mut low = 0.0;
    for &(breadth, height) in planks {
        parts.push(("plank", rectangle(-breadth / 2.0, low, breadth, height)));
        low += height;
    }
    let mut maker = Maker::new(4.0, parts).pin("A", 0.0).pin("B", 4.0).force("P", 2.0, 6e3).slice(1.0, 0.05);
    let named = PartMaterial { name: Some(material.to_owned()), ..PartMaterial::default() };
    maker.problem.part_materials = vec![named; planks.len()];
    maker.solved()
}

/// Three planks of 100 by 40 mm, glued: b (3h)³/12 over 3 b h³/12 is 9.
#[test]
fn three_equal_planks_are_nine_times_as_stiff() {
    let solved = pile("spruce", &[(0.1, 0.04); 3]);
    assert_close("loose", value(&solved, LOOSE), 3.0 * 0.1 * 0.04f64.powi(3) / 12.0);
    assert_close("times", value(&solved, TIMES), 9.0);
    assert!(solved.planks().is_some_and(|planks| !planks.turned));
}

/// 80 by 30, 60 by 120 on edge, 80 by 30 mm: laid flat (2·80·30³ + 120·60³)/12 = 2.52·10⁶ mm⁴; the section has 36·10⁶ mm⁴.
#[test]
fn a_plank_on_edge_is_laid_flat() {
    let solved = pile("larch", &[(0.08, 0.03), (0.06, 0.12), (0.08, 0.03)]);
    assert_close("loose", value(&solved, LOOSE), 2.52e-6);
    assert_close("times", value(&solved, TIMES), 36.0 / 2.52);
    assert!(solved.planks().is_some_and(|planks| planks.turned));
}

/// Plates of steel are no planks, and one plank is no pile.
#[test]
fn what_is_no_pile_of_planks_has_none() {
    assert!(pile("steel", &[(0.1, 0.04); 3]).planks().is_none());
    assert!(pile("spruce", &[(0.1, 0.04)]).planks().is_none());
}
