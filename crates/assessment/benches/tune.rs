//! What a lecturer waits for who has the numbers of a lesson searched: a million combinations of six things, from the text to
//! the ranked rows, beside reading and solving each of them.

#[allow(dead_code, reason = "the tests take the rest")]
#[path = "../tests/all/common.rs"]
mod common;

use assessment::candidates::Candidates;
use assessment::tune::{Search, Short};
use common::{JETTY, papers};
use divan::{Bencher, black_box};
use std::time::Instant;

fn main() {
    divan::main();
    search_round_numbers();
}

#[divan::bench]
fn the_digits_of_a_value(bencher: Bencher<'_, '_>) {
    let values = [11.25e6, 108_000.0, 12.345_678, 0.48, 1.0 / 3.0];
    bencher.bench_local(|| values.map(|value| Short::of(black_box(value))));
}

fn search_round_numbers() {
    const READ: u128 = 300;
    let start = Instant::now();
    let search = Search::new(papers(JETTY), &[]).expect("six things vary");
    let tuned = search.run(10);
    let searched = start.elapsed();
    let candidates = Candidates::new(papers(JETTY), &["shear stress on the cut"]).expect("its workings");
    let start = Instant::now();
    for at in 0..READ {
        let draw = candidates.space().draw(at * 618_033_989 % candidates.space().size().count);
        black_box(draw.and_then(|draw| candidates.solved(&draw)));
    }
    // On as many threads as the search had.
    let threads = std::thread::available_parallelism().map_or(1, usize::from) as f64;
    let plain = start.elapsed().as_secs_f64() / READ as f64 * tuned.census.looked_at as f64 / threads;
    println!("{}", tuned.census.in_words().join("\n"));
    println!(
        "searched in {searched:.2?}; reading and solving each would take {plain:.0} s: {:.0} times as long",
        plain / searched.as_secs_f64()
    );
}
