"""Makes the reports of this folder: layouts that taught something and stand in none of the others.

python make.py [NAME...], with LaTeX, groff, an office, a browser and the modules openpyxl, xlsxwriter, odfpy, fpdf2, reportlab; what they
share is in ../third/kit.py. All waters, places and works are invented; everything is written to the folder of this file.
"""
import csv, os, random, subprocess, sys
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "third"))
import kit
from kit import *
OUT = kit.OUT = os.path.dirname(os.path.abspath(__file__))
random.seed(77)
def rep(fn):
    if len(sys.argv)<2 or any(a in fn.__name__ for a in sys.argv[1:]): fn()
    return fn
N=lambda x,d=1: f(x,d); C=lambda x,d=1: f(x,d,',')
def latex(body,file,pre=''):
    open(TMP+'/t.tex','w').write(r'\documentclass[10pt]{article}\usepackage[utf8]{inputenc}\usepackage[T1]{fontenc}\usepackage[margin=2cm]{geometry}\usepackage{textcomp}\usepackage{multicol}'+pre+r'\begin{document}\pagestyle{empty}'+body+r'\end{document}')
    subprocess.run(['pdflatex','-interaction=nonstopmode','-output-directory',TMP,TMP+'/t.tex'],check=True,capture_output=True); subprocess.run(['cp',TMP+'/t.pdf',OUT+'/'+file],check=True)

# 1 Northern Ireland: rows with their own dates, each determinand once
@rep
def r01():
    r=R('01-rows-own-dates.csv','en',None); w=W(38,7,14,2.1,24,31,9)
    rows=[('Aluminium',None,'ug Al/l','31'),('Ammonium',('ammonium','ion','mg/L'),'mg NH4/l','<0.04'),('Chloride',('chloride','ion','mg/L'),'mg Cl/l',N(w.cl)),
     ('Conductivity at 20C',('conductivity','20C','µS/cm'),'uS/cm at 20C',N(w.ec20,0)),('Copper',('copper','ion','mg/L'),'mg Cu/l','0.041'),('Iron',('iron','ion','µg/L'),'ug Fe/l','17'),
     ('Manganese',('manganese','ion','µg/L'),'ug Mn/l','<1.4'),('Nitrate',('nitrate','ion','mg/L'),'mg NO3/l',N(w.no3)),('Nitrite',('nitrite','ion','mg/L'),'mg NO2/l','<0.005'),
     ('Hydrogen ion (pH)',('ph',None,'pH'),'pH value','7.6'),('Sodium',('sodium','ion','mg/L'),'mg Na/l',N(w.na)),('Sulphate',('sulfate','ion','mg/L'),'mg SO4/l',N(w.so4)),
     ('Total Hardness',('hardness_total','CaCO3','mg/L'),'mg CaCO3/l',N(w.caco3,0)),('Calcium',('calcium','ion','mg/L'),'mg Ca/l',N(w.ca)),('Magnesium',('magnesium','ion','mg/L'),'mg Mg/l',N(w.mg,2)),
     ('Potassium',('potassium','ion','mg/L'),'mg K/l',N(w.k)),('Residual chlorine - Free',('chlorine_free',None,'mg/L'),'mg/l','0.44'),('Residual chlorine - Total',('chlorine_total',None,'mg/L'),'mg/l','0.58'),('Lead',('lead','ion','µg/L'),'ug Pb/l','0.61'),('Zinc',('zinc','ion','µg/L'),'ug Zn/l','22')]
    ds=['14/01/2025','03/02/2025','11/03/2025','19/05/2025','07/08/2025']
    with open(r.path(),'w') as fh:
        c=csv.writer(fh); c.writerow(['Supply Zone','Date Sampled','Parameter','Concentration or Value (all samples)','Units','PCV'])
        for i,(n,k,u,v) in enumerate(rows):
            if k: r.one(*k,'single',v)
            c.writerow(['ZN0412 Drumcarrow',ds[i%5],n,v,u,''])
    r.save()

# 2 Florida-like CCR
@rep
def r02():
    r=R('02-ccr-dates-by-row.pdf','en',None,ask=['chlorine_free'])
    rows=[('Barium (ppm)',None,'04/2023','N','0.012','NA','2','2','Erosion of natural deposits'),
     ('Fluoride (ppm)',('fluoride','ion','mg/L'),'04/2023','N','0.71','0.65-0.71','4','4.0','Erosion of natural deposits'),
     ('Nitrate (as Nitrogen) (ppm)',('nitrate','N','mg/L'),'05/2024','N','0.34','0.12-0.34','10','10','Runoff from fertilizer use'),
     ('Sodium (ppm)',('sodium','ion','mg/L'),'04/2023','N','24.6','22.1-24.6','N/A','160','Saltwater intrusion'),
     ('Chlorine (ppm)',('chlorine_free',None,'mg/L'),'Monthly 2024','N','1.9','0.8-2.9','MRDLG = 4','MRDL = 4.0','Water additive used to control microbes')]
    lead=[('Copper (tap water) (ppm)','07/2023','N','0.41','0','1.3','1.3','Corrosion of household plumbing'),('Lead (tap water) (ppb)','07/2023','N','2.3','1','0','15','Corrosion of household plumbing')]
    h='<html><head><style>table{border-collapse:collapse;font:11px Arial}td,th{border:1px solid #888;padding:3px;vertical-align:middle;width:80px}</style></head><body><h2>Annual Water Quality Report 2024 - Town of Larkmoor Bay</h2><p>We are pleased to present this report. Our water comes from four wells in the upper aquifer. The wells draw from 60 to 110 feet.</p><table><tr><th>Contaminant and Unit of Measurement</th><th>Dates of sampling (mo/yr)</th><th>MCL Violation Y/N</th><th>Level Detected</th><th>Range of Results</th><th>MCLG</th><th>MCL</th><th>Likely Source of Contamination</th></tr>'
    for n,k,d,y,l,g,a,b,s in rows:
        h+=tr([n,d,y,l,g,a,b,s])
        if k:
            r.one(*k,'single',l)
            if g!='NA': r.one(*k,'single',g)
    h+='</table><p>Lead and Copper (Tap Water)</p><table><tr><th>Contaminant and Unit of Measurement</th><th>Dates of sampling (mo/yr)</th><th>AL Exceeded Y/N</th><th>90th Percentile Result</th><th>No. of sampling sites exceeding the AL</th><th>MCLG</th><th>AL (Action Level)</th><th>Likely Source of Contamination</th></tr>'
    for x in lead:
        h+=tr(list(x))
        r.one('copper' if 'Copper' in x[0] else 'lead','ion','mg/L' if 'Copper' in x[0] else 'µg/L','p90',x[3])
    h+='</table></body></html>'
    chromium(h,r.path()); r.save()

# 3 Liechtenstein: units alone head the hardness
@rep
def r03():
    r=R('03-units-head-hardness.html','de',['Balzenau','Triesach','Vorderegg'])
    h='<html><body><h1>Wasserhärte in unserem Versorgungsgebiet</h1><table><tr><th>Ort</th><th>°dH</th><th>°fH</th><th>Nitrat (mg NO3/l)</th></tr>'
    for p,w in [('Balzenau',W(70,14,4,1,6,22,7)),('Triesach',W(58,11,3,1,4,18,4)),('Vorderegg',W(44,9,2,0.7,3,12,3))]:
        h+=tr([p,r.one('hardness_total',None,'°dH','single',C(w.dh),p),r.one('hardness_total',None,'°fH','single',C(w.fh),p),r.one('nitrate','ion','mg/L','single',C(w.no3),p)])
    h+='</table><p>Öffnungszeiten: Mo 8-12, Di 8-12, Do 14-18, Fr 8-11 Uhr</p></body></html>'
    open(r.path(),'w').write(h); r.save()

# 4 Südtirol bilingual, office
@rep
def r04():
    r=R('04-zweisprachig.pdf','any',None); w=W(48,16,3,1,3,41,3)
    rows=[('Temperatur / Temperatura','°C','9,4',('temperature',None,'°C'),'-'),('pH-Wert / pH','','7,9',('ph',None,'pH'),'6,5 - 9,5'),('Leitfähigkeit bei 20 °C / Conducibilità a 20 °C','µS/cm',C(w.ec20,0),('conductivity','20C','µS/cm'),'2500'),
     ('Gesamthärte / Durezza totale','°fH',C(w.fh),('hardness_total',None,'°fH'),'15 - 50*'),('Kalzium / Calcio','mg/l',C(w.ca),('calcium','ion','mg/L'),'-'),('Magnesium / Magnesio','mg/l',C(w.mg),('magnesium','ion','mg/L'),'-'),
     ('Natrium / Sodio','mg/l',C(w.na),('sodium','ion','mg/L'),'200'),('Kalium / Potassio','mg/l',C(w.k),('potassium','ion','mg/L'),'-'),('Chloride / Cloruri','mg/l',C(w.cl),('chloride','ion','mg/L'),'250'),('Sulfate / Solfati','mg/l',C(w.so4),('sulfate','ion','mg/L'),'250'),
     ('Nitrate / Nitrati','mg/l',C(w.no3),('nitrate','ion','mg/L'),'50'),('Nitrite / Nitriti','mg/l','< 0,02',('nitrite','ion','mg/L'),'0,50'),('Ammonium / Ammonio','mg/l','< 0,05',('ammonium','ion','mg/L'),'0,50'),('Eisen / Ferro','µg/l','< 10',('iron','ion','µg/L'),'200'),('Mangan / Manganese','µg/l','< 5',('manganese','ion','µg/L'),'50'),('Hydrogenkarbonate / Idrogenocarbonati','mg/l',C(w.hco3,0),('bicarbonate','HCO3','mg/L'),'-'),('Fluoride / Fluoruri','mg/l','0,11',('fluoride','ion','mg/L'),'1,50')]
    h='<html><head><style>table{border-collapse:collapse}td,th{border:1px solid #000;font-size:10pt}</style></head><body><p>Gemeinde Karnegg / Comune di Carneglio</p><p>Trinkwasseruntersuchung / Analisi dell\'acqua potabile</p><p>Entnahmestelle / Punto di prelievo: Brunnen Dorfplatz - Entnahmedatum / Data di prelievo: 12.05.2025</p><table><tr><th>Parameter / Parametro</th><th>Einheit / Unità</th><th>Wert / Valore</th><th>Grenzwert / Valore limite</th></tr>'
    for n,u,v,k,l in rows: h+=tr([n,u,r.one(*k,'single',v),l])
    h+='</table><p>* empfohlener Bereich / intervallo consigliato</p></body></html>'
    open(TMP+'/04-zweisprachig.html','w').write(h); subprocess.run(['soffice','-env:UserInstallation=file://'+TMP+'/lo','--headless','--convert-to','pdf:writer_web_pdf_Export','--outdir',OUT,TMP+'/04-zweisprachig.html'],check=True,capture_output=True,timeout=150)
    r.save()

# 5 La Réunion, html, LQ legend
@rep
def r05():
    r=R('05-lq.html','fr',None); w=three(W(14,9,12,2.4,9,4,6)); 
    h='<html><body><h2>Bilan 2024 de la qualité de l\'eau - UDI Ravine Haute</h2><table><thead><tr><th rowspan=2>Paramètre</th><th rowspan=2>Unité</th><th rowspan=2>Nb de mesures</th><th colspan=3>Résultats</th><th rowspan=2>Limite de qualité</th><th rowspan=2>Référence de qualité</th></tr><tr><th>Mini</th><th>Moy.</th><th>Maxi</th></tr></thead>'
    S=['min','mean','max']
    def row(n,u,nb,k,vals,lim='',ref=''):
        nonlocal h; h+=tr([n,u,nb]+r.cells(k,S,vals)+[lim,ref])
    row('pH','unité pH','24',('ph',None,'pH'),['7,4','7,8','8,1'],'','6,5 à 9')
    row('Conductivité à 25°C','µS/cm','24',('conductivity','25C','µS/cm'),[C(x.ec25,0) for x in w],'','200 à 1100')
    row('Titre hydrotimétrique','°f','6',('hardness_total',None,'°fH'),[C(x.fh) for x in w])
    row('Titre alcalimétrique complet','°f','6',('alkalinity','CaCO3','°fH'),[C(x.tac) for x in w])
    row('Calcium','mg/L','6',('calcium','ion','mg/L'),[C(x.ca) for x in w])
    row('Magnésium','mg/L','6',('magnesium','ion','mg/L'),[C(x.mg) for x in w])
    row('Sodium','mg/L','6',('sodium','ion','mg/L'),[C(x.na) for x in w],'','200')
    row('Chlorures','mg/L','6',('chloride','ion','mg/L'),[C(x.cl) for x in w],'','250')
    row('Sulfates','mg/L','6',('sulfate','ion','mg/L'),[C(x.so4) for x in w],'','250')
    row('Nitrates (en NO3)','mg/L','12',('nitrate','ion','mg/L'),[C(x.no3) for x in w],'50')
    row('Nitrites (en NO2)','mg/L','12',('nitrite','ion','mg/L'),['<0,02','<0,02','<0,02'],'0,5')
    for s in S: r.rd.append(dict(determinand='ammonium',basis='ion',unit='mg/L',statistic=s,value=None,below_detection=True,detection_limit=None))
    row('Ammonium (en NH4)','mg/L','12',None,['&lt;LQ','<LQ','<LQ'],'','0,10')
    for s in S[:1]: r.rd.append(dict(determinand='iron',basis='ion',unit='µg/L',statistic=s,value=None,below_detection=True,detection_limit=None))
    r.one('iron','ion','µg/L','mean','12'); r.one('iron','ion','µg/L','max','35')
    row('Fer total','µg/L','4',None,['<LQ','12','35'],'','200')
    row('Chlore libre','mg/L','24',('chlorine_free',None,'mg/L'),['0,10','0,24','0,41'])
    row('Turbidité','NFU','24',('turbidity',None,'NTU'),['0,10','0,32','0,9'],'1','0,5')
    row('Escherichia coli','n/100mL','24',None,['0','0','0'],'0','')
    h+='</table><p>LQ : limite de quantification du laboratoire (ammonium 0,05 mg/L ; fer 10 µg/L)</p><p>UDI : unité de distribution</p></body></html>'
    open(r.path(),'w').write(h.replace('&amp;lt;','&lt;')); r.save()

# 6 Suriname ods nl
@rep
def r06():
    from odf.opendocument import OpenDocumentSpreadsheet as D; from odf.table import Table,TableRow,TableCell; from odf.text import P
    r=R('06-laboratorium.ods','nl',['Ruw water','Rein water','Distributie']); w=W(9,3,31,2,28,12,2)
    sam=['Ruw water','Rein water','Distributie']
    rows=[['Laboratoriumuitslag drinkwater 2e kwartaal 2025','','','','','',''],['Station Kwattabrug','','','','','',''],['','','','','','',''],['Nr.','Parameter','Eenheid']+sam+['Norm']]
    def row(i,n,u,k,vs,norm): rows.append([str(i),n,u]+[r.one(*k,'single',v,s) if k else v for v,s in zip(vs,sam)]+[norm])
    row(1,'Zuurgraad','pH',('ph',None,'pH'),['6,1','7,6','7,5'],'6,5 - 8,5')
    row(2,'EGV (25 °C)','µS/cm',('conductivity','25C','µS/cm'),[C(w.ec25*.8,0),C(w.ec25,0),C(w.ec25*1.01,0)],'-')
    row(3,'Troebelheid','FTE',('turbidity',None,'NTU'),['4,1','0,3','0,4'],'< 5')
    row(4,'Totaal ijzer','mg/L Fe',('iron','ion','mg/L'),['3,40','0,05','0,08'],'< 0,3')
    row(5,'Mangaan','mg/L Mn',('manganese','ion','mg/L'),['0,22','< 0,02','< 0,02'],'< 0,1')
    row(6,'Ammonium','mg/L NH4',('ammonium','ion','mg/L'),['0,81','0,10','0,09'],'< 1,5')
    row(7,'Nitriet','mg/L NO2',('nitrite','ion','mg/L'),['< 0,01','0,02','0,02'],'< 3')
    row(8,'Nitraat','mg/L NO3',('nitrate','ion','mg/L'),['0,6','2,1','2,0'],'< 50')
    row(9,'Chloride','mg/L Cl',('chloride','ion','mg/L'),['25','28','28'],'< 250')
    row(10,'Totale hardheid','°D',('hardness_total',None,'°dH'),['1,4',C(w.dh),C(w.dh)],'')
    row(11,'Alkaliteit','mg/L HCO3',('alkalinity','HCO3','mg/L'),['41',C(w.hco3,0),C(w.hco3,0)],'')
    row(12,'Vrij chloor','mg/L',('chlorine_free',None,'mg/L'),['-','0,6','0,3'],'0,2 - 5')
    row(13,'Natrium','mg/L Na',('sodium','ion','mg/L'),['27','31','31'],'< 200')
    d=D(); t=Table(name='Blad1')
    for x in rows:
        q=TableRow()
        for c in x:
            e=TableCell(valuetype='string'); e.addElement(P(text=c)); q.addElement(e)
        t.addElement(q)
    d.spreadsheet.addElement(t); d.save(r.path()); r.save()

# 7 Chile reportlab
@rep
def r07():
    from reportlab.platypus import SimpleDocTemplate,Table as T,Paragraph; from reportlab.lib.styles import getSampleStyleSheet; from reportlab.lib import colors
    r=R('07-informe-nch.pdf','es',None); w=W(96,18,62,4,98,160,11)
    st=getSampleStyleSheet()['Normal']
    rows=[['Parámetro','Expresado como','Unidad','L.D.','Resultado','Requisito NCh','Método']]
    def row(n,e,u,ld,k,v,lim):
        if isinstance(v,str) and v=='N.D.': r.one(*k,'single',v,dl=float(ld.replace(',','.')))
        else: r.one(*k,'single',v)
        rows.append([n,e,u,ld,v,lim,'SM 22 Ed.'])
    row('Amoníaco','NH3','mg/L','0,05',('ammonium','NH3','mg/L'),'N.D.','1,5')
    row('Cloruro','Cl-','mg/L','1',('chloride','ion','mg/L'),C(w.cl,0),'400')
    row('Cobre','Cu','mg/L','0,02',('copper','ion','mg/L'),'0,03','2,0')
    row('Conductividad','a 25 °C','µS/cm','1',('conductivity','25C','µS/cm'),C(w.ec25,0),'-')
    row('Fluoruro','F-','mg/L','0,1',('fluoride','ion','mg/L'),'0,2','1,5')
    row('Hierro','Fe','mg/L','0,05',('iron','ion','mg/L'),'N.D.','0,3')
    row('Magnesio','Mg','mg/L','0,1',('magnesium','ion','mg/L'),C(w.mg),'125')
    row('Manganeso','Mn','mg/L','0,02',('manganese','ion','mg/L'),'N.D.','0,1')
    row('Nitrato','NO3-','mg/L','0,5',('nitrate','ion','mg/L'),C(w.no3),'50')
    row('Nitrito','NO2-','mg/L','0,02',('nitrite','ion','mg/L'),'N.D.','3')
    row('pH','-','-','-',('ph',None,'pH'),'7,61','6,5 - 8,5')
    row('Calcio','Ca','mg/L','0,1',('calcium','ion','mg/L'),C(w.ca),'-')
    row('Sodio','Na','mg/L','0,1',('sodium','ion','mg/L'),C(w.na),'-')
    row('Potasio','K','mg/L','0,1',('potassium','ion','mg/L'),C(w.k),'-')
    row('Dureza total','CaCO3','mg/L','1',('hardness_total','CaCO3','mg/L'),C(w.caco3,0),'-')
    row('Alcalinidad total','CaCO3','mg/L','1',('alkalinity','CaCO3','mg/L'),C(w.alk,0),'-')
    row('Sólidos disueltos totales','-','mg/L','5',('tds',None,'mg/L'),C(w.tds,0),'1.500')
    row('Sulfatos','SO4-2','mg/L','2',('sulfate','ion','mg/L'),C(w.so4,0),'500')
    row('Turbiedad','-','UNT','0,1',('turbidity',None,'NTU'),'0,35','4')
    row('Zinc','Zn','mg/L','0,02',('zinc','ion','mg/L'),'0,05','3,0')
    t=T(rows,repeatRows=1); t.setStyle([('GRID',(0,0),(-1,-1),.4,colors.grey),('FONTSIZE',(0,0),(-1,-1),8)])
    SimpleDocTemplate(r.path()).build([Paragraph('Informe de ensayo N° 2025-1178',st),Paragraph('Cliente: Comité de Agua Rural Quebrada Honda',st),Paragraph('Fecha de muestreo: 08-04-2025 10:20 h. Punto: Estanque 50 m3',st),t,Paragraph('N.D.: no detectado. L.D.: límite de detección del método. Resultados válidos sólo para la muestra analizada.',st)])
    r.save()

# 10 Jamaica, pasted sentences and doubled values
@rep
def r10():
    r=R('10-letter.txt','en',None); w=W(82,9,11,1.2,19,8,12)
    t=f"""Subject: Re: water hardness at Guava Ridge

Dear Ms Pinnock,

Thank you for writing to us. The supply at Guava Ridge comes from two limestone wells. The results for the last
quarter are as follows. Total hardness averaged {r.one('hardness_total','CaCO3','mg/L','mean',N(w.caco3,0))} mg/L as CaCO3, which is typical for limestone water. Calcium was {r.one('calcium','ion','mg/L','single',N(w.ca,0))} mg/L
and magnesium {r.one('magnesium','ion','mg/L','single',N(w.mg,0))} mg/L. Nitrate peaked at {r.one('nitrate','ion','mg/L','max','15.5')} mg/L as NO3 in October and was lowest in January, at {r.one('nitrate','ion','mg/L','min','9.2')} mg/L. The pH
was stable around {r.one('ph',None,'pH','single','7.3')}. Free chlorine at the tap is kept at {r.one('chlorine_free',None,'mg/L','single','0.5')} mg/L. Iron was below 0.02 mg/L in every sample.

Chloride: {r.one('chloride','ion','mg/L','single',N(w.cl,0))} (< 250)
Sulphate: {r.one('sulfate','ion','mg/L','single',N(w.so4,0))} (< 250)
Sodium: {r.one('sodium','ion','mg/L','single',N(w.na,0))} (< 200)

All values in mg/L. Our office is open Mon-Thu 8-4 and Fri 8-3.

Kind regards
"""
    r.rd.append(dict(determinand='iron',basis='ion',unit='mg/L',statistic='single',value=None,below_detection=True,detection_limit=0.02))
    open(r.path(),'w').write(t); r.save()

# 11 Namibia: classes
@rep
def r11():
    r=R('11-groups.pdf','en',None); w=W(61,33,140,9,130,80,22)
    rows=[('pH',None,'7.9',('ph',None,'pH'),'6-9','5.5-9.5','4-11','<4 or >11','A'),('Electrical conductivity at 25 °C','mS/m',N(w.ec25/10,0),('conductivity','25C','mS/m'),'150','300','400','400','A'),
     ('Total dissolved solids','mg/l',N(w.tds,0),('tds',None,'mg/L'),'','','','','-'),('Sodium as Na','mg/l',N(w.na,0),('sodium','ion','mg/L'),'100','400','800','800','B'),('Potassium as K','mg/l',N(w.k,0),('potassium','ion','mg/L'),'200','400','800','800','A'),
     ('Calcium as CaCO3','mg/l',N(w.hcaco3,0),('calcium','CaCO3','mg/L'),'375','500','1000','1000','A'),('Magnesium as CaCO3','mg/l',N(w.mg*4.118,0),('magnesium','CaCO3','mg/L'),'290','420','840','840','A'),
     ('Total hardness as CaCO3','mg/l',N(w.caco3,0),('hardness_total','CaCO3','mg/L'),'300','650','1300','1300','A'),('Total alkalinity as CaCO3','mg/l',N(w.alk,0),('alkalinity','CaCO3','mg/L'),'','','','',''),
     ('Chloride as Cl','mg/l',N(w.cl,0),('chloride','ion','mg/L'),'250','600','1200','1200','A'),('Sulphate as SO4','mg/l',N(w.so4,0),('sulfate','ion','mg/L'),'200','600','1200','1200','A'),('Nitrate as N','mg/l',N(w.no3/4.427),('nitrate','N','mg/L'),'10','20','40','40','A'),
     ('Nitrite as N','mg/l','<0.1',('nitrite','N','mg/L'),'','','','',''),('Fluoride as F','mg/l','0.9',('fluoride','ion','mg/L'),'1.5','2.0','3.0','3.0','A'),('Iron as Fe','mg/l','0.04',('iron','ion','mg/L'),'0.1','1.0','2.0','2.0','A'),('Manganese as Mn','mg/l','<0.01',('manganese','ion','mg/L'),'0.05','1.0','2.0','2.0','A')]
    from reportlab.platypus import SimpleDocTemplate,Table as T,Paragraph; from reportlab.lib.styles import getSampleStyleSheet
    st=getSampleStyleSheet()['Normal']; d=[['DETERMINAND','UNIT','RESULT','GROUP A','GROUP B','GROUP C','GROUP D','CLASS']]
    for n,u,v,k,*l in rows: d.append([n,u or '',r.one(*k,'single',v)]+list(l))
    t=T(d); t.setStyle([('FONTSIZE',(0,0),(-1,-1),8),('LINEBELOW',(0,0),(-1,0),1,'black')])
    SimpleDocTemplate(r.path()).build([Paragraph('TEST REPORT - WATER ANALYSIS',st),Paragraph('Sample: Borehole WW 20417, Farm Okanjande. Date received: 2024-11-06',st),t,Paragraph('Group A: excellent quality. Group B: acceptable quality. Group C: low health risk. Group D: high health risk.',st)]); r.save()

# 12 Dutch kit notes
@rep
def r12():
    r=R('12-testjes.txt','nl',None)
    t=f"""kraanwater keuken 3 mei
gh {r.one('hardness_total',None,'°dH','single','8')} dgh, kh {r.one('hardness_carbonate',None,'°dH','single','6')} dkh
pH {r.one('ph',None,'pH','single','7,5')}
NO3 tussen {r.one('nitrate','ion','mg/L','min','5')} en {r.one('nitrate','ion','mg/L','max','10')} mg/l
NO2 0 mg/l
chloor niets te zien
fosfaat {r.one('phosphate','ion','mg/L','single','0,25')} mg/l (PO4)
geleidbaarheid {r.one('conductivity',None,'µS/cm','single','384')} µS (meter op 25 graden)
temp uit de kraan 11 graden
"""
    r.rd.append(dict(determinand='nitrite',basis='ion',unit='mg/L',statistic='single',value=0.0,below_detection=False,detection_limit=None))
    r.rd.append(dict(determinand='temperature',basis=None,unit='°C',statistic='single',value=11.0,below_detection=False,detection_limit=None))
    r.rd[-3]['basis']='25C'
    open(r.path(),'w').write(t); r.save()

# 13 Malaysia style: number with unit in name; compliance
@rep
def r13():
    r=R('13-compliance.html','en',None); w=three(W(11,2,6,2,7,6,4))
    h='<html><body><h1>Treated water quality 2024, Sungai Merbau works</h1><table><tr><th>No</th><th>Parameter</th><th>No. of tests</th><th>Compliance (%)</th><th>Standard (mg/l unless stated)</th><th>Lowest</th><th>Highest</th><th>Mean</th></tr>'
    i=0
    def row(n,c,s,k,v):
        nonlocal h,i; i+=1; v=[v[0],v[2],v[1]]; h+=tr([i,n,c,'99.8',s]+r.cells(k,['min','max','mean'],v))
    row('Turbidity (NTU)','365','5',('turbidity',None,'NTU'),['0.2','0.6','2.1'])
    row('pH','365','6.5 - 9.0',('ph',None,'pH'),['6.9','7.4','8.0'])
    row('Free residual chlorine','365','0.2 - 5.0',('chlorine_free',None,'mg/L'),['1.0','1.6','2.2'])
    row('Ammonia (as N)','52','1.5',('ammonium','N','mg/L'),['<0.02','0.03','0.08'])
    row('Nitrate (as N)','12','10',('nitrate','N','mg/L'),[N(x.no3/4.427,2) for x in w])
    row('Iron','52','0.3',('iron','ion','mg/L'),['0.01','0.04','0.11'])
    row('Manganese','52','0.1',('manganese','ion','mg/L'),['<0.01','0.02','0.05'])
    row('Aluminium','52','0.2',None,['0.02','0.06','0.13'])
    row('Chloride','12','250',('chloride','ion','mg/L'),[N(x.cl) for x in w])
    row('Sulphate','12','250',('sulfate','ion','mg/L'),[N(x.so4) for x in w])
    row('Hardness (as CaCO3)','12','500',('hardness_total','CaCO3','mg/L'),[N(x.caco3) for x in w])
    row('Sodium','12','200',('sodium','ion','mg/L'),[N(x.na) for x in w])
    row('Conductivity (µS/cm @ 25°C)','12','-',('conductivity','25C','µS/cm'),[N(x.ec25,0) for x in w])
    open(r.path(),'w').write(h+'</table></body></html>'); r.save()

# 14 LaTeX, two columns of prose
@rep
def r14():
    r=R('14-zweispaltig.pdf','de',None); w=W(74,13,9,1.6,15,28,14)
    b=r'''\section*{Ihr Trinkwasser im Jahr 2024}\begin{multicols}{2}\sloppy
Das Wasser der Gemeinde Oberfelsach kommt aus drei Quellen im Kiefernwald und einem Tiefbrunnen bei der Mühle. Die Gesamthärte des Wassers liegt im Mittel bei '''+r.one('hardness_total',None,'°dH','mean',C(w.dh))+r'''~°dH, der Nitratgehalt beträgt im Jahresmittel '''+r.one('nitrate','ion','mg/L','mean',C(w.no3))+r'''~mg/l NO3. Calcium wird mit '''+r.one('calcium','ion','mg/L','single',C(w.ca))+r'''~mg/l und Magnesium mit '''+r.one('magnesium','ion','mg/L','single',C(w.mg))+r'''~mg/l gefunden. Natrium ist mit '''+r.one('sodium','ion','mg/L','single',C(w.na))+r'''~mg/l gering.

Der pH-Wert liegt zwischen '''+r.one('ph',None,'pH','min','7,4')+' und '+r.one('ph',None,'pH','max','7,7')+r'''. Die elektrische Leitfähigkeit wurde bei 25~°C zu '''+r.one('conductivity','25C','µS/cm','single',C(w.ec25,0))+r'''~µS/cm bestimmt. Chlorid ist mit '''+r.one('chloride','ion','mg/L','single',C(w.cl))+r'''~mg/l und Sulfat mit '''+r.one('sulfate','ion','mg/L','single',C(w.so4))+r'''~mg/l enthalten. Eisen und Mangan liegen unter der Bestimmungsgrenze. Unser Wasser wird nicht gechlort. Das Wasserwerk ist Do 14-18 und Sa 9-12 geöffnet, Telefon 0 12 34 / 56 78.
\end{multicols}'''
    latex(b,r.file,r'\DeclareUnicodeCharacter{00B0}{\textdegree}\DeclareUnicodeCharacter{00B5}{\textmu}'); r.save()

# 15 US turbidity table without a name
@rep
def r15():
    r=R('15-tt-turbidity.html','en',None,ask=['turbidity'])
    h='''<html><body><h3>Water quality table - Cedar Notch Water District 2024</h3><table><tr><th>Regulated contaminants</th><th>Units</th><th>MCL</th><th>MCLG</th><th>Detected level</th><th>Range (low - high)</th><th>Major sources</th><th>Violation</th></tr>'''
    for n,k,u,m,g,d,ra in [('Arsenic',None,'ppb','10','0','2.1','1.3 - 2.1'),('Nitrate [as N]',('nitrate','N','mg/L'),'ppm','10','10','1.1','0.42 - 1.1'),('Fluoride',('fluoride','ion','mg/L'),'ppm','4','4','0.7','0.6 - 0.8')]:
        if k: r.one(*k,'single',d); r.one(*k,'single',ra)
        h+=tr([n,u,m,g,d,ra,'Natural deposits','No'])
    h+='''</table><h3>Turbidity</h3><table><tr><th></th><th>Limit (Treatment Technique)</th><th>Level Detected</th><th>Violation</th></tr><tr><td>Highest single measurement</td><td>1 NTU</td><td>0.18 NTU</td><td>No</td></tr><tr><td>Lowest monthly % meeting limit</td><td>0.3 NTU</td><td>100%</td><td>No</td></tr></table>
<h3>Other parameters</h3><table><tr><th>Parameter</th><th>Average</th><th>Range</th></tr>'''
    for n,k,a,ra in [('Hardness (grains per gallon)',('hardness_total',None,'gpg'),'7.2','6.4 - 8.1'),('pH (standard units)',('ph',None,'pH'),'8.1','7.8 - 8.4'),('Sodium (ppm)',('sodium','ion','mg/L'),'19','15 - 22'),('Alkalinity (ppm as CaCO3)',('alkalinity','CaCO3','mg/L'),'98','88 - 110'),('Total dissolved solids (ppm)',('tds',None,'mg/L'),'210','180 - 240')]:
        r.one(*k,'mean',a); r.one(*k,'single',ra); h+=tr([n,a,ra])
    r.one('turbidity',None,'NTU','max','0.18')
    open(r.path(),'w').write(h+'</table></body></html>'); r.save()

# 16 Canary Islands notification, groff
@rep
def r16():
    r=R('16-boletin-lc.pdf','es',None); w=W(18,24,96,11,120,40,8)
    rows=[('Amonio','mg/L','0,50','0,05',('ammonium','ion','mg/L'),'<L.C.'),('Cloruro','mg/L','250','1,0',('chloride','ion','mg/L'),C(w.cl)),('Sulfato','mg/L','250','1,0',('sulfate','ion','mg/L'),C(w.so4)),('Sodio','mg/L','200','0,5',('sodium','ion','mg/L'),C(w.na)),('Potasio','mg/L','','0,5',('potassium','ion','mg/L'),C(w.k)),('Calcio','mg/L','','0,5',('calcium','ion','mg/L'),C(w.ca)),('Magnesio','mg/L','','0,5',('magnesium','ion','mg/L'),C(w.mg)),('Nitrato','mg/L','50','0,5',('nitrate','ion','mg/L'),C(w.no3)),('Nitrito','mg/L','0,50','0,02',('nitrite','ion','mg/L'),'<L.C.'),('Fluoruro','mg/L','1,5','0,10',('fluoride','ion','mg/L'),'1,1'),('Boro','mg/L','1,5','0,05',('boron','ion','mg/L'),'0,62'),('Hierro','µg/L','200','10',('iron','ion','µg/L'),'<L.C.'),('Conductividad a 20 ºC','µS/cm','2500','10',('conductivity','20C','µS/cm'),C(w.ec20,0)),('pH','ud. pH','6,5-9,5','-',('ph',None,'pH'),'7,9'),('Cloro libre residual','mg/L','1,0','0,05',('chlorine_free',None,'mg/L'),'0,38'),('Turbidez','UNF','4','0,2',('turbidity',None,'NTU'),'<L.C.'),('Bicarbonatos','mg/L','','5',('bicarbonate','HCO3','mg/L'),C(w.hco3,0)),('Dureza total','ºF','','0,5',('hardness_total',None,'°fH'),C(w.fh))]
    g='.ll 17c\n.sp\nAGUAS DEL BARRANCO - BOLETIN DE ANALISIS\n.br\nMuestra: grifo del consumidor, Lomo Alto\n.br\nFecha de toma: 03/06/2025\n.sp\n.TS\ntab(;);\nl l l l l l.\nParámetro;Unidad;Valor paramétrico;L.C.;Resultado;Calif.\n'
    for n,u,l,c,k,v in rows:
        if v=='<L.C.': r.rd.append(dict(determinand=k[0],basis=k[1],unit=k[2],statistic='single',value=None,below_detection=True,detection_limit=float(c.replace(',','.'))))
        else: r.one(*k,'single',v)
        g+=';'.join([n,u,l,c,v,'APTO'])+'\n'
    g+='.TE\n.sp\nL.C.: límite de cuantificación. Calif.: calificación.\n'
    open(TMP+'/t.tr','w').write(g); p=subprocess.run('tbl '+TMP+'/t.tr | groff -Tpdf -K utf8 -ms > '+r.path(),shell=True,check=True,capture_output=True); r.save()

# 17 Morocco xlsx, French, sampling points as rows, units row
@rep
def r17():
    import xlsxwriter
    r=R('17-points.xlsx','fr',['Station de traitement','Réservoir Haut','Robinet école']); b=xlsxwriter.Workbook(r.path()); s=b.add_worksheet('Analyses'); f2=b.add_format({'num_format':'0.00'}); f1=b.add_format({'num_format':'0.0'})
    s.merge_range(0,0,0,9,'Contrôle de la qualité des eaux - février 2025')
    H=['Point de prélèvement','Heure','T°','pH','Cond.','Turb.','Cl2 libre','NO3-','TH','TAC']; U=['','','°C','','µS/cm à 20°C','NTU','mg/l','mg/l','meq/l','meq/l']
    for c,x in enumerate(H): s.write(2,c,x)
    for c,x in enumerate(U): s.write(3,c,x)
    K=[('temperature',None,'°C'),('ph',None,'pH'),('conductivity','20C','µS/cm'),('turbidity',None,'NTU'),('chlorine_free',None,'mg/L'),('nitrate','ion','mg/L'),('hardness_total',None,'meq/L'),('alkalinity','acid_capacity','meq/L')]
    for i,(p,v) in enumerate([('Station de traitement',['14.2','7.45','812','0.31','0.80','12.4','6.2','4.1']),('Réservoir Haut',['15.0','7.51','815','0.28','0.55','12.6','6.3','4.1']),('Robinet école',['16.1','7.55','818','0.35','0.30','12.5','6.2','4.2'])]):
        s.write(4+i,0,p); s.write(4+i,1,'09h%d0'%i)
        for c,(k,x) in enumerate(zip(K,v)): s.write(4+i,2+c,float(x)); r.one(*k,'single',x,p)
    b.close(); r.save()

# 18 Isle: across, stats rows beneath, limits
@rep
def r18():
    r=R('18-across-stats.tsv','en',None); w=three(W(9,3,12,.9,17,7,2))
    H=['','pH','Conductivity (µS/cm at 20°C)','Calcium (mg/l Ca)','Magnesium (mg/l Mg)','Sodium (mg/l Na)','Chloride (mg/l Cl)','Sulphate (mg/l SO4)','Nitrate (mg/l NO3)','Hardness (mg/l CaCO3)','Iron (µg/l Fe)']
    K=[('ph',None,'pH'),('conductivity','20C','µS/cm'),('calcium','ion','mg/L'),('magnesium','ion','mg/L'),('sodium','ion','mg/L'),('chloride','ion','mg/L'),('sulfate','ion','mg/L'),('nitrate','ion','mg/L'),('hardness_total','CaCO3','mg/L'),('iron','ion','µg/L')]
    o=['Glen Sulby supply - statistics for 2024','\t'.join(H),'\t'.join(['No. of samples','52','12','12','12','12','12','12','12','12','52']),'\t'.join(['Prescribed value','6.5-9.5','2500','','','200','250','250','50','','200'])]
    for st,x,ph,fe in zip(['min','mean','max'],w,['7.1','7.6','8.0'],['<5','11','64']):
        v=[ph,N(x.ec20,0),N(x.ca),N(x.mg),N(x.na),N(x.cl),N(x.so4),N(x.no3),N(x.caco3,0),fe]
        for k,y in zip(K,v): r.one(*k,st,y)
        o.append('\t'.join([{'min':'Minimum','mean':'Mean','max':'Maximum'}[st]]+v))
    o.append('\t'.join(['% compliance']+['100']*10))
    open(r.path(),'w').write('\n'.join(o)); r.save()

# 19 mineral-label prose in French, colon pairs on one line
@rep
def r19():
    r=R('19-etiquette.txt','fr',None); w=W(58,11,6,1,8,14,5)
    o=r.one
    t=f"""Eau du réseau de Saint-Aubin-les-Forges
Composition moyenne en mg/L : Calcium {o('calcium','ion','mg/L','mean',C(w.ca,0))} - Magnésium {o('magnesium','ion','mg/L','mean',C(w.mg,0))} - Sodium {o('sodium','ion','mg/L','mean',C(w.na,0))} - Potassium {o('potassium','ion','mg/L','mean',C(w.k,0))} - Bicarbonates {o('bicarbonate','HCO3','mg/L','mean',C(w.hco3,0))} - Chlorures {o('chloride','ion','mg/L','mean',C(w.cl,0))} - Sulfates {o('sulfate','ion','mg/L','mean',C(w.so4,0))} - Nitrates {o('nitrate','ion','mg/L','mean',C(w.no3,0))}
pH {o('ph',None,'pH','single','7,5')}
Dureté : {o('hardness_total',None,'°fH','single',C(w.fh,0))} °F
"""
    r.ask=['nitrate']
    open(r.path(),'w').write(t); r.save()
