//! The graph of workings: every number of a lesson, in an order in which each reads only those before it.

use crate::dimension::Dimension;
use crate::evaluate::{EvaluationError, Evaluator, Prepared, Program, Replacement};
use crate::expression::Expression;
use crate::quantity::Quantity;
use crate::role::Symbol;
use crate::working::{Chapter, Formula, Id, Working};
use std::collections::BTreeMap;

/// What is smaller than this part of what it stands beside is nothing: what is left of sums that cancel is 1e-13 of them.
const NOTHING: f64 = 1e-9;

/// All workings of a lesson. The single source of every solution, key and mark.
#[derive(Clone, Debug, Default)]
pub struct Workings {
    list: Vec<Working>,
    programs: Vec<Program>,
    values: Vec<f64>,
    by_name: BTreeMap<String, Id>,
}

impl Workings {
    /// How many workings there are.
    pub fn len(&self) -> usize {
        self.list.len()
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// The working of this stable name.
    pub fn get(&self, name: &str) -> Option<&Working> {
        self.id(name).map(|id| self.working(id))
    }

    /// The id of the working of this stable name.
    pub fn id(&self, name: &str) -> Option<Id> {
        self.by_name.get(name).copied()
    }

    /// The working of an id of this graph.
    ///
    /// # Panics
    /// If the id comes from another graph and lies beyond the end of this one.
    pub fn working(&self, id: Id) -> &Working {
        &self.list[id.0 as usize]
    }

    /// All workings in the order of the worked solution: chapter by chapter, within a chapter as computed.
    pub fn iter(&self) -> impl Iterator<Item = (Id, &Working)> {
        Chapter::ALL.into_iter().flat_map(|chapter| self.chapter(chapter))
    }

    /// The workings of one chapter, as computed.
    pub fn chapter(&self, chapter: Chapter) -> impl Iterator<Item = (Id, &Working)> {
        self.in_order().filter(move |(_, working)| working.chapter == chapter)
    }

    /// All workings in the order of evaluation: each reads only workings before it.
    pub fn in_order(&self) -> impl Iterator<Item = (Id, &Working)> {
        self.list.iter().enumerate().map(|(place, working)| (Id(place as u32), working))
    }

    /// The value of every working by id, SI.
    pub fn values(&self) -> &[f64] {
        &self.values
    }

    /// The workings that this one reads.
    pub fn reads(&self, id: Id) -> Vec<Id> {
        match &self.working(id).formula {
            Formula::Given => Vec::new(),
            Formula::Engine { reads, .. } => reads.clone(),
            Formula::Expression(expression) => {
                let mut reads = Vec::new();
                expression.each_working(&mut |read| {
                    if !reads.contains(&read) {
                        reads.push(read);
                    }
                });
                reads
            }
        }
    }

    /// The formula in symbols: `V Q / (I t)`. `None` where it is given, or found by the engine.
    pub fn formula(&self, id: Id) -> Option<Expression> {
        match &self.working(id).formula {
            Formula::Expression(expression) => Some(self.in_symbols(expression)),
            Formula::Given | Formula::Engine { .. } => None,
        }
    }

    /// The formula with the numbers put in, each to be shown in the course's units. `None` as for
    /// [`Workings::formula`].
    ///
    /// Along thin walls terms that are nothing are left out where others stay: every flow is a sum of what comes from before and
    /// what is added, and in a section with an axis of symmetry many of these are zero.
    pub fn substitution(&self, id: Id) -> Option<Expression> {
        let working = self.working(id);
        match &working.formula {
            Formula::Expression(expression) if working.chapter == Chapter::Walls => {
                Some(self.in_numbers(&self.without_zeros(expression)))
            }
            Formula::Expression(expression) => Some(self.in_numbers(expression)),
            Formula::Given | Formula::Engine { .. } => None,
        }
    }

    /// The value, to be shown in the course's units.
    pub fn result(&self, id: Id) -> Expression {
        let working = self.working(id);
        match working.formula {
            Formula::Given => Expression::Given(working.value, working.symbol.role),
            Formula::Expression(_) | Formula::Engine { .. } => {
                Expression::Quantity(working.value, working.symbol.role)
            }
        }
    }

    /// The whole line: symbol = formula = substitution = result; what is missing or says the same again is
    /// left out.
    pub fn equation(&self, id: Id) -> Expression {
        let mut chain = vec![Expression::Symbol(self.working(id).symbol.clone())];
        let result = self.result(id);
        // Another working's value, taken as it is, would stand there twice.
        let taken_over = matches!(&self.working(id).formula, Formula::Expression(Expression::Working(_)));
        let says_the_same = |of: &Expression| match (of, &result) {
            (Expression::Quantity(one, _), Expression::Quantity(other, _)) => {
                (one.value - other.value).abs() <= NOTHING * other.value.abs()
            }
            _ => false,
        };
        let substitution =
            if taken_over { None } else { self.substitution(id).filter(|of| !says_the_same(of)) };
        for link in [self.formula(id), substitution, Some(result)].into_iter().flatten() {
            if chain.last() != Some(&link) {
                chain.push(link);
            }
        }
        Expression::Equal(chain)
    }

    /// Any expression over this graph, its workings turned into their symbols; a sum over like terms becomes
    /// its general term.
    pub fn in_symbols(&self, expression: &Expression) -> Expression {
        expression.map_leaves(&|leaf| match leaf {
            Expression::Working(id) => Some(Expression::Symbol(self.working(*id).symbol.clone())),
            Expression::SumOver(terms) => {
                let general = match terms.as_ref() {
                    Expression::Sum(terms) => terms.first()?,
                    other => other,
                };
                Some(Expression::SumOver(Box::new(self.general_term(general))))
            }
            _ => None,
        })
    }

    /// Any expression over this graph, its workings turned into their values; a sum over like terms is written
    /// out.
    pub fn in_numbers(&self, expression: &Expression) -> Expression {
        expression.map_leaves(&|leaf| match leaf {
            Expression::Working(id) => Some(self.result(*id)),
            Expression::SumOver(terms) => Some(self.in_numbers(terms)),
            _ => None,
        })
    }

    /// As [`Workings::in_numbers`], with other values than the graph's own, such as those of [`Workings::evaluate_with`]: by id, SI.
    pub fn in_numbers_of(&self, values: &[f64], expression: &Expression) -> Expression {
        expression.map_leaves(&|leaf| match leaf {
            Expression::Working(id) => {
                let working = self.working(*id);
                let other = values.get(id.0 as usize).filter(|value| **value != working.value.value);
                Some(other.map_or_else(
                    || self.result(*id),
                    |value| {
                        let quantity = Quantity::new(*value, working.value.dimension);
                        Expression::Quantity(quantity, working.symbol.role)
                    },
                ))
            }
            Expression::SumOver(terms) => Some(self.in_numbers_of(values, terms)),
            _ => None,
        })
    }

    /// An expression whose sums have lost the terms that are nothing beside the others; a sum of nothing else stays.
    fn without_zeros(&self, expression: &Expression) -> Expression {
        let within = |of: &Expression| Box::new(self.without_zeros(of));
        match expression {
            Expression::Sum(terms) => {
                let size = |term: &Expression| self.evaluate(term).map_or(0.0, |value| value.value.abs());
                let largest = terms.iter().map(size).fold(0.0, f64::max);
                let counts = |term: &&Expression| size(term) > NOTHING * largest;
                let mut left: Vec<Expression> =
                    terms.iter().filter(counts).map(|term| self.without_zeros(term)).collect();
                match left.len() {
                    0 => expression.clone(),
                    1 => left.remove(0),
                    _ => Expression::Sum(left),
                }
            }
            Expression::Product(factors) => {
                Expression::Product(factors.iter().map(|factor| self.without_zeros(factor)).collect())
            }
            Expression::Negative(of) => Expression::Negative(within(of)),
            Expression::Quotient(over, under) => Expression::Quotient(within(over), within(under)),
            Expression::Power(of, power) => Expression::Power(within(of), *power),
            other => other.clone(),
        }
    }

    fn general_term(&self, term: &Expression) -> Expression {
        term.map_leaves(&|leaf| match leaf {
            Expression::Working(id) => {
                let symbol = &self.working(*id).symbol;
                // A symbol without an index is the same in every term.
                let index = if symbol.index.is_empty() { "" } else { "i" };
                Some(Expression::Symbol(Symbol::indexed(symbol.role, index)))
            }
            _ => None,
        })
    }

    /// Evaluates the graph again with some workings replaced, and all that depends on them.
    ///
    /// Gives the value of every working by id, SI; what cannot be computed from the replacements (a division by
    /// zero) comes out infinite or not a number. For a million evaluations take [`Workings::prepare`] and an
    /// [`Evaluator`].
    ///
    /// # Errors
    /// If a replacing expression holds what cannot be evaluated, or its dimensions do not agree.
    pub fn evaluate_with(&self, replacements: &[(Id, Replacement)]) -> Result<Vec<f64>, EvaluationError> {
        let prepared = self.prepare(replacements)?;
        let mut evaluator = Evaluator::new(self);
        Ok(evaluator.run(&prepared).to_vec())
    }

    /// Checks and compiles replacements, to be evaluated often.
    ///
    /// # Errors
    /// As [`Workings::evaluate_with`].
    pub fn prepare(&self, replacements: &[(Id, Replacement)]) -> Result<Prepared, EvaluationError> {
        Prepared::new(self, replacements)
    }

    /// The dimension of an expression over this graph, each operation checked.
    ///
    /// # Errors
    /// If it holds what cannot be evaluated, or its dimensions do not agree.
    pub fn dimension_of(&self, expression: &Expression) -> Result<Dimension, EvaluationError> {
        crate::evaluate::dimension_of(self, "an expression", expression)
    }

    /// The value of an expression over this graph, dimensions checked.
    ///
    /// # Errors
    /// As [`Workings::dimension_of`].
    pub fn evaluate(&self, expression: &Expression) -> Result<Quantity, EvaluationError> {
        let dimension = self.dimension_of(expression)?;
        let program = Program::compile(self, "an expression", expression)?;
        Ok(Quantity::new(program.run(&self.values, &mut Vec::new()), dimension))
    }

    /// Which workings, by id, are found again when these are replaced: these and all that depend on them.
    pub fn downstream(&self, of: &[Id]) -> Vec<bool> {
        let mut reached = vec![false; self.list.len()];
        for id in of {
            if let Some(reached) = reached.get_mut(id.0 as usize) {
                *reached = true;
            }
        }
        for (place, program) in self.programs.iter().enumerate() {
            reached[place] |= program.reads_any(&reached);
        }
        reached
    }

    /// Which workings, by id, one depends on: itself and all that is read on the way to it.
    pub fn upstream(&self, of: Id) -> Vec<bool> {
        let mut read = vec![false; self.list.len()];
        let mut open = vec![of.0];
        while let Some(id) = open.pop() {
            if let (Some(read), Some(program)) = (read.get_mut(id as usize), self.programs.get(id as usize))
                && !std::mem::replace(read, true)
            {
                program.each_read(&mut |id| open.push(id));
            }
        }
        read
    }

    pub(crate) fn programs(&self) -> &[Program] {
        &self.programs
    }

    /// Adds a working; its value and its dimension are computed here, unless it is given.
    pub(crate) fn push(&mut self, mut working: Working) -> Result<Id, EvaluationError> {
        let id = Id(self.list.len() as u32);
        let program = match &working.formula {
            Formula::Given => Program::Given,
            Formula::Engine { reads, call, .. } => Program::Engine(call.clone(), reads.clone()),
            Formula::Expression(expression) => {
                working.value.dimension = crate::evaluate::dimension_of(self, &working.name, expression)?;
                let program = Program::compile(self, &working.name, expression)?;
                working.value.value = program.run(&self.values, &mut Vec::new());
                program
            }
        };
        if !working.value.value.is_finite() {
            return Err(EvaluationError::NotFinite { working: working.name });
        }
        if self.by_name.insert(working.name.clone(), id).is_some() {
            return Err(EvaluationError::NameTwice { working: working.name });
        }
        self.values.push(working.value.value);
        self.programs.push(program);
        self.list.push(working);
        Ok(id)
    }
}
