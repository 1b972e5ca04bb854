//! A lesson as the mistakes see it: its workings by what they are, and formulas with something changed.

use crate::build::{Chapters, zero};
use crate::dimension::Dimension;
use crate::evaluate::{CoherentUnits, Replacement};
use crate::expression::Expression;
use crate::notation::DepthAxis;
use crate::quantity::Quantity;
use crate::role::Role;
use crate::solved::Solved;
use crate::working::{Chapter, Formula, HeightSide, Id, Working};

/// Two values that differ by less than this part of their size are one: they come about in different ways and differ by rounding.
const ROUNDING: f64 = 1e-9;

/// What a mistake replaces at once.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Replaced {
    pub(super) first: (Id, Replacement),
    pub(super) more: Vec<(Id, Replacement)>,
}

impl Replaced {
    /// One working by another formula.
    pub(super) fn by(id: Id, formula: Expression) -> Self {
        Self { first: (id, Replacement::Expression(formula)), more: Vec::new() }
    }

    /// One working by plain numbers.
    pub(super) fn numbers(id: Id, formula: Expression, units: CoherentUnits) -> Self {
        Self { first: (id, Replacement::Numbers(formula, units)), more: Vec::new() }
    }

    /// One working by zero.
    pub(super) fn nothing(id: Id) -> Self {
        Self { first: (id, Replacement::Value(0.0)), more: Vec::new() }
    }

    /// Several workings at once; none of none.
    pub(super) fn together(all: impl IntoIterator<Item = (Id, Replacement)>) -> Option<Self> {
        let mut all = all.into_iter();
        let first = all.next()?;
        Some(Self { first, more: all.collect() })
    }
}

/// What becomes of a working in a formula.
pub(super) enum Leaf {
    Stays,
    /// Left out, with the term or the product that it stands in.
    Goes,
    Becomes(Expression),
}

/// A lesson whose workings can go wrong.
pub(super) struct Lesson<'a> {
    pub(super) solved: &'a Solved,
}

impl<'a> Lesson<'a> {
    pub(super) fn of(solved: &'a Solved) -> Self {
        Self { solved }
    }

    pub(super) fn chapters(&self) -> &'a Chapters {
        self.solved.chapters()
    }

    pub(super) fn working(&self, id: Id) -> &'a Working {
        self.solved.workings().working(id)
    }

    pub(super) fn value(&self, id: Id) -> f64 {
        self.solved.value(id)
    }

    /// The workings of one chapter and one role that are computed by a formula.
    pub(super) fn formulas(&self, chapter: Chapter, role: Role) -> impl Iterator<Item = Id> + use<'a> {
        let of_role = move |(id, working): (Id, &Working)| {
            let counts = working.symbol.role == role && matches!(working.formula, Formula::Expression(_));
            counts.then_some(id)
        };
        let solved: &'a Solved = self.solved;
        solved.workings().chapter(chapter).filter_map(of_role)
    }

    /// The formula of a working, or the working itself where it has none.
    pub(super) fn own(&self, id: Id) -> Expression {
        match &self.working(id).formula {
            Formula::Expression(formula) => formula.clone(),
            Formula::Given | Formula::Engine { .. } => id.into(),
        }
    }

    /// Whether the formula of a working reads another one directly.
    pub(super) fn reads(&self, id: Id, read: Id) -> bool {
        self.solved.workings().reads(id).contains(&read)
    }

    /// The formula of a working with something changed; none where nothing of it is.
    pub(super) fn changed(&self, id: Id, change: &dyn Fn(Id) -> Leaf) -> Option<Expression> {
        let Formula::Expression(formula) = &self.working(id).formula else { return None };
        let mut any = false;
        formula.each_working(&mut |read| any |= !matches!(change(read), Leaf::Stays));
        if !any {
            return None;
        }
        let working = self.working(id);
        Some(kept(formula, change).unwrap_or_else(|| zero(working.value.dimension, working.symbol.role)))
    }

    /// The formula of a working with one that it reads put for another.
    pub(super) fn with(&self, id: Id, read: Id, by: &Expression) -> Option<Expression> {
        self.changed(id, &|leaf| if leaf == read { Leaf::Becomes(by.clone()) } else { Leaf::Stays })
    }

    /// The formula of a working without one that it reads.
    pub(super) fn without(&self, id: Id, read: Id) -> Option<Expression> {
        self.changed(id, &|leaf| if leaf == read { Leaf::Goes } else { Leaf::Stays })
    }

    /// The units of a calculation along the beam: kN and m.
    pub(super) fn beam_units(&self) -> CoherentUnits {
        let style = self.solved.style();
        CoherentUnits {
            force: style.unit(Role::PointForce, Dimension::FORCE).in_si(),
            length: style.unit(Role::Station, Dimension::LENGTH).in_si(),
        }
    }

    /// The units of a calculation in the section, in which the course's stress comes out: mm, and N for MPa.
    pub(super) fn section_units(&self) -> CoherentUnits {
        let style = self.solved.style();
        let length = style.unit(Role::Breadth, Dimension::LENGTH).in_si();
        let stress = style.unit(Role::ShearStress, Dimension::STRESS).in_si();
        CoherentUnits { force: stress * length * length, length }
    }

    /// The depth of the section.
    pub(super) fn depth(&self) -> Expression {
        let section = &self.chapters().section;
        Expression::from(section.top) - section.bottom.into()
    }

    /// The height of its middle.
    pub(super) fn mid_depth(&self) -> Expression {
        let section = &self.chapters().section;
        (Expression::from(section.top) + section.bottom.into()) / 2.0.into()
    }

    /// A height above the lowest fibre.
    pub(super) fn above_base(&self, height: Expression) -> Expression {
        height - self.chapters().section.bottom.into()
    }

    /// The breadth of the outline: that of the piece that is as broad, or the number.
    pub(super) fn breadth(&self) -> Expression {
        let breadth = self.solved.section().properties().breadth();
        let near = 1e-12 * breadth;
        let broadest = self.chapters().section.pieces.iter().find_map(|piece| match piece.placed.size {
            crate::build::Size::Rectangle { breadth: of, .. }
                if !piece.placed.piece.hole && (self.value(of) - breadth).abs() <= near =>
            {
                Some(of)
            }
            _ => None,
        });
        match broadest {
            Some(id) => id.into(),
            None => Expression::Given(Quantity::new(breadth, Dimension::LENGTH), Role::Breadth),
        }
    }

    /// Whether the part beyond the cut is that above it.
    pub(super) fn beyond_above(&self) -> bool {
        self.solved.problem().cut.beyond == HeightSide::Above
    }

    /// A distance up from the neutral axis along the course's depth axis.
    pub(super) fn along_axis(&self, up: Expression) -> Expression {
        match self.solved.style().notation.habits.depth_axis {
            DepthAxis::Down => -up,
            DepthAxis::Up => up,
        }
    }

    /// Whether two values of one dimension are one: they come about in different ways and may differ by rounding.
    pub(super) fn alike(&self, one: Id, other: Id) -> bool {
        let [one, other] = [one, other].map(|id| self.value(id));
        (one - other).abs() <= ROUNDING * one.abs().max(other.abs())
    }

    /// What is left by rounding of a bending moment that is zero, N m: below this part of the largest it has no sign.
    pub(super) fn no_moment(&self) -> f64 {
        let diagrams = &self.chapters().diagrams;
        let extremes = [diagrams.sagging, diagrams.hogging].into_iter().flatten();
        ROUNDING * extremes.fold(0.0, |most: f64, id| most.max(self.value(id).abs()))
    }

    /// What is left by rounding of a shear force that is zero, N.
    pub(super) fn no_shear(&self) -> f64 {
        ROUNDING * self.value(self.chapters().diagrams.largest_shear).abs()
    }

    /// Whether two stations are one.
    pub(super) fn same_station(&self, a: f64, b: f64) -> bool {
        (a - b).abs() <= crate::build::SAME_STATION * self.solved.problem().beam.length
    }
}

/// What is left of an expression; none where nothing is.
fn kept(expression: &Expression, change: &dyn Fn(Id) -> Leaf) -> Option<Expression> {
    let one = |of: &Expression| kept(of, change);
    let boxed = |of: &Expression| one(of).map(Box::new);
    Some(match expression {
        Expression::Working(id) => match change(*id) {
            Leaf::Stays => expression.clone(),
            Leaf::Goes => return None,
            Leaf::Becomes(by) => by,
        },
        Expression::Negative(of) => Expression::Negative(boxed(of)?),
        Expression::Sum(terms) => {
            let left: Vec<Expression> = terms.iter().filter_map(one).collect();
            if left.is_empty() {
                return None;
            }
            Expression::sum(left)
        }
        Expression::Product(factors) => Expression::Product(factors.iter().map(one).collect::<Option<_>>()?),
        Expression::Quotient(above, below) => Expression::Quotient(boxed(above)?, boxed(below)?),
        Expression::Arctangent(above, below) => Expression::arctangent(*boxed(above)?, *boxed(below)?),
        Expression::Power(base, power) => Expression::Power(boxed(base)?, *power),
        Expression::Root(of) => Expression::Root(boxed(of)?),
        Expression::CubeRoot(of) => Expression::CubeRoot(boxed(of)?),
        Expression::Absolute(of) => Expression::Absolute(boxed(of)?),
        Expression::SumOver(of) => Expression::SumOver(boxed(of)?),
        other => other.clone(),
    })
}
