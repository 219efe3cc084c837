//! Sums, volumes of boxes and comparisons stay exact as long as what they are made of is.

use std::cmp::Ordering;

use proptest::prelude::*;
use quantity::{
    Area, Entered, FunnelTime, Length, Mass, Number, Quantity, Reading, Slope, Span, Volume, compare, units,
};

fn typed<Q: Quantity>(text: &str) -> Q {
    Entered::parse(text, Reading::default()).unwrap_or_else(|misread| panic!("{misread}")).value()
}

#[test]
fn twenty_seven_cubic_feet_of_exact_lengths_are_one_cubic_yard() {
    let yard = typed::<Volume>("1 yd³");
    for sides in [["3 ft", "3 ft", "3 ft"], ["27'", "12 in", "1 ft"], ["36 in", "1 yd", "0.9144 m"]] {
        assert_eq!(Volume::of_box(sides.map(typed)), yard, "{sides:?}");
    }
    let feet: Volume = std::iter::repeat_n(typed::<Volume>("1 ft³"), 27).sum();
    assert_eq!(feet, yard);
    assert_eq!(Area::of_rectangle(typed("3 ft"), typed("3 ft")), typed("9 ft²"));
}

#[test]
fn a_sum_of_tickets_is_exact() {
    let tickets: Volume = std::iter::repeat_n(typed::<Volume>("9.5 cy"), 9).sum();
    assert_eq!(tickets, typed("85.5 cy"));
    assert_eq!(tickets - typed("0.5 cy"), typed("85 cy"));
    // 0.1 + 0.2 is 0.3 here.
    assert_eq!(typed::<Mass>("0.1 kg") + typed("0.2 kg"), typed("0.3 kg"));
    assert_eq!(typed::<Span>("1 h") + typed("30 min"), typed("90 min"));
}

#[test]
fn a_computed_part_makes_the_sum_computed() {
    let sum = typed::<Volume>("1 m3") + Volume::cubic_meters(0.5);
    assert_eq!(sum.number(), Number::Computed(1.5));
}

#[test]
fn a_box_beyond_128_bits_is_computed() {
    let long = Length::nanometers(8_999_999_999_999_999_999);
    let volume = Volume::of_box([long, long, long]);
    let Number::Computed(cubic_meters) = volume.number() else { panic!("cannot be exact: {volume:?}") };
    assert!((cubic_meters / 7.29e29 - 1.0).abs() < 1e-12, "{cubic_meters}");
}

#[test]
fn comparing_is_exact_where_both_are() {
    assert_eq!(compare(typed::<Length>("1.5 in"), typed("38.1 mm")), Some(Ordering::Equal));
    assert_eq!(compare(typed::<Length>("1.5001 in"), typed("38.1 mm")), Some(Ordering::Greater));
    // 1:75 against 1.33 %: 0.013 333… > 0.0133.
    assert_eq!(compare(typed::<Slope>("1:75"), typed("1.33 %")), Some(Ordering::Greater));
    assert_eq!(compare(typed::<Slope>("1/4 in/ft"), typed("1:48")), Some(Ordering::Equal));
    assert_eq!(compare(Volume::cubic_meters(1.0), typed("1 m3")), Some(Ordering::Equal));
    assert_eq!(compare(Volume::cubic_meters(1.0), typed("1 yd3")), Some(Ordering::Greater));
}

#[test]
fn a_quart_time_and_a_litre_time_do_not_compare() {
    assert_eq!(compare(typed::<FunnelTime>("38 s/qt"), typed("38 s/L")), None);
    assert_eq!(compare(typed::<FunnelTime>("38 s/qt"), typed("40 s/qt")), Some(Ordering::Less));
    assert_eq!(compare(FunnelTime::seconds_per_quart(38.0), typed("38 s/qt")), Some(Ordering::Equal));
    assert_eq!(FunnelTime::seconds_per_liter(40.0).basis(), &units::SECOND_PER_LITER);
}

proptest! {
    #[test]
    fn volumes_add_up_in_any_order(tenths in prop::collection::vec(0i64..1000, 1..20)) {
        let loads: Vec<Volume> = tenths.iter().map(|tenth| typed(&format!("{}.{} cy", tenth / 10, tenth % 10))).collect();
        let forward: Volume = loads.iter().copied().sum();
        let backward: Volume = loads.iter().rev().copied().sum();
        let total: i64 = tenths.iter().sum();
        prop_assert_eq!(forward, backward);
        prop_assert_eq!(forward, typed(&format!("{}.{} cy", total / 10, total % 10)));
    }

    #[test]
    fn comparing_is_antisymmetric(a in 0u32..1_000_000, b in 0u32..1_000_000) {
        let (a, b) = (typed::<Length>(&format!("{a} mm")), typed::<Length>(&format!("{b} in")));
        prop_assert_eq!(compare(a, b), compare(b, a).map(Ordering::reverse));
        prop_assert_eq!(compare(a, b), Some(a.cmp(&b)));
    }
}
