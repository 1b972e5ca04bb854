//! Laying out displayed equations: where a chain of equals is broken, and how broad a formula is.

use crate::tree::{Equation, Print, Relation, Row};
use workings::expression::Expression;
use workings::style::Style;

/// How much room the rows of an equation have, in characters of their line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// A chain that is not broader than this stands in one row.
    one_row: f64,
    /// A sum broader than this is carried on in a further row.
    longest_sum: f64,
}

impl Room {
    /// The measure of a page: of an 11 pt formula 128 mm hold about seventy characters, less the number at its end.
    pub const PAGE: Self = Self { one_row: 54.0, longest_sum: 60.0 };
    /// The window of a phone, 390 px wide: about forty characters, less what stands on the left.
    pub const HAND: Self = Self { one_row: 34.0, longest_sum: 33.0 };
    /// The whole width of a sheet in large print, 178 mm: of an 18 pt formula about sixty characters, less the number.
    pub const LARGE_PRINT: Self = Self { one_row: 44.0, longest_sum: 48.0 };
}

/// Rows up to this stand beside their number within the measure of the text, however far the guess of their breadth is off;
/// broader ones the typesetter measures.
const SURE_TO_FIT: f64 = 24.0;

impl Equation {
    /// A displayed equation without a number. A chain of equals too broad for one row is broken before its
    /// relation signs, and a long sum between its terms.
    pub fn of(expression: &Expression, style: &Style) -> Self {
        let mut rows = Vec::new();
        add_rows(expression, style, Room::PAGE, &mut rows);
        Self { rows, number: None, speech: None }
    }

    /// Several chains under one another, aligned.
    pub fn aligned<'a>(chains: impl IntoIterator<Item = &'a Expression>, style: &Style) -> Self {
        Self::aligned_within(chains, style, Room::PAGE)
    }

    /// As [`Equation::aligned`], where there is other room than that of a page.
    pub fn aligned_within<'a>(
        chains: impl IntoIterator<Item = &'a Expression>,
        style: &Style,
        room: Room,
    ) -> Self {
        let mut rows = Vec::new();
        for chain in chains {
            add_rows(chain, style, room, &mut rows);
        }
        Self { rows, number: None, speech: None }
    }

    /// The equation with its number.
    pub fn numbered(mut self, number: impl Into<String>) -> Self {
        self.number = Some(number.into());
        self
    }

    /// The same with less room: what is too broad for one row is broken further.
    pub fn broken_for(&self, style: &Style, room: Room) -> Self {
        let mut rows = Vec::new();
        for row in &self.rows {
            let left = row.left.as_ref().map_or(0.0, |left| breadth(left, style));
            if left + breadth(&row.right, style) <= room.one_row {
                rows.push(row.clone());
                continue;
            }
            let (mut left, mut relation) = (row.left.clone(), row.relation);
            let chain = match &row.right {
                Expression::Equal(chain) => chain.as_slice(),
                right => std::slice::from_ref(right),
            };
            for link in chain {
                add_sum(left.take(), relation, link, (style, room), &mut rows);
                relation = Some(Relation::Equal);
            }
        }
        Self { rows, ..self.clone() }
    }

    /// Whether some row may be too broad for the measure of the text beside its number.
    pub fn is_broad(&self, style: &Style, print: Print) -> bool {
        let sure = match print {
            Print::Usual => SURE_TO_FIT,
            Print::Large => SURE_TO_FIT * 11.0 / 18.0,
        };
        self.breadth(style) > sure
    }

    /// About how broad it is, in characters of its line.
    pub fn breadth(&self, style: &Style) -> f64 {
        // Aligned rows share the broadest left side.
        let left = self.rows.iter().filter_map(|row| row.left.as_ref());
        let left = left.map(|left| breadth(left, style)).fold(0.0, f64::max);
        self.rows.iter().map(|row| left + breadth(&row.right, style)).fold(0.0, f64::max)
    }
}

fn add_rows(expression: &Expression, style: &Style, room: Room, rows: &mut Vec<Row>) {
    let (Expression::Equal(chain) | Expression::About(chain)) = expression else {
        add_sum(None, None, expression, (style, room), rows);
        return;
    };
    let about = matches!(expression, Expression::About(_));
    let [first, rest @ ..] = chain.as_slice() else { return };
    let (Some((last, between)), true) = (rest.split_last(), !rest.is_empty()) else {
        add_sum(None, None, first, (style, room), rows);
        return;
    };
    if breadth(expression, style) <= room.one_row && !about {
        let right = if between.is_empty() { last.clone() } else { Expression::Equal(rest.to_vec()) };
        rows.push(Row { left: Some(first.clone()), relation: Some(Relation::Equal), right });
        return;
    }
    let mut left = Some(first.clone());
    for link in between {
        add_sum(left.take(), Some(Relation::Equal), link, (style, room), rows);
    }
    let relation = if about { Relation::About } else { Relation::Equal };
    add_sum(left, Some(relation), last, (style, room), rows);
}

/// One link of a chain: a long sum is carried on in further rows.
fn add_sum(
    left: Option<Expression>,
    relation: Option<Relation>,
    right: &Expression,
    (style, room): (&Style, Room),
    rows: &mut Vec<Row>,
) {
    let longest = room.longest_sum;
    let split;
    let terms = match right {
        Expression::Sum(terms) if breadth(right, style) > longest && terms.len() > 1 => terms,
        Expression::Quotient(above, below) if breadth(right, style) > longest => {
            // A bar cannot be broken, but each term can have a bar of its own.
            let Expression::Sum(terms) = above.as_ref() else {
                rows.push(Row { left, relation, right: right.clone() });
                return;
            };
            split = terms.iter().map(|term| over(term, below)).collect();
            &split
        }
        _ => {
            rows.push(Row { left, relation, right: right.clone() });
            return;
        }
    };
    let mut lines: Vec<Vec<Expression>> = vec![Vec::new()];
    let mut filled = 0.0;
    for term in terms {
        let broad = breadth(term, style) + 3.0;
        if filled + broad > longest && filled > 0.0 {
            lines.push(Vec::new());
            filled = 0.0;
        }
        filled += broad;
        if let Some(line) = lines.last_mut() {
            match term {
                // A sum in a sum needs no brackets, and where each stands in a row of its own it has none.
                Expression::Sum(inner) => line.extend(inner.iter().cloned()),
                term => line.push(term.clone()),
            }
        }
    }
    let (mut left, mut relation) = (left, relation);
    for (place, mut line) in lines.into_iter().enumerate() {
        if place > 0 {
            relation = Some(Relation::Plus);
            if let Some(Expression::Negative(inner)) = line.first() {
                let inner = inner.as_ref().clone();
                if let Some(first) = line.first_mut() {
                    *first = inner;
                }
                relation = Some(Relation::Minus);
            }
        }
        let right = match line.as_slice() {
            [only] => only.clone(),
            _ => Expression::Sum(line),
        };
        rows.push(Row { left: left.take(), relation, right });
    }
}

/// A term over what the whole sum stood over.
fn over(term: &Expression, below: &Expression) -> Expression {
    match term {
        Expression::Negative(inner) => Expression::Negative(Box::new(over(inner, below))),
        term => Expression::Quotient(Box::new(term.clone()), Box::new(below.clone())),
    }
}

/// Several in a row, with a sign between each two.
fn joined(all: &[Expression], sign: f64, style: &Style) -> f64 {
    let gaps = all.len().saturating_sub(1) as f64;
    all.iter().map(|one| breadth(one, style)).sum::<f64>() + gaps * sign
}

/// The brackets round those that need some.
fn brackets(all: &[Expression], need: impl Fn(&Expression) -> bool) -> f64 {
    1.6 * all.iter().filter(|one| need(one)).count() as f64
}

fn is_negative(expression: &Expression) -> bool {
    matches!(expression, Expression::Quantity(of, _) | Expression::Given(of, _) if of.value < 0.0)
}

fn is_value(expression: &Expression) -> bool {
    matches!(expression, Expression::Quantity(..) | Expression::Given(..))
}

/// About how broad a displayed formula is, in characters of its line.
fn breadth(expression: &Expression, style: &Style) -> f64 {
    let of = |inner: &Expression| breadth(inner, style);
    match expression {
        Expression::Quotient(above, below) => of(above).max(of(below)) + 1.0,
        Expression::Arctangent(above, below) => of(above).max(of(below)) + 8.0,
        Expression::Negative(inner) => of(inner) + 1.5,
        Expression::Sum(terms) => {
            joined(terms, 2.5, style) + brackets(terms, |term| matches!(term, Expression::Sum(_)))
        }
        Expression::Product(factors) => joined(factors, 1.0, style) + brackets(factors, is_negative),
        Expression::Power(base, _) => of(base) + 1.0 + brackets(std::slice::from_ref(base), is_value),
        Expression::Root(inner) | Expression::CubeRoot(inner) | Expression::Absolute(inner) => {
            of(inner) + 2.0
        }
        Expression::Differential(inner) => of(inner) + 1.0,
        Expression::Of(function, argument) => of(function) + of(argument) + 2.0,
        Expression::Integral { over, integrand, by } => {
            let foot = over.as_ref().map_or(0.0, |over| 0.6 * of(over));
            2.0 + foot + of(integrand) + of(by) + 1.5
        }
        Expression::SumOver(inner) => of(inner) + 3.0,
        Expression::LimitToZero { variable, body } => {
            of(body) + 3.0_f64.max(0.6 * (of(variable) + 3.0)) + 1.0
        }
        Expression::Equal(chain) | Expression::About(chain) => joined(chain, 2.5, style),
        // What stands below is set smaller.
        Expression::Symbol(symbol) => 1.0 + 0.7 * symbol.index.chars().count() as f64,
        leaf => {
            // Indices and exponents are set smaller, and thin spaces hardly count.
            let text = workings::print::plain(leaf, style);
            text.chars().filter(|c| !matches!(c, '\u{2009}' | '\u{202f}')).count() as f64
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use workings::dimension::Dimension;
    use workings::quantity::Quantity;
    use workings::role::{Role, Symbol};

    fn value(number: f64) -> Expression {
        Expression::Quantity(Quantity::new(number, Dimension::LENGTH), Role::Length)
    }

    /// Every row of large print has room on its sheet, what can be broken is, and nothing is lost or said twice.
    #[test]
    fn a_broad_equation_is_broken_further_for_large_print() {
        let style = Style::default();
        let product =
            |first: f64| Expression::Product((0..4).map(|part| value(first + f64::from(part))).collect());
        let sum = Expression::Sum((0..3).map(|place| product(f64::from(place) + 1.1)).collect());
        let symbol = Expression::Symbol(Symbol::plain(Role::Length));
        let equation = Equation::of(&Expression::Equal(vec![symbol, sum, value(7.25)]), &style);
        let large = equation.broken_for(&style, Room::LARGE_PRINT);
        assert!(equation.breadth(&style) > Room::LARGE_PRINT.longest_sum, "{}", equation.breadth(&style));
        assert!(large.breadth(&style) <= Room::LARGE_PRINT.longest_sum + 3.0, "{}", large.breadth(&style));
        assert!(large.rows.len() > equation.rows.len());
        assert!(large.rows.iter().skip(1).all(|row| row.left.is_none() && row.relation.is_some()));
        let digits = |equation: &Equation| -> String {
            let of = |row: &Row| workings::print::plain(&row.right, &style);
            equation.rows.iter().map(of).collect::<String>().chars().filter(char::is_ascii_digit).collect()
        };
        assert_eq!(digits(&large), digits(&equation));
        // What has room stays as it is.
        let short = Equation::of(&value(1.5), &style);
        assert_eq!(short.broken_for(&style, Room::LARGE_PRINT).rows.len(), 1);
    }
}
