//! The side of the beam as a sheet for its stresses: stations to the right, heights up, heights drawn larger.

use crate::drawing::{Mark, Step};
use crate::fields::short_number;
use crate::geometry::{Point, Rect};
use crate::label::{Escape, Placer, Seat, Wish};
use crate::palette::{Ink, MEDIUM, Stroke, THIN};
use crate::scene::Scene;
use crate::support;
use crate::text::Label;
use crate::view::BeamView;
use workings::dimension::Dimension;
use workings::role::Role;

/// How many times as large as lengths heights may be drawn.
const STRETCHES: [f64; 16] =
    [0.1, 0.2, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 15.0, 20.0, 40.0];

/// The line at which a stress jumps: lines of equal stress end on it, trajectories turn there or end.
pub(crate) const JUMPS: Stroke = Stroke::solid(Ink::Quiet, THIN);

/// Where the side of the beam stands on the sheet.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Side {
    /// Left and right edge, px.
    pub left: f64,
    pub right: f64,
    /// Upper edge, px.
    pub top: f64,
    /// Length of the beam, and the lowest and the highest fibre, m.
    length: f64,
    bottom_fibre: f64,
    top_fibre: f64,
    /// How many times as large as lengths heights are drawn.
    pub stretch: f64,
}

impl Side {
    /// The side with its upper edge at `top`, no deeper than `room` px.
    pub fn new(scene: &Scene, view: &BeamView<'_>, top: f64, room: f64) -> Self {
        let along = view.along();
        let (length, extent) = (along.length, scene.extent);
        let true_depth = extent.height() * along.span() / length;
        let fits = |stretch: &&f64| **stretch * true_depth <= room;
        let stretch = STRETCHES.iter().rev().find(fits).copied().unwrap_or(room / true_depth);
        Self {
            left: along.left,
            right: along.right,
            top,
            length,
            bottom_fibre: extent.bottom,
            top_fibre: extent.top,
            stretch,
        }
    }

    /// px for each metre along the beam and up.
    pub fn scale(&self) -> (f64, f64) {
        let across = (self.right - self.left) / self.length;
        (across, across * self.stretch)
    }

    /// The same with its upper edge elsewhere.
    pub fn at_top(self, top: f64) -> Self {
        Self { top, ..self }
    }

    /// Where a point of the beam falls.
    pub fn at(&self, station: f64, height: f64) -> Point {
        let (across, up) = self.scale();
        Point::new(self.left + station * across, self.top + (self.top_fibre - height) * up)
    }

    /// The box of the side.
    pub fn rect(&self) -> Rect {
        Rect::between(self.at(0.0, self.top_fibre), self.at(self.length, self.bottom_fibre))
    }

    /// The outline.
    pub fn outline(&self) -> Mark {
        let Rect { left, top, right, bottom } = self.rect();
        let points = vec![
            Point::new(left, top),
            Point::new(right, top),
            Point::new(right, bottom),
            Point::new(left, bottom),
        ];
        Mark::Polygon { points, stroke: Some(Stroke::solid(Ink::Line, MEDIUM)), fill: None }
    }

    /// The neutral axis.
    pub fn axis(&self, scene: &Scene) -> Mark {
        let height = scene.values.neutral_axis;
        Mark::Line { from: self.at(0.0, height), to: self.at(self.length, height), stroke: Stroke::AXIS }
    }

    /// The supports under the side, their names placed.
    pub fn supports(&self, view: &BeamView<'_>, placer: &mut Placer) -> Vec<Mark> {
        let rect = self.rect();
        let mut marks = Vec::new();
        for (number, held) in view.problem.beam.supports.iter().enumerate() {
            let axis = Point::new(self.at(held.station, 0.0).x, rect.middle().y);
            let kind = view.support_kind(number);
            let sign = support::sign(held, kind, view.place(held.station), axis, 0.5 * rect.height());
            placer.avoid_marks(&sign.marks);
            let name = view.support_name(number);
            if !name.is_empty() {
                let foot = Point::new(axis.x, sign.rect.bottom.max(rect.bottom));
                let seats = [Seat::Below, Seat::BelowRight, Seat::BelowLeft];
                placer.put(&Wish::new(Label::words(name), foot).seats(&seats, Escape::Down));
            }
            marks.extend(sign.marks);
            marks.extend(sign.front);
        }
        marks
    }

    /// What is to be said of the scales.
    pub fn remark(&self, scene: &Scene) -> String {
        if self.stretch == 1.0 {
            "heights and lengths to one scale".to_owned()
        } else {
            let times = scene.writer.text(self.stretch, Dimension::NONE, Role::Ratio);
            format!("heights drawn {} times as large as lengths", short_number(&times))
        }
    }
}

/// Lines as one path.
pub(crate) fn path(lines: &[Vec<Point>], stroke: Stroke) -> Option<Mark> {
    let mut steps = Vec::new();
    for line in lines {
        let mut points = line.iter();
        steps.extend(points.next().map(|&first| Step::Move(first)));
        steps.extend(points.map(|&point| Step::Line(point)));
    }
    (!steps.is_empty()).then_some(Mark::Path { steps, stroke: Some(stroke), fill: None })
}
