//! What the camera's picture costs: 640 by 480 grey values in, the text of a code out, as the first of the
//! four looks of `app/reader` does it. The frames are drawn: an answer's code, slightly turned and grainy, and a frame without a code.

use std::hint::black_box;

use criterion::{Criterion, Throughput};
use qrcode::{Color, EcLevel, QrCode, Version};
use reader::{Look, Picture};

const WIDTH: usize = 640;
const HEIGHT: usize = 480;
/// Pixels of one module, and the turn of the code: its sine and cosine (3-4-5 would be too much: 7-24-25).
const MODULE: f64 = 6.5;
const TURN: (f64, f64) = (0.28, 0.96);
/// As long as the longest answer of a buddy, in the characters of base45: QR version 8 at level M.
const TEXT_CHARS: usize = 218;

/// Times both frames.
pub(crate) fn frames(criterion: &mut Criterion) {
    let text = "SWB1:7X+".repeat(28)[..TEXT_CHARS].to_owned();
    let (with, without) = (frame(Some(&text)), frame(None));
    assert_eq!(decode(&with), Some(text), "the frame can be read");
    assert_eq!(decode(&without), None);
    let mut group = criterion.benchmark_group("camera");
    group.throughput(Throughput::Elements(1));
    group.bench_function("frame with a code", |bench| bench.iter(|| decode(black_box(&with))));
    group.bench_function("frame without", |bench| bench.iter(|| decode(black_box(&without))));
    group.finish();
}

fn decode(luma: &[u8]) -> Option<String> {
    reader::read(&Picture::of_grey(luma.to_vec(), WIDTH, HEIGHT)?, Look::Near)
}

/// A grey wall with grain on it, and a code in its middle.
fn frame(text: Option<&str>) -> Vec<u8> {
    let code = text.map(|text| QrCode::with_version(text, Version::Normal(8), EcLevel::M).expect("it fits"));
    let mut luma = Vec::with_capacity(WIDTH * HEIGHT);
    for y in 0..HEIGHT {
        for x in 0..WIDTH {
            let grain = u8::try_from((x * 7_919 + y * 104_729) % 23).expect("small");
            let paper = code.as_ref().and_then(|code| dark(code, x, y)).map(|dark| if dark { 40 } else { 200 });
            luma.push(paper.unwrap_or(150) + grain);
        }
    }
    luma
}

/// Whether a pixel is on a dark module, on a light one or the quiet zone, or beside the code.
#[expect(clippy::cast_precision_loss, clippy::cast_possible_truncation, reason = "pixels of one small picture")]
fn dark(code: &QrCode, x: usize, y: usize) -> Option<bool> {
    let (right, down) = (x as f64 - WIDTH as f64 / 2.0, y as f64 - HEIGHT as f64 / 2.0);
    let (sine, cosine) = TURN;
    let half = code.width() as f64 / 2.0;
    let column = (right * cosine + down * sine) / MODULE + half;
    let row = (down * cosine - right * sine) / MODULE + half;
    let inside = |at: f64| usize::try_from(at.floor() as i64).ok().filter(|at| *at < code.width());
    match (inside(column), inside(row)) {
        (Some(column), Some(row)) => Some(code[(column, row)] == Color::Dark),
        _ => (-4.0..half * 2.0 + 4.0)
            .contains(&column)
            .then_some(false)
            .filter(|_| (-4.0..half * 2.0 + 4.0).contains(&row)),
    }
}
