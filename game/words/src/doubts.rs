//! What does not fit in a text of a site, before it is put in place of ours.

/// How much longer than ours a text of a site may be, in hundredths. The panel is tested with all
/// its texts that much longer.
const LONGER: usize = 35;

/// So many characters always fit, however short our own text is: on the narrowest button of the
/// panel too.
const ALWAYS_FIT: usize = 9;

/// Something that does not fit in a text of a site.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SiteDoubt {
    /// No message has this id.
    UnknownId,
    /// The program speaks of itself here: no word of the machine or the hall.
    OwnWords,
    /// The text has nothing that can be read.
    Empty,
    /// The text has a line break or another character without a shape.
    Unprintable,
    /// A brace stands alone: none opens it, or none closes it.
    LoneBrace,
    /// What stands between these braces is not `$` and a name.
    NotAValue(String),
    /// The message does not have a value of this name.
    UnknownValue(String),
    /// The message has a value of this name, and the text does not.
    LacksValue(String),
    /// The text is longer than its place.
    TooLong {
        /// Its characters, without its values.
        characters: usize,
        /// As many as its place has room for.
        most: usize,
    },
}

/// How many characters a text has room for in place of ours, both without their values.
pub(crate) fn room(ours: usize) -> usize {
    (ours + (ours * LONGER).div_ceil(100)).max(ALWAYS_FIT)
}

/// All that does not fit in a text in place of a message that has these values, and room for so
/// many characters without them.
pub(crate) fn doubts(text: &str, arguments: &[String], most: usize) -> Vec<SiteDoubt> {
    let mut found = Vec::new();
    if text.trim().is_empty() {
        found.push(SiteDoubt::Empty);
    }
    if text.contains(char::is_control) {
        found.push(SiteDoubt::Unprintable);
    }
    let (literal, values) = parts(text, &mut found);
    for name in &values {
        if !arguments.contains(name) {
            found.push(SiteDoubt::UnknownValue(name.clone()));
        }
    }
    let lacking = arguments.iter().filter(|name| !values.contains(name));
    found.extend(lacking.map(|name| SiteDoubt::LacksValue(name.clone())));
    let characters = literal.chars().count();
    if characters > most {
        found.push(SiteDoubt::TooLong { characters, most });
    }
    found
}

/// The text without its values, and the names of these.
fn parts(text: &str, found: &mut Vec<SiteDoubt>) -> (String, Vec<String>) {
    let (mut literal, mut values) = (String::new(), Vec::new());
    let mut rest = text;
    while let Some(at) = rest.find(['{', '}']) {
        literal.push_str(&rest[..at]);
        let inside = &rest[at + 1..];
        let end = inside.find(['{', '}']);
        match end {
            Some(end) if rest[at..].starts_with('{') && inside[end..].starts_with('}') => {
                match value_name(&inside[..end]) {
                    Some(name) => values.push(name.to_owned()),
                    None => found.push(SiteDoubt::NotAValue(inside[..end].trim().to_owned())),
                }
                rest = &inside[end + 1..];
            }
            _ => {
                found.push(SiteDoubt::LoneBrace);
                rest = inside;
            }
        }
    }
    literal.push_str(rest);
    (literal, values)
}

/// The name in `$name`.
fn value_name(inside: &str) -> Option<&str> {
    let name = inside.trim().strip_prefix('$')?;
    let plain = |one: char| one.is_ascii_alphanumeric() || one == '-' || one == '_';
    let is_name = name.starts_with(|first: char| first.is_ascii_alphabetic());
    (is_name && name.chars().all(plain)).then_some(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_text_has_its_doubts_all_at_once() {
        use SiteDoubt as D;
        let of = |name: &str| name.to_owned();
        let cases: &[(&str, &[SiteDoubt])] = &[
            ("Level { $slot }", &[]),
            ("Lev {$slot} of { $slot }", &[]),
            ("Level", &[D::LacksValue(of("slot"))]),
            ("", &[D::Empty, D::LacksValue(of("slot"))]),
            ("{ $slot }\n", &[D::Unprintable]),
            ("{ $slot } {", &[D::LoneBrace]),
            ("} { $slot }", &[D::LoneBrace]),
            ("{ { $slot }", &[D::LoneBrace]),
            ("{ $slot", &[D::LoneBrace, D::LacksValue(of("slot"))]),
            (
                "{ slot }",
                &[D::NotAValue(of("slot")), D::LacksValue(of("slot"))],
            ),
            ("{ $slot } {}", &[D::NotAValue(String::new())]),
            ("{ $slot } { $1 }", &[D::NotAValue(of("$1"))]),
            (
                "{ $slat }",
                &[D::UnknownValue(of("slat")), D::LacksValue(of("slot"))],
            ),
            (
                "Storey number { $slot }",
                &[D::TooLong {
                    characters: 14,
                    most: 9,
                }],
            ),
            ("Stöckwk: { $slot }", &[]),
        ];
        for (text, expected) in cases {
            assert_eq!(doubts(text, &[of("slot")], 9), *expected, "{text:?}");
        }
    }

    #[test]
    fn a_place_has_room_for_a_third_more() {
        for (ours, most) in [(0, 9), (5, 9), (7, 10), (10, 14), (100, 135)] {
            assert_eq!(room(ours), most);
        }
    }
}
