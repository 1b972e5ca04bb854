//! One drawing as a file of its own: a PDF page or a PNG.

use std::collections::BTreeSet;
use std::fmt;
use std::sync::{Arc, LazyLock};

use super::data::{drawing_data, settable};
use super::typesetter::{Conformance, Error, Template, Typeset};
use figure::drawing::Drawing;
use resvg::tiny_skia::{Color, Pixmap, Transform};
use resvg::usvg::{Options, Tree, fontdb};

/// A PNG wider or higher than this would need gigabytes.
const LARGEST_SIDE: f64 = 16_384.0;

/// The drawing on one PDF page of its own size, tagged, with its description.
///
/// # Errors
/// As [`super::pdf`].
pub fn drawing_pdf(drawing: &Drawing, language: &str) -> Result<Vec<u8>, Error> {
    let data = drawing_data(drawing, language, &super::FACES);
    Typeset::new(Template::Drawing, data.bytes, &data.title)?.file(&drawing.name, Conformance::Accessible)
}

/// Why a drawing did not become a PNG.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PictureError {
    /// It has no size, or is asked for so large that it cannot be held.
    Size,
    /// The drawing's own SVG was refused: a fault of this program.
    Refused(String),
}

impl fmt::Display for PictureError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PictureError::Size => {
                write!(f, "the picture would be empty or larger than {LARGEST_SIDE} px a side")
            }
            PictureError::Refused(why) => write!(f, "the drawing could not be made a picture: {why}"),
        }
    }
}

impl std::error::Error for PictureError {}

static FACES: LazyLock<Arc<fontdb::Database>> = LazyLock::new(|| {
    let mut faces = fontdb::Database::new();
    for face in typst_assets::fonts() {
        faces.load_font_source(fontdb::Source::Binary(Arc::new(face)));
    }
    faces.set_serif_family("Libertinus Serif");
    Arc::new(faces)
});

/// The drawing as a PNG on white, `scale` px for each px of the drawing: 1 for 96 to the inch, 3 for print.
///
/// # Errors
/// If the picture would have no size, or be too large.
pub fn drawing_png(drawing: &Drawing, scale: f64) -> Result<Vec<u8>, PictureError> {
    let (width, height) = ((drawing.width * scale).ceil(), (drawing.height * scale).ceil());
    let sound = |side: f64| (1.0..=LARGEST_SIDE).contains(&side);
    if !sound(width) || !sound(height) {
        return Err(PictureError::Size);
    }
    let options = Options {
        font_family: "Libertinus Serif".to_owned(),
        fontdb: Arc::clone(&FACES),
        ..Options::default()
    };
    let svg = settable(&drawing.svg(), super::FACES.drawings, &mut BTreeSet::new());
    let tree = Tree::from_str(&svg, &options).map_err(|why| PictureError::Refused(why.to_string()))?;
    let mut picture = Pixmap::new(width as u32, height as u32).ok_or(PictureError::Size)?;
    picture.fill(Color::WHITE);
    resvg::render(&tree, Transform::from_scale(scale as f32, scale as f32), &mut picture.as_mut());
    picture.encode_png().map_err(|why| PictureError::Refused(why.to_string()))
}
