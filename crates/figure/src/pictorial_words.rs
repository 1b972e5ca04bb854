//! The pictorial view in words.

use crate::cut_words::{self, at_most};
use crate::drawing::Description;
use crate::pictorial_stress::enlargement;
use crate::scene::Scene;
use workings::dimension::Dimension;
use workings::role::Role;

/// The short and the long description.
pub(crate) fn describe(scene: &Scene, to_scale: bool) -> (String, Description) {
    let w = &scene.writer;
    let v = &scene.values;
    let (side, other) = if scene.is_above() { ("above", "below") } else { ("below", "above") };
    let length = w.given_text(v.length, Dimension::LENGTH, Role::SliceLength);
    let width = w.text(v.width, Dimension::LENGTH, Role::WidthAtCut);
    let force =
        w.text_beside(v.force_on_cut.abs(), Dimension::FORCE, Role::ForceOnCut, scene.greatest_force());
    let short = at_most(&format!(
        "Slice of the beam in space, the part {side} the cut lifted off. The cut is {width} wide and {length} long; a \
         force of {force} acts on it, one way on each piece."
    ));
    let mut long = Description::new();
    if !scene.told {
        return (short, long);
    }
    long.sentence(format!(
        "The slice is seen from its right-hand end, from above. Its section is {}. A level cut parts it in two: the \
         part {side} the cut, hatched, is lifted off; the part {other} it stays.",
        scene.problem.section_name
    ));
    let scale = if to_scale { "" } else { "; the length is not drawn to scale" };
    long.sentence(format!("The slice is {length} long{scale}."));
    long.sentence(format!("Width of the cut: {}.", cut_words::width(scene)));
    let kind = |value: f64| match value {
        x if x > 0.0 => "tension",
        x if x < 0.0 => "compression",
        _ => "no stress in all",
    };
    let resultant = |face: usize| {
        let size = w.text_beside(
            v.resultant[face].abs(),
            Dimension::FORCE,
            Role::StressResultant,
            scene.greatest_force(),
        );
        format!("{size} {}", kind(v.resultant[face]))
    };
    long.sentence(format!(
        "Arrows of bending stress stand on both ends of both pieces. On the part lifted off they add up to {} on the \
         left end and {} on the right end.",
        resultant(0),
        resultant(1)
    ));
    for (regions, on) in [(&scene.beyond, "the part lifted off"), (&scene.rest, "the part that stays")] {
        let times = enlargement(scene, regions);
        if times > 1.0 {
            long.sentence(format!("The arrows of bending stress on {on} are drawn {times} times as long."));
        }
    }
    if v.force_on_cut == 0.0 {
        long.sentence("The two are equal, so no force acts on the cut.");
    } else {
        let way = if v.force_on_cut > 0.0 { ("right", "left") } else { ("left", "right") };
        long.sentence(format!(
            "A half-arrow along the cut shows the force {force}: to the {} on the part lifted off, to the {} on the \
             part that stays.",
            way.0, way.1
        ));
    }
    (short, long)
}
