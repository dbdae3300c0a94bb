"""Whole-process runs of the program beside the same bare arithmetic in pandas, Python polars and DuckDB.

    cargo build --release && python3 benches/whole_process.py [WELLS ...] [--rounds N] [--page]

Needs rustc, and: pip install pandas pyarrow openpyxl polars duckdb xlsxwriter. Everything is run in turn, so many rounds, in one
go; each figure is the best of its rounds. `--page` writes what was measured to reports/measured.md. Idle machine, please;
asserts nothing.

The peers compute volume, dose, product, neutralizer and flush of a clean list and write 15 columns. They check nothing, age
nothing, measure nothing out and solve no pH; the program does all of it, and writes totals, orders, a report, cards and a
workbook besides.
"""
import argparse
import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
PROGRAM = HERE.parent / "target" / "release" / "aftercrest"
PAGE = HERE.parent / "reports" / "measured.md"
# As many columns as the peers write, of the same kind.
COLUMNS = (
    "well_id,region,depot,product,outcome,water_column_m,standing_volume_l,treated_volume_l,dose_mg_per_l,chlorine_g,product_l,"
    "flush_volume_l,flush_rate_l_per_min,flush_h,neutralizer_kg"
)
BESIDE = "Python polars script"
# The least that any program must do: what is read, and what is written.
SCAN = "import polars, sys; polars.scan_csv(sys.argv[1]).collect()"
WRITE = "import polars, sys; polars.read_parquet(sys.argv[1]).write_parquet(sys.argv[2], compression='zstd')"


class Run:
    """Wall time in s, CPU time in s, peak memory in MB."""

    def __init__(self, command):
        start = time.perf_counter()
        child = subprocess.Popen([str(part) for part in command], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        _, status, usage = os.wait4(child.pid, 0)
        if os.waitstatus_to_exitcode(status) not in (0, 1):
            sys.exit(f"{command} failed")
        self.wall = time.perf_counter() - start
        self.cpu = usage.ru_utime + usage.ru_stime
        self.memory = usage.ru_maxrss / 1024

    def best(self, other):
        return self if other is None or self.wall < other.wall else other


def in_turn(runs, rounds, out):
    """The best of each; `out` is emptied before each run, because what stands there would be proved untouched first."""
    best = {}
    for _ in range(rounds):
        for name, command in runs.items():
            shutil.rmtree(out, ignore_errors=True)
            best[name] = Run(command).best(best.get(name))
    return best


def beside_the_peers(folder, wells, rounds):
    """The program's ways of running and the peers' scripts on one list; with them the floors of reading and writing."""
    wells_file, out = folder / "wells.csv", folder / "out"
    subprocess.run([folder / "gen_wells", str(wells), wells_file], check=True)
    plan = [PROGRAM, "plan", wells_file, "--scenarios", HERE / "five-products.toml", "--out", out]
    python = sys.executable
    chosen = [*plan, "--table", "parquet", "--columns", COLUMNS]
    kept = folder / "kept.parquet"
    Run(chosen)
    shutil.copy(out / "treatments.parquet", kept)
    runs = {
        "aftercrest, every column": [*plan, "--table", "parquet"],
        "aftercrest, 15 columns": chosen,
        "aftercrest, no table": [*plan, "--table", "none"],
        "aftercrest check": [PROGRAM, "check", wells_file, "--scenarios", HERE / "five-products.toml", "--limit", "0"],
        BESIDE: [python, HERE / "peers" / "peer_polars.py", wells_file, folder / "polars"],
        "DuckDB script": [python, HERE / "peers" / "peer_duckdb.py", wells_file, folder / "duckdb"],
        "pandas script": [python, HERE / "peers" / "peer_pandas.py", wells_file, folder / "pandas"],
        "floor: the list scanned by polars": [python, "-c", SCAN, wells_file],
        "floor: the 15 columns read and written by polars": [python, "-c", WRITE, kept, folder / "again.parquet"],
    }
    if wells > 2_000_000:
        del runs["pandas script"]  # Takes more memory than a small machine has.
    return in_turn(runs, rounds, out)


def small(folder, rounds):
    """What people wait for: one well at the prompt, a county with every output; and more scenarios of the same products."""
    county, list_of, out = folder / "county.csv", folder / "wells100k.csv", folder / "out"
    subprocess.run([folder / "gen_wells", "1000", county], check=True)
    subprocess.run([folder / "gen_wells", "100000", list_of], check=True)
    five = (HERE / "five-products.toml").read_text()
    names = [line.split('"')[1] for line in five.splitlines() if line.startswith("name")]
    (folder / "fifteen.toml").write_text(five + f"\n[grid]\nproduct = {names}\ntarget_mg_per_l = [50, 100, 200]\n".replace("'", '"'))
    (folder / "six.toml").write_text(five + f"\n[grid]\nproduct = {names[:3]}\ntarget_mg_per_l = [100, 200]\n".replace("'", '"'))
    plan = lambda wells, scenarios: [PROGRAM, "plan", wells, "--scenarios", scenarios, "--out", out, "--table", "parquet"]
    runs = {
        "well, at the prompt": [
            PROGRAM, "well", "--depth", "180 ft", "--water-level", "40 ft", "--diameter", "6 in", "--product", "bleach 6",
            "--ph", "7.4", "--alkalinity", "180", "--units", "us",
        ],
        "1,000 wells in 6 scenarios, every output": plan(county, folder / "six.toml"),
        "100,000 wells in 5 scenarios": plan(list_of, HERE / "five-products.toml"),
        "100,000 wells in 15 scenarios, the same products": plan(list_of, folder / "fifteen.toml"),
    }
    return in_turn(runs, rounds, out)


def table(runs, beside=None):
    lines = ["| | wall | CPU | peak memory |" + (" wall beside Python polars |" if beside else "")]
    lines.append("|---|---|---|---|" + ("---|" if beside else ""))
    for name, run in runs.items():
        line = f"| {name} | {run.wall:.2f} s | {run.cpu:.2f} s | {run.memory:.0f} MB |"
        lines.append(line + (f" {run.wall / beside.wall:.2f} |" if beside else ""))
    return lines


def main(sizes, rounds, page):
    lines = [
        "# Measured",
        "",
        f"By `benches/whole_process.py` on {os.cpu_count()} cores, on {time.strftime('%Y-%m-%d')}; best of {rounds}, everything in turn in one "
        "run. Only the ratios say something about another machine. The lists are synthetic and clean, with pH and "
        "alkalinity; five products, 100 mg/L.",
        "",
        "The scripts write 15 columns of bare arithmetic: they check no cell, age no product, measure nothing out and solve "
        "no pH. The program solves the pH of every treatment, and makes totals, orders, a report, cards and a workbook in each "
        "of its runs.",
    ]
    with tempfile.TemporaryDirectory() as folder:
        folder = Path(folder)
        subprocess.run(["rustc", "-O", HERE / "peers" / "gen_wells.rs", "-o", folder / "gen_wells"], check=True)
        for wells in sizes:
            runs = beside_the_peers(folder, wells, rounds)
            lines += ["", f"## {wells:,} wells, five products", "", *table(runs, runs[BESIDE])]
        lines += ["", "## What people wait for", "", *table(small(folder, rounds))]
    text = "\n".join(lines) + "\n"
    print(text)
    if page:
        PAGE.write_text(text)


if __name__ == "__main__":
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    parser = argparse.ArgumentParser()
    parser.add_argument("sizes", nargs="*", type=int, default=[100_000, 1_000_000])
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--page", action="store_true")
    asked = parser.parse_args()
    main(asked.sizes, asked.rounds, asked.page)
