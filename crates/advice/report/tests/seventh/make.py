"""Makes the reports of this folder: a seventh round, read once before anything was mended on them. Those that were read right at
once are made too, but not kept here; expectations of a basis that the report proves were settled by hand.

python make.py, with reportlab, groff, LaTeX, typst, a browser, an office and others. All waters, places and works are invented.
"""
import os, sys
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "common"))
from kit import *
rnd.seed(70717)
def r1():  # UK zone, reportlab, landscape, two pages
    from reportlab.platypus import SimpleDocTemplate, Table, Paragraph, Spacer
    from reportlab.lib.pagesizes import A4, landscape
    from reportlab.lib.styles import getSampleStyleSheet
    from reportlab.lib import colors
    r = R("harrowmere-zone-z0417.pdf", "en", "Z0417 Harrowmere Town"); w = water(88.6, 6.9, 24.7, 3.4, 41.2, 52.3, 29.4)
    ss = getSampleStyleSheet(); st = [Paragraph("Your water quality report", ss["Title"]), Paragraph("Water Supply Zone: Z0417 Harrowmere Town &nbsp;&nbsp; Population: 38,412 &nbsp;&nbsp; Period: 1 January 2024 to 31 December 2024", ss["Normal"]), Spacer(1, 8)]
    hv = [["Hardness in your zone", ""], ["Hardness level", "Hard"], ["Hardness mg/l Calcium", r.v("hardness_total", "Ca", M, "mean", n(w["hard"]/100.087*40.078, 1))], ["Hardness mg/l Calcium Carbonate", r.v("hardness_total", CA, M, "mean", n(w["hard"], 0))],
          ["Degrees Clark", r.v("hardness_total", O, "°e", "mean", n(w["e"], 1))], ["Degrees German", r.v("hardness_total", O, "°dH", "mean", n(w["dH"], 1))], ["Degrees French", r.v("hardness_total", O, "°fH", "mean", n(w["fH"], 1))], ["Dishwasher setting", "See your manual"]]
    t = Table(hv, colWidths=[200, 90]); t.setStyle([("GRID", (0, 0), (-1, -1), .4, colors.grey), ("SPAN", (0, 0), (-1, 0)), ("BACKGROUND", (0, 0), (-1, 0), colors.lightblue), ("FONTSIZE", (0, 0), (-1, -1), 8)]); t.hAlign = "LEFT"; st += [t, Spacer(1, 10)]
    rows = [["Parameter", "Units", "UK/EU limit", "No. of samples", "Min.", "Mean", "Max.", "95th\npercentile", "% of samples\nabove limit"]]
    def row(lab, u, lim, cnt, det, b, uk, t, p95=None):
        if det: [r.v(det, b, uk, s, x) for s, x in zip(MMM + ["p95"], t + ([p95] if p95 else []))]
        rows.append([lab, u, lim, cnt] + t + [p95 or "-", "0.0"])
    row("1,2-dichloroethane", "µg/l", "3.0", "8", None, None, None, ["<0.100"]*3)
    row("Alkalinity as HCO3", "mg/l HCO3", "", "8", "alkalinity", "HCO3", M, tri(w["hco3"], 0))
    row("Aluminium", "µg/l Al", "200", "52", "aluminium", I, U, ["<4.00", "7.31", "24.9"], "18.2")
    row("Ammonium", "mg/l NH4", "0.5", "52", "ammonium", I, M, ["<0.015", "<0.015", "0.041"], "0.029")
    row("Benzo(a)pyrene", "µg/l", "0.01", "8", None, None, None, ["<0.0020"]*3)
    row("Boron", "mg/l B", "1", "8", "boron", I, M, ["0.031", "0.044", "0.058"])
    row("Calcium", "mg/l Ca", "", "8", "calcium", I, M, tri(w["ca"], 1))
    row("Chloride", "mg/l Cl", "250", "8", "chloride", I, M, tri(w["cl"], 1))
    row("Chlorine - Free Residual", "mg/l Cl2", "", "180", "chlorine_free", O, M, ["0.04", "0.37", "0.81"], "0.66")
    row("Chlorine - Total Residual", "mg/l Cl2", "", "180", "chlorine_total", O, M, ["0.09", "0.45", "0.92"], "0.74")
    row("Coliform bacteria", "number/100ml", "0", "180", None, None, None, ["0", "0", "0"])
    row("Colour", "mg/l Pt/Co scale", "20", "52", None, None, None, ["<1.20", "<1.20", "2.6"])
    row("Conductivity at 20°C", "µS/cm", "2500", "52", "conductivity", "20C", US, tri(w["ec20"], 0), n(w["ec20"]*1.08, 0))
    row("Copper", "mg/l Cu", "2", "8", "copper", I, M, ["0.011", "0.142", "0.387"])
    row("Fluoride", "mg/l F", "1.5", "8", "fluoride", I, M, ["0.12", "0.16", "0.21"])
    row("Hydrogen Ion (pH)", "pH value", "6.5-9.5", "52", "ph", O, "pH", ["7.18", "7.39", "7.62"], "7.55")
    row("Iron", "µg/l Fe", "200", "52", "iron", I, U, ["<5.00", "11.6", "83.0"], "34.1")
    row("Lead", "µg/l Pb", "10", "8", "lead", I, U, ["<0.30", "0.82", "3.90"])
    row("Magnesium", "mg/l Mg", "", "8", "magnesium", I, M, tri(w["mg"], 2))
    row("Manganese", "µg/l Mn", "50", "52", "manganese", I, U, ["<0.40", "0.91", "4.70"], "2.60")
    row("Nitrate", "mg/l NO3", "50", "8", "nitrate", I, M, tri(w["no3"], 1))
    row("Nitrite - Consumer's tap", "mg/l NO2", "0.5", "8", "nitrite", I, M, ["<0.0040", "0.0062", "0.0180"])
    row("Nitrate/Nitrite calculation", "mg/l", "1", "8", None, None, None, ["0.531", "0.590", "0.661"])
    row("Phosphorus", "µg/l P", "", "8", "phosphorus_total", P, U, ["612", "884", "1090"])
    row("Potassium", "mg/l K", "", "8", "potassium", I, M, tri(w["k"], 2))
    row("Sodium", "mg/l Na", "200", "8", "sodium", I, M, tri(w["na"], 1))
    row("Sulphate", "mg/l SO4", "250", "8", "sulfate", I, M, tri(w["so4"], 1))
    row("Tetrachloroethene/Trichloroethene", "µg/l", "10", "8", None, None, None, ["<0.40"]*3)
    row("Total Organic Carbon", "mg/l C", "", "8", "toc", O, M, ["0.61", "0.88", "1.24"])
    row("Turbidity", "NTU", "4", "52", "turbidity", O, "NTU", ["<0.10", "0.14", "0.52"], "0.31")
    row("Zinc", "µg/l Zn", "", "8", "zinc", I, U, ["2.4", "14.7", "61.2"])
    t = Table(rows, repeatRows=1, colWidths=[165, 85, 65, 70, 55, 55, 55, 65, 80]); t.setStyle([("FONTSIZE", (0, 0), (-1, -1), 8), ("LINEBELOW", (0, 0), (-1, -1), .25, colors.grey), ("ALIGN", (2, 0), (-1, -1), "RIGHT"), ("FONTNAME", (0, 0), (-1, 0), "Helvetica-Bold"), ("BOTTOMPADDING", (0, 0), (-1, -1), 2), ("TOPPADDING", (0, 0), (-1, -1), 2)])
    st += [t, Spacer(1, 8), Paragraph("Notes: &lt; means less than the limit of detection. µg/l is one part in 1,000,000,000. Phosphate is added to this supply to reduce lead. Customer line 0555 010 0417, open 8am-6pm Monday to Friday.", ss["Normal"])]
    SimpleDocTemplate(f"{D}/{r.file}", pagesize=landscape(A4), topMargin=36, bottomMargin=36).build(st); r.done()

def r2():  # US consumer confidence, chromium, two columns of print
    r = R("dunmore-flats-ccr.pdf", "en", "City of Dunmore Flats", ["alkalinity"]); w = water(41.3, 12.2, 18.9, 2.4, 22.6, 38.1, 4.9)
    h = ["""<html><meta charset=utf-8><style>body{font:9pt Georgia} .c{column-count:2;column-gap:22px} table{border-collapse:collapse;font:7.5pt Arial;width:100%;margin:8px 0} td,th{border:1px solid #777;padding:2px 4px;text-align:center} td:first-child{text-align:left} h2{color:#035}</style>
<h1>2024 Annual Drinking Water Quality Report</h1><h3>City of Dunmore Flats &middot; PWS ID 9900417</h3><div class=c>
<h2>Where does my water come from?</h2><p>Our source is Lake Ottavere, a 1,240-acre reservoir, treated at the Flats Road plant (rated at 6.5 million gallons per day). In 2024 the plant treated 812 million gallons. The council meets the first Monday of each month at 6:30 p.m., 14 Depot Street, (555) 010-7733.</p>
<h2>Is my water hard?</h2><p>"""]
    h.append(f"""Hardness in our finished water averaged {r.v('hardness_total', CA, M, 'mean', n(w['hard'], 0))} mg/L as calcium carbonate, which is about {r.v('hardness_total', O, 'gpg', 'mean', n(w['gpg'], 1))} grains per gallon. The pH of the water leaving the plant averaged {r.v('ph', O, 'pH', 'mean', '8.1')}.</p>
<h2>Fluoride</h2><p>The plant adds fluoride to reach the recommended 0.7 ppm.</p><h2>Lead in plumbing</h2><p>Lead can cause serious health problems. Flush your tap for 30 seconds to 2 minutes before using water for drinking. Infants under 6 months should not drink water with more than 10 ppm of nitrate.</p>
<h2>Definitions</h2><p><b>MCL</b> Maximum Contaminant Level. <b>MRDL</b> Maximum Residual Disinfectant Level. <b>AL</b> Action Level. <b>ND</b> not detected. <b>ppm</b> parts per million. <b>ppb</b> parts per billion. <b>RAA</b> running annual average.</p></div><h2>What we found</h2>""")
    def tab(hd, rows): h.append("<table><tr>" + "".join(f"<th>{x}</th>" for x in hd) + "</tr>" + "".join("<tr>" + "".join(f"<td>{x}</td>" for x in q) + "</tr>" for q in rows) + "</table>")
    def amr(det, b, u, a, lo, hi): return r.v(det, b, u, "mean", a), f"{r.v(det, b, u, 'min', lo)} – {r.v(det, b, u, 'max', hi)}"
    t = tri(w["no3n"], 2); fl = amr("fluoride", I, M, "0.68", "0.55", "0.79"); ni = amr("nitrate", N, M, t[1], t[0], t[2]); cl = amr("chlorine_free", O, M, "1.34", "0.22", "2.10")
    hd = ["Substance (unit)", "Year sampled", "MCL [MRDL]", "MCLG [MRDLG]", "Average detected", "Range low – high", "Violation", "Typical source"]
    tab(["Regulated substances"] + hd[1:], [["Barium (ppm)", "2024", "2", "2", "0.021", "0.018 – 0.024", "No", "Erosion of natural deposits"], ["Fluoride (ppm)", "2024", "4", "4", *fl, "No", "Water additive that promotes strong teeth"], ["Free chlorine (ppm)", "2024", "[4]", "[4]", *cl, "No", "Water additive used to control microbes"],
        ["Haloacetic acids [HAA5] (ppb)", "2024", "60", "NA", "21.4", "11.0 – 33.2", "No", "By-product of disinfection"], ["Nitrate as nitrogen (ppm)", "2024", "10", "10", *ni, "No", "Runoff from fertilizer use"], ["Total organic carbon<sup>1</sup> (removal ratio)", "2024", "TT", "NA", "1.31", "1.08 – 1.62", "No", "Naturally present in the environment"],
        ["Turbidity<sup>2</sup> (NTU)", "2024", "TT = 1", "NA", "NA", f"0.03 – {r.v('turbidity', O, 'NTU', 'max', '0.21', opt=True)}", "No", "Soil runoff"]])
    r.v("turbidity", O, "NTU", "min", "0.03", opt=True)
    h.append("<p>Tap water samples were collected from 30 homes for lead and copper</p>")
    tab(["Substance (unit)", "Year sampled", "AL", "MCLG", "Amount detected (90th percentile)", "Homes above AL / total homes", "Violation", "Typical source"], [["Copper (ppm)", "2023", "1.3", "1.3", r.v("copper", I, M, "p90", "0.316"), "0/30", "No", "Corrosion of household plumbing"], ["Lead (ppb)", "2023", "15", "0", r.v("lead", I, U, "p90", "3.2"), "1/30", "No", "Corrosion of household plumbing"]])
    q = []
    def un(lab, lim, det, b, u, t): a, g = amr(det, b, u, t[1], t[0], t[2]); q.append([lab, "2024", lim, a, g])
    un("Alkalinity (ppm)", "NA", "alkalinity", CA, M, tri(w["alk"], 0)); un("Calcium (ppm)", "NA", "calcium", I, M, tri(w["ca"])); un("Chloride (ppm)", "250", "chloride", I, M, tri(w["cl"])); un("Conductivity at 25&deg;C (&micro;mhos/cm)", "NA", "conductivity", "25C", US, tri(w["ec25"], 0))
    un("Iron (ppb)", "300", "iron", I, U, ["8", "22", "47"]); un("Magnesium (ppm)", "NA", "magnesium", I, M, tri(w["mg"])); un("Manganese (ppb)", "50", "manganese", I, U, ["1.4", "3.6", "9.8"]); q.append(["Odor (TON)", "2024", "3", "1", "1 – 2"]); un("Potassium (ppm)", "NA", "potassium", I, M, tri(w["k"], 2))
    un("Sodium (ppm)", "NA", "sodium", I, M, tri(w["na"])); un("Sulfate (ppm)", "250", "sulfate", I, M, tri(w["so4"])); un("Total dissolved solids (ppm)", "500", "tds", O, M, tri(w["tds"], 0)); un("Zinc (ppm)", "5", "zinc", I, M, ["0.11", "0.19", "0.30"])
    h.append("<p>Secondary and other substances</p>"); tab(["Substance (unit)", "Year sampled", "SMCL", "Average", "Range low – high"], q)
    h.append("<p><sup>1</sup> A ratio of 1.00 or more meets the treatment technique. <sup>2</sup> The lowest monthly percentage of samples meeting 0.3 NTU was 100%.</p></html>")
    chromium("".join(h), "dunmore-flats-ccr"); r.done()

def r3():  # US lab certificate, groff -Tpdf, long, two samples one after the other
    Z = ["Well 3 Raw", "Kitchen Tap"]; r = R("pellworth-analytical-coa.pdf", "en", Z, ["hardness_total"] if 0 else [])
    A = [water(63.2, 21.8, 11.4, 1.9, 14.7, 29.6, 18.3), water(0.9, 0.2, 141.0, 1.9, 14.9, 29.4, 18.1)]
    L = [".ll 7.2i", ".po 0.6i", ".ps 8", ".vs 10", ".nf", "\\fBPELLWORTH ANALYTICAL LLC\\fP", "88 Tannery Row, Oakenfold  |  Tel (555) 010-2299  |  Lab cert. no. 99-417", "", "\\fBCERTIFICATE OF ANALYSIS\\fP", "Work Order: 24F1182      Reported: 06/21/2024 14:05      Client: R. Quillby, Farmhouse Lane", "Project: Domestic well      PO: none", ""]
    def samp(z, i, w, tap):
        L.extend([f"\\fBClient Sample ID: {z}\\fP", f"Lab ID: 24F1182-0{i}      Matrix: Drinking Water      Collected: 06/11/2024 09:{38+i*4}      Received: 06/11/2024 13:20", ".TS H" if 0 else ".TS", "l r l r r l l l l.", "\\fBAnalyte\tResult\tQual\tRL\tMDL\tUnits\tMethod\tPrepared\tAnalyzed\\fP"])
        def row(lab, res, rl, mdl, u, meth, det=None, b=None, uk=None, an="06/13/24"):
            if det: r.v(det, b, uk, "single", res, z, float(mdl) if mdl else None)
            L.append("\t".join([lab, res, "U" if res == "ND" else "", rl, mdl, u, meth, "06/12/24", an]))
        L.append("\\fIClassical Chemistry Parameters\\fP")
        row("Alkalinity, Bicarbonate (As CaCO3)", n(w["alk"], 0), "5.0", "2.0", "mg/L", "SM 2320B", "bicarbonate", CA, M); row("Alkalinity, Carbonate (As CaCO3)", "ND", "5.0", "2.0", "mg/L", "SM 2320B"); row("Alkalinity, Total (As CaCO3)", n(w["alk"], 0), "5.0", "2.0", "mg/L", "SM 2320B", "alkalinity", CA, M)
        row("Nitrogen, Ammonia (As N)", "ND", "0.10", "0.040", "mg/L", "EPA 350.1", "ammonium", N, M); row("pH", "7.41" if not tap else "7.52", "", "", "pH Units", "SM 4500-H+B", "ph", O, "pH", "06/11/24"); row("pH Temp.", "21.3", "", "", "deg C", "SM 4500-H+B")
        row("Specific Conductance @ 25C", n(w["ec25"], 0), "2.0", "1.0", "umhos/cm", "SM 2510B", "conductivity", "25C", US); row("Total Dissolved Solids", n(w["tds"], 0), "10", "5.0", "mg/L", "SM 2540C", "tds", O, M); row("Turbidity", "0.34" if not tap else "0.18", "0.10", "0.050", "NTU", "EPA 180.1", "turbidity", O, "NTU"); row("Langelier Index", "0.12" if not tap else "-2.31", "", "", "SI", "Calc.")
        L.append("\\fIAnions by Ion Chromatography\\fP")
        row("Chloride", n(w["cl"]), "1.0", "0.30", "mg/L", "EPA 300.0", "chloride", I, M); row("Fluoride", "0.21" if not tap else "0.20", "0.10", "0.030", "mg/L", "EPA 300.0", "fluoride", I, M); row("Nitrogen, Nitrate (As N)", n(w["no3n"], 2), "0.10", "0.020", "mg/L", "EPA 300.0", "nitrate", N, M); row("Nitrogen, Nitrite (As N)", "ND", "0.10", "0.015", "mg/L", "EPA 300.0", "nitrite", N, M)
        row("Nitrate+Nitrite (As N)", n(w["no3n"], 2), "0.10", "0.020", "mg/L", "Calc."); row("Orthophosphate (As P)", "ND" if tap else "0.046", "0.030", "0.010", "mg/L", "EPA 300.0", "phosphate", P, M); row("Sulfate", n(w["so4"]), "1.0", "0.25", "mg/L", "EPA 300.0", "sulfate", I, M)
        L.append("\\fITotal Metals by ICP / ICP-MS\\fP")
        row("Aluminum", "ND", "0.020", "0.0050", "mg/L", "EPA 200.8", "aluminium", I, M); row("Boron", "0.031", "0.010", "0.0040", "mg/L", "EPA 200.7", "boron", I, M); row("Calcium", n(w["ca"], 1), "0.50", "0.10", "mg/L", "EPA 200.7", "calcium", I, M); row("Copper", "0.0038" if not tap else "0.214", "0.0020", "0.00060", "mg/L", "EPA 200.8", "copper", I, M)
        row("Hardness, Total (As CaCO3)", n(w["hard"], 1 if tap else 0), "3.3", "0.60", "mg/L", "SM 2340B", "hardness_total", CA, M); row("Iron", "0.412" if not tap else "ND", "0.050", "0.018", "mg/L", "EPA 200.7", "iron", I, M); row("Lead", "ND" if not tap else "0.0013", "0.0010", "0.00030", "mg/L", "EPA 200.8", "lead", I, M)
        row("Magnesium", n(w["mg"], 1), "0.50", "0.040", "mg/L", "EPA 200.7", "magnesium", I, M); row("Manganese", "0.0870" if not tap else "ND", "0.0010", "0.00040", "mg/L", "EPA 200.8", "manganese", I, M); row("Potassium", n(w["k"], 1), "0.50", "0.15", "mg/L", "EPA 200.7", "potassium", I, M); row("Silica (As SiO2)", "17.8", "0.50", "0.12", "mg/L", "EPA 200.7", "silica", "SiO2", M)
        row("Sodium", n(w["na"], 1 if not tap else 0), "0.50", "0.11", "mg/L", "EPA 200.7", "sodium", I, M); row("Zinc", "0.0122" if not tap else "0.0471", "0.0050", "0.0017", "mg/L", "EPA 200.8", "zinc", I, M)
        L.extend([".TE", ""])
    samp(Z[0], 1, A[0], False); L.append(".bp"); L.append("Work Order: 24F1182      Client: R. Quillby      Page 2 of 2"); L.append(""); samp(Z[1], 2, A[1], True)
    L.extend(["Qualifiers: U = not detected at or above the MDL. RL = reporting limit. J flags are not used in this report.", "Released by: Quality Manager. This certificate shall not be reproduced except in full."])
    open(f"{T}/coa.t", "w").write("\n".join(L) + "\n")
    open(f"{D}/{r.file}", "wb").write(subprocess.run(["groff", "-k", "-t", "-Tpdf", "-P-pletter", f"{T}/coa.t"], check=True, capture_output=True).stdout); r.done()

def r4():  # Ireland, long csv with BOM
    Z = ["Carrigdoon WTP Treated Water", "12 Mill Terrace"]; r = R("carrigdoon-scheme-2024.csv", "en", Z); A = [water(48.8, 5.3, 14.2, 1.6, 25.3, 14.0, 9.9), water(49.6, 5.4, 14.5, 1.6, 25.9, 14.2, 10.4)]
    L = ["Local Authority,Scheme Code,Scheme Name,Sample Type,Monitoring Point,Sample Date,Parameter,Sign,Result,Units,Parametric Value,Compliance"]
    for i, (z, w) in enumerate(zip(Z, A)):
        def row(lab, p, u, pv, det=None, b=None, uk=None):
            if det: r.v(det, b, uk, "single", p, z)
            L.append(f'Co. Invented,9900PUB1042,"Carrigdoon, East",{["Operational","Check"][i]},{z},{["04/03/2024","11/03/2024"][i]} 10:15,{lab},{"<" if p[0] == "<" else ""},{p.lstrip("<")},{u},{pv},Pass')
        row("Alkalinity - Total as CaCO3", n(w["alk"], 0), "mg/l", "", "alkalinity", CA, M); row("Aluminium", ["61.4", "38.0"][i], "µg/l", "200", "aluminium", I, U); row("Ammonium as NH4", ["<0.02", "0.05"][i], "mg/l", "0.3", "ammonium", I, M); row("Boron", "0.02", "mg/l", "1", "boron", I, M); row("Calcium", n(w["ca"]), "mg/l", "", "calcium", I, M)
        row("Chloride", n(w["cl"]), "mg/l", "250", "chloride", I, M); row("Chlorine - free", ["0.94", "0.31"][i], "mg/l", "", "chlorine_free", O, M); row("Chlorine - total", ["1.02", "0.40"][i], "mg/l", "", "chlorine_total", O, M); row("Clostridium perfringens", "0", "no./100ml", "0"); row("Conductivity at 20°C", n(w["ec20"], 0), "µS/cm", "2500", "conductivity", "20C", US)
        row("Copper", ["0.003", "0.117"][i], "mg/l", "2", "copper", I, M); row("Fluoride", ["0.68", "0.71"][i], "mg/l", "0.8", "fluoride", I, M); row("Hardness - Total as CaCO3", n(w["hard"], 0), "mg/l", "", "hardness_total", CA, M); row("Iron", ["<10", "26"][i], "µg/l", "200", "iron", I, U); row("Lead", ["<0.3", "2.1"][i], "µg/l", "10", "lead", I, U); row("Magnesium", n(w["mg"], 2), "mg/l", "", "magnesium", I, M)
        row("Manganese", ["<1", "2.4"][i], "µg/l", "50", "manganese", I, U); row("Nitrate as NO3", n(w["no3"]), "mg/l", "50", "nitrate", I, M); row("Nitrite as NO2", "<0.007", "mg/l", "0.5", "nitrite", I, M); row("Odour", "1", "Dilution No.", ""); row("Orthophosphate as P", ["<0.010", "0.640"][i] if i == 0 else "0.640", "mg/l", "", "phosphate", P, M); row("pH", ["7.6", "7.7"][i], "pH units", "9.5", "ph", O, "pH")
        row("Potassium", n(w["k"]), "mg/l", "", "potassium", I, M); row("Sodium", n(w["na"]), "mg/l", "200", "sodium", I, M); row("Sulphate as SO4", n(w["so4"]), "mg/l", "250", "sulfate", I, M); row("Temperature", ["8.9", "11.2"][i], "°C", "", "temperature", O, "°C"); row("Total Organic Carbon", ["1.6", "1.7"][i], "mg/l", "", "toc", O, M); row("Total Trihalomethanes", ["41", "58"][i], "µg/l", "100"); row("Turbidity", ["0.11", "0.23"][i], "NTU", "1", "turbidity", O, "NTU"); row("Zinc", ["<0.01", "0.02"][i], "mg/l", "", "zinc", I, M)
    open(f"{D}/{r.file}", "wb").write(b"\xef\xbb\xbf" + "\r\n".join(L).encode() + b"\r\n"); r.done()

def r5():  # South Africa, LibreOffice; three points side by side, decimal commas
    Z = ["Rooivlei Reservoir", "Kraanberg WTW Final", "Clinic tap Ext. 4"]; r = R("rooivlei-sans241.pdf", "en", Z); A = [water(22.4, 13.8, 31.2, 2.9, 36.0, 22.0, 4.1), water(21.9, 13.5, 30.4, 2.8, 35.2, 23.9, 3.9), water(23.0, 14.1, 32.2, 3.0, 37.4, 22.8, 4.5)]
    c = lambda x, d=1: n(x, d, True)
    h = ["""<html><head><meta charset="utf-8"></head><body><p><b>ROOIVLEI LOCAL MUNICIPALITY (invented)</b><br>Technical Services: Scientific Services Laboratory, Private Bag X99, Tel. 055 010 4411<br>Office hours 07:30 - 16:00</p><p><b>WATER QUALITY TEST REPORT No. RV/2024/0388</b><br>Date sampled: 2024-08-13 &nbsp; Date received: 2024-08-13 &nbsp; Date completed: 2024-08-27</p><table border="1" cellspacing="0" cellpadding="2"><tr>"""]
    h.append("".join(f'<td rowspan="2"><font size=1><b>{x}</b></font></td>' for x in ["Method", "Determinand", "Unit", "Risk", "SANS 241-1: 2015 limit"]) + '<td colspan="3" align=center><font size=1><b>Sample point and lab number</b></font></td></tr><tr>' + "".join(f"<td><font size=1><b>{z}<br>{24100388+j}</b></font></td>" for j, z in enumerate(Z)) + "</tr>")
    def sec(t): h.append(f'<tr><td colspan="8"><font size=1><b>{t}</b></font></td></tr>')
    def row(me, lab, u, risk, lim, vals, det=None, b=None, uk=None):
        if det: [r.v(det, b, uk, "single", x, z) for x, z in zip(vals, Z)]
        h.append("<tr>" + "".join(f"<td><font size=1>{html.escape(x)}</font></td>" for x in [me, lab, u, risk, lim] + vals) + "</tr>")
    g = lambda k, d=1: [c(w[k], d) for w in A]
    sec("Physical and aesthetic determinands"); row("M01", "Free chlorine", "mg/L", "Chronic health", "≤ 5", ["0,42", "1,10", "0,18"], "chlorine_free", O, M); row("M02", "Electrical conductivity at 25 °C", "mS/m", "Aesthetic", "≤ 170", g("ec25"), "conductivity", "25C", "mS/m") if 0 else row("M02", "Electrical conductivity at 25 °C", "mS/m", "Aesthetic", "≤ 170", [c(w["ec25"]/10) for w in A], "conductivity", "25C", "mS/m")
    row("M03", "Total dissolved solids", "mg/L", "Aesthetic", "≤ 1 200", g("tds", 0), "tds", O, M); row("M04", "Turbidity", "NTU", "Operational", "≤ 1", ["0,44", "0,31", "0,62"], "turbidity", O, "NTU"); row("M05", "pH at 25 °C", "pH units", "Operational", "≥ 5 to ≤ 9,7", ["8,1", "8,3", "8,0"], "ph", O, "pH")
    sec("Chemical determinands: macro"); row("M11", "Nitrate as N", "mg/L", "Acute health", "≤ 11", g("no3n", 2), "nitrate", N, M); row("M11", "Nitrite as N", "mg/L", "Acute health", "≤ 0,9", ["<0,01"]*3, "nitrite", N, M); row("M12", "Combined nitrate plus nitrite", "ratio", "Acute health", "≤ 1", [c(w["no3n"]/11, 2) for w in A]); row("M13", "Sulphate as SO4", "mg/L", "Aesthetic", "≤ 250", g("so4"), "sulfate", I, M)
    row("M14", "Fluoride as F", "mg/L", "Chronic health", "≤ 1,5", ["0,2", "0,2", "0,3"], "fluoride", I, M); row("M15", "Ammonia as N", "mg/L", "Aesthetic", "≤ 1,5", ["<0,05", "0,07", "<0,05"], "ammonium", N, M); row("M16", "Chloride as Cl", "mg/L", "Aesthetic", "≤ 300", g("cl"), "chloride", I, M); row("M17", "Sodium as Na", "mg/L", "Aesthetic", "≤ 200", g("na"), "sodium", I, M); row("M18", "Zinc as Zn", "mg/L", "Aesthetic", "≤ 5", ["<0,02", "<0,02", "0,11"], "zinc", I, M)
    row("M19", "Potassium as K", "mg/L", "-", "not specified", g("k"), "potassium", I, M); row("M20", "Calcium as Ca", "mg/L", "-", "not specified", g("ca"), "calcium", I, M); row("M20", "Magnesium as Mg", "mg/L", "-", "not specified", g("mg"), "magnesium", I, M); row("M21", "Total alkalinity as CaCO3", "mg/L", "-", "not specified", g("alk", 0), "alkalinity", CA, M); row("M22", "Total hardness as CaCO3", "mg/L", "-", "not specified", g("hard", 0), "hardness_total", CA, M); row("M22", "Calcium hardness as CaCO3", "mg/L", "-", "not specified", g("cah", 0), "hardness_calcium", CA, M)
    row("M23", "Ortho-phosphate as P", "mg/L", "-", "not specified", ["0,03", "<0,02", "0,04"], "phosphate", P, M); row("M24", "Silica as Si", "mg/L", "-", "not specified", ["6,1", "6,0", "6,3"], "silica", "Si", M)
    sec("Chemical determinands: micro"); row("M31", "Aluminium as Al", "µg/L", "Operational", "≤ 300", ["88", "121", "64"], "aluminium", I, U); row("M31", "Copper as Cu", "µg/L", "Chronic health", "≤ 2 000", ["<5", "<5", "38"], "copper", I, U); row("M31", "Iron as Fe", "µg/L", "Aesthetic", "≤ 300", ["41", "19", "112"], "iron", I, U); row("M31", "Lead as Pb", "µg/L", "Chronic health", "≤ 10", ["<2", "<2", "<2"], "lead", I, U); row("M31", "Manganese as Mn", "µg/L", "Aesthetic", "≤ 100", ["6", "4", "9"], "manganese", I, U); row("M31", "Boron as B", "µg/L", "Chronic health", "≤ 2 400", ["24", "23", "26"], "boron", I, U)
    row("M32", "Total organic carbon as C", "mg/L", "Chronic health", "≤ 10", ["2,4", "2,2", "2,5"], "toc", O, M); sec("Microbiological determinands"); row("M41", "E. coli", "count/100 mL", "Acute health", "0", ["0", "0", "0"])
    h.append("</table><p>Results relate only to the samples tested. Uncertainty of measurement is available on request. -- End of report --</p></body></html>")
    open(f"{T}/rooivlei-sans241.html", "w").write("".join(h)); soffice(f"{T}/rooivlei-sans241.html", "odt", T, "HTML (StarWriter)"); soffice(f"{T}/rooivlei-sans241.odt", "pdf", D); r.done()

def r6():  # India, xlsx
    from openpyxl import Workbook
    from openpyxl.styles import Font, Alignment
    Z = ["WTP Outlet", "ESR-2 Shantivan", "Consumer Tap"]; r = R("navrangpuri-ulb-test-report.xlsx", "en", Z); A = [water(46.2, 18.1, 38.4, 2.2, 44.0, 39.0, 11.8), water(47.0, 18.6, 39.6, 2.3, 45.7, 40.2, 12.4), water(45.4, 17.7, 37.9, 2.1, 43.2, 38.6, 11.1)]
    wb = Workbook(); s = wb.active; s.title = "Report"
    for k, t in enumerate(["NAVRANGPURI MUNICIPAL CORPORATION (invented)", "CENTRAL WATER TESTING LABORATORY", "TEST REPORT"], 1): s.merge_cells(start_row=k, start_column=1, end_row=k, end_column=9); s.cell(k, 1, t).font = Font(bold=True); s.cell(k, 1).alignment = Alignment(horizontal="center")
    for k, (a, b) in enumerate([("Report No.", "NMC/CWTL/24-25/1187"), ("Date of sampling", "12.09.2024"), ("Date of report", "19.09.2024"), ("Sample collected by", "Laboratory staff"), ("Quantity received", "2 L + 250 mL sterile")], 4): s.cell(k, 1, a); s.cell(k, 4, b); s.merge_cells(start_row=k, start_column=1, end_row=k, end_column=3); s.merge_cells(start_row=k, start_column=4, end_row=k, end_column=9)
    for j, t in enumerate(["S. No.", "Parameter", "Unit", "Test Method", "Requirement as per IS 10500 : 2012", None, "Results"], 1): s.cell(10, j, t).font = Font(bold=True)
    s.merge_cells("E10:F10"); s.merge_cells("G10:I10")
    for j in (1, 2, 3, 4): s.merge_cells(start_row=10, start_column=j, end_row=11, end_column=j)
    for j, t in enumerate(["Acceptable Limit", "Permissible Limit in absence of alternate source"] + Z, 5): s.cell(11, j, t)
    i = [12]
    def row(lab, u, me, lim, perm, vals, det=None, b=None, uk=None, d=1):
        for j, x in enumerate([i[0]-11, lab, u, me, lim, perm], 1): s.cell(i[0], j, x)
        for j, (x, z) in enumerate(zip(vals, Z)):
            k = s.cell(i[0], 7+j, x if isinstance(x, str) else round(x, d+2))
            if not isinstance(x, str): k.number_format = "0" + ("." + "0"*d if d else ""); x = n(round(x, d+2), d)
            if det: r.v(det, b, uk, "single", x, z)
        i[0] += 1
    g = lambda k: [w[k] for w in A]
    row("Colour", "Hazen", "IS 3025 (Part 4)", "5", "15", ["<1", "<1", "<1"]); row("pH value at 25°C", "-", "IS 3025 (Part 11)", "6.5-8.5", "No relaxation", [7.62, 7.58, 7.71], "ph", O, "pH", 2); row("Turbidity", "NTU", "IS 3025 (Part 10)", 1, 5, [0.42, 0.66, 0.83], "turbidity", O, "NTU", 2); row("Electrical Conductivity at 25°C", "µS/cm", "IS 3025 (Part 14)", "-", "-", g("ec25"), "conductivity", "25C", US, 0); row("Total Dissolved Solids", "mg/l", "IS 3025 (Part 16)", 500, 2000, g("tds"), "tds", O, M, 0)
    row("Total Hardness (as CaCO3)", "mg/l", "IS 3025 (Part 21)", 200, 600, g("hard"), "hardness_total", CA, M, 1); row("Total Alkalinity (as CaCO3)", "mg/l", "IS 3025 (Part 23)", 200, 600, g("alk"), "alkalinity", CA, M, 1); row("Calcium (as Ca)", "mg/l", "IS 3025 (Part 40)", 75, 200, g("ca"), "calcium", I, M, 1); row("Magnesium (as Mg)", "mg/l", "IS 3025 (Part 46)", 30, 100, g("mg"), "magnesium", I, M, 1); row("Sodium (as Na)", "mg/l", "IS 3025 (Part 45)", "-", "-", g("na"), "sodium", I, M, 1); row("Potassium (as K)", "mg/l", "IS 3025 (Part 45)", "-", "-", g("k"), "potassium", I, M, 1)
    row("Chloride (as Cl)", "mg/l", "IS 3025 (Part 32)", 250, 1000, g("cl"), "chloride", I, M, 1); row("Sulphate (as SO4)", "mg/l", "IS 3025 (Part 24)", 200, 400, g("so4"), "sulfate", I, M, 1); row("Nitrate (as NO3)", "mg/l", "IS 3025 (Part 34)", 45, "No relaxation", g("no3"), "nitrate", I, M, 2); row("Nitrite (as NO2)", "mg/l", "IS 3025 (Part 34)", "-", "-", ["BDL (DL 0.02)"]*3, "nitrite", I, M); row("Total Ammonia (as total ammonia-N)", "mg/l", "IS 3025 (Part 34)", 0.5, "No relaxation", ["BDL (DL 0.1)", "BDL (DL 0.1)", 0.14], "ammonium", N, M, 2)
    row("Fluoride (as F)", "mg/l", "IS 3025 (Part 60)", 1, 1.5, [0.44, 0.46, 0.43], "fluoride", I, M, 2); row("Phosphate (as PO4)", "mg/l", "IS 3025 (Part 31)", "-", "-", ["BDL (DL 0.05)", 0.08, "BDL (DL 0.05)"], "phosphate", I, M, 2); row("Silica (as SiO2)", "mg/l", "IS 3025 (Part 35)", "-", "-", [19.4, 19.9, 19.1], "silica", "SiO2", M, 1); row("Residual free chlorine", "mg/l", "IS 3025 (Part 26)", "0.2 min", 1, [1.1, 0.6, 0.3], "chlorine_free", O, M, 1); row("Iron (as Fe)", "mg/l", "IS 3025 (Part 53)", 1, "No relaxation", [0.06, 0.11, 0.19], "iron", I, M, 2); row("Manganese (as Mn)", "mg/l", "IS 3025 (Part 59)", 0.1, 0.3, ["BDL (DL 0.02)"]*3, "manganese", I, M)
    row("Copper (as Cu)", "mg/l", "IS 3025 (Part 42)", 0.05, 1.5, ["BDL (DL 0.02)", "BDL (DL 0.02)", 0.03], "copper", I, M, 2); row("Zinc (as Zn)", "mg/l", "IS 3025 (Part 49)", 5, 15, [0.04, 0.07, 0.21], "zinc", I, M, 2); row("Boron (as B)", "mg/l", "IS 3025 (Part 57)", 0.5, 2.4, ["BDL (DL 0.1)"]*3, "boron", I, M); row("Lead (as Pb)", "mg/l", "IS 3025 (Part 47)", 0.01, "No relaxation", ["BDL (DL 0.005)"]*3, "lead", I, M); row("Aluminium (as Al)", "mg/l", "IS 3025 (Part 55)", 0.03, 0.2, [0.021, 0.024, 0.019], "aluminium", I, M, 3); row("E. coli", "per 100 ml", "IS 15185", "Absent", "-", ["Absent"]*3)
    s.cell(i[0]+1, 1, "BDL: Below Detection Limit; DL: Detection Limit. The results relate only to the samples tested."); s.column_dimensions["B"].width = 34; wb.save(f"{D}/{r.file}"); r.done()
def r7():  # Australia, weasyprint, landscape, three zones x (min mean 95th max), units under the name
    import weasyprint
    Z = ["Yarrabeen", "Mount Coorong", "Pillinga South"]; r = R("coorong-water-zones.pdf", "en", Z); A = [water(8.4, 4.2, 22.6, 2.2, 30.4, 9.1, 1.4), water(24.8, 9.7, 46.3, 3.9, 61.2, 28.4, 3.2), water(12.2, 6.1, 30.8, 2.8, 40.1, 14.6, 1.9)]
    h = ["""<html><meta charset=utf-8><style>@page{size:A4 landscape;margin:14mm;@bottom-right{content:"Page " counter(page) " of " counter(pages);font:7pt sans-serif}} body{font:8pt sans-serif} table{border-collapse:collapse;width:100%} td,th{border:.4pt solid #999;padding:1.5pt 3pt;text-align:center} td:first-child{text-align:left} thead{display:table-header-group;background:#dde9ef} tr{page-break-inside:avoid} .u{color:#555;font-size:6.5pt}</style>
<h2>Coorong Water: drinking water quality data by zone, 1 July 2023 to 30 June 2024</h2><p>Results are for samples from customer taps. ADWG = Australian Drinking Water Guidelines. Call 1300 555 010 (24 hours).</p><table><thead><tr><th rowspan=2>Characteristic</th><th rowspan=2>ADWG value</th><th rowspan=2>Samples per zone</th>"""]
    h.append("".join(f"<th colspan=4>{z}</th>" for z in Z) + "</tr><tr>" + "<th>Min</th><th>Mean</th><th>95th %ile</th><th>Max</th>"*3 + "</tr></thead><tbody>")
    def row(lab, u, lim, cnt, vals, det=None, b=None, uk=None):
        c = []
        for z, t in zip(Z, vals):
            for s, x in zip(["min", "mean", "p95", "max"], t): c.append(r.v(det, b, uk, s, x, z) if det else x)
        h.append(f"<tr><td>{lab}<br><span class=u>{u}</span></td><td>{lim}</td><td>{cnt}</td>" + "".join(f"<td>{html.escape(x)}</td>" for x in c) + "</tr>")
    def q(k, d=1): 
        o = []
        for w in A: t = tri(w[k], d, lo=.85, hi=1.2); o.append([t[0], t[1], n(w[k]*1.13, d), t[2]])
        return o
    row("Alkalinity (total)", "mg/L as CaCO<sub>3</sub>", "-", 12, q("alk", 0), "alkalinity", CA, M); row("Aluminium (acid soluble)", "mg/L", "0.2 (A)", 12, [["<0.01", "0.03", "0.05", "0.06"]]*3, "aluminium", I, M); row("Ammonia", "mg/L as N", "0.4 (A)", 24, [["0.11", "0.29", "0.38", "0.44"], ["0.08", "0.24", "0.36", "0.41"], ["<0.01", "0.02", "0.05", "0.07"]], "ammonium", N, M); row("Calcium", "mg/L", "-", 12, q("ca"), "calcium", I, M); row("Chloride", "mg/L", "250 (A)", 12, q("cl", 0), "chloride", I, M)
    row("Chlorine (free)", "mg/L", "5 (H)", 104, [["<0.03", "<0.03", "0.05", "0.09"], ["<0.03", "0.04", "0.07", "0.12"], ["0.18", "0.66", "1.02", "1.31"]], "chlorine_free", O, M); row("Chlorine (total)", "mg/L", "-", 104, [["0.62", "1.88", "2.61", "2.94"], ["0.41", "1.52", "2.30", "2.71"], ["0.24", "0.77", "1.14", "1.44"]], "chlorine_total", O, M); row("Monochloramine", "mg/L", "3 (H)", 52, [["0.55", "1.71", "2.44", "2.80"], ["0.36", "1.40", "2.16", "2.55"], ["<0.05", "<0.05", "0.06", "0.08"]], "chloramine", O, M)
    row("Colour (true)", "HU", "15 (A)", 24, [["<1", "2", "3", "4"]]*3); row("Conductivity", "µS/cm at 25°C", "-", 24, q("ec25", 0), "conductivity", "25C", US); row("Copper", "mg/L", "2 (H) / 1 (A)", 12, [["0.004", "0.031", "0.088", "0.110"], ["0.002", "0.019", "0.051", "0.067"], ["0.008", "0.064", "0.170", "0.240"]], "copper", I, M); row("<i>E. coli</i>", "orgs/100 mL", "0", 104, [["0", "0", "0", "0"]]*3); row("Fluoride", "mg/L", "1.5 (H)", 52, [["0.66", "0.81", "0.92", "0.97"]]*3, "fluoride", I, M)
    row("Hardness (total)", "mg/L as CaCO<sub>3</sub>", "200 (A)", 12, q("hard", 0), "hardness_total", CA, M); row("Iron", "mg/L", "0.3 (A)", 24, [["<0.02", "0.03", "0.07", "0.12"]]*3, "iron", I, M); row("Lead", "mg/L", "0.01 (H)", 12, [["<0.001", "<0.001", "0.001", "0.002"]]*3, "lead", I, M); row("Magnesium", "mg/L", "-", 12, q("mg"), "magnesium", I, M); row("Manganese", "mg/L", "0.5 (H) / 0.1 (A)", 24, [["<0.001", "0.003", "0.008", "0.011"]]*3, "manganese", I, M)
    row("Nitrate", "mg/L as NO<sub>3</sub>", "50 (H)", 12, q("no3", 2), "nitrate", I, M); row("Nitrite", "mg/L as NO<sub>2</sub>", "3 (H)", 24, [["<0.01", "0.05", "0.16", "0.24"], ["<0.01", "0.04", "0.12", "0.19"], ["<0.01", "<0.01", "<0.01", "0.01"]], "nitrite", I, M); row("pH", "pH units", "6.5 - 8.5 (A)", 104, [["7.4", "7.8", "8.3", "8.6"], ["7.5", "7.9", "8.4", "8.7"], ["7.2", "7.6", "8.0", "8.2"]], "ph", O, "pH"); row("Phosphorus (total)", "mg/L as P", "-", 12, [["<0.005", "0.009", "0.014", "0.018"]]*3, "phosphorus_total", P, M); row("Potassium", "mg/L", "-", 12, q("k"), "potassium", I, M)
    row("Silica", "mg/L as SiO<sub>2</sub>", "80 (A)", 12, [["6.1", "7.4", "8.6", "8.9"], ["9.0", "11.2", "13.1", "13.6"], ["7.2", "8.1", "9.0", "9.4"]], "silica", "SiO2", M); row("Sodium", "mg/L", "180 (A)", 12, q("na"), "sodium", I, M); row("Sulfate", "mg/L", "250 (A)", 12, q("so4"), "sulfate", I, M); row("Temperature", "&deg;C", "-", 104, [["10.4", "18.1", "25.0", "26.7"], ["9.6", "17.2", "24.1", "25.9"], ["10.9", "18.8", "25.6", "27.3"]], "temperature", O, "°C"); row("Total trihalomethanes", "mg/L", "0.25 (H)", 12, [["0.021", "0.044", "0.070", "0.081"]]*3); row("Turbidity", "NTU", "5 (A)", 104, [["<0.1", "0.2", "0.5", "1.1"], ["<0.1", "0.3", "0.6", "1.4"], ["<0.1", "0.2", "0.4", "0.8"]], "turbidity", O, "NTU"); row("Zinc", "mg/L", "3 (A)", 12, [["<0.005", "0.009", "0.021", "0.028"]]*3, "zinc", I, M)
    h.append("</tbody></table><p>(H) health guideline; (A) aesthetic guideline; %ile: percentile. Disinfection is by chloramination in Yarrabeen and Mount Coorong.</p></html>")
    weasyprint.HTML(string="".join(h)).write_pdf(f"{D}/{r.file}"); r.done()

def r8():  # Canada, html: untreated average, treated average and range
    Z = ["Untreated Water", "Treated Water"]; r = R("tamarack-narrows-physical-chemical.html", "en", Z); A = [water(1.4, .35, .9, .2, .8, 1.9, .4), water(6.1, .36, 1.6, .2, 2.4, 1.9, .4)]
    h = ["""<!DOCTYPE html><html lang="en-CA"><head><meta charset="utf-8"><title>Tamarack Narrows Regional District - Water Quality Annual Report 2024</title></head><body><nav><a href="#">Home</a> | <a href="#">Contact 555-010-8800</a> | Hours 8:30-4:30</nav><h1>Physical and Chemical Analysis of Water Supply</h1><h2>Tamarack Source, 2024</h2>
<table><thead><tr><th rowspan="2">Parameter</th><th>Untreated Water</th><th colspan="2">Treated Water</th><th rowspan="2">Days Guideline Exceeded</th><th rowspan="2">Canadian Guideline Limit</th><th rowspan="2">Reason Guideline Established</th></tr><tr><th>Average</th><th>Average</th><th>Range</th></tr></thead><tbody>"""]
    def row(lab, raw, av, lo, hi, ex, lim, why, det=None, b=None, uk=None):
        if det:
            r.v(det, b, uk, "mean", raw, Z[0]); r.v(det, b, uk, "mean", av, Z[1])
            if lo.startswith("<") and hi is None: pass
            else: r.v(det, b, uk, "min", lo, Z[1]); r.v(det, b, uk, "max", hi, Z[1])
        h.append(f"<tr><td>{lab}</td>" + "".join(f"<td>{html.escape(x)}</td>" for x in (raw, av, lo if hi is None else f"{lo} - {hi}", ex, lim, why)) + "</tr>\n")
    def g(lab, k, d, lim, det, b, uk):
        t = tri(A[1][k], d); row(lab, n(A[0][k], d), t[1], t[0], t[2], "0", lim, "aesthetic" if lim != "none" else "", det, b, uk)
    g("Alkalinity as CaCO<sub>3</sub> (mg/L)", "alk", 1, "none", "alkalinity", CA, M); row("Aluminum Total (&micro;g/L)", "98", "31", "22", "44", "0", "2900 / 100", "health / operational", "aluminium", I, U); row("Ammonia Total as N (mg/L)", "<0.02", "<0.02", "<0.02", "0.03", "0", "none", "", "ammonium", N, M)
    row("Bromate (mg/L)", "<0.01", "<0.01", "<0.01", None, "0", "0.01", "health"); row("Calcium Total (&micro;g/L)", n(A[0]["ca"]*1000, 0), n(A[1]["ca"]*1000, 0), n(A[1]["ca"]*930, 0), n(A[1]["ca"]*1090, 0), "0", "none", "", "calcium", I, U); row("Carbon Organic Total (mg/L)", "1.9", "0.61", "0.48", "0.77", "0", "none", "", "toc", O, M); g("Chloride (mg/L)", "cl", 1, "&le; 250".replace("&le;", "≤"), "chloride", I, M); row("Color Apparent (ACU)", "14", "2", "<1", "3", "0", "none", "")
    g("Conductance @25&deg;C (&micro;mhos/cm)", "ec25", 0, "none", "conductivity", "25C", US); row("Copper Total (&micro;g/L)", "2.1", "<0.5", "<0.5", "0.9", "0", "2000 / ≤ 1000", "health / aesthetic", "copper", I, U); g("Hardness as CaCO<sub>3</sub> (mg/L)", "hard", 1, "none", "hardness_total", CA, M); row("Iron Total (&micro;g/L)", "61", "<5", "<5", "8", "0", "≤ 100", "aesthetic", "iron", I, U); row("Lead Total (&micro;g/L)", "<0.5", "<0.5", "<0.5", None, "0", "5", "health")
    g("Magnesium Total (mg/L)", "mg", 2, "none", "magnesium", I, M); row("Manganese Total (&micro;g/L)", "3.9", "2.2", "1.1", "3.6", "0", "120 / ≤ 20", "health / aesthetic", "manganese", I, U); row("Nitrogen - Nitrate as N (mg/L)", n(A[0]["no3n"], 2), n(A[1]["no3n"], 2), "0.06", "0.13", "0", "10", "health", "nitrate", N, M); row("Nitrogen - Nitrite as N (mg/L)", "<0.01", "<0.01", "<0.01", "<0.01", "0", "1", "health", "nitrite", N, M); row("pH (pH units)", "6.5", "7.9", "7.4", "8.6", "0", "7.0 to 10.5", "operational", "ph", O, "pH")
    row("Phosphorus Dissolved (&micro;g/L)", "<5", "<5", "<5", None, "0", "none", ""); g("Potassium Total (mg/L)", "k", 2, "none", "potassium", I, M); row("Silica as SiO<sub>2</sub> (mg/L)", "3.3", "3.2", "2.9", "3.6", "0", "none", "", "silica", "SiO2", M); g("Sodium Total (mg/L)", "na", 2, "≤ 200", "sodium", I, M); g("Sulphate (mg/L)", "so4", 1, "≤ 500", "sulfate", I, M); row("Turbidity (NTU)", "0.62", "0.14", "0.08", "0.33", "0", "0.1 - 0.3", "operational", "turbidity", O, "NTU"); row("UV254 - Apparent (Abs/cm)", "0.074", "0.013", "0.010", "0.018", "0", "none", ""); row("Zinc Total (&micro;g/L)", "<3", "<3", "<3", "5", "0", "≤ 5000", "aesthetic", "zinc", I, U)
    r.v("lead", I, U, "mean", "<0.5", Z[0]); r.v("lead", I, U, "mean", "<0.5", Z[1])
    for s in ("min", "max"): r.v("lead", I, U, s, "<0.5", Z[1], opt=True)
    r.v("phosphorus_total", P, U, "mean", "<5", Z[0], opt=True); r.v("phosphorus_total", P, U, "mean", "<5", Z[1], opt=True)
    for s in ("min", "max"): r.v("phosphorus_total", P, U, s, "<5", Z[1], opt=True)
    h.append("</tbody></table><p>Values are from grab samples analysed once a week. Last modified: 2025-03-31. &copy; Tamarack Narrows Regional District</p></body></html>"); open(f"{D}/{r.file}", "w").write("".join(h)); r.done()

def r9():  # Stadtwerke, pdflatex
    Z = ["Zone Nordstadt", "Zone Mitte", "Zone Ringelbach"]; ei = ["nitrate", "nitrite", "ammonium", "phosphate", "silica"]; r = R("stadtwerke-eichelbronn.pdf", "de", Z, ["silica"]); A = [water(84.2, 15.6, 12.8, 2.1, 24.3, 38.6, 22.4), water(52.7, 9.1, 9.9, 1.6, 16.2, 24.0, 14.1), water(112.4, 26.9, 17.3, 2.9, 38.8, 71.2, 31.6)]
    c = lambda x, d=1: n(x, d, True)
    L = [r"""\documentclass[a4paper,9pt]{extarticle}\usepackage[utf8]{inputenc}\usepackage[T1]{fontenc}\usepackage{textcomp}\usepackage[ngerman]{babel}\usepackage{booktabs,longtable,geometry}\geometry{margin=15mm,landscape}\begin{document}\section*{Trinkwasseranalyse 2024 -- Stadtwerke Eichelbronn}
Die Werte sind Jahresmittelwerte aus den Untersuchungen des Jahres 2024. Härtebereiche nach dem Wasch- und Reinigungsmittelgesetz: weich (weniger als 1,5 mmol/l), mittel (1,5 bis 2,5 mmol/l), hart (mehr als 2,5 mmol/l). Störungsdienst 0555 / 0100-24, Kundenzentrum Mo--Fr 8:00--16:30 Uhr.

\begin{longtable}{llrrrr}\toprule Parameter & Einheit & Grenzwert TrinkwV & Zone Nordstadt & Zone Mitte & Zone Ringelbach\\\midrule\endhead"""]
    esc = lambda s: s.replace("%", r"\%").replace("µ", r"\textmu{}").replace("°", r"\textdegree{}").replace("<", r"\textless{}").replace("_", r"\_")
    def row(lab, u, lim, vals, det=None, b=None, uk=None):
        if det: [r.v(det, b, uk, "mean", x, z) for x, z in zip(vals, Z)]
        L.append(" & ".join(esc(x) for x in [lab, u, lim] + vals) + r"\\")
    def sec(t): L.append(r"\multicolumn{6}{l}{\textbf{" + t + r"}}\\*")
    g = lambda k, d=1: [c(w[k], d) for w in A]
    sec("Allgemeine Parameter"); row("Temperatur", "°C", "", ["11,8", "10,9", "12,3"], "temperature", O, "°C"); row("pH-Wert (bei Entnahmetemperatur)", "", "6,5 -- 9,5", ["7,43", "7,72", "7,21"], "ph", O, "pH"); row("pH-Wert der Calcitsättigung", "", "", ["7,38", "7,70", "7,14"]); row("Calcitlösekapazität", "mg/l CaCO3", "5", ["-4,1", "-0,8", "-9,6"]); row("Elektrische Leitfähigkeit bei 25 °C", "µS/cm", "2790", g("ec25", 0), "conductivity", "25C", US); row("Trübung", "NTU", "1,0", ["0,08", "<0,05", "0,11"], "turbidity", O, "NTU"); row("Sauerstoff", "mg/l", "", ["8,4", "9,7", "6,9"], "dissolved_oxygen", O, M)
    row("Sauerstoffsättigung", "%", "", ["79", "89", "65"]); row("Säurekapazität bis pH 4,3", "mmol/l", "", g("ks", 2), "alkalinity", "acid_capacity", "mmol/L"); row("Basekapazität bis pH 8,2", "mmol/l", "", ["0,42", "0,17", "0,71"]); row("Gesamthärte", "°dH", "", g("dH"), "hardness_total", O, "°dH"); row("Summe Erdalkalien", "mmol/l", "", g("mmol", 2), "hardness_total", O, "mmol/L"); row("Carbonathärte", "°dH", "", g("kh"), "hardness_carbonate", O, "°dH"); row("Härtebereich", "", "", ["hart", "mittel", "hart"]); row("TOC", "mg/l", "ohne anormale Veränderung", ["0,7", "0,5", "1,1"], "toc", O, M)
    sec("Kationen"); row("Calcium", "mg/l", "", g("ca"), "calcium", I, M); row("Magnesium", "mg/l", "", g("mg"), "magnesium", I, M); row("Natrium", "mg/l", "200", g("na"), "sodium", I, M); row("Kalium", "mg/l", "", g("k"), "potassium", I, M); row("Ammonium (NH4)", "mg/l", "0,50", ["<0,01", "<0,01", "0,02"], "ammonium", I, M); row("Eisen", "mg/l", "0,200", ["<0,010", "0,014", "0,021"], "iron", I, M); row("Mangan", "mg/l", "0,050", ["<0,005", "<0,005", "0,008"], "manganese", I, M); row("Aluminium", "mg/l", "0,200", ["<0,010", "0,018", "<0,010"], "aluminium", I, M)
    sec("Anionen"); row("Hydrogencarbonat", "mg/l", "", g("hco3", 0), "bicarbonate", I, M); row("Chlorid", "mg/l", "250", g("cl"), "chloride", I, M); row("Sulfat", "mg/l", "250", g("so4"), "sulfate", I, M); row("Nitrat (NO3)", "mg/l", "50", g("no3"), "nitrate", I, M); row("Nitrit (NO2)", "mg/l", "0,50", ["<0,005"]*3, "nitrite", I, M); row("Summe Nitrat/50 + Nitrit/3", "mg/l", "1", [c(w["no3"]/50, 2) for w in A]); row("Phosphat, gesamt (PO4)", "mg/l", "", ["0,11", "0,06", "<0,03"], "phosphorus_total", I, M); row("Kieselsäure", "mg/l", "", ["14,2", "11,6", "17,9"], "silica", "SiO2", M); row("Fluorid", "mg/l", "1,5", ["0,14", "0,11", "0,19"], "fluoride", I, M)
    sec("Spurenstoffe"); row("Bor", "mg/l", "1,0", ["0,03", "<0,02", "0,04"], "boron", I, M); row("Blei", "mg/l", "0,010", ["<0,001"]*3, "lead", I, M); row("Kupfer", "mg/l", "2,0", ["<0,005", "0,007", "<0,005"], "copper", I, M); row("Zink", "mg/l", "", ["<0,01", "<0,01", "0,02"], "zinc", I, M); row("Uran", "mg/l", "0,010", ["0,0011", "<0,0005", "0,0018"]); row("Freies Chlor (nach Desinfektion)", "mg/l", "0,3", ["<0,05", "0,07", "<0,05"], "chlorine_free", O, M)
    L.append(r"""\bottomrule\end{longtable}\footnotesize Zone Nordstadt: Straßen nördlich der Bahnlinie. Stand: 14.02.2025. Alle Angaben ohne Gewähr.\end{document}""")
    open(f"{T}/eichelbronn.tex", "w").write("\n".join(L))
    for _ in range(2): subprocess.run(["pdflatex", "-interaction=batchmode", "-output-directory", T, f"{T}/eichelbronn.tex"], capture_output=True, timeout=90)
    os.replace(f"{T}/eichelbronn.pdf", f"{D}/{r.file}"); r.done()

def r10():  # Zweckverband html, one table for each waterworks, mean and from-to in one cell
    Z = ["Wasserwerk Kaltenbrunn", "Hochbehälter Steinrück"]; r = R("zweckverband-obere-lahrach.html", "de", Z, ["nitrate", "nitrite", "ammonium", "phosphate"]); A = [water(34.6, 7.7, 8.2, 1.3, 12.4, 18.9, 8.3), water(71.3, 19.8, 11.6, 1.9, 21.7, 41.2, 17.6)]
    c = lambda x, d=1: n(x, d, True)
    h = ["""<!DOCTYPE html><html lang="de"><head><meta charset="iso-8859-1"><title>Zweckverband Wasserversorgung Obere Lahrach - Wasserqualit&auml;t</title></head><body><h1>Wasserqualit&auml;t 2024</h1><p>Gesch&auml;ftsstelle: Am Quellweg 3, Tel. 0555-01077, Mo-Do 7.30-16.00 Uhr. Das Labor hat im Jahr 2024 aus jedem Werk vier Proben untersucht.</p>"""]
    for i, (z, w) in enumerate(zip(Z, A)):
        h.append(f"<h3>{z}</h3><p>Versorgte Orte: " + ["Lahrach, Kaltenbrunn, Weiler", "Steinr&uuml;ck, Oberholz (ab Haus 14)"][i] + '</p><table border="1"><tr><th>Parameter</th><th>Einheit</th><th>Mittelwert</th><th>von - bis</th><th>Grenzwert</th><th>Verfahren</th></tr>\n')
        def row(lab, u, t, lim, me, det=None, b=None, uk=None):
            if det: [r.v(det, b, uk, s, x, z) for s, x in zip(MMM, t)]
            h.append(f"<tr><td>{lab}</td><td>{u}</td><td>{html.escape(t[1])}</td><td>{html.escape(t[0] + ' - ' + t[2])}</td><td>{lim}</td><td>{me}</td></tr>\n")
        g = lambda k, d=1: tri(w[k], d, True)
        row("Wassertemperatur", "&deg;C", [["8,1", "8,9", "10,2"], ["9,0", "9,6", "11,1"]][i], "-", "DIN 38404-C4", "temperature", O, "°C"); row("pH-Wert", "", [["7,68", "7,84", "7,97"], ["7,33", "7,41", "7,52"]][i], "6,5 - 9,5", "DIN EN ISO 10523", "ph", O, "pH"); row("Leitf&auml;higkeit (25 &deg;C)", "&micro;S/cm", g("ec25", 0), "2790", "DIN EN 27888", "conductivity", "25C", US); row("Sauerstoffgehalt", "mg/l", ["9,1", "9,9", "10,6"], "-", "DIN EN 25814", "dissolved_oxygen", O, "mg/L"); row("Gesamth&auml;rte", "&deg;dH", g("dH"), "-", "berechnet", "hardness_total", O, "°dH"); row("Karbonath&auml;rte", "&deg;dH", g("kh"), "-", "berechnet", "hardness_carbonate", O, "°dH")
        row("S&auml;urekapazit&auml;t (pH 4,3)", "mmol/l", g("ks", 2), "-", "DIN 38409-H7", "alkalinity", "acid_capacity", "mmol/L"); row("Calcium", "mg/l", g("ca"), "-", "DIN EN ISO 11885", "calcium", I, M); row("Magnesium", "mg/l", g("mg"), "-", "DIN EN ISO 11885", "magnesium", I, M); row("Natrium", "mg/l", g("na"), "200", "DIN EN ISO 11885", "sodium", I, M); row("Kalium", "mg/l", g("k"), "-", "DIN EN ISO 11885", "potassium", I, M); row("Eisen, gesamt", "mg/l", ["<0,01", "<0,01", "0,02"], "0,2", "DIN EN ISO 11885", "iron", I, M); row("Mangan, gesamt", "mg/l", ["<0,005", "<0,005", "<0,005"], "0,05", "DIN EN ISO 11885", "manganese", I, M); row("Ammonium", "mg/l", ["<0,02", "<0,02", "<0,02"], "0,5", "DIN 38406-E5", "ammonium", I, M)
        row("Nitrat", "mg/l", g("no3"), "50", "DIN EN ISO 10304-1", "nitrate", I, M); row("Nitrit", "mg/l", ["<0,01", "<0,01", "<0,01"], "0,5", "DIN EN 26777", "nitrite", I, M); row("Chlorid", "mg/l", g("cl"), "250", "DIN EN ISO 10304-1", "chloride", I, M); row("Sulfat", "mg/l", g("so4"), "250", "DIN EN ISO 10304-1", "sulfate", I, M); row("o-Phosphat", "mg/l", ["<0,05", "0,06", "0,09"], "-", "DIN EN ISO 6878", "phosphate", I, M); row("SAK 436 nm", "1/m", ["<0,1", "<0,1", "0,1"], "0,5", "DIN EN ISO 7887"); row("Kupfer", "mg/l", ["<0,002", "0,004", "0,009"], "2,0", "DIN EN ISO 17294-2", "copper", I, M)
        h.append("</table>")
    h.append("<p>Impressum | Datenschutz | letzte Aktualisierung 03.02.2025</p></body></html>"); open(f"{D}/{r.file}", "wb").write("".join(h).encode("latin-1")); r.done()

def r11():  # Swiss municipality, typst, two columns of print, prose and lists
    import typst
    Z = ["Zone Oberdorf", "Zone Unterdorf"]; r = R("gemeinde-wylerschwand.pdf", "de", Z, ["nitrate"]); A = [water(98.4, 17.7, 6.2, 1.1, 10.8, 26.4, 11.8), water(74.1, 12.4, 8.8, 1.5, 13.9, 18.3, 19.6)]
    t = ["""#set page(paper: "a4", margin: 18mm, columns: 2)
#set text(font: "Libertinus Serif", size: 9.5pt, lang: "de")
#place(top + center, scope: "parent", float: true)[#text(17pt, weight: "bold")[Gemeinde Wylerschwand] \\ #text(11pt)[Information über die Trinkwasserqualität im Jahr 2024]]
Gestützt auf die Verordnung des EDI über Trinkwasser (TBDV) informieren wir Sie über die Qualität unseres Trinkwassers. Im Berichtsjahr wurden 28 Proben mikrobiologisch und 6 Proben chemisch untersucht. Alle Proben entsprachen den gesetzlichen Vorschriften.

Brunnenmeister: Telefon 055 501 02 03, Pikett 24 h. Schalter: Mo und Do 14.00–17.30 Uhr.
"""]
    c = lambda x, d=1: n(x, d, False)
    for z, w, q in zip(Z, A, (["7.38", "9.4", "<0.01", "0.6", "<0.005"], ["7.55", "10.8", "0.02", "0.8", "<0.005"])):
        v = lambda det, b, u, p: r.v(det, b, u, "single", p, z)
        rows = [("Probenahme vom", "", ["14.05.2024", "14.05.2024"][Z.index(z)]), ("Wassertemperatur", "°C", v("temperature", O, "°C", q[1])), ("pH-Wert", "", v("ph", O, "pH", q[0])), ("Leitfähigkeit bei 25 °C", "µS/cm", v("conductivity", "25C", US, c(w["ec25"], 0))), ("Gesamthärte", "°fH", v("hardness_total", O, "°fH", c(w["fH"]))), ("Karbonathärte", "°fH", v("hardness_carbonate", O, "°fH", c(w["tac"]))),
            ("Calcium", "mg/l", v("calcium", I, M, c(w["ca"]))), ("Magnesium", "mg/l", v("magnesium", I, M, c(w["mg"]))), ("Natrium", "mg/l", v("sodium", I, M, c(w["na"]))), ("Kalium", "mg/l", v("potassium", I, M, c(w["k"]))), ("Chlorid", "mg/l", v("chloride", I, M, c(w["cl"]))), ("Sulfat", "mg/l", v("sulfate", I, M, c(w["so4"]))), ("Hydrogencarbonat", "mg/l", v("bicarbonate", I, M, c(w["hco3"], 0))), ("Nitrat (Höchstwert 40 mg/l)", "mg/l", v("nitrate", I, M, c(w["no3"]))), ("Eisen", "mg/l", v("iron", I, M, q[2])), ("TOC", "mg C/l", v("toc", O, M, q[3])), ("Mangan", "mg/l", v("manganese", I, M, q[4])), ("Chlorothalonil R471811", "µg/l", "0.04")]
        t.append(("#colbreak()\n" if z == Z[1] else "") + f"== {z}\n" + ["Herkunft: Quelle Fuchsloch, mit UV-Anlage behandelt.", "Herkunft: Grundwasser Pumpwerk Aumatt (65 %) und Quelle Fuchsloch (35 %), ohne Behandlung."][Z.index(z)] + "\n#table(columns: (1fr, auto, auto), stroke: 0.3pt, inset: 3.5pt, align: (left, left, right),\n" + ",\n".join(f"[{a}], [{b}], [{x.replace('<', chr(92)+'<')}]" for a, b, x in rows) + ")\n")
    t.append("== Härtestufen\n0 bis 7 °fH sehr weich; 7 bis 15 °fH weich; 15 bis 25 °fH mittelhart; 25 bis 32 °fH ziemlich hart; 32 bis 42 °fH hart; über 42 °fH sehr hart.\n\nDer nächste Bericht erscheint im März 2026. Wylerschwand, 28. Februar 2025, die Wasserkommission.\n")
    open(f"{T}/wyler.typ", "w").write("".join(t)); open(f"{D}/{r.file}", "wb").write(typst.compile(f"{T}/wyler.typ")); r.done()

def r12():  # Austria: groff postscript through ghostscript; one sample
    r = R("ooegr-befund-almstetten.pdf", "de", "Ortsnetz Almstetten, Auslauf Küche Volksschule", ["hardness_total"] if 0 else []); w = water(68.4, 21.2, 4.3, 0.9, 5.8, 19.6, 9.7); c = lambda x, d=1: n(x, d, True)
    L = [".pl 29.7c", ".po 1.6c", ".ll 18c", ".ps 9", ".vs 11", ".nf", "\\fBTRINKWASSERBEFUND\\fP", "gemäß Trinkwasserverordnung, BGBl. II Nr. 304/2001 i.d.g.F.", "", "Auftraggeber:     Wassergenossenschaft Almstetten", "Anlage:           WG Almstetten, Anlagen-ID W9990417", "Probestelle:      Ortsnetz Almstetten, Auslauf Küche Volksschule", "Probenahme:       22.10.2024, 08:35 Uhr", "Untersuchung von - bis: 22.10.2024 - 05.11.2024      Probennr.: 24-10733-001", "Untersuchungsumfang: Volluntersuchung", "", ".TS", "l r l r l l l.", "\\fBParameter\tErgebnis\tEinheit\tBG\tPW\tIPW\tMethode\\fP", "_"]
    def row(lab, x, u, bg, pw, ipw, me, det=None, b=None, uk=None):
        if det: r.v(det, b, uk, "single", x, lim=float(bg.replace(",", ".")) if bg else None)
        L.append("\t".join([lab, x, u, bg, pw, ipw, me]))
    row("\\fIVor-Ort-Parameter\\fP", "", "", "", "", "", ""); row("Lufttemperatur", "13,5", "°C", "", "", "", "DIN 38404-4"); row("Wassertemperatur", "11,2", "°C", "", "", "25", "DIN 38404-4", "temperature", O, "°C"); row("Aussehen, Geruch", "o.B.", "", "", "", "", "OENORM M 6620")
    row("\\fIChemische Parameter\\fP", "", "", "", "", "", ""); row("pH-Wert", "7,52", "", "", "", "6,5-9,5", "ISO 10523", "ph", O, "pH"); row("Elektr. Leitfähigkeit bei 20 °C", c(w["ec20"], 0), "µS/cm", "10", "", "2500", "EN 27888", "conductivity", "20C", US); row("Gesamthärte", c(w["dH"]), "°dH", "0,1", "", "", "berechnet", "hardness_total", O, "°dH"); row("Karbonathärte", c(w["kh"]), "°dH", "0,1", "", "", "berechnet", "hardness_carbonate", O, "°dH"); row("Säurekapazität bis pH 4,3", c(w["ks"], 2), "mmol/l", "0,05", "", "", "DIN 38409-7", "alkalinity", "acid_capacity", "mmol/L"); row("Hydrogencarbonat", c(w["hco3"], 0), "mg/l", "3", "", "", "DIN 38409-7", "bicarbonate", I, M)
    row("Calcium (Ca)", c(w["ca"]), "mg/l", "0,5", "", "", "ISO 14911", "calcium", I, M); row("Magnesium (Mg)", c(w["mg"]), "mg/l", "0,5", "", "", "ISO 14911", "magnesium", I, M); row("Natrium (Na)", c(w["na"]), "mg/l", "0,5", "", "200", "ISO 14911", "sodium", I, M); row("Kalium (K)", c(w["k"]), "mg/l", "0,5", "", "", "ISO 14911", "potassium", I, M); row("Eisen gesamt (Fe)", "n.b.", "mg/l", "0,02", "", "0,20", "ISO 17294-2", "iron", I, M); row("Mangan gesamt (Mn)", "n.b.", "mg/l", "0,005", "", "0,05", "ISO 17294-2", "manganese", I, M); row("Aluminium (Al)", "n.b.", "mg/l", "0,01", "", "0,20", "ISO 17294-2", "aluminium", I, M); row("Ammonium (NH4)", "n.b.", "mg/l", "0,02", "", "0,50", "ISO 14911", "ammonium", I, M)
    row("Nitrit (NO2)", "n.b.", "mg/l", "0,01", "0,10", "", "ISO 10304-1", "nitrite", I, M); row("Nitrat (NO3)", c(w["no3"]), "mg/l", "0,5", "50", "", "ISO 10304-1", "nitrate", I, M); row("Summe Nitrat/50 + Nitrit/3", c(w["no3"]/50, 2), "", "", "1", "", "berechnet"); row("Chlorid (Cl)", c(w["cl"]), "mg/l", "0,5", "", "200", "ISO 10304-1", "chloride", I, M); row("Sulfat (SO4)", c(w["so4"]), "mg/l", "0,5", "", "250", "ISO 10304-1", "sulfate", I, M); row("Fluorid (F)", "0,09", "mg/l", "0,05", "1,5", "", "ISO 10304-1", "fluoride", I, M); row("Phosphat ortho (PO4)", "n.b.", "mg/l", "0,05", "", "", "ISO 6878", "phosphate", I, M)
    row("NPOC (TOC)", "0,6", "mg/l", "0,3", "", "", "EN 1484", "toc", O, M); row("Trübung", "0,12", "NTU", "0,05", "", "", "ISO 7027", "turbidity", O, "NTU"); row("Kupfer (Cu)", "0,031", "mg/l", "0,001", "2,0", "", "ISO 17294-2", "copper", I, M); row("Blei (Pb)", "n.b.", "µg/l", "0,5", "10", "", "ISO 17294-2", "lead", I, U); row("Bor (B)", "0,011", "mg/l", "0,005", "1,0", "", "ISO 17294-2", "boron", I, M); row("Sättigungsindex", "0,08", "", "", "", "", "DIN 38404-10"); row("\\fIMikrobiologie\\fP", "", "", "", "", "", ""); row("KBE bei 22 °C", "3", "KBE/ml", "", "", "100", "ISO 6222")
    L += [".TE", "", "BG = Bestimmungsgrenze, n.b. = nicht bestimmbar (kleiner BG), PW = Parameterwert, IPW = Indikatorparameterwert, o.B. = ohne Besonderheit", "Gutachten: Das Wasser ist zur Verwendung als Trinkwasser geeignet.", "Labor Dr. Erdichtet GmbH, 4999 Almstetten, Tel. +43 555 0100"]
    open(f"{T}/alm.t", "w").write("\n".join(L) + "\n"); ps = subprocess.run(["groff", "-k", "-t", "-Tps", f"{T}/alm.t"], check=True, capture_output=True).stdout; open(f"{T}/alm.ps", "wb").write(ps)
    subprocess.run(["ps2pdf", f"{T}/alm.ps", f"{D}/{r.file}"], check=True); r.done()

def r13():  # laboratory report, fpdf2, field and laboratory values
    from fpdf import FPDF
    r = R("pruefbericht-labor-hessdorn.pdf", "de", "Hausbrunnen, Zapfhahn Garten"); w = water(116.2, 23.1, 28.7, 4.6, 51.2, 84.4, 43.8); c = lambda x, d=1: n(x, d, True)
    f = FPDF(); f.add_font("D", "", "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf"); f.add_font("D", "B", "/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf"); f.set_auto_page_break(False); X = [12, 78, 100, 118, 138, 156]
    def head(p):
        f.add_page(); f.set_font("D", "B", 11); f.text(12, 15, "Labor Hessdorn Umweltanalytik"); f.set_font("D", "", 7); f.text(12, 20, "Am Prüfstand 12, Telefon 0555 / 0100-70, Probenannahme Mo-Fr 7:00-15:00"); f.text(160, 15, f"Seite {p} von 2"); f.set_font("D", "B", 9); f.text(12, 28, "Prüfbericht Nr. 2024-P-55812"); f.set_font("D", "", 7.5)
        y = 34
        if p == 1:
            for a, b in [("Probenbezeichnung:", "Hausbrunnen, Zapfhahn Garten"), ("Labornummer:", "240917-0032"), ("Probenahme:", "17.09.2024, 10:20 Uhr, durch Auftraggeber"), ("Probeneingang:", "17.09.2024"), ("Prüfzeitraum:", "17.09.2024 bis 25.09.2024")]: f.text(12, y, a); f.text(55, y, b); y += 4.2
            y += 3
        f.set_font("D", "B", 7.5)
        for x, t in zip(X, ["Parameter", "Messwert", "Einheit", "BG", "Grenzwert", "Prüfverfahren"]): f.text(x, y, t)
        f.set_font("D", "", 7); f.line(12, y+1.5, 198, y+1.5); return y + 6
    st = {"y": head(1)}
    def row(lab, x, u, bg, lim, me, det=None, b=None, uk=None):
        if det: r.v(det, b, uk, "single", x, lim=float(bg.replace(",", ".")) if bg else None)
        if st["y"] > 280 or lab == "Calcium": st["y"] = head(2)
        for px, t in zip(X, [lab, x, u, bg, lim, me]): f.text(px, st["y"], t)
        st["y"] += 5
    def sec(t): f.set_font("D", "B", 7); f.text(12, st["y"], t); f.set_font("D", "", 7); st["y"] += 5
    sec("Vor-Ort-Messungen"); row("Wassertemperatur", "13,4", "°C", "", "", "DIN 38404-4 (C 4):1976-12", "temperature", O, "°C"); row("pH-Wert (vor Ort)", "6,94", "", "", "6,5 - 9,5", "DIN EN ISO 10523 (C 5):2012-04", "ph", O, "pH"); row("Leitfähigkeit bei 25 °C (vor Ort)", c(w["ec25"]*1.004, 0), "µS/cm", "1", "2790", "DIN EN 27888 (C 8):1993-11", "conductivity", "25C", US); row("Sauerstoff, gelöst", "4,7", "mg/l", "0,1", "", "DIN ISO 17289:2014-12", "dissolved_oxygen", O, M)
    sec("Physikalisch-chemische Kenngrößen"); row("pH-Wert (Labor)", "7,02", "", "", "6,5 - 9,5", "DIN EN ISO 10523 (C 5):2012-04", "ph", O, "pH"); row("Leitfähigkeit bei 20 °C", c(w["ec20"], 0), "µS/cm", "1", "2500", "DIN EN 27888 (C 8):1993-11", "conductivity", "20C", US); row("Färbung (SAK 436 nm)", "<0,1", "1/m", "0,1", "0,5", "DIN EN ISO 7887 (C 1):2012-04"); row("Trübung", "0,38", "FNU", "0,05", "1,0", "DIN EN ISO 7027-1:2016-11", "turbidity", O, "NTU"); row("Säurekapazität bis pH 4,3 (KS4,3)", c(w["ks"], 2), "mmol/l", "0,05", "", "DIN 38409-7 (H 7):2005-12", "alkalinity", "acid_capacity", "mmol/L"); row("Basekapazität bis pH 8,2 (KB8,2)", "1,38", "mmol/l", "0,05", "", "DIN 38409-7 (H 7):2005-12")
    row("Gesamthärte (Summe Erdalkalien)", c(w["mmol"], 2), "mmol/l", "0,02", "", "berechnet", "hardness_total", O, "mmol/L"); row("Gesamthärte", c(w["dH"]), "°dH", "0,1", "", "berechnet", "hardness_total", O, "°dH"); row("Karbonathärte", c(w["kh"]), "°dH", "0,1", "", "berechnet", "hardness_carbonate", O, "°dH"); row("Nichtkarbonathärte", c(w["dH"]-w["kh"]), "°dH", "0,1", "", "berechnet"); row("TOC", "1,9", "mg/l C", "0,3", "", "DIN EN 1484 (H 3):2019-04", "toc", O, M)
    row("Calcium", c(w["ca"]), "mg/l", "0,5", "", "DIN EN ISO 11885 (E 22):2009-09", "calcium", I, M); row("Magnesium", c(w["mg"]), "mg/l", "0,1", "", "DIN EN ISO 11885 (E 22):2009-09", "magnesium", I, M); row("Natrium", c(w["na"]), "mg/l", "0,5", "200", "DIN EN ISO 11885 (E 22):2009-09", "sodium", I, M); row("Kalium", c(w["k"]), "mg/l", "0,2", "", "DIN EN ISO 11885 (E 22):2009-09", "potassium", I, M); row("Eisen, gesamt", "0,046", "mg/l", "0,010", "0,200", "DIN EN ISO 11885 (E 22):2009-09", "iron", I, M); row("Mangan, gesamt", "0,012", "mg/l", "0,002", "0,050", "DIN EN ISO 11885 (E 22):2009-09", "manganese", I, M); row("Aluminium", "<0,010", "mg/l", "0,010", "0,200", "DIN EN ISO 11885 (E 22):2009-09", "aluminium", I, M); row("Bor", "0,061", "mg/l", "0,010", "1,0", "DIN EN ISO 11885 (E 22):2009-09", "boron", I, M); row("Kupfer", "0,0088", "mg/l", "0,0005", "2,0", "DIN EN ISO 17294-2:2017-01", "copper", I, M); row("Blei", "n. n.", "mg/l", "0,0005", "0,010", "DIN EN ISO 17294-2:2017-01", "lead", I, M); row("Zink", "0,034", "mg/l", "0,002", "", "DIN EN ISO 17294-2:2017-01", "zinc", I, M)
    row("Ammonium (als NH4)", "n. n.", "mg/l", "0,02", "0,50", "DIN 38406-5 (E 5):1983-10", "ammonium", I, M); row("Chlorid", c(w["cl"]), "mg/l", "0,5", "250", "DIN EN ISO 10304-1 (D 20):2009-07", "chloride", I, M); row("Fluorid", "0,17", "mg/l", "0,05", "1,5", "DIN EN ISO 10304-1 (D 20):2009-07", "fluoride", I, M); row("Nitrat (als NO3)", c(w["no3"]), "mg/l", "0,5", "50", "DIN EN ISO 10304-1 (D 20):2009-07", "nitrate", I, M); row("Nitrat-Stickstoff (als N)", c(w["no3n"], 2), "mg/l", "0,1", "", "berechnet", "nitrate", N, M); row("Nitrit (als NO2)", "n. n.", "mg/l", "0,01", "0,50", "DIN EN 26777 (D 10):1993-04", "nitrite", I, M); row("Sulfat", c(w["so4"]), "mg/l", "0,5", "250", "DIN EN ISO 10304-1 (D 20):2009-07", "sulfate", I, M); row("Hydrogencarbonat", c(w["hco3"], 0), "mg/l", "3", "", "berechnet aus KS4,3", "bicarbonate", I, M)
    row("ortho-Phosphat (als P)", "0,021", "mg/l", "0,005", "", "DIN EN ISO 6878 (D 11):2004-09", "phosphate", P, M); row("Phosphor, gesamt (als P)", "0,027", "mg/l", "0,005", "", "DIN EN ISO 6878 (D 11):2004-09", "phosphorus_total", P, M); row("Kieselsäure (als SiO2)", "15,3", "mg/l", "0,2", "", "DIN EN ISO 11885 (E 22):2009-09", "silica", "SiO2", M); row("Summe Kationen", c(w["ca"]/20.039+w["mg"]/12.1525+w["na"]/22.99+w["k"]/39.098, 2), "mmol/l", "", "", "berechnet"); row("Summe Anionen", c(w["ks"]+w["cl"]/35.453+w["so4"]/48.03+w["no3"]/62.005, 2), "mmol/l", "", "", "berechnet")
    st["y"] += 4; f.text(12, st["y"], "BG: Bestimmungsgrenze; n. n.: nicht nachweisbar (kleiner BG). Grenzwerte nach Trinkwasserverordnung. Die Ergebnisse gelten nur für die geprüfte Probe."); f.output(f"{D}/{r.file}"); r.done()
c = lambda x, d=1: n(x, d, True)
def r14():  # sanitary control sheet, LibreOffice Calc
    r = R("controle-sanitaire-valmorience.pdf", "fr", "Valmorience (réseau bas), mairie robinet cuisine"); w = water(102.8, 6.4, 9.7, 1.4, 18.9, 22.6, 31.2)
    h = ["""<html><head><meta charset="utf-8"></head><body><table><tr><td colspan=7><b>Contrôle sanitaire des eaux destinées à la consommation humaine</b></td></tr><tr><td colspan=7>Délégation départementale, 4 rue du Lavoir, tél. 05 55 01 00 40, ouvert de 9 h à 12 h</td></tr>
<tr><td>Commune</td><td colspan=6>VALMORIENCE</td></tr><tr><td>Installation</td><td colspan=6>UDI 0990417 Valmorience (réseau bas)</td></tr><tr><td>Point de surveillance</td><td colspan=6>mairie robinet cuisine</td></tr><tr><td>Prélevé le</td><td colspan=6>mardi 12 novembre 2024 à 10h05 par : technicien du laboratoire</td></tr><tr><td>Référence laboratoire</td><td colspan=6>LSE2411-30417</td></tr><tr><td></td></tr>
<tr><td rowspan=2><b>Analyses</b></td><td rowspan=2><b>Résultats</b></td><td rowspan=2><b>Unité</b></td><td colspan=2><b>Limites de qualité</b></td><td colspan=2><b>Références de qualité</b></td></tr><tr><td>inf.</td><td>sup.</td><td>inf.</td><td>sup.</td></tr>"""]
    def sec(t): h.append(f"<tr><td colspan=7><b>{t}</b></td></tr>")
    def row(lab, x, u, lim, det=None, b=None, uk=None):
        if det: r.v(det, b, uk, "single", x)
        lim = (lim + [""]*4)[:4]; h.append("<tr>" + "".join(f'<td sdval="" >{html.escape(q)}</td>' if 0 else f"<td style='mso-number-format:\"\\@\"'>{html.escape(q)}</td>" for q in [lab, x, u] + lim) + "</tr>")
    sec("Mesures de terrain"); row("Température de l'eau", "12,8", "°C", ["", "", "", "25,0"], "temperature", O, "°C"); row("pH", "7,35", "unité pH", ["", "", "6,5", "9,0"], "ph", O, "pH"); row("Chlore libre", "0,18", "mg(Cl2)/L", [], "chlorine_free", O, M); row("Chlore total", "0,23", "mg(Cl2)/L", [], "chlorine_total", O, M)
    sec("Caractéristiques organoleptiques"); row("Aspect (qualitatif)", "0", "SANS OBJET", []); row("Couleur (qualitatif)", "0", "SANS OBJET", []); row("Turbidité néphélométrique NFU", "0,21", "NFU", ["", "", "", "2,0"], "turbidity", O, "NTU")
    sec("Equilibre calco-carbonique"); row("Titre alcalimétrique", "0,0", "°f", []); row("Titre alcalimétrique complet", c(w["tac"]), "°f", [], "alkalinity", CA, "°fH"); row("Titre hydrotimétrique", c(w["fH"]), "°f", [], "hardness_total", O, "°fH"); row("Hydrogénocarbonates", c(w["hco3"], 0), "mg/L", [], "bicarbonate", I, M); row("Carbonates", "0", "mg(CO3)/L", []); row("pH d'équilibre à la t° échantillon", "7,28", "unité pH", []); row("Equilibre calcocarbonique 0/1/2/3/4", "2", "SANS OBJET", ["", "", "1", "2"])
    sec("Minéralisation"); row("Conductivité à 25°C", c(w["ec25"], 0), "µS/cm", ["", "", "200", "1100"], "conductivity", "25C", US); row("Calcium", c(w["ca"]), "mg/L", [], "calcium", I, M); row("Magnésium", c(w["mg"]), "mg/L", [], "magnesium", I, M); row("Sodium", c(w["na"]), "mg/L", ["", "", "", "200,0"], "sodium", I, M); row("Potassium", c(w["k"]), "mg/L", [], "potassium", I, M); row("Chlorures", c(w["cl"]), "mg/L", ["", "", "", "250,0"], "chloride", I, M); row("Sulfates", c(w["so4"]), "mg/L", ["", "", "", "250,0"], "sulfate", I, M); row("Silicates (en mg/L de SiO2)", "11,6", "mg(SiO2)/L", [], "silica", "SiO2", M)
    sec("Paramètres azotés et phosphorés"); row("Ammonium (en NH4)", "<0,05", "mg/L", ["", "", "", "0,1"], "ammonium", I, M); row("Nitrates (en NO3)", c(w["no3"]), "mg/L", ["", "50,0"], "nitrate", I, M); row("Nitrites (en NO2)", "<0,02", "mg/L", ["", "0,5"], "nitrite", I, M); row("Nitrates/50 + Nitrites/3", c(w["no3"]/50, 2), "mg/L", ["", "1,0"]); row("Phosphore total (exprimé en mg(P2O5)/L)", "0,068", "mg(P2O5)/L", [], "phosphorus_total", "P2O5", M)
    sec("Oxygène et matières organiques"); row("Carbone organique total", "0,54", "mg(C)/L", ["", "", "", "2,0"], "toc", O, M)
    sec("Fer et manganèse, oligo-éléments"); row("Fer total", "<10", "µg/L", ["", "", "", "200,0"], "iron", I, U); row("Manganèse total", "<5", "µg/L", ["", "", "", "50,0"], "manganese", I, U); row("Aluminium total µg/l", "14", "µg/L", ["", "", "", "200,0"], "aluminium", I, U); row("Bore mg/L", "0,024", "mg/L", ["", "1,5"], "boron", I, M); row("Cuivre", "0,087", "mg/L", ["", "2,0", "", "1,0"], "copper", I, M); row("Plomb", "0,8", "µg/L", ["", "10,0"], "lead", I, U); row("Fluorures mg/L", "0,11", "mg/L", ["", "1,5"], "fluoride", I, M); row("Atrazine déséthyl", "0,018", "µg/L", ["", "0,1"])
    sec("Conclusion sanitaire"); h.append("<tr><td colspan=7>Eau d'alimentation conforme aux exigences de qualité en vigueur pour l'ensemble des paramètres mesurés.</td></tr></table></body></html>")
    open(f"{T}/controle.html", "w").write("".join(h))
    # Calc's HTML import would turn 12,8 into numbers; write ods with odfpy-free path: xlsx of text cells, then pdf
    from openpyxl import Workbook; from lxml import html as LH
    wb = Workbook(); s = wb.active; doc = LH.fromstring("".join(h)); from openpyxl.styles import Alignment, Border, Side
    i = 0; span = {}
    for tr in doc.iter("tr"):
        i += 1; j = 1
        for td in tr:
            while (i, j) in span: j += 1
            cs, rs = int(td.get("colspan", 1)), int(td.get("rowspan", 1)); k = s.cell(i, j, td.text_content()); k.number_format = "@"; k.alignment = Alignment(wrap_text=False, vertical="top", horizontal="left" if j == 1 or cs > 2 else "center"); k.border = Border(bottom=Side("hair"))
            if cs*rs > 1: s.merge_cells(start_row=i, start_column=j, end_row=i+rs-1, end_column=j+cs-1)
            for a in range(rs):
                for b in range(cs): span[(i+a, j+b)] = 1
            j += cs
    for col, wd in zip("ABCDEFG", (42, 12, 15, 11, 11, 13, 13)): s.column_dimensions[col].width = wd
    s.page_setup.paperSize = 9; s.page_setup.fitToWidth = 1; s.page_setup.fitToHeight = 0; s.sheet_properties.pageSetUpPr = __import__("openpyxl").worksheet.properties.PageSetupProperties(fitToPage=True); s.print_title_rows = "9:10"; wb.save(f"{T}/controle-sanitaire-valmorience.xlsx"); soffice(f"{T}/controle-sanitaire-valmorience.xlsx", "pdf", D); r.done()

def r15():  # Belgium, xlsx, a sheet per zone
    from openpyxl import Workbook
    from openpyxl.styles import Font
    Z = ["Zone Haut-Plateau", "Zone Vallée de la Bruine"]; r = R("intercommunale-bruine-2024.xlsx", "fr", Z); A = [water(31.6, 5.9, 9.2, 1.3, 15.1, 17.2, 12.7), water(118.3, 14.2, 15.8, 2.4, 33.6, 48.4, 28.9)]
    wb = Workbook(); wb.active.title = "Lisez-moi"
    for q in (["Intercommunale de la Bruine (fictive)"], ["Qualité de l'eau distribuée, année 2024"], ["Service clientèle : 055 01 00 22, de 8 h à 17 h"], ["Une feuille par zone de distribution"]): wb.active.append(q)
    for j, (z, w) in enumerate(zip(Z, A)):
        s = wb.create_sheet(z); s["A1"] = z; s["A1"].font = Font(bold=True, size=14); s["A2"] = "Population desservie"; s["B2"] = [4312, 18877][j]; s["A3"] = "Période"; s["B3"] = "01/01/2024 - 31/12/2024"
        s.merge_cells("C5:C6"); s.merge_cells("D5:F5")
        for k, t in enumerate(["Paramètre", "Unité", "Valeur paramétrique", "Résultats", None, None, "Nombre d'analyses"], 1): s.cell(5, k, t)
        for k, t in zip((4, 5, 6), ("Minimum", "Moyenne", "Maximum")): s.cell(6, k, t)
        s.cell(6, 7, None); i = [7]
        def row(lab, u, vp, t, cnt, det=None, b=None, uk=None, d=1):
            for k, x in enumerate([lab, u, vp], 1): s.cell(i[0], k, x)
            for k, x, st in zip((4, 5, 6), t, MMM):
                if x.startswith("<"): s.cell(i[0], k, x.replace(".", ","))
                else: q = s.cell(i[0], k, float(x)); q.number_format = "0" + ("." + "0"*len(x.split(".")[1]) if "." in x else "")
                if det: r.v(det, b, uk, st, x, z)
            s.cell(i[0], 7, cnt); i[0] += 1
        def sec(t): s.cell(i[0], 1, t).font = Font(bold=True); s.merge_cells(start_row=i[0], start_column=1, end_row=i[0], end_column=7); i[0] += 1
        g = lambda k, d=1: tri(w[k], d)
        sec("Paramètres microbiologiques"); row("Escherichia coli", "/100 ml", 0, ["0"]*3, 36); sec("Paramètres physico-chimiques")
        row("Température", "°C", 25, ["6.1", "11.4", "19.2"], 36, "temperature", O, "°C"); row("pH", "unités pH", "6,5 - 9,5", [["7.61", "7.94", "8.22"], ["7.08", "7.24", "7.41"]][j], 36, "ph", O, "pH"); row("Conductivité à 20 °C", "µS/cm", 2500, g("ec20", 0), 36, "conductivity", "20C", US); row("Turbidité", "NTU", 4, ["<0.10", "0.16", "0.71"], 36, "turbidity", O, "NTU"); row("Dureté totale", "°f", 67.5, g("fH"), 12, "hardness_total", O, "°fH"); row("Alcalinité totale (TAC)", "°f", None, g("tac"), 12, "alkalinity", CA, "°fH")
        row("Calcium", "mg/l Ca", 270, g("ca"), 12, "calcium", I, M); row("Magnésium", "mg/l Mg", 50, g("mg", 2), 12, "magnesium", I, M); row("Sodium", "mg/l Na", 200, g("na"), 12, "sodium", I, M); row("Potassium", "mg/l K", None, g("k", 2), 12, "potassium", I, M); row("Chlorures", "mg/l Cl", 250, g("cl"), 12, "chloride", I, M); row("Sulfates", "mg/l SO4", 250, g("so4"), 12, "sulfate", I, M); row("Nitrates", "mg/l NO3", 50, g("no3"), 12, "nitrate", I, M); row("Nitrites", "mg/l NO2", 0.5, ["<0.01"]*3, 12, "nitrite", I, M); row("Ammonium", "mg/l NH4", 0.5, ["<0.02", "<0.02", "0.03"], 36, "ammonium", I, M)
        row("Orthophosphates", "mg/l P2O5", None, [["0.41", "0.62", "0.80"], ["<0.05", "0.07", "0.12"]][j], 4, "phosphate", "P2O5", M); row("Silice", "mg/l SiO2", None, [["7.7", "8.4", "9.0"], ["11.2", "12.6", "13.9"]][j], 4, "silica", "SiO2", M); row("Chlore libre résiduel", "mg/l", 0.25, ["<0.02", "0.06", "0.19"], 36, "chlorine_free", O, M); row("Carbone organique total (COT)", "mg/l C", None, ["0.6", "0.9", "1.5"], 12, "toc", O, M)
        sec("Métaux"); row("Aluminium", "µg/l", 200, ["<10", "18", "62"], 12, "aluminium", I, U); row("Bore", "mg/l", 1, ["<0.02", "<0.02", "0.03"], 4, "boron", I, M); row("Cuivre", "mg/l", 2, ["0.006", "0.051", "0.283"], 12, "copper", I, M); row("Fer", "µg/l", 200, ["<5", "14", "96"], 12, "iron", I, U); row("Fluorures", "mg/l", 1.5, ["0.06", "0.09", "0.12"], 4, "fluoride", I, M); row("Manganèse", "µg/l", 50, ["<1", "2", "11"], 12, "manganese", I, U); row("Plomb", "µg/l", 10, ["<0.5", "0.7", "3.1"], 12, "lead", I, U); row("Zinc", "µg/l", 5000, ["<5", "31", "188"], 12, "zinc", I, U)
    wb.save(f"{D}/{r.file}"); r.done()

def r16():  # Swiss, French, pasted text
    r = R("commune-pre-vallon.txt", "fr", "Réseau de Pré-Vallon", ["nitrate"]); w = water(92.4, 8.8, 4.1, .8, 6.6, 12.9, 9.2); v = lambda d, b, u, p, s="single": r.v(d, b, u, s, p)
    open(f"{D}/{r.file}", "w").write(f"""Commune de Pré-Vallon
Qualité de l'eau potable 2024 - information aux consommateurs (art. 5 OPBD)

Réseau de Pré-Vallon, 1 483 habitants alimentés
Provenance: sources de la Combe (82 %) et puits des Îles (18 %)
Traitement: rayons ultraviolets

Prélèvement du 3 juin 2024, fontaine du village

Température de l'eau : {v('temperature', O, '°C', '10,3')} °C
Valeur pH : {v('ph', O, 'pH', '7,46')}
Conductivité à 25 °C : {v('conductivity', '25C', US, c(w['ec25'], 0))} µS/cm
Dureté totale : {v('hardness_total', O, '°fH', c(w['fH']))} °f, soit {v('hardness_total', O, '°dH', c(w['dH']))} degrés allemands (eau assez dure)
Dureté carbonatée : {v('hardness_carbonate', O, '°fH', c(w['tac']))} °f
Calcium (Ca++) : {v('calcium', I, M, c(w['ca']))} mg/l
Magnésium (Mg++) : {v('magnesium', I, M, c(w['mg']))} mg/l
Sodium (Na+) : {v('sodium', I, M, c(w['na']))} mg/l
Potassium (K+) : {v('potassium', I, M, c(w['k']))} mg/l
Chlorures (Cl-) : {v('chloride', I, M, c(w['cl']))} mg/l
Sulfates (SO4--) : {v('sulfate', I, M, c(w['so4']))} mg/l
Hydrogénocarbonates (HCO3-) : {v('bicarbonate', I, M, c(w['hco3'], 0))} mg/l
Nitrates : {v('nitrate', I, M, c(w['no3']))} mg/l (valeur maximale 40 mg/l)
Nitrites (NO2-) : {v('nitrite', I, M, '< 0,005')} mg/l
Ammonium (NH4+) : {v('ammonium', I, M, '< 0,01')} mg/l
Orthophosphates (PO4---) : {v('phosphate', I, M, '0,02')} mg/l
Turbidité : {v('turbidity', O, 'NTU', '0,14')} UT/F
Carbone organique total (COT) : {v('toc', O, M, '0,6')} mg C/l
Fer : {v('iron', I, U, '< 5')} µg/l    Manganèse : {v('manganese', I, U, '< 1')} µg/l
Cuivre : {v('copper', I, U, '3,4')} µg/l    Zinc : {v('zinc', I, U, '12')} µg/l

Escherichia coli 0/100 ml, entérocoques 0/100 ml, germes aérobies 4/ml

Service des eaux : M. le fontainier, tél. 055 501 00 19, lundi à vendredi 7h30 - 11h30
Pré-Vallon, janvier 2025
"""); r.done()

def r17():  # Québec, csv mac roman, semicolons
    r = R("ville-sainte-ombrine.csv", "fr", "Réseau Sainte-Ombrine"); w = water(29.4, 5.2, 14.6, 1.4, 21.3, 25.8, 1.7)
    L = ["Ville de Sainte-Ombrine;;;;;;;", "Bilan annuel de la qualité de l'eau potable - réseau Sainte-Ombrine (X9990417);;;;;;;", "Année 2024;;;;;;;", ";;;;;;;", "Paramètre;Unité;Norme (RQEP);Nombre d'échantillons;Minimum;Moyenne;Maximum;Dépassements"]
    def row(lab, u, lim, cnt, t, det=None, b=None, uk=None):
        if det: [r.v(det, b, uk, s, x) for s, x in zip(MMM, t)]
        L.append(";".join([lab, u, lim, str(cnt)] + t + ["0"]))
    g = lambda k, d=1: tri(w[k], d, True)
    row("Coliformes totaux", "UFC/100 mL", "10", 312, ["0", "0", "2"]); row("Alcalinité totale", "mg/L CaCO3", "", 12, g("alk", 0), "alkalinity", CA, M); row("Aluminium", "mg/L Al", "2,9", 12, ["0,012", "0,031", "0,074"], "aluminium", I, M); row("Azote ammoniacal", "mg/L N", "", 12, ["<0,02", "0,03", "0,06"], "ammonium", N, M); row("Bore", "mg/L B", "5", 1, ["0,011"]*3, "boron", I, M); row("Calcium", "mg/L Ca", "", 12, g("ca"), "calcium", I, M); row("Carbone organique total", "mg/L C", "", 12, ["1,6", "2,1", "2,7"], "toc", O, M); row("Chlore résiduel libre", "mg/L Cl2", "", 365, ["0,31", "0,92", "1,48"], "chlorine_free", O, M); row("Chlore résiduel total", "mg/L Cl2", "", 365, ["0,39", "1,03", "1,61"], "chlorine_total", O, M)
    row("Chlorures", "mg/L Cl", "", 12, g("cl"), "chloride", I, M); row("Conductivité (25 °C)", "µS/cm", "", 52, g("ec25", 0), "conductivity", "25C", US); row("Couleur vraie", "UCV", "", 52, ["<1", "2", "4"]); row("Cuivre", "mg/L Cu", "2", 30, ["0,004", "0,061", "0,402"], "copper", I, M); row("Dureté totale", "mg/L CaCO3", "", 12, g("hard", 0), "hardness_total", CA, M); row("Fer", "mg/L Fe", "", 12, ["<0,01", "0,02", "0,07"], "iron", I, M); row("Fluorures", "mg/L F", "1,5", 1, ["0,08"]*3, "fluoride", I, M); row("Magnésium", "mg/L Mg", "", 12, g("mg", 2), "magnesium", I, M); row("Manganèse", "mg/L Mn", "0,12", 12, ["<0,001", "0,004", "0,013"], "manganese", I, M)
    row("Nitrites + nitrates", "mg/L N", "10", 4, [c(x) if 0 else c(x, 2) for x in (w["no3n"]*.8, w["no3n"], w["no3n"]*1.3)]); row("Nitrites", "mg/L N", "1", 4, ["<0,01"]*3, "nitrite", N, M); row("pH", "", "6,5 à 8,5", 365, ["7,2", "7,6", "8,0"], "ph", O, "pH"); row("Phosphore total", "mg/L P", "", 4, ["<0,01", "<0,01", "0,02"], "phosphorus_total", P, M); row("Plomb", "mg/L Pb", "0,005", 30, ["<0,0005", "0,0009", "0,0041"], "lead", I, M); row("Potassium", "mg/L K", "", 12, g("k", 2), "potassium", I, M); row("Silice réactive", "mg/L SiO2", "", 4, ["3,1", "4,4", "5,2"], "silica", "SiO2", M); row("Sodium", "mg/L Na", "", 12, g("na"), "sodium", I, M); row("Sulfates", "mg/L SO4", "", 12, g("so4"), "sulfate", I, M)
    row("Température", "°C", "", 365, ["1,2", "9,8", "22,4"], "temperature", O, "°C"); row("Trihalométhanes totaux", "µg/L", "80", 16, ["18", "34", "57"]); row("Turbidité", "UTN", "1", 365, ["0,05", "0,12", "0,38"], "turbidity", O, "NTU"); row("Zinc", "mg/L Zn", "", 12, ["<0,005", "0,008", "0,020"], "zinc", I, M)
    L.append(";;;;;;;"); L.append("Renseignements : Service des travaux publics, 555-010-3311, du lundi au jeudi de 8 h à 16 h 30;;;;;;;")
    open(f"{D}/{r.file}", "wb").write("\r".join(L).encode("mac_roman") + b"\r"); r.done()

def r18():  # Dutch quarter table, cairo
    import cairocffi as cairo
    Z = ["1e kwartaal 2024", "2e kwartaal 2024", "3e kwartaal 2024", "4e kwartaal 2024"]; r = R("pompstation-oosterveld-kwartaal.pdf", "nl", Z); A = [water(44.0*k, 6.2*k, 17.9*k, 2.2*k, 26.1*k, 24.4*k, 3.9*k) for k in (1, 1.03, .98, 1.015)]
    S = cairo.PDFSurface(f"{D}/{r.file}", 595, 842); x = cairo.Context(S); x.select_font_face("DejaVu Sans")
    def tx(px, py, s, right=False, bold=False, sz=7):
        x.select_font_face("DejaVu Sans", 0, 1 if bold else 0); x.set_font_size(sz)
        if right: px -= x.text_extents(s)[4]
        x.move_to(px, py); x.show_text(s)
    tx(40, 44, "Drinkwaterkwaliteit pompstation Oosterveld", bold=True, sz=13); tx(40, 58, "Waterbedrijf Lage Maden (verzonnen) - kwartaalgemiddelden van het reine water, 2024"); tx(40, 68, "Klantenservice 0555 010 010, werkdagen van 8.00 tot 18.00 uur")
    y = [92]; X = [40, 168, 240, 322, 390, 458, 526]
    def head():
        for px, a in zip(X[3:], ["1e kwartaal", "2e kwartaal", "3e kwartaal", "4e kwartaal"]): tx(px, y[0], a, True, True)
        for px, a in zip(X, ["Parameter", "Eenheid"]): tx(px, y[0]+9, a, False, True)
        tx(X[2]+12, y[0]+9, "Norm", True, True)
        for px in X[3:]: tx(px, y[0]+9, "2024", True, True)
        x.move_to(40, y[0]+13); x.line_to(540, y[0]+13); x.set_line_width(.5); x.stroke(); y[0] += 24
    head()
    def sec(t): tx(40, y[0], t, False, True); y[0] += 11
    def row(lab, u, norm, vals, det=None, b=None, uk=None):
        if det: [r.v(det, b, uk, "mean", a, z) for a, z in zip(vals, Z)]
        tx(X[0], y[0], lab); tx(X[1], y[0], u); tx(X[2]+12, y[0], norm, True)
        for px, a in zip(X[3:], vals): tx(px, y[0], a, True)
        y[0] += 11
    g = lambda k, d=1: [c(w[k], d) for w in A]
    sec("Algemeen"); row("Temperatuur", "°C", "25", ["10,4", "11,2", "12,0", "11,5"], "temperature", O, "°C"); row("Zuurstof", "mg/l O2", "> 2", ["7,1", "6,8", "6,4", "6,9"], "dissolved_oxygen", O, M); row("Zuurgraad", "pH", "7,0-9,5", ["7,81", "7,84", "7,79", "7,83"], "ph", O, "pH"); row("Saturatie-index", "SI", "> -0,2", ["0,11", "0,14", "0,08", "0,12"]); row("Geleidingsvermogen (20 °C)", "mS/m", "125", [c(w["ec20"]/10) for w in A], "conductivity", "20C", "mS/m"); row("Troebelheid", "FTE", "1", ["<0,05", "0,06", "<0,05", "0,07"], "turbidity", O, "NTU"); row("Kleur", "mg/l Pt/Co", "20", ["4", "5", "4", "4"]); row("TOC", "mg/l C", "-", ["1,9", "2,0", "1,8", "1,9"], "toc", O, M)
    row("Totale hardheid", "mmol/l", "> 1,0", g("mmol", 2), "hardness_total", O, "mmol/L"); row("Totale hardheid", "°D", "-", g("dH"), "hardness_total", O, "°dH"); row("Waterstofcarbonaat", "mg/l HCO3", "> 60", g("hco3", 0), "bicarbonate", I, M)
    sec("Kationen"); row("Calcium", "mg/l Ca", "-", g("ca"), "calcium", I, M); row("Magnesium", "mg/l Mg", "-", g("mg"), "magnesium", I, M); row("Natrium", "mg/l Na", "150", g("na"), "sodium", I, M); row("Kalium", "mg/l K", "-", g("k"), "potassium", I, M); row("Ammonium", "mg/l NH4", "0,20", ["<0,03", "<0,03", "0,04", "<0,03"], "ammonium", I, M); row("IJzer", "mg/l Fe", "0,20", ["0,02", "0,03", "0,02", "<0,01"], "iron", I, M); row("Mangaan", "mg/l Mn", "0,05", ["<0,005"]*4, "manganese", I, M); row("Aluminium", "µg/l Al", "200", ["<2", "<2", "3", "<2"], "aluminium", I, U)
    sec("Anionen"); row("Chloride", "mg/l Cl", "150", g("cl"), "chloride", I, M); row("Sulfaat", "mg/l SO4", "150", g("so4"), "sulfate", I, M); row("Nitraat", "mg/l NO3", "50", g("no3", 2), "nitrate", I, M); row("Nitriet", "mg/l NO2", "0,10", ["<0,007", "<0,007", "0,010", "<0,007"], "nitrite", I, M); row("Fosfaat (ortho)", "mg/l PO4", "-", ["0,05", "<0,03", "0,04", "0,06"], "phosphate", I, M); row("Fluoride", "mg/l F", "1,0", ["0,11", "0,12", "0,11", "0,10"], "fluoride", I, M); row("Silicaat", "mg/l Si", "-", ["8,8", "9,1", "8,6", "8,9"], "silica", "Si", M)
    sec("Metalen en overige"); row("Boor", "mg/l B", "0,5", ["0,03", "0,03", "0,02", "0,03"], "boron", I, M); row("Koper", "µg/l Cu", "2000", ["<1", "1,4", "<1", "<1"], "copper", I, U); row("Lood", "µg/l Pb", "10", ["<0,5"]*4, "lead", I, U); row("Zink", "µg/l Zn", "3000", ["<5", "6", "<5", "7"], "zinc", I, U); row("Koloniegetal 22 °C", "kve/ml", "100", ["<1", "2", "1", "<1"])
    tx(40, y[0]+10, "Norm: maximum volgens het Drinkwaterbesluit. °D: Duitse graden. < : kleiner dan de rapportagegrens.", sz=6); S.finish(); r.done()

def r19():  # Flemish, pipes, windows-1252
    r = R("waterzone-kwadebeke.txt", "nl", "Kwadebeke-Dorp"); r.file = "waterzone-kwadebeke.csv"; w = water(109.6, 11.8, 24.4, 4.9, 44.6, 61.2, 18.7)
    L = ["Waterkwaliteitszone|Kwadebeke-Dorp", "Gemeente|Kwadebeke", "Jaar|2024", "", "Parameter|Eenheid|Norm|Aantal stalen|Minimum|Gemiddelde|Maximum|Conform"]
    def row(lab, u, norm, cnt, t, det=None, b=None, uk=None):
        if det: [r.v(det, b, uk, s, x) for s, x in zip(MMM, t)]
        L.append("|".join([lab, u, norm, str(cnt)] + t + ["ja"]))
    g = lambda k, d=1: tri(w[k], d, True)
    row("Ammonium", "mg NH4/l", "0,5", 24, ["<0,03", "<0,03", "0,05"], "ammonium", I, M); row("Aluminium", "µg/l", "200", 24, ["<10", "15", "44"], "aluminium", I, U); row("Boor", "mg/l", "1", 4, ["0,04", "0,05", "0,07"], "boron", I, M); row("Calcium", "mg/l", "270", 8, g("ca"), "calcium", I, M); row("Chloride", "mg/l", "250", 8, g("cl"), "chloride", I, M); row("E. coli", "kve/100 ml", "0", 60, ["0", "0", "0"]); row("Fluoride", "mg/l", "1,5", 4, ["0,10", "0,14", "0,19"], "fluoride", I, M); row("Fosfaat", "mg P2O5/l", "", 4, ["0,21", "0,33", "0,48"], "phosphate", "P2O5", M)
    row("Geleidbaarheid bij 20 °C", "µS/cm", "2100", 24, g("ec20", 0), "conductivity", "20C", US); row("IJzer", "µg/l", "200", 24, ["<20", "<20", "61"], "iron", I, U); row("Kalium", "mg/l", "", 8, g("k"), "potassium", I, M); row("Koper", "mg/l", "2", 8, ["0,009", "0,072", "0,311"], "copper", I, M); row("Lood", "µg/l", "10", 8, ["<1,0", "1,2", "4,4"], "lead", I, U); row("Magnesium", "mg/l", "50", 8, g("mg"), "magnesium", I, M); row("Mangaan", "µg/l", "50", 24, ["<5", "<5", "9"], "manganese", I, U); row("Natrium", "mg/l", "200", 8, g("na"), "sodium", I, M)
    row("Nitraat", "mg NO3/l", "50", 8, g("no3"), "nitrate", I, M); row("Nitriet", "mg NO2/l", "0,5", 8, ["<0,01", "0,02", "0,04"], "nitrite", I, M); row("Sulfaat", "mg/l", "250", 8, g("so4"), "sulfate", I, M); row("Temperatuur", "°C", "25", 60, ["7,2", "13,1", "20,6"], "temperature", O, "°C"); row("Totale alkaliniteit (TAP)", "°F", "", 8, g("tac"), "alkalinity", CA, "°fH"); row("Totale hardheid", "°F", "67,5", 8, g("fH"), "hardness_total", O, "°fH"); row("Totale hardheid", "°D", "", 8, g("dH"), "hardness_total", O, "°dH"); row("Troebelingsgraad", "NTU", "4", 24, ["<0,2", "0,3", "0,9"], "turbidity", O, "NTU"); row("Vrije chloor", "mg/l", "0,25", 60, ["<0,02", "0,05", "0,17"], "chlorine_free", O, M); row("Zuurtegraad", "pH", "6,5-9,2", 60, ["7,2", "7,4", "7,6"], "ph", O, "pH"); row("Zink", "µg/l", "5000", 8, ["<20", "48", "172"], "zinc", I, U)
    L += ["", "°F = Franse graden, °D = Duitse graden. Vragen? Bel 0555 01 004 (ma-vr 8u-19u)."]
    open(f"{D}/{r.file}", "wb").write("\r\n".join(L).encode("cp1252") + b"\r\n"); r.done()

def r20():  # Dutch year workbook, parameters across, places down
    from openpyxl import Workbook
    from openpyxl.styles import Font
    Z = ["Heerdenberg", "Zilverduin", "De Langeweide"]; r = R("jaaroverzicht-2024-productielocaties.xlsx", "nl", Z, []); A = [water(48.2, 4.4, 11.6, 1.1, 17.2, 12.9, 6.2), water(43.1, 8.8, 36.4, 3.3, 51.2, 38.8, 5.1), water(60.6, 7.1, 21.8, 2.6, 29.9, 3.2, 0.7)]
    wb = Workbook(); s = wb.active; s.title = "2024"; s["A1"] = "Jaargemiddelden 2024 per productielocatie"; s["A1"].font = Font(bold=True); s["A2"] = "Waterbedrijf Duinzoom (verzonnen), inlichtingen 0555 010 060"
    cols = [("Zuurgraad", "pH", "ph", O, "pH", [7.72, 8.31, 7.66], 2), ("EGV (20 °C)", "mS/m", "conductivity", "20C", "mS/m", [w["ec20"]/10 for w in A], 1), ("Totale hardheid", "mmol/l", "hardness_total", O, "mmol/L", [w["mmol"] for w in A], 2), ("Totale hardheid", "°dH", "hardness_total", O, "°dH", [w["dH"] for w in A], 1), ("Waterstof-carbonaat", "mg/l", "bicarbonate", I, M, [w["hco3"] for w in A], 0)] + \
        [(l, u, d, I, M, [w[k] for w in A], 1) for l, u, d, k in [("Calcium", "mg/l", "calcium", "ca"), ("Magnesium", "mg/l", "magnesium", "mg"), ("Natrium", "mg/l", "sodium", "na"), ("Kalium", "mg/l", "potassium", "k"), ("Chloride", "mg/l", "chloride", "cl"), ("Sulfaat", "mg/l", "sulfate", "so4")]] + \
        [("Nitraat", "mg/l NO3", "nitrate", I, M, [w["no3"] for w in A], 2), ("Nitriet", "mg/l NO2", "nitrite", I, M, ["<0,007", "<0,007", "0,011"], 3), ("Ammonium", "mg/l NH4", "ammonium", I, M, ["<0,02", 0.031, 0.054], 2), ("Orthofosfaat", "mg/l P", "phosphate", P, M, ["<0,01", 0.021, 0.064], 2), ("IJzer", "µg/l", "iron", I, U, [11.2, "<10", 38.4], 0), ("Mangaan", "µg/l", "manganese", I, U, ["<5", "<5", 12.1], 0), ("Koper", "µg/l", "copper", I, U, ["<1", 1.62, "<1"], 1), ("Silicium", "mg/l Si", "silica", "Si", M, [6.31, 4.12, 9.87], 1), ("Temperatuur", "°C", "temperature", O, "°C", [11.1, 12.6, 11.8], 1)]
    s["A4"] = "Productielocatie"; s["B4"] = "Gemeente"
    for j, (l, u, d, b, uk, vals, dec) in enumerate(cols, 3):
        s.cell(4, j, l).font = Font(bold=True); s.cell(5, j, u)
        for i, (x, z) in enumerate(zip(vals, Z)):
            k = s.cell(6+i, j, x if isinstance(x, str) else round(x, dec+2))
            if not isinstance(x, str): k.number_format = "0" + ("." + "0"*dec if dec else ""); x = n(round(x, dec+2), dec)
            r.v(d, b, uk, "mean", x, z)
    for i, (z, q) in enumerate(zip(Z, ["Heerde-Oost", "Zilverkerk", "Langeweide"])): s.cell(6+i, 1, z); s.cell(6+i, 2, q)
    s.cell(9, 1, "Norm")
    for j, x in {3: "7,0-9,5", 4: 125, 10: 150, 12: 150, 13: 150, 14: 50, 15: 0.1, 16: 0.2, 18: 200, 19: 50, 20: 2000, 22: 25}.items(): s.cell(9, j, x)
    wb.save(f"{D}/{r.file}"); r.done()

def r21():  # Spain, chromium, uncertainty column
    r = R("boletin-aguas-montelarra.pdf", "es", "Red de distribución Montelarra, grifo del centro cívico"); w = water(87.3, 26.4, 41.8, 3.6, 62.9, 98.2, 16.4)
    h = ["""<html lang=es><meta charset=utf-8><style>body{font:9pt Verdana,sans-serif}table{border-collapse:collapse;width:100%;font-size:8pt}td,th{border-bottom:1px solid #bbb;padding:2px 4px;text-align:left}.g td{background:#eee;font-weight:bold}</style><h2>Aguas de Montelarra, S.A. (ficticia)</h2><p>Boletín de análisis nº 24/10417 &mdash; Análisis completo. Atención al cliente 955 010 010, de 9:00 a 14:00 h</p>
<table><tr><td>Punto de muestreo:</td><td>Red de distribución Montelarra, grifo del centro cívico</td></tr><tr><td>Fecha de toma:</td><td>07/10/2024 09:50</td></tr><tr><td>Fecha de emisión:</td><td>18/10/2024</td></tr><tr><td>Código de muestra:</td><td>M-24-033871</td></tr></table><br><table><tr><th>Parámetro</th><th>Método</th><th>Resultado</th><th>U (k=2)</th><th>Unidad</th><th>Valor paramétrico</th></tr>"""]
    def sec(t): h.append(f"<tr class=g><td colspan=6>{t}</td></tr>")
    def row(lab, me, x, un, u, lim, det=None, b=None, uk=None):
        if det: r.v(det, b, uk, "single", x)
        h.append("<tr>" + "".join(f"<td>{html.escape(q)}</td>" for q in [lab, me, x, un, u, lim]) + "</tr>")
    sec("Parámetros organolépticos"); row("Color", "PE-02 Fotometría", "< 2", "", "mg/L Pt/Co", "15"); row("Olor", "PE-04", "< 1", "", "Índice de dilución", "3"); row("Turbidez", "PE-01 Nefelometría", "0,34", "± 0,05", "UNF", "4,0", "turbidity", O, "NTU")
    sec("Parámetros in situ"); row("Temperatura del agua", "PE-07", "18,6", "± 0,4", "°C", "", "temperature", O, "°C"); row("Cloro libre residual", "PE-05 DPD", "0,62", "± 0,06", "mg/L", "1,0", "chlorine_free", O, M); row("Cloro combinado residual", "PE-05 DPD", "0,11", "± 0,02", "mg/L", "2,0"); r.v("chloramine", O, M, "single", "0,11", opt=True)
    sec("Parámetros fisicoquímicos"); row("pH", "PE-03 Potenciometría", "7,7", "± 0,2", "Unidades de pH", "6,5 - 9,5", "ph", O, "pH"); row("Conductividad a 20 °C", "PE-06", c(w["ec20"], 0), "± 25", "µS/cm", "2500", "conductivity", "20C", US); row("Dureza total", "PE-11 Cálculo", c(w["fH"]), "± 1,8", "°F (grados franceses)", "", "hardness_total", O, "°fH"); row("Alcalinidad total", "PE-12 Volumetría", c(w["alk"], 0), "± 14", "mg/L CaCO3", "", "alkalinity", CA, M); row("Bicarbonatos", "PE-12 Volumetría", c(w["hco3"], 0), "± 17", "mg/L HCO3", "", "bicarbonate", I, M); row("Índice de Langelier", "Cálculo", "0,31", "", "", "-0,5 a 0,5"); row("Carbono orgánico total", "PE-40", "1,4", "± 0,2", "mg/L C", "7,0", "toc", O, M); row("Oxidabilidad", "PE-41", "0,9", "± 0,2", "mg/L O2", "5,0")
    sec("Iones"); row("Amonio", "PE-15", "< 0,05", "", "mg/L NH4", "0,50", "ammonium", I, M); row("Calcio", "PE-20 CI", c(w["ca"]), "± 7,0", "mg/L Ca", "", "calcium", I, M); row("Cloruro", "PE-21 CI", c(w["cl"]), "± 5,0", "mg/L Cl", "250", "chloride", I, M); row("Fluoruro", "PE-21 CI", "0,22", "± 0,03", "mg/L F", "1,5", "fluoride", I, M); row("Fosfatos", "PE-22", "< 0,10", "", "mg/L PO4", "", "phosphate", I, M); row("Magnesio", "PE-20 CI", c(w["mg"]), "± 2,1", "mg/L Mg", "", "magnesium", I, M); row("Nitrato", "PE-21 CI", c(w["no3"]), "± 1,3", "mg/L NO3", "50", "nitrate", I, M); row("Nitrito", "PE-21 CI", "< 0,02", "", "mg/L NO2", "0,5", "nitrite", I, M); row("Potasio", "PE-20 CI", c(w["k"]), "± 0,4", "mg/L K", "", "potassium", I, M); row("Sodio", "PE-20 CI", c(w["na"]), "± 3,3", "mg/L Na", "200", "sodium", I, M); row("Sulfato", "PE-21 CI", c(w["so4"]), "± 7,9", "mg/L SO4", "250", "sulfate", I, M)
    sec("Metales"); row("Aluminio", "PE-30 ICP-MS", "36", "± 5", "µg/L", "200", "aluminium", I, U); row("Boro", "PE-30 ICP-MS", "0,048", "± 0,007", "mg/L", "1,5", "boron", I, M); row("Cobre", "PE-30 ICP-MS", "0,027", "± 0,004", "mg/L", "2,0", "copper", I, M); row("Hierro", "PE-30 ICP-MS", "11", "± 2", "µg/L", "200", "iron", I, U); row("Manganeso", "PE-30 ICP-MS", "< 2", "", "µg/L", "50", "manganese", I, U); row("Níquel", "PE-30 ICP-MS", "< 2", "", "µg/L", "20"); row("Plomo", "PE-30 ICP-MS", "< 1", "", "µg/L", "5", "lead", I, U); row("Zinc", "PE-30 ICP-MS", "0,04", "± 0,01", "mg/L", "", "zinc", I, M)
    h.append("</table><p>Calificación de la muestra: agua APTA para el consumo. Los ensayos marcados no están amparados por la acreditación. Página 1 de 1</p></html>"); chromium("".join(h), "boletin-aguas-montelarra"); r.done()

def r22():  # Mexico, ods by LibreOffice
    from openpyxl import Workbook
    from openpyxl.styles import Font
    Z = ["Pozo 4 La Noria", "Pozo 9 El Mezquital", "Tanque Lomas"]; r = R("organismo-agua-tepalcatillo.ods", "es", Z); A = [water(38.2, 12.1, 61.4, 5.8, 36.2, 44.4, 18.6), water(22.6, 6.0, 98.7, 7.7, 41.5, 52.8, 9.1), water(33.1, 10.4, 72.2, 6.3, 37.8, 46.9, 15.9)]
    wb = Workbook(); s = wb.active; s.title = "NOM-127"; s["A1"] = "Organismo Operador de Agua de Tepalcatillo (ficticio)"; s["A2"] = "Calidad del agua, muestreo del 21 de mayo de 2024"; s["A3"] = "Laboratorio: informe LAB-24-0991, tel. 55 0100 0417"; s.merge_cells("A1:G1"); s.merge_cells("A2:G2")
    for j, x in enumerate(["Parámetro", "Unidades", "Límite permisible NOM-127-SSA1-2021", "LC", "Pozo 4\nLa Noria", "Pozo 9\nEl Mezquital", "Tanque\nLomas"], 1): s.cell(5, j, x).font = Font(bold=True)
    i = [6]
    def row(lab, u, lim, lc, vals, det=None, b=None, uk=None, d=1):
        for j, x in enumerate([lab, u, lim, lc], 1): s.cell(i[0], j, x)
        for j, (x, z) in enumerate(zip(vals, Z)):
            k = s.cell(i[0], 5+j, x if isinstance(x, str) else round(x, d+2))
            if not isinstance(x, str): k.number_format = "0" + ("." + "0"*d if d else ""); x = n(round(x, d+2), d)
            if det: r.v(det, b, uk, "single", x, z, lc)
        i[0] += 1
    g = lambda k: [w[k] for w in A]
    row("Temperatura", "°C", None, None, [24.6, 27.1, 25.2], "temperature", O, "°C"); row("pH", "unidades", "6.5 - 8.5", None, [7.41, 7.88, 7.56], "ph", O, "pH", 2); row("Conductividad eléctrica a 25 °C", "µS/cm", None, 5, g("ec25"), "conductivity", "25C", US, 0); row("Turbiedad", "UNT", 4, 0.1, [0.31, 0.22, 0.47], "turbidity", O, "NTU", 2); row("Color verdadero", "U Pt-Co", 15, 5, ["ND", "ND", "ND"]); row("Sólidos disueltos totales", "mg/L", 1000, 10, g("tds"), "tds", O, M, 0); row("Cloro residual libre", "mg/L", "0.2 - 1.5", 0.05, ["ND", "ND", 0.84], "chlorine_free", O, M, 2); row("Dureza total (como CaCO3)", "mg/L", 500, 2, g("hard"), "hardness_total", CA, M, 1); row("Dureza de calcio (como CaCO3)", "mg/L", None, 2, g("cah"), "hardness_calcium", CA, M, 1); row("Alcalinidad total (como CaCO3)", "mg/L", None, 2, g("alk"), "alkalinity", CA, M, 1)
    row("Bicarbonatos (como HCO3)", "mg/L", None, 2, g("hco3"), "bicarbonate", I, M, 0); row("Calcio", "mg/L", None, 0.1, g("ca"), "calcium", I, M, 1); row("Magnesio", "mg/L", None, 0.1, g("mg"), "magnesium", I, M, 1); row("Sodio", "mg/L", 200, 0.1, g("na"), "sodium", I, M, 1); row("Potasio", "mg/L", None, 0.1, g("k"), "potassium", I, M, 1); row("Cloruros (como Cl-)", "mg/L", 250, 1, g("cl"), "chloride", I, M, 1); row("Sulfatos (como SO4=)", "mg/L", 400, 1, g("so4"), "sulfate", I, M, 1); row("Fluoruros (como F-)", "mg/L", 1.5, 0.05, [0.62, 1.14, 0.71], "fluoride", I, M, 2); row("Nitrógeno de nitratos (N-NO3)", "mg/L", 11, 0.1, g("no3n"), "nitrate", N, M, 2); row("Nitrógeno de nitritos (N-NO2)", "mg/L", 0.9, 0.005, ["ND", "ND", "ND"], "nitrite", N, M, 3); row("Nitrógeno amoniacal (N-NH3)", "mg/L", 0.5, 0.05, ["ND", 0.11, "ND"], "ammonium", N, M, 2)
    row("SAAM", "mg/L", 0.5, 0.05, ["ND", "ND", "ND"]); row("Sílice (como SiO2)", "mg/L", None, 0.5, [61.2, 74.8, 64.0], "silica", "SiO2", M, 1); row("Aluminio", "mg/L", 0.2, 0.02, ["ND", "ND", "ND"], "aluminium", I, M, 3); row("Arsénico", "mg/L", 0.01, 0.001, [0.0042, 0.0088, 0.0051], d=4); row("Boro", "mg/L", 2.4, 0.05, [0.18, 0.34, 0.21], "boron", I, M, 2); row("Cobre", "mg/L", 2, 0.01, ["ND", "ND", 0.014], "copper", I, M, 3); row("Hierro", "mg/L", 0.3, 0.02, ["ND", 0.041, "ND"], "iron", I, M, 3); row("Manganeso", "mg/L", 0.15, 0.005, [0.006, "ND", "ND"], "manganese", I, M, 3); row("Plomo", "mg/L", 0.01, 0.001, ["ND", "ND", "ND"], "lead", I, M, 3); row("Zinc", "mg/L", None, 0.01, [0.022, 0.018, 0.035], "zinc", I, M, 3)
    s.cell(i[0]+1, 1, "ND: no detectado (menor que LC, límite de cuantificación)."); s.column_dimensions["A"].width = 36; wb.save(f"{T}/organismo-agua-tepalcatillo.xlsx"); soffice(f"{T}/organismo-agua-tepalcatillo.xlsx", "ods", D); r.done()

def r23():  # Chile, html, averages by year
    Z = ["2022", "2023", "2024"]; r = R("sanitaria-rio-quelmahue.html", "es", Z, ["alkalinity", "ammonium"]); A = [water(71.2*k, 11.4*k, 38.3*k, 2.6*k, 48.8*k, 118.2*k, 8.8*k) for k in (.96, 1, 1.05)]
    h = ["""<html><head><meta charset="utf-8"><title>Sanitaria Río Quelmahue - Calidad del agua</title></head><body><h1>Calidad del agua potable: localidad de Quelmahue</h1><p>Promedios anuales comparados con la norma NCh 409/1. Fono 600 555 0100, horario 24 horas.</p><table border=1><thead><tr><th>Parámetro</th><th>Expresado como</th><th>Unidad</th><th>Límite NCh 409</th><th colspan=3>Promedio anual</th></tr><tr><th></th><th></th><th></th><th></th><th>2022</th><th>2023</th><th>2024</th></tr></thead><tbody>"""]
    def row(lab, e, u, lim, vals, det=None, b=None, uk=None):
        if det: [r.v(det, b, uk, "mean", x, z, opt=det == "ammonium") for x, z in zip(vals, Z)]
        h.append("<tr>" + "".join(f"<td>{html.escape(x)}</td>" for x in [lab, e, u, lim] + vals) + "</tr>\n")
    g = lambda k, d=1: [c(w[k], d) for w in A]
    row("Turbiedad", "", "UNT", "2", ["0,31", "0,28", "0,35"], "turbidity", O, "NTU"); row("Color verdadero", "", "Pt-Co", "20", ["<5", "<5", "<5"]); row("Amoníaco", "NH3", "mg/L", "1,5", ["<0,05", "<0,05", "<0,05"], "ammonium", I, M); row("Cloruro", "Cl", "mg/L", "400", g("cl"), "chloride", I, M); row("pH", "", "", "6,5<pH<8,5", ["7,62", "7,58", "7,66"], "ph", O, "pH"); row("Sulfato", "SO4", "mg/L", "500", g("so4"), "sulfate", I, M); row("Sólidos disueltos totales", "", "mg/L", "1500", g("tds", 0), "tds", O, M); row("Nitrato", "NO3", "mg/L", "50", g("no3"), "nitrate", I, M); row("Nitrito", "NO2", "mg/L", "3", ["<0,02", "<0,02", "0,03"], "nitrite", I, M)
    row("Fluoruro", "F", "mg/L", "1,5", ["0,61", "0,64", "0,60"], "fluoride", I, M); row("Cobre", "Cu", "mg/L", "2,0", ["<0,02", "0,03", "0,02"], "copper", I, M); row("Hierro", "Fe", "mg/L", "0,3", ["0,04", "<0,03", "0,05"], "iron", I, M); row("Manganeso", "Mn", "mg/L", "0,1", ["<0,01"]*3, "manganese", I, M); row("Magnesio", "Mg", "mg/L", "125", g("mg"), "magnesium", I, M); row("Zinc", "Zn", "mg/L", "3,0", ["<0,01", "0,02", "<0,01"], "zinc", I, M); row("Plomo", "Pb", "mg/L", "0,05", ["<0,005"]*3, "lead", I, M); row("Arsénico", "As", "mg/L", "0,01", ["0,004", "0,005", "0,004"]); row("Cloro libre residual", "", "mg/L", "0,2 a 2,0", ["0,71", "0,68", "0,74"], "chlorine_free", O, M)
    h.append("</tbody></table><h2>Otros parámetros de interés (no normados)</h2><table border=1><tr><th>Parámetro</th><th>Expresado como</th><th>Unidad</th><th>2022</th><th>2023</th><th>2024</th></tr>")
    def row2(lab, e, u, vals, det, b, uk): [r.v(det, b, uk, "mean", x, z) for x, z in zip(vals, Z)]; h.append("<tr>" + "".join(f"<td>{x}</td>" for x in [lab, e, u] + vals) + "</tr>\n")
    row2("Dureza total", "CaCO3", "mg/L", g("hard", 0), "hardness_total", CA, M); row2("Alcalinidad total", "", "mg/L", g("alk", 0), "alkalinity", CA, M); row2("Calcio", "Ca", "mg/L", g("ca"), "calcium", I, M); row2("Sodio", "Na", "mg/L", g("na"), "sodium", I, M); row2("Potasio", "K", "mg/L", g("k"), "potassium", I, M); row2("Sílice", "SiO2", "mg/L", ["21,4", "22,0", "20,9"], "silica", "SiO2", M); row2("Conductividad", "a 25 &deg;C", "&micro;S/cm", g("ec25", 0), "conductivity", "25C", US); row2("Temperatura", "", "&deg;C", ["15,1", "15,4", "14,8"], "temperature", O, "°C")
    h.append("</table><p>Las muestras se toman según el programa aprobado. Valores con el signo &lt; son menores que el límite de detección.</p></body></html>"); open(f"{D}/{r.file}", "w").write("".join(h)); r.done()

def r24():  # Colombia, pasted text, rows over two lines
    r = R("acueducto-villa-ruana.txt", "es", "Acueducto de Villa Ruana, punto 03 Escuela Central", ["nitrate", "nitrite", "phosphate", "conductivity"] if 0 else ["nitrate", "nitrite", "phosphate"]); w = water(9.2, 2.1, 6.6, 1.1, 7.9, 8.4, 2.3); v = lambda d, b, u, p: r.v(d, b, u, "single", p)
    open(f"{D}/{r.file}", "w").write(f"""EMPRESA DE ACUEDUCTO DE VILLA RUANA E.S.P. (ficticia)
Reporte de calidad del agua - Resolución 2115 de 2007
Acueducto de Villa Ruana, punto 03 Escuela Central
Fecha de toma: 2024-07-16   Hora: 08:20   Muestra No. 4471
Línea de atención (605) 555 0100, lunes a viernes de 7:30 a.m. a 5:00 p.m.

Característica   Unidades   Valor máximo aceptable   Resultado   Diagnóstico

Alcalinidad Total
  mg/L CaCO3   200   {v('alkalinity', CA, M, c(w['alk']))}   Aceptable
Aluminio
  mg/L Al3+   0,2   {v('aluminium', I, M, '0,08')}   Aceptable
Calcio
  mg/L Ca   60   {v('calcium', I, M, c(w['ca']))}   Aceptable
Cloro residual libre
  mg/L Cl2   0,3 - 2,0   {v('chlorine_free', O, M, '1,12')}   Aceptable
Cloruros
  mg/L Cl-   250   {v('chloride', I, M, c(w['cl']))}   Aceptable
Color aparente
  UPC   15   < 5   Aceptable
Conductividad a 25 °C
  µS/cm   1000   {v('conductivity', '25C', US, c(w['ec25']))}   Aceptable
COT (carbono orgánico total)
  mg/L COT   5,0   {v('toc', O, M, '1,3')}   Aceptable
Dureza Total
  mg/L CaCO3   300   {v('hardness_total', CA, M, c(w['hard']))}   Aceptable
Fluoruros
  mg/L F-   1,0   {v('fluoride', I, M, '< 0,10')}   Aceptable
Fosfatos
  mg/L   0,5   {v('phosphate', I, M, '< 0,06')}   Aceptable
Hierro Total
  mg/L Fe   0,3   {v('iron', I, M, '0,07')}   Aceptable
Magnesio
  mg/L Mg   36   {v('magnesium', I, M, c(w['mg']))}   Aceptable
Manganeso
  mg/L Mn   0,1   {v('manganese', I, M, '< 0,02')}   Aceptable
Nitratos
  mg/L   10   {v('nitrate', I, M, c(w['no3']))}   Aceptable
Nitritos
  mg/L   0,1   {v('nitrite', I, M, '< 0,01')}   Aceptable
pH
  Unidades de pH   6,5 - 9,0   {v('ph', O, 'pH', '7,28')}   Aceptable
Sulfatos
  mg/L SO4=   250   {v('sulfate', I, M, c(w['so4']))}   Aceptable
Turbiedad
  UNT   2,0   {v('turbidity', O, 'NTU', '0,64')}   Aceptable
Zinc
  mg/L Zn   3,0   {v('zinc', I, M, '< 0,05')}   Aceptable
Coliformes Totales
  UFC/100 mL   0   0   Aceptable

IRCA de la muestra: 0,0 % (sin riesgo). Próximo muestreo: 2024-08-13.
"""); r.done()
if __name__ == "__main__":
    for f in (r1, r2, r3, r4, r5, r6, r7, r8, r9, r10, r11, r12, r13, r14, r15, r16, r17, r18, r19, r20, r21, r22, r23, r24): f()
