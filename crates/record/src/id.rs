//! Identifiers: UUIDv7 made where a note is taken, so that the same note sent twice is one note.

use std::cmp::Ordering;
use std::fmt;
use std::hash::{Hash, Hasher};
use std::marker::PhantomData;
use uuid::Uuid;

/// The identifier of one `Of`; identifiers of different nouns cannot be mixed up.
pub struct Id<Of> {
    value: Uuid,
    of: PhantomData<fn() -> Of>,
}

impl<Of> Id<Of> {
    /// Takes an identifier that was made or stored elsewhere.
    #[must_use]
    pub const fn from_uuid(value: Uuid) -> Self {
        Self { value, of: PhantomData }
    }

    /// The bare identifier.
    #[must_use]
    pub const fn uuid(self) -> Uuid {
        self.value
    }
}

// Written out because a derive would ask the same of `Of`, which an identifier does not hold.
impl<Of> Clone for Id<Of> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<Of> Copy for Id<Of> {}
impl<Of> PartialEq for Id<Of> {
    fn eq(&self, other: &Self) -> bool {
        self.value == other.value
    }
}
impl<Of> Eq for Id<Of> {}
impl<Of> PartialOrd for Id<Of> {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
impl<Of> Ord for Id<Of> {
    fn cmp(&self, other: &Self) -> Ordering {
        self.value.cmp(&other.value)
    }
}
impl<Of> Hash for Id<Of> {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.value.hash(state);
    }
}
impl<Of> fmt::Debug for Id<Of> {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(to, "Id({})", self.value)
    }
}
impl<Of> fmt::Display for Id<Of> {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.value.fmt(to)
    }
}
