//! What a student reads in an item: the blocks of a document as the part of XHTML that every version of QTI takes.

use super::element::{Element, Node, Vocabulary, html};
use crate::fault::Fault;
use document::html::fragment;
use document::tree::{Block, Inline};
use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};
use workings::style::Style;

/// Blocks of text with formulae, without drawings.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Passage(pub(super) Vec<Node>);

/// Words and formulae within a line.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Line(pub(super) Vec<Node>);

/// Elements within elements, deeper than any text goes.
const DEEPEST: usize = 100;

impl Passage {
    /// The blocks of a document.
    ///
    /// # Errors
    /// If there is a drawing among them: it goes into an item as a picture.
    pub fn of(blocks: &[Block], style: &Style) -> Result<Self, Fault> {
        Self::read(&fragment(blocks, style))
    }

    /// A piece of a page, as [`document::html::fragment`] makes it. What means nothing in QTI is left out: classes, ids and
    /// roles, and links that lead to no address.
    ///
    /// # Errors
    /// If it is not well-formed, or has elements that QTI 2.1 does not take.
    pub fn read(fragment: &str) -> Result<Self, Fault> {
        let mut blocks: Vec<Node> = Vec::new();
        let mut bare: Vec<Node> = Vec::new();
        for node in nodes(fragment)? {
            match node {
                Node::Element(element) if is_block(&element) => {
                    blocks.extend(paragraph(&mut bare));
                    blocks.push(element.into());
                }
                other => bare.push(other),
            }
        }
        blocks.extend(paragraph(&mut bare));
        Ok(Self(blocks))
    }

    /// One paragraph of plain words.
    pub fn words(words: &str) -> Self {
        Self(vec![html("p").text(words).into()])
    }

    /// Whether it says nothing.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl Line {
    /// A line of a document.
    ///
    /// # Errors
    /// None that is known: every line of a document is words and formulae.
    pub fn of(line: &[Inline], style: &Style) -> Result<Self, Fault> {
        let nodes = nodes(&fragment(&[Block::Paragraph(line.to_vec())], style))?;
        let paragraph = nodes.into_iter().find_map(|node| match node {
            Node::Element(element) => Some(element.children),
            Node::Text(_) => None,
        });
        Ok(Self(paragraph.unwrap_or_default()))
    }

    /// Plain words.
    pub fn words(words: &str) -> Self {
        Self(vec![Node::Text(words.to_owned())])
    }
}

/// The blocks of XHTML in QTI 2.1 (its information model, on the body of an item; from memory).
const BLOCKS: [&str; 16] = [
    "address",
    "blockquote",
    "div",
    "dl",
    "h1",
    "h2",
    "h3",
    "h4",
    "h5",
    "h6",
    "hr",
    "ol",
    "p",
    "pre",
    "table",
    "ul",
];

/// What stands within blocks there.
const PARTS: [&str; 33] = [
    "a", "abbr", "acronym", "b", "big", "br", "caption", "cite", "code", "col", "colgroup", "dd", "dfn",
    "dt", "em", "i", "kbd", "li", "q", "samp", "small", "span", "strong", "sub", "sup", "tbody", "td",
    "tfoot", "th", "thead", "tr", "tt", "var",
];

/// Blocks that HTML has and QTI 2.1 has not, and which say no more than that they are blocks.
const PLAIN_BLOCKS: [&str; 4] = ["article", "aside", "main", "section"];

/// What stands between two blocks as a block; nothing where there is only space.
fn paragraph(bare: &mut Vec<Node>) -> Option<Node> {
    let children = std::mem::take(bare);
    let says_nothing = |node: &Node| matches!(node, Node::Text(text) if text.trim().is_empty());
    (!children.iter().all(says_nothing)).then(|| Element { children, ..html("p") }.into())
}

fn is_block(element: &Element) -> bool {
    element.vocabulary == Vocabulary::Html && BLOCKS.contains(&element.name.as_str())
}

/// An attribute that means something in QTI 2.1.
fn is_kept(element: &str, attribute: &str, value: &str) -> bool {
    match (element, attribute) {
        ("a", "href") => ["http://", "https://", "mailto:"].iter().any(|scheme| value.starts_with(scheme)),
        ("td" | "th", "colspan" | "rowspan" | "scope") => true,
        _ => false,
    }
}

fn nodes(fragment: &str) -> Result<Vec<Node>, Fault> {
    let broken = |error: String| {
        Fault::of_file(
            format!("this piece of a page is not well-formed: {error}"),
            "close every element that is opened",
        )
    };
    let mut reader = Reader::from_str(fragment);
    let mut open: Vec<Element> = Vec::new();
    let mut done: Vec<Node> = Vec::new();
    loop {
        let event = reader.read_event().map_err(|error| broken(error.to_string()))?;
        let finished = match event {
            Event::Eof => break,
            Event::Start(start) => {
                if open.len() >= DEEPEST {
                    return Err(broken("its elements stand too deep within one another".to_owned()));
                }
                open.push(element(&start, &open)?);
                continue;
            }
            Event::Empty(start) => Node::Element(element(&start, &open)?),
            Event::End(_) => match open.pop() {
                Some(element) => Node::Element(element),
                None => return Err(broken("an element ends that did not begin".to_owned())),
            },
            Event::Text(text) => Node::Text(text.xml10_content().into_owned()),
            Event::CData(text) => Node::Text(text.xml10_content().into_owned()),
            Event::GeneralRef(reference) => {
                let named = quick_xml::escape::resolve_xml_entity(&reference).map(str::to_owned);
                let character = reference.resolve_char_ref().map_err(|error| broken(error.to_string()))?;
                match named.or(character.map(String::from)) {
                    Some(text) => Node::Text(text),
                    None => return Err(broken("a name between & and ; that XML does not know".to_owned())),
                }
            }
            Event::Comment(_) | Event::Decl(_) | Event::PI(_) | Event::DocType(_) => continue,
        };
        let siblings = open.last_mut().map_or(&mut done, |element| &mut element.children);
        match (siblings.last_mut(), finished) {
            (Some(Node::Text(before)), Node::Text(text)) => before.push_str(&text),
            // A link that leads nowhere is its words.
            (_, Node::Element(link)) if link.name == "a" && link.attributes.is_empty() => {
                siblings.extend(link.children);
            }
            (_, finished) => siblings.push(finished),
        }
    }
    match open.last() {
        Some(element) => Err(broken(format!("<{}> does not end", element.name))),
        None => Ok(done),
    }
}

fn element(start: &BytesStart<'_>, open: &[Element]) -> Result<Element, Fault> {
    let name = start.name().as_ref().to_owned();
    let within_math = open.last().is_some_and(|outer| outer.vocabulary == Vocabulary::Math);
    let mut element = match name.as_str() {
        "math" => Element::new(Vocabulary::Math, "math"),
        _ if within_math => Element::new(Vocabulary::Math, &name),
        name if BLOCKS.contains(&name) || PARTS.contains(&name) => html(name),
        name if PLAIN_BLOCKS.contains(&name) => html("div"),
        _ => {
            let what = format!("<{name}> is no element that every reader of QTI takes");
            return Err(Fault::of_file(
                what,
                "write it in paragraphs, lists and tables; add drawings as pictures",
            ));
        }
    };
    for attribute in start.attributes() {
        let refused = |error: String| {
            Fault::of_file(format!("an attribute of <{name}> cannot be read: {error}"), "write it again")
        };
        let attribute = attribute.map_err(|error| refused(error.to_string()))?;
        let value = attribute.normalized_value(quick_xml::XmlVersion::Explicit1_0);
        let value = value.map_err(|error| refused(error.to_string()))?;
        let key = attribute.key.as_ref();
        let kept = match element.vocabulary {
            Vocabulary::Math => !key.starts_with("xmlns") && !matches!(key, "id" | "class" | "style"),
            _ => is_kept(&element.name, key, &value),
        };
        if kept {
            element = element.with(key, value);
        }
    }
    Ok(element)
}
