//! The lessons of the tests and the benches.

use lesson::papers::Papers;
use workings::solved::Solved;

/// Six things with ten choices each: a million draws.
pub const JETTY: &str = include_str!("../lessons/jetty.toml");

/// The reference lesson of the unit's notes on mistakes: every number exact, by hand.
pub const REFERENCE: &str = include_str!("../lessons/reference.toml");

/// The papers of a lesson that must be sound.
pub fn papers(text: &str) -> Papers {
    Papers::read(text, "test.toml").unwrap_or_else(|findings| {
        let shown: Vec<String> = findings.iter().map(|finding| finding.render(false)).collect();
        panic!("{}", shown.join("\n"))
    })
}

/// A lesson that must be sound, solved.
pub fn solved(papers: &Papers) -> Solved {
    let lesson = papers.lesson();
    match Solved::new(lesson.problem.clone(), lesson.style.clone()) {
        Ok(solved) => solved,
        Err(faults) => panic!("{}", faults.iter().map(|fault| format!("{fault}\n")).collect::<String>()),
    }
}

/// The reference lesson with other values, such as `("P", "15 kN")`.
pub fn reference_with(values: &[(&str, &str)]) -> Papers {
    papers(&reference_text(values))
}

/// Its text.
pub fn reference_text(values: &[(&str, &str)]) -> String {
    let mut text = REFERENCE.to_owned();
    for (name, value) in values {
        let line = format!("\n{name} = \"");
        let start = text.find(&line).expect("a value of the lesson") + line.len();
        let end = start + text[start..].find('"').expect("its end");
        text.replace_range(start..end, value);
    }
    text
}
