//! Workings that the engine finds: how each is found again when what it reads is replaced.

use crate::working::Id;
use mechanics::beam::{Beam, Freedom, Hold, Load, Redundant, Side};
use std::sync::Arc;

/// A question to the engine, asked again when what it reads is replaced.
#[derive(Clone, Debug, PartialEq)]
pub enum Call {
    /// The value does not depend on any other working: the outline of a part is given as it is.
    Fixed,
    /// How the released beam moves where a redundant acted.
    Movement(Arc<BeamQuestion>, Movement),
    /// One unknown of as many linear equations: reads the coefficients row by row, then the right sides.
    LinearEquations {
        /// How many unknowns.
        count: usize,
        /// Which is asked for.
        unknown: usize,
    },
}

/// Which movement of the released beam is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Movement {
    /// Where: the place of this redundant.
    pub at: usize,
    /// Under what: the loads, or a unit of this redundant alone.
    pub under_unit: Option<usize>,
}

/// A number of a beam that a working holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Field {
    /// The beam's length.
    Length,
    /// Its flexural rigidity.
    Rigidity,
    /// A support's station.
    SupportStation(usize),
    /// A support's imposed movement.
    SupportMovement(usize, Freedom),
    /// A support's stiffness.
    SupportStiffness(usize, Freedom),
    /// A hinge's station.
    Hinge(usize),
    /// The station of a force or couple, or the start of a spread load.
    LoadStart(usize),
    /// The end of a spread load.
    LoadEnd(usize),
    /// A force, a couple, or the intensity of a spread load at its start.
    LoadSize(usize),
    /// The intensity of a spread load at its end.
    LoadSizeAtEnd(usize),
}

/// A beam whose numbers are workings.
#[derive(Clone, Debug, PartialEq)]
pub struct BeamQuestion {
    /// The beam as the lesson gives it.
    pub beam: Beam,
    /// The redundants of the force method.
    pub redundants: Vec<Redundant>,
    /// What each working that is read stands for.
    pub fields: Vec<Field>,
}

impl BeamQuestion {
    /// The beam with the present values of the workings.
    fn with(&self, values: impl Iterator<Item = f64>) -> Beam {
        let mut beam = self.beam.clone();
        for (field, value) in self.fields.iter().zip(values) {
            set(&mut beam, *field, value);
        }
        beam
    }
}

fn set(beam: &mut Beam, field: Field, value: f64) {
    let support = match field {
        Field::SupportStation(of) | Field::SupportMovement(of, _) | Field::SupportStiffness(of, _) => {
            beam.supports.get_mut(of)
        }
        _ => None,
    };
    match field {
        Field::Length => beam.length = value,
        Field::Rigidity => beam.flexural_rigidity = value,
        Field::Hinge(of) => {
            if let Some(hinge) = beam.hinges.get_mut(of) {
                *hinge = value;
            }
        }
        Field::SupportStation(_) => {
            if let Some(support) = support {
                support.station = value;
            }
        }
        Field::SupportMovement(_, freedom) | Field::SupportStiffness(_, freedom) => {
            if let Some(support) = support {
                let hold = match field {
                    Field::SupportMovement(..) => Hold::Rigid { moved: value },
                    _ => Hold::Spring { stiffness: value },
                };
                match freedom {
                    Freedom::Transverse => support.transverse = hold,
                    Freedom::Rotation => support.rotation = hold,
                }
            }
        }
        Field::LoadStart(of) | Field::LoadEnd(of) | Field::LoadSize(of) | Field::LoadSizeAtEnd(of) => {
            if let Some(load) = beam.loads.get_mut(of) {
                set_load(load, field, value);
            }
        }
    }
}

fn set_load(load: &mut Load, field: Field, value: f64) {
    let number = match (load, field) {
        (Load::Force { station, .. } | Load::Couple { station, .. }, Field::LoadStart(_)) => station,
        (Load::Force { down, .. }, Field::LoadSize(_)) => down,
        (Load::Couple { ccw, .. }, Field::LoadSize(_)) => ccw,
        (Load::Spread { from, .. }, Field::LoadStart(_)) => from,
        (Load::Spread { to, .. }, Field::LoadEnd(_)) => to,
        (Load::Spread { down_from, .. }, Field::LoadSize(_)) => down_from,
        (Load::Spread { down_to, .. }, Field::LoadSizeAtEnd(_)) => down_to,
        _ => return,
    };
    *number = value;
}

impl Call {
    /// The value from the present values of what it reads, SI; not a number where the engine refuses.
    pub(crate) fn evaluate(&self, reads: &[Id], values: &[f64]) -> f64 {
        let mut read = reads.iter().map(|id| values[id.0 as usize]);
        match self {
            Self::Fixed => f64::NAN,
            Self::Movement(question, movement) => movement.of(question, read),
            Self::LinearEquations { count, unknown } => {
                let coefficients: Vec<f64> = read.by_ref().take(count * count).collect();
                let right: Vec<f64> = read.collect();
                linear(*count, coefficients, right).and_then(|x| x.get(*unknown).copied()).unwrap_or(f64::NAN)
            }
        }
    }
}

impl Movement {
    fn of(self, question: &BeamQuestion, values: impl Iterator<Item = f64>) -> f64 {
        let beam = question.with(values);
        let mut redundants = question.redundants.clone();
        for redundant in &mut redundants {
            if let Some(support) = beam.supports.get(redundant.support) {
                redundant.station = support.station;
            }
        }
        let released = match self.under_unit.and_then(|unit| redundants.get(unit)) {
            Some(unit) => beam.released_under_unit(&redundants, unit),
            None => beam.released(&redundants),
        };
        let (Ok(solution), Some(at)) = (released.solve(), redundants.get(self.at)) else { return f64::NAN };
        match at.against {
            Freedom::Transverse => solution.deflection(at.station),
            Freedom::Rotation => solution.slope(at.station, Side::Right),
        }
    }
}

/// Gauss with the largest pivot of each column; `None` where the equations have no single solution.
fn linear(count: usize, mut a: Vec<f64>, mut b: Vec<f64>) -> Option<Vec<f64>> {
    if a.len() != count * count || b.len() != count {
        return None;
    }
    for column in 0..count {
        let size = |row: usize, a: &[f64]| a[row * count + column].abs();
        let pivot = (column..count).max_by(|&p, &q| size(p, &a).total_cmp(&size(q, &a)))?;
        if a[pivot * count + column] == 0.0 {
            return None;
        }
        for k in 0..count {
            a.swap(column * count + k, pivot * count + k);
        }
        b.swap(column, pivot);
        for row in column + 1..count {
            let factor = a[row * count + column] / a[column * count + column];
            for k in column..count {
                a[row * count + k] -= factor * a[column * count + k];
            }
            b[row] -= factor * b[column];
        }
    }
    for row in (0..count).rev() {
        let known: f64 = (row + 1..count).map(|k| a[row * count + k] * b[k]).sum();
        b[row] = (b[row] - known) / a[row * count + row];
    }
    Some(b)
}
