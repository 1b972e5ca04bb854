//! Walls that make no section.

use mechanics::section::Point;
use mechanics::thin_wall::{ThinWallFault, ThinWalls, Wall};

fn made(joints: &[(f64, f64)], walls: Vec<Wall>) -> Result<ThinWalls, ThinWallFault> {
    ThinWalls::new(joints.iter().map(|&(x, y)| Point { x, y }).collect(), walls)
}

#[test]
fn walls_without_length_or_thickness_are_refused() {
    assert_eq!(ThinWalls::channel(0.06, 0.18, 0.0, 0.005).err(), Some(ThinWallFault::Size { wall: 0 }));
    assert!(ThinWalls::channel(0.06, f64::NAN, 0.005, 0.005).is_err());
    assert!(ThinWalls::slit_tube(0.0, 0.003).is_err());
    assert_eq!(made(&[(0.0, 0.0)], Vec::new()).err(), Some(ThinWallFault::NoWalls));
    assert_eq!(made(&[], Vec::new()).err(), Some(ThinWallFault::NoWalls));
}

#[test]
fn walls_that_do_not_hang_together_are_refused() {
    let wall = |from: usize, to: usize| Wall::straight("wall", from, to, 0.01);
    let corners = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (3.0, 0.0)];
    assert_eq!(made(&corners, vec![wall(0, 4)]).err(), Some(ThinWallFault::NoSuchJoint { wall: 0 }));
    let apart = made(&corners, vec![wall(0, 1), wall(1, 2)]);
    assert_eq!(apart.err(), Some(ThinWallFault::Apart { joint: 3 }));
    let plate = made(&[(0.0, 0.0), (1.0, 0.5), (3.0, 1.5)], vec![wall(0, 1), wall(1, 2)]);
    assert_eq!(plate.err(), Some(ThinWallFault::OnOneLine));
    let round = Wall::round("arc", (0, 1), Point { x: 0.0, y: 1.0 }, 1.0, 0.01);
    assert_eq!(
        made(&[(0.0, 0.0), (1.0, 1.0)], vec![round]).err(),
        Some(ThinWallFault::EndsElsewhere { wall: 0 })
    );
}
