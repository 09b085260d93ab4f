//! The ids of all messages of this crate. Their English words are in `assets/locales/en/files.ftl`.

/// Declares the ids, and the list of all of them, so that none can lack its words.
macro_rules! ids {
    ($($(#[$doc:meta])+ $constant:ident = $id:literal;)+) => {
        $($(#[$doc])+ pub const $constant: &str = $id;)+

        /// All of them, in the order of this file.
        pub const ALL: &[&str] = &[$($id),+];
    };
}

ids! {
    /// The text is longer than the reader accepts: `bytes`.
    PROBLEM_TEXT_LARGE = "problem-text-large";
    /// The text holds no value.
    PROBLEM_EMPTY = "problem-empty";
    /// Something follows the value: `found`.
    PROBLEM_TRAILING = "problem-trailing";
    /// A character that starts no value: `found`.
    PROBLEM_UNEXPECTED = "problem-unexpected";
    /// The text ends where something is missing.
    PROBLEM_ENDS = "problem-ends";
    /// A bracket has no partner: `open`.
    PROBLEM_NOT_CLOSED = "problem-not-closed";
    /// A bracket of another kind than the open one: `open`, `found`.
    PROBLEM_WRONG_BRACKET = "problem-wrong-bracket";
    /// Two entries without a comma between them: `found`.
    PROBLEM_NO_COMMA = "problem-no-comma";
    /// A value where a field should stand.
    PROBLEM_NO_FIELD_NAME = "problem-no-field-name";
    /// A comment has no end.
    PROBLEM_COMMENT_NOT_CLOSED = "problem-comment-not-closed";
    /// A text has no closing quote.
    PROBLEM_TEXT_NOT_CLOSED = "problem-text-not-closed";
    /// An escape that means nothing: `found`.
    PROBLEM_ESCAPE = "problem-escape";
    /// Brackets stand too deep inside each other.
    PROBLEM_NESTING = "problem-nesting";
    /// So many syntax problems that reading stops: `count`.
    PROBLEM_TOO_MANY = "problem-too-many";
    /// Not the form of a number: `found`.
    PROBLEM_NUMBER_FORM = "problem-number-form";
    /// A number with more digits than can be kept: `found`.
    PROBLEM_NUMBER_LONG = "problem-number-long";
    /// A value of another kind: `thing`, `kind`.
    PROBLEM_WRONG_KIND = "problem-wrong-kind";
    /// A record with another name: `found`.
    PROBLEM_WRONG_RECORD_NAME = "problem-wrong-record-name";
    /// A field is not there: `field`, `record`.
    PROBLEM_MISSING_FIELD = "problem-missing-field";
    /// A field that is not known: `field`, `record`.
    PROBLEM_UNKNOWN_FIELD = "problem-unknown-field";
    /// A field that stands there again: `field`, `line` of the first one.
    PROBLEM_REPEATED_FIELD = "problem-repeated-field";
    /// A key of a map that stands there again: `key`, `line` of the first one.
    PROBLEM_REPEATED_KEY = "problem-repeated-key";
    /// A number outside its bound: `thing`, `number`, `unit`, and those of the bound.
    PROBLEM_OUT_OF_BOUNDS = "problem-out-of-bounds";
    /// More decimals than are kept: `thing`, `number`, `unit`.
    PROBLEM_TOO_MANY_DECIMALS = "problem-too-many-decimals";
    /// A choice that does not exist: `thing`, `found`.
    PROBLEM_UNKNOWN_CHOICE = "problem-unknown-choice";
    /// A choice with values, where it has none, or another number of them: `found`, `count`.
    PROBLEM_CHOICE_VALUES = "problem-choice-values";
    /// Not the form of a name: `thing`, `found`.
    PROBLEM_NAME_FORM = "problem-name-form";

    /// One value.
    EXPECTED_VALUE = "expected-value";
    /// The end of the text.
    EXPECTED_END = "expected-end";
    /// A certain character or word: `token`.
    EXPECTED_TOKEN = "expected-token";
    /// A comma, or a closing bracket: `close`.
    EXPECTED_COMMA = "expected-comma";
    /// A field's name, a colon and a value.
    EXPECTED_FIELD = "expected-field";
    /// One of the known escapes.
    EXPECTED_ESCAPE = "expected-escape";
    /// A shorter text: `most` bytes.
    EXPECTED_TEXT_SHORT = "expected-text-short";
    /// Fewer brackets inside each other: `most`.
    EXPECTED_NESTING = "expected-nesting";
    /// A number in the form that is read.
    EXPECTED_NUMBER = "expected-number";
    /// A number that can be kept: `least`, `most`, `decimals`.
    EXPECTED_NUMBER_SHORT = "expected-number-short";
    /// A whole number within a bound: `name`, `words`, `least`, `most`, `unit`.
    EXPECTED_WHOLE = "expected-whole";
    /// A number with decimals within a bound: `name`, `words`, `least`, `most`, `unit`, `decimals`.
    EXPECTED_DECIMAL = "expected-decimal";
    /// Text in quotes.
    EXPECTED_TEXT = "expected-text";
    /// A name: `most` characters.
    EXPECTED_NAME = "expected-name";
    /// `true` or `false`.
    EXPECTED_FLAG = "expected-flag";
    /// A list.
    EXPECTED_LIST = "expected-list";
    /// A map from texts.
    EXPECTED_MAP = "expected-map";
    /// A record: `record`.
    EXPECTED_RECORD = "expected-record";
    /// A value of any kind.
    EXPECTED_ANY = "expected-any";
    /// One of the known choices: `choices`.
    EXPECTED_CHOICE = "expected-choice";
    /// A choice without values, or with so many: `choice`, `count`.
    EXPECTED_CHOICE_VALUES = "expected-choice-values";
    /// One of the known fields: `fields`.
    EXPECTED_KNOWN_FIELD = "expected-known-field";
    /// Only once.
    EXPECTED_ONCE = "expected-once";

    /// A known name that is near: `name`.
    HINT_DID_YOU_MEAN = "hint-did-you-mean";
    /// It would fit without its quotes.
    HINT_WITHOUT_QUOTES = "hint-without-quotes";
    /// It would fit in quotes.
    HINT_WITH_QUOTES = "hint-with-quotes";
    /// The name in the form that is read: `name`.
    HINT_WRITE_NAME = "hint-write-name";
    /// A colon stands between a field and its value.
    HINT_COLON = "hint-colon";
    /// Where the bracket was opened: `line`.
    HINT_OPENED = "hint-opened";

    /// Names the first part of a problem when it is drawn.
    LABEL_PROBLEM = "label-problem";
    /// Stands around what was expected: `text`.
    LABEL_EXPECTED = "label-expected";
    /// Stands around a hint: `text`.
    LABEL_HINT = "label-hint";
}

/// The value of `thing` for a value that has no field name of its own. No field can be called so.
pub const THIS_VALUE: &str = "this-value";
