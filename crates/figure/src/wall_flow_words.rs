//! The shear flow in the walls, in words.

use crate::cut_words::at_most;
use crate::drawing::Description;
use crate::scene::Scene;
use crate::wall_flow::Flowing;
use crate::wall_flow_centre::offset;
use workings::dimension::Dimension;
use workings::role::Role;

pub(crate) fn describe(scene: &Scene, flowing: &Flowing) -> (String, Description) {
    let w = &scene.writer;
    let size =
        |flow: f64| w.text_beside(flow.abs(), Dimension::FORCE_PER_LENGTH, Role::ShearFlow, flowing.largest);
    let shear = scene.values.shear[0];
    let force = w.text(shear.abs(), Dimension::FORCE, Role::ShearForce);
    let names: Vec<&str> = flowing.walls.walls().iter().map(|wall| wall.name.as_str()).collect();
    let most = (0..names.len()).filter_map(|wall| flowing.flow.largest_in(wall));
    let most = most.reduce(|most, of| if of.flow.abs() > most.flow.abs() { of } else { most });
    let name = most.and_then(|most| names.get(most.wall).copied()).unwrap_or_default();
    let centre = place(scene, flowing);
    let short = at_most(&format!(
        "Shear flow along the walls of the section under a shear force of {force}: largest in the {name}, {}. {centre}",
        size(flowing.largest)
    ));
    let mut long = Description::new();
    if !scene.told {
        return (short, long);
    }
    let (up, down) = if shear > 0.0 { ("up", "down") } else { ("down", "up") };
    long.sentence(format!(
        "The section with its shear flow as hatched ground off each wall, and arrows along the walls. The left piece of the \
         beam pushes the right one {up} with {force}; the right one pushes the left one {down} as much."
    ));
    let end = |flow: f64| if flowing.is_nothing(flow) { "none".to_owned() } else { size(flow) };
    let rows = names.iter().enumerate().map(|(wall, name)| {
        let (begin, last) = (flowing.flow.at(wall, 0.0), flowing.flow.at(wall, 1.0));
        let most = flowing.flow.largest_in(wall).map_or(0.0, |of| of.flow);
        vec![(*name).to_owned(), end(begin), end(last), end(most), runs(flowing, wall)]
    });
    long.table(
        "Shear flow along the middle line of each wall, from its left or lower end",
        &["wall", "where it begins", "where it ends", "largest", "runs"],
        rows.collect(),
    );
    long.sentence(centre);
    long.sentence(
        "Where walls meet, as much flows in as flows out; at a free edge there is none. Middle lines: fillets are left out.",
    );
    (short, long)
}

/// The way that a wall's flow runs, by what it adds up to.
fn runs(flowing: &Flowing, wall: usize) -> String {
    let (begin, middle, last) =
        (flowing.flow.at(wall, 0.0), flowing.flow.at(wall, 0.5), flowing.flow.at(wall, 1.0));
    let has =
        |sign: f64| [begin, middle, last].iter().any(|flow| !flowing.is_nothing(*flow) && flow * sign > 0.0);
    match (has(1.0), has(-1.0)) {
        (false, false) => "nowhere".to_owned(),
        (true, true) => "both ways".to_owned(),
        (forwards, _) => {
            let (from, to) = (flowing.walls.point(wall, 0.0), flowing.walls.point(wall, 1.0));
            let (Some((from, _)), Some((to, _))) = (from, to) else { return String::new() };
            let sense = if forwards { 1.0 } else { -1.0 };
            let (x, y) = (sense * (to.x - from.x), sense * (to.y - from.y));
            let way = if x.abs() > y.abs() {
                if x > 0.0 { "to the right" } else { "to the left" }
            } else if y > 0.0 {
                "up"
            } else {
                "down"
            };
            way.to_owned()
        }
    }
}

/// Where the shear centre stands.
fn place(scene: &Scene, flowing: &Flowing) -> String {
    let (_, distance) = offset(flowing);
    let web = flowing.walls.upright_wall_near(flowing.walls.shear_centre().x);
    let name = web.and_then(|(wall, _)| flowing.walls.walls().get(wall)).map(|wall| wall.name.as_str());
    let thing = match name {
        Some(name) => format!("the middle line of the {name}"),
        None => "the centroid".to_owned(),
    };
    match distance {
        None if name.is_none() => {
            "The shear centre stands on the upright line through the centroid.".to_owned()
        }
        None => format!("The shear centre stands on {thing}."),
        Some(distance) => {
            let size = scene.writer.text(distance.abs(), Dimension::LENGTH, Role::CutDistance);
            let side = if distance > 0.0 { "right" } else { "left" };
            format!("The shear centre stands {size} to the {side} of {thing}.")
        }
    }
}
