//! What holds for every drawing, what each drawing stands for, and which words and grips go with it.

mod beams;
mod carrying;
mod cells;
mod checks;
mod drawings;
mod elastic;
mod grips;
mod lessons;
mod paper;
mod proportions;
mod sections;
mod side;
mod slice_and_section;
