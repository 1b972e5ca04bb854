//! A line on the terminal that says how far a run is.

use std::io::{IsTerminal as _, Write as _};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

/// So often a reader can follow it.
const SHOWN_EVERY: Duration = Duration::from_millis(100);

/// How far a run is; shown on a terminal only.
#[derive(Debug)]
pub struct Progress {
    what: &'static str,
    all: usize,
    start: Instant,
    shown: Option<Mutex<Instant>>,
}

impl Progress {
    /// Of so many things, `what` in the plural.
    pub fn new(what: &'static str, all: usize) -> Self {
        let start = Instant::now();
        let shown = std::io::stderr().is_terminal().then(|| Mutex::new(start));
        Self { what, all, start, shown }
    }

    /// So many are done; may be called from any thread.
    pub fn at(&self, done: usize) {
        let Some(shown) = &self.shown else { return };
        let mut shown = shown.lock().unwrap_or_else(PoisonError::into_inner);
        if done < self.all && shown.elapsed() < SHOWN_EVERY {
            return;
        }
        *shown = Instant::now();
        let seconds = self.start.elapsed().as_secs_f64();
        let rate = if seconds > 0.0 { done as f64 / seconds } else { 0.0 };
        // A line that cannot be shown is missed by nobody.
        let _ = write!(
            std::io::stderr(),
            "\r\x1b[K{done} of {} {}, {rate:.0} a second{}",
            self.all,
            self.what,
            if done == self.all { "\n" } else { "" }
        );
    }
}
