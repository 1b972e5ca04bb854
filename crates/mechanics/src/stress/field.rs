//! The stresses over the side of the beam: bending and shear stress at every station and height.
//!
//! The side falls into panels, the stretches of the beam times the strips of the section. Within a panel both stresses
//! are smooth; from one to the next the shear stress may jump, where V or the width does.

use super::{PrincipalStresses, StressOverDepth};
use crate::beam::{Curve, Segment, Solution};
use crate::section::{HeightSide, Section};

/// The plane state of stress at a point of the beam; none acts across it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PlaneStress {
    /// Normal stress along the beam, Pa, tension positive.
    pub normal: f64,
    /// Shear stress, Pa, with the sign of V: positive acts down on the face towards +x.
    pub shear: f64,
}

impl PlaneStress {
    /// The principal stresses; their angle counter-clockwise from the beam's axis.
    pub fn principal(self) -> PrincipalStresses {
        // In axes x, y a shear stress that acts down on the face towards +x is negative.
        PrincipalStresses::of(self.normal, -self.shear)
    }

    /// The stress that a tensile test would have to reach to bring a ductile material equally near to yielding, Pa:
    /// `√(sigma² + 3 tau²)`.
    ///
    /// # Source
    /// The hypothesis of the energy of distortion, for one normal and one shear stress; any textbook (from memory).
    pub fn equivalent(self) -> f64 {
        (self.normal * self.normal + 3.0 * self.shear * self.shear).sqrt()
    }
}

/// A piece of the side within which the stresses are smooth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Panel {
    /// Its stretch of the beam, counted from the left.
    pub stretch: usize,
    /// Its strip of the section, counted from below.
    pub strip: usize,
    /// Station of its left edge, m.
    pub from: f64,
    /// Station of its right edge, m.
    pub to: f64,
    /// Height of its lower edge, m.
    pub bottom: f64,
    /// Height of its upper edge, m.
    pub top: f64,
}

/// The stresses over the side of a beam. Heights are in the coordinates of the outlines.
///
/// The shear stress is the mean over the width, as ever. In a strip where parts of several moduli lie side by side the
/// bending stress is that of the reference material.
#[derive(Clone, Debug)]
pub struct StressField<'a> {
    segments: &'a [Segment],
    /// The stresses under a unit moment and a unit shear force.
    unit: StressOverDepth,
    /// The modular ratio of each strip.
    ratios: Vec<f64>,
    /// The strips' edges, m.
    strips: Vec<(f64, f64)>,
    /// V and M smaller than this are rounding, N and N m.
    nothing: [f64; 2],
}

impl<'a> StressField<'a> {
    /// The stresses of a solved beam of this section.
    pub fn new(solution: &'a Solution, section: &Section) -> Self {
        let unit = StressOverDepth::new(section, 1.0, 1.0);
        let strips: Vec<(f64, f64)> = unit.strips().collect();
        let ratio = |part: usize| section.parts().get(part).map_or(1.0, |part| part.modular_ratio);
        let ratio_of = |&(bottom, top): &(f64, f64)| {
            let chords = section.chords(0.5 * (bottom + top), HeightSide::Above);
            let mut ratios = chords.iter().map(|chord| ratio(chord.part));
            let first = ratios.next().unwrap_or(1.0);
            if ratios.all(|other| other == first) { first } else { 1.0 }
        };
        Self {
            segments: solution.segments(),
            ratios: strips.iter().map(ratio_of).collect(),
            strips,
            unit,
            nothing: [Curve::Shear, Curve::BendingMoment].map(|curve| solution.nothing(curve)),
        }
    }

    /// All panels, stretch by stretch from the left, in each from the lowest strip up.
    pub fn panels(&self) -> impl Iterator<Item = Panel> + '_ {
        (0..self.segments.len()).flat_map(move |stretch| {
            (0..self.strips.len()).filter_map(move |strip| self.panel(stretch, strip))
        })
    }

    /// The panel of a stretch and a strip.
    pub fn panel(&self, stretch: usize, strip: usize) -> Option<Panel> {
        let (segment, &(bottom, top)) = (self.segments.get(stretch)?, self.strips.get(strip)?);
        Some(Panel { stretch, strip, from: segment.from, to: segment.to, bottom, top })
    }

    /// The panel that holds a point; of several that meet there the first.
    pub fn panel_at(&self, station: f64, height: f64) -> Option<Panel> {
        let stretch =
            self.segments.iter().position(|segment| (segment.from..=segment.to).contains(&station))?;
        let strip = self.strips.iter().position(|(bottom, top)| (*bottom..=*top).contains(&height))?;
        self.panel(stretch, strip)
    }

    /// The shear force, N, and the bending moment, N m, of a stretch at a station.
    fn forces(&self, stretch: usize, station: f64) -> (f64, f64) {
        let Some(segment) = self.segments.get(stretch) else { return (0.0, 0.0) };
        let s = (station - segment.from).clamp(0.0, segment.length());
        let value = |curve: Curve, nothing: f64| {
            let value = segment.value(curve, s);
            if value.abs() <= nothing { 0.0 } else { value }
        };
        (value(Curve::Shear, self.nothing[0]), value(Curve::BendingMoment, self.nothing[1]))
    }

    /// The stresses of a strip at a height under a unit shear force and a unit moment, 1/m² and 1/m³.
    fn shares(&self, strip: usize, height: f64) -> (f64, f64) {
        let Some(ground) = self.unit.strips.get(strip) else { return (0.0, 0.0) };
        let y = (height - self.unit.origin_y).clamp(ground.bottom, ground.top);
        (
            self.unit.over_width(ground, y),
            self.ratios[strip] * self.unit.bending_stress(y + self.unit.origin_y),
        )
    }

    /// The stresses in a panel; a point off it counts as the nearest on it.
    pub fn stress(&self, panel: &Panel, station: f64, height: f64) -> PlaneStress {
        let (shear, moment) = self.forces(panel.stretch, station);
        let (per_shear, per_moment) = self.shares(panel.strip, height);
        PlaneStress { normal: moment * per_moment, shear: shear * per_shear }
    }

    /// The stresses on a grid of a panel: rows from the lowest up, each from left to right.
    pub fn grid(&self, panel: &Panel, stations: &[f64], heights: &[f64]) -> Vec<Vec<PlaneStress>> {
        let forces: Vec<(f64, f64)> =
            stations.iter().map(|&station| self.forces(panel.stretch, station)).collect();
        let row = |&height: &f64| {
            let (per_shear, per_moment) = self.shares(panel.strip, height);
            forces
                .iter()
                .map(|&(shear, moment)| PlaneStress { normal: moment * per_moment, shear: shear * per_shear })
                .collect()
        };
        heights.iter().map(row).collect()
    }

    /// Depth of the section, m.
    pub fn depth(&self) -> f64 {
        self.unit.properties.height()
    }

    /// Length of the beam, m.
    pub fn length(&self) -> f64 {
        self.segments.last().map_or(0.0, |segment| segment.to)
    }

    /// The greatest principal stress of any size at the corners and along the edges of the panels, Pa: what others are
    /// small beside.
    pub fn scale(&self) -> f64 {
        let mut most = 0.0_f64;
        for panel in self.panels() {
            for k in 0..=8 {
                let station = panel.from + (panel.to - panel.from) * f64::from(k) / 8.0;
                for height in [panel.bottom, 0.5 * (panel.bottom + panel.top), panel.top] {
                    let found = self.stress(&panel, station, height).principal();
                    most = most.max(found.largest.abs()).max(found.smallest.abs());
                }
            }
        }
        most
    }
}
