//! What every printer shares: which brackets, signs and multiplication signs an expression needs.
//!
//! An expression becomes a tree of what is to be written; a printer only chooses how. So no two printers can differ
//! in what a formula says.

use super::difference;
use crate::expression::Expression;
use crate::notation::{Letter, Mark, SymbolText};
use crate::shown::{Shown, grouped};
use crate::style::{Multiplication, Style};

/// A piece of a written formula.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Item {
    /// An unsigned number, grouped and with the course's decimal mark; and with a point for speech.
    Number { text: String, spoken: String },
    /// A value with its unit and its sign.
    Value(Shown),
    /// A symbol.
    Symbol(SymbolText),
    /// Words.
    Words(String),
    /// Pieces in a row.
    Row(Vec<Item>),
    /// A plus or minus between two terms.
    Plus,
    /// See [`Item::Plus`].
    Minus,
    /// A minus before the first term.
    Negative,
    /// A multiplication, with a dot or without.
    Times { dot: bool },
    /// Round brackets.
    Bracket(Box<Item>),
    /// Bars.
    Absolute(Box<Item>),
    /// One over the other.
    Fraction(Box<Item>, Box<Item>),
    /// A power.
    Raised(Box<Item>, i8),
    /// A square root.
    Root(Box<Item>),
    /// A cube root.
    CubeRoot(Box<Item>),
    /// An upright d, and what it is of.
    Differential(Box<Item>),
    /// A function and its argument, which stands in brackets.
    Of(Box<Item>, Box<Item>),
    /// An integral: region, integrand, variable.
    Integral { over: Option<Box<Item>>, integrand: Box<Item>, by: Box<Item> },
    /// A sum over like terms.
    SumOver(Box<Item>),
    /// A limit: what tends to zero, and of what.
    Limit { variable: Box<Item>, body: Box<Item> },
    /// Links with a relation before each but the first.
    Chain(Vec<(Relation, Item)>),
}

/// What stands between two links of a chain.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Relation {
    /// Before the first link: nothing.
    First,
    /// Equals.
    Equal,
    /// Is about.
    About,
}

/// How tightly the parts of an expression hold together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Bond {
    Relation,
    /// Also a negative value: it begins with a minus.
    Sum,
    Product,
    /// A fraction, a differential, a power: one factor, but not what a d or a power stands at.
    Factor,
    /// A letter with a mark: not the base of a power.
    Marked,
    Atom,
}

/// The tree of what is to be written.
pub(super) fn layout(expression: &Expression, style: &Style) -> Item {
    Layout { style, figures: None }.item(expression)
}

struct Layout<'a> {
    style: &'a Style,
    /// How many figures a value has that is shown rounded, where not those of the style.
    figures: Option<u8>,
}

impl Layout<'_> {
    fn item(&self, expression: &Expression) -> Item {
        match expression {
            Expression::Number(number) => self.number(*number),
            // A leaf of a graph that was not resolved: it is named, not lost.
            Expression::Working(id) => Item::Words(format!("working {}", id.0)),
            Expression::Symbol(symbol) => Item::Symbol(self.style.symbol(symbol)),
            Expression::Quantity(quantity, role) => Item::Value(match self.figures {
                None => self.style.show(*quantity, *role),
                Some(figures) => self.style.show_with(*quantity, *role, figures),
            }),
            Expression::Given(quantity, role) => Item::Value(self.style.show_given(*quantity, *role)),
            Expression::Words(words) => Item::Words(words.clone()),
            Expression::Negative(inner) => {
                Item::Row(vec![Item::Negative, self.at_least(Bond::Product, inner)])
            }
            Expression::Sum(terms) => self.sum(terms),
            Expression::Product(factors) => self.product(factors),
            Expression::Quotient(above, below) => Item::Fraction(self.boxed(above), self.boxed(below)),
            Expression::Arctangent(above, below) => {
                let tangent = Item::Fraction(self.boxed(above), self.boxed(below));
                Item::Of(Box::new(Item::Words("arctan".to_owned())), Box::new(tangent))
            }
            Expression::Power(base, power) => Item::Raised(Box::new(self.at_least(Bond::Atom, base)), *power),
            Expression::Root(inner) => Item::Root(self.boxed(inner)),
            Expression::CubeRoot(inner) => Item::CubeRoot(self.boxed(inner)),
            Expression::Absolute(inner) => Item::Absolute(self.boxed(inner)),
            Expression::Differential(inner) => Item::Differential(self.element(inner)),
            Expression::Of(function, argument) => {
                Item::Of(Box::new(self.at_least(Bond::Marked, function)), self.boxed(argument))
            }
            Expression::Integral { over, integrand, by } => Item::Integral {
                over: over.as_ref().map(|over| self.boxed(over)),
                integrand: Box::new(self.at_least(Bond::Product, integrand)),
                by: self.element(by),
            },
            Expression::SumOver(inner) => Item::SumOver(Box::new(self.at_least(Bond::Product, inner))),
            Expression::LimitToZero { variable, body } => Item::Limit {
                variable: self.boxed(variable),
                body: Box::new(self.at_least(Bond::Product, body)),
            },
            Expression::Equal(links) => self.chain(links, Relation::Equal),
            Expression::About(links) => self.chain(links, Relation::About),
        }
    }

    fn boxed(&self, expression: &Expression) -> Box<Item> {
        Box::new(self.item(expression))
    }

    /// What stands under a d.
    fn element(&self, expression: &Expression) -> Box<Item> {
        Box::new(match expression {
            Expression::Symbol(symbol) if symbol.index.is_empty() => {
                Item::Symbol(self.style.notation.element(symbol.role))
            }
            other => self.at_least(Bond::Marked, other),
        })
    }

    fn number(&self, number: f64) -> Item {
        if number == std::f64::consts::PI {
            return Item::Symbol(pi());
        }
        let digits = number.abs().to_string();
        let text = Item::Number { text: grouped(&digits, self.style.decimal_mark), spoken: digits };
        if number < 0.0 { Item::Row(vec![Item::Negative, text]) } else { text }
    }

    /// The expression, in brackets unless it holds together at least so tightly.
    fn at_least(&self, bond: Bond, expression: &Expression) -> Item {
        let item = self.item(expression);
        if bond_of(expression, &item) < bond { Item::Bracket(Box::new(item)) } else { item }
    }

    fn sum(&self, terms: &[Expression]) -> Item {
        if let (None, Some(figures)) = (self.figures, difference::figures(terms, self.style)) {
            return Layout { figures: Some(figures), ..*self }.sum(terms);
        }
        let mut row = Vec::with_capacity(2 * terms.len());
        for term in terms {
            match (term, row.is_empty()) {
                (Expression::Negative(inner), first) => {
                    row.push(if first { Item::Negative } else { Item::Minus });
                    row.push(self.at_least(Bond::Product, inner));
                }
                // The first term may begin with its own minus, but not be a sum: its brackets are its own.
                (Expression::Number(_) | Expression::Quantity(..) | Expression::Given(..), true) => {
                    row.push(self.item(term));
                }
                (_, first) => {
                    if !first {
                        row.push(Item::Plus);
                    }
                    row.push(self.at_least(Bond::Product, term));
                }
            }
        }
        match row.len() {
            0 => self.number(0.0),
            _ => Item::Row(row),
        }
    }

    fn product(&self, factors: &[Expression]) -> Item {
        let mut row: Vec<Item> = Vec::with_capacity(2 * factors.len());
        self.push_factors(factors, true, &mut row);
        match row.len() {
            0 => self.number(1.0),
            1 => row.swap_remove(0),
            _ => Item::Row(row),
        }
    }

    fn push_factors(&self, factors: &[Expression], last_of_all: bool, row: &mut Vec<Item>) {
        for (place, factor) in factors.iter().enumerate() {
            let last = last_of_all && place + 1 == factors.len();
            if let Expression::Product(inner) = factor {
                self.push_factors(inner, last, row);
                continue;
            }
            let open = matches!(
                factor,
                Expression::Integral { .. } | Expression::SumOver(_) | Expression::LimitToZero { .. }
            );
            // What follows a sum over terms would belong to it.
            let item = if open && !last {
                Item::Bracket(self.boxed(factor))
            } else {
                self.at_least(Bond::Product, factor)
            };
            if let Some(before) = row.last() {
                let dot = self.style.multiplication == Multiplication::Dot || needs_dot(before, &item);
                row.push(Item::Times { dot });
            }
            row.push(item);
        }
    }

    fn chain(&self, links: &[Expression], last: Relation) -> Item {
        let mut chain: Vec<(Relation, Item)> = Vec::with_capacity(links.len());
        for (place, link) in links.iter().enumerate() {
            let item = self.at_least(Bond::Sum, link);
            let relation = match place {
                0 => Relation::First,
                _ if place + 1 == links.len() => last,
                _ => Relation::Equal,
            };
            // Where a first moment is written A ȳ, "first moment = area times arm" would read A ȳ = A ȳ.
            let repeats = chain
                .last()
                .is_some_and(|(_, before)| letters(before).is_some_and(|l| letters(&item) == Some(l)));
            if !repeats {
                chain.push((relation, item));
            }
        }
        Item::Chain(chain)
    }
}

/// The letters of a product of symbols.
fn letters(item: &Item) -> Option<Vec<Letter>> {
    match item {
        Item::Symbol(symbol) => Some(symbol.letters.clone()),
        Item::Row(pieces) => {
            let factors = pieces.iter().filter(|piece| !matches!(piece, Item::Times { .. }));
            let letters: Option<Vec<Vec<Letter>>> = factors.map(letters).collect();
            letters.map(|letters| letters.concat())
        }
        _ => None,
    }
}

/// The number pi, upright as a constant is (ISO 80000-1).
fn pi() -> SymbolText {
    let letter = Letter {
        difference: false,
        base: "π".into(),
        italic: false,
        bar: false,
        mark: Mark::None,
        below: Vec::new(),
    };
    SymbolText { letters: vec![letter], words: "pi".into(), spoken: "pi".into() }
}

/// How tightly an expression holds together, as it is written.
fn bond_of(expression: &Expression, item: &Item) -> Bond {
    match (expression, item) {
        (Expression::Equal(links) | Expression::About(links), _) if links.len() > 1 => Bond::Relation,
        (Expression::Equal(_) | Expression::About(_), Item::Chain(links)) => {
            links.first().map_or(Bond::Atom, |(_, link)| bond_of_item(link))
        }
        _ => bond_of_item(item),
    }
}

fn bond_of_item(item: &Item) -> Bond {
    match item {
        Item::Chain(_) => Bond::Relation,
        Item::Row(row) => {
            let sum = row.iter().any(|piece| matches!(piece, Item::Plus | Item::Minus | Item::Negative));
            if sum { Bond::Sum } else { Bond::Product }
        }
        Item::Value(shown) if shown.negative => Bond::Sum,
        Item::Value(shown) if shown.power == 0 && shown.unit.factors.is_empty() => Bond::Atom,
        Item::Value(_) | Item::Integral { .. } | Item::SumOver(_) | Item::Limit { .. } => Bond::Product,
        Item::Symbol(symbol) if symbol.letters.len() > 1 => Bond::Product,
        // A power on a star or a prime would be read as part of it; a power on Δx as that of x.
        Item::Symbol(symbol) if symbol.letters.iter().any(|l| l.mark != Mark::None || l.difference) => {
            Bond::Factor
        }
        Item::Fraction(..) | Item::Raised(..) | Item::Differential(_) | Item::Of(..) => Bond::Factor,
        _ => Bond::Atom,
    }
}

/// Whether two factors would run together without a dot: two numbers, a unit and a letter.
fn needs_dot(before: &Item, after: &Item) -> bool {
    let value_before = matches!(before, Item::Value(_) | Item::Words(_));
    let number_before = matches!(before, Item::Number { .. });
    let bracket_after = matches!(after, Item::Bracket(_));
    let number_after = begins_with_digit(after);
    let fraction_pair = matches!(before, Item::Fraction(..)) && matches!(after, Item::Fraction(..));
    number_after
        || fraction_pair
        || (value_before && !bracket_after)
        || (number_before && matches!(after, Item::Fraction(..)))
}

fn begins_with_digit(item: &Item) -> bool {
    match item {
        Item::Number { .. } | Item::Value(_) | Item::Words(_) => true,
        Item::Raised(base, _) => begins_with_digit(base),
        Item::Row(row) => row.first().is_some_and(begins_with_digit),
        _ => false,
    }
}
