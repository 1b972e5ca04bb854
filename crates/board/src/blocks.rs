//! What must change in a text that is on the page already: which of its blocks, and what within them.

use crate::difference::{Change, Element};
use serde::Serialize;

/// A run of blocks of a text that is another now: where it begins among the old ones, how many it was, and what stands
/// there, as HTML with the ends of its lines.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Splice(pub usize, pub usize, pub String);

/// A block that keeps its elements, and what changes in them, by their places in the block, itself at 0.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Rewording(pub usize, pub Vec<Change>);

/// What changes in a text: blocks that keep their elements, and runs of blocks that are exchanged. The places of both are
/// those among the old blocks.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Blocks {
    /// Blocks in which only words and attributes are others now.
    pub reworded: Vec<Rewording>,
    /// Blocks that are exchanged.
    pub exchanged: Vec<Splice>,
}

impl Blocks {
    /// Whether nothing changes.
    pub fn is_empty(&self) -> bool {
        self.reworded.is_empty() && self.exchanged.is_empty()
    }

    /// Notes that the block at a place is another now, both given as one line without its end.
    pub fn note(&mut self, place: usize, was: &str, is: &str) {
        match reworded(was, is) {
            Some(changes) => self.reworded.push(Rewording(place, changes)),
            None => self.exchanged.push(Splice(place, 1, format!("{is}\n"))),
        }
    }
}

/// The blocks of a text that are others now: an equation, a paragraph. `None` where the text has not one block a line,
/// or another number of them.
pub fn other_blocks(old: &str, new: &str) -> Option<Blocks> {
    let mut others = Blocks::default();
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
            others.note(place, was, is);
        }
    }
    Some(others)
}

/// The words and attributes that turn one line of elements into another; `None` where they have other elements, or words
/// beside elements that are others now.
///
/// For a browser to read an equation anew costs far more than to set the numbers in it.
fn reworded(old: &str, new: &str) -> Option<Vec<Change>> {
    let mut changes = Vec::new();
    let mut place = 0;
    let (mut olds, mut news) =
        (old.strip_prefix('<')?.split('<').peekable(), new.strip_prefix('<')?.split('<'));
    loop {
        let (was, is) = match (olds.next(), news.next()) {
            (None, None) => return Some(changes),
            (was, is) => (was?, is?),
        };
        let closes = was.starts_with('/');
        if was != is {
            let ((tag, words), (new_tag, new_words)) = (was.split_once('>')?, is.split_once('>')?);
            let leaf =
                !closes && !tag.ends_with('/') && olds.peek().is_some_and(|next| next.starts_with('/'));
            if (words != new_words && !leaf) || (closes && tag != new_tag) {
                return None;
            }
            Element::of_tag(tag, words)?.changes_to(
                &Element::of_tag(new_tag, new_words)?,
                place,
                &mut changes,
            )?;
        }
        place += usize::from(!closes);
    }
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

#[cfg(test)]
mod tests {
    use super::{Blocks, Rewording, Splice, other_blocks};
    use crate::difference::Change;

    #[test]
    fn of_a_block_with_the_same_elements_only_words_and_attributes_are_told() {
        let old = "<p>The <b>slice</b>.</p>\n<div class=\"a\"><m alt=\"V is 1\"><i>V</i><o>=</o><n>1</n></m></div>\n";
        let new = "<p>The <b>slice</b>.</p>\n<div class=\"a\"><m alt=\"V is 2\"><i>V</i><o>=</o><n>2</n></m></div>\n";
        let changes =
            vec![Change::Attribute(1, "alt".into(), "V is 2".into()), Change::Inside(4, "2".into())];
        let wanted = Blocks { reworded: vec![Rewording(1, changes)], exchanged: Vec::new() };
        assert_eq!(other_blocks(old, new), Some(wanted));
        assert_eq!(other_blocks(old, old), Some(Blocks::default()));
    }

    #[test]
    fn a_block_with_other_elements_or_with_other_words_beside_them_is_exchanged() {
        for (old, new) in [
            ("<p>a</p>", "<p>a<b>b</b></p>"),
            ("<p>a<b>b</b></p>", "<p>c<b>b</b></p>"),
            ("<p><b>b</b>a</p>", "<p><b>b</b>c</p>"),
            ("<p><b>b</b></p>", "<p><i>b</i></p>"),
            ("<p a=\"1\">b</p>", "<p b=\"1\">b</p>"),
            ("<p><br/>a</p>", "<p><br/>b</p>"),
        ] {
            let wanted = Blocks { reworded: Vec::new(), exchanged: vec![Splice(0, 1, format!("{new}\n"))] };
            assert_eq!(other_blocks(old, new), Some(wanted), "{old}");
        }
    }

    #[test]
    fn a_text_of_other_blocks_or_of_blocks_over_several_lines_is_exchanged_as_a_whole() {
        assert_eq!(other_blocks("<p>a</p>\n", "<p>a</p>\n<p>b</p>\n"), None);
        assert_eq!(other_blocks("<ul>\n<li>a</li>\n</ul>\n", "<ul>\n<li>b</li>\n</ul>\n"), None);
        assert_eq!(other_blocks("<p>a</p><p>b</p>\n", "<p>a</p><p>c</p>\n"), None);
        assert_eq!(other_blocks("a\n", "b\n"), None);
    }
}
