//! The section beside the transformed section and the bending stress in each material, all on one height axis.

use crate::arrow;
use crate::cross_section;
use crate::drawing::{Drawing, Mark, bounds};
use crate::geometry::{Point, Rect};
use crate::label::{Escape, Placer, Seat, Wish};
use crate::legend::{Sample, legend};
use crate::levels::{Tag, column};
use crate::materials::{self, Told};
use crate::palette::{Ink, MEDIUM, Stroke, THIN};
use crate::scene::Scene;
use crate::stress_block::{Band, bands};
use crate::strip_marks::{Across, High, outlined};
use crate::strips::{Breadths, Strip, extent, strips};
use crate::text::{Align, Label};
use crate::transformed_words;
use workings::dimension::Dimension;
use workings::material::Material;
use workings::role::Role;

/// Height of the drawing, px.
const HEIGHT: f64 = 220.0;
/// To have all to one scale it may become lower by this factor.
const LOWEST: f64 = 0.6;
/// Room that the section and the transformed section take, px across.
const ROOM: (f64, f64) = (112.0, 180.0);
/// The same on a narrow sheet, px.
const NARROW_ROOM: (f64, f64) = (60.0, 82.0);
/// Width of the panel of the stress each way from its axis, px.
const PANEL: f64 = 52.0;
/// Room between the panels, px.
const BETWEEN: f64 = 34.0;
/// What widths are drawn at where they would not fit, as parts of the scale of the heights.
const SHRUNK: [f64; 10] = [1.0, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001];

/// What the drawing shows.
pub(crate) struct Transformed {
    pub materials: Vec<Material>,
    pub strips: Vec<Strip>,
    /// The scale of the widths over that of the heights: of the section, and of the transformed section.
    pub shrunk: [f64; 2],
    /// The stretches of height of each material, with the material's place.
    pub bands: Vec<(Band, usize)>,
    /// The greatest size of the bending stress, Pa.
    pub greatest: f64,
}

impl Transformed {
    /// The material of a part.
    pub(crate) fn material_of(&self, part: usize) -> Option<&Material> {
        self.materials.iter().find(|material| material.parts.contains(&part))
    }
}

/// Section, transformed section and stress in each material; none where the beam is of one material.
pub(crate) fn transformed(scene: &Scene) -> Option<Drawing> {
    let materials = scene.problem.materials();
    if materials.is_empty() {
        return None;
    }
    let drawn = strips(scene, Breadths::Drawn);
    let strips = strips(scene, Breadths::Transformed);
    let wide = extent(scene, &strips);
    let room = if scene.sheet.is_narrow() { NARROW_ROOM } else { ROOM };
    let rooms = [(scene.extent, room.0), (wide, room.1)];
    let usual = HEIGHT / scene.extent.height();
    let to_one_scale = rooms.iter().fold(usual, |scale, (box_of, room)| scale.min(room / box_of.breadth()));
    let scale = if to_one_scale >= LOWEST * usual { to_one_scale } else { usual };
    let shrunk = rooms.map(|(box_of, room)| {
        let widest = room / (box_of.breadth() * scale);
        SHRUNK.into_iter().find(|share| *share <= widest * (1.0 + 1e-9)).unwrap_or(widest)
    });
    let stress = &scene.stress[0];
    let rank = |part: usize| materials.iter().position(|material| material.parts.contains(&part));
    let bands: Vec<(Band, usize)> =
        bands(scene, false).into_iter().filter_map(|band| Some((band, rank(band.part)?))).collect();
    let sizes = bands.iter().flat_map(|(band, _)| [band.from, band.to].map(|height| (band.part, height)));
    let greatest =
        sizes.fold(0.0_f64, |most, (part, height)| most.max(stress.bending_stress_in(part, height).abs()));
    let of = Transformed { materials, strips, shrunk, bands, greatest };

    let high = High { scale, extent: scene.extent };
    let section = Across { scale: scale * shrunk[0], left: 0.0, wide: scene.extent };
    let start = section.right() + scene.across(BETWEEN) + 18.0;
    let across = Across { scale: scale * shrunk[1], left: start, wide };
    let axis = across.right() + scene.across(BETWEEN) + scene.across(PANEL);
    let end = axis + scene.across(PANEL) + 12.0;
    let mut wishes = Vec::new();
    let as_drawn = outlined(scene, &high, &of, &drawn, &section);
    let widened = outlined(scene, &high, &of, &of.strips, &across);
    let mut lines = level_lines(scene, &high, (section.right(), end));
    let words = match scene.sheet.is_narrow() {
        true => ["section", "transformed", "stress"],
        false => ["section", "transformed section", "bending stress"],
    };
    let heads = [
        head(scene, &high, 0.5 * section.right(), words[0]),
        head(scene, &high, 0.5 * (start + across.right()), words[1]),
        head(scene, &high, axis, words[2]),
    ];
    let block = block(scene, &high, &of, axis, &mut wishes);
    let mut letters = letters(scene, &high, &of, (&drawn, &section), &mut wishes);
    letters.extend(breadths(scene, &high, &of, &across, &mut wishes));
    let tags = column(tags(scene, &high, &of, axis), end + 14.0);
    let mut placer = Placer::new();
    placer.avoid_marks(&lines);
    placer.avoid_marks(&letters);
    placer.avoid_marks(&block);
    placer.avoid_marks(&heads);
    placer.avoid_marks(&tags);
    placer.avoid_marks(&widened);
    placer.avoid_marks(&as_drawn);
    let at = Point::new(-14.0, high.y(scene.values.neutral_axis));
    wishes.push(Wish::new(Label::words("NA"), at).seats(&[Seat::Left], Escape::Any).gap(4.0));
    wishes.iter().for_each(|wish| {
        placer.put(wish);
    });
    lines.extend(heads);
    let mut marks = vec![
        Mark::group("section", "The section", as_drawn),
        Mark::group("transformed", "The transformed section", widened),
        Mark::group("letters", "Letters of the materials and transformed breadths", letters),
        Mark::group("levels", "Neutral axis, level through all", lines),
        Mark::group("bending-stress", "Bending stress in each material over the depth", block),
        Mark::group("values", "Values of the bending stress", tags),
    ];
    marks.push(Mark::group("labels", "Labels", placer.into_marks()));
    let under = bounds(&marks);
    marks.push(legend(&entries(scene, &of), under, scene.sheet));
    let (short, long) = transformed_words::describe(scene, &of);
    let title = "Section, transformed section and bending stress in each material";
    Some(Drawing::fitted("transformed", title, 12.0, scene.sheet.width, marks).described(short, long))
}

/// The neutral axis through all three, and where parts begin and end.
fn level_lines(scene: &Scene, high: &High, (right, end): (f64, f64)) -> Vec<Mark> {
    let line = |from: f64, height: f64, stroke: Stroke| Mark::Line {
        from: Point::new(from, high.y(height)),
        to: Point::new(end, high.y(height)),
        stroke,
    };
    let levels = scene.section.levels();
    let mut marks: Vec<Mark> =
        levels.map(|height| line(right + 6.0, height, Stroke::solid(Ink::Faint, THIN))).collect();
    marks.push(line(-14.0, scene.values.neutral_axis, Stroke::dash_dot(Ink::Line, THIN)));
    marks
}

/// What stands over a panel.
fn head(scene: &Scene, high: &High, middle: f64, words: &str) -> Mark {
    Mark::Text {
        at: Point::new(middle, high.y(scene.extent.top) - 30.0),
        label: Label::words(words),
        align: Align::Middle,
        size: scene.sheet.small,
        ink: Ink::Quiet,
    }
}

/// The letters of the materials on the parts of the section: within where there is room, else beside.
fn letters(
    scene: &Scene,
    high: &High,
    of: &Transformed,
    (drawn, section): (&[Strip], &Across),
    wishes: &mut Vec<Wish>,
) -> Vec<Mark> {
    let mut marks = Vec::new();
    let size = scene.sheet.small;
    let axis = high.y(scene.values.neutral_axis);
    for part in 0..scene.section.parts().len() {
        let of_part = |strip: &Strip| {
            let piece = strip.pieces.iter().find(|piece| piece.part == part)?;
            let (left, right) = (piece.below.0.max(piece.above.0), piece.below.1.min(piece.above.1));
            Some(Rect {
                left: section.x(left),
                top: high.y(strip.high),
                right: section.x(right),
                bottom: high.y(strip.low),
            })
        };
        // The highest strip of the part, as a rule all of it.
        let tallest = |one: &Rect, other: &Rect| one.height().total_cmp(&other.height());
        let (Some(material), Some(room)) =
            (of.material_of(part), drawn.iter().filter_map(of_part).max_by(tallest))
        else {
            continue;
        };
        let label = Label::symbol(material.letter.clone());
        let middle = room.middle();
        let place = [4.0, -14.0, 22.0]
            .into_iter()
            .map(|drop| label.rect(middle.moved(0.0, drop), Align::Middle, size))
            .find(|rect| {
                let clear = rect.grown(2.0);
                room.grown(-1.0).holds(clear) && !(clear.top < axis && axis < clear.bottom)
            });
        match place {
            Some(rect) => marks.extend(cross_section::name_within(label, rect, size, Ink::Material)),
            None => {
                let left = middle.x < 0.5 * section.right() - 1.0;
                let x = if left { room.left - 2.0 } else { room.right + 2.0 };
                let seats: &[Seat] = if left {
                    &[Seat::Left, Seat::AboveLeft, Seat::BelowLeft]
                } else {
                    &[Seat::Right, Seat::AboveRight, Seat::BelowRight]
                };
                let off = (middle.y - axis).abs() < 9.0 && room.height() > 30.0;
                let y = if off { middle.y + 14.0 } else { middle.y };
                let wish = Wish::new(label, Point::new(x, y)).seats(seats, Escape::Any);
                wishes.push(wish.size(size).gap(3.0));
            }
        }
    }
    marks
}

/// The breadth of what is of another material, on the transformed section.
fn breadths(
    scene: &Scene,
    high: &High,
    of: &Transformed,
    across: &Across,
    wishes: &mut Vec<Wish>,
) -> Vec<Mark> {
    let mut marks = Vec::new();
    let mut done: Vec<(usize, i64)> = Vec::new();
    for piece in of.strips.iter().flat_map(|strip| strip.pieces.iter().map(move |piece| (strip, piece))) {
        let (strip, piece) = piece;
        let Some(material) = of.material_of(piece.part).filter(|material| !material.is_reference()) else {
            continue;
        };
        let breadth = piece.below.1 - piece.below.0;
        let rank = of.materials.iter().position(|other| other.letter == material.letter).unwrap_or(0);
        // One of several like plates stands for all; sloping sides have no one breadth.
        let key = (rank, (breadth / scene.extent.breadth() * 1e6).round() as i64);
        let upright = (piece.above.1 - piece.above.0 - breadth).abs() <= 1e-9 * breadth.abs();
        if !upright || done.contains(&key) {
            continue;
        }
        done.push(key);
        let (low, top) = (high.y(strip.low), high.y(strip.high));
        let y = dimension_height(scene, high, (low, top));
        let (a, b) = (Point::new(across.x(piece.below.0), y), Point::new(across.x(piece.below.1), y));
        let stroke = Stroke::solid(Ink::Quiet, THIN);
        let label = breadth_label(scene, material, breadth);
        let wish = if b.x - a.x > 24.0 {
            marks.extend(arrow::double(a, b, stroke));
            let at = Point::new(0.5 * (a.x + b.x), y);
            Wish::new(label, at).seats(&[Seat::Below, Seat::Above], Escape::Down)
        } else {
            marks.extend(arrow::straight(a.moved(-14.0, 0.0), a, stroke));
            marks.extend(arrow::straight(b.moved(14.0, 0.0), b, stroke));
            let seats = [Seat::Right, Seat::BelowRight, Seat::AboveRight];
            Wish::new(label, b.moved(14.0, 0.0)).seats(&seats, Escape::Any)
        };
        wishes.push(wish.size(scene.sheet.small));
    }
    marks
}

/// Where the dimension of a strip between two heights on the sheet stands: in its middle and off the neutral axis, or beside
/// the section where it is too low to hold it.
fn dimension_height(scene: &Scene, high: &High, (low, top): (f64, f64)) -> f64 {
    let middle = 0.5 * (low + top);
    if low - top >= 14.0 {
        let axis = high.y(scene.values.neutral_axis);
        let moved = middle + 16.0;
        return if (middle - axis).abs() < 10.0 && moved < low - 4.0 { moved } else { middle };
    }
    let (bottom, highest) = (high.y(scene.extent.bottom), high.y(scene.extent.top));
    if bottom - low < 1.0 {
        low + 10.0
    } else if top - highest < 1.0 {
        top - 10.0
    } else {
        middle
    }
}

/// `n_s b = 200 mm`
fn breadth_label(scene: &Scene, material: &Material, breadth: f64) -> Label {
    let w = &scene.writer;
    let product = w.symbol_indexed(Role::ModularRatio, &material.letter).and_words("\u{a0}");
    let product = product.followed_by(w.symbol(Role::Breadth));
    product.equals(w.value(breadth, Dimension::LENGTH, Role::Breadth))
}

/// The stress in each material, tension to the right, what is larger behind.
fn block(scene: &Scene, high: &High, of: &Transformed, axis: f64, wishes: &mut Vec<Wish>) -> Vec<Mark> {
    let stress = &scene.stress[0];
    let mut marks = Vec::new();
    if of.greatest <= 0.0 {
        let at = Point::new(axis, high.y(scene.extent.bottom));
        let label = Label::words("none: no moment here");
        let wish = Wish::new(label, at).seats(&[Seat::Below], Escape::Down);
        wishes.push(wish.size(scene.sheet.small));
        marks.push(height_axis(scene, high, axis));
        return marks;
    }
    let per_stress = scene.across(PANEL) / of.greatest;
    let mut bands: Vec<&(Band, usize)> = of.bands.iter().collect();
    bands.sort_by(|(_, one), (_, other)| {
        of.materials[*other].modular_ratio.total_cmp(&of.materials[*one].modular_ratio)
    });
    for (band, _) in bands {
        let neutral = scene.values.neutral_axis.clamp(band.from, band.to);
        for (from, to) in [(band.from, neutral), (neutral, band.to)] {
            let middle = stress.bending_stress_in(band.part, 0.5 * (from + to));
            if to - from <= 0.0 || middle == 0.0 {
                continue;
            }
            let at = |height: f64| {
                let value = stress.bending_stress_in(band.part, height);
                Point::new(axis + value * per_stress, high.y(height))
            };
            let foot = |height: f64| Point::new(axis, high.y(height));
            let (tint, stroke) = if middle > 0.0 {
                (Ink::TensionTint, Stroke::solid(Ink::Tension, MEDIUM))
            } else {
                (Ink::CompressionTint, Stroke::dashed(Ink::Compression, MEDIUM))
            };
            let points = vec![foot(from), at(from), at(to), foot(to)];
            marks.push(Mark::Polygon { points: points.clone(), stroke: None, fill: Some(tint) });
            for (&from, &to) in points.iter().zip(&points[1..]) {
                marks.push(Mark::Line { from, to, stroke });
            }
        }
    }
    marks.push(height_axis(scene, high, axis));
    marks
}

/// The axis of the stress.
fn height_axis(scene: &Scene, high: &High, x: f64) -> Mark {
    Mark::Line {
        from: Point::new(x, high.y(scene.extent.bottom)),
        to: Point::new(x, high.y(scene.extent.top)),
        stroke: Stroke::solid(Ink::Line, MEDIUM),
    }
}

/// The values at the ends of each material.
fn tags(scene: &Scene, high: &High, of: &Transformed, axis: f64) -> Vec<Tag> {
    let stress = &scene.stress[0];
    if of.greatest <= 0.0 {
        return Vec::new();
    }
    let per_stress = scene.across(PANEL) / of.greatest;
    let mut tags = Vec::new();
    for (band, rank) in &of.bands {
        for height in [band.from, band.to] {
            let value = stress.bending_stress_in(band.part, height);
            let (letter, ink) = match value {
                value if value > 0.0 => ("\u{a0}T", Ink::Tension),
                value if value < 0.0 => ("\u{a0}C", Ink::Compression),
                _ => ("", Ink::Line),
            };
            let shown = scene.writer.value(value.abs(), Dimension::STRESS, Role::BendingStress);
            let symbol = scene.writer.symbol_indexed(Role::BendingStress, &of.materials[*rank].letter);
            let label = symbol.equals(shown).and_words(letter);
            let at = Point::new(axis + (value * per_stress).max(0.0), high.y(height));
            tags.push(Tag { at, label, ink });
        }
    }
    tags
}

/// What the legend names: the materials by letter and hatch, the neutral axis, the signs.
fn entries(scene: &Scene, of: &Transformed) -> Vec<(Sample, Label)> {
    let mut entries = materials::entries(scene, Told::All);
    entries.push((Sample::NeutralAxis, Label::words("neutral axis NA")));
    if of.greatest > 0.0 {
        entries.push((Sample::Line(Stroke::solid(Ink::Tension, MEDIUM)), Label::words("tension, T")));
        let dashed = Stroke::dashed(Ink::Compression, MEDIUM);
        entries.push((Sample::Line(dashed), Label::words("compression, C")));
    }
    let remark = transformed_words::shrunk(of);
    if !remark.is_empty() {
        entries.push((Sample::None, Label::words(remark)));
    }
    entries
}
