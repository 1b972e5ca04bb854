//! The first page: who took part, what stands out, how the marks lie.

use super::items::amiss;
use super::numbers::{fixed, percent};
use super::teach::{is_to_be_taught, shown_in, students, what_was_done};
use super::{Class, heading};
use crate::notes::{line, listed};
use crate::paper::number;
use crate::tree::{Block, Callout, CalloutKind, Fact, Figure, Inline, words};
use assessment::review::{Flag, ItemFigures, MistakeFigures, SMALL_CLASS};
use figure::histogram::histogram;
use std::cmp::Reverse;

/// Pairs that chance makes less often than this are told on the first page. Common practice.
pub(super) const HARDLY_CHANCE: f64 = 0.05;

/// So many mistakes stand on the first page, and so many questions to look at again.
const FIRST_MISTAKES: usize = 3;
const FIRST_QUESTIONS: usize = 3;

/// Who took part, and the figures of the whole.
pub(super) fn facts(class: &Class<'_>) -> Block {
    let style = class.style();
    let figures = class.figures;
    let mut facts = vec![
        ("Papers given out".to_owned(), class.papers.to_string()),
        ("Handed in".to_owned(), figures.students.to_string()),
    ];
    if figures.complete < figures.students {
        facts.push(("Marked in full".to_owned(), figures.complete.to_string()));
    }
    if let Some(totals) = &figures.totals {
        let out_of = number(totals.out_of, style);
        let mean = format!("{} of {out_of} marks", fixed(totals.mean, 1, style));
        facts.push(("Mean".to_owned(), mean));
        facts.push(("Median".to_owned(), fixed(totals.median, 1, style)));
        facts.push((
            "Lowest and highest".to_owned(),
            format!("{} and {}", number(totals.least, style), number(totals.greatest, style)),
        ));
    }
    let fact = |(word, value): (String, String)| Fact { word, stands_for: words(value) };
    Block::Facts(facts.into_iter().map(fact).collect())
}

/// What stands out, in a box.
pub(super) fn in_short(class: &Class<'_>) -> Block {
    let style = class.style();
    let mut items: Vec<Vec<Inline>> = Vec::new();
    if let Some(totals) = &class.figures.totals {
        items.push(line![format!(
            "The class earned {} of the marks; half of it has {} or more.",
            percent(totals.mean / totals.out_of),
            fixed(totals.median, 1, style)
        )]);
    }
    let found = class.mistakes;
    let signs = found.slips.iter().filter(|slip| is_to_be_taught(class, slip));
    let mut made: Vec<&MistakeFigures> =
        found.made.iter().filter(|made| made.students > 1).chain(signs).collect();
    // Stable: of equally frequent ones a mistake before a sign.
    made.sort_by_key(|made| Reverse(made.students));
    for made in made.into_iter().take(FIRST_MISTAKES) {
        let mut item =
            line![Inline::Strong(line![format!("Teach again, {} students: ", made.students)]), "each "];
        item.extend(what_was_done(class, &made.mistake));
        let scene = shown_in(&made.places);
        if !scene.is_empty() {
            item.push(format!(". Shown by the scene of {scene}").into());
        }
        item.push(".".into());
        items.push(item);
    }
    items.extend(look_again(class));
    let hand = class.by_hand;
    let waiting: Vec<String> = [(hand.to_read, "to be read"), (hand.to_mark, "to be marked")]
        .into_iter()
        .filter(|(count, _)| *count > 0)
        .map(|(count, what)| format!("{count} {what}"))
        .collect();
    if !waiting.is_empty() {
        let without = if class.figures.complete == 0 {
            " Until then nobody has a total, and what needs totals is not shown."
        } else {
            ""
        };
        items.push(line![
            Inline::Strong(line!["Not finished: "]),
            format!("answers wait for a person, {}.{without}", waiting.join(" and "))
        ]);
    }
    let rare = class.likenesses.found.iter().filter(|found| found.by_chance < HARDLY_CHANCE).count();
    if rare > 0 {
        items.push(line![format!(
            "{rare} student{} wrong answers that belong to another paper and that chance hardly makes; what that is worth, and what \
             not, is told below.",
            if rare == 1 { " has" } else { "s have" }
        )]);
    }
    if items.is_empty() {
        items.push(line!["Nothing can be said yet: nobody's answers are all marked."]);
    }
    let body = vec![Block::List {
        ordered: false,
        items: items.into_iter().map(|item| vec![Block::Paragraph(item)]).collect(),
    }];
    Block::Callout(Callout { kind: CalloutKind::Key, title: "In short".into(), body })
}

/// The questions that need a look most: those that speak against the rest first, then the hardest. How many more there are is told.
fn look_again(class: &Class<'_>) -> Option<Vec<Inline>> {
    let mut items: Vec<&ItemFigures> =
        class.figures.items.iter().filter(|item| amiss(item).next().is_some()).collect();
    let agrees = |item: &ItemFigures| !amiss(item).any(|flag| *flag == Flag::AgainstTheRest);
    let facility = |item: &ItemFigures| item.facility.unwrap_or(1.0);
    // Stable: of equally hard ones in the order of the paper.
    items.sort_by(|one, other| {
        agrees(one).cmp(&agrees(other)).then(facility(one).total_cmp(&facility(other)))
    });
    let (first, more) = items.split_at(items.len().min(FIRST_QUESTIONS));
    let labels: Vec<Vec<Inline>> = first.iter().map(|item| line![item.label.clone()]).collect();
    if labels.is_empty() {
        return None;
    }
    let plural = if labels.len() == 1 { "" } else { "s" };
    let mut words = line![Inline::Strong(line!["Look again at: "]), format!("question{plural} ")];
    words.extend(listed(labels));
    words.push(
        match more.len() {
            0 => "; why is told below.".to_owned(),
            1 => " first, and at one more; why is told below.".to_owned(),
            more => format!(" first, and at {more} more; why is told below."),
        }
        .into(),
    );
    Some(words)
}

/// The marks as a drawing, with the table in its words.
pub(super) fn how_the_marks_lie(class: &Class<'_>) -> Vec<Block> {
    let Some(totals) = &class.figures.totals else { return Vec::new() };
    let style = class.style();
    let edge = |marks: f64| number(marks, style);
    let starts = totals.stretches.iter().map(|stretch| edge(stretch.from));
    let edges: Vec<String> = starts.chain(totals.stretches.last().map(|last| edge(last.to))).collect();
    let counts: Vec<usize> = totals.stretches.iter().map(|stretch| stretch.students).collect();
    let across = format!("marks of {}", edge(totals.out_of));
    let drawing = histogram("How the marks lie", &edges, &counts, &across);
    let caption = line![format!(
        "How many of the {} marked in full have a total between these marks. A total on a border counts above it.",
        students(totals.students)
    )];
    vec![
        heading("How the marks lie"),
        Block::Figure(Box::new(Figure { drawing, number: None, caption })),
        Block::Paragraph(line![format!(
            "Mean {}, median {}, standard deviation {} marks.",
            fixed(totals.mean, 2, style),
            fixed(totals.median, 2, style),
            fixed(totals.deviation, 2, style)
        )]),
    ]
}

/// How far the totals can be relied on.
pub(super) fn reliability(class: &Class<'_>) -> Vec<Block> {
    let style = class.style();
    let mut blocks = vec![heading("How far the totals can be relied on")];
    let Some(found) = class.figures.reliability else {
        let why = if class.figures.complete < SMALL_CLASS {
            let complete = match class.figures.complete {
                0 => "No student is marked in full yet".to_owned(),
                1 => "One student is marked in full".to_owned(),
                more => format!("{more} students are marked in full"),
            };
            format!(
                "{complete}. Below {SMALL_CLASS} a reliability would say more about chance than about the test, so none is shown."
            )
        } else {
            "All totals are the same, or there is one question only: no reliability can be found.".to_owned()
        };
        blocks.push(Block::Paragraph(words(why)));
        return blocks;
    };
    let kr_20 = found.kr_20.map_or_else(String::new, |kr_20| {
        format!(" (Kuder and Richardson's formula 20: {})", fixed(kr_20, 2, style))
    });
    blocks.push(Block::Paragraph(line![format!(
        "Cronbach's alpha is {}{kr_20}; at least {} is usual for a test of a class. The standard error of measurement is {} marks: \
         two students whose totals are no farther apart cannot be told from each other by this test.",
        fixed(found.alpha, 2, style),
        fixed(0.7, 1, style),
        fixed(found.error, 2, style)
    )]));
    blocks.push(Block::Paragraph(line![format!(
        "It was found from {} students and {} answers each. In a class of this size another class might well give quite another \
         figure; answers that rest on each other, as those of a chain do, make it too high.",
        class.figures.complete,
        class.figures.items.len()
    )]));
    blocks
}
