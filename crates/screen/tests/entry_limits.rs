//! The limit in force stands beside the field it judges, with its source and how sure it is.

#[path = "live/demo.rs"]
mod demo;

use demo::at;
use record::Record;
use screen::entry::Form;
use screen::entry::form::Asked;

/// One line a limit: path, limit, source, `?` where it is not sure.
fn told(form: &Form) -> String {
    let line = |asked: &Asked| {
        let path = asked.path.clone();
        let one = move |said: &wording::LimitBeside| {
            let mark = if said.unsure { "? " } else { "" };
            format!("{path}: {mark}{} [{}]\n", said.limit, said.source)
        };
        asked.limits.iter().map(one).collect::<String>()
    };
    form.fields().iter().map(line).collect()
}

fn form(record: &Record, shaft: &str, kind: &str, moment: &str) -> Form {
    Form::new(kind, record, Some(shaft), at(moment)).expect("a kind")
}

#[test]
fn the_limits_of_the_contract_stand_beside_the_readings() {
    let entries = demo::harrow_vale_entries();
    let now = "2025-05-13T11:50:00-06:00";
    let record = demo::by_then(&entries, at(now));
    let mut all = String::new();
    for kind in ["concrete_test", "sediment_measured", "line_made_up", "tip_moved", "cage_set", "remark"] {
        all = format!("{all}# {kind}\n{}", told(&form(&record, "S-2", kind, now)));
    }
    expect_test::expect![[r#"
        # concrete_test
        # sediment_measured
        points[0].thickness: ? Sediment at the worst point: 1 in at most [common practice, no source]
        # line_made_up
        tip: ? Discharge end near the bottom at the start: 6 in at most [common practice, no source]
        off_bottom: ? limit 6 in at most [common practice, no source]
        watertight: ? has to be so [common practice, no source]
        # tip_moved
        slowly: ? has to be so [common practice, no source]
        # cage_set
        # remark
    "#]]
    .assert_eq(&all);
}

#[test]
fn the_limits_of_a_fluid_are_those_of_the_stage_that_was_chosen() {
    let entries = demo::lindmoor_entries();
    let now = "2025-06-02T11:00:00+02:00";
    let record = demo::by_then(&entries, at(now));
    let mut test = form(&record, "P-7", "fluid_test", now);
    let open = told(&test);
    test.set("stage", "before_concrete");
    expect_test::expect![[r#"
        # no stage yet
        depth: ? Lowest sample near the base: 0.5 m at most [EN-1538, from memory]
        density: limit less than 1.10 g/cm³, as it goes in [EN-1538-2000, Table 1]
        density: ? limit less than 1.25 g/cm³, while drilling [EN-1538, from memory]
        density: ? limit less than 1.15 g/cm³, before concrete [EN-1538, from memory]
        viscosity: ? limit 32 to 50 s/qt, as it goes in [EN-1538, from memory]
        viscosity: ? limit 32 to 60 s/qt, while drilling [EN-1538, from memory]
        viscosity: ? limit 32 to 50 s/qt, before concrete [EN-1538, from memory]
        ph: ? limit 7 to 11, as it goes in [EN-1538, from memory]
        ph: ? limit 7 to 12, while drilling [EN-1538, from memory]
        sand: limit less than 4 %, before concrete [FPS-BENTONITE-2006, summary of the guide]
        fluid_loss: ? limit less than 30 mL, as it goes in [EN-1538, from memory]
        fluid_loss: ? limit less than 50 mL, while drilling [EN-1538, from memory]
        cake: ? limit less than 3 mm, as it goes in [EN-1538, from memory]
        cake: ? limit less than 6 mm, while drilling [EN-1538, from memory]
        # before concrete
        depth: ? Lowest sample near the base: 0.5 m at most [EN-1538, from memory]
        density: ? limit less than 1.15 g/cm³ [EN-1538, from memory]
        viscosity: ? limit 32 to 50 s/qt [EN-1538, from memory]
        sand: limit less than 4 % [FPS-BENTONITE-2006, summary of the guide]
    "#]]
    .assert_eq(&format!("# no stage yet\n{open}# before concrete\n{}", told(&test)));
}

#[test]
fn a_job_without_criteria_has_no_limit_beside_any_field() {
    let record = Record::of(Vec::new()).expect("an empty record");
    let form =
        Form::new("concrete_test", &record, Some("S-1"), at("2025-05-13T11:50:00-06:00")).expect("a kind");
    assert_eq!(told(&form), "");
}
