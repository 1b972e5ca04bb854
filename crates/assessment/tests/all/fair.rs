//! One asked value of a paper, judged: the reference lesson by hand, and the coincidences that are known of it.

use crate::common::{papers, reference_text, reference_with, solved};
use assessment::fair::{Course, Feature, Judge, Judgement, NotAsked, Path, Reason, judge, verdict};
use lesson::papers::Papers;
use workings::rounding::Figures;

const TAU: &str = "shear stress on the cut";
const V: &str = "shear force at the slice";
const I: &str = "second moment";
const Q: &str = "first moment at the cut";

/// The usual course: 1 %, three figures.
const COURSE: Course = Course { tolerance: 0.01, figures: Figures::Significant(3) };

fn judged(papers: &Papers, asked: &str, course: Course) -> Judgement {
    judge(&solved(papers), asked, &course).expect("a working of the lesson")
}

fn assert_close(found: f64, expected: f64) {
    assert!((found - expected).abs() <= 1e-6 * expected.abs(), "{found} instead of {expected}");
}

/// The ids of hidden mistakes that other numbers would show.
fn hidden(judgement: &Judgement) -> Vec<&str> {
    judgement.hidden_by_numbers().map(|hidden| hidden.wrong.mistake.as_str()).collect()
}

/// Whether two mistakes cannot be told apart; and then, whether by structure.
fn alike(judgement: &Judgement, one: &str, other: &str) -> Option<bool> {
    let both = |alike: &&assessment::fair::Alike| {
        let pair = [alike.one.mistake.as_str(), alike.other.mistake.as_str()];
        pair == [one, other] || pair == [other, one]
    };
    judgement.alike.iter().find(both).map(|alike| alike.by_structure)
}

/// Source: the reference lesson of the unit's notes on mistakes; every number exact.
#[test]
fn the_right_values_are_those_of_the_reference_lesson() {
    let papers = reference_with(&[]);
    let paper = solved(&papers);
    let judge = Judge::new(&paper, Course::of(papers.lesson()));
    for (asked, right) in [
        ("reaction at A", 25e3),
        (V, 25e3),
        ("bending moment at the slice", 18.75e3),
        ("centroid height", 0.105),
        (I, 11.25e-6),
        (Q, 108e-6),
        ("width at the cut", 0.020),
        (TAU, 12e6),
        ("bending stress at the cut", -25e6),
        ("largest shear stress over the depth", 12.25e6),
    ] {
        let judgement = judge.judge(asked).expect("a working of the lesson");
        assert_close(judgement.right, right);
        // All are far from zero, and exact in four figures where the first is 1: the tolerance of the lesson is all.
        if asked != "bending stress at the cut" && asked != "largest shear stress over the depth" {
            assert_close(judgement.half_width, 0.01 * right.abs());
            assert!(judgement.carried.band < 1e-9 * right.abs(), "{asked}: {:?}", judgement.carried);
        }
        assert!(judgement.accepts(right * 1.0099) && !judgement.accepts(right * 1.02), "{asked}");
    }
}

/// By hand: the largest sigma of the lesson is that of 30.625 kN m at the bottom, 285.8 MPa, and a tenth of it is more than
/// the 25 MPa at the cut.
#[test]
fn near_zero_the_band_is_a_part_of_the_largest_of_its_kind() {
    let sigma = judged(&reference_with(&[]), "bending stress at the cut", COURSE);
    let largest = 30.625e6 * 105.0 / 11.25e6 * 1e6;
    assert_close(sigma.tolerance, 0.01 * 0.1 * largest);
    // At 2.25 m V is zero; the largest is 35 kN.
    let zero = judged(&reference_with(&[("x", "2.25 m")]), V, COURSE);
    assert_eq!(zero.right, 0.0);
    assert_close(zero.tolerance, 0.001 * 35e3);
}

/// By hand: to three figures I = 11.25e6 mm4 is written 11.2e6 or 11.3e6, so tau = 25e3 · 108e3 / (I · 20) MPa becomes
/// 12.05 or 11.95 MPa, and 12.1 or 11.9 where that is rounded again; all else is exact.
#[test]
fn the_carried_band_of_the_reference_lesson() {
    let reference = reference_with(&[]);
    let tau = judged(&reference, TAU, COURSE);
    assert_close(tau.carried.band, 0.1e6);
    let i = judged(&reference, I, COURSE);
    assert_close(i.carried.band, 0.05e-6);
    // Four figures where the first is 1, and all is exact.
    let tau = judged(&reference, TAU, Course { figures: Figures::ThreeOrFour, ..COURSE });
    assert!(tau.carried.band < 1.0);
    // The last figure asked of 12 MPa to two figures is 1 MPa, half of it 4 %.
    let tau = judged(&reference, TAU, Course { figures: Figures::Significant(2), ..COURSE });
    assert_close(tau.tolerance, 0.5e6);
    assert!(tau.half_width >= tau.tolerance && tau.carried_early.band > tau.carried.band);
}

/// By hand: R_A = (P (L - a) + w (L - s)(L - s)/2) / L with all of the load up to the right support. The changes of R_A per
/// relative change of P, w, a, L and s over 25 kN are 15, 10, 5, 35 and 20 kN; where the load ends (its end is a number of its
/// own) R_A does not answer to it.
#[test]
fn the_condition_number_of_a_reaction_and_of_a_product() {
    let reference = reference_with(&[]);
    assert!((judged(&reference, "reaction at A", COURSE).condition - 85.0 / 25.0).abs() < 1e-4);
    // tau = V Q / (I t) of a plank b by h, cut at the axis by its own number: 3/2 V/(b h).
    let width = judged(&reference, "width at the cut", COURSE);
    assert!((width.condition - 1.0).abs() < 1e-6);
    // b f (h + f/2 - y_n) and more: Q has the dimension of a length to the third, so that its change with all lengths
    // together is threefold; with each alone it is at least that.
    assert!(judged(&reference, Q, COURSE).condition > 3.0 - 1e-6);
}

/// Source: the coincidences of the reference lesson that the unit's notes on mistakes list.
#[test]
fn the_known_coincidences_of_the_reference_lesson() {
    let reference = reference_with(&[]);
    let at = |x: &str, asked| judged(&reference_with(&[("x", x)]), asked, COURSE);
    let tau = judged(&reference, TAU, COURSE);
    assert_eq!(alike(&tau, "q-to-the-cut", "q-about-own-edge"), Some(false));
    let v = judged(&reference, V, COURSE);
    // The load ends over the right support, where it adds nothing to R_A whatever its size.
    assert_eq!(alike(&v, "spread-load-at-its-end", "spread-load-left-out"), Some(true));
    assert_eq!(alike(&v, "spread-load-at-its-start", "arm-from-the-other-support"), Some(false));
    // At 3 m, past the force and within the load.
    assert_eq!(alike(&at("3 m", V), "v-is-the-load-here", "reaction-forgotten"), Some(false));
    let m = at("3 m", "bending moment at the slice");
    assert_eq!(alike(&m, "straight-line-m", "spread-load-full-arm"), Some(false));
    // With the load a little shorter those of the reactions part; y' and half the flange's depth do where it is thicker.
    let other = reference_with(&[("s", "2.2 m"), ("f", "40 mm")]);
    assert_eq!(
        alike(&judged(&other, V, COURSE), "spread-load-at-its-start", "arm-from-the-other-support"),
        None
    );
    assert_eq!(alike(&judged(&other, TAU, COURSE), "q-to-the-cut", "q-about-own-edge"), None);
}

/// Closed form: whatever the numbers, I + A (y_n - h/2)^2 follows from a neutral axis at half depth as well.
#[test]
fn what_is_equal_with_any_numbers_is_told_as_such() {
    for values in [&[][..], &[("b", "150 mm"), ("h", "170 mm")]] {
        let second_moment = judged(&reference_with(values), I, COURSE);
        assert_eq!(alike(&second_moment, "about-mid-depth", "axis-at-mid-depth"), Some(true));
        // Left of all loads V x is M.
        let m = judged(&reference_with(values), "bending moment at the slice", COURSE);
        let by_structure: Vec<&str> =
            m.hidden.iter().filter(|one| one.by_structure).map(|one| one.wrong.mistake.as_str()).collect();
        assert_eq!(by_structure, ["v-times-x"]);
        assert!(hidden(&m).is_empty());
    }
}

/// The reactions of a beam on three supports are found with I, and do not depend on it: no mistake in I is on the way to them. On the
/// way to I itself it is, and one on the way to a value that it leaves as it is stays hidden by structure.
#[test]
fn a_mistake_that_cancels_is_not_on_the_way() {
    let conveyor = papers(lesson::builtin::find("conveyor").expect("a lesson of ours").text);
    let of_the_section =
        ["no-parallel-axis", "only-parallel-axis", "wrong-axis", "outer-rectangle", "axis-at-mid-depth"];
    let counted = |judgement: &Judgement, mistake: &str| {
        judgement.hidden.iter().any(|hidden| hidden.wrong.mistake == mistake)
    };
    for asked in ["reaction at A", "largest hogging moment", V] {
        let judgement = judged(&conveyor, asked, COURSE);
        assert!(of_the_section.iter().all(|mistake| !counted(&judgement, mistake)), "{:?}", judgement.hidden);
        assert!(hidden(&judgement).is_empty() && judgement.mistakes > 0, "{:?}", judgement.hidden);
    }
    // The box is symmetric: at mid-depth is where its axis is.
    assert!(counted(&judged(&conveyor, I, COURSE), "axis-at-mid-depth"));
}

/// By hand: V of the reference lesson at 2.2492 m is 25 - 20 - 20 · 0.2492 = 0.016 kN, and the band of what is near zero is a
/// thousandth of the largest V, 0.035 kN; the opposite is 0.032 kN off. At 2.248 m V is 0.04 kN, and the opposite 0.08 kN off.
#[test]
fn a_value_so_near_zero_that_a_lost_sign_is_right_is_thrown_out() {
    let exact = Course { figures: Figures::Significant(6), ..COURSE };
    let reasons = |x: &str| {
        let papers = reference_with(&[("x", x)]);
        let judgement = judged(&papers, V, exact);
        let path = Path::of(&solved(&papers), &[V]);
        let found = verdict(&[judgement], &path, None).reasons;
        found.iter().any(|reason| matches!(reason, Reason::HiddenSlip { slip, .. } if slip == "sign"))
    };
    assert!(reasons("2.2492 m"), "0.016 kN");
    assert!(!reasons("2.248 m"), "0.04 kN");
    assert!(!reasons("2.25 m"), "zero has no sign");
}

/// By hand: `bracket-slip`, (V Q / I) t typed for V Q / (I t), is t² in mm² times tau, whatever tau is: 400 times with the web of
/// 20 mm, no power of ten, and 100 times with one of 10 mm, digits and all.
#[test]
fn a_slip_that_has_the_value_of_a_mistake_is_told_and_throws_nothing_out() {
    let meets = |judgement: &Judgement, mistake: &str| -> Vec<f64> {
        let all = judgement.slips.as_mistake.iter().filter(|meets| meets.wrong.mistake == mistake);
        all.map(|meets| meets.factor).collect()
    };
    assert!(meets(&judged(&reference_with(&[]), TAU, COURSE), "bracket-slip").is_empty());
    let thin = reference_with(&[("t", "10 mm")]);
    let tau = judged(&thin, TAU, COURSE);
    let factors = meets(&tau, "bracket-slip");
    assert!(factors.len() == 1 && (factors[0] - 100.0).abs() < 1e-9, "{factors:?}");
    // V with its sign lost at the slice has the size of tau and its opposite sign; another lost makes it right again, always.
    let back = tau.slips.back.iter().find(|meets| meets.wrong.mistake == "v-sign").expect("it is made at V");
    assert!(back.by_structure && back.factor == -1.0);
    let found = verdict(&[tau], &Path::of(&solved(&thin), &[TAU]), None);
    assert!(!found.reasons.iter().any(|reason| matches!(reason, Reason::HiddenSlip { .. })));
}

/// Every value that a question of our own lessons asks for can be judged, and every number of it is one.
#[test]
fn our_own_lessons_can_be_judged() {
    for lesson in lesson::builtin::ALL {
        let papers = papers(lesson.text);
        let paper = solved(&papers);
        let judge = Judge::new(&paper, Course::of(papers.lesson()));
        for asked in papers.lesson().questions.iter().flat_map(lesson::Question::workings) {
            let judgement = judge.judge(asked).expect("a working");
            let Judgement { half_width, tolerance, carried, carried_early, condition, .. } = judgement;
            for value in [half_width, tolerance, carried.band, carried_early.band, condition] {
                assert!(value.is_finite() && value >= 0.0, "{}, {asked}: {value}", lesson.name);
            }
            assert!(half_width > 0.0 && half_width >= carried.band, "{}, {asked}", lesson.name);
        }
    }
}

/// Source: the unit's notes on mistakes, "how to match": equal part areas hide `centroid-unweighted`, a flange as thick as
/// the web hides `depth-for-width`, symmetric loads hide `equal-shares`.
#[test]
fn numbers_that_hide_a_mistake() {
    let equal_areas = reference_with(&[("b", "120 mm"), ("f", "20 mm"), ("t", "20 mm"), ("h", "120 mm")]);
    assert!(hidden(&judged(&equal_areas, "centroid height", COURSE)).contains(&"centroid-unweighted"));
    assert!(hidden(&judged(&equal_areas, TAU, COURSE)).contains(&"depth-for-width"));
    // Nearly equal areas: 120 · 30 and 29 · 122 mm², so that y_n differs by less than 1 %.
    let nearly = reference_with(&[("t", "29 mm"), ("h", "122 mm")]);
    let centroid = judged(&nearly, "centroid height", COURSE);
    assert!(hidden(&centroid).contains(&"centroid-unweighted"));
    assert!(hidden(&judged(&reference_with(&[]), "centroid height", COURSE)).is_empty());
    // P of 20 kN at 1.5 m and 10 kN at 3 m of 4 m: both supports carry 15 kN.
    let balanced = reference_with(&[("a", "1.5 m"), ("w", "5 kN/m")]);
    assert!(hidden(&judged(&balanced, "reaction at A", COURSE)).contains(&"equal-shares"));
}

/// Near the zero of V: R_A = 25.24 kN is written 25.2 kN, which V = 25.24 - 20.32 - 5.2 = -0.28 kN takes over, by hand; the flange
/// as thick as the web.
#[test]
fn a_verdict_names_each_condition_and_its_working() {
    let papers = reference_with(&[("P", "20.32 kN"), ("x", "2.26 m"), ("b", "121 mm"), ("t", "30 mm")]);
    let paper = solved(&papers);
    let course = Course::of(papers.lesson());
    let asked = [V, Q, TAU];
    let judgements: Vec<Judgement> =
        asked.iter().map(|name| judge(&paper, name, &course).expect("a working")).collect();
    let path = Path::of(&paper, &asked);
    let found = verdict(&judgements, &path, None);
    assert!(!found.may_be_given());
    let about = |is: fn(&Reason) -> bool| -> Vec<&str> {
        found.reasons.iter().filter(|reason| is(reason)).filter_map(Reason::working).collect()
    };
    assert_eq!(about(|reason| matches!(reason, Reason::CarriedTooFar { .. })), [V, TAU]);
    let hides = about(
        |reason| matches!(reason, Reason::HiddenMistake { mistake, .. } if mistake == "depth-for-width"),
    );
    assert_eq!(hides, [TAU]);
    for reason in &found.reasons {
        assert!(!reason.to_string().contains("NaN"), "{reason}");
    }
    // The reference lesson may be given.
    let reference = solved(&reference_with(&[]));
    let judgements: Vec<Judgement> =
        asked.iter().map(|name| judge(&reference, name, &course).expect("a working")).collect();
    let found = verdict(&judgements, &Path::of(&reference, &asked), None);
    assert!(found.may_be_given(), "{:?}", found.reasons);
}

/// Source: the unit's notes on assessment, section 4.
#[test]
fn a_path_is_equal_where_the_work_is() {
    let asked = [V, I, TAU];
    let of = |values: &[(&str, &str)]| Path::of(&solved(&reference_with(values)), &asked);
    let reference = of(&[]);
    // Other numbers, the same way.
    let same = of(&[("P", "24 kN"), ("b", "140 mm"), ("x", "0.6 m")]);
    assert_eq!((reference.differs(&same), reference.digest()), (Vec::new(), same.digest()));
    // Past the force; a flange so thick that the axis lies in it; a load so light that V is zero under the force; data with a
    // figure more.
    for (values, feature) in [
        (&[("x", "1.5 m")][..], Feature::LeftOfSlice),
        (&[("b", "300 mm"), ("f", "90 mm")], Feature::AxisPart),
        (&[("b", "300 mm"), ("f", "90 mm")], Feature::SideOfAxis),
        (&[("w", "4 kN/m")], Feature::Extremes),
        (&[("x", "3 m")], Feature::Signs),
        (&[("b", "121 mm")], Feature::DataFigures),
        (&[("x", "1.5 m")], Feature::Workings),
    ] {
        let other = of(values);
        assert_ne!(reference.digest(), other.digest());
        let differs = reference.differs(&other);
        assert!(differs.contains(&feature), "{values:?}: {differs:?}");
    }
    // A cut within the flange keeps a part of the flange only.
    let text = reference_text(&[]).replace("at = \"h\"\nside = \"below\"", "at = \"h + 10 mm\"");
    let higher = Path::of(&solved(&papers(&text)), &asked);
    assert!(reference.differs(&higher).contains(&Feature::PartsBeyond));
}

#[test]
fn what_is_no_working_is_refused_by_name() {
    let reference = solved(&reference_with(&[]));
    let fault = judge(&reference, "reaction at Z", &COURSE).expect_err("no such support");
    assert_eq!(fault, NotAsked::Unknown("reaction at Z".into()));
    assert!(fault.to_string().contains("\"reaction at Z\""));
}

/// A section that is symmetric on every paper, of parts whose heights add up with other last bits on each: that the nearer edge is
/// taken for the farther can never show, so it stands against no paper. By symmetry c_top = c_bottom.
#[test]
fn rounding_decides_neither_where_a_mistake_is_made_nor_against_which_paper_it_stands() {
    let text = r#"
title = "A symmetric I"
[values]
h = "160 mm"
s = "6 mm"
[vary]
h = ["120 mm", "140 mm", "160 mm", "180 mm"]
s = ["5 mm", "6 mm", "7 mm", "9 mm"]
[beam]
length = "1.2 m"
supports = [{ fixed = "0 m" }]
loads = [{ force = "3 kN", at = "1.2 m" }]
[material]
E = "200 GPa"
[section]
parts = [
  { name = "lower", width = "70 mm", height = "s" },
  { name = "web", width = "s", height = "h", on = "lower" },
  { name = "upper", width = "70 mm", height = "s", on = "web" },
]
[slice]
at = "0.4 m"
length = "20 mm"
[cut]
at = "neutral axis"
[[question]]
ask = "largest tension along the beam"
[[question]]
ask = "largest compression along the beam"
"#;
    let issue = assessment::issue::Issue::new(papers(text));
    let all = issue.sampled();
    assert_eq!(all.len(), 16);
    for looked in all {
        let paper = looked.paper.as_ref().expect("judged");
        for judgement in &paper.judgements {
            let nearer = judgement.hidden.iter().filter(|hidden| hidden.wrong.mistake == "nearer-fibre");
            assert_eq!(nearer.count(), 1, "{}", judgement.working);
        }
        let nearer = looked.against.iter().find(|against| against.to_string().contains("nearer-fibre"));
        assert_eq!(nearer, None);
    }
}
