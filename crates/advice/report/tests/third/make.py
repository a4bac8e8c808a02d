"""Makes the reports of this folder: a third round, read once before anything was mended on them.

python make.py [NUMBER...], with LaTeX, groff, an office, a browser and the modules reportlab, pymupdf, cairocffi, weasyprint,
typst, openpyxl, xlsxwriter, odfpy. All waters, places and works are invented.
"""
import os, subprocess, sys
sys.path.insert(0,os.path.dirname(os.path.abspath(__file__)))
from kit import *
import html as H
MMM=['min','mean','max']
esc=lambda x:str(x).replace('<','&lt;')
NA=None
def k(det,basis=None,unit='mg/L'): return (det,basis,unit)

def r01():  # Northern-Ireland-like zone page, Chromium print
    r=R('01-zone-annual.pdf','en','ZN0614 Ballyfern Tullamoy')
    w=W(24.6,5.2,14.1,1.9,21.8,22.4,5.6); a,b,c=three(w)
    g=lambda fn,d=1:[f(fn(x),d) for x in (a,b,c)]
    rows=[('Aluminium','µg Al/l','200',['11.2','26.1','64.0'],'36','0.00',None),
    ('Ammonium','mg NH4/l','0.5',['<0.008','0.011','0.034'],'36','0.00',k('ammonium','ion')),
    ('Boron','mg B/l','1',['0.009','0.012','0.016'],'8','0.00',k('boron','ion')),
    ('Chloride','mg Cl/l','250',g(lambda x:x.cl),'8','0.00',k('chloride','ion')),
    ('Colour','mg/l Pt/Co','20',['<1.0','1.3','3.1'],'36','0.00',None),
    ('Copper','mg Cu/l','2',['0.004','0.061','0.214'],'8','0.00',k('copper','ion')),
    ('Electrical Conductivity','µS/cm at 20°C','2500',g(lambda x:x.ec20,0),'36','0.00',k('conductivity','20C','µS/cm')),
    ('Fluoride','mg F/l','1.5',['<0.05','<0.05','0.06'],'8','0.00',k('fluoride','ion')),
    ('Free residual chlorine','mg/l','',['0.08','0.57','1.02'],'84','',k('chlorine_free')),
    ('Hydrogen ion (pH)','pH value','6.5 - 9.5',['7.02','7.38','7.91'],'36','0.00',k('ph',None,'pH')),
    ('Iron','µg Fe/l','200',['<7.0','18.3','91.2'],'36','0.00',k('iron','ion','µg/L')),
    ('Lead','µg Pb/l','10',['<0.10','0.62','4.10'],'8','0.00',k('lead','ion','µg/L')),
    ('Manganese','µg Mn/l','50',['<0.5','2.4','11.7'],'36','0.00',k('manganese','ion','µg/L')),
    ('Nitrate','mg NO3/l','50',g(lambda x:x.no3,2),'8','0.00',k('nitrate','ion')),
    ('Nitrite','mg NO2/l','0.5',['<0.005','<0.005','0.021'],'8','0.00',k('nitrite','ion')),
    ('Sodium','mg Na/l','200',g(lambda x:x.na),'8','0.00',k('sodium','ion')),
    ('Sulphate','mg SO4/l','250',g(lambda x:x.so4),'8','0.00',k('sulfate','ion')),
    ('Total trihalomethanes','µg/l','100',['21.0','48.4','79.5'],'8','0.00',None),
    ('Turbidity','NTU','4',['<0.06','0.12','0.44'],'36','0.00',k('turbidity',None,'NTU'))]
    h=''
    for n,u,p,v,s,fl,key in rows:
        v=r.cells(key,MMM,v); h+=tr([n,u,p]+v+[s,fl])
    hard=f'''<table><tr><th colspan=6>Water hardness (average)</th></tr>
    <tr><th>Calcium (mg/l)</th><th>Magnesium (mg/l)</th><th>Total Hardness (mg CaCO3/l)</th><th>Clark degrees</th><th>French degrees</th><th>German degrees</th></tr>
    <tr><td>{r.one('calcium','ion','mg/L','mean',f(w.ca))}</td><td>{r.one('magnesium','ion','mg/L','mean',f(w.mg))}</td><td>{r.one('hardness_total','CaCO3','mg/L','mean',f(w.caco3))}</td><td>{r.one('hardness_total',None,'°e','mean',f(w.clark,2))}</td><td>{r.one('hardness_total',None,'°fH','mean',f(w.fh,2))}</td><td>{r.one('hardness_total',None,'°dH','mean',f(w.dh,2))}</td></tr></table>'''
    html=f'''<html><head><meta charset=utf-8><style>body{{font:10px Arial}}td,th{{border:1px solid #999;padding:2px 4px}}table{{border-collapse:collapse;margin:8px 0}}</style></head><body>
    <h2>Tullamoy Water &ndash; Water Quality Report 2024</h2><p>Water supply zone: <b>ZN0614 Ballyfern Tullamoy</b> &nbsp; Population: 18,455</p>
    <p>Water hardness: Soft to slightly hard</p>
    <table><thead><tr><th rowspan=2>Parameter</th><th rowspan=2>Units</th><th rowspan=2>Regulatory limit (PCV)</th><th colspan=3>Concentration or value (all samples)</th><th rowspan=2>No. of samples in year</th><th rowspan=2>% of samples contravening</th></tr>
    <tr><th>Min.</th><th>Mean</th><th>Max.</th></tr></thead>{h}</table>{hard}<p>PCV: prescribed concentration or value. A dishwasher should be set to 1 for this zone.</p></body></html>'''
    chromium(html,r.path()); r.save()

def r02():  # US CCR, LaTeX brochure, prose, two columns
    r=R('02-ccr-brochure.pdf','en','Pine Ferry Water District')
    w=W(54.2,14.6,21.3,2.4,32.1,38.5,9.1)
    o=lambda *a:r.one(*a)
    S=r'''\documentclass[10pt]{article}\usepackage[margin=1.6cm]{geometry}\usepackage[T1]{fontenc}\usepackage[utf8]{inputenc}\usepackage{multicol,tabularx,booktabs}\usepackage{textcomp}\pagestyle{empty}\begin{document}
{\Large\bfseries Pine Ferry Water District}\\ {\large 2024 Consumer Confidence Report -- PWS ID 0000917 (invented)}
\begin{multicols}{2}
\subsection*{Where does my water come from?} Your drinking water comes from four wells, 210 to 340 feet deep, in the Alder Creek aquifer. We pumped 412 million gallons in 2024.
\subsection*{Is my water hard?} Yes. The hardness of your water averages @GPG@ grains per gallon, or @PPM@ ppm as calcium carbonate. Water above 7 grains per gallon is called hard.
\subsection*{Sodium} People on a low-sodium diet may like to know that our water held @NA@ ppm of sodium on average last year. The EPA guideline for such diets is 20 ppm.
\subsection*{Disinfection} We add chloramines. Chloramine can harm fish; ask your pet store how to remove it. The level must not fall below 0.2 ppm.
\subsection*{Important health information} Some people may be more vulnerable to contaminants. Nitrate in drinking water at levels above 10 ppm is a health risk for infants of less than six months of age. Call 1-800-555-0142 with questions.
\end{multicols}
\noindent\textbf{Inorganic contaminants}\\[2pt]
\begin{tabularx}{\textwidth}{@{}Xlllllll@{}}\toprule Contaminant & Year & Unit & MCL & MCLG & Level detected & Range & Violation \\ & & & & & (average) & (low -- high) & (Y/N)\\\midrule
Barium & 2023 & ppm & 2 & 2 & 0.051 & 0.044 -- 0.060 & N\\
Fluoride & 2023 & ppm & 4 & 4 & @F@ & N\\
Nitrate (as N) & 2024 & ppm & 10 & 10 & @NO3@ & N\\
Nitrite (as N) & 2024 & ppm & 1 & 1 & @NO2@ & N\\\bottomrule\end{tabularx}
\bigskip\noindent\textbf{Disinfectant residuals and by-products}\\[2pt]
\begin{tabularx}{\textwidth}{@{}Xlllllll@{}}\toprule Contaminant & Year & Unit & MCL & MCLG & Level detected & Range & Violation \\ & & & [MRDL] & [MRDLG] & (average) & (low -- high) & (Y/N)\\\midrule
Chloramines (as Cl\textsubscript{2}) & 2024 & ppm & [4] & [4] & @CLA@ & N\\
TTHM & 2024 & ppb & 80 & n/a & 22.4 & 11.9 -- 31.0 & N\\\bottomrule\end{tabularx}
\bigskip\noindent\textbf{Lead and copper (tap samples, 2023)}\\[2pt]
\begin{tabular}{@{}llllll@{}}\toprule Contaminant & Unit & Action level & MCLG & 90th percentile & Sites over AL\\\midrule
Copper & ppm & 1.3 & 1.3 & @CU@ & 0 of 30\\ Lead & ppb & 15 & 0 & @PB@ & 1 of 30\\\bottomrule\end{tabular}

\bigskip\noindent\textbf{Secondary and unregulated substances (2024)}\\[2pt]
\begin{tabular}{@{}lllll@{}}\toprule Substance & Unit & SMCL & Average & Range\\\midrule
@SEC@\bottomrule\end{tabular}

\smallskip\footnotesize ND: not detected. SMCL: secondary maximum contaminant level. 1 grain per gallon = 17.1 ppm.
\end{document}'''
    def mr(det,b,u,m,lo,hi):
        r.one(det,b,u,'mean',m); r.one(det,b,u,'min',lo); r.one(det,b,u,'max',hi); return f'{m} & {lo} -- {hi}'
    n=w.no3/4.4268
    rep={'GPG':o('hardness_total',None,'gpg','mean',f(w.gpg)),'PPM':o('hardness_total','CaCO3','mg/L','mean',f(w.caco3,0)),'NA':o('sodium','ion','mg/L','mean',f(w.na)),
    'F':mr('fluoride','ion','mg/L','0.22','0.18','0.27'),'NO3':mr('nitrate','N','mg/L',f(n,2),f(n*.7,2),f(n*1.4,2)),'NO2':o('nitrite','N','mg/L','mean','ND')+' & n/a','CLA':mr('chloramine',None,'mg/L','2.1','1.4','2.9'),
    'CU':o('copper','ion','mg/L','p90','0.31'),'PB':o('lead','ion','µg/L','p90','3.2')}
    sec=''
    for nme,u,l,det,b,un,m in [('Alkalinity (as CaCO\\textsubscript{3})','ppm','--','alkalinity','CaCO3','mg/L',f(w.alk,0)),('Calcium','ppm','--','calcium','ion','mg/L',f(w.ca)),('Chloride','ppm','250','chloride','ion','mg/L',f(w.cl)),
      ('Iron','ppb','300','iron','ion','µg/L','34'),('Magnesium','ppm','--','magnesium','ion','mg/L',f(w.mg)),('Manganese','ppb','50','manganese','ion','µg/L','8.1'),('pH','units','6.5--8.5','ph',None,'pH','7.6'),
      ('Potassium','ppm','--','potassium','ion','mg/L',f(w.k)),('Specific conductance','$\\mu$mho/cm at 25\\,\\textdegree C','--','conductivity','25C','µS/cm',f(w.ec25,0)),('Sulfate','ppm','250','sulfate','ion','mg/L',f(w.so4)),('Total dissolved solids','ppm','500','tds',None,'mg/L',f(w.tds,0))]:
        x=float(m); d=len(m.split('.')[1]) if '.' in m else 0; q=(0.97,1.04) if det=='ph' else (0.88,1.15)
        sec+=f'{nme} & {u} & {l} & {mr(det,b,un,m,f(x*q[0],d),f(x*q[1],d))}\\\\\n'
    rep['SEC']=sec
    for a,b in rep.items(): S=S.replace('@'+a+'@',b)
    open(TMP+'/02-ccr-brochure.tex','w').write(S)
    subprocess.run(['pdflatex','-interaction=batchmode','-output-directory',TMP,TMP+'/02-ccr-brochure.tex'],capture_output=True)
    os.replace(TMP+'/02-ccr-brochure.pdf',r.path()); r.save()

def r03():  # Canada bilingual xlsx, two plants
    from openpyxl import Workbook; from openpyxl.styles import Font
    A,B='North Shore Plant / Usine Rive-Nord','Mill Pond Wells / Puits de l’Étang'
    r=R('03-bilingual.xlsx','any',[A,B])
    w1=W(28.4,5.1,8.7,1.2,12.6,18.2,1.4); w2=W(71.0,22.3,14.8,2.2,29.5,33.0,13.7)
    wb=Workbook(); s=wb.active; s.title='2024'
    s['A1']='Town of Saint-Aubert-Lake — Ville du Lac-Saint-Aubert (invented)'; s['A1'].font=Font(bold=True)
    s['A2']='Treated water, annual averages 2024 / Eau traitée, moyennes annuelles 2024'
    s['A4'],s['B4'],s['C4'],s['E4'],s['G4']='Parameter / Paramètre','Units / Unités',A,B,'Guideline / Recommandation'
    s.merge_cells('C4:D4'); s.merge_cells('E4:F4'); s.merge_cells('G4:H4')
    for c,t in zip('CDEFGH',['Average / Moyenne','Maximum','Average / Moyenne','Maximum','MAC / CMA','AO / OE']): s[c+'5']=t
    i=6
    rows=[('Alkalinity (as CaCO3) / Alcalinité','mg/L',k('alkalinity','CaCO3'),lambda w:w.alk,0,'',''),
    ('Ammonia (as N) / Ammoniac','mg/L',k('ammonium','N'),None,['<0.01','0.03','<0.01','<0.01'],'',''),
    ('Calcium','mg/L',k('calcium','ion'),lambda w:w.ca,1,'',''),('Chloride / Chlorure','mg/L',k('chloride','ion'),lambda w:w.cl,1,'',250),
    ('Chlorine, free / Chlore libre','mg/L',k('chlorine_free'),None,['1.12','1.85','0.64','0.98'],'',''),
    ('Conductivity at 25 °C / Conductivité','µS/cm',k('conductivity','25C','µS/cm'),lambda w:w.ec25,0,'',''),
    ('Copper / Cuivre','µg/L',k('copper','ion','µg/L'),None,['21','64','112','240'],2000,1000),
    ('Hardness (as CaCO3) / Dureté','mg/L',k('hardness_total','CaCO3'),lambda w:w.caco3,0,'',''),
    ('Iron / Fer','µg/L',k('iron','ion','µg/L'),None,['<5','9','41','83'],'',100),
    ('Magnesium / Magnésium','mg/L',k('magnesium','ion'),lambda w:w.mg,1,'',''),
    ('Manganese / Manganèse','µg/L',k('manganese','ion','µg/L'),None,['1.2','3.8','14','22'],120,20),
    ('Nitrate (as N) / Nitrate (en N)','mg/L',k('nitrate','N'),lambda w:w.no3/4.4268,2,10,''),
    ('Nitrite (as N) / Nitrite (en N)','mg/L',k('nitrite','N'),None,['<0.003','<0.003','<0.003','0.005'],1,''),
    ('pH','pH units',k('ph',None,'pH'),None,['7.4','7.9','7.6','7.8'],'','7.0–10.5'),
    ('Sodium','mg/L',k('sodium','ion'),lambda w:w.na,1,'',200),('Sulphate / Sulfate','mg/L',k('sulfate','ion'),lambda w:w.so4,1,'',500),
    ('Temperature / Température','°C',k('temperature',None,'°C'),None,['9.8','21.3','8.9','9.6'],'',15),
    ('THMs (total) / THM','µg/L',None,None,['38','61','7','12'],100,'')]
    for n,u,key,fn,d,mac,ao in rows:
        s.cell(i,1,n); s.cell(i,2,u); s.cell(i,7,mac if mac!='' else None); s.cell(i,8,ao if ao!='' else None)
        v=d if fn is None else [f(fn(w1),d),f(fn(w1.x(1.12)),d),f(fn(w2),d),f(fn(w2.x(1.09)),d)]
        for j,(smp,st,x) in enumerate(zip([A,A,B,B],['mean','max']*2,v)):
            if key: r.one(*key,st,x,smp)
            c=s.cell(i,3+j)
            if x.startswith('<'): c.value=x
            else:
                c.value=float(x); dd=len(x.split('.')[1]) if '.' in x else 0; c.number_format='0' if not dd else '0.'+'0'*dd
        i+=1
    s.cell(i+1,1,'MAC: maximum acceptable concentration. AO: aesthetic objective. / CMA : concentration maximale acceptable. OE : objectif esthétique.')
    wb.save(r.path()); r.save()

def r04():  # German Stadtwerke, three works, reportlab
    from reportlab.platypus import SimpleDocTemplate,Table,Paragraph,Spacer; from reportlab.lib.styles import getSampleStyleSheet; from reportlab.lib.pagesizes import A4; from reportlab.lib import colors
    Z=['Wasserwerk Auental','Wasserwerk Birkholz','Wasserwerk Moorkamp']
    r=R('04-stadtwerke.pdf','de',Z)
    ws=[W(94.0,12.4,17.2,2.6,34.1,71.0,18.6),W(48.1,8.2,12.3,1.8,21.0,39.5,3.9),W(118.2,15.9,22.7,3.1,48.0,96.3,31.2)]
    o=lambda x,d=1:f(x,d,',')
    G=lambda fn,d=1:[o(fn(w),d) for w in ws]
    rows=[('Allgemeine Parameter',),
    ('Wassertemperatur','°C','–','–',['10,4','10,9','11,2'],k('temperature',None,'°C')),
    ('pH-Wert','–','6,5 – 9,5','–',['7,42','7,81','7,36'],k('ph',None,'pH')),
    ('El. Leitfähigkeit (25 °C)','µS/cm','2.790','1',[ (f'{w.ec25:.0f}' if w.ec25<1000 else f'{w.ec25/1000:.3f}', round(w.ec25)) for w in ws],k('conductivity','25C','µS/cm')),
    ('Säurekapazität bis pH 4,3','mmol/l','–','0,05',G(lambda w:w.m,2),k('alkalinity','acid_capacity','mmol/L')),
    ('Basekapazität bis pH 8,2','mmol/l','–','0,05',['0,41','0,11','0,55'],None),
    ('Gesamthärte','°dH','–','–',G(lambda w:w.dh),k('hardness_total',None,'°dH')),
    ('Gesamthärte','mmol/l','–','–',G(lambda w:w.th,2),k('hardness_total',None,'mmol/L')),
    ('Härtebereich nach WRMG','','–','–',['hart','mittel','hart'],None),
    ('Kationen',),
    ('Calcium','mg/l','–','0,5',G(lambda w:w.ca),k('calcium','ion')),('Magnesium','mg/l','–','0,2',G(lambda w:w.mg),k('magnesium','ion')),
    ('Natrium','mg/l','200','0,5',G(lambda w:w.na),k('sodium','ion')),('Kalium','mg/l','–','0,2',G(lambda w:w.k),k('potassium','ion')),
    ('Ammonium','mg/l','0,50','0,02',['< 0,02','0,04','< 0,02'],k('ammonium','ion')),
    ('Eisen','mg/l','0,200','0,010',['< 0,010','0,021','0,014'],k('iron','ion')),('Mangan','mg/l','0,050','0,005',['< 0,005','< 0,005','0,008'],k('manganese','ion')),
    ('Anionen',),
    ('Chlorid','mg/l','250','1',G(lambda w:w.cl),k('chloride','ion')),('Sulfat','mg/l','250','1',G(lambda w:w.so4),k('sulfate','ion')),
    ('Nitrat','mg/l','50','0,5',G(lambda w:w.no3),k('nitrate','ion')),('Nitrit','mg/l','0,50','0,01',['< 0,01','< 0,01','< 0,01'],k('nitrite','ion')),
    ('Nitrat/50 + Nitrit/3','mg/l','1','–',['0,37','0,08','0,62'],None),
    ('Phosphat, gesamt (als P)','mg/l','–','0,01',['0,03','0,35','0,02'],k('phosphorus_total','P')),
    ('Silicat (als SiO2)','mg/l','–','0,5',['11,8','9,4','13,0'],k('silica','SiO2')),
    ('Organische Stoffe',),('TOC','mg/l','–','0,3',['0,9','1,7','1,1'],k('toc')),('Uran','mg/l','0,010','0,0002',['0,0011','< 0,0002','0,0024'],None)]
    T=[['Parameter','Einheit','Grenzwert\nTrinkwV','Bestimmungs-\ngrenze','Auental','Birkholz','Moorkamp']]; st=[('GRID',(0,0),(-1,-1),.3,colors.grey),('FONTSIZE',(0,0),(-1,-1),8)]
    T[0][4:]=[z.replace(' ','\n') for z in Z]
    for x in rows:
        if len(x)==1: T.append([x[0]]+['']*6); st.append(('SPAN',(0,len(T)-1),(-1,len(T)-1))); continue
        n,u,g,bg,v,key=x
        T.append([n,u,g,bg]+[r.one(*key,'mean',y,z) if key else y for y,z in zip(v,Z)])
    ss=getSampleStyleSheet()
    SimpleDocTemplate(r.path(),pagesize=A4).build([Paragraph('Stadtwerke Hollerfeld (erfunden)',ss['Title']),Paragraph('Trinkwasserqualität – Jahresmittelwerte 2024 der Wasserwerke',ss['Heading2']),Table(T,style=st,repeatRows=1),Spacer(1,8),Paragraph('Die Angaben sind Mittelwerte der Untersuchungen des Jahres 2024. „&lt;“ bedeutet: kleiner als die Bestimmungsgrenze. Zugabe von Orthophosphat im Wasserwerk Birkholz.',ss['Normal'])])
    r.save()

def r05():  # Austrian municipal web page
    r=R('05-marktgemeinde.html','de','Tiefbrunnen Erlach')
    w=W(82.3,24.6,6.8,1.4,14.2,37.9,16.8); o=lambda x,d=1:f(x,d,',')
    q=r.one
    li=[('Entnahmestelle','Tiefbrunnen Erlach'),('Datum der Probenahme','14. Oktober 2024'),('Wassertemperatur',q('temperature',None,'°C','single','11,3')+' °C'),
    ('pH-Wert',q('ph',None,'pH','single','7,4')+' (Indikatorwert: 6,5 bis 9,5)'),
    ('Elektrische Leitfähigkeit (20 °C)',q('conductivity','20C','µS/cm','single',o(w.ec20,0))+' µS/cm (Indikatorwert: 2500)'),
    ('Gesamthärte',q('hardness_total',None,'°dH','single',o(w.dh))+' °dH'),('Carbonathärte',q('hardness_carbonate',None,'°dH','single',o(w.kh))+' °dH'),
    ('Säurekapazität bis pH 4,3',q('alkalinity','acid_capacity','mmol/L','single',o(w.m,2))+' mmol/l'),
    ('Hydrogencarbonat',q('bicarbonate','HCO3','mg/L','single',o(w.hco3,0))+' mg/l'),
    ('Calcium',q('calcium','ion','mg/L','single',o(w.ca))+' mg/l'),('Magnesium',q('magnesium','ion','mg/L','single',o(w.mg))+' mg/l'),
    ('Natrium',q('sodium','ion','mg/L','single',o(w.na))+' mg/l (Indikatorwert: 200 mg/l)'),('Kalium',q('potassium','ion','mg/L','single',o(w.k))+' mg/l'),
    ('Eisen','unter '+(r.one('iron','ion','mg/L','single','<0,01')[1:])+' mg/l (Indikatorwert: 0,2 mg/l)'),
    ('Mangan','&lt; '+r.one('manganese','ion','mg/L','single','<0,005')[1:]+' mg/l (Indikatorwert: 0,05 mg/l)'),
    ('Nitrat',q('nitrate','ion','mg/L','single',o(w.no3))+' mg/l (Parameterwert: 50 mg/l)'),('Nitrit','&lt; '+q('nitrite','ion','mg/L','single','<0,01')[1:]+' mg/l (Parameterwert: 0,1 mg/l)'),
    ('Ammonium','&lt; '+q('ammonium','ion','mg/L','single','<0,02')[1:]+' mg/l (Indikatorwert: 0,5 mg/l)'),
    ('Chlorid',q('chloride','ion','mg/L','single',o(w.cl))+' mg/l (Indikatorwert: 200 mg/l)'),('Sulfat',q('sulfate','ion','mg/L','single',o(w.so4))+' mg/l (Indikatorwert: 250 mg/l)'),
    ('Pestizide','nicht nachweisbar'),('Koloniezahl bei 22 °C','4 KBE/ml (Indikatorwert: 100)')]
    b='\n'.join(f'<li><strong>{a}:</strong> {c}</li>' for a,c in li)
    open(r.path(),'w').write(f'''<!DOCTYPE html><!-- saved from url=(0042)https://www.obererlach.example/wasser -->
<html lang="de-AT"><head><meta charset="utf-8"><title>Wasserversorgung | Marktgemeinde Obererlach (erfunden)</title><style>#cookie{{position:fixed}}</style><script>window.dataLayer=[{{"ph":9.9,"Nitrat":"49 mg/l"}}];</script></head><body>
<div id="cookie"><p>Diese Website verwendet 12 Cookies. <button>Alle akzeptieren</button> <button>Nur notwendige</button></p></div>
<header><nav><ul><li><a href="#">Bürgerservice</a></li><li><a href="#">Müllkalender 2025</a></li><li><a href="#">Wasser &amp; Kanal</a></li><li><a href="#">Tel. 07999 / 12 34</a></li></ul></nav></header>
<main><h1>Trinkwasser</h1><p>Die Wasserversorgung der Marktgemeinde Obererlach versorgt 1.240 Haushalte. Der Wasserzins beträgt 1,85 € je m³ (Stand 1.1.2025).</p>
<h2>Aktuelle Trinkwasserwerte</h2><ul class="werte">{b}</ul>
<p>Härtestufen: weich bis 8,4 °dH, mittel 8,4 bis 14 °dH, hart über 14 °dH. Unser Wasser zählt zur Stufe „hart“.</p></main>
<aside><h3>Nächste Termine</h3><table><tr><td>12.03.</td><td>Zählerablesung</td></tr><tr><td>18.03.</td><td>Rohrnetzspülung, 8 bis 14 Uhr</td></tr></table></aside>
<footer>Marktplatz 1, 4999 Obererlach · Amtsstunden Mo–Fr 8–12 Uhr · © 2025</footer></body></html>'''); r.save()

def r06():  # French lab bulletin, weasyprint
    import weasyprint
    r=R('06-bulletin.pdf','fr','UDI Les Trois Vallons')
    w=W(102.6,4.9,9.2,1.7,19.4,22.8,27.3); o=lambda x,d=1:f(x,d,',')
    q=lambda det,b,u,v:r.one(det,b,u,'single',v)
    C=[('CONTEXTE ENVIRONNEMENTAL',[("Température de l'eau",q('temperature',None,'°C','13,2')+' °C','','25')]),
    ('EQUILIBRE CALCO-CARBONIQUE',[('pH',q('ph',None,'pH','7,35')+' unité pH','','6,5 à 9'),("pH d'équilibre à la t° échantillon",'7,28 unité pH','',''),('Titre alcalimétrique','0,0 °f','',''),('Titre alcalimétrique complet',q('alkalinity','CaCO3','°fH',o(w.tac))+' °f','',''),('Titre hydrotimétrique',q('hardness_total',None,'°fH',o(w.fh))+' °f','',''),('Hydrogénocarbonates',q('bicarbonate','HCO3','mg/L',o(w.hco3,0))+' mg/L','',''),('Equilibre calcocarbonique 0/1/2/3/4','2','','1 à 2')]),
    ('MINERALISATION',[('Calcium',q('calcium','ion','mg/L',o(w.ca))+' mg/L','',''),('Chlorures',q('chloride','ion','mg/L',o(w.cl))+' mg/L','','250'),('Conductivité à 25°C',q('conductivity','25C','µS/cm',o(w.ec25,0))+' µS/cm','','200 à 1100'),('Magnésium',q('magnesium','ion','mg/L',o(w.mg))+' mg/L','',''),('Potassium',q('potassium','ion','mg/L',o(w.k))+' mg/L','',''),('Résidu sec à 180°C',q('tds',None,'mg/L',o(w.tds,0))+' mg/L','',''),('Silicates (en mg/L de SiO2)',q('silica','SiO2','mg/L','8,7')+' mg(SiO2)/L','',''),('Sodium',q('sodium','ion','mg/L',o(w.na))+' mg/L','','200'),('Sulfates',q('sulfate','ion','mg/L',o(w.so4))+' mg/L','','250')]),
    ('FER ET MANGANESE',[('Fer total',q('iron','ion','µg/L','<10')+' µg/L','','200'),('Manganèse total',q('manganese','ion','µg/L','<5')+' µg/L','','50')]),
    ('OXYGENE ET MATIERES ORGANIQUES',[('Carbone organique total',q('toc',None,'mg/L','0,7')+' mg(C)/L','','2'),('Oxygène dissous',q('dissolved_oxygen',None,'mg/L','9,1')+' mg/L','','')]),
    ('PARAMETRES AZOTES ET PHOSPHORES',[('Ammonium (en NH4)',q('ammonium','ion','mg/L','<0,05')+' mg/L','','0,1'),('Nitrates/50 + Nitrites/3','0,55 mg/L','1',''),('Nitrates (en NO3)',q('nitrate','ion','mg/L',o(w.no3))+' mg/L','50',''),('Nitrites (en NO2)',q('nitrite','ion','mg/L','<0,01')+' mg/L','0,5',''),('Phosphore total (en mg/L de P2O5)',q('phosphorus_total','P2O5','mg/L','0,11')+' mg(P2O5)/L','','')]),
    ('RESIDUEL TRAITEMENT DE DESINFECTION',[('Chlore libre',q('chlorine_free',None,'mg/L','0,21')+' mg(Cl2)/L','',''),('Chlore total',q('chlorine_total',None,'mg/L','0,26')+' mg(Cl2)/L','','')]),
    ('OLIGO-ELEMENTS ET MICROPOLLUANTS M.',[('Bore mg/L',q('boron','ion','mg/L','0,018')+' mg/L','1,5',''),('Cuivre',q('copper','ion','mg/L','0,034')+' mg/L','2','1'),('Plomb',q('lead','ion','µg/L','<1')+' µg/L','10',''),('Arsenic','<1 µg/L','10','')])]
    h=''.join(f'<tr class=c><td colspan=4>{c}</td></tr>'+''.join(tr(x) for x in rows) for c,rows in C)
    weasyprint.HTML(string=f'''<style>@page{{size:A4;margin:1.2cm}}body{{font:8.5pt DejaVu Sans}}table{{width:100%;border-collapse:collapse}}td,th{{border:.5pt solid #888;padding:1pt 3pt}}.c{{background:#dde;font-weight:bold}}</style>
    <h3>Contrôle sanitaire des eaux destinées à la consommation humaine</h3><p>Unité de gestion : SIAEP DU VAL D'ORCE (fictif)<br>Installation : UDI Les Trois Vallons<br>Point de surveillance : Bourg – mairie, robinet cuisine<br>Prélevé le : 06/11/2024 à 08h52 &nbsp; Type d'analyse : D2</p>
    <table><tr><th>Analyse</th><th>Résultat</th><th>Limite de qualité</th><th>Référence de qualité</th></tr>{h}</table>
    <p><b>Conclusion sanitaire</b> : Eau d'alimentation conforme aux exigences de qualité en vigueur pour l'ensemble des paramètres mesurés. La teneur en nitrates reste inférieure à 50 mg/L.</p>''').write_pdf(r.path()); r.save()

def r07():  # Wallonia latin-1 csv: zone annual
    r=R('07-zone-distribution.csv','fr','ZD 217 – Haut-Plateau')
    w=W(61.4,9.8,11.2,1.5,22.7,31.0,19.9); o=lambda x,d=1:f(x,d,','); ww=three(w,.9,1.1)
    G=lambda fn,d=1:[o(fn(x),d) for x in ww]
    rows=[('Paramètres microbiologiques','','','','','',''),('Escherichia coli','/100 ml','0','48','0','0','0',None)]
    L=["Société des eaux du Plateau (fictive)","Zone de distribution : ZD 217 – Haut-Plateau","Période : 01/01/2024 au 31/12/2024","","Paramètre;Unité;Norme;Nombre d'analyses;Minimum;Moyenne;Maximum"]
    for n,u,no,cnt,v,key in [('Escherichia coli','/100 ml','0','48',['0','0','0'],None),('Aluminium','µg/l','200','12',['<5','8','21'],None),
     ('Ammonium','mg/l NH4','0,50','48',['<0,03','<0,03','0,05'],k('ammonium','ion')),('Calcium','mg/l','','12',G(lambda x:x.ca),k('calcium','ion')),('Chlorures','mg/l','250','12',G(lambda x:x.cl),k('chloride','ion')),
     ('Chlore libre résiduel','mg/l','0,25','48',['<0,02','0,07','0,19'],k('chlorine_free')),('Conductivité à 20 °C','µS/cm','2500','48',G(lambda x:x.ec20,0),k('conductivity','20C','µS/cm')),
     ('Cuivre','µg/l','2000','12',['14','96','410'],k('copper','ion','µg/L')),('Dureté totale','°fr','67,5','12',G(lambda x:x.fh),k('hardness_total',None,'°fH')),('Titre alcalimétrique complet (TAC)','°fr','','12',G(lambda x:x.tac),k('alkalinity','CaCO3','°fH')),
     ('Fer','µg/l','200','12',['<10','<10','32'],k('iron','ion','µg/L')),('Magnésium','mg/l','50','12',G(lambda x:x.mg),k('magnesium','ion')),('Manganèse','µg/l','50','12',['<2','<2','4'],k('manganese','ion','µg/L')),
     ('Nitrates','mg/l NO3','50','12',G(lambda x:x.no3),k('nitrate','ion')),('Nitrites','mg/l NO2','0,50','12',['<0,01','<0,01','0,02'],k('nitrite','ion')),('pH','Unités pH','6,5 - 9,5','48',['7,3','7,6','7,9'],k('ph',None,'pH')),('Plomb','µg/l','10','12',['<1','<1','3'],k('lead','ion','µg/L')),
     ('Potassium','mg/l','','12',G(lambda x:x.k),k('potassium','ion')),('Sodium','mg/l','200','12',G(lambda x:x.na),k('sodium','ion')),('Sulfates','mg/l','250','12',G(lambda x:x.so4),k('sulfate','ion')),('Turbidité','NTU','4','48',['0,1','0,2','0,6'],k('turbidity',None,'NTU')),('Total THM','µg/l','100','12',['2,1','4,8','9,6'],None)]:
        L.append(';'.join([n,u,no,cnt]+r.cells(key,MMM,v)))
    open(r.path(),'wb').write('\r\n'.join(L).encode('cp1252')); r.save()

def r08():  # Flanders ods, determinands across
    from odf.opendocument import OpenDocumentSpreadsheet; from odf.table import Table,TableRow,TableCell; from odf.text import P
    Z=['Leeuwerve centrum','Oud-Haspel','Zandbeke','Zuurmolen']
    r=R('08-leveringsgebieden.ods','nl',Z)
    ws=[W(92.4,10.1,21.6,3.4,41.0,52.2,8.7),W(60.8,7.7,15.4,2.2,28.3,33.9,2.6),W(112.6,13.3,18.9,2.0,37.2,71.5,22.4),W(38.2,6.0,25.2,4.1,24.8,29.3,1.1)]
    o=lambda x,d=1:f(x,d,','); doc=OpenDocumentSpreadsheet(); t=Table(name='2024'); doc.spreadsheet.addElement(t)
    def row(cs):
        e=TableRow(); t.addElement(e)
        for c in cs:
            c=str(c); x=c.replace(',','.')
            try: v=float(x); ce=TableCell(valuetype='float',value=x)
            except ValueError: ce=TableCell(valuetype='string') if c else TableCell()
            if c: ce.addElement(P(text=c))
            e.addElement(ce)
    row(['Waterkwaliteit per leveringsgebied – jaargemiddelden 2024']); row(['De Waterkring (fictief)']); row([''])
    cols=[('Totale hardheid','°fH',k('hardness_total',None,'°fH'),lambda w:o(w.fh)),('Totale hardheid','°dH',k('hardness_total',None,'°dH'),lambda w:o(w.dh)),('Zuurtegraad (pH)','',k('ph',None,'pH'),None),('Geleidbaarheid bij 20 °C','µS/cm',k('conductivity','20C','µS/cm'),lambda w:o(w.ec20,0)),
     ('Calcium','mg/l',k('calcium','ion'),lambda w:o(w.ca)),('Magnesium','mg/l',k('magnesium','ion'),lambda w:o(w.mg)),('Natrium','mg/l',k('sodium','ion'),lambda w:o(w.na)),('Kalium','mg/l',k('potassium','ion'),lambda w:o(w.k)),('Chloride','mg/l',k('chloride','ion'),lambda w:o(w.cl)),('Sulfaat','mg/l',k('sulfate','ion'),lambda w:o(w.so4)),('Nitraat','mg/l',k('nitrate','ion'),lambda w:o(w.no3)),('Waterstofcarbonaat','mg/l',k('bicarbonate','HCO3'),lambda w:o(w.hco3,0)),('IJzer','µg/l',k('iron','ion','µg/L'),None)]
    row(['Leveringsgebied']+[c[0] for c in cols]); row(['']+[c[1] for c in cols]); row(['Norm','67,5','','6,5-9,2','2500','','50','200','','250','250','50','','200'])
    ex={2:['7,51','7,70','7,38','7,92'],12:['<10','14','<10','22']}
    for i,(z,w) in enumerate(zip(Z,ws)): row([z]+[r.one(*c[2],'mean',c[3](w) if c[3] else ex[j][i],z) for j,c in enumerate(cols)])
    doc.save(r.path()); r.save()

def r09():  # Dutch pumping station, LibreOffice PDF
    r=R('09-pompstation.pdf','nl','Pompstation Elderveen')
    w=W(56.3,6.9,19.4,2.3,29.9,17.8,2.1); o=lambda x,d=1:f(x,d,','); ww=three(w,.93,1.08)
    G=lambda fn,d=2:[o(fn(x),d) for x in (w,ww[0],ww[2])]
    st=['mean','min','max']; h=''
    for n,u,key,v,norm,cnt in [('Zuurgraad','pH',k('ph',None,'pH'),['7,84','7,71','7,98'],'7,0 - 9,5','52'),('Temperatuur','°C',k('temperature',None,'°C'),['12,1','9,8','15,6'],'25','52'),('Elektrisch geleidingsvermogen (20 °C)','mS/m',k('conductivity','20C','mS/m'),G(lambda x:x.ec20/10,1),'125','13'),
     ('Troebelingsgraad','FTE',k('turbidity',None,'NTU'),['0,08','<0,05','0,21'],'4','52'),('Zuurstof','mg/l O2',k('dissolved_oxygen'),['9,4','8,1','10,8'],'> 2','13'),('Totale hardheid','mmol/l',k('hardness_total',None,'mmol/L'),G(lambda x:x.th,2),'> 1','13'),('Duitse hardheidsgraden','°D',k('hardness_total',None,'°dH'),G(lambda x:x.dh,1),'','13'),
     ('Waterstofcarbonaat','mg/l HCO3',k('bicarbonate','HCO3'),G(lambda x:x.hco3,0),'> 60','13'),('Saturatie-index (SI)','pH',None,['0,11','-0,02','0,20'],'> -0,2','13'),('Chloride','mg/l Cl',k('chloride','ion'),G(lambda x:x.cl,1),'150','13'),('Sulfaat','mg/l SO4',k('sulfate','ion'),G(lambda x:x.so4,1),'150','13'),('Calcium','mg/l Ca',k('calcium','ion'),G(lambda x:x.ca,1),'','13'),('Magnesium','mg/l Mg',k('magnesium','ion'),G(lambda x:x.mg,1),'','13'),('Natrium','mg/l Na',k('sodium','ion'),G(lambda x:x.na,1),'150','13'),('Kalium','mg/l K',k('potassium','ion'),G(lambda x:x.k,1),'','13'),
     ('Ammonium','mg/l N',k('ammonium','N'),['<0,02','<0,02','0,03'],'0,2 NH4','13'),('Nitriet','mg/l N',k('nitrite','N'),['<0,002','<0,002','0,004'],'0,1 NO2','13'),('Nitraat','mg/l N',k('nitrate','N'),G(lambda x:x.no3/4.4268,2),'50 NO3','13'),('Ortho-fosfaat','mg/l P',k('phosphate','P'),['0,04','0,02','0,07'],'','13'),('IJzer','µg/l Fe',k('iron','ion','µg/L'),['12','<10','38'],'200','52'),('Mangaan','µg/l Mn',k('manganese','ion','µg/L'),['<5','<5','9'],'50','52'),('Silicaat','mg/l Si',k('silica','Si'),['7,6','7,2','8,1'],'','4'),('TOC','mg/l C',k('toc'),['2,4','2,1','2,8'],'','13'),('Aluminium','µg/l Al',None,['<5','<5','6'],'200','4')]:
        h+=tr([n,u,norm,cnt]+r.cells(key,st,v))
    src=TMP+'/09-pompstation.html'
    open(src,'w').write(f'''<html><head><meta charset="utf-8"><style>td,th{{font-size:8pt;font-family:Liberation Sans}}</style></head><body><h2>Drinkwaterkwaliteit 2024</h2><p>Waterbedrijf Het Elderveen (fictief) — Pompstation Elderveen, reinwater</p><table border="1" cellpadding="2" cellspacing="0"><tr><th>Parameter</th><th>Eenheid</th><th>Norm</th><th>Aantal</th><th>Gemiddelde</th><th>Minimum</th><th>Maximum</th></tr>{h}</table><p>Het drinkwater wordt centraal onthard. Norm: Drinkwaterbesluit.</p></body></html>''')
    subprocess.run(['soffice','-env:UserInstallation=file://'+TMP+'/lo','--headless','--infilter=HTML (StarWriter)','--convert-to','pdf:writer_pdf_Export','--outdir',OUT,src],check=True,capture_output=True,timeout=150); r.save()

def r10():  # Spanish analysis, pymupdf
    import pymupdf
    r=R('10-analisis-red.pdf','es','Red Barrio Alto',ask=['phosphate'])
    w=W(78.9,21.3,31.8,3.0,47.6,88.1,11.4); o=lambda x,d=1:f(x,d,','); q=lambda key,v:r.one(*key,'single',v)
    doc=pymupdf.open(); p=doc.new_page()
    fo='/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf'
    def t(x,y,s,z=8): p.insert_text((x,y),s,fontsize=z,fontname='dj',fontfile=fo)
    t(50,50,'Ayuntamiento de Robledillo del Encinar (ficticio)',12); t(50,68,'Boletín de análisis de agua de consumo humano   N.º 2024/0871',9)
    t(50,84,'Punto de muestreo: Red Barrio Alto          Tipo de análisis: Completo          Fecha de toma: 19/09/2024')
    X=[50,215,285,350,420,500]; y=110
    for x,s in zip(X,['Parámetro','Valor','Unidad','L.C.','Valor paramétrico','Aptitud']): t(x,y,s,8.5)
    for n,v,u,lc,vp,key in [('Olor (a 25 ºC)','<1','Ín. dil.','1','3',None),('Turbidez','0,31','UNF','0,20','4',k('turbidity',None,'NTU')),('pH','7,52','Unid. pH','1,0','6,5-9,5',k('ph',None,'pH')),('Conductividad (a 20 ºC)',o(w.ec20,0),'µS/cm','15','2.500',k('conductivity','20C','µS/cm')),('Cloro libre residual','0,62','mg/L','0,10','1,0',k('chlorine_free')),('Cloro combinado residual','0,14','mg/L','0,10','2,0',k('chloramine')),
      ('Amonio','<0,05','mg/L NH4','0,05','0,50',k('ammonium','ion')),('Nitrato',o(w.no3),'mg/L NO3','1,0','50',k('nitrate','ion')),('Nitrito','<0,03','mg/L NO2','0,03','0,5',k('nitrite','ion')),('Cloruro',o(w.cl),'mg/L','2,0','250',k('chloride','ion')),('Sulfato',o(w.so4),'mg/L','2,0','250',k('sulfate','ion')),('Fluoruro','0,19','mg/L','0,10','1,5',k('fluoride','ion')),('Bicarbonatos',o(w.hco3,0),'mg/L HCO3','10','',k('bicarbonate','HCO3')),('Dureza total',o(w.fh),'ºF','1,0','',k('hardness_total',None,'°fH')),('Calcio',o(w.ca),'mg/L','1,0','',k('calcium','ion')),('Magnesio',o(w.mg),'mg/L','0,5','',k('magnesium','ion')),('Sodio',o(w.na),'mg/L','0,5','200',k('sodium','ion')),('Potasio',o(w.k),'mg/L','0,5','',k('potassium','ion')),('Fósforo (fosfatos)','0,21','mg/L','0,05','',k('phosphate',None)),
      ('Hierro','17','µg/L','10','200',k('iron','ion','µg/L')),('Manganeso','<5','µg/L','5','50',k('manganese','ion','µg/L')),('Cobre','0,043','mg/L','0,005','2,0',k('copper','ion')),('Plomo','<1','µg/L','1','5',k('lead','ion','µg/L')),('Boro','0,06','mg/L','0,02','1,5',k('boron','ion')),('Índice de Langelier','0,2','','','± 0,5',None),('Escherichia coli','0','UFC/100 mL','','0',None)]:
        y+=15
        if key: q(key,v)
        for x,s in zip(X,[n,v,u,lc,vp,'Apta']): t(x,y,s)
    t(50,y+25,'L.C.: límite de cuantificación. Agua apta para el consumo según el Real Decreto 3/2023.')
    doc.subset_fonts(); doc.save(r.path(),garbage=4,deflate=True); r.save()

def r11():  # Colombia: months across, tsv
    M=['Febrero','Mayo','Agosto','Noviembre']
    r=R('11-trimestres.tsv','es',M,ask=[])
    ws=[W(14.2,3.1,7.4,1.6,8.3,11.9,4.2).x(x) for x in (1,.93,1.08,.9)]; o=lambda x,d=1:f(x,d,',')
    L=['Empresa de Aguas de Quebradanegra del Valle (ficticia)','Planta La Ceiba - agua tratada - control de calidad 2024','','\t'.join(['Característica','Expresada como','Valor máximo aceptable']+M)]
    G=lambda fn,d=1:[o(fn(w),d) for w in ws]
    for n,u,l,v,key in [('Color aparente','UPC','15',['3','2','4','3'],None),('Turbiedad','UNT','2',['0,4','0,6','0,3','0,7'],k('turbidity',None,'NTU')),('pH','unidades de pH','6,5 a 9,0',['7,1','7,2','7,0','7,3'],k('ph',None,'pH')),('Conductividad (25 °C)','µS/cm','1000',G(lambda w:w.ec25,0),k('conductivity','25C','µS/cm')),('Cloro residual libre','mg/L','0,3 a 2,0',['1,2','1,4','1,1','1,3'],k('chlorine_free')),('Alcalinidad total','mg/L CaCO3','200',G(lambda w:w.alk),k('alkalinity','CaCO3')),('Dureza total','mg/L CaCO3','300',G(lambda w:w.caco3),k('hardness_total','CaCO3')),('Calcio','mg/L Ca','60',G(lambda w:w.ca),k('calcium','ion')),('Magnesio','mg/L Mg','36',G(lambda w:w.mg),k('magnesium','ion')),('Cloruros','mg/L Cl-','250',G(lambda w:w.cl),k('chloride','ion')),('Sulfatos','mg/L SO4','250',G(lambda w:w.so4),k('sulfate','ion')),('Nitratos','mg/L NO3','10',G(lambda w:w.no3),k('nitrate','ion')),('Nitritos','mg/L NO2','0,1',['<0,01','<0,01','<0,01','0,02'],k('nitrite','ion')),('Fosfatos','mg/L PO4','0,5',['0,08','<0,05','0,11','<0,05'],k('phosphate','ion')),('Hierro total','mg/L Fe','0,3',['0,06','0,09','0,05','0,11'],k('iron','ion')),('Manganeso','mg/L Mn','0,1',['<0,02','0,03','<0,02','0,02'],k('manganese','ion')),('Aluminio','mg/L Al','0,2',['0,07','0,10','0,06','0,12'],None),('Coliformes totales','UFC/100 cm3','0',['0','0','0','0'],None)]:
        L.append('\t'.join([n,u,l]+[r.one(*key,'single',x,m) if key else x for x,m in zip(v,M)]))
    open(r.path(),'w',encoding='utf-8-sig').write('\n'.join(L)); r.save()

def r12():  # India, groff PDF
    r=R('12-test-report.pdf','en','Overhead tank, Ward 7')
    w=W(46.2,17.9,38.4,2.9,42.5,31.7,14.8); q=lambda key,v,dl=None:r.one(*key,'single',v,None,dl)
    rows=[('pH at 25 deg C','-','IS 3025 (Part 11)','6.5-8.5','No relaxation','0.1','7.64',k('ph',None,'pH')),('Conductivity at 25 deg C','uS/cm','IS 3025 (Part 14)','-','-','1',f(w.ec25,0),k('conductivity','25C','µS/cm')),('Turbidity','NTU','IS 3025 (Part 10)','1','5','0.1','BDL',k('turbidity',None,'NTU')),('Total dissolved solids','mg/L','IS 3025 (Part 16)','500','2000','5',f(w.tds,0),k('tds')),('Total alkalinity (as CaCO3)','mg/L','IS 3025 (Part 23)','200','600','2',f(w.alk),k('alkalinity','CaCO3')),('Total hardness (as CaCO3)','mg/L','IS 3025 (Part 21)','200','600','2',f(w.caco3),k('hardness_total','CaCO3')),('Calcium (as Ca)','mg/L','IS 3025 (Part 40)','75','200','0.5',f(w.ca),k('calcium','ion')),('Magnesium (as Mg)','mg/L','IS 3025 (Part 46)','30','100','0.5',f(w.mg),k('magnesium','ion')),('Sodium (as Na)','mg/L','IS 3025 (Part 45)','-','-','0.5',f(w.na),k('sodium','ion')),('Potassium (as K)','mg/L','IS 3025 (Part 45)','-','-','0.5',f(w.k),k('potassium','ion')),('Chloride (as Cl)','mg/L','IS 3025 (Part 32)','250','1000','1',f(w.cl),k('chloride','ion')),('Sulphate (as SO4)','mg/L','IS 3025 (Part 24)','200','400','1',f(w.so4),k('sulfate','ion')),('Nitrate (as NO3)','mg/L','IS 3025 (Part 34)','45','No relaxation','0.5',f(w.no3),k('nitrate','ion')),('Nitrite (as NO2)','mg/L','IS 3025 (Part 34)','-','-','0.02','BDL',k('nitrite','ion')),('Total ammonia (as NH3-N)','mg/L','IS 3025 (Part 34)','0.5','No relaxation','0.05','BDL',k('ammonium','N')),('Fluoride (as F)','mg/L','IS 3025 (Part 60)','1.0','1.5','0.1','0.42',k('fluoride','ion')),('Residual free chlorine','mg/L','IS 3025 (Part 26)','0.2','1','0.05','0.24',k('chlorine_free')),('Iron (as Fe)','mg/L','IS 3025 (Part 53)','1.0','No relaxation','0.02','0.08',k('iron','ion')),('Manganese (as Mn)','mg/L','IS 3025 (Part 59)','0.1','0.3','0.02','BDL',k('manganese','ion')),('Copper (as Cu)','mg/L','IS 3025 (Part 42)','0.05','1.5','0.02','BDL',k('copper','ion')),('Zinc (as Zn)','mg/L','IS 3025 (Part 49)','5','15','0.02','0.13',k('zinc','ion')),('Silica (as SiO2)','mg/L','IS 3025 (Part 35)','-','-','0.5','21.6',k('silica','SiO2'))]
    L=['.ps 9','.vs 11p','.ll 7.2i','.po 0.6i','.ft B','PUBLIC HEALTH LABORATORY, NAYAPURI DISTRICT (INVENTED)','.br','TEST REPORT  No. NPL/W/2024/1186','.ft R','.br','Sample description: Drinking water    Location: Overhead tank, Ward 7    Collected on: 11.07.2024','.sp','.TS','tab(|) allbox;','cb cb cb cb s cb cb','cb cb cb cb cb cb cb','n l l c c c r.','S.|Parameter|Test method|IS 10500:2012 requirement|DL|Result (mg/L','No.|||Acceptable limit|Permissible limit||unless stated)']
    L[-2:]=['Parameter|Unit|Method|IS 10500 requirement|DL|Result','|||Acceptable limit|Permissible limit||']
    L[L.index('n l l c c c r.')]='l l l c c c r.'
    for n,u,m,a,b,dl,v,key in rows: L.append('|'.join([n,u,m,a,b,dl,q(key,v,float(dl))]))
    L+=['.TE','.sp','BDL: below detection limit (DL). Opinion: the sample meets IS 10500 for the parameters tested.','.br','*** End of report ***']
    open(TMP+'/12.roff','w').write('\n'.join(L))
    open(r.path(),'wb').write(subprocess.run(['groff','-t','-Tpdf',TMP+'/12.roff'],capture_output=True).stdout); r.save()

def r13():  # Australian pasted prose
    r=R('13-facts-page.txt','en','Wirrabee',ask=['nitrate'])
    w=W(17.8,11.2,52.6,3.3,78.4,21.5,1.9); q=lambda det,b,u,v,st='mean':r.one(det,b,u,st,v)
    open(r.path(),'w').write(f'''Home > Water quality > What's in my water > Wirrabee

Coorabin Water (invented)
Wirrabee water quality: typical values

Last updated: 3 February 2025

Your water comes from Lake Narrabye and is treated at the Wirrabee plant. The figures
below are averages of the results for the 12 months to 31 December 2024.

Hardness
Your water's average hardness was {q('hardness_total','CaCO3','mg/L',f(w.caco3,0))} mg/L (as calcium carbonate). Water below 60 mg/L is
soft, and up to 200 mg/L is good quality under the guidelines.

pH
The average pH was {q('ph',None,'pH','7.5')}, between a low of {q('ph',None,'pH','7.1','min')} and a high of {q('ph',None,'pH','8.2','max')}. The guideline is 6.5 to 8.5.

Salt
Total dissolved solids: {q('tds',None,'mg/L',f(w.tds,0))} mg/L (guideline 600 mg/L)
Sodium: {q('sodium','ion','mg/L',f(w.na))} mg/L (guideline 180 mg/L)
Chloride: {q('chloride','ion','mg/L',f(w.cl))} mg/L (guideline 250 mg/L)
Electrical conductivity at 25 °C: {q('conductivity','25C','µS/cm',f(w.ec25,0))} µS/cm

Minerals
Calcium: {q('calcium','ion','mg/L',f(w.ca))} mg/L
Magnesium: {q('magnesium','ion','mg/L',f(w.mg))} mg/L
Potassium: {q('potassium','ion','mg/L',f(w.k))} mg/L
Sulfate: {q('sulfate','ion','mg/L',f(w.so4))} mg/L (guideline 250 mg/L)
Alkalinity: {q('alkalinity','CaCO3','mg/L',f(w.alk,0))} mg/L as CaCO3
Silica (reactive): {q('silica','SiO2','mg/L','4.8')} mg/L as SiO2

Nutrients and metals
Nitrate: {q('nitrate',None,'mg/L','0.43')} mg/L
Iron: {q('iron','ion','mg/L','0.03')} mg/L (guideline 0.3 mg/L)
Manganese: less than {q('manganese','ion','mg/L','<0.005')[1:]} mg/L (guideline 0.1 mg/L)
Copper: {q('copper','ion','mg/L','0.021')} mg/L (guideline 1 mg/L)
Fluoride: {q('fluoride','ion','mg/L','0.78')} mg/L (we add fluoride; target 0.7 to 1.0 mg/L)

Chlorine
We disinfect with chlorine. The free chlorine at customers' taps ranged from {q('chlorine_free',None,'mg/L','0.11','min')} to {q('chlorine_free',None,'mg/L','1.32','max')} mg/L,
with an average of {q('chlorine_free',None,'mg/L','0.64')} mg/L. The guideline is 5 mg/L.

Call us on 13 00 99 (8 am to 6 pm), or write to PO Box 410, Wirrabee.
Was this page helpful? Yes (14) No (2)
'''); r.save()

def r14():  # South Tyrol, bilingual, rows = zones; cairo
    import cairocffi as cairo
    Z=['Dorf / Paese','Obertal / Valle di Sopra','Sonnberg / Monte Sole']
    r=R('14-zweisprachig.pdf','de',[z.replace(' / ',' ') for z in Z])
    ws=[W(43.6,12.8,2.1,0.7,1.3,29.8,3.6),W(28.9,6.2,1.8,0.5,0.9,12.7,1.9),W(67.1,25.5,3.9,1.2,4.4,88.2,8.8)]
    o=lambda x,d=1:f(x,d,',')
    s=cairo.PDFSurface(r.path(),842,595); c=cairo.Context(s)
    def t(x,y,z,b=False,z2=8.5): c.select_font_face('DejaVu Sans',0,1 if b else 0); c.set_font_size(z2); c.move_to(x,y); c.show_text(z)
    t(40,40,'Trinkwasserleitung der Gemeinde Sankt Valtin – Acquedotto comunale di San Valtino (erfunden)',True,11)
    t(40,58,'Analysen 2024 / Analisi 2024 – Entnahmedatum / Data di prelievo: 24.09.2024')
    X=[40,280,370,480,600,720]
    for x,a,b in zip(X,['Parameter','Einheit','Grenzwert']+[z.split(' / ')[0] for z in Z],['Parametro','Unità','Valore limite']+[z.split(' / ')[1] for z in Z]): t(x,84,a,True); t(x,95,b,True)
    G=lambda fn,d=1:[o(fn(w),d) for w in ws]; y=100
    for n,u,l,v,key in [('Temperatur / Temperatura','°C','',['8,1','6,9','9,4'],k('temperature',None,'°C')),('pH-Wert / pH','','6,5–9,5',['7,8','8,0','7,6'],k('ph',None,'pH')),('Leitfähigkeit bei 20 °C / Conducibilità a 20 °C','µS/cm','2500',G(lambda w:w.ec20,0),k('conductivity','20C','µS/cm')),('Gesamthärte / Durezza totale','°fH','',G(lambda w:w.fh),k('hardness_total',None,'°fH')),('Hydrogenkarbonat / Idrogenocarbonato','mg/l','',G(lambda w:w.hco3,0),k('bicarbonate','HCO3')),('Kalzium / Calcio','mg/l','',G(lambda w:w.ca),k('calcium','ion')),('Magnesium / Magnesio','mg/l','',G(lambda w:w.mg),k('magnesium','ion')),('Natrium / Sodio','mg/l','200',G(lambda w:w.na),k('sodium','ion')),('Kalium / Potassio','mg/l','',G(lambda w:w.k),k('potassium','ion')),('Ammonium / Ammonio','mg/l','0,50',['<0,03','<0,03','<0,03'],k('ammonium','ion')),('Nitrit / Nitrito','mg/l','0,50',['<0,02','<0,02','<0,02'],k('nitrite','ion')),('Nitrat / Nitrato','mg/l','50',G(lambda w:w.no3),k('nitrate','ion')),('Chlorid / Cloruro','mg/l','250',G(lambda w:w.cl),k('chloride','ion')),('Sulfat / Solfato','mg/l','250',G(lambda w:w.so4),k('sulfate','ion')),('Eisen / Ferro','µg/l','200',['<20','<20','31'],k('iron','ion','µg/L')),('Arsen / Arsenico','µg/l','10',['1,2','3,8','<1'],None)]:
        y+=17; t(X[0],y,n); t(X[1],y,u); t(X[2],y,l)
        for x,z,a in zip(X[3:],Z,v):
            if key: r.one(*key,'single',a,z.replace(' / ',' '))
            t(x,y,a)
    t(40,y+30,'Gesetzliche Grundlage / Base legale: Leg.-Dekret / D.Lgs. 18/2023.'); s.finish(); r.save()

def r15():  # Kenya county lab certificate pasted/CSV? -> HTML print? use plain text fixed columns with asks
    r=R('15-lab-certificate.txt','en','Borehole BH-3, Kiambore',ask=['nitrate','hardness_total','conductivity'])
    w=W(22.4,6.3,61.2,5.8,29.7,14.6,8.9); q=lambda key,v,dl=None:r.one(*key,'single',v,None,dl)
    L=['KIAMBORE COUNTY WATER LABORATORY (INVENTED)','WATER ANALYSIS CERTIFICATE   Ref: KWL/24/0393','Source: Borehole BH-3, Kiambore      Sampled: 08-May-2024   Received: 08-May-2024','',f'{"Parameter":<30}{"Unit":<16}{"Result":<12}{"KS EAS 12 limit":<18}Remarks','-'*84]
    for n,u,v,l,key in [('pH','pH scale','7.9','5.5 - 9.5',k('ph',None,'pH')),('Colour','mgPt/l','<5','50 max',None),('Turbidity','N.T.U','1.4','25 max',k('turbidity',None,'NTU')),('Conductivity (25oC)','',f(w.ec25,0),'2500 max',k('conductivity','25C',None)),('Iron','mg/l','0.17','0.3 max',k('iron','ion')),('Manganese','mg/l','0.02','0.1 max',k('manganese','ion')),('Calcium','mg/l',f(w.ca),'150 max',k('calcium','ion')),('Magnesium','mg/l',f(w.mg),'100 max',k('magnesium','ion')),('Sodium','mg/l',f(w.na),'200 max',k('sodium','ion')),('Potassium','mg/l',f(w.k),'50 max',k('potassium','ion')),('Total Hardness','',f(w.caco3,0),'600 max',k('hardness_total',None,None)),('Total Alkalinity','mgCaCO3/l',f(w.alk,0),'500',k('alkalinity','CaCO3')),('Chloride','mg/l',f(w.cl),'250 max',k('chloride','ion')),('Fluoride','mg/l','1.32','1.5 max',k('fluoride','ion')),('Nitrate','mg/l',f(w.no3/4.4268,2),'',k('nitrate',None)),('Nitrite','mgNO2/l','ND','0.9 max',k('nitrite','ion')),('Ammonia','mgN/l','0.06','0.5 max',k('ammonium','N')),('Sulphate','mg/l',f(w.so4),'400 max',k('sulfate','ion')),('Silica','mgSiO2/l','38.2','',k('silica','SiO2')),('Free Carbon Dioxide','mg/l','4','',None),('TDS','mg/l',f(w.tds,0),'1500 max',k('tds')),('Permanganate value','mgO2/l','0.8','',None)]:
        if key: q(key,v)
        L.append(f'{n:<30}{u:<16}{v:<12}{l:<18}'.rstrip())
    L+=['','ND = not detected. Chemically the water is suitable for domestic use; fluoride is near the limit.']
    open(r.path(),'w').write('\n'.join(L)+'\n'); r.save()

def r16():  # Malta/Ireland-like xlsx, xlsxwriter, years side by side & two sheets? one sheet
    import xlsxwriter
    Y=['2022','2023','2024']
    r=R('16-year-comparison.xlsx','en',Y)
    ws=[W(54.1,24.8,121.0,6.3,212.0,58.1,36.4).x(x) for x in (1.0,0.94,0.88)]
    b=xlsxwriter.Workbook(r.path()); s=b.add_worksheet('Chemistry'); B=b.add_format(dict(bold=1))
    s.write('A1','Xgharra Islands Water Corporation (invented)',B); s.write('A2','Blended tap water: average of samples by year')
    s.write_row('A4',['Chemical parameter','Unit','Parametric value'],B); s.merge_range('D4:F4','Average concentration',B)
    for j,y in enumerate(Y): s.write_number(4,3+j,int(y),B)
    G=lambda fn,d=1:[f(fn(w),d) for w in ws]; i=5
    for n,u,l,v,key in [('Ammonium','mg/L',0.5,['<0.05','<0.05','<0.05'],k('ammonium','ion')),('Boron','mg/L',2.4,['0.71','0.66','0.63'],k('boron','ion')),('Calcium','mg/L','',G(lambda w:w.ca),k('calcium','ion')),('Chloride','mg/L',250,G(lambda w:w.cl,0),k('chloride','ion')),('Conductivity (20 °C)','µS/cm',2500,[(f'{w.ec20:,.0f}',round(w.ec20)) for w in ws],k('conductivity','20C','µS/cm')),('Copper','mg/L',2,['0.08','0.11','0.09'],k('copper','ion')),('Fluoride','mg/L',1.5,['0.31','0.28','0.27'],k('fluoride','ion')),('Hardness, total','mg/L as CaCO₃','',G(lambda w:w.caco3,0),k('hardness_total','CaCO3')),('Iron','µg/L',200,['<20','<20','24'],k('iron','ion','µg/L')),('Magnesium','mg/L','',G(lambda w:w.mg),k('magnesium','ion')),('Nitrate','mg/L',50,G(lambda w:w.no3),k('nitrate','ion')),('Nitrite','mg/L',0.5,['<0.02','<0.02','<0.02'],k('nitrite','ion')),('pH','',"≥6.5 and ≤9.5",['7.8','7.7','7.9'],k('ph',None,'pH')),('Potassium','mg/L','',G(lambda w:w.k),k('potassium','ion')),('Sodium','mg/L',200,G(lambda w:w.na,0),k('sodium','ion')),('Sulphate','mg/L',250,G(lambda w:w.so4),k('sulfate','ion')),('Free residual chlorine','mg/L','',['0.34','0.29','0.31'],k('chlorine_free')),('Bromate','µg/L',10,['2.1','1.8','<1.0'],None)]:
        s.write(i,0,n); s.write(i,1,u); s.write(i,2,l)
        for j,(y,x) in enumerate(zip(Y,v)):
            p=r.one(*key,'mean',x,y) if key else x
            if p.startswith('<'): s.write_string(i,3+j,p)
            else:
                num=x[1] if isinstance(x,tuple) else float(p); d=len(p.split('.')[1]) if '.' in p else 0
                s.write_number(i,3+j,num,b.add_format({'num_format':'#,##0' if d==0 else '0.'+'0'*d}))
        i+=1
    b.close(); r.save()

# ---- eight more ----
def typ(src,pdf):
    import typst; open(TMP+'/t.typ','w').write(src); typst.compile(TMP+'/t.typ',output=pdf)
def r17():  # Swiss municipal page: places down, determinands across
    Z=['Dorf und Unterfeld','Rütenen','Weiler Chalberg','Industrie Süd']
    r=R('17-ortsteile.html','de',Z)
    ws=[W(98.2,17.1,8.3,1.6,17.2,21.4,22.8),W(71.5,9.8,4.1,0.9,6.2,11.9,9.4),W(54.9,22.3,2.6,0.6,1.8,14.7,3.3),W(108.7,20.6,14.9,2.2,29.8,38.1,31.0)]
    mix=['Quell- und Grundwasser','Quellwasser','Quellwasser','Grundwasser']
    ph=['7.4','7.5','7.7','7.2']; h=''
    for z,w,m,p in zip(Z,ws,mix,ph):
        o=lambda d,b,u,x,dd=1:r.one(d,b,u,'single',f(x,dd),z)
        h+=tr([z,m,'14.05.2024',o('hardness_total',None,'°fH',w.fh),'hart' if w.fh>25 else 'mittelhart' if w.fh<25 else '',o('nitrate','ion','mg/L',w.no3),o('chloride','ion','mg/L',w.cl),o('sulfate','ion','mg/L',w.so4),o('calcium','ion','mg/L',w.ca),o('magnesium','ion','mg/L',w.mg),o('sodium','ion','mg/L',w.na),r.one('ph',None,'pH','single',p,z)])
    open(r.path(),'w').write(f"""<!doctype html><html lang="de-CH"><head><meta charset="utf-8"><title>Trinkwasser – Gemeinde Hinterlochwil (erfunden)</title></head><body>
<nav><a href="/">Startseite</a> <a href="/e">eGovernment</a> <a href="/k">Kontakt 099 999 12 34</a></nav>
<h1>Qualität des Trinkwassers 2024</h1><p>Alle 24 Proben entsprachen den gesetzlichen Anforderungen. 1 °fH entspricht 10 mg/l Kalk.</p>
<table class="tbl"><caption>Chemische Werte nach Versorgungsgebiet</caption><thead><tr><th>Versorgungsgebiet</th><th>Herkunft</th><th>Probe vom</th><th>Gesamthärte in °fH</th><th>Härtestufe</th><th>Nitrat in mg/l<sup>1)</sup></th><th>Chlorid in mg/l</th><th>Sulfat in mg/l</th><th>Calcium in mg/l</th><th>Magnesium in mg/l</th><th>Natrium in mg/l</th><th>pH-Wert</th></tr></thead><tbody>{h}</tbody></table>
<p><sup>1)</sup> Höchstwert 40 mg/l</p><h2>Brunnenmeister</h2><p>Werkhof, 9999 Hinterlochwil, Pikett 24 h</p><footer>© 2025 Gemeinde Hinterlochwil</footer></body></html>"""); r.save()

def r18():  # Luxembourg, typst, French/German headings
    r=R('18-bulletin-lux.pdf','fr','Réservoir Kiirchbierg')
    w=W(88.6,14.2,9.8,1.9,21.1,34.9,24.4); o=lambda x,d=1:f(x,d,','); q=lambda key,v:r.one(*key,'single',v)
    c=''
    for n,m,u,v,l,key in [('Température / Temperatur','sonde','°C','10,6','',k('temperature',None,'°C')),('pH','ISO 10523','','7,4','6,5–9,5',k('ph',None,'pH')),('Conductivité électrique à 20 °C / Leitfähigkeit','ISO 7888','µS/cm',o(w.ec20,0),'2500',k('conductivity','20C','µS/cm')),('Dureté totale / Gesamthärte','calcul','d°fr',o(w.fh),'',k('hardness_total',None,'°fH')),('Dureté carbonatée / Karbonathärte','ISO 9963','d°fr',o(w.tac),'',k('hardness_carbonate',None,'°fH')),
      ('Ammonium (NH4)','ISO 7150','mg/l','< 0,05','0,50',k('ammonium','ion')),('Nitrites (NO2)','ISO 10304','mg/l','< 0,05','0,50',k('nitrite','ion')),('Nitrates (NO3)','ISO 10304','mg/l',o(w.no3),'50',k('nitrate','ion')),('Chlorures (Cl)','ISO 10304','mg/l',o(w.cl),'250',k('chloride','ion')),('Sulfates (SO4)','ISO 10304','mg/l',o(w.so4),'250',k('sulfate','ion')),('Calcium (Ca)','ISO 14911','mg/l',o(w.ca),'',k('calcium','ion')),('Magnésium (Mg)','ISO 14911','mg/l',o(w.mg),'',k('magnesium','ion')),('Sodium (Na)','ISO 14911','mg/l',o(w.na),'200',k('sodium','ion')),('Potassium (K)','ISO 14911','mg/l',o(w.k),'',k('potassium','ion')),('Fer (Fe)','ISO 17294','µg/l','12','200',k('iron','ion','µg/L')),('Cuivre (Cu)','ISO 17294','µg/l','8,4','1000',k('copper','ion','µg/L')),('Zinc (Zn)','ISO 17294','µg/l','31','',k('zinc','ion','µg/L')),('Turbidité / Trübung','ISO 7027','FNU','< 0,20','1,0',k('turbidity',None,'NTU'))]:
        q(key,v); c+=''.join(f'[{x}],' for x in [n,m,v.replace('<','\\<'),u,l])+'\n'
    typ(f"""#set text(font:"Liberation Sans",size:9pt)
= Administration communale de Biergemer (fictive)
*Bulletin d'analyse n° 24-1187* \\ Point de prélèvement : Réservoir Kiirchbierg \\ Date de prélèvement : 12.03.2024 #h(2em) Préleveur : M. X
#table(columns:5,[*Paramètre*],[*Méthode*],[*Résultat*],[*Unité*],[*Valeur paramétrique*],
{c})
Résultats valables pour l'échantillon analysé. L'eau est dure (classe 4 sur 5).
""",r.path()); r.save()

def r19():  # Singapore-like, fpdf2: average + range with units column
    from fpdf import FPDF
    r=R('19-drinking-water.pdf','en','Nilam Bay supply')
    w=W(21.6,2.1,17.8,3.1,27.4,24.2,4.0); a,b=w.x(.7),w.x(1.35)
    p=FPDF(); p.add_page(); p.set_font('Helvetica','B',13); p.cell(0,8,'Nilam Bay Utilities (invented)',new_x='LMARGIN',new_y='NEXT'); p.set_font('Helvetica','',9)
    p.cell(0,6,'Drinking water quality report, January to December 2024',new_x='LMARGIN',new_y='NEXT'); p.ln(3); p.set_font('Helvetica','',8)
    with p.table(col_widths=(50,24,22,36,30)) as t:
        for row in [('Parameter','Unit','Average','Range','WHO guideline value')]: 
            x=t.row(); [x.cell(c) for c in row]
        def g(n,u,key,m,lo,hi,l):
            r.one(*key,'mean',m); 
            if lo: r.one(*key,'min',lo); r.one(*key,'max',hi)
            x=t.row(); [x.cell(c) for c in (n,u,m,f'{lo} - {hi}' if lo else '-',l)]
        def gw(n,u,key,fn,d,l): g(n,u,key,f(fn(w),d),f(fn(a),d),f(fn(b),d),l)
        g('pH value','Units',k('ph',None,'pH'),'8.2','7.7','8.6','-'); gw('Conductivity (25 C)','uS/cm',k('conductivity','25C','µS/cm'),lambda w:w.ec25,0,'-')
        g('Turbidity','NTU',k('turbidity',None,'NTU'),'0.10','<0.10','0.34','5'); gw('Total dissolved solids','mg/L',k('tds'),lambda w:w.tds,0,'-')
        gw('Total alkalinity (as CaCO3)','mg/L',k('alkalinity','CaCO3'),lambda w:w.alk,0,'-'); gw('Total hardness (as CaCO3)','mg/L',k('hardness_total','CaCO3'),lambda w:w.caco3,0,'-')
        gw('Calcium','mg/L',k('calcium','ion'),lambda w:w.ca,1,'-'); gw('Magnesium','mg/L',k('magnesium','ion'),lambda w:w.mg,1,'-'); gw('Sodium','mg/L',k('sodium','ion'),lambda w:w.na,1,'200 (taste)'); gw('Potassium','mg/L',k('potassium','ion'),lambda w:w.k,1,'-'); gw('Chloride','mg/L',k('chloride','ion'),lambda w:w.cl,1,'250 (taste)'); gw('Sulphate (as SO4)','mg/L',k('sulfate','ion'),lambda w:w.so4,1,'-')
        gw('Nitrate (as N)','mg/L',k('nitrate','N'),lambda w:w.no3/4.4268,2,'11'); g('Nitrite (as N)','mg/L',k('nitrite','N'),'<0.01','','','0.9'); g('Ammonia (as N)','mg/L',k('ammonium','N'),'0.31','0.12','0.48','-'); g('Monochloramine (as Cl2)','mg/L',k('chloramine'),'1.9','1.2','2.6','3'); g('Fluoride','mg/L',k('fluoride','ion'),'0.46','0.38','0.55','1.5'); g('Silica (as SiO2)','mg/L',k('silica','SiO2'),'3.6','1.1','6.9','-'); g('Iron','mg/L',k('iron','ion'),'0.004','<0.003','0.031','-'); g('Copper','mg/L',k('copper','ion'),'<0.003','','','2')
    p.ln(2); p.cell(0,5,'Values below the reporting limit are shown as "<".'); p.output(r.path()); r.save()

def r20():  # Peru: points down, determinands across, limit row first, xlsx
    from openpyxl import Workbook
    Z=['Reservorio R-1','Red Calle Las Flores','Pileta Plaza','Pozo P-4']
    r=R('20-puntos.xlsx','es',Z); ws=[W(61.3,9.2,24.1,2.8,31.5,72.0,6.6),W(60.2,9.0,23.8,2.7,31.1,70.8,6.4),W(60.8,9.1,24.0,2.8,31.3,71.5,6.5),W(88.9,15.7,41.6,4.4,58.2,121.0,14.9)]
    wb=Workbook(); s=wb.active; s.title='Monitoreo'
    s['A1']='Municipalidad de Quillapampa (ficticia) - Control de calidad del agua potable'; s['A2']='Muestreo del 22/08/2024'
    C=[('Cloro residual libre','mg/L',k('chlorine_free'),['0.9','0.6','0.5','0.0'],'≥ 0.5'),('pH','und.',k('ph',None,'pH'),['7.6','7.6','7.7','7.3'],'6.5 a 8.5'),('Turbiedad','UNT',k('turbidity',None,'NTU'),['0.4','0.6','0.5','0.2'],5),('Conductividad a 25 °C','µS/cm',k('conductivity','25C','µS/cm'),[f(w.ec25,0) for w in ws],1500),('Dureza total','mg CaCO3/L',k('hardness_total','CaCO3'),[f(w.caco3,0) for w in ws],500),('Calcio','mg/L',k('calcium','ion'),[f(w.ca) for w in ws],''),('Magnesio','mg/L',k('magnesium','ion'),[f(w.mg) for w in ws],''),('Sodio','mg/L',k('sodium','ion'),[f(w.na) for w in ws],200),('Cloruros','mg/L',k('chloride','ion'),[f(w.cl) for w in ws],250),('Sulfatos','mg/L',k('sulfate','ion'),[f(w.so4) for w in ws],250),('Nitratos','mg NO3-/L',k('nitrate','ion'),[f(w.no3) for w in ws],50),('Hierro','mg/L',k('iron','ion'),['<0.02','0.04','0.03','0.11'],0.3)]
    C[0][3][3]='<0.05'
    s.cell(4,1,'Punto de muestreo'); s.cell(5,1,'Unidad'); s.cell(6,1,'Límite máximo permisible')
    for j,(n,u,key,v,l) in enumerate(C):
        s.cell(4,2+j,n); s.cell(5,2+j,u); s.cell(6,2+j,l if l!='' else None)
        for i,(z,x) in enumerate(zip(Z,v)):
            r.one(*key,'single',x,z); c=s.cell(7+i,2+j)
            if x[0]=='<': c.value=x
            else: c.value=float(x); d=len(x.split('.')[1]) if '.' in x else 0; c.number_format='0'+('.'+'0'*d if d else '')
    for i,z in enumerate(Z): s.cell(7+i,1,z)
    wb.save(r.path()); r.save()

def r21():  # Morocco/Senegal: ions in mg/L and meq/L, cations and anions side by side, LibreOffice writer pdf
    r=R('21-bilan-ionique.pdf','fr','Forage F3 Oued Sfira')
    w=W(84.2,28.6,62.4,3.5,108.7,66.3,18.2); o=lambda x,d=1:f(x,d,','); q=lambda det,b,u,v:r.one(det,b,u,'single',v)
    cat=[('Calcium (Ca2+)','calcium',w.ca,20.04),('Magnésium (Mg2+)','magnesium',w.mg,12.15),('Sodium (Na+)','sodium',w.na,22.99),('Potassium (K+)','potassium',w.k,39.1)]
    an=[('Bicarbonates (HCO3-)','bicarbonate',w.hco3,61.02),('Chlorures (Cl-)','chloride',w.cl,35.45),('Sulfates (SO42-)','sulfate',w.so4,48.03),('Nitrates (NO3-)','nitrate',w.no3,62.0)]
    def cell(n,d,x,e):
        b='HCO3' if d=='bicarbonate' else 'ion'; dd=0 if d=='bicarbonate' else 1
        q(d,b,'mg/L',o(x,dd)); q(d,b,'meq/L',o(x/e,2)); return [n,o(x,dd),o(x/e,2)]
    rows=''.join(tr(cell(*c)+cell(*a)) for c,a in zip(cat,an))
    sc=o(sum(c[2]/c[3] for c in cat),2); sa=o(sum(c[2]/c[3] for c in an),2)
    phys=''.join(tr(x) for x in [('Température','°C',q('temperature',None,'°C','22,4'),'25'),('pH','-',q('ph',None,'pH','7,35'),'6,5 - 8,5'),('Conductivité à 20°C','µS/cm',q('conductivity','20C','µS/cm',o(w.ec20,0)),'2700'),('Titre hydrotimétrique (TH)','°F',q('hardness_total',None,'°fH',o(w.fh)),''),('Titre alcalimétrique (TA)','°F','0',''),('Titre alcalimétrique complet (TAC)','°F',q('alkalinity','CaCO3','°fH',o(w.tac)),''),('Ammonium (NH4+)','mg/L',q('ammonium','ion','mg/L','<0,05'),'0,5'),('Nitrites (NO2-)','mg/L',q('nitrite','ion','mg/L','<0,02'),'0,5'),('Fer total','mg/L',q('iron','ion','mg/L','0,06'),'0,3'),('Manganèse','mg/L',q('manganese','ion','mg/L','0,02'),'0,5'),('Oxydabilité au KMnO4','mg O2/L','0,8','5')])
    src=TMP+'/21-bilan-ionique.html'
    open(src,'w').write(f"""<html><head><meta charset="utf-8"></head><body><h3>Laboratoire régional des eaux de Sfira (fictif)</h3><p>Échantillon : Forage F3 Oued Sfira — prélevé le 17/10/2024</p><table border=1 cellspacing=0 cellpadding=3><tr><th>Paramètre</th><th>Unité</th><th>Résultat</th><th>VMA</th></tr>{phys}</table><p>Bilan ionique</p><table border=1 cellspacing=0 cellpadding=3><tr><th>Cations</th><th>mg/L</th><th>méq/L</th><th>Anions</th><th>mg/L</th><th>méq/L</th></tr>{rows}<tr><td>Somme</td><td></td><td>{sc}</td><td>Somme</td><td></td><td>{sa}</td></tr></table><p>VMA : valeur maximale admissible.</p></body></html>""")
    subprocess.run(['soffice','-env:UserInstallation=file://'+TMP+'/lo','--headless','--infilter=HTML (StarWriter)','--convert-to','pdf:writer_pdf_Export','--outdir',OUT,src],check=True,capture_output=True,timeout=150); r.save()

def r22():  # Liechtenstein/Swiss brochure, weasyprint columns, key-values and prose
    import weasyprint
    r=R('22-faltblatt.pdf','de','Oberau')
    w=W(66.8,21.9,3.4,0.9,4.8,44.6,6.1); q=lambda d,b,u,v:r.one(d,b,u,'single',v)
    KV=[('Gesamthärte',q('hardness_total',None,'mmol/L',f(w.th,2))+' mmol/l ('+q('hardness_total',None,'°fH',f(w.fh))+' °fH)'),('Karbonathärte',q('hardness_carbonate',None,'°fH',f(w.tac))+' °fH'),('pH-Wert',q('ph',None,'pH','7.7')),('Leitfähigkeit (25 °C)',q('conductivity','25C','µS/cm',f(w.ec25,0))+' µS/cm'),('Calcium',q('calcium','ion','mg/L',f(w.ca))+' mg/l'),('Magnesium',q('magnesium','ion','mg/L',f(w.mg))+' mg/l'),('Natrium',q('sodium','ion','mg/L',f(w.na))+' mg/l'),('Kalium',q('potassium','ion','mg/L',f(w.k))+' mg/l'),('Hydrogenkarbonat',q('bicarbonate','HCO3','mg/L',f(w.hco3,0))+' mg/l'),('Chlorid',q('chloride','ion','mg/L',f(w.cl))+' mg/l'),('Sulfat',q('sulfate','ion','mg/L',f(w.so4))+' mg/l'),('Nitrat',q('nitrate','ion','mg/L',f(w.no3))+' mg/l *'),('Nitrit','&lt; '+q('nitrite','ion','mg/L','<0.005')[1:]+' mg/l **'),('Ammonium','&lt; '+q('ammonium','ion','mg/L','<0.01')[1:]+' mg/l **'),('Kieselsäure (SiO2)',q('silica','SiO2','mg/L','6.3')+' mg/l'),('Eisen','nicht nachweisbar'),('Sauerstoff',q('dissolved_oxygen',None,'mg/L','9.8')+' mg/l')]
    r.one('iron','ion','mg/L','single','n.n.'); r.rd[-1]['unit']=None
    kv=''.join(f'<div class=k><span>{a}</span><b>{c}</b></div>' for a,c in KV)
    weasyprint.HTML(string=f"""<style>@page{{size:A4 landscape;margin:1.2cm}}body{{font:9pt Liberation Sans}}.c{{columns:3;column-gap:1cm}}.k{{display:flex;justify-content:space-between;border-bottom:.5pt dotted #888}}</style><div class=c><h2>Unser Wasser in Oberau</h2><p>Die Wasserversorgung Oberau (erfunden) liefert jährlich 412 000 m³ Trinkwasser aus 7 Quellen. Ein Liter kostet 0.16 Rappen. Die Quellen liegen auf 890 bis 1320 m ü. M.</p><p>Probenahme: 3. Juni 2024. Alle Proben waren einwandfrei. Wasser mit einer Härte von 15 bis 25 °fH gilt als mittelhart.</p><h3>Chemische Werte</h3>{kv}<p>* Höchstwert 40 mg/l &nbsp; ** Höchstwert 0.1 mg/l</p><h3>Tipps</h3><p>Stellen Sie den Geschirrspüler auf Stufe 3 ein. Lassen Sie das Wasser nach den Ferien 5 Minuten laufen.</p></div>""").write_pdf(r.path()); r.save()

def r23():  # pasted lab e-mail with uncertainty and LOQ (Ireland private well)
    r=R('23-well-email.txt','en','Kitchen tap (untreated)')
    w=W(109.5,8.3,16.4,2.1,28.8,17.2,28.1); q=lambda d,b,u,v:r.one(d,b,u,'single',v)
    L=['Re: your well water test - results','','Hi,','','Results for your sample 24/11873, Kitchen tap (untreated), taken 2 Sept 2024, are below.','Limits are the drinking water regulations.','','Test | Result | Unit | Uncertainty | LOQ | Limit']
    for n,v,u,un,lq,l in [('pH',q('ph',None,'pH','7.2'),'pH units','± 0.1','2','6.5-9.5'),('Conductivity @ 20°C',q('conductivity','20C','µS/cm',f(w.ec20,0)),'µS/cm','± 5 %','25','2500'),('Total hardness (as CaCO3)',q('hardness_total','CaCO3','mg/L',f(w.caco3,0)),'mg/l','± 6 %','10','-'),('Alkalinity',q('alkalinity','CaCO3','mg/L',f(w.alk,0)),'mg/l','± 6 %','10','-'),('Calcium',q('calcium','ion','mg/L',f(w.ca)),'mg/l','± 8 %','1','-'),('Magnesium',q('magnesium','ion','mg/L',f(w.mg)),'mg/l','± 8 %','0.5','-'),('Sodium',q('sodium','ion','mg/L',f(w.na)),'mg/l','± 7 %','0.5','200'),('Potassium',q('potassium','ion','mg/L',f(w.k)),'mg/l','± 7 %','0.2','-'),('Chloride',q('chloride','ion','mg/L',f(w.cl)),'mg/l','± 6 %','2','250'),('Sulphate',q('sulfate','ion','mg/L',f(w.so4)),'mg/l','± 6 %','2','250'),('Nitrate (as NO3)',q('nitrate','ion','mg/L',f(w.no3)),'mg/l','± 5 %','0.9','50'),('Nitrite (as NO2)',q('nitrite','ion','mg/L','<0.02'),'mg/l','-','0.02','0.5'),('Ammonium (as NH4)',q('ammonium','ion','mg/L','<0.03'),'mg/l','-','0.03','0.3'),('Iron',q('iron','ion','µg/L','64'),'µg/l','± 9 %','5','200'),('Manganese',q('manganese','ion','µg/L','11.2'),'µg/l','± 9 %','1','50'),('Copper',q('copper','ion','µg/L','340'),'µg/l','± 9 %','2','2000'),('Lead',q('lead','ion','µg/L','<1'),'µg/l','-','1','5'),('E. coli','0','MPN/100ml','-','0','0')]: L.append(' | '.join([n,v,u,un,lq,l]))
    L+=['','Your water is hard; a softener is a matter of taste. Ring us on 099 555 0187 if unsure.','','Regards,','Tullyvara Labs (invented)']
    open(r.path(),'w').write('\n'.join(L)+'\n'); r.save()

def r24():  # Hong Kong-like HTML: mean with (min - max) in the same cell, two treatment works
    A,B='Pak Shan Treatment Works','Ho Wan Treatment Works'
    r=R('24-two-works.html','en',[A,B]); w1=W(14.8,1.9,8.4,1.6,11.2,19.3,5.3); w2=W(9.6,2.4,10.9,2.0,15.6,12.1,4.4)
    h=''
    def row(n,u,l,key,c1,c2):
        nonlocal h; cs=[]
        for z,(m,lo,hi) in ((A,c1),(B,c2)):
            for st,x in zip(['mean','min','max'],(m,lo,hi)): r.one(*key,st,x,z)
            cs.append(f'{esc(m)} ({esc(lo)} - {esc(hi)})')
        h+='<tr><td>'+'</td><td>'.join([n,u,l]+cs)+'</td></tr>\n'
    def g(fn,d): return [tuple(f(fn(w.x(x)),d) for x in (1,.8,1.3)) for w in (w1,w2)]
    row('pH','-','6.5 - 9.2',k('ph',None,'pH'),('8.4','7.9','8.9'),('8.2','7.8','8.8')); row('Temperature','°C','-',k('temperature',None,'°C'),('23.8','16.9','29.4'),('24.1','17.2','29.8'))
    row('Conductivity at 25°C','µS/cm','-',k('conductivity','25C','µS/cm'),*g(lambda w:w.ec25,0)); row('Free Residual Chlorine','mg/L','5',k('chlorine_free'),('1.0','0.6','1.4'),('0.9','0.5','1.3')); row('Total Alkalinity','mg CaCO<sub>3</sub>/L','-',k('alkalinity','CaCO3'),*g(lambda w:w.alk,0)); row('Total Hardness','mg CaCO<sub>3</sub>/L','-',k('hardness_total','CaCO3'),*g(lambda w:w.caco3,0)); row('Calcium','mg/L','-',k('calcium','ion'),*g(lambda w:w.ca,1)); row('Magnesium','mg/L','-',k('magnesium','ion'),*g(lambda w:w.mg,1)); row('Chloride','mg/L','-',k('chloride','ion'),*g(lambda w:w.cl,1)); row('Sulphate','mg/L','-',k('sulfate','ion'),*g(lambda w:w.so4,1)); row('Nitrate','mg NO<sub>3</sub><sup>-</sup>/L','50',k('nitrate','ion'),*g(lambda w:w.no3,1)); row('Nitrite','mg NO<sub>2</sub><sup>-</sup>/L','3',k('nitrite','ion'),('<0.004','<0.004','0.008'),('<0.004','<0.004','0.011')); row('Iron','mg/L','-',k('iron','ion'),('0.02','<0.01','0.09'),('0.03','<0.01','0.12')); row('Fluoride','mg/L','1.5',k('fluoride','ion'),('0.48','0.40','0.56'),('0.47','0.39','0.57'))
    open(r.path(),'w').write(f'<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>Water quality</title></head><body><ul class="menu"><li>Home<li>Customer Services<li>Core Businesses</ul><h1>Drinking Water Quality (April 2024 to March 2025)</h1><p>Nam Tau Islands Water Department (invented)</p><table border=1><tr><th rowspan=2>Parameter</th><th rowspan=2>Unit</th><th rowspan=2>Standard</th><th colspan=2>Average (Minimum - Maximum)</th></tr><tr><th>{A}</th><th>{B}</th></tr>{h}</table><p>Last revision date: 30 June 2025</p></body></html>'); r.save()

for n in (sys.argv[1:] or [f'{i:02}' for i in range(1,25)]):
    try: globals()['r'+n](); print(n,'ok')
    except Exception as e:
        import traceback; traceback.print_exc(); print(n,'FAILED',e)
