//! An item as an element: what is declared, what the student sees, what each response earns.

use super::element::{Element, html, qti};
use super::identifier::Identifier;
use super::item::{Answer, Choice, Item, Picture, Value};
use super::passage::Line;
use super::processing::{feedback, response_processing};
use super::variables::{SCORE, Variables};

/// A comma is read by some players as the end of the number and by others as no number.
const HOW_TO_WRITE: &str = "Write numbers with a point, such as -1.5, and without the unit.";

/// The item, in the words of version 2.1.
pub(super) fn assessment_item(item: &Item) -> Element {
    let variables = Variables::of(item);
    let total = item.answers.iter().map(Answer::most).sum();
    let mut outcomes = vec![outcome(SCORE, "float", Some(0.0)), outcome("MAXSCORE", "float", Some(total))];
    for answer in &item.answers {
        if variables.several() {
            outcomes.push(outcome(&variables.score(answer.identifier()), "float", Some(0.0)));
        }
        outcomes.push(outcome(&variables.feedback(answer.identifier()), "identifier", None));
    }
    qti("assessmentItem")
        .with("identifier", &item.identifier)
        .with("title", &item.title)
        .with("adaptive", "false")
        .with("timeDependent", "false")
        .with("xml:lang", &item.language)
        .children(item.answers.iter().map(|answer| response(answer, &variables)))
        .children(outcomes)
        .child(item_body(item, &variables))
        .child(response_processing(item))
        .children(feedback(item))
}

/// Where a picture lies, from the root of the package.
pub(super) fn picture_file(item: &Identifier, picture: &Identifier, kind: &str) -> String {
    format!("{item}/{picture}.{kind}")
}

fn response(answer: &Answer, variables: &Variables<'_>) -> Element {
    let (kind, right) = match answer {
        Answer::Value(value) => ("float", Some(value.right.to_string())),
        Answer::Choice(choice) => {
            let best = choice.alternatives.iter().find(|alternative| alternative.marks.0 == answer.most());
            ("identifier", best.map(|best| best.identifier.to_string()))
        }
    };
    qti("responseDeclaration")
        .with("identifier", variables.response(answer.identifier()))
        .with("cardinality", "single")
        .with("baseType", kind)
        .children(right.map(|right| qti("correctResponse").child(qti("value").text(right))))
}

fn outcome(name: &str, kind: &str, start: Option<f64>) -> Element {
    qti("outcomeDeclaration")
        .with("identifier", name)
        .with("cardinality", "single")
        .with("baseType", kind)
        .children(start.map(|start| qti("defaultValue").child(qti("value").text(start))))
}

fn item_body(item: &Item, variables: &Variables<'_>) -> Element {
    let mut body = qti("itemBody").nodes(&item.prompt.0);
    for picture in &item.pictures {
        body = body.children(picture_blocks(item, picture));
    }
    if item.answers.iter().any(|answer| matches!(answer, Answer::Value(_))) {
        body = body.child(html("p").text(HOW_TO_WRITE));
    }
    body.children(item.answers.iter().map(|answer| match answer {
        Answer::Value(value) => field(value, variables),
        Answer::Choice(choice) => choices(choice, variables),
    }))
}

fn picture_blocks(item: &Item, picture: &Picture) -> Vec<Element> {
    let source = picture_file(&item.identifier, &picture.name, "png");
    let image = html("p").child(html("img").with("src", source).with("alt", &picture.alt));
    let description = (!picture.description.is_empty()).then(|| html("div").nodes(&picture.description.0));
    std::iter::once(image).chain(description).collect()
}

fn field(value: &Value, variables: &Variables<'_>) -> Element {
    let interaction = qti("textEntryInteraction")
        .with("responseIdentifier", variables.response(&value.identifier))
        .with("expectedLength", 10)
        .with("aria-label", &value.spoken);
    // In 2.1, which has no names for who cannot see, the words before the field are its name: they stand in its own paragraph.
    let mut field = html("p").nodes(&value.label.0).text(" ").child(interaction);
    if value.unit != Line::default() {
        field = field.text(" ").nodes(&value.unit.0);
    }
    field
}

fn choices(choice: &Choice, variables: &Variables<'_>) -> Element {
    let alternatives = choice.alternatives.iter().map(|alternative| {
        qti("simpleChoice").with("identifier", &alternative.identifier).nodes(&alternative.text.0)
    });
    qti("choiceInteraction")
        .with("responseIdentifier", variables.response(&choice.identifier))
        .with("shuffle", "false")
        .with("maxChoices", 1)
        .child(qti("prompt").nodes(&choice.question.0))
        .children(alternatives)
}
