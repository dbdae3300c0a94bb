"""pH after dosing by PHREEQC, an independent geochemical solver: writes fixtures/published/ph_oracle.csv.

    pip install phreeqpython
    python tests/oracle/ph_oracle.py [--check]

PHREEQC knows no hypochlorite, so the pair HOCl / OCl- is added to its database as an element of its own ("Hyp"), with the
dissociation constant of Morris 1966. Everything else is PHREEQC's: its own activity model (ion-size parameters for the
carbonate species, Davies for the rest), ion pairs, its own Newton solver on all mass balances. Shared with the program under
test are only the published constants of carbonic acid, water and HOCl.

Each of 72 waters (alkalinity 5 to 500 mg/L as CaCO3, pH 5.5 to 9, 2 to 30 C, dose 10 to 1000 mg/L, from a Halton sequence
so that no one chose them) is dosed with both chemicals: liquid hypochlorite with its equimolar salt and 0.05 mol hydroxide
per mol chlorine, and granules with 0.09 mol. Columns: without calcium in the water, with hardness of 70 % of the
alkalinity, and the same after calcite has fallen out to saturation. `--check` compares with the committed table.
"""

import pathlib

import phreeqpython

from phreeqc_table import write_or_check

HERE = pathlib.Path(__file__).resolve().parent
TABLE = HERE.parent.parent / "fixtures" / "published" / "ph_oracle.csv"
CHLORINE = 70.906  # g/mol
HYPOCHLORITE = """
SOLUTION_MASTER_SPECIES
Hyp Hyp- 0 Hyp 51.452
SOLUTION_SPECIES
Hyp- = Hyp-
  log_k 0
Hyp- + H+ = HHyp
  -analytic -10.0686 0.0253 3000
END
"""
COLUMNS = ["id", "chemical", "ph", "alkalinity_mg_per_l", "temperature_c", "dose_mg_per_l", "hydroxide_per_chlorine",
           "ph_after", "hocl_share", "ph_after_with_calcium", "calcite_index_with_calcium", "ph_after_settled"]


def halton(index, base):
    """The index-th point of the Halton sequence between 0 and 1."""
    result, fraction = 0.0, 1.0
    while index:
        fraction /= base
        result += fraction * (index % base)
        index //= base
    return result


def waters(count):
    """Rounded so that the table states exactly what was computed."""
    for n in range(1, count + 1):
        yield {
            "id": f"W{n:02d}",
            "ph": round(5.5 + 3.5 * halton(n, 2), 2),
            "alkalinity_mg_per_l": float(f"{5.0 * 100.0 ** halton(n, 3):.3g}"),
            "temperature_c": round(2.0 + 28.0 * halton(n, 5), 1),
            "dose_mg_per_l": float(f"{10.0 * 100.0 ** halton(n, 7):.3g}"),
        }


def reaction(chemical, molarity, hydroxide):
    if chemical == "sodium_hypochlorite":
        salts = {"NaHyp": 1.0, "NaCl": 1.0, "NaOH": hydroxide}
    else:
        salts = {"CaHyp2": 0.5, "Ca(OH)2": 0.5 * hydroxide}
    lines = "\n".join(f"  {salt} {amount:.9g}" for salt, amount in salts.items())
    return f"REACTION 1\n{lines}\n  {molarity:.9g} moles in 1 step\n"


def solve(engine, water, chemical, hydroxide, calcium_share, settle):
    """pH, share of HOCl, saturation index of calcite."""
    # 1 kg of water stands for 1 L; alkalinity in eq as CaCO3 equivalents of 50.043 mg.
    alkalinity = water["alkalinity_mg_per_l"] / 50.043
    calcium = f"  Ca {0.5 * calcium_share * alkalinity:.9g}\n" if calcium_share else ""
    settled = "EQUILIBRIUM_PHASES 1\n  Calcite 0 0\n" if settle else ""
    engine.ip.run_string(
        "DELETE\n -all\nEND\n"
        f"SOLUTION 1\n  units mmol/kgw\n  temp {water['temperature_c']}\n  pH {water['ph']}\n"
        f"  Alkalinity {alkalinity:.9g}\n{calcium}  Na 1 charge\n"
        "SELECTED_OUTPUT 1\n  -reset false\n  -high_precision true\n"
        "USER_PUNCH 1\n -headings ph acid base si\n -start\n"
        '10 PUNCH -LA("H+"), MOL("HHyp"), MOL("Hyp-"), SI("Calcite")\n -end\n'
        + reaction(chemical, water["dose_mg_per_l"] / 1000.0 / CHLORINE, hydroxide) + settled + "END\n")
    ph, acid, base, index = engine.ip.get_selected_output_array()[-1]
    return ph, acid / (acid + base), index


def engine_with_hypochlorite():
    engine = phreeqpython.PhreeqPython(database="phreeqc.dat")
    engine.ip.run_string(HYPOCHLORITE)
    return engine


def rows():
    engine = engine_with_hypochlorite()
    for water in waters(72):
        for chemical, hydroxide in (("sodium_hypochlorite", 0.05), ("calcium_hypochlorite", 0.09)):
            ph, share, _ = solve(engine, water, chemical, hydroxide, 0.0, False)
            with_calcium, _, index = solve(engine, water, chemical, hydroxide, 0.7, False)
            settled, _, _ = solve(engine, water, chemical, hydroxide, 0.7, True)
            yield {**water, "chemical": chemical, "hydroxide_per_chlorine": hydroxide,
                   "ph_after": f"{ph:.4f}", "hocl_share": f"{share:.5f}", "ph_after_with_calcium": f"{with_calcium:.4f}",
                   "calcite_index_with_calcium": f"{index:.3f}", "ph_after_settled": f"{settled:.4f}"}


if __name__ == "__main__":
    write_or_check(TABLE, COLUMNS, COLUMNS[7:], rows())
