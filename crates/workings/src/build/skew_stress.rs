//! The bending stress at the corners by the full formula, the largest of it, and what the simple formula makes of it.

use super::across::{AcrossWorkings, less};
use super::builder::{Builder, Entry};
use super::section::SectionWorkings;
use super::skew::{Before, CornerWorkings, Moments};
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, Id};
use mechanics::section::{Point, Section};
use mechanics::stress::SkewBending;

const CHAPTER: Chapter = Chapter::Skew;

/// Letters of the corners: no letter of a usual support, and none that is read as another or as a number.
const LETTERS: [&str; 16] =
    ["E", "F", "G", "H", "J", "K", "N", "S", "T", "U", "W", "X", "Y", "Z", "EE", "FF"];

/// A corner of the section that a straight line can touch from outside, or the point of an arc that lies farthest out.
#[derive(Clone, Debug, PartialEq)]
pub struct Corner {
    /// Its letter: `E`, counter-clockwise from the lowest corner.
    pub letter: String,
    /// Where it lies, in the coordinates of the outlines, m.
    pub at: Point,
}

/// The corners of a section at which the skew bending stress is told, and which of them lie farthest from the neutral axis:
/// first the one that is stretched under a sagging moment.
pub fn skew_corners(section: &Section) -> Option<(Vec<Corner>, [usize; 2])> {
    let mut points = section.hull();
    let near = 1e-7 * section.properties().height().max(section.properties().breadth());
    let extremes = SkewBending::under(section, 1.0).extremes(section)?;
    let mut farthest = [0; 2];
    for (place, (point, _)) in farthest.iter_mut().zip(extremes) {
        let same = |other: &Point| (other.x - point.x).abs() <= near && (other.y - point.y).abs() <= near;
        *place = points.iter().position(same).unwrap_or(points.len());
        if *place == points.len() {
            points.push(point);
        }
    }
    let corner = |(count, at): (usize, Point)| {
        let letter = LETTERS.get(count).map_or_else(|| format!("E{count}"), |letter| (*letter).to_owned());
        Corner { letter, at }
    };
    Some((points.into_iter().enumerate().map(corner).collect(), farthest))
}

/// The distances of a corner from the centroid, along the course's axes.
#[derive(Clone, Copy)]
struct Distances {
    depth: Id,
    across: Id,
}

impl Builder<'_> {
    /// The stress at every corner, then the largest ones; gives those that come of the full formula.
    pub(crate) fn skew_stresses(
        &mut self,
        before: &Before<'_>,
        across: &AcrossWorkings,
        moments: Moments,
    ) -> Result<Vec<CornerWorkings>, EvaluationError> {
        let Some((corners, farthest)) = skew_corners(before.engine) else { return Ok(Vec::new()) };
        let mut all = Vec::new();
        let mut distances = Vec::with_capacity(corners.len());
        for corner in &corners {
            let of = self.distances(before.section, across, corner)?;
            distances.push(of);
            let says = "The stress is still a plane over the section, but it falls and rises across as well as up. Both second \
                        moments and the product moment shape it. Tension is positive.";
            let name = format!("skew bending stress at {}", corner.letter);
            let entry = Entry::new(CHAPTER, Role::BendingStress, &corner.letter, name).says(says);
            let stress = self.skew_stress(entry, before.moment, corner, (of, moments))?;
            all.push(CornerWorkings { stress, moment: before.moment, depth: of.depth, across: of.across });
        }
        self.largest_at_slice(before, &corners, (farthest, &all))?;
        let along = self.largest_along_beam(before, &corners, (farthest, &distances, moments))?;

        all.extend(along);
        Ok(all)
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
        moment: Id,
        corner: &Corner,
        (of, moments): (Distances, Moments),
    ) -> Result<Id, EvaluationError> {
        let place = self.workings.working(moment).place;
        if let Some(station) = place.station {
            entry = entry.at(station, place.side);
        }
        let product = Expression::from(moment) * moments.askew(of.depth.into(), of.across.into());
        let stress = product / moments.both();
        // With the axis up a sagging moment presses what lies above: the sign of M y / I.
        let stress = if self.axis_down { stress } else { -stress };
        self.formula(entry.height(corner.at.y, None), stress)
    }

    /// The largest tension and compression at the slice, and the simple formula beside them; none without a moment.
    fn largest_at_slice(
        &mut self,
        before: &Before<'_>,
        corners: &[Corner],
        (farthest, stresses): ([usize; 2], &[CornerWorkings]),
    ) -> Result<(), EvaluationError> {
        let moment = self.value(before.moment);
        if moment == 0.0 {
            return Ok(());
        }
        let [stretched, pressed] = if moment > 0.0 { farthest } else { [farthest[1], farthest[0]] };
        let place = self.workings.working(before.moment).place;
        let mut found = Vec::new();
        for (index, words, corner) in [
            ("t", "largest skew tension at the slice", stretched),
            ("c", "largest skew compression at the slice", pressed),
        ] {
            let letter = &corners[corner].letter;
            let says = format!(
                "Of all points of the section {letter} lies farthest from the neutral axis on this side."
            );
            let mut entry = Entry::new(CHAPTER, Role::BendingStress, index, words).says(says);
            if let Some(station) = place.station {
                entry = entry.at(station, place.side);
            }
            found.push(
                self.formula(entry.height(corners[corner].at.y, None), stresses[corner].stress.into())?,
            );
        }
        let by_size = |a: &&Id, b: &&Id| self.value(**a).abs().total_cmp(&self.value(**b).abs());
        let most = found.iter().max_by(by_size).copied();
        let simple = before.simple.iter().max_by(by_size).copied();
        if let (Some(most), Some(simple)) = (most, simple) {
            let entry = Entry::new(CHAPTER, Role::Ratio, "", "share that the simple formula finds").says(
                "The largest stress of M y / I over the true largest stress, both by size. Less than 1: the simple formula is \
                 on the unsafe side.",
            );
            let share = Expression::from(simple).size() / Expression::from(most).size();
            self.formula(entry, share)?;
        }
        Ok(())
    }

    /// The largest tension and compression along the beam: of the largest moments and of both farthest corners.
    fn largest_along_beam(
        &mut self,
        before: &Before<'_>,
        corners: &[Corner],
        (farthest, distances, moments): ([usize; 2], &[Distances], Moments),
    ) -> Result<Vec<CornerWorkings>, EvaluationError> {
        let [diagrams_sagging, diagrams_hogging] = [before.diagrams.sagging, before.diagrams.hogging];
        let unit = SkewBending::under(before.engine, 1.0);
        let mut candidates = Vec::new();
        for moment in [diagrams_sagging, diagrams_hogging].into_iter().flatten() {
            for corner in farthest {
                let stress = self.value(moment) * unit.stress(corners[corner].at);
                candidates.push((corner, moment, stress));
            }
        }
        let most =
            candidates.iter().copied().max_by(|a, b| a.2.total_cmp(&b.2)).filter(|found| found.2 > 0.0);
        let least =
            candidates.iter().copied().min_by(|a, b| a.2.total_cmp(&b.2)).filter(|found| found.2 < 0.0);
        let mut all = Vec::new();
        for (found, index, words) in [
            (most, "max", "largest skew tension along the beam"),
            (least, "min", "largest skew compression along the beam"),
        ] {
            let Some((corner, moment, _)) = found else { continue };
            let letter = &corners[corner].letter;
            let says = format!(
                "Of the largest sagging and the largest hogging moment and of both farthest corners this pair gives most: at {letter}."
            );
            let entry =
                Entry::new(CHAPTER, Role::BendingStress, &format!("{letter}, {index}"), words).says(says);
            let of = distances[corner];
            let stress = self.skew_stress(entry, moment, &corners[corner], (of, moments))?;
            all.push(CornerWorkings { stress, moment, depth: of.depth, across: of.across });
        }
        Ok(all)
    }
}
