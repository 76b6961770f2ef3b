//! The trade's plain words, read: what somebody who types "early red paste under 4 oz" is asking for.
//!
//! For the search of the list and for the claims of old catalogue text. It knows words, units and
//! likely slips of the pen; it does not know which varieties there are (`house`) or what a class is (`identity`).
