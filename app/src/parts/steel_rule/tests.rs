//! What the rule draws, as data: the marks of one evening, read back from the markup.

use expect_test::{Expect, expect};

use super::*;

fn evening() -> Marks {
    let at = |text: &str| Instant::parse(text).expect("a literal instant");
    Marks {
        from: at("2026-05-04T17:00:00Z"),
        out_by: at("2026-05-04T19:26:00Z"),
        sweep_from: Some(at("2026-05-04T19:06:00Z")),
        first_bell: Some(at("2026-05-04T18:56:00Z")),
        last_spark: Some(at("2026-05-04T18:24:00Z")),
        watch: Some((at("2026-05-04T18:24:00Z"), at("2026-05-04T18:54:00Z"))),
        spans: None,
        left: false,
        offset_minutes: 120,
        words: Words {
            title: "Your session".into(),
            desc: "Sweep from 21:06".into(),
            past: "gone".into(),
            work: "work".into(),
            sweep: "sweep".into(),
            watch: "fire watch".into(),
            last_spark: "last spark".into(),
            out_by: "out by".into(),
            over: "over".into(),
        },
    }
}

fn at_time(now: &str, width_px: u32, height_px: u32) -> RuleSpec {
    RuleSpec { marks: evening(), now: Instant::parse(now).expect("a literal instant"), width_px, height_px }
}

/// The words and numerals of a drawing, in order.
fn words_of(svg: &str) -> String {
    let mut words = Vec::new();
    for part in svg.split("<text ").skip(1) {
        let text = part.split_once('>').and_then(|(_, rest)| rest.split_once('<')).map_or("", |(text, _)| text);
        words.push(text);
    }
    words.join(" | ")
}

#[track_caller]
fn check(spec: &RuleSpec, words: &Expect) {
    words.assert_eq(&words_of(&draw(spec)));
}

#[test]
fn a_lying_rule_says_every_stretch() {
    check(
        &at_time("2026-05-04T18:08:00Z", 844, 150),
        &expect!["19:30 | 20:30 | 21:00 | gone | work | sweep | fire watch | out by 21:26 | 20:08"],
    );
}

#[test]
fn a_standing_rule_keeps_words_and_numerals_apart() {
    check(
        &at_time("2026-05-04T18:08:00Z", 96, 700),
        &expect![
            "19:10 | 19:20 | 19:30 | 19:40 | 19:50 | 20:00 | 20:20 | 20:30 | 20:40 | 20:50 | 21:00 | 21:10 | gone | work | sweep | fire watch | 21:26 | 20:08"
        ],
    );
}

#[test]
fn past_its_end_the_rule_grows_and_says_so() {
    check(
        &at_time("2026-05-04T20:30:00Z", 844, 150),
        &expect!["20:00 | 21:00 | gone | over | fire watch | last spark 20:24 | 22:30"],
    );
}

#[test]
fn before_and_past_its_session_a_longer_rule_is_bare() {
    let mut spec = at_time("2026-05-04T18:08:00Z", 844, 150);
    let at = |text: &str| Instant::parse(text).expect("a literal instant");
    spec.marks.spans = Some((at("2026-05-04T16:00:00Z"), at("2026-05-04T21:00:00Z")));
    check(&spec, &expect!["19:00 | gone | work | 20:08"]);
}

#[test]
fn a_rule_that_is_not_deep_holds_no_words_between_watch_and_numerals() {
    let spec = |height_px| at_time("2026-05-04T18:08:00Z", 640, height_px);
    let has = |height_px, word: &str| draw(&spec(height_px)).contains(&format!(">{word}</text>"));
    for (height_px, words) in [(60, false), (80, false), (120, true)] {
        assert_eq!((has(height_px, "work"), has(height_px, "fire watch")), (words, true), "{height_px}");
    }
}

#[test]
fn a_session_that_is_over_is_marked_where_it_ended() {
    let mut spec = at_time("2026-05-04T19:20:00Z", 844, 150);
    spec.marks.left = true;
    check(&spec, &expect!["19:30 | 20:00 | 20:30 | gone | fire watch | last spark 20:24 | 21:20"]);
    assert!(!draw(&spec).contains("sr-now"));
}

#[test]
fn a_whole_drawing_stays_as_it_is() {
    expect![[r#"
        <svg class="steel-rule" viewBox="0 0 48 120" width="48" height="120" role="img" aria-label="Your session. Sweep from 21:06"><g aria-hidden="true"><rect class="sr-steel" x="0" y="0" width="38" height="112"/>
        <path class="sr-brushed" d="M6 0v112M12 0v112M18 0v112M24 0v112M30 0v112"/>
        <rect class="sr-past" x="0" y="0" width="38" height="52.1"/>
        <path class="sr-hatch" d="M0 106.6L10 96.6M4.6 112L20 96.6M14.6 112L23.1 103.5"/>
        <path class="sr-tick" d="M0 96.6h38"/>
        <rect class="sr-watch" x="0" y="64.4" width="21.6" height="23"/>
        <path class="sr-dots" d="M6.8 71.9h0M14.8 71.9h0M6.8 79.9h0M14.8 79.9h0"/>
        <path class="sr-tick sr-scribed" d="M25.1 0h12.9M29.5 3.8h8.5M27.5 7.6h10.5M29.5 11.5h8.5M27.5 15.3h10.5M29.5 19.1h8.5M25.1 23h12.9M29.5 26.8h8.5M27.5 30.6h10.5M29.5 34.5h8.5M27.5 38.3h10.5M29.5 42.1h8.5M25.1 46h12.9M29.5 49.8h8.5"/>
        <path class="sr-tick" d="M27.5 53.6h10.5M29.5 57.5h8.5M27.5 61.3h10.5M29.5 65.2h8.5M25.1 69h12.9M29.5 72.8h8.5M27.5 76.7h10.5M29.5 80.5h8.5M27.5 84.3h10.5M29.5 88.2h8.5M25.1 92h12.9M29.5 95.8h8.5M27.5 99.7h10.5M29.5 103.5h8.5M27.5 107.3h10.5M29.5 111.2h8.5"/>
        <circle class="sr-hole" cx="10.8" cy="88.9" r="5"/>
        <path class="sr-tick" d="M0 64.4h38"/>
        <path class="sr-notch" d="M26.4 64.4L39 58L39 70.8z"/>
        <rect class="sr-steel" x="-31" y="87.2" width="55.1" height="21.6"/>
        <text class="sr-numeral" x="22.1" y="104.3" font-size="18" text-anchor="end">21:26</text><rect class="sr-stop" x="0" y="112" width="48" height="7"/>
        <rect class="sr-halo" x="0" y="49.1" width="38" height="6"/>
        <rect class="sr-now" x="0" y="50.6" width="38" height="3"/>
        <path class="sr-now" d="M33 52.1L48 44.1L48 60.1z"/>
        <rect class="sr-now" x="0" y="39.5" width="33" height="25.2"/>
        <text class="sr-numeral sr-on-brass" x="27" y="58.4" font-size="18" text-anchor="end">20:08</text></g></svg>"#]].assert_eq(&draw(&at_time("2026-05-04T18:08:00Z", 48, 120)).replace("/><", "/>\n<"));
}

#[test]
fn hatches_stay_inside_their_area() {
    use super::hatch::{Area, hatch};
    for (w, h) in [(100, 40), (40, 100), (55, 55), (0, 10)] {
        let area = Area { x: 1000, y: 2000, w, h };
        for point in hatch(area, 30).split(['M', 'L']).filter(|point| !point.is_empty()) {
            let (x, y) = point.split_once(' ').expect("two coordinates");
            let (x, y) = (tenths(x), tenths(y));
            assert!((1000..=1000 + w).contains(&x) && (2000..=2000 + h).contains(&y), "{point} of {w} by {h}");
        }
    }
}

/// Reads a decimal with at most one place back into tenths.
fn tenths(decimal: &str) -> i64 {
    let (whole, rest) = decimal.split_once('.').unwrap_or((decimal, "0"));
    whole.parse::<i64>().expect("a number") * 10 + rest.parse::<i64>().expect("a digit")
}

#[test]
fn words_of_a_rulebook_cannot_break_the_markup() {
    let mut spec = at_time("2026-05-04T18:08:00Z", 844, 150);
    spec.marks.words.title = "<script>\"&".into();
    assert!(draw(&spec).contains("&lt;script&gt;&quot;&amp;"));
}
