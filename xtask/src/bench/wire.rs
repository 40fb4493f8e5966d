//! A wire between two programs that counts what goes over it, headers and all.
//!
//! Used in runs of their own: passing everything on costs time.

use std::io::{Read as _, Write as _};
use std::net::{Shutdown, SocketAddr, TcpListener, TcpStream};
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::thread;

use anyhow::Result;

/// A wire; it ends with this program.
pub(crate) struct Wire {
    /// Where to connect to.
    pub(crate) address: SocketAddr,
    counts: Arc<[AtomicU64; 2]>,
}

/// Bytes that went each way.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Bytes {
    /// To the server.
    pub(crate) there: u64,
    /// From the server.
    pub(crate) back: u64,
}

impl Wire {
    /// To a server on this machine.
    pub(crate) fn to(server: SocketAddr) -> Result<Self> {
        let listener = TcpListener::bind("127.0.0.1:0")?;
        let wire = Self { address: listener.local_addr()?, counts: Arc::default() };
        let counts = Arc::clone(&wire.counts);
        thread::spawn(move || {
            for near in listener.incoming().flatten() {
                let Ok(far) = TcpStream::connect(server) else { continue };
                let (Ok(near_back), Ok(far_back)) = (near.try_clone(), far.try_clone()) else { continue };
                for (way, from, to) in [(0, near, far), (1, far_back, near_back)] {
                    let counts = Arc::clone(&counts);
                    thread::spawn(move || pass(from, to, &counts[way]));
                }
            }
        });
        Ok(wire)
    }

    /// What went over it so far.
    pub(crate) fn bytes(&self) -> Bytes {
        let [there, back] = &*self.counts;
        Bytes { there: there.load(Ordering::SeqCst), back: back.load(Ordering::SeqCst) }
    }
}

fn pass(mut from: TcpStream, mut to: TcpStream, count: &AtomicU64) {
    let mut buffer = vec![0; 64 * 1024];
    while let Ok(read @ 1..) = from.read(&mut buffer) {
        // Counted before it arrives, so that who waits for it finds it counted.
        count.fetch_add(read as u64, Ordering::SeqCst);
        if to.write_all(&buffer[..read]).is_err() {
            break;
        }
    }
    // The other end may be gone already.
    let _ = to.shutdown(Shutdown::Write);
}
