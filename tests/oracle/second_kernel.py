"""The kernel's chemistry a second time, in plain Python: writes fixtures/published/second_route.csv.

    python tests/oracle/second_kernel.py [--check]

Written from the published relations, not from the Rust text: every constant typed again, the charge balance solved by
bisection on pH over the species one by one instead of by Newton's method on shares, ion pairs by repeated substitution,
aging by its rate integrated in steps. The test holds the library to it within one part in ten million (pH: 1e-7), so that
a constant changed in its fourth digit on either side shows.
"""

import csv
import math
import pathlib
import sys

TABLE = pathlib.Path(__file__).resolve().parent.parent.parent / "fixtures" / "published" / "second_route.csv"
CL2, CACO3 = 70.906, 100.086


def power(x):
    return math.exp(x * math.log(10.0))


class Water:
    """Constants of Plummer and Busenberg, Morris, PHREEQC, Davies at one temperature."""

    def __init__(self, celsius):
        t = celsius + 273.15
        lg = math.log10(t)
        self.k1 = power(-(356.3094 + 0.06091964 * t - 21834.37 / t - 126.8339 * lg + 1684915 / t**2))
        self.k2 = power(-(107.8871 + 0.03252849 * t - 5151.79 / t - 38.92561 * lg + 563713.9 / t**2))
        self.kw = power(293.29227 + 0.1360833 * t - 10576.913 / t - 123.73158 * lg - 6.996455e-5 * t * t)
        self.ka = power(-(3000.0 / t - 10.0686 + 0.0253 * t))
        self.calcite = power(-171.9065 - 0.077993 * t + 2839.319 / t + 71.595 * lg)
        self.caco3 = power(-1228.732 - 0.299440 * t + 35512.75 / t + 485.818 * lg)
        self.cahco3 = power(1209.120 + 0.31294045 * t - 34765.05 / t - 478.782 * lg)
        self.naco3 = power(1.27 + 37279.4 / (8.314 * math.log(10.0)) * (1 / 298.15 - 1 / t))
        epsilon = 87.740 - 0.40008 * celsius + 9.398e-4 * celsius**2 - 1.410e-6 * celsius**3
        self.slope = 1.82e6 * (epsilon * t) ** -1.5

    def gamma(self, charge, ionic):
        root = math.sqrt(ionic)
        return power(-self.slope * charge**2 * (root / (1 + root) - 0.3 * ionic))

    def species(self, hydrogen, carbonate, calcium, sodium, ionic):
        """Alkalinity of the carbonate system (eq/L), free Ca and free CO3, for total carbonate and calcium."""
        g1, g2 = self.gamma(1, ionic), self.gamma(2, ionic)
        free_calcium = calcium
        for _ in range(500):
            co2 = 1.0
            hco3 = self.k1 * co2 / (hydrogen * g1)
            co3 = self.k2 * hco3 * g1 / (hydrogen * g2)
            nap = self.naco3 * sodium * co3 * g1 * g2 / g1
            pair1 = self.cahco3 * free_calcium * hco3 * g2 * g1 / g1
            pair2 = self.caco3 * free_calcium * co3 * g2 * g2
            scale = carbonate / (co2 + hco3 + co3 + nap + pair1 + pair2)
            bound = (pair1 + pair2) * scale
            if free_calcium <= 0:
                break
            # Free calcium from its own balance, with the carbonate just found.
            update = calcium / (1 + bound / free_calcium)
            if abs(update - free_calcium) <= 1e-15 * calcium:
                break
            free_calcium = update
        alkalinity = scale * (hco3 + pair1 + 2 * (co3 + nap + pair2))
        return alkalinity, free_calcium, co3 * scale

    def hydroxide(self, hydrogen, ionic):
        g1 = self.gamma(1, ionic)
        return self.kw / (hydrogen * g1) - hydrogen / g1

    def total_carbonate(self, ph, alkalinity, calcium, ionic):
        hydrogen = power(-ph)
        wanted = alkalinity - self.hydroxide(hydrogen, ionic)
        low, high = 0.0, 10.0
        for _ in range(200):
            middle = 0.5 * (low + high)
            if self.species(hydrogen, middle, calcium, 0.0, ionic)[0] < wanted:
                low = middle
            else:
                high = middle
        return 0.5 * (low + high)

    def solve(self, alkalinity, carbonate, chlorine, calcium, sodium, ionic):
        g1 = self.gamma(1, ionic)
        low, high = 0.0, 14.0
        for _ in range(60):
            ph = 0.5 * (low + high)
            hydrogen = power(-ph)
            carbonates, _, _ = self.species(hydrogen, carbonate, calcium, sodium, ionic)
            hypochlorite = chlorine * self.ka / (hydrogen * g1 + self.ka)
            if carbonates + hypochlorite + self.hydroxide(hydrogen, ionic) < alkalinity:
                low = ph
            else:
                high = ph
        return 0.5 * (low + high)


def dosed(water, chemical, dose, x, ph, alkalinity_mg, hardness_mg=0.0, chlorine_left=1.0, agent=None):
    """pH, HOCl share and saturation index after dosing (and neutralizing, where `agent` gives its alkalinity)."""
    raw = 2 * alkalinity_mg / 1000 / CACO3
    c = dose / 1000 / CL2
    ionic = 1.3 * raw
    calcium = hardness_mg / 1000 / CACO3
    carbonate = water.total_carbonate(ph, raw, calcium, ionic)
    alkalinity = raw + c * (1 + x)
    if chemical == "sodium_hypochlorite":
        ionic += c * (1 + x + 1)
        sodium = c * (1 + x + 1)
    else:
        ionic += 1.5 * c * (1 + x)
        sodium = 0.0
        calcium += 0.5 * c * (1 + x)
    if agent is not None:
        alkalinity += c * (agent - 1)
        chlorine_left = 0.0
    after = water.solve(alkalinity, carbonate, c * chlorine_left, calcium, sodium, ionic)
    hydrogen = power(-after)
    _, free_calcium, free_carbonate = water.species(hydrogen, carbonate, calcium, sodium, ionic)
    g1, g2 = water.gamma(1, ionic), water.gamma(2, ionic)
    share = hydrogen * g1 / (hydrogen * g1 + water.ka)
    index = math.log10(free_calcium * free_carbonate * g2 * g2 / water.calcite) if free_calcium > 0 else None
    return after, share, index


def aged(grams, salt, hydroxide, multiplier, stretches):
    c = grams / CL2
    mu = c * (1 + salt) + hydroxide
    exposure = floor = 0.0
    for days, celsius in stretches:
        t = celsius + 273.15
        k = power(0.149 * max(mu, 1.0) + math.log10(2.083e10 * t)) * math.exp(-1.018e5 / (8.314 * t)) * math.exp(-56.5 / 8.314)
        exposure += k * days * 86400
        if mu < 1 or celsius < 15:
            floor += 0.0524 * days / 365.25
    return min(1 / (1 + multiplier * c * exposure), math.exp(-floor))


def rows():
    number = 0

    def row(quantity, value, **inputs):
        nonlocal number
        number += 1
        return {"id": f"R{number:03d}", "quantity": quantity, "value": repr(value),
                "inputs": ";".join(f"{key}={value}" for key, value in inputs.items())}

    waters = [(5.6, 40.0, 3.0), (6.5, 30.0, 8.0), (7.2, 50.0, 10.0), (7.5, 150.0, 12.0), (7.3, 300.0, 18.0), (8.4, 480.0, 29.0)]
    for ph, alkalinity, celsius in waters:
        water = Water(celsius)
        for chemical, x in (("sodium_hypochlorite", 0.05), ("calcium_hypochlorite", 0.09)):
            for dose in (25.0, 100.0, 800.0):
                inputs = {"ph": ph, "alkalinity": alkalinity, "celsius": celsius, "chemical": chemical, "dose": dose}
                after, share, _ = dosed(water, chemical, dose, x, ph, alkalinity)
                yield row("ph_after", after, **inputs)
                yield row("hocl_share", share, **inputs)
                _, _, index = dosed(water, chemical, dose, x, ph, alkalinity, hardness_mg=0.6 * alkalinity)
                yield row("saturation_index", index, **inputs)
            for agent, change in (("sodium_sulfite", 0.0), ("sodium_bisulfite", -1.0), ("sulfur_dioxide", -2.0),
                                  ("sodium_ascorbate", 1.0)):
                after, _, _ = dosed(water, chemical, 50.0, x, ph, alkalinity, agent=change)
                yield row("ph_neutralized", after, ph=ph, alkalinity=alkalinity, celsius=celsius, chemical=chemical,
                          dose=50.0, agent=agent)
    for celsius in (4.0, 25.0, 55.0):
        yield row("debye_hueckel_slope", Water(celsius).slope, celsius=celsius)
    for grams in (8.0, 58.0, 125.0, 180.0):
        for pace, multiplier in (("slow", 0.8), ("typical", 1.25), ("fast", 1.6)):
            for stretches in ([(40.0, 30.0)], [(200.0, 22.0), (20.0, 38.0)], [(300.0, 6.0)]):
                text = "+".join(f"{days}@{celsius}" for days, celsius in stretches)
                yield row("share_left", aged(grams, 1.0, 0.08, multiplier, stretches), grams=grams, pace=pace, storage=text)
    for label in (5.25, 8.25, 12.5):
        for caustic in (0.2, 0.6):
            by_weight = 10 * label
            chlorine = by_weight * (1 + 0.01507 * caustic) / (1 - 1.3083e-3 * by_weight)
            yield row("weight_available_chlorine", chlorine, label=label, caustic=caustic)
            by_weight = 10 * label * 70.906 / 74.442
            chlorine = by_weight * (1 + 0.01507 * caustic) / (1 - 1.3083e-3 * by_weight)
            yield row("weight_naocl", chlorine, label=label, caustic=caustic)
            gravity = 1 + 1.3083e-3 * chlorine + 0.01507 * caustic
            yield row("hydroxide_per_chlorine", 10 * caustic * gravity / 39.997 / (chlorine / CL2), label=label, caustic=caustic)
    mass = {"ascorbic_acid": 176.124, "sodium_ascorbate": 198.1058, "sodium_sulfite": 126.0365, "sodium_bisulfite": 104.0548,
            "sodium_metabisulfite": 190.0945 / 2, "sulfur_dioxide": 64.058, "sodium_thiosulfate": 158.0965,
            "sodium_thiosulfate_pentahydrate": 248.1715, "calcium_thiosulfate": 152.195, "hydrogen_peroxide": 34.014}
    for agent, weight in mass.items():
        yield row("agent_per_chlorine", weight / CL2, agent=agent)
    field = {"ascorbic_acid": 2.5, "sodium_ascorbate": 2.8, "sodium_sulfite": 1.96, "sodium_bisulfite": 1.61,
             "sodium_metabisulfite": 1.47, "sulfur_dioxide": 1.00, "calcium_thiosulfate": 1.22}
    for agent, ratio in field.items():
        yield row("field_agent_per_chlorine", ratio, agent=agent, ph=7.0)
    for ph, ratio in ((6.6, 1.6 + 0.3 * 0.2), (7.0, 1.9), (8.5, 1.9 + 0.33 * 0.75)):
        yield row("field_agent_per_chlorine", ratio, agent="sodium_thiosulfate", ph=ph)
        yield row("field_agent_per_chlorine", ratio * 248.1715 / 158.0965, agent="sodium_thiosulfate_pentahydrate", ph=ph)
    iron, manganese, sulfide, ammonia, nitrite, carbon = 2.0, 0.4, 1.5, 0.7, 0.3, 2.5
    stoichiometric = (0.5 * CL2 / 55.845 * iron + CL2 / 54.938 * manganese + 4 * CL2 / 34.076 * sulfide
                      + 1.5 * CL2 / 14.007 * ammonia + CL2 / 14.007 * nitrite + 1.0 * carbon)
    practice = 0.64 * iron + 2.0 * manganese + 3.0 * sulfide + 10.0 * ammonia + CL2 / 14.007 * nitrite + 1.0 * carbon
    least = (0.5 * CL2 / 55.845 * iron + CL2 / 54.938 * manganese + CL2 / 34.076 * sulfide + CL2 / 14.007 * ammonia
             + CL2 / 14.007 * nitrite + 1.0 * carbon)
    for name, value in (("stoichiometric", stoichiometric), ("practice", practice), ("least", least)):
        yield row("demand", value, factors=name, iron=iron, manganese=manganese, sulfide=sulfide, ammonia=ammonia,
                  nitrite=nitrite, carbon=carbon)
    for agent, oxygen, weight in (("sodium_sulfite", 0.5, 126.0365), ("sodium_metabisulfite", 1.0, 190.0945),
                                  ("sulfur_dioxide", 0.5, 64.058)):
        yield row("oxygen_taken", 10.0 * oxygen * 31.998 / weight, agent=agent, overdose=10.0)
    # Moles lost per liter of product, a third of them chlorate, in the product that holds the dose.
    for dose, made, used in ((100.0, 125.0, 56.8), (200.0, 60.0, 31.0), (50.0, 125.0, 10.9)):
        poured = dose / 1000 / used
        chlorate = (made - used) / CL2 / 3 * (35.453 + 3 * 15.999)
        yield row("chlorate_left", poured * chlorate * 1000, dose=dose, made=made, used=used)


def main():
    fresh = list(rows())
    if "--check" in sys.argv:
        with open(TABLE, newline="", encoding="utf-8") as file:
            old = list(csv.DictReader(file))
        if [(r["quantity"], r["inputs"]) for r in old] != [(r["quantity"], r["inputs"]) for r in fresh]:
            sys.exit("the table holds other rows than this script makes")
        for before, now in zip(old, fresh, strict=True):
            if abs(float(before["value"]) - float(now["value"])) > 1e-9 * abs(float(now["value"])):
                sys.exit(f"{before['id']}: table {before['value']}, now {now['value']}")
        print(f"{TABLE.name} agrees, {len(fresh)} rows")
        return
    with open(TABLE, "w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, ["id", "quantity", "inputs", "value"], lineterminator="\n")
        writer.writeheader()
        writer.writerows(fresh)
    print(f"wrote {TABLE}, {len(fresh)} rows")


if __name__ == "__main__":
    main()
