//! Rows of a sheet from a thread of their own, through a short queue.

use std::path::Path;
use std::path::PathBuf;
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};
use std::thread::JoinHandle;

use super::cells::Builder;
use super::{Told, WorkbookKind, each_sheet, join, quietly};
use crate::error::{Error, Result};
use crate::inventory::rows::Rows;
use crate::inventory::table::{Payload, RowSource};

struct Running {
    rows: Receiver<Told<Rows>>,
    thread: Option<JoinHandle<()>>,
}

/// A sheet on its way out: nothing is started before the first rows are wanted.
pub(super) struct SheetSource {
    path: PathBuf,
    kind: WorkbookKind,
    sheet: usize,
    /// Rows up to this one are left out.
    after: u32,
    stream: Option<Running>,
}

impl SheetSource {
    /// The rows of a sheet, by its place among the worksheets, behind the row `after`.
    pub(super) fn new(path: PathBuf, kind: WorkbookKind, sheet: usize, after: u32) -> Self {
        Self { path, kind, sheet, after, stream: None }
    }

    fn start(&self, limit: usize) -> Result<Running> {
        let (sender, rows) = sync_channel::<Told<Rows>>(2);
        let (path, kind, wanted, after) = (self.path.clone(), self.kind, self.sheet, self.after);
        let thread = std::thread::Builder::new()
            .name("workbook".to_owned())
            .spawn(move || {
                let told = quietly(|| run(&path, kind, wanted, after, limit, &sender));
                if let Err(reason) = told {
                    let _ = sender.send(Err(reason)); // Nobody listens any more: nothing to say.
                }
            })
            .map_err(|error| Error::unreadable(&self.path, error))?;
        Ok(Running { rows, thread: Some(thread) })
    }
}

fn run(
    path: &Path,
    kind: WorkbookKind,
    wanted: usize,
    after: u32,
    limit: usize,
    to: &SyncSender<Told<Rows>>,
) -> Told<()> {
    let mut at = 0;
    each_sheet(path, kind, |_, _, read| {
        if at == wanted {
            let mut builder = Builder::new(after, limit, |rows| to.send(Ok(rows)).is_ok());
            read(&mut builder)?;
            builder.finish();
        }
        at += 1;
        Ok(())
    })
}

impl RowSource for SheetSource {
    fn next(&mut self, rows: usize) -> Result<Option<Payload>> {
        if self.stream.is_none() {
            self.stream = Some(self.start(rows.clamp(1, 8192))?);
        }
        let Some(running) = &mut self.stream else { return Ok(None) };
        match running.rows.recv() {
            Ok(Ok(rows)) => Ok(Some(Payload::Rows(rows))),
            Ok(Err(reason)) => Err(Error::input(&self.path, reason)),
            Err(_) => {
                if let Some(thread) = running.thread.take() {
                    join(&self.path, thread)?;
                }
                Ok(None)
            }
        }
    }
}
