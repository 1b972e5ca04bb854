//! How far honest rounding leads, beside what was measured elsewhere.

use crate::common::{reference_text, solved};
use assessment::fair::rounded;
use lesson::papers::Papers;
use proptest::prelude::*;
use proptest::strategy::ValueTree as _;
use proptest::test_runner::TestRunner;
use workings::rounding::Figures;

const ASKED: [&str; 4] = [
    "shear force at the slice",
    "first moment at the cut",
    "bending stress at the bottom",
    "shear stress on the cut",
];

const LESSONS: usize = 500;

/// Random lessons of the kind of which the shares were measured: a force and a uniform load, a random station, a T-section.
/// The sections are those of the same notes' census (flange 60 to 300 by 10 to 50 mm, web 10 to 50 by 50 to 300 mm); stations to the
/// centimetre and loads to 0.1 kN, of which the original's ranges are not handed down.
fn lessons() -> Vec<Papers> {
    let beam = (300..800_u32, 1..999_u32, 0..999_u32, 1..999_u32, 50..400_u32, 20..200_u32);
    let section = (6..=30_u32, 1..=5_u32, 1..=5_u32, 5..=30_u32);
    let mut runner = TestRunner::deterministic();
    let mut lessons = Vec::new();
    while lessons.len() < LESSONS {
        let tree = (&beam, &section).new_tree(&mut runner).expect("ranges have values");
        let ((length, a, s, x, force, load), (b, f, t, h)) = tree.current();
        let metres = |centimetres: u32| format!("{:.2} m", f64::from(centimetres) / 100.0);
        let part = |thousandths: u32| metres((thousandths * length / 1000).max(1));
        let tenths = |value: u32, unit: &str| format!("{:.1} {unit}", f64::from(value) / 10.0);
        let millimetres = |count: u32| format!("{} mm", 10 * count);
        let text = reference_text(&[
            ("L", &metres(length)),
            ("a", &part(a)),
            ("s", &part(s)),
            ("x", &part(x)),
            ("P", &tenths(force, "kN")),
            ("w", &tenths(load, "kN/m")),
            ("b", &millimetres(b)),
            ("f", &millimetres(f)),
            ("t", &millimetres(t)),
            ("h", &millimetres(h)),
        ]);
        // A web wider than the flange, a slice past the end: not every draw is a lesson.
        lessons.extend(Papers::read(&text, "random.toml"));
    }
    lessons
}

/// Source: the unit's notes on assessment, section 3: of 40 000 random lessons, every intermediate value rounded, the share
/// of those that are off by more than 1 %, for V, Q, sigma and tau.
#[test]
fn the_shares_of_lessons_in_which_rounding_leads_more_than_1_percent_off() {
    let table = [
        (Figures::Significant(2), [0.78, 0.83, 0.86, 0.90]),
        (Figures::Significant(3), [0.15, 0.12, 0.18, 0.28]),
        (Figures::ThreeOrFour, [0.08, 0.016, 0.08, 0.11]),
        (Figures::Significant(4), [0.011, 0.0, 0.004, 0.011]),
    ];
    let mut off = [[0_usize; 4]; 4];
    for papers in lessons() {
        let solved = solved(&papers);
        for (row, (figures, _)) in off.iter_mut().zip(&table) {
            for (count, asked) in row.iter_mut().zip(ASKED) {
                let right = solved.workings().get(asked).expect("every lesson has it").value.value;
                let found = rounded(&solved, asked, *figures).expect("it can be evaluated");
                *count += usize::from((found - right).abs() > 0.01 * right.abs());
            }
        }
    }
    for (found, (figures, expected)) in off.iter().zip(&table) {
        let shares = found.map(|count| count as f64 / LESSONS as f64);
        for ((&share, &expected), asked) in shares.iter().zip(expected).zip(ASKED) {
            // Half as much again or less either way, and two lessons in a hundred: the ranges of the numbers differ.
            let bound = 0.5 * f64::min(expected, 1.0 - expected) + 0.02;

            assert!((share - expected).abs() <= bound, "{figures:?}, {asked}: {share} and {expected}");
        }
    }
    // Each finer way to round leads fewer astray.
    for column in 0..4 {
        assert!(off.windows(2).all(|pair| pair[1][column] <= pair[0][column]), "{off:?}");
    }
}
