//! The forms by which a lot's books are written in, one for each kind of note, folded away until they are needed.

use super::lot_address;
use house::lots::{Account, telling, typed};
use jiff::civil::Date;
use maud::{Markup, html};
use record::stock::Place;

/// All forms of a lot.
pub(super) fn all(number: &str, account: &Account, today: Date) -> Markup {
    let address = lot_address(number);
    html! {
        (form(&address, "test", "A germination test", &test(today)))
        (form(&address, "move", "Seed moved", &moved(account, today)))
        (form(&address, "pack", "Packets filled", &pack(today)))
        (form(&address, "weigh", "Seed weighed", &weigh(today)))
        (form(&address, "moisture", "Moisture read", &moisture(today)))
        (form(&address, "keep", "How it is kept", &keep(today)))
        (form(&address, "inspect", "Plants looked at", &inspect(today)))
    }
}

fn form(address: &str, kind: &str, title: &str, fields: &Markup) -> Markup {
    html! {
        details.note {
            summary { (title) }
            form.cells method="post" action=(address) {
                (fields)
                div.acts { button.strong name="do" value=(kind) { "Write down" } }
            }
        }
    }
}

/// A field with its words.
pub(super) fn field(words: &str, name: &str, value: &str, hint: &str) -> Markup {
    html! {
        label {
            span { (words) }
            input name=(name) value=(value) placeholder=(hint) autocomplete="off" maxlength="400";
        }
    }
}

/// A day.
pub(super) fn day(words: &str, name: &str, value: Option<Date>) -> Markup {
    html! {
        label {
            span { (words) }
            input type="date" name=(name) value=[value];
        }
    }
}

fn test(today: Date) -> Markup {
    html! {
        (day("Laid out on", "begun", None))
        (day("Counted for the last time on", "counted", Some(today)))
        (field("Seeds in each replicate", "seeds", "100", "100"))
        (field("Normal seedlings of each replicate", "normal", "", "92 88 95 91"))
        (field("Abnormal seedlings of each, if any", "abnormal", "", "3 5 2 4"))
        (field("Hard seeds of each, if any", "hard", "", "0 0 1 0"))
        label.tick { input type="checkbox" name="laboratory" value="yes"; span { "Made by a seed-testing laboratory" } }
        p.help { "What was neither normal, abnormal nor hard counts as dead." }
    }
}

fn moved(account: &Account, today: Date) -> Markup {
    html! {
        (field("How much", "amount", "", "12.5 g, or 3 packets"))
        (places("From", "from", account, "jar"))
        (places("To", "to", account, "sold"))
        (day("On", "on", Some(today)))
    }
}

/// A choice of places, the packets that there are among them.
fn places(words: &str, name: &str, account: &Account, first: &str) -> Markup {
    let packets = account.held.iter().filter_map(|(place, _)| match place {
        Place::Packets(fill) => Some((format!("{} mg", fill.each().get()), telling::place(*place))),
        _ => None,
    });
    html! {
        label {
            span { (words) }
            select name=(name) {
                @for (word, place) in typed::PLACES {
                    option value=(word) selected[word == first] { (telling::place(place)) }
                }
                @for (word, told) in packets { option value=(word) { (told) } }
            }
        }
    }
}

fn pack(today: Date) -> Markup {
    html! {
        (field("How many packets", "packets", "", "120"))
        (field("Seed in each", "of", "", "100 mg"))
        (day("On", "on", Some(today)))
    }
}

fn weigh(today: Date) -> Markup {
    html! {
        (field("What each replicate weighed", "masses", "", "312 mg, 309 mg, 315 mg"))
        (field("Seeds in each", "seeds", "100", "100"))
        (day("On", "on", Some(today)))
        p.help { "Eight replicates of 100 seeds are the rule; the mean of them is the thousand-seed weight." }
    }
}

fn moisture(today: Date) -> Markup {
    html! {
        (field("Water in per cent of fresh weight", "percent", "", "5.4"))
        (day("On", "on", Some(today)))
    }
}

fn keep(today: Date) -> Markup {
    html! {
        (field("How warm it is there", "at", "", "5 C or 41 F"))
        (field("Shelf, jar or room", "location", "", "cellar, shelf 3"))
        label.tick { input type="checkbox" name="hermetic" value="yes"; span { "Hermetically sealed" } }
        (field("Vapour through the packet, in g a day and 100 square inches", "vapour", "", "0.03"))
        (day("Since", "on", Some(today)))
    }
}

fn inspect(today: Date) -> Markup {
    html! {
        (field("Plants looked at", "plants", "", "60"))
        (field("Off-types by kind, if any", "off-types", "", "potato leaf=2, yellow fruit=1"))
        (day("On", "on", Some(today)))
        p.help { "Look at the plants grown from the lot: a crossed seed shows itself only in the next generation." }
    }
}
