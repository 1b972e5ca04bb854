//! From the text of a lesson file to a checked lesson and its findings.

mod allowable;
mod beam;
mod beam_faults;
mod form;
mod further_cuts;
mod joints;
mod lecture;
mod marking;
mod materials;
mod mistakes;
mod node;
mod notation;
mod only;
mod outline;
mod parts;
mod place;
mod profile;
mod quantity;
mod questions;
mod require;
mod section;
mod section_faults;
mod section_shape;
mod syntax;
mod values;
mod variants;
pub(crate) mod vary;
pub(crate) mod words;

use crate::edit::{self, Input};
use crate::finding::{Finding, Report, Source};
use crate::lesson::Lesson;
use crate::papers;
use mechanics::beam::Load;
use node::Table;
use std::sync::Arc;
use syntax::Trust;
use workings::material::PartMaterial;
use workings::problem::{LoadLabel, Problem};
use workings::solved::Solved;

/// What came of reading a file: a lesson, or findings, never both and never neither.
#[derive(Clone, Debug)]
pub struct Reading {
    /// The lesson, where nothing was wrong.
    pub lesson: Option<Lesson>,
    /// The same, solved: only so it is known what its questions may ask for.
    pub solved: Option<Solved>,
    /// All mistakes of the file, in the order of the file.
    pub findings: Vec<Finding>,
}

/// Reads the text of a lesson file; `name` is what the file is called in findings. Never fails and never panics:
/// whatever is wrong becomes a finding.
///
/// ```
/// let reading = lesson::read("title = \"A beam\"\nunits = metric", "beam.toml");
/// assert!(reading.lesson.is_none());
/// let first = &reading.findings[0];
/// assert_eq!((first.start.line, first.headline.as_str()), (1, "the lesson has no [beam]"));
/// ```
pub fn read(text: &str, name: &str) -> Reading {
    read_with(text, name, true).reading
}

/// A lesson as its file shows it.
#[derive(Clone, Debug)]
pub struct Shown {
    /// What came of reading it.
    pub reading: Reading,
    /// What the file gives that can be given anew.
    pub inputs: Vec<Input>,
}

/// As [`read()`], but looks only at the lesson as its file shows it, not at what else its papers may say: for the board,
/// which reads at every movement of a hand.
pub fn read_as_shown(text: &str, name: &str) -> Shown {
    read_with(text, name, false)
}

fn read_with(text: &str, name: &str, papers_too: bool) -> Shown {
    let source = Arc::new(Source::new(name, text));
    let mut report = Report::new(Arc::clone(&source));
    let (table, trust) = syntax::parse(&source, &mut report);
    if trust == Trust::Nothing {
        let reading = Reading { lesson: None, solved: None, findings: report.into_findings() };
        return Shown { reading, inputs: Vec::new() };
    }
    let mut meaning = Report::new(Arc::clone(&source));
    let (mut lesson, solved) = understand(table.get_ref(), &source, &mut meaning).unzip();
    if let Some(lesson) = &mut lesson {
        lesson.remarks = meaning.take_remarks();
    }
    if lesson.is_none() && meaning.is_empty() && report.is_empty() {
        // Whatever is refused has been told; should that ever be wrong, the lecturer must still hear of it.
        meaning.add(source.first_line(), "this lesson cannot be read").mend("check the units of its numbers");
    }
    if trust == Trust::Whole {
        report.join(meaning);
    } else {
        report.take_over(meaning);
    }
    let sound = papers_too && report.is_empty();
    if let Some(lesson) = lesson.as_ref().filter(|lesson| sound && !lesson.vary.is_empty()) {
        papers::check_choices(&source, &table, lesson, &mut report);
    }
    let findings = report.into_findings();
    let sound = findings.is_empty();
    let solved = solved.flatten().filter(|_| sound);
    let inputs = if papers_too { Vec::new() } else { edit::inputs(table.get_ref()) };
    Shown { reading: Reading { lesson: lesson.filter(|_| sound), solved, findings }, inputs }
}

/// Reads what the tables mean. Whatever comes out is only to be used where nothing was reported.
fn understand(
    raw: &toml::de::DeTable<'_>,
    source: &Source,
    report: &mut Report,
) -> Option<(Lesson, Option<Solved>)> {
    let (mut lesson, table) = stated(raw, source, report)?;
    // What a question may ask for is known only when the lesson is solved, and that needs a sound one.
    let sound = report.is_empty();
    let solved = sound.then(|| lecture::answers(&lesson, &table, source, report)).flatten();
    if let Some(solved) = &solved {
        lesson.mistakes = mistakes::read(&table, source.text(), solved, report);
    }
    Some((lesson, solved))
}

/// The lesson as the tables state it, with the tables.
fn stated(raw: &toml::de::DeTable<'_>, source: &Source, report: &mut Report) -> Option<(Lesson, Table)> {
    let file = source.text();
    let (known, values) = values::read(raw.get("values"), file, report);
    let lesson = form::Reader { file, known: &known, report }.table(raw, "", source.first_line());

    let style = notation::read(&lesson, report);
    let about = lecture::about(&lesson, report);
    let moving = vary::moving(vary::varied(&lesson), &values);
    let mut variations = vary::of_values(&lesson, &values, &moving, &known, report);
    variations.extend(variants::read(&lesson, &variations, report));
    let only = only::read(&lesson, &variations, &known, report);
    let requirements = require::read(&lesson, &known, &moving, file, report);
    let material = lesson.table("material");
    let elastic_modulus = material.and_then(|table| table.value("E"));
    let density = material.and_then(|table| table.value("density"));

    let beam = lesson.table("beam").map(|table| beam::read(table, file, &style, report));
    let section = lesson
        .table("section")
        .map(|table| section::read(table, elastic_modulus.as_ref().map(|given| given.value), &style, report));
    if let Some(table) = lesson.table("section") {
        materials::check(table, material, report);
        materials::check_stated(table, material, report);
    }
    materials::check_moduli(lesson.table("section"), material, &style, report);
    let beam_length = beam.as_ref().and_then(|beam| beam.length).filter(|length| *length > 0.0);
    let slice_table = lesson.table("slice");
    let slice = slice_table.and_then(|table| place::slice(table, beam_length, &style, report));
    let cut = lesson
        .table("cut")
        .and_then(|table| place::cut(table, section.as_ref(), &known, file, &style, report));

    let mut beam = beam?;
    if let Some(place) = beam.self_weight.clone() {
        let own = section.as_ref().is_some_and(|section| {
            !section.densities.is_empty() && section.densities.iter().all(Option::is_some)
        });
        let refused = material.is_none_or(|table| table.has("density") || table.has_stranger);
        if density.is_none() && !own && !refused {
            report
                .add(place, "the beam's own weight counts, but its material has no density")
                .mend("under [material] add density = \"7850 kg/m3\", or take `self-weight` out");
        }
    }
    if let (Some(slice), Some(table), Some(length)) = (&slice, slice_table, beam_length) {
        place::undisturbed(slice, table, &beam.beam(length, 1.0), &style, report);
    }
    let section = section?;
    let checked = section.section.as_ref()?;
    let (length, modulus) = (beam_length?, elastic_modulus?.value);
    if beam.self_weight.is_some() {
        let weight = weight_per_length(&section, density.as_ref().map(|given| given.value))?;
        beam.loads.push((
            Load::Spread { from: 0.0, to: length, down_from: weight, down_to: weight },
            LoadLabel { name: "self-weight".to_owned(), self_weight: true },
        ));
    }
    let rigidity = modulus * checked.properties().second_moment;
    let solid_beam = beam.beam(length, rigidity);
    let allowable = allowable::read(&lesson, checked, report);
    let texts = lecture::texts(&lesson);
    let (questions, tolerance) = (questions::read(&lesson, report), questions::tolerance(&lesson, report));
    let place::CutRead { place: cut, from_axis: cut_from_axis } = cut?;
    let problem = Problem {
        title: about.title.clone(),
        beam: solid_beam,
        elastic_modulus: modulus,
        shear: material.map(materials::shear).unwrap_or_default(),
        density: density.map(|given| given.value).filter(|_| beam.self_weight.is_some()),
        supports: beam.supports.into_iter().map(|(_, label)| label).collect(),
        loads: beam.loads.into_iter().map(|(_, label)| label).collect(),
        parts: section.parts,
        part_names: section.part_names,
        part_materials: named(section.part_materials, material),
        section_name: section.name,
        joints: section.joints,
        further_cuts: section.further_cuts,
        allowable,
        slice: slice?,
        cut,
    };
    let vary = variations;
    let lesson_read = Lesson {
        about,
        problem,
        cut_from_axis,
        style,
        texts,
        questions,
        mistakes: Vec::new(),
        tolerance,
        values,
        vary,
        only,
        requirements,
        remarks: Vec::new(),
    };
    Some((lesson_read, lesson))
}

/// What the parts are made of; a part that has no modulus of its own is of the material of the lesson.
fn named(mut parts: Vec<PartMaterial>, material: Option<&Table>) -> Vec<PartMaterial> {
    let name = material.and_then(|table| table.owned_text("name"));
    for part in parts.iter_mut().filter(|part| part.elastic_modulus.is_none() && part.name.is_none()) {
        part.name.clone_from(&name);
    }
    parts
}

/// The weight of the beam for each metre of its length, N/m; none where a part has no density.
fn weight_per_length(section: &section::SectionRead, density: Option<f64>) -> Option<f64> {
    let checked = section.section.as_ref()?;
    let mut mass = 0.0;
    for (part, own) in section.densities.iter().enumerate() {
        mass += checked.part_properties(part)?.area * own.or(density)?;
    }
    Some(mass * quantity::STANDARD_FALL)
}
