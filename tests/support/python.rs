//! Comparisons with general-purpose Python libraries: run with `python3`, or the interpreter named in
//! `GLANDRAIL_PYTHON`. Where Python or a library is absent such a test says so and passes, unless
//! `GLANDRAIL_REQUIRE_PYTHON=1`.

use std::process::Command;

/// The interpreter.
pub fn python() -> Command {
    Command::new(std::env::var("GLANDRAIL_PYTHON").unwrap_or_else(|_| "python3".into()))
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
