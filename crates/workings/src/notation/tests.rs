use super::*;

fn plain_of(profile: Profile, role: Role) -> String {
    Notation::of(profile).symbol(&Symbol::plain(role)).plain()
}

/// Mixing two meanings of one letter on a page is the worst error that a notation can make.
#[test]
fn no_two_roles_of_a_profile_collide() {
    for profile in Profile::ALL {
        let notation = Notation::of(profile);
        for (role, words) in Notation::role_names() {
            assert_eq!(notation.collides_with(role), None, "{}: {words}", profile.name());
        }
    }
}

#[test]
fn every_symbol_of_the_tables_reads_back() {
    for profile in Profile::ALL {
        let notation = Notation::of(profile);
        for (role, _) in Notation::role_names() {
            for index in ["", "1"] {
                let text = notation.symbol(&Symbol::indexed(role, index));
                assert!(!text.letters.is_empty(), "{role:?}");
                assert!(!text.plain().is_empty() && !text.spoken.is_empty() && !text.words.is_empty());
            }
        }
    }
}

/// Published: the formula for the shear stress in each tradition, as in the profile's own name for it.
#[test]
fn the_letters_of_the_shear_formula() {
    let formula = |profile| {
        [Role::ShearForce, Role::FirstMoment, Role::SecondMoment, Role::WidthAtCut]
            .map(|role| plain_of(profile, role))
    };
    assert_eq!(formula(Profile::Upward), ["V", "Q", "I", "t"]);
    assert_eq!(formula(Profile::UpwardB), ["V", "Q", "I", "b"]);
    assert_eq!(formula(Profile::AreaArm), ["F", "A ȳ", "I", "b"]);
    assert_eq!(formula(Profile::CodeAxes), ["V_z", "S_y", "I_y", "t"]);
    assert_eq!(formula(Profile::Downward), ["V", "S", "I_y", "b"]);
    assert_eq!(formula(Profile::BowMarks), ["V", "S_z", "I_zz", "b"]);
}

/// Closed form: the flexural rigidity is the product of the modulus of elasticity and the second moment of area, and has their
/// letters, whatever they are.
#[test]
fn the_flexural_rigidity_is_written_as_a_product() {
    for profile in Profile::ALL {
        let mut notation = Notation::of(profile);
        let second_moment = plain_of(profile, Role::SecondMoment);
        assert_eq!(plain_of(profile, Role::FlexuralRigidity), format!("E {second_moment}"));
        let row = plain(&table::letters(profile, Role::FlexuralRigidity)[0]);
        assert_eq!(row, format!("E {second_moment}"), "{}", profile.name());
        notation.extend(Role::SecondMoment, "I_x").expect("a symbol");
        assert_eq!(notation.symbol(&Symbol::plain(Role::FlexuralRigidity)).plain(), "E I_x");
    }
}

/// Closed form: a moment of the released beam has the letter of a bending moment, whatever that is, and a 0 behind its place.
#[test]
fn a_moment_of_the_released_beam_is_written_as_a_bending_moment() {
    let mut notation = Notation::default();
    let written = |notation: &Notation| notation.symbol(&Symbol::indexed(Role::ReleasedMoment, "B0")).plain();
    assert_eq!(written(&notation), "M_B0");
    assert_eq!(written(&Notation::of(Profile::CodeAxes)), "M_y,B0");
    notation.extend(Role::BendingMoment, "M_z").expect("a symbol");
    assert_eq!(written(&notation), "M_z,B0");
}

#[test]
fn indices_and_marks() {
    let symbol = |role, index: &str| Notation::default().symbol(&Symbol::indexed(role, index));
    assert_eq!(symbol(Role::Reaction, "A").plain(), "R_A");
    assert_eq!(symbol(Role::BendingMoment, "max").words, "largest bending moment");
    assert_eq!(symbol(Role::CentroidBeyond, "").plain(), "ȳ′");
    assert_eq!(symbol(Role::CentroidBeyond, "").spoken, "y bar prime");
    assert_eq!(symbol(Role::SliceLength, "").spoken, "delta x");
    assert_eq!(symbol(Role::Thickness, "").plain(), "t_w");
    assert_eq!(symbol(Role::Thickness, "1").plain(), "t_1");
    let code = Notation::of(Profile::CodeAxes).symbol(&Symbol::indexed(Role::ShearForce, "max"));
    assert_eq!(code.plain(), "V_z,max");
}

#[test]
fn small_letters_are_said_where_the_capital_is_in_use() {
    let spoken = |role| Notation::default().symbol(&Symbol::plain(role)).spoken;
    assert_eq!(spoken(Role::FirstMoment), "Q");
    assert_eq!(spoken(Role::ShearFlow), "small q");
    assert_eq!(spoken(Role::WidthAtCut), "t");
    assert_eq!(spoken(Role::ShearStress), "tau");
}

#[test]
fn a_load_goes_by_the_name_that_the_lecturer_gave_it() {
    let symbol = |role, name: &str| Notation::default().symbol(&Symbol::indexed(role, name)).plain();
    assert_eq!(symbol(Role::PointForce, "P"), "P");
    assert_eq!(symbol(Role::PointForce, "P1"), "P_1");
    assert_eq!(symbol(Role::SpreadLoad, "w_0"), "w_0");
    // A word is no quantity: it says which of the forces is meant.
    assert_eq!(symbol(Role::PointForce, "crane"), "P_crane");
    assert_eq!(symbol(Role::SpreadLoad, "wall of the attic"), "w_wall of the attic");
    assert_eq!(symbol(Role::Couple, "boom"), "C_boom");
    assert_eq!(symbol(Role::PointForce, "1"), "P_1");
    // The area of part 3, and Q the first moment, are written so here.
    assert_eq!(symbol(Role::PointForce, "A3"), "P_A3");
    assert_eq!(symbol(Role::PointForce, "Q"), "P_Q");
}

#[test]
fn the_number_of_a_name_stands_lower_in_a_subscript() {
    let symbol = |index: &str| Notation::default().symbol(&Symbol::indexed(Role::ShearForce, index));
    let text = symbol("P_12, left");
    assert_eq!(
        (text.plain(), text.spoken),
        ("V_P\u{2081}\u{2082}, left".to_owned(), "V sub P 12, left".to_owned())
    );
    assert_eq!(symbol("P_max").plain(), "V_P_max");
}

#[test]
fn a_course_changes_a_symbol() {
    let mut notation = Notation::default();
    assert_eq!(notation.extend(Role::AreaBeyond, "A*"), Ok(()));
    assert_eq!(notation.symbol(&Symbol::plain(Role::AreaBeyond)).plain(), "A*");
    assert_eq!(notation.extend(Role::ShearForce, "M"), Err(NotationFault::Taken(Role::BendingMoment)));
    assert_eq!(notation.extend(Role::FirstMoment, "A_1"), Err(NotationFault::Taken(Role::Area)));
    for text in ["", "VV", "V_", "1", "V''", "$", "\\V"] {
        assert_eq!(notation.extend(Role::ShearForce, text), Err(NotationFault::NotASymbol(text.to_owned())));
    }
}

#[test]
fn words_follow_the_habit() {
    let mut notation = Notation::default();
    assert_eq!(notation.words(Role::SecondMoment), "moment of inertia");
    notation.habits.second_moment_words = SecondMomentWords::SecondMomentOfArea;
    assert_eq!(notation.words(Role::SecondMoment), "second moment of area");
    assert_eq!(Notation::role_named("moment of inertia"), Some(Role::SecondMoment));
    assert_eq!(Notation::role_named("shear force"), Some(Role::ShearForce));
    assert_eq!(Notation::role_named("nothing"), None);
}

#[test]
fn runs_for_drawings() {
    let symbol = Notation::default().symbol(&Symbol::indexed(Role::AreaBeyond, "1"));
    let runs: Vec<(String, bool)> = symbol.runs().into_iter().map(|run| (run.text, run.italic)).collect();
    assert_eq!(runs, [("A".to_owned(), true), ("′".to_owned(), false), ("1".to_owned(), false)]);
}
