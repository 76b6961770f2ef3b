//! Real weather files, damaged: whatever is done to them, each reader refuses them or reads what can be used.
//!
//! Files are those of the oracles folder (`LOCULE_ORACLES`, else `shared/oracles` beside the checkout) and made ones of every form.
//! `MUTATIONS` sets how often each is damaged (40 unless said); `scripts/fuzz-weather` asks for more, and fuzz target `weather` drives the
//! same readers by what of them was reached.

#![expect(clippy::indexing_slicing, reason = "places are drawn within the file")]

mod oracles;
mod readers;

use rand::RngExt;
use rand_chacha::ChaCha8Rng;
use statistics::draws::stream;

/// Files to damage, and how many bytes from their beginning: enough of each form, and few enough to be quick.
const FILES: [&str; 9] = [
    "samples/sample_USC00317202_2010_2012.dly",
    "samples/sample_USC00317202_2010_2012_by_station.csv",
    "samples/sample_raw_cdo_old_USC00317202.csv",
    "samples/sample_raw_fahrenheit_wide_USW00014839.csv",
    "daily/USC00317202_reidsville_nc.csv",
    "daily/seattle_wa_2012_2015.csv",
    "normals/normals_annualseasonal_1991-2020_USW00094765.csv",
    "normals/normals_daily_1991-2020_USW00094765_temps.csv",
    "normals/normals_monthly_1991-2020_USW00094765.csv",
];
const MOST_BYTES: usize = 70_000;

/// How often each file is damaged.
const MUTATIONS: usize = 40;

/// Pieces that are pushed into files: ends of ranges, codes for what is missing, other signs, other scripts.
const PIECES: [&str; 22] = [
    "-9999",
    "-8888",
    "99999",
    "-",
    "+",
    "",
    " ",
    "\n",
    "\r\n",
    "\r",
    ",",
    ";",
    "\t",
    "\"",
    "\u{feff}",
    "\u{1F345}",
    "\u{0}",
    "NaN",
    "inf",
    "1e309",
    "0000",
    "9999-12-31",
];

fn damaged(text: &str, draws: &mut ChaCha8Rng) -> String {
    let mut bytes = text.as_bytes().to_vec();
    for _ in 0..draws.random_range(1..6) {
        let from = draws.random_range(0..=bytes.len());
        let to = (from + draws.random_range(0..40)).min(bytes.len());
        match draws.random_range(0..6) {
            0 => drop(bytes.drain(from..to)),
            1 => {
                let piece = PIECES[draws.random_range(0..PIECES.len())].as_bytes();
                drop(bytes.splice(from..to, piece.iter().copied()));
            }
            2 => {
                let copied = bytes[from..to].to_vec();
                let at = draws.random_range(0..=bytes.len());
                drop(bytes.splice(at..at, copied));
            }
            3 => bytes.truncate(to),
            4 => {
                for byte in &mut bytes[from..to] {
                    *byte ^= 1 << draws.random_range(0..8);
                }
            }
            // A figure for a figure: dates, months and values that never were.
            _ => {
                for byte in bytes[from..to].iter_mut().filter(|byte| byte.is_ascii_digit()) {
                    *byte = b'0' + draws.random_range(0..10u8);
                }
            }
        }
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

fn often() -> usize {
    std::env::var("MUTATIONS").ok().and_then(|often| often.parse().ok()).unwrap_or(MUTATIONS)
}

/// Each reader gets each damaged file, whatever form it was of.
fn every_reader_survives(name: &str, whole: &str) {
    let end = (0..=whole.len().min(MOST_BYTES)).rev().find(|at| whole.is_char_boundary(*at)).unwrap_or(0);
    let text = &whole[..end];
    readers::read_all(text);
    let mut draws = stream(&["mutated", name]);
    for _ in 0..often() {
        readers::read_all(&damaged(text, &mut draws));
    }
}

#[test]
fn real_files_however_damaged() {
    for name in FILES {
        if let Some(text) = oracles::text(&format!("weather/{name}")) {
            every_reader_survives(name, &text);
        }
    }
}

#[test]
fn made_files_however_damaged() {
    let made = [
        "DATE,STATION,NAME,LATITUDE,LONGITUDE,ELEVATION,TMAX,TMAX_ATTRIBUTES,TMIN,TMIN_ATTRIBUTES\n\
         2031-05-20,XX000000001,\"Mill, upper\",44.5,-93.2,251,21.1,\",,7\",9.4,\",I,7\"\n",
        "USC00317202203105TMAX  211  7  194  7-9999   \nUSC00317202203105TMIN   94  7   61 I7-9999   \n",
        "Day;Low (F);High (F)\n2031-05-20;45;81\n2031-05-21;M;79\n",
    ];
    for (place, text) in made.iter().enumerate() {
        every_reader_survives(&place.to_string(), text);
    }
}

/// The quick reader of monthly lines reads what a plain one does, digit by digit.
#[test]
fn months_are_read_as_a_plain_reader_reads_them() {
    let Some(text) = oracles::text("weather/samples/sample_USC00317202_2010_2012.dly") else { return };
    let (_, days) = ripening::weather::ghcn::read(&text).unwrap();
    let mut compared = 0;
    for line in text.lines().filter(|line| ["TMAX", "TMIN"].contains(&&line[17..21])) {
        for day in 1..=31i8 {
            let start = 21 + 8 * usize::try_from(day - 1).unwrap();
            let value: i32 = line[start..start + 5].trim().parse().unwrap();
            let Ok(date) =
                jiff::civil::Date::new(line[11..15].parse().unwrap(), line[15..17].parse().unwrap(), day)
            else {
                assert_eq!(value, -9999);
                continue;
            };
            let known = value != -9999 && &line[start + 6..start + 7] == " ";
            let reading = days.reading(date);
            let read = if &line[17..21] == "TMAX" { reading.highest } else { reading.lowest };
            assert_eq!(read, known.then(|| f64::from(value) / 10.0), "{date}");
            compared += 1;
        }
    }
    assert!(2000 < compared, "{compared}");
}
