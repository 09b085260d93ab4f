//! The words of a site: plain text made into a Fluent message.

/// The Fluent message that gives the id this text.
///
/// `{ $name }` stands for a value, if `arguments` has that name. All else is shown as it is
/// written, braces too: a site's text cannot be a wrong message.
pub(crate) fn message(id: &str, text: &str, arguments: &[String]) -> String {
    let mut pattern = String::new();
    let mut literal = String::new();
    let mut rest = text;
    while let Some(next) = rest.chars().next() {
        if let Some((name, after)) = placeable(rest, arguments) {
            flush(&mut pattern, &mut literal);
            pattern.push_str(&format!("{{ ${name} }}"));
            rest = after;
        } else {
            push_escaped(&mut literal, next);
            rest = &rest[next.len_utf8()..];
        }
    }
    flush(&mut pattern, &mut literal);
    if pattern.is_empty() {
        // A message must have a value. An empty text is one, as a literal.
        pattern.push_str("{ \"\" }");
    }
    format!("{id} = {pattern}\n")
}

/// The argument's name and the rest of the text, if the text begins with `{ $name }`.
fn placeable<'t>(text: &'t str, arguments: &[String]) -> Option<(&'t str, &'t str)> {
    let (inside, after) = text.strip_prefix('{')?.split_once('}')?;
    let name = inside.trim().strip_prefix('$')?;
    arguments
        .iter()
        .any(|argument| argument == name)
        .then_some((name, after))
}

/// Inside a string literal Fluent reads only the quote, the backslash and the end of the line.
fn push_escaped(literal: &mut String, character: char) {
    match character {
        '"' => literal.push_str("\\\""),
        '\\' => literal.push_str("\\\\"),
        control if control.is_control() => {
            literal.push_str(&format!("\\u{:04X}", u32::from(control)));
        }
        plain => literal.push(plain),
    }
}

fn flush(pattern: &mut String, literal: &mut String) {
    if !literal.is_empty() {
        pattern.push_str(&format!("{{ \"{literal}\" }}"));
        literal.clear();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_becomes_a_message_whatever_is_in_it() {
        let arguments = [String::from("slot")];
        let cases: &[(&str, &str)] = &[
            ("magazine", "x = { \"magazine\" }\n"),
            ("", "x = { \"\" }\n"),
            ("level { $slot }!", "x = { \"level \" }{ $slot }{ \"!\" }\n"),
            ("level {$slot}", "x = { \"level \" }{ $slot }\n"),
            ("{ $other }", "x = { \"{ $other }\" }\n"),
            ("a { b", "x = { \"a { b\" }\n"),
            ("say \"go\" \\", "x = { \"say \\\"go\\\" \\\\\" }\n"),
            ("two\nlines", "x = { \"two\\u000Alines\" }\n"),
        ];
        for (text, expected) in cases {
            assert_eq!(message("x", text, &arguments), *expected, "{text:?}");
        }
    }
}
