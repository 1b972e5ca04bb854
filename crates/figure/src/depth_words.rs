//! The stresses over the depth in words.

use crate::cut_words::at_most;
use crate::drawing::Description;
use crate::faces::stress_words;
use crate::scene::Scene;
use crate::stress_block::bands;
use mechanics::section::HeightSide;
use mechanics::stress::Reason;
use workings::dimension::Dimension;
use workings::role::Role;

/// A height as the distance from the lowest fibre.
fn height_words(scene: &Scene, height: f64) -> String {
    scene.writer.text(height - scene.extent.bottom, Dimension::LENGTH, Role::CutHeight)
}

/// Where the shear stress is largest, if that is not the neutral axis, and why.
pub(crate) fn note(scene: &Scene) -> String {
    let w = &scene.writer;
    let largest = scene.stress[0].largest_shear_stress();
    let places: Vec<String> = largest.places.iter().map(|place| height_words(scene, place.height)).collect();
    let width = |value: f64| w.text(value, Dimension::LENGTH, Role::WidthAtCut);
    let why = match largest.reason {
        Reason::NeutralAxis | Reason::NoShearForce => return String::new(),
        Reason::WidthJumps { narrow, broad, .. } => {
            format!("the width jumps there from {} to {}", width(narrow), width(broad))
        }
        Reason::WidthGrows { here, at_axis } => {
            format!("the width is {} there, {} at NA", width(here), width(at_axis))
        }
        Reason::NarrowContact { contact } => format!("the parts touch there over only {}", width(contact)),
    };
    format!("largest {} above the lowest fibre, not at the neutral axis: {why}", places.join(" and "))
}

/// The short and the long description.
pub(crate) fn describe(scene: &Scene) -> (String, Description) {
    let w = &scene.writer;
    let stress = &scene.stress[0];
    let largest = stress.largest_shear_stress();
    let tau = |value: f64| w.text_beside(value.abs(), Dimension::STRESS, Role::ShearStress, largest.value);
    let places: Vec<String> = largest.places.iter().map(|place| height_words(scene, place.height)).collect();
    let short = if largest.value > 0.0 {
        at_most(&format!(
            "Bending stress and shear stress over the depth, beside the section. The shear stress is largest, {}, \
             {} above the lowest fibre; on the cut it is {}.",
            tau(largest.value),
            places.join(" and "),
            tau(scene.values.stress_on_cut)
        ))
    } else {
        "Bending stress over the depth, beside the section; there is no shear force here, so no shear stress."
            .to_owned()
    };
    let mut long = Description::new();
    if !scene.told {
        return (short, long);
    }
    long.sentence(format!(
        "Three drawings on one height axis: the section, the bending stress and the shear stress at the station {}.",
        w.given_text(scene.values.station, Dimension::LENGTH, Role::Station)
    ));
    let mut rows = Vec::new();
    for band in bands(scene, false) {
        for height in [band.to, band.from] {
            rows.push(vec![
                height_words(scene, height),
                stress_words(scene, stress.bending_stress_in(band.part, height)),
            ]);
        }
    }
    long.table(
        "Bending stress by height above the lowest fibre, straight in between, zero at the neutral axis",
        &["height", "bending stress"],
        rows,
    );
    let mut heights: Vec<(f64, &str)> = vec![
        (scene.extent.bottom, "lowest fibre"),
        (scene.extent.top, "highest fibre"),
        (scene.values.neutral_axis, "neutral axis"),
        (scene.cut, "cut"),
    ];
    for jump in scene.section.width_jumps() {
        if jump.height > scene.extent.bottom && jump.height < scene.extent.top {
            heights.push((jump.height, "jump of the width"));
        }
    }
    for place in &largest.places {
        heights.push((place.height, "largest"));
    }
    heights.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut rows: Vec<Vec<String>> = Vec::new();
    let mut last: Option<f64> = None;
    for (height, what) in heights {
        if last.is_some_and(|l| (l - height).abs() <= 1e-9 * scene.extent.height()) {
            if let Some(row) = rows.last_mut() {
                row[0].push_str(", ");
                row[0].push_str(what);
            }
            continue;
        }
        last = Some(height);
        rows.push(vec![
            what.to_owned(),
            height_words(scene, height),
            tau(stress.shear_stress(height, HeightSide::Below)),
            tau(stress.shear_stress(height, HeightSide::Above)),
        ]);
    }
    long.table("Shear stress by height", &["place", "height", "just below", "just above"], rows);
    long.sentence(format!("The mean shear stress, dashed, is {}.", tau(largest.mean)));
    let note = note(scene);
    if !note.is_empty() {
        long.sentence(format!("The shear stress is {note}."));
    }
    (short, long)
}
