//! What is engraved on the rule, in the order of its layers: steel, stretches, watch, graduations, numerals, words,
//! notch, end stop, scriber.
//!
//! Pure: the same [`RuleSpec`] gives the same bytes. Lanes across the rule keep words, numerals and ticks apart, and
//! whatever does not fit is left out rather than squeezed; the screen says the same in words beside it.

use super::face::{Anchor, Face, escape, text_width};
use super::hatch::{dots, hatch, px};
use super::{Marks, RuleSpec};

/// Distances across the rule and sizes of type, tenths of a pixel.
struct Lanes {
    /// The fire watch lies in 0..watch.
    watch: i64,
    /// Middle of the words.
    words: i64,
    /// Middle of the numerals where it lies; their right end where it stands.
    numerals: i64,
    /// The longest tick.
    tick: i64,
    /// Type size of words.
    word_size: i64,
    /// Type size of what is written in the watch's lane.
    lane_size: i64,
    /// Type size of numerals.
    numeral_size: i64,
}

impl Lanes {
    fn of(face: &Face) -> Self {
        if face.stands() {
            // 86 px of steel hold type of 18 px; a rule made wider by large text holds larger type.
            let size = (face.edge * 180 / 860).clamp(180, 420);
            let (tick, watch) = (size * 72 / 100, size * 120 / 100);
            return Self {
                watch,
                words: watch / 2,
                numerals: face.edge - tick - 30,
                tick,
                word_size: size,
                lane_size: size,
                numeral_size: size,
            };
        }
        let tick = (face.edge * 20 / 100).clamp(160, 640);
        let watch = (face.edge * 22 / 100).clamp(240, 720);
        // Numerals a quarter of the rule's depth: on a phone that leans against the wall four millimetres, which at two
        // metres are 7 minutes of arc (the line of normal sight on an eye chart: 5). A deep rule that is not long must
        // not have type that leaves no room along it.
        let numeral_size = (face.edge * 25 / 100).min(face.length / 24).clamp(180, 640);
        let numerals = face.edge - tick - 40 - numeral_size / 2;
        Self {
            watch,
            words: i64::midpoint(watch, numerals - numeral_size / 2),
            numerals,
            tick,
            word_size: (face.edge * 16 / 100).min(face.length / 30).clamp(180, 560),
            lane_size: (watch * 60 / 100).min(face.length / 34).clamp(180, 480),
            numeral_size,
        }
    }
}

/// Stretches of the session in order, each from where the one before it ended.
struct Stretches {
    left: bool,
    from: i64,
    now: i64,
    sweep: i64,
    out: i64,
    end: i64,
    watch: Option<(i64, i64)>,
}

impl Stretches {
    /// Whether a place is in the part of the session that is gone.
    fn is_past(&self, along: i64) -> bool {
        (self.from..=self.now).contains(&along)
    }
}

/// Draws a rule as an `<svg>` element.
pub fn draw(spec: &RuleSpec) -> String {
    let marks = &spec.marks;
    let (from, to) = marks.spans.unwrap_or((marks.from, marks.out_by));
    let mut face = Face::of(spec, from.min(marks.from), to.max(marks.out_by).max(spec.now));
    let lanes = Lanes::of(&face);
    let out = face.at(marks.out_by);
    let stretches = Stretches {
        left: marks.left,
        from: face.at(marks.from),
        now: face.at(spec.now),
        sweep: marks.sweep_from.map_or(out, |from| face.at(from).min(out)),
        out,
        end: face.length,
        watch: marks.watch.map(|(from, to)| (face.at(from), face.at(to))).filter(|(from, to)| from < to),
    };
    steel(&mut face, &lanes, &stretches);
    graduations(&mut face, &lanes, &stretches);
    numerals(&mut face, &lanes, &stretches);
    words(&mut face, &lanes, &stretches, marks);
    notch_and_bell(&mut face, &lanes, &stretches, marks);
    end_stop(&mut face, &lanes, &stretches, marks);
    scriber(&mut face, &lanes, &stretches, spec);
    let (w, h) = (spec.width_px, spec.height_px);
    let (title, desc) = (escape(&marks.words.title), escape(&marks.words.desc));
    let drawn = face.into_markup();
    format!(
        r#"<svg class="steel-rule" viewBox="0 0 {w} {h}" width="{w}" height="{h}" role="img" aria-label="{title}. {desc}"><g aria-hidden="true">{drawn}</g></svg>"#
    )
}

/// The bare steel, layout blue over what is past, the hatch of the sweep, the dots of the watch.
fn steel(face: &mut Face, lanes: &Lanes, s: &Stretches) {
    let whole = (0, face.edge);
    face.fill("sr-steel", face.area((0, s.end), whole));
    let brushed: String =
        (1..face.edge / 60).map(|line| along_line(face, line * 60, (0, s.end))).collect::<Vec<_>>().concat();
    face.path("sr-brushed", &brushed);
    face.fill("sr-past", face.area((s.from, s.now), whole));
    let engraved = (0, face.edge - lanes.tick - 20);
    face.path("sr-hatch sr-scribed", &hatch(face.area((s.sweep, s.now.min(s.out)), engraved), 100));
    if !s.left {
        face.path("sr-hatch", &hatch(face.area((s.sweep.max(s.now), s.out), engraved), 100));
    }
    face.path("sr-hatch sr-scribed", &hatch(face.area((s.out, s.now), engraved), 50));
    let edge_of_sweep = face.stroke(s.sweep, whole);
    if s.sweep < if s.left { s.now } else { s.out } {
        face.path(if s.sweep <= s.now { "sr-tick sr-scribed" } else { "sr-tick" }, &edge_of_sweep);
    }
    if let Some((from, to)) = s.watch {
        let lane = (0, lanes.watch);
        for (part, plate, dot) in
            [((from, to.min(s.now)), "sr-past", "sr-dots sr-scribed"), ((from.max(s.now), to), "sr-watch", "sr-dots")]
        {
            face.fill(plate, face.area(part, lane));
            face.path(dot, &dots(face.area(part, lane), 80));
        }
    }
}

/// Ticks by the minute, thinned until they are at least 3.5 px apart; longer by 5, 10 and 30.
fn graduations(face: &mut Face, lanes: &Lanes, s: &Stretches) {
    let step = [1, 5, 10, 30, 60].into_iter().find(|step| face.minutes(*step) >= 35).unwrap_or(60);
    let (mut past, mut to_come) = (String::new(), String::new());
    for (along, minute) in face.graduations(step).filter(|(along, _)| *along >= 0) {
        let share = match minute {
            m if m % 30 == 0 => 100,
            m if m % 10 == 0 => 82,
            m if m % 5 == 0 => 66,
            _ => 42,
        };
        let stroke = face.stroke(along, (face.edge - lanes.tick * share / 100, face.edge));
        if s.is_past(along) { past.push_str(&stroke) } else { to_come.push_str(&stroke) }
    }
    face.path("sr-tick sr-scribed", &past);
    face.path("sr-tick", &to_come);
}

/// Clock times by 5, 10 or 30 minutes as space allows, none where the scriber's plate or the end stop's stands.
fn numerals(face: &mut Face, lanes: &Lanes, s: &Stretches) {
    let size = lanes.numeral_size;
    let reach = if face.stands() { size } else { text_width("20:30", size) };
    let step =
        [5, 10, 30, 60, 120, 240].into_iter().find(|step| face.minutes(*step) >= reach + size * 8 / 10).unwrap_or(480);
    let (now, half) = now_plate(face, lanes, s);
    let out = s.out - if face.stands() { 140 } else { 0 };
    let clear = |along: i64| (along - now).abs() > half + reach / 2 && (along - out).abs() > reach + 30;
    let inside = |along: i64| along >= reach / 2 + 10 && along <= s.end - reach / 2;
    let shown: Vec<(i64, i64)> = face.graduations(step).filter(|(a, _)| clear(*a) && inside(*a)).collect();
    for (along, minute) in shown {
        let text = format!("{}:{:02}", minute / 60, minute % 60);
        let (place, anchor) = numeral_place(face, lanes, along);
        if along + reach / 2 > s.sweep {
            numeral_plate(face, lanes, along, &text, if s.is_past(along) { "sr-past" } else { "sr-steel" });
        }
        face.text(if s.is_past(along) { "sr-numeral sr-scribed" } else { "sr-numeral" }, place, size, anchor, &text);
    }
}

/// Where the numerals at a place along are written.
fn numeral_place(face: &Face, lanes: &Lanes, along: i64) -> ((i64, i64), Anchor) {
    if face.stands() { ((lanes.numerals, along), Anchor::End) } else { ((along, lanes.numerals), Anchor::Middle) }
}

/// A clear plate behind numerals, so that no hatch runs through them.
fn numeral_plate(face: &mut Face, lanes: &Lanes, along: i64, text: &str, class: &str) {
    let (size, width) = (lanes.numeral_size, text_width(text, lanes.numeral_size));
    let area = if face.stands() {
        face.area((along - size * 6 / 10, along + size * 6 / 10), (lanes.numerals - width - 20, lanes.numerals + 20))
    } else {
        let half = width / 2 + 40;
        face.area((along - half, along + half), (lanes.numerals - size * 6 / 10, lanes.numerals + size * 6 / 10))
    };
    face.fill(class, area);
}

/// The words of the stretches, each in the longest free part of its own.
fn words(face: &mut Face, lanes: &Lanes, s: &Stretches, marks: &Marks) {
    let size = lanes.word_size;
    let bell = marks.first_bell.map(|bell| face.at(bell)).map(|at| (at - 100, at + 100));
    let watch_in_lane = if face.stands() { s.watch } else { None };
    let spark = marks.last_spark.map(|spark| face.at(spark)).map(|at| (at - 20, at + 20));
    let taken: Vec<(i64, i64)> = [bell, spark, watch_in_lane].into_iter().flatten().collect();
    let over = s.left || s.now >= s.out;
    // A rule that is not deep holds numerals alone: there is no lane for words between the watch and them.
    let is_deep = face.stands() || lanes.numerals - lanes.numeral_size / 2 - lanes.watch >= size * 8 / 10;
    let (later, swept) = if over { (s.sweep, s.out.min(s.now)) } else { (s.now.max(s.sweep), s.out) };
    for (word, from, to, past) in [
        (&marks.words.past, s.from, s.now.min(s.sweep), true),
        (&marks.words.work, s.now, if s.left { s.now } else { s.sweep }, false),
        (&marks.words.sweep, later, swept, over),
        (&marks.words.over, s.out, s.now, true),
    ] {
        let (from, to) = longest_free((from, to), &taken);
        let width = text_width(word, size);
        if word.is_empty() || !is_deep || to - from < width + 120 {
            continue;
        }
        let middle = i64::midpoint(from, to);
        if from >= s.sweep {
            plate(
                face,
                middle,
                lanes.words,
                (width / 2 + 60, size * 6 / 10),
                if past { "sr-past" } else { "sr-steel" },
            );
        }
        face.word_along(if past { "sr-word sr-scribed" } else { "sr-word" }, middle, lanes.words, size, word);
    }
    if let Some((from, to)) = s.watch {
        let size = lanes.lane_size;
        let (word, past) = (&marks.words.watch, i64::midpoint(from, to) <= s.now);
        let width = text_width(word, size);
        // Upright, the first bell's hole lies in the watch's lane: the word keeps clear of it.
        let (from, to) = if face.stands() { longest_free((from, to), bell.as_slice()) } else { (from, to) };
        let middle = i64::midpoint(from, to);
        if to - from >= width + 80 {
            let class = if past { "sr-past" } else { "sr-watch" };
            let half = (width / 2 + 60).min((to - from) / 2);
            plate(face, middle, lanes.watch / 2, (half, lanes.watch / 2), class);
            face.word_along(if past { "sr-word sr-scribed" } else { "sr-word" }, middle, lanes.watch / 2, size, word);
        }
    }
}

/// A clear plate behind a word, `half` along and across to either side of its middle.
fn plate(face: &mut Face, along: i64, across: i64, half: (i64, i64), class: &str) {
    let area = face.area((along - half.0, along + half.0), ((across - half.1).max(0), across + half.1));
    face.fill(class, area);
}

/// The longest part of a stretch that nothing else takes.
fn longest_free(stretch: (i64, i64), taken: &[(i64, i64)]) -> (i64, i64) {
    let mut free = vec![stretch];
    for (from, to) in taken {
        free =
            free.into_iter().flat_map(|(a, b)| [(a, b.min(*from)), (a.max(*to), b)]).filter(|(a, b)| a < b).collect();
    }
    free.into_iter().max_by_key(|(a, b)| b - a).unwrap_or((stretch.0, stretch.0))
}

/// The last spark: a notch cut in the edge with a scribed line to it, and its word where it lies; the first bell: a
/// drilled hole.
fn notch_and_bell(face: &mut Face, lanes: &Lanes, s: &Stretches, marks: &Marks) {
    if let Some(bell) = marks.first_bell {
        face.hole("sr-hole", face.at(bell), lanes.words, if face.stands() { 50 } else { 70 });
    }
    let Some(spark) = marks.last_spark else { return };
    let at = face.at(spark);
    // Where the rule lies the line stops short of the numerals, which it would cross out.
    let end = if face.stands() { face.edge } else { lanes.numerals - lanes.numeral_size * 7 / 10 };
    let line = face.stroke(at, (0, end));
    face.path(if at <= s.now { "sr-tick sr-scribed" } else { "sr-tick" }, &line);
    face.wedge("sr-notch", at, face.edge - lanes.tick * 90 / 100, face.edge + 10, lanes.tick * 50 / 100);
    if face.stands() {
        return;
    }
    let size = lanes.lane_size;
    let text = format!("{} {}", marks.words.last_spark, face.clock(spark));
    let room = at - if at > s.now { s.now } else { 0 };
    if room >= text_width(&text, size) + 160 {
        let class = if at <= s.now { "sr-word sr-scribed" } else { "sr-word" };
        face.text(class, (at - 80, lanes.watch / 2), size, Anchor::End, &text);
    }
}

/// The end stop, and the clock at it.
fn end_stop(face: &mut Face, lanes: &Lanes, s: &Stretches, marks: &Marks) {
    let text = face.clock(marks.out_by);
    let size = lanes.numeral_size;
    let plate_class = if s.out <= s.now { "sr-past" } else { "sr-steel" };
    let class = if s.out <= s.now { "sr-numeral sr-scribed" } else { "sr-numeral" };
    let clear_of_now = (s.out - s.now).abs() > if face.stands() { 360 } else { 2 * text_width(&text, size) };
    if face.stands() && clear_of_now {
        numeral_plate(face, lanes, s.out - 140, &text, plate_class);
        face.text(class, (lanes.numerals, s.out - 140), size, Anchor::End, &text);
    } else if !face.stands() {
        let size = lanes.lane_size;
        let text = format!("{} {text}", marks.words.out_by);
        let width = text_width(&text, size);
        let free_from = s.watch.map_or(s.now, |(_, to)| to.max(s.now));
        if s.out - free_from >= width + 160 {
            let half = width / 2 + 60;
            plate(face, s.out - half - 20, lanes.watch / 2, (half, lanes.watch / 2), plate_class);
            face.text(class, (s.out - 80, lanes.watch / 2), size, Anchor::End, &text);
        }
    }
    let stop = face.area((s.out, s.out + 70), (0, face.depth));
    face.fill("sr-stop", stop);
}

/// Where the plate with the time now lies along the rule, and how far it reaches to either side: kept on the rule even
/// where now is at its end.
fn now_plate(face: &Face, lanes: &Lanes, s: &Stretches) -> (i64, i64) {
    let size = lanes.numeral_size;
    let half = if face.stands() { size * 7 / 10 } else { i64::midpoint(text_width("20:30", size), 120) };
    (s.now.clamp(half, (s.end - half).max(half)), half)
}

/// The scriber line at now, with the time on a brass plate; at the end of a session that is over, a line with the time
/// on a plate of steel.
fn scriber(face: &mut Face, lanes: &Lanes, s: &Stretches, spec: &RuleSpec) {
    let text = face.clock(spec.now);
    let size = lanes.numeral_size;
    let width = text_width(&text, size) + 120;
    let (mark, plate, numeral) = if spec.marks.left {
        ("sr-left", "sr-steel", "sr-numeral")
    } else {
        let around = face.area((s.now - 30, s.now + 30), (0, face.edge));
        face.fill("sr-halo", around);
        ("sr-now", "sr-now", "sr-numeral sr-on-brass")
    };
    let line = face.area((s.now - 15, s.now + 15), (0, face.edge));
    face.fill(mark, line);
    if !spec.marks.left {
        face.wedge(mark, s.now, face.edge - 50, face.depth, 80);
    }
    let (middle, reach) = now_plate(face, lanes, s);
    let (area, at, anchor) = if face.stands() {
        let right = face.edge - 50;
        let area = face.area((middle - reach, middle + reach), ((right - width).max(0), right));
        (area, (right - 60, middle), Anchor::End)
    } else {
        let half = size * 7 / 10;
        let area = face.area((middle - reach, middle + reach), (lanes.numerals - half, lanes.numerals + half));
        (area, (middle, lanes.numerals), Anchor::Middle)
    };
    face.fill(plate, area);
    face.text(numeral, at, size, anchor, &text);
}

/// Path data of one line along the rule.
fn along_line(face: &Face, across: i64, along: (i64, i64)) -> String {
    let run = px(along.1 - along.0);
    if face.stands() {
        format!("M{} {}v{run}", px(across), px(along.0))
    } else {
        format!("M{} {}h{run}", px(along.0), px(across))
    }
}
