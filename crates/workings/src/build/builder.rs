//! Adds workings to the graph one by one.

use super::balance::MomentBalance;
use super::names::LoadLetters;
use super::resultants::{Resultant, StretchWorkings};
use super::virtual_work::MovementCheck;
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::graph::Workings;
use crate::notation::DepthAxis;
use crate::problem::Problem;
use crate::quantity::Quantity;
use crate::role::{Role, Symbol};
use crate::style::Style;
use crate::working::{Chapter, Formula, HeightSide, Id, Place, Working};
use mechanics::beam::Side;
use std::collections::BTreeSet;

/// Two stations nearer than this part of the beam's length are one: a force at 1.5 m and a load from 1.5 m, each
/// read from text and converted, may differ in the last bits.
pub(crate) const SAME_STATION: f64 = 1e-12;

/// What stands beside the formula of a working.
pub(crate) struct Entry {
    chapter: Chapter,
    symbol: Symbol,
    name: String,
    place: Place,
    sentence: String,
}

impl Entry {
    pub(crate) fn new(chapter: Chapter, role: Role, index: &str, name: impl Into<String>) -> Self {
        Self {
            chapter,
            symbol: Symbol::indexed(role, index),
            name: name.into(),
            place: Place::default(),
            sentence: String::new(),
        }
    }

    /// The sentence that says what is done and why.
    pub(crate) fn says(mut self, sentence: impl Into<String>) -> Self {
        self.sentence = sentence.into();
        self
    }

    /// The station where it holds.
    pub(crate) fn at(mut self, station: f64, side: Option<Side>) -> Self {
        self.place.station = Some(station);
        self.place.side = side;
        self
    }

    /// Where it holds.
    pub(crate) fn placed(mut self, place: Place) -> Self {
        self.place = place;
        self
    }

    /// The height where it holds.
    pub(crate) fn height(mut self, height: f64, side: Option<HeightSide>) -> Self {
        self.place.height = Some(height);
        self.place.height_side = side;
        self
    }

    fn working(self, formula: Formula, value: Quantity) -> Working {
        Working {
            name: self.name,
            symbol: self.symbol,
            chapter: self.chapter,
            place: self.place,
            formula,
            value,
            sentence: self.sentence,
        }
    }
}

/// Adds workings to the graph.
pub(crate) struct Builder<'a> {
    pub(crate) problem: &'a Problem,
    pub(crate) workings: Workings,
    symbols: BTreeSet<Symbol>,
    /// Whether the course's depth axis points down.
    pub(crate) axis_down: bool,
    /// The course's letters of a point force and a spread load.
    pub(crate) letters: LoadLetters,
    /// The resultants of whole spread loads by load, made when first wanted.
    pub(crate) whole_resultants: Vec<Option<Vec<Resultant>>>,
    /// Every stretch of a spread load that has resultants.
    pub(crate) stretches: Vec<StretchWorkings>,
    /// The reactions that a balance of moments gives.
    pub(crate) moment_balances: Vec<MomentBalance>,
    /// Movements by formula beside those of the engine.
    pub(crate) movement_checks: Vec<MovementCheck>,
}

impl<'a> Builder<'a> {
    pub(crate) fn new(problem: &'a Problem, style: &Style) -> Self {
        Self {
            problem,
            workings: Workings::default(),
            symbols: BTreeSet::new(),
            axis_down: style.notation.habits.depth_axis == DepthAxis::Down,
            letters: LoadLetters::of(style),
            whole_resultants: vec![None; problem.beam.loads.len()],
            stretches: Vec::new(),
            moment_balances: Vec::new(),
            movement_checks: Vec::new(),
        }
    }

    pub(crate) fn value(&self, id: Id) -> f64 {
        self.workings.values()[id.0 as usize]
    }

    /// Whether two stations are one.
    pub(crate) fn same_station(&self, a: f64, b: f64) -> bool {
        (a - b).abs() <= SAME_STATION * self.problem.beam.length
    }

    /// A value of the lesson.
    pub(crate) fn given(
        &mut self,
        entry: Entry,
        value: f64,
        dimension: Dimension,
    ) -> Result<Id, EvaluationError> {
        self.push(entry.working(Formula::Given, Quantity::new(value, dimension)))
    }

    /// A value from a formula.
    pub(crate) fn formula(&mut self, entry: Entry, expression: Expression) -> Result<Id, EvaluationError> {
        let unknown = Quantity::new(f64::NAN, Dimension::NONE);
        self.push(entry.working(Formula::Expression(expression), unknown))
    }

    /// A value that the engine finds; asked again when what it reads is replaced.
    pub(crate) fn engine(
        &mut self,
        entry: Entry,
        how: impl Into<String>,
        (reads, call): (Vec<Id>, Call),
        value: f64,
        dimension: Dimension,
    ) -> Result<Id, EvaluationError> {
        let formula = Formula::Engine { how: how.into(), reads, call };
        self.push(entry.working(formula, Quantity::new(value, dimension)))
    }

    /// Whether a working is zero by its nature, such as M at a free end without a couple.
    pub(crate) fn is_nothing(&self, id: Id) -> bool {
        let formula = &self.workings.working(id).formula;
        matches!(formula, Formula::Expression(Expression::Quantity(Quantity { value: 0.0, .. }, _)))
    }

    /// The index, or the first of `index, 2`, `index, 3`, ... that no symbol of the role has yet.
    pub(crate) fn free_index(&self, role: Role, index: &str) -> String {
        let free = |index: &String| !self.symbols.contains(&Symbol::indexed(role, index.as_str()));
        let mut others = (1..).map(|count| match (count, index.is_empty()) {
            (1, _) => index.to_owned(),
            (_, true) => count.to_string(),
            (_, false) => format!("{index}, {count}"),
        });
        others.find(free).unwrap_or_else(|| index.to_owned())
    }

    /// Two things of one name (two planks both called "plank") are told apart by a count; so are two of one symbol
    /// (the station of a support A and that of a load A).
    fn push(&mut self, mut working: Working) -> Result<Id, EvaluationError> {
        working.symbol.index = self.free_index(working.symbol.role, &working.symbol.index);
        self.symbols.insert(working.symbol.clone());
        if self.workings.id(&working.name).is_some() {
            let other = (2..).map(|count| format!("{} ({count})", working.name));
            let mut free = other.filter(|name| self.workings.id(name).is_none());
            if let Some(name) = free.next() {
                working.name = name;
            }
        }
        self.workings.push(working)
    }
}

/// A zero of a dimension, as a formula.
pub(crate) fn zero(dimension: Dimension, role: Role) -> Expression {
    Expression::Quantity(Quantity::new(0.0, dimension), role)
}
