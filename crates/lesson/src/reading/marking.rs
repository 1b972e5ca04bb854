//! Which share of its marks an answer earns: for the lesson, and for single questions.

use super::node::Table;
use super::words::in_quotes;
use crate::finding::Report;
use crate::marking::Shares;
use workings::mistake;
use workings::reading::nearest;

/// The shares that a table under `marking` gives; what it does not give is as before.
pub(super) fn read<'o>(table: &Table, before: &Shares, own: &[&'o str], report: &mut Report) -> Shares {
    let mut shares = before.clone();
    let places: [(&str, &mut f64); 7] = [
        ("follow-through", &mut shares.follow_through),
        ("rounded-early", &mut shares.rounded_early),
        ("sign", &mut shares.sign),
        ("power-of-ten", &mut shares.power_of_ten),
        ("unit", &mut shares.unit),
        ("known-mistake", &mut shares.known_mistake),
        ("two-mistakes", &mut shares.two_mistakes),
    ];
    for (word, place) in places {
        if let Some(share) = share(table, word, report) {
            *place = share;
        }
    }
    if let Some(mistakes) = table.table("mistakes") {
        for (name, node) in mistakes.iter() {
            if !own.contains(&name) && mistake::named(name).is_none() {
                let known =
                    || mistake::catalogue().map(|known| -> &'o str { known.id() }).chain(own.iter().copied());
                let near = nearest(name, known());
                let finding =
                    report.add(node.key.clone(), format!("no mistake is called {}", in_quotes(name)));
                finding.mend(match near {
                    Some(near) => format!("did you mean {}?", in_quotes(near)),
                    None => "take a name that the key gives, such as \"q-to-the-cut\"".to_owned(),
                });
                continue;
            }
            if let Some(share) = share(mistakes, name, report) {
                shares.mistakes.insert(name.to_owned(), share);
            }
        }
    }
    shares
}

/// A share, from nothing to all.
fn share(table: &Table, word: &str, report: &mut Report) -> Option<f64> {
    let given = table.value(word)?;
    if given.value > 1.0 {
        let what = format!("`{word}` gives more marks than a right answer earns");
        report.add(given.span, what).mend("write a share from \"0 %\" to \"100 %\"");
        return None;
    }
    Some(given.value)
}
