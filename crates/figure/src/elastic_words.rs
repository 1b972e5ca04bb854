//! The true shear stress in words.

use crate::cut_words::at_most;
use crate::drawing::Description;
use crate::elastic_field::Zone;
use crate::scene::Scene;
use mechanics::section::HeightSide;
use workings::dimension::Dimension;
use workings::elastic::ElasticTruth;
use workings::role::Role;
use workings::solved::Solved;

/// The short and the long description.
pub(crate) fn describe(
    scene: &Scene,
    solved: &Solved,
    truth: &ElasticTruth,
    zones: &[Zone],
) -> (String, Description) {
    let w = &scene.writer;
    let tau = |value: f64| w.text_beside(value, Dimension::STRESS, Role::ShearStress, truth.largest.value);
    let number = |value: f64| w.text(value, Dimension::NONE, Role::Ratio);
    let height = |height: f64| w.text(height - scene.extent.bottom, Dimension::LENGTH, Role::CutHeight);
    let length = |value: f64| w.text(value, Dimension::LENGTH, Role::Across);
    let largest = truth.largest;
    let short = at_most(&format!(
        "The section with its true shear stress in bands, largest {}; beside it the stress over the depth by the formula, \
         largest {}, and in truth.",
        tau(largest.value),
        tau(truth.largest_by_formula.value),
    ));
    let mut long = Description::new();
    if !scene.told {
        return (short, long);
    }
    long.sentence(
        "On the left the section, with bands of the true shear stress between contours, darker where it is larger, and \
         arrows along it: the stress with which the left piece acts on the right one.",
    );
    for Zone { name, contours, .. } in zones {
        let levels: Vec<String> =
            contours.levels.iter().map(|&level| contours.number(scene, level)).collect();
        let of = name.as_ref().map_or_else(String::new, |name| format!(" in {name}"));
        if !levels.is_empty() {
            long.sentence(format!(
                "The contours{of} stand at {} {}.",
                levels.join("; "),
                contours.unit(scene)
            ));
        }
    }
    for one in &truth.materials {
        if let Some(most) = one.largest {
            long.sentence(format!("In {} the largest is {}.", one.material.name, tau(most.value)));
        }
    }
    let beside = if largest.beside_corner.is_some() { ", beside a sharp corner" } else { "" };
    long.sentence(format!(
        "It is largest, {}, {} above the lowest fibre and {} to the right of the left edge{beside}.",
        tau(largest.value),
        height(largest.at.y),
        length(solved.section().properties().told(largest.at.x - scene.extent.left))
    ));
    let askew = truth.bends_askew();
    long.sentence(match askew {
        false => {
            "On the right the shear stress over the depth: a solid line for the formula, which is also the mean over the width; a \
             dashed line for the upright stress where it is largest across the width."
        }
        true => {
            "On the right the shear stress over the depth: a solid line for the full formula, which is also the mean over the width; \
             a dotted line for the simple formula, which does not apply here; a dashed line for the upright stress where it is \
             largest across the width."
        }
    });
    let field = truth.field();
    let mut places = vec![
        (scene.extent.top, "highest fibre"),
        (scene.values.neutral_axis, "neutral axis"),
        (scene.cut, "cut"),
        (scene.extent.bottom, "lowest fibre"),
    ];
    places
        .extend(truth.largest_by_formula.places.iter().map(|place| (place.height, "largest by the formula")));
    for jump in scene.section.width_jumps() {
        if jump.height > scene.extent.bottom && jump.height < scene.extent.top {
            places.push((jump.height, "jump of the width"));
        }
    }
    places.sort_by(|a, b| b.0.total_cmp(&a.0));
    let has_largest = |height: f64| {
        !truth.sharp_corners().iter().any(|corner| (corner.at.y - height).abs() < corner.left_out)
    };
    // What the sums leave of nothing is nothing.
    let is_nothing = |value: f64| value.abs() <= 1e-9 * largest.value.abs();
    let tau_here = |value: f64| tau(if is_nothing(value) { 0.0 } else { value });
    let mut rows: Vec<Vec<String>> = Vec::new();
    for (at, what) in places {
        for (side, words) in [(HeightSide::Above, "just above"), (HeightSide::Below, "just below")] {
            let Some(across) = field.across(at, side) else { continue };
            let sign = truth.shear_force.signum();
            let mut row = vec![format!("{what}, {words}"), height(at), tau_here(sign * across.formula)];
            if askew {
                row.push(tau_here(sign * across.balanced));
            }
            row.extend([
                if has_largest(at) {
                    tau_here(sign * across.largest_up.value)
                } else {
                    "no limit".to_owned()
                },
                across
                    .ratio()
                    .filter(|_| has_largest(at) && !is_nothing(across.balanced))
                    .map_or_else(|| "none".to_owned(), number),
            ]);
            rows.push(row);
        }
    }
    let usual = ["place", "height", "formula", "true, largest across the width", "ratio"];
    let full = [
        "place",
        "height",
        "simple formula",
        "full formula",
        "true, largest across the width",
        "ratio to full",
    ];
    let head: &[&str] = if askew { &full } else { &usual };
    long.table("Shear stress by height above the lowest fibre", head, rows);
    long.sentence(format!(
        "By the {} the largest of the section is {}; the true one is {} times that.",
        if askew { "simple formula" } else { "formula" },
        tau(truth.largest_by_formula.value),
        number(truth.ratio_of_largest())
    ));
    for caution in truth.cautions(solved) {
        long.sentence(caution);
    }
    (short, long)
}
