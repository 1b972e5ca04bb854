//! The notes of lessons whose section is thin-walled.

use document::notes::notes;
use document::tree::{Block, Document, Paper, Table, plain};
use workings::solved::Solved;

/// A cantilever with a force of 12 kN down at its end, so that V = 12 kN at the slice.
fn lesson_of(section: &str) -> Document {
    let text = format!(
        "title = \"Walls\"\n[beam]\nlength = \"2 m\"\nsupports = [{{ fixed = \"0 m\" }}]\n\
         loads = [{{ force = \"12 kN\", at = \"2 m\" }}]\n[material]\nE = \"200 GPa\"\n[section]\n{section}\n\
         [slice]\nat = \"1 m\"\nlength = \"50 mm\"\n[cut]\nat = \"100 mm\"\n"
    );
    let reading = lesson::read(&text, "walls.toml");
    let lesson = reading.lesson.unwrap_or_else(|| panic!("{section}: {:?}", reading.findings));
    let solved = Solved::new(lesson.problem.clone(), lesson.style.clone()).expect("it can be solved");
    notes(&lesson, &solved, Paper::A4)
}

/// What stands in the chapter.
fn blocks_of_chapter(document: &Document) -> Option<impl Iterator<Item = &Block>> {
    let is_chapter = |block: &Block, title: Option<&str>| match block {
        Block::Heading { level: 1, text } => title.is_none_or(|title| plain(text, &document.style) == title),
        _ => false,
    };
    let start = document.body.iter().position(|block| is_chapter(block, Some("Shear flow in the walls")))?;
    Some(document.body[start + 1..].iter().take_while(move |block| !is_chapter(block, None)))
}

/// The chapter's paragraphs as one text, and its last table.
fn chapter(document: &Document) -> Option<(String, Table)> {
    let blocks = blocks_of_chapter(document)?;
    let (mut words, mut tables) = (String::new(), Vec::new());
    for block in blocks {
        match block {
            Block::Paragraph(text) => words.push_str(&plain(text, &document.style)),
            Block::Table(table) => tables.push(table.clone()),
            _ => {}
        }
    }
    Some((words.replace('\u{a0}', " "), tables.pop()?))
}

fn last_row(document: &Document, table: &Table) -> Vec<String> {
    let cells = table.rows.last().expect("it has rows");
    cells.iter().map(|cell| plain(cell, &document.style).replace('\u{a0}', " ")).collect()
}

/// By the closed formula of the textbooks, on middle lines b = 77 mm, h = 190 mm: `e = 3 b² t_f / (h t_w + 6 b t_f)` =
/// 30.93 mm, so the moment about the web is -12 kN × 30.93 mm = -0.371 kN m.
#[test]
fn the_walls_of_a_channel_add_up() {
    let document = lesson_of(
        "shape = \"channel\"\nwidth = \"80 mm\"\nheight = \"200 mm\"\nflange-thickness = \"10 mm\"\n\
         web-thickness = \"6 mm\"",
    );
    let (words, table) = chapter(&document).expect("its walls are thin");
    assert_eq!(table.rows.len(), 4);
    assert!(table.total);
    let total = last_row(&document, &table);
    assert_eq!(total[..4], ["all walls", "0 kN", "12.00 kN", "1.000"].map(String::from), "{total:?}");
    assert!(total[4].contains("0.371"), "{total:?}");
    assert!(words.contains("30.9 mm to the left of that middle line"), "{words}");
    let page = document::html::html(&document);
    assert!(page.contains("Shear flow in the walls"));
}

#[test]
fn closed_walls_are_told_apart_from_open_ones() {
    let tube = lesson_of("shape = \"tube\"\ndiameter = \"200 mm\"\nwall = \"5 mm\"");
    let (words, table) = chapter(&tube).expect("its wall is thin");
    assert!(words.contains("A closed cell has no free edge"), "{words}");
    assert!(words.contains("upright line through the centroid"), "{words}");
    assert_eq!(table.rows.len(), 3);
    let profile = lesson_of("profile = \"IPE 200\"");
    let (words, table) = chapter(&profile).expect("its walls are thin");
    assert!(!words.contains("A closed cell"), "{words}");
    assert_eq!(last_row(&profile, &table)[4], "0 N·m");
    let angle =
        lesson_of("shape = \"angle\"\nwidth = \"100 mm\"\nheight = \"150 mm\"\nthickness = \"10 mm\"");
    let (words, _) = chapter(&angle).expect("its walls are thin");
    assert!(words.contains("No axis of symmetry"), "{words}");
    assert!(chapter(&lesson_of("shape = \"rectangle\"\nwidth = \"80 mm\"\nheight = \"200 mm\"")).is_none());
}

/// Both cells are cut open, the conditions stand there, and what is left of them is told.
#[test]
fn two_cells_are_worked_out_in_words_and_equations() {
    let document = lesson_of(
        "parts = [\n\
         { name = \"bottom\", width = \"308.5 mm\", height = \"3 mm\", left = \"0 mm\" },\n\
         { name = \"left web\", width = \"5 mm\", height = \"297 mm\", left = \"0 mm\", on = \"bottom\" },\n\
         { name = \"middle web\", width = \"5 mm\", height = \"297 mm\", left = \"180 mm\", on = \"bottom\" },\n\
         { name = \"right web\", width = \"12 mm\", height = \"297 mm\", left = \"296.5 mm\", on = \"bottom\" },\n\
         { name = \"top\", width = \"308.5 mm\", height = \"3 mm\", left = \"0 mm\", on = \"left web\" }]",
    );
    let (words, _) = chapter(&document).expect("its walls are thin");
    for said in [
        "no cell twists",
        "cell I at the lower end of the left web (bottom, left) and cell II at the lower end of the middle web (bottom, right)",
        "one condition for each",
        "13.68 mm to the right of that middle line",
        "Round each cell the flow over the thickness sums up to nothing",
        "With every cell slit along an edge",
    ] {
        assert!(words.contains(said), "{said}: {words}");
    }
    let tables = document.body.iter().filter_map(|block| match block {
        Block::Table(table) => Some(table),
        _ => None,
    });
    let ways: Vec<String> = tables
        .filter(|table| plain(&table.caption, &document.style).starts_with("The walls by their numbers"))
        .flat_map(|table| table.rows.iter().filter_map(|row| row.last()))
        .map(|way| plain(way, &document.style))
        .collect();
    assert_eq!(ways, ["to the right", "to the right", "down", "up", "up", "to the left", "to the left"]);
    let equations =
        blocks_of_chapter(&document).expect("its walls are thin").filter_map(|block| match block {
            Block::Equation(equation) => Some(format!("{equation:?}")),
            _ => None,
        });
    let of_sums: Vec<String> = equations.filter(|text| text.contains("CellTwist")).collect();
    // Two sums cut open, three coefficients, two conditions, two closing flows, two flows of the torque.
    assert_eq!(of_sums.len(), 11);
}

/// A tray with sloping webs: the steps are the engine's, the sums and the places are told. A stocky channel has no such chapter,
/// and its notes say why.
#[test]
fn sloping_walls_are_told_and_stocky_ones_explained() {
    let corners = |all: &[(f64, f64)]| {
        let one = |(x, y): &(f64, f64)| format!("{{ corner = [\"{x} mm\", \"{y} mm\"] }}");
        all.iter().map(one).collect::<Vec<_>>().join(", ")
    };
    let bottom = corners(&[(-60.0, 0.0), (60.0, 0.0), (60.0, 6.0), (-60.0, 6.0)]);
    let left = corners(&[(-60.0, 6.0), (-54.0, 6.0), (-94.0, 120.0), (-100.0, 120.0)]);
    let right = corners(&[(54.0, 6.0), (60.0, 6.0), (100.0, 120.0), (94.0, 120.0)]);
    let document = lesson_of(&format!(
        "name = \"tray\"\nparts = [\n{{ name = \"bottom\", outline = [{bottom}] }},\n\
         {{ name = \"left web\", outline = [{left}] }},\n{{ name = \"right web\", outline = [{right}] }},\n]"
    ));
    let (words, table) = chapter(&document).expect("its walls are thin");
    assert!(words.contains("only what comes out is told"), "{words}");
    assert!(words.contains("The shear centre is as high as"), "{words}");
    assert!(words.contains("The torsion constant of these walls is"), "{words}");
    // Both parts of the bottom are one wall here: nothing stands between the webs.
    assert_eq!(table.rows.len(), 4);
    let total = last_row(&document, &table);
    assert_eq!((total[2].as_str(), total[3].as_str()), ("12.00 kN", "1.000"), "{total:?}");
    let stocky = lesson_of(
        "shape = \"channel\"\nwidth = \"80 mm\"\nheight = \"200 mm\"\nflange-thickness = \"20 mm\"\n\
         web-thickness = \"16 mm\"",
    );
    assert!(chapter(&stocky).is_none());
    let mut said = String::new();
    let mut add = |block: &Block| {
        if let Block::Paragraph(text) = block {
            said.push_str(&plain(text, &stocky.style).replace('\u{a0}', " "));
        }
    };
    stocky.body.iter().for_each(|block| block.each(&mut add));
    assert!(said.contains("is 80 mm long and 20 mm thick"), "{said}");
}
