//! Time of reading a list, from file to drafts: a clean one, the same wells with every cell messy, and a workbook beside the
//! workbook library alone. `cargo bench --bench reading`. Prints seconds and ratios; asserts nothing.

#![allow(clippy::print_stdout, clippy::unwrap_used)] // A bench is there to print, and may stop at what it did not expect.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::time::Instant;

use aftercrest::field::rules::ReadingRules;
use aftercrest::field::rules::UnitSystem;
use aftercrest::inventory::Inventory;
use calamine::{DataRef, Reader, Xlsx, open_workbook};
use mimalloc::MiMalloc;
use rust_xlsxwriter::Workbook;

// As the program does.
#[global_allocator]
static ALLOCATOR: MiMalloc = MiMalloc;

const WELLS: u32 = 400_000;
const BOOK_WELLS: u32 = 100_000;

const HEADINGS: [&str; 12] = [
    "id",
    "region",
    "type",
    "depth (ft)",
    "static level (ft)",
    "diameter (in)",
    "pump rate (gpm)",
    "yield (gpm)",
    "water temperature (F)",
    "ph",
    "iron (mg/l)",
    "flooded",
];

/// A well of the list, its cells as a careful clerk types them.
fn clean(well: u32) -> [String; 12] {
    let depth = 60 + well * 7 % 400;
    let number = |value: u32| value.to_string();
    [
        format!("W{well:08}"),
        format!("Region {}", well % 20),
        ["drilled", "dug", "driven", "bored"][well as usize % 4].to_owned(),
        number(depth),
        number(10 + well % 40),
        number([6, 36, 2, 24][well as usize % 4]),
        number(5 + well % 20),
        number(3 + well % 15),
        number(48 + well % 20),
        format!("{:.1}", 6.5 + f64::from(well % 20) / 10.0),
        format!("{:.2}", f64::from(well % 50) / 10.0),
        ["yes", "no"][well as usize % 2].to_owned(),
    ]
}

/// The same well as lists really have it: units glued on, fractions, ranges, bounds, remarks, words for nothing, other spellings.
fn messy(well: u32) -> [String; 12] {
    let [id, region, well_type, depth, level, diameter, pump, yields, temperature, ph, iron, flooded] = clean(well);
    let turn = well as usize / 4;
    let any = |forms: &[String]| forms[turn % forms.len()].clone();
    [
        format!(" {id} "),
        format!("  {region}"),
        match well_type.as_str() {
            "drilled" => "Drilled Well",
            "dug" => "HAND DUG",
            "driven" => "Driven point",
            _ => "Bored ",
        }
        .to_owned(),
        any(&[
            format!("{depth} ft"),
            format!("{depth}'6\""),
            format!("{depth} feet approx"),
            format!("{depth}-{}", depth.parse::<u32>().unwrap() + 10),
            format!("> {depth}"),
            format!("{:.1} m", f64::from(depth.parse::<u32>().unwrap()) * 0.3048),
            format!("~{depth}"),
            format!("{depth} FT."),
        ]),
        any(&[
            format!("{level} ft bgl"),
            format!("{level}' 3\""),
            format!("{level} (measured)"),
            "UNK".to_owned(),
            format!("{level} ft 6 in"),
        ]),
        any(&[
            format!("{diameter}\""),
            format!("{diameter} 1/4\""),
            format!("{diameter} in."),
            format!("{diameter}\u{bd}\""),
            format!("{diameter} inch"),
            format!("{diameter}-{}", diameter.parse::<u32>().unwrap() + 1),
        ]),
        any(&[format!("{pump} GPM"), format!("{pump} US gpm"), format!("abt {pump}"), "N/A".to_owned()]),
        any(&[format!("{yields} gpm"), format!("<{yields}"), format!("{yields}+"), "-999".to_owned()]),
        any(&[
            format!("{temperature} F"),
            format!("{temperature} deg F"),
            format!("{temperature}?"),
            "none".to_owned(),
        ]),
        any(&[format!("pH {ph}"), format!("~{ph}"), format!("{ph} (lab)"), ph.clone()]),
        any(&[format!("{iron} mg/L"), format!("<{iron}"), format!("{iron} ppm"), format!("{iron} est.")]),
        match flooded.as_str() {
            "yes" => "Y",
            _ => "FALSE",
        }
        .to_owned(),
    ]
}

fn text_list(path: &Path, cells: fn(u32) -> [String; 12]) {
    let mut text = HEADINGS.join(",") + "\n";
    for well in 0..WELLS {
        let row = cells(well)
            .map(|cell| if cell.contains('"') { format!("\"{}\"", cell.replace('"', "\"\"")) } else { cell });
        writeln!(text, "{}", row.join(",")).unwrap();
    }
    std::fs::write(path, text).unwrap();
}

fn book(path: &Path) {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet_with_constant_memory().unwrap();
    for (column, heading) in HEADINGS.iter().enumerate() {
        sheet.write_string(0, column as u16, *heading).unwrap();
    }
    for well in 0..BOOK_WELLS {
        for (column, cell) in clean(well).iter().enumerate() {
            match cell.parse::<f64>() {
                Ok(number) => sheet.write_number(well + 1, column as u16, number).unwrap(),
                Err(_) => sheet.write_string(well + 1, column as u16, cell).unwrap(),
            };
        }
    }
    book.save(path).unwrap();
}

/// Rows, and findings made, of a list read on one thread.
fn read(path: PathBuf) -> (usize, usize) {
    let rules = ReadingRules { system: Some(UnitSystem::Us), ..ReadingRules::default() };
    let mut inventory = Inventory::open(&[path], &rules).unwrap();
    let (mut rows, mut findings) = (0, 0);
    while let Some(batch) = inventory.next_batch(8192).unwrap() {
        let drafts = batch.drafts();
        rows += drafts.len();
        findings += drafts.iter().map(|draft| draft.findings.len()).sum::<usize>();
    }
    (rows, findings)
}

fn cells_alone(path: &Path) -> usize {
    let mut book: Xlsx<_> = open_workbook(path).unwrap();
    let sheet = book.sheet_names()[0].clone();
    let mut cells = book.worksheet_cells_reader(&sheet).unwrap();
    let mut filled = 0;
    while let Some(cell) = cells.next_cell().unwrap() {
        filled += usize::from(!matches!(cell.get_value(), DataRef::Empty));
    }
    filled
}

/// The least time of five runs, and what the work gave.
fn best<T>(mut work: impl FnMut() -> T) -> (f64, T) {
    let mut least = f64::INFINITY;
    let mut given = None;
    for _ in 0..5 {
        let start = Instant::now();
        given = Some(work());
        least = least.min(start.elapsed().as_secs_f64());
    }
    (least, given.unwrap())
}

fn main() {
    let folder = tempfile::tempdir().unwrap();
    let path = |name: &str| folder.path().join(name);
    // `cargo bench --bench reading -- messy` reads that list alone, for a profiler.
    if let Some(one) = std::env::args().skip(1).find(|argument| !argument.starts_with('-')) {
        text_list(&path("list.csv"), if one == "messy" { messy } else { clean });
        println!("{one} {:.3} s", best(|| read(path("list.csv"))).0);
        return;
    }
    text_list(&path("clean.csv"), clean);
    text_list(&path("messy.csv"), messy);
    book(&path("clean.xlsx"));
    let (clean_time, (rows, findings)) = best(|| read(path("clean.csv")));
    println!("clean list    {rows:>8} rows {findings:>9} findings {clean_time:7.3} s");
    let (messy_time, (rows, findings)) = best(|| read(path("messy.csv")));
    println!("messy list    {rows:>8} rows {findings:>9} findings {messy_time:7.3} s");
    println!("messy at {:.2} of the speed of clean, one thread", clean_time / messy_time);
    let (book_time, (rows, _)) = best(|| read(path("clean.xlsx")));
    let (alone_time, cells) = best(|| cells_alone(&path("clean.xlsx")));
    println!("workbook      {rows:>8} rows {book_time:25.3} s");
    println!("cells alone   {cells:>8} cells {alone_time:24.3} s");
    println!("workbook at {:.2} of the speed of the workbook library alone", alone_time / book_time);
}
