//! What plain words of the trade ask for, or claim: "semi-determinate green slicer", "early red paste under 4 oz
//! for canning", "not yellow, grown in 2025".
//!
//! One table of words (`words.txt`) serves the search of the list, the published pages and the claims of old
//! packets. Nothing here knows a variety, a guide or a ledger: which habits, classes, colours and marks there are
//! is handed in as words.
//!
//! Reading order: [`wish`] (what can be asked for) -> [`amount`] (how much of it) -> [`vocabulary`] (which words
//! mean what) -> `tokens`, `quantity`, `slips` (a text's pieces) -> [`reading`] (a text, piece by piece) -> `gathering`
//! (the pieces as one wish) -> [`telling`] (the wish back in words) -> [`claims`] (a description as single claims).
//! Start at [`reading::read`].

pub mod amount;
pub mod claims;
pub mod reading;
pub mod telling;
pub mod vocabulary;
pub mod wish;

mod gathering;
mod quantity;
mod slips;
mod tokens;
