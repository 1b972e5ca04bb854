//! How likely it is that chance alone makes forms differ so much.

use mechanics::real;
use serde::Serialize;

/// A test of whether right answers depend on the form.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Test {
    /// How it was reckoned.
    pub kind: TestKind,
    /// The probability that chance alone makes them differ at least so much.
    pub p: f64,
}

/// How a test was reckoned.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum TestKind {
    /// Exactly: by all tables with the same sums, of which those count that are no likelier.
    Exact,
    /// By chi-square.
    ChiSquare,
    /// By chi-square, though some counts that chance would give are below five, since there are too many tables to go through.
    RoughChiSquare,
}

/// The least count by chance with which chi-square is trusted. Source: Cochran, Ann. Math. Stat. 23 (1952) 315 (from memory).
const TRUSTED: f64 = 5.0;
/// The most tables that are gone through: a second's work at the very most.
const MOST_TABLES: f64 = 2e5;
/// Two tables whose probabilities differ by less than this part are equally likely: they differ by rounding.
const EQUALLY_LIKELY: f64 = 1e-7;

/// Of the students of each form, how many there are and how many are right; none where there is nothing to compare.
///
/// Source: Fisher's exact test, for more than two forms as Freeman and Halton, Biometrika 38 (1951) 141, extend it; chi-square after
/// Pearson, without a correction for continuity.
pub fn test(forms: &[(usize, usize)]) -> Option<Test> {
    let forms: Vec<(usize, usize)> = forms.iter().copied().filter(|(students, _)| *students > 0).collect();
    let students: usize = forms.iter().map(|(students, _)| students).sum();
    let right: usize = forms.iter().map(|(_, right)| right).sum();
    if forms.len() < 2 || forms.iter().any(|(students, right)| right > students) {
        return None;
    }
    if right == 0 || right == students {
        return Some(Test { kind: TestKind::Exact, p: 1.0 });
    }
    let tables: f64 = forms.iter().skip(1).map(|(students, _)| (*students.min(&right) + 1) as f64).product();
    let least = forms.iter().map(|(of_form, _)| *of_form as f64 * right.min(students - right) as f64);
    let trusted = least.fold(f64::INFINITY, |least, count| least.min(count / students as f64)) >= TRUSTED;
    let (kind, p) = match (forms.len() == 2 || !trusted, tables <= MOST_TABLES) {
        (true, true) => (TestKind::Exact, exact(&forms, students, right)),
        _ if trusted => (TestKind::ChiSquare, chi_square(&forms, students, right)),
        _ => (TestKind::RoughChiSquare, chi_square(&forms, students, right)),
    };
    Some(Test { kind, p: p.clamp(0.0, 1.0) })
}

/// The logarithms of the factorials up to n.
fn log_factorials(n: usize) -> Vec<f64> {
    let mut all = vec![0.0];
    let mut sum = 0.0;
    for number in 1..=n {
        sum += real::ln(number as f64);
        all.push(sum);
    }
    all
}

fn exact(forms: &[(usize, usize)], students: usize, right: usize) -> f64 {
    let factorials = log_factorials(students);
    let choose = |n: usize, k: usize| factorials[n] - factorials[k] - factorials[n - k];
    let all = choose(students, right);
    let found: f64 = forms.iter().map(|&(of_form, right)| choose(of_form, right)).sum::<f64>() - all;
    // The tables of the first forms: how many are right in all, and the logarithm of their probability so far.
    let mut open = vec![(0_usize, -all)];
    let mut left = students;
    for &(of_form, _) in forms {
        left -= of_form;
        let mut next = Vec::with_capacity(open.len() * 2);
        for (so_far, weight) in open {
            // Those who are right and not yet placed must fit into the forms that are left.
            let least = (right - so_far).saturating_sub(left);
            for here in least..=of_form.min(right - so_far) {
                next.push((so_far + here, weight + choose(of_form, here)));
            }
        }
        open = next;
    }
    let likely = found + EQUALLY_LIKELY;
    open.iter().filter(|(_, weight)| *weight <= likely).map(|(_, weight)| real::exp(*weight)).sum()
}

fn chi_square(forms: &[(usize, usize)], students: usize, right: usize) -> f64 {
    let share = right as f64 / students as f64;
    let mut sum = 0.0;
    for &(of_form, right) in forms {
        for (found, share) in [(right, share), (of_form - right, 1.0 - share)] {
            let expected = of_form as f64 * share;
            sum += (found as f64 - expected) * (found as f64 - expected) / expected;
        }
    }
    chi_square_tail(sum, forms.len() - 1)
}

/// The probability that chi-square with so many degrees of freedom (at least one) is larger than `x` (not negative).
///
/// Source: the upper incomplete gamma function of whole and half arguments is a finite sum: NIST Digital Library of Mathematical
/// Functions, 8.4.10 and 8.4.14 (from memory); tested against tables.
pub fn chi_square_tail(x: f64, degrees: usize) -> f64 {
    let half = 0.5 * x;
    if half.is_nan() || half <= 0.0 {
        return 1.0;
    }
    let (mut sum, mut term, mut step) = match degrees % 2 {
        0 => (0.0, 1.0, 1.0),
        _ => (0.0, 2.0 * (half / std::f64::consts::PI).sqrt(), 1.5),
    };
    for _ in 0..degrees / 2 {
        sum += term;
        term *= half / step;
        step += 1.0;
    }
    let start = if degrees.is_multiple_of(2) { 0.0 } else { real::erfc(half.sqrt()) };
    (start + real::exp(-half) * sum).clamp(0.0, 1.0)
}

/// Probabilities of several tests, raised so that of all of them together one is below a bound by chance as seldom as the bound says.
/// In the order of the tests.
///
/// Source: Holm, Scand. J. Stat. 6 (1979) 65.
pub fn holm(probabilities: &[f64]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..probabilities.len()).collect();
    order.sort_by(|&one, &other| probabilities[one].total_cmp(&probabilities[other]));
    let mut raised = vec![1.0; probabilities.len()];
    let mut least = 0.0_f64;
    for (place, &test) in order.iter().enumerate() {
        least = least.max(((probabilities.len() - place) as f64 * probabilities[test]).min(1.0));
        raised[test] = least;
    }
    raised
}

/// The probability that at least `wanted` of independent events happen, of which each has its own probability.
///
/// By adding one event after another to the distribution of the count (the Poisson-binomial distribution).
pub fn at_least(wanted: usize, probabilities: &[f64]) -> f64 {
    if wanted == 0 {
        return 1.0;
    }
    let mut counts = vec![1.0];
    for &p in probabilities {
        let mut next = vec![0.0; counts.len() + 1];
        for (count, weight) in counts.iter().enumerate() {
            next[count] += weight * (1.0 - p);
            next[count + 1] += weight * p;
        }
        counts = next;
    }
    counts.iter().skip(wanted).sum::<f64>().clamp(0.0, 1.0)
}
