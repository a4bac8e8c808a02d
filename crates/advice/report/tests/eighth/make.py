"""Makes the reports of this folder: those of an eighth round that taught something, read once before anything was mended on them.
The numbers are drawn anew in the order of the reports, and each expectation is written with its report.

python make.py, with groff, an office, weasyprint, fpdf2, openpyxl and others. All waters, places and works are invented.
"""
import os, sys
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "common"))
from kit import *
rnd.seed(81808)
import weasyprint, csv, io
ph = lambda x, d=2, c=False: [n(x-.22+.1*rnd.random(), d, c), n(x, d, c), n(x+.15+.1*rnd.random(), d, c)]
def bd(x): return [x, x, x]
def weasy(h, out): weasyprint.HTML(string=h).write_pdf(f"{D}/{out}.pdf")

# 1 ---- UK zone page pasted as text
def uk():
    w = water(44.6, 5.9, 17.2, 2.4, 27.8, 38.4, 19.6)
    r = R("hollinbeck-zone-paste.txt", "en", "Hollinbeck South (WZ214)")
    L = []
    def row(name, unit, lim, vals, det=None, b=None, u=None, cnt=8, opt=False):
        if det:
            for s, p in zip(MMM, vals): r.v(det, b, u, s, p, opt=opt)
        L.append("\t".join([name, unit, lim, *vals, str(cnt), "0"]))
    H = n(w["hard"], 0); 
    head = f"""Skip to main content
Home   Your account   Help and advice   In your area   Emergencies

Water quality in your area
You searched for: HB7 4QX
Your water supply zone is Hollinbeck South (WZ214)
Population: 31,204
The information below covers samples taken between 1 January 2024 and 31 December 2024.

How hard is your water?
Your water is moderately hard.
The average hardness of the water in your zone in 2024 was:
Hardness (mg/l as Ca)\t{r.v('hardness_total','Ca',M,'mean',n(w['hard']*40.078/100.087,1))}
Hardness (mg/l as CaCO3)\t{r.v('hardness_total',CA,M,'mean',H)}
Clark degrees (°e)\t{r.v('hardness_total',O,'°e','mean',n(w['e'],1))}
French degrees (°f)\t{r.v('hardness_total',O,'°fH','mean',n(w['fH'],1))}
German degrees (°dH)\t{r.v('hardness_total',O,'°dH','mean',n(w['dH'],1))}
Setting up a dishwasher? Most machines ask for German or Clark degrees. See our guide to limescale.

Your water quality report
We take samples from customers' taps chosen at random and from our treatment works. The table shows what we found.

"""
    L.append("\t".join(["Parameter","Units","Regulatory limit (PCV)","Minimum","Mean","Maximum","Total number of samples","Samples failing"]))
    row("Alkalinity as CaCO3","mg/l","-",tri(w["alk"],0),"alkalinity",CA,M,8)
    row("Aluminium","µg Al/l","200",["<6.0","11.2","24.9"],"aluminium",I,U,12)
    row("Ammonium","mg NH4/l","0.5",["<0.020","<0.020","0.031"],"ammonium",I,M,12)
    row("Arsenic","µg As/l","10",["<0.30","0.41","0.62"])
    row("Boron","mg B/l","1",["0.019","0.024","0.031"],"boron",I,M)
    row("Calcium","mg Ca/l","-",tri(w["ca"],1),"calcium",I,M)
    row("Chloride","mg Cl/l","250",tri(w["cl"],1),"chloride",I,M)
    row("Clostridium perfringens","number/100ml","0",["0","0","0"],cnt=36)
    row("Coliform bacteria","number/100ml","0",["0","0","0"],cnt=84)
    row("Colour","mg/l Pt/Co","20",["<0.9","1.1","2.3"],cnt=12)
    row("Conductivity at 20°C","µS/cm","2500",tri(w["ec20"],0,lo=.93,hi=1.06),"conductivity","20C",US,36)
    row("Copper","mg Cu/l","2",["0.0021","0.0384","0.1410"],"copper",I,M)
    row("E. coli","number/100ml","0",["0","0","0"],cnt=84)
    row("Fluoride","mg F/l","1.5",["0.081","0.104","0.122"],"fluoride",I,M)
    row("Hydrogen ion (pH)","pH value","6.5 - 9.5",ph(7.58),"ph",O,"pH",36)
    row("Iron","µg Fe/l","200",["<8.0","12.7","46.3"],"iron",I,U,12)
    row("Lead","µg Pb/l","10",["<0.20","0.37","1.84"],"lead",I,U)
    row("Magnesium","mg Mg/l","-",tri(w["mg"],2),"magnesium",I,M)
    row("Manganese","µg Mn/l","50",["<0.60","1.42","4.90"],"manganese",I,U,12)
    row("Nickel","µg Ni/l","20",["<0.8","1.3","2.6"])
    row("Nitrate","mg NO3/l","50",tri(w["no3"],1),"nitrate",I,M)
    row("Nitrite","mg NO2/l","0.5",["<0.0040","<0.0040","0.0130"],"nitrite",I,M)
    row("Nitrite/Nitrate formula","-","1",["0.35","0.39","0.44"])
    row("Odour (quantitative)","dilution number","No abnormal change",["0","0","0"],cnt=12)
    row("Pesticides - total","µg/l","0.5",["0.000","0.012","0.027"])
    row("Phosphorus","µg P/l","-",["712","905","1080"],"phosphorus_total",P,U)
    row("Potassium","mg K/l","-",tri(w["k"],2),"potassium",I,M)
    row("Residual chlorine - free","mg Cl2/l","-",["0.11","0.38","0.62"],"chlorine_free",O,M,84)
    row("Residual chlorine - total","mg Cl2/l","-",["0.18","0.46","0.71"],"chlorine_total",O,M,84)
    row("Sodium","mg Na/l","200",tri(w["na"],1),"sodium",I,M)
    row("Sulphate","mg SO4/l","250",tri(w["so4"],1),"sulfate",I,M)
    row("Total organic carbon","mg C/l","No abnormal change",["0.8","1.4","2.1"],"toc",O,M,12)
    row("Trihalomethanes - total","µg/l","100",["14.2","27.9","41.3"])
    row("Turbidity","NTU","4",["<0.08","0.11","0.29"],"turbidity",O,"NTU",36)
    row("Zinc","mg Zn/l","-",["0.0043","0.0188","0.0512"],"zinc",I,M)
    tail = """
What do these units mean?
mg/l - milligrams per litre, or one part in a million
µg/l - micrograms per litre, or one part in a thousand million
PCV - prescribed concentration or value
< means the result is below the smallest amount the laboratory can measure

Was this page helpful?  Yes  No
Northmarle Water Limited. Registered office: Culvert House, Hollinbeck.
Privacy   Cookies   Accessibility
"""
    open(f"{D}/{r.file}","w").write(head+"\n".join(L)+"\n"+tail); r.done()
uk()

# 4 ---- New Zealand, LaTeX
def nz():
    A = water(11.8, 3.9, 12.6, 1.5, 11.4, 7.2, .62*4.4266); B = water(23.4, 7.7, 17.8, 2.1, 19.6, 11.3, 2.84*4.4266); C = water(6.4, 1.7, 6.9, .8, 6.1, 3.4, .07*4.4266)
    Z = ["Tawai Flat", "Kahika Downs", "Upper Mangarua"]; W = [A,B,C]
    r = R("waikorere-district-chemistry.pdf", "en", Z)
    X = []
    def row(name, unit, mav, det, b, u, vals):
        for z, p in zip(Z, vals):
            if det: r.v(det,b,u,"single",p,z)
        X.append(" & ".join([name, unit, mav] + ["$<$ "+p[1:].strip() if p.startswith("<") else p for p in vals]) + r" \\")
    T = lambda k, d=1: [n(w[k], d) for w in W]
    g = r"g/m\textsuperscript{3}"; gc = g + r" as CaCO\textsubscript{3}"
    row("Turbidity","NTU","5 (AV)","turbidity",O,"NTU",["0.14","0.09","0.31"])
    row("pH","pH Units","7.0 -- 8.5 (AV)","ph",O,"pH",["7.6","7.4","7.8"])
    row("Total Alkalinity",gc,"-","alkalinity",CA,M,T("alk",0))
    row("Bicarbonate",g+r" at 25\textdegree C","-","bicarbonate",I,M,T("hco3",0))
    row("Free Carbon Dioxide",g+r" at 25\textdegree C","-",None,O,O,["1.9","5.8","0.7"])
    row("Total Hardness",gc,"200 (AV)","hardness_total",CA,M,T("hard",0))
    row("Electrical Conductivity (EC)","mS/m","-","conductivity",O,"mS/m",[n(w["ec25"]/10,1) for w in W])
    row("Approx. Total Dissolved Salts",g,"1000 (AV)","tds",O,M,[n(w["ec25"]*.67,0) for w in W])
    row("Total Boron",g,"2.4","boron",I,M,["0.012","0.027","< 0.005"])
    row("Total Calcium",g,"-","calcium",I,M,T("ca"))
    row("Total Copper",g,"2","copper",I,M,["0.0017","0.0241","0.0008"])
    row("Total Iron",g,"0.3 (AV)","iron",I,M,["< 0.02","< 0.02","0.04"])
    row("Total Lead",g,"0.01","lead",I,M,["< 0.0001","0.0004","0.0001"])
    row("Total Magnesium",g,"-","magnesium",I,M,T("mg",2))
    row("Total Manganese",g,"0.4","manganese",I,M,["0.0009","0.0031","0.0062"])
    row("Total Potassium",g,"-","potassium",I,M,T("k",2))
    row("Total Sodium",g,"200 (AV)","sodium",I,M,T("na"))
    row("Total Zinc",g,"1.5 (AV)","zinc",I,M,["0.0034","0.0117","0.0021"])
    row("Reactive Silica",g+r" as SiO\textsubscript{2}","-","silica","SiO2",M,["17.2","31","9.8"])
    row("Chloride",g,"250 (AV)","chloride",I,M,T("cl"))
    row("Fluoride",g,"1.5","fluoride",I,M,["0.07","0.11","< 0.05"])
    row("Total Ammoniacal-N",g,"-","ammonium",N,M,["< 0.010","< 0.010","< 0.010"])
    row("Nitrite-N",g,"0.9","nitrite",N,M,["< 0.002","< 0.002","< 0.002"])
    row("Nitrate-N",g,"11.3","nitrate",N,M,T("no3n",2))
    row("Sulphate",g,"250 (AV)","sulfate",I,M,T("so4"))
    row("Total Organic Carbon (TOC)",g,"-","toc",O,M,["0.7","< 0.5","1.1"])
    def gr(x):
        for a,b in (("\\textsuperscript{3}","\\[S3]"),("\\textsubscript{3}","3"),("\\textsubscript{2}","2"),("\\textdegree C","\\[de]C"),("$<$","<"),(r" \\\\",""),(" -- ","\\[en]")): x = x.replace(a,b)
        return x.rstrip("\\ ").replace(" & ","@")
    doc = """.nr PS 9
.nr VS 11
.nr PO 1.7c
.nr LL 17.6c
.fam H
.TL
Public drinking water supplies: chemistry of treated water
.AU
Waikorere District Council, Three Waters
.LP
Samples were taken at the treatment plants on 14 May 2024 (Tawai Flat, Kahika Downs) and 15 May 2024 (Upper Mangarua) and analysed by an accredited laboratory. MAV = maximum acceptable value under the Drinking Water Standards; AV = aesthetic value.
.TS
allbox tab(@);
lb lb lb rb rb rb
l l l r r r.
Determinand@Units@MAV / AV@Tawai Flat@Kahika Downs@Upper Mangarua
""" + "\n".join(gr(x) for x in X) + """
.TE
.LP
.B Notes
.LP
1 g/m\\[S3] is the same as 1 mg/L. Water with a hardness under 100 is regarded as soft.
.LP
Plumbosolvency: run your tap until it fills a 500 mL container before drawing water for drinking each morning.
.LP
Queries: Customer Services, 0800 000 417, 12 Ferry Street, Waikorere.
"""
    open(f"{T0}/nz.ms","w").write(doc)
    ps = subprocess.run(["groff","-k","-t","-ms","-Tps","-P-pa4",f"{T0}/nz.ms"],check=True,capture_output=True); print(ps.stderr.decode()[:300]); open(f"{T0}/nz.ps","wb").write(ps.stdout)
    subprocess.run(["ps2pdf",f"{T0}/nz.ps",f"{D}/waikorere-district-chemistry.pdf"],check=True); r.done()
T0 = T
nz()

import weasyprint, csv, io, openpyxl
from openpyxl.styles import Font, Alignment, Border, Side, PatternFill
from openpyxl.utils import get_column_letter as CL
T0 = T
def weasy(h, out): weasyprint.HTML(string=h).write_pdf(f"{D}/{out}.pdf")
c_ = lambda x, d=1: n(x, d, True)

# 7 ---- Stadtwerke PDF, a column per waterworks
def stadtwerk():
    W = [water(88.4, 16.2, 12.7, 1.9, 24.6, 41.3, 17.8), water(52.3, 9.8, 8.4, 1.3, 13.9, 26.7, 8.3), water(108.6, 21.7, 18.9, 2.8, 39.8, 68.4, 27.6)]
    Z = ["WW Erlenau", "WW Hohe Birke", "WW Quellrain"]
    r = R("stadtwerke-obertalingen-trinkwasseranalyse-2024.pdf", "de", Z); X = []
    def grp(t): X.append(f'<tr class="g"><td colspan="6">{t}</td></tr>')
    def row(name, unit, gw, det, b, u, vals, opt=False):
        for z, p in zip(Z, vals):
            if det: r.v(det,b,u,"mean",p,z,opt=opt)
        X.append(f"<tr><td>{name}</td><td>{unit}</td><td>{gw}</td>"+"".join(f"<td>{html.escape(p)}</td>" for p in vals)+"</tr>")
    K = lambda k, d=1: [c_(w[k], d) for w in W]
    grp("Allgemeine Parameter")
    row("Wassertemperatur","°C","–","temperature",O,"°C",["11,2","10,4","11,8"])
    row("pH-Wert","","6,5 – 9,5","ph",O,"pH",["7,48","7,71","7,36"])
    row("Elektrische Leitfähigkeit bei 25 °C","µS/cm","2790","conductivity","25C",US,K("ec25",0))
    row("Sauerstoff","mg/l","–","dissolved_oxygen",O,M,["8,9","9,7","7,4"])
    row("Trübung","NTU","1,0","turbidity",O,"NTU",["0,08","< 0,05","0,11"])
    row("Färbung (SAK 436 nm)","1/m","0,5",None,O,O,["< 0,1","< 0,1","< 0,1"])
    row("Säurekapazität bis pH 4,3","mmol/l","–","alkalinity","acid_capacity","mmol/L",K("ks",2))
    row("Basekapazität bis pH 8,2","mmol/l","–",None,O,O,["0,31","0,14","0,52"])
    row("Calcitlösekapazität","mg/l CaCO<sub>3</sub>","5",None,O,O,["-14,2","-3,1","-21,6"])
    row("Gesamter organischer Kohlenstoff (TOC)","mg/l","o. a. V.","toc",O,M,["0,6","0,4","0,9"])
    grp("Wasserhärte")
    row("Gesamthärte","°dH","–","hardness_total",O,"°dH",K("dH"))
    row("Summe Erdalkalien","mmol/l","–","hardness_total",O,"mmol/L",K("mmol",2))
    row("Karbonathärte","°dH","–","hardness_carbonate",O,"°dH",K("kh"))
    row("Härtebereich nach WRMG","","–",None,O,O,["hart" if w["mmol"]>2.5 else "mittel" for w in W])
    grp("Kationen")
    row("Ammonium","mg/l","0,50","ammonium",I,M,["< 0,01","< 0,01","0,02"])
    row("Calcium","mg/l","–","calcium",I,M,K("ca")); row("Eisen, gesamt","mg/l","0,200","iron",I,M,["0,012","< 0,005","0,021"])
    row("Kalium","mg/l","–","potassium",I,M,K("k")); row("Magnesium","mg/l","–","magnesium",I,M,K("mg"))
    row("Mangan","mg/l","0,050","manganese",I,M,["< 0,002","< 0,002","0,006"]); row("Natrium","mg/l","200","sodium",I,M,K("na"))
    grp("Anionen")
    row("Chlorid","mg/l","250","chloride",I,M,K("cl")); row("Fluorid","mg/l","1,5","fluoride",I,M,["0,11","0,08","0,14"])
    row("Hydrogencarbonat","mg/l","–","bicarbonate",I,M,K("hco3",0)); row("Kieselsäure (als SiO<sub>2</sub>)","mg/l","–","silica","SiO2",M,["9,4","7,1","12,6"])
    row("Nitrat","mg/l","50","nitrate",I,M,K("no3")); row("Nitrit","mg/l","0,50","nitrite",I,M,["< 0,01"]*3)
    row("ortho-Phosphat (als PO<sub>4</sub>)","mg/l","–","phosphate",I,M,["0,06","< 0,03","0,09"]); row("Sulfat","mg/l","250","sulfate",I,M,K("so4"))
    grp("Schwermetalle und sonstige Spurenstoffe")
    row("Aluminium","mg/l","0,200","aluminium",I,M,["< 0,005","0,009","< 0,005"]); row("Arsen","mg/l","0,010",None,O,O,["0,0012","< 0,0005","0,0019"])
    row("Blei","mg/l","0,010","lead",I,M,["< 0,001"]*3); row("Bor","mg/l","1,0","boron",I,M,["0,03","< 0,02","0,04"]); row("Cadmium","mg/l","0,0030",None,O,O,["< 0,0001"]*3)
    row("Kupfer","mg/l","2,0","copper",I,M,["0,003","0,002","0,005"]); row("Nickel","mg/l","0,020",None,O,O,["< 0,002"]*3); row("Uran","mg/l","0,010",None,O,O,["0,0014","0,0006","0,0027"])
    row("Zink","mg/l","–","zinc",I,M,["0,004","< 0,002","0,007"])
    h = f"""<style>@page{{size:A4;margin:1.4cm 1.6cm}}body{{font:8.6pt DejaVu Sans}}h1{{font-size:16pt;color:#00508c;margin:0 0 2px}}table{{width:100%;border-collapse:collapse;font-size:7.8pt}}th{{background:#00508c;color:#fff;padding:3px}}td{{padding:1.6px 4px;border-bottom:.4px solid #aaa}}td:nth-child(n+3),th:nth-child(n+3){{text-align:right}}.g td{{background:#dfeaf3;font-weight:bold}}p{{margin:3px 0;font-size:7.6pt}}</style>
<p>Stadtwerke Obertalingen GmbH · Am Pumpwerk 3 · Kundenservice 0800 55501</p><h1>Trinkwasseranalyse 2024</h1>
<p><b>Jahresmittelwerte 2024</b> der Wasserwerke. Welches Wasserwerk Sie versorgt, entnehmen Sie bitte dem Straßenverzeichnis auf Seite 2. Stand: Januar 2025</p>
<table><thead><tr><th style="text-align:left">Parameter</th><th style="text-align:left">Einheit</th><th>Grenzwert<br>TrinkwV</th>{''.join(f'<th>{z}</th>' for z in Z)}</tr></thead>{''.join(X)}</table>
<p>&lt; = unterhalb der Bestimmungsgrenze · o. a. V. = ohne anormale Veränderung · Das Trinkwasser wird nicht gechlort. Zur Vermeidung von Korrosion wird im WW Hohe Birke entsäuert.</p>
<p>Mikrobiologische Untersuchungen: Koloniezahl bei 22 °C und 36 °C, Escherichia coli, Enterokokken und coliforme Bakterien ohne Beanstandung.</p>
<div style="page-break-before:always"><h1>Straßenverzeichnis (Auszug)</h1><table><tr><th style="text-align:left">Straße</th><th style="text-align:left">Hausnr.</th><th>Wasserwerk</th></tr><tr><td>Ahornweg</td><td>alle</td><td>Erlenau</td></tr><tr><td>Brunnengasse</td><td>1 – 27</td><td>Hohe Birke</td></tr><tr><td>Brunnengasse</td><td>28 – 64</td><td>Quellrain</td></tr><tr><td>Zum Steinbruch</td><td>alle</td><td>Quellrain</td></tr></table></div>"""
    weasy(h, r.file[:-4]); r.done()
stadtwerk()

# 13 ---- Dutch quarterly PDF, via libreoffice from html
def dutch():
    w = water(49.6, 5.8, 19.7, 2.1, 31.4, 22.8, 4.7)
    r = R("waterkwaliteit-lindervoort-kwartaal-3.pdf","nl","Productielocatie Lindervoort"); X = []
    def row(name, unit, norm, cnt, vals, det=None, b=None, u=None):
        if det:
            for s,p in zip(["mean","min","max"], vals): r.v(det,b,u,s,p)
        X.append("<tr>"+"".join(f"<td><p style='margin:0'>{q}</p></td>" for q in [name,unit,norm,*map(html.escape,vals),str(cnt)])+"</tr>")
    def t(x,d=1,**k): a,m,z = tri(x,d,True,**(k or dict(lo=.95,hi=1.05))); return [m,a,z]
    def g(x): X.append(f"<tr bgcolor='#d9ead3'><td colspan='7'><p style='margin:0'><b>{x}</b></p></td></tr>")
    g("Bedrijfstechnische parameters")
    row("Temperatuur","°C","25",13,["12,4","11,6","13,5"],"temperature",O,"°C"); row("Zuurgraad","pH","7,0 - 9,5",13,["7,86","7,74","7,98"],"ph",O,"pH"); row("Geleidingsvermogen bij 20 °C","mS/m","125",13,t(w["ec20"]/10),"conductivity","20C","mS/m"); row("Zuurstof","mg/l","> 2",13,["9,1","8,4","9,8"],"dissolved_oxygen",O,"mg/L"); row("Troebelingsgraad","FTE","1",13,["0,07","< 0,05","0,14"],"turbidity",O,"NTU")
    row("Verzadigingsindex (SI)","","> -0,2",3,["0,12","0,05","0,19"]); row("Waterstofcarbonaat","mg/l","> 60",3,t(w["hco3"],0),"bicarbonate",I,M); row("Totale hardheid","mmol/l","> 1",3,t(w["mmol"],2),"hardness_total",O,"mmol/L"); row("Totale hardheid","°D","-",3,t(w["dH"]),"hardness_total",O,"°dH"); row("Organisch koolstof, totaal (TOC)","mg/l C","-",3,["1,6","1,4","1,9"],"toc",O,M)
    g("Anorganische stoffen")
    row("Ammonium","mg/l NH<sub>4</sub>","0,20",13,["< 0,02","< 0,02","0,03"],"ammonium",I,M); row("Calcium","mg/l Ca","-",3,t(w["ca"]),"calcium",I,M); row("Chloride","mg/l Cl","150",3,t(w["cl"]),"chloride",I,M); row("Fluoride","mg/l F","1,0",1,["0,06"]*3,"fluoride",I,M); row("Fosfaat, ortho","mg/l PO<sub>4</sub>","-",3,["0,08","0,05","0,11"],"phosphate",I,M)
    row("Kalium","mg/l K","-",3,t(w["k"]),"potassium",I,M); row("Magnesium","mg/l Mg","-",3,t(w["mg"]),"magnesium",I,M); row("Natrium","mg/l Na","150",3,t(w["na"]),"sodium",I,M); row("Nitraat","mg/l NO<sub>3</sub>","50",3,t(w["no3"],1),"nitrate",I,M); row("Nitriet","mg/l NO<sub>2</sub>","0,1",13,["< 0,007"]*3,"nitrite",I,M); row("Silicaat","mg/l Si","-",1,["7,2"]*3,"silica","Si",M); row("Sulfaat","mg/l SO<sub>4</sub>","150",3,t(w["so4"]),"sulfate",I,M)
    g("Metalen")
    row("Aluminium","µg/l Al","200",1,["< 5"]*3,"aluminium",I,U); row("Boor","mg/l B","0,5",1,["0,02"]*3,"boron",I,M); row("IJzer","µg/l Fe","200",13,["14","< 10","29"],"iron",I,U); row("Koper","µg/l Cu","2000",1,["1,1"]*3,"copper",I,U); row("Lood","µg/l Pb","5",1,["< 0,5"]*3,"lead",I,U); row("Mangaan","µg/l Mn","50",13,["< 5","< 5","8"],"manganese",I,U); row("Zink","µg/l Zn","3000",1,["< 3"]*3,"zinc",I,U)
    g("Microbiologie"); row("Bacteriën van de coligroep","kve/100 ml","0",26,["0","0","0"]); row("Escherichia coli","kve/100 ml","0",26,["0","0","0"]); row("Koloniegetal 22 °C","kve/ml","100",26,["1","0","9"])
    h = f"""<html lang="nl"><head><meta charset="utf-8"><style>@page{{size:21cm 29.7cm;margin:1.5cm}}body,td,th{{font-family:'DejaVu Sans';font-size:8pt}} td p, th p{{margin:0}}</style></head><body>
<p><font size="5"><b>Drinkwaterkwaliteit</b></font></p><p>Productielocatie <b>Lindervoort</b><br>Periode: 3e kwartaal 2024 (1 juli t/m 30 september)<br>Drinkwaterbedrijf Oosterlinde N.V.</p>
<p>Het drinkwater uit Lindervoort wordt geleverd in de gemeenten Lindervoort, Maarzele-Noord en Wissenberg. Het water is gezuiverd grondwater en wordt onthard. Er wordt geen chloor gebruikt.</p>
<table border="1" cellspacing="0" cellpadding="2" width="100%"><tr bgcolor="#274e13"><th><font color="#ffffff">Parameter</font></th><th><font color="#ffffff">Eenheid</font></th><th><font color="#ffffff">Wettelijke norm</font></th><th><font color="#ffffff">Gemiddelde</font></th><th><font color="#ffffff">Minimum</font></th><th><font color="#ffffff">Maximum</font></th><th><font color="#ffffff">Aantal</font></th></tr>{''.join(X)}</table>
<p>&lt; betekent: kleiner dan de rapportagegrens. kve = kolonievormende eenheden. Voor de vaatwasser: stel de hardheid in op {t.__call__(w['dH'],0)[0]} °D.</p><p>Vragen? Bel 0900-55501 (op werkdagen van 8.00 tot 17.30 uur).</p></body></html>"""
    h = h.replace(f"Voor de vaatwasser: stel de hardheid in op {n(w['dH'],0)} °D.", "Voor de vaatwasser: gebruik het gemiddelde in °D.")
    open(f"{T}/waterkwaliteit-lindervoort-kwartaal-3.html","w").write(h)
    soffice(f"{T}/waterkwaliteit-lindervoort-kwartaal-3.html","pdf:writer_pdf_Export",D,"HTML (StarWriter)"); r.done()
dutch()

# 15 ---- Spanish ayuntamiento PDF (fpdf2)
def spain():
    from fpdf import FPDF
    w = water(74.8, 22.6, 31.4, 2.7, 48.9, 71.3, 13.8)
    r = R("ayuntamiento-villarmosa-analisis-2024.pdf","es","Red Villarmosa del Monte, depósito El Calvario")
    p = FPDF(); p.add_font("D","", "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf"); p.add_font("D","B","/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf"); p.set_margins(16,14); p.set_auto_page_break(True,16); p.add_page()
    p.set_font("D","B",13); p.cell(0,7,"Ayuntamiento de Villarmosa del Monte",new_x="LMARGIN",new_y="NEXT"); p.set_font("D","",9.5); p.cell(0,5,"Concejalía de Aguas y Medio Ambiente",new_x="LMARGIN",new_y="NEXT"); p.ln(2)
    p.set_font("D","B",11); p.cell(0,6,"CALIDAD DEL AGUA DE CONSUMO HUMANO - ANÁLISIS COMPLETO",new_x="LMARGIN",new_y="NEXT"); p.set_font("D","",8.5)
    for t in ["Zona de abastecimiento: Villarmosa del Monte     Infraestructura: Depósito El Calvario","Punto de muestreo: Salida de depósito     Fecha de toma: 22/05/2024 10:15     Boletín: 2024/01873","Laboratorio: Analítica Brezoluna, S.L.     Calificación: AGUA APTA PARA EL CONSUMO"]: p.cell(0,4.6,t,new_x="LMARGIN",new_y="NEXT")
    p.ln(2); Wd = [74,36,32,36]
    def line(c,b=False,fill=False):
        p.set_font("D","B" if b else "",8); p.set_fill_color(220,230,240)
        for x,wd,al in zip(c,Wd,"LRCR"): p.cell(wd,4.6,x,border="B",align=al,fill=fill)
        p.ln(4.6)
    def grp(t): p.set_font("D","B",8.4); p.cell(0,6,t,new_x="LMARGIN",new_y="NEXT")
    def row(name, v_, unit, vp, det=None, b=None, u=None, opt=False):
        if det: r.v(det,b,u,"single",v_,opt=opt)
        line([name,v_,unit,vp])
    line(["Parámetro","Valor cuantificado","Unidad","Valor paramétrico"],True,True)
    grp("Parámetros microbiológicos"); row("Bacterias coliformes","0","UFC/100 mL","0"); row("Escherichia coli","0","UFC/100 mL","0"); row("Enterococo intestinal","0","UFC/100 mL","0"); row("Recuento de colonias a 22 °C","1","UFC/1 mL","100")
    grp("Parámetros organolépticos y de operación"); row("Color","< 2,0","mg/L Pt/Co","15"); row("Turbidez","0,30","UNF","4","turbidity",O,"NTU"); row("Olor a 25 °C","< 1","Índice dilución","3"); row("Cloro libre residual","0,58","mg/L","1,0","chlorine_free",O,M); row("Cloro combinado residual","0,07","mg/L","2,0","chloramine",O,M,opt=True); row("Temperatura","16,2","°C","-","temperature",O,"°C")
    grp("Parámetros indicadores"); row("pH","7,7","Unidades de pH","6,5 - 9,5","ph",O,"pH"); row("Conductividad a 20 °C",c_(w["ec20"],0),"µS/cm","2.500","conductivity","20C",US); row("Amonio","< 0,05","mg/L","0,50","ammonium",I,M); row("Bicarbonatos",c_(w["hco3"],0),"mg/L","-","bicarbonate",I,M); row("Calcio",c_(w["ca"]),"mg/L","-","calcium",I,M); row("Carbono orgánico total","0,9","mg/L","5,0","toc",O,M); row("Cloruro",c_(w["cl"]),"mg/L","250","chloride",I,M); row("Dureza total",c_(w["hard"],0),"mg/L CaCO3","-","hardness_total",CA,M); row("Dureza total",c_(w["fH"]),"°F (grados franceses)","-","hardness_total",O,"°fH")
    row("Hierro","12","µg/L","200","iron",I,U); row("Índice de Langelier","0,21","-","± 0,5"); row("Magnesio",c_(w["mg"]),"mg/L","-","magnesium",I,M); row("Manganeso","< 5,0","µg/L","50","manganese",I,U); row("Aluminio","27","µg/L","200","aluminium",I,U); row("Potasio",c_(w["k"]),"mg/L","-","potassium",I,M); row("Sodio",c_(w["na"]),"mg/L","200","sodium",I,M); row("Sulfato",c_(w["so4"]),"mg/L","250","sulfate",I,M)
    grp("Parámetros químicos"); row("Antimonio","< 1,0","µg/L","10"); row("Arsénico","1,3","µg/L","10"); row("Boro","0,06","mg/L","1,5","boron",I,M); row("Cobre","0,011","mg/L","2,0","copper",I,M); row("Fluoruro","0,21","mg/L","1,5","fluoride",I,M); row("Nitrato",c_(w["no3"]),"mg/L","50","nitrate",I,M); row("Nitrito","< 0,02","mg/L","0,50","nitrite",I,M); row("Plomo","< 1,0","µg/L","5,0","lead",I,U); row("Total plaguicidas","< 0,05","µg/L","0,50"); row("Trihalometanos (suma de 4)","31,4","µg/L","100"); row("Zinc","18","µg/L","-","zinc",I,U)
    p.ln(2); p.set_font("D","",7.6); p.multi_cell(0,4,"Valores paramétricos según el Real Decreto 3/2023, de 10 de enero. Los resultados precedidos de < son inferiores al límite de cuantificación del método. Las incertidumbres están a disposición del cliente. Más información en el tablón de anuncios o en el teléfono 955 500 114.")
    p.output(f"{D}/{r.file}"); r.done()
spain()

# 16 ---- Peru xlsx
def peru():
    Z = ["Salida PTAP Quilcarumi", "Reservorio R-3 Santa Inés", "Red Sector Los Molles"]
    W = [water(38.4,6.9,14.8,2.3,17.6,46.2,3.8), water(41.2,7.4,16.1,2.4,19.8,48.7,4.4), water(57.6,11.3,22.7,3.2,29.4,69.8,9.7)]
    r = R("eps-quilcarumi-control-calidad-2024.xlsx","es",Z); wb = openpyxl.Workbook(); ws = wb.active; ws.title = "FQ 2024"
    ws["A1"] = "EPS QUILCARUMI S.A. - GERENCIA OPERACIONAL"; ws["A2"] = "CONTROL DE CALIDAD DEL AGUA POTABLE - PROMEDIO ANUAL 2024"; ws["A3"] = "Departamento de Control de Calidad"
    for a in ("A1","A2"): ws[a].font = Font(bold=True,size=12)
    for k in (1,2,3): ws.merge_cells(start_row=k,start_column=1,end_row=k,end_column=7)
    hd = ["N°","Parámetro","Unidad","LMP (1)",*Z]
    for i,h in enumerate(hd,1):
        c = ws.cell(5,i,h); c.font = Font(bold=True,color="FFFFFF"); c.fill = PatternFill("solid",fgColor="1F4E78"); c.alignment = Alignment(wrap_text=True,horizontal="center",vertical="center")
    for k,wd in zip("ABCDEFG",(5,32,16,13,16,16,16)): ws.column_dimensions[k].width = wd
    y = [6]
    def row(name, unit, lmp, vals, f, det=None, b=None, u=None, opt=False):
        for i,x in enumerate([y[0]-5,name,unit,lmp],1): ws.cell(y[0],i,x)
        for i,(z,x) in enumerate(zip(Z,vals),5):
            c = ws.cell(y[0],i,x); c.number_format = f if not isinstance(x,str) else "General"; c.alignment = Alignment(horizontal="right")
            d = len(f.split(".")[1]) if "." in f else 0
            if det: r.v(det,b,u,"mean",x if isinstance(x,str) else f"{x:.{d}f}",z,opt=opt)
        y[0] += 1
    K = lambda k,d=1: [round(w[k],d) for w in W]
    row("Cloro residual libre","mg/L","≥ 0.5",[1.24,.97,.68],"0.00","chlorine_free",O,M); row("Turbiedad","UNT",5,[.62,.74,1.05],"0.00","turbidity",O,"NTU"); row("pH","Unidad de pH","6.5 - 8.5",[7.42,7.48,7.55],"0.00","ph",O,"pH"); row("Temperatura","°C","-",[15.2,16.1,17.4],"0.0","temperature",O,"°C"); row("Conductividad (25 °C)","µmho/cm",1500,K("ec25",0),"0","conductivity","25C",US); row("Sólidos totales disueltos","mg/L",1000,K("tds",0),"0","tds",O,M); row("Color","UCV Pt/Co",15,["< 5","< 5","< 5"],"0")
    row("Alcalinidad total","mg CaCO3/L","-",K("alk"),"0.0","alkalinity",CA,M); row("Dureza total","mg CaCO3/L",500,K("hard"),"0.0","hardness_total",CA,M); row("Dureza cálcica","mg CaCO3/L","-",K("cah"),"0.0","hardness_calcium",CA,M); row("Dureza magnésica","mg CaCO3/L","-",K("mgh"),"0.0","magnesium",CA,M,opt=True)
    row("Calcio","mg Ca/L","-",K("ca"),"0.0","calcium",I,M); row("Magnesio","mg Mg/L","-",K("mg"),"0.0","magnesium",I,M); row("Sodio","mg Na/L",200,K("na"),"0.0","sodium",I,M); row("Potasio","mg K/L","-",K("k"),"0.0","potassium",I,M); row("Cloruros","mg Cl-/L",250,K("cl"),"0.0","chloride",I,M); row("Sulfatos","mg SO4=/L",250,K("so4"),"0.0","sulfate",I,M); row("Nitratos","mg NO3/L",50,K("no3",2),"0.00","nitrate",I,M); row("Nitritos","mg NO2/L","3.00",["< 0.01","< 0.01",.02],"0.00","nitrite",I,M); row("Amoniaco","mg N/L",1.5,["< 0.05","< 0.05","< 0.05"],"0.00","ammonium",N,M)
    row("Aluminio","mg Al/L",.2,[.084,.071,.043],"0.000","aluminium",I,M); row("Hierro","mg Fe/L",.3,[.048,.056,.112],"0.000","iron",I,M); row("Manganeso","mg Mn/L",.4,[.009,.011,.024],"0.000","manganese",I,M); row("Cobre","mg Cu/L",2,["< 0.003",.004,.018],"0.000","copper",I,M); row("Zinc","mg Zn/L",3,[.012,.019,.061],"0.000","zinc",I,M); row("Plomo","mg Pb/L",.01,["< 0.002","< 0.002",.003],"0.000","lead",I,M); row("Boro","mg B/L",1.5,[.18,.19,.31],"0.00","boron",I,M); row("Flúor","mg F-/L",1,[.22,.23,.34],"0.00","fluoride",I,M); row("Arsénico","mg As/L",.01,[.004,.004,.006],"0.000")
    ws.cell(y[0]+1,1,"(1) LMP: Límite Máximo Permisible, Reglamento de la Calidad del Agua para Consumo Humano."); ws.cell(y[0]+2,1,"Número de muestras: 24 por punto de muestreo. Métodos según Standard Methods, 23.ª edición."); ws.cell(y[0]+3,1,"Jefe de laboratorio: firma y sello")
    w2 = wb.create_sheet("Bacteriológico"); 
    for row_ in [("Punto","Muestras","Coliformes totales (UFC/100 mL)","Coliformes termotolerantes (UFC/100 mL)","% cumplimiento"),(Z[0],52,0,0,100),(Z[1],52,0,0,100),(Z[2],104,0,0,100)]: w2.append(row_)
    wb.save(f"{D}/{r.file}"); r.done()
peru()
