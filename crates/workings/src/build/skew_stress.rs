//! The bending stress at the corners by the full formula, the largest of it, and what the simple formula makes of it.

use super::across::{AcrossWorkings, less};
use super::builder::{Builder, Entry};
use super::section::SectionWorkings;
use super::skew::{Before, CornerWorkings, Moments};
use super::skew_corners::{Corner, SkewCorners};
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, Id};
use mechanics::stress::SkewBending;

const CHAPTER: Chapter = Chapter::Skew;

/// Said of the stress at a corner.
const PLANE: &str = "The stress is still a plane over the section, but it falls and rises across as well as up. Both second moments and \
                     the product moment shape it. Tension is positive.";

/// The distances of a corner from the centroid, along the course's axes.
#[derive(Clone, Copy)]
struct Distances {
    depth: Id,
    across: Id,
}

/// A stress that has been told: at which corner and in which material, by their places.
struct Told {
    corner: usize,
    material: usize,
    stress: Id,
}

impl Builder<'_> {
    /// The stress at every corner in each material that has it, then the largest ones; gives those that come of the full formula.
    pub(crate) fn skew_stresses(
        &mut self,
        before: &Before<'_>,
        across: &AcrossWorkings,
        moments: Moments,
    ) -> Result<Vec<CornerWorkings>, EvaluationError> {
        let materials = self.problem.materials();
        let Some(all) = SkewCorners::of(before.engine, &materials) else { return Ok(Vec::new()) };
        let (mut stresses, mut told) = (Vec::new(), Vec::new());
        let mut distances = Vec::with_capacity(all.corners.len());
        for (place, corner) in all.corners.iter().enumerate() {
            let of = self.distances(before.section, across, corner)?;
            distances.push(of);
            for (rank, material) in all.materials.iter().enumerate() {
                if !material.corners.contains(&place) {
                    continue;
                }
                let (within, prefix, letter) = (&material.within, &material.prefix, &corner.letter);
                let ratio = before.section.materials.get(rank).and_then(|of| of.ratio);
                let says = match ratio {
                    None => PLANE.to_owned(),
                    Some(_) => format!(
                        "What the full formula gives is the stress in the material of reference; what is there{within} is strained \
                         alike and bears so many times as much. Tension is positive."
                    ),
                };
                let name = format!("skew bending stress{within} at {letter}");
                let entry =
                    Entry::new(CHAPTER, Role::BendingStress, &format!("{prefix}{letter}"), name).says(says);
                let stress = self.skew_stress(entry, (before.moment, ratio), corner, (of, moments))?;
                let (moment, depth, across) = (before.moment, of.depth, of.across);
                stresses.push(CornerWorkings { stress, moment, ratio, depth, across });
                told.push(Told { corner: place, material: rank, stress });
            }
        }
        for rank in 0..all.materials.len() {
            self.largest_at_slice(before, &all, (rank, &told))?;
        }
        for rank in 0..all.materials.len() {
            let along = self.largest_along_beam(before, &all, rank, (&distances, moments))?;
            stresses.extend(along);
        }
        Ok(stresses)
    }

    fn distances(
        &mut self,
        section: &SectionWorkings,
        across: &AcrossWorkings,
        corner: &Corner,
    ) -> Result<Distances, EvaluationError> {
        let Corner { letter, at } = corner;
        let (height, right) = self.corner_place(section, across, corner)?;
        let way = if self.axis_down { "below" } else { "above" };
        let entry =
            Entry::new(CHAPTER, Role::Depth, letter, format!("distance of {letter} from the level axis"))
                .height(at.y, None)
                .says(format!("How far {letter} lies {way} the level axis through the centroid."));
        let depth = match self.axis_down {
            true => less(section.centroid.into(), height),
            false => less(height, section.centroid.into()),
        };
        let depth = self.formula(entry, depth)?;
        let entry = Entry::new(CHAPTER, Role::Across, letter, format!("distance of {letter} to the right"))
            .height(at.y, None)
            .says(format!("How far {letter} lies to the right of the centroid; negative to the left of it."));
        let across = self.formula(entry, less(right, across.centroid.into()))?;
        Ok(Distances { depth, across })
    }

    /// The height of a corner and its place to the right, by the sizes of a piece that has it; read off the outline elsewhere.
    fn corner_place(
        &mut self,
        section: &SectionWorkings,
        across: &AcrossWorkings,
        corner: &Corner,
    ) -> Result<(Expression, Expression), EvaluationError> {
        let Corner { letter, at } = corner;
        let pieces = || section.pieces.iter().zip(&across.pieces).filter(|(of, _)| !of.placed.piece.hole);
        let breadth =
            pieces().map(|(of, _)| of.placed.piece.right - of.placed.piece.left).fold(0.0, f64::max);
        let same = |a: f64, b: f64| (a - b).abs() <= 1e-9 * breadth;
        let zero = || crate::build::zero(Dimension::LENGTH, Role::Breadth);
        let height = pieces().find_map(|(of, _)| {
            let placed = &of.placed;
            if same(placed.piece.top, at.y) {
                placed.top()
            } else if same(placed.piece.bottom, at.y) && placed.level().is_some() {
                Some(placed.base.clone().unwrap_or_else(zero))
            } else {
                None
            }
        });
        let right = pieces().find_map(|(of, place)| {
            let placed = &of.placed;
            if same(placed.piece.left, at.x) && placed.level().is_some() {
                Some(place.left.clone().unwrap_or_else(zero))
            } else if same(placed.piece.right, at.x) {
                place.right(placed)
            } else {
                None
            }
        });
        let how = "Read off the outline.";
        let mut read = |role, name: String, value: f64| {
            let entry = Entry::new(CHAPTER, role, letter, name).says(how);
            self.engine(entry, how, (Vec::new(), Call::Fixed), value, Dimension::LENGTH)
        };
        let height = match height {
            Some(height) => height,
            None => read(Role::CutHeight, format!("height of {letter}"), at.y)?.into(),
        };
        let right = match right {
            Some(right) => right,
            None => {
                read(Role::CentroidAcross, format!("place of {letter} to the right"), at.x - across.base)?
                    .into()
            }
        };
        Ok((height, right))
    }

    fn skew_stress(
        &mut self,
        mut entry: Entry,
        (moment, ratio): (Id, Option<Id>),
        corner: &Corner,
        (of, moments): (Distances, Moments),
    ) -> Result<Id, EvaluationError> {
        let place = self.workings.working(moment).place;
        if let Some(station) = place.station {
            entry = entry.at(station, place.side);
        }
        let moment = match ratio {
            Some(ratio) => Expression::from(ratio) * moment.into(),
            None => moment.into(),
        };
        let product = moment * moments.askew(of.depth.into(), of.across.into());
        let stress = product / moments.both();
        // With the axis up a sagging moment presses what lies above: the sign of M y / I.
        let stress = if self.axis_down { stress } else { -stress };
        self.formula(entry.height(corner.at.y, None), stress)
    }

    /// The largest tension and compression in a material at the slice, and the simple formula beside them; none without a moment.
    fn largest_at_slice(
        &mut self,
        before: &Before<'_>,
        all: &SkewCorners,
        (rank, told): (usize, &[Told]),
    ) -> Result<(), EvaluationError> {
        let material = &all.materials[rank];
        let moment = self.value(before.moment);
        if moment == 0.0 {
            return Ok(());
        }
        let [one, other] = material.farthest;
        let [stretched, pressed] = if moment > 0.0 { [one, other] } else { [other, one] };
        let place = self.workings.working(before.moment).place;
        let (within, prefix) = (&material.within, &material.prefix);
        let mut found = Vec::new();
        for (index, words, corner, sign) in
            [("t", "tension", stretched, 1.0), ("c", "compression", pressed, -1.0)]
        {
            let of_it = |of: &&Told| of.material == rank && of.corner == corner;
            // A material that lies on one side of the neutral axis is stretched alone, or pressed alone.
            let Some(stress) = told.iter().find(of_it).map(|of| of.stress) else { continue };
            if sign * self.value(stress) <= 0.0 {
                continue;
            }
            let Corner { letter, at } = &all.corners[corner];
            let says = match before.section.materials.get(rank) {
                None => {
                    format!(
                        "Of all points of the section {letter} lies farthest from the neutral axis on this side."
                    )
                }
                Some(of) => {
                    format!(
                        "Of all points of {} {letter} lies farthest out on this side of the neutral axis.",
                        of.name
                    )
                }
            };
            let name = format!("largest skew {words}{within} at the slice");
            let mut entry =
                Entry::new(CHAPTER, Role::BendingStress, &format!("{prefix}{index}"), name).says(says);
            if let Some(station) = place.station {
                entry = entry.at(station, place.side);
            }
            found.push(self.formula(entry.height(at.y, None), stress.into())?);
        }
        let by_size = |a: &&Id, b: &&Id| self.value(**a).abs().total_cmp(&self.value(**b).abs());
        let simple = match before.section.materials.get(rank) {
            Some(of) => of.stresses.as_slice(),
            None => before.simple.as_slice(),
        };
        let most = found.iter().max_by(by_size).copied();
        let simple = simple.iter().max_by(by_size).copied();
        if let (Some(most), Some(simple)) = (most, simple) {
            let name = format!("share that the simple formula finds{within}");
            let index = if prefix.is_empty() { String::new() } else { format!("{prefix}simple") };
            let entry = Entry::new(CHAPTER, Role::Ratio, &index, name).says(format!(
                "The largest stress of M y / I{within} over the true largest stress{}, both by size. Less than 1: the simple formula is \
                 on the unsafe side.",
                if within.is_empty() { "" } else { " there" }
            ));
            let share = Expression::from(simple).size() / Expression::from(most).size();
            self.formula(entry, share)?;
        }
        Ok(())
    }

    /// The largest tension and compression in a material along the beam: of the largest moments and of both farthest corners.
    fn largest_along_beam(
        &mut self,
        before: &Before<'_>,
        all: &SkewCorners,
        rank: usize,
        (distances, moments): (&[Distances], Moments),
    ) -> Result<Vec<CornerWorkings>, EvaluationError> {
        let material = &all.materials[rank];
        let ratio = before.section.materials.get(rank).and_then(|of| of.ratio);
        let [diagrams_sagging, diagrams_hogging] = [before.diagrams.sagging, before.diagrams.hogging];
        let unit = SkewBending::under(before.engine, 1.0);
        let mut candidates = Vec::new();
        for moment in [diagrams_sagging, diagrams_hogging].into_iter().flatten() {
            for corner in material.farthest {
                let stress = self.value(moment) * unit.stress(all.corners[corner].at);
                candidates.push((corner, moment, stress));
            }
        }
        let most =
            candidates.iter().copied().max_by(|a, b| a.2.total_cmp(&b.2)).filter(|found| found.2 > 0.0);
        let least =
            candidates.iter().copied().min_by(|a, b| a.2.total_cmp(&b.2)).filter(|found| found.2 < 0.0);
        let (within, prefix) = (&material.within, &material.prefix);
        let of_it =
            before.section.materials.get(rank).map_or_else(String::new, |of| format!(" of {}", of.name));
        let mut found_all = Vec::new();
        for (found, index, words) in [(most, "max", "tension"), (least, "min", "compression")] {
            let Some((corner, moment, _)) = found else { continue };
            let letter = &all.corners[corner].letter;
            let says = format!(
                "Of the largest sagging and the largest hogging moment and of both farthest corners{of_it} this pair gives most: at \
                 {letter}."
            );
            let name = format!("largest skew {words}{within} along the beam");
            let entry = Entry::new(CHAPTER, Role::BendingStress, &format!("{prefix}{letter}, {index}"), name)
                .says(says);
            let Distances { depth, across } = distances[corner];
            let stress =
                self.skew_stress(entry, (moment, ratio), &all.corners[corner], (distances[corner], moments))?;
            found_all.push(CornerWorkings { stress, moment, ratio, depth, across });
        }
        Ok(found_all)
    }
}
