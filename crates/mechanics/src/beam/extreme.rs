//! The largest and smallest values of a curve, and everywhere they are reached.

use super::roots::Roots;
use super::segment::Segment;
use super::{Curve, Extreme, Extremes, Place, Reached, SAME_STATION, Side, Solution};

// Marks nearer than this share of the beam's length count as one place: about a flat peak a value differs by rounding
// only over about the root of the rounding.
const SAME_PLACE: f64 = 1e-6;

// A peak nearer to a breakpoint than this share of the beam's length is told as the breakpoint: V that should be zero
// there and is rounding has its zero a little beside it.
const AT_BREAKPOINT: f64 = 1e-9;

impl Solution {
    /// The extremes of a curve over the whole beam, found from the roots of its derivative.
    pub fn extremes(&self, curve: Curve) -> Extremes {
        let marks = self.marks(curve);
        let (mut high, mut low) = (0.0_f64, 0.0_f64);
        for mark in &marks {
            high = high.max(mark.value);
            low = low.min(mark.value);
        }
        let (high, low) = (self.cleaned(curve, high), self.cleaned(curve, low));
        let near = self.nothing(curve);
        let extreme = |value: f64| Extreme {
            value,
            reached: self.reached(curve, &marks, |other| (other - value).abs() <= near),
        };
        let size = high.max(-low);
        Extremes {
            highest: (high > 0.0).then(|| extreme(high)),
            lowest: (low < 0.0).then(|| extreme(low)),
            largest_size: Extreme {
                value: size,
                reached: self.reached(curve, &marks, |other| (other.abs() - size).abs() <= near),
            },
        }
    }

    /// The stations strictly between breakpoints at which a curve turns (its derivative is zero), m, from left
    /// to right: where its peaks are to be labelled, besides the breakpoints.
    pub fn turning_points(&self, curve: Curve) -> Vec<f64> {
        let nothing = match curve {
            Curve::Shear => 0.0,
            Curve::BendingMoment => self.nothing(Curve::Shear),
            Curve::Slope => self.nothing(Curve::BendingMoment),
            Curve::Deflection => self.nothing(Curve::Slope),
        };
        let mut stations = Vec::new();
        for segment in self.segments.iter().filter(|segment| !segment.is_flat(curve, self.nothing(curve))) {
            let turns = segment.turns(curve, nothing);
            stations.extend(self.clear_of_ends(segment, &turns).map(|s| segment.from + s));
        }
        stations
    }

    /// Those of the local coordinates that are not breakpoints but for rounding.
    fn clear_of_ends(&self, segment: &Segment, turns: &Roots) -> impl Iterator<Item = f64> {
        let (near, length) = (SAME_STATION * self.length, segment.length());
        turns.into_iter().filter(move |&s| s > near && length - s > near)
    }

    /// The values that may be extreme, from left to right.
    fn marks(&self, curve: Curve) -> Vec<Mark> {
        let mut marks = Vec::with_capacity(3 * self.segments.len());
        for (index, segment) in self.segments.iter().enumerate() {
            let at = |s: f64, station: f64, kind: Kind| {
                let value = segment.value(curve, s);
                Mark { segment: index, station, kind, value }
            };
            marks.push(at(0.0, segment.from, Kind::Start));
            // However small the derivative is, its integral may be more than rounding.
            let turns = segment.turns(curve, 0.0);
            marks.extend(self.clear_of_ends(segment, &turns).map(|s| at(s, segment.from + s, Kind::Inside)));
            marks.push(at(segment.length(), segment.to, Kind::End));
        }
        marks
    }

    /// Where the marks that `hit` are, with neighbours of one place or one stretch taken together.
    fn reached(&self, curve: Curve, marks: &[Mark], hit: impl Fn(f64) -> bool) -> Vec<Reached> {
        let mut reached: Vec<Reached> = Vec::new();
        let near = SAME_PLACE * self.length;
        // The mark that made the last entry of `reached`, unless that is a stretch.
        let mut last: Option<&Mark> = None;
        for (index, mark) in marks.iter().enumerate().filter(|(_, mark)| hit(mark.value)) {
            let segment = &self.segments[mark.segment];
            let long = segment.length() > near;
            if long && segment.is_flat(curve, self.nothing(curve)) {
                let (from, to) = (segment.from, segment.to);
                match (reached.last_mut(), last) {
                    (Some(Reached::Over { to: end, .. }), _) if *end >= from => *end = end.max(to),
                    // A place at its beginning that is none of its own.
                    (Some(entry @ Reached::At(_)), Some(before)) if before.station >= from => {
                        *entry = Reached::Over { from, to };
                    }
                    _ => reached.push(Reached::Over { from, to }),
                }
                last = None;
                continue;
            }
            if matches!(reached.last(), Some(Reached::Over { to, .. }) if mark.station <= *to) {
                continue;
            }
            let place = Place { station: mark.station, side: self.side(curve, marks, index) };
            match (last, reached.last_mut()) {
                (Some(before), Some(Reached::At(known))) if mark.station - before.station <= near => {
                    // The two limits at a breakpoint, or a turning point beside one.
                    let inside = mark.kind == Kind::Inside;
                    let beside = inside != (before.kind == Kind::Inside);
                    let near = mark.station - before.station <= AT_BREAKPOINT * self.length;
                    if known.station == mark.station {
                        known.side = None;
                    } else if beside && inside != near {
                        *known = place;
                    }
                }
                _ => reached.push(Reached::At(place)),
            }
            last = Some(mark);
        }
        reached
    }

    /// The side of its station that a mark stands for: `None` unless the curve jumps there.
    fn side(&self, curve: Curve, marks: &[Mark], index: usize) -> Option<Side> {
        let mark = &marks[index];
        let (other, side) = match mark.kind {
            Kind::Inside => return None,
            Kind::Start => (index.checked_sub(1), Side::Right),
            Kind::End => (Some(index + 1), Side::Left),
        };
        match other.and_then(|other| marks.get(other)) {
            Some(other) if (other.value - mark.value).abs() <= self.nothing(curve) => None,
            _ => Some(side),
        }
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Start,
    Inside,
    End,
}

/// A value of a curve at an end of a segment or at a turning point inside it.
struct Mark {
    segment: usize,
    station: f64,
    kind: Kind,
    value: f64,
}
