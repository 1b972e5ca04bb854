//! The notes of lessons of several materials, and of sections that bend askew: what they say of the formula, of joints and of limits.

use document::notes::notes;
use document::tree::{Block, Paper, plain};
use workings::solved::Solved;

/// All paragraphs of the notes of a lesson with a force of 12 kN in the middle of 3 m, those in boxes included.
fn said(rest: &str) -> String {
    let text = format!(
        "title = \"T\"\n[beam]\nlength = \"3 m\"\nsupports = [{{ pin = \"0 m\" }}, {{ roller = \"3 m\" }}]\n\
         loads = [{{ force = \"12 kN\", at = \"1.5 m\" }}]\n[slice]\nat = \"1 m\"\nlength = \"50 mm\"\n\
         [cut]\nat = \"neutral axis\"\n{rest}"
    );
    let reading = lesson::read(&text, "t.toml");
    let lesson = reading.lesson.unwrap_or_else(|| panic!("{rest}: {:?}", reading.findings));
    let solved = Solved::new(lesson.problem.clone(), lesson.style.clone()).expect("it can be solved");
    let document = notes(&lesson, &solved, Paper::A4);
    let mut words = String::new();
    for block in &document.body {
        block.each(&mut |block| {
            if let Block::Paragraph(text) = block {
                words.push_str(&plain(text, &document.style));
                words.push('\n');
            }
        });
    }
    words
}

const JOISTS: &str = "[section]\nparts = [\n\
    { name = \"left joist\", width = \"50 mm\", height = \"220 mm\", left = \"-56 mm\" },\n\
    { name = \"plate\", width = \"12 mm\", height = \"180 mm\", bottom = \"20 mm\", material = \"steel\", E = \"210 GPa\", \
    allowable = { bending-stress = \"160 MPa\" } },\n\
    { name = \"right joist\", width = \"50 mm\", height = \"220 mm\", right = \"56 mm\" },\n]\n\
    joints = [{ name = \"bolts\", kind = \"bolts\", beyond = [\"plate\"], capacity = \"5 kN\", spacing = \"400 mm\" }]\n";

/// A steel plate between two joists: what the formula gives is the stress of neither, and the bolts are not needless.
#[test]
fn side_by_side_the_formula_is_told_to_be_nobodys_stress() {
    let said = said(&format!("[material]\nname = \"spruce\"\nE = \"11 GPa\"\n{JOISTS}"));
    for words in [
        "which none of them bears",
        "That is because spruce and steel lie side by side there",
        "no shear flows across its faces",
        "it is its modular ratio times as large",
        "about a sixteenth of E",
        "Nothing is given of what may be borne by spruce.",
    ] {
        assert!(said.contains(words), "{words} in {said}");
    }
    assert!(!said.contains("another one bears its modular ratio times as much"), "{said}");
    assert!(!said.contains("Only what the joints may carry"), "{said}");
    let stated = self::said(&format!(
        "[material]\nname = \"spruce\"\nE = \"11 GPa\"\nshear-modulus = \"690 MPa\"\n{JOISTS}"
    ));
    assert!(!stated.contains("about a sixteenth of E"), "{stated}");
}

/// A cover glued to a joist, with a limit to the glue alone.
#[test]
fn where_only_joints_have_limits_it_is_said() {
    let said = said(
        "[material]\nname = \"oak\"\nE = \"12 GPa\"\n[section]\nparts = [\n{ name = \"joist\", width = \"80 mm\", height = \"200 mm\" },\n\
         { name = \"cover\", width = \"160 mm\", height = \"40 mm\", on = \"joist\" },\n]\n\
         joints = [{ name = \"nails\", kind = \"nails\", beyond = [\"cover\"], capacity = \"800 N\", spacing = \"60 mm\" }]\n",
    );
    assert!(said.contains("Only what the joints may carry is checked here"), "{said}");
}

/// An angle with limits: what it may carry is told by the full formulas, and the truth is that of the upright force alone.
#[test]
fn askew_the_full_formulas_hold_the_beam_to_its_limits() {
    let said = said(
        "[material]\nname = \"steel\"\nE = \"210 GPa\"\npoisson = 0.28\n[allowable]\nbending-stress = \"80 MPa\"\n\
         shear-stress = \"40 MPa\"\n[section]\nshape = \"angle\"\nwidth = \"75 mm\"\nheight = \"130 mm\"\nthickness = \"8 mm\"\n",
    );
    for words in [
        "those of the full formula at the corner that bears most",
        "So the simple formula does not apply",
        "times the full formula",
        "Poisson's ratio is given: 0.28",
        "Where Poisson's ratio is zero both are one",
    ] {
        assert!(said.contains(words), "{words} in {said}");
    }
    assert!(!said.contains("All of this is for a beam that is held"), "{said}");
}
