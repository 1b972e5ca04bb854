//! How a question is worded: the lecturer's own words with each paper's values filled in, or words made from what is
//! asked.

use crate::markdown;
use crate::meant::{meant, named_closer};
use crate::notes::line;
use crate::paper::value_words::name as in_the_words_of;
use crate::symbols::Symbols;
use crate::tree::{Block, Inline};
use lesson::question::{Ask, AskedValue, Piece, Sketch, pieces};
use lesson::{Lesson, NamedValue, Question};
use workings::dimension::Dimension;
use workings::expression::Expression;
use workings::role::Role;
use workings::solved::Solved;
use workings::style::Style;
use workings::working::{Formula, Id, Working};

/// A question of a lesson in words.
pub fn worded(question: &Question, lesson: &Lesson, solved: &Solved) -> Vec<Block> {
    let mut blocks = match &question.text {
        Some(text) => {
            let mut blocks = markdown::blocks(text);
            blocks.iter_mut().for_each(|block| fill(block, lesson, solved));
            blocks
        }
        None => vec![Block::Paragraph(made(question, solved))],
    };
    Symbols::of(solved).set(&mut blocks);
    blocks
}

/// Fills in the values of the names in braces.
fn fill(block: &mut Block, lesson: &Lesson, solved: &Solved) {
    match block {
        Block::Heading { text, .. } | Block::Paragraph(text) => fill_line(text, lesson, solved),
        Block::List { items, .. } => {
            items.iter_mut().flatten().for_each(|block| fill(block, lesson, solved));
        }
        Block::Quote(inner) => inner.iter_mut().for_each(|block| fill(block, lesson, solved)),
        // The lecturer's Markdown makes no other blocks.
        _ => {}
    }
}

fn fill_line(line: &mut Vec<Inline>, lesson: &Lesson, solved: &Solved) {
    let filled = std::mem::take(line).into_iter().flat_map(|inline| match inline {
        Inline::Text(words) => pieces(&words).map(|piece| filled(piece, lesson, solved)).collect(),
        Inline::Strong(mut inner) => {
            fill_line(&mut inner, lesson, solved);
            vec![Inline::Strong(inner)]
        }
        Inline::Emphasis(mut inner) => {
            fill_line(&mut inner, lesson, solved);
            vec![Inline::Emphasis(inner)]
        }
        other => vec![other],
    });
    *line = filled.collect();
}

fn filled(piece: Piece<'_>, lesson: &Lesson, solved: &Solved) -> Inline {
    match piece {
        Piece::Words(words) => Inline::text(words),
        Piece::Name(name) => {
            let named = lesson.values.iter().find(|value| value.name == name);
            let value = named.map(|value| Inline::Given(value.quantity, role(value, solved.style())));
            let working = || solved.workings().get(name).map(shown);
            value.or_else(working).unwrap_or_else(|| Inline::text(format!("{{{name}}}")))
        }
    }
}

fn shown(working: &Working) -> Inline {
    match working.formula {
        Formula::Given => Inline::Given(working.value, working.symbol.role),
        Formula::Expression(_) | Formula::Engine { .. } => {
            Inline::Quantity(working.value, working.symbol.role)
        }
    }
}

/// What a named value is shown as: only its dimension tells, and of a length the unit that the lecturer took.
fn role(value: &NamedValue, style: &Style) -> Role {
    match value.quantity.dimension {
        Dimension::FORCE => Role::PointForce,
        Dimension::MOMENT => Role::Couple,
        Dimension::FORCE_PER_LENGTH => Role::SpreadLoad,
        Dimension::STRESS => Role::BendingStress,
        Dimension::LENGTH => {
            let along = style.unit(Role::Length, Dimension::LENGTH).text();
            let unit =
                value.written.trim_start_matches(|c: char| c.is_ascii_digit() || matches!(c, '.' | ' '));
            if unit == along { Role::Length } else { Role::Breadth }
        }
        _ => Role::Ratio,
    }
}

/// The words of a question that has none of its own.
fn made(question: &Question, solved: &Solved) -> Vec<Inline> {
    match &question.ask {
        Ask::Value(value) => find(value, solved),
        Ask::Sketch(sketch) => draw(*sketch, solved),
    }
}

fn find(value: &AskedValue, solved: &Solved) -> Vec<Inline> {
    let mut line = Vec::new();
    let mut names = Names { solved, slice_is_told: false };
    match (value.choose, value.steps.as_slice()) {
        (Some(_), []) => line.extend(line!["Which of these is "]),
        (_, []) => line.extend(line!["Find "]),
        (choose, steps) => {
            line.extend(line!["Find "]);
            for (place, step) in steps.iter().enumerate() {
                if place > 0 {
                    line.push(if place + 1 == steps.len() { " and " } else { ", " }.into());
                }
                line.extend(names.named(step));
            }
            line.push(if choose.is_some() { "; then choose " } else { "; from " }.into());
            if choose.is_none() {
                line.push(if steps.len() == 1 { "it find " } else { "them find " }.into());
            }
        }
    }
    line.extend(names.named(&value.working));
    let place = solved.workings().get(&value.working).map(|working| working.place);
    if value.place && place.is_some_and(|place| place.station.is_some()) {
        line.push(", and the station where it occurs".into());
    } else if value.place {
        line.push(", and the height at which it occurs".into());
    }
    let asks = value.choose.is_some() && value.steps.is_empty();
    line.push(if asks { "?" } else { "." }.into());
    // Once for all that need it alike.
    let mut meanings: Vec<Vec<Inline>> = Vec::new();
    for name in value.steps.iter().chain([&value.working]) {
        let meaning = solved.workings().id(name).and_then(|id| meant(solved, id));
        meanings.extend(meaning.filter(|meaning| !meanings.contains(meaning)));
    }
    line.extend(meanings.into_iter().flatten());
    line
}

/// What is asked for, by name and symbol.
struct Names<'a> {
    solved: &'a Solved,
    /// Whether the question has told that the slice is meant.
    slice_is_told: bool,
}

impl Names<'_> {
    /// `the shear stress on the cut (τ) at the slice, x = 1.2 m`; of the slice only the first time.
    fn named(&mut self, name: &str) -> Vec<Inline> {
        let workings = self.solved.workings();
        let mut line = line![format!("the {}", in_the_words_of(name, self.solved))];
        let Some(id) = workings.id(name) else { return line };
        let working = workings.working(id);
        line.extend(line![" (", Inline::Math(Expression::Symbol(working.symbol.clone())), ")"]);
        if let Some(closer) = named_closer(self.solved, id) {
            line.push(format!(", {closer}").into());
        }
        self.slice_is_told |=
            ["at the slice", " left face", " right face"].iter().any(|place| name.contains(place));
        let station = workings.get("station of the slice").filter(|_| belongs_to_the_slice(self.solved, id));
        if let Some(station) = station.filter(|_| !self.slice_is_told) {
            let given = Expression::Given(station.value, station.symbol.role);
            let equal = Expression::Equal(vec![Expression::Symbol(station.symbol.clone()), given]);
            line.extend(line![" at the slice, ", Inline::Math(equal)]);
            self.slice_is_told = true;
        }
        line
    }
}

/// Whether a value is that of the slice, and another elsewhere along the beam: it follows from the shear force or the bending moment
/// there, and these do not fall out of it, as they do of the place of a shear centre.
pub(crate) fn belongs_to_the_slice(solved: &Solved, id: Id) -> bool {
    let workings = solved.workings();
    let inner = [solved.key().shear, solved.key().moment];
    let follows = workings.downstream(&inner).get(id.0 as usize).copied().unwrap_or(false);
    let working = workings.working(id);
    let of_the_section = matches!(working.value.dimension, Dimension::LENGTH | Dimension::NONE)
        && !matches!(working.symbol.role, Role::Spacing | Role::PrincipalAngle | Role::Utilisation);
    follows && !of_the_section
}

fn draw(sketch: Sketch, solved: &Solved) -> Vec<Inline> {
    let station = || solved.workings().get("station of the slice").map(shown);
    let over_the_depth = |what: &str| {
        let mut line = line![format!("Draw the {what} over the depth")];
        if let Some(station) = station() {
            line.extend(line![" at ", station]);
        }
        line.push(". Mark its values at the top, at the bottom, and wherever it jumps or is largest.".into());
        line
    };
    let along = |what: &str| {
        line![format!(
            "Draw the {what} along the beam. Mark its values at the supports and loads, and wherever it jumps, passes \
             through zero or is largest."
        )]
    };
    match sketch {
        Sketch::ShearForce => along("shear force"),
        Sketch::BendingMoment => along("bending moment"),
        Sketch::BendingStress => over_the_depth("bending stress"),
        Sketch::ShearStress => over_the_depth("shear stress"),
        Sketch::LargestShearStress => {
            line!["Mark on the section where over the depth the shear stress is largest, and say why there."]
        }
        Sketch::PartBeyond => {
            line![
                "Draw the part of the slice beyond the cut as a free body, with everything that acts on it along the beam."
            ]
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tree::plain;

    fn worded_as(more: &str) -> Vec<String> {
        let builtin = lesson::builtin::find("conveyor").expect("a lesson of ours").text;
        let text = format!("{builtin}\n[[question]]\n{more}\n");
        let reading = lesson::read(&text, "conveyor.toml");
        let findings: Vec<String> = reading.findings.iter().map(|finding| finding.render(false)).collect();
        let (Some(lesson), Some(solved)) = (reading.lesson, reading.solved) else { panic!("{findings:?}") };
        let question = lesson.questions.last().expect("the question that was added");
        let blocks = worded(question, &lesson, &solved);
        let line = |block: &Block| match block {
            Block::Paragraph(line) => plain(line, solved.style()),
            other => panic!("{other:?}"),
        };
        blocks.iter().map(line).collect()
    }

    #[test]
    fn a_question_without_words_gets_some() {
        for (ask, expected) in [
            ("ask = \"reaction at A\"", "Find the reaction at A (R_A)."),
            (
                "ask = \"shear stress on the cut\"\nsteps = [\"second moment\", \"first moment at the cut\"]",
                "Find the moment of inertia (I) and the first moment at the cut (Q); from them find the shear stress on the cut (\u{3c4}) at \
                 the slice, x = 0.5\u{a0}m.",
            ),
            ("ask = \"largest hogging moment\"", "Find the largest hogging moment (M_min), with its sign."),
            ("ask = \"second moment\"\nchoose = 4", "Which of these is the moment of inertia (I)?"),
            (
                "ask = \"largest shear force\"\nplace = true",
                "Find the largest shear force (V_max), and the station where it occurs.",
            ),
        ] {
            assert_eq!(worded_as(ask), [expected]);
        }
        // What holds at the slice says so, once; what holds elsewhere, or all along, does not.
        for (ask, expected) in [
            ("ask = \"shear force at the slice\"", 0),
            (
                "ask = \"largest shear stress over the depth\"\nsteps = [\"shear stress at the neutral axis\"]",
                1,
            ),
            ("ask = \"largest shear stress along the beam\"", 0),
            ("ask = \"largest sagging moment\"", 0),
            ("ask = \"ratio of the largest shear stress to the mean\"", 0),
        ] {
            let told = worded_as(ask)[0].matches(" at the slice, x").count();
            assert_eq!(told, expected, "{ask}: {:?}", worded_as(ask));
        }
        assert!(worded_as("sketch = \"shear stress\"")[0].contains(" over the depth at "));
    }

    #[test]
    fn names_in_braces_are_filled_in() {
        let all = worded_as(
            "ask = \"reaction at A\"\ntext = \"With {w} over *{L}*,\\n\\nuse {{I}: {second moment}.\"",
        );
        assert_eq!(
            all,
            ["With 8\u{a0}kN/m over 4\u{a0}m,", "use {I}: 6.25\u{d7}10\u{2076}\u{a0}mm\u{2074}."]
        );
    }
}
