//! Where a curve is zero inside the beam.

use super::{Curve, Place, Side, Solution, Zero};

// A stretch of zeros shorter than this share of the beam's length is a point: near a point where the curve only touches
// zero it is nothing but rounding for a while.
const SHORT: f64 = 1e-6;

impl Solution {
    /// Everywhere a curve is zero, or jumps across zero, strictly inside the beam, from left to right; the
    /// beam's ends are left out, stretches that reach an end are not.
    pub fn zeros(&self, curve: Curve) -> Vec<Zero> {
        let spans = self.spans(curve);
        let mut zeros = Vec::new();
        for (index, span) in spans.iter().enumerate() {
            let before = index.checked_sub(1).map(|before| &spans[before]);
            let after = spans.get(index + 1);
            if span.sign == 0 {
                let Span { from, to, .. } = *span;
                let changes_sign =
                    before.zip(after).is_some_and(|(before, after)| before.sign * after.sign < 0);
                match (to - from > SHORT * self.length, before.is_some() && after.is_some()) {
                    (true, _) => zeros.push(Zero::Over { from, to }),
                    (false, true) => {
                        zeros.push(Zero::At { place: Place { station: from, side: None }, changes_sign });
                    }
                    (false, false) => {}
                }
                continue;
            }
            let Some(before) = before.filter(|before| before.sign != 0) else { continue };
            let (left, right) = (before.at_end, span.at_start);
            let side = match (left == 0.0, right == 0.0) {
                (true, true) => None,
                (true, false) => Some(Side::Left),
                (false, true) => Some(Side::Right),
                (false, false) => {
                    if before.sign != span.sign {
                        zeros.push(Zero::Across { station: span.from });
                    }
                    continue;
                }
            };
            let place = Place { station: span.from, side };
            zeros.push(Zero::At { place, changes_sign: before.sign != span.sign });
        }
        zeros
    }

    /// The points of contraflexure, m, from left to right: where M changes its sign inside the beam, at a
    /// hinge or a couple too. A stretch without M between the two signs has no such point.
    pub fn contraflexures(&self) -> Vec<f64> {
        let zeros = self.zeros(Curve::BendingMoment).into_iter();
        zeros
            .filter_map(|zero| match zero {
                Zero::At { place, changes_sign: true } => Some(place.station),
                Zero::Across { station } => Some(station),
                Zero::At { .. } | Zero::Over { .. } => None,
            })
            .collect()
    }

    /// The beam cut into spans on which a curve has one sign, zero included, without gaps.
    fn spans(&self, curve: Curve) -> Vec<Span> {
        let mut spans: Vec<Span> = Vec::with_capacity(2 * self.segments.len());
        for segment in &self.segments {
            let value = |s: f64| self.cleaned(curve, segment.value(curve, s));
            let length = segment.length();
            let at_start = value(0.0);
            if at_start == 0.0 && segment.is_flat(curve, self.nothing(curve)) {
                match spans.last_mut().filter(|last| last.sign == 0) {
                    Some(last) => last.to = segment.to,
                    None => spans.push(Span {
                        from: segment.from,
                        to: segment.to,
                        sign: 0,
                        at_start: 0.0,
                        at_end: 0.0,
                    }),
                }
                continue;
            }
            let roots = segment.roots(curve, self.nothing(curve));
            let mut from = 0.0;
            let mut at_from = at_start;
            for &to in roots.as_slice().iter().chain(&[length]) {
                let at_to = if to < length { 0.0 } else { value(length) };
                // No root lies inside, so any value that is more than rounding has the sign.
                let middle = segment.value(curve, from + (to - from) / 2.0);
                let telling = [at_from, at_to].into_iter().find(|&value| value != 0.0).unwrap_or(middle);
                let sign = if telling < 0.0 { -1 } else { 1 };
                let end = if to < length { segment.from + to } else { segment.to };
                spans.push(Span {
                    from: segment.from + from,
                    to: end,
                    sign,
                    at_start: at_from,
                    at_end: at_to,
                });
                (from, at_from) = (to, 0.0);
            }
        }
        spans
    }
}

/// A stretch on which a curve has one sign, and its limits at the two ends of it.
struct Span {
    from: f64,
    to: f64,
    sign: i8,
    at_start: f64,
    at_end: f64,
}
