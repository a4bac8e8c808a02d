"""Makes the reports of this folder, and beside each what it says.

python make.py, with openpyxl 3.1.5, xlsxwriter 3.3.1, odfpy 1.4.1, reportlab 5.1.0, fpdf2 2.8.9, typst 0.15.2,
matplotlib 3.11.2 and Debian's chromium on the path. All waters, places and works are invented; ions balance within
5 %. What a report says is written from the same rows that the report is made from, never from what was read of it.
"""
import csv, io, json, os, subprocess, sys, tempfile
HERE = os.path.dirname(os.path.abspath(__file__))

UNITS = {"ppm": "mg/L", "mg/l": "mg/L", "µg/l": "µg/L", "ppb": "µg/L", "mmol/l": "mmol/L", "NTU": "NTU", "FNU": "NTU"}

def number(text, comma):
    t = text.replace("<", "").strip()
    if comma: t = t.replace(".", "").replace(",", ".")
    return float(t)

def one(det, basis, unit, stat, text, comma=False, sample=None):
    below = text.startswith("<") or text.lower() in ("n.n.", "n.d.", "nd", "niet aantoonbaar", "not detected")
    has = any(c.isdigit() for c in text)
    v = number(text, comma) if has else None
    r = {"determinand": det, "basis": basis, "unit": UNITS.get(unit, unit), "statistic": stat,
         "value": None if below else v, "below_detection": below, "detection_limit": v if below else None}
    if sample: r["sample"] = sample
    return r

def expect(file, language, readings, must_ask=(), contradiction=None, samples=None, refused=None):
    e = {"file": file, "language": language, "sample_or_zone": samples, "readings": readings,
         "must_ask": list(must_ask), "contradiction": contradiction}
    if refused: e["refused"] = refused
    name = os.path.splitext(file)[0] + ".expected.json"
    with open(os.path.join(HERE, name), "w") as f:
        head = {k: v for k, v in e.items() if k != "readings"}
        lines = ",\n  ".join(json.dumps(r, ensure_ascii=False) for r in readings)
        f.write("{" + json.dumps(head, ensure_ascii=False)[1:-1] + ',\n "readings": [\n  ' + lines + "\n ]}\n")

def put(file, data, encoding="utf-8"):
    with open(os.path.join(HERE, file), "wb") as f:
        f.write(data if isinstance(data, bytes) else data.encode(encoding))

def chromium(file, html):
    with tempfile.TemporaryDirectory() as d:
        p = os.path.join(d, "a.html")
        open(p, "w", encoding="utf-8").write(html)
        subprocess.run(["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer",
                        f"--print-to-pdf={os.path.join(HERE, file)}", "file://" + p], check=True,
                       stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)

def csv_text(rows, delimiter):
    out = io.StringIO()
    csv.writer(out, delimiter=delimiter, lineterminator="\n").writerows(rows)
    return out.getvalue()

# Key, basis, and rows of three waters: hard, middling, soft. (min, mean, max)
# det: basis, unit, decimals
KEYS = [("ph", None, "pH", 2), ("conductivity", "25C", "µS/cm", 0), ("hardness_total", None, "°dH", 1),
        ("calcium", "ion", "mg/L", 1), ("magnesium", "ion", "mg/L", 1), ("sodium", "ion", "mg/L", 1),
        ("potassium", "ion", "mg/L", 1), ("bicarbonate", "HCO3", "mg/L", 0), ("chloride", "ion", "mg/L", 1),
        ("sulfate", "ion", "mg/L", 1), ("nitrate", "ion", "mg/L", 1), ("nitrite", "ion", "mg/L", 3),
        ("ammonium", "ion", "mg/L", 2), ("iron", "ion", "mg/L", 3), ("copper", "ion", "mg/L", 3)]
HARD = dict(ph=7.32, conductivity=707, hardness_total=19.6, calcium=118.0, magnesium=13.4, sodium=17.2, potassium=2.6,
            bicarbonate=350, chloride=31.0, sulfate=48.0, nitrate=22.4, nitrite="<0.005", ammonium="<0.02", iron="<0.01", copper=0.041)
MID = dict(ph=7.71, conductivity=402, hardness_total=9.7, calcium=52.0, magnesium=10.6, sodium=16.0, potassium=2.1,
           bicarbonate=168, chloride=28.0, sulfate=34.0, nitrate=9.3, nitrite="<0.005", ammonium=0.03, iron=0.018, copper=0.012)
SOFT = dict(ph=8.05, conductivity=148, hardness_total=3.1, calcium=17.8, magnesium=2.6, sodium=7.2, potassium=0.8,
            bicarbonate=58, chloride=9.4, sulfate=10.2, nitrate=2.4, nitrite="<0.005", ammonium="<0.02", iron=0.025, copper=0.006)

NAMES = {
 "en": dict(ph="pH", conductivity="Conductivity at 25 °C", hardness_total="Total hardness", calcium="Calcium", magnesium="Magnesium", sodium="Sodium", potassium="Potassium", bicarbonate="Bicarbonate", chloride="Chloride", sulfate="Sulphate", nitrate="Nitrate as NO3", nitrite="Nitrite as NO2", ammonium="Ammonium as NH4", iron="Iron", copper="Copper"),
 "de": dict(ph="pH-Wert", conductivity="Elektr. Leitfähigkeit bei 25 °C", hardness_total="Gesamthärte", calcium="Calcium", magnesium="Magnesium", sodium="Natrium", potassium="Kalium", bicarbonate="Hydrogencarbonat", chloride="Chlorid", sulfate="Sulfat", nitrate="Nitrat (NO3)", nitrite="Nitrit (NO2)", ammonium="Ammonium (NH4)", iron="Eisen, gelöst", copper="Kupfer"),
 "fr": dict(ph="pH", conductivity="Conductivité à 25 °C", hardness_total="Dureté totale", calcium="Calcium", magnesium="Magnésium", sodium="Sodium", potassium="Potassium", bicarbonate="Hydrogénocarbonates", chloride="Chlorures", sulfate="Sulfates", nitrate="Nitrates (en NO3)", nitrite="Nitrites (en NO2)", ammonium="Ammonium (en NH4)", iron="Fer total", copper="Cuivre"),
 "nl": dict(ph="Zuurgraad (pH)", conductivity="Elektrisch geleidingsvermogen (25 °C)", hardness_total="Totale hardheid", calcium="Calcium", magnesium="Magnesium", sodium="Natrium", potassium="Kalium", bicarbonate="Waterstofcarbonaat", chloride="Chloride", sulfate="Sulfaat", nitrate="Nitraat (NO3)", nitrite="Nitriet (NO2)", ammonium="Ammonium (NH4)", iron="IJzer", copper="Koper"),
 "es": dict(ph="pH", conductivity="Conductividad a 25 ºC", hardness_total="Dureza total", calcium="Calcio", magnesium="Magnesio", sodium="Sodio", potassium="Potasio", bicarbonate="Bicarbonatos", chloride="Cloruros", sulfate="Sulfatos", nitrate="Nitratos (NO3)", nitrite="Nitritos (NO2)", ammonium="Amonio (NH4)", iron="Hierro", copper="Cobre"),
}
DECIMALS = {k: d for k, _, _, d in KEYS}

def show(key, value, comma):
    if isinstance(value, str): t = value
    else: t = f"{value:.{DECIMALS[key]}f}"
    return t.replace(".", ",") if comma else t

def three(key, value, comma):
    """Minimum, mean, maximum."""
    if isinstance(value, str): return [show(key, value, comma)] * 3
    if key == "ph": return [show(key, value + d, comma) for d in (-0.2, 0, 0.2)]
    return [show(key, value * f, comma) for f in (0.94, 1, 1.07)]

def unit(key, lang="en"):
    u = dict((k, u) for k, _, u, _ in KEYS)[key]
    return {"mg/L": "mg/l"}.get(u, u)

def rows(water, lang, comma, stats=("single",), sample=None):
    """(name, unit, values) and the readings."""
    out, readings = [], []
    for key, basis, u, _ in KEYS:
        t = three(key, water[key], comma)
        t = {1: t[1:2], 2: t[1:], 3: t}[len(stats)]
        out.append((NAMES[lang][key], unit(key), t))
        readings += [one(key, basis, u, s, v, comma, sample) for s, v in zip(stats, t)]
    return out, readings

S3 = ("min", "mean", "max")

def texts():
    # 1: one row a sample point and determinand
    r = [["Date", "Sample point", "Determinand", "Result", "Units"]]; e = []
    for place, w in (("Mill Lane reservoir", HARD), ("Top Field tap", SOFT)):
        rr, ee = rows(w, "en", False, sample=place)
        r += [["2024-05-14", place, n, v[0], u] for n, u, v in rr]; e += ee
    put("01-long.csv", csv_text(r, ",")); expect("01-long.csv", "en", e, samples=["Mill Lane reservoir", "Top Field tap"])
    # 2: one row a date, determinands across, units in the headings
    head = ["Probenahmedatum"] + [f"{NAMES['de'][k]} [{unit(k)}]" if k != "ph" else "pH-Wert" for k, *_ in KEYS]
    r = [["Wasserwerk Tannengrund (erfunden)"], head]; e = []
    for date, w in (("12.02.2024", MID), ("13.05.2024", SOFT), ("19.08.2024", HARD)):
        rr, ee = rows(w, "de", True, sample=date); r.append([date] + [v[0] for _, _, v in rr]); e += ee
    put("02-quer.csv", "\ufeff" + csv_text(r, ";")); expect("02-quer.csv", "de", e, samples=["12.02.2024", "13.05.2024", "19.08.2024"])
    # 3: tabs, latin-1, limits first
    rr, e = rows(HARD, "fr", True, S3)
    r = [["Paramètre", "Unité", "Limite de qualité", "Mini", "Moyenne", "Maxi", "Nombre d'analyses"]]
    r += [[n, u, "50" if n.startswith("Nitrates") else "", *v, "12"] for n, u, v in rr]
    put("03-bilan.tsv", csv_text(r, "\t"), "latin-1"); expect("03-bilan.tsv", "fr", e)
    # 4: bars
    rr, e = rows(SOFT, "nl", True, S3)
    t = "| Parameter | Eenheid | Laagste | Gemiddelde | Hoogste | Norm |\n|---|---|---|---|---|---|\n"
    t += "".join(f"| {n} | {u} | {' | '.join(v)} | {'50' if 'Nitraat' in n else ''} |\n" for n, u, v in rr)
    put("04-streep.txt", t); expect("04-streep.txt", "nl", e)
    # 5: commas that part cells and commas that part decimals
    rr, e = rows(MID, "es", True)
    r = [["Determinación", "Resultado", "Unidad", "Valor paramétrico"]] + [[n, v[0], u, "50" if "Nitratos" in n else ""] for n, u, v in rr]
    put("05-ensayo.csv", csv_text(r, ",")); expect("05-ensayo.csv", "es", e)
    # 6: notes
    rr, e = rows(MID, "en", False)
    put("06-notes.txt", "From the supplier by telephone, 3 March\n\n" + "".join(f"{n}: {v[0]} {u if u != 'pH' else ''}\n" for n, u, v in rr))
    expect("06-notes.txt", "en", e)
    # 7: columns by spaces, minimum behind the mean
    rr, e = rows(HARD, "de", True, S3)
    t = "Trinkwasser Mittelberg, Jahreswerte 2023\n\n" + f"{'Kenngröße':36}{'Einheit':10}{'Mittelwert':>12}{'Minimum':>10}{'Maximum':>10}{'Grenzwert':>12}\n"
    for n, u, v in rr: t += f"{n:36}{u:10}{v[1]:>12}{v[0]:>10}{v[2]:>10}{'50' if 'Nitrat' in n else '':>12}\n"
    put("07-spalten.txt", t); expect("07-spalten.txt", "de", e)
    # 8: not detected in words, total hardness in French degrees, TAC, P2O5
    t = """Résultats du 4 mars 2025
Paramètre                          Résultat      Unité       Référence de qualité
pH                                 7,45          unité pH    6,5 à 9
Conductivité à 25 °C               612           µS/cm       200 à 1100
TH                                 29,4          °f
TAC                                26,1          °f
TA                                 0,0           °f
Calcium                            101,0         mg/L
Magnésium                          10,1          mg/L
Sodium                             14,8          mg/L        200
Potassium                          1,9           mg/L
Chlorures                          27,5          mg/L        250
Sulfates                           30,1          mg/L        250
Nitrates                           24,0          mg/L        50
Nitrites                           n.d.          mg/L        0,50
Orthophosphates en P2O5            0,31          mg/L
Chlore libre                       0,12          mg/L
Chlore total                       0,15          mg/L
"""
    c = True; o = lambda *a: one(*a, comma=c)
    e = [o("ph", None, "pH", "single", "7,45"), o("conductivity", "25C", "µS/cm", "single", "612"), o("hardness_total", None, "°fH", "single", "29,4"),
         o("alkalinity", "CaCO3", "°fH", "single", "26,1"), o("calcium", "ion", "mg/L", "single", "101,0"), o("magnesium", "ion", "mg/L", "single", "10,1"),
         o("sodium", "ion", "mg/L", "single", "14,8"), o("potassium", "ion", "mg/L", "single", "1,9"), o("chloride", "ion", "mg/L", "single", "27,5"),
         o("sulfate", "ion", "mg/L", "single", "30,1"), o("nitrate", "ion", "mg/L", "single", "24,0"), o("nitrite", "ion", "mg/L", "single", "n.d."),
         o("phosphate", "P2O5", "mg/L", "single", "0,31"), o("chlorine_free", None, "mg/L", "single", "0,12"), o("chlorine_total", None, "mg/L", "single", "0,15")]
    put("08-prelevement.txt", t); expect("08-prelevement.txt", "fr", e)
    # 25: nothing says how nitrate and alkalinity are counted, and too little is there to prove it
    t = "Parameter,Result,Unit\npH,7.4,\nNitrate,12,mg/l\nAlkalinity,110,mg/l\nChloride,25,mg/l\nHardness,120,mg/l\n"
    put("25-bare.csv", t)
    expect("25-bare.csv", "en", [one("ph", None, "pH", "single", "7.4"), one("nitrate", None, "mg/L", "single", "12"), one("alkalinity", None, "mg/L", "single", "110"),
           one("chloride", "ion", "mg/L", "single", "25"), one("hardness_total", None, "mg/L", "single", "120")], must_ask=["nitrate", "alkalinity", "hardness_total"])
    # 27: the limit proves the basis; both forms of nitrogen
    t = ("Analyte;Units;Maximum allowed;Average;Highest\nNitrate;mg/L;45;13.1;15.0\nNitrite as N;mg/L;1;<0.01;0.02\nTurbidity;NTU;1;0.08;0.21\n"
         "Total organic carbon;mg/L;;1.4;1.9\nAlkalinity (as CaCO3);mg/L;;88;97\nAluminium;mg/L;0.1;0.03;0.05\nFree chlorine;mg/L;;0.61;1.02\nManganese;µg/L;50;4.2;9.1\n")
    o = one
    e = [o("nitrate", "ion", "mg/L", "mean", "13.1"), o("nitrate", "ion", "mg/L", "max", "15.0"), o("nitrite", "N", "mg/L", "mean", "<0.01"), o("nitrite", "N", "mg/L", "max", "0.02"),
         o("turbidity", None, "NTU", "mean", "0.08"), o("turbidity", None, "NTU", "max", "0.21"), o("toc", None, "mg/L", "mean", "1.4"), o("toc", None, "mg/L", "max", "1.9"),
         o("alkalinity", "CaCO3", "mg/L", "mean", "88"), o("alkalinity", "CaCO3", "mg/L", "max", "97"), o("chlorine_free", None, "mg/L", "mean", "0.61"), o("chlorine_free", None, "mg/L", "max", "1.02"),
         o("manganese", "ion", "µg/L", "mean", "4.2"), o("manganese", "ion", "µg/L", "max", "9.1")]
    put("27-maple.csv", t); expect("27-maple.csv", "en", e)
    # 28: UTF-16 without a mark, semicolons, thousands by points
    rr, e = rows({**HARD, "conductivity": 1240, "sodium": 140.0, "chloride": 220.5}, "es", True)
    r = [["Parámetro", "Valor", "Unidades"]] + [[n, v[0] if n[:4] != "Cond" else "1.240", u] for n, u, v in rr]
    put("28-miles.csv", csv_text(r, ";"), "utf-16-le"); expect("28-miles.csv", "es", e)

def html():
    # 9: two works, headings over three columns each
    a, ea = rows(HARD, "nl", True, S3, "Winning Heuvelrand"); b, eb = rows(SOFT, "nl", True, S3, "Winning Duinzoom")
    t = "<!DOCTYPE html><html lang=nl><meta charset=utf-8><body><h2>Waterkwaliteit</h2><table><thead><tr><th rowspan=2>Stof</th><th rowspan=2>Eenheid</th><th colspan=3>Winning Heuvelrand</th><th colspan=3>Winning Duinzoom</th></tr><tr>"
    t += "<th>min</th><th>gem</th><th>max</th>" * 2 + "</tr></thead><tbody>"
    for (n, u, v), (_, _, w) in zip(a, b): t += f"<tr><td>{n}<td>{u}" + "".join(f"<td>{x.replace('<', '&lt;')}" for x in v + w)
    put("09-winning.html", t + "</table></body></html>"); expect("09-winning.html", "nl", ea + eb, samples=["Winning Heuvelrand", "Winning Duinzoom"])
    # 10: no table, a list of pairs
    rr, e = rows(SOFT, "en", False)
    t = "<html><body><h1>Your water</h1><p>Results for your address.</p><dl>" + "".join(f"<dt>{n}</dt><dd>{v[0].replace('<', '&lt;')} {u if u != 'pH' else ''}</dd>" for n, u, v in rr) + "</dl></body></html>"
    put("10-pairs.html", t); expect("10-pairs.html", "en", e)
    # 11: windows-1252, subscripts and footnotes, a limit in each row
    rr, e = rows(MID, "es", True)
    sub = lambda n: n.replace("NO3", "NO<sub>3</sub><sup>-</sup>").replace("NO2", "NO<sub>2</sub><sup>-</sup>").replace("NH4", "NH<sub>4</sub><sup>+</sup>")
    t = "<html><head><meta charset='windows-1252'><title>Análisis</title></head><body><table border=1><caption>Análisis de la red</caption><tr><td>Parámetro<td>Valor medido<td>Valor paramétrico</tr>"
    for i, (n, u, v) in enumerate(rr): t += f"<tr><td>{sub(n)}{'<sup>' + str(i) + '</sup>' if i % 3 == 0 else ''}</td><td>{v[0].replace('<', '&lt;')} {u if u != 'pH' else 'ud. pH'}</td><td>{'50 mg/l' if 'Nitratos' in n else ''}</td></tr>"
    put("11-red.html", t.replace("µ", "µ") + "</table></body></html>", "windows-1252"); expect("11-red.html", "es", e)
    # 12: a table for looks around two tables, one a zone
    t = "<html><body><table><tr><td>Menü</td><td>"
    e = []
    for zone, w in (("Zone Oberdorf", HARD), ("Zone Unterdorf", MID)):
        rr, ee = rows(w, "de", True, sample=zone); e += ee
        t += f"<h3>{zone}</h3><table><tr><th>Parameter</th><th>Messwert</th><th>Einheit</th><th>Grenzwert</th></tr>"
        t += "".join(f"<tr><td>{n}</td><td>{v[0].replace('<', '&lt;')}</td><td>{u}</td><td>{'50' if 'Nitrat' in n else ''}</td></tr>" for n, u, v in rr) + "</table>"
    put("12-zonen.html", t + "</td></tr></table></body></html>"); expect("12-zonen.html", "de", e, samples=["Zone Oberdorf", "Zone Unterdorf"])

def sheets():
    import xlsxwriter, openpyxl
    from odf.opendocument import OpenDocumentSpreadsheet
    from odf.table import Table, TableRow, TableCell
    from odf.text import P
    # 13: US units, grains, ranges in one cell, tap percentiles
    b = xlsxwriter.Workbook(os.path.join(HERE, "13-annual.xlsx")); s = b.add_worksheet("2024 results")
    data = [("Contaminant", "Unit", "MCL", "MCLG", "Average", "Range of detections"), ("Nitrate (as N)", "ppm", 10, 10, 1.72, "1.4 - 2.1"), ("Fluoride", "ppm", 4, 4, 0.61, "0.5 - 0.7"),
            ("Total chlorine", "ppm", "MRDL 4", "4", 1.9, "0.8 - 2.6"), ("Sodium", "ppm", "NA", "NA", 18.4, "16 - 21"), ("Hardness", "gpg", "NA", "NA", 8.1, "7.4 - 9.0"),
            ("Alkalinity (as CaCO3)", "ppm", "NA", "NA", 104, "96 - 115"), ("Iron", "ppb", 300, "NA", 21, "ND - 40"), ("pH", "", "6.5 - 8.5", "NA", 7.9, "7.6 - 8.2")]
    for i, r in enumerate(data):
        for j, c in enumerate(r): s.write(i + 1, j, c)
    b.close()
    e = []
    for n, d, ba, u in (("Nitrate (as N)", "nitrate", "N", "mg/L"), ("Fluoride", "fluoride", "ion", "mg/L"), ("Total chlorine", "chlorine_total", None, "mg/L"), ("Sodium", "sodium", "ion", "mg/L"),
                        ("Hardness", "hardness_total", None, "gpg"), ("Alkalinity (as CaCO3)", "alkalinity", "CaCO3", "mg/L"), ("pH", "ph", None, "pH")):
        r = next(x for x in data if x[0] == n); lo, hi = r[5].split(" - ")
        e += [one(d, ba, u, "mean", str(r[4])), one(d, ba, u, "min", lo), one(d, ba, u, "max", hi)]
    e += [one("iron", "ion", "µg/L", "mean", "21"), one("iron", "ion", "µg/L", "min", "ND"), one("iron", "ion", "µg/L", "max", "40")]
    expect("13-annual.xlsx", "en", e)
    # 14: a sheet a zone, numbers as numbers, a date cell
    import datetime
    wb = openpyxl.Workbook(); e = []
    for i, (zone, w) in enumerate((("Hochzone", SOFT), ("Tiefzone", HARD))):
        ws = wb.active if i == 0 else wb.create_sheet(); ws.title = zone
        ws.append(["Trinkwasseranalyse", None]); ws.append(["Probenahme", datetime.date(2024, 9, 3)]); ws.append([])
        ws.append(["Parameter", "Einheit", "Ergebnis", "Grenzwert", "Verfahren"])
        rr, ee = rows(w, "de", False, sample=zone); e += ee
        for n, u, v in rr: ws.append([n, u, v[0].replace(".", ",") if "<" in v[0] else float(v[0]), 50 if "Nitrat" in n else None, "DIN EN ISO 10304-1"])
    wb.save(os.path.join(HERE, "14-zonen.xlsx")); expect("14-zonen.xlsx", "de", e, samples=["Hochzone", "Tiefzone"])
    # 16: one row a sample, units in a row of their own
    wb = openpyxl.Workbook(); ws = wb.active; ws.title = "Datos"
    ws.append(["Punto de muestreo", "Fecha"] + [NAMES["es"][k] for k, *_ in KEYS]); ws.append([None, None] + [unit(k) for k, *_ in KEYS]); e = []
    for place, w in (("Fuente Vieja", MID), ("Depósito Norte", HARD)):
        rr, ee = rows(w, "es", False, sample=place); e += ee
        ws.append([place, datetime.date(2024, 4, 2)] + [v[0] if "<" in v[0] else float(v[0]) for _, _, v in rr])
    wb.save(os.path.join(HERE, "16-filas.xlsx")); expect("16-filas.xlsx", "es", e, samples=["Fuente Vieja", "Depósito Norte"])
    # 29: numbers that are shown with fewer digits than they have, a comparator in the format, a sheet that is hidden
    wb = openpyxl.Workbook(); ws = wb.active; ws.title = "Results"
    ws.append(["Determinand", "Unit", "Min", "Mean", "Max"]); e = []
    for n, d, ba, u, vs, fmt in (("Iron", "iron", "ion", "mg/L", (0.0449, 0.0461, 0.0549), "0.00"), ("Sulphate", "sulfate", "ion", "mg/L", (41.44, 42.5001, 44.61), "0"),
                                 ("Conductivity at 25 °C", "conductivity", "25C", "µS/cm", (1184.4, 1201.6, 1222.2), "#,##0"), ("Sodium", "sodium", "ion", "mg/L", (1.2345, 1.3, 1.4321), "0.000")):
        ws.append([n, u.replace("L", "l"), *vs])
        dec = len(fmt.split(".")[1]) if "." in fmt else 0
        for j, (v, s) in enumerate(zip(vs, S3)):
            ws.cell(ws.max_row, 3 + j).number_format = fmt; e.append(one(d, ba, u, s, f"{v:.{dec}f}"))
    ws.append(["Nitrite as NO2", "mg/l", 0.02, 0.02, 0.02])
    for j, s in enumerate(S3): ws.cell(ws.max_row, 3 + j).number_format = '"<"0.00'; e.append(one("nitrite", "ion", "mg/L", s, "<0.02"))
    old = wb.create_sheet("2019"); old.sheet_state = "hidden"; old.append(["Determinand", "Unit", "Mean"]); old.append(["Iron", "mg/l", 0.3])
    wb.save(os.path.join(HERE, "29-shown.xlsx")); expect("29-shown.xlsx", "en", e)
    # 15, 17: ods
    def ods(file, title, table):
        d = OpenDocumentSpreadsheet(); t = Table(name=title)
        for r in table:
            tr = TableRow()
            for c in r:
                if c is None: cell = TableCell()
                elif isinstance(c, float): cell = TableCell(valuetype="float", value=str(c)); cell.addElement(P(text=f"{c}".replace(".", ",")))
                else: cell = TableCell(valuetype="string"); cell.addElement(P(text=c))
                tr.addElement(cell)
            t.addElement(tr)
        d.spreadsheet.addElement(t); d.save(os.path.join(HERE, file))
    rr, e = rows(MID, "fr", True, S3)
    f = lambda x: x if "<" in x else float(x.replace(",", "."))
    ods("15-annee.ods", "2024", [["Qualité de l'eau 2024"], [], ["Paramètres", "Unités", "Minimum", "Moyenne", "Maximum", "Limite de qualité"]] + [[n, u, *map(f, v), "50" if "Nitrates" in n else None] for n, u, v in rr])
    expect("15-annee.ods", "fr", e)
    rr, e = rows(HARD, "nl", True)
    ods("17-meting.ods", "meting", [["Omschrijving", "Meetwaarde", "Eenheid", "Wettelijke norm"]] + [[n, f(v[0]), u, "50" if "Nitraat" in n else None] for n, u, v in rr])
    expect("17-meting.ods", "nl", e)

def pdfs():
    from reportlab.platypus import SimpleDocTemplate, Table, Paragraph
    from reportlab.lib.styles import getSampleStyleSheet
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont
    import typst
    sans = "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf"
    pdfmetrics.registerFont(TTFont("Sans", sans))
    # 18: a lined table, limits between unit and results
    rr, e = rows(HARD, "en", False, S3)
    d = SimpleDocTemplate(os.path.join(HERE, "18-zone.pdf"), invariant=1); st = getSampleStyleSheet()
    t = [["Parameter", "Units", "PCV", "Min", "Mean", "Max", "No. of samples"]] + [[n, u, "50" if "Nitrate" in n else "", *v, "24"] for n, u, v in rr]
    d.build([Paragraph("Water supply zone report 2024", st["Heading1"]), Table(t, style=[("GRID", (0, 0), (-1, -1), 0.5, "black"), ("FONT", (0, 0), (-1, -1), "Sans", 9)])])
    expect("18-zone.pdf", "en", e)
    # 19: fpdf, columns flush right
    from fpdf import FPDF
    rr, e = rows(MID, "de", True, S3)
    p = FPDF(); p.set_creation_date(__import__("datetime").datetime(2024, 1, 1, tzinfo=__import__("datetime").timezone.utc)); p.add_page(); p.add_font("Sans", "", sans); p.set_font("Sans", size=9)
    p.cell(0, 8, "Trinkwasseranalyse Werk Buchenhain", new_x="LMARGIN", new_y="NEXT")
    for r in [("Bezeichnung", "Einheit", "Min.", "Mittel", "Max.", "Grenzwert")] + [(n, u, *v, "50" if "Nitrat" in n else "") for n, u, v in rr]:
        for w, c, a in zip((62, 22, 20, 20, 20, 25), r, "LLRRRR"): p.cell(w, 6, c, align=a)
        p.ln()
    p.output(os.path.join(HERE, "19-werk.pdf")); expect("19-werk.pdf", "de", e)
    # 20: typst, formulas with lowered digits
    rr, e = rows(SOFT, "fr", True)
    sub = lambda n: n.replace("NO3", "NO#sub[3]#super[–]").replace("NO2", "NO#sub[2]#super[–]").replace("NH4", "NH#sub[4]#super[+]")
    src = "#set text(size: 9pt)\n= Analyse de l'eau\n#table(columns: 4, [*Paramètre*], [*Résultat*], [*Unité*], [*Limite de qualité*],\n"
    src += "".join(f"[{sub(n)}], [{v[0].replace('<', chr(92) + '<')}], [{u}], [{'50' if 'Nitrates' in n else ''}],\n" for n, u, v in rr) + ")\n"
    put("20-analyse.pdf", typst.compile(src.encode())); expect("20-analyse.pdf", "fr", e)
    # 21: a browser's print
    rr, e = rows(HARD, "nl", True, S3)
    t = "<meta charset=utf-8><style>td,th{padding:2px 10px;border-bottom:1px solid #999;font:11px sans-serif;text-align:left}</style><h2>Kwaliteitsgegevens drinkwater</h2><table><tr><th>Parameter<th>Eenheid<th>Minimum<th>Gemiddelde<th>Maximum<th>Wettelijke norm</tr>"
    t += "".join(f"<tr><td>{n}<td>{u}<td>" + "<td>".join(x.replace("<", "&lt;") for x in v) + f"<td>{'50' if 'Nitraat' in n else ''}</tr>" for n, u, v in rr) + "</table>"
    chromium("21-gegevens.pdf", t); expect("21-gegevens.pdf", "nl", e)
    # 22: a plot's table
    import matplotlib; matplotlib.use("Agg"); import matplotlib.pyplot as plt
    plt.rcParams["pdf.fonttype"] = 42
    rr, e = rows(MID, "es", True)
    fig, ax = plt.subplots(figsize=(8, 6)); ax.axis("off")
    tb = ax.table(cellText=[[n, v[0], u, "50" if "Nitratos" in n else ""] for n, u, v in rr], colLabels=["Parámetro", "Resultado", "Unidad", "Límite"], loc="center", colWidths=[0.45, 0.15, 0.15, 0.15])
    tb.auto_set_font_size(False); tb.set_fontsize(9); tb.scale(1, 1.3)
    fig.savefig(os.path.join(HERE, "22-tabla.pdf"), metadata={"CreationDate": None}); expect("22-tabla.pdf", "es", e)
    # 23: names that wrap in narrow cells, text around
    rr, e = rows(SOFT, "de", True)
    t = "<meta charset=utf-8><style>td,th{padding:2px 8px;font:11px serif;text-align:left;vertical-align:top}td:first-child{width:90px}</style><p>Sehr geehrte Damen und Herren, anbei die Werte Ihrer Zone. Der Grenzwert für Nitrat beträgt 50 mg/l.</p><table><tr><th>Untersuchungsparameter<th>Ergebnis<th>Einheit<th>Grenzwert</tr>"
    t += "".join(f"<tr><td>{n}<td>{v[0].replace('<', '&lt;')}<td>{u}<td>{'50' if 'Nitrat' in n else ''}</tr>" for n, u, v in rr) + "</table>"
    chromium("23-umbruch.pdf", t); expect("23-umbruch.pdf", "de", e)
    # 24: two zones side by side
    a, ea = rows(HARD, "en", False, S3, "Northgate zone"); b, eb = rows(MID, "en", False, S3, "Southgate zone")
    src = "#set page(flipped: true)\n#set text(size: 9pt)\n#table(columns: 8, table.cell(rowspan: 2)[Determinand], table.cell(rowspan: 2)[Units], table.cell(colspan: 3, align: center)[Northgate zone], table.cell(colspan: 3, align: center)[Southgate zone], [Minimum], [Mean], [Maximum], [Minimum], [Mean], [Maximum],\n"
    src += "".join(f"[{n}], [{u}], " + ", ".join(f"[{x.replace('<', chr(92) + '<')}]" for x in v + w) + ",\n" for (n, u, v), (_, _, w) in zip(a, b)) + ")\n"
    put("24-two-zones.pdf", typst.compile(src.encode())); expect("24-two-zones.pdf", "en", ea + eb, samples=["Northgate zone", "Southgate zone"])
    # 26: one space between cells, as copied from a viewer
    rr, e = rows(HARD, "de", True)
    t = "Parameter Einheit Grenzwert Messwert\n" + "".join(f"{n} {u if u != 'pH' else '-'} {'50' if 'Nitrat' in n else '-'} {v[0]}\n" for n, u, v in rr)
    put("26-kopiert.txt", t); expect("26-kopiert.txt", "de", e)

if __name__ == "__main__":
    for f in (texts, html, sheets, pdfs): f()
