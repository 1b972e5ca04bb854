//! `glueline board`: a lesson to work on in the browser, with the file kept in step.

use crate::arguments::Board;
use crate::failure::Failure;
use crate::page::ENGINE;
use crate::serve::{Served, serve};
use crate::source;
use std::sync::{Mutex, PoisonError};

/// Serves the lesson until Ctrl-C.
///
/// # Errors
/// Where the lesson cannot be read or has mistakes, or the address cannot be listened at.
pub fn run(job: &Board) -> Result<(), Failure> {
    let text = source::text(&job.lesson)?;
    source::checked(&text, &job.lesson.display().to_string())?;
    if !job.address.is_loopback() {
        anstream::eprintln!(
            "{} can be reached from other machines: whoever knows the whole address may change the lesson",
            job.address
        );
    }
    let name = format!("{}.toml", source::stem(&job.lesson));
    // A file that has a mistake just now makes no page: the last good text does, and the page then tells the mistake.
    let good = Mutex::new(text);
    let page = move |text: &str| {
        let mut good = good.lock().unwrap_or_else(PoisonError::into_inner);
        let made = board::page::page(text, &name, ENGINE, true).inspect(|_| text.clone_into(&mut good));
        made.or_else(|_| board::page::page(&good, &name, ENGINE, true))
            .unwrap_or_else(|refusal| refusal.first)
    };
    let served =
        Served { lesson: job.lesson.clone(), page: Box::new(page), address: job.address, port: job.port };
    serve(served, |url| {
        anstream::println!("{url}\nsaves go to {}; end with Ctrl-C", job.lesson.display());
        if !job.no_open
            && let Err(error) = open::that_detached(url)
        {
            anstream::eprintln!("it could not be opened from here ({error}); open it by hand");
        }
    })
}
