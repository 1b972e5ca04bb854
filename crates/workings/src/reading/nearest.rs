//! The word that was meant: the nearest one by letters left out, added, changed or swapped.

/// The word of `words` nearest to `word`, where one is near enough to be what was meant. A word that differs only in
/// the case of its letters is nearest of all; of equals the first.
pub fn nearest<'a>(word: &str, words: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let length = word.chars().count();
    // Longer words bear more slips; of one letter only its case can be wrong.
    let allowed = match length {
        0 | 1 => 0,
        2..=5 => 1,
        6..=9 => 2,
        _ => 3,
    };
    // No word that is a word of ours is longer, and the table below grows with the product of the lengths.
    if length > 60 {
        return None;
    }
    let mut best: Option<(usize, &'a str)> = None;
    for candidate in words {
        let slips = if candidate.to_lowercase() == word.to_lowercase() {
            0
        } else {
            distance(word, candidate).max(1)
        };
        if slips <= allowed && best.is_none_or(|(fewest, _)| slips < fewest) {
            best = Some((slips, candidate));
        }
    }
    best.map(|(_, candidate)| candidate)
}

/// The restricted Damerau-Levenshtein distance, without regard to case.
fn distance(one: &str, other: &str) -> usize {
    let one: Vec<char> = one.to_lowercase().chars().collect();
    let other: Vec<char> = other.to_lowercase().chars().collect();
    let width = other.len() + 1;
    let mut table = vec![0; (one.len() + 1) * width];
    for i in 0..=one.len() {
        for j in 0..=other.len() {
            table[i * width + j] = match (i, j) {
                (0, _) => j,
                (_, 0) => i,
                _ => {
                    let same = one[i - 1] == other[j - 1];
                    let changed = table[(i - 1) * width + j - 1] + usize::from(!same);
                    let left_out = table[(i - 1) * width + j] + 1;
                    let added = table[i * width + j - 1] + 1;
                    let swap = i > 1 && j > 1 && one[i - 1] == other[j - 2] && one[i - 2] == other[j - 1];
                    let swapped = if swap { table[(i - 2) * width + j - 2] + 1 } else { usize::MAX };
                    changed.min(left_out).min(added).min(swapped)
                }
            };
        }
    }
    table[one.len() * width + other.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_of_the_pen() {
        let words = ["supports", "loads", "length", "kN", "MN", "MPa"];
        assert_eq!(nearest("suport", words), Some("supports"));
        assert_eq!(nearest("lenght", words), Some("length"));
        assert_eq!(nearest("kn", words), Some("kN"));
        assert_eq!(nearest("mpa", words), Some("MPa"));
        assert_eq!(nearest("colour", words), None);
        assert_eq!(nearest("", words), None);
        assert_eq!(nearest("x", words), None);
        assert_eq!(nearest(&"x".repeat(10_000), words), None);
    }
}
