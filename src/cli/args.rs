//! What may be typed: commands, options and their help. Opens nothing and decides nothing.

use std::path::PathBuf;

use chrono::NaiveDate;
use clap::{Args, Parser, Subcommand, ValueEnum};

/// Plan shock chlorination of drinking-water wells after a flood: what is wrong with the list, what each well needs, what to
/// buy.
#[derive(Debug, Parser)]
#[command(
    name = "aftercrest",
    version,
    propagate_version = true,
    args_conflicts_with_subcommands = true,
    arg_required_else_help = true,
    after_help = "Exit codes: 0 everything is planned (or sound); 1 some rows are held back, outputs are written; 2 it could not \
                  be done.\nPlanning figures only: local code and licensed practice come first."
)]
pub struct Arguments {
    /// The command that is typed; nothing where lists or a book are given alone.
    #[command(subcommand)]
    pub command: Option<Command>,
    /// Without a command: lists, which give a campaign book beside them; or a book, which is checked and planned into a folder
    /// beside it. Nothing that is there is written over.
    pub files: Vec<PathBuf>,
}

/// What the program can be asked to do; the comment of each is its help.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Begin here: lists in, and a workbook out that says what was understood and asks for the rest.
    #[command(
        after_help = "Example:  aftercrest start north.xlsx south.csv --out book.xlsx --units us\nThen fill it in, and:  aftercrest plan book.xlsx --out campaign"
    )]
    Start(Start),
    /// Plan a campaign: lists and a scenario file in; workbook, tables, orders and findings out.
    #[command(after_help = "Try it first:  aftercrest plan --demo")]
    Plan(Plan),
    /// Say how many wells can be planned, what to answer, and what is wrong with the lists; compute nothing.
    Check(Check),
    /// Answer for one well, now, with the working shown.
    #[command(
        after_help = "Example:  aftercrest well --depth \"180 ft\" --water-level \"40 ft\" --diameter \"6 in\" --product \"bleach 6\""
    )]
    Well(Box<Well>),
    /// Print the page of a finding or an equation, or the whole chain behind one well's result.
    Explain(Explain),
    /// List the headings that lists may have, with units and help.
    Columns(Listing),
    /// Write a blank inventory workbook: headings with units, notes, lists and checks.
    #[command(after_help = "Example:  aftercrest template --out wells.xlsx --units metric")]
    Template(Template),
    /// List the built-in products: what the label means, density, packages, sources.
    Products(Listing),
    /// Print a completion script for a shell.
    Completions {
        /// The shell that is to complete what you type.
        shell: clap_complete::Shell,
    },
    /// Print the manual page.
    Man,
}

/// How a campaign reads and measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Units {
    /// Feet, inches, US gallons.
    Us,
    /// Everything that people read is in meters, millimeters and liters.
    Metric,
    /// Feet, inches, imperial gallons.
    Imperial,
}

/// How the tables are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Table {
    /// For programs: visits.parquet, treatments.parquet, scenarios.parquet
    Parquet,
    /// For spreadsheets: visits.csv, treatments.csv, scenarios.csv
    Csv,
    /// No table; the workbook holds the wells up to its limit.
    None,
}

/// In which language crews and users are told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Language {
    /// Cards and handouts in English.
    En,
    /// Cards and handouts in Spanish.
    Es,
}

/// Options of `plan`: what it reads, what is run, and which outputs are written where.
#[derive(Debug, Args)]
pub struct Plan {
    /// A campaign book; or inventory files: CSV, TSV, XLSX, ODS, Parquet and others; folders and patterns too.
    #[arg(required_unless_present = "demo", conflicts_with = "demo")]
    pub inventory: Vec<PathBuf>,
    /// Plan the bundled demo campaign (invented).
    #[arg(long)]
    pub demo: bool,
    /// The scenario file (TOML); a campaign book needs none.
    #[arg(long, value_name = "FILE", conflicts_with = "demo")]
    pub scenarios: Option<PathBuf>,
    /// The folder for the outputs; they appear in it all at once, or not at all.
    #[arg(long, value_name = "DIR", required_unless_present = "demo")]
    pub out: Option<PathBuf>,
    /// How the tables of visits, treatments and scenarios are written.
    #[arg(long, value_enum, default_value = "csv", help_heading = "Outputs")]
    pub table: Table,
    /// Columns of the treatments table, in this order, of those of the treatments, the visits and the lists; then there is no
    /// table of visits.
    #[arg(long, value_name = "COLUMN", value_delimiter = ',', num_args = 1.., help_heading = "Outputs")]
    pub columns: Vec<String>,
    /// Corrections of cells, filled in from `aftercrest check --corrections-out`; the lists stay as they are.
    #[arg(long, value_name = "FILE", help_heading = "What is run")]
    pub corrections: Option<PathBuf>,
    /// Run only these scenarios, by name or as S1, S2, …
    #[arg(long, value_name = "SCENARIO", num_args = 1.., help_heading = "What is run")]
    pub only: Vec<String>,
    /// Plan for this day (else SOURCE_DATE_EPOCH, else `date` of [inventory]); ages that count from a label's date need it.
    #[arg(long, value_name = "YYYY-MM-DD", help_heading = "What is run")]
    pub date: Option<NaiveDate>,
    /// Threads to use; all cores without it. The outputs are the same on any number.
    #[arg(long, value_name = "N", help_heading = "What is run", value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
    /// Language of the crew's cards and of the notices.
    #[arg(long, value_enum, default_value = "en", help_heading = "Outputs")]
    pub language: Language,
    /// Replace files of the folder that no earlier run wrote, or that were edited since.
    #[arg(long, help_heading = "Outputs")]
    pub replace: bool,
    /// Write findings and totals to standard output as JSON Lines.
    #[arg(long, help_heading = "Outputs")]
    pub json: bool,
}

/// Options of `start`: the lists, and the book that is made of them or brought up to date.
#[derive(Debug, Args)]
pub struct Start {
    /// Lists: CSV, TSV, XLSX, ODS, Parquet and others; with --update, the book.
    pub inventory: Vec<PathBuf>,
    /// The book to write (.xlsx), or with --from a scenario file (.toml); a file that is there already is not written over.
    #[arg(long, value_name = "FILE", conflicts_with = "update")]
    pub out: Option<PathBuf>,
    /// Read the lists of a book again: what is new is added, every answer stays.
    #[arg(long)]
    pub update: bool,
    /// Take what is stated from this scenario file or book.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["update", "units"])]
    pub from: Option<PathBuf>,
    /// How the campaign measures; it can be said in the book as well.
    #[arg(long, value_enum)]
    pub units: Option<Units>,
}

/// Options of `check`: the lists, how they are read, and how much is said of them.
#[derive(Debug, Args)]
pub struct Check {
    /// A campaign book; or inventory files: CSV, TSV, XLSX, ODS, Parquet and others; folders and patterns too.
    #[arg(required = true)]
    pub inventory: Vec<PathBuf>,
    /// The scenario file whose [inventory] and [missing] tables say how to read the lists.
    #[arg(long, value_name = "FILE")]
    pub scenarios: Option<PathBuf>,
    /// How a number without a unit is read; counts over `units` of the scenario file.
    #[arg(long, value_enum)]
    pub units: Option<Units>,
    /// Apply corrections of cells, filled in from an earlier --corrections-out; the lists stay as they are.
    #[arg(long, value_name = "FILE")]
    pub corrections: Option<PathBuf>,
    /// Write what is wrong as a workbook to be filled in with right values and given back with --corrections.
    #[arg(long, value_name = "FILE.xlsx")]
    pub corrections_out: Option<PathBuf>,
    /// Print every finding, cell by cell, what each column was read as, and what the data are worth.
    #[arg(long)]
    pub all: bool,
    /// How many findings --all prints (else 1000); the rest is counted. Asks for --all.
    #[arg(long, value_name = "N")]
    pub limit: Option<u64>,
    /// Write findings, and what the data are worth, as JSON Lines.
    #[arg(long)]
    pub json: bool,
}

/// Options of `well`. Quantities carry their unit: "180 ft", "12 ft 6 in".
#[derive(Debug, Args)]
pub struct Well {
    /// Depth from the ground to the bottom. Sizes are written as in a list: "31' 4\"", "about 40 ft", "12 ft below rim".
    #[arg(long, value_name = "LENGTH", help_heading = "The well", allow_hyphen_values = true)]
    pub depth: Option<String>,
    /// Depth from the ground to the water; "flowing" where it runs over.
    #[arg(long, value_name = "LENGTH", help_heading = "The well", allow_hyphen_values = true)]
    pub water_level: Option<String>,
    /// Height of the standing water, instead of depth and water level.
    #[arg(long, value_name = "LENGTH", help_heading = "The well", conflicts_with_all = ["depth", "water_level"])]
    pub water_column: Option<String>,
    /// Inside diameter; also "6 5/8 OD x .188 wall", "4 x 6 ft", "10 in to 38 ft, 8 in below".
    #[arg(long, value_name = "LENGTH", help_heading = "The well")]
    pub diameter: Option<String>,
    /// Depth to which the casing reaches.
    #[arg(long, value_name = "LENGTH", help_heading = "The well")]
    pub casing_depth: Option<String>,
    /// Diameter of the open hole below the casing.
    #[arg(long, value_name = "LENGTH", help_heading = "The well")]
    pub open_hole_diameter: Option<String>,
    /// A stretch of one diameter, instead of --diameter, from the top down; may be repeated: "0-80 ft 6 in".
    #[arg(long = "interval", value_name = "FROM-TO DIAMETER", help_heading = "The well", conflicts_with_all = ["diameter", "casing_depth", "open_hole_diameter"])]
    pub intervals: Vec<String>,
    /// How far the top of the casing stands above the ground, where the level is counted from there.
    #[arg(long, value_name = "LENGTH", help_heading = "The well")]
    pub stick_up: Option<String>,
    /// Take a missing water level as at the ground, the most water there can be (or as [missing] of the scenario file says).
    #[arg(long, help_heading = "The well")]
    pub assume: bool,
    /// Volume of standing water, instead of all of these.
    #[arg(long, value_name = "VOLUME", help_heading = "The well", conflicts_with_all = ["depth", "water_level", "water_column", "diameter", "intervals", "assume"])]
    pub volume: Option<String>,
    /// drilled, driven, bored, dug or spring_box; or a word for one, as in a list: "hand dug".
    #[arg(long = "type", value_name = "TYPE", default_value = "drilled", help_heading = "The well")]
    pub well_type: String,
    /// Pipes, pressure tank and heater treated with it.
    #[arg(long, value_name = "VOLUME", help_heading = "The well")]
    pub plumbing: Option<String>,
    /// Rate at which it can be pumped.
    #[arg(long, value_name = "FLOW", help_heading = "The well")]
    pub pump_rate: Option<String>,
    /// What the well gives.
    #[arg(long = "yield", value_name = "FLOW", help_heading = "The well")]
    pub well_yield: Option<String>,
    /// What the casing is made of.
    #[arg(long, value_name = "TEXT", help_heading = "The well")]
    pub casing: Option<String>,
    /// Where the flushed water can go: land, storm_drain, stream, sanitary_sewer, septic or hauled; or a word for one: "ditch".
    #[arg(long, value_name = "ROUTE", help_heading = "The well")]
    pub route: Option<String>,
    /// Sea water got in: the well is not pumped empty.
    #[arg(long, help_heading = "The well")]
    pub seawater: bool,
    /// What else is known of it, as a remark in a list: "smells of diesel", "dog".
    #[arg(long, value_name = "TEXT", help_heading = "The well")]
    pub notes: Option<String>,
    /// pH of the water.
    #[arg(long, value_name = "PH", help_heading = "The water")]
    pub ph: Option<String>,
    /// Alkalinity, mg/L as CaCO3.
    #[arg(long, value_name = "MG/L", help_heading = "The water")]
    pub alkalinity: Option<String>,
    /// Temperature of the water.
    #[arg(long, value_name = "TEMPERATURE", help_heading = "The water")]
    pub temperature: Option<String>,
    /// Dissolved iron, mg/L as Fe; it uses up chlorine.
    #[arg(long, value_name = "MG/L", help_heading = "The water")]
    pub iron: Option<String>,
    /// Dissolved manganese, mg/L as Mn; it uses up chlorine.
    #[arg(long, value_name = "MG/L", help_heading = "The water")]
    pub manganese: Option<String>,
    /// Hydrogen sulfide, mg/L as H2S; it uses up chlorine.
    #[arg(long, value_name = "MG/L", help_heading = "The water")]
    pub sulfide: Option<String>,
    /// Ammonia, mg/L as N.
    #[arg(long, value_name = "MG/L", help_heading = "The water")]
    pub ammonia: Option<String>,
    /// The product: a built-in one (see `aftercrest products`), or one of the scenario file.
    #[arg(long, value_name = "NAME", help_heading = "The product")]
    pub product: Option<String>,
    /// Strength of a product that is not listed, in percent; needs --basis.
    #[arg(long, value_name = "PERCENT", help_heading = "The product", requires = "basis", conflicts_with = "product")]
    pub strength: Option<f64>,
    /// What the percent counts: trade, weight_naocl, weight_available_chlorine, grams_per_liter; or dry, for granules.
    #[arg(long, value_name = "BASIS", help_heading = "The product", requires = "strength")]
    pub basis: Option<String>,
    /// How old the product is, in days; needs --storage.
    #[arg(long, value_name = "DAYS", help_heading = "The product", requires = "storage")]
    pub age_days: Option<f64>,
    /// At what temperature it was stored.
    #[arg(long, value_name = "TEMPERATURE", help_heading = "The product")]
    pub storage: Option<String>,
    /// The day of use (else SOURCE_DATE_EPOCH, else `date` of [inventory]), for a product whose age counts from a date.
    #[arg(long, value_name = "YYYY-MM-DD", help_heading = "The product")]
    pub date: Option<NaiveDate>,
    /// Free chlorine wanted, mg/L.
    #[arg(long, value_name = "MG/L", help_heading = "The practice")]
    pub target: Option<f64>,
    /// Contact time: how long the chlorine stays in the well, hours.
    #[arg(long, value_name = "HOURS", help_heading = "The practice")]
    pub hold: Option<f64>,
    /// What is done at a spring that flows: isolated (overflow closed, supply off) or feed (chlorine fed through the contact time).
    #[arg(long, value_name = "CHOICE", help_heading = "The practice")]
    pub flowing_spring: Option<String>,
    /// What takes the chlorine out of the flush water, such as "sodium sulfite" or "vitamin C".
    #[arg(long, value_name = "AGENT", help_heading = "The practice")]
    pub neutralizer: Option<String>,
    /// Take practice, rules and products from this scenario file.
    #[arg(long, value_name = "FILE", help_heading = "The practice")]
    pub scenarios: Option<PathBuf>,
    /// How the answer measures and a bare gallon is read: us, metric or imperial; counts over `units` of the scenario file.
    #[arg(long, value_enum, help_heading = "The practice")]
    pub units: Option<Units>,
    /// Write the crew's card of this well, with a notice and a tag, to be printed; a file that is there is not written over.
    #[arg(long, value_name = "FILE.html")]
    pub card: Option<PathBuf>,
    /// Language of the card.
    #[arg(long, value_enum, default_value = "en", requires = "card")]
    pub language: Language,
    /// Leave the working out.
    #[arg(long)]
    pub short: bool,
    /// Write the answer as one line of JSON.
    #[arg(long)]
    pub json: bool,
}

/// Options of `explain`: what to explain, or the well with the lists and the scenario that its result came from.
#[derive(Debug, Args)]
pub struct Explain {
    /// A finding's code or name (G203), an equation (D3), `discharge` for the discharge rules; or with --well the lists.
    pub what: Vec<String>,
    /// Show the whole chain behind this well's result.
    #[arg(long, value_name = "ID", requires = "scenarios")]
    pub well: Option<String>,
    /// The visit, where the well has several.
    #[arg(long, requires = "well")]
    pub visit: Option<String>,
    /// The scenario, by name or as S1; the first without it.
    #[arg(long, value_name = "SCENARIO", requires = "well")]
    pub scenario: Option<String>,
    /// The scenario file that the well was planned with; --well needs it.
    #[arg(long, value_name = "FILE")]
    pub scenarios: Option<PathBuf>,
    /// Corrections of cells, as for `plan`.
    #[arg(long, value_name = "FILE", requires = "well")]
    pub corrections: Option<PathBuf>,
    /// Plan for this day (else SOURCE_DATE_EPOCH).
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub date: Option<NaiveDate>,
}

/// Options of `template`: where the blank list goes, and in which units it asks.
#[derive(Debug, Args)]
pub struct Template {
    /// The workbook to write; a file that is there already is not written over.
    #[arg(long, value_name = "FILE.xlsx")]
    pub out: PathBuf,
    /// The units of its columns.
    #[arg(long, value_enum, default_value = "us")]
    pub units: Units,
}

/// Options of the commands that list something.
#[derive(Debug, Args)]
pub struct Listing {
    /// Write it as JSON Lines.
    #[arg(long)]
    pub json: bool,
}
