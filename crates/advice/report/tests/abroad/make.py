"""Makes the reports of this folder: countries and layouts that the reader was not written for.

python make.py, with openpyxl, fpdf2, weasyprint, cairocffi and pymupdf in the environment, and LibreOffice, LaTeX, groff,
ghostscript and Chromium on the path. All waters, places and works are invented.
"""
import datetime, io, os, sys
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from kit import *
HERE = os.path.dirname(os.path.abspath(__file__))

ION, MG, UG = "ion", "mg/L", "µg/L"
PLAIN = {"ph": (None, "pH"), "conductivity": ("25C", "µS/cm"), "calcium": (ION, MG), "magnesium": (ION, MG), "sodium": (ION, MG), "potassium": (ION, MG),
         "chloride": (ION, MG), "sulfate": (ION, MG), "nitrate": (ION, MG), "nitrite": (ION, MG), "ammonium": (ION, MG), "iron": (ION, UG), "manganese": (ION, UG),
         "copper": (ION, MG), "lead": (ION, UG), "fluoride": (ION, MG), "bicarbonate": ("HCO3", MG), "hardness_total": ("CaCO3", MG), "alkalinity": ("CaCO3", MG),
         "chlorine_free": (None, MG), "chlorine_total": (None, MG), "chloramine": (None, MG), "tds": (None, MG), "turbidity": (None, "NTU"), "toc": (None, MG),
         "temperature": (None, "°C"), "zinc": (ION, UG), "boron": (ION, MG), "silica": ("SiO2", MG), "hardness_carbonate": (None, "°dH"),
         "hardness_calcium": ("CaCO3", MG), "phosphate": (ION, MG), "dissolved_oxygen": (None, MG)}
IONS = (("calcium", "ca"), ("magnesium", "mg"), ("sodium", "na"), ("potassium", "k"), ("chloride", "cl"), ("sulfate", "so4"), ("nitrate", "no3"))

def report(file, language, decimal=".", thousands="", **kinds):
    return Report(HERE, file, language, {**PLAIN, **kinds}, decimal, thousands)

def esc(t): return t.replace("&", "&amp;").replace("<", "&lt;")

def table(rows, head=1, style=""):
    cell = lambda t, c: f"<{t}>{esc(c)}</{t}>"
    return f"<table{style}>" + "".join("<tr>" + "".join(cell("th" if i < head else "td", c) for c in r) + "</tr>" for i, r in enumerate(rows)) + "</table>"

# --- text ---------------------------------------------------------------------------------------------------------
def swiss_cells():
    """Switzerland: pasted with the tabs lost, one cell a line; French degrees in German; points for decimals."""
    r, w = report("01-gemeinde.txt", "de", hardness_total=(None, "°fH"), hardness_carbonate=(None, "°fH")), MARL
    rows = [("Gesamthärte", "°fH", r.v("hardness_total", "single", w["fh"], 1), "-"), ("Karbonathärte", "°fH", r.v("hardness_carbonate", "single", w["tac"], 1), "-"),
            ("Calcium", "mg/l", r.v("calcium", "single", w["ca"], 1), "-"), ("Magnesium", "mg/l", r.v("magnesium", "single", w["mg"], 1), "-"), ("Natrium", "mg/l", r.v("sodium", "single", w["na"], 1), "200"),
            ("Kalium", "mg/l", r.v("potassium", "single", w["k"], 1), "-"), ("Chlorid", "mg/l", r.v("chloride", "single", w["cl"], 1), "250"), ("Sulfat", "mg/l", r.v("sulfate", "single", w["so4"], 1), "250"),
            ("Nitrat", "mg NO3/l", r.v("nitrate", "single", w["no3"], 1), "40"), ("Nitrit", "mg NO2/l", r.of("nitrite", "single", "<0.005"), "0.1"), ("pH-Wert", "-", r.v("ph", "single", w["ph"], 2), "6.8 - 8.2"),
            ("Leitfähigkeit bei 25 °C", "µS/cm", r.v("conductivity", "single", w["k25"], 0), "800")]
    r.put("Trinkwasserqualität der Gemeinde Oberwiesen\n\n" + "\n".join("\n".join(c) for c in [("Parameter", "Einheit", "Messwert", "Höchstwert"), *rows]) + "\n"); r.done()

def argentina():
    """Argentina: decimal commas, ug/l, a conductivity without a temperature, maxima of the provincial rule, columns by spaces."""
    r, w = report("02-boletin.txt", "es", ",", iron=(ION, MG), conductivity=(None, "µS/cm"), lead=(ION, UG)), DRY
    rows = [("pH", "u. pH", r.v("ph", "single", w["ph"], 1), "6,5 - 8,5"), ("Conductividad", "uS/cm", r.v("conductivity", "single", w["k25"], 0), "---"),
            ("Alcalinidad total", "mg CaCO3/l", r.v("alkalinity", "single", w["alk_caco3"], 0), "---"), ("Dureza total", "mg CaCO3/l", r.v("hardness_total", "single", w["th_caco3"], 0), "400"),
            ("Cloruro", "mg/l", r.v("chloride", "single", w["cl"], 0), "350"), ("Sulfato", "mg/l", r.v("sulfate", "single", w["so4"], 0), "400"), ("Nitrato (NO3-)", "mg/l", r.v("nitrate", "single", w["no3"], 1), "45"),
            ("Nitrito (NO2-)", "mg/l", r.of("nitrite", "single", "<0,02"), "0,10"), ("Amonio (NH4+)", "mg/l", r.of("ammonium", "single", "<0,05"), "0,20"), ("Calcio", "mg/l", r.v("calcium", "single", w["ca"], 1), "---"),
            ("Magnesio", "mg/l", r.v("magnesium", "single", w["mg"], 1), "---"), ("Sodio", "mg/l", r.v("sodium", "single", w["na"], 1), "---"), ("Potasio", "mg/l", r.v("potassium", "single", w["k"], 1), "---"),
            ("Fluoruro", "mg/l", r.of("fluoride", "single", "0,7"), "1,7"), ("Arsénico total", "ug/l", "8", "50"), ("Hierro total", "mg/l", r.of("iron", "single", "0,06"), "0,30"),
            ("Plomo", "ug/l", r.of("lead", "single", "<5"), "50"), ("Cloro activo residual", "mg/l", r.of("chlorine_free", "single", "0,6"), ">= 0,2")]
    t = "COOPERATIVA DE AGUA VILLA DEL ALGARROBO\nPlanilla de control N° 214 - Fecha de muestreo: 12/03/2025\n\n"
    t += "".join(f"{a:28}{b:14}{c:>10}   {d}\n" for a, b, c, d in [("DETERMINACION", "UNIDAD", "RESULTADO", "LIMITE MAXIMO"), *rows])
    r.put(t + "\nEl agua analizada CUMPLE con la norma.\n", "latin-1"); r.done(not_judged=["chlorine_free"])

def french_sheet():
    """France: one analysis, tabs, value with its unit, a limit and a reference beside it."""
    r, w = report("03-resultats.txt", "fr", ",", hardness_total=(None, "°fH"), alkalinity=("CaCO3", "°fH")), CHALK
    v = r.v
    rows = [("Entérocoques /100ml-MS", "0 n/(100mL)", "≤ 0 n/(100mL)", ""), ("Température de l'eau", r.of("temperature", "single", "12,4") + " °C", "", "≤ 25 °C"),
            ("pH", v("ph", "single", w["ph"], 2) + " unité pH", "", "≥6,5 et ≤ 9 unité pH"), ("Conductivité à 25°C", v("conductivity", "single", w["k25"], 0) + " µS/cm", "", "≥200 et ≤ 1100 µS/cm"),
            ("Titre hydrotimétrique", v("hardness_total", "single", w["fh"], 1) + " °f", "", ""), ("Titre alcalimétrique complet", v("alkalinity", "single", w["tac"], 1) + " °f", "", ""),
            ("Titre alcalimétrique", "0,0 °f", "", ""), ("Calcium", v("calcium", "single", w["ca"], 1) + " mg/L", "", ""), ("Magnésium", v("magnesium", "single", w["mg"], 1) + " mg/L", "", ""),
            ("Sodium", v("sodium", "single", w["na"], 1) + " mg/L", "", "≤ 200 mg/L"), ("Potassium", v("potassium", "single", w["k"], 1) + " mg/L", "", ""), ("Chlorures", v("chloride", "single", w["cl"], 1) + " mg/L", "", "≤ 250 mg/L"),
            ("Sulfates", v("sulfate", "single", w["so4"], 1) + " mg/L", "", "≤ 250 mg/L"), ("Nitrates (en NO3)", v("nitrate", "single", w["no3"], 1) + " mg/L", "≤ 50 mg/L", ""), ("Nitrites (en NO2)", r.of("nitrite", "single", "<0,02") + " mg/L", "≤ 0,5 mg/L", ""),
            ("Nitrates/50 + Nitrites/3", "0,51 mg/L", "≤ 1 mg/L", ""), ("Ammonium (en NH4)", r.of("ammonium", "single", "<0,05") + " mg/L", "", "≤ 0,1 mg/L"), ("Fer total", r.of("iron", "single", "<10") + " µg/L", "", "≤ 200 µg/L"),
            ("Chlore libre", r.of("chlorine_free", "single", "0,18") + " mg(Cl2)/L", "", ""), ("Chlore total", r.of("chlorine_total", "single", "0,22") + " mg(Cl2)/L", "", ""), ("Turbidité néphélométrique NFU", r.of("turbidity", "single", "<0,30") + " NFU", "", "≤ 2 NFU")]
    t = "Commune de prélèvement : VAL-PERDU\nDate du prélèvement : 17/01/2025 09h12\nConclusions sanitaires : eau conforme aux limites de qualité.\n\n"
    r.put(t + "\n".join("\t".join(x) for x in [("Paramètre", "Valeur", "Limite de qualité", "Référence de qualité"), *rows]) + "\n"); r.done()

def operators():
    """Britain: open data, one row a result, the comparator in a column of its own, two samples."""
    r = report("04-stream.csv", "en", iron=(ION, UG), conductivity=("20C", "µS/cm"), calcium=(ION, MG)); rows = []
    names = (("Nitrate (Total)", "nitrate", "mg/l NO3", "no3", 1), ("Calcium (Total)", "calcium", "mg/l Ca", "ca", 1), ("Magnesium (Total)", "magnesium", "mg/l Mg", "mg", 2), ("Sodium (Total)", "sodium", "mg/l Na", "na", 1),
             ("Potassium (Total)", "potassium", "mg/l K", "k", 2), ("Chloride", "chloride", "mg/l Cl", "cl", 1), ("Sulphate", "sulfate", "mg/l SO4", "so4", 1), ("Hydrogen ion (pH)", "ph", "pH Value", "ph", 2), ("Conductivity", "conductivity", "uS/cm at 20oC", "k20", 0))
    for sample, date, w in (("LH-2207", "2024-05-14", CHALK), ("LH-3391", "2024-09-02", RIVER)):
        for name, det, unit, key, digits in names: rows.append((sample, date, name, unit, "", r.v(det, "single", w[key], digits, sample)))
        for name, det, unit, text in (("Nitrite - Consumer's Taps", "nitrite", "mg/l NO2", "<0.0063"), ("Iron (Total)", "iron", "ug/l Fe", "<8.2"), ("Ammonium (Total)", "ammonium", "mg/l NH4", "<0.026")):
            r.of(det, "single", text, sample); rows.append((sample, date, name, unit, "<", text[1:]))
    r.put(csv_text([("Sample_Id", "Sample_Date", "Determinand", "Units", "Operator", "Result"), *rows])); r.done()

def irish():
    """Ireland: a scheme's check and audit samples, two dates across, parametric values first, words for smell."""
    r, w, x = report("05-scheme.csv", "en", iron=(ION, UG), conductivity=("20C", "µS/cm")), MOOR, RIVER
    both = lambda det, key, n: [r.v(det, "single", y[key], n, d) for d, y in (("04/02/2025", w), ("19/08/2025", x))]
    two = lambda det, a, b: [r.of(det, "single", t, d) for d, t in (("04/02/2025", a), ("19/08/2025", b))]
    rows = [("E. coli", "0", "No./100 ml", "0", "0"), ("Nitrate", "50", "mg/l as NO3", *both("nitrate", "no3", 1)), ("Nitrite (at tap)", "0.5", "mg/l as NO2", *two("nitrite", "<0.02", "0.03")), ("Ammonium", "0.3", "mg/l as NH4", *two("ammonium", "<0.02", "0.05")),
            ("Chloride", "250", "mg/l", *both("chloride", "cl", 1)), ("Sulphate", "250", "mg/l", *both("sulfate", "so4", 1)), ("Sodium", "200", "mg/l", *both("sodium", "na", 1)), ("pH", "6.5 - 9.5", "pH units", *both("ph", "ph", 1)),
            ("Conductivity @ 20 °C", "2500", "µS/cm", *both("conductivity", "k20", 0)), ("Hardness (as CaCO3)", "-", "mg/l", *both("hardness_total", "th_caco3", 0)), ("Iron", "200", "µg/l", *two("iron", "38", "12")), ("Odour", "Acceptable to consumers", "", "No abnormal change", "No abnormal change"),
            ("Free Chlorine", "-", "mg/l", *two("chlorine_free", "0.35", "0.42"))]
    r.put(csv_text([("Ballyrush Public Water Supply",), (), ("Parameter", "Parametric Value", "Unit", "04/02/2025", "19/08/2025"), *rows])); r.done()

def station_rows():
    """Germany: stations down, determinands across, units in a row of their own, tabs."""
    r, rows = report("06-stationen.txt", "de", ",", hardness_total=(None, "°dH"), alkalinity=("acid_capacity", "mmol/L"), conductivity=("25C", "µS/cm")), []
    for place, w in (("Hochbehälter Buchenberg", MARL), ("Tiefbrunnen Au", CHALK), ("Quelle Steinriegel", MOOR)):
        rows.append((place, "11.06.2024", r.v("ph", "single", w["ph"], 2, place), r.v("conductivity", "single", w["k25"], 0, place), r.v("hardness_total", "single", w["dh"], 1, place), r.v("alkalinity", "single", w["ks"], 2, place),
                     *(r.v(d, "single", w[k], 1, place) for d, k in IONS)))
    head = ("Entnahmestelle", "Datum", "pH-Wert", "Leitfähigkeit bei 25 °C", "Gesamthärte", "Säurekapazität bis pH 4,3", "Calcium", "Magnesium", "Natrium", "Kalium", "Chlorid", "Sulfat", "Nitrat")
    units = ("", "", "", "µS/cm", "°dH", "mmol/l", *["mg/l"] * 6, "mg/l NO3")
    r.put("\n".join("\t".join(x) for x in (head, units, *rows)) + "\n"); r.done()

def own_notes():
    """Spanish: what a keeper measured, in sentences."""
    r = report("07-apuntes.txt", "es", ",", hardness_total=(None, "°dH"), hardness_carbonate=(None, "°dH"))
    o = r.of
    r.put(f"Domingo 9 de marzo, agua del grifo, test de gotas\nDureza total {o('hardness_total', 'single', '14')} °dH\nDureza de carbonatos {o('hardness_carbonate', 'single', '9')} °dH\npH {o('ph', 'single', '7,4')}\n"
          f"Nitratos (NO3) {o('nitrate', 'single', '12,5')} mg/l\nNitritos (NO2) {o('nitrite', 'single', '<0,3')} mg/l\nTemperatura {o('temperature', 'single', '17')} °C\n\nEl domingo que viene lo repito.\n"); r.done()

# --- pages of the web ---------------------------------------------------------------------------------------------
def belgian():
    """Belgium: two languages in every cell."""
    r, w = report("08-tweetalig.html", "any", ",", hardness_total=(None, "°fH"), conductivity=("20C", "µS/cm")), CHALK
    lmh = r.low_mid_high
    rows = [("Zuurtegraad / Acidité (pH)", "-", *lmh("ph", w["ph"], 2), "6,5 - 9,2"), ("Geleidbaarheid / Conductivité (20 °C)", "µS/cm", *lmh("conductivity", w["k20"], 0), "2100"), ("Totale hardheid / Dureté totale", "°F", *lmh("hardness_total", w["fh"], 1), "67,5")]
    for (d, k), n, lim in zip(IONS, ("Calcium", "Magnesium", "Natrium / Sodium", "Kalium / Potassium", "Chloride / Chlorures", "Sulfaat / Sulfates", "Nitraat / Nitrates"), ("270", "50", "200", "-", "250", "250", "50")): rows.append((n, "mg/l", *lmh(d, w[k], 1), lim))
    rows += [("Nitriet / Nitrites (NO2)", "mg/l", *(r.of("nitrite", s, "<0,05") for s in ("min", "mean", "max")), "0,5"), ("IJzer / Fer", "µg/l", r.of("iron", "min", "<10"), r.of("iron", "mean", "12"), r.of("iron", "max", "31"), "200")]
    r.put("<html><body><h1>Drinkwater / Eau potable – Sint-Ergens</h1>" + table([("Parameter / Paramètre", "Eenheid / Unité", "Min.", "Gem. / Moy.", "Max.", "Norm / Norme"), *rows]) + "</body></html>"); r.done()

def german_hardness():
    """Germany: zones down, hardness in two units, its class in words, acid capacity, all in one table."""
    r, rows = report("09-haertetabelle.html", "de", ",", hardness_total=(None, "°dH"), alkalinity=("acid_capacity", "mmol/L")), []
    for place, w, kind in (("Altstadt", CHALK, "hart"), ("Am Moor", MOOR, "weich"), ("Neubaugebiet West", RIVER, "hart"), ("Steinfeld", MARL, "hart")):
        rows.append((place, r.v("hardness_total", "mean", w["dh"], 1, place), r.v("hardness_total", "mean", w["th"], 2, place, unit="mmol/L"), kind, r.v("alkalinity", "mean", w["ks"], 2, place), r.v("ph", "mean", w["ph"], 1, place)))
    r.put("<html><head><meta charset='utf-8'></head><body><h1>Wasserhärte in unseren Versorgungsgebieten</h1><p>Jahresmittelwerte 2024</p>" +
          table([("Versorgungsgebiet", "Gesamthärte in °dH", "Gesamthärte in mmol/l", "Härtebereich", "Säurekapazität bis pH 4,3 in mmol/l", "pH-Wert"), *rows]) + "</body></html>"); r.done()

def australian():
    """Australia: two plants by a cell over many rows, guideline columns for health and for looks, thousands, tables inside tables."""
    r, body = report("10-characteristics.html", "en", ".", ",", conductivity=("25C", "µS/cm"), iron=(ION, MG)), ""
    for plant, w in (("Redgum Creek WTP", DRY), ("Saltbush Bore", {**DRY, **water(ca=96.0, mg=58.0, na=212.0, k=9.0, cl=391.0, so4=176.0, no3=2.1, ph=7.62)})):
        rows = []
        def four(det, x, n):
            lo, mean, hi = r.low_mid_high(det, x, n, plant); return lo, mean, r.v(det, "p95", x * 1.05, n, plant), hi
        for name, det, key, unit, health, looks, n in (("pH", "ph", "ph", "pH units", "-", "6.5 – 8.5", 2), ("Electrical Conductivity @ 25°C", "conductivity", "k25", "µS/cm", "-", "-", 0), ("Total Hardness as CaCO3", "hardness_total", "th_caco3", "mg/L", "-", "200", 0),
                ("Total Alkalinity as CaCO3", "alkalinity", "alk_caco3", "mg/L", "-", "-", 0), ("Calcium", "calcium", "ca", "mg/L", "-", "-", 1), ("Magnesium", "magnesium", "mg", "mg/L", "-", "-", 1), ("Sodium", "sodium", "na", "mg/L", "-", "180", 1),
                ("Potassium", "potassium", "k", "mg/L", "-", "-", 1), ("Chloride", "chloride", "cl", "mg/L", "-", "250", 0), ("Sulfate", "sulfate", "so4", "mg/L", "500", "250", 0), ("Nitrate (as NO3)", "nitrate", "no3", "mg/L", "50", "-", 2)):
            if det == "ph": lo, mean, p95, hi = (r.v("ph", s, w["ph"] + d, 2, plant) for s, d in (("min", -.1), ("mean", 0), ("p95", .1), ("max", .2)))
            else: lo, mean, p95, hi = four(det, w[key], n)
            rows.append((name, health, looks, unit, "52" if det != "calcium" else "12", lo, mean, p95, hi))
        for i, x in enumerate(rows):
            body += "<tr>" + (f"<td rowspan={len(rows)}>{plant}</td>" if i == 0 else "") + "".join(f"<td align=right>{c}</td>" for c in x) + "</tr>"
    head = "<tr><th rowspan=2>Plant</th><th rowspan=2>Characteristic</th><th colspan=2>Guideline value</th><th rowspan=2>Units</th><th rowspan=2>No. of samples</th><th rowspan=2>Minimum</th><th rowspan=2>Mean</th><th rowspan=2>95th percentile</th><th rowspan=2>Maximum</th></tr><tr><th>Health</th><th>Aesthetic</th></tr>"
    r.put(f"<html><body><table width=100%><tr><td><img src=x.png></td><td><h2>Drinking Water Quality Report</h2><table border=1>{head}{body}</table></td></tr></table></body></html>"); r.done()

def spanish_groups():
    """Spain: rows grouped under a heading cell, entities everywhere, points for thousands."""
    r, w = report("11-acta.html", "es", ",", ".", hardness_total=(None, "°fH"), iron=(ION, UG), conductivity=("20C", "µS/cm")), {**DRY, **water(ca=148.0, mg=61.0, na=168.0, k=7.0, cl=302.0, so4=288.0, no3=18.0, ph=7.42)}
    v = r.v
    groups = [("Par&aacute;metros indicadores", [("pH", "uds. pH", v("ph", "single", w["ph"], 2), "6,5 - 9,5"), ("Conductividad a 20&nbsp;&ordm;C", "&micro;S/cm", v("conductivity", "single", w["k20"], 0), "2.500"), ("Dureza total", "&ordm;f", v("hardness_total", "single", w["fh"], 1), "&mdash;"), ("Cloro libre residual", "mg/L", r.of("chlorine_free", "single", "0,54"), "1,0"), ("Turbidez", "UNF", r.of("turbidity", "single", "0,3"), "5")]),
              ("Aniones", [("Cloruro", "mg/L", v("chloride", "single", w["cl"], 0), "250"), ("Sulfato", "mg/L", v("sulfate", "single", w["so4"], 0), "250"), ("Nitrato", "mg/L", v("nitrate", "single", w["no3"], 1), "50"), ("Nitrito", "mg/L", r.of("nitrite", "single", "<0,05"), "0,50"), ("Bicarbonatos", "mg/L", v("bicarbonate", "single", w["hco3"], 0), "&mdash;")]),
              ("Cationes y metales", [("Calcio", "mg/L", v("calcium", "single", w["ca"], 1), "&mdash;"), ("Magnesio", "mg/L", v("magnesium", "single", w["mg"], 1), "&mdash;"), ("Sodio", "mg/L", v("sodium", "single", w["na"], 0), "200"), ("Potasio", "mg/L", v("potassium", "single", w["k"], 1), "&mdash;"), ("Hierro", "&micro;g/L", r.of("iron", "single", "<20"), "200"), ("Cobre", "mg/L", r.of("copper", "single", "0,012"), "2,0")])]
    t = "<table><tr><th>Par&aacute;metro</th><th>Unidad</th><th>Valor cuantificado</th><th>Valor param&eacute;trico</th></tr>"
    for name, rows in groups:
        t += f"<tr><td colspan=4><b>{name}</b></td></tr>" + "".join("<tr>" + "".join("<td>&nbsp;" + (c if "&" in c else esc(c)) + "&nbsp;</td>" for c in x) + "</tr>" for x in rows)
    r.put(f"<!doctype html><html><head><meta charset=iso-8859-1></head><body><div><h3>Acta de an&aacute;lisis</h3>{t}</table></div></body></html>", "latin-1"); r.done()

# --- spreadsheets -------------------------------------------------------------------------------------------------
def canadian():
    """Canada: merged headings over treated water, a limit for health and an objective for looks, results as numbers with formats."""
    import openpyxl
    r, w = report("12-treated.xlsx", "en", nitrate=("N", MG), iron=(ION, MG)), RIVER
    wb = openpyxl.Workbook(); ws = wb.active; ws.title = "2024 Annual"
    ws["A1"] = "Town of Pinehollow - Annual Drinking Water Quality Data"; ws.merge_cells("A1:H1")
    for c, t in (("A3", "Parameter"), ("B3", "Units"), ("C3", "Guidelines"), ("E3", "Treated Water"), ("C4", "MAC"), ("D4", "AO"), ("E4", "Min"), ("F4", "Max"), ("G4", "Average"), ("H4", "# of Samples")): ws[c] = t
    for m in ("A3:A4", "B3:B4", "C3:D3", "E3:H3"): ws.merge_cells(m)
    rows = [("Alkalinity (as CaCO3)", "alkalinity", w["alk_caco3"], 0, None, None), ("Calcium", "calcium", w["ca"], 1, None, None), ("Chloride", "chloride", w["cl"], 1, None, "≤ 250"), ("Chlorine, free residual", "chlorine_free", 0.82, 2, None, None), ("Fluoride", "fluoride", 0.62, 2, 1.5, None),
            ("Hardness (as CaCO3)", "hardness_total", w["th_caco3"], 0, None, None), ("Iron", "iron", 0.021, 3, None, "≤ 0.1"), ("Magnesium", "magnesium", w["mg"], 1, None, None), ("Nitrate (as N)", "nitrate", w["no3"] * 14.007 / 62.005, 2, 10, None), ("pH", "ph", w["ph"], 2, None, "7.0 - 10.5"),
            ("Potassium", "potassium", w["k"], 2, None, None), ("Sodium", "sodium", w["na"], 1, None, "≤ 200"), ("Sulphate", "sulfate", w["so4"], 1, None, "≤ 500"), ("Total Dissolved Solids", "tds", 340.0, 0, None, "≤ 500")]
    for i, (name, det, x, n, mac, ao) in enumerate(rows, 5):
        lo, mean, hi = r.low_mid_high(det, x, n)
        for c, val in zip("ABCDEFGH", (name, "" if det == "ph" else "mg/L", mac, ao, float(lo), float(hi), float(mean), 12)):
            ws[f"{c}{i}"] = val
        for c in "EFG": ws[f"{c}{i}"].number_format = "0." + "0" * n if n else "0"
    ws.cell(20, 1, "MAC = maximum acceptable concentration; AO = aesthetic objective")
    wb.save(os.path.join(HERE, r.file)); r.done()

def south_african():
    """South Africa: a month a column, mS/m at 25 °C, nitrogen as N, the year's average last."""
    import xlsxwriter
    r = report("13-monthly.xlsx", "en", conductivity=("25C", "mS/m"), nitrate=("N", MG), ammonium=("N", MG)); b = xlsxwriter.Workbook(os.path.join(HERE, r.file)); s = b.add_worksheet("Final water")
    bold = b.add_format({"bold": True}); date = b.add_format({"num_format": "mmm-yy"})
    months = [datetime.date(2024, m, 1) for m in (7, 8, 9, 10)]; labels = ["Jul-24", "Aug-24", "Sep-24", "Oct-24"]
    s.write(0, 0, "Kameeldoring Water Works: final water", bold)
    for c, t in enumerate(("Determinand", "Unit", "Standard limit")): s.write(2, c, t, bold)
    for c, m in enumerate(months): s.write_datetime(2, 3 + c, datetime.datetime.combine(m, datetime.time()), date)
    s.write(2, 7, "Average", bold)
    rows = [("pH at 25 °C", "pH units", "≥ 5 to ≤ 9.7", "ph", DRY["ph"], 1), ("Electrical conductivity at 25 °C", "mS/m", "≤ 170", "conductivity", DRY["k25"] / 10, 1), ("Total alkalinity", "mg/L as CaCO3", "", "alkalinity", DRY["alk_caco3"], 0), ("Total hardness", "mg/L as CaCO3", "", "hardness_total", DRY["th_caco3"], 0),
            ("Calcium", "mg/L as Ca", "", "calcium", DRY["ca"], 1), ("Magnesium", "mg/L as Mg", "", "magnesium", DRY["mg"], 1), ("Sodium", "mg/L as Na", "≤ 200", "sodium", DRY["na"], 1), ("Chloride", "mg/L as Cl", "≤ 300", "chloride", DRY["cl"], 1), ("Sulphate", "mg/L as SO4", "≤ 250", "sulfate", DRY["so4"], 1),
            ("Nitrate", "mg/L as N", "≤ 11", "nitrate", DRY["no3"] * 14.007 / 62.005, 2), ("Ammonia", "mg/L as N", "≤ 1.5", "ammonium", 0.12, 2), ("Free chlorine", "mg/L", "≤ 5", "chlorine_free", 0.8, 2)]
    for i, (name, unit, limit, det, x, n) in enumerate(rows, 3):
        for c, t in enumerate((name, unit, limit)): s.write(i, c, t)
        shown = b.add_format({"num_format": "0." + "0" * n if n else "0"}); all = []
        for c, (f, label) in enumerate(zip((0.96, 1.02, 1.05, 0.98), labels)):
            y = x + (f - 1) * (1 if det == "ph" else x); all.append(y); s.write_number(i, 3 + c, y, shown); r.v(det, "single", y, n, label)
        s.write_number(i, 7, sum(all) / 4, shown); r.v(det, "mean", sum(all) / 4, n)
    b.close(); r.done()

def french_hidden():
    """France: a date a column as real dates, last year's column hidden, a sheet hidden, a share in percent beside."""
    import openpyxl
    from openpyxl.styles import numbers
    r, wb = report("14-suivi.xlsx", "fr", hardness_total=(None, "°fH"), alkalinity=("CaCO3", "°fH")), openpyxl.Workbook(); ws = wb.active; ws.title = "Suivi"
    ws.append(["Suivi de la qualité - Station des Saules"]); ws.append([])
    ws.append(["Paramètre", "Unité", "Limite", datetime.date(2023, 4, 11), datetime.date(2025, 2, 4), datetime.date(2025, 5, 20), "Variation (%)"])
    for c in "DEF": ws[f"{c}3"].number_format = "dd/mm/yyyy"
    dates = ("04/02/2025", "20/05/2025")
    rows = [("pH", "-", None, "ph", "ph", 2), ("Conductivité à 25°C", "µS/cm", None, "conductivity", "k25", 0), ("TH", "°f", None, "hardness_total", "fh", 1), ("TAC", "°f", None, "alkalinity", "tac", 1), ("Calcium", "mg/l", None, "calcium", "ca", 1), ("Magnésium", "mg/l", None, "magnesium", "mg", 1),
            ("Sodium", "mg/l", 200, "sodium", "na", 1), ("Potassium", "mg/l", None, "potassium", "k", 1), ("Chlorures", "mg/l", 250, "chloride", "cl", 1), ("Sulfates", "mg/l", 250, "sulfate", "so4", 1), ("Nitrates", "mg/l", 50, "nitrate", "no3", 1)]
    for name, unit, limit, det, key, n in rows:
        a, b = r.v(det, "single", CHALK[key], n, dates[0]), r.v(det, "single", MARL[key], n, dates[1])
        ws.append([name, unit, limit, CHALK[key] * 1.3, CHALK[key], MARL[key], MARL[key] / CHALK[key] - 1]); i = ws.max_row
        for c in "DEF": ws[f"{c}{i}"].number_format = "0." + "0" * n if n else "0"
        ws[f"G{i}"].number_format = "0%"
    ws.column_dimensions["D"].hidden = True
    old = wb.create_sheet("Archives"); old.sheet_state = "veryHidden"; old.append(["Paramètre", "Unité", "Moyenne"]); old.append(["Nitrates", "mg/l", 61])
    wb.save(os.path.join(HERE, r.file)); r.done()

def dutch_quarters():
    """The Netherlands: a quarter a column, the year's mean last; an office's ods."""
    import openpyxl
    r, wb = report("15-kwartaal.ods", "nl", ",", hardness_total=(None, "mmol/L"), conductivity=("20C", "mS/m")), openpyxl.Workbook(); ws = wb.active; ws.title = "2024"
    ws.append(["Drinkwaterkwaliteit pompstation De Wilgen"]); ws.append([]); ws.append(["Parameter", "Eenheid", "Norm", "1e kwartaal", "2e kwartaal", "3e kwartaal", "4e kwartaal", "Jaargemiddelde"])
    names = ("1e kwartaal", "2e kwartaal", "3e kwartaal", "4e kwartaal")
    rows = [("Zuurgraad (pH)", "pH", "7,0 - 9,5", "ph", RIVER["ph"], 2), ("Elektrisch geleidingsvermogen bij 20 °C", "mS/m", "125", "conductivity", RIVER["k20"] / 10, 1), ("Totale hardheid", "mmol/l", ">1", "hardness_total", RIVER["th"], 2), ("Waterstofcarbonaat", "mg/l", ">60", "bicarbonate", RIVER["hco3"], 0),
            ("Calcium", "mg/l", None, "calcium", RIVER["ca"], 1), ("Magnesium", "mg/l", None, "magnesium", RIVER["mg"], 1), ("Natrium", "mg/l", "150", "sodium", RIVER["na"], 1), ("Kalium", "mg/l", None, "potassium", RIVER["k"], 1), ("Chloride", "mg/l", "150", "chloride", RIVER["cl"], 1), ("Sulfaat", "mg/l", "150", "sulfate", RIVER["so4"], 1),
            ("Nitraat", "mg/l NO3", "50", "nitrate", RIVER["no3"], 1), ("Temperatuur", "°C", "25", "temperature", 11.5, 1)]
    for name, unit, norm, det, x, n in rows:
        ys = [x + f * (1 if det == "ph" else x) for f in (-0.05, 0.02, 0.06, -0.01)]
        for y, q in zip(ys, names): r.v(det, "single", y, n, q)
        r.v(det, "mean", sum(ys) / 4, n); ws.append([name, unit, norm, *ys, sum(ys) / 4])
        for c in "DEFGH": ws[f"{c}{ws.max_row}"].number_format = "0." + "0" * n if n else "0"
    out = io.BytesIO(); wb.save(out); r.put(office(out.getvalue(), ".xlsx", "ods")); r.done()

# --- PDF ----------------------------------------------------------------------------------------------------------
def austrian():
    """Austria: an office's PDF; parameter values and indicator values beside the result; conductivity at 20 °C."""
    r, w = report("16-befund.pdf", "de", ",", hardness_total=(None, "°dH"), hardness_carbonate=(None, "°dH"), alkalinity=("acid_capacity", "mmol/L"), iron=(ION, MG), manganese=(ION, MG), conductivity=("20C", "µS/cm"), toc=(None, MG)), MARL
    v = r.v
    rows = [("Wassertemperatur", r.of("temperature", "single", "9,8"), "°C", "", "25"), ("pH-Wert", v("ph", "single", w["ph"], 2), "", "", "6,5 - 9,5"), ("El. Leitfähigkeit (bei 20 °C)", v("conductivity", "single", w["k20"], 0), "µS/cm", "", "2500"), ("Gesamthärte", v("hardness_total", "single", w["dh"], 1), "°dH", "", ""), ("Carbonathärte", v("hardness_carbonate", "single", w["kh"], 1), "°dH", "", ""),
            ("Säurekapazität bis pH 4,3", v("alkalinity", "single", w["ks"], 2), "mmol/l", "", ""), ("Calcium (als Ca)", v("calcium", "single", w["ca"], 1), "mg/l", "", ""), ("Magnesium (als Mg)", v("magnesium", "single", w["mg"], 1), "mg/l", "", ""), ("Natrium (als Na)", v("sodium", "single", w["na"], 1), "mg/l", "", "200"), ("Kalium (als K)", v("potassium", "single", w["k"], 1), "mg/l", "", ""),
            ("Eisen (als Fe)", r.of("iron", "single", "<0,01"), "mg/l", "", "0,2"), ("Mangan (als Mn)", r.of("manganese", "single", "<0,005"), "mg/l", "", "0,05"), ("Ammonium (als NH4)", r.of("ammonium", "single", "<0,01"), "mg/l", "", "0,5"), ("Nitrit (als NO2)", r.of("nitrite", "single", "<0,003"), "mg/l", "0,1", ""), ("Nitrat (als NO3)", v("nitrate", "single", w["no3"], 1), "mg/l", "50", ""),
            ("Chlorid (als Cl)", v("chloride", "single", w["cl"], 1), "mg/l", "", "200"), ("Sulfat (als SO4)", v("sulfate", "single", w["so4"], 1), "mg/l", "", "250"), ("Gesamter org. Kohlenstoff (TOC)", r.of("toc", "single", "0,4"), "mg/l", "", "")]
    html = "<html><head><meta charset='utf-8'></head><body><h2>Prüfbericht Trinkwasser</h2><p>Anlage: WVA Sonnleiten, Probenahme am 23.10.2024</p>" + table([("Parameter", "Ergebnis", "Einheit", "Parameterwert", "Indikatorparameterwert"), *rows], style=" border='1' cellpadding='3'") + "<p>Das Wasser entspricht den Anforderungen.</p></body></html>"
    r.put(office(html, ".html", "pdf:writer_web_pdf_Export")); r.done()

def mexican():
    """Mexico: LaTeX; decimal points in Spanish; limits with the unit in the heading."""
    r, w = report("17-informe.pdf", "es", ".", ",", nitrate=("N", MG), iron=(ION, MG), nitrite=("N", MG)), DRY
    v = r.v
    rows = [("pH", v("ph", "single", w["ph"], 2), "6.5 a 8.5"), ("Dureza total (como CaCO$_3$)", v("hardness_total", "single", w["th_caco3"], 1), "500.00"), ("Alcalinidad total (como CaCO$_3$)", v("alkalinity", "single", w["alk_caco3"], 1), "---"), ("Cloruros (como Cl$^-$)", v("chloride", "single", w["cl"], 1), "250.00"), ("Sulfatos (como SO$_4^{2-}$)", v("sulfate", "single", w["so4"], 1), "400.00"),
            ("Nitratos (como N)", v("nitrate", "single", w["no3"] * 14.007 / 62.005, 2), "11.00"), ("Nitritos (como N)", r.of("nitrite", "single", "<0.01"), "0.90"), ("Sodio", v("sodium", "single", w["na"], 1), "200.00"), ("Calcio", v("calcium", "single", w["ca"], 1), "---"), ("Magnesio", v("magnesium", "single", w["mg"], 1), "---"), ("Potasio", v("potassium", "single", w["k"], 2), "---"),
            ("Hierro", r.of("iron", "single", "0.04"), "0.30"), ("Fluoruros (como F$^-$)", r.of("fluoride", "single", "0.61"), "1.50"), ("S\\'olidos disueltos totales", r.of("tds", "single", "1,012"), "1,000"), ("Cloro residual libre", r.of("chlorine_free", "single", "0.85"), "0.2 a 1.5")]
    body = "\\section*{Informe de resultados}\\noindent Pozo El Mezquite, toma del 6 de mayo de 2025\\par\\bigskip\\begin{tabular}{|l|r|c|}\\hline Par\\'ametro & Resultado (mg/L) & L\\'imite permisible (mg/L)\\\\\\hline " + " ".join(" & ".join(x).replace("<", "\\textless{}") + "\\\\\\hline" for x in rows) + "\\end{tabular}\\par\\bigskip\\noindent El pH se da en unidades de pH."
    r.put(latex(body)); r.done()

def indian():
    """India: numbered rows, two limits, BDL with the detection limit in the cell, methods; fpdf."""
    from fpdf import FPDF
    r, w = report("18-test-report.pdf", "en", iron=(ION, MG)), {**DRY, **water(ca=62.0, mg=24.0, na=41.0, k=3.1, cl=58.0, so4=44.0, no3=14.5, ph=7.36)}
    v = r.v
    rows = [("1", "pH Value", "-", v("ph", "single", w["ph"], 2), "6.5 - 8.5", "No relaxation"), ("2", "Turbidity", "NTU", r.of("turbidity", "single", "0.4"), "1", "5"), ("3", "Total Dissolved Solids", "mg/l", r.of("tds", "single", "402"), "500", "2000"), ("4", "Total Hardness as CaCO3", "mg/l", v("hardness_total", "single", w["th_caco3"], 0), "200", "600"), ("5", "Calcium as Ca", "mg/l", v("calcium", "single", w["ca"], 1), "75", "200"), ("6", "Magnesium as Mg", "mg/l", v("magnesium", "single", w["mg"], 1), "30", "100"),
            ("7", "Chloride as Cl", "mg/l", v("chloride", "single", w["cl"], 1), "250", "1000"), ("8", "Sulphate as SO4", "mg/l", v("sulfate", "single", w["so4"], 1), "200", "400"), ("9", "Nitrate as NO3", "mg/l", v("nitrate", "single", w["no3"], 1), "45", "No relaxation"), ("10", "Total Alkalinity as CaCO3", "mg/l", v("alkalinity", "single", w["alk_caco3"], 0), "200", "600"), ("11", "Iron as Fe", "mg/l", r.of("iron", "single", "BDL"), "1.0", "No relaxation"),
            ("12", "Fluoride as F", "mg/l", r.of("fluoride", "single", "0.42"), "1.0", "1.5"), ("13", "Residual Free Chlorine", "mg/l", r.of("chlorine_free", "single", "0.3"), "0.2", "1"), ("14", "Sodium as Na", "mg/l", v("sodium", "single", w["na"], 1), "-", "-"), ("15", "Potassium as K", "mg/l", v("potassium", "single", w["k"], 1), "-", "-")]
    p = FPDF(); p.set_creation_date(datetime.datetime(2024, 1, 1, tzinfo=datetime.timezone.utc)); p.add_page(); p.set_font("Helvetica", size=9); p.cell(0, 8, "TEST REPORT - Drinking water, Neem Colony tank", new_x="LMARGIN", new_y="NEXT")
    with p.table(col_widths=(10, 50, 18, 24, 34, 54), line_height=5) as t:
        for x in [("S.No", "Test Parameter", "Unit", "Result", "Acceptable Limit", "Permissible limit in absence of alternate source"), *rows]: t.row(x)
    p.cell(0, 8, "BDL: below detection limit"); p.output(os.path.join(HERE, r.file)); r.done()

def consumer():
    """United States: consumer confidence tables by a browser; goals and maxima, ranges, taps at the 90th percentile."""
    r = report("19-confidence.pdf", "en", nitrate=("N", MG), copper=(ION, MG)); o = r.of
    def level(det, mid, lo, hi, **k): o(det, "mean", mid, **k); o(det, "min", lo, **k); o(det, "max", hi, **k); return mid, f"{lo} - {hi}"
    regulated = [("Nitrate (as Nitrogen)", "ppm", "10", "10", *level("nitrate", "1.1", "0.5", "1.2"), "No", "Runoff from fertilizer use"), ("Fluoride", "ppm", "4", "4", *level("fluoride", "0.69", "0.62", "0.77"), "No", "Water additive which promotes strong teeth"), ("Barium", "ppm", "2", "2", "0.034", "0.031 - 0.036", "No", "Erosion of natural deposits"), ("Arsenic", "ppb", "0", "10", "ND", "ND", "No", "Erosion of natural deposits")]
    disinfect = [("Chloramines", "ppm", "MRDLG = 4", "MRDL = 4", *level("chloramine", "2.4", "0.9", "3.3"), "No", "Water additive used to control microbes"), ("Total Organic Carbon", "ppm", "NA", "TT", *level("toc", "1.4", "1.1", "1.9"), "No", "Naturally present in the environment")]
    taps = [("Copper", "ppm", "1.3", "1.3", o("copper", "p90", "0.19"), "0 of 32", "No"), ("Lead", "ppb", "0", "15", o("lead", "p90", "2.3"), "1 of 32", "No")]
    other = [("Sodium", "ppm", *level("sodium", "21.4", "18.0", "26.1")), ("Sulfate", "ppm", *level("sulfate", "38", "31", "45")), ("Chloride", "ppm", *level("chloride", "29", "25", "34")), ("Hardness (as CaCO3)", "ppm", *level("hardness_total", "142", "128", "155")), ("Alkalinity (as CaCO3)", "ppm", *level("alkalinity", "104", "95", "118")), ("pH", "units", *level("ph", "7.9", "7.6", "8.3"))]
    style = "<style>td,th{border:1px solid #888;padding:3px;font:10px sans-serif}</style>"
    head = ("Substance", "Unit", "MCLG", "MCL", "Average Level Detected", "Range (Low - High)", "Violation", "Likely Source")
    r.put(chromium(f"<meta charset=utf-8>{style}<h1>2024 Consumer Confidence Report</h1><p>Last year your tap water met all standards. Lead in drinking water comes from pipes.</p><h2>Regulated substances</h2>" + table([head, *regulated]) + "<h2>Disinfectants</h2>" + table([("Substance", "Unit", "MRDLG", "MRDL", "Average Level Detected", "Range (Low - High)", "Violation", "Likely Source"), *disinfect]) +
          "<h2>Tap water samples</h2>" + table([("Substance", "Unit", "MCLG", "Action Level", "90th Percentile", "Sites Above Action Level", "Violation"), *taps]) + "<h2>Unregulated substances</h2>" + table([("Substance", "Unit", "Average Level Detected", "Range (Low - High)"), *other]) + "<p>ND: not detected. ppm: parts per million.</p>")); r.done()

def british_groff():
    """Britain: a zone by groff; limit, counts, percent failing; hardness in two bases."""
    r, w = report("20-zone.pdf", "en", hardness_total=(None, "°e"), conductivity=("20C", "µS/cm")), CHALK
    lmh = r.low_mid_high
    rows = [("Alkalinity as CaCO3", "", "mg/l", *lmh("alkalinity", w["alk_caco3"], 0), "12", "0.0"), ("Ammonium", "0.5", "mg NH4/l", *(r.of("ammonium", s, t) for s, t in (("min", "<0.02"), ("mean", "<0.02"), ("max", "0.03"))), "12", "0.0"), ("Calcium", "", "mg Ca/l", *lmh("calcium", w["ca"], 1), "12", "0.0"), ("Chloride", "250", "mg Cl/l", *lmh("chloride", w["cl"], 1), "12", "0.0"),
            ("Conductivity at 20 deg C", "2500", "uS/cm", *lmh("conductivity", w["k20"], 0), "12", "0.0"), ("Hardness", "", "Clark degrees", *lmh("hardness_total", w["clark"], 1), "12", "0.0"), ("Iron", "200", "ug Fe/l", *(r.of("iron", s, t) for s, t in (("min", "<5"), ("mean", "14.2"), ("max", "61.0"))), "48", "0.0"), ("Lead", "10", "ug Pb/l", *(r.of("lead", s, t) for s, t in (("min", "<0.2"), ("mean", "0.9"), ("max", "11.4"))), "24", "4.2"),
            ("Magnesium", "", "mg Mg/l", *lmh("magnesium", w["mg"], 2), "12", "0.0"), ("Nitrate", "50", "mg NO3/l", *lmh("nitrate", w["no3"], 1), "12", "0.0"), ("Potassium", "", "mg K/l", *lmh("potassium", w["k"], 2), "12", "0.0"), ("Residual chlorine, free", "", "mg/l", *lmh("chlorine_free", 0.41, 2, spread=.4), "120", "0.0"), ("Sodium", "200", "mg Na/l", *lmh("sodium", w["na"], 1), "12", "0.0"), ("Sulphate", "250", "mg SO4/l", *lmh("sulfate", w["so4"], 1), "12", "0.0"), ("pH", "6.5-9.5", "pH units", *lmh("ph", w["ph"], 2), "12", "0.0")]
    head = ("Parameter", "PCV", "Units", "Min.", "Mean", "Max.", "Samples", "% failing")
    r.put(groff(".TL\nWater supply zone 23: Chalkhill\n.LP\nSummary for the year 2024\n.TS H\nbox;\nl n l n n n n n.\n" + "\t".join(head) + "\n.TH\n" + "\n".join("\t".join(x) for x in rows) + "\n.TE\n.LP\nPCV: prescribed concentration or value.\n")); r.done()

def spanish_weasy():
    """Spain: a letter with a table, French degrees written ºF, text around; weasyprint."""
    r, w = report("21-boletin.pdf", "es", ",", ".", hardness_total=(None, "°fH"), conductivity=("20C", "µS/cm"), iron=(ION, UG)), MARL
    v = r.v
    rows = [("Cloro libre residual", r.of("chlorine_free", "single", "0,62"), "mg/L", "1"), ("pH", v("ph", "single", w["ph"], 1), "Unidades de pH", "6,5 - 9,5"), ("Conductividad", v("conductivity", "single", w["k20"], 0), "µS/cm a 20 ºC", "2.500"), ("Dureza", v("hardness_total", "single", w["fh"], 1), "ºF", ""), ("Calcio", v("calcium", "single", w["ca"], 1), "mg/L", ""), ("Magnesio", v("magnesium", "single", w["mg"], 1), "mg/L", ""), ("Sodio", v("sodium", "single", w["na"], 1), "mg/L", "200"), ("Potasio", v("potassium", "single", w["k"], 1), "mg/L", ""), ("Cloruros", v("chloride", "single", w["cl"], 1), "mg/L", "250"),
            ("Sulfatos", v("sulfate", "single", w["so4"], 1), "mg/L", "250"), ("Nitratos", v("nitrate", "single", w["no3"], 1), "mg/L", "50"), ("Nitritos", r.of("nitrite", "single", "<0,01"), "mg/L", "0,5"), ("Hierro", r.of("iron", "single", "<20"), "µg/L", "200"), ("Sabor", "1", "Índice de dilución", "3")]
    r.put(weasy("<style>td,th{border:.5pt solid;padding:2pt 6pt;font:9pt 'DejaVu Sans'}p{font:9pt 'DejaVu Serif'}</style><p>Estimado cliente: le enviamos los resultados de la red de Peñas Altas del mes de abril de 2025. El límite de nitratos es de 50 mg/L.</p>" + table([("Parámetro", "Resultado", "Unidad", "Valor paramétrico"), *rows]) + "<p>Agua apta para el consumo.</p>")); r.done()

def two_tables():
    """Britain: two small tables side by side on one page, other determinands in each; cairo."""
    r, w = report("22-certificate.pdf", "en", iron=(ION, UG), conductivity=("25C", "µS/cm")), RIVER
    v = r.v
    left = [("Inorganics", "Result", "Units"), ("pH", v("ph", "single", w["ph"], 2), "-"), ("Conductivity at 25C", v("conductivity", "single", w["k25"], 0), "µS/cm"), ("Chloride", v("chloride", "single", w["cl"], 1), "mg/l"), ("Sulphate as SO4", v("sulfate", "single", w["so4"], 1), "mg/l"), ("Nitrate as NO3", v("nitrate", "single", w["no3"], 1), "mg/l"), ("Nitrite as NO2", r.of("nitrite", "single", "<0.02"), "mg/l"), ("Alkalinity as CaCO3", v("alkalinity", "single", w["alk_caco3"], 0), "mg/l")]
    right = [("Metals", "Result", "Units"), ("Calcium", v("calcium", "single", w["ca"], 1), "mg/l"), ("Magnesium", v("magnesium", "single", w["mg"], 1), "mg/l"), ("Sodium", v("sodium", "single", w["na"], 1), "mg/l"), ("Potassium", v("potassium", "single", w["k"], 1), "mg/l"), ("Iron", r.of("iron", "single", "23"), "µg/l"), ("Copper", r.of("copper", "single", "0.031"), "mg/l"), ("Lead", r.of("lead", "single", "<1"), "µg/l")]
    def draw(c):
        c.set_font_size(14); c.move_to(50, 60); c.show_text("Certificate of analysis 20418"); c.set_font_size(8.5)
        for x0, rows in ((50, left), (320, right)):
            for i, row in enumerate(rows):
                for dx, t in zip((0, 115, 165), row): c.move_to(x0 + dx, 100 + 15 * i); c.show_text(t)
    r.put(cairo(draw)); r.done()

def two_works():
    """Germany: two works side by side with one value each, footnote marks, an office's PDF from a sheet."""
    import openpyxl
    a, b = "WW Nordhang", "WW Südau"; r = report("23-werke.pdf", "de", ",", hardness_total=(None, "°dH"), iron=(ION, MG), alkalinity=("acid_capacity", "mmol/L")); wb = openpyxl.Workbook(); ws = wb.active
    both = lambda det, key, n: [r.v(det, "mean", w[key], n, s) for s, w in ((a, MARL), (b, MOOR))]
    ws.append(["Trinkwasseranalyse 2024 (Mittelwerte)"]); ws.append([]); ws.append(["Parameter", "Einheit", "Grenzwert", a, b])
    rows = [("pH-Wert", "-", "6,5-9,5", *both("ph", "ph", 2)), ("Leitfähigkeit (25 °C)", "µS/cm", "2790", *both("conductivity", "k25", 0)), ("Gesamthärte", "°dH", "-", *both("hardness_total", "dh", 1)), ("Säurekapazität KS 4,3", "mmol/l", "-", *both("alkalinity", "ks", 2)), ("Calcium", "mg/l", "-", *both("calcium", "ca", 1)), ("Magnesium", "mg/l", "-", *both("magnesium", "mg", 1)), ("Natrium", "mg/l", "200", *both("sodium", "na", 1)),
            ("Kalium", "mg/l", "-", *both("potassium", "k", 1)), ("Chlorid", "mg/l", "250", *both("chloride", "cl", 1)), ("Sulfat", "mg/l", "250", *both("sulfate", "so4", 1)), ("Nitrat", "mg/l", "50", *both("nitrate", "no3", 1)), ("Eisen ¹⁾", "mg/l", "0,2", r.of("iron", "mean", "<0,01", a), r.of("iron", "mean", "0,03", b))]
    for x in rows: ws.append(list(x))
    ws.append([]); ws.append(["¹⁾ nach Aufbereitung"])
    ws.sheet_properties.pageSetUpPr = openpyxl.worksheet.properties.PageSetupProperties(fitToPage=True)
    for c, width in zip("ABCDE", (30, 12, 14, 18, 18)): ws.column_dimensions[c].width = width
    out = io.BytesIO(); wb.save(out); r.put(office(out.getvalue(), ".xlsx", "pdf")); r.done()

def flemish():
    """Belgium, Dutch: rewritten by ghostscript from LaTeX; values and units in one heading; French degrees."""
    r, w = report("24-gemeente.pdf", "nl", ",", hardness_total=(None, "°fH"), conductivity=("20C", "µS/cm"), iron=(ION, UG)), CHALK
    lmh = r.low_mid_high
    rows = [("Zuurtegraad (pH)", *lmh("ph", w["ph"], 2), "6,5--9,5"), ("Geleidbaarheid bij 20 °C ($\\mu$S/cm)", *lmh("conductivity", w["k20"], 0), "2500"), ("Totale hardheid (°fH)", *lmh("hardness_total", w["fh"], 1), "67,5")]
    rows += [(n + " (mg/l)", *lmh(d, w[k], 1), lim) for (d, k), n, lim in zip(IONS, ("Calcium", "Magnesium", "Natrium", "Kalium", "Chloride", "Sulfaat", "Nitraat"), ("270", "50", "200", "--", "250", "250", "50"))]
    rows += [("IJzer ($\\mu$g/l)", *(r.of("iron", s, t) for s, t in (("min", "<10"), ("mean", "<10"), ("max", "25"))), "200"), ("Vrije chloor (mg/l)", *lmh("chlorine_free", 0.12, 2, spread=.5), "0,25")]
    body = "\\section*{Waterkwaliteit in uw gemeente: Meerdonk-aan-Zee}\\begin{tabular}{lrrrr} Parameter & Minimum & Gemiddelde & Maximum & Norm\\\\\\hline " + " ".join(" & ".join(x).replace("<", "\\textless{}") + "\\\\" for x in rows) + "\\end{tabular}"
    r.put(rewritten(latex(body))); r.done()

def new_zealand():
    """New Zealand: years side by side, the mean of each; pymupdf."""
    r, rows = report("25-years.pdf", "en", conductivity=("25C", "mS/m"), nitrate=("N", MG), hardness_total=("CaCO3", MG)), []
    years = (("2022", 0.97), ("2023", 1.04), ("2024", 1.0))
    for name, unit, det, x, n in (("pH", "", "ph", MOOR["ph"], 2), ("Conductivity at 25 °C", "mS/m", "conductivity", MOOR["k25"] / 10, 1), ("Total hardness", "g/m3 as CaCO3", "hardness_total", MOOR["th_caco3"], 1), ("Alkalinity", "g/m3 as CaCO3", "alkalinity", MOOR["alk_caco3"], 1), ("Calcium", "g/m3", "calcium", MOOR["ca"], 1), ("Magnesium", "g/m3", "magnesium", MOOR["mg"], 2), ("Sodium", "g/m3", "sodium", MOOR["na"], 1), ("Potassium", "g/m3", "potassium", MOOR["k"], 2), ("Chloride", "g/m3", "chloride", MOOR["cl"], 1), ("Sulphate", "g/m3", "sulfate", MOOR["so4"], 1), ("Nitrate-N", "g/m3", "nitrate", MOOR["no3"] * 14.007 / 62.005, 2)):
        rows.append((name, unit, *(r.v(det, "mean", x * (1 if det == "ph" else f), n, y) for y, f in years)))
    r.put(story("<h2>Annual means, Kahikatea treatment plant</h2>" + table([("Determinand", "Units", *(y for y, _ in years)), *rows], style=" cellpadding='4'"))); r.done()

def plants_latex():
    """United States: two plants, low, high and average of each under a heading over three columns; LaTeX."""
    a, b = "Cedar Fork Plant", "Ridgeline Wells"; r, rows = report("26-plants.pdf", "en", nitrate=("N", MG), hardness_total=("CaCO3", MG), conductivity=("25C", "µS/cm")), []
    for name, unit, det, key, n, f in (("Alkalinity, total", "mg/L as CaCO3", "alkalinity", "alk_caco3", 0, 1), ("Calcium", "mg/L", "calcium", "ca", 1, 1), ("Chloride", "mg/L", "chloride", "cl", 1, 1), ("Hardness, total", "mg/L as CaCO3", "hardness_total", "th_caco3", 0, 1), ("Magnesium", "mg/L", "magnesium", "mg", 1, 1), ("Nitrate", "mg/L as N", "nitrate", "no3", 2, 14.007 / 62.005), ("pH", "units", "ph", "ph", 2, 1), ("Potassium", "mg/L", "potassium", "k", 2, 1), ("Sodium", "mg/L", "sodium", "na", 1, 1), ("Specific conductance at 25 C", "$\\mu$mho/cm", "conductivity", "k25", 0, 1), ("Sulfate", "mg/L", "sulfate", "so4", 1, 1)):
        cells = []
        for s, w in ((a, RIVER), (b, MARL)):
            lo, mean, hi = r.low_mid_high(det, w[key] * f, n, s); cells += [mean, lo, hi]
        rows.append((name, unit, *cells))
    body = "\\section*{Water quality summary}\\small\\begin{tabular}{ll|rrr|rrr} & & \\multicolumn{3}{c|}{" + a + "} & \\multicolumn{3}{c}{" + b + "}\\\\ Parameter & Units & Average & Low & High & Average & Low & High\\\\\\hline " + " ".join(" & ".join(x) + "\\\\" for x in rows) + "\\end{tabular}"
    r.put(latex(body)); r.done()

if __name__ == "__main__":
    all = (swiss_cells, argentina, french_sheet, operators, irish, station_rows, own_notes, belgian, german_hardness, australian, spanish_groups, canadian, south_african, french_hidden, dutch_quarters,
           austrian, mexican, indian, consumer, british_groff, spanish_weasy, two_tables, two_works, flemish, new_zealand, plants_latex)
    for f in all:
        if len(sys.argv) < 2 or f.__name__ in sys.argv[1:]: f()
