//! The nearest right words to a wrong one.
//!
//! A slip in a word is put right in a moment when the right word stands beside it.

use quantity::InOrder;

/// How many are offered at most.
const OFFERED_MAX: usize = 3;
/// Longer texts are no slips of a word.
const LENGTH_MAX: usize = 60;

/// So many words are looked through; no list people choose from is longer.
const WORDS_MAX: usize = 2000;

/// The words nearest to what was found, nearest first, at most three; none when nothing is near.
pub(crate) fn nearest<'w>(found: &str, words: impl IntoIterator<Item = &'w str>) -> Vec<String> {
    let found = plain(found);
    if found.is_empty() || found.len() > LENGTH_MAX {
        return Vec::new();
    }
    let mut ranked: Vec<(usize, &str)> = words
        .into_iter()
        .take(WORDS_MAX)
        .filter_map(|word| Some((rank(&found, &plain(word))?, word)))
        .collect();
    ranked.put_in_order();
    ranked.dedup();
    ranked.into_iter().take(OFFERED_MAX).map(|(_, word)| word.to_owned()).collect()
}

/// Letters and digits of a word in small letters, blanks and hyphens as underscores.
pub(crate) fn plain(word: &str) -> String {
    word.trim().to_lowercase().replace([' ', '-'], "_")
}

/// How far a word is from what was found; `None` when it is not near.
fn rank(found: &str, word: &str) -> Option<usize> {
    let slips = distance(found, word);
    let allowed = (found.chars().count().max(word.chars().count()) / 3).max(1);
    if slips <= allowed {
        return Some(slips);
    }
    let part = found.len() >= 3 && word.split('_').any(|piece| piece == found);
    let longer = word.len() >= 3 && found.split('_').any(|piece| piece == word);
    let stem = found.len() >= 4 && (word.starts_with(found) || found.starts_with(word) && word.len() >= 4);
    (part || longer || stem).then_some(allowed + 1)
}

/// Letters to insert, drop, change or swap with a neighbour to make one word of the other.
fn distance(a: &str, b: &str) -> usize {
    let (a, b): (Vec<char>, Vec<char>) = (a.chars().collect(), b.chars().collect());
    let mut before: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=b.len()).collect();
    for i in 1..=a.len() {
        let mut row = vec![i];
        for j in 1..=b.len() {
            let change = last[j - 1] + usize::from(a[i - 1] != b[j - 1]);
            let mut best = change.min(last[j] + 1).min(row[j - 1] + 1);
            if i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] {
                best = best.min(before[j - 2] + 1);
            }
            row.push(best);
        }
        before = std::mem::replace(&mut last, row);
    }
    last[b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(found: &str, expected: &[&str]) {
        let words = ["tool_run", "concrete_sounded", "bottom_sounded", "fluid_test", "depth", "place"];
        assert_eq!(nearest(found, words), expected);
    }

    #[test]
    fn slips_parts_and_strangers() {
        check("tol_run", &["tool_run"]);
        check("Tool Run", &["tool_run"]);
        check("depht", &["depth"]);
        check("sounded", &["bottom_sounded", "concrete_sounded"]);
        check("fluid", &["fluid_test"]);
        check("weather", &[]);
        check("", &[]);
    }
}
