//! Levels of headings without gaps.

/// Hands out heading levels such that none skips a level: a reader who moves by headings would think that
/// something was lost, and PDF/UA-1 (ISO 14289-1, 7.4.2) forbids it.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Levels {
    last: u8,
}

impl Levels {
    /// The level for a heading that asks for `asked`; the first heading has level 1.
    pub(crate) fn next(&mut self, asked: u8) -> u8 {
        self.last = asked.clamp(1, 3).min(self.last + 1);
        self.last
    }
}
