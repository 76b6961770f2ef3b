//! What is said where seed is treated, sold or sent: rules of plant health and treatment, and whose advice to follow.

/// What treatments of seed can do, and whose advice to follow.
pub const TREATED: &str = "Treatments can hurt seed and people. Strong acid burns skin and eyes: leave it to those equipped for it. Hot \
    water at 50 \u{b0}C (122 \u{b0}F) is not for old, primed, pelleted or treated seed: try a small sample of each lot first, use the seed \
    within the season, and follow your extension service's sheet (Ohio State University Extension HYG-5818; University of \
    Wisconsin Extension). A treatment, hot water too, is told on the packet (7 CFR 201.31a), and its name, the paper that proves \
    it and a sample of the treated seed are kept (7 CFR 201.7a).";

/// Rules that stand beside the label's, each with where it stands.
pub const CAUTIONS: [&str; 5] = [
    "The federal rule is for seed that goes from one state to another. Each state has a seed law of its own, with permits, fees, \
     label years and ages of tests: ask your state's seed office (7 CFR part 201; Kentucky's and Mississippi's pages were read).",
    "Tomato seed that comes into the United States falls under a federal order against tomato brown rugose fruit virus, small lots \
     too, since 22 November 2019 (USDA APHIS, questions and answers, last changed 26 February 2024), and needs a certificate against \
     pospiviroids (told by trade press, unverified).",
    "In the European Union that virus is a regulated non-quarantine pest with no tolerance since 1 January 2025 (Regulation (EU) \
     2023/1032 lapsed; told by trade press, unverified).",
    "Across a border ask both countries' plant-health offices; a phytosanitary certificate is normally needed (from memory, \
     unverified). Seed-borne disease cannot be seen on a lot: nothing here says that seed is free of it.",
    "A protected variety, a patent or a licence cannot be seen from here either (from memory, unverified).",
];
