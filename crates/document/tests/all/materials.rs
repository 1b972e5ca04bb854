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
        "is a mean over all of them, and the stress of none",
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
        "Where Poisson's ratio is zero the two are equal",
    ] {
        assert!(said.contains(words), "{words} in {said}");
    }
    assert!(!said.contains("All of this is for a beam that is held"), "{said}");
}

/// A joist with an angle on one side of its foot: each material has corners of its own, and is held to its own limits by the full formula.
#[test]
fn askew_each_material_is_told_by_the_full_formula() {
    let said = said(
        "[material]\nname = \"spruce\"\nE = \"11 GPa\"\n[allowable]\nbending-stress = \"9 MPa\"\nshear-stress = \"1 MPa\"\n\
         [section]\nparts = [\n{ name = \"joist\", width = \"60 mm\", height = \"200 mm\", left = \"0 mm\" },\n\
         { name = \"upright leg\", width = \"6 mm\", height = \"74 mm\", left = \"60 mm\", bottom = \"6 mm\", material = \"steel\", \
         E = \"210 GPa\", allowable = { bending-stress = \"160 MPa\" } },\n\
         { name = \"level leg\", width = \"50 mm\", height = \"6 mm\", left = \"60 mm\", bottom = \"0 mm\", material = \"steel\", \
         E = \"210 GPa\" },\n]\n",
    );
    for words in [
        "These are the stresses of a beam that is held",
        "But it counts so with its true breadth",
        "where two meet at one corner it has two stresses",
        "The largest stresses in spruce at the slice are",
        "The largest stresses in steel at the slice are",
        "either is a mean over all of them, and the stress of none",
        "Free to go sideways, the beam moves",
        "At a corner that no other material touches there is no shear stress",
        "in each material the bending stresses are those of the full formula at the corner of it that bears most",
    ] {
        assert!(said.contains(words), "{words} in {said}");
    }
    assert_eq!(said.matches("It also has it at a whole edge").count(), 1, "{said}");
}
