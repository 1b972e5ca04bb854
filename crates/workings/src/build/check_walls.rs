//! The workings of thin walls against the engine.

use super::CellWorkings;
use super::check::Check;
use crate::problem::Problem;
use mechanics::section::Section;

impl Check<'_> {
    /// Flows and forces wall by wall, the largest stress, the shear centre.
    pub(super) fn walls(&mut self, problem: &Problem, section: &Section) {
        let built = self.built;
        let Some(walls) = &built.chapters.walls else { return };
        let Ok(lines) = problem.thin_walls() else { return };
        let working = |id| built.workings.working(id);
        let shear = self.value(built.key.shear);
        let flow = lines.shear_flow(0.0, shear);
        let force = self.force_scale;
        let size: f64 = (0..lines.walls().len()).map(|wall| lines.length(wall)).sum();
        let scale = force / size.min(section.properties().height());
        self.named("second moment by middle lines", lines.second_moment(), lines.second_moment());
        for (wall, of) in walls.walls.iter().enumerate() {
            self.compare(working(of.length), lines.length(wall), size);
            let sense = if of.against { -1.0 } else { 1.0 };
            let at = |part: f64| sense * flow.at(wall, if of.against { 1.0 - part } else { part });
            self.compare(working(of.end), at(1.0), scale);
            for (id, part) in [(of.begin, 0.0), (of.middle, 0.5)] {
                if let Some(id) = id {
                    self.compare(working(id), at(part), scale);
                }
            }
            self.compare(working(of.force), sense * flow.wall_force(wall), force);
        }
        self.named("upward sum of the forces in the walls", shear, force);
        self.no_twist(walls.cells.as_ref());
        if let Some(most) = flow.largest() {
            let thinnest = lines.walls().iter().map(|wall| wall.thickness).fold(f64::INFINITY, f64::min);
            self.compare(working(walls.largest_stress), most.stress, scale / thinnest);
        }
        let Some(centre) = &walls.centre else { return };
        let place = lines.shear_centre().x - section.properties().left;
        self.compare(working(centre.place), place, size);
        let distance = self.value(centre.distance);
        self.named("distance of the shear centre by the closed formula", distance, size);
        self.named("torsion constant", lines.torsion_constant(), lines.torsion_constant());
    }

    /// The condition of each of several cells, with the flows found.
    fn no_twist(&mut self, cells: Option<&CellWorkings>) {
        let Some(all) = cells else { return };
        for (cell, of) in all.cells.iter().enumerate() {
            let Some(condition) = of.condition else { continue };
            let own = self.value(condition.round) * self.value(of.closing);
            let (mut sum, mut scale) = (own + self.value(condition.open), own.abs());
            for &(one, other, between) in
                all.shared.iter().filter(|(one, other, _)| *one == cell || *other == cell)
            {
                let beside = if one == cell { other } else { one };
                let of_neighbour = self.value(between) * self.value(all.cells[beside].closing);
                sum += of_neighbour;
                scale = scale.max(of_neighbour.abs());
            }
            self.residual(
                &format!("condition of no twist of cell {}", of.number),
                sum,
                scale.max(self.value(condition.open).abs()),
            );
        }
    }
}
