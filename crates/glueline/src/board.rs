//! `glueline board`: a lesson to work on in the browser, with the file kept in step.

use crate::arguments::Board;
use crate::failure::Failure;
use crate::serve::{Served, serve};

/// Serves the lesson until Ctrl-C; `page` makes the board's page from the lesson's text.
///
/// # Errors
/// Where the lesson cannot be read or the address cannot be listened at.
pub fn run(job: &Board, page: impl Fn(&str) -> String + Send + Sync + 'static) -> Result<(), Failure> {
    if !job.address.is_loopback() {
        anstream::eprintln!(
            "{} can be reached from other machines: whoever knows the whole address may change the lesson",
            job.address
        );
    }
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
