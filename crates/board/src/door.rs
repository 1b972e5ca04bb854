//! What the browser calls: one function that takes an order as JSON and gives the answer as JSON.
//!
//! A text is handed over as bytes in the memory of the module: the page asks [`room`] for as many bytes as it needs,
//! writes its order there and calls [`order`], which says where the answer begins. Its length stands in the four bytes
//! before it. There is one board in a module.

use crate::board::{Answer, Board, Refusal};
use crate::practice::{Practice, Told};
use crate::prospect::{LookAhead, Prospect};
use crate::seen::Seen;
use figure::scale::Sheet;
use serde::{Deserialize, Serialize};
use std::cell::RefCell;

/// What the page asks for.
#[derive(Debug, Deserialize)]
#[serde(tag = "do", rename_all = "lowercase")]
enum Order {
    /// Begin with this lesson; the page holds its sheet already where `drawn` says so.
    Open {
        text: String,
        name: String,
        #[serde(default)]
        drawn: bool,
    },
    /// Show this text.
    Take { text: String, seen: Option<Seen> },
    /// Give one value another wording.
    Set { path: String, value: String, seen: Option<Seen> },
    /// Drag what can be dragged to this value, SI.
    Drag { piece: String, grip: String, value: f64, snap: bool, seen: Option<Seen> },
    /// Draw for a narrow window, or for a usual one.
    Fit { narrow: bool },
    /// Tell the elastic truth.
    Truth,
    /// Go through a drag, and stay as it is.
    Rehearse { turn: usize, seen: Option<Seen> },
    /// Look ahead at the papers of this text; without one, go on with those of the text before.
    Ahead { text: Option<String> },
    /// Make the practice paper of a number.
    Practise { number: u32 },
    /// Look at the answer to a part; `typed` has what stands at all of them, in the order of the paper.
    Check { part: String, typed: Vec<String> },
    /// Give the next hint to a part, the first being 0.
    Hint { part: String, place: usize },
}

#[derive(Debug, Serialize)]
#[serde(rename_all = "lowercase")]
enum Reply {
    Done(Box<Answer>),
    Refused(Refusal),
    Practice(Told),
    Ahead(Prospect),
}

thread_local! {
    static BOARD: RefCell<Option<Board>> = const { RefCell::new(None) };
    static PRACTICE: RefCell<Option<Practice>> = const { RefCell::new(None) };
    static AHEAD: RefCell<Option<LookAhead>> = const { RefCell::new(None) };
    static LETTER: RefCell<Vec<u8>> = const { RefCell::new(Vec::new()) };
}

/// Room for an order of so many bytes.
#[allow(unsafe_code, reason = "a name that the browser can call")]
#[unsafe(no_mangle)]
pub extern "C" fn room(length: usize) -> *mut u8 {
    LETTER.with_borrow_mut(|letter| {
        letter.clear();
        letter.resize(length, 0);
        letter.as_mut_ptr()
    })
}

/// Carries out the order that was written to [`room`]; where the answer begins.
#[allow(unsafe_code, reason = "a name that the browser can call")]
#[unsafe(no_mangle)]
pub extern "C" fn order() -> *const u8 {
    let order = LETTER.with_borrow_mut(std::mem::take);
    let reply = carry_out(&order);
    LETTER.with_borrow_mut(|letter| {
        // Four bytes of length, then the answer.
        letter.extend([0; 4]);
        if serde_json::to_writer(&mut *letter, &reply).is_err() {
            letter.truncate(4);
        }
        let length = u32::try_from(letter.len() - 4).unwrap_or(0).to_le_bytes();
        letter[..4].copy_from_slice(&length);
        letter.as_ptr()
    })
}

fn carry_out(order: &[u8]) -> Reply {
    let order = match serde_json::from_slice(order) {
        Ok(order) => order,
        Err(error) => return refused(format!("the page asked for something unknown: {error}")),
    };
    match order {
        Order::Practise { .. } | Order::Check { .. } | Order::Hint { .. } => practised(order),
        Order::Ahead { text } => Reply::Ahead(looked_ahead(text.as_deref())),
        other => shown(other),
    }
}

/// What is done on the sheet.
fn shown(order: Order) -> Reply {
    BOARD.with_borrow_mut(|board| {
        let answer = match (order, board.as_mut()) {
            (Order::Open { text, name, drawn }, _) => Board::new(&text, &name).and_then(|mut new| {
                let sheet = new.sheet();
                let mut answer = new.take(&text, None)?;
                match drawn {
                    true => answer.pieces.extend(new.later_pieces()),
                    false => answer.sheet = Some(sheet),
                }
                *board = Some(new);
                Ok(answer)
            }),
            (Order::Take { text, seen }, Some(board)) => board.take(&text, seen.as_ref()),
            (Order::Set { path, value, seen }, Some(board)) => board.set(&path, &value, seen.as_ref()),
            (Order::Drag { piece, grip, value, snap, seen }, Some(board)) => {
                board.drag(&piece, &grip, value, snap, seen.as_ref())
            }
            (Order::Fit { narrow }, Some(board)) => {
                Ok(board.draw_on(if narrow { Sheet::HAND } else { Sheet::USUAL }))
            }
            (Order::Truth, Some(board)) => Ok(board.tell_truth()),
            (Order::Rehearse { turn, seen }, Some(board)) => board.rehearse(turn, seen),
            (_, None) => return refused("no lesson is open".to_owned()),
            (_, Some(_)) => return refused("this is for the practice paper".to_owned()),
        };
        match answer {
            Ok(answer) => Reply::Done(Box::new(answer)),
            Err(refusal) => Reply::Refused(refusal),
        }
    })
}

/// What is done on the practice paper.
fn practised(order: Order) -> Reply {
    PRACTICE.with_borrow_mut(|practice| {
        let told = match (order, practice.as_mut()) {
            (Order::Practise { number }, _) => {
                let lesson = BOARD.with_borrow(|board| board.as_ref().map(|board| board.text().to_owned()));
                match Practice::new(&lesson.unwrap_or_default(), number) {
                    Ok(new) => {
                        let told = new.paper();
                        *practice = Some(new);
                        Some(told)
                    }
                    Err(why) => return refused(why),
                }
            }
            (Order::Check { part, typed }, Some(practice)) => practice.check(&part, &typed),
            (Order::Hint { part, place }, Some(practice)) => practice.hint(&part, place),
            _ => None,
        };
        told.map_or_else(|| refused("there is no such part to practise".to_owned()), Reply::Practice)
    })
}

/// What is known of the papers.
fn looked_ahead(text: Option<&str>) -> Prospect {
    AHEAD.with_borrow_mut(|ahead| {
        if let Some(text) = text {
            match LookAhead::new(text) {
                Ok(new) => *ahead = Some(new),
                Err(why) => {
                    *ahead = None;
                    return Prospect { why, more: false };
                }
            }
            return Prospect { why: String::new(), more: true };
        }
        let further = ahead.as_mut().map(LookAhead::further);
        further.unwrap_or(Prospect { why: String::new(), more: false })
    })
}

fn refused(what: String) -> Reply {
    Reply::Refused(Refusal { findings: vec![what.clone()], first: what })
}
