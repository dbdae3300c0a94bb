"""pH after dosing and neutralizing by PHREEQC, an independent geochemical solver: fixtures/published/neutralized_oracle.csv.

    pip install phreeqpython
    python tests/oracle/neutralized_oracle.py [--check]

The products of each reaction, written out as salts and acids, are added to the raw water: hypochlorite with its equimolar
salt and 0.05 mol hydroxide per mol chlorine, and the agent oxidized. PHREEQC knows sulfate and bisulfate with its own
constants; the program under test counts sulfate as a strong ion. Waters are soft, where acid shows.

    sulfite      OCl- + SO3--              -> Cl- + SO4--
    bisulfite    OCl- + HSO3-              -> Cl- + SO4-- + H+
    SO2          OCl- + SO2 + H2O          -> Cl- + SO4-- + 2 H+
    ascorbic     OCl- + C6H8O6             -> Cl- + C6H6O6 + H2O; what C6H6O6 turns into may be a strong acid: two rows
    thiosulfate  4 OCl- + S2O3-- + H2O     -> 4 Cl- + 2 SO4-- + 2 H+   (one for four)
                 OCl- + S2O3--             -> Cl- + SO4-- + S          (one for one)
                 and, for a ratio between, the mixture of both that takes as much
"""

import pathlib

import phreeqpython

from phreeqc_table import write_or_check

HERE = pathlib.Path(__file__).resolve().parent
TABLE = HERE.parent.parent / "fixtures" / "published" / "neutralized_oracle.csv"
CHLORINE = 70.906  # g/mol
HYDROXIDE = 0.05
COLUMNS = ["agent", "moles_per_chlorine", "ph", "alkalinity_mg_per_l", "temperature_c", "dose_mg_per_l", "ph_neutralized"]
WATERS = [(6.6, 20.0, 12.0, 100.0), (7.0, 10.0, 10.0, 50.0), (7.5, 60.0, 15.0, 200.0), (6.2, 30.0, 8.0, 100.0),
          (7.8, 120.0, 20.0, 100.0)]


def thiosulfate(moles):
    """Salts for a ratio between 1/4 and 1: shares of the two routes."""
    four = (1.0 - moles) / 0.75
    return {"Na2SO4": 0.25 * four + (1.0 - four), "H2SO4": 0.25 * four}


# Agent as the program names it, moles per mole of chlorine, what it leaves beside two of salt.
AGENTS = [
    ("sodium_sulfite", 1.0, {"Na2SO4": 1.0}),
    ("sodium_bisulfite", 1.0, {"NaHSO4": 1.0}),
    ("sulfur_dioxide", 1.0, {"H2SO4": 1.0}),
    ("ascorbic_acid", 1.0, {}),
    ("ascorbic_acid", 1.0, {"HCl": 1.0}),
    ("sodium_thiosulfate", 1.0, thiosulfate(1.0)),
    ("sodium_thiosulfate", 0.85, thiosulfate(0.85)),
    ("calcium_thiosulfate", 0.57, thiosulfate(0.57)),
    ("sodium_thiosulfate", 0.25, thiosulfate(0.25)),
]


def rows():
    engine = phreeqpython.PhreeqPython(database="phreeqc.dat")
    for ph, alkalinity, celsius, dose in WATERS:
        for agent, moles, leaves in AGENTS:
            salts = {"NaCl": 2.0, "NaOH": HYDROXIDE} | {salt: amount for salt, amount in leaves.items() if amount}
            lines = "\n".join(f"  {salt} {amount:.9g}" for salt, amount in salts.items())
            engine.ip.run_string(
                "DELETE\n -all\nEND\n"
                f"SOLUTION 1\n  units mmol/kgw\n  temp {celsius}\n  pH {ph}\n  Alkalinity {alkalinity / 50.043:.9g}\n"
                "  Na 1 charge\nSELECTED_OUTPUT 1\n  -reset false\n  -high_precision true\n"
                'USER_PUNCH 1\n -headings ph\n -start\n10 PUNCH -LA("H+")\n -end\n'
                f"REACTION 1\n{lines}\n  {dose / 1000.0 / CHLORINE:.9g} moles in 1 step\nEND\n")
            yield dict(zip(COLUMNS, [agent, moles, ph, alkalinity, celsius, dose,
                                     f"{engine.ip.get_selected_output_array()[-1][0]:.3f}"], strict=True))


if __name__ == "__main__":
    write_or_check(TABLE, COLUMNS, ["ph_neutralized"], rows())
