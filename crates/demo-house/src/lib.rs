//! The demo house: an invented seed house and its untidy notes, made from a hidden truth.
//!
//! For whoever tries locule out, and for the tests that score its calls. Crookstile Seed House, its
//! 130 varieties, its keepers and its two gardens do not exist. The [`roll`] is the hand-written list
//! of varieties; [`truth`] gives each its true traits; [`season`] and [`garden`] plant three seasons;
//! [`fruit`], [`ripening`], [`vine`] and [`hue`] grow them under [`weather`]; [`files`] writes down what each keeper saw, in
//! that keeper's own untidy way, on the paper that [`paper`] knows how to make, and [`faults`] remembers
//! every slip made on purpose. Start at [`house::write_demo`]. [`scale`] writes a tidy house of any size
//! for the speed benches.
//!
//! Everything is drawn from one seed: the same bytes come out each time.

pub mod chance;
pub mod class;
pub mod faults;
pub mod files;
pub mod fruit;
pub mod garden;
pub mod house;
pub mod hue;
pub mod paper;
pub mod ripening;
pub mod roll;
pub mod sales;
pub mod scale;
pub mod season;
pub mod tables;
pub mod trial;
pub mod truth;
pub mod vine;
pub mod weather;
