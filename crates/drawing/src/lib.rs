//! The house's pictures: values in, SVG text out.
//!
//! For the web pages, the catalogue and the packets, which draw with this crate and with nothing else.
//! Start at [`look`], the traits that make a portrait, then [`portrait`] and [`mod@bench`], which set
//! portraits on shelves; [`strip`] and [`gauge`] draw the evidence and the certainty of a call; [`mod@plant`]
//! and [`mod@span`] draw a guide's habits and limits for the type chart; [`mod@bed_map`] draws a grow-out's
//! plots, and [`mod@ranked`] what they say of its varieties; [`mod@ribbon`] draws the weeks of ripe fruit,
//! [`mod@ripe_share`] the curve that it ripens by, [`mod@frost_years`] the frosts of a station's years, and [`mod@harvest`] what a
//! plan brings in each week; [`mod@planted_beds`] shows where its plants stand. [`mod@measured`] draws over a photograph what was
//! measured on it.
//!
//! Every drawing is ink on paper but for the fruit's own colours, is the same text for the same
//! values, and uses only what a strict page, an `<img>`, a PDF and a PNG all understand: presentation
//! attributes, paths, text and gradients. Nothing here knows files, the web, guides or calls.

pub mod bed_map;
pub mod bench;
pub mod frost_years;
pub mod gauge;
pub mod harvest;
pub mod look;
pub mod measured;
pub mod plant;
pub mod planted_beds;
pub mod portrait;
pub mod ranked;
pub mod ribbon;
pub mod ripe_share;
pub mod scale;
pub mod span;
pub mod strip;
pub mod svg;

mod axis;
mod bands;
mod calyx;
mod chamber;
mod columns;
mod cut;
mod figure;
mod foliage;
mod lettering;
mod link;
mod outline;
mod paint;
mod path;
mod rule;
mod scale_bar;
mod shelf;
mod swarm;
mod whole;
mod words;
