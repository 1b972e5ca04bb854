//! Tidings of changes: the file is looked at, and every listening board is told when its content is another.

use super::file::LessonFile;
use hyper::body::{Body, Bytes, Frame};
use std::convert::Infallible;
use std::pin::Pin;
use std::sync::Arc;
use std::task::{Context, Poll};
use std::time::Duration;
use tokio::sync::{mpsc, watch};

/// How often the file is looked at. Editors put a new file in the old one's place, so that the content is looked at,
/// and not the file.
const LOOK: Duration = Duration::from_millis(250);
/// A word from time to time shows both ends that the other is there still.
const PING: Duration = Duration::from_secs(15);

/// The watch over one file. `None` stands for a file that has gone or cannot be read.
pub struct Watch {
    file: Arc<LessonFile>,
    state: watch::Sender<Option<String>>,
}

impl Watch {
    /// A watch that knows how `file` is now.
    pub fn of(file: Arc<LessonFile>) -> Self {
        let state = watch::Sender::new(file.tag_now());
        Self { file, state }
    }

    /// Looks at the file as long as anybody listens. What is seen twice in a row is told: an editor that is in the
    /// middle of writing leaves a half for a moment.
    pub async fn keep_looking(&self) {
        let mut before = self.state.borrow().clone();
        loop {
            tokio::time::sleep(LOOK).await;
            if self.state.receiver_count() == 0 {
                continue;
            }
            let file = Arc::clone(&self.file);
            let Ok(now) = tokio::task::spawn_blocking(move || file.tag_now()).await else { continue };
            if now == before {
                self.tell(&now);
            }
            before = now;
        }
    }

    /// The tidings for one listener: first how the file is now, then each change.
    pub async fn listen(&self) -> Tidings {
        let file = Arc::clone(&self.file);
        if let Ok(now) = tokio::task::spawn_blocking(move || file.tag_now()).await {
            self.tell(&now);
        }
        let mut state = self.state.subscribe();
        let (sender, words) = mpsc::channel(4);
        tokio::spawn(async move {
            let mut word = event(state.borrow_and_update().as_deref());
            while sender.send(word).await.is_ok() {
                word = match tokio::time::timeout(PING, state.changed()).await {
                    Ok(Ok(())) => event(state.borrow_and_update().as_deref()),
                    Ok(Err(_)) => return,
                    Err(_) => Bytes::from_static(b": still here\n\n"),
                };
            }
        });
        Tidings { words }
    }

    fn tell(&self, now: &Option<String>) {
        self.state.send_if_modified(|told| {
            let another = told != now;
            told.clone_from(now);
            another
        });
    }
}

/// An event as a browser reads it (HTML standard, section 9.2, server-sent events).
fn event(tag: Option<&str>) -> Bytes {
    Bytes::from(match tag {
        Some(tag) => format!("event: changed\ndata: {tag}\n\n"),
        None => "event: gone\ndata: the lesson file cannot be read\n\n".to_owned(),
    })
}

/// The body of an answer that goes on until the listener leaves.
pub struct Tidings {
    words: mpsc::Receiver<Bytes>,
}

impl Body for Tidings {
    type Data = Bytes;
    type Error = Infallible;

    fn poll_frame(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
    ) -> Poll<Option<Result<Frame<Bytes>, Infallible>>> {
        self.words.poll_recv(context).map(|word| word.map(|word| Ok(Frame::data(word))))
    }
}
