//! What the keys mean: small lessons, and the problem that comes of each.

use lesson::question::{Ask, Sketch};
use lesson::{Choices, Lesson, Scene, When};
use mechanics::beam::{Hold, Load};
use mechanics::section::{Figure, HeightSide, Section};
use workings::notation::{MomentSide, Profile};
use workings::problem::{JointKind, SupportKind};
use workings::role::{Role, Symbol};
use workings::rounding::Figures;
use workings::style::DecimalMark;

const HEAD: &str = "title = \"A beam\"\n";
const BEAM: &str = "[beam]\nlength = \"6 m\"\nsupports = [{ pin = \"0 m\" }, { roller = \"6 m\" }]\n";
const MATERIAL: &str = "[material]\nE = \"200 GPa\"\n";
const SECTION: &str = "[section]\nshape = \"rectangle\"\nwidth = \"100 mm\"\nheight = \"200 mm\"\n";
const SLICE: &str = "[slice]\nat = \"1 m\"\nlength = \"50 mm\"\n";
const CUT: &str = "[cut]\nat = \"150 mm\"\n";

/// A sound lesson with some of its headings exchanged; each piece replaces the one of its heading.
fn read(pieces: &[&str]) -> Lesson {
    let mut all = vec![HEAD, BEAM, MATERIAL, SECTION, SLICE, CUT];
    for piece in pieces {
        let heading = piece.lines().next().unwrap_or("");
        match all.iter_mut().find(|known| known.starts_with(heading)) {
            Some(known) => *known = piece,
            None => all.push(piece),
        }
    }
    let text = all.join("\n");
    let reading = lesson::read(&text, "test.toml");
    let shown: Vec<String> = reading.findings.iter().map(|finding| finding.render(false)).collect();
    reading.lesson.unwrap_or_else(|| panic!("{}\n{text}", shown.join("\n")))
}

fn assert_near(got: f64, expected: f64) {
    assert!((got - expected).abs() <= 1e-12 * expected.abs().max(1e-3), "{got}, not {expected}");
}

#[test]
fn supports_of_every_kind() {
    let lesson = read(&[
        "[beam]\nlength = \"9 m\"\nhinges = [\"5 m\"]\nsupports = [\n  { roller = \"6 m\", settles = \"5 mm\" },\n  \
        { fixed = \"0 m\", name = \"wall\" },\n  { spring = \"8 m\", stiffness = \"2 kN/mm\", turning-stiffness = \"3 kN m\" },\n  \
        { guided = \"9 m\" },\n]\n",
    ]);
    let beam = &lesson.problem.beam;
    assert_eq!(beam.supports[0].transverse, Hold::Rigid { moved: -0.005 });
    assert_eq!(beam.supports[0].rotation, Hold::Free);
    assert_eq!(beam.supports[1].rotation, Hold::STILL);
    assert_eq!(beam.supports[2].transverse, Hold::Spring { stiffness: 2.0e6 });
    assert_eq!(beam.supports[2].rotation, Hold::Spring { stiffness: 3.0e3 });
    assert_eq!(beam.supports[3].transverse, Hold::Free);
    assert_eq!(beam.hinges, [5.0]);
    let labels: Vec<(&str, SupportKind)> =
        lesson.problem.supports.iter().map(|label| (label.name.as_str(), label.kind)).collect();
    // Letters go from left to right, whatever the order of the file; a name of the lecturer's takes none.
    let expected = [
        ("A", SupportKind::Roller),
        ("wall", SupportKind::Fixed),
        ("B", SupportKind::Spring),
        ("C", SupportKind::Guided),
    ];
    assert_eq!(labels, expected);
}

#[test]
fn loads_of_every_kind_with_their_signs_and_names() {
    let lesson = read(&[
        "[values]\nP = \"2 kN\"\nw = \"P / 2 m\"\n",
        "[beam]\nlength = \"6 m\"\nsupports = [{ pin = \"0 m\" }, { roller = \"6 m\" }]\nloads = [\n  { force = \"P\", at = \"3 m\" },\n  \
         { force = \"500 N\", at = \"4 m\", direction = \"up\" },\n  { couple = \"3 kN m\", at = \"2 m\" },\n  \
         { couple = \"3 kN m\", at = \"5 m\", direction = \"clockwise\", name = \"M_0\" },\n  { spread = \"w\" },\n  \
         { spread = \"0 kN/m\", becoming = \"3 kN/m\", from = \"2 m\", to = \"5 m\", direction = \"up\" },\n  \
         { force = \"2*P\", at = \"1.5 m\" },\n]\n",
    ]);
    let expected = [
        (Load::Force { station: 3.0, down: 2e3 }, "P"),
        (Load::Force { station: 4.0, down: -500.0 }, "2"),
        (Load::Couple { station: 2.0, ccw: 3e3 }, "1"),
        (Load::Couple { station: 5.0, ccw: -3e3 }, "M_0"),
        (Load::Spread { from: 0.0, to: 6.0, down_from: 1e3, down_to: 1e3 }, "w"),
        (Load::Spread { from: 2.0, to: 5.0, down_from: -0.0, down_to: -3e3 }, "2"),
        (Load::Force { station: 1.5, down: 4e3 }, "3"),
    ];
    assert_eq!(lesson.problem.beam.loads.len(), expected.len());
    for ((load, label), (expected, name)) in
        lesson.problem.beam.loads.iter().zip(&lesson.problem.loads).zip(expected)
    {
        assert_eq!((*load, label.name.as_str(), label.self_weight), (expected, name, false));
    }
}

/// Closed form: 0.02 m² of 7850 kg/m³ weigh 0.02 · 7850 · 9.806 65 N/m; a weight per volume gives the same density.
#[test]
fn the_beam_s_own_weight_is_a_load() {
    let beam = "[beam]\nself-weight = true\nlength = \"6 m\"\nsupports = [{ pin = \"0 m\" }, { roller = \"6 m\" }]\n";
    let weight = 0.02 * 7850.0 * 9.806_65;
    for density in ["7850 kg/m3", "7850*9.80665 N/m3"] {
        let material = format!("[material]\nE = \"200 GPa\"\ndensity = \"{density}\"\n");
        let lesson = read(&[beam, &material]);
        assert!(lesson.problem.loads[0].self_weight);
        let Load::Spread { from, to, down_from, down_to } = lesson.problem.beam.loads[0] else {
            panic!("a spread load")
        };
        assert_eq!((from, to), (0.0, 6.0));
        assert_near(down_from, weight);
        assert_near(down_to, weight);
        assert_near(lesson.problem.density.expect("its own weight counts"), 7850.0);
    }
}

#[test]
fn parts_stand_where_they_are_put() {
    let lesson = read(&[
        "[material]\nE = \"10 GPa\"\n",
        "[section]\njoints = [\n  { name = \"g\", beyond = [\"top\"] },\n  { name = \"n\", kind = \"nails\", beyond = [\"left\", \"top\"], \
         rows = 2, spacing = \"60 mm\", capacity = \"800 N\" },\n]\nparts = [\n  { name = \"bottom\", width = \"200 mm\", height = \"50 mm\" },\n  \
         { name = \"left\", width = \"25 mm\", height = \"200 mm\", left = \"-100 mm\", on = \"bottom\" },\n  \
         { name = \"right\", width = \"25 mm\", height = \"200 mm\", right = \"100 mm\", bottom = \"50 mm\" },\n  \
         { name = \"top\", width = \"200 mm\", height = \"50 mm\", top = \"300 mm\", E = \"200 GPa\" },\n]\n",
    ]);
    let section = Section::new(lesson.problem.parts.clone()).expect("a sound section");
    let extents: Vec<[f64; 4]> = lesson
        .problem
        .parts
        .iter()
        .map(|part| {
            let section = Section::new(vec![part.clone()]).expect("a rectangle");
            let of = section.properties();
            [of.left, of.right, of.bottom, of.top]
        })
        .collect();
    let expected = [
        [-0.1, 0.1, 0.0, 0.05],
        [-0.1, -0.075, 0.05, 0.25],
        [0.075, 0.1, 0.05, 0.25],
        [-0.1, 0.1, 0.25, 0.3],
    ];
    for (got, expected) in extents.iter().flatten().zip(expected.iter().flatten()) {
        assert_near(*got, *expected);
    }
    assert_near(section.properties().plain_area, 0.2 * 0.05 * 2.0 + 0.025 * 0.2 * 2.0);
    assert_eq!(lesson.problem.part_names, ["bottom", "left", "right", "top"]);
    assert_near(lesson.problem.parts[3].modular_ratio, 20.0);
    assert_eq!(lesson.problem.section_name, "built-up section");
    let [glue, nails] = lesson.problem.joints.as_slice() else { panic!("two joints") };
    assert_eq!(
        (glue.kind, glue.beyond.as_slice(), glue.rows, glue.spacing),
        (JointKind::Glue, [3].as_slice(), 1, None)
    );
    assert_eq!(
        (nails.kind, nails.beyond.as_slice(), nails.rows),
        (JointKind::Fasteners, [1, 3].as_slice(), 2)
    );
    assert_eq!((nails.spacing, nails.fastener_capacity), (Some(0.06), Some(800.0)));
}

/// Closed form: the areas of the shapes from their dimensions.
#[test]
fn every_shape_is_read_from_its_dimensions() {
    let pi = std::f64::consts::PI;
    let cases: &[(&str, f64)] = &[
        ("shape = \"rectangle\"\nwidth = \"100 mm\"\nheight = \"200 mm\"", 0.02),
        ("shape = \"circle\"\ndiameter = \"200 mm\"", pi * 0.01),
        ("shape = \"half circle\"\ndiameter = \"400 mm\"\nupside-down = true", pi * 0.02),
        ("shape = \"tube\"\ndiameter = \"200 mm\"\nwall = \"20 mm\"", pi * (0.01 - 0.0064)),
        (
            "shape = \"rectangular tube\"\nwidth = \"100 mm\"\nheight = \"200 mm\"\nwall = \"10 mm\"",
            0.02 - 0.08 * 0.18,
        ),
        (
            "shape = \"box\"\nwidth = \"100 mm\"\nheight = \"200 mm\"\nflange-thickness = \"20 mm\"\nweb-thickness = \"10 mm\"",
            0.02 - 0.08 * 0.16,
        ),
        ("shape = \"triangle\"\nwidth = \"100 mm\"\nheight = \"200 mm\"", 0.01),
        (
            "shape = \"trapezoid\"\nbottom-width = \"100 mm\"\ntop-width = \"60 mm\"\nheight = \"200 mm\"",
            0.016,
        ),
        (
            "shape = \"T\"\nwidth = \"100 mm\"\nheight = \"200 mm\"\nflange-thickness = \"20 mm\"\nweb-thickness = \"10 mm\"",
            0.1 * 0.02 + 0.18 * 0.01,
        ),
        (
            "shape = \"I\"\nwidth = \"100 mm\"\nheight = \"200 mm\"\nflange-thickness = \"20 mm\"\nweb-thickness = \"10 mm\"",
            0.004 + 0.16 * 0.01,
        ),
        (
            "shape = \"unequal I\"\ntop-width = \"100 mm\"\ntop-thickness = \"20 mm\"\nbottom-width = \"60 mm\"\n\
             bottom-thickness = \"10 mm\"\nheight = \"200 mm\"\nweb-thickness = \"10 mm\"",
            0.002 + 0.0006 + 0.17 * 0.01,
        ),
        (
            "shape = \"channel\"\nwidth = \"100 mm\"\nheight = \"200 mm\"\nflange-thickness = \"20 mm\"\nweb-thickness = \"10 mm\"",
            0.004 + 0.16 * 0.01,
        ),
        (
            "shape = \"angle\"\nwidth = \"100 mm\"\nheight = \"200 mm\"\nthickness = \"10 mm\"",
            0.001 + 0.19 * 0.01,
        ),
        // Half a turn of 100 mm on a square of 200 mm, less a duct of 60 mm and a slot of 20 mm x 10 mm.
        (
            "outline = [\n  { corner = [\"-100 mm\", \"0 mm\"] },\n  { corner = [\"100 mm\", \"0 mm\"] },\n  { corner = [\"100 mm\", \"200 mm\"] },\n  \
             { arc-to = [\"-100 mm\", \"200 mm\"], centre = [\"0 mm\", \"200 mm\"] },\n]\nholes = [\n  { diameter = \"60 mm\", bottom = \"20 mm\" },\n  \
             { width = \"20 mm\", height = \"10 mm\", left = \"0 mm\", top = \"200 mm\" },\n]",
            0.04 + pi * 0.005 - pi * 0.0009 - 0.0002,
        ),
    ];
    for (section, area) in cases {
        let section = format!("[section]\n{section}\n");
        let lesson = read(&[&section]);
        let section = Section::new(lesson.problem.parts).expect("a sound section");
        assert_near(section.properties().plain_area, *area);
        let of = section.properties();
        assert_near(of.left + of.right, 0.0);
        assert_near(of.bottom, 0.0);
    }
    let shapes: usize = lesson::key::SHAPES.len();
    assert_eq!(cases.len() - 1, shapes, "every shape has its case");
}

/// Source: EN 10365, IPE 300: A = 53.8 cm², printed to 0.1 cm² (from memory; the catalogue's own tests hold all rows).
#[test]
fn a_rolled_profile_with_a_cover_plate() {
    let plain = read(&["[section]\nprofile = \"ipe 300\"\n"]);
    let section = Section::new(plain.problem.parts).expect("a sound section");
    assert!((section.properties().area - 53.8e-4).abs() <= 0.05e-4);
    assert_eq!(plain.problem.section_name, "IPE 300");
    let covered = read(&[
        "[section]\nparts = [\n  { name = \"girder\", profile = \"IPE 300\" },\n  \
        { name = \"plate\", width = \"100 mm\", height = \"10 mm\", on = \"girder\" },\n]\njoints = [{ name = \"weld\", kind = \"weld\", beyond = [\"plate\"] }]\n",
        "[cut]\nat = \"weld\"\n",
    ]);
    assert_near(covered.problem.cut.height, 0.3);
    assert_eq!(covered.problem.cut.joint.as_deref(), Some("weld"));
}

#[test]
fn a_part_with_a_hole_is_no_longer_the_figure_of_the_handbooks() {
    let lesson = read(&[
        "[section]\nparts = [{ name = \"plank\", width = \"100 mm\", height = \"200 mm\", holes = [{ diameter = \"50 mm\", bottom = \"100 mm\" }] }]\n",
    ]);
    assert_eq!(lesson.problem.parts[0].figure, Figure::Outline);
    assert_eq!(lesson.problem.parts[0].holes.len(), 1);
}

#[test]
fn a_cut_may_be_said_in_many_ways() {
    let section = "[section]\nshape = \"T\"\nwidth = \"90 mm\"\nheight = \"200 mm\"\nflange-thickness = \"40 mm\"\nweb-thickness = \"15 mm\"\n";
    let values = "[values]\nh = \"160 mm\"\n";
    for (cut, height, side, beyond) in [
        ("at = \"160 mm\"", 0.16, HeightSide::Below, HeightSide::Above),
        ("at = \"h\"", 0.16, HeightSide::Below, HeightSide::Above),
        ("at = \"h - 20 mm\"", 0.14, HeightSide::Above, HeightSide::Above),
        ("at = \"top of web\"", 0.16, HeightSide::Below, HeightSide::Above),
        ("at = \"the bottom of the flange\"\nside = \"above\"", 0.16, HeightSide::Above, HeightSide::Above),
        ("at = \"neutral axis\"", 0.14, HeightSide::Above, HeightSide::Above),
        ("at = \"20 mm above the neutral axis\"", 0.16, HeightSide::Below, HeightSide::Above),
        ("at = \"h/2 below neutral axis\"", 0.06, HeightSide::Below, HeightSide::Below),
        ("at = \"160 mm\"\nkeep = \"below\"", 0.16, HeightSide::Below, HeightSide::Below),
    ] {
        let cut = format!("[cut]\n{cut}\n");
        let place = read(&[values, section, &cut]).problem.cut;
        assert_near(place.height, height);
        assert_eq!((place.side, place.beyond), (side, beyond), "{cut}");
    }
}

#[test]
fn the_notation_of_the_course_is_taken_over() {
    let lesson = read(&[
        "[notation]\nprofile = \"downward\"\nfigures = \"3 or 4\"\ndecimal-mark = \",\"\nmoment-diagram = \"positive up\"\n\
        symbols = { shear-force = \"T\", shear-flow = \"q_s\", \"first moment\" = \"S_y\" }\n",
    ]);
    let style = &lesson.style;
    assert_eq!(style.notation.profile, Profile::Downward);
    assert_eq!(style.figures, Figures::ThreeOrFour);
    assert_eq!(style.decimal_mark, DecimalMark::Comma);
    assert_eq!(style.notation.habits.moment_side, MomentSide::PositiveUp);
    assert_eq!(style.symbol(&Symbol::plain(Role::ShearForce)).plain(), "T");
}

#[test]
fn words_questions_and_variations_are_kept() {
    let lesson = read(&[
        "[values]\nP = \"4 kN\"\na = \"1 m\"\n",
        "[vary]\nP = { from = \"3 kN\", to = \"6 kN\", step = \"0.5 kN\" }\na = [\"1 m\", \"1200 mm\"]\n",
        "[text]\nbefore-beam = \"*Why?*\"\nafter-shear = \"\"\n",
        "[[question]]\nask = \"shear stress on the cut\"\nmarks = 2.5\ntext = \"How hard?\"\n",
    ]);
    let choices = |axis: usize| match &lesson.vary[axis].choices {
        Choices::Values(values) => values,
        Choices::Variants(_) => panic!("values vary"),
    };
    assert_eq!(lesson.vary[0].count(), 7);
    assert_near(choices(0)[6].quantity.value, 6e3);
    assert_eq!(choices(0)[3].written, "4.5 kN");
    assert_eq!(lesson.vary[1].name, "a");
    assert_near(choices(1)[1].quantity.value, 1.2);
    assert_eq!(lesson.texts.get(Scene::Beam, When::Before), Some("*Why?*"));
    assert_eq!(lesson.texts.get(Scene::Shear, When::After), None);
    assert_eq!(lesson.questions[0].marks, 2.5);
    assert_eq!(lesson.questions[0].text.as_deref(), Some("How hard?"));
    assert_eq!(lesson.tolerance, 0.01);
    assert_eq!(lesson.values[1].written, "1 m");
    assert_eq!(lesson.about.language, "en");
}

#[test]
fn a_question_asks_for_steps_a_place_a_choice_or_a_sketch() {
    let lesson = read(&[
        "[papers]\ntolerance = \"2 %\"\n",
        "[[question]]\nask = \"shear stress on the cut\"\nsteps = [\"second moment\", \"first moment at the cut\"]\n\
         step-marks = 0.5\nmarks = 2\nchoose = 4\n\
         [[question]]\nask = \"largest shear force\"\nplace = true\n\
         [[question]]\nsketch = \"bending moment\"\ntext = \"Under {P}.\"\n",
        "[values]\nP = \"4 kN\"\n",
    ]);
    assert_eq!(lesson.tolerance, 0.02);
    let [first, second, third] = &lesson.questions[..] else { panic!("three questions") };
    let asked: Vec<&str> = first.workings().collect();
    assert_eq!(asked, ["second moment", "first moment at the cut", "shear stress on the cut"]);
    assert_eq!((first.all_marks(), first.value().and_then(|value| value.choose)), (3.0, Some(4)));
    assert!(second.value().is_some_and(|value| value.place && value.choose.is_none()));
    assert_eq!(third.ask, Ask::Sketch(Sketch::BendingMoment));
    assert_eq!(third.workings().count(), 0);
}

/// What a question says of its shares stands over what the lesson says, and that over what is usual.
#[test]
fn the_shares_of_the_marks() {
    let lesson = read(&[
        "[marking]\nsign = \"25 %\"\nunit = \"0.75\"\nmistakes = { q-to-the-cut = \"10 %\" }\n",
        "[[question]]\nask = \"shear stress on the cut\"\n\
         [[question]]\nask = \"second moment\"\nmarking = { sign = \"0 %\", mistakes = { wrong-axis = \"100 %\" } }\n",
    ]);
    let [first, second] = lesson.questions.as_slice() else { panic!("two questions") };
    let usual = lesson::marking::Shares::default();
    assert_near(first.marking.sign, 0.25);
    assert_near(first.marking.unit, 0.75);
    assert_eq!(first.marking.rounded_early, usual.rounded_early);
    assert_near(first.marking.mistakes["q-to-the-cut"], 0.1);
    assert_eq!((second.marking.sign, second.marking.unit), (0.0, 0.75));
    assert_eq!(second.marking.mistakes.len(), 2);
}

/// Closed form: E = 2 G (1 + nu); a part of the same modulus of elasticity is of the same material.
#[test]
fn a_material_shears_as_it_states_or_as_is_assumed() {
    let text = |material: &str, plate: &str| {
        format!(
            "title = \"T\"\nunits = \"metric\"\n[beam]\nlength = \"4 m\"\nsupports = [{{ pin = \"0 m\" }}, {{ roller = \"4 m\" }}]\n\
             loads = [{{ force = \"8 kN\", at = \"2 m\" }}]\n[material]\nname = \"spruce\"\nE = \"11 GPa\"\n{material}\n[section]\n\
             parts = [\n{{ name = \"joist\", width = \"80 mm\", height = \"200 mm\" }},\n\
             {{ name = \"plate\", width = \"80 mm\", height = \"10 mm\", on = \"joist\", E = \"210 GPa\"{plate} }},\n\
             {{ name = \"cover\", width = \"80 mm\", height = \"10 mm\", on = \"plate\", E = \"210 GPa\" }},\n]\n\
             [slice]\nat = \"1 m\"\nlength = \"50 mm\"\n[cut]\nat = \"top of joist\"\n"
        )
    };
    let moduli = |material: &str, plate: &str| {
        let reading = lesson::read(&text(material, plate), "t.toml");
        let problem = reading.lesson.unwrap_or_else(|| panic!("{:?}", reading.findings)).problem;
        [0, 1, 2].map(|part| problem.shear_modulus_of(part))
    };
    for (got, expected) in [
        (moduli("", ""), [11e9 / 2.6, 210e9 / 2.6, 210e9 / 2.6]),
        (moduli("poisson = 0", ""), [11e9 / 2.0, 210e9 / 2.6, 210e9 / 2.6]),
        (moduli("shear-modulus = \"690 MPa\"", ", poisson = 0.25"), [690e6, 210e9 / 2.5, 210e9 / 2.5]),
        (moduli("", ", shear-modulus = \"80 GPa\""), [11e9 / 2.6, 80e9, 80e9]),
    ] {
        for (got, expected) in got.iter().zip(expected) {
            assert_near(got / expected, 1.0);
        }
    }
}
