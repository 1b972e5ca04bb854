//! Printing an expression as it is spoken, so that nobody needs to see what stands under the bar.
//!
//! A fraction that is a whole side of an equation is told with "all over", which parts all that was said since the
//! last "equals" from all that comes before the next; any other is told with its beginning and its end. Where words
//! would leave it open what belongs together, brackets are said.

use super::layout::{Item, Relation, layout};
use crate::expression::Expression;
use crate::style::Style;
use crate::unit::ordinal;

/// By its letters: "tau equals V times Q, all over I times t".
pub fn speech(expression: &Expression, style: &Style) -> String {
    tidied(&Voice { words: false }.whole(&layout(expression, style)))
}

/// By the names of its quantities: "shear stress equals shear force times first moment, all over ...".
pub fn speech_in_words(expression: &Expression, style: &Style) -> String {
    tidied(&Voice { words: true }.whole(&layout(expression, style)))
}

struct Voice {
    /// Symbols by what they are called, not by their letters.
    words: bool,
}

impl Voice {
    /// A side of an equation, or all of an expression.
    fn whole(&self, of: &Item) -> String {
        match of {
            Item::Fraction(above, below) if !is_rate(above, below) => {
                let over = if is_simple(above) && is_simple(below) { " over " } else { ", all over " };
                format!("{}{over}{}", self.item(above), self.item(below))
            }
            Item::SumOver(inner) => format!("the sum of {}", self.item(inner)),
            Item::Limit { variable, body } => {
                format!("the limit, as {} tends to 0, of {}", self.item(variable), self.item(body))
            }
            Item::Row(pieces) => match pieces.as_slice() {
                [Item::Negative, Item::Fraction(above, below)] => {
                    format!("minus the fraction {}", self.fraction(above, below))
                }
                _ => self.item(of),
            },
            Item::Chain(links) => {
                let mut out = String::new();
                for (place, (relation, link)) in links.iter().enumerate() {
                    // A pause, so that what is "all over" ends here.
                    out.push_str(if place > 1 { ", " } else { " " });
                    out.push_str(match relation {
                        Relation::First => "",
                        Relation::Equal => "equals ",
                        Relation::About => "is about ",
                    });
                    out.push_str(&self.whole(link));
                }
                out
            }
            other => self.item(other),
        }
    }

    fn fraction(&self, above: &Item, below: &Item) -> String {
        let over = if is_simple(above) && is_simple(below) { " over " } else { ", over " };
        format!("{}{over}{}, end of fraction,", self.item(above), self.item(below))
    }

    fn item(&self, of: &Item) -> String {
        match of {
            Item::Number { spoken, .. } => spoken.clone(),
            Item::Value(shown) => shown.speech(),
            Item::Symbol(symbol) => if self.words { &symbol.words } else { &symbol.spoken }.clone(),
            Item::Words(words) => words.clone(),
            Item::Row(pieces) => {
                let pieces: Vec<String> = pieces.iter().map(|piece| self.item(piece)).collect();
                pieces.join(" ")
            }
            Item::Plus => "plus".to_owned(),
            Item::Minus | Item::Negative => "minus".to_owned(),
            Item::Times { .. } => "times".to_owned(),
            // The closing bracket ends what "the sum of" or "all over" begins.
            Item::Bracket(inner) => format!("open bracket {} close bracket", self.whole(inner)),
            Item::Absolute(inner) if is_simple(inner) => format!("the size of {}", self.item(inner)),
            Item::Absolute(inner) => format!("the size of {}, end of size,", self.item(inner)),
            // The rate of change has a short form that everybody knows.
            Item::Fraction(above, below) if is_rate(above, below) => match (&**above, &**below) {
                (Item::Differential(of), Item::Differential(with)) if self.words => {
                    format!("the rate of change of {} with {}", self.item(of), self.item(with))
                }
                _ => format!("{} by {}", self.item(above), self.item(below)),
            },
            Item::Fraction(above, below) => format!("the fraction {}", self.fraction(above, below)),
            Item::Raised(base, power) => format!("{} {}", self.item(base), spoken_power(*power)),
            Item::CubeRoot(inner) if is_simple(inner) => format!("the cube root of {}", self.item(inner)),
            Item::CubeRoot(inner) => format!("the cube root of {}, end of root,", self.item(inner)),
            Item::Root(inner) if is_simple(inner) => format!("the square root of {}", self.item(inner)),
            Item::Root(inner) => format!("the square root of {}, end of root,", self.item(inner)),
            Item::Differential(inner) if self.words => format!("the differential of {}", self.item(inner)),
            Item::Differential(inner) => format!("d {}", self.item(inner)),
            Item::Of(function, argument) => format!("{} of {}", self.item(function), self.argument(argument)),
            Item::Integral { over, integrand, by } => {
                let over = over.as_ref().map(|over| format!(" over {}", self.item(over))).unwrap_or_default();
                let by = if self.words {
                    format!("with respect to {}", self.item(by))
                } else {
                    format!("d {}", self.item(by))
                };
                format!("the integral{over} of {} {by}", self.item(integrand))
            }
            Item::SumOver(inner) => format!("the sum of {}, end of sum,", self.item(inner)),
            Item::Limit { .. } => format!("{}, end of limit,", self.whole(of)),
            Item::Chain(_) => self.whole(of),
        }
    }

    fn argument(&self, argument: &Item) -> String {
        if is_simple(argument) {
            self.item(argument)
        } else {
            format!("open bracket {} close bracket", self.whole(argument))
        }
    }
}

/// Whether a fraction is a rate of change: `dM/dx`.
fn is_rate(above: &Item, below: &Item) -> bool {
    matches!((above, below), (Item::Differential(above), Item::Differential(below)) if is_simple(above) && is_simple(below))
}

/// Whether it is heard as one thing.
fn is_simple(of: &Item) -> bool {
    match of {
        Item::Number { .. } | Item::Value(_) | Item::Symbol(_) | Item::Words(_) => true,
        Item::Differential(inner) | Item::Raised(inner, _) => is_simple(inner),
        _ => false,
    }
}

fn spoken_power(power: i8) -> String {
    match power {
        2 => "squared".to_owned(),
        3 => "cubed".to_owned(),
        power if power < 0 => format!("to the minus {}", power.unsigned_abs()),
        power => format!("to the {}", ordinal(power.unsigned_abs())),
    }
}

/// Without the commas and spaces that endings leave before other words and at the end.
fn tidied(text: &str) -> String {
    let mut words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    while words.contains(",,") || words.contains(" ,") {
        words = words.replace(",,", ",").replace(" ,", ",");
    }
    words.trim_end_matches([',', ' ']).replace(", close bracket", " close bracket")
}
