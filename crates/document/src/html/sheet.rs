//! The style sheet with its faces inside, and the policy that lets nothing else in.

use std::sync::LazyLock;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};

/// Family, style, weight and file of each face. Subsets for the words and symbols of this unit: see
/// `fonts/README.md`.
const FACES: [(&str, &str, &str, &[u8]); 4] = [
    ("Libertinus Serif", "normal", "400", include_bytes!("../../fonts/LibertinusSerif-Regular.woff2")),
    ("Libertinus Serif", "italic", "400", include_bytes!("../../fonts/LibertinusSerif-Italic.woff2")),
    ("Libertinus Serif", "normal", "700", include_bytes!("../../fonts/LibertinusSerif-Bold.woff2")),
    ("STIX Two Math", "normal", "400", include_bytes!("../../fonts/STIXTwoMath.woff2")),
];

/// The rules that every page has in common, the faces among them, each inside its rule. They use the colours `--paper`,
/// `--ink` and `--link`, which the page gives.
pub fn ground() -> String {
    let mut sheet = String::with_capacity(240_000);
    for (family, style, weight, file) in FACES {
        sheet.push_str("@font-face { font-family: \"");
        sheet.push_str(family);
        sheet.push_str("\"; font-style: ");
        sheet.push_str(style);
        sheet.push_str("; font-weight: ");
        sheet.push_str(weight);
        sheet.push_str("; src: url(data:font/woff2;base64,");
        STANDARD.encode_string(file, &mut sheet);
        sheet.push_str(") format(\"woff2\"); }\n");
    }
    sheet + include_str!("ground.css")
}

/// The style sheet of every page.
pub(super) static SHEET: LazyLock<String> = LazyLock::new(|| ground() + include_str!("page.css"));

/// The content security policy: this style sheet, the faces inside it, and nothing else. No script, no request.
pub(super) static POLICY: LazyLock<String> = LazyLock::new(|| {
    let hash = STANDARD.encode(Sha256::digest(SHEET.as_bytes()));
    format!(
        "default-src 'none'; style-src 'sha256-{hash}'; font-src data:; img-src data:; base-uri 'none'; \
         form-action 'none'"
    )
});
