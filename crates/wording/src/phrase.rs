//! Small joints of sentences.

/// `a, b and c`.
pub(crate) fn and<T: AsRef<str>>(items: &[T]) -> String {
    joined(items, "and")
}

/// `a, b or c`.
pub(crate) fn or<T: AsRef<str>>(items: &[T]) -> String {
    joined(items, "or")
}

fn joined<T: AsRef<str>>(items: &[T], last_joint: &str) -> String {
    let items: Vec<&str> = items.iter().map(AsRef::as_ref).collect();
    match items.split_last() {
        None => String::new(),
        Some((last, [])) => (*last).to_owned(),
        Some((last, others)) => format!("{} {last_joint} {last}", others.join(", ")),
    }
}

/// `1 piece`, `2 pieces`.
pub(crate) fn count(number: usize, one: &str, many: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { many })
}

/// With a capital at its beginning.
pub(crate) fn capital(text: &str) -> String {
    let mut signs = text.chars();
    signs.next().map_or_else(String::new, |first| first.to_uppercase().chain(signs).collect())
}

/// With a small letter at its beginning, unless the word is an abbreviation such as `pH` or `SPT`.
pub(crate) fn small(text: &str) -> String {
    let mut signs = text.chars();
    let Some(first) = signs.next() else { return String::new() };
    if signs.clone().next().is_some_and(char::is_uppercase) {
        return text.to_owned();
    }
    first.to_lowercase().chain(signs).collect()
}

/// Without the stop at its end.
pub(crate) fn no_stop(text: &str) -> &str {
    text.trim().trim_end_matches('.')
}

/// With one stop at its end.
pub(crate) fn stop(text: &str) -> String {
    let text = text.trim();
    let ended = text.ends_with(['.', '?', '!', ':', ';']);
    if text.is_empty() || ended { text.to_owned() } else { format!("{text}.") }
}

/// Sentences one after the other, the empty ones left out.
pub(crate) fn sentences(parts: &[String]) -> String {
    let kept: Vec<&str> = parts.iter().map(|part| part.trim()).filter(|part| !part.is_empty()).collect();
    kept.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn joints() {
        assert_eq!(and(&["a", "b", "c"]), "a, b and c");
        assert_eq!(or(&["a"]), "a");
        assert_eq!(count(1, "piece", "pieces"), "1 piece");
        assert_eq!(count(0, "piece", "pieces"), "0 pieces");
        assert_eq!(capital("slump"), "Slump");
        assert_eq!(small("PH"), "PH");
        assert_eq!(small("Slump"), "slump");
        assert_eq!(stop("Why"), "Why.");
        assert_eq!(stop("Why."), "Why.");
        assert_eq!(sentences(&["A.".to_owned(), String::new(), "B.".to_owned()]), "A. B.");
    }
}
