//! What holds for the elastic solution of every section, and that no section makes it panic.

use core::f64::consts::PI;
use mechanics::elastic::{Effort, ElasticShear, Fault, ShearForce};
use mechanics::real;
use mechanics::section::{Edge, HeightSide, Loop, Part, Point, Section, shapes};
use proptest::prelude::*;

const UP: ShearForce = ShearForce { right: 0.0, up: 1.0 };
const RIGHT: ShearForce = ShearForce { right: 1.0, up: 0.0 };

/// A polygon seen whole from its middle, so that its sides cannot cross.
fn star() -> impl Strategy<Value = Vec<Part>> {
    (prop::collection::vec(0.4..1.0f64, 3..12), 0.0..PI).prop_map(|(radii, turn)| {
        let count = radii.len() as f64;
        let corner = |(index, radius): (usize, &f64)| {
            let angle = turn + 2.0 * PI * (index as f64 + 0.3 * radius) / count;
            Point::new(radius * real::cos(angle), radius * real::sin(angle))
        };
        let corners: Vec<Point> = radii.iter().enumerate().map(corner).collect();
        vec![Part::of_outline(Loop::polygon(&corners), Vec::new())]
    })
}

/// Planks one on the other, each of its own breadth, thickness, place and material.
fn planks() -> impl Strategy<Value = Vec<Part>> {
    prop::collection::vec((0.3..1.0f64, 0.05..0.3f64, -0.05..0.05f64, 0.2..8.0f64), 1..5).prop_map(|planks| {
        let mut y = 0.0;
        let mut parts = Vec::new();
        for (breadth, thickness, off, ratio) in planks {
            let corner = Point::new(off - 0.5 * breadth, y);
            parts.push(Part::rectangle(corner, breadth, thickness).with_modular_ratio(ratio));
            y += thickness;
        }
        parts
    })
}

fn shape() -> impl Strategy<Value = Vec<Part>> {
    let sizes = (0.3..1.0f64, 0.3..1.0f64, 0.03..0.14f64, 0.03..0.14f64, 0.01..0.1f64);
    (0..8u8, sizes).prop_map(|(kind, (h, b, s, t, r))| {
        let shape = match kind {
            0 => shapes::rectangle(b, h),
            1 => shapes::round_tube(h, t),
            2 => shapes::half_circle(h, s > t),
            3 => shapes::tee(b, t, s, h, s > t),
            4 => shapes::channel(h, b, s, t),
            5 => shapes::angle(h, b, s, t),
            6 => shapes::box_girder(b, h, s, t, 0.5 * t),
            _ => shapes::rolled_i(h, b, s, t, (0.45 * (b - s)).min(0.45 * (h - 2.0 * t)).min(r)),
        };
        shape.unwrap_or_else(|faults| panic!("{faults:?}")).parts
    })
}

fn any_section() -> impl Strategy<Value = Vec<Part>> {
    prop_oneof![star(), planks(), shape()]
}

/// Every point of the parts moved by a rule; a rule that mirrors turns the arcs round.
fn moved(parts: &[Part], mirrors: bool, rule: impl Fn(Point) -> Point) -> Vec<Part> {
    let of_edge = |edge: &Edge| match *edge {
        Edge::Line { to } => Edge::Line { to: rule(to) },
        Edge::Arc { to, centre, counter_clockwise } => {
            Edge::Arc { to: rule(to), centre: rule(centre), counter_clockwise: counter_clockwise != mirrors }
        }
    };
    let of_loop = |outline: &Loop| Loop {
        start: rule(outline.start),
        path: outline.path.iter().map(of_edge).collect(),
    };
    let of_part = |part: &Part| {
        let holes = part.holes.iter().map(of_loop).collect();
        Part::of_outline(of_loop(&part.outline), holes).with_modular_ratio(part.modular_ratio)
    };
    parts.iter().map(of_part).collect()
}

fn solved(parts: Vec<Part>, nu: f64) -> ElasticShear {
    let section = Section::new(parts).unwrap_or_else(|faults| panic!("{faults:?}"));
    ElasticShear::new(&section, nu, Effort::usual()).unwrap_or_else(|fault| panic!("{fault:?}"))
}

fn near(found: f64, wanted: f64, within: f64) -> Result<(), TestCaseError> {
    prop_assert!((found - wanted).abs() <= within, "{found} against {wanted} within {within}");
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// The same section in a mirror has the mirrored answers, on a mesh of its own.
    #[test]
    fn a_mirrored_section_has_mirrored_stresses(parts in any_section(), nu in 0.0..0.5f64) {
        let mirrored = moved(&parts, true, |at| Point::new(-at.x, at.y));
        let (here, there) = (solved(parts, nu), solved(mirrored, nu));
        let size = here.section().properties().height().max(here.section().properties().breadth());
        near(there.torsion_constant(), here.torsion_constant(), 3e-3 * here.torsion_constant())?;
        for force in [UP, RIGHT] {
            near(there.form_factor(force), here.form_factor(force), 3e-3 * here.form_factor(force))?;
        }
        let (ours, theirs) = (here.shear_centre(), there.shear_centre());
        near(theirs.x, -ours.x, 5e-3 * size)?;
        near(theirs.y, ours.y, 5e-3 * size)?;
    }

    /// Lengths times k: stresses over k squared, J by k to the fourth, the shear centre along.
    #[test]
    fn a_larger_section_has_the_same_stresses_spread_wider(
        parts in any_section(),
        nu in 0.0..0.5f64,
        power in -12i32..12,
    ) {
        let scale = 2.0_f64.powi(power);
        let scaled = moved(&parts, false, |at| Point::new(scale * at.x, scale * at.y));
        let (here, there) = (solved(parts, nu), solved(scaled, nu));
        let relative = |found: f64, wanted: f64| near(found, wanted, 1e-9 * wanted.abs());
        relative(there.torsion_constant(), here.torsion_constant() * scale.powi(4))?;
        relative(there.form_factor(UP), here.form_factor(UP))?;
        let largest = |elastic: &ElasticShear| elastic.under(UP).largest().map_or(0.0, |largest| largest.value);
        relative(largest(&there) * scale * scale, largest(&here))?;
    }

    /// Two forces together give the sum of their stresses.
    #[test]
    fn forces_add(parts in any_section(), nu in 0.0..0.5f64, right in -5.0..5.0f64, up in -5.0..5.0f64) {
        let elastic = solved(parts, nu);
        let at = {
            let chord = elastic.section().chords(elastic.section().neutral_axis() + 0.01, HeightSide::Above)[0];
            Point::new(0.5 * (chord.from + chord.to), elastic.section().neutral_axis() + 0.01)
        };
        let of = |force: ShearForce| elastic.under(force).at(at).expect("the point lies in the section");
        let (both, one, other) = (of(ShearForce { right, up }), of(RIGHT), of(UP));
        let scale = one.size() * right.abs() + other.size() * up.abs();
        near(both.right, right * one.right + up * other.right, 1e-12 * scale)?;
        near(both.up, right * one.up + up * other.up, 1e-12 * scale)?;
    }

    /// The stresses add up to the force, and those along any cut to what the balance of the piece beyond it asks.
    #[test]
    fn the_stresses_balance_the_force(parts in any_section(), nu in 0.0..0.5f64, share in 0.05..0.95f64) {
        let elastic = solved(parts, nu);
        for force in [UP, RIGHT, ShearForce { right: -2.0, up: 3.0 }] {
            for residual in elastic.under(force).check(force) {
                prop_assert!(residual.value.abs() < 1e-9, "{residual:?}");
            }
        }
        let properties = elastic.section().properties();
        let height = properties.bottom + share * properties.height();
        // The stress runs away at sharp corners, so a cut near one is met less well.
        for force in [UP, RIGHT, ShearForce { right: -2.0, up: 3.0 }] {
            if let Some(across) = elastic.under(force).across(height, HeightSide::Above) {
                near(across.mean, across.balanced, 0.05 * across.largest.value)?;
            }
        }
        // Held so that it bends about the level axis alone, it is the simple formula that balances.
        if let Some(across) = elastic.under_level_bending(1.0).across(height, HeightSide::Above) {
            near(across.balanced, across.formula, 1e-9 * across.largest.value)?;
        }
    }

    /// Whatever the shape, there is an answer or a reason.
    #[test]
    fn nothing_makes_it_panic(
        radii in prop::collection::vec(prop_oneof![1e-9..1e-3f64, 0.01..1.0f64, 0.999_999..1.0f64], 3..30),
        turn in 0.0..PI,
        scale in -40i32..40,
        nu in -0.99..0.5f64,
    ) {
        let count = radii.len() as f64;
        let scale = 10.0_f64.powi(scale);
        let corner = |(index, radius): (usize, &f64)| {
            let angle = turn + 2.0 * PI * index as f64 / count;
            Point::new(scale * radius * real::cos(angle), scale * radius * real::sin(angle))
        };
        let corners: Vec<Point> = radii.iter().enumerate().map(corner).collect();
        if let Ok(section) = Section::new(vec![Part::of_outline(Loop::polygon(&corners), Vec::new())]) {
            match ElasticShear::new(&section, nu, Effort::usual()) {
                Ok(elastic) => {
                    let largest = elastic.under(UP).largest();
                    prop_assert!(largest.is_none_or(|largest| largest.value.is_finite()));
                    let _ = elastic.under_level_bending(1.0).across(0.0, HeightSide::Above);
                }
                Err(fault) => prop_assert!(!matches!(fault, Fault::PoissonRatio { .. }), "{fault:?}"),
            }
        }
    }
}

/// The same bits on every run: nothing depends on the order of a hash or on an address.
#[test]
fn the_same_section_gives_the_same_bits() {
    let once = || {
        let shape = shapes::rolled_i(0.2, 0.1, 0.0056, 0.0085, 0.012).expect("it fits");
        let elastic = solved(shape.parts, 0.3);
        let largest = elastic.under(UP).largest().expect("there is one");
        [elastic.torsion_constant(), largest.value, largest.at.x, largest.at.y, elastic.error()]
            .map(f64::to_bits)
    };
    assert_eq!(once(), once());
}
