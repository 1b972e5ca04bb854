//! Beams, sections, stresses and slices against handbooks, exact theory, general libraries, and themselves.

mod beam_faults;
mod beam_handbook;
mod beam_properties;
mod beam_reference;
mod beam_with_shear;
mod built_up_reference;
mod cases;
mod catalogue;
mod elastic_extremes;
mod elastic_properties;
mod elastic_reference;
mod elastic_theory;
mod extreme_sizes;
mod given;
mod largest_shear;
mod section_faults;
mod section_properties;
mod section_reference;
mod shapes;
mod shear_reference;
mod skew_bending;
mod slice_reference;
mod slices;
mod straight_cuts;
mod stress_field;
mod thin_wall;
