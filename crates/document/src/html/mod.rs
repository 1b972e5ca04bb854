//! A document as one HTML file that needs nothing else: MathML, inline SVG, its own faces, no script.
//!
//! The file is HTML and well-formed XML at once, so that any XML reader can check it.

mod escape;
mod question;
mod sheet;

pub use self::escape::escaped;
pub use self::sheet::ground;

use self::escape::{push_escaped, push_markup};
use self::sheet::{POLICY, SHEET};
use crate::characters::is_silent;
use crate::levels::Levels;
use crate::tree::{
    Alignment, Block, Callout, CalloutKind, Document, Equation, Figure, Inline, Paper, Print, Relation,
    Slide, Table, plain,
};
use crate::words::described;
use std::collections::BTreeSet;
use std::fmt::Write;
use workings::expression::Expression;
use workings::print;
use workings::style::Style;

/// The document as one HTML file.
pub fn html(document: &Document) -> String {
    let context =
        Context { style: &document.style, equations: document.equation_numbers(), print: document.print };
    let mut printer = Printer::new(&context, document.paper != Paper::Wide && document.running.is_empty());
    printer.blocks(&document.body);
    let (body, contents) = (printer.out, printer.contents);

    let title = if is_silent(&document.title) { "Untitled" } else { &document.title };
    let mut out = String::with_capacity(body.len() + SHEET.len() + 4096);
    out.push_str("<!doctype html>\n<html lang=\"");
    push_escaped(&mut out, language(&document.language));
    out.push_str(
        "\">\n<head>\n<meta charset=\"utf-8\"/>\n<meta http-equiv=\"Content-Security-Policy\" content=\"",
    );
    out.push_str(&POLICY);
    out.push_str("\"/>\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n<title>");
    push_escaped(&mut out, title);
    if !document.kind.is_empty() {
        out.push_str(" – ");
        push_escaped(&mut out, &document.kind);
    }
    out.push_str("</title>\n");
    if !document.author.is_empty() {
        out.push_str("<meta name=\"author\" content=\"");
        push_escaped(&mut out, &document.author);
        out.push_str("\"/>\n");
    }
    out.push_str("<style>");
    out.push_str(&SHEET);
    out.push_str("</style>\n</head>\n");
    out.push_str(if document.print == Print::Large { "<body class=\"large\">\n" } else { "<body>\n" });
    push_title(&mut out, document, title, &context);
    // What carries its name on every page is read from its top; the rest is looked up.
    push_contents(&mut out, &contents, document.running.is_empty());
    out.push_str("<main>\n");
    out.push_str(&body);
    out.push_str("</main>\n</body>\n</html>\n");
    out
}

/// Some blocks as a piece of a page, without the page around them: no drawing in it, no heading with a number, and no
/// place that a link could lead to.
pub fn fragment(blocks: &[Block], style: &Style) -> String {
    let context = Context { style, equations: BTreeSet::new(), print: Print::Usual };
    let mut printer = Printer::new(&context, false);
    printer.blocks(blocks);
    printer.out
}

/// As [`fragment`], for blocks that hold drawings and choices: `scope` is a word that no other piece of the page is told by.
pub fn fragment_with_drawings(blocks: &[Block], style: &Style, scope: &str) -> String {
    let context = Context { style, equations: BTreeSet::new(), print: Print::Usual };
    let mut printer = Printer { scope, ..Printer::new(&context, false) };
    printer.blocks(blocks);
    printer.out
}

/// From the letters of drawings, 13 px, to those of large print, 18 points.
const LARGE: f64 = 18.0 / 9.75;

/// A tag that is none would make the page's language unknown.
fn language(tag: &str) -> &str {
    let sound = !tag.is_empty() && tag.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'-');
    if sound { tag } else { "en" }
}

fn push_title(out: &mut String, document: &Document, title: &str, context: &Context<'_>) {
    out.push_str("<header class=\"title\">\n");
    if !document.running.is_empty() {
        out.push_str("<p class=\"running\">");
        push_escaped(out, &document.running.join(" \u{b7} "));
        out.push_str("</p>\n");
    }
    let above: Vec<&str> = [document.kind.as_str(), document.course.as_str()]
        .into_iter()
        .filter(|words| !words.is_empty())
        .collect();
    if !above.is_empty() {
        out.push_str("<p class=\"kind\">");
        push_escaped(out, &above.join(" · "));
        out.push_str("</p>\n");
    }
    out.push_str("<h1>");
    push_escaped(out, title);
    out.push_str("</h1>\n");
    if !document.author.is_empty() {
        out.push_str("<p class=\"by\">");
        push_escaped(out, &document.author);
        out.push_str("</p>\n");
    }
    if !document.lead.is_empty() {
        out.push_str("<p class=\"lead\">");
        push_line(out, &document.lead, context);
        out.push_str("</p>\n");
    }
    out.push_str("</header>\n");
}

/// One heading of the contents: its place, its number, its words.
struct Entry {
    id: String,
    number: String,
    words: String,
}

fn push_contents(out: &mut String, contents: &[Entry], open: bool) {
    // A short page needs no table of contents.
    if contents.len() < 4 {
        return;
    }
    out.push_str("<nav aria-label=\"Contents\">\n<details");
    out.push_str(if open { " open=\"open\"" } else { "" });
    out.push_str(">\n<summary>Contents</summary>\n<ol>\n");
    for entry in contents {
        out.push_str("<li><a href=\"#");
        out.push_str(&entry.id);
        out.push_str("\"><span class=\"n\">");
        out.push_str(&entry.number);
        out.push_str("</span> ");
        push_escaped(out, &entry.words);
        out.push_str("</a></li>\n");
    }
    out.push_str("</ol>\n</details>\n</nav>\n");
}

/// What the printing of a line must know of the whole.
struct Context<'a> {
    style: &'a Style,
    equations: BTreeSet<&'a str>,
    print: Print,
}

fn push_line(out: &mut String, line: &[Inline], context: &Context<'_>) {
    for inline in line {
        push_inline(out, inline, context);
    }
}

fn push_wrapped(out: &mut String, element: &str, inner: &[Inline], context: &Context<'_>) {
    out.push('<');
    out.push_str(element);
    out.push('>');
    push_line(out, inner, context);
    out.push_str("</");
    out.push_str(element);
    out.push('>');
}

fn push_inline(out: &mut String, inline: &Inline, context: &Context<'_>) {
    let style = context.style;
    match inline {
        Inline::Text(words) => push_escaped(out, words),
        Inline::Strong(inner) => push_wrapped(out, "strong", inner, context),
        Inline::Emphasis(inner) => push_wrapped(out, "em", inner, context),
        Inline::Math(expression) => {
            // What is not heard says nothing either.
            if !is_silent(&print::speech(expression, style)) {
                push_markup(out, &print::mathml(expression, style));
            }
        }
        Inline::Quantity(quantity, role) => push_escaped(out, &style.text(*quantity, *role)),
        Inline::Given(quantity, role) => push_escaped(out, &style.given_text(*quantity, *role)),
        Inline::Code(words) => {
            out.push_str("<code>");
            push_escaped(out, words);
            out.push_str("</code>");
        }
        Inline::Link { to, text } => match crate::markdown::followable(to) {
            Some(to) => {
                out.push_str("<a rel=\"noreferrer\" href=\"");
                push_escaped(out, &to);
                out.push_str("\">");
                push_line(out, text, context);
                out.push_str("</a>");
            }
            None => push_line(out, text, context),
        },
        Inline::File { name, text } => {
            out.push_str("<a href=\"");
            push_escaped(out, name.as_str());
            out.push_str("\">");
            push_line(out, text, context);
            out.push_str("</a>");
        }
        Inline::EquationNumber(number) if !context.equations.contains(number.as_str()) => {
            push_escaped(out, &format!("({number})"));
        }
        Inline::EquationNumber(number) => {
            out.push_str("<a href=\"#equation-");
            out.push_str(&id_text(number));
            out.push_str("\">(");
            push_escaped(out, number);
            out.push_str(")</a>");
        }
        Inline::LineBreak => out.push_str("<br/>"),
    }
}

fn id_text(words: &str) -> String {
    words.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect()
}

/// What stands inside the `<math>` element of an expression, to be put into a row.
fn formula(expression: &Expression, style: &Style) -> String {
    let whole = print::mathml(expression, style);
    let inner = whole.find('>').and_then(|start| Some(&whole[start + 1..whole.rfind("</math>")?]));
    inner.unwrap_or(&whole).to_owned()
}

/// An equation broader than this, in characters, has to be scrolled in a window of 320 px (WCAG 2.2, 1.4.10).
const SMALL_WINDOW: f64 = 20.0;

/// A table of more columns than this is scrolled in a small window.
const BROAD_TABLE: usize = 4;

struct Printer<'a> {
    context: &'a Context<'a>,
    out: String,
    levels: Levels,
    numbers: [u32; 3],
    numbered: bool,
    contents: Vec<Entry>,
    numbered_equations: BTreeSet<String>,
    /// What the places of drawings and choices begin with, so that those of two pieces of a page differ.
    scope: &'a str,
    drawings: u32,
    tables: u32,
    choices: u32,
}

impl<'a> Printer<'a> {
    fn new(context: &'a Context<'a>, numbered: bool) -> Self {
        Self {
            context,
            out: String::new(),
            levels: Levels::default(),
            numbers: [0; 3],
            numbered,
            contents: Vec::new(),
            numbered_equations: BTreeSet::new(),
            scope: "",
            drawings: 0,
            tables: 0,
            choices: 0,
        }
    }

    fn line(&mut self, line: &[Inline]) {
        push_line(&mut self.out, line, self.context);
    }

    fn push(&mut self, markup: &str) {
        self.out.push_str(markup);
    }

    fn blocks(&mut self, blocks: &[Block]) {
        for block in blocks {
            self.block(block);
        }
    }

    fn block(&mut self, block: &Block) {
        match block {
            Block::Heading { level, text } => self.heading(*level, text),
            Block::Paragraph(line) => {
                self.push("<p>");
                self.line(line);
                self.push("</p>\n");
            }
            Block::Equation(equation) => self.equation(equation),
            Block::Figure(figure) => self.figure(figure),
            Block::Table(table) => self.table(table),
            Block::List { ordered, items } => self.list(if *ordered { "ol" } else { "ul" }, "", items),
            Block::Steps(items) => self.list("ol", " class=\"steps\"", items),
            Block::Callout(callout) => self.callout(callout),
            Block::Quote(inner) => {
                self.push("<blockquote>\n");
                self.blocks(inner);
                self.push("</blockquote>\n");
            }
            Block::Columns(columns) => {
                self.push("<div class=\"columns\">\n");
                for (_, inner) in columns {
                    self.push("<div>\n");
                    self.blocks(inner);
                    self.push("</div>\n");
                }
                self.push("</div>\n");
            }
            Block::Facts(facts) => self.facts(facts),
            Block::Question(question) => self.question(question),
            Block::Answer(answer) => self.answer(answer),
            Block::Choices(choices) => self.choices(choices),
            Block::Room(room) => self.room(room),
            Block::PageBreak => {}
            Block::Slide(slide) => self.slide(slide),
        }
    }

    fn heading(&mut self, level: u8, text: &[Inline]) {
        if is_silent(&plain(text, self.context.style)) {
            return;
        }
        let level = self.levels.next(level);
        let place = usize::from(level - 1);
        if let Some(number) = self.numbers.get_mut(place) {
            *number += 1;
        }
        self.numbers.iter_mut().skip(place + 1).for_each(|number| *number = 0);
        let numbers: Vec<String> = self.numbers.iter().take(place + 1).map(u32::to_string).collect();
        let id = format!("s-{}", numbers.join("-"));
        // As on paper: chapters and their parts are numbered, what stands below them is not.
        let number = if self.numbered && level < 3 { numbers.join(".") } else { String::new() };
        if level == 1 {
            let words = plain(text, self.context.style);
            self.contents.push(Entry { id: id.clone(), number: number.clone(), words });
        }
        let element = level + 1;
        let _ = write!(self.out, "<h{element} id=\"{id}\">");
        if !number.is_empty() {
            let _ = write!(self.out, "<span class=\"n\">{number}</span> ");
        }
        self.line(text);
        let _ = writeln!(self.out, "</h{element}>");
    }

    fn equation(&mut self, equation: &Equation) {
        let style = self.context.style;
        self.push(if equation.rows.len() > 1 {
            "<div class=\"equation rows\""
        } else {
            "<div class=\"equation\""
        });
        // A number given twice leads to its first equation.
        if let Some(number) = &equation.number
            && self.numbered_equations.insert(number.clone())
        {
            let _ = write!(self.out, " id=\"equation-{}\"", id_text(number));
        }
        self.push(">");
        let spoken = escaped(&equation.spoken(style));
        if equation.breadth(style) > SMALL_WINDOW {
            // What may have to be scrolled must be reached with the keyboard (WCAG 2.1.1).
            self.push("<div class=\"formula\" tabindex=\"0\" role=\"group\" aria-label=\"Equation, may be scrolled\">");
        } else {
            self.push("<div class=\"formula\">");
        }
        let _ = write!(self.out, "<math display=\"block\" alttext=\"{spoken}\">");
        let alone = equation.rows.len() == 1;
        if !alone {
            self.push("<mtable displaystyle=\"true\">");
        }
        for row in &equation.rows {
            let relation = match row.relation {
                Some(Relation::Equal) => "<mo>=</mo>",
                Some(Relation::About) => "<mo>≈</mo>",
                Some(Relation::Plus) => "<mspace width=\"1.5em\"></mspace><mo form=\"infix\">+</mo>",
                Some(Relation::Minus) => "<mspace width=\"1.5em\"></mspace><mo form=\"infix\">−</mo>",
                None => "",
            };
            if !alone {
                self.push("<mtr><mtd>");
            }
            self.push("<mrow>");
            if let Some(left) = &row.left {
                push_markup(&mut self.out, &formula(left, style));
            }
            // A row without a relation reads from its left edge like the rest.
            if !alone {
                self.push("</mrow></mtd><mtd><mrow>");
            }
            self.push(relation);
            push_markup(&mut self.out, &formula(&row.right, style));
            self.push("</mrow>");
            if !alone {
                self.push("</mtd></mtr>");
            }
        }
        if !alone {
            self.push("</mtable>");
        }
        self.push("</math></div>");
        if let Some(number) = &equation.number {
            self.push("<span class=\"number\">(");
            push_escaped(&mut self.out, number);
            self.push(")</span>");
        }
        self.push("</div>\n");
    }

    fn figure(&mut self, figure: &Figure) {
        self.drawings += 1;
        let drawing = &figure.drawing;
        let name = match figure.number {
            Some(number) => format!("Figure {number}"),
            None => drawing.title.clone(),
        };
        let _ = writeln!(self.out, "<figure id=\"figure-{}{}\">", self.scope, self.drawings);
        // Narrow drawings fit every window; broad ones are scrolled, and so must be reached with the keyboard.
        if drawing.width > 400.0 {
            self.push("<div class=\"plate broad\" tabindex=\"0\" role=\"group\" aria-label=\"");
            push_escaped(&mut self.out, &name);
            self.push(", may be scrolled\">\n");
        } else {
            self.push("<div class=\"plate\">\n");
        }
        // In large print the letters of drawings are as large as the words; where that is too broad, as large as there is room.
        let times = match self.context.print {
            Print::Usual => 1.0,
            Print::Large => LARGE,
        };
        let svg =
            drawing.svg_enlarged(&format!("figure-{}{}-{}", self.scope, self.drawings, drawing.name), times);
        push_markup(&mut self.out, &svg);
        self.push("</div>\n");
        if !figure.caption.is_empty() {
            self.push("<figcaption>");
            if figure.number.is_some() {
                self.push("<strong>");
                push_escaped(&mut self.out, &name);
                self.push(".</strong> ");
            }
            self.line(&figure.caption);
            self.push("</figcaption>\n");
        }
        if !drawing.long.passages.is_empty() {
            self.push("<details>\n<summary>");
            push_escaped(&mut self.out, &name);
            self.push(" in words</summary>\n");
            self.blocks(&described(&drawing.long));
            self.push("</details>\n");
        }
        self.push("</figure>\n");
    }

    fn table(&mut self, table: &Table) {
        self.tables += 1;
        let id = format!("table-{}", self.tables);
        let captioned = !table.caption.is_empty();
        // Squeezed into a small window its columns would be a word wide: where every row has a head, the cells of a row stand below
        // one another there, each with the word of its column; else it may be scrolled. The roles are those that a browser forgets
        // when a row is no row any more to the eye.
        let broad = table.header.len() > BROAD_TABLE;
        let stacks = broad && table.row_heads;
        let element = match (broad, stacks) {
            (_, true) => "<table class=\"broad stacks\" role=\"table\">",
            (true, false) => "<table class=\"broad\">",
            (false, false) => "<table>",
        };
        let role = |role: &str| if stacks { format!(" role=\"{role}\"") } else { String::new() };
        let words: Vec<String> = table.header.iter().map(|cell| plain(cell, self.context.style)).collect();
        if captioned {
            let _ = writeln!(
                self.out,
                "<div class=\"scroll\" tabindex=\"0\" role=\"group\" aria-labelledby=\"{id}\">\n{element}"
            );
            let _ = write!(self.out, "<caption id=\"{id}\">");
            if let Some(number) = table.number {
                let _ = write!(self.out, "<strong>Table {number}.</strong> ");
            }
            self.line(&table.caption);
            self.push("</caption>\n");
        } else {
            self.push("<div class=\"scroll\" tabindex=\"0\" role=\"group\" aria-label=\"Table\">\n");
            self.push(element);
            self.push("\n");
        }
        let row = role("row");
        let _ = write!(self.out, "<thead{}>\n<tr{row}>", role("rowgroup"));
        for (place, cell) in table.header.iter().enumerate() {
            let opening = format!("th scope=\"col\"{}", role("columnheader"));
            self.cell(&opening, "th", alignment(table, place), cell);
        }
        let _ = write!(self.out, "</tr>\n</thead>\n<tbody{}>\n", role("rowgroup"));
        for (place, cells) in table.rows.iter().enumerate() {
            let last = table.total && place + 1 == table.rows.len();
            let class = if last { " class=\"total\"" } else { "" };
            let _ = write!(self.out, "<tr{class}{row}>");
            for (column, cell) in cells.iter().enumerate() {
                if column == 0 && table.row_heads {
                    let opening = format!("th scope=\"row\"{}", role("rowheader"));
                    self.cell(&opening, "th", alignment(table, column), cell);
                } else if stacks {
                    let mut opening = "td role=\"cell\" data-head=\"".to_owned();
                    push_escaped(&mut opening, words.get(column).map_or("", String::as_str));
                    opening.push('"');
                    // One element, so that it is one beside the word of its column.
                    let _ = write!(self.out, "<{opening}{}>", alignment(table, column));
                    if !cell.is_empty() {
                        self.push("<span>");
                        self.line(cell);
                        self.push("</span>");
                    }
                    self.push("</td>");
                } else {
                    self.cell("td", "td", alignment(table, column), cell);
                }
            }
            self.push("</tr>\n");
        }
        self.push("</tbody>\n</table>\n</div>\n");
    }

    fn cell(&mut self, opening: &str, element: &str, class: &str, cell: &[Inline]) {
        let _ = write!(self.out, "<{opening}{class}>");
        self.line(cell);
        let _ = write!(self.out, "</{element}>");
    }

    fn list(&mut self, element: &str, class: &str, items: &[Vec<Block>]) {
        let _ = writeln!(self.out, "<{element}{class}>");
        for item in items {
            self.push("<li>");
            match item.as_slice() {
                // One paragraph alone is set tight.
                [Block::Paragraph(line)] => self.line(line),
                blocks => self.blocks(blocks),
            }
            self.push("</li>\n");
        }
        let _ = writeln!(self.out, "</{element}>");
    }

    fn callout(&mut self, callout: &Callout) {
        let class = match callout.kind {
            CalloutKind::Key => "key",
            CalloutKind::Note => "note",
            CalloutKind::Caution => "caution",
        };
        let _ = write!(self.out, "<div class=\"callout {class}\" role=\"note\">\n<p class=\"head\">");
        push_escaped(&mut self.out, &callout.title);
        self.push("</p>\n");
        self.blocks(&callout.body);
        self.push("</div>\n");
    }

    fn slide(&mut self, slide: &Slide) {
        self.push("<section>\n");
        self.heading(1, &slide.title);
        self.blocks(&slide.side);
        for step in &slide.steps {
            self.blocks(step);
        }
        self.push("</section>\n");
    }
}

fn alignment(table: &Table, column: usize) -> &'static str {
    match table.alignment.get(column) {
        Some(Alignment::Right) => " class=\"r\"",
        Some(Alignment::Centre) => " class=\"c\"",
        Some(Alignment::Left) | None => "",
    }
}
