//! `glueline papers` as a lecturer meets it.

mod bad_lists;
mod cut_short;
mod forms;
mod printed;
mod same_again;
mod secret;
mod told;
mod typeset;
