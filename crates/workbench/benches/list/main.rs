//! The list of a hundred thousand varieties over loopback, beside the bare full-text query in the same run.
//!
//! `cargo bench --profile release -p workbench --bench list -- DEMO FOLDER [VARIETIES] [REQUESTS]`; `benches/list.sh` makes
//! the demo house and runs it. FOLDER is made unless it is a house already. The varieties are the demo's, many times over under other names, with their own kept
//! calls word for word, so that rows, drawings and words are as long as real ones.

#![expect(
    clippy::expect_used,
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a bench breaks off where it cannot go on"
)]

mod bare;
mod client;
mod house;

use client::Client;
use std::path::Path;
use std::time::{Duration, Instant};

/// What is asked: the address, and the words that the bare query looks for, where it is a search in full text.
const ASKED: [(&str, Option<&str>); 10] = [
    ("/", None),
    ("/?page=500", None),
    ("/?q=red+paste+under+4+oz+for+canning", None),
    ("/?q=semi-determinate+green+slicer", None),
    ("/?class=plum&habit=determinate&sort=weight", None),
    ("/?contested=only&sort=sureness", None),
    ("/?q=barn", Some("barn")),
    ("/?q=%22barn%22+%22rose%22", Some("barn rose")),
    ("/?q=%22locules%22", Some("locules")),
    ("/?q=%22nobody%22", Some("nobody")),
];

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).filter(|one| !one.starts_with("--")).collect();
    let demo = arguments.first().expect("the folder of a demo house");
    let folder = Path::new(arguments.get(1).expect("the folder of the large house"));
    let number = |place: usize, usual: usize| arguments.get(place).map_or(usual, |one| one.parse().unwrap());
    let (varieties, requests) = (number(2, 100_000), number(3, 200));
    let house = match ::house::folder::find(Some(folder), folder) {
        Ok(house) => house,
        Err(_) => house::many_times_over(Path::new(demo), folder, varieties),
    };
    let ledger = house.folder.join("ledger.db");
    let workbench = workbench::open(house, 0).unwrap();
    let address = workbench.address();
    std::thread::spawn(move || workbench.serve());

    let mut client = Client::at(&address);
    let began = Instant::now();
    client.get("/");
    println!(
        "the first reading, which shelves {varieties} varieties: {:.1} s",
        began.elapsed().as_secs_f64()
    );
    println!(
        "{:<44} {:>9} {:>9} {:>8} {:>8} {:>8} {:>6}",
        "", "p50 ms", "p95 ms", "kB sent", "bare p50", "bare p95", "ratio"
    );
    for (asked, words) in ASKED {
        let mut sent = 0;
        let ours = timed(requests, || sent = client.get(asked));
        let bare = words.map(|words| {
            let mut bare = bare::Bare::of(&ledger, words);
            timed(requests, || bare.ask())
        });
        let beside = bare.map(|bare| {
            format!("{:>8.2} {:>8.2} {:>6.2}", bare.middle, bare.slow, ours.middle / bare.middle)
        });
        println!(
            "{asked:<44} {:>9.2} {:>9.2} {:>8.1} {}",
            ours.middle,
            ours.slow,
            sent as f64 / 1000.0,
            beside.unwrap_or_default()
        );
    }
}

/// Milliseconds that half and 95 in 100 of the requests took at most.
struct Timed {
    middle: f64,
    slow: f64,
}

fn timed(requests: usize, mut ask: impl FnMut()) -> Timed {
    ask();
    let mut took: Vec<Duration> = (0..requests)
        .map(|_| {
            let began = Instant::now();
            ask();
            began.elapsed()
        })
        .collect();
    took.sort_unstable();
    let at = |share: usize| took.get(took.len() * share / 100).unwrap().as_secs_f64() * 1000.0;
    Timed { middle: at(50), slow: at(95) }
}
