//! The stress at the cut in words.

use crate::cut_words::at_most;
use crate::drawing::Description;
use crate::point::AtPoint;
use crate::scene::Scene;
use workings::dimension::Dimension;
use workings::role::Role;

/// What is smaller than this part of the greatest stress of the drawing is nought.
pub(crate) const NOUGHT: f64 = 1e-9;

/// How the circle is to be read.
pub(crate) const CONVENTION: [&str; 3] = [
    "to the right: tension; up: shear that turns the element clockwise",
    "X: the upright face, Y: the level face",
    "one turns on the circle in the same sense, by twice the angle",
];

/// An angle as text, counter-clockwise positive.
pub(crate) fn angle(scene: &Scene, angle: f64) -> String {
    scene.writer.text(angle, Dimension::NONE, Role::PrincipalAngle)
}

pub(crate) fn describe(scene: &Scene, at: &AtPoint) -> (String, Description) {
    let w = &scene.writer;
    let principal = &at.principal;
    let greatest = principal.largest.abs().max(principal.smallest.abs());
    let stress = |value: f64| w.text_beside(value, Dimension::STRESS, Role::PrincipalStress, greatest);
    let size = |value: f64| stress(value.abs());
    let kind = |value: f64| if value > 0.0 { "tension" } else { "compression" };
    let normal = |value: f64| {
        if value.abs() <= NOUGHT * greatest {
            "0".to_owned()
        } else {
            format!("{} {}", size(value), kind(value))
        }
    };
    let mut long = Description::new();
    long.sentence(
        "A square element of the beam at the cut, seen from the side, with the beam running to the right.",
    );
    if principal.largest_shear == 0.0 {
        long.sentence("No stress acts on it.");
        return ("Element of the beam at the cut: no stress acts on it here.".to_owned(), long);
    }
    let mut faces = vec![format!("upright faces: {}", normal(at.stress.normal))];
    if at.stress.shear != 0.0 {
        let (right, above) = if at.stress.shear > 0.0 { ("down", "left") } else { ("up", "right") };
        faces.push(format!(
            "all four faces: shear stress {}, {right} on the right face and to the {above} on the upper one",
            size(at.stress.shear)
        ));
    }
    faces.push("level faces: no normal stress".to_owned());
    long.list(faces);
    let turn = angle(scene, principal.angle);
    long.sentence(format!(
        "Turned by {turn} (counter-clockwise positive) the element bears no shear stress; on its faces act the principal \
         stresses."
    ));
    let symbol = |role, index: &str| w.symbol_indexed(role, index).plain();
    long.list(vec![
        format!(
            "{} = {}, algebraically the largest",
            symbol(Role::PrincipalStress, "1"),
            normal(principal.largest)
        ),
        format!(
            "{} = {}, algebraically the smallest",
            symbol(Role::PrincipalStress, "2"),
            normal(principal.smallest)
        ),
    ]);
    long.sentence(format!(
        "Mohr's circle: centre at {}, radius {}, which is the largest shear stress in the plane. X, the upright face, and \
         Y, the level one, are the ends of a diameter, 2 {} away from the axis of normal stress.",
        stress(at.stress.normal / 2.0),
        size(principal.largest_shear),
        symbol(Role::PrincipalAngle, "")
    ));
    long.list(CONVENTION.map(str::to_owned).to_vec());
    let short = at_most(&format!(
        "Element at the cut, turned by {turn} to the principal directions with {} and {}, and Mohr's circle of radius {}.",
        normal(principal.largest),
        normal(principal.smallest),
        size(principal.largest_shear)
    ));
    (short, long)
}
