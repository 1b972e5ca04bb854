//! Packages as other programs must find them: every rule here is one of the standards' (QTI 2.1 information model and IMS
//! Content Packaging 1.1, both from memory; XML Namespaces 1.0), read by a general XML parser and a general zip reader.

use crate::common::{bounds, chain, choice, name, negative, package, positive};
use exchange::qti::{Answer, Archive, Formula, Item, Package, Version};
use roxmltree::{Document, Node};
use std::collections::{BTreeMap, BTreeSet, HashSet};
use std::io::{Cursor, Read};
use workings::expression::Expression;
use workings::working::Id;

const VERSIONS: [Version; 2] = [Version::Qti21, Version::Qti30];
const MATHML: &str = "http://www.w3.org/1998/Math/MathML";

fn archive(version: Version) -> Archive {
    package().zip(version).expect("a package")
}

fn files(archive: &Archive) -> BTreeMap<String, Vec<u8>> {
    let mut zip = zip::ZipArchive::new(Cursor::new(&archive.bytes)).expect("a zip file");
    let mut files = BTreeMap::new();
    for place in 0..zip.len() {
        let mut file = zip.by_index(place).expect("a file");
        let mut bytes = Vec::new();
        file.read_to_end(&mut bytes).expect("its bytes");
        files.insert(file.name().expect("its name").into_owned(), bytes);
    }
    files
}

fn text(files: &BTreeMap<String, Vec<u8>>, name: &str) -> String {
    String::from_utf8(files.get(name).unwrap_or_else(|| panic!("no {name}")).clone()).expect("UTF-8")
}

/// The name of an element of QTI in a version, as a converter that is not ours names it: `players/converted.test.mjs`.
fn called(version: Version, name: &str) -> String {
    let mut words = String::new();
    for c in name.chars() {
        if version == Version::Qti30 && c.is_uppercase() {
            words.push('-');
        }
        words.extend(if version == Version::Qti30 { c.to_lowercase().next() } else { Some(c) });
    }
    if version == Version::Qti30 { format!("qti-{words}") } else { words }
}

/// An attribute likewise.
fn attribute(version: Version, name: &str) -> String {
    called(version, name).trim_start_matches("qti-").to_owned()
}

fn all<'a>(document: &'a Document<'a>, name: String) -> impl Iterator<Item = Node<'a, 'a>> {
    document.descendants().filter(move |node| node.tag_name().name() == name)
}

/// The names and the target namespaces of the published schemas.
fn namespaces(version: Version) -> (&'static str, &'static str) {
    match version {
        Version::Qti21 => {
            ("http://www.imsglobal.org/xsd/imsqti_v2p1", "http://www.imsglobal.org/xsd/imscp_v1p1")
        }
        Version::Qti30 => (
            "http://www.imsglobal.org/xsd/imsqtiasi_v3p0",
            "http://www.imsglobal.org/xsd/qti/qtiv3p0/imscp_v1p1",
        ),
    }
}

#[test]
fn every_element_is_in_its_namespace() {
    for version in VERSIONS {
        let (qti, packaging) = namespaces(version);
        let files = files(&archive(version));
        let mut formulae = 0;
        for (file, _) in files.iter().filter(|(file, _)| file.ends_with(".xml")) {
            let text = text(&files, file);
            let document = Document::parse(&text).unwrap_or_else(|error| panic!("{file}: {error}"));
            let own = if file == "imsmanifest.xml" { packaging } else { qti };
            for node in document.descendants().filter(Node::is_element) {
                let within = node.ancestors().any(|outer| outer.tag_name().name() == "math");
                let wanted = if within { MATHML } else { own };
                assert_eq!(node.tag_name().namespace(), Some(wanted), "{file}: <{}>", node.tag_name().name());
                formulae += usize::from(node.tag_name().name() == "math");
            }
        }
        assert!(formulae > 8, "{formulae} formulae");
    }
}

/// The packaging specification: the manifest stands at the root, and what it lists is what is there.
#[test]
fn the_manifest_lists_what_is_there_and_nothing_else() {
    for version in VERSIONS {
        let files = files(&archive(version));
        let manifest = text(&files, "imsmanifest.xml");
        let manifest = Document::parse(&manifest).expect("XML");
        let listed: Vec<&str> =
            all(&manifest, "file".to_owned()).filter_map(|file| file.attribute("href")).collect();
        let mut named: BTreeSet<&str> = listed.iter().copied().collect();
        assert_eq!(named.len(), listed.len(), "{listed:?}");
        named.insert("imsmanifest.xml");
        assert_eq!(named, files.keys().map(String::as_str).collect());

        let mut resources = HashSet::new();
        for resource in all(&manifest, "resource".to_owned()) {
            assert!(resources.insert(resource.attribute("identifier").expect("a name")));
            let href = resource.attribute("href").expect("its file");
            let own: Vec<_> = resource.children().filter_map(|file| file.attribute("href")).collect();
            assert!(own.contains(&href), "{href} {own:?}");
            let (item, test) = match version {
                Version::Qti21 => ("imsqti_item_xmlv2p1", "imsqti_test_xmlv2p1"),
                Version::Qti30 => ("imsqti_item_xmlv3p0", "imsqti_test_xmlv3p0"),
            };
            let kind = if href == "assessment-test.xml" { test } else { item };
            assert_eq!(resource.attribute("type"), Some(kind));
            // Every picture of an item is a file of its resource.
            let text = text(&files, href);
            let document = Document::parse(&text).expect("XML");
            for picture in all(&document, "img".to_owned()) {
                assert!(own.contains(&picture.attribute("src").expect("a picture")), "{href}");
                assert!(picture.attribute("alt").is_some_and(|alt| !alt.is_empty()));
            }
        }
        for dependency in all(&manifest, "dependency".to_owned()) {
            assert!(resources.contains(dependency.attribute("identifierref").expect("a name")));
        }
        let test = text(&files, "assessment-test.xml");
        let test = Document::parse(&test).expect("XML");
        let items: Vec<_> = all(&test, called(version, "assessmentItemRef"))
            .filter_map(|item| item.attribute("href"))
            .collect();
        assert_eq!(items, ["tau-on-the-cut.xml", "centroid.xml", "chain.xml", "where.xml"]);
        assert!(items.iter().all(|item| files.contains_key(*item)));
    }
}

/// Who cannot see what stands around a field is told what it is: by the attribute of WAI-ARIA that 3.0 takes on what is answered
/// (its item schema, from memory), and in 2.1, which has none, by words before it in its own paragraph.
#[test]
fn every_field_has_a_name() {
    for version in VERSIONS {
        let files = files(&archive(version));
        let mut fields = 0;
        for file in files.keys().filter(|file| file.ends_with(".xml")) {
            let text = text(&files, file);
            let document = Document::parse(&text).expect("XML");
            for field in all(&document, called(version, "textEntryInteraction")) {
                let name = field.attribute("aria-label");
                match version {
                    Version::Qti21 => assert_eq!(name, None, "{file}"),
                    Version::Qti30 => {
                        assert!(name.is_some_and(|name| name.contains(", in ")), "{file}: {name:?}")
                    }
                }
                let before: String = field
                    .prev_siblings()
                    .skip(1)
                    .flat_map(|node| node.descendants().filter(Node::is_text))
                    .filter_map(|node| node.text())
                    .collect();
                assert!(!before.trim().is_empty(), "{file}");
                fields += 1;
            }
        }
        assert_eq!(fields, 6);
    }
}

/// XML Namespaces 1.0, production 4, in its ASCII part, which is all that we write.
fn is_ncname(name: &str) -> bool {
    name.starts_with(|c: char| c.is_ascii_alphabetic() || c == '_')
        && name.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '_' | '-' | '.'))
}

#[test]
fn every_name_is_declared_once_and_every_name_used_is_declared() {
    for version in VERSIONS {
        let files = files(&archive(version));
        let is_item = |file: &&String| {
            file.ends_with(".xml") && !["imsmanifest.xml", "assessment-test.xml"].contains(&file.as_str())
        };
        for file in files.keys().filter(is_item) {
            let text = text(&files, file);
            let document = Document::parse(&text).expect("XML");
            let names_of = |element: &str, key: &str| -> Vec<&str> {
                let key = attribute(version, key);
                all(&document, called(version, element))
                    .filter_map(|node| node.attribute(key.as_str()))
                    .collect()
            };
            let set = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect::<BTreeSet<_>>();
            let (responses, outcomes) =
                (names_of("responseDeclaration", "identifier"), names_of("outcomeDeclaration", "identifier"));
            let declared: Vec<&str> = responses.iter().chain(&outcomes).copied().collect();
            assert_eq!(set(&declared).len(), declared.len(), "{file}: {declared:?}");
            assert!(declared.iter().all(|name| is_ncname(name)), "{declared:?}");

            let asked: Vec<&str> = ["textEntryInteraction", "choiceInteraction"]
                .iter()
                .flat_map(|interaction| names_of(interaction, "responseIdentifier"))
                .collect();
            assert_eq!(set(&asked), set(&responses), "{file}");
            assert_eq!(asked.len(), responses.len());
            assert!(set(&names_of("variable", "identifier")).is_subset(&set(&declared)), "{file}");
            assert!(set(&names_of("setOutcomeValue", "identifier")).is_subset(&set(&outcomes)), "{file}");

            // Each feedback is set somewhere and said somewhere, under the same outcome.
            let mut set_to = BTreeSet::new();
            for rule in all(&document, called(version, "setOutcomeValue")) {
                let value = rule.first_element_child().expect("a value");
                if value.attribute(attribute(version, "baseType").as_str()) == Some("identifier") {
                    set_to.insert((
                        rule.attribute("identifier").expect("an outcome"),
                        value.text().expect("a name"),
                    ));
                }
            }
            let said: Vec<(&str, &str)> = all(&document, called(version, "modalFeedback"))
                .map(|modal| {
                    let outcome = modal.attribute(attribute(version, "outcomeIdentifier").as_str());
                    (outcome.expect("an outcome"), modal.attribute("identifier").expect("a name"))
                })
                .collect();
            assert_eq!(said.iter().copied().collect::<BTreeSet<_>>(), set_to, "{file}");
            assert_eq!(said.len(), set_to.len(), "{file}");
            assert!(said.iter().all(|(outcome, name)| outcomes.contains(outcome) && is_ncname(name)));
        }
    }
}

/// Element by element, attribute by attribute: the 3.0 package is the 2.1 package in other words.
#[test]
fn both_versions_say_the_same() {
    fn same(old: Node<'_, '_>, new: Node<'_, '_>) {
        let renamed = old.tag_name().namespace() == Some(namespaces(Version::Qti21).0)
            && new.tag_name().name().starts_with("qti-");
        let version = if renamed { Version::Qti30 } else { Version::Qti21 };
        assert_eq!(called(version, old.tag_name().name()), new.tag_name().name());
        // 2.1 has no attributes of WAI-ARIA.
        let attributes: Vec<_> = new
            .attributes()
            .filter(|new| !new.name().starts_with("aria-"))
            .map(|new| (new.name().to_owned(), new.value()))
            .collect();
        let wanted: Vec<_> =
            old.attributes().map(|old| (attribute(version, old.name()), old.value())).collect();
        assert_eq!(wanted, attributes);
        let wrapped = old.tag_name().name() == "modalFeedback";
        let inner = if wrapped { new.first_element_child().expect("a body") } else { new };
        assert_eq!(wrapped, inner.tag_name().name() == "qti-content-body");
        let (old, new): (Vec<_>, Vec<_>) = (old.children().collect(), inner.children().collect());
        assert_eq!(old.len(), new.len());
        for (old, new) in old.into_iter().zip(new) {
            assert_eq!(old.is_text(), new.is_text());
            if old.is_text() { assert_eq!(old.text(), new.text()) } else { same(old, new) }
        }
    }
    let [old, new] = VERSIONS.map(|version| files(&archive(version)));
    assert_eq!(old.keys().collect::<Vec<_>>(), new.keys().collect::<Vec<_>>());
    for file in old.keys().filter(|file| file.ends_with(".xml") && *file != "imsmanifest.xml") {
        let (old, new) = (text(&old, file), text(&new, file));
        let (old, new) = (Document::parse(&old).expect("XML"), Document::parse(&new).expect("XML"));
        assert!(new.root_element().tag_name().name().starts_with("qti-"));
        same(old.root_element(), new.root_element());
    }
}

/// What was seen to fail in players stands nowhere; bounds stand lower first, for negative values too.
#[test]
fn values_are_compared_with_a_lower_and_an_upper_bound() {
    let files = files(&archive(Version::Qti21));
    let mut negative = 0;
    for file in files.keys().filter(|file| file.ends_with(".xml")) {
        let text = text(&files, file);
        for shunned in ["<equal", "tolerance", "patternMask", "NaN", "inf"] {
            assert!(!text.contains(shunned), "{file}: {shunned}");
        }
        let document = Document::parse(&text).expect("XML");
        for lower in all(&document, "gte".to_owned()) {
            let bound = |node: Node<'_, '_>| -> f64 {
                node.last_element_child().and_then(|value| value.text()?.parse().ok()).expect("a number")
            };
            let upper = lower.next_sibling_element().expect("an upper bound");
            assert_eq!(upper.tag_name().name(), "lte");
            assert!(bound(lower) <= bound(upper), "{file}");
            negative += usize::from(bound(upper) < 0.0);
        }
    }
    assert!(negative >= 4, "{negative} negative values");
}

/// Nothing, right, follow-through, mistakes, all else: the first that holds is taken.
#[test]
fn what_a_response_can_be_is_tried_in_order() {
    let files = files(&archive(Version::Qti21));
    let text = text(&files, "chain.xml");
    let document = Document::parse(&text).expect("XML");
    let last = all(&document, "responseCondition".to_owned()).last().expect("a condition");
    let said: Vec<&str> = last
        .descendants()
        .filter(|node| node.attribute("baseType") == Some("identifier"))
        .filter_map(|node| node.text())
        .collect();
    assert_eq!(said, ["RIGHT", "FOLLOWED", "MISTAKE-1", "OTHER"]);
    let first = last.first_element_child().expect("a branch");
    assert_eq!(first.first_element_child().map(|test| test.tag_name().name()), Some("isNull"));
}

#[test]
fn markup_in_words_stays_words() {
    let files = files(&archive(Version::Qti21));
    let text = text(&files, "tau-on-the-cut.xml");
    let document = Document::parse(&text).expect("XML");
    let picture = all(&document, "img".to_owned()).next().expect("a picture");
    assert_eq!(picture.attribute("alt"), Some("A T-section: the \"flange\" & its web"));
    let body = all(&document, "itemBody".to_owned()).next().expect("a body");
    let words: String = body.descendants().filter(Node::is_text).filter_map(|node| node.text()).collect();
    assert!(words.contains("& keep its sign; <b> is no markup."), "{words}");
    assert!(words.contains("The flange is 120 mm by 30 mm"), "{words}");
}

#[test]
fn the_same_package_is_the_same_bytes_and_says_that_the_key_is_in_it() {
    for version in VERSIONS {
        let archive = archive(version);
        assert_eq!(archive, package().zip(version).expect("a package"));
        assert!(archive.name.ends_with("-with-key.zip"), "{}", archive.name);
        assert!(text(&files(&archive), "README.txt").contains("contains the key"));
        let mut zip = zip::ZipArchive::new(Cursor::new(&archive.bytes)).expect("a zip file");
        for place in 0..zip.len() {
            let file = zip.by_index(place).expect("a file");
            assert_eq!(file.last_modified(), Some(zip::DateTime::default()));
        }
    }
}

#[test]
fn what_is_left_out_stands_in_the_readme() {
    let left_out = Some("Question 6 is drawn by hand.".to_owned());
    let archive = Package { left_out, ..package() }.zip(Version::Qti21).expect("a package");
    assert!(text(&files(&archive), "README.txt").contains("\n\nQuestion 6 is drawn by hand.\n\n"));
}

/// The formula of a working becomes that of the item; what is no arithmetic, or has a leaf without a value, becomes none.
#[test]
fn follow_through_is_taken_from_the_formula_of_a_working() {
    let [shear_force, first_moment, second_moment, thickness] =
        [0, 1, 2, 3].map(|place| Expression::Working(Id(place)));
    let stress = shear_force.clone() * first_moment / (second_moment * thickness);
    let mut leaf = |id: &Id| match id.0 {
        0 => Some(Formula::Answer(name("V"))),
        1 => Some(Formula::Answer(name("Q"))),
        2 => Some(Formula::Number(11.25)),
        3 => Some(Formula::Answer(name("t"))),
        _ => None,
    };
    let Some(Answer::Value(tau)) = chain().answers.pop() else { panic!("no value") };
    assert_eq!(Formula::of(&stress, &mut leaf), tau.follow_through.map(|through| through.expected));
    assert_eq!(Formula::of(&Expression::Root(Box::new(shear_force)), &mut leaf), None);
    assert_eq!(Formula::of(&Expression::Working(Id(4)), &mut leaf), None);
}

/// An item with one thing changed, and what must be said of it.
fn refused(item: Item, words: &str) {
    let package = Package { items: vec![positive(), item], ..package() };
    let faults = package.zip(Version::Qti21).expect_err(words);
    assert!(faults.iter().any(|fault| fault.what.contains(words)), "{words}: {faults:#?}");
}

fn with(mut item: Item, change: impl FnOnce(&mut exchange::qti::Value)) -> Item {
    match item.answers.last_mut() {
        Some(Answer::Value(value)) => change(value),
        _ => panic!("the last answer is no value"),
    }
    item
}

#[test]
fn what_a_reader_would_get_wrong_is_refused() {
    refused(positive(), "two items are called \"centroid\"");
    refused(Item { identifier: name("Centroid"), ..negative() }, "two items are called");
    refused(Item { identifier: name("readme"), ..negative() }, "no item may be called");
    refused(Item { answers: Vec::new(), ..negative() }, "nothing is asked for");
    refused(with(negative(), |value| value.right = 12.0), "outside what is taken as right");
    refused(
        with(negative(), |value| (value.right, value.bounds) = (0.012, bounds(0.011, 0.013))),
        "is 0.012",
    );
    refused(with(negative(), |value| (value.right, value.bounds) = (2e4, bounds(1e4, 3e4))), "is 20000");
    let follows = |formula: Formula| {
        with(chain(), |value| {
            if let Some(through) = &mut value.follow_through {
                through.expected = formula;
            }
        })
    };
    refused(follows(Formula::Number(5.76)), "from right answers is 5.76, not -5.76");
    refused(follows(Formula::Answer(name("tau"))), "does not come before it");
    // In metres and newtons the right value is the same, but not in a player that rounds products to three decimals.
    let newtons =
        Formula::Product(vec![Formula::Answer(name("V")), Formula::Answer(name("Q")), Formula::Number(1e-4)]);
    let metres = Formula::Product(vec![Formula::Number(1.125e-3), Formula::Answer(name("t"))]);
    refused(follows(Formula::Quotient(Box::new(newtons), Box::new(metres))), "rounded to three decimals");
    let mut nothing = choice();
    if let Some(Answer::Choice(choice)) = nothing.answers.first_mut() {
        choice.alternatives.retain(|alternative| alternative.identifier == name("top"));
    }
    refused(nothing.clone(), "there is nothing to choose");
    refused(nothing, "nothing in \"where\" earns a mark");
    assert!(Package { items: Vec::new(), ..package() }.zip(Version::Qti21).is_err());
}
