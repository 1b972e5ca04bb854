//! From a paper to its marks: right answers, as students may write them, are read and found right.

use assessment::mark::{Marker, Units, Verdict};
use assessment::set::{AnswerUnit, Ask, Part, SetPaper};
use exchange::answers::{self, AskedOn, Decisions, Habit, PaperAsked, Read};
use workings::quantity::Quantity;

/// The built-in lessons, and one of them that asks for a choice, for places and for a drawing.
fn papers() -> Vec<(&'static str, SetPaper)> {
    let set = |(name, text): (&'static str, String)| {
        let reading = lesson::read(&text, name);
        let shown: Vec<String> = reading.findings.iter().map(|finding| finding.render(false)).collect();
        let (sound, solved) =
            reading.lesson.zip(reading.solved).unwrap_or_else(|| panic!("{}", shown.join("\n")));
        (name, SetPaper::new(sound, solved).unwrap_or_else(|faults| panic!("{name}: {faults:?}")))
    };
    let all = lesson::builtin::ALL.iter().map(|lesson| (lesson.name, lesson.text.to_owned()));
    let conveyor = lesson::builtin::find("conveyor").expect("a lesson of ours").text;
    let start = conveyor.find("[[question]]").expect("a lesson that asks");
    let asks = "[[question]]\nask = \"shear stress on the cut\"\nchoose = 3\n\
        [[question]]\nask = \"largest sagging moment\"\nplace = true\n\
        [[question]]\nask = \"largest shear stress over the depth\"\nplace = true\n\
        [[question]]\nsketch = \"shear force\"\n";
    all.chain([("choices", format!("{}{asks}", &conveyor[..start]))]).map(set).collect()
}

/// The right value of a part, SI, with its units; nothing for a drawing.
fn right(part: &Part) -> Option<(f64, &AnswerUnit, &AnswerUnit)> {
    match &part.ask {
        Ask::Value(value) => Some((value.right, &value.unit, &value.typed_unit)),
        Ask::Choice(choice) => Some((choice.value.right, &choice.value.unit, &choice.value.unit)),
        Ask::Place(place) => {
            let first = place.right.first()?;
            Some((0.5 * (first.lower + first.upper), &place.unit, &place.typed_unit))
        }
        Ask::Sketch { .. } => None,
    }
}

/// Five figures, more than any course asks for.
fn figures(number: f64) -> String {
    let rounded: f64 = format!("{number:.4e}").parse().expect("a number");
    rounded.to_string()
}

/// One way of writing the right answer to a part.
type Way = fn(&SetPaper, &Part) -> String;

const WAYS: [(&str, AskedOn, Units, Way); 6] = [
    ("as the course shows it", AskedOn::Paper, Units::Printed, |set, part| {
        let (value, ..) = right(part).unwrap_or_else(|| panic!("no drawing"));
        let style = set.solved.style();
        match &part.ask {
            Ask::Value(asked) | Ask::Choice(assessment::set::ChoicePart { value: asked, .. }) => {
                let working = set.solved.workings().get(&asked.working).expect("a working");
                style.text(Quantity::new(value, working.value.dimension), asked.symbol.role)
            }
            _ => format!("{} m", figures(value)),
        }
    }),
    ("a number alone, on paper", AskedOn::Paper, Units::Printed, |_, part| {
        let (value, unit, _) = right(part).unwrap_or_else(|| panic!("no drawing"));
        figures(unit.from_si(value))
    }),
    ("a number alone, typed", AskedOn::Platform, Units::Typed, |_, part| {
        let (value, _, unit) = right(part).unwrap_or_else(|| panic!("no drawing"));
        figures(unit.from_si(value))
    }),
    ("with a comma and the unit behind", AskedOn::Paper, Units::Printed, |_, part| {
        let (value, unit, _) = right(part).unwrap_or_else(|| panic!("no drawing"));
        format!("= {} {}", figures(unit.from_si(value)).replace('.', ","), unit.text())
    }),
    ("as a power of ten in SI", AskedOn::Paper, Units::Printed, |_, part| {
        let (value, unit, _) = right(part).unwrap_or_else(|| panic!("no drawing"));
        let si = workings::unit::Unit::of_base_units(unit.unit.dimension()).text();
        format!("{value:.5e} {si}")
    }),
    ("with another minus and capitals", AskedOn::Paper, Units::Printed, |_, part| {
        let (value, unit, _) = right(part).unwrap_or_else(|| panic!("no drawing"));
        format!("{}{}", figures(unit.from_si(value)).replace('-', "–"), unit.text().replace("kN", "KN"))
    }),
];

/// Source: the paper itself. Where the point may be one of thousands, the mark is declared.
#[test]
fn right_answers_to_all_built_in_lessons_are_read_and_found_right() {
    let mut compared = 0;
    for (name, set) in papers() {
        let mut marker = Marker::new(&set).expect("its formulas can be evaluated");
        for (way, on, units, written) in WAYS {
            let asked = PaperAsked::of(&set, "1", "", on);
            let parts: Vec<&Part> = set.parts().filter(|part| right(part).is_some()).collect();
            let header: Vec<String> = parts.iter().map(|part| format!("Question {}", part.label)).collect();
            let cells: Vec<String> = parts.iter().map(|part| written(&set, part)).collect();
            let file = format!("id\t{}\n1\t{}\n", header.join("\t"), cells.join("\t"));
            let declared =
                way.contains("comma").then_some(answers::Mark::Comma).or(Some(answers::Mark::Point));
            let habit = Habit { declared, ..Habit::default() };
            let found =
                answers::read(file.as_bytes(), &[asked], habit, &Decisions::default()).expect("answers");
            let sheet: Vec<(&str, _)> = found.papers[0]
                .answers
                .iter()
                .map(|answer| (answer.part.as_str(), answer.for_marking()))
                .collect();
            marker = marker.in_units(units);
            let marked = marker.mark(&sheet).expect("its own parts");
            for (judged, answer) in marked.parts.iter().zip(&found.papers[0].answers) {
                if answer.raw.is_empty() {
                    continue;
                }
                assert!(!matches!(answer.read, Read::ByHand(_)), "{name}, {way}: {answer:?}");
                assert_eq!(judged.verdict, Verdict::Right, "{name}, {way}: {answer:?}");
                compared += 1;
            }
        }
    }
    assert!(compared > 180, "only {compared} answers");
}

/// Whatever a known mistake leads to is read as the number it is, in the course's unit and in SI. Source: the values themselves.
#[test]
fn wrong_answers_are_read_as_what_they_are() {
    let mut compared = 0;
    for (name, set) in papers() {
        let asked = PaperAsked::of(&set, "1", "", AskedOn::Paper);
        for part in set.parts() {
            let Ask::Value(value) = &part.ask else { continue };
            let base = workings::unit::Unit::of_base_units(value.unit.unit.dimension()).text();
            for wrong in &value.mistakes {
                for written in [
                    format!("{} {}", figures(value.unit.from_si(wrong.value)), value.unit.text()),
                    format!("{:.4e} {base}", wrong.value),
                ] {
                    let file = format!("id\t{}\n1\t{written}\n", part.label);
                    let habit = Habit { declared: Some(answers::Mark::Point), ..Habit::default() };
                    let found = answers::read(
                        file.as_bytes(),
                        std::slice::from_ref(&asked),
                        habit,
                        &Decisions::default(),
                    );
                    let found = found.expect("answers");
                    let answer = found.papers[0].answers.iter().find(|answer| answer.part == part.label);
                    let Some(Read::Number(number)) = answer.map(|answer| &answer.read) else {
                        panic!("{name}, {written:?}: {answer:?}");
                    };
                    let half = number.half_place().expect("a decimal");
                    assert!(
                        (number.value - wrong.value).abs() <= half * (1.0 + 1e-9),
                        "{name}, {written:?}: {number:?}"
                    );
                    compared += 1;
                }
            }
        }
    }
    assert!(compared > 500, "only {compared} answers");
}
