//! What to teach again: the mistakes by how many made them, each with the scene of the lecture that shows it.

use super::{Class, heading};
use crate::notes::{line, listed};
use crate::paper::recognised::spelt;
use crate::tree::{Alignment, Block, Inline, Table};
use assessment::review::{MistakeFigures, PlaceFigures};
use lesson::Scene;
use workings::mistake::{self, Mistake};

/// So many mistakes stand in the table at most, with what to say; the others stand below in one line each. Where so many were made by
/// several students, only such are in the table.
const LISTED: usize = 8;
const ENOUGH: usize = 3;
/// So many places of what nothing explains.
const PLACES: usize = 3;

pub(super) fn again(class: &Class<'_>) -> Vec<Block> {
    let found = class.mistakes;
    let mut blocks = vec![heading("What to teach again")];
    if found.wrong == 0 {
        blocks.push(Block::Paragraph(line!["No answer is wrong."]));
        return blocks;
    }
    // What one student does, another class does not.
    let of_several = found.made.iter().filter(|made| made.students > 1).count();
    let listed_count =
        if of_several >= ENOUGH { of_several.min(LISTED) } else { found.made.len().min(LISTED) };
    let (made, rarer) = found.made.split_at(listed_count);
    if !made.is_empty() {
        blocks.push(table(class, made));
    }
    if !rarer.is_empty() {
        blocks
            .push(Block::Paragraph(line![Inline::Strong(line!["Rarer mistakes. "]), "The student \u{2026}"]));
        blocks.push(one_line_each(rarer.iter().map(|made| in_a_line(class, made)).collect()));
    }
    let (of_many, slips): (Vec<&MistakeFigures>, Vec<&MistakeFigures>) =
        found.slips.iter().partition(|slip| is_to_be_taught(class, slip));
    if !of_many.is_empty() {
        let what = "So many lose the same sign that it is not settled which way is positive. Show it again in the scene that is named. The student \u{2026}";
        blocks.push(Block::Paragraph(line![Inline::Strong(line!["Signs. "]), what]));
        blocks.push(one_line_each(of_many.iter().map(|slip| slip_in_a_line(class, slip)).collect()));
    }
    if !slips.is_empty() {
        let what = "Nothing of the lecture is misunderstood where a sign, a unit or a power of ten is lost now and then, so no scene is named. The student \u{2026}";
        blocks.push(Block::Paragraph(line![Inline::Strong(line!["Slips. "]), what]));
        blocks.push(one_line_each(slips.iter().map(|slip| slip_in_a_line(class, slip)).collect()));
    }
    blocks.push(Block::Paragraph(counts(class)));
    blocks
}

/// How many answers are wrong, and where those stand that nothing explains.
fn counts(class: &Class<'_>) -> Vec<Inline> {
    let found = class.mistakes;
    let are = if found.wrong == 1 { "answer is wrong in itself" } else { "answers are wrong in themselves" };
    let mut words = line![format!(
        "{} {are}; what follows rightly from an earlier wrong value is not counted. A known mistake, a slip or early rounding explains \
         {} of them.",
        found.wrong, found.explained
    )];
    if found.ambiguous > 0 {
        let fit = if found.ambiguous == 1 { "which of them was made" } else { "which of them were made" };
        words
            .push(format!(" Of {} several mistakes fit, and it is not known {fit}.", found.ambiguous).into());
    }
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
    words
}

fn one_line_each(lines: Vec<Vec<Inline>>) -> Block {
    let items = lines.into_iter().map(|words| vec![Block::Paragraph(words)]).collect();
    Block::List { ordered: false, items }
}

/// A slip of this share of the class is none any more. Common practice, no source.
const OF_MANY: f64 = 0.2;

/// Whether a sign is lost by so many that it is not understood: a scene shows which way is positive.
pub(super) fn is_to_be_taught(class: &Class<'_>, slip: &MistakeFigures) -> bool {
    !shown_in(&slip.places).is_empty()
        && slip.students > 1
        && slip.students as f64 >= OF_MANY * class.figures.students as f64
}

/// `takes V for M (at the bending moment): 1 student; scene of bending`.
fn in_a_line(class: &Class<'_>, made: &MistakeFigures) -> Vec<Inline> {
    let mut words = what_was_done(class, &made.mistake);
    words.extend(where_made(class, &made.places).map(|place| format!(" ({place})").into()));
    words.push(format!(": {}", students(made.students)).into());
    let scene = shown_in(&made.places);
    if !scene.is_empty() {
        words.push(format!("; scene of {scene}").into());
    }
    words
}

/// `loses the sign: 7 students, mostly at the reaction at A. Which way is positive?`
fn slip_in_a_line(class: &Class<'_>, slip: &MistakeFigures) -> Vec<Inline> {
    let mut words = what_was_done(class, &slip.mistake);
    words.push(format!(": {}", students(slip.students)).into());
    words.extend(where_made(class, &slip.places).map(|place| format!(", {place}").into()));
    if is_to_be_taught(class, slip) {
        words.push(format!("; scene of {}", shown_in(&slip.places)).into());
    }
    words.push(". ".into());
    words.extend(what_to_say(class, &slip.mistake));
    words
}

/// `at the reaction at A`, or `mostly` there where more than half of the answers stand there; of two places with as many both; of
/// others none.
fn where_made(class: &Class<'_>, places: &[PlaceFigures]) -> Option<String> {
    let at = |place: &PlaceFigures| format!("at the {}", class.style().notation.in_its_words(&place.working));
    let all: usize = places.iter().map(|place| place.answers).sum();
    match places {
        [only] => Some(at(only)),
        [most, ..] if 2 * most.answers > all => Some(format!("mostly {}", at(most))),
        [one, other] => Some(format!("{} and {}", at(one), at(other))),
        _ => None,
    }
}

pub(super) fn students(count: usize) -> String {
    format!("{count} student{}", if count == 1 { "" } else { "s" })
}

fn table(class: &Class<'_>, made: &[MistakeFigures]) -> Block {
    let row = |made: &MistakeFigures| {
        let mut done = what_was_done(class, &made.mistake);
        done.extend(where_made(class, &made.places).map(|place| format!(" ({place})").into()));
        vec![
            done,
            line![made.students.to_string()],
            line![made.first.to_string()],
            line![shown_in(&made.places)],
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
        rows: made.iter().map(row).collect(),
        row_heads: true,
        total: false,
    })
}

/// The scene of the lecture that shows most of what was done; of two that show as much the earlier one. Empty for none.
pub(super) fn shown_in(places: &[PlaceFigures]) -> &'static str {
    let answers = |scene: Scene| -> usize {
        places.iter().filter(|place| place.scene == scene.word()).map(|place| place.answers).sum()
    };
    let most = Scene::ALL.into_iter().rev().max_by_key(|scene| answers(*scene));
    most.filter(|scene| answers(*scene) > 0).map_or("", Scene::in_words)
}

fn known<'a>(class: &Class<'a>, id: &str) -> Option<&'a Mistake> {
    mistake::named(id).or_else(|| class.paper.lesson.mistakes.iter().find(|own| own.id() == id))
}

/// What was done, in words that follow on "the student".
pub(super) fn what_was_done(class: &Class<'_>, id: &str) -> Vec<Inline> {
    if let Some(mistake) = known(class, id) {
        return spelt(mistake.does(class.style()));
    }
    line![match id {
        "sign" => "loses the sign",
        "power-of-ten" | "cubed-millimetres" => "loses a power of ten",
        "inch-pound" => "takes one unit for another",
        "half-or-double" => "is off by a factor of two",
        "rounded-early" => "rounds too early",
        _ => "goes another way",
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
