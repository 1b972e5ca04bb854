//! A class's answers: read from files, decided by persons, handed to marking, and written as tables of marks.

mod cells;
mod class;
mod decisions;
mod files;
mod marks;
mod papers;
mod properties;
