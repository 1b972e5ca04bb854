//! Adds workings to the graph one by one.

use super::resultants::Resultant;
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::graph::Workings;
use crate::problem::Problem;
use crate::quantity::Quantity;
use crate::role::{Role, Symbol};
use crate::working::{Chapter, Formula, HeightSide, Id, Place, Working};
use mechanics::beam::Side;

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
    /// The resultants of whole spread loads by load, made when first wanted.
    pub(crate) whole_resultants: Vec<Option<Vec<Resultant>>>,
}

impl<'a> Builder<'a> {
    pub(crate) fn new(problem: &'a Problem) -> Self {
        Self {
            problem,
            workings: Workings::default(),
            whole_resultants: vec![None; problem.beam.loads.len()],
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

    /// The index, or the first of `index, 2`, `index, 3`, ... that no symbol of the role has yet.
    pub(crate) fn free_index(&self, role: Role, index: &str) -> String {
        let taken = |index: &str| {
            self.workings
                .in_order()
                .any(|(_, other)| other.symbol.role == role && other.symbol.index == index)
        };
        if !taken(index) {
            return index.to_owned();
        }
        let mut others = (2..).map(|count| format!("{index}, {count}"));
        others.find(|other| !taken(other)).unwrap_or_else(|| index.to_owned())
    }

    /// Two things of one name (two planks both called "plank") are told apart by a count.
    fn push(&mut self, mut working: Working) -> Result<Id, EvaluationError> {
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
