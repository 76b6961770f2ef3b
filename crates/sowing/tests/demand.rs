//! Selling years, their profile, levels against R's `glm`, and what varieties are expected to sell.

use jiff::civil::{Date, date};
use sowing::demand::{Demand, NoDemand, Sold};
use sowing::selling::{Days, Profile, SellingYears};

const YEARS: SellingYears = SellingYears::FROM_JULY;

fn covered(first: Date, last: Date) -> Days {
    Days { first, last }
}

#[test]
fn a_selling_year_begins_in_summer() {
    let ends = |year| (YEARS.first_day(year).unwrap(), YEARS.last_day(year).unwrap());
    assert_eq!(ends(2030), (date(2030, 7, 1), date(2031, 6, 30)));
    assert_eq!(YEARS.year_of(date(2031, 6, 30)), 2030);
    assert_eq!(YEARS.year_of(date(2031, 7, 1)), 2031);
    assert_eq!(SellingYears::beginning_in(13), None);
    let calendar = SellingYears::beginning_in(1).unwrap();
    assert_eq!(calendar.last_day(2031).unwrap(), date(2031, 12, 31));
}

#[test]
fn a_year_falls_on_its_months() {
    let sold = [(date(2030, 12, 5), 29), (date(2031, 1, 10), 64), (date(2031, 2, 1), 1)];
    let profile = Profile::of(YEARS, &sold, covered(date(2030, 7, 1), date(2031, 6, 30)), 1.0);
    assert_eq!(profile.rests_on, [2030]);
    let months: Vec<i8> = profile.months.iter().map(|part| part.month).collect();
    assert_eq!(months, [7, 8, 9, 10, 11, 12, 1, 2, 3, 4, 5, 6]);
    // Half a packet beforehand in each month: 64.5 of 100.
    assert!((profile.months[6].share - 0.645).abs() < 1e-12);
    assert!((profile.part(covered(date(2040, 1, 1), date(2040, 1, 31))) - 0.645).abs() < 1e-12);
    // 15 of the 30 days of June, and two whole years.
    assert!((profile.part(covered(date(2040, 6, 1), date(2040, 6, 15))) - 0.0025).abs() < 1e-12);
    assert!((profile.part(covered(date(2040, 7, 1), date(2042, 6, 30))) - 2.0).abs() < 1e-12);
    let (low, high) = profile.months[6].between;
    assert!(low.get() < 0.64 && 0.64 < high.get());
    // Packets that are sold together tell less of a month than as many alone.
    let together = Profile::of(YEARS, &sold, covered(date(2030, 7, 1), date(2031, 6, 30)), 8.0);
    assert!(together.months[6].between.0 < low && high < together.months[6].between.1);
}

#[test]
fn without_a_whole_year_months_are_alike() {
    let profile =
        Profile::of(YEARS, &[(date(2031, 1, 4), 80)], covered(date(2031, 1, 1), date(2031, 3, 1)), 1.0);
    assert!(profile.rests_on.is_empty());
    assert!(profile.months.iter().all(|part| (part.share - 1.0 / 12.0).abs() < 1e-12));
}

/// Packets of six varieties in three selling years, all in January, each year's `part` being 1.
fn sold() -> Vec<Sold> {
    let packets = [[12, 15, 3], [80, 61, 30], [5, 9, 0], [33, 50, 14], [0, 22, 11], [140, 101, 77]];
    let own = |years: [i32; 3]| {
        let each = years.into_iter().zip([2029, 2030, 2031]).filter(|(packets, _)| 0 < *packets);
        each.map(|(packets, year)| (date(year, 1, 15), packets)).collect()
    };
    packets.into_iter().map(own).collect()
}

/// R 4.2.2: `glm(y ~ v + s + offset(log(part)), family = poisson)` of these packets, the fifth variety without its first
/// year, the third year's part 0.4; levels beside the second year.
#[test]
fn levels_are_those_of_r() {
    // In January nine parts of ten are sold, so that the days until the 12th of the third year's make 0.4 of it.
    let calendar = SellingYears::beginning_in(1).unwrap();
    let demand = Demand::of(calendar, &sold(), covered(date(2029, 1, 1), date(2031, 12, 31))).unwrap();
    let levels: Vec<f64> = demand.levels.iter().map(|level| level.level).collect();
    // All three are whole here, so the third year's level is 0.4 times that of R, beside itself.
    let r = [1.142_441_860_47, 1.0, 0.4 * 1.308_139_534_88];
    for (ours, theirs) in levels.iter().zip(r.map(|level| level / r[2])) {
        assert!((ours - theirs).abs() < 1e-6, "{ours} is not {theirs}");
    }
    assert_eq!(demand.levels.iter().map(|level| level.packets).collect::<Vec<_>>(), [270, 258, 135]);
}

#[test]
fn what_sold_well_is_expected_to_sell_well() {
    let calendar = SellingYears::beginning_in(1).unwrap();
    let demand = Demand::of(calendar, &sold(), covered(date(2029, 1, 1), date(2031, 12, 31))).unwrap();
    let year = covered(date(2032, 1, 1), date(2032, 12, 31));
    let means: Vec<f64> = (0..6).map(|variety| demand.outlook(variety, year, 1.0).mean()).collect();
    let mut order: Vec<usize> = (0..6).collect();
    order.sort_by(|one, other| means[*one].total_cmp(&means[*other]));
    assert_eq!(order, [2, 0, 4, 3, 1, 5]);
    assert!((demand.outlook(5, year, 1.0).mean() - demand.a_year(5)).abs() < 1e-6);
    // Half of a January holds half of what the month does.
    let half = demand.outlook(5, covered(date(2032, 1, 1), date(2032, 1, 31)), 1.0).mean();
    assert!(0.9 * means[5] < half && half < means[5]);
    // A variety that nobody has sold yet is expected to sell as the family does.
    assert!((demand.a_year(99) - demand.family.mean).abs() < 1e-9);
    assert!(demand.was_sold(0) && !demand.was_sold(99));
}

#[test]
fn one_variety_makes_no_house() {
    let one = vec![vec![(date(2030, 1, 5), 12)]];
    assert_eq!(
        Demand::of(YEARS, &one, covered(date(2029, 7, 1), date(2030, 6, 30))).unwrap_err(),
        NoDemand::TooFew
    );
}
