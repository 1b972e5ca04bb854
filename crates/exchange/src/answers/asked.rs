//! What a student was asked, as far as it must be known to read the answers.

use assessment::set::{Along, AnswerUnit, Ask, Part, SetPaper, ValuePart};
use workings::dimension::Dimension;
use workings::quantity::Quantity;
use workings::role::Role;
use workings::solved::Solved;

/// A student's paper.
#[derive(Clone, Debug, PartialEq)]
pub struct PaperAsked {
    /// The student's id, as the class list has it.
    pub student: String,
    /// The number of the paper; empty where papers have none.
    pub paper: String,
    /// What is answered one by one, in the order of the paper.
    pub parts: Vec<PartAsked>,
}

/// One answer that a student gives.
#[derive(Clone, Debug, PartialEq)]
pub struct PartAsked {
    /// What it is called on the paper: `3`, `3a`.
    pub label: String,
    /// What sort of answer is expected.
    pub kind: Kind,
    /// About how large an answer is, SI, without its sign; none where that is not known. It decides between two readings of which one is
    /// absurd, and nothing else.
    pub about: Option<f64>,
    /// Where it is answered. A platform writes a dash where nothing was answered; on paper a dash alone is a sign whose number is missing.
    pub on: AskedOn,
}

/// What sort of answer is expected.
#[derive(Clone, Debug, PartialEq)]
pub enum Kind {
    /// A number.
    Value {
        /// The unit that the question asks for.
        unit: AnswerUnit,
        /// Which words say which sign.
        signs: Signs,
    },
    /// One of several values.
    Choice {
        /// The unit of all of them.
        unit: AnswerUnit,
        /// The values in the order in which they are told.
        values: Vec<Chosen>,
    },
    /// A drawing by hand.
    Drawing,
}

/// One of several values.
#[derive(Clone, Debug, PartialEq)]
pub struct Chosen {
    /// The value, SI.
    pub value: f64,
    /// As the paper prints it: `721 MPa`.
    pub printed: String,
}

/// Which words behind a number say which sign, by the conventions of [`assessment::set`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Signs {
    /// A reaction: up is positive.
    Upward,
    /// A couple at a support: counter-clockwise is positive.
    CounterClockwise,
    /// A bending moment: sagging is positive.
    Sagging,
    /// A normal stress or its resultant: tension is positive.
    Tension,
    /// A station: it is counted from the left end.
    FromTheLeft,
    /// A height: it is counted from the lowest fibre.
    FromTheBottom,
    /// No word says a sign: of a shear force "up" says nothing without the face on which it acts.
    None,
}

impl Signs {
    fn of(role: Role) -> Self {
        match role {
            Role::Reaction => Self::Upward,
            Role::ReactionCouple => Self::CounterClockwise,
            Role::BendingMoment => Self::Sagging,
            Role::BendingStress | Role::StressResultant => Self::Tension,
            _ => Self::None,
        }
    }
}

/// Which unit a student was asked for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum AskedOn {
    /// The unit that is printed behind the answer on a paper.
    #[default]
    Paper,
    /// The unit for answers that are typed on a platform.
    Platform,
}

impl PaperAsked {
    /// What a paper asks.
    pub fn of(set: &SetPaper, student: &str, paper: &str, on: AskedOn) -> Self {
        let parts = set.parts().map(|part| PartAsked::of(part, &set.solved, on)).collect();
        Self { student: student.to_owned(), paper: paper.to_owned(), parts }
    }
}

impl Chosen {
    fn of(value: f64, part: &ValuePart, solved: &Solved) -> Self {
        let found = solved.workings().get(&part.working);
        let quantity = Quantity::new(value, found.map_or(Dimension::NONE, |working| working.value.dimension));
        let printed = solved.style().show_beside(quantity, part.symbol.role, part.right).text();
        Self { value, printed }
    }
}

impl PartAsked {
    /// What a part asks of a lesson.
    pub fn of(part: &Part, solved: &Solved, on: AskedOn) -> Self {
        let unit = |paper: &AnswerUnit, typed: &AnswerUnit| match on {
            AskedOn::Paper => paper.clone(),
            AskedOn::Platform => typed.clone(),
        };
        let kind = match &part.ask {
            Ask::Value(value) => Kind::Value {
                unit: unit(&value.unit, &value.typed_unit),
                signs: Signs::of(value.symbol.role),
            },
            Ask::Place(place) => Kind::Value {
                unit: unit(&place.unit, &place.typed_unit),
                signs: match place.along {
                    Along::Beam => Signs::FromTheLeft,
                    Along::Depth => Signs::FromTheBottom,
                },
            },
            Ask::Choice(choice) => Kind::Choice {
                unit: choice.unit().clone(),
                values: choice
                    .alternatives
                    .iter()
                    .map(|one| Chosen::of(one.value, &choice.value, solved))
                    .collect(),
            },
            Ask::Sketch { .. } => Kind::Drawing,
        };
        let about = match &part.ask {
            Ask::Value(value) => Some(value.right.abs()),
            Ask::Place(_) | Ask::Choice(_) | Ask::Sketch { .. } => None,
        };
        Self { label: part.label.clone(), kind, about, on }
    }
}
