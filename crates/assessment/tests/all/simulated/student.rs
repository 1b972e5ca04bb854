//! How a student works.

use super::chance::Chance;
use super::truth::{Truth, truth};
use super::{Paper, Value};
use assessment::mark::{Answer, Written};
use workings::engine::Call;
use workings::evaluate::{Evaluator, Replacement};
use workings::rounding::Figures;
use workings::working::{Formula, Id};

/// What a student rounds before going on with it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Habit {
    /// Nothing: all figures stay in the calculator.
    Nothing,
    /// Every step.
    EveryStep,
    /// One step and not another.
    SomeSteps,
    /// Every step, to one figure fewer than the course asks for.
    EveryStepTooEarly,
}

/// What is done wrong on a sheet.
#[derive(Clone, Debug)]
pub enum Deed {
    Nothing,
    /// Mistakes of the catalogue, by their places.
    Mistakes(Vec<usize>),
    /// A mistake, and a slip in writing the first answer that it shows in.
    MistakeAndSlip(usize, f64),
    /// A slip in writing down the answer of a part; whether the student goes on with what was written.
    Slip {
        value: usize,
        factor: f64,
        goes_on: bool,
    },
    /// An answer of a part is off by a factor that no formula explains, and the student goes on with it.
    Arithmetic {
        value: usize,
        factor: f64,
    },
    /// Numbers of no meaning.
    Nonsense {
        values: Vec<usize>,
    },
}

/// An answer of a sheet, and what it truly is.
pub struct Given {
    pub label: String,
    pub answer: Answer,
    pub truth: Truth,
    pub number: f64,
    pub deed: Deed,
}

/// A sheet of answers.
pub fn sheet(paper: &Paper, chance: &mut Chance) -> Vec<Given> {
    let habit = habit(chance);
    let value = chance.below(paper.values.len());
    let mistake = chance.below(paper.mistakes.len());
    let other = chance.below(paper.mistakes.len());
    let (habit, deed) = match chance.below(100) {
        0..30 => (habit, Deed::Nothing),
        30..35 => (Habit::EveryStepTooEarly, Deed::Nothing),
        35..60 => (habit, Deed::Mistakes(vec![mistake])),
        60..68 => (habit, Deed::Mistakes(vec![mistake, other])),
        68..73 => (habit, Deed::MistakeAndSlip(mistake, slip(chance))),
        73..83 => (habit, Deed::Slip { value, factor: slip(chance), goes_on: chance.below(2) == 0 }),
        83..90 => {
            let factor = (1.1 + chance.share()) * if chance.below(2) == 0 { 1.0 } else { 0.5 };
            (habit, Deed::Arithmetic { value, factor })
        }
        90..97 => (habit, Deed::Nonsense { values: vec![value] }),
        _ => (habit, Deed::Nonsense { values: (0..paper.values.len()).collect() }),
    };
    answers(paper, habit, &deed, chance)
}

/// Two of ten round some steps and not others.
pub fn habit(chance: &mut Chance) -> Habit {
    match chance.below(10) {
        0..4 => Habit::Nothing,
        4..8 => Habit::EveryStep,
        _ => Habit::SomeSteps,
    }
}

/// Signs, lost powers of ten, N for kN and mm for m.
fn slip(chance: &mut Chance) -> f64 {
    *chance.one_of(&[-1.0, -1.0, 10.0, 0.1, 100.0, 0.01, 1e3, 1e-3, 1e3, 1e-3])
}

/// The answers of a student of this habit who does that.
pub fn answers(paper: &Paper, habit: Habit, deed: &Deed, chance: &mut Chance) -> Vec<Given> {
    let made: Vec<usize> = match deed {
        Deed::Mistakes(made) => made.clone(),
        Deed::MistakeAndSlip(made, _) => vec![*made],
        _ => Vec::new(),
    };
    let mut replaced: Vec<(Id, Replacement)> =
        made.iter().flat_map(|&mistake| paper.mistakes[mistake].replacements()).collect();
    let right = worked(paper, &[], Habit::Nothing, chance);
    // What the student goes on with where it is none of the graph's doing.
    match deed {
        Deed::Arithmetic { value, factor } | Deed::Slip { value, factor, goes_on: true } => {
            let Value { id, right, .. } = paper.values[*value];
            let wrong = rounded(right * factor, &paper.values[*value], paper.figures).0;
            replaced.push((id, Replacement::Value(wrong)));
        }
        _ => {}
    }
    let found = worked(paper, &replaced, habit, chance);
    let exact = worked(paper, &replaced, Habit::Nothing, chance);
    let mut given = Vec::new();
    let mut told = Vec::new();
    let mut slipped = false;
    for (at, value) in paper.values.iter().enumerate() {
        let place = value.id.0 as usize;
        let mut truth = truth(paper, value, &made, &exact, &right, &told);
        let mut number = found[place];
        match deed {
            Deed::Slip { value, factor, goes_on } if *value == at => {
                if !goes_on {
                    number *= factor;
                }
                truth = Truth::Slip(*factor);
            }
            Deed::Arithmetic { value, .. } if *value == at => truth = Truth::Arithmetic,
            Deed::Nonsense { values } if values.contains(&at) => {
                number = nonsense(value, paper.figures, chance);
                let near = (number - value.right).abs() <= value.judgement.carried_early.band;
                truth = if near { Truth::NonsenseNearRight } else { Truth::Nonsense };
            }
            Deed::MistakeAndSlip(_, factor) if !slipped && truth != Truth::Right => {
                slipped = true;
                number *= factor;
                if let Truth::Mistake { made, separable } = truth {
                    truth = Truth::MistakeAndSlip { made, separable };
                }
            }
            _ => {}
        }
        if habit == Habit::EveryStepTooEarly && truth == Truth::Right {
            truth = Truth::RoundedEarly;
        }
        if !number.is_finite() {
            continue;
        }
        let (number, half_place) = rounded(number, value, paper.figures);
        told.push((value.id, exact[place], truth.clone()));
        let answer = Answer::Value(Written::new(number, Some(half_place)).expect("a finite number"));
        given.push(Given { label: value.label.clone(), answer, truth, number, deed: deed.clone() });
    }
    given
}

/// The values of the graph as a student of this habit finds them, SI.
fn worked(paper: &Paper, replaced: &[(Id, Replacement)], habit: Habit, chance: &mut Chance) -> Vec<f64> {
    let solved = &paper.set.solved;
    let workings = solved.workings();
    let is_given = |formula: &Formula| match formula {
        Formula::Given => true,
        Formula::Engine { call, .. } => matches!(call, Call::Fixed),
        Formula::Expression(_) => false,
    };
    let given = workings.in_order().filter(|(_, working)| is_given(&working.formula));
    let all: Vec<(Id, Replacement)> = given
        .map(|(id, _)| (id, Replacement::Value(solved.value(id))))
        .chain(replaced.iter().cloned())
        .collect();
    let prepared = workings.prepare(&all).expect("formulas of ours");
    let figures = match (habit, paper.figures) {
        (Habit::EveryStepTooEarly, Figures::Significant(count)) => Figures::Significant(count - 1),
        // Two, and three where the first is 1.
        (Habit::EveryStepTooEarly, _) => Figures::Significant(0),
        (_, figures) => figures,
    };
    let mut evaluator = Evaluator::new(workings);
    let found = evaluator.run_settling(&prepared, |id, value| {
        let rounds = match habit {
            Habit::Nothing => false,
            Habit::SomeSteps => chance.below(2) == 0,
            Habit::EveryStep | Habit::EveryStepTooEarly => true,
        };
        if !rounds || value == 0.0 || !value.is_finite() {
            return value;
        }
        let working = workings.working(id);
        let unit = solved.style().show(working.value, working.symbol.role).unit.in_si();
        to_figures(value / unit, figures).0 * unit
    });
    found.to_vec()
}

/// An answer written to the figures of the course, and half a unit of its last one, SI.
pub fn rounded(value: f64, part: &Value, figures: Figures) -> (f64, f64) {
    let (number, half_place) = to_figures(part.unit.from_si(value), figures);
    (part.unit.to_si(number), half_place * part.unit.in_si())
}

/// A number to so many figures (none: two, and three where the first is 1), and half a unit of the last of them; by its digits.
fn to_figures(number: f64, figures: Figures) -> (f64, f64) {
    let first_is_1 = format!("{:.12e}", number.abs()).starts_with('1');
    let count = match figures {
        Figures::Significant(0) => 2 + usize::from(first_is_1),
        Figures::Significant(count) => usize::from(count),
        _ => 3 + usize::from(first_is_1),
    };
    let text = format!("{number:.*e}", count - 1);
    let decade: i32 = text.split_once('e').and_then(|(_, decade)| decade.parse().ok()).unwrap_or(0);
    (text.parse().unwrap_or(number), 0.5 * 10_f64.powi(decade - count as i32 + 1))
}

/// A number of no meaning: log-uniform over two decades to both sides of the size of the right value, of any sign, and not right.
fn nonsense(value: &Value, figures: Figures, chance: &mut Chance) -> f64 {
    loop {
        let size = value.right.abs() * mechanics::real::pow(10.0, 4.0 * chance.share() - 2.0);
        let number = if chance.below(2) == 0 { size } else { -size };
        let number = rounded(number, value, figures).0;
        if !value.judgement.accepts(number) {
            return number;
        }
    }
}
