//! What to order: before the first sounding from the earlier shafts, then from the shaft's own readings.
//!
//! The shafts are invented: 42 in, 60 ft, 0.35634 yd³ a foot, 21.38 yd³ in all. What an order is worth over thousands of
//! made-up pours is proved elsewhere; here it is seen to arrive.

mod story;

use assess::Earlier;
use assess::order::{NoOrder, RestsOn, ToOrder, TruckSize};
use assess::shape::Asked;
use quantity::Moment;
use record::Log;
use story::{Story, Told, near, others};

/// The bore as drawn, yd³.
const DRAWN: f64 = 21.380;

fn moment(clock: &str) -> Moment {
    Moment::parse(&format!("2031-05-07T{clock}:00-06:00")).expect("a moment")
}

fn order_of(told: &Told, clock: &str) -> Result<ToOrder, NoOrder> {
    let at = moment(clock);
    let log = Log::of(&told.record, Some(told.shaft), Some(at));
    let assessment = told.assessed(at);
    ToOrder::of(Asked::of(&log, &assessment, &Earlier::of(&told.record, told.shaft, at)))
}

#[track_caller]
fn order(story: &Story, clock: &str) -> ToOrder {
    order_of(&story.told(), clock).expect("an order")
}

/// Loads of 4 yd³ at a ratio of 1.06, the last of 2.65.
fn even() -> Story {
    let loads = [
        (4.0, 49.4, 50.6),
        (4.0, 38.8, 61.2),
        (4.0, 28.2, 71.8),
        (4.0, 17.6, 82.4),
        (4.0, 7.0, 93.0),
        (2.65, 0.0, 100.0),
    ];
    others::printed(100.0, 40.0, &loads)
}

/// The story beside other shafts of the same bore, each poured in six loads of one size on a day of May.
fn beside(story: Story, others: &[(u32, f64)]) -> Story {
    let mut text = String::new();
    for (day, _) in others {
        text += &format!(
            "[[shaft]]\nid = \"E-{day}\"\nstructure = \"bridge\"\ntop = 100.0\ntip = 40.0\nmethod = \"wet\"\nbore = \"42 in\"\n\n"
        );
    }
    for (day, ratio) in others {
        text += &format!(
            "[[day]]\ndate = 2031-05-{day:02}\nshaft = \"E-{day}\"\nauthor = \"A. Inspector\"\nlog = [\n"
        );
        text += "{ at = \"07:00\", entry = \"reference_set\", name = \"top\", elevation = 100.0 },\n";
        text += "{ at = \"07:05\", entry = \"stratum_met\", from = 0.0, ground = \"clay\", description = \"Soft clay\" },\n";
        text += "{ at = \"07:06\", entry = \"stratum_met\", from = 30.0, ground = \"sand\" },\n";
        for load in 1..=6 {
            let (hour, depth, volume) = (7 + load, 60 - 10 * load, ratio * DRAWN / 6.0);
            text += &format!(
                "{{ at = \"{hour:02}:00\", entry = \"load_arrived\", ticket = \"{day}-{load}\", volume = \"{volume:.3} cy\" }},\n"
            );
            text += &format!(
                "{{ at = \"{hour:02}:30\", entry = \"concrete_sounded\", after = \"{day}-{load}\", depth = {depth:.1} }},\n"
            );
        }
        text += "]\n\n";
    }
    story.with("[[day]]\ndate = 2031-05-07", &format!("{text}[[day]]\ndate = 2031-05-07"))
}

/// Two layers met while drilling, as in the earlier shafts.
fn in_layers(story: Story) -> Story {
    story
        .and(r#"{ at = "07:05", entry = "stratum_met", from = 0.0, ground = "clay", description = "soft clay " }"#)
        .and(r#"{ at = "07:06", entry = "stratum_met", from = 30.0, ground = "sand", description = "grey" }"#)
}

/// Nothing but the drawing: 1.10 · 21.38 = 23.52 yd³.
#[test]
fn the_first_shaft_of_a_job_is_ordered_by_what_is_usual() {
    let order = order(&even(), "07:30");
    assert_eq!(order.from, RestsOn::Usual);
    near(order.needed.to_cubic_yards(), 1.10 * DRAWN, 0.05);
    assert_eq!(order.truck, TruckSize::Assumed);
    near(order.trucks.full.to_cubic_yards(), 9.0, 1e-9);
}

/// Five shafts took 1.20: so will the next, and surer than the first.
#[test]
fn a_shaft_not_begun_is_ordered_by_the_earlier_ones() {
    let five: Vec<(u32, f64)> = (1..=5).map(|day| (day, 1.20)).collect();
    let alone = order(&even(), "07:30");
    let taught = order(&beside(even(), &five), "07:30");
    assert_eq!(taught.from, RestsOn::Earlier { shafts: 5, known: 1, layers: 1 });
    near(taught.needed.to_cubic_yards(), 1.20 * DRAWN, 0.15);
    let width = |order: &ToOrder| order.ends[1].to_cubic_yards() - order.ends[0].to_cubic_yards();
    assert!(width(&taught) < 0.4 * width(&alone), "{} beside {}", width(&taught), width(&alone));
}

/// Clay is known by its words, sand by its sort alone; gravel nobody met.
#[test]
fn layers_are_known_by_their_words_or_by_their_sort() {
    let earlier = [(1, 1.2), (2, 1.2), (3, 1.2)];
    let known = order(&in_layers(beside(even(), &earlier)), "07:30");
    assert_eq!(known.from, RestsOn::Earlier { shafts: 3, known: 2, layers: 2 });
    let half = order(
        &in_layers(beside(even(), &earlier)).with("\"sand\", description", "\"gravel\", description"),
        "07:30",
    );
    assert_eq!(half.from, RestsOn::Earlier { shafts: 3, known: 1, layers: 2 });
    assert!(half.needed.to_cubic_meters() < known.needed.to_cubic_meters(), "gravel is taken as usual");
}

/// A day that is lived again knows only what had been poured by then.
#[test]
fn shafts_poured_later_teach_nothing() {
    let told = beside(even(), &[(1, 1.2), (9, 1.4)]).told();
    let order = order_of(&told, "07:30").expect("an order");
    assert_eq!(order.from, RestsOn::Earlier { shafts: 1, known: 1, layers: 1 });
    let names = |at: Moment| {
        let earlier = Earlier::of(&told.record, told.shaft, at);
        earlier.shafts().iter().map(|shaft| shaft.name.clone()).collect::<Vec<_>>()
    };
    assert_eq!(names(moment("07:30")), ["E-1"]);
    assert_eq!(names(moment("07:30").plus_seconds(7 * 86_400)), ["E-1", "E-9"], "the last one at the end");
}

/// Bug found on the demo: a shaft poured into a casing that stays took what the pipe holds, and taught that the sand around
/// it takes no more.
#[test]
fn a_shaft_in_a_pipe_says_nothing_of_the_ground() {
    let met = "{ at = \"07:05\", entry = \"stratum_met\", from = 0.0,";
    let pipe = "{ at = \"07:04\", entry = \"casing_set\", name = \"liner\", stay = \"permanent\", outside = 42, wall = \"1/2 in\", top = 100.0, shoe = 60 },\n";
    let lined = beside(even(), &[(1, 1.0)]).with(met, &format!("{pipe}{met}")).told();
    let earlier = Earlier::of(&lined.record, lined.shaft, moment("07:30"));
    let [shaft] = earlier.shafts() else { panic!("one shaft, not {}", earlier.shafts().len()) };
    assert_eq!((shaft.intervals.len(), shaft.layers.len(), shaft.whole), (0, 0, None));
    let order = order_of(&lined, "07:30").expect("an order");
    assert_eq!(order.from, RestsOn::Usual);
}

/// A job of many shafts is looked at as fast as one of twelve: the twelve that were poured last are reckoned, and no others.
#[test]
fn of_many_shafts_the_last_twelve_teach() {
    let many: Vec<(u32, f64)> = (8..=22).map(|day| (day, 1.2)).collect();
    let told = beside(even(), &many).told();
    let earlier = Earlier::of(&told.record, told.shaft, moment("07:30").plus_seconds(20 * 86_400));
    let names: Vec<&str> = earlier.shafts().iter().map(|shaft| shaft.name.as_str()).collect();
    let expected: Vec<String> = (11..=22).map(|day| format!("E-{day}")).collect();
    assert_eq!(names, expected);
}

/// After three loads 28.2 ft are left: 1.06 · 10.05 = 10.65 yd³, and less with each load.
#[test]
fn every_reading_makes_the_order_better() {
    let [three, five] = ["10:45", "12:45"].map(|clock| order(&even(), clock));
    assert_eq!(three.from, RestsOn::ThisShaft { soundings: 3, earlier: 0 });
    near(three.needed.to_cubic_yards(), 1.06 * 28.2 * 0.35634, 0.35);
    near(five.needed.to_cubic_yards(), 1.06 * 7.0 * 0.35634, 0.2);
    let width = |order: &ToOrder| order.ends[1].to_cubic_yards() - order.ends[0].to_cubic_yards();
    assert!(width(&five) < width(&three));
    assert_eq!(three.truck, TruckSize::Came);
    for one in three.orders.windows(2) {
        assert!(one[0].order.volume.to_cubic_meters() <= one[1].order.volume.to_cubic_meters());
    }
    for one in three.orders {
        assert!(one.order.outcome.short <= 1.0 - one.level, "{one:?}");
    }
}

/// What the tickets of a job with thirsty ground teach, the unsounded part of this shaft is taken to be like.
#[test]
fn earlier_shafts_shift_what_was_not_sounded_yet() {
    let earlier: Vec<(u32, f64)> = (1..=5).map(|day| (day, 1.35)).collect();
    let alone = order(&in_layers(even()), "09:45");
    let taught = order(&in_layers(beside(even(), &earlier)), "09:45");
    assert!(taught.needed.to_cubic_yards() > alone.needed.to_cubic_yards() + 0.5, "{taught:?} {alone:?}");
}

/// Bug found on the demo: the first earlier shaft made the order of the next one wider than it was without any.
#[test]
fn a_single_earlier_shaft_makes_no_order_wider() {
    let width = |order: &ToOrder| order.ends[1].to_cubic_yards() - order.ends[0].to_cubic_yards();
    let alone = order(&in_layers(even()), "09:45");
    let taught = order(&in_layers(beside(even(), &[(1, 1.06)])), "09:45");
    assert!(width(&taught) < width(&alone), "{} beside {}", width(&taught), width(&alone));
}

/// A load of 4 yd³, half of it in when the surface was read: 2 yd³ are on site, not 4.
#[test]
fn the_part_of_a_load_that_is_in_is_not_on_site() {
    let story = even()
        .and(r#"{ at = "08:40", entry = "load_arrived", ticket = "H", volume = 4.0 }"#)
        .and(r#"{ at = "08:41", entry = "discharge_started", ticket = "H" }"#)
        .and(r#"{ at = "08:45", entry = "concrete_sounded", after = "H", share = "50 %", depth = 44.1 }"#);
    let order = order(&story, "08:50");
    near(order.on_site.to_cubic_yards(), 2.0, 1e-6);
}

#[test]
fn what_is_ordered_is_not_ordered_again() {
    let plain = order(&even(), "10:45");
    let more = even().and(r#"{ at = "10:40", entry = "concrete_ordered", volume = "4 cy" }"#);
    let order = order(&more, "10:45");
    near(order.ordered.to_cubic_yards(), 4.0, 1e-6);
    let less = plain.told().order.volume.to_cubic_yards() - order.told().order.volume.to_cubic_yards();
    near(less, 4.0, 1e-6);
}

/// 20 ft of casing, 47 in inside, in a 50 in hole: π/4 (50² − 47²) in² · 25 ft = 1.47 yd³ behind and in its wall.
#[test]
fn the_room_a_casing_leaves_is_part_of_the_order() {
    let order = order(&others::casing(), "09:46");
    near(
        order.casing.to_cubic_yards(),
        std::f64::consts::FRAC_PI_4 * (2500.0 - 2209.0) / 144.0 * 25.0 / 27.0,
        0.08,
    );
}

#[test]
fn why_there_is_no_order() {
    assert_eq!(order_of(&even().told(), "14:00").err(), Some(NoOrder::Full));
    let told = even().told();
    let log = Log::of(&told.record, Some("S-9"), None);
    let assessment = assess::assess(&log, &assess::Rules::none(), moment("12:00"));
    assert_eq!(ToOrder::of(Asked::of(&log, &assessment, &Earlier::none())).err(), Some(NoOrder::NoPlan));
}
