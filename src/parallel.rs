//! Work on several threads. Knows nothing of what the work is.

use std::sync::atomic::{AtomicUsize, Ordering};

/// What `work` gives on so many threads, all together.
pub(crate) fn together<R: Send>(threads: usize, work: impl Fn() -> Vec<R> + Sync) -> Vec<R> {
    if threads <= 1 {
        return work();
    }
    std::thread::scope(|scope| {
        let others: Vec<_> = (1..threads).map(|_| scope.spawn(&work)).collect();
        let mut done = work();
        for other in others {
            match other.join() {
                Ok(more) => done.extend(more),
                // A panic of one thread is the panic of all.
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
        done
    })
}

/// What `work` makes of each of the things on all cores, in their order: the same as on one.
pub(crate) fn on_all_cores<T: Sync, R: Send>(
    things: &[T],
    work: impl Fn(&T) -> R + Sync,
) -> Vec<R> {
    let cores = std::thread::available_parallelism().map_or(1, |count| count.get());
    let next = AtomicUsize::new(0);
    let mut done = together(cores.min(things.len()), || {
        let mut done = Vec::new();
        loop {
            let index = next.fetch_add(1, Ordering::Relaxed);
            let Some(thing) = things.get(index) else {
                return done;
            };
            done.push((index, work(thing)));
        }
    });
    done.sort_by_key(|(index, _)| *index);
    done.into_iter().map(|(_, result)| result).collect()
}

#[cfg(test)]
mod tests {
    use super::{on_all_cores, together};

    #[test]
    fn results_are_in_the_order_of_the_things() {
        let things: Vec<u64> = (0..1000).collect();
        let squares: Vec<u64> = things.iter().map(|thing| thing * thing).collect();
        assert_eq!(on_all_cores(&things, |thing| thing * thing), squares);
        assert!(on_all_cores(&[] as &[u64], |thing| thing * 2).is_empty());
    }

    #[test]
    fn every_thread_adds_to_the_results() {
        for threads in [0, 1, 2, 5] {
            assert_eq!(together(threads, || vec![1]).len(), threads.max(1));
        }
    }
}
