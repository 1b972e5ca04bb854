//! The same lesson with all its given numbers changed: what is equal there as well is equal with any numbers.

use super::judge::given;
use crate::chance::Chance;
use workings::role::Role;
use workings::solved::Solved;
use workings::working::Id;

/// By what part a given number is changed, at most: the lesson stays much the same, and chance equality does not.
const CHANGE: f64 = 0.05;

/// Given workings with other values.
pub(super) struct World {
    /// SI.
    pub(super) given: Vec<(Id, f64)>,
}

impl World {
    /// Sizes and loads change each for itself. The beam is drawn out or pushed together as a whole, more at one end than at
    /// the other: what stands at its end stays there, and what stands before another thing stays before it.
    pub(super) fn of(solved: &Solved, chance: &mut Chance) -> Self {
        let mut change = || CHANGE * (2.0 * chance.share() - 1.0);
        let length = solved.problem().beam.length;
        let (longer, bent) = (1.0 + change(), change());
        let place = |x: f64| x * longer * (1.0 + bent * (1.0 - x / length));
        let mut other = |id: Id| {
            let value = solved.value(id);
            match solved.workings().working(id).symbol.role {
                Role::Station | Role::Length => place(value),
                _ => value * (1.0 + change()),
            }
        };
        Self { given: given(solved).map(|id| (id, other(id))).collect() }
    }
}
