//! The tests of one lot, each judged, and set beside the one before it.

use crate::dates::Month;
use crate::germination::compare::{Comparison, Sample, compare};
use crate::germination::counted::{Shortfall, shortfalls};
use crate::germination::judge::{Standing, Verdict, judge};
use record::germination::GerminationTest;
use record::lot::LotNote;
use record::share::WholePercent;

/// A test with all that follows from it.
#[derive(Clone, Debug, PartialEq)]
pub struct TestJudged {
    /// The test.
    pub test: GerminationTest,
    /// What it says of the minimum.
    pub verdict: Verdict,
    /// In what it falls short of the test that the law describes.
    pub shortfalls: Vec<Shortfall>,
    /// It beside the test before it.
    pub beside_last: Option<Comparison>,
}

impl TestJudged {
    /// Whether its replicates lie too far apart for their mean to say anything of the lot.
    #[must_use]
    pub fn says_nothing(&self) -> bool {
        self.verdict.standing == Standing::TestAgain
    }

    /// The month by which its age is counted: that of the final count.
    #[must_use]
    pub fn month(&self) -> Month {
        Month::of(self.test.counted_on)
    }
}

/// Judges every test among notes, the one counted first first.
#[must_use]
pub fn judged(notes: &[LotNote], minimum: WholePercent) -> Vec<TestJudged> {
    let mut tests: Vec<&GerminationTest> = notes
        .iter()
        .filter_map(|note| match note {
            LotNote::Germination(test) => Some(test),
            _ => None,
        })
        .collect();
    tests.sort_by_key(|test| test.counted_on);
    let mut all: Vec<TestJudged> = Vec::with_capacity(tests.len());
    for test in tests {
        let Some(verdict) = judge(&test.replicates, minimum) else { continue };
        let last = all.last().map(|last| last.verdict.counted);
        let beside_last = last.map(|last| compare(last, verdict.counted, Sample::Pure));
        all.push(TestJudged { test: test.clone(), verdict, shortfalls: shortfalls(test), beside_last });
    }
    all
}
