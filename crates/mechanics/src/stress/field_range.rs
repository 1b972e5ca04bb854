//! The least and the greatest value of a stress over the side of the beam, found exactly and not read off a grid.

use super::{Panel, PlaneStress, StressField};

/// Steps of the first look, along a panel and up it: enough to start near each of the few turns that the polynomials of a
/// panel can have.
const LOOK: (u32, u32) = (16, 8);

/// A panel whose first look comes this near to the best of all, as a part of the greatest size, is looked at closely.
const NEAR: f64 = 0.1;

/// How often the steps are halved: to 1e-6 of a step of the first look, so that a value at a turn, which is flat there, is exact to
/// 1e-12 of what it changes by within the panel.
const HALVINGS: u32 = 20;

impl StressField<'_> {
    /// The least and the greatest of what `value` makes of the stresses, over all of the side; in its unit. Both ends of what jumps
    /// count.
    ///
    /// # Source
    /// Within a panel the stresses are smooth, so that going to the best of four neighbours with steps halved where none is better
    /// ends at a turn or on an edge (compass search; from memory).
    pub fn range(&self, value: impl Fn(PlaneStress) -> f64) -> (f64, f64) {
        (-self.greatest(|stress| -value(stress)), self.greatest(&value))
    }

    fn greatest(&self, value: impl Fn(PlaneStress) -> f64) -> f64 {
        let looks: Vec<(Panel, [f64; 2], f64)> =
            self.panels().filter_map(|panel| self.first_look(panel, &value)).collect();
        let best = looks.iter().map(|look| look.2).fold(f64::NEG_INFINITY, f64::max);
        let size = looks.iter().map(|look| look.2.abs()).fold(0.0, f64::max);
        let near = looks.iter().filter(|look| look.2 >= best - NEAR * size);
        near.map(|(panel, at, _)| self.climb(panel, *at, &value)).fold(f64::NEG_INFINITY, f64::max)
    }

    /// The best place of a panel on a coarse grid, edges and all.
    fn first_look(&self, panel: Panel, value: impl Fn(PlaneStress) -> f64) -> Option<(Panel, [f64; 2], f64)> {
        let places = |from: f64, to: f64, count: u32| -> Vec<f64> {
            (0..=count).map(|k| from + (to - from) * f64::from(k) / f64::from(count)).collect()
        };
        let (stations, heights) =
            (places(panel.from, panel.to, LOOK.0), places(panel.bottom, panel.top, LOOK.1));
        let rows = self.grid(&panel, &stations, &heights);
        let all = rows.iter().zip(&heights).flat_map(|(row, &height)| {
            row.iter().zip(&stations).map(move |(&stress, &station)| (stress, [station, height]))
        });
        all.map(|(stress, at)| (panel, at, value(stress))).max_by(|a, b| a.2.total_cmp(&b.2))
    }

    /// From a place uphill to where no neighbour within the panel is higher.
    fn climb(&self, panel: &Panel, mut at: [f64; 2], value: impl Fn(PlaneStress) -> f64) -> f64 {
        let here = |[station, height]: [f64; 2]| value(self.stress(panel, station, height));
        let mut best = here(at);
        let mut step =
            [(panel.to - panel.from) / f64::from(LOOK.0), (panel.top - panel.bottom) / f64::from(LOOK.1)];
        for _ in 0..HALVINGS {
            // Within the range of the first look a step or two lead to the top; the bound is for what rounding would turn in a ring.
            for _ in 0..LOOK.0 {
                let [along, up] = step;
                let neighbours = [[along, 0.0], [-along, 0.0], [0.0, up], [0.0, -up]].map(|[dx, dy]| {
                    [(at[0] + dx).clamp(panel.from, panel.to), (at[1] + dy).clamp(panel.bottom, panel.top)]
                });
                let Some((next, higher)) = neighbours
                    .map(|place| (place, here(place)))
                    .into_iter()
                    .max_by(|a, b| a.1.total_cmp(&b.1))
                else {
                    break;
                };
                if higher <= best {
                    break;
                }
                (at, best) = (next, higher);
            }
            step = step.map(|step| 0.5 * step);
        }
        best
    }
}
