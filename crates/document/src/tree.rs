//! The document tree: what notes, slides, papers, keys and reviews are before they are printed.
//!
//! The tree holds words, expressions and drawings, never markup: each printer escapes or transports them in its
//! own way, so nothing that a lecturer writes can break or inject anything.

use std::collections::BTreeSet;

use figure::drawing::Drawing;
use workings::expression::Expression;
use workings::quantity::Quantity;
use workings::role::Role;
use workings::style::Style;

/// The sheet that a document is made for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// ISO 216 A4, 210 mm by 297 mm.
    #[default]
    A4,
    /// US letter, 8.5 in by 11 in.
    UsLetter,
    /// A projected page, 16:9.
    Wide,
}

/// How large a document is printed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Print {
    /// As books are.
    #[default]
    Usual,
    /// For who needs large letters: 18 points throughout.
    Large,
}

/// A whole document.
#[derive(Clone, Debug)]
pub struct Document {
    /// Its title; shown, and written into the file's properties.
    pub title: String,
    /// What it is, above the title: `Lecture notes`. Empty for none.
    pub kind: String,
    /// The course; empty for none.
    pub course: String,
    /// Who made it; empty for none.
    pub author: String,
    /// A line under the title: the teaching point of the lesson, say. Empty for none.
    pub lead: Vec<Inline>,
    /// The language of its words, as a BCP 47 tag: `en`, `en-GB`.
    pub language: String,
    /// The sheet.
    pub paper: Paper,
    /// How large it is printed.
    pub print: Print,
    /// What stands on every page, so that a lost one finds back: whose it is, which paper. Empty for a document whose pages stay
    /// together; the others have their pages counted there too.
    pub running: Vec<String>,
    /// What tells this document from all others, for the identifier inside the file. Not shown.
    pub identity: String,
    /// Notation, units, figures and decimal mark of every number and symbol in it.
    pub style: Style,
    /// What it says.
    pub body: Vec<Block>,
}

/// A block of a document.
#[derive(Clone, Debug)]
pub enum Block {
    /// A heading, level 1 for a chapter under the document's title.
    Heading {
        /// 1, 2 or 3.
        level: u8,
        /// Its words.
        text: Vec<Inline>,
    },
    /// A paragraph.
    Paragraph(Vec<Inline>),
    /// A displayed equation.
    Equation(Equation),
    /// A drawing with its caption.
    Figure(Box<Figure>),
    /// A table.
    Table(Table),
    /// A list.
    List {
        /// Numbered, or with bullets.
        ordered: bool,
        /// Its items.
        items: Vec<Vec<Block>>,
    },
    /// The steps of an argument, in order, each with its own equations.
    Steps(Vec<Vec<Block>>),
    /// A box that stands out of the text.
    Callout(Callout),
    /// The lecturer's own words.
    Quote(Vec<Block>),
    /// Blocks side by side where the sheet is wide enough, with their shares of the width.
    Columns(Vec<(f64, Vec<Block>)>),
    /// Words with what each of them stands for, in two columns where there is room.
    Facts(Vec<Fact>),
    /// A question of a paper.
    Question(Question),
    /// Where one answer is written.
    Answer(Answer),
    /// What there is to choose from, each with a place for a tick.
    Choices(Choices),
    /// Room to work in.
    Room(Room),
    /// What follows begins a new page.
    PageBreak,
    /// A projected page that comes in steps.
    Slide(Slide),
}

impl Block {
    /// Every block within it, itself first, in reading order.
    pub fn each<'a>(&'a self, visit: &mut impl FnMut(&'a Block)) {
        visit(self);
        let all = |blocks: &'a [Block], visit: &mut _| blocks.iter().for_each(|block| block.each(visit));
        match self {
            Block::List { items, .. } | Block::Steps(items) => items.iter().for_each(|item| all(item, visit)),
            Block::Callout(callout) => all(&callout.body, visit),
            Block::Quote(inner) => all(inner, visit),
            Block::Columns(columns) => columns.iter().for_each(|(_, inner)| all(inner, visit)),
            Block::Question(question) => all(&question.body, visit),
            Block::Slide(slide) => {
                all(&slide.side, visit);
                slide.steps.iter().for_each(|step| all(step, visit));
            }
            Block::Heading { .. }
            | Block::Paragraph(_)
            | Block::Equation(_)
            | Block::Figure(_)
            | Block::Table(_)
            | Block::Facts(_)
            | Block::Answer(_)
            | Block::Choices(_)
            | Block::Room(_)
            | Block::PageBreak => {}
        }
    }
}

impl Document {
    /// The numbers of its equations: only to these may a reader be led.
    pub fn equation_numbers(&self) -> BTreeSet<&str> {
        let mut numbers = BTreeSet::new();
        for block in &self.body {
            block.each(&mut |block| {
                if let Block::Equation(Equation { number: Some(number), .. }) = block {
                    numbers.insert(number.as_str());
                }
            });
        }
        numbers
    }
}

/// A displayed equation: one row, or several rows aligned at their relation sign.
#[derive(Clone, Debug)]
pub struct Equation {
    /// Its rows; at least one.
    pub rows: Vec<Row>,
    /// The number that it is referred to by, without brackets; `None` for an equation without a number.
    pub number: Option<String>,
    /// How it is spoken; `None` to have it written from the expressions.
    pub speech: Option<String>,
}

/// What stands between the left and the right of a row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Relation {
    /// Equal.
    Equal,
    /// Equal after rounding.
    About,
    /// The row goes on with a further term of the sum above it.
    Plus,
    /// The row goes on with a further term, taken away from the sum above it.
    Minus,
}

/// A row of an equation.
#[derive(Clone, Debug)]
pub struct Row {
    /// Left of the relation; `None` where the row goes on from the one above it.
    pub left: Option<Expression>,
    /// The relation; `None` for a bare expression.
    pub relation: Option<Relation>,
    /// Right of the relation.
    pub right: Expression,
}

/// A drawing in its place.
#[derive(Clone, Debug)]
pub struct Figure {
    /// The drawing.
    pub drawing: Drawing,
    /// Its number; `None` for a drawing without one, as on a projected page.
    pub number: Option<u32>,
    /// Words under it.
    pub caption: Vec<Inline>,
}

/// How the cells of a column stand.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Alignment {
    /// At the left: words.
    #[default]
    Left,
    /// In the middle.
    Centre,
    /// At the right: numbers of like kind.
    Right,
}

/// A table with a header row.
#[derive(Clone, Debug)]
pub struct Table {
    /// What it shows.
    pub caption: Vec<Inline>,
    /// Its number; `None` for none.
    pub number: Option<u32>,
    /// One for each column.
    pub alignment: Vec<Alignment>,
    /// The header row, one cell a column.
    pub header: Vec<Vec<Inline>>,
    /// The rows, one cell a column.
    pub rows: Vec<Vec<Vec<Inline>>>,
    /// Whether the first cell of each row names the row.
    pub row_heads: bool,
    /// Whether the last row sums up the others.
    pub total: bool,
}

/// What a box that stands out of the text is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CalloutKind {
    /// The point to take away.
    Key,
    /// Something to know in passing.
    Note,
    /// Something that could hurt if it were passed over.
    Caution,
}

/// A box that stands out of the text.
#[derive(Clone, Debug)]
pub struct Callout {
    /// What it is for.
    pub kind: CalloutKind,
    /// Its heading.
    pub title: String,
    /// What it says.
    pub body: Vec<Block>,
}

/// A word with what it stands for: `Form` and `B`.
#[derive(Clone, Debug)]
pub struct Fact {
    /// The word.
    pub word: String,
    /// What it stands for; empty where that is to be written by hand.
    pub stands_for: Vec<Inline>,
}

/// A question of a paper, or a part of one. It is never parted from what it earns, nor from where its answer is written.
#[derive(Clone, Debug)]
pub struct Question {
    /// What it is called: `Question 3`, `(a)`.
    pub label: Vec<Inline>,
    /// What it earns, for the margin: `2 marks`; empty where its parts tell.
    pub marks: String,
    /// Whether it is a part of another.
    pub is_part: bool,
    /// What it asks, with its room and its answer.
    pub body: Vec<Block>,
}

/// Where one answer is written.
#[derive(Clone, Debug)]
pub struct Answer {
    /// Before the box: `tau =`.
    pub before: Vec<Inline>,
    /// Behind it: the unit.
    pub behind: Vec<Inline>,
    /// What is to be written there, for who cannot see the box: `shear stress on the cut, in megapascals`.
    pub spoken: String,
}

/// What there is to choose from.
#[derive(Clone, Debug)]
pub struct Choices {
    /// What is chosen, for who cannot see it.
    pub spoken: String,
    /// One line each.
    pub items: Vec<Vec<Inline>>,
}

/// Room to work in.
#[derive(Clone, Debug)]
pub struct Room {
    /// What it is for, for who cannot see it.
    pub spoken: String,
    /// How high it is in usual print, mm.
    pub height: f64,
}

/// A projected page: it is printed once for each step, with the later steps hidden.
#[derive(Clone, Debug)]
pub struct Slide {
    /// Its heading.
    pub title: Vec<Inline>,
    /// What comes with each step.
    pub steps: Vec<Vec<Block>>,
    /// A drawing at the side that is there from the first step.
    pub side: Vec<Block>,
}

/// Words and symbols within a line.
#[derive(Clone, Debug, PartialEq)]
pub enum Inline {
    /// Plain words.
    Text(String),
    /// Strong words.
    Strong(Vec<Inline>),
    /// Words with stress.
    Emphasis(Vec<Inline>),
    /// An expression.
    Math(Expression),
    /// A value with its unit, as the given role is shown.
    Quantity(Quantity, Role),
    /// A value that the lesson gives, with all its digits and none added.
    Given(Quantity, Role),
    /// Words of a file or a command.
    Code(String),
    /// A link.
    Link {
        /// Where it leads; `http`, `https` or `mailto`, nothing else.
        to: String,
        /// Its words.
        text: Vec<Inline>,
    },
    /// A file that is handed out beside this document; on paper its name only.
    File {
        /// Its name from the folder of this document, with `/` between folders.
        name: FileName,
        /// Its words.
        text: Vec<Inline>,
    },
    /// The number of an equation, in brackets, leading to it.
    EquationNumber(String),
    /// The end of a line.
    LineBreak,
}

/// The name of a file in the folder of a document or below it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileName(String);

impl FileName {
    /// A name of plain words, digits, hyphens and dots with `/` between folders; `None` for anything else, such as a
    /// name that leads out of the folder or to an address.
    pub fn new(name: &str) -> Option<Self> {
        let plain = |part: &str| {
            !part.is_empty()
                && !part.starts_with('.')
                && part.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.'))
        };
        name.split('/').all(plain).then(|| Self(name.to_owned()))
    }

    /// The name.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl Inline {
    /// Plain words.
    pub fn text(words: impl Into<String>) -> Self {
        Self::Text(words.into())
    }
}

impl From<&str> for Inline {
    fn from(words: &str) -> Self {
        Self::Text(words.to_owned())
    }
}

impl From<String> for Inline {
    fn from(words: String) -> Self {
        Self::Text(words)
    }
}

/// Plain words as a line.
pub fn words(words: impl Into<String>) -> Vec<Inline> {
    vec![Inline::Text(words.into())]
}

/// The words of a line without their markup, for names and alternative texts.
pub fn plain(line: &[Inline], style: &Style) -> String {
    let mut out = String::new();
    for inline in line {
        match inline {
            Inline::Text(words) | Inline::Code(words) => out.push_str(words),
            Inline::Strong(inner)
            | Inline::Emphasis(inner)
            | Inline::Link { text: inner, .. }
            | Inline::File { text: inner, .. } => {
                out.push_str(&plain(inner, style));
            }
            Inline::Math(expression) => out.push_str(&workings::print::plain(expression, style)),
            Inline::Quantity(quantity, role) => out.push_str(&style.text(*quantity, *role)),
            Inline::Given(quantity, role) => out.push_str(&style.given_text(*quantity, *role)),
            Inline::EquationNumber(number) => {
                out.push('(');
                out.push_str(number);
                out.push(')');
            }
            Inline::LineBreak => out.push(' '),
        }
    }
    out
}
