//! The pieces of a typed quantity: numbers, words and marks.
//!
//! Words: *number* = digits with their points and commas, not yet understood; *word* = a piece of a unit;
//! *mark* = `+ - / : ,` between them.
//! Never: decide what a number or a word means.

/// One piece of a text in plain signs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Token {
    /// Digits with points and commas, as written.
    Number(String),
    /// A piece of a unit, or anything else that is no number.
    Word(String),
    /// One of `+ - / : ,`.
    Mark(char),
}

/// Cuts a text in plain signs into pieces. Every character but a space ends up in one of them.
pub(crate) fn tokens(plain: &str) -> Vec<Token> {
    let signs: Vec<char> = plain.chars().collect();
    let mut found = Vec::new();
    let mut at = 0;
    while at < signs.len() {
        let (length, token) = token_at(&signs, at);
        at += length;
        found.extend(token);
    }
    found
}

fn token_at(signs: &[char], at: usize) -> (usize, Option<Token>) {
    let sign = signs[at];
    if sign == ' ' {
        return (1, None);
    }
    if starts_number(signs, at) {
        let length = (at..signs.len()).take_while(|&next| in_number(signs, next)).count();
        return (length, Some(Token::Number(signs[at..at + length].iter().collect())));
    }
    if "+-/:,".contains(sign) {
        return (1, Some(Token::Mark(sign)));
    }
    let length = word_length(signs, at);
    (length, Some(Token::Word(signs[at..at + length].iter().collect())))
}

fn digit(signs: &[char], at: usize) -> bool {
    signs.get(at).is_some_and(char::is_ascii_digit)
}

fn starts_number(signs: &[char], at: usize) -> bool {
    digit(signs, at) || (matches!(signs[at], '.' | ',') && digit(signs, at + 1))
}

/// A comma belongs to a number only when a digit follows: `5 ft, 3 in` holds two plain numbers.
fn in_number(signs: &[char], at: usize) -> bool {
    match signs[at] {
        '.' => true,
        ',' => digit(signs, at + 1),
        sign => sign.is_ascii_digit(),
    }
}

/// A foot or inch mark stands alone (`5'3`), unless a stroke follows it (`"/ft`).
fn word_length(signs: &[char], start: usize) -> usize {
    let mut end = start + 1;
    while end < signs.len() && continues_word(signs, start, end) {
        end += 1;
    }
    end - start
}

fn continues_word(signs: &[char], start: usize, at: usize) -> bool {
    let before = signs[at - 1];
    match signs[at] {
        '/' => digit(signs, at + 1) || signs.get(at + 1).is_some_and(|&next| next != ' '),
        _ if quote(before) && signs[start..at - 1].iter().all(|&sign| !quote(sign)) => false,
        ' ' | '+' | '-' | ':' | ',' => false,
        '.' => before.is_alphabetic() && !digit(signs, at + 1),
        '\'' | '"' => before == '/',
        sign if sign.is_ascii_digit() => digit_in_word(signs, start, at),
        _ => true,
    }
}

fn quote(sign: char) -> bool {
    matches!(sign, '\'' | '"')
}

/// The raised 2 and 3 of `yd3`, and the volume of `s/946ml`; but not the inches of `5ft3in`.
fn digit_in_word(signs: &[char], start: usize, at: usize) -> bool {
    let before = signs[at - 1];
    if before == '^' {
        return true;
    }
    let run = (start..at).rev().take_while(|&earlier| digit(signs, earlier)).count();
    if at - run > start && signs[at - run - 1] == '/' {
        return true;
    }
    let raised = matches!(signs[at], '2' | '3') && before.is_alphabetic();
    raised && !signs.get(at + 1).is_some_and(|next| next.is_alphanumeric())
}

#[cfg(test)]
mod tests {
    use super::{Token, tokens};

    #[track_caller]
    fn check(text: &str, expected: &str) {
        let shown: Vec<String> = tokens(text).into_iter().map(show).collect();
        assert_eq!(shown.join(" "), expected);
    }

    fn show(token: Token) -> String {
        match token {
            Token::Number(text) => format!("#{text}"),
            Token::Word(text) => text,
            Token::Mark(sign) => format!("({sign})"),
        }
    }

    #[test]
    fn feet_and_inches() {
        check("12'-6 1/2\"", "#12 ' (-) #6 #1 (/) #2 \"");
        check("5'3", "#5 ' #3");
        check("5 ft, 3 in.", "#5 ft (,) #3 in.");
        check("5ft3in", "#5 ft #3 in");
        check("5ft10in", "#5 ft #10 in");
    }

    #[test]
    fn units_of_several_signs() {
        check("9.5 yd3", "#9.5 yd3");
        check("9.5 yd^3", "#9.5 yd^3");
        check("9.5 cu. yd.", "#9.5 cu. yd.");
        check("1/4 in/ft", "#1 (/) #4 in/ft");
        check("1/4\"/ft", "#1 (/) #4 \"/ft");
        check("38 s/946ml", "#38 s/946ml");
        check("64.3 lb/ft3", "#64.3 lb/ft3");
        check("72°F", "#72 °F");
    }

    #[test]
    fn signs_points_and_commas() {
        check("-20.00 ft", "(-) #20.00 ft");
        check("2,500 psi", "#2,500 psi");
        check(".5 in", "#.5 in");
        check("1:75", "#1 (:) #75");
        check(".", ".");
    }
}
