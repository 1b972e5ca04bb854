//! The flows round closed cells of thin walls, from the condition that no cell twists.

use super::builder::{Builder, Entry};
use super::two_equations::solved_by_determinants;
use super::wall_cells::{number, signed};
use super::walls::{CHAPTER, CellCondition, CellWall};
use crate::dimension::Dimension;
use crate::engine::{Call, CellEquations};
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::Id;
use std::sync::Arc;

/// What two cells share, by the places of both.
type Shared = Vec<(usize, usize, Id)>;

/// The closing flow of each cell, with what its condition is made of where there are several; and what they share.
type Closed = (Vec<(Id, Option<CellCondition>)>, Shared);

/// The left sides of the conditions of several cells: `∮ ds / t` round each and between two.
pub(super) struct Flexibilities<'a> {
    pub round: &'a [Id],
    pub shared: &'a [(usize, usize, Id)],
}

/// How the flow round a cell follows from the conditions.
pub(super) enum Found {
    ByFormula(Expression),
    /// What is read, and the question.
    Together(Vec<Id>, Call),
}

impl Flexibilities<'_> {
    fn between(&self, one: usize, other: usize) -> Option<Id> {
        let pair = (one.min(other), one.max(other));
        self.shared.iter().find(|(a, b, _)| (*a, *b) == pair).map(|(.., id)| *id)
    }

    /// The flow round a cell with which every cell's sum of its own flow and its neighbours' over the thickness is `times` what
    /// is wanted of it.
    pub fn flow(&self, cell: usize, (times, wanted): (f64, &[Id])) -> Found {
        let count = self.round.len();
        let beside = |cell: usize| (0..count).filter(move |&other| self.between(cell, other).is_some());
        let right = |cell: usize| {
            let wanted = Expression::from(wanted[cell]);
            if times == -1.0 { -wanted } else { Expression::Number(times) * wanted }
        };
        let neighbours: Vec<usize> = beside(cell).collect();
        match neighbours.as_slice() {
            [] => Found::ByFormula(right(cell) / self.round[cell].into()),
            &[other] if beside(other).count() == 1 => {
                let (a, b) = (cell.min(other), cell.max(other));
                let between = || self.between(a, b).map_or(Expression::Number(0.0), Expression::from);
                let coefficients = [self.round[a].into(), between(), between(), self.round[b].into()];
                let both = solved_by_determinants(&[right(a), right(b)], &coefficients);
                let own = both.into_iter().nth(usize::from(cell == b));
                Found::ByFormula(own.unwrap_or(Expression::Number(f64::NAN)))
            }
            _ => {
                let shared = self.shared.iter().map(|(a, b, _)| (*a, *b)).collect();
                let between = self.shared.iter().map(|(.., id)| *id);
                let reads = self.round.iter().copied().chain(between).chain(wanted.iter().copied());
                let equations = Arc::new(CellEquations { count, shared, times });
                Found::Together(reads.collect(), Call::FlowRoundCell(equations, cell))
            }
        }
    }
}

impl Builder<'_> {
    pub(super) fn closing_flows(
        &mut self,
        count: usize,
        walls: &[CellWall],
    ) -> Result<Closed, EvaluationError> {
        if count == 1 {
            return Ok((vec![(self.closing_flow(walls)?, None)], Vec::new()));
        }
        let (round, shared) = self.lengths_over_thickness(count, walls)?;
        let mut open = Vec::new();
        for cell in 0..count {
            let terms = on(walls, cell)
                .map(|(of, sense)| signed(sense, Expression::from(of.sum) / of.thickness.clone()));
            let number = number(cell, count);
            let name = format!("sum of flow over thickness round cell {number}, cut open");
            let entry = Entry::new(CHAPTER, Role::CellTwist, &format!("{number},0"), name).says(
                "Cut open, the cell would twist: each wall by its sum of the flow over its thickness, with a minus where its way runs \
                 clockwise round this cell. Positive counter-clockwise.",
            );
            open.push(self.formula(entry, Expression::sum(terms.collect()))?);
        }
        let flexibilities = Flexibilities { round: &round, shared: &shared };
        let mut closings = Vec::new();
        for cell in 0..count {
            let number = number(cell, count);
            let says = "No cell may twist: what its walls do cut open, what its own closing flow does and what that of its neighbour \
                        does in the wall between them add up to nothing. As many equations as cells, for as many flows. Positive counter-clockwise.";
            let name = format!("closing flow round cell {number}");
            let entry = Entry::new(CHAPTER, Role::ShearFlow, &number, name).says(says);
            let closing =
                self.flow_round(entry, flexibilities.flow(cell, (-1.0, &open)), Dimension::FORCE_PER_LENGTH)?;
            closings.push((closing, Some(CellCondition { round: round[cell], open: open[cell] })));
        }
        Ok((closings, shared))
    }

    /// A flow round a cell as it is found.
    pub(super) fn flow_round(
        &mut self,
        entry: Entry,
        found: Found,
        dimension: Dimension,
    ) -> Result<Id, EvaluationError> {
        match found {
            Found::ByFormula(formula) => self.formula(entry, formula),
            Found::Together(reads, call) => {
                let how = "From the conditions of all cells, solved together.";
                let value = call.evaluate(&reads, self.workings.values());
                self.engine(entry, how, (reads, call), value, dimension)
            }
        }
    }

    /// The flow round a cell that is alone.
    fn closing_flow(&mut self, walls: &[CellWall]) -> Result<Id, EvaluationError> {
        let twist =
            on(walls, 0).map(|(of, sense)| signed(sense, Expression::from(of.sum) / of.thickness.clone()));
        let round = on(walls, 0).map(|(of, _)| Expression::from(of.length) / of.thickness.clone());
        let entry = Entry::new(CHAPTER, Role::ShearFlow, "0", "closing flow round the cell").says(
            "Cut open, the tube would twist: each wall by its sum of the flow over its thickness. One and the same flow round the whole \
             cell turns it back, and so large it must be. Thin walls count most.",
        );
        self.formula(entry, -(Expression::sum(twist.collect()) / Expression::sum(round.collect())))
    }

    /// `∮ ds / t` round each cell, and over the walls between two.
    fn lengths_over_thickness(
        &mut self,
        count: usize,
        walls: &[CellWall],
    ) -> Result<(Vec<Id>, Shared), EvaluationError> {
        let term = |of: &CellWall| Expression::from(of.length) / of.thickness.clone();
        let mut round = Vec::new();
        for cell in 0..count {
            let number = number(cell, count);
            let name = format!("length over thickness round cell {number}");
            let entry = Entry::new(CHAPTER, Role::CellTwist, &format!("{number},{number}"), name)
                .says("What a flow of one, round this cell alone, gives as its sum over the thickness: thin walls count most.");
            round.push(
                self.formula(entry, Expression::sum(on(walls, cell).map(|(of, _)| term(of)).collect()))?,
            );
        }
        let mut shared = Vec::new();
        for (a, b) in (0..count).flat_map(|a| (a + 1..count).map(move |b| (a, b))) {
            let between: Vec<Expression> = on(walls, a)
                .filter_map(|(of, sense)| {
                    let against = of.cells.iter().find(|(cell, _)| *cell == b)?.1;
                    Some(signed(sense * against, term(of)))
                })
                .collect();
            if between.is_empty() {
                continue;
            }
            let (one, other) = (number(a, count), number(b, count));
            let name = format!("length over thickness between cells {one} and {other}");
            let entry = Entry::new(CHAPTER, Role::CellTwist, &format!("{one},{other}"), name).says(
                "The wall between two cells carries both flows, one against the other: what the flow of the neighbour does to a cell \
                 has the other sign. Negative, the sum of its lengths over their thicknesses.",
            );
            shared.push((a, b, self.formula(entry, Expression::sum(between))?));
        }
        Ok((round, shared))
    }
}

/// The walls round a cell, each with 1 where its way runs counter-clockwise, else -1.
fn on(walls: &[CellWall], cell: usize) -> impl Iterator<Item = (&CellWall, f64)> {
    walls
        .iter()
        .filter_map(move |of| of.cells.iter().find(|(own, _)| *own == cell).map(|(_, sense)| (of, *sense)))
}
