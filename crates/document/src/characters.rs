//! Characters that are not shown as they come.

/// Whether it only steers the direction of writing: inside a lecturer's text it could make a page read other than
/// it is written.
pub(crate) fn is_direction_control(c: char) -> bool {
    matches!(c, '\u{061c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// Whether nothing of these words would be seen or heard: blanks and what only steers.
pub(crate) fn is_silent(words: &str) -> bool {
    words.chars().all(|c| c.is_whitespace() || c.is_control() || is_direction_control(c))
}

/// Whether it has no shape of its own: joiners, marks of variants, the mark of byte order. Nothing is lost without
/// it, and a face may lack it.
#[cfg(feature = "pdf")]
pub(crate) fn is_ignorable(c: char) -> bool {
    matches!(
        c,
        '\u{00ad}'
            | '\u{034f}'
            | '\u{115f}'
            | '\u{1160}'
            | '\u{17b4}'
            | '\u{17b5}'
            | '\u{180b}'..='\u{180f}'
            | '\u{200b}'..='\u{200d}'
            | '\u{2028}'
            | '\u{2029}'
            | '\u{2060}'..='\u{206f}'
            | '\u{3164}'
            | '\u{fe00}'..='\u{fe0f}'
            | '\u{feff}'
            | '\u{ffa0}'
            | '\u{fff0}'..='\u{fff8}'
            | '\u{e0000}'..='\u{e0fff}'
    )
}
