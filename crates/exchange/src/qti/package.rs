//! A content package: items, a test of them, the manifest and the pictures in one zip file.

use super::body::{assessment_item, picture_file};
use super::check;
use super::element::{Element, Version, file, packaging, qti};
use super::identifier::Identifier;
use super::item::Item;
use crate::fault::Fault;
use std::io::{Cursor, Write};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

/// Items of one paper, or of one question over all papers.
#[derive(Clone, Debug, PartialEq)]
pub struct Package {
    /// Its name, and that of the test in it.
    pub identifier: Identifier,
    /// The title of the test.
    pub title: String,
    /// The items in order; at least one.
    pub items: Vec<Item>,
    /// What is not in it, as a sentence for who imports it; see [`super::left_out`].
    pub left_out: Option<String>,
}

/// A file to be written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Archive {
    /// Its name, which says that the key is in it.
    pub name: String,
    /// Its bytes; the same for the same package.
    pub bytes: Vec<u8>,
}

/// What a version calls its parts.
struct Words {
    namespace: &'static str,
    manifest_namespace: &'static str,
    schema: &'static str,
    schema_version: &'static str,
    item: &'static str,
    test: &'static str,
    number: &'static str,
}

impl Words {
    fn of(version: Version) -> Self {
        match version {
            Version::Qti21 => Self {
                namespace: "http://www.imsglobal.org/xsd/imsqti_v2p1",
                manifest_namespace: "http://www.imsglobal.org/xsd/imscp_v1p1",
                schema: "QTIv2.1 Package",
                schema_version: "1.0.0",
                item: "imsqti_item_xmlv2p1",
                test: "imsqti_test_xmlv2p1",
                number: "2.1",
            },
            Version::Qti30 => Self {
                namespace: "http://www.imsglobal.org/xsd/imsqtiasi_v3p0",
                manifest_namespace: "http://www.imsglobal.org/xsd/qti/qtiv3p0/imscp_v1p1",
                schema: "QTI Package",
                schema_version: "3.0.0",
                item: "imsqti_item_xmlv3p0",
                test: "imsqti_test_xmlv3p0",
                number: "3.0",
            },
        }
    }
}

const TEST_FILE: &str = "assessment-test.xml";
const README_FILE: &str = "README.txt";

impl Package {
    /// The package as one zip file.
    ///
    /// # Errors
    /// Every fault of its items: two of one name, a right value outside its bounds or not from 1 to 10 000 in size, a
    /// follow-through that does not give the right value from right answers, a choice without a right alternative.
    pub fn zip(&self, version: Version) -> Result<Archive, Vec<Fault>> {
        let mut faults = check::faults(&self.items);
        let own = [TEST_FILE, README_FILE, "imsmanifest.xml"]
            .map(|name| name.rsplit_once('.').map_or(name, |(stem, _)| stem));
        for item in self
            .items
            .iter()
            .filter(|item| own.iter().any(|own| own.eq_ignore_ascii_case(item.identifier.as_str())))
        {
            faults.push(Fault::of_file(
                format!("no item may be called {:?}", item.identifier.as_str()),
                "give it another name",
            ));
        }
        if !faults.is_empty() {
            return Err(faults);
        }
        let files = self.files(version).map_err(|fault| vec![fault])?;
        let bytes = packed(&files).map_err(|error| {
            vec![Fault::of_file(format!("the package cannot be packed: {error}"), "report this")]
        })?;
        let name = format!("{}-qti-{}-with-key.zip", self.identifier, Words::of(version).number);
        Ok(Archive { name, bytes })
    }

    /// Each file with its name, in the order of the archive.
    fn files(&self, version: Version) -> Result<Vec<(String, Vec<u8>)>, Fault> {
        let words = Words::of(version);
        let mut files = vec![
            ("imsmanifest.xml".to_owned(), file(&self.manifest(&words), words.manifest_namespace, version)?),
            (README_FILE.to_owned(), self.readme(words.number).into_bytes()),
            (TEST_FILE.to_owned(), file(&self.test(), words.namespace, version)?),
        ];
        for item in &self.items {
            files
                .push((item_file(&item.identifier), file(&assessment_item(item), words.namespace, version)?));
            for picture in &item.pictures {
                let name = |kind| picture_file(&item.identifier, &picture.name, kind);
                files.push((name("png"), picture.png.clone()));
                files.push((name("svg"), picture.svg.clone().into_bytes()));
            }
        }
        Ok(files)
    }

    fn readme(&self, number: &str) -> String {
        let title: String = self.title.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
        let left_out = self.left_out.as_ref().map_or_else(String::new, |words| format!("{words}\n\n"));
        format!(
            "{title}\n\n\
             This is a content package of QTI {number}.\n\n\
             {left_out}\
             It contains the key: the right answers, their tolerances and the marks stand in its files as plain text.\n\
             Import it into a platform where you teach; do not hand it to students.\n\n\
             Formulae are MathML. Look at one question in the platform before students do: one that does not know MathML\n\
             shows a fraction as a row of letters.\n"
        )
    }

    fn test(&self) -> Element {
        let items = self.items.iter().map(|item| {
            qti("assessmentItemRef")
                .with("identifier", &item.identifier)
                .with("href", item_file(&item.identifier))
        });
        let section = qti("assessmentSection")
            .with("identifier", "questions")
            .with("title", &self.title)
            .with("visible", "true")
            .children(items);
        let part = qti("testPart")
            .with("identifier", "paper")
            .with("navigationMode", "nonlinear")
            .with("submissionMode", "individual")
            .child(section);
        let score = qti("outcomeDeclaration")
            .with("identifier", "SCORE")
            .with("cardinality", "single")
            .with("baseType", "float")
            .child(qti("defaultValue").child(qti("value").text("0")));
        let total = qti("sum").child(qti("testVariables").with("variableIdentifier", "SCORE"));
        qti("assessmentTest")
            .with("identifier", &self.identifier)
            .with("title", &self.title)
            .child(score)
            .child(part)
            .child(
                qti("outcomeProcessing")
                    .child(qti("setOutcomeValue").with("identifier", "SCORE").child(total)),
            )
    }

    fn manifest(&self, words: &Words) -> Element {
        let listed = |name: &str| packaging("file").with("href", name);
        let resource = |name: &str, kind: &str, href: &str| {
            let resource =
                packaging("resource").with("identifier", name).with("type", kind).with("href", href);
            resource.child(listed(href))
        };
        let name_of = |item: &Item| format!("resource-{}", item.identifier);
        let needed =
            self.items.iter().map(|item| packaging("dependency").with("identifierref", name_of(item)));
        let test = resource("test", words.test, TEST_FILE).child(listed(README_FILE)).children(needed);
        let items = self.items.iter().map(|item| {
            let pictures = item.pictures.iter().flat_map(|picture| {
                ["png", "svg"].map(|kind| listed(&picture_file(&item.identifier, &picture.name, kind)))
            });
            resource(&name_of(item), words.item, &item_file(&item.identifier)).children(pictures)
        });
        let metadata = packaging("metadata")
            .child(packaging("schema").text(words.schema))
            .child(packaging("schemaversion").text(words.schema_version));
        packaging("manifest")
            .with("identifier", format!("package-{}", self.identifier))
            .child(metadata)
            .child(packaging("organizations"))
            .child(packaging("resources").child(test).children(items))
    }
}

fn item_file(item: &Identifier) -> String {
    format!("{item}.xml")
}

/// The files as they stand, dated alike, so that the same package is the same bytes.
fn packed(files: &[(String, Vec<u8>)]) -> zip::result::ZipResult<Vec<u8>> {
    let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in files {
        // A PNG is packed already.
        let packing =
            if name.ends_with(".png") { CompressionMethod::Stored } else { CompressionMethod::Deflated };
        let options = SimpleFileOptions::default()
            .compression_method(packing)
            .last_modified_time(DateTime::default())
            .unix_permissions(0o644);
        writer.start_file(name.as_str(), options)?;
        writer.write_all(bytes)?;
    }
    Ok(writer.finish()?.into_inner())
}
