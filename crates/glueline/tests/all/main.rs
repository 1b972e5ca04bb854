//! The command as a lecturer meets it, and the house that it stands on.

mod command;
mod house;
mod marking;
mod papers;
mod run;
mod tune;
