//! What the numbers of every paper must meet: a working compared with a quantity or with another working, or one of a
//! few conditions in words.

use std::fmt;
use workings::graph::Workings;
use workings::quantity::Quantity;
use workings::working::Id;

/// A requirement of the lesson.
#[derive(Clone, Debug, PartialEq)]
pub struct Requirement {
    /// As the lecturer wrote it.
    pub written: String,
    /// What it says.
    pub condition: Condition,
}

/// What a requirement says.
#[derive(Clone, Debug, PartialEq)]
pub enum Condition {
    /// A working compared.
    Compare {
        /// What is compared.
        left: Term,
        /// How.
        relation: Relation,
        /// With what.
        right: Limit,
    },
    /// A condition in words.
    InWords(InWords),
}

/// A working of the lesson, or its size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Term {
    /// The name of the working.
    pub name: String,
    /// Whether its size counts and not its sign.
    pub size: bool,
}

/// With what a working is compared.
#[derive(Clone, Debug, PartialEq)]
pub enum Limit {
    /// A quantity, SI.
    Quantity(Quantity),
    /// Another working.
    Working(Term),
}

/// How two values are compared. Values nearer than 1e-9 of the larger are equal: both may come from rounded sums.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Relation {
    /// Less than.
    Less,
    /// At most.
    AtMost,
    /// Greater than.
    Greater,
    /// At least.
    AtLeast,
}

impl Relation {
    /// How each may be written; what begins another one stands after it.
    pub(crate) const WRITTEN: [(&'static str, Relation); 10] = [
        ("<=", Relation::AtMost),
        (">=", Relation::AtLeast),
        ("≤", Relation::AtMost),
        ("≥", Relation::AtLeast),
        ("<", Relation::Less),
        (">", Relation::Greater),
        (" is less than ", Relation::Less),
        (" is greater than ", Relation::Greater),
        (" is at most ", Relation::AtMost),
        (" is at least ", Relation::AtLeast),
    ];

    /// Whether two values, SI, are so related; never where one of them is not a number.
    pub fn holds(self, left: f64, right: f64) -> bool {
        // Sums of a few dozen terms, each read from decimals, differ by far less.
        let noise = 1e-9 * left.abs().max(right.abs());
        match self {
            Relation::Less => left < right - noise,
            Relation::AtMost => left <= right + noise,
            Relation::Greater => left > right + noise,
            Relation::AtLeast => left >= right - noise,
        }
    }
}

/// A condition in words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InWords {
    /// The beam sags somewhere and hogs somewhere.
    MomentChangesSign,
    /// The beam only sags or only hogs.
    MomentKeepsSign,
    /// Every support pushes up.
    ReactionsPositive,
}

impl InWords {
    /// All, in the order in which they are offered.
    pub const ALL: [InWords; 3] =
        [InWords::MomentChangesSign, InWords::MomentKeepsSign, InWords::ReactionsPositive];

    /// How it is written in a lesson file.
    pub const fn written(self) -> &'static str {
        match self {
            InWords::MomentChangesSign => "the moment changes sign",
            InWords::MomentKeepsSign => "the moment does not change sign",
            InWords::ReactionsPositive => "the reactions are positive",
        }
    }
}

/// The lesson has no working of a name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NoSuchWorking(pub String);

impl fmt::Display for NoSuchWorking {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the lesson has no working called \"{}\"", self.0)
    }
}

impl std::error::Error for NoSuchWorking {}

/// A requirement made ready for one graph, to be tried on its values again and again.
#[derive(Clone, Debug, PartialEq)]
pub struct Test(Kind);

#[derive(Clone, Debug, PartialEq)]
enum Kind {
    Compare { left: Read, relation: Relation, right: Result<Read, f64> },
    AllPositive(Vec<Id>),
    Settled(bool),
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct Read {
    id: Id,
    size: bool,
}

impl Read {
    fn from(self, values: &[f64]) -> f64 {
        let value = values.get(self.id.0 as usize).copied().unwrap_or(f64::NAN);
        if self.size { value.abs() } else { value }
    }
}

impl Requirement {
    /// Makes it ready for a graph.
    ///
    /// # Errors
    /// If the graph has no working of a name that it uses.
    pub fn over(&self, workings: &Workings) -> Result<Test, NoSuchWorking> {
        let read = |term: &Term| match workings.id(&term.name) {
            Some(id) => Ok(Read { id, size: term.size }),
            None => Err(NoSuchWorking(term.name.clone())),
        };
        let bends = |name: &str| workings.id(name).is_some();
        let both = || bends("largest sagging moment") && bends("largest hogging moment");
        Ok(Test(match &self.condition {
            Condition::Compare { left, relation, right } => Kind::Compare {
                left: read(left)?,
                relation: *relation,
                right: match right {
                    Limit::Quantity(quantity) => Err(quantity.value),
                    Limit::Working(term) => Ok(read(term)?),
                },
            },
            Condition::InWords(InWords::MomentChangesSign) => Kind::Settled(both()),
            Condition::InWords(InWords::MomentKeepsSign) => Kind::Settled(!both()),
            Condition::InWords(InWords::ReactionsPositive) => {
                let reactions = workings.in_order().filter(|(_, working)| is_reaction(&working.name));
                Kind::AllPositive(reactions.map(|(id, _)| id).collect())
            }
        }))
    }

    /// Whether a solved lesson meets it.
    ///
    /// # Errors
    /// As [`Requirement::over`].
    pub fn is_met(&self, workings: &Workings) -> Result<bool, NoSuchWorking> {
        Ok(self.over(workings)?.holds(workings.values()))
    }

    /// The dimensions of the two sides over a graph, where it compares and they differ.
    pub(crate) fn unlike(&self, workings: &Workings) -> Option<[workings::dimension::Dimension; 2]> {
        let Condition::Compare { left, right, .. } = &self.condition else { return None };
        let of = |term: &Term| workings.get(&term.name).map(|working| working.value.dimension);
        let left = of(left)?;
        let right = match right {
            // A plain zero is zero of anything.
            Limit::Quantity(quantity) if quantity.value == 0.0 => left,
            Limit::Quantity(quantity) => quantity.dimension,
            Limit::Working(term) => of(term)?,
        };
        (left != right).then_some([left, right])
    }
}

/// Whether a working of this name is the force of a support; couples have names of their own.
fn is_reaction(name: &str) -> bool {
    name.starts_with("reaction at ")
}

impl Test {
    /// Whether it holds for the values of its graph, by id, SI.
    pub fn holds(&self, values: &[f64]) -> bool {
        match &self.0 {
            Kind::Compare { left, relation, right } => {
                let right = right.map_or_else(|limit| limit, |read| read.from(values));
                relation.holds(left.from(values), right)
            }
            Kind::AllPositive(ids) => {
                ids.iter().all(|id| values.get(id.0 as usize).is_some_and(|&value| value > 0.0))
            }
            Kind::Settled(holds) => *holds,
        }
    }

    /// The workings whose values it reads.
    pub fn reads(&self) -> Vec<Id> {
        match &self.0 {
            Kind::Compare { left, right, .. } => {
                [Some(left.id), right.as_ref().ok().map(|read| read.id)].into_iter().flatten().collect()
            }
            Kind::AllPositive(ids) => ids.clone(),
            Kind::Settled(_) => Vec::new(),
        }
    }
}
