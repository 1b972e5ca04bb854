//! `glueline demo`: a folder with everything that comes out of the built-in lessons.

mod class;

use crate::arguments::{Demo, Form};
use crate::failure::Failure;
use crate::output::{Existing, Outcome, write};
use crate::{figures, page, source, values, written};
use std::path::Path;

/// The class list: invented names, for `glueline papers`;
const CLASS: &str = "demo-class.csv";

/// with the lesson of which there are enough papers for it.
const LESSON_FOR_CLASS: &str = "conveyor";

/// Makes the folder and says what to open. What is there already with the same content is left alone, so a run that
/// was cut short is finished by running it again.
///
/// # Errors
/// Where a file is in the way or the typesetter complains.
pub fn run(job: &Demo) -> Result<(), Failure> {
    let existing = if job.replace { Existing::Replace } else { Existing::Keep };
    let mut made = Made { folder: &job.folder, existing, fresh: 0, unchanged: 0 };
    let all = lesson::builtin::ALL;
    let mut contents = Vec::new();
    for (place, builtin) in all.iter().enumerate() {
        anstream::eprintln!("[{}/{}] {}", place + 1, all.len(), builtin.name);
        contents.push(one(&mut made, builtin.name, builtin.text)?);
    }
    let index = document::html::html(&document::index::index("What Glueline makes of a lesson", &contents));
    made.put("index.html", index.as_bytes())?;
    made.put("lesson-file.md", lesson::reference_page().as_bytes())?;
    let first = job.folder.join("index.html");
    anstream::println!(
        "{} files made, {} there already\nopen {}\nthen edit {} and run: glueline notes {}\nor give a class of 300 their papers: \
         glueline papers {} {}",
        made.fresh,
        made.unchanged,
        first.display(),
        job.folder.join(all[0].name).join("lesson.toml").display(),
        job.folder.join(all[0].name).join("lesson.toml").display(),
        job.folder.join(LESSON_FOR_CLASS).join("lesson.toml").display(),
        job.folder.join(LESSON_FOR_CLASS).join(CLASS).display(),
    );
    if job.open
        && let Err(error) = open::that(&first)
    {
        anstream::eprintln!("it could not be opened from here ({error}); open it by hand");
    }
    Ok(())
}

/// Everything of one lesson; gives its entry of the index.
fn one(made: &mut Made, name: &str, text: &str) -> Result<document::index::Entry, Failure> {
    let lesson = source::checked(text, &format!("{name}.toml"))?;
    let solved = source::solve(&lesson)?;
    let rows = values::all(&solved);
    made.put(&format!("{name}/lesson.toml"), text.as_bytes())?;
    let elastic = values::Elastic::of(&solved);
    made.put(&format!("{name}/values.txt"), values::readable(&solved, &rows, &elastic).as_bytes())?;
    made.put(&format!("{name}/values.json"), values::json(&lesson, &solved, (&rows, &elastic))?.as_bytes())?;
    let notes = document::notes::notes(&lesson, &solved, written::paper(&lesson));
    made.put(&format!("{name}/notes.html"), document::html::html(&notes).as_bytes())?;
    made.put(&format!("{name}/board.html"), page::page(text, name)?.as_bytes())?;
    let mut files = vec![
        ("board.html".to_owned(), "the live board: drag the cut and everything answers".to_owned()),
        ("lesson.toml".to_owned(), "the lesson file that all of it comes from".to_owned()),
        ("notes.html".to_owned(), "lecture notes as one page for a browser".to_owned()),
    ];
    if cfg!(feature = "pdf") {
        made.put(&format!("{name}/notes.pdf"), &written::pdf(&notes)?)?;
        made.put(&format!("{name}/slides.pdf"), &written::pdf(&document::slides::slides(&lesson, &solved))?)?;
        files.push(("notes.pdf".to_owned(), "the same notes to print, tagged".to_owned()));
        files.push(("slides.pdf".to_owned(), "slides, one page for each step".to_owned()));
    }
    files.push(("values.txt".to_owned(), "every value as a table".to_owned()));
    files.push(("values.json".to_owned(), "every value for another program".to_owned()));
    if name == LESSON_FOR_CLASS {
        made.put(&format!("{name}/{CLASS}"), &class::csv()?)?;
        files.push((CLASS.to_owned(), "a class of 300 invented names, for: glueline papers".to_owned()));
    }
    let mut drawings = Vec::new();
    for (place, drawing) in figures::all(&solved).iter().enumerate() {
        let forms: &[Form] = if cfg!(feature = "pdf") { &[Form::Svg, Form::Png] } else { &[Form::Svg] };
        for &form in forms {
            let ending = if form == Form::Svg { "svg" } else { "png" };
            let content = figures::content(drawing, form, &lesson.about.language)?;
            made.put(&format!("{name}/figures/{:02}-{}.{ending}", place + 1, drawing.name), &content)?;
        }
        drawings.push((format!("figures/{:02}-{}.svg", place + 1, drawing.name), drawing.title.clone()));
    }
    Ok(document::index::Entry {
        folder: name.to_owned(),
        title: lesson.about.title.clone(),
        teaches: lesson.about.teaches.clone().unwrap_or_default(),
        files,
        drawings,
    })
}

/// The folder on its way.
struct Made<'a> {
    folder: &'a Path,
    existing: Existing,
    fresh: usize,
    unchanged: usize,
}

impl Made<'_> {
    fn put(&mut self, name: &str, content: &[u8]) -> Result<(), Failure> {
        match write(&self.folder.join(name), content, self.existing)? {
            Outcome::Unchanged => self.unchanged += 1,
            Outcome::New | Outcome::Replaced => self.fresh += 1,
        }
        Ok(())
    }
}
