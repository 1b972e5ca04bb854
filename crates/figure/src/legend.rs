//! The legend under a drawing: what its tints, hatches and line styles stand for, in words.

use crate::arrow::{self, Barb};
use crate::drawing::Mark;
use crate::geometry::{Point, Rect};
use crate::hatch;
use crate::palette::{HEAVY, Ink, MEDIUM, Stroke, THIN};
use crate::scale::Sheet;
use crate::text::{Align, Label, SMALL};
use core::f64::consts::FRAC_PI_4;

/// What a legend can name.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Sample {
    /// An arrow of tension.
    Tension,
    /// An arrow of compression.
    Compression,
    /// The hatch of the part beyond the cut.
    Beyond,
    /// The trace of the cut.
    Cut,
    /// The face that the cut lays bare.
    BareFace,
    /// The force on the cut.
    ForceOnCut,
    /// The neutral axis.
    NeutralAxis,
    /// A glue line.
    Glue,
    /// A nail, screw or bolt.
    Fastener,
    /// The tint of a part without a hatch.
    Ground,
    /// The hatch of a part, by its slant in rad.
    Part(f64),
    /// A line of this stroke.
    Line(Stroke),
    /// Nothing: a remark.
    None,
}

/// Width of a sample, px.
const SAMPLE: f64 = 26.0;
/// Height of a row, px.
const ROW: f64 = 17.0;
/// Room between two entries, px.
const BETWEEN: f64 = 18.0;

/// A legend below `under`, centred on it, in rows that keep within the sheet.
pub(crate) fn legend(entries: &[(Sample, Label)], under: Rect, sheet: Sheet) -> Mark {
    legend_sized(entries, under, sheet.width - 40.0, sheet.small)
}

/// The same in letters of `size` px.
pub(crate) fn legend_sized(entries: &[(Sample, Label)], under: Rect, width: f64, size: f64) -> Mark {
    let broken = broken(entries, width, size);
    let entries = broken.as_slice();
    let wide = |entry: &(Sample, Label)| match entry.0 {
        Sample::None => entry.1.width(size),
        _ => SAMPLE + 6.0 + entry.1.width(size),
    };
    let mut rows: Vec<(Vec<&(Sample, Label)>, f64)> = Vec::new();
    for entry in entries {
        let more = wide(entry);
        match rows.last_mut() {
            Some((row, taken)) if *taken + BETWEEN + more <= width => {
                row.push(entry);
                *taken += BETWEEN + more;
            }
            _ => rows.push((vec![entry], more)),
        }
    }
    let mut marks = Vec::new();
    let middle = under.middle().x;
    let mut y = under.bottom + 24.0;
    for (row, taken) in rows {
        let mut x = middle - 0.5 * taken;
        for entry in row {
            let mut text_at = x;
            if entry.0 != Sample::None {
                marks.extend(sample(&entry.0, x, y - 4.0));
                text_at += SAMPLE + 6.0;
            }
            marks.push(Mark::Text {
                at: Point::new(text_at, y),
                label: entry.1.clone(),
                align: Align::Start,
                size,
                ink: Ink::Line,
            });
            x += wide(entry) + BETWEEN;
        }
        y += ROW * size / SMALL;
    }
    Mark::group("legend", "Legend", marks)
}

/// The entries, remarks that are wider than a row broken at their words.
fn broken(entries: &[(Sample, Label)], width: f64, size: f64) -> Vec<(Sample, Label)> {
    let mut all = Vec::new();
    for (sample, label) in entries {
        if *sample != Sample::None || label.width(size) <= width {
            all.push((sample.clone(), label.clone()));
            continue;
        }
        let mut line = Label::new();
        for word in label.broken_into_words() {
            let longer = if line.is_empty() {
                word.clone()
            } else {
                line.clone().and_words(" ").followed_by(word.clone())
            };
            if longer.width(size) <= width || line.is_empty() {
                line = longer;
            } else {
                all.push((Sample::None, core::mem::replace(&mut line, word)));
            }
        }
        all.push((Sample::None, line));
    }
    all
}

fn sample(sample: &Sample, x: f64, y: f64) -> Vec<Mark> {
    let (from, to) = (Point::new(x, y), Point::new(x + SAMPLE, y));
    let swatch = vec![
        Point::new(x, y - 5.5),
        Point::new(x + SAMPLE, y - 5.5),
        Point::new(x + SAMPLE, y + 5.5),
        Point::new(x, y + 5.5),
    ];
    let tinted = |ink: Ink, line: Ink| Mark::Polygon {
        points: swatch.clone(),
        stroke: Some(Stroke::solid(line, THIN)),
        fill: Some(ink),
    };
    match *sample {
        Sample::Tension => arrow::straight(from, to, Stroke::solid(Ink::Tension, MEDIUM)),
        Sample::Compression => arrow::straight(to, from, Stroke::dashed(Ink::Compression, MEDIUM)),
        Sample::Beyond => {
            let mut marks = vec![tinted(Ink::Beyond, Ink::BeyondHatch)];
            let hatch_stroke = Stroke::solid(Ink::BeyondHatch, THIN);
            marks.extend(hatch::marks(std::slice::from_ref(&swatch), FRAC_PI_4, 5.0, hatch_stroke));
            marks
        }
        Sample::Cut => vec![Mark::Line { from, to, stroke: Stroke::CUT }],
        Sample::BareFace => vec![tinted(Ink::CutTint, Ink::Cut)],
        Sample::ForceOnCut => arrow::half(from, to, Barb::Left, Stroke::solid(Ink::Cut, HEAVY)),
        Sample::NeutralAxis => vec![Mark::Line { from, to, stroke: Stroke::dash_dot(Ink::Line, THIN) }],
        Sample::Ground => vec![tinted(Ink::Material, Ink::Line)],
        Sample::Part(slant) => {
            let mut marks = vec![tinted(Ink::Material, Ink::Line)];
            let hatch_stroke = Stroke::solid(Ink::Quiet, 0.5);
            marks.extend(hatch::marks(std::slice::from_ref(&swatch), slant, 4.0, hatch_stroke));
            marks
        }
        Sample::Glue => crate::cross_section::glue_line(from, to),
        Sample::Fastener => crate::nails::nail(from.moved(3.0, 0.0), to.moved(-3.0, 0.0)).into(),
        Sample::Line(stroke) => vec![Mark::Line { from, to, stroke }],
        Sample::None => Vec::new(),
    }
}
