//! What the house hands out: the printed catalogue, a folder of web pages, and tables for a spreadsheet.
//!
//! For `house`, which gathers calls, facts and portraits and asks for a document. This crate turns
//! plain values into bytes: it knows paper, type and file formats. It does not know where a call came
//! from (`identity`), where it is kept (`ledger`), or who asked.
//!
//! Start at [`catalogue::catalogue`] for the PDF, at [`chart::chart`] and [`proof::proof`] for the other
//! printed sheets, at [`stakes::stakes`] and [`walk_sheets::walk_sheets`] for the paper of a grow-out, at
//! [`packet_labels::packet_labels`] and [`lot_cards::lot_cards`] for that of the seed room, at
//! [`season_sheet::season_sheet`] for a garden's year and [`plan_sheet::plan_sheet`] for its plan, at [`scale_card::scale_card`] for the card beside photographed fruit, at [`picture::png`] for a picture file, at [`pages::Folder`] for web pages, and at
//! [`tables::Sheet`] for CSV and XLSX.

pub mod catalogue;
pub mod chance;
pub mod chart;
pub mod icalendar;
pub mod lot_cards;
pub mod packet_labels;
pub mod pages;
pub mod picture;
pub mod plan_sheet;
pub mod proof;
pub mod scale_card;
pub mod season_sheet;
pub mod stakes;
pub mod tables;
pub mod walk_sheets;

mod facts;
mod typesetting;
