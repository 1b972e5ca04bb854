//! A run that is killed and run again.

use crate::run::{Desk, assert_same, class};
use std::process::Stdio;
use std::time::{Duration, Instant};

/// Killed ten times at moments spread over the whole run, then run to its end: the same bytes as a run that nothing disturbed,
/// and nothing half-written left behind.
#[test]
fn a_run_killed_at_any_moment_is_finished_by_running_it_again() {
    let desk = Desk::new();
    // With a typesetter a paper takes a few tenths of a second: fewer are enough for a kill to fall between and within them.
    let students = if cfg!(feature = "pdf") { 4 } else { 24 };
    let list = class(1, students);
    let list = list.lines().enumerate().map(|(place, line)| match place {
        0 => format!("{line},large print\n"),
        2 => format!("{line},yes\n"),
        _ => format!("{line},\n"),
    });
    desk.put("class.csv", &list.collect::<String>());
    let start = Instant::now();
    desk.done(&["papers", "lesson.toml", "class.csv", "-o", "whole"]);
    let whole = start.elapsed();

    let arguments = ["papers", "lesson.toml", "class.csv", "-o", "cut"];
    let mut killed = 0;
    // The moments by a linear congruence, so that a failure can be run again (constants of Numerical Recipes, from memory).
    let mut chance: u32 = 20_261_125;
    for _ in 0..10 {
        chance = chance.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        let moment = whole.mul_f64(f64::from(chance) / f64::from(u32::MAX));
        let mut run = desk.command(&arguments);
        let mut run = run.stdout(Stdio::null()).stderr(Stdio::null()).spawn().expect("the command runs");
        std::thread::sleep(moment.max(Duration::from_millis(1)));
        run.kill().expect("a process of ours");
        killed += usize::from(!run.wait().expect("it ends").success());
    }
    assert!(killed > 0, "every run was over before it was killed");
    desk.done(&arguments);
    assert_same(&desk.files("whole"), &desk.files("cut"));
}
