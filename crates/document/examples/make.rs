//! Makes the notes (PDF and HTML) and the slides of the lessons that come with the project.
//!
//! `cargo run --release -p document --example make -- FOLDER [LESSON ...]`

use std::error::Error;
use std::path::PathBuf;
use std::time::Instant;

use document::html::html;
use document::notes::notes;
use document::pdf::pdf;
use document::slides::slides;
use document::tree::Paper;
use workings::solved::Solved;

fn main() -> Result<(), Box<dyn Error>> {
    let mut words = std::env::args().skip(1);
    let folder = PathBuf::from(words.next().ok_or("say which folder")?);
    let wanted: Vec<String> = words.collect();
    std::fs::create_dir_all(&folder)?;
    for builtin in lesson::builtin::ALL {
        let name = builtin.name;
        if !wanted.is_empty() && !wanted.iter().any(|wanted| wanted == name) {
            continue;
        }
        let reading = lesson::read(builtin.text, name);
        let lesson = reading.lesson.ok_or_else(|| format!("{name} cannot be read"))?;
        let solved = Solved::new(lesson.problem.clone(), lesson.style.clone()).map_err(|faults| {
            format!("{name}: {}", faults.iter().map(ToString::to_string).collect::<String>())
        })?;
        let start = Instant::now();
        for (suffix, paper) in [("notes", Paper::A4), ("notes-letter", Paper::UsLetter)] {
            let made = pdf(&notes(&lesson, &solved, paper))?;
            std::fs::write(folder.join(format!("{name}-{suffix}.pdf")), made.bytes)?;
        }
        std::fs::write(folder.join(format!("{name}-slides.pdf")), pdf(&slides(&lesson, &solved))?.bytes)?;
        std::fs::write(folder.join(format!("{name}-notes.html")), html(&notes(&lesson, &solved, Paper::A4)))?;
        println!("{name}: {:.0} ms", start.elapsed().as_secs_f64() * 1e3);
    }
    Ok(())
}
