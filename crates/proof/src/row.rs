//! One line of the table.

/// What was reached beside what was wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// What was counted.
    pub name: String,
    /// What was reached.
    pub reached: String,
    /// What was wanted; empty where a figure is only told.
    pub wanted: String,
    /// Whether it holds; `None` where nothing was wanted.
    pub holds: Option<bool>,
}

impl Row {
    /// A figure that has to lie within a distance of another one.
    pub fn within(name: impl Into<String>, reached: f64, wanted: f64, distance: f64) -> Self {
        Row {
            name: name.into(),
            reached: format!("{reached:.4}"),
            wanted: format!("{wanted:.4} ± {distance:.4}"),
            holds: Some((reached - wanted).abs() <= distance),
        }
    }

    /// A figure that may not be greater than another one.
    pub fn at_most(name: impl Into<String>, reached: f64, most: f64) -> Self {
        let holds = Some(reached <= most);
        Row { name: name.into(), reached: format!("{reached:.4}"), wanted: format!("≤ {most:.4}"), holds }
    }

    /// A figure that may not be less than another one.
    pub fn at_least(name: impl Into<String>, reached: f64, least: f64) -> Self {
        let holds = Some(reached >= least);
        Row { name: name.into(), reached: format!("{reached:.4}"), wanted: format!("≥ {least:.4}"), holds }
    }

    /// A figure that is told and not held against anything.
    pub fn told(name: impl Into<String>, reached: impl Into<String>) -> Self {
        Row { name: name.into(), reached: reached.into(), wanted: String::new(), holds: None }
    }
}

/// The rows of one part as lines of text.
pub fn table(word: &str, rows: &[Row]) -> String {
    let mut lines = vec![format!("== {word}")];
    for row in rows {
        let verdict = match row.holds {
            Some(true) => "holds",
            Some(false) => "FAILS",
            None => "told",
        };
        lines.push(format!("{verdict:6} {:58} {:>24}  {}", row.name, row.reached, row.wanted));
    }
    lines.join("\n")
}

/// Mean of some figures; zero of none.
pub(crate) fn mean(all: impl IntoIterator<Item = f64>) -> f64 {
    let (sum, count) = all.into_iter().fold((0.0, 0.0), |(sum, count), one| (sum + one, count + 1.0));
    if count == 0.0 { 0.0 } else { sum / count }
}

/// Part of some answers that is yes.
pub(crate) fn share(all: impl IntoIterator<Item = bool>) -> f64 {
    mean(all.into_iter().map(|yes| f64::from(u8::from(yes))))
}

/// Probability that one with a neck is suspected more than one without; half of a tie counts.
pub(crate) fn area_under(all: &[(f64, bool)]) -> f64 {
    let mut ordered = all.to_vec();
    ordered.sort_by(|one, other| one.0.total_cmp(&other.0));
    let (mut below, mut wins, mut necks, mut from) = (0.0, 0.0, 0.0, 0);
    while from < ordered.len() {
        let alike = ordered[from..].iter().take_while(|one| one.0 == ordered[from].0).count();
        let with = ordered[from..from + alike].iter().filter(|one| one.1).count() as f64;
        let without = alike as f64 - with;
        wins += with * (below + without / 2.0);
        below += without;
        necks += with;
        from += alike;
    }
    if below * necks == 0.0 { 0.5 } else { wins / (below * necks) }
}

/// The value that a part of all stay at or below.
pub(crate) fn at_rank(all: &mut [f64], part: f64) -> f64 {
    all.sort_by(f64::total_cmp);
    let rank = ((all.len() as f64 * part).ceil() as usize).clamp(1, all.len().max(1));
    all.get(rank - 1).copied().unwrap_or(0.5)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_area_counts_pairs() {
        let all = [(3.0, true), (1.0, true), (2.0, false), (1.0, false)];
        // Pairs won: 3 over 2, 3 over 1, half of 1 beside 1: 2.5 of 4.
        assert_eq!(area_under(&all), 0.625);
        assert_eq!(area_under(&all.map(|one| (0.0, one.1))), 0.5);
    }

    #[test]
    fn a_table_says_what_holds() {
        let rows = [
            Row::within("coverage", 0.905, 0.90, 0.02),
            Row::within("coverage", 0.93, 0.90, 0.02),
            Row::at_most("left over", 0.8, 0.75),
            Row::at_least("area", 0.8, 0.75),
            Row::told("pours", "5000"),
        ];
        let verdicts: Vec<Option<bool>> = rows.iter().map(|row| row.holds).collect();
        assert_eq!(verdicts, [Some(true), Some(false), Some(false), Some(true), None]);
        expect_test::expect![[r#"
            == shape
            holds  coverage                                                                     0.9050  0.9000 ± 0.0200
            FAILS  coverage                                                                     0.9300  0.9000 ± 0.0200
            FAILS  left over                                                                    0.8000  ≤ 0.7500
            holds  area                                                                         0.8000  ≥ 0.7500
            told   pours                                                                          5000  "#]].assert_eq(&table("shape", &rows));
    }
}
