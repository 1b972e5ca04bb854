//! The cut round some of the parts: what a joint holds to the rest, and what its fasteners carry.

use super::contact::Contact;
use super::cut::CutFault;
use super::flank::Moments;
use super::properties::about_axis;
use super::{Point, Section};

/// Some of the parts of a section, cut from the rest along the lines where they touch.
#[derive(Clone, Debug, PartialEq)]
pub struct JointCut {
    /// The parts beyond the cut, rising.
    pub beyond: Vec<usize>,
    /// Their transformed area, m².
    pub area: f64,
    /// Their area as drawn, m².
    pub plain_area: f64,
    /// Their centroid, in the coordinates of the outlines, m.
    pub centroid: Point,
    /// Their first moment about the neutral axis of the whole section, m³: positive above it.
    pub first_moment: f64,
    /// Total length of the lines along which they touch the rest, m.
    pub width: f64,
    /// Those lines.
    pub contacts: Vec<Contact>,
    second_moment: f64,
}

impl JointCut {
    /// Shear flow `V Q / I` over the whole joint, N/m: the size of Q with the sign of the shear force.
    pub fn shear_flow(&self, shear_force: f64) -> f64 {
        shear_force * self.first_moment.abs() / self.second_moment
    }

    /// Shear stress `V Q / (I t)` on the whole of the joint, Pa.
    pub fn shear_stress(&self, shear_force: f64) -> f64 {
        self.shear_flow(shear_force) / self.width
    }
}

/// Fasteners along the beam: rows side by side, each row with the same spacing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fasteners {
    /// How many rows share the shear flow; at least 1.
    pub rows: u32,
}

impl Fasteners {
    /// What one row carries of a shear flow, N/m.
    pub fn flow_per_row(&self, shear_flow: f64) -> f64 {
        shear_flow / f64::from(self.rows.max(1))
    }

    /// Force on one fastener at a spacing in m, N: `q s / n`.
    pub fn force(&self, shear_flow: f64, spacing: f64) -> f64 {
        self.flow_per_row(shear_flow) * spacing
    }

    /// Largest spacing at which one fastener of a capacity in N is not overloaded, m: `n F / q`. Infinite without
    /// shear flow.
    pub fn largest_spacing(&self, shear_flow: f64, capacity: f64) -> f64 {
        capacity / self.flow_per_row(shear_flow.abs())
    }

    /// Largest shear force that fasteners of a capacity in N at a spacing in m can take, N: `n F I / (Q s)`.
    pub fn largest_shear_force(&self, joint: &JointCut, spacing: f64, capacity: f64) -> f64 {
        self.largest_spacing(joint.shear_flow(1.0), capacity) / spacing
    }
}

impl Section {
    /// Cuts some of the parts from the rest.
    ///
    /// # Errors
    /// [`CutFault::NoSuchPart`], [`CutFault::NoneOrAllBeyond`].
    pub fn joint_cut(&self, beyond: &[usize]) -> Result<JointCut, CutFault> {
        if let Some(&part) = beyond.iter().find(|&&part| part >= self.parts.len()) {
            return Err(CutFault::NoSuchPart { part });
        }
        let mut beyond = beyond.to_vec();
        beyond.sort_unstable();
        beyond.dedup();
        if beyond.is_empty() || beyond.len() == self.parts.len() {
            return Err(CutFault::NoneOrAllBeyond);
        }
        let holds = |part: usize| beyond.binary_search(&part).is_ok();
        let mut sum = Moments::default();
        let mut plain_area = 0.0;
        for (flank, moments) in self.flanks.iter().zip(&self.beside).filter(|(flank, _)| holds(flank.part)) {
            sum.add(moments, flank.sign * self.ratio(flank.part));
            plain_area += flank.sign * moments.area;
        }
        let contacts: Vec<Contact> = self
            .contacts
            .iter()
            .filter(|contact| holds(contact.first) != holds(contact.second))
            .copied()
            .collect();
        let (centroid, first_moment) = about_axis(&sum, self.local_axis(), self.properties.height());
        Ok(JointCut {
            area: sum.area,
            plain_area,
            centroid: centroid.plus(self.origin),
            first_moment,
            width: contacts.iter().map(|contact| contact.length).sum(),
            contacts,
            second_moment: self.properties.second_moment,
            beyond,
        })
    }
}
