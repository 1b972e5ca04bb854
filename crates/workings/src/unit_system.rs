//! Which unit a course uses for what, and which neighbouring unit when a value is very small or very large.

use crate::dimension::Dimension;
use crate::role::Role;
use crate::unit::{Unit, UnitFactor};
use std::sync::OnceLock;

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

/// The units of one system, as text.
struct Table {
    force: &'static str,
    /// Stations, spans, distances between loads.
    beam_length: &'static str,
    /// Sizes of the section, the length of the slice, spacings.
    section_length: &'static str,
    deflection: &'static str,
    moment: &'static str,
    /// Spread loads.
    spread: &'static str,
    /// Shear flow.
    flow: &'static str,
    stress: &'static str,
    elastic_modulus: &'static str,
    density: &'static str,
    weight_per_volume: &'static str,
    acceleration: &'static str,
    rigidity: &'static str,
}

const METRIC: Table = Table {
    force: "kN",
    beam_length: "m",
    section_length: "mm",
    deflection: "mm",
    moment: "kN·m",
    spread: "kN/m",
    flow: "N/mm",
    stress: "MPa",
    elastic_modulus: "GPa",
    density: "kg/m³",
    weight_per_volume: "kN/m³",
    acceleration: "m/s²",
    rigidity: "kN·m²",
};

const NEWTON_MILLIMETRE: Table = Table {
    force: "N",
    beam_length: "mm",
    moment: "N·mm",
    spread: "N/mm",
    elastic_modulus: "MPa",
    rigidity: "N·mm²",
    ..METRIC
};

const KILONEWTON_METRE: Table = Table {
    section_length: "m",
    deflection: "m",
    flow: "kN/m",
    stress: "kPa",
    elastic_modulus: "kPa",
    ..METRIC
};

const KILONEWTON_CENTIMETRE: Table = Table {
    section_length: "cm",
    deflection: "cm",
    flow: "kN/cm",
    stress: "kN/cm²",
    elastic_modulus: "kN/cm²",
    ..METRIC
};

const KIP_FOOT: Table = Table {
    force: "kip",
    beam_length: "ft",
    section_length: "in",
    deflection: "in",
    moment: "kip·ft",
    spread: "kip/ft",
    flow: "kip/in",
    stress: "ksi",
    elastic_modulus: "ksi",
    density: "lbm/ft³",
    weight_per_volume: "lb/ft³",
    acceleration: "ft/s²",
    rigidity: "kip·in²",
};

const KIP_INCH: Table = Table { beam_length: "in", moment: "kip·in", spread: "kip/in", ..KIP_FOOT };

const POUND_FOOT: Table = Table {
    force: "lb",
    moment: "lb·ft",
    spread: "lb/ft",
    flow: "lb/in",
    stress: "psi",
    elastic_modulus: "psi",
    rigidity: "lb·in²",
    ..KIP_FOOT
};

const POUND_INCH: Table = Table { beam_length: "in", moment: "lb·in", spread: "lb/in", ..POUND_FOOT };

/// The units of one system, read.
struct Units {
    force: Unit,
    beam_length: Unit,
    section_length: Unit,
    deflection: Unit,
    moment: Unit,
    spread: Unit,
    flow: Unit,
    stress: Unit,
    elastic_modulus: Unit,
    density: Unit,
    weight_per_volume: Unit,
    acceleration: Unit,
    rigidity: Unit,
    radian: Unit,
    degree: Unit,
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

    /// Whether it is of the US customary units.
    pub fn is_customary(self) -> bool {
        matches!(self, Self::KipFoot | Self::KipInch | Self::PoundFoot | Self::PoundInch)
    }

    fn table(self) -> &'static Table {
        match self {
            Self::Metric => &METRIC,
            Self::NewtonMillimetre => &NEWTON_MILLIMETRE,
            Self::KilonewtonMetre => &KILONEWTON_METRE,
            Self::KilonewtonCentimetre => &KILONEWTON_CENTIMETRE,
            Self::KipFoot => &KIP_FOOT,
            Self::KipInch => &KIP_INCH,
            Self::PoundFoot => &POUND_FOOT,
            Self::PoundInch => &POUND_INCH,
        }
    }

    fn units(self) -> &'static Units {
        static READ: OnceLock<Vec<Units>> = OnceLock::new();
        let all = READ.get_or_init(|| {
            let read = |text: &str| Unit::read(text).expect("a test reads every unit of the tables");
            let units = |table: &Table| Units {
                force: read(table.force),
                beam_length: read(table.beam_length),
                section_length: read(table.section_length),
                deflection: read(table.deflection),
                moment: read(table.moment),
                spread: read(table.spread),
                flow: read(table.flow),
                stress: read(table.stress),
                elastic_modulus: read(table.elastic_modulus),
                density: read(table.density),
                weight_per_volume: read(table.weight_per_volume),
                acceleration: read(table.acceleration),
                rigidity: read(table.rigidity),
                radian: read("rad"),
                degree: read("°"),
            };
            Self::ALL.iter().map(|system| units(system.table())).collect()
        });
        // `ALL` is in the order of the variants.
        &all[self as usize]
    }

    /// The unit for a quantity of this role and dimension.
    ///
    /// The role decides where one dimension has several units (a span in m, a flange in mm); a dimension that the
    /// course has no unit for is made of its force, its length and whatever is left.
    pub fn unit(self, role: Role, dimension: Dimension) -> Unit {
        let units = self.units();
        let one = match dimension {
            Dimension::NONE if role == Role::Slope => &units.radian,
            Dimension::NONE
                if matches!(
                    role,
                    Role::PrincipalAngle | Role::PrincipalAxisAngle | Role::NeutralAxisAngle
                ) =>
            {
                &units.degree
            }
            Dimension::NONE => return Unit::NONE,
            Dimension::FORCE => &units.force,
            Dimension::LENGTH => match role {
                Role::Along | Role::Station | Role::Length | Role::Distance => &units.beam_length,
                // For each unit of a force.
                Role::UnitMoment | Role::ReactionCouple => &units.beam_length,
                Role::Deflection | Role::Settlement => &units.deflection,
                _ => &units.section_length,
            },
            Dimension::MOMENT => &units.moment,
            Dimension::FORCE_PER_LENGTH => match role {
                Role::ShearFlow | Role::CellTwist | Role::WeldStrength => &units.flow,
                _ => &units.spread,
            },
            Dimension::STRESS if matches!(role, Role::ElasticModulus | Role::ShearModulus) => {
                &units.elastic_modulus
            }
            Dimension::STRESS => &units.stress,
            Dimension::RIGIDITY => &units.rigidity,
            Dimension::DENSITY => &units.density,
            Dimension::WEIGHT_PER_VOLUME => &units.weight_per_volume,
            Dimension::ACCELERATION => &units.acceleration,
            // What a unit couple does, and how far the beam turns under a unit force.
            other if matches!(role, Role::Reaction | Role::Slope) => {
                return units.made(other, &units.beam_length);
            }
            other => return units.made(other, &units.section_length),
        };
        one.clone()
    }
}

impl Units {
    /// A unit for a dimension without one of its own: powers of the force and of a length, that of the section as a rule,
    /// where they make it up (`mm⁴`, `N·mm³`), base units elsewhere.
    fn made(&self, dimension: Dimension, long: &Unit) -> Unit {
        let of = |unit: &Unit, power: i8| {
            unit.factors.first().filter(|_| power != 0).map(|factor| UnitFactor { unit: factor.unit, power })
        };
        let length = dimension.length.checked_sub(dimension.mass);
        let has_force = dimension.time == dimension.mass.saturating_mul(-2);
        if let (true, Some(length)) = (has_force, length) {
            let factors = of(&self.force, dimension.mass).into_iter().chain(of(long, length));
            return Unit { factors: factors.collect() };
        }
        Unit::of_base_units(dimension)
    }
}

/// One unit of a ladder, with the sizes (in this unit) below and above which the next one is taken.
struct Rung {
    unit: &'static str,
    below: f64,
    above: f64,
}

const fn rung(unit: &'static str, below: f64, above: f64) -> Rung {
    Rung { unit, below, above }
}

/// Units of one kind from small to large, among which a value finds the one that suits its size.
///
/// The sizes are ours (no source): a value stays in the course's unit as long as it reads well there.
const LADDERS: [&[Rung]; 13] = [
    &[rung("N", 0.0, 1e5), rung("kN", 0.1, 1e4), rung("MN", 0.1, 1e9)],
    &[rung("N·m", 0.0, 1e5), rung("kN·m", 0.1, 1e4), rung("MN·m", 0.1, 1e9)],
    &[rung("N/m", 0.0, 1e5), rung("kN/m", 0.1, 1e4), rung("MN/m", 0.1, 1e9)],
    &[rung("N/m", 0.0, 1e5), rung("N/mm", 0.1, 1e4), rung("kN/mm", 0.1, 1e9)],
    &[rung("Pa", 0.0, 1e4), rung("kPa", 0.1, 1e4), rung("MPa", 0.1, 1e4), rung("GPa", 0.1, 1e9)],
    &[rung("µm", 0.0, 1e4), rung("mm", 0.01, 1e5), rung("m", 0.01, 1e4), rung("km", 0.1, 1e9)],
    &[rung("mrad", 0.0, 1e4), rung("rad", 0.1, 1e9)],
    &[rung("lb", 0.0, 1e5), rung("kip", 0.1, 1e9)],
    &[rung("lb·ft", 0.0, 1e6), rung("kip·ft", 0.1, 1e9)],
    &[rung("lb·in", 0.0, 1e6), rung("kip·in", 0.1, 1e9)],
    &[rung("lb/ft", 0.0, 1e5), rung("kip/ft", 0.1, 1e9)],
    &[rung("lb/in", 0.0, 1e5), rung("kip/in", 0.1, 1e9)],
    &[rung("psi", 0.0, 1e5), rung("ksi", 0.1, 1e5)],
];

/// A unit of a ladder, with the sizes of its [`Rung`].
type Step = (Unit, f64, f64);

/// The ladder on which a unit stands, and its place there.
fn ladder(unit: &Unit) -> Option<(&'static [Step], usize)> {
    static READ: OnceLock<Vec<Vec<Step>>> = OnceLock::new();
    let ladders = READ.get_or_init(|| {
        let read = |rung: &Rung| {
            (Unit::read(rung.unit).expect("a test reads every unit of the ladders"), rung.below, rung.above)
        };
        LADDERS.iter().map(|ladder| ladder.iter().map(read).collect()).collect()
    });
    // `N/m` begins two ladders; the first of them is its own.
    ladders.iter().find_map(|ladder| {
        ladder.iter().position(|(rung, ..)| rung == unit).map(|place| (ladder.as_slice(), place))
    })
}

/// The units of one kind among which values of a unit find one that suits their size, from small to large; the unit alone where it
/// has no neighbours.
pub fn neighbours(unit: &Unit) -> Vec<Unit> {
    match ladder(unit) {
        Some((ladder, _)) => ladder.iter().map(|(unit, ..)| unit.clone()).collect(),
        None => vec![unit.clone()],
    }
}

/// The unit in which a value (SI) of the course's `unit` reads well: `N` for 0.05 kN, `GPa` for 210 000 MPa.
pub(crate) fn suited(unit: Unit, value: f64) -> Unit {
    let Some((ladder, mut place)) = ladder(&unit).filter(|_| value != 0.0) else { return unit };
    let size = |place: usize| ladder[place].0.from_si(value).abs();
    while place + 1 < ladder.len() && size(place) >= ladder[place].2 {
        place += 1;
    }
    while place > 0 && size(place) < ladder[place].1 {
        place -= 1;
    }
    ladder[place].0.clone()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_unit_of_the_tables_reads_and_has_its_dimension() {
        for system in UnitSystem::ALL {
            for (role, dimension) in [
                (Role::ShearForce, Dimension::FORCE),
                (Role::Station, Dimension::LENGTH),
                (Role::Breadth, Dimension::LENGTH),
                (Role::Deflection, Dimension::LENGTH),
                (Role::Area, Dimension::AREA),
                (Role::FirstMoment, Dimension::LENGTH_3),
                (Role::SecondMoment, Dimension::LENGTH_4),
                (Role::BendingMoment, Dimension::MOMENT),
                (Role::SpreadLoad, Dimension::FORCE_PER_LENGTH),
                (Role::ShearFlow, Dimension::FORCE_PER_LENGTH),
                (Role::ShearStress, Dimension::STRESS),
                (Role::ElasticModulus, Dimension::STRESS),
                (Role::Residual, Dimension::RIGIDITY),
                (Role::Residual, Dimension::RIGIDITY_LENGTH),
                (Role::Density, Dimension::DENSITY),
                (Role::Residual, Dimension::WEIGHT_PER_VOLUME),
                (Role::GravityAcceleration, Dimension::ACCELERATION),
                (Role::Slope, Dimension::NONE),
                (Role::Ratio, Dimension::NONE),
                (Role::Residual, Dimension::MASS),
                (Role::Residual, Dimension::of(3, -7, 1)),
                (Role::Residual, Dimension::of(i8::MAX, i8::MIN, i8::MIN)),
            ] {
                assert_eq!(system.unit(role, dimension).dimension(), dimension, "{} {role:?}", system.name());
            }
            assert_eq!(UnitSystem::named(system.name()), Some(system));
        }
        assert_eq!(UnitSystem::named(" us "), Some(UnitSystem::KipFoot));
        assert_eq!(UnitSystem::named("furlong"), None);
    }

    #[test]
    fn the_rungs_of_a_ladder_are_of_one_kind() {
        for ladder in &LADDERS {
            let dimension = Unit::read(ladder[0].unit).expect("a unit").dimension();
            for rung in *ladder {
                assert_eq!(Unit::read(rung.unit).expect("a unit").dimension(), dimension, "{}", rung.unit);
            }
        }
    }
}
