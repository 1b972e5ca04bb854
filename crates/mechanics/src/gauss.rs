//! Gauss's sixteen-point rule, for integrals along arcs.

/// The positive half of the sixteen abscissae on [-1, 1], each with its weight (Abramowitz & Stegun, table 25.4;
/// computed to 30 digits as the roots of the Legendre polynomial).
const HALF: [(f64, f64); 8] = [
    (0.09501250983763744, 0.1894506104550685),
    (0.2816035507792589, 0.18260341504492358),
    (0.45801677765722737, 0.16915651939500254),
    (0.6178762444026438, 0.14959598881657674),
    (0.755404408355003, 0.12462897125553388),
    (0.8656312023878318, 0.09515851168249279),
    (0.9445750230732326, 0.062253523938647894),
    (0.9894009349916499, 0.027152459411754096),
];

/// Hands on the sixteen abscissae of the range `from ..= to` with their weights.
///
/// A trigonometric polynomial of degree four over half a turn, which is what the area and the moments beside an arc
/// come to, is met to 2e-19 of its size: to the last bit of an f64.
pub(crate) fn for_each_node(from: f64, to: f64, mut hand_on: impl FnMut(f64, f64)) {
    let (middle, half) = (0.5 * (from + to), 0.5 * (to - from));
    for (abscissa, weight) in HALF {
        hand_on(middle - half * abscissa, half * weight);
        hand_on(middle + half * abscissa, half * weight);
    }
}

/// Gauss's rule of `count` abscissae on [-1, 1], rising, each with its weight: Newton's method on the Legendre polynomial.
pub(crate) fn rule(count: usize) -> Vec<(f64, f64)> {
    let n = count as f64;
    let mut rule: Vec<(f64, f64)> = (0..count)
        .map(|k| {
            // Tricomi's first guess; from there Newton's method doubles the digits.
            let mut x = -crate::real::cos(core::f64::consts::PI * (k as f64 + 0.75) / (n + 0.5));
            let mut slope = 1.0;
            for _ in 0..8 {
                let (mut last, mut this) = (1.0, x);
                for degree in 2..=count {
                    let d = degree as f64;
                    (last, this) = (this, ((2.0 * d - 1.0) * x * this - (d - 1.0) * last) / d);
                }
                slope = n * (x * this - last) / (x * x - 1.0);
                x -= this / slope;
            }
            (x, 2.0 / ((1.0 - x * x) * slope * slope))
        })
        .collect();
    rule.sort_by(|a, b| a.0.total_cmp(&b.0));
    rule
}
