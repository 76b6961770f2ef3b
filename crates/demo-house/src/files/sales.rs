//! Sales: the orders that came by post, as a shop's page writes them out, and the stall's notebook.
//!
//! Start at [`by_post`].

use crate::chance::{happens, one_of, stream};
use crate::house::House;
use crate::paper::{Cell, Format, Letters, Page, Sheaf};
use crate::sales::{Line, sold};
use jiff::civil::Date;
use rand::RngExt;

/// Things in the orders that are no tomato.
const OTHER_ITEMS: [&str; 3] = ["Gift card", "Dibber, ash", "Bean seeds - mixed"];

/// Orders by post: a row an item, times behind the days, buyers beside them, some cancelled and some sent back.
#[must_use]
pub fn by_post(house: &House, seed: u64) -> Sheaf {
    let mut draws = stream(seed, &["sales", "by post"]);
    let mut page = Page::default();
    page.words(&["Order", "Order date", "Buyer", "Item", "Quantity", "Price", "Status", "Type"]);
    for (number, line) in (1001_u32..).zip(sold(seed, &house.truth).into_iter().filter(|line| !line.at_stall))
    {
        let item = item(&mut draws, &line);
        let status = if happens(&mut draws, 0.01) { "cancelled" } else { "sent" };
        let (hour, minute) = line.at;
        let day = format!("{} {hour:02}:{minute:02}", line.on);
        let row = |item: &str, packets: u32, kind: &str| -> Vec<Cell> {
            vec![
                number.to_string().into(),
                day.clone().into(),
                format!("Buyer {}", 1 + number % 311).into(),
                item.into(),
                packets.to_string().into(),
                "4.00".into(),
                status.into(),
                kind.into(),
            ]
        };
        page.record(row(&item, line.packets, "sale"));
        if happens(&mut draws, 0.01) {
            page.record(row(&item, line.packets, "refund"));
        }
        if happens(&mut draws, 0.02)
            && let Some(other) = one_of(&mut draws, &OTHER_ITEMS)
        {
            page.record(row(other, 1, "sale"));
        }
    }
    let format = Format::Text { delimiter: ',', letters: Letters::Utf8, line_end: "\n" };
    Sheaf {
        path: "sales/post-2023-2026.csv".to_owned(),
        about: "orders by post; a row an item with buyer and price, times behind the days, the variety among other words, refunds, cancelled orders, things that are no seed",
        format,
        pages: vec![page],
    }
}

/// A variety as the shop's page calls it.
fn item(draws: &mut impl RngExt, line: &Line) -> String {
    match draws.random_range(0..10_u32) {
        0..=5 => format!("{} tomato seeds (30)", line.variety),
        6..=8 => line.variety.clone(),
        _ => format!("Tomato – {}, packet", line.variety),
    }
}

/// The stall's notebook: month first, names and aliases as they were said, a row left half written.
#[must_use]
pub fn at_the_stall(house: &House, seed: u64) -> Sheaf {
    let mut draws = stream(seed, &["sales", "stall"]);
    let mut page = Page::default();
    page.words(&["Stall, spring markets"]);
    page.blank();
    page.words(&["Date", "Variety", "Packets"]);
    for line in sold(seed, &house.truth).into_iter().filter(|line| line.at_stall) {
        let aliases = house.truth.iter().find(|known| known.entry.name == line.variety);
        let alias =
            aliases.and_then(|known| known.entry.aliases.first()).filter(|_| happens(&mut draws, 0.2));
        let name = alias.cloned().unwrap_or(line.variety);
        page.record(vec![written(line.on).into(), name.into(), line.packets.to_string().into()]);
    }
    page.record(vec!["5/17/2026".into(), "".into(), "2".into()]);
    page.record(vec!["5/17/2026".into(), "Post Mill".into(), "a few".into()]);
    let format = Format::Text { delimiter: ';', letters: Letters::Windows1252, line_end: "\r\n" };
    Sheaf {
        path: "sales/stall-2024-2026.csv".to_owned(),
        about: "the stall's notebook typed up; semicolons, a title above the headings, month first, aliases, two rows half written",
        format,
        pages: vec![page],
    }
}

fn written(on: Date) -> String {
    format!("{}/{}/{}", on.month(), on.day(), on.year())
}
