//! Drawings of many shafts: every mark leads somewhere, narrow paper keeps its words, hundreds of shafts stay on the page.

mod reading;

use expect_test::expect;
use figure::*;
use proptest::prelude::*;
use quantity::units;
use reading::{check_sound, flaw, texts};

const WIDTHS: [f64; 4] = [240.0, 272.0, 520.0, 640.0];

fn lead(to: &str) -> Lead {
    Lead { to: to.to_owned(), says: format!("says {to}") }
}

fn point(column: usize, value: f64, mark: Mark, origin: Origin) -> TrendPoint {
    TrendPoint { column, value, mark, origin, lead: lead(&format!("/entry/{column}/{value}")) }
}

fn limit(value: f64, least: bool, words: &str) -> TrendLimit {
    TrendLimit { value, least, words: words.to_owned(), columns: vec![0, 1, 2] }
}

fn trend() -> TrendSheet {
    let column = |name: &str, day: &str| TrendColumn { name: name.into(), day: day.into(), lead: lead(name) };
    TrendSheet {
        title: "Fluid tests, shaft by shaft".to_owned(),
        subtitle: "each column a shaft".to_owned(),
        columns: vec![column("S-1", "8 May"), column("S-2", "12 May"), column("S-3", "12 May")],
        panels: vec![
            TrendPanel {
                title: "Sand".to_owned(),
                scale: Scale::of(&units::PERCENT, 1),
                limits: vec![limit(0.04, false, "before concrete"), limit(0.045, false, "while drilling")],
                points: vec![
                    point(0, 0.01, Mark::Meets, Origin::Tank),
                    point(0, 0.02, Mark::Meets, Origin::Hole),
                    point(1, 0.06, Mark::Fails, Origin::Hole),
                    point(2, 0.03, Mark::Doubtful, Origin::Hole),
                ],
            },
            TrendPanel {
                title: "pH".to_owned(),
                scale: Scale::of(&units::PH, 1),
                limits: vec![limit(8.0, true, "before concrete"), limit(11.0, false, "before concrete")],
                points: vec![
                    point(0, 9.2, Mark::Meets, Origin::Tank),
                    point(1, 9.0, Mark::NoLimit, Origin::Plain),
                ],
            },
        ],
        ..TrendSheet::default()
    }
}

fn bars() -> BarSheet {
    let kind = |name: &str, fill| BarKind { name: name.to_owned(), fill };
    let bar = |kind, value| Bar { kind, value, lead: lead(&format!("/load/{value}")) };
    let row = |label: &str, bars: Vec<Bar>, asked, beside: &str| BarRow {
        label: label.to_owned(),
        lead: lead(label),
        bars,
        asked,
        beside: beside.to_owned(),
    };
    BarSheet {
        title: "Concrete of each shaft".to_owned(),
        subtitle: "by tickets".to_owned(),
        axis: "Concrete".to_owned(),
        scale: Scale::cubic_meters(),
        kinds: vec![
            kind("placed", BarFill::Full),
            kind("wasted", BarFill::Striped),
            kind("held", BarFill::Lined),
            kind("sent back", BarFill::Open),
        ],
        asked: ["ordered", "theoretical"].map(str::to_owned),
        rows: vec![
            row("S-1", vec![bar(0, 21.0), bar(1, 1.5), bar(3, 6.0)], [Some(24.0), Some(19.5)], "21.0 m³"),
            row("S-2", vec![bar(0, 30.0), bar(2, 2.0)], [None, Some(28.0)], "30.0 m³"),
        ],
        ..BarSheet::default()
    }
}

fn groups() -> GroupSheet {
    let part = |value: f64| GroupPart { value, lead: lead(&format!("/shaft/{value}")) };
    GroupSheet {
        title: "What shafts took over the drawing".to_owned(),
        subtitle: "each dot a shaft".to_owned(),
        reference: Some((1.0, "as drawn".to_owned())),
        rows: vec![GroupRow {
            heading: "By ground".to_owned(),
            label: "clay, stiff, brown, with a name that is long".to_owned(),
            parts: [1.01, 1.04, 1.31].map(part).to_vec(),
            together: Some([0.98, 1.12, 1.26]),
            beside: "1.12 (0.98–1.26)".to_owned(),
        }],
        ..GroupSheet::default()
    }
}

fn drawn(width: f64) -> [(&'static str, String); 3] {
    let (trend, bars, groups) = (trend(), bars(), groups());
    [
        ("trend", trend_svg(&trend, trend.size(width))),
        ("bars", bars_svg(&bars, bars.size(width))),
        ("groups", groups_svg(&groups, groups.size(width))),
    ]
}

fn said(svg: &str) -> String {
    texts(svg).iter().map(|text| format!("{:<9} {}\n", text.class, text.words)).collect()
}

#[test]
fn nothing_covers_another_and_nothing_leaves_the_paper_at_any_width() {
    for width in WIDTHS {
        for (name, svg) in drawn(width) {
            check_sound(&format!("{name} at {width}"), &svg);
        }
    }
}

#[test]
fn a_trend_names_its_shafts_and_its_limits() {
    let sheet = trend();
    expect![[r#"
        title     Fluid tests, shaft by shaft
        subtitle  each column a shaft
        label     meets
        label     fails
        label     in doubt
        label     no limit set
        label     from the tank
        label     from the hole
        head      Sand, %
        tick      2
        tick      4
        tick      6
        tick      ≤ 4.0 % before concrete
        tick      ≤ 4.5 % while drilling
        tick      S-1
        note      8 May
        tick      S-2
        note      12 May
        tick      S-3
        head      pH
        tick      8
        tick      10
        tick      ≥ 8.0 before concrete
        tick      ≤ 11.0 before concrete
        tick      S-1
        note      8 May
        tick      S-2
        note      12 May
        tick      S-3
    "#]]
    .assert_eq(&said(&trend_svg(&sheet, sheet.size(520.0))));
}

#[test]
fn on_a_phone_the_limits_stand_over_their_panel() {
    let sheet = trend();
    expect![[r#"
        title     Fluid tests, shaft by shaft
        subtitle  each column a shaft
        label     meets
        label     fails
        label     in doubt
        label     no limit set
        label     from the tank
        label     from the hole
        head      Sand, %
        tick      2
        tick      4
        tick      6
        tick      ≤ 4.0 % before concrete; ≤ 4.5 % while drilling
        tick      S-1
        note      8 May
        tick      S-2
        note      12 May
        tick      S-3
        head      pH
        tick      8
        tick      10
        tick      ≥ 8.0 before concrete; ≤ 11.0 before concrete
        tick      S-1
        note      8 May
        tick      S-2
        note      12 May
        tick      S-3
    "#]]
    .assert_eq(&said(&trend_svg(&sheet, sheet.size(272.0))));
}

#[test]
fn bars_name_every_shaft_and_every_kind() {
    let sheet = bars();
    expect![[r#"
        title     Concrete of each shaft
        subtitle  by tickets
        label     placed
        label     wasted
        label     held
        label     sent back
        label     ordered
        label     theoretical
        tick      0
        tick      5
        tick      10
        tick      15
        tick      20
        tick      25
        tick      30
        note      Concrete, m³
        label     S-1
        strong    21.0 m³
        label     S-2
        strong    30.0 m³
    "#]]
    .assert_eq(&said(&bars_svg(&sheet, sheet.size(520.0))));
}

/// Whoever doubts a mark can look it up: each has a way of its own, and a screen reader is not told it is a picture.
#[test]
fn every_mark_leads_to_its_entry() {
    let count = |svg: &str, part: &str| svg.matches(part).count();
    let [(_, trend), (_, bars), (_, groups)] = drawn(640.0);
    assert_eq!(count(&trend, "<a href=\"/entry/"), 6);
    assert_eq!(count(&bars, "<a href=\"/load/"), 5);
    assert_eq!(count(&groups, "<a href=\"/shaft/"), 3);
    for svg in [trend, bars, groups] {
        assert_eq!(count(&svg, "<a "), count(&svg, "</a>"));
        assert!(svg.contains("role=\"group\"") && !svg.contains("role=\"img\""), "{svg}");
    }
}

#[test]
fn on_paper_nothing_leads_and_the_drawing_is_a_picture() {
    let mut sheet = groups();
    sheet.rows[0].parts.iter_mut().for_each(|part| part.lead = Lead::default());
    let svg = groups_svg(&sheet, sheet.size(520.0));
    assert!(!svg.contains("<a ") && !svg.contains("reach") && svg.contains("role=\"img\""), "{svg}");
}

#[test]
fn a_way_with_odd_letters_stays_one_attribute() {
    let mut sheet = groups();
    sheet.rows[0].parts[0].lead = Lead { to: "/a\"><script>".to_owned(), says: "<b> & \"c\"".to_owned() };
    let svg = groups_svg(&sheet, sheet.size(520.0));
    assert!(!svg.contains("<script") && !svg.contains("<b>"), "{svg}");
}

#[test]
fn hundreds_of_shafts_are_all_drawn_and_as_many_are_named_as_have_room() {
    let name = |index: usize| format!("P-{index:03}");
    let columns = (0..320).map(|k| TrendColumn { name: name(k), day: "8 May".into(), lead: Lead::default() });
    let points = (0..960).map(|k| {
        let mark = if k % 50 == 0 { Mark::Fails } else { Mark::Meets };
        point(k / 3, 0.02 + (k % 7) as f64 * 0.004, mark, Origin::Hole)
    });
    let mut sheet = trend();
    (sheet.columns, sheet.panels[0].points) = (columns.collect(), points.collect());
    sheet.panels.truncate(1);
    for width in WIDTHS {
        let svg = trend_svg(&sheet, sheet.size(width));
        check_sound(&format!("320 shafts at {width}"), &svg);
        assert_eq!(svg.matches("<a href=\"/entry/").count(), 960);
        assert!(said(&svg).contains("P-000"));
    }
}

/// Two jobs have two limits: each stands over its own shafts, and shafts beside each other have one line.
#[test]
fn a_limit_stands_over_the_shafts_it_holds_for() {
    let lines = |columns: Vec<usize>| {
        let mut sheet = trend();
        sheet.panels.truncate(1);
        sheet.panels[0].limits = vec![TrendLimit { columns, ..limit(0.04, false, "before concrete") }];
        let svg = trend_svg(&sheet, sheet.size(520.0));
        svg.lines()
            .filter(|line| line.contains("class=\"limit\"") && line.contains("stroke-dasharray"))
            .count()
    };
    assert_eq!([vec![0, 1, 2], vec![0, 2], vec![]].map(lines), [1, 2, 0]);
}

/// Without its colours each stretch of a bar, and each origin of a sample, still looks different.
#[test]
fn kinds_are_told_by_their_shape() {
    let colourless = |svg: String| -> String {
        svg.lines().flat_map(|line| line.split('"').filter(|part| !part.starts_with('#'))).collect()
    };
    let fills = [BarFill::Full, BarFill::Striped, BarFill::Lined, BarFill::Open].map(|fill| {
        let mut sheet = bars();
        sheet.kinds.iter_mut().for_each(|kind| kind.fill = fill);
        colourless(bars_svg(&sheet, sheet.size(520.0)).replace(&format!("bar-{fill:?}").to_lowercase(), ""))
    });
    let origins = [Origin::Plain, Origin::Tank, Origin::Hole].map(|origin| {
        let mut sheet = trend();
        sheet.panels[0].points = vec![point(0, 0.02, Mark::Meets, origin)];
        colourless(trend_svg(&sheet, Size::points(520.0, 300.0)))
    });
    for all in [&fills[..], &origins[..]] {
        for (k, one) in all.iter().enumerate() {
            assert!(!all[..k].contains(one), "kind {k} looks like another");
        }
    }
}

#[test]
fn nothing_but_the_palette_stands_in_them() {
    let known: Vec<&str> = PALETTE.iter().map(|(_, color)| *color).chain(["none"]).collect();
    for (name, svg) in drawn(520.0) {
        let colors = ["fill=\"", "stroke=\""].iter().flat_map(|attribute| svg.split(attribute).skip(1));
        for color in colors.filter_map(|rest| rest.split('"').next()) {
            assert!(known.contains(&color), "{name}: {color}");
        }
    }
}

#[test]
fn nothing_recorded_is_said() {
    let empty = [
        trend_svg(&TrendSheet::default(), Size::points(300.0, 200.0)),
        bars_svg(&BarSheet::default(), Size::points(300.0, 200.0)),
    ];
    for svg in empty {
        assert!(said(&svg).contains("Nothing recorded"), "{svg}");
        assert_eq!(flaw(&svg), None);
    }
}

fn value() -> impl Strategy<Value = f64> {
    prop_oneof![
        10 => -5.0..60.0f64,
        3 => 0.0..0.2f64,
        1 => prop_oneof![Just(f64::NAN), Just(f64::INFINITY), Just(1e300), Just(-1e300), Just(0.0)],
    ]
}

fn words() -> impl Strategy<Value = String> {
    prop_oneof![Just(String::new()), "[A-Za-z0-9 #&<>\"µ-]{1,40}", Just("line\nbreak\u{0}".to_owned())]
}

fn mark() -> impl Strategy<Value = Mark> {
    prop_oneof![Just(Mark::Meets), Just(Mark::Fails), Just(Mark::NoLimit), Just(Mark::Doubtful)]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_trend_is_sound_whatever_was_read(
        names in prop::collection::vec((words(), words()), 0..40),
        read in prop::collection::vec((0..45usize, value(), mark()), 0..60),
        limits in prop::collection::vec((value(), any::<bool>(), words()), 0..5),
        width in 240.0..760.0f64,
    ) {
        let column = |(name, day)| TrendColumn { name, day, lead: Lead::default() };
        let limit = |(value, least, words)| TrendLimit { value, least, words, columns: vec![0, 2, 3, 60] };
        let point = |(column, value, mark)| TrendPoint { column, value, mark, ..TrendPoint::default() };
        let sheet = TrendSheet {
            columns: names.into_iter().map(column).collect(),
            panels: vec![TrendPanel {
                limits: limits.into_iter().map(limit).collect(),
                points: read.into_iter().map(point).collect(),
                scale: Scale::meters(),
                title: "Any".to_owned(),
            }],
            ..TrendSheet::default()
        };
        prop_assert_eq!(flaw(&trend_svg(&sheet, sheet.size(width))), None);
    }

    #[test]
    fn bars_are_sound_whatever_was_taken(
        rows in prop::collection::vec((words(), prop::collection::vec((0..6usize, value()), 0..5), prop::option::of(value()), words()), 0..30),
        width in 240.0..760.0f64,
    ) {
        let bar = |(kind, value)| Bar { kind, value, lead: Lead::default() };
        let row = |(label, all, asked, beside): (String, Vec<(usize, f64)>, Option<f64>, String)| BarRow {
            label,
            bars: all.into_iter().map(bar).collect(),
            asked: [asked, asked],
            beside,
            ..BarRow::default()
        };
        let sheet = BarSheet { rows: rows.into_iter().map(row).collect(), ..bars() };
        prop_assert_eq!(flaw(&bars_svg(&sheet, sheet.size(width))), None);
    }
}
