//! The section as a pile of strips: between two neighbouring levels the same flanks stand side by side, so that width
//! and first moment are smooth there.

use super::Section;
use super::flank::{Flank, FlankShape};
use crate::gauss;

/// The ground between two neighbouring levels. Heights `y` are local, `e` counts from the neutral axis.
#[derive(Clone, Debug)]
pub(crate) struct Strip {
    pub bottom: f64,
    pub top: f64,
    /// Each with the modular ratio of its part.
    flanks: Vec<(Flank, f64)>,
    /// Whether any flank is an arc.
    pub curved: bool,
    axis: f64,
    /// First moment of all that lies above the strip, and above its lower end.
    q_top: f64,
    q_bottom: f64,
    /// Material that passes through its lower end.
    pub contact_below: f64,
}

impl Strip {
    fn inside(&self, y: f64) -> f64 {
        y.clamp(self.bottom, self.top)
    }

    /// Width of the material at a height, m.
    pub(crate) fn width(&self, y: f64) -> f64 {
        let y = self.inside(y);
        self.flanks.iter().map(|(flank, _)| flank.sign * flank.x_at(y)).sum()
    }

    /// Rate at which the width grows with the height.
    pub(crate) fn width_slope(&self, y: f64) -> f64 {
        self.flanks.iter().map(|(flank, _)| flank.sign * flank.slope_at(y)).sum()
    }

    /// Width transformed to the reference modulus, m.
    pub(crate) fn transformed_width(&self, y: f64) -> f64 {
        let y = self.inside(y);
        self.flanks.iter().map(|(flank, ratio)| ratio * flank.sign * flank.x_at(y)).sum()
    }

    /// `∫ g dx`, m: the width with each part as many times as its shear modulus is that of reference.
    pub(crate) fn sheared_width(&self, y: f64, shear_ratios: &[f64]) -> f64 {
        let y = self.inside(y);
        let ratio = |part: usize| shear_ratios.get(part).copied().unwrap_or(1.0);
        self.flanks.iter().map(|(flank, _)| ratio(flank.part) * flank.sign * flank.x_at(y)).sum()
    }

    /// First moment about the neutral axis of all that lies above a height, m³.
    pub(crate) fn first_moment(&self, y: f64) -> f64 {
        // At its ends it is known, and exactly zero at the extreme fibres.
        if y <= self.bottom {
            return self.q_bottom;
        }
        if y >= self.top {
            return self.q_top;
        }
        // Counted from the extreme fibre on the strip's own side of the axis, so that it vanishes there exactly.
        let from_above = self.bottom + self.top > 2.0 * self.axis;
        let (low, high) = if from_above { (y, self.top) } else { (self.bottom, y) };
        let mut piece = 0.0;
        for (flank, ratio) in &self.flanks {
            let moments = flank.moments(low, high);
            piece += ratio * flank.sign * (moments.y - self.axis * moments.area);
        }
        if from_above { self.q_top + piece } else { self.q_bottom - piece }
    }

    /// `∫ e² dA` (transformed) between two heights within the strip, m⁴.
    pub(crate) fn second_moment(&self, low: f64, high: f64) -> f64 {
        let mut sum = 0.0;
        for (flank, ratio) in &self.flanks {
            let moments = flank.moments(low, high);
            sum += ratio
                * flank.sign
                * (moments.yy - 2.0 * self.axis * moments.y + self.axis * self.axis * moments.area);
        }
        sum
    }

    /// Integrates a function of the height over the strip by quadrature, apart from the integrals round the
    /// outline: this is how the self-checks stay independent.
    pub(crate) fn integrate(&self, low: f64, high: f64, function: impl Fn(f64) -> f64) -> f64 {
        let (low, high) = (low.max(self.bottom), high.min(self.top));
        if low >= high {
            return 0.0;
        }
        let mut sum = 0.0;
        if self.curved {
            // With y = middle + half sin(turn) the vertical tangent at the top of a circle does no harm.
            let (middle, half) = (0.5 * (low + high), 0.5 * (high - low));
            let quarter = core::f64::consts::FRAC_PI_4;
            for panel in -2..2 {
                let from = f64::from(panel) * quarter;
                gauss::for_each_node(from, from + quarter, |turn, weight| {
                    let y = middle + half * crate::real::sin(turn);
                    sum += weight * half * crate::real::cos(turn) * function(y);
                });
            }
        } else {
            gauss::for_each_node(low, high, |y, weight| sum += weight * function(y));
        }
        sum
    }
}

impl Section {
    /// The strips from the lowest to the highest.
    pub(crate) fn strips(&self) -> Vec<Strip> {
        let axis = self.local_axis();
        let mut strips: Vec<Strip> = self
            .levels
            .windows(2)
            .map(|pair| {
                let (bottom, top) = (pair[0], pair[1]);
                let reach = |flank: &&Flank| flank.lower.y <= bottom && flank.upper.y >= top;
                let flanks: Vec<(Flank, f64)> =
                    self.flanks.iter().filter(reach).map(|flank| (*flank, self.ratio(flank.part))).collect();
                let curved = flanks.iter().any(|(flank, _)| matches!(flank.shape, FlankShape::Round { .. }));
                let contact_below = self.local_contact_width(bottom);
                Strip { bottom, top, flanks, curved, axis, q_top: 0.0, q_bottom: 0.0, contact_below }
            })
            .collect();
        let own = |strip: &Strip| {
            let mut sum = 0.0;
            for (flank, ratio) in &strip.flanks {
                let moments = flank.moments(strip.bottom, strip.top);
                sum += ratio * flank.sign * (moments.y - axis * moments.area);
            }
            sum
        };
        let mut below = 0.0;
        for strip in &mut strips {
            strip.q_bottom = below;
            below -= own(strip);
        }
        let mut above = 0.0;
        for strip in strips.iter_mut().rev() {
            strip.q_top = above;
            above += own(strip);
        }
        strips
    }
}
