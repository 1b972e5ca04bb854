//! Planks laid flat and loose on one another, against the same planks made one: how much stiffer the section is for being joined.

use super::builder::{Builder, Entry};
use super::section::{SectionWorkings, Size};
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::material::Behaviour;
use crate::role::Role;
use crate::working::{Chapter, Id};

const CHAPTER: Chapter = Chapter::Section;

/// More planks than these are no pile that somebody would lay. Common practice, no source.
const MOST: usize = 8;

/// The workings of planks that lie loose.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PlankWorkings {
    /// The second moments of all planks laid flat, each about its own middle, added up.
    pub loose: Id,
    /// How many times that the second moment of the section is.
    pub times: Id,
    /// Whether a plank stands on edge in the section, so that it is turned before it is laid.
    pub turned: bool,
}

impl Builder<'_> {
    /// The planks of a section of wood that is a pile of level rectangles, one on another; none of any other section.
    pub(crate) fn planks(
        &mut self,
        section: &SectionWorkings,
    ) -> Result<Option<PlankWorkings>, EvaluationError> {
        let pieces = &section.pieces;
        let is_wood = section.materials.is_empty() && self.problem.behaviour() == Behaviour::Grained;
        // A shape of one part that is taken apart into rectangles was never planks.
        let of_parts = pieces.len() == self.problem.parts.len();
        if !is_wood || !of_parts || !(2..=MOST).contains(&pieces.len()) {
            return Ok(None);
        }
        let mut order: Vec<usize> = (0..pieces.len()).collect();
        let piece = |place: &usize| &pieces[*place].placed.piece;
        order.sort_by(|one, other| piece(one).bottom.total_cmp(&piece(other).bottom));
        let depth = order.iter().map(|place| piece(place).top).fold(0.0, f64::max);
        let stacked = order.windows(2).all(
            |two| matches!(two, [low, high] if (piece(low).top - piece(high).bottom).abs() <= 1e-9 * depth),
        );
        if !stacked {
            return Ok(None);
        }
        let (mut terms, mut turned) = (Vec::with_capacity(pieces.len()), false);
        for place in order {
            let Size::Rectangle { breadth, height } = pieces[place].placed.size else { return Ok(None) };
            if pieces[place].placed.piece.hole {
                return Ok(None);
            }
            let on_edge = self.value(height) > self.value(breadth);
            turned |= on_edge;
            let (wide, thick) = if on_edge { (height, breadth) } else { (breadth, height) };
            terms.push(Expression::from(wide) * Expression::from(thick).power(3) / 12.0.into());
        }
        let entry = Entry::new(CHAPTER, Role::SecondMoment, "loose", "second moment of the loose planks").says(
            "The planks laid flat and loose on one another: each bends about its own middle, so their second moments add up and no \
             distance counts.",
        );
        // Where one is turned the terms are not alike: each is written.
        let sum = if turned { Expression::sum(terms) } else { Expression::sum_over(terms) };
        let loose = self.formula(entry, sum)?;
        let entry = Entry::new(CHAPTER, Role::Ratio, "joined", "stiffness over that of the loose planks")
            .says("So many times as stiff as the loose planks is the section in which they are one.");
        let times = self.formula(entry, Expression::from(section.second_moment) / loose.into())?;
        Ok(Some(PlankWorkings { loose, times, turned }))
    }
}
