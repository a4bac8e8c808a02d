"""Makes the reports of this folder: a fourth round, read once before anything was mended on them.

python make.py [NAME...], with groff, LaTeX, an office, a browser and the modules weasyprint, openpyxl, odfpy, pymupdf, reportlab. All waters,
places and works are invented; everything is written to the folder of this file.
"""
import json, os, subprocess, random, html as H, tempfile, shutil, re
OUT = os.path.dirname(os.path.abspath(__file__)); os.chdir(OUT)
random.seed(4104)
ND = {"ND", "nd", "N.D.", "n.n.", "not detected", "Not detected", "non détecté", "No detectado"}

class Rep:
    def __init__(s, file, lang, samples=None):
        s.file, s.lang, s.samples, s.rd, s.ask, s.nj = file, lang, samples, [], [], []
    def r(s, det, v, unit, basis, stat="single", sample=None):
        """records a printed value, and returns it as printed"""
        t = v.strip().replace(",", ".").replace("\u2212", "-")
        basis = "HCO3" if det == "bicarbonate" else basis
        d = dict(determinand=det, basis=basis, unit=unit, statistic=stat, value=None, below_detection=False, detection_limit=None)
        if v.strip() in ND: d["below_detection"] = True
        elif t.startswith("<"): d["below_detection"] = True; d["detection_limit"] = float(t[1:].strip())
        else: d["value"] = float(t)
        if sample: d["sample"] = sample
        if d not in s.rd: s.rd.append(d)
        return v
    def save(s):
        e = dict(file=s.file, language=s.lang, sample_or_zone=s.samples, readings=s.rd, must_ask=s.ask, contradiction=None)
        if s.nj: e["not_judged"] = s.nj
        with open(s.file.rsplit(".", 1)[0] + ".expected.json", "w") as f: json.dump(e, f, ensure_ascii=False, indent=1)
        print(f"{s.file:34} {len(s.rd):3} readings")

def water(ca, mg, na, k, cl, so4, no3):
    m = dict(ca=ca/40.078, mg=mg/24.305, na=na/22.99, k=k/39.098, cl=cl/35.453, so4=so4/96.06, no3=no3/62.005)
    hco3 = 2*m["ca"]+2*m["mg"]+m["na"]+m["k"]-m["cl"]-2*m["so4"]-m["no3"]
    assert hco3 > 0.1, hco3
    ec = 119*m["ca"]+106.1*m["mg"]+50.1*m["na"]+73.5*m["k"]+76.3*m["cl"]+160*m["so4"]+71.4*m["no3"]+44.5*hco3
    I = 0.5*(4*m["ca"]+4*m["mg"]+m["na"]+m["k"]+m["cl"]+4*m["so4"]+m["no3"]+hco3)/1000
    ec *= 1-2.0*I**0.5/(1+I**0.5) if I < 0.05 else 0.75
    h = m["ca"]+m["mg"]
    return dict(ca=ca, mg=mg, na=na, k=k, cl=cl, so4=so4, no3=no3, hco3=hco3*61.017, alk=hco3*50.04, kmol=hco3, h=h, hca=h*40.078, hard=h*100.09,
                dH=h*5.6077, fH=h*10.009, clark=h*7.022, kH=hco3*2.8039, ec25=ec, ec20=ec*0.899, tds=ca+mg+na+k+cl+so4+no3+hco3*61.017*0.49+8)
def f(x, dp=1, comma=False):
    t = f"{x:.{dp}f}"
    return t.replace(".", ",") if comma else t
def sp(x, dp=1, comma=False, a=.08, b=.09):
    return f(x*(1-a*random.uniform(.5, 1)), dp, comma), f(x, dp, comma), f(x*(1+b*random.uniform(.5, 1)), dp, comma)
def table(rows, head=None, cls=""):
    o = f"<table{' class='+chr(34)+cls+chr(34) if cls else ''}>"
    if head: o += "<thead><tr>" + "".join(f"<th>{H.escape(c)}</th>" for c in head) + "</tr></thead>"
    o += "<tbody>"
    for row in rows: o += "<tr>" + "".join(f"<td>{H.escape(c)}</td>" for c in row) + "</tr>\n"
    return o + "</tbody></table>"
def tmp(name, text, enc="utf-8"):
    p = os.path.join(T, name); open(p, "w", encoding=enc).write(text); return p
T = tempfile.mkdtemp(prefix="fourth-")
def weasy(h, out):
    import weasyprint; weasyprint.HTML(string=h).write_pdf(out)
def chromium(h, out):
    p = tmp("c.html", h)
    subprocess.run(["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer", f"--user-data-dir={T}/chr", f"--print-to-pdf={OUT}/{out}", "file://"+p], check=True, capture_output=True, timeout=120)
def office(h, out):
    p = tmp(out.replace(".pdf", ".html"), h)
    subprocess.run(["soffice", f"-env:UserInstallation=file://{T}/lo", "--headless", "--infilter=HTML (StarWriter)", "--convert-to", "pdf:writer_pdf_Export", "--outdir", OUT, p], check=True, capture_output=True, timeout=180)
def groff(src, out, dev="pdf"):
    p = tmp("g.ms", src)
    o = subprocess.run(["groff", "-k", "-Kutf8", "-t", "-ms", "-T"+dev, "-P-pa4", p], check=True, capture_output=True).stdout
    if dev == "pdf": open(out, "wb").write(o)
    else:
        ps = os.path.join(T, "g.ps"); open(ps, "wb").write(o); subprocess.run(["ps2pdf", ps, out], check=True)
def latex(src, out):
    tmp("l.tex", src); subprocess.run(["pdflatex", "-interaction=nonstopmode", "l.tex"], cwd=T, capture_output=True)
    shutil.copy(os.path.join(T, "l.pdf"), out)

# ------------------------------------------------------------------ 1 Scottish regional zone sheet (weasyprint)
def scot():
    R = Rep("scot-zone-glenfarran.pdf", "en", "Glenfarran South"); r = R.r
    w = water(9.8, 1.3, 7.5, .5, 11.0, 9.2, .9)
    rows = []
    def row(lab, unit, pcv, n, det, u, b, v):
        c = [lab, unit]
        c += [r(det, v[0], u, b, "min") if det else v[0], r(det, v[2], u, b, "max") if det else v[2], r(det, v[1], u, b, "mean") if det else v[1]]
        rows.append(c + [pcv, str(n), "0", "100.0"])
    row("Alkalinity", "mg HCO3/l", "-", 8, "alkalinity", "mg/L", "HCO3", sp(w["hco3"], 1))
    row("Aluminium", "µg Al/l", "200", 8, None, 0, 0, ("8", "19", "41"))
    row("Ammonium", "mg NH4/l", "0.5", 8, "ammonium", "mg/L", "ion", ("<0.01", "<0.01", "0.03"))
    row("Chloride", "mg Cl/l", "250", 8, "chloride", "mg/L", "ion", sp(w["cl"], 1))
    row("Coliform Bacteria", "No/100 ml", "0", 52, None, 0, 0, ("0", "0", "0"))
    row("Colour", "mg/l Pt/Co", "20", 8, None, 0, 0, ("<2", "3", "5"))
    row("Conductivity", "µS/cm at 20 °C", "2500", 8, "conductivity", "µS/cm", "20C", sp(w["ec20"], 0))
    row("Copper", "mg Cu/l", "2", 8, "copper", "mg/L", "ion", ("0.012", "0.046", "0.118"))
    row("Free Residual Chlorine", "mg/l", "-", 52, "chlorine_free", "mg/L", None, ("0.08", "0.31", "0.55"))
    row("Hydrogen ion", "pH value", "6.5 - 9.5", 8, "ph", "pH", None, ("7.9", "8.3", "8.8"))
    row("Iron", "µg Fe/l", "200", 8, "iron", "µg/L", "ion", ("9", "24", "63"))
    row("Manganese", "µg Mn/l", "50", 8, "manganese", "µg/L", "ion", ("<1", "2.1", "5.6"))
    row("Nitrate", "mg NO3/l", "50", 8, "nitrate", "mg/L", "ion", ("0.6", f(w["no3"]), "1.3"))
    row("Sodium", "mg Na/l", "200", 8, "sodium", "mg/L", "ion", sp(w["na"], 1))
    row("Sulphate", "mg SO4/l", "250", 8, "sulfate", "mg/L", "ion", sp(w["so4"], 1))
    row("Total Trihalomethanes", "µg/l", "100", 8, None, 0, 0, ("22", "38", "57"))
    h = [("mg/l calcium", f(w["hca"]), "mg/L", "Ca"), ("mg/l calcium carbonate", f(w["hard"]), "mg/L", "CaCO3"), ("Clark degrees", f(w["clark"], 2), "°e", None),
         ("French degrees", f(w["fH"], 2), "°fH", None), ("German degrees", f(w["dH"], 2), "°dH", None)]
    box = table([[a, r("hardness_total", v, u, b, "mean")] for a, v, u, b in h], ["Average hardness of this zone, expressed as", "Value"])
    weasy(f"""<meta charset=utf-8><style>@page{{size:A4 landscape;margin:12mm;@bottom-right{{content:"Page " counter(page) " of " counter(pages)}}}}
body{{font:9pt sans-serif}}table{{border-collapse:collapse;margin:2mm 0}}td,th{{border:.3pt solid #888;padding:1mm 2mm}}th{{background:#cde}}</style>
<h2>Northmark Water &mdash; Regulatory Supply Zone Report 2024</h2><p><b>Zone:</b> Glenfarran South &nbsp; <b>Population served:</b> 4,318 &nbsp; <b>Period:</b> 01/01/2024 to 31/12/2024</p>
{table(rows, ["Parameter", "Units", "Minimum", "Maximum", "Average", "PCV", "No. samples", "No. exceeding PCV", "% compliant"])}
<h3>Water hardness: soft</h3>{box}<p>PCV: prescribed concentration or value. Results below the reporting limit are shown with &lt;. If you set a dishwasher, use the German degrees.</p>""", R.file)
    R.save()

# ------------------------------------------------------------------ 2 Irish council certificate (LibreOffice)
def irish():
    R = Rep("irish-council-certificate.pdf", "en", "Public tap, Ballydrumless Community Hall"); r = R.r
    w = water(96.2, 9.4, 14.8, 2.6, 24.5, 17.9, 13.2); rows = []
    def row(lab, meth, det, v, unit, u, b, pv, unc):
        rows.append([lab, meth, r(det, v, u, b) if det else v, unit, pv, unc])
    row("pH", "SOP 101", "ph", "7.4", "pH units", "pH", None, "≥6.5 and ≤9.5", "±0.2")
    row("Conductivity @ 20°C", "SOP 102", "conductivity", f(w["ec20"], 0), "µS cm-1", "µS/cm", "20C", "2500", "±4 %")
    row("Turbidity", "SOP 104", "turbidity", "0.21", "N.T.U.", "NTU", None, "Acceptable to consumers", "±11 %")
    row("Colour, apparent", "SOP 105", None, "<2.5", "mg/l Pt/Co", "", None, "Acceptable to consumers", "±9 %")
    row("Residual chlorine (free)", "On site", "chlorine_free", "0.28", "mg/l Cl2", "mg/L", None, "-", "-")
    row("Total chlorine", "On site", "chlorine_total", "0.34", "mg/l Cl2", "mg/L", None, "-", "-")
    row("Temperature", "On site", "temperature", "11.6", "°C", "°C", None, "-", "-")
    row("Ammonium", "SOP 110", "ammonium", "<0.03", "mg/l NH4", "mg/L", "ion", "0.30", "±12 %")
    row("Nitrite at tap", "SOP 111", "nitrite", "0.016", "mg/l NO2", "mg/L", "ion", "0.50", "±10 %")
    row("Nitrate", "SOP 112", "nitrate", f(w["no3"]), "mg/l NO3", "mg/L", "ion", "50", "±8 %")
    row("Orthophosphate", "SOP 113", "phosphate", "0.62", "mg/l P", "mg/L", "P", "-", "±10 %")
    row("Chloride", "IC 03", "chloride", f(w["cl"]), "mg/l", "mg/L", "ion", "250", "±7 %")
    row("Sulphate", "IC 03", "sulfate", f(w["so4"]), "mg/l", "mg/L", "ion", "250", "±7 %")
    row("Fluoride", "IC 03", "fluoride", "0.70", "mg/l", "mg/L", "ion", "0.8", "±9 %")
    row("Total hardness", "SOP 120", "hardness_total", f(w["hard"], 0), "mg/l CaCO3", "mg/L", "CaCO3", "-", "±5 %")
    row("Alkalinity", "SOP 121", "alkalinity", f(w["alk"], 0), "mg/l CaCO3", "mg/L", "CaCO3", "-", "±5 %")
    row("Calcium", "ICP 01", "calcium", f(w["ca"]), "mg/l", "mg/L", "ion", "-", "±8 %")
    row("Magnesium", "ICP 01", "magnesium", f(w["mg"]), "mg/l", "mg/L", "ion", "-", "±8 %")
    row("Sodium", "ICP 01", "sodium", f(w["na"]), "mg/l", "mg/L", "ion", "200", "±8 %")
    row("Potassium", "ICP 01", "potassium", f(w["k"]), "mg/l", "mg/L", "ion", "-", "±8 %")
    row("Aluminium", "ICP 02", None, "31", "µg/l", "", None, "200", "±12 %")
    row("Iron", "ICP 02", "iron", "<20", "µg/l", "µg/L", "ion", "200", "±12 %")
    row("Manganese", "ICP 02", "manganese", "3.2", "µg/l", "µg/L", "ion", "50", "±12 %")
    row("Copper", "ICP 02", "copper", "0.044", "mg/l", "mg/L", "ion", "2.0", "±12 %")
    row("Lead", "ICP 02", "lead", "<0.5", "µg/l", "µg/L", "ion", "10", "±12 %")
    office(f"""<html><head><meta charset="utf-8"><title>Certificate</title></head><body><h2>Comhairle Contae Dunbrae / Dunbrae County Council</h2><p>Environmental Laboratory &ndash; Certificate of Analysis WQ/25/01187</p>
<table border=0><tr><td>Scheme:</td><td>Ballydrumless Regional PWS</td><td>Scheme code:</td><td>0000PUB9999</td></tr><tr><td>Sample point:</td><td>Public tap, Ballydrumless Community Hall</td><td>Sampled:</td><td>18/02/2025 10:25</td></tr></table>
{table(rows, ["Test", "Method", "Result", "Units", "Parametric value", "Uncertainty"]).replace("<table", "<table border=1 cellspacing=0 cellpadding=2")}
<p><font size=2>Parametric values are those of the drinking water regulations. Uncertainty at k = 2. This certificate relates only to the sample as received.</font></p></body></html>""", R.file)
    R.save()

# ------------------------------------------------------------------ 3 Texas city CCR (Chromium)
def texas():
    R = Rep("ccr-pecanford-2024.pdf", "en", "Pecanford Public Water System"); r = R.r
    w = water(62.0, 14.2, 48.5, 5.1, 61.0, 72.0, 2.1)
    reg = [["Barium", "2024", "0.071", "0.066 - 0.071", "2", "2", "ppm", "N", "Erosion of natural deposits."]]
    def rg(lab, det, b, lo, hi, g, m, u, uu, src):
        reg.append([lab, "2024", r(det, hi, uu, b, "max"), r(det, lo, uu, b, "min")+" - "+hi, g, m, u, "N", src])
    rg("Fluoride", "fluoride", "ion", "0.24", "0.69", "4", "4.0", "ppm", "mg/L", "Erosion of natural deposits; water additive which promotes strong teeth.")
    rg("Nitrate [measured as Nitrogen]", "nitrate", "N", "0.31", "0.64", "10", "10", "ppm", "mg/L", "Runoff from fertilizer use; leaching from septic tanks.")
    rg("Nitrite [measured as Nitrogen]", "nitrite", "N", "0.008", "0.021", "1", "1", "ppm", "mg/L", "Runoff from fertilizer use.")
    reg.append(["Total Trihalomethanes (TTHM)", "2024", "34", "11.2 - 41.9", "No goal for the total", "80", "ppb", "N", "By-product of drinking water disinfection."])
    dis = [["2024", "Chloramine (total)", r("chloramine", "2.71", "mg/L", None, "mean"), r("chloramine", "0.9", "mg/L", None, "min"), r("chloramine", "3.9", "mg/L", None, "max"), "4.0", "<4.0", "ppm", "Disinfectant used to control microbes."]]
    lc = [["Copper", "2023", "1.3", "1.3", r("copper", "0.183", "mg/L", "ion", "p90"), "0", "ppm", "N", "Corrosion of household plumbing systems."],
          ["Lead", "2023", "0", "15", r("lead", "1.4", "µg/L", "ion", "p90"), "0", "ppb", "N", "Corrosion of household plumbing systems."]]
    sec = []
    def s(lab, det, b, v, lim, u, uu):
        sec.append([lab, r(det, v[1], uu, b, "mean"), r(det, v[0], uu, b, "min"), r(det, v[2], uu, b, "max"), lim, u])
    s("Bicarbonate", "bicarbonate", "ion", sp(w["hco3"], 0), "NA", "ppm", "mg/L")
    s("Calcium", "calcium", "ion", sp(w["ca"]), "NA", "ppm", "mg/L"); s("Chloride", "chloride", "ion", sp(w["cl"], 0), "300", "ppm", "mg/L")
    s("Hardness as CaCO3", "hardness_total", "CaCO3", sp(w["hard"], 0), "NA", "ppm", "mg/L"); s("Iron", "iron", "ion", ("0.01", "0.03", "0.06"), "0.3", "ppm", "mg/L")
    s("Magnesium", "magnesium", "ion", sp(w["mg"]), "NA", "ppm", "mg/L"); s("pH", "ph", None, ("7.6", "7.9", "8.2"), ">7.0", "units", "pH")
    s("Sodium", "sodium", "ion", sp(w["na"], 0), "NA", "ppm", "mg/L"); s("Sulfate", "sulfate", "ion", sp(w["so4"], 0), "300", "ppm", "mg/L")
    s("Total Alkalinity as CaCO3", "alkalinity", "CaCO3", sp(w["alk"], 0), "NA", "ppm", "mg/L"); s("Total Dissolved Solids", "tds", None, sp(w["tds"], 0), "1000", "ppm", "mg/L")
    un = [["Chloroform", "2024", "9.4", "3.1 - 9.4", "ppb", "By-product of drinking water disinfection."], ["Lithium", "2024", "21", "14 - 21", "ppb", "Naturally occurring metal."]]
    turb = r("turbidity", "0.28", "NTU", None, "max")
    chromium(f"""<!doctype html><meta charset=utf-8><style>body{{font:10px Arial,sans-serif;margin:20px}}h1{{color:#036}}table{{border-collapse:collapse;width:100%;margin:6px 0}}td,th{{border:1px solid #999;padding:3px;vertical-align:top}}th{{background:#036;color:#fff}}.two{{column-count:2}}</style>
<h1>2024 Consumer Confidence Report</h1><h2>City of Pecanford &mdash; Pecanford Public Water System, PWS ID 0000000</h2>
<div class=two><p>This report is intended to provide you with important information about your drinking water and the efforts made by the water system. Este reporte incluye información importante sobre el agua para tomar. Para asistencia en español, favor de llamar al teléfono (555) 010-0199.</p>
<p>We treat surface water from Lake Caddoway. Our average hardness of {f(w["hard"],0)} ppm as calcium carbonate equals {r("hardness_total", f(w["hard"]/17.118), "gpg", None, "mean")} grains per gallon. You may be more vulnerable than the general population to certain microbial contaminants.</p></div>
<h3>Definitions</h3><p><b>MCL</b>: the highest level of a contaminant that is allowed in drinking water. <b>MRDL</b>: maximum residual disinfectant level. <b>ppm</b>: milligrams per liter. <b>ppb</b>: micrograms per liter. <b>na</b>: not applicable.</p>
<h3>Inorganic Contaminants</h3>{table(reg, ["Contaminant", "Collection Date", "Highest Level Detected", "Range of Levels Detected", "MCLG", "MCL", "Units", "Violation", "Likely Source of Contamination"])}
<h3>Disinfectant Residual</h3>{table(dis, ["Year", "Disinfectant", "Average Level", "Minimum Level", "Maximum Level", "MRDL", "MRDLG", "Units", "Source"])}
<h3>Lead and Copper</h3>{table(lc, ["Lead and Copper", "Date Sampled", "MCLG", "Action Level (AL)", "90th Percentile", "# Sites Over AL", "Units", "Violation", "Likely Source"])}
<h3>Turbidity</h3>{table([["Highest single measurement", "1 NTU", turb + " NTU", "N", "Soil runoff."], ["Lowest monthly % meeting limit", "0.3 NTU", "100%", "N", "Soil runoff."]], ["", "Level Detected Limit (Treatment Technique)", "Level Detected", "Violation", "Likely Source"])}
<h3>Secondary and Other Constituents Not Regulated (No associated adverse health effects)</h3>{table(sec, ["Constituent", "Average Level", "Minimum Level", "Maximum Level", "Secondary Limit", "Unit of Measure"])}
<h3>Unregulated Contaminants</h3>{table(un, ["Contaminant", "Date", "Highest Level Detected", "Range", "Units", "Source"])}""", R.file)
    R.save()

# ------------------------------------------------------------------ 4 Californian table by source (saved page)
def calif():
    A, B = "Groundwater Wells", "Ridgeline Treatment Plant"
    R = Rep("sierra-loma-water-quality.html", "en", [A, B]); r = R.r
    wa, wb = water(71, 21, 39, 2.9, 44, 61, 17.5), water(22, 7.9, 20, 1.8, 19, 27, 1.6)
    body = ""
    def row(lab, u, mcl, phg, det, uu, b, va, vb, src):
        nonlocal body
        def c(v, s): return (r(det, v[1], uu, b, "mean", s), r(det, v[0], uu, b, "min", s) + " – " + r(det, v[2], uu, b, "max", s)) if det else (v[1], v[0]+" – "+v[2])
        body += "<tr><th scope='row'>"+lab+"</th>" + "".join(f"<td>{H.escape(x)}</td>" for x in (u, mcl, phg)+c(va, A)+c(vb, B)+(src,)) + "</tr>\n"
    body += "<tr class='sub'><td colspan='9'>Primary Drinking Water Standards</td></tr>\n"
    row("Arsenic", "ppb", "10", "0.004", None, 0, 0, ("ND", "2.1", "3.4"), ("ND", "ND", "ND"), "Erosion of natural deposits")
    row("Fluoride", "ppm", "2", "1", "fluoride", "mg/L", "ion", ("0.18", "0.22", "0.27"), ("0.09", "0.11", "0.12"), "Erosion of natural deposits")
    row("Nitrate <sup>(a)</sup>", "ppm", "10", "10", "nitrate", "mg/L", "N", ("2.6", f(wa["no3"]/4.4268), "5.1"), ("ND", f(wb["no3"]/4.4268, 2), "0.52"), "Runoff and leaching from fertilizer use")
    body += "<tr class='sub'><td colspan='9'>Secondary Drinking Water Standards – Aesthetic</td></tr>\n"
    row("Chloride", "ppm", "500", "n/a", "chloride", "mg/L", "ion", sp(wa["cl"], 0), sp(wb["cl"], 0), "Leaching from natural deposits")
    row("Manganese", "ppb", "50", "n/a", "manganese", "µg/L", "ion", ("ND", "11", "29"), ("ND", "3", "8"), "Leaching from natural deposits")
    row("Specific Conductance <sup>(b)</sup>", "µS/cm", "1600", "n/a", "conductivity", "µS/cm", "25C", sp(wa["ec25"], 0), sp(wb["ec25"], 0), "Substances that form ions in water")
    row("Sulfate", "ppm", "500", "n/a", "sulfate", "mg/L", "ion", sp(wa["so4"], 0), sp(wb["so4"], 0), "Leaching from natural deposits")
    row("Total Dissolved Solids", "ppm", "1000", "n/a", "tds", "mg/L", None, sp(wa["tds"], 0), sp(wb["tds"], 0), "Leaching from natural deposits")
    body += "<tr class='sub'><td colspan='9'>Additional Parameters (Unregulated)</td></tr>\n"
    row("Alkalinity, Total as CaCO<sub>3</sub>", "ppm", "NS", "n/a", "alkalinity", "mg/L", "CaCO3", sp(wa["alk"], 0), sp(wb["alk"], 0), "")
    row("Calcium", "ppm", "NS", "n/a", "calcium", "mg/L", "ion", sp(wa["ca"], 0), sp(wb["ca"], 0), "")
    row("Hardness, Total as CaCO<sub>3</sub> <sup>(c)</sup>", "ppm", "NS", "n/a", "hardness_total", "mg/L", "CaCO3", sp(wa["hard"], 0), sp(wb["hard"], 0), "")
    row("Magnesium", "ppm", "NS", "n/a", "magnesium", "mg/L", "ion", sp(wa["mg"]), sp(wb["mg"]), "")
    row("pH", "pH units", "NS", "n/a", "ph", "pH", None, ("7.5", "7.7", "8.0"), ("7.9", "8.2", "8.5"), "")
    row("Potassium", "ppm", "NS", "n/a", "potassium", "mg/L", "ion", sp(wa["k"]), sp(wb["k"]), "")
    row("Sodium", "ppm", "NS", "n/a", "sodium", "mg/L", "ion", sp(wa["na"], 0), sp(wb["na"], 0), "")
    open(R.file, "w", encoding="utf-8").write(f"""<!DOCTYPE html>
<!-- saved from url=(0048)https://water.sierraloma.example/quality/2024 -->
<html lang="en"><head><meta http-equiv="Content-Type" content="text/html; charset=UTF-8"><title>2024 Water Quality Table | Sierra Loma Water District</title>
<script>window.dataLayer=[];function g(){{dataLayer.push(arguments)}};g('config','X-0000',{{"nitrate":45,"hardness":12}});</script><style>.sub td{{background:#def;font-weight:bold}} .cookie{{position:fixed}}</style></head>
<body><a class="skip" href="#main">Skip to main content</a><nav><ul><li><a href="#">Pay my bill</a></li><li><a href="#">Rebates</a></li><li><a href="#">Water Quality</a></li><li><a href="#">Careers</a></li></ul></nav>
<div class="cookie">We use cookies. <button>Accept</button></div><div class="alert">Stage 1 conservation: outdoor watering 3 days a week, before 9 a.m.</div>
<main id="main"><h1>2024 Water Quality Table</h1><p>Sierra Loma blends water from two sources. 3,912 tests were made in 2024 for 118 substances.</p>
<table class="wq"><thead><tr><th rowspan="2">Substance</th><th rowspan="2">Units</th><th rowspan="2">MCL [MRDL]</th><th rowspan="2">PHG (MCLG)</th><th colspan="2">{A}</th><th colspan="2">{B}</th><th rowspan="2">Typical Source</th></tr>
<tr><th>Average</th><th>Range</th><th>Average</th><th>Range</th></tr></thead><tbody>
{body}</tbody></table>
<p class="notes">(a) Reported as nitrogen (N). (b) At 25&nbsp;°C. (c) One grain per gallon equals 17.1 ppm. ND = not detected; NS = no standard; ppm = mg/L; ppb = µg/L.</p></main>
<aside><h3>Related</h3><ul><li>2023 table</li><li>Lead service line inventory</li></ul></aside><footer>© 2025 Sierra Loma Water District · 4400 Example Way · Call 555-0142 24/7</footer></body></html>""")
    R.save()

# ------------------------------------------------------------------ 5 Canadian municipal annual (text pasted from a PDF)
def canada():
    R = Rep("annual-drinking-water-port-ashby.txt", "en", "Port Ashby Water Treatment Plant"); r = R.r; R.ask = ["nitrate"]
    w = water(36.1, 8.9, 13.8, 1.4, 24.0, 25.5, 1.5); L = []
    def row(lab, u, gl, det, uu, b, v, n):
        c = [r(det, v[0], uu, b, "min"), r(det, v[2], uu, b, "max"), r(det, v[1], uu, b, "mean")] if det else [v[0], v[2], v[1]]
        L.append(" ".join([lab, u, gl] + c + [str(n)]))
    row("pH", "pH units", "7.0-10.5", "ph", "pH", None, ("7.31", "7.52", "7.80"), 365)
    row("Alkalinity (as CaCO3)", "mg/L", "NG", "alkalinity", "mg/L", "CaCO3", sp(w["alk"], 0), 12)
    row("Hardness (as CaCO3)", "mg/L", "NG", "hardness_total", "mg/L", "CaCO3", sp(w["hard"], 0), 12)
    row("Conductivity @ 25 C", "uS/cm", "NG", "conductivity", "µS/cm", "25C", sp(w["ec25"], 0), 12)
    row("Turbidity", "NTU", "1.0", "turbidity", "NTU", None, ("0.02", "0.04", "0.11"), 8760)
    row("Aluminum", "mg/L", "0.1", None, 0, 0, ("0.018", "0.031", "0.052"), 12)
    row("Chloride", "mg/L", "250", "chloride", "mg/L", "ion", sp(w["cl"]), 4)
    row("Sulphate", "mg/L", "500", "sulfate", "mg/L", "ion", sp(w["so4"]), 4)
    row("Sodium", "mg/L", "200", "sodium", "mg/L", "ion", sp(w["na"]), 4)
    row("Fluoride", "mg/L", "1.5", "fluoride", "mg/L", "ion", ("0.58", "0.65", "0.71"), 365)
    row("Iron", "mg/L", "0.3", "iron", "mg/L", "ion", ("<0.005", "<0.005", "0.009"), 4)
    row("Manganese", "mg/L", "0.12", "manganese", "mg/L", "ion", ("0.0008", "0.0017", "0.0031"), 4)
    row("Nitrate", "mg/L", "NG", "nitrate", "mg/L", None, ("0.28", "0.35", "0.47"), 4)
    row("Free Chlorine Residual", "mg/L", "NG", "chlorine_free", "mg/L", None, ("0.62", "0.98", "1.41"), 8760)
    row("Total Dissolved Solids", "mg/L", "500", "tds", "mg/L", None, sp(w["tds"], 0), 4)
    g = r("hardness_total", f(w["hard"]/17.118), "gpg", None, "mean")
    open(R.file, "w").write("""Town of Port Ashby
2024 Annual Drinking Water Report
Page 6 of 19
Table 4. Treated Water Quality, Port Ashby Water Treatment Plant, January 1 to December 31, 2024
Parameter Units Guideline Minimum Maximum Average # Samples
""" + "\n".join(L[:9]) + """
Town of Port Ashby 2024 Annual Drinking Water Report
Page 7 of 19
Parameter Units Guideline Minimum Maximum Average # Samples
""" + "\n".join(L[9:]) + f"""
NG = no guideline. Average hardness: {g} grains per gallon (moderately hard).
Lead is sampled separately under the community lead program; see Table 7.
""")
    R.save()

# ------------------------------------------------------------------ 8 Singapore page pasted, one cell a line
def singapore():
    R = Rep("pulau-kelintang-statistics.txt", "en", None); r = R.r
    w = water(22.5, 1.9, 15.2, 3.4, 23.0, 18.5, 4.4); L = []
    def row(lab, u, who, det, uu, b, v):
        if det: L.extend([lab, u, who, r(det, v[1], uu, b, "mean"), r(det, v[0], uu, b, "min") + " - " + r(det, v[2], uu, b, "max")])
        else: L.extend([lab, u, who, v[1], v[0]+" - "+v[2]])
    row("Colour", "Hazen", "15", None, 0, 0, ("<5", "<5", "<5"))
    row("Conductivity (25°C)", "µS/cm", "-", "conductivity", "µS/cm", "25C", sp(w["ec25"], 0))
    row("pH Value", "Units", "6.5 - 9.5", "ph", "pH", None, ("7.9", "8.2", "8.6"))
    row("Total Dissolved Solids", "mg/L", "-", "tds", "mg/L", None, sp(w["tds"], 0))
    row("Turbidity", "NTU", "5", "turbidity", "NTU", None, ("<0.1", "0.2", "0.5"))
    row("Ammonia (as N)", "mg/L", "-", "ammonium", "mg/L", "N", ("0.21", "0.44", "0.58"))
    row("Chloride", "mg/L", "250", "chloride", "mg/L", "ion", sp(w["cl"], 1))
    row("Monochloramine", "mg/L", "3", "chloramine", "mg/L", None, ("1.62", "2.06", "2.44"))
    row("Copper", "mg/L", "2", "copper", "mg/L", "ion", ("<0.01", "<0.01", "0.03"))
    row("Fluoride", "mg/L", "1.5", "fluoride", "mg/L", "ion", ("0.39", "0.47", "0.55"))
    row("Iron", "mg/L", "-", "iron", "mg/L", "ion", ("<0.003", "0.008", "0.021"))
    row("Nitrate (as N)", "mg/L", "11", "nitrate", "mg/L", "N", ("0.41", f(w["no3"]/4.4268, 2), "1.72"))
    row("Silica (as SiO2)", "mg/L", "-", "silica", "mg/L", "SiO2", ("2.1", "3.4", "5.0"))
    row("Sodium", "mg/L", "200", "sodium", "mg/L", "ion", sp(w["na"], 1))
    row("Sulphate", "mg/L", "250", "sulfate", "mg/L", "ion", sp(w["so4"], 1))
    row("Total Alkalinity (as CaCO3)", "mg/L", "-", "alkalinity", "mg/L", "CaCO3", sp(w["alk"], 1))
    row("Total Hardness (as CaCO3)", "mg/L", "-", "hardness_total", "mg/L", "CaCO3", sp(w["hard"], 1))
    open(R.file, "w").write("Home\nOur Water\nDrinking Water Quality\nPulau Kelintang Drinking Water: Statistics for January to December 2024\nShare\nParameter\nUnit\nWHO Guideline Values\nAverage\nRange\n" + "\n".join(L) + "\nLast updated 14 Mar 2025\nWas this page useful?\nYes\nNo\n")
    R.save()

# ------------------------------------------------------------------ 9 Maltese zone (groff pdf), this year beside last, footnotes with the basis
def malta():
    # The conductivities are those that PHREEQC 3 (phreeqc.dat) gives for these ions at 20 °C: the formula above is 14 % low in so salty a water.
    Y = ["2023", "2024"]
    R = Rep("malta-zone-hal-mirduna.pdf", "en", Y); r = R.r
    W = [water(61, 35, 196, 9.1, 352, 58, 31.0), water(57, 32, 181, 8.6, 324, 54, 28.4)]; L = []
    def row(lab, u, pv, det, uu, b, v):
        L.append("|".join([lab, u, r(det, v[0], uu, b, "mean", "2023") if det else v[0], r(det, v[1], uu, b, "mean", "2024") if det else v[1], pv]))
    g = lambda k, dp=1: [f(w[k], dp) for w in W]
    row("Alkalinity \u2021", "mg/l", "\\-", "alkalinity", "mg/L", "CaCO3", g("alk", 0)); row("Ammonium", "mg/l", "0.5", "ammonium", "mg/L", "ion", ("<0.05", "<0.05"))
    row("Boron", "mg/l", "1.5", "boron", "mg/L", "ion", ("0.38", "0.35")); row("Calcium", "mg/l", "\\-", "calcium", "mg/L", "ion", g("ca"))
    row("Chloride", "mg/l", "250", "chloride", "mg/L", "ion", g("cl", 0)); row("Conductivity *", "\u00b5S/cm", "2500", "conductivity", "µS/cm", "20C", ("1436", "1332"))
    row("Fluoride", "mg/l", "1.5", "fluoride", "mg/L", "ion", ("0.21", "0.19")); row("Free chlorine", "mg/l", "\\-", "chlorine_free", "mg/L", None, ("0.36", "0.41"))
    row("Magnesium", "mg/l", "\\-", "magnesium", "mg/L", "ion", g("mg")); row("Nitrate \u2020", "mg/l", "50", "nitrate", "mg/L", "ion", g("no3"))
    row("Nitrite \u2020", "mg/l", "0.5", "nitrite", "mg/L", "ion", ("<0.01", "0.02")); row("pH", "\\-", "6.5 to 9.5", "ph", "pH", None, ("7.72", "7.68"))
    row("Potassium", "mg/l", "\\-", "potassium", "mg/L", "ion", g("k")); row("Sodium", "mg/l", "200", "sodium", "mg/L", "ion", g("na", 0))
    row("Sulfate", "mg/l", "250", "sulfate", "mg/L", "ion", g("so4")); row("Total hardness \u2021", "mg/l", "\\-", "hardness_total", "mg/L", "CaCO3", g("hard", 0))
    row("Trihalomethanes", "\u00b5g/l", "100", None, 0, 0, ("41", "38"))
    groff(""".TL
Water quality in your zone: Hal Mirduna
.AU
Gzejjer Water Services
.LP
Reverse-osmosis water blended with groundwater. Yearly averages of the samples taken in the zone; about 24 samples a year.
.TS
allbox tab(|) center;
lb lb cb s lb
lb lb cb cb lb
l l n n l.
Parameter|Unit|Yearly average|Parametric value
\\^|\\^|2023|2024|\\^
""" + "\n".join(L) + """
.TE
.LP
* measured at 20 \u00b0C
.br
\u2020 nitrate as NO3, nitrite as NO2
.br
\u2021 expressed as calcium carbonate (CaCO3)
""", R.file)
    R.save()

# ------------------------------------------------------------------ 11 NRW utility, two works and a Mischwasser zone (ods)
def nrw():
    from odf.opendocument import OpenDocumentSpreadsheet
    from odf.table import Table, TableRow, TableCell, CoveredTableCell
    from odf.text import P
    Z = ["Zone Nord", "Zone Süd", "Mischwasserzone"]
    R = Rep("stadtwerke-erlenrath-trinkwasser.ods", "de", Z); r = R.r
    p, q = (98, 12.4, 28, 4.1, 47, 68, 22.0), (54, 8.2, 19, 2.6, 31, 49, 9.4)
    W = [water(*p), water(*q), water(*[(x+y)/2 for x, y in zip(p, q)])]
    doc = OpenDocumentSpreadsheet(); t = Table(name="Jahresmittel 2024"); doc.spreadsheet.addElement(t)
    def add(cells, merge=None):
        tr = TableRow()
        for c in cells:
            if isinstance(c, tuple): tc = TableCell(numbercolumnsspanned=c[1], valuetype="string"); tc.addElement(P(text=c[0])); tr.addElement(tc); [tr.addElement(CoveredTableCell()) for _ in range(c[1]-1)]; continue
            m = re.fullmatch(r"-?\d+(,\d+)?", c)
            tc = TableCell(valuetype="float", value=c.replace(",", ".")) if m else TableCell(valuetype="string")
            if c: tc.addElement(P(text=c))
            tr.addElement(tc)
        t.addElement(tr)
    add([("Stadtwerke Erlenrath – Trinkwasseranalyse, Jahresmittelwerte 2024", 6)]); add([""])
    add(["Parameter", "Einheit", ("Jahresmittelwerte", 3), "Grenzwert"]); add(["", ""] + Z + ["TrinkwV"])
    def row(lab, u, gw, det, uu, b, vals): add([lab, u] + [r(det, v, uu, b, "mean", Z[i]) if det else v for i, v in enumerate(vals)] + [gw])
    g = lambda k, dp=1: [f(w[k], dp, True) for w in W]
    row("Elektrische Leitfähigkeit bei 20 °C", "µS/cm", "2500", "conductivity", "µS/cm", "20C", g("ec20", 0)); row("pH-Wert", "–", "6,5–9,5", "ph", "pH", None, ("7,32", "7,58", "7,44"))
    row("Gesamthärte", "°dH", "", "hardness_total", "°dH", None, g("dH")); row("Härte (Summe Ca + Mg)", "mmol/l", "", "hardness_total", "mmol/L", None, g("h", 2))
    row("Härtebereich", "", "", None, 0, 0, ("hart", "mittel", "mittel")); row("Säurekapazität bis pH 4,3", "mmol/l", "", "alkalinity", "mmol/L", "acid_capacity", g("kmol", 2))
    row("Calcium", "mg/l", "", "calcium", "mg/L", "ion", g("ca")); row("Magnesium", "mg/l", "", "magnesium", "mg/L", "ion", g("mg")); row("Natrium", "mg/l", "200", "sodium", "mg/L", "ion", g("na"))
    row("Kalium", "mg/l", "", "potassium", "mg/L", "ion", g("k")); row("Chlorid", "mg/l", "250", "chloride", "mg/L", "ion", g("cl")); row("Sulfat", "mg/l", "250", "sulfate", "mg/L", "ion", g("so4"))
    row("Nitrat", "mg/l", "50", "nitrate", "mg/L", "ion", g("no3")); row("Phosphat, gesamt (als PO4)", "mg/l", "", "phosphorus_total", "mg/L", "ion", ("0,31", "<0,05", "0,17")) ; row("Silikat (als SiO2)", "mg/l", "", "silica", "mg/L", "SiO2", ("11,2", "8,6", "9,9"))
    row("Uran", "µg/l", "10", None, 0, 0, ("1,1", "0,4", "0,8"))
    add([""]); add([("In der Mischwasserzone schwanken die Werte je nach Verbrauch zwischen denen der Zonen Nord und Süd.", 6)])
    doc.save(R.file); R.save()

# ------------------------------------------------------------------ 13 Swiss Gemeinde info (pasted prose, two sources)
def swiss():
    A, B = "Quellwasser Brunnacher", "Grundwasser Sonnau"
    R = Rep("wasserqualitaet-oberwilen.txt", "de", [A, B]); r = R.r
    wa, wb = water(88, 11.5, 3.4, .9, 6.2, 14, 8.8), water(104, 19.2, 11.8, 2.2, 23.5, 31, 18.6)
    def blk(n, w, ph, t):
        g = lambda det, k, dp=1: r(det, f(w[k], dp), "mg/L", "ion", "single", n)
        return f"""{n}
Probe vom {t}
Gesamthärte: {r("hardness_total", f(w["fH"]), "°fH", None, "single", n)} °fH ({"ziemlich hart" if w["fH"]<32 else "hart"})
pH-Wert: {r("ph", ph, "pH", None, "single", n)}
Leitfähigkeit (25 °C): {r("conductivity", f(w["ec25"], 0), "µS/cm", "25C", "single", n)} µS/cm
Calcium: {g("calcium", "ca")} mg/l
Magnesium: {g("magnesium", "mg")} mg/l
Natrium: {g("sodium", "na")} mg/l
Kalium: {g("potassium", "k")} mg/l
Chlorid: {g("chloride", "cl")} mg/l
Sulfat: {g("sulfate", "so4")} mg/l
Nitrat: {g("nitrate", "no3")} mg/l (Höchstwert: 40 mg/l)
Hydrogenkarbonat: {r("bicarbonate", f(w["hco3"], 0), "mg/L", "ion", "single", n)} mg/l
"""
    open(R.file, "w").write(f"""Wasserversorgung Oberwilen im Tann
Information über die Qualität des Trinkwassers 2024

Hygienische Beurteilung: Die 24 mikrobiologischen Proben lagen innerhalb der gesetzlichen Vorschriften.
Die Gemeinde versorgt 3'480 Einwohnerinnen und Einwohner.

{blk(A, wa, "7.48", "11.03.2024")}
{blk(B, wb, "7.29", "12.03.2024")}
Behandlung des Wassers: UV-Desinfektion
Weitere Auskünfte: Brunnenmeister, Tel. 000 000 00 12
""")
    R.save()

# ------------------------------------------------------------------ 14 Luxembourg commune FR/DE (pymupdf), hardness in "°" without the kind
def lux():
    import pymupdf as fitz
    A, B = "Réservoir Haardtbusch", "École Wisebaach"
    R = Rep("commune-wiltenach-eau.pdf", "fr", [A, B]); r = R.r; R.ask = ["hardness_total"]     # a bare degree
    wa, wb = water(64, 12, 9.5, 1.9, 17, 29, 24.1), water(78, 15, 11.2, 2.2, 21, 34, 27.5)
    rows = []
    def row(lab, u, det, uu, b, va, vb, lim): rows.append((lab, u, r(det, va, uu, b, "single", A) if det else va, r(det, vb, uu, b, "single", B) if det else vb, lim))
    row("Escherichia coli", "n/100 ml", None, 0, 0, "0", "0", "0"); row("Température / Temperatur", "°C", "temperature", "°C", None, "10,8", "14,2", "-")
    row("pH / pH-Wert", "-", "ph", "pH", None, "7,6", "7,5", "6,5-9,5"); row("Conductibilité 20°C / Leitfähigkeit 20°C", "µS/cm", "conductivity", "µS/cm", "20C", f(wa["ec20"], 0), f(wb["ec20"], 0), "2500")
    row("Turbidité / Trübung", "FNU", "turbidity", "NTU", None, "<0,5", "<0,5", "1"); row("Dureté totale / Gesamthärte", "°", "hardness_total", None, None, f(wa["fH"], 1, 1), f(wb["fH"], 1, 1), "-")
    row("Ammonium (NH4)", "mg/l", "ammonium", "mg/L", "ion", "<0,05", "<0,05", "0,50"); row("Nitrites / Nitrit (NO2)", "mg/l", "nitrite", "mg/L", "ion", "<0,02", "<0,02", "0,50")
    row("Nitrates / Nitrat (NO3)", "mg/l", "nitrate", "mg/L", "ion", f(wa["no3"], 1, 1), f(wb["no3"], 1, 1), "50"); row("Chlorures / Chlorid (Cl)", "mg/l", "chloride", "mg/L", "ion", f(wa["cl"], 1, 1), f(wb["cl"], 1, 1), "250")
    row("Sulfates / Sulfat (SO4)", "mg/l", "sulfate", "mg/L", "ion", f(wa["so4"], 1, 1), f(wb["so4"], 1, 1), "250"); row("Sodium / Natrium (Na)", "mg/l", "sodium", "mg/L", "ion", f(wa["na"], 1, 1), f(wb["na"], 1, 1), "200")
    row("Potassium / Kalium (K)", "mg/l", "potassium", "mg/L", "ion", f(wa["k"], 1, 1), f(wb["k"], 1, 1), "-"); row("Fer / Eisen (Fe)", "µg/l", "iron", "µg/L", "ion", "<20", "34", "200"); row("Manganèse / Mangan (Mn)", "µg/l", "manganese", "µg/L", "ion", "<5", "<5", "50")
    doc = fitz.open(); p = doc.new_page(); X = (45, 265, 325, 425, 515)
    def tx(x, y, t, s=9, fn="helv"): p.insert_text((x, y), t, fontsize=s, fontname=fn)
    tx(45, 60, "Administration communale de Wiltenach", 15, "hebo"); tx(45, 80, "Qualité de l'eau destinée à la consommation humaine", 11); tx(45, 94, "Qualität des Trinkwassers", 11)
    tx(45, 112, "Prélèvement du 09/04/2025 / Probenahme vom 09/04/2025"); y = 140
    for x, t in zip(X, ("Paramètre / Parameter", "Unité", A, B, "Valeur limite")): tx(x, y, t, 8.5, "hebo")
    for rw in rows:
        y += 17; p.draw_line((45, y-11), (570, y-11), width=.3)
        for x, t in zip(X, rw): tx(x, y, t)
    tx(45, y+30, "Renseignements / Auskünfte: service technique, tél. 00 00 00-31"); doc.save(R.file); R.save()

# ------------------------------------------------------------------ 19 Spanish SINAC-like list (text pasted from a PDF)
def sinac():
    R = Rep("boletin-vallehondo.txt", "es", "RED VALLEHONDO CENTRO"); r = R.r; R.nj = ["chloramine"]
    w = water(112, 31.5, 44, 3.8, 71, 148, 18.8); L = []
    def row(lab, det, v, u, uu, b, lim): L.append(" ".join(x for x in (lab, r(det, v, uu, b) if det else v, u, lim) if x))
    row("ALUMINIO", None, "38", "µg/L", 0, 0, "200"); row("AMONIO", "ammonium", "<0,05", "mg/L NH4", "mg/L", "ion", "0,5"); row("BORO", "boron", "0,11", "mg/L", "mg/L", "ion", "1,5"); row("CALCIO", "calcium", f(w["ca"], 1, 1), "mg/L", "mg/L", "ion", "-")
    row("CLORO LIBRE RESIDUAL", "chlorine_free", "0,62", "mg/L", "mg/L", None, "1,0"); row("CLORO COMBINADO RESIDUAL", None, "0,08", "mg/L", 0, 0, "2,0"); row("CLORURO", "chloride", f(w["cl"], 1, 1), "mg/L", "mg/L", "ion", "250"); row("COBRE", "copper", "0,021", "mg/L", "mg/L", "ion", "2,0")
    row("CONDUCTIVIDAD A 20 ºC", "conductivity", f(w["ec20"], 0), "µS/cm", "µS/cm", "20C", "2500"); row("DUREZA TOTAL", "hardness_total", f(w["fH"], 1, 1), "ºf", "°fH", None, "-"); row("ESCHERICHIA COLI", None, "0", "UFC/100 mL", 0, 0, "0"); row("FLUORURO", "fluoride", "0,24", "mg/L", "mg/L", "ion", "1,5")
    row("HIERRO", "iron", "<20", "µg/L", "µg/L", "ion", "200"); row("ÍNDICE DE LANGELIER", None, "0,2", "", 0, 0, "-0,5 a 0,5"); row("MAGNESIO", "magnesium", f(w["mg"], 1, 1), "mg/L", "mg/L", "ion", "-"); row("MANGANESO", "manganese", "<5", "µg/L", "µg/L", "ion", "50")
    row("NITRATO", "nitrate", f(w["no3"], 1, 1), "mg/L NO3", "mg/L", "ion", "50"); row("NITRITO", "nitrite", "<0,02", "mg/L NO2", "mg/L", "ion", "0,5"); row("PH", "ph", "7,6", "Unidades de pH", "pH", None, "6,5 a 9,5"); row("POTASIO", "potassium", f(w["k"], 1, 1), "mg/L", "mg/L", "ion", "-")
    row("SODIO", "sodium", f(w["na"], 1, 1), "mg/L", "mg/L", "ion", "200"); row("SULFATO", "sulfate", f(w["so4"], 1, 1), "mg/L", "mg/L", "ion", "250"); row("TEMPERATURA", "temperature", "15,3", "ºC", "°C", None, "-"); row("TURBIDEZ", "turbidity", "0,3", "UNF", "NTU", None, "4")
    open(R.file, "w").write("Sistema de Información de Aguas de Consumo\nBoletín de análisis: 2025-004417 Tipo: Análisis completo\nRed de distribución: RED VALLEHONDO CENTRO Código: 00000\nPunto de muestreo: Fuente de la Plaza Vieja\nFecha de toma de muestra: 12/11/2024 Laboratorio: Laboratorio Hondo\nParámetro Valor cuantificado Unidad Valor paramétrico\n" + "\n".join(L[:14]) + "\nPágina 1 de 2\nParámetro Valor cuantificado Unidad Valor paramétrico\n" + "\n".join(L[14:]) + "\nPágina 2 de 2\nCalificación de la muestra: AGUA APTA PARA EL CONSUMO\n")
    R.save()

# ------------------------------------------------------------------ 20 Mexican laboratory certificate (reportlab), limits on both sides
def mexico():
    from reportlab.platypus import SimpleDocTemplate, Table as RT, TableStyle, Paragraph, Spacer
    from reportlab.lib.styles import getSampleStyleSheet
    from reportlab.lib import colors
    R = Rep("certificado-pozo-la-herradura.pdf", "es", "Pozo La Herradura"); r = R.r
    w = water(58, 13.4, 46, 7.2, 29, 38, 13.3); rows = [["Parámetro", "L.D.", "Límite\nmínimo", "Resultado", "Límite\nmáximo", "Unidad", "Método"]]
    def row(lab, ld, lo, det, v, hi, u, uu, b, m):
        if det and v in ND:
            r(det, "<"+ld, uu, b)
        elif det: r(det, v, uu, b)
        rows.append([lab, ld, lo, v, hi, u, m])
    row("pH", "-", "6.5", "ph", "7.42", "8.5", "unidades de pH", "pH", None, "AA-008"); row("Temperatura", "-", "-", "temperature", "24.1", "-", "°C", "°C", None, "AA-007"); row("Conductividad a 25 °C", "5", "-", "conductivity", f(w["ec25"], 0), "-", "µS/cm", "µS/cm", "25C", "AA-093")
    row("Alcalinidad total (como CaCO3)", "5", "-", "alkalinity", f(w["alk"], 1), "-", "mg/L", "mg/L", "CaCO3", "AA-036"); row("Dureza total (como CaCO3)", "5", "-", "hardness_total", f(w["hard"], 1), "500", "mg/L", "mg/L", "CaCO3", "AA-072"); row("Dureza de calcio (como CaCO3)", "5", "-", "hardness_calcium", f(w["ca"]*2.4973, 1), "-", "mg/L", "mg/L", "CaCO3", "AA-072")
    row("Sólidos disueltos totales", "10", "-", "tds", f(w["tds"], 0), "1000", "mg/L", "mg/L", None, "AA-034"); row("Cloro residual libre", "0.05", "0.2", "chlorine_free", "0.74", "1.5", "mg/L", "mg/L", None, "AA-108"); row("Cloruros", "1.0", "-", "chloride", f(w["cl"], 1), "250", "mg/L", "mg/L", "ion", "AA-073"); row("Sulfatos", "1.0", "-", "sulfate", f(w["so4"], 1), "400", "mg/L", "mg/L", "ion", "AA-074")
    row("Nitratos (como N)", "0.05", "-", "nitrate", f(w["no3"]/4.4268, 2), "11.0", "mg/L", "mg/L", "N", "AA-079"); row("Nitritos (como N)", "0.005", "-", "nitrite", "<0.005", "0.90", "mg/L", "mg/L", "N", "AA-099"); row("Nitrógeno amoniacal (como N)", "0.05", "-", "ammonium", "<0.05", "0.50", "mg/L", "mg/L", "N", "AA-026"); row("Fluoruros", "0.10", "-", "fluoride", "0.86", "1.00", "mg/L", "mg/L", "ion", "AA-077")
    row("Calcio", "0.5", "-", "calcium", f(w["ca"], 1), "-", "mg/L", "mg/L", "ion", "AA-051"); row("Magnesio", "0.1", "-", "magnesium", f(w["mg"], 1), "-", "mg/L", "mg/L", "ion", "AA-051"); row("Sodio", "0.5", "-", "sodium", f(w["na"], 1), "200", "mg/L", "mg/L", "ion", "AA-051"); row("Potasio", "0.5", "-", "potassium", f(w["k"], 1), "-", "mg/L", "mg/L", "ion", "AA-051")
    row("Arsénico", "0.001", "-", None, "0.006", "0.025", "mg/L", 0, 0, "AA-051"); row("Fierro", "0.02", "-", "iron", "No detectado", "0.30", "mg/L", "mg/L", "ion", "AA-051"); row("Manganeso", "0.01", "-", "manganese", "0.03", "0.15", "mg/L", "mg/L", "ion", "AA-051"); row("Sílice (como SiO2)", "1.0", "-", "silica", "38.5", "-", "mg/L", "mg/L", "SiO2", "AA-075")
    st = getSampleStyleSheet(); t = RT(rows, repeatRows=1); t.setStyle(TableStyle([("GRID", (0, 0), (-1, -1), .4, colors.grey), ("BACKGROUND", (0, 0), (-1, 0), colors.lightgrey), ("FONTSIZE", (0, 0), (-1, -1), 8), ("ALIGN", (1, 0), (4, -1), "CENTER")]))
    SimpleDocTemplate(R.file).build([Paragraph("Laboratorio Analítico del Valle Inventado", st["Title"]), Paragraph("Informe de ensayo No. LA-2025-0831. Cliente: Comité de Agua de Tres Sauces Altos. Punto de muestreo: Pozo La Herradura. Fecha de muestreo: 21/08/2025", st["Normal"]), Spacer(1, 8), t, Spacer(1, 8), Paragraph("L.D.: límite de detección. Los límites son los permisibles para agua de uso y consumo humano. Este informe ampara solo la muestra recibida.", st["Normal"])])
    R.save()

import sys
ALL = [scot, irish, texas, calif, canada, singapore, malta, nrw, swiss, lux, sinac, mexico]
for g in ALL:
    random.seed(g.__name__)
    if len(sys.argv) < 2 or g.__name__ in sys.argv[1:]: g()
shutil.rmtree(T, ignore_errors=True)
