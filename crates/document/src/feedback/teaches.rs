//! Which drawing of the lecture teaches against a mistake.

use assessment::review::scene;
use lesson::Scene;
use workings::role::Role;
use workings::solved::Solved;
use workings::working::Working;

/// The drawing that shows what a mistake at a working misses, by its name; none where there is none for it.
///
/// `mistake` is the id of a mistake or the name of a slip. Common practice, no source: a mistake about how much is sent to the drawing in which
/// that very quantity can be measured.
pub fn drawing_that_teaches(
    mistake: Option<&str>,
    working: &Working,
    solved: &Solved,
) -> Option<&'static str> {
    let role = working.symbol.role;
    let of_inner_forces = matches!(role, Role::ShearForce | Role::BendingMoment);
    match mistake {
        Some("v-sign" | "m-sign") => return Some("signs"),
        Some("sign") if of_inner_forces => return Some("signs"),
        // What is lost there is no matter of the beam.
        Some("sign" | "power-of-ten" | "cubed-millimetres" | "inch-pound" | "half-or-double") => return None,
        Some("hogging-as-sagging" | "tension-as-if-sagging") => return Some("deflected"),
        Some(
            "overhang-left-out" | "overhang-turns-the-same-way" | "each-span-alone" | "fixed-end-as-a-pin",
        ) => {
            return Some("free-body");
        }
        Some("smaller-moment-not-compared") => return Some("diagrams"),
        Some("wrong-side-of-the-jump" | "straight-line-m" | "couple-no-jump") => return Some("diagrams"),
        Some(
            "ratio-upside-down"
            | "ratio-left-out"
            | "i-as-drawn"
            | "height-transformed"
            | "stress-of-the-reference"
            | "stress-divided-by-the-ratio"
            | "q-as-drawn"
            | "transformed-width",
        ) => return Some("transformed"),
        Some("zero-where-bending-is-zero" | "q-at-the-neutral-axis") => return Some("first-moment"),
        _ => {}
    }
    let at_the_slice = working.place.station == Some(solved.problem().slice.at);
    let name = match (scene(role), role) {
        (
            _,
            Role::WidthAtCut | Role::AreaBeyond | Role::CentroidBeyond | Role::CutDistance | Role::CutHeight,
        ) => "section",
        (_, Role::FirstMoment) => "section",
        (_, Role::StressResultant) => "piece",
        (Scene::Beam, _) => "beam",
        (Scene::Reactions, _) => "free-body",
        (Scene::Diagrams, Role::Deflection | Role::Slope) => "deflected",
        (Scene::Diagrams, _) if of_inner_forces && at_the_slice => "left-piece",
        (Scene::Diagrams, _) => "diagrams",
        (Scene::Section, _) => "section",
        (Scene::Transformed, _) => "transformed",
        (Scene::Slice, _) => "slice",
        (Scene::Bending, _) => "faces",
        (Scene::Cut, _) => "section",
        (Scene::Derivation, _) => "piece",
        (Scene::Shear, _) => "depth",
        (Scene::Walls, _) => "wall-flow",
        (Scene::Point, _) => "point",
        (Scene::Skew, _) => "skew",
        (Scene::Joints, _) => "pictorial",
        (Scene::Allowables | Scene::Solution | Scene::Limits, _) => return None,
    };
    Some(name)
}

/// What to look for in it.
pub(super) fn what_it_shows(name: &str) -> &'static str {
    match name {
        "beam" => "The beam with its loads and reactions.",
        "point" => {
            "The element at the cut as it lies and turned to the principal directions, and Mohr's circle."
        }
        "skew" => {
            "The section with its inclined neutral axis, its principal axes, and the stress at right angles to the neutral axis."
        }
        "wall-flow" => "The shear flow in the walls, its size drawn off each wall, and the shear centre.",
        "free-body" => {
            "The whole beam as a free body: loads and reactions balance, in force and in moment about any point."
        }
        "signs" => "Which shear force and which bending moment this course counts as positive.",
        "left-piece" => {
            "The piece to the left of the slice as a free body: everything that acts on it stands here, and the shear force and the \
             bending moment at its right end keep it in balance."
        }
        "diagrams" => "Shear force and bending moment along the beam. The one is the slope of the other.",
        "deflected" => {
            "The beam as it bends, much enlarged. Where it sags its bottom is stretched; where it hogs, its top."
        }
        "section" => {
            "The section to scale. NA is the neutral axis, through the centroid of the whole section; the part beyond the cut is \
             hatched, and its centroid and the width of the cut are marked."
        }
        "transformed" => {
            "The section, the transformed section and the bending stress in each material: at one height the stresses stand to each \
             other as the moduli do."
        }
        "slice" => "The slice as a free body.",
        "faces" => {
            "Bending stress on the two faces of the slice: nothing at the neutral axis, most at the edges."
        }
        "piece" => {
            "The piece beyond the cut as a free body: the force on the cut makes up for the difference of the two resultants."
        }
        "first-moment" => {
            "The first moment of the part beyond a cut, for every height of the cut: it belongs to the cut, and is largest at the \
             neutral axis."
        }
        "depth" => {
            "Bending stress and shear stress over the depth: the shear stress is nothing at the edges."
        }
        "pictorial" => "The slice with the piece beyond the cut lifted off.",
        _ => "",
    }
}
