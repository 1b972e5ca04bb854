//! V and M at any station, as formulas over the key stations.

use super::lesson::Lesson;
use crate::build::Stop;
use crate::expression::Expression;
use crate::working::Id;

/// The stretch between two key stations.
pub(super) struct Reach<'a> {
    pub(super) from: &'a Stop,
    pub(super) to: &'a Stop,
    /// Intensities just inside its ends; none where no spread load acts.
    pub(super) intensity: Option<(Id, Id)>,
}

/// V and M as formulas.
pub(super) struct InnerForces {
    pub(super) shear: Expression,
    pub(super) moment: Expression,
}

impl Reach<'_> {
    pub(super) fn length(&self) -> Expression {
        Expression::from(self.to.station) - self.from.station.into()
    }

    /// Whether a station is one of its ends.
    pub(super) fn is_end(&self, lesson: &Lesson<'_>, station: Id) -> bool {
        let x = lesson.value(station);
        [self.from, self.to].into_iter().any(|end| lesson.same_station(lesson.value(end.station), x))
    }
}

impl<'a> Lesson<'a> {
    /// The stretch in which a station lies: at a key station that to its right.
    pub(super) fn reach_at(&self, x: f64) -> Option<Reach<'a>> {
        let diagrams = &self.chapters().diagrams;
        let pairs = diagrams.stops.windows(2).zip(&diagrams.intensities);
        let mut reaches = pairs.filter_map(|(ends, &intensity)| match ends {
            [from, to] => Some(Reach { from, to, intensity }),
            _ => None,
        });
        reaches.find(|reach| self.value(reach.from.station) <= x && x < self.value(reach.to.station))
    }

    /// The middle of the span in which the station of a working lies; none on an overhang.
    pub(super) fn midspan_of(&self, id: Id) -> Option<Expression> {
        let x = self.working(id).place.station?;
        let held = self.held_up();
        let span = held.windows(2).find(|span| self.value(span[0]) <= x && x <= self.value(span[1]))?;
        Some((Expression::from(span[0]) + span[1].into()) / 2.0.into())
    }

    /// V and M at a station: from the key station to its left on, the load takes its area off V, and V adds its
    /// own to M.
    pub(super) fn inner_at(&self, station: &Expression) -> Option<InnerForces> {
        let x = self.solved.workings().evaluate(station).ok()?.value;
        let reach = self.reach_at(x)?;
        let s = station.clone() - reach.from.station.into();
        let mut shear = Expression::from(reach.from.shear[1]);
        let mut moment = Expression::from(reach.from.moment[1]) + shear.clone() * s.clone();
        if let Some((first, last)) = reach.intensity {
            let w = Expression::from(first);
            shear = shear - w.clone() * s.clone();
            moment = moment - w.clone() * s.clone().power(2) / 2.0.into();
            if first != last {
                let growth = (Expression::from(last) - w) / reach.length();
                shear = shear - growth.clone() * s.clone().power(2) / 2.0.into();
                moment = moment - growth * s.power(3) / 6.0.into();
            }
        }
        Some(InnerForces { shear, moment })
    }
}
