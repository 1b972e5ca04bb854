//! What the formula leaves out, and what these pages are not for.

use super::author::Author;
use super::line;
use crate::tree::{Block, CalloutKind, Inline};
use lesson::{Scene, When};
use workings::elastic::{ElasticTruth, NoTruth};
use workings::reservation::{Reservation, Topic, reservations};

/// What each reservation is about, in a word or two.
fn title(topic: Topic) -> &'static str {
    match topic {
        Topic::AverageOverWidth => "A mean over the width.",
        Topic::Flange => "Flanges.",
        Topic::NearForces => "Near forces and supports.",
        Topic::SlopingEdges => "Sloping and round edges.",
        Topic::FiniteSlice => "The finite slice.",
        Topic::NotAtTheAxis => "Where it is largest.",
        Topic::NotPrincipal => "Bending askew.",
        Topic::Materials => "Several materials.",
        Topic::NoWalls => "Shear along the walls.",
        Topic::ShortBeam => "Short beams.",
        Topic::LargeSlope => "Large deflections.",
        Topic::Assumptions => "What all of it stands on.",
        Topic::RealStructures => "Real structures.",
    }
}

impl Author<'_> {
    pub(crate) fn limits(&mut self, truth: Option<&Result<ElasticTruth, NoTruth>>) {
        self.chapter("What the formula leaves out");
        self.own_words(Scene::Limits, When::Before);
        let (here, elsewhere): (Vec<Reservation>, Vec<Reservation>) =
            reservations(self.solved).into_iter().partition(|reservation| reservation.here);
        for (words, reservations) in
            [("This lesson meets these:", here), ("Other lessons of this kind meet these:", elsewhere)]
        {
            if reservations.is_empty() {
                continue;
            }
            self.say(line![words]);
            let items = reservations
                .into_iter()
                .map(|reservation| {
                    let about = Inline::Strong(line![title(reservation.topic)]);
                    let words = self.style.notation.in_its_words(&reservation.sentence);
                    vec![Block::Paragraph(line![about, format!(" {words}")])]
                })
                .collect();
            self.blocks.push(Block::List { ordered: false, items });
        }
        if let Some(truth) = truth {
            self.elastic(truth);
        }
        self.own_words(Scene::Limits, When::After);
        self.callout(
            CalloutKind::Caution,
            "These pages teach; they are no design",
            vec![Block::Paragraph(line![
                "Loads, factors of safety, grades of material, stability and fatigue are not checked here, and what stands \
                 here of deflections and of fasteners is an exercise. For anything that is to be built, follow the code in force where it will stand, and \
                 leave the judgement to a licensed engineer."
            ])],
        );
    }
}
