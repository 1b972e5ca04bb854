//! How stiff the materials are in shear: their shear moduli and Poisson's ratio, given or assumed.

use crate::problem::Problem;
use mechanics::elastic::Elasticity;

/// Poisson's ratio where a lesson says nothing of it: that of steel; common practice, no source.
///
/// A section that is narrow across the bending hardly feels it, a wide one does.
pub const ASSUMED_POISSON_RATIO: f64 = 0.3;

/// What a lesson states of a material in shear.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ShearGiven {
    /// Poisson's ratio, from 0 to 1/2.
    pub poisson_ratio: Option<f64>,
    /// Shear modulus, Pa; greater than zero.
    pub shear_modulus: Option<f64>,
}

impl ShearGiven {
    /// Whether nothing is stated.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// Poisson's ratio, with the modulus of elasticity, Pa: as stated; else that of a material that is alike in all directions, by its
    /// shear modulus, `E / (2 G) - 1`; else, where nothing is stated or no such material has it, [`ASSUMED_POISSON_RATIO`].
    pub fn poisson_ratio(&self, elastic_modulus: f64) -> f64 {
        self.own_poisson_ratio(elastic_modulus).unwrap_or(ASSUMED_POISSON_RATIO)
    }

    fn own_poisson_ratio(&self, elastic_modulus: f64) -> Option<f64> {
        let of_modulus = || {
            let ratio = elastic_modulus / (2.0 * self.shear_modulus?) - 1.0;
            (0.0..=0.5).contains(&ratio).then_some(ratio)
        };
        self.poisson_ratio.or_else(of_modulus)
    }

    /// Whether Poisson's ratio is assumed.
    pub fn assumes_poisson_ratio(&self, elastic_modulus: f64) -> bool {
        self.own_poisson_ratio(elastic_modulus).is_none()
    }

    /// Shear modulus, Pa, with the modulus of elasticity, Pa: as stated, or `E / (2 (1 + nu))`.
    pub fn shear_modulus(&self, elastic_modulus: f64) -> f64 {
        self.shear_modulus.unwrap_or(elastic_modulus / (2.0 * (1.0 + self.poisson_ratio(elastic_modulus))))
    }
}

impl Problem {
    /// What the lesson states of the material of a part: its own, else that of a part of the same modulus of elasticity.
    pub fn shear_given(&self, part: usize) -> ShearGiven {
        let ratio = |part: usize| self.parts.get(part).map(|part| part.modular_ratio);
        let stated =
            |part: usize| self.part_materials.get(part).map(|of| of.shear).filter(|of| !of.is_empty());
        let alike = (0..self.parts.len()).filter(|&other| ratio(other) == ratio(part));
        let of_reference = || if ratio(part) == Some(1.0) { self.shear } else { ShearGiven::default() };
        stated(part).or_else(|| alike.into_iter().find_map(stated)).unwrap_or_else(of_reference)
    }

    /// Shear modulus of the material of a part, Pa.
    pub fn shear_modulus_of(&self, part: usize) -> f64 {
        let ratio = self.parts.get(part).map_or(1.0, |part| part.modular_ratio);
        self.shear_given(part).shear_modulus(ratio * self.elastic_modulus)
    }

    /// Shear modulus of the material of reference, Pa.
    pub fn shear_modulus(&self) -> f64 {
        self.shear.shear_modulus(self.elastic_modulus)
    }

    /// What the elastic solution needs to know of the materials.
    pub fn elasticity(&self) -> Elasticity {
        let reference = self.shear_modulus();
        let ratios = (0..self.parts.len()).map(|part| self.shear_modulus_of(part) / reference);
        Elasticity {
            poisson_ratio: self.shear.poisson_ratio(self.elastic_modulus),
            shear_share: reference / self.elastic_modulus,
            shear_ratios: ratios.collect(),
        }
    }
}
