//! Formulas to be printed: those of the unit, awkward ones, and random ones.

use proptest::prelude::*;
use workings::dimension::Dimension;
use workings::expression::Expression;
use workings::quantity::Quantity;
use workings::role::{Role, Symbol};

fn s(role: Role) -> Expression {
    Expression::Symbol(Symbol::plain(role))
}

fn at(role: Role, index: &str) -> Expression {
    Expression::Symbol(Symbol::indexed(role, index))
}

fn number(number: f64) -> Expression {
    Expression::Number(number)
}

fn value(value: f64, dimension: Dimension, role: Role) -> Expression {
    Expression::Quantity(Quantity::new(value, dimension), role)
}

fn product<const N: usize>(factors: [Expression; N]) -> Expression {
    Expression::Product(factors.to_vec())
}

fn sum<const N: usize>(terms: [Expression; N]) -> Expression {
    Expression::Sum(terms.to_vec())
}

fn over(above: Expression, below: Expression) -> Expression {
    Expression::Quotient(Box::new(above), Box::new(below))
}

fn minus(inner: Expression) -> Expression {
    Expression::Negative(Box::new(inner))
}

fn power(base: Expression, power: i8) -> Expression {
    Expression::Power(Box::new(base), power)
}

fn d(of: Expression) -> Expression {
    Expression::Differential(Box::new(of))
}

fn of(function: Expression, argument: Expression) -> Expression {
    Expression::Of(Box::new(function), Box::new(argument))
}

fn integral(over: Option<Expression>, integrand: Expression, by: Expression) -> Expression {
    Expression::Integral { over: over.map(Box::new), integrand: Box::new(integrand), by: Box::new(by) }
}

fn equal<const N: usize>(links: [Expression; N]) -> Expression {
    Expression::Equal(links.to_vec())
}

/// The formulas of the unit, and what is awkward to print.
pub fn samples() -> Vec<(&'static str, Expression)> {
    use Role::*;
    let shear = || over(product([s(ShearForce), s(FirstMoment)]), product([s(SecondMoment), s(WidthAtCut)]));
    let force = |newtons| value(newtons, Dimension::FORCE, PointForce);
    let mm = |millimetres: f64| value(millimetres / 1000.0, Dimension::LENGTH, Breadth);
    vec![
        ("shear stress", equal([s(ShearStress), shear()])),
        (
            "shear stress in numbers",
            Expression::About(vec![
                s(ShearStress),
                shear(),
                over(
                    product([force(12.0e3), value(108e-6, Dimension::LENGTH_3, FirstMoment)]),
                    product([value(11.25e-6, Dimension::LENGTH_4, SecondMoment), mm(20.0)]),
                ),
                value(5.76e6, Dimension::STRESS, ShearStress),
            ]),
        ),
        (
            "balance of the cut piece",
            equal([
                product([s(ShearStress), s(WidthAtCut), d(s(Station))]),
                product([
                    over(d(s(BendingMoment)), s(SecondMoment)),
                    integral(Some(s(AreaBeyond)), s(Depth), s(Area)),
                ]),
            ]),
        ),
        ("slope of the moment", equal([over(d(s(BendingMoment)), d(s(Station))), s(ShearForce)])),
        (
            "bending stress",
            equal([s(BendingStress), minus(over(product([s(BendingMoment), s(Depth)]), s(SecondMoment)))]),
        ),
        ("first moment", equal([s(FirstMoment), product([s(AreaBeyond), s(CentroidBeyond)])])),
        (
            "centroid",
            equal([
                s(CentroidHeight),
                over(
                    Expression::SumOver(Box::new(product([at(Area, "i"), at(CentroidHeight, "i")]))),
                    Expression::SumOver(Box::new(at(Area, "i"))),
                ),
            ]),
        ),
        (
            "second moment of two parts",
            equal([
                s(SecondMoment),
                sum([
                    over(product([at(Breadth, "1"), power(at(Height, "1"), 3)]), number(12.0)),
                    product([
                        at(Area, "1"),
                        power(Expression::Sum(vec![s(CentroidHeight), minus(at(CentroidHeight, "1"))]), 2),
                    ]),
                ]),
            ]),
        ),
        (
            "moments about A",
            equal([
                number(0.0),
                sum([
                    product([at(Reaction, "B"), s(Length)]),
                    minus(product([at(PointForce, "1"), s(Distance)])),
                    minus(sum([at(Couple, "1"), at(Couple, "2")])),
                ]),
            ]),
        ),
        (
            "a negative value in a sum",
            equal([s(ShearForce), sum([force(-4.0e3), force(-3.0e3), minus(force(-2.0e3))])]),
        ),
        (
            "a negative value in a product",
            equal([s(BendingMoment), product([force(-3.0e3), number(2.0), s(Length)])]),
        ),
        (
            "a limit",
            Expression::LimitToZero {
                variable: Box::new(s(SliceLength)),
                body: Box::new(over(s(ForceOnCut), product([s(WidthAtCut), s(SliceLength)]))),
            },
        ),
        (
            "a function",
            equal([
                of(s(ShearForce), s(Station)),
                sum([at(Reaction, "A"), minus(product([s(SpreadLoad), s(Station)]))]),
            ]),
        ),
        ("a function of a value", of(s(BendingMoment), value(1.5, Dimension::LENGTH, Station))),
        ("a root", equal([s(RadiusOfGyration), Expression::Root(Box::new(over(s(SecondMoment), s(Area))))])),
        (
            "a size",
            equal([s(ShearForce), Expression::Absolute(Box::new(sum([s(Length), minus(s(Station))])))]),
        ),
        (
            "powers",
            sum([
                power(s(CutDistance), 2),
                power(mm(20.0), 3),
                power(s(Length), -1),
                power(minus(s(Length)), 2),
            ]),
        ),
        (
            "fractions in a sum",
            sum([over(s(Length), number(2.0)), minus(over(s(Station), s(Length))), number(1.5)]),
        ),
        (
            "a unit with a slash below the bar",
            over(force(5.0e3), value(20.0e3, Dimension::FORCE_PER_LENGTH, SpreadLoad)),
        ),
        ("a fraction of fractions", over(over(s(ShearForce), s(Area)), over(s(Length), number(2.0)))),
        (
            "a number before a letter",
            product([number(2.0), s(ShearForce), number(3.0), at(Breadth, "flange")]),
        ),
        ("an integral before a factor", product([integral(None, s(BendingStress), s(Area)), s(Length)])),
        (
            "words",
            Expression::Sum(vec![
                s(ShearForce),
                Expression::Words("at the \"left\" $end$ #x {}\\ & <b> 50 %".into()),
            ]),
        ),
        ("a long index", at(Breadth, "plank 1, top_#")),
        ("a given value", Expression::Given(Quantity::new(12.5e3, Dimension::FORCE), PointForce)),
        ("an angle", Expression::Quantity(Quantity::new(0.00123, Dimension::NONE), Slope)),
        ("nothing", sum([])),
        ("no factor", product([])),
        ("no link", equal([])),
    ]
}

const ROLES: [Role; 14] = [
    Role::ShearForce,
    Role::BendingMoment,
    Role::FirstMoment,
    Role::SecondMoment,
    Role::WidthAtCut,
    Role::AreaBeyond,
    Role::CentroidBeyond,
    Role::SliceLength,
    Role::Station,
    Role::PointForce,
    Role::Breadth,
    Role::ShearStress,
    Role::Slope,
    Role::FastenerCapacity,
];

/// Random formulas with awkward names and values.
pub fn random() -> impl Strategy<Value = Expression> {
    let role = (0..ROLES.len()).prop_map(|place| ROLES[place]);
    let quantity = (any::<f64>(), -1_i8..3, -4_i8..5)
        .prop_map(|(value, mass, length)| Quantity::new(value, Dimension::of(mass, length, -2 * mass)));
    let leaf = prop_oneof![
        any::<f64>().prop_map(Expression::Number),
        (0_u8..20).prop_map(|whole| Expression::Number(f64::from(whole))),
        role.clone().prop_map(|role| Expression::Symbol(Symbol::plain(role))),
        (role.clone(), any::<String>())
            .prop_map(|(role, index)| Expression::Symbol(Symbol::indexed(role, index))),
        (quantity.clone(), role.clone()).prop_map(|(quantity, role)| Expression::Quantity(quantity, role)),
        (quantity, role).prop_map(|(quantity, role)| Expression::Given(quantity, role)),
        any::<String>().prop_map(Expression::Words),
    ];
    leaf.prop_recursive(5, 40, 4, |inner| {
        let one = inner.clone().prop_map(Box::new);
        let many = prop::collection::vec(inner, 0..4);
        prop_oneof![
            one.clone().prop_map(Expression::Negative),
            many.clone().prop_map(Expression::Sum),
            many.clone().prop_map(Expression::Product),
            (one.clone(), one.clone()).prop_map(|(above, below)| Expression::Quotient(above, below)),
            (one.clone(), any::<i8>()).prop_map(|(base, power)| Expression::Power(base, power)),
            one.clone().prop_map(Expression::Root),
            one.clone().prop_map(Expression::Absolute),
            one.clone().prop_map(Expression::Differential),
            (one.clone(), one.clone()).prop_map(|(function, argument)| Expression::Of(function, argument)),
            (prop::option::of(one.clone()), one.clone(), one.clone())
                .prop_map(|(over, integrand, by)| Expression::Integral { over, integrand, by }),
            one.clone().prop_map(Expression::SumOver),
            (one.clone(), one).prop_map(|(variable, body)| Expression::LimitToZero { variable, body }),
            many.clone().prop_map(Expression::Equal),
            many.prop_map(Expression::About),
        ]
    })
}
