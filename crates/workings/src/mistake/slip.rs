//! Slips that change any value by a factor: signs, powers of ten, units mistaken.
//!
//! They are tried on the right value and on that of every mistake, and named as a second thing, after the first.

use super::saying::Saying;
use super::source::Source::{self, CommonErrors, MarkScheme, Memory};
use crate::dimension::Dimension;
use crate::style::Style;
use crate::unit_system::UnitSystem;

/// A slip, the factor by which it changes a value, and what to say.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slip {
    /// Its stable name: `power-of-ten`.
    pub id: &'static str,
    /// The wrong value over the value that the slip befell.
    pub factor: f64,
    feedback: &'static str,
    /// Where it is known from; nowhere for what is only a guess.
    pub source: Option<Source>,
    /// Told only if nothing else fits: a half or a double has many causes.
    pub last_resort: bool,
}

impl Slip {
    /// What to say to the student, in the course's units.
    pub fn feedback(&self, style: &Style) -> Saying {
        Saying::of(self.feedback, style)
    }
}

/// A slip of the table.
struct Row {
    id: &'static str,
    feedback: &'static str,
    source: Option<Source>,
    last_resort: bool,
    /// The factors for a value of a dimension in a course with these units.
    factors: fn(Dimension, UnitSystem) -> Vec<f64>,
}

const TABLE: [Row; 5] = [
    Row {
        id: "sign",
        feedback: "Right size, opposite sign.",
        source: Some(CommonErrors),
        last_resort: false,
        factors: |_, _| vec![-1.0],
    },
    Row {
        id: "cubed-millimetres",
        feedback: "1 mm³ is 10⁻⁹ m³, 1 mm⁴ is 10⁻¹² m⁴.",
        source: Some(CommonErrors),
        last_resort: false,
        factors: cubed_millimetres,
    },
    Row {
        id: "power-of-ten",
        feedback: "A power of ten is lost. Is each length in {unit of b}, each force in {unit of force}?",
        source: Some(MarkScheme),
        last_resort: false,
        factors: |_, _| (1..=12).flat_map(|n| both_ways(ten_to(n))).collect(),
    },
    Row {
        id: "inch-pound",
        feedback: "lb or kip, in or ft?",
        source: Some(Memory),
        last_resort: false,
        factors: inch_pound,
    },
    Row {
        id: "half-or-double",
        feedback: "Half or twice the value: is a 2 left out, or put in twice?",
        source: None,
        last_resort: true,
        factors: |_, _| vec![0.5, 2.0],
    },
];

/// The slips that a value of a dimension can suffer in a course that uses these units; each factor once, the most
/// telling slip first.
pub fn slips(dimension: Dimension, units: UnitSystem) -> Vec<Slip> {
    let mut slips: Vec<Slip> = Vec::new();
    for row in &TABLE {
        let Row { id, feedback, source, last_resort, factors } = *row;
        for factor in factors(dimension, units) {
            let same = |slip: &Slip| (slip.factor - factor).abs() <= 1e-9 * factor.abs();
            if !slips.iter().any(same) {
                slips.push(Slip { id, factor, feedback, source, last_resort });
            }
        }
    }
    slips
}

/// By multiplication alone: the same bits everywhere.
fn ten_to(power: i32) -> f64 {
    (0..power).fold(1.0, |product, _| product * 10.0)
}

fn both_ways(factor: f64) -> [f64; 2] {
    [factor, 1.0 / factor]
}

/// mm³ or mm⁴ turned into m³ or m⁴ by 10⁻³ or 10⁻⁶, in a course that works in mm and m.
fn cubed_millimetres(dimension: Dimension, units: UnitSystem) -> Vec<f64> {
    match dimension {
        _ if units.is_customary() || units == UnitSystem::KilonewtonCentimetre => Vec::new(),
        Dimension::LENGTH_3 => vec![ten_to(6), ten_to(3)],
        Dimension::LENGTH_4 => vec![ten_to(9), ten_to(6)],
        _ => Vec::new(),
    }
}

/// Feet for inches, kip for pounds, millimetres for inches, newtons for pounds; by the powers of force and length that
/// the value is made of. 1 in = 25.4 mm and 1 lb = 4.448 221 615 260 5 N, both exact.
fn inch_pound(dimension: Dimension, units: UnitSystem) -> Vec<f64> {
    if !units.is_customary() || dimension.time != dimension.mass.saturating_mul(-2) {
        return Vec::new();
    }
    let (force, length) = (dimension.mass, dimension.length.saturating_sub(dimension.mass));
    let whole = crate::evaluate::whole_power;
    let units = crate::evaluate::CoherentUnits::POUND_INCH;
    let mut factors = Vec::new();
    if length != 0 {
        factors.push(12.0);
        factors.push(whole(12.0, length));
        factors.push(whole(25.4, length));
    }
    if force != 0 {
        factors.push(whole(1000.0, force));
        factors.push(whole(units.force, force));
    }
    if dimension == Dimension::STRESS {
        // psi read as kPa, ksi as MPa.
        factors.push(units.of(Dimension::STRESS) / 1e3);
    }
    factors.into_iter().flat_map(both_ways).collect()
}
