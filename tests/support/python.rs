//! Comparisons with general-purpose Python libraries: run with `python3`, or the interpreter named in
//! `GLANDRAIL_PYTHON`. Where Python or a library is absent such a test says so and passes, unless
//! `GLANDRAIL_REQUIRE_PYTHON=1`.

use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

/// The interpreter.
pub fn python() -> Command {
    Command::new(std::env::var("GLANDRAIL_PYTHON").unwrap_or_else(|_| "python3".into()))
}

/// What a script of the tests, by its path in the project, answers to this input. It must read all of it before it
/// answers at length.
#[allow(dead_code)] // Not every group of tests has a script that reads.
pub fn answered(script: &str, input: &str) -> String {
    let mut child = python()
        .arg(Path::new(env!("CARGO_MANIFEST_DIR")).join(script))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("python was there a moment ago");
    let mut to_script = child.stdin.take().expect("piped");
    to_script
        .write_all(input.as_bytes())
        .expect("the script reads");
    drop(to_script);
    let output = child.wait_with_output().expect("the script ends");
    assert!(output.status.success(), "{script} failed");
    String::from_utf8(output.stdout).expect("plain text")
}

/// Whether everything named in an import statement is there; says why not. Fails where it is required.
pub fn has(import: &str) -> bool {
    let reason = match python().args(["-c", import]).output() {
        Err(error) => format!("Python cannot be run: {error}"),
        Ok(output) if !output.status.success() => format!("Python cannot `{import}`"),
        Ok(_) => return true,
    };
    assert!(
        std::env::var("GLANDRAIL_REQUIRE_PYTHON").as_deref() != Ok("1"),
        "required, but {reason}"
    );
    println!("skipped: {reason}");
    false
}
