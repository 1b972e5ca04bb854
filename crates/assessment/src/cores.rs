//! Work shared out to all cores.

use std::sync::atomic::{AtomicUsize, Ordering};

/// How many cores there are to work on, as far as the system tells.
pub fn count() -> usize {
    std::thread::available_parallelism().map_or(1, usize::from)
}

/// The same done for each of several things, on all cores; the results in the order of the things.
///
/// ```
/// let squares = assessment::cores::each(&[1, 2, 3], |number| number * number);
/// assert_eq!(squares, [1, 4, 9]);
/// ```
pub fn each<T: Sync, R: Send>(things: &[T], work: impl Fn(&T) -> R + Sync) -> Vec<R> {
    let next = AtomicUsize::new(0);
    let share = || {
        let mut own = Vec::new();
        loop {
            let place = next.fetch_add(1, Ordering::Relaxed);
            let Some(thing) = things.get(place) else { return own };
            own.push((place, work(thing)));
        }
    };
    let threads = count().min(things.len().max(1));
    let mut all = std::thread::scope(|scope| {
        let others: Vec<_> = (1..threads).map(|_| scope.spawn(share)).collect();
        let mut all = share();
        for other in others {
            match other.join() {
                Ok(done) => all.extend(done),
                // What went wrong in another thread goes wrong here: nothing may be missing in silence.
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
        all
    });
    all.sort_by_key(|(place, _)| *place);
    all.into_iter().map(|(_, result)| result).collect()
}
