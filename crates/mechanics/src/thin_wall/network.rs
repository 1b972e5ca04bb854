//! How the walls hang together: which joints can be reached, and which walls close cells.

use super::{ThinWallFault, Wall};

/// A closed way through walls: each wall's index, and 1 where the way runs as the wall does, -1 against it.
#[derive(Clone, Debug, PartialEq)]
pub struct Cell {
    /// The walls in no special order.
    pub walls: Vec<(usize, f64)>,
}

/// Joints from the first one outwards, each with the wall that leads back; none for the first.
pub(super) type Tree = Vec<(usize, Option<usize>)>;

/// A tree that reaches every joint, and a cell for each wall that is not of the tree: that wall and the way back through the tree.
///
/// The tree reaches each joint by as few walls as may be, so that the cells of a box of two cells are the two that one sees.
pub(super) fn network(joints: usize, walls: &[Wall]) -> Result<(Tree, Vec<Cell>), ThinWallFault> {
    if walls.is_empty() || joints == 0 {
        return Err(ThinWallFault::NoWalls);
    }
    let mut back: Vec<Option<usize>> = vec![None; joints];
    let mut reached = vec![false; joints];
    let mut tree: Tree = vec![(0, None)];
    reached[0] = true;
    let mut next = 0;
    while let Some(&(joint, _)) = tree.get(next) {
        next += 1;
        for (index, wall) in walls.iter().enumerate() {
            for (here, there) in [(wall.from, wall.to), (wall.to, wall.from)] {
                if here == joint && !reached[there] {
                    reached[there] = true;
                    back[there] = Some(index);
                    tree.push((there, Some(index)));
                }
            }
        }
    }
    if let Some(joint) = reached.iter().position(|reached| !reached) {
        return Err(ThinWallFault::Apart { joint });
    }
    let closing = (0..walls.len()).filter(|&index| !back.contains(&Some(index)));
    let cells = closing.map(|index| cell(index, walls, &back)).collect();
    Ok((tree, cells))
}

/// Along the closing wall, back from its end to the first joint, and from there to its beginning; what is gone both ways
/// falls out.
fn cell(closing: usize, walls: &[Wall], back: &[Option<usize>]) -> Cell {
    let mut senses = vec![0.0; walls.len()];
    senses[closing] = 1.0;
    for (start, way) in [(walls[closing].to, 1.0), (walls[closing].from, -1.0)] {
        let mut joint = start;
        while let Some(index) = back[joint] {
            let wall = &walls[index];
            let (sense, before) = if wall.to == joint { (-way, wall.from) } else { (way, wall.to) };
            senses[index] += sense;
            joint = before;
        }
    }
    Cell { walls: senses.into_iter().enumerate().filter(|(_, sense)| *sense != 0.0).collect() }
}
