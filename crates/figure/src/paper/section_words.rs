//! The section in words, as far as the lesson gives it.

use crate::cut_words::at_most;
use crate::drawing::Description;
use crate::materials::{self, Told};
use crate::scene::Scene;
use core::fmt::Write;
use mechanics::real::hypot;
use mechanics::section::{Edge, Figure, Loop, Point};
use workings::dimension::Dimension;
use workings::role::Role;

/// The short and the long description of the section with its sizes.
pub(super) fn given(scene: &Scene, with_cut: bool) -> (String, Description) {
    let name = &scene.problem.section_name;
    let height = length(scene, scene.cut - scene.extent.bottom, Role::CutHeight);
    let short = if with_cut {
        let joint = scene.problem.cut.joint.as_ref().map(|joint| format!(", at {joint}")).unwrap_or_default();
        format!(
            "Cross-section to scale: {name}, with its sizes and a level cut {height} above the lowest fibre{joint}."
        )
    } else {
        format!("Cross-section to scale: {name}, with its sizes.")
    };
    let mut long = shape(scene);
    if with_cut {
        long.sentence(format!("The cut, a heavy dash-dotted line, lies {height} above the lowest fibre."));
    }
    (at_most(&short), long)
}

/// The short and the long description of the outline alone.
pub(super) fn outline(scene: &Scene) -> (String, Description) {
    let short = format!("Outline of the section to mark on: {}.", scene.problem.section_name);
    (at_most(&short), shape(scene))
}

/// The parts with their places and sizes: enough to draw the section again.
fn shape(scene: &Scene) -> Description {
    let mut long = Description::new();
    let e = scene.extent;
    long.sentence(format!(
        "Cross-section of the beam, {}: {} wide and {} high. Places are told from its left edge and from its lowest fibre.",
        scene.problem.section_name,
        length(scene, e.breadth(), Role::Breadth),
        length(scene, e.height(), Role::Height),
    ));
    let parts = scene.section.parts().iter().enumerate().map(|(index, part)| {
        let name = scene.problem.part_names.get(index).map_or("part", String::as_str);
        let mut words = format!("{name}: {}", solid(scene, &part.outline, part.figure));
        for hole in &part.holes {
            let _ = write!(words, "; with a hole, {}", corners(scene, hole));
        }
        words
    });
    long.list(parts.collect());
    let materials = materials::words(scene, Told::Modulus);
    if !materials.is_empty() {
        long.sentence("It is of several materials, told apart by their hatches:");
        long.list(materials);
    }
    let joints = scene.problem.joints.iter().map(|joint| {
        let names = joint.beyond.iter().filter_map(|&part| scene.problem.part_names.get(part));
        let names: Vec<&str> = names.map(String::as_str).collect();
        format!("{}: the joint of {} to the rest", joint.name, names.join(" and "))
    });
    long.list(joints.collect());
    long
}

fn length(scene: &Scene, value: f64, role: Role) -> String {
    scene.writer.given_text(value, Dimension::LENGTH, role)
}

fn solid(scene: &Scene, outline: &Loop, figure: Figure) -> String {
    match figure {
        Figure::Rectangle { breadth, height } => {
            let ends = outline.path.iter().map(|edge| match *edge {
                Edge::Line { to } | Edge::Arc { to, .. } => to,
            });
            let corner =
                ends.fold(outline.start, |low, end| Point { x: low.x.min(end.x), y: low.y.min(end.y) });
            format!(
                "{} wide and {} high, its lower left corner at {}",
                length(scene, breadth, Role::Breadth),
                length(scene, height, Role::Height),
                place(scene, corner)
            )
        }
        _ => corners(scene, outline),
    }
}

/// A loop by its corners, or as a circle.
fn corners(scene: &Scene, outline: &Loop) -> String {
    if let Some((centre, radius)) = circle(outline) {
        let diameter = length(scene, 2.0 * radius, Role::Diameter);
        return format!("a circle of diameter {diameter} about {}", place(scene, centre));
    }
    let mut words = format!("its corners {}", place(scene, outline.start));
    for edge in &outline.path {
        match *edge {
            Edge::Line { to } if near(to, outline.start) => {}
            Edge::Line { to } => {
                let _ = write!(words, ", {}", place(scene, to));
            }
            Edge::Arc { to, centre, .. } => {
                let radius = length(scene, hypot(to.x - centre.x, to.y - centre.y), Role::Diameter);
                let _ = write!(
                    words,
                    ", by an arc of radius {radius} about {} to {}",
                    place(scene, centre),
                    place(scene, to)
                );
            }
        }
    }
    words
}

fn circle(outline: &Loop) -> Option<(Point, f64)> {
    let mut of = None;
    for edge in &outline.path {
        match *edge {
            Edge::Line { .. } => return None,
            Edge::Arc { to, centre, .. } => {
                let (first, _) = *of.get_or_insert((centre, hypot(to.x - centre.x, to.y - centre.y)));
                if !near(first, centre) {
                    return None;
                }
            }
        }
    }
    of
}

fn near(one: Point, other: Point) -> bool {
    // A nanometre: places that were computed on two ways.
    hypot(one.x - other.x, one.y - other.y) < 1e-9
}

/// `20 mm right, 120 mm up`
fn place(scene: &Scene, point: Point) -> String {
    let e = scene.extent;
    // What is zero but for rounding is told as zero.
    let told = |value: f64, role: Role| length(scene, if value.abs() < 1e-12 { 0.0 } else { value }, role);
    format!("{} right, {} up", told(point.x - e.left, Role::Breadth), told(point.y - e.bottom, Role::Height))
}
