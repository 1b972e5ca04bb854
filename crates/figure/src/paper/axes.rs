//! Axes on which a student draws a curve.

use super::Letters;
use super::section::guide;
use crate::beam::MARGIN;
use crate::cross_section::{self, Frame};
use crate::drawing::{Description, Drawing, Mark, bounds};
use crate::geometry::Point;
use crate::label::{Escape, Placer, Seat, Wish};
use crate::levels::{head, height_axis};
use crate::palette::{Ink, Stroke, THIN};
use crate::scene::Scene;
use crate::scribe::Scribe;
use crate::sizes::corners;
use crate::sketch::{self, Dimensions, Shows};
use crate::view::BeamView;
use crate::words;
use mechanics::beam::{Curve, Load};
use workings::dimension::Dimension;
use workings::role::Role;
use workings::solved::Solved;

/// The beam with its loads, and below it an empty axis for the shear force or the bending moment. Dotted lines carry the supports
/// and the ends of the loads down. `None` for a curve that nobody draws by hand here.
pub fn along_the_beam(solved: &Solved, curve: Curve, letters: Letters) -> Option<Drawing> {
    let (name, role, dimension) = match curve {
        Curve::Shear => ("axes-shear-force", Role::ShearForce, Dimension::FORCE),
        Curve::BendingMoment => ("axes-bending-moment", Role::BendingMoment, Dimension::MOMENT),
        Curve::Slope | Curve::Deflection => return None,
    };
    let (view, reach) = (&BeamView::of(solved).on(letters.sheet()), letters.reach());
    let along = view.along();
    let mut placer = Placer::new();
    let shows = Shows { supports: true, reactions: false, dimensions: Dimensions::None, slice: false };
    let sketch = sketch::sketch(view, &[], shows, &mut placer);
    let mut marks = sketch.marks;
    let top = bounds(&marks).bottom + 10.0;
    let axis = top + reach;
    let guides = stations(view).into_iter().map(|station| {
        let x = along.px(station);
        guide(Point::new(x, top), Point::new(x, axis + reach))
    });
    marks.push(Mark::group("guides", "Lines at supports and loads", guides.collect()));
    let line = Mark::Line {
        from: Point::new(along.left - 6.0, axis),
        to: Point::new(along.right + 10.0, axis),
        stroke: Stroke::solid(Ink::Line, THIN),
    };
    marks.push(Mark::group("axis", "The axis", vec![line]));
    // That of the key's drawing, beside which it is held; the boxes of the answers tell as much of the size.
    let unit =
        view.scribe.axis_unit(solved.beam().extremes(curve).largest_size.value, dimension, role).text();
    let label = view.scribe.symbol(role, "").and_words(format!(", {unit}"));
    placer.put(
        &Wish::new(label, Point::new(along.left - 8.0, axis)).seats(&[Seat::Left], Escape::Any).gap(2.0),
    );
    marks.push(Mark::group("names", "", placer.take_marks()));
    let words = view.scribe.style().notation.words(role);
    let title = format!("Axis for the {words}");
    let short = format!("Empty axis below the beam, on which the {words} is to be drawn.");
    let mut long = Description::new();
    words::beam(view, &mut long);
    words::loads(view, &mut long);
    long.sentence(format!(
        "Below the beam there is a level axis for the {words}, in {unit}, without any curve."
    ));
    Some(Drawing::on_sheet(name, &title, MARGIN, view.sheet.width, marks).described(short, long))
}

/// Where the supports stand and loads begin and end, m, from left to right, each once.
fn stations(view: &BeamView<'_>) -> Vec<f64> {
    let beam = &view.problem.beam;
    let mut all = vec![0.0, beam.length];
    all.extend(beam.supports.iter().map(|support| support.station));
    all.extend(&beam.hinges);
    for load in &beam.loads {
        match *load {
            Load::Force { station, .. } | Load::Couple { station, .. } => all.push(station),
            Load::Spread { from, to, .. } => all.extend([from, to]),
        }
    }
    all.sort_by(f64::total_cmp);
    all.dedup_by(|one, other| (*one - *other).abs() <= 1e-9 * beam.length);
    all
}

/// The outline of the section, and beside it an empty axis for the bending stress or the shear stress over the depth. Dotted lines
/// carry the levels of its corners across. `None` where the section cannot be drawn, or for another role.
pub fn over_the_depth(solved: &Solved, role: Role, letters: Letters) -> Option<Drawing> {
    let (name, reaches_left) = match role {
        Role::BendingStress => ("axes-bending-stress", true),
        Role::ShearStress => ("axes-shear-stress", false),
        _ => return None,
    };
    let scene = &Scene::of(solved)?;
    // Room that the section takes beside the axis, px across and down.
    let room = (letters.either(190.0, 110.0), letters.either(230.0, 210.0));
    let origin = Point::new(0.0, 0.0);
    let frame = Frame::fitting(scene.extent, room, origin);
    // Bolts through the flanks stand out from the section.
    let out = bounds(&cross_section::given(scene, &frame)).width() - frame.right();
    let frame = if out > 8.0 { Frame::fitting(scene.extent, (room.0 - out, room.1), origin) } else { frame };
    let mut marks = vec![Mark::group("section", "The section", cross_section::given(scene, &frame))];
    // The bending stress has both signs, the shear stress one.
    let reach = letters.either(160.0, 105.0);
    let left = frame.right() + letters.either(30.0, 16.0);
    let axis = if reaches_left { left + reach } else { left + 0.25 * reach };
    let end = axis + reach;
    let levels = corners(&scene.regions(), true, scene.extent.height());
    let guides = levels.into_iter().map(|height| {
        let y = frame.y(height);
        guide(Point::new(frame.right() + 6.0, y), Point::new(end, y))
    });
    marks.push(Mark::group("guides", "Levels of the corners of the section", guides.collect()));
    let style = solved.style();
    let words = style.notation.words(role);
    let asked: &[&str] = match role {
        Role::BendingStress => &["bending stress at the top", "bending stress at the bottom"],
        _ => &["largest shear stress over the depth"],
    };
    let values =
        asked.iter().filter_map(|name| solved.workings().get(name)).map(|found| found.value.value.abs());
    let unit = Scribe::new(style).axis_unit(values.fold(0.0, f64::max), Dimension::STRESS, role).text();
    let symbol = scene.writer.symbol(role).and_words(format!(", {unit}"));
    let heading = head(scene, &frame, (axis, letters.sheet().small), words, symbol);
    marks.push(Mark::group("axis", "The axis", vec![height_axis(scene, &frame, axis), heading]));
    let short =
        format!("Empty upright axis beside the section, on which the {words} over the depth is to be drawn.");
    let mut long = super::section_words::outline(scene).1;
    long.sentence(format!(
        "Beside the section there is an upright axis for the {words}, in {unit}, from the lowest to the highest fibre, without \
         any curve."
    ));
    let title = format!("Axis for the {words} over the depth");
    Some(Drawing::fitted(name, &title, 12.0, 0.0, marks).described(short, long))
}
