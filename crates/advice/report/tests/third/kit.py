"""What the makers of this folder share: waters whose ions balance, expectations from what is printed, producers."""
import json, math, os, re, subprocess, tempfile
OUT=os.path.dirname(os.path.abspath(__file__))
TMP=tempfile.mkdtemp()
class W:
    def __init__(s,ca,mg,na,k,cl,so4,no3):
        s.ca,s.mg,s.na,s.k,s.cl,s.so4,s.no3=ca,mg,na,k,cl,so4,no3
        cat=ca/20.04+mg/12.15+na/22.99+k/39.1; an=cl/35.45+so4/48.03+no3/62.0
        s.m=cat-an; s.hco3=s.m*61.02; s.alk=s.m*50.04
        s.th=ca/40.08+mg/24.305; s.dh=s.th*5.608; s.fh=s.th*10.01; s.caco3=s.th*100.09
        s.kh=s.m*2.804; s.clark=s.caco3/14.254; s.gpg=s.caco3/17.118; s.tac=s.m*5.004
        M=dict(ca=(ca/40.08,2,119),mg=(mg/24.305,2,106),na=(na/22.99,1,50.1),k=(k/39.1,1,73.5),cl=(cl/35.45,1,76.3),so4=(so4/96.06,2,160),no3=(no3/62.0,1,71.4),h=(s.m,1,44.5))
        I=sum(c*z*z for c,z,l in M.values())/2000; q=math.sqrt(I)
        y=10**(-0.5*(q/(1+q)-0.3*I)); s.ec25=sum(c*l for c,z,l in M.values())*y*y; s.ec20=s.ec25*0.897
        s.tds=ca+mg+na+k+cl+so4+no3+s.hco3/2+8
        s.hcaco3=ca*2.497
    def x(s,f): return W(*[getattr(s,a)*f for a in 'ca mg na k cl so4 no3'.split()])
def three(w,a=0.86,b=1.13): return [w.x(a),w,w.x(b)]
def f(x,d=1,c='.'):
    return f'{x:.{d}f}'.replace('.',c)
class R:
    def __init__(s,file,lang,zone,ask=(),contra=None):
        s.file,s.lang,s.zone,s.ask,s.contra=file,lang,zone,list(ask),contra; s.rd=[]
    def path(s): return f'{OUT}/{s.file}'
    def one(s,det,basis,unit,stat,printed,sample=None,dl=None):
        """record a printed value; returns what is printed"""
        val=None; p=printed
        if isinstance(p,tuple): p,val=p
        if det is None or p in ('','-','–'): return p
        def rec(st,v,below=False,d=None):
            r=dict(determinand=det,basis=basis,unit=unit,statistic=st,value=v,below_detection=below,detection_limit=d)
            if sample is not None: r['sample']=sample
            s.rd.append(r)
        t=p.strip()
        if val is not None: rec(stat,val); return p
        if t.startswith(('<','&lt;')):
            rec(stat,None,True,float(re.search(r'[\d.,]+',t)[0].replace(',','.'))); return p
        if t.lower() in ('n.d.','bdl','nd','n.n.','n.b.','not detected','nbg'):
            rec(stat,None,True,dl); return p
        m=re.match(r'^([\d.,]+)\s*(?:-|–|to|à|bis|tot|a)\s*([\d.,]+)$',t)
        if m:
            rec('min',float(m[1].replace(',','.'))); rec('max',float(m[2].replace(',','.'))); return p
        rec(stat,float(re.match(r'[\d.,]+',t)[0].replace(',','.'))); return p
    def cells(s,key,stats,vals,sample=None):
        if key is None: return [v[0] if isinstance(v,tuple) else v for v in vals]
        det,basis,unit=key
        return [s.one(det,basis,unit,st,v,sample) for st,v in zip(stats,vals)]
    def save(s):
        d=dict(file=s.file,language=s.lang,sample_or_zone=s.zone,readings=s.rd,must_ask=s.ask,contradiction=s.contra)
        json.dump(d,open(s.path().rsplit('.',1)[0]+'.expected.json','w'),ensure_ascii=False,indent=1)
def chromium(html,pdf):
    open(TMP+'/t.html','w').write(html)
    subprocess.run(['chromium','--headless','--no-sandbox','--disable-gpu','--user-data-dir='+TMP+'/chr','--no-pdf-header-footer','--print-to-pdf='+pdf,TMP+'/t.html'],check=True,capture_output=True,timeout=120)
def soffice(src,fmt):
    subprocess.run(['soffice','-env:UserInstallation=file://'+TMP+'/lo','--headless','--convert-to',fmt,'--outdir',OUT,src],check=True,capture_output=True,timeout=150)
def tr(cs,tag='td'): return '<tr>'+''.join(f'<{tag}>{str(c).replace("<","&lt;") if "<br" not in str(c) and "<su" not in str(c) else c}</{tag}>' for c in cs)+'</tr>\n'
