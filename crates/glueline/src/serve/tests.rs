//! The server as a browser, an editor and a stranger meet it. What is expected is from RFC 9110 (status codes,
//! `ETag`, `If-Match`), RFC 9112 (requests as bytes) and the HTML standard (server-sent events).

use super::{Served, file, serve_until};
use std::fs;
use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::{Ipv4Addr, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::mpsc;
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

const LESSON: &str = "# my own remark\r\n[beam]\nlength = \"4 m\"   # and another: \u{3b1}, \u{4e2d}\n";

/// A server at work over a lesson in a folder of its own.
struct Running {
    folder: tempfile::TempDir,
    port: u16,
    token: String,
    end: Option<tokio::sync::oneshot::Sender<()>>,
    thread: Option<JoinHandle<bool>>,
}

impl Running {
    fn start() -> Self {
        let folder = tempfile::tempdir().expect("a folder for the test");
        fs::write(folder.path().join("lesson.toml"), LESSON).expect("written");
        fs::write(folder.path().join("other.txt"), "nobody's business").expect("written");
        let lesson = folder.path().join("lesson.toml");
        Self::over(folder, lesson)
    }

    fn over(folder: tempfile::TempDir, lesson: PathBuf) -> Self {
        let (end, ended) = tokio::sync::oneshot::channel();
        let (tell, told) = mpsc::channel();
        let thread = std::thread::spawn(move || {
            let page = |text: &str| {
                assert!(!text.contains("[break the page]"), "a page that breaks");
                format!("<!doctype html><pre>{}</pre>", text.len())
            };
            let served =
                Served { lesson, page: Box::new(page), address: Ipv4Addr::LOCALHOST.into(), port: 0 };
            let ready = move |url: &str| tell.send(url.to_owned()).expect("the test waits");
            serve_until(served, ready, async {
                let _ = ended.await;
            })
            .is_ok()
        });
        let url = told.recv_timeout(Duration::from_secs(10)).expect("the server is ready");
        let rest = url.strip_prefix("http://127.0.0.1:").expect("this machine only");
        let (port, token) = rest.trim_end_matches('/').split_once('/').expect("port and token");
        let (port, token) = (port.parse().expect("a port"), token.to_owned());
        Self { folder, port, token, end: Some(end), thread: Some(thread) }
    }

    fn lesson(&self) -> PathBuf {
        self.folder.path().join("lesson.toml")
    }

    fn on_disk(&self) -> Vec<u8> {
        fs::read(self.lesson()).expect("the lesson is there")
    }

    fn send(&self, bytes: &[u8]) -> Reply {
        let mut stream = self.connect();
        // A server that refuses early may close before all is sent.
        let _ = stream.write_all(bytes);
        let mut reply = Vec::new();
        let _ = stream.read_to_end(&mut reply);
        Reply::of(&reply)
    }

    fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect((Ipv4Addr::LOCALHOST, self.port)).expect("connected");
        stream.set_read_timeout(Some(Duration::from_secs(10))).expect("set");
        stream
    }

    /// A request as a browser of this machine sends it, with `more` headers.
    fn ask(&self, method: &str, target: &str, more: &str, body: &[u8]) -> Reply {
        let mut bytes = format!(
            "{method} {target} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nConnection: close\r\n{more}Content-Length: {}\r\n\r\n",
            self.port,
            body.len()
        )
        .into_bytes();
        bytes.extend_from_slice(body);
        self.send(&bytes)
    }

    fn get(&self, room: &str) -> Reply {
        self.ask("GET", &format!("/{}/{room}", self.token), "", b"")
    }

    fn put(&self, more: &str, body: &[u8]) -> Reply {
        self.ask("PUT", &format!("/{}/lesson", self.token), more, body)
    }

    fn listen(&self) -> Listening {
        let mut stream = self.connect();
        write!(stream, "GET /{}/changes HTTP/1.1\r\nHost: localhost:{}\r\n\r\n", self.token, self.port)
            .expect("sent");
        Listening { lines: BufReader::new(stream) }
    }

    /// Ends the server as Ctrl-C does; whether it ended well.
    fn end(&mut self) -> bool {
        drop(self.end.take());
        self.thread.take().is_some_and(|thread| thread.join().unwrap_or(false))
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        self.end();
    }
}

struct Reply {
    status: u16,
    head: String,
    body: String,
}

impl Reply {
    fn of(bytes: &[u8]) -> Self {
        let text = String::from_utf8_lossy(bytes);
        let (head, body) = text.split_once("\r\n\r\n").unwrap_or((&text, ""));
        let status = head.split(' ').nth(1).and_then(|word| word.parse().ok()).unwrap_or(0);
        Self { status, head: head.to_owned(), body: body.to_owned() }
    }

    fn header(&self, name: &str) -> Option<&str> {
        self.head.lines().skip(1).find_map(|line| {
            let (key, value) = line.split_once(':')?;
            key.eq_ignore_ascii_case(name).then(|| value.trim())
        })
    }

    fn tag(&self) -> String {
        self.header("etag").expect("a tag").to_owned()
    }
}

struct Listening {
    lines: BufReader<TcpStream>,
}

impl Listening {
    /// The next event, as name and data.
    fn event(&mut self) -> (String, String) {
        let mut name = String::new();
        loop {
            let mut line = String::new();
            assert_ne!(self.lines.read_line(&mut line).expect("a line in time"), 0, "the tidings go on");
            if let Some(word) = line.trim_end().strip_prefix("event: ") {
                name = word.to_owned();
            } else if let Some(data) = line.trim_end().strip_prefix("data: ") {
                return (name, data.to_owned());
            }
        }
    }

    /// Whether no event comes for that long.
    fn is_still_for(&mut self, time: Duration) -> bool {
        self.lines.get_ref().set_read_timeout(Some(time)).expect("set");
        let start = Instant::now();
        let mut line = String::new();
        while start.elapsed() < time {
            line.clear();
            match self.lines.read_line(&mut line) {
                Ok(_) if line.starts_with("event") => return false,
                Ok(_) => {}
                Err(_) => return true,
            }
        }
        true
    }
}

fn if_match(tag: &str) -> String {
    format!("If-Match: {tag}\r\n")
}

#[test]
fn the_page_is_made_from_the_lesson_as_it_is_now() {
    let running = Running::start();
    let page = running.get("");
    assert_eq!(page.status, 200, "{}", page.head);
    assert!(page.body.contains(&LESSON.len().to_string()), "{}", page.body);
    assert_eq!(page.header("content-type"), Some("text/html; charset=utf-8"));
    fs::write(running.lesson(), "x = 1").expect("edited");
    assert!(running.get("").body.contains("<pre>5</pre>"));
}

#[test]
fn every_answer_carries_the_guards() {
    let running = Running::start();
    for reply in [running.get(""), running.get("lesson"), running.get("nowhere"), running.put("", b"x")] {
        for (name, value) in [
            ("X-Content-Type-Options", "nosniff"),
            ("Referrer-Policy", "no-referrer"),
            ("Cache-Control", "no-store"),
            ("Cross-Origin-Opener-Policy", "same-origin"),
            ("Cross-Origin-Resource-Policy", "same-origin"),
            ("X-Frame-Options", "DENY"),
        ] {
            assert_eq!(reply.header(name), Some(value), "{name} in {}", reply.head);
        }
        assert_eq!(reply.header("Access-Control-Allow-Origin"), None);
    }
}

#[test]
fn without_the_token_all_is_silence() {
    let running = Running::start();
    let t = running.token.clone();
    assert!(t.len() >= 32, "at least 128 bits in hexadecimal digits");
    assert_ne!(t, Running::start().token, "another for each run");
    let near = format!("{}{}", &t[..t.len() - 1], if t.ends_with('0') { '1' } else { '0' });
    let targets = [
        "/".to_owned(),
        "//".to_owned(),
        "/lesson".to_owned(),
        "/lesson.toml".to_owned(),
        "//lesson".to_owned(),
        "/favicon.ico".to_owned(),
        format!("/{t}"),
        format!("/{near}/"),
        format!("/{near}/lesson"),
        format!("/{}/lesson", &t[..8]),
        format!("/{}/lesson", t.to_uppercase().replace(|c: char| c.is_ascii_digit(), "A")),
        format!("/{t}/lesson/"),
        format!("/{t}//lesson"),
        format!("/{t}/lesson.toml"),
        format!("/{t}/other.txt"),
        format!("/{t}/../other.txt"),
        format!("/{t}/%2e%2e/other.txt"),
        format!("/{t}/..%2fother.txt"),
        format!("/{t}/lesson/../other.txt"),
        format!("/{t}/..\\other.txt"),
        format!("/{t}/lesson%00"),
        format!("/{t}/{}", running.folder.path().join("other.txt").display()),
    ];
    for target in &targets {
        for method in ["GET", "PUT", "HEAD", "POST", "DELETE", "OPTIONS"] {
            let reply = running.ask(method, target, "", b"");
            assert!([404, 400].contains(&reply.status), "{method} {target}: {}", reply.head);
            assert_eq!(reply.body, "", "{method} {target}");
            assert_eq!(reply.header("etag"), None);
        }
    }
    for method in ["POST", "DELETE", "OPTIONS", "PATCH", "HEAD"] {
        assert_eq!(running.ask(method, &format!("/{t}/lesson"), "", b"").status, 404, "{method}");
    }
    assert_eq!(running.on_disk(), LESSON.as_bytes());
}

#[test]
fn a_foreign_name_for_this_machine_is_not_let_in() {
    let running = Running::start();
    let (port, token) = (running.port, &running.token);
    let get = |target: &str, hosts: &str| {
        running.send(format!("GET {target} HTTP/1.1\r\n{hosts}Connection: close\r\n\r\n").as_bytes()).status
    };
    let own = format!("/{token}/lesson");
    for host in ["127.0.0.1", "localhost", "LocalHost", "[::1]"] {
        assert_eq!(get(&own, &format!("Host: {host}:{port}\r\n")), 200, "{host}");
    }
    for host in [
        format!("rebound.example:{port}"),
        format!("127.0.0.1.rebound.example:{port}"),
        format!("localhost.rebound.example:{port}"),
        format!("192.0.2.7:{port}"),
        format!("localhost@rebound.example:{port}"),
        format!("127.0.0.1:{}", port ^ 1),
        "127.0.0.1".to_owned(),
        "localhost".to_owned(),
        String::new(),
        format!(":{port}"),
    ] {
        let status = get(&own, &format!("Host: {host}\r\n"));
        assert!([400, 404].contains(&status), "{host}: {status}");
    }
    assert_eq!(get(&own, ""), 404, "no name at all");
    assert_eq!(get(&own, &format!("Host: rebound.example\r\nHost: 127.0.0.1:{port}\r\n")), 404, "two names");
    assert_eq!(get(&format!("http://rebound.example{own}"), &format!("Host: 127.0.0.1:{port}\r\n")), 404);
}

#[test]
fn a_page_of_another_site_cannot_save() {
    let running = Running::start();
    let tag = running.get("lesson").tag();
    for origin in ["http://rebound.example", "null", "https://127.0.0.1", "http://127.0.0.1:1", "file://", ""]
    {
        let reply = running.put(&format!("{}Origin: {origin}\r\n", if_match(&tag)), b"taken = true");
        assert_eq!((reply.status, reply.body.as_str()), (403, ""), "{origin}");
    }
    let site = format!("{}Sec-Fetch-Site: cross-site\r\n", if_match(&tag));
    assert_eq!(running.put(&site, b"taken = true").status, 403);
    assert_eq!(running.on_disk(), LESSON.as_bytes());
    let own = format!(
        "{}Origin: http://127.0.0.1:{}\r\nSec-Fetch-Site: same-origin\r\n",
        if_match(&tag),
        running.port
    );
    assert_eq!(running.put(&own, b"ours = true").status, 204);
    assert_eq!(running.on_disk(), b"ours = true");
}

#[test]
fn what_is_saved_is_what_was_sent_to_the_byte() {
    let running = Running::start();
    let read = running.get("lesson");
    assert_eq!(read.body, LESSON, "remarks, line ends and letters as they are");
    assert_eq!(read.tag(), file::tag(LESSON.as_bytes()));
    let edited = LESSON.replace("4 m", "5 m");
    let saved = running.put(&if_match(&read.tag()), edited.as_bytes());
    assert_eq!(saved.status, 204, "{}", saved.body);
    assert_eq!(running.on_disk(), edited.as_bytes());
    assert_eq!(running.get("lesson").tag(), saved.tag());
    assert_eq!(entries(running.folder.path()), ["lesson.toml", "other.txt"], "no temporary file stays");
}

#[test]
fn a_change_unseen_is_never_written_over() {
    let running = Running::start();
    let seen = running.get("lesson").tag();
    fs::write(running.lesson(), "edited = \"elsewhere\"").expect("edited");
    let refused = running.put(&if_match(&seen), b"mine = true");
    assert_eq!(refused.status, 412);
    assert_eq!(refused.tag(), file::tag(b"edited = \"elsewhere\""), "with the version that is there");
    assert_eq!(running.on_disk(), b"edited = \"elsewhere\"");
    assert_eq!(running.put(&if_match(&refused.tag()), b"mine = true").status, 204, "now it is seen");
    for blind in
        ["", "If-Match: *\r\n", "If-Match: W/\"x\"\r\n", "If-None-Match: *\r\n", "If-None-Match: \"x\"\r\n"]
    {
        let status = running.put(blind, b"blind = true").status;
        assert!([412, 428].contains(&status), "{blind}: {status}");
    }
    assert_eq!(running.on_disk(), b"mine = true");
}

#[test]
fn of_many_boards_that_save_at_once_one_succeeds() {
    let running = Running::start();
    let tag = running.get("lesson").tag();
    let statuses: Vec<u16> = std::thread::scope(|scope| {
        let saves: Vec<_> = (0..12)
            .map(|n| {
                let (running, tag) = (&running, &tag);
                scope.spawn(move || {
                    running.put(&if_match(tag), format!("board = {n}\n").repeat(20_000).as_bytes()).status
                })
            })
            .collect();
        saves.into_iter().map(|save| save.join().expect("an answer")).collect()
    });
    assert_eq!(statuses.iter().filter(|&&status| status == 204).count(), 1, "{statuses:?}");
    assert!(statuses.iter().all(|status| [204, 412].contains(status)), "{statuses:?}");
    let text = String::from_utf8(running.on_disk()).expect("text");
    let mut lines: Vec<&str> = text.lines().collect();
    assert_eq!(lines.len(), 20_000, "whole");
    lines.dedup();
    assert_eq!(lines.len(), 1, "of one board only");
}

#[test]
fn hostile_bytes_get_an_answer_and_lose_nothing() {
    let running = Running::start();
    let tag = running.get("lesson").tag();
    let reply = running.put(&if_match(&tag), b"\xff\xfe\x00 not text");
    assert_eq!(reply.status, 422);
    assert!(reply.body.contains("no plain text"), "{}", reply.body);
    let huge = running.put(&if_match(&tag), &vec![b'#'; 4 * 1024 * 1024 + 1]);
    assert!([413, 0].contains(&huge.status), "told, or closed while sending: {}", huge.head);
    // Said to be huge, and said nothing about.
    let head = |more: &str| {
        format!(
            "PUT /{}/lesson HTTP/1.1\r\nHost: localhost:{}\r\nConnection: close\r\n{}{more}\r\n",
            running.token,
            running.port,
            if_match(&tag)
        )
    };
    assert_eq!(running.send(head("Content-Length: 99999999999\r\n").as_bytes()).status, 413);
    let mut chunks = head("Transfer-Encoding: chunked\r\n").into_bytes();
    for _ in 0..5 {
        chunks.extend_from_slice(b"100000\r\n");
        chunks.resize(chunks.len() + 0x10_0000, b'#');
        chunks.extend_from_slice(b"\r\n");
    }
    assert!([413, 0].contains(&running.send(&chunks).status));
    // A text that breaks off halfway.
    let stream = running.connect();
    (&stream).write_all(head("Content-Length: 1000\r\n").as_bytes()).expect("sent");
    (&stream).write_all(b"half").expect("sent");
    stream.shutdown(std::net::Shutdown::Write).expect("shut");
    drop(stream);
    for nonsense in
        [&b"\x00\x01\x02\r\n\r\n"[..], b"GET\r\n\r\n", b"PUT / HTTP/9.9\r\n\r\n", &[b'A'; 1 << 20]]
    {
        let _ = running.send(nonsense);
    }
    assert_eq!(running.on_disk(), LESSON.as_bytes());
    assert_eq!(entries(running.folder.path()), ["lesson.toml", "other.txt"]);
    assert_eq!(running.get("lesson").status, 200, "and it goes on");
}

#[test]
fn a_page_that_breaks_is_told_and_the_server_goes_on() {
    let running = Running::start();
    fs::write(running.lesson(), "[break the page]").expect("edited");
    let reply = running.get("");
    assert_eq!(reply.status, 500);
    assert!(reply.body.contains("Glueline's own"), "{}", reply.body);
    assert_eq!(running.get("lesson").body, "[break the page]");
}

#[test]
fn a_lesson_that_has_gone_or_is_no_text_is_told_in_words() {
    let running = Running::start();
    let tag = running.get("lesson").tag();
    fs::remove_file(running.lesson()).expect("removed");
    let gone = running.get("lesson");
    assert_eq!(gone.status, 410);
    assert!(gone.body.contains("no longer there"), "{}", gone.body);
    assert_eq!(running.get("").status, 410);
    let save = running.put(&if_match(&tag), b"kept = true");
    assert_eq!((save.status, save.header("etag")), (412, None), "not made anew unasked");
    assert!(!running.lesson().exists());
    assert_eq!(running.put("If-None-Match: *\r\n", b"kept = true").status, 204, "made anew when asked");
    assert_eq!(running.on_disk(), b"kept = true");
    fs::write(running.lesson(), b"\xff\xff").expect("edited");
    let reply = running.get("lesson");
    assert_eq!(reply.status, 422);
    assert!(reply.body.contains("UTF-8"), "{}", reply.body);
    fs::remove_file(running.lesson()).expect("removed");
    fs::create_dir(running.lesson()).expect("made");
    assert_eq!(running.get("lesson").status, 422);
    assert_eq!(running.put("If-None-Match: *\r\n", b"x").status, 500);
}

#[test]
fn an_edit_elsewhere_is_told_to_every_board() {
    let running = Running::start();
    let (mut one, mut other) = (running.listen(), running.listen());
    let first = ("changed".to_owned(), file::tag(LESSON.as_bytes()));
    assert_eq!(one.event(), first, "at first the version that is there");
    assert_eq!(other.event(), first);
    fs::write(running.lesson(), "edited = 1").expect("edited");
    let second = ("changed".to_owned(), file::tag(b"edited = 1"));
    assert_eq!(one.event(), second);
    assert_eq!(other.event(), second);
    // As editors do: a new file in the old one's place.
    let new = running.folder.path().join("lesson.toml~");
    fs::write(&new, "edited = 2").expect("written");
    fs::rename(&new, running.lesson()).expect("renamed");
    assert_eq!(one.event(), ("changed".to_owned(), file::tag(b"edited = 2")));
    fs::remove_file(running.lesson()).expect("removed");
    assert_eq!(one.event().0, "gone");
    fs::write(running.lesson(), LESSON).expect("back");
    assert_eq!(one.event(), first);
    // The same content written anew is no change.
    fs::write(running.lesson(), LESSON).expect("touched");
    assert!(one.is_still_for(Duration::from_millis(1200)));
}

#[test]
fn a_save_is_told_once_with_the_tag_that_the_board_was_given() {
    let running = Running::start();
    let mut listening = running.listen();
    let tag = listening.event().1;
    let saved = running.put(&if_match(&tag), b"mine = true");
    assert_eq!(listening.event(), ("changed".to_owned(), saved.tag()));
    assert!(listening.is_still_for(Duration::from_millis(1200)));
}

#[test]
fn it_ends_well_also_while_boards_listen() {
    let mut running = Running::start();
    let mut listening = running.listen();
    listening.event();
    let start = Instant::now();
    assert!(running.end());
    assert!(start.elapsed() < Duration::from_secs(5));
    assert!(TcpStream::connect((Ipv4Addr::LOCALHOST, running.port)).is_err());
}

#[test]
fn a_port_that_is_taken_and_a_lesson_that_is_not_there_are_told() {
    let running = Running::start();
    let served = |lesson: PathBuf, port| Served {
        lesson,
        page: Box::new(str::to_owned),
        address: Ipv4Addr::LOCALHOST.into(),
        port,
    };
    let never = |_: &str| panic!("not ready");
    let taken = serve_until(served(running.lesson(), running.port), never, async {});
    assert!(matches!(taken, Err(crate::failure::Failure::Asked(words)) if words.contains("--port")));
    let nowhere = serve_until(served(running.folder.path().join("no.toml"), 0), never, async {});
    assert!(matches!(nowhere, Err(crate::failure::Failure::Unread(..))));
    let folder = serve_until(served(running.folder.path().to_owned(), 0), never, async {});
    assert!(matches!(folder, Err(crate::failure::Failure::Unread(..))));
}

#[cfg(unix)]
#[test]
fn links_and_permissions_stay_as_they_are() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().expect("a folder for the test");
    let real = folder.path().join("real.toml");
    fs::write(&real, LESSON).expect("written");
    fs::set_permissions(&real, fs::Permissions::from_mode(0o640)).expect("set");
    let link = folder.path().join("lesson.toml");
    std::os::unix::fs::symlink(&real, &link).expect("linked");
    let running = Running::over(folder, link.clone());
    let saved = running.put(&if_match(&running.get("lesson").tag()), b"saved = true");
    assert_eq!(saved.status, 204);
    assert!(fs::symlink_metadata(&link).expect("there").is_symlink(), "the link is a link still");
    assert_eq!(fs::read(&real).expect("there"), b"saved = true");
    assert_eq!(fs::metadata(&real).expect("there").permissions().mode() & 0o777, 0o640);
    // The link turned to another file: the file that was served at the start is served still.
    let secret = running.folder.path().join("secret.txt");
    fs::write(&secret, "nobody's business").expect("written");
    fs::remove_file(&link).expect("removed");
    std::os::unix::fs::symlink(&secret, &link).expect("linked");
    assert_eq!(running.get("lesson").body, "saved = true");
    // A file that may only be read is left alone.
    fs::set_permissions(&real, fs::Permissions::from_mode(0o440)).expect("set");
    let refused = running.put(&if_match(&saved.tag()), b"forced = true");
    assert_eq!(refused.status, 500);
    assert!(refused.body.contains("no right"), "{}", refused.body);
    assert_eq!(fs::read(&real).expect("there"), b"saved = true");
}

fn entries(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .expect("a folder")
        .filter_map(|entry| entry.ok().map(|entry| entry.file_name().to_string_lossy().into_owned()))
        .collect();
    names.sort();
    names
}
