//! A small house whose plots were picked through two seasons.

use crate::program::answer;
use jiff::ToSpan;
use jiff::civil::date;
use std::fmt::Write;
use std::fs;
use std::path::Path;

/// Two plots in each of two seasons, plants out on 1 May and picked every fifth day; and a variety that was never picked.
pub(crate) fn house(folder: &Path) {
    let mut beds = String::from("grow-out,season,garden,plot,variety,plants,transplanted\n");
    let mut picks = String::from("grow-out,plot,variety,date,weight (g),fruit count\n");
    for (year, later) in [(2024, 0), (2025, 4)] {
        for plot in ["A", "B"] {
            writeln!(beds, "{year} Home,{year},Home,{plot},Amber Post,2,{year}-05-01").unwrap();
            for (walk, fruits) in (0i64..).zip([2, 9, 24, 31, 19, 10, 5]) {
                let wait = 70 + 5 * walk + later + i64::from(plot == "B");
                let day = date(year, 5, 1).checked_add(wait.days()).unwrap();
                writeln!(picks, "{year} Home,{plot},Amber Post,{day},{},{fruits}", fruits * 100).unwrap();
            }
        }
    }
    for (name, text) in
        [("list.csv", "variety\nAmber Post\nBarn Red\n".to_owned()), ("beds.csv", beds), ("picks.csv", picks)]
    {
        fs::write(folder.join(name), text).unwrap();
    }
    answer(folder, &["new", "house", "--units", "metric"]);
    answer(folder, &["--house", "house", "take", "list.csv", "beds.csv", "picks.csv"]);
}
