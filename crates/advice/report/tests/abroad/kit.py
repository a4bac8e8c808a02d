"""What the makers of test reports share: waters whose ions balance, expectations by what was generated, producers.

An expectation is written from the text that goes into the report, never from what was read of it.
"""
import csv, io, json, os, subprocess, tempfile

# --- waters -------------------------------------------------------------------------------------------------------
MASS = dict(ca=40.078, mg=24.305, na=22.990, k=39.098, hco3=61.017, cl=35.453, so4=96.06, no3=62.005)
CHARGE = dict(ca=2, mg=2, na=1, k=1, hco3=1, cl=1, so4=2, no3=1)
# Limiting equivalent conductivities at 25 °C, S cm²/eq: CRC handbook.
LIMITING = dict(ca=59.47, mg=53.0, na=50.08, k=73.48, hco3=44.5, cl=76.31, so4=80.0, no3=71.42)

def water(**w):
    """Bicarbonate from the balance, then hardness, alkalinity, conductivity (Standard Methods 2510)."""
    meq = lambda i: w.get(i, 0.0) / MASS[i] * CHARGE[i]
    w["hco3"] = (sum(map(meq, ("ca", "mg", "na", "k"))) - sum(map(meq, ("cl", "so4", "no3")))) * MASS["hco3"]
    assert w["hco3"] > 0, w
    c = {i: w.get(i, 0.0) / MASS[i] for i in MASS}
    strength = 0.5e-3 * sum(c[i] * CHARGE[i] ** 2 for i in c)
    y = 10 ** (-0.5 * (strength ** 0.5 / (1 + strength ** 0.5) - 0.3 * strength))
    w["k25"] = sum(LIMITING[i] * c[i] * CHARGE[i] for i in c) * y * y
    w["k20"] = w["k25"] / 1.116  # EN 27888
    w["th"] = c["ca"] + c["mg"]  # mmol/L
    w["ks"] = c["hco3"]          # mmol/L, acid to pH 4.3
    w["dh"], w["fh"], w["clark"] = w["th"] * 5.608, w["th"] * 10.009, w["th"] * 7.02
    w["kh"], w["tac"] = w["ks"] * 2.804, w["ks"] * 5.0045
    w["th_caco3"], w["alk_caco3"] = w["th"] * 100.09, w["ks"] * 50.04
    return w

CHALK = water(ca=104.0, mg=7.6, na=14.2, k=1.9, cl=27.4, so4=32.1, no3=25.3, ph=7.35)
RIVER = water(ca=61.2, mg=11.4, na=31.5, k=4.2, cl=46.3, so4=52.8, no3=12.7, ph=7.72)
MOOR = water(ca=14.3, mg=2.1, na=8.4, k=0.7, cl=11.2, so4=9.6, no3=1.8, ph=8.05)
MARL = water(ca=83.5, mg=31.2, na=9.8, k=2.4, cl=18.6, so4=71.4, no3=8.9, ph=7.51)
DRY = water(ca=48.4, mg=22.6, na=96.7, k=5.3, cl=118.2, so4=84.5, no3=6.1, ph=7.94)

# --- expectations -------------------------------------------------------------------------------------------------
UNSEEN = ("nd", "n.d.", "n.n.", "nn", "not detected", "bdl", "no detectado", "n.a.t.", "non détecté")

class Report:
    """The readings of one report, gathered while it is written. `kinds`: determinand -> (basis, unit)."""

    def __init__(self, here, file, language, kinds, decimal=".", thousands=""):
        self.here, self.file, self.language, self.kinds = here, file, language, kinds
        self.decimal, self.thousands = decimal, thousands
        self.readings, self.samples = [], []

    def text(self, x, digits):
        t = f"{x:,.{digits}f}".replace(",", "\0").replace(".", self.decimal)
        return t.replace("\0", self.thousands)

    def of(self, det, stat, text, sample=None, basis=0, unit=0, limit=None):
        """A value as it is printed; handed back. `limit`: what a column of detection limits says."""
        b, u = self.kinds[det]
        b, u = (b if basis == 0 else basis), (u if unit == 0 else unit)
        below = text.startswith("<") or text.lower() in UNSEEN
        digits = "".join(c for c in text if c.isdigit() or c == self.decimal).replace(self.decimal, ".")
        number = float(digits) if any(c.isdigit() for c in digits) else limit
        r = {"determinand": det, "basis": b, "unit": u, "statistic": stat, "value": None if below else number,
             "below_detection": below, "detection_limit": number if below else None}
        if sample is not None:
            r["sample"] = sample
            if sample not in self.samples: self.samples.append(sample)
        self.readings.append(r)
        return text

    def v(self, det, stat, x, digits, sample=None, **more):
        """A number, printed with so many decimals."""
        return self.of(det, stat, self.text(x, digits), sample, **more)

    def low_mid_high(self, det, x, digits, sample=None, spread=0.06, **more):
        step = 0.15 if det == "ph" else spread * x
        return [self.v(det, s, x + f * step, digits, sample, **more) for s, f in (("min", -1), ("mean", 0), ("max", 1.2))]

    def done(self, must_ask=(), contradiction=None, not_judged=()):
        head = {"file": self.file, "language": self.language,
                "sample_or_zone": self.samples or None, "must_ask": list(must_ask), "contradiction": contradiction}
        if not_judged: head["not_judged"] = list(not_judged)
        lines = ",\n  ".join(json.dumps(r, ensure_ascii=False) for r in self.readings)
        name = os.path.splitext(self.file)[0] + ".expected.json"
        with open(os.path.join(self.here, name), "w") as f:
            f.write("{" + json.dumps(head, ensure_ascii=False)[1:-1] + ',\n "readings": [\n  ' + lines + "\n ]}\n")

    def put(self, data, encoding="utf-8"):
        with open(os.path.join(self.here, self.file), "wb") as f:
            f.write(data if isinstance(data, bytes) else data.encode(encoding))

# --- producers ----------------------------------------------------------------------------------------------------
def run(*words, **more):
    subprocess.run(words, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, **more)

def csv_text(rows, delimiter=",", quoting=csv.QUOTE_MINIMAL):
    out = io.StringIO(); csv.writer(out, delimiter=delimiter, lineterminator="\r\n", quoting=quoting).writerows(rows)
    return out.getvalue()

def inside(suffix, text, make):
    """Write a text into a temporary folder and hand back what `make(folder, path)` leaves."""
    with tempfile.TemporaryDirectory() as d:
        p = os.path.join(d, "a" + suffix)
        with open(p, "wb") as f: f.write(text if isinstance(text, bytes) else text.encode())
        with open(make(d, p), "rb") as f: return f.read()

def office(data, suffix, to):
    def make(d, p):
        run("soffice", "--headless", f"-env:UserInstallation=file://{d}/profile", "--convert-to", to, "--outdir", os.path.join(d, "out"), p)
        return os.path.join(d, "out", "a." + to.split(":")[0])
    return inside(suffix, data, make)

def chromium(html):
    def make(d, p):
        run("chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer", f"--user-data-dir={d}/u", f"--print-to-pdf={d}/a.pdf", "file://" + p)
        return os.path.join(d, "a.pdf")
    return inside(".html", html, make)

def latex(body, preamble=""):
    source = ("\\documentclass[a4paper]{article}\\usepackage[utf8]{inputenc}\\usepackage[T1]{fontenc}\\usepackage{textcomp}"
              "\\usepackage[margin=2cm]{geometry}" + preamble + "\\begin{document}" + body + "\\end{document}")
    def make(d, p):
        run("pdflatex", "-interaction=batchmode", "a.tex", cwd=d, env={**os.environ, "SOURCE_DATE_EPOCH": "1700000000"})
        return os.path.join(d, "a.pdf")
    return inside(".tex", source, make)

def groff(source):
    def make(d, p):
        with open(os.path.join(d, "a.pdf"), "wb") as out:
            subprocess.run(["groff", "-t", "-k", "-ms", "-Tpdf", p], check=True, stdout=out, stderr=subprocess.DEVNULL)
        return os.path.join(d, "a.pdf")
    return inside(".ms", source, make)

def weasy(html):
    import weasyprint
    return weasyprint.HTML(string=html).write_pdf()

def story(html):
    import pymupdf
    out = io.BytesIO(); writer = pymupdf.DocumentWriter(out); story = pymupdf.Story(html=html)
    page = pymupdf.paper_rect("a4"); more = 1
    while more:
        device = writer.begin_page(page); more, _ = story.place(page + (40, 40, -40, -40)); story.draw(device); writer.end_page()
    writer.close()
    return out.getvalue()

def rewritten(pdf):
    """By ghostscript."""
    def make(d, p):
        run("gs", "-q", "-dNOPAUSE", "-dBATCH", "-sDEVICE=pdfwrite", f"-sOutputFile={d}/b.pdf", p)
        return os.path.join(d, "b.pdf")
    return inside(".pdf", pdf, make)

def cairo(draw, width=595, height=842):
    import cairocffi
    out = io.BytesIO(); surface = cairocffi.PDFSurface(out, width, height); context = cairocffi.Context(surface)
    context.select_font_face("DejaVu Sans"); draw(context); surface.finish()
    return out.getvalue()
