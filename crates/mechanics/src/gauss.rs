//! Gauss's sixteen-point rule, for integrals along arcs.

/// The positive half of the sixteen abscissae on [-1, 1], each with its weight (Abramowitz & Stegun, table 25.4;
/// computed to 30 digits as the roots of the Legendre polynomial).
const HALF: [(f64, f64); 8] = [
    (0.09501250983763744, 0.1894506104550685),
    (0.28160355077925891, 0.18260341504492359),
    (0.45801677765722739, 0.16915651939500254),
    (0.61787624440264375, 0.14959598881657673),
    (0.75540440835500303, 0.12462897125553387),
    (0.86563120238783174, 0.095158511682492785),
    (0.94457502307323258, 0.062253523938647893),
    (0.98940093499164993, 0.027152459411754095),
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
