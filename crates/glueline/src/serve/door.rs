//! Who is let in: the right token, asked for under the right name, and for saving from the page itself.

use hyper::header::{HOST, HeaderMap, ORIGIN};
use hyper::{Method, Request};
use std::net::{IpAddr, SocketAddr};

/// What is behind the door.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Room {
    /// The board's page.
    Page,
    /// The lesson's text, to be read.
    Lesson,
    /// The lesson's text, to be written.
    Save,
    /// The tidings of changes.
    Changes,
}

/// The door: its token and its address.
#[derive(Debug)]
pub struct Door {
    token: String,
    local: SocketAddr,
}

impl Door {
    /// A door at `local`, the address that is really listened at.
    pub fn new(token: String, local: SocketAddr) -> Self {
        Self { token, local }
    }

    /// The address of the page, to be opened on this machine.
    pub fn url(&self) -> String {
        let host = match self.local.ip() {
            IpAddr::V4(ip) if ip.is_unspecified() => IpAddr::from([127, 0, 0, 1]),
            IpAddr::V6(ip) if ip.is_unspecified() => IpAddr::V6(std::net::Ipv6Addr::LOCALHOST),
            ip => ip,
        };
        format!("http://{}/{}/", SocketAddr::new(host, self.local.port()), self.token)
    }

    /// Which room a request is let into, if any. Without the token nobody learns which rooms there are.
    pub fn admits<B>(&self, request: &Request<B>) -> Option<Room> {
        // A name that some other site has pointed at this machine must not get in (DNS rebinding).
        if request.uri().authority().is_some() || !self.asked_by_name(request.headers()) {
            return None;
        }
        let (token, rest) = request.uri().path().strip_prefix('/')?.split_once('/')?;
        if !same(token.as_bytes(), self.token.as_bytes()) {
            return None;
        }
        match (request.method(), rest) {
            (&Method::GET, "") => Some(Room::Page),
            (&Method::GET, "lesson") => Some(Room::Lesson),
            (&Method::PUT, "lesson") => Some(Room::Save),
            (&Method::GET, "changes") => Some(Room::Changes),
            _ => None,
        }
    }

    /// Whether a request to save comes from the page, and from no other site. A browser always names the origin of
    /// such a request; a program that names none is no page of another site.
    pub fn is_from_own_page(&self, headers: &HeaderMap) -> bool {
        let origins_are_ours = headers.get_all(ORIGIN).iter().all(|origin| {
            origin
                .to_str()
                .ok()
                .and_then(|text| text.strip_prefix("http://"))
                .is_some_and(|host| self.is_us(host))
        });
        let sites_are_ours = headers.get_all("sec-fetch-site").iter().all(|site| site == "same-origin");
        origins_are_ours && sites_are_ours
    }

    fn asked_by_name(&self, headers: &HeaderMap) -> bool {
        let mut hosts = headers.get_all(HOST).iter();
        let (Some(host), None) = (hosts.next(), hosts.next()) else { return false };
        host.to_str().is_ok_and(|host| self.is_us(host))
    }

    /// Whether `host`, with its port, is a name of ours. Digits cannot be pointed elsewhere; of names only
    /// `localhost` is known.
    fn is_us(&self, host: &str) -> bool {
        let (name, port) = match host.rsplit_once(':') {
            Some((name, port)) if !port.ends_with(']') => (name, port),
            _ => (host, "80"),
        };
        if port != self.local.port().to_string() {
            return false;
        }
        if name.eq_ignore_ascii_case("localhost") {
            return true;
        }
        let digits = name.strip_prefix('[').and_then(|name| name.strip_suffix(']')).unwrap_or(name);
        let here = self.local.ip();
        digits.parse().is_ok_and(|ip: IpAddr| ip.is_loopback() || ip == here || here.is_unspecified())
    }
}

/// Whether two are the same, in a time that does not tell how much of them is.
fn same(one: &[u8], other: &[u8]) -> bool {
    one.len() == other.len() && one.iter().zip(other).fold(0, |differing, (a, b)| differing | (a ^ b)) == 0
}
