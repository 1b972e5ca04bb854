//! Whether an item is as hard in one form of an exam as in another.

use super::chance::{Test, holm, test};
use super::item::is_full;
use super::matrix::Matrix;
use super::sums::mean;
use serde::Serialize;

/// An item in all forms.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Variant {
    /// The label of the item.
    pub label: String,
    /// The forms in the order in which the students have them.
    pub forms: Vec<FormFigures>,
    /// The test of whether all marks are earned as often in every form.
    pub test: Option<Test>,
    /// Its probability, raised because as many items were tested as there are: a class of equal forms shows one below 0.05 in one of
    /// twenty reviews.
    pub p_of_all: Option<f64>,
    /// What to look at, in words; none where chance alone does as much. No full stop. It never is a reason to mark anew by itself.
    pub flag: Option<String>,
}

/// An item in one form.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FormFigures {
    /// The form.
    pub form: String,
    /// How many students' answers are marked.
    pub students: usize,
    /// How many earned all marks.
    pub full: usize,
    /// The facility.
    pub facility: Option<f64>,
}

/// Below this a difference is told. Common practice.
const TOLD: f64 = 0.05;

/// The items of a class whose students have forms, `forms` one for each row of the matrix.
///
/// What is tested is whether all marks are earned; part marks show in the facilities only.
pub fn variants(matrix: &Matrix, forms: &[String]) -> Vec<Variant> {
    let mut names: Vec<&String> = Vec::new();
    for form in forms {
        if !names.contains(&form) {
            names.push(form);
        }
    }
    let of = |index: usize| {
        let item = &matrix.items()[index];
        let of_form = |name: &&String| {
            let own = matrix.entries(index).zip(forms).filter(|(_, form)| form == name);
            let marks: Vec<f64> = own.filter_map(|(entry, _)| entry.marks()).collect();
            FormFigures {
                form: (*name).clone(),
                students: marks.len(),
                full: marks.iter().filter(|&&marks| is_full(marks, item.out_of)).count(),
                facility: mean(&marks).map(|mean| mean / item.out_of),
            }
        };
        let forms: Vec<FormFigures> = names.iter().map(of_form).collect();
        let counts: Vec<(usize, usize)> = forms.iter().map(|form| (form.students, form.full)).collect();
        Variant { label: item.label.clone(), test: test(&counts), forms, p_of_all: None, flag: None }
    };
    let mut variants: Vec<Variant> = (0..matrix.items().len()).map(of).collect();
    let tested: Vec<f64> = variants.iter().filter_map(|variant| variant.test).map(|test| test.p).collect();
    let mut raised = holm(&tested).into_iter();
    for variant in variants.iter_mut().filter(|variant| variant.test.is_some()) {
        variant.p_of_all = raised.next();
        variant.flag = variant.p_of_all.filter(|p| *p < TOLD).map(|p| words(&variant.forms, p));
    }
    variants
}

fn words(forms: &[FormFigures], p: f64) -> String {
    let told: Vec<String> = forms
        .iter()
        .filter(|form| form.students > 0)
        .map(|form| format!("{} of {} in form {}", form.full, form.students, form.form))
        .collect();
    format!(
        "all marks were earned by {}; chance alone does as much in about {:.1} of 100 classes, all items taken together. Look whether \
         the forms are equal, or whether their students are not",
        told.join(", "),
        100.0 * p
    )
}
