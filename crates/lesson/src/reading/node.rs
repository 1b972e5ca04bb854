//! The file as the reader sees it: every value with its place, of the form that its key asks for.

use crate::lesson::ValueChoice;
use std::collections::HashMap;
use std::ops::Range;
use workings::quantity::Quantity;

/// A value that was given, with its place.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Given<T> {
    pub(crate) value: T,
    pub(crate) span: Range<usize>,
}

/// One value of the file.
#[derive(Debug)]
pub(crate) struct Node {
    /// The place of its key; of an entry of a list, its own.
    pub(crate) key: Range<usize>,
    /// Its place; of a table, that of its heading.
    pub(crate) span: Range<usize>,
    pub(crate) what: What,
}

/// What a value is.
#[derive(Debug)]
pub(crate) enum What {
    Table(Table),
    List(Vec<Node>),
    Text(String),
    YesNo(bool),
    Count(u32),
    Number(f64),
    Quantity(Quantity),
    Point([f64; 2]),
    Lengths(Vec<Given<f64>>),
    Names(Vec<Given<String>>),
    Choices(Vec<ValueChoice>),
    /// Something was wrong with it, and has been told.
    Bad,
}

/// A table of the file: what is known of it, in the order of the file.
#[derive(Debug, Default)]
pub(crate) struct Table {
    /// The place of its heading, or of the whole of it where it stands in braces.
    pub(crate) span: Range<usize>,
    entries: Vec<(String, Node)>,
    index: HashMap<String, usize>,
    /// Whether some key in it was refused, so that something that seems to be missing may have been meant by it.
    pub(crate) has_stranger: bool,
}

impl Table {
    pub(crate) fn new(span: Range<usize>) -> Self {
        Self { span, ..Self::default() }
    }

    pub(crate) fn insert(&mut self, word: String, node: Node) {
        self.index.insert(word.clone(), self.entries.len());
        self.entries.push((word, node));
    }

    pub(crate) fn get(&self, word: &str) -> Option<&Node> {
        self.index.get(word).and_then(|&at| self.entries.get(at)).map(|(_, node)| node)
    }

    /// Whether the key is there, be its value good or bad.
    pub(crate) fn has(&self, word: &str) -> bool {
        self.index.contains_key(word)
    }

    pub(crate) fn iter(&self) -> impl Iterator<Item = (&str, &Node)> {
        self.entries.iter().map(|(word, node)| (word.as_str(), node))
    }

    /// The place of a key's value, or else of the table.
    pub(crate) fn place(&self, word: &str) -> Range<usize> {
        self.get(word).map_or_else(|| self.span.clone(), |node| node.span.clone())
    }

    pub(crate) fn table(&self, word: &str) -> Option<&Table> {
        self.get(word)?.as_table()
    }

    /// The entries of a list that are tables; none where the key is not there.
    pub(crate) fn tables(&self, word: &str) -> impl Iterator<Item = &Table> {
        let nodes = match self.get(word).map(|node| &node.what) {
            Some(What::List(nodes)) => nodes.as_slice(),
            _ => &[],
        };
        nodes.iter().filter_map(Node::as_table)
    }

    /// Whether a list of tables was understood entry by entry.
    pub(crate) fn lists_tables(&self, word: &str) -> bool {
        match self.get(word).map(|node| &node.what) {
            Some(What::List(nodes)) => nodes.iter().all(|node| node.as_table().is_some()),
            _ => false,
        }
    }

    pub(crate) fn text(&self, word: &str) -> Option<Given<&str>> {
        let node = self.get(word)?;
        match &node.what {
            What::Text(text) => Some(node.given(text.as_str())),
            _ => None,
        }
    }

    pub(crate) fn owned_text(&self, word: &str) -> Option<String> {
        self.text(word).map(|given| given.value.to_owned())
    }

    /// The value of a quantity in SI, its dimension having been checked.
    pub(crate) fn value(&self, word: &str) -> Option<Given<f64>> {
        let node = self.get(word)?;
        match node.what {
            What::Quantity(quantity) => Some(node.given(quantity.value)),
            _ => None,
        }
    }

    /// Yes, or no where it says so or says nothing.
    pub(crate) fn yes(&self, word: &str) -> bool {
        matches!(self.get(word), Some(Node { what: What::YesNo(true), .. }))
    }

    pub(crate) fn count(&self, word: &str) -> Option<Given<u32>> {
        let node = self.get(word)?;
        match node.what {
            What::Count(count) => Some(node.given(count)),
            _ => None,
        }
    }

    pub(crate) fn number(&self, word: &str) -> Option<f64> {
        match self.get(word)?.what {
            What::Number(number) => Some(number),
            _ => None,
        }
    }

    pub(crate) fn point(&self, word: &str) -> Option<[f64; 2]> {
        match self.get(word)?.what {
            What::Point(point) => Some(point),
            _ => None,
        }
    }

    pub(crate) fn lengths(&self, word: &str) -> &[Given<f64>] {
        match self.get(word).map(|node| &node.what) {
            Some(What::Lengths(lengths)) => lengths,
            _ => &[],
        }
    }

    /// Whether a list of names was given and understood.
    pub(crate) fn is_list_of_names(&self, word: &str) -> bool {
        matches!(self.get(word).map(|node| &node.what), Some(What::Names(_)))
    }

    pub(crate) fn names(&self, word: &str) -> &[Given<String>] {
        match self.get(word).map(|node| &node.what) {
            Some(What::Names(names)) => names,
            _ => &[],
        }
    }

    pub(crate) fn choices(&self, word: &str) -> &[ValueChoice] {
        match self.get(word).map(|node| &node.what) {
            Some(What::Choices(choices)) => choices,
            _ => &[],
        }
    }
}

impl Node {
    fn given<T>(&self, value: T) -> Given<T> {
        Given { value, span: self.span.clone() }
    }

    fn as_table(&self) -> Option<&Table> {
        match &self.what {
            What::Table(table) => Some(table),
            _ => None,
        }
    }
}
