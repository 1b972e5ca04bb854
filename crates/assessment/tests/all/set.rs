//! What a paper asks and what is right. Values of the reference lesson and of its mistakes: the unit's notes on mistakes, where
//! every number is exact.

use crate::common::{REFERENCE, reference_text};
use assessment::fair::Course;
use assessment::set::{
    Along, AnswerUnit, Ask, Band, ChoicePart, PlacePart, SetFault, SetPaper, ValuePart, Why,
};
use proptest::prelude::*;
use workings::dimension::Dimension;
use workings::quantity::Quantity;
use workings::role::Role;
use workings::style::Style;

/// The lesson with its questions put for others.
fn set_of(lesson: &str, questions: &str) -> Result<SetPaper, Vec<SetFault>> {
    let start = lesson.find("[[question]]").expect("a lesson that asks");
    let text = format!("{}{questions}", &lesson[..start]);
    let reading = lesson::read(&text, "test.toml");
    let shown: Vec<String> = reading.findings.iter().map(|finding| finding.render(false)).collect();
    let (lesson, solved) =
        reading.lesson.zip(reading.solved).unwrap_or_else(|| panic!("{}", shown.join("\n")));
    SetPaper::new(lesson, solved)
}

/// A nailed box: V = 3 kN by hand, half of 6 kN at midspan; two rows of nails of 400 N each, which may stand 2·400/q apart. A spacing that
/// is rounded down to the step is right too, and what it follows from may be the student's own.
#[test]
fn a_spacing_may_be_rounded_down_to_the_step() {
    use assessment::mark::{Answer, Marker, Written};
    let lesson = "title = \"Nails\"\nunits = \"metric\"\n[beam]\nlength = \"4 m\"\n\
                  supports = [{ pin = \"0 m\", name = \"A\" }, { roller = \"4 m\", name = \"B\" }]\n\
                  loads = [{ force = \"6 kN\", at = \"2 m\" }]\n[material]\nE = \"12 GPa\"\n[section]\nname = \"T\"\n\
                  parts = [{ name = \"web\", width = \"50 mm\", height = \"200 mm\" },\n\
                  { name = \"top\", width = \"200 mm\", height = \"50 mm\", on = \"web\" }]\n\
                  joints = [{ name = \"nails\", kind = \"nails\", beyond = [\"top\"], rows = 2, capacity = \"400 N\", step = \"5 mm\" }]\n\
                  [slice]\nat = \"1 m\"\nlength = \"50 mm\"\n[cut]\nat = \"nails\"\n[[question]]\n";
    let paper = set_of(
        lesson,
        "[[question]]\nask = \"largest spacing at nails\"\nsteps = [\"shear flow at nails\"]\n",
    )
    .unwrap_or_else(|faults| panic!("{faults:?}"));
    // By hand: two equal areas of 10 000 mm², their middles 125 mm apart: Q = 10 000·62.5 = 625 000 mm³, I = 50·200³/12 + 200·50³/12
    // + 2·10 000·62.5² = 113.54·10⁶ mm⁴, q = 3000·625 000/113.54·10⁶ = 16.514 N/mm, and 2·400/16.514 = 48.4 mm: rounded down 45 mm.
    let spacing = value(&paper, 1);
    assert!((spacing.right - 48.444e-3).abs() < 1e-5, "{}", spacing.right);
    for (answer, right) in [(48.4e-3, true), (45e-3, true), (50e-3, false), (46e-3, false), (40e-3, false)] {
        assert_eq!(spacing.accepts(answer), right, "{answer}");
    }
    // From an own flow of 20 N/mm 40 mm follow; from one of 22 N/mm 36.4 mm, rounded down 35 mm.
    let follows = |flow: f64, spacing: f64| {
        let written = |number| Answer::Bare(Written::new(number, None).expect("finite"));
        let answers = [("1a", written(flow)), ("1b", written(spacing))];
        let marked = Marker::new(&paper).expect("formulas of ours").mark(&answers).expect("its own labels");
        marked.parts[1].verdict.word()
    };
    assert_eq!(follows(20.0, 40.0), "follow-through");
    assert_eq!(follows(22.0, 35.0), "follow-through");
    assert_ne!(follows(22.0, 40.0), "follow-through");
}

fn asked(questions: &str) -> SetPaper {
    set_of(REFERENCE, questions).unwrap_or_else(|faults| panic!("{faults:?}"))
}

fn value(paper: &SetPaper, index: usize) -> &ValuePart {
    match &paper.parts().nth(index).expect("so many parts").ask {
        Ask::Value(value) => value,
        other => panic!("no value: {other:?}"),
    }
}

fn place(paper: &SetPaper) -> &PlacePart {
    let found = paper.parts().find_map(|part| match &part.ask {
        Ask::Place(place) => Some(place),
        _ => None,
    });
    found.expect("a place is asked for")
}

fn choice(paper: &SetPaper) -> &ChoicePart {
    let found = paper.parts().find_map(|part| match &part.ask {
        Ask::Choice(choice) => Some(choice),
        _ => None,
    });
    found.expect("a choice is asked for")
}

fn close(found: f64, expected: f64) -> bool {
    (found - expected).abs() <= 1e-9 * expected.abs()
}

const TAU: &str = "[[question]]\nask = \"shear stress on the cut\"\n";

/// Source: the table of the unit's notes on mistakes.
#[test]
fn the_shear_stress_of_the_reference_lesson_with_its_mistakes() {
    let paper = asked(TAU);
    let tau = value(&paper, 0);
    assert!(close(tau.right, 12e6) && close(tau.band.lower, 11.88e6) && close(tau.band.upper, 12.12e6));
    assert_eq!((tau.unit.text().as_str(), tau.typed_unit.text().as_str()), ("MPa", "MPa"));
    assert!(tau.accepts(11.9e6) && !tau.accepts(12.2e6) && !tau.accepts(-12e6));
    for (mistake, wrong) in [
        ("mean-over-the-section", 25e3 / 6000e-6),
        ("rectangle-factor", 6.25e6),
        ("mean-over-the-web", 25e3 / (0.020 * 0.150)),
        ("v-over-the-part", 25e3 / 3600e-6),
        ("q-to-the-cut", 6e6),
        ("q-to-the-edge", 18e6),
        ("q-about-own-edge", 6e6),
        ("q-about-the-base", 54e6),
        ("q-of-the-whole-area", 20e6),
        ("q-at-the-neutral-axis", 12.25e6),
        ("distance-squared-in-q", 360e6),
        ("width-of-the-other-side", 2e6),
        ("depth-for-width", 8e6),
        ("t-forgotten", 240e6),
        ("bracket-slip", 4800e6),
        ("m-for-v", 9000e6),
    ] {
        let found = tau.mistakes.iter().find(|known| known.mistake == mistake && close(known.value, wrong));
        let found = found.unwrap_or_else(|| panic!("{mistake} does not lead to {wrong}"));
        assert!(found.band.contains(wrong) && !found.feedback.is_empty() && !found.does.contains('{'));
    }
    let first = tau.mistakes.first().expect("there are some");
    assert_eq!(first.made_at, "shear stress on the cut", "those made at the value itself come first");
}

/// By hand: 11.25e6 mm4 is shown as 11.25 with four figures where the first is 1.
#[test]
fn units_of_answers() {
    let paper = asked(
        "[[question]]\nask = \"shear stress on the cut\"\nsteps = [\"second moment\", \"first moment at the cut\", \
         \"shear force at the slice\"]\nstep-marks = 0.5\nmarks = 2\n",
    );
    let units: Vec<String> = (0..4).map(|index| value(&paper, index).unit.text()).collect();
    assert_eq!(units, ["×10⁶\u{a0}mm⁴", "×10³\u{a0}mm³", "kN", "MPa"]);
    let labels: Vec<&str> = paper.parts().map(|part| part.label.as_str()).collect();
    assert_eq!(labels, ["1a", "1b", "1c", "1d"]);
    assert_eq!(paper.questions[0].marks, 3.5);
    assert_eq!(paper.marks(), paper.parts().map(|part| part.marks).sum::<f64>());

    let style = Style::default();
    for (value, dimension, role, course, typed, number) in [
        (0.48e6, Dimension::STRESS, Role::ShearStress, "MPa", "kPa", 480.0),
        (-0.48e6, Dimension::STRESS, Role::ShearStress, "MPa", "kPa", -480.0),
        (0.75, Dimension::LENGTH, Role::Station, "m", "mm", 750.0),
        (250e3, Dimension::FORCE_PER_LENGTH, Role::ShearFlow, "N/mm", "N/mm", 250.0),
        (12_345e-6, Dimension::AREA, Role::Area, "×10³\u{a0}mm²", "×10³\u{a0}mm²", 12.345),
        (0.0, Dimension::FORCE, Role::ShearForce, "kN", "kN", 0.0),
        (1.0 / 16.0, Dimension::NONE, Role::Ratio, "", "×10⁻³", 62.5),
    ] {
        let quantity = Quantity::new(value, dimension);
        assert_eq!(AnswerUnit::of_the_course(quantity, role, &style).text(), course);
        let unit = AnswerUnit::for_typing(quantity, role, &style);
        assert_eq!(unit.text(), typed);
        assert!((unit.from_si(value) - number).abs() <= 1e-12 * number.abs(), "{}", unit.from_si(value));
        assert!((unit.to_si(number) - value).abs() <= 1e-12 * value.abs());
    }
}

/// By hand: V passes through zero at 2.25 m.
#[test]
fn the_place_of_the_largest_moment() {
    let paper = asked("[[question]]\nask = \"largest sagging moment\"\nplace = true\nmarks = 3\n");
    let place = place(&paper);
    assert_eq!(place.along, Along::Beam);
    assert!(matches!(place.right.as_slice(), [one] if close(one.lower, 2.25) && one.lower == one.upper));
    assert!(place.accepts(2.27) && !place.accepts(2.3) && place.unit.text() == "m");
    assert_eq!(paper.parts().map(|part| part.marks).collect::<Vec<_>>(), [1.5, 1.5]);
    assert!(close(value(&paper, 0).right, 30.625e3));
}

/// By hand: half of the load to each support, so V is +w L/2 at one end and -w L/2 at the other.
#[test]
fn a_beam_loaded_symmetrically_has_its_largest_shear_force_twice() {
    let uniform = reference_text(&[("P", "0 kN"), ("s", "0 m")]);
    let paper = set_of(&uniform, "[[question]]\nask = \"largest shear force\"\nplace = true\n");
    let paper = paper.unwrap_or_else(|faults| panic!("{faults:?}"));
    let (v, place) = (value(&paper, 0), place(&paper));
    assert!(v.either_sign && v.accepts(40e3) && v.accepts(-40e3) && !v.accepts(0.0));
    assert!(v.mistakes.iter().all(|known| !v.accepts(known.value)));
    assert_eq!(place.right, [Band { lower: 0.0, upper: 0.0 }, Band { lower: 4.0, upper: 4.0 }]);
    assert!(place.accepts(4.0) && place.accepts(0.0) && !place.accepts(2.0));

    // The reference lesson itself has 25 kN at one end and 35 kN at the other.
    let paper = asked("[[question]]\nask = \"largest shear force\"\nplace = true\n");
    let v = value(&paper, 0);
    assert!(!v.either_sign && close(v.right.abs(), 35e3));
}

/// By hand: 20 kN at the middle, so V is 10 kN over the whole of the left half, and -10 kN over the right.
#[test]
fn a_value_may_hold_all_over_a_stretch() {
    let one_force = reference_text(&[("a", "2 m"), ("w", "0 kN/m")]);
    let paper = set_of(&one_force, "[[question]]\nask = \"largest shear force\"\nplace = true\n");
    let paper = paper.unwrap_or_else(|faults| panic!("{faults:?}"));
    let place = place(&paper);
    assert!([0.1, 1.9, 2.0, 3.0].into_iter().all(|station| place.accepts(station)), "{place:?}");
    assert!(!place.accepts(4.2) && !place.accepts(-0.2));
}

/// By hand: y_n = 105 mm from the lowest fibre, in the web, which is the narrowest there is.
#[test]
fn the_height_of_the_largest_shear_stress() {
    let paper = asked("[[question]]\nask = \"largest shear stress over the depth\"\nplace = true\n");
    let place = place(&paper);
    assert_eq!(place.along, Along::Depth);
    assert!(matches!(place.right.as_slice(), [one] if close(one.lower, 0.105)), "{:?}", place.right);
    assert_eq!(place.unit.text(), "mm");
}

#[test]
fn values_to_choose_from() {
    let paper = asked(&format!("{TAU}choose = 5\n"));
    let choice = choice(&paper);
    assert_eq!(choice.alternatives.len(), 5);
    assert_eq!(choice.alternatives.iter().filter(|one| one.is_right()).count(), 1);
    for pair in choice.alternatives.windows(2) {
        assert!(pair[1].value - pair[0].value >= 0.05 * pair[1].value.abs());
    }
    let right = choice.alternatives.iter().find(|one| one.is_right()).expect("one is right");
    assert!(close(right.value, 12e6));
    // 12.25 MPa, at the neutral axis, is too near to 12 MPa.
    assert!(choice.alternatives.iter().all(|one| !close(one.value, 12.25e6)));
}

#[test]
fn too_few_mistakes_are_told() {
    let faults =
        set_of(REFERENCE, "[[question]]\nask = \"width at the cut\"\nchoose = 8\n").expect_err("too many");
    let [SetFault { question: 1, why: Why::TooFewMistakes { wanted: 8, found, .. } }] = faults.as_slice()
    else {
        panic!("{faults:?}")
    };
    let found = *found;
    let told = faults[0].to_string();
    assert!(
        told.starts_with("question 1: 8 values to choose from are wanted for width at the cut"),
        "{told}"
    );
    // What the message offers holds.
    if found > 1 {
        let fewer = format!("[[question]]\nask = \"width at the cut\"\nchoose = {found}\n");
        assert_eq!(choice(&asked(&fewer)).alternatives.len(), found as usize);
    }
}

#[test]
fn the_key_is_plain_data() {
    let paper = asked(&format!("{TAU}\n[[question]]\nsketch = \"bending moment\"\nmarks = 4\n"));
    let key = serde_json::to_value(&paper).expect("plain data");
    let part = &key["questions"][0]["parts"][0];
    assert_eq!((&part["label"], &part["ask"]["kind"]), (&"1".into(), &"value".into()));
    assert!(close(part["ask"]["lower"].as_f64().expect("a number"), 11.88e6));
    assert_eq!(key["questions"][1]["parts"][0]["ask"]["sketch"], "bending moment");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// Whatever the numbers: no wrong answer is taken for a right one, and every known one is known again.
    #[test]
    fn no_wrong_answer_is_right(p in 5..40_u32, a in 2..15_u32, x in 1..38_u32, f in 20..40_u32) {
        let lesson = reference_text(&[
            ("P", &format!("{p} kN")),
            ("a", &format!("{} m", f64::from(a) / 4.0)),
            ("x", &format!("{} m", f64::from(x) / 10.0)),
            ("f", &format!("{f} mm")),
        ]);
        let questions = "[[question]]\nask = \"shear stress on the cut\"\nsteps = [\"reaction at A\", \"second moment\"]\n\
                         [[question]]\nask = \"largest shear force\"\n";
        match set_of(&lesson, questions) {
            Ok(paper) => for part in paper.parts() {
                let Ask::Value(value) = &part.ask else { panic!("values alone are asked for") };
                prop_assert!(value.accepts(value.right));
                // But for the last bits of a difference.
                prop_assert!(value.rounded_early * (1.0 + 1e-9) >= value.band.upper - value.right);
                for known in &value.mistakes {
                    prop_assert!(!value.accepts(known.value), "{} {known:?}", value.working);
                    prop_assert!(known.band.contains(known.value));
                    for right in value.accepted() {
                        prop_assert!(known.band.lower >= right.upper || known.band.upper <= right.lower);
                    }
                }
                let typed = value.typed_unit.from_si(value.right).abs();
                prop_assert!(value.right == 0.0 || (1.0..1e4).contains(&typed), "{typed}");
            },
            Err(faults) => prop_assert!(
                faults.iter().all(|fault| matches!(fault.why, Why::AnyAnswer { .. })), "{faults:?}"
            ),
        }
    }
}

/// The tolerance of the lesson is that of its key.
#[test]
fn the_tolerance_is_the_lessons() {
    let wide = format!("[papers]\ntolerance = \"2 %\"\n\n{TAU}");
    let tau = asked(&wide);
    assert_eq!(Course::of(&tau.lesson).tolerance, 0.02);
    assert!(close(value(&tau, 0).band.upper, 12.24e6));
}

/// Values to choose from stand in a row by size, so whoever knows the place of the right one would need no mechanics: over a span that
/// grows in steps it stands at every place.
#[test]
fn the_right_one_of_several_has_no_place_of_its_own() {
    let lesson = |length: usize| {
        format!(
            "title = \"Choices\"\nunits = \"metric\"\n[beam]\nlength = \"{length} m\"\n\
             supports = [{{ pin = \"0 m\", name = \"A\" }}, {{ roller = \"{length} m\", name = \"B\" }}]\n\
             loads = [{{ force = \"6 kN\", at = \"2 m\" }}]\n[material]\nE = \"12 GPa\"\n[section]\nshape = \"box\"\n\
             width = \"160 mm\"\nheight = \"250 mm\"\nflange-thickness = \"50 mm\"\nweb-thickness = \"25 mm\"\n\
             [slice]\nat = \"1 m\"\nlength = \"50 mm\"\n[cut]\nat = \"120 mm\"\n[[question]]\n"
        )
    };
    let places: Vec<usize> = (3..15)
        .map(|length| {
            let question = "[[question]]\nask = \"shear stress on the cut\"\nchoose = 4\n";
            let paper = set_of(&lesson(length), question).unwrap_or_else(|faults| panic!("{faults:?}"));
            let alternatives = &choice(&paper).alternatives;
            assert!(alternatives.is_sorted_by(|one, other| one.value < other.value));
            alternatives.iter().position(|alternative| alternative.is_right()).expect("one is right")
        })
        .collect();
    assert!((0..4).all(|place| places.contains(&place)), "{places:?}");
}

/// A wrong value of a question that is the right answer of another would be told by the paper.
#[test]
fn no_value_to_choose_from_is_a_right_answer_elsewhere_on_the_paper() {
    let mut met = 0;
    for main in [
        TAU,
        "[[question]]\nask = \"shear force at the slice\"\n",
        "[[question]]\nask = \"first moment at the cut\"\n",
    ] {
        let choose = format!("{main}choose = 3\n");
        let alone = asked(&choose);
        let wrongs = choice(&alone).alternatives.iter().filter(|one| !one.is_right());
        let wrongs: Vec<f64> = wrongs.map(|one| one.value).collect();
        let own = &choice(&alone).value.working;
        let workings = alone.solved.workings();
        let kind = |name: &str| workings.get(name).map(|working| working.value.dimension);
        let told = workings.in_order().find(|(_, working)| {
            let value = working.value.value;
            working.name != *own
                && kind(&working.name) == kind(own)
                && wrongs.iter().any(|wrong| (value - wrong).abs() < 0.001 * wrong.abs())
        });
        let Some((_, other)) = told else { continue };
        met += 1;
        let both = asked(&format!("{choose}[[question]]\nask = \"{}\"\n", other.name));
        let right = value(&both, 1);
        for one in &choice(&both).alternatives {
            assert!(!right.accepts(one.value), "{own}: {} is that of {}", one.value, other.name);
        }
    }
    assert!(met > 0, "no wrong value is right for something else");
}

/// Where V is negative the largest tau along the beam is still told by its size: +|V| Q S stands in the key, and the rule that tau has the
/// sign of V gives the opposite.
#[test]
fn what_is_told_by_its_size_is_right_with_either_sign() {
    let paper = asked("[[question]]\nask = \"largest shear stress along the beam\"\n");
    let largest = value(&paper, 0);
    assert!(largest.either_sign && largest.accepts(largest.right) && largest.accepts(-largest.right));
    // At the slice the sign tells which way the part beyond slides.
    let paper = asked(TAU);
    assert!(!value(&paper, 0).either_sign);
}
