//! The level cut on which the shear stress is largest where `V Q / (I t)` is not enough: in one of several materials, or in a section that
//! bends askew.

use super::SkewBending;
use crate::section::{HeightSide, Section};

/// Looks taken within each strip between neighbouring levels, before the best one is closed in on.
const LOOKS: usize = 64;

/// Steps by which it is closed in on, each to less than two thirds: as near as a flat top can be told.
const STEPS: usize = 60;

/// Values that agree to this part are one, and the neutral axis is the place.
const SAME_VALUE: f64 = 1e-12;

/// The level cut of the largest shear stress in some parts of a section: that stress is `V Q / (I t)` with what counts of Q and t.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LargestCut {
    /// Its height in the coordinates of the outlines, m.
    pub height: f64,
    /// The side from which it is seen, where the width jumps.
    pub side: HeightSide,
    /// The first moment that counts, m³: that of the piece above, askew less `I_xy / I_y` times the one about the upright axis; to be
    /// taken with `I - I_xy² / I_y` in the place of `I`.
    pub first_moment: f64,
    /// The width that counts, m: each width of the cut as many times as its shear modulus is that of the parts, for what lies side
    /// by side is sheared alike.
    pub width: f64,
}

impl LargestCut {
    /// Among all level cuts through some parts, those of one material; each part has the ratio of its shear modulus to one of
    /// reference. None where the parts have no width.
    ///
    /// # Source
    /// Equal shear strain side by side and the full formula of unsymmetric bending, as in any textbook; a mean over each material's width.
    pub fn of(section: &Section, parts: &[usize], shear_ratios: &[f64]) -> Option<Self> {
        let mut best: Option<Self> = None;
        let mut keep = |found: Option<Self>| {
            if let Some(found) = found
                && best.is_none_or(|best| found.over_width() > best.over_width() * (1.0 + SAME_VALUE))
            {
                best = Some(found);
            }
        };
        let at = |height: f64, side: HeightSide| Self::at(section, (parts, shear_ratios), height, side);
        let axis = section.neutral_axis();
        keep(at(axis, HeightSide::Above));
        keep(at(axis, HeightSide::Below));
        let levels: Vec<f64> = section.levels().collect();
        for pair in levels.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            let height = |look: usize| from + (to - from) * look as f64 / LOOKS as f64;
            let side = |look: usize| if look == LOOKS { HeightSide::Below } else { HeightSide::Above };
            let value = |height: f64, side| at(height, side).map_or(0.0, |found| found.over_width());
            let looks = (0..=LOOKS).map(|look| (look, value(height(look), side(look))));
            let Some((look, _)) = looks.max_by(|one, other| one.1.total_cmp(&other.1)) else { continue };
            keep(at(height(look), side(look)));
            let (mut low, mut high) = (height(look.saturating_sub(1)), height((look + 1).min(LOOKS)));
            for _ in 0..STEPS {
                let third = (high - low) / 3.0;
                let (one, other) = (low + third, high - third);
                if value(one, HeightSide::Above) < value(other, HeightSide::Above) {
                    low = one;
                } else {
                    high = other;
                }
            }
            keep(at(0.5 * (low + high), HeightSide::Above));
        }
        best.filter(|best| best.first_moment != 0.0)
    }

    fn at(
        section: &Section,
        (parts, shear_ratios): (&[usize], &[f64]),
        height: f64,
        side: HeightSide,
    ) -> Option<Self> {
        let chords = section.chords(height, side);
        let ratio = |part: usize| shear_ratios.get(part).copied().unwrap_or(1.0);
        let own = chords
            .iter()
            .find(|chord| parts.contains(&chord.part) && chord.to - chord.from > section.tolerance())?;
        let sheared: f64 = chords.iter().map(|chord| ratio(chord.part) * (chord.to - chord.from)).sum();
        let flow = SkewBending::flow_on_cut(section, [1.0, 0.0], height).ok()?;
        let first_moment = flow / SkewBending::new(section, 1.0, 0.0).per_y;
        Some(Self { height, side, first_moment, width: sheared / ratio(own.part) })
    }

    fn over_width(&self) -> f64 {
        self.first_moment.abs() / self.width
    }
}
