//! The words of the house: units, seasons, and the nouns of the trade.
//!
//! Every other crate speaks in these types. They make bad states unspeakable (a fruit cannot weigh
//! minus two grams, a pick cannot lack its day) and know nothing of files, tables, screens or sums.
//! Read [`mass`] for how a unit is made, then [`fruit`] for what a grower writes down most.

pub mod colour;
pub mod days;
pub mod doubt;
pub mod fruit;
pub mod germination;
pub mod growout;
pub mod height;
pub mod id;
pub mod language;
pub mod length;
pub mod lot;
pub mod mass;
pub mod note;
pub mod pick;
pub mod place;
pub mod purpose;
pub mod sale;
pub mod season;
pub mod share;
pub mod stage;
pub mod stock;
pub mod subject;
pub mod telling;
pub mod temperature;
pub mod unknown;
pub mod variety;
