//! What must hold of any weather file: it is read or refused, and what is read can be. The body of fuzz target `weather`.

mod readers;

use jiff::ToSpan;
use jiff::civil::date;
use proptest::prelude::*;
use ripening::picked::{Picked, Taken};

/// Rows that come close to being right.
fn row() -> impl Strategy<Value = String> {
    prop_oneof![
        "(19|20)[0-9]{2}-(0[0-9]|1[0-3])-[0-3][0-9],-?[0-9]{0,3}(\\.[0-9])?,-?[0-9]{0,3}",
        "US[CW][0-9]{8},(19|20)[0-9]{6},TM(AX|IN),-?[0-9]{1,4},,,7,",
        "US[CW][0-9]{8}(19|20)[0-9]{2}(0[0-9]|1[0-3])TM(AX|IN)( {0,4}-?[0-9]{1,4}[ A-Z]{0,3}){0,31}",
        "\"[A-Z]{3}\",\" {2}(0[0-9]|1[0-3])/[0-3][0-9]\",\" -[0-9]{4}\"",
        ".{0,40}",
    ]
}

proptest! {
    #[test]
    fn any_file_is_read_or_refused(rows in prop::collection::vec(row(), 0..12), heading in prop_oneof![
        Just("date,tmin_c,tmax_c"), Just("DATE;Low (F);High (F)"), Just("NAME,ANN-TMIN-PRBLST-T32FP10,ANN-TMIN-PRBFST-T32FP50"), Just(""),
    ]) {
        readers::read_all(&format!("{heading}\n{}", rows.join("\n")));
    }

    /// What is taken adds up, whatever order and however often a day comes, and a share's day never comes before that of a
    /// smaller one.
    #[test]
    fn picks_add_up(picks in prop::collection::vec((0i64..400, 0.0f64..1e6), 0..40)) {
        let out = date(2031, 5, 1);
        let picks = picks.into_iter().filter_map(|(day, amount)| Some(Taken { on: out.checked_add(day.days()).ok()?, amount }));
        let Some(picked) = Picked::new(out, picks.clone()) else { return Ok(()) };
        let days = |day| out.until(day).map_or(0, |span| span.get_days());
        let sum: f64 = picks.filter(|pick| (1..=300).contains(&days(pick.on))).map(|pick| pick.amount).sum();
        prop_assert!((picked.total() - sum).abs() <= 1e-9 * sum);
        let by = [0.1, 0.5, 0.9].map(|share| picked.taken_by(share));
        prop_assert!(by.is_sorted() && by.iter().all(Option::is_some));
        let read = picked.readings(|day| Some(f64::from(days(day))));
        prop_assert!(read.is_some_and(|(readings, amounts)| readings.len() == picked.taken().len() && readings.len() == amounts.len()));
    }
}
