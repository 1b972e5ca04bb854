//! What of the sheet can be seen now: only that follows a drag.

use serde::Deserialize;
use std::collections::BTreeSet;

/// Names of drawings and of other pieces, and `name/3` for the fourth block of a piece.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(transparent)]
pub struct Seen(BTreeSet<String>);

impl Seen {
    /// Whether anything of this drawing or piece can be seen.
    pub fn any(&self, piece: &str) -> bool {
        self.0.contains(piece)
            || self.0.range(format!("{piece}/")..).next().is_some_and(|name| is_block(name, piece))
    }

    /// Whether a block of a piece can be seen.
    pub fn block(&self, piece: &str, place: usize) -> bool {
        self.0.contains(piece) || self.0.contains(&format!("{piece}/{place}"))
    }

    /// Whether all of this can be seen of the other as well.
    pub fn within(&self, other: &Self) -> bool {
        self.0.is_subset(&other.0)
    }

    /// Adds what can be seen of another.
    pub fn add(&mut self, other: &Self) {
        self.0.extend(other.0.iter().cloned());
    }
}

impl<Name: Into<String>> FromIterator<Name> for Seen {
    fn from_iter<Names: IntoIterator<Item = Name>>(names: Names) -> Self {
        Self(names.into_iter().map(Into::into).collect())
    }
}

fn is_block(name: &str, piece: &str) -> bool {
    name.strip_prefix(piece).is_some_and(|rest| rest.starts_with('/'))
}

#[cfg(test)]
mod tests {
    use super::Seen;

    #[test]
    fn a_piece_is_seen_whole_or_by_its_blocks() {
        let seen: Seen = ["beam", "results/1", "results/12"].into_iter().collect();
        assert!(seen.any("beam") && seen.any("results") && !seen.any("result") && !seen.any("slice"));
        assert!(seen.block("beam", 7) && seen.block("results", 12) && !seen.block("results", 2));
    }
}
