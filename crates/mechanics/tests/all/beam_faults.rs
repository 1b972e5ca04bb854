//! What is refused, and with which facts. The cases of `reference/errors.json` that concern a beam's mechanics,
//! and more.

use crate::given::beam_of;
use mechanics::beam::{Beam, Fault, Freedom, Given, HingeAt, Hold, Load, Motion, PieceMotion, Side, Support};
use serde_json::Value;

fn refused(id: &str) -> Vec<Fault> {
    let file: Value = serde_json::from_str(include_str!("../reference/errors.json")).expect("valid JSON");
    let cases = file["cases"].as_array().expect("a list");
    let case = cases.iter().find(|case| case["id"] == id).unwrap_or_else(|| panic!("no case {id}"));
    let beam = beam_of(&case["input"]["beam"]);
    let faults = beam.faults();
    assert_eq!(beam.solve().expect_err(id), faults);
    faults
}

fn motion(faults: &[Fault]) -> &Motion {
    match faults {
        [Fault::Mechanism(motion)] => motion,
        other => panic!("{other:?}"),
    }
}

fn beam(supports: Vec<Support>, hinges: Vec<f64>) -> Beam {
    let loads = vec![Load::Force { station: 1.0, down: 1.0e3 }];
    Beam { length: 6.0, flexural_rigidity: 1.0e6, supports, hinges, loads }
}

fn hinges(list: &[HingeAt]) -> Vec<(usize, f64)> {
    list.iter().map(|at| (at.hinge, at.station)).collect()
}

#[test]
fn guided_ends_let_the_beam_slide() {
    assert_eq!(*motion(&refused("guided-ends-only")), Motion::Slides);
}

#[test]
fn one_pin_lets_the_beam_turn() {
    assert_eq!(*motion(&refused("one-pin-only")), Motion::TurnsAbout { support: 0, station: 2.0 });
}

#[test]
fn a_hinge_in_a_simple_span_folds() {
    let faults = refused("hinge-inside-a-simple-span");
    let Motion::Folds { folding, moving, pieces } = motion(&faults) else { panic!("{faults:?}") };
    assert_eq!(hinges(folding), [(0, 3.0)]);
    assert_eq!(hinges(moving), [(0, 3.0)]);
    let centres: Vec<_> = pieces.iter().map(|piece| piece.motion).collect();
    assert_eq!(centres, [0.0, 6.0].map(|station| PieceMotion::TurnsAbout { station }));
}

#[test]
fn three_hinges_in_a_span_fold() {
    let faults = refused("three-hinges-in-a-span");
    let Motion::Folds { folding, moving, pieces } = motion(&faults) else { panic!("{faults:?}") };
    assert_eq!(hinges(folding), [(0, 7.0), (1, 9.0), (2, 11.0)]);
    assert_eq!(hinges(moving), [(1, 9.0)]);
    let stretches: Vec<_> = pieces.iter().map(|piece| (piece.from, piece.to)).collect();
    assert_eq!(stretches, [(7.0, 9.0), (9.0, 11.0)]);
}

#[test]
fn things_off_the_beam_and_at_one_place() {
    assert_eq!(refused("hinge-off-the-beam"), [Fault::HingeOffBeam { hinge: 0, station: 6.5, length: 6.0 }]);
    assert_eq!(
        refused("support-before-the-beam"),
        [Fault::SupportOffBeam { support: 0, station: -0.5, length: 6.0 }]
    );
    assert_eq!(
        refused("two-supports-at-one-place"),
        [Fault::SupportsTogether { first: 0, second: 1, station: 2.0 }]
    );
    assert_eq!(refused("spread-load-of-no-length"), [Fault::SpreadOfNoLength { load: 0, station: 3.0 }]);
}

#[test]
fn numbers_that_must_be_positive() {
    let faults = refused("beam-of-no-length");
    assert_eq!(faults, [Fault::LengthNotPositive { length: 0.0 }]);
    assert_eq!(refused("modulus-of-zero"), [Fault::RigidityNotPositive { flexural_rigidity: 0.0 }]);
    let mut soft = beam(vec![Support::pin(0.0), Support::spring(6.0, 0.0)], vec![]);
    soft.supports[0].rotation = Hold::Spring { stiffness: -2.0 };
    assert_eq!(
        soft.faults(),
        [
            Fault::StiffnessNotPositive { support: 0, against: Freedom::Rotation, stiffness: -2.0 },
            Fault::StiffnessNotPositive { support: 1, against: Freedom::Transverse, stiffness: 0.0 },
        ]
    );
}

#[test]
fn several_faults_are_told_at_once() {
    assert_eq!(
        refused("three-mistakes-at-once"),
        [
            Fault::LoadOffBeam { load: 0, end: None, station: 7.0, length: 6.0 },
            Fault::Mechanism(Motion::TurnsAbout { support: 0, station: 0.0 }),
        ]
    );
    let mut all = beam(vec![Support::pin(-1.0), Support::pin(f64::NAN)], vec![0.0, 3.0, 3.0]);
    all.loads = vec![
        Load::Couple { station: 3.0, ccw: 1.0 },
        Load::Spread { from: -1.0, to: 7.0, down_from: f64::INFINITY, down_to: 0.0 },
        Load::Spread { from: 5.0, to: 4.0, down_from: 1.0, down_to: 1.0 },
    ];
    let faults = all.faults();
    assert!(
        matches!(faults[1], Fault::NotFinite { given: Given::SupportStation(1), value } if value.is_nan()),
        "{faults:?}"
    );
    let rest: Vec<_> = faults.iter().enumerate().filter(|(at, _)| *at != 1).map(|(_, f)| f.clone()).collect();
    let off = |end, station| Fault::LoadOffBeam { load: 1, end: Some(end), station, length: 6.0 };
    assert_eq!(
        rest,
        [
            Fault::SupportOffBeam { support: 0, station: -1.0, length: 6.0 },
            Fault::HingeAtEnd { hinge: 0, station: 0.0 },
            Fault::HingesTogether { first: 1, second: 2, station: 3.0 },
            Fault::CoupleAtHinge { load: 0, hinge: 1, station: 3.0 },
            off(Side::Left, -1.0),
            off(Side::Right, 7.0),
            Fault::NotFinite { given: Given::LoadSize(1, Some(Side::Left)), value: f64::INFINITY },
            Fault::SpreadBackwards { load: 2, from: 5.0, to: 4.0 },
        ]
    );
}

#[test]
fn at_a_hinge_nothing_may_ask_which_piece_is_meant() {
    let held = beam(vec![Support::fixed(0.0), Support::fixed(3.0), Support::pin(6.0)], vec![3.0]);
    let expected = Fault::RotationHeldAtHinge { support: 1, hinge: 0, station: 3.0 };
    assert_eq!(held.faults(), [expected]);
    let mut turned = beam(vec![Support::fixed(0.0), Support::pin(6.0)], vec![3.0]);
    turned.loads = vec![Load::Couple { station: 3.0 + 1e-13, ccw: 5.0 }];
    assert_eq!(turned.faults(), [Fault::CoupleAtHinge { load: 0, hinge: 0, station: 3.0 + 1e-13 }]);
    // Beside it, or of no size, it may stand.
    for load in [Load::Couple { station: 3.001, ccw: 5.0 }, Load::Couple { station: 3.0, ccw: 0.0 }] {
        turned.loads = vec![load];
        assert_eq!(turned.faults(), []);
    }
}

#[test]
fn a_beam_that_nothing_holds_is_loose() {
    assert_eq!(*motion(&beam(vec![], vec![]).faults()), Motion::Loose);
    assert_eq!(*motion(&beam(vec![], vec![2.0, 4.0]).faults()), Motion::Loose);
}

#[test]
fn an_end_piece_that_only_a_hinge_holds_swings_about_it() {
    let faults = beam(vec![Support::fixed(0.0)], vec![4.0]).faults();
    let Motion::Folds { folding, moving, pieces } = motion(&faults) else { panic!("{faults:?}") };
    assert_eq!(hinges(folding), [(0, 4.0)]);
    assert_eq!(hinges(moving), []);
    assert_eq!(pieces.len(), 1);
    assert_eq!(pieces[0].motion, PieceMotion::TurnsAbout { station: 4.0 });
}

#[test]
fn a_chain_of_pieces_seesaws_over_its_supports() {
    // Each piece turns about its own support, the hinge between them goes up and down.
    let faults = beam(vec![Support::pin(1.0), Support::pin(5.0)], vec![3.0]).faults();
    let Motion::Folds { folding, moving, pieces } = motion(&faults) else { panic!("{faults:?}") };
    assert_eq!((hinges(folding), hinges(moving)), (vec![(0, 3.0)], vec![(0, 3.0)]));
    let centres: Vec<_> = pieces.iter().map(|piece| piece.motion).collect();
    assert_eq!(centres, [1.0, 5.0].map(|station| PieceMotion::TurnsAbout { station }));
    // Ends up by 1/2 of what the hinge goes down.
    assert_eq!((pieces[0].up_from, pieces[0].up_to, pieces[1].up_to), (0.5, -1.0, 0.5));
}

#[test]
fn two_guided_pieces_slide_with_a_hinge_between() {
    let faults = beam(vec![Support::guided(0.0), Support::guided(6.0)], vec![3.0]).faults();
    assert_eq!(*motion(&faults), Motion::Slides);
}

#[test]
fn springs_hold_however_soft_they_are() {
    let soft = beam(vec![Support::spring(0.0, 1e-3), Support::spring(6.0, 1e9)], vec![]);
    assert_eq!(soft.faults(), []);
    let solution = soft.solve().expect("a sound beam");
    let [left, right] = [0, 1].map(|index| solution.reactions()[index].force);
    assert!((left - 5.0e3 / 6.0).abs() < 1e-9 && (right - 1.0e3 / 6.0).abs() < 1e-9);
}

#[test]
fn numbers_beyond_all_bounds_are_refused() {
    let mut huge = beam(vec![Support::pin(0.0), Support::pin(6.0)], vec![]);
    huge.loads = vec![Load::Force { station: 3.0, down: 1e308 }, Load::Force { station: 3.0, down: 1e308 }];
    assert_eq!(huge.solve().expect_err("too large"), [Fault::OutOfRange]);
    let mut weak = beam(vec![Support::pin(0.0), Support::pin(6.0)], vec![]);
    weak.flexural_rigidity = 1e-308;
    assert_eq!(weak.solve().expect_err("too large"), [Fault::OutOfRange]);
}
