//! What must change in a drawing that is on the page already.
//!
//! The printer writes one element a line, and the marks that belong together in one group. Where an old and a new drawing
//! have the same elements in the same order, only attributes and words differ, and a list of them is far cheaper for a
//! browser than the whole drawing; where a group has other elements than before, that group is exchanged.

use serde::Serialize;

/// One change of one element.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(untagged)]
pub enum Change {
    /// The element at this place (in the order of the old file, runs of text not counted) has an attribute of another
    /// value.
    Attribute(usize, String, String),
    /// What stands inside the element is another.
    Inside(usize, String),
}

/// The changes that turn one drawing into the other; `None` where it must be exchanged as a whole.
pub fn difference(old: &str, new: &str) -> Option<Vec<Change>> {
    let (old, new): (Vec<&str>, Vec<&str>) = (old.lines().collect(), new.lines().collect());
    let mut changes = Vec::new();
    compare(&old, &new, 0, &mut changes)?;
    // An exchange of all that the drawing holds is one of the drawing.
    let whole = |change: &Change| matches!(change, Change::Inside(0, _)) && old.len() > 1;
    (!changes.iter().any(whole)).then_some(changes)
}

/// Compares two runs of elements of one level, the first of the old ones at `place`; `None` where they are not the same.
fn compare(old: &[&str], new: &[&str], mut place: usize, changes: &mut Vec<Change>) -> Option<()> {
    let (mut olds, mut news) = (old, new);
    while let (Some(was), Some(is)) = (olds.first(), news.first()) {
        let (old_length, new_length) = (length(olds)?, length(news)?);
        let ((element, rest), (new_element, new_rest)) =
            (olds.split_at_checked(old_length)?, news.split_at_checked(new_length)?);
        if element != new_element {
            if was != is {
                Element::read(was)?.changes_to(&Element::read(is)?, place, changes)?;
            }
            if let ([_, within @ .., _], [_, new_within @ .., _]) = (element, new_element) {
                let before = changes.len();
                if compare(within, new_within, place + 1, changes).is_none() {
                    changes.truncate(before);
                    changes.push(Change::Inside(place, format!("\n{}\n", new_within.join("\n"))));
                }
            } else if element.len() != new_element.len() {
                return None;
            }
        }
        place += element.iter().filter(|line| !line.starts_with("</")).count();
        (olds, news) = (rest, new_rest);
    }
    (olds.is_empty() && news.is_empty()).then_some(())
}

/// How many lines the element takes with which these lines begin; `None` where it does not end.
fn length(lines: &[&str]) -> Option<usize> {
    let mut depth = 0_usize;
    for (number, line) in lines.iter().enumerate() {
        if line.starts_with("</") {
            depth = depth.checked_sub(1)?;
        } else if !line.ends_with("/>") && !line.contains("</") {
            depth += 1;
        }
        if depth == 0 {
            return Some(number + 1);
        }
    }
    None
}

/// One element, taken apart.
pub(crate) struct Element<'a> {
    name: &'a str,
    attributes: Vec<(&'a str, &'a str)>,
    inside: &'a str,
}

impl<'a> Element<'a> {
    fn read(line: &'a str) -> Option<Self> {
        let line = line.strip_prefix('<')?;
        let (head, rest) = line.split_once('>')?;
        let inside = rest.rfind("</").map_or("", |end| &rest[..end]);
        Self::of_tag(head, inside)
    }

    /// An element by what stands between the brackets of its tag, and by what it holds.
    pub(crate) fn of_tag(head: &'a str, inside: &'a str) -> Option<Self> {
        let head = head.trim_end_matches('/');
        let (name, mut attributes) = head.split_once(' ').unwrap_or((head, ""));
        let mut list = Vec::new();
        while let Some((key, after)) = attributes.trim_start().split_once("=\"") {
            let (value, after) = after.split_once('"')?;
            list.push((key, value));
            attributes = after;
        }
        Some(Self { name, attributes: list, inside })
    }

    pub(crate) fn changes_to(&self, new: &Self, place: usize, changes: &mut Vec<Change>) -> Option<()> {
        if self.name != new.name || self.attributes.len() != new.attributes.len() {
            return None;
        }
        for ((key, was), (new_key, is)) in self.attributes.iter().zip(&new.attributes) {
            if key != new_key || (*key == "id" && was != is) {
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
    use super::{Change, difference};

    #[test]
    fn equal_drawings_need_nothing() {
        assert_eq!(difference("<g>\n</g>\n", "<g>\n</g>\n"), Some(Vec::new()));
    }

    #[test]
    fn only_what_differs_is_told_and_closing_lines_do_not_count() {
        let old = "<svg>\n<desc id=\"a\">1</desc>\n</svg>\n";
        let new = "<svg>\n<desc id=\"a\">2</desc>\n</svg>\n";
        assert_eq!(difference(old, new), Some(vec![Change::Inside(1, "2".into())]));
        let old = "<svg>\n<g id=\"a\">\n</g>\n<line x1=\"1\" y1=\"2\"/>\n<text x=\"1\">M <tspan>y</tspan></text>\n</svg>\n";
        let new = "<svg>\n<g id=\"a\">\n</g>\n<line x1=\"1\" y1=\"3\"/>\n<text x=\"1\">N</text>\n</svg>\n";
        let wanted = vec![Change::Attribute(2, "y1".into(), "3".into()), Change::Inside(3, "N".into())];
        assert_eq!(difference(old, new), Some(wanted));
    }

    #[test]
    fn another_element_asks_for_the_whole_drawing() {
        assert_eq!(difference("<line x1=\"1\"/>\n", "<circle r=\"1\"/>\n"), None);
        assert_eq!(difference("<line x1=\"1\"/>\n", "<line x1=\"1\"/>\n<g>\n"), None);
        assert_eq!(difference("<svg>\n<g id=\"a\">\n</g>\n</svg>\n", "<svg>\n</svg>\n"), None);
        assert_eq!(difference("<g id=\"a\">\n", "<g id=\"b\">\n"), None);
    }

    #[test]
    fn a_group_of_other_elements_is_exchanged_and_what_follows_keeps_its_old_place() {
        let old = "<svg>\n<g id=\"a\">\n<line x1=\"1\"/>\n</g>\n<g id=\"b\">\n<g id=\"c\">\n<line x1=\"2\"/>\n</g>\n</g>\n</svg>\n";
        let new = "<svg>\n<g id=\"a\">\n<line x1=\"1\"/>\n<text>n</text>\n</g>\n<g id=\"b\">\n<g id=\"c\">\n<line x1=\"3\"/>\n</g>\n</g>\n</svg>\n";
        let wanted = vec![
            Change::Inside(1, "\n<line x1=\"1\"/>\n<text>n</text>\n".into()),
            Change::Attribute(5, "x1".into(), "3".into()),
        ];
        assert_eq!(difference(old, new), Some(wanted));
    }

    #[test]
    fn an_attribute_is_given_as_a_script_sets_it() {
        let changes = difference("<a b=\"1\"/>\n", "<a b=\"&lt;&amp;lt;\"/>\n");
        assert_eq!(changes, Some(vec![Change::Attribute(0, "b".into(), "<&lt;".into())]));
    }
}
