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

fn drawn(section: &str) -> Drawing {
    let text = format!(
        "title = \"T\"\n[beam]\nlength = \"8 m\"\nsupports = [{{ pin = \"0 m\" }}, {{ roller = \"8 m\" }}]\n\
         loads = [{{ spread = \"20 kN/m\", from = \"0 m\", to = \"8 m\" }}]\n[slice]\nat = \"1 m\"\nlength = \"50 mm\"\n\
         [cut]\nat = \"neutral axis\"\n{section}"
    );
    let reading = lesson::read(&text, "t.toml");
    let lesson = reading.lesson.unwrap_or_else(|| panic!("{:?}", reading.findings));
    let solved = Solved::new(lesson.problem, lesson.style).expect("it can be solved");
    let truth = ElasticTruth::of(&solved).expect("its section can be solved");
    let drawing = figure::elastic::elastic(&solved, &truth).expect("it can be drawn");
    checks::labels_are_apart("made", &drawing);
    checks::arrowheads_are_free("made", &drawing);
    checks::sheet_holds_all("made", &drawing);
    checks::is_described("made", &drawing);
    checks::strikes::labels_are_free_of_lines("made", &drawing);
    drawing
}

fn labels(drawing: &Drawing) -> String {
    drawing.labels().iter().map(|label| format!("{}\n", label.text)).collect()
}

/// A broad slab of concrete on a slender steel beam, which bears ten times as much: each has a scale, and the beam, a stroke within
/// the whole, is drawn once more. The slab has contours of its own, and would have none on the scale of the steel.
#[test]
fn materials_stressed_unlike_have_a_scale_each() {
    let drawing = drawn(
        "[material]\nname = \"concrete\"\nE = \"30 GPa\"\n[section]\nparts = [\n\
         { name = \"girder\", profile = \"IPE 300\", material = \"steel\", E = \"210 GPa\" },\n\
         { name = \"slab\", width = \"1200 mm\", height = \"100 mm\", bottom = \"300 mm\" },\n]\n",
    );
    let written = labels(&drawing);
    for words in ["MPa in steel", "MPa in concrete", "steel alone, enlarged "] {
        assert!(written.contains(words), "{words} in {written}");
    }
    assert!(group(&drawing.marks, "detail-1").is_some() && group(&drawing.marks, "detail-2").is_none());
    assert!(drawing.long.plain().contains("The contours in concrete stand at"), "{}", drawing.long.plain());
}

/// An angle bends askew: the true mean is that of the full formula, the simple one is drawn beside it as what does not apply.
#[test]
fn askew_the_simple_formula_is_drawn_as_what_does_not_apply() {
    let drawing = drawn(
        "[material]\nname = \"steel\"\nE = \"210 GPa\"\n[section]\nshape = \"angle\"\nwidth = \"75 mm\"\nheight = \"130 mm\"\n\
         thickness = \"8 mm\"\n",
    );
    let written = labels(&drawing);
    for words in
        ["which does not apply here", "full formula, and true mean over the width", "simple formula, cut"]
    {
        assert!(written.contains(words), "{words} in {written}");
    }
}
