//! A push service of our own on loopback, and phones that listen there: what arrives is opened by another implementation
//! than the hub's (`web-push-native`), and its token read by another (`jsonwebtoken`).

use std::collections::BTreeMap;
use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::{TcpListener, TcpStream};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex};
use std::time::{Duration, SystemTime, UNIX_EPOCH};

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use jsonwebtoken::{Algorithm, DecodingKey, Validation, decode};
use serde_json::{Value, json};
use web_push_native::Auth;
use web_push_native::p256::SecretKey;
use web_push_native::p256::elliptic_curve::sec1::ToEncodedPoint as _;

use super::{Hub, Phone, Reply};

/// What a push service was sent, as the phone reads it.
#[derive(Clone, Debug)]
pub(crate) struct Pushed {
    /// To which of the service's addresses.
    pub(crate) to: String,
    /// When it arrived, in milliseconds.
    pub(crate) at_ms: i64,
    pub(crate) headers: BTreeMap<String, String>,
    body: Vec<u8>,
}

/// The service.
pub(crate) struct PushService {
    origin: String,
    arrived: Receiver<Pushed>,
    status: Arc<Mutex<u16>>,
}

impl PushService {
    /// Listens on a free port, and takes everything.
    pub(crate) fn new() -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").expect("a port");
        let origin = format!("http://{}", listener.local_addr().expect("an address"));
        let (sender, arrived) = channel();
        let status = Arc::new(Mutex::new(201));
        let answer = Arc::clone(&status);
        std::thread::spawn(move || {
            for stream in listener.incoming().flatten() {
                let (sender, answer) = (sender.clone(), Arc::clone(&answer));
                std::thread::spawn(move || take(stream, &sender, &answer));
            }
        });
        Self { origin, arrived, status }
    }

    /// What it answers from now on.
    pub(crate) fn answers(&self, status: u16) {
        *self.status.lock().expect("not poisoned") = status;
    }

    /// The address of one phone.
    pub(crate) fn endpoint(&self, name: &str) -> String {
        format!("{}/{name}", self.origin)
    }

    /// The next message, which must arrive within so many seconds.
    pub(crate) fn next(&self, seconds: u64) -> Pushed {
        self.arrived.recv_timeout(Duration::from_secs(seconds)).expect("a message in time")
    }

    /// No message arrives for so long.
    pub(crate) fn is_silent(&self, ms: u64) {
        let next = self.arrived.recv_timeout(Duration::from_millis(ms));
        assert!(next.is_err(), "nothing was expected: {next:?}");
    }
}

fn take(stream: TcpStream, sender: &Sender<Pushed>, status: &Mutex<u16>) {
    let mut reader = BufReader::new(stream);
    let mut line = String::new();
    if reader.read_line(&mut line).unwrap_or(0) == 0 {
        return;
    }
    let at_ms = now_ms();
    let to = line.strip_prefix("POST /").and_then(|rest| rest.split(' ').next()).expect("a POST").to_owned();
    let mut headers = BTreeMap::new();
    loop {
        line.clear();
        reader.read_line(&mut line).expect("a header");
        let Some((name, value)) = line.trim_end().split_once(": ") else { break };
        headers.insert(name.to_ascii_lowercase(), value.to_owned());
    }
    let mut body = vec![0; headers["content-length"].parse().expect("a length")];
    reader.read_exact(&mut body).expect("the body");
    let status = *status.lock().expect("not poisoned");
    let _ = sender.send(Pushed { to, at_ms, headers, body });
    let _ = write!(
        reader.get_mut(),
        "HTTP/1.1 {status} Answer\r\nLocation: http://127.0.0.1:1/\r\nContent-Length: 0\r\n\r\n"
    );
}

/// Now, in milliseconds.
pub(crate) fn now_ms() -> i64 {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).expect("after 1970");
    i64::try_from(since.as_millis()).expect("this era")
}

/// A phone's end of a subscription.
pub(crate) struct Listening {
    key: SecretKey,
    auth: [u8; 16],
    endpoint: String,
    /// The hub's key, as the phone was given it.
    hub_key: String,
}

impl Listening {
    /// Subscribes a phone, as its browser would.
    pub(crate) fn of(phone: &Phone, hub: &Hub, service: &PushService, name: &str) -> Self {
        let seed = name.bytes().fold(7_u8, u8::wrapping_add).max(1);
        let state = phone.ask(hub, "GET", "/api/push", "").json();
        let hub_key = state["key"].as_str().expect("a key").to_owned();
        let key = SecretKey::from_slice(&[seed; 32]).expect("a key");
        let listening = Self { key, auth: [seed; 16], endpoint: service.endpoint(name), hub_key };
        assert_eq!(listening.tell(phone, hub).status, 204);
        listening
    }

    /// What the phone posts.
    pub(crate) fn body(&self) -> Value {
        let point = self.key.public_key().to_encoded_point(false);
        let keys = json!({ "p256dh": text(point.as_bytes()), "auth": text(&self.auth) });
        json!({ "subscription": { "endpoint": self.endpoint, "expirationTime": null, "keys": keys } })
    }

    /// Tells the hub of it.
    pub(crate) fn tell(&self, phone: &Phone, hub: &Hub) -> Reply {
        phone.post(hub, "/api/push", &self.body())
    }

    /// Opens what arrived; everything that a push service may ask of it is looked at on the way.
    pub(crate) fn open(&self, pushed: &Pushed) -> Value {
        assert_eq!(format!("/{}", pushed.to), self.endpoint[self.endpoint.rfind('/').expect("a path")..]);
        let header = |name: &str| pushed.headers.get(name).map(String::as_str).unwrap_or_default();
        // RFC 8291 section 4 and RFC 8030 sections 5.2 to 5.4.
        assert_eq!((header("content-encoding"), header("urgency")), ("aes128gcm", "high"));
        assert!(header("ttl").parse::<u32>().is_ok(), "{pushed:?}");
        assert!((1..=32).contains(&header("topic").len()), "{pushed:?}");
        self.read_token(header("authorization"));
        let auth: Auth = self.auth.into();
        let opened = web_push_native::decrypt(pushed.body.clone(), &self.key, &auth).expect("it opens");
        serde_json::from_slice(&opened).expect("JSON")
    }

    /// RFC 8292: signed by the key that the phone was given, for this push service, for a day at most.
    fn read_token(&self, header: &str) {
        let token = header.strip_prefix("vapid t=").and_then(|rest| rest.split_once(", k=")).expect("the scheme");
        assert_eq!(token.1, self.hub_key);
        let point = URL_SAFE_NO_PAD.decode(token.1).expect("base64url");
        let key = DecodingKey::from_ec_components(&text(&point[1..33]), &text(&point[33..])).expect("a key");
        let mut asked = Validation::new(Algorithm::ES256);
        asked.set_audience(&[&self.endpoint[..self.endpoint.rfind('/').expect("a path")]]);
        let claims = decode::<Value>(token.0, &key, &asked).expect("it holds").claims;
        let left_s = claims["exp"].as_i64().expect("an end") - now_ms() / 1000;
        assert!((60..=24 * 3600).contains(&left_s), "{left_s}");
    }
}

fn text(bytes: &[u8]) -> String {
    URL_SAFE_NO_PAD.encode(bytes)
}
