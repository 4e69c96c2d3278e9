//! Ctrl-C: the first ends the search with what is found, a second one ends the program.

use super::Failure;
use signal_hook::consts::SIGINT;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, OnceLock};

/// Exit status of a program that Ctrl-C ended, as shells know it.
const ENDED_BY_CTRL_C: i32 = 130;

/// A flag that the first Ctrl-C sets. Shown to the search, which looks at it before each exact decision.
pub(super) fn stop_on_ctrl_c() -> Result<&'static AtomicBool, Failure> {
    static STOP: OnceLock<&'static Arc<AtomicBool>> = OnceLock::new();
    // The search wants a flag that lives as long as the program, and so does the signal.
    let stop: &'static Arc<AtomicBool> =
        STOP.get_or_init(|| Box::leak(Box::new(Arc::new(AtomicBool::new(false)))));
    stop.store(false, Ordering::Relaxed);
    let refused =
        |error: std::io::Error| Failure::Fault(format!("Ctrl-C cannot be heard: {error}"));
    // In this order: a second Ctrl-C finds the flag set and ends the program.
    signal_hook::flag::register_conditional_shutdown(SIGINT, ENDED_BY_CTRL_C, Arc::clone(stop))
        .map_err(refused)?;
    signal_hook::flag::register(SIGINT, Arc::clone(stop)).map_err(refused)?;
    Ok(stop)
}
