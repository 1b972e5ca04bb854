//! Packages of a small lesson, for the tests here and for those that play them.
//!
//! The section: a flange of 120 by 30 mm on a web of 20 by 120 mm. By hand: centroid 105 mm above the foot, I = 11.25e6 mm4,
//! Q of the flange = 120 · 30 · 30 = 108e3 mm3, and on the joint t = 20 mm, so tau = V Q / (I t) = 0.48 MPa for each kN.

use document::tree::{Block, Equation, Inline, words};
use exchange::qti::{
    Alternative, Answer, Bounds, Choice, FollowThrough, Formula, Identifier, Item, Line, Marks, Mistake,
    Package, Passage, Picture, Value,
};
use workings::expression::Expression;
use workings::role::{Role, Symbol};
use workings::style::Style;

/// A name that is known to be one.
pub fn name(words: &str) -> Identifier {
    Identifier::new(words).expect("a name")
}

/// Bounds that are known to be some.
pub fn bounds(lower: f64, upper: f64) -> Bounds {
    Bounds::new(lower, upper).expect("bounds")
}

/// Marks that are known to be some.
pub fn marks(marks: f64) -> Marks {
    Marks::new(marks).expect("marks")
}

fn symbol(role: Role) -> Expression {
    Expression::Symbol(Symbol::plain(role))
}

fn math(expression: Expression) -> Line {
    Line::of(&[Inline::Math(expression)], &Style::default()).expect("a line")
}

/// A prompt with words that look like markup, a formula in the line and one displayed.
pub fn prompt(said: &str) -> Passage {
    let stress = symbol(Role::ShearForce) * symbol(Role::FirstMoment) / symbol(Role::SecondMoment);
    let flow = Expression::Equal(vec![symbol(Role::ShearFlow), stress]);
    let blocks = [
        Block::Paragraph(vec![
            Inline::text(format!("{said} Take ")),
            Inline::Math(symbol(Role::ShearForce)),
            Inline::text(" from the diagram & keep its sign; <b> is no markup."),
        ]),
        Block::Equation(Equation::of(&flow, &Style::default())),
        Block::List {
            ordered: false,
            items: vec![
                vec![Block::Paragraph(words("h = 150 mm"))],
                vec![Block::Paragraph(words("t = 20 mm"))],
            ],
        },
    ];
    Passage::of(&blocks, &Style::default()).expect("a passage")
}

/// One white point, as a PNG by its specification (ISO/IEC 15948): what matters here is the name of the file.
pub const POINT: &[u8] =
    b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\0\x01\0\0\0\x01\x08\0\0\0\0:~\x9bU\0\0\0\nIDATx\x9cc\xf8\x0f\0\x01\x01\x01\0\xb18\xf6\x14\0\0\0\0IEND\xaeB`\x82";

fn picture() -> Picture {
    Picture {
        name: name("section"),
        png: POINT.to_vec(),
        svg: "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"1\" height=\"1\"/>".to_owned(),
        alt: "A T-section: the \"flange\" & its web".to_owned(),
        description: Passage::words("The flange is 120 mm by 30 mm, the web 20 mm by 120 mm."),
    }
}

fn value(identifier: &str, label: Line, unit: &str, right: f64, bounds: Bounds) -> Value {
    Value {
        identifier: name(identifier),
        label,
        spoken: format!("{identifier}, in {unit}"),
        unit: Line::words(unit),
        right,
        bounds,
        also: Vec::new(),
        marks: marks(2.0),
        feedback: Passage::words("Right."),
        follow_through: None,
        mistakes: Vec::new(),
        otherwise: Passage::words("Not right: go through it once more."),
    }
}

fn mistake(bounds: Bounds, share: f64, said: &str) -> Mistake {
    Mistake { bounds, marks: marks(share), feedback: Passage::words(said) }
}

fn item(
    identifier: &str,
    title: &str,
    prompt: Passage,
    pictures: Vec<Picture>,
    answers: Vec<Answer>,
) -> Item {
    Item {
        identifier: name(identifier),
        title: title.to_owned(),
        language: "en".to_owned(),
        prompt,
        pictures,
        answers,
    }
}

/// A negative value: V = -25 kN, tau = -12 MPa, 1 % either way.
pub fn negative() -> Item {
    let tau = Value {
        mistakes: vec![
            mistake(bounds(11.88, 12.12), 1.0, "The sign is turned round."),
            mistake(bounds(-18.18, -17.82), 0.0, "That is 3V/(2A), for a rectangle."),
        ],
        ..value("tau", math(symbol(Role::ShearStress)), "MPa", -12.0, bounds(-12.12, -11.88))
    };
    item(
        "tau-on-the-cut",
        "Shear stress on the cut",
        prompt("Find the stress."),
        vec![picture()],
        vec![Answer::Value(tau)],
    )
}

/// A positive value.
pub fn positive() -> Item {
    let centroid = Value {
        mistakes: vec![mistake(bounds(74.5, 75.5), 0.0, "That is half the depth.")],
        ..value("centroid", Line::words("Centroid above the foot"), "mm", 105.0, bounds(104.5, 105.5))
    };
    item("centroid", "Centroid", prompt("Find the centroid."), Vec::new(), vec![Answer::Value(centroid)])
}

/// V, Q and t, and tau that follows from them: tau = V Q / (I t), in kN, 10^3 mm3, 10^6 mm4, mm and MPa.
pub fn chain() -> Item {
    let answer = |of: &str| Formula::Answer(name(of));
    let above = Formula::Product(vec![answer("V"), answer("Q")]);
    let below = Formula::Product(vec![Formula::Number(11.25), answer("t")]);
    let tau = Value {
        follow_through: Some(FollowThrough {
            expected: Formula::Quotient(Box::new(above), Box::new(below)),
            tolerance: 0.01,
            marks: marks(2.0),
            feedback: Passage::words("Right from your own earlier values."),
        }),
        mistakes: vec![mistake(bounds(11.4, 11.64), 0.0, "Half the thickness was taken.")],
        ..value("tau", math(symbol(Role::ShearStress)), "MPa", -5.76, bounds(-5.82, -5.7))
    };
    let answers = vec![
        Answer::Value(value("V", math(symbol(Role::ShearForce)), "kN", -12.0, bounds(-12.12, -11.88))),
        Answer::Value(Value {
            mistakes: vec![mistake(bounds(53.0, 55.0), 0.5, "That is half of the flange.")],
            ..value("Q", math(symbol(Role::FirstMoment)), "10³ mm³", 108.0, bounds(107.0, 109.0))
        }),
        Answer::Value(value("t", Line::words("Thickness"), "mm", 20.0, bounds(20.0, 20.0))),
        Answer::Value(tau),
    ];
    item("chain", "From V to tau", prompt("Go step by step."), Vec::new(), answers)
}

/// A question with three answers to choose from.
pub fn choice() -> Item {
    let alternative = |of: &str, text: &str, share: f64, said: &str| Alternative {
        identifier: name(of),
        text: Line::words(text),
        marks: marks(share),
        feedback: Passage::words(said),
    };
    let choice = Choice {
        identifier: name("where"),
        question: Line::words("Where is the shear stress largest?"),
        alternatives: vec![
            alternative("top", "At the top", 0.0, "There is nothing beyond the top."),
            alternative("axis", "At the neutral axis", 1.0, "Yes: Q is largest there."),
            alternative("joint", "At the joint", 0.5, "Large, but Q grows further down."),
        ],
    };
    item(
        "where",
        "Where it is largest",
        prompt("Look at the section."),
        Vec::new(),
        vec![Answer::Choice(choice)],
    )
}

/// All of them.
pub fn package() -> Package {
    Package {
        identifier: name("paper-1"),
        title: "Paper 1 <T-section> & \"joint\"".to_owned(),
        items: vec![negative(), positive(), chain(), choice()],
        left_out: None,
    }
}
