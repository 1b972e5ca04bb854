//! The slice in axonometric view, the part beyond the cut lifted off: the central figure of the unit.

use crate::arrow::{self, Barb};
use crate::drawing::{Drawing, Mark, bounds};
use crate::geometry::Point as Spot;
use crate::label::{Escape, Placer, Seat, Wish};
use crate::legend::{Sample, legend};
use crate::outline::{self, Chord, Region};
use crate::palette::{HEAVY, Ink, MEDIUM, Stroke, THIN};
use crate::pictorial_stress::{arrows, enlargement};
use crate::pictorial_words;
use crate::prism::View;
use crate::prism_marks::{self, Paint, Piece, filled};
use crate::scene::Scene;
use crate::text::Label;
use mechanics::section::{HeightSide, Point};
use workings::dimension::Dimension;
use workings::role::Role;

/// Turn of the reader from the side view towards the end, rad: about 36°, so that the section is seen well open.
const AZIMUTH: f64 = 0.63;
/// How far the reader stands above, rad: about 24°.
const ELEVATION: f64 = 0.42;
/// The room that both pieces may take on the sheet, px across and down, without arrows and labels.
const ROOM: (f64, f64) = (350.0, 390.0);
/// Room between the face laid bare and the piece lifted off it, px: a half-arrow and its label stand in it.
const LIFT: f64 = 36.0;
/// A piece that stands out over that face is lifted clear of it by so much, px.
const CLEAR: f64 = 14.0;
/// The slice is drawn with a length between these shares of its depth; outside them its length is not to scale.
const LENGTH_SHARES: (f64, f64) = (0.7, 1.6);

struct Layout {
    /// View of what stays.
    rest: View,
    /// View of the part beyond.
    beyond: View,
    /// Length of the slice, m.
    length: f64,
    /// Its length on the sheet over its true length.
    stretch: f64,
}

impl Layout {
    /// Whether the length is drawn to the scale of the section.
    fn is_to_scale(&self) -> bool {
        (self.stretch - 1.0).abs() <= 1e-9
    }
}

fn layout(scene: &Scene) -> Layout {
    let extent = scene.extent;
    let size = extent.height().max(0.6 * extent.breadth());
    let length = scene.values.length;
    let share = length / size;
    let stretch = share.clamp(LENGTH_SHARES.0, LENGTH_SHARES.1) / share;
    // The face laid bare must be seen whole, and the half-arrow on the other piece beside it.
    let (left, right) = match (scene.cut_chords.first(), scene.cut_chords.last()) {
        (Some(first), Some(last)) => (first.left, last.right),
        _ => (extent.left, extent.right),
    };
    let open = |view: &View| (right - left) * view.across.y.abs() + length * view.along.y.abs();
    // A slab that stands out far over what bears it would hang down before the face: it is lifted clear of it.
    let upper = scene.chords(scene.cut, HeightSide::Above);
    let stands_out = upper.first().map_or(0.0, |first| (left - first.left).max(0.0));
    let lift = |view: &View| (stands_out * view.across.y.abs() + CLEAR).max(LIFT);
    let unit = View::new(AZIMUTH, ELEVATION, 1.0, stretch);
    let across = extent.breadth() * unit.across.x + length * unit.along.x;
    let down = extent.height() * unit.up.y.abs()
        + extent.breadth() * unit.across.y.abs()
        + length * unit.along.y.abs()
        + open(&unit);
    let scale = (scene.across(ROOM.0) / across).min((ROOM.1 - LIFT) / down);
    let scale = scale.min((ROOM.1 - CLEAR) / (down + stands_out * unit.across.y.abs()));
    let rest = View::new(AZIMUTH, ELEVATION, scale, stretch);
    let gap = open(&rest) + lift(&rest);
    let beyond = match scene.beyond_side {
        HeightSide::Above => rest.moved(0.0, -gap),
        HeightSide::Below => rest.moved(0.0, gap),
    };
    Layout { rest, beyond, length, stretch }
}

/// The slice in axonometric view, the part beyond the cut lifted off.
pub(crate) fn pictorial(scene: &Scene) -> Drawing {
    let layout = layout(scene);
    let mut placer = Placer::new();
    let mut marks = Vec::new();
    // The lower of the two pieces first: the upper stands before it where they meet on the sheet.
    let above = scene.is_above();
    let rest = || {
        let mut inner = piece_marks(scene, &layout, &layout.rest, &scene.rest, Paint::REST);
        if above {
            inner.extend(bare_face(scene, &layout.rest, &scene.rest, layout.length));
        }
        Mark::group("rest", "What stays of the slice", inner)
    };
    let beyond = || {
        let mut inner = piece_marks(scene, &layout, &layout.beyond, &scene.beyond, Paint::BEYOND);
        if !above {
            inner.extend(bare_face(scene, &layout.beyond, &scene.beyond, layout.length));
        }
        Mark::group("beyond", "The part beyond the cut, lifted off", inner)
    };
    if above {
        marks.push(rest());
        marks.push(guides(scene, &layout));
        marks.push(beyond());
    } else {
        marks.push(beyond());
        marks.push(guides(scene, &layout));
        marks.push(rest());
    }
    let forces = cut_forces(scene, &layout);
    placer.avoid_marks(&marks);
    let mut wishes = Vec::new();
    let dimensions = dimensions(scene, &layout, &mut wishes);
    placer.avoid_marks(&forces);
    placer.avoid_marks(&dimensions);
    marks.push(Mark::group("force-on-cut", "The force on the cut, on both pieces", forces));
    marks.push(Mark::group("dimensions", "Dimensions", dimensions));
    wishes.extend(names(scene, &layout));
    for wish in &wishes {
        placer.put(wish);
    }
    marks.push(Mark::group("labels", "Labels", placer.into_marks()));
    let under = bounds(&marks);
    marks.push(legend(&legend_entries(scene, &layout), under, scene.sheet));
    let (short, long) = pictorial_words::describe(scene, layout.is_to_scale());
    Drawing::fitted(
        "pictorial",
        "The slice with the part beyond the cut lifted off",
        12.0,
        scene.sheet.width,
        marks,
    )
    .described(short, long)
}

/// One piece with the stress arrows on its two ends: those of the far end lie behind it.
fn piece_marks(scene: &Scene, layout: &Layout, view: &View, regions: &[Region], paint: Paint) -> Vec<Mark> {
    let mut marks = arrows(scene, view, regions, (0, 0.0));
    let piece = Piece { regions, near: layout.length, far: 0.0 };
    marks.extend(prism_marks::marks(view, piece, paint));
    marks.extend(neutral_axis(scene, layout, view, regions));
    marks.extend(arrows(scene, view, regions, (1, layout.length)));
    marks
}

/// The neutral axis on the near end, if it lies in these regions.
fn neutral_axis(scene: &Scene, layout: &Layout, view: &View, regions: &[Region]) -> Vec<Mark> {
    let Some(extent) = outline::extent(regions) else { return Vec::new() };
    let height = scene.values.neutral_axis;
    if !extent.holds(height) {
        return Vec::new();
    }
    let over = 10.0 / view.across.x;
    let from = view.at(layout.length, Point { x: extent.left - over, y: height });
    let to = view.at(layout.length, Point { x: extent.right + 2.0 * over, y: height });
    vec![Mark::Line { from, to, stroke: Stroke::AXIS }]
}

/// The face that the cut lays bare and the reader sees, of the piece whose regions these are.
fn bare_face(scene: &Scene, view: &View, regions: &[Region], length: f64) -> Vec<Mark> {
    if regions.iter().all(Region::is_empty) {
        return Vec::new();
    }
    scene
        .cut_chords
        .iter()
        .map(|chord| {
            let corner = |station: f64, x: f64| view.at(station, Point { x, y: scene.cut });
            let corners = vec![
                corner(length, chord.left),
                corner(length, chord.right),
                corner(0.0, chord.right),
                corner(0.0, chord.left),
            ];
            filled(&[corners], Some(Ink::CutTint), Some(Stroke::solid(Ink::Cut, MEDIUM)))
        })
        .collect()
}

/// Dotted lines along which the part beyond was lifted off.
fn guides(scene: &Scene, layout: &Layout) -> Mark {
    let mut marks = Vec::new();
    let both = ![&scene.beyond, &scene.rest].iter().any(|regions| regions.iter().all(Region::is_empty));
    if let (Some(first), Some(last), true) = (scene.cut_chords.first(), scene.cut_chords.last(), both) {
        for (station, x) in [(layout.length, first.left), (layout.length, last.right), (0.0, first.left)] {
            let p = Point { x, y: scene.cut };
            let (from, to) = (layout.rest.at(station, p), layout.beyond.at(station, p));
            marks.push(Mark::Line { from, to, stroke: Stroke::dotted(Ink::Cut, THIN) });
        }
    }
    Mark::group("lift", "Where the part beyond was lifted from", marks)
}

/// Whether the reader sees the cut face of the part beyond, or else of the rest: that of the lower piece.
fn face_is_seen(scene: &Scene, on_beyond: bool) -> bool {
    on_beyond != (scene.is_above())
}

/// The force on the cut as half-arrows on both pieces, opposite in direction.
fn cut_forces(scene: &Scene, layout: &Layout) -> Vec<Mark> {
    let force = scene.values.force_on_cut;
    if force == 0.0 {
        return Vec::new();
    }
    let stroke = Stroke::solid(Ink::Cut, HEAVY);
    let mut marks = Vec::new();
    for (k, chord) in scene.cut_chords.iter().enumerate() {
        for on_beyond in [true, false] {
            // Of a face turned away from the reader only the near edge is seen.
            if k > 0 && !face_is_seen(scene, on_beyond) {
                continue;
            }
            let (from, to, barb) = force_arrow(scene, layout, *chord, on_beyond);
            marks.extend(arrow::half(from, to, barb, stroke));
        }
    }
    marks
}

/// Where the half-arrow on one chord of one piece begins and ends, and on which side its barb stands.
fn force_arrow(scene: &Scene, layout: &Layout, chord: Chord, on_beyond: bool) -> (Spot, Spot, Barb) {
    let view = if on_beyond { &layout.beyond } else { &layout.rest };
    let rightwards = (scene.values.force_on_cut > 0.0) == on_beyond;
    // The face is seen where the piece lies below the cut; else the arrow runs just below its near edge.
    let seen = face_is_seen(scene, on_beyond);
    let (x, drop) = if seen {
        (chord.middle(), 0.0)
    } else {
        let side = if on_beyond { scene.beyond_side } else { outline::opposite(scene.beyond_side) };
        (scene.chords(scene.cut, side).first().map_or(chord.left, |first| first.left), 8.0)
    };
    let ends =
        [0.22, 0.78].map(|share| view.at(share * layout.length, Point { x, y: scene.cut }).moved(0.0, drop));
    let (from, to) = if rightwards { (ends[0], ends[1]) } else { (ends[1], ends[0]) };
    // The barb stands away from the body that the force acts on: below the one above, above the one below.
    let barb = if rightwards == seen { Barb::Left } else { Barb::Right };
    (from, to, barb)
}

/// Thickness and length as dimension lines along their own axes.
fn dimensions(scene: &Scene, layout: &Layout, wishes: &mut Vec<Wish>) -> Vec<Mark> {
    let mut marks = Vec::new();
    let above = scene.is_above();
    let view = if above { &layout.rest } else { &layout.beyond };
    let stroke = Stroke::DIMENSION;
    // t, beyond the far end of the face laid bare.
    let size = view.along.distance(Spot::new(0.0, 0.0));
    let out = 15.0 / size;
    let several = scene.cut_chords.len() > 1;
    // Where one piece is empty there is no face to measure on.
    let seen = if above { &scene.rest } else { &scene.beyond };
    let there = seen.iter().any(|region| !region.is_empty());
    for chord in scene.cut_chords.iter().filter(|_| there) {
        let at = |station: f64, x: f64| view.at(station, Point { x, y: scene.cut });
        let (from, to) = (at(-out, chord.left), at(-out, chord.right));
        marks.push(Mark::Line { from, to, stroke });
        for x in [chord.left, chord.right] {
            marks.push(Mark::Line {
                from: at(-0.25 * out, x),
                to: at(-1.3 * out, x),
                stroke: Stroke::solid(Ink::Quiet, 0.5),
            });
            let tick = at(-out, x);
            marks.push(Mark::Line {
                from: tick.moved(-1.0, 4.0),
                to: tick.moved(1.0, -4.0),
                stroke: Stroke::solid(Ink::Quiet, 1.5 * THIN),
            });
        }
        let label = if several {
            scene.writer.value(chord.length(), Dimension::LENGTH, Role::WidthAtCut)
        } else {
            scene.writer.named(Role::WidthAtCut, scene.values.width, Dimension::LENGTH)
        };
        let wish = Wish::new(label, from.towards(to, 0.5))
            .seats(&[Seat::AboveLeft, Seat::Left, Seat::Above], Escape::Up)
            .gap(5.0);
        wishes.push(wish);
    }
    // dx, below the lower piece.
    let (view, regions) = if above { (&layout.rest, &scene.rest) } else { (&layout.beyond, &scene.beyond) };
    if let Some(p) = lowest(view, regions) {
        let drop = 22.0;
        let (near, far) = (view.at(layout.length, p), view.at(0.0, p));
        let (from, to) = (far.moved(0.0, drop), near.moved(0.0, drop));
        marks.push(Mark::Line { from, to, stroke });
        for (thing, end) in [(far, from), (near, to)] {
            marks.extend(crate::dimension::extension(thing, end));
            marks.push(Mark::Line {
                from: end.moved(-3.2, 3.2),
                to: end.moved(3.2, -3.2),
                stroke: Stroke::solid(Ink::Quiet, 1.5 * THIN),
            });
        }
        let label = scene.writer.named_given(Role::SliceLength, scene.values.length, Dimension::LENGTH);
        wishes.push(
            Wish::new(label, from.towards(to, 0.5))
                .seats(&[Seat::BelowLeft, Seat::Below], Escape::Down)
                .gap(3.0),
        );
    }
    marks
}

/// The point of the outline that falls lowest on the sheet.
fn lowest(view: &View, regions: &[Region]) -> Option<Point> {
    regions
        .iter()
        .flat_map(|r| &r.rings)
        .flat_map(|r| &r.points)
        .copied()
        .max_by(|a, b| view.at(0.0, *a).y.total_cmp(&view.at(0.0, *b).y))
}

/// Names of pieces, faces and forces.
fn names(scene: &Scene, layout: &Layout) -> Vec<Wish> {
    let mut wishes = Vec::new();
    let w = &scene.writer;
    let force = scene.values.force_on_cut;
    if let (Some(&chord), true) = (scene.cut_chords.first(), force != 0.0) {
        // The value once, on the part beyond; the same force on the rest by its symbol.
        let (from, to, _) = force_arrow(scene, layout, chord, true);
        let value = w.value_beside(force.abs(), Dimension::FORCE, Role::ForceOnCut, scene.greatest_force());
        let symbol = w.by_size(w.symbol(Role::ForceOnCut), force);
        let label = symbol.clone().equals(value);
        let label = if scene.cut_chords.len() > 1 { label.and_words("\u{a0}in all") } else { label };
        let seen = face_is_seen(scene, true);
        let (left, right) = if to.x < from.x { (to, from) } else { (from, to) };
        let wish = if seen {
            Wish::new(label, left).seats(&[Seat::Left, Seat::BelowLeft, Seat::AboveLeft], Escape::Any)
        } else {
            Wish::new(label, left)
                .seats(&[Seat::Left], Escape::Any)
                .or(left.towards(right, 0.5), Seat::Below)
                .or(right, Seat::Right)
                .or(left.towards(right, 0.5), Seat::BelowRight)
        };
        wishes.push(wish.ink(Ink::Cut).gap(if seen { 8.0 } else { 13.0 }));
        let (from, to, _) = force_arrow(scene, layout, chord, false);
        wishes.push(
            Wish::new(symbol, if to.x < from.x { to } else { from })
                .seats(&[Seat::Left, Seat::BelowLeft, Seat::AboveLeft, Seat::Below, Seat::Right], Escape::Any)
                .ink(Ink::Cut)
                .gap(6.0),
        );
    }
    // The corner furthest up and to the right.
    let corner = scene
        .beyond
        .iter()
        .flat_map(|r| &r.rings)
        .flat_map(|r| &r.points)
        .map(|&p| layout.beyond.at(layout.length, p))
        .max_by(|a, b| (a.x - a.y).total_cmp(&(b.x - b.y)));
    if let Some(at) = corner {
        wishes.push(
            Wish::new(w.symbol(Role::AreaBeyond), at)
                .seats(&[Seat::AboveRight, Seat::Right], Escape::Up)
                .ink(Ink::BeyondHatch),
        );
    }
    let (view, extent) = if scene.values.neutral_axis >= scene.cut {
        match scene.beyond_side {
            HeightSide::Above => (&layout.beyond, outline::extent(&scene.beyond)),
            HeightSide::Below => (&layout.rest, outline::extent(&scene.rest)),
        }
    } else {
        match scene.beyond_side {
            HeightSide::Above => (&layout.rest, outline::extent(&scene.rest)),
            HeightSide::Below => (&layout.beyond, outline::extent(&scene.beyond)),
        }
    };
    if let Some(extent) = extent.filter(|extent| extent.holds(scene.values.neutral_axis)) {
        let over = 20.0 / view.across.x;
        let at = view.at(layout.length, Point { x: extent.right + over, y: scene.values.neutral_axis });
        wishes.push(
            Wish::new(Label::words("NA"), at)
                .seats(&[Seat::Right, Seat::AboveRight], Escape::Any)
                .ink(Ink::Quiet),
        );
    }
    wishes
}

/// What the legend names.
fn legend_entries(scene: &Scene, layout: &Layout) -> Vec<(Sample, Label)> {
    let w = &scene.writer;
    let mut entries = Vec::new();
    if scene.greatest_bending_stress() > 0.0 {
        entries.push((Sample::Tension, Label::words("tension")));
        entries.push((Sample::Compression, Label::words("compression")));
    }
    if scene.values.centroid_beyond.is_some() {
        let label = Label::words("part beyond the cut, ").followed_by(w.symbol(Role::AreaBeyond));
        entries.push((Sample::Beyond, label));
    }
    let seen = if scene.is_above() { &scene.rest } else { &scene.beyond };
    if seen.iter().any(|region| !region.is_empty()) {
        entries.push((Sample::BareFace, Label::words("face of the cut")));
    }
    if scene.values.force_on_cut != 0.0 {
        entries.push((
            Sample::ForceOnCut,
            Label::words("force on the cut, ").followed_by(w.symbol(Role::ForceOnCut)),
        ));
    }
    if scene.cut_chords.len() > 1 {
        let width = w.named(Role::WidthAtCut, scene.values.width, Dimension::LENGTH);
        entries.push((Sample::None, width.and_words(" in all")));
    }
    if (scene.values.neutral_axis - scene.cut).abs() <= 1e-9 * scene.extent.height() {
        entries.push((Sample::None, Label::words("the cut runs along the neutral axis NA")));
    }
    let pieces = [(&scene.beyond, w.symbol(Role::AreaBeyond)), (&scene.rest, Label::words("what stays"))];
    for (regions, on) in pieces {
        let times = enlargement(scene, regions);
        if times > 1.0 {
            let words = Label::words("stress arrows on\u{a0}").followed_by(on);
            entries.push((Sample::None, words.and_words(format!(" drawn {times} times as long"))));
        }
    }
    if !layout.is_to_scale() {
        let length = w.symbol(Role::SliceLength);
        entries.push((Sample::None, Label::words("length ").followed_by(length).and_words(" not to scale")));
    }
    entries
}
