//! Groups in brackets, and how reading goes on after a problem in one.

use crate::{NESTING_MOST, Place, ids, read::Reader, scan::shown};

impl Reader<'_> {
    /// From the opening bracket, which is next, to behind the closing one. `entry` reads one entry
    /// and says whether it could. The answer says whether no entry was lost on the way.
    pub(crate) fn group(&mut self, close: char, mut entry: impl FnMut(&mut Self) -> bool) -> bool {
        let opening = self.scanner.here();
        if self.open.len() == NESTING_MOST {
            self.scanner.problem(|report| {
                report
                    .add(opening, ids::PROBLEM_NESTING, &[])
                    .expected(ids::EXPECTED_NESTING, &[("most", &NESTING_MOST)]);
            });
            self.skip_group();
            return false;
        }
        self.scanner.advance();
        self.open.push(close);
        let mut whole = true;
        loop {
            self.scanner.skip_blank();
            match self.scanner.peek() {
                None => {
                    self.not_closed(opening, close);
                    whole = false;
                    break;
                }
                Some(found) if found == close => {
                    self.scanner.advance();
                    break;
                }
                Some(')' | ']' | '}') => {
                    self.wrong_bracket(opening, close);
                    whole = false;
                    break;
                }
                Some(_) => {
                    let readable = entry(self);
                    whole &= readable || self.skip_to_boundary();
                    whole &= self.separator(close);
                }
            }
        }
        self.open.pop();
        whole
    }

    /// The comma behind an entry, if one is needed. The answer says whether nothing was lost.
    fn separator(&mut self, close: char) -> bool {
        self.scanner.skip_blank();
        match self.scanner.peek() {
            None | Some(')' | ']' | '}') => true,
            Some(',') => self.scanner.eat(','),
            Some(next) => {
                // Something that can start an entry: only the comma was forgotten.
                let starts =
                    next.is_ascii_alphanumeric() || ['_', '"', '(', '[', '{'].contains(&next);
                let id = if starts {
                    ids::PROBLEM_NO_COMMA
                } else {
                    ids::PROBLEM_UNEXPECTED
                };
                let place = self.scanner.here();
                self.scanner.problem(|report| {
                    report
                        .add(place, id, &[("found", &shown(report.source().at(place)))])
                        .expected(ids::EXPECTED_COMMA, &[("close", &close)]);
                });
                if !starts {
                    self.skip_to_boundary();
                    self.scanner.eat(',');
                }
                starts
            }
        }
    }

    fn not_closed(&mut self, opening: Place, close: char) {
        self.scanner.problem(|report| {
            report
                .add(
                    opening,
                    ids::PROBLEM_NOT_CLOSED,
                    &[("open", &report.source().at(opening))],
                )
                .expected(ids::EXPECTED_TOKEN, &[("token", &close)]);
        });
        // The brackets around it lack their partner, too; one problem says it all.
        self.scanner.give_up();
    }

    /// A bracket that closes something else. If it fits a group further out, that one gets it: the
    /// partner of this group is missing. Else it was meant for this one.
    fn wrong_bracket(&mut self, opening: Place, close: char) {
        let here = self.scanner.here();
        self.scanner.problem(|report| {
            let (line, _) = report.source().line_and_column(opening);
            let texts = (report.source().at(opening), report.source().at(here));
            report
                .add(
                    here,
                    ids::PROBLEM_WRONG_BRACKET,
                    &[("open", &texts.0), ("found", &texts.1)],
                )
                .expected(ids::EXPECTED_TOKEN, &[("token", &close)])
                .hint(ids::HINT_OPENED, &[("open", &texts.0), ("line", &line)]);
        });
        if !self
            .scanner
            .peek()
            .is_some_and(|found| self.open.contains(&found))
        {
            self.scanner.advance();
        }
    }

    /// Goes on to the next comma or closing bracket of the group that is being read. The answer
    /// says whether no other field can have been among what was skipped.
    fn skip_to_boundary(&mut self) -> bool {
        let start = self.scanner.at();
        while !matches!(self.scanner.peek(), None | Some(',' | ')' | ']' | '}')) {
            self.skip_group();
            self.scanner.skip_blank();
        }
        !self
            .scanner
            .report
            .source()
            .at(self.scanner.since(start))
            .contains(':')
    }

    /// Goes on behind the next piece: a group with all that is in it, a text, or one character.
    /// Not by calling itself: the nesting here has no limit.
    fn skip_group(&mut self) {
        let mut depth = 0_usize;
        loop {
            match self.scanner.peek() {
                None => return,
                Some('"') => drop(self.scanner.quoted()),
                Some('r') if self.scanner.is_raw_quoted() => drop(self.scanner.raw_quoted()),
                Some(one) => {
                    self.scanner.advance();
                    match one {
                        '(' | '[' | '{' => depth += 1,
                        ')' | ']' | '}' => depth = depth.saturating_sub(1),
                        _ => {}
                    }
                }
            }
            if depth == 0 {
                return;
            }
            self.scanner.skip_blank();
        }
    }

    pub(crate) fn token_expected(&mut self, token: char) {
        let place = self.scanner.here();
        let id = if place.start == place.end {
            ids::PROBLEM_ENDS
        } else {
            ids::PROBLEM_UNEXPECTED
        };
        self.scanner.problem(|report| {
            report
                .add(place, id, &[("found", &shown(report.source().at(place)))])
                .expected(ids::EXPECTED_TOKEN, &[("token", &token)]);
        });
        if place.start == place.end {
            self.scanner.give_up();
        }
    }

    pub(crate) fn found_here(&mut self, id: &'static str, expected: &'static str) {
        let place = self.scanner.here();
        let id = if place.start == place.end {
            ids::PROBLEM_ENDS
        } else {
            id
        };
        self.scanner.problem(|report| {
            report
                .add(place, id, &[("found", &shown(report.source().at(place)))])
                .expected(expected, &[]);
        });
        if place.start == place.end {
            self.scanner.give_up();
        }
    }
}
