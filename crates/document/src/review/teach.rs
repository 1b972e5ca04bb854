//! What to teach again: the mistakes by how many made them, each with the scene of the lecture that shows it.

use super::{Class, heading};
use crate::notes::{line, listed};
use crate::paper::recognised::spelt;
use crate::tree::{Alignment, Block, Inline, Table};
use assessment::review::{MistakeFigures, PlaceFigures};
use lesson::Scene;
use workings::mistake::{self, Mistake};

/// So many mistakes are listed; the rest were made once or twice in any class.
const LISTED: usize = 12;
/// So many places of what nothing explains.
const PLACES: usize = 3;

pub(super) fn again(class: &Class<'_>) -> Vec<Block> {
    let found = class.mistakes;
    let mut blocks = vec![heading("What to teach again")];
    if found.wrong == 0 {
        blocks.push(Block::Paragraph(line!["No answer is wrong."]));
        return blocks;
    }
    if !found.made.is_empty() {
        blocks.push(table(class, &found.made));
    }
    let rest = found.made.len().saturating_sub(LISTED);
    let more = if rest > 0 { format!(" {rest} rarer mistakes are not listed.") } else { String::new() };
    let mut words = line![format!(
        "{} answers are wrong in themselves; what follows rightly from an earlier wrong value is not counted. A known mistake, a slip \
         or early rounding explains {} of them.{more}",
        found.wrong, found.explained
    )];
    let places: Vec<Vec<Inline>> = found
        .unexplained
        .iter()
        .take(PLACES)
        .map(|place| {
            line![format!("{} ({})", class.style().notation.in_its_words(&place.working), place.answers)]
        })
        .collect();
    if !places.is_empty() {
        words.push(" Most of those that nothing explains stand at: ".into());
        words.extend(listed(places));
        words.push(".".into());
    }
    blocks.push(Block::Paragraph(words));
    blocks
}

fn table(class: &Class<'_>, made: &[MistakeFigures]) -> Block {
    let row = |made: &MistakeFigures| {
        let mut done = what_was_done(class, &made.mistake, false);
        if let Some(place) = made.places.first() {
            done.push(format!(" (at the {})", class.style().notation.in_its_words(&place.working)).into());
        }
        vec![
            done,
            line![made.students.to_string()],
            line![made.first.to_string()],
            line![made.places.first().map_or("", shown_in)],
            what_to_say(class, &made.mistake),
        ]
    };
    Block::Table(Table {
        caption: line![
            "Mistakes by how many students made them. First: for how many it was the first step that went wrong."
        ],
        number: None,
        alignment: vec![
            Alignment::Left,
            Alignment::Right,
            Alignment::Right,
            Alignment::Left,
            Alignment::Left,
        ],
        header: vec![
            line!["The student \u{2026}"],
            line!["Students"],
            line!["First"],
            line!["Scene of the notes and the board"],
            line!["What to say"],
        ],
        rows: made.iter().take(LISTED).map(row).collect(),
        row_heads: true,
        total: false,
    })
}

/// The scene of the lecture that shows it.
fn shown_in(place: &PlaceFigures) -> &'static str {
    let scene = Scene::ALL.into_iter().find(|scene| scene.word() == place.scene);
    scene.map_or("", Scene::in_words)
}

fn known<'a>(class: &Class<'a>, id: &str) -> Option<&'a Mistake> {
    mistake::named(id).or_else(|| class.paper.lesson.mistakes.iter().find(|own| own.id() == id))
}

/// What was done, in words that follow on "the student", or on "students".
pub(super) fn what_was_done(class: &Class<'_>, id: &str, in_a_sentence: bool) -> Vec<Inline> {
    if let Some(mistake) = known(class, id) {
        let done = spelt(mistake.does(class.style()));
        if !in_a_sentence {
            return done;
        }
        let mut words = line!["made the same mistake (each "];
        words.extend(done);
        words.push(")".into());
        return words;
    }
    line![match (id, in_a_sentence) {
        ("sign", false) => "loses the sign",
        ("sign", true) => "lost the sign",
        ("power-of-ten" | "cubed-millimetres", false) => "loses a power of ten",
        ("power-of-ten" | "cubed-millimetres", true) => "lost a power of ten",
        ("inch-pound", false) => "takes one unit for another",
        ("inch-pound", true) => "took one unit for another",
        ("half-or-double", false) => "is off by a factor of two",
        ("half-or-double", true) => "were off by a factor of two",
        ("rounded-early", false) => "rounds too early",
        ("rounded-early", true) => "rounded too early",
        (_, false) => "goes another way",
        (_, true) => "went another way",
    }]
}

fn what_to_say(class: &Class<'_>, id: &str) -> Vec<Inline> {
    if let Some(mistake) = known(class, id) {
        return spelt(mistake.feedback(class.style()));
    }
    line![match id {
        "sign" => "Which way is positive? Draw it before you reckon.",
        "power-of-ten" | "cubed-millimetres" | "inch-pound" =>
            "Write the unit of every number, in every step.",
        "rounded-early" => "Keep one figure more in every step between.",
        _ => "",
    }]
}
