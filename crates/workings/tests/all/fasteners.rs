//! Fasteners along the beam: spacing and number from key station to key station, against examples and by properties.

use crate::common::{Maker, assert_close, assert_within, rectangle, value};
use mechanics::beam::Load;
use proptest::prelude::*;
use workings::notation::DepthAxis;
use workings::problem::{Joint, JointKind};
use workings::solved::Solved;
use workings::style::Style;

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

fn boards_alone(length: f64) -> Maker {
    Maker::new(
        length,
        vec![("flange", rectangle(0.0, 0.15, 0.15, 0.05)), ("web", rectangle(0.05, 0.0, 0.05, 0.15))],
    )
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

/// A joist between two plates as deep as itself, bolted: what the bolts hold has its centroid on the neutral axis, so Q, the flow
/// and the force on a bolt are zero, and no spacing is asked for.
#[test]
fn a_joint_without_flow_asks_for_no_spacing() {
    let parts = || {
        vec![
            ("joist", rectangle(0.0, 0.0, 0.1, 0.2)),
            ("left plate", rectangle(-0.006, 0.0, 0.006, 0.2)),
            ("right plate", rectangle(0.1, 0.0, 0.006, 0.2)),
        ]
    };
    let bolts = Joint { beyond: vec![1, 2], spacing: Some(0.15), ..nailed(Some(5e-3), 3e3, 2) };
    let welds = Joint {
        kind: JointKind::Weld,
        fastener_capacity: None,
        strength: Some(300e3),
        run: Some(0.05),
        ..bolts.clone()
    };
    for joint in [bolts, welds] {
        let mut maker = Maker::new(4.0, parts()).pin("A", 0.0).pin("B", 4.0).spread("w", 0.0, 4.0, 5e3);
        maker.problem.joints = vec![joint.clone()];
        let solved = maker.solved();
        assert_eq!(value(&solved, "first moment at nails"), 0.0);
        assert_eq!(value(&solved, "shear flow at nails, where V is largest"), 0.0);
        let one = if joint.kind == JointKind::Weld { "run" } else { "fastener" };
        assert_eq!(value(&solved, &format!("force on one {one} of nails, where V is largest")), 0.0);
        assert!(solved.passes_no_shear_flow(&joint));
        assert!(solved.zones().next().is_none());
        for name in ["largest spacing at nails", "spacing to use at nails"] {
            assert!(solved.workings().id(name).is_none(), "{name}");
        }
    }
}

/// A load that grows from nothing at the free end: V = -w x²/(2 L) and M = -w x³/(6 L). With w = 8.5 kN/m and L = 2 m V is 8.5 kN at the
/// fixed end, so q = 60 N/mm there; in four steps q is that by 1/16, 1/4, 9/16 and 1, and Q M / I is 40 kN by 1/64, 8/64, 27/64 and 1.
#[test]
fn spacings_grow_in_steps_under_a_load_that_grows() {
    let mut maker = boards_alone(2.0).fixed("A", 2.0).linear("w", (0.0, 2.0), (0.0, 8.5e3));
    maker.problem.joints = vec![nailed(None, 750.0, 1)];
    let solved = maker.solved();
    let all = zones(&solved);
    assert_eq!(all.len(), 4);
    let (flows, pulls) = ([1.0 / 16.0, 0.25, 9.0 / 16.0, 1.0], [0.0, 1.0, 8.0, 27.0, 64.0]);
    for (place, zone) in all.iter().enumerate() {
        let pulled = 40e3 * (pulls[place + 1] - pulls[place]) / 64.0;
        assert_close("q", zone[0], 60e3 * flows[place]);
        assert_close("s", zone[1], 750.0 / zone[0]);
        assert_close("n", zone[2], pulled / 750.0);
        assert_close("put in", zone[3], (0.5 / zone[1]).ceil());
    }
    assert_close("V", value(&solved, "shear force at the end of zone 2 of nails"), -8.5e3 / 4.0);
    assert_close(
        "M",
        value(&solved, "bending moment at the end of zone 3 of nails"),
        -8.5e3 * 4.0 / 6.0 * 27.0 / 64.0,
    );
    assert_close("s", value(&solved, "largest spacing at nails in zone 4"), 0.0125);
}

/// The same load that falls to nothing at the free end and is turned round: as many fasteners, from right to left.
#[test]
fn steps_are_the_same_from_the_other_side() {
    let with = |maker: Maker| {
        let mut maker = maker;
        maker.problem.joints = vec![nailed(Some(5e-3), 750.0, 1)];
        zones(&maker.solved())
    };
    let left = with(boards_alone(2.0).fixed("A", 2.0).linear("w", (0.0, 2.0), (0.0, 8.5e3)));
    let right = with(boards_alone(2.0).fixed("A", 0.0).linear("w", (0.0, 2.0), (8.5e3, 0.0)));
    assert_eq!(left.len(), 4);
    for (one, other) in left.iter().zip(right.iter().rev()) {
        one.iter().zip(other).for_each(|(one, other)| assert_close("turned round", *one, *other));
    }
}

/// q = 12 N/mm by 1.7 kN; nails of 30 kN may stand 2.5 m apart, but a zone is 1 m long: one stands in each row, and it is not cut up
/// under an even load either.
#[test]
fn a_spacing_is_no_longer_than_its_zone() {
    let mut maker = boards().force("P1", 1.0, 1.7e3).force("P2", 2.0, 1.7e3);
    maker.problem.joints = vec![nailed(Some(5e-3), 30e3, 2)];
    let solved = maker.solved();
    assert_close("s", value(&solved, "largest spacing at nails between A and force P1"), 5.0);
    assert_close("s to use", value(&solved, "spacing to use at nails between A and force P1"), 1.0);
    assert_close("put in", value(&solved, "fasteners to put in at nails between A and force P1"), 2.0);
    assert_eq!(solved.stretches_without_shear("nails").len(), 1);
    let mut maker = boards().spread("w", 0.0, 3.0, 1e3);
    maker.problem.joints = vec![nailed(Some(5e-3), 30e3, 1)];
    let solved = maker.solved();
    assert_eq!(zones(&solved).len(), 2);
    assert!(solved.zones().all(|(_, zones)| zones.iter().all(|zone| zone.is_one_a_row)));
}

/// A stem of 60 x 200 mm with boards of 40 x 60 mm at its upper left and lower right. By hand, mm: I_x = 64.96e6, I_y = 16.24e6,
/// I_xy = -16.8e6, Q_x = 2400 · 70 and Q_y = -2400 · 50 of the upper board, so q = V (I_y Q_x - I_xy Q_y)/(I_x I_y - I_xy²): of 3 kN 2.7655 N/mm,
/// where V Q / I has 7.76.
#[test]
fn a_joint_of_a_section_that_bends_askew() {
    for axis_down in [false, true] {
        let parts = vec![
            ("stem", rectangle(0.0, 0.0, 0.06, 0.2)),
            ("ledger", rectangle(-0.04, 0.14, 0.04, 0.06)),
            ("cleat", rectangle(0.06, 0.0, 0.04, 0.06)),
        ];
        let mut maker = Maker::new(3.0, parts).pin("A", 0.0).pin("B", 3.0).spread("w", 0.0, 3.0, 2e3);
        let mut style = Style::default();
        let of = |name: &str, part| Joint { name: name.into(), beyond: vec![part], ..nailed(None, 500.0, 1) };
        maker.problem.joints = vec![of("upper", 1), of("lower", 2)];
        if axis_down {
            style.notation.habits.depth_axis = DepthAxis::Down;
        }
        let solved = Solved::new(maker.problem, style).expect("it can be solved");
        let (level, upright, product) = (64.96e6, 16.24e6, -16.8e6);
        let counts: f64 = upright * 168e3 - product * -120e3;
        // N/mm are kN/m.
        let wanted = 1e3 * 3e3 * counts / (level * upright - product * product);
        for name in ["upper", "lower"] {
            assert_close("q", value(&solved, &format!("shear flow at {name}, where V is largest")), wanted);
            assert_close(
                "s",
                value(&solved, &format!("largest spacing at {name}, where V is largest")),
                500.0 / wanted,
            );
        }
        // n F = q_max/V_max · M_max, M = w L²/8.
        let number: f64 =
            solved.zones().next().expect("zones").1.iter().map(|zone| solved.value(zone.number)).sum();
        assert_close("n", number * 500.0, 2.0 * wanted / 3e3 * 2250.0);
    }
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
    /// Whatever a joint holds: where it lies alike above and below the neutral axis nothing flows to it, and everything else is found.
    #[test]
    fn any_joint_that_holds_a_symmetric_part(
        (breadth, height, thickness) in (0.02..0.4f64, 0.05..0.9f64, 0.003..0.05f64),
        (flange, offset) in (0.005..0.02f64, -3.0..3.0f64),
        held in prop::sample::select(vec![vec![0], vec![1], vec![0, 1], vec![2, 3], vec![0, 2, 3]]),
        (force, at, capacity, rows) in (0.5e3..9e3f64, 0.1..3.9f64, 200.0..2e3f64, 1u32..4),
        is_weld in any::<bool>(),
    ) {
        let parts = vec![
            ("left web", rectangle(offset - thickness, 0.0, thickness, height)),
            ("right web", rectangle(offset + breadth, 0.0, thickness, height)),
            ("bottom flange", rectangle(offset, 0.0, breadth, flange)),
            ("top flange", rectangle(offset, height - flange, breadth, flange)),
        ];
        let mut maker = Maker::new(4.0, parts).pin("A", 0.0).pin("B", 4.0).force("P", at, force);
        let nails = Joint { beyond: held, spacing: Some(0.1), ..nailed(Some(5e-3), capacity, rows) };
        let joint = match is_weld {
            false => nails,
            true => Joint {
                kind: JointKind::Weld,
                fastener_capacity: None,
                strength: Some(10.0 * capacity),
                run: Some(0.04),
                ..nails
            },
        };
        maker.problem.joints = vec![joint.clone()];
        let solved = maker.solved();
        prop_assert_eq!(value(&solved, "shear flow at nails, where V is largest"), 0.0);
        prop_assert!(solved.passes_no_shear_flow(&joint));
        prop_assert!(solved.zones().next().is_none());
    }

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
                let length = solved.value(zone.to) - solved.value(zone.from);
                prop_assert!(used <= spacing * (1.0 + 1e-8) && used <= length * (1.0 + 1e-9));
                if used < length * (1.0 - 1e-9) {
                    assert_within("a multiple", (used / 5e-3).round() * 5e-3, used, 1e-12);
                    prop_assert!(used > spacing - 5e-3 - 1e-12);
                }
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
