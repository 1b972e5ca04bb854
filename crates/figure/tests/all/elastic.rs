//! The drawing of the true shear stress, for every lesson that comes with the project.

use crate::checks;
use figure::drawing::{Drawing, Mark};
use lesson::builtin;
use std::sync::LazyLock;
use workings::elastic::ElasticTruth;
use workings::solved::Solved;

static DRAWN: LazyLock<Vec<(&str, Drawing)>> = LazyLock::new(|| {
    let drawn = builtin::ALL.iter().map(|builtin| {
        let lesson = lesson::read(builtin.text, builtin.name).lesson.expect("a built-in lesson is sound");
        let solved = Solved::new(lesson.problem, lesson.style).expect("a built-in lesson can be solved");
        let truth = ElasticTruth::of(&solved).expect("its section can be solved");
        (builtin.name, figure::elastic::elastic(&solved, &truth).expect("it can be drawn"))
    });
    drawn.collect()
});

#[test]
fn it_is_as_sound_as_every_other_drawing() {
    for (name, drawing) in DRAWN.iter() {
        checks::labels_are_apart(name, drawing);
        checks::arrowheads_are_free(name, drawing);
        checks::sheet_holds_all(name, drawing);
        checks::numbers_are_told(name, drawing);
        checks::is_described(name, drawing);
        checks::strikes::labels_are_free_of_lines(name, drawing);
        let svg = drawing.svg();
        roxmltree::Document::parse(&svg).expect("well-formed");
        assert!(svg.len() < 250_000, "{name}: {} bytes", svg.len());
    }
}

fn group<'a>(marks: &'a [Mark], wanted: &str) -> Option<&'a [Mark]> {
    marks.iter().find_map(|mark| match mark {
        Mark::Group { id, marks, .. } if id == wanted => Some(marks.as_slice()),
        Mark::Group { marks, .. } => group(marks, wanted),
        _ => None,
    })
}

#[test]
fn every_section_has_bands_arrows_and_its_largest_stress() {
    for (name, drawing) in DRAWN.iter() {
        let count = |id: &str| group(&drawing.marks, id).map_or(0, <[Mark]>::len);
        // Four contours at least, and the ground below the first.
        assert!(count("bands") >= 5, "{name}: {}", count("bands"));
        assert!(count("contours") >= 4, "{name}");
        // Shaft and head.
        assert!(count("arrows") >= 2 * 4, "{name}: {}", count("arrows"));
        assert_eq!(count("largest"), 2, "{name}");
    }
}

/// Where the line of the formula ends at a jump of the width, a sharp corner has no largest stress: no line is drawn, no value
/// is written, and the words say so.
#[test]
fn at_a_sharp_corner_nothing_is_claimed() {
    let of = |wanted: &str| DRAWN.iter().find(|(name, _)| *name == wanted).map(|(_, drawing)| drawing);
    let written =
        |drawing: &Drawing| drawing.labels().iter().map(|label| label.text.clone()).collect::<String>();
    let tee = of("overhang").expect("a T");
    assert!(!written(tee).contains("true, cut") && tee.long.plain().contains("no limit"));
    let arch = of("lintel").expect("an arch with a hole");
    assert!(written(arch).contains("true, cut") && !arch.long.plain().contains("no limit"));
}
