//! Whether a text is a drawing and nothing else, for whoever puts one into a page.
//!
//! Every label is escaped where it is drawn; this looks again at what is in the tags. What stands between tags or in quotation
//! marks is text, whatever it says: ground that somebody described as `onload=` is still drawn.
//!
//! Never: look at text for what only a tag can do.

/// Elements that run or restyle something.
const RUNS: [&str; 4] = ["script", "foreignobject", "style", "iframe"];

/// Whether the text is an SVG drawing in which nothing runs and nothing restyles the page.
pub fn is_drawing(text: &str) -> bool {
    text.trim_start().starts_with("<svg") && text.split('<').skip(1).all(is_harmless)
}

/// What follows an opening bracket, to the next one. As in our own drawings, a value stands in double quotation marks and holds
/// neither them nor a closing bracket; a tag that is written otherwise is no harmless one.
fn is_harmless(part: &str) -> bool {
    let Some((tag, _)) = part.split_once('>') else { return false };
    let tag = tag.to_ascii_lowercase();
    let mut pieces = tag.split('"');
    let first = pieces.next().unwrap_or_default();
    let element = first.split_whitespace().next().unwrap_or_default();
    let name = element.trim_matches('/');
    if RUNS.contains(&name) || !name.bytes().all(|byte| byte.is_ascii_alphanumeric()) {
        return false;
    }
    let mut names = first.strip_prefix(element).unwrap_or_default();
    loop {
        let words: Vec<&str> = names.split_whitespace().collect();
        if words.iter().any(|word| !is_name(word)) {
            return false;
        }
        let Some(value) = pieces.next() else { return true };
        let leads = words.last().is_some_and(|name| name.trim_end_matches('=').ends_with("href"));
        if leads && value.trim_start().starts_with("javascript:") {
            return false;
        }
        names = pieces.next().unwrap_or_default();
    }
}

/// The name of an attribute with its sign, or the end of an empty element.
fn is_name(word: &str) -> bool {
    word == "/"
        || word
            .strip_suffix('=')
            .is_some_and(|name| !name.starts_with("on") && name != "style" && !name.contains('='))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, drawing: bool) {
        assert_eq!(is_drawing(text), drawing, "{text}");
    }

    #[test]
    fn a_drawing_is_one_whatever_its_texts_say() {
        check(r#"<svg viewBox="0 0 1 1"><text x="1" y="2">clay</text></svg>"#, true);
        check(r#" <svg><path d="M0 0"/><g class="a b" ><rect width="1" /></g></svg>"#, true);
        check("<svg><text>&lt;script&gt; onload=1 style=x javascript:1</text></svg>", true);
        check(r#"<svg aria-label="a &lt;b onload=&quot;1&quot;&gt; style=x"><a href="/job/1"/></svg>"#, true);
    }

    #[test]
    fn what_runs_or_restyles_is_none() {
        check("", false);
        check("<img src=x>", false);
        check("<svg><script>1</script></svg>", false);
        check("<svg><SCRIPT>1</SCRIPT></svg>", false);
        check(r#"<svg><style>*{}</style></svg>"#, false);
        check(r#"<svg><foreignObject width="9"/></svg>"#, false);
        check(r#"<svg onload="1"></svg>"#, false);
        check(r#"<svg><g class="a" OnClick="1"/></svg>"#, false);
        check("<svg><g onclick=1 /></svg>", false);
        check(r#"<svg><g class="a"onclick="1"/></svg>"#, false);
        check(r#"<svg><g style="fill:red"/></svg>"#, false);
        check(r#"<svg><a href=" JavaScript:1"/></svg>"#, false);
        check(r#"<svg><a xlink:href="javascript:1"/></svg>"#, false);
        check("<svg><g/onclick=1></svg>", false);
        check("<svg", false);
    }
}
