//! Which values are told by their size: what way they run makes no difference to them, or is not asked.

use crate::engine::Call;
use crate::evaluate::{Evaluator, Replacement};
use crate::role::Role;
use crate::solved::Solved;
use crate::working::{Chapter, Formula, Id, Working};

impl Solved {
    /// Whether a value is told by its size: a shear stress or a shear flow that stays as it is when the shear force turns round, as the
    /// largest along the beam does, and the largest deflection, up or down. Its opposite is as right. In thin walls each value has a sense
    /// of its own.
    pub fn is_told_by_size(&self, id: Id) -> bool {
        let working = self.workings().working(id);
        match working.symbol.role {
            // Of a released beam the sign is what must vanish.
            Role::Deflection => working.chapter == Chapter::Allowables,
            Role::ShearStress | Role::ShearFlow | Role::ForceOnCut | Role::MeanShearStress => {
                working.chapter != Chapter::Walls && self.stays_when_shear_turns(id)
            }
            _ => false,
        }
    }

    fn stays_when_shear_turns(&self, id: Id) -> bool {
        let workings = self.workings();
        let is_shear = |working: &Working| {
            let size = matches!(&working.formula, Formula::Engine { call: Call::LargestSize, .. });
            working.symbol.role == Role::ShearForce && !size
        };
        let upstream = workings.upstream(id);
        let shears = workings.in_order().filter(|(of, working)| {
            is_shear(working) && upstream.get(of.0 as usize).copied().unwrap_or(false)
        });
        let turned: Vec<_> = shears.map(|(of, _)| (of, Replacement::Value(-self.value(of)))).collect();
        // What follows from no shear force has no sense to lose.
        if turned.is_empty() {
            return false;
        }
        let Ok(prepared) = workings.prepare(&turned) else { return false };
        let mut evaluator = Evaluator::new(workings);
        let found = evaluator.run(&prepared.only(workings, [id])).get(id.0 as usize).copied();
        found.is_some_and(|found| found == self.value(id))
    }
}
