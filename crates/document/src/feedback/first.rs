//! The first step that went wrong: what was done, why it is wrong, the drawing that shows it, and how the step goes.

use super::answer::{as_read, right};
use super::cause::cause;
use super::teaches::{drawing_that_teaches, what_it_shows};
use super::verdict::{not_right, several, unknown};
use super::{Context, One};
use crate::notes::{Author, Drawings, line};
use crate::paper::value_words::place_equals;
use crate::paper::worked::right_places;
use crate::tree::{Block, Figure, Inline};
use assessment::mark::{Cause, Verdict};
use assessment::review::{mistakes, wrong_answers};
use assessment::set::Ask;
use workings::working::{Formula, Id};

/// The first step that went wrong.
pub(super) struct First<'a> {
    one: One<'a>,
    /// The working at which it went wrong: where the mistake was made if that is known, else what was asked for.
    working: Id,
    /// The id of the mistake, or the name of the slip; none where nothing explains it.
    mistake: Option<String>,
    /// The labels of all wrong answers, in the order in which the solution finds them.
    in_order: Vec<String>,
}

impl<'a> First<'a> {
    /// As the review of the class counts it; none where nothing went wrong.
    pub(super) fn of(context: &Context<'a>) -> Option<Self> {
        let mut wrong = wrong_answers(&[context.as_marked()]);
        let first = mistakes(&wrong).first.into_iter().next()?;
        wrong.sort_by_key(|answer| answer.order);
        let in_order = wrong.into_iter().map(|answer| answer.item).collect();
        let one = *context.one(&first.item)?;
        let working = context.solved().workings().id(&first.working)?;
        Some(Self { one, working, mistake: first.mistake, in_order })
    }

    /// Labels of answers in the order in which the solution finds them.
    pub(super) fn in_order<'l>(&self, mut labels: Vec<&'l str>) -> Vec<&'l str> {
        // Stable: what is not wrong stays behind in the order of the paper.
        labels
            .sort_by_key(|label| self.in_order.iter().position(|other| other == label).unwrap_or(usize::MAX));
        labels
    }

    /// Whether an answer that is wrong too stands before it on the paper, though not in the solution.
    pub(super) fn is_behind_another(&self, context: &Context<'_>) -> bool {
        let before = context.ones.iter().take_while(|one| !self.is(one));
        before.filter(|one| one.is_wrong()).count() > 0
    }

    /// Whether it went wrong in this answer.
    pub(super) fn is(&self, one: &One<'_>) -> bool {
        self.one.label() == one.label()
    }

    /// Whether another answer is wrong for a reason of its own: it is known for something else than this, or nothing leads from here to it.
    pub(super) fn is_beside(&self, other: &One<'_>, context: &Context<'_>) -> bool {
        other.is_wrong() && !self.is(other) && !self.may_lead_to(other, context)
    }

    /// Whether what went wrong here may be all that is wrong in another answer, which is wrong too: the same was done there, or nobody knows
    /// what was, and it is found from this.
    pub(super) fn may_lead_to(&self, other: &One<'_>, context: &Context<'_>) -> bool {
        if self.is(other) {
            return false;
        }
        match other.judged.verdict.explanations() {
            [] => self.is_before(other, context),
            told => {
                let own = self.one.judged.verdict.explanations();
                told.iter().any(|told| own.iter().any(|own| is_of_one_cause(&own.cause, &told.cause)))
            }
        }
    }

    /// Whether another answer is found from what went wrong here.
    fn is_before(&self, other: &One<'_>, context: &Context<'_>) -> bool {
        let workings = context.solved().workings();
        let Some(asked) = other.about().and_then(|name| workings.id(name)) else { return false };
        asked != self.working
            && workings.downstream(&[self.working]).get(asked.0 as usize).copied().unwrap_or(false)
    }

    pub(super) fn one(&self) -> &One<'a> {
        &self.one
    }

    /// Whether it is known why.
    pub(super) fn is_explained(&self) -> bool {
        !self.one.judged.verdict.explanations().is_empty()
    }

    /// Whether nothing but the rounding is wrong.
    pub(super) fn is_rounding(&self) -> bool {
        matches!(&self.one.judged.verdict, Verdict::Explained(why) if why.cause == Cause::RoundedEarly)
    }

    /// All that is told of it.
    pub(super) fn blocks(&self, context: &Context<'a>) -> Vec<Block> {
        let one = &self.one;
        let title = format!("The first step that went wrong: question {}", one.label());
        let mut blocks = vec![Block::Heading { level: 1, text: line![title] }];
        let mut words = line![
            Inline::Strong(line![format!("{} ", not_right(one))]),
            format!("For the {} you gave ", context.name(one))
        ];
        words.extend(as_read(context, one));
        words.push("; right is ".into());
        words.extend(right(context, one));
        words.push(".".into());
        blocks.push(Block::Paragraph(words));
        match &one.judged.verdict {
            Verdict::Explained(explanation) => blocks.extend(cause(context, one, explanation)),
            Verdict::Ambiguous { candidates } => blocks.extend(several(context, one, candidates)),
            other => blocks.push(Block::Paragraph(unknown(other.guesses()))),
        }
        if !self.is_rounding() {
            blocks.extend(self.step(context));
            blocks.extend(drawing_of(self.mistake.as_deref(), self.working, context));
        }
        blocks
    }

    /// How the step goes.
    fn step(&self, context: &Context<'a>) -> Vec<Block> {
        let (paper, workings) = (context.sheet.paper, context.solved().workings());
        if workings.working(self.working).formula == Formula::Given {
            return Vec::new();
        }
        let mut author = Author::new(&paper.lesson, &paper.solved, Drawings::default());
        // A heading does not stay behind at the foot of a page. Only the solution below numbers its equations.
        let mut blocks =
            vec![Block::Heading { level: 3, text: line!["How this step goes, with your numbers"] }];
        blocks.extend(author.step_again(self.working));
        if let Ask::Place(asked) = &self.one.part.ask {
            let mut words = line!["It occurs "];
            words.extend(right_places(asked));
            words.push(format!(" {}.", place_equals(asked).trim_end_matches(':')).into());
            blocks.push(Block::Paragraph(words));
        }
        blocks
    }
}

/// Whether two answers went wrong by one mistake. A slip in writing one of them is not that in another.
fn is_of_one_cause(one: &Cause, other: &Cause) -> bool {
    one.mistakes().iter().any(|made| other.mistakes().contains(made))
}

/// The drawing that teaches against a mistake at a working; none where there is none for it.
pub(super) fn drawing_of(mistake: Option<&str>, working: Id, context: &Context<'_>) -> Option<Block> {
    let solved = context.solved();
    let name = drawing_that_teaches(mistake, solved.workings().working(working), solved)?;
    let drawing =
        figure::some_on(solved, context.letters.sheet(), |other| other == name).into_iter().next()?;
    let caption = line![what_it_shows(name)];
    Some(Block::Figure(Box::new(Figure { drawing, number: None, caption })))
}
