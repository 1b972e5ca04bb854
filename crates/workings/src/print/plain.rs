//! Printing an expression as plain text in one line, for terminals and tables.

use super::layout::{Item, Relation, layout};
use crate::expression::Expression;
use crate::style::Style;
use crate::unit::raised_number;

/// As plain text: `τ = V Q/(I t)`.
pub fn plain(expression: &Expression, style: &Style) -> String {
    let mut out = String::new();
    push(&layout(expression, style), &mut out);
    out
}

fn push(item: &Item, out: &mut String) {
    match item {
        Item::Number { text, .. } => out.push_str(text),
        Item::Value(shown) => out.push_str(&shown.text()),
        Item::Symbol(symbol) => out.push_str(&symbol.plain()),
        Item::Words(words) => out.push_str(words),
        Item::Row(row) => {
            let product = row.iter().any(|piece| matches!(piece, Item::Times { .. }));
            for piece in row {
                // In one line `x/L V` would leave it open what stands below.
                held(piece, product && matches!(piece, Item::Fraction(..)), out);
            }
        }
        Item::Plus => out.push_str(" + "),
        Item::Minus => out.push_str(" \u{2212} "),
        Item::Negative => out.push('\u{2212}'),
        Item::Times { dot } => out.push_str(if *dot { " · " } else { " " }),
        Item::Bracket(inner) => wrapped("(", inner, ")", out),
        Item::Absolute(inner) => wrapped("|", inner, "|", out),
        Item::Fraction(above, below) => {
            // In one line `-−0.5/2` would be read as a slip of the pen.
            held(above, is_open(above) || is_negative(above) || is_compound(above), out);
            out.push('/');
            let single = match &**below {
                Item::Number { .. } | Item::Value(_) => !is_negative(below) && !is_compound(below),
                Item::Symbol(symbol) => symbol.letters.len() == 1,
                Item::Differential(_) | Item::Raised(..) | Item::Bracket(_) => true,
                _ => false,
            };
            held(below, !single, out);
        }
        Item::Raised(base, power) => {
            push(base, out);
            out.push_str(&raised_number(i32::from(*power)));
        }
        Item::Root(inner) => wrapped("√(", inner, ")", out),
        Item::CubeRoot(inner) => wrapped("∛(", inner, ")", out),
        Item::Differential(inner) => {
            out.push('d');
            push(inner, out);
        }
        Item::Of(function, argument) => {
            push(function, out);
            wrapped("(", argument, ")", out);
        }
        Item::Integral { over, integrand, by } => {
            out.push('∫');
            if let Some(over) = over {
                wrapped("[", over, "]", out);
            }
            out.push(' ');
            push(integrand, out);
            out.push_str(" d");
            push(by, out);
        }
        Item::SumOver(inner) => {
            out.push_str("Σ ");
            push(inner, out);
        }
        Item::Limit { variable, body } => {
            wrapped("lim[", variable, " → 0] ", out);
            push(body, out);
        }
        Item::Chain(links) => {
            for (relation, link) in links {
                out.push_str(match relation {
                    Relation::First => "",
                    Relation::Equal => " = ",
                    Relation::About => " ≈ ",
                });
                push(link, out);
            }
        }
    }
}

fn wrapped(open: &str, inner: &Item, close: &str, out: &mut String) {
    out.push_str(open);
    push(inner, out);
    out.push_str(close);
}

fn held(item: &Item, bracket: bool, out: &mut String) {
    if bracket { wrapped("(", item, ")", out) } else { push(item, out) }
}

/// Whether it is a value with a minus before it.
fn is_negative(item: &Item) -> bool {
    matches!(item, Item::Value(shown) if shown.negative)
}

/// Whether a slash after it would belong to its last part only.
fn is_open(item: &Item) -> bool {
    match item {
        Item::Row(row) => row.iter().any(|piece| matches!(piece, Item::Plus | Item::Minus) || is_open(piece)),
        Item::Chain(_)
        | Item::Fraction(..)
        | Item::Integral { .. }
        | Item::SumOver(_)
        | Item::Limit { .. } => true,
        _ => false,
    }
}

/// Whether a value has a slash in its unit or a power of ten, with which a slash beside it would be confused.
fn is_compound(item: &Item) -> bool {
    match item {
        Item::Value(shown) => shown.power != 0 || shown.unit.factors.iter().any(|factor| factor.power < 0),
        _ => false,
    }
}
