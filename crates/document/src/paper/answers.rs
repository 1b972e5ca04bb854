//! Where a student works and answers.

use super::value_words::{beside, name, place_equals, spoken_unit, symbol_equals, unit};
use crate::notes::line;
use crate::tree::{Answer, Block, Choices, Figure, Inline, Room};
use assessment::set::{Along, Alternative, Ask, ChoicePart, Part, PlacePart, ValuePart, letter};
use figure::drawing::Drawing;
use figure::paper::Letters;
use lesson::question::Sketch;
use mechanics::beam::Curve;
use workings::role::Role;
use workings::solved::Solved;

/// Room to work in for each mark, mm: about two lines written by hand. Common practice, no source.
const ROOM_A_MARK: f64 = 17.0;
/// No less room than this, mm, and no more: a quarter of a page.
const ROOM: (f64, f64) = (12.0, 75.0);

/// Room and place for the answer of a part.
pub(super) fn answered(part: &Part, solved: &Solved, letters: Letters) -> Vec<Block> {
    match &part.ask {
        Ask::Value(value) => vec![room(part, 1.0), of_value(value, solved)],
        Ask::Place(place) => vec![room(part, 0.5), of_place(place)],
        Ask::Choice(choice) => vec![room(part, 0.7), of_choice(choice, solved)],
        Ask::Sketch { sketch } => drawn(part, *sketch, solved, letters),
    }
}

/// Room for `share` of what its marks ask for.
fn room(part: &Part, share: f64) -> Block {
    let height = (share * ROOM_A_MARK * part.marks).clamp(ROOM.0, ROOM.1);
    Block::Room(Room { spoken: format!("Room to work in, {}", part.label), height })
}

fn of_value(value: &ValuePart, solved: &Solved) -> Block {
    Block::Answer(Answer {
        before: symbol_equals(value),
        behind: unit(&value.unit),
        spoken: format!("{}{}", name(&value.working, solved), spoken_unit(&value.unit)),
    })
}

fn of_place(place: &PlacePart) -> Block {
    let what = match place.along {
        Along::Beam => "station",
        Along::Depth => "height",
    };
    Block::Answer(Answer {
        before: line![place_equals(place)],
        behind: unit(&place.unit),
        spoken: format!("{what} {}{}", place_equals(place).trim_end_matches(':'), spoken_unit(&place.unit)),
    })
}

fn of_choice(choice: &ChoicePart, solved: &Solved) -> Block {
    let items = alternatives_in_words(choice, solved);
    Block::Choices(Choices { spoken: name(&choice.value.working, solved), items })
}

/// What there is to choose from, each with its letter: `a) 12.5 kN`.
pub(crate) fn alternatives_in_words(choice: &ChoicePart, solved: &Solved) -> Vec<Vec<Inline>> {
    let item = |(place, one): (usize, &Alternative)| {
        line![format!("{})\u{2002}", letter(place)), beside(one.value, &choice.value, solved)]
    };
    choice.alternatives.iter().enumerate().map(item).collect()
}

/// What a sketch is drawn on.
fn drawn(part: &Part, sketch: Sketch, solved: &Solved, letters: Letters) -> Vec<Block> {
    let on = |drawing: Option<Drawing>| drawing.map(plain_figure);
    let (drawing, share) = match sketch {
        Sketch::ShearForce => (figure::paper::along_the_beam(solved, Curve::Shear, letters), 0.35),
        Sketch::BendingMoment => (figure::paper::along_the_beam(solved, Curve::BendingMoment, letters), 0.35),
        Sketch::BendingStress => (figure::paper::over_the_depth(solved, Role::BendingStress, letters), 0.35),
        Sketch::ShearStress => (figure::paper::over_the_depth(solved, Role::ShearStress, letters), 0.35),
        Sketch::LargestShearStress => (figure::paper::outline(solved, letters), 0.7),
        // A free body is drawn from nothing.
        Sketch::PartBeyond => (None, 2.0),
    };
    on(drawing).into_iter().chain([room(part, share)]).collect()
}

/// A drawing without number and caption.
pub(crate) fn plain_figure(drawing: Drawing) -> Block {
    Block::Figure(Box::new(Figure { drawing, number: None, caption: Vec::new() }))
}
