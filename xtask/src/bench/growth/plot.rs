//! The curves as pictures: log-log, in the app's own look, on dark and light ground, small.
//!
//! Told apart by the name at each line's end and by its dashes, never by colour alone; what is read aloud is the title and a sentence
//! for each line. Numbers in, markup out: nothing is judged here.

use std::fmt::Write as _;

use super::fit::{Curve, slope};

const WIDE: f64 = 860.0;
const HIGH: f64 = 460.0;
/// Where the plane begins and ends.
const LEFT: f64 = 74.0;
const RIGHT: f64 = 560.0;
const TOP: f64 = 52.0;
const FOOT: f64 = 404.0;
/// Names at the lines' ends stand no nearer.
const LINE: f64 = 18.0;
/// How lines are dashed, in turns, and which colour of the style they have.
const DASHES: [&str; 4] = ["", "10 4", "3 4", "12 4 3 4"];

const STYLE: &str = "svg{background:#f4f2eb}text{font:15px \"Atkinson Hyperlegible Next\",system-ui,sans-serif;fill:#14181c}\
.n{font-size:14px;fill:#3d454c}.h{font-size:19px;font-weight:700}.g{stroke:#a9a493;stroke-width:.6;fill:none}\
.l{fill:none;stroke-width:2.2}.a{stroke:#2b3a9e}.b{stroke:#8f6712}.c{stroke:#3d454c}.k{stroke:#a9a493;stroke-width:.8;fill:none}\
@media(prefers-color-scheme:dark){svg{background:#101418}text{fill:#eef1f2}.n{fill:#b9c2c8}.g,.k{stroke:#3f4a54}.a{stroke:#93a2ff}\
.b{stroke:#d9b25c}.c{stroke:#b9c2c8}}";

/// Which curves are in a picture.
type Belongs = fn(&Curve) -> bool;

const PICTURES: [(&str, &str, &str, Belongs); 5] = [
    ("entries_taps.svg", "A tap, against the log's length", "entries", |curve| {
        curve.dimension == "entries" && curve.kind == "tap"
    }),
    ("entries_pages.svg", "Opening the log, and the pages of Book, against its length", "entries", |curve| {
        curve.dimension == "entries" && matches!(curve.kind.as_str(), "page" | "whole")
    }),
    ("members.svg", "Against members", "members", |curve| grows("members", curve)),
    ("machines.svg", "Against machines", "machines", |curve| grows("machines", curve)),
    ("open_sessions.svg", "Against open sessions", "open sessions", |curve| grows("open sessions", curve)),
];

/// Of what does not grow with a dimension one line would lie on the other.
fn grows(dimension: &str, curve: &Curve) -> bool {
    curve.dimension == dimension && (curve.kind == "tap" || slope(&curve.points) > 0.1)
}

/// All of them, by file name.
pub(super) fn pictures(curves: &[Curve]) -> Vec<(&'static str, String)> {
    let of = |belongs: Belongs| curves.iter().filter(|curve| belongs(curve)).collect::<Vec<_>>();
    PICTURES.iter().map(|(file, title, axis, belongs)| (*file, picture(title, axis, &of(*belongs)))).collect()
}

fn picture(title: &str, axis: &str, curves: &[&Curve]) -> String {
    let points = || curves.iter().flat_map(|curve| &curve.points);
    let (across, up) = (Axis::of(points().map(|point| point.0)), Axis::of(points().map(|point| point.1.max(1.0))));
    let x = |size: f64| LEFT + across.share(size) * (RIGHT - LEFT);
    let y = |cost: f64| FOOT - up.share(cost.max(1.0)) * (FOOT - TOP);
    let mut told = String::new();
    let mut drawn = String::new();
    let mut ends: Vec<(f64, &Curve)> = Vec::new();
    for (nth, curve) in curves.iter().enumerate() {
        let slope = slope(&curve.points);
        let _ = write!(told, "{}: slope {slope:.2}. ", curve.name);
        let class = ["a", "b", "c"][nth % 3];
        let dash = DASHES[nth / 3 % DASHES.len()];
        let path: Vec<String> =
            curve.points.iter().map(|(size, cost)| format!("{:.0} {:.1}", x(*size), y(*cost))).collect();
        let dashed = if dash.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{dash}\"") };
        let _ = write!(drawn, "<path class=\"l {class}\"{dashed} d=\"M{}\"/>", path.join("L"));
        ends.push((curve.points.last().map_or(FOOT, |(_, cost)| y(*cost)), curve));
    }
    let names = names(ends, x(across.most));
    let grid = grid(&across, &up, axis, (&x, &y));
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDE} {HIGH}\" role=\"img\" aria-labelledby=\"t d\">\
         <title id=\"t\">{title}</title><desc id=\"d\">Log-log. {told}</desc><style>{STYLE}</style>\
         <text class=\"h\" x=\"16\" y=\"30\">{title}</text>{grid}{drawn}{names}</svg>\n"
    )
}

/// The names at the lines' ends, each as near to its line as the others let it, with its slope and its cost at the largest size.
fn names(mut ends: Vec<(f64, &Curve)>, from: f64) -> String {
    ends.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut places: Vec<f64> = ends.iter().map(|(end, _)| *end).collect();
    for at in 1..places.len() {
        places[at] = places[at].max(places[at - 1] + LINE);
    }
    let mut lowest = FOOT + 8.0;
    for place in places.iter_mut().rev() {
        *place = place.min(lowest);
        lowest = *place - LINE;
    }
    let mut names = String::new();
    for ((end, curve), place) in ends.iter().zip(&places) {
        let (slope, most) = (slope(&curve.points), time(curve.points.last().map_or(0.0, |(_, cost)| *cost)));
        let _ = write!(
            names,
            "<path class=\"k\" d=\"M{from:.0} {end:.0}L{:.0} {place:.0}\"/><text x=\"{:.0}\" y=\"{:.0}\">{} \
             <tspan class=\"n\">{slope:.2}, {most}</tspan></text>",
            from + 22.0,
            from + 26.0,
            place + 5.0,
            curve.name
        );
    }
    names
}

fn grid(across: &Axis, up: &Axis, axis: &str, (x, y): (&dyn Fn(f64) -> f64, &dyn Fn(f64) -> f64)) -> String {
    let mut grid = String::new();
    for power in across.powers() {
        let at = x(power);
        let _ = write!(
            grid,
            "<path class=\"g\" d=\"M{at:.0} {TOP}V{FOOT}\"/><text class=\"n\" x=\"{at:.0}\" y=\"{:.0}\" text-anchor=\"middle\">{}</text>",
            FOOT + 20.0,
            count(power)
        );
    }
    for power in up.powers() {
        let at = y(power);
        let _ = write!(
            grid,
            "<path class=\"g\" d=\"M{LEFT} {at:.0}H{RIGHT}\"/><text class=\"n\" x=\"{:.0}\" y=\"{:.0}\" text-anchor=\"end\">{}</text>",
            LEFT - 8.0,
            at + 5.0,
            time(power)
        );
    }
    let _ = write!(
        grid,
        "<text class=\"n\" x=\"{LEFT}\" y=\"{:.0}\">{axis}; at each line's end its slope and the time at the largest size</text>",
        FOOT + 44.0
    );
    grid
}

/// A logarithmic axis from the power of ten below the least to the one above the most.
struct Axis {
    least: f64,
    most: f64,
}

impl Axis {
    fn of(values: impl Iterator<Item = f64>) -> Self {
        let (least, most) =
            values.fold((f64::MAX, 1.0), |(least, most): (f64, f64), value| (least.min(value), most.max(value)));
        let whole = |value: f64, to: fn(f64) -> f64| 10_f64.powf(to(value.log10()));
        let least = whole(least.min(most), f64::floor);
        Self { least, most: whole(most * 0.999, f64::ceil).max(least * 10.0) }
    }

    fn share(&self, value: f64) -> f64 {
        (value / self.least).ln() / (self.most / self.least).ln()
    }

    fn powers(&self) -> Vec<f64> {
        let mut powers = vec![self.least];
        while let Some(last) = powers.last().copied().filter(|last| *last < self.most * 0.99) {
            powers.push(last * 10.0);
        }
        powers
    }
}

/// A time in the unit that suits it.
pub(super) fn time(ns: f64) -> String {
    let (value, unit) = match ns {
        ns if ns >= 1e9 => (ns / 1e9, "s"),
        ns if ns >= 1e6 => (ns / 1e6, "ms"),
        ns if ns >= 1e3 => (ns / 1e3, "µs"),
        ns => (ns, "ns"),
    };
    if value < 10.0 && value.fract() > 0.05 { format!("{value:.1} {unit}") } else { format!("{value:.0} {unit}") }
}

fn count(number: f64) -> String {
    match number {
        number if number >= 1e6 => format!("{:.0} million", number / 1e6),
        number if number >= 1e3 => format!("{:.0},000", number / 1e3),
        number => format!("{number:.0}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_and_axes_are_round() {
        for (ns, told) in [(7.0, "7 ns"), (1_500.0, "1.5 µs"), (1_000.0, "1 µs"), (52e6, "52 ms"), (4.3e9, "4.3 s")] {
            assert_eq!(time(ns), told);
        }
        let axis = Axis::of([950.0, 40_000.0].into_iter());
        assert_eq!(
            axis.powers().iter().map(|power| count(*power)).collect::<Vec<_>>(),
            ["100", "1,000", "10,000", "100,000"]
        );
        assert_eq!(Axis::of([10.0, 10_000.0].into_iter()).powers().len(), 4, "what ends on a power needs no more");
    }

    #[test]
    fn a_picture_says_what_it_shows() {
        let points = vec![(10.0, 100.0), (100.0, 1_000.0), (1_000.0, 10_000.0)];
        let curve = |name: &str| Curve {
            dimension: "entries".into(),
            kind: "tap".into(),
            name: name.into(),
            points: points.clone(),
        };
        let drawn = pictures(&[curve("a tap"), curve("another")]);
        assert_eq!(drawn.len(), PICTURES.len());
        let taps = &drawn[0].1;
        for part in [
            "<title id=\"t\">A tap",
            "a tap: slope 1.00. another: slope 1.00.",
            "prefers-color-scheme:dark",
            "stroke-dasharray",
        ] {
            assert_eq!(taps.contains(part), part != "stroke-dasharray", "{part}");
        }
    }
}
