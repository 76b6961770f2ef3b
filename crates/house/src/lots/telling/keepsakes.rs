//! What is kept of a lot for the law, in words: its file sample, and until when sample and record are kept.

use super::mass;
use jiff::civil::Date;
use record::language::rough_count;
use seedroom::account::keepsakes::{FileSample, Keepsakes};
use seedroom::dates::{RECORD_YEARS, SAMPLE_SEEDS, SAMPLE_YEARS};

/// The file sample, beside the seeds that the law asks for.
#[must_use]
pub fn sample(sample: &FileSample) -> String {
    let rule = "7 CFR 201.4";
    match sample {
        FileSample::NotKept => {
            format!("no file sample is kept, where {rule} asks for one of {SAMPLE_SEEDS} seeds")
        }
        FileSample::OfUnknownCount(held) => format!(
            "file sample of {}; weigh its seed to know whether that is the {SAMPLE_SEEDS} seeds of {rule}",
            mass(*held)
        ),
        FileSample::Counted { mass: held, seeds } => {
            // A sample is weighed out to be large enough, so that a tenth of it is as near as anybody needs to know.
            let (about, _) = rough_count(*seeds, (0.9 * seeds, 1.1 * seeds));
            let asked = match sample.is_enough() {
                Some(true) => format!("{rule} asks for {SAMPLE_SEEDS}"),
                _ => format!("fewer than the {SAMPLE_SEEDS} that {rule} asks for"),
            };
            format!("file sample of {}, about {about} seeds; {asked}", mass(*held))
        }
    }
}

/// Until when sample and record are kept.
#[must_use]
pub fn until(keepsakes: &Keepsakes, today: Date) -> String {
    let Some((gone, kept)) = keepsakes.since else {
        return format!(
            "its record is kept {RECORD_YEARS} years and its file sample {SAMPLE_YEARS} year from the day the last of it is \
             gone (7 CFR 201.4)"
        );
    };
    let may_go =
        |day: Date| if day <= today { format!("may go since {day}") } else { format!("may go from {day}") };
    let record = may_go(kept.record_may_go);
    match keepsakes.sample {
        FileSample::NotKept => format!("the last of it went on {gone}: its record {record} (7 CFR 201.4)"),
        _ => format!(
            "the last of it went on {gone}: its file sample {}, its record {record} (7 CFR 201.4)",
            may_go(kept.sample_may_go)
        ),
    }
}
