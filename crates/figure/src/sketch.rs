//! The beam itself with what stands about it, laid out about its axis at y = 0: shared by every drawing that
//! shows the beam.

use crate::beam_grips;
use crate::drawing::{Mark, bounds};
use crate::geometry::{Point, Rect};
use crate::grip::Grip;
use crate::label::{Escape, Placer, Seat, Wish};
use crate::loads;
use crate::palette::{Ink, MEDIUM, Stroke};
use crate::reactions::{Reactions, Stand};
use crate::scale::{ArrowScale, HALF_DEPTH, point_forces};
use crate::support::{self, BeamPlace, WALL_HALF};
use crate::text::Label;
use crate::view::BeamView;
use crate::{chain, loads::FORCE_ARROWS};
use mechanics::beam::{Hold, Reaction};
use workings::dimension::Dimension;
use workings::role::Role;

/// Half the size of a handle on the board, px.
const HANDLE: f64 = 5.0;

/// Which dimensions stand below a sketch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dimensions {
    /// None.
    None,
    /// The chain of distances and the whole length.
    Chain,
    /// The same, the whole length being that of the piece left of the slice.
    Piece,
}

/// What a sketch shows besides the beam and its loads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shows {
    /// The signs of the supports.
    pub supports: bool,
    /// The reactions, with their values.
    pub reactions: bool,
    /// The dimensions.
    pub dimensions: Dimensions,
    /// The slice.
    pub slice: bool,
}

/// A sketch of the beam.
pub struct Sketch {
    /// The marks, labels included, in groups.
    pub marks: Vec<Mark>,
    /// What of it can be dragged: loads, and what is shown of supports and slice.
    pub grips: Vec<Grip>,
    /// Whether an arrow had to be drawn longer than its scale has it.
    pub stretched: bool,
}

/// Draws the beam about the axis y = 0; labels are placed by `placer`, which may know of other marks.
pub fn sketch(view: &BeamView<'_>, reactions: &[Reaction], shows: Shows, placer: &mut Placer) -> Sketch {
    let problem = view.problem;
    let along = view.along();
    let scale = ArrowScale::new(
        point_forces(&problem.beam)
            .chain(reactions.iter().filter(|_| shows.reactions).map(|reaction| reaction.force)),
        FORCE_ARROWS.0,
        FORCE_ARROWS.1,
    );
    let measured = view.sheet.measured.filter(|_| !shows.reactions);
    let scale = scale.measured_by(measured.map(|measured| measured.force));
    let mut groups = Vec::new();
    let mut wishes = Vec::new();
    let mut grips = Vec::new();

    // supports
    let mut below = Vec::new();
    let (mut signs, mut front) = (Vec::new(), Vec::new());
    let mut feet = vec![HALF_DEPTH + 1.0; problem.beam.supports.len()];
    for (number, support) in problem.beam.supports.iter().enumerate() {
        let place = view.place(support.station);
        let axis = Point::new(along.px(support.station), 0.0);
        if shows.supports {
            let sign = support::sign(support, view.support_kind(number), place, axis, HALF_DEPTH);
            feet[number] = sign.rect.bottom.max(HALF_DEPTH) + 3.0;
            signs.extend(sign.marks);
            front.extend(sign.front);
            placer.avoid_rect(sign.rect);
            below.push(sign.rect);
            grips.extend(beam_grips::support(view, number, sign.rect.middle()));
            support_wishes(view, number, sign.rect, place, &mut wishes);
        }
    }

    // reactions
    let mut acting = Reactions::default();
    if shows.reactions {
        for reaction in reactions {
            let place = view.place(reaction.station);
            let radius = if shows.supports && place != BeamPlace::Inside { WALL_HALF + 9.0 } else { 21.0 };
            let mut top = feet.get(reaction.support).copied().unwrap_or(HALF_DEPTH + 1.0);
            if reaction.couple != 0.0 && place != BeamPlace::Inside {
                // the arc of the couple closes round below the end
                top = top.max(radius + 4.0);
            }
            let name = view.support_name(reaction.support);
            let before = acting.marks.len();
            let stand = Stand { name, x: along.px(reaction.station), place, top, radius };
            acting.add(reaction, stand, scale, view.scribe);
            for mark in &acting.marks[before..] {
                if !matches!(mark, Mark::Arc { .. }) {
                    below.push(mark.rect());
                }
            }
        }
    }

    // loads
    let load_sketch = loads::sketch(view, scale, &below);
    grips.extend(load_sketch.grips);

    // the beam
    let body = Rect { left: along.left, top: -HALF_DEPTH, right: along.right, bottom: HALF_DEPTH };
    let mut beam = vec![Mark::Polygon {
        points: vec![
            Point::new(body.left, body.top),
            Point::new(body.right, body.top),
            Point::new(body.right, body.bottom),
            Point::new(body.left, body.bottom),
        ],
        stroke: Some(Stroke::OUTLINE),
        fill: Some(Ink::Material),
    }];
    placer.avoid_rect(body);
    if shows.slice {
        beam.push(slice_band(view));
        grips.push(beam_grips::station(view, Point::new(along.px(problem.slice.at), 0.0)));
    }
    for &hinge in &problem.beam.hinges {
        let centre = Point::new(along.px(hinge), 0.0);
        // the beam is parted at the hinge: white shows between the pieces
        beam.push(Mark::Polygon {
            points: vec![
                centre.moved(-3.4, -HALF_DEPTH - MEDIUM),
                centre.moved(3.4, -HALF_DEPTH - MEDIUM),
                centre.moved(3.4, HALF_DEPTH + MEDIUM),
                centre.moved(-3.4, HALF_DEPTH + MEDIUM),
            ],
            stroke: None,
            fill: Some(Ink::Paper),
        });
        for side in [-3.4, 3.4] {
            beam.push(Mark::Line {
                from: centre.moved(side, -HALF_DEPTH),
                to: centre.moved(side, HALF_DEPTH),
                stroke: Stroke::OUTLINE,
            });
        }
        beam.push(Mark::Circle {
            centre,
            radius: 3.4,
            stroke: Some(Stroke::OUTLINE),
            fill: Some(Ink::Paper),
        });
        wishes.push(
            Wish::new(Label::words("hinge"), centre.moved(0.0, HALF_DEPTH))
                .seats(&[Seat::Below, Seat::BelowRight, Seat::BelowLeft], Escape::Down)
                .ink(Ink::Quiet),
        );
    }

    if !signs.is_empty() {
        groups.push(Mark::group("supports", "Supports", signs));
    }
    groups.push(Mark::group("beam", "Beam", beam));
    if !front.is_empty() {
        groups.push(Mark::group("springs", "Springs against turning", front));
    }
    placer.avoid_marks(&load_sketch.marks);
    groups.extend(load_sketch.marks);
    if !acting.marks.is_empty() {
        placer.avoid_marks(&acting.marks);
        groups.push(Mark::group("reactions", "Reactions", acting.marks));
    }

    if !shows.reactions {
        // this is the drawing that is dragged at: its labels stay clear of the handles
        for grip in &grips {
            placer.avoid_rect(Rect::around(&[grip.at]).grown(HANDLE));
        }
    }
    if shows.slice && shows.dimensions != Dimensions::None {
        let x = along.px(problem.slice.at);
        placer.avoid_line(Point::new(x, HALF_DEPTH), Point::new(x, 300.0));
    }
    for wish in acting.wishes.iter().chain(&load_sketch.wishes).chain(&wishes) {
        placer.put(wish);
    }
    let mut labels = placer.take_marks();
    if shows.dimensions != Dimensions::None {
        let bottom = bounds(&groups).joined(bounds(&labels)).bottom;
        let chain = chain::chain(view, shows, bottom, placer);
        groups.push(Mark::group("dimensions", "Dimensions", chain));
        labels.extend(placer.take_marks());
    }
    groups.push(Mark::group("labels", "", labels));
    Sketch { marks: groups, grips, stretched: load_sketch.stretched }
}

/// The band of the slice across the beam.
fn slice_band(view: &BeamView<'_>) -> Mark {
    let slice = view.problem.slice;
    let left = view.along().px(slice.at);
    // a slice of 50 mm in a beam of 4 m would be 6 px wide: it is drawn to scale, but never as a mere line
    let right = view.along().px(slice.at + slice.length).max(left + 3.0);
    let (top, bottom) = (-HALF_DEPTH, HALF_DEPTH);
    Mark::group(
        "slice",
        "Slice",
        vec![Mark::Polygon {
            points: vec![
                Point::new(left, top),
                Point::new(right, top),
                Point::new(right, bottom),
                Point::new(left, bottom),
            ],
            stroke: Some(Stroke::solid(Ink::Cut, 1.0)),
            fill: Some(Ink::SliceTint),
        }],
    )
}

/// Name, stiffness and settlement of a support.
fn support_wishes(view: &BeamView<'_>, number: usize, rect: Rect, place: BeamPlace, wishes: &mut Vec<Wish>) {
    let support = &view.problem.beam.supports[number];
    let name = view.support_name(number);
    let middle = rect.middle();
    let (left, right) = (Point::new(rect.left, middle.y), Point::new(rect.right, middle.y));
    let is_wall = matches!(support.rotation, Hold::Rigid { .. }) && place != BeamPlace::Inside;
    let outer_first = match (is_wall, place) {
        (true, BeamPlace::RightEnd) => [(right, Seat::Right), (left, Seat::Left)],
        (true, _) => [(left, Seat::Left), (right, Seat::Right)],
        (false, BeamPlace::RightEnd) => [(right, Seat::Right), (left, Seat::Left)],
        (false, _) => [(left, Seat::Left), (right, Seat::Right)],
    };
    let beside = |label: Label, gap: f64| {
        let mut wish = Wish::new(label, outer_first[0].0).seats(&[outer_first[0].1], Escape::Down).gap(gap);
        if is_wall {
            // outside the arc of its couple
            let outwards = if place == BeamPlace::RightEnd { 1.0 } else { -1.0 };
            wish = wish.or(outer_first[0].0.moved(outwards * 26.0, 0.0), outer_first[0].1);
        }
        wish = wish.or(outer_first[1].0, outer_first[1].1);
        let corner = |x: f64| Point::new(x, rect.bottom);
        wish.or(corner(rect.left), Seat::BelowLeft).or(corner(rect.right), Seat::BelowRight)
    };
    if !name.is_empty() {
        // a name is set upright and stands clear of the ground
        wishes.push(beside(Label::words(name), 4.0));
    }
    let mut remarks = Vec::new();
    if let Hold::Spring { stiffness } = support.transverse {
        let value = view.scribe.given(stiffness, Dimension::FORCE_PER_LENGTH, Role::SupportStiffness);
        remarks.push(view.scribe.symbol(Role::SupportStiffness, name).equals(value));
    }
    if let Hold::Spring { stiffness } = support.rotation {
        let value = view.scribe.given(stiffness, Dimension::MOMENT, Role::SupportStiffness);
        remarks.push(view.scribe.symbol(Role::SupportStiffness, name).equals(value));
    }
    if let Hold::Rigid { moved } = support.transverse
        && moved != 0.0
    {
        let size = view.scribe.given_text(moved.abs(), Dimension::LENGTH, Role::Settlement);
        remarks.push(Label::words(format!("{}\u{a0}{size}", if moved < 0.0 { "settles" } else { "rises" })));
    }
    if let Hold::Rigid { moved } = support.rotation
        && moved != 0.0
    {
        let size = view.scribe.given_text(moved.abs(), Dimension::NONE, Role::Slope);
        remarks.push(Label::words(format!("turned by\u{a0}{size}")));
    }
    for remark in remarks {
        wishes.push(beside(remark, 4.0).size(view.sheet.small).ink(Ink::Quiet));
    }
}
