//! Printing an expression as the mathematics of Typst, without dollars.
//!
//! Only single letters and the names below stand bare; every other text is a string, so that nothing in a lesson can
//! become markup. A bar is `macron`: with `overline` the bar is lost when text is copied or turned into MathML.

use super::layout::{Item, Relation, layout};
use crate::expression::Expression;
use crate::notation::{Letter, Mark, SymbolText, greek};
use crate::shown::Shown;
use crate::style::Style;
use crate::unit::Unit;

/// As the mathematics of Typst, in one line.
pub fn typst(expression: &Expression, style: &Style) -> String {
    item(&layout(expression, style))
}

/// As [`typst`], but a chain of equals is broken before each sign and aligned at the first.
pub fn typst_aligned(expression: &Expression, style: &Style) -> String {
    let layout = layout(expression, style);
    let Item::Chain(links) = &layout else { return item(&layout) };
    let mut out = String::new();
    for (place, (relation, link)) in links.iter().enumerate() {
        if place > 1 {
            out.push_str(" \\ ");
        }
        out.push_str(match relation {
            Relation::First => "",
            Relation::Equal => " &= ",
            Relation::About => " &approx ",
        });
        out.push_str(&item(link));
    }
    out
}

fn item(of: &Item) -> String {
    match of {
        Item::Number { text, .. } => quoted(text),
        Item::Value(shown) => value(shown),
        Item::Symbol(text) => symbol(text),
        Item::Words(words) => quoted(&format!(" {words} ")),
        Item::Row(row) => {
            let pieces: Vec<String> = row.iter().map(item).collect();
            pieces.join(" ")
        }
        Item::Plus => "+".to_owned(),
        Item::Minus | Item::Negative => "-".to_owned(),
        Item::Times { dot: true } => "dot.op".to_owned(),
        Item::Times { dot: false } => "thin".to_owned(),
        Item::Bracket(inner) => format!("({})", item(inner)),
        Item::Absolute(inner) => format!("abs({})", item(inner)),
        Item::Fraction(above, below) => format!("frac({}, {})", item(above), item(below)),
        Item::Raised(base, power) => format!("{}^({power})", item(base)),
        Item::Root(inner) => format!("sqrt({})", item(inner)),
        Item::CubeRoot(inner) => format!("root(3, {})", item(inner)),
        Item::Differential(inner) => format!("upright(d) {}", item(inner)),
        Item::Of(function, argument) => format!("{} ({})", item(function), item(argument)),
        Item::Integral { over, integrand, by } => {
            let over = over.as_ref().map(|over| format!("_({})", item(over))).unwrap_or_default();
            format!("integral{over} {} thin upright(d) {}", item(integrand), item(by))
        }
        Item::SumOver(inner) => format!("sum {}", item(inner)),
        Item::Limit { variable, body } => format!("lim_({} -> \"0\") {}", item(variable), item(body)),
        Item::Chain(links) => {
            let link = |(relation, link): &(Relation, Item)| match relation {
                Relation::First => item(link),
                Relation::Equal => format!("= {}", item(link)),
                Relation::About => format!("approx {}", item(link)),
            };
            let links: Vec<String> = links.iter().map(link).collect();
            links.join(" ")
        }
    }
}

/// A string: quotes and backslashes escaped, control characters made spaces.
fn quoted(text: &str) -> String {
    let mut out = String::from("\"");
    for character in text.chars() {
        match character {
            '"' | '\\' => out.extend(['\\', character]),
            character if character.is_control() => out.push(' '),
            character => out.push(character),
        }
    }
    out.push('"');
    out
}

fn value(shown: &Shown) -> String {
    let mut out = String::new();
    if shown.negative {
        out.push_str("- ");
    }
    if shown.power == 0 && shown.unit.text() == "°" {
        out.push_str(&quoted(&format!("{}°", shown.number())));
        return out;
    }
    out.push_str(&quoted(&shown.number()));
    if shown.power != 0 {
        out.push_str(&format!(" times \"10\"^({})", shown.power));
    }
    if !shown.unit.factors.is_empty() {
        out.push_str(" thin ");
        out.push_str(&unit(&shown.unit));
    }
    out
}

/// Upright, in strings of everything between two powers: `"N/mm"^(2)`.
fn unit(unit: &Unit) -> String {
    let mut out = String::new();
    let mut text = String::new();
    for (piece, power) in unit.pieces() {
        text.push_str(&piece);
        if let Some(power) = power {
            if !out.is_empty() {
                out.push(' ');
            }
            out.push_str(&format!("{}^({power})", quoted(&text)));
            text.clear();
        }
    }
    if !text.is_empty() {
        if !out.is_empty() {
            out.push(' ');
        }
        out.push_str(&quoted(&text));
    }
    out
}

fn symbol(symbol: &SymbolText) -> String {
    let letters: Vec<String> = symbol.letters.iter().map(letter).collect();
    letters.join(" thin ")
}

fn letter(letter: &Letter) -> String {
    let single = letter.italic && bare(&letter.base);
    let base = if single { letter.base.clone() } else { quoted(&letter.base) };
    let base = if letter.bar { format!("macron({base})") } else { base };
    let difference = if letter.difference { "upright(Delta) " } else { "" };
    let mark = match letter.mark {
        Mark::None => "",
        Mark::Prime => "'",
        Mark::Star => "^(*)",
    };
    let pieces: Vec<String> = letter
        .below
        .iter()
        .map(|below| if below.italic { spaced(&below.text) } else { quoted(&below.text) })
        .collect();
    let below = if pieces.is_empty() { String::new() } else { format!("_({})", pieces.join("\",\"")) };
    // The prime must come first: `y_1'` would set it above the subscript's end.
    format!("{difference}{base}{mark}{below}")
}

/// Whether a text may stand outside of a string: one Latin or Greek letter.
fn bare(text: &str) -> bool {
    let mut characters = text.chars();
    let one = characters.next().is_some_and(|c| c.is_ascii_alphabetic() || greek(text).is_some());
    one && characters.next().is_none()
}

/// Axes one by one: `zz` would be the name of something.
fn spaced(axes: &str) -> String {
    let axes: Vec<String> = axes.chars().map(String::from).collect();
    axes.join(" ")
}
