//! The part beyond the cut as a free body: what the two faces pull, and what the cut must hold.

use crate::arrow::{self, Barb};
use crate::cross_section::{HATCH, centroid};
use crate::cut_words::{self, at_most};
use crate::dimension;
use crate::drawing::{Description, Drawing, Mark, bounds};
use crate::geometry::{Point, Rect};
use crate::hatch;
use crate::label::{Escape, Placer, Seat, Wish};
use crate::legend::{Sample, legend};
use crate::outline::{self, Extent};
use crate::palette::{Ink, Stroke, THIN};
use crate::prism_marks::filled;
use crate::scene::Scene;
use crate::stress_block::{BlockScale, bands, block, difference};
use crate::text::Label;
use core::f64::consts::FRAC_PI_4;
use workings::dimension::Dimension;
use workings::role::Role;

/// Length of the piece on the sheet, px: not to scale.
const LENGTH: f64 = 150.0;
/// Its least and greatest depth on the sheet, px.
const DEPTHS: (f64, f64) = (76.0, 150.0);
/// Longest stress, px.
const LONGEST: f64 = 46.0;
/// Longest stress resultant, px.
const RESULTANT: f64 = 50.0;
/// Room that the view from the end takes, px.
const END: (f64, f64) = (112.0, 150.0);
/// Room between the side view and the end view below it, for the labels of both, px.
const BELOW: f64 = 72.0;

/// Where things stand on the sheet.
struct Layout {
    extent: Extent,
    /// Depth of the piece, px.
    depth: f64,
    /// px for each m of depth in the side view.
    per_height: f64,
    /// px for each Pa.
    per_stress: f64,
    /// Where the cut falls, px down.
    cut: f64,
    /// Length of the piece in the side view, px.
    length: f64,
    /// Where the side view ends, px down: what the end view stands below where there is no room beside it.
    foot: f64,
}

impl Layout {
    fn scale(&self, face: usize) -> BlockScale {
        BlockScale {
            stress: self.per_stress,
            zero: self.depth + self.extent.bottom * self.per_height,
            height: self.per_height,
            face: if face == 0 { 0.0 } else { self.length },
            outside: if face == 0 { -1.0 } else { 1.0 },
        }
    }
}

fn layout(scene: &Scene) -> Option<Layout> {
    let extent = outline::extent(&scene.beyond)?;
    let natural = END.1.min(END.0 / extent.breadth() * extent.height());
    let depth = natural.clamp(DEPTHS.0, DEPTHS.1);
    let mut greatest = 0.0_f64;
    for band in bands(scene, true) {
        for stress in &scene.stress {
            for height in [band.from, band.to] {
                greatest = greatest.max(stress.bending_stress_in(band.part, height).abs());
            }
        }
    }
    let per_stress = if greatest > 0.0 { scene.across(LONGEST) / greatest } else { 0.0 };
    let cut = if scene.is_above() { depth } else { 0.0 };
    let foot = depth + if scene.is_above() { 52.0 } else { 26.0 };
    // The force on the cut is written below it.
    let length = scene.across(LENGTH).max(110.0);
    Some(Layout { extent, depth, per_height: depth / extent.height(), per_stress, cut, length, foot })
}

/// The part beyond the cut as a free body.
pub(crate) fn piece(scene: &Scene) -> Drawing {
    let title = "The part beyond the cut as a free body";
    let (short, long) = describe(scene);
    let Some(layout) = layout(scene) else {
        let label = Label::words("nothing lies beyond the cut: no force acts on it");
        let mark = Mark::text(Point::new(0.0, 0.0), label, crate::text::Align::Middle);
        return Drawing::fitted("piece", title, 24.0, scene.sheet.width, vec![mark]).described(short, long);
    };
    let w = &scene.writer;
    let v = &scene.values;
    let mut wishes = Vec::new();
    let mut marks = Vec::new();
    let corners = vec![
        Point::new(0.0, 0.0),
        Point::new(layout.length, 0.0),
        Point::new(layout.length, layout.depth),
        Point::new(0.0, layout.depth),
    ];
    marks.push(Mark::Polygon {
        points: corners.clone(),
        stroke: Some(Stroke::OUTLINE),
        fill: Some(Ink::BeyondLight),
    });
    marks.push(Mark::Line {
        from: Point::new(0.0, layout.cut),
        to: Point::new(layout.length, layout.cut),
        stroke: Stroke::solid(Ink::Cut, 2.0),
    });
    let mut placer = Placer::new();
    let all = bands(scene, true);
    for face in [0, 1] {
        let mut inner = block(scene, &all, face, layout.scale(face), 20.0);
        if face == 1 {
            inner.extend(difference(scene, &all, layout.scale(1)));
        }
        placer.avoid_marks(&inner);
        let title = if face == 0 { "Stress on the left face" } else { "Stress on the right face" };
        marks.push(Mark::group(if face == 0 { "left-face" } else { "right-face" }, title, inner));
    }
    let resultants = resultants(scene, &layout, &mut wishes);
    let force = force_on_cut(scene, &layout, &mut wishes);
    let mut lengths = Vec::new();
    let far = layout.foot;
    lengths.extend(dimension::level(0.0, layout.length, far));
    for x in [0.0, layout.length] {
        lengths.extend(dimension::extension(Point::new(x, layout.depth), Point::new(x, far)));
    }
    let label = w.named_given(Role::SliceLength, v.length, Dimension::LENGTH);
    wishes.push(Wish::new(label, Point::new(0.5 * layout.length, far)).seats(&[Seat::Below], Escape::Down));
    let end = end_view(scene, &layout, &mut wishes);
    placer.avoid_marks(&resultants);
    placer.avoid_marks(&force);
    placer.avoid_marks(&lengths);
    placer.avoid_marks(&end);
    placer.avoid_rect(Rect::around(&corners).grown(-1.0));
    for wish in &wishes {
        placer.put(wish);
    }
    marks.push(Mark::group("resultants", "Stress resultants", resultants));
    marks.push(Mark::group("force-on-cut", "Force on the cut", force));
    marks.push(Mark::group("length", "Length of the slice", lengths));
    marks.push(Mark::group("end", "The part beyond from the end", end));
    marks.push(Mark::group("labels", "Labels", placer.into_marks()));
    let under = bounds(&marks);
    marks.push(legend(&legend_entries(scene), under, scene.sheet));
    Drawing::fitted("piece", title, 12.0, scene.sheet.width, marks).described(short, long)
}

/// The stress resultants on both faces, at their lines of action, outside the stress blocks.
fn resultants(scene: &Scene, layout: &Layout, wishes: &mut Vec<Wish>) -> Vec<Mark> {
    let v = &scene.values;
    let w = &scene.writer;
    let greatest = v.resultant[0].abs().max(v.resultant[1].abs());
    let mut marks = Vec::new();
    for face in [0, 1] {
        let force = v.resultant[face];
        if force == 0.0 {
            continue;
        }
        let scale = layout.scale(face);
        // A line of action may lie off the piece where the stress changes sign on it.
        let y = scale.y(v.resultant_height[face]).clamp(-24.0, layout.depth + 24.0);
        let near = Point::new(scale.face + scale.outside * (scene.across(LONGEST) + 12.0), y);
        let long = scene.across(RESULTANT) * force.abs() / greatest;
        let far = near.moved(scale.outside * long.max(16.0), 0.0);
        let (ink, dash) = if force > 0.0 {
            (Ink::Tension, crate::palette::Dash::Solid)
        } else {
            (Ink::Compression, crate::palette::Dash::Dashed)
        };
        let stroke = Stroke { ink, width: 2.5, dash };
        marks.extend(if force > 0.0 {
            arrow::straight(near, far, stroke)
        } else {
            arrow::straight(far, near, stroke)
        });
        let symbol = if face == 0 { w.symbol(Role::StressResultant) } else { w.grown(Role::StressResultant) };
        let letter = if force > 0.0 { "\u{a0}T" } else { "\u{a0}C" };
        let value =
            w.value_beside(force.abs(), Dimension::FORCE, Role::StressResultant, scene.greatest_force());
        // The value on a line of its own, or the label would be wider than the arrow is long.
        let middle = near.towards(far, 0.5);
        wishes.push(Wish::new(symbol, middle).seats(&[Seat::Above], Escape::Up).gap(7.0).ink(ink));
        wishes.push(
            Wish::new(value.and_words(letter), middle).seats(&[Seat::Below], Escape::Down).gap(7.0).ink(ink),
        );
    }
    marks
}

/// The force on the cut: a row of half-arrows along it, the way that it acts on the piece.
fn force_on_cut(scene: &Scene, layout: &Layout, wishes: &mut Vec<Wish>) -> Vec<Mark> {
    let force = scene.values.force_on_cut;
    let w = &scene.writer;
    let mut marks = Vec::new();
    let above = scene.is_above();
    let y = layout.cut + if above { 8.0 } else { -8.0 };
    if force != 0.0 {
        let stroke = Stroke::solid(Ink::Cut, 1.75);
        let count = 4;
        let pitch = layout.length / f64::from(count);
        for k in 0..count {
            let (left, right) = (pitch * (f64::from(k) + 0.12), pitch * (f64::from(k) + 0.88));
            let (from, to) = if force > 0.0 { (left, right) } else { (right, left) };
            // The barb stands away from the piece.
            let barb = if (force > 0.0) == above { Barb::Right } else { Barb::Left };
            marks.extend(arrow::half(Point::new(from, y), Point::new(to, y), barb, stroke));
        }
        let value = w.value_beside(force.abs(), Dimension::FORCE, Role::ForceOnCut, scene.greatest_force());
        let label = w.by_size(w.symbol(Role::ForceOnCut), force).equals(value);
        let label = label.and_words(if force > 0.0 { "\u{a0}→" } else { "\u{a0}←" });
        let seat = if above { Seat::Below } else { Seat::Above };
        wishes.push(
            Wish::new(label, Point::new(0.5 * layout.length, y))
                .seats(&[seat], if above { Escape::Down } else { Escape::Up })
                .gap(8.0)
                .ink(Ink::Cut),
        );
    } else {
        let label = Label::words("no force on the cut");
        let seat = if above { Seat::Below } else { Seat::Above };
        wishes.push(
            Wish::new(label, Point::new(0.5 * layout.length, y)).seats(&[seat], Escape::Any).ink(Ink::Cut),
        );
    }
    marks
}

/// The part beyond seen from the end of the beam, with the width at the cut.
fn end_view(scene: &Scene, layout: &Layout, wishes: &mut Vec<Wish>) -> Vec<Mark> {
    let w = &scene.writer;
    let e = layout.extent;
    let scale = (END.0 / e.breadth()).min(END.1.min(DEPTHS.1) / e.height());
    let (start, top) = if scene.sheet.is_narrow() {
        (0.5 * (layout.length - e.breadth() * scale), layout.foot + BELOW)
    } else {
        let beside = layout.length + scene.across(LONGEST) + scene.across(RESULTANT) + 84.0;
        (beside, 0.5 * (layout.depth - e.height() * scale))
    };
    let at = |x: f64, y: f64| Point::new(start + (x - e.left) * scale, top + (e.top - y) * scale);
    let mut marks = Vec::new();
    for region in scene.beyond.iter().filter(|r| !r.is_empty()) {
        let loops: Vec<Vec<Point>> =
            region.rings.iter().map(|ring| ring.points.iter().map(|p| at(p.x, p.y)).collect()).collect();
        marks.push(filled(&loops, Some(Ink::Beyond), None));
        marks.extend(hatch::marks(&loops, FRAC_PI_4, HATCH, Stroke::solid(Ink::BeyondHatch, THIN)));
        marks.push(filled(&loops, None, Some(Stroke::OUTLINE)));
    }
    let above = scene.is_above();
    let cut = at(e.left, scene.cut).y;
    let y = cut + if above { 16.0 } else { -16.0 };
    let several = scene.cut_chords.len() > 1;
    for chord in &scene.cut_chords {
        let (left, right) = (at(chord.left, scene.cut), at(chord.right, scene.cut));
        marks.push(Mark::Line { from: left, to: right, stroke: Stroke::solid(Ink::Cut, 2.0) });
        marks.extend(dimension::level(left.x, right.x, y));
        for end in [left, right] {
            marks.extend(dimension::extension(end, Point::new(end.x, y)));
        }
        let value = w.value(chord.length(), Dimension::LENGTH, Role::WidthAtCut);
        let label = if several { value } else { w.symbol(Role::WidthAtCut).equals(value) };
        let seat = if above { Seat::Below } else { Seat::Above };
        wishes.push(
            Wish::new(label, Point::new(0.5 * (left.x + right.x), y))
                .seats(&[seat], if above { Escape::Down } else { Escape::Up })
                .ink(Ink::Cut),
        );
    }
    if let Some(c) = scene.values.centroid_beyond {
        marks.extend(centroid(at(c.x, c.y), 4.0, Ink::BeyondHatch));
    }
    let label = Label::words("seen from the end: ").followed_by(w.named(
        Role::AreaBeyond,
        scene.values.area_beyond,
        Dimension::AREA,
    ));
    let middle = start + 0.5 * e.breadth() * scale;
    let (place, seat) = if above {
        (Point::new(middle, if scene.sheet.is_narrow() { top } else { top.min(0.0) }), Seat::Above)
    } else {
        (Point::new(middle, (top + e.height() * scale).max(layout.depth)), Seat::Below)
    };
    wishes.push(Wish::new(label, place).seats(&[seat], Escape::Any).gap(8.0).ink(Ink::BeyondHatch));
    marks
}

/// What the legend names, with the balance of the piece.
fn legend_entries(scene: &Scene) -> Vec<(Sample, Label)> {
    let w = &scene.writer;
    let mut entries = Vec::new();
    if scene.greatest_bending_stress() > 0.0 {
        entries.push((Sample::Tension, Label::words("tension, T")));
        entries.push((Sample::Compression, Label::words("compression, C")));
    }
    entries.push((Sample::Line(Stroke::solid(Ink::Cut, 2.0)), Label::words("cut")));
    if scene.values.force_on_cut != 0.0 {
        entries.push((Sample::ForceOnCut, Label::words("force on the cut")));
    }
    // Along the beam, to the right: what the right face pulls, less what the left face pulls, and the cut.
    let sign = if scene.values.force_on_cut < 0.0 { "\u{a0}\u{2212}\u{a0}" } else { "\u{a0}+\u{a0}" };
    let balance = Label::words("balance along the beam, tension positive:\u{a0} (")
        .followed_by(w.grown(Role::StressResultant))
        .and_words(")\u{a0}\u{2212}\u{a0}")
        .followed_by(w.symbol(Role::StressResultant))
        .and_words(sign)
        .followed_by(w.by_size(w.symbol(Role::ForceOnCut), scene.values.force_on_cut))
        .and_words("\u{a0}=\u{a0}0");
    entries.push((Sample::None, balance));
    if scene.cut_chords.len() > 1 {
        let width = w.named(Role::WidthAtCut, scene.values.width, Dimension::LENGTH);
        entries.push((Sample::None, width.and_words(" in all")));
    }
    entries.push((Sample::None, Label::words("side view not to scale")));
    entries
}

fn describe(scene: &Scene) -> (String, Description) {
    let w = &scene.writer;
    let v = &scene.values;
    let force =
        |value: f64, role: Role| w.text_beside(value.abs(), Dimension::FORCE, role, scene.greatest_force());
    let way = if v.force_on_cut > 0.0 { "to the right" } else { "to the left" };
    let short = if v.force_on_cut == 0.0 {
        "Free body of the part beyond the cut: the resultants on its two faces are equal, so no force acts on the cut."
            .to_owned()
    } else {
        at_most(&format!(
            "Free body of the part beyond the cut: the stress resultants on its two faces differ, so the cut must \
             hold it with {} {way}.",
            force(v.force_on_cut, Role::ForceOnCut)
        ))
    };
    let mut long = Description::new();
    if !scene.told {
        return (short, long);
    }
    let side = if scene.is_above() { "above" } else { "below" };
    long.sentence(format!(
        "Side view of the part of the slice {side} the cut, {} long, and beside it the part seen from the end, \
         hatched, with an area of {}.",
        w.given_text(v.length, Dimension::LENGTH, Role::SliceLength),
        w.text(v.area_beyond, Dimension::AREA, Role::AreaBeyond)
    ));
    let kind = |value: f64| match value {
        x if x > 0.0 => ", tension",
        x if x < 0.0 => ", compression",
        _ => "",
    };
    long.table(
        "Forces along the beam on the part beyond",
        &["on", "force"],
        vec![
            vec![
                "left face".to_owned(),
                format!("{}{}", force(v.resultant[0], Role::StressResultant), kind(v.resultant[0])),
            ],
            vec![
                "right face".to_owned(),
                format!("{}{}", force(v.resultant[1], Role::StressResultant), kind(v.resultant[1])),
            ],
            vec!["cut".to_owned(), format!("{} {way}", force(v.force_on_cut, Role::ForceOnCut))],
        ],
    );
    long.sentence(
        "The three forces balance, their sum along the beam is 0: the force on the cut makes up for the difference \
         of the two faces.",
    );
    long.sentence(format!(
        "The force on the cut is drawn as a row of half-arrows along the cut. Width of the cut: {}.",
        cut_words::width(scene)
    ));
    (short, long)
}
