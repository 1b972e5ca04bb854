//! What a document costs: time on one core, memory over many, tags against none.
//!
//! `cargo bench -p document`; the argument `--papers N` sets how many are made (1000).

#[allow(dead_code, reason = "tests take the rest")]
#[path = "../tests/all/common/every_block.rs"]
mod every_block;

use std::time::Instant;

use document::html::html;
use document::notes::notes;
use document::pdf::{Conformance, pdf_as};
use document::tree::{Document, Paper};
use workings::solved::Solved;

/// Three pages with numbers of their own.
fn paper(number: usize) -> Document {
    let mut document =
        every_block::sheet(&format!("Paper {number}: what the glue line of a girder must carry"), Paper::A4);
    document.identity = format!("paper {number}");
    document
}

/// Largest resident memory so far, MB; 0 where the system does not tell it.
fn peak_memory() -> f64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let kilobytes = line.and_then(|line| line.trim().trim_end_matches(" kB").trim().parse::<f64>().ok());
    kilobytes.unwrap_or(0.0) / 1024.0
}

fn make(number: usize, conformance: Conformance) -> usize {
    match pdf_as(&paper(number), conformance) {
        Ok(made) => made.bytes.len(),
        Err(fault) => panic!("{fault}"),
    }
}

/// Milliseconds a document over `count` documents.
fn timed(count: usize, mut one: impl FnMut(usize)) -> f64 {
    let start = Instant::now();
    for number in 0..count {
        one(number);
    }
    start.elapsed().as_secs_f64() * 1e3 / count as f64
}

/// The complete notes of a lesson of ours, from its text to the file.
fn whole_notes() {
    let Some(builtin) = lesson::builtin::find("box-girder") else { return };
    let mut pages = 0;
    let each = timed(20, |_| {
        let Some(lesson) = lesson::read(builtin.text, builtin.name).lesson else { return };
        let Ok(solved) = Solved::new(lesson.problem.clone(), lesson.style.clone()) else { return };
        match pdf_as(&notes(&lesson, &solved, Paper::A4), Conformance::Accessible) {
            Ok(made) => pages = hayro_syntax::Pdf::new(made.bytes).map_or(0, |file| file.pages().len()),
            Err(fault) => panic!("{fault}"),
        }
    });
    println!(
        "warm, all notes of a lesson           {each:7.1} ms   {pages} pages, {:.1} ms a page",
        each / pages as f64
    );
}

fn main() {
    let papers = std::env::args().skip_while(|word| word != "--papers").nth(1);
    let papers: usize = papers.and_then(|word| word.parse().ok()).unwrap_or(1000);
    // One core: the typesetter works in parallel inside where it may.
    let pool = rayon::ThreadPoolBuilder::new().num_threads(1).build();
    let Ok(pool) = pool else { return };
    pool.install(|| {
        let start = Instant::now();
        let size = make(0, Conformance::Accessible);
        println!("cold, first document of the process   {:7.1} ms", start.elapsed().as_secs_f64() * 1e3);
        let warm = timed(50, |number| {
            make(number, Conformance::Accessible);
        });
        println!("warm, one document (PDF/UA-1)         {warm:7.1} ms   {:.0} kB", size as f64 / 1024.0);
        let untagged = timed(50, |number| {
            make(number, Conformance::Untagged);
        });
        println!("warm, without tags                    {untagged:7.1} ms   ratio {:.2}", warm / untagged);
        let pages = timed(200, |number| {
            html(&paper(number));
        });
        println!("warm, as HTML                         {pages:7.2} ms   ratio {:.3}", pages / warm);
        whole_notes();
        let mut seen = Vec::new();
        let start = Instant::now();
        for number in 1..=papers {
            make(number, Conformance::Accessible);
            if number == papers / 10 || number == papers {
                seen.push(peak_memory());
                println!("peak memory after {number:5} documents      {:7.1} MB", peak_memory());
            }
        }
        println!(
            "over {papers} documents                   {:7.1} ms each",
            start.elapsed().as_secs_f64() * 1e3 / papers as f64
        );
        if let [early, late] = seen.as_slice() {
            println!("memory, last against first tenth      {:7.2}", late / early);
        }
    });
}
