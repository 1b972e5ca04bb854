//! The section with the true shear stress: bands between contours, arrows, what is left out at sharp corners.

use crate::arrow;
use crate::contours::{Field, Reached};
use crate::cross_section::{self, Frame};
use crate::drawing::Mark;
use crate::geometry::{Point as Spot, Rect, is_inside};
use crate::outline::Extent;
use crate::palette::{Ink, MEDIUM, Stroke, THIN};
use crate::prism_marks::filled;
use crate::scene::Scene;
use crate::text::{Align, Label};
use mechanics::elastic::ElasticField;
use mechanics::real;
use mechanics::section::{HeightSide, Point};
use workings::dimension::Dimension;
use workings::elastic::{ElasticTruth, InMaterial};
use workings::quantity::Quantity;
use workings::role::Role;

/// Distance between two arrows, px.
const PITCH: f64 = 20.0;
/// The longest arrow and the shortest, px.
const ARROWS: (f64, f64) = (16.0, 3.0);
/// Head of an arrow, px.
const HEAD: f64 = 4.5;
/// Width and height of one band in the scale, px.
const CELL: (f64, f64) = (46.0, 12.0);

/// Where the largest stress in one material is so many times that in another, each has a scale of its own.
const UNLIKE: f64 = 3.0;
/// Room of a material that is drawn alone, px across and down.
const DETAIL: (f64, f64) = (220.0, 220.0);
/// One that is so many times as large when it is drawn alone is drawn alone too.
const ENLARGED: f64 = 1.5;

/// Round values at which contours are drawn.
#[derive(Clone, Debug)]
pub(crate) struct Contours {
    /// Their values, rising, Pa.
    pub levels: Vec<f64>,
    /// The value that they are written beside, Pa.
    largest: f64,
}

impl Contours {
    /// Round values up to the largest stress, in the unit of the course.
    pub fn of(scene: &Scene, largest: f64) -> Self {
        let style = scene.writer.style();
        let unit = style.show(Quantity::new(largest, Dimension::STRESS), Role::ShearStress).unit;
        let most = unit.from_si(largest);
        // The smallest round step whose bands reach up to the largest stress.
        let bands = Ink::FIELD.len();
        let least = most / bands as f64;
        let power = real::pow(10.0, real::log10(least).floor());
        let steps = [1.0, 2.0, 2.5, 5.0].into_iter().map(|step| step * power);
        let step = steps.into_iter().find(|&step| step >= least).unwrap_or(10.0 * power);
        let levels = (1..bands).map(|k| unit.to_si(step * k as f64)).take_while(|&level| level < largest);
        Self { levels: levels.collect(), largest }
    }

    /// The band of a value: how many contours it reaches.
    pub fn tint(band: usize) -> Ink {
        Ink::FIELD[band.min(Ink::FIELD.len() - 1)]
    }

    /// A contour's number without its unit.
    pub fn number(&self, scene: &Scene, level: f64) -> String {
        let quantity = Quantity::new(level, Dimension::STRESS);
        let shown = scene.writer.style().show_beside(quantity, Role::ShearStress, self.largest);
        shown.whole(quantity).number_text()
    }

    /// Their unit.
    pub fn unit(&self, scene: &Scene) -> String {
        let quantity = Quantity::new(self.largest, Dimension::STRESS);
        scene.writer.style().show(quantity, Role::ShearStress).unit.text()
    }
}

/// Parts of the section with contours of their own.
pub(crate) struct Zone {
    /// The name of their material; none where all of the section has one scale.
    pub name: Option<String>,
    /// By their place in the section.
    parts: Vec<usize>,
    /// Their contours.
    pub contours: Contours,
}

/// The zones of a section: one, or one for each material where the stresses in them are so unlike that one scale would show those of one
/// material alone.
pub(crate) fn zones(scene: &Scene, truth: &ElasticTruth) -> Vec<Zone> {
    let largest: Vec<f64> =
        truth.materials.iter().filter_map(|one| one.largest.map(|largest| largest.value)).collect();
    let (least, most) =
        largest.iter().fold((f64::INFINITY, 0.0_f64), |(least, most), &one| (least.min(one), most.max(one)));
    if largest.len() < truth.materials.len() || largest.len() < 2 || most < UNLIKE * least {
        let contours = Contours::of(scene, truth.largest.value);
        return vec![Zone { name: None, parts: (0..scene.section.parts().len()).collect(), contours }];
    }
    let zone = |(one, largest): (&InMaterial, f64)| Zone {
        name: Some(one.material.name.clone()),
        parts: one.material.parts.clone(),
        contours: Contours::of(scene, largest),
    };
    truth.materials.iter().zip(largest).map(zone).collect()
}

/// The bands and the contours of a zone, with what reaches each level.
fn field_of(
    scene: &Scene,
    frame: &Frame,
    stresses: &ElasticField,
    zone: &Zone,
) -> (Vec<Mark>, Vec<Mark>, Vec<Reached>) {
    let field = on_sheet(frame, stresses, &zone.parts);
    let mut bands: Vec<Mark> = own_loops(scene, frame, zone)
        .iter()
        .map(|loops| filled(loops, Some(Contours::tint(0)), None))
        .collect();
    let mut lines = Vec::new();
    let reached: Vec<Reached> = zone.contours.levels.iter().map(|&level| field.reached(level)).collect();
    for (band, reached) in reached.iter().enumerate() {
        bands.push(filled(&reached.loops, Some(Contours::tint(band + 1)), None));
        for line in &reached.lines {
            lines.push(open(line, Stroke::solid(Ink::Quiet, 0.6)));
        }
    }
    (bands, lines, reached)
}

/// The rings of the bodies of a zone.
fn own_loops(scene: &Scene, frame: &Frame, zone: &Zone) -> Vec<Vec<Vec<Spot>>> {
    let bodies = scene.bodies.iter().filter(|body| body.parts.iter().any(|part| zone.parts.contains(part)));
    bodies.map(|body| frame.loops(&body.region)).collect()
}

/// The zones that are so small or so slender within the whole that they are drawn once more, alone and enlarged, below one another from
/// a place on; each under what it is.
pub(crate) fn details(
    scene: &Scene,
    whole: &Frame,
    truth: &ElasticTruth,
    zones: &[Zone],
    top: f64,
) -> Vec<Mark> {
    let stresses = truth.field();
    let mut marks = Vec::new();
    let mut top = top;
    for (place, zone) in zones.iter().enumerate() {
        let Some(name) = &zone.name else { continue };
        let extent = Extent::round(
            scene
                .bodies
                .iter()
                .filter(|body| body.parts.iter().any(|part| zone.parts.contains(part)))
                .map(|body| &body.region),
        );
        let mut frame = Frame::fitting(extent, (scene.across(DETAIL.0), DETAIL.1), Spot::new(0.0, 0.0));
        let times = frame.scale / whole.scale;
        if times < ENLARGED {
            continue;
        }
        let size = scene.sheet.small;
        let base = top + crate::metrics::ASCENT * size;
        frame.corner = Spot::new(0.0, base + 10.0 + extent.height() * frame.scale);
        let (bands, lines, reached) = field_of(scene, &frame, &stresses, zone);
        let loops = own_loops(scene, &frame, zone);
        let solids: Vec<Vec<Spot>> = loops.iter().flatten().cloned().collect();
        let values = numbers(scene, &zone.contours, &reached, &solids, &mut Vec::new());
        let times = scene.writer.given_text((10.0 * times).round() / 10.0, Dimension::NONE, Role::Ratio);
        let mut own = vec![Mark::Text {
            at: Spot::new(0.0, base),
            label: Label::words(format!("{name} alone, enlarged {times} times")),
            align: Align::Start,
            size,
            ink: Ink::Line,
        }];
        own.extend(bands);
        own.extend(lines);
        own.extend(loops.iter().map(|loops| filled(loops, None, Some(Stroke::solid(Ink::Line, THIN)))));
        own.extend(values);
        marks.push(Mark::group(format!("detail-{}", place + 1), "One material alone, enlarged", own));
        top = frame.corner.y + 16.0;
    }
    marks
}

/// The section with bands, contours, arrows, outlines.
pub(crate) fn marks(scene: &Scene, frame: &Frame, truth: &ElasticTruth, zones: &[Zone]) -> Vec<Mark> {
    let stresses = truth.field();
    let solids: Vec<Vec<Spot>> = scene.regions().iter().flat_map(|region| frame.loops(region)).collect();
    let (mut bands, mut lines, mut all_reached) = (Vec::new(), Vec::new(), Vec::new());
    for zone in zones {
        let (own_bands, own_lines, reached) = field_of(scene, frame, &stresses, zone);
        bands.extend(own_bands);
        lines.extend(own_lines);
        all_reached.push(reached);
    }
    let largest = frame.at(truth.largest.at);
    // The mark of the largest stress, and the line from it to what is written of it.
    let out = Spot::new(frame.right(), largest.y);
    let mut taken = vec![Rect::between(largest, largest).grown(7.0), Rect::between(largest, out).grown(1.0)];
    taken.extend(cross_section::fastenings(scene, frame).iter().map(Mark::rect));
    let mut numbers = Vec::new();
    for (zone, reached) in zones.iter().zip(&all_reached) {
        numbers.extend(self::numbers(scene, &zone.contours, reached, &solids, &mut taken));
    }
    let mut marks = vec![
        Mark::group("bands", "Bands of the true shear stress", bands),
        Mark::group("contours", "Contours of the true shear stress", lines),
    ];
    marks.push(Mark::group(
        "arrows",
        "Direction of the true shear stress",
        arrows(scene, frame, truth, &solids, &taken),
    ));
    marks.extend(cross_section::outlines(scene, frame));
    marks.push(Mark::group("contour-values", "Values of the contours", numbers));
    let corners = truth.sharp_corners().iter().map(|corner| Mark::Circle {
        centre: frame.at(corner.at),
        radius: (corner.left_out * frame.scale).max(3.0),
        stroke: Some(Stroke::dotted(Ink::Line, MEDIUM)),
        fill: None,
    });
    let corners: Vec<Mark> = corners.collect();
    if !corners.is_empty() {
        marks.push(Mark::group("sharp-corners", "What is left out at sharp corners", corners));
    }
    let ring = |radius: f64, stroke, fill| Mark::Circle { centre: largest, radius, stroke, fill };
    marks.push(Mark::group(
        "largest",
        "Where the true shear stress is largest",
        vec![
            ring(4.5, Some(Stroke::solid(Ink::Cut, 1.5)), Some(Ink::Paper)),
            ring(1.5, None, Some(Ink::Cut)),
        ],
    ));
    marks
}

fn on_sheet(frame: &Frame, stresses: &ElasticField, parts: &[usize]) -> Field {
    let mut facets = stresses.facets();
    facets.triangles.retain(|triangle| parts.contains(&facets.corners[triangle[0]].0));
    Field {
        corners: facets.corners.iter().map(|(_, at, stress)| (frame.at(*at), stress.size())).collect(),
        triangles: facets.triangles,
    }
}

fn open(points: &[Spot], stroke: Stroke) -> Mark {
    let mut steps = Vec::new();
    for (place, &point) in points.iter().enumerate() {
        steps.push(if place == 0 {
            crate::drawing::Step::Move(point)
        } else {
            crate::drawing::Step::Line(point)
        });
    }
    Mark::Path { steps, stroke: Some(stroke), fill: None }
}

/// The values of the contours on their lines, where there is room for them within the section.
fn numbers(
    scene: &Scene,
    contours: &Contours,
    reached: &[Reached],
    solids: &[Vec<Spot>],
    taken: &mut Vec<Rect>,
) -> Vec<Mark> {
    const SIZE: f64 = crate::text::SMALL;
    let crossed = |rect: Rect, own: usize| {
        reached.iter().enumerate().any(|(band, reached)| {
            band != own
                && reached
                    .lines
                    .iter()
                    .any(|line| line.windows(2).any(|pair| rect.is_crossed(pair[0], pair[1])))
        })
    };
    let mut marks = Vec::new();
    for (band, (&level, here)) in contours.levels.iter().zip(reached).enumerate() {
        let label = Label::words(contours.number(scene, level));
        for line in &here.lines {
            let length: f64 = line.windows(2).map(|pair| pair[0].distance(pair[1])).sum();
            if length < 2.0 * label.width(SIZE) {
                continue;
            }
            let seat = along(line).into_iter().find_map(|at| {
                let base = at.moved(0.0, 0.5 * crate::metrics::CAP_HEIGHT * SIZE);
                let rect = label.rect(base, Align::Middle, SIZE);
                let room = rect.grown(1.0);
                let corners = [
                    Spot::new(room.left, room.top),
                    Spot::new(room.right, room.top),
                    Spot::new(room.left, room.bottom),
                    Spot::new(room.right, room.bottom),
                ];
                let free = corners.iter().all(|&corner| is_inside(solids, corner))
                    && !taken.iter().any(|other| other.overlaps(room.grown(2.0)))
                    && !crossed(room, band);
                free.then_some((base, rect))
            });
            let Some((at, rect)) = seat else { continue };
            taken.push(rect.grown(1.0));
            // The line is broken where its value stands.
            let (top, bottom) = (at.y - crate::metrics::CAP_HEIGHT * SIZE - 1.0, at.y + 1.0);
            let points = vec![
                Spot::new(rect.left, top),
                Spot::new(rect.right, top),
                Spot::new(rect.right, bottom),
                Spot::new(rect.left, bottom),
            ];
            marks.push(Mark::Polygon { points, stroke: None, fill: Some(Contours::tint(band + 1)) });
            let label = label.clone();
            marks.push(Mark::Text { at, label, align: Align::Middle, size: SIZE, ink: Ink::Line });
            break;
        }
    }
    marks
}

/// Places along a line, its middle first.
fn along(line: &[Spot]) -> Vec<Spot> {
    let lengths: Vec<f64> = line.windows(2).map(|pair| pair[0].distance(pair[1])).collect();
    let whole: f64 = lengths.iter().sum();
    [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9]
        .into_iter()
        .filter_map(|share| {
            let mut left = share * whole;
            for (pair, &length) in line.windows(2).zip(&lengths) {
                if left <= length && length > 0.0 {
                    return Some(pair[0].towards(pair[1], left / length));
                }
                left -= length;
            }
            None
        })
        .collect()
}

/// Arrows on a lattice that has a place in the narrowest wall: as long as the stress is large.
fn arrows(
    scene: &Scene,
    frame: &Frame,
    truth: &ElasticTruth,
    solids: &[Vec<Spot>],
    taken: &[Rect],
) -> Vec<Mark> {
    let field = truth.field();
    let stroke = Stroke::solid(Ink::Line, THIN);
    let rows = (scene.extent.height() * frame.scale / PITCH).round().max(3.0) as usize;
    let mut marks = Vec::new();
    for row in 0..rows {
        let height = scene.extent.bottom + scene.extent.height() * (row as f64 + 0.5) / rows as f64;
        for chord in scene.chords_of_materials(height, HeightSide::Above) {
            let count = (chord.length() * frame.scale / PITCH).round().max(1.0) as usize;
            for k in 0..count {
                let x = chord.left + chord.length() * (k as f64 + 0.5) / count as f64;
                let at = Point::new(x, height);
                let Some(stress) = field.at(at) else { continue };
                let px = (ARROWS.0 * stress.size() / truth.largest.value).min(ARROWS.0);
                if px < ARROWS.1 {
                    continue;
                }
                let half = 0.5 * px / stress.size();
                let (dx, dy) = (half * stress.right, -half * stress.up);
                let middle = frame.at(at);
                let (from, to) = (middle.moved(-dx, -dy), middle.moved(dx, dy));
                let room = Rect::between(from, to).grown(2.0);
                let free = is_inside(solids, from) && is_inside(solids, to);
                if free && !taken.iter().any(|other| other.overlaps(room)) {
                    marks.extend(arrow::straight_with_head(from, to, stroke, HEAD.min(0.6 * px)));
                }
            }
        }
    }
    marks
}

/// The bands with the values of the contours between them, from `left` px on; one below the other, and how far down they reach, px.
pub(crate) fn scales(scene: &Scene, zones: &[Zone], (left, top): (f64, f64)) -> (Mark, f64) {
    let step = CELL.1 + 10.0 + scene.sheet.small;
    let at = |place: usize| (left, top + step * place as f64);
    let all = zones.iter().enumerate().flat_map(|(place, zone)| scale(scene, zone, at(place))).collect();
    (Mark::group("scale", "Scale of the bands", all), at(zones.len()).1)
}

fn scale(scene: &Scene, zone: &Zone, (left, top): (f64, f64)) -> Vec<Mark> {
    let contours = &zone.contours;
    let size = scene.sheet.small;
    let widest = contours.levels.iter().map(|&level| Label::words(contours.number(scene, level)).width(size));
    let cell = widest.fold(0.6 * CELL.0, f64::max).max(0.0) + 6.0;
    let mut marks = Vec::new();
    for band in 0..=contours.levels.len() {
        let (from, to) = (left + cell * band as f64, left + cell * (band as f64 + 1.0));
        marks.push(Mark::Polygon {
            points: vec![
                Spot::new(from, top),
                Spot::new(to, top),
                Spot::new(to, top + CELL.1),
                Spot::new(from, top + CELL.1),
            ],
            stroke: Some(Stroke::solid(Ink::Quiet, 0.6)),
            fill: Some(Contours::tint(band)),
        });
    }
    let base = top + CELL.1 + 4.0 + crate::metrics::ASCENT * size;
    for (place, &level) in contours.levels.iter().enumerate() {
        marks.push(Mark::Text {
            at: Spot::new(left + cell * (place as f64 + 1.0), base),
            label: Label::words(contours.number(scene, level)),
            align: Align::Middle,
            size,
            ink: Ink::Line,
        });
    }
    let end = left + cell * (contours.levels.len() as f64 + 1.0) + 8.0;
    marks.push(Mark::Text {
        at: Spot::new(end, top + CELL.1),
        label: Label::words(match &zone.name {
            Some(name) => format!("{} in {name}", contours.unit(scene)),
            None => contours.unit(scene),
        }),
        align: Align::Start,
        size,
        ink: Ink::Line,
    });
    marks
}
