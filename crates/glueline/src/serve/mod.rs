//! One lesson file, served to a browser of the same machine while it is worked on.
//!
//! The address carries a random token: whoever does not know it learns nothing, not even that a lesson is there.
//! No path ever comes from a request, so nothing but this one file can be read or written.

mod answer;
mod changes;
mod door;
pub mod file;
#[cfg(test)]
mod tests;

use crate::failure::Failure;
use answer::Desk;
use changes::Watch;
use door::Door;
use file::LessonFile;
use std::convert::Infallible;
use std::net::{IpAddr, SocketAddr};
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;

use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper_util::rt::{TokioIo, TokioTimer};
use tokio::net::TcpListener;
use tokio::sync::Semaphore;

/// A connection that has not said by then what it wants is closed.
const PATIENCE: Duration = Duration::from_secs(20);
/// A board needs two connections at a time; more than this many are no lecturer's.
const CONNECTIONS: usize = 64;

/// What is served, and where.
pub struct Served {
    /// The lesson file, the only file that is read or written.
    pub lesson: PathBuf,
    /// Makes the page from the text of the lesson; called anew for each loading of the page.
    pub page: Box<dyn Fn(&str) -> String + Send + Sync>,
    /// The address to listen at; 127.0.0.1 lets in this machine only.
    pub address: IpAddr,
    /// The port to listen at; 0 takes any that is free.
    pub port: u16,
}

/// Serves until Ctrl-C. `on_ready` is called once with the address of the page, when it can be opened.
///
/// # Errors
/// [`Failure::Unread`] where the lesson cannot be read at the start (later it may go and come back);
/// [`Failure::Asked`] where one cannot listen at this address and port.
pub fn serve(served: Served, on_ready: impl FnOnce(&str)) -> Result<(), Failure> {
    serve_until(served, on_ready, async {
        // Where the system tells of no Ctrl-C at all, it also ends the program by its own means.
        if tokio::signal::ctrl_c().await.is_err() {
            std::future::pending::<()>().await;
        }
    })
}

/// Serves until `end` comes about; a save that is under way is finished first.
fn serve_until(
    served: Served,
    on_ready: impl FnOnce(&str),
    end: impl Future<Output = ()>,
) -> Result<(), Failure> {
    let asked = SocketAddr::new(served.address, served.port);
    let file =
        LessonFile::at(&served.lesson).map_err(|error| Failure::Unread(served.lesson.clone(), error))?;
    let token = token()?;
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build()
        .map_err(|error| Failure::Asked(format!("the system lets nothing be served: {error}")))?;
    runtime.block_on(async {
        let refused = |error: std::io::Error| Failure::Asked(not_listening(asked, &error));
        let listener = TcpListener::bind(asked).await.map_err(refused)?;
        let local = listener.local_addr().map_err(refused)?;
        let file = Arc::new(file);
        let watch = Arc::new(Watch::of(Arc::clone(&file)));
        let door = Door::new(token, local);
        on_ready(&door.url());
        let desk = Arc::new(Desk { door, file, page: served.page, watch: Arc::clone(&watch) });
        tokio::spawn(async move { watch.keep_looking().await });
        tokio::spawn(receive(listener, desk));
        end.await;
        Ok(())
    })
}

/// Lets callers in, each in a task of its own.
async fn receive(listener: TcpListener, desk: Arc<Desk>) {
    let places = Arc::new(Semaphore::new(CONNECTIONS));
    loop {
        let Ok(place) = Arc::clone(&places).acquire_owned().await else { return };
        let Ok((stream, _)) = listener.accept().await else {
            // The caller has gone already, or the system has no connection left for now.
            tokio::time::sleep(Duration::from_millis(50)).await;
            continue;
        };
        let desk = Arc::clone(&desk);
        tokio::spawn(async move {
            let service = service_fn(move |request| {
                let desk = Arc::clone(&desk);
                async move { Ok::<_, Infallible>(desk.answer(request).await) }
            });
            // A caller that breaks off or speaks no HTTP is no matter for anybody else.
            let _ = http1::Builder::new()
                .timer(TokioTimer::new())
                .header_read_timeout(PATIENCE)
                .serve_connection(TokioIo::new(stream), service)
                .await;
            drop(place);
        });
    }
}

/// 192 random bits from the system, in hexadecimal digits.
fn token() -> Result<String, Failure> {
    let mut bytes = [0_u8; 24];
    getrandom::fill(&mut bytes)
        .map_err(|error| Failure::Asked(format!("the system gives no random number: {error}")))?;
    Ok(hexadecimal(&bytes))
}

fn hexadecimal(bytes: &[u8]) -> String {
    use std::fmt::Write as _;
    bytes.iter().fold(String::new(), |mut text, byte| {
        // Writing to a text cannot fail.
        let _ = write!(text, "{byte:02x}");
        text
    })
}

fn not_listening(asked: SocketAddr, error: &std::io::Error) -> String {
    use std::io::ErrorKind;
    let (what, mend) = match error.kind() {
        ErrorKind::AddrInUse => ("another program has it".to_owned(), "give another --port, or none at all"),
        ErrorKind::AddrNotAvailable => {
            ("this machine has no such address".to_owned(), "leave --address away to serve this machine only")
        }
        ErrorKind::PermissionDenied => {
            ("your account has no right to it".to_owned(), "give a --port above 1023, or none at all")
        }
        _ => (error.to_string(), "give another --port or --address"),
    };
    format!("the board cannot be served at {asked}: {what}\n  to mend it: {mend}")
}
