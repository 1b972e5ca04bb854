//! How large a section is drawn with the shear flow along its walls, so that its values have room.

use crate::cross_section::Frame;
use crate::geometry::Point as Spot;
use crate::scene::Scene;
use crate::wall_flow::Flowing;
use mechanics::thin_wall::Wall;

/// Room that the section takes, px across and down.
const ROOM: (f64, f64) = (220.0, 230.0);
/// How tall the section is drawn at most where it is drawn larger, px.
const TALLEST: f64 = 320.0;
/// How long a level wall is drawn between two branches, in sizes of small text: a value stands at each of its ends.
const TWO_VALUES: f64 = 12.0;
/// What values take on either side of the ordinates, px.
const BESIDE: f64 = 68.0;
/// Where such walls are shorter, in sizes of small text, no values stand at their ends and cells have their number alone.
const TOO_SHORT: f64 = 10.5;
/// The largest flow as it is drawn off its wall, px; where the sheet has no room for as large a section as would be wanted; and where
/// it has hardly any.
const ORDINATE: f64 = 44.0;
const SHORT_ORDINATE: f64 = 32.0;
const SHORTEST_ORDINATE: f64 = 20.0;

/// How the section stands on the sheet.
pub(crate) struct Fit {
    pub frame: Frame,
    /// The ordinate of the largest flow, px.
    pub ordinate: f64,
    /// Whether there is no room for the values where walls meet.
    pub crowded: bool,
}

impl Fit {
    /// As large as usual; with several cells larger if need be, so that a value stands at each end of every level wall between two
    /// branches, as far as the sheet has room.
    pub fn of(scene: &Scene, flowing: &Flowing) -> Self {
        let fitting = |times: f64| {
            let room = (times * scene.across(ROOM.0), times * ROOM.1);
            Frame::fitting(scene.extent, room, Spot::new(0.0, 0.0))
        };
        let usual = fitting(1.0);
        let Some(shortest) = shortest_between(flowing).map(|length| length * usual.scale) else {
            return Self { frame: usual, ordinate: ORDINATE, crowded: false };
        };
        let (breadth, height) = (scene.extent.breadth() * usual.scale, scene.extent.height() * usual.scale);
        let most = |ordinate: f64| {
            ((scene.sheet.width - 2.0 * (ordinate + BESIDE)) / breadth).min(TALLEST / height).max(1.0)
        };
        let [wanted, least] = [TWO_VALUES, TOO_SHORT].map(|sizes| sizes * scene.sheet.small / shortest);
        let ordinates = [ORDINATE, SHORT_ORDINATE, SHORTEST_ORDINATE];
        let enough = [wanted, least, least];
        let ordinate =
            ordinates.into_iter().zip(enough).find(|(ordinate, enough)| most(*ordinate) >= *enough);
        let ordinate = ordinate.map_or(SHORTEST_ORDINATE, |(ordinate, _)| ordinate);
        let times = wanted.max(1.0).min(most(ordinate));
        Self { frame: fitting(times), ordinate, crowded: times < least }
    }
}

/// The shortest level wall of several cells that goes on at both ends and branches at one, m; none where there is but one cell.
fn shortest_between(flowing: &Flowing) -> Option<f64> {
    let walls = flowing.walls.walls();
    if flowing.walls.cells().len() < 2 {
        return None;
    }
    let meeting =
        |joint: usize| walls.iter().flat_map(|wall| [wall.from, wall.to]).filter(|at| *at == joint).count();
    let between = |(k, wall): (usize, &Wall)| {
        let (_, along) = flowing.walls.point(k, 0.5)?;
        let ends = [wall.from, wall.to].map(meeting);
        let branches = ends[0].max(ends[1]) > 2 && ends[0].min(ends[1]) > 1;
        (branches && along.x.abs() > along.y.abs()).then(|| flowing.walls.length(k))
    };
    walls.iter().enumerate().filter_map(between).reduce(f64::min)
}
