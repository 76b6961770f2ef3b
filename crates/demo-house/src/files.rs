//! The files, one module a kind of note, each in the hands of the keepers who kept it.
//!
//! [`hand`] writes measures and days as people do; [`pen`] writes names, marks and slips. Start at [`all`].

pub mod beds;
pub mod bench;
pub mod colours;
pub mod fruit_2024;
pub mod fruit_2025;
pub mod fruit_2026;
pub mod hand;
pub mod heights;
pub mod list;
pub mod pen;
pub mod picks;
pub mod plants;
pub mod sales;
pub mod trial;
pub mod walks;

use crate::faults::Slips;
use crate::house::House;
use crate::paper::Sheaf;

/// Folders of the raw files, in the order in which the house came to them.
pub const LIST: &str = "1-the-list";
/// Season 2024.
pub const SEASON_2024: &str = "2-season-2024";
/// Season 2025.
pub const SEASON_2025: &str = "3-season-2025";
/// Season 2026, as far as it had come in August.
pub const AUGUST_2026: &str = "4-august-2026";
/// Season 2026 at its end.
pub const NOVEMBER_2026: &str = "5-november-2026";

/// Writes the files of sales, which stand beside the raw files.
#[must_use]
pub fn of_sales(house: &House, seed: u64) -> Vec<Sheaf> {
    vec![sales::by_post(house, seed), sales::at_the_stall(house, seed)]
}

/// Writes every file of the house, in the order in which a house would take them.
#[must_use]
pub fn all(house: &House, slips: &mut Slips) -> Vec<Sheaf> {
    let mut sheaves = vec![
        list::the_list(house, slips),
        list::old_packets(house, slips),
        beds::beds_2024(house, slips),
        colours::colours_2024(house, slips),
        fruit_2024::home(house, slips),
        fruit_2024::far_field(house, slips),
        heights::heights_2024(house, slips),
        picks::picks_2024(house, slips),
        plants::plants_2024(house),
        walks::walks_2024(house, slips),
        beds::beds_2025(house, slips),
        colours::colours_2025(house, slips),
        fruit_2025::bench(house, slips),
        fruit_2025::neighbour(house, slips),
        fruit_2025::open_day(house, slips),
        heights::heights_2025(house, slips),
        picks::picks_2025(house, slips),
        plants::plants_2025(house),
        walks::walks_2025(house, slips),
        beds::beds_2026(house),
        fruit_2026::home_by_august(house, slips),
        colours::colours_2026(house, slips),
        fruit_2026::far_field(house, slips),
        fruit_2026::home(house, slips),
        heights::heights_2026(house, slips),
        picks::picks_2026(house, slips),
        plants::plants_2026(house),
        walks::walks_2026(house, slips),
        trial::beds(house),
        trial::picks(house),
    ];
    sheaves.extend(picks::picks_2025_again(&sheaves));
    sheaves.sort_by(|one, other| one.path.cmp(&other.path));
    sheaves
}
