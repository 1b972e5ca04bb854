//! Units, formulas, the graph of workings and the mistakes of students, against textbooks, numbers by hand, and themselves.

#[allow(dead_code, reason = "the tests of the mechanics take the rest")]
#[path = "../../../mechanics/tests/all/cases.rs"]
mod cases;
#[allow(dead_code, reason = "the tests of the mechanics take the rest")]
#[path = "../../../mechanics/tests/all/given.rs"]
mod given;

mod allowables;
mod common;
mod elastic;
mod fasteners;
mod formulas;
mod graph_properties;
mod materials;
mod mistakes;
mod places;
mod planks;
mod printing;
mod reading;
mod reference_cases;
mod reference_lesson;
mod reservations;
mod skew;
mod skew_materials;
mod straight_cuts;
mod stress_at_a_point;
mod textbook;
mod virtual_work;
mod wall_cells;
mod walls;
