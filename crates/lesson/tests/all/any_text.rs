//! No text from outside makes the reader panic or run for long, and a file is read or refused, never both.

use proptest::prelude::*;
use std::time::{Duration, Instant};

fn check(text: &str) {
    let reading = lesson::read(text, "any.toml");
    let either = reading.lesson.is_some() == reading.findings.is_empty();
    assert!(either, "read or refused, never both and never neither:\n{text}");
    let mut last = 0;
    for finding in &reading.findings {
        assert!(finding.span.start <= finding.span.end && finding.span.end <= text.len());
        assert!(text.get(finding.span.clone()).is_some(), "a place cuts no character in two");
        assert!(last <= finding.span.start, "findings stand in the order of the file");
        last = finding.span.start;
        assert!(
            !finding.headline.is_empty() && !finding.headline.chars().any(char::is_control),
            "{:?}",
            finding.headline
        );
        let ours = finding.headline.starts_with("this lesson cannot be computed");
        assert!(!ours, "{}:\n{text}", finding.headline);
        assert_ne!(finding.headline, "this lesson cannot be read", "refused without saying why:\n{text}");
        assert!(finding.start.line >= 1 && finding.start.column >= 1);
        let _ = finding.render(false);
        let _ = finding.render(true);
    }
}

/// Pieces that a lesson is made of, sound and unsound.
fn piece() -> impl Strategy<Value = String> {
    let words = prop::sample::select(vec![
        "[beam]",
        "[section]",
        "[[question]]",
        "[values]",
        "[vary]",
        "[papers]",
        "require",
        "[[variant]]",
        "[variant.section]",
        "of",
        "name",
        "\"P > 1\"",
        "[cut]",
        "[slice]",
        "[material]",
        "[text]",
        "[notation]",
        "length",
        "supports",
        "loads",
        "parts",
        "joints",
        "outline",
        "holes",
        "shape",
        "hinges",
        "at",
        "E",
        "P",
        "L",
        "=",
        "=",
        "=",
        "{",
        "}",
        "[",
        "]",
        ",",
        "\n",
        "\n",
        "\n",
        "\"4 m\"",
        "\"2 kN/m\"",
        "\"P*2\"",
        "\"L\"",
        "\"\"",
        "\"1e308 m\"",
        "\"-1 mm\"",
        "\"nan kN\"",
        "\"T\"",
        "\"IPE 300\"",
        "true",
        "1979-05-27",
        "0x10",
        "1_000",
        "1e400",
        "#",
        "'''",
        "\"\"\"",
        "corner",
        "[\"0 mm\", \"1 mm\"]",
        "\u{202e}",
        "é",
        "\u{0}",
        "\r",
        "\\u12",
        "force",
        "pin",
    ]);
    words.prop_map(str::to_owned)
}

/// Values to be put in the place of others.
fn replacement() -> impl Strategy<Value = String> {
    prop_oneof![
        prop::sample::select(vec![
            "0",
            "-1",
            "nan",
            "true",
            "\"\"",
            "\"0 m\"",
            "\"1e300 m\"",
            "\"1e-300 m\"",
            "\"-4 m\"",
            "\"1e150 mm\"",
            "\"4\"",
            "\"4 kN\"",
            "\"4 kip\"",
            "[]",
            "{}",
            "[[]]",
            "{ a = 1 }",
            "\"L\"",
            "\"P\"",
            "\"w\"",
            "\"neutral axis\"",
            "\"top of web\"",
            "\"1 m\"",
            "\"2 m\"",
            "\"50 mm\"",
            "\"1e9 kN\"",
            "\"T\"",
            "\"tube\"",
            "\"box\"",
            "\"up\"",
        ])
        .prop_map(str::to_owned),
        "\"[0-9]{1,3}(\\.[0-9])? ?(m|mm|kN|kN m|kN/m|GPa|ft|kip|in)\"",
    ]
}

/// A built-in lesson with some of its values exchanged and some of its lines lost, doubled or cut short.
fn mutated() -> impl Strategy<Value = String> {
    let builtin = 0..lesson::builtin::ALL.len();
    let changes = prop::collection::vec((any::<prop::sample::Index>(), replacement(), 0..8_u8), 1..5);
    (builtin, changes).prop_map(|(which, changes)| {
        let mut text = lesson::builtin::ALL[which].text.to_owned();
        for (index, replacement, how) in changes {
            let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
            if lines.is_empty() {
                break;
            }
            let at = index.index(lines.len());
            match how {
                0 => drop(lines.remove(at)),
                1 => {
                    let line = lines[at].clone();
                    lines.insert(at, line);
                }
                2 => {
                    let middle = lines[at].floor_char_boundary(lines[at].len() / 2);
                    lines[at].truncate(middle);
                }
                _ => {
                    // The values of a line stand between quotes.
                    let values: Vec<(usize, usize)> = lines[at]
                        .match_indices('"')
                        .map(|(place, _)| place)
                        .collect::<Vec<_>>()
                        .chunks_exact(2)
                        .map(|pair| (pair[0], pair[1] + 1))
                        .collect();
                    if !values.is_empty() {
                        let (from, to) = values[index.index(values.len())];
                        lines[at].replace_range(from..to, &replacement);
                    }
                }
            }
            text = lines.join("\n");
        }
        text
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    #[test]
    fn any_text(text in any::<String>()) {
        check(&text);
        check(&format!("\u{feff}{text}"));
        check(&text.replace(char::is_whitespace, "\r\n"));
    }

    #[test]
    fn any_heap_of_pieces(pieces in prop::collection::vec(piece(), 0..60)) {
        check(&pieces.join(" "));
        check(&format!("\u{feff}{}", pieces.join("\r\n")));
        check(&pieces.concat());
    }

    #[test]
    fn any_mutated_lesson(text in mutated()) {
        check(&text);
    }
}

fn timed(text: &str, what: &str) {
    let start = Instant::now();
    check(text);
    // Generous, since a test build on a busy machine is slow; what grows with the square of the size takes minutes.
    assert!(start.elapsed() < Duration::from_secs(20), "{what} took {:?}", start.elapsed());
}

#[test]
fn deep_nesting_is_refused_not_followed() {
    for (open, close) in [("[", "]"), ("{ a = ", "}")] {
        timed(&format!("title = {}1{}", open.repeat(50_000), close.repeat(50_000)), "deep nesting");
        timed(&format!("title = {}", open.repeat(50_000)), "deep open nesting");
    }
    timed(&format!("[{}]", "a.".repeat(50_000)), "a deep heading");
    timed(&format!("[values]\nP = \"{}1 m{}\"", "(".repeat(50_000), ")".repeat(50_000)), "deep brackets");
}

#[test]
fn a_long_chain_of_values_is_followed_and_a_long_circle_refused() {
    let chain: String = (0..5_000).map(|i| format!("v{i} = \"v{} + 1 mm\"\n", i + 1)).collect();
    timed(&format!("[values]\n{chain}v5000 = \"1 m\"\n"), "a chain of values");
    timed(&format!("[values]\n{chain}v5000 = \"v0\"\n"), "a circle of values");
}

#[test]
fn a_huge_file_of_mistakes_is_told_in_time() {
    let strangers: String = (0..5_000).map(|i| format!("stranger{i} = {i}\n")).collect();
    timed(&strangers, "unknown keys");
    let entries = "{ force = \"5 kn\", at = \"3 m\" },\n".repeat(5_000);
    timed(
        &format!("[beam]\nlength = \"6 m\"\nsupports = [{{ pin = \"0 m\" }}]\nloads = [\n{entries}]\n"),
        "wrong loads",
    );
    timed(&"\"".repeat(200_001), "quotes");
    timed(&format!("title = \"{}\"", "x".repeat(2_000_000)), "a long line");
}

/// Numbers at the ends of the range: told in words, whatever they lead to.
#[test]
fn numbers_at_the_ends_of_the_range_are_told_in_words() {
    for builtin in lesson::builtin::ALL {
        for huge in [
            "1e12 ", "1e9 ", "1e6 ", "1e4 ", "1e-4 ", "1e-6 ", "1e-9 ", "1e308 ", "1e200 ", "1e100 ",
            "1e-100 ", "1e-200 ", "1e-308 ", "-1e308 ", "0 ",
        ] {
            for (index, _) in builtin.text.match_indices(" = \"").collect::<Vec<_>>() {
                let value = &builtin.text[index + 4..];
                let digits =
                    value.len() - value.trim_start_matches(|c: char| c.is_ascii_digit() || c == '.').len();
                let unit = value[digits..].trim_start();
                if digits > 0 && !unit.starts_with('"') {
                    check(&format!("{}{huge}{unit}", &builtin.text[..index + 4]));
                }
            }
        }
    }
}

/// Editors on other systems end lines with two characters and begin files with a mark of their encoding.
#[test]
fn other_line_ends_and_a_mark_of_the_encoding_change_nothing() {
    for builtin in lesson::builtin::ALL {
        let text = format!("\u{feff}{}", builtin.text.replace('\n', "\r\n"));
        let reading = lesson::read(&text, "windows.toml");
        let shown: Vec<String> = reading.findings.iter().map(|finding| finding.render(false)).collect();
        assert!(reading.lesson.is_some(), "{}: {}", builtin.name, shown.join("\n"));
        // One mistake on a line within, one on the first line.
        let wrong = text.replacen("units = ", "unit = ", 1).replacen("# ", "z = 1 # ", 1);
        let plain = builtin.text.replacen("units = ", "unit = ", 1).replacen("# ", "z = 1 # ", 1);
        let (wrong, plain) = (lesson::read(&wrong, "x").findings, lesson::read(&plain, "x").findings);
        assert_eq!((wrong.len(), plain.len()), (2, 2));
        for (wrong, plain) in wrong.iter().zip(&plain) {
            assert_eq!((wrong.start, wrong.text()), (plain.start, plain.text()));
            assert_eq!(wrong.render(false), plain.render(false));
        }
    }
}
