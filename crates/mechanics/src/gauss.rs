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
