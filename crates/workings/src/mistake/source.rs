//! Where a mistake is known from.

/// A source. "Read" in a citation tells how much of it was.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[allow(missing_docs, reason = "each is told by its citation")]
pub enum Source {
    CommonErrors,
    StickingPoints,
    EquilibriumSketches,
    ConceptInventory,
    ShearInContext,
    ExamList,
    HomeworkDiscussion,
    PhysicalModel,
    RectangleExercise,
    LectureText,
    Flashcards,
    AnalysisText,
    DerivationStep,
    ConcreteCode,
    SteelPractice,
    MarkScheme,
    Memory,
    Lecturer,
}

impl Source {
    /// The source in full.
    pub fn citation(self) -> &'static str {
        match self {
            Self::CommonErrors => {
                "Gross and Dinehart, Identification of Common Student Errors in Solving Fundamental Mechanics \
                 Problems, ASEE, doi 10.18260/1-2--21466 (abstract read)"
            }
            Self::StickingPoints => {
                "McMullen, Rocha and others, Identifying Sticking Points, ASEE 2022, doi 10.18260/1-2--40565 \
                 (abstract read)"
            }
            Self::EquilibriumSketches => {
                "Johnson and Herman, Students' Conception and Application of Mechanical Equilibrium Through Their \
                 Sketches, ASEE 2017 (abstract read)"
            }
            Self::ConceptInventory => {
                "Steif and Dantzler, A Statics Concept Inventory, J. Eng. Educ. 2005 (first page read)"
            }
            Self::ShearInContext => {
                "Brown and others, The Importance of Context in Students' Understanding of Normal and Shear Stress \
                 in Beams, ASEE 2011 (from memory)"
            }
            Self::ExamList => {
                "a university's list of frequent mistakes in first-year structural mechanics (titles read)"
            }
            Self::HomeworkDiscussion => "a published homework discussion of a statics course, 2020 (read)",
            Self::PhysicalModel => "Brodland, Shear in Beams, web page of the University of Waterloo (read)",
            Self::RectangleExercise => "an open exercise on the shear stress in a rectangle (read)",
            Self::LectureText => "an open lecture text on shear in beams (read)",
            Self::Flashcards => "flashcards of a course, and a web page on which width to use (read)",
            Self::AnalysisText => {
                "a text of structural analysis: the width is measured where the part would slide (from memory)"
            }
            Self::DerivationStep => "a step of the derivation of V Q / (I t), taken wrongly",
            Self::ConcreteCode => {
                "EN 1992-1-1, 6.2.2, note: the largest stress may lie off the axis (from memory)"
            }
            Self::SteelPractice => "practice of EN 1993: V over the web as an estimate (from memory)",
            Self::MarkScheme => "a mark scheme with a code of its own for lost powers of ten (read)",
            Self::Memory => "usual warnings of textbooks and of teaching, from memory",
            Self::Lecturer => "the lecturer's own",
        }
    }
}
