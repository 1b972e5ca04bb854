//! Bending askew in words.

use crate::cut_words::at_most;
use crate::drawing::Description;
use crate::materials::{self, Told};
use crate::scene::Scene;
use crate::skew::Askew;
use workings::dimension::Dimension;
use workings::role::Role;
use workings::solved::MaterialCorners;

/// The short and the long description.
pub(crate) fn describe(scene: &Scene, askew: &Askew) -> (String, Description) {
    let w = &scene.writer;
    let angle = |value: f64, role| w.text(value.abs(), Dimension::NONE, role);
    let way = |value: f64| if value > 0.0 { "counter-clockwise" } else { "clockwise" };
    let stress = |value: f64| {
        let size = w.text_beside(value.abs(), Dimension::STRESS, Role::BendingStress, askew.largest);
        format!("{size} {}", if value > 0.0 { "tension" } else { "compression" })
    };
    let name = &scene.problem.section_name;
    let inclined = format!(
        "turned {} {} from the level axis",
        angle(askew.inclination, Role::NeutralAxisAngle),
        way(askew.inclination)
    );
    let mut short = format!("Cross-section to scale: {name}, with its neutral axis {inclined}");
    if askew.largest > 0.0 {
        let tell = |of: &MaterialCorners| {
            let one = |corner: usize| {
                format!("{}{} at {}", stress(askew.at(of, corner)), of.within, askew.corners[corner].letter)
            };
            askew.most(of).into_iter().map(one).collect::<Vec<_>>().join(", ")
        };
        let told: Vec<String> = askew.materials.iter().map(tell).collect();
        short.push_str(&format!(". Largest stresses: {}.", told.join(", ")));
    } else {
        short.push('.');
    }
    let mut long = Description::new();
    if !scene.told {
        return (at_most(&short), long);
    }
    long.sentence(format!(
        "The section {name} seen along the beam, to scale. The neutral axis runs through its centroid, {inclined}, although the \
         load is upright."
    ));
    let principal = scene.section.properties().principal.angle;
    let axes = format!(
        "The principal axes: axis 1, about which the second moment is largest, turned {} {} from the level axis, and axis 2 at \
         right angles to it.",
        angle(principal, Role::PrincipalAxisAngle),
        way(principal)
    );
    long.sentence(w.style().notation.in_its_words(&axes));
    if askew.largest == 0.0 {
        long.sentence("No bending moment acts here, and no bending stress.");
        return (at_most(&short), long);
    }
    if !askew.is_mixed() {
        long.sentence(
            "Beside the section stands the bending stress over a base line at right angles to the neutral axis: zero on that axis, and \
             growing in a straight line on both sides to the points that lie farthest from it. The corners, counter-clockwise from \
             the lowest:",
        );
    } else {
        long.sentence(
            "Beside the section stands the bending stress in each material, over a base line of its own at right angles to the neutral \
             axis and all to one scale: zero on that axis, and growing in a straight line to the points of the material that lie farthest \
             out, as steeply as its modulus is large. Where materials meet at a corner, each has a stress of its own there.",
        );
        long.list(materials::words(scene, Told::All));
        long.sentence("The corners, of each material counter-clockwise from its lowest:");
    }
    let corners = askew.materials.iter().flat_map(|of| of.corners.iter().map(move |&corner| (of, corner)));
    let told = corners.map(|(of, corner)| {
        format!("{}{}: {}", askew.corners[corner].letter, of.within, stress(askew.at(of, corner)))
    });
    long.list(told.collect());
    (at_most(&short), long)
}
