//! Papers hold nothing of their keys; keys hold what the workings hold.

use crate::common::asked::{LESSONS, Set, all_sets, set_of};
use crate::common::leaks::{leaks, tells, values, without_coordinates, writings};
use assessment::set::Ask;
use document::html::html;
use document::paper::{Form, Who, key, paper};
use document::tree::{Block, Document, Inline, Paper, Print, plain};
use workings::quantity::Quantity;

fn who() -> Who {
    Who { name: Some("Ada Example".into()), id: Some("0042".into()) }
}

fn form() -> Form {
    Form { number: Some("7KQ2".into()), letter: Some("B".into()), ..Form::default() }
}

/// The page without its style sheet and without the coordinates of its drawings, whose numbers are none of ours: among some
/// thousands of them one is a value of the key now and then.
fn page(document: &Document) -> String {
    let all = html(document);
    let (head, rest) = all.split_once("<style>").expect("a style sheet");
    let (_, body) = rest.split_once("</style>").expect("its end");
    let mut page = head.to_owned();
    let mut drawings = body.split("<svg");
    page.push_str(drawings.next().unwrap_or_default());
    for part in drawings {
        let (drawing, after) = part.split_once("</svg>").expect("its end");
        page.push_str(&without_coordinates(drawing));
        page.push_str(after);
    }
    page
}

/// Of all lessons that come with the project, with questions of every kind.
#[test]
fn a_paper_tells_no_value_of_its_key() {
    for Set { name, set } in all_sets() {
        for print in [Print::Usual, Print::Large] {
            let page = page(&paper(&set, &who(), &Form { print, ..form() }));
            assert_eq!(leaks(&set, &page), [""; 0], "{name}");
        }
    }
}

/// The test above finds what it looks for.
#[test]
fn a_key_tells_every_right_value() {
    for Set { name, set } in all_sets() {
        let page = page(&key(&set, &who(), &form()));
        for value in values(&set) {
            let found = set.solved.workings().get(&value.working).expect("a working of the lesson");
            assert_eq!(value.right, found.value.value, "{name}: {}", value.working);
            let quantity = Quantity::new(value.right, found.value.dimension);
            let shown = set.solved.style().show(quantity, found.symbol.role);
            // Formulas are MathML, with number and unit in elements of their own.
            let number = shown.number();
            assert!(page.contains(&number), "{name}: the key lacks {number}, {}", value.working);
        }
    }
}

/// A cut that is placed from the neutral axis must not be shown where it lies, nor its height told.
#[test]
fn a_cut_at_the_neutral_axis_does_not_tell_where_that_is() {
    let (name, text) = LESSONS.iter().find(|(name, _)| *name == "overhang").expect("a lesson of ours");
    let moved = text.replace("at = \"bottom of flange\"", "at = \"neutral axis\"");
    assert_ne!(&moved, text);
    let ask = "[[question]]\nask = \"first moment at the cut\"\nsteps = [\"centroid height\"]\n";
    let set = set_of(name, &moved, ask);
    assert_eq!(set.lesson.cut_from_axis, Some(0.0));
    let height = set.solved.value(set.solved.key().centroid);
    let page = page(&paper(&set, &who(), &form()));
    for text in writings(&set, "centroid height", height) {
        assert!(!tells(&page, &text), "the paper tells {text}");
    }
    assert!(page.contains("at the neutral axis") && !page.contains("group-cut") && !page.contains(">cut<"));
}

fn count(document: &Document, which: impl Fn(&Block) -> bool) -> usize {
    let mut count = 0;
    document.body.iter().for_each(|block| block.each(&mut |block| count += usize::from(which(block))));
    count
}

#[test]
fn every_part_has_its_marks_and_a_place_for_its_answer() {
    for Set { name, set } in all_sets() {
        let paper = paper(&set, &who(), &form());
        let parts = set.parts().count();
        let questions = set.questions.len();
        let several: usize =
            set.questions.iter().map(|question| question.parts.len()).filter(|&n| n > 1).sum();
        assert_eq!(count(&paper, |block| matches!(block, Block::Question(_))), questions + several, "{name}");
        let answered = count(&paper, |block| matches!(block, Block::Answer(_) | Block::Choices(_)));
        let sketches = set.parts().filter(|part| matches!(part.ask, Ask::Sketch { .. })).count();
        assert_eq!(answered + sketches, parts, "{name}");
        assert_eq!(count(&paper, |block| matches!(block, Block::Room(_))), parts, "{name}");
        let marked =
            |block: &Block| matches!(block, Block::Question(question) if question.marks.contains("mark"));
        assert_eq!(count(&paper, marked), questions + several, "{name}");
        // What is drawn by hand is drawn on something, save the free body.
        assert!(count(&paper, |block| matches!(block, Block::Figure(_))) >= 2 + sketches - 1, "{name}");
    }
}

/// The values to choose from have the letters by which answers are read, on the paper and in the key.
#[test]
fn values_to_choose_from_have_their_letters() {
    let lettered = |document: &Document, ends: &str, letter: char| {
        let mut found = false;
        document.body.iter().for_each(|block| {
            block.each(&mut |block| {
                let lines: Vec<&Vec<Inline>> = match block {
                    Block::Choices(choices) => choices.items.iter().collect(),
                    Block::Table(table) => table.rows.iter().filter_map(|row| row.first()).collect(),
                    _ => Vec::new(),
                };
                let texts = lines.into_iter().map(|line| plain(line, &document.style));
                found |= texts.into_iter().any(|text| text == format!("{letter})\u{2002}{ends}"));
            });
        });
        found
    };
    let mut choices = 0;
    for Set { name, set } in all_sets() {
        let (paper, key) = (paper(&set, &who(), &form()), key(&set, &who(), &form()));
        for part in set.parts() {
            let Ask::Choice(choice) = &part.ask else { continue };
            let working = set.solved.workings().get(&choice.value.working).expect("a working");
            for (place, one) in choice.alternatives.iter().enumerate() {
                let quantity = Quantity::new(one.value, working.value.dimension);
                let shown =
                    set.solved.style().show_beside(quantity, working.symbol.role, choice.value.right).text();
                let letter = ['a', 'b', 'c', 'd', 'e', 'f'][place];
                assert!(
                    lettered(&paper, &shown, letter) && lettered(&key, &shown, letter),
                    "{name}: {letter} {shown}"
                );
                choices += 1;
            }
        }
    }
    assert!(choices > 1, "a lesson of ours has values to choose from");
}

#[test]
fn a_paper_says_whose_it_is_on_every_page() {
    let set = all_sets().next().expect("a lesson").set;
    let paper_of = |who: &Who, form: &Form| paper(&set, who, form);
    let document = paper_of(&who(), &form());
    assert_eq!(document.running, ["Ada Example", "0042", "paper 7KQ2", "form B"]);
    assert_eq!(key(&set, &who(), &form()).running[0], "Key");
    // Two papers are two files; a paper and its key are two.
    assert_ne!(document.identity, paper_of(&Who::default(), &form()).identity);
    assert_ne!(document.identity, key(&set, &who(), &form()).identity);
    // Without a name there is a line to write it on.
    let blank = paper_of(&Who::default(), &Form::default());
    assert_eq!(blank.running, std::slice::from_ref(&set.lesson.about.title));
    let page = page(&blank);
    assert!(page.contains("aria-label=\"Name\"") && page.contains("aria-label=\"Student number\""));
    // A paper is never projected.
    assert_eq!(paper_of(&who(), &Form { sheet: Paper::Wide, ..form() }).paper, Paper::A4);
}

#[test]
fn a_known_mistake_is_told_where_it_comes_to_light_first() {
    let (name, text) = LESSONS.iter().find(|(name, _)| *name == "overhang").expect("a lesson of ours");
    let questions =
        "[[question]]\nask = \"second moment\"\n[[question]]\nask = \"shear stress on the cut\"\n";
    let set = set_of(name, text, questions);
    let document = key(&set, &who(), &form());
    let mut tables = Vec::new();
    document.body.iter().for_each(|block| {
        block.each(&mut |block| {
            if let Block::Table(table) = block
                && plain(&table.caption, &document.style).starts_with("Wrong answers")
            {
                tables.push(table.rows.iter().map(|row| plain(&row[2], &document.style)).collect::<Vec<_>>());
            }
        });
    });
    let [of_i, of_tau] = tables.as_slice() else { panic!("{tables:?}") };
    // Source: the unit's notes on mistakes, no-parallel-axis and t-forgotten.
    let forgets_distance = |said: &String| said.contains("away from the neutral axis");
    assert!(of_i.iter().any(forgets_distance) && !of_tau.iter().any(forgets_distance));
    assert!(of_tau.iter().any(|said| said.contains("shear flow")));
}

/// What is left out of a drawing are coordinates and nothing that can be read.
#[test]
fn of_a_drawing_only_coordinates_are_left_out() {
    let drawing = " viewBox=\"0 0 9 9\"><title id=\"a\">11.76 kN</title><path d=\"M11.76,2\" fill=\"none\"/><text x=\"11.76\">5 kN</text>";
    let left = without_coordinates(drawing);
    assert_eq!(left.matches("11.76").count(), 1, "{left}");
    assert!(left.contains("11.76 kN") && left.contains("5 kN"), "{left}");
}

/// `P_1` in the name of a working is the symbol of the course there, in the words of a question as in its heading.
#[test]
fn names_with_an_index_are_set_as_symbols() {
    let (name, text) = LESSONS.iter().find(|(name, _)| *name == "overhang").expect("a lesson of ours");
    let set =
        set_of(name, text, "[[question]]\nask = \"largest force P_2\"\nsteps = [\"largest load factor\"]\n");
    for document in [paper(&set, &who(), &form()), key(&set, &who(), &form())] {
        let page = html(&document);
        // Drawings and their descriptions, which are heard, keep their words; of all else what is between the tags.
        let outside = |from: &str, to: &str, page: &str| -> String {
            page.split(from).map(|part| part.rsplit(to).next().unwrap_or(part)).collect()
        };
        let words = outside("<details", "</details>", &outside("<svg", "</svg>", &page));
        let words: String = words.split('<').filter_map(|part| Some(part.split_once('>')?.1)).collect();
        assert!(!words.contains("P_2") && !words.contains("P_1"), "{words}");
        assert!(words.contains("largest force P2"), "{words}");
    }
}

/// The letters of a drawing are of 13 px, 9.75 points: in large print they are shown as large as the words, of 18.
#[test]
fn large_print_shows_drawings_larger() {
    let (name, text) = LESSONS.iter().find(|(name, _)| *name == "overhang").expect("a lesson of ours");
    let set = set_of(name, text, "");
    let width = |print: Print| -> Vec<(f64, f64)> {
        let page = html(&paper(&set, &who(), &Form { print, ..form() }));
        let of = |svg: &str, key: &str| -> String {
            let (_, after) = svg.split_once(key).expect("an attribute");
            after.split('"').next().unwrap_or_default().to_owned()
        };
        let drawn = page.split("<svg").skip(1).map(|svg| {
            let box_width =
                of(svg, "viewBox=\"").split(' ').nth(2).expect("a width").parse().expect("a number");
            (of(svg, " width=\"").parse().expect("a number"), box_width)
        });
        drawn.collect()
    };
    let (usual, large) = (width(Print::Usual), width(Print::Large));
    assert!(usual.len() > 1 && usual.len() == large.len());
    assert!(usual.iter().all(|(shown, drawn)| (shown - drawn).abs() < 0.01), "{usual:?}");
    assert!(large.iter().all(|(shown, drawn)| (shown / drawn - 18.0 / 9.75).abs() < 0.001), "{large:?}");
}

/// The words of a paper on a built-in lesson with a question put for its own.
fn words_of(lesson: &str, questions: &str) -> String {
    let text = lesson::builtin::find(lesson).expect("a lesson of ours").text;
    let (without, _) = text.split_once("[[question]]").expect("a lesson that asks");
    page(&paper(&set_of(lesson, without, questions), &who(), &form()))
}

/// What makes a beam determinate is told; the cut and the length of the slice, of which nothing asks, are not.
#[test]
fn a_hinge_is_told_and_a_cut_that_nothing_needs_is_not() {
    let words = "[[question]]\ntext = \"Find it, with its sign, over the middle support.\"\nask = \"bending moment at B\"\n";
    let page = words_of("gangway", words);
    assert!(page.contains("it passes on a force, but no bending moment"), "{page}");
    assert!(!page.contains("It is cut level") && !page.contains("The slice is taken"), "{page}");
    // Words that speak of the cut have it.
    let words = "[[question]]\ntext = \"Find it at B, not at the cut.\"\nask = \"bending moment at B\"\n";
    assert!(words_of("gangway", words).contains("It is cut level"));
}

/// Of two cells no one way round is that of all walls: each flow that is asked for has its own way.
#[test]
fn what_is_asked_of_two_cells_says_which_way_each_flow_counts() {
    let text = lesson::builtin::find("covered-channel").expect("a lesson of ours").text;
    let (before, rest) = text.split_once("parts = [").expect("it has parts");
    let (_, rest) = rest.split_once("[slice]").expect("it has a slice");
    let (rest, _) = rest.split_once("# Three boxes").expect("it has variants");
    let parts = "parts = [\n\
        { name = \"lower strip\", width = \"308.5 mm\", height = \"3 mm\", left = \"0 mm\" },\n\
        { name = \"back\", width = \"5 mm\", height = \"297 mm\", left = \"0 mm\", on = \"lower strip\" },\n\
        { name = \"middle\", width = \"5 mm\", height = \"297 mm\", left = \"180 mm\", on = \"lower strip\" },\n\
        { name = \"cover\", width = \"12 mm\", height = \"297 mm\", left = \"296.5 mm\", on = \"lower strip\" },\n\
        { name = \"upper strip\", width = \"308.5 mm\", height = \"3 mm\", left = \"0 mm\", on = \"back\" },\n]\n\n[slice]";
    let ask = "[[question]]\nask = \"shear flow in middle half-way\"\nsteps = [\"closing flow round cell II\"]\n\
               [[question]]\nask = \"shear force in back\"\n";
    let set = set_of("two-cells", &format!("{before}{parts}{rest}"), ask);
    let page = page(&paper(&set, &who(), &form()));
    for words in [
        "The shear flow in the middle half-way counts as positive up.",
        "The closing flow round cell II counts as positive counter-clockwise.",
        "The shear force in the back counts as positive down.",
    ] {
        assert!(page.contains(words), "{words}");
    }
    assert!(!page.contains("walls of the cell counts"));
}

#[test]
fn what_is_asked_of_walls_says_from_where_and_on_which_face() {
    let ask = "[[question]]\nask = \"torque if the load stands over the centroid\"\nsteps = [\"place of the centroid to the right\"]\n\
               [[question]]\nask = \"shear force in back\"\nsteps = [\"closing flow round the cell\"]\n";
    let page = words_of("covered-channel", ask);
    for words in [
        "place of the centroid to the right of the leftmost fibre",
        "on the left face of the slice",
        "Shear flow in the walls of the cell counts as positive counter-clockwise",
        "The shear force in the back counts as positive down.",
        "Torques count as positive counter-clockwise.",
    ] {
        assert!(page.contains(words), "{words}");
    }
    let other = words_of("covered-channel", "[[question]]\nask = \"second moment by middle lines\"\n");
    assert!(!other.contains("on the left face of the slice"));
}

/// Where a spacing is asked for none is given, unless something asked for needs it.
#[test]
fn a_spacing_that_is_asked_for_is_not_given() {
    let spacing = "[[question]]\nask = \"largest spacing at nails\"\n";
    let force = "[[question]]\nask = \"force on one fastener of nails\"\n";
    let of = |questions: &str| words_of("box-girder", questions);
    for (questions, rounded, given) in [
        (spacing.to_owned(), true, false),
        (format!("{spacing}{force}"), true, true),
        (force.to_owned(), false, true),
    ] {
        let page = of(&questions);
        assert_eq!(
            page.contains("Spacings of the nails may be rounded down to a multiple of"),
            rounded,
            "{questions}"
        );
        assert_eq!(page.contains(">spacing of the nails<"), given, "{questions}");
        assert!(!page.contains("step of nails"), "{questions}");
    }
}

/// In a short girder of steel the junction of web and flange is worse than the outer fibre (by the numbers of the test of the workings), so
/// who is asked for the largest load must know that both stresses count together.
#[test]
fn that_the_equivalent_stress_counts_is_said_where_it_does() {
    let lesson = "title = \"Bracket\"\nunits = \"metric\"\n[beam]\nlength = \"0.5 m\"\nsupports = [{ fixed = \"0 m\", name = \"A\" }]\n\
                  loads = [{ force = \"100 kN\", at = \"0.5 m\" }]\n[material]\nname = \"steel\"\nE = \"210 GPa\"\n\
                  [allowable]\nbending-stress = \"160 MPa\"\n[section]\nname = \"girder\"\n\
                  parts = [{ name = \"lower flange\", width = \"200 mm\", height = \"20 mm\" },\n\
                  { name = \"web\", width = \"10 mm\", height = \"160 mm\", on = \"lower flange\" },\n\
                  { name = \"upper flange\", width = \"200 mm\", height = \"20 mm\", on = \"web\" }]\n\
                  [slice]\nat = \"0.2 m\"\nlength = \"50 mm\"\n[cut]\nat = \"bottom of upper flange\"\n";
    let of = |ask: &str| {
        let question = format!("[[question]]\nask = \"{ask}\"\n");
        page(&paper(&set_of("bracket", lesson, &question), &who(), &form()))
    };
    assert!(of("largest load factor").contains("The equivalent stress counts too"));
    assert!(!of("second moment").contains("equivalent stress"));
}

/// What one run of an interrupted weld carries follows from its length, which no drawing shows.
#[test]
fn the_run_of_a_weld_is_given() {
    let lesson = "title = \"Neck weld\"\nunits = \"metric\"\n[beam]\nlength = \"4 m\"\n\
                  supports = [{ pin = \"0 m\", name = \"A\" }, { roller = \"4 m\", name = \"B\" }]\n\
                  loads = [{ force = \"60 kN\", at = \"2 m\" }]\n[material]\nE = \"210 GPa\"\n[section]\nname = \"T\"\n\
                  parts = [{ name = \"web\", width = \"10 mm\", height = \"300 mm\" },\n\
                  { name = \"flange\", width = \"150 mm\", height = \"15 mm\", on = \"web\" }]\n\
                  joints = [{ name = \"neck weld\", kind = \"weld\", beyond = [\"flange\"], rows = 2, strength = \"600 N/mm\", run = \"60 mm\" }]\n\
                  [slice]\nat = \"1 m\"\nlength = \"50 mm\"\n[cut]\nat = \"neck weld\"\n";
    let question = "[[question]]\nask = \"largest spacing at neck weld\"\n";
    let page = page(&paper(&set_of("neck weld", lesson, question), &who(), &form()));
    assert!(page.contains(">run of the neck weld<") && page.contains("60"), "{page}");
    assert!(!page.contains(">length of the beam<"));
}

/// What no question needs is not shown: neither the slice nor the cut where only reactions are asked for.
#[test]
fn the_slice_and_the_cut_are_shown_where_a_question_needs_them() {
    for (ask, slice, cut) in [
        ("reaction at A", false, false),
        ("largest shear stress over the depth", true, false),
        ("second moment", false, false),
        ("first moment at the cut", true, true),
        ("shear force at the slice", true, false),
        ("shear stress on the cut", true, true),
    ] {
        let page = words_of("box-girder", &format!("[[question]]\nask = \"{ask}\"\n"));
        assert_eq!(page.contains("The slice is taken at"), slice, "{ask}");
        assert_eq!(page.contains("the slice is at"), slice, "{ask}");
        assert_eq!(page.contains("It is cut level"), cut, "{ask}");
        assert_eq!(page.contains("a heavy dash-dotted line"), cut, "{ask}");
    }
    let own = "[[question]]\nask = \"reaction at A\"\ntext = \"What does the support at A carry, left of the cut?\"\n";
    assert!(words_of("box-girder", own).contains("It is cut level"));
}
