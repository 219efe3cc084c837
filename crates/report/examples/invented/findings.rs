//! The findings and forecasts of the invented shaft.

use report::{Certainty, Fact, Finding, Forecast, Standing};

/// One finding a line, in the order of the fields of [`Finding`].
pub(crate) fn findings() -> Vec<Finding> {
    include_str!("findings.txt").lines().map(finding).collect()
}

fn finding(line: &str) -> Finding {
    let cells: Vec<String> = line.split('|').map(str::to_owned).collect();
    let cells: [String; 10] = cells.try_into().expect("ten texts a line");
    let [standing, criterion, id, limit, source, certainty, value, margin, done, evidence] = cells;
    let (standing, certainty) = (standing_of(&standing), certainty_of(&certainty));
    Finding { standing, criterion, id, limit, source, certainty, value, margin, done, evidence }
}

fn standing_of(word: &str) -> Standing {
    match word {
        "fails" => Standing::Fails,
        "needs attention" => Standing::NeedsAttention,
        "not measured" => Standing::NotMeasured,
        "meets" => Standing::Meets,
        "no limit" => Standing::NoLimit,
        _ => panic!("`{word}` is no standing"),
    }
}

fn certainty_of(word: &str) -> Certainty {
    match word {
        "read" => Certainty::Read,
        "from memory" => Certainty::FromMemory,
        "common practice" => Certainty::CommonPractice,
        "set by job" => Certainty::SetByJob,
        _ => panic!("`{word}` is no certainty"),
    }
}

pub(crate) fn no_limit() -> Vec<Fact> {
    vec![Fact::new("Duration of the pour", "2 h 46 min"), Fact::new("Loads", "7")]
}

pub(crate) fn forecasts() -> Vec<Forecast> {
    let forecast = |standing, what: &str, when: &str, because: &str| Forecast {
        standing,
        what: what.into(),
        when: when.into(),
        because: because.into(),
    };
    vec![
        forecast(
            Standing::Fails,
            "Slump of the oldest concrete under 5 in",
            "13:05 (± 10 min)",
            "trial mix loses 1 in in 45 min; load 1 read 7 1/2 in at 10:05",
        ),
        forecast(
            Standing::NeedsAttention,
            "Embedment under 10 ft if one more pipe comes off",
            "next pipe",
            "tip at 38.2 ft, concrete at 24.0 ft (± 0.3 ft), pipe 10 ft",
        ),
        forecast(
            Standing::NotMeasured,
            "Concrete still to order",
            "6.4 yd³ (± 1.1)",
            "this shaft took 1.13 of theoretical so far",
        ),
    ]
}
