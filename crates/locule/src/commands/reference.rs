//! `locule reference`: writes docs/commands.md and docs/json/ from the program itself.

use super::{
    Failure, advise, calendar, call, compare, correct, demo, doubts, emergence, field_paper, forecast, frost,
    gaps, garden, germination, guide, hindsight, history, increase, instead, keep, layout, list, look,
    lot_kept, lots, names, new, next, orders, packets, photo, picture, plants, print, publish, quarantine,
    ripen, rogues, sales, season_sheet, settings, show, stations, take, what,
};
use crate::answer::{Answer, Ending};
use crate::arguments::Arguments;
use clap::{Command, CommandFactory};
use std::fmt::Write;
use std::fs;
use std::path::Path;

/// A JSON Schema and the name of its shape.
pub(super) type Shape = (&'static str, schemars::Schema);

/// The schema of what a command prints with `--json`: the shape's name, and the answer beside it.
pub(super) fn shape<A: Answer>() -> Shape {
    let mut answer = schemars::schema_for!(A);
    let (dialect, definitions) = (answer.remove("$schema"), answer.remove("$defs"));
    let printed = schemars::json_schema!({
        "$schema": dialect,
        "$defs": definitions.unwrap_or_else(|| serde_json::json!({})),
        "type": "object",
        "properties": { "shape": { "const": A::SHAPE }, "answer": answer },
        "required": ["shape", "answer"],
    });
    (A::SHAPE, printed)
}

/// Writes the command reference and the schemas.
///
/// # Errors
/// What the disk refuses.
pub(crate) fn run(docs: &Path) -> Result<Ending, Failure> {
    fs::create_dir_all(docs.join("json"))?;
    fs::write(docs.join("commands.md"), commands())?;
    for (name, schema) in shapes() {
        let file = docs.join("json").join(format!("{}.json", name.replace('/', "-")));
        let text = serde_json::to_string_pretty(&schema).map_err(std::io::Error::from)?;
        fs::write(file, text + "\n")?;
    }
    Ok(Ending::Done)
}

fn shapes() -> Vec<Shape> {
    [
        new::shapes(),
        take::shapes(),
        look::shapes(),
        photo::shapes(),
        quarantine::shapes(),
        names::shapes(),
        doubts::shapes(),
        correct::shapes(),
        history::shapes(),
        call::shapes(),
        show::shapes(),
        picture::shapes(),
        list::shapes(),
        what::shapes(),
        instead::shapes(),
        forecast::shapes(),
        hindsight::shapes(),
        advise::shapes(),
        calendar::shapes(),
        ripen::shapes(),
        emergence::shapes(),
        frost::shapes(),
        stations::shapes(),
        garden::shapes(),
        lots::shapes(),
        lot_kept::shapes(),
        orders::shapes(),
        rogues::shapes(),
        plants::shapes(),
        germination::shapes(),
        increase::shapes(),
        sales::shapes(),
        next::shapes(),
        gaps::shapes(),
        compare::shapes(),
        guide::shapes(),
        print::shapes(),
        field_paper::shapes(),
        packets::shapes(),
        season_sheet::shapes(),
        layout::shapes(),
        publish::shapes(),
        settings::shapes(),
        keep::shapes(),
        demo::shapes(),
    ]
    .concat()
}

fn commands() -> String {
    let mut text = String::from(INTRODUCTION);
    let mut command = Arguments::command();
    command.build();
    for sub in command.get_subcommands().filter(|sub| !sub.is_hide_set() && sub.get_name() != "help") {
        tell(&mut text, sub, "locule");
    }
    text
}

const INTRODUCTION: &str = "# Commands

This page is written by `locule reference docs`; a test keeps it true. Results go to standard output, all else to
standard error. Exit code 0 is done, 2 is bad input (the message says what to do), 1 is our bug. With `--json` every
command answers `{\"shape\": NAME/VERSION, \"answer\": ...}`; the shapes are described in [json](json).
";

fn tell(text: &mut String, command: &Command, before: &str) {
    let name = format!("{before} {}", command.get_name());
    let help = command.clone().term_width(100).render_long_help().to_string();
    // Writing to a string cannot fail.
    let _ = write!(text, "\n## {name}\n\n```text\n{}\n```\n", trimmed(&help));
    for sub in command.get_subcommands().filter(|sub| sub.get_name() != "help") {
        tell(text, sub, &name);
    }
}

fn trimmed(help: &str) -> String {
    help.trim_end().lines().map(str::trim_end).collect::<Vec<_>>().join("\n")
}
