//! Feedback tells the first step that went wrong, with the numbers of the graph, and nothing that the student wrote is ever markup.

use crate::common::asked::{Set, all_sets};
use crate::common::leaks::leaks;
use crate::common::page::checked;
use assessment::mark::{Answer, Cause, Marked, Marker, Units, Verdict, Written};
use assessment::review::{MarkedStudent, mistakes, wrong_answers};
use assessment::set::{Ask, SetPaper};
use document::feedback::{Sheet, feedback};
use document::paper::{Form, Who};
use document::tree::{Block, Document, plain};
use workings::quantity::Quantity;

/// The lesson whose every number is exact. Source: the unit's notes on mistakes, "The reference lesson".
const REFERENCE: &str = include_str!("../../../assessment/tests/lessons/class.toml");

fn set(text: &str) -> SetPaper {
    let reading = lesson::read(text, "class.toml");
    let (lesson, solved) = reading.lesson.zip(reading.solved).expect("a sound lesson");
    SetPaper::new(lesson, solved).expect("its questions can be set")
}

fn who() -> Who {
    Who { name: Some("Ada Example".into()), id: Some("0042".into()) }
}

/// An answer of three figures, as the course writes them.
fn written(value: f64) -> Answer {
    let text = format!("{value:e}");
    let power: i32 = text.split_once('e').and_then(|(_, power)| power.parse().ok()).expect("a power");
    let place: f64 = format!("1e{}", power - 2).parse().expect("a number");
    Answer::Value(Written::new(value, Some(0.5 * place)).expect("a number"))
}

struct Class {
    set: SetPaper,
    answers: Vec<(String, Answer)>,
    raw: Vec<String>,
    marked: Marked,
}

impl Class {
    /// The right answers of a paper with some in their places; SI.
    fn of(set: SetPaper, others: &[(&str, Answer)]) -> Self {
        let right = |ask: &Ask| match ask {
            Ask::Value(value) => Answer::Value(Written::new(value.right, None).expect("a number")),
            Ask::Place(place) => {
                let band = place.right.first().expect("a place");
                Answer::Value(Written::new(band.lower, None).expect("a number"))
            }
            Ask::Choice(choice) => Answer::Choice(
                choice.alternatives.iter().position(|one| one.is_right()).expect("a right one"),
            ),
            Ask::Sketch { .. } => Answer::Unreadable(String::new()),
        };
        let answer = |label: &str, ask: &Ask| {
            let other = others.iter().find(|(other, _)| *other == label);
            other.map_or_else(|| right(ask), |(_, answer)| answer.clone())
        };
        let answers: Vec<(String, Answer)> =
            set.parts().map(|part| (part.label.clone(), answer(&part.label, &part.ask))).collect();
        let marked = Marker::new(&set).expect("formulas of ours").mark(&answers).expect("its own labels");
        let raw = answers.iter().map(|(_, answer)| match answer {
            Answer::Unreadable(raw) => raw.clone(),
            _ => String::new(),
        });
        Self { raw: raw.collect(), set, answers, marked }
    }

    fn sheet(&self) -> Sheet<'_> {
        Sheet {
            paper: &self.set,
            handed_in: true,
            written: &self.raw,
            unclear: &[],
            answers: &self.answers,
            marked: &self.marked,
            units: Units::Printed,
        }
    }

    fn feedback(&self) -> Document {
        feedback(&self.sheet(), &who(), &Form::default())
    }

    fn as_marked(&self) -> MarkedStudent<'_> {
        MarkedStudent { student: "", paper: &self.set, answers: &self.answers, marked: &self.marked }
    }

    /// A value of a working as the course shows it.
    fn shown(&self, working: &str, value: f64) -> String {
        let found = self.set.solved.workings().get(working).expect("a working");
        let quantity = Quantity::new(value, found.value.dimension);
        self.set.solved.style().text(quantity, found.symbol.role)
    }
}

/// Paragraphs, items and cells in words, and the titles of drawings, from the heading that begins so to the next of its level.
fn under(document: &Document, begins: &str) -> Option<String> {
    let style = &document.style;
    let is_first = |block: &&Block| matches!(block, Block::Heading { level: 1, text } if plain(text, style).starts_with(begins));
    let start = document.body.iter().position(|block| is_first(&block))?;
    let rest = &document.body[start + 1..];
    let end = rest.iter().position(|block| matches!(block, Block::Heading { level: 1, .. }));
    Some(words(&rest[..end.unwrap_or(rest.len())], style))
}

fn words(blocks: &[Block], style: &workings::style::Style) -> String {
    let mut out = String::new();
    for block in blocks {
        block.each(&mut |block| {
            match block {
                Block::Heading { text, .. } | Block::Paragraph(text) => out += &plain(text, style),
                Block::Equation(equation) => {
                    for row in &equation.rows {
                        out += &row
                            .left
                            .as_ref()
                            .map_or_else(String::new, |left| workings::print::plain(left, style));
                        out += " = ";
                        out += &workings::print::plain(&row.right, style);
                    }
                }
                Block::Figure(figure) => out += &format!("[{}]", figure.drawing.name),
                Block::Facts(facts) => {
                    for fact in facts {
                        out += &format!("{}: {}; ", fact.word, plain(&fact.stands_for, style));
                    }
                }
                Block::Table(table) => {
                    for cell in table.rows.iter().flatten() {
                        out += &plain(cell, style);
                        out.push('|');
                    }
                }
                _ => {}
            }
            out.push('\n');
        });
    }
    out
}

const FIRST: &str = "The first step that went wrong";

/// The parallel axes are left out and the student goes on: I = 3.15e6 mm⁴ for 11.25e6, tau = 42.9 MPa for 12, both from the notes on
/// mistakes (`no-parallel-axis`; V Q / (I t) = 25 000 · 108 000 / (3.15e6 · 20)).
#[test]
fn the_first_wrong_step_is_told_and_what_follows_is_right() {
    let class = Class::of(set(REFERENCE), &[("2b", written(3.15e-6)), ("3b", written(42.857e6))]);
    let document = class.feedback();
    let first = under(&document, FIRST).expect("something went wrong");
    let heading = format!("{FIRST}: question 2b");
    assert!(under(&document, &heading).is_some(), "{first}");
    for expected in [
        "you gave 3.15×10⁶\u{a0}mm⁴",
        "right is I = 11.25×10⁶\u{a0}mm⁴",
        "about its own axis",
        "add A y²",
        "= 3.15×10⁶\u{a0}mm⁴",
        "[section]",
    ] {
        assert!(first.contains(expected), "{expected:?} in {first}");
    }
    let after = under(&document, "Question 3").expect("question 3");
    assert!(
        after.contains("Right from your own values. With your own I = 3.15×10⁶\u{a0}mm⁴ of question 2b"),
        "{after}"
    );
    assert!(after.contains("leads to 42.9\u{a0}MPa"), "{after}");
    let next = words(&document.body[..2], &document.style);
    assert!(next.contains("Begin with question 2b") && next.contains("Leave question 3b as it is"), "{next}");
    assert!(next.contains("4.5 of 6.5"), "2 marks are lost at 2b alone: {next}");
}

/// Q does not follow from I, tau does: of two answers that nothing explains only that of Q is known to be wrong for a reason of its own.
#[test]
fn only_what_is_wrong_for_another_reason_is_to_be_looked_for() {
    let class = Class::of(
        set(REFERENCE),
        &[("2b", written(3.15e-6)), ("3a", written(77.7e-6)), ("3b", written(31.7e6))],
    );
    for label in ["3a", "3b"] {
        assert_eq!(class.marked.part(label).expect("a part").verdict.word(), "unknown", "{:?}", class.marked);
    }
    let document = class.feedback();
    let next = words(&document.body[..2], &document.style);
    assert!(next.contains("Begin with question 2b"), "{next}");
    assert!(next.contains("Then look at question 3a: something else went wrong there."), "{next}");
    assert!(
        next.contains("Then work question 3b out anew: what went wrong there may come from question 2b"),
        "{next}"
    );
}

/// Asked in another order than that of the solution, which finds V, then I, then Q: what to look at comes in the order of the solution, and it is
/// said that this is not that of the questions.
#[test]
fn what_to_look_at_comes_in_the_order_of_the_solution() {
    let start = REFERENCE.find("[[question]]").unwrap_or(REFERENCE.len());
    let told = |asked: [&str; 3]| {
        let questions = asked.map(|ask| format!("[[question]]\nask = \"{ask}\"\n")).concat();
        let set = set(&format!("{}{questions}", &REFERENCE[..start]));
        let wrong: Vec<(String, Answer)> = set
            .parts()
            .map(|part| match &part.ask {
                Ask::Value(value) => (part.label.clone(), written(1.37 * value.right)),
                other => panic!("a value: {other:?}"),
            })
            .collect();
        let others: Vec<(&str, Answer)> =
            wrong.iter().map(|(label, answer)| (label.as_str(), answer.clone())).collect();
        let document = Class::of(set, &others).feedback();
        words(&document.body[..2], &document.style)
    };
    let (v, i, q) = ("shear force at the slice", "second moment", "first moment at the cut");
    let backward = told([q, i, v]);
    assert!(
        backward.contains("Begin with question 3") && backward.contains("questions 2 and 1"),
        "{backward}"
    );
    assert!(
        backward.contains("in the order in which the solution goes, which is not that of the questions"),
        "{backward}"
    );
    let forward = told([v, i, q]);
    assert!(forward.contains("Begin with question 1") && forward.contains("questions 2 and 3"), "{forward}");
    assert!(!forward.contains("which is not that of the questions"), "{forward}");
}

/// The second moment of a T is a sum of two: its numbers do not run out of the text, which holds about seventy characters.
#[test]
fn a_sum_of_two_is_broken_too() {
    let rail = set(lesson::builtin::find("overhang").expect("a lesson of ours").text);
    let document = Class::of(rail, &[]).feedback();
    let mut rows = 0;
    for block in &document.body {
        block.each(&mut |block| {
            if let Block::Equation(equation) = block
                && equation.rows[0]
                    .left
                    .as_ref()
                    .is_some_and(|left| workings::print::plain(left, &document.style) == "I")
            {
                rows = equation.rows.len();
                assert!(equation.breadth(&document.style) <= 70.0, "{}", equation.breadth(&document.style));
            }
        });
    }
    assert_eq!(rows, 4, "the sum, its numbers in two rows, the result");
}

fn conveyor() -> SetPaper {
    set(lesson::builtin::find("conveyor").expect("a lesson of ours").text)
}

/// R_A of a beam on three rigid supports is 3 w L / 8, whatever the section: its solution begins with the released beam. The second moment,
/// left blank, is worked out where it is asked for, from its pieces on.
#[test]
fn a_reaction_is_worked_out_without_the_section() {
    let class = Class::of(conveyor(), &[("5b", Answer::Blank), ("5d", Answer::Blank)]);
    let document = class.feedback();
    let reaction = under(&document, "Question 1").expect("question 1");
    let (before, after) = reaction.split_once("v_B0 = ").expect("the released beam");
    assert!(before.contains("falls out of R_A") && !before.contains("area"), "{reaction}");
    assert!(after.contains("R_A = ") && !after.contains("A_1"), "{reaction}");
    let section = under(&document, "Question 5").expect("question 5");
    for expected in ["I_1 = ", "V Q/(I t)"] {
        assert!(section.contains(expected), "{expected} in {section}");
    }
    assert_eq!(section.matches("Left blank.").count(), 2, "{section}");
}

/// Every part that was left blank has its solution, also where all of it was found on the way to an earlier one: V, asked after tau.
#[test]
fn a_blank_part_has_its_solution() {
    let start = REFERENCE.find("[[question]]").expect("questions");
    let asked = ["shear stress on the cut", "shear force at the slice"];
    let questions: String = asked.iter().map(|ask| format!("[[question]]\nask = \"{ask}\"\n")).collect();
    let lesson = format!("{}{questions}", &REFERENCE[..start]);
    let class = Class::of(set(&lesson), &[("1", Answer::Blank), ("2", Answer::Blank)]);
    let document = class.feedback();
    for label in ["Question 1", "Question 2"] {
        let told = under(&document, label).expect("a question");
        let solution = told.split_once("How it is worked out, with your numbers").expect("a solution").1;
        assert!(solution.contains("V = R_A"), "{label}: {told}");
    }
    assert!(
        under(&document, "Question 2").is_some_and(|told| told.contains("on the way to an earlier question"))
    );
}

/// In large print the letters of a drawing, 13 px, are shown as 18 points where the drawing is no broader than the sheet of large print,
/// which is that of the papers; where a drawing needs more room, no smaller on A4 than 16 points, the least that is called large print.
/// Source: guidance on clear print by associations of blind people (from memory).
#[test]
fn drawings_of_large_print_are_drawn_for_it() {
    use document::tree::Print;
    use figure::scale::Sheet;
    let moment = {
        let set = conveyor();
        set.parts().find_map(|part| match &part.ask {
            Ask::Value(value) if part.label == "3a" => value.mistakes.first().map(|known| known.value),
            _ => None,
        })
    };
    let wrong = written(moment.expect("a known mistake"));
    let class = Class::of(conveyor(), &[("3a", wrong)]);
    let drawings = |print| {
        let form = Form { print, ..Form::default() };
        let mut found: Vec<(String, f64)> = Vec::new();
        for block in &feedback(&class.sheet(), &who(), &form).body {
            block.each(&mut |block| {
                if let Block::Figure(figure) = block {
                    found.push((figure.drawing.name.clone(), figure.drawing.width));
                }
            });
        }
        found
    };
    let (usual, large) = (drawings(Print::Usual), drawings(Print::Large));
    let names = |all: &[(String, f64)]| all.iter().map(|(name, _)| name.clone()).collect::<Vec<_>>();
    assert_eq!(names(&usual), names(&large));
    assert!(usual.len() >= 3, "one with the first step, one for each sketch: {usual:?}");
    for ((name, usual), (_, large)) in usual.into_iter().zip(large) {
        let points = 18.0 * (Sheet::LARGE_PRINT.width / large).min(1.0);
        assert!(points >= 16.0 && large < usual, "{name}: {points} points, {large} for {usual}");
    }
}

/// With x = 3 m for the right 2.25 m M is 30 + 5·1 - 20·1²/2 = 25 kN m, by hand: M = 30 kN m and V = 5 kN at 2 m, where 20 kN/m begin.
#[test]
fn an_own_place_is_told_as_a_place() {
    let start = REFERENCE.find("[[question]]").expect("questions");
    let ask = "[[question]]\nask = \"largest sagging moment\"\nplace = true\nmarks = 2\n";
    let lesson = format!("{}{ask}", &REFERENCE[..start]);
    let class = Class::of(set(&lesson), &[("1a", written(25e3)), ("1b", written(3.0))]);
    assert_eq!(class.marked.part("1a").expect("M").verdict.word(), "follow-through", "{:?}", class.marked);
    let document = class.feedback();
    let all = words(&document.body, &document.style);
    assert!(all.contains("With your own x = 3\u{a0}m of question 1b"), "{all}");
}

/// By hand: tau = V Q/(I t) is 12 MPa; with V twice what it is and Q twice what it is, either alone makes 24 MPa of it.
#[test]
fn of_two_own_values_that_lead_to_an_answer_both_are_told() {
    let others = [("1", written(50e3)), ("3a", written(216e-6)), ("3b", written(24e6))];
    let class = Class::of(set(REFERENCE), &others);
    let all = words(&class.feedback().body, class.set.solved.style());
    let told = "With your own Q = 216×10³\u{a0}mm³ of question 3a, or with your own V = 50\u{a0}kN of question 1 (it does not \
                show with which), the right way leads to";
    assert!(all.contains(told), "{all}");
    // Either was wrong by itself, and what follows from it is to be left.
    assert!(all.contains("Leave question 3b as it is"), "{all}");
}

/// V = 25 kN, typed as 25 000 where kN is asked for: the number is right, in N.
#[test]
fn a_number_in_another_unit_is_told_as_that() {
    let bare = |text: f64| Answer::Bare(Written::new(text, Some(0.5)).expect("a number"));
    let class = Class::of(set(REFERENCE), &[("1", bare(25_000.0))]);
    let first = under(&class.feedback(), FIRST).expect("it is wrong");
    assert!(first.contains("The number is right in N, but kN is asked for."), "{first}");
    // 2.5 is 25 kN in no unit: there the lost power of ten is all that is known.
    let bare = |text: f64| Answer::Bare(Written::new(text, Some(0.005)).expect("a number"));
    let class = Class::of(set(REFERENCE), &[("1", bare(2.5))]);
    let first = under(&class.feedback(), FIRST).expect("it is wrong");
    assert!(first.contains("A power of ten is lost.") && !first.contains("is right in"), "{first}");
}

/// What earns nothing is not nearly right, and of one answer the same is said twice.
#[test]
fn how_wrong_an_answer_is_is_said_alike() {
    let paper = set(REFERENCE);
    let mut found = (0, 0);
    for part in paper.parts() {
        let Ask::Value(value) = &part.ask else { continue };
        for factor in [0.5, 2.0, -1.0] {
            let class = Class::of(paper.clone(), &[(&part.label, written(factor * value.right))]);
            let judged = class.marked.part(&part.label).expect("a part");
            let Verdict::Explained(why) = &judged.verdict else { continue };
            let Cause::Slip { .. } = why.cause else { continue };
            let earns = judged.marks() > Some(0.0);
            assert_eq!(earns, factor < 0.0, "{judged:?}");
            let document = class.feedback();
            let (said, never) =
                if earns { ("Nearly right.", "Not right.") } else { ("Not right.", "Nearly right.") };
            let all = words(&document.body, &document.style);
            assert_eq!(all.matches(said).count(), 2, "{all}");
            assert!(!all.contains(never), "{all}");
            assert_eq!(all.contains("The way is right"), earns, "{all}");
            if earns { found.0 += 1 } else { found.1 += 1 }
        }
    }
    assert!(found.0 > 0 && found.1 > 0, "{found:?}");
}

/// Every known mistake of every question of every lesson that comes with the project, made alone: what is told first is what the review
/// of the class counts first, and where one mistake explains it, the value under it stands there as the graph gives it.
#[test]
fn what_is_told_first_is_what_was_done_first() {
    let mut told = 0;
    for Set { name, set } in all_sets() {
        let cases: Vec<(String, String, f64)> = set
            .parts()
            .filter_map(|part| match &part.ask {
                Ask::Value(value) => Some((part, value)),
                _ => None,
            })
            .flat_map(|(part, value)| {
                let of = |known: &assessment::set::Recognised| {
                    (part.label.clone(), value.working.clone(), known.value)
                };
                value.mistakes.iter().take(3).map(of).collect::<Vec<_>>()
            })
            .filter(|(_, _, value)| *value != 0.0)
            .collect();
        for (label, working, value) in cases {
            let class = Class::of(
                set.clone(),
                &[(&label, Answer::Value(Written::new(value, None).expect("a number")))],
            );
            let judged = class.marked.part(&label).expect("a part");
            let first = mistakes(&wrong_answers(&[class.as_marked()])).first;
            let document = class.feedback();
            let Some(first) = first.first() else {
                assert!(under(&document, FIRST).is_none(), "{name} {label}");
                continue;
            };
            let title = format!("{FIRST}: question {}", first.item);
            let text = under(&document, &title).unwrap_or_else(|| panic!("{name}: {title}"));
            if let Verdict::Explained(explanation) = &judged.verdict
                && matches!(explanation.cause, Cause::Mistake { .. })
                && first.item == label
            {
                told += 1;
                let shown = class.shown(&working, explanation.expected);
                assert!(
                    text.contains(&format!("{shown} is what comes out for someone who")),
                    "{name}: {text}"
                );
                assert!(text.contains("Why that is wrong."), "{name}: {text}");
                assert!(text.contains(
                    &class.shown(&working, set.solved.workings().get(&working).expect("it").value.value)
                ));
            }
        }
    }
    assert!(told > 40, "too few to tell: {told}");
}

/// Every right value of every lesson stands there as the course shows it, and every page is sound.
#[test]
fn right_values_are_those_of_the_graph() {
    for Set { name, set } in all_sets() {
        let class = Class::of(set, &[("1", Answer::Blank)]);
        let document = class.feedback();
        checked(&document);
        let all = words(&document.body, &document.style);
        for part in class.set.parts() {
            if let Ask::Value(value) = &part.ask {
                let found = class.set.solved.workings().get(&value.working).expect("a working");
                assert!(
                    all.contains(&class.shown(&value.working, found.value.value)),
                    "{name} {}",
                    part.label
                );
            }
        }
        assert!(all.contains("You left question 1 blank"), "{name}: {all}");
        assert!(all.contains("A person marks your drawing."), "{name}");
    }
}

#[test]
fn what_a_student_wrote_stays_text() {
    for hostile in [
        "</td><script>alert(1)</script>",
        "#strong[x] $x^2$ *b* _i_ <label> @ref",
        "=HYPERLINK(1)",
        "\u{202e}12 kN\u{2066}",
        "عشرة كيلو",
        "&amp; {V} [link](javascript:alert(1))",
        "\u{0}\u{7}12",
    ] {
        let class = Class::of(set(REFERENCE), &[("1", Answer::Unreadable(hostile.to_owned()))]);
        let document = class.feedback();
        let page = checked(&document);
        assert!(!page.contains("<script") && !page.contains("<a href=\"javascript"), "{hostile}");
        assert!(!page.contains('\u{202e}') && !page.contains('\u{2066}'), "{hostile}");
        let told = under(&document, "Question 1").expect("question 1");
        assert!(told.contains(hostile.trim()), "{told}");
        assert!(told.contains("A person will read this."), "{told}");
    }
    // A long one is cut.
    let long = "x".repeat(5000);
    let class = Class::of(set(REFERENCE), &[("1", Answer::Unreadable(long.clone()))]);
    assert!(!checked(&class.feedback()).contains(&long));
}

#[test]
fn who_handed_in_nothing_is_told_nothing_of_the_key() {
    for Set { name, set } in all_sets() {
        let class = Class::of(set, &[]);
        let sheet = Sheet { handed_in: false, ..class.sheet() };
        let document = feedback(&sheet, &who(), &Form::default());
        let page = checked(&document);
        let (_, body) = page.split_once("</style>").expect("a style sheet");
        assert_eq!(leaks(&class.set, body), [""; 0], "{name}");
        assert!(body.contains("No answer of yours was found"));
    }
}

/// Two spans of 4 m under 8 kN/m: each span alone R_B = 32 kN, where 5/4·32 = 40 kN is right. Balance of the whole beam cannot find R_B,
/// which is the redundant: the step that went wrong is that the beam must fit its support.
#[test]
fn a_redundant_that_is_wrong_is_told_at_the_redundant() {
    let text = lesson::builtin::find("conveyor").expect("a lesson of ours").text;
    let questions = "[[question]]\nask = \"reaction at B\"\n[[question]]\nask = \"reaction at A\"\n";
    let start = text.find("[[question]]").unwrap_or(text.len());
    let paper = set(&format!("{}\n{questions}", &text[..start]));
    let class = Class::of(paper, &[("1", written(32e3)), ("2", written(16e3))]);
    let first = under(&class.feedback(), FIRST).expect("it is wrong");
    assert!(first.contains("each span for a simple beam of its own"), "{first}");
    assert!(first.contains("The beam must fit its support"), "{first}");
    assert!(!first.contains("(at the reaction at A)") && !first.contains("Balance of moments"), "{first}");
}

/// The reference lesson with 12 kN for 20, asked for both reactions: by hand R_A = 12·3/4 + 40·1/4 = 19 kN, R_B = 33 kN.
fn of_reactions() -> SetPaper {
    let start = REFERENCE.find("[[question]]").unwrap_or(REFERENCE.len());
    let lesson = REFERENCE[..start].replace("P = \"20 kN\"", "P = \"12 kN\"");
    set(&format!("{lesson}\n[[question]]\nask = \"reaction at A\"\n[[question]]\nask = \"reaction at B\"\n"))
}

/// Practising, the reactions swapped: the drawing of the step shows no value that is still asked for.
#[test]
fn practice_gives_no_open_answer_away() {
    let class = Class::of(of_reactions(), &[("1", written(33e3)), ("2", Answer::Blank)]);
    let told = document::feedback::checked(&class.sheet(), "1");
    let said = words(&told, class.set.solved.style());
    assert!(said.contains("so that the two reactions are swapped") && !said.contains("19"), "{said}");
    let figure = told.iter().find_map(|block| match block {
        Block::Figure(figure) => Some(&figure.drawing),
        _ => None,
    });
    let drawing = figure.expect("the reactions have a drawing");
    let seen: String = drawing.labels().iter().map(|label| format!("{}\n", label.text)).collect();
    let all = format!("{seen}{}{}", drawing.short, drawing.long.plain());
    assert!(seen.contains('?') && seen.contains("12\u{a0}kN"), "{seen}");
    assert!(!all.contains("19\u{a0}kN") && !all.contains("33\u{a0}kN") && !all.contains("19.0"), "{all}");
}

/// The feedback of the same has the line of numbers with the value that was taken for the other, and not with what that then became.
#[test]
fn of_swapped_reactions_the_line_of_numbers_is_true() {
    let class = Class::of(of_reactions(), &[("1", written(33e3))]);
    let first = under(&class.feedback(), FIRST).expect("it is wrong");
    assert!(first.contains("R_A = R_B = 33"), "{first}");
    assert!(!first.contains("= 19.00\u{a0}kN ="), "{first}");
}

#[test]
fn doubt_is_told_as_doubt() {
    // Nothing explains it: nothing is claimed.
    let class = Class::of(set(REFERENCE), &[("2b", written(7.77e-6))]);
    assert!(matches!(class.marked.part("2b").expect("a part").verdict, Verdict::Unknown { .. }));
    let first = under(&class.feedback(), FIRST).expect("it is wrong");
    assert!(first.contains("nothing is guessed") && !first.contains("What was done."), "{first}");
    assert!(first.contains("beside the solution"), "{first}");
    // Who practises has no solution to lay anything beside, but hints.
    let practised = words(&document::feedback::checked(&class.sheet(), "2b"), class.set.solved.style());
    assert!(practised.contains("nothing is guessed") && practised.contains("take a hint"), "{practised}");
    assert!(!practised.contains("beside the solution"), "{practised}");
    // In the reference lesson two mistakes lead to 54 000 mm³. Source: the unit's notes on mistakes, "Distinguishability".
    let class = Class::of(set(REFERENCE), &[("3a", written(54_000e-9))]);
    assert!(matches!(class.marked.part("3a").expect("a part").verdict, Verdict::Ambiguous { .. }));
    let first = under(&class.feedback(), FIRST).expect("it is wrong");
    assert!(first.contains("only you can tell") && first.matches("who takes Q").count() == 2, "{first}");
    // A lost sign.
    let class = Class::of(set(REFERENCE), &[("3b", written(-12e6))]);
    let first = under(&class.feedback(), FIRST).expect("it is wrong");
    assert!(first.contains("Nearly right.") && first.contains("Right size, opposite sign."), "{first}");
    // Nothing is wrong.
    let class = Class::of(set(REFERENCE), &[]);
    let document = class.feedback();
    assert!(under(&document, FIRST).is_none());
    assert!(words(&document.body, &document.style).contains("Everything is right."));
}

/// In a small window the five columns of the answers stand below one another, each cell with the word of its column; a reader by ear has rows and
/// cells all the same.
#[test]
fn the_table_of_answers_stacks_in_a_small_window() {
    let page = checked(&Class::of(set(REFERENCE), &[]).feedback());
    for expected in [
        "<table class=\"broad stacks\" role=\"table\">",
        "role=\"columnheader\"",
        "role=\"rowheader\"",
        "<td role=\"cell\" data-head=\"Your answer\">",
        "<td role=\"cell\" data-head=\"What was found\">",
        ".stacks td::before { content: attr(data-head)",
    ] {
        assert!(page.contains(expected), "{expected}");
    }
}
