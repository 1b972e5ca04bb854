//! Papers: what is drawn takes its place in the lesson, nothing varies any more, and all else stays as it was.

use lesson::papers::{Draw, DrawFault, Papers};
use lesson::requirement::{NoSuchWorking, Relation};
use lesson::{Choices, builtin};
use proptest::prelude::*;
use workings::problem::SupportKind;
use workings::solved::Solved;

/// A lesson in which everything varies that can, written in as many forms as it can.
const ALL_KINDS: &str = r#"title = "All kinds"   # stays

[values]
P = "4 kN"      # the hoist
L = "6 m"
w = "P / 4 m"   # follows P

# Each student gets one of these.
[vary]
P = { from = "3 kN", to = "4.5 kN", step = "0.5 kN" }   # four
# and the lengths
L = ["6 m", "2 * 4 m"]

[papers]
require = ["size of shear force at the slice > 0 kN", "the reactions are positive"]

[beam]
length = "L"
supports = [{ pin = "0 m" }, { roller = "L" }]   # two
loads = [{ force = "P", at = "2 m" }, { spread = "w" }]

# How it is held.
[[variant]]
of = "the supports"
name = "as it is"

[[variant]]
of = "the supports"
name = "built in"
beam.supports = [{ fixed = "0 m", name = "A" }]
beam.loads = [{ force = "P", at = "L", name = "P" }]

[[variant]]
of = "the section"
name = "a T"
[variant.section]
shape = "T"              # on its head
width = "100 mm"
height = "120 mm"
flange-thickness = "20 mm"
web-thickness = "20 mm"
[variant.cut]
at = "bottom of flange"

[[variant]]
of = "the section"
name = "two planks"
[[variant.section.parts]]
name = "lower"
width = "100 mm"
height = "50 mm"
[[variant.section.parts]]
name = "upper"
width = "60 mm"
height = "50 mm"
on = "lower"

# What it is made of.
[material]
E = "10 GPa"

[section]
shape = "rectangle"
width = "100 mm"
# upright
height = "200 mm"

[slice]
at = "1 m"
length = "50 mm"

[cut]
at = "80 mm"   # low

[[question]]
ask = "shear stress on the cut"
"#;

fn papers(text: &str) -> Papers {
    Papers::read(text, "test.toml").unwrap_or_else(|findings| {
        let shown: Vec<String> = findings.iter().map(|finding| finding.render(false)).collect();
        panic!("{}", shown.join("\n"))
    })
}

fn draw(choices: &[usize]) -> Draw {
    Draw { choices: choices.to_vec() }
}

#[test]
fn what_varies_is_known_in_the_order_of_the_file() {
    let papers = papers(ALL_KINDS);
    let vary = &papers.lesson().vary;
    let named: Vec<(&str, usize)> = vary.iter().map(|axis| (axis.name.as_str(), axis.count())).collect();
    assert_eq!(named, [("P", 4), ("L", 2), ("the supports", 2), ("the section", 2)]);
    let words: Vec<&str> = (0..4).filter_map(|choice| vary[0].words(choice)).collect();
    assert_eq!(words, ["3 kN", "3.5 kN", "4 kN", "4.5 kN"]);
    assert_eq!(
        papers.words(&draw(&[3, 1, 1, 0])),
        ["P = 4.5 kN", "L = 2 * 4 m", "the supports: built in", "the section: a T"]
    );
}

/// Pinned, and looked at: the whole text of a paper.
#[test]
fn a_paper_is_a_plain_lesson_with_all_else_kept() {
    let text = papers(ALL_KINDS).text(&draw(&[3, 1, 1, 1])).expect("a paper");
    let expected = r#"title = "All kinds"   # stays

[values]
P = "4.5 kN"      # the hoist
L = "2 * 4 m"
w = "P / 4 m"   # follows P

[papers]
require = ["size of shear force at the slice > 0 kN", "the reactions are positive"]

[beam]
length = "L"
supports = [{ fixed = "0 m", name = "A" }]   # two
loads = [{ force = "P", at = "L", name = "P" }]

# What it is made of.
[material]
E = "10 GPa"

[section]
parts = [
  { name = "lower", width = "100 mm", height = "50 mm" },
  { name = "upper", width = "60 mm", height = "50 mm", on = "lower" },
]

[slice]
at = "1 m"
length = "50 mm"

[cut]
at = "80 mm"   # low

[[question]]
ask = "shear stress on the cut"
"#;
    assert_eq!(text, expected);
    let with_a_t = papers(ALL_KINDS).text(&draw(&[0, 0, 0, 0])).expect("a paper");
    assert!(with_a_t.contains("[section]\nshape = \"T\"              # on its head\nwidth = \"100 mm\"\n"));
    assert!(with_a_t.contains("[cut]\nat = \"bottom of flange\"\n\n[[question]]"), "{with_a_t}");
}

#[test]
fn what_follows_a_varied_value_follows_it_in_the_paper() {
    let papers = papers(ALL_KINDS);
    let reading = papers.reading(&draw(&[0, 1, 0, 0])).expect("a draw of the lesson");
    let lesson = reading.lesson.expect("a sound paper");
    let value =
        |name: &str| lesson.values.iter().find(|value| value.name == name).expect("named").quantity.value;
    // Closed form: w = P / 4 m with P = 3 kN.
    assert_eq!((value("P"), value("w"), value("L")), (3000.0, 750.0, 8.0));
    assert!(lesson.vary.is_empty());
    let reading = papers.reading(&draw(&[0, 1, 1, 0])).expect("a draw of the lesson");
    let lesson = reading.lesson.expect("a sound paper");
    assert_eq!(lesson.problem.supports[0].kind, SupportKind::Fixed);
}

#[test]
fn every_draw_of_every_lesson_is_a_lesson_of_its_own_whatever_its_line_ends() {
    let mut texts: Vec<String> = builtin::ALL.iter().map(|builtin| builtin.text.to_owned()).collect();
    texts.push(ALL_KINDS.to_owned());
    let with_other_ends: Vec<String> =
        texts.iter().map(|text| format!("\u{feff}{}", text.replace('\n', "\r\n"))).collect();
    texts.extend(with_other_ends);
    for text in texts {
        let papers = papers(&text);
        let counts: Vec<usize> = papers.lesson().vary.iter().map(|axis| axis.count()).collect();
        for mut index in 0..counts.iter().product() {
            let choices = counts.iter().map(|count| {
                let choice = index % count;
                index /= count;
                choice
            });
            let draw = Draw { choices: choices.collect() };
            let paper = papers.text(&draw).expect("a draw of the lesson");
            let reading = lesson::read(&paper, "paper.toml");
            let shown: Vec<String> = reading.findings.iter().map(|finding| finding.render(false)).collect();
            let lesson = reading.lesson.unwrap_or_else(|| panic!("{}\n{paper}", shown.join("\n")));
            assert!(lesson.vary.is_empty() && !paper.contains("[[variant]]"));
            for (variation, choice) in papers.lesson().vary.iter().zip(&draw.choices) {
                if let Choices::Values(values) = &variation.choices {
                    let found =
                        lesson.values.iter().find(|value| value.name == variation.name).expect("named");
                    assert_eq!(found.quantity, values[*choice].quantity, "{paper}");
                }
            }
            if text.contains("\r\n") {
                assert_eq!(paper.matches('\n').count(), paper.matches("\r\n").count(), "{paper:?}");
            }
        }
    }
}

#[test]
fn a_draw_that_does_not_fit_is_refused_in_words() {
    let papers = papers(ALL_KINDS);
    let fault = papers.text(&draw(&[0, 0])).expect_err("too few choices");
    assert_eq!(fault.to_string(), "the draw has 2 choices, but 4 things vary in the lesson");
    let fault = papers.text(&draw(&[0, 0, 0, 2])).expect_err("no third section");
    assert_eq!(fault, DrawFault::NoSuchChoice { name: "the section".into(), choice: 2, count: 2 });
    assert_eq!(fault.to_string(), "\"the section\" has 2 choices, so there is no choice 3");
}

/// Choices that are sound one by one but not together: told at the place in the lecturer's own file.
#[test]
fn what_is_wrong_with_a_draw_is_told_at_its_place_in_the_file() {
    let text = r#"title = "Together"
[values]
L = "6 m"
a = "2 m"
[vary]
L = ["4 m", "6 m"]
a = ["2 m", "5 m"]
[beam]
length = "L"
supports = [{ pin = "0 m" }, { roller = "L" }]
loads = [{ force = "4 kN", at = "a" }]
[material]
E = "10 GPa"
[section]
shape = "rectangle"
width = "100 mm"
height = "200 mm"
[slice]
at = "1 m"
length = "50 mm"
[cut]
at = "80 mm"
"#;
    let papers = papers(text);
    let reading = papers.reading(&draw(&[0, 1])).expect("a draw of the lesson");
    assert!(reading.lesson.is_none());
    let [finding] = reading.findings.as_slice() else { panic!("{:?}", reading.findings) };
    assert_eq!(finding.text(), "\"a\"");
    assert_eq!(finding.start.line, 11);
    assert_eq!(finding.file(), "test.toml");
    assert!(finding.detail.as_deref().is_some_and(|detail| detail == "with L = 4 m, a = 5 m"), "{finding:?}");
}

#[test]
fn requirements_are_held_against_the_solved_lesson() {
    let text = ALL_KINDS.replace(
        "require = [",
        "require = [\"reaction at A < 3 kN\", \"reaction at A is at least 1500 N\", \"reaction at A > reaction at A\", \
         \"the moment changes sign\", \"the moment does not change sign\", ",
    );
    // Taken as it is: with variants that have no such working it would be refused.
    let papers = papers(&text);
    let met = |choices: &[usize]| -> Vec<bool> {
        let lesson = papers.reading(&draw(choices)).expect("a draw").lesson.expect("sound");
        let solved = Solved::new(lesson.problem.clone(), lesson.style.clone()).expect("solvable");
        lesson
            .requirements
            .iter()
            .map(|all| all.is_met(solved.workings()).expect("every working is there"))
            .collect()
    };
    // Closed form: on two supports, P = 4.5 kN at 2 m of 6 m and w = P / 4 m over all of it give
    // A = 4.5 * 4/6 + 4.5/4 * 3 = 6.375 kN; with P = 3 kN it is 4.25 kN.
    assert_eq!(met(&[3, 0, 0, 0]), [false, true, false, false, true, true, true]);
    // Closed form: built in with P = 3 kN at the end: A = 3 kN, which is not less than 3 kN, and M hogs only.
    assert_eq!(met(&[0, 0, 1, 0]), [false, true, false, false, true, true, true]);
}

#[test]
fn a_requirement_of_a_working_that_is_not_there_says_so() {
    let lesson =
        papers(&ALL_KINDS.replace("[papers]\nrequire = [", "[papers]\nrequire = [\"reaction at A > 1 N\", "));
    let mut requirement = lesson.lesson().requirements[0].clone();
    let problem = lesson.lesson().problem.clone();
    let solved = Solved::new(problem, lesson.lesson().style.clone()).expect("solvable");
    assert_eq!(requirement.is_met(solved.workings()), Ok(true));
    if let lesson::requirement::Condition::Compare { left, .. } = &mut requirement.condition {
        left.name = "reaction at Z".into();
    }
    assert_eq!(requirement.is_met(solved.workings()), Err(NoSuchWorking("reaction at Z".into())));
}

#[test]
fn values_that_differ_by_rounding_only_are_equal() {
    let almost = 2000.0 * (1.0 + 1e-12);
    assert!(!Relation::Less.holds(2000.0, almost) && !Relation::Greater.holds(almost, 2000.0));
    assert!(Relation::AtMost.holds(almost, 2000.0) && Relation::AtLeast.holds(2000.0, almost));
    assert!(Relation::Less.holds(1999.0, 2000.0) && !Relation::AtMost.holds(f64::NAN, 1.0));
}

proptest! {
    /// Steps are written as a lecturer would write them, and are what they say: an exact count of the last decimal.
    #[test]
    fn steps_are_written_short_and_exactly(from in 1_u32..5000, step in 1_u32..300, places in 0_usize..4, count in 1_u32..40) {
        let decimal = |digits: u32| format!("{:.*}", places, f64::from(digits) / 10_f64.powi(places as i32));
        let line = format!(
            "[vary]\nP = {{ from = \"{} kN\", to = \"{} kN\", step = \"{} kN\" }}\nL = [\"6 m\", \"2 * 4 m\"]\n",
            decimal(from), decimal(from + count * step), decimal(step)
        );
        let start = ALL_KINDS.find("[vary]").expect("it varies");
        let end = ALL_KINDS.find("[papers]").expect("it requires");
        let papers = papers(&format!("{}{line}\n{}", &ALL_KINDS[..start], &ALL_KINDS[end..]));
        let axis = &papers.lesson().vary[0];
        prop_assert_eq!(axis.count() as u32, count + 1);
        for choice in 0..axis.count() {
            let words = axis.words(choice).expect("a choice");
            let number = words.strip_suffix(" kN").expect("in the unit of both");
            let exact = decimal(from + choice as u32 * step);
            // The reference is the standard library's own printing of the same count of the last decimal.
            prop_assert_eq!(number.parse::<f64>(), exact.parse::<f64>());
            prop_assert!(number.len() <= exact.len());
        }
    }
}

/// A lesson in which three things vary, restricted to some of their combinations in one of the forms of TOML.
fn restricted(papers_table: &str) -> String {
    format!(
        r#"title = "Restricted"

[values]
P = "4 kN"
L = "6 m"

[vary]
P = {{ from = "3 kN", to = "6 kN", step = "0.5 kN" }}
L = ["6 m", "8 m"]

{papers_table}
[beam]
length = "L"
supports = [{{ pin = "0 m" }}, {{ roller = "L" }}]
loads = [{{ force = "P", at = "2 m" }}]

[material]
E = "10 GPa"

[section]
shape = "rectangle"
width = "100 mm"
height = "200 mm"

[slice]
at = "1 m"
length = "50 mm"

[cut]
at = "80 mm"

[[variant]]
of = "the supports"
name = "as it is"

[[variant]]
of = "the supports"
name = "built in"
beam.supports = [{{ fixed = "0 m" }}]
"#
    )
}

const ROWS: &str = r#"only = [
  # the easy one
  { P = "4.5 kN", L = "8 m", "the supports" = "built in" },
  { L = "6000 mm", "the supports" = "as it is", P = "3 kN" },
]
"#;

#[test]
fn a_lesson_says_which_combinations_its_papers_may_have() {
    let lesson = papers(&restricted(&format!("[papers]\n{ROWS}"))).lesson().clone();
    assert_eq!(lesson.only, Some(vec![draw(&[3, 1, 1]), draw(&[0, 0, 0])]));
    assert_eq!(papers(&restricted("")).lesson().only, None);
    let unrestricted = papers(&restricted(&format!("[papers]\n{ROWS}"))).unrestricted();
    assert_eq!(unrestricted.lesson().only, None);
}

/// In whatever form the combinations are written, a paper says nothing of them and keeps all else.
#[test]
fn a_paper_of_a_restricted_lesson_is_the_paper_of_the_lesson_without_the_restriction() {
    let require = "require = [\"the reactions are positive\"]\n";
    let rows = r#"[{ P = "4.5 kN", L = "8 m", "the supports" = "built in" }]"#;
    let heading = "[[papers.only]]\nP = \"4.5 kN\"\nL = \"8 m\"\n\"the supports\" = \"built in\"\n\n[[papers.only]]\nP = \"3 kN\"\nL = \"6 m\"\n\"the supports\" = \"as it is\"\n";
    let with_require = format!("[papers]\n{require}");
    for (written, without) in [
        (format!("[papers]\n{ROWS}"), String::new()),
        (format!("# Good ones.\n{heading}"), String::new()),
        (format!("[papers]\n{require}{ROWS}"), with_require.clone()),
        (format!("[papers]\n{ROWS}{require}"), with_require.clone()),
        (format!("[papers]\n{require}\n{heading}"), with_require),
    ] {
        let all = draw(&[3, 1, 0]);
        let expected = papers(&restricted(&without)).text(&all).expect("a paper");
        let paper = papers(&restricted(&written)).text(&all).expect("a paper");
        assert_eq!(paper, expected, "of\n{written}");
    }
    // Between braces at the top of the file, where no heading stands before it.
    let braces = |table: &str| restricted("").replacen("\n\n", &format!("\n{table}\n\n"), 1);
    for (written, without) in [
        (format!("papers = {{ require = [\"the reactions are positive\"], only = {rows} }}"), ""),
        (format!("papers = {{ only = {rows}, require = [\"the reactions are positive\"] }}"), ""),
        (format!("papers.only = {rows}"), "none"),
    ] {
        let paper = papers(&braces(&written)).text(&draw(&[3, 1, 0])).expect("a paper");
        assert!(!paper.contains("only") && !paper.contains("4.5 kN\", L"), "{paper}");
        assert_eq!(
            paper.contains("papers = { require = [\"the reactions are positive\"] }"),
            without.is_empty()
        );
        assert!(lesson::read(&paper, "paper.toml").findings.is_empty(), "{paper}");
    }
}

/// Any table of materials, from memory: steel has 200 to 210 GPa, so MPa cannot be meant.
#[test]
fn a_modulus_that_no_such_material_has_is_remarked_upon() {
    let conveyor = builtin::find("conveyor").expect("a lesson of ours").text;
    let of = |modulus: &str| {
        let start = conveyor.find("[material]").expect("a material");
        let end = start + conveyor[start + 1..].find("\n[").expect("its end") + 1;
        let material = format!("[material]\nname = \"steel\"\nE = \"{modulus}\"\n");
        let text = format!("{}{material}{}", &conveyor[..start], &conveyor[end..]);
        let reading = lesson::read(&text, "conveyor.toml");
        let shown: Vec<String> = reading.findings.iter().map(|finding| finding.render(false)).collect();
        reading.lesson.unwrap_or_else(|| panic!("{shown:?}")).remarks
    };
    assert!(of("210 GPa").is_empty());
    let remarks = of("210 MPa");
    let [remark] = remarks.as_slice() else { panic!("{remarks:?}") };
    assert_eq!(remark.headline, "nothing that is called \"steel\" is as soft as this");
    assert!(remark.render(false).contains("between 10 GPa and 500 GPa"), "{}", remark.render(false));
    // Of steel with a Poisson's ratio from 0 to 1/2 the shear modulus is E/2 to E/3.
    let remarks = of("210 GPa\"\nshear-modulus = \"20 GPa");
    let [remark] = remarks.as_slice() else { panic!("{remarks:?}") };
    assert!(remark.render(false).contains("between 70.0 GPa and 105.0 GPa"), "{}", remark.render(false));
    assert!(of("210 GPa\"\nshear-modulus = \"80 GPa").is_empty());
}

/// By hand: from 2 kN in steps of 0.7 kN come 2.7, 3.4, 4.1 and 4.8 kN, and 5 kN is never reached.
#[test]
fn steps_that_miss_their_end_are_remarked_upon() {
    let conveyor = builtin::find("conveyor").expect("a lesson of ours").text;
    let of = |text: &str| {
        let reading = lesson::read(text, "conveyor.toml");
        let shown: Vec<String> = reading.findings.iter().map(|finding| finding.render(false)).collect();
        reading.lesson.unwrap_or_else(|| panic!("{shown:?}")).remarks
    };
    assert!(of(conveyor).is_empty());
    let start = conveyor.find("w = {").expect("w varies");
    let end = start + conveyor[start..].find('}').expect("its end");
    let mut text = conveyor.to_owned();
    text.replace_range(start..=end, "w = { from = \"2 kN/m\", to = \"5 kN/m\", step = \"0.7 kN/m\" }");
    let remarks = of(&text);
    let [remark] = remarks.as_slice() else { panic!("{remarks:?}") };
    assert_eq!(remark.headline, "these steps never reach \"5 kN/m\": the last is \"4.8 kN/m\"");
    assert!(remark.render(false).starts_with("remark: "), "{}", remark.render(false));
}
