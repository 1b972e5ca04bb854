//! Notes and slides of the lessons that come with the project, on both sheets and as pages.

use crate::common::every_block::HOSTILE;
use crate::common::page;
#[cfg(feature = "pdf")]
use crate::common::structure;
use document::notes::notes;
use document::slides::slides;
use document::tree::{Block, Document, Figure, Inline, Paper, plain};
use lesson::Lesson;
use workings::elastic::ElasticTruth;
use workings::solved::Solved;

fn lessons() -> impl Iterator<Item = (&'static str, Lesson, Solved)> {
    lesson::builtin::ALL.iter().map(|builtin| {
        let lesson = lesson::read(builtin.text, builtin.name).lesson.expect("our own lessons can be read");
        let solved =
            Solved::new(lesson.problem.clone(), lesson.style.clone()).expect("our own lessons can be solved");
        (builtin.name, lesson, solved)
    })
}

fn blocks(document: &Document) -> Vec<&Block> {
    let mut all = Vec::new();
    document.body.iter().for_each(|block| block.each(&mut |block| all.push(block)));
    all
}

fn words(document: &Document) -> String {
    let mut out = String::new();
    for block in blocks(document) {
        let mut add = |line: &[Inline]| {
            out.push_str(&plain(line, &document.style));
            out.push('\n');
        };
        match block {
            Block::Heading { text, .. } | Block::Paragraph(text) => add(text),
            Block::Figure(figure) => add(&figure.caption),
            Block::Table(table) => {
                add(&table.caption);
                table.rows.iter().flatten().for_each(|cell| add(cell));
            }
            Block::Callout(callout) => add(&[Inline::text(&callout.title)]),
            _ => {}
        }
    }
    out
}

/// What elastic theory says stands in the notes as the workings show it, with its drawing.
#[test]
fn notes_say_how_far_the_formula_is_from_the_truth() {
    for (name, lesson, solved) in lessons() {
        let document = notes(&lesson, &solved, Paper::A4);
        let said = words(&document);
        let truth = ElasticTruth::of(&solved).expect("our own sections can be solved");
        let rows = truth.values(&solved);
        for wanted in [
            "largest shear stress of the section by the formula",
            "largest true shear stress of the section",
            "largest true over formula, of the section",
            "form factor of the formula",
            "form factor of the true stress",
        ] {
            let row = rows.iter().find(|row| row.name == wanted).expect("a row");
            assert!(said.contains(&row.shown), "{name}: {wanted}, {}", row.shown);
        }
        for caution in truth.cautions(&solved) {
            assert!(said.contains(&caution), "{name}: {caution}");
        }
        let drawn = blocks(&document)
            .iter()
            .any(|block| matches!(block, Block::Figure(figure) if figure.drawing.name == "elastic"));
        assert!(drawn, "{name}");
    }
}

/// The equivalent stress is a criterion of ductile metals (von Mises, in every textbook): no lesson in wood or concrete may be told
/// by it what governs, and one in steel is. What every lesson meets is not told as what others meet.
#[test]
fn notes_say_what_holds_for_their_material_and_their_lesson() {
    for (name, lesson, solved) in lessons() {
        let document = notes(&lesson, &solved, Paper::A4);
        let said = words(&document);
        let metal = solved.problem().part_materials.iter().all(|of| of.name.as_deref() == Some("steel"));
        let told = said.contains("governs, at the") || said.contains("The junction governs");
        let askew = solved.section().properties().bends_askew();
        assert_eq!(told, metal && !askew, "{name}");
        // Along a level wall the stress is the same only where the axis is level too.
        assert!(!(askew && said.contains("Along a level wall it grows in a straight line")), "{name}");
        if let Some((_, elsewhere)) =
            listed(&document).into_iter().find(|(head, _)| head.starts_with("Other lessons"))
        {
            assert!(
                !elsewhere.contains("A mean over the width.") && !elsewhere.contains("Near forces"),
                "{name}"
            );
        }
    }
}

/// What shear adds stands beside the deflection of bending, and the sum where it is a tenth or more; what goes sideways is told.
#[test]
fn notes_tell_what_the_deflection_leaves_out() {
    for (name, lesson, solved) in lessons() {
        let said = words(&notes(&lesson, &solved, Paper::A4));
        let Ok(truth) = ElasticTruth::of(&solved) else { continue };
        let much = truth.sag_of_shear(&solved).is_some_and(|sag| sag.share() > 0.1);
        assert!(said.contains("Without what shear adds the largest deflection is"), "{name}");
        assert_eq!(said.contains("too much to be left out: in all the largest is"), much, "{name}");
        assert!(much || !["gangplank", "short-joist"].contains(&name), "{name}: a soft core, a short beam");
        let askew = solved.section().properties().bends_askew();
        assert_eq!(said.contains("Free to go sideways, the beam moves"), askew, "{name}");
    }
}

/// The lists of a document, each with the paragraph before it.
fn listed(document: &Document) -> Vec<(String, String)> {
    let text = |block: &Block| match block {
        Block::Paragraph(line) => plain(line, &document.style),
        _ => String::new(),
    };
    let pairs = document.body.windows(2);
    let of = |pair: &[Block]| match &pair[1] {
        Block::List { items, .. } => Some((text(&pair[0]), items.iter().flatten().map(text).collect())),
        _ => None,
    };
    pairs.filter_map(of).collect()
}

#[test]
fn pages_of_every_lesson_are_sound() {
    for (name, lesson, solved) in lessons() {
        let page = page::checked(&notes(&lesson, &solved, Paper::A4));
        assert!(page.contains("<svg"), "{name}");
        page::checked(&slides(&lesson, &solved));
    }
}

#[test]
fn numbers_of_figures_tables_and_equations_run_on() {
    for (name, lesson, solved) in lessons() {
        let document = notes(&lesson, &solved, Paper::A4);
        let blocks = blocks(&document);
        let in_order = |numbers: Vec<u32>| {
            assert!(!numbers.is_empty(), "{name}");
            assert!(numbers.iter().copied().eq(1..=numbers.len() as u32), "{name}: {numbers:?}");
        };
        in_order(
            blocks
                .iter()
                .filter_map(|block| if let Block::Figure(figure) = block { figure.number } else { None })
                .collect(),
        );
        in_order(
            blocks
                .iter()
                .filter_map(|block| if let Block::Table(table) = block { table.number } else { None })
                .collect(),
        );
        let equations = blocks.iter().filter_map(|block| match block {
            Block::Equation(equation) => equation.number.as_ref().and_then(|number| number.parse().ok()),
            _ => None,
        });
        in_order(equations.collect());
    }
}

#[test]
fn every_working_and_every_word_of_the_lecturer_is_in_the_notes() {
    for (name, lesson, solved) in lessons() {
        let document = notes(&lesson, &solved, Paper::A4);
        let words = words(&document);
        for (_, _, text) in lesson.texts.iter() {
            for own in document::markdown::blocks(text) {
                if let Block::Paragraph(line) = own {
                    let line = plain(&line, &document.style);
                    assert!(words.contains(&line), "{name}: {line}");
                }
            }
        }
        // The shear stress on the cut, as the workings show it.
        let key = solved.key().stress_on_cut;
        let shown = solved
            .style()
            .text(solved.workings().working(key).value, solved.workings().working(key).symbol.role);
        let alone = blocks(&document).into_iter().any(|block| match block {
            Block::Equation(equation) => {
                equation.spoken(solved.style()).contains(shown.split(['\u{a0}', ' ']).next().unwrap_or(""))
            }
            _ => false,
        });
        assert!(alone, "{name}: {shown}");
        assert!(words.contains("licensed engineer"), "{name}");
        assert!(!words.contains("NaN") && !words.contains("inf "), "{name}");
    }
}

#[test]
fn every_drawing_of_the_lesson_has_its_place_in_the_notes() {
    for (name, lesson, solved) in lessons() {
        let document = notes(&lesson, &solved, Paper::A4);
        let blocks = blocks(&document);
        let shown: Vec<&Figure> = blocks
            .iter()
            .filter_map(|block| if let Block::Figure(figure) = block { Some(&**figure) } else { None })
            .collect();
        for drawing in figure::all(&solved) {
            // The beam with its reactions drawn at the supports says the same as its free body.
            let there = shown.iter().any(|figure| figure.drawing.name == drawing.name);
            assert!(there || drawing.name == "beam", "{name}: {}", drawing.name);
        }
        for figure in shown {
            assert!(!figure.caption.is_empty(), "{name}: {}", figure.drawing.name);
            assert!(
                !figure.drawing.short.is_empty() && !figure.drawing.long.passages.is_empty(),
                "{name}: {}",
                figure.drawing.name
            );
        }
    }
}

#[cfg(feature = "pdf")]
#[test]
fn pdfs_of_every_lesson_are_accessible() {
    for (name, lesson, solved) in lessons() {
        for paper in [Paper::A4, Paper::UsLetter] {
            let elements = structure::checked(&notes(&lesson, &solved, paper));
            assert!(structure::count(&elements, "Figure") > 8, "{name}");
        }
        let document = slides(&lesson, &solved);
        structure::checked(&document);
        // One page for the title, and one for each step.
        let steps = |block: &Block| if let Block::Slide(slide) = block { slide.steps.len() } else { 0 };
        let expected = 1 + document.body.iter().map(steps).sum::<usize>();
        let made = document::pdf::pdf(&document).expect("a PDF");
        assert_eq!(structure::read(&made.bytes).pages().len(), expected, "{name}");
        assert!(made.replaced.is_empty(), "{name}: {:?}", made.replaced);
    }
}

/// The slides go on past the formula where the lesson does, each page with something on it.
#[test]
fn slides_go_on_to_joints_cells_points_limits_and_the_truth() {
    for (name, lesson, solved) in lessons() {
        let document = slides(&lesson, &solved);
        let pages: Vec<(String, usize)> = blocks(&document)
            .into_iter()
            .filter_map(|block| match block {
                Block::Slide(slide) => Some((plain(&slide.title, &document.style), slide.steps.len())),
                _ => None,
            })
            .collect();
        let steps = |title: &str| pages.iter().find(|(of, _)| of.as_str() == title).map(|(_, steps)| *steps);
        for joint in &solved.problem().joints {
            assert!(steps(&format!("The joint: {}", joint.name)).is_some_and(|steps| steps >= 2), "{name}");
        }
        let zones = pages.iter().filter(|(title, _)| title.ends_with(" along the beam")).count();
        assert_eq!(zones, solved.zones().count(), "{name}");
        assert_eq!(steps("The closing flow").is_some(), solved.cells().is_some(), "{name}");
        assert_eq!(steps("What the beam may carry").is_some(), solved.allowables().is_some(), "{name}");
        assert_eq!(steps("Cut at the hinge").is_some(), !solved.problem().beam.hinges.is_empty(), "{name}");
        let redundants = solved.problem().beam.redundants().is_ok_and(|redundants| !redundants.is_empty());
        assert_eq!(steps("More supports than balance needs").is_some(), redundants, "{name}");
        let element = solved.workings().id("largest principal stress at the cut").is_some();
        assert_eq!(steps("Stress at a point").is_some_and(|steps| steps >= 4), element, "{name}");
        assert_eq!(
            steps("What governs the beam").is_some(),
            solved.workings().id("largest equivalent stress at the checked places").is_some(),
            "{name}"
        );
        assert_eq!(steps("How far the formula is from the truth"), Some(3), "{name}");
        assert_eq!(
            pages.last().map(|(title, _)| title.as_str()),
            Some("What the formula leaves out"),
            "{name}"
        );
    }
}

/// A lesson of ours with a text put for every name and title in it.
fn named(text: &str) -> (Lesson, Solved) {
    let (_, mut lesson, _) = lessons().next().expect("a lesson");
    lesson.about.title = text.into();
    lesson.about.course = Some(text.into());
    lesson.about.lecturer = Some(text.into());
    lesson.about.teaches = Some(text.into());
    lesson.problem.title = text.into();
    lesson.problem.section_name = text.into();
    // The reading of a lesson sees to it that no two things of a kind have one name.
    let mut count = 0;
    let mut names = |name: &mut String| {
        count += 1;
        *name = format!("{text}{count}");
    };
    lesson.problem.supports.iter_mut().for_each(|support| names(&mut support.name));
    lesson.problem.loads.iter_mut().for_each(|load| names(&mut load.name));
    lesson.problem.part_names.iter_mut().for_each(&mut names);
    lesson.problem.joints.iter_mut().for_each(|joint| names(&mut joint.name));
    lesson.problem.cut.joint = Some(text.into());
    let solved =
        Solved::new(lesson.problem.clone(), lesson.style.clone()).expect("names do not change the mechanics");
    (lesson, solved)
}

#[test]
fn no_name_in_a_lesson_breaks_its_notes() {
    for text in HOSTILE.into_iter().chain([""]) {
        let (lesson, solved) = named(text);
        page::checked(&notes(&lesson, &solved, Paper::A4));
        #[cfg(feature = "pdf")]
        {
            structure::checked(&notes(&lesson, &solved, Paper::A4));
            structure::checked(&slides(&lesson, &solved));
        }
    }
}

/// The lesson of a text, which must be sound.
fn lesson_of(text: &str) -> (Lesson, Solved) {
    let reading = lesson::read(text, "test.toml");
    let lesson = reading.lesson.unwrap_or_else(|| {
        panic!("{}", reading.findings.iter().map(|finding| finding.render(false)).collect::<String>())
    });
    let solved = Solved::new(lesson.problem.clone(), lesson.style.clone()).expect("the lesson can be solved");
    (lesson, solved)
}

fn all_checked(name: &str, lesson: &Lesson, solved: &Solved) {
    let document = notes(lesson, solved, Paper::A4);
    page::checked(&document);
    assert!(!words(&document).contains("NaN"), "{name}");
    #[cfg(feature = "pdf")]
    {
        structure::checked(&document);
        structure::checked(&slides(lesson, solved));
    }
}

#[test]
fn notes_can_be_written_in_every_notation() {
    use workings::notation::{Notation, Profile};
    use workings::style::{DecimalMark, Multiplication};
    let all: Vec<_> = lessons().collect();
    // The last is as any; that of the gangway is cut at its neutral axis.
    let some = all.iter().filter(|(name, ..)| *name == "gangway").chain(all.last());
    for (_, lesson, _) in some {
        for profile in Profile::ALL {
            let mut lesson = lesson.clone();
            lesson.style.notation = Notation::of(profile);
            lesson.style.decimal_mark = DecimalMark::Comma;
            lesson.style.multiplication = Multiplication::Dot;
            let solved =
                Solved::new(lesson.problem.clone(), lesson.style.clone()).expect("notation changes no value");
            all_checked(profile.name(), &lesson, &solved);
        }
    }
}

#[test]
fn odd_lessons_have_notes_too() {
    let rest = "[section]\nshape = \"rectangle\"\nwidth = \"100 mm\"\nheight = \"200 mm\"\n";
    for (name, beam, slice, cut) in [
        (
            "a cantilever, sliced at its free end",
            "length = \"2 m\"\nsupports = [{ fixed = \"2 m\" }]\nloads = [{ force = \"1 kN\", at = \"0 m\" }]",
            "0 m",
            "120 mm",
        ),
        (
            "no shear force at the slice",
            "length = \"4 m\"\nsupports = [{ pin = \"0 m\" }, { roller = \"4 m\" }]\nloads = [{ force = \"1 kN\", at = \"1 m\" }, { force = \"1 kN\", at = \"3 m\" }]",
            "2 m",
            "100 mm",
        ),
        (
            "a cut close to the outer fibre",
            "length = \"4 m\"\nsupports = [{ pin = \"0 m\" }, { roller = \"4 m\" }]\nloads = [{ spread = \"2 kN/m\", from = \"0 m\", to = \"4 m\" }]",
            "1 m",
            "199.9 mm",
        ),
        (
            "a couple alone",
            "length = \"4 m\"\nsupports = [{ pin = \"0 m\" }, { roller = \"4 m\" }]\nloads = [{ couple = \"2 kN m\", at = \"1 m\" }]",
            "3 m",
            "50 mm",
        ),
        (
            "a hinge and a settlement",
            "length = \"6 m\"\nsupports = [{ fixed = \"0 m\" }, { roller = \"3 m\", settles = \"2 mm\" }, { roller = \"6 m\" }]\nhinges = [\"4 m\"]\nloads = [{ force = \"-3 kN\", at = \"5 m\" }]",
            "1 m",
            "50 mm",
        ),
    ] {
        let text = format!(
            "title = \"{name}\"\nunits = \"metric\"\n[beam]\n{beam}\n[material]\nE = \"10 GPa\"\n{rest}[slice]\nat = \"{slice}\"\n\
             length = \"20 mm\"\n[cut]\nat = \"{cut}\"\n"
        );
        let (lesson, solved) = lesson_of(&text);
        all_checked(name, &lesson, &solved);
    }
}
