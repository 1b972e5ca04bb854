//! Spaces, draws by secret, the ledger and the numbers of papers.

use assessment::ledger::{Ledger, LedgerFault};
use assessment::number::{NumberFault, PaperNumber, check_character};
use assessment::secret::{ExamSecret, PracticeSecret, TooShort, draw};
use assessment::space::{Size, Space};
use lesson::papers::Draw;
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet, HashSet};

fn exam() -> ExamSecret {
    ExamSecret::new(b"sixteen bytes or more").expect("long enough")
}

fn practice() -> PracticeSecret {
    PracticeSecret::new(b"sixteen bytes or more").expect("long enough")
}

#[test]
fn a_space_too_large_to_be_counted_says_so() {
    let size = Space::new(vec![10_000; 40]).size();
    assert_eq!(size, Size { count: u128::MAX, exact: false });
    assert_eq!(Space::new(vec![10_000; 9]).size(), Size { count: 10_u128.pow(36), exact: true });
    assert_eq!(Space::new(vec![]).size(), Size { count: 1, exact: true });
    assert_eq!(
        Space::new(vec![10_000; 40].into_iter().chain([0]).collect()).size(),
        Size { count: 0, exact: true }
    );
    assert!(draw(&exam(), "lesson", "student", 0, &Space::new(vec![10_000; 40])).is_some());
    assert!(draw(&exam(), "lesson", "student", 0, &Space::new(vec![3, 0])).is_none());
}

/// The reference is Python's standard library: `hmac.new(secret, message, "sha256")`, the message being each of
/// "exam", "draw", "girder", "4711" with its length in eight bytes before it, then the attempt and the block in eight
/// bytes each; the digest read as numbers of eight bytes, each modulo 7, 11, 13, 1000.
#[test]
fn a_draw_is_that_of_another_library() {
    let space = Space::new(vec![7, 11, 13, 1000, 7, 11]);
    let first = draw(&exam(), "girder", "4711", 0, &space).expect("a draw");
    assert_eq!(first.choices, FIRST);
    let fourth = draw(&exam(), "girder", "4711", 3, &space).expect("a draw");
    assert_eq!(fourth.choices, FOURTH);
}

const FIRST: [usize; 6] = [0, 1, 3, 929, 5, 7];
const FOURTH: [usize; 6] = [1, 8, 7, 653, 3, 7];

#[test]
fn the_same_bytes_draw_otherwise_for_practice_and_for_an_exam() {
    let space = Space::new(vec![1000, 1000, 1000]);
    let one = draw(&exam(), "girder", "4711", 0, &space);
    assert_eq!(one, draw(&exam(), "girder", "4711", 0, &space));
    for other in [
        draw(&practice(), "girder", "4711", 0, &space),
        draw(&exam(), "girder4", "711", 0, &space),
        draw(&exam(), "girder", "4711", 1, &space),
        draw(&exam(), "lintel", "4711", 0, &space),
    ] {
        assert_ne!(one, other);
    }
}

#[test]
fn a_secret_is_long_enough_and_never_shown() {
    assert_eq!(ExamSecret::new(b"short").expect_err("five bytes"), TooShort { bytes: 5 });
    assert_eq!(TooShort { bytes: 5 }.to_string(), "a secret of 5 bytes can be guessed; it needs at least 16");
    assert_eq!(format!("{:?}", exam()), "ExamSecret(..)");
}

/// Chi-square of 12 draws over 12 000 students: 11 degrees of freedom, of which one in a million exceeds 50 (by the
/// approximation of Wilson and Hilferty 1931).
#[test]
fn every_draw_is_as_likely_as_the_other() {
    let space = Space::new(vec![3, 4]);
    for attempt in [0, 1] {
        let mut counts = [0_f64; 12];
        for student in 0..12_000 {
            let draw = draw(&exam(), "girder", &student.to_string(), attempt, &space).expect("a draw");
            counts[space.index(&draw).expect("of the space") as usize] += 1.0;
        }
        let chi_square: f64 = counts.iter().map(|count| (count - 1000.0).powi(2) / 1000.0).sum();
        assert!(chi_square < 50.0, "{chi_square}");
        // That it is not too even either: one in a million falls below 0.7.
        assert!(chi_square > 0.7, "{chi_square}");
    }
}

proptest! {
    #[test]
    fn a_number_and_its_draw_belong_together(counts in prop::collection::vec(1_usize..40, 0..8), at in any::<u128>()) {
        let space = Space::new(counts);
        let size = space.size().count;
        let draw = space.draw(at % size).expect("within the space");
        prop_assert!(space.holds(&draw));
        prop_assert_eq!(space.index(&draw), Some(at % size));
        prop_assert_eq!(space.draw(size), None);
    }

    /// Whoever comes later changes no paper; no two are the same while the space allows it; then they are said to be.
    #[test]
    fn papers_stay_and_differ_while_they_can(counts in prop::collection::vec(1_usize..6, 1..4), students in 1_usize..60) {
        let space = Space::new(counts);
        let size = space.size().count as usize;
        let mut ledger = Ledger::new::<ExamSecret>("girder", space.clone());
        let mut given: BTreeMap<String, Draw> = BTreeMap::new();
        for student in 0..students {
            let name = format!("s{student}");
            let entry = ledger.give(&exam(), &name, |_| true).expect("anything fits").clone();
            prop_assert_eq!(entry.shared, student >= size);
            given.insert(name, entry.draw);
            for (name, draw) in &given {
                prop_assert_eq!(&ledger.paper(name).expect("was given").draw, draw);
            }
        }
        let different: HashSet<&Draw> = given.values().collect();
        prop_assert_eq!(different.len(), students.min(size));
        let numbers: HashSet<String> = ledger.papers().map(|(_, entry)| entry.number.to_string()).collect();
        prop_assert_eq!(numbers.len(), students);
        // Kept, read, and the same; asked again, the same.
        let mut kept = Ledger::read::<ExamSecret>(&ledger.text(), "girder", &space).expect("as it was written");
        prop_assert_eq!(&kept, &ledger);
        for (name, draw) in &given {
            prop_assert_eq!(&kept.give(&exam(), name, |_| false).expect("is there").draw, draw);
        }
    }

    /// Where nobody draws the same, the order does not matter.
    #[test]
    fn the_order_does_not_matter(mut students in Just((0..40).collect::<Vec<u32>>()).prop_shuffle()) {
        let space = Space::new(vec![100_000; 5]);
        let papers = |students: &[u32]| {
            let mut ledger = Ledger::new::<ExamSecret>("girder", space.clone());
            for student in students {
                ledger.give(&exam(), &student.to_string(), |_| true).expect("anything fits");
            }
            ledger.text()
        };
        let shuffled = papers(&students);
        students.sort_unstable();
        prop_assert_eq!(shuffled, papers(&students));
    }

    #[test]
    fn any_slip_in_a_number_is_found(student in any::<u32>(), place in 0_usize..8, other in 0_u32..36) {
        let number = PaperNumber::of(&exam(), "girder", &student.to_string(), 0).to_string();
        prop_assert_eq!(&PaperNumber::read(&number.to_lowercase().replace('-', " ")).expect("read as written").to_string(), &number);
        let mut characters: Vec<char> = number.chars().filter(|c| *c != '-').collect();
        let wrong = char::from_digit(other, 36).expect("below 36").to_ascii_uppercase();
        if characters[place] != wrong {
            characters[place] = wrong;
            let written: String = characters.into_iter().collect();
            prop_assert_eq!(PaperNumber::read(&written), Err(NumberFault::Check { written: written.clone() }));
        }
    }

    #[test]
    fn any_text_is_a_ledger_or_none(text in any::<String>(), cut in any::<prop::sample::Index>()) {
        let space = Space::new(vec![4, 3]);
        let _ = Ledger::read::<ExamSecret>(&text, "girder", &space);
        let mut ledger = Ledger::new::<ExamSecret>("girder", space.clone());
        ledger.give(&exam(), &format!("a{text}"), |_| true).expect("anything fits");
        let whole = ledger.text();
        prop_assert_eq!(&Ledger::read::<ExamSecret>(&whole, "girder", &space).expect("whole"), &ledger);
        let at = whole.floor_char_boundary(cut.index(whole.len() - 2));
        prop_assert!(Ledger::read::<ExamSecret>(&whole[..at], "girder", &space).is_err());
    }
}

/// Published: the Global Release Identifier's own example A12425GABC1234002M, whose check character is that of ISO 7064
/// MOD 37,36 (from memory). The system MOD 11,10 of the same standard has the example 0794 with 5 (from memory); it is the
/// same method with other numbers, so it is not tried here.
#[test]
fn the_check_character_is_the_published_one() {
    assert_eq!(check_character("A12425GABC1234002"), Some('M'));
    assert_eq!(check_character("a"), None);
    assert_eq!(check_character("Ä"), None);
}

#[test]
fn a_number_that_is_none_is_refused_in_words() {
    let told = |written: &str| PaperNumber::read(written).expect_err("none").to_string();
    assert_eq!(told("12"), "\"12\" is no paper number: it has 2 characters, a paper number has 8");
    assert_eq!(told("1234-56?8"), "\"1234-56?8\" is no paper number: '?' does not stand in one");
    assert!(
        told("0000-0000")
            .ends_with("a character is wrong, or two have changed places; look at the paper again")
    );
    let number = PaperNumber::of(&exam(), "girder", "4711", 0);
    assert!(!number.to_string().contains("4711"));
    assert_ne!(number, PaperNumber::of(&practice(), "girder", "4711", 0));
}

#[test]
fn draws_that_do_not_fit_are_passed_over() {
    let space = Space::new(vec![5, 5]);
    let mut ledger = Ledger::new::<PracticeSecret>("girder", space.clone());
    let fits = |draw: &Draw| draw.choices[0] + draw.choices[1] == 4;
    let drawn: Vec<(Draw, bool)> = (0..7)
        .map(|student| {
            let entry = ledger.give(&practice(), &student.to_string(), fits).expect("five fit");
            (entry.draw.clone(), entry.shared)
        })
        .collect();
    assert!(drawn.iter().all(|(draw, _)| fits(draw)));
    let different: BTreeSet<&Draw> = drawn.iter().map(|(draw, _)| draw).collect();
    assert_eq!(different.len(), 5);
    let shared: Vec<bool> = drawn.iter().map(|(_, shared)| *shared).collect();
    assert_eq!(shared, [false, false, false, false, false, true, true]);
    let mut other = Ledger::new::<PracticeSecret>("girder", space);
    let fault = other.give(&practice(), "1", |_| false).expect_err("nothing fits");
    assert_eq!(fault, LedgerFault::NothingFits { tried: 25, all: true });
    assert!(other.is_empty());
    let large = Space::new(vec![1000; 3]);
    let mut other = Ledger::new::<PracticeSecret>("girder", large);
    let fault = other.give(&practice(), "1", |_| false).expect_err("nothing fits").to_string();
    assert!(fault.ends_with(
        "draws were tried and none may be given out; let other values vary, or ask and require less"
    ));
}

/// Every way in which a ledger may be spoilt, with its exact message.
#[test]
fn a_spoilt_ledger_says_what_is_wrong_with_it() {
    let space = Space::new(vec![4, 3]);
    let mut ledger = Ledger::new::<ExamSecret>("girder", space.clone());
    for student in ["ann", "bo"] {
        ledger.give(&exam(), student, |_| true).expect("anything fits");
    }
    let text = ledger.text();
    let line = text.lines().find(|line| line.contains("\"ann\"")).expect("ann has a line");
    let number = ledger.paper("bo").expect("bo has a paper").number.to_string();
    let own = ledger.paper("ann").expect("ann has a paper").number.to_string();
    let drawn = format!("{:?}", ledger.paper("ann").expect("ann has a paper").draw.choices).replace(' ', "");
    let told =
        |text: &str| Ledger::read::<ExamSecret>(text, "girder", &space).expect_err("spoilt").to_string();
    let cases = [
        (
            text.replace("\"papers\"", "\"paper\""),
            "the ledger cannot be read (line 6, column 9: unknown field `paper`, expected one of `form`, `lesson`, `purpose`, \
             `choices`, `papers`); take the last good copy of it, for without it papers that were given out cannot be drawn \
             again"
                .to_owned(),
        ),
        (
            text.replace("\"form\": 1", "\"form\": 2"),
            "the ledger is written in form 2, this program knows form 1; use the program that wrote it".to_owned(),
        ),
        (
            text.replace("girder", "lintel"),
            "the ledger belongs to the lesson \"lintel\", not to \"girder\"; take the ledger of this lesson".to_owned(),
        ),
        (
            text.replace("exam", "practice"),
            "the ledger holds papers for practice, not for exam; keep a ledger for each".to_owned(),
        ),
        (
            text.replace("[4, 3]", "[4, 2]"),
            "what varies has changed since the papers of this ledger were drawn: [4, 2] choices then, [4, 3] now; put the \
             lesson back as it was, or begin a new ledger under another name"
                .to_owned(),
        ),
        (
            text.replace(line, &format!("{line}\n{line}")),
            "the student \"ann\" stands in the ledger twice; take one of the two lines out".to_owned(),
        ),
        (
            text.replace(&number, &own),
            format!("the paper number {own} stands in the ledger twice; take one of the two lines out"),
        ),
        (
            text.replace(&drawn, "[9,9]"),
            "the draw of the student \"ann\" is none that the lesson has; take the line out, or the last good copy of the \
             ledger"
                .to_owned(),
        ),
        (
            text.replace("\"ann\"", "\" \""),
            "a student has no name; give each a name or a number".to_owned(),
        ),
    ];
    for (spoilt, expected) in cases {
        assert_ne!(spoilt, text);
        assert_eq!(told(&spoilt), expected);
    }
    assert!(told(&text.replace(&number, "1234-5678")).contains("is no paper number"));
}

#[test]
fn a_restricted_space_has_its_own_draws_and_no_others() {
    let of = |choices: &[usize]| Draw { choices: choices.to_vec() };
    let rows = [of(&[6, 0, 3]), of(&[0, 2, 1]), of(&[6, 0, 3]), of(&[0, 1, 9]), of(&[7, 0, 0])];
    let space = Space::new(vec![7, 3, 10]).restricted(&rows);
    // One stands twice, one has a choice that there is not; in whatever order they come.
    assert_eq!(space.size(), Size { count: 3, exact: true });
    let draws: Vec<Draw> = (0..4).filter_map(|at| space.draw(at)).collect();
    assert_eq!(draws, [of(&[0, 1, 9]), of(&[0, 2, 1]), of(&[6, 0, 3])]);
    for (at, draw) in draws.iter().enumerate() {
        assert!(space.holds(draw) && space.has_choices(draw));
        assert_eq!(space.index(draw), Some(at as u128));
    }
    assert!(!space.holds(&of(&[0, 0, 0])) && space.has_choices(&of(&[0, 0, 0])));
    assert_eq!(space.index(&of(&[0, 0, 0])), None);
    let drawn: BTreeSet<Vec<usize>> = (0..100)
        .filter_map(|student| draw(&exam(), "girder", &student.to_string(), 0, &space))
        .map(|draw| draw.choices)
        .collect();
    assert_eq!(drawn.len(), 3);
}

/// A class of 200 from 40 rows of a space that cannot be counted: each row once before any is shared, and at once.
#[test]
fn a_class_is_drawn_from_a_restricted_lesson_of_a_huge_space() {
    let rows: Vec<Draw> = (0..40).map(|row| Draw { choices: vec![row; 40] }).collect();
    let space = Space::new(vec![10_000; 40]).restricted(&rows);
    let mut ledger = Ledger::new::<ExamSecret>("girder", space.clone());
    let start = std::time::Instant::now();
    for student in 0..200 {
        let entry = ledger.give(&exam(), &format!("s{student}"), |_| true).expect("anything fits");
        assert_eq!(entry.shared, student >= 40);
        assert!(space.holds(&entry.draw));
    }
    // A few milliseconds; not the minutes that drawing among all would take.
    assert!(start.elapsed().as_secs() < 5, "{:?}", start.elapsed());
}

/// Papers that were given out before the lesson was restricted stay what they are; whoever comes later gets one of the rows.
#[test]
fn a_ledger_keeps_its_papers_when_the_lesson_is_restricted() {
    let all = Space::new(vec![50, 50]);
    let mut ledger = Ledger::new::<ExamSecret>("girder", all.clone());
    let early = ledger.give(&exam(), "early", |_| true).expect("anything fits").draw.clone();
    let row = Draw { choices: vec![(early.choices[0] + 1) % 50, 0] };
    let restricted = all.restricted(std::slice::from_ref(&row));
    let mut ledger =
        Ledger::read::<ExamSecret>(&ledger.text(), "girder", &restricted).expect("the same choices");
    assert_eq!(ledger.paper("early").map(|entry| &entry.draw), Some(&early));
    assert_eq!(ledger.give(&exam(), "late", |_| true).expect("anything fits").draw, row);
    // And back again: what is kept says nothing of the restriction.
    assert!(Ledger::read::<ExamSecret>(&ledger.text(), "girder", &Space::new(vec![50, 50])).is_ok());
}

/// What was passed over can be told again from the ledger: the draw that a student has is the one of that number, and those
/// before it were refused or taken.
#[test]
fn the_ledger_keeps_which_of_the_draws_was_taken() {
    let space = Space::new(vec![6, 5]);
    let fits = |draw: &Draw| draw.choices[0].is_multiple_of(2);
    let mut ledger = Ledger::new::<ExamSecret>("girder", space.clone());
    for student in 0..20 {
        ledger.give(&exam(), &student.to_string(), fits).expect("15 fit");
    }
    let ledger = Ledger::read::<ExamSecret>(&ledger.text(), "girder", &space).expect("its own text");
    for (student, entry) in ledger.papers() {
        let at = usize::try_from(entry.attempt).expect("a small number");
        assert_eq!(ledger.draws(&exam(), student).nth(at).as_ref(), Some(&entry.draw));
        assert_eq!(ledger.passed_over(&exam(), student).len(), at);
        assert!(ledger.passed_over(&exam(), student).iter().all(|draw| !fits(draw) || ledger.is_taken(draw)));
    }
    assert_eq!(ledger.papers().filter(|(_, entry)| entry.shared).count(), 5);
    assert_eq!(ledger.not_drawn_by(&exam()), None);
    let other = ExamSecret::new(b"a secret that drew none of it").expect("long enough");
    assert!(ledger.not_drawn_by(&other).is_some());
}
