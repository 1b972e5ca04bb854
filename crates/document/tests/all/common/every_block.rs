//! A document with every kind of block, and words that try to break out of their place.

use document::tree::{
    Alignment, Answer, Block, Callout, CalloutKind, Choices, Document, Equation, Fact, Figure, Inline, Paper,
    Print, Question, Room, Slide, Table, words,
};
use figure::drawing::{Description, Drawing, Mark};
use figure::geometry::Point;
use figure::text::{Align, Label};
use workings::dimension::Dimension;
use workings::expression::Expression as E;
use workings::quantity::Quantity;
use workings::role::{Role, Symbol};
use workings::style::Style;

pub fn symbol(role: Role) -> E {
    E::Symbol(Symbol::plain(role))
}

/// tau = V Q / (I t)
pub fn shear_formula() -> E {
    let above = E::Product(vec![symbol(Role::ShearForce), symbol(Role::FirstMoment)]);
    let below = E::Product(vec![symbol(Role::SecondMoment), symbol(Role::WidthAtCut)]);
    E::Equal(vec![symbol(Role::ShearStress), E::Quotient(Box::new(above), Box::new(below))])
}

/// tau = V Q / (I t) = ... = 0.5 MPa
pub fn shear_worked() -> E {
    let q = |value, dimension, role| E::Quantity(Quantity::new(value, dimension), role);
    let above = E::Product(vec![
        q(7.0e3, Dimension::FORCE, Role::ShearForce),
        q(1.25e-3, Dimension::LENGTH_3, Role::FirstMoment),
    ]);
    let below = E::Product(vec![
        q(350e-6, Dimension::LENGTH_4, Role::SecondMoment),
        q(0.05, Dimension::LENGTH, Role::WidthAtCut),
    ]);
    let E::Equal(mut chain) = shear_formula() else { panic!("a chain") };
    chain.push(E::Quotient(Box::new(above), Box::new(below)));
    chain.push(q(0.5e6, Dimension::STRESS, Role::ShearStress));
    E::Equal(chain)
}

/// A balance with many loads.
pub fn long_balance(terms: usize) -> E {
    let term = |n: usize| {
        let arm = E::Quantity(Quantity::new(0.25 * n as f64, Dimension::LENGTH), Role::Station);
        let force = E::Quantity(Quantity::new(1.0e3 * n as f64, Dimension::FORCE), Role::PointForce);
        let product = E::Product(vec![force, arm]);
        if n.is_multiple_of(2) { E::Negative(Box::new(product)) } else { product }
    };
    E::Equal(vec![E::Symbol(Symbol::indexed(Role::Reaction, "B")), E::Sum((1..=terms).map(term).collect())])
}

pub fn drawing(words: &str) -> Drawing {
    let mut long = Description::new();
    long.sentence(words);
    long.list(vec!["one".into(), words.into()]);
    long.table("Values", &["station", "value"], vec![vec!["0 m".into(), words.into()]]);
    let marks = vec![Mark::group(
        "label",
        words,
        vec![Mark::text(Point::new(0.0, 0.0), Label::words(words), Align::Start)],
    )];
    Drawing::fitted("beam", "The beam", 8.0, 640.0, marks).described(format!("Beam: {words}"), long)
}

pub fn body(text: &str) -> Vec<Block> {
    let style = Style::default();
    let paragraph = |text: &str| Block::Paragraph(words(text));
    let figure = |number| {
        Block::Figure(Box::new(Figure { drawing: drawing(text), number: Some(number), caption: words(text) }))
    };
    vec![
        Block::Heading { level: 1, text: words(text) },
        Block::Paragraph(vec![
            text.into(),
            Inline::Strong(words(text)),
            Inline::Emphasis(words(text)),
            Inline::Math(shear_formula()),
            Inline::Math(E::Words(text.to_owned())),
            Inline::Math(E::Symbol(Symbol::indexed(Role::Reaction, text))),
            Inline::Quantity(Quantity::new(3500.0, Dimension::FORCE), Role::ShearForce),
            Inline::Code(text.to_owned()),
            Inline::Link { to: "https://example.org/?a=b&c".into(), text: words(text) },
            Inline::Link { to: "javascript:alert(1)".into(), text: words("not a link") },
            Inline::LineBreak,
            Inline::EquationNumber("1".into()),
            Inline::EquationNumber("99".into()),
        ]),
        figure(1),
        Block::Equation(Equation::of(&shear_worked(), &style).numbered("1")),
        Block::Equation(Equation::of(&long_balance(14), &style).numbered("2")),
        // A level is skipped on purpose.
        Block::Heading { level: 3, text: words("A part") },
        figure(2),
        Block::Table(Table {
            caption: words(text),
            number: Some(1),
            alignment: vec![Alignment::Left, Alignment::Right],
            header: vec![words("part"), vec![Inline::Math(symbol(Role::Area))]],
            rows: vec![vec![words(text), words("12")], vec![words("sum"), words("24")]],
            row_heads: true,
            total: true,
        }),
        Block::List {
            ordered: false,
            items: vec![vec![paragraph(text)], vec![paragraph("two"), paragraph("three")]],
        },
        Block::List { ordered: true, items: vec![vec![paragraph(text)]] },
        Block::Steps(vec![
            vec![paragraph(text), Block::Equation(Equation::of(&shear_formula(), &style))],
            vec![paragraph("then")],
        ]),
        Block::Callout(Callout { kind: CalloutKind::Key, title: text.into(), body: vec![paragraph(text)] }),
        Block::Callout(Callout { kind: CalloutKind::Note, title: text.into(), body: vec![paragraph(text)] }),
        Block::Callout(Callout {
            kind: CalloutKind::Caution,
            title: text.into(),
            body: vec![paragraph(text)],
        }),
        Block::Quote(vec![paragraph(text)]),
        Block::Columns(vec![(1.0, vec![paragraph(text)]), (1.0, vec![paragraph(text)])]),
        Block::Facts(vec![
            Fact { word: text.into(), stands_for: words(text) },
            Fact { word: text.into(), stands_for: Vec::new() },
        ]),
        question(text),
        Block::PageBreak,
        paragraph(text),
    ]
}

/// A question with two parts and everything in which a student answers.
pub fn question(text: &str) -> Block {
    let part =
        |body| Block::Question(Question { label: words(text), marks: text.into(), is_part: true, body });
    let before = vec![Inline::Math(symbol(Role::ShearStress)), " =".into(), text.into()];
    let answer = Answer { before, behind: words(text), spoken: text.into() };
    let choices = Choices { spoken: text.into(), items: vec![words(text), words("1")] };
    let parts = vec![
        Block::Paragraph(words(text)),
        part(vec![Block::Room(Room { spoken: text.into(), height: 20.0 }), Block::Answer(answer)]),
        part(vec![Block::Choices(choices)]),
    ];
    Block::Question(Question { label: words(text), marks: String::new(), is_part: false, body: parts })
}

pub fn sheet(text: &str, paper: Paper) -> Document {
    Document {
        title: text.into(),
        kind: "Lecture notes".into(),
        course: text.into(),
        author: text.into(),
        lead: words(text),
        language: "en-GB".into(),
        paper,
        print: Print::Usual,
        running: Vec::new(),
        identity: "a specimen".into(),
        style: Style::default(),
        body: body(text),
    }
}

pub fn slides(text: &str) -> Document {
    let blocks = body(text);
    let slide =
        |side: Vec<Block>, steps: Vec<Vec<Block>>| Block::Slide(Slide { title: words(text), side, steps });
    let figure = vec![blocks[2].clone()];
    Document {
        body: vec![
            slide(figure.clone(), vec![vec![blocks[3].clone()], vec![blocks[1].clone()]]),
            slide(Vec::new(), vec![figure, vec![blocks[3].clone()], Vec::new()]),
            slide(Vec::new(), Vec::new()),
        ],
        ..sheet(text, Paper::Wide)
    }
}

/// Words that are markup or code somewhere, or that no face has.
pub const HOSTILE: [&str; 14] = [
    "#read(\"/etc/passwd\") #panic()",
    "$x$ $ #let a = 1",
    "[Unal_*#1*] @ref <label> = heading - list / term: x",
    "</style></title><script>alert(1)</script><img src=x onerror=alert(1)>",
    "\"quoted\" 'single' & &amp; &lt; ]]> <!-- -->",
    "back\\slash \\u{41} \\# \\n",
    "// comment /* and */ `raw` ```lang``` ~ -- ---",
    "\u{202e}right to left\u{202c} \u{5d0}\u{5d1}\u{5d2} \u{627}\u{628}",
    "emoji \u{1f600} \u{1f468}\u{200d}\u{1f469}\u{200d}\u{1f467} \u{2764}\u{fe0f}",
    "\u{4e2d}\u{6587} \u{d55c}\u{ae00} \u{e000} \u{10ffff} \u{fdd0}",
    "control \u{0}\u{7}\u{1b}[31m \u{85} tab\tnew\nline \u{feff}",
    "combining e\u{301}\u{302}\u{303} \u{20dd} a\u{338}",
    "\u{65e0}",
    "x",
];
