//! Where the pieces of the section stand across it, and the centroid to the right: what bending about the level axis alone
//! does not ask for.

use super::builder::{Builder, Entry};
use super::names::with_article;
use super::section::{PieceWorkings, Placed, SectionWorkings, Size};
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, Id};
use mechanics::section::Section;

/// The pieces across the section, in their order.
#[derive(Clone, Debug)]
pub(crate) struct AcrossWorkings {
    pub(crate) pieces: Vec<PieceAcross>,
    /// The centroid of the whole section, to the right of the base line.
    pub(crate) centroid: Id,
    /// The place of the upright base line in the coordinates of the outlines, m: the leftmost fibre.
    pub(crate) base: f64,
}

/// One piece across the section.
#[derive(Clone, Debug)]
pub(crate) struct PieceAcross {
    /// Its leftmost fibre, to the right of the base line; none where it begins there.
    pub(crate) left: Option<Expression>,
    /// Its centroid, to the right of the base line.
    pub(crate) centroid: Id,
}

fn is_nothing(of: &Expression) -> bool {
    matches!(of, Expression::Quantity(of, _) if of.value == 0.0)
}

/// A difference, from which what is nothing is left out.
pub(super) fn less(one: Expression, other: Expression) -> Expression {
    match (is_nothing(&one), is_nothing(&other)) {
        (true, _) => -other,
        (_, true) => one,
        _ => one - other,
    }
}

/// The mean of two, from which what is nothing is left out.
pub(super) fn mean(one: Expression, other: Expression) -> Expression {
    match (is_nothing(&one), is_nothing(&other)) {
        (true, _) => other / 2.0.into(),
        (_, true) => one / 2.0.into(),
        _ => (one + other) / 2.0.into(),
    }
}

impl Placed {
    /// The level extent, of a figure with an upright axis of symmetry.
    pub(crate) fn level(&self) -> Option<Expression> {
        match self.size {
            _ if !self.is_upright() => None,
            Size::Rectangle { breadth, .. } => Some(breadth.into()),
            Size::Triangle { base, .. } => Some(base.into()),
            Size::Round { diameter } => Some(diameter.into()),
            Size::Outline => None,
        }
    }
    /// Whether its upright middle line is an axis of symmetry that the figure tells: a triangle may lean.
    pub(crate) fn is_upright(&self) -> bool {
        match self.size {
            Size::Rectangle { .. } | Size::Round { .. } => true,
            Size::Triangle { .. } => {
                let of = self.piece.alone.0.properties();
                of.product_moment.abs() <= 1e-9 * (of.second_moment + of.second_moment_upright)
            }
            Size::Outline => false,
        }
    }
}

fn plus(base: &Option<Expression>, offset: Expression) -> Expression {
    match base {
        Some(base) => base.clone() + offset,
        None => offset,
    }
}

impl PieceAcross {
    /// Its rightmost fibre, of a figure with an upright axis of symmetry.
    pub(crate) fn right(&self, placed: &Placed) -> Option<Expression> {
        placed.level().map(|breadth| plus(&self.left, breadth))
    }
}

impl Builder<'_> {
    /// The pieces across the section.
    pub(crate) fn across(
        &mut self,
        chapter: Chapter,
        section: &SectionWorkings,
        engine: &Section,
    ) -> Result<AcrossWorkings, EvaluationError> {
        let base = engine.properties().left;
        let mut lefts: Vec<Option<Expression>> = Vec::with_capacity(section.pieces.len());
        for place in 0..section.pieces.len() {
            let left = self.left_of(section, place, &lefts, (base, engine.properties().breadth()))?;
            lefts.push(left);
        }
        let mut pieces = Vec::with_capacity(section.pieces.len());
        for (piece, left) in section.pieces.iter().zip(lefts) {
            pieces.push(self.piece_across(chapter, piece, left, base)?);
        }
        let entry = Entry::new(chapter, Role::CentroidAcross, "", "place of the centroid to the right").says(
            "The centroid lies this far to the right of the leftmost fibre: each piece counts with its area.",
        );
        let centroid = match pieces.as_slice() {
            [only] => self.formula(entry, only.centroid.into())?,
            _ => {
                let product = |(piece, across): (&PieceWorkings, &PieceAcross)| {
                    Expression::from(piece.area) * across.centroid.into()
                };
                let moments = section.pieces.iter().zip(&pieces).map(product).collect();
                self.formula(entry, Expression::sum_over(moments) / section.area.into())?
            }
        };
        Ok(AcrossWorkings { pieces, centroid, base })
    }

    /// Where a piece begins on the left: on the base line, in line with an edge of a piece before it, or at a given place.
    fn left_of(
        &mut self,
        section: &SectionWorkings,
        place: usize,
        lefts: &[Option<Expression>],
        (base, breadth): (f64, f64),
    ) -> Result<Option<Expression>, EvaluationError> {
        let placed = &section.pieces[place].placed;
        let near = 1e-12 * breadth;
        let same = |a: f64, b: f64| (a - b).abs() <= near;
        let piece = &placed.piece;
        if same(piece.left, base) {
            return Ok(None);
        }
        let Some(own) = placed.level() else { return Ok(None) };
        for (other, left) in section.pieces.iter().zip(lefts) {
            let Some(size) = other.placed.level() else { continue };
            let of = &other.placed.piece;
            if same(piece.left, of.left) {
                return Ok(left.clone());
            }
            if same(piece.left, of.right) {
                return Ok(Some(plus(left, size)));
            }
            if same(piece.right, of.right) {
                return Ok(Some(plus(left, size) - own));
            }
            if same(piece.left + piece.right, of.left + of.right) {
                return Ok(Some(plus(left, (size - own) / 2.0.into())));
            }
        }
        let entry = Entry::new(
            Chapter::Given,
            Role::Breadth,
            &format!("{}, left", placed.number),
            format!("left side of {}", piece.name),
        )
        .says(format!("How far {} begins to the right of the leftmost fibre.", with_article(&piece.name)));
        Ok(Some(self.given(entry, piece.left - base, Dimension::LENGTH)?.into()))
    }

    fn piece_across(
        &mut self,
        chapter: Chapter,
        piece: &PieceWorkings,
        left: Option<Expression>,
        base: f64,
    ) -> Result<PieceAcross, EvaluationError> {
        let placed = &piece.placed;
        let name = &placed.piece.name;
        let entry = Entry::new(
            chapter,
            Role::CentroidAcross,
            &placed.number,
            format!("place of the centroid of {name} to the right"),
        )
        .says(format!(
            "How far the centroid of {} lies to the right of the leftmost fibre.",
            with_article(name)
        ));
        let centroid = match placed.level() {
            Some(breadth) => self.formula(entry, plus(&left, breadth / 2.0.into()))?,
            None => {
                let value = placed.piece.alone.0.properties().centroid.x - base;
                let how = "Integrated exactly round the outline.";
                self.engine(entry, how, (Vec::new(), Call::Fixed), value, Dimension::LENGTH)?
            }
        };
        Ok(PieceAcross { left, centroid })
    }
}
