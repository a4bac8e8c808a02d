"""What the makers of reports share: waters whose ions balance, and expectations written as the values are printed. They land
beside the maker that is run."""
import json, math, os, random, subprocess, html, re, sys, tempfile
D = os.path.dirname(os.path.abspath(sys.argv[0])); T = tempfile.mkdtemp()
rnd = random.Random()
def water(ca, mg, na, k, cl, so4, no3):
    cat = ca/20.039 + mg/12.1525 + na/22.99 + k/39.098; an = cl/35.453 + so4/48.03 + no3/62.005
    a = cat - an; assert a > 0.02, a
    w = dict(ca=ca, mg=mg, na=na, k=k, cl=cl, so4=so4, no3=no3, no3n=no3/4.4266, ks=a, hco3=a*61.017, alk=a*50.043, mmol=ca/40.078+mg/24.305)
    w["hard"] = w["mmol"]*100.087; w["cah"] = ca/40.078*100.087; w["mgh"] = mg/24.305*100.087
    for p, q in (("dH", 17.848), ("fH", 10.009), ("e", 14.254), ("gpg", 17.118)): w[p] = w["hard"]/q
    w["kh"] = w["alk"]/17.848; w["tac"] = w["alk"]/10.009
    I = 0.0005*(4*ca/40.078+4*mg/24.305+na/22.99+k/39.098+cl/35.453+4*so4/96.06+no3/62.005+a)
    y = 10**(-0.5*(math.sqrt(I)/(1+math.sqrt(I))-0.3*I))
    e0 = 59.5*ca/20.039+53*mg/12.1525+50.1*na/22.99+73.5*k/39.098+44.5*a+76.3*cl/35.453+80*so4/48.03+71.4*no3/62.005
    w["ec25"] = e0*y*y; w["ec20"] = w["ec25"]/1.116; w["tds"] = ca+mg+na+k+cl+so4+no3+0.49*w["hco3"]+6
    return w
class R:
    def __init__(s, file, lang, zone, either=(), ask=()): s.file, s.lang, s.zone, s.E, s.either, s.ask = file, lang, zone, [], list(either), list(either)+list(ask)
    def v(s, det, basis, unit, stat, p, sample=None, lim=None, opt=False):
        "p as printed; returns p. below detection: '<x', or a word (ND, BDL, n.n. ...) with lim"
        q = p.replace(" ", "").replace(" ", "").replace(",", ".")
        m = re.fullmatch(r"(\d+(?:\.\d+)?)", q)
        if m: b, L, val = False, None, float(q)
        else:
            b, val = True, None; t = re.search(r"\d+(?:\.\d+)?", q); L = float(t.group()) if t else lim
        e = dict(determinand=det, basis=basis, unit=unit, statistic=stat, value=val, below_detection=b, detection_limit=L)
        if isinstance(s.zone, list): assert sample in s.zone, sample; e["sample"] = sample
        if opt or det == "aluminium": e["optional"] = True
        s.E.append(e); return p
    def done(s):
        base = s.file.rsplit(".", 1)[0]
        # Aluminium and magnesium counted as CaCO3 are not judged; bicarbonate as itself is counted as HCO3.
        E = [e for e in s.E if not (e.pop("optional", False) and e["determinand"] in ("aluminium", "magnesium"))]
        for e in E: e["basis"] = "HCO3" if (e["determinand"], e["basis"]) == ("bicarbonate", "ion") else e["basis"]
        lines = ",\n".join("  " + json.dumps(e, ensure_ascii=False) for e in E)
        open(f"{D}/{base}.expected.json", "w").write("{\n" + f' "file": {json.dumps(s.file)},\n "language": "{s.lang}",\n "sample_or_zone": {json.dumps(s.zone, ensure_ascii=False)},\n "readings": [\n{lines}\n ],\n "must_ask": {json.dumps(s.ask)},\n' + (f' "not_judged": {json.dumps(s.nj)},\n' if getattr(s,"nj",None) else "") + ' "contradiction": null\n' + "}\n")
        print(s.file, len(s.E))
def n(x, d=1, c=False):
    t = f"{x:.{d}f}"; return t.replace(".", ",") if c else t
def tri(x, d=1, c=False, lo=.88, hi=1.12):
    return [n(x*(lo+.06*rnd.random()-.03), d, c), n(x, d, c), n(x*(hi+.06*rnd.random()-.03), d, c)]
MMM = ["min", "mean", "max"]
I, N, P, CA, O = "ion", "N", "P", "CaCO3", None
M, U, US = "mg/L", "µg/L", "µS/cm"
def chromium(h, out, landscape=False):
    p = f"{T}/{out}.html"; open(p, "w").write(h)
    subprocess.run(["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer", f"--print-to-pdf={D}/{out}.pdf", p], check=True, capture_output=True, timeout=120)
def soffice(src, fmt, outdir, infilter=None):
    subprocess.run(["soffice", f"-env:UserInstallation=file://{T}/lo", "--headless"] + ([f"--infilter={infilter}"] if infilter else []) + ["--convert-to", fmt, "--outdir", outdir, src], check=True, capture_output=True, timeout=200)
