//! How long the next grow-out takes: a house of a thousand varieties, five selling years, and ground for a third of them.

#![expect(clippy::unwrap_used, reason = "a bench that cannot begin has nothing to measure")]

use jiff::civil::{Date, date};
use sowing::choice::{Candidate, Ground, Must, choose, with_more};
use sowing::demand::{Demand, Sold};
use sowing::need::{Flowers, KindHeld, Plots, Subject, Wished, Worths, ways};
use sowing::selling::{Days, SellingYears};

const VARIETIES: i32 = 1_000;
const GROUND: Ground = Ground { plots: 400, plants: Some(2_300), apart: 12 };

fn main() {
    divan::main();
}

fn days(first: Date, last: Date) -> Days {
    Days { first, last }
}

/// Packets by month over five selling years, few of most varieties and many of some.
fn sold() -> Vec<Sold> {
    let own = |variety: i32| {
        let rate = 2 + (variety * variety * 7 + variety * 13) % 29 + 60 / (1 + variety % 40);
        let year = |year: i16| {
            let of = move |(month, part): (i8, i32)| {
                let noise = (variety * 31 + i32::from(year) * 17 + i32::from(month) * 5) % 7;
                (
                    date(if month < 7 { year + 1 } else { year }, month, 12),
                    (rate * part / 10) * (4 + noise) / 7,
                )
            };
            [(11, 1), (12, 2), (1, 4), (2, 3), (3, 2)].map(of)
        };
        (2026..2031).flat_map(year).filter(|(_, packets)| 0 < *packets).collect()
    };
    (0..VARIETIES).map(own).collect()
}

fn demand() -> Demand {
    Demand::of(SellingYears::FROM_JULY, &sold(), days(date(2026, 7, 1), date(2031, 6, 30))).unwrap()
}

fn subject(demand: &Demand, variety: i32) -> Subject {
    let place = usize::try_from(variety).unwrap();
    let packets = u32::try_from((variety * 53) % 140).unwrap();
    Subject {
        before: demand.outlook(place, days(date(2031, 11, 20), date(2032, 10, 31)), 0.0),
        soon: demand.outlook(place, days(date(2032, 11, 1), date(2033, 10, 31)), 1.0),
        late: demand.outlook(place, days(date(2032, 11, 1), date(2035, 10, 31)), 2.0),
        packets,
        lasting: if variety % 5 == 0 { packets / 3 } else { packets },
        packets_a_plant: Some(f64::from(5 + variety % 30)),
        contested: if variety % 3 == 0 { vec![0.55 + f64::from(variety % 20) / 100.0] } else { Vec::new() },
        fruits: u64::try_from(variety % 14).unwrap(),
        seasons: u64::try_from(variety % 4).unwrap(),
        wished: if variety % 97 == 0 { Wished::Yes } else { Wished::No },
        kind: if variety % 41 == 0 { KindHeld::Alone } else { KindHeld::WithOthers },
        flowers: if variety % 23 == 0 { Flowers::Open } else { Flowers::Closed },
    }
}

fn candidates(demand: &Demand) -> Vec<Candidate> {
    let plots = Plots { plants: 6, fewest_parents: 10, most: 4 };
    let own = |variety| Candidate {
        ways: ways(&subject(demand, variety), &Worths::USUAL, &plots),
        must: Must::IfWorthIt,
    };
    (0..VARIETIES).map(own).collect()
}

/// From sales to what each number of plots is worth.
#[divan::bench(sample_count = 3)]
fn a_thousand_varieties_weighed(bench: divan::Bencher<'_, '_>) {
    bench.bench_local(|| candidates(&demand()).len());
}

/// The choice, and again with a bed of 24 plots more; each must be proven within 1 in 100 of the best.
#[divan::bench(sample_count = 3)]
fn a_thousand_varieties_chosen(bench: divan::Bencher<'_, '_>) {
    let candidates = candidates(&demand());
    bench.bench_local(|| {
        let chosen = choose(&candidates, GROUND).unwrap();
        let more = with_more(&candidates, GROUND, 24).unwrap();
        assert!(0.99 * chosen.bound <= chosen.worth && 0.99 * more.chosen.bound <= more.worth);
        (chosen.worth, more.worth)
    });
}
