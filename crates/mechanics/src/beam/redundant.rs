//! How far a beam is statically indeterminate, and what to take away to make it determinate.

use super::{Beam, Freedom, Hold, Load, Support};

/// One hold of a support that a stable beam could do without.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Redundant {
    /// The support.
    pub support: usize,
    /// Where it stands, m.
    pub station: f64,
    /// Which of its reactions: the force up, or the couple counter-clockwise.
    pub against: Freedom,
    /// Its imposed movement, m up or rad counter-clockwise; 0 for a spring.
    pub moved: f64,
    /// Its flexibility, m/N or rad/(N m); 0 where it is rigid.
    pub flexibility: f64,
}

impl Redundant {
    fn of(support: usize, held: &Support, against: Freedom) -> Option<Self> {
        let hold = match against {
            Freedom::Transverse => held.transverse,
            Freedom::Rotation => held.rotation,
        };
        let (moved, flexibility) = match hold {
            Hold::Free => return None,
            Hold::Rigid { moved } => (moved, 0.0),
            Hold::Spring { stiffness } => (0.0, 1.0 / stiffness),
        };
        Some(Self { support, station: held.station, against, moved, flexibility })
    }

    fn release(&self, beam: &mut Beam) {
        if let Some(support) = beam.supports.get_mut(self.support) {
            match self.against {
                Freedom::Transverse => support.transverse = Hold::Free,
                Freedom::Rotation => support.rotation = Hold::Free,
            }
        }
    }
}

impl Beam {
    /// Degree of statical indeterminacy: how many holds (springs included) the beam has beyond those that it
    /// needs, 0 for a determinate beam. Each hold gives one unknown reaction, each hinge one condition, and the
    /// whole has two equations of equilibrium.
    ///
    /// # Errors
    /// As [`Beam::faults`]: of a mechanism there is no such degree.
    pub fn redundancy(&self) -> Result<usize, Vec<super::Fault>> {
        let faults = self.faults();
        if !faults.is_empty() {
            return Err(faults);
        }
        let holds: usize = self.supports.iter().map(|held| holds(held).count()).sum();
        // A stable beam has at least as many holds as it needs.
        Ok(holds.saturating_sub(self.hinges.len() + 2))
    }

    /// A choice of [`Self::redundancy`] holds whose release leaves a stable, determinate beam, the primary
    /// structure of the force method; in the order of the supports, the force before the couple.
    ///
    /// Kept are, as far as they do, the fixed support furthest left with both its holds, then other holds
    /// against turning, then the outermost supports; springs are released first. So a propped cantilever becomes a
    /// cantilever, and a continuous beam one simple span.
    ///
    /// # Errors
    /// As [`Beam::faults`].
    pub fn redundants(&self) -> Result<Vec<Redundant>, Vec<super::Fault>> {
        let mut wanted = self.redundancy()?;
        let mut candidates: Vec<Redundant> = Vec::new();
        for (index, held) in self.supports.iter().enumerate() {
            candidates.extend(holds(held).filter_map(|against| Redundant::of(index, held, against)));
        }
        let middle = self.length / 2.0;
        let fixed = |support: &Support| holds(support).count() == 2;
        let keep = |redundant: &Redundant| {
            let support = &self.supports[redundant.support];
            let rank = match redundant {
                Redundant { flexibility, .. } if *flexibility > 0.0 => 0,
                _ if fixed(support) => 3,
                Redundant { against: Freedom::Rotation, .. } => 2,
                _ => 1,
            };
            // Of two fixed ends the left one stays; of supports that only hold up, the outermost stay.
            let within = if rank == 1 { (support.station - middle).abs() } else { -support.station };
            (rank, within)
        };
        candidates.sort_by(|a, b| {
            let ((a_rank, a_within), (b_rank, b_within)) = (keep(a), keep(b));
            a_rank.cmp(&b_rank).then(a_within.total_cmp(&b_within)).then(b.against.cmp(&a.against))
        });
        let mut primary = self.clone();
        let mut released = Vec::with_capacity(wanted);
        for candidate in candidates {
            if wanted == 0 {
                break;
            }
            let before = primary.supports[candidate.support];
            candidate.release(&mut primary);
            if primary.free_motions().is_empty() {
                released.push(candidate);
                wanted -= 1;
            } else {
                primary.supports[candidate.support] = before;
            }
        }
        released.sort_by_key(|redundant| (redundant.support, redundant.against));
        Ok(released)
    }

    /// The beam with these holds released, its loads and all other movements kept: solved, it shows the movements
    /// that the redundants have to undo.
    pub fn released(&self, redundants: &[Redundant]) -> Beam {
        let mut beam = self.clone();
        for redundant in redundants {
            redundant.release(&mut beam);
        }
        beam
    }

    /// The beam with these holds released, without its loads and imposed movements, under a unit of `unit` alone: a
    /// force of 1 N up, or a couple of 1 N m counter-clockwise, where that redundant acts. Solved, it gives the
    /// flexibility coefficients.
    pub fn released_under_unit(&self, redundants: &[Redundant], unit: &Redundant) -> Beam {
        let mut beam = self.released(redundants);
        for support in &mut beam.supports {
            for hold in [&mut support.transverse, &mut support.rotation] {
                if let Hold::Rigid { moved } = hold {
                    *moved = 0.0;
                }
            }
        }
        let station = unit.station;
        beam.loads = vec![match unit.against {
            Freedom::Transverse => Load::Force { station, down: -1.0 },
            Freedom::Rotation => Load::Couple { station, ccw: 1.0 },
        }];
        beam
    }
}

/// The ways in which a support holds the beam.
fn holds(held: &Support) -> impl Iterator<Item = Freedom> {
    let transverse = (held.transverse != Hold::Free).then_some(Freedom::Transverse);
    let rotation = (held.rotation != Hold::Free).then_some(Freedom::Rotation);
    transverse.into_iter().chain(rotation)
}
