//! Letters as ASCII: the rules allow no others. The record keeps what was written.

/// What a letter is written as; one of a script that has no row becomes a question mark.
const LETTERS: &[(&str, &str)] = &[
    ("ÀÁÂÃÅĀ", "A"),
    ("àáâãåā", "a"),
    ("ÈÉÊËĒ", "E"),
    ("èéêëē", "e"),
    ("ÌÍÎÏİ", "I"),
    ("ìíîïı", "i"),
    ("ÒÓÔÕØŌ", "O"),
    ("òóôõøō", "o"),
    ("ÙÚÛ", "U"),
    ("ùúû", "u"),
    ("ÇĆČ", "C"),
    ("çćč", "c"),
    ("ÑŃ", "N"),
    ("ñń", "n"),
    ("ŚŠŞ", "S"),
    ("śšş", "s"),
    ("ŹŻŽ", "Z"),
    ("źżž", "z"),
    ("Ł", "L"),
    ("ł", "l"),
    ("Ý", "Y"),
    ("ýÿ", "y"),
    ("Ä", "Ae"),
    ("ä", "ae"),
    ("Ö", "Oe"),
    ("ö", "oe"),
    ("Ü", "Ue"),
    ("ü", "ue"),
    ("ß", "ss"),
    ("Æ", "AE"),
    ("æ", "ae"),
    ("–—−‑", "-"),
    ("‘’‚′", "'"),
    ("“”„«»″", "\""),
    ("…", "..."),
    ("×", "x"),
    ("±", "+/-"),
    ("°", "deg"),
    ("²", "2"),
    ("³", "3"),
    ("µμ", "u"),
    ("≤", "<="),
    ("≥", ">="),
    ("½", " 1/2"),
    ("¼", " 1/4"),
    ("¾", " 3/4"),
];

/// A text in ASCII on one line.
pub(super) fn ascii(text: &str) -> String {
    let letter = |letter: char| match letter {
        ' '..='~' => letter.to_string(),
        letter if letter.is_whitespace() || letter.is_control() => " ".to_owned(),
        letter => {
            let row = LETTERS.iter().find(|(letters, _)| letters.contains(letter));
            row.map_or("?", |(_, plain)| plain).to_owned()
        }
    };
    text.chars().map(letter).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_keeps_as_much_as_it_can() {
        assert_eq!(ascii("Pfähle, Größe 1½\", 20 °C"), "Pfaehle, Groesse 1 1/2\", 20 degC");
        assert_eq!(ascii("a\r\nb\tc"), "a  b c");
        assert_eq!(ascii("杭"), "?");
    }
}
