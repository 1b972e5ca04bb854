//! The section in words.

use crate::drawing::Description;
use crate::materials::{self, Told};
use crate::scene::Scene;
use crate::sizes::corners;
use workings::dimension::Dimension;
use workings::role::Role;

/// The title of the drawing.
pub(crate) fn title(scene: &Scene) -> String {
    format!("Section: {}", scene.problem.section_name)
}

/// The short and the long description.
pub(crate) fn describe(scene: &Scene) -> (String, Description) {
    let w = &scene.writer;
    let v = &scene.values;
    let length = |value: f64, role: Role| w.text(value, Dimension::LENGTH, role);
    let (name, side) = (&scene.problem.section_name, if scene.is_above() { "above" } else { "below" });
    let at = match &scene.problem.cut.joint {
        Some(joint) => format!(
            "at {joint}, {} above the lowest fibre",
            length(scene.cut - scene.extent.bottom, Role::CutHeight)
        ),
        None => {
            format!("{} above the lowest fibre", length(scene.cut - scene.extent.bottom, Role::CutHeight))
        }
    };
    let short = crate::cut_words::at_most(&format!(
        "Cross-section to scale: {name}, with its neutral axis and a level cut {at}. \
             The part beyond, {side} the cut, is hatched."
    ));
    let mut long = Description::new();
    if !scene.told {
        return (short, long);
    }
    long.sentence(format!(
        "Cross-section of the beam, {name}: {} wide and {} high.",
        w.given_text(scene.extent.breadth(), Dimension::LENGTH, Role::Breadth),
        w.given_text(scene.extent.height(), Dimension::LENGTH, Role::Height)
    ));
    let regions = scene.regions();
    let chain = |heights: bool, size: f64| {
        let places = corners(&regions, heights, size);
        let role = if heights { Role::Height } else { Role::Breadth };
        let pieces: Vec<String> =
            places.windows(2).map(|p| w.given_text(p[1] - p[0], Dimension::LENGTH, role)).collect();
        (pieces.len() > 1).then(|| pieces.join(", "))
    };
    long.list(
        [
            chain(true, scene.extent.height())
                .map(|text| format!("heights between its corners, from below: {text}")),
            chain(false, scene.extent.breadth())
                .map(|text| format!("widths between its corners, from the left: {text}")),
        ]
        .into_iter()
        .flatten()
        .collect(),
    );
    let parts = scene.section.parts();
    if parts.len() > 1 {
        let rows = (0..parts.len())
            .filter_map(|k| {
                let p = scene.section.part_properties(k)?;
                let name = scene.problem.part_names.get(k).cloned().unwrap_or_default();
                Some(vec![
                    name,
                    w.text(p.area, Dimension::AREA, Role::Area),
                    length(p.centroid.y - scene.extent.bottom, Role::CentroidHeight),
                ])
            })
            .collect();
        long.table("Parts of the section", &["part", "area", "height of its centroid"], rows);
    }
    let materials = materials::words(scene, Told::Ratio);
    if !materials.is_empty() {
        long.sentence("It is of several materials, told apart by their hatches:");
        long.list(materials);
    }
    let joints = scene.problem.joints.iter().map(|joint| {
        let beyond: Vec<&str> = joint
            .beyond
            .iter()
            .filter_map(|&k| scene.problem.part_names.get(k).map(String::as_str))
            .collect();
        format!("{}: the joint of {} to the rest", joint.name, beyond.join(" and "))
    });
    long.list(joints.collect());
    long.sentence(format!(
        "The neutral axis, dash-dotted and marked NA, runs level through the centroid, {} above the lowest fibre.",
        length(v.neutral_axis - scene.extent.bottom, Role::CentroidHeight)
    ));
    let off = (scene.cut - v.neutral_axis).abs();
    let place = if off < 1e-9 * scene.extent.height() {
        "on the neutral axis".to_owned()
    } else {
        let way = if scene.cut > v.neutral_axis { "above" } else { "below" };
        format!("{} {way} the neutral axis", length(off, Role::CutDistance))
    };
    long.sentence(format!(
        "The cut, a heavy dash-dotted line, lies {place}. Width of the cut: {}.",
        crate::cut_words::width(scene)
    ));
    if let Some(centroid) = v.centroid_beyond {
        long.sentence(format!(
            "The part beyond, {side} the cut, is hatched: its area is {}, and its centroid lies {} from the \
             neutral axis, which is not the distance of the cut.",
            w.text(v.area_beyond, Dimension::AREA, Role::AreaBeyond),
            length((centroid.y - v.neutral_axis).abs(), Role::CentroidBeyond)
        ));
    }
    (short, long)
}
