//! The lessons of the tests and the benches.

use lesson::papers::Papers;

/// Six things with ten choices each: a million draws.
pub const JETTY: &str = include_str!("../lessons/jetty.toml");

/// The papers of a lesson that must be sound.
pub fn papers(text: &str) -> Papers {
    Papers::read(text, "test.toml").unwrap_or_else(|findings| {
        let shown: Vec<String> = findings.iter().map(|finding| finding.render(false)).collect();
        panic!("{}", shown.join("\n"))
    })
}
