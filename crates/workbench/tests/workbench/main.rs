//! The workbench asked as a browser asks it, without a network: who may come in, what every page says, and
//! the loop from files to calls and back.

#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    reason = "a test that asks in vain fails, and that is how it tells"
)]

mod first_steps;
mod gardens;
mod gate;
mod grow_outs;
mod list;
mod packets;
mod pages;
mod sheets;
mod site;
mod the_loop;
mod weather;
mod what;
