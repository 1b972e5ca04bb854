//! What must change in a drawing that is on the page already.
//!
//! The printer writes one element a line. Where an old and a new drawing have the same elements in the same order, only
//! attributes and words differ, and a list of them is far cheaper for a browser than the whole drawing.

use serde::Serialize;

/// One change of one element.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(untagged)]
pub enum Change {
    /// The element at this place (in the order of the file, runs of text not counted) has an attribute of another value.
    Attribute(usize, String, String),
    /// What stands inside the element is another.
    Inside(usize, String),
}

/// The changes that turn one drawing into the other; `None` where the elements are not the same.
pub fn difference(old: &str, new: &str) -> Option<Vec<Change>> {
    let mut changes = Vec::new();
    let (mut olds, mut news) = (old.lines(), new.lines());
    let mut place = 0;
    loop {
        let (was, is) = match (olds.next(), news.next()) {
            (None, None) => return Some(changes),
            (was, is) => (was?, is?),
        };
        let closing = is.starts_with("</");
        if was != is {
            let (was, is) = (Element::read(was)?, Element::read(is)?);
            was.changes_to(&is, place, &mut changes)?;
        }
        if !closing {
            place += 1;
        }
    }
}

/// The blocks of a text that are others now, each with its place among all, as HTML: an equation, a paragraph. `None`
/// where the text has not one block a line, or another number of them.
pub fn other_blocks(old: &str, new: &str) -> Option<Vec<(usize, String)>> {
    let mut others = Vec::new();
    let (mut olds, mut news) = (old.lines(), new.lines());
    for place in 0.. {
        let (was, is) = match (olds.next(), news.next()) {
            (None, None) => break,
            (was, is) => (was?, is?),
        };
        if !(is_block(was) && is_block(is)) {
            return None;
        }
        if was != is {
            others.push((place, is.to_owned()));
        }
    }
    Some(others)
}

/// Whether a line is one element from end to end.
fn is_block(line: &str) -> bool {
    let Some(start) = line.strip_prefix('<') else { return false };
    let name = start.split([' ', '>']).next().unwrap_or_default();
    let mut depth = 0_usize;
    let mut tags = line.split('<').skip(1).peekable();
    while let Some(tag) = tags.next() {
        let closes = tag.strip_prefix('/').and_then(|tag| tag.strip_prefix(name));
        if closes.is_some_and(|rest| rest.starts_with('>')) {
            depth = depth.saturating_sub(1);
        } else if tag
            .strip_prefix(name)
            .is_some_and(|rest| rest.starts_with([' ', '>']) && !rest.ends_with("/>"))
        {
            depth += 1;
        }
        if depth == 0 {
            return tags.peek().is_none() && tag.ends_with('>');
        }
    }
    false
}

/// One line of a drawing, taken apart.
struct Element<'a> {
    name: &'a str,
    attributes: Vec<(&'a str, &'a str)>,
    inside: &'a str,
}

impl<'a> Element<'a> {
    fn read(line: &'a str) -> Option<Self> {
        let line = line.strip_prefix('<')?;
        let (head, rest) = line.split_once('>')?;
        let head = head.trim_end_matches('/');
        let (name, mut attributes) = head.split_once(' ').unwrap_or((head, ""));
        let mut list = Vec::new();
        while let Some((key, after)) = attributes.trim_start().split_once("=\"") {
            let (value, after) = after.split_once('"')?;
            list.push((key, value));
            attributes = after;
        }
        let inside = rest.rfind("</").map_or("", |end| &rest[..end]);
        Some(Self { name, attributes: list, inside })
    }

    fn changes_to(&self, new: &Self, place: usize, changes: &mut Vec<Change>) -> Option<()> {
        if self.name != new.name || self.attributes.len() != new.attributes.len() {
            return None;
        }
        for ((key, was), (new_key, is)) in self.attributes.iter().zip(&new.attributes) {
            if key != new_key || key.starts_with("id") {
                return None;
            }
            if was != is {
                changes.push(Change::Attribute(place, (*key).to_owned(), plain(is)));
            }
        }
        if self.inside != new.inside {
            changes.push(Change::Inside(place, new.inside.to_owned()));
        }
        Some(())
    }
}

/// An attribute's value as a script sets it: without the escapes of the file.
fn plain(value: &str) -> String {
    if !value.contains('&') {
        return value.to_owned();
    }
    value
        .replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&quot;", "\"")
        .replace("&#39;", "'")
        .replace("&amp;", "&")
}

#[cfg(test)]
mod tests {
    use super::{Change, difference, other_blocks};

    #[test]
    fn equal_drawings_need_nothing() {
        assert_eq!(difference("<g>\n</g>\n", "<g>\n</g>\n"), Some(Vec::new()));
    }

    #[test]
    fn only_what_differs_is_told_and_closing_lines_do_not_count() {
        let old = "<svg>\n<g id=\"a\">\n</g>\n<line x1=\"1\" y1=\"2\"/>\n<text x=\"1\">M <tspan>y</tspan></text>\n</svg>\n";
        let new = "<svg>\n<g id=\"a\">\n</g>\n<line x1=\"1\" y1=\"3\"/>\n<text x=\"1\">N</text>\n</svg>\n";
        let wanted = vec![Change::Attribute(2, "y1".into(), "3".into()), Change::Inside(3, "N".into())];
        assert_eq!(difference(old, new), Some(wanted));
    }

    #[test]
    fn another_element_asks_for_the_whole_drawing() {
        assert_eq!(difference("<line x1=\"1\"/>\n", "<circle r=\"1\"/>\n"), None);
        assert_eq!(difference("<line x1=\"1\"/>\n", "<line x1=\"1\"/>\n<g>\n"), None);
        assert_eq!(difference("<g id=\"a\">\n", "<g id=\"b\">\n"), None);
    }

    #[test]
    fn of_a_text_only_the_blocks_that_differ_are_told() {
        let old = "<p>The <b>slice</b>.</p>\n<div class=\"a\"><div>V = 1</div></div>\n";
        let new = "<p>The <b>slice</b>.</p>\n<div class=\"a\"><div>V = 2</div></div>\n";
        let wanted = vec![(1, "<div class=\"a\"><div>V = 2</div></div>".to_owned())];
        assert_eq!(other_blocks(old, new), Some(wanted));
        assert_eq!(other_blocks(old, old), Some(Vec::new()));
    }

    #[test]
    fn a_text_of_other_blocks_or_of_blocks_over_several_lines_is_exchanged_as_a_whole() {
        assert_eq!(other_blocks("<p>a</p>\n", "<p>a</p>\n<p>b</p>\n"), None);
        assert_eq!(other_blocks("<ul>\n<li>a</li>\n</ul>\n", "<ul>\n<li>b</li>\n</ul>\n"), None);
        assert_eq!(other_blocks("<p>a</p><p>b</p>\n", "<p>a</p><p>c</p>\n"), None);
        assert_eq!(other_blocks("a\n", "b\n"), None);
    }

    #[test]
    fn an_attribute_is_given_as_a_script_sets_it() {
        let changes = difference("<a b=\"1\"/>\n", "<a b=\"&lt;&amp;lt;\"/>\n");
        assert_eq!(changes, Some(vec![Change::Attribute(0, "b".into(), "<&lt;".into())]));
    }
}
