//! How a class's marks lie: bars side by side, the number of students above each.

use crate::drawing::{Description, Drawing, Mark};
use crate::geometry::Point;
use crate::palette::{Ink, MEDIUM, Stroke};
use crate::text::{Align, Label, SIZE, SMALL};

/// Width of a bar, and height of the highest, px.
const BAR: f64 = 36.0;
const HIGHEST: f64 = 150.0;
/// Free space around the drawing, px.
const MARGIN: f64 = 8.0;

/// Bars over the stretches between `edges`, which are written as they are given; one count for each stretch.
///
/// `across` says what the edges are: `marks of 12`. Where the lists do not fit together, what is too many is left out.
pub fn histogram(title: &str, edges: &[String], counts: &[usize], across: &str) -> Drawing {
    let most = counts.iter().copied().max().unwrap_or(0).max(1);
    let bars: Vec<(&[String], usize)> = edges.windows(2).zip(counts.iter().copied()).collect();
    let mut marks = Vec::new();
    for (place, (_, count)) in bars.iter().enumerate() {
        let (left, right) = (BAR * place as f64, BAR * (place + 1) as f64);
        let top = -HIGHEST * *count as f64 / most as f64;
        if *count > 0 {
            marks.push(Mark::Polygon {
                points: [(left, 0.0), (left, top), (right, top), (right, 0.0)]
                    .map(|(x, y)| Point::new(x, y))
                    .into(),
                stroke: Some(Stroke::solid(Ink::Line, MEDIUM)),
                fill: Some(Ink::Material),
            });
        }
        let above = Point::new(0.5 * (left + right), top - 6.0);
        marks.push(Mark::text(above, Label::words(count.to_string()), Align::Middle));
    }
    let end = BAR * bars.len() as f64;
    marks.push(Mark::Line { from: Point::new(0.0, 0.0), to: Point::new(end, 0.0), stroke: Stroke::OUTLINE });
    for (place, edge) in edges.iter().take(bars.len() + 1).enumerate() {
        marks.push(Mark::Text {
            at: Point::new(BAR * place as f64, 6.0 + SMALL),
            label: Label::words(edge),
            align: Align::Middle,
            size: SMALL,
            ink: Ink::Line,
        });
    }
    let below = Point::new(0.5 * end, 12.0 + SMALL + SIZE);
    marks.push(Mark::text(below, Label::words(across), Align::Middle));
    let all: usize = bars.iter().map(|(_, count)| count).sum();
    let highest = bars.iter().find(|(_, count)| *count == most);
    let point = highest.map_or_else(String::new, |(edges, count)| {
        format!(" Most, {count}, lie from {} to {}.", edges[0], edges[1])
    });
    let mut long = Description::new();
    long.sentence(format!(
        "{title}: bars over the {across}, and above each how many of {all} students lie there."
    ));
    let rows = bars.iter().map(|(edges, count)| vec![edges[0].clone(), edges[1].clone(), count.to_string()]);
    long.table(across, &["from", "to", "students"], rows.collect());
    Drawing::fitted("histogram", title, MARGIN, 0.0, marks)
        .described(format!("Bar chart: {title}, {all} students.{point}"), long)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_count_and_edge_is_drawn_and_told_and_nothing_covers_anything() {
        let edges: Vec<String> = (0..=10).map(|edge| format!("{:.1}", 1.2 * f64::from(edge))).collect();
        let counts = [0, 1, 0, 2, 5, 12, 30, 7, 100, 3];
        let drawing = histogram("Marks of the class", &edges, &counts, "marks of 12");
        assert!(drawing.is_whole() && drawing.overlaps().is_empty(), "{:?}", drawing.overlaps());
        let told = drawing.long.plain();
        let drawn: Vec<String> = drawing.labels().into_iter().map(|label| label.text).collect();
        for text in edges.iter().cloned().chain(counts.map(|count| count.to_string())) {
            assert!(drawn.contains(&text) && told.contains(&text), "{text}");
        }
        // The highest bar is as high as it may be, and half as many students make half of it.
        let tops: Vec<f64> = drawing
            .marks
            .iter()
            .filter(|mark| matches!(mark, Mark::Polygon { .. }))
            .map(|mark| mark.rect().height() - MEDIUM)
            .collect();
        assert!((tops[6] - HIGHEST).abs() < 1e-9 && (tops[4] - 0.3 * HIGHEST).abs() < 1e-9, "{tops:?}");
    }

    #[test]
    fn lists_that_do_not_fit_together_are_no_panic() {
        for (edges, counts) in [(0, 3), (1, 1), (3, 0), (3, 9)] {
            let edges = vec!["1".to_owned(); edges];
            assert!(histogram("t", &edges, &vec![0; counts], "").is_whole());
        }
    }
}
