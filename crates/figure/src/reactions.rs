//! Reactions: green, heavier than loads, in their true direction.

use crate::arrow;
use crate::drawing::Mark;
use crate::geometry::Point;
use crate::label::{Escape, Seat, Wish};
use crate::palette::{HEAVY, Ink, Stroke};
use crate::scale::ArrowScale;
use crate::scribe::Scribe;
use crate::support::BeamPlace;
use crate::text::Label;
use mechanics::beam::Reaction;
use workings::dimension::Dimension;
use workings::role::Role;

/// The stroke of a reaction.
const REACTION: Stroke = Stroke::solid(Ink::Reaction, HEAVY);

/// Marks and the labels that they want.
#[derive(Default)]
pub struct Reactions {
    /// The marks.
    pub marks: Vec<Mark>,
    /// The labels.
    pub wishes: Vec<Wish>,
}

/// How a value with its sign is written beside an arrow that shows the direction: `R = 3 kN`, and `|R| = 3 kN`
/// where the value is negative, so that arrow and equation say the same. A name in words stands without an
/// equals sign.
pub fn sized(symbol: Label, value: f64, size: Label) -> Label {
    let is_words = symbol.runs.first().is_some_and(|run| !run.italic && run.text.chars().count() > 1);
    if is_words {
        symbol.and_words("\u{a0}").followed_by(size)
    } else if value < 0.0 {
        Label::words("|").followed_by(symbol).and_words("|").equals(size)
    } else {
        symbol.equals(size)
    }
}

/// Where a reaction stands.
#[derive(Clone, Copy, Debug)]
pub struct Stand<'a> {
    /// The name of its support.
    pub name: &'a str,
    /// Its station, px.
    pub x: f64,
    /// Where along the beam that is.
    pub place: BeamPlace,
    /// The force stands below this, px.
    pub top: f64,
    /// Radius of the arc of the couple, px.
    pub radius: f64,
}

impl Reactions {
    /// Adds the reaction of one support.
    pub fn add(&mut self, reaction: &Reaction, stand: Stand<'_>, scale: ArrowScale, scribe: Scribe<'_>) {
        let Stand { name, x, top, .. } = stand;
        if reaction.force != 0.0 {
            let length = scale.px(reaction.force).max(arrow::head_length(REACTION) + 6.0);
            let (high, low) = (Point::new(x, top), Point::new(x, top + length));
            let (tail, tip) = if reaction.force > 0.0 { (low, high) } else { (high, low) };
            self.marks.extend(arrow::straight(tail, tip, REACTION));
            let size = scribe.value(reaction.force.abs(), Dimension::FORCE, Role::Reaction);
            let label = sized(scribe.symbol(Role::Reaction, name), reaction.force, size);
            let middle = high.towards(low, 0.6);
            self.wishes.push(
                Wish::new(label, low)
                    .seats(&[Seat::Below], Escape::Down)
                    .or(middle, Seat::Right)
                    .or(middle, Seat::Left)
                    .gap(3.0)
                    .ink(Ink::Reaction),
            );
        }
        if reaction.couple != 0.0 {
            self.couple(reaction, stand, scribe);
        }
    }

    fn couple(&mut self, reaction: &Reaction, stand: Stand<'_>, scribe: Scribe<'_>) {
        let Stand { name, x, place, radius, .. } = stand;
        let centre = Point::new(x, 0.0);
        let sense = reaction.couple.signum();
        // the middle of the arc, in degrees, lies away from the beam
        let (middle, half): (f64, f64) = match place {
            BeamPlace::LeftEnd => (180.0, 120.0),
            BeamPlace::RightEnd => (0.0, 120.0),
            BeamPlace::Inside => (90.0, 130.0),
        };
        let (middle, half) = (middle.to_radians(), half.to_radians());
        let (from, turn) = (middle - sense * half, sense * 2.0 * half);
        self.marks.push(Mark::Arc { centre, radius, from, turn, stroke: Stroke::solid(Ink::Paper, 4.5) });
        self.marks.extend(arrow::turning(centre, radius, from, turn, REACTION));
        let size = scribe.value(reaction.couple.abs(), Dimension::MOMENT, Role::ReactionCouple);
        let label = sized(scribe.symbol(Role::ReactionCouple, name), reaction.couple, size);
        let side = if place == BeamPlace::RightEnd { 1.0 } else { -1.0 };
        let (upper, lower) = (
            Point::new(x + side * radius * 0.5, -radius - 3.0),
            Point::new(x + side * radius * 0.5, radius + 3.0),
        );
        let (above, below, beside) = if side < 0.0 {
            (Seat::AboveLeft, Seat::BelowLeft, Seat::Left)
        } else {
            (Seat::AboveRight, Seat::BelowRight, Seat::Right)
        };
        self.wishes.push(
            Wish::new(label, upper)
                .seats(&[Seat::Above, above], Escape::Up)
                .or(lower, Seat::Below)
                .or(lower, below)
                .or(Point::new(x + side * radius, 0.0), beside)
                .gap(4.0)
                .ink(Ink::Reaction),
        );
    }
}
