"""Makes the reports of this folder: a second round, written after the reader was mended on those of `abroad`, before it saw any of them.

python make.py, with what `abroad/make.py` needs. All waters, places and works are invented.
"""
import datetime, io, os, sys
ABROAD = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "abroad")
sys.path.insert(0, ABROAD)
import importlib.util
spec = importlib.util.spec_from_file_location("abroad_make", os.path.join(ABROAD, "make.py")); abroad = importlib.util.module_from_spec(spec); sys.modules["abroad_make"] = abroad; spec.loader.exec_module(abroad)
from kit import *
from abroad_make import esc, table, ION, MG, UG, IONS, PLAIN
HERE = os.path.dirname(os.path.abspath(__file__))
N_OF = 14.007 / 62.005

def report(file, language, decimal=".", thousands="", **kinds):
    return Report(HERE, file, language, {**PLAIN, **kinds}, decimal, thousands)

def luxembourg():
    """French text by spaces, two lines of heading, a median."""
    r, w = report("01-bassin.txt", "fr", ",", hardness_total=(None, "°fH")), CHALK
    rows = []
    for name, unit, det, key, n in (("pH", "", "ph", "ph", 2), ("Conductivité électrique (25 °C)", "µS/cm", "conductivity", "k25", 0), ("Dureté totale", "°fH", "hardness_total", "fh", 1), *((a, "mg/l", d, k, 1) for (d, k), a in zip(IONS, ("Calcium", "Magnésium", "Sodium", "Potassium", "Chlorures", "Sulfates", "Nitrates (NO3)")))):
        lo, mean, hi = r.low_mid_high(det, w[key], n); rows.append((name, unit, lo, r.v(det, "median", w[key] * 0.99, n), mean, hi, "24"))
    line = lambda x: f"{x[0]:34}{x[1]:8}{x[2]:>10}{x[3]:>10}{x[4]:>10}{x[5]:>10}{x[6]:>12}\n"
    r.put("Syndicat des eaux du Plateau, réseau de Hohbusch\n\n" + line(("", "", "Valeur", "Valeur", "Valeur", "Valeur", "Nombre")) + line(("Paramètre", "Unité", "minimale", "médiane", "moyenne", "maximale", "d'analyses")) + "".join(map(line, rows))); r.done()

def swiss_french():
    """Switzerland in French: reservoirs across, one value each, the law's demand last."""
    r, body = report("02-reservoirs.html", "fr", hardness_total=(None, "°fH"), ), []
    places = (("Réservoir du Signal", MARL), ("Réservoir des Grands-Prés", MOOR), ("Source de la Combe", CHALK))
    for name, det, key, n, law in (("pH", "ph", "ph", 2, "6.8 - 8.2"), ("Conductivité à 25 °C [µS/cm]", "conductivity", "k25", 0, "-"), ("Dureté totale [°fH]", "hardness_total", "fh", 1, "-"), ("Calcium [mg/l]", "calcium", "ca", 1, "-"), ("Magnésium [mg/l]", "magnesium", "mg", 1, "-"), ("Sodium [mg/l]", "sodium", "na", 1, "200"), ("Potassium [mg/l]", "potassium", "k", 1, "-"), ("Chlorure [mg/l]", "chloride", "cl", 1, "250"), ("Sulfate [mg/l]", "sulfate", "so4", 1, "250"), ("Nitrate [mg/l]", "nitrate", "no3", 1, "40")):
        body.append((name, *(r.v(det, "single", w[key], n, p) for p, w in places), law))
    r.put("<html><head><meta charset=utf-8></head><body><h1>Qualité de l'eau</h1><p>Prélèvements du 14 mai 2025</p>" + table([("Paramètre", *(p for p, _ in places), "Valeur maximale"), *body]) + "</body></html>")
    # Nothing says that the last column is the law's, so its 40 proves no basis.
    r.done(must_ask=["nitrate"])

def dutch_divs():
    """The Netherlands: no table at all, boxes with a name and a value."""
    r, w = report("03-uw-water.html", "nl", ",", hardness_total=(None, "°dH"), iron=(ION, UG)), RIVER
    rows = [("Hardheid", r.v("hardness_total", "mean", w["dh"], 1) + " °dH"), ("Zuurgraad", r.v("ph", "mean", w["ph"], 1) + " pH"), ("Geleidingsvermogen bij 25 °C", r.v("conductivity", "mean", w["k25"], 0) + " µS/cm")] + [(n, r.v(d, "mean", w[k], 1) + " mg/l") for (d, k), n in zip(IONS, ("Calcium", "Magnesium", "Natrium", "Kalium", "Chloride", "Sulfaat", "Nitraat (NO3)"))] + [("IJzer", r.of("iron", "mean", "<10") + " µg/l")]
    r.put("<!DOCTYPE html><html><body><main><h1>Uw drinkwater in Oosterveen</h1><p>Jaargemiddelden 2024</p>" + "".join(f'<div class="row"><div class="name">{n}</div><div class="value">{esc(v)}</div></div>' for n, v in rows) + "</main></body></html>"); r.done()

def us_lab():
    """United States: a laboratory's report, two wells one under the other, qualifiers and reporting limits; reportlab."""
    from reportlab.platypus import SimpleDocTemplate, Table, Paragraph, Spacer
    from reportlab.lib.styles import getSampleStyleSheet
    r, st, flow = report("04-wells.pdf", "en", nitrate=("N", MG), iron=(ION, UG), nitrite=("N", MG)), getSampleStyleSheet(), []
    for well, w, no2, fe in (("Well 3", MARL, ("0.050", "U"), ("118", "")), ("Well 5", DRY, ("0.062", "J"), ("50", "U"))):
        def low(det, pair, rl):
            text = ("ND" if pair[1] == "U" else pair[0]); r.of(det, "single", text, well, limit=float(rl)) ; return text, pair[1]
        rows = [("Analyte", "Result", "Qual", "RL", "Units", "Method")]
        for name, det, key, n, unit, rl, method, f in (("Calcium", "calcium", "ca", 1, "mg/L", "0.5", "200.7", 1), ("Magnesium", "magnesium", "mg", 1, "mg/L", "0.5", "200.7", 1), ("Sodium", "sodium", "na", 1, "mg/L", "0.5", "200.7", 1), ("Potassium", "potassium", "k", 2, "mg/L", "0.25", "200.7", 1), ("Chloride", "chloride", "cl", 1, "mg/L", "1.0", "300.0", 1), ("Sulfate", "sulfate", "so4", 1, "mg/L", "1.0", "300.0", 1), ("Nitrate as N", "nitrate", "no3", 2, "mg/L", "0.10", "300.0", N_OF), ("Alkalinity, Total as CaCO3", "alkalinity", "alk_caco3", 0, "mg/L", "5", "2320B", 1)):
            rows.append((name, r.v(det, "single", w[key] * f, n, well), "", rl, unit, method))
        t, q = low("nitrite", no2, "0.050"); rows.append(("Nitrite as N", t, q, "0.050", "mg/L", "300.0"))
        t, q = low("iron", fe, "50"); rows.append(("Iron", t, q, "50", "ug/L", "200.7"))
        rows.append(("pH", r.v("ph", "single", w["ph"], 2, well), "", "", "SU", "4500-H"))
        flow += [Paragraph(f"Client ID: {well}", st["Heading3"]), Table(rows, hAlign="LEFT"), Spacer(1, 12)]
    SimpleDocTemplate(os.path.join(HERE, r.file), invariant=1).build([Paragraph("Analytical report", st["Heading1"]), *flow, Paragraph("ND: not detected at the reporting limit. U: not detected. J: estimated.", st["Normal"])]); r.done()

def months_text():
    """Chile: months across as text, decimal commas, the norm in its own column, a share last."""
    import openpyxl
    r, wb = report("05-planta.xlsx", "es", ",", conductivity=("25C", "µS/cm")), openpyxl.Workbook(); ws = wb.active; ws.title = "Planta"
    months = ("ene-25", "feb-25", "mar-25"); ws.append(["Planta Los Boldos: agua tratada"]); ws.append(["Parámetro", "Unidad", "Límite máximo", *months, "% cumplimiento"])
    for name, unit, lim, det, x, n in (("pH", "-", "6,5 - 8,5", "ph", DRY["ph"], 2), ("Conductividad a 25 °C", "µS/cm", "-", "conductivity", DRY["k25"], 0), ("Cloruros", "mg/L", "400", "chloride", DRY["cl"], 1), ("Sulfatos", "mg/L", "500", "sulfate", DRY["so4"], 1), ("Nitratos", "mg/L", "50", "nitrate", DRY["no3"], 1), ("Calcio", "mg/L", "-", "calcium", DRY["ca"], 1), ("Magnesio", "mg/L", "125", "magnesium", DRY["mg"], 1), ("Sodio", "mg/L", "-", "sodium", DRY["na"], 1), ("Cloro libre residual", "mg/L", "2,0", "chlorine_free", 0.8, 2)):
        ws.append([name, unit, lim, *(r.v(det, "single", x + f * (1 if det == "ph" else x), n, m) for f, m in zip((-.04, .01, .03), months)), "100"])
    wb.save(os.path.join(HERE, r.file)); r.done()

def german_list():
    """Germany: a letter with a list, no table; printed by a browser."""
    r, w = report("06-brief.pdf", "de", ",", hardness_total=(None, "°dH"), hardness_carbonate=(None, "°dH")), CHALK
    items = [("Gesamthärte", r.v("hardness_total", "single", w["dh"], 1), "°dH (Härtebereich hart)"), ("Karbonathärte", r.v("hardness_carbonate", "single", w["kh"], 1), "°dH"), ("pH-Wert", r.v("ph", "single", w["ph"], 2), "")] + [(n, r.v(d, "single", w[k], 1), "mg/l") for (d, k), n in zip(IONS, ("Calcium", "Magnesium", "Natrium", "Kalium", "Chlorid", "Sulfat", "Nitrat (NO3)"))]
    r.put(chromium("<meta charset=utf-8><p>Sehr geehrte Frau Beispiel,</p><p>gern nennen wir Ihnen die Werte Ihres Trinkwassers vom 3. Februar 2025. Alle Werte liegen unter den Grenzwerten, für Nitrat sind das 50 mg/l.</p><ul>" + "".join(f"<li>{a}: {b} {c}</li>" for a, b, c in items) + "</ul><p>Mit freundlichen Grüßen</p>")); r.done()

def quebec():
    """Canada in French: range and mean, acceptable maxima, a note of two lines; html with a caption."""
    r, w = report("07-quebec.html", "fr", ",", hardness_total=("CaCO3", MG), nitrate=("N", MG), iron=(ION, MG)), RIVER
    def row(name, det, x, n, cma):
        lo, mean, hi = r.low_mid_high(det, x, n); return (name, cma, f"{lo} à {hi}", mean)
    rows = [row("Alcalinité totale (mg/L CaCO3)", "alkalinity", w["alk_caco3"], 0, "s.o."), row("Calcium (mg/L)", "calcium", w["ca"], 1, "s.o."), row("Chlorures (mg/L)", "chloride", w["cl"], 1, "250"), row("Dureté totale (mg/L CaCO3)", "hardness_total", w["th_caco3"], 0, "s.o."), row("Fer (mg/L)", "iron", 0.035, 3, "0,1"), row("Fluorures (mg/L)", "fluoride", 0.12, 2, "1,5"), row("Magnésium (mg/L)", "magnesium", w["mg"], 1, "s.o."), row("Nitrates (mg/L N)", "nitrate", w["no3"] * N_OF, 2, "10"), row("pH", "ph", w["ph"], 2, "7,0 - 10,5"), row("Sodium (mg/L)", "sodium", w["na"], 1, "200"), row("Sulfates (mg/L)", "sulfate", w["so4"], 1, "500")]
    r.put("<html><head><meta charset='utf-8'></head><body><table><caption>Bilan annuel de la qualité de l'eau potable</caption>" + table([("Paramètre", "Concentration maximale acceptable", "Plage des résultats", "Moyenne"), *rows])[7:] + "<p>s.o. : sans objet</p></body></html>"); r.done()

def zones_down():
    """Britain: zones down, determinands across with units in brackets, codes beside the names, tabs."""
    r, rows = report("08-zones.tsv", "en", hardness_total=("CaCO3", MG), iron=(ION, UG)), []
    for code, place, w in (("ZA01", "Abbots Hill", CHALK), ("ZA02", "Brook End", RIVER), ("ZB07", "Castle Down", MARL)):
        rows.append((code, place, r.v("hardness_total", "mean", w["th_caco3"], 0, place), r.v("calcium", "mean", w["ca"], 1, place), r.v("magnesium", "mean", w["mg"], 1, place), r.v("sodium", "mean", w["na"], 1, place), r.v("nitrate", "mean", w["no3"], 1, place), r.of("iron", "mean", "<5.0", place), r.v("ph", "mean", w["ph"], 2, place)))
    r.put("Annual average results by water supply zone 2024\n" + "\n".join("\t".join(x) for x in [("Zone code", "Zone name", "Hardness (mg CaCO3/l)", "Calcium (mg/l)", "Magnesium (mg/l)", "Sodium (mg/l)", "Nitrate (mg NO3/l)", "Iron (µg/l)", "pH"), *rows]) + "\n"); r.done()

def three_works():
    """Germany: three works side by side, minimum, mean and maximum of each under merged cells; an office's ods."""
    import openpyxl
    r, wb = report("09-werke.ods", "de", ",", hardness_total=(None, "°dH"), alkalinity=("acid_capacity", "mmol/L")), openpyxl.Workbook(); ws = wb.active; ws.title = "Jahreswerte"
    works = (("Werk Amselgrund", CHALK), ("Werk Birkenau", RIVER), ("Werk Cölbe", MOOR))
    ws.append(["Parameter", "Einheit", "Grenzwert"] + [c for w, _ in works for c in (w, None, None)]); ws.append([None] * 3 + ["Min", "Mittel", "Max"] * 3)
    for i in range(3): ws.merge_cells(start_row=1, start_column=4 + 3 * i, end_row=1, end_column=6 + 3 * i)
    for c in "ABC": ws.merge_cells(f"{c}1:{c}2")
    for name, unit, lim, det, key, n in (("pH-Wert", "", "6,5 - 9,5", "ph", "ph", 2), ("Elektrische Leitfähigkeit bei 25 °C", "µS/cm", "2790", "conductivity", "k25", 0), ("Gesamthärte", "°dH", None, "hardness_total", "dh", 1), ("Säurekapazität bis pH 4,3", "mmol/l", None, "alkalinity", "ks", 2), ("Calcium", "mg/l", None, "calcium", "ca", 1), ("Magnesium", "mg/l", None, "magnesium", "mg", 1), ("Natrium", "mg/l", "200", "sodium", "na", 1), ("Kalium", "mg/l", None, "potassium", "k", 1), ("Chlorid", "mg/l", "250", "chloride", "cl", 1), ("Sulfat", "mg/l", "250", "sulfate", "so4", 1), ("Nitrat", "mg/l", "50", "nitrate", "no3", 1)):
        ws.append([name, unit, lim] + [float(t.replace(",", ".")) for p, w in works for t in r.low_mid_high(det, w[key], n, p)])
        for c in "DEFGHIJKL": ws[f"{c}{ws.max_row}"].number_format = "0." + "0" * n if n else "0"
    out = io.BytesIO(); wb.save(out); r.put(office(out.getvalue(), ".xlsx", "ods")); r.done()

def spanish_long():
    """Spain: one row a result in a landscape PDF, dates and points in columns; weasyprint."""
    r, rows = report("10-registro.pdf", "es", ",", conductivity=("20C", "µS/cm")), []
    for place, date, w in (("Depósito Alto", "03/02/2025", MARL), ("Red Barrio Sur", "04/02/2025", RIVER)):
        for name, unit, det, key, n in (("pH", "ud. pH", "ph", "ph", 2), ("Conductividad a 20 °C", "µS/cm", "conductivity", "k20", 0), ("Calcio", "mg/L", "calcium", "ca", 1), ("Magnesio", "mg/L", "magnesium", "mg", 1), ("Sodio", "mg/L", "sodium", "na", 1), ("Potasio", "mg/L", "potassium", "k", 1), ("Cloruros", "mg/L", "chloride", "cl", 1), ("Sulfatos", "mg/L", "sulfate", "so4", 1), ("Nitratos (NO3)", "mg/L", "nitrate", "no3", 1)):
            rows.append((date, place, name, r.v(det, "single", w[key], n, place), unit))
        rows.append((date, place, "Nitritos (NO2)", r.of("nitrite", "single", "<0,02", place), "mg/L"))
    r.put(weasy("<style>@page{size:A4 landscape}td,th{font:8pt 'DejaVu Sans';padding:2pt 8pt;text-align:left}</style><h3>Registro de resultados</h3>" + table([("Fecha de toma", "Punto de muestreo", "Parámetro", "Resultado", "Unidad"), *rows]))); r.done()

def indian_csv():
    """India: headings of two lines in quotes, thousands by commas, a serial number, a remark last."""
    r, w = report("11-panchayat.csv", "en", ".", ",", iron=(ION, MG), tds=(None, MG)), {**DRY, **water(ca=112.0, mg=64.0, na=210.0, k=6.0, cl=312.0, so4=168.0, no3=31.0, ph=7.68)}
    v = r.v
    rows = [("1", "pH", v("ph", "single", w["ph"], 2), "", "6.5-8.5", "Within limit"), ("2", "TDS", v("tds", "single", 1186, 0), "mg/L", "500", "Above acceptable limit"), ("3", "Total Hardness (as CaCO3)", v("hardness_total", "single", w["th_caco3"], 0), "mg/L", "200", "Above acceptable limit"), ("4", "Calcium (as Ca)", v("calcium", "single", w["ca"], 0), "mg/L", "75", ""), ("5", "Magnesium (as Mg)", v("magnesium", "single", w["mg"], 0), "mg/L", "30", ""), ("6", "Chloride (as Cl)", v("chloride", "single", w["cl"], 0), "mg/L", "250", ""), ("7", "Sulphate (as SO4)", v("sulfate", "single", w["so4"], 0), "mg/L", "200", ""), ("8", "Nitrate (as NO3)", v("nitrate", "single", w["no3"], 0), "mg/L", "45", ""), ("9", "Alkalinity (as CaCO3)", v("alkalinity", "single", w["alk_caco3"], 0), "mg/L", "200", ""), ("10", "Fluoride (as F)", r.of("fluoride", "single", "0.9"), "mg/L", "1.0", ""), ("11", "Iron (as Fe)", r.of("iron", "single", "0.14"), "mg/L", "1.0", "")]
    r.put(csv_text([("Sl.\nNo.", "Parameter\n", "Observed\nvalue", "Unit", "Acceptable\nlimit", "Remarks"), *rows])); r.done()

def stacked_places():
    """The Netherlands: two places one under the other, each with its title; an office's PDF from a sheet."""
    import openpyxl
    r, wb = report("12-locaties.pdf", "nl", ",", hardness_total=(None, "mmol/L"), conductivity=("20C", "mS/m")), openpyxl.Workbook(); ws = wb.active
    for place, w in (("Pompstation Heikant", RIVER), ("Pompstation Zandoerle", MOOR)):
        ws.append([place]); ws.append(["Parameter", "Eenheid", "Aantal", "Minimum", "Gemiddelde", "Maximum"])
        for name, unit, det, x, n in (("Zuurgraad", "pH", "ph", w["ph"], 2), ("Geleidbaarheid 20 °C", "mS/m", "conductivity", w["k20"] / 10, 1), ("Hardheid totaal", "mmol/l", "hardness_total", w["th"], 2), ("Waterstofcarbonaat", "mg/l", "bicarbonate", w["hco3"], 0), *((a, "mg/l", d, w[k], 1) for (d, k), a in zip(IONS, ("Calcium", "Magnesium", "Natrium", "Kalium", "Chloride", "Sulfaat", "Nitraat (als NO3)")))):
            ws.append([name, unit, "12", *r.low_mid_high(det, x, n, place)])
        ws.append([])
    ws.sheet_properties.pageSetUpPr = openpyxl.worksheet.properties.PageSetupProperties(fitToPage=True)
    for c, width in zip("ABCDEF", (28, 10, 9, 11, 13, 11)): ws.column_dimensions[c].width = width
    out = io.BytesIO(); wb.save(out); r.put(office(out.getvalue(), ".xlsx", "pdf")); r.done()

def caption_unit():
    """Australia: the unit stands in the caption alone, and in the name where it is another; groff."""
    r, w = report("13-caption.pdf", "en", conductivity=("25C", "µS/cm"), hardness_total=("CaCO3", MG)), DRY
    rows = [(n, *r.low_mid_high(d, x, k)) for n, d, x, k in (("pH (pH units)", "ph", w["ph"], 2), ("Conductivity at 25C (uS/cm)", "conductivity", w["k25"], 0), ("Total hardness as CaCO3", "hardness_total", w["th_caco3"], 0), ("Total alkalinity as CaCO3", "alkalinity", w["alk_caco3"], 0), *((a, d, w[k], 1) for (d, k), a in zip(IONS, ("Calcium", "Magnesium", "Sodium", "Potassium", "Chloride", "Sulfate", "Nitrate as NO3"))))]
    r.put(groff(".LP\nBanksia Flat water supply, July 2023 to June 2024\n.LP\nAll results in mg/L unless otherwise stated\n.TS\nl n n n.\n" + "\n".join("\t".join(x) for x in [("Characteristic", "Minimum", "Average", "Maximum"), *rows]) + "\n.TE\n")); r.done()

if __name__ == "__main__":
    for f in (luxembourg, swiss_french, dutch_divs, us_lab, months_text, german_list, quebec, zones_down, three_works, spanish_long, indian_csv, stacked_places, caption_unit):
        if len(sys.argv) < 2 or f.__name__ in sys.argv[1:]: f()
