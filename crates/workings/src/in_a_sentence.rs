//! The names of workings as they stand in a sentence: what is named there by the lecturer has its article.

use crate::build::{with_article, with_the};
use crate::solved::Solved;

/// What a name that was given may follow.
const BEFORE: [&str; 8] = ["at ", "of ", "on ", "in ", "by ", "and ", "between ", "along "];

/// What is named with the kind of load before it.
const LOADS: [&str; 3] = ["force ", "spread load ", "couple "];

impl Solved {
    /// The name of a working, or a part of one, with the articles that a sentence needs: `shear flow at the screws`, `whole number of
    /// screws between B and the force P`.
    pub fn in_a_sentence(&self, name: &str) -> String {
        let problem = self.problem();
        let mut words = name.to_owned();
        let joints = problem.joints.iter().map(|joint| joint.name.as_str());
        let mut names: Vec<&str> = joints.chain(problem.part_names.iter().map(String::as_str)).collect();
        // A name may stand in a longer one: `flange` in `upper flange`.
        names.sort_by_key(|name| std::cmp::Reverse(name.len()));
        names.dedup();
        for name in names.into_iter().filter(|name| !name.is_empty()) {
            let with = with_article(name);
            for before in BEFORE {
                words = put(&words, &format!("{before}{name}"), &format!("{before}{with}"));
            }
        }
        for joint in &problem.joints {
            words = counted(&words, &joint.name);
        }
        for (load, before) in LOADS.iter().flat_map(|load| ["and ", "between "].map(|before| (load, before)))
        {
            words = words.replace(&format!("{before}{load}"), &format!("{before}the {load}"));
        }
        words
    }
}

/// Fasteners that are called by what they are need no further word: `number of nails`, `force on one of the nails`.
fn counted(words: &str, joint: &str) -> String {
    if !joint.ends_with('s') {
        return words.to_owned();
    }
    let with = with_the(joint);
    let one = put(words, &format!("one fastener of {with}"), &format!("one of {with}"));
    put(&one, &format!("fasteners of {with}"), joint.trim_start_matches("the "))
}

/// Puts words for others wherever those stand by themselves, from the beginning of a word to the end of one.
fn put(words: &str, others: &str, by: &str) -> String {
    let mut done = String::with_capacity(words.len());
    let mut rest = words;
    while let Some(at) = rest.find(others) {
        let (before, behind) = (&rest[..at], &rest[at + others.len()..]);
        let begins = before.chars().next_back().or_else(|| done.chars().next_back());
        let alone = begins.is_none_or(|c| c == ' ') && !behind.starts_with(|c: char| c.is_alphanumeric());
        done.push_str(before);
        done.push_str(if alone { by } else { others });
        rest = behind;
    }
    done.push_str(rest);
    done
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_put_for_whole_words_alone() {
        assert_eq!(put("flow at nails, where", "at nails", "at the nails"), "flow at the nails, where");
        assert_eq!(put("flow at nailshed", "at nails", "at the nails"), "flow at nailshed");
        assert_eq!(put("that nails", "at nails", "at the nails"), "that nails");
        assert_eq!(counted("number of fasteners of the nails in all", "nails"), "number of nails in all");
        assert_eq!(counted("force on one fastener of the nails", "nails"), "force on one of the nails");
        assert_eq!(counted("fasteners of the top row", "top row"), "fasteners of the top row");
    }
}
