//! The notes of lessons with joints along the beam, and of a slice where the bending moment stays.

use document::notes::notes;
use document::tree::{Block, Document, Paper, Table, plain};
use workings::solved::Solved;

/// Two boards of 73 x 31 mm, one on the other, on two supports 3.3 m apart.
fn boards(loads: &str, slice: &str, joint: &str) -> (Document, Solved) {
    let text = format!(
        "title = \"Boards\"\n[beam]\nlength = \"3.3 m\"\nsupports = [{{ pin = \"0 m\" }}, {{ roller = \"3.3 m\" }}]\n\
         loads = [{loads}]\n[material]\nname = \"spruce\"\nE = \"11 GPa\"\n[section]\nparts = [\n\
         {{ name = \"lower\", width = \"73 mm\", height = \"31 mm\" }},\n\
         {{ name = \"upper\", width = \"73 mm\", height = \"31 mm\", on = \"lower\" }},\n]\n\
         joints = [{{ name = \"seam\", beyond = [\"upper\"], rows = 3, zones = true, {joint} }}]\n\
         [slice]\nat = \"{slice}\"\nlength = \"50 mm\"\n[cut]\nat = \"seam\"\n"
    );
    let reading = lesson::read(&text, "boards.toml");
    let lesson = reading.lesson.unwrap_or_else(|| panic!("{:?}", reading.findings));
    let solved = Solved::new(lesson.problem.clone(), lesson.style.clone()).expect("it can be solved");
    (notes(&lesson, &solved, Paper::A4), solved)
}

const IN_THIRDS: &str = "{ force = \"1.1 kN\", at = \"1.1 m\" }, { force = \"1.1 kN\", at = \"2.2 m\" }";
const EVEN: &str = "{ spread = \"2 kN/m\" }";
const SCREWS: &str = "kind = \"screws\", capacity = \"0.7 kN\"";
const WELD: &str = "kind = \"weld\", strength = \"20 N/mm\", run = \"20 mm\"";

/// All words of a document, also those in boxes.
fn words(document: &Document) -> String {
    fn of(blocks: &[Block], document: &Document, all: &mut String) {
        for block in blocks {
            match block {
                Block::Paragraph(text) | Block::Heading { text, .. } => {
                    all.push_str(&plain(text, &document.style));
                    all.push('\n');
                }
                Block::Callout(callout) => of(&callout.body, document, all),
                _ => {}
            }
        }
    }
    let mut all = String::new();
    of(&document.body, document, &mut all);
    all.replace('\u{a0}', " ")
}

fn tables<'a>(document: &'a Document, caption: &'a str) -> impl Iterator<Item = &'a Table> {
    document.body.iter().filter_map(move |block| match block {
        Block::Table(table) if plain(&table.caption, &document.style).contains(caption) => Some(table),
        _ => None,
    })
}

fn cells(document: &Document, table: &Table, row: usize) -> Vec<String> {
    table.rows[row].iter().map(|cell| plain(cell, &document.style).replace('\u{a0}', " ")).collect()
}

/// Between the forces V is zero and M stays: nothing differs from face to face, and the joint passes nothing on.
#[test]
fn where_the_moment_stays_nothing_differs() {
    let (document, _) = boards(IN_THIRDS, "1.5 m", SCREWS);
    let said = words(&document);
    for wrong in
        ["The two bending moments differ", "is larger than on the other", "changes along the beam, so"]
    {
        assert!(!said.contains(wrong), "{wrong}");
    }
    assert!(said.contains("the cut has nothing to carry and bears no shear"));
    let (elsewhere, _) = boards(IN_THIRDS, "0.5 m", SCREWS);
    assert!(words(&elsewhere).contains("The two bending moments differ"));
    let zones = tables(&document, "From zone to zone").next().expect("it has zones");
    assert_eq!(zones.rows.len(), 3);
    assert_eq!(cells(&document, zones, 1)[..2], ["1.1 m to 2.2 m", "0 N/mm"]);
    assert!(said.contains("The shear force is zero from 1.1 m to 2.2 m"));
}

/// Of eight zones the first is worked out; the others, and the steps at which they end, stand in two tables with all eight.
#[test]
fn one_zone_is_worked_out_for_all() {
    let (document, solved) = boards(EVEN, "0.5 m", SCREWS);
    let (_, zones) = solved.zones().next().expect("it has zones");
    assert_eq!(zones.len(), 8);
    for caption in ["where each begins (1) and ends (2)", "shear flow, spacing and number"] {
        let rows: Vec<usize> = tables(&document, caption).map(|table| table.rows.len()).collect();
        assert_eq!(rows, [8], "{caption}");
    }
    let said = words(&document);
    let worked = |zone: usize| said.contains(&format!("Largest spacing at the seam in zone {zone}."));
    assert!(worked(1) && !worked(2) && !worked(8));
    let ends = |zone: usize| said.contains(&format!("Bending moment at the end of zone {zone} of the seam."));
    assert!(ends(1) && !ends(2));
}

/// A weld has runs, not fasteners, and its table the length of a run and what it may carry.
#[test]
fn a_weld_is_spoken_of_as_a_weld() {
    let (document, _) = boards(EVEN, "0.5 m", WELD);
    let said = words(&document);
    assert!(said.contains("Runs of weld along the beam") && !said.contains("Fasteners along the beam"));
    assert!(!said.contains("distances from ends and edges"));
    let table = tables(&document, "What each joint carries").next().expect("it has a joint");
    let names: Vec<String> =
        (0..table.rows.len()).map(|row| cells(&document, table, row)[0].clone()).collect();
    for name in ["run of seam", "capacity of one run of seam"] {
        assert!(names.iter().any(|known| known == name), "{name}: {names:?}");
    }
}
