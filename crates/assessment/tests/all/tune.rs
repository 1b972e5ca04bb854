//! The search for round numbers, beside a census of all T-sections in whole numbers.

use crate::common::{papers, reference_text};
use assessment::tune::{Search, Short, TuneFault, Tuned};
use lesson::papers::Papers;
use mechanics::section::{HeightSide, Section, shapes};
use std::collections::BTreeSet;

/// A T-section in whole millimetres: flange b by f on a web t by h.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Tee {
    b: i128,
    f: i128,
    t: i128,
    h: i128,
}

/// A fraction in lowest terms.
#[derive(Clone, Copy, Debug)]
struct Fraction(i128, i128);

impl Fraction {
    fn new(above: i128, below: i128) -> Self {
        let (mut a, mut b) = (above, below);
        while b != 0 {
            (a, b) = (b, a % b);
        }
        Self(above / a, below / a)
    }

    /// How many digits its decimal has, and whether the first of them is 1; `None` where it never ends.
    fn digits(self) -> Option<(usize, bool)> {
        let Self(mut above, mut below) = self;
        for (factor, other) in [(2, 5), (5, 2)] {
            while below % factor == 0 {
                below /= factor;
                above *= other;
            }
        }
        let text = above.abs().to_string();
        (below.abs() == 1).then(|| (text.trim_end_matches('0').len().max(1), text.starts_with('1')))
    }
}

impl Tee {
    fn area(self) -> i128 {
        self.b * self.f + self.t * self.h
    }

    /// Twice the first moment about the base, mm3.
    fn twice_moment(self) -> i128 {
        self.t * self.h * self.h + self.b * self.f * (2 * self.h + self.f)
    }

    fn centroid(self) -> Fraction {
        Fraction::new(self.twice_moment(), 2 * self.area())
    }

    /// I = sum (b h^3/12 + A y^2) - S^2/A about the base, all over 12 A.
    fn second_moment(self) -> Fraction {
        let Self { b, f, t, h } = self;
        let a = self.area();
        let about_base =
            b * f * f * f + 3 * b * f * (2 * h + f) * (2 * h + f) + t * h * h * h + 3 * t * h * h * h;
        Fraction::new(about_base * a - 3 * self.twice_moment() * self.twice_moment(), 12 * a)
    }

    /// Q of the flange.
    fn first_moment(self) -> Fraction {
        let Fraction(above, below) = self.centroid();
        Fraction::new(self.b * self.f * ((2 * self.h + self.f) * below - 2 * above), 2 * below)
    }

    /// tau at the junction for V, MPa with V in N.
    fn shear_stress(self, v: i128) -> Fraction {
        let (Fraction(q, q_below), Fraction(i, i_below)) = (self.first_moment(), self.second_moment());
        Fraction::new(v * q * i_below, q_below * i * self.t)
    }
}

/// The grid of the notes: flange 60 to 300 by 10 to 50, web 10 to 50 by 50 to 300, in steps of 10 mm.
fn grid() -> Vec<Tee> {
    let tens = |from: i128, to: i128| (from / 10..=to / 10).map(|count| 10 * count);
    let flanges = tens(60, 300).flat_map(|b| tens(10, 50).map(move |f| (b, f)));
    let webs: Vec<(i128, i128)> = tens(10, 50).flat_map(|t| tens(50, 300).map(move |h| (t, h))).collect();
    flanges.flat_map(|(b, f)| webs.clone().into_iter().map(move |(t, h)| Tee { b, f, t, h })).collect()
}

/// Centroid, mm, I, mm4, and Q of the flange, mm3, by the engine.
fn by_the_engine(tee: Tee) -> (f64, f64, f64) {
    let Tee { b, f, t, h } = tee;
    let metres = |size: i128| size as f64 / 1e3;
    let shape = shapes::tee(metres(b), metres(f), metres(t), metres(h + f), true).expect("a sound T");
    let section = Section::new(shape.parts).expect("a sound section");
    let cut = section.level_cut(metres(h), HeightSide::Above).expect("it meets the section");
    (section.neutral_axis() * 1e3, section.properties().second_moment * 1e12, cut.first_moment * 1e9)
}

/// Source: the census of the unit's notes on assessment, section 2: of 16 250 T-sections 1514 have a whole-millimetre
/// centroid, 399 of these an I exact in 4 figures, and 113 also a tau at the junction exact in 3 figures for some whole V
/// from 1 to 40 kN; 29 of these have equal part areas. Here by fractions of whole numbers, and by the digits of floats.
#[test]
fn the_census_of_all_t_sections() {
    let grid = grid();
    assert_eq!(grid.len(), 16_250);
    let mut counts = [0; 4];
    for tee in grid {
        let (centroid, second_moment, first_moment) = by_the_engine(tee);
        let whole = tee.centroid().1 == 1;
        assert_eq!(Short::of(centroid).is_some_and(|short| short.last >= 0), whole, "{tee:?}");
        let digits = tee.second_moment().digits().map(|(digits, _)| digits);
        let short = Short::of(second_moment).map(|short| short.digits as usize);
        assert_eq!(short, digits.filter(|digits| *digits <= 6), "{tee:?}");
        if !whole {
            continue;
        }
        counts[0] += 1;
        if digits.is_none_or(|digits| digits > 4) {
            continue;
        }
        counts[1] += 1;
        let mut any = false;
        for v in 1..=40 {
            let exact = tee.shear_stress(1000 * v).digits().is_some_and(|(digits, _)| digits <= 3);
            let tau = 1e3 * v as f64 * first_moment / (second_moment * tee.t as f64);
            assert_eq!(Short::of(tau).is_some_and(|short| short.digits <= 3), exact, "{tee:?} {v}");
            any |= exact;
        }
        counts[2] += usize::from(any);
        counts[3] += usize::from(any && tee.b * tee.f == tee.t * tee.h);
    }
    assert_eq!(counts, [1514, 399, 113, 29]);
}

/// The five sections that the notes give as examples are among those of this lesson: 3 by 3 by 3 by 4 sections.
const GRID: &str = r#"[vary]
b = ["80 mm", "90 mm", "120 mm"]
f = ["30 mm", "40 mm", "50 mm"]
t = ["10 mm", "20 mm", "30 mm"]
h = ["80 mm", "90 mm", "100 mm", "120 mm"]

[beam]"#;

fn with(vary: &str) -> Papers {
    papers(&reference_text(&[]).replace("[beam]", vary))
}

fn tee(tuned: &Tuned, row: usize) -> Tee {
    let size = |name: &str| -> i128 {
        let found = tuned.rows[row].choices.iter().find(|choice| choice.name == name);
        found
            .and_then(|choice| choice.is.strip_suffix(" mm"))
            .and_then(|size| size.parse().ok())
            .expect("a size")
    };
    Tee { b: size("b"), f: size("f"), t: size("t"), h: size("h") }
}

/// Whether a value is exact in three figures, four where the first is 1.
fn is_exact(value: Fraction) -> bool {
    value.digits().is_some_and(|(digits, first_is_1)| digits <= if first_is_1 { 4 } else { 3 })
}

#[test]
fn the_search_finds_the_sections_that_whole_numbers_find() {
    let results = ["centroid height", "second moment", "first moment at the cut"];
    let tuned = Search::new(with(GRID), &results).expect("it varies").run(60);
    let sections: Vec<Tee> = [80, 90, 120]
        .into_iter()
        .flat_map(|b| {
            [30, 40, 50].into_iter().flat_map(move |f| [10, 20, 30].into_iter().map(move |t| (b, f, t)))
        })
        .flat_map(|(b, f, t)| [80, 90, 100, 120].into_iter().map(move |h| Tee { b, f, t, h }))
        .collect();
    let exact: BTreeSet<Tee> = sections
        .iter()
        .copied()
        .filter(|tee| [tee.centroid(), tee.second_moment(), tee.first_moment()].into_iter().all(is_exact))
        .collect();
    assert_eq!((tuned.census.looked_at, tuned.census.draws), (108, 108));
    assert_eq!(tuned.census.sound() - tuned.census.long, exact.len() as u64);
    let long = |at: usize| tuned.census.long_results[at].long;
    let count = |of: fn(Tee) -> Fraction| sections.iter().filter(|tee| !is_exact(of(**tee))).count() as u64;
    assert_eq!(
        [long(0), long(1), long(2)],
        [count(Tee::centroid), count(Tee::second_moment), count(Tee::first_moment)]
    );
    // Those with equal part areas hide `centroid-unweighted`; they are the ones that do not come back.
    let found: BTreeSet<Tee> = (0..tuned.rows.len()).map(|row| tee(&tuned, row)).collect();
    let shown = |tee: &&Tee| tee.b * tee.f != tee.t * tee.h;
    for tee in exact.iter().filter(shown) {
        let told = tuned.rows.len() < 60 || found.contains(tee);
        assert!(told, "{tee:?}");
    }
    assert!(found.iter().all(|tee| shown(&tee)), "{found:?}");
    // The example of the reference lesson: 105 mm, 11.25e6 mm4, 108 000 mm3.
    assert!(found.contains(&Tee { b: 120, f: 30, t: 20, h: 120 }));
    for (row, next) in tuned.rows.iter().zip(tuned.rows.iter().skip(1)) {
        let long = |row: &assessment::tune::Row| row.results.iter().filter(|result| !result.exact).count();
        assert!(long(row) <= long(next), "the roundest stand first");
    }
}
/// Without names the questions' results are to be round and, as far as may be, all on the way to them: of all 108 sections
/// the reference lesson's own alone has a round tau of 12 MPa and hides no mistake.
#[test]
fn the_reference_lesson_is_found_again() {
    let tuned = Search::new(with(GRID), &[]).expect("it varies").run(5);
    assert_eq!(tuned.rows.len(), 1);
    let row = &tuned.rows[0];
    assert_eq!(tee(&tuned, 0), Tee { b: 120, f: 30, t: 20, h: 120 });
    assert!(row.results.iter().all(|result| result.exact), "{:?}", row.results);
    assert_eq!((tuned.results[0].as_str(), tuned.exact), ("shear stress on the cut", 1));
    assert!((row.results[0].value - 12e6).abs() < 1.0);
    assert_eq!(row.results[0].shown, "12.00\u{a0}MPa");
    let [round, well, separate] = &row.explanation[..] else { panic!("{:?}", row.explanation) };
    assert!(
        round.starts_with("round: the result is exact") && round.ends_with("so is every value on the way")
    );
    assert!(well.starts_with("well conditioned: rounding on the way changes nothing"), "{well}");
    assert!(separate.contains("q-about-own-edge and q-to-the-cut"), "{separate}");
    // Fewer than were wanted: what to widen. By fractions: tau of 25 kN is exact in so many of the sections.
    let [hard, hidden] = &tuned.advice[..] else { panic!("{:?}", tuned.advice) };
    assert!(hard.contains("in 2 of 108 combinations: give b, f, t, h more choices"), "{hard}");
    assert!(hidden.contains("in 1 of the 2 round ones a mistake hides"), "{hidden}");
    let json = serde_json::to_value(&tuned).expect("it can be written");
    assert_eq!(json["rows"][0]["choices"][0]["name"], "b");
    assert_eq!(json["census"]["fit"], 1);
}

/// By hand: A of the section is 120 · f + 20 · 130 mm2 with 7 or 11 in it, which no tau = V Q/(I t) gets rid of.
#[test]
fn where_nothing_fits_the_nearest_are_told_and_what_to_widen() {
    let vary = "[vary]\nf = [\"31 mm\", \"33 mm\"]\nP = [\"19 kN\", \"21 kN\"]\n\n[beam]";
    let tuned =
        Search::new(with(vary), &["shear force at the slice", "second moment"]).expect("it varies").run(3);
    assert!(tuned.rows.is_empty());
    assert_eq!(tuned.census.long, 4);
    assert_eq!(tuned.misses.len(), 3);
    let told = &tuned.misses[0].reasons;
    assert!(
        told.iter().any(|reason| reason.starts_with("second moment: ") && reason.ends_with(" is not exact"))
    );
    assert_eq!(
        tuned.advice[0],
        "all 2 results are exact in the course's figures in none of 4 combinations; the hardest is second moment, in none of \
         4 combinations: give f more choices, or finer steps"
    );
}

/// By hand: with a flange of 31 mm the centroid has 20 · 120 + 120 · 31 = 6120 mm², 17 in it, below the line of the centroid, and so of I; P
/// does not change it. More choices of P would not help, though the stress that depends on both is exact nowhere either.
#[test]
fn what_nothing_that_varies_changes_is_not_to_be_widened() {
    let vary = "[vary]\nP = [\"19 kN\", \"21 kN\"]\n\n[beam]";
    let flange = papers(&reference_text(&[("f", "31 mm")]).replace("[beam]", vary));
    let tuned = Search::new(flange, &["second moment", "shear stress on the cut"]).expect("it varies").run(3);
    let advice = &tuned.advice[0];
    assert!(advice.contains("second moment cannot be made round by what varies"), "{advice}");
    assert!(
        advice.contains("made from the breadth of web") && !advice.contains("give P more choices"),
        "{advice}"
    );
}

/// Loads off the beam, and what the lesson requires, are counted and not offered.
#[test]
fn what_cannot_be_or_is_not_wanted_is_counted() {
    let vary = r#"[vary]
P = ["12 kN", "16 kN", "20 kN", "24 kN", "28 kN"]

[papers]
require = ["shear stress on the cut < 11 MPa"]

[beam]"#;
    let tuned = Search::new(with(vary), &["shear force at the slice"]).expect("it varies").run(9);
    // tau = 12/25 MPa per kN of V = (3 P + 40)/4 kN: 9.1, 10.6, 12, ... MPa.
    assert_eq!((tuned.census.looked_at, tuned.census.unmet), (5, 3));
    assert!(tuned.advice[0].starts_with("3 of 5 sound combinations do not meet what [papers] requires"));
    let found: BTreeSet<&str> = tuned.rows.iter().map(|row| row.choices[0].is.as_str()).collect();
    assert_eq!(found, BTreeSet::from(["12 kN", "16 kN"]));
}

#[test]
fn what_cannot_be_searched_is_refused() {
    let fault = Search::new(papers(&reference_text(&[])), &[]).expect_err("nothing varies");
    assert_eq!(fault, TuneFault::NothingVaries);
    let fault = Search::new(with(GRID), &["second momnt"]).expect_err("no such working");
    assert!(fault.to_string().contains("\"second momnt\""), "{fault}");
}

/// Papers that are restricted already are searched as if they were not, or a second search could find nothing else.
#[test]
fn a_restriction_does_not_bind_the_search() {
    let vary = "[vary]\nP = [\"20 kN\", \"24 kN\"]\n\n[papers]\nonly = [{ P = \"20 kN\" }]\n\n[beam]";
    let tuned = Search::new(with(vary), &["shear force at the slice"]).expect("it varies").run(9);
    assert_eq!(tuned.census.draws, 2);
}
