//! The parts of a typed quantity: each a number with the unit written after it.
//!
//! `12'-6 1/2"` has two: `12` of `'`, and `6 1/2` of `"`, joined by a hyphen.
//!
//! Never: decide whether a unit exists.

use crate::misread::Problem;
use crate::token::Token;

/// A number and the unit after it.
#[derive(Debug, Clone)]
pub(crate) struct Part<'a> {
    /// The pieces of the number. Invariant: begins with a number.
    pub(crate) number: &'a [Token],
    /// The words after it, as written, one space between them; empty when there are none.
    pub(crate) unit: String,
    /// A hyphen joined it to the part before.
    pub(crate) hyphenated: bool,
}

/// Cuts the pieces into parts. Never empty when it succeeds.
pub(crate) fn parts(pieces: &[Token]) -> Result<Vec<Part<'_>>, Problem> {
    match pieces.first() {
        None => return Err(Problem::Empty),
        Some(Token::Number(_)) => {}
        Some(_) => return Err(Problem::NoNumber),
    }
    let mut found = Vec::new();
    let mut rest = pieces;
    let mut hyphenated = false;
    while !rest.is_empty() {
        let (part, after) = part(rest, hyphenated);
        found.push(part);
        (hyphenated, rest) = joint(after)?;
    }
    Ok(found)
}

fn part(pieces: &[Token], hyphenated: bool) -> (Part<'_>, &[Token]) {
    let word = |piece: &Token| matches!(piece, Token::Word(_));
    let (number, after) = pieces.split_at(pieces.iter().position(word).unwrap_or(pieces.len()));
    let (words, rest) = after.split_at(after.iter().position(|piece| !word(piece)).unwrap_or(after.len()));
    (Part { number, unit: spelled(words), hyphenated }, rest)
}

/// The hyphen or comma between two parts; what follows has to begin with a number.
fn joint(after: &[Token]) -> Result<(bool, &[Token]), Problem> {
    match after {
        [] | [Token::Number(_), ..] => Ok((false, after)),
        [Token::Mark('-'), rest @ ..] if begins_with_number(rest) => Ok((true, rest)),
        [Token::Mark(','), rest @ ..] if begins_with_number(rest) => Ok((false, rest)),
        strange => Err(Problem::UnknownUnit(spelled(strange))),
    }
}

fn begins_with_number(pieces: &[Token]) -> bool {
    matches!(pieces.first(), Some(Token::Number(_)))
}

/// Pieces as text, one space between two of them, but none before a foot or inch mark.
pub(crate) fn spelled(pieces: &[Token]) -> String {
    let mut text = String::new();
    let mut spaced = false;
    for piece in pieces {
        match piece {
            Token::Number(piece) | Token::Word(piece) => {
                text.push_str(if spaced && !piece.starts_with(['\'', '"']) { " " } else { "" });
                text.push_str(piece);
                spaced = true;
            }
            Token::Mark(sign) => {
                text.push(*sign);
                spaced = false;
            }
        }
    }
    text
}
