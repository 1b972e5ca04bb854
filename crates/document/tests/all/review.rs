//! The review of a class prints the figures that `assessment::review` found, and says what they are worth.

use crate::common::page::checked;
use assessment::mark::{Answer, Marked, Marker, Units, Written};
use assessment::review::{self as figures, CAUTION, Entry, Flag, Item, MarkedStudent, Matrix, Review};
use assessment::set::{Ask, SetPaper};
use document::review::{ByHand, Class, review};
use document::tree::{Block, Document, Paper, Table, plain};

/// Source of its numbers: the unit's notes on mistakes, "The reference lesson".
const REFERENCE: &str = include_str!("../../../assessment/tests/lessons/class.toml");

struct Student {
    id: String,
    set: SetPaper,
    answers: Vec<(String, Answer)>,
    marked: Marked,
}

/// The paper of a student: force, flange and web are their own.
fn set(student: usize) -> SetPaper {
    let (breadth, height) = ([80, 90, 120][student % 3], [90, 100, 120][student / 3 % 3]);
    let text = REFERENCE
        .replace("P = \"20 kN\"", &format!("P = \"{} kN\"", 10 + student % 20))
        .replace("b = \"120 mm\"", &format!("b = \"{breadth} mm\""))
        .replace("h = \"120 mm\"", &format!("h = \"{height} mm\""));
    let reading = lesson::read(&text, "class.toml");
    let (lesson, solved) = reading.lesson.zip(reading.solved).expect("a sound lesson");
    SetPaper::new(lesson, solved).expect("its questions can be set")
}

/// Students with papers of their own: every third leaves out the parallel axes, every fifth the first moment blank, every seventh has
/// all of it wrong, the two last have the answers of the paper before theirs.
fn students(count: usize) -> Vec<Student> {
    let sets: Vec<SetPaper> = (0..count).map(set).collect();
    let student = |student: usize| {
        let own = &sets[student];
        let from = if student + 2 >= count { &sets[student - 1] } else { own };
        let answer = |place: usize, ask: &Ask| {
            let Ask::Value(value) = ask else { panic!("values only") };
            let right = value.right;
            let value = match (value.working.as_str(), student) {
                ("second moment", _) if student.is_multiple_of(3) => {
                    let known = value.mistakes.iter().find(|known| known.mistake == "no-parallel-axis");
                    known.expect("a T has it").value
                }
                ("first moment at the cut", _) if student.is_multiple_of(5) => return Answer::Blank,
                _ if student.is_multiple_of(7) => right * (1.3 + 0.17 * place as f64),
                _ => right,
            };
            Answer::Value(Written::new(value, Some(5e-4 * value.abs())).expect("a number"))
        };
        let parts = from.parts().enumerate();
        let answers: Vec<(String, Answer)> =
            parts.map(|(place, part)| (part.label.clone(), answer(place, &part.ask))).collect();
        let marked = Marker::new(own).expect("formulas of ours").mark(&answers).expect("its own labels");
        Student { id: format!("s{student:03}"), set: own.clone(), answers, marked }
    };
    (0..count).map(student).collect()
}

fn as_marked(students: &[Student]) -> Vec<MarkedStudent<'_>> {
    fn of(student: &Student) -> MarkedStudent<'_> {
        let Student { id, set, answers, marked } = student;
        MarkedStudent { student: id, paper: set, answers, marked }
    }
    students.iter().map(of).collect()
}

struct Found {
    figures: Review,
    mistakes: figures::Mistakes,
    likenesses: figures::Likenesses,
    document: Document,
}

fn found(students: &[Student]) -> Found {
    let class = as_marked(students);
    let review_of = Review::of(&figures::matrix(&class).expect("a matrix"));
    let mistakes = figures::mistakes(&figures::wrong_answers(&class));
    let likenesses = figures::likeness(&figures::values(&class, Units::Printed));
    let document = review(
        &Class {
            paper: &students[0].set,
            papers: students.len() + 2,
            figures: &review_of,
            mistakes: &mistakes,
            likenesses: &likenesses,
            by_hand: ByHand { read: 3, to_read: 1, marked: 2, to_mark: 0 },
        },
        Paper::A4,
    );
    Found { figures: review_of, mistakes, likenesses, document }
}

fn tables(document: &Document) -> Vec<&Table> {
    let mut tables = Vec::new();
    document.body.iter().for_each(|block| {
        block.each(&mut |block| {
            if let Block::Table(table) = block {
                tables.push(table);
            }
        });
    });
    tables
}

fn cells(document: &Document, header: &str) -> Vec<Vec<String>> {
    let text = |cell: &Vec<_>| plain(cell, &document.style);
    let table =
        tables(document).into_iter().find(|table| table.header.iter().any(|cell| text(cell) == header));
    let table = table.unwrap_or_else(|| panic!("a table with {header}"));
    table.rows.iter().map(|row| row.iter().map(text).collect()).collect()
}

#[test]
fn the_figures_are_those_of_the_review() {
    let students = students(42);
    let Found { figures, mistakes, likenesses, document } = found(&students);
    let page = checked(&document);
    let hard = cells(&document, "Difficulty");
    let telling = cells(&document, "Discrimination");
    assert_eq!((hard.len(), telling.len()), (figures.items.len(), figures.items.len()));
    for ((item, hard), telling) in figures.items.iter().zip(&hard).zip(&telling) {
        assert!(hard[0].starts_with(&item.label) && telling[0] == hard[0]);
        assert_eq!(hard[2], format!("{:.0}\u{a0}%", 100.0 * item.facility.expect("a facility")));
        assert_eq!(hard[4..], [item.full, item.nothing, item.blank].map(|count| count.to_string()));
        let shown = |value: Option<f64>| {
            value.map_or("\u{2013}".to_owned(), |value| format!("{value:.2}").replace('-', "\u{2212}"))
        };
        assert_eq!(telling[1], shown(item.discrimination.map(|found| found.d)));
        assert_eq!(telling[2], shown(item.with_rest.map(|found| found.r)));
        let interval = item.with_rest.and_then(|found| found.interval).expect("the class is large enough");
        assert_eq!(telling[3], format!("{} to {}", shown(Some(interval.lower)), shown(Some(interval.upper))));
        assert_eq!(
            telling[4],
            item.point_biserial.map_or("part marks".to_owned(), |value| shown(Some(value)))
        );
    }
    assert!(figures.items.iter().any(|item| item.discrimination.is_some()), "the class is large enough");
    let again = cells(&document, "First");
    for (made, row) in mistakes.made.iter().zip(&again) {
        assert_eq!(row[1..3], [made.students.to_string(), made.first.to_string()]);
    }
    assert!(again[0][0].contains("about its own axis") && again[0][3].contains("second moment"), "{again:?}");
    let totals = figures.totals.expect("totals");
    let drawing = document.body.iter().find_map(|block| match block {
        Block::Figure(figure) => Some(&figure.drawing),
        _ => None,
    });
    let labels: Vec<String> =
        drawing.expect("a drawing").labels().into_iter().map(|label| label.text).collect();
    let counts: Vec<String> = totals.stretches.iter().map(|stretch| stretch.students.to_string()).collect();
    assert_eq!(labels[..counts.len()], counts);
    let reliability = figures.reliability.expect("the class is large enough");
    for text in [
        format!("alpha is {:.2};", reliability.alpha).replace('-', "\u{2212}"),
        format!("measurement is {:.2} marks", reliability.error),
        format!(
            "Mean {:.2}, median {:.2}, standard deviation {:.2}",
            totals.mean, totals.median, totals.deviation
        ),
        format!("{} answers are wrong in themselves", mistakes.wrong),
        format!(
            "{} such answers were held against {} different papers",
            likenesses.answers, likenesses.papers
        ),
        "A person has read 3 answers that could not be read for certain, and marked 2 answers.".to_owned(),
    ] {
        assert!(page.contains(&text), "{text}");
    }
    // A line for each question that has something amiss, and for no other.
    let amiss = |item: &&figures::ItemFigures| item.flags.iter().any(|flag| *flag != Flag::NotMarked);
    assert_eq!(to_look_at(&document).len(), figures.items.iter().filter(amiss).count());
}

/// The lines of the questions to look at again.
fn to_look_at(document: &Document) -> Vec<String> {
    let heading = |block: &Block| match block {
        Block::Heading { level: 1, text } => plain(text, &document.style) == "Questions to look at again",
        _ => false,
    };
    let at = document.body.iter().position(heading).expect("the heading");
    match document.body.get(at + 1) {
        Some(Block::List { items, .. }) => items
            .iter()
            .map(|item| match item.as_slice() {
                [Block::Paragraph(words)] => plain(words, &document.style),
                other => panic!("one paragraph: {other:?}"),
            })
            .collect(),
        _ => Vec::new(),
    }
}

/// The review of marks that were made up; the paper is that of the reference lesson.
fn of_marks(paper: &SetPaper, rows: Vec<Vec<Entry>>) -> Document {
    let item = |part: &assessment::set::Part| Item { label: part.label.clone(), out_of: part.marks };
    let items: Vec<Item> = paper.parts().take(rows[0].len()).map(item).collect();
    let papers = rows.len();
    let figures = Review::of(&Matrix::new(items, rows).expect("a matrix"));
    let class = Class {
        paper,
        papers,
        figures: &figures,
        mistakes: &figures::mistakes(&[]),
        likenesses: &figures::likeness(&[]),
        by_hand: ByHand::default(),
    };
    review(&class, Paper::A4)
}

/// With a decimal comma every number of the review has one, and a minus is a minus. Of twenty students ten have the first right, two of
/// them the second too: r = -0.6, from -0.82 to -0.21.
#[test]
fn words_of_a_question_have_the_marks_of_the_course() {
    let paper = |notation: &str| {
        let reading = lesson::read(&format!("{REFERENCE}\n{notation}"), "class.toml");
        let (lesson, solved) =
            reading.lesson.zip(reading.solved).unwrap_or_else(|| panic!("{:?}", reading.findings));
        SetPaper::new(lesson, solved).expect("its questions can be set")
    };
    let rows = |most: [f64; 2]| -> Vec<Vec<Entry>> {
        (0..20)
            .map(|at| {
                let right = [at < 10, at < 2 || (10..18).contains(&at)];
                right
                    .into_iter()
                    .zip(most)
                    .map(|(right, most)| Entry::Earned(if right { most } else { 0.0 }))
                    .collect()
            })
            .collect()
    };
    for (notation, r, interval) in [
        ("", "r = \u{2212}0.60", "\u{2212}0.82 to \u{2212}0.21"),
        ("[notation]\ndecimal-mark = \",\"\n", "r = \u{2212}0,60", "\u{2212}0,82 to \u{2212}0,21"),
    ] {
        let set = paper(notation);
        let most: Vec<f64> = set.parts().map(|part| part.marks).collect();
        let told = to_look_at(&of_marks(&set, rows([most[0], most[1]])));
        assert_eq!(told.len(), 2, "{told:?}");
        for line in &told {
            assert!(line.contains(r) && line.contains(interval) && !line.contains('-'), "{line}");
        }
    }
}

/// All have one paper: nobody has numbers of their own.
#[test]
fn papers_that_are_alike_are_not_called_different() {
    let set = set(0);
    let most: Vec<f64> = set.parts().map(|part| part.marks).collect();
    let rows =
        (0..4).map(|at| vec![Entry::Earned(if at < 2 { most[0] } else { 0.0 }), Entry::Blank]).collect();
    let page = checked(&of_marks(&set, rows));
    assert!(page.contains("All papers have the same numbers"), "{page}");
    assert!(!page.contains("papers differ") && !page.contains("numbers of their own"));
    assert!(!page.contains("left it blank"), "nobody answered it");
}

/// Values of somebody else's paper are counted, with what chance makes of it, and never without the caution.
#[test]
fn likeness_never_stands_without_its_caution() {
    let Found { likenesses, document, .. } = found(&students(42));
    let rare: Vec<_> = likenesses.found.iter().filter(|found| found.by_chance < 1.0).collect();
    assert!(!rare.is_empty(), "two students have the answers of another paper");
    let page = checked(&document);
    let start = CAUTION.split(". ").next().expect("a sentence");
    assert!(page.contains(start), "{start}");
    let rows = cells(&document, "Pairs by chance");
    assert_eq!(rows.len(), rare.len().min(10));
    for (found, row) in rare.iter().zip(&rows) {
        assert_eq!(row[0], found.student);
        assert_eq!(
            row[2..5],
            [found.looked_at, found.right.len(), found.wrong.len()].map(|count| count.to_string())
        );
    }
    let page = page.to_lowercase();
    for word in ["cheat", "copied", "plagiar", "suspect", "dishonest"] {
        assert!(!page.contains(word), "{word}");
    }
    // None is like another: nobody is listed, and there is nothing to be cautious about.
    let Found { likenesses, document, .. } = found(&students(42)[..2]);
    assert!(likenesses.found.is_empty());
    assert!(!checked(&document).contains(start));
}

/// Twenty mistakes, each of one student more than the next, and two slips of many: none is left out, and no scene teaches a slip.
#[test]
fn every_mistake_is_told_and_slips_apart() {
    let students = students(3);
    let ids: Vec<&str> = workings::mistake::catalogue().map(|mistake| mistake.id()).take(20).collect();
    let wrong = |student: usize, mistake: &str, is_slip: bool| figures::WrongAnswer {
        student: format!("s{student}"),
        item: "1".into(),
        working: "shear force at the slice".into(),
        scene: if is_slip { String::new() } else { "diagrams".into() },
        order: 1,
        mistake: Some(mistake.into()),
        is_ambiguous: false,
        is_slip,
    };
    let made = ids
        .iter()
        .enumerate()
        .flat_map(|(at, id)| (0..20 - at).map(move |student| wrong(student, id, false)));
    let slips = ["sign", "power-of-ten"]
        .into_iter()
        .flat_map(|id| (0..30).map(move |student| wrong(student, id, true)));
    let mistakes = figures::mistakes(&made.chain(slips).collect::<Vec<_>>());
    let class = as_marked(&students);
    let document = review(
        &Class {
            paper: &students[0].set,
            papers: 40,
            figures: &Review::of(&figures::matrix(&class).expect("a matrix")),
            mistakes: &mistakes,
            likenesses: &figures::likeness(&figures::values(&class, Units::Printed)),
            by_hand: ByHand::default(),
        },
        Paper::A4,
    );
    let style = &document.style;
    let mut again = String::new();
    let mut is_there = false;
    for block in &document.body {
        if let Block::Heading { level: 1, text } = block {
            is_there = plain(text, style) == "What to teach again";
        }
        block.each(&mut |block| match block {
            Block::Paragraph(words) if is_there => again += &format!("{}\n", plain(words, style)),
            Block::Table(table) if is_there => {
                for row in &table.rows {
                    again += &row.iter().map(|cell| plain(cell, style)).collect::<Vec<_>>().join("|");
                    again.push('\n');
                }
            }
            _ => {}
        });
    }
    for (at, id) in ids.iter().enumerate() {
        let does = workings::mistake::named(id).expect("of the catalogue").does(style).text(style);
        let line =
            again.lines().find(|line| line.starts_with(&does)).unwrap_or_else(|| panic!("{id}: {again}"));
        let students = 20 - at;
        let told = match students {
            1 => line.contains(": 1 student;"),
            _ => line.contains(&format!("|{students}|")) || line.contains(&format!(": {students} students;")),
        };
        assert!(told && line.contains("shear force"), "{line}");
    }
    for slip in ["loses the sign: 30 students", "loses a power of ten: 30 students"] {
        let line =
            again.lines().find(|line| line.starts_with(slip)).unwrap_or_else(|| panic!("{slip}: {again}"));
        assert!(!line.contains("scene of"), "{line}");
    }
    let page = checked(&document);
    assert!(!page.contains("each loses the sign"), "a slip is nothing to teach again");
}

/// Signs that two of five students lose are not settled: the scene that settles them is named, on the first page too. What one in nine loses is a
/// slip.
#[test]
fn a_sign_that_many_lose_is_taught_again() {
    let students = students(9);
    let lost = |student: usize| figures::WrongAnswer {
        student: format!("s{student}"),
        item: "1".into(),
        working: "shear force at the slice".into(),
        scene: "diagrams".into(),
        order: 1,
        mistake: Some("v-sign".into()),
        is_ambiguous: false,
        is_slip: true,
    };
    let page = |count: usize| {
        let class = as_marked(&students);
        let wrong: Vec<figures::WrongAnswer> = (0..count).map(lost).collect();
        let told = Class {
            paper: &students[0].set,
            papers: 9,
            figures: &Review::of(&figures::matrix(&class).expect("a matrix")),
            mistakes: &figures::mistakes(&wrong),
            likenesses: &figures::likeness(&figures::values(&class, Units::Printed)),
            by_hand: ByHand::default(),
        };
        checked(&review(&told, Paper::A4))
    };
    let many = page(4);
    assert!(
        many.contains("Teach again, 4 students: ") && many.contains("scene of the shear force"),
        "{many}"
    );
    assert!(!many.contains("Nothing of the lecture is misunderstood"));
    let few = page(1);
    assert!(
        few.contains("Nothing of the lecture is misunderstood") && !few.contains("Teach again, "),
        "{few}"
    );
}

/// Of two places with one answer each neither has most of them; of three answers two are most.
#[test]
fn mostly_is_said_of_more_than_half() {
    let students = students(3);
    let slip = |student: usize, working: &str| figures::WrongAnswer {
        student: format!("s{student}"),
        item: "1".into(),
        working: working.into(),
        scene: String::new(),
        order: 1,
        mistake: Some("power-of-ten".into()),
        is_ambiguous: false,
        is_slip: true,
    };
    let (v, q) = ("shear force at the slice", "first moment at the cut");
    let told = |wrong: &[figures::WrongAnswer]| {
        let class = as_marked(&students);
        let document = review(
            &Class {
                paper: &students[0].set,
                papers: 3,
                figures: &Review::of(&figures::matrix(&class).expect("a matrix")),
                mistakes: &figures::mistakes(wrong),
                likenesses: &figures::likeness(&figures::values(&class, Units::Printed)),
                by_hand: ByHand::default(),
            },
            Paper::A4,
        );
        let mut all = String::new();
        for block in &document.body {
            block.each(&mut |block| {
                if let Block::Paragraph(words) = block {
                    all += &plain(words, &document.style);
                }
            });
        }
        let start = all.find("loses a power of ten").expect("it is told");
        all[start..].split('.').next().unwrap_or_default().to_owned()
    };
    let tie = told(&[slip(0, v), slip(1, q)]);
    assert!(!tie.contains("mostly") && tie.contains("shear force") && tie.contains("first moment"), "{tie}");
    let most = told(&[slip(0, v), slip(1, q), slip(2, q)]);
    assert!(most.contains("mostly at the first moment") && !most.contains("shear force"), "{most}");
    let none = told(&[slip(0, v), slip(1, q), slip(2, "second moment")]);
    assert!(!none.contains(" at the "), "{none}");
}

#[test]
fn a_small_class_gets_no_figures_that_need_a_large_one() {
    let Found { figures, document, .. } = found(&students(12));
    assert_eq!(figures.reliability, None);
    let page = checked(&document);
    assert!(page.contains("12 students are marked in full. Below 20"), "no reliability, and why");
    assert!(page.contains("below 20 that are marked in full they are not shown"));
    let header = |table: &&Table| {
        table.header.iter().any(|cell| plain(cell, &document.style).starts_with("Discrimination"))
    };
    assert_eq!(tables(&document).iter().filter(|table| header(table)).count(), 0);
}
