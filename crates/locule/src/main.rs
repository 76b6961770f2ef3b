//! locule: the command line. Thin: it turns what was typed into use cases of the house, and their
//! answers into words or JSON. Exit code 0 is done, 2 is bad input, 1 is our bug.

mod answer;
mod arguments;
mod bars;
mod columns;
mod commands;

use answer::{Ending, Form, harmless};
use arguments::Arguments;
use clap::Parser;
use commands::Failure;
use house::fault::Mender;
use std::io::{self, ErrorKind, Write};
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    let form = if arguments.json { Form::Json } else { Form::Words };
    match commands::run(arguments, form) {
        Ok(Ending::Done) => ExitCode::SUCCESS,
        Ok(Ending::BadInput) => ExitCode::from(2),
        Err(failure) => fail(&failure),
    }
}

fn fail(failure: &Failure) -> ExitCode {
    let (code, message, help) = match failure {
        // Whoever reads our output has seen enough, such as `locule list | head`.
        Failure::Output(error) if error.kind() == ErrorKind::BrokenPipe => return ExitCode::SUCCESS,
        Failure::Output(error) => (2, format!("cannot write the answer: {error}"), None),
        Failure::Typed { message, help } => (2, message.clone(), Some(help.clone())),
        Failure::House(fault) => {
            let code = if fault.mender() == Mender::Us { 1 } else { 2 };
            (code, fault.to_string(), fault.help())
        }
    };
    let mut to = io::stderr().lock();
    // There is nowhere left to say that standard error is closed.
    let _ = writeln!(to, "{}", harmless(&message));
    if let Some(help) = help {
        let _ = writeln!(to, "  help: {}", harmless(&help));
    }
    ExitCode::from(code)
}
