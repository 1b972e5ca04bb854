//! The sections of the reference cases: published handbooks and standards, exact geometry. Each case names its source.

use crate::cases::{cases, check, number, piece, section, sides};

#[test]
fn every_section_has_the_properties_of_its_source() {
    let mut checked = 0;
    for case in cases(include_str!("../reference/sections.json")) {
        let section = section(&case["section"]);
        let properties = section.properties();
        for expected in case["expect"].as_array().expect("values") {
            let where_ = &expected["where"];
            let cut = || section.level_cut(number(&where_["cut_y_m"]), piece(where_)).expect("the cut meets");
            let found = match expected["name"].as_str().expect("a name") {
                "area" => properties.area,
                "centroid_x" => properties.centroid.x,
                "centroid_y" => properties.centroid.y,
                "second_moment_x" => properties.second_moment,
                "second_moment_y" => properties.second_moment_upright,
                "product_moment_xy" => properties.product_moment,
                "principal_second_moment_max" => properties.principal.largest,
                "principal_second_moment_min" => properties.principal.smallest,
                "principal_axis_angle" => properties.principal.angle,
                "section_modulus_top" => properties.section_modulus_top,
                "section_modulus_bottom" => properties.section_modulus_bottom,
                "area_beyond" => cut().area,
                "centroid_y_beyond" => cut().centroid.y,
                "first_moment" => cut().first_moment.abs(),
                "width" => {
                    for side in sides(where_) {
                        check(&case, expected, section.width(number(&where_["y_m"]), side));
                    }
                    checked += 1;
                    continue;
                }
                other => panic!("{other} is asked for and not known"),
            };
            check(&case, expected, found);
            checked += 1;
        }
    }
    assert_eq!(checked, 640);
}
