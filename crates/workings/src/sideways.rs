//! Where a beam goes that bends askew and is free to move sideways.

use crate::solved::Solved;
use mechanics::beam::{Curve, Hold, Reached};

/// The movement of a beam that is free to go sideways, where it is largest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FreeSideways {
    /// Station, m.
    pub station: f64,
    /// Upward, m; of bending alone.
    pub up: f64,
    /// To the right as the section is drawn, m.
    pub right: f64,
}

impl FreeSideways {
    /// All of the movement, m.
    pub fn size(&self) -> f64 {
        (self.up * self.up + self.right * self.right).sqrt()
    }
}

impl Solved {
    /// How far the beam moves, where its deflection is largest, upward and sideways; none where it does not bend askew or stands on a support that gives or has moved, for then it moves sideways as that support lets it.
    ///
    /// # Source
    /// `E (I v'' + I_yz u'') = M` and `E (I_yz v'' + I_y u'') = 0` for v up and u to the right, with I and I_y about the level and the
    /// upright axis; supports that hold both ways alike make u and v proportional. In any textbook of unsymmetrical bending.
    pub fn free_sideways(&self) -> Option<FreeSideways> {
        let still = |hold: &Hold| {
            matches!(hold, Hold::Free) || matches!(hold, Hold::Rigid { moved } if *moved == 0.0)
        };
        let supports = &self.problem().beam.supports;
        if !supports.iter().all(|support| still(&support.transverse) && still(&support.rotation)) {
            return None;
        }
        let named = |name: &str| Some(self.workings().get(name)?.value.value);
        let sinks = named("times that it sinks more")?;
        let right = named("way to the right for each unit that it sinks")?;
        let station = match *self.beam().extremes(Curve::Deflection).largest_size.reached.first()? {
            Reached::At(place) => place.station,
            Reached::Over { from, .. } => from,
        };
        let up = sinks * self.beam().deflection(station);
        (up != 0.0).then_some(FreeSideways { station, up, right: -right * up })
    }
}
