//! The transformed section in words.

use crate::cut_words::at_most;
use crate::drawing::Description;
use crate::scene::Scene;
use crate::transformed::Transformed;
use workings::dimension::Dimension;
use workings::role::Role;

/// How much narrower than its heights the sections are drawn; nothing where all is to one scale.
pub(crate) fn shrunk(of: &Transformed) -> String {
    let share = |share: f64| match (1.0 / share).round() {
        1.0 => "full scale".to_owned(),
        times => format!("1/{times}"),
    };
    match of.shrunk {
        [section, transformed] if section >= 1.0 && transformed >= 1.0 => String::new(),
        [section, transformed] if section == transformed => {
            format!("widths are drawn at {} of the scale of the heights", share(section))
        }
        [section, transformed] => format!(
            "beside the heights the widths of the section are drawn at {}, those of the transformed section at {}",
            share(section),
            share(transformed)
        ),
    }
}

/// The short and the long description.
pub(crate) fn describe(scene: &Scene, of: &Transformed) -> (String, Description) {
    let w = &scene.writer;
    let ratio = |value: f64| w.text(value, Dimension::NONE, Role::ModularRatio);
    let others: Vec<String> = (of.materials.iter().filter(|material| !material.is_reference()))
        .map(|material| format!("{} {} times", material.name, ratio(material.modular_ratio)))
        .collect();
    let short = at_most(&format!(
        "The section, the transformed section in which breadths count by modulus ({}), and the bending stress in each \
         material over the depth.",
        others.join(", ")
    ));
    let mut long = Description::new();
    if !scene.told {
        return (short, long);
    }
    long.sentence(
        "Three drawings on one height axis: the section as it is, the transformed section with the same heights and other \
         breadths, and the bending stress at the slice. The neutral axis runs level through all three.",
    );
    long.sentence(format!(
        "The neutral axis lies {} above the lowest fibre.",
        w.text(scene.values.neutral_axis - scene.extent.bottom, Dimension::LENGTH, Role::CentroidHeight)
    ));
    let rows = of.materials.iter().map(|material| {
        let names: Vec<&str> = (material.parts.iter())
            .filter_map(|&part| scene.problem.part_names.get(part).map(String::as_str))
            .collect();
        let modulus = |value: f64| w.given_text(value, Dimension::STRESS, Role::ElasticModulus);
        vec![
            material.letter.clone(),
            material.name.clone(),
            names.join(", "),
            material.elastic_modulus.map_or_else(|| "not given".to_owned(), modulus),
            ratio(material.modular_ratio),
        ]
    });
    let head = ["letter", "material", "parts", "modulus of elasticity", "modular ratio"];
    long.table("Materials", &head, rows.collect());
    let length = |value: f64| w.text(value, Dimension::LENGTH, Role::Breadth);
    let mut rows: Vec<Vec<String>> = Vec::new();
    for piece in of.strips.iter().flat_map(|strip| &strip.pieces) {
        let name = scene.problem.part_names.get(piece.part).cloned().unwrap_or_default();
        let row = vec![name, length(piece.below.1 - piece.below.0)];
        if !rows.contains(&row) {
            rows.push(row);
        }
    }
    long.table("Breadths in the transformed section", &["part", "breadth"], rows);
    let mut rows = Vec::new();
    for (band, rank) in &of.bands {
        for height in [band.to, band.from] {
            rows.push(vec![
                of.materials[*rank].name.clone(),
                w.text(height - scene.extent.bottom, Dimension::LENGTH, Role::CutHeight),
                stress(scene, scene.stress[0].bending_stress_in(band.part, height)),
            ]);
        }
    }
    let caption = "Bending stress in each material by height above the lowest fibre, straight in between";
    long.table(caption, &["material", "height", "bending stress"], rows);
    let remark = shrunk(of);
    if !remark.is_empty() {
        long.sentence(format!("To scale: {remark}."));
    }
    (short, long)
}

/// `4 MPa tension`, each in the unit that suits it: one material may bear a thousand times what the other does.
fn stress(scene: &Scene, value: f64) -> String {
    let size = scene.writer.text(value.abs(), Dimension::STRESS, Role::BendingStress);
    match value {
        value if value > 0.0 => format!("{size} tension"),
        value if value < 0.0 => format!("{size} compression"),
        _ => size,
    }
}
