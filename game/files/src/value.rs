//! What a text says, as a tree in which everything has its place.

use crate::{Decimal, Place};

/// One value of a file.
#[derive(Clone, Debug, PartialEq)]
pub struct Value {
    /// Where all of it stands.
    pub place: Place,
    /// What it is.
    pub kind: Kind,
}

/// What a value can be.
#[derive(Clone, Debug, PartialEq)]
pub enum Kind {
    /// `()`.
    Unit,
    /// `true` or `false`.
    Bool(bool),
    /// A whole number.
    Integer(i64),
    /// A number with a point.
    Decimal(Decimal),
    /// A text in quotes, with its escapes resolved.
    Text(String),
    /// `Name` or `Name(value, value)`: a choice, perhaps with values.
    Tagged(String, Vec<Value>),
    /// `(value, value)`.
    Tuple(Vec<Value>),
    /// `[value, value]`.
    List(Vec<Value>),
    /// `Name(field: value)`, `(field: value)` or `Name()`.
    Record(Record),
    /// `{ key: value }`, in the order of the file.
    Map(Vec<(Value, Value)>),
    /// Something that could not be read. Its problem is reported already: say no more of it.
    Unreadable,
}

/// Fields with their names.
#[derive(Clone, Debug, PartialEq)]
pub struct Record {
    /// The name in front of the parenthesis, if there is one.
    pub name: Option<String>,
    /// The name and the opening parenthesis: where to show that a field is missing.
    pub opening: Place,
    /// The fields in the order of the file. A name can stand here twice: [`crate::Fields`]
    /// reports it.
    pub fields: Vec<Field>,
    /// No part of it was lost to a syntax problem. If one was, a missing field says nothing.
    pub whole: bool,
}

/// One field of a record.
#[derive(Clone, Debug, PartialEq)]
pub struct Field {
    /// Its name.
    pub name: String,
    /// Where the name stands.
    pub place: Place,
    /// What follows the colon.
    pub value: Value,
}

impl Value {
    /// The name in front: of a choice or of a record.
    pub fn tag(&self) -> Option<&str> {
        match &self.kind {
            Kind::Tagged(name, _) => Some(name),
            Kind::Record(record) => record.name.as_deref(),
            _ => None,
        }
    }

    /// A word for the kind, by which a message chooses its own words. Never shown as it is.
    pub(crate) fn kind_key(&self) -> &'static str {
        match &self.kind {
            Kind::Unit => "unit",
            Kind::Bool(_) => "flag",
            Kind::Integer(_) => "integer",
            Kind::Decimal(_) => "decimal",
            Kind::Text(_) => "text",
            Kind::Tagged(..) => "tagged",
            Kind::Tuple(_) => "tuple",
            Kind::List(_) => "list",
            Kind::Record(_) => "record",
            Kind::Map(_) => "map",
            Kind::Unreadable => "unreadable",
        }
    }
}
