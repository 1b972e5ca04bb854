//! What of each limit the loads take up: a bar for each, and which of them governs.

use crate::drawing::{Description, Drawing, Mark, bounds};
use crate::geometry::Point;
use crate::hatch;
use crate::legend::{Sample, legend};
use crate::palette::{Ink, MEDIUM, Stroke};
use crate::scale::Sheet;
use crate::scribe::Scribe;
use crate::text::{Align, Label, SIZE};
use crate::words;
use core::f64::consts::FRAC_PI_4;
use workings::role::Role;
use workings::solved::{AllowableWorkings, LimitWorkings, Solved};

/// Height of a bar, and from the top of one to that of the next, px.
const BAR: f64 = 20.0;
const ROW: f64 = 46.0;
/// Width of the largest bar, or of what is allowed where that is more, px.
const LONGEST: f64 = 300.0;
/// What is allowed is drawn at least so wide, px: else its line stands in the words to the left.
const SHORTEST: f64 = 40.0;
/// Free space around the drawing, px.
const MARGIN: f64 = 12.0;

/// The bars of all limits of a lesson, that which governs hatched and framed; none where it has no limits.
pub(crate) fn utilisation(solved: &Solved) -> Option<Drawing> {
    let allowables = solved.allowables()?;
    let limits = &allowables.limits;
    let scribe = Scribe::new(solved.style());
    let used = |limit: &LimitWorkings| solved.value(limit.utilisation);
    let most = limits.iter().map(used).fold(0.0_f64, f64::max);
    let governs = allowables.governing(|id| solved.value(id));
    // px for a utilisation of one.
    let whole = (LONGEST / most.max(1.0)).max(SHORTEST);
    let mut marks = Vec::new();
    for (place, limit) in limits.iter().enumerate() {
        let top = ROW * place as f64;
        let end = (whole * used(limit)).min(2.0 * LONGEST);
        let corners = [(0.0, top), (end, top), (end, top + BAR), (0.0, top + BAR)];
        let points: Vec<Point> = corners.map(|(x, y)| Point::new(x, y)).into();
        let governing = governs.contains(&place);
        let (ink, tint) = if governing { (Ink::Cut, Ink::CutTint) } else { (Ink::Line, Ink::Material) };
        let mut bar = vec![Mark::Polygon { points: points.clone(), stroke: None, fill: Some(tint) }];
        if governing {
            bar.extend(hatch::marks(std::slice::from_ref(&points), FRAC_PI_4, 6.0, Stroke::solid(ink, 0.75)));
        }
        let width = if governing { 2.5 } else { MEDIUM };
        bar.push(Mark::Polygon { points, stroke: Some(Stroke::solid(ink, width)), fill: None });
        marks.push(Mark::group(format!("bar-{}", place + 1), words::capitalized(&limit.words), bar));
    }
    let foot = ROW * limits.len() as f64 - (ROW - BAR) + 10.0;
    marks.push(Mark::Line {
        from: Point::new(whole, -10.0),
        to: Point::new(whole, foot),
        stroke: Stroke::dashed(Ink::Line, MEDIUM),
    });
    marks.push(Mark::Line {
        from: Point::new(0.0, -10.0),
        to: Point::new(0.0, foot),
        stroke: Stroke::OUTLINE,
    });
    marks.push(Mark::Text {
        at: Point::new(whole, -16.0),
        label: Label::words("all that is allowed"),
        align: Align::Middle,
        size: Sheet::USUAL.small,
        ink: Ink::Line,
    });
    marks.extend(labels(solved, scribe, allowables, &governs, whole));
    let factor = allowables.growth.as_ref().map(|growth| {
        let factor = solved.value(growth.largest_factor);
        scribe.value(factor, workings::dimension::Dimension::NONE, Role::LoadFactor)
    });
    let remark = factor.clone().map(|factor| {
        Label::words("all loads together may be\u{a0}")
            .followed_by(scribe.symbol(Role::LoadFactor, ""))
            .equals(factor)
            .and_words(" times what they are")
    });
    let caution = "an exercise: the local code and a licensed engineer decide";
    let under = bounds(&marks);
    let entries: Vec<(Sample, Label)> =
        remark.into_iter().chain([Label::words(caution)]).map(|label| (Sample::None, label)).collect();
    marks.push(legend(&entries, under, Sheet::USUAL));
    let govern = allowables.told_to_govern(|id| solved.value(id));
    let grow =
        factor.map(|factor| format!("all loads together may be {} times what they are", factor.plain()));
    let short = words::shortened(format!(
        "Bars of what the loads take up of {}: {govern}{}.",
        if limits.len() == 1 {
            "the one limit".to_owned()
        } else {
            format!("each of {} limits", limits.len())
        },
        grow.as_ref().map(|grow| format!(", and {grow}")).unwrap_or_default(),
    ));
    let long = told(solved, scribe, allowables, grow);
    let title = "What the loads take up of what is allowed";
    Some(Drawing::fitted("utilisation", title, MARGIN, Sheet::USUAL.width, marks).described(short, long))
}

/// A working with its unit: as given, or computed.
fn shown(solved: &Solved, scribe: Scribe<'_>, id: workings::working::Id, given: bool) -> String {
    let working = solved.workings().working(id);
    let (value, role) = (working.value, working.symbol.role);
    match given && matches!(working.formula, workings::working::Formula::Given) {
        true => scribe.given_text(value.value, value.dimension, role),
        false => scribe.text(value.value.abs(), value.dimension, role),
    }
}

/// What is reached, in the unit of what is allowed.
fn reached(solved: &Solved, scribe: Scribe<'_>, limit: &LimitWorkings) -> String {
    let working = solved.workings().working(limit.reached);
    let (value, role) = (working.value, working.symbol.role);
    scribe.text_beside(value.value.abs(), value.dimension, role, solved.value(limit.allowed).abs())
}

/// The reached value of the allowed one.
fn of_which(solved: &Solved, scribe: Scribe<'_>, limit: &LimitWorkings) -> String {
    format!("{} of {}", reached(solved, scribe, limit), shown(solved, scribe, limit.allowed, true))
}

fn labels(
    solved: &Solved,
    scribe: Scribe<'_>,
    allowables: &AllowableWorkings,
    governs: &[usize],
    whole: f64,
) -> Vec<Mark> {
    let mut marks = Vec::new();
    let limits = &allowables.limits;
    let longest = limits.iter().map(|limit| (whole * solved.value(limit.utilisation)).min(2.0 * LONGEST));
    let right = longest.fold(whole, f64::max) + 10.0;
    for (place, limit) in limits.iter().enumerate() {
        let middle = ROW * place as f64 + 0.5 * BAR;
        let written = |at: Point, label: Label, align: Align, small: bool, ink: Ink| Mark::Text {
            at,
            label,
            align,
            size: if small { Sheet::USUAL.small } else { SIZE },
            ink,
        };
        let ink = if governs.contains(&place) { Ink::Cut } else { Ink::Line };
        let name = Label::words(limit.words.clone());
        marks.push(written(Point::new(-10.0, middle), name, Align::End, false, ink));
        let beside = Label::words(of_which(solved, scribe, limit));
        marks.push(written(Point::new(-10.0, middle + 16.0), beside, Align::End, true, Ink::Quiet));
        let symbol = |id| {
            let working = solved.workings().working(id);
            let value = scribe.value(working.value.value, working.value.dimension, working.symbol.role);
            scribe.symbol(working.symbol.role, "").equals(value)
        };
        let mut used = symbol(limit.utilisation);
        if governs.contains(&place) {
            used = used.and_words(" governs");
        }
        marks.push(written(Point::new(right, middle), used, Align::Start, false, ink));
        if let Some(growth) = &allowables.growth {
            let factor = symbol(growth.factors[place]);
            marks.push(written(Point::new(right, middle + 16.0), factor, Align::Start, true, Ink::Quiet));
        }
    }
    marks
}

fn told(
    solved: &Solved,
    scribe: Scribe<'_>,
    allowables: &AllowableWorkings,
    grow: Option<String>,
) -> Description {
    let value = |id| solved.value(id);
    let (limits, governs) = (&allowables.limits, allowables.governing(value));
    let mut long = Description::new();
    long.sentence(
        "One bar for each limit: how long it is tells what part of the allowable value the given loads take up. A dashed line \
         stands where all of it would be.",
    );
    let rows = limits.iter().enumerate().map(|(place, limit)| {
        let text = |id| shown(solved, scribe, id, false);
        let governs = if governs.contains(&place) { "yes" } else { "no" };
        let mut row = vec![
            limit.words.clone(),
            reached(solved, scribe, limit),
            shown(solved, scribe, limit.allowed, true),
            text(limit.utilisation),
        ];
        row.extend(allowables.growth.as_ref().map(|growth| text(growth.factors[place])));
        row.push(governs.to_owned());
        row
    });
    let mut head = vec!["Limit", "Reached", "Allowed", "Utilisation"];
    head.extend(allowables.growth.as_ref().map(|_| "Load factor"));
    head.push("Governs");
    long.table("Reached and allowed", &head, rows.collect());
    let govern = words::capitalized(&allowables.told_to_govern(value));
    let bar = if governs.len() == 1 { "its bar is" } else { "their bars are" };
    long.sentence(format!(
        "{govern}: {bar} hatched, framed and marked in words.{}",
        grow.map(|grow| format!(" {}.", words::capitalized(&grow))).unwrap_or_default()
    ));
    long.sentence("An exercise: the local code and a licensed engineer decide on a real beam.");
    long
}
