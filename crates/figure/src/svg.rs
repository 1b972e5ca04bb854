//! The SVG printer: plain attributes, fixed decimals, stable order and ids.
//!
//! A browser, a word processor and the typesetter read the same file, so: no style sheet, no class, no script,
//! no pattern, explicit size, and the font named on every text.

use crate::drawing::{Drawing, Mark, Step};
use crate::geometry::Point;
use crate::metrics::advance;
use crate::palette::{Ink, Stroke};
use crate::text::{Align, EXPONENT_RISE, INDEX_DROP, INDEX_SIZE, Label, Level};
use core::f64::consts::{PI, TAU};

/// How a drawing is printed.
struct Print {
    /// What every id begins with.
    prefix: String,
    /// Whether the drawing stands alone and must say everything itself.
    alone: bool,
    /// How many times as large it is shown.
    times: f64,
}

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
        self.printed(&Print { prefix: id_text(prefix), alone: true, times: 1.0 })
    }

    /// The same, shown so many times as large.
    pub fn svg_enlarged(&self, prefix: &str, times: f64) -> String {
        self.printed(&Print { prefix: id_text(prefix), alone: true, times })
    }

    /// The drawing for a page that says once what is the same for all marks of all drawings: the face of their letters,
    /// [`FONT`], and that their lines join round.
    pub fn svg_for_a_page(&self) -> String {
        self.printed(&Print { prefix: id_text(&self.name), alone: false, times: 1.0 })
    }

    fn printed(&self, how: &Print) -> String {
        let prefix = &how.prefix;
        let mut out = String::with_capacity(8192);
        out.push_str("<svg xmlns=\"http://www.w3.org/2000/svg\"");
        attribute("width", how.times * self.width, &mut out);
        attribute("height", how.times * self.height, &mut out);
        out.push_str(" viewBox=\"");
        for (gap, value) in [("", self.corner.x), (" ", self.corner.y), (" ", self.width), (" ", self.height)]
        {
            out.push_str(gap);
            number(value, &mut out);
        }
        out.push_str(&format!("\" role=\"img\" aria-labelledby=\"{prefix}-title {prefix}-desc\">\n"));
        out.push_str(&format!("<title id=\"{prefix}-title\">{}</title>\n", escaped(&self.title)));
        out.push_str(&format!("<desc id=\"{prefix}-desc\">{}</desc>\n", escaped(&self.short)));
        print_all(&self.marks, how, &mut out);
        out.push_str("</svg>\n");
        out
    }
}

/// Lines of one stroke that follow one another, such as those of a hatch, are one path: shorter, and one element however
/// many they are.
fn print_all(marks: &[Mark], how: &Print, out: &mut String) {
    let line = |mark: &Mark| match mark {
        Mark::Line { stroke, .. } => Some(*stroke),
        _ => None,
    };
    for run in marks.chunk_by(|one, next| line(one).is_some() && line(one) == line(next)) {
        match run {
            [one] => print(one, how, out),
            [first, ..] => print_lines(run, line(first), how, out),
            [] => {}
        }
    }
}

fn print_lines(run: &[Mark], stroke: Option<Stroke>, how: &Print, out: &mut String) {
    let mut gap = "<path d=\"";
    for mark in run {
        if let Mark::Line { from, to, .. } = mark {
            out.push_str(gap);
            step("M", *from, out);
            step(" L", *to, out);
            gap = " ";
        }
    }
    out.push('"');
    print_fill(None, out);
    print_stroke(stroke, how, out);
    out.push_str("/>\n");
}

fn print(mark: &Mark, how: &Print, out: &mut String) {
    match mark {
        Mark::Line { from, to, stroke } => {
            out.push_str("<line");
            for (name, value) in [("x1", from.x), ("y1", from.y), ("x2", to.x), ("y2", to.y)] {
                attribute(name, value, out);
            }
            print_stroke(Some(*stroke), how, out);
            out.push_str("/>\n");
        }
        Mark::Path { steps, stroke, fill } => {
            out.push_str("<path d=\"");
            for (place, one) in steps.iter().enumerate() {
                if place > 0 {
                    out.push(' ');
                }
                match *one {
                    Step::Move(to) => step("M", to, out),
                    Step::Line(to) => step("L", to, out),
                    Step::Curve { first, second, to } => {
                        step("C", first, out);
                        step(" ", second, out);
                        step(" ", to, out);
                    }
                    Step::Close => out.push('Z'),
                }
            }
            out.push('"');
            print_fill(*fill, out);
            if fill.is_some() {
                out.push_str(" fill-rule=\"evenodd\"");
            }
            print_stroke(*stroke, how, out);
            out.push_str("/>\n");
        }
        Mark::Polygon { points, stroke, fill } => {
            out.push_str("<polygon points=\"");
            for (place, point) in points.iter().enumerate() {
                step(if place > 0 { " " } else { "" }, *point, out);
            }
            out.push('"');
            print_fill(*fill, out);
            print_stroke(*stroke, how, out);
            out.push_str("/>\n");
        }
        Mark::Circle { centre, radius, stroke, fill } => {
            out.push_str("<circle");
            for (name, value) in [("cx", centre.x), ("cy", centre.y), ("r", *radius)] {
                attribute(name, value, out);
            }
            print_fill(*fill, out);
            print_stroke(*stroke, how, out);
            out.push_str("/>\n");
        }
        Mark::Arc { centre, radius, from, turn, stroke } => {
            let turn = turn.clamp(-TAU + 1e-3, TAU - 1e-3);
            let (begin, end) = (centre.around(*radius, *from), centre.around(*radius, from + turn));
            step("<path d=\"M", begin, out);
            out.push_str(" A");
            number(*radius, out);
            out.push(' ');
            number(*radius, out);
            out.push_str(if turn.abs() > PI { " 0 1" } else { " 0 0" });
            // the sheet's y runs down: counter-clockwise on it is the sweep flag 0
            step(if turn < 0.0 { " 1 " } else { " 0 " }, end, out);
            out.push('"');
            print_fill(None, out);
            print_stroke(Some(*stroke), how, out);
            out.push_str("/>\n");
        }
        Mark::Text { at, label, align, size, ink } => print_text(*at, label, (*align, *size, *ink), how, out),
        Mark::Group { id, title, marks } => {
            out.push_str(&format!("<g id=\"{}-{}\">\n", how.prefix, id_text(id)));
            if !title.is_empty() {
                out.push_str(&format!("<title>{}</title>\n", escaped(title)));
            }
            print_all(marks, how, out);
            out.push_str("</g>\n");
        }
        Mark::Grip(_) => {}
    }
}

fn print_text(
    at: Point,
    label: &Label,
    (align, size, ink): (Align, f64, Ink),
    how: &Print,
    out: &mut String,
) {
    out.push_str("<text");
    attribute("x", at.x, out);
    attribute("y", at.y, out);
    if how.alone {
        out.push_str(" font-family=\"");
        out.push_str(FONT);
        out.push('"');
    }
    attribute("font-size", size, out);
    print_fill(Some(ink), out);
    match align {
        Align::Start => {}
        Align::Middle => out.push_str(" text-anchor=\"middle\""),
        Align::End => out.push_str(" text-anchor=\"end\""),
    }
    out.push('>');
    // a shift of the baseline holds for all that follows, so each run takes back the one before it
    let mut baseline = 0.0;
    let mut ahead = 0.0;
    for run in &label.runs {
        let (shift, em) = match run.level {
            Level::Base => (0.0, size),
            Level::Index => (INDEX_DROP * size, size * INDEX_SIZE),
            Level::Exponent => (-EXPONENT_RISE * size, size * INDEX_SIZE),
        };
        let moved = shift - baseline;
        let plain = !run.italic && run.level == Level::Base && moved == 0.0 && ahead == 0.0;
        let barred = BarredLetter::of(&run.text, run.italic);
        if plain && barred.is_none() {
            out.push_str(&escaped(&run.text));
        } else {
            out.push_str("<tspan");
            if ahead != 0.0 {
                attribute("dx", ahead, out);
            }
            if moved != 0.0 {
                attribute("dy", moved, out);
            }
            if run.level != Level::Base {
                attribute("font-size", em, out);
            }
            if run.italic {
                out.push_str(" font-style=\"italic\"");
            }
            out.push('>');
            match &barred {
                Some(barred) => barred.print(em, out),
                None => out.push_str(&escaped(&run.text)),
            }
            out.push_str("</tspan>");
        }
        ahead = barred.map_or(0.0, |barred| em * barred.ahead());
        baseline = shift;
    }
    out.push_str("</text>\n");
}

/// A letter with a bar that Unicode has no sign for, as a small letter and a bar over it: a letter and a combining mark are one sign to
/// a reader of a PDF, and that none of its faces has.
struct BarredLetter {
    letter: char,
    /// Advance width of the letter and of the bar, em.
    widths: [f64; 2],
}

impl BarredLetter {
    /// Of a run that is one small letter without anything above it.
    fn of(text: &str, italic: bool) -> Option<Self> {
        let mut signs = text.chars();
        let letter = signs.next().filter(|letter| "acegmnopqrsuvwxyz".contains(*letter))?;
        let barred = signs.next() == Some('\u{304}') && signs.next().is_none();
        barred.then(|| Self { letter, widths: [letter, BAR].map(|sign| advance(sign, italic)) })
    }

    fn print(&self, em: f64, out: &mut String) {
        let [letter, bar] = self.widths;
        out.push(self.letter);
        out.push_str("<tspan");
        attribute("dx", -0.5 * em * (letter + bar), out);
        out.push('>');
        out.push(BAR);
        out.push_str("</tspan>");
    }

    /// From the end of the bar to that of the letter, em.
    fn ahead(&self) -> f64 {
        let [letter, bar] = self.widths;
        0.5 * (letter - bar)
    }
}

/// The bar.
const BAR: char = '\u{af}';

fn print_fill(fill: Option<Ink>, out: &mut String) {
    out.push_str(" fill=\"");
    out.push_str(fill.map_or("none", Ink::hex));
    out.push('"');
}

fn print_stroke(stroke: Option<Stroke>, how: &Print, out: &mut String) {
    let Some(stroke) = stroke else { return };
    out.push_str(" stroke=\"");
    out.push_str(stroke.ink.hex());
    out.push('"');
    attribute("stroke-width", stroke.width, out);
    let mut gap = " stroke-dasharray=\"";
    for &length in stroke.dash.lengths() {
        out.push_str(gap);
        number(length, out);
        gap = " ";
    }
    if gap == " " {
        out.push('"');
    }
    if how.alone {
        out.push_str(" stroke-linejoin=\"round\"");
    }
}

/// ` name="value"`.
fn attribute(name: &str, value: f64, out: &mut String) {
    out.push(' ');
    out.push_str(name);
    out.push_str("=\"");
    number(value, out);
    out.push('"');
}

/// A command of a path, or what stands before a point otherwise, and the point.
fn step(before: &str, to: Point, out: &mut String) {
    out.push_str(before);
    number(to.x, out);
    out.push(',');
    number(to.y, out);
}

/// A coordinate with at most two decimals; never `-0` and never anything but digits, a sign and a point.
fn number(value: f64, out: &mut String) {
    // What lies between two hundredths up to the last bits goes up, so that marks of one height stay at one height.
    let hundredths = (value * 100.0 + 1e-6).round();
    // Beyond that a whole number of hundredths is not exact, and nothing drawn is so large.
    if hundredths.is_nan() || hundredths.abs() >= 1e15 {
        return out.push('0');
    }
    if hundredths < 0.0 {
        out.push('-');
    }
    // In whole numbers, digit by digit: to print a float by so many decimals costs most of the time of a drawing.
    let mut rest = hundredths.abs() as u64;
    let mut digits = [0_u8; 20];
    let mut count = 0;
    while rest > 0 || count < 3 {
        digits[count] = (rest % 10) as u8;
        rest /= 10;
        count += 1;
    }
    let skipped = digits[..2].iter().take_while(|&&digit| digit == 0).count();
    for place in (skipped..count).rev() {
        if place == 1 {
            out.push('.');
        }
        out.push(char::from(b'0' + digits[place]));
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
