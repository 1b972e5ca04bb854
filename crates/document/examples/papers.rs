//! Makes papers and keys of the lessons that come with the project, with questions of every kind.
//!
//! `cargo run --release -p document --example papers -- FOLDER [LESSON ...]`

use std::error::Error;
use std::path::PathBuf;
use std::time::Instant;

use assessment::set::SetPaper;
use document::html::html;
use document::paper::{Form, Who, key, paper};
use document::pdf::{pdf, pdf_of_all};
use document::tree::{Paper, Print};

/// Questions of every kind that every lesson can be asked.
const QUESTIONS: &str = r#"
[[question]]
ask = "reaction at A"
marks = 2

[[question]]
ask = "shear stress on the cut"
steps = ["shear force at the slice", "centroid height", "second moment", "first moment at the cut"]
marks = 3

[[question]]
ask = "largest shear force"
place = true
marks = 2

[[question]]
ask = "bending moment at the slice"
choose = 3

[[question]]
sketch = "shear force"
marks = 3

[[question]]
sketch = "bending moment"
marks = 3

[[question]]
sketch = "bending stress"
marks = 2

[[question]]
sketch = "shear stress"
marks = 2

[[question]]
sketch = "largest shear stress"
marks = 1

[[question]]
sketch = "part beyond the cut"
marks = 3
"#;

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
        let start = builtin.text.find("[[question]]").unwrap_or(builtin.text.len());
        let text = format!("{}{QUESTIONS}", &builtin.text[..start]);
        let reading = lesson::read(&text, name);
        let told: Vec<String> = reading.findings.iter().map(|finding| finding.render(false)).collect();
        let (lesson, solved) = reading.lesson.zip(reading.solved).ok_or_else(|| told.join("\n"))?;
        let begin = Instant::now();
        let set = SetPaper::new(lesson, solved)
            .map_err(|faults| faults.iter().map(|fault| format!("{fault}\n")).collect::<String>())?;
        let set_in = begin.elapsed();
        let who = Who { name: Some("Ada Example".into()), id: Some("0042".into()) };
        let usual = Form { number: Some("7KQ2".into()), letter: Some("B".into()), ..Form::default() };
        let letter = Form { sheet: Paper::UsLetter, letter: None, ..usual.clone() };
        let large = Form { print: Print::Large, ..usual.clone() };
        let save =
            |suffix: &str, bytes: &[u8]| std::fs::write(folder.join(format!("{name}-{suffix}")), bytes);
        let begin = Instant::now();
        let (asks, answers) = (paper(&set, &who, &usual), key(&set, &who, &usual));
        let made_in = begin.elapsed();
        let begin = Instant::now();
        let (asks_pdf, answers_pdf) = (pdf(&asks)?, pdf(&answers)?);
        let printed_in = begin.elapsed();
        save("paper.pdf", &asks_pdf.bytes)?;
        save("key.pdf", &answers_pdf.bytes)?;
        save("letter.pdf", &pdf(&paper(&set, &Who::default(), &letter))?.bytes)?;
        save("large.pdf", &pdf(&paper(&set, &who, &large))?.bytes)?;
        save("paper.html", html(&asks).as_bytes())?;
        save("key.html", html(&answers).as_bytes())?;
        save("all.pdf", &pdf_of_all(&[asks.clone(), asks.clone(), answers], "All papers", "all")?.bytes)?;
        println!("{name}: set in {set_in:.1?}, made in {made_in:.1?}, printed in {printed_in:.1?}");
    }
    Ok(())
}
