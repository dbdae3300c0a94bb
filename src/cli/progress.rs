//! Progress on standard error: a bar with rate and time left on a terminal, after the first second; nothing in a pipe.

use std::io::{self, IsTerminal};
use std::time::{Duration, Instant};

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

/// Steps of the bar; finer than a terminal can show.
const STEPS: u64 = 1000;
/// Work shorter than this shows no bar.
const PATIENCE: Duration = Duration::from_secs(1);

/// A bar that may never show.
pub struct Progress {
    bar: Option<ProgressBar>,
    since: Instant,
}

impl Progress {
    /// A bar on a terminal, nothing elsewhere.
    pub fn new() -> Self {
        let bar = io::stderr().is_terminal().then(|| {
            let bar = ProgressBar::with_draw_target(Some(STEPS), ProgressDrawTarget::hidden());
            if let Ok(style) = ProgressStyle::with_template("{bar:30} {percent:>3} %  {msg}  about {eta} left") {
                bar.set_style(style.progress_chars("=> "));
            }
            bar
        });
        Self { bar, since: Instant::now() }
    }

    /// So many rows are done, which is this share of the input.
    pub fn rows(&mut self, rows: u64, share: f64) {
        let Some(bar) = &self.bar else { return };
        let spent = self.since.elapsed();
        if spent < PATIENCE {
            return;
        }
        if bar.is_hidden() {
            bar.set_draw_target(ProgressDrawTarget::stderr());
        }
        bar.set_position((share * STEPS as f64) as u64);
        bar.set_message(format!("{rows} rows, {:.0} a second", rows as f64 / spent.as_secs_f64()));
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
    }
}
