//! Bending stress, shear stress and principal tension over the side of the beam, by lines of equal value.

use crate::cut_words::at_most;
use crate::drawing::{Description, Drawing, Mark, bounds};
use crate::field_lines::{Sampled, seat, without};
use crate::geometry::{Point, Rect};
use crate::label::Placer;
use crate::legend::{Sample, legend};
use crate::palette::{Dash, Ink, Stroke};
use crate::scene::Scene;
use crate::side::{self, Side};
use crate::text::{Align, Label};
use crate::view::BeamView;
use mechanics::stress::{PlaneStress, StressField};
use workings::dimension::Dimension;
use workings::role::Role;

/// The deepest that the beam is drawn, px.
const ROOM: f64 = 104.0;
/// From one panel to the next, px.
const BETWEEN: f64 = 34.0;

/// One of the three panels.
struct Shown {
    id: &'static str,
    words: &'static str,
    role: Role,
    index: &'static str,
    value: fn(PlaneStress) -> f64,
    inks: [Stroke; 2],
}

const PANELS: [Shown; 3] = [
    Shown {
        id: "bending-stress",
        words: "bending stress",
        role: Role::BendingStress,
        index: "",
        value: |stress| stress.normal,
        inks: [Stroke::solid(Ink::Tension, 1.1), Stroke::dashed(Ink::Compression, 1.1)],
    },
    Shown {
        id: "shear-stress",
        words: "shear stress",
        role: Role::ShearStress,
        index: "",
        value: |stress| stress.shear,
        inks: [Stroke::solid(Ink::Shear, 1.1), Stroke { ink: Ink::Shear, width: 1.1, dash: Dash::DashDot }],
    },
    Shown {
        id: "principal-tension",
        words: "largest principal stress",
        role: Role::PrincipalStress,
        index: "1",
        value: |stress| stress.principal().largest,
        inks: [Stroke::solid(Ink::Tension, 1.1), Stroke::dashed(Ink::Compression, 1.1)],
    },
];

/// The stresses over the side of the beam.
pub(crate) fn fields(scene: &Scene, view: &BeamView<'_>) -> Drawing {
    let field = StressField::new(view.solution, scene.section);
    let mut side = Side::new(scene, view, 0.0, ROOM);
    let mut marks = Vec::new();
    let mut long = Description::new();
    long.sentence(
        "Views of the side of the beam, one below the other, each with lines of equal stress, their values written in \
         the lines.",
    );
    let mut placer = Placer::new();
    let mut negative = [false; 2];
    let mut jumps = false;
    let mut below_the_last = side.rect().top;
    let mut without = Vec::new();
    let mut drawn = [false; 3];
    // Where no panel has lines all are drawn, so that something is.
    let any = PANELS.iter().any(|shown| panel(scene, view, &field, &side, shown).has_lines);
    for (number, shown) in PANELS.iter().enumerate() {
        let here = side.at_top(below_the_last);
        let panel = panel(scene, view, &field, &here, shown);
        long.sentence(panel.words);
        if any && panel.is_too_thin {
            without.push(shown.words);
            continue;
        }
        marks.push(panel.group);
        drawn[number] = true;
        jumps |= panel.jumps;
        if let Some(negative) = negative.get_mut(number) {
            *negative = panel.below;
        }
        side = here;
        below_the_last = side.rect().bottom + BETWEEN;
    }
    let supports = side.supports(view, &mut placer);
    if !supports.is_empty() {
        marks.push(Mark::group("supports", "Supports", supports));
        marks.push(Mark::group("support-names", "", placer.into_marks()));
    }
    let mut entries = Vec::new();
    if drawn[0] || drawn[2] {
        entries.push((Sample::Line(PANELS[0].inks[0]), Label::words("tension")));
        entries.push((Sample::Line(PANELS[0].inks[1]), Label::words("compression")));
    }
    if drawn[1] {
        entries.push((Sample::Line(PANELS[1].inks[0]), Label::words("shear stress")));
    }
    if negative[1] {
        let symbol = scene.writer.symbol(Role::ShearForce);
        let words =
            Label::words("shear stress where\u{a0}").followed_by(symbol).and_words("\u{a0}is negative");
        entries.push((Sample::Line(PANELS[1].inks[1]), words));
    }
    entries.push((Sample::Line(Stroke::AXIS), Label::words("neutral axis")));
    if jumps {
        entries.push((Sample::Line(side::JUMPS), Label::words("where the stress jumps")));
    }
    entries.push((Sample::None, Label::words(side.remark(scene))));
    if !without.is_empty() {
        let words = format!("{}: in layers too thin for lines", without.join(", "));
        entries.push((Sample::None, Label::words(words)));
    }
    let under = bounds(&marks);
    marks.push(legend(&entries, under, scene.sheet));
    long.sentence(format!("In the drawing: {}.", side.remark(scene)));
    let scribe = view.scribe;
    let (_, most) = field.range(|stress| {
        let principal = stress.principal();
        principal.largest.abs().max(principal.smallest.abs())
    });
    let most = scribe.text(most, Dimension::STRESS, Role::PrincipalStress);
    let short = at_most(&format!(
        "Bending stress, shear stress and largest principal stress over the side of the beam, as lines of equal value; the \
         greatest principal stress is {most} in size."
    ));
    let title = "Stresses over the side of the beam";
    Drawing::on_sheet("fields", title, 8.0, scene.sheet.width, marks).described(short, long)
}

/// A panel as it is drawn.
struct Panel {
    group: Mark,
    /// What it says in words.
    words: String,
    /// Whether it has lines.
    has_lines: bool,
    /// Whether it has stress, but in layers that are too thin for lines.
    is_too_thin: bool,
    /// Whether negative levels are drawn in it.
    below: bool,
    /// Whether its stress jumps somewhere.
    jumps: bool,
}

fn panel(scene: &Scene, view: &BeamView<'_>, field: &StressField<'_>, side: &Side, shown: &Shown) -> Panel {
    let scribe = view.scribe;
    let sampled = Sampled::of(field, side, shown.value);
    let greatest = sampled.greatest();
    let unit = scribe.axis_unit(greatest, Dimension::STRESS, shown.role);
    let size = scene.sheet.small;
    let rect = side.rect();
    let (step, levels) = sampled.levels(side, &unit);
    let has_levels = !levels.is_empty();
    let number = |stress: f64| scribe.number_text(stress, Dimension::STRESS, shown.role, greatest);
    let mut taken: Vec<Rect> = Vec::new();
    let mut texts = Vec::new();
    let mut drawn = Vec::new();
    let thin = sampled.thin_strips(side, size);
    let is_lost = |line: &[Point]| {
        let Rect { top, bottom, .. } = Rect::around(line);
        thin.iter().any(|strip| strip.0 - 0.1 <= top && bottom <= strip.1 + 0.1)
    };
    for mut level in levels {
        // In a thin strip lines without a value run into one another.
        level.lines.retain(|line| !is_lost(line));
        if level.lines.is_empty() {
            continue;
        }
        let number = short_number(&number(level.stress));
        let label = Label::words(number.clone());
        let stroke = shown.inks[usize::from(level.stress < 0.0)];
        // Where there is no room for its value the step, which stands above, tells it.
        for line in &level.lines {
            let Some(at) = seat(line, &label, size, rect, &taken) else { continue };
            let text = Mark::Text {
                at: at.moved(0.0, 0.5 * crate::metrics::CAP_HEIGHT * size),
                label: label.clone(),
                align: Align::Middle,
                size,
                ink: stroke.ink,
            };
            taken.push(text.rect().grown(1.0));
            texts.push(text);
        }
        drawn.push((level, number, stroke));
    }
    let mut words = format!(", {}", unit.text());
    if has_levels {
        let [least, most] = [sampled.least, sampled.most].map(number);
        words += &format!(": from {least} to {most}");
        words += &if drawn.is_empty() {
            String::from(", in layers too thin for lines")
        } else {
            format!(", a line every {}", short_number(&number(step)))
        };
    }
    let head = Label::words(format!("{}\u{a0}", shown.words))
        .followed_by(scribe.symbol(shown.role, shown.index))
        .and_words(words);
    let head = Mark::Text {
        at: Point::new(rect.left, rect.top - 6.0),
        label: head,
        align: Align::Start,
        size,
        ink: Ink::Quiet,
    };
    let mut marks = vec![head];
    let axis = scene.values.neutral_axis;
    let axis = vec![side.at(0.0, axis), side.at(view.along().length, axis)];
    marks.extend(side::path(&without(&[axis], &taken), Stroke::AXIS));
    let jumps = sampled.jumps(side);
    marks.extend(side::path(&without(&jumps, &taken), side::JUMPS));
    for stroke in shown.inks {
        let lines: Vec<Vec<Point>> = drawn
            .iter()
            .filter(|(_, _, of)| *of == stroke)
            .flat_map(|(level, ..)| without(&level.lines, &taken))
            .collect();
        marks.extend(side::path(&lines, stroke));
    }
    if drawn.is_empty() && greatest == 0.0 {
        marks.push(Mark::Text {
            at: Point::new(rect.middle().x, rect.middle().y - 5.0),
            label: Label::words("none"),
            align: Align::Middle,
            size,
            ink: Ink::Quiet,
        });
    }
    marks.push(side.outline());
    marks.extend(texts);
    let below = drawn.iter().any(|(level, ..)| level.stress < 0.0);
    let mut told: Vec<(f64, &String)> =
        drawn.iter().map(|(level, number, _)| (level.stress, number)).collect();
    told.sort_by(|a, b| a.0.total_cmp(&b.0));
    let numbers: Vec<&str> = told.into_iter().map(|(_, number)| number.as_str()).collect();
    let range = [sampled.least, sampled.most]
        .map(|value| scribe.text_beside(value, Dimension::STRESS, shown.role, greatest));
    let symbol = scribe.symbol_text(shown.role, shown.index);
    let told = if numbers.is_empty() {
        format!("The {} {symbol}: from {} to {}.", shown.words, range[0], range[1])
    } else {
        format!(
            "The {} {symbol}, from {} to {}; a line every {}, at {} {}.",
            shown.words,
            range[0],
            range[1],
            short_number(&number(step)),
            numbers.join(", "),
            unit.text()
        )
    };
    Panel {
        group: Mark::group(shown.id, shown.words, marks),
        words: told,
        has_lines: !drawn.is_empty(),
        is_too_thin: drawn.is_empty() && greatest > 0.0,
        below,
        jumps: !jumps.is_empty(),
    }
}

/// A round number without the noughts that only say how exact a value is.
pub(crate) fn short_number(text: &str) -> String {
    match text.rfind(['.', ',']) {
        Some(mark) if text[mark + 1..].bytes().all(|sign| sign == b'0') => text[..mark].to_owned(),
        Some(_) => text.trim_end_matches('0').to_owned(),
        None => text.to_owned(),
    }
}
