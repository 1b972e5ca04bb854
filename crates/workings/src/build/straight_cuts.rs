//! Further straight cuts across the section: upright through a flange, sloping across a web.

use super::builder::{Builder, Entry};
use super::names::with_article;
use super::section::{PieceWorkings, SectionWorkings, Size};
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::problem::FurtherCut;
use crate::role::Role;
use crate::working::{Chapter, Id};
use mechanics::section::Section;

const CHAPTER: Chapter = Chapter::Shear;

/// Areas that differ by less than this part are one: sums of sizes read from text.
const SAME: f64 = 1e-9;

/// The workings of one straight cut.
#[derive(Clone, Copy, Debug)]
pub struct StraightCutWorkings {
    /// Which of the problem's further cuts it is.
    pub cut: usize,
    /// Area of the part beyond.
    pub area: Id,
    /// Distance of its centroid from the neutral axis.
    pub arm: Id,
    /// Its first moment.
    pub first_moment: Id,
    /// Length of the cut through the material.
    pub length: Id,
    /// Shear flow on the cut at the slice.
    pub flow: Id,
    /// Mean shear stress on it.
    pub stress: Id,
}

impl Builder<'_> {
    /// Q, t, the shear flow and the mean stress of every further cut, at the slice.
    ///
    /// # Source
    /// The balance of the part beyond holds for any cut along the beam, not for a level one alone: `q = V Q / I` and
    /// `tau = q / t`; any textbook, under shear flow in thin walls.
    pub(super) fn straight_cuts(
        &mut self,
        section: &SectionWorkings,
        engine: &Section,
        shear: Id,
    ) -> Result<Vec<StraightCutWorkings>, EvaluationError> {
        let problem = self.problem;
        let mut done = Vec::with_capacity(problem.further_cuts.len());
        for (cut, asked) in problem.further_cuts.iter().enumerate() {
            let Ok(found) = engine.straight_cut(asked.from, asked.to, asked.keep) else { continue };
            let (name, index) = (&asked.name, format!("c{}", cut + 1));
            let place = self.workings.working(shear).place;
            let entry = |role, what: &str| {
                let entry = Entry::new(CHAPTER, role, &index, format!("{what} {name}"));
                match place.station {
                    Some(station) => entry.at(station, place.side),
                    None => entry,
                }
            };
            let plain = |role, what: &str| Entry::new(CHAPTER, role, &index, format!("{what} {name}"));
            let fixed = || (Vec::new(), Call::Fixed);
            let how = "The integral over the outline of the part that the cut frees.";
            let says = "What the cut would let slide along the beam: the part beyond for this cut.";
            let area = plain(Role::AreaBeyond, "area beyond").says(says);
            let plain_piece = plain_beyond(section, asked, found.area);
            let area = match plain_piece {
                Some((piece, breadth)) => {
                    let name = &piece.placed.piece.name;
                    let out = plain(Role::Breadth, "breadth beyond").says(format!(
                        "What of {} lies beyond the cut, from the cut to its end.",
                        with_article(name)
                    ));
                    let out = self.given(out, breadth, Dimension::LENGTH)?;
                    let height = match piece.placed.size {
                        Size::Rectangle { height, .. } => Expression::from(height),
                        _ => Expression::Number(1.0),
                    };
                    self.formula(area, Expression::from(out) * height)?
                }
                None => self.engine(area, how, fixed(), found.area, Dimension::AREA)?,
            };
            let distance = found.first_moment.abs() / found.area;
            let says = "The distance of its centroid from the neutral axis of the whole section, up or down: the lever is \
                        always measured across the neutral axis, however the cut runs.";
            let arm = plain(Role::CentroidBeyond, "centroid distance of the part beyond").says(says);
            let arm = match plain_piece {
                Some((piece, _)) => {
                    let (own, axis) = (Expression::from(piece.centroid), Expression::from(section.centroid));
                    let above = self.value(piece.centroid) >= self.value(section.centroid);
                    self.formula(arm, if above { own - axis } else { axis - own })?
                }
                None => self.engine(arm, how, fixed(), distance, Dimension::LENGTH)?,
            };
            let says = "The first moment of the part beyond, about the neutral axis.";
            let first_moment = plain(Role::FirstMoment, "first moment beyond").says(says);
            let first_moment = self.formula(first_moment, Expression::from(area) * arm.into())?;
            let how = "The length of the cut through the material.";
            let says = "What is cut through: the thickness of the flange for an upright cut, the slant of the web for a sloping one.";
            let length = plain(Role::WidthAtCut, "length of").says(says);
            let length = self.engine(length, how, fixed(), found.width, Dimension::LENGTH)?;
            let says = "The balance of the part beyond does not ask how the cut runs: the same formula gives the force that it passes \
                        on per unit length of the beam.";
            let flow = Expression::from(shear) * first_moment.into() / section.second_moment.into();
            let flow = self.formula(entry(Role::ShearFlow, "shear flow on").says(says), flow)?;
            let says = "Spread over the length of the cut: along the beam on the cut itself, and just as large in the plane of the \
                        section, across the cut.";
            let stress = Expression::from(flow) / length.into();
            let stress = self.formula(entry(Role::ShearStress, "shear stress on").says(says), stress)?;
            done.push(StraightCutWorkings { cut, area, arm, first_moment, length, flow, stress });
        }
        Ok(done)
    }
}

/// The plain rectangle of which an upright cut frees one end and nothing else, with the breadth of that end, m; none for any other
/// cut.
fn plain_beyond<'a>(
    section: &'a SectionWorkings,
    asked: &FurtherCut,
    area: f64,
) -> Option<(&'a PieceWorkings, f64)> {
    let near = |a: f64, b: f64| (a - b).abs() <= SAME * b.abs();
    if (asked.from.x - asked.to.x).abs() > SAME * (asked.from.y - asked.to.y).abs() {
        return None;
    }
    let found = section.pieces.iter().find_map(|piece| {
        let of = &piece.placed.piece;
        let holds = of.left <= asked.keep.x
            && asked.keep.x <= of.right
            && of.bottom <= asked.keep.y
            && asked.keep.y <= of.top;
        let breadth =
            if asked.keep.x > asked.from.x { of.right - asked.from.x } else { asked.from.x - of.left };
        let plain = piece.placed.is_plain()
            && piece.placed.is_upright()
            && matches!(piece.placed.size, Size::Rectangle { .. });
        (plain && holds && breadth > 0.0).then_some((piece, breadth))
    });
    found.filter(|(piece, breadth)| {
        let of = &piece.placed.piece;
        near(breadth * (of.top - of.bottom), area)
    })
}
