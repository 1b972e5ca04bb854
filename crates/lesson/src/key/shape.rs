//! The shapes of a section and the dimensions that each takes.

/// A shape that a section or a part may have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shape {
    /// Its name, as it is written after `shape =`.
    pub name: &'static str,
    /// With its article: `a T`.
    pub with_article: &'static str,
    /// The dimensions that it needs, by their keys.
    pub needs: &'static [&'static str],
    /// What else it may take.
    pub may_take: &'static [&'static str],
}

/// Every shape.
pub const SHAPES: &[Shape] = &[
    Shape { name: "rectangle", with_article: "a rectangle", needs: &["width", "height"], may_take: &[] },
    Shape { name: "circle", with_article: "a circle", needs: &["diameter"], may_take: &[] },
    Shape {
        name: "half circle",
        with_article: "a half circle",
        needs: &["diameter"],
        may_take: &["upside-down"],
    },
    Shape { name: "tube", with_article: "a tube", needs: &["diameter", "wall"], may_take: &[] },
    Shape {
        name: "rectangular tube",
        with_article: "a rectangular tube",
        needs: &["width", "height", "wall"],
        may_take: &[],
    },
    Shape {
        name: "box",
        with_article: "a box",
        needs: &["width", "height", "flange-thickness", "web-thickness"],
        may_take: &[],
    },
    Shape {
        name: "triangle",
        with_article: "a triangle",
        needs: &["width", "height"],
        may_take: &["upside-down"],
    },
    Shape {
        name: "trapezoid",
        with_article: "a trapezoid",
        needs: &["bottom-width", "top-width", "height"],
        may_take: &["upside-down"],
    },
    Shape {
        name: "T",
        with_article: "a T",
        needs: &["width", "height", "flange-thickness", "web-thickness"],
        may_take: &["upside-down"],
    },
    Shape {
        name: "I",
        with_article: "an I",
        needs: &["width", "height", "flange-thickness", "web-thickness"],
        may_take: &["root-radius"],
    },
    Shape {
        name: "unequal I",
        with_article: "an unequal I",
        needs: &["top-width", "top-thickness", "bottom-width", "bottom-thickness", "height", "web-thickness"],
        may_take: &[],
    },
    Shape {
        name: "channel",
        with_article: "a channel",
        needs: &["width", "height", "flange-thickness", "web-thickness"],
        may_take: &["root-radius"],
    },
    Shape {
        name: "angle",
        with_article: "an angle",
        needs: &["width", "height", "thickness"],
        may_take: &[],
    },
];

impl Shape {
    /// The shape of this name.
    pub fn named(name: &str) -> Option<&'static Shape> {
        SHAPES.iter().find(|shape| shape.name == name)
    }

    /// Whether it takes the dimension of this key.
    pub fn takes(&self, word: &str) -> bool {
        self.needs.contains(&word) || self.may_take.contains(&word)
    }
}
