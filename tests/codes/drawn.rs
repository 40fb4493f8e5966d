//! Frames of a camera that are hard to read, drawn: a code on a wall, seen through an optical system that is told what is
//! wrong with it. The same seed gives the same frame.
//!
//! Common practice, no source: what goes wrong before a camera in a shop, and by how much. They are drawn and not taken, so a
//! share of them says how two readers compare, and not how many codes a real phone reads.

use qrcode::{Color, EcLevel, QrCode, Version};

/// What a phone's camera gives at least.
pub(crate) const WIDTH: usize = 640;
/// Its height.
pub(crate) const HEIGHT: usize = 480;
/// The lens: how many pixels away it is from its picture. Some 60 degrees from side to side.
const FOCUS_PX: f64 = 560.0;
/// Modules that are left white around a code (ISO/IEC 18004).
const QUIET: f64 = 4.0;

/// What is wrong with a frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Trouble {
    /// Nothing much: held at any angle, a little grain.
    None,
    /// Far away: two to three pixels a module.
    Far,
    /// Out of focus.
    Blurred,
    /// Moved while it was taken.
    Shaken,
    /// Seen from the side.
    Tilted,
    /// A lamp shines back from it.
    Glare,
    /// Little light, and so much grain.
    Dark,
    /// A shadow's edge lies over it.
    Shade,
    /// Scratched, with a smear of grease.
    Dirty,
    /// Two things at once, each milder: dark and blurred, tilted and in a shadow, or far and shaken.
    Both,
}

impl Trouble {
    /// All of them.
    pub(crate) const ALL: [Self; 10] = [
        Self::None,
        Self::Far,
        Self::Blurred,
        Self::Shaken,
        Self::Tilted,
        Self::Glare,
        Self::Dark,
        Self::Shade,
        Self::Dirty,
        Self::Both,
    ];

    /// In words, for a table.
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::None => "nothing wrong, any angle",
            Self::Far => "far away",
            Self::Blurred => "out of focus",
            Self::Shaken => "shaken",
            Self::Tilted => "from the side",
            Self::Glare => "glare",
            Self::Dark => "dark, grainy",
            Self::Shade => "a shadow's edge",
            Self::Dirty => "scratched, greasy",
            Self::Both => "two of these",
        }
    }
}

/// One frame and what its code says.
pub(crate) struct Frame {
    /// Grey values, row by row.
    pub(crate) grey: Vec<u8>,
    /// What stands in it.
    pub(crate) text: String,
}

/// Numbers that look like chance (splitmix64).
struct Chance(u64);

impl Chance {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// Somewhere in a range.
    fn within(&mut self, from: f64, to: f64) -> f64 {
        let share = f64::from(u32::try_from(self.next() >> 32).expect("32 bits")) / f64::from(u32::MAX);
        from + (to - from) * share
    }

    /// About zero, of deviation one: the sum of twelve, which is near enough to normal.
    fn grain(&mut self) -> f64 {
        (0..12).map(|_| self.within(0.0, 1.0)).sum::<f64>() - 6.0
    }
}

/// How a frame is taken.
struct Shot {
    module_px: f64,
    turn: f64,
    tilt: f64,
    tilted_about: f64,
    off: (f64, f64),
    blur_px: f64,
    shake_px: (f64, f64),
    ink: f64,
    paper: f64,
    grain: f64,
    glare: Option<(f64, f64, f64)>,
    shade: Option<(f64, f64, f64)>,
    dirt: u32,
}

/// The frame of this seed with that trouble.
pub(crate) fn frame(trouble: Trouble, seed: u64) -> Frame {
    let mut chance = Chance(seed.wrapping_mul(1_000_003) ^ (trouble as u64) << 40);
    let (text, code) = code(seed);
    let shot = shot(trouble, seed, &mut chance, code.width());
    let light = seen(&code, &shot, &mut chance);
    let light = shaken(&blurred(&light, shot.blur_px), shot.shake_px);
    let grey = light.iter().map(|light| level(light + chance.grain() * shot.grain)).collect();
    Frame { grey, text }
}

/// A door's address, a buddy's answer or a signed line, by turns: QR versions 3, 8 and 13 at level M.
fn code(seed: u64) -> (String, QrCode) {
    let (text, version) = match seed % 3 {
        0 => (format!("https://yard.example.org/d/room-{seed}"), 3),
        1 => (format!("SWB1:{}{seed:06}", "7X+K2P.9".repeat(26)), 8),
        _ => (format!("SWB1:{}{seed:06}", "Q4-M8$1/".repeat(56)), 13),
    };
    let code = QrCode::with_version(&text, Version::Normal(version), EcLevel::M).expect("it fits");
    (text, code)
}

#[expect(clippy::cast_precision_loss, reason = "modules of one code")]
fn shot(trouble: Trouble, seed: u64, chance: &mut Chance, modules: usize) -> Shot {
    let modules = modules as f64;
    // From a third of the frame's height up to nearly all of it.
    let side = chance.within(250.0, 380.0);
    let mut shot = Shot {
        module_px: (side / modules).max(3.6),
        turn: chance.within(0.0, std::f64::consts::TAU),
        tilt: chance.within(0.0, 0.25),
        tilted_about: chance.within(0.0, std::f64::consts::TAU),
        off: (chance.within(-30.0, 30.0), chance.within(-20.0, 20.0)),
        blur_px: 0.6,
        shake_px: (0.0, 0.0),
        ink: chance.within(25.0, 55.0),
        paper: chance.within(180.0, 225.0),
        grain: 3.0,
        glare: None,
        shade: None,
        dirt: 0,
    };
    let of_module = |chance: &mut Chance, from, to, module_px: f64| chance.within(from, to) * module_px;
    let shake = |chance: &mut Chance, long: f64| {
        let way = chance.within(0.0, std::f64::consts::TAU);
        (long * way.cos(), long * way.sin())
    };
    match trouble {
        Trouble::None => {}
        Trouble::Far => shot.module_px = chance.within(1.7, 2.8),
        Trouble::Blurred => shot.blur_px = of_module(chance, 0.4, 0.75, shot.module_px),
        Trouble::Shaken => {
            let long = of_module(chance, 0.8, 1.7, shot.module_px);
            shot.shake_px = shake(chance, long);
        }
        Trouble::Tilted => shot.tilt = chance.within(0.6, 1.05),
        Trouble::Glare => {
            let (x, y) = (chance.within(-0.5, 0.5), chance.within(-0.5, 0.5));
            shot.glare = Some((x * side, y * side, chance.within(0.08, 0.17) * side));
        }
        Trouble::Dark => {
            (shot.ink, shot.paper) = (chance.within(10.0, 16.0), chance.within(34.0, 52.0));
            shot.grain = chance.within(5.0, 10.0);
        }
        Trouble::Shade => {
            let way = chance.within(0.0, std::f64::consts::TAU);
            shot.shade = Some((way, chance.within(-0.25, 0.25) * side, chance.within(0.12, 0.3)));
        }
        Trouble::Dirty => shot.dirt = 6,
        Trouble::Both => match seed / 3 % 3 {
            0 => {
                (shot.ink, shot.paper, shot.grain) = (14.0, 60.0, 5.0);
                shot.blur_px = of_module(chance, 0.35, 0.55, shot.module_px);
            }
            1 => {
                shot.tilt = chance.within(0.5, 0.8);
                let way = chance.within(0.0, std::f64::consts::TAU);
                shot.shade = Some((way, chance.within(-0.2, 0.2) * side, 0.3));
            }
            _ => {
                shot.module_px = chance.within(2.2, 3.0);
                let long = of_module(chance, 0.5, 0.9, shot.module_px);
                shot.shake_px = shake(chance, long);
            }
        },
    }
    shot
}

/// The light that falls on each pixel, through a lens without faults.
#[expect(clippy::cast_precision_loss, reason = "pixels of one small picture")]
fn seen(code: &QrCode, shot: &Shot, chance: &mut Chance) -> Vec<f64> {
    let back = inverse(camera(shot));
    let half = code.width() as f64 / 2.0;
    let smears: Vec<(f64, f64, f64, f64)> = (0..shot.dirt)
        .map(|_| {
            let at = |chance: &mut Chance| chance.within(-half, half);
            (at(chance), at(chance), chance.within(0.0, std::f64::consts::TAU), chance.within(0.4, 1.1))
        })
        .collect();
    let mut light = Vec::with_capacity(WIDTH * HEIGHT);
    for y in 0..HEIGHT {
        for x in 0..WIDTH {
            let (mut sum, sub) = (0.0, [0.25, 0.75]);
            for (down, right) in sub.iter().flat_map(|down| sub.iter().map(move |right| (*down, *right))) {
                let (px, py) = (x as f64 + right - WIDTH as f64 / 2.0, y as f64 + down - HEIGHT as f64 / 2.0);
                let [u, v] = through(&back, px, py);
                let mut here = surface(code, shot, u, v, half);
                for (at_u, at_v, way, wide) in &smears {
                    // A scratch of bare metal as long as the code.
                    let across = (u - at_u) * way.sin() - (v - at_v) * way.cos();
                    let along = (u - at_u) * way.cos() + (v - at_v) * way.sin();
                    if across.abs() < wide / 2.0 && along.abs() < half / 2.0 {
                        here = 150.0;
                    }
                }
                if let Some((way, edge, left)) = shot.shade
                    && px * way.cos() + py * way.sin() > edge
                {
                    here *= left;
                }
                if let Some((at_x, at_y, wide)) = shot.glare {
                    let far = (px - at_x).hypot(py - at_y) / wide;
                    here += 420.0 * (-far * far).exp();
                }
                sum += here.min(255.0);
            }
            light.push(sum / 4.0);
        }
    }
    light
}

/// How bright the wall or the sheet is at a place, in modules from the code's middle.
fn surface(code: &QrCode, shot: &Shot, u: f64, v: f64, half: f64) -> f64 {
    let inside = |at: f64| (-half..half).contains(&at);
    let on_sheet = |at: f64| (-half - QUIET..half + QUIET).contains(&at);
    if inside(u) && inside(v) {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "inside the code")]
        let (column, row) = ((u + half) as usize, (v + half) as usize);
        if code[(column, row)] == Color::Dark { shot.ink } else { shot.paper }
    } else if on_sheet(u) && on_sheet(v) {
        shot.paper
    } else {
        // Boards and joints: something to look at that is no code.
        let board = ((u / 9.0).floor() + (v / 5.0).floor()).rem_euclid(3.0);
        shot.paper * (0.45 + 0.12 * board)
    }
}

type Matrix = [[f64; 3]; 3];

/// From modules on the sheet to pixels from the frame's middle.
fn camera(shot: &Shot) -> Matrix {
    let (sin, cos) = shot.turn.sin_cos();
    let (about_sin, about_cos) = shot.tilted_about.sin_cos();
    let (tilt_sin, tilt_cos) = shot.tilt.sin_cos();
    // A turn in the plane, then the sheet is leant back about an axis in it.
    let place = |u: f64, v: f64| {
        let (x, y) = (u * cos - v * sin, u * sin + v * cos);
        let (along, across) = (x * about_cos + y * about_sin, y * about_cos - x * about_sin);
        let (leant, deep) = (across * tilt_cos, across * tilt_sin);
        [along * about_cos - leant * about_sin, along * about_sin + leant * about_cos, deep]
    };
    let ([ux, uy, uz], [vx, vy, vz]) = (place(1.0, 0.0), place(0.0, 1.0));
    // A module as large as wanted at this distance.
    let far = FOCUS_PX / shot.module_px;
    let (right, down) = shot.off;
    [
        [FOCUS_PX * ux + right * uz, FOCUS_PX * vx + right * vz, right * far],
        [FOCUS_PX * uy + down * uz, FOCUS_PX * vy + down * vz, down * far],
        [uz, vz, far],
    ]
}

#[expect(clippy::many_single_char_names, reason = "nine places of a matrix")]
fn inverse([[a, b, c], [d, e, f], [g, h, i]]: Matrix) -> Matrix {
    let whole = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
    [
        [(e * i - f * h) / whole, (c * h - b * i) / whole, (b * f - c * e) / whole],
        [(f * g - d * i) / whole, (a * i - c * g) / whole, (c * d - a * f) / whole],
        [(d * h - e * g) / whole, (b * g - a * h) / whole, (a * e - b * d) / whole],
    ]
}

fn through(matrix: &Matrix, x: f64, y: f64) -> [f64; 2] {
    let [right, down, deep] = matrix.map(|row| row[0] * x + row[1] * y + row[2]);
    [right / deep, down / deep]
}

/// Out of focus: a bell curve of that deviation, one way and then the other.
#[expect(clippy::cast_possible_truncation, reason = "some pixels")]
fn blurred(light: &[f64], deviation_px: f64) -> Vec<f64> {
    let reach = (deviation_px * 3.0).ceil() as isize;
    #[expect(clippy::cast_precision_loss, reason = "some pixels")]
    let weights: Vec<f64> = (-reach..=reach).map(|at| (-(at as f64 / deviation_px).powi(2) / 2.0).exp()).collect();
    let sum: f64 = weights.iter().sum();
    let along = |from: &[f64], step: (isize, isize)| {
        each_pixel(|x, y| {
            let near = (-reach..=reach).zip(&weights);
            near.map(|(at, weight)| from[index(x + at * step.0, y + at * step.1)] * weight).sum::<f64>() / sum
        })
    };
    along(&along(light, (1, 0)), (0, 1))
}

/// Moved by so much while the light fell in.
#[expect(clippy::cast_possible_truncation, clippy::cast_precision_loss, reason = "some pixels")]
fn shaken(light: &[f64], (right, down): (f64, f64)) -> Vec<f64> {
    let steps = right.hypot(down).ceil() as isize * 2;
    if steps == 0 {
        return light.to_vec();
    }
    each_pixel(|x, y| {
        let at = |step: isize, way: f64| (way * (step as f64 / steps as f64 - 0.5)).round() as isize;
        let sum: f64 = (0..=steps).map(|step| light[index(x + at(step, right), y + at(step, down))]).sum();
        sum / (steps + 1) as f64
    })
}

fn each_pixel(of: impl Fn(isize, isize) -> f64) -> Vec<f64> {
    let (width, height) = (WIDTH.cast_signed(), HEIGHT.cast_signed());
    (0..height).flat_map(|y| (0..width).map(move |x| (x, y))).map(|(x, y)| of(x, y)).collect()
}

/// A pixel's place; beyond the edge it is the edge.
fn index(x: isize, y: isize) -> usize {
    y.clamp(0, HEIGHT.cast_signed() - 1).cast_unsigned() * WIDTH + x.clamp(0, WIDTH.cast_signed() - 1).cast_unsigned()
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between black and white")]
fn level(light: f64) -> u8 {
    light.clamp(0.0, 255.0).round() as u8
}
