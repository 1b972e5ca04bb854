//! What a class's marks say. Beside these stands tests/comparison/items.py, which reckons random classes again with general
//! statistics libraries.

use assessment::review::chance::{TestKind, at_least, chi_square_tail, holm, test};
use assessment::review::{
    Entry, Flag, Item, ItemFigures, Matrix, MatrixFault, Review, Totals, WrongAnswer, against, fisher,
    mistakes, variants, wilson,
};
use proptest::prelude::*;

fn matrix(out_of: &[f64], rows: &[&[f64]]) -> Matrix {
    let items = out_of.iter().enumerate();
    let items = items.map(|(at, &out_of)| Item { label: format!("{}", at + 1), out_of }).collect();
    let rows = rows.iter().map(|row| row.iter().map(|&marks| Entry::Earned(marks)).collect()).collect();
    Matrix::new(items, rows).expect("a matrix")
}

fn within(found: f64, expected: f64, bound: f64) {
    assert!((found - expected).abs() <= bound, "{found} is not {expected} to {bound}");
}

/// Source: Newcombe, Statistics in Medicine 17 (1998) 857, table I, method 3 (Wilson, no correction), printed to four decimals (from
/// memory).
#[test]
fn intervals_of_proportions_are_the_published_ones() {
    for (right, n, lower, upper) in [
        (81.0, 263, 0.2553, 0.3662),
        (15.0, 148, 0.0624, 0.1605),
        (0.0, 20, 0.0000, 0.1611),
        (1.0, 29, 0.0061, 0.1718),
    ] {
        let interval = wilson(right / n as f64, n).expect("an interval");
        within(interval.lower, lower, 5e-5);
        within(interval.upper, upper, 5e-5);
    }
    assert_eq!((wilson(0.5, 0), wilson(f64::NAN, 9)), (None, None));
}

/// Closed form: artanh 0.5 = ln 3 / 2; for n = 28 the standard error is 1/5.
#[test]
fn the_interval_of_a_correlation() {
    let interval = fisher(0.5, 28).expect("an interval");
    // tanh(ln 3 / 2 ± d) = (3 w - 1) / (3 w + 1) with w = exp(± 2 d).
    let bound = |w: f64| (3.0 * w - 1.0) / (3.0 * w + 1.0);
    let w = mechanics::real::exp(2.0 * 1.959_963_984_540_054 / 5.0);
    within(interval.lower, bound(1.0 / w), 1e-14);
    within(interval.upper, bound(w), 1e-14);
    assert_eq!(fisher(0.5, 3), None);
    let bound = fisher(1.0, 10).expect("an interval");
    assert_eq!((bound.lower, bound.upper), (1.0, 1.0));
}

/// Source: Fisher, The Design of Experiments (1935), chapter II: of the 70 ways to choose four cups of eight, 1 + 16 are at least as
/// good as three right of four; the other tail has as many.
#[test]
fn the_lady_tasting_tea() {
    let found = test(&[(4, 3), (4, 1)]).expect("a test");
    assert_eq!(found.kind, TestKind::Exact);
    within(found.p, 34.0 / 70.0, 1e-14);
}

/// Closed form: three forms of two students, of whom two are right in all. Of the 15 ways, 3 have both right in one form (1/15
/// each) and 12 one in each of two (4/15 each).
#[test]
fn three_forms_exactly() {
    within(test(&[(2, 2), (2, 0), (2, 0)]).expect("a test").p, 3.0 / 15.0, 1e-14);
    within(test(&[(2, 1), (2, 1), (2, 0)]).expect("a test").p, 1.0, 1e-14);
    assert_eq!(test(&[(3, 1)]), None);
    assert_eq!(test(&[(3, 1), (0, 0)]), None);
    within(test(&[(3, 3), (4, 4)]).expect("a test").p, 1.0, 0.0);
}

/// Source: any table of chi-square: the values that are exceeded with 5 % and 1 %, printed to three decimals.
#[test]
fn chi_square_as_tabulated() {
    let rows = [
        (1, 3.841, 6.635),
        (2, 5.991, 9.210),
        (3, 7.815, 11.345),
        (4, 9.488, 13.277),
        (5, 11.070, 15.086),
        (10, 18.307, 23.209),
    ];
    for (degrees, five, one) in rows {
        within(chi_square_tail(five, degrees), 0.05, 2e-5);
        within(chi_square_tail(one, degrees), 0.01, 5e-6);
    }
    assert_eq!(chi_square_tail(0.0, 3), 1.0);
    assert_eq!(chi_square_tail(1e6, 2), 0.0);
}

/// Closed form: the smallest times their number, the next times one fewer, never falling.
#[test]
fn probabilities_of_several_tests() {
    let found = holm(&[0.04, 0.01, 0.03]);
    for (found, expected) in found.into_iter().zip([0.06, 0.03, 0.06]) {
        within(found, expected, 1e-15);
    }
    within(at_least(2, &[0.5, 0.5, 0.5]), 0.5, 1e-15);
    within(at_least(1, &[0.1, 0.2]), 1.0 - 0.9 * 0.8, 1e-15);
    assert_eq!((at_least(0, &[]), at_least(1, &[])), (1.0, 0.0));
}

/// Four groups of five students with totals 3, 2, 1, 0 on three items of one mark, as in a perfect Guttman scale.
///
/// By hand: p = 3/4, 1/2, 1/4; s² = 3/16, 1/4, 3/16; s_X² = 5/4; alpha = 3/2 (1 - (5/8)/(5/4)) = 3/4; groups of round(5.4) = 5; D = 1
/// each. The rest of item 1 is 2, 1, 0, 0 in the groups: its mean 3/4, its variance 11/16, the covariance 3/16, so
/// r = 3/16 / sqrt(3/16 · 11/16) = 3 / sqrt 33.
fn guttman() -> Vec<&'static [f64]> {
    let rows: [&[f64]; 4] = [&[1.0, 1.0, 1.0], &[1.0, 1.0, 0.0], &[1.0, 0.0, 0.0], &[0.0, 0.0, 0.0]];
    rows.into_iter().flat_map(|row| [row; 5]).collect()
}

#[test]
fn a_scale_that_is_reckoned_by_hand() {
    let review = Review::of(&matrix(&[1.0; 3], &guttman()));
    let reliability = review.reliability.expect("a class of twenty");
    within(reliability.alpha, 0.75, 1e-14);
    within(reliability.kr_20.expect("all or nothing"), 0.75, 1e-14);
    within(reliability.error, (1.25_f64 * 0.25).sqrt(), 1e-14);
    let [first, second, third] = review.items.as_slice() else { panic!("three items") };
    assert_eq!([first.facility, second.facility, third.facility], [Some(0.75), Some(0.5), Some(0.25)]);
    for item in [first, second, third] {
        let found = item.discrimination.expect("a class of twenty");
        assert_eq!((found.d, found.top, found.bottom), (1.0, 5, 5));
    }
    within(first.with_rest.expect("it varies").r, 3.0 / 33.0_f64.sqrt(), 1e-14);
    // Mean X of those right 2, of those wrong 0, over s_X = sqrt(5/4), times sqrt(3/16).
    within(first.point_biserial.expect("all or nothing"), 2.0 / 1.25_f64.sqrt() * 0.1875_f64.sqrt(), 1e-14);
    let totals = review.totals.expect("totals");
    assert_eq!((totals.mean, totals.median, totals.least, totals.greatest), (1.5, 1.5, 0.0, 3.0));
    // Of half a mark each: from 0, 1/2, 1, 3/2, 2, and from 5/2 to 3.
    assert_eq!(counts(&totals), [5, 0, 5, 0, 5, 5]);
    assert!(review.items.iter().all(|item| item.flags.is_empty()), "{:#?}", review.items);
}

/// Nineteen students are a small class: counts and intervals, nothing that needs many.
#[test]
fn a_small_class_shows_counts_only() {
    let rows = guttman();
    let review = Review::of(&matrix(&[1.0; 3], &rows[..19]));
    assert_eq!((review.students, review.complete, review.reliability), (19, 19, None));
    for item in &review.items {
        assert!(item.facility.is_some() && item.facility_interval.is_some());
        assert_eq!((item.discrimination, item.point_biserial, item.alpha_without), (None, None, None));
        assert_eq!((item.with_total, item.with_rest), (None, None));
    }
    assert_eq!((review.items[0].full, review.items[0].nothing), (15, 4));
}

/// A group of the same total is taken whole, or not at all: of 20 students 5 are wanted.
#[test]
fn whole_groups_of_the_same_total() {
    let of = |totals: &[(f64, usize)]| {
        let rows: Vec<Vec<f64>> =
            totals.iter().flat_map(|&(total, count)| vec![vec![total, total / 2.0]; count]).collect();
        let rows: Vec<&[f64]> = rows.iter().map(Vec::as_slice).collect();
        let found = Review::of(&matrix(&[10.0, 10.0], &rows)).items[0].discrimination;
        found.map(|found| (found.top, found.bottom))
    };
    assert_eq!(of(&[(9.0, 5), (5.0, 10), (1.0, 5)]), Some((5, 5)));
    // 3 or 7 would be taken at the top: equally near, so the larger; 4 or 8 at the bottom: the nearer.
    assert_eq!(of(&[(9.0, 3), (8.0, 4), (5.0, 5), (4.0, 4), (1.0, 4)]), Some((7, 4)));
    assert_eq!(of(&[(9.0, 8), (1.0, 12)]), Some((8, 12)));
    assert_eq!(of(&[(5.0, 20)]), None, "nobody is better than anybody");
    assert_eq!(of(&[(9.0, 19), (1.0, 1)]), Some((19, 1)));
}

#[test]
fn blanks_earn_nothing_and_what_is_not_marked_counts_nowhere() {
    let items: Vec<Item> = ["1", "2"].map(|label| Item { label: label.into(), out_of: 2.0 }).into();
    let (earned, blank, open) = (Entry::Earned(2.0), Entry::Blank, Entry::NotMarked);
    let rows = vec![vec![earned, blank], vec![earned, open], vec![Entry::Earned(1.0), earned]];
    let review = Review::of(&Matrix::new(items, rows).expect("a matrix"));
    assert_eq!((review.students, review.complete), (3, 2));
    let second = &review.items[1];
    assert_eq!(
        (second.students, second.blank, second.not_marked, second.full, second.nothing),
        (2, 1, 1, 1, 1)
    );
    assert_eq!(second.facility, Some(0.5));
    assert!(second.flags.contains(&Flag::NotMarked));
    // 2 and 3 of 4 marks.
    assert_eq!(counts(&review.totals.expect("totals")), [0, 0, 0, 0, 1, 0, 1, 0]);
}

#[test]
fn marks_that_make_no_matrix_are_refused() {
    let items = || vec![Item { label: "1".into(), out_of: 2.0 }];
    let fault = |entry| Matrix::new(items(), vec![vec![Entry::Blank], vec![entry]]).expect_err("a fault");
    for marks in [-1.0, 2.1, f64::NAN, f64::INFINITY] {
        assert_eq!(fault(Entry::Earned(marks)), MatrixFault::Marks { student: 1, item: "1".into() });
    }
    assert!(Matrix::new(items(), vec![vec![Entry::Earned(2.0 + 1e-12)]]).is_ok());
    let short = Matrix::new(items(), vec![vec![]]).expect_err("a fault");
    assert_eq!(short.to_string(), "student 1 has 0 entries for 1 items");
    assert_eq!(Matrix::new(Vec::new(), Vec::new()), Err(MatrixFault::NoItems));
    for out_of in [0.0, -1.0, f64::NAN] {
        let found = Matrix::new(vec![Item { label: "1".into(), out_of }], Vec::new());
        assert_eq!(found, Err(MatrixFault::OutOf("1".into())));
    }
}

fn counts(totals: &Totals) -> Vec<usize> {
    totals.stretches.iter().map(|stretch| stretch.students).collect()
}

/// The marks of a drawing of totals are whole or half ones, whatever there is to earn.
#[test]
fn totals_lie_between_whole_or_half_marks() {
    for (out_of, step, count) in [
        (0.5, 0.5, 1),
        (3.0, 0.5, 6),
        (5.0, 0.5, 10),
        (6.5, 1.0, 7),
        (10.0, 1.0, 10),
        (10.5, 2.0, 6),
        (24.0, 5.0, 5),
        (100.0, 10.0, 10),
        (101.0, 20.0, 6),
    ] {
        let review = Review::of(&matrix(&[out_of], &[&[out_of], &[0.0]]));
        let stretches = review.totals.expect("totals").stretches;
        assert_eq!(stretches.len(), count, "{out_of}");
        for (at, stretch) in stretches.iter().enumerate() {
            assert_eq!(stretch.from, step * at as f64, "{out_of}");
            assert_eq!(stretch.to, (step * (at + 1) as f64).min(out_of), "{out_of}");
        }
        let (first, last) = (stretches.first().expect("one"), stretches.last().expect("one"));
        assert_eq!((first.students, last.students), if count == 1 { (2, 2) } else { (1, 1) }, "{out_of}");
    }
}

#[test]
fn items_that_do_not_work_are_named() {
    // To the scale above: an item that only the last have right, one that all have right, one of which nothing is known.
    let rows: Vec<Vec<f64>> = guttman()
        .iter()
        .enumerate()
        .map(|(at, row)| [row, &[f64::from(u8::from(at >= 10)), 1.0, 0.0][..]].concat())
        .collect();
    let rows: Vec<&[f64]> = rows.iter().map(Vec::as_slice).collect();
    let review = Review::of(&matrix(&[1.0; 6], &rows));
    let [Flag::AgainstTheRest, Flag::LowersReliability { alpha, without }] = review.items[3].flags[..] else {
        panic!("{:?}", review.items[3].flags)
    };
    assert_eq!(
        (Some(alpha), Some(without)),
        (review.reliability.map(|found| found.alpha), review.items[3].alpha_without)
    );
    assert_eq!(review.items[4].flags, [Flag::Easy, Flag::SaysNothing]);
    assert_eq!(review.items[5].flags, [Flag::Hard, Flag::SaysNothing]);
}

/// An item that goes a little against the rest may do so by chance. Of 20 students 10 are right in the one item and 10 in the other,
/// 4 of them in both: r = (0.2 - 0.25) / 0.25 = -0.2, and Fisher's interval is tanh(artanh(-0.2) ± 1.96 / sqrt 17), from -0.59 to 0.27. Of 3 in
/// both r is -0.4 and the interval from -0.72 to 0.05, of 2 in both r is -0.6 and the interval from -0.82 to -0.21.
#[test]
fn an_item_speaks_against_the_rest_where_the_whole_interval_is_below_zero() {
    let found = |both: usize| {
        let rows: Vec<Vec<f64>> = (0..20)
            .map(|at| {
                [at < 10, at < both || (10..20 - both).contains(&at)]
                    .map(|right| f64::from(u8::from(right)))
                    .to_vec()
            })
            .collect();
        let rows: Vec<&[f64]> = rows.iter().map(Vec::as_slice).collect();
        Review::of(&matrix(&[1.0; 2], &rows)).items.remove(0)
    };
    for (both, r, lower, upper) in [(4, -0.2, -0.59, 0.27), (3, -0.4, -0.72, 0.05), (2, -0.6, -0.82, -0.21)] {
        let item = found(both);
        let rest = item.with_rest.expect("both vary");
        let interval = rest.interval.expect("twenty");
        within(rest.r, r, 1e-12);
        within(interval.lower, lower, 0.005);
        within(interval.upper, upper, 0.005);
        assert_eq!(item.flags.contains(&Flag::AgainstTheRest), upper < 0.0, "{both}");
    }
}

/// What nobody answered says nothing of the question.
#[test]
fn a_question_that_nobody_answered_is_not_called_bad() {
    let items: Vec<Item> = ["1", "2"].map(|label| Item { label: label.into(), out_of: 1.0 }).into();
    let rows = (0..24).map(|at| vec![Entry::Earned(f64::from(at % 2)), Entry::Blank]).collect();
    let review = Review::of(&Matrix::new(items, rows).expect("a matrix"));
    assert!(review.items[1].flags.is_empty(), "{:?}", review.items[1].flags);
    assert_eq!(review.items[1].blank, 24);
}

fn wrong(student: &str, item: &str, order: usize, mistake: Option<&str>) -> WrongAnswer {
    WrongAnswer {
        student: student.into(),
        item: item.into(),
        working: format!("working {item}"),
        scene: String::new(),
        order,
        mistake: mistake.map(str::to_owned),
        is_ambiguous: false,
        is_slip: false,
    }
}

/// An answer that several mistakes lead to is one that something explains: it is counted for itself.
#[test]
fn what_several_mistakes_fit_is_not_left_unexplained() {
    let several = WrongAnswer { is_ambiguous: true, ..wrong("A", "1", 2, None) };
    let found = mistakes(&[several, wrong("B", "2", 5, None), wrong("C", "2", 5, Some("t-forgotten"))]);
    assert_eq!((found.wrong, found.explained, found.ambiguous), (3, 1, 1));
    let places: Vec<(&str, usize)> =
        found.unexplained.iter().map(|place| (place.working.as_str(), place.answers)).collect();
    assert_eq!(places, [("working 2", 1)]);
}

/// A slip is counted as one of the wrong answers that are explained, and stands among the slips alone.
#[test]
fn slips_are_counted_for_themselves() {
    let slip = |student, mistake| WrongAnswer { is_slip: true, ..wrong(student, "1", 2, Some(mistake)) };
    let all = [
        slip("A", "sign"),
        slip("B", "sign"),
        slip("C", "power-of-ten"),
        wrong("C", "2", 5, Some("q-to-the-cut")),
    ];
    let found = mistakes(&all);
    let told = |figures: &[assessment::review::MistakeFigures]| -> Vec<(String, usize)> {
        figures.iter().map(|one| (one.mistake.clone(), one.students)).collect()
    };
    assert_eq!((found.wrong, found.explained), (4, 4));
    assert_eq!(told(&found.made), [("q-to-the-cut".to_owned(), 1)]);
    assert_eq!(told(&found.slips), [("sign".to_owned(), 2), ("power-of-ten".to_owned(), 1)]);
}

#[test]
fn mistakes_by_how_many_made_them_and_the_first_of_each_student() {
    let all = [
        wrong("A", "3", 9, Some("t-forgotten")),
        wrong("A", "1", 2, Some("q-to-the-cut")),
        wrong("B", "1", 2, Some("q-to-the-cut")),
        wrong("B", "2", 5, Some("t-forgotten")),
        wrong("C", "1", 2, None),
        wrong("C", "3", 9, Some("q-to-the-cut")),
        wrong("C", "2", 5, Some("q-to-the-cut")),
    ];
    let found = mistakes(&all);
    assert_eq!((found.wrong, found.explained), (7, 6));
    let made: Vec<(&str, usize, usize, usize)> = found
        .made
        .iter()
        .map(|made| (made.mistake.as_str(), made.students, made.answers, made.first))
        .collect();
    assert_eq!(made, [("q-to-the-cut", 3, 4, 2), ("t-forgotten", 2, 2, 0)]);
    within(found.made[0].share, 4.0 / 7.0, 1e-15);
    assert_eq!((found.made[0].places[0].working.as_str(), found.made[0].places[0].answers), ("working 1", 2));
    assert_eq!((found.unexplained[0].working.as_str(), found.unexplained[0].answers), ("working 1", 1));
    let first: Vec<(&str, Option<&str>)> =
        found.first.iter().map(|first| (first.student.as_str(), first.mistake.as_deref())).collect();
    assert_eq!(first, [("A", Some("q-to-the-cut")), ("B", Some("q-to-the-cut")), ("C", None)]);
    assert_eq!(mistakes(&[]), Default::default());
}

/// Of one item every total is its mark, so that r is 1 and its interval is 1: exact, by the formulas. These marks once gave an r that rounding
/// had put below 1, and an interval that did not hold it.
#[test]
fn one_item_goes_with_itself() {
    let eighths = [
        0, 2, 0, 0, 4, 2, 2, 0, 2, 0, 3, 2, 0, 2, 0, 0, 1, 0, 4, 0, 0, 1, 1, 2, 0, 1, 0, 0, 2, 1, 0, 0, 4, 1,
        0, 1, 2, 0, 3, 0, 1, 0, 1, 4, 1, 3, 3, 1, 1, 0, 0, 0, 1, 2, 3, 2,
    ];
    let rows: Vec<Vec<f64>> = eighths.iter().map(|&of| vec![f64::from(of) / 8.0]).collect();
    let rows: Vec<&[f64]> = rows.iter().map(Vec::as_slice).collect();
    let review = Review::of(&matrix(&[0.5], &rows));
    let found = review.items[0].with_total.expect("a class of fifty");
    let interval = found.interval.expect("an interval");
    assert_eq!((found.r, interval.lower, interval.upper), (1.0, 1.0, 1.0));
}

/// The bounds hold r and lie within 1, to the last bit, however near to 1 it is.
#[test]
fn an_interval_holds_its_correlation() {
    for n in [4, 5, 20, 60, 100_000] {
        for bits in 0..200 {
            for r in [f64::from_bits(1.0_f64.to_bits() - bits), 1.0 - f64::from(bits as u32) / 100.0] {
                let interval = fisher(r, n).expect("an interval");
                assert!(-1.0 <= interval.lower && interval.lower <= r, "{r} of {n}: {interval:?}");
                assert!(r <= interval.upper && interval.upper <= 1.0, "{r} of {n}: {interval:?}");
            }
        }
    }
}

/// Twenty students of each form; item 1 is right in one form and wrong in the other, item 2 alike in both.
#[test]
fn a_form_that_is_harder_is_told() {
    let rows: Vec<Vec<f64>> =
        (0..40).map(|at| vec![f64::from(u8::from(at < 20)), f64::from(at % 2)]).collect();
    let rows: Vec<&[f64]> = rows.iter().map(Vec::as_slice).collect();
    let forms: Vec<String> = (0..40).map(|at| if at < 20 { "A".into() } else { "B".into() }).collect();
    let found = variants(&matrix(&[1.0; 2], &rows), &forms);
    let first = &found[0];
    assert_eq!((first.forms[0].full, first.forms[1].full), (20, 0));
    // Closed form: the two tables with all right in one form, of 40 over 20.
    within(first.test.expect("a test").p, 2.0 / 137_846_528_820.0, 1e-20);
    assert!(first.flag.as_ref().is_some_and(|words| words.contains("20 of 20 in form A, 0 of 20 in form B")));
    assert_eq!(found[1].flag, None);
    within(found[1].test.expect("a test").p, 1.0, 1e-12);
}

prop_compose! {
    fn class(most_items: usize, most_students: usize)(k in 1..=most_items, n in 0..=most_students)(
        out_of in prop::collection::vec(prop::sample::select(vec![0.5, 1.0, 2.0, 3.0]), k),
        shares in prop::collection::vec(prop::collection::vec(prop_oneof![
            4 => (0..=4_u32).prop_map(|quarter| Some(f64::from(quarter) / 4.0)), 1 => Just(None)
        ], k), n),
        open in prop::collection::vec(prop::bool::weighted(0.02), k * n),
    ) -> Matrix {
        let k = out_of.len();
        let entry = |row: usize, item: usize, share: Option<f64>| match share {
            _ if open[row * k + item] => Entry::NotMarked,
            Some(share) => Entry::Earned(share * out_of[item]),
            None => Entry::Blank,
        };
        let rows = shares.iter().enumerate().map(|(row, shares)| {
            shares.iter().enumerate().map(|(item, &share)| entry(row, item, share)).collect()
        }).collect();
        let items = out_of.iter().enumerate().map(|(at, &out_of)| Item { label: at.to_string(), out_of }).collect();
        Matrix::new(items, rows).expect("a matrix")
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    /// Whatever the marks, every figure is finite and within its bounds, and nothing panics.
    #[test]
    fn every_figure_is_within_its_bounds(matrix in class(6, 60)) {
        let review = Review::of(&matrix);
        prop_assert_eq!(review.items.len(), matrix.items().len());
        if let Some(totals) = &review.totals {
            prop_assert_eq!(counts(totals).iter().sum::<usize>(), review.complete);
            prop_assert!(totals.least <= totals.median && totals.median <= totals.greatest);
        }
        if let Some(reliability) = review.reliability {
            prop_assert!(reliability.alpha <= 1.0 + 1e-12 && reliability.error >= 0.0 && reliability.error.is_finite());
        }
        for item in &review.items {
            prop_assert_eq!(item.students + item.not_marked, matrix.students());
            if let (Some(p), Some(interval)) = (item.facility, item.facility_interval) {
                prop_assert!(0.0 <= interval.lower && interval.lower <= p + 1e-12 && p <= interval.upper + 1e-12 && interval.upper <= 1.0);
            }
            for found in [item.with_total, item.with_rest].into_iter().flatten() {
                prop_assert!((-1.0..=1.0).contains(&found.r));
                let interval = found.interval.expect("a class of twenty");
                prop_assert!(-1.0 <= interval.lower && interval.lower <= found.r && found.r <= interval.upper && interval.upper <= 1.0);
            }
            if let Some(found) = item.discrimination {
                prop_assert!((-1.0..=1.0).contains(&found.d) && found.top + found.bottom <= review.complete);
            }
        }
    }

    /// Of items that are all or nothing the point-biserial correlation is Pearson's with the total, and KR-20 is alpha. Source: both
    /// follow from the formulas.
    #[test]
    fn all_or_nothing(rows in prop::collection::vec(prop::collection::vec(any::<bool>(), 4), 20..50)) {
        let rows: Vec<Vec<f64>> = rows.iter().map(|row| row.iter().map(|&right| f64::from(u8::from(right))).collect()).collect();
        let rows: Vec<&[f64]> = rows.iter().map(Vec::as_slice).collect();
        let review = Review::of(&matrix(&[1.0; 4], &rows));
        for item in &review.items {
            match (item.point_biserial, item.with_total) {
                (Some(one), Some(other)) => prop_assert!((one - other.r).abs() < 1e-12),
                (one, other) => prop_assert!(one.is_none() && other.is_none()),
            }
        }
        if let Some(reliability) = review.reliability {
            prop_assert!((reliability.kr_20.expect("all or nothing") - reliability.alpha).abs() < 1e-12);
        }
    }

    /// The order of the students says nothing, and marks counted in other units say the same.
    #[test]
    fn order_and_scale_change_nothing(rows in prop::collection::vec(prop::collection::vec(0..=4_u8, 3), 20..50), scale in 1..=8_u8) {
        let of = |rows: &[Vec<u8>], scale: f64| {
            let rows: Vec<Vec<f64>> = rows.iter().map(|row| row.iter().map(|&marks| scale * f64::from(marks)).collect()).collect();
            let rows: Vec<&[f64]> = rows.iter().map(Vec::as_slice).collect();
            Review::of(&matrix(&[4.0 * scale; 3], &rows))
        };
        let mut turned = rows.clone();
        turned.reverse();
        let (one, other) = (of(&rows, 1.0), of(&turned, f64::from(scale)));
        for (one, other) in one.items.iter().zip(&other.items) {
            prop_assert!((one.facility.unwrap_or(0.0) - other.facility.unwrap_or(0.0)).abs() < 1e-12);
            let d = |item: &ItemFigures| item.discrimination.map_or(9.0, |found| found.d);
            let r = |item: &ItemFigures| item.with_rest.map_or(9.0, |found| found.r);
            prop_assert!((d(one) - d(other)).abs() < 1e-12 && (r(one) - r(other)).abs() < 1e-12);
        }
    }

    /// Whatever the forms, a probability is one.
    #[test]
    fn a_probability_is_one(forms in prop::collection::vec((0..30_usize, 0.0..=1.0_f64), 0..6)) {
        let forms: Vec<(usize, usize)> = forms.into_iter().map(|(n, share)| (n, (n as f64 * share) as usize)).collect();
        if let Some(found) = test(&forms) {
            prop_assert!((0.0..=1.0).contains(&found.p));
        }
    }
}

/// Closed form: where the mark is the rest score less the feature, of two that are independent, the partial correlation is -1; of the
/// feature alone it is none at all.
#[test]
fn a_feature_of_the_papers_that_makes_an_item_harder() {
    let rows: Vec<Vec<f64>> =
        (0..24).map(|at| vec![f64::from(at % 4) + 3.0 - f64::from(at / 4 % 3), f64::from(at % 4)]).collect();
    let feature: Vec<f64> = (0..24).map(|at| f64::from(at / 4 % 3)).collect();
    let rows: Vec<&[f64]> = rows.iter().map(Vec::as_slice).collect();
    let found = against(&matrix(&[9.0, 9.0], &rows), &feature, "the spread by rounding");
    within(found[0].correlation.expect("a class of 24").r, -1.0, 1e-12);
    let flag = found[0].flag.as_ref().expect("a flag");
    assert!(flag.contains("harder the larger the spread by rounding is"), "{flag}");
    let constant = against(&matrix(&[9.0, 9.0], &rows), &[1.0; 24], "nothing");
    assert_eq!((constant[0].correlation, constant[0].flag.as_ref()), (None, None));
    assert!(against(&matrix(&[9.0, 9.0], &rows[..19]), &feature, "")[0].correlation.is_none());
    assert!(against(&matrix(&[9.0, 9.0], &rows), &[f64::NAN; 24], "")[0].correlation.is_none());
}
