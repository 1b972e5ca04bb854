//! Straight cuts in any direction: upright through a flange, sloping across a web.

use super::contact::common;
use super::cut::CutFault;
use super::flank::Moments;
use super::properties::about_axis;
use super::ring::Curve;
use super::split::{CutLine, Piece, Split, split};
use super::{HeightSide, Part, Point, Section};

/// A part of a section, freed by a straight cut.
#[derive(Clone, Debug, PartialEq)]
pub struct StraightCut {
    /// Transformed area of the part beyond, m².
    pub area: f64,
    /// Its area as drawn, m².
    pub plain_area: f64,
    /// Its centroid, in the coordinates of the outlines, m.
    pub centroid: Point,
    /// Its first moment about the neutral axis, m³: positive where it lies above.
    pub first_moment: f64,
    /// Length of the cut through the material, m: the `t` of this cut.
    pub width: f64,
    /// The stretches of the cut through the material, m.
    pub chords: Vec<(Point, Point)>,
    /// The part beyond as outlines, each with the index of the part that it is a piece of.
    pub beyond: Vec<(usize, Part)>,
    second_moment: f64,
}

impl StraightCut {
    /// Shear flow `V Q / I` on the cut, N/m: the size of Q with the sign of the shear force.
    pub fn shear_flow(&self, shear_force: f64) -> f64 {
        shear_force * self.first_moment.abs() / self.second_moment
    }

    /// Shear stress `V Q / (I t)` on the cut, Pa, along the beam.
    pub fn shear_stress(&self, shear_force: f64) -> f64 {
        self.shear_flow(shear_force) / self.width
    }
}

/// What lies where along a cut: between two pieces.
struct Bond {
    first: usize,
    second: usize,
    /// Where it lies on the cut, if it does.
    on_cut: Option<(Point, Point)>,
    length: f64,
}

impl Section {
    /// Cuts the section along the segment from `from` to `to` and keeps, as the part beyond, the piece that holds the point
    /// `keep`, with all that hangs on it. The segment may run on past the material.
    ///
    /// # Errors
    /// [`CutFault::NotFinite`], [`CutFault::MeetsNothing`], [`CutFault::EndsInside`], [`CutFault::DoesNotPart`],
    /// [`CutFault::KeepsNothing`].
    pub fn straight_cut(&self, from: Point, to: Point, keep: Point) -> Result<StraightCut, CutFault> {
        if !(from.is_finite() && to.is_finite() && keep.is_finite()) {
            return Err(CutFault::NotFinite);
        }
        let (from, to, kept_point) =
            (from.minus(self.origin), to.minus(self.origin), keep.minus(self.origin));
        let length = from.distance(to);
        if length <= self.tolerance {
            return Err(CutFault::MeetsNothing);
        }
        let along = Point::new((to.x - from.x) / length, (to.y - from.y) / length);
        let line = CutLine { from, along, begins: 0.0, ends: length, tolerance: self.tolerance };
        let Split { pieces, chords, ends_inside } = split(&self.rings, self.parts.len(), &line);
        if let Some(place) = ends_inside {
            return Err(CutFault::EndsInside { at: line.point(place).plus(self.origin) });
        }
        let along_cut = (0.0..=length).contains(&line.place(kept_point));
        if along_cut && line.left(kept_point).abs() <= self.tolerance {
            return Err(CutFault::KeepsNothing { at: keep });
        }
        let bonds = self.bonds(&pieces, &line);
        if chords.is_empty() && !bonds.iter().any(|bond| bond.on_cut.is_some()) {
            return Err(CutFault::MeetsNothing);
        }
        let start = pieces
            .iter()
            .position(|piece| piece.holds(kept_point))
            .ok_or(CutFault::KeepsNothing { at: keep })?;
        let kept = hanging_together(start, pieces.len(), &bonds);
        if kept.iter().all(|piece| *piece) {
            return Err(CutFault::DoesNotPart);
        }
        let mut through: Vec<(Point, Point)> = bonds
            .iter()
            .filter(|bond| kept[bond.first] != kept[bond.second])
            .filter_map(|bond| bond.on_cut)
            .collect();
        for chord in &chords {
            let (a, b) = (line.point(chord.from), line.point(chord.to));
            let own = pieces.iter().zip(&kept).filter(|(piece, kept)| **kept && piece.part == chord.part);
            // A chord with the part beyond on both its sides frees nothing.
            if own.map(|(piece, _)| sides_on_chord(piece, a, b, self.tolerance)).sum::<usize>() == 1 {
                through.push((a, b));
            }
        }
        through.sort_unstable_by(|a, b| line.place(a.0).total_cmp(&line.place(b.0)));
        Ok(self.freed(&pieces, &kept, through))
    }

    /// The outlines of the part of the section above or below a height, each with the index of the part that it is a
    /// piece of: what a drawing hatches as the part beyond a level cut.
    ///
    /// # Errors
    /// As [`Section::level_cut`].
    pub fn outlines_beyond(&self, height: f64, beyond: HeightSide) -> Result<Vec<(usize, Part)>, CutFault> {
        let y = self.height_within(height)?;
        let reach = self.properties.breadth() + self.properties.height();
        let line = CutLine {
            from: Point::new(0.0, y),
            along: Point::new(1.0, 0.0),
            begins: -reach,
            ends: reach,
            tolerance: self.tolerance,
        };
        let Split { pieces, .. } = split(&self.rings, self.parts.len(), &line);
        let above = |piece: &&Piece| {
            let moments = piece.moments();
            (moments.y / moments.area > y) == (beyond == HeightSide::Above)
        };
        let as_part = |piece: &Piece| (piece.part, piece.as_part(self.ratio(piece.part), self.origin));
        Ok(pieces.iter().filter(above).map(as_part).collect())
    }

    fn freed(&self, pieces: &[Piece], kept: &[bool], through: Vec<(Point, Point)>) -> StraightCut {
        let mut sum = Moments::default();
        let mut plain_area = 0.0;
        let mut beyond = Vec::new();
        for piece in pieces.iter().zip(kept).filter_map(|(piece, kept)| kept.then_some(piece)) {
            let moments = piece.moments();
            sum.add(&moments, self.ratio(piece.part));
            plain_area += moments.area;
            beyond.push((piece.part, piece.as_part(self.ratio(piece.part), self.origin)));
        }
        let (centroid, first_moment) = about_axis(&sum, self.local_axis(), self.properties.height());
        StraightCut {
            area: sum.area,
            plain_area,
            centroid: centroid.plus(self.origin),
            first_moment,
            width: through.iter().map(|(from, to)| from.distance(*to)).sum(),
            chords: through.into_iter().map(|(a, b)| (a.plus(self.origin), b.plus(self.origin))).collect(),
            beyond,
            second_moment: self.properties.second_moment,
        }
    }

    /// The lines along which pieces of different parts touch.
    fn bonds(&self, pieces: &[Piece], line: &CutLine) -> Vec<Bond> {
        let mut bonds = Vec::new();
        for second in 1..pieces.len() {
            for first in 0..second {
                if pieces[first].part == pieces[second].part {
                    continue;
                }
                for a in pieces[first].stretches() {
                    let bounds = a.bounds();
                    for b in pieces[second].stretches().filter(|b| bounds.meets(&b.bounds(), self.tolerance))
                    {
                        for shared in common(a, b, self.tolerance).into_iter().flatten() {
                            let on_cut = line.runs_along(&shared).then_some((shared.from, shared.to));
                            bonds.push(Bond { first, second, on_cut, length: shared.length() });
                        }
                    }
                }
            }
        }
        bonds.retain(|bond| bond.length > self.tolerance);
        bonds
    }
}

/// How many sides of a piece run along a chord.
fn sides_on_chord(piece: &Piece, a: Point, b: Point, tolerance: f64) -> usize {
    let near = |p: Point, q: Point| p.distance(q) <= tolerance;
    let along = |from: Point, to: Point| (near(from, a) && near(to, b)) || (near(from, b) && near(to, a));
    piece
        .stretches()
        .filter(|side| matches!(side.curve, Curve::Straight) && along(side.from, side.to))
        .count()
}

/// The pieces that hang together with one of them once the cut is made.
fn hanging_together(start: usize, count: usize, bonds: &[Bond]) -> Vec<bool> {
    let mut kept = vec![false; count];
    kept[start] = true;
    let mut changed = true;
    while changed {
        changed = false;
        for bond in bonds.iter().filter(|bond| bond.on_cut.is_none()) {
            if kept[bond.first] != kept[bond.second] {
                kept[bond.first] = true;
                kept[bond.second] = true;
                changed = true;
            }
        }
    }
    kept
}
