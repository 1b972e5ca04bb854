//! Printing an expression as MathML Core.
//!
//! What browsers do with it was looked at: a prime in a superscript comes out tiny, so it stands on the line; stretched
//! brackets round one line are too wide; a combining bar sits off its letter, U+00AF as an accent does not; a table
//! sets its fractions small unless told not to.

use super::layout::{Item, Relation, layout};
use super::speech::speech;
use crate::expression::Expression;
use crate::notation::{Letter, Mark, SymbolText};
use crate::shown::Shown;
use crate::style::Style;
use crate::unit::Unit;

/// As one inline `<math>` element, with its speech as `alttext`.
pub fn mathml(expression: &Expression, style: &Style) -> String {
    let inner = row(&item(&layout(expression, style)));
    element(expression, style, "", &inner)
}

/// As one `<math display="block">` element; a chain of equals is broken before each sign and aligned at the first.
///
/// A browser that knows no `columnalign` needs `mtd:first-child { text-align: right } mtd { text-align: left }`.
pub fn mathml_block(expression: &Expression, style: &Style) -> String {
    let layout = layout(expression, style);
    let inner = match &layout {
        Item::Chain(links) if links.len() > 2 => {
            let mut left = links.first().map(|(_, link)| row(&item(link))).unwrap_or_default();
            let mut rows = String::from("<mtable displaystyle=\"true\" columnalign=\"right left\">");
            for (relation, link) in &links[1..] {
                let sign = relation_sign(*relation);
                rows.push_str(&format!("<mtr><mtd>{left}</mtd><mtd>{sign}{}</mtd></mtr>", item(link)));
                left = "<mrow></mrow>".to_owned();
            }
            rows + "</mtable>"
        }
        other => row(&item(other)),
    };
    element(expression, style, " display=\"block\"", &inner)
}

fn element(expression: &Expression, style: &Style, attributes: &str, inner: &str) -> String {
    let words = escaped(&speech(expression, style));
    format!(
        "<math xmlns=\"http://www.w3.org/1998/Math/MathML\"{attributes} alttext=\"{words}\">{inner}</math>"
    )
}

/// The thin space of a product: nothing to see but a little room, and multiplication to a reader of the tree.
const TIMES: &str = "<mo lspace=\"0\" rspace=\"0.1667em\">\u{2062}</mo>";
const DOT: &str = "<mo lspace=\"0.2222em\" rspace=\"0.2222em\">⋅</mo>";
const DIFFERENTIAL: &str = "<mi mathvariant=\"normal\">d</mi>";

fn relation_sign(relation: Relation) -> &'static str {
    match relation {
        Relation::First => "",
        Relation::Equal => "<mo>=</mo>",
        Relation::About => "<mo>≈</mo>",
    }
}

/// As one element: a row round several, or round none.
fn row(inner: &str) -> String {
    if is_one_element(inner) { inner.to_owned() } else { format!("<mrow>{inner}</mrow>") }
}

/// Whether that is one element from its first sign to its last.
fn is_one_element(inner: &str) -> bool {
    let name = inner.get(1..).unwrap_or_default().split([' ', '>']).next().unwrap_or_default();
    let its_end = inner.strip_suffix('>').and_then(|rest| rest.strip_suffix(name));
    let Some(rest) = its_end.and_then(|rest| rest.strip_suffix("</")) else { return false };
    // It is one if it is not closed before its end.
    let mut open = 0_usize;
    for tag in rest.split('<').skip(1) {
        open = match (tag.starts_with('/'), tag.split_once('>').is_some_and(|(head, _)| head.ends_with('/')))
        {
            (true, _) => open.saturating_sub(1),
            (false, true) => open,
            (false, false) => open + 1,
        };
        if open == 0 {
            return false;
        }
    }
    open == 1
}

/// The elements of an item; several of them are to be put into a row where one is needed.
fn item(of: &Item) -> String {
    match of {
        Item::Number { text, .. } => format!("<mn>{}</mn>", escaped(text)),
        Item::Value(shown) => value(shown),
        Item::Symbol(text) => symbol(text),
        Item::Words(words) => {
            format!("<mspace width=\"0.25em\"/><mtext>{}</mtext><mspace width=\"0.25em\"/>", escaped(words))
        }
        Item::Row(pieces) => pieces.iter().map(item).collect(),
        Item::Plus => "<mo form=\"infix\">+</mo>".to_owned(),
        Item::Minus => "<mo form=\"infix\">\u{2212}</mo>".to_owned(),
        Item::Negative => "<mo form=\"prefix\">\u{2212}</mo>".to_owned(),
        Item::Times { dot: true } => DOT.to_owned(),
        Item::Times { dot: false } => TIMES.to_owned(),
        Item::Bracket(inner) => fenced("(", inner, ")"),
        Item::Absolute(inner) => fenced("|", inner, "|"),
        Item::Fraction(above, below) => format!("<mfrac>{}{}</mfrac>", row(&item(above)), row(&item(below))),
        Item::Raised(base, power) if is_indexed(base) => {
            // A subscript and a power stand one above the other.
            let base = item(base);
            let parts =
                base.strip_prefix("<msub>").and_then(|base| base.strip_suffix("</msub>")).unwrap_or(&base);
            format!("<msubsup>{parts}{}</msubsup>", signed(i32::from(*power)))
        }
        Item::Raised(base, power) => {
            format!("<msup>{}{}</msup>", row(&item(base)), signed(i32::from(*power)))
        }
        Item::Root(inner) => format!("<msqrt>{}</msqrt>", item(inner)),
        Item::CubeRoot(inner) => format!("<mroot>{}<mn>3</mn></mroot>", row(&item(inner))),
        Item::Differential(inner) => row(&format!("{DIFFERENTIAL}{}", item(inner))),
        Item::Of(function, argument) => row(&format!(
            "{}<mo lspace=\"0\" rspace=\"0\">\u{2061}</mo>{}",
            item(function),
            fenced("(", argument, ")")
        )),
        Item::Integral { over, integrand, by } => {
            let sign = match over {
                Some(over) => format!("<msub><mo>∫</mo>{}</msub>", row(&item(over))),
                None => "<mo>∫</mo>".to_owned(),
            };
            row(&format!("{sign}{}{TIMES}{DIFFERENTIAL}{}", item(integrand), item(by)))
        }
        Item::SumOver(inner) => row(&format!("<mo>∑</mo>{}", item(inner))),
        Item::Limit { variable, body } => {
            let foot = row(&format!("{}<mo>→</mo><mn>0</mn>", item(variable)));
            row(&format!(
                "<munder><mo movablelimits=\"false\" rspace=\"0.1667em\">lim</mo>{foot}</munder>{}",
                item(body)
            ))
        }
        Item::Chain(links) => links
            .iter()
            .map(|(relation, link)| format!("{}{}", relation_sign(*relation), item(link)))
            .collect(),
    }
}

/// Whether it is written as one letter with a subscript and nothing else.
fn is_indexed(of: &Item) -> bool {
    match of {
        Item::Symbol(symbol) => match symbol.letters.as_slice() {
            [letter] => !letter.difference && letter.mark == Mark::None && !letter.below.is_empty(),
            _ => false,
        },
        _ => false,
    }
}

/// In brackets, which stretch only round what is taller than a line.
fn fenced(open: &str, inner: &Item, close: &str) -> String {
    let stretchy = if is_tall(inner) { "true" } else { "false" };
    row(&format!(
        "<mo form=\"prefix\" stretchy=\"{stretchy}\">{open}</mo>{}<mo form=\"postfix\" stretchy=\"{stretchy}\">{close}</mo>",
        item(inner)
    ))
}

fn is_tall(of: &Item) -> bool {
    match of {
        Item::Fraction(..) | Item::Integral { .. } | Item::SumOver(_) | Item::Limit { .. } => true,
        Item::Row(pieces) => pieces.iter().any(is_tall),
        Item::Bracket(inner)
        | Item::Absolute(inner)
        | Item::Root(inner)
        | Item::CubeRoot(inner)
        | Item::Raised(inner, _) => is_tall(inner),
        Item::Chain(links) => links.iter().any(|(_, link)| is_tall(link)),
        _ => false,
    }
}

fn signed(number: i32) -> String {
    let size = number.unsigned_abs();
    if number < 0 {
        row(&format!("<mo form=\"prefix\">\u{2212}</mo><mn>{size}</mn>"))
    } else {
        format!("<mn>{size}</mn>")
    }
}

fn value(shown: &Shown) -> String {
    let mut out = String::new();
    if shown.negative {
        out.push_str("<mo form=\"prefix\">\u{2212}</mo>");
    }
    out.push_str(&format!("<mn>{}</mn>", escaped(&shown.number())));
    if shown.power != 0 {
        out.push_str(&format!("<mo>×</mo><msup><mn>10</mn>{}</msup>", signed(shown.power)));
    }
    match shown.unit.text().as_str() {
        "" => {}
        "°" => out.push_str("<mi mathvariant=\"normal\">°</mi>"),
        _ => {
            out.push_str(TIMES);
            out.push_str(&unit(&shown.unit));
        }
    }
    row(&out)
}

fn unit(unit: &Unit) -> String {
    let mut out = String::new();
    for (piece, power) in unit.pieces() {
        // A piece begins with the signs that part it from the one before.
        let name = piece.trim_start_matches(['·', '/', '(', ')', '1']);
        for sign in piece[..piece.len() - name.len()].chars() {
            out.push_str(&match sign {
                '1' => "<mn>1</mn>".to_owned(),
                sign => format!("<mo lspace=\"0\" rspace=\"0\" stretchy=\"false\">{sign}</mo>"),
            });
        }
        if name.is_empty() {
            continue;
        }
        let name = format!("<mi mathvariant=\"normal\">{}</mi>", escaped(name));
        out.push_str(&match power {
            Some(power) => format!("<msup>{name}<mn>{power}</mn></msup>"),
            None => name,
        });
    }
    row(&out)
}

fn symbol(symbol: &SymbolText) -> String {
    let letters: Vec<String> = symbol.letters.iter().map(letter).collect();
    if letters.len() == 1 { letters.concat() } else { row(&letters.join(TIMES)) }
}

fn letter(letter: &Letter) -> String {
    let mut base = identifier(&letter.base, letter.italic);
    if letter.bar {
        base = format!("<mover accent=\"true\">{base}<mo stretchy=\"false\">\u{af}</mo></mover>");
    }
    if letter.mark == Mark::Prime {
        base = row(&format!("{base}<mo lspace=\"0\" rspace=\"0\">′</mo>"));
    }
    let pieces: Vec<String> =
        letter.below.iter().map(|below| identifier(&below.text, below.italic)).collect();
    let below = row(&pieces.join("<mo lspace=\"0\" rspace=\"0.1em\">,</mo>"));
    let star = "<mo lspace=\"0\" rspace=\"0\">*</mo>";
    let written = match (pieces.is_empty(), letter.mark == Mark::Star) {
        (true, false) => base,
        (true, true) => format!("<msup>{base}{star}</msup>"),
        (false, false) => format!("<msub>{base}{below}</msub>"),
        (false, true) => format!("<msubsup>{base}{below}{star}</msubsup>"),
    };
    if letter.difference { row(&format!("<mi mathvariant=\"normal\">Δ</mi>{written}")) } else { written }
}

/// Letters of one name: a number as such, axes one by one in italics, a word upright.
fn identifier(text: &str, italic: bool) -> String {
    if text.bytes().all(|byte| byte.is_ascii_digit()) {
        return format!("<mn>{text}</mn>");
    }
    let mut buffer = [0; 4];
    if italic {
        return text.chars().map(|c| format!("<mi>{}</mi>", escaped(c.encode_utf8(&mut buffer)))).collect();
    }
    format!("<mi mathvariant=\"normal\">{}</mi>", escaped(text))
}

/// Text for XML: what means something there is escaped, what may not stand there at all is dropped.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\t' | '\n' | '\r' => out.push(' '),
            '\u{fffe}' | '\u{ffff}' => {}
            character if character.is_control() => {}
            character => out.push(character),
        }
    }
    out
}
