//! The answer to each request.

use super::changes::Watch;
use super::door::{Door, Room};
use super::file::{Condition, Content, LONGEST, LessonFile, Unread, Unsaved};
use http_body_util::combinators::BoxBody;
use http_body_util::{BodyExt as _, Full, Limited};
use hyper::body::{Body, Bytes};
use hyper::header::{CONTENT_TYPE, ETAG, HeaderMap, HeaderName, HeaderValue, IF_MATCH, IF_NONE_MATCH};
use hyper::{Request, Response, StatusCode};
use std::convert::Infallible;
use std::sync::Arc;
use std::time::Duration;

/// What goes back to the browser.
pub type Answer = Response<BoxBody<Bytes, Infallible>>;

/// A text that takes longer than this to arrive from the same machine does not arrive.
const ARRIVAL: Duration = Duration::from_secs(30);

/// Sent with every answer, also with those that tell nothing: no page of another site frames, reads or keeps any of it.
const GUARDS: [(&str, &str); 6] = [
    ("x-content-type-options", "nosniff"),
    ("referrer-policy", "no-referrer"),
    ("cache-control", "no-store"),
    ("cross-origin-opener-policy", "same-origin"),
    ("cross-origin-resource-policy", "same-origin"),
    ("x-frame-options", "DENY"),
];

const PLAIN: &str = "text/plain; charset=utf-8";

/// All that an answer is made from.
pub struct Desk {
    pub door: Door,
    pub file: Arc<LessonFile>,
    pub page: Box<dyn Fn(&str) -> String + Send + Sync>,
    pub watch: Arc<Watch>,
}

impl Desk {
    /// Answers a request. Whatever is asked for, there is an answer.
    pub async fn answer<B>(self: Arc<Self>, request: Request<B>) -> Answer
    where
        B: Body<Data: Send, Error: Into<Box<dyn std::error::Error + Send + Sync>>> + Send,
    {
        match self.door.admits(&request) {
            None => silent(StatusCode::NOT_FOUND),
            Some(Room::Page) => self.aside(Self::page).await,
            Some(Room::Lesson) => self.aside(Self::lesson).await,
            Some(Room::Save) => self.save(request).await,
            Some(Room::Changes) => {
                let tidings = self.watch.listen().await;
                answer(StatusCode::OK, "text/event-stream", tidings.boxed())
            }
        }
    }

    /// Does what may take a while (a disk, a long lesson) where nobody waits behind it.
    async fn aside(self: Arc<Self>, work: impl FnOnce(&Self) -> Answer + Send + 'static) -> Answer {
        tokio::task::spawn_blocking(move || work(&self)).await.unwrap_or_else(|_| {
            say(
                StatusCode::INTERNAL_SERVER_ERROR,
                "A mistake of Glueline's own; the lesson file is as it was. Please report it with the lesson file.",
            )
        })
    }

    fn page(&self) -> Answer {
        match self.file.read() {
            Ok(Content { text, .. }) => {
                answer(StatusCode::OK, "text/html; charset=utf-8", whole((self.page)(&text)))
            }
            Err(unread) => not_read(&unread),
        }
    }

    fn lesson(&self) -> Answer {
        match self.file.read() {
            Ok(Content { text, tag }) => tagged(answer(StatusCode::OK, PLAIN, whole(text)), &tag),
            Err(unread) => not_read(&unread),
        }
    }

    async fn save<B>(self: Arc<Self>, request: Request<B>) -> Answer
    where
        B: Body<Data: Send, Error: Into<Box<dyn std::error::Error + Send + Sync>>> + Send,
    {
        let (head, body) = request.into_parts();
        if !self.door.is_from_own_page(&head.headers) {
            return silent(StatusCode::FORBIDDEN);
        }
        let Some(condition) = condition(&head.headers) else {
            return say(
                StatusCode::PRECONDITION_REQUIRED,
                "Not saved: the request does not say which version of the lesson it replaces.",
            );
        };
        let too_long = || say(StatusCode::PAYLOAD_TOO_LARGE, "Not saved: a lesson of more than 4 MB.");
        if body.size_hint().lower() > LONGEST {
            return too_long();
        }
        let limit = usize::try_from(LONGEST).unwrap_or(usize::MAX);
        let bytes = match tokio::time::timeout(ARRIVAL, Limited::new(body, limit).collect()).await {
            Ok(Ok(collected)) => collected.to_bytes(),
            Ok(Err(error)) if error.is::<http_body_util::LengthLimitError>() => return too_long(),
            Ok(Err(_)) | Err(_) => {
                return say(StatusCode::REQUEST_TIMEOUT, "Not saved: the text did not arrive whole.");
            }
        };
        let Ok(text) = String::from_utf8(bytes.to_vec()) else {
            return say(StatusCode::UNPROCESSABLE_ENTITY, "Not saved: this is no plain text in UTF-8.");
        };
        self.aside(move |desk| match desk.file.save(&text, &condition) {
            Ok(tag) => tagged(silent(StatusCode::NO_CONTENT), &tag),
            Err(Unsaved::Changed(Some(tag))) => tagged(
                say(StatusCode::PRECONDITION_FAILED, "Not saved: the lesson file has changed meanwhile."),
                &tag,
            ),
            Err(Unsaved::Changed(None)) => {
                say(StatusCode::PRECONDITION_FAILED, "Not saved: the lesson file is no longer there.")
            }
            Err(Unsaved::Refused(why)) => say(
                StatusCode::INTERNAL_SERVER_ERROR,
                &format!("Not saved: {why}. The lesson file is as it was."),
            ),
        })
        .await
    }
}

/// What a save asks for (RFC 9110, sections 13.1.1 and 13.1.2): `If-Match` with the tag of the version that it
/// replaces, or `If-None-Match: *` to make the file anew where it has gone.
fn condition(headers: &HeaderMap) -> Option<Condition> {
    let only = |name: HeaderName| {
        let mut values = headers.get_all(name).iter();
        match (values.next(), values.next()) {
            (Some(value), None) => value.to_str().ok().map(str::trim),
            _ => None,
        }
    };
    match (only(IF_MATCH), only(IF_NONE_MATCH)) {
        (Some(tag), None) => Some(Condition::Still(tag.to_owned())),
        (None, Some("*")) => Some(Condition::Absent),
        _ => None,
    }
}

fn not_read(unread: &Unread) -> Answer {
    match unread {
        Unread::Gone => {
            say(StatusCode::GONE, "The lesson file is no longer there; it may have been moved or renamed.")
        }
        Unread::Unusable { tag, why } => {
            let answer =
                say(StatusCode::UNPROCESSABLE_ENTITY, &format!("The lesson file cannot be read: {why}."));
            match tag {
                Some(tag) => tagged(answer, tag),
                None => answer,
            }
        }
    }
}

fn whole(text: impl Into<Bytes>) -> BoxBody<Bytes, Infallible> {
    Full::new(text.into()).boxed()
}

fn say(status: StatusCode, sentence: &str) -> Answer {
    answer(status, PLAIN, whole(format!("{sentence}\n")))
}

fn silent(status: StatusCode) -> Answer {
    let mut silent = answer(status, PLAIN, whole(""));
    silent.headers_mut().remove(CONTENT_TYPE);
    silent
}

fn answer(status: StatusCode, kind: &'static str, body: BoxBody<Bytes, Infallible>) -> Answer {
    let mut answer = Response::new(body);
    *answer.status_mut() = status;
    let headers = answer.headers_mut();
    headers.insert(CONTENT_TYPE, HeaderValue::from_static(kind));
    for (name, value) in GUARDS {
        headers.insert(HeaderName::from_static(name), HeaderValue::from_static(value));
    }
    answer
}

fn tagged(mut answer: Answer, tag: &str) -> Answer {
    // Quotes and hexadecimal digits always make a header.
    if let Ok(value) = HeaderValue::from_str(tag) {
        answer.headers_mut().insert(ETAG, value);
    }
    answer
}
