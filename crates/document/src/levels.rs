//! Levels of headings without gaps.

/// Hands out heading levels such that none skips a level: a reader who moves by headings would think that
/// something was lost, and PDF/UA-1 (ISO 14289-1, 7.4.2) forbids it.
#[derive(Clone, Debug, Default)]
pub(crate) struct Levels {
    /// The open headings, outermost first, by the level that each asked for; a heading's own level is its place.
    open: Vec<u8>,
}

impl Levels {
    /// The level for a heading that asks for `asked`, 1 to 3: one more than that of the heading that it stands under.
    pub(crate) fn next(&mut self, asked: u8) -> u8 {
        let asked = asked.clamp(1, 3);
        while self.open.last().is_some_and(|&last| last >= asked) {
            self.open.pop();
        }
        self.open.push(asked);
        // At most three are open, each asking for more than the one before.
        self.open.len() as u8
    }
}

#[cfg(test)]
mod tests {
    use super::Levels;

    #[test]
    fn like_headings_have_like_levels_and_none_skips_one() {
        let mut levels = Levels::default();
        let got: Vec<u8> =
            [3, 1, 3, 3, 2, 3, 1, 2, 2, 9].into_iter().map(|asked| levels.next(asked)).collect();
        assert_eq!(got, [1, 1, 2, 2, 2, 3, 1, 2, 2, 3]);
    }
}
