//! A tree of elements, and its print in either version.
//!
//! The tree is in the words of version 2.1. Version 3.0 has other names for the same things: each element of QTI is called
//! `qti-` and its words with hyphens between, each of its attributes likewise; HTML and MathML stay as they are. So
//! there is one writer of items, and the two versions cannot differ in what they say.

use crate::fault::Fault;
use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesEnd, BytesStart, BytesText, Event};

/// A version of QTI.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Version {
    /// 2.1 of 2012, which converters and older platforms read.
    #[default]
    Qti21,
    /// 3.0 of 2022, which new players read.
    Qti30,
}

/// Whose element it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Vocabulary {
    /// QTI's own, in the words of version 2.1.
    Qti,
    /// XHTML, without a prefix within QTI.
    Html,
    /// MathML.
    Math,
    /// The manifest of a package.
    Packaging,
}

#[derive(Clone, Debug, PartialEq)]
pub(super) struct Element {
    pub vocabulary: Vocabulary,
    pub name: String,
    pub attributes: Vec<(String, String)>,
    pub children: Vec<Node>,
}

#[derive(Clone, Debug, PartialEq)]
pub(super) enum Node {
    Element(Element),
    Text(String),
}

impl From<Element> for Node {
    fn from(element: Element) -> Self {
        Self::Element(element)
    }
}

/// An element of QTI.
pub(super) fn qti(name: &str) -> Element {
    Element::new(Vocabulary::Qti, name)
}

/// An element of XHTML.
pub(super) fn html(name: &str) -> Element {
    Element::new(Vocabulary::Html, name)
}

/// An element of a manifest.
pub(super) fn packaging(name: &str) -> Element {
    Element::new(Vocabulary::Packaging, name)
}

impl Element {
    pub fn new(vocabulary: Vocabulary, name: &str) -> Self {
        Self { vocabulary, name: name.to_owned(), attributes: Vec::new(), children: Vec::new() }
    }

    pub fn with(mut self, attribute: &str, value: impl ToString) -> Self {
        self.attributes.push((attribute.to_owned(), value.to_string()));
        self
    }

    pub fn text(mut self, text: impl ToString) -> Self {
        self.children.push(Node::Text(text.to_string()));
        self
    }

    pub fn child(mut self, child: Element) -> Self {
        self.children.push(child.into());
        self
    }

    pub fn children(mut self, children: impl IntoIterator<Item = Element>) -> Self {
        self.children.extend(children.into_iter().map(Node::Element));
        self
    }

    pub fn nodes(mut self, nodes: &[Node]) -> Self {
        self.children.extend_from_slice(nodes);
        self
    }
}

/// A whole XML file with the element at its root, in the given namespace.
pub(super) fn file(root: &Element, namespace: &str, version: Version) -> Result<Vec<u8>, Fault> {
    let mut writer = Writer::new(Vec::new());
    let declared = writer
        .write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))
        .and_then(|()| write(&mut writer, root, Some(namespace), version));
    match declared {
        Ok(()) => Ok(writer.into_inner()),
        Err(error) => Err(Fault::of_file(format!("the package cannot be written: {error}"), "report this")),
    }
}

fn write(
    writer: &mut Writer<Vec<u8>>,
    element: &Element,
    namespace: Option<&str>,
    version: Version,
) -> std::io::Result<()> {
    let renamed = element.vocabulary == Vocabulary::Qti && version == Version::Qti30;
    let name = if renamed { format!("qti-{}", hyphened(&element.name)) } else { element.name.clone() };
    let mut start = BytesStart::new(name.as_str());
    let namespace = match (element.vocabulary, element.name.as_str()) {
        (Vocabulary::Math, "math") => Some("http://www.w3.org/1998/Math/MathML"),
        _ => namespace,
    };
    if let Some(namespace) = namespace {
        start.push_attribute(("xmlns", namespace));
    }
    // 2.1 has no attributes of WAI-ARIA, 3.0 has them on everything that is answered.
    let known = |attribute: &str| version == Version::Qti30 || !attribute.starts_with("aria-");
    for (attribute, value) in element.attributes.iter().filter(|(attribute, _)| known(attribute)) {
        let attribute = if renamed { hyphened(attribute) } else { attribute.clone() };
        start.push_attribute((attribute.as_str(), permitted(value).as_str()));
    }
    if element.children.is_empty() {
        return writer.write_event(Event::Empty(start));
    }
    writer.write_event(Event::Start(start))?;
    // The one place where the versions differ by more than names.
    let wrapped = renamed && element.name == "modalFeedback";
    if wrapped {
        writer.write_event(Event::Start(BytesStart::new("qti-content-body")))?;
    }
    for child in &element.children {
        match child {
            Node::Element(child) => write(writer, child, None, version)?,
            Node::Text(text) => writer.write_event(Event::Text(BytesText::new(&permitted(text))))?,
        }
    }
    if wrapped {
        writer.write_event(Event::End(BytesEnd::new("qti-content-body")))?;
    }
    writer.write_event(Event::End(BytesEnd::new(name)))
}

/// `textEntryInteraction` as `text-entry-interaction`.
fn hyphened(name: &str) -> String {
    let mut out = String::with_capacity(name.len() + 4);
    for c in name.chars() {
        if c.is_ascii_uppercase() {
            out.push('-');
        }
        out.push(c.to_ascii_lowercase());
    }
    out
}

/// The characters that XML 1.0 allows (its production 2), without the controls that it only tolerates.
fn permitted(text: &str) -> String {
    text.chars()
        .filter(|&c| (!c.is_control() || matches!(c, '\t' | '\n')) && !matches!(c, '\u{fffe}' | '\u{ffff}'))
        .collect()
}
