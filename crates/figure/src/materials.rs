//! What the hatches of a section stand for, in a legend and in words.

use crate::cross_section;
use crate::legend::Sample;
use crate::scene::Scene;
use crate::text::Label;
use workings::dimension::Dimension;
use workings::material::Material;
use workings::role::Role;

/// What is told of a material beside its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Told {
    /// Its modulus as given: on a paper, where the ratio is to be found.
    Modulus,
    /// Its modular ratio.
    Ratio,
    /// Its letter, its modulus and its modular ratio.
    All,
}

/// An entry of the legend for each material; none where there is one.
pub(crate) fn entries(scene: &Scene, told: Told) -> Vec<(Sample, Label)> {
    let hatches = cross_section::materials(scene);
    let materials = scene.problem.materials();
    let entry = |material: &Material| {
        let hatch = hatches.iter().find(|(ratio, _)| *ratio == material.modular_ratio);
        let sample = hatch.map_or(Sample::Ground, |&(_, slant)| Sample::Part(slant));
        let name = match told {
            Told::All => Label::symbol(material.letter.clone()).and_words(format!(": {}", material.name)),
            Told::Modulus | Told::Ratio => Label::words(material.name.clone()),
        };
        (
            sample,
            values(scene, material, told).into_iter().fold(name, |label, (symbol, value)| {
                label.and_words(", ").followed_by(symbol.equals(Label::words(value)))
            }),
        )
    };
    materials.iter().map(entry).collect()
}

/// The same in words: `steel, modular ratio 20`.
pub(crate) fn words(scene: &Scene, told: Told) -> Vec<String> {
    let one = |material: &Material| {
        let mut words = material.name.clone();
        for (symbol, value) in values(scene, material, told) {
            words.push_str(&format!(", {} {value}", symbol.plain()));
        }
        words
    };
    scene.problem.materials().iter().map(one).collect()
}

/// The symbols and values that are told.
fn values(scene: &Scene, material: &Material, told: Told) -> Vec<(Label, String)> {
    let w = &scene.writer;
    let mut values = Vec::new();
    let modulus = material.elastic_modulus;
    if let Some(modulus) = modulus.filter(|_| told != Told::Ratio) {
        let symbol = match material.is_reference() {
            true => w.symbol(Role::ElasticModulus),
            false => w.symbol_indexed(Role::ElasticModulus, &material.letter),
        };
        values.push((symbol, w.given_text(modulus, Dimension::STRESS, Role::ElasticModulus)));
    }
    if !material.is_reference() && (told != Told::Modulus || modulus.is_none()) {
        let symbol = w.symbol_indexed(Role::ModularRatio, &material.letter);
        values.push((symbol, w.text(material.modular_ratio, Dimension::NONE, Role::ModularRatio)));
    }
    values
}
