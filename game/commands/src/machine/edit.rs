//! A field written into a text, or taken out of it. All else stays as it is written: order, blanks
//! and comments.

use std::ops::Range;

/// Writes a field behind the byte `at`, where the field before it ends, or the parenthesis opens.
pub(super) fn insert(text: &mut String, at: usize, field: &str, value: &str) {
    let before = &text[..at];
    if before.ends_with('(') {
        let is_empty = text[at + blank(&text[at..])..].starts_with(')');
        let end = if is_empty { "" } else { ", " };
        text.insert_str(at, &format!("{field}: {value}{end}"));
        return;
    }
    let line = &before[before.rfind('\n').map_or(0, |end| end + 1)..];
    let indent = &line[..line.len() - line.trim_start().len()];
    let comma = at + blank(&text[at..]);
    if !text[comma..].starts_with(',') {
        text.insert_str(at, &format!(", {field}: {value}"));
        return;
    }
    let rest = text[comma + 1..].split(['\r', '\n']).next();
    let rest = rest.unwrap_or_default();
    let only_comment = rest.trim().is_empty() || rest.trim_start().starts_with("//");
    if ends_field(line) && only_comment && rest.len() < text[comma + 1..].len() {
        let end = comma + 1 + rest.len();
        let new_line = if text[end..].starts_with('\r') {
            "\r\n"
        } else {
            "\n"
        };
        let written = format!("{new_line}{indent}{field}: {value},");
        text.insert_str(end, &written);
    } else {
        text.insert_str(comma + 1, &format!(" {field}: {value},"));
    }
}

/// Writes another item behind an item of a list.
pub(super) fn insert_item(text: &mut String, item: Range<usize>, written: &str) {
    let line = text[..item.start].rfind('\n').map_or(0, |end| end + 1);
    let before = text[line..item.start].to_owned();
    let comma = item.end + blank(&text[item.end..]);
    if !text[comma..].starts_with(',') {
        text.insert_str(item.end, &format!(", {written}"));
    } else if before.trim().is_empty() {
        let new_line = if text[..line].ends_with("\r\n") {
            "\r\n"
        } else {
            "\n"
        };
        let rest = text[comma + 1..].split(['\r', '\n']).next();
        let end = comma + 1 + rest.unwrap_or_default().len();
        text.insert_str(end, &format!("{new_line}{before}{written},"));
    } else {
        text.insert_str(comma + 1, &format!(" {written},"));
    }
}

/// Takes a field out, from the start of its name to the end of its value; or an item of a list.
pub(super) fn remove(text: &mut String, field: Range<usize>) {
    let Range { start, mut end } = field;
    let comma = end + blank(&text[end..]);
    let has_comma = text[comma..].starts_with(',');
    if has_comma {
        end = comma + 1;
    }
    let line = text[..start].rfind('\n').map_or(0, |end| end + 1);
    let rest = text[end..]
        .find('\n')
        .map_or(text.len(), |next| end + next + 1);
    let alone = text[line..start].trim().is_empty() && text[end..rest].trim().is_empty();
    let before = text[..start].trim_end();
    let range = if alone && has_comma {
        line..rest
    } else if before.ends_with('(') {
        let blanks = text[end..].len() - text[end..].trim_start_matches(' ').len();
        start..end + blanks
    } else if has_comma {
        text[..start].trim_end_matches(' ').len()..end
    } else {
        before.strip_suffix(',').unwrap_or(before).len()..end
    };
    text.replace_range(range, "");
}

/// Whether a line, up to the end of a field, has nothing but that field in it, or its last part.
fn ends_field(line: &str) -> bool {
    let mut depth = 0;
    for one in line.chars() {
        match one {
            '(' | '[' | '{' => depth += 1,
            ')' | ']' | '}' => depth -= 1,
            ',' if depth <= 0 => return false,
            _ => {}
        }
    }
    depth <= 0
}

/// How many bytes of blanks and comments a text begins with.
fn blank(text: &str) -> usize {
    let mut at = 0;
    loop {
        let rest = text[at..].trim_start();
        at = text.len() - rest.len();
        let (opening, closing) = match rest {
            _ if rest.starts_with("//") => ("//", "\n"),
            _ if rest.starts_with("/*") => ("/*", "*/"),
            _ => return at,
        };
        // A comment in a comment ends at its own end, which is no field's place.
        let behind = rest[opening.len()..].find(closing);
        let Some(behind) = behind else {
            return at;
        };
        at += opening.len() + behind + closing.len();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Before, and with `new: 1` written behind `b: 2`, or behind the opening where there is none.
    const CASES: [(&str, &str); 12] = [
        ("R()", "R(new: 1)"),
        ("R(\n)", "R(new: 1\n)"),
        ("R(a: 1)", "R(new: 1, a: 1)"),
        ("R(a: 1, b: 2)", "R(a: 1, b: 2, new: 1)"),
        ("R(a: 1, b: 2, c: 3)", "R(a: 1, b: 2, new: 1, c: 3)"),
        (
            "R(a: 1, b: 2 /* , */, c: 3)",
            "R(a: 1, b: 2 /* , */, new: 1, c: 3)",
        ),
        ("R(a: 1,\n b: 2,\n)", "R(a: 1,\n b: 2,\n new: 1,\n)"),
        ("R(\n\tb: 2, // two\n)", "R(\n\tb: 2, // two\n\tnew: 1,\n)"),
        ("R(\r\n b: 2,\r\n)", "R(\r\n b: 2,\r\n new: 1,\r\n)"),
        (
            "R(a: 1,\n b: 2, c: 3,\n)",
            "R(a: 1,\n b: 2, new: 1, c: 3,\n)",
        ),
        (
            "R(\n a: [1, 2],\n b: 2,\n c: 3)",
            "R(\n a: [1, 2],\n b: 2,\n new: 1,\n c: 3)",
        ),
        ("R(\n  b: 2\n)", "R(\n  b: 2, new: 1\n)"),
    ];

    #[test]
    fn what_is_written_stands_as_its_neighbours_do_and_is_taken_out_without_a_trace() {
        for (before, after) in CASES {
            let mut text = before.to_owned();
            let behind = before.find("b: 2").map(|at| at + 4);
            insert(&mut text, behind.unwrap_or(2), "new", "1");
            assert_eq!(text, after);
            let at = text.find("new").expect("it is there");
            remove(&mut text, at..at + 6);
            assert_eq!(text, before);
        }
    }

    #[test]
    fn behind_a_part_of_many_lines_the_indent_is_that_of_its_end() {
        let mut text = "R(\n  b: S(\n    x: 1,\n  ),\n)".to_owned();
        let at = text.find("),").expect("it is there") + 1;
        insert(&mut text, at, "new", "1");
        assert_eq!(text, "R(\n  b: S(\n    x: 1,\n  ),\n  new: 1,\n)");
        let mut text = "R(\n  b: S(x: [1, 2], y: 3),\n)".to_owned();
        let at = text.find("),").expect("it is there") + 1;
        insert(&mut text, at, "new", "1");
        assert_eq!(text, "R(\n  b: S(x: [1, 2], y: 3),\n  new: 1,\n)");
    }
}
