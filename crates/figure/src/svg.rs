//! The SVG printer: plain attributes, fixed decimals, stable order and ids.
//!
//! A browser, a word processor and the typesetter read the same file, so: no style sheet, no class, no script,
//! no pattern, explicit size, and the font named on every text.

use crate::drawing::{Drawing, Mark, Step};
use crate::geometry::Point;
use crate::palette::{Ink, Stroke};
use crate::text::{Align, EXPONENT_RISE, INDEX_DROP, INDEX_SIZE, Label, Level};
use core::f64::consts::{PI, TAU};

/// The text face, with those that stand in for it.
pub const FONT: &str = "Libertinus Serif, STIX Two Text, Times New Roman, serif";

impl Drawing {
    /// The drawing as a standalone SVG document.
    pub fn svg(&self) -> String {
        self.svg_with_ids(&self.name)
    }

    /// The drawing as SVG, every id beginning with `prefix`: a page that holds two drawings of one name gives
    /// each its own.
    pub fn svg_with_ids(&self, prefix: &str) -> String {
        let prefix = id_text(prefix);
        let (width, height) = (number(self.width), number(self.height));
        let mut out = String::with_capacity(8192);
        out.push_str("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"");
        out.push_str(&width);
        out.push_str("\" height=\"");
        out.push_str(&height);
        out.push_str(&format!(
            "\" viewBox=\"0 0 {width} {height}\" role=\"img\" \
             aria-labelledby=\"{prefix}-title {prefix}-desc\">\n"
        ));
        out.push_str(&format!("<title id=\"{prefix}-title\">{}</title>\n", escaped(&self.title)));
        out.push_str(&format!("<desc id=\"{prefix}-desc\">{}</desc>\n", escaped(&self.short)));
        print_all(&self.marks, &prefix, &mut out);
        out.push_str("</svg>\n");
        out
    }
}

/// Lines of one stroke that follow one another, such as those of a hatch, are one path: shorter, and one element however
/// many they are.
fn print_all(marks: &[Mark], prefix: &str, out: &mut String) {
    let line = |mark: &Mark| match mark {
        Mark::Line { stroke, .. } => Some(*stroke),
        _ => None,
    };
    for run in marks.chunk_by(|one, next| line(one).is_some() && line(one) == line(next)) {
        match run {
            [one] => print(one, prefix, out),
            [first, ..] => print_lines(run, line(first), out),
            [] => {}
        }
    }
}

fn print_lines(run: &[Mark], stroke: Option<Stroke>, out: &mut String) {
    let mut gap = "<path d=\"";
    for mark in run {
        if let Mark::Line { from, to, .. } = mark {
            out.push_str(&format!("{gap}M{} L{}", pair(*from), pair(*to)));
            gap = " ";
        }
    }
    out.push('"');
    print_fill(None, out);
    print_stroke(stroke, out);
    out.push_str("/>\n");
}

fn print(mark: &Mark, prefix: &str, out: &mut String) {
    match mark {
        Mark::Line { from, to, stroke } => {
            out.push_str(&format!(
                "<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"",
                number(from.x),
                number(from.y),
                number(to.x),
                number(to.y)
            ));
            print_stroke(Some(*stroke), out);
            out.push_str("/>\n");
        }
        Mark::Path { steps, stroke, fill } => {
            out.push_str("<path d=\"");
            for (place, step) in steps.iter().enumerate() {
                if place > 0 {
                    out.push(' ');
                }
                match *step {
                    Step::Move(to) => out.push_str(&format!("M{}", pair(to))),
                    Step::Line(to) => out.push_str(&format!("L{}", pair(to))),
                    Step::Curve { first, second, to } => {
                        out.push_str(&format!("C{} {} {}", pair(first), pair(second), pair(to)));
                    }
                    Step::Close => out.push('Z'),
                }
            }
            out.push('"');
            print_fill(*fill, out);
            if fill.is_some() {
                out.push_str(" fill-rule=\"evenodd\"");
            }
            print_stroke(*stroke, out);
            out.push_str("/>\n");
        }
        Mark::Polygon { points, stroke, fill } => {
            out.push_str("<polygon points=\"");
            for (place, point) in points.iter().enumerate() {
                if place > 0 {
                    out.push(' ');
                }
                out.push_str(&pair(*point));
            }
            out.push('"');
            print_fill(*fill, out);
            print_stroke(*stroke, out);
            out.push_str("/>\n");
        }
        Mark::Circle { centre, radius, stroke, fill } => {
            out.push_str(&format!(
                "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"",
                number(centre.x),
                number(centre.y),
                number(*radius)
            ));
            print_fill(*fill, out);
            print_stroke(*stroke, out);
            out.push_str("/>\n");
        }
        Mark::Arc { centre, radius, from, turn, stroke } => {
            let turn = turn.clamp(-TAU + 1e-3, TAU - 1e-3);
            let (begin, end) = (centre.around(*radius, *from), centre.around(*radius, from + turn));
            out.push_str(&format!(
                "<path d=\"M{} A{} {} 0 {} {} {}\"",
                pair(begin),
                number(*radius),
                number(*radius),
                u8::from(turn.abs() > PI),
                // the sheet's y runs down: counter-clockwise on it is the sweep flag 0
                u8::from(turn < 0.0),
                pair(end)
            ));
            print_fill(None, out);
            print_stroke(Some(*stroke), out);
            out.push_str("/>\n");
        }
        Mark::Text { at, label, align, size, ink } => print_text(*at, label, *align, *size, *ink, out),
        Mark::Group { id, title, marks } => {
            out.push_str(&format!("<g id=\"{prefix}-{}\">\n", id_text(id)));
            if !title.is_empty() {
                out.push_str(&format!("<title>{}</title>\n", escaped(title)));
            }
            print_all(marks, prefix, out);
            out.push_str("</g>\n");
        }
        Mark::Grip(_) => {}
    }
}

fn print_text(at: Point, label: &Label, align: Align, size: f64, ink: Ink, out: &mut String) {
    out.push_str(&format!(
        "<text x=\"{}\" y=\"{}\" font-family=\"{FONT}\" font-size=\"{}\" fill=\"{}\"",
        number(at.x),
        number(at.y),
        number(size),
        ink.hex()
    ));
    match align {
        Align::Start => {}
        Align::Middle => out.push_str(" text-anchor=\"middle\""),
        Align::End => out.push_str(" text-anchor=\"end\""),
    }
    out.push('>');
    // a shift of the baseline holds for all that follows, so each run takes back the one before it
    let mut baseline = 0.0;
    for run in &label.runs {
        let (shift, em) = match run.level {
            Level::Base => (0.0, size),
            Level::Index => (INDEX_DROP * size, size * INDEX_SIZE),
            Level::Exponent => (-EXPONENT_RISE * size, size * INDEX_SIZE),
        };
        let moved = shift - baseline;
        let plain = !run.italic && run.level == Level::Base && moved == 0.0;
        if plain {
            out.push_str(&escaped(&run.text));
        } else {
            out.push_str("<tspan");
            if moved != 0.0 {
                out.push_str(&format!(" dy=\"{}\"", number(moved)));
            }
            if run.level != Level::Base {
                out.push_str(&format!(" font-size=\"{}\"", number(em)));
            }
            if run.italic {
                out.push_str(" font-style=\"italic\"");
            }
            out.push('>');
            out.push_str(&escaped(&run.text));
            out.push_str("</tspan>");
        }
        baseline = shift;
    }
    out.push_str("</text>\n");
}

fn print_fill(fill: Option<Ink>, out: &mut String) {
    out.push_str(&format!(" fill=\"{}\"", fill.map_or("none", Ink::hex)));
}

fn print_stroke(stroke: Option<Stroke>, out: &mut String) {
    let Some(stroke) = stroke else { return };
    out.push_str(&format!(" stroke=\"{}\" stroke-width=\"{}\"", stroke.ink.hex(), number(stroke.width)));
    let lengths = stroke.dash.lengths();
    if !lengths.is_empty() {
        let lengths: Vec<String> = lengths.iter().map(|&length| number(length)).collect();
        out.push_str(&format!(" stroke-dasharray=\"{}\"", lengths.join(" ")));
    }
    out.push_str(" stroke-linejoin=\"round\"");
}

fn pair(point: Point) -> String {
    format!("{},{}", number(point.x), number(point.y))
}

/// A coordinate with at most two decimals; never `-0` and never anything but digits, a sign and a point.
fn number(value: f64) -> String {
    // What lies between two hundredths up to the last bits goes up, so that marks of one height stay at one height.
    let hundredths = (value * 100.0 + 1e-6).round();
    // Beyond that a whole number of hundredths is not exact, and nothing drawn is so large.
    if hundredths.is_nan() || hundredths.abs() >= 1e15 {
        return "0".to_owned();
    }
    // In whole numbers: to print a float by so many decimals costs most of the time of a drawing.
    let (sign, hundredths) = (if hundredths < 0.0 { "-" } else { "" }, hundredths.abs() as u64);
    match (hundredths / 100, hundredths % 100) {
        (whole, 0) => format!("{sign}{whole}"),
        (whole, part) if part % 10 == 0 => format!("{sign}{whole}.{}", part / 10),
        (whole, part) => format!("{sign}{whole}.{part:02}"),
    }
}

/// Text made safe for XML: the five signs escaped, what XML 1.0 does not allow replaced.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for sign in text.chars() {
        match sign {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\t' | '\n' | '\r' => out.push(' '),
            '\u{0}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => out.push('\u{fffd}'),
            _ => out.push(sign),
        }
    }
    out
}

/// Text made fit for an id: letters, digits, `-`; every other sign becomes `-`.
fn id_text(text: &str) -> String {
    text.chars().map(|sign| if sign.is_ascii_alphanumeric() { sign } else { '-' }).collect()
}
