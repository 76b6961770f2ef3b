//! So many pieces and so many scenarios, beside a look at all ways to take them.

#![expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "what a test works with may stop it")]

use proptest::prelude::*;
use statistics::kept_scenarios::{Answer, Program, Search, can_keep, too_few};

const PIECES: usize = 4;

fn search(pieces: u32, keep: usize) -> Search<'static> {
    Search { pieces, keep, work: 50_000_000, is_stopped: &|| false }
}

/// Needs with quarters for what a piece adds, in two groups, of three kinds.
fn program() -> impl Strategy<Value = Program> {
    let need = prop::collection::vec(0u8..=4, PIECES).prop_map(|quarters| {
        let all = quarters.into_iter().enumerate().filter(|(_, part)| 0 < *part);
        all.map(|(piece, part)| (piece, f64::from(part) / 4.0)).collect()
    });
    let scenarios = prop::collection::vec(prop::collection::vec(need, 1..4), 1..9);
    (scenarios, 1usize..=3, 0u8..8, 1u32..=5).prop_map(|(scenarios, most_kinds, room, most)| Program {
        most: vec![most, 5, 5, 5],
        groups: vec![0, 0, 1, 1],
        kinds: vec![0, 1, 2, 0],
        most_kinds,
        rules: vec![
            (vec![(0, 1.0), (2, 1.5)], f64::NEG_INFINITY, f64::from(room)),
            (vec![(3, 1.0)], 0.0, 4.0),
        ],
        scenarios,
    })
}

/// How many scenarios some pieces keep; none where they keep no rule.
fn kept(program: &Program, pieces: &[u32]) -> Option<usize> {
    let sum = |terms: &[(usize, f64)]| {
        terms.iter().map(|(piece, adds)| adds * f64::from(pieces[*piece])).sum::<f64>()
    };
    let mut kinds: Vec<usize> =
        program.kinds.iter().zip(pieces).filter(|(_, own)| 0 < **own).map(|(kind, _)| *kind).collect();
    kinds.sort_unstable();
    kinds.dedup();
    let rules = program.rules.iter().all(|(terms, least, most)| *least <= sum(terms) && sum(terms) <= *most);
    let bounds = pieces.iter().zip(&program.most).all(|(own, most)| own <= most);
    let scenarios = program.scenarios.iter().filter(|needs| needs.iter().all(|need| 1.0 - 1e-9 <= sum(need)));
    (rules && bounds && kinds.len() <= program.most_kinds).then(|| scenarios.count())
}

/// The most scenarios that so many pieces keep.
fn most_kept(program: &Program, pieces: u32) -> usize {
    let to = |left: u32| 0..=left;
    let all = to(pieces).flat_map(|a| to(pieces - a).map(move |b| (a, b)));
    let all = all.flat_map(|(a, b)| to(pieces - a - b).map(move |c| (a, b, c)));
    let all = all.flat_map(|(a, b, c)| to(pieces - a - b - c).map(move |d| [a, b, c, d]));
    all.filter_map(|pieces| kept(program, &pieces)).max().unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn answers_agree_with_a_look_at_all(program in program(), pieces in 1u32..8, keep in 1usize..9) {
        let most = most_kept(&program, pieces);
        match can_keep(&program, &search(pieces, keep)) {
            Answer::No => prop_assert!(most < keep, "{} are kept", most),
            Answer::Kept(found) => {
                prop_assert!(found.iter().sum::<u32>() <= pieces, "{:?}", found);
                prop_assert!(keep <= kept(&program, &found).unwrap_or(0), "{:?}", found);
            }
            Answer::Unsettled => prop_assert!(false, "a small one is soon settled"),
        }
        let few = too_few(&program, &search(pieces, keep));
        prop_assert!(most_kept(&program, few) < keep, "{} do", few);
    }

    /// Nothing that stops early claims anything.
    #[test]
    fn a_stopped_search_claims_nothing(program in program(), pieces in 1u32..8, keep in 1usize..9) {
        let most = most_kept(&program, pieces);
        let stopped = Search { is_stopped: &|| true, ..search(pieces, keep) };
        match can_keep(&program, &stopped) {
            Answer::No => prop_assert!(most < keep, "what is shut at once is shut"),
            Answer::Kept(found) => prop_assert!(keep <= kept(&program, &found).unwrap_or(0)),
            Answer::Unsettled => {}
        }
    }
}
