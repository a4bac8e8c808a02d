"""Makes the reports of this folder: a fifth round, read once before anything was mended on them. Those that were read right at
once are made too, but not kept here.

python make.py [NAME OF A FUNCTION...], with LaTeX, groff, a browser, an office and the modules reportlab, pymupdf, weasyprint,
openpyxl, odfpy. All waters, places and works are invented.
"""
import json, os, subprocess, sys, tempfile, shutil, html
OUT = os.path.dirname(os.path.abspath(__file__)); os.chdir(OUT)
T = tempfile.mkdtemp(prefix=".t-", dir=OUT)
E = html.escape
NOTFOUND = {"ND", "n.a.", "not detected", "BDL", "n.b."}

class Doc:
    def __init__(s, file, lang, where, ask=()):
        s.file, s.lang, s.where, s.ask, s.rd = file, lang, where, list(ask), []
    def __call__(s, det, txt, unit=None, basis=None, stat="single", sample=None):
        "notes a printed value; gives back the print"
        t = txt.replace("\u202f", "").replace(" ", "")
        d = dict(determinand=det, basis=basis, unit=unit, statistic=stat, value=None, below_detection=False, detection_limit=None)
        if txt in NOTFOUND: d["below_detection"] = True
        elif t[0] in "<": d["below_detection"], d["detection_limit"] = True, float(t[1:].replace(",", "."))
        else: d["value"] = float(t.replace(",", "."))
        if sample: d["sample"] = sample
        if d not in s.rd: s.rd.append(d)
        return txt
    def save(s):
        e = dict(file=s.file, language=s.lang, sample_or_zone=s.where, readings=s.rd, must_ask=s.ask, contradiction=None)
        json.dump(e, open(s.file.rsplit(".", 1)[0] + ".expected.json", "w"), ensure_ascii=False, indent=1)
        print(f"{s.file:38}{len(s.rd):4} readings{'   must ask ' + ', '.join(s.ask) if s.ask else ''}")

class W:
    "water from its ions in mg/L; hydrogencarbonate closes the balance"
    def __init__(s, **i):
        s.i = i; m = {k: v/M for (k, v), M in zip(((k, i[k]) for k in "ca mg na k cl so4 no3".split()), (40.078, 24.305, 22.99, 39.098, 35.453, 96.06, 62.005))}
        b = 2*m["ca"] + 2*m["mg"] + m["na"] + m["k"] - m["cl"] - 2*m["so4"] - m["no3"]; assert b > .05, b
        s.__dict__.update(i); s.b, s.hco3, s.alk = b, b*61.017, b*50.04
        s.mol = m["ca"] + m["mg"]; s.caco3, s.asca, s.dH, s.fH, s.eng, s.gpg, s.kH = s.mol*100.09, s.mol*40.078, s.mol*5.608, s.mol*10.009, s.mol*7.02, s.mol*100.09/17.118, b*2.804
        c = dict(m, b=b); z = dict(ca=2, mg=2, so4=2); lam = dict(ca=119, mg=106.1, na=50.1, k=73.5, cl=76.35, so4=160, no3=71.46, b=44.5)
        I = sum(c[k]*z.get(k, 1)**2 for k in c)/2000; y = 10**(-.5*(I**.5/(1+I**.5)-.3*I))
        s.ec25 = sum(lam[k]*c[k] for k in c)*y*y; s.ec20 = s.ec25/1.116
        s.tds = sum(i.values()) + s.hco3*.49 + 9
    def at(s, f): return W(**{k: v*f for k, v in s.i.items()})
def trio(w, a=.93, b=1.08): return w.at(a), w, w.at(b)
def n(x, d=1, c=False):
    t = f"{x:.{d}f}"; return t.replace(".", ",") if c else t
def write(name, text, enc="utf-8", nl="\n"):
    with open(name, "w", encoding=enc, newline=nl) as f: f.write(text)
def tab(head, rows, attr=""):
    return f"<table{attr}><thead><tr>{''.join(f'<th>{h}</th>' for h in head)}</tr></thead><tbody>" + "\n".join(r if isinstance(r, str) else "<tr>" + "".join(f"<td>{c}</td>" for c in r) + "</tr>" for r in rows) + "</tbody></table>"

# 1 ------------------------------------------------ England, a company's postcode sheet (Chromium)
def england():
    d = Doc("your-water-ouzelmere-hartwell-moss.pdf", "en", "Hartwell Moss"); lo, me, hi = trio(W(ca=94.6, mg=6.2, na=21.4, k=2.9, cl=36.1, so4=33.8, no3=24.7)); rows = []
    def row(name, small, unit, lim, k, det, u, b, v):
        a = [d(det, v[1], u, b, "mean"), d(det, v[0], u, b, "min"), d(det, v[2], u, b, "max")] if det else [v[1], v[0], v[2]]
        rows.append([f"<b>{name}</b>" + (f"<br><small>{small}</small>" if small else "")] + a + [lim, unit, k])
    three = lambda g, p=1: tuple(n(g(x), p) for x in (lo, me, hi))
    sec = lambda t: rows.append(f"<tr class=s><td colspan=7>{t}</td></tr>")
    sec("Hardness and minerals")
    row("Calcium", "", "mg/l Ca", "none", 8, "calcium", "mg/L", "ion", three(lambda x: x.ca))
    row("Magnesium", "", "mg/l Mg", "none", 8, "magnesium", "mg/L", "ion", three(lambda x: x.mg))
    row("Hardness (total)", "Depends on the rock that the water passed through", "mg/l CaCO3", "none", 8, "hardness_total", "mg/L", "CaCO3", three(lambda x: x.caco3, 0))
    row("Alkalinity", "", "mg/l CaCO3", "none", 8, "alkalinity", "mg/L", "CaCO3", three(lambda x: x.alk, 0))
    row("Sodium", "", "mg/l Na", "200", 8, "sodium", "mg/L", "ion", three(lambda x: x.na))
    row("Potassium", "", "mg/l K", "none", 8, "potassium", "mg/L", "ion", three(lambda x: x.k))
    row("Chloride", "", "mg/l Cl", "250", 8, "chloride", "mg/L", "ion", three(lambda x: x.cl))
    row("Sulphate", "", "mg/l SO4", "250", 8, "sulfate", "mg/L", "ion", three(lambda x: x.so4))
    sec("Nutrients")
    row("Nitrate", "Limit of 50 mg/l; mostly from fertilisers used in the 1990s", "mg/l NO3", "50", 8, "nitrate", "mg/L", "ion", three(lambda x: x.no3))
    row("Nitrite", "", "mg/l NO2", "0.5", 8, "nitrite", "mg/L", "ion", ("<0.003", "0.007", "0.021"))
    row("Ammonium", "", "mg/l NH4", "0.5", 8, "ammonium", "mg/L", "ion", ("<0.02", "<0.02", "<0.02"))
    row("Phosphorus", "Added to protect against lead", "µg/l P", "none", 8, "phosphorus_total", "µg/L", "P", ("812", "955", "1090"))
    sec("Metals")
    row("Iron", "", "µg/l Fe", "200", 8, "iron", "µg/L", "ion", ("<4", "7.1", "22.6"))
    row("Copper", "At your tap, from household pipes", "mg/l Cu", "2", 8, "copper", "mg/L", "ion", ("0.021", "0.088", "0.301"))
    row("Lead", "At your tap, from household pipes", "µg/l Pb", "10", 8, "lead", "µg/L", "ion", ("<0.2", "0.6", "2.4"))
    sec("Disinfection and general")
    row("Chlorine, residual", "Free", "mg/l", "none", 48, "chlorine_free", "mg/L", None, ("0.22", "0.41", "0.58"))
    row("Trihalomethanes", "Sum of four", "µg/l", "100", 8, None, 0, 0, ("6.1", "11.9", "19.4"))
    row("pH", "Acid below 7, alkaline above", "pH units", "6.5 to 9.5", 8, "ph", "pH", None, ("7.2", "7.3", "7.5"))
    row("Conductivity", "At 20 degrees", "µS/cm", "2500", 8, "conductivity", "µS/cm", "20C", three(lambda x: x.ec20, 0))
    h = f"""<meta charset=utf-8><style>@page{{size:A4;margin:11mm}}body{{font:9.5pt Arial,sans-serif;color:#123}}table{{border-collapse:collapse;width:100%}}th{{background:#0a5a78;color:#fff;text-align:left;padding:2px 5px}}
td{{border-bottom:1px solid #cde;padding:2px 5px;vertical-align:top}}.s td{{background:#e7f2f6;font-weight:bold}}small{{color:#678}}.box{{background:#e7f2f6;border-radius:6px;padding:6px 10px;margin:8px 0}}</style>
<h1>Ouzelmere Water</h1><p>Water quality in <b>Hartwell Moss</b>, calendar year 2024. You asked about postcode ZQ47 3QX.</p>
<div class=box>Your water is <b>hard</b>. Use regeneration setting 4 on your dishwasher.</div>
{tab(["What we test for", "Average", "Lowest", "Highest", "UK limit", "Unit", "Tests"], rows)}<p><small>&lt; means that the laboratory found less than it can measure. Ouzelmere Water plc, Registered in England no. 00000000.</small></p>"""
    p = os.path.join(T, "c.html"); write(p, h)
    subprocess.run(["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer", f"--user-data-dir={T}/chr", f"--print-to-pdf={OUT}/{d.file}", "file://" + p], check=True, capture_output=True, timeout=150)
    d.save()

# 2 ------------------------------------------------ Wales, two languages (weasyprint)
def wales():
    d = Doc("parth-ansawdd-llanfedran.pdf", "en", "Llanfedran"); lo, me, hi = trio(W(ca=11.2, mg=1.9, na=7.1, k=.7, cl=11.4, so4=8.6, no3=2.1), .9, 1.12); rows = []
    def row(en, cy, unit, pcv, k, det, u, b, v):
        rows.append([f"{en} / {cy}", unit, pcv] + [d(det, x, u, b, s) if det else x for x, s in zip(v, ("min", "mean", "max"))] + [k, "100"])
    th = lambda g, p=1: tuple(n(g(x), p) for x in (lo, me, hi))
    row("Alkalinity", "Alcalinedd", "mg/l CaCO3", "-", 8, "alkalinity", "mg/L", "CaCO3", th(lambda x: x.alk))
    row("Aluminium", "Alwminiwm", "µg/l Al", "200", 8, None, 0, 0, ("<5", "14", "33"))
    row("Ammonium", "Amoniwm", "mg/l NH4", "0.5", 8, "ammonium", "mg/L", "ion", ("<0.015", "<0.015", "0.031"))
    row("Calcium", "Calsiwm", "mg/l Ca", "-", 4, "calcium", "mg/L", "ion", th(lambda x: x.ca))
    row("Chloride", "Clorid", "mg/l Cl", "250", 8, "chloride", "mg/L", "ion", th(lambda x: x.cl))
    row("Coliforms", "Colifformau", "rhif/no. /100 ml", "0", 60, None, 0, 0, ("0", "0", "0"))
    row("Conductivity @ 20 °C", "Dargludedd", "µS/cm", "2500", 8, "conductivity", "µS/cm", "20C", th(lambda x: x.ec20, 0))
    row("Copper", "Copr", "mg/l Cu", "2", 8, "copper", "mg/L", "ion", ("0.004", "0.031", "0.142"))
    row("Free chlorine", "Clorin rhydd", "mg/l Cl2", "-", 60, "chlorine_free", "mg/L", None, ("0.11", "0.36", "0.62"))
    row("Total hardness", "Cyfanswm caledwch", "mg/l Ca", "-", 4, "hardness_total", "mg/L", "Ca", th(lambda x: x.asca))
    row("Iron", "Haearn", "µg/l Fe", "200", 8, "iron", "µg/L", "ion", ("<7", "18", "55"))
    row("Lead", "Plwm", "µg/l Pb", "10", 8, "lead", "µg/L", "ion", ("<0.1", "0.4", "1.7"))
    row("Magnesium", "Magnesiwm", "mg/l Mg", "-", 4, "magnesium", "mg/L", "ion", th(lambda x: x.mg, 2))
    row("Manganese", "Manganîs", "µg/l Mn", "50", 8, "manganese", "µg/L", "ion", ("<0.5", "2.2", "7.9"))
    row("Nitrate", "Nitrad", "mg/l NO3", "50", 8, "nitrate", "mg/L", "ion", th(lambda x: x.no3, 2))
    row("Nitrite", "Nitraid", "mg/l NO2", "0.5", 8, "nitrite", "mg/L", "ion", ("<0.004", "<0.004", "0.009"))
    row("pH (hydrogen ion)", "pH (ïon hydrogen)", "pH", "6.5 – 9.5", 8, "ph", "pH", None, ("7.6", "8.0", "8.6"))
    row("Sodium", "Sodiwm", "mg/l Na", "200", 8, "sodium", "mg/L", "ion", th(lambda x: x.na))
    row("Sulphate", "Sylffad", "mg/l SO4", "250", 8, "sulfate", "mg/L", "ion", th(lambda x: x.so4))
    row("Turbidity", "Cymylogrwydd", "NTU", "4", 8, "turbidity", "NTU", None, ("<0.10", "0.14", "0.33"))
    import weasyprint
    weasyprint.HTML(string=f"""<meta charset=utf-8><style>@page{{size:A4 landscape;margin:10mm;@bottom-center{{content:"Tudalen/Page " counter(page)}}}}body{{font:8.8pt "DejaVu Sans"}}table{{border-collapse:collapse;width:100%}}
td,th{{padding:1mm 1.5mm;border-bottom:.3pt solid #999;text-align:left}}tr:nth-child(even){{background:#f2f2f2}}</style><h2>Dŵr Pentrelas</h2>
<p>Water quality zone / Parth ansawdd dŵr: <b>Llanfedran</b> &nbsp;&nbsp; Period / Cyfnod: 01/01/2024 – 31/12/2024 &nbsp;&nbsp; Population / Poblogaeth: 6,204</p>
{tab(["Parameter / Paramedr", "Units / Unedau", "PCV / GRhG", "Min. / Isaf", "Mean / Cymedr", "Max. / Uchaf", "Samples / Samplau", "% compliance / cydymffurfio"], rows)}
<p>PCV = prescribed concentration or value / gwerth neu grynodiad rhagnodedig. Soft water / dŵr meddal.</p>""").write_pdf(d.file); d.save()

# 3 ------------------------------------------------ Northern Ireland, a sheet a zone (openpyxl)
def nireland():
    from openpyxl import Workbook
    from openpyxl.styles import Font, PatternFill
    zones = [("ZN0905 Ballykevarra", W(ca=31.4, mg=5.2, na=13.7, k=1.4, cl=21.9, so4=28.3, no3=5.9), 1.02), ("ZN0911 Drumquarrow", W(ca=18.9, mg=3.1, na=15.2, k=1.1, cl=19.6, so4=31.7, no3=1.6), .77)]
    d = Doc("zone-results-2024.xlsx", "en", [z[0] for z in zones]); wb = Workbook(); wb.remove(wb.active)
    for name, w, f in zones:
        ws = wb.create_sheet(name); ws["A1"] = "Lough Drummeen Water Service"; ws["A1"].font = Font(bold=True, size=14)
        ws["A2"] = "Supply zone"; ws["B2"] = name; ws["A3"] = "Supply year"; ws["B3"] = 2024; ws["A4"] = "Population"; ws["B4"] = int(18411*f)
        for j, h in enumerate(["Parameter", "Units", "Regulatory limit", "Samples taken", "Average", "Maximum", "Samples above limit"], 1):
            c = ws.cell(6, j, h); c.font = Font(bold=True); c.fill = PatternFill("solid", fgColor="DDEBF7")
        i = 7; hi = w.at(1.11)
        def row(nm, unit, pcv, k, det, u, b, a, x, p=None):
            nonlocal i
            for j, v in enumerate([nm, unit, pcv, k, a, x, 0], 1):
                c = ws.cell(i, j, v)
                if j in (5, 6):
                    if isinstance(v, float): c.number_format = "0" if p == 0 else "0." + "0"*p; t = f"{v:.{p}f}"
                    else: t = str(v)
                    if det: d(det, t, u, b, "mean" if j == 5 else "max", name)
            i += 1
        j_ = .0317   # digits that are not shown
        row("Alkalinity", "mg/l as HCO3", None, 8, "alkalinity", "mg/L", "HCO3", w.hco3+j_, hi.hco3+j_, 1)
        row("Aluminium", "µg Al/l", 200, 12, None, 0, 0, 27.4*f, 61.2, 1)
        row("Ammonium", "mg NH4/l", .5, 12, "ammonium", "mg/L", "ion", "<0.01", .0231, 3)
        row("Calcium", "mg Ca/l", None, 8, "calcium", "mg/L", "ion", w.ca+.0113, hi.ca+.0113, 1)
        row("Chloride", "mg Cl/l", 250, 8, "chloride", "mg/L", "ion", w.cl+.0021, hi.cl, 1)
        row("E. coli", "no./100ml", 0, 52, None, 0, 0, 0, 0)
        row("Electrical conductivity", "µS/cm @20°C", 2500, 12, "conductivity", "µS/cm", "20C", w.ec20, hi.ec20, 0)
        row("Hydrogen ion", "pH value", "6.5-9.5", 12, "ph", "pH", None, 7.714, 7.963, 2)
        row("Iron", "µg Fe/l", 200, 12, "iron", "µg/L", "ion", 13.62*f, 48.9, 1)
        row("Magnesium", "mg Mg/l", None, 8, "magnesium", "mg/L", "ion", w.mg+.0033, hi.mg, 2)
        row("Manganese", "µg Mn/l", 50, 12, "manganese", "µg/L", "ion", "<1.0", 5.47*f, 1)
        row("Nitrate", "mg NO3/l", 50, 8, "nitrate", "mg/L", "ion", w.no3+.0021, hi.no3, 2)
        row("Potassium", "mg K/l", None, 8, "potassium", "mg/L", "ion", w.k+.0021, hi.k, 2)
        row("Residual chlorine - total", "mg/l", None, 52, "chlorine_total", "mg/L", None, .6142*f, .9417, 2)
        row("Sodium", "mg Na/l", 200, 8, "sodium", "mg/L", "ion", w.na+.0127, hi.na, 1)
        row("Sulphate", "mg SO4/l", 250, 8, "sulfate", "mg/L", "ion", w.so4+.0127, hi.so4, 1)
        row("Total hardness", "mg CaCO3/l", None, 8, "hardness_total", "mg/L", "CaCO3", w.caco3, hi.caco3, 1)
        row("Total trihalomethanes", "µg/l", 100, 8, None, 0, 0, 44.81*f, 71.3, 1)
        ws.cell(i+1, 1, "Values are rounded for display."); ws.column_dimensions["A"].width = 28
    wb.save(d.file); d.save()

# 4 ------------------------------------------------ Ohio village CCR (LibreOffice)
def ohio():
    d = Doc("tuskeen-village-ccr.pdf", "en", "Village of Tuskeen"); w = W(ca=88.3, mg=29.6, na=18.8, k=2.2, cl=27.4, so4=71.5, no3=6.33); lo, hi = w.at(.96), w.at(1.05)
    def rng(det, a, b, u, bs): return f"{d(det, a, u, bs, 'min')} - {d(det, b, u, bs, 'max')}"
    A = [["<b>Inorganic contaminants</b>", "", "", "", "", "", "", ""],
      ["Fluoride (ppm)", "4", "4", d("fluoride", "0.94", "mg/L", "ion", "mean"), rng("fluoride", "0.81", "1.08", "mg/L", "ion"), "No", "2024", "Water additive which promotes strong teeth"],
      ["Nitrate, measured as nitrogen (ppm)", "10", "10", d("nitrate", n(w.no3/4.4268, 2), "mg/L", "N", "mean"), rng("nitrate", n(lo.no3/4.4268, 2), n(hi.no3/4.4268, 2), "mg/L", "N"), "No", "2024", "Runoff from fertilizer use"],
      ["Barium (ppm)", "2", "2", "0.113", "NA", "No", "2023", "Erosion of natural deposits"],
      ["<b>Residual disinfectants</b>", "", "", "", "", "", "", ""],
      ["Total chlorine (ppm)", "MRDLG = 4", "MRDL = 4", d("chlorine_total", "1.18", "mg/L", None, "mean"), rng("chlorine_total", "0.88", "1.42", "mg/L", None), "No", "2024", "Water additive used to control microbes"],
      ["<b>Disinfection byproducts</b>", "", "", "", "", "", "", ""],
      ["Haloacetic acids (HAA5) (ppb)", "NA", "60", "7.3", "NA", "No", "2024", "By-product of drinking water disinfection"],
      ["Total trihalomethanes (ppb)", "NA", "80", "24.6", "NA", "No", "2024", "By-product of drinking water disinfection"]]
    B = [["Copper (ppm)", "1.3", "0 of 10", d("copper", "0.312", "mg/L", "ion", "p90"), "No", "2023", "Corrosion of household plumbing"], ["Lead (ppb)", "15", "0 of 10", d("lead", "2.1", "µg/L", "ion", "p90"), "No", "2023", "Corrosion of household plumbing"]]
    C = [["Hardness", f"{d('hardness_total', n(w.gpg), 'gpg', None, 'mean')}", "grains per gallon"], ["Hardness", d("hardness_total", n(w.caco3, 0), "mg/L", "CaCO3", "mean"), "ppm as CaCO3"],
      ["Alkalinity", d("alkalinity", n(w.alk, 0), "mg/L", "CaCO3", "mean"), "ppm as CaCO3"], ["Calcium", d("calcium", n(w.ca), "mg/L", "ion", "mean"), "ppm"], ["Magnesium", d("magnesium", n(w.mg), "mg/L", "ion", "mean"), "ppm"],
      ["Sodium", d("sodium", n(w.na), "mg/L", "ion", "mean"), "ppm"], ["Chloride", d("chloride", n(w.cl), "mg/L", "ion", "mean"), "ppm"], ["Sulfate", d("sulfate", n(w.so4), "mg/L", "ion", "mean"), "ppm"],
      ["pH", d("ph", "7.41", "pH", None, "mean"), "standard units"], ["Iron", d("iron", "0.04", "mg/L", "ion", "mean"), "ppm"], ["Manganese", d("manganese", "<0.01", "mg/L", "ion", "mean"), "ppm"], ["Silica", d("silica", "13.6", "mg/L", "SiO2", "mean"), "ppm as SiO2"],
      ["Total dissolved solids", d("tds", n(w.tds, 0), "mg/L", None, "mean"), "ppm"]]
    at = ' border="1" cellspacing="0" cellpadding="2"'
    h = f"""<html><head><meta charset="utf-8"></head><body><h1>Village of Tuskeen</h1><h2>Drinking Water Consumer Confidence Report for 2024</h2>
<p>The Village of Tuskeen has prepared the following report to provide information to you, the consumer, on the quality of our drinking water. Our two wells draw from a sand and gravel aquifer 84 feet below the ground. If you have questions call the water office at 000-0117.</p>
<p>Listed below is information on those contaminants that were found in the Village of Tuskeen drinking water.</p>
{tab(["Contaminants (units)", "MCLG", "MCL", "Average level found", "Range of detections", "Violation", "Sample year", "Typical source of contaminants"], A, at)}
<h3>Lead and copper</h3>{tab(["Contaminants (units)", "Action level (AL)", "Results over the AL", "90% of test levels were less than", "Violation", "Sample year", "Typical source"], B, at)}
<h3>Other characteristics that customers ask about (2024 averages)</h3>{tab(["Characteristic", "Average", "Units"], C, at)}
<p>Definitions. MCL: maximum contaminant level. ppm: parts per million or milligrams per liter (mg/L). ppb: parts per billion or micrograms per liter (µg/L). One ppm corresponds to 1 minute in 2 years. NA: not applicable.</p></body></html>"""
    p = os.path.join(T, d.file.replace(".pdf", ".html")); write(p, h)
    subprocess.run(["soffice", f"-env:UserInstallation=file://{T}/lo", "--headless", "--infilter=HTML (StarWriter)", "--convert-to", "pdf:writer_pdf_Export", "--outdir", OUT, p], check=True, capture_output=True, timeout=180); d.save()

# 5 ------------------------------------------------ Ontario township, pasted with single spaces
def ontario():
    d = Doc("quillander-falls-annual.txt", "en", "Quillander Falls Drinking Water System"); w = W(ca=38.4, mg=8.9, na=14.2, k=1.6, cl=22.8, so4=17.1, no3=.66*4.4268); D = "2024-09-17"
    L = []
    def row(nm, det, v, unit, u, b, std, exc="No"): L.append(f"{nm} {D} {d(det, v, u, b) if det else v} {unit} {std} {exc}".replace("  ", " "))
    row("Alkalinity (as CaCO3)", "alkalinity", n(w.alk, 0), "mg/L", "mg/L", "CaCO3", "30-500")
    row("Hardness (as CaCO3)", "hardness_total", n(w.caco3, 0), "mg/L", "mg/L", "CaCO3", "80-100", "Yes")
    row("Calcium", "calcium", n(w.ca), "mg/L", "mg/L", "ion", "-", "-"); row("Magnesium", "magnesium", n(w.mg, 2), "mg/L", "mg/L", "ion", "-", "-")
    row("Sodium", "sodium", n(w.na), "mg/L", "mg/L", "ion", "20*"); row("Potassium", "potassium", n(w.k, 2), "mg/L", "mg/L", "ion", "-", "-")
    row("Chloride", "chloride", n(w.cl), "mg/L", "mg/L", "ion", "250"); row("Sulphate", "sulfate", n(w.so4), "mg/L", "mg/L", "ion", "500")
    row("Nitrate (as N)", "nitrate", "0.66", "mg/L", "mg/L", "N", "10"); row("Nitrite (as N)", "nitrite", "<0.003", "mg/L", "mg/L", "N", "1")
    row("Ammonia + Ammonium (as N)", "ammonium", "0.06", "mg/L", "mg/L", "N", "-", "-")
    row("Fluoride", "fluoride", "0.07", "mg/L", "mg/L", "ion", "1.5"); row("Conductivity @ 25 °C", "conductivity", n(w.ec25, 0), "uS/cm", "µS/cm", "25C", "-", "-")
    row("pH", "ph", "7.83", "pH units", "pH", None, "6.5-8.5"); row("Turbidity", "turbidity", "0.18", "NTU", "NTU", None, "5"); row("Colour", None, "<2", "TCU", 0, 0, "5")
    row("Dissolved Organic Carbon", None, "1.8", "mg/L", 0, 0, "5"); row("Iron", "iron", "12", "µg/L", "µg/L", "ion", "300"); row("Manganese", "manganese", "3.1", "µg/L", "µg/L", "ion", "50")
    row("Copper", "copper", "64.2", "µg/L", "µg/L", "ion", "1000"); row("Zinc", "zinc", "5.5", "µg/L", "µg/L", "ion", "5000"); row("Lead", "lead", "0.21", "µg/L", "µg/L", "ion", "10")
    row("Boron", "boron", "17", "µg/L", "µg/L", "ion", "5000"); row("Total Dissolved Solids", "tds", n(w.tds, 0), "mg/L", "mg/L", None, "500")
    write(d.file, f"""Township of Quillander Falls
Drinking Water Systems Regulation - Annual Report
Drinking-Water System Name: Quillander Falls Drinking Water System
Drinking-Water System Category: Large Municipal Residential
Period being reported: January 1, 2024 to December 31, 2024

Summary of general chemistry and inorganic parameters tested during this reporting period (treated water)
Parameter Sample Date Result Value Unit of Measure ODWQS Exceedance
""" + "\n".join(L) + """

* The local Medical Officer of Health is notified when sodium exceeds 20 mg/L.
< means below the method detection limit. Operational guideline for hardness is 80-100 mg/L; it is not a health limit.
"""); d.save()

# 6 ------------------------------------------------ Victoria, long CSV (UTF-8 with mark)
def victoria():
    zs = [("Wirrabeen", W(ca=7.9, mg=3.4, na=16.8, k=1.9, cl=24.1, so4=4.4, no3=.35)), ("Old Tarrick", W(ca=24.6, mg=19.8, na=81.0, k=4.9, cl=129.0, so4=31.6, no3=2.2))]
    d = Doc("gumbara-water-quality-data-2023-24.csv", "en", [z[0] for z in zs]); L = ["Water sampling locality,Parameter,Unit,Guideline value,No. of samples,Minimum,Maximum,Average"]
    for z, w in zs:
        lo, me, hi = trio(w, .9, 1.13); q = lambda x: f'"{int(x):,}"' if x >= 1000 else n(x, 0)
        def row(nm, unit, gl, k, det, u, b, v):
            L.append(f"{z},{nm},{unit},{gl},{k}," + ",".join((d(det, x, u, b, s, z) if det else x) for x, s in zip(v, ("min", "max", "mean"))))
        t = lambda g, p=1: (n(g(lo), p), n(g(hi), p), n(g(me), p)); soft = z == "Wirrabeen"
        row("E. coli", "orgs/100mL", 0, 52, None, 0, 0, ("0", "0", "0"))
        row("Chlorine (free)", "mg/L", 5, 52, "chlorine_free", "mg/L", None, ("0.08", "0.91", "0.44") if soft else ("<0.05", "0.72", "0.31"))
        row("pH", "pH units", "6.5 - 8.5", 52, "ph", "pH", None, ("6.9", "7.9", "7.3") if soft else ("7.6", "8.2", "7.9"))
        row("Turbidity", "NTU", 5, 52, "turbidity", "NTU", None, ("0.1", "0.8", "0.2") if soft else ("<0.1", "0.5", "0.3"))
        row("Electrical conductivity at 25°C", "µS/cm", "", 12, "conductivity", "µS/cm", "25C", t(lambda x: x.ec25, 0))
        row('"Hardness, total (as CaCO3)"', "mg/L", 200, 12, "hardness_total", "mg/L", "CaCO3", t(lambda x: x.caco3, 0))
        row('"Alkalinity, total (as CaCO3)"', "mg/L", "", 12, "alkalinity", "mg/L", "CaCO3", t(lambda x: x.alk, 0))
        row("Sodium", "mg/L", 180, 4, "sodium", "mg/L", "ion", t(lambda x: x.na)); row("Chloride", "mg/L", 250, 4, "chloride", "mg/L", "ion", t(lambda x: x.cl))
        row("Nitrate (as NO3)", "mg/L", 50, 4, "nitrate", "mg/L", "ion", t(lambda x: x.no3, 2)); row("Iron", "mg/L", .3, 12, "iron", "mg/L", "ion", ("<0.01", "0.09", "0.03") if soft else ("0.02", "0.16", "0.07"))
        row("Trihalomethanes (total)", "mg/L", .25, 12, None, 0, 0, ("0.031", "0.102", "0.066") if soft else ("0.052", "0.141", "0.088"))
    write(d.file, "\n".join(L) + "\n", "utf-8-sig", "\r\n"); d.save()

# 7 ------------------------------------------------ New Zealand council page, cards
def zealand():
    d = Doc("waitoretore-council-water.html", "en", "Kahurere Bay"); w = W(ca=14.9, mg=3.3, na=13.1, k=2.4, cl=15.8, so4=7.7, no3=1.31*4.4268); lo, hi = w.at(.94), w.at(1.07); C = []
    def card(nm, det, v, unit, u, b, rg=None, lim=None):
        c = f'<div class="card"><h3>{nm}</h3><div class="big">{d(det, v, u, b, "mean")} <span class="unit">{unit}</span></div>'
        if rg: c += f'<div class="line"><span>Range</span> <span>{d(det, rg[0], u, b, "min")} to {d(det, rg[1], u, b, "max")}</span></div>'
        if lim: c += f'<div class="line"><span>Maximum acceptable value</span> <span>{lim}</span></div>'
        C.append(c + "</div>")
    g = "g/m&sup3;"; r = lambda f, p=1: (n(f(lo), p), n(f(hi), p))
    card("pH", "ph", "7.7", "", "pH", None, ("7.4", "8.0")); card("Total hardness", "hardness_total", n(w.caco3), g + " as CaCO<sub>3</sub>", "mg/L", "CaCO3", r(lambda x: x.caco3))
    card("Alkalinity", "alkalinity", n(w.alk), g + " as CaCO<sub>3</sub>", "mg/L", "CaCO3", r(lambda x: x.alk)); card("Conductivity", "conductivity", n(w.ec25/10, 1), "mS/m at 25 &deg;C", "mS/m", "25C", r(lambda x: x.ec25/10))
    card("Calcium", "calcium", n(w.ca), g, "mg/L", "ion"); card("Magnesium", "magnesium", n(w.mg, 2), g, "mg/L", "ion"); card("Sodium", "sodium", n(w.na), g, "mg/L", "ion"); card("Potassium", "potassium", n(w.k, 2), g, "mg/L", "ion")
    card("Chloride", "chloride", n(w.cl), g, "mg/L", "ion"); card("Sulphate", "sulfate", n(w.so4), g, "mg/L", "ion"); card("Nitrate nitrogen", "nitrate", "1.31", g + " N", "mg/L", "N", (n(lo.no3/4.4268, 2), n(hi.no3/4.4268, 2)), "11.3 " + g + " N")
    card("Fluoride", "fluoride", "0.72", g, "mg/L", "ion", ("0.64", "0.81"), "1.5 " + g); card("Free available chlorine", "chlorine_free", "0.52", g, "mg/L", None, ("0.31", "0.70"), "5 " + g)
    card("Iron", "iron", "0.02", g, "mg/L", "ion"); card("Manganese", "manganese", "<0.001".replace("<", "<"), g, "mg/L", "ion", None, "0.4 " + g); card("Silica", "silica", "31.8", g + " as SiO<sub>2</sub>", "mg/L", "SiO2"); card("Boron", "boron", "0.033", g, "mg/L", "ion", None, "2.4 " + g)
    body = "\n".join(C).replace("<0.001", "&lt;0.001")
    write(d.file, f"""<!doctype html><html lang="en-NZ"><head><meta charset="utf-8"><title>What's in your water | Waitoretore District Council</title><style>.grid{{display:grid;grid-template-columns:repeat(4,1fr)}}</style></head><body>
<nav><ul><li><a href="#">Rates</a></li><li><a href="#">Rubbish and recycling</a></li><li><a href="#">Water</a></li></ul></nav>
<main><h1>What's in your water</h1><h2>Kahurere Bay supply</h2><p>The figures are averages for July 2023 to June 2024. {g} is the same as mg/L or parts per million. Your water is soft.</p>
<div class="grid">
{body}
</div><p>Need help with a leak? Call us on 0000 117 any time.</p></main><footer>&copy; 2024 Waitoretore District Council</footer></body></html>"""); d.save()

# 8 ------------------------------------------------ Kenya, pasted with tabs; nitrate has no basis
def kenya():
    d = Doc("mtomawe-borehole-analysis.txt", "en", "Kisimandogo Borehole No. 2", ["nitrate"]); w = W(ca=21.4, mg=6.8, na=58.2, k=6.1, cl=34.0, so4=12.2, no3=9.0); L = []
    def row(nm, unit, det, v, u, b, rem=""): L.append(f"{nm}\t{unit}\t{d(det, v, u, b) if det else v}\t{rem}")
    row("pH", "pH scale", "ph", "7.62", "pH", None, "Satisfactory"); row("Colour", "mgPt/l", None, "<5", 0, 0, "Satisfactory"); row("Turbidity", "N.T.U", "turbidity", "1.2", "NTU", None, "Satisfactory")
    row("Conductivity (25oC)", "µS/cm", "conductivity", n(w.ec25, 0), "µS/cm", "25C"); row("Iron", "mg/l", "iron", "0.09", "mg/L", "ion"); row("Manganese", "mg/l", "manganese", "<0.01", "mg/L", "ion")
    row("Calcium", "mg/l", "calcium", n(w.ca), "mg/L", "ion"); row("Magnesium", "mg/l", "magnesium", n(w.mg), "mg/L", "ion")
    row("Total Hardness", "mgCaCO3/l", "hardness_total", n(w.caco3, 0), "mg/L", "CaCO3", "Moderately soft"); row("Total Alkalinity", "mgCaCO3/l", "alkalinity", n(w.alk, 0), "mg/L", "CaCO3")
    row("Chloride", "mg/l", "chloride", n(w.cl, 0), "mg/L", "ion"); row("Fluoride", "mg/l", "fluoride", "1.38", "mg/L", "ion", "Near the limit"); row("Nitrate", "mg/l", "nitrate", n(w.no3), "mg/L", None)
    row("Nitrite (as NO2)", "mg/l", "nitrite", "<0.01", "mg/L", "ion"); row("Ammonia (as N)", "mg/l", "ammonium", "0.07", "mg/L", "N"); row("Sulphate", "mg/l", "sulfate", n(w.so4), "mg/L", "ion")
    row("Silica (as SiO2)", "mg/l", "silica", "48.5", "mg/L", "SiO2"); row("Free Carbon Dioxide", "mg/l", None, "14", 0, 0); row("Total Dissolved Solids", "mg/l", "tds", n(w.tds+40, 0), "mg/L", None); row("Residual chlorine (free)", "mg/l", "chlorine_free", "0.3", "mg/L", None)
    write(d.file, "MTOMAWE WATER AND SANITATION COMPANY\nCENTRAL TESTING LABORATORY - WATER ANALYSIS REPORT\nSample No.\t0412/24\nSource\tKisimandogo Borehole No. 2\nDate of sampling\t14/8/2024\nSubmitted by\tThe Manager\n\nPARAMETERS\tUNIT\tRESULTS\tREMARKS\n" + "\n".join(L) + "\n\nCOMMENTS: The water is suitable for domestic use with regard to the parameters tested.\n"); d.save()

# 9 ------------------------------------------------ Lower Saxony, yearly means (pdflatex)
def saxony():
    d = Doc("wbv-heidelund-jahresmittel.pdf", "de", "Wasserwerk Ohlenbrock"); w = W(ca=49.7, mg=5.1, na=14.8, k=1.7, cl=24.9, so4=28.6, no3=1.9); L = []; c = lambda x, p=1: n(x, p, True)
    def row(nm, sy, un, lim, det, v, u, b): L.append(f"{nm} & {sy} & {un} & {lim} & {d(det, v, u, b, 'mean') if det else v} \\\\")
    row("Wassertemperatur", "", r"$^\circ$C", "", "temperature", "10,4", "°C", None); row("pH-Wert", "", "", "6,5--9,5", "ph", "7,71", "pH", None); row("pH-Wert der Calcitsättigung", "", "", "", None, "7,74", 0, 0)
    row(r"Elektr. Leitfähigkeit (bei 25\,$^\circ$C)", "", r"$\mu$S/cm", "2790", "conductivity", c(w.ec25, 0), "µS/cm", "25C"); row("Trübung", "", "NTU", "1,0", "turbidity", "0,08", "NTU", None); row("Färbung (SAK 436 nm)", "", "1/m", "0,5", None, "0,19", 0, 0)
    L.append(f"Gesamthärte & & $^\\circ$dH (mmol/l) & & {d('hardness_total', c(w.dH), '°dH', None, 'mean')} ({d('hardness_total', c(w.mol, 2), 'mmol/L', None, 'mean')}) \\\\"); L.append("Härtebereich & & & & weich \\\\" if w.dH < 8.4 else "Härtebereich & & & & mittel \\\\")
    row("Säurekapazität bis pH 4,3", r"$K_{S4,3}$", "mmol/l", "", "alkalinity", c(w.b, 2), "mmol/L", "acid_capacity"); row("Basekapazität bis pH 8,2", r"$K_{B8,2}$", "mmol/l", "", None, "0,11", 0, 0)
    for nm, sy, lim, det, v, b in [("Calcium", "Ca$^{2+}$", "", "calcium", c(w.ca), "ion"), ("Magnesium", "Mg$^{2+}$", "", "magnesium", c(w.mg), "ion"), ("Natrium", "Na$^{+}$", "200", "sodium", c(w.na), "ion"), ("Kalium", "K$^{+}$", "", "potassium", c(w.k), "ion"), ("Eisen", "Fe", "0,200", "iron", "0,012", "ion"),
        ("Mangan", "Mn", "0,050", "manganese", "<0,005", "ion"), ("Ammonium", "NH$_4^+$", "0,50", "ammonium", "<0,02", "ion"), ("Nitrit", "NO$_2^-$", "0,50", "nitrite", "<0,01", "ion"), ("Nitrat", "NO$_3^-$", "50", "nitrate", c(w.no3), "ion"), ("Chlorid", "Cl$^-$", "250", "chloride", c(w.cl), "ion"),
        ("Sulfat", "SO$_4^{2-}$", "250", "sulfate", c(w.so4), "ion"), ("Phosphat, gesamt", "als P", "", "phosphorus_total", "0,062", "P"), ("Silikat", "SiO$_2$", "", "silica", "17,4", "SiO2"), ("Fluorid", "F$^-$", "1,5", "fluoride", "0,11", "ion"), ("Bor", "B", "1,0", "boron", "0,027", "ion"), ("Kupfer", "Cu", "2,0", "copper", "<0,002", "ion"), ("Sauerstoff", "O$_2$", "", "dissolved_oxygen", "8,9", None), ("TOC", "C", "", "toc", "1,1", None)]:
        row(nm, sy, "mg/l", lim, det, v, "mg/L", b); L[-1] = L[-1].replace("<", "$<$")
    tex = r"""\documentclass[10pt,a4paper]{article}\usepackage[utf8]{inputenc}\usepackage{booktabs,geometry}\geometry{margin=20mm}\pagestyle{empty}\begin{document}
{\Large\bfseries Wasserbeschaffungsverband Heidelund-Süd}\\[2mm]{\large Trinkwasserbeschaffenheit: Jahresmittelwerte 2024}\\[2mm] Versorgung aus: Wasserwerk Ohlenbrock (6 Brunnen, Fördertiefe 60 bis 140\,m)\\[4mm]
\begin{tabular}{lllrr}\toprule Parameter & Zeichen & Einheit & Grenzwert & Mittelwert \\ \midrule
""" + "\n".join(L) + r"""
\bottomrule\end{tabular}

\medskip\noindent\small Grenzwerte nach Trinkwasserverordnung. Zugesetzt werden keine Stoffe; das Rohwasser wird belüftet und filtriert. Wasch- und Reinigungsmittel nach Härtebereich dosieren.
\end{document}"""
    write(os.path.join(T, "l.tex"), tex); subprocess.run(["pdflatex", "-interaction=nonstopmode", "l.tex"], cwd=T, capture_output=True); shutil.copy(os.path.join(T, "l.pdf"), d.file); d.save()

# 10 ----------------------------------------------- Baden-Württemberg, pasted, a cell a line
def wuertt():
    d = Doc("stadtwerke-wimmerbach.txt", "de", "Hochbehälter Rotäcker"); w = W(ca=104.2, mg=21.7, na=11.6, k=1.9, cl=27.2, so4=58.4, no3=23.3); c = lambda x, p=1: n(x, p, True); L = []
    def row(nm, un, lim, det, v, u, b): L.extend([nm, un, lim, d(det, v, u, b) if det else v])
    row("Wassertemperatur", "°C", "-", "temperature", "11,3", "°C", None); row("pH-Wert", "-", "6,5 - 9,5", "ph", "7,38", "pH", None); row("Leitfähigkeit bei 20 °C", "µS/cm", "2500", "conductivity", c(w.ec20, 0), "µS/cm", "20C")
    row("Gesamthärte", "°dH", "-", "hardness_total", c(w.dH), "°dH", None); row("Karbonathärte", "°dH", "-", "hardness_carbonate", c(w.kH), "°dH", None); row("Härtebereich", "-", "-", None, "hart", 0, 0)
    row("Säurekapazität (pH 4,3)", "mmol/l", "-", "alkalinity", c(w.b, 2), "mmol/L", "acid_capacity")
    for nm, lim, det, v in [("Calcium (Ca)", "-", "calcium", c(w.ca)), ("Magnesium (Mg)", "-", "magnesium", c(w.mg)), ("Natrium (Na)", "200", "sodium", c(w.na)), ("Kalium (K)", "-", "potassium", c(w.k)), ("Eisen, gesamt (Fe)", "0,2", "iron", "<0,01"), ("Mangan (Mn)", "0,05", "manganese", "<0,005"), ("Ammonium (NH4)", "0,5", "ammonium", "<0,03"),
        ("Nitrat (NO3)", "50", "nitrate", c(w.no3)), ("Nitrit (NO2)", "0,5", "nitrite", "<0,02"), ("Chlorid (Cl)", "250", "chloride", c(w.cl)), ("Sulfat (SO4)", "250", "sulfate", c(w.so4)), ("Fluorid (F)", "1,5", "fluoride", "0,09")]: row(nm, "mg/l", lim, det, v, "mg/L", "ion")
    row("Chlordioxid", "mg/l", "0,2", None, "0,06", 0, 0); row("Summe Pflanzenschutzmittel", "µg/l", "0,5", None, "0,04", 0, 0); row("Koloniezahl bei 22 °C", "KBE/ml", "100", None, "0", 0, 0)
    write(d.file, "Stadtwerke Wimmerbach\nTrinkwasseranalyse\nEntnahmestelle: Hochbehälter Rotäcker\nDatum der Probenahme: 06.02.2025\n\nParameter\nEinheit\nGrenzwert\nErgebnis\n" + "\n".join(L) + "\n\nFragen zur Wasserqualität? Rufen Sie uns an: 00000 117-0\n"); d.save()

# 11 ----------------------------------------------- Aargau-like commune, three zones (reportlab)
def aargau():
    from reportlab.platypus import SimpleDocTemplate, Table, TableStyle, Paragraph, Spacer
    from reportlab.lib.styles import getSampleStyleSheet
    from reportlab.lib import colors
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont
    pdfmetrics.registerFont(TTFont("DV", "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf"))
    Z = [("Oberdorf", W(ca=88.0, mg=17.9, na=5.2, k=1.0, cl=9.8, so4=21.0, no3=14.6)), ("Unterdorf", W(ca=101.4, mg=20.3, na=9.7, k=1.5, cl=19.2, so4=27.7, no3=24.8)), ("Riedmatt", W(ca=76.5, mg=12.2, na=3.4, k=.7, cl=5.1, so4=9.9, no3=6.7))]
    d = Doc("trinkwasser-sulzerlen.pdf", "de", [z[0] for z in Z])
    def row(nm, lim, det, g, p, u, b): return [nm] + [d(det, n(g(w), p), u, b, "single", z) for z, w in Z] + [lim]
    R = [["Parameter", *[z[0] for z in Z], "Höchstwert"], ["Herkunft", "Quellwasser", "Grundwasser", "Quellwasser", ""], ["Behandlung", "UV", "keine", "UV", ""], ["Probenahme", "12.11.2024", "12.11.2024", "12.11.2024", ""],
      row("Gesamthärte (°fH)", "", "hardness_total", lambda w: w.fH, 1, "°fH", None), row("Calcium (mg/l)", "", "calcium", lambda w: w.ca, 1, "mg/L", "ion"), row("Magnesium (mg/l)", "", "magnesium", lambda w: w.mg, 1, "mg/L", "ion"),
      row("Natrium (mg/l)", "200", "sodium", lambda w: w.na, 1, "mg/L", "ion"), row("Kalium (mg/l)", "", "potassium", lambda w: w.k, 1, "mg/L", "ion"), row("Chlorid (mg/l)", "250", "chloride", lambda w: w.cl, 1, "mg/L", "ion"), row("Sulfat (mg/l)", "250", "sulfate", lambda w: w.so4, 1, "mg/L", "ion"), row("Nitrat (mg/l)", "40", "nitrate", lambda w: w.no3, 1, "mg/L", "ion"),
      row("Hydrogencarbonat (mg/l)", "", "bicarbonate", lambda w: w.hco3, 0, "mg/L", "HCO3"), ["Aerobe mesophile Keime (KBE/ml)", "2", "0", "5", "300"], ["Escherichia coli (KBE/100 ml)", "0", "0", "0", "0"], ["Chlorothalonil-Metabolit (µg/l)", "<0.02", "0.06", "<0.02", "0.1"]]
    st = getSampleStyleSheet()
    for k in ("Title", "Normal"): st[k].fontName = "DV"
    t = Table(R, colWidths=[165, 82, 82, 82, 70]); t.setStyle(TableStyle([("FONT", (0, 0), (-1, -1), "DV", 8.5), ("BACKGROUND", (0, 0), (-1, 0), colors.lightsteelblue), ("LINEBELOW", (0, 0), (-1, -1), .25, colors.grey), ("ALIGN", (1, 0), (-1, -1), "CENTER")]))
    SimpleDocTemplate(d.file, title="Trinkwasserqualität 2024").build([Paragraph("Gemeinde Sulzerlen", st["Title"]), Paragraph("Information der Wasserversorgung über die Trinkwasserqualität 2024. Versorgte Einwohner: 3'418. Das Wasser ist mittelhart bis hart; im Verbundnetz gelten die Werte der jeweiligen Zone.", st["Normal"]), Spacer(1, 12), t, Spacer(1, 12),
        Paragraph("Weitere Auskünfte erteilt der Brunnenmeister, Telefon 000 117 00 00.", st["Normal"])]); d.save()

# 12 ----------------------------------------------- Belgian commune, German; degrees without a kind
def ostbelgien():
    d = Doc("gemeinde-hohenvehn-wasser.html", "de", "Behälter Kreuzheck", ["hardness_total"]); L = []
    def row(nm, det, v, un, u, b, lim=""):
        L.append(f"<dt>{nm}</dt><dd>{E(d(det, v, u, b) if det else v)}{' ' + un if un else ''}{f' <em>(Grenzwert {lim})</em>' if lim else ''}</dd>")
    row("Temperatur", "temperature", "9,1", "°C", "°C", None); row("pH-Wert", "ph", "7,6", "", "pH", None, "6,5 - 9,5"); row("Wasserhärte", "hardness_total", "12,4", "°", None, None)
    row("Nitrat", "nitrate", "11,7", "mg/l NO<sub>3</sub>", "mg/L", "ion", "50"); row("Nitrit", "nitrite", "<0,02", "mg/l NO<sub>2</sub>", "mg/L", "ion", "0,5"); row("Ammonium", "ammonium", "<0,04", "mg/l NH<sub>4</sub>", "mg/L", "ion", "0,5")
    row("Natrium", "sodium", "8,3", "mg/l", "mg/L", "ion", "200"); row("Chloride", "chloride", "14,2", "mg/l", "mg/L", "ion", "250"); row("Sulfate", "sulfate", "16,8", "mg/l", "mg/L", "ion", "250"); row("Fluoride", "fluoride", "<0,10", "mg/l", "mg/L", "ion", "1,5")
    row("Eisen", "iron", "31", "µg/l", "µg/L", "ion", "200"); row("Mangan", "manganese", "6", "µg/l", "µg/L", "ion", "50"); row("Kupfer", "copper", "0,05", "mg/l", "mg/L", "ion", "2"); row("Blei", "lead", "<1", "µg/l", "µg/L", "ion", "5"); row("Trübung", "turbidity", "0,3", "NTU", "NTU", None, "4")
    row("Freies Chlor", "chlorine_free", "0,12", "mg/l", "mg/L", None, "0,25"); row("Escherichia coli", None, "0", "KBE/100 ml", 0, 0, "0")
    write(d.file, "<!DOCTYPE html><html lang=\"de\"><head><meta charset=\"iso-8859-1\"><title>Gemeinde Hohenvehn - Wasserdienst</title></head><body><div id=\"menu\"><a href=\"/\">Startseite</a> | <a href=\"/bau\">Bauen und Wohnen</a> | <a href=\"/wasser\">Wasserdienst</a></div>\n<h1>Wasserdienst</h1><h2>Wasserqualität</h2><p>Die Gemeinde versorgt 2 140 Haushalte mit eigenem Wasser.</p><p>Entnahmestelle: Behälter Kreuzheck<br>Probe vom 23.01.2025</p>\n<dl>\n" + "\n".join(L) + "\n</dl>\n<p>Zählerstand melden: bis zum 15. Dezember.</p></body></html>", "latin-1"); d.save()

# 13 ----------------------------------------------- Brittany, yearly summary, tabs, windows-1252
def bretagne():
    d = Doc("synthese-kerlanvor-2024.tsv", "fr", "UDI Kerlanvor Est"); lo, me, hi = trio(W(ca=19.6, mg=6.3, na=23.1, k=3.2, cl=41.4, so4=19.7, no3=28.4), .94, 1.08); L = []
    def row(nm, un, k, det, u, b, v, lim=""): L.append("\t".join([nm, un, str(k)] + [d(det, x, u, b, s) if det else x for x, s in zip(v, ("min", "mean", "max"))] + [lim]))
    t = lambda g, p=1: tuple(n(g(x), p, True) for x in (lo, me, hi))
    row("pH", "unité pH", 14, "ph", "pH", None, ("7,9", "8,1", "8,4"), "6,5 à 9"); row("pH équilibre calculé à 20°C", "unité pH", 4, None, 0, 0, ("8,3", "8,4", "8,6")); row("Conductivité à 25°C", "µS/cm", 14, "conductivity", "µS/cm", "25C", t(lambda x: x.ec25, 0), "200 à 1100")
    row("Titre hydrotimétrique (TH)", "°f", 6, "hardness_total", "°fH", None, t(lambda x: x.fH)); row("Titre alcalimétrique (TA)", "°f", 6, None, 0, 0, ("0", "0", "0,2")); row("Titre alcalimétrique complet (TAC)", "°f", 6, "alkalinity", "°fH", "CaCO3", t(lambda x: x.alk/10.009))
    row("Calcium", "mg/L", 4, "calcium", "mg/L", "ion", t(lambda x: x.ca)); row("Magnésium", "mg/L", 4, "magnesium", "mg/L", "ion", t(lambda x: x.mg)); row("Sodium", "mg/L", 4, "sodium", "mg/L", "ion", t(lambda x: x.na), "200"); row("Chlorures", "mg/L", 6, "chloride", "mg/L", "ion", t(lambda x: x.cl), "250"); row("Sulfates", "mg/L", 6, "sulfate", "mg/L", "ion", t(lambda x: x.so4), "250")
    row("Nitrates (en NO3)", "mg/L", 24, "nitrate", "mg/L", "ion", t(lambda x: x.no3), "50"); row("Ammonium (en NH4)", "mg/L", 14, "ammonium", "mg/L", "ion", ("<0,05", "<0,05", "<0,05"), "0,1"); row("Carbone organique total", "mg/L C", 12, "toc", "mg/L", None, ("1,1", "1,5", "1,9"), "2")
    row("Aluminium total", "µg/L", 12, None, 0, 0, ("<10", "22", "74"), "200"); row("Fer total", "µg/L", 6, "iron", "µg/L", "ion", ("<5", "11", "38"), "200"); row("Chlore libre", "mg/L", 24, "chlorine_free", "mg/L", None, ("<0,03", "0,14", "0,33")); row("ESA métolachlore", "µg/L", 12, None, 0, 0, ("0,03", "0,06", "0,09"), "0,1")
    write(d.file, "Syndicat des eaux de Kerlanvor\nBilan annuel 2024 de la qualité de l’eau\nUnité de distribution :\tUDI Kerlanvor Est\n\nParamètre\tUnité\tNombre d’analyses\tMini\tMoyenne\tMaxi\tLimite ou référence de qualité\n" + "\n".join(L) + "\n", "cp1252", "\r\n"); d.save()

# 14 ----------------------------------------------- Tunisia, mineral water (groff)
def tunisie():
    d = Doc("bulletin-ras-tamerine.pdf", "fr", "Réservoir R3 Bir Zamrouna"); w = W(ca=148.0, mg=52.4, na=231.0, k=7.2, cl=388.0, so4=296.0, no3=18.5); c = lambda x, p=1: n(x, p, True); L = []
    def row(nm, un, det, v, u, b, lim=""): L.append(f"{nm}@{un}@{d(det, v, u, b) if det else v}@{lim}")
    sec = lambda t: L.append(f"\\fB{t}\\fP@@@")
    sec("Paramètres physiques"); row("Température", "°C", "temperature", "21,4", "°C", None); row("pH", "", "ph", "7,34", "pH", None, "6,5 \\- 8,5"); row("Conductivité à 25 °C", "µS/cm", "conductivity", c(w.ec25, 0), "µS/cm", "25C"); row("Résidu sec à 180 °C", "mg/l", "tds", c(w.tds, 0), "mg/L", None, "2000"); row("Turbidité", "NTU", "turbidity", "0,6", "NTU", None, "3")
    sec("Paramètres chimiques"); row("Dureté totale (TH)", "°F", "hardness_total", c(w.fH), "°fH", None, "100"); row("Alcalinité (TAC)", "°F", "alkalinity", c(w.alk/10.009), "°fH", "CaCO3")
    for nm, det, v, lim, b in [("Bicarbonates (HCO3)", "bicarbonate", c(w.hco3, 0), "", "HCO3"), ("Calcium (Ca)", "calcium", c(w.ca, 0), "200", "ion"), ("Magnésium (Mg)", "magnesium", c(w.mg), "100", "ion"), ("Sodium (Na)", "sodium", c(w.na, 0), "200", "ion"), ("Potassium (K)", "potassium", c(w.k), "", "ion"), ("Chlorures (Cl)", "chloride", c(w.cl, 0), "500", "ion"), ("Sulfates (SO4)", "sulfate", c(w.so4, 0), "500", "ion"),
        ("Nitrates (NO3)", "nitrate", c(w.no3), "45", "ion"), ("Nitrites (NO2)", "nitrite", "<0,02", "0,2", "ion"), ("Ammonium (NH4)", "ammonium", "<0,05", "0,5", "ion"), ("Fluorures (F)", "fluoride", "0,71", "1,5", "ion"), ("Fer (Fe)", "iron", "0,06", "0,5", "ion"), ("Manganèse (Mn)", "manganese", "<0,01", "0,1", "ion")]: row(nm, "mg/l", det, v, "mg/L", b, lim)
    sec("Désinfection"); row("Chlore résiduel libre", "mg/l", "chlorine_free", "0,5", "mg/L", None, "0,2 \\- 1")
    src = ".nr PS 10\n.TL\nRégie des eaux de Ras Tamerine\n.AU\nLaboratoire régional \\- Bulletin d’analyse n° 0217/2024\n.LP\nPoint de prélèvement : Réservoir R3 Bir Zamrouna\n.br\nDate de prélèvement : 19/03/2024\n.TS\ncenter tab(@);\nlB lB lB lB\nl l n l.\nParamètre@Unité@Résultat@Norme\n_\n" + "\n".join(L) + "\n.TE\n.LP\nConclusion : eau potable selon les paramètres analysés. La teneur en sodium dépasse la valeur recommandée.\n"
    p = os.path.join(T, "g.ms"); write(p, src); o = subprocess.run(["groff", "-k", "-Kutf8", "-t", "-ms", "-Tpdf", "-P-pa4", p], check=True, capture_output=True).stdout; open(d.file, "wb").write(o); d.save()

# 15 ----------------------------------------------- Limburg-like (ods)
def limburg():
    from odf.opendocument import OpenDocumentSpreadsheet
    from odf.table import Table, TableRow, TableCell
    from odf.text import P
    d = Doc("kwaliteit-hommelerveld.ods", "nl", "Productielocatie Hommelerveld"); lo, me, hi = trio(W(ca=86.2, mg=11.4, na=16.3, k=2.6, cl=33.9, so4=52.0, no3=16.8), .95, 1.06)
    o = OpenDocumentSpreadsheet(); t = Table(name="2024"); o.spreadsheet.addElement(t)
    def line(cells):
        r = TableRow()
        for c in cells:
            num = isinstance(c, str) and c.replace(",", "", 1).isdigit()
            e = TableCell(valuetype="float", value=c.replace(",", ".")) if num else TableCell(valuetype="string"); 
            if c != "": e.addElement(P(text=c)); r.addElement(e)
            else: r.addElement(TableCell())
        t.addElement(r)
    def row(nm, un, norm, det, u, b, v, k): line([nm, un, norm] + [d(det, x, u, b, s) if det else x for x, s in zip(v, ("mean", "min", "max"))] + [str(k)])
    q = lambda g, p=1: tuple(n(g(x), p, True) for x in (me, lo, hi))
    line(["Waterbedrijf Zuiderkamp"]); line(["Kwaliteit reinwater, jaaroverzicht 2024"]); line(["Locatie", "Productielocatie Hommelerveld"]); line([""])
    line(["Parameter", "Eenheid", "Norm", "Gemiddelde", "Minimum", "Maximum", "Aantal"])
    line(["Bedrijfstechnische parameters"])
    row("Zuurgraad", "pH", "7,0 - 9,5", "ph", "pH", None, ("7,62", "7,55", "7,71"), 52); row("Verzadigingsindex", "SI", "> -0,2", None, 0, 0, ("0,14", "0,02", "0,25"), 13); row("Geleidbaarheid (20 °C)", "mS/m", "125", "conductivity", "mS/m", "20C", q(lambda x: x.ec20/10), 13)
    row("Hardheid", "°dH", "", "hardness_total", "°dH", None, q(lambda x: x.dH), 13); row("Totale hardheid", "mmol/l", "> 1", "hardness_total", "mmol/L", None, q(lambda x: x.mol, 2), 13); row("Waterstofcarbonaat", "mg/l HCO3", "> 60", "bicarbonate", "mg/L", "HCO3", q(lambda x: x.hco3, 0), 13)
    line(["Anorganische stoffen"])
    for nm, un, norm, det, g in [("Calcium", "mg/l Ca", "", "calcium", lambda x: x.ca), ("Magnesium", "mg/l Mg", "", "magnesium", lambda x: x.mg), ("Natrium", "mg/l Na", "150", "sodium", lambda x: x.na), ("Kalium", "mg/l K", "", "potassium", lambda x: x.k), ("Chloride", "mg/l Cl", "150", "chloride", lambda x: x.cl), ("Sulfaat", "mg/l SO4", "150", "sulfate", lambda x: x.so4), ("Nitraat", "mg/l NO3", "50", "nitrate", lambda x: x.no3)]:
        row(nm, un, norm, det, "mg/L", "ion", q(g), 13)
    row("Nitriet", "mg/l NO2", "0,1", "nitrite", "mg/L", "ion", ("< 0,01", "< 0,01", "< 0,01"), 13); row("IJzer", "µg/l Fe", "200", "iron", "µg/L", "ion", ("12", "< 10", "25"), 13); row("Mangaan", "µg/l Mn", "50", "manganese", "µg/L", "ion", ("< 5", "< 5", "6"), 13)
    row("Zuurstof", "mg/l O2", "> 2", "dissolved_oxygen", "mg/L", None, ("9,4", "8,6", "10,3"), 13); row("Arseen", "µg/l As", "10", None, 0, 0, ("< 1", "< 1", "1,3"), 4)
    o.save(d.file); d.save()

# 16 ----------------------------------------------- Antwerp-like (HTML, one table with the village above)
def antwerpen():
    d = Doc("watersamenstelling-pullenbeek.html", "nl", "Pullenbeek"); w = W(ca=72.8, mg=7.9, na=29.6, k=4.4, cl=44.7, so4=57.2, no3=9.8); c = lambda x, p=1: n(x, p, True); L = []
    def row(nm, det, v, un, u, b, lim=""): L.append(f'<div class="row"><div class="cell name">{nm}</div><div class="cell">{E(d(det, v, u, b, "mean") if det else v)} {un}</div><div class="cell norm">{lim}</div></div>')
    row("Zuurtegraad (pH)", "ph", "7,9", "", "pH", None, "tussen 6,5 en 9,2"); L.append(f'<div class="row"><div class="cell name">Totale hardheid</div><div class="cell">{d("hardness_total", c(w.fH), "°fH", None, "mean")} °F = {d("hardness_total", c(w.dH), "°dH", None, "mean")} °D</div><div class="cell norm">max. 67,5 °F</div></div>')
    row("Geleidbaarheid bij 20 °C", "conductivity", c(w.ec20, 0), "µS/cm", "µS/cm", "20C", "max. 2500 µS/cm"); row("Temperatuur", "temperature", "13,2", "°C", "°C", None, "max. 25 °C")
    row("Calcium", "calcium", c(w.ca), "mg/l", "mg/L", "ion", "max. 270 mg/l"); row("Magnesium", "magnesium", c(w.mg), "mg/l", "mg/L", "ion", "max. 50 mg/l"); row("Natrium", "sodium", c(w.na), "mg/l", "mg/L", "ion", "max. 200 mg/l"); row("Kalium", "potassium", c(w.k), "mg/l", "mg/L", "ion")
    row("Chloride", "chloride", c(w.cl), "mg/l", "mg/L", "ion", "max. 250 mg/l"); row("Sulfaat", "sulfate", c(w.so4), "mg/l", "mg/L", "ion", "max. 250 mg/l"); row("Nitraat (NO<sub>3</sub>)", "nitrate", c(w.no3), "mg/l", "mg/L", "ion", "max. 50 mg/l"); row("Nitriet (NO<sub>2</sub>)", "nitrite", "<0,05", "mg/l", "mg/L", "ion", "max. 0,5 mg/l"); row("Ammonium (NH<sub>4</sub>)", "ammonium", "<0,05", "mg/l", "mg/L", "ion", "max. 0,5 mg/l")
    row("Fluoride", "fluoride", "0,18", "mg/l", "mg/L", "ion", "max. 1,5 mg/l"); row("IJzer", "iron", "14", "µg/l", "µg/L", "ion", "max. 200 µg/l"); row("Mangaan", "manganese", "<2", "µg/l", "µg/L", "ion", "max. 50 µg/l"); row("Koper", "copper", "21", "µg/l", "µg/L", "ion", "max. 2000 µg/l"); row("Lood", "lead", "<1", "µg/l", "µg/L", "ion", "max. 5 µg/l"); row("Vrije chloor", "chlorine_free", "0,07", "mg/l", "mg/L", None, "max. 0,25 mg/l"); row("Trihalomethanen", None, "18", "µg/l", 0, 0, "max. 100 µg/l")
    write(d.file, f"""<!DOCTYPE html><html lang="nl-BE"><head><meta charset="utf-8"><title>Samenstelling van uw drinkwater - De Pulle</title></head><body><header><p>Watermaatschappij De Pulle</p></header>
<h1>Samenstelling van uw drinkwater</h1><p>Gemeente: <strong>Pullenbeek</strong></p><p>De waarden zijn jaargemiddelden van 2024 aan de keukenkraan. Het water is vrij hard.</p>
<div class="tbl"><div class="row head"><div class="cell">Parameter</div><div class="cell">Gemiddelde</div><div class="cell">Norm</div></div>
{chr(10).join(L)}
</div><p>Vaatwasser instellen? Gebruik de Duitse graden (°D).</p></body></html>"""); d.save()

# 17 ----------------------------------------------- Canary-like, desalinated (pymupdf)
def canarias():
    import pymupdf
    d = Doc("analitica-tamarahoy.pdf", "es", "Red Playa Tamarahoy"); w = W(ca=16.1, mg=1.6, na=71.3, k=3.0, cl=109.0, so4=5.2, no3=.9); c = lambda x, p=1: n(x, p, True); L = []
    def row(nm, un, det, v, u, b, lim, met): L.append((nm, d(det, v, u, b) if det else v, un, lim, met))
    row("pH", "Ud. pH", "ph", "8,1", "pH", None, "6,5 - 9,5", "PNT-01"); row("Conductividad a 20 ºC", "µS/cm", "conductivity", c(w.ec20, 0), "µS/cm", "20C", "2500", "PNT-02"); row("Turbidez", "UNF", "turbidity", "0,31", "NTU", None, "4", "PNT-03"); row("Color", "mg/L Pt-Co", None, "<5", 0, 0, "15", "PNT-04"); row("Índice de Langelier", "-", None, "-0,42", 0, 0, "±0,5", "Cálculo")
    row("Cloro libre residual", "mg/L", "chlorine_free", "0,62", "mg/L", None, "1,0", "In situ"); row("Dureza total", "mg/L CaCO3", "hardness_total", c(w.caco3, 0), "mg/L", "CaCO3", "-", "PNT-11"); row("Alcalinidad", "mg/L CaCO3", "alkalinity", c(w.alk, 0), "mg/L", "CaCO3", "-", "PNT-12")
    for nm, det, v, lim, met in [("Calcio", "calcium", c(w.ca), "-", "ICP-1"), ("Magnesio", "magnesium", c(w.mg), "-", "ICP-1"), ("Sodio", "sodium", c(w.na), "200", "ICP-1"), ("Potasio", "potassium", c(w.k), "-", "ICP-1"), ("Boro", "boron", "0,81", "1,5", "ICP-2"), ("Cloruro", "chloride", c(w.cl), "250", "CI-1"), ("Sulfato", "sulfate", c(w.so4), "250", "CI-1"), ("Nitrato", "nitrate", c(w.no3), "50", "CI-1"), ("Nitrito", "nitrite", "<0,05", "0,5", "CI-1"), ("Amonio", "ammonium", "<0,10", "0,50", "PNT-15"), ("Fluoruro", "fluoride", "<0,10", "1,5", "CI-1")]: row(nm, "mg/L", det, v, "mg/L", "ion", lim, met)
    row("Hierro", "µg/L", "iron", "<20", "µg/L", "ion", "200", "ICP-2"); row("Cobre", "mg/L", "copper", "0,017", "mg/L", "ion", "2,0", "ICP-2"); row("Bromato", "µg/L", None, "<3", 0, 0, "10", "CI-2")
    doc = pymupdf.open(); p = doc.new_page(); F = "/usr/share/fonts/truetype/liberation/LiberationSans-Regular.ttf"; p.insert_font(fontname="LS", fontfile=F)
    y = 60
    def put(x, t, s=9): p.insert_text((x, y), t, fontname="LS", fontsize=s)
    put(50, "Aguas de Tamarahoy, S.L.", 15); y += 20; put(50, "ANÁLISIS COMPLETO - AGUA DESALADA DE CONSUMO", 11); y += 18; put(50, "Punto de muestreo: Red Playa Tamarahoy"); put(330, "Fecha de muestreo: 11/11/2024"); y += 14; put(50, "Zona de abastecimiento 117"); put(330, "Nº de muestra: 24-03318"); y += 24
    X = (50, 205, 270, 355, 440)
    for x, h in zip(X, ("PARÁMETRO", "RESULTADO", "UNIDADES", "V. PARAMÉTRICO", "MÉTODO")): put(x, h, 8)
    p.draw_line((50, y+4), (520, y+4)); y += 17
    for r in L:
        for x, t in zip(X, r): put(x, t)
        p.draw_line((50, y+4), (520, y+4), width=.2); y += 16
    y += 10; put(50, "Agua APTA para el consumo. Los resultados se refieren solo a la muestra ensayada.", 8); doc.save(d.file, garbage=3, deflate=True); d.save()

# 18 ----------------------------------------------- Ecuador, a water board's CSV; iron without a unit
def ecuador():
    d = Doc("japaa-chaupirrumi-alto.csv", "es", "Tanque de reserva Chaupirrumi Alto", ["iron"]); w = W(ca=22.7, mg=9.3, na=11.8, k=3.6, cl=6.4, so4=18.5, no3=.94*4.4268); L = []
    def row(nm, un, det, v, u, b, met): L.append(";".join([nm, un, met, d(det, v, u, b) if det else v]))
    row("pH", "U pH", "ph", "7.48", "pH", None, "4500-H"); row("Temperatura", "°C", "temperature", "14.6", "°C", None, "2550"); row("Conductividad (25 °C)", "uS/cm", "conductivity", n(w.ec25, 0), "µS/cm", "25C", "2510"); row("Turbiedad", "NTU", "turbidity", "0.9", "NTU", None, "2130"); row("Color aparente", "UC Pt-Co", None, "6", 0, 0, "2120")
    row("Dureza total", "mg CaCO3/L", "hardness_total", n(w.caco3, 0), "mg/L", "CaCO3", "2340"); row("Dureza cálcica", "mg CaCO3/L", "hardness_calcium", n(w.ca*2.4974, 0), "mg/L", "CaCO3", "3500-Ca"); row("Alcalinidad total", "mg CaCO3/L", "alkalinity", n(w.alk, 0), "mg/L", "CaCO3", "2320")
    row("Calcio", "mg/L", "calcium", n(w.ca), "mg/L", "ion", "3500-Ca"); row("Magnesio", "mg/L", "magnesium", n(w.mg), "mg/L", "ion", "3500-Mg"); row("Sodio", "mg/L", "sodium", n(w.na), "mg/L", "ion", "3500-Na"); row("Potasio", "mg/L", "potassium", n(w.k), "mg/L", "ion", "3500-K"); row("Cloruros", "mg/L", "chloride", n(w.cl), "mg/L", "ion", "4500-Cl"); row("Sulfatos", "mg/L", "sulfate", n(w.so4), "mg/L", "ion", "4500-SO4")
    row("Nitratos", "mg N-NO3/L", "nitrate", "0.94", "mg/L", "N", "4500-NO3"); row("Nitritos", "mg N-NO2/L", "nitrite", "<0.005", "mg/L", "N", "4500-NO2"); row("Nitrógeno amoniacal", "mg N-NH3/L", "ammonium", "0.04", "mg/L", "N", "4500-NH3"); row("Fosfatos", "mg PO4/L", "phosphate", "0.27", "mg/L", "ion", "4500-P")
    row("Hierro total", "", "iron", "0.12", None, "ion", "3500-Fe"); row("Manganeso", "mg/L", "manganese", "<0.02", "mg/L", "ion", "3500-Mn"); row("Cloro libre residual", "mg/L", "chlorine_free", "0.6", "mg/L", None, "4500-Cl G"); row("Sólidos disueltos totales", "mg/L", "tds", n(w.tds+28, 0), "mg/L", None, "2540 C"); row("Sílice", "mg SiO2/L", "silica", "39.5", "mg/L", "SiO2", "4500-SiO2")
    write(d.file, "Junta Administradora de Agua Potable y Alcantarillado Chaupirrumi Alto;;;\nInforme de ensayo No. 0388-24;;;\nSitio de muestreo;Tanque de reserva Chaupirrumi Alto;;\nFecha de toma de muestra;2024-10-02;;\n;;;\nParámetro;Unidad;Método APHA;Resultado\n" + "\n".join(L) + "\n;;;\nAnalista: laboratorio de la Junta;;;\n", "latin-1"); d.save()

ALL = [england, wales, nireland, ohio, ontario, victoria, zealand, kenya, saxony, wuertt, aargau, ostbelgien, bretagne, tunisie, limburg, antwerpen, canarias, ecuador]
for f in ALL:
    if len(sys.argv) < 2 or f.__name__ in sys.argv[1:]: f()
shutil.rmtree(T, ignore_errors=True)
