//! The stress trajectories over the side of the beam.

use crate::cut_words::at_most;
use crate::drawing::{Description, Drawing, Mark, bounds};
use crate::label::{Escape, Placer, Seat, Wish};
use crate::legend::{Sample, legend};
use crate::palette::{Ink, Stroke};
use crate::point_words;
use crate::scene::Scene;
use crate::side::{self, Side};
use crate::text::Label;
use crate::trajectory_lines;
use crate::view::BeamView;
use mechanics::stress::{Family, Panel, PlaneStress, StressField};
use workings::dimension::Dimension;
use workings::role::Role;

/// The deepest that the beam is drawn, px.
const ROOM: f64 = 168.0;
/// The lines of tension and of compression.
const STROKES: [Stroke; 2] = [Stroke::solid(Ink::Tension, 1.1), Stroke::dashed(Ink::Compression, 1.1)];

/// The lines of principal tension and of principal compression.
pub(crate) fn trajectories(scene: &Scene, view: &BeamView<'_>) -> Drawing {
    let field = StressField::new(view.solution, scene.section);
    let side = Side::new(scene, view, 0.0, ROOM);
    let axis = scene.values.neutral_axis;
    let jumps: Vec<Mark> = jumps(&field, &side);
    let has_jumps = !jumps.is_empty();
    let mut marks = jumps;
    marks.push(side.axis(scene));
    let mut counts = [0; 2];
    let families = [
        (Family::Compression, 1, "compression", "Lines of principal compression"),
        (Family::Tension, 0, "tension", "Lines of principal tension"),
    ];
    for (family, stroke, id, title) in families {
        let (steps, count) = trajectory_lines::lines(&field, &side, axis, family);
        counts[stroke] = count;
        if !steps.is_empty() {
            let path = Mark::Path { steps, stroke: Some(STROKES[stroke]), fill: None };
            marks.push(Mark::group(id, title, vec![path]));
        }
    }
    marks.push(side.outline());
    let mut placer = Placer::new();
    placer.avoid_rect(side.rect());
    let supports = side.supports(view, &mut placer);
    let spot = side.at(scene.values.station, scene.cut);
    let mut labels = Vec::new();
    if !supports.is_empty() {
        marks.push(Mark::group("supports", "Supports", supports));
    }
    let dot = Mark::Circle {
        centre: spot,
        radius: 4.0,
        stroke: Some(Stroke::solid(Ink::Paper, 1.5)),
        fill: Some(Ink::Cut),
    };
    let above = crate::geometry::Point::new(spot.x, side.rect().top);
    let leader = Mark::Line {
        from: above.moved(0.0, -6.0),
        to: spot.moved(0.0, -4.0),
        stroke: Stroke::solid(Ink::Cut, 1.0),
    };
    placer.put(
        &Wish::new(Label::words("the cut at the slice"), above.moved(0.0, -6.0))
            .seats(&[Seat::Above, Seat::AboveRight, Seat::AboveLeft], Escape::Up)
            .gap(3.0)
            .ink(Ink::Cut),
    );
    marks.push(Mark::group("place", "The cut at the slice", vec![leader, dot]));
    labels.extend(placer.into_marks());
    marks.push(Mark::group("labels", "Labels", labels));
    let mut entries = Vec::new();
    if counts.iter().any(|&count| count > 0) {
        entries.push((Sample::Line(STROKES[0]), Label::words("principal tension")));
        entries.push((Sample::Line(STROKES[1]), Label::words("principal compression")));
    } else {
        entries.push((Sample::None, Label::words("no stress, no lines")));
    }
    entries.push((Sample::Line(Stroke::AXIS), Label::words("neutral axis")));
    if has_jumps {
        entries.push((Sample::Line(side::JUMPS), Label::words("where the stress jumps")));
    }
    entries.push((Sample::None, Label::words(remark(scene, &side))));
    let under = bounds(&marks);
    marks.push(legend(&entries, under, scene.sheet));
    let (short, long) = describe(scene, &field, &side, counts);
    Drawing::on_sheet("trajectories", "Stress trajectories", 8.0, scene.sheet.width, marks)
        .described(short, long)
}

/// The heights at which the stress jumps, along the whole beam: there the lines turn, or end.
fn jumps(field: &StressField<'_>, side: &Side) -> Vec<Mark> {
    let least = 0.005 * field.scale();
    let jumps = |below: &Panel, above: &Panel| {
        [0.0, 0.5, 1.0].into_iter().any(|part| {
            let station = below.from + part * (below.to - below.from);
            let (one, other) =
                (field.stress(below, station, below.top), field.stress(above, station, above.bottom));
            (one.shear - other.shear).abs() > least || (one.normal - other.normal).abs() > least
        })
    };
    let mut heights: Vec<f64> = Vec::new();
    for below in field.panels() {
        let Some(above) = field.panel(below.stretch, below.strip + 1) else { continue };
        if !heights.contains(&below.top) && jumps(&below, &above) {
            heights.push(below.top);
        }
    }
    let line = |height: f64| Mark::Line {
        from: side.at(0.0, height),
        to: side.at(field.length(), height),
        stroke: side::JUMPS,
    };
    heights.into_iter().map(line).collect()
}

/// What is to be said of the scales, and of the angles that they change.
fn remark(scene: &Scene, side: &Side) -> String {
    if side.stretch == 1.0 {
        side.remark(scene)
    } else {
        format!("{}, so 45° and right angles are not seen as such", side.remark(scene))
    }
}

fn describe(
    scene: &Scene,
    field: &StressField<'_>,
    side: &Side,
    counts: [usize; 2],
) -> (String, Description) {
    let w = &scene.writer;
    let short = at_most(
        "Side of the beam with the lines of principal tension, full, and of principal compression, dashed: they cross at \
         right angles, and the neutral axis at 45°.",
    );
    let mut long = Description::new();
    if !scene.told {
        return (short, long);
    }
    long.sentence("The side of the beam with the lines along which the principal stresses act.");
    long.list(vec![
        format!("principal tension, full lines: {}", counts[0]),
        format!("principal compression, dashed lines: {}", counts[1]),
    ]);
    long.sentence(
        "The lines of one family cross those of the other at right angles, the neutral axis at 45°, and meet the upper and \
         the lower edge upright or run along it.",
    );
    let station = scene.values.station;
    let extent = scene.extent;
    let mut heights = vec![extent.bottom, scene.values.neutral_axis, scene.cut, extent.top];
    heights.sort_by(f64::total_cmp);
    heights.dedup_by(|a, b| (*a - *b).abs() <= 1e-9 * extent.height());
    let scale = field.scale();
    let at_cut = |height: f64| (height - scene.cut).abs() <= 1e-9 * extent.height();
    let rows = heights.iter().filter_map(|&height| {
        // At the cut the very stresses of the element: where the width or V jumps the panels to both sides have others.
        let stress = match scene.values.bending_on_cut {
            Some(normal) if at_cut(height) => PlaneStress { normal, shear: scene.values.stress_on_cut },
            _ => field.stress(&field.panel_at(station, height)?, station, height),
        };
        let principal = stress.principal();
        let direction = if principal.largest_shear <= point_words::NOUGHT * scale {
            "none".to_owned()
        } else {
            point_words::angle(scene, principal.angle)
        };
        let stress = |value: f64| {
            let settled = if value.abs() <= point_words::NOUGHT * scale { 0.0 } else { value };
            w.text_beside(settled, Dimension::STRESS, Role::PrincipalStress, scale)
        };
        let place = w.text(height - extent.bottom, Dimension::LENGTH, Role::Depth);
        Some(vec![
            if at_cut(height) { format!("{place}, the cut") } else { place },
            stress(principal.largest),
            stress(principal.smallest),
            direction,
        ])
    });
    let head = ["Height", "Largest", "Smallest", "Direction of the largest"];
    long.table("Principal stresses at the slice", &head, rows.collect());
    long.sentence(format!("In the drawing: {}.", remark(scene, side)));
    (short, long)
}
