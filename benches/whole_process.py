"""Whole-process runs of the program beside the same bare arithmetic in pandas, Python polars and DuckDB.

    cargo build --release && python3 benches/whole_process.py [WELLS [ROUNDS]]

Needs rustc, and: pip install pandas pyarrow openpyxl polars duckdb xlsxwriter. Prints the best wall time and the peak memory of
each over the rounds, taken in turn in one run, and the ratio to the program. Idle machine, please; asserts nothing.

The peers compute volume, dose, product, neutralizer and flush of a clean list and write 15 columns; the program also checks every
cell, ages and measures out, and writes 45 columns (15 where they are chosen), totals, orders, a report, cards and a workbook.
"""
import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
# As many columns as the peers write, of the same kind.
COLUMNS = (
    "well_id,region,depot,product,outcome,water_column_m,standing_volume_l,treated_volume_l,dose_mg_per_l,chlorine_g,product_l,"
    "flush_volume_l,flush_rate_l_per_min,flush_h,neutralizer_kg"
)
PROGRAM = HERE.parent / "target" / "release" / "aftercrest"


def run(command):
    start = time.perf_counter()
    child = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, usage = os.wait4(child.pid, 0)
    if os.waitstatus_to_exitcode(status) not in (0, 1):
        sys.exit(f"{command} failed")
    return time.perf_counter() - start, usage.ru_maxrss / 1024, usage.ru_utime + usage.ru_stime


def main(wells=1_000_000, rounds=3):
    with tempfile.TemporaryDirectory() as folder:
        folder = Path(folder)
        subprocess.run(["rustc", "-O", HERE / "peers" / "gen_wells.rs", "-o", folder / "gen_wells"], check=True)
        wells_file = folder / "wells.csv"
        subprocess.run([folder / "gen_wells", str(wells), wells_file], check=True)
        plan = [PROGRAM, "plan", wells_file, "--scenarios", HERE / "five-products.toml", "--out", folder / "out"]
        runs = {
            "aftercrest, parquet": [*plan, "--table", "parquet"],
            "aftercrest, 15 columns": [*plan, "--table", "parquet", "--columns", COLUMNS],
            "aftercrest, csv": [*plan, "--table", "csv"],
            "aftercrest, no table": [*plan, "--table", "none"],
            "aftercrest check": [PROGRAM, "check", wells_file, "--scenarios", HERE / "five-products.toml", "--limit", "0"],
        }
        for peer in ("pandas", "polars", "duckdb"):
            runs[peer] = [sys.executable, HERE / "peers" / f"peer_{peer}.py", wells_file, folder / peer]
        best = {}
        for _ in range(rounds):
            for name, command in runs.items():
                # Into an empty folder: what an earlier run left there would be proved untouched first.
                shutil.rmtree(folder / "out", ignore_errors=True)
                measured = run([str(part) for part in command])
                best[name] = min(best.get(name, measured), measured)
        own = best["aftercrest, parquet"][0]
        print(f"{wells:,} wells x 5 products, {os.cpu_count()} cores, best of {rounds}")
        for name, (wall, memory, cpu) in best.items():
            print(f"{name:<22} {wall:7.2f} s  {memory:7.0f} MB  {cpu:6.2f} CPU s   {wall / own:5.2f} x the program")


if __name__ == "__main__":
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    main(*(int(argument) for argument in sys.argv[1:]))
