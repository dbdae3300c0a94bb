"""A table of PHREEQC's answers: written, or with `--check` compared with the committed one."""

import csv
import sys


def write_or_check(table, columns, compared, rows):
    """Writes the rows; `--check` ends with a message where a compared column differs by more than 0.002."""
    if "--check" in sys.argv:
        with open(table, newline="", encoding="utf-8") as file:
            for old, new in zip(csv.DictReader(file), rows, strict=True):
                for column in compared:
                    if abs(float(old[column]) - float(new[column])) > 2e-3:
                        sys.exit(f"{old}: {column}: table {old[column]}, PHREEQC {new[column]}")
        print(f"{table.name} agrees with PHREEQC")
        return
    with open(table, "w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, columns, lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
    print(f"wrote {table}")
