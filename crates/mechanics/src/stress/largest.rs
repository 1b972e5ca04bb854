//! Where over the depth the shear stress is largest: found as a root, not assumed to be the neutral axis.

use super::StressOverDepth;
use crate::section::HeightSide;
use crate::section::strip::Strip;

/// Values that agree to this part are the same largest value, reached in two places.
const SAME_VALUE: f64 = 1e-12;

/// Two candidates nearer than this part of the depth are one place: tau is flat near its largest value, so that a level
/// just beside it has the same value to many digits.
const SAME_SPOT: f64 = 1e-6;

/// On which side of a height a value holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum PlaceSide {
    /// Just below: the width jumps there.
    Below,
    /// Just above: the width jumps there.
    Above,
    /// There is no jump.
    Both,
    /// On the contact between parts that stand off each other, narrower than the material below and above.
    Contact,
}

/// A height at which the shear stress reaches its largest value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShearPlace {
    /// The height, m.
    pub height: f64,
    /// On which side of it.
    pub side: PlaceSide,
}

/// Why the shear stress is largest where it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reason {
    /// At the neutral axis: Q is largest there, and no narrower place makes up for the smaller Q.
    NeutralAxis,
    /// Off the neutral axis, at a height where the width jumps: towards the axis the section is broader.
    WidthJumps {
        /// The height, m.
        height: f64,
        /// The narrow width, m.
        narrow: f64,
        /// The broad width on the side of the axis, m.
        broad: f64,
    },
    /// Off the neutral axis, within a stretch where the width grows towards the axis faster than Q does.
    WidthGrows {
        /// Width at the place, m.
        here: f64,
        /// Width at the neutral axis, m (just above it, where it jumps).
        at_axis: f64,
    },
    /// On a contact between parts that is narrower than the parts themselves.
    NarrowContact {
        /// Its width, m.
        contact: f64,
    },
    /// There is no shear force.
    NoShearForce,
}

/// The largest shear stress over the depth.
#[derive(Clone, Debug, PartialEq)]
pub struct LargestShearStress {
    /// Its size, Pa.
    pub value: f64,
    /// Where it is reached, from the lowest up.
    pub places: Vec<ShearPlace>,
    /// Whether one of the places is the neutral axis.
    pub at_neutral_axis: bool,
    /// Why there.
    pub reason: Reason,
    /// The size of the mean `V / A`, Pa.
    pub mean: f64,
}

#[derive(Clone, Copy)]
struct Candidate {
    y: f64,
    side: PlaceSide,
    /// `Q / (I t)`.
    value: f64,
}

impl StressOverDepth {
    /// The largest shear stress over the depth: the roots of its slope in each strip, and both sides of each level,
    /// compared. Where a strip has straight sides the slope is a cubic over the square of the width; where it has arcs the
    /// roots of the exact function are bracketed.
    pub fn largest_shear_stress(&self) -> LargestShearStress {
        let candidates = self.candidates();
        let most = candidates.iter().fold(0.0, |most: f64, candidate| most.max(candidate.value));
        let reached: Vec<Candidate> =
            candidates.into_iter().filter(|candidate| candidate.value >= most * (1.0 - SAME_VALUE)).collect();
        let near_axis = |y: f64| (y - self.axis()).abs() <= SAME_SPOT.max(1e-9) * self.properties.height();
        let at_neutral_axis = reached.iter().any(|candidate| near_axis(candidate.y));
        let reason = if self.shear_force == 0.0 {
            Reason::NoShearForce
        } else {
            self.reason(&reached, at_neutral_axis)
        };
        LargestShearStress {
            value: most * self.shear_force.abs(),
            places: reached
                .iter()
                .map(|candidate| ShearPlace {
                    height: match candidate.side {
                        PlaceSide::Both if near_axis(candidate.y) => self.properties.centroid.y,
                        _ => self.outer(candidate.y),
                    },
                    side: candidate.side,
                })
                .collect(),
            at_neutral_axis,
            reason,
            mean: self.mean_shear_stress().abs(),
        }
    }

    /// All places where the largest value may lie, from the lowest up, with neighbours that are one place merged.
    fn candidates(&self) -> Vec<Candidate> {
        let mut all: Vec<Candidate> = Vec::new();
        for (index, strip) in self.strips.iter().enumerate() {
            let before = index.checked_sub(1).map(|before| &self.strips[before]);
            self.candidates_at_level(before, strip, &mut all);
            for y in self.turning_points(strip) {
                all.push(Candidate { y, side: PlaceSide::Both, value: self.over_width(strip, y) });
            }
        }
        let spot = SAME_SPOT * self.properties.height();
        let mut merged: Vec<Candidate> = Vec::with_capacity(all.len());
        for candidate in all {
            match merged.last_mut() {
                Some(last) if candidate.y - last.y <= spot && candidate.side == PlaceSide::Both => {
                    if last.side == PlaceSide::Both && candidate.value > last.value {
                        *last = candidate;
                    } else if last.side != PlaceSide::Both
                        && candidate.value > last.value * (1.0 + SAME_VALUE)
                    {
                        merged.push(candidate);
                    }
                }
                Some(last)
                    if candidate.y - last.y <= spot
                        && candidate.y != last.y
                        && last.side == PlaceSide::Both
                        && candidate.value >= last.value * (1.0 - SAME_VALUE) =>
                {
                    *last = candidate;
                }
                _ => merged.push(candidate),
            }
        }
        merged
    }

    fn candidates_at_level(&self, before: Option<&Strip>, strip: &Strip, all: &mut Vec<Candidate>) {
        let y = strip.bottom;
        let Some(before) = before else { return };
        let (below, above) = (before.width(y), strip.width(y));
        let (value_below, value_above) = (self.over_width(before, y), self.over_width(strip, y));
        if (below - above).abs() <= self.tolerance {
            all.push(Candidate { y, side: PlaceSide::Both, value: value_below.max(value_above) });
        } else {
            all.push(Candidate { y, side: PlaceSide::Below, value: value_below });
            all.push(Candidate { y, side: PlaceSide::Above, value: value_above });
        }
        let contact = strip.contact_below;
        if contact > self.tolerance && contact < below.min(above) - self.tolerance {
            let value = strip.first_moment(y) / (self.properties.second_moment * contact);
            all.push(Candidate { y, side: PlaceSide::Contact, value });
        }
    }

    /// The heights within a strip where `Q / t` turns from rising to falling.
    fn turning_points(&self, strip: &Strip) -> Vec<f64> {
        let (axis, bottom, top) = (self.axis(), strip.bottom, strip.top);
        // The slope of Q / t times t²; dQ/dy = -b e with the transformed width b.
        let slope = |y: f64| {
            -strip.transformed_width(y) * (y - axis) * strip.width(y)
                - strip.first_moment(y) * strip.width_slope(y)
        };
        let height = top - bottom;
        let mut marks = vec![bottom];
        if strip.curved {
            // Dense towards both ends, where the side of a circle is steep. Between two marks of so smooth a
            // function there is at most one turn, unless a section was made to hide one.
            const MARKS: u32 = 48;
            marks.push(bottom + 1e-9 * height);
            for mark in 1..MARKS {
                let turn = core::f64::consts::PI * f64::from(mark) / f64::from(MARKS);
                marks.push(bottom + 0.5 * height * (1.0 - crate::real::cos(turn)));
            }
            marks.push(top - 1e-9 * height);
            marks.remove(0);
        } else {
            // The slope is a cubic: between its own turning points it is monotone.
            let values = [0.0, 1.0 / 3.0, 2.0 / 3.0, 1.0].map(|part| slope(bottom + height * part));
            marks.extend(turns_of_cubic(values).into_iter().flatten().map(|part| bottom + height * part));
            marks.push(top);
        }
        let mut found = Vec::new();
        for pair in marks.windows(2) {
            let (low, high) = (pair[0], pair[1]);
            if slope(low) > 0.0 && slope(high) <= 0.0 {
                found.push(bisect(low, high, slope));
            }
        }
        found
    }

    fn reason(&self, reached: &[Candidate], at_neutral_axis: bool) -> Reason {
        let width = |y: f64, side: HeightSide| {
            self.strip_at(self.outer(y), side).map_or(0.0, |(strip, y)| strip.width(y))
        };
        let axis = self.axis();
        if let Some(candidate) = reached.iter().find(|candidate| candidate.side == PlaceSide::Contact) {
            let strip = self.strips.iter().find(|strip| strip.bottom == candidate.y);
            return Reason::NarrowContact { contact: strip.map_or(0.0, |strip| strip.contact_below) };
        }
        if at_neutral_axis {
            return Reason::NeutralAxis;
        }
        for candidate in reached {
            let y = candidate.y;
            let (narrow, broad) = match candidate.side {
                PlaceSide::Below => (width(y, HeightSide::Below), width(y, HeightSide::Above)),
                PlaceSide::Above => (width(y, HeightSide::Above), width(y, HeightSide::Below)),
                _ => continue,
            };
            if broad > narrow {
                return Reason::WidthJumps { height: self.outer(y), narrow, broad };
            }
        }
        let here = reached.first().map_or(0.0, |candidate| width(candidate.y, HeightSide::Above));
        Reason::WidthGrows { here, at_axis: width(axis, HeightSide::Above) }
    }
}

/// Where within (0, 1) the cubic through four values at 0, 1/3, 2/3 and 1 turns, rising.
fn turns_of_cubic([at_0, at_1, at_2, at_3]: [f64; 4]) -> [Option<f64>; 2] {
    // Newton's differences on u = 3 part: c(u) = at_0 + d1 u + d2 u (u-1) / 2 + d3 u (u-1)(u-2) / 6.
    let (d1, d2, d3) = (at_1 - at_0, at_2 - 2.0 * at_1 + at_0, at_3 - 3.0 * at_2 + 3.0 * at_1 - at_0);
    // Its slope is a + b u + c u².
    let (a, b, c) = (d1 - 0.5 * d2 + d3 / 3.0, d2 - d3, 0.5 * d3);
    let inside = |u: f64| (u > 0.0 && u < 3.0).then_some(u / 3.0);
    let scale = a.abs().max(b.abs()).max(c.abs());
    if c.abs() <= 1e-14 * scale {
        return [if b == 0.0 { None } else { inside(-a / b) }, None];
    }
    let under_root = b * b - 4.0 * a * c;
    if under_root <= 0.0 {
        return [None, None];
    }
    let half = -0.5 * (b + under_root.sqrt().copysign(b));
    let (first, second) = (half / c, if half == 0.0 { 0.0 } else { a / half });
    let (lower, upper) = if first < second { (first, second) } else { (second, first) };
    [inside(lower), inside(upper)]
}

/// The root of a falling function between two marks, to the last bit.
fn bisect(mut low: f64, mut high: f64, function: impl Fn(f64) -> f64) -> f64 {
    // Each step halves the range; 200 steps are past the last bit of any f64 range that is no wider than a section.
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if middle <= low || middle >= high {
            break;
        }
        if function(middle) > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}
