//! A drawing: marks on a sheet, with a title and a description made from its data.

use crate::geometry::{Point, Rect};
use crate::grip::Grip;
use crate::palette::{Ink, Stroke};
use crate::text::{Align, Label};
use mechanics::real;

/// One passage of a description.
#[derive(Clone, Debug, PartialEq)]
pub enum Passage {
    /// Running text.
    Sentence(String),
    /// A list of like things.
    List(Vec<String>),
    /// A table.
    Table(Table),
}

/// A table of a description.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// What it shows.
    pub caption: String,
    /// One heading for each column.
    pub head: Vec<String>,
    /// The rows; each has as many cells as the head.
    pub rows: Vec<Vec<String>>,
}

/// A drawing in words, from the whole to the parts, in the order in which the eye reads.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Description {
    /// The passages in reading order.
    pub passages: Vec<Passage>,
}

impl Description {
    /// An empty description, to be added to.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a sentence.
    pub fn sentence(&mut self, text: impl Into<String>) {
        self.passages.push(Passage::Sentence(text.into()));
    }

    /// Adds a list, unless it is empty.
    pub fn list(&mut self, items: Vec<String>) {
        if !items.is_empty() {
            self.passages.push(Passage::List(items));
        }
    }

    /// Adds a table, unless it has no rows.
    pub fn table(&mut self, caption: &str, head: &[&str], rows: Vec<Vec<String>>) {
        if !rows.is_empty() {
            let head = head.iter().map(|&text| text.to_owned()).collect();
            self.passages.push(Passage::Table(Table { caption: caption.to_owned(), head, rows }));
        }
    }

    /// All of it as running text.
    pub fn plain(&self) -> String {
        let mut text = String::new();
        for passage in &self.passages {
            match passage {
                Passage::Sentence(sentence) => text.push_str(sentence),
                Passage::List(items) => text.push_str(&items.join("; ")),
                Passage::Table(table) => {
                    text.push_str(&table.caption);
                    text.push_str(": ");
                    text.push_str(&table.head.join(", "));
                    for row in &table.rows {
                        text.push_str("; ");
                        text.push_str(&row.join(", "));
                    }
                }
            }
            text.push('\n');
        }
        text
    }
}

/// One step of a path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    /// Lift the pen and put it down here.
    Move(Point),
    /// A straight line to here.
    Line(Point),
    /// A cubic curve to `to`.
    Curve {
        /// First control point.
        first: Point,
        /// Second control point.
        second: Point,
        /// Its end.
        to: Point,
    },
    /// Back to where the pen was put down.
    Close,
}

/// A mark on the sheet.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// A straight line.
    Line {
        /// One end.
        from: Point,
        /// The other end.
        to: Point,
        /// How it is drawn.
        stroke: Stroke,
    },
    /// A path of lines and curves; holes by the even-odd rule.
    Path {
        /// The steps.
        steps: Vec<Step>,
        /// Its outline, if it has one.
        stroke: Option<Stroke>,
        /// Its fill, if it has one.
        fill: Option<Ink>,
    },
    /// A closed polygon.
    Polygon {
        /// Its corners.
        points: Vec<Point>,
        /// Its outline, if it has one.
        stroke: Option<Stroke>,
        /// Its fill, if it has one.
        fill: Option<Ink>,
    },
    /// A circle.
    Circle {
        /// Its centre.
        centre: Point,
        /// Its radius, px.
        radius: f64,
        /// Its outline, if it has one.
        stroke: Option<Stroke>,
        /// Its fill, if it has one.
        fill: Option<Ink>,
    },
    /// An open circular arc.
    Arc {
        /// Centre of its circle.
        centre: Point,
        /// Its radius, px.
        radius: f64,
        /// Where it begins: angle counter-clockwise from the right, rad.
        from: f64,
        /// How far it turns counter-clockwise, rad; less than a full turn either way.
        turn: f64,
        /// How it is drawn.
        stroke: Stroke,
    },
    /// A line of text.
    Text {
        /// The point of the baseline that `align` names.
        at: Point,
        /// What is written.
        label: Label,
        /// Which point of the text stands at `at`.
        align: Align,
        /// Size, px.
        size: f64,
        /// Colour.
        ink: Ink,
    },
    /// Marks that belong together.
    Group {
        /// Stable name of the part: `loads`, `reactions`, `beyond`; unique in the drawing.
        id: String,
        /// What the part is, in words.
        title: String,
        /// The marks, drawn in this order.
        marks: Vec<Mark>,
    },
    /// A place that can be dragged: it takes no room and is not drawn.
    Grip(Grip),
}

impl Mark {
    /// A line of text in the size and ink of the drawing.
    pub fn text(at: Point, label: Label, align: Align) -> Self {
        Mark::Text { at, label, align, size: crate::text::SIZE, ink: Ink::Line }
    }

    /// A group.
    pub fn group(id: impl Into<String>, title: impl Into<String>, marks: Vec<Mark>) -> Self {
        Mark::Group { id: id.into(), title: title.into(), marks }
    }

    /// The box of the mark, half its line width included.
    pub fn rect(&self) -> Rect {
        let half = |stroke: &Option<Stroke>| stroke.map_or(0.0, |stroke| stroke.width / 2.0);
        match self {
            Mark::Line { from, to, stroke } => Rect::between(*from, *to).grown(stroke.width / 2.0),
            Mark::Polygon { points, stroke, .. } => Rect::around(points).grown(half(stroke)),
            Mark::Path { steps, stroke, .. } => {
                let mut points = Vec::with_capacity(steps.len());
                for step in steps {
                    match *step {
                        Step::Move(to) | Step::Line(to) => points.push(to),
                        // the curve lies in the hull of its control points
                        Step::Curve { first, second, to } => points.extend([first, second, to]),
                        Step::Close => {}
                    }
                }
                Rect::around(&points).grown(half(stroke))
            }
            Mark::Circle { centre, radius, stroke, .. } => {
                Rect::between(*centre, *centre).grown(radius + half(stroke))
            }
            Mark::Arc { centre, radius, from, turn, stroke } => {
                let mut points = vec![centre.around(*radius, *from), centre.around(*radius, from + turn)];
                let (low, high) = (from.min(from + turn), from.max(from + turn));
                // the arc reaches furthest at the quarter turns that it passes
                for quarter in -8..=8 {
                    let angle = f64::from(quarter) * core::f64::consts::FRAC_PI_2;
                    if low < angle && angle < high {
                        points.push(centre.around(*radius, angle));
                    }
                }
                Rect::around(&points).grown(stroke.width / 2.0)
            }
            Mark::Text { at, label, align, size, .. } => label.rect(*at, *align, *size),
            Mark::Group { marks, .. } => bounds(marks),
            Mark::Grip(_) => Rect::NOTHING,
        }
    }

    /// The mark moved by (dx, dy).
    pub fn moved(mut self, dx: f64, dy: f64) -> Self {
        self.shift(dx, dy);
        self
    }

    fn shift(&mut self, dx: f64, dy: f64) {
        let shift = |point: &mut Point| *point = point.moved(dx, dy);
        match self {
            Mark::Line { from, to, .. } => {
                shift(from);
                shift(to);
            }
            Mark::Polygon { points, .. } => points.iter_mut().for_each(shift),
            Mark::Path { steps, .. } => {
                for step in steps {
                    match step {
                        Step::Move(to) | Step::Line(to) => shift(to),
                        Step::Curve { first, second, to } => {
                            shift(first);
                            shift(second);
                            shift(to);
                        }
                        Step::Close => {}
                    }
                }
            }
            Mark::Circle { centre, .. } | Mark::Arc { centre, .. } => shift(centre),
            Mark::Text { at, .. } => shift(at),
            Mark::Group { marks, .. } => marks.iter_mut().for_each(|mark| mark.shift(dx, dy)),
            Mark::Grip(grip) => shift(&mut grip.at),
        }
    }

    fn gather_labels(&self, labels: &mut Vec<PlacedLabel>) {
        match self {
            Mark::Text { label, .. } => labels.push(PlacedLabel { text: label.plain(), rect: self.rect() }),
            Mark::Group { marks, .. } => marks.iter().for_each(|mark| mark.gather_labels(labels)),
            _ => {}
        }
    }

    fn gather_grips<'a>(&'a self, grips: &mut Vec<&'a Grip>) {
        match self {
            Mark::Grip(grip) => grips.push(grip),
            Mark::Group { marks, .. } => marks.iter().for_each(|mark| mark.gather_grips(grips)),
            _ => {}
        }
    }
}

/// The smallest box around marks; [`Rect::NOTHING`] where there are none.
pub fn bounds(marks: &[Mark]) -> Rect {
    marks.iter().fold(Rect::NOTHING, |all, mark| all.joined(mark.rect()))
}

/// A label where it was put.
#[derive(Clone, Debug, PartialEq)]
pub struct PlacedLabel {
    /// Its text without faces.
    pub text: String,
    /// Its box, px.
    pub rect: Rect,
}

/// A drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// Stable name: the stem of its file and the prefix of its ids (`beam`, `diagrams`); letters, digits, `-`.
    pub name: String,
    /// Its title, plain text.
    pub title: String,
    /// Kind of drawing, subject, the one point: at most about 250 characters.
    pub short: String,
    /// The whole in words.
    pub long: Description,
    /// Its upper left corner, px of the layout: a mark keeps its place when the sheet grows.
    pub corner: Point,
    /// Width, px at 96 to the inch.
    pub width: f64,
    /// Height, px.
    pub height: f64,
    /// The marks, drawn in this order.
    pub marks: Vec<Mark>,
}

/// The edge of a sheet that is wider than its marks lies at a multiple of this, px.
const SLACK: f64 = 40.0;

impl Drawing {
    /// A drawing of marks placed anywhere: the sheet is laid around them so that `margin` px are free on all sides, and is
    /// at least `least_width` px wide, the marks then standing about in its middle.
    pub fn fitted(name: &str, title: &str, margin: f64, least_width: f64, marks: Vec<Mark>) -> Self {
        let sheet = around(&marks, margin);
        let (width, height) = (sheet.width().max(least_width), sheet.height());
        let middled = sheet.left - (width - sheet.width()) / 2.0;
        // A sheet that followed each px by which a label grows would slide about while something is dragged.
        let left = ((middled / SLACK).round() * SLACK).clamp(sheet.right - width, sheet.left);
        Self {
            name: name.to_owned(),
            title: title.to_owned(),
            short: String::new(),
            long: Description::new(),
            corner: Point::new(left, sheet.top),
            width,
            height,
            marks,
        }
    }

    /// A drawing of marks laid out on a sheet `sheet_width` px wide that begins at 0: it grows by what sticks out. Drawings of
    /// one beam so share their x axis.
    pub fn on_sheet(name: &str, title: &str, margin: f64, sheet_width: f64, marks: Vec<Mark>) -> Self {
        let sheet = around(&marks, margin);
        let left = sheet.left.min(0.0);
        let mut drawing = Self::fitted(name, title, margin, 0.0, marks);
        drawing.corner.x = left;
        drawing.width = sheet.right.max(sheet_width) - left;
        drawing
    }

    /// The sheet that it stands on.
    pub fn sheet(&self) -> Rect {
        let Point { x, y } = self.corner;
        Rect { left: x, top: y, right: x + self.width, bottom: y + self.height }
    }

    /// The drawing with its descriptions.
    pub fn described(mut self, short: impl Into<String>, long: Description) -> Self {
        self.short = short.into();
        self.long = long;
        self
    }

    /// Every label with its box, in the order in which they are drawn.
    pub fn labels(&self) -> Vec<PlacedLabel> {
        let mut labels = Vec::new();
        self.marks.iter().for_each(|mark| mark.gather_labels(&mut labels));
        labels
    }

    /// What can be dragged, where it now lies on the sheet.
    pub fn grips(&self) -> Vec<&Grip> {
        let mut grips = Vec::new();
        self.marks.iter().for_each(|mark| mark.gather_grips(&mut grips));
        grips
    }

    /// The pairs of labels of which one covers the other.
    pub fn overlaps(&self) -> Vec<(PlacedLabel, PlacedLabel)> {
        let labels = self.labels();
        let mut pairs = Vec::new();
        for (place, one) in labels.iter().enumerate() {
            for other in &labels[place + 1..] {
                if one.rect.overlaps(other.rect) {
                    pairs.push((one.clone(), other.clone()));
                }
            }
        }
        pairs
    }

    /// Whether every mark lies on the sheet.
    pub fn is_whole(&self) -> bool {
        self.sheet().grown(1e-6).holds(bounds(&self.marks))
    }
}

/// The box of marks with a margin, in whole px, so that a drawing's size prints short.
fn around(marks: &[Mark], margin: f64) -> Rect {
    let rect = bounds(marks);
    let is_sound = [rect.left, rect.top, rect.right, rect.bottom].iter().all(|edge| edge.is_finite());
    if !is_sound || rect.left > rect.right {
        return Rect::between(Point::default(), Point::new(1.0, 1.0)).grown(margin.ceil());
    }
    let Rect { left, top, right, bottom } = rect.grown(margin);
    Rect { left: left.floor(), top: top.floor(), right: right.ceil(), bottom: bottom.ceil() }
}

/// The points of an arc of a circle, ends included, such that chords stray from it by less than 0.05 px.
pub fn arc_points(centre: Point, radius: f64, from: f64, turn: f64) -> Vec<Point> {
    // sagitta of a chord over the angle a: r (1 - cos(a / 2)), about r a² / 8
    let step = (8.0 * 0.05 / radius.max(0.05)).sqrt();
    let count = (turn.abs() / step).ceil().clamp(1.0, 2000.0);
    let mut points = Vec::new();
    let mut number = 0.0;
    while number <= count {
        points.push(Point::new(
            centre.x + radius * real::cos(from + turn * number / count),
            centre.y - radius * real::sin(from + turn * number / count),
        ));
        number += 1.0;
    }
    points
}
