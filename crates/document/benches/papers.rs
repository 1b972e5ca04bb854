//! What a class waits for: a paper with its key, from the solved lesson to the page, each with questions of every kind.
//!
//! `cargo bench -p document --bench papers`; without the feature `pdf` in a minute, and then without the PDF.

#[path = "../tests/all/common/asked.rs"]
#[allow(dead_code, reason = "tests take the rest")]
mod asked;

use asked::{LESSONS, QUESTIONS, set_of};
use assessment::set::SetPaper;
use document::html::html;
use document::paper::{Form, Who, key, paper};
use std::hint::black_box;
use std::time::Instant;

/// How often each is made.
const TIMES: u32 = 40;

/// Milliseconds for one.
fn timed(mut one: impl FnMut()) -> f64 {
    // What is made once for all, such as the faces, is no part of a paper.
    one();
    let start = Instant::now();
    (0..TIMES).for_each(|_| one());
    start.elapsed().as_secs_f64() * 1e3 / f64::from(TIMES)
}

fn main() {
    for (name, text) in LESSONS.iter() {
        let set = set_of(name, text, QUESTIONS);
        let (who, form) = (Who::default(), Form::default());
        let set_in = timed(|| drop(black_box(SetPaper::new(set.lesson.clone(), set.solved.clone()))));
        let made_in = timed(|| drop(black_box((paper(&set, &who, &form), key(&set, &who, &form)))));
        let (asks, answers) = (paper(&set, &who, &form), key(&set, &who, &form));
        let page_in = timed(|| drop(black_box((html(&asks), html(&answers)))));
        println!("{name}: set {set_in:.1} ms; paper and key {made_in:.1} ms, as HTML {page_in:.1} ms more");
        #[cfg(feature = "pdf")]
        {
            let print = |document| document::pdf::pdf(document).map(|made| made.bytes.len());
            let printed_in = timed(|| drop(black_box((print(&asks), print(&answers)))));
            println!("{name}: as PDF {printed_in:.0} ms more");
        }
    }
}
