//! The elastic solution against exact theory, and how it converges.

use core::f64::consts::PI;
use mechanics::elastic::{Effort, ElasticShear, Elasticity, Fault, ShearForce};
use mechanics::real;
use mechanics::section::{HeightSide, Part, Point, Section, shapes};
use mechanics::stress::StressOverDepth;

const UP: ShearForce = ShearForce { right: 0.0, up: 1.0 };
const RIGHT: ShearForce = ShearForce { right: 1.0, up: 0.0 };

fn section(shape: Result<shapes::Shape, Vec<mechanics::section::Fault>>) -> Section {
    Section::new(shape.expect("the dimensions are sound").parts).expect("the section is sound")
}

fn solved(section: &Section, nu: f64, effort: Effort) -> ElasticShear {
    ElasticShear::new(section, nu, effort).unwrap_or_else(|fault| panic!("{fault:?}"))
}

fn assert_within(found: f64, wanted: f64, relative: f64) {
    assert!((found - wanted).abs() <= relative * wanted.abs(), "{found} against {wanted}");
}

/// Source: Timoshenko & Goodier, bending of a circular bar:
/// `tau_y = (3+2n)/(8(1+n)) (V/I) (R² - y² - (1-2n)/(3+2n) x²)`, `tau_x = -(1+2n)/(4(1+n)) V x y / I`.
fn circle(nu: f64, r: f64, v: f64, x: f64, y: f64) -> [f64; 2] {
    let per_i = v / (PI * r.powi(4) / 4.0);
    let up = (3.0 + 2.0 * nu) / (8.0 * (1.0 + nu))
        * per_i
        * (r * r - y * y - (1.0 - 2.0 * nu) / (3.0 + 2.0 * nu) * x * x);
    [-(1.0 + 2.0 * nu) / (4.0 * (1.0 + nu)) * per_i * x * y, up]
}

/// The largest error of both components over a lattice of points, of the largest stress.
fn error_in_circle(nu: f64, effort: Effort) -> f64 {
    let r = 0.05;
    let disc = section(shapes::circle(2.0 * r));
    let elastic = solved(&disc, nu, effort);
    let field = elastic.under(ShearForce { right: 0.0, up: 1000.0 });
    let most = circle(nu, r, 1000.0, 0.0, 0.0)[1];
    let middle = disc.properties().centroid;
    let mut worst: f64 = 0.0;
    for i in -20..=20 {
        for j in -20..=20 {
            let (x, y) = (r * f64::from(i) / 20.0, r * f64::from(j) / 20.0);
            if x * x + y * y <= r * r {
                let found = field.at(Point::new(middle.x + x, middle.y + y)).expect("it lies in the circle");
                let [right, up] = circle(nu, r, 1000.0, x, y);
                worst = worst.max((found.right - right).abs()).max((found.up - up).abs());
            }
        }
    }
    worst / most
}

fn of_order(order: usize, triangles: f64) -> Effort {
    Effort {
        lowest_order: order - 1,
        highest_order: order,
        wanted_error: 0.0,
        least_triangles: triangles,
        most_unknowns: usize::MAX,
        layers: 0,
        all_corners: false,
    }
}

#[test]
fn a_circle_is_met_to_a_thousandth_at_usual_effort() {
    for nu in [0.0, 0.25, 0.5, -0.4] {
        let error = error_in_circle(nu, Effort::usual());
        assert!(error < 1e-3, "nu = {nu}: {error}");
    }
}

/// Stresses are slopes of polynomials of order p: their error falls as h^p. The size of the triangles is halved three
/// times, each time with four times as many.
#[test]
fn the_error_falls_with_the_size_of_the_triangles_as_theory_says() {
    for order in [3, 4] {
        let errors = [16.0, 64.0, 256.0, 1024.0].map(|count| error_in_circle(0.3, of_order(order, count)));
        let rate = real::ln(errors[0] / errors[3]) / real::ln(8.0);
        let wanted = order as f64;
        assert!((wanted - 0.6..wanted + 1.2).contains(&rate), "order {order}: {errors:?}, rate {rate}");
    }
}

#[test]
fn the_error_falls_with_the_order_by_at_least_a_factor_of_three_each() {
    let errors = [3, 4, 5, 6].map(|order| error_in_circle(0.3, of_order(order, 16.0)));
    for pair in errors.windows(2) {
        assert!(pair[1] < pair[0] / 3.0, "{errors:?}");
    }
}

/// The returned error is one of the order before, so it must lie above the true one, and not by orders of magnitude.
#[test]
fn the_returned_error_bounds_the_true_one() {
    for order in [3, 4, 5] {
        let disc = section(shapes::circle(0.1));
        let returned = solved(&disc, 0.3, of_order(order, 64.0)).error();
        let truly = error_in_circle(0.3, of_order(order, 64.0));
        assert!(truly < returned && returned < 300.0 * truly, "order {order}: {returned} against {truly}");
    }
}

/// Source: Timoshenko & Goodier, bending of a rectangular bar: the stress function's series, here for `tau_y` over
/// `3 V / (2 A)` on the neutral axis of a rectangle of breadth 2 b and height 2 a, at x from its middle:
/// `1 - nu/(1+nu) (b²/a²) (1/3 - x²/b² ...)` in series form
/// `1 + nu/(1+nu) (b²/a²) [x²/b² - 1/3 - (4/pi²) sum (-1)^n cos(n pi x/b) / (n² cosh(n pi a/b))]`.
fn rectangle_on_axis(nu: f64, breadth: f64, height: f64, x: f64) -> f64 {
    let (a, b) = (0.5 * height, 0.5 * breadth);
    let mut sum = 0.0;
    for n in 1..60 {
        let k = f64::from(n);
        let turn = k * PI * a / b;
        // Beyond this the term is nothing beside the first.
        let cosh = if turn > 300.0 { f64::INFINITY } else { 0.5 * (real::exp(turn) + real::exp(-turn)) };
        let sign = if n % 2 == 0 { 1.0 } else { -1.0 };
        sum += sign * real::cos(k * PI * x / b) / (k * k * cosh);
    }
    1.0 + nu / (1.0 + nu) * (b * b / (a * a)) * (x * x / (b * b) - 1.0 / 3.0 - 4.0 / (PI * PI) * sum)
}

#[test]
fn rectangles_are_met_to_a_thousandth_from_tall_to_flat() {
    for (breadth, height) in [(0.02, 0.2), (0.06, 0.12), (0.1, 0.1), (0.12, 0.06), (0.2, 0.05)] {
        let plank = section(shapes::rectangle(breadth, height));
        for nu in [0.0, 0.25, 0.4] {
            let elastic = solved(&plank, nu, Effort::usual());
            let field = elastic.under_level_bending(1000.0);
            let formula = 1500.0 / (breadth * height);
            for share in [0.0, 0.3, 0.5, 0.8, 1.0] {
                let x = 0.5 * breadth * share;
                let wanted = rectangle_on_axis(nu, breadth, height, x);
                for side in [-1.0, 1.0] {
                    let at = Point::new(0.5 * breadth + side * x, 0.5 * height);
                    let found = field.at(at).expect("it lies in the plank").up / formula;
                    assert_within(found, wanted, 1e-3);
                }
            }
        }
    }
}

/// Sources: 6/5 (any textbook); Cowper (1966), from memory: `10(1+nu)/(12+11nu)`, `6(1+nu)/(7+6nu)`.
#[test]
fn shear_coefficients_are_those_of_theory() {
    for nu in [0.0, 0.3, 0.5] {
        let plank = section(shapes::rectangle(0.07, 0.11));
        let elastic = solved(&plank, nu, Effort::usual());
        for force in [UP, RIGHT] {
            let found = elastic.shear_coefficient(force).expect("there is a force");
            assert_within(found, 10.0 * (1.0 + nu) / (12.0 + 11.0 * nu), 1e-4);
        }
        let disc = section(shapes::circle(0.09));
        let found = solved(&disc, nu, Effort::usual()).shear_coefficient(UP).expect("there is a force");
        assert_within(found, 6.0 * (1.0 + nu) / (7.0 + 6.0 * nu), 1e-4);
    }
}

/// 6/5 for `V Q / (I t)` exactly, 10/9 for its circle; the elastic field of a rectangle without contraction is the formula's.
#[test]
fn form_factors_are_those_of_theory() {
    let plank = section(shapes::rectangle(0.07, 0.11));
    assert_within(StressOverDepth::new(&plank, 0.0, 3.0).form_factor(), 1.2, 1e-12);
    // Planks side by side, of three materials but one height, are sheared alike: it is the rectangle's.
    let side_by_side = [(0.0, 1.0), (1.0, 20.0), (2.0, 3.0)]
        .map(|(x, ratio)| Part::rectangle(Point::new(x, 0.0), 1.0, 2.0).with_modular_ratio(ratio));
    let mixed = Section::new(side_by_side.into()).expect("it is sound");
    assert_within(StressOverDepth::new(&mixed, 0.0, 3.0).form_factor(), 1.2, 1e-12);
    assert_within(solved(&plank, 0.0, Effort::usual()).form_factor(UP), 1.2, 1e-9);
    let disc = section(shapes::circle(0.09));
    assert_within(StressOverDepth::new(&disc, 0.0, 1.0).form_factor(), 10.0 / 9.0, 1e-9);
    // Of the closed form above, integrated by hand for nu = 1/2, where it is tau_y = (V/3I)(R² - y²), tau_x = -V x y/(3I):
    // A ∫ tau² dA / V² = (16/9) (1 - 1/2 + 1/8 + 1/24) = 32/27.
    assert_within(solved(&disc, 0.5, Effort::usual()).form_factor(UP), 32.0 / 27.0, 1e-6);
}

/// Two bars of one shape side by side in one beam, one of them n times as stiff: without contraction, each takes its share
/// by its stiffness, and the formula's mean hides that one carries n times the stress of the other.
#[test]
fn bars_side_by_side_share_by_their_stiffness() {
    let n = 7.0;
    let soft = Part::rectangle(Point::new(0.0, 0.0), 0.03, 0.2);
    let stiff = Part::rectangle(Point::new(0.03, 0.0), 0.03, 0.2).with_modular_ratio(n);
    let both = Section::new(vec![soft, stiff]).expect("they touch");
    let elastic = solved(&both, 0.0, Effort::usual());
    let field = elastic.under_level_bending(1000.0);
    let alone = 1.5 * 1000.0 / (0.03 * 0.2);
    for (part, x, share) in [(0, 0.01, 1.0 / (1.0 + n)), (1, 0.05, n / (1.0 + n))] {
        let found = field.in_part(part, Point::new(x, 0.1)).expect("it lies in the part").up;
        assert_within(found, alone * share, 1e-6);
    }
    let line = Point::new(0.03, 0.1);
    let of = |part: usize| field.in_part(part, line).expect("both parts touch it").up;
    assert_within(of(1) / of(0), n, 1e-6);
}

/// A plank glued from two is the plank: the line between parts of one material changes nothing.
#[test]
fn parts_of_one_material_are_one_body() {
    let halves = [
        Part::rectangle(Point::new(0.0, 0.0), 0.12, 0.02),
        Part::rectangle(Point::new(0.0, 0.02), 0.12, 0.04),
    ];
    let glued = Section::new(halves.to_vec()).expect("they touch");
    let field = solved(&glued, 0.25, Effort::usual());
    let field = field.under_level_bending(1000.0);
    let formula = 1500.0 / (0.12 * 0.06);
    let found = field.at(Point::new(0.12, 0.03)).expect("on the side").up / formula;
    assert_within(found, rectangle_on_axis(0.25, 0.12, 0.06, 0.06), 1e-3);
    assert!(solved(&glued, 0.25, Effort::usual()).sharp_corners().is_empty());
}

/// Source: thin-wall theory, any textbook: channel, `e = 3 b² t_f / (h t_w + 6 b t_f)` from the middle of the web. A wall
/// of a fortieth of the height differs from it by a few parts in a hundred.
#[test]
fn the_shear_centre_of_a_thin_channel_is_that_of_thin_wall_theory() {
    let (height, breadth, wall) = (0.2, 0.1, 0.005);
    let channel = section(shapes::channel(height, breadth, wall, wall));
    let (h, b) = (height - wall, breadth - 0.5 * wall);
    let e = 3.0 * b * b / (h + 6.0 * b);
    let without = solved(&channel, 0.0, Effort::usual());
    let middle = 0.5 * wall;
    assert_within(middle - without.shear_centre().x, e, 0.02);
    // Without contraction both definitions are one.
    let (trefftz, flexure) = (without.shear_centre(), without.centre_of_flexure());
    assert!(trefftz.distance_to(flexure) < 1e-6 * height, "{trefftz:?} {flexure:?}");
    assert!((trefftz.y - 0.5 * height).abs() < 1e-6 * height);
}

/// Sources: Timoshenko & Goodier, bending of a bar of semicircular section: for no twist at the middle of the flat side the
/// force stands off it by `8 R (3 + 4 nu) / (15 pi (1 + nu))`; for none at the centroid, which is the mean over the section, by
/// less, the torque of a twist `nu V y_c / (E I)`. From memory; `J = R⁴ (pi/2 - 4/pi)` of half a circle is exact.
/// Trefftz's centre is the value for nu = 0.
#[test]
fn the_centre_of_flexure_of_half_a_circle_is_the_exact_one() {
    let radius = 0.06;
    let half = section(shapes::half_circle(2.0 * radius, true));
    for nu in [0.0, 0.25, 0.5] {
        let elastic = solved(&half, nu, Effort::usual());
        let torsion = PI / 2.0 - 4.0 / PI;
        let off = |nu: f64| {
            let at_flat_side = 8.0 * (3.0 + 4.0 * nu) / (15.0 * PI * (1.0 + nu));
            let twist = nu / (2.0 * (1.0 + nu)) * torsion * 4.0 / (3.0 * PI) / (PI / 8.0);
            radius * (at_flat_side - twist)
        };
        assert_within(elastic.torsion_constant(), torsion * radius.powi(4), 1e-4);
        assert_within(elastic.centre_of_flexure().y, off(nu), 1e-4);
        assert_within(elastic.shear_centre().y, off(0.0), 1e-4);
    }
}

trait Apart {
    fn distance_to(self, other: Point) -> f64;
}

impl Apart for Point {
    fn distance_to(self, other: Point) -> f64 {
        real::hypot(self.x - other.x, self.y - other.y)
    }
}

/// Source: Bredt and Saint-Venant, any textbook: `J = pi/2 (R⁴ - r⁴)` of a round tube, exactly.
#[test]
fn the_torsion_constant_of_a_tube_is_exact() {
    let tube = section(shapes::round_tube(0.14, 0.014));
    let found = solved(&tube, 0.3, Effort::usual()).torsion_constant();
    assert_within(found, 0.5 * PI * (0.07_f64.powi(4) - 0.056_f64.powi(4)), 1e-6);
}

/// The mean over the width is the balance of the piece beyond the cut, so the elastic stresses must give the formula's
/// value: what they add is how it is spread.
#[test]
fn the_mean_over_the_width_is_the_formula() {
    let beam = section(shapes::rolled_i(0.2, 0.1, 0.0056, 0.0085, 0.012));
    let elastic = solved(&beam, 0.3, Effort::usual());
    let field = elastic.under_level_bending(1000.0);
    for height in [0.004, 0.015, 0.05, 0.1, 0.13, 0.197] {
        let across = field.across(height, HeightSide::Above).expect("the cut meets");
        assert_within(across.mean, across.formula, 5e-3);
        assert!(across.largest.value >= across.mean.abs());
    }
}

/// Source: the boundary condition of Saint-Venant's flexure: on a free surface no shear stress acts at right angles to it, so none acts
/// upward on a level edge. It may run along it, as in a flange.
#[test]
fn no_stress_acts_upward_on_the_outermost_fibres() {
    let beam = section(shapes::rolled_i(0.2, 0.1, 0.0056, 0.0085, 0.012));
    let elastic = solved(&beam, 0.3, Effort::usual());
    let field = elastic.under_level_bending(1000.0);
    for (height, side) in [(0.0, HeightSide::Above), (0.2, HeightSide::Below)] {
        let across = field.across(height, side).expect("the cut runs along the edge");
        assert_eq!((across.mean, across.largest_up.value), (0.0, 0.0));
        assert!(across.largest.value > 0.0, "the stress along the flange");
    }
}

#[test]
fn the_largest_stress_of_a_sharp_i_says_that_it_has_none() {
    let beam = section(shapes::i_section(0.2, (0.12, 0.016), (0.12, 0.016), 0.012));
    let elastic = solved(&beam, 0.3, Effort::usual());
    assert_eq!(elastic.sharp_corners().len(), 4);
    for corner in elastic.sharp_corners() {
        assert!((corner.left_out - 0.003).abs() < 1e-9, "a quarter of the web: {}", corner.left_out);
    }
    // A web's thickness away from the corners the web carries what the formula says: 24.45 MPa at the neutral axis.
    let field = elastic.under_level_bending(50.0e3);
    let largest = field.largest().expect("there is one");
    assert_eq!(largest.beside_corner, None);
    assert!((largest.at.y - 0.1).abs() < 0.02, "{largest:?}");
    assert_within(largest.value, 24.448e6, 1e-3);
    // Nearer to the corner there is no end of it: as r to the power of -1/3.
    let elastic = solved(&beam, 0.3, Effort::thorough());
    let field = elastic.under_level_bending(50.0e3);
    let towards = |step: f64| {
        let at = Point::new(0.066 - step * 0.3, 0.184 + step * 0.5);
        field.at(at).expect("it lies in the flange").size()
    };
    assert_within(towards(1e-4) / towards(8e-4), 2.0, 0.05);
}

#[test]
fn a_poissons_ratio_that_no_material_has_is_refused() {
    let plank = section(shapes::rectangle(0.1, 0.2));
    for ratio in [-1.0, 0.500001, f64::NAN, f64::INFINITY] {
        let fault = ElasticShear::new(&plank, ratio, Effort::usual()).err();
        assert!(matches!(fault, Some(Fault::PoissonRatio { .. })), "{fault:?}");
    }
}

/// Closed form: the stresses hang on `nu G / E` alone. So a material with a shear modulus of its own has the stresses of one that is alike in
/// all directions and has the Poisson's ratio nu' with nu' / (2 (1 + nu')) = nu G / E.
#[test]
fn a_shear_modulus_of_its_own_changes_what_contraction_does() {
    let plank = Section::new(shapes::rectangle(0.2, 0.1).expect("a rectangle").parts).expect("it is sound");
    let (ratio, share) = (0.4, 0.25);
    let own = Elasticity { poisson_ratio: ratio, shear_share: share, shear_ratios: vec![1.0] };
    let own = ElasticShear::of(&plank, own, Effort::usual()).expect("it is solved");
    let product = ratio * share;
    let alike = ElasticShear::new(&plank, 2.0 * product / (1.0 - 2.0 * product), Effort::usual())
        .expect("it is solved");
    let largest = [&own, &alike].map(|one| one.under_level_bending(1e3).largest().expect("a stress").value);
    assert_within(largest[0], largest[1], 1e-9);
    assert_within(own.form_factor(UP), alike.form_factor(UP), 1e-9);
    for bad in [0.0, -1.0, f64::NAN] {
        let bad = Elasticity { poisson_ratio: 0.3, shear_share: 0.4, shear_ratios: vec![bad] };
        let fault = ElasticShear::of(&plank, bad, Effort::usual()).err();
        assert!(matches!(fault, Some(Fault::ShearModulus)), "{fault:?}");
    }
}
