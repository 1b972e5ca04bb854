//! Printing an expression as the mathematics of LaTeX with amsmath, without dollars.

use super::layout::{Item, Relation, layout};
use crate::expression::Expression;
use crate::notation::{Below, Letter, Mark, SymbolText, greek, lowered_digit};
use crate::shown::Shown;
use crate::style::Style;
use crate::unit::Unit;

/// As the mathematics of LaTeX with amsmath, in one line.
pub fn latex(expression: &Expression, style: &Style) -> String {
    item(&layout(expression, style))
}

/// As [`latex`], but a chain of equals is broken before each sign and aligned at the first.
pub fn latex_aligned(expression: &Expression, style: &Style) -> String {
    let layout = layout(expression, style);
    let Item::Chain(links) = &layout else { return item(&layout) };
    let mut out = String::from("\\begin{aligned}\n");
    for (place, (relation, link)) in links.iter().enumerate() {
        if place > 1 {
            out.push_str(" \\\\\n");
        }
        out.push_str(match relation {
            Relation::First => "",
            Relation::Equal => " &= ",
            Relation::About => " &\\approx ",
        });
        out.push_str(&item(link));
    }
    out.push_str("\n\\end{aligned}");
    out
}

fn item(of: &Item) -> String {
    match of {
        Item::Number { text, .. } => number(text),
        Item::Value(shown) => value(shown),
        Item::Symbol(text) => symbol(text),
        Item::Words(words) => format!("\\text{{ {} }}", escaped(words)),
        Item::Row(row) => {
            let pieces: Vec<String> = row.iter().map(item).collect();
            pieces.join(" ")
        }
        Item::Plus => "+".to_owned(),
        Item::Minus | Item::Negative => "-".to_owned(),
        Item::Times { dot: true } => "\\cdot".to_owned(),
        Item::Times { dot: false } => "\\,".to_owned(),
        Item::Bracket(inner) => format!("\\left( {} \\right)", item(inner)),
        Item::Absolute(inner) => format!("\\left| {} \\right|", item(inner)),
        Item::Fraction(above, below) => format!("\\frac{{{}}}{{{}}}", item(above), item(below)),
        // Without braces, so that a subscript and a power stand one above the other.
        Item::Raised(base, power) if matches!(**base, Item::Symbol(_)) => {
            format!("{}^{{{power}}}", item(base))
        }
        Item::Raised(base, power) => format!("{{{}}}^{{{power}}}", item(base)),
        Item::Root(inner) => format!("\\sqrt{{{}}}", item(inner)),
        Item::CubeRoot(inner) => format!("\\sqrt[3]{{{}}}", item(inner)),
        Item::Differential(inner) => format!("\\mathrm{{d}} {}", item(inner)),
        Item::Of(function, argument) => format!("{} \\left( {} \\right)", item(function), item(argument)),
        Item::Integral { over, integrand, by } => {
            let over = over.as_ref().map(|over| format!("_{{{}}}", item(over))).unwrap_or_default();
            format!("\\int{over} {} \\,\\mathrm{{d}} {}", item(integrand), item(by))
        }
        Item::SumOver(inner) => format!("\\sum {}", item(inner)),
        Item::Limit { variable, body } => format!("\\lim_{{{} \\to 0}} {}", item(variable), item(body)),
        Item::Chain(links) => {
            let link = |(relation, link): &(Relation, Item)| match relation {
                Relation::First => item(link),
                Relation::Equal => format!("= {}", item(link)),
                Relation::About => format!("\\approx {}", item(link)),
            };
            let links: Vec<String> = links.iter().map(link).collect();
            links.join(" ")
        }
    }
}

/// Digits: groups with a thin space, a comma without the space that LaTeX puts after one.
fn number(text: &str) -> String {
    text.replace(',', "{,}").replace('\u{202f}', "\\,")
}

/// Text for `\text{...}`: every character that means something to LaTeX is escaped.
fn escaped(text: &str) -> String {
    let mut out = String::new();
    for character in text.chars() {
        match character {
            '#' | '$' | '%' | '&' | '_' | '{' | '}' => out.extend(['\\', character]),
            '\\' => out.push_str("\\textbackslash{}"),
            '~' => out.push_str("\\textasciitilde{}"),
            '^' => out.push_str("\\textasciicircum{}"),
            '°' => out.push_str("$^{\\circ}$"),
            '·' => out.push_str("$\\cdot$"),
            'µ' | 'μ' => out.push_str("\\textmu{}"),
            '′' => out.push_str("$'$"),
            '\u{2212}' => out.push_str("$-$"),
            '\u{202f}' | '\u{2009}' => out.push_str("\\,"),
            '\u{a0}' => out.push('~'),
            character if character.is_control() => out.push(' '),
            character => match (lowered_digit(character), greek(character.encode_utf8(&mut [0; 4]))) {
                (Some(digit), _) => out.push_str(&format!("$_{digit}$")),
                (None, Some(name)) => out.push_str(&format!("${}$", greek_command(name))),
                (None, None) => out.push(character),
            },
        }
    }
    out
}

/// The command of a Greek letter. There is no `\varphi` in between: the letter φ is the loopy one in print.
fn greek_command(name: &str) -> String {
    match name {
        "phi" => "\\varphi".to_owned(),
        "epsilon" => "\\varepsilon".to_owned(),
        name => format!("\\{name}"),
    }
}

fn value(shown: &Shown) -> String {
    let mut out = String::new();
    if shown.negative {
        out.push_str("- ");
    }
    out.push_str(&number(&shown.number()));
    if shown.power != 0 {
        out.push_str(&format!(" \\times 10^{{{}}}", shown.power));
    }
    match shown.unit.text().as_str() {
        "" => {}
        "°" => out.push_str("^{\\circ}"),
        _ => {
            out.push_str(" \\,");
            out.push_str(&unit(&shown.unit));
        }
    }
    out
}

fn unit(unit: &Unit) -> String {
    let mut out = String::new();
    for (piece, power) in unit.pieces() {
        out.push_str(&format!("\\text{{{}}}", escaped(&piece)));
        if let Some(power) = power {
            out.push_str(&format!("^{{{power}}}"));
        }
    }
    out
}

fn symbol(symbol: &SymbolText) -> String {
    let letters: Vec<String> = symbol.letters.iter().map(letter).collect();
    letters.join(" \\, ")
}

fn letter(letter: &Letter) -> String {
    let base = match greek(&letter.base) {
        Some(name) => greek_command(name),
        None if letter.italic && letter.base.len() == 1 => letter.base.clone(),
        None => format!("\\text{{{}}}", escaped(&letter.base)),
    };
    let base = if letter.bar { format!("\\bar{{{base}}}") } else { base };
    let difference = if letter.difference { "\\Delta " } else { "" };
    let mark = match letter.mark {
        Mark::None => "",
        Mark::Prime => "'",
        Mark::Star => "^{*}",
    };
    let piece = |below: &Below| {
        let bare = below.italic || below.text.bytes().all(|byte| byte.is_ascii_digit());
        if bare { below.text.clone() } else { format!("\\text{{{}}}", escaped(&below.text)) }
    };
    let pieces: Vec<String> = letter.below.iter().map(piece).collect();
    let below = if pieces.is_empty() { String::new() } else { format!("_{{{}}}", pieces.join(",")) };
    format!("{difference}{base}{below}{mark}")
}
