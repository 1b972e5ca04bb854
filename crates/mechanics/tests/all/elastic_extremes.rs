//! The elastic solution of sections that nobody draws on purpose: a value, or a reason.

use core::f64::consts::PI;
use mechanics::elastic::{Effort, ElasticShear, Fault, ShearForce};
use mechanics::real;
use mechanics::section::{HeightSide, Loop, Part, Point, Section, shapes};

const UP: ShearForce = ShearForce { right: 0.0, up: 1.0 };

fn solve(parts: Vec<Part>) -> Result<ElasticShear, Fault> {
    let section = Section::new(parts).unwrap_or_else(|faults| panic!("{faults:?}"));
    ElasticShear::new(&section, 0.3, Effort::usual())
}

fn polygon(corners: &[(f64, f64)]) -> Vec<Part> {
    let corners: Vec<Point> = corners.iter().map(|&(x, y)| Point::new(x, y)).collect();
    vec![Part::of_outline(Loop::polygon(&corners), Vec::new())]
}

/// All that can be asked is asked; what is returned is finite.
fn asked(answer: Result<ElasticShear, Fault>) -> Result<f64, Fault> {
    let elastic = answer?;
    let field = elastic.under(UP);
    let properties = *elastic.section().properties();
    for share in [0.0, 0.1, 0.5, 1.0] {
        let height = properties.bottom + share * properties.height();
        let _ = field.across(height, HeightSide::Above);
        let _ = field.across(height, HeightSide::Below);
    }
    assert!(
        field.at(Point::new(f64::NAN, 0.0)).is_none() && field.at(Point::new(f64::INFINITY, 0.0)).is_none()
    );
    assert!(
        field.facets().corners.iter().all(|(_, at, stress)| at.x.is_finite() && stress.size().is_finite())
    );
    let largest = field.largest().map_or(0.0, |largest| largest.value);
    let numbers = [
        elastic.error(),
        elastic.torsion_constant(),
        elastic.form_factor(UP),
        elastic.shear_centre().x,
        largest,
    ];
    assert!(numbers.iter().all(|number| number.is_finite()), "{numbers:?}");
    Ok(largest)
}

#[test]
fn a_thin_tube_is_solved_or_refused_by_name() {
    for wall in [0.01, 0.003, 0.001, 1e-4, 1e-6, 1e-8] {
        let answer = asked(solve(shapes::round_tube(1.0, wall).expect("it fits").parts));
        match answer {
            // Thin-wall theory: twice the mean, at the neutral axis.
            Ok(largest) => {
                let thin = 2.0 / (PI * (1.0 - wall) * wall);
                assert!((largest / thin - 1.0).abs() < 0.01 + 2.0 * wall, "{wall}: {largest} against {thin}");
            }
            Err(fault) => assert!(matches!(fault, Fault::TooFine { .. }) && wall < 1e-3, "{wall}: {fault:?}"),
        }
    }
}

#[test]
fn thin_planks_are_solved_or_refused_by_name() {
    for height in [1e-1, 1e-2, 1e-3, 1e-4, 1e-6] {
        let answer = asked(solve(polygon(&[(0.0, 0.0), (1.0, 0.0), (1.0, height), (0.0, height)])));
        let named = matches!(answer, Err(Fault::TooFine { .. } | Fault::DoesNotClose { .. }));
        assert!(if height > 5e-4 { answer.is_ok() } else { answer.is_ok() || named }, "{height}: {answer:?}");
    }
}

#[test]
fn slivers_and_needles_are_solved_or_refused_by_name() {
    for thin in [1e-2, 1e-4, 1e-6, 1e-8] {
        for corners in [
            vec![(0.0, 0.0), (1.0, 0.0), (1.0, thin)],
            vec![
                (0.0, 0.0),
                (1.0, 0.0),
                (1.0, 1.0),
                (0.5 + thin, 1.0),
                (0.5, thin),
                (0.5 - thin, 1.0),
                (0.0, 1.0),
            ],
            vec![
                (0.0, 0.0),
                (1.0, 0.0),
                (1.0, 0.5 - thin),
                (1.5, 0.5),
                (1.0, 0.5 + thin),
                (1.0, 1.0),
                (0.0, 1.0),
            ],
            vec![(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.5, 1.0 + thin), (0.0, 1.0)],
        ] {
            let answer = asked(solve(polygon(&corners)));
            let named = matches!(
                answer,
                Err(Fault::TooFine { .. } | Fault::NoMesh { .. } | Fault::DoesNotClose { .. })
            );
            assert!(answer.is_ok() || named, "{thin}: {answer:?}");
        }
    }
}

/// Two planks with a gap between them that is closed at one end.
#[test]
fn tiny_gaps_are_solved_or_refused_by_name() {
    for gap in [1e-2, 1e-4, 1e-6, 3e-9] {
        let corners = [
            (0.0, 0.0),
            (1.0, 0.0),
            (1.0, 0.1),
            (0.1, 0.1),
            (0.1, 0.1 + gap),
            (1.0, 0.1 + gap),
            (1.0, 0.2 + gap),
            (0.0, 0.2 + gap),
        ];
        let answer = asked(solve(polygon(&corners)));
        let named = matches!(answer, Err(Fault::TooFine { .. } | Fault::NoMesh { .. }));
        assert!(if gap > 5e-5 { answer.is_ok() } else { answer.is_ok() || named }, "{gap}: {answer:?}");
    }
}

#[test]
fn parts_that_touch_along_a_hair_are_solved_or_refused_by_name() {
    for width in [1e-2, 1e-4, 1e-6, 1e-8] {
        let below = Part::rectangle(Point::new(0.0, 0.0), 1.0, 0.2);
        let above = Part::rectangle(Point::new(1.0 - width, 0.2), 1.0, 0.2).with_modular_ratio(3.0);
        let answer = asked(solve(vec![below, above]));
        let named = matches!(answer, Err(Fault::TooFine { .. } | Fault::NoMesh { .. } | Fault::NotSolvable));
        assert!(answer.is_ok() || named, "{width}: {answer:?}");
    }
}

#[test]
fn materials_that_differ_by_twelve_powers_of_ten_are_solved_or_refused_by_name() {
    for ratio in [1e-12, 1e-6, 1e6, 1e12] {
        let below = Part::rectangle(Point::new(0.0, 0.0), 1.0, 0.2);
        let above = Part::rectangle(Point::new(0.2, 0.2), 0.5, 0.2).with_modular_ratio(ratio);
        let answer = asked(solve(vec![below, above]));
        let named = matches!(answer, Err(Fault::NotSolvable | Fault::DoesNotClose { .. }));
        assert!(answer.is_ok() || named, "{ratio}: {answer:?}");
    }
}

#[test]
fn five_hundred_corners_are_solved() {
    let corner = |k: u32| {
        let angle = 2.0 * PI * f64::from(k) / 500.0;
        let radius = if k.is_multiple_of(2) { 0.1 } else { 0.0995 };
        (radius * real::cos(angle), radius * real::sin(angle))
    };
    let corners: Vec<(f64, f64)> = (0..500).map(corner).collect();
    let largest = asked(solve(polygon(&corners))).expect("a gear of small teeth");
    // In its middle a circle of the mean radius, Poisson's ratio 0.3: 1.385 times the mean stress.
    let circle = (3.0 + 2.0 * 0.3) / (2.0 * 1.3) / (PI * 0.09975_f64.powi(2));
    let gear = solve(polygon(&corners)).expect("a gear of small teeth");
    let middle = gear.under(UP).at(Point::new(0.0, 0.0)).expect("it is solid").up;
    assert!((middle / circle - 1.0).abs() < 0.01, "{middle} against {circle}");
    // Between the teeth there is more.
    assert!(largest > middle);
    assert_eq!(gear.sharp_corners().len(), 250);
}

#[test]
fn sizes_from_atoms_to_galaxies_are_solved_and_beyond_refused() {
    for power in [-70, -58, -20, -9, 0, 9, 20, 58, 70] {
        let size = 10.0_f64.powi(power);
        let section = Section::new(polygon(&[(0.0, 0.0), (size, 0.0), (size, size), (0.0, size)]));
        let Ok(section) = section else { continue };
        match ElasticShear::new(&section, 0.3, Effort::usual()) {
            Ok(elastic) => {
                let largest = elastic.under(UP).largest().expect("there is one").value;
                // The series in `elastic_theory.rs` at the middle of the side, times 3/2.
                assert!((largest * size * size - 1.7185).abs() < 0.002, "{power}: {}", largest * size * size);
            }
            Err(fault) => {
                assert!(matches!(fault, Fault::Size { .. }) && power.abs() == 70, "{power}: {fault:?}")
            }
        }
    }
}
