//! Which unit a course uses for what.

use crate::dimension::Dimension;
use crate::role::Role;
use crate::unit::Unit;

/// A choice of output units.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum UnitSystem {
    /// `metric`: kN and m for the beam, mm for the section, MPa.
    #[default]
    Metric,
    /// `N-mm`: N, mm and MPa throughout.
    NewtonMillimetre,
    /// `kN-m`: kN, m and kPa throughout.
    KilonewtonMetre,
    /// `kN-cm`: kN and m for the beam, cm for the section, kN/cm².
    KilonewtonCentimetre,
    /// `US`: kip and ft for the beam, in for the section, ksi.
    KipFoot,
    /// `kip-in`: kip, in and ksi throughout.
    KipInch,
    /// `lb-ft`: lb and ft for the beam, in for the section, psi.
    PoundFoot,
    /// `lb-in`: lb, in and psi throughout.
    PoundInch,
}

impl UnitSystem {
    /// All of them.
    pub const ALL: [Self; 8] = [
        Self::Metric,
        Self::NewtonMillimetre,
        Self::KilonewtonMetre,
        Self::KilonewtonCentimetre,
        Self::KipFoot,
        Self::KipInch,
        Self::PoundFoot,
        Self::PoundInch,
    ];

    /// Its name in a lesson file.
    pub fn name(self) -> &'static str {
        match self {
            Self::Metric => "metric",
            Self::NewtonMillimetre => "N-mm",
            Self::KilonewtonMetre => "kN-m",
            Self::KilonewtonCentimetre => "kN-cm",
            Self::KipFoot => "US",
            Self::KipInch => "kip-in",
            Self::PoundFoot => "lb-ft",
            Self::PoundInch => "lb-in",
        }
    }

    /// The system of this name, whatever the case of its letters.
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|system| system.name().eq_ignore_ascii_case(name.trim()))
    }

    /// The unit for a quantity of this role and dimension.
    pub fn unit(self, role: Role, dimension: Dimension) -> Unit {
        todo!()
    }
}
