//! Fasteners along the beam: spacing and number from key station to key station, against examples and by properties.

use crate::common::{Maker, assert_close, assert_within, rectangle, value};
use mechanics::beam::Load;
use proptest::prelude::*;
use workings::problem::{Joint, JointKind};
use workings::solved::Solved;

fn nailed(step: Option<f64>, capacity: f64, rows: u32) -> Joint {
    Joint {
        name: "nails".into(),
        kind: JointKind::Fasteners,
        beyond: vec![0],
        rows,
        fastener_capacity: Some(capacity),
        step,
        zones: true,
        ..Joint::default()
    }
}

/// A T of two boards of 6 x 2 in, nailed (the form of a worked example of many textbooks; numbers by hand): with P in the third
/// points V = P outside and 0 between them.
fn boards() -> Maker {
    Maker::new(
        3.0,
        vec![("flange", rectangle(0.0, 0.15, 0.15, 0.05)), ("web", rectangle(0.05, 0.0, 0.05, 0.15))],
    )
    .pin("A", 0.0)
    .pin("B", 3.0)
}

/// y_n = 125 mm, I = 53.125e6 mm⁴, Q = 7500·50 mm³; V = 1.7 kN, so q = 1.7 kN·375e3/53.125e6 = 12 N/mm.
#[test]
fn two_forces_in_the_third_points() {
    let mut maker = boards().force("P1", 1.0, 1.7e3).force("P2", 2.0, 1.7e3);
    maker.problem.joints = vec![nailed(Some(5e-3), 750.0, 1)];
    let solved = maker.solved();
    assert_close("q", value(&solved, "shear flow at nails between A and force P1"), 12e3);
    assert_close("s", value(&solved, "largest spacing at nails between A and force P1"), 0.0625);
    assert_close("s to use", value(&solved, "spacing to use at nails between A and force P1"), 0.060);
    // n F = Q/I (M2 - M1) = 12 N/mm · 1000 mm = 12 kN, so 16 nails; at 60 mm 1000/60 of them.
    assert_close("n", value(&solved, "number of fasteners of nails between A and force P1"), 16.0);
    assert_close(
        "n, whole",
        value(&solved, "whole number of fasteners of nails between A and force P1"),
        16.0,
    );
    assert_close(
        "at s",
        value(&solved, "fasteners to put in at nails between A and force P1"),
        // 1000/60 spacings, rounded up.
        17.0,
    );
    // Between the forces V is zero: no zone.
    assert_eq!(zones(&solved).len(), 2);
    assert_close("in all", value(&solved, "number of fasteners of nails in all"), 34.0);
}

/// A uniform load: V falls in a straight line to zero at midspan, V = 3.4 kN/m · 1.5 m = 5.1 kN, q = 36 N/mm at the support; the area
/// under q up to midspan is 27 kN. In four steps q is 36, 27, 18 and 9 N/mm where each begins, so the spacings are 1500 N over that, and the
/// areas are 7/16, 5/16, 3/16 and 1/16 of 27 kN: of 36 fasteners 15.75, 11.25, 6.75 and 2.25. In 375 mm stand two rows of 9, 6.75, 4.5
/// and 2.25, in whole ones of 9, 7, 5 and 3.
#[test]
fn spacings_grow_in_steps_as_v_falls() {
    let mut maker = boards().spread("w", 0.0, 3.0, 3.4e3);
    maker.problem.joints = vec![nailed(None, 750.0, 2)];
    let solved = maker.solved();
    let wanted = [
        [36e3, 1.5 / 36.0, 15.75, 18.0],
        [27e3, 1.5 / 27.0, 11.25, 14.0],
        [18e3, 1.5 / 18.0, 6.75, 10.0],
        [9e3, 1.5 / 9.0, 2.25, 6.0],
    ];
    let all = zones(&solved);
    assert_eq!(all.len(), 8);
    let (left, right) = all.split_at(4);
    for (found, wanted) in left.iter().zip(wanted).chain(right.iter().rev().zip(wanted)) {
        for (what, (found, wanted)) in ["q", "s", "n", "put in"].into_iter().zip(found.iter().zip(wanted)) {
            assert_close(what, *found, wanted);
        }
    }
    assert_close("in all", value(&solved, "number of fasteners of nails in all"), 96.0);
}

/// An intermittent weld is a row of fasteners, each of the strength for each length times its length.
#[test]
fn runs_of_a_weld() {
    let mut maker = boards().force("P1", 1.0, 1.7e3).force("P2", 2.0, 1.7e3);
    maker.problem.joints = vec![Joint {
        name: "fillets".into(),
        kind: JointKind::Weld,
        beyond: vec![0],
        rows: 2,
        strength: Some(30e3),
        run: Some(0.02),
        spacing: Some(0.08),
        step: Some(5e-3),
        zones: true,
        ..Joint::default()
    }];
    let solved = maker.solved();
    assert_close("a run", value(&solved, "capacity of one run of fillets"), 600.0);
    assert_close("pitch", value(&solved, "largest spacing at fillets, where V is largest"), 0.1);
    assert_close("to use", value(&solved, "spacing to use at fillets"), 0.1);
    assert_close("force", value(&solved, "force on one run of fillets, where V is largest"), 480.0);
    assert_close("n", value(&solved, "number of runs of fillets between A and force P1"), 20.0);
}

/// A weld that runs on is asked for its force on each length: half of q for each of two lines.
#[test]
fn a_weld_all_along() {
    let mut maker = boards().force("P1", 1.0, 1.7e3).force("P2", 2.0, 1.7e3);
    let weld = Joint { rows: 2, strength: Some(30e3), ..nailed(None, 0.0, 1) };
    let weld = Joint {
        kind: JointKind::Weld,
        fastener_capacity: None,
        zones: false,
        name: "fillets".into(),
        ..weld
    };
    maker.problem.joints = vec![weld];
    let solved = maker.solved();
    assert_close("line", value(&solved, "shear flow in one line of fillets, where V is largest"), 6e3);
    assert_close("factor", value(&solved, "load factor for force on fillets"), 5.0);
}

/// For each zone: flow, largest spacing, number, number at the spacing.
fn zones(solved: &Solved) -> Vec<[f64; 4]> {
    let Some((_, zones)) = solved.zones().next() else { return Vec::new() };
    let numbers = |zone: &workings::solved::ZoneWorkings| {
        [zone.flow, zone.largest_spacing, zone.number, zone.standing].map(|id| solved.value(id))
    };
    zones.iter().map(numbers).collect()
}

proptest! {
    /// On any beam: spacing times flow is the force of all rows; the numbers of all zones times the force are the area under the
    /// size of q; each zone has at its spacing no fewer than its balance asks for; what is rounded down is a multiple of the step.
    #[test]
    fn numbers_and_spacings_agree(
        (force, at) in (0.5e3..9e3f64, 0.1..3.9f64),
        (from, to, intensity) in (0.0..2.0f64, 2.1..4.0f64, -4e3..4e3f64),
        (couple, place) in (-2e3..2e3f64, 0.1..3.9f64),
        (capacity, rows) in (200.0..2e3f64, 1u32..4),
    ) {
        let parts = vec![("flange", rectangle(0.0, 0.15, 0.15, 0.05)), ("web", rectangle(0.05, 0.0, 0.05, 0.15))];
        let mut maker = Maker::new(4.0, parts)
            .pin("A", 0.0)
            .pin("B", 3.2)
            .force("P", at, force)
            .load("w", Load::Spread { from, to, down_from: intensity, down_to: 0.5 * intensity })
            .couple("C", place, couple);
        maker.problem.joints = vec![nailed(Some(5e-3), capacity, rows)];
        let solved = maker.solved();
        let (_, zones) = solved.zones().next().expect("there is shear");
        let mut sum = 0.0;
        for zone in zones {
            let [flow, spacing, number, standing, whole] =
                [zone.flow, zone.largest_spacing, zone.number, zone.standing, zone.whole_number]
                    .map(|id| solved.value(id));
            assert_close("q s = rows F", flow * spacing, f64::from(rows) * capacity);
            prop_assert!(standing >= number * (1.0 - 1e-9));
            prop_assert!(whole >= number * (1.0 - 1e-8) && whole < number + 1.0);
            if let Some(used) = zone.spacing_to_use.map(|id| solved.value(id)) {
                assert_within("a multiple", (used / 5e-3).round() * 5e-3, used, 1e-12);
                prop_assert!(used <= spacing * (1.0 + 1e-8) && used > spacing - 5e-3 - 1e-12);
            }
            sum += number;
        }
        // The area under |V| by many thin strips between the places where the load changes.
        let strips = 4_000;
        let area: f64 = solved.beam().segments().iter().map(|segment| {
            let width = segment.length() / f64::from(strips);
            let middles = (0..strips).map(|strip| (f64::from(strip) + 0.5) * width);
            middles.map(|s| segment.value(mechanics::beam::Curve::Shear, s).abs() * width).sum::<f64>()
        }).sum();
        let per_shear = value(&solved, "first moment at nails") / value(&solved, "second moment");
        assert_within("n F = area under q", sum * capacity, area * per_shear, 1e-6 * area * per_shear);
    }
}
