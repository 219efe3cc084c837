//! The known word most like a misspelt one.
//!
//! A person who writes a criteria file by hand gets the word that was probably meant.

/// The candidate with the fewest changed letters, if that is at most a third of the word.
pub(crate) fn nearest<'a>(word: &str, candidates: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let allowed = word.chars().count() / 3;
    let scored = candidates.map(|candidate| (distance(word, candidate), candidate));
    scored.filter(|(changes, _)| *changes <= allowed).min().map(|(_, candidate)| candidate)
}

/// Letters to insert, remove or replace to get from one word to the other.
fn distance(from: &str, to: &str) -> usize {
    let to: Vec<char> = to.chars().collect();
    let mut row: Vec<usize> = (0..=to.len()).collect();
    for (i, letter) in from.chars().enumerate() {
        let mut diagonal = row[0];
        row[0] = i + 1;
        for (j, other) in to.iter().enumerate() {
            let replaced = diagonal + usize::from(letter != *other);
            diagonal = row[j + 1];
            row[j + 1] = replaced.min(row[j] + 1).min(diagonal + 1);
        }
    }
    row[to.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_letter_off_is_found_and_another_word_is_not() {
        let words = || ["at_most", "at_least", "between"].into_iter();
        assert_eq!(nearest("at_mst", words()), Some("at_most"));
        assert_eq!(nearest("atleast", words()), Some("at_least"));
        assert_eq!(nearest("tolerance", words()), None);
    }

    #[test]
    fn the_distance_counts_letters() {
        // Worked by hand: k→s, e→i, then g added.
        assert_eq!(distance("kitten", "sitting"), 3);
        assert_eq!(distance("", "abc"), 3);
    }
}
