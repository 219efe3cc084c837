"""Reads the IFC models of exported jobs with ifcopenshell and holds them against the record.

Usage: ifc_check.py FOLDER ...; in each folder model.ifc, model-ifc4.ifc, record.jsonl and figures/*.json.

Checked in both editions: the schema with its EXPRESS rules; every id once, and the same in both editions; for each
shaft the volume of its meshed solids against a volume worked out here from the signed plan and against the figures
of the log, within 0.2 %; place and levels against the signed plan; the band of the estimate against the figures.
A model that was spoilt has to be refused.
"""

import glob
import json
import logging
import math
import os
import re
import sys

import ifcopenshell
import ifcopenshell.geom
import ifcopenshell.util.element
import ifcopenshell.util.placement
import ifcopenshell.util.shape
import ifcopenshell.validate

from tally import check, ended

WITHIN = 0.002  # of the volume: what the issue asks for


def metres(text):
    """`12,5 m`, `10418.00 ft`, `48 in`, `900 mm`, also as stored: `12.5 {ft}`."""
    text = re.sub(r" \{,\}$", "", text)  # read with a decimal comma
    number, unit = re.fullmatch(r"\s*(-?[\d.,]+)\s*\{?([a-z]+),?\}?\s*", text).groups()
    scale = {"m": 1.0, "mm": 0.001, "ft": 0.3048, "in": 0.0254}[unit]
    return float(number.replace(",", ".")) * scale


def plans(folder):
    """The last plan of each shaft, as it was signed."""
    found, opened = {}, None
    for line in open(os.path.join(folder, "record.jsonl"), encoding="utf-8"):
        entry = json.loads(line)
        body = entry["body"]
        if entry["kind"] == "job_opened":
            opened = body
        if entry["kind"] == "shaft_planned":
            found[entry["shaft"]] = body
    return found, opened


def planned_volume(plan):
    """Cylinders and a cone, by hand."""
    upper, total = metres(plan["top"]), 0.0
    tip, bell = metres(plan["tip"]), plan.get("bell")
    toe = metres(bell["toe"]) if bell and "toe" in bell else 0.0
    above_bell = tip + (metres(bell["height"]) + toe if bell else 0.0)
    for piece in plan["bore"]:
        lower = max(metres(piece["to"]) if "to" in piece else above_bell, above_bell)
        diameter = metres(piece["diameter"])
        total += math.pi / 4 * diameter**2 * (upper - lower)
        upper = lower
    if bell:
        foot = metres(bell["diameter"])
        total += math.pi / 12 * metres(bell["height"]) * (foot**2 + foot * diameter + diameter**2)
        total += math.pi / 4 * foot**2 * toe
    rake = plan.get("rake")
    lean = 1.0 / float(rake.split(":")[1]) if rake else 0.0
    return total * math.sqrt(1 + lean * lean)


def errors_of(model):
    """What the schema and its rules refuse."""
    log = ifcopenshell.validate.json_logger()
    ifcopenshell.validate.validate(model, log, express_rules=True)
    return [str(one.get("message", one))[:300] for one in log.statements]


def mesh(product):
    settings = ifcopenshell.geom.settings()
    settings.set("use-world-coords", True)
    settings.set("mesher-linear-deflection", 0.001)
    settings.set("mesher-angular-deflection", 0.1)
    return ifcopenshell.geom.create_shape(settings, product).geometry


def near(one, other, within):
    return abs(one - other) <= within


def origin_of(model):
    """What a map conversion adds to the coordinates of the model."""
    maps = model.by_type("IfcMapConversion")
    return (maps[0].Eastings, maps[0].Northings) if maps else (0.0, 0.0)


def one_model(folder, name, schema):
    path = os.path.join(folder, name)
    model = ifcopenshell.open(path)
    where = f"{folder}/{name}:"
    check(f"{where} schema", model.schema_identifier == schema, model.schema_identifier)
    refused = errors_of(model)
    check(f"{where} EXPRESS rules", not refused, "\n".join(refused[:5]))
    roots = model.by_type("IfcRoot")
    check(f"{where} ids once", len({root.GlobalId for root in roots}) == len(roots))
    reserved = [set_.Name for set_ in model.by_type("IfcPropertySetDefinition") if not set_.Name.startswith("Shaftbook_")]
    check(f"{where} names of property sets are our own", not reserved, str(reserved))
    return model


def planned_pile(where, model, pile, plan, figures):
    shape = mesh(pile)
    volume, wanted = ifcopenshell.util.shape.get_volume(shape), planned_volume(plan)
    check(f"{where} planned volume", near(volume, wanted, WITHIN * wanted), f"{volume} {wanted}")
    told = figures["figures"]["hole"]["planned_volume_m3"] if figures and figures["figures"]["hole"] else None
    if told and "rake" not in plan and not plan.get("deduct_steel"):
        check(f"{where} planned volume as the log has it", near(volume, told, WITHIN * told), f"{volume} {told}")
    place = ifcopenshell.util.placement.get_local_placement(pile.ObjectPlacement)
    vertices = ifcopenshell.util.shape.get_vertices(shape)
    east, north = origin_of(model)
    known = ifcopenshell.util.element.get_psets(pile)["Shaftbook_Plan"]["PlaceKnown"]
    check(f"{where} says whether its place is known", known == ("easting" in plan))
    if known:
        check(f"{where} easting", near(place[0][3] + east, metres(plan["easting"]), 1e-6), str(place[0][3] + east))
        check(f"{where} northing", near(place[1][3] + north, metres(plan["northing"]), 1e-6), str(place[1][3] + north))
    if "rake" in plan:
        # The lower end lies toward where it leans.
        lowest, highest = vertices[vertices[:, 2].argmin()], vertices[vertices[:, 2].argmax()]
        check(f"{where} leans north-east", lowest[0] > highest[0] and lowest[1] > highest[1])
    else:
        check(f"{where} top", near(vertices[:, 2].max(), metres(plan["top"]), 1e-6), str(vertices[:, 2].max()))
        check(f"{where} tip", near(vertices[:, 2].min(), metres(plan["tip"]), 1e-6), str(vertices[:, 2].min()))
    return volume


def estimated_pile(where, pile, figures):
    shape = mesh(pile)
    volume = ifcopenshell.util.shape.get_volume(shape)
    curve, told = figures["figures"]["curve"], figures["shape"]
    wanted = told["whole"]["ratio"] * curve[-1]["cumulative_theoretical_m3"]
    check(f"{where} estimated volume", near(volume, wanted, WITHIN * wanted), f"{volume} {wanted}")
    sets = ifcopenshell.util.element.get_psets(pile)
    profile = sets["Shaftbook_Profile"]
    rows = list(zip(*(profile[name] for name in ["Bottom", "Top", "DiameterLow90", "Diameter", "DiameterHigh90"])))
    cells = [cell for cell in told["cells"] if cell["bottom_m"] < curve[-1]["upper_m"]]
    check(f"{where} as many pieces as the figures", len(rows) == len(cells), f"{len(rows)} {len(cells)}")
    check(f"{where} each estimate lies in its band", all(low <= mean <= high for _, _, low, mean, high in rows))
    # The figures tell a piece by the cell in its middle, the solid by its mean.
    same, apart = True, []
    for (bottom, top, low, mean, high), cell in zip(rows, cells):
        ends = next(ends for probability, *ends in cell["bands"] if probability == 0.9)
        same &= near(bottom, cell["bottom_m"], 1e-6) and near(top, min(cell["top_m"], curve[-1]["upper_m"]), 1e-6)
        nominal = mean**2 / cell["ratio"]
        apart.append(max(abs(low**2 / nominal - ends[0]), abs(high**2 / nominal - ends[1])))
    check(f"{where} levels of the pieces as in the figures", same)
    middle = sorted(apart)[len(apart) // 2]
    check(f"{where} ends of most bands as in the figures, within 2 % of the area", middle < 0.02, str(middle))
    whole = [one for one in pile.file.by_type("IfcPropertyBoundedValue") if one.Name == "EstimatedToTheoretical"]
    bands = [[one.LowerBoundValue[0], one.SetPointValue[0], one.UpperBoundValue[0]] for one in whole]
    wanted_band = [told["whole"]["low_90"], told["whole"]["ratio"], told["whole"]["high_90"]]
    check(f"{where} the band of the whole as in the figures", any(all(near(a, b, 1e-6) for a, b in zip(one, wanted_band)) for one in bands))
    stacked = sum(math.pi / 4 * mean**2 * (top - bottom) for bottom, top, _, mean, _ in rows)
    check(f"{where} the properties have the volume of the solid", near(volume, stacked, WITHIN * stacked), f"{volume} {stacked}")
    placed = sets["Shaftbook_Pour"]["PlacedVolume"]
    check(f"{where} placed", near(placed, curve[-1]["cumulative_placed_m3"], 1e-6), str(placed))
    return volume, wanted


def one_folder(folder):
    planned, opened = plans(folder)
    told = {}
    for path in glob.glob(os.path.join(folder, "figures", "*.json")):
        figures = json.load(open(path, encoding="utf-8"))
        told[figures["shaft"]] = figures
    models = [one_model(folder, "model.ifc", "IFC4X3_ADD2"), one_model(folder, "model-ifc4.ifc", "IFC4")]
    ids = [{pile.Name: pile.GlobalId for pile in model.by_type("IfcPile")} for model in models]
    check(f"{folder}: the same ids in both editions", ids[0] == ids[1] and ids[0])
    for model in models:
        georeferenced = "EPSG" in (opened.get("grid") or "")
        check(f"{folder}: georeferenced only by a named grid", bool(model.by_type("IfcMapConversion")) == georeferenced)
        piles = {pile.Name: pile for pile in model.by_type("IfcPile")}
        for shaft, plan in planned.items():
            where, figures = f"{folder} {model.schema} {shaft}:", told.get(shaft)
            planned_pile(where, model, piles[f"{shaft} as planned"], plan, figures)
            estimate = piles.get(f"{shaft} as estimated")
            check(f"{where} an estimate where there is one", bool(estimate) == bool(figures and figures["shape"]))
            if estimate:
                volume, wanted = estimated_pile(where, estimate, figures)
                if model is models[0]:
                    print(f"    {shaft}: estimate {volume:.3f} m3 by mesh, {wanted:.3f} m3 by the log ({100 * (volume / wanted - 1):+.3f} %)")


def spoilt(folder):
    """Models with one fault each; every one has to be refused."""
    text = open(os.path.join(folder, "model.ifc"), encoding="utf-8").read()
    faults = {
        "a pile of a kind nobody described": text.replace(".BORED.", ".USERDEFINED.", 1),
        "an id twice": re.sub(r"(IFCGROUP\(')[^']+", r"\g<1>" + re.search(r"IFCPROJECT\('([^']+)", text)[1], text, count=1),
        "a ring with a wall thicker than its radius": re.sub(r"(IFCCIRCLEHOLLOWPROFILEDEF\(\.AREA\.,\$,\$,)([\d.]+),[\d.]+", r"\g<1>\g<2>,99.", text, count=1),
    }
    for what, broken in faults.items():
        check(f"spoilt: {what} was made", broken != text)
        check(f"spoilt: {what} is refused", bool(errors_of(ifcopenshell.file.from_string(broken))))


def main(folders):
    logging.disable(logging.CRITICAL)
    for folder in folders:
        one_folder(folder)
    if folders:
        spoilt(folders[0])
    return ended()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
