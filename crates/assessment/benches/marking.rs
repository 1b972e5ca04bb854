//! Ten thousand sheets of a class whose every answer is known for what it is, marked: what truly was done against what was found.
//!
//! `cargo bench -p assessment --bench marking`

#[allow(dead_code, reason = "the tests take the rest")]
#[path = "../tests/all/simulated/mod.rs"]
mod simulated;

use assessment::mark::{Answer, Marker};
use simulated::chance::Chance;
use simulated::student::sheet;
use simulated::table::Table;

/// How many sheets of each lesson.
const SHEETS: usize = 10_000;
/// How many papers of each lesson.
const PAPERS: u32 = 40;

fn main() {
    let reference = include_str!("../tests/lessons/class.toml");
    let alone = alone(reference);
    let conveyor = lesson::builtin::find("conveyor").map(|lesson| lesson.text);
    let all = [
        ("the T of the reference lesson", Some(reference)),
        ("the same, tau alone asked for", Some(alone.as_str())),
        ("the conveyor", conveyor),
    ];
    for (name, text) in all {
        let Some(text) = text else { continue };
        let papers = simulated::papers(text, PAPERS);
        let mut markers: Vec<Marker<'_>> =
            papers.iter().filter_map(|paper| Marker::new(&paper.set).ok()).collect();
        let mut chance = Chance(1);
        let mut table = Table::default();
        for at in 0..SHEETS {
            let paper = &papers[at % papers.len()];
            let given = sheet(paper, &mut chance);
            let answers: Vec<(&str, Answer)> =
                given.iter().map(|given| (given.label.as_str(), given.answer.clone())).collect();
            let marked = markers[at % papers.len()].mark(&answers).expect("its own labels");
            for given in &given {
                let judged = marked.part(&given.label).expect("its own labels");
                table.count(paper, given, &judged.verdict, judged.marks() == Some(judged.most));
            }
        }
        println!("{name}: {SHEETS} sheets, {} papers\n{table}", papers.len());
    }
}

/// A lesson with nothing asked for but the stress on the cut: no earlier answer tells where a mistake was made.
fn alone(text: &str) -> String {
    let start = text.find("[[question]]").unwrap_or(text.len());
    format!("{}[[question]]\nask = \"shear stress on the cut\"\nmarks = 3\n", &text[..start])
}
