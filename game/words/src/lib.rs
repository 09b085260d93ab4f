//! What the program says: Fluent messages, and the words of a site.
//!
//! - [`Words`]: all messages of one language. Ids and values go in, text comes out.
//! - [`Arg`]: a value for a message. It knows how lengths and times are written.
//! - [`Words::with_site`]: a site puts its own words in place of ours. [`Words::doubts`] says what
//!   does not fit in them.
//!
//! The messages are in `assets/locales/en/*.ftl`. They are compiled in, so that the program has
//! its words wherever it runs. A new file is one line in `locale.rs`.
//!
//! This crate knows no machine, no person and no other crate of the house. Nothing here fails:
//! a message that is not there gives a marker that a reader can see, and a fault that a test can
//! find ([`Words::faults`]).

mod arg;
mod doubts;
mod locale;
mod scan;
mod site;
mod words;

pub use arg::Arg;
pub use doubts::SiteDoubt;
pub use words::Words;
