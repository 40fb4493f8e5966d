//! The wire between a hub and its database server, that a test can cut and mend.

use std::io;
use std::net::{Shutdown, TcpListener, TcpStream};
use std::sync::{Arc, Mutex};

/// Passes on whatever is said, while it is whole.
pub(crate) struct Wire {
    port: u16,
    ends: Arc<Mutex<Ends>>,
}

#[derive(Default)]
struct Ends {
    is_cut: bool,
    open: Vec<TcpStream>,
}

impl Wire {
    /// To the server of this address.
    pub(crate) fn to(address: &str) -> (Self, String) {
        let (before, host) = address.rsplit_once('@').expect("a user");
        let (host, database) = host.split_once('/').expect("a database");
        let listener = TcpListener::bind("127.0.0.1:0").expect("a port");
        let wire = Self { port: listener.local_addr().expect("an address").port(), ends: Arc::default() };
        let (ends, host) = (Arc::clone(&wire.ends), host.to_owned());
        std::thread::spawn(move || {
            for near in listener.incoming().flatten() {
                let mut ends = ends.lock().expect("not poisoned");
                let Some(far) = (!ends.is_cut).then(|| TcpStream::connect(&host).ok()).flatten() else { continue };
                for (mut from, mut to) in [(copy(&near), copy(&far)), (copy(&far), copy(&near))] {
                    std::thread::spawn(move || {
                        let _ = io::copy(&mut from, &mut to);
                        let _ = to.shutdown(Shutdown::Both);
                    });
                }
                ends.open.extend([near, far]);
            }
        });
        let through = format!("{before}@127.0.0.1:{}/{database}", wire.port);
        (wire, through)
    }

    /// Cuts everything that goes over it, and lets nothing new pass.
    pub(crate) fn cut(&self) {
        let mut ends = self.ends.lock().expect("not poisoned");
        ends.is_cut = true;
        for end in ends.open.drain(..) {
            let _ = end.shutdown(Shutdown::Both);
        }
    }

    /// Lets new connections pass again.
    pub(crate) fn mend(&self) {
        self.ends.lock().expect("not poisoned").is_cut = false;
    }
}

fn copy(stream: &TcpStream) -> TcpStream {
    stream.try_clone().expect("a second handle")
}
