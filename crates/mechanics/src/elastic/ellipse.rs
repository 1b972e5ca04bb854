//! The ellipse of the reference cases, which is no outline of lines and arcs: the triangles of a circle, pressed together.

use super::element::{Basis, Shape, Shapes};
use super::flexure::{Moduli, Solved};
use super::mesh::Mesh;
use super::outline::Outline;
use crate::section::{Point, Section, shapes};
use serde_json::Value;

/// The problem of an ellipse with half axes 1 and `upright`, solved; unit of length half the level axis.
fn ellipse(upright: f64, contraction: f64) -> Solved {
    let circle = Section::new(shapes::circle(2.0).expect("a circle").parts).expect("it is sound");
    let mut outline = Outline::of(&circle, 1.0).expect("it has a net");
    let mesh = Mesh::fill(&mut outline, 1, 0.05).expect("it has a mesh");
    let basis = Basis::new(8);
    let pressed = mesh.triangles.iter().map(|triangle| {
        let mut shape = Shape::new(&basis, triangle.corners.map(|k| mesh.points[k]), &triangle.arcs);
        for point in shape.corners.iter_mut().chain(shape.lattice.iter_mut().flatten()) {
            point.y *= upright;
        }
        shape
    });
    let moduli = Moduli { ratios: &[1.0], shear_ratios: &[1.0], contraction };
    Solved::on_shapes(&mesh, pressed.collect(), basis.clone(), moduli).expect("it is solvable")
}

/// Upward stress under an upward force of one.
fn up(solved: &Solved, at: Point) -> f64 {
    let at = at.minus(solved.centre);
    let mut shapes = Shapes::default();
    let inside = (0..solved.shapes.len()).find_map(|triangle| {
        let shares = solved.shapes[triangle].shares_of(&solved.basis, at, &mut shapes)?;
        shares.iter().all(|share| *share > -1e-6).then_some((triangle, shares))
    });
    let (triangle, shares) = inside.expect("the point lies in the ellipse");
    let times = [0.0, 1.0 / solved.integrals.moments[2], 0.0];
    solved.stress(triangle, shares, times, &mut shapes)[1]
}

/// Source: Timoshenko & Goodier, bending of a bar of elliptical section, as the reference case quotes it from memory.
#[test]
fn the_five_values_of_the_ellipse_hold() {
    let file: Value =
        serde_json::from_str(include_str!("../../tests/reference/true_shear.json")).expect("it is JSON");
    let cases = file["cases"].as_array().expect("cases");
    let case = cases.iter().find(|case| case["id"] == "ellipse-true-shear-tall").expect("the ellipse");
    let number = |value: &Value| value.as_f64().expect("a number");
    let shape = &case["section"]["shape"];
    let (a, b) = (number(&shape["half_axis_x_m"]), number(&shape["half_axis_y_m"]));
    let (nu, shear) = (number(&case["poisson_ratio"]), number(&case["shear_N"]));
    let solved = ellipse(b / a, nu / (2.0 * (1.0 + nu)));
    let expected = case["expect"].as_array().expect("values");
    for value in expected {
        let place = &value["where"];
        let found = match value["name"].as_str().expect("a name") {
            "second_moment_x" => solved.integrals.moments[2] * a.powi(4),
            // 4 V / (3 A): the formula's value, from the area of the mesh.
            "formula_shear_stress" => 4.0 * shear / (3.0 * solved.integrals.area * a * a),
            "shear_stress_y" => {
                let at = Point::new(number(&place["x_m"]) / a, number(&place["y_m"]) / a);
                up(&solved, at) * shear / (a * a)
            }
            other => panic!("{other} is asked for and not known"),
        };
        let wanted = number(&value["value"]);
        let tolerance = number(&value["rel_tol"]) * wanted.abs();
        assert!((found - wanted).abs() <= tolerance, "{value}: found {found}");
    }
    assert_eq!(expected.len(), 5);
}
