//! The level cut: the part of the section beyond a height, its area, centroid and first moment.

use super::flank::Moments;
use super::properties::about_axis;
use super::{HeightSide, Point, Section};

/// Why a cut cannot be made.
#[derive(Clone, Debug, PartialEq)]
pub enum CutFault {
    /// The place is infinite or no number.
    NotFinite,
    /// A level cut misses the section.
    MissesSection {
        /// Height of the cut, m.
        height: f64,
        /// Lowest fibre, m.
        bottom: f64,
        /// Highest fibre, m.
        top: f64,
    },
    /// A straight cut meets no material.
    MeetsNothing,
    /// A straight cut ends inside the material.
    EndsInside {
        /// The end that does, m.
        at: Point,
    },
    /// A straight cut leaves the section in one piece, such as a cut through one wall of a box.
    DoesNotPart,
    /// The point that tells which piece to keep lies in no material, or on the cut.
    KeepsNothing {
        /// The point as given, m.
        at: Point,
    },
    /// There is no such part.
    NoSuchPart {
        /// The index as given.
        part: usize,
    },
    /// The parts beyond a joint must be some of the parts: at least one, and not all.
    NoneOrAllBeyond,
}

/// The part of a section beyond a level cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LevelCut {
    /// Height of the cut, m.
    pub height: f64,
    /// Which piece is the part beyond.
    pub beyond: HeightSide,
    /// Transformed area `A'` of the part beyond, m².
    pub area: f64,
    /// Its area as drawn, m².
    pub plain_area: f64,
    /// Its centroid, in the coordinates of the outlines, m; on the cut where nothing lies beyond.
    pub centroid: Point,
    /// First moment `Q = ∫ y dA` of the part beyond about the neutral axis, m³: positive for the piece above, negative
    /// for the piece below, zero at both extreme fibres. It is continuous where the width jumps.
    pub first_moment: f64,
    /// Width of the cut just below its height, m.
    pub width_below: f64,
    /// Width of the cut just above its height, m.
    pub width_above: f64,
    /// Width of the material that passes through the height, m: the smaller of the two widths, or less where parts
    /// stand off each other.
    pub width_of_contact: f64,
}

impl LevelCut {
    /// Width seen from one side, m.
    pub fn width(&self, side: HeightSide) -> f64 {
        match side {
            HeightSide::Below => self.width_below,
            HeightSide::Above => self.width_above,
        }
    }
}

impl Section {
    /// Cuts the section at a height and takes the piece above or below as the part beyond.
    ///
    /// # Errors
    /// [`CutFault::MissesSection`] or [`CutFault::NotFinite`].
    ///
    /// ```
    /// use mechanics::section::{HeightSide, Section, shapes};
    /// let plank = Section::new(shapes::rectangle(0.100, 0.200)?.parts)?;
    /// let cut = plank.level_cut(0.150, HeightSide::Above).expect("the cut meets the plank");
    /// assert!((cut.first_moment - 0.100 * 0.050 * 0.075).abs() < 1e-15);
    /// # Ok::<(), Vec<mechanics::section::Fault>>(())
    /// ```
    pub fn level_cut(&self, height: f64, beyond: HeightSide) -> Result<LevelCut, CutFault> {
        let y = self.height_within(height)?;
        let (sum, plain_area) = self.moments_beyond(y, beyond);
        let (centroid, first_moment) = if sum.area > 0.0 {
            about_axis(&sum, self.local_axis(), self.properties.height())
        } else {
            (Point::new(self.properties.centroid.x - self.origin.x, y), 0.0)
        };
        Ok(LevelCut {
            height,
            beyond,
            area: sum.area,
            plain_area,
            centroid: centroid.plus(self.origin),
            first_moment,
            width_below: self.local_width(y, HeightSide::Below),
            width_above: self.local_width(y, HeightSide::Above),
            width_of_contact: self.local_contact_width(y),
        })
    }

    /// First moment `∫ e dA` (m³) and second moment `∫ e² dA` (m⁴) of the ground above or below a height, both
    /// transformed and about the neutral axis.
    pub(crate) fn ground(&self, height: f64, piece: HeightSide) -> Result<(f64, f64), CutFault> {
        let y = self.height_within(height)?;
        let (sum, _) = self.moments_beyond(y, piece);
        let axis = self.local_axis();
        Ok((sum.y - axis * sum.area, sum.yy - 2.0 * axis * sum.y + axis * axis * sum.area))
    }

    /// Transformed moments of the ground above or below a local height, and its area as drawn.
    fn moments_beyond(&self, y: f64, piece: HeightSide) -> (Moments, f64) {
        let (bottom, top) = match piece {
            HeightSide::Above => (y, f64::INFINITY),
            HeightSide::Below => (f64::NEG_INFINITY, y),
        };
        let mut sum = Moments::default();
        let mut plain_area = 0.0;
        for (flank, whole) in self.flanks.iter().zip(&self.beside) {
            if flank.upper.y <= bottom || flank.lower.y >= top {
                continue;
            }
            let clear = flank.lower.y >= bottom && flank.upper.y <= top;
            let moments = if clear { *whole } else { flank.moments(bottom, top) };
            sum.add(&moments, flank.sign * self.ratio(flank.part));
            plain_area += flank.sign * moments.area;
        }
        (sum, plain_area)
    }

    /// The local height of a place on the section.
    pub(crate) fn height_within(&self, height: f64) -> Result<f64, CutFault> {
        if !height.is_finite() {
            return Err(CutFault::NotFinite);
        }
        let y = self.local_height(height);
        match (self.levels.first(), self.levels.last()) {
            (Some(lowest), Some(highest)) if (*lowest..=*highest).contains(&y) => Ok(y),
            _ => Err(CutFault::MissesSection {
                height,
                bottom: self.properties.bottom,
                top: self.properties.top,
            }),
        }
    }
}
