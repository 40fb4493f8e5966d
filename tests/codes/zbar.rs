//! `ZBar` (Debian's `zbar-tools`), an independent reader of codes.

use std::io::Write as _;
use std::process::{Command, Stdio};

/// Whether it reads this text in a picture of grey values, and nothing else.
pub(crate) fn reads(grey: &[u8], width: usize, height: usize, text: &str) -> bool {
    let mut child = Command::new("zbarimg")
        .args(["--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", "pgm:-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("zbarimg is there");
    let mut stdin = child.stdin.take().expect("it was piped");
    stdin.write_all(format!("P5 {width} {height} 255\n").as_bytes()).expect("it reads");
    stdin.write_all(grey).expect("it reads");
    drop(stdin);
    let answer = child.wait_with_output().expect("it ends");
    String::from_utf8_lossy(&answer.stdout).trim_end() == text
}
